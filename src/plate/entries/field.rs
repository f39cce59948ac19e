//! The entries of a sheet, each by its name.

use crate::plate::sheet::{Roller, Side, Station};
use crate::plate::step::Step;

/// A text that is typed into a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SheetField {
    /// The width that the unit cuts.
    CutWidth,
    /// The day.
    Date,
    /// Who did it.
    By,
    /// The machine's hours.
    Hours,
    /// Whatever else is worth knowing.
    Notes,
    /// From the plate's peak to its valley.
    PlateFlat,
    /// How little runout is wanted.
    RunoutWanted,
    /// How much runout there may be.
    RunoutMost,
    /// The gauge bar's thickness under an end of the knife.
    Bar(Side),
    /// The reel's diameter at a place along it.
    Reel(Station),
    /// The leaf that goes between knife and reel.
    KnifeGoes(Station),
    /// The leaf that does not.
    KnifeStopsAt(Station),
    /// The height of cut at a place along the knife.
    Height(Station),
    /// The attitude at an end of the knife.
    Attitude(Side),
    /// What belongs to one of the rollers.
    Of(Roller, RollerField),
}

/// A text that is typed in for one of the rollers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RollerField {
    /// Between the two places read along it.
    MeasuredApart,
    /// Between its adjusters.
    AdjustersApart,
    /// How parallel it is wanted.
    ParallelWithin,
    /// How far the indicator's lever slants.
    LeverAngle,
    /// The leaf that goes under an end.
    Goes(End),
    /// The leaf that does not.
    StopsAt(End),
    /// The gap under an end.
    Gap(End),
    /// The height of its top over the plate.
    OverTop(End),
    /// Its diameter at an end.
    Diameter(Side),
    /// An eccentric's throw.
    Throw,
    /// Where an eccentric stands.
    Now,
    /// A thread's pitch.
    Pitch,
    /// How far a thread leans.
    Tilt,
    /// The sizes of shims in stock.
    Shims,
    /// What an indicator read there, at a place of the turn.
    Runout(Station, Place),
}

/// An end of a roller, as it lay first or after half a turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct End {
    /// Which.
    pub side: Side,
    /// Whether it was read after half a turn.
    pub is_half_turn: bool,
}

impl End {
    /// All four.
    pub const ALL: [Self; 4] = [
        Self::of(Side::Left, false),
        Self::of(Side::Right, false),
        Self::of(Side::Left, true),
        Self::of(Side::Right, true),
    ];

    /// An end.
    #[must_use]
    pub const fn of(side: Side, is_half_turn: bool) -> Self {
        Self { side, is_half_turn }
    }

    const fn key(self) -> &'static str {
        match (self.side, self.is_half_turn) {
            (Side::Left, false) => "left",
            (Side::Right, false) => "right",
            (Side::Left, true) => "left_half_turn",
            (Side::Right, true) => "right_half_turn",
        }
    }

    const fn words(self) -> &'static str {
        match (self.side, self.is_half_turn) {
            (Side::Left, false) => "left end",
            (Side::Right, false) => "right end",
            (Side::Left, true) => "left end, half a turn on",
            (Side::Right, true) => "right end, half a turn on",
        }
    }
}

/// A place of a roller's turn, in thousandths of a degree from its mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place(i32);

/// The furthest place that is told from others: some turns on.
const FURTHEST_DEG: f64 = 1e5;

impl Place {
    /// The place nearest to an angle.
    #[must_use]
    pub fn at(deg: f64) -> Self {
        let thousandths = (deg.clamp(-FURTHEST_DEG, FURTHEST_DEG) * 1000.0).round();
        #[expect(clippy::cast_possible_truncation, reason = "within a hundred million")]
        let thousandths = thousandths as i32;
        Self(thousandths)
    }

    /// So many places evenly round a turn.
    pub fn round(count: u32) -> impl Iterator<Item = Self> {
        let count = count.max(1);
        let step = 360.0 / f64::from(count);
        (0..count).map(move |place| Self::at(step * f64::from(place)))
    }

    /// Its angle.
    #[must_use]
    pub fn deg(self) -> f64 {
        f64::from(self.0) / 1000.0
    }
}

impl SheetField {
    /// Its path in the file; of a reading of a turn, which the file knows by its number, a path of its own.
    #[must_use]
    pub fn path(self) -> String {
        let along = |what: &str, station: Station| format!("{what}.{}", station.word());
        match self {
            Self::CutWidth => "cut_width".to_owned(),
            Self::Date => "date".to_owned(),
            Self::By => "by".to_owned(),
            Self::Hours => "hours".to_owned(),
            Self::Notes => "notes".to_owned(),
            Self::PlateFlat => "plate_flat_within".to_owned(),
            Self::RunoutWanted => "runout_wanted".to_owned(),
            Self::RunoutMost => "runout_most".to_owned(),
            Self::Bar(side) => format!("bar.{}", side.word()),
            Self::Reel(station) => along("reel", station),
            Self::KnifeGoes(station) => along("knife_to_reel", station) + ".goes",
            Self::KnifeStopsAt(station) => along("knife_to_reel", station) + ".stops_at",
            Self::Height(station) => along("height", station),
            Self::Attitude(side) => format!("attitude.{}", side.word()),
            Self::Of(roller, field) => format!("{}.{}", roller.word(), field.path()),
        }
    }

