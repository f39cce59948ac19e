//! Show: the window in front of a room. One picture, a title, a few numbers, all large; form, bar and
//! tools are away.
//!
//! What belongs here: what is shown and by which keys. It shows the unit of the desk, or the steps of a
//! lesson; it changes neither. This room imports `widgets`, `desk`,
//! `form` and `areas`.

mod choose_card;
mod hint;
mod keys;
mod keys_list;
mod looking;
mod numbers_ui;
mod of_pair;
mod of_unit;
mod picture_ui;
mod presenter;
mod presenter_ui;
mod refused;
mod sight;
mod sizes;
mod slide;
mod slide_ui;
mod slider_ui;
mod spotlight;
mod step_move;
mod strips;
mod talk;
mod tried;
mod tried_step;
mod turning;
mod views;

pub use of_unit::First;
pub use sizes::show_style;
pub use talk::Talk;

use egui::{Context, Id, Ui, ViewportCommand};

use choose_card::ChooseCard;
use keys::{Act, TABLE, pressed};
use keys_list::{KEYS_CARD, KeysCard};
use looking::BY_KEY;
use of_pair::OfPair;
use of_unit::OfUnit;
use picture_ui::Shown as PictureShown;
use presenter::Presenter;
use refused::{Kind, why_not};
use slide::SliderOf;
use slide_ui::{Done, How, SlideUi};
use strips::pointer;
use turning::Turning;

use crate::app::desk::Desk;
use crate::drawing::{PictureView, Words};

/// What is shown to the room.
enum Shown {
    Unit(OfUnit),
    Pair(Box<OfPair>),
    Lesson(Box<Talk>),
}

/// What the slide on the screen offers, as it was last seen.
#[derive(Default)]
struct Offered {
    /// Blades a second when mowing, where its reel turns.
    real_clips_per_s: Option<f64>,
    slider: Option<SliderOf>,
    /// Whether more words can be shown on its picture.
    has_few_words: bool,
    /// What is not done there, and why.
    refused: Vec<(Act, &'static str)>,
}

/// Where a person was before the room saw anything.
#[derive(Clone, Copy, Debug, Default)]
struct Before {
    /// What had the keys.
    focused: Option<Id>,
    had_whole_screen: bool,
}

/// The window in front of a room; most of the time it is not.
#[derive(Default)]
pub struct Show {
    shown: Option<Shown>,
    before: Before,
    /// All is dark, so that the room looks at the speaker.
    is_blank: bool,
    /// Numbers that somebody asked for or put away, on this slide.
    numbers_asked: Option<bool>,
    /// The words on the picture, where it is one of the unit; none of any.
    words: Words,
    has_spotlight: bool,
    turning: Turning,
    offered: Offered,
    presenter: Presenter,
    ui: SlideUi,
}

impl Show {
    /// Whether the room sees it.
    pub fn is_on(&self) -> bool {
        self.shown.is_some()
    }

    /// Shows the unit in front, beginning with what is to be seen first.
    pub fn show_unit(&mut self, ctx: &Context, desk: &mut Desk, first: First) {
        self.begin(ctx, desk, Shown::Unit(OfUnit::beginning_with(first)));
    }

    /// Shows what is looked at side by side, beginning with a picture; with the whole units where two have
    /// none of that kind.
    pub fn show_beside(&mut self, ctx: &Context, desk: &mut Desk, view: PictureView) {
        let pair = OfPair::of(desk.beside().clone(), view);
        self.begin(ctx, desk, Shown::Pair(Box::new(pair)));
    }

    /// Shows a lesson.
    pub fn show_lesson(&mut self, ctx: &Context, desk: &mut Desk, talk: Talk) {
        self.begin(ctx, desk, Shown::Lesson(Box::new(talk)));
    }

    /// Stops the reel: for a picture of the window.
    pub fn pause(&mut self) {
        self.turning.stop();
    }

    fn begin(&mut self, ctx: &Context, desk: &mut Desk, shown: Shown) {
        let before = Before {
            focused: ctx.memory(egui::Memory::focused),
            had_whole_screen: ctx.input(|input| input.viewport().fullscreen == Some(true)),
        };
        let before = if self.is_on() { self.before } else { before };
        *self = Self {
            shown: Some(shown),
            words: Words::Few,
            before,
            ..Self::default()
        };
        // The desktop may have been set otherwise since the window was opened.
        desk.ask_for_motion();
    }

    fn end(&mut self, ctx: &Context, desk: &mut Desk) {
        let before = self.before;
        // Where it is made, the step that the room saw last is in front.
        if let Some(Shown::Lesson(talk)) = &self.shown
            && desk.lesson().is_some()
        {
            desk.want_step(talk.sight(true, false).at);
        }
        *self = Self::default();
        if let Some(focused) = before.focused {
            ctx.memory_mut(|memory| memory.request_focus(focused));
        }
        if !before.had_whole_screen {
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(false));
        }
    }

