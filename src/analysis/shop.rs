//! The shop board: a row for every unit of a folder, and whether the units of a set agree.

use super::{Level, NoRate, NumberId, Solved, WearRate};
use crate::plate::{Day, Record};
use crate::unit::Turf;
use crate::units::{Length, Measure as _, Share, System};

/// A unit on the board.
#[derive(Clone, Debug, PartialEq)]
pub struct ShopRow {
    /// The name of its file.
    pub file: String,
    /// What the shop calls it.
    pub name: String,
    /// The set it mows in.
    pub set: Option<String>,
    /// Where it cuts.
    pub turf: Turf,
    /// The worst of its findings.
    pub level: Level,
    /// Plate to edge.
    pub height_of_cut: Length,
    /// How far the edge stands behind centre.
    pub behind_centre: Length,
    /// Sweep over height of cut; none where the edge is not above the plate.
    pub sweep_share: Option<Share>,
    /// The reel as it is.
    pub reel_diameter: Length,
    /// The reel at scrap.
    pub smallest_diameter: Length,
    /// The last day in its record.
    pub last: Option<Day>,
    /// How many entries its record has.
    pub entries: usize,
    /// How fast its reel wears.
    pub wear: Result<WearRate, NoRate>,
    /// The units it is measured in.
    pub system: System,
}

/// A set of units, and whether they agree.
#[derive(Clone, Debug, PartialEq)]
pub struct ShopSet {
    /// Its name.
    pub name: String,
    /// The files of its units.
    pub files: Vec<String>,
    /// The largest height of cut less the smallest.
    pub height_spread: Length,
    /// The furthest behind centre less the least far.
    pub behind_spread: Length,
    /// Whether both are within what a set may differ by.
    pub agrees: bool,
    /// The units that its first unit is measured in.
    pub system: System,
}

/// How much the units of one set may differ (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetLimits {
    /// In height of cut.
    pub height: Length,
    /// In how far behind centre.
    pub behind: Length,
}

impl SetLimits {
    /// The starting values of a turf.
    #[must_use]
    pub fn starting(turf: Turf) -> Self {
        let height = match turf {
            Turf::Green | Turf::Tee => 0.002,
            Turf::Fairway | Turf::Rough => 0.005,
        };
        Self {
            height: Length::from_inches(height),
            behind: Length::from_inches(0.020),
        }
    }
}

/// Spreads that differ by less are one, in millimetres.
const SAME_MM: f64 = 1e-9;

impl ShopRow {
    /// The row of a solved unit, with its record.
    #[must_use]
    pub fn of(file: String, solved: &Solved, record: &Record) -> Self {
        let solution = &solved.solution;
        let numbers = solution.numbers();
        let length = |id: NumberId| Length::from_base(numbers.base(id).unwrap_or_default());
        Self {
            file,
            name: solved.document.name.clone(),
            set: solved
                .document
                .set
                .as_deref()
                .map(str::trim)
                .filter(|set| !set.is_empty())
                .map(str::to_owned),
            turf: solved.document.turf,
            level: solved.findings.worst(),
            height_of_cut: solution.pose.height_of_cut,
            behind_centre: length(NumberId::BehindCentre),
            sweep_share: solution.sweep_share,
            reel_diameter: length(NumberId::ReelDiameter),
            smallest_diameter: solved.unit.smallest_diameter,
            last: record.last_day(),
            entries: record.entries.len(),
            wear: WearRate::of_record(record),
            system: solved.unit.system,
        }
    }
}

/// The sets among some units, in the order in which they are met.
#[must_use]
pub fn sets(rows: &[ShopRow]) -> Vec<ShopSet> {
    let mut names: Vec<&str> = Vec::new();
    for set in rows.iter().filter_map(|row| row.set.as_deref()) {
        if !names.contains(&set) {
            names.push(set);
        }
    }
    names
        .into_iter()
        .filter_map(|name| set(name, rows))
        .collect()
}

fn set(name: &str, rows: &[ShopRow]) -> Option<ShopSet> {
    let of_set = |row: &&ShopRow| row.set.as_deref() == Some(name);
    let rows: Vec<&ShopRow> = rows.iter().filter(of_set).collect();
    let first = rows.first()?;
    let spread = |number: fn(&ShopRow) -> f64| {
        let numbers = rows.iter().map(|row| number(row));
        let (low, high) = numbers.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), mm| {
            (low.min(mm), high.max(mm))
        });
        Length::from_mm(high - low)
    };
    let height_spread = spread(|row| row.height_of_cut.mm());
    let behind_spread = spread(|row| row.behind_centre.mm());
    let limits = SetLimits::starting(first.turf);
    let is_within = |spread: Length, most: Length| spread.mm() <= most.mm() + SAME_MM;
    Some(ShopSet {
        name: name.to_owned(),
        files: rows.iter().map(|row| row.file.clone()).collect(),
        height_spread,
        behind_spread,
        agrees: is_within(height_spread, limits.height) && is_within(behind_spread, limits.behind),
        system: first.system,
    })
}
