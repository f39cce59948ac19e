//! Strips of a slide and words on them.

use egui::{Color32, FontId, Label, Pos2, Rect, RichText, TextWrapMode, Ui, UiBuilder};

/// Where the pointer is.
pub(super) fn pointer(ui: &Ui) -> Option<Pos2> {
    ui.input(|input| input.pointer.latest_pos())
}

/// Takes so much off the foot of a rectangle.
pub(super) fn cut_foot(left: &mut Rect, high: f32) -> Rect {
    let place = Rect::from_min_max(egui::pos2(left.min.x, left.max.y - high), left.max);
    left.max.y -= high;
    place
}

/// How wide words are in one line.
pub(super) fn width_of(ui: &Ui, text: &str, font: FontId, ink: Color32) -> f32 {
    let galley = ui.painter().layout_no_wrap(text.to_owned(), font, ink);
    galley.size().x
}

/// Words in one line.
pub(super) fn words(ui: &mut Ui, place: Rect, text: RichText) {
    let mut line = ui.new_child(UiBuilder::new().max_rect(place));
    line.style_mut().wrap_mode = Some(TextWrapMode::Truncate);
    line.add(Label::new(text));
}

/// The first of some words, from the longest to the shortest, that fit into a line.
pub(super) fn fine_line(ui: &mut Ui, place: Rect, forms: &[&str], (font, ink): (&FontId, Color32)) {
    let fits = |told: &&&str| width_of(ui, told, font.clone(), ink) <= place.width();
    let told = forms.iter().find(fits).or(forms.last());
    if let Some(told) = told {
        words(
            ui,
            place,
            RichText::new(*told).font(font.clone()).color(ink),
        );
    }
}
