//! What is tried by the slider. The unit's own document stays as it is.

use std::rc::Rc;

use super::slide::SliderOf;
use crate::analysis::{Solved, SolvedId};
use crate::app::form::range_of;
use crate::lesson::Turned;
use crate::units::System;

/// A unit with its setting turned.
#[derive(Debug)]
struct Away {
    /// The unit as it is set.
    of: SolvedId,
    turned: Turned,
    solved: Rc<Solved>,
    /// Why it went no further.
    stopped: Option<String>,
}

/// What the slider made of a unit; none while it stands where the unit is set.
#[derive(Debug, Default)]
pub(super) struct Tried(Option<Away>);

impl Tried {
    fn away(&self, set: &Solved, turned: Turned) -> Option<&Away> {
        let away = self.0.as_ref();
        away.filter(|away| away.of == set.id && away.turned == turned)
    }

    /// The unit to show: as tried, or as it is set.
    pub(super) fn shown(&self, set: &Rc<Solved>, turned: Option<Turned>) -> Rc<Solved> {
        let away = turned.and_then(|turned| self.away(set, turned));
        away.map_or_else(|| Rc::clone(set), |away| Rc::clone(&away.solved))
    }

    /// The slider as it stands.
    pub(super) fn slider(&self, set: &Solved, turned: Turned, system: System) -> Option<SliderOf> {
        let away = self.away(set, turned);
        let slider = slider_of(set, away.map_or(set, |away| &away.solved), turned, system)?;
        Some(SliderOf {
            stopped: away.and_then(|away| away.stopped.clone()),
            ..slider
        })
    }

    /// Turns it to a place, or leaves it where it is with the reason why it cannot go there.
    pub(super) fn turn(&mut self, set: &Rc<Solved>, turned: Turned, base: f64, system: System) {
        let Some(document) = turned.at_base(set, base) else {
            return;
        };
        let before = self.shown(set, Some(turned));
        let (solved, stopped) = match Solved::of(&document) {
            Ok(solved) => (Rc::new(solved), None),
            Err(why) => (before, Some(why.shown_in(system))),
        };
        self.0 = Some(Away {
            of: set.id,
            turned,
            solved,
            stopped,
        });
    }

    /// Back to what is set.
    pub(super) fn end(&mut self) {
        self.0 = None;
    }
}

/// The slider over a unit as it is set, standing where it is shown; none where its range cannot be told.
pub(super) fn slider_of(
    set: &Solved,
    shown: &Solved,
    turned: Turned,
    system: System,
) -> Option<SliderOf> {
    let range = range_of(system, &set.document, turned.field())?;
    let set_base = turned.now_base(set);
    let (low, high) = range.ends_base();
    Some(SliderOf {
        turned,
        now_base: turned.now_base(shown),
        set_base,
        range_base: (low.min(set_base), high.max(set_base)),
        step_base: range.step_base(),
        system,
        stopped: None,
    })
}
