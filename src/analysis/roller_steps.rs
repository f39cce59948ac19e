//! A roller's move as it is made: in turns of its adjuster, and in spacers from stock.

use super::caution::MOVING_ROLLERS;
use crate::unit::Brackets;
use crate::units::{Length, System, fixed};

/// Moves of less are none that anybody makes.
const LEAST_MM: f64 = 0.005;

/// Spacers for a move, and what they leave over.
#[derive(Clone, Debug, PartialEq)]
pub struct Spacers {
    /// Their sizes, one or two of them, the thicker first; none where none is nearer than none at all.
    pub sizes: Vec<Length>,
    /// How much the move takes beyond them; negative where they are too thick.
    pub left_over: Length,
}

impl Spacers {
    /// The one or two spacers from stock that come nearest to a move's size.
    #[must_use]
    pub fn nearest(size: Length, stock: &[Length]) -> Self {
        let one = stock.iter().map(|one| vec![*one]);
        let two = stock.iter().enumerate().flat_map(|(place, one)| {
            let others = stock[place..].iter();
            others.map(|other| {
                let mut both = vec![*one, *other];
                both.sort_by(|a, b| b.mm().total_cmp(&a.mm()));
                both
            })
        });
        let left = |sizes: &[Length]| sizes.iter().fold(size, |left, one| left - *one);
        // One before two where both leave as much.
        let sizes = std::iter::once(Vec::new()).chain(one).chain(two);
        let nearest = sizes
            .min_by(|a, b| left(a).mm().abs().total_cmp(&left(b).mm().abs()))
            .unwrap_or_default();
        Self {
            left_over: left(&nearest),
            sizes: nearest,
        }
    }
}

/// A roller's move as it is made.
#[derive(Clone, Debug, PartialEq)]
pub struct RollerSteps {
    /// How far it moves, positive towards the reel.
    pub by: Length,
    /// Turns of its adjuster, positive towards the reel; none where its thread is not known.
    pub turns: Option<f64>,
    /// Spacers taken out where it moves towards the reel, put in where it moves away; none where none
    /// is in stock.
    pub spacers: Option<Spacers>,
}

impl RollerSteps {
    /// The moves of the front and the rear roller.
    #[must_use]
    pub fn of_both(moves: (Length, Length), brackets: &Brackets) -> [Self; 2] {
        [
            (moves.0, brackets.front_pitch),
            (moves.1, brackets.rear_pitch),
        ]
        .map(|(by, pitch)| Self::of(by, pitch, brackets))
    }

    fn of(by: Length, pitch: Option<Length>, brackets: &Brackets) -> Self {
        let size = Length::from_mm(by.mm().abs());
        let is_stocked = !brackets.spacers.is_empty();
        Self {
            by,
            turns: pitch.map(|pitch| by.mm() / pitch.mm()),
            spacers: is_stocked.then(|| Spacers::nearest(size, &brackets.spacers)),
        }
    }
}

/// The moves of the front and the rear roller in turns and in spacers, and what makes it safe to make
/// them; none where neither is known or no roller moves.
#[must_use]
pub fn moves_told(moves: (Length, Length), brackets: &Brackets, system: System) -> Option<String> {
    let steps = steps_told(moves, brackets, system)?;
    Some(format!("{steps} {MOVING_ROLLERS}"))
}

/// The same without the caution, for texts that end with it.
pub(in crate::analysis) fn steps_told(
    moves: (Length, Length),
    brackets: &Brackets,
    system: System,
) -> Option<String> {
    let rollers = ["front", "rear"].into_iter();
    let rollers = rollers.zip(RollerSteps::of_both(moves, brackets));
    let moving = rollers.filter(|(_, steps)| steps.by.mm().abs() > LEAST_MM);
    let told: Vec<String> = moving
        .filter_map(|(name, steps)| steps.told(name, system))
        .collect();
    (!told.is_empty()).then(|| {
        format!(
            "That is {}; use only parts that the machine's manual allows, in its order.",
            told.join("; ")
        )
    })
}

impl RollerSteps {
    fn told(&self, name: &str, system: System) -> Option<String> {
        let is_up = self.by.mm() > 0.0;
        let turns = self.turns.map(|turns| {
            let turns = fixed(turns.abs(), 2);
            let way = if is_up { "up" } else { "down" };
            format!("{turns} turns of the adjuster {way}")
        });
        let spacers = self.spacers.as_ref().map(|found| {
            if found.sizes.is_empty() {
                return "no spacer in stock comes close".to_owned();
            }
            let sizes: Vec<_> = found.sizes.iter().map(|one| system.length(*one)).collect();
            // A spacer under the bracket lowers the roller.
            let way = if is_up { "taken out" } else { "put in" };
            let left = found.left_over;
            let rest = Length::from_mm(left.mm().abs());
            let rest = match left.mm() {
                mm if mm.abs() < LEAST_MM => "none left over".to_owned(),
                mm if mm > 0.0 => format!("{} left over", system.length(rest)),
                _ => format!("{} too much", system.length(rest)),
            };
            format!("spacers {} {way}, {rest}", sizes.join(" and "))
        });
        let ways: Vec<_> = turns.into_iter().chain(spacers).collect();
        (!ways.is_empty()).then(|| format!("at the {name} {}", ways.join(", or ")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(inches: f64) -> Length {
        Length::from_inches(inches)
    }

    #[test]
    fn the_nearest_spacers_are_found_by_trying_every_one_and_every_two() {
        let stock = [1.0 / 32.0, 1.0 / 16.0, 1.0 / 8.0].map(inches);
        let near = |size| {
            let found = Spacers::nearest(inches(size), &stock);
            let sizes: Vec<f64> = found.sizes.iter().map(|one| one.inches()).collect();
            (sizes, found.left_over.inches())
        };
        let (sizes, left) = near(0.19);
        assert_eq!(sizes, [0.125, 0.0625]);
        assert!((left - 0.0025).abs() < 1e-12, "{left}");
        let (sizes, left) = near(0.12);
        assert_eq!(sizes, [0.125]);
        assert!((left + 0.005).abs() < 1e-12, "{left}");
        assert_eq!(near(0.01).0, [0.0; 0]);
    }

    #[test]
    fn moves_are_told_in_turns_and_spacers_with_what_is_left_over() {
        let brackets = Brackets {
            front_pitch: Some(inches(1.0 / 16.0)),
            rear_pitch: None,
            spacers: [1.0 / 16.0, 1.0 / 8.0].map(inches).to_vec(),
        };
        let moves = (inches(-0.05), inches(0.19));
        let told = moves_told(moves, &brackets, System::InchDecimal).expect("both move");
        for said in [
            "at the front 0.80 turns of the adjuster down, or spacers 0.0625 in put in, 0.0125 in too much",
            "at the rear spacers 0.125 in and 0.0625 in taken out, 0.0025 in left over",
        ] {
            assert!(told.contains(said), "{told}");
        }
        assert!(told.ends_with(MOVING_ROLLERS), "{told}");
        assert_eq!(
            moves_told(moves, &Brackets::default(), System::Millimetre),
            None
        );
        let still = (Length::ZERO, Length::ZERO);
        assert_eq!(moves_told(still, &brackets, System::Millimetre), None);
    }
}
