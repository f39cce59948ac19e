//! Help at hand: what a field or a number means.

use egui::{Response, RichText, Ui};

use crate::app::widgets::lettering::Lettering;
use crate::unit::{Field, Words};

/// A field's name, what it means and how it is measured.
pub fn help_ui(ui: &mut Ui, field: Field) {
    let Words {
        name,
        meaning,
        measured,
    } = field.words();
    ui.label(Lettering::Name.of(name));
    ui.label(meaning);
    if !measured.is_empty() {
        ui.add_space(4.0);
        ui.label(RichText::new(measured).weak());
    }
}

/// Shows what a field means and how it is measured while the pointer rests on it.
pub fn explain(response: Response, field: Field) -> Response {
    response.on_hover_ui(|ui| help_ui(ui, field))
}
