//! From one step of a lesson to the next: what is shown moves there, through poses that can exist.

use super::solved::SolvedStep;
use crate::analysis::Between;

/// How the units of one step become those of another.
#[derive(Clone, Copy, Debug)]
pub struct StepMove<'a> {
    first: Between<'a>,
    second: Option<Between<'a>>,
    to: &'a SolvedStep,
}

impl<'a> StepMove<'a> {
    /// The move from one step to another, with their second units where these are seen.
    #[must_use]
    pub fn of(from: &'a SolvedStep, to: &'a SolvedStep, sees_second: bool) -> Self {
        let first = Between {
            from: &from.first,
            to: &to.first,
        };
        let seconds = from.second.as_ref().zip(to.second.as_ref());
        let second = seconds
            .filter(|_| sees_second)
            .map(|(from, to)| Between { from, to });
        Self { first, second, to }
    }

    /// Whether something moves, and all of it can.
    #[must_use]
    pub fn can_be(&self) -> bool {
        let ways = || std::iter::once(self.first).chain(self.second);
        ways().any(|way| way.is_any()) && ways().all(|way| way.can_be())
    }

    /// The step so far on the way: with the units of the one at 0, of the other at 1, and with the other's
    /// words and numbers. None where a unit cannot stand so.
    #[must_use]
    pub fn at(&self, part: f64) -> Option<SolvedStep> {
        let second = match self.second {
            Some(way) => Some(way.at(part)?),
            None => self.to.second.clone(),
        };
        Some(SolvedStep {
            first: self.first.at(part)?,
            second,
            text: self.to.text.clone(),
            text_asked: self.to.text_asked.clone(),
            numbers: self.to.numbers.clone(),
        })
    }
}
