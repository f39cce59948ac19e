//! What is judged.

use kurbo::Point;

use crate::analysis::Solution;
use crate::geometry::{Setting, Terrain, underside_on_bar};
use crate::unit::Unit;
use crate::units::Length;

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

impl Case<'_> {
    /// Every point of the knife's underside and of the hardware under it, on the plate.
    pub fn underside_on_plate(&self) -> impl Iterator<Item = Point> + Clone {
        let plate_from_bar = self.solution.pose.plate_from_bar();
        let corners = underside_on_bar(&self.unit.profile, self.setting);
        let hardware = self.unit.hardware_on_bar(self.setting);
        let points = corners.into_iter().chain(hardware);
        points.map(move |on_bar| plate_from_bar * on_bar)
    }

    /// The same without the hardware that can be lowest at no attitude.
    pub(in crate::analysis) fn underside_that_can_be_lowest(
        &self,
    ) -> impl Iterator<Item = Point> + Clone {
        let plate_from_bar = self.solution.pose.plate_from_bar();
        let corners = underside_on_bar(&self.unit.profile, self.setting);
        let fitted = self.setting.knife;
        let hardware = self
            .unit
            .hardware
            .that_can_be_lowest(&self.unit.shape, false);
        let hardware = hardware.map(move |(_, point)| Point::from(point.on_bar(&fitted)));
        let points = corners.into_iter().chain(hardware);
        points.map(move |on_bar| plate_from_bar * on_bar)
    }

    /// How clear the underside stands of some ground; negative where it drags.
    #[must_use]
    pub fn underside_over(&self, ground: &Terrain) -> Length {
        let clear = self
            .underside_on_plate()
            .map(|place| ground.clearance(place).mm());
        Length::from_mm(clear.fold(f64::INFINITY, f64::min))
    }
}
