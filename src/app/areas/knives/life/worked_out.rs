//! What the life plots show, worked out where it stands on their axes.

use egui_plot::PlotPoint;

use super::band::LifeBand;
use super::key::Key;
use super::words::sentences;
use crate::analysis::knives::{
    Curve, Measured, MeasuredLimit, Over, SameLine, curves, measured_at,
};
use crate::drawing::Axis;
use crate::unit::Unit;
use crate::units::System;

/// How far a plot reaches beyond limits and values in force, in parts of what they span.
const REACH: f64 = 1.0;

/// The plots, in the order of [`Measured::ALL`].
#[derive(Debug)]
pub struct WorkedOut {
    pub plots: [Plotted; 3],
    /// Of each knife, on whose line its own lies.
    pub same: Vec<SameLine>,
}

/// One plot, its values where they stand on its axes.
#[derive(Debug)]
pub struct Plotted {
    /// Of each knife, its unbroken pieces.
    pub lines: Vec<Vec<Vec<PlotPoint>>>,
    /// Of each knife, where it crosses a limit.
    pub crossings: Vec<Vec<PlotPoint>>,
    pub limits: Vec<(MeasuredLimit, f64)>,
    /// How far the fitted knife's line can be off.
    pub band: LifeBand,
    pub up: (f64, f64),
    /// What happens at the limits, in words.
    pub sentences: Vec<String>,
}

impl WorkedOut {
    /// Works the plots out.
    pub fn of(key: &Key) -> Self {
        let all: Vec<[Curve; 3]> = key
            .knives
            .iter()
            .map(|(_, section)| curves(&key.unit, &key.trial, *section, key.over))
            .collect();
        let (across, up) = (across(key.over, key.system), up(key.system));
        let place = |point: [f64; 2]| PlotPoint::new(across.place(point[0]), up.place(point[1]));
        let mut bands = LifeBand::all(key, across, up);
        let plots = std::array::from_fn(|index| {
            let measured = Measured::ALL[index];
            let curves: Vec<&Curve> = all.iter().map(|of_knife| &of_knife[index]).collect();
            let lines = curves.iter().map(|curve| {
                let pieces = curve.pieces.iter();
                pieces
                    .map(|piece| piece.iter().copied().map(place).collect())
                    .collect()
            });
            let crossings = curves.iter().map(|curve| {
                let crossings = curve.crossings.iter();
                crossings
                    .map(|crossing| place([crossing.at, crossing.limit.at.mm()]))
                    .collect()
            });
            let limits = measured.limits(&key.unit, &key.trial);
            Plotted {
                lines: lines.collect(),
                crossings: crossings.collect(),
                up: range_up(key, index, &limits, &curves),
                sentences: sentences(key, &limits, &curves),
                band: std::mem::take(&mut bands[index]),
                limits: limits
                    .iter()
                    .map(|limit| (*limit, up.place(limit.at.mm())))
                    .collect(),
            }
        });
        Self {
            plots,
            same: SameLine::of_all(&all),
        }
    }
}

/// The axis across.
pub fn across(over: Over, system: System) -> Axis {
    match over {
        Over::Diameter => Axis::of_length(system),
        Over::Attitude => Axis::of_angle(),
        Over::Extension => Axis::of_small_length(system),
    }
}

/// The axis up.
pub fn up(system: System) -> Axis {
    Axis::of_small_length(system)
}

/// What a plot shows upwards: limits and the values in force, and as much around them as the lines
/// reach and the eye can still tell from the limits.
fn range_up(key: &Key, index: usize, limits: &[MeasuredLimit], curves: &[&Curve]) -> (f64, f64) {
    let now = key.over.now(&key.unit, &key.trial);
    let in_force = key.knives.iter().filter_map(|(_, section)| {
        Some(measured_at(&key.unit, &key.trial, *section, key.over, now)?[index])
    });
    let of_interest = span(limits.iter().map(|limit| limit.at.mm()).chain(in_force));
    let points = curves
        .iter()
        .flat_map(|curve| curve.pieces.iter().flatten());
    let drawn = span(points.map(|point| point[1]));
    let reach = REACH * (of_interest.1 - of_interest.0).max(0.1);
    let low = drawn.0.max(of_interest.0 - reach).min(of_interest.0);
    let high = drawn.1.min(of_interest.1 + reach).max(of_interest.1);
    let margin = 0.07 * (high - low).max(0.1);
    let axis = up(key.system);
    let is_right = low.is_finite() && high.is_finite();
    if is_right {
        (axis.place(low - margin), axis.place(high + margin))
    } else {
        (axis.place(0.0), axis.place(1.0))
    }
}

fn span(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    })
}

/// What a plot runs over, as a person sees it.
pub fn range_across(over: Over, unit: &Unit, system: System) -> (f64, f64) {
    let axis = across(over, system);
    let (low, high) = over.range(unit);
    let (low, high) = (axis.place(low), axis.place(high));
    // A reel without a life between its two sizes still wants some paper.
    let margin = (0.02 * (high - low)).max(0.002 * high.abs().max(1.0));
    (low - margin, high + margin)
}
