//! What was last told, over the bottom of the window.

use egui::{Context, Label, Sense, Stroke, Vec2};

use crate::analysis::Level;
use crate::app::desk::Desk;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::symbol::symbol;
use crate::drawing::Role;

/// What was last told, over the bottom of the window, so that nothing moves under the hand.
pub fn notice_ui(ctx: &Context, desk: &mut Desk) {
    let Some(notice) = desk.notice() else {
        return;
    };
    let theme = theme(ctx);
    let ink = if notice.is_problem {
        colour(theme.level(Level::Over))
    } else {
        colour(theme.look(Role::CutLine).ink)
    };
    let area = egui::Area::new(egui::Id::unique("notice"))
        .anchor(egui::Align2::CENTER_BOTTOM, egui::vec2(0.0, -14.0))
        .order(egui::Order::Foreground);
    area.show(ctx, |ui| {
        let frame = egui::Frame::popup(ui.style());
        frame
            .stroke(Stroke::new(2.0, ink))
            .inner_margin(10.0)
            .show(ui, |ui| {
                ui.set_max_width(720.0);
                ui.horizontal(|ui| {
                    if notice.is_problem {
                        let size = Vec2::splat(16.0);
                        let (place, _) = ui.allocate_exact_size(size, Sense::hover());
                        symbol(ui, place, Level::Over, theme);
                    }
                    if ui.small_button("Put away").clicked() {
                        desk.put_notice_away();
                    }
                    ui.add(Label::new(notice.text).wrap());
                });
            });
    });
}
