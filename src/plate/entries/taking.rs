//! Taking what is typed into a sheet: with which entries it belongs together, and where it goes.

use super::field::{RollerField, SheetField};
use super::filling::Entries;
use super::held::three_mut;
use crate::plate::sheet::{
    AdjusterEntry, BarEntry, EndsEntry, Feeler, GapEntry, Roller, RollerEntry, RunoutEntry,
    RunoutReading, Side, Station,
};
use crate::units::{Length, Quantity, System};

impl Entries {
    /// Takes what was typed into an entry by a person who works in `system`; empty leaves it out. Whether
    /// it was a change.
    pub fn set(&mut self, field: SheetField, text: &str, system: System) -> bool {
        let text = text.trim();
        if text == self.shown(field, system).trim() {
            return false;
        }
        self.put(field, text, system);
        self.entered_anew(field);
        true
    }

    /// Puts a text into an entry, and says nothing of when it was read.
    pub(super) fn put(&mut self, field: SheetField, text: &str, system: System) {
        let together: Vec<_> = self
            .together(field)
            .into_iter()
            .map(|one| {
                let typed = if one == field {
                    text.to_owned()
                } else {
                    self.typed(one)
                };
                (one, typed)
            })
            .collect();
        for (one, _) in &together {
            self.loose.remove(one);
        }
        self.take(field, &together, system);
    }

    /// Entries that the file holds only together: this one, and those with it.
    fn together(&self, field: SheetField) -> Vec<SheetField> {
        let sides = |of: fn(Side) -> SheetField| Side::ALL.map(of).to_vec();
        match field {
            SheetField::Bar(_) => sides(SheetField::Bar),
            SheetField::Attitude(_) => sides(SheetField::Attitude),
            SheetField::KnifeGoes(station) | SheetField::KnifeStopsAt(station) => vec![
                SheetField::KnifeGoes(station),
                SheetField::KnifeStopsAt(station),
            ],
            SheetField::Of(roller, of) => {
                let both =
                    |one, two| vec![SheetField::Of(roller, one), SheetField::Of(roller, two)];
                match of {
                    RollerField::Goes(end) | RollerField::StopsAt(end) => {
                        both(RollerField::Goes(end), RollerField::StopsAt(end))
                    }
                    RollerField::Throw | RollerField::Now => {
                        both(RollerField::Throw, RollerField::Now)
                    }
                    RollerField::Pitch | RollerField::Tilt => {
                        both(RollerField::Pitch, RollerField::Tilt)
                    }
                    RollerField::Runout(station, place) => {
                        let mut places = self.places_read(roller, station);
                        if !places.contains(&place) {
                            places.push(place);
                            places.sort();
                        }
                        let at =
                            |place| SheetField::Of(roller, RollerField::Runout(station, place));
                        places.into_iter().map(at).collect()
                    }
                    _ => vec![field],
                }
            }
            _ => vec![field],
        }
    }

    /// Puts texts that belong together into the sheet, or beside it.
    fn take(&mut self, field: SheetField, texts: &[(SheetField, String)], system: System) {
        let first = texts.first().map_or("", |(_, text)| text).to_owned();
        match field {
            SheetField::CutWidth => {
                let width = self.one(texts, system);
                self.sheet.cut_width =
                    width.unwrap_or_else(|| Quantity::from_value(Length::ZERO, system));
            }
            SheetField::Date => self.sheet.date = first,
            SheetField::By => self.sheet.by = first,
            SheetField::Hours => self.sheet.hours = first,
            SheetField::Notes => self.sheet.notes = first,
            SheetField::PlateFlat => self.sheet.plate_flat_within = self.one(texts, system),
            SheetField::RunoutWanted => self.sheet.runout_wanted = self.one(texts, system),
            SheetField::RunoutMost => self.sheet.runout_most = self.one(texts, system),
            SheetField::Bar(_) => {
                let bar = self.both(texts, system);
                self.sheet.bar = bar.map(|(left, right)| BarEntry { left, right });
            }
            SheetField::Attitude(_) => {
                let attitude = self.both(texts, system);
                self.sheet.attitude = attitude.map(|(left, right)| EndsEntry { left, right });
            }
            SheetField::Reel(station) => {
                let read = self.one(texts, system);
                three_mut(&mut self.sheet.reel, station, read);
            }
            SheetField::Height(station) => {
                let read = self.one(texts, system);
                three_mut(&mut self.sheet.height, station, read);
            }
            SheetField::KnifeGoes(station) | SheetField::KnifeStopsAt(station) => {
                let leaves = self.both(texts, system);
                let feeler = leaves.map(|(goes, stops_at)| Feeler { goes, stops_at });
                three_mut(&mut self.sheet.knife_to_reel, station, feeler);
            }
            SheetField::Of(roller, field) => self.take_of_roller(roller, field, texts, system),
        }
    }

