//! The heads of the table's columns, which sort it.

use egui::{Align, Layout, Rect, Response, RichText, Sense, Ui, Vec2};

use super::held::Held;
use super::sort::{Column, Sorted};
use super::widths::{GAP, Widths};
use crate::app::widgets::lettering::strong;
use crate::app::widgets::look::{colour, theme};
use crate::drawing::Role;
use crate::units::System;

/// One button a column; a click on it sorts. Where one that moves with the table has just got the
/// keys, where it stands.
pub fn heads_ui(
    ui: &mut Ui,
    held: &Held,
    system: System,
    order: &mut Option<Sorted>,
) -> Option<Rect> {
    let heads = Heads {
        sorted: *order,
        widths: Widths(system),
    };
    let (first, rest) = held.columns();
    let (mut clicked, mut clicked_further, mut reached) = (None, None, None);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        ui.add_space(10.0);
        held.show(
            ui,
            |ui| {
                let size = Vec2::new(Widths::OVERLAY, HEIGHT);
                ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
                    ui.set_min_width(Widths::OVERLAY);
                    ui.label(RichText::new("overlay").family(strong()));
                });
                let mut show = |ui: &mut Ui, head_ui: fn(&Heads, &mut Ui, Column) -> Response| {
                    for column in first {
                        let is_clicked = head_ui(&heads, ui, *column).clicked();
                        clicked = is_clicked.then_some(*column).or(clicked);
                    }
                };
                if held.is_stacked() {
                    // No column stands under any of them.
                    let size = Vec2::new(Widths::STACKED, HEIGHT);
                    let layout = Layout::left_to_right(Align::Center).with_main_wrap(true);
                    ui.allocate_ui_with_layout(size, layout, |ui| {
                        ui.set_width(size.x);
                        ui.spacing_mut().item_spacing.x = 12.0;
                        ui.label(RichText::new("sort by").weak());
                        show(ui, Heads::button_ui);
                    });
                } else {
                    show(ui, Heads::show);
                }
            },
            |ui| {
                for column in rest {
                    let response = heads.show(ui, *column);
                    clicked_further = response.clicked().then_some(*column).or(clicked_further);
                    if response.gained_focus() {
                        reached = Some(response.rect);
                    }
                }
            },
        );
    });
    if let Some(column) = clicked.or(clicked_further) {
        *order = Sorted::after_click(heads.sorted, column);
    }
    reached
}

/// Height of the heads.
const HEIGHT: f32 = 24.0;

/// What every head is shown with.
struct Heads {
    sorted: Option<Sorted>,
    widths: Widths,
}

impl Heads {
    /// The head of a column, as wide as the column.
    fn show(&self, ui: &mut Ui, column: Column) -> Response {
        let size = Vec2::new(self.widths.of(column), HEIGHT);
        ui.allocate_ui_with_layout(size, Widths::head_layout(column), |ui| {
            ui.set_min_width(size.x);
            self.button_ui(ui, column)
        })
        .inner
    }

    fn button_ui(&self, ui: &mut Ui, column: Column) -> Response {
        let text = RichText::new(column.head()).family(strong());
        let button = ui
            .add(egui::Button::new(text).frame(false))
            .accessible_name(format!("Sort by {}", column.head()));
        let [first, second] = column.orders();
        let response = button.on_hover_text(format!(
            "{}\nClick to sort: {first}; then {second}; then as listed.",
            column.meaning()
        ));
        if let Some(sorted) = self.sorted.filter(|sorted| sorted.by == column) {
            let ink = colour(theme(ui.ctx()).look(Role::CutLine).ink);
            order_mark(ui, sorted.is_reversed, ink);
        }
        response
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
