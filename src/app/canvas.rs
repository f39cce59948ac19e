//! The canvas: verdict, drawing tools, and the drawing with its handles.

use egui::{ComboBox, CursorIcon, Id, RichText, Sense, Ui, WidgetInfo};
use kurbo::{Point, Vec2};

use super::App;
use super::field::symbol;
use super::look::{colour, strong};
use super::paint::{Painted, paper, point, pos, rect};
use super::session::Good;
use crate::analysis::{Level, Solved};
use crate::drawing::{
    Canvas, ENLARGEMENTS, Handles, Lens, LensChoice, Role, STRETCHES, SideView, Standing, Theme,
    View, verdict,
};
use crate::unit::{Document, ShapeEntry};
use crate::units::{Angle, Length, Quantity, System};

/// How the drawing is looked at.
#[derive(Debug)]
pub(super) struct CanvasState {
    /// A view of one's own; the whole unit when nothing was chosen.
    view: Option<View>,
    has_lens: bool,
    lens: LensChoice,
    standing: Standing,
    has_ghost: bool,
    painted: Option<(Key, Vec<Painted>)>,
}

/// What a painted drawing depends on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    generation: u64,
    canvas: Canvas,
    theme: Theme,
    system: System,
    standing: Standing,
    has_ghost: bool,
    pixels_per_point: f32,
}

/// A handle being dragged, and where its value was when the drag began.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Handle {
    Rim,
    Edge,
    Back,
}

impl Handle {
    const ALL: [Self; 3] = [Self::Rim, Self::Edge, Self::Back];

