//! What a sheet holds of an entry, and in which way a gap and an adjuster are entered.

use std::borrow::Cow;

use super::field::{End, Place, RollerField, SheetField};
use crate::plate::sheet::{
    AdjusterEntry, GapEntry, Roller, RollerEntry, RunoutEntry, Side, Station, ThreeEntry, Worksheet,
};
use crate::units::{Angle, Length, Quantity, System};

/// How the gap under an end of a roller is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum GapWay {
    /// With feeler leaves.
    #[default]
    Feeler,
    /// As the gap itself.
    Gap,
    /// Over the roller's top.
    OverTop,
}

impl GapWay {
    /// Every way.
    pub const ALL: [Self; 3] = [Self::Feeler, Self::Gap, Self::OverTop];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Feeler => "feeler leaves",
            Self::Gap => "gap, by gauge",
            Self::OverTop => "height over the top",
        }
    }

    pub(super) const fn of(entry: &GapEntry) -> Self {
        match entry {
            GapEntry::Feeler { .. } => Self::Feeler,
            GapEntry::Gap(_) => Self::Gap,
            GapEntry::Height(_) => Self::OverTop,
        }
    }
}

/// A kind of adjuster.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum AdjusterKind {
    /// An eccentric.
    #[default]
    Eccentric,
    /// A thread.
    Thread,
    /// Shims.
    Shims,
}

impl AdjusterKind {
    /// Every kind.
    pub const ALL: [Self; 3] = [Self::Eccentric, Self::Thread, Self::Shims];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Eccentric => "eccentric",
            Self::Thread => "thread",
            Self::Shims => "shims",
        }
    }

    pub(super) const fn of(entry: &AdjusterEntry) -> Self {
        match entry {
            AdjusterEntry::Eccentric { .. } => Self::Eccentric,
            AdjusterEntry::Thread { .. } => Self::Thread,
            AdjusterEntry::Shims(_) => Self::Shims,
        }
    }
}

