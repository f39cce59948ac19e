//! The demo units, each by its name.

use std::fs;
use std::path::{Path, PathBuf};

use sweepgauge::store::open_unit;
use sweepgauge::unit::Document;

/// A demo unit, as its file is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DemoUnit {
    /// The one the window begins with.
    FairwayTrailed,
    /// Sweeps far below its cut.
    GreensScalping,
    /// Well set.
    GreensWalking,
    /// Has several knives to choose from.
    KnifeChoice,
    /// Set by its rollers, in fractions of an inch.
    RollersGiven,
    /// In millimetres.
    SportsMetric,
    /// Scalps the crowns.
    TeesCrowned,
    /// Its knife turns on a bar.
    TurningBar,
}

impl DemoUnit {
    /// Every one, in the order of their names.
    pub const ALL: [Self; 8] = [
        Self::FairwayTrailed,
        Self::GreensScalping,
        Self::GreensWalking,
        Self::KnifeChoice,
        Self::RollersGiven,
        Self::SportsMetric,
        Self::TeesCrowned,
        Self::TurningBar,
    ];

    /// The name of its file.
    pub fn file_name(self) -> &'static str {
        match self {
            Self::FairwayTrailed => "fairway-trailed.ron",
            Self::GreensScalping => "greens-scalping.ron",
            Self::GreensWalking => "greens-walking.ron",
            Self::KnifeChoice => "knife-choice.ron",
            Self::RollersGiven => "rollers-given.ron",
            Self::SportsMetric => "sports-metric.ron",
            Self::TeesCrowned => "tees-crowned.ron",
            Self::TurningBar => "turning-bar.ron",
        }
    }

    /// Its file.
    pub fn file(self) -> PathBuf {
        folder().join(self.file_name())
    }

    /// Its text.
    pub fn text(self) -> String {
        fs::read_to_string(self.file()).unwrap()
    }

    /// Its document.
    pub fn document(self) -> Document {
        open_unit(&self.file()).unwrap()
    }

    /// The files of them all.
    pub fn files() -> [PathBuf; 8] {
        Self::ALL.map(Self::file)
    }
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units")
}

#[test]
fn the_demo_units_named_are_those_there_are() {
    let mut there: Vec<_> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.is_file())
        .collect();
    there.sort();
    assert_eq!(there, DemoUnit::files());
}
