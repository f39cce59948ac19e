//! Setting the unit to a place in a plot.

use super::{Change, Desk};
use crate::app::widgets::words::capitalised;
use crate::unit::Group;
use crate::units::{Angle, Length, Quantity};

/// What a click in a plot sets; what it does not name stays.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Aim {
    pub reel_diameter: Option<Length>,
    pub attitude: Option<Angle>,
    pub extension: Option<Length>,
    pub height_of_cut: Option<Length>,
}

impl Aim {
    /// What it sets, in words.
    fn name(&self) -> String {
        let set = [
            ("attitude", self.attitude.is_some()),
            ("reel diameter", self.reel_diameter.is_some()),
            ("edge forward", self.extension.is_some()),
            ("height of cut", self.height_of_cut.is_some()),
        ];
        let names = set.into_iter().filter(|(_, is_set)| *is_set);
        let names: Vec<_> = names.map(|(name, _)| name).collect();
        capitalised(&names.join(" and "))
    }
}

impl Desk {
    /// Sets the unit. With the rollers given, attitude and height are wanted from here on: plots and
    /// map keep both along their lines, and the unit is to stand where the click was.
    pub fn aim(&mut self, aim: Aim) {
        let system = self.system();
        let pose = self.good().map(|good| good.solution.pose);
        self.edit(Change::of(aim.name(), Group::Setting), |document| {
            if document.setting.rollers.is_some()
                && let Some(pose) = pose
            {
                document.set_stance(pose.as_wanted(), system);
            }
            let setting = &mut document.setting;
            let length = |length| Quantity::from_value(length, system);
            if let Some(diameter) = aim.reel_diameter {
                setting.reel_diameter = Some(length(diameter));
            }
            if let Some(attitude) = aim.attitude {
                setting.attitude = Some(Quantity::from_value(attitude, system));
            }
            if let Some(extension) = aim.extension {
                setting.extension = Some(length(extension));
            }
            if let Some(height_of_cut) = aim.height_of_cut {
                setting.height_of_cut = Some(length(height_of_cut));
            }
        });
    }
}
