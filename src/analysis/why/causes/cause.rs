//! A mechanism that can make a mark, and how strong it is now.

use crate::analysis::caution::{at_grinder_or_lathe, hands_on};
use std::f64::consts::PI;

use crate::analysis::{Case, Finding, FindingId, Findings, Judged, Level, Side};
use crate::units::{Length, Measure as _, Sentence, Share};

/// How strong a mechanism is now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Strength {
    /// From zero at the ideal to one where it is over its limit and makes the mark by itself.
    Known(f64),
    /// A reading is missing.
    NotMeasured,
}

impl Strength {
    /// From here on a mechanism has a part in the mark.
    const PART: f64 = 0.5;

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::NotMeasured => "not measured",
            Self::Known(strength) if strength >= 1.0 => "can make this mark",
            Self::Known(strength) if strength >= Self::PART => "plays a part",
            Self::Known(strength) if strength > 0.0 => "weak, plays no part alone",
            Self::Known(_) => "plays no part",
        }
    }

    /// Whether it makes the mark by itself.
    #[must_use]
    pub fn makes_it(self) -> bool {
        matches!(self, Self::Known(strength) if strength >= 1.0)
    }

    /// Whether it has a part in the mark.
    #[must_use]
    pub fn has_part(self) -> bool {
        matches!(self, Self::Known(strength) if strength >= Self::PART)
    }

    /// For ranking: what was not measured stands between what has a part and what is weak.
    pub(super) fn rank(self) -> f64 {
        match self {
            Self::Known(strength) => strength,
            Self::NotMeasured => Self::PART - 1e-6,
        }
    }
}

/// A mechanism that can make a mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// Its name for programs; never changes.
    pub id: &'static str,
    /// Its name.
    pub name: &'static str,
    /// How strong it is.
    pub strength: Strength,
    /// The numbers.
    pub text: Sentence,
    /// The measurement that would confirm it.
    pub confirm: &'static str,
    /// What would cure it.
    pub cure: Cure,
    /// The finding that judges the very number of it; none where none does.
    pub judged_by: Option<JudgedBy>,
}

/// The finding that judges the very number of a cause.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JudgedBy {
    /// Which it is.
    pub finding: FindingId,
    /// The number with those of its limits that lie on the cause's own side: a clip that is too short
    /// makes no ribs. None where whatever the finding tells is the cause's.
    pub own: Option<Judged>,
}

impl JudgedBy {
    /// A finding whatever it tells.
    pub(super) const fn whole(finding: FindingId) -> Self {
        Self { finding, own: None }
    }

    /// A finding by its limits whose good side is `side`.
    pub(super) fn on_side(case: &Case, finding: FindingId, side: Side) -> Option<Self> {
        let mut own = Findings::judged(case, finding)?;
        for bound in &mut own.bounds {
            *bound = bound.filter(|bound| bound.side == side);
        }
        let own = Some(own);
        Some(Self { finding, own })
    }

    /// A finding by its limits, of which none lies above `most_base`, where the cause begins.
    pub(super) fn from_below(case: &Case, finding: FindingId, most_base: f64) -> Option<Self> {
        let mut own = Findings::judged(case, finding)?;
        for bound in own.bounds.iter_mut().flatten() {
            bound.at_base = bound.at_base.min(most_base);
        }
        let own = Some(own);
        Some(Self { finding, own })
    }

    /// The level that it gives the cause's sign.
    fn level(&self, finding: &Finding) -> Level {
        let Some(own) = self.own else {
            return finding.shown_level();
        };
        // What the number can be off is told where any limit lies within it.
        let doubt = finding.doubt.and_then(|doubt| own.doubt(doubt.off.base()));
        match doubt {
            Some(_) => Level::Watch,
            None => own.level(),
        }
    }
}

/// What would cure a cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cure {
    /// The adjustments for this finding.
    Adjustments(FindingId),
    /// Something that no adjustment of this geometry does.
    Other(&'static str),
}

impl Cure {
    /// It as a sentence.
    #[must_use]
    pub fn told(self) -> String {
        match self {
            Self::Adjustments(finding) => {
                format!("the adjustments for \"{}\"", finding.title().to_lowercase())
            }
            Self::Other(told) => told.to_owned(),
        }
    }
}

