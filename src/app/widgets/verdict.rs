//! The line that tells what a unit comes to.

use egui::{Label, Sense, Ui, Vec2};

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
        let label = ui.add(Label::new(lettering.of(text)).truncate());
        ui.ctx().accesskit_node_builder(label.id, |node| {
            node.set_label("Verdict");
            node.set_value(text);
            node.set_description(level.word());
        });
    });
}
