//! The canvas: verdict, drawing tools, and the drawing with its handles.

use egui::{ComboBox, RichText, Sense, Ui, WidgetInfo};
use kurbo::Vec2;

use super::App;
use super::field::symbol;
use super::knives::{Overlaid, Ticked};
use super::look::{colour, strong};
use super::paint::{Painted, paper, point};
use crate::analysis::{Level, Solution, Solved, SolvedId};
use crate::drawing::{
    Canvas, ENLARGEMENTS, Lens, LensChoice, Role, STRETCHES, SideView, Standing, Theme, View,
    verdict,
};
use crate::unit::{Document, ShapeEntry};
use crate::units::{Length, System};

/// How the drawing is looked at.
#[derive(Debug)]
pub(super) struct CanvasState {
    /// A view of one's own; the whole unit when nothing was chosen.
    view: Option<View>,
    has_lens: bool,
    lens: LensChoice,
    standing: Standing,
    has_ghost: bool,
    /// Without form and numbers around it.
    pub(super) is_alone: bool,
    painted: Option<(Key, Vec<Painted>)>,
}

/// What a painted drawing depends on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    solved: SolvedId,
    canvas: Canvas,
    theme: Theme,
    system: System,
    standing: Standing,
    has_ghost: bool,
    overlaid: Ticked,
}

impl CanvasState {
    /// The view a document is first shown in: on its ground where that is not a level plate.
    pub(super) fn for_document(document: &Document) -> Self {
        let is_plate = document.ground.shape == ShapeEntry::Level
            && document.ground.roller_sink.value() == Length::ZERO;
        Self {
            view: None,
            has_lens: true,
            lens: LensChoice::default(),
            standing: if is_plate {
                Standing::Plate
            } else {
                Standing::Turf
            },
            has_ghost: true,
            is_alone: false,
            painted: None,
        }
    }
}

impl App {
    /// Verdict, tools and drawing.
    pub(super) fn canvas_ui(&mut self, ui: &mut Ui) {
        let theme = Self::theme(ui.ctx());
        let Some(good) = self.session.good().cloned() else {
            self.nothing_drawn_ui(ui, theme);
            return;
        };
        self.verdict_ui(ui, &good, theme);
        self.tools_ui(ui);
        self.drawing_ui(ui, &good, theme);
    }

    /// A document that never had a solution: there is no drawing, only the reason.
    pub(super) fn nothing_drawn_ui(&self, ui: &mut Ui, theme: Theme) {
        ui.vertical_centered(|ui| {
            ui.add_space(80.0);
            let (place, _) = ui.allocate_exact_size(egui::Vec2::splat(40.0), Sense::hover());
            symbol(ui, place, Level::Over, theme);
            ui.heading("Nothing can be drawn yet");
            if let Some(why) = self.why_not_current() {
                ui.label(why);
            }
        });
    }

    fn verdict_ui(&self, ui: &mut Ui, solved: &Solved, theme: Theme) {
        let is_current = self.why_not_current().is_none();
        let (level, text) = verdict(&solved.findings);
        ui.add_enabled_ui(is_current, |ui| {
            ui.horizontal(|ui| {
                let (place, _) = ui.allocate_exact_size(egui::Vec2::splat(30.0), Sense::hover());
                symbol(ui, place, level, theme);
                let text = RichText::new(text).family(strong()).size(21.0);
                ui.add(egui::Label::new(text).truncate());
            });
            let now = self.in_short(&solved.solution);
            ui.add(egui::Label::new(RichText::new(now).size(16.0)).truncate());
            // The line stands there always: the drawing must not move when a drag begins.
            let bench = solved.ghost().map_or_else(
                || "As on the bench".to_owned(),
                |ghost| format!("On the bench. {}", self.in_short(ghost.solution)),
            );
            ui.add(egui::Label::new(RichText::new(bench).weak().size(14.0)).truncate());
        });
    }

