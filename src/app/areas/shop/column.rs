//! The columns of the board: what each is called, how wide it is, what stands in it, and how it sorts.

use std::cmp::Ordering;

use crate::analysis::shop::ShopRow;
use crate::analysis::{DUE_RULE, Due};
use crate::command::BoardUnit;
use crate::plate::Day;
use crate::unit::OneOf as _;
use crate::units::{Length, Measure as _, System};

/// A column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    Name,
    Set,
    Turf,
    Status,
    Height,
    Behind,
    Sweep,
    Left,
    Last,
    Due,
}

impl Column {
    /// Every one, from the left.
    pub const ALL: [Self; 10] = [
        Self::Name,
        Self::Set,
        Self::Turf,
        Self::Status,
        Self::Height,
        Self::Behind,
        Self::Sweep,
        Self::Left,
        Self::Last,
        Self::Due,
    ];

    /// Its heading.
    pub const fn head(self) -> &'static str {
        match self {
            Self::Name => "unit",
            Self::Set => "set",
            Self::Turf => "turf",
            Self::Status => "status",
            Self::Height => "height of cut",
            Self::Behind => "behind centre",
            Self::Sweep => "sweep",
            Self::Left => "reel left",
            Self::Last => "last job",
            Self::Due => "next due",
        }
    }

    /// What stands in it.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Name => "What the shop calls the unit.",
            Self::Set => "The set it mows in.",
            Self::Turf => "Where it cuts.",
            Self::Status => "The worst of its findings.",
            Self::Height => "Plate to edge, as set.",
            Self::Behind => "How far the edge stands behind the reel's centre, as set.",
            Self::Sweep => "Sweep as % of height of cut.",
            Self::Left => "Reel diameter now less the minimum diameter (scrap).",
            Self::Last => "The last day in its record.",
            Self::Due => DUE_RULE,
        }
    }

    /// How wide it is, in points.
    pub const fn width(self) -> f32 {
        match self {
            Self::Name => 236.0,
            Self::Set => 118.0,
            Self::Turf => 62.0,
            Self::Status => 170.0,
            Self::Height | Self::Behind => 98.0,
            Self::Sweep | Self::Left => 74.0,
            Self::Last => 86.0,
            Self::Due => 204.0,
        }
    }

    /// How wide it is where the columns are folded: what is long there takes two lines.
    pub const fn folded_width(self) -> f32 {
        match self {
            Self::Name | Self::Set | Self::Turf => 238.0,
            Self::Status => 92.0,
            Self::Height | Self::Behind => 84.0,
            Self::Sweep => 52.0,
            Self::Left => 66.0,
            Self::Last => 80.0,
            Self::Due => 116.0,
        }
    }

    /// What stands in it for a unit.
    pub fn text(self, row: &ShopRow, system: System) -> String {
        match self {
            Self::Name => row.name.clone(),
            Self::Set => row.set.clone().unwrap_or_default(),
            Self::Turf => row.turf.name().to_owned(),
            Self::Status => row.status().to_owned(),
            Self::Height => system.length(row.height_of_cut),
            Self::Behind => system.length(row.behind_centre),
            Self::Sweep => row
                .sweep_share
                .map_or_else(String::new, |share| system.share(share)),
            Self::Left => system.length(row.reel_diameter - row.smallest_diameter),
            Self::Last => row.last.map_or_else(String::new, |day| day.to_string()),
            Self::Due => match row.due {
                Ok(due) => format!("{}, {}", due.told_on(Day::today()), due.limit.word()),
                Err(why) => why.in_short().to_owned(),
            },
        }
    }

    /// Its heading in a spreadsheet, with the unit of the numbers under it.
    pub fn bare_head(self, system: System) -> String {
        let head = self.head();
        match self {
            Self::Height | Self::Behind | Self::Left => {
                let (unit, _) = Length::unit_in(system);
                format!("{head} ({unit})")
            }
            Self::Sweep => format!("{head} (% of height of cut)"),
            Self::Name | Self::Set | Self::Turf | Self::Status | Self::Last | Self::Due => {
                head.to_owned()
            }
        }
    }

    /// What stands in it for a unit in a spreadsheet: where it is a quantity, its bare number.
    pub fn bare(self, row: &ShopRow, system: System) -> String {
        match self {
            Self::Height => row.height_of_cut.bare(system),
            Self::Behind => row.behind_centre.bare(system),
            Self::Sweep => row
                .sweep_share
                .map_or_else(String::new, |share| share.bare(system)),
            Self::Left => (row.reel_diameter - row.smallest_diameter).bare(system),
            Self::Name | Self::Set | Self::Turf | Self::Status | Self::Last | Self::Due => {
                self.text(row, system)
            }
        }
    }

    /// Which of two units comes first by it. What a unit does not have comes last.
    pub fn compare(self, one: &BoardUnit, other: &BoardUnit, is_reversed: bool) -> Ordering {
        let (one, other) = (&one.row, &other.row);
        let turned = |order: Ordering| if is_reversed { order.reverse() } else { order };
        let by = match self {
            Self::Name => turned(by_letters(&one.name, &other.name)),
            Self::Set => some_first(one.set.as_ref(), other.set.as_ref(), |a, b| {
                turned(by_letters(a, b))
            }),
            Self::Turf => turned(by_letters(one.turf.name(), other.turf.name())),
            Self::Status => turned(one.shown_level().cmp(&other.shown_level())),
            Self::Height => turned(one.height_of_cut.mm().total_cmp(&other.height_of_cut.mm())),
            Self::Behind => turned(one.behind_centre.mm().total_cmp(&other.behind_centre.mm())),
            Self::Sweep => some_first(one.sweep_share, other.sweep_share, |a, b| {
                turned(a.of_one().total_cmp(&b.of_one()))
            }),
            Self::Left => {
                let left = |row: &ShopRow| row.reel_diameter.mm() - row.smallest_diameter.mm();
                turned(left(one).total_cmp(&left(other)))
            }
            Self::Last => some_first(one.last, other.last, |a, b| turned(a.cmp(&b))),
            Self::Due => some_first(one.due.ok(), other.due.ok(), |a, b| {
                turned(Due::cmp_when(&a, &b))
            }),
        };
        by.then_with(|| one.file.cmp(&other.file))
    }
}

fn by_letters(one: &str, other: &str) -> Ordering {
    one.to_lowercase().cmp(&other.to_lowercase())
}

fn some_first<T>(
    one: Option<T>,
    other: Option<T>,
    compare: impl FnOnce(T, T) -> Ordering,
) -> Ordering {
    match (one, other) {
        (Some(one), Some(other)) => compare(one, other),
        (one, other) => other.is_some().cmp(&one.is_some()),
    }
}
