//! Findings: what a person should know about a setting, each judged by one function in one file.
//!
//! To add one: a file with a `judge` function, and its line in `RULES`.

// Every `judge` may say that it does not apply, also those that always do.
#![allow(clippy::unnecessary_wraps)]

mod ahead;
mod attitude;
mod clip;
mod cut;
mod judged;
mod lip;
mod low_end;
mod reel;
mod rollers;
mod scrap;
mod sweep;
mod underside;

pub use judged::{Bound, Judged, Side};

use crate::geometry::{Setting, Stance};
use crate::unit::Unit;
use crate::units::{Angle, Length, Sentence, System, Value};

use super::knives::{Margins, attitude_range};
use super::{Output, Solution, Uncertainty};

/// How a finding stands to its limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Within its limits.
    Fine,
    /// Worth watching.
    Watch,
    /// Past its limit.
    Over,
}

impl Level {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fine => "fine",
            Self::Watch => "watch",
            Self::Over => "over",
        }
    }
}

/// What is judged: a unit, one of its settings, and its solution.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// The unit.
    pub unit: &'a Unit,
    /// The setting solved.
    pub setting: &'a Setting,
    /// Its solution.
    pub solution: &'a Solution,
}

/// One thing a person should know.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    /// Its name for programs; never changes.
    pub id: &'static str,
    /// What it is about.
    pub title: &'static str,
    /// How it stands to its limits.
    pub level: Level,
    /// What was found, with the numbers.
    pub text: Sentence,
    /// What would bring it back, where something does.
    pub remedy: Option<Sentence>,
    /// Why the readings are not sure enough to tell; nothing where they are.
    pub doubt: Option<Doubt>,
}

/// A limit that lies within what a number can be off.
///
/// After the decision rule of ISO 14253-1: neither that the limit is kept nor that it is passed is
/// shown while the number lies nearer to it than its expanded uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubt {
    /// The expanded uncertainty of the number that is judged, k = 2.
    pub off: Value,
    /// The limit.
    pub limit: Value,
}

impl Doubt {
    /// The doubt as a sentence.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        Sentence::new(
            "Cannot tell: with the readings' ± it is known to ± {} (k = 2), and the limit of {} lies within that.",
            &[self.off, self.limit],
        )
    }
}

impl Finding {
    /// The level that its symbol shows: what is fine only as measured wants watching.
    #[must_use]
    pub fn shown_level(&self) -> Level {
        match (self.level, self.doubt) {
            (Level::Fine, Some(_)) => Level::Watch,
            (level, _) => level,
        }
    }

    /// Its level, and whether the readings are sure enough to tell.
    #[must_use]
    pub fn standing(&self) -> &'static str {
        match (self.level, self.doubt) {
            (level, None) => level.word(),
            (Level::Fine, Some(_)) => "fine as measured, cannot tell",
            (Level::Watch, Some(_)) => "watch as measured, cannot tell",
            (Level::Over, Some(_)) => "over as measured, cannot tell",
        }
    }

    /// Text and remedy in one, in a reader's units.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        let mut text = self.text.shown_in(system);
        if let Some(doubt) = self.doubt {
            text.push(' ');
            text.push_str(&doubt.sentence().shown_in(system));
        }
        if let Some(remedy) = self.remedy {
            text.push(' ');
            text.push_str(&remedy.shown_in(system));
        }
        text
    }
}

/// A level, a sentence, and what would bring it back.
struct Verdict {
    level: Level,
    text: Sentence,
    remedy: Option<Sentence>,
}

/// Gives the number that a finding judges.
pub type Measure = fn(&Case) -> Option<Judged>;

/// One kind of finding. `judge` gives nothing when it does not apply, `measure` nothing when no one
/// number decides.
struct Rule {
    id: &'static str,
    title: &'static str,
    measure: Measure,
    /// What `measure` gives, for its uncertainty.
    output: Option<Output>,
    judge: fn(&Case) -> Option<Verdict>,
}

