//! Show: the window in front of a room. One picture, a title, a few numbers, all large; form, bar and
//! tools are away.
//!
//! What belongs here: what is shown and by which keys. It shows the unit of the desk, or the steps of a
//! lesson; it changes neither. This room imports `widgets` and `desk`.

mod keys;
mod of_unit;
mod sizes;
mod slide;
mod slide_ui;
mod step_move;
mod talk;

pub use talk::Talk;

use egui::{Context, Ui, ViewportCommand};

use keys::{Act, pressed};
use of_unit::OfUnit;
use slide_ui::SlideUi;

use crate::app::desk::Desk;
use crate::drawing::PictureView;

/// Clips a second while the reel turns.
const CLIPS_A_SECOND: f64 = 1.0;
/// The longest time between two frames that the reel turns on for, in seconds.
const LONGEST_FRAME: f32 = 0.1;

/// What is shown to the room.
enum Shown {
    Unit(OfUnit),
    Lesson(Box<Talk>),
}

/// The window in front of a room; most of the time it is not.
#[derive(Default)]
pub struct Show {
    shown: Option<Shown>,
    /// All is dark, so that the room looks at the speaker.
    is_blank: bool,
    /// Numbers that somebody asked for or put away, on this slide.
    numbers_asked: Option<bool>,
    /// How far the reel has turned, in clips.
    clips: f64,
    /// The reel stands still, though the slide would have it turn.
    is_paused: bool,
    ui: SlideUi,
}

impl Show {
    /// Whether the room sees it.
    pub fn is_on(&self) -> bool {
        self.shown.is_some()
    }

    /// Shows the unit in front, beginning with a picture.
    pub fn show_unit(&mut self, view: PictureView) {
        self.begin(Shown::Unit(OfUnit::beginning_with(view)));
    }

    /// Shows a lesson.
    pub fn show_lesson(&mut self, talk: Talk) {
        self.begin(Shown::Lesson(Box::new(talk)));
    }

    /// Stops the reel: for a picture of the window.
    pub fn pause(&mut self) {
        self.is_paused = true;
    }

    fn begin(&mut self, shown: Shown) {
        *self = Self {
            shown: Some(shown),
            ..Self::default()
        };
    }

    fn end(&mut self, ctx: &Context) {
        *self = Self::default();
        ctx.send_viewport_cmd(ViewportCommand::Fullscreen(false));
    }

    /// Does what the keys ask for; none while something else has them.
    pub fn do_as_pressed(&mut self, ctx: &Context) {
        while let Some(act) = pressed(ctx) {
            self.ui.wake(ctx);
            if let Some(Shown::Lesson(talk)) = &mut self.shown {
                talk.arrive();
            }
            match act {
                Act::End => return self.end(ctx),
                Act::Next => self.go(1),
                Act::Back => self.go(-1),
                Act::First => self.go(isize::MIN),
                Act::Blank => self.is_blank = !self.is_blank,
                Act::Numbers => {
                    let seen = self
                        .numbers_asked
                        .unwrap_or_else(|| self.begins_with_numbers());
                    self.numbers_asked = Some(!seen);
                }
                Act::Pause => self.is_paused = !self.is_paused,
                Act::OneClip => {
                    self.is_paused = true;
                    self.clips = (self.clips + 1.0).floor();
                }
            }
        }
    }

    /// Whether the slide shows its numbers before anybody asks.
    fn begins_with_numbers(&self) -> bool {
        match &self.shown {
            Some(Shown::Lesson(talk)) => !talk.hides_numbers(),
            _ => true,
        }
    }

    fn go(&mut self, by: isize) {
        match &mut self.shown {
            Some(Shown::Lesson(talk)) => talk.go(by),
            Some(Shown::Unit(unit)) => unit.go(by),
            None => {}
        }
        self.numbers_asked = None;
        self.is_blank = false;
        self.clips = 0.0;
    }

    /// Shows it over all of the window.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk) {
        if let Some(Shown::Lesson(talk)) = &mut self.shown
            && talk.go_on(ui.input(|input| input.time))
        {
            ui.ctx().request_repaint();
        }
        let has_numbers = self
            .numbers_asked
            .unwrap_or_else(|| self.begins_with_numbers());
        let slide = match &self.shown {
            None => return,
            Some(Shown::Lesson(talk)) => talk.slide(),
            Some(Shown::Unit(unit)) => unit.slide(desk),
        };
        if self.is_blank {
            return SlideUi::blank(ui);
        }
        if slide.moves && !self.is_paused {
            let passed = ui.input(|input| input.stable_dt).min(LONGEST_FRAME);
            self.clips += CLIPS_A_SECOND * f64::from(passed);
            ui.ctx().request_repaint();
        }
        self.ui.show(ui, &slide, has_numbers, self.clips);
    }
}
