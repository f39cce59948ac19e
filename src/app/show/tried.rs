//! What is tried by the slider. The unit's own document stays as it is.

use std::rc::Rc;

use super::slide::SliderOf;
use crate::analysis::{Solved, SolvedId};
use crate::app::form::range_of;
use crate::lesson::Turned;
use crate::units::System;

/// Why the slider does not go where no setting can be written.
pub(super) const CANNOT_BE_SET: &str = "there is no such setting";

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

    /// The unit as it is tried; none while it stands as it is set.
    pub(super) fn otherwise(&self, set: &Solved, turned: Turned) -> Option<&Rc<Solved>> {
        let away = self.away(set, turned).map(|away| &away.solved);
        away.filter(|tried| tried.document != set.document)
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
        let before = self.shown(set, Some(turned));
        let solved = turned
            .at_base(set, base)
            .map(|document| Solved::of(&document));
        let (solved, stopped) = match solved {
            Some(Ok(solved)) => (Rc::new(solved), None),
            Some(Err(why)) => (before, Some(why.shown_in(system))),
            None => (before, Some(CANNOT_BE_SET.to_owned())),
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
