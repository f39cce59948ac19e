//! Two units shown to a room side by side, or two settings of one, linked in scale, ground, time and zoom.

use std::rc::Rc;

use super::of_unit::{First, OfUnit};
use super::sizes::{PAIR_NAMES, PAIR_NUMBERS};
use super::slide::{InMotion, Linked, LinkedSeen, PictureOf, Slide};
use super::views::Views;
use crate::analysis::{Difference, Solved};
use crate::app::desk::{Beside, BesideDrawn, Desk, ShowChoices, Side};
use crate::drawing::{MotionOf, PairNumbers, PictureView, SideBySide};

/// What is told where both are the same.
const SAME: &str =
    "Both are set alike: no setting is tried. To see two, choose them in View, Side by side.";

/// Which picture of both is shown.
pub(super) struct OfPair {
    beside: Beside,
    views: Views,
    drawn: BesideDrawn,
    sides: [Result<Rc<Solved>, String>; 2],
    /// The unit that was shown before, with what the slider tries on it.
    before: Option<Box<OfUnit>>,
}

impl OfPair {
    pub(super) fn of(beside: Beside, view: PictureView) -> Self {
        Self {
            beside,
            views: Views::of(&SideBySide::VIEWS, view),
            drawn: BesideDrawn::default(),
            sides: [Err(String::new()), Err(String::new())],
            before: None,
        }
    }

    /// What is chosen beside each other, or the unit as it is set beside what the slider tries on it.
    pub(super) fn from_unit(unit: OfUnit, desk: &Desk) -> Self {
        let (tried, view) = (unit.tried(desk).map(Side::AsTried), unit.view());
        let beside = tried.map_or_else(
            || desk.beside().clone(),
            |tried| Beside([Side::AsSet, tried]),
        );
        Self {
            before: Some(Box::new(unit)),
            ..Self::of(beside, view)
        }
    }

    /// The unit that was shown before, in the picture that is shown now.
    pub(super) fn into_unit(self) -> OfUnit {
        let view = self.view();
        match self.before {
            Some(mut before) => {
                before.go_to(view);
                *before
            }
            None => OfUnit::beginning_with(First::View(view)),
        }
    }

    /// So many pictures on; it stops at the first and at the last.
    pub(super) fn go(&mut self, by: isize) {
        self.views.go(by);
    }

    /// To a picture, and back to the one before.
    pub(super) fn go_to_or_back(&mut self, view: PictureView) {
        self.views.go_to_or_back(view);
    }

    /// The picture that is shown.
    pub(super) fn view(&self) -> PictureView {
        self.views.view()
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
        // Two that are one say nothing: what to do about it does.
        let text = if left.document == right.document {
            SAME
        } else {
            ""
        };
        let both = [Rc::clone(left), Rc::clone(right)];
        let system = desk.system();
        let of = PictureOf::Pair([left.id, right.id], view, system);
        let chosen = desk.preferences().show.numbers();
        let mut ids = Difference::told_first(&chosen, [left, right], system);
        ids.truncate(ShowChoices::MOST);
        let numbers = PairNumbers {
            ids,
            size: PAIR_NUMBERS,
            name_size: PAIR_NAMES,
            are_hidden: false,
        };
        let motion = (view == PictureView::Motion)
            .then(|| InMotion::of_both([left, right].map(Rc::clone), MotionOf::Mowing))
            .flatten();
        let draw = {
            let numbers = numbers.clone();
            move |place, style, seen: LinkedSeen| {
                let pair = SideBySide {
                    units: both.each_ref().map(|unit| &**unit),
                    names: names.clone(),
                    view,
                    system,
                    clips: seen.clips,
                };
                let numbers = PairNumbers {
                    are_hidden: !seen.has_numbers,
                    ..numbers.clone()
                };
                let panels = pair.panels_through(seen.glass, &numbers, place, style);
                panels.map_err(|none| none.to_string())
            }
        };
        let shows = numbers.ids.clone();
        let halves = move |place, style| SideBySide::halves(&numbers, place, style);
        Slide {
            short_title: Some("Side by side".to_owned()),
            title,
            text: text.to_owned(),
            numbers: Vec::new(),
            picture: Some((of, Box::new(|_, _, _| Ok(Vec::new())))),
            linked: Some(Linked {
                shows,
                halves: Box::new(halves),
                draw: Box::new(draw),
            }),
            is_chart: false,
            has_few_words: true,
            may_turn: true,
            motion,
            slider: None,
        }
    }
}
