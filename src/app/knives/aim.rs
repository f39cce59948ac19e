//! Setting the unit to a place in a plot.

use super::App;
use crate::unit::Group;
use crate::units::{Angle, Length, Quantity};

/// What a click in a plot sets; what it does not name stays.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Aim {
    pub(super) reel_diameter: Option<Length>,
    pub(super) attitude: Option<Angle>,
    pub(super) extension: Option<Length>,
    pub(super) height_of_cut: Option<Length>,
}

impl App {
    /// Sets the unit. With the rollers given, attitude and height are wanted from here on: plots and
    /// map keep both along their lines, and the unit is to stand where the click was.
    pub(super) fn aim(&mut self, aim: Aim) {
        let system = self.system();
        let pose = self.session.good().map(|good| good.solution.pose);
        let document = &mut self.session.document;
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
        self.drafts.remove_within(Group::Setting);
    }
}
