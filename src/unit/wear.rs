//! What is worn or out of true, and how far that lowers the unit.

use super::ground::WearEntry;
use crate::geometry::Number;
use crate::units::{Length, Quantity};

/// What is worn or out of true.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wear<N = f64> {
    /// Full reading of a dial gauge on the front roller over a turn.
    pub front_runout: Length<N>,
    /// Full reading of a dial gauge on the rear roller over a turn.
    pub rear_runout: Length<N>,
    /// How much higher one end of the unit cuts than the other, without its sign.
    pub end_difference: Length<N>,
}

impl Wear {
    /// What was measured, without its ±; zero where nobody did.
    pub(super) fn of(measured: &WearEntry) -> Self {
        let read = |reading: &Option<Quantity<Length>>| {
            reading.as_ref().map_or(Length::ZERO, Quantity::value)
        };
        Self {
            front_runout: read(&measured.front_runout),
            rear_runout: read(&measured.rear_runout),
            end_difference: read(&measured.end_difference),
        }
    }

    /// The same without a derivative.
    pub(crate) fn exact<N: Number>(&self) -> Wear<N> {
        Wear {
            front_runout: self.front_runout.exact(),
            rear_runout: self.rear_runout.exact(),
            end_difference: self.end_difference.exact(),
        }
    }
}

impl<N: Number> Wear<N> {
    /// Whether any roller runs out of true.
    #[must_use]
    pub fn has_runout(&self) -> bool {
        self.front_runout.mm().re() > 0.0 || self.rear_runout.mm().re() > 0.0
    }

    /// Whether anything is worn or out of true.
    #[must_use]
    pub fn is_any(&self) -> bool {
        self.has_runout() || self.end_difference.mm().re() > 0.0
    }

    /// How far the low end stands below the middle.
    #[must_use]
    pub fn at_low_end(&self) -> Length<N> {
        self.end_difference * 0.5
    }
}
