//! What stands in the presenter's window: notes, the step the room sees, the next one, and clocks.

use std::time::{Duration, Instant};

use egui::{
    Align, Button, CentralPanel, Label, Layout, Rect, RichText, ScrollArea, Sense, TextStyle,
    TextWrapMode, Ui, UiBuilder, Vec2, WidgetInfo, WidgetText,
};
use jiff::ZonedDateTime;

use super::keys::Act;
use super::keys_list::keys_ui;
use super::sight::Sight;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper};
use crate::command::OpenLesson;
use crate::drawing::{LessonPictures, Role, STILL, Style, Theme};
use crate::lesson::Step;

/// Height of the row of clocks and buttons.
const HEAD: f32 = 34.0;
/// Size of the clocks, and of the notes.
const CLOCK: f32 = 26.0;
/// Paper after a clock.
const AFTER: f32 = 14.0;
const NOTES: f32 = 21.0;
/// From this width on the next step stands beside the notes.
const BESIDE: f32 = 700.0;
/// How high the picture of the next step is to its width.
const HIGH: f32 = 0.62;
/// The keys that are needed most.
const IN_SHORT: &str =
    "Right, Left: next, back.  N: numbers.  B: blank.  ?: every key.  P: close this window";
/// How often the clocks are looked at.
const TICK: Duration = Duration::from_secs(1);

/// What the picture of the next step depends on.
type Key = (usize, Rect, Theme);

/// What is kept of the presenter's window.
#[derive(Default)]
pub(super) struct PresenterUi {
    next: Kept<Key, Vec<Painted>>,
    lists_keys: bool,
}

impl PresenterUi {
    /// Lists the keys, or puts the list away.
    pub(super) fn list_keys(&mut self) {
        self.lists_keys = !self.lists_keys;
    }

    /// Shows all of it; what was pressed.
    pub(super) fn show(&mut self, ui: &mut Ui, sight: &Sight) -> Option<Act> {
        ui.ctx().request_repaint_after(TICK);
        let mut pressed = None;
        let step = sight.of.lesson.steps.get(sight.at)?;
        CentralPanel::default_margins().show(ui, |ui| {
            pressed = head_ui(ui, sight, step);
            ui.separator();
            if self.lists_keys {
                let most = ui.available_height();
                return keys_ui(ui, most);
            }
            let all = ui.available_size();
            if all.x >= BESIDE {
                ui.horizontal_top(|ui| {
                    let left = 0.58 * all.x;
                    ui.allocate_ui(Vec2::new(left, all.y), |ui| {
                        ui.vertical(|ui| {
                            ui.set_width(left);
                            notes_ui(ui, sight, step, all.y);
                        });
                    });
                    ui.vertical(|ui| self.next_ui(ui, sight));
                });
            } else {
                notes_ui(ui, sight, step, 0.5 * all.y);
                self.next_ui(ui, sight);
            }
        });
        pressed
    }

    /// The step that comes next, with a small picture.
    fn next_ui(&mut self, ui: &mut Ui, sight: &Sight) {
        let number = sight.at + 1;
        let Some(next) = sight.of.lesson.steps.get(number) else {
            ui.label(Lettering::Heading.of("This is the last step"));
            return;
        };
        ui.label(Lettering::Heading.of(format!("Next: {}", next.title)));
        let width = ui.available_width();
        let size = Vec2::new(width, (HIGH * width).min(ui.available_height().max(80.0)));
        let (place, response) = ui.allocate_exact_size(size, Sense::hover());
        response.widget_info(|| {
            let name = format!("Picture of the next step: {}", next.title);
            WidgetInfo::labeled(egui::Role::Image, true, name)
        });
        let theme = theme(ui.ctx());
        let ground = colour(theme.look(Role::Paper).fill);
        ui.painter().rect_filled(place, 4.0, ground);
        let of = &sight.of;
        let painted = self.next.get((number, place, theme), |_| {
            painted(of, number, place, theme)
        });
        for panel in painted {
            panel.paint(ui.painter());
        }
        if let Some(Ok(solved)) = of.steps.get(number) {
            ui.add_space(6.0);
            let most = ui.available_height();
            ScrollArea::vertical()
                .id_salt("text of the next step")
                .max_height(most)
                .show(ui, |ui| {
                    ui.add(Label::new(Lettering::InShort.of(&solved.text)).wrap());
                });
        }
    }
}

