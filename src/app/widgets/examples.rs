//! Readings that are still examples, wherever a verdict rests on them.

use egui::{Label, Sense, Ui, Vec2};

use super::lettering::{Lettering, strong};
use super::look::theme;
use super::symbol::symbol;
use crate::analysis::Level;
use crate::unit::ExampleCount;

/// How many readings are still examples; none where every one is the unit's own.
pub fn still_examples_ui(ui: &mut Ui, count: ExampleCount) {
    let Some(told) = count.told() else {
        return;
    };
    let theme = theme(ui.ctx());
    ui.horizontal(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(16.0), Sense::hover());
        symbol(ui, place, Level::Watch, theme);
        let text = Lettering::Body.of(told).family(strong());
        ui.add(Label::new(text).truncate()).on_hover_text(
            "Type your own over each under 1 As measured, or keep it as yours there.",
        );
    });
}