/// Every kind of finding, in the order they are told.
const RULES: [Rule; 12] = [
    Rule {
        id: Findings::SWEEP,
        title: "Sweep below the cut",
        measure: sweep::measure,
        output: Some(Output::SweepShare),
        judge: sweep::judge,
    },
    Rule {
        id: "ahead",
        title: "Edge and centre",
        measure: ahead::measure,
        output: Some(Output::BehindCentre),
        judge: ahead::judge,
    },
    Rule {
        id: "reel",
        title: "Reel over the ground",
        measure: reel::measure,
        output: Some(Output::ReelOnGround),
        judge: reel::judge,
    },
    Rule {
        id: "low_end",
        title: "Reel at the low end",
        measure: low_end::measure_reel,
        output: Some(Output::ReelAtLowEnd),
        judge: low_end::judge_reel,
    },
    Rule {
        id: "cut",
        title: "Edge over the ground",
        measure: cut::measure,
        output: Some(Output::CutOnGround),
        judge: cut::judge,
    },
    Rule {
        id: "underside",
        title: "Underside of the knife",
        measure: underside::measure,
        output: Some(Output::UndersideOnGround),
        judge: underside::judge,
    },
    Rule {
        id: "low_end_underside",
        title: "Underside at the low end",
        measure: low_end::measure_underside,
        output: Some(Output::UndersideAtLowEnd),
        judge: low_end::judge_underside,
    },
    Rule {
        id: "lip",
        title: "Lip of the knife",
        measure: lip::measure,
        output: Some(Output::LipBottom),
        judge: lip::judge,
    },
    Rule {
        id: "scrap",
        title: "Reel size",
        measure: scrap::measure,
        output: Some(Output::ReelDiameter),
        judge: scrap::judge,
    },
    Rule {
        id: "clip",
        title: "Clip length",
        measure: clip::measure,
        output: Some(Output::ClipToCut),
        judge: clip::judge,
    },
    Rule {
        id: "rollers",
        title: "Rollers",
        measure: |_| None,
        output: None,
        judge: rollers::judge,
    },
    Rule {
        id: "attitude",
        title: "Roller brackets",
        measure: attitude::measure,
        output: Some(Output::Attitude),
        judge: attitude::judge,
    },
];

/// The findings about one case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Findings([Option<Finding>; RULES.len()]);

impl Findings {
    /// Judges a case by every rule.
    #[must_use]
    pub fn about(case: &Case) -> Self {
        Self(RULES.each_ref().map(|rule| {
            (rule.judge)(case).map(|verdict| Finding {
                id: rule.id,
                title: rule.title,
                level: verdict.level,
                text: verdict.text,
                remedy: verdict.remedy,
                doubt: None,
            })
        }))
    }

    /// The same, each told to be in doubt where a limit lies within what its number can be off.
    #[must_use]
    pub fn doubted(mut self, case: &Case, uncertainty: &Uncertainty) -> Self {
        for (rule, finding) in RULES.iter().zip(&mut self.0) {
            let judged = (rule.measure)(case);
            if let (Some(finding), Some(judged), Some(output)) = (finding, judged, rule.output) {
                let off = uncertainty.in_doubt_within(output);
                finding.doubt = judged.doubt(off);
            }
        }
        self
    }