    /// The entry with a path; none where there is no such entry.
    #[must_use]
    pub fn at_path(path: &str) -> Option<Self> {
        if let Some((before, deg)) = path.split_once('@') {
            let place = Place::at(deg.parse().ok()?);
            let of = Roller::ALL
                .into_iter()
                .flat_map(|roller| Station::ALL.map(|station| (roller, station)));
            let mut of =
                of.map(|(roller, station)| Self::Of(roller, RollerField::Runout(station, place)));
            return of.find(|field| {
                let own = field.path();
                own.split_once('@').is_some_and(|(own, _)| own == before)
            });
        }
        Self::all_but_turns().find(|field| field.path() == path)
    }

    /// Every entry but those round a turn, of which there are as many as a person likes.
    pub fn all_but_turns() -> impl Iterator<Item = Self> {
        let alone = [
            Self::CutWidth,
            Self::Date,
            Self::By,
            Self::Hours,
            Self::Notes,
            Self::PlateFlat,
            Self::RunoutWanted,
            Self::RunoutMost,
        ];
        let sides = Side::ALL
            .into_iter()
            .flat_map(|side| [Self::Bar(side), Self::Attitude(side)]);
        let stations = Station::ALL.into_iter().flat_map(|station| {
            [
                Self::Reel(station),
                Self::KnifeGoes(station),
                Self::KnifeStopsAt(station),
                Self::Height(station),
            ]
        });
        let rollers = Roller::ALL.into_iter().flat_map(|roller| {
            RollerField::all_but_turns().map(move |field| Self::Of(roller, field))
        });
        alone
            .into_iter()
            .chain(sides)
            .chain(stations)
            .chain(rollers)
    }

    /// Its name, to be read alone.
    #[must_use]
    pub fn name(self) -> String {
        let along = |what: &str, station: Station| format!("{what}, {}", station.word());
        match self {
            Self::CutWidth => "Cutting width".to_owned(),
            Self::Date => "Date".to_owned(),
            Self::By => "By".to_owned(),
            Self::Hours => "Hours".to_owned(),
            Self::Notes => "Notes on the sheet".to_owned(),
            Self::PlateFlat => "Plate flat within".to_owned(),
            Self::RunoutWanted => "Runout wanted".to_owned(),
            Self::RunoutMost => "Runout at most".to_owned(),
            Self::Bar(side) => format!("Gauge bar, {}", side.word()),
            Self::Reel(station) => along("Reel diameter", station),
            Self::KnifeGoes(station) => along("Knife to reel, leaf that goes", station),
            Self::KnifeStopsAt(station) => along("Knife to reel, leaf that stops", station),
            Self::Height(station) => along("Height of cut", station),
            Self::Attitude(side) => format!("Attitude, {}", side.word()),
            Self::Of(Roller::Front, field) => format!("Front roller, {}", field.name()),
            Self::Of(Roller::Rear, field) => format!("Rear roller, {}", field.name()),
        }
    }

    /// The place of a turn that it is read at; none for whatever is read at none.
    pub(super) const fn place(self) -> Option<Place> {
        match self {
            Self::Of(_, RollerField::Runout(_, place)) => Some(place),
            _ => None,
        }
    }

    /// Whether it is a reading that holds no more once what it was read of was moved; not a size or a
    /// limit.
    #[must_use]
    pub const fn is_reading(self) -> bool {
        match self {
            Self::Bar(_) | Self::Height(_) | Self::Attitude(_) => true,
            Self::Of(_, field) => matches!(
                field,
                RollerField::Goes(_)
                    | RollerField::StopsAt(_)
                    | RollerField::Gap(_)
                    | RollerField::OverTop(_)
            ),
            _ => false,
        }
    }

    /// The roller whose end is read in it; none where it is no reading of an end.
    #[must_use]
    pub const fn roller_read(self) -> Option<Roller> {
        match self {
            Self::Of(roller, _) if self.is_reading() => Some(roller),
            _ => None,
        }
    }

