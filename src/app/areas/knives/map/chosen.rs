//! What is chosen for the window map, and what it has to do with the unit.

use crate::analysis::Solved;
use crate::analysis::knives::{KnifeAim, Trial};
use crate::app::areas::knives::worked_out::Named;
use crate::drawing::{MapMark, MapSetting};
use crate::geometry::{KnifeSection, Stance};
use crate::unit::{Fitted, Follows, Unit};
use crate::units::{Angle, Length, System};

/// What a person chose.
#[derive(Debug, Default)]
pub struct Choice {
    /// The knife mapped, by its name; the one fitted when none was chosen.
    pub first: Option<String>,
    /// A second one, by its name.
    pub second: Option<String>,
    /// The height of cut tried on the map; the one in force when none was.
    pub height: Option<Length>,
}

/// What is chosen for the map, with what the unit gives.
pub struct Chosen {
    pub unit: Unit,
    pub trial: Trial,
    pub knives: Vec<Named>,
    pub height_in_force: Length,
    /// Where the first of them stands in the document.
    place: Fitted,
}

impl Chosen {
    /// What is chosen; choices that are gone from the document count as none.
    pub fn of(choice: &Choice, good: &Solved, knives: &[Named]) -> Option<Self> {
        let named = |name: &str| knives.iter().find(|(known, _)| known == name).cloned();
        let first = choice
            .first
            .as_deref()
            .and_then(named)
            .or_else(|| named(good.document.fitted_name()))
            .or_else(|| knives.first().cloned())?;
        let second = choice
            .second
            .as_deref()
            .and_then(named)
            .filter(|second| *second != first);
        let in_force = Trial::of(&good.solution);
        let mut places = good.document.knives();
        let place = places.find(|(_, knife)| knife.name == first.0);
        let place = place.map_or(good.unit.fitted, |(place, _)| place);
        Some(Self {
            place,
            unit: good.unit.clone(),
            trial: Trial {
                height_of_cut: choice.height.unwrap_or(in_force.height_of_cut),
                ..in_force
            },
            knives: std::iter::once(first).chain(second).collect(),
            height_in_force: in_force.height_of_cut,
        })
    }

    /// The sections of the knives that are mapped.
    pub fn sections(&self) -> Vec<KnifeSection> {
        self.knives.iter().map(|(_, section)| *section).collect()
    }

    /// What the knife is aimed at, the reel as it is, for somebody who reads in `system`; none with two
    /// knives, which are aimed at each its own.
    pub fn aim(&self, system: System) -> Option<Angle> {
        let [(_, section)] = self.knives[..] else {
            return None;
        };
        let aim = KnifeAim::of(&self.unit, &self.trial, (self.place, section), system);
        aim.ok().map(|aim| aim.attitude)
    }

    /// The present setting, the bench pose and the aim, as they are marked on the map.
    pub fn settings(&self, aim: Option<Angle>) -> Vec<MapSetting> {
        let bench = &self.unit.profile.bench;
        let aim = aim.map(|attitude| MapSetting {
            mark: MapMark::Aim,
            attitude,
            diameter: self.unit.setting.reel_diameter,
        });
        let others = [
            MapSetting {
                mark: MapMark::Bench,
                attitude: bench.attitude,
                diameter: bench.reel_diameter,
            },
            MapSetting {
                mark: MapMark::Now,
                attitude: self.trial.attitude,
                diameter: self.unit.setting.reel_diameter,
            },
        ];
        others.into_iter().chain(aim).collect()
    }

    /// The knives that are mapped, in words.
    pub fn together(&self) -> String {
        let names: Vec<_> = self
            .knives
            .iter()
            .map(|(name, _)| format!("\"{name}\""))
            .collect();
        names.join(" and ")
    }
}

/// The unit without what a map sweeps over.
pub fn without_setting(unit: &Unit) -> Unit {
    let mut unit = unit.clone();
    unit.setting.stance = Stance::Wanted {
        attitude: Angle::ZERO,
        height_of_cut: Length::ZERO,
    };
    unit.setting.reel_diameter = unit.new_diameter;
    unit.setting.knife = unit.profile.knife;
    unit.fitted = Fitted::Bench;
    unit.follows = Follows::NONE;
    unit.uncertain.clear();
    unit.mowing = None;
    unit.system = System::default();
    unit
}
