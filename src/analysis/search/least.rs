//! The least value that smooth functions have over a range, wherever in it they have it.

use super::crossings::{BEND_SAFETY, Values, bend_around};

/// Past so many steps of the golden section a place is known to a millionth of its cell, the value
/// there to the square of that.
const STEPS: u32 = 32;

/// The least value of a function over a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::analysis) struct Least {
    /// Where it has it.
    pub(in crate::analysis) at: f64,
    /// The value.
    pub(in crate::analysis) value: f64,
}

/// The least value of each function from `low` to `high`; none where one place of the samples does
/// not exist.
///
/// Looked for between samples only where a function that bends no more than four times as much as
/// its samples show could reach zero: elsewhere the least sample has the sign of the least value.
pub(in crate::analysis) fn least(
    functions: &mut dyn FnMut(f64) -> Values,
    low: f64,
    high: f64,
    cells: u32,
) -> Option<Vec<Least>> {
    let place = |index: u32| low + (high - low) * f64::from(index) / f64::from(cells);
    let samples: Vec<(f64, Values)> = (0..=cells)
        .map(|index| (place(index), functions(place(index))))
        .collect();
    let count = samples
        .iter()
        .map(|(_, values)| values.as_ref().map(Vec::len))
        .try_fold(usize::MAX, |least, count| Some(least.min(count?)))?;
    let found = (0..count).map(|which| {
        let value = |index: usize| {
            let values = samples.get(index).and_then(|(_, values)| values.as_ref());
            values.map_or(f64::INFINITY, |values| values[which])
        };
        let lowest = (0..samples.len())
            .min_by(|&a, &b| value(a).total_cmp(&value(b)))
            .unwrap_or(0);
        let of_samples = Least {
            at: samples[lowest].0,
            value: value(lowest),
        };
        let cell = lowest.saturating_sub(1);
        let bend = BEND_SAFETY * bend_around(&samples, cell, which);
        if of_samples.value.abs() > bend / 8.0 {
            return of_samples;
        }
        let (from, to) = (
            samples[cell].0,
            samples[(lowest + 1).min(samples.len() - 1)].0,
        );
        let mut of_place = |at: f64| functions(at).map_or(f64::INFINITY, |values| values[which]);
        let turn = golden(&mut of_place, from, to);
        if turn.value < of_samples.value {
            turn
        } else {
            of_samples
        }
    });
    Some(found.collect())
}

/// The least value between two places, by the golden section.
fn golden(value: &mut dyn FnMut(f64) -> f64, from: f64, to: f64) -> Least {
    const GOLDEN: f64 = 0.618_033_988_749_895;
    let (mut from, mut to) = (from, to);
    let mut a = to - GOLDEN * (to - from);
    let mut b = from + GOLDEN * (to - from);
    let (mut at_a, mut at_b) = (value(a), value(b));
    for _ in 0..STEPS {
        if at_a < at_b {
            to = b;
            (b, at_b) = (a, at_a);
            a = to - GOLDEN * (to - from);
            at_a = value(a);
        } else {
            from = a;
            (a, at_a) = (b, at_b);
            b = from + GOLDEN * (to - from);
            at_b = value(b);
        }
    }
    if at_a < at_b {
        Least { at: a, value: at_a }
    } else {
        Least { at: b, value: at_b }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_least_value_is_found_between_samples_and_at_either_end() {
        let mut functions = |x: f64| {
            let dip = (x - 1.234_5).powi(2) - 1e-6;
            Some(vec![dip, x - 1.0, 3.0 - x])
        };
        let found = least(&mut functions, 1.0, 3.0, 8).expect("it exists");
        assert!((found[0].at - 1.234_5).abs() < 1e-6, "{found:?}");
        assert!((found[0].value + 1e-6).abs() < 1e-12, "{found:?}");
        assert_eq!((found[1].at, found[1].value), (1.0, 0.0));
        assert_eq!((found[2].at, found[2].value), (3.0, 0.0));
    }

    #[test]
    fn there_is_no_least_value_where_a_sample_does_not_exist() {
        let mut functions = |x: f64| (x < 2.0).then(|| vec![x]);
        assert_eq!(least(&mut functions, 1.0, 3.0, 8), None);
    }
}
