//! One field of the form: a name, an entry, and the reason beside an entry that is wrong.

use std::borrow::Cow;

use egui::text_edit::TextEditState;
use egui::{Align, ComboBox, Id, Layout, Response, TextEdit, Ui, Vec2};

use crate::analysis::{Level, Unsolved};
use crate::app::desk::{Change, Desk, Draft, Drafts, Slot};
use crate::app::widgets::help::explain;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::symbol::symbol;
use crate::drawing::Theme;
use crate::unit::{Document, Field, Group, Kind};
use crate::units::{Measure, Quantity, System};

/// Width of a field's name.
const NAME_WIDTH: f32 = 148.0;
/// Width of the mark of a field that holds an example.
const MARK_WIDTH: f32 = 74.0;
/// Height of a name over its field.
const NAME_HEIGHT: f32 = 17.0;

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
}

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
        }
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
    fn typed(&mut self, name: &str, slot: Slot, holder: Id) {
        let change = Change::new(name.to_owned()).typed_into(holder);
        self.change = Some(match slot.field() {
            Some(field) => change.and(field),
            None => change,
        });
    }

    /// Every field of a group under one another, by the names they have where they stand alone.
    pub fn group_rows(&mut self, ui: &mut Ui, document: &mut Document, group: Group) {
        for field in Field::all(document).filter(|field| field.group() == group) {
            self.row(ui, field.name(), field, document);
        }
    }

    /// A field of the unit with its name beside it. A text, a price and notes may be left empty.
    pub fn row(
        &mut self,
        ui: &mut Ui,
        name: &str,
        field: impl Into<Field>,
        document: &mut Document,
    ) {
        self.row_or(ui, name, field, document, "");
    }

    /// The same; `otherwise` says what holds where it is left out.
    pub fn row_or(
        &mut self,
        ui: &mut Ui,
        name: &str,
        field: impl Into<Field>,
        document: &mut Document,
        otherwise: &str,
    ) {
        let field = field.into();
        ui.horizontal(|ui| {
            self.name_ui(ui, name, field);
            self.marked_entry(ui, name, field, document, otherwise);
        });
        self.problem_ui(ui, field);
    }

    /// The entry of a field with its mark in what is left of the line; no field changes its width
    /// while it is typed into.
    fn marked_entry(
        &mut self,
        ui: &mut Ui,
        name: &str,
        field: Field,
        document: &mut Document,
        otherwise: &str,
    ) {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if field.is_asked_for() && !document.examples.is_empty() {
                let size = Vec2::new(MARK_WIDTH, ui.spacing().interact_size.y);
                let layout = Layout::left_to_right(Align::Center);
                ui.allocate_ui_with_layout(size, layout, |ui| {
                    ui.set_min_width(MARK_WIDTH);
                    self.mark_ui(ui, name, field, document);
                });
            }
            let width = ui.available_width();
            self.entry(ui, name, field, document, otherwise, width);
        });
    }

    /// That a field holds an example, to be kept by a click.
    pub fn mark_ui(&mut self, ui: &mut Ui, name: &str, field: Field, document: &mut Document) {
        if !field.is_example(document) {
            return;
        }
        let ink = colour(self.theme.level(Level::Watch));
        let text = Lettering::Label.of("example?");
        let button = egui::Button::new(text)
            .small()
            .stroke(egui::Stroke::new(1.0, ink))
            .fill(egui::Color32::TRANSPARENT);
        let response = ui
            .add(button)
            .accessible_name(format!("{name}: an example, keep it as mine"));
        if response.clicked() {
            document.examples.keep(field);
            self.set(Change::of(format!("Kept {}", name.to_lowercase()), field));
        }
        response.on_hover_text(
            "Nobody measured this on your unit yet. Type your own reading over it; or click, if it is the same on yours: mine, keep it.",
        );
    }

    /// Two fields beside one another, each under its name. They are called by a longer one where
    /// they stand alone.
    pub fn pair(&mut self, ui: &mut Ui, document: &mut Document, pair: [(&str, &str, Field); 2]) {
        let width = (ui.available_width() - ui.spacing().item_spacing.x) / 2.0;
        ui.horizontal_top(|ui| {
            for (shown, name, field) in pair {
                self.cell_ui(ui, width, shown, field, |fields, ui, is_over| {
                    if is_over {
                        fields.mark_ui(ui, name, field, document);
                    } else if matches!(field.kind(), Kind::Choice(_)) {
                        fields.choice_entry(ui, name, field, document);
                    } else {
                        fields.entry(ui, name, field, document, "", width);
                    }
                });
            }
        });
    }

    /// A name over what stands under it; `part` shows what stands after the name, then what stands
    /// under it.
    fn cell_ui(
        &mut self,
        ui: &mut Ui,
        width: f32,
        shown: &str,
        field: Field,
        mut part: impl FnMut(&mut Self, &mut Ui, bool),
    ) {
        let layout = Layout::top_down(Align::Min);
        ui.allocate_ui_with_layout(Vec2::new(width, 0.0), layout, |ui| {
            ui.set_width(width);
            ui.spacing_mut().item_spacing.y = 1.0;
            let height = std::mem::replace(&mut ui.spacing_mut().interact_size.y, NAME_HEIGHT);
            ui.horizontal(|ui| {
                ui.spacing_mut().button_padding = Vec2::new(5.0, 0.0);
                let text = Lettering::Note.of(shown);
                let label = egui::Label::new(text).selectable(false);
                let response = ui.add(label.sense(egui::Sense::hover()));
                self.look(&response, field);
                explain(response, field);
                part(self, ui, true);
            });
            ui.spacing_mut().interact_size.y = height;
            part(self, ui, false);
            self.problem_ui(ui, field);
        });
    }

    /// A field that is one of a few, with its name beside it; whether another was chosen.
    pub fn choice(
        &mut self,
        ui: &mut Ui,
        name: &'static str,
        field: Field,
        document: &mut Document,
    ) -> bool {
        ui.horizontal(|ui| {
            self.name_ui(ui, name, field);
            self.choice_entry(ui, name, field, document)
        })
        .inner
    }

    /// A field that is one of a few, without its name; whether another was chosen.
    pub fn choice_entry(
        &mut self,
        ui: &mut Ui,
        name: &str,
        field: Field,
        document: &mut Document,
    ) -> bool {
        let Kind::Choice(choice) = field.kind() else {
            return false;
        };
        let offers = choice.offers();
        let before = field.text(document).unwrap_or_default().into_owned();
        let mut chosen: &str = &before;
        let shown = offers.iter().find(|offer| offer.word == before);
        let response = ComboBox::from_id_salt(Slot::from(field))
            .width(ui.available_width())
            .selected_text(shown.map_or("", |offer| offer.name))
            .show_ui(ui, |ui| {
                for offer in &offers {
                    ui.selectable_value(&mut chosen, offer.word, offer.name);
                }
            })
            .response
            .accessible_name(name);
        self.look(&response, field);
        explain(response, field);
        let is_changed = chosen != before && field.set(document, chosen, self.system).is_ok();
        if is_changed {
            self.set(Change::of(name.to_owned(), field));
        }
        is_changed
    }

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
        let done = self.text_entry(ui, name, slot, held, width, |typed| {
            let taken = field.set(document, typed, system);
            taken.map_err(|problem| problem.to_string())
        });
        if done == Done::PutBack && was_example {
            document.examples.mark(field);
        }
    }

    /// A quantity that is no field of the unit, with its name beside it.
    pub fn quantity<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: Slot,
        quantity: &mut Quantity<M>,
    ) {
        let (system, unit) = (self.system, M::unit_in(self.system).0);
        self.beside_name(ui, name, slot, |fields, ui| {
            let held = Held {
                shown: fields.shown(slot, || quantity.shown_in(system)),
                kept: quantity.text().to_owned(),
                otherwise: String::new(),
                was_example: false,
            };
            fields.text_entry(ui, name, slot, held, f32::INFINITY, |text| {
                *quantity = Quantity::typed(text, unit).map_err(|problem| problem.to_string())?;
                Ok(())
            });
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
            ui.label(Lettering::Note.of(problem));
        });
    }

    fn shown(&self, slot: Slot, otherwise: impl FnOnce() -> String) -> String {
        self.drafts
            .get(slot)
            .map_or_else(otherwise, |draft| draft.text.clone())
    }

    fn beside_name(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: Slot,
        entry: impl FnOnce(&mut Self, &mut Ui),
    ) {
        ui.horizontal(|ui| {
            self.name_ui(ui, name, slot);
            entry(self, ui);
        });
        self.problem_ui(ui, slot);
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
                        .hint_text(otherwise)
                        .desired_width(width),
                )
            })
            .inner
            .accessible_name(name);
        if response.gained_focus() {
            forget_typing(ui, response.id);
        }
        if response.changed() {
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
                response.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Escape));
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
        if let Some(field) = slot.field() {
            if self.wanted == Some(field) {
                response.request_focus();
                response.scroll_to_me(None);
            }
            self.look(&response, field);
        }
        explain_slot(response, slot);
        done
    }

    /// Notes which field a person looks at: the one they are in, or else the one they point at.
    fn look(&mut self, response: &Response, field: Field) {
        if response.has_focus() || (self.looked_at.is_none() && response.hovered()) {
            self.looked_at = Some(field);
        }
    }

    /// A field's name, with its meaning while the pointer rests on it.
    fn name_ui(&mut self, ui: &mut Ui, name: &str, slot: impl Into<Slot>) {
        let slot = slot.into();
        let size = Vec2::new(NAME_WIDTH, ui.spacing().interact_size.y);
        let layout = Layout::left_to_right(Align::Center);
        let label = ui.allocate_ui_with_layout(size, layout, |ui| {
            ui.set_min_width(NAME_WIDTH);
            let label = egui::Label::new(name).truncate().selectable(false);
            ui.add(label.sense(egui::Sense::hover()))
        });
        if let Some(field) = slot.field() {
            self.look(&label.inner, field);
        }
        explain_slot(label.inner, slot);
    }
}

fn explain_slot(response: Response, slot: Slot) -> Response {
    match slot.field() {
        Some(field) => explain(response, field),
        None => response,
    }
}

/// What a field takes back by itself begins anew each time it is entered: older entries are steps of
/// the document.
fn forget_typing(ui: &Ui, field: Id) {
    if let Some(mut state) = TextEditState::load(ui.ctx(), field) {
        state.clear_undoer();
        state.store(ui.ctx(), field);
    }
}

/// Small words under a heading.
pub fn note(ui: &mut Ui, text: &str) {
    ui.label(Lettering::Note.of(text).weak());
}
