//! Round numbers: one, two and five, and these times ten to any power.

const ROUND: [f64; 4] = [1.0, 2.0, 5.0, 10.0];

fn decade(of: f64) -> f64 {
    10.0_f64.powf(of.log10().floor())
}

/// The least round number of at least so much, which is more than zero.
#[must_use]
pub fn round_up(least: f64) -> f64 {
    let decade = decade(least);
    let mut steps = ROUND.into_iter().map(|round| round * decade);
    steps
        .find(|step| *step >= least * (1.0 - 1e-9))
        .unwrap_or(10.0 * decade)
}

/// The greatest round number of at most so much, which is more than zero.
#[must_use]
pub fn round_down(most: f64) -> f64 {
    let decade = decade(most);
    let steps = ROUND.into_iter().rev().map(|round| round * decade);
    steps
        .into_iter()
        .find(|step| *step <= most)
        .unwrap_or(decade)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_numbers_go_by_one_two_and_five() {
        for (number, down, up) in [
            (1.0, 1.0, 1.0),
            (1.2, 1.0, 2.0),
            (3.0, 2.0, 5.0),
            (70.0, 50.0, 100.0),
            (0.003, 0.002, 0.005),
        ] {
            assert!((round_down(number) / down - 1.0).abs() < 1e-12, "{number}");
            assert!((round_up(number) / up - 1.0).abs() < 1e-12, "{number}");
        }
    }
}
