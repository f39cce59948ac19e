//! Which of a unit's mechanisms can make a mark, and how strong each is now.

mod complaint;
mod ground;
mod mechanisms;

pub use complaint::Complaint;

use std::f64::consts::PI;

use mechanisms::Mechanisms;

use crate::analysis::Case;
use crate::units::{Length, Measure as _, Sentence, Share};

/// How strong a mechanism is now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Strength {
    /// As a part of what it takes to make the mark: one and more makes it.
    Known(f64),
    /// A reading is missing.
    NotMeasured,
}

impl Strength {
    /// From here on a mechanism has a part in the mark.
    const PART: f64 = 0.5;

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::NotMeasured => "not measured",
            Self::Known(strength) if strength >= 1.0 => "can make this mark",
            Self::Known(strength) if strength >= Self::PART => "has a part",
            Self::Known(strength) if strength > 0.0 => "weak",
            Self::Known(_) => "no part",
        }
    }

    /// Whether it makes the mark by itself.
    #[must_use]
    pub fn makes_it(self) -> bool {
        matches!(self, Self::Known(strength) if strength >= 1.0)
    }

    /// Whether it has a part in the mark.
    #[must_use]
    pub fn has_part(self) -> bool {
        matches!(self, Self::Known(strength) if strength >= Self::PART)
    }

    /// For ranking: what was not measured stands between what has a part and what is weak.
    fn rank(self) -> f64 {
        match self {
            Self::Known(strength) => strength,
            Self::NotMeasured => Self::PART - 1e-6,
        }
    }
}

/// A mechanism that can make a mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// Its name for programs; never changes.
    pub id: &'static str,
    /// Its name.
    pub name: &'static str,
    /// How strong it is.
    pub strength: Strength,
    /// The numbers.
    pub text: Sentence,
    /// The measurement that would confirm it.
    pub confirm: &'static str,
}

/// The mechanisms that can make a mark, the strongest first.
#[must_use]
pub fn causes(case: &Case, complaint: Complaint) -> Vec<Cause> {
    let of = Mechanisms::of(case);
    let mut causes = match complaint {
        Complaint::StripAtOneEnd => vec![of.low_end_reel(), of.low_end_underside(), of.deep_end()],
        Complaint::Ribs => vec![
            of.clip_length(),
            of.sweep(),
            of.front_runout(),
            of.rear_runout(),
        ],
        Complaint::ScalpedCrowns => vec![
            of.together_reel(),
            of.together_underside(),
            of.lower_cut(),
            of.crest(),
            of.crest_under_knife(),
            of.sink(),
            of.sweep(),
            of.low_end_reel(),
        ],
        Complaint::Tearing => vec![of.gap(), of.ahead(), of.clip_length(), of.sweep()],
        Complaint::KnifeRiding => vec![
            of.underside(),
            of.together_underside(),
            of.sink_under_knife(),
            of.crest_under_knife(),
            of.low_end_underside(),
        ],
        Complaint::StreakPerTurn => vec![of.front_runout(), of.rear_runout()],
    };
    causes.sort_by(|a, b| b.strength.rank().total_cmp(&a.strength.rank()));
    causes
}

/// The distances at which marks come back: by clip, by turn of the reel, by turn of each roller.
#[must_use]
pub fn pitches(case: &Case) -> Vec<(&'static str, Length)> {
    let pose = &case.solution.pose;
    let clip = case.solution.mowing.map(|mowing| mowing.clip_length);
    let by_reel = clip.into_iter().flat_map(|clip| {
        [
            ("every clip", clip),
            ("every turn of the reel", clip * f64::from(case.unit.blades)),
        ]
    });
    by_reel
        .chain([
            (
                "every turn of the front roller",
                circumference(pose.front_roller.radius_mm),
            ),
            (
                "every turn of the rear roller",
                circumference(pose.rear_roller.radius_mm),
            ),
        ])
        .collect()
}

fn circumference(radius_mm: f64) -> Length {
    Length::from_mm(2.0 * PI * radius_mm)
}

impl Cause {
    /// Its strength in percent of what makes the mark; none where a reading is missing.
    #[must_use]
    pub fn share(&self) -> Option<Share> {
        match self.strength {
            Strength::Known(strength) => Some(Share::from_base(strength)),
            Strength::NotMeasured => None,
        }
    }
}