    fn take_of_roller(
        &mut self,
        roller: Roller,
        field: RollerField,
        texts: &[(SheetField, String)],
        system: System,
    ) {
        match field {
            RollerField::MeasuredApart => {
                let read = self.one(texts, system);
                self.change(roller, |entry| entry.measured_apart = read);
            }
            RollerField::AdjustersApart => {
                let read = self.one(texts, system);
                self.change(roller, |entry| entry.adjusters_apart = read);
            }
            RollerField::ParallelWithin => {
                let read = self.one(texts, system);
                self.change(roller, |entry| entry.parallel_within = read);
            }
            RollerField::LeverAngle => {
                let read = self.one(texts, system);
                self.change(roller, |entry| entry.lever_angle = read);
            }
            RollerField::Diameter(side) => {
                let read = self.one(texts, system);
                self.change(roller, |entry| match side {
                    Side::Left => entry.left_diameter = read,
                    Side::Right => entry.right_diameter = read,
                });
            }
            RollerField::Goes(end) | RollerField::StopsAt(end) => {
                let leaves = self.both(texts, system);
                let gap = leaves.map(|(goes, stops_at)| GapEntry::Feeler { goes, stops_at });
                self.change(roller, |entry| *end.entry_mut(entry) = gap);
            }
            RollerField::Gap(end) => {
                let gap = self.one(texts, system).map(GapEntry::Gap);
                self.change(roller, |entry| *end.entry_mut(entry) = gap);
            }
            RollerField::OverTop(end) => {
                let height = self.one(texts, system).map(GapEntry::Height);
                self.change(roller, |entry| *end.entry_mut(entry) = height);
            }
            RollerField::Throw | RollerField::Now => {
                let both = self.both(texts, system);
                let adjuster = both.map(|(throw, now)| AdjusterEntry::Eccentric { throw, now });
                self.change(roller, |entry| entry.adjuster = adjuster);
            }
            RollerField::Pitch | RollerField::Tilt => {
                let thread = self.thread(field, texts, system);
                self.change(roller, |entry| entry.adjuster = thread);
            }
            RollerField::Shims => {
                let shims = self.shims(texts, system);
                self.change(roller, |entry| entry.adjuster = shims);
            }
            RollerField::Runout(station, _) => {
                let again = self.take_again(roller, station);
                let mut readings = self.turn(texts, system);
                self.put_again(again, &mut readings);
                self.change(roller, |entry| put_turn(entry, station, readings));
            }
        }
    }

    /// Changes what stands of a roller; what is left empty is left out.
    pub(super) fn change(&mut self, roller: Roller, change: impl FnOnce(&mut RollerEntry)) {
        let of = self.sheet.roller_mut(roller);
        let entry = of.get_or_insert_default();
        change(entry);
        if *entry == RollerEntry::default() {
            *of = None;
        }
    }
}

