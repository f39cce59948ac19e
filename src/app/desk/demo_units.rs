//! The demo units, told by what they show.

use std::path::Path;

use crate::store::FileProblem;
use crate::unit::{self, Document};

/// A demo unit.
#[derive(Debug, PartialEq, Eq)]
pub struct DemoUnit {
    /// What it is.
    pub name: &'static str,
    /// What it shows.
    pub shows: &'static str,
    text: &'static str,
}

/// The unit that is shown when no file is given.
pub const DEMO_UNIT: &str = include_str!("../../../demo-units/fairway-trailed.ron");

/// Every demo unit; the first is the one that is shown when no file is given.
pub static DEMO_UNITS: [DemoUnit; 8] = [
    DemoUnit {
        name: "Fairway gang",
        shows: "A sound unit. Fit one knife after the other and watch the sweep.",
        text: DEMO_UNIT,
    },
    DemoUnit {
        name: "Greens unit that scalps",
        shows: "Worn and ground, its rollers left alone since: what it cuts now.",
        text: include_str!("../../../demo-units/greens-scalping.ron"),
    },
    DemoUnit {
        name: "Walking greens unit",
        shows: "Set as it should be. See how soon more attitude scalps a green.",
        text: include_str!("../../../demo-units/greens-walking.ron"),
    },
    DemoUnit {
        name: "Knives to order",
        shows: "Five knives and their prices: which one passes from new to scrap.",
        text: include_str!("../../../demo-units/knife-choice.ron"),
    },
    DemoUnit {
        name: "Rear spacer",
        shows: "An 1/8 in spacer under the rear bracket: what it does to attitude and cut.",
        text: include_str!("../../../demo-units/rollers-given.ron"),
    },
    DemoUnit {
        name: "Sports ground",
        shows: "In millimetres, over a crest, with limits from its own trials.",
        text: include_str!("../../../demo-units/sports-metric.ron"),
    },
    DemoUnit {
        name: "Crowned tees",
        shows: "Scalps the high spots and scuffs a strip at one end: ask under Why.",
        text: include_str!("../../../demo-units/tees-crowned.ron"),
    },
    DemoUnit {
        name: "Turning bar",
        shows: "The bed bar turns the knife up to the reel: how far each roller has to move.",
        text: include_str!("../../../demo-units/turning-bar.ron"),
    },
];

impl DemoUnit {
    /// Its document.
    ///
    /// # Errors
    /// Never with those that are built in; a test sees to it.
    pub fn document(&self) -> Result<Document, FileProblem> {
        unit::read_text(self.text)
            .map_err(|problem| FileProblem::wrong(Path::new("demo unit"), problem))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_demo_unit_opens_and_is_listed_once() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units");
        let files = std::fs::read_dir(folder).expect("the folder is there");
        let mut kept: Vec<_> = files
            .map(|file| file.expect("a file").path())
            .filter(|file| file.is_file())
            .map(|file| std::fs::read_to_string(file).expect("a text"))
            .collect();
        let mut listed: Vec<_> = DEMO_UNITS.iter().map(|unit| unit.text.to_owned()).collect();
        kept.sort();
        listed.sort();
        assert_eq!(kept, listed);
        for unit in &DEMO_UNITS {
            unit.document().expect("it opens");
        }
    }
}
