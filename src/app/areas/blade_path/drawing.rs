//! The drawing of the paths: its tools, looking around in it, and painting it.

use egui::{ComboBox, Sense, Ui, WidgetInfo};
use kurbo::{Rect, Vec2};

use super::worked_out::WorkedOut;
use crate::analysis::{Solved, SolvedId};
use crate::app::areas::not_current::not_current_ui;
use crate::app::desk::Desk;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper, point};
use crate::drawing::{PathCanvas, PathDrawing, Role, STRETCHES, Theme, View};
use crate::units::System;

/// How the drawing is looked at.
#[derive(Debug)]
pub struct PathView {
    /// A close-up of one's own; fitted when nothing was chosen.
    close: Option<View>,
    stretch: f64,
    has_whole: bool,
    /// The close-up shown last.
    shown: Option<View>,
    painted: Kept<Key, Vec<Painted>>,
}

impl Default for PathView {
    fn default() -> Self {
        Self {
            close: None,
            stretch: 1.0,
            has_whole: true,
            shown: None,
            painted: Kept::default(),
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
            if ui
                .button("Fit")
                .on_hover_text("Show the clips beside the knife (double-click the drawing)")
                .clicked()
            {
                drawing.close = None;
            }
            for (name, factor) in [("Smaller", 0.8), ("Larger", 1.25)] {
                if ui
                    .button(name)
                    .on_hover_text("Or turn the wheel over the drawing")
                    .clicked()
                    && let Some(close) = drawing.shown
                {
                    drawing.close = Some(close.zoomed(factor, close.window.center()));
                }
            }
            ui.separator();
            let named = |s: f64| {
                if s > 1.0 {
                    format!("upwards ×{s}")
                } else {
                    "true shape".to_owned()
                }
            };
            let before = drawing.stretch;
            ComboBox::from_id_salt("path stretch")
                .width(96.0)
                .selected_text(named(before))
                .show_ui(ui, |ui| {
                    for s in STRETCHES {
                        ui.selectable_value(&mut drawing.stretch, s, named(s));
                    }
                })
                .response
                .accessible_name("Stretch upwards")
                .on_hover_text("A sweep of a few thousandths shows only when it is stretched");
            #[allow(clippy::float_cmp)] // one of a few fixed numbers
            if drawing.stretch != before {
                drawing.close = None;
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
            kinematics: &worked_out.kinematics,
            system,
        };
        let drawing = self;
        let place = paper(response.rect);
        let mut canvas =
            PathCanvas::fitting(&path_drawing, place, drawing.has_whole, drawing.stretch);
        if let Some(view) = drawing.close {
            let window = canvas.close.window;
            canvas.close = View { window, ..view };
        }
        let key = Key {
            solved: good.id,
            canvas,
            paper: place,
            theme,
            system,
        };
        drawing.shown = Some(canvas.close);
        let panels = drawing.painted.get(key, |_| {
            let panels = canvas.panels(&path_drawing.scene(), theme);
            panels.iter().map(Painted::from_panel).collect()
        });
        for panel in panels {
            panel.paint(&painter);
        }
        if let Some(why) = desk.why_not_current() {
            not_current_ui(ui, response.rect, theme, &why);
            return;
        }
        drawing.look_around(ui, &response, &canvas);
    }

    /// Pan, zoom at the pointer, fit.
    fn look_around(&mut self, ui: &Ui, response: &egui::Response, canvas: &PathCanvas) {
        let close = canvas.close;
        let drawing = self;
        if response.double_clicked() {
            drawing.close = None;
        } else if response.dragged() {
            let by = response.drag_delta();
            drawing.close = Some(close.dragged(Vec2::new(f64::from(by.x), f64::from(by.y))));
        }
        let Some(pointer) = response.hover_pos() else {
            return;
        };
        let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta.y, input.zoom_delta()));
        let factor = f64::from((scroll / 240.0).exp() * pinch);
        if (factor - 1.0).abs() > 1e-6 && close.window.contains(point(pointer)) {
            drawing.close = Some(close.zoomed(factor, point(pointer)));
        }
    }
}
