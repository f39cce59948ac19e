//! Where smooth functions cross zero: every crossing in a range, bracketed and solved.
//!
//! The range is cut into cells. A change of sign brackets a crossing, which kurbo's ITP root finder
//! solves. A cell without one is searched for a pair of crossings only where a function that bends
//! no more than its neighbourhood shows could come down to zero and up again within the cell:
//! a function f with |f''| ≤ M has no zero in a cell of width w if |f| > M·w²/8 at both ends.
//! No function is taken to be monotonic.
//!
//! Where the functions begin or cease to exist they may be as steep as a square root. The part of
//! such a cell in which they exist is cut again, ever finer towards the border.

use kurbo::common::solve_itp;

/// Crossings are solved to within this, in the unit of the range.
const EPSILON: f64 = 1e-11;
/// How many times more a function may bend inside a cell than it is seen to bend around it.
pub(super) const BEND_SAFETY: f64 = 4.0;
/// Cells between a border of existence and the sample beside it.
const CELLS_AT_BORDER: u32 = 16;

/// For functions each of which counts.
pub(in crate::analysis) const ALL_COUNT: usize = usize::MAX;

/// Something that may not exist everywhere: the values of several functions at a place.
pub(in crate::analysis) type Values = Option<Vec<f64>>;

/// A place where one of the functions crosses zero, or all of them begin or cease to exist.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::analysis) struct Crossing {
    /// Where.
    pub(in crate::analysis) at: f64,
    /// Which function; none where existence itself begins or ceases.
    pub(in crate::analysis) which: Option<usize>,
}

/// Finds every crossing of the functions between `low` and `high`, in order. Of those from number
/// `least_of` on only the least counts: a crossing of another may be passed over.
pub(in crate::analysis) fn crossings(
    functions: &mut dyn FnMut(f64) -> Values,
    (low, high): (f64, f64),
    cells: u32,
    least_of: usize,
) -> Vec<Crossing> {
    let place = |index: u32| low + (high - low) * f64::from(index) / f64::from(cells);
    let samples: Vec<(f64, Values)> = (0..=cells)
        .map(|index| (place(index), functions(place(index))))
        .collect();
    let mut found = Vec::new();
    search_cells(functions, &samples, least_of, &mut found);
    for pair in samples.windows(2) {
        let [(from, at_from), (to, at_to)] = pair else {
            continue;
        };
        if at_from.is_some() == at_to.is_some() {
            continue;
        }
        let (exists, gone) = if at_from.is_some() {
            (*from, *to)
        } else {
            (*to, *from)
        };
        let (still, no_more) = border(functions, exists, gone);
        found.push(Crossing {
            at: f64::midpoint(still, no_more),
            which: None,
        });
        let mut samples: Vec<(f64, Values)> = (0..=CELLS_AT_BORDER)
            .map(|index| f64::from(index) / f64::from(CELLS_AT_BORDER))
            .map(|part| still + (exists - still) * part * part)
            .map(|at| (at, functions(at)))
            .collect();
        if exists < gone {
            samples.reverse();
        }
        search_cells(functions, &samples, least_of, &mut found);
    }
    found.sort_by(|a, b| a.at.total_cmp(&b.at));
    found
}

/// Searches every cell at both of whose ends the functions exist.
fn search_cells(
    functions: &mut dyn FnMut(f64) -> Values,
    samples: &[(f64, Values)],
    least_of: usize,
    found: &mut Vec<Crossing>,
) {
    for (index, pair) in samples.windows(2).enumerate() {
        let [(from, Some(a)), (to, Some(b))] = pair else {
            continue;
        };
        let bend_of = |which| BEND_SAFETY * bend_around(samples, index, which);
        let count = a.len().min(b.len());
        let together = |which: usize| a[which] + b[which];
        let least =
            (least_of..count).min_by(|one, other| together(*one).total_cmp(&together(*other)));
        let least = least.map(|which| (which, bend_of(which)));
        for which in 0..count {
            let bend = bend_of(which);
            // By the same estimate it stays above the least one all through the cell.
            let stays_above = |(least, least_bend): (usize, f64)| {
                let apart = (bend + least_bend) / 8.0;
                a[which] - a[least] > apart && b[which] - b[least] > apart
            };
            if which >= least_of && least.is_some_and(stays_above) {
                continue;
            }
            let cell = Cell {
                from: *from,
                to: *to,
                at_from: a[which],
                at_to: b[which],
            };
            cell.search(functions, which, bend, found);
        }
    }
}