    fn name(self) -> &'static str {
        match self {
            Self::Rim => "Reel diameter",
            Self::Edge => "Extension",
            Self::Back => "Attitude",
        }
    }

    /// The setting's field it moves, unless the rollers are given.
    fn path(self) -> &'static str {
        match self {
            Self::Rim => "setting.reel_diameter",
            Self::Edge => "setting.extension",
            Self::Back => "setting.attitude",
        }
    }

    fn place(self, handles: &Handles) -> Point {
        match self {
            Self::Rim => handles.reel_rim,
            Self::Edge => handles.knife_edge,
            Self::Back => handles.unit_back,
        }
    }
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
        self.verdict_ui(ui, &good.solved, theme);
        self.tools_ui(ui);
        self.drawing_ui(ui, &good, theme);
    }

    /// A document that never had a solution: there is no drawing, only the reason.
    fn nothing_drawn_ui(&self, ui: &mut Ui, theme: Theme) {
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
        let (level, text) = verdict(&solved.findings);
        let system = self.system();
        ui.horizontal(|ui| {
            let (place, _) = ui.allocate_exact_size(egui::Vec2::splat(30.0), Sense::hover());
            symbol(ui, place, level, theme);
            ui.add(egui::Label::new(RichText::new(text).family(strong()).size(21.0)).truncate());
        });
        let sweep = system.length(solved.solution.sweep.below_cut);
        let share = solved.solution.sweep_share.map_or(String::new(), |share| {
            format!(", {} of the height of cut", system.share(share))
        });
        let behind = system.length(solved.solution.sweep.behind_centre);
        let text = format!("Sweep {sweep}{share}; edge {behind} behind centre");
        ui.add(egui::Label::new(RichText::new(text).size(16.0)).truncate());
    }

    fn tools_ui(&mut self, ui: &mut Ui) {
        let canvas = &mut self.canvas;
        ui.horizontal_wrapped(|ui| {
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

    fn drawing_ui(&mut self, ui: &mut Ui, good: &Good, theme: Theme) {
        let (response, painter) = ui.allocate_painter(ui.available_size(), Sense::click_and_drag());
        response
            .widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, "Side view of the unit"));
        painter.rect_filled(response.rect, 6.0, colour(theme.look(Role::Paper).fill));
        let solved = &good.solved;
        let system = self.system();
        let (whole, lens_window) = Canvas::split(paper(response.rect), self.canvas.has_lens);
        let side_view = SideView {
            case: solved.case(),
            findings: &solved.findings,
            ghost: solved.ghost().filter(|_| self.canvas.has_ghost),
            standing: self.canvas.standing,
            system,
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
            generation: good.generation,
            canvas,
            theme,
            system,
            standing: self.canvas.standing,
            has_ghost: self.canvas.has_ghost,
            pixels_per_point: ui.pixels_per_point(),
        };
        let is_fresh = self
            .canvas
            .painted
            .as_ref()
            .is_some_and(|(painted, _)| *painted == key);
        if !is_fresh {
            let scene = side_view.scene();
            let panels = canvas.panels(&scene, theme);
            let shapes = panels
                .iter()
                .map(|panel| Painted::from_panel(panel, theme, &painter))
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

    /// Handles on the drawing itself, with the value beside the pointer.
    fn handles_ui(&mut self, ui: &mut Ui, solved: &Solved, view: &View, theme: Theme) {
        let handles = Handles::of(&solved.solution);
        let paper_from_world = view.paper_from_world();
        let is_by_rollers = self.session.document.setting.rollers.is_some();
        for handle in Handle::ALL {
            // The edge itself carries the clip point's ring; its handle stands off below it.
            let off = if handle == Handle::Edge {
                Vec2::new(-24.0, 24.0)
            } else {
                Vec2::ZERO
            };
            let place = paper_from_world * handle.place(&handles) + off;
            if !view.window.inset(-8.0).contains(place) {
                continue;
            }
            let hit = egui::Rect::from_center_size(pos(place), egui::Vec2::splat(24.0));
            let id = Id::unique("handle").with(handle.name());
            let response = ui
                .interact(hit, id, Sense::click_and_drag())
                .on_hover_and_drag_cursor(CursorIcon::Grab);
            let name = match (handle, is_by_rollers) {
                (Handle::Back, true) => "Rear roller",
                _ => handle.name(),
            };
            response.widget_info(|| {
                WidgetInfo::labeled(egui::Role::Button, true, format!("{name} handle"))
            });
            let is_lively = response.hovered() || response.dragged();
            handle_mark(ui, hit.center(), is_lively, theme);
            if response.double_clicked() {
                self.reset(handle);
            }
            if response.drag_started() {
                ui.data_mut(|data| data.remove::<f64>(left_over()));
            }
            if response.dragged()
                && let Some(pointer) = response.interact_pointer_pos()
            {
                let delta = response.drag_delta();
                let from = view.world_from_paper() * (point(pointer - delta) - off);
                let to = view.world_from_paper() * (point(pointer) - off);
                self.drag(ui, handle, solved, from, to);
            }
            if is_lively {
                let value = self.handle_value(handle);
                let at = ui
                    .input(|input| input.pointer.hover_pos())
                    .unwrap_or(hit.center());
                beside_pointer(ui, at, &format!("{name} {value}"), view, theme);
            }
        }
    }

    fn reset(&mut self, handle: Handle) {
        self.drafts.remove(handle.path());
        let setting = &mut self.session.document.setting;
        match handle {
            Handle::Rim => setting.reel_diameter = None,
            Handle::Edge => setting.extension = None,
            Handle::Back => setting.attitude = None,
        }
    }

    /// Moves a handle's value by what the pointer moved, from one place of the plate to another.
    ///
    /// What a drag leaves below the digits shown is kept until the drag ends, so slow hands move
    /// the value too.
    fn drag(&mut self, ui: &Ui, handle: Handle, solved: &Solved, from: Point, to: Point) {
        let system = self.system();
        let pose = &solved.solution.pose;
        let setting = &mut self.session.document.setting;
        // A field keeps the focus while the pointer drags elsewhere.
        self.drafts.remove(match setting.rollers {
            Some(_) if handle == Handle::Back => "setting.rollers.rear_move",
            _ => handle.path(),
        });
        let before: f64 = ui.data(|data| data.get_temp(left_over())).unwrap_or(0.0);
        let by = to - from;
        let rest = match handle {
            Handle::Rim => {
                let outwards = (from - pose.centre_on_plate).normalize();
                let from_edge = (pose.centre_on_plate - pose.edge_on_plate).normalize();
                // As the reel grows, half of it moves the rim outwards and half the centre away
                // from the edge.
                let rim_for_diameter = 0.5 * (1.0 + outwards.dot(from_edge));
                let grown = by.dot(outwards) / rim_for_diameter.max(0.25);
                let wanted = solved.unit.setting.reel_diameter.mm() + before + grown;
                let entry = Quantity::from_value(Length::from_mm(wanted.max(1.0)), system);
                let rest = wanted - entry.value().mm();
                setting.reel_diameter = Some(entry);
                rest
            }
            Handle::Edge => {
                let attitude = pose.attitude.rad();
                let ahead = Vec2::new(attitude.cos(), -attitude.sin());
                let wanted = solved.unit.setting.extension.mm() + before + by.dot(ahead);
                let entry = Quantity::from_value(Length::from_mm(wanted), system);
                let rest = wanted - entry.value().mm();
                setting.extension = Some(entry);
                rest
            }
            Handle::Back => {
                if let Some(rollers) = &mut setting.rollers {
                    let wanted = pose.rear_roller.moved.mm() + before - by.y;
                    let entry = Quantity::from_value(Length::from_mm(wanted), system);
                    let rest = wanted - entry.value().mm();
                    rollers.rear_move = entry;
                    rest
                } else {
                    let (from, to) = (from - pose.edge_on_plate, to - pose.edge_on_plate);
                    // Lifting the back is turning clockwise about the edge.
                    let turn = -from.cross(to).atan2(from.dot(to));
                    let wanted =
                        (pose.attitude.deg() + before + turn.to_degrees()).clamp(-45.0, 45.0);
                    let entry = Quantity::from_value(Angle::from_deg(wanted), system);
                    let rest = wanted - entry.value().deg();
                    setting.attitude = Some(entry);
                    rest
                }
            }
        };
        ui.data_mut(|data| data.insert_temp(left_over(), rest));
    }

    fn handle_value(&self, handle: Handle) -> String {
        let system = self.system();
        let document = &self.session.document;
        let setting = &document.setting;
        match handle {
            Handle::Rim => setting
                .reel_diameter
                .as_ref()
                .unwrap_or(&document.bench.reel_diameter)
                .shown_in(system),
            Handle::Edge => setting
                .extension
                .as_ref()
                .map_or_else(|| system.length(Length::ZERO), |e| e.shown_in(system)),
            Handle::Back => match &setting.rollers {
                Some(rollers) => system.roller_move(rollers.rear_move.value()),
                None => system.angle(
                    setting
                        .attitude
                        .as_ref()
                        .map_or(document.bench.attitude.value(), Quantity::value),
                ),
            },
        }
    }
}

/// Marks the last good drawing as not current, with the reason.
fn not_current_ui(ui: &mut Ui, place: egui::Rect, theme: Theme, why: &str) {
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

/// What a drag left below the digits shown.
fn left_over() -> Id {
    Id::unique("left over of a drag")
}

fn is_wheel(event: &egui::Event) -> bool {
    matches!(event, egui::Event::MouseWheel { .. } | egui::Event::Zoom(_))
}

fn handle_mark(ui: &Ui, centre: egui::Pos2, is_lively: bool, theme: Theme) {
    let radius = if is_lively { 9.0 } else { 7.0 };
    let ink = colour(theme.look(Role::CutLine).ink);
    let fill = if is_lively {
        ink
    } else {
        colour(theme.look(Role::Paper).fill)
    };
    let corners = [(0.0, -radius), (radius, 0.0), (0.0, radius), (-radius, 0.0)];
    let corners = corners
        .iter()
        .map(|&(x, y)| centre + egui::vec2(x, y))
        .collect();
    ui.painter().add(egui::Shape::convex_polygon(
        corners,
        fill,
        egui::Stroke::new(2.2, ink),
    ));
}

fn beside_pointer(ui: &Ui, at: egui::Pos2, text: &str, view: &View, theme: Theme) {
    let painter = ui.painter();
    let ink = colour(theme.look(Role::Heading).ink);
    let galley = painter.layout_no_wrap(text.to_owned(), egui::FontId::new(15.0, strong()), ink);
    let window = rect(view.window);
    let mut corner = at + egui::vec2(18.0, -34.0);
    corner.x = corner.x.min(window.right() - galley.size().x - 10.0);
    corner.y = corner.y.max(window.top() + 6.0);
    let back = egui::Rect::from_min_size(corner, galley.size()).expand2(egui::vec2(7.0, 4.0));
    painter.rect(
        back,
        4.0,
        colour(theme.look(Role::Paper).fill),
        egui::Stroke::new(1.2, ink),
        egui::StrokeKind::Outside,
    );
    painter.galley(corner, galley, ink);
}
