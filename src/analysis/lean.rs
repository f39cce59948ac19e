//! A slide whose lean nobody gave: the bench line stands in for it, and how far that can be off.

use super::uncertainty::LEAN_OFF;
use super::{Solution, Solved};
use crate::geometry::Closing;
use crate::units::{Angle, Length, Sentence};

/// Sweeps closer together than this are told alike.
const LEAST_TOLD_MM: f64 = 0.001;

/// What a lean that is not given leaves open, while reel and knife have come together anew since the
/// bench: the sweep with the slide leaning [`LEAN_OFF`] to either side of the bench line. None where
/// the lean is given, where none slides, or where it changes nothing.
#[must_use]
pub fn lean_in_doubt(solved: &Solved) -> Option<Sentence> {
    let (low, high) = sweeps(solved)?;
    if (high - low).mm() < LEAST_TOLD_MM {
        return None;
    }
    Some(Sentence::new(
        "The slide's lean is not entered, so the line from edge to reel centre stands in for it, and every ± here allows for up to {} more or less lean (rule of thumb). The sweep is then anywhere from {} to {}. Enter the lean under Reel-to-knife adjustment, or work it out there from two readings.",
        &[LEAN_OFF.into(), low.into(), high.into()],
    ))
}

/// The least and the most sweep.
fn sweeps(solved: &Solved) -> Option<(Length, Length)> {
    let bench = &solved.unit.profile.bench;
    let bench_line = bench.lean_of_bench_line();
    let at = |lean: Angle| {
        let mut unit = solved.unit.clone();
        match &mut unit.profile.closing {
            Closing::ReelSlides { lean: given } | Closing::KnifeSlides { lean: given }
                if given.is_none() =>
            {
                *given = Some(lean);
            }
            _ => return None,
        }
        let solution = Solution::of(&unit, &unit.setting).ok()?;
        Some(solution.sweep.below_cut)
    };
    let ends = [at(bench_line - LEAN_OFF)?, at(bench_line + LEAN_OFF)?];
    let middle = solved.solution.sweep.below_cut;
    let low = ends
        .into_iter()
        .fold(middle, |a, b| if b < a { b } else { a });
    let high = ends
        .into_iter()
        .fold(middle, |a, b| if b > a { b } else { a });
    Some((low, high))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::{Document, read_text};
    use crate::units::{Quantity, System};

    const DEMO_UNIT: &str = include_str!("../../demo-units/greens-walking.ron");

    fn demo(change: impl FnOnce(&mut Document)) -> Solved {
        let mut document = read_text(DEMO_UNIT).expect("reads");
        change(&mut document);
        Solved::of(&document).expect("solves")
    }

    fn at_scrap(document: &mut Document) {
        document.setting.reel_diameter = Some(document.reel.smallest_diameter.clone());
    }

    fn with_lean(document: &mut Document, lean: Option<Angle>) {
        let lean = lean.map(|lean| Quantity::exactly(lean, System::Millimetre));
        document.closing = crate::unit::ClosingReadings::ReelSlides { lean };
    }

    #[test]
    fn a_lean_that_is_not_given_is_told_off_the_bench_size_and_not_at_it() {
        assert!(lean_in_doubt(&demo(|unit| with_lean(unit, None))).is_none());
        let told = lean_in_doubt(&demo(|unit| {
            with_lean(unit, None);
            at_scrap(unit);
        }));
        let told = told
            .expect("the reel is ground")
            .shown_in(System::Millimetre);
        assert!(told.contains("lean is not entered"), "{told}");
        let given = demo(|unit| {
            with_lean(unit, Some(Angle::from_deg(0.0)));
            at_scrap(unit);
        });
        assert!(lean_in_doubt(&given).is_none());
    }

    #[test]
    fn its_ends_are_the_sweeps_of_slides_that_lean_so() {
        let open = demo(|unit| {
            with_lean(unit, None);
            at_scrap(unit);
        });
        let (low, high) = sweeps(&open).expect("slides");
        assert!(low < open.solution.sweep.below_cut && open.solution.sweep.below_cut < high);
        let bench = &open.unit.profile.bench;
        let radius = 0.5 * bench.reel_diameter.mm() + bench.gap.mm();
        let line_deg = (bench.behind_centre.mm() / radius).asin().to_degrees();
        let sweep = |deg: f64| {
            let solved = demo(|unit| {
                with_lean(unit, Some(Angle::from_deg(deg)));
                at_scrap(unit);
            });
            solved.solution.sweep.below_cut.mm()
        };
        let typed = [sweep(line_deg - 10.0), sweep(line_deg + 10.0)];
        assert!(
            (typed[0].min(typed[1]) - low.mm()).abs() < 1e-6,
            "{typed:?}"
        );
        assert!(
            (typed[0].max(typed[1]) - high.mm()).abs() < 1e-6,
            "{typed:?}"
        );
    }
}
