//! The canvas: verdict, drawing tools, and the drawing with its handles.

use egui::{Color32, ComboBox, Context, Response, Sense, Ui, WidgetInfo};
use kurbo::{Rect, Size, Vec2};

use super::handles::{covered_by_handles, handles_ui, take_handles};
use super::held_handle::HeldHandle;
use crate::analysis::{Solution, Solved, SolvedId};
use crate::app::areas::not_current::{not_current_ui, nothing_drawn_ui};
use crate::app::desk::{Desk, Overlaid, Ticked};
use crate::app::widgets::examples::still_examples_ui;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::list::list_ui;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{paper, point};
use crate::app::widgets::verdict::verdict_ui;
use crate::app::widgets::viewer::Viewer;
use crate::drawing::{
    Canvas, ENLARGEMENTS, Hold, Lens, LensAim, LensChoice, Role, STRETCHES, SideView, Standing,
    Style, Theme, View, verdict,
};
use crate::unit::Document;
use crate::units::System;

/// The drawing of the unit as measured behind the one as set.
const AS_MEASURED_TOO: &str = "As measured, in outline";

/// What all drawing tools take beside one another; less is narrow.
const ALL_TOOLS: f32 = 945.0;
/// What they take with the unit as measured called by its whole name.
const ALL_NAMED: f32 = 1060.0;

/// A window lower than this, in points, is low.
const LOW: f32 = 700.0;

/// What a share of sweep is a share of.
const OF_THE_HEIGHT: &str = " of the height of cut";
/// Of words that are measured and not painted.
const INK: Color32 = Color32::PLACEHOLDER;

/// Whether the window is so low that what can yield to the drawing does.
fn is_low(ctx: &Context) -> bool {
    ctx.content_rect().height() < LOW
}

/// How the drawing is looked at.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a choice of its own, made apart from the others"
)]
#[derive(Debug)]
pub struct CanvasState {
    viewer: Viewer<Key>,
    held: Option<HeldHandle>,
    has_lens: bool,
    lens: LensChoice,
    /// Where the lens looks, from when it was fitted until it is fitted again, and the size of its paper.
    aim: Option<(LensAim, Size)>,
    hold: Hold,
    /// Asked to look at the worst place.
    wants_worst: bool,
    standing: Standing,
    has_ghost: bool,
    /// Whether the tools that yield in a narrow window are shown there.
    has_more: bool,
    /// Without form and numbers around it.
    pub is_alone: bool,
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
    hold: Hold,
    overlaid: Ticked,
}

impl CanvasState {
    /// The view a document is first shown in: on its ground where that is not a level plate.
    pub fn for_document(document: &Document) -> Self {
        let is_plate = document.ground.shape.radius().is_none() && document.ground.sink().is_none();
        Self {
            viewer: Viewer::default(),
            held: None,
            has_lens: true,
            lens: LensChoice::default(),
            aim: None,
            hold: Hold::default(),
            wants_worst: false,
            standing: if is_plate {
                Standing::Plate
            } else {
                Standing::Turf
            },
            has_ghost: true,
            has_more: false,
            is_alone: false,
        }
    }

    /// Takes what is done to the handles, before anything is drawn: this frame already shows it.
    pub fn take_handles(&mut self, ui: &Ui, desk: &mut Desk) {
        if let Some(view) = self.viewer.shown() {
            let was_held = self.held.is_some();
            take_handles(ui, desk, &view, &mut self.held);
            if was_held && self.held.is_none() {
                self.viewer.stay(view);
            }
        }
    }

