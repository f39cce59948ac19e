//! The parts of the form: headings, and what is folded until it is wanted. Its head says when
//! something in it is wrong or still an example.

use egui::{Align, CollapsingHeader, Layout, RichText, Sense, Ui, UiBuilder, Vec2};

use super::field::Fields;
use crate::analysis::Level;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::symbol::symbol;
use crate::unit::{Document, Field};

/// A heading, and what the readings under it are for.
pub fn heading_ui(ui: &mut Ui, name: &str, purpose: &str) {
    let purpose_ui = |ui: &mut Ui| {
        ui.label(Lettering::FinePrint.of(purpose).weak());
    };
    heading_between(ui, name, |_| (), purpose_ui);
}

/// A heading with something right after it, and something at the end of its line.
pub fn heading_between(
    ui: &mut Ui,
    name: &str,
    after: impl FnOnce(&mut Ui),
    end: impl FnOnce(&mut Ui),
) {
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 18.0;
        // The narrowest form has room for all of it so.
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.label(Lettering::Body.of(name).family(strong()));
        after(ui);
        ui.with_layout(Layout::right_to_left(Align::Center), end);
    });
}

/// What stands in some fields that a person should know before they unfold them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Standing {
    wrong: usize,
    examples: usize,
}

impl Standing {
    /// Of the fields that are asked about.
    pub fn of(fields: &Fields, document: &Document, is_in: impl Fn(Field) -> bool) -> Self {
        let asked = Field::all(document).filter(|field| is_in(*field));
        asked.fold(Self::default(), |count, field| Self {
            wrong: count.wrong + usize::from(fields.problem(field).is_some()),
            examples: count.examples + usize::from(field.is_example(document)),
        })
    }

    /// The level of its symbol and the words beside it; none where all is well.
    pub fn told(self) -> Option<(Level, String)> {
        let Self { wrong, examples } = self;
        match (wrong, examples) {
            (0, 0) => None,
            (0, 1) => Some((Level::Watch, "1 still an example".to_owned())),
            (0, _) => Some((Level::Watch, format!("{examples} still examples"))),
            _ => Some((Level::Over, format!("{wrong} wrong"))),
        }
    }
}

/// A folded part; `is_in` says which fields stand in it.
pub fn section_ui(
    ui: &mut Ui,
    (fields, document): (&mut Fields, &mut Document),
    name: &str,
    is_in: impl Fn(Field) -> bool,
    body: impl FnOnce(&mut Ui, &mut Fields, &mut Document),
) {
    let told = Standing::of(fields, document, is_in).told();
    let width = ui.available_width();
    let header = CollapsingHeader::new(RichText::new(name).family(strong()))
        .id_salt(name)
        .show_unindented(ui, |ui| {
            body(ui, fields, document);
            ui.add_space(6.0);
        });
    let (Some((level, text)), true) = (told, header.fully_closed()) else {
        return;
    };
    let mut place = header.header_response.rect;
    place.set_width(width);
    let mut end = ui.new_child(
        UiBuilder::new()
            .max_rect(place)
            .layout(Layout::right_to_left(Align::Center)),
    );
    end.label(Lettering::FinePrint.of(text));
    let (place, _) = end.allocate_exact_size(Vec2::splat(14.0), Sense::hover());
    symbol(&end, place, level, fields.theme);
}
