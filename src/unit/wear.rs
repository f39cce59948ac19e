//! What is worn or out of true, and how far that lowers the unit.

use super::ground::WearEntry;
use crate::geometry::Number;
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

/// The same in bare numbers, in millimetres.
#[expect(
    clippy::struct_field_names,
    reason = "the unit belongs into a bare number's name"
)]
#[derive(Clone, Copy, Debug)]
pub(crate) struct WearFigures<N> {
    pub(crate) front_runout_mm: N,
    pub(crate) rear_runout_mm: N,
    pub(crate) end_difference_mm: N,
}

impl<N: Number> WearFigures<N> {
    /// Without derivatives.
    pub(crate) fn exact(wear: &Wear) -> Self {
        Self {
            front_runout_mm: N::exact(wear.front_runout.mm()),
            rear_runout_mm: N::exact(wear.rear_runout.mm()),
            end_difference_mm: N::exact(wear.end_difference.mm()),
        }
    }

    fn by_runout_mm(&self) -> N {
        let (front, rear) = (self.front_runout_mm, self.rear_runout_mm);
        (if front.re() > rear.re() { front } else { rear }) * 0.5
    }

    fn at_low_end_mm(&self) -> N {
        self.end_difference_mm * 0.5
    }

    pub(crate) fn lowers_mm(&self) -> N {
        self.by_runout_mm() + self.at_low_end_mm()
    }
}

impl Wear {
    /// What was measured, without its ±.
    pub(super) fn of(measured: &WearEntry) -> Self {
        Self {
            front_runout: measured.front_runout.value(),
            rear_runout: measured.rear_runout.value(),
            end_difference: measured.end_difference.value(),
        }
    }

    /// How far the worse roller's runout can lower the unit: half the dial gauge's full reading.
    ///
    /// The edge stands between the rollers and sinks by a share of each, which together make one, so
    /// by no more than the worse of them.
    #[must_use]
    pub fn by_runout(&self) -> Length {
        Length::from_mm(WearFigures::<f64>::exact(self).by_runout_mm())
    }

    /// How far the low end stands below the middle.
    #[must_use]
    pub fn at_low_end(&self) -> Length {
        Length::from_mm(WearFigures::<f64>::exact(self).at_low_end_mm())
    }

    /// How far both together lower the unit at its worst place.
    #[must_use]
    pub fn lowers(&self) -> Length {
        Length::from_mm(WearFigures::<f64>::exact(self).lowers_mm())
    }
}
