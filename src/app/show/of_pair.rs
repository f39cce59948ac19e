//! Two units shown to a room side by side, or two settings of one, linked in scale, ground, time and zoom.

use std::rc::Rc;

use super::sizes::{PAIR_NAMES, PAIR_NUMBERS};
use super::slide::{InMotion, Linked, LinkedSeen, PictureOf, Slide};
use crate::analysis::Solved;
use crate::app::desk::{Beside, BesideDrawn, Desk};
use crate::drawing::{PairNumbers, PictureView, SideBySide};

/// Which picture of both is shown.
pub(super) struct OfPair {
    beside: Beside,
    at: usize,
    /// The one that lens or motion was asked for from.
    before: Option<usize>,
    drawn: BesideDrawn,
    sides: [Result<Rc<Solved>, String>; 2],
}

fn place_of(view: PictureView) -> usize {
    let at = SideBySide::VIEWS
        .into_iter()
        .position(|other| other == view);
    at.unwrap_or(0)
}

impl OfPair {
    pub(super) fn of(beside: Beside, view: PictureView) -> Self {
        Self {
            beside,
            at: place_of(view),
            before: None,
            drawn: BesideDrawn::default(),
            sides: [Err(String::new()), Err(String::new())],
        }
    }

    /// So many pictures on; it stops at the first and at the last.
    pub(super) fn go(&mut self, by: isize) {
        let last = SideBySide::VIEWS.len() - 1;
        self.at = self.at.saturating_add_signed(by).min(last);
        self.before = None;
    }

    /// To a picture, and back to the one before.
    pub(super) fn go_to_or_back(&mut self, view: PictureView) {
        let at = place_of(view);
        if self.at == at {
            self.at = self.before.take().unwrap_or(0);
        } else {
            self.before = Some(self.at);
            self.at = at;
        }
    }

    /// The picture that is shown.
    pub(super) fn view(&self) -> PictureView {
        SideBySide::VIEWS[self.at]
    }

    /// Left and right change places.
    pub(super) fn swap(&mut self) {
        self.beside.0.swap(0, 1);
    }

    /// Looks at both as the desk has them now.
    pub(super) fn look(&mut self, desk: &Desk) {
        self.sides = self.drawn.of(desk, &self.beside);
    }

    pub(super) fn slide(&self, desk: &Desk) -> Slide<'static> {
        let view = self.view();
        let title = format!("Side by side: {}", view.name().to_lowercase());
        let names = desk.names_of(&self.beside);
        let [Ok(left), Ok(right)] = &self.sides else {
            let told = self.sides.iter().zip(&names).filter_map(|(side, name)| {
                let why = side.as_ref().err()?;
                Some(format!("{name}: {why}"))
            });
            let told: Vec<String> = told.collect();
            return Slide::of_words(title, told.join(" "));
        };
        let both = [Rc::clone(left), Rc::clone(right)];
        let system = desk.system();
        let of = PictureOf::Pair([left.id, right.id], view, system);
        let numbers = PairNumbers {
            ids: desk.preferences().show.numbers(),
            size: PAIR_NUMBERS,
            name_size: PAIR_NAMES,
        };
        let none = PairNumbers {
            ids: Vec::new(),
            ..numbers.clone()
        };
        let numbers_seen = move |has_numbers: bool| {
            if has_numbers {
                numbers.clone()
            } else {
                none.clone()
            }
        };
        let motion = (view == PictureView::Motion)
            .then(|| InMotion::of(Rc::clone(left)))
            .flatten();
        let draw = {
            let numbers_seen = numbers_seen.clone();
            move |place, style, seen: LinkedSeen| {
                let pair = SideBySide {
                    units: both.each_ref().map(|unit| &**unit),
                    names: names.clone(),
                    view,
                    system,
                    clips: seen.clips,
                };
                let numbers = numbers_seen(seen.has_numbers);
                let panels = pair.panels_through(seen.glass, &numbers, place, style);
                panels.map_err(|none| none.to_string())
            }
        };
        let halves = move |place, style, has_numbers| {
            SideBySide::halves(&numbers_seen(has_numbers), place, style)
        };
        Slide {
            short_title: Some("Side by side".to_owned()),
            title,
            text: String::new(),
            numbers: Vec::new(),
            picture: Some((of, Box::new(|_, _, _| Ok(Vec::new())))),
            linked: Some(Linked {
                halves: Box::new(halves),
                draw: Box::new(draw),
            }),
            is_chart: false,
            has_few_words: !matches!(view, PictureView::Motion),
            motion,
            slider: None,
        }
    }
}
