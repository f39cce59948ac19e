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
            has_unit |= step.names_unit();
            if !has_unit {
                return Err(at(format!("{path}.unit"), LessonFlawKind::NoUnit));
            }
            step.check(&path)?;
        }
        Ok(())
    }

    /// What makes no sense in one of its steps, the first of every part of it.
    #[must_use]
    pub fn flaws_of_step(&self, number: usize) -> Vec<LessonFlaw> {
        let Some(step) = self.steps.get(number) else {
            return Vec::new();
        };
        let path = format!("steps[{number}]");
        let has_unit = self.steps[..=number].iter().any(Step::names_unit);
        let none = (!has_unit).then(|| at(format!("{path}.unit"), LessonFlawKind::NoUnit));
        none.into_iter().chain(step.flaws(&path)).collect()
    }
}

fn check_unit(unit: Option<&UnitUse>, path: &str) -> Result<(), LessonFlaw> {
    unit.map_or(Ok(()), |unit| unit.check(path))
}

impl UnitUse {
    /// Whether it says which unit.
    #[must_use]
    pub fn names_one(&self) -> bool {
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
        self.flaws(path).next().map_or(Ok(()), Err)
    }

    /// What makes no sense in it, the first of every part of it.
    fn flaws(&self, path: &str) -> impl Iterator<Item = LessonFlaw> {
        let inside = |name: &str| format!("{path}.{name}");
        let parts = [
            words(&inside("title"), &self.title, TITLE_LETTERS),
            self.check_text(&inside("text")),
            self.check_notes(&inside("notes")),
            check_unit(self.unit.as_ref(), &inside("unit")),
            check_unit(self.second.as_ref(), &inside("second")),
            self.check_view(&inside("view")),
            not_more(
                &inside("emphasis"),
                self.emphasis.len(),
                "things emphasised",
                MOST_EMPHASISED,
            ),
            self.check_numbers(&inside("numbers")),
        ];
        let wrong = self.wrong.iter().map(|wrong| {
            let (name, why) = (wrong.name.clone(), wrong.why.clone());
            at(inside("set"), LessonFlawKind::WrongEntry { name, why })
        });
        let wrong: Vec<_> = wrong.collect();
        parts.into_iter().filter_map(Result::err).chain(wrong)
    }

    fn check_text(&self, path: &str) -> Result<(), LessonFlaw> {
        words(path, &self.text, TEXT_LETTERS)?;
        let template = Template::parse(&self.text).map_err(|kind| at(path.to_owned(), kind))?;
        for figure in template.figures() {
            self.has_unit_of(figure, path)?;
        }
        Ok(())
    }

    fn check_notes(&self, path: &str) -> Result<(), LessonFlaw> {
        let letters = self.notes.chars().count();
        let most = most::NOTES_LETTERS;
        if letters > most {
            return Err(at(path.to_owned(), FlawKind::TooLong { letters, most }));
        }
        Ok(())
    }

    fn check_view(&self, path: &str) -> Result<(), LessonFlaw> {
        if matches!(self.view, LessonView::SideBySide(_)) && self.second.is_none() {
            return Err(at(path.to_owned(), LessonFlawKind::NoSecond));
        }
        Ok(())
    }

    fn check_numbers(&self, path: &str) -> Result<(), LessonFlaw> {
        not_more(path, self.numbers.len(), "numbers", MOST_NUMBERS)?;
        for (place, name) in self.numbers.iter().enumerate() {
            let path = format!("{path}[{place}]");
            let figure = FigureOf::named(name).ok_or_else(|| {
                let written = clipped(name, TITLE_LETTERS).to_string();
                at(path.clone(), LessonFlawKind::NoSuchField { written })
            })?;
            self.has_unit_of(figure, &path)?;
        }
        Ok(())
    }

    /// Whether it says which unit, and does not go on with that of a step before.
    fn names_unit(&self) -> bool {
        self.unit.as_ref().is_some_and(UnitUse::names_one)
    }

    fn has_unit_of(&self, figure: FigureOf, path: &str) -> Result<(), LessonFlaw> {
        if figure.needs_second() && self.second.is_none() {
            return Err(at(path.to_owned(), LessonFlawKind::NoSecondForField));
        }
        Ok(())
    }
}
