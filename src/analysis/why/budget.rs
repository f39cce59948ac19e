//! The height budget: from the height of cut on the plate down to what is left over the soil.

use crate::analysis::{Case, FindingId, Findings, Level};
use crate::geometry::{GroundShape, Terrain};
use crate::unit::{Field, Limits, Looked, LookedFor, Reading};
use crate::units::{Length, System};

/// What a step of the budget is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepKind {
    /// The height of cut on the plate: where the budget begins.
    HeightOfCut,
    /// The rollers sink.
    RollerSink,
    /// The ground rises between the rollers.
    Crest,
    /// The ground falls between the rollers.
    Hollow,
    /// The rollers at their lowest.
    RollerRunout,
    /// The low end of the unit.
    EndDifference,
    /// The reel hangs below the cut line.
    Sweep,
    /// The knife or its hardware hangs below the cut line.
    Underside,
}

impl StepKind {
    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::HeightOfCut => "height_of_cut",
            Self::RollerSink => "roller_sink",
            Self::Crest => "crest",
            Self::Hollow => "hollow",
            Self::RollerRunout => "roller_runout",
            Self::EndDifference => "end_difference",
            Self::Sweep => "sweep_below_cut",
            Self::Underside => "underside_below_cut",
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::HeightOfCut => "height of cut",
            Self::RollerSink => "roller sink",
            Self::Crest => "crest",
            Self::Hollow => "hollow",
            Self::RollerRunout => "roller runout",
            Self::EndDifference => "side to side",
            Self::Sweep => "sweep",
            Self::Underside => "underside",
        }
    }

    /// What it is and why so much of it counts.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::HeightOfCut => "From the plate up to the edge, as the unit is set.",
            Self::RollerSink => "The rollers sink into the turf, and the whole unit with them.",
            Self::Crest => "The ground rises between the rollers and comes this much nearer.",
            Self::Hollow => "The ground falls away between the rollers: this much is gained.",
            Self::RollerRunout => {
                "Half of each roller's full dial reading, as much as the lever between the rollers brings down here."
            }
            Self::EndDifference => {
                "Half of the height-of-cut difference side to side: the low side stands so much below the middle."
            }
            Self::Sweep => "How far the lowest point of the reel's circle hangs below the edge.",
            Self::Underside => {
                "How far the lowest point of the knife or its hardware hangs below the edge."
            }
        }
    }

    /// Whether what it comes from was measured, be it none; none for what the geometry gives.
    fn looked(self, looked_for: LookedFor) -> Option<Looked> {
        match self {
            Self::RollerSink => Some(looked_for.sink),
            Self::Crest | Self::Hollow => Some(looked_for.shape),
            Self::RollerRunout => Some(looked_for.runout()),
            Self::EndDifference => Some(looked_for.end_difference),
            Self::HeightOfCut | Self::Sweep | Self::Underside => None,
        }
    }

    /// The fields it comes from, the unit set by height or by its rollers.
    #[must_use]
    pub const fn fields(self, is_by_rollers: bool) -> &'static [Field] {
        match self {
            Self::HeightOfCut if is_by_rollers => &[Field::FrontMove, Field::RearMove],
            Self::HeightOfCut => &[Field::WantedHeightOfCut],
            Self::RollerSink => &[
                Field::Reading(Reading::RollerSink),
                Field::Reading(Reading::FrontSink),
                Field::Reading(Reading::RearSink),
            ],
            Self::Crest | Self::Hollow => &[Field::GroundShape],
            Self::RollerRunout => &[
                Field::Reading(Reading::FrontRunout),
                Field::Reading(Reading::RearRunout),
            ],
            Self::EndDifference => &[Field::Reading(Reading::EndDifference)],
            Self::Sweep => &[
                Field::Reading(Reading::BehindCentre),
                Field::WantedReelDiameter,
            ],
            Self::Underside => &[Field::WantedAttitude, Field::FittedKnife],
        }
    }
}

/// A step of the budget.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// What it is about.
    pub kind: StepKind,
    /// What it adds; negative for what it takes.
    pub by: Length,
    /// What is left after it.
    pub left: Length,
    /// Whether it was measured, be it none; none for what the geometry gives.
    pub looked: Option<Looked>,
}

impl Step {
    /// What it adds, to be read: the height of cut plainly, what is added to it with its sign.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        match self.kind {
            // What nobody measured takes no amount that anybody knows.
            _ if self.looked == Some(Looked::NotYet) => "–".to_owned(),
            StepKind::HeightOfCut => system.in_column(self.by),
            _ => system.step_in_column(self.by),
        }
    }

    /// What is told of a step that comes to none: that it was measured, or that it was not. None for
    /// any other.
    #[must_use]
    pub fn none_told(&self) -> Option<Looked> {
        self.looked.filter(|looked| *looked != Looked::Found)
    }
}

