//! What a whole sheet says.

use super::cut::ExpectedCut;
use super::order::{StepState, order};
use super::roller::{RollerResult, reread};
use crate::analysis::{Level, Solved};
use crate::plate::{Readings, Roller, RollerReadings, SheetFlaw, Step, Worksheet};
use crate::units::Length;

/// What a sheet says.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateResult {
    /// The sheet in plain values.
    pub readings: Readings,
    /// The front roller.
    pub front: Option<RollerResult>,
    /// The rear roller.
    pub rear: Option<RollerResult>,
    /// What the rollers as they are do to the cut.
    pub cut: Option<ExpectedCut>,
    /// The reel's diameter at its left end less that at its right end.
    pub reel_taper: Option<Length>,
    /// The reel's diameter in its middle over the mean of its ends.
    pub reel_barrel: Option<Length>,
    /// The steps in working order.
    pub order: Vec<(Step, StepState)>,
}

impl PlateResult {
    /// What it says about one of the rollers.
    #[must_use]
    pub const fn roller(&self, roller: Roller) -> Option<&RollerResult> {
        match roller {
            Roller::Front => self.front.as_ref(),
            Roller::Rear => self.rear.as_ref(),
        }
    }

    /// How a step stands.
    #[must_use]
    pub fn state_of(&self, step: Step) -> StepState {
        let found = self.order.iter().find(|(of, _)| *of == step);
        found.map_or(StepState::ToDo, |(_, state)| *state)
    }

    /// The first step that is not done; none once all are.
    #[must_use]
    pub fn next_step(&self) -> Option<Step> {
        let next = self
            .order
            .iter()
            .find(|(_, state)| *state != StepState::Done);
        next.map(|(step, _)| *step)
    }

    /// Whether a roller runs out and one of its ends was read in one place of its turn alone: its runout
    /// passes for slope then.
    #[must_use]
    pub fn wants_half_turn(&self, roller: Roller) -> bool {
        let both = self.roller(roller).zip(self.readings.roller(roller));
        both.is_some_and(|(result, read)| {
            let is_out = |level: Option<Level>| level.is_some_and(|level| level > Level::Fine);
            let mut ends = [read.left, read.right].into_iter().flatten();
            ends.any(|end| !end.is_of_half_turn)
                && result.runout.iter().any(|station| is_out(station.level))
        })
    }

    /// Works a sheet out, for the unit it names if there is one.
    ///
    /// # Errors
    /// When a value of the sheet makes no sense.
    pub fn of(sheet: &Worksheet, unit: Option<&Solved>) -> Result<Self, SheetFlaw> {
        let readings = sheet.checked()?;
        let turf = unit.map(|unit| unit.document.turf);
        let of_roller = |roller: Option<&RollerReadings>| {
            roller.map(|roller| RollerResult::of(roller, &readings, turf))
        };
        let (mut front, mut rear) = (
            of_roller(readings.front.as_ref()),
            of_roller(readings.rear.as_ref()),
        );
        if let Some(front) = &mut front {
            front.again = reread(Roller::Front, sheet, None);
        }
        if let Some(rear) = &mut rear {
            rear.again = reread(Roller::Rear, sheet, front.as_ref());
        }
        let cut = unit.and_then(|unit| {
            ExpectedCut::of(
                &unit.solution.pose,
                &readings,
                front.as_ref()?.parallel.as_ref()?,
                rear.as_ref()?.parallel.as_ref()?,
            )
        });
        let reel = readings.reel;
        let ends = reel.left.zip(reel.right);
        let taper = ends.map(|(left, right)| left.value - right.value);
        let barrel = ends
            .zip(reel.middle)
            .map(|((left, right), middle)| middle.value - (left.value + right.value) * 0.5);
        Ok(Self {
            order: order(sheet, &readings, front.as_ref(), rear.as_ref()),
            readings,
            front,
            rear,
            cut,
            reel_taper: taper,
            reel_barrel: barrel,
        })
    }
}
