//! Whether a knife fits: it can be mounted, and set once it runs within every limit from a new reel to
//! a scrap one, with room to spare.

use super::life::{Life, Trial};
use super::limit::{Limit, Margins};
use super::room::{RoomOff, off_between, off_by_lean};
use super::set_once::{Apart, SetOnce};
use crate::analysis::{Case, Findings, Level, Solution, Uncertainty};
use crate::geometry::{KnifeSection, Setting, Stance};
use crate::unit::{ExampleCount, Fitted, Follows, Unit};
use crate::units::{Angle, Length};

/// The least body that a knife is believed to have (common practice, no source).
const LEAST_BODY: Length = Length::from_mm(1.0);

/// Whether a knife fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// It does.
    Fits,
    /// The readings are not sure enough to tell.
    CannotTell,
    /// It does not.
    DoesNotFit,
}

impl Verdict {
    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::CannotTell => "cannot tell",
            Self::DoesNotFit => "does not fit",
        }
    }

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fits => "passes",
            Self::CannotTell => "undecided",
            Self::DoesNotFit => "does not pass",
        }
    }

    /// The level that its symbol shows while so many readings are examples.
    #[must_use]
    pub const fn level(self, examples: ExampleCount) -> Level {
        let level = match self {
            Self::Fits => Level::Fine,
            Self::CannotTell => Level::Watch,
            Self::DoesNotFit => Level::Over,
        };
        level.resting_on(examples)
    }

    /// What is told of a knife while so many readings are examples: "passes".
    #[must_use]
    pub const fn told(self, examples: ExampleCount) -> &'static str {
        match self {
            Self::Fits if examples.is_none() => "passes",
            Self::Fits => "would pass by example readings",
            Self::CannotTell => "is undecided",
            Self::DoesNotFit => "does not pass",
        }
    }
}

/// A measure of a knife that cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasureOut {
    /// Its screws would stand at its back or behind it.
    ReachOverWidth,
    /// Its body is thinner than any.
    ThinBody,
}

/// What stands against a knife.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// A limit that leaves no room, or too little.
    Limit(Limit),
    /// A measure of the knife that cannot be.
    Measure(MeasureOut),
}

impl Against {
    /// Its name for programs: that of the limit or the measure.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Limit(limit) => limit.id(),
            Self::Measure(MeasureOut::ReachOverWidth) => "reach_over_width",
            Self::Measure(MeasureOut::ThinBody) => "body_thickness",
        }
    }
}

/// Whether a knife fits, and what it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// Whether it fits.
    pub verdict: Verdict,
    /// What stands against it; empty where it fits.
    pub against: Vec<Against>,
    /// How far the room, or what is wanting, can be off, about 95 %.
    pub off: RoomOff,
    /// What stands apart where no attitude can be set once.
    pub apart: Option<Apart>,
}

/// A knife on trial, with what it leaves.
#[derive(Clone, Copy, Debug)]
pub(super) struct OnTrial<'a> {
    pub(super) unit: &'a Unit,
    pub(super) trial: &'a Trial,
    pub(super) knife: (Fitted, KnifeSection),
    pub(super) set_once: Option<&'a SetOnce>,
}