/// What a height budget is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BudgetOf {
    /// The reel.
    Reel,
    /// The knife's underside and its hardware.
    Underside,
}

impl BudgetOf {
    /// Both of them.
    pub const ALL: [Self; 2] = [Self::Reel, Self::Underside];

    /// Its name over the chart.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Reel => "Reel",
            Self::Underside => "Underside of the knife and its hardware",
        }
    }

    /// The budget of a solved unit.
    #[must_use]
    pub fn of(self, case: &Case) -> Budget {
        match self {
            Self::Reel => Budget::of_reel(case),
            Self::Underside => Budget::of_underside(case),
        }
    }

    /// How what is left stands: at the worst place, which is every place of a unit without wear.
    #[must_use]
    pub fn level(self, case: &Case) -> Level {
        let (worst, everywhere) = match self {
            Self::Reel => (FindingId::LowEnd, FindingId::Reel),
            Self::Underside => (FindingId::LowEndUnderside, FindingId::Underside),
        };
        Findings::judged(case, worst)
            .or_else(|| Findings::judged(case, everywhere))
            .map_or(Level::Fine, |judged| judged.level())
    }

    /// What must be left of it at the least; none where no limit says so.
    #[must_use]
    pub fn least(self, limits: &Limits) -> Option<Length> {
        matches!(self, Self::Underside).then_some(limits.underside)
    }
}

/// A height budget: the steps add up to what is left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Budget {
    /// The steps in their order, the height of cut first.
    pub steps: [Step; 6],
}

impl Budget {
    /// The budget of the reel.
    #[must_use]
    pub fn of_reel(case: &Case) -> Self {
        let solution = case.solution;
        Self::of(
            case,
            StepKind::Sweep,
            solution.reel_clearance,
            (
                solution.on_ground.reel_clearance,
                solution.on_ground.reel_at_low_end,
            ),
            |ground| ground.reel_clearance(&solution.pose),
        )
    }

    /// The budget of the knife's underside and its hardware.
    #[must_use]
    pub fn of_underside(case: &Case) -> Self {
        let solution = case.solution;
        Self::of(
            case,
            StepKind::Underside,
            solution.underside_clearance,
            (
                solution.on_ground.underside_clearance,
                solution.on_ground.underside_at_low_end,
            ),
            |ground| case.underside_over(ground),
        )
    }

    /// What is left at the end; negative in the soil.
    #[must_use]
    pub fn left(&self) -> Length {
        self.steps[self.steps.len() - 1].left
    }

    /// Whether what a step comes from was measured; none for what the geometry gives, and for a step
    /// that is some anyhow.
    #[must_use]
    pub fn none_of(&self, kind: StepKind) -> Option<Looked> {
        let found = self.steps.iter().find(|step| step.kind == kind)?;
        found.none_told()
    }

    /// What one step adds.
    #[must_use]
    pub fn by(&self, kind: StepKind) -> Length {
        let found = self.steps.iter().find(|step| step.kind == kind);
        found.map_or(Length::ZERO, |step| step.by)
    }

    /// What a step adds, to be read; none where the budget has no such step.
    #[must_use]
    pub fn shown(&self, kind: StepKind, system: System) -> Option<String> {
        let mut steps = self.steps.iter();
        let found = steps.find(|step| step.kind == kind);
        found.map(|step| step.shown_in(system))
    }

    fn of(
        case: &Case,
        hanging: StepKind,
        over_plate: Length,
        (over_ground, at_low_end): (Length, Length),
        on: impl Fn(&Terrain) -> Length,
    ) -> Self {
        let unit = case.unit;
        let pose = &case.solution.pose;
        let height = pose.height_of_cut;
        let shape = match unit.shape {
            GroundShape::Hollow(_) => StepKind::Hollow,
            GroundShape::Level | GroundShape::Crest(_) => StepKind::Crest,
        };
        // What the sink alone leaves; the ground's shape then does the rest under this part.
        let sunk = match unit.shape {
            GroundShape::Level => over_ground,
            GroundShape::Crest(_) | GroundShape::Hollow(_) => {
                let level = Terrain::under(pose, GroundShape::Level, unit.sink);
                level.map_or(over_plate, |level| on(&level))
            }
        };
        let end = unit.wear.at_low_end();
        let takes = [
            (StepKind::HeightOfCut, height),
            (StepKind::RollerSink, sunk - over_plate),
            (shape, over_ground - sunk),
            (StepKind::RollerRunout, at_low_end + end - over_ground),
            (StepKind::EndDifference, -end),
            (hanging, over_plate - height),
        ];
        let mut left = Length::ZERO;
        let mut steps = takes.map(|(kind, by)| {
            left = left + by;
            let looked = kind.looked(unit.looked_for);
            Step {
                kind,
                by,
                left,
                looked,
            }
        });
        // The same digits as everywhere else, without the sum's rounding.
        steps[steps.len() - 1].left = at_low_end;
        Self { steps }
    }
}
