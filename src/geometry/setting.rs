//! What is being tried: the reel as it is now, the knife fitted, and how the unit is set.

use super::number::Number;
use super::plane::Place;
use super::{KnifeSection, Profile, Stance};
use crate::units::Length;

/// One way of setting a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting<N = f64> {
    /// Reel diameter after grinding.
    pub reel_diameter: Length<N>,
    /// Reel surface to edge along the line of centres; zero for light contact.
    pub gap: Length<N>,
    /// The knife fitted, ground as it is.
    pub knife: KnifeSection<N>,
    /// How much further ahead the edge stands, over what the fitted knife's reach gives.
    pub extension: Length<N>,
    /// By attitude and height, by the rollers, or by one of each.
    pub stance: Stance<N>,
}

impl Setting {
    /// The setting the unit had on the bench, its own knife fitted and not yet ground.
    #[must_use]
    pub fn as_on_bench(profile: &Profile) -> Self {
        let bench = &profile.bench;
        Self {
            reel_diameter: bench.reel_diameter,
            gap: bench.gap,
            knife: profile.knife.unground(),
            extension: Length::ZERO,
            stance: Stance::Wanted {
                attitude: bench.attitude,
                height_of_cut: bench.height_of_cut,
            },
        }
    }

    /// The same without a derivative.
    #[must_use]
    pub fn exact<N: Number>(&self) -> Setting<N> {
        Setting {
            reel_diameter: self.reel_diameter.exact(),
            gap: self.gap.exact(),
            knife: self.knife.exact(),
            extension: self.extension.exact(),
            stance: self.stance.exact(),
        }
    }
}

impl<N: Number> Setting<N> {
    /// The total extension *e*: how much further ahead, along the datum, the fitted knife's
    /// unground edge stands than the bench knife's did.
    pub fn total_extension(&self, profile: &Profile<N>) -> Length<N> {
        self.knife.reach - profile.knife.reach + self.extension
    }

    /// The edge now fitted, on the bar.
    pub fn edge_on_bar(&self, profile: &Profile<N>) -> Place<N> {
        let from_unground = self.knife.edge_from_unground();
        let extension = self.total_extension(profile);
        Place::new(from_unground.x - extension.mm(), from_unground.y)
    }
}
