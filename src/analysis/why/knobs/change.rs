//! What is asked of a knob, and what it answers: a change, or why there is none.

use super::Knob;
use crate::analysis::{FindingId, Judged, Level};
use crate::unit::Fitted;
use crate::units::{Length, Sentence, Value};

/// Which limit of a finding is aimed at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Goal {
    /// The one within which it is fine.
    #[default]
    Fine,
    /// The one past which it is too much.
    NotOver,
}

impl Goal {
    /// Whether a limit of this level is aimed at.
    pub(super) fn counts(self, level: Level) -> bool {
        self == Self::Fine || level == Level::Over
    }

    /// How the limits that count are kept, in base units; negative past one.
    pub(super) fn margins(self, judged: &Judged) -> Vec<f64> {
        let value = judged.value.base();
        let bounds = judged.limits().filter(|bound| self.counts(bound.level));
        bounds.map(|bound| bound.margin(value)).collect()
    }

    /// The least of them; none where no limit counts.
    pub(super) fn least_margin(self, judged: &Judged) -> Option<f64> {
        let value = judged.value.base();
        let bounds = judged.limits().filter(|bound| self.counts(bound.level));
        bounds.map(|bound| bound.margin(value)).reduce(f64::min)
    }

    /// Whether every limit that counts is kept.
    pub(super) fn is_kept(self, judged: &Judged) -> bool {
        self.margins(judged).iter().all(|margin| *margin >= 0.0)
    }
}

/// Why a knob brings nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WhyNot {
    /// It does not change what the finding judges.
    HasNoPart,
    /// Nothing in its range reaches the limit.
    OutOfReach {
        /// Where the range begins.
        low: Value,
        /// Where it ends.
        high: Value,
    },
    /// The edge stands in the ground: only height brings it out.
    EdgeInGround,
    /// Metal can only come off, and that makes it worse.
    OtherWay,
    /// The lip is ground away.
    NoMetalLeft,
    /// The speeds are not known.
    NoSpeeds,
    /// The limit would need a speed of zero.
    NoSuchSpeed,
    /// No other knife is listed.
    NoOtherKnife,
    /// None of the listed knives does it.
    NoKnifeReaches,
    /// There is nothing to true.
    NothingToTrue,
    /// It is done, and the limit is still passed.
    NotEnough,
    /// It stands on the limit.
    AtLimit,
    /// The finding is within its limit already, and this knob cannot take it out.
    WithinAlready,
}

impl WhyNot {
    /// The reason as a sentence.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        match *self {
            Self::HasNoPart => Sentence::new("It does not change this.", &[]),
            Self::OutOfReach { low, high } => Sentence::new(
                "Looked from {} to {}: nothing there reaches the limit.",
                &[low, high],
            ),
            Self::EdgeInGround => Sentence::new(
                "The edge stands in the ground: the height of cut comes first.",
                &[],
            ),
            Self::OtherWay => {
                Sentence::new("Grinding goes the other way: it makes this worse.", &[])
            }
            Self::NoMetalLeft => Sentence::new("No metal is left to grind.", &[]),
            Self::NoSpeeds => Sentence::new("The speeds are not known.", &[]),
            Self::NoSuchSpeed => Sentence::new("The limit allows no clip at all.", &[]),
            Self::NoOtherKnife => Sentence::new("No other knife is listed.", &[]),
            Self::NoKnifeReaches => Sentence::new("None of the listed knives reaches it.", &[]),
            Self::NothingToTrue => Sentence::new("There is nothing to true.", &[]),
            Self::NotEnough => Sentence::new("It helps, but not as far as the limit.", &[]),
            Self::AtLimit => Sentence::new("It stands on the limit now.", &[]),
            Self::WithinAlready => Sentence::new("It is within its limit already.", &[]),
        }
    }
}

/// Another finding's number, before and after a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Other {
    /// The finding.
    pub id: FindingId,
    /// As it is now.
    pub before: Judged,
    /// As it would be.
    pub after: Judged,
}

impl Other {
    /// Whether a person must be told: it stands otherwise than before, or is past a limit and
    /// further than before.
    #[must_use]
    pub fn is_notable(&self) -> bool {
        let level = self.after.level();
        level != self.before.level()
            || level > Level::Fine && self.after.margin() < self.before.margin()
    }
}

/// A change of one knob.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Where the knob goes to.
    pub to: Value,
    /// Where a trial sets it: by a hair on the good side of the limit.
    pub trial: Value,
    /// How far it turns.
    pub by: Value,
    /// The knife to fit.
    pub knife: Option<Fitted>,
    /// How far the front and the rear roller move from where they stand now.
    pub rollers: (Length, Length),
    /// What the finding judges, as it would be.
    pub after: Judged,
    /// The other findings whose number changes, the worst first.
    pub others: Vec<Other>,
}

/// What one knob would do for one finding.
#[derive(Clone, Debug, PartialEq)]
pub struct KnobAnswer {
    /// The knob.
    pub knob: Knob,
    /// The finding.
    pub finding: FindingId,
    /// Whether the finding is within the limit as the unit stands: then the way there is room left.
    pub is_within: bool,
    /// To the finding's limit.
    pub to_limit: Result<Change, WhyNot>,
    /// To the middle of the window in which this and every other limit hold.
    pub to_middle: Option<Change>,
}
