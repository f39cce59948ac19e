//! A lesson told to a room, step by step.

use std::borrow::Cow;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Instant;

use kurbo::TranslateScale;

use super::sight::Sight;
use super::slide::{InMotion, LargeNumber, Linked, PictureOf, Seen, Slide};
use super::step_move::Moving;
use super::tried_step::TriedStep;
use crate::command::OpenLesson;
use crate::drawing::{LessonPictures, MotionOf, PairPaper};
use crate::lesson::{LessonView, SingleView, SolvedStep, Step};

/// A lesson, and the step that the room sees.
pub struct Talk {
    of: Arc<OpenLesson>,
    began: Instant,
    /// When the room came to this step.
    step_began: Instant,
    at: usize,
    /// The picture is on its way there from another step.
    moving: Option<Moving>,
    /// What somebody asked for otherwise than the step has it.
    seen: Seen,
    /// What the slider made of the step; none while it stands as the step has it.
    tried: Option<TriedStep>,
}

impl Talk {
    /// A lesson from a step on, the first being 0; from its last one where it has not so many.
    #[must_use]
    pub fn from_step(of: OpenLesson, step: usize) -> Self {
        let last = of.lesson.steps.len().saturating_sub(1);
        Self {
            of: Arc::new(of),
            began: Instant::now(),
            step_began: Instant::now(),
            at: step.min(last),
            moving: None,
            seen: Seen::default(),
            tried: None,
        }
    }

    /// So many steps on; it stops at the first and at the last. The picture moves there where it can.
    pub(super) fn go(&mut self, by: isize) {
        let (from, last) = (self.at, self.of.lesson.steps.len().saturating_sub(1));
        self.at = self.at.saturating_add_signed(by).min(last);
        if self.at != from {
            self.step_began = Instant::now();
        }
        let moved = self.pictures(0.0).step_move(from, self.at);
        let is_own = self.seen == Seen::default() && self.tried.is_none();
        let can_be = moved.is_some_and(|moved| is_own && moved.can_be());
        self.moving = can_be.then_some(Moving::from(from));
        self.seen = Seen::default();
        self.tried = None;
    }

    /// Turns the step's slider to a place, in millimetres or degrees.
    pub(super) fn turn(&mut self, base: f64) {
        let OpenLesson { lesson, steps, .. } = &*self.of;
        if let (Some(step), Some(Ok(set))) = (lesson.steps.get(self.at), steps.get(self.at)) {
            TriedStep::turn(&mut self.tried, step, set, base);
        }
    }

    /// The slider back to where the step has it.
    pub(super) fn turn_back(&mut self) {
        self.tried = None;
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

    /// What the room sees, for the presenter.
    pub(super) fn sight(&self, has_numbers: bool, is_blank: bool) -> Sight {
        Sight {
            of: Arc::clone(&self.of),
            at: self.at,
            has_numbers,
            is_blank,
            began: self.began,
            step_began: self.step_began,
        }
    }

    fn pictures(&self, clips: f64) -> LessonPictures<'_> {
        LessonPictures {
            lesson: &self.of.lesson,
            steps: &self.of.steps,
            clips,
        }
    }

    /// The clip point enlarged, or what the step shows.
    pub(super) fn lens(&mut self) {
        self.seen.is_lens = !self.seen.is_lens;
        self.seen.motion = self.seen.is_lens.then_some(false);
    }

    /// The reel in motion, or not.
    pub(super) fn motion(&mut self) {
        let step = self.of.lesson.steps.get(self.at);
        let has = step.is_some_and(|step| step.motion);
        self.seen.motion = Some(!self.seen.motion.unwrap_or(has));
    }

    /// Whether the step's numbers wait until somebody asks for them.
    pub(super) fn hides_numbers(&self) -> bool {
        let step = self.of.lesson.steps.get(self.at);
        step.is_some_and(|step| step.numbers_hidden)
    }

