//! The pages of a sheet: what belongs to the whole of it, then its steps in working order.

use crate::plate::Step;

/// A page of the sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Page {
    /// What belongs to the whole sheet.
    #[default]
    Job,
    /// A step of the work.
    Step(Step),
    /// Which gauge bar the knife is laid on.
    GaugeBar,
}

impl Page {
    /// Every page in working order. The bar is chosen before it is measured.
    pub fn all() -> Vec<Self> {
        let steps = Step::ALL.into_iter().map(Self::Step);
        [Self::Job, Self::GaugeBar]
            .into_iter()
            .chain(steps)
            .collect()
    }

    /// Its name.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Job => "the job",
            Self::Step(step) => step.title(),
            Self::GaugeBar => "choose the gauge bar",
        }
    }

    /// What is done on it.
    pub const fn what_to_do(self) -> &'static str {
        match self {
            Self::Job => "Write the unit's cutting width, and who does the work on which day.",
            Self::Step(step) => step.what_to_do(),
            Self::GaugeBar => {
                "Choose the bar that leaves the unit nearest its working attitude, with knife and hardware clear of the plate."
            }
        }
    }

    /// What makes it safe; none where no hand goes near the machine.
    pub const fn caution(self) -> Option<&'static str> {
        match self {
            Self::Job => None,
            Self::Step(step) => step.caution(),
            Self::GaugeBar => Some(
                "Lift the unit with a hoist or a second person. Block the reel, and lower the knife onto the bar with fingers clear of both; block the unit so that it cannot tip.",
            ),
        }
    }

    /// The page before it and the one after it.
    pub fn neighbours(self) -> (Option<Self>, Option<Self>) {
        let all = Self::all();
        let place = all.iter().position(|page| *page == self).unwrap_or(0);
        let before = place.checked_sub(1).and_then(|before| all.get(before));
        (before.copied(), all.get(place + 1).copied())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_page_has_its_neighbours() {
        let all = Page::all();
        assert_eq!(all.len(), Step::ALL.len() + 2);
        let mut page = Page::Job;
        for wanted in &all[1..] {
            let next = page.neighbours().1.expect("a next page");
            assert_eq!((next, next.neighbours().0), (*wanted, Some(page)));
            page = next;
        }
        assert_eq!(page.neighbours().1, None);
    }
}
