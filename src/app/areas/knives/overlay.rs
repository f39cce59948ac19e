//! Knives drawn over each other: the lens that shows them under the table.

use egui::{Rect, Sense, Ui, Vec2, WidgetInfo};

use super::room::PictureRoom;
use crate::analysis::SolvedId;
use crate::app::desk::{Desk, Overlaid, Ticked};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::theme;
use crate::app::widgets::paint::{Painted, paper};
use crate::drawing::{Hold, Lens, LensChoice, SideView, Theme};
use crate::units::System;

/// How knives can be drawn over each other.
const HOLDS: [(Hold, &str, &str); 2] = [
    (
        Hold::Edge,
        "edge on edge",
        "Every edge in the same place: what each knife does at the clip point",
    ),
    (
        Hold::Screws,
        "bar on bar",
        "Every knife screwed to the same bar: how far each one reaches",
    ),
];

/// What the painted lens depends on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    solved: SolvedId,
    ticked: Ticked,
    place: Rect,
    theme: Theme,
    system: System,
    hold: Hold,
    pixels_per_point: f32,
}

/// The lens beside the table, painted when something it shows changed and at no other time.
#[derive(Debug, Default)]
pub struct OverlayLens {
    /// What of every knife stands in the same place.
    hold: Hold,
    painted: Kept<Key, Painted>,
}

impl OverlayLens {
    /// The lens with the ticked knives over the one that is fitted.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, room: PictureRoom) {
        const HEIGHT: f32 = 430.0;
        if !room.is_pane() {
            ui.label(Lettering::Heading.of("Drawn over each other"));
        }
        let told = if desk.ticked().is_empty() {
            "Tick \"overlay\" for up to four knives: they are drawn over the one that is fitted, edge on edge, here and in the drawing and lens of the Unit area."
        } else {
            "The ticked knives at the clip point, over the one that is fitted; edge on edge also in the drawing and lens of the Unit area."
        };
        ui.label(told);
        let Some(good) = desk.good() else {
            return;
        };
        if desk.ticked().is_empty() {
            return;
        }
        ui.horizontal_wrapped(|ui| {
            ui.label("Drawn");
            for (hold, name, meaning) in HOLDS {
                ui.selectable_value(&mut self.hold, hold, name)
                    .on_hover_text(meaning);
            }
        });
        let high = room.height(ui, HEIGHT, 6.0);
        let size = Vec2::new(ui.available_width().min(900.0), high);
        let (response, painter) = ui.allocate_painter(size, Sense::hover());
        response.widget_info(|| {
            WidgetInfo::labeled(
                egui::Role::Image,
                true,
                "Lens with knives drawn over each other",
            )
        });
        let theme = theme(ui.ctx());
        let (system, hold) = (desk.system(), self.hold);
        let key = Key {
            solved: good.id,
            ticked: desk.ticked().clone(),
            place: response.rect,
            theme,
            system,
            hold,
            pixels_per_point: ui.pixels_per_point(),
        };
        let lens = self.painted.get(key, |_| {
            let overlaid = desk.overlaid();
            let scene = SideView {
                uncertainty: None,
                ghost: None,
                overlays: &Overlaid::all_on(&overlaid, good),
                hold,
                system,
                ..SideView::of(good)
            }
            .scene();
            let window = paper(response.rect);
            let lens = Lens::on(&good.solution, LensChoice::default(), window, system);
            Painted::from_panel(&lens.panel(&scene, theme))
        });
        lens.paint(&painter);
    }
}
