//! What no file of a sheet holds: texts that stand loose, places of a turn read more than once while the
//! place itself is empty or wrong, and what was entered otherwise than it is entered now.

use super::field::SheetField;
use super::filling::{Entries, Loose};
use super::waiting::Waiting;
use crate::plate::sheet::RunoutReading;
use crate::units::{Angle, Quantity, System};

/// Something that no file of a sheet holds, with all it takes to put it back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOut {
    /// Where it stands: the path of its entry, with what it is beside that.
    pub path: String,
    /// Its name, to be read alone.
    pub name: String,
    /// The text.
    pub text: String,
    /// Why the file does not hold it.
    pub why: String,
    /// Whether it is wrong; otherwise it waits.
    pub is_wrong: bool,
}

/// Before the path of an entry, for what stands beside it.
const AGAIN: &str = "again:";
const ASIDE: &str = "aside:";
const OLD: &str = "aside-old:";
/// In place of a path, for another gauge bar.
const OTHER_BAR: &str = "other-bar";
/// Between the two ends of a bar; no length has it.
const BETWEEN_ENDS: char = '|';

impl Entries {
    /// What no file of the sheet holds.
    #[must_use]
    pub fn left_out(&self) -> Vec<LeftOut> {
        let loose = self.loose().map(|(field, loose)| LeftOut {
            path: field.path(),
            name: field.name(),
            text: loose.text.clone(),
            why: loose.why.clone(),
            is_wrong: loose.is_wrong,
        });
        let waits = |path: String, name: String, text: String, why: &str| LeftOut {
            path,
            name,
            text,
            why: why.to_owned(),
            is_wrong: false,
        };
        let again = self.again_waiting.iter().map(|(field, reading)| {
            let (path, name) = (format!("{AGAIN}{}", field.path()), field.name());
            let text = reading.1.text().to_owned();
            let why = "counts once its place is read again";
            waits(path, format!("{name}, read once more"), text, why)
        });
        let aside = self.aside.entries.iter().map(|(field, waiting)| {
            let before = if waiting.is_old { OLD } else { ASIDE };
            let (path, name) = (format!("{before}{}", field.path()), field.name());
            let why = "counts once it is chosen again";
            let name = format!("{name}, entered another way");
            waits(path, name, waiting.text.clone(), why)
        });
        let bars = self.aside.bars.iter().map(|[left, right]| {
            let name = format!("Another gauge bar, {left} left and {right} right");
            let text = format!("{left}{BETWEEN_ENDS}{right}");
            let why = "counts once it is used again";
            waits(OTHER_BAR.to_owned(), name, text, why)
        });
        loose.chain(again).chain(aside).chain(bars).collect()
    }

    /// Puts back what no file held. What is of no entry is left.
    pub fn put_back(&mut self, left: &LeftOut, system: System) {
        let path = left.path.as_str();
        let text = left.text.clone();
        if path == OTHER_BAR {
            if let Some((left, right)) = text.split_once(BETWEEN_ENDS) {
                self.aside.bars.push([left.to_owned(), right.to_owned()]);
            }
        } else if let Some(path) = path.strip_prefix(AGAIN) {
            if let (Some(field), Ok(read)) = (SheetField::at_path(path), Quantity::parse(&text))
                && let Some(place) = field.place()
            {
                let angle = Quantity::from_value(Angle::from_deg(place.deg()), system);
                self.again_waiting.push((field, RunoutReading(angle, read)));
            }
        } else if let Some(path) = path.strip_prefix(ASIDE) {
            self.put_back_aside(path, text, false);
        } else if let Some(path) = path.strip_prefix(OLD) {
            self.put_back_aside(path, text, true);
        } else if let Some(field) = SheetField::at_path(path) {
            let loose = Loose {
                text,
                why: left.why.clone(),
                is_wrong: left.is_wrong,
            };
            self.loose.insert(field, loose);
        }
    }

    fn put_back_aside(&mut self, path: &str, text: String, is_old: bool) {
        if let Some(field) = SheetField::at_path(path) {
            let waiting = Waiting { text, is_old };
            self.aside.entries.insert(field, waiting);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::entries::field::{End, Place, RollerField};
    use crate::plate::entries::held::{AdjusterKind, GapWay};
    use crate::plate::sheet::{Roller, Side, Station};

    const IN: System = System::InchDecimal;

    #[test]
    fn all_that_no_file_holds_is_named_and_can_be_put_back() {
        let text = include_str!("../../../demo-units/example-ground/gang-2.plate.ron");
        let mut entries = Entries::new(crate::plate::read_sheet(text).expect("a sheet"));
        assert_eq!(entries.left_out(), []);
        entries.change_gap_way(Roller::Front, GapWay::Gap, true, IN);
        entries.change_adjuster(Roller::Rear, AdjusterKind::Thread, IN);
        entries.take_bar("3/16 in", IN);
        let end = End::of(Side::Left, true);
        let of = |field| SheetField::Of(Roller::Rear, field);
        entries.set(of(RollerField::Goes(end)), "half", IN);
        let place = of(RollerField::Runout(Station::Left, Place::at(120.0)));
        let angle = Quantity::parse("120 deg").expect("an angle");
        let read = Quantity::parse("1.1 thou").expect("a length");
        entries
            .again_waiting
            .push((place, RunoutReading(angle, read)));
        let names: Vec<_> = entries
            .left_out()
            .into_iter()
            .map(|left| left.name)
            .collect();
        for name in [
            "Rear roller, leaf that goes, left end, half a turn on",
            "Rear roller, indicator left, at 120°, read once more",
            "Front roller, height over the top, left end, entered another way",
            "Rear roller, shims in stock, entered another way",
            "Another gauge bar, 0.5001 in ± 0.0001 in left and 0.4999 in ± 0.0001 in right",
        ] {
            assert!(names.iter().any(|one| one == name), "{name}: {names:#?}");
        }
        let mut back = Entries::new(entries.sheet.clone());
        for left in entries.left_out() {
            back.put_back(&left, IN);
        }
        assert_eq!(back.left_out(), entries.left_out());
        assert_eq!(back.ways_aside(Roller::Front), [GapWay::OverTop]);
        assert_eq!(back.kinds_aside(Roller::Rear), [AdjusterKind::Shims]);
        assert_eq!(back.bars_aside().count(), 1);
    }
}
