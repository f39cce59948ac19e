//! Places of a turn that were read more than once. An entry shows the first reading of its place; the others
//! count with it, and wait while it is empty or wrong, or while the turn is too short for a circle.

use std::collections::BTreeSet;

use super::field::{Place, RollerField, SheetField};
use super::filling::Entries;
use super::held::station_of;
use crate::plate::sheet::{Roller, RunoutReading, Station};
use crate::units::System;

/// What else was read at a place of a turn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AlsoRead {
    /// The entry of its place.
    pub field: SheetField,
    /// What was read, as a person reads it.
    pub readings: Vec<String>,
    /// Whether it counts; otherwise it waits for the entry.
    pub counts: bool,
}

impl RunoutReading {
    fn place(&self) -> Place {
        Place::at(self.0.value().deg())
    }
}

impl Entries {
    /// What else was read of a roller, place by place.
    #[must_use]
    pub fn also_read(&self, roller: Roller, system: System) -> Vec<AlsoRead> {
        let mut all: Vec<AlsoRead> = Vec::new();
        let mut add = |field: SheetField, reading: &RunoutReading, counts: bool| {
            let text = reading.1.shown_in(system);
            match all.iter_mut().find(|also| also.field == field) {
                Some(also) => also.readings.push(text),
                None => all.push(AlsoRead {
                    field,
                    readings: vec![text],
                    counts,
                }),
            }
        };
        for station in Station::ALL {
            for reading in self.again_in_sheet(roller, station) {
                add(field_of(roller, station, reading), reading, true);
            }
        }
        for (field, reading) in &self.again_waiting {
            if matches!(field, SheetField::Of(of, _) if *of == roller) {
                add(*field, reading, false);
            }
        }
        all.sort_by_key(|also| also.field);
        all
    }

    /// Leaves out what else was read at the place of an entry.
    pub fn leave_out_again(&mut self, field: SheetField) {
        self.again_waiting.retain(|(of, _)| *of != field);
        let SheetField::Of(roller, RollerField::Runout(station, place)) = field else {
            return;
        };
        self.change(roller, |entry| {
            let read = entry.runout.iter_mut().find(|read| read.station == station);
            if let Some(read) = read {
                let mut is_first = true;
                read.readings.retain(|reading| {
                    reading.place() != place || std::mem::replace(&mut is_first, false)
                });
            }
        });
    }

    /// Readings of a station in the sheet, at places that another one was read at before.
    fn again_in_sheet(
        &self,
        roller: Roller,
        station: Station,
    ) -> impl Iterator<Item = &RunoutReading> {
        let entry = self.sheet.roller(roller);
        let entry = entry.and_then(|entry| station_of(entry, station));
        let mut seen = BTreeSet::new();
        let readings = entry.into_iter().flat_map(|entry| &entry.readings);
        readings.filter(move |reading| !seen.insert(reading.place()))
    }

    /// All that was read more than once at a station, from where it stands.
    pub(super) fn take_again(
        &mut self,
        roller: Roller,
        station: Station,
    ) -> Vec<(SheetField, RunoutReading)> {
        let in_sheet = self.again_in_sheet(roller, station);
        let mut again: Vec<_> = in_sheet
            .map(|reading| (field_of(roller, station, reading), reading.clone()))
            .collect();
        let is_here = |(field, _): &mut (SheetField, RunoutReading)| matches!(field, SheetField::Of(of, RollerField::Runout(at, _)) if *of == roller && *at == station);
        again.extend(self.again_waiting.extract_if(.., is_here));
        again
    }

    /// Puts what was read more than once after the first reading of its place; what has none waits.
    pub(super) fn put_again(
        &mut self,
        again: Vec<(SheetField, RunoutReading)>,
        readings: &mut Vec<RunoutReading>,
    ) {
        let places: BTreeSet<_> = readings.iter().map(RunoutReading::place).collect();
        for (field, reading) in again {
            if places.contains(&reading.place()) {
                readings.push(reading);
            } else {
                self.again_waiting.push((field, reading));
            }
        }
        readings.sort_by_key(RunoutReading::place);
    }
}

fn field_of(roller: Roller, station: Station, reading: &RunoutReading) -> SheetField {
    SheetField::Of(roller, RollerField::Runout(station, reading.place()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::sheet::{RollerEntry, RunoutEntry, Worksheet};
    use crate::units::Quantity;

    const IN: System = System::InchDecimal;

    fn at(deg: f64) -> SheetField {
        let place = RollerField::Runout(Station::Left, Place::at(deg));
        SheetField::Of(Roller::Front, place)
    }

    /// Three places of a turn, each read twice.
    fn read_twice() -> Entries {
        let reading = |(deg, thou): (&str, &str)| {
            RunoutReading(
                Quantity::parse(&format!("{deg} deg")).expect("an angle"),
                Quantity::parse(&format!("{thou} thou")).expect("a length"),
            )
        };
        let read = [
            ("0", "0"),
            ("0", "0.1"),
            ("120", "1"),
            ("120", "1.1"),
            ("240", "2"),
            ("240", "2.1"),
        ];
        let turn = RunoutEntry {
            station: Station::Left,
            readings: read.map(reading).to_vec(),
        };
        let front = RollerEntry {
            runout: vec![turn],
            ..RollerEntry::default()
        };
        Entries::new(Worksheet {
            front: Some(front),
            ..Entries::default().sheet
        })
    }

    #[test]
    fn what_was_read_twice_outlasts_a_turn_too_short_for_a_circle() {
        let before = read_twice();
        for text in ["", "x"] {
            let mut entries = before.clone();
            entries.set(at(120.0), text, IN);
            assert!(entries.sheet.front.is_none());
            let also = entries.also_read(Roller::Front, IN);
            assert_eq!(also.len(), 3);
            assert!(also.iter().all(|also| !also.counts), "{also:?}");
            entries.set(at(120.0), "1 thou", IN);
            assert_eq!(entries, before, "{text}");
        }
        assert!(before.also_read(Roller::Front, IN).iter().all(|a| a.counts));
    }

    #[test]
    fn a_wrong_entry_makes_what_was_read_once_more_at_its_place_wait_alone() {
        let mut entries = read_twice();
        entries.set(at(60.0), "0.5", IN);
        let before = entries.clone();
        entries.set(at(120.0), "x", IN);
        let counts: Vec<_> = entries.also_read(Roller::Front, IN);
        let counts: Vec<_> = counts.into_iter().map(|also| also.counts).collect();
        assert_eq!(counts, [true, false, true]);
        entries.set(at(120.0), "1 thou", IN);
        assert_eq!(entries, before);
    }

    #[test]
    fn what_was_read_once_more_is_left_out_by_choice_alone() {
        let mut entries = read_twice();
        entries.leave_out_again(at(120.0));
        entries.set(at(240.0), "", IN);
        entries.leave_out_again(at(240.0));
        entries.set(at(240.0), "2 thou", IN);
        let read = &entries.sheet.front.as_ref().expect("a roller").runout[0].readings;
        let read: Vec<_> = read.iter().map(|reading| reading.1.text()).collect();
        assert_eq!(read, ["0 thou", "0.1 thou", "1 thou", "2 thou"]);
    }
}
