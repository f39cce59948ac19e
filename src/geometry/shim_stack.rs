//! Shims: the stack of the sizes in stock that comes nearest to what is wanted.

use crate::units::Length;

/// The most shims in one stack.
pub const MOST_PIECES: usize = 8;

/// Stacks nearer than this are equally near, in millimetres.
const EQUALLY_NEAR_MM: f64 = 1e-9;

/// A stack of shims.
#[derive(Clone, Debug, PartialEq)]
pub struct ShimStack {
    /// Its pieces, the thickest first.
    pub pieces: Vec<Length>,
    /// What was wanted less what they make together: negative where they make too much.
    pub left_over: Length,
}

impl ShimStack {
    /// The stack of some sizes, each any number of times, that comes nearest to a thickness; of equally
    /// near ones that of the fewest pieces. Zero of them where that comes nearest.
    #[must_use]
    pub fn nearest(sizes: &[Length], wanted: Length) -> Self {
        let mut sizes_mm: Vec<f64> = sizes.iter().map(|size| size.mm()).collect();
        sizes_mm.sort_by(|one, other| other.total_cmp(one));
        sizes_mm.dedup();
        let mut search = Search {
            sizes_mm,
            stack: Vec::new(),
            best: Vec::new(),
            best_left_mm: wanted.mm(),
        };
        search.add(0, wanted.mm());
        Self {
            pieces: search.best.into_iter().map(Length::from_mm).collect(),
            left_over: Length::from_mm(search.best_left_mm),
        }
    }
}

/// Every stack, the thickest shims first in each.
struct Search {
    sizes_mm: Vec<f64>,
    stack: Vec<f64>,
    best: Vec<f64>,
    best_left_mm: f64,
}

impl Search {
    /// Goes on from a stack that leaves so much, with sizes from a place of the list on.
    fn add(&mut self, from: usize, left_mm: f64) {
        let nearer_by = self.best_left_mm.abs() - left_mm.abs();
        let is_better = nearer_by > EQUALLY_NEAR_MM
            || nearer_by >= -EQUALLY_NEAR_MM && self.stack.len() < self.best.len();
        if is_better {
            self.best.clone_from(&self.stack);
            self.best_left_mm = left_mm;
        }
        // More on a stack that is thick enough only leads away.
        if self.stack.len() == MOST_PIECES || left_mm <= 0.0 {
            return;
        }
        for place in from..self.sizes_mm.len() {
            let size_mm = self.sizes_mm[place];
            self.stack.push(size_mm);
            self.add(place, left_mm - size_mm);
            self.stack.pop();
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn thou(thou: f64) -> Length {
        Length::from_inches(thou / 1000.0)
    }

    fn nearest(sizes: &[f64], wanted: f64) -> (Vec<f64>, f64) {
        let sizes: Vec<_> = sizes.iter().map(|size| thou(*size)).collect();
        let stack = ShimStack::nearest(&sizes, thou(wanted));
        let in_thou = |length: &Length| (length.inches() * 1e6).round() / 1e3;
        (
            stack.pieces.iter().map(in_thou).collect(),
            in_thou(&stack.left_over),
        )
    }

    #[test]
    fn the_nearest_stack_of_the_fewest_pieces_is_found() {
        let sizes = [5.0, 10.0, 20.0];
        assert_eq!(nearest(&sizes, 35.0), (vec![20.0, 10.0, 5.0], 0.0));
        assert_eq!(nearest(&sizes, 10.0), (vec![10.0], 0.0));
        assert_eq!(nearest(&sizes, 12.0), (vec![10.0], 2.0));
        assert_eq!(nearest(&sizes, 13.0), (vec![10.0, 5.0], -2.0));
        // Half way: fewer pieces, here none.
        assert_eq!(nearest(&sizes, 2.5), (vec![], 2.5));
        assert_eq!(nearest(&sizes, 1000.0), (vec![20.0; 8], 840.0));
        assert_eq!(nearest(&[], 3.0), (vec![], 3.0));
    }

    proptest! {
        #[test]
        fn no_stack_of_three_sizes_comes_nearer(
            sizes in proptest::collection::vec(1_u16..40, 1..=3),
            wanted in 0_u16..400,
        ) {
            let sizes: Vec<f64> = sizes.into_iter().map(f64::from).collect();
            let wanted = f64::from(wanted);
            let (pieces, left) = nearest(&sizes, wanted);
            let at = |place: usize| sizes.get(place).copied().unwrap_or_default();
            let mut best = (f64::INFINITY, usize::MAX);
            for a in 0..=MOST_PIECES {
                for b in 0..=MOST_PIECES - a {
                    for c in 0..=MOST_PIECES - a - b {
                        let counted = [a, b, c].map(|n| f64::from(u8::try_from(n).unwrap()));
                        let sum = counted[0] * at(0) + counted[1] * at(1) + counted[2] * at(2);
                        let found = ((wanted - sum).abs(), a + b + c);
                        if found < best {
                            best = found;
                        }
                    }
                }
            }
            prop_assert!((left.abs() - best.0).abs() < 1e-6, "{left} for {}", best.0);
            prop_assert_eq!(pieces.len(), best.1);
        }
    }
}