fn put_turn(entry: &mut RollerEntry, station: Station, readings: Vec<RunoutReading>) {
    let place = entry.runout.iter().position(|read| read.station == station);
    match place {
        Some(place) if readings.is_empty() => {
            entry.runout.remove(place);
        }
        Some(place) => entry.runout[place].readings = readings,
        None if readings.is_empty() => {}
        None => {
            entry.runout.push(RunoutEntry { station, readings });
            entry.runout.sort_by_key(|read| read.station);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::entries::field::{End, Place};

    const IN: System = System::InchDecimal;

    fn front(field: RollerField) -> SheetField {
        SheetField::Of(Roller::Front, field)
    }

    fn filled(texts: &[(SheetField, &str)]) -> Entries {
        let mut entries = Entries::default();
        for (field, text) in texts {
            entries.set(*field, text, IN);
        }
        entries
    }

    #[test]
    fn what_the_file_holds_only_together_waits_for_its_other_half() {
        let left = End::of(Side::Left, false);
        let (goes, stops) = (
            front(RollerField::Goes(left)),
            front(RollerField::StopsAt(left)),
        );
        let mut entries = filled(&[(goes, "0.004")]);
        assert!(entries.sheet.front.is_none());
        assert_eq!(entries.shown(goes, IN), "0.004 in");
        assert!(!entries.loose_of(goes).unwrap().is_wrong);
        entries.set(stops, "0.005 in", IN);
        assert_eq!(entries.loose().count(), 0);
        assert!(entries.sheet.front.as_ref().unwrap().left.is_some());
        // A wrong half takes the right one out of the sheet, and loses none of it.
        entries.set(stops, "half", IN);
        assert!(entries.sheet.front.is_none());
        assert_eq!(entries.shown(goes, IN), "0.004 in");
        assert!(entries.loose_of(stops).unwrap().is_wrong);
        entries.set(stops, "0.005", IN);
        assert_eq!(entries.loose().count(), 0);
    }

    #[test]
    fn a_turn_is_a_circle_from_its_third_reading_on() {
        let at = |deg| front(RollerField::Runout(Station::Left, Place::at(deg)));
        let mut entries = filled(&[(at(0.0), "0"), (at(90.0), "1")]);
        assert!(entries.sheet.front.is_none());
        entries.set(at(45.0), "0.5", IN);
        let read = &entries.sheet.front.as_ref().unwrap().runout[0].readings;
        let read: Vec<_> = read
            .iter()
            .map(|one| (one.0.text(), one.1.text()))
            .collect();
        assert_eq!(
            read,
            [
                ("0 deg", "0 thou"),
                ("45 deg", "0.5 thou"),
                ("90 deg", "1 thou")
            ]
        );
        // A wrong one stays loose, and the others go on as a turn where they are enough.
        entries.set(at(135.0), "x", IN);
        assert_eq!(entries.loose().count(), 1);
        assert_eq!(
            entries.sheet.front.as_ref().unwrap().runout[0]
                .readings
                .len(),
            3
        );
        entries.set(at(45.0), "", IN);
        assert!(entries.sheet.front.is_none());
        assert_eq!(entries.shown(at(90.0), IN), "1 thou");
    }

    #[test]
    fn every_entry_shows_what_was_typed_into_it() {
        for field in SheetField::all_but_turns() {
            let is_angle = matches!(
                field,
                SheetField::Attitude(_)
                    | SheetField::Of(
                        _,
                        RollerField::Now | RollerField::Tilt | RollerField::LeverAngle
                    )
            );
            let text = if is_angle { "4 deg" } else { "0.25 in" };
            let entries = filled(&[(field, text)]);
            assert_eq!(entries.shown(field, IN), text, "{field:?}");
            assert!(entries.has(field), "{field:?}");
            let mut emptied = entries.clone();
            emptied.set(field, "", IN);
            assert!(!emptied.has(field), "{field:?}");
            assert_eq!(emptied.loose().count(), 0, "{field:?}");
        }
    }
}
