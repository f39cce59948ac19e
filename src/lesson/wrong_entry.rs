//! What was typed for a step's settings and is no value: it stays with its step until it is put right.

use crate::unit::Field;

/// A text that stands wrong in a field of what a step tries on a unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrongEntry {
    /// Whether it is the second unit's.
    pub of_second: bool,
    /// Which field.
    pub field: Field,
    /// The field's name as a person reads it.
    pub name: String,
    /// As it stands in the field.
    pub text: String,
    /// Why it is wrong.
    pub why: String,
}

impl WrongEntry {
    /// Where it stands in a lesson, its step being the first of all by 0.
    #[must_use]
    pub fn path(&self, step: usize) -> String {
        let whose = if self.of_second { SECOND } else { FIRST };
        format!("steps[{step}].{whose}.{}", self.field.kept_path())
    }

    /// The step, whether it is of the second unit, and the field that stand at a path; none where none do.
    #[must_use]
    pub fn at_path(path: &str) -> Option<(usize, bool, Field)> {
        let (step, rest) = path.strip_prefix("steps[")?.split_once("].")?;
        let (whose, field) = rest.split_once('.')?;
        let of_second = [FIRST, SECOND].iter().position(|name| *name == whose)? == 1;
        Some((step.parse().ok()?, of_second, Field::at_kept_path(field)?))
    }
}

const FIRST: &str = "unit";
const SECOND: &str = "second";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::Reading;

    #[test]
    fn a_wrong_entry_is_found_by_its_path() {
        let fields = [
            Field::WantedAttitude,
            Field::WantedHeightOfCut,
            Field::WantedReelDiameter,
            Field::Extension,
            Reading::RollerSink.into(),
            Reading::GroundRadius.into(),
        ];
        let both = fields.map(|field| [(field, false), (field, true)]);
        for (field, of_second) in both.into_iter().flatten() {
            let wrong = WrongEntry {
                of_second,
                field,
                name: String::new(),
                text: String::new(),
                why: String::new(),
            };
            let found = WrongEntry::at_path(&wrong.path(3));
            assert_eq!(found, Some((3, of_second, field)));
        }
        for none in [
            "",
            "steps[0].text",
            "steps[x].unit.setting",
            "steps[0].third.setting",
        ] {
            assert_eq!(WrongEntry::at_path(none), None, "{none}");
        }
    }
}