    /// The step in which it is read; none where it belongs to the whole sheet.
    #[must_use]
    pub const fn step(self) -> Option<Step> {
        Some(match self {
            Self::CutWidth
            | Self::Date
            | Self::By
            | Self::Hours
            | Self::Notes
            | Self::RunoutWanted
            | Self::RunoutMost => return None,
            Self::PlateFlat | Self::Bar(_) => Step::PlateAndBar,
            Self::Reel(_) => Step::Reel,
            Self::KnifeGoes(_) | Self::KnifeStopsAt(_) => Step::KnifeToReel,
            Self::Height(_) => Step::Height,
            Self::Attitude(_) => Step::Attitude,
            Self::Of(roller, field) => match (roller, field.is_of_turn(), field.is_of_adjuster()) {
                (Roller::Front, true, _) => Step::FrontRunout,
                (Roller::Rear, true, _) => Step::RearRunout,
                (Roller::Front, _, true) => Step::FrontAdjuster,
                (Roller::Rear, _, true) => Step::RearAdjuster,
                (Roller::Front, ..) => Step::FrontEnds,
                (Roller::Rear, ..) => Step::RearEnds,
            },
        })
    }
}

impl RollerField {
    fn all_but_turns() -> impl Iterator<Item = Self> {
        let alone = [
            Self::MeasuredApart,
            Self::AdjustersApart,
            Self::ParallelWithin,
            Self::LeverAngle,
            Self::Throw,
            Self::Now,
            Self::Pitch,
            Self::Tilt,
            Self::Shims,
            Self::Diameter(Side::Left),
            Self::Diameter(Side::Right),
        ];
        let ends = End::ALL.into_iter().flat_map(|end| {
            [
                Self::Goes(end),
                Self::StopsAt(end),
                Self::Gap(end),
                Self::OverTop(end),
            ]
        });
        alone.into_iter().chain(ends)
    }

    const fn is_of_turn(self) -> bool {
        matches!(self, Self::Runout(..) | Self::LeverAngle)
    }

    const fn is_of_adjuster(self) -> bool {
        matches!(
            self,
            Self::AdjustersApart | Self::Throw | Self::Now | Self::Pitch | Self::Tilt | Self::Shims
        )
    }

    fn path(self) -> String {
        match self {
            Self::MeasuredApart => "measured_apart".to_owned(),
            Self::AdjustersApart => "adjusters_apart".to_owned(),
            Self::ParallelWithin => "parallel_within".to_owned(),
            Self::LeverAngle => "lever_angle".to_owned(),
            Self::Goes(end) => format!("{}.goes", end.key()),
            Self::StopsAt(end) => format!("{}.stops_at", end.key()),
            Self::Gap(end) => end.key().to_owned(),
            // One of both stands in the file at a time, at one path.
            Self::OverTop(end) => format!("{}.height", end.key()),
            Self::Diameter(side) => format!("{}_diameter", side.word()),
            Self::Throw => "adjuster.throw".to_owned(),
            Self::Now => "adjuster.now".to_owned(),
            Self::Pitch => "adjuster.pitch".to_owned(),
            Self::Tilt => "adjuster.tilt".to_owned(),
            Self::Shims => "adjuster".to_owned(),
            Self::Runout(station, place) => {
                format!("runout.{}@{}", station.word(), place.deg())
            }
        }
    }

    fn name(self) -> String {
        match self {
            Self::MeasuredApart => "between the two places read".to_owned(),
            Self::AdjustersApart => "between the adjusters".to_owned(),
            Self::ParallelWithin => "parallel within".to_owned(),
            Self::LeverAngle => "indicator's lever slants by".to_owned(),
            Self::Goes(end) => format!("leaf that goes, {}", end.words()),
            Self::StopsAt(end) => format!("leaf that stops, {}", end.words()),
            Self::Gap(end) => format!("gap, {}", end.words()),
            Self::OverTop(end) => format!("height over the top, {}", end.words()),
            Self::Diameter(side) => format!("diameter, {} end", side.word()),
            Self::Throw => "throw of the eccentric".to_owned(),
            Self::Now => "eccentric stands at".to_owned(),
            Self::Pitch => "pitch of the thread".to_owned(),
            Self::Tilt => "thread leans by".to_owned(),
            Self::Shims => "shims in stock".to_owned(),
            Self::Runout(station, place) => {
                format!("indicator {}, at {}°", station.word(), place.deg())
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_entry_is_told_from_every_other_and_found_by_its_path() {
        let turns = Place::round(8)
            .map(|place| SheetField::Of(Roller::Rear, RollerField::Runout(Station::Middle, place)));
        let fields: Vec<_> = SheetField::all_but_turns().chain(turns).collect();
        let paths: BTreeSet<_> = fields.iter().map(|field| field.path()).collect();
        let names: BTreeSet<_> = fields.iter().map(|field| field.name()).collect();
        assert_eq!((paths.len(), names.len()), (fields.len(), fields.len()));
        for field in fields {
            assert_eq!(SheetField::at_path(&field.path()), Some(field));
        }
        assert_eq!(SheetField::at_path("front.runout.left@x"), None);
        assert_eq!(SheetField::at_path("front"), None);
    }
}