    /// Verdict, tools and drawing.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let theme = theme(ui.ctx());
        let Some(good) = desk.good().cloned() else {
            nothing_drawn_ui(ui, desk);
            return;
        };
        heading_ui(ui, desk, &good, theme);
        self.tools_ui(ui);
        self.drawing_ui(ui, desk, theme);
    }

    fn tools_ui(&mut self, ui: &mut Ui) {
        let is_narrow = ui.available_width() < ALL_TOOLS;
        let canvas = &mut *self;
        ui.horizontal_wrapped(|ui| {
            ui.toggle_value(&mut canvas.is_alone, "Drawing only")
                .on_hover_text("Hide form and numbers, to show the drawing to others");
            ui.separator();
            canvas.viewer.buttons_ui(ui, "the whole unit");
            ui.separator();
            ui.selectable_value(&mut canvas.standing, Standing::Plate, "On plate");
            ui.selectable_value(&mut canvas.standing, Standing::Turf, "Turf");
            ui.selectable_value(&mut canvas.standing, Standing::Crest, "Crest")
                .on_hover_text("On the crest entered under Ground, or else on the tightest one that the whole unit crosses")
                // The form's ground offers a crest too.
                .accessible_name("On a crest");
            if is_narrow {
                ui.separator();
                ui.toggle_value(&mut canvas.has_more, "More")
                    .on_hover_text("The unit as measured in outline, and the lens")
                    .accessible_name("More drawing tools");
            } else {
                canvas.more_tools_ui(ui);
            }
        });
        if is_narrow && self.has_more {
            ui.horizontal_wrapped(|ui| self.more_tools_ui(ui));
        }
    }

    fn more_tools_ui(&mut self, ui: &mut Ui) {
        let canvas = self;
        let room = ui.max_rect().width();
        // All in one row, where that can be.
        let is_close = (ALL_TOOLS..ALL_NAMED).contains(&room);
        if !is_close {
            ui.separator();
        }
        let name = if is_close { "Outline" } else { AS_MEASURED_TOO };
        ui.checkbox(&mut canvas.has_ghost, name)
            .on_hover_text("The unit as measured, in dashes and dots, behind it as it is set now")
            .accessible_name(AS_MEASURED_TOO);
        if !is_close {
            ui.separator();
        }
        ui.checkbox(&mut canvas.has_lens, "Lens");
        // In the row itself, so that it is wrapped with it.
        if !canvas.has_lens {
            ui.disable();
        }
        let written = |e: f64| format!("{e}:1");
        let shown = canvas.lens.enlargement.map_or("fitted".to_owned(), written);
        let scales = ComboBox::from_id_salt("lens scale")
            .width(60.0)
            .selected_text(shown);
        let scale = canvas.lens.enlargement;
        list_ui(ui, scales, |ui, list| {
            for offered in std::iter::once(None).chain(ENLARGEMENTS.map(Some)) {
                let name = offered.map_or("fitted".to_owned(), written);
                if list.offer(ui, offered == scale, name) {
                    canvas.enlarge(offered);
                }
            }
        })
        .accessible_name("Lens scale");
        let named = |s: f64| {
            if s > 1.0 {
                format!("upwards ×{s}")
            } else {
                "true shape".to_owned()
            }
        };
        let stretches = ComboBox::from_id_salt("lens stretch")
            .width(80.0)
            .selected_text(named(canvas.lens.stretch));
        let before = canvas.lens.stretch;
        list_ui(ui, stretches, |ui, list| {
            list.values(ui, &STRETCHES, &mut canvas.lens.stretch, named);
        })
        .accessible_name("Lens stretch");
        if (canvas.lens.stretch - before).abs() > 0.0 {
            canvas.aim = canvas
                .aim
                .and_then(|(aim, size)| Some((aim.kept(false)?, size)));
        }
        ui.menu_button("Zoom, hold", |ui| {
            let help = "The lens stays on the place of the worst finding until you show all again";
            let worst = ui.button("The worst place").on_hover_text(help);
            canvas.wants_worst |= worst.clicked();
            ui.separator();
            ui.label("When something changes, hold still:");
            for hold in Hold::ALL {
                ui.radio_value(&mut canvas.hold, hold, hold.name());
            }
        });
    }

    fn drawing_ui(&mut self, ui: &mut Ui, desk: &mut Desk, theme: Theme) {
        let (response, painter) = ui.allocate_painter(ui.available_size(), Sense::click_and_drag());
        response
            .widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, "Side view of the unit"));
        painter.rect_filled(response.rect, 6.0, colour(theme.look(Role::Paper).fill));
        let Some(solved) = desk.good().cloned() else {
            return;
        };
        let system = desk.system();
        let (whole, lens_window) = Canvas::split(paper(response.rect), self.has_lens);
        let side_view = SideView {
            ghost: solved.ghost().filter(|_| self.has_ghost),
            standing: self.standing,
            hold: self.hold,
            system,
            ..SideView::of(&solved)
        };
        let is_held = ui.input(|input| input.pointer.any_down());
        self.viewer.follow(&side_view.parts(), is_held);
        let style = Style::filling(theme, paper(response.rect).size());
        let fitted = self.fitted(side_view.bounds(), whole, style, is_held);
        let view = self.viewer.view(fitted);
        let view = self.held.as_ref().map_or(view, |held| View {
            window: view.window,
            ..held.view(&solved)
        });
        let lens = lens_window.map(|window| self.lens(&side_view, window, is_held));
        let canvas = Canvas { whole: view, lens };
        let key = Key {
            solved: solved.id,
            canvas,
            theme,
            system,
            standing: self.standing,
            has_ghost: self.has_ghost,
            hold: self.hold,
            overlaid: desk.ticked().clone(),
        };
        self.viewer.paint(&painter, view, key, || {
            let overlaid = desk.overlaid();
            let scene = SideView {
                overlays: &Overlaid::all_on(&overlaid, &solved),
                ..side_view
            }
            .scene();
            canvas.panels_clear_of(&scene, style, &covered_by_handles(&solved, &view))
        });
        if let Some(why) = desk.why_not_current() {
            not_current_ui(ui, response.rect, theme, &why);
            return;
        }
        self.look_around(ui, &response, canvas.lens.as_ref());
        handles_ui(ui, desk, &solved, &view, theme);
    }

    /// The view of the whole: at a scale of the row that drawings have where that costs little. While
    /// anything is held its scale stays, as long as the whole has room at it.
    fn fitted(&self, bounds: Rect, window: Rect, style: Style, is_held: bool) -> View {
        let fitted = Canvas::whole_in_window(bounds, window, style);
        let near = fitted.near_scale_of_row(bounds.center());
        let shown = self.viewer.shown().filter(|shown| {
            is_held && shown.window == window && (near.scale..=fitted.scale).contains(&shown.scale)
        });
        shown.map_or(near, |shown| {
            let held = fitted.paper_from_world() * bounds.center();
            fitted.zoomed(shown.scale / fitted.scale, held)
        })
    }

    /// The lens: fitted at first, then kept where it looks while anything is changed.
    /// What left its view meanwhile comes back when nothing is held in hand.
    fn lens(&mut self, side_view: &SideView, window: Rect, is_held: bool) -> Lens {
        let (case, stretch) = (&side_view.case, self.lens.stretch);
        let system = side_view.system;
        let kept = self
            .aim
            .and_then(|(aim, size)| aim.kept(size == window.size()));
        let kept = kept.map(|aim| aim.holding(self.hold, case));
        let kept = kept.map(|aim| {
            if is_held {
                aim
            } else {
                aim.with_ground_and_cut(side_view, stretch, window.height())
            }
        });
        let kept = kept.map(|aim| (aim, Lens::aimed(aim, case, stretch, window, system)));
        let fitted = || Lens::fitted(side_view, self.lens, self.hold, window);
        let (mut aim, mut lens) = kept.unwrap_or_else(fitted);
        if std::mem::take(&mut self.wants_worst)
            && let Some(worst) = side_view.worst_place()
        {
            aim = aim.at(worst.at, case);
            lens = Lens::aimed(aim, case, stretch, window, system);
        }
        self.aim = Some((aim, window.size()));
        lens
    }

    /// Enlarges the lens so far, or as far as it fits, looking where somebody had it look.
    fn enlarge(&mut self, enlargement: Option<f64>) {
        self.lens.enlargement = enlargement;
        self.aim = self.aim.zip(enlargement).and_then(|((aim, size), by)| {
            let aim = aim.kept(false)?;
            Some((aim.enlarged(by), size))
        });
    }

    /// Looks around in the unit, or steps the lens through its written scales.
    fn look_around(&mut self, ui: &Ui, response: &Response, lens: Option<&Lens>) {
        let is_in_lens = |at| lens.is_some_and(|lens| lens.view.window.contains(at));
        let pressed = ui.input(|input| input.pointer.press_origin());
        if let (Some(lens), Some((aim, _))) = (lens, &mut self.aim)
            && pressed.is_some_and(|at| is_in_lens(point(at)))
            && response.dragged()
        {
            let by = response.drag_delta();
            *aim = aim.dragged(Vec2::new(f64::from(by.x), f64::from(by.y)), &lens.view);
            return;
        }
        if response.double_clicked() {
            self.aim = None;
        }
        let in_lens = self.viewer.look_around(ui, response, |at| !is_in_lens(at));
        let (Some(lens), Some(factor)) = (lens, in_lens) else {
            return;
        };
        let now = lens.enlargement();
        let next = if factor > 1.0 {
            ENLARGEMENTS.into_iter().find(|&e| e > now)
        } else {
            ENLARGEMENTS.into_iter().rev().find(|&e| e < now)
        };
        if ui.input(|input| input.events.iter().any(is_wheel)) {
            self.enlarge(next.or(Some(now)));
        }
    }
}