impl OnTrial<'_> {
    /// Judges the knife.
    pub(super) fn judge(&self) -> Judgement {
        let mut judgement = self.judge_room();
        let measures = out_of_measure(&self.knife.1);
        if !measures.is_empty() {
            judgement.verdict = Verdict::DoesNotFit;
        }
        let measures = measures.into_iter().map(Against::Measure);
        judgement.against.extend(measures);
        judgement
    }

    /// By the room it leaves and how far that can be off.
    fn judge_room(&self) -> Judgement {
        let (unit, trial) = (self.unit, self.trial);
        let least = unit.limits.room;
        let against = |limits: &[Limit]| {
            let mut limits = limits.to_vec();
            limits.dedup();
            limits.into_iter().map(Against::Limit).collect::<Vec<_>>()
        };
        if let Some(range) = self.set_once {
            let by_readings = off_between(unit, trial, self.knife, [&range.low, &range.high]);
            let off = self.off(range.width(), by_readings);
            let verdict = decide(range.width(), off.whole, least);
            let ends = [range.low.limit, range.high.limit];
            return Judgement {
                verdict,
                against: if verdict == Verdict::Fits {
                    Vec::new()
                } else {
                    against(&ends)
                },
                off,
                apart: None,
            };
        }
        let setting = trial.setting(unit, self.knife.1, unit.setting.reel_diameter);
        let diameters = [Life::New, Life::Scrap].map(|life| life.diameter(unit));
        let apart = Apart::of(unit, &setting, trial.height_of_cut, diameters);
        let (room, by_readings) = match &apart {
            Apart::Ends {
                more_than,
                less_than,
            } => {
                let off = off_between(unit, trial, self.knife, [more_than, less_than]);
                (less_than.at - more_than.at, off)
            }
            Apart::Nowhere(_) | Apart::InTurn(_) => (Angle::ZERO, Angle::ZERO),
        };
        let off = self.off(room, by_readings);
        let is_open = matches!(&apart, Apart::Nowhere(limits) if self.are_doubted(limits));
        let verdict = match decide(room, off.whole, least) {
            // There is none as measured.
            Verdict::Fits | Verdict::CannotTell if off.whole > Angle::ZERO => Verdict::CannotTell,
            _ if is_open => Verdict::CannotTell,
            _ => Verdict::DoesNotFit,
        };
        Judgement {
            verdict,
            against: against(&apart.limits()),
            off,
            apart: Some(apart),
        }
    }

    /// How far the room can be off, from how far by the readings.
    fn off(&self, room: Angle, by_readings: Angle) -> RoomOff {
        let by_lean = off_by_lean(self.unit, self.trial, self.knife.1, room);
        RoomOff {
            whole: by_readings + by_lean,
            by_readings,
        }
    }

    /// Whether the readings are not sure enough for any of these limits, which hold at no attitude: at
    /// the one on trial each is passed within what its number can be off alone, with the reel new and at
    /// scrap size.
    fn are_doubted(&self, limits: &[Limit]) -> bool {
        let Some(findings) = limits
            .iter()
            .map(|limit| limit.finding())
            .collect::<Option<Vec<_>>>()
        else {
            return false;
        };
        let mut doubted = Vec::new();
        for life in [Life::New, Life::Scrap] {
            let setting = self.setting_at(self.trial.attitude, life);
            let Ok(solution) = Solution::of(self.unit, &setting) else {
                return false;
            };
            let case = Case {
                unit: self.unit,
                setting: &setting,
                solution: &solution,
            };
            let passed: Vec<Limit> = Margins::of(&case).passed().collect();
            let mut uncertainty = None;
            for (limit, &finding) in limits.iter().zip(&findings) {
                if !passed.contains(limit) {
                    continue;
                }
                let uncertainty = uncertainty
                    .get_or_insert_with(|| Uncertainty::of(self.unit, &setting, self.follows()));
                doubted.push(Findings::is_doubted(&case, finding, uncertainty));
            }
        }
        !doubted.is_empty() && doubted.into_iter().all(|is_doubted| is_doubted)
    }

    /// The knife at an attitude, with the reel at one size of its life.
    fn setting_at(&self, attitude: Angle, life: Life) -> Setting {
        let stance = Stance::Wanted {
            attitude,
            height_of_cut: self.trial.height_of_cut,
        };
        let diameter = life.diameter(self.unit);
        Setting {
            stance,
            ..self.trial.setting(self.unit, self.knife.1, diameter)
        }
    }

    /// Which of the setting's values are the bench's own readings.
    fn follows(&self) -> Follows {
        Follows {
            reel_diameter: false,
            attitude: false,
            ..self.unit.follows.with_knife(self.knife.0)
        }
    }
}

/// Room against the least that is wanted: kept, passed, or too near to tell.
fn decide(room: Angle, off: Angle, least: Angle) -> Verdict {
    if room - off >= least {
        Verdict::Fits
    } else if room + off < least {
        Verdict::DoesNotFit
    } else {
        Verdict::CannotTell
    }
}

/// The measures of a knife that cannot be: its screws stand behind its back, its body is a foil.
fn out_of_measure(knife: &KnifeSection) -> Vec<MeasureOut> {
    let checks = [
        (MeasureOut::ReachOverWidth, knife.reach >= knife.width),
        (MeasureOut::ThinBody, knife.body_thickness < LEAST_BODY),
    ];
    let out = checks.into_iter().filter(|(_, is_out)| *is_out);
    out.map(|(measure, _)| measure).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn room_decides_only_where_its_own_uncertainty_leaves_no_doubt() {
        let deg = Angle::from_deg;
        let decided = |room, off| decide(deg(room), deg(off), deg(1.0));
        assert_eq!(decided(1.0, 0.0), Verdict::Fits);
        assert_eq!(decided(0.999, 0.0), Verdict::DoesNotFit);
        assert_eq!(decided(1.4, 0.5), Verdict::CannotTell);
        assert_eq!(decided(1.5, 0.5), Verdict::Fits);
        assert_eq!(decided(0.6, 0.5), Verdict::CannotTell);
        assert_eq!(decided(0.4, 0.5), Verdict::DoesNotFit);
    }
}
