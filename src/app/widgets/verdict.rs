//! The line that tells what a unit comes to.

use egui::{FontId, Label, RichText, Sense, Ui, Vec2};

use super::lettering::Lettering;
use super::symbol::symbol;
use crate::analysis::Level;
use crate::drawing::Theme;

/// A verdict with the symbol of its level; a screen reader is told what it is, its words and its level.
pub fn verdict_ui(ui: &mut Ui, (level, text): (Level, &str), lettering: Lettering, theme: Theme) {
    let side = 1.4 * lettering.font().size;
    ui.horizontal(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(side), Sense::hover());
        symbol(ui, place, level, theme);
        let font = fitting_font(ui, text, lettering.font());
        let label = ui.add(Label::new(RichText::new(text).font(font)).wrap());
        ui.ctx().accesskit_node_builder(label.id, |node| {
            node.set_label("Verdict");
            node.set_value(text);
            node.set_description(level.word());
        });
    });
}

/// A font in which a line fits into the room there is, down to two thirds of its size.
fn fitting_font(ui: &Ui, text: &str, font: FontId) -> FontId {
    let ink = ui.visuals().text_color();
    let line = ui
        .painter()
        .layout_no_wrap(text.to_owned(), font.clone(), ink);
    let part = (ui.available_width() / line.size().x.max(1.0)).clamp(2.0 / 3.0, 1.0);
    FontId::new(font.size * part, font.family)
}