    /// Does what the keys ask for; none while a card has them. The list of keys gives way to any of them.
    pub fn do_as_pressed(&mut self, ui: &Ui, desk: &mut Desk) {
        if desk.has_card() && !desk.has_card_named(KEYS_CARD) {
            return;
        }
        while let Some(act) = pressed(ui.ctx()) {
            self.ui.hint.wake(ui.ctx());
            if desk.has_card_named(KEYS_CARD) {
                desk.take_card();
                if matches!(act, Act::ListKeys | Act::End) {
                    continue;
                }
            }
            if let Some(Shown::Lesson(talk)) = &mut self.shown {
                talk.arrive();
            }
            self.ask(act, ui, desk);
            if !self.is_on() {
                return;
            }
        }
    }

    /// Does what was asked for in the presenter's window, and shows there what goes with the slide.
    fn beside_the_room(&mut self, ui: &Ui, desk: &mut Desk) {
        for act in self.presenter.asked() {
            if self.is_on() {
                self.ask(act, ui, desk);
            }
        }
        if let Some(Shown::Lesson(talk)) = &self.shown {
            let sight = talk.sight(self.has_numbers(), self.is_blank);
            self.presenter.show(ui.ctx(), &sight);
        }
    }

    /// Opens the presenter's window as the lesson begins.
    pub fn open_presenter(&mut self) {
        self.presenter.open_over_whole_screen();
    }

    /// Does it, or says why it is not done on the slide that is seen.
    fn ask(&mut self, act: Act, ui: &Ui, desk: &mut Desk) {
        let refused = self.offered.refused.iter();
        let why = refused.filter(|(refused, _)| *refused == act);
        match why.map(|(_, why)| *why).next() {
            Some(why) => self.ui.hint.tell(why),
            None => self.act(act, ui, desk),
        }
    }

    fn act(&mut self, act: Act, ui: &Ui, desk: &mut Desk) {
        match act {
            Act::End => self.end(ui.ctx(), desk),
            Act::Next => self.go(1),
            Act::Back => self.go(-1),
            Act::First => self.go(isize::MIN),
            Act::Last => self.go(isize::MAX),
            Act::Blank => self.is_blank = !self.is_blank,
            Act::Numbers => self.numbers_asked = Some(!self.has_numbers()),
            Act::Choose => desk.open_card(ChooseCard),
            Act::ListKeys => desk.open_card(KeysCard),
            Act::Labels => {
                self.words = match self.words {
                    Words::Few if self.offered.has_few_words => Words::All,
                    Words::Few | Words::All => Words::None,
                    Words::None => Words::Few,
                };
            }
            Act::Lens => {
                match &mut self.shown {
                    Some(Shown::Unit(unit)) => unit.go_to_or_back(PictureView::Lens),
                    Some(Shown::Pair(pair)) => pair.go_to_or_back(PictureView::Lens),
                    Some(Shown::Lesson(talk)) => talk.lens(),
                    None => {}
                }
                self.ui.picture.show_all();
            }
            Act::Motion => {
                match &mut self.shown {
                    Some(Shown::Unit(unit)) => unit.go_to_or_back(PictureView::Motion),
                    Some(Shown::Pair(pair)) => pair.go_to_or_back(PictureView::Motion),
                    Some(Shown::Lesson(talk)) => talk.motion(),
                    None => {}
                }
                self.ui.picture.show_all();
            }
            Act::Pause => self.turning.stop_or_go(),
            Act::OneClip => self.turning.one_clip(),
            Act::Slower | Act::Faster => {
                if let Some(real) = self.offered.real_clips_per_s {
                    self.turning.change_pace(act == Act::Faster, real);
                }
            }
            Act::SliderUp | Act::SliderDown => {
                if let Some(slider) = &self.offered.slider {
                    let way = if act == Act::SliderUp { 1.0 } else { -1.0 };
                    let (low, high) = slider.range_base;
                    let to = slider.now_base + way * slider.step_base;
                    self.turn(to.clamp(low, high), desk);
                }
            }
            Act::SliderBack => match &mut self.shown {
                Some(Shown::Unit(unit)) => unit.turn_back(),
                Some(Shown::Lesson(talk)) => talk.turn_back(),
                Some(Shown::Pair(_)) | None => {}
            },
            Act::Presenter => {
                if matches!(self.shown, Some(Shown::Lesson(_))) {
                    self.presenter.open_or_close();
                }
            }
            Act::KeepStep => {
                if let Some(told) = self.keep_step(desk) {
                    self.ui.hint.tell(told);
                }
            }
            Act::Beside => self.side_by_side_or_back(desk),
            Act::Swap => {
                if let Some(Shown::Pair(pair)) = &mut self.shown {
                    pair.swap();
                }
            }
            Act::Spotlight => self.has_spotlight = !self.has_spotlight,
            Act::ZoomHere => self.ui.picture.zoom_here(pointer(ui)),
            Act::ZoomIn => self.ui.picture.zoom(BY_KEY, pointer(ui)),
            Act::ZoomOut => self.ui.picture.zoom(1.0 / BY_KEY, pointer(ui)),
        }
    }

    /// Turns the slider to a place, in millimetres or degrees.
    fn turn(&mut self, base: f64, desk: &Desk) {
        match &mut self.shown {
            Some(Shown::Unit(unit)) => unit.turn(desk, base),
            Some(Shown::Lesson(talk)) => talk.turn(base),
            Some(Shown::Pair(_)) | None => {}
        }
    }

