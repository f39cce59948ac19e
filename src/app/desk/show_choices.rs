//! What a person chose to see in front of a room.

use serde::{Deserialize, Serialize};

use crate::analysis::NumberId;
use crate::lesson::Turned;

/// What is shown to a room beside the picture of a unit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct ShowChoices {
    /// The numbers in large digits, by their names for programs; those to begin with where none is known.
    pub numbers: Vec<String>,
    /// What the slider turns; none for no slider.
    pub slider: Option<Turned>,
}

impl Default for ShowChoices {
    fn default() -> Self {
        Self {
            numbers: Vec::new(),
            slider: Some(Turned::Attitude),
        }
    }
}

impl ShowChoices {
    /// Numbers at the most: more cannot be read from the last row.
    pub const MOST: usize = 4;

    /// Those to begin with.
    const BEGINS_WITH: [NumberId; Self::MOST] = [
        NumberId::BehindCentre,
        NumberId::SweepBelowCut,
        NumberId::SweepShare,
        NumberId::HeightOfCut,
    ];

    /// The numbers chosen, one at the least.
    #[must_use]
    pub fn numbers(&self) -> Vec<NumberId> {
        let known = |name: &String| NumberId::ALL.into_iter().find(|id| id.id() == name);
        let chosen: Vec<_> = self
            .numbers
            .iter()
            .filter_map(known)
            .take(Self::MOST)
            .collect();
        if chosen.is_empty() {
            Self::BEGINS_WITH.to_vec()
        } else {
            chosen
        }
    }

    /// Takes a number in, behind those there are, or leaves it out. The last one stays, and a fifth is not
    /// taken.
    pub fn set(&mut self, id: NumberId, is_in: bool) {
        let mut chosen = self.numbers();
        chosen.retain(|other| *other != id);
        if is_in {
            chosen.push(id);
        }
        if (1..=Self::MOST).contains(&chosen.len()) {
            self.numbers = chosen.iter().map(|id| id.id().to_owned()).collect();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_to_four_numbers_are_chosen() {
        let mut choices = ShowChoices::default();
        choices.set(NumberId::ClipAngle, true);
        assert_eq!(
            choices.numbers(),
            ShowChoices::BEGINS_WITH,
            "a fifth is not taken"
        );
        for id in ShowChoices::BEGINS_WITH {
            choices.set(id, false);
        }
        assert_eq!(choices.numbers(), [NumberId::HeightOfCut], "one stays");
        choices.set(NumberId::ClipAngle, true);
        let chosen = [NumberId::HeightOfCut, NumberId::ClipAngle];
        assert_eq!(choices.numbers(), chosen);
        // What a later program would know is passed over.
        choices.numbers.insert(0, "solution.unknown_mm".to_owned());
        assert_eq!(choices.numbers(), chosen);
    }
}
