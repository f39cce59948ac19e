//! What of a lesson makes no sense, and what would be right.

use thiserror::Error;

use super::fields::{FigureOf, nearest};
use crate::unit::{Field, FlawKind};
use crate::units::Quoted;

/// Something in a lesson that makes no sense, and where it stands.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("{path}: {kind}")]
pub struct LessonFlaw {
    /// The field's path, as `steps[0].text`.
    pub path: String,
    /// What is wrong with it.
    pub kind: LessonFlawKind,
}

impl LessonFlaw {
    /// Which step it is in, the first being 0; none for the lesson's own.
    #[must_use]
    pub fn step(&self) -> Option<usize> {
        let (number, _) = self.path.strip_prefix("steps[")?.split_once(']')?;
        number.parse().ok()
    }

    /// What of a step or of the lesson it is in, as a person in the window reads it.
    #[must_use]
    pub fn place(&self) -> LessonPlace {
        let inside = match self.path.split_once("].") {
            Some((_, inside)) if self.step().is_some() => inside,
            _ => &self.path,
        };
        let whole = inside.split(['.', '[']).next().unwrap_or(inside);
        match whole {
            "title" => LessonPlace::Title,
            "text" => LessonPlace::Text,
            "notes" => LessonPlace::Notes,
            "unit" => LessonPlace::Unit,
            "second" => LessonPlace::Second,
            "view" => LessonPlace::View,
            "emphasis" => LessonPlace::Emphasis,
            "numbers" => LessonPlace::Numbers,
            "set" => LessonPlace::Set,
            _ => LessonPlace::Steps,
        }
    }

    /// It as a person in the window reads it: where, and what.
    #[must_use]
    pub fn told(&self) -> String {
        let place = self.place().name();
        // A value of a unit that is written out, by its name in the form.
        let value = self.path.split_once(".embedded.");
        let value = value.and_then(|(_, path)| Field::at_path(path));
        let place = match value {
            Some(field) => format!("{place}, {}", field.words().name),
            None => place.to_owned(),
        };
        match self.step() {
            Some(step) => format!("Step {}, {place}: {}", step + 1, self.kind),
            None => format!("Lesson, {place}: {}", self.kind),
        }
    }
}

/// What of a lesson can be wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LessonPlace {
    /// A title.
    Title,
    /// What is said.
    Text,
    /// What the presenter is reminded of.
    Notes,
    /// The unit.
    Unit,
    /// The one beside it.
    Second,
    /// How it is shown.
    View,
    /// What is drawn more strongly.
    Emphasis,
    /// The large numbers.
    Numbers,
    /// What is tried on its units.
    Set,
    /// The steps.
    Steps,
}

impl LessonPlace {
    /// Its name, in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Title => "title",
            Self::Text => "text",
            Self::Notes => "notes",
            Self::Unit => "unit",
            Self::Second => "second unit",
            Self::View => "view",
            Self::Emphasis => "emphasis",
            Self::Numbers => "numbers",
            Self::Set => "setting of the step",
            Self::Steps => "steps",
        }
    }
}

/// What is wrong, and what would be right.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum LessonFlawKind {
    /// A value of an embedded unit.
    #[error(transparent)]
    Unit(#[from] FlawKind),
    /// A text that is left empty.
    #[error("write something here")]
    Empty,
    /// A text in a field of a step's settings.
    #[error("{name}: {why}")]
    WrongEntry {
        /// The field's name.
        name: String,
        /// Why it is wrong.
        why: String,
    },
    /// No step.
    #[error("a lesson has at least one step")]
    NoSteps,
    /// More of something than can be shown.
    #[error("these are {count} {what}; the most is {most}")]
    TooMany {
        /// How many there are.
        count: usize,
        /// Of what.
        what: &'static str,
        /// How many there may be.
        most: usize,
    },
    /// A unit that is not named as a file of the same folder.
    #[error(
        "{} is not a file name; write the name alone of a unit file in the lesson's own folder, like \"fairway.ron\"",
        Quoted(.0)
    )]
    NotAName(String),
    /// A unit by two ways.
    #[error("give the unit by its file or write it out under embedded, not both")]
    TwoUnits,
    /// A step that shows no unit, and none before it does.
    #[error(
        "no step before this one has a unit: give it one, by its file or written out under embedded"
    )]
    NoUnit,
    /// Two units side by side, with one given.
    #[error("side by side needs a second unit, or a second setting: add second: (setting: (…))")]
    NoSecond,
    /// A brace without its other half.
    #[error("there is a brace by itself; a field is written like {{sweep}}")]
    LoneBrace,
    /// A field that there is not.
    #[error("there is no field {{{written}}}; {}", instead_of(written))]
    NoSuchField {
        /// What was written.
        written: String,
    },
    /// A field of a second unit, with one given.
    #[error(
        "this step has no second unit that a field like {{b.sweep}} could be of; add second: (…)"
    )]
    NoSecondForField,
    /// A number that was typed.
    #[error(
        "a number in a lesson is worked out, never typed: write a field in its place, like {{sweep}}"
    )]
    TypedNumber,
}

/// What may stand in place of a field that there is not, and where all of them are listed.
fn instead_of(written: &str) -> String {
    const LISTED: &str =
        "\"Insert a number\" in the Lesson area and sweepgauge lesson --help list them all";
    let near: Vec<String> = nearest(written)
        .into_iter()
        .map(|of: FigureOf| format!("{{{}}}", of.written()))
        .collect();
    match &near[..] {
        [] => LISTED.to_owned(),
        [one] => format!("the nearest is {one}; {LISTED}"),
        [first @ .., last] => format!("the nearest are {} and {last}; {LISTED}", first.join(", ")),
    }
}
