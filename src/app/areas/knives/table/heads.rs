//! The heads of the table's columns, which sort it.

use egui::{Align, Layout, RichText, Sense, Ui, Vec2};

use super::cells::{GAP, Widths};
use super::sort::{Column, Sorted};
use crate::app::widgets::lettering::strong;
use crate::app::widgets::look::{colour, theme};
use crate::drawing::Role;
use crate::units::System;

/// One button a column; a click on it sorts.
pub fn heads_ui(ui: &mut Ui, system: System, order: &mut Option<Sorted>) {
    let theme = theme(ui.ctx());
    let sorted = *order;
    let widths = Widths(system);
    let mut clicked = None;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        ui.add_space(10.0);
        let size = Vec2::new(Widths::OVERLAY, 24.0);
        ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(Widths::OVERLAY);
            ui.label(RichText::new("overlay").family(strong()));
        });
        for column in Column::ALL {
            let is_sorted = sorted.filter(|sorted| sorted.by == column);
            let size = Vec2::new(widths.of(column), 24.0);
            ui.allocate_ui_with_layout(size, Widths::head_layout(column), |ui| {
                ui.set_min_width(size.x);
                let text = RichText::new(column.head()).family(strong());
                let button = ui
                    .add(egui::Button::new(text).frame(false))
                    .accessible_name(format!("Sort by {}", column.head()));
                let [first, second] = column.orders();
                let response = button.on_hover_text(format!(
                    "{}\nClick to sort: {first}; then {second}; then as listed.",
                    column.meaning()
                ));
                if response.clicked() {
                    clicked = Some(column);
                }
                if let Some(sorted) = is_sorted {
                    let ink = colour(theme.look(Role::CutLine).ink);
                    order_mark(ui, sorted.is_reversed, ink);
                }
            });
        }
    });
    if let Some(column) = clicked {
        *order = Sorted::after_click(sorted, column);
    }
}

/// A triangle beside the head of the column that the table is sorted by.
fn order_mark(ui: &mut Ui, is_reversed: bool, ink: egui::Color32) {
    let (rect, _) = ui.allocate_exact_size(Vec2::splat(9.0), Sense::hover());
    let (foot, tip) = if is_reversed {
        (rect.top(), rect.bottom())
    } else {
        (rect.bottom(), rect.top())
    };
    let corners = vec![
        egui::pos2(rect.left(), foot),
        egui::pos2(rect.center().x, tip),
        egui::pos2(rect.right(), foot),
    ];
    ui.painter().add(egui::Shape::convex_polygon(
        corners,
        ink,
        egui::Stroke::NONE,
    ));
}
