//! What stands beside a row while the pointer rests on it: the unit from the side, and what is told of it.

use egui::{Sense, Ui, Vec2};

use crate::analysis::SolvedId;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::Painted;
use crate::command::BoardUnit;
use crate::drawing::{Canvas, Role, SideView, Style, Theme, View, verdict};
use crate::plate::Day;
use crate::units::System;

/// How large the side view is.
const SIZE: Vec2 = Vec2::new(500.0, 290.0);

/// The side view that was shown last.
#[derive(Default)]
pub struct Hover {
    painted: Kept<(SolvedId, Theme, System), Vec<Painted>>,
}

impl Hover {
    /// Shows a unit; `disagreement` says how its set does not agree.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        unit: &BoardUnit,
        disagreement: Option<&str>,
        system: System,
    ) {
        let (solved, theme) = (&unit.solved, theme(ui.ctx()));
        ui.set_max_width(SIZE.x);
        ui.label(Lettering::Name.of(&unit.row.name));
        let (_, told) = verdict(&solved.findings, solved.document.example_count());
        ui.label(told);
        if let Some(disagreement) = disagreement {
            ui.label(disagreement);
        }
        if let Some(due) = unit.row.due {
            let between = due.when.between().map_or_else(String::new, |(from, to)| {
                format!(" (19 of 20 between {from} and {to})")
            });
            let (when, limit) = (due.told(), due.limit.name());
            let overdue = if due.when.is_overdue(Day::today()) {
                ". Overdue."
            } else {
                ""
            };
            ui.label(format!("Next due {when}{between}: {limit}{overdue}"));
        }
        let (place, _) = ui.allocate_exact_size(SIZE, Sense::hover());
        let painted = self.painted.get((solved.id, theme, system), |_| {
            let paper = kurbo::Size::new(f64::from(SIZE.x), f64::from(SIZE.y));
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