    /// Keeps the unit as a step of the lesson; what was done, or why it was not.
    fn keep_step(&self, desk: &mut Desk) -> Option<String> {
        let Some(Shown::Unit(unit)) = &self.shown else {
            return None;
        };
        let tried = unit.tried(desk);
        Some(
            match desk.keep_step_tried_in(unit.view(), tried.as_deref()) {
                // What the room sees; the unit keeps its setting.
                Ok(told) if tried.is_some() => format!("{told} It has what the slider tries."),
                Ok(told) | Err(told) => told,
            },
        )
    }

    /// From the unit to two side by side in the same picture, and back.
    fn side_by_side_or_back(&mut self, desk: &Desk) {
        self.shown = self.shown.take().map(|shown| match shown {
            Shown::Unit(unit) => Shown::Pair(Box::new(OfPair::from_unit(unit, desk))),
            Shown::Pair(pair) => Shown::Unit(pair.into_unit()),
            Shown::Lesson(talk) => Shown::Lesson(talk),
        });
        self.ui.picture.show_all();
    }

    /// Whether the room sees numbers.
    fn has_numbers(&self) -> bool {
        self.numbers_asked.unwrap_or_else(|| match &self.shown {
            Some(Shown::Lesson(talk)) => !talk.hides_numbers(),
            _ => true,
        })
    }

    fn go(&mut self, by: isize) {
        match &mut self.shown {
            Some(Shown::Lesson(talk)) => talk.go(by),
            Some(Shown::Unit(unit)) => unit.go(by),
            Some(Shown::Pair(pair)) => pair.go(by),
            None => {}
        }
        self.numbers_asked = None;
        self.is_blank = false;
        self.turning.begin_again();
        self.ui.picture.show_all();
    }

    /// Shows it over all of the window.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let is_less_wanted = desk.wants_less_motion();
        self.turning.heed(is_less_wanted);
        if let Some(Shown::Lesson(talk)) = &mut self.shown {
            if is_less_wanted {
                talk.arrive();
            }
            if talk.go_on(ui.input(|input| input.time)) {
                ui.ctx().request_repaint();
            }
        }
        self.beside_the_room(ui, desk);
        if let Some(Shown::Pair(pair)) = &mut self.shown {
            pair.look(desk);
        }
        let has_numbers = self.has_numbers();
        let slide = match &self.shown {
            None => return,
            Some(Shown::Lesson(talk)) => talk.slide(has_numbers),
            Some(Shown::Unit(unit)) => unit.slide(desk),
            Some(Shown::Pair(pair)) => pair.slide(desk),
        };
        if self.is_blank {
            return SlideUi::blank(ui);
        }
        let real = slide.motion.as_ref().map(|motion| motion.real_clips_per_s);
        if let Some(real) = real.filter(|_| self.turning.goes()) {
            let passed = ui.input(|input| input.stable_dt);
            self.turning.pass(f64::from(passed), real);
            ui.ctx().request_repaint();
        }
        let told = slide.motion.as_ref().map(|motion| {
            let left = motion.real_clips_per_s;
            match motion.right_clips_per_s {
                Some(right) => self.turning.told_of_two([left, right]),
                None => self.turning.told(left),
            }
        });
        let how = How {
            picture: PictureShown {
                clips: self.turning.clips,
                has_numbers,
                words: self.words,
            },
            turning: told.as_deref().unwrap_or_default(),
            has_spotlight: self.has_spotlight,
        };
        let kind = match &self.shown {
            Some(Shown::Lesson(_)) => Kind::Lesson,
            Some(Shown::Pair(_)) => Kind::Pair,
            Some(Shown::Unit(_)) | None => Kind::Unit,
        };
        let has_one_window = ui.ctx().embed_viewports();
        let refused = TABLE.iter().filter_map(|entry| {
            let why = why_not(entry.act, kind, &slide, has_one_window)?;
            Some((entry.act, why))
        });
        let refused: Vec<_> = refused.collect();
        let is_offered = |act| refused.iter().all(|(refused, _)| *refused != act);
        let done = self.ui.show(ui, &slide, how, is_offered);
        let (slider, has_few_words) = (slide.slider.clone(), slide.has_few_words);
        drop(slide);
        self.offered = Offered {
            real_clips_per_s: real,
            slider,
            has_few_words,
            refused,
        };
        self.take(done, ui, desk);
    }

    /// Does what a hand did; the next frame shows it.
    fn take(&mut self, done: Done, ui: &Ui, desk: &mut Desk) {
        let Done {
            act,
            slider_base,
            clips,
        } = done;
        if act.is_some() || slider_base.is_some() || clips.is_some() {
            self.ui.hint.wake(ui.ctx());
            ui.ctx().request_repaint();
        }
        if let Some(clips) = clips {
            self.turning.drag(clips);
        }
        if let Some(base) = slider_base {
            self.turn(base, desk);
        }
        if let Some(act) = act {
            self.act(act, ui, desk);
        }
    }
}
