//! What is being tried: the reel as it is now, the knife fitted, and how the unit is set.

use kurbo::Point;

use super::figures::SettingFigures;
use super::{KnifeSection, Profile, Stance};
use crate::units::Length;

/// One way of setting a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Reel diameter after grinding.
    pub reel_diameter: Length,
    /// Reel surface to edge along the line of centres; nothing for light contact.
    pub gap: Length,
    /// The knife fitted.
    pub knife: KnifeSection,
    /// How much further ahead the edge stands, over what the fitted knife's reach gives.
    pub extension: Length,
    /// Metal taken off the top face.
    pub top_ground: Length,
    /// Metal taken off the front face.
    pub face_ground: Length,
    /// By attitude and height, or by the rollers.
    pub stance: Stance,
}

impl Setting {
    /// The setting the unit had on the bench, its own knife fitted.
    #[must_use]
    pub fn as_on_bench(profile: &Profile) -> Self {
        let bench = &profile.bench;
        Self {
            reel_diameter: bench.reel_diameter,
            gap: bench.gap,
            knife: profile.knife,
            extension: Length::ZERO,
            top_ground: Length::ZERO,
            face_ground: Length::ZERO,
            stance: Stance::Wanted {
                attitude: bench.attitude,
                height_of_cut: bench.height_of_cut,
            },
        }
    }

    /// The total extension *e*: how much further ahead, along the datum, the fitted knife's
    /// unground edge stands than the bench knife's did.
    #[must_use]
    pub fn total_extension(&self, profile: &Profile) -> Length {
        let figures = SettingFigures::<f64>::exact(self);
        Length::from_mm(figures.total_extension_mm(profile.knife.reach.mm()))
    }

    /// The edge now fitted, on the bar.
    #[must_use]
    pub fn edge_on_bar(&self, profile: &Profile) -> Point {
        let figures = SettingFigures::<f64>::exact(self);
        figures.edge_on_bar(profile.knife.reach.mm()).into()
    }
}
