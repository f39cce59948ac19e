//! Axes of the plots: quantities in a person's own units, with marks where a rule has them.

use std::ops::RangeInclusive;

use egui::{Rangef, RichText, Sense};
use egui_plot::{AxisHints, GridInput, GridMark, Plot};

use crate::units::{Length, System, fixed, round_up};

/// The least distance between two marks across, in points: room for a number.
const ACROSS: f64 = 44.0;
/// The same where the numbers are fractions.
const ACROSS_IN_FRACTIONS: f64 = 56.0;
/// The least distance between two marks up.
const UP: f64 = 34.0;

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

impl Axis {
    /// For lengths as large as a reel.
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
    pub fn of_small_length(system: System) -> Self {
        match system {
            System::Millimetre => Self::new("mm", 1.0),
            System::InchDecimal => Self::new("in", Length::from_inches(1.0).mm()),
            System::InchFraction => Self::new("thou", Length::from_inches(0.001).mm()),
        }
    }

    /// For angles.
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
    pub fn place(self, base: f64) -> f64 {
        base / self.size
    }

    /// From a place on the axis to base units.
    pub fn base(self, place: f64) -> f64 {
        place * self.size
    }

    /// What the axis is called: `reel diameter, in`.
    pub fn title(self, quantity: &str) -> String {
        format!("{quantity}, {}", self.unit)
    }

    /// As an axis across.
    pub fn across(self, quantity: &str) -> AxisHints<'static> {
        self.hints(AxisHints::new_x(), quantity)
    }

    /// As an axis up.
    pub fn up(self, quantity: &str) -> AxisHints<'static> {
        self.hints(AxisHints::new_y(), quantity)
    }

    fn hints(self, hints: AxisHints<'static>, quantity: &str) -> AxisHints<'static> {
        hints
            .label(RichText::new(self.title(quantity)).size(13.0))
            .formatter(move |mark: GridMark, _: &RangeInclusive<f64>| self.number(mark))
            .label_spacing(Rangef::new(18.0, 24.0))
    }

    /// Marks across.
    pub fn marks_across(self) -> impl Fn(GridInput) -> Vec<GridMark> {
        let least_points = if self.is_in_fractions {
            ACROSS_IN_FRACTIONS
        } else {
            ACROSS
        };
        move |input| self.marks(&input, least_points)
    }

    /// Marks up.
    pub fn marks_up(self) -> impl Fn(GridInput) -> Vec<GridMark> {
        move |input| self.marks(&input, UP)
    }

    fn marks(self, input: &GridInput, least_points: f64) -> Vec<GridMark> {
        // The plot says how much eight points are, the closest that it would mark.
        let least = input.base_step_size * least_points / 8.0;
        let (low, high) = input.bounds;
        let is_right = least > 0.0 && least.is_finite() && high > low;
        if !is_right {
            return Vec::new();
        }
        let step_size = self.step(least);
        let mut marks = Vec::new();
        let mut step = (low / step_size).ceil();
        while step * step_size <= high && marks.len() < 100 {
            marks.push(GridMark {
                value: step * step_size,
                step_size,
            });
            step += 1.0;
        }
        marks
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
    fn number(self, mark: GridMark) -> String {
        if self.is_in_fractions {
            let shown = System::InchFraction.length(Length::from_inches(mark.value));
            if mark.value == 0.0 || shown.contains("thou") {
                return fixed(mark.value, decimals(mark.step_size));
            }
            return shown.trim_end_matches(" in").to_owned();
        }
        fixed(mark.value, decimals(mark.step_size))
    }
}

/// Decimals that tell steps of a size apart.
fn decimals(step_size: f64) -> usize {
    (0..6)
        .find(|decimals| {
            let scaled = step_size * 10.0_f64.powi(*decimals);
            (scaled - scaled.round()).abs() < 1e-6
        })
        .map_or(6, |decimals| usize::try_from(decimals).unwrap_or(6))
}

/// A plot that stands still: the wheel scrolls the page past it, and a click sets the unit.
pub fn still_plot<'a>(name: impl egui::AsIdSalt) -> Plot<'a> {
    Plot::new(name)
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_axis_zoom_drag(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .sense(Sense::click())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(axis: Axis, bounds: (f64, f64), points: f64) -> Vec<String> {
        let input = GridInput {
            bounds,
            base_step_size: (bounds.1 - bounds.0) / points * 8.0,
        };
        let marks = axis.marks(&input, ACROSS);
        marks.into_iter().map(|mark| axis.number(mark)).collect()
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
