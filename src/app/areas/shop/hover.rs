//! What stands beside a row while the pointer rests on it: the unit from the side, and what is told of it.

use egui::{PopupAnchor, Rect, RectAlign, Response, Sense, Tooltip, Ui, Vec2};

use super::set_amounts::disagreement;
use super::shown::Shown;
use crate::analysis::{SolvedId, due_told};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::Painted;
use crate::command::BoardUnit;
use crate::drawing::{Canvas, Role, SideView, Style, Theme, View, verdict};
use crate::plate::Day;
use crate::units::System;

/// How large the side view is where there is room.
const SIZE: Vec2 = Vec2::new(500.0, 290.0);
/// Room for the card's frame and what it keeps off the window's edge.
const AROUND: f32 = 26.0;
/// The least width of the side view.
const LEAST: f32 = 240.0;
/// What the card keeps off the names.
const OFF: f32 = 8.0;

/// The side view that was shown last.
#[derive(Default)]
pub struct Hover {
    painted: Kept<(SolvedId, Theme, System, u32), Vec<Painted>>,
}

impl Hover {
    /// Shows a unit while the pointer rests on its row: under the row or over it, in the right half of the
    /// window, so that no name is covered.
    pub fn show(&mut self, row: &Response, name: &Response, unit: &BoardUnit, shown: &Shown) {
        let mut tip = Tooltip::for_enabled(row);
        if !tip.popup.is_open() {
            return;
        }
        let window = row.ctx.content_rect();
        let left = window.center().x.max(name.rect.right() + OFF);
        let left = left.min(window.right() - LEAST - AROUND);
        let size = SIZE * ((window.right() - left - AROUND) / SIZE.x).min(1.0);
        let beside = Rect::from_x_y_ranges(left..=window.right(), row.rect.y_range());
        let anchor = PopupAnchor::ParentRect(beside);
        tip.popup = tip.popup.anchor(anchor).align(RectAlign::BOTTOM_START);
        tip.popup = tip.popup.align_alternatives(&[RectAlign::TOP_START]);
        tip.width(size.x)
            .show(|ui| self.card_ui(ui, unit, shown, size));
    }

    fn card_ui(&mut self, ui: &mut Ui, unit: &BoardUnit, shown: &Shown, size: Vec2) {
        let (solved, theme, system) = (&unit.solved, theme(ui.ctx()), shown.system);
        ui.set_max_width(size.x);
        ui.label(Lettering::Name.of(&unit.row.name));
        let (_, told) = verdict(&solved.findings, solved.document.example_count());
        ui.label(told);
        let set = unit.row.set.as_deref().and_then(|set| shown.sets.get(set));
        if let Some(told) = set.and_then(|set| disagreement(set, system, shown.name_of)) {
            ui.label(told);
        }
        let between = unit.row.due.ok().and_then(|due| due.when.between());
        let between = between.map_or_else(String::new, |(from, to)| {
            format!(" Likely between {from} and {to} (95 %).")
        });
        ui.label(due_told(&unit.row.due, Day::today()) + &between);
        let (place, _) = ui.allocate_exact_size(size, Sense::hover());
        let key = (solved.id, theme, system, size.x.to_bits());
        let painted = self.painted.get(key, |_| {
            let paper = kurbo::Size::new(f64::from(size.x), f64::from(size.y));
            let view = SideView {
                system,
                ..SideView::of(solved)
            };
            let scene = view.scene();
            let canvas = Canvas {
                whole: View::fitting(scene.bounds, paper.to_rect()),
                lens: None,
            };
            let panels = canvas.panels(&scene, Style::filling(theme, paper));
            panels.iter().map(Painted::from_panel).collect()
        });
        let paper = colour(theme.look(Role::Paper).fill);
        ui.painter().rect_filled(place, 4.0, paper);
        for panel in painted {
            panel.paint_moved(ui.painter(), place.min.to_vec2());
        }
        ui.label(Lettering::FinePrint.of(&unit.row.file).weak());
    }
}
