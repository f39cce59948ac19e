//! A sheet being filled in: what stands in each entry, in the sheet or loose beside it.

use std::collections::{BTreeMap, BTreeSet};

use super::field::{End, Place, RollerField, SheetField};
use super::held::{AdjusterKind, GapWay, Held, held, station_of};
use super::waiting::Aside;
use crate::plate::sheet::{Roller, RunoutReading, Station, Worksheet};
use crate::plate::step::Step;
use crate::units::{Measure as _, System};

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
    /// What was entered otherwise than it is entered now. It is in no file.
    pub(super) aside: Aside,
    /// What was read once more at places of a turn whose entry is empty, or waits. It is in no file.
    pub(super) again_waiting: Vec<(SheetField, RunoutReading)>,
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
            aside: Aside::new(),
            again_waiting: Vec::new(),
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

    /// What stands in an entry, for a person who works in `system`; empty where it is left out.
    #[must_use]
    pub fn shown(&self, field: SheetField, system: System) -> String {
        match self.loose.get(&field) {
            Some(loose) => loose.text.clone(),
            None if self.is_nominal(field) => self.typed(field),
            None => held(&self.sheet, field)
                .map_or_else(String::new, |held| shown_of(field, &held, system)),
        }
    }

    /// Whether a size as it is marked stands in an entry: it reads in nobody else's units.
    fn is_nominal(&self, field: SheetField) -> bool {
        match field {
            SheetField::Bar(_) => self.sheet.again.contains(&Step::PlateAndBar),
            SheetField::Of(_, field) => matches!(
                field,
                RollerField::Throw | RollerField::Pitch | RollerField::Shims
            ),
            _ => false,
        }
    }

    /// Whether something stands in an entry.
    #[must_use]
    pub fn has(&self, field: SheetField) -> bool {
        self.loose.contains_key(&field) || held(&self.sheet, field).is_some()
    }

    /// What was typed into an entry; empty where it is left out.
    pub(super) fn typed(&self, field: SheetField) -> String {
        match self.loose.get(&field) {
            Some(loose) => loose.text.clone(),
            None => {
                held(&self.sheet, field).map_or_else(String::new, |held| held.typed().into_owned())
            }
        }
    }

    /// The places of a turn at which a station was read.
    #[must_use]
    pub fn places_read(&self, roller: Roller, station: Station) -> Vec<Place> {
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

    /// How the ends of a roller are read, as far as they were, or as was chosen after they were read
    /// another way.
    #[must_use]
    pub fn gap_way(&self, roller: Roller) -> Option<GapWay> {
        let read = End::ALL.into_iter();
        let mut read = read.filter_map(|end| self.gap_way_of(roller, end));
        read.next().or_else(|| self.aside.way_chosen(roller))
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
            .or_else(|| self.aside.kind_chosen(roller))
        })
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
