//! What was found about a case: one thing a person should know, and all of them.

use std::borrow::Cow;

use super::table::RULES;
use super::{Case, Doubt, FindingId, Judged, Level, rollers, runout_swing};
use crate::analysis::Uncertainty;
use crate::geometry::RollerOnPlate;
use crate::unit::ExampleCount;
use crate::units::{Sentence, System};

/// One thing a person should know.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    /// Which it is.
    pub id: FindingId,
    /// How it stands to its limits.
    pub level: Level,
    /// What was found, with the numbers.
    pub text: Sentence,
    /// Why the readings are not sure enough to tell; none where they are.
    pub doubt: Option<Doubt>,
}

impl Finding {
    /// What it is about, or what is wrong where it is surely over its limit.
    #[must_use]
    pub const fn title(&self) -> &'static str {
        match (self.level, self.doubt, self.id.in_soil()) {
            (Level::Over, None, Some(in_soil)) => in_soil,
            _ => self.id.title(),
        }
    }

    /// The level that its symbol shows: whatever is undecided should be watched, on whichever side of
    /// the limit its number reads.
    #[must_use]
    pub fn shown_level(&self) -> Level {
        match self.doubt {
            Some(_) => Level::Watch,
            None => self.level,
        }
    }

    /// Its level, and whether the readings are sure enough to tell.
    #[must_use]
    pub fn standing(&self) -> &'static str {
        match self.doubt {
            None => self.level.word(),
            Some(_) => self.level.word_undecided(),
        }
    }

    /// The same while so many readings are examples: what is no more than fine should be watched then.
    #[must_use]
    pub fn standing_on(&self, examples: ExampleCount) -> Cow<'static, str> {
        match (self.level, self.doubt) {
            _ if examples.is_none() => self.standing().into(),
            (Level::Fine, None) => self.level.word_resting_on(examples).into(),
            (Level::Fine, Some(_)) => "undecided, example readings".into(),
            (Level::Watch | Level::Over, _) => format!("{}, by examples", self.standing()).into(),
        }
    }

    /// Text and doubt in one, in a reader's units.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        let mut text = self.text.shown_in(system);
        if let Some(doubt) = self.doubt {
            text.push(' ');
            text.push_str(&doubt.sentence().shown_in(system));
        }
        text
    }
}

/// The findings about one case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Findings([Option<Finding>; RULES.len()]);

impl Findings {
    /// Judges a case by every rule.
    #[must_use]
    pub fn about(case: &Case) -> Self {
        Self(RULES.each_ref().map(|rule| {
            (rule.judge)(case).map(|verdict| Finding {
                id: rule.finding,
                level: verdict.level,
                text: verdict.text,
                doubt: None,
            })
        }))
    }

    /// The same, each told to be in doubt where a limit lies within what its number can be off.
    #[must_use]
    pub fn doubted(mut self, case: &Case, uncertainty: &Uncertainty) -> Self {
        for (rule, finding) in RULES.iter().zip(&mut self.0) {
            let judged = (rule.measure)(case);
            if let (Some(finding), Some(judged), Some(number)) = (finding, judged, rule.number) {
                let off = uncertainty.in_doubt_within(number);
                finding.doubt = judged.doubt(off);
            }
        }
        self
    }

    /// The roller that the finding about rollers tells of: one that overlaps another part before one that
    /// stands too far off, or else the one moved further.
    #[must_use]
    pub fn roller_at_fault<'a>(case: &Case<'a>) -> &'a RollerOnPlate {
        rollers::at_fault(case)
    }

    /// The roller whose runout swings the edge more.
    #[must_use]
    pub fn roller_that_swings<'a>(case: &Case<'a>) -> &'a RollerOnPlate {
        runout_swing::of_roller(case)
    }

    /// Whether one of the limits of a finding that ends a window lies within what its number can be off.
    pub(in crate::analysis) fn is_doubted(
        case: &Case,
        finding: FindingId,
        uncertainty: &Uncertainty,
    ) -> bool {
        // Of what is told about rollers the knife alone ends a window.
        let judged = match finding {
            FindingId::Rollers => Some(rollers::to_knife(case)),
            _ => Self::judged(case, finding),
        };
        judged
            .zip(finding.number())
            .is_some_and(|(judged, number)| {
                let off = uncertainty.in_doubt_within(number);
                judged.doubt(off).is_some()
            })
    }

    /// The number that a finding judges, with its limits; none when it does not apply, or no one
    /// number decides.
    #[must_use]
    pub fn judged(case: &Case, id: FindingId) -> Option<Judged> {
        (id.rule().measure)(case)
    }

    /// Every number that is judged and that an adjustment changes, by its finding.
    pub fn adjustable(case: &Case) -> impl Iterator<Item = (FindingId, Judged)> {
        let rules = RULES.iter().filter(|rule| rule.is_adjustable);
        rules.filter_map(|rule| Some((rule.finding, (rule.measure)(case)?)))
    }

    /// Every number that is judged, by its finding.
    pub fn all_judged(case: &Case) -> impl Iterator<Item = (FindingId, Judged)> {
        let rules = RULES.iter();
        rules.filter_map(|rule| Some((rule.finding, (rule.measure)(case)?)))
    }

    /// One of them; none when it does not apply.
    #[must_use]
    pub fn get(&self, id: FindingId) -> Option<&Finding> {
        self.iter().find(|finding| finding.id == id)
    }

    /// The level of a finding; none when it does not apply.
    #[must_use]
    pub fn level_of(&self, id: FindingId) -> Option<Level> {
        self.get(id).map(|finding| finding.level)
    }

    /// The level that the sweep is drawn in, resting on so many examples. Without a height of cut there is
    /// no share to judge, and it is not fine.
    #[must_use]
    pub fn drawn_sweep(&self, examples: ExampleCount) -> Level {
        let level = self.level_of(FindingId::Sweep);
        level.unwrap_or(Level::Over).resting_on(examples)
    }

    /// Those that apply, in the order they are told.
    pub fn iter(&self) -> impl Iterator<Item = &Finding> {
        self.0.iter().flatten()
    }

    /// The level that the symbol of all of them shows.
    #[must_use]
    pub fn shown_level(&self) -> Level {
        let levels = self.iter().map(Finding::shown_level);
        levels.max().unwrap_or(Level::Fine)
    }

    /// Whether the readings are not sure enough for one of them.
    #[must_use]
    pub fn are_in_doubt(&self) -> bool {
        self.iter().any(|finding| finding.doubt.is_some())
    }

    /// The worst level among them.
    #[must_use]
    pub fn worst(&self) -> Level {
        let levels = self.iter().map(|finding| finding.level);
        levels.max().unwrap_or(Level::Fine)
    }
}
