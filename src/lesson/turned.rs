//! What is turned in front of a room to show what it does.

use serde::{Deserialize, Serialize};

use crate::analysis::Solved;
use crate::unit::{Document, Field};

/// A setting that is turned in front of a room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Turned {
    /// The attitude, the height of cut kept.
    Attitude,
    /// The height of cut, the attitude kept.
    HeightOfCut,
    /// The reel's diameter.
    ReelDiameter,
    /// The edge further ahead than the knife's reach gives.
    EdgeForward,
}

impl Turned {
    /// Every one of them.
    pub const ALL: [Self; 4] = [
        Self::Attitude,
        Self::HeightOfCut,
        Self::ReelDiameter,
        Self::EdgeForward,
    ];

    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Attitude => "Attitude",
            Self::HeightOfCut => "Height of cut",
            Self::ReelDiameter => "Reel diameter",
            Self::EdgeForward => "Edge forward",
        }
    }

    /// The field it is written in.
    #[must_use]
    pub const fn field(self) -> Field {
        match self {
            Self::Attitude => Field::WantedAttitude,
            Self::HeightOfCut => Field::WantedHeightOfCut,
            Self::ReelDiameter => Field::WantedReelDiameter,
            Self::EdgeForward => Field::Extension,
        }
    }

    /// Where it stands on a unit, in millimetres or degrees.
    #[must_use]
    pub fn now_base(self, solved: &Solved) -> f64 {
        let pose = &solved.solution.pose;
        match self {
            Self::Attitude => pose.attitude.deg(),
            Self::HeightOfCut => pose.height_of_cut.mm(),
            Self::ReelDiameter => solved.unit.setting.reel_diameter.mm(),
            Self::EdgeForward => self.field().base(&solved.document).unwrap_or(0.0),
        }
    }

    /// The unit's document with it at a place, in millimetres or degrees, rounded to what is read. A unit
    /// set by its rollers is set by attitude and height then, where one of these is turned. None where it
    /// cannot be written.
    #[must_use]
    pub fn at_base(self, solved: &Solved, base: f64) -> Option<Document> {
        let mut document = (*solved.document).clone();
        let system = solved.unit.system;
        let is_stance = matches!(self, Self::Attitude | Self::HeightOfCut);
        if is_stance && document.setting.rollers.is_some() {
            document.set_stance(solved.solution.pose.as_wanted(), system);
        }
        let set = self.field().set_base(&mut document, base, system);
        set.is_ok().then_some(document)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::read_text;

    #[test]
    fn what_is_turned_stands_where_it_was_turned_to_and_keeps_the_rest() {
        for text in [
            include_str!("../../demo-units/fairway-trailed.ron"),
            include_str!("../../demo-units/rollers-given.ron"),
        ] {
            let solved = Solved::of(&read_text(text).expect("reads")).expect("solves");
            for turned in Turned::ALL {
                let to = turned.now_base(&solved) - 0.5;
                let document = turned.at_base(&solved, to).expect("it can be written");
                let tried = Solved::of(&document).expect("solves");
                // As exact as it is read.
                assert!((turned.now_base(&tried) - to).abs() < 0.05, "{turned:?}");
                let kept = match turned {
                    Turned::Attitude => Turned::HeightOfCut,
                    _ if document.setting.rollers.is_some() => continue,
                    _ => Turned::Attitude,
                };
                let off = (kept.now_base(&tried) - kept.now_base(&solved)).abs();
                assert!(off < 1e-3, "{turned:?}: {off}");
            }
        }
    }
}