impl Cause {
    /// Its cure as the findings stand: where the place that is judged everywhere keeps its limits and
    /// the low side does not, the low side's.
    #[must_use]
    pub fn cure_by(&self, findings: &Findings) -> Cure {
        let is_past = |id| {
            findings
                .level_of(id)
                .is_some_and(|level| level > Level::Fine)
        };
        let low_side = match self.cure {
            Cure::Adjustments(FindingId::Underside) => Some(FindingId::LowEndUnderside),
            Cure::Adjustments(FindingId::Reel) => Some(FindingId::LowEnd),
            _ => None,
        };
        match (self.cure, low_side) {
            (Cure::Adjustments(finding), Some(low_side))
                if !is_past(finding) && is_past(low_side) =>
            {
                Cure::Adjustments(low_side)
            }
            (cure, _) => cure,
        }
    }

    /// What is done about it where the finding that would cure it keeps its limits.
    #[must_use]
    pub fn way_on(&self, finding: FindingId) -> String {
        let title = finding.title();
        if matches!(
            finding,
            FindingId::Reel
                | FindingId::LowEnd
                | FindingId::Cut
                | FindingId::Underside
                | FindingId::LowEndUnderside
        ) {
            format!(
                "{title} is within its limits, so no adjustment is worked out for it. Measure as above: true a roller that runs out, set both ends to one height, raise the height of cut where the ground takes the rest. {}",
                concat!("Before each: ", hands_on!(), ". ", at_grinder_or_lathe!())
            )
        } else {
            format!(
                "{title} is within its limits, so no adjustment is worked out for it. Do the check above, then look at the other causes."
            )
        }
    }

    /// What is done about it as the findings stand, as a sentence.
    #[must_use]
    pub fn cure_told(&self, findings: &Findings) -> String {
        match self.cure_by(findings) {
            Cure::Adjustments(finding)
                if self.can_be_cured() && findings.level_of(finding) == Some(Level::Fine) =>
            {
                self.way_on(finding)
            }
            cure => cure.told(),
        }
    }

    /// The level that its sign shows: that of the finding that judges its number, so that one number has
    /// one sign wherever it is told, but for limits on a side that makes no such mark; or else by how much
    /// of the mark it makes. None where a reading is missing.
    #[must_use]
    pub fn level(&self, findings: &Findings) -> Option<Level> {
        if self.strength == Strength::NotMeasured {
            return None;
        }
        let judged = self
            .judged_by
            .and_then(|by| Some(by.level(findings.get(by.finding)?)));
        let by_strength = || {
            if self.strength.makes_it() {
                Level::Over
            } else if self.strength.has_part() {
                Level::Watch
            } else {
                Level::Fine
            }
        };
        Some(judged.unwrap_or_else(by_strength))
    }

    /// Whether there is anything to cure: it has a part in the mark, or nobody measured it and its
    /// cure is no adjustment, which needs a number to go by.
    #[must_use]
    pub fn can_be_cured(&self) -> bool {
        let is_open = self.strength == Strength::NotMeasured && matches!(self.cure, Cure::Other(_));
        is_open || self.strength.has_part()
    }

    /// How much of the amount there is that makes the mark alone, behind its strength in words: " (84 % of
    /// what it takes)"; empty where none is known or there is none.
    #[must_use]
    pub fn share_told(&self) -> String {
        const MOST_PERCENT: f64 = 999.0;
        let percent = self.share().map_or(0.0, |share| 100.0 * share.of_one());
        if percent > 0.0 {
            format!(" ({:.0} % of what it takes)", percent.min(MOST_PERCENT))
        } else {
            String::new()
        }
    }

    /// Its strength in percent of what makes the mark; none where a reading is missing.
    #[must_use]
    pub fn share(&self) -> Option<Share> {
        match self.strength {
            Strength::Known(strength) => Some(Share::from_base(strength)),
            Strength::NotMeasured => None,
        }
    }
}

/// The way round a circle.
pub(super) fn circumference(radius_mm: f64) -> Length {
    Length::from_mm(2.0 * PI * radius_mm)
}
