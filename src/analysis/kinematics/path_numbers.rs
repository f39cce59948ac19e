//! The kinematics as numbers to read, each with its name and its meaning.

use super::Kinematics;
use crate::units::{Length, Speed, System, fixed};

/// A number with its name and what it means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PathNumber {
    /// Its name.
    pub name: &'static str,
    /// The number in a reader's units.
    pub shown: String,
    /// What it means.
    pub meaning: &'static str,
}

impl Kinematics {
    /// The numbers in a reader's units.
    #[must_use]
    pub fn told(&self, system: System) -> Vec<PathNumber> {
        let (per_name, per_mm) = match system {
            System::Millimetre => ("Clips per metre", 1000.0),
            System::InchDecimal | System::InchFraction => {
                ("Clips per foot", Length::from_inches(12.0).mm())
            }
        };
        let none = || "none".to_owned();
        let told = |name, shown, meaning| PathNumber {
            name,
            shown,
            meaning,
        };
        let mut all = vec![
            told(
                "Clip length",
                system.length(self.clip_length),
                "Forward travel between one blade passing the knife and the next (also called frequency of clip).",
            ),
            told(
                "Clip ÷ height of cut",
                self.clip_to_cut
                    .map_or_else(none, |ratio| system.ratio(ratio)),
                "Clip length ÷ height of cut. 1 is a rule of thumb.",
            ),
            told(
                per_name,
                fixed(per_mm / self.clip_length.mm(), 1),
                "How often the grass along that length is clipped.",
            ),
            told(
                "Ripple, estimated",
                self.ripple_estimate
                    .map_or_else(none, |ripple| system.length(ripple)),
                "An estimate, not a measurement: how much longer the grass is left halfway between two clips than at a clip. It takes each stem to be cut at the clip nearest its root, standing straight from root to edge, and to rise again: the slant over height of cut and half a clip length, less the height of cut.",
            ),
            told(
                "Tip speed",
                speed(self.tip_speed, system),
                "How fast the blade tips run round the reel, seen from the frame.",
            ),
            told(
                "Tip ÷ ground speed",
                fixed(
                    self.tip_speed.mm_per_s() / self.speeds.ground_speed.mm_per_s(),
                    2,
                ),
                "Tip speed ÷ ground speed. Above 1 the tip moves back over the ground at its lowest, and its path makes loops; at 1 it stands still there for a moment; below 1 it is dragged ahead.",
            ),
            told(
                "Tip at the clip",
                speed(self.tip_at_clip, system),
                "How fast a tip moves over the ground when it clips.",
            ),
        ];
        if let Some(below) = &self.below_cut {
            let back = below.tip_back;
            let (way, back) = match back.mm() {
                mm if mm < 0.0 => ("ahead", -back),
                _ => ("back", back),
            };
            all.extend([
                told(
                    "Enters the cut line",
                    format!("{} ahead", system.angle(below.ahead_of_centre)),
                    "Where on the reel's circle a tip comes down through the cut line: the angle at the reel's centre, ahead of straight down.",
                ),
                told(
                    "Time to the clip",
                    format!("{} ms", fixed(1000.0 * below.time_s, 2)),
                    "The time a tip takes from entering the cut line to the clip, in thousandths of a second.",
                ),
                told(
                    "Travel in that time",
                    system.length(below.ground_covered),
                    "How far the unit drives from when the tip enters the cut line to the clip.",
                ),
                told(
                    "Tip travel in that time",
                    format!("{way} {}", system.length(back)),
                    "How far the tip itself moves over the ground in that time; back is against the travel.",
                ),
            ]);
        }
        all
    }

    /// Why a tip has no way below the cut line before it clips; none when it has one.
    #[must_use]
    pub fn why_never_below(&self) -> Option<&'static str> {
        let path = &self.path;
        if self.below_cut.is_some() {
            return None;
        }
        let above_cut_mm = path.centre_at_clip.y - path.cut_height_mm;
        Some(if path.clip_angle_rad <= 0.0 {
            "The edge does not stand behind centre: a tip clips before it is below the cut line, so it travels no distance between the two."
        } else if above_cut_mm > 0.0 {
            "The reel's circle stays above the cut line: no tip enters it before the clip."
        } else {
            "The reel's circle stays below the cut line: no tip enters it before the clip."
        })
    }
}

/// A tip's speed: metres a second, or miles an hour to stand beside the ground speed.
fn speed(speed: Speed, system: System) -> String {
    match system {
        System::Millimetre => format!("{} m/s", fixed(speed.mm_per_s() / 1000.0, 2)),
        System::InchDecimal | System::InchFraction => {
            let mph = speed.mm_per_s() / <Speed as crate::units::Measure>::size_of("mph");
            format!("{} mph", fixed(mph, 2))
        }
    }
}
