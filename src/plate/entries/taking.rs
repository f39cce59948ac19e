//! Taking what is typed into a sheet.

use std::collections::{BTreeMap, BTreeSet};

use super::field::{End, Place, RollerField, SheetField};
use super::held::{AdjusterKind, GapWay, Held, held, station_of, three_mut};
use crate::plate::sheet::{
    AdjusterEntry, BarEntry, EndsEntry, Feeler, GapEntry, Roller, RollerEntry, RunoutEntry,
    RunoutReading, Side, Station, Worksheet,
};
use crate::units::{Angle, Length, Measure, Quantity, System};

/// A text that the sheet cannot hold, as it was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loose {
    /// The text.
    pub text: String,
    /// Why, in a sentence.
    pub why: String,
    /// Whether it is wrong; otherwise it waits for what the file holds only together with it.
    pub is_wrong: bool,
}

/// A sheet being filled in. What is typed is always kept: in the sheet, or loose beside it where the
/// sheet cannot hold it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entries {
    /// The sheet, with all it can hold.
    pub sheet: Worksheet,
    pub(super) loose: BTreeMap<SheetField, Loose>,
    /// What was entered anew of the steps that want doing again. It is in no file: after a sheet was
    /// opened, every reading of such a step counts as an old one.
    pub(super) anew: BTreeSet<SheetField>,
}

/// Whether a bare number in an entry is thousandths of an inch for those who work in inches, as a
/// dial's are.
#[must_use]
pub const fn typed_in_thou(field: SheetField) -> bool {
    matches!(field, SheetField::Of(_, RollerField::Runout(..)))
}

impl Entries {
    /// A sheet to be filled in.
    #[must_use]
    pub const fn new(sheet: Worksheet) -> Self {
        Self {
            sheet,
            loose: BTreeMap::new(),
            anew: BTreeSet::new(),
        }
    }

    /// What stands beside the sheet, in its order.
    pub fn loose(&self) -> impl Iterator<Item = (SheetField, &Loose)> {
        self.loose.iter().map(|(field, loose)| (*field, loose))
    }

    /// What stands beside the sheet of one entry; none where the sheet holds it.
    #[must_use]
    pub fn loose_of(&self, field: SheetField) -> Option<&Loose> {
        self.loose.get(&field)
    }

    /// Puts back what stood loose beside the sheet.
    pub fn put_loose(&mut self, field: SheetField, loose: Loose) {
        self.loose.insert(field, loose);
    }

    /// What stands in an entry, for a person who works in `system`; empty where it is left out.
    #[must_use]
    pub fn shown(&self, field: SheetField, system: System) -> String {
        match self.loose.get(&field) {
            Some(loose) => loose.text.clone(),
            None => held(&self.sheet, field)
                .map_or_else(String::new, |held| shown_of(field, &held, system)),
        }
    }

    /// Whether something stands in an entry.
    #[must_use]
    pub fn has(&self, field: SheetField) -> bool {
        self.loose.contains_key(&field) || held(&self.sheet, field).is_some()
    }

    fn typed(&self, field: SheetField) -> String {
        match self.loose.get(&field) {
            Some(loose) => loose.text.clone(),
            None => {
                held(&self.sheet, field).map_or_else(String::new, |held| held.typed().into_owned())
            }
        }
    }