fn heading_ui(ui: &mut Ui, desk: &Desk, solved: &Solved, theme: Theme) {
    let is_current = desk.why_not_current().is_none();
    let system = desk.system();
    let (level, text) = verdict(&solved.findings, solved.document.example_count());
    ui.add_enabled_ui(is_current, |ui| {
        verdict_ui(ui, (level, &text), Lettering::Verdict, theme);
        in_short_ui(ui, &solved.solution, system);
        if is_low(ui.ctx()) {
            // A verdict never hides what it rests on.
            still_examples_ui(ui, desk.document().example_count());
            return;
        }
        // The line stands there always: the drawing must not move when a drag begins.
        let bench = solved.ghost().map_or_else(
            || "As measured".to_owned(),
            |ghost| format!("As measured. {}", in_short(ghost.solution, system)),
        );
        ui.horizontal(|ui| {
            still_examples_ui(ui, desk.document().example_count());
            ui.add(egui::Label::new(Lettering::Body.of(bench).weak()).truncate());
        });
    });
}

/// A solution in one line, in fewer words where there is no room for all of them.
fn in_short_ui(ui: &mut Ui, solution: &Solution, system: System) {
    let text = in_short(solution, system);
    let font = Lettering::InShort.font();
    let words = ui.painter().layout_no_wrap(text.clone(), font, INK);
    let shown = if words.size().x <= ui.available_width() {
        text.clone()
    } else {
        text.replace(OF_THE_HEIGHT, "")
            .replace(" behind centre", " behind")
            .replace(" ahead of centre", " ahead")
    };
    let label = ui.add(egui::Label::new(Lettering::InShort.of(shown)).truncate());
    label.on_hover_text(text);
}

/// A solution in one line: sweep, share, where the edge stands, and the height of cut, on the plate and,
/// where it is another, on the ground.
fn in_short(solution: &Solution, system: System) -> String {
    let below = solution.sweep.below_cut;
    let sweep = if below.mm() < 0.0 {
        format!("Reel {} above the cut line", system.length(-below))
    } else {
        let share = solution.sweep_share.map_or(String::new(), |share| {
            format!(", {}{OF_THE_HEIGHT}", system.share(share))
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
    let effective = system.length(solution.on_ground.cut);
    let effective = if effective == height {
        String::new()
    } else {
        format!(", effective {effective}")
    };
    format!("{sweep}; {edge}; cut at {height}{effective}")
}

fn is_wheel(event: &egui::Event) -> bool {
    matches!(event, egui::Event::MouseWheel { .. } | egui::Event::Zoom(_))
}
