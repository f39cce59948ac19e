//! What must be true of a lesson.

use super::fields::FigureOf;
use super::flaw::{LessonFlaw, LessonFlawKind};
use super::script::{Lesson, LessonView, Step, UnitUse};
use super::template::Template;
use crate::unit::{FlawKind, is_name_alone, most};
use crate::units::clipped;

/// Steps of a lesson at the most.
pub const MOST_STEPS: usize = 100;
/// Numbers of a step that are shown large at the most.
pub const MOST_NUMBERS: usize = 4;
/// Letters of a title and of a step's text at the most.
const TITLE_LETTERS: usize = 120;
const TEXT_LETTERS: usize = 800;
/// What can be emphasised at once.
const MOST_EMPHASISED: usize = 8;

fn at(path: String, kind: impl Into<LessonFlawKind>) -> LessonFlaw {
    LessonFlaw {
        path,
        kind: kind.into(),
    }
}

fn not_more(path: &str, count: usize, what: &'static str, most: usize) -> Result<(), LessonFlaw> {
    if count > most {
        let kind = LessonFlawKind::TooMany { count, what, most };
        return Err(at(path.to_owned(), kind));
    }
    Ok(())
}

fn words(path: &str, text: &str, most: usize) -> Result<(), LessonFlaw> {
    let letters = text.chars().count();
    if text.trim().is_empty() {
        return Err(at(path.to_owned(), LessonFlawKind::Empty));
    }
    if letters > most {
        return Err(at(path.to_owned(), FlawKind::TooLong { letters, most }));
    }
    Ok(())
}

impl Lesson {
    /// Checks that it makes sense by itself; its files are not looked at.
    ///
    /// # Errors
    /// The first thing that makes none, with its path and what would be right.
    pub fn check(&self) -> Result<(), LessonFlaw> {
        words("title", &self.title, TITLE_LETTERS)?;
        if self.steps.is_empty() {
            return Err(at("steps".to_owned(), LessonFlawKind::NoSteps));
        }
        not_more("steps", self.steps.len(), "steps", MOST_STEPS)?;
        let mut has_unit = false;
        for (number, step) in self.steps.iter().enumerate() {
            let path = format!("steps[{number}]");
            has_unit |= step.unit.as_ref().is_some_and(UnitUse::names_one);
            if !has_unit {
                return Err(at(format!("{path}.unit"), LessonFlawKind::NoUnit));
            }
            step.check(&path)?;
        }
        Ok(())
    }
}

impl UnitUse {
    /// Whether it says which unit.
    pub(super) fn names_one(&self) -> bool {
        self.file.is_some() || self.embedded.is_some()
    }

    fn check(&self, path: &str) -> Result<(), LessonFlaw> {
        if self.file.is_some() && self.embedded.is_some() {
            return Err(at(path.to_owned(), LessonFlawKind::TwoUnits));
        }
        if let Some(file) = &self.file
            && !is_name_alone(file)
        {
            let kind = LessonFlawKind::NotAName(file.clone());
            return Err(at(format!("{path}.file"), kind));
        }
        if let Some(document) = &self.embedded {
            document.checked().map_err(|flaw| {
                let path = format!("{path}.embedded.{}", flaw.field);
                at(path, flaw.kind)
            })?;
        }
        Ok(())
    }
}

impl Step {
    fn check(&self, path: &str) -> Result<(), LessonFlaw> {
        let inside = |name: &str| format!("{path}.{name}");
        words(&inside("title"), &self.title, TITLE_LETTERS)?;
        words(&inside("text"), &self.text, TEXT_LETTERS)?;
        let letters = self.notes.chars().count();
        let most = most::NOTES_LETTERS;
        if letters > most {
            return Err(at(inside("notes"), FlawKind::TooLong { letters, most }));
        }
        let units = [("unit", &self.unit), ("second", &self.second)];
        for (name, unit) in units {
            if let Some(unit) = unit {
                unit.check(&inside(name))?;
            }
        }
        if matches!(self.view, LessonView::SideBySide(_)) && self.second.is_none() {
            return Err(at(inside("view"), LessonFlawKind::NoSecond));
        }
        not_more(
            &inside("emphasis"),
            self.emphasis.len(),
            "things emphasised",
            MOST_EMPHASISED,
        )?;
        let template = Template::parse(&self.text).map_err(|kind| at(inside("text"), kind))?;
        for figure in template.figures() {
            self.has_unit_of(figure, &inside("text"))?;
        }
        let numbers = inside("numbers");
        not_more(&numbers, self.numbers.len(), "numbers", MOST_NUMBERS)?;
        for (place, name) in self.numbers.iter().enumerate() {
            let path = format!("{numbers}[{place}]");
            let figure = FigureOf::named(name).ok_or_else(|| {
                let written = clipped(name, TITLE_LETTERS).to_string();
                at(path.clone(), LessonFlawKind::NoSuchField { written })
            })?;
            self.has_unit_of(figure, &path)?;
        }
        Ok(())
    }

    fn has_unit_of(&self, figure: FigureOf, path: &str) -> Result<(), LessonFlaw> {
        if figure.needs_second() && self.second.is_none() {
            return Err(at(path.to_owned(), LessonFlawKind::NoSecondForField));
        }
        Ok(())
    }
}
