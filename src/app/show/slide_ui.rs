//! A slide on the screen.

use std::borrow::Cow;

use egui::{Color32, CornerRadius, Label, Pos2, RichText, Ui, UiBuilder};

use super::hint::Hint;
use super::keys::Act;
use super::numbers_ui::numbers_ui;
use super::picture_ui::{PictureUi, Shown};
use super::sizes::{BETWEEN, MARGIN, Sizes};
use super::slide::Slide;
use super::slider_ui::slider_ui;
use super::spotlight::spotlight;
use super::strips::{cut_foot, fine_line, pointer, width_of};
use crate::analysis::CAUTION_IN_A_LINE;
use crate::app::widgets::look::{colour, theme};
use crate::drawing::words::fitted;
use crate::drawing::{MotionOf, Role};

/// Height of the bar in the margin, in parts of its words' size, and the paper under it, of the screen's height.
const BAR: f32 = 1.3;
const UNDER_BAR: f32 = 0.003;

/// What is kept of the slide on the screen.
#[derive(Default)]
pub(super) struct SlideUi {
    pub(super) picture: PictureUi,
    pub(super) hint: Hint,
    /// Where the pointer was last.
    pointer: Option<Pos2>,
}

/// How a slide is shown.
#[derive(Clone, Copy, Debug)]
pub(super) struct How<'a> {
    pub(super) picture: Shown,
    /// How the reel turns, where it does.
    pub(super) turning: &'a str,
    pub(super) has_spotlight: bool,
}

/// What a hand did on a slide.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Done {
    /// What was pressed on the bar.
    pub(super) act: Option<Act>,
    /// Where the slider was turned to, in millimetres or degrees.
    pub(super) slider_base: Option<f64>,
    /// By how many clips the reel was turned.
    pub(super) clips: Option<f64>,
}

impl SlideUi {
    /// All dark.
    pub(super) fn blank(ui: &Ui) {
        let all = ui.max_rect();
        ui.painter()
            .rect_filled(all, CornerRadius::ZERO, Color32::BLACK);
    }

    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        slide: &Slide,
        how: How,
        is_offered: impl Fn(Act) -> bool,
    ) -> Done {
        let all = ui.max_rect();
        let sizes = Sizes {
            high: ui.ctx().content_rect().height(),
        };
        let theme = theme(ui.ctx());
        let ground = colour(theme.look(Role::Paper).fill);
        ui.painter().rect_filled(all, CornerRadius::ZERO, ground);
        let ink = colour(theme.look(Role::Heading).ink);
        let between = sizes.part(BETWEEN);
        let mut left = all.shrink2(egui::vec2(sizes.part(MARGIN), 0.0));
        left.min.y += sizes.part(MARGIN);
        let mut done = Done::default();
        let was = std::mem::replace(&mut self.pointer, pointer(ui));
        if !how.has_spotlight && self.pointer.is_some() && self.pointer != was {
            self.hint.wake(ui.ctx());
        }
        // From the foot up: bar, cautions, slider, numbers. The bar is in the margin, so that the picture
        // has no less room for it, and none to gain when it fades.
        let fine = sizes.fine();
        let line = 1.4 * fine.size;
        cut_foot(&mut left, sizes.part(UNDER_BAR));
        let place = cut_foot(&mut left, BAR * fine.size);
        done.act = self.hint.show(ui, place, sizes, ink, is_offered);
        let place = cut_foot(&mut left, line);
        fine_line(ui, place, &CAUTION_IN_A_LINE, (&fine, ink));
        if let Some(motion) = &slide.motion {
            let place = cut_foot(&mut left, line);
            let [long, short] = match motion.shows {
                MotionOf::Mowing => ["Stems of grass are an illustration. ", "Illustration. "],
                MotionOf::OneBlade => [""; 2],
            };
            let told = [long, short].map(|lead| format!("{lead}{}", how.turning));
            fine_line(
                ui,
                place,
                &told.each_ref().map(String::as_str),
                (&fine, ink),
            );
        }
        let has_numbers = how.picture.has_numbers;
        if let Some(slider) = &slide.slider {
            done.slider_base = slider_ui(ui, &mut left, slider, has_numbers, (sizes, ink));
        }
        left.max.y -= between;
        let numbers = (slide.numbers.as_slice(), !has_numbers);
        numbers_ui(ui, &mut left, numbers, sizes, ink);
        left.max.y -= between;
        // From the head down: title, text; the picture has what is left.
        let title = title(ui, slide, left.width(), (sizes, ink));
        let title = RichText::new(title).font(sizes.title()).color(ink);
        let mut head = ui.new_child(UiBuilder::new().max_rect(left));
        head.add(Label::new(title).wrap());
        if !slide.text.is_empty() {
            let text = RichText::new(&slide.text).font(sizes.text()).color(ink);
            head.add(Label::new(text).wrap());
        }
        left.min.y = (head.min_rect().bottom() + between).min(left.max.y);
        done.clips = self.picture.show(ui, left, slide, (how.picture, sizes));
        if how.has_spotlight
            && let Some(at) = pointer(ui)
        {
            spotlight(ui, at);
        }
        done
    }
}

/// The title: all of it, or what of it fits into a line where it has a shorter form.
fn title<'a>(ui: &Ui, slide: &'a Slide, room: f32, (sizes, ink): (Sizes, Color32)) -> Cow<'a, str> {
    let font = sizes.title();
    let (size, room_on_paper) = (f64::from(font.size), f64::from(room));
    match &slide.short_title {
        Some(short) if width_of(ui, &slide.title, font, ink) > room => {
            fitted(short, size, true, room_on_paper)
        }
        _ => Cow::Borrowed(&slide.title),
    }
}
