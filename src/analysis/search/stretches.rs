//! A range cut into stretches at every crossing, and neighbouring stretches joined again.

use super::crossings::{Crossing, Values, crossings};

/// Between two neighbouring crossings: no function crosses zero in it.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::analysis) struct Stretch {
    /// Where it begins.
    pub(in crate::analysis) low: f64,
    /// Where it ends.
    pub(in crate::analysis) high: f64,
    /// What it begins with; none at the beginning of the range.
    pub(in crate::analysis) begin: Option<Crossing>,
    /// What it ends with; none at the end of the range.
    pub(in crate::analysis) end: Option<Crossing>,
    /// The functions in its middle.
    pub(in crate::analysis) values: Values,
}

/// Cuts a range at every crossing of the functions, found as [`crossings`] finds them.
pub(in crate::analysis) fn stretches(
    functions: &mut dyn FnMut(f64) -> Values,
    (low, high): (f64, f64),
    cells: u32,
    least_of: usize,
) -> Vec<Stretch> {
    let found = crossings(functions, (low, high), cells, least_of);
    let mut begin: Option<Crossing> = None;
    let ends = found.into_iter().map(Some).chain([None]);
    ends.map(|end| {
        let from = begin.map_or(low, |crossing| crossing.at);
        let to = end.map_or(high, |crossing| crossing.at);
        let stretch = Stretch {
            low: from,
            high: to,
            begin,
            end,
            values: functions(f64::midpoint(from, to)),
        };
        begin = end;
        stretch
    })
    .collect()
}

/// The unbroken runs of neighbours that are within, each with at least one of them.
pub(in crate::analysis) fn runs<T>(
    stretches: &[T],
    is_within: impl Fn(&T) -> bool + Copy,
) -> impl Iterator<Item = (&T, &T)> {
    stretches
        .chunk_by(move |one, next| is_within(one) == is_within(next))
        .filter_map(|run| Some((run.first()?, run.last()?)))
        .filter(move |(first, _)| is_within(first))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::search::ALL_COUNT;

    #[test]
    fn a_range_is_cut_at_its_crossings_and_joined_where_nothing_is_passed() {
        // Below zero between 2 and 3; the cut at 1 parts nothing.
        let mut functions = |x: f64| Some(vec![(x - 2.0) * (x - 3.0), x - 1.0]);
        let cut = stretches(&mut functions, (0.0, 5.0), 50, ALL_COUNT);
        let places: Vec<_> = cut.iter().map(|s| s.low.round()).collect();
        assert_eq!(places, [0.0, 1.0, 2.0, 3.0]);
        assert_eq!((cut[0].begin, cut[3].end), (None, None));
        assert_eq!(cut[0].end, cut[1].begin);
        let first_holds = |s: &Stretch| s.values.as_ref().is_some_and(|values| values[0] >= 0.0);
        let joined: Vec<_> = runs(&cut, first_holds)
            .map(|(first, last)| (first.low.round(), last.high.round()))
            .collect();
        assert_eq!(joined, [(0.0, 2.0), (3.0, 5.0)]);
    }
}
