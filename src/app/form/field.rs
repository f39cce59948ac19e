//! What the fields of a form have in common: what is typed into them, why one is wrong, and the change
//! that was made last.

use std::collections::BTreeSet;

use egui::{Id, Response, Ui};

use crate::analysis::Unsolved;
use crate::app::desk::{Change, Desk, Drafts, Slot};
use crate::app::widgets::help::explain;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::theme;
use crate::drawing::Theme;
use crate::unit::{Document, Field, FlawKind};
use crate::units::System;

/// What a card has around what stands in it, about.
const CARD_FRAME: f32 = 8.0;

/// What a form's fields have in common.
pub struct Fields<'a> {
    pub drafts: &'a mut Drafts,
    pub system: System,
    pub trouble: Option<Unsolved>,
    pub theme: Theme,
    /// The last change made in them.
    pub change: Option<Change>,
    /// The field that has the focus, or else that the pointer rests on.
    pub looked_at: Option<Field>,
    /// The field that is to have the focus.
    pub wanted: Option<Field>,
    /// The first entry of the form.
    pub first: Option<Id>,
    /// The marks of fields that hold examples, and buttons that stand between readings.
    pub marks: Vec<Id>,
    /// What has the focus.
    pub in_hand: Option<Slot>,
    /// Why what stands in a field cannot be true, of those that were shown.
    pub doubts: Vec<(Slot, String)>,
    /// Those of a card's fields that a person typed into, where the others hold examples.
    pub measured: Option<&'a mut BTreeSet<Slot>>,
    /// Whether one of the card's fields that were shown still holds an example.
    pub has_example: bool,
    /// Whether the reel's diameter is wanted from other readings.
    pub is_reel_wanted: bool,
    /// The right edge of the card that they stand on; none in the form.
    pub card_edge: Option<f32>,
}

/// Lends the fields of a form, and the document in front to fill them in.
pub fn fill_in<R>(
    ui: &mut Ui,
    desk: &mut Desk,
    show: impl FnOnce(&mut Ui, &mut Fields, &mut Document) -> R,
) -> R {
    let system = desk.system();
    let trouble = desk.session().trouble().cloned();
    let theme = theme(ui.ctx());
    desk.edit_typed(|document, drafts| {
        let mut fields = Fields {
            trouble,
            ..Fields::over(drafts, system, theme)
        };
        let shown = show(ui, &mut fields, document);
        (shown, fields.change)
    })
}

impl<'a> Fields<'a> {
    /// Fields that are no part of the document.
    pub fn over(drafts: &'a mut Drafts, system: System, theme: Theme) -> Self {
        Self {
            drafts,
            system,
            trouble: None,
            theme,
            change: None,
            looked_at: None,
            wanted: None,
            first: None,
            marks: Vec::new(),
            in_hand: None,
            doubts: Vec::new(),
            measured: None,
            has_example: false,
            is_reel_wanted: false,
            card_edge: None,
        }
    }

    /// The same on a card, which is as wide as what stands in it. Its fields hold examples but for those
    /// that are measured.
    pub fn on_card(mut self, ui: &Ui, measured: &'a mut BTreeSet<Slot>) -> Self {
        self.measured = Some(measured);
        self.card_edge = Some(ui.max_rect().right() + CARD_FRAME);
        self
    }
}

impl Fields<'_> {
    /// Names a change that was made other than by typing: what was being typed into the part of the
    /// document that it sets is dropped.
    pub fn set(&mut self, change: Change) {
        self.drafts.follow(&change);
        self.change = Some(change);
    }

    /// Names a change that was made by typing.
    pub fn typed(&mut self, name: &str, slot: Slot, holder: Id) {
        let change = Change::new(name.to_owned()).typed_into(holder);
        self.change = Some(match slot.field() {
            Some(field) => change.and(field),
            None => change,
        });
    }

    /// Whether what is typed into a field is wrong, so that it is not in the document.
    pub fn has_wrong_draft(&self, field: Field) -> bool {
        let draft = self.drafts.get(field.into());
        draft.is_some_and(|draft| draft.problem.is_some())
    }

    /// The reason why a field is wrong, from its draft or from the checks.
    pub fn problem(&self, slot: impl Into<Slot>) -> Option<String> {
        let slot = slot.into();
        let drafted = self
            .drafts
            .get(slot)
            .and_then(|draft| draft.problem.clone());
        drafted.or_else(|| match &self.trouble {
            // An example beside a reading is no fault of the field: its mark says what it is.
            Some(Unsolved::Flaw(flaw)) if matches!(flaw.kind, FlawKind::BesideExample(_)) => None,
            Some(Unsolved::Flaw(flaw)) if slot == flaw.field.into() => Some(flaw.kind.to_string()),
            _ => None,
        })
    }

    /// Notes which field a person looks at: the one they are in, or else the one they point at.
    pub fn look(&mut self, response: &Response, field: Field) {
        if response.has_focus() || (self.looked_at.is_none() && response.hovered()) {
            self.looked_at = Some(field);
        }
    }
}

/// Shows what a field of the unit means while the pointer rests on it.
pub fn explain_slot(ui: &Ui, response: Response, slot: Slot) -> Response {
    match slot.field() {
        Some(field) => explain(ui, response, field),
        None => response,
    }
}

/// Small words under a heading.
pub fn note(ui: &mut Ui, text: &str) {
    ui.label(Lettering::Note.of(text).weak());
}