    /// Takes what was typed into an entry by a person who works in `system`; empty leaves it out. Whether
    /// it was a change.
    pub fn set(&mut self, field: SheetField, text: &str, system: System) -> bool {
        let text = text.trim();
        if text == self.shown(field, system).trim() {
            return false;
        }
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
        self.entered_anew(field);
        true
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

    /// The places of a turn at which a station was read.
    fn places_read(&self, roller: Roller, station: Station) -> Vec<Place> {
        let in_sheet = self
            .sheet
            .roller(roller)
            .and_then(|entry| station_of(entry, station));
        let in_sheet = in_sheet.into_iter().flat_map(|read| &read.readings);
        let in_sheet = in_sheet.map(|reading| Place::at(reading.0.value().deg()));
        let loose = self.loose.keys().filter_map(|field| match field {
            SheetField::Of(of, RollerField::Runout(at, place))
                if *of == roller && *at == station =>
            {
                Some(*place)
            }
            _ => None,
        });
        let mut places: Vec<_> = in_sheet.chain(loose).collect();
        places.sort();
        places.dedup();
        places
    }

    /// The places of a turn at which a roller was read, at whatever station.
    #[must_use]
    pub fn places_of(&self, roller: Roller) -> Vec<Place> {
        let read = Station::ALL.into_iter();
        let mut places: Vec<_> = read
            .flat_map(|station| self.places_read(roller, station))
            .collect();
        places.sort();
        places.dedup();
        places
    }

    /// How the ends of a roller are read, as far as they were.
    #[must_use]
    pub fn gap_way(&self, roller: Roller) -> Option<GapWay> {
        End::ALL
            .into_iter()
            .find_map(|end| self.gap_way_of(roller, end))
    }

    /// How an end of a roller is read, if it was.
    #[must_use]
    pub fn gap_way_of(&self, roller: Roller, end: End) -> Option<GapWay> {
        let entry = self.sheet.roller(roller).and_then(|entry| end.entry(entry));
        let is_loose = |field| self.loose.contains_key(&SheetField::Of(roller, field));
        entry.map(GapWay::of).or_else(|| {
            let leaves = is_loose(RollerField::Goes(end)) || is_loose(RollerField::StopsAt(end));
            [
                (leaves, GapWay::Feeler),
                (is_loose(RollerField::Gap(end)), GapWay::Gap),
                (is_loose(RollerField::OverTop(end)), GapWay::OverTop),
            ]
            .into_iter()
            .find_map(|(is_so, way)| is_so.then_some(way))
        })
    }

    /// What moves the end of a roller, if it was entered.
    #[must_use]
    pub fn adjuster_kind(&self, roller: Roller) -> Option<AdjusterKind> {
        let entry = self.sheet.roller(roller);
        let entry = entry.and_then(|entry| entry.adjuster.as_ref());
        let is_loose = |field| self.loose.contains_key(&SheetField::Of(roller, field));
        entry.map(AdjusterKind::of).or_else(|| {
            [
                (RollerField::Throw, AdjusterKind::Eccentric),
                (RollerField::Now, AdjusterKind::Eccentric),
                (RollerField::Pitch, AdjusterKind::Thread),
                (RollerField::Tilt, AdjusterKind::Thread),
                (RollerField::Shims, AdjusterKind::Shims),
            ]
            .into_iter()
            .find_map(|(field, kind)| is_loose(field).then_some(kind))
        })
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
                let readings = self.turn(texts, system);
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

    /// A text as a quantity; one that is none stays loose.
    fn one<M: Measure>(
        &mut self,
        texts: &[(SheetField, String)],
        system: System,
    ) -> Option<Quantity<M>> {
        let (field, text) = texts.first()?;
        self.read(*field, text, system)
    }

    fn read<M: Measure>(
        &mut self,
        field: SheetField,
        text: &str,
        system: System,
    ) -> Option<Quantity<M>> {
        if text.is_empty() {
            return None;
        }
        match Quantity::typed(text, unit_of::<M>(field, system)) {
            Ok(quantity) => Some(quantity),
            Err(problem) => {
                self.leave(field, text, problem.to_string(), true);
                None
            }
        }
    }

    fn leave(&mut self, field: SheetField, text: &str, why: String, is_wrong: bool) {
        let text = text.to_owned();
        let loose = Loose {
            text,
            why,
            is_wrong,
        };
        self.loose.insert(field, loose);
    }

    /// Two texts of which the file holds both or none.
    fn both<A: Measure, B: Measure>(
        &mut self,
        texts: &[(SheetField, String)],
        system: System,
    ) -> Option<(Quantity<A>, Quantity<B>)> {
        let [(one_field, one_text), (two_field, two_text)] = texts else {
            return None;
        };
        let one = self.read::<A>(*one_field, one_text, system);
        let two = self.read::<B>(*two_field, two_text, system);
        if let (Some(one), Some(two)) = (&one, &two) {
            return Some((one.clone(), two.clone()));
        }
        if let Some(one) = one {
            self.leave(*one_field, one.text(), waits_for(*two_field), false);
        }
        if let Some(two) = two {
            self.leave(*two_field, two.text(), waits_for(*one_field), false);
        }
        None
    }

    fn thread(
        &mut self,
        changed: RollerField,
        texts: &[(SheetField, String)],
        system: System,
    ) -> Option<AdjusterEntry> {
        let [(pitch_field, pitch), (tilt_field, tilt)] = texts else {
            return None;
        };
        let is_emptied = changed == RollerField::Pitch && pitch.trim().is_empty();
        let pitch = self.read(*pitch_field, pitch, system);
        let tilt = self.read(*tilt_field, tilt, system);
        match (pitch, tilt) {
            // A lean of zero came with the pitch, which was taken out.
            (None, Some(tilt)) if is_emptied && tilt.value() == Angle::ZERO => None,
            (Some(pitch), tilt) => Some(AdjusterEntry::Thread {
                pitch,
                tilt: tilt.unwrap_or_else(|| Quantity::from_value(Angle::ZERO, system)),
            }),
            (None, Some(tilt)) => {
                self.leave(*tilt_field, tilt.text(), waits_for(*pitch_field), false);
                None
            }
            (None, None) => None,
        }
    }

    fn shims(&mut self, texts: &[(SheetField, String)], system: System) -> Option<AdjusterEntry> {
        let (field, text) = texts.first()?;
        if text.is_empty() {
            return None;
        }
        let unit = Length::unit_in(system).0;
        let sizes = text.split([',', ';']).map(str::trim);
        let sizes: Result<Vec<_>, _> = sizes
            .filter(|size| !size.is_empty())
            .map(|size| Quantity::typed(size, unit))
            .collect();
        match sizes {
            Ok(sizes) if !sizes.is_empty() => Some(AdjusterEntry::Shims(sizes)),
            Ok(_) => {
                let why = "write the sizes in stock with commas between, like 0.005 in, 0.010 in";
                self.leave(*field, text, why.to_owned(), true);
                None
            }
            Err(problem) => {
                self.leave(*field, text, problem.to_string(), true);
                None
            }
        }
    }

    /// The readings of a turn, once there are enough of them for a circle.
    fn turn(&mut self, texts: &[(SheetField, String)], system: System) -> Vec<RunoutReading> {
        let mut readings = Vec::new();
        for (field, text) in texts {
            if let SheetField::Of(_, RollerField::Runout(_, place)) = field
                && let Some(read) = self.read::<Length>(*field, text, system)
            {
                readings.push((*field, *place, read));
            }
        }
        if readings.len() < LEAST_OF_A_TURN {
            for (field, _, read) in readings {
                let why = "a circle takes three readings of a turn at least".to_owned();
                self.leave(field, read.text(), why, false);
            }
            return Vec::new();
        }
        let angle = |place: Place| Quantity::from_value(Angle::from_deg(place.deg()), system);
        readings
            .into_iter()
            .map(|(_, place, read)| RunoutReading(angle(place), read))
            .collect()
    }
}

/// What an entry holds as it is read; of a dial's readings in thousandths of an inch by those who work in
/// inches.
fn shown_of(field: SheetField, held: &Held, system: System) -> String {
    match held {
        Held::Length(length) if typed_in_thou(field) && system != System::Millimetre => {
            length.value().entry_in("thou", 3)
        }
        held => held.shown_in(system),
    }
}

/// Readings of a turn that a circle takes.
const LEAST_OF_A_TURN: usize = 3;

fn waits_for(other: SheetField) -> String {
    format!(
        "counts together with \"{}\", which is still empty or wrong",
        other.name()
    )
}

fn unit_of<M: Measure>(field: SheetField, system: System) -> &'static str {
    let is_in_inches = system != System::Millimetre;
    if typed_in_thou(field) && is_in_inches {
        "thou"
    } else {
        M::unit_in(system).0
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