    /// A solution in one line: sweep, share, where the edge stands, and the height of cut.
    fn in_short(&self, solution: &Solution) -> String {
        let system = self.system();
        let below = solution.sweep.below_cut;
        let sweep = if below.mm() < 0.0 {
            format!("Reel {} above the cut line", system.length(-below))
        } else {
            let share = solution.sweep_share.map_or(String::new(), |share| {
                format!(", {} of the height of cut", system.share(share))
            });
            format!("Sweep {}{share}", system.length(below))
        };
        let behind = solution.sweep.behind_centre;
        let edge = if behind.mm() < 0.0 {
            format!("edge {} ahead of centre", system.length(-behind))
        } else {
            format!("edge {} behind centre", system.length(behind))
        };
        let height = system.length(solution.pose.height_of_cut);
        format!("{sweep}; {edge}; cut at {height}")
    }

    fn tools_ui(&mut self, ui: &mut Ui) {
        let canvas = &mut self.canvas;
        ui.horizontal_wrapped(|ui| {
            ui.toggle_value(&mut canvas.is_alone, "Drawing only")
                .on_hover_text("Hide form and numbers, to show the drawing to others");
            ui.separator();
            if ui
                .button("Fit")
                .on_hover_text("Show the whole unit (double-click the drawing)")
                .clicked()
            {
                canvas.view = None;
            }
            for (name, factor) in [("Smaller", 0.8), ("Larger", 1.25)] {
                if ui
                    .button(name)
                    .on_hover_text("Or turn the wheel over the drawing")
                    .clicked()
                    && let Some((key, _)) = &canvas.painted
                {
                    let whole = key.canvas.whole;
                    canvas.view = Some(whole.zoomed(factor, whole.window.center()));
                }
            }
            ui.separator();
            ui.selectable_value(&mut canvas.standing, Standing::Plate, "Plate");
            ui.selectable_value(&mut canvas.standing, Standing::Turf, "Turf");
            ui.selectable_value(&mut canvas.standing, Standing::Crest, "Crest")
                .on_hover_text("Standing on the crest of the form's Ground, or else on the tightest one that the whole unit crosses")
                // The form's ground offers a crest too.
                .accessible_name("On a crest");
            ui.separator();
            ui.checkbox(&mut canvas.has_ghost, "Bench ghost")
                .on_hover_text("The bench pose, dashed, behind the present setting");
            ui.separator();
            ui.checkbox(&mut canvas.has_lens, "Lens");
            ui.add_enabled_ui(canvas.has_lens, |ui| {
                let written = |e: f64| format!("{e}:1");
                let shown = canvas.lens.enlargement.map_or("fitted".to_owned(), written);
                ComboBox::from_id_salt("lens scale")
                    .width(70.0)
                    .selected_text(shown)
                    .show_ui(ui, |ui| {
                        ui.selectable_value(&mut canvas.lens.enlargement, None, "fitted");
                        for e in ENLARGEMENTS {
                            ui.selectable_value(&mut canvas.lens.enlargement, Some(e), written(e));
                        }
                    })
                    .response
                    .accessible_name("Lens scale");
                let named = |s: f64| {
                    if s > 1.0 {
                        format!("upwards ×{s}")
                    } else {
                        "true shape".to_owned()
                    }
                };
                ComboBox::from_id_salt("lens stretch")
                    .width(96.0)
                    .selected_text(named(canvas.lens.stretch))
                    .show_ui(ui, |ui| {
                        for s in STRETCHES {
                            ui.selectable_value(&mut canvas.lens.stretch, s, named(s));
                        }
                    })
                    .response
                    .accessible_name("Lens stretch");
            });
        });
    }

