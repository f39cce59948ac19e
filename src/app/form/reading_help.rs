//! What the reading in hand is and how it is measured: always in view, so that nobody has to rest the
//! pointer on a name.

use egui::style::ScrollStyle;
use egui::{Label, ScrollArea, Sense, Ui, Vec2};

use super::field::Fields;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::colour;
use crate::app::widgets::paint::{Painted, paper};
use crate::drawing::{Role, ShownIn, View, lay_out, measured_picture};
use crate::unit::{Document, Field, Words};

/// Height of the help.
pub const HEIGHT: f32 = 116.0;
const PICTURE: Vec2 = Vec2::new(140.0, 96.0);

/// A field's picture, what it means and how it is measured.
pub fn reading_help_ui(ui: &mut Ui, field: Field, document: &Document, fields: &Fields) {
    let theme = fields.theme;
    let number = field.shown_in(document, fields.system).unwrap_or_default();
    let number = number
        .split('±')
        .next()
        .unwrap_or_default()
        .trim()
        .to_owned();
    ui.horizontal_top(|ui| {
        if let Some(scene) = measured_picture(field, number) {
            let (place, _) = ui.allocate_exact_size(PICTURE, Sense::hover());
            let view = View::fitting(scene.bounds, paper(place));
            let panel = lay_out(&scene, &view, ShownIn::Whole, theme);
            let ground = colour(theme.look(Role::Paper).fill);
            ui.painter().rect_filled(place, 4.0, ground);
            Painted::from_panel(&panel).paint(ui.painter());
        }
        let Words {
            name,
            meaning,
            measured,
        } = field.words();
        // A bar that is always seen tells that there is more to read.
        ui.spacing_mut().scroll = ScrollStyle::solid();
        ScrollArea::vertical()
            .id_salt(("help", field.to_string()))
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.vertical(|ui| {
                    ui.spacing_mut().item_spacing.y = 2.0;
                    ui.add(Label::new(Lettering::Note.of(name).family(strong())).wrap());
                    for text in [measured, meaning] {
                        if !text.is_empty() {
                            ui.add(Label::new(Lettering::Label.of(text)).wrap());
                        }
                    }
                });
            });
    });
}
