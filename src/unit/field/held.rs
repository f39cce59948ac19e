//! What a field holds: read, typed over and checked.

use std::borrow::Cow;

use super::entry::{Entry, EntryProblem};
use super::{Field, Group, Kind, KnifeText, Reading};
use crate::unit::flaw::{Flaw, FlawKind};
use crate::unit::{Document, most};
use crate::units::System;

impl Field {
    /// Whether it is measured, so that it may carry a ±.
    #[must_use]
    pub const fn is_measured(self) -> bool {
        matches!(
            self,
            Self::Reading(_) | Self::StraightedgeLength | Self::StraightedgeGap
        )
    }

    /// Whether it is a setting: taken as exact, and where left out as on the bench.
    #[must_use]
    pub fn is_setting(self) -> bool {
        self.group().is_within(Group::Setting)
    }

    /// What stands in it, as typed; a choice by the file's word for it. None where it is left out.
    #[must_use]
    pub fn text(self, document: &Document) -> Option<Cow<'_, str>> {
        self.entry(document)?.text()
    }

    /// What stands in it, as a person who works in `system` expects it. None where it is left out.
    #[must_use]
    pub fn shown_in(self, document: &Document, system: System) -> Option<Cow<'_, str>> {
        self.entry(document)?.shown_in(system)
    }

    /// How much stands in it, in the base unit of its kind: millimetres, degrees, millimetres a second,
    /// revolutions a minute, parts of one, or a count. None for a text, a choice, and where it is left
    /// out.
    #[must_use]
    pub fn base(self, document: &Document) -> Option<f64> {
        Some(self.entry(document)?.amount()?.base)
    }

    /// How far a quantity in it can be off either way, in the base unit of its kind. None without
    /// a ±.
    #[must_use]
    pub fn half_width(self, document: &Document) -> Option<f64> {
        self.entry(document)?.amount()?.half_width
    }

    /// Takes what a person typed; an empty text leaves out what can be left out. A bare number gets
    /// the unit that a person who works in `system` writes. It is no example from then on; what comes
    /// with it and nobody typed, such as a pivot's place, is one.
    ///
    /// # Errors
    /// When the text is none that the field can hold, or the document has no such field now.
    pub fn set(
        self,
        document: &mut Document,
        text: &str,
        system: System,
    ) -> Result<(), EntryProblem> {
        let before = self.most_sensible().map(|_| document.clone());
        let has_no_pivot = Self::Reading(Reading::PivotAhead).text(document).is_none();
        self.take(document, text, system)?;
        if let Some(before) = before
            && let Some(why) = self.past_sense(document, system)
        {
            *document = before;
            return Err(EntryProblem::PastSense(why));
        }
        document.examples.keep(self);
        if self == Self::Closing && has_no_pivot {
            document.mark_examples(Group::Closing);
        }
        Ok(())
    }

    fn take(self, document: &mut Document, text: &str, system: System) -> Result<(), EntryProblem> {
        if let Self::KnifeText(knife, KnifeText::Name) = self {
            return document
                .rename_knife(knife, text)
                .map_err(EntryProblem::Name);
        }
        if !self.group().is_within(Group::Limits) {
            let entry = self.entry_mut(document).ok_or(EntryProblem::NotThere)?;
            let is_gap = matches!(self, Self::WantedGap | Self::Reading(Reading::Gap));
            let word = text.trim();
            let is_contact = |name: &&str| word.eq_ignore_ascii_case(name);
            // A mechanic's words for a gap of zero.
            let text = if is_gap && ["none", "light contact"].iter().any(is_contact) {
                "0"
            } else {
                text
            };
            return entry.type_over(text, system);
        }
        document.limits.get_or_insert_default();
        let entry = self.entry_mut(document).ok_or(EntryProblem::NotThere);
        let taken = entry.and_then(|entry| entry.type_over(text, system));
        document.drop_empty_limits();
        taken
    }

    /// Sets a quantity that nobody typed, such as a slider's, in the base unit of its kind; it is
    /// written as a person who works in `system` writes it, rounded to what can be read.
    ///
    /// # Errors
    /// When the field holds no quantity, or the document has no such field now.
    pub fn set_base(
        self,
        document: &mut Document,
        base: f64,
        system: System,
    ) -> Result<(), EntryProblem> {
        let text = self.kind().written(base, system);
        self.set(document, &text.ok_or(EntryProblem::NoQuantity)?, system)
    }

    /// Checks what stands in it by itself.
    ///
    /// # Errors
    /// When it makes no sense.
    pub(in crate::unit) fn check(self, document: &Document) -> Result<(), Flaw> {
        self.entry(document)
            .map_or(Ok(()), |entry| self.check_entry(entry))
    }

    /// Checks an entry as if it stood here.
    pub(in crate::unit) fn check_entry(self, entry: &dyn Entry) -> Result<(), Flaw> {
        let row = self.row();
        let has_half_width = || entry.amount().is_some_and(|a| a.half_width.is_some());
        if self.is_setting() && has_half_width() {
            let text = entry.text().unwrap_or_default().into_owned();
            return Err(self.flaw(FlawKind::SettingWithHalfWidth(text)));
        }
        row.rule
            .check(row.kind, entry)
            .and_then(|()| self.check_length(entry))
            .map_err(|kind| self.flaw(kind))
    }

    /// A count is as long as it is large.
    fn check_length(self, entry: &dyn Entry) -> Result<(), FlawKind> {
        let text = match self.kind() {
            Kind::Count | Kind::Choice(_) => None,
            _ => entry.text(),
        };
        let most = match self {
            Self::KnifeText(_, KnifeText::Notes) | Self::Notes => most::NOTES_LETTERS,
            _ => most::NAME_LETTERS,
        };
        match text {
            // As many bytes as letters, or more.
            Some(text) if text.len() > most && text.chars().nth(most).is_some() => {
                let letters = text.chars().count();
                Err(FlawKind::TooLong { letters, most })
            }
            _ => Ok(()),
        }
    }

    /// Something wrong with it.
    pub(in crate::unit) const fn flaw(self, kind: FlawKind) -> Flaw {
        Flaw { field: self, kind }
    }
}
