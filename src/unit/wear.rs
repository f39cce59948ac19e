//! What is worn or out of true, and how far that lowers the unit.

use crate::units::Length;

/// What is worn or out of true.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wear {
    /// Full reading of a dial gauge on the front roller over a turn.
    pub front_runout: Length,
    /// Full reading of a dial gauge on the rear roller over a turn.
    pub rear_runout: Length,
    /// How much higher one end of the unit cuts than the other, without its sign.
    pub end_difference: Length,
}

impl Wear {
    /// How far the worse roller's runout can lower the unit: half the dial gauge's full reading.
    ///
    /// The edge stands between the rollers and sinks by a share of each, which together make one, so
    /// by no more than the worse of them.
    #[must_use]
    pub fn by_runout(&self) -> Length {
        Length::from_mm(self.front_runout.mm().max(self.rear_runout.mm()) / 2.0)
    }

    /// How far the low end stands below the middle.
    #[must_use]
    pub fn at_low_end(&self) -> Length {
        self.end_difference * 0.5
    }

    /// How far both together lower the unit at its worst place.
    #[must_use]
    pub fn lowers(&self) -> Length {
        self.by_runout() + self.at_low_end()
    }
}
