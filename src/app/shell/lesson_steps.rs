//! The unit in front kept as a step of the lesson, from whatever area.

use crate::app::desk::Desk;
use crate::drawing::PictureView;
use crate::lesson::{LessonView, Step};

/// What is said about a step until its maker says something of their own.
const FIRST_TEXT: &str = "The edge stands {behind_centre} behind centre. The reel sweeps {sweep}, {sweep_share} of the height of cut.";

/// Keeps the unit in front, its setting and the view as a step behind the others; a lesson begins with it
/// where none is open.
pub fn keep_step(desk: &mut Desk, view: PictureView) {
    let is_new = desk.lesson().is_none();
    match desk.keep_as_step(begun_with(view)) {
        Ok(_) if is_new => {
            desk.tell("A lesson was begun with this step. Give it its words in Lesson.");
        }
        Ok(number) => desk.tell(format!("Kept as step {} of the lesson.", number + 1)),
        Err(why) => desk.warn(format!("Not kept as a step. {why}")),
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
