//! One field of the form: a name, an entry, and the reason beside an entry that is wrong.

use egui::{Align, ComboBox, Layout, RichText, TextEdit, Ui, Vec2};

use super::drafts::{Draft, Drafts, Slot};
use super::help::help_ui;
use super::look::colour;
use crate::analysis::Unsolved;
use crate::drawing::{Theme, level_symbol};
use crate::units::{Measure, Quantity, System};

/// Width of a field's name.
const NAME_WIDTH: f32 = 148.0;

/// What a form's fields have in common.
pub(super) struct Fields<'a> {
    pub(super) drafts: &'a mut Drafts,
    pub(super) system: System,
    pub(super) trouble: Option<Unsolved>,
    pub(super) theme: Theme,
}

impl Fields<'_> {
    /// A quantity.
    pub(super) fn quantity<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: impl Into<Slot>,
        quantity: &mut Quantity<M>,
    ) {
        let slot = slot.into();
        self.row(ui, name, slot, |fields, ui| {
            fields.entry(ui, name, slot, quantity, f32::INFINITY);
        });
    }

    /// A quantity that may be left out; `otherwise` says what then holds.
    pub(super) fn optional<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: impl Into<Slot>,
        entry: &mut Option<Quantity<M>>,
        otherwise: &str,
    ) {
        let slot = slot.into();
        self.row(ui, name, slot, |fields, ui| {
            fields.optional_entry(ui, name, slot, entry, otherwise, f32::INFINITY);
        });
    }

    /// A text of one's own.
    pub(super) fn text(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: impl Into<Slot>,
        text: &mut String,
    ) {
        self.checked_text(ui, name, slot, text, |_| Ok(()));
    }

    /// A text of one's own that has to pass a check; a wrong one stays in its field alone.
    pub(super) fn checked_text(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: impl Into<Slot>,
        text: &mut String,
        check: impl Fn(&str) -> Result<(), String>,
    ) {
        let slot = slot.into();
        self.row(ui, name, slot, |fields, ui| {
            let kept = text.clone();
            let shown = fields.shown(slot, || kept.clone());
            fields.text_entry(ui, name, slot, shown, kept, f32::INFINITY, |typed| {
                check(typed)?;
                typed.clone_into(text);
                Ok(())
            });
        });
    }

    /// A whole number.
    pub(super) fn count(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: impl Into<Slot>,
        count: &mut u32,
    ) {
        let slot = slot.into();
        self.row(ui, name, slot, |fields, ui| {
            let kept = count.to_string();
            let shown = fields.shown(slot, || kept.clone());
            fields.text_entry(ui, name, slot, shown, kept, f32::INFINITY, |text| {
                let read = text.trim().parse::<u32>();
                *count = read.map_err(|_| "write a whole number, like 8".to_owned())?;
                Ok(())
            });
        });
    }

    /// The entry of a quantity without its name.
    pub(super) fn entry<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: impl Into<Slot>,
        quantity: &mut Quantity<M>,
        width: f32,
    ) {
        let slot = slot.into();
        let (system, unit) = (self.system, M::unit_in(self.system).0);
        let shown = self.shown(slot, || quantity.shown_in(system));
        let kept = quantity.text().to_owned();
        self.text_entry(ui, name, slot, shown, kept, width, |text| {
            *quantity = Quantity::typed(text, unit).map_err(|problem| problem.to_string())?;
            Ok(())
        });
    }

    /// The entry of a quantity that may be left out, without its name.
    pub(super) fn optional_entry<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: impl Into<Slot>,
        entry: &mut Option<Quantity<M>>,
        otherwise: &str,
        width: f32,
    ) {
        let slot = slot.into();
        let (system, unit) = (self.system, M::unit_in(self.system).0);
        let was_left_out = match self.drafts.get(slot) {
            Some(draft) => draft.kept.is_empty(),
            None => entry.is_none(),
        };
        let shown = self.shown(slot, || {
            entry.as_ref().map_or_else(
                || otherwise.to_owned(),
                |quantity| quantity.shown_in(system),
            )
        });
        let kept = entry
            .as_ref()
            .map_or_else(String::new, |quantity| quantity.text().to_owned());
        self.text_entry(ui, name, slot, shown, kept, width, |text| {
            let text = text.trim();
            // Going back to what stood there while nothing was set leaves it out again.
            *entry = if text.is_empty() || text == otherwise && was_left_out {
                None
            } else {
                Some(Quantity::typed(text, unit).map_err(|problem| problem.to_string())?)
            };
            Ok(())
        });
    }

    /// The reason why a field is wrong, from its draft or from the checks.
    pub(super) fn problem(&self, slot: impl Into<Slot>) -> Option<String> {
        let slot = slot.into();
        let drafted = self
            .drafts
            .get(slot)
            .and_then(|draft| draft.problem.clone());
        drafted.or_else(|| match &self.trouble {
            Some(Unsolved::Flaw(flaw)) if slot == flaw.field.into() => Some(flaw.kind.to_string()),
            _ => None,
        })
    }

    /// Shows the reason under a field, with a symbol.
    pub(super) fn problem_ui(&self, ui: &mut Ui, slot: impl Into<Slot>) {
        let slot = slot.into();
        let Some(problem) = self.problem(slot) else {
            return;
        };
        ui.horizontal_wrapped(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(14.0), egui::Sense::hover());
            symbol(ui, place, crate::analysis::Level::Over, self.theme);
            ui.label(RichText::new(problem).size(13.0));
        });
    }

    fn shown(&self, slot: Slot, otherwise: impl FnOnce() -> String) -> String {
        self.drafts
            .get(slot)
            .map_or_else(otherwise, |draft| draft.text.clone())
    }

    fn row(&mut self, ui: &mut Ui, name: &str, slot: Slot, entry: impl FnOnce(&mut Self, &mut Ui)) {
        ui.horizontal(|ui| {
            name_ui(ui, name, slot);
            entry(self, ui);
        });
        self.problem_ui(ui, slot);
    }

    /// Shows a text and takes what is typed; a wrong text stays. `kept` is what the document holds.
    #[expect(
        clippy::too_many_arguments,
        reason = "one widget, and every argument is another of its parts"
    )]
    fn text_entry(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: Slot,
        mut text: String,
        kept: String,
        width: f32,
        mut take: impl FnMut(&str) -> Result<(), String>,
    ) {
        let is_wrong = self.problem(slot).is_some();
        let response = ui
            .scope(|ui| {
                if is_wrong {
                    let wrong = egui::Stroke::new(
                        2.0,
                        colour(self.theme.level(crate::analysis::Level::Over)),
                    );
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
                        .desired_width(width),
                )
            })
            .inner
            .accessible_name(name);
        if response.changed() {
            let problem = take(&text).err();
            let kept = self
                .drafts
                .get(slot)
                .map_or(kept, |draft| draft.kept.clone());
            let draft = Draft {
                name: name.to_owned(),
                text,
                problem,
                kept,
                holder: response.id,
            };
            self.drafts.put(slot, draft);
        } else if !response.has_focus()
            && let Some(draft) = self.drafts.get(slot).cloned()
            && (draft.holder == response.id || !ui.memory(|memory| memory.has_focus(draft.holder)))
        {
            let is_undone =
                response.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Escape));
            if is_undone {
                // What the document held was right, so taking it again cannot fail.
                let _ = take(&draft.kept);
            }
            if is_undone || draft.problem.is_none() {
                self.drafts.remove(slot);
            }
        }
        explain(response, slot);
    }
}

