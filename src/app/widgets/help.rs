//! Help at hand: what a field or a number means.

use egui::{RectAlign, Response, RichText, Tooltip, Ui};

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

/// Shows what a field means and how it is measured while the pointer rests on it, beside the form that
/// it stands in: no field is covered.
pub fn explain(ui: &Ui, response: Response, field: Field) -> Response {
    tell_beside(ui, &response, |ui| help_ui(ui, field));
    response
}

/// Tells something of a widget while the pointer rests on it, beside the part of the window that it
/// stands in, so that what stands under it can be seen. Where there is no room beside it, the toolkit
/// finds another place.
pub fn tell_beside(ui: &Ui, widget: &Response, tell: impl FnOnce(&mut Ui)) {
    let mut line = widget.rect;
    line.max.x = line.max.x.max(ui.clip_rect().right());
    let mut tooltip = Tooltip::for_enabled(widget);
    tooltip.popup = tooltip.popup.align(RectAlign::RIGHT_START).anchor(line);
    tooltip.show(tell);
}
