//! A field with its name, beside it or over it.

use egui::{Align, Layout, Ui, Vec2};

use super::field::{Fields, explain_slot};
use super::instruments::off_menu_ui;
use crate::app::desk::Slot;
use crate::app::widgets::help::explain;
use crate::app::widgets::lettering::Lettering;
use crate::unit::{Document, Field, Group, Instrument, Kind};
use crate::units::{Measure, Quantity};

/// Width of a field's name.
const NAME_WIDTH: f32 = 148.0;
/// Width of the mark of a field that holds an example.
const MARK_WIDTH: f32 = 74.0;
/// Width of the menu that gives a reading its ±.
const OFF_WIDTH: f32 = 22.0;
/// Height of a name over its field.
const NAME_HEIGHT: f32 = 17.0;

/// Whether there is room beside a field for the instruments that give it its ±.
fn is_taken_with_instrument(field: Field) -> bool {
    matches!(field, Field::Reading(reading) if !Instrument::offered(reading).is_empty())
}

impl Fields<'_> {
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
            if is_taken_with_instrument(field) {
                let size = Vec2::new(OFF_WIDTH, ui.spacing().interact_size.y);
                let layout = Layout::left_to_right(Align::Center);
                ui.allocate_ui_with_layout(size, layout, |ui| {
                    ui.set_min_width(OFF_WIDTH);
                    off_menu_ui(ui, self, name, field, document);
                });
            }
            let width = ui.available_width();
            self.entry(ui, name, field, document, otherwise, width);
        });
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
                        off_menu_ui(ui, fields, name, field, document);
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
                explain(ui, response, field);
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

    /// A quantity that is no field of the unit, with its name beside it, and a mark while it is an example.
    pub fn quantity<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        slot: Slot,
        quantity: &mut Quantity<M>,
    ) {
        ui.horizontal(|ui| {
            self.name_ui(ui, name, slot);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if self.measured.is_some() {
                    let size = Vec2::new(MARK_WIDTH, ui.spacing().interact_size.y);
                    let layout = Layout::left_to_right(Align::Center);
                    ui.allocate_ui_with_layout(size, layout, |ui| {
                        ui.set_min_width(MARK_WIDTH);
                        self.card_mark_ui(ui, slot);
                    });
                }
                let width = ui.available_width();
                self.quantity_entry(ui, name, slot, quantity, width);
            });
        });
        self.problem_ui(ui, slot);
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
        explain_slot(ui, label.inner, slot);
    }
}
