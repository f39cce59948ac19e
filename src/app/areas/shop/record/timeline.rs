//! The timeline: every job, the newest first, with what stood before and after it.

use egui::{Frame, Label, Margin, RichText, ScrollArea, Stroke, Ui, pos2, vec2};

use crate::analysis::Job;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::strong;
use crate::app::widgets::long_list::long_list_ui;

/// Height that a job takes until it was in view, about.
const ABOUT: f32 = 74.0;
/// Room for the line that joins the jobs, at their left.
const LINE: i8 = 22;

/// A button of a job, by the job's place.
#[derive(Clone, Copy, Debug)]
pub enum Pressed {
    /// To look at before and after.
    BeforeAndAfter(usize),
    /// To put it right.
    Correct(usize),
}

/// The jobs, each with a button to correct it, those of which it is known what they changed with one to look
/// at before and after: which one was pressed.
pub fn timeline_ui(
    ui: &mut Ui,
    jobs: &[Job],
    has_units: impl Fn(usize) -> bool,
) -> Option<Pressed> {
    let mut pressed = None;
    if jobs.is_empty() {
        ui.label("Write down each grinding, knife, setting and repair as it is done: the reel's diameters tell how fast it wears, and when it is due.");
        return None;
    }
    ScrollArea::vertical()
        .id_salt("record timeline")
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            let last = jobs.len() - 1;
            long_list_ui(ui, "jobs", jobs.len(), ABOUT, |ui, index| {
                let place = last - index;
                ui.push_id(place, |ui| {
                    let has_units = has_units(place);
                    let ends = (index == 0, place == 0);
                    if let Some(on) = job_ui(ui, (place, &jobs[place]), ends, has_units) {
                        pressed = Some(on);
                    }
                });
            });
            followed.bring_in(ui);
        });
    pressed
}

/// A job; which of its buttons was pressed.
fn job_ui(
    ui: &mut Ui,
    (place_of_job, job): (usize, &Job),
    (is_first, is_last): (bool, bool),
    has_units: bool,
) -> Option<Pressed> {
    let mut pressed = None;
    let margin = Margin {
        left: LINE,
        top: 2,
        bottom: 8,
        right: 4,
    };
    let shown = Frame::NONE.inner_margin(margin).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.add(Label::new(RichText::new(job.head()).family(strong())).wrap());
        for fact in &job.facts {
            ui.add(Label::new(fact.told()).wrap());
        }
        if !job.notes.is_empty() {
            ui.add(Label::new(RichText::new(&job.notes).weak()).wrap());
        }
        ui.horizontal(|ui| {
            if has_units {
                let name = format!("Before and after, side by side: {}", job.head());
                let button = ui.small_button("Before and after…").accessible_name(name);
                if button.clicked() {
                    pressed = Some(Pressed::BeforeAndAfter(place_of_job));
                }
            }
            let button = ui.small_button("Correct…");
            let button =
                button.on_hover_text("Puts a slip right by another event of the same date");
            let button = button.accessible_name(format!("Correct: {}", job.head()));
            if button.clicked() {
                pressed = Some(Pressed::Correct(place_of_job));
            }
        });
    });
    // The line that joins them, with a spot at each.
    let place = shown.response.rect;
    let ink = ui.visuals().weak_text_color();
    let spot = pos2(place.left() + 8.0, place.top() + 12.0);
    let stroke = Stroke::new(1.5, ink);
    if !is_first {
        ui.painter()
            .line_segment([pos2(spot.x, place.top()), spot], stroke);
    }
    if !is_last {
        ui.painter().line_segment(
            [spot, pos2(spot.x, place.bottom()) + vec2(0.0, 6.0)],
            stroke,
        );
    }
    ui.painter()
        .circle_filled(spot, 5.0, ui.visuals().text_color());
    pressed
}
