//! Texts that are being typed, or that are wrong: they stay in their field until they are right.

use std::collections::BTreeMap;

use super::Change;
use crate::store::recovery::WrongText;
use crate::unit::{Document, Field, Reading};

/// Where a text is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slot {
    /// A field of the unit.
    Field(Field),
    /// The reading that behind centre is worked out from.
    OtherReading,
    /// Where a block to a square touches the front face.
    TouchesAt,
    /// How thick a tape is, or bars are, that the reel's diameter is read with.
    Thickness,
    /// The same as the first reading, at another place of what slides.
    SecondReading,
    /// How high what slides stands at its first place.
    FirstHeight,
    /// How high it stands at its second place.
    SecondHeight,
}

impl Slot {
    /// The field of the unit; none for what is no part of it.
    #[must_use]
    pub fn field(self) -> Option<Field> {
        match self {
            Self::Field(field) => Some(field),
            Self::OtherReading
            | Self::TouchesAt
            | Self::Thickness
            | Self::SecondReading
            | Self::FirstHeight
            | Self::SecondHeight => None,
        }
    }

    /// What it is called where work is kept: a field's path, or a word of its own.
    fn path(self) -> String {
        match self {
            Self::Field(field) => field.kept_path(),
            Self::OtherReading => "other reading".to_owned(),
            Self::TouchesAt => "touches at".to_owned(),
            Self::Thickness => "thickness".to_owned(),
            Self::SecondReading => "second reading".to_owned(),
            Self::FirstHeight => "first height".to_owned(),
            Self::SecondHeight => "second height".to_owned(),
        }
    }

    /// The slot at a path; none for what is none.
    pub(super) fn at_path(path: &str) -> Option<Self> {
        let others = [
            Self::OtherReading,
            Self::TouchesAt,
            Self::Thickness,
            Self::SecondReading,
            Self::FirstHeight,
            Self::SecondHeight,
        ];
        let other = others.into_iter().find(|slot| slot.path() == path);
        other.or_else(|| Field::at_kept_path(path).map(Self::Field))
    }
}

impl From<Field> for Slot {
    fn from(field: Field) -> Self {
        Self::Field(field)
    }
}

impl From<Reading> for Slot {
    fn from(reading: Reading) -> Self {
        Self::Field(reading.into())
    }
}

/// A text that is not in the document, or not yet as it is written there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// The field's name as a person reads it.
    pub name: String,
    /// As it stands in the field.
    pub text: String,
    /// What the document held when typing began, as it was written there; empty for what was left
    /// out. Escape brings it back.
    pub kept: String,
    /// What stood in the field when typing began. Typing it again is going back to what is kept.
    pub began: String,
    /// Whether the field held an example when typing began: Escape brings its mark back.
    pub was_example: bool,
    /// The widget it is typed into: the same field may be shown twice.
    pub holder: egui::Id,
    /// Why it is wrong, if it is.
    pub problem: Option<String>,
}

impl Draft {
    /// Whether it cannot be taken into the document.
    #[must_use]
    pub fn is_wrong(&self) -> bool {
        self.problem.is_some()
    }

    /// Which field holds it, and why it is wrong.
    #[must_use]
    pub fn told(&self) -> String {
        let problem = self.problem.as_deref().unwrap_or_default();
        format!(
            "The field \"{}\" holds \"{}\": {problem}",
            self.name, self.text
        )
    }
}

/// The drafts of a document, by where they are typed.
#[derive(Clone, Debug, Default)]
pub struct Drafts(BTreeMap<Slot, Draft>);

impl Drafts {
    /// The draft of a field.
    #[must_use]
    pub fn get(&self, slot: Slot) -> Option<&Draft> {
        self.0.get(&slot)
    }

    /// The draft that is typed into a widget.
    #[must_use]
    pub fn held_by(&self, holder: egui::Id) -> Option<&Draft> {
        self.0.values().find(|draft| draft.holder == holder)
    }

