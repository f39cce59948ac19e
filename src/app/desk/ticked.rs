//! The knives that are ticked for drawing over the fitted one.

use crate::analysis::knives::Trial;
use crate::analysis::{Case, Solution, Solved};
use crate::drawing::{KNIFE_LINES, OVERLAYS, Overlay};
use crate::geometry::Setting;
use crate::unit::{Document, Fitted};

/// The knives ticked for drawing over the fitted one, as many as can be told apart.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ticked([Option<String>; OVERLAYS]);

impl Ticked {
    /// The place of a knife that is ticked.
    pub fn place_of(&self, name: &str) -> Option<u8> {
        self.iter()
            .find_map(|(place, ticked)| (ticked == name).then_some(place))
    }

    /// Whether every place is taken.
    pub fn is_full(&self) -> bool {
        self.0.iter().all(Option::is_some)
    }

    /// Whether no knife is ticked.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(Option::is_none)
    }

    /// Ticks a knife, in the first place that is free, or unticks it.
    pub fn set(&mut self, name: &str, is_ticked: bool) {
        self.keep_only(|ticked| ticked != name);
        if is_ticked && let Some(place) = self.0.iter_mut().find(|place| place.is_none()) {
            *place = Some(name.to_owned());
        }
    }

    /// Follows a change of the document: a knife that was given another name stays ticked, one that
    /// is gone does not.
    pub(super) fn follow(&mut self, before: &Document, after: &Document) {
        if before.options.len() == after.options.len() {
            for ticked in self.0.iter_mut().flatten() {
                let mut pairs = before.knives().zip(after.knives());
                if let Some((_, (_, knife))) = pairs.find(|((_, old), _)| old.name == *ticked) {
                    knife.name.clone_into(ticked);
                }
            }
        }
        self.keep_only(|name| after.knives().any(|(_, knife)| knife.name == name));
    }

    fn keep_only(&mut self, is_kept: impl Fn(&str) -> bool) {
        for place in &mut self.0 {
            if place.as_deref().is_some_and(|name| !is_kept(name)) {
                *place = None;
            }
        }
    }

    /// The names of the ticked knives.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.iter().map(|(_, name)| name)
    }

    fn iter(&self) -> impl Iterator<Item = (u8, &str)> {
        (0_u8..)
            .zip(&self.0)
            .filter_map(|(place, name)| Some((place, name.as_deref()?)))
    }
}

/// The place of a knife among the lines that can be told apart: one line a knife, wherever it is drawn.
pub fn line_of(knife: Fitted) -> u8 {
    let number = match knife {
        Fitted::Bench => 0,
        Fitted::Option(index) => index + 1,
    };
    u8::try_from(number % KNIFE_LINES).unwrap_or_default()
}

/// A ticked knife solved on the unit, all else as set.
#[derive(Clone, Debug)]
pub struct Overlaid {
    name: String,
    place: u8,
    setting: Setting,
    solution: Solution,
}

impl Overlaid {
    /// Every ticked knife of the document last solved that meets the reel.
    pub fn all_of(good: &Solved, ticked: &Ticked) -> Vec<Self> {
        let (unit, trial) = (&good.unit, Trial::of(&good.solution));
        ticked
            .iter()
            .filter_map(|(_, name)| {
                let (listed, knife) = good
                    .document
                    .knives()
                    .find(|(_, knife)| knife.name == name)?;
                let section = good.document.section_of(listed, knife);
                let setting = trial.setting(unit, section, unit.setting.reel_diameter);
                Some(Self {
                    name: name.to_owned(),
                    place: line_of(listed),
                    setting,
                    solution: Solution::of(unit, &setting).ok()?,
                })
            })
            .collect()
    }

    /// What a side view draws of them.
    pub fn all_on<'a>(all: &'a [Self], solved: &'a Solved) -> Vec<Overlay<'a>> {
        all.iter()
            .map(|overlaid| Overlay {
                name: &overlaid.name,
                place: overlaid.place,
                case: Case {
                    unit: &solved.unit,
                    setting: &overlaid.setting,
                    solution: &overlaid.solution,
                },
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Change, Desk, NoDialogs, Preferences, Session};
    use super::*;
    use crate::units::Quantity;

    #[test]
    fn a_ticked_knife_keeps_its_place_while_others_come_and_go() {
        let mut ticked = Ticked::default();
        for name in ["a", "b", "c", "d", "e"] {
            ticked.set(name, true);
        }
        assert!(ticked.is_full() && ticked.place_of("e").is_none());
        ticked.set("b", false);
        assert_eq!(ticked.place_of("c"), Some(2));
        ticked.set("e", true);
        assert_eq!(ticked.place_of("e"), Some(1));
        ticked.keep_only(|name| name == "e");
        assert_eq!(ticked.iter().collect::<Vec<_>>(), [(1, "e")]);
    }

    #[test]
    fn a_ticked_knife_is_drawn_as_it_was_solved_whatever_was_typed_since() {
        let session = Session::demo().expect("the demo unit opens");
        let mut desk = Desk::new(session, Preferences::default(), Box::new(NoDialogs));
        let name = desk.document().options[0].name.clone();
        desk.tick(&name, true);
        let reach_mm = |desk: &Desk| {
            let overlaid = desk.overlaid();
            overlaid
                .iter()
                .map(|o| o.setting.knife.reach.mm())
                .collect::<Vec<_>>()
        };
        let before = reach_mm(&desk);
        assert_eq!(before.len(), 1);
        // No reach at all is a flaw: what is drawn stays that of the last solution.
        desk.edit(Change::new("Reach"), |document| {
            document.options[0].reach = Quantity::parse("0 mm").expect("a length");
        });
        assert!(desk.session().trouble().is_some());
        assert_eq!(reach_mm(&desk), before);
    }

    #[test]
    fn a_tick_follows_its_knife() {
        let before = Session::demo().expect("it opens").document().clone();
        let mut ticked = Ticked::default();
        let [first, second] = [0, 1].map(|index: usize| before.options[index].name.clone());
        ticked.set(&first, true);
        ticked.set(&second, true);
        let mut renamed = before.clone();
        "another".clone_into(&mut renamed.options[1].name);
        ticked.follow(&before, &renamed);
        assert_eq!(
            ticked.iter().collect::<Vec<_>>(),
            [(0, first.as_str()), (1, "another")]
        );
        let mut shorter = renamed.clone();
        shorter.remove_knife(0);
        ticked.follow(&renamed, &shorter);
        assert_eq!(ticked.iter().collect::<Vec<_>>(), [(1, "another")]);
    }
}
