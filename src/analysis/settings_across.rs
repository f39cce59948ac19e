//! The settings of one unit put into another: settings alone, what was read on a unit stays.

use std::borrow::Cow;

use super::Solved;
use crate::geometry::Stance;
use crate::unit::{Document, Field, SettingEntry};
use crate::units::{Quantity, System};

/// A unit with the settings of another, and what that changes.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingsAcross {
    /// The setting that it gets.
    pub setting: SettingEntry,
    /// What changes, a line a field; what cannot be taken over stands below.
    pub changes: Vec<String>,
    /// What stays though the other has it otherwise, and why.
    pub stays: Vec<String>,
}

impl SettingsAcross {
    /// The settings of a solved unit for another one. Of the same unit every one; of another unit height of
    /// cut, attitude, gap and edge forward as they stand there, the knife where there is one of its name, and
    /// reel diameter and metal off the knife where they are set there.
    #[must_use]
    pub fn of(from: &Solved, to: &Document) -> Self {
        let mut stays = Vec::new();
        let setting = if is_same_unit(&from.document, to) {
            from.document.setting.clone()
        } else {
            of_another(from, to, &mut stays)
        };
        let mut after = to.clone();
        after.setting = setting.clone();
        let system = to.system();
        let changes = Field::all(to).filter(|field| field.is_setting());
        let changes = changes.filter_map(|field| {
            let [before, after] = [to, &after].map(|document| told(field, document, system));
            (before != after).then(|| format!("{}: {after} (now {before})", field.name()))
        });
        Self {
            changes: changes.collect(),
            setting,
            stays,
        }
    }

    /// Puts the settings into the unit.
    pub fn put_into(&self, document: &mut Document) {
        document.setting = self.setting.clone();
    }
}

fn told(field: Field, document: &Document, system: System) -> String {
    let shown = field.shown_in(document, system);
    shown.map_or_else(|| "as measured".to_owned(), Cow::into_owned)
}

/// Whether two documents are one unit, whatever is set on it.
fn is_same_unit(one: &Document, other: &Document) -> bool {
    let set_alike = Document {
        setting: other.setting.clone(),
        ..one.clone()
    };
    set_alike == *other
}

fn of_another(from: &Solved, to: &Document, stays: &mut Vec<String>) -> SettingEntry {
    let (theirs, system) = (&from.document.setting, to.system());
    let mut setting = to.setting.clone();
    let pose = &from.solution.pose;
    let is_wanted = matches!(from.unit.setting.stance, Stance::Wanted { .. });
    // As typed where it was typed; what follows from rollers or is as measured, as it stands there.
    let height = theirs.height_of_cut.clone();
    let height = height.unwrap_or_else(|| Quantity::exactly(pose.height_of_cut, system));
    let attitude = theirs.attitude.clone().filter(|_| is_wanted);
    let attitude = attitude.unwrap_or_else(|| Quantity::exactly(pose.attitude, system));
    setting.height_of_cut = Some(height);
    setting.attitude = Some(attitude);
    setting.rollers = None;
    let gap = theirs.gap.clone();
    setting.gap = Some(gap.unwrap_or_else(|| Quantity::exactly(pose.gap, system)));
    setting.extension.clone_from(&theirs.extension);
    if theirs.reel_diameter.is_some() {
        setting.reel_diameter.clone_from(&theirs.reel_diameter);
    }
    let fitted = from.document.fitted_name();
    if to.knife.name == fitted {
        setting.knife = None;
    } else if to.options.iter().any(|knife| knife.name == fitted) {
        setting.knife = Some(fitted.to_owned());
    } else {
        stays.push(format!(
            "Knife: stays \"{}\". This unit has no knife \"{fitted}\".",
            to.fitted_name()
        ));
        return setting;
    }
    setting.top_ground.clone_from(&theirs.top_ground);
    setting.face_ground.clone_from(&theirs.face_ground);
    setting
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::NumberId;
    use crate::unit::read_text;

    fn document(text: &str) -> Document {
        read_text(text).expect("reads")
    }

    const FAIRWAY: &str = include_str!("../../demo-units/lessons/matched-fairway.ron");
    const GREEN: &str = include_str!("../../demo-units/lessons/matched-green.ron");

    #[test]
    fn another_units_settings_come_as_they_stand_there_and_no_reading_does() {
        let mut green = document(GREEN);
        green.setting.attitude = Quantity::parse("8 deg").ok();
        green.setting.knife = Some("longer".to_owned());
        let green = Solved::of(&green).expect("solves");
        let mut fairway = document(FAIRWAY);
        let before = fairway.clone();
        let across = SettingsAcross::of(&green, &fairway);
        assert!(across.stays.is_empty());
        across.put_into(&mut fairway);
        let solved = Solved::of(&fairway).expect("solves");
        for id in [
            NumberId::HeightOfCut,
            NumberId::Attitude,
            NumberId::Extension,
        ] {
            let [set, theirs] =
                [&solved, &green].map(|unit| unit.solution.numbers().base(id).expect("one"));
            assert!((set - theirs).abs() < 1e-9, "{}", id.name());
        }
        assert_eq!(fairway.fitted_name(), "longer");
        // All but the setting is what it was.
        let setting = before.setting.clone();
        assert_eq!(Document { setting, ..fairway }, before);
        let told = across.changes.join("\n");
        assert!(told.contains("8 deg (now as measured)"), "{told}");
        assert!(told.contains("0.125 in (now as measured)"), "{told}");
        assert!(told.contains("longer"), "{told}");
    }

    #[test]
    fn a_knife_that_is_not_there_stays_and_is_told() {
        let mut green = document(GREEN);
        green.options[0].name = "other".to_owned();
        green.setting.knife = Some("other".to_owned());
        let green = Solved::of(&green).expect("solves");
        let across = SettingsAcross::of(&green, &document(FAIRWAY));
        assert_eq!(across.setting.knife, None);
        assert_eq!(across.stays.len(), 1);
        assert!(
            across.stays[0].contains("no knife \"other\""),
            "{:?}",
            across.stays
        );
    }

    #[test]
    fn the_same_unit_as_measured_leaves_every_setting_out() {
        let as_measured = document(FAIRWAY);
        let mut set = as_measured.clone();
        set.setting.attitude = Quantity::parse("5 deg").ok();
        set.setting.reel_diameter = Quantity::parse("4.8 in").ok();
        let solved = Solved::of(&as_measured).expect("solves");
        let across = SettingsAcross::of(&solved, &set);
        assert_eq!(across.setting, SettingEntry::default());
        assert_eq!(across.changes.len(), 2, "{:?}", across.changes);
        across.put_into(&mut set);
        assert_eq!(set, as_measured);
    }
}
