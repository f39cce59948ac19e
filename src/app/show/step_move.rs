//! How a lesson's picture moves from one step to the next: for how long, and how far it is at any time.

/// How long it moves, in seconds.
pub(super) const MOVES_S: f64 = 0.6;

/// A move that goes on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Moving {
    /// The step it began at.
    pub(super) from: usize,
    /// When its first frame was shown, by the toolkit's clock; none before it.
    begun_s: Option<f64>,
    /// How much of it is done.
    pub(super) part: f64,
}

impl Moving {
    /// A move from a step, of which no frame was shown yet.
    pub(super) const fn from(step: usize) -> Self {
        Self {
            from: step,
            begun_s: None,
            part: 0.0,
        }
    }

    /// The same move at a time of the toolkit's clock; none once it is done.
    pub(super) fn at(self, now_s: f64) -> Option<Self> {
        let begun_s = self.begun_s.unwrap_or(now_s);
        let part = part_done(now_s - begun_s);
        (part < 1.0).then_some(Self {
            begun_s: Some(begun_s),
            part,
            ..self
        })
    }
}

/// How much of a move is done after so many seconds: slow at both ends.
fn part_done(seconds: f64) -> f64 {
    let part = (seconds / MOVES_S).clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_move_goes_from_its_beginning_to_its_end_and_never_back() {
        assert_eq!((part_done(-1.0), part_done(0.0)), (0.0, 0.0));
        assert_eq!((part_done(MOVES_S), part_done(9.0)), (1.0, 1.0));
        assert!((part_done(0.5 * MOVES_S) - 0.5).abs() < 1e-12);
        let parts: Vec<f64> = (0..=60)
            .map(|step| part_done(0.01 * f64::from(step)))
            .collect();
        assert!(parts.is_sorted());
    }

    #[test]
    fn its_clock_begins_with_its_first_frame() {
        let first = Moving::from(3).at(100.0).expect("it goes on");
        assert_eq!((first.from, first.part), (3, 0.0));
        let half = first.at(100.0 + 0.5 * MOVES_S).expect("it goes on");
        assert!((half.part - 0.5).abs() < 1e-9);
        assert_eq!(half.at(100.0 + MOVES_S), None);
    }
}
