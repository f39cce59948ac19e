//! The unit in front kept as a step of the lesson, from whatever area and from Show.

use super::Desk;
use crate::drawing::PictureView;
use crate::lesson::{LessonView, Step};
use crate::unit::Document;

/// What is said about a step until its maker says something of their own.
const FIRST_TEXT: &str = "The edge stands {behind_centre} behind centre. The reel sweeps {sweep}, {sweep_share} of the height of cut.";

impl Desk {
    /// Keeps the unit in front, its setting and the view as a step behind the others; a lesson begins with it
    /// where none is open. What was done, in a sentence.
    ///
    /// # Errors
    /// When it is not kept, with the reason in a sentence.
    pub fn keep_step_in(&mut self, view: PictureView) -> Result<String, String> {
        self.keep_step_tried_in(view, None)
    }

    /// The same with what is tried on the unit in place of its own setting.
    ///
    /// # Errors
    /// When it is not kept, with the reason in a sentence.
    pub fn keep_step_tried_in(
        &mut self,
        view: PictureView,
        tried: Option<&Document>,
    ) -> Result<String, String> {
        let is_new = self.lesson().is_none();
        match self.keep_as_step(begun_with(view), tried) {
            Ok(_) if is_new => {
                Ok("A lesson was begun with this step. Give it its words in Lesson.".to_owned())
            }
            Ok(number) => Ok(format!("Kept as step {} of the lesson.", number + 1)),
            Err(why) => Err(format!("Not kept as a step. {why}")),
        }
    }
}

fn begun_with(view: PictureView) -> Step {
    let (shown, motion) = match view {
        PictureView::Whole => (LessonView::Whole, false),
        PictureView::Lens => (LessonView::Lens, false),
        PictureView::Ground => (LessonView::Ground, false),
        PictureView::Path => (LessonView::Path, false),
        PictureView::Budget => (LessonView::Budget, false),
        PictureView::Map => (LessonView::Map, false),
        PictureView::Motion => (LessonView::Whole, true),
    };
    Step {
        title: shown.title().to_owned(),
        text: FIRST_TEXT.to_owned(),
        view: shown,
        motion,
        numbers: ["behind_centre", "sweep", "sweep_share"]
            .map(str::to_owned)
            .to_vec(),
        ..Step::default()
    }
}
