//! The entry of a field: what stands in it, and what is typed into it; a wrong text stays.

use std::borrow::Cow;

use egui::accesskit::Invalid;
use egui::text_edit::TextEditState;
use egui::{Event, Id, Key, Rect, Response, Stroke, TextEdit, Ui, Vec2};

use super::field::{Fields, explain_slot};
use crate::analysis::Level;
use crate::app::desk::{Draft, Slot};
use crate::app::widgets::look::colour;
use crate::app::widgets::symbol::symbol;
use crate::app::widgets::typing::{take_all, take_all_in_hand};
use crate::unit::{Document, Field};
use crate::units::{Measure, Quantity};

/// A text in a field.
struct Held {
    /// As it stands in the field.
    shown: String,
    /// As the document holds it; empty for what is left out.
    kept: String,
    /// What holds while it is left out, shown in an empty field.
    otherwise: String,
    was_example: bool,
}

/// What was done in a field.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Done {
    /// Typed, or nothing.
    Other,
    /// Escape brought back what had stood there.
    PutBack,
}

impl Fields<'_> {
    /// The entry of a field without its name; `otherwise` is shown in it while it is left out.
    pub fn entry(
        &mut self,
        ui: &mut Ui,
        name: &str,
        field: Field,
        document: &mut Document,
        otherwise: &str,
        width: f32,
    ) {
        let (slot, system) = (field.into(), self.system);
        let draft = self.drafts.get(slot);
        let was_example = draft.map_or_else(|| field.is_example(document), |d| d.was_example);
        let held = Held {
            shown: self.shown(slot, || {
                let shown = field.shown_in(document, system);
                shown.map_or_else(String::new, Cow::into_owned)
            }),
            kept: field.text(document).unwrap_or_default().into_owned(),
            otherwise: otherwise.to_owned(),
            was_example,
        };
        if let Some(doubt) = field.doubted(document, system) {
            self.doubts.push((slot, doubt));
        }
        let done = self.text_entry(ui, name, slot, held, width, |typed| {
            let taken = field.set(document, typed, system);
            taken.map_err(|problem| problem.to_string())
        });
        if done == Done::PutBack && was_example {
            document.examples.mark(field);
        }
    }

    /// The entry of a quantity that is no field of the unit, without its name. An example stays one until
    /// a person types, be it the same.
    pub fn quantity_entry<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: Slot,
        quantity: &mut Quantity<M>,
        width: f32,
    ) {
        let (system, unit) = (self.system, M::unit_in(self.system).0);
        let draft = self.drafts.get(slot);
        let was_example = draft.map_or_else(|| self.is_example(slot), |d| d.was_example);
        let mut is_taken = false;
        let held = Held {
            shown: self.shown(slot, || quantity.shown_in(system)),
            kept: quantity.text().to_owned(),
            otherwise: String::new(),
            was_example,
        };
        let done = self.text_entry(ui, name, slot, held, width, |text| {
            *quantity = Quantity::typed(text, unit).map_err(|problem| problem.to_string())?;
            is_taken = true;
            Ok(())
        });
        if let Some(measured) = &mut self.measured {
            if done == Done::PutBack && was_example {
                measured.remove(&slot);
            } else if is_taken {
                measured.insert(slot);
            }
        }
        self.has_example |= self.is_example(slot);
    }

    /// Whether a field of a card still holds what nobody measured.
    pub fn is_example(&self, slot: Slot) -> bool {
        let measured = self.measured.as_ref();
        measured.is_some_and(|measured| !measured.contains(&slot))
    }

    fn shown(&self, slot: Slot, otherwise: impl FnOnce() -> String) -> String {
        self.drafts
            .get(slot)
            .map_or_else(otherwise, |draft| draft.text.clone())
    }

    /// Shows a text and takes what is typed; a wrong text stays.
    fn text_entry(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: Slot,
        held: Held,
        width: f32,
        mut take: impl FnMut(&str) -> Result<(), String>,
    ) -> Done {
        let Held {
            shown: mut text,
            kept,
            otherwise,
            was_example,
        } = held;
        let mut done = Done::Other;
        let began = text.clone();
        let is_wanted = slot.field().is_some_and(|field| self.wanted == Some(field));
        let wanted = is_wanted.then(|| text.clone());
        let against = self.against(slot);
        let response = ui
            .scope(|ui| {
                if let Some((level, _)) = &against {
                    let wrong = Stroke::new(2.0, colour(self.theme.level(*level)));
                    let widgets = &mut ui.visuals_mut().widgets;
                    for state in [
                        &mut widgets.inactive,
                        &mut widgets.hovered,
                        &mut widgets.active,
                    ] {
                        state.bg_stroke = wrong;
                    }
                }
                // Names are the file's, so that ids stay when the form is rearranged.
                ui.add(
                    TextEdit::singleline(&mut text)
                        .id_salt(slot)
                        .hint_text(otherwise)
                        .desired_width(width),
                )
            })
            .inner
            .accessible_name(name);
        if response.gained_focus() {
            forget_typing(ui, response.id);
        }
        take_all_in_hand(ui, &response, &text);
        if let Some((level, why)) = against {
            self.mark(ui, &response, level, why);
        }
        self.first.get_or_insert(response.id);
        if response.has_focus() {
            self.in_hand = Some(slot);
        }
        if response.changed() || was_example && is_typed_into(ui, &response) {
            let (kept, began) = match self.drafts.get(slot) {
                Some(draft) => (draft.kept.clone(), draft.began.clone()),
                None => (kept, began),
            };
            let is_back = text.trim() == began.trim();
            let problem = take(if is_back { &kept } else { &text }).err();
            if problem.is_none() {
                self.typed(name, slot, response.id);
            }
            let draft = Draft {
                name: name.to_owned(),
                text,
                problem,
                kept,
                began,
                was_example,
                holder: response.id,
            };
            self.drafts.put(slot, draft);
        } else if !response.has_focus()
            && let Some(draft) = self.drafts.get(slot).cloned()
            && (draft.holder == response.id || !ui.memory(|memory| memory.has_focus(draft.holder)))
        {
            let is_undone =
                response.lost_focus() && ui.input(|input| input.key_pressed(Key::Escape));
            if is_undone {
                // What the document held was right, so taking it again cannot fail.
                let _ = take(&draft.kept);
                self.typed(name, slot, response.id);
                done = Done::PutBack;
            }
            if is_undone || draft.problem.is_none() {
                self.drafts.remove(slot);
            }
        }
        if let Some(text) = wanted {
            response.request_focus();
            response.scroll_to_me(None);
            // Keys that are asked for are not told of as gained.
            take_all(ui, &response, &text);
        }
        if let Some(field) = slot.field() {
            self.look(&response, field);
        }
        explain_slot(ui, response, slot);
        done
    }

    /// Marks an entry that is wrong or cannot be true by a sign at its end, and tells a screen reader why.
    fn mark(&self, ui: &Ui, entry: &Response, level: Level, why: String) {
        let place = Rect::from_center_size(
            entry.rect.right_center() - Vec2::new(13.0, 0.0),
            Vec2::splat(14.0),
        );
        if ui.is_rect_visible(place) {
            symbol(ui, place, level, self.theme);
        }
        ui.ctx().accesskit_node_builder(entry.id, |node| {
            if level == Level::Over {
                node.set_invalid(Invalid::True);
            }
            node.set_description(why);
        });
    }
}

/// Whether a person types into an entry, be it what stands there already.
fn is_typed_into(ui: &Ui, entry: &Response) -> bool {
    let is_typing = |event: &Event| matches!(event, Event::Text(_) | Event::Paste(_));
    entry.has_focus() && ui.input(|input| input.events.iter().any(is_typing))
}

/// What a field takes back by itself begins anew each time it is entered: older entries are steps of
/// the document.
fn forget_typing(ui: &Ui, field: Id) {
    if let Some(mut state) = TextEditState::load(ui.ctx(), field) {
        state.clear_undoer();
        state.store(ui.ctx(), field);
    }
}