    /// The number that a finding judges, for its uncertainty.
    #[must_use]
    pub fn output_of(id: &str) -> Option<Output> {
        RULES.iter().find(|rule| rule.id == id)?.output
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

    /// What gives the number that a finding judges, with its limits; nothing for a name that no
    /// finding has. It gives nothing when the finding does not apply, or no one number decides.
    #[must_use]
    pub fn measure_of(id: &str) -> Option<Measure> {
        let rule = RULES.iter().find(|rule| rule.id == id)?;
        Some(rule.measure)
    }

    /// The number that a finding judges, with its limits; nothing when it does not apply, or no
    /// one number decides.
    #[must_use]
    pub fn judged(case: &Case, id: &str) -> Option<Judged> {
        Self::measure_of(id)?(case)
    }

    /// Every number that is judged, by the finding's name and title.
    pub fn all_judged(case: &Case) -> impl Iterator<Item = (&'static str, &'static str, Judged)> {
        RULES
            .iter()
            .filter_map(move |rule| Some((rule.id, rule.title, (rule.measure)(case)?)))
    }

    /// Name of the finding about the sweep, by which the drawing paints what is below the cut.
    pub const SWEEP: &'static str = "sweep";

    /// The level of a finding; nothing when it does not apply.
    #[must_use]
    pub fn level_of(&self, id: &str) -> Option<Level> {
        self.iter()
            .find(|finding| finding.id == id)
            .map(|finding| finding.level)
    }

    /// Those that apply, in the order they are told.
    pub fn iter(&self) -> impl Iterator<Item = &Finding> {
        self.0.iter().flatten()
    }

    /// The worst level among them.
    #[must_use]
    pub fn worst(&self) -> Level {
        self.iter()
            .map(|finding| finding.level)
            .max()
            .unwrap_or(Level::Fine)
    }
}

/// A clearance that is too little at nothing.
fn above_ground(clearance: Length) -> Judged {
    let bound = Bound::new(Level::Over, Side::MoreThan, Length::ZERO);
    Judged::by(clearance, [Some(bound), None])
}

/// A clearance that wants some room, and is too little at nothing.
fn with_room(clearance: Length, least: Length) -> Judged {
    let bounds = [
        Bound::new(Level::Watch, Side::AtLeast, least),
        Bound::new(Level::Over, Side::MoreThan, Length::ZERO),
    ];
    Judged::by(clearance, bounds.map(Some))
}

/// How far inside a limit advice aims, so that what is set by it to the digits shown stays inside.
const INSIDE: f64 = 0.03;

impl Case<'_> {
    /// Another attitude at the same height of cut, if it can be set and keeps every other limit.
    fn at_attitude(&self, attitude: Angle) -> Option<Solution> {
        let height_of_cut = self.solution.pose.height_of_cut;
        let (low, high) = attitude_range(self.unit);
        if height_of_cut.mm() <= 0.0 || attitude < low || attitude > high {
            return None;
        }
        let stance = Stance::Wanted {
            attitude,
            height_of_cut,
        };
        let tried = Setting {
            stance,
            ..*self.setting
        };
        let solution = Solution::of(self.unit, &tried).ok()?;
        Margins::of(self.unit, &tried, &solution)
            .are_kept()
            .then_some(solution)
    }

    /// Advice to set another attitude, with the roller moves from where they stand now. Nothing
    /// when it cannot be set or breaks another limit.
    fn advise_attitude(&self, attitude: Angle) -> Option<Sentence> {
        let other = self.at_attitude(attitude)?;
        let (now, then) = (&self.solution.pose, &other.pose);
        Some(Sentence::new(
            "At this height of cut an attitude of {} would bring it back and keep the other limits: front roller {}, rear roller {} from where they stand now; the underside would then clear the ground by {}.",
            &[
                attitude.into(),
                Value::Move(then.front_roller.moved - now.front_roller.moved),
                Value::Move(then.rear_roller.moved - now.rear_roller.moved),
                other.on_ground.underside_clearance.into(),
            ],
        ))
    }

    /// Advice to raise the unit by more than so much, attitude kept.
    fn advise_clearing(&self, by: Length) -> Sentence {
        let moved = self.solution.pose.roller_move_to_raise(by);
        Sentence::new(
            "Raising the height of cut by more than {}, both rollers down by more than {}, would bring it clear.",
            &[by.into(), moved.into()],
        )
    }

    /// Advice to raise the unit by so much, attitude kept.
    fn advise_raising(&self, by: Length) -> Sentence {
        let moved = self.solution.pose.roller_move_to_raise(by);
        Sentence::new(
            "Raising the height of cut by {}, both rollers down by {}, would bring it back.",
            &[by.into(), moved.into()],
        )
    }
}
