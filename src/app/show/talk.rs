//! A lesson told to a room, step by step.

use super::slide::{PictureOf, Slide};
use crate::command::OpenLesson;
use crate::drawing::LessonPictures;
use crate::lesson::{LessonView, SingleView};

/// A lesson, and the step that the room sees.
pub struct Talk {
    of: OpenLesson,
    at: usize,
}

impl Talk {
    /// A lesson from a step on, the first being 0; from its last one where it has not so many.
    #[must_use]
    pub fn from_step(of: OpenLesson, step: usize) -> Self {
        let last = of.lesson.steps.len().saturating_sub(1);
        Self {
            of,
            at: step.min(last),
        }
    }

    /// So many steps on; it stops at the first and at the last.
    pub(super) fn go(&mut self, by: isize) {
        let last = self.of.lesson.steps.len().saturating_sub(1);
        self.at = self.at.saturating_add_signed(by).min(last);
    }

    /// Whether the step's numbers wait until somebody asks for them.
    pub(super) fn hides_numbers(&self) -> bool {
        let step = self.of.lesson.steps.get(self.at);
        step.is_some_and(|step| step.numbers_hidden)
    }

    pub(super) fn slide(&self) -> Slide<'_> {
        let OpenLesson { lesson, steps, .. } = &self.of;
        let (step, solved) = (&lesson.steps[self.at], &steps[self.at]);
        let title = step.title.clone();
        match solved {
            Err(problem) => Slide {
                title,
                text: format!("Not shown: {problem}"),
                numbers: Vec::new(),
                picture: None,
                is_chart: false,
                moves: false,
            },
            Ok(solved) => {
                let draw = move |place, style, clips| {
                    let pictures = LessonPictures {
                        lesson,
                        steps,
                        clips,
                    };
                    let panels = pictures.panels(step, solved, place, style);
                    panels.map_err(|none| none.to_string())
                };
                Slide {
                    title,
                    text: solved.text.clone(),
                    numbers: solved.numbers.clone(),
                    picture: Some((PictureOf::Step(self.at), Box::new(draw))),
                    is_chart: matches!(
                        step.view,
                        LessonView::Path
                            | LessonView::Budget
                            | LessonView::Map
                            | LessonView::SideBySide(SingleView::Budget)
                    ),
                    moves: step.motion && solved.first.unit.mowing.is_some(),
                }
            }
        }
    }
}
