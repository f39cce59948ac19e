//! The drawing of the paths: its tools, looking around in it, and painting it.

use egui::{ComboBox, Sense, Ui, WidgetInfo};
use kurbo::Rect;

use super::worked_out::WorkedOut;
use crate::analysis::{Solved, SolvedId};
use crate::app::areas::not_current::not_current_ui;
use crate::app::desk::Desk;
use crate::app::widgets::list::list_ui;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::paper;
use crate::app::widgets::viewer::Viewer;
use crate::drawing::{PathCanvas, PathDrawing, Role, STRETCHES, Style, Theme};
use crate::units::System;

/// How the drawing is looked at.
#[derive(Debug)]
pub struct PathView {
    /// The close-up; the path beside it stands still.
    viewer: Viewer<Key>,
    stretch: f64,
    has_whole: bool,
}

impl Default for PathView {
    fn default() -> Self {
        Self {
            viewer: Viewer::default(),
            stretch: 1.0,
            has_whole: true,
        }
    }
}

/// What a painted drawing depends on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    solved: SolvedId,
    canvas: PathCanvas,
    paper: Rect,
    theme: Theme,
    system: System,
}

impl PathView {
    pub fn tools_ui(&mut self, ui: &mut Ui) {
        let drawing = self;
        ui.horizontal_wrapped(|ui| {
            drawing.viewer.buttons_ui(ui, "the clips beside the knife");
            ui.separator();
            let named = |s: f64| {
                if s > 1.0 {
                    format!("upwards ×{s}")
                } else {
                    "true shape".to_owned()
                }
            };
            let before = drawing.stretch;
            let stretches = ComboBox::from_id_salt("path stretch")
                .width(96.0)
                .selected_text(named(before));
            list_ui(ui, stretches, |ui, list| {
                list.values(ui, &STRETCHES, &mut drawing.stretch, named);
            })
            .accessible_name("Stretch upwards")
            .on_hover_text("A sweep of a few thousandths shows only when it is stretched");
            #[expect(clippy::float_cmp, reason = "one of a few fixed numbers")]
            if drawing.stretch != before {
                drawing.viewer.fit();
            }
            ui.separator();
            ui.checkbox(&mut drawing.has_whole, "Two turns of a blade")
                .on_hover_text(
                    "The path of one blade over two turns of the reel, beside the close-up",
                );
        });
    }

    pub fn drawing_ui(&mut self, ui: &mut Ui, desk: &Desk, good: &Solved, worked_out: &WorkedOut) {
        let theme = theme(ui.ctx());
        let system = desk.system();
        let (response, painter) = ui.allocate_painter(ui.available_size(), Sense::click_and_drag());
        response.widget_info(|| {
            WidgetInfo::labeled(
                egui::Role::Image,
                true,
                "Paths of the blades over the ground",
            )
        });
        painter.rect_filled(response.rect, 6.0, colour(theme.look(Role::Paper).fill));
        let path_drawing = PathDrawing {
            case: good.case(),
            findings: &good.findings,
            examples: good.document.example_count(),
            kinematics: &worked_out.kinematics,
            system,
        };
        let place = paper(response.rect);
        let mut canvas = PathCanvas::fitting(&path_drawing, place, self.has_whole, self.stretch);
        canvas.close = self.viewer.view(canvas.close);
        let key = Key {
            solved: good.id,
            canvas,
            paper: place,
            theme,
            system,
        };
        self.viewer.paint(&painter, canvas.close, key, || {
            canvas.panels(&path_drawing.scene(), Style::filling(theme, place.size()))
        });
        if let Some(why) = desk.why_not_current() {
            not_current_ui(ui, response.rect, theme, &why);
            return;
        }
        let window = canvas.close.window;
        self.viewer
            .look_around(ui, &response, |at| window.contains(at));
    }
}
