//! The key of the life plots: one line a knife, the same in all three.

use egui::{RichText, Sense, Stroke, Ui, vec2};

use super::key::Key;
use crate::analysis::knives::SameLine;
use crate::app::areas::knives::inks::{ink, knife_ink, line_sample, paper};
use crate::drawing::Theme;

/// The line and the name of every knife, whose line is drawn for it, and what the other marks mean.
pub fn legend_ui(ui: &mut Ui, key: &Key, same: &[SameLine], theme: Theme) {
    ui.horizontal_wrapped(|ui| {
        let name_at = |place: usize| key.knives.get(place).map(|(name, _)| name.as_str());
        for (((name, _), &line), same) in key.knives.iter().zip(&key.lines).zip(same) {
            line_sample(ui, knife_ink(line, theme));
            ui.label(name);
            if let Some(told) = same.told(name_at) {
                ui.label(RichText::new(told).weak());
            }
            ui.add_space(8.0);
        }
        let (place, _) = ui.allocate_exact_size(vec2(12.0, 16.0), Sense::hover());
        ui.painter().circle(
            place.center(),
            4.0,
            paper(theme),
            Stroke::new(1.6, ink(theme)),
        );
        ui.label(RichText::new("goes past a limit").weak());
        let (place, _) = ui.allocate_exact_size(vec2(12.0, 16.0), Sense::hover());
        ui.painter().vline(
            place.center().x,
            place.y_range(),
            Stroke::new(1.4, ink(theme)),
        );
        ui.label(RichText::new("as set now").weak());
        if !key.unit.uncertain.is_empty() {
            let (place, _) = ui.allocate_exact_size(vec2(24.0, 12.0), Sense::hover());
            let tint = knife_ink(key.fitted_line(), theme)
                .colour
                .gamma_multiply(0.3);
            ui.painter().rect_filled(place, 0.0, tint);
            let text = "as far as the fitted knife can be off (±, 95 %)";
            ui.label(RichText::new(text).weak());
        }
    });
}