/// A field's name, with its meaning while the pointer rests on it.
pub(super) fn name_ui(ui: &mut Ui, name: &str, slot: impl Into<Slot>) {
    let slot = slot.into();
    let size = Vec2::new(NAME_WIDTH, ui.spacing().interact_size.y);
    let layout = Layout::left_to_right(Align::Center);
    let label = ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_width(NAME_WIDTH);
        let label = egui::Label::new(name).truncate().selectable(false);
        ui.add(label.sense(egui::Sense::hover()))
    });
    explain(label.inner, slot);
}

/// Shows what a field means and how it is measured while the pointer rests on it.
pub(super) fn explain(response: egui::Response, slot: impl Into<Slot>) -> egui::Response {
    match slot.into() {
        Slot::Field(field) => response.on_hover_ui(|ui| help_ui(ui, field)),
        Slot::OtherReading | Slot::TouchesAt => response,
    }
}

/// A level's symbol.
pub(super) fn symbol(ui: &Ui, place: egui::Rect, level: crate::analysis::Level, theme: Theme) {
    use super::paint::{paper, rect, stroked};
    let (body, line) = level_symbol(level, paper(place));
    let ink = colour(theme.level(level));
    let painter = ui.painter();
    match level {
        crate::analysis::Level::Fine => {
            painter.circle_filled(place.center(), place.width() / 2.0, ink);
        }
        crate::analysis::Level::Watch => {
            let corners = body.elements().iter().filter_map(kurbo::PathEl::end_point);
            let corners = corners.map(super::paint::pos).collect();
            painter.add(egui::Shape::convex_polygon(
                corners,
                ink,
                egui::Stroke::NONE,
            ));
        }
        crate::analysis::Level::Over => {
            painter.rect_filled(rect(kurbo::Shape::bounding_box(&body)), 1.0, ink);
        }
    }
    let white = colour(theme.look(crate::drawing::Role::Paper).fill);
    painter.extend(stroked(
        &line,
        egui::Stroke::new((place.width() / 9.0).max(1.6), white),
    ));
}

/// Small words under a heading.
pub(super) fn note(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).weak().size(13.0));
}

/// A choice of a few, with its name beside it.
pub(super) fn choice(
    ui: &mut Ui,
    name: &str,
    slot: impl Into<Slot>,
    shown: &str,
    choices: impl FnOnce(&mut Ui),
) {
    let slot = slot.into();
    ui.horizontal(|ui| {
        name_ui(ui, name, slot);
        let response = ComboBox::from_id_salt(slot)
            .width(ui.available_width())
            .selected_text(shown)
            .show_ui(ui, choices)
            .response
            .accessible_name(name);
        explain(response, slot);
    });
}
