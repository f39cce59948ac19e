//! Which of some numbers that ought to agree stand out.

/// Numbers that differ by less are one.
const SAME: f64 = 1e-9;

/// Which of some numbers stand out, by their places.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OddOnes {
    /// They agree.
    None,
    /// These, without which the others agree: the furthest from the median.
    These(Vec<usize>),
    /// They do not agree, and none stands out: as with two, each may be the odd one.
    Any,
}

impl OddOnes {
    /// Those of some numbers that may differ by so much at the most.
    ///
    /// The furthest from the median of all goes first, those as far with it, until the others agree.
    #[must_use]
    pub fn among(numbers: &[f64], most: f64) -> Self {
        let mut rest: Vec<usize> = (0..numbers.len()).collect();
        let agree = |places: &[usize]| {
            let ends = places.iter().map(|place| numbers[*place]);
            let (low, high) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), n| {
                (low.min(n), high.max(n))
            });
            high - low <= most + SAME
        };
        if agree(&rest) {
            return Self::None;
        }
        let middle = median(numbers);
        let off = |place: usize| (numbers[place] - middle).abs();
        let mut odd = Vec::new();
        while !agree(&rest) {
            let furthest = rest.iter().map(|place| off(*place)).fold(0.0, f64::max);
            let (out, kept) = rest
                .iter()
                .partition(|place| off(**place) >= furthest - SAME);
            rest = kept;
            odd.extend::<Vec<usize>>(out);
        }
        if rest.is_empty() {
            return Self::Any;
        }
        odd.sort_unstable();
        Self::These(odd)
    }

    /// Whether the number at a place is marked: it stands out, or it may be the one.
    #[must_use]
    pub fn marks(&self, place: usize) -> bool {
        match self {
            Self::None => false,
            Self::These(odd) => odd.contains(&place),
            Self::Any => true,
        }
    }

    /// Whether they agree.
    #[must_use]
    pub const fn agree(&self) -> bool {
        matches!(self, Self::None)
    }
}

/// The middle one, or the middle of both that are.
fn median(numbers: &[f64]) -> f64 {
    let mut sorted = numbers.to_vec();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    match sorted.get(half) {
        None => 0.0,
        Some(upper) if sorted.len() % 2 == 1 => *upper,
        Some(upper) => f64::midpoint(sorted[half - 1], *upper),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_furthest_from_the_median_stand_out_until_the_rest_agree() {
        let these = |places: &[usize]| OddOnes::These(places.to_vec());
        for (numbers, wanted) in [
            (&[][..], OddOnes::None),
            (&[0.5], OddOnes::None),
            (&[0.5, 0.505, 0.5], OddOnes::None),
            (&[0.5, 0.47, 0.5], these(&[1])),
            (&[0.5, 0.49, 0.47], these(&[2, 0])),
            (&[0.48, 0.49, 0.5], these(&[0, 2])),
            (&[0.5, 0.5, 0.502, 0.47, 0.53], these(&[3, 4])),
            // Nobody can tell which of two is off, nor two and two.
            (&[0.5, 0.47], OddOnes::Any),
            (&[0.5, 0.5, 0.47, 0.47], OddOnes::Any),
        ] {
            let found = OddOnes::among(numbers, 0.005);
            let wanted = match wanted {
                OddOnes::These(mut places) => {
                    places.sort_unstable();
                    OddOnes::These(places)
                }
                other => other,
            };
            assert_eq!(found, wanted, "{numbers:?}");
            let marked = (0..numbers.len()).filter(|place| found.marks(*place));
            assert_eq!(marked.count() == 0, found.agree(), "{numbers:?}");
        }
    }
}