/// What an entry holds.
pub(super) enum Held<'a> {
    Text(&'a str),
    Length(&'a Quantity<Length>),
    Angle(&'a Quantity<Angle>),
    Lengths(&'a [Quantity<Length>]),
}

impl<'a> Held<'a> {
    /// As it was typed.
    pub(super) fn typed(&self) -> Cow<'a, str> {
        match self {
            Held::Text(text) => Cow::Borrowed(text),
            Held::Length(length) => Cow::Borrowed(length.text()),
            Held::Angle(angle) => Cow::Borrowed(angle.text()),
            Held::Lengths(lengths) => {
                Cow::Owned(listed(lengths, |length| length.text().to_owned()))
            }
        }
    }

    /// As a person who works in `system` reads it.
    pub(super) fn shown_in(&self, system: System) -> String {
        match self {
            Held::Text(text) => (*text).to_owned(),
            Held::Length(length) => length.shown_in(system),
            Held::Angle(angle) => angle.shown_in(system),
            Held::Lengths(lengths) => listed(lengths, |length| length.shown_in(system)),
        }
    }
}

fn listed(lengths: &[Quantity<Length>], text: impl Fn(&Quantity<Length>) -> String) -> String {
    let texts: Vec<_> = lengths.iter().map(text).collect();
    texts.join(", ")
}

impl End {
    pub(super) const fn entry(self, roller: &RollerEntry) -> Option<&GapEntry> {
        match (self.side, self.is_half_turn) {
            (Side::Left, false) => roller.left.as_ref(),
            (Side::Right, false) => roller.right.as_ref(),
            (Side::Left, true) => roller.left_half_turn.as_ref(),
            (Side::Right, true) => roller.right_half_turn.as_ref(),
        }
    }

    pub(super) const fn entry_mut(self, roller: &mut RollerEntry) -> &mut Option<GapEntry> {
        match (self.side, self.is_half_turn) {
            (Side::Left, false) => &mut roller.left,
            (Side::Right, false) => &mut roller.right,
            (Side::Left, true) => &mut roller.left_half_turn,
            (Side::Right, true) => &mut roller.right_half_turn,
        }
    }
}

/// What stands at a place of three.
pub(super) fn three_mut<T>(entry: &mut Option<ThreeEntry<T>>, station: Station, value: Option<T>) {
    let three = entry.get_or_insert(ThreeEntry {
        left: None,
        middle: None,
        right: None,
    });
    match station {
        Station::Left => three.left = value,
        Station::Middle => three.middle = value,
        Station::Right => three.right = value,
    }
    if three.each().iter().all(|(_, read)| read.is_none()) {
        *entry = None;
    }
}

/// The readings of a turn at a station; where it was read more than once, the first.
pub(super) fn station_of(roller: &RollerEntry, station: Station) -> Option<&RunoutEntry> {
    roller.runout.iter().find(|read| read.station == station)
}

/// What a sheet holds of an entry; none where it was left out.
pub(super) fn held(sheet: &Worksheet, field: SheetField) -> Option<Held<'_>> {
    Some(match field {
        // Zero stands for a width that nobody gave yet: no unit cuts none.
        SheetField::CutWidth => {
            Held::Length(Some(&sheet.cut_width).filter(|width| width.value() != Length::ZERO)?)
        }
        SheetField::Date => Held::Text(filled(&sheet.date)?),
        SheetField::By => Held::Text(filled(&sheet.by)?),
        SheetField::Hours => Held::Text(filled(&sheet.hours)?),
        SheetField::Notes => Held::Text(filled(&sheet.notes)?),
        SheetField::PlateFlat => Held::Length(sheet.plate_flat_within.as_ref()?),
        SheetField::RunoutWanted => Held::Length(sheet.runout_wanted.as_ref()?),
        SheetField::RunoutMost => Held::Length(sheet.runout_most.as_ref()?),
        SheetField::Bar(side) => {
            let bar = sheet.bar.as_ref()?;
            Held::Length(match side {
                Side::Left => &bar.left,
                Side::Right => &bar.right,
            })
        }
        SheetField::Attitude(side) => {
            let attitude = sheet.attitude.as_ref()?;
            Held::Angle(match side {
                Side::Left => &attitude.left,
                Side::Right => &attitude.right,
            })
        }
        SheetField::Reel(station) => Held::Length(sheet.reel.as_ref()?.at(station)?),
        SheetField::Height(station) => Held::Length(sheet.height.as_ref()?.at(station)?),
        SheetField::KnifeGoes(station) => {
            Held::Length(&sheet.knife_to_reel.as_ref()?.at(station)?.goes)
        }
        SheetField::KnifeStopsAt(station) => {
            Held::Length(&sheet.knife_to_reel.as_ref()?.at(station)?.stops_at)
        }
        SheetField::Of(roller, field) => of_roller(sheet, roller, field)?,
    })
}

fn filled(text: &str) -> Option<&str> {
    Some(text).filter(|text| !text.is_empty())
}

fn of_roller(sheet: &Worksheet, roller: Roller, field: RollerField) -> Option<Held<'_>> {
    let entry = sheet.roller(roller)?;
    Some(match field {
        RollerField::MeasuredApart => Held::Length(entry.measured_apart.as_ref()?),
        RollerField::AdjustersApart => Held::Length(entry.adjusters_apart.as_ref()?),
        RollerField::ParallelWithin => Held::Length(entry.parallel_within.as_ref()?),
        RollerField::LeverAngle => Held::Angle(entry.lever_angle.as_ref()?),
        RollerField::Diameter(Side::Left) => Held::Length(entry.left_diameter.as_ref()?),
        RollerField::Diameter(Side::Right) => Held::Length(entry.right_diameter.as_ref()?),
        RollerField::Goes(end)
        | RollerField::StopsAt(end)
        | RollerField::Gap(end)
        | RollerField::OverTop(end) => match (end.entry(entry)?, field) {
            (GapEntry::Feeler { goes, .. }, RollerField::Goes(_)) => Held::Length(goes),
            (GapEntry::Feeler { stops_at, .. }, RollerField::StopsAt(_)) => Held::Length(stops_at),
            (GapEntry::Gap(gap), RollerField::Gap(_)) => Held::Length(gap),
            (GapEntry::Height(height), RollerField::OverTop(_)) => Held::Length(height),
            _ => return None,
        },
        RollerField::Throw
        | RollerField::Now
        | RollerField::Pitch
        | RollerField::Tilt
        | RollerField::Shims => match (entry.adjuster.as_ref()?, field) {
            (AdjusterEntry::Eccentric { throw, .. }, RollerField::Throw) => Held::Length(throw),
            (AdjusterEntry::Eccentric { now, .. }, RollerField::Now) => Held::Angle(now),
            (AdjusterEntry::Thread { pitch, .. }, RollerField::Pitch) => Held::Length(pitch),
            (AdjusterEntry::Thread { tilt, .. }, RollerField::Tilt) => Held::Angle(tilt),
            (AdjusterEntry::Shims(sizes), RollerField::Shims) => Held::Lengths(sizes),
            _ => return None,
        },
        RollerField::Runout(station, place) => {
            let readings = &station_of(entry, station)?.readings;
            let there = readings
                .iter()
                .find(|reading| Place::at(reading.0.value().deg()) == place)?;
            Held::Length(&there.1)
        }
    })
}
