//! The fields of a unit: everything a person can fill in, each named once.
//!
//! Flaws, drafts, budget steps and help hold a [`Field`], never its path. A new one is an entry
//! here, its row in `table.rs`, its place in `entry.rs` and its words in `words.rs`; the compiler asks
//! for all four.

mod choice;
mod entry;
mod group;
mod kind;
mod reading;
mod rule;
mod table;
#[cfg(test)]
mod tests;
mod words;

use std::borrow::Cow;
use std::fmt;

pub use choice::{Offer, OneOf};
pub(super) use entry::Entry;
pub use entry::EntryProblem;
pub use group::Group;
pub use kind::{Choice, Kind};
pub use reading::{KnifePart, Reading};
pub use rule::{Rule, WIDEST_GROUND};
pub use words::Words;

use table::Row;

use super::flaw::{Flaw, FlawKind};
use super::most;
use super::{Document, Fitted};
use crate::units::System;

/// A field of a unit. Its text is its path in the unit file: `bench.reel_diameter`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Field {
    /// What the shop calls the unit.
    Name,
    /// Where it cuts.
    Turf,
    /// Reel diameter when new.
    NewDiameter,
    /// Scrap size.
    SmallestDiameter,
    /// Number of blades.
    Blades,
    /// How reel and knife are brought together.
    Closing,
    /// What is written about a knife.
    KnifeText(Fitted, KnifeText),
    /// What is measured and moves the unit's numbers.
    Reading(Reading),
    /// Reel diameter after grinding.
    WantedReelDiameter,
    /// Height of cut wanted.
    WantedHeightOfCut,
    /// Attitude wanted.
    WantedAttitude,
    /// Gap wanted.
    WantedGap,
    /// The knife fitted.
    FittedKnife,
    /// Edge further ahead than the fitted knife's reach gives.
    Extension,
    /// Taken off the top face.
    TopGround,
    /// Taken off the front face.
    FaceGround,
    /// How far the front roller was moved in its bracket.
    FrontMove,
    /// How far the rear roller was moved in its bracket.
    RearMove,
    /// The ground's shape.
    GroundShape,
    /// Length of the straightedge laid on the ground.
    StraightedgeLength,
    /// The gap under it.
    StraightedgeGap,
    /// Where the gap was read.
    StraightedgeAt,
    /// Share of the height of cut above which the sweep wants watching.
    SweepWatch,
    /// Share of the height of cut above which the sweep is too much.
    SweepOver,
    /// Least clearance of the knife's underside.
    LeastUnderside,
    /// How far the edge may run ahead of centre.
    MostAheadOfCentre,
    /// Clip length over height of cut above which it wants watching.
    ClipWatch,
    /// Clip length over height of cut above which it is too much.
    ClipOver,
    /// The least attitude that the roller brackets allow.
    LeastAttitude,
    /// The most attitude that the roller brackets allow.
    MostAttitude,
}

/// What is written about a knife.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum KnifeText {
    /// What the shop calls it.
    Name,
    /// What a supplier asks for it.
    Price,
    /// Whatever else is worth knowing.
    Notes,
}

impl Field {
    /// The field at a path of the unit file: `options[0].reach`.
    #[must_use]
    pub fn at_path(path: &str) -> Option<Self> {
        Self::that_stand_at(index_in(path)).find(|field| field.to_string() == path)
    }

    /// The brackets of the unit file that it stands in.
    #[must_use]
    pub const fn group(self) -> Group {
        self.row().group
    }

    /// What kind of thing it holds.
    #[must_use]
    pub const fn kind(self) -> Kind {
        self.row().kind
    }

    /// What must be true of it by itself.
    #[must_use]
    pub const fn rule(self) -> Rule {
        self.row().rule
    }

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
        let has_no_pivot = Self::Reading(Reading::PivotAhead).text(document).is_none();
        self.take(document, text, system)?;
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
    pub(super) fn check(self, document: &Document) -> Result<(), Flaw> {
        self.entry(document)
            .map_or(Ok(()), |entry| self.check_entry(entry))
    }

    /// Checks an entry as if it stood here.
    pub(super) fn check_entry(self, entry: &dyn Entry) -> Result<(), Flaw> {
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
            Self::KnifeText(_, KnifeText::Notes) => most::NOTES_LETTERS,
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
    pub(super) const fn flaw(self, kind: FlawKind) -> Flaw {
        Flaw { field: self, kind }
    }
}

/// The place in a list that a path goes through.
fn index_in(path: &str) -> usize {
    let inside = path
        .split_once('[')
        .and_then(|(_, rest)| rest.split_once(']'));
    inside
        .and_then(|(index, _)| index.parse().ok())
        .unwrap_or_default()
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Row { group, word, .. } = self.row();
        match group {
            Group::Unit => f.write_str(word),
            _ => write!(f, "{group}.{word}"),
        }
    }
}

impl From<Reading> for Field {
    fn from(reading: Reading) -> Self {
        Self::Reading(reading)
    }
}
