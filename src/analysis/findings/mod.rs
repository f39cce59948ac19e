//! Findings: what a person should know about a setting, each judged by one function in one file.
//!
//! To add one: a file with a `judge` function, and its line in [`RULES`].

// Every `judge` may say that it does not apply, also those that always do.
#![allow(clippy::unnecessary_wraps)]

mod ahead;
mod attitude;
mod clip;
mod cut;
mod lip;
mod reel;
mod scrap;
mod sweep;
mod underside;

use crate::geometry::{Pose, Setting, Stance, underside_on_bar};
use crate::unit::Unit;
use crate::units::{Angle, Length, Sentence, System, Value};

use super::Solution;

/// How a finding stands to its limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Within its limits.
    Fine,
    /// Worth watching.
    Watch,
    /// Past its limit.
    Over,
}

impl Level {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fine => "fine",
            Self::Watch => "watch",
            Self::Over => "over",
        }
    }
}

/// What is judged: a unit, one of its settings, and its solution.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// The unit.
    pub unit: &'a Unit,
    /// The setting solved.
    pub setting: &'a Setting,
    /// Its solution.
    pub solution: &'a Solution,
}

/// One thing a person should know.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    /// Its name for programs; never changes.
    pub id: &'static str,
    /// What it is about.
    pub title: &'static str,
    /// How it stands to its limits.
    pub level: Level,
    /// What was found, with the numbers.
    pub text: Sentence,
    /// What would bring it back, where something does.
    pub remedy: Option<Sentence>,
}

impl Finding {
    /// Text and remedy in one, in a reader's units.
    #[must_use]
    pub fn shown_in(&self, system: System) -> String {
        let mut text = self.text.shown_in(system);
        if let Some(remedy) = self.remedy {
            text.push(' ');
            text.push_str(&remedy.shown_in(system));
        }
        text
    }
}

/// A level, a sentence, and what would bring it back.
struct Verdict {
    level: Level,
    text: Sentence,
    remedy: Option<Sentence>,
}

/// One kind of finding. `judge` gives nothing when it does not apply.
struct Rule {
    id: &'static str,
    title: &'static str,
    judge: fn(&Case) -> Option<Verdict>,
}

/// Every kind of finding, in the order they are told.
const RULES: [Rule; 9] = [
    Rule {
        id: "sweep",
        title: "Sweep below the cut",
        judge: sweep::judge,
    },
    Rule {
        id: "ahead",
        title: "Edge and centre",
        judge: ahead::judge,
    },
    Rule {
        id: "reel",
        title: "Reel over the ground",
        judge: reel::judge,
    },
    Rule {
        id: "cut",
        title: "Edge over the ground",
        judge: cut::judge,
    },
    Rule {
        id: "underside",
        title: "Underside of the knife",
        judge: underside::judge,
    },
    Rule {
        id: "lip",
        title: "Lip of the knife",
        judge: lip::judge,
    },
    Rule {
        id: "scrap",
        title: "Reel size",
        judge: scrap::judge,
    },
    Rule {
        id: "clip",
        title: "Clip length",
        judge: clip::judge,
    },
    Rule {
        id: "attitude",
        title: "Roller brackets",
        judge: attitude::judge,
    },
];

/// The findings about one case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Findings([Option<Finding>; RULES.len()]);

impl Findings {
    /// Judges a case by every rule.
    #[must_use]
    pub fn about(case: &Case) -> Self {
        Self(RULES.each_ref().map(|rule| {
            (rule.judge)(case).map(|verdict| Finding {
                id: rule.id,
                title: rule.title,
                level: verdict.level,
                text: verdict.text,
                remedy: verdict.remedy,
            })
        }))
    }

    /// Those that apply, in the order they are told.
    pub fn iter(&self) -> impl Iterator<Item = &Finding> {
        self.0.iter().flatten()
    }

    /// The worst level among them.
    #[must_use]
    pub fn worst(&self) -> Level {
        self.iter()
            .map(|finding| finding.level)
            .max()
            .unwrap_or(Level::Fine)
    }
}

/// What another attitude would take, height of cut kept.
struct OtherAttitude {
    front_change: Value,
    rear_change: Value,
    underside_clearance: Length,
}

impl Case<'_> {
    /// Tries another attitude at the same height of cut. Nothing when it cannot be set.
    fn at_attitude(&self, attitude: Angle) -> Option<OtherAttitude> {
        let now = &self.solution.pose;
        let stance = Stance::Wanted {
            attitude,
            height_of_cut: now.height_of_cut,
        };
        let tried = Setting {
            stance,
            ..*self.setting
        };
        let pose = Pose::solve(&self.unit.profile, &tried).ok()?;
        let plate_from_bar = pose.plate_from_frame * pose.frame_from_bar;
        let underside_mm = underside_on_bar(&self.unit.profile, &tried)
            .into_iter()
            .chain(self.unit.hardware.iter().copied())
            .map(|on_bar| (plate_from_bar * on_bar).y)
            .fold(f64::INFINITY, f64::min);
        Some(OtherAttitude {
            front_change: Value::Move(pose.front_roller.moved - now.front_roller.moved),
            rear_change: Value::Move(pose.rear_roller.moved - now.rear_roller.moved),
            underside_clearance: Length::from_mm(underside_mm),
        })
    }

    /// Advice to set another attitude, with the roller moves from where they stand now.
    fn advise_attitude(&self, attitude: Angle) -> Option<Sentence> {
        let other = self.at_attitude(attitude)?;
        Some(Sentence::new(
            "An attitude of {} would bring it back: front roller {}, rear roller {} from where they stand now; the knife's underside would then clear the plate by {}.",
            &[
                attitude.into(),
                other.front_change,
                other.rear_change,
                other.underside_clearance.into(),
            ],
        ))
    }
}