    /// A step's reel in motion, or the reels of both; none where it does not turn, or a speed is not known.
    fn in_motion<'a>(&'a self, step: &Step, solved: &'a SolvedStep) -> Option<InMotion<'a>> {
        if !step.turns() {
            return None;
        }
        let shows = if step.is_of_one_blade() {
            MotionOf::OneBlade
        } else {
            MotionOf::Mowing
        };
        let both = solved.second.as_ref();
        if let Some(second) = both.filter(|_| LessonPictures::are_two(step, solved)) {
            InMotion::of_both([&solved.first, second], shows)
        } else {
            let step = step.clone();
            let wide = move |paper| self.pictures(0.0).clip_on_paper(&step, solved, paper);
            Some(InMotion {
                clip_on_paper: Box::new(wide),
                ..InMotion::of(&solved.first, shows)?
            })
        }
    }

    /// What the room sees, its numbers among it or not.
    pub(super) fn slide(&self, has_numbers: bool) -> Slide<'_> {
        let OpenLesson { lesson, steps, .. } = &*self.of;
        let (step, solved) = (&lesson.steps[self.at], &steps[self.at]);
        let title = step.title.clone();
        let Ok(set) = solved else {
            let why = solved.as_ref().err().map(ToString::to_string);
            let why = why.unwrap_or_default();
            return Slide::of_words(title, format!("Not shown: {why}"));
        };
        let solved = TriedStep::shown(self.tried.as_ref(), set);
        let slider = TriedStep::slider(self.tried.as_ref(), step, set);
        let seen = self.seen;
        let shown = if seen == Seen::default() {
            Cow::Borrowed(step)
        } else {
            Cow::Owned(otherwise(step, seen))
        };
        let motion = self.in_motion(&shown, solved);
        let (is_chart, may_turn) = (shown.is_chart(), shown.view.may_turn());
        // Where it stands on the way; where it cannot stand so, the picture has arrived.
        let on_the_way = self.moving.and_then(|Moving { from, part, .. }| {
            let moved = self.pictures(0.0).step_move(from, self.at)?;
            Some((PictureOf::Between(from, self.at, part), moved.at(part)?))
        });
        let (of, on_the_way) = on_the_way.unzip();
        let both = solved.second.as_ref().map(|second| [&solved.first, second]);
        let both = both.filter(|_| LessonPictures::are_two(&shown, solved));
        let on_paper = both.map(|both| PairPaper::of(&shown, both));
        let draw = move |glass, on_paper, clips| {
            let drawn = on_the_way.as_ref().unwrap_or(solved);
            let pictures = self.pictures(clips);
            let panels = pictures.panels_through(&shown, drawn, glass, on_paper);
            panels.map_err(|none| none.to_string())
        };
        let draw = Rc::new(draw);
        let linked = on_paper.map(|on_paper| {
            let draw = Rc::clone(&draw);
            Linked {
                shows: Vec::new(),
                halves: Box::new(move |place, style| on_paper.halves(place, style)),
                draw: Box::new(move |place, style, seen| {
                    draw(seen.glass, (place, style), seen.clips)
                }),
            }
        });
        let draw =
            move |place, style, clips| draw(TranslateScale::default(), (place, style), clips);
        let here = PictureOf::Step(self.at, solved.first.id, seen);
        let numbers = solved.numbers.iter().cloned().map(LargeNumber::from);
        Slide {
            title,
            short_title: None,
            text: if has_numbers {
                solved.text.clone()
            } else {
                solved.text_asked.clone()
            },
            numbers: numbers.collect(),
            picture: Some((of.unwrap_or(here), Box::new(draw))),
            linked,
            is_chart,
            has_few_words: !is_chart,
            may_turn,
            motion,
            slider,
        }
    }
}

/// A step as somebody asked to see it.
fn otherwise(step: &Step, seen: Seen) -> Step {
    let view = match step.view {
        view if !seen.is_lens => view,
        LessonView::SideBySide(_) => LessonView::SideBySide(SingleView::Lens),
        _ => LessonView::Lens,
    };
    Step {
        view,
        motion: seen.motion.unwrap_or(step.motion),
        ..step.clone()
    }
}
