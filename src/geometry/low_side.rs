//! The low side: how far runout lowers a point of the unit, the worse way its rollers can turn.

use super::circles::Circle;
use super::number::Number;
use crate::units::Length;

/// How far each roller can come down, and where they touch the plate.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LowSide<N> {
    front_drop: N,
    rear_drop: N,
    front_x: N,
    rear_x: N,
}

impl<N: Number> LowSide<N> {
    /// A roller comes down by half of what a dial gauge reads on it over a turn, at worst.
    pub(crate) fn of(
        front: Circle<N>,
        rear: Circle<N>,
        front_runout: Length<N>,
        rear_runout: Length<N>,
    ) -> Self {
        Self {
            front_drop: front_runout.mm() * 0.5,
            rear_drop: rear_runout.mm() * 0.5,
            front_x: front.centre.x,
            rear_x: rear.centre.x,
        }
    }

    /// How far a point at a place along the plate drops at worst: by the lever between the two
    /// contacts.
    ///
    /// Past a contact a drop of the other roller lifts; at worst that one has not come down.
    pub(crate) fn drop_mm(&self, x_mm: N) -> N {
        let apart = self.front_x - self.rear_x;
        let lowered = |drop: N, lever: N| {
            if lever.re() > 0.0 {
                drop * lever
            } else {
                N::exact(0.0)
            }
        };
        lowered(self.front_drop, (x_mm - self.rear_x) / apart)
            + lowered(self.rear_drop, (self.front_x - x_mm) / apart)
    }
}
