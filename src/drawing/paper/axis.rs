//! Axes: quantities in a person's own units, with marks where a rule has them.

use crate::units::{Length, System, fixed, round_up};

/// How a quantity is laid along an axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// The unit it is labelled with.
    unit: &'static str,
    /// Base units, millimetres or degrees, in one of it.
    size: f64,
    /// Whether it is marked in halves, quarters and eighths.
    is_in_fractions: bool,
}

/// A mark on an axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tick {
    /// Where it stands, in the axis's unit.
    pub place: f64,
    /// From one mark to the next, in the axis's unit.
    pub step: f64,
}

/// More marks than any axis shows.
const MOST_TICKS: usize = 100;

impl Axis {
    /// For lengths as large as a reel.
    #[must_use]
    pub fn of_length(system: System) -> Self {
        match system {
            System::Millimetre => Self::new("mm", 1.0),
            System::InchDecimal => Self::new("in", Length::from_inches(1.0).mm()),
            System::InchFraction => Self {
                is_in_fractions: true,
                ..Self::new("in", Length::from_inches(1.0).mm())
            },
        }
    }

    /// For lengths as small as a sweep.
    #[must_use]
    pub fn of_small_length(system: System) -> Self {
        match system {
            System::Millimetre => Self::new("mm", 1.0),
            System::InchDecimal | System::InchFraction => {
                Self::new("in", Length::from_inches(1.0).mm())
            }
        }
    }

    /// For angles.
    #[must_use]
    pub fn of_angle() -> Self {
        Self::new("degrees", 1.0)
    }

    fn new(unit: &'static str, size: f64) -> Self {
        Self {
            unit,
            size,
            is_in_fractions: false,
        }
    }

    /// From base units to where it stands on the axis.
    #[must_use]
    pub fn place(self, base: f64) -> f64 {
        base / self.size
    }

    /// From a place on the axis to base units.
    #[must_use]
    pub fn base(self, place: f64) -> f64 {
        place * self.size
    }

    /// What the axis is called: `reel diameter, in`.
    #[must_use]
    pub fn title(self, quantity: &str) -> String {
        format!("{quantity}, {}", self.unit)
    }

    /// Whether its numbers are fractions, which take more room.
    #[must_use]
    pub fn is_in_fractions(self) -> bool {
        self.is_in_fractions
    }

    /// The marks between two places on the axis, no closer than `least`; none on an axis without
    /// width.
    #[must_use]
    pub fn ticks(self, (low, high): (f64, f64), least: f64) -> Vec<Tick> {
        let is_right = least > 0.0 && least.is_finite() && high > low;
        if !is_right {
            return Vec::new();
        }
        let step = self.step(least);
        let mut ticks = Vec::new();
        let mut count = (low / step).ceil();
        while count * step <= high && ticks.len() < MOST_TICKS {
            ticks.push(Tick {
                place: count * step,
                step,
            });
            count += 1.0;
        }
        ticks
    }

    /// The least round step of at least so much.
    fn step(self, least: f64) -> f64 {
        const FINEST: f64 = 1.0 / 64.0;
        if self.is_in_fractions && (FINEST / 2.0..=1.0).contains(&least) {
            return least.log2().ceil().exp2().max(FINEST);
        }
        round_up(least)
    }

    /// The number at a mark.
    #[must_use]
    pub fn number(self, tick: Tick) -> String {
        if self.is_in_fractions {
            let shown = System::InchFraction.length(Length::from_inches(tick.place));
            if tick.place != 0.0 && !shown.contains('.') {
                return shown.trim_end_matches(" in").to_owned();
            }
        }
        fixed(tick.place, decimals(tick.step))
    }
}

/// Decimals that tell steps of a size apart.
fn decimals(step: f64) -> usize {
    (0..6)
        .find(|decimals| {
            let scaled = step * 10.0_f64.powi(*decimals);
            (scaled - scaled.round()).abs() < 1e-6
        })
        .map_or(6, |decimals| usize::try_from(decimals).unwrap_or(6))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(axis: Axis, bounds: (f64, f64), points: f64) -> Vec<String> {
        let least = (bounds.1 - bounds.0) / points * 44.0;
        let ticks = axis.ticks(bounds, least);
        ticks.into_iter().map(|tick| axis.number(tick)).collect()
    }

    #[test]
    fn marks_stand_where_a_rule_has_them() {
        let inches = (6.5, 7.0);
        assert_eq!(
            numbers(Axis::of_length(System::InchDecimal), inches, 320.0),
            ["6.5", "6.6", "6.7", "6.8", "6.9", "7.0"]
        );
        assert_eq!(
            numbers(Axis::of_length(System::InchFraction), inches, 320.0),
            ["6-1/2", "6-5/8", "6-3/4", "6-7/8", "7"]
        );
        assert_eq!(
            numbers(Axis::of_length(System::Millimetre), (165.1, 177.8), 320.0),
            ["166", "168", "170", "172", "174", "176"]
        );
    }

    #[test]
    fn an_axis_without_width_has_no_marks() {
        assert!(numbers(Axis::of_angle(), (1.0, 1.0), 300.0).is_empty());
    }
}