fn painted(of: &OpenLesson, number: usize, place: Rect, theme: Theme) -> Vec<Painted> {
    let (Some(step), Some(Ok(solved))) = (of.lesson.steps.get(number), of.steps.get(number)) else {
        return Vec::new();
    };
    let pictures = LessonPictures {
        lesson: &of.lesson,
        steps: &of.steps,
        clips: STILL,
    };
    // A step without a picture has its title.
    let panels = pictures.panels(step, solved, paper(place), Style::from(theme));
    let panels = panels.unwrap_or_default();
    panels.iter().map(Painted::from_panel).collect()
}

/// Clocks, where the lesson stands, and the two ways on.
fn head_ui(ui: &mut Ui, sight: &Sight, step: &Step) -> Option<Act> {
    let mut pressed = None;
    ui.horizontal_wrapped(|ui| {
        // Each in one piece, wherever the row breaks.
        let clock = |ui: &mut Ui, name: &str, shown: String| {
            let shown = RichText::new(shown).size(CLOCK).family(strong());
            let texts = [Lettering::Note.of(name).into(), WidgetText::from(shown)];
            let wide = |text: &WidgetText| {
                let mode = Some(TextWrapMode::Extend);
                let laid = text.clone();
                let laid = laid.into_galley(ui, mode, f32::INFINITY, TextStyle::Body);
                laid.size().x
            };
            let wide = texts.iter().map(wide).sum::<f32>() + ui.spacing().item_spacing.x + AFTER;
            // All of one height, so that they stand on one line.
            let (place, _) = ui.allocate_exact_size(Vec2::new(wide, HEAD), Sense::hover());
            let mut piece = ui.new_child(
                UiBuilder::new()
                    .id_salt(name)
                    .max_rect(place)
                    .layout(Layout::left_to_right(Align::Center)),
            );
            for text in texts {
                piece.add(Label::new(text).extend());
            }
        };
        clock(ui, "Time of day", time_of_day());
        clock(ui, "Since the start", since(sight.began));
        let count = sight.of.lesson.steps.len();
        clock(ui, "Step", format!("{} of {count}", sight.at + 1));
        clock(ui, "On this step", since(sight.step_began));
        for (name, act) in [("Back", Act::Back), ("Next", Act::Next)] {
            if ui
                .add(Button::new(name).min_size(Vec2::new(80.0, HEAD)))
                .clicked()
            {
                pressed = Some(act);
            }
        }
    });
    ui.label(Lettering::Note.of(IN_SHORT));
    ui.label(Lettering::Headline.of(&step.title));
    if sight.is_blank {
        ui.label(Lettering::Name.of("The room's screen is dark. B: show it again."));
    }
    pressed
}

/// What the presenter is reminded of, and what the room reads.
fn notes_ui(ui: &mut Ui, sight: &Sight, step: &Step, high: f32) {
    ScrollArea::vertical()
        .id_salt("notes")
        .auto_shrink(false)
        .max_height(high)
        .show(ui, |ui| {
            if step.notes.is_empty() {
                ui.label(Lettering::Note.of("No notes for this step."));
            } else {
                ui.add(Label::new(RichText::new(&step.notes).size(NOTES)).wrap());
            }
            ui.add_space(12.0);
            match sight.of.steps.get(sight.at) {
                Some(Ok(solved)) => {
                    ui.label(Lettering::Note.of("The room reads"));
                    let text = if sight.has_numbers {
                        &solved.text
                    } else {
                        &solved.text_asked
                    };
                    ui.label(Lettering::InShort.of(text));
                    let numbers = solved.numbers.iter();
                    let numbers =
                        numbers.map(|number| format!("{}: {}", number.title, number.shown));
                    let numbers: Vec<_> = numbers.collect();
                    if !numbers.is_empty() {
                        ui.add_space(8.0);
                        let told = if sight.has_numbers {
                            "Numbers that the room sees"
                        } else {
                            "Numbers hidden from the room; N shows them"
                        };
                        ui.label(Lettering::Note.of(told));
                        ui.label(Lettering::InShort.of(numbers.join("\n")));
                    }
                }
                Some(Err(problem)) => {
                    ui.label(format!("Not shown: {problem}"));
                }
                None => {}
            }
        });
}

fn time_of_day() -> String {
    ZonedDateTime::now().strftime("%H:%M").to_string()
}

fn since(began: Instant) -> String {
    let seconds = began.elapsed().as_secs();
    let (hours, minutes) = (seconds / 3600, seconds / 60 % 60);
    let seconds = seconds % 60;
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}
