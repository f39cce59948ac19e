//! Knives whose curves lie on each other: two lines drawn there would read as one of another pattern.

use super::{Curve, Measured};
use crate::units::Quoted;

/// Curves that are nowhere further apart than this, in millimetres, are one to the eye.
const SAME_MM: f64 = 0.002;

/// For each measured number, the place of the knife on whose line another knife's lies; none where that
/// has a line of its own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SameLine([Option<usize>; 3]);

impl SameLine {
    /// Of each of some knives, whose line its own lies on: that of the first one that runs there.
    #[must_use]
    pub fn of_all<'a>(knives: impl IntoIterator<Item = &'a [Curve; 3]>) -> Vec<Self> {
        let knives: Vec<&[Curve; 3]> = knives.into_iter().collect();
        let mut all: Vec<Self> = Vec::new();
        for curves in &knives {
            let same = Measured::ALL.map(|measured| {
                let index = measured as usize;
                let mut before = all.iter().zip(&knives).enumerate();
                let same = before.find(|(_, (its, other))| {
                    its.0[index].is_none() && curves[index].runs_with(&other[index])
                });
                same.map(|(place, _)| place)
            });
            all.push(Self(same));
        }
        all
    }

    /// The place of the knife whose line it lies on.
    #[must_use]
    pub const fn in_plot(&self, measured: Measured) -> Option<usize> {
        self.0[measured as usize]
    }

    /// It in words, for a key: whose line is drawn for it, and of which numbers. None where all lines are
    /// its own.
    #[must_use]
    pub fn told<'a>(&self, name: impl Fn(usize) -> Option<&'a str>) -> Option<String> {
        let mut told: Vec<(usize, Vec<&str>)> = Vec::new();
        for measured in Measured::ALL {
            let Some(place) = self.in_plot(measured) else {
                continue;
            };
            match told.iter_mut().find(|(had, _)| *had == place) {
                Some((_, numbers)) => numbers.push(measured.short_name()),
                None => told.push((place, vec![measured.short_name()])),
            }
        }
        let told = told.into_iter().filter_map(|(place, numbers)| {
            let name = Quoted(name(place)?);
            Some(if numbers.len() == Measured::ALL.len() {
                format!("same as {name}")
            } else {
                format!("{}: same as {name}", numbers.join(" and "))
            })
        });
        let told: Vec<String> = told.collect();
        (!told.is_empty()).then(|| told.join("; "))
    }
}

impl Curve {
    /// Whether it runs where another does from end to end.
    fn runs_with(&self, other: &Self) -> bool {
        let lies_on = |one: &Self, other: &Self| {
            let mut points = one.pieces.iter().flatten();
            points.all(|&[at, value]| {
                other
                    .value_at(at)
                    .is_some_and(|its| (its - value).abs() < SAME_MM)
            })
        };
        !self.pieces.is_empty() && lies_on(self, other) && lies_on(other, self)
    }

    /// Its value at a place, between the places where it was solved in proportion.
    fn value_at(&self, at: f64) -> Option<f64> {
        self.pieces.iter().find_map(|piece| {
            let after = piece.partition_point(|point| point[0] < at);
            let &[to_at, to] = piece.get(after)?;
            match after.checked_sub(1).map(|before| piece[before]) {
                Some([from_at, from]) => {
                    Some(from + (to - from) * (at - from_at) / (to_at - from_at))
                }
                None => (to_at <= at).then_some(to),
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn curve(pieces: &[&[[f64; 2]]]) -> Curve {
        Curve {
            pieces: pieces.iter().map(|piece| piece.to_vec()).collect(),
            crossings: Vec::new(),
        }
    }

    #[test]
    fn curves_are_the_same_wherever_they_were_solved_and_not_where_one_ends() {
        let line = curve(&[&[[0.0, 1.0], [4.0, 3.0]]]);
        let closer = curve(&[&[[0.0, 1.0], [1.0, 1.5], [3.0, 2.5], [4.0, 3.0]]]);
        let bent = curve(&[&[[0.0, 1.0], [1.0, 1.51], [4.0, 3.0]]]);
        let short = curve(&[&[[0.0, 1.0], [3.0, 2.5]]]);
        let broken = curve(&[&[[0.0, 1.0], [1.0, 1.5]], &[[3.0, 2.5], [4.0, 3.0]]]);
        let none = curve(&[]);
        assert!(line.runs_with(&closer) && closer.runs_with(&line));
        for other in [&bent, &short, &none] {
            assert!(
                !line.runs_with(other) && !other.runs_with(&line),
                "{other:?}"
            );
        }
        assert!(!closer.runs_with(&curve(&[&[[1.0, 1.5], [3.0, 2.5]]])));
        let whole = curve(&[&[[0.0, 1.0], [2.0, 2.0], [4.0, 3.0]]]);
        assert!(whole.runs_with(&line) && !whole.runs_with(&broken));
        assert!(!none.runs_with(&none));
    }

    #[test]
    fn a_key_tells_whose_line_is_drawn_and_of_which_numbers() {
        let (one, two) = (curve(&[&[[0.0, 1.0]]]), curve(&[&[[0.0, 2.0]]]));
        let all = SameLine::of_all(&[
            [one.clone(), one.clone(), one.clone()],
            [one.clone(), one.clone(), two.clone()],
            [one.clone(), one.clone(), two.clone()],
            [two.clone(), two.clone(), two],
            [one.clone(), one.clone(), one],
        ]);
        let names = ["a", "b", "c", "d", "e"];
        let told: Vec<_> = all
            .iter()
            .map(|same| same.told(|place| names.get(place).copied()))
            .collect();
        let text = |told: &str| Some(told.to_owned());
        assert_eq!(
            told,
            [
                None,
                text("sweep and behind centre: same as \"a\""),
                text("sweep and behind centre: same as \"a\"; underside: same as \"b\""),
                text("underside: same as \"b\""),
                text("same as \"a\""),
            ]
        );
    }
}
