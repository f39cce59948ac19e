//! A quantity as somebody reads it: the value that the digits shown stand for.

use super::{Angle, Length, Measure, Quantity, Ratio, Share, Speed, System, Turning, Value};

/// Times that a step is doubled until another value is read: from far below a digit to past any.
const DOUBLINGS: u32 = 60;

impl Value {
    /// The value that somebody types who types what is shown in `system`.
    #[must_use]
    pub fn as_read_in(self, system: System) -> Self {
        match self {
            Self::Length(length) => Self::Length(read(length, &system.length(length))),
            Self::Limit(limit) => Self::Limit(read(limit, &system.length(limit))),
            Self::Radius(radius) => Self::Radius(read(radius, &system.radius(radius))),
            Self::Move(by) => Self::Move(read_move(by, system)),
            Self::MoveOf(rollers, by) => Self::MoveOf(rollers, read_move(by, system)),
            Self::Angle(angle) => Self::Angle(read::<Angle>(angle, &self.shown_in(system))),
            Self::Share(share) => Self::Share(read::<Share>(share, &self.shown_in(system))),
            Self::Ratio(ratio) => Self::Ratio(read::<Ratio>(ratio, &self.shown_in(system))),
            Self::Speed(speed) => Self::Speed(read::<Speed>(speed, &self.shown_in(system))),
            Self::Turning(turning) => {
                Self::Turning(read::<Turning>(turning, &self.shown_in(system)))
            }
        }
    }

    /// The next value that reads otherwise, above or below.
    #[must_use]
    pub fn next_read_in(self, system: System, is_above: bool) -> Self {
        let here = self.as_read_in(system);
        let finest = 1e-6 * here.base().abs().max(1.0);
        let side = if is_above { 1.0 } else { -1.0 };
        (0..DOUBLINGS)
            .map(|doubling| finest * 2.0_f64.powi(doubling.cast_signed()))
            .map(|step| self.with_base(here.base() + side * step).as_read_in(system))
            .find(|next| (next.base() - here.base()) * side > 0.0)
            .unwrap_or(here)
    }
}

/// What a roller's move reads as, whichever way it goes.
fn read_move(by: Length, system: System) -> Length {
    let size = Length::from_mm(by.mm().abs());
    let size = read(size, &system.length(size));
    Length::from_mm(size.mm().copysign(by.mm()))
}

/// What a shown text stands for; the value itself should it ever not be read back.
fn read<M: Measure>(value: M, shown: &str) -> M {
    Quantity::parse(shown).map_or(value, |quantity| quantity.value())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_shown_reads_back_and_the_next_reading_is_the_next_digit() {
        let height = Value::from(Length::from_inches(0.284_93));
        let read = System::ALL.map(|system| height.as_read_in(system).base());
        assert!((read[0] - 0.285 * 25.4).abs() < 1e-9, "{read:?}");
        assert!((read[1] - 0.285 * 25.4).abs() < 1e-9, "{read:?}");
        assert!((read[2] - 7.237).abs() < 1e-9, "{read:?}");
        let next = |is_above| System::ALL.map(|s| height.next_read_in(s, is_above).base());
        assert!((next(true)[0] - 0.286 * 25.4).abs() < 1e-9);
        assert!((next(false)[1] - 0.284 * 25.4).abs() < 1e-9);
        assert!((next(true)[2] - 7.238).abs() < 1e-9);
        let attitude = Value::from(Angle::from_deg(-5.346));
        assert!((attitude.as_read_in(System::Millimetre).base() + 5.35).abs() < 1e-12);
        let above = attitude.next_read_in(System::Millimetre, true);
        assert!((above.base() + 5.34).abs() < 1e-12);
        let down = Value::Move(Length::from_inches(-0.0402));
        assert!((down.as_read_in(System::InchDecimal).base() + 0.0402 * 25.4).abs() < 1e-9);
    }
}
