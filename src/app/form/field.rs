//! One field of the form: a name, an entry, and the reason beside an entry that is wrong.

use egui::{Align, ComboBox, Layout, Response, RichText, TextEdit, Ui, Vec2};

use crate::analysis::{Level, Unsolved};
use crate::app::desk::{Change, Desk, Draft, Drafts, Slot};
use crate::app::widgets::help::explain;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::symbol::symbol;
use crate::drawing::Theme;
use crate::unit::{Document, Field, OneOf};
use crate::units::{Measure, Quantity, System};

/// Width of a field's name.
const NAME_WIDTH: f32 = 148.0;

/// What a form's fields have in common.
pub struct Fields<'a> {
    pub drafts: &'a mut Drafts,
    pub system: System,
    pub trouble: Option<Unsolved>,
    pub theme: Theme,
    /// The last change made in them.
    pub change: Option<Change>,
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
            drafts,
            system,
            trouble,
            theme,
            change: None,
        };
        let shown = show(ui, &mut fields, document);
        (shown, fields.change)
    })
}

impl Fields<'_> {
    /// Names a change that was made other than by typing: what was being typed into the part of the
    /// document that it sets is dropped.
    pub fn set(&mut self, change: Change) {
        self.drafts.follow(&change);
        self.change = Some(change);
    }

    /// Names a change that was made by typing.
    fn typed(&mut self, name: &str, slot: Slot) {
        let change = Change::new(name.to_owned());
        self.change = Some(match slot.field() {
            Some(field) => change.and(field),
            None => change,
        });
    }

    /// A choice of a few, with its name beside it; whether another was chosen.
    pub fn choice<T: OneOf>(
        &mut self,
        ui: &mut Ui,
        name: &'static str,
        field: Field,
        chosen: &mut T,
    ) -> bool {
        let before = *chosen;
        ui.horizontal(|ui| {
            name_ui(ui, name, field);
            let response = ComboBox::from_id_salt(Slot::from(field))
                .width(ui.available_width())
                .selected_text(before.name())
                .show_ui(ui, |ui| {
                    for one in T::ALL {
                        ui.selectable_value(chosen, *one, one.name());
                    }
                })
                .response
                .accessible_name(name);
            explain(response, field);
        });
        let is_changed = *chosen != before;
        if is_changed {
            self.set(Change::of(name, field));
        }
        is_changed
    }

    /// A quantity.
    pub fn quantity<M: Measure>(
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
    pub fn optional<M: Measure>(
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
    pub fn text(&mut self, ui: &mut Ui, name: &str, slot: impl Into<Slot>, text: &mut String) {
        self.checked_text(ui, name, slot, text, |_| Ok(()));
    }

    /// A text of one's own that has to pass a check; a wrong one stays in its field alone.
    pub fn checked_text(
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
    pub fn count(&mut self, ui: &mut Ui, name: &str, slot: impl Into<Slot>, count: &mut u32) {
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
    pub fn entry<M: Measure>(
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
    pub fn optional_entry<M: Measure>(
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
    pub fn problem(&self, slot: impl Into<Slot>) -> Option<String> {
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
    pub fn problem_ui(&self, ui: &mut Ui, slot: impl Into<Slot>) {
        let slot = slot.into();
        let Some(problem) = self.problem(slot) else {
            return;
        };
        ui.horizontal_wrapped(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(14.0), egui::Sense::hover());
            symbol(ui, place, Level::Over, self.theme);
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
                    let wrong = egui::Stroke::new(2.0, colour(self.theme.level(Level::Over)));
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
            if problem.is_none() {
                self.typed(name, slot);
            }
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
                self.typed(name, slot);
            }
            if is_undone || draft.problem.is_none() {
                self.drafts.remove(slot);
            }
        }
        explain_slot(response, slot);
    }
}

/// A field's name, with its meaning while the pointer rests on it.
pub fn name_ui(ui: &mut Ui, name: &str, slot: impl Into<Slot>) {
    let slot = slot.into();
    let size = Vec2::new(NAME_WIDTH, ui.spacing().interact_size.y);
    let layout = Layout::left_to_right(Align::Center);
    let label = ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_width(NAME_WIDTH);
        let label = egui::Label::new(name).truncate().selectable(false);
        ui.add(label.sense(egui::Sense::hover()))
    });
    explain_slot(label.inner, slot);
}

fn explain_slot(response: Response, slot: Slot) -> Response {
    match slot.field() {
        Some(field) => explain(response, field),
        None => response,
    }
}

/// Small words under a heading.
pub fn note(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).weak().size(13.0));
}