    /// Keeps a draft.
    pub fn put(&mut self, slot: Slot, draft: Draft) {
        self.0.insert(slot, draft);
    }

    /// Drops the draft of a field.
    pub fn remove(&mut self, slot: Slot) {
        self.0.remove(&slot);
    }

    /// Drops what is being typed into the part of the document that a change sets: it would be put
    /// over the change.
    pub fn follow(&mut self, change: &Change) {
        let is_set = |slot: &Slot| slot.field().is_some_and(|field| change.sets(field));
        self.0.retain(|slot, _| !is_set(slot));
    }

    /// Drops what is being typed into fields that a change moved without naming them.
    pub fn drop_stale(&mut self, change: &Change, before: &Document, after: &Document) {
        let is_stale = |slot: &Slot| {
            slot.field()
                .is_some_and(|field| !change.sets(field) && field.text(before) != field.text(after))
        };
        self.0.retain(|slot, _| !is_stale(slot));
    }

    /// The drafts of fields of the unit that are wrong.
    pub fn wrong_in_fields(&self) -> impl Iterator<Item = (Field, &Draft)> {
        self.wrong()
            .filter_map(|(slot, draft)| Some((slot.field()?, draft)))
    }

    /// The drafts that are wrong.
    fn wrong(&self) -> impl Iterator<Item = (&Slot, &Draft)> {
        self.0.iter().filter(|(_, draft)| draft.is_wrong())
    }

    /// Those that are wrong, by themselves.
    pub fn only_wrong(&self) -> Self {
        let wrong = self.wrong();
        Self(wrong.map(|(slot, draft)| (*slot, draft.clone())).collect())
    }

    /// The typing by which others are wrong than were before; none where the same are.
    pub fn typed_wrong_since(&self, before: &Self) -> Option<Change> {
        if self.wrong().eq(before.wrong()) {
            return None;
        }
        let is_new = |(slot, draft): &(&Slot, &Draft)| before.get(**slot) != Some(*draft);
        let is_gone = |(slot, _): &(&Slot, &Draft)| !self.get(**slot).is_some_and(Draft::is_wrong);
        let typed = self.wrong().find(is_new);
        let (slot, draft) = typed.or_else(|| before.wrong().find(is_gone))?;
        let change = Change::new(draft.name.clone()).typed_into(draft.holder);
        Some(match slot.field() {
            Some(field) => change.and(field),
            None => change,
        })
    }

    /// Whether a wrong text is being typed into a widget.
    pub(super) fn is_wrong_in(&self, holder: Option<egui::Id>) -> bool {
        let draft = holder.and_then(|holder| self.held_by(holder));
        draft.is_some_and(Draft::is_wrong)
    }

    /// The wrong texts, to be kept.
    pub(super) fn wrong_texts(&self) -> Vec<WrongText> {
        let wrong = |(slot, draft): (&Slot, &Draft)| {
            Some(WrongText {
                is_waiting: false,
                field: slot.path(),
                name: draft.name.clone(),
                text: draft.text.clone(),
                problem: draft.problem.clone()?,
            })
        };
        self.0.iter().filter_map(wrong).collect()
    }

    /// Puts a wrong text back into its field.
    pub fn put_wrong_text(&mut self, slot: Slot, wrong: &WrongText, document: &Document) {
        let kept = slot.field().and_then(|field| field.text(document));
        let kept = kept.unwrap_or_default().into_owned();
        let draft = Draft {
            name: wrong.name.clone(),
            text: wrong.text.clone(),
            began: kept.clone(),
            kept,
            was_example: slot.field().is_some_and(|field| field.is_example(document)),
            holder: egui::Id::NULL,
            problem: Some(wrong.problem.clone()),
        };
        self.put(slot, draft);
    }

    /// The first wrong text.
    #[must_use]
    pub fn first_wrong(&self) -> Option<&Draft> {
        self.0.values().find(|draft| draft.is_wrong())
    }
}