/// The largest second difference of a function over the samples around a cell.
pub(super) fn bend_around(samples: &[(f64, Values)], cell: usize, which: usize) -> f64 {
    let value = |index: usize| {
        samples
            .get(index)
            .and_then(|(_, values)| values.as_ref())
            .and_then(|v| v.get(which).copied())
    };
    let bend_at = |middle: usize| {
        let (before, after) = (value(middle.checked_sub(1)?)?, value(middle + 1)?);
        Some((before - 2.0 * value(middle)? + after).abs())
    };
    (cell.saturating_sub(1)..=cell + 2)
        .filter_map(bend_at)
        .fold(0.0, f64::max)
}

/// Where existence ceases between a place where there is some and one where there is none, by
/// halving: the last place where it is seen, and the first where it is not.
fn border(functions: &mut dyn FnMut(f64) -> Values, exists: f64, gone: f64) -> (f64, f64) {
    let (mut exists, mut gone) = (exists, gone);
    while (gone - exists).abs() > EPSILON {
        let middle = f64::midpoint(exists, gone);
        if middle <= exists.min(gone) || middle >= exists.max(gone) {
            break;
        }
        if functions(middle).is_some() {
            exists = middle;
        } else {
            gone = middle;
        }
    }
    (exists, gone)
}

/// A function between two neighbouring samples.
#[derive(Clone, Copy)]
struct Cell {
    from: f64,
    to: f64,
    at_from: f64,
    at_to: f64,
}

impl Cell {
    fn search(
        self,
        functions: &mut dyn FnMut(f64) -> Values,
        which: usize,
        bend: f64,
        found: &mut Vec<Crossing>,
    ) {
        let mut value = |at: f64| {
            functions(at)
                .and_then(|values| values.get(which).copied())
                .unwrap_or(f64::NAN)
        };
        let mut push = |at: f64| {
            found.push(Crossing {
                at,
                which: Some(which),
            });
        };
        if (self.at_from < 0.0) != (self.at_to < 0.0) {
            push(self.solve(&mut value));
        } else if self.at_from.abs().min(self.at_to.abs()) <= bend / 8.0
            && let Some((turn, at_turn)) = self.turn(&mut value)
            && (at_turn < 0.0) != (self.at_from < 0.0)
        {
            push(
                Self {
                    to: turn,
                    at_to: at_turn,
                    ..self
                }
                .solve(&mut value),
            );
            push(
                Self {
                    from: turn,
                    at_from: at_turn,
                    ..self
                }
                .solve(&mut value),
            );
        }
    }

    /// The crossing between two values of different sign.
    fn solve(self, value: &mut dyn FnMut(f64) -> f64) -> f64 {
        if self.at_from == 0.0 {
            return self.from;
        }
        if self.at_to == 0.0 {
            return self.to;
        }
        let sign = if self.at_from < 0.0 { 1.0 } else { -1.0 };
        solve_itp(
            |at| sign * value(at),
            self.from,
            self.to,
            EPSILON,
            1,
            0.2 / (self.to - self.from),
            sign * self.at_from,
            sign * self.at_to,
        )
    }

