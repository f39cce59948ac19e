//! The low side: how far runout lowers a point of the unit, the worse way its rollers can turn.

use super::number::Number;
use super::plane::Place;
use crate::units::Length;

/// How far each roller can come down, and where they touch the ground.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LowSide<N> {
    front_drop: N,
    rear_drop: N,
    front_x: N,
    rear_x: N,
}

impl<N: Number> LowSide<N> {
    /// A roller comes down by half of what a dial gauge reads on it over a turn, at worst. Given are the
    /// rollers' contacts with the ground: straight below their centres on level ground alone.
    pub(crate) fn of(
        front_contact: Place<N>,
        rear_contact: Place<N>,
        front_runout: Length<N>,
        rear_runout: Length<N>,
    ) -> Self {
        Self {
            front_drop: front_runout.mm() * 0.5,
            rear_drop: rear_runout.mm() * 0.5,
            front_x: front_contact.x,
            rear_x: rear_contact.x,
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
