//! A lesson told to a room, step by step.

use super::slide::{PictureOf, Slide};
use super::step_move::Moving;
use crate::command::OpenLesson;
use crate::drawing::LessonPictures;
use crate::lesson::{LessonView, SingleView};

/// A lesson, and the step that the room sees.
pub struct Talk {
    of: OpenLesson,
    at: usize,
    /// The picture is on its way there from another step.
    moving: Option<Moving>,
}

impl Talk {
    /// A lesson from a step on, the first being 0; from its last one where it has not so many.
    #[must_use]
    pub fn from_step(of: OpenLesson, step: usize) -> Self {
        let last = of.lesson.steps.len().saturating_sub(1);
        Self {
            of,
            at: step.min(last),
            moving: None,
        }
    }

    /// So many steps on; it stops at the first and at the last. The picture moves there where it can.
    pub(super) fn go(&mut self, by: isize) {
        let (from, last) = (self.at, self.of.lesson.steps.len().saturating_sub(1));
        self.at = self.at.saturating_add_signed(by).min(last);
        let moved = self.pictures(0.0).step_move(from, self.at);
        let can_be = moved.is_some_and(|moved| moved.can_be());
        self.moving = can_be.then_some(Moving::from(from));
    }

    /// Ends a move: the picture is that of the step.
    pub(super) fn arrive(&mut self) {
        self.moving = None;
    }

    /// Goes on with a move to a time of the toolkit's clock; whether it goes on after that.
    pub(super) fn go_on(&mut self, now_s: f64) -> bool {
        self.moving = self.moving.and_then(|moving| moving.at(now_s));
        self.moving.is_some()
    }

    fn pictures(&self, clips: f64) -> LessonPictures<'_> {
        LessonPictures {
            lesson: &self.of.lesson,
            steps: &self.of.steps,
            clips,
        }
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
                // Where it stands on the way; where it cannot stand so, the picture has arrived.
                let on_the_way = self.moving.and_then(|Moving { from, part, .. }| {
                    let moved = self.pictures(0.0).step_move(from, self.at)?;
                    Some((PictureOf::Between(from, self.at, part), moved.at(part)?))
                });
                let (of, on_the_way) = on_the_way.unzip();
                let draw = move |place, style, clips| {
                    let drawn = on_the_way.as_ref().unwrap_or(solved);
                    let panels = self.pictures(clips).panels(step, drawn, place, style);
                    panels.map_err(|none| none.to_string())
                };
                Slide {
                    title,
                    text: solved.text.clone(),
                    numbers: solved.numbers.clone(),
                    picture: Some((of.unwrap_or(PictureOf::Step(self.at)), Box::new(draw))),
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