    /// The place in the cell where the function comes nearest to zero, by the golden section,
    /// or sooner a place where it has passed it.
    fn turn(self, value: &mut dyn FnMut(f64) -> f64) -> Option<(f64, f64)> {
        const GOLDEN: f64 = 0.618_033_988_749_895;
        // Past so many the place is known to a millionth of the cell, its value to the square of that.
        const STEPS: u32 = 32;
        let sign = if self.at_from < 0.0 { -1.0 } else { 1.0 };
        let mut signed = |at: f64| sign * value(at);
        let (mut from, mut to) = (self.from, self.to);
        let place = |from: f64, to: f64, part: f64| from + part * (to - from);
        let mut a = place(from, to, 1.0 - GOLDEN);
        let mut b = place(from, to, GOLDEN);
        let (mut at_a, mut at_b) = (signed(a), signed(b));
        for _ in 0..STEPS {
            if at_a < 0.0 {
                return Some((a, sign * at_a));
            }
            if at_b < 0.0 {
                return Some((b, sign * at_b));
            }
            if at_a.is_nan() || at_b.is_nan() {
                return None;
            }
            // Each step keeps one of both places and looks at one more.
            if at_a < at_b {
                to = b;
                (b, at_b) = (a, at_a);
                a = place(from, to, 1.0 - GOLDEN);
                at_a = signed(a);
            } else {
                from = a;
                (a, at_a) = (b, at_b);
                b = place(from, to, GOLDEN);
                at_b = signed(b);
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_crossing_is_found_also_a_close_pair_inside_one_cell() {
        // (x − 1)(x − 1.001) dips below zero for a thousandth; sin has its own zeros.
        let mut functions = |x: f64| Some(vec![(x - 1.0) * (x - 1.001), x.sin()]);
        let found = crossings(&mut functions, (0.5, 7.0), 50, ALL_COUNT);
        let at = |which| {
            found
                .iter()
                .filter(|c| c.which == Some(which))
                .map(|c| c.at)
                .collect::<Vec<_>>()
        };
        assert_eq!(at(0).len(), 2, "{found:?}");
        assert!((at(0)[0] - 1.0).abs() < 1e-9 && (at(0)[1] - 1.001).abs() < 1e-9);
        assert_eq!(at(1).len(), 2);
        assert!((at(1)[0] - std::f64::consts::PI).abs() < 1e-9);
    }

    #[test]
    fn of_many_of_which_the_least_counts_every_place_where_the_least_crosses_is_found() {
        // Parabolas side by side, each the least for a while; by turns ten dip below zero together.
        let parabola = |x: f64, index: u8| {
            let from_foot = x - f64::from(index) / 40.0;
            let depth = if (index / 10).is_multiple_of(2) {
                0.01
            } else {
                -1.0
            };
            from_foot * from_foot - depth
        };
        let least = |x: f64| {
            let all = (0..200).map(|index| parabola(x, index));
            all.fold(f64::INFINITY, f64::min)
        };
        let found_and_asked = |least_of: usize| {
            let mut asked = 0;
            let mut functions = |x: f64| {
                asked += 1;
                Some((0..200).map(|index| parabola(x, index)).collect())
            };
            let found = crossings(&mut functions, (0.01, 4.9), 160, least_of);
            let of_least = found
                .iter()
                .filter(|crossing| least(crossing.at).abs() < 1e-9);
            (of_least.count(), asked)
        };
        let (all, asked_for_all) = found_and_asked(ALL_COUNT);
        // Both sides of every ten, the left of the first out of the range.
        assert_eq!(all, 2 * 10 - 1);
        let (found, asked) = found_and_asked(0);
        assert_eq!(found, all);
        assert!(asked < asked_for_all, "{asked} of {asked_for_all}");
    }

    #[test]
    fn where_nothing_exists_any_more_is_a_crossing_too() {
        let mut functions = |x: f64| (x < 2.345_678).then(|| vec![1.0]);
        let found = crossings(&mut functions, (0.0, 5.0), 40, ALL_COUNT);
        assert_eq!(found.len(), 1);
        assert!(found[0].which.is_none() && (found[0].at - 2.345_678).abs() < 1e-9);
    }

    #[test]
    fn what_is_crossed_just_before_nothing_exists_any_more_is_found() {
        // A square root that is steep where it begins: zero at 1.000_001, and no more below 1.
        for sign in [1.0, -1.0] {
            let mut functions = |x: f64| {
                let root = (sign * x - 1.0).sqrt();
                (!root.is_nan()).then(|| vec![root - 1e-3])
            };
            let (low, high) = if sign > 0.0 {
                (0.07, 5.0)
            } else {
                (-5.0, -0.07)
            };
            let found = crossings(&mut functions, (low, high), 40, ALL_COUNT);
            let at = |which: Option<usize>| found.iter().find(|c| c.which == which).unwrap().at;
            assert_eq!(found.len(), 2, "{found:?}");
            assert!((at(None) - sign).abs() < 1e-10, "{found:?}");
            assert!((at(Some(0)) - sign * 1.000_001).abs() < 1e-10, "{found:?}");
        }
    }
}
