//! How wide a ± must be to hold as much as is wanted: expanded uncertainty from the spread itself.
//!
//! The two largest parts keep the shape they have, evenly spread; all others together count as
//! normal, as the central limit theorem has it (JCGM 100:2008, G.2). What these three give added up
//! is a closed form, their convolution; the ± is where it holds [`COVERAGE`]. Alone an even spread
//! gives *k* = 1.65, two alike give 1.93, many give 2.

use kurbo::common::solve_itp;
use libm::erfc;
use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// How much an expanded uncertainty holds: as much as *k* = 2 does of a normal spread, which
/// JCGM 100:2008, 6.3.3, calls about 95 %.
pub const COVERAGE: f64 = 0.954_499_736_103_642;

/// Parts below this of the largest count as this: too small to be seen, and the closed form needs no
/// other case.
const LEAST_PART: f64 = 1e-5;

/// The least ± about a number that holds [`COVERAGE`] of what its readings leave open, from the number's
/// sensitivity to each and each one's standard uncertainty, the readings evenly spread. It is never
/// wider than the farthest that the readings allow.
#[must_use]
pub fn expanded(parts: impl IntoIterator<Item = (f64, f64)>) -> f64 {
    let spread = Spread::of(parts);
    if spread.largest <= 0.0 || !spread.farthest.is_finite() {
        return spread.farthest;
    }
    let shape = spread.shape();
    let most = 1.0 + shape.second + 8.0 * shape.rest;
    let short = |at: f64| shape.within(at) - COVERAGE;
    let of_largest = solve_itp(
        short,
        0.0,
        most,
        1e-9,
        1,
        0.2 / most,
        -COVERAGE,
        short(most),
    );
    (of_largest * spread.largest).min(spread.farthest)
}

/// What the parts come to.
#[derive(Clone, Copy, Debug, Default)]
struct Spread {
    /// Half-widths of the two largest.
    largest: f64,
    second: f64,
    /// Variance of all others together.
    rest_variance: f64,
    /// All half-widths together.
    farthest: f64,
}

impl Spread {
    fn of(parts: impl IntoIterator<Item = (f64, f64)>) -> Self {
        let half_widths = parts
            .into_iter()
            .map(|(sensitivity, standard)| (sensitivity * standard).abs() * 3_f64.sqrt());
        half_widths.fold(Self::default(), |spread, half_width| {
            let [largest, second, other] = if half_width > spread.largest {
                [half_width, spread.largest, spread.second]
            } else if half_width > spread.second {
                [spread.largest, half_width, spread.second]
            } else {
                [spread.largest, spread.second, half_width]
            };
            Self {
                largest,
                second,
                rest_variance: spread.rest_variance + other * other / 3.0,
                farthest: spread.farthest + half_width,
            }
        })
    }

    fn shape(&self) -> Shape {
        Shape {
            second: (self.second / self.largest).max(LEAST_PART),
            rest: (self.rest_variance.sqrt() / self.largest).max(LEAST_PART),
        }
    }
}

/// A spread in parts of its largest.
#[derive(Clone, Copy, Debug)]
struct Shape {
    /// Half-width of the second largest.
    second: f64,
    /// Standard deviation of the normal part.
    rest: f64,
}

impl Shape {
    /// How much lies within ± `at`.
    fn within(&self, at: f64) -> f64 {
        2.0 * self.below(at) - 1.0
    }

    /// How much lies below a place: two even spreads added to a normal one are its distribution
    /// averaged over both of them, twice a difference of its integral.
    fn below(&self, at: f64) -> f64 {
        let corner = |way: f64| integral_twice((at + way) / self.rest);
        let differences =
            corner(1.0 + self.second) - corner(1.0 - self.second) - corner(self.second - 1.0)
                + corner(-1.0 - self.second);
        self.rest * self.rest * differences / (4.0 * self.second)
    }
}

/// The standard normal distribution integrated twice from far below.
fn integral_twice(x: f64) -> f64 {
    let below = 0.5 * erfc(-x * FRAC_1_SQRT_2);
    let density = (-0.5 * x * x).exp() / (2.0 * PI).sqrt();
    0.5 * ((x * x + 1.0) * below + x * density)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::uncertainty::{combined, standard_of_half_width};

    fn factor(half_widths: &[f64]) -> f64 {
        let parts = || {
            half_widths
                .iter()
                .map(|half| (1.0, standard_of_half_width(*half)))
        };
        expanded(parts()) / combined(parts())
    }

    #[test]
    fn an_even_spread_alone_and_a_normal_one_have_the_factors_of_the_guide() {
        // JCGM 100:2008, G.1.3 and 6.3.3 (from memory): 1.65 for 95 % of an even spread, 2 for about
        // 95 % of a normal one.
        assert!((factor(&[0.3]) - COVERAGE * 3_f64.sqrt()).abs() < 1e-4);
        assert!((factor(&[0.3]) - 1.65).abs() < 0.005);
        let many = factor(&[1.0; 40]);
        assert!((many - 2.0).abs() < 0.005, "{many}");
    }

    #[test]
    fn two_even_spreads_have_the_closed_form_of_a_trapezium() {
        // EA-4/02 M:2022, S10 (from memory): k = (1 - sqrt((1 - p)(1 - β²)))/sqrt((1 + β²)/6), β the
        // flat top's part of the whole.
        for second in [1.0, 0.8, 0.5, 0.3_f64] {
            let top = (1.0 - second) / (1.0 + second);
            let square = top * top;
            let wanted =
                (1.0 - ((1.0 - COVERAGE) * (1.0 - square)).sqrt()) / ((1.0 + square) / 6.0).sqrt();
            let found = factor(&[1.0, second]);
            assert!((found - wanted).abs() < 1e-4, "{second}: {found}, {wanted}");
        }
    }

    #[test]
    fn it_grows_steadily_and_never_past_what_the_readings_allow() {
        let mut before = 0.0;
        for step in 0..200 {
            let other = f64::from(step) / 100.0;
            let parts = [1.0, other, 0.4 * other, 0.3 * other];
            let of = parts.map(|half| (1.0, standard_of_half_width(half)));
            let now = expanded(of);
            assert!(now >= before - 1e-7, "{other}: {now}, {before}");
            assert!(now <= parts.iter().sum::<f64>());
            assert!(now <= 2.0 * combined(of));
            before = now;
        }
        assert!(expanded([]).abs() < f64::MIN_POSITIVE);
        assert!(expanded([(f64::INFINITY, 1.0)]).is_infinite());
    }
}
