//! Filling in the unit from its sheet: before and after side by side, then one step to take back.

use std::borrow::Cow;
use std::rc::Rc;

use egui::{Grid, Ui};

use crate::analysis::plate::{Filled, PlateResult};
use crate::app::desk::{Card, Change, Desk, Next, Part};
use crate::app::form::Wanted;
use crate::app::widgets::lettering::Lettering;
use crate::unit::{Document, Field};
use crate::units::System;

/// The card.
pub struct FillCard {
    result: Rc<PlateResult>,
}

impl FillCard {
    /// For what a sheet came to.
    pub fn new(result: &Rc<PlateResult>) -> Self {
        Self {
            result: Rc::clone(result),
        }
    }

    /// The fields that are filled in, and the unit as it is then.
    fn filled(&self, before: &Document) -> (Vec<Field>, Document, Filled) {
        let mut after = before.clone();
        let filled = self.result.fill(&mut after);
        let is_other = |field: &Field| field.text(before) != field.text(&after);
        let mut fields: Vec<_> = Field::all(&after).filter(is_other).collect();
        fields.dedup();
        (fields, after, filled)
    }
}

/// A field with the part of the form it stands in, where another has its name.
fn named(field: Field) -> String {
    let is_wanted = Wanted::ALL.iter().any(|wanted| wanted.field == field);
    if is_wanted {
        format!("{}, as wanted", field.name())
    } else {
        field.name().to_owned()
    }
}

/// What holds for a field that is left out: what was measured on the bench, where it follows that.
fn measured(field: Field, document: &Document, system: System) -> String {
    let mut wanted = Wanted::ALL.into_iter();
    let followed = wanted.find(|wanted| wanted.field == field && wanted.measured.is_some());
    followed.map_or_else(
        || "not given".to_owned(),
        |wanted| wanted.measured_text(document, system),
    )
}

impl Card for FillCard {
    fn name(&self) -> &'static str {
        "fill in the unit"
    }

    fn width(&self) -> f32 {
        560.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Fill in the unit from the sheet"));
        ui.add_space(6.0);
        let system = desk.system();
        let (fields, after, filled) = self.filled(desk.document());
        if fields.is_empty() {
            ui.label("The unit already has these values.");
        } else {
            let shown = |field: Field, document: &Document| {
                let text = field.shown_in(document, system);
                text.map_or_else(|| measured(field, document, system), Cow::into_owned)
            };
            Grid::new("filled in")
                .num_columns(3)
                .striped(true)
                .show(ui, |ui| {
                    for head in ["Field", "Now", "By the sheet"] {
                        ui.label(Lettering::Name.of(head));
                    }
                    ui.end_row();
                    for field in &fields {
                        ui.label(named(*field));
                        ui.label(shown(*field, desk.document()));
                        ui.label(shown(*field, &after));
                        ui.end_row();
                    }
                });
            ui.add_space(4.0);
            ui.label("Undo, in the area Unit, takes it all back in one step.");
        }
        ui.label(match filled {
            Filled::AsMeasured => "What was read here stands under 1 As measured, with its ±. Where the unit stands otherwise than before, behind centre and the rollers' places are worked out anew from it, and each keeps its own ±.",
            Filled::AsSet => "The unit is drawn with another knife, its edge moved or metal off: what was read here goes under 2 As wanted, where no ± counts.",
            Filled::NoSuchPose => "The unit cannot stand as it was read here: there is no such pose with what was measured before. What was read goes under 2 As wanted, where no ± counts, and the window says there what is in its way. Look for a slip: compare reel, height of cut and attitude with 1 As measured before you fill in.",
            Filled::RollersGiven => "The unit is set by its rollers: height of cut and attitude follow from them and are left as they are.",
        });
        ui.add_space(10.0);
        let (is_filled, is_closed) = ui
            .horizontal(|ui| {
                let fill = egui::Button::new("Fill in");
                let fill = ui.add_enabled(!fields.is_empty(), fill).clicked();
                (fill, ui.button("Close").clicked())
            })
            .inner;
        if is_filled {
            let change = fields.iter().fold(
                Change::new("Filled in from the plate sheet"),
                |change, field| change.and(Part::Field(*field)),
            );
            desk.edit(change, |document| {
                self.result.fill(document);
            });
            desk.tell("Filled in from the plate sheet.");
        }
        if is_filled || is_closed {
            Next::Close
        } else {
            Next::Stay
        }
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}
