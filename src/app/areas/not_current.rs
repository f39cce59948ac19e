//! What an area shows while the document has no solution.

use egui::{Frame, Label, Rect, Sense, Stroke, Ui, UiBuilder, Vec2, vec2};

use crate::analysis::Level;
use crate::app::desk::Desk;
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::symbol::symbol;
use crate::drawing::{Role, Theme};

/// A document that never had a solution: there is no drawing, only the reason.
pub fn nothing_drawn_ui(ui: &mut Ui, desk: &Desk) {
    ui.vertical_centered(|ui| {
        ui.add_space(80.0);
        let (place, _) = ui.allocate_exact_size(Vec2::splat(40.0), Sense::hover());
        symbol(ui, place, Level::Over, theme(ui.ctx()));
        ui.heading("Cannot be drawn yet");
        if let Some(why) = desk.why_not_current() {
            ui.label(why);
        }
        ui.add_space(16.0);
        caution_in_short_ui(ui);
    });
}

/// Marks the last good drawing as not current, with the reason.
pub fn not_current_ui(ui: &mut Ui, place: Rect, theme: Theme, why: &str) {
    let veil = colour(theme.look(Role::Paper).fill).gamma_multiply(0.62);
    ui.painter().rect_filled(place, 6.0, veil);
    let banner = Rect::from_min_size(place.min, vec2(place.width(), 76.0)).shrink(10.0);
    let builder = UiBuilder::new().max_rect(banner);
    ui.scope_builder(builder, |ui| {
        let ink = colour(theme.level(Level::Over));
        Frame::popup(ui.style())
            .stroke(Stroke::new(2.0, ink))
            .show(ui, |ui| {
                ui.horizontal(|ui| {
                    let (place, _) = ui.allocate_exact_size(Vec2::splat(24.0), Sense::hover());
                    symbol(ui, place, Level::Over, theme);
                    ui.label(Lettering::Heading.of("Not current"));
                    ui.add(Label::new(why).wrap());
                });
            });
    });
}
