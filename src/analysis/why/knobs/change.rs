//! What is asked of a knob, and what it answers: a change, or why there is none.

use super::{Knob, NotSensible};
use crate::analysis::{FindingId, Judged, Level, Standing};
use crate::unit::{ExampleCount, Fitted};
use crate::units::{Angle, Length, Sentence, System, Value};

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

    /// The word for the limit that is aimed at.
    pub(super) fn limit_word(self, judged: &Judged) -> &'static str {
        match self {
            Self::Fine => judged.ok_limit_word(),
            Self::NotOver => "over limit",
        }
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
    /// Both rollers were measured and run true.
    NothingToTrue,
    /// Not both rollers' runout was measured.
    RunoutNotMeasured,
    /// Both ends were measured and stand at one height.
    NoEndDifference,
    /// The ends were not measured.
    EndsNotMeasured,
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
            Self::OutOfReach { low, high } => {
                Sentence::new("No setting from {} to {} reaches the limit.", &[low, high])
            }
            Self::EdgeInGround => Sentence::new(
                "The edge is in the ground: set the height of cut first.",
                &[],
            ),
            Self::OtherWay => {
                Sentence::new("Grinding works the other way: it makes this worse.", &[])
            }
            Self::NoMetalLeft => Sentence::new("No metal is left to grind.", &[]),
            Self::NoSpeeds => Sentence::new("The speeds are not known.", &[]),
            Self::NoSuchSpeed => Sentence::new("The limit allows no clip at all.", &[]),
            Self::NoOtherKnife => Sentence::new("No other knife is listed.", &[]),
            Self::NoKnifeReaches => Sentence::new(
                "None of the listed knives reaches the limit at this attitude; Knives looks for each one's own.",
                &[],
            ),
            Self::NothingToTrue => Sentence::new("Both rollers run true already.", &[]),
            Self::RunoutNotMeasured => {
                Sentence::new("Not measured: enter the runout of both rollers.", &[])
            }
            Self::NoEndDifference => {
                Sentence::new("Both ends cut at the same height already.", &[])
            }
            Self::EndsNotMeasured => Sentence::new(
                "Not measured: enter the height-of-cut difference, side to side.",
                &[],
            ),
            Self::NotEnough => Sentence::new("It helps, but does not reach the limit.", &[]),
            Self::AtLimit => Sentence::new("It is at the limit now.", &[]),
            Self::WithinAlready => Sentence::new("It is within its limit already.", &[]),
        }
    }
}

/// How another finding stands before and after a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Other {
    /// The finding.
    pub id: FindingId,
    /// As it is now.
    pub before: Standing,
    /// As it would be.
    pub after: Standing,
    /// What of it is undecided now, and what then.
    pub undecided: [Undecided; 2],
}

/// What the ± of the readings leaves undecided about a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Undecided {
    /// No limit lies within it.
    No,
    /// A limit does, and none past which it is over.
    Limit,
    /// It may be over its limit.
    MayBeOver,
}

impl Undecided {
    /// About a number that can be off by so much, in its base unit.
    pub(super) fn of(judged: &Judged, off: f64) -> Self {
        if judged.may_pass(Level::Over, off) {
            Self::MayBeOver
        } else if judged.may_pass(Level::Watch, off) {
            Self::Limit
        } else {
            Self::No
        }
    }
}

impl Other {
    /// Whether a person must be told: it stands otherwise than before, or is past a limit and
    /// further than before.
    #[must_use]
    pub fn is_notable(&self) -> bool {
        self.after.level != self.before.level
            || self.undecided[1] > self.undecided[0]
            || Standing::is_worse(Some(&self.before), Some(&self.after))
    }

    /// Whether it forbids the change: it goes over its limit by it, or further over, or may go over
    /// where it surely did not before.
    #[must_use]
    pub fn forbids(&self) -> bool {
        self.goes_over() || self.may_go_over()
    }

    fn goes_over(&self) -> bool {
        self.after.level == Level::Over && Standing::is_worse(Some(&self.before), Some(&self.after))
    }

    /// Whether its number reads below the limit past which it is over, and nearer to it than it can be
    /// off, as it was not before.
    #[must_use]
    pub fn may_go_over(&self) -> bool {
        let [now, then] = self.undecided;
        !self.goes_over()
            && self.before.level < Level::Over
            && then == Undecided::MayBeOver
            && now < Undecided::MayBeOver
    }

    /// How it stands now and how it would, each with its number, in a reader's units.
    #[must_use]
    pub fn told(&self, examples: ExampleCount, system: System) -> [String; 2] {
        let told = |standing: &Standing, undecided: Undecided| {
            let level = match undecided {
                Undecided::No => standing.level.word_resting_on(examples),
                Undecided::Limit | Undecided::MayBeOver => standing.level.word_undecided(),
            };
            let number = standing.judged.map(|judged| judged.value.shown_in(system));
            number.map_or_else(|| level.to_owned(), |number| format!("{number} ({level})"))
        };
        let [now, then] = self.undecided;
        [told(&self.before, now), told(&self.after, then)]
    }
}

/// A change of one knob.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Where the knob goes to.
    pub to: Value,
    /// Where a trial sets it: on the good side of the limit, and as it reads.
    pub trial: Value,
    /// How far it turns.
    pub by: Value,
    /// How far a trial turns it.
    pub trial_by: Value,
    /// How far a trial moves the front and the rear roller from where they stand now.
    pub trial_rollers: (Length, Length),
    /// The attitude and the height of cut that a trial leaves the unit with.
    pub stands: (Angle, Length),
    /// What a trial leaves of the lip, its thickness or its length; none where it grinds no knife.
    pub lip_left: Option<Length>,
    /// The knife to fit.
    pub knife: Option<Fitted>,
    /// How far the front and the rear roller move from where they stand now.
    pub rollers: (Length, Length),
    /// What the finding judges, as it would be.
    pub after: Judged,
    /// The other findings that change, the worst first.
    pub others: Vec<Other>,
    /// Why nobody would make it; none where somebody might.
    pub not_sensible: Option<NotSensible>,
}

impl Change {
    /// Whether it must not even be tried with one click: it takes another finding over its limit, or
    /// further over, whatever else speaks against it, or puts a roller where none can stand.
    #[must_use]
    pub fn bars_a_trial(&self) -> bool {
        let is_barred = self.not_sensible == Some(NotSensible::BeyondBracket);
        is_barred || self.others.iter().any(Other::forbids)
    }
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
    /// Which limit that is, in a word: the OK limit or the over limit.
    pub limit_word: &'static str,
    /// To the finding's limit.
    pub to_limit: Result<Change, WhyNot>,
    /// To where it is aimed: inside the finding's limit with room, no other finding made worse, and
    /// to be typed as it reads. None where there is no such place, or it stands there.
    pub to_aim: Option<Change>,
    /// Why an attitude that is aimed at is the least that will do.
    pub aim_is: Option<Sentence>,
}

impl KnobAnswer {
    /// The changes there are, that to the aim first.
    pub fn changes(&self) -> impl Iterator<Item = &Change> {
        self.to_aim.iter().chain(self.to_limit.as_ref().ok())
    }

    /// Why nobody would make it, whichever way; none where there is no change, or one that somebody
    /// might make.
    #[must_use]
    pub fn not_sensible(&self) -> Option<NotSensible> {
        let is_sensible = |change: &Change| change.not_sensible.is_none();
        if self.changes().any(is_sensible) {
            return None;
        }
        self.changes().find_map(|change| change.not_sensible)
    }
}
