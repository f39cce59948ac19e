//! The steps at the surface plate, in working order.

use serde::{Deserialize, Serialize};

use super::roller::Roller;

/// A step of the work at the surface plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Step {
    /// The plate and the gauge bar are cleaned, and the bar measured under both ends of the knife.
    PlateAndBar,
    /// The reel's diameter is read along it.
    Reel,
    /// The rollers' bearings are felt for play.
    Bearings,
    /// The front roller's runout is read.
    FrontRunout,
    /// The rear roller's runout is read.
    RearRunout,
    /// The gap between knife and reel is read along it.
    KnifeToReel,
    /// The front roller's ends are read.
    FrontEnds,
    /// The front roller is brought parallel.
    FrontAdjuster,
    /// The rear roller's ends are read.
    RearEnds,
    /// The rear roller is brought parallel.
    RearAdjuster,
    /// The unit is rocked on its rollers to feel for twist.
    RockTest,
    /// The height of cut is measured along the knife.
    Height,
    /// The attitude is measured at both ends of the knife.
    Attitude,
    /// What was done goes into the unit's record.
    Record,
}

/// Said where a roller is turned by hand.
const TURNING: &str = "Block the unit so that it cannot tip. Disconnect the drive and block the reel before you turn the roller; keep fingers out from between roller and frame.";
/// Said where the knife is laid on the gauge bar, and a roller is turned over the plate.
const ON_THE_BAR: &str = "Lift the unit with a hoist or a second person, and lower the knife onto the bar with fingers clear of both; block the unit so that it cannot tip. Disconnect the drive and block the reel before you turn the roller; keep fingers out from between roller, frame and plate.";
/// Said where something is measured on the unit as it stands.
const STANDING: &str =
    "Block the unit so that it cannot tip, and block the reel; keep fingers from under the knife.";

impl Step {
    /// Every step, in working order.
    pub const ALL: [Self; 14] = [
        Self::PlateAndBar,
        Self::Reel,
        Self::Bearings,
        Self::FrontRunout,
        Self::RearRunout,
        Self::KnifeToReel,
        Self::FrontEnds,
        Self::FrontAdjuster,
        Self::RearEnds,
        Self::RearAdjuster,
        Self::RockTest,
        Self::Height,
        Self::Attitude,
        Self::Record,
    ];

    /// The step in which a roller is brought parallel.
    #[must_use]
    pub const fn adjuster(roller: Roller) -> Self {
        match roller {
            Roller::Front => Self::FrontAdjuster,
            Roller::Rear => Self::RearAdjuster,
        }
    }

    /// Its name.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::PlateAndBar => "plate and gauge bar",
            Self::Reel => "reel diameter",
            Self::Bearings => "roller bearings",
            Self::FrontRunout => "front roller runout",
            Self::RearRunout => "rear roller runout",
            Self::KnifeToReel => "knife to reel",
            Self::FrontEnds => "front roller ends",
            Self::FrontAdjuster => "front roller adjuster",
            Self::RearEnds => "rear roller ends",
            Self::RearAdjuster => "rear roller adjuster",
            Self::RockTest => "rock test",
            Self::Height => "height of cut",
            Self::Attitude => "attitude",
            Self::Record => "record",
        }
    }

    /// What is done in it.
    #[must_use]
    pub const fn what_to_do(self) -> &'static str {
        match self {
            Self::PlateAndBar => {
                "Wipe plate and bar clean. Measure the bar where both ends of the knife will rest."
            }
            Self::Reel => "Read the reel's diameter left, middle and right.",
            Self::Bearings => {
                "Feel both rollers for play. Check the bearings first: with worn ones no reading repeats."
            }
            Self::FrontRunout | Self::RearRunout => {
                "Turn the roller and read the indicator left, middle and right, from one mark on the roller."
            }
            Self::KnifeToReel => {
                "Set knife to reel with a go and a no-go feeler, left, middle and right; then cut paper along the knife."
            }
            Self::FrontEnds | Self::RearEnds => {
                "Lay the knife on the bar and read the gap under both ends of the roller; turn it half a turn and read again."
            }
            Self::FrontAdjuster | Self::RearAdjuster => {
                "Bring the roller parallel at its adjuster, then read its ends again."
            }
            Self::RockTest => {
                "Stand the unit on its rollers and press each corner: with a twist it rocks."
            }
            Self::Height => "Off the bar, measure the height of cut left, middle and right.",
            Self::Attitude => "Measure the attitude at both ends of the knife.",
            Self::Record => "Put what was done into the unit's record.",
        }
    }

    /// What makes it safe; none where no hand goes near the machine.
    #[must_use]
    pub const fn caution(self) -> Option<&'static str> {
        match self {
            Self::PlateAndBar => Some(
                "Lift the unit onto the plate with a hoist or a second person, engine off, key out; block it so that it cannot tip, block the reel, and keep fingers from under it.",
            ),
            Self::Reel => Some(
                "Block the unit so that it cannot tip, block the reel, and wear cut-resistant gloves: blades cut at rest.",
            ),
            Self::Bearings | Self::FrontRunout | Self::RearRunout => Some(TURNING),
            Self::FrontEnds | Self::RearEnds => Some(ON_THE_BAR),
            Self::KnifeToReel => Some(
                "Feeler: unit blocked so that it cannot tip, reel blocked, cut-resistant gloves. Paper: power isolated, cut-resistant gloves, one person, a long strip, fingers well clear; turn the reel slowly from the shaft's end and block it again before reaching in.",
            ),
            Self::FrontAdjuster | Self::RearAdjuster | Self::Height | Self::Attitude => {
                Some(STANDING)
            }
            Self::RockTest => Some(
                "Lift the unit off the bar with a hoist or a second person. Block the reel, and press from above with hands clear of reel, knife and rollers.",
            ),
            Self::Record => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the caution of a step must say, by what is done in it.
    const fn wanted(step: Step) -> &'static [&'static str] {
        const TIP: &str = "cannot tip";
        const LIFT: &str = "with a hoist or a second person";
        const REEL: &str = "reel blocked|lock the reel";
        const DRIVE: &str = "isconnect the drive|power isolated";
        const FINGERS: &str = "fingers|hands clear";
        const GLOVES: &str = "cut-resistant gloves";
        match step {
            Step::PlateAndBar => &[LIFT, TIP, REEL, FINGERS],
            Step::Reel => &[TIP, REEL, GLOVES],
            // A roller is turned by hand.
            Step::Bearings | Step::FrontRunout | Step::RearRunout => &[TIP, REEL, DRIVE, FINGERS],
            // The knife is laid on the bar, and the roller turned by half a turn.
            Step::FrontEnds | Step::RearEnds => &[LIFT, TIP, REEL, DRIVE, FINGERS],
            // The reel is turned over paper.
            Step::KnifeToReel => &[TIP, REEL, DRIVE, GLOVES, FINGERS],
            Step::FrontAdjuster | Step::RearAdjuster | Step::Height | Step::Attitude => {
                &[TIP, REEL, FINGERS]
            }
            Step::RockTest => &[LIFT, REEL, FINGERS],
            Step::Record => &[],
        }
    }

    #[test]
    fn every_step_says_what_makes_it_safe() {
        for step in Step::ALL {
            let caution = step.caution().unwrap_or_default();
            assert_eq!(caution.is_empty(), wanted(step).is_empty(), "{step:?}");
            for said in wanted(step) {
                let mut ways = said.split('|');
                assert!(
                    ways.any(|way| caution.contains(way)),
                    "{step:?} does not say \"{said}\": {caution}"
                );
            }
        }
    }
}