    fn drawing_ui(&mut self, ui: &mut Ui, solved: &Solved, theme: Theme) {
        let (response, painter) = ui.allocate_painter(ui.available_size(), Sense::click_and_drag());
        response
            .widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, "Side view of the unit"));
        painter.rect_filled(response.rect, 6.0, colour(theme.look(Role::Paper).fill));
        let system = self.system();
        let (whole, lens_window) = Canvas::split(paper(response.rect), self.canvas.has_lens);
        let side_view = SideView {
            ghost: solved.ghost().filter(|_| self.canvas.has_ghost),
            standing: self.canvas.standing,
            system,
            ..SideView::of(solved)
        };
        let fitted = View::fitting(side_view.bounds(), whole);
        let view = self.canvas.view.map_or(fitted, |view| View {
            window: whole,
            ..view
        });
        let lens =
            lens_window.map(|window| Lens::on(&solved.solution, self.canvas.lens, window, system));
        let canvas = Canvas { whole: view, lens };
        let key = Key {
            solved: solved.id,
            canvas,
            theme,
            system,
            standing: self.canvas.standing,
            has_ghost: self.canvas.has_ghost,
            overlaid: self.ticked().clone(),
        };
        let is_fresh = self
            .canvas
            .painted
            .as_ref()
            .is_some_and(|(painted, _)| *painted == key);
        if !is_fresh {
            let overlaid = self.overlaid(solved);
            let scene = SideView {
                overlays: &Overlaid::all_on(&overlaid, solved),
                ..side_view
            }
            .scene();
            let panels = canvas.panels(&scene, theme);
            let shapes = panels
                .iter()
                .map(|panel| Painted::from_panel(panel, theme))
                .collect();
            self.canvas.painted = Some((key, shapes));
        }
        if let Some((_, painted)) = &self.canvas.painted {
            for panel in painted {
                panel.paint(&painter);
            }
        }
        if let Some(why) = self.why_not_current() {
            not_current_ui(ui, response.rect, theme, &why);
            return;
        }
        self.look_around(ui, &response, &canvas);
        self.handles_ui(ui, solved, &view, theme);
    }

    /// Pan, zoom at the pointer, fit.
    fn look_around(&mut self, ui: &Ui, response: &egui::Response, canvas: &Canvas) {
        let whole = canvas.whole;
        if response.double_clicked() {
            self.canvas.view = None;
        } else if response.dragged() {
            let by = response.drag_delta();
            self.canvas.view = Some(whole.dragged(Vec2::new(f64::from(by.x), f64::from(by.y))));
        }
        let Some(pointer) = response.hover_pos() else {
            return;
        };
        let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta.y, input.zoom_delta()));
        let factor = f64::from((scroll / 240.0).exp() * pinch);
        if (factor - 1.0).abs() < 1e-6 {
            return;
        }
        let held = point(pointer);
        match canvas.lens {
            Some(lens) if lens.view.window.contains(held) => {
                // The lens steps through its written scales.
                let now = lens.enlargement();
                let next = if factor > 1.0 {
                    ENLARGEMENTS.into_iter().find(|&e| e > now)
                } else {
                    ENLARGEMENTS.into_iter().rev().find(|&e| e < now)
                };
                if ui.input(|input| input.events.iter().any(is_wheel)) {
                    self.canvas.lens.enlargement = next.or(Some(now));
                }
            }
            _ => self.canvas.view = Some(whole.zoomed(factor, held)),
        }
    }
}

/// Marks the last good drawing as not current, with the reason.
pub(super) fn not_current_ui(ui: &mut Ui, place: egui::Rect, theme: Theme, why: &str) {
    let veil = colour(theme.look(Role::Paper).fill).gamma_multiply(0.62);
    ui.painter().rect_filled(place, 6.0, veil);
    let banner = egui::Rect::from_min_size(place.min, egui::vec2(place.width(), 76.0)).shrink(10.0);
    let builder = egui::UiBuilder::new().max_rect(banner);
    ui.scope_builder(builder, |ui| {
        let ink = colour(theme.level(Level::Over));
        egui::Frame::popup(ui.style())
            .stroke(egui::Stroke::new(2.0, ink))
            .show(ui, |ui| {
                ui.horizontal(|ui| {
                    let (place, _) =
                        ui.allocate_exact_size(egui::Vec2::splat(24.0), Sense::hover());
                    symbol(ui, place, Level::Over, theme);
                    ui.label(RichText::new("Not current").family(strong()).size(16.0));
                    ui.add(egui::Label::new(why).wrap());
                });
            });
    });
}

fn is_wheel(event: &egui::Event) -> bool {
    matches!(event, egui::Event::MouseWheel { .. } | egui::Event::Zoom(_))
}
