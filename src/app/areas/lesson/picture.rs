//! The picture of the step in front, as a room sees it.

use egui::{Rect, Sense, Ui, Vec2, WidgetInfo};

use super::worked_out::WorkedOutOf;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper};
use crate::command::OpenLesson;
use crate::drawing::{LessonPictures, Numbers, Role, STILL, Style, Theme, Words};

/// What a painted picture depends on.
type Key = (WorkedOutOf, usize, Rect, Theme);

/// The picture of a step.
#[derive(Debug, Default)]
pub struct StepPicture {
    painted: Kept<Key, Result<Vec<Painted>, String>>,
}

impl StepPicture {
    /// Shows it in a size, or says why there is none.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        (of, opened): (WorkedOutOf, &OpenLesson),
        number: usize,
        size: Vec2,
    ) {
        let theme = theme(ui.ctx());
        let (place, response) = ui.allocate_exact_size(size, Sense::hover());
        response.widget_info(|| {
            let name = format!("Picture of step {}", number + 1);
            WidgetInfo::labeled(egui::Role::Image, true, name)
        });
        let ground = colour(theme.look(Role::Paper).fill);
        ui.painter().rect_filled(place, 4.0, ground);
        let painted = self.painted.get((of, number, place, theme), |_| {
            let (Some(step), Some(Ok(solved))) =
                (opened.lesson.steps.get(number), opened.steps.get(number))
            else {
                return Ok(Vec::new());
            };
            let pictures = LessonPictures {
                lesson: &opened.lesson,
                steps: &opened.steps,
                clips: STILL,
            };
            let numbers = if step.numbers_hidden {
                Numbers::Hidden
            } else {
                Numbers::Shown
            };
            let words = if step.is_chart() {
                Words::All
            } else {
                Words::Few
            };
            let style = Style {
                words,
                numbers,
                ..Style::from(theme)
            };
            let panels = pictures.panels(step, solved, paper(place), style);
            let panels = panels.map_err(|none| none.to_string())?;
            Ok(panels.iter().map(Painted::from_panel).collect())
        });
        match painted {
            Ok(panels) => {
                let clip = place.intersect(ui.clip_rect());
                let clipped = ui.painter().with_clip_rect(clip);
                for panel in panels {
                    panel.paint(&clipped);
                }
            }
            Err(why) => {
                let why = format!("No picture: {why}.");
                ui.label(why);
            }
        }
    }
}
