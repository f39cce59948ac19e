//! What a key does not do on a slide, and why: the bar leaves it out, and its key is answered.

use super::keys::Act;
use super::slide::{Slide, SliderOf};

/// What a slide is one of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Unit,
    Pair,
    Lesson,
}

/// Why something is not done on a slide; none where it is.
pub(super) fn why_not(
    act: Act,
    kind: Kind,
    slide: &Slide,
    has_one_window: bool,
) -> Option<&'static str> {
    let is_lesson = kind == Kind::Lesson;
    let why = |is_refused: bool, why| is_refused.then_some(why);
    match act {
        Act::Choose => why(is_lesson, "A step has its own numbers and slider"),
        Act::Beside => why(is_lesson, "A step says what is side by side"),
        Act::Swap => why(kind != Kind::Pair, "Two change places where two are: D"),
        Act::KeepStep => match kind {
            Kind::Unit => None,
            Kind::Pair => Some("One unit can be kept as a step: D, then K"),
            Kind::Lesson => Some("This is a step already"),
        },
        Act::Presenter => match kind {
            Kind::Lesson => why(
                has_one_window,
                "No second window here: the room would read the notes",
            ),
            Kind::Unit | Kind::Pair => Some("The presenter's window goes with a lesson"),
        },
        Act::Motion => why(!slide.may_turn, "No reel turns in this picture"),
        Act::Pause | Act::OneClip | Act::Slower | Act::Faster => {
            why(slide.motion.is_none(), "No reel turns here: M first")
        }
        Act::SliderUp | Act::SliderDown => why(slide.slider.is_none(), "No slider here"),
        Act::SliderBack => why(
            !slide.slider.as_ref().is_some_and(SliderOf::can_go_back),
            "The slider is where it is set",
        ),
        Act::Next
        | Act::Back
        | Act::First
        | Act::Last
        | Act::Blank
        | Act::Numbers
        | Act::Labels
        | Act::Lens
        | Act::Spotlight
        | Act::ZoomHere
        | Act::ZoomIn
        | Act::ZoomOut
        | Act::ListKeys
        | Act::End => None,
    }
}
