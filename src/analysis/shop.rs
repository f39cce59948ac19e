//! The shop board: a row for every unit of a folder, and whether the units of a set agree.

use std::collections::{BTreeMap, BTreeSet};

use super::{Due, LeftAlone, Level, NoDue, NoRate, NumberId, OddOnes, Solved, WearRate};
use crate::plate::{Day, Record};
use crate::unit::{ExampleCount, Turf};
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
    /// The worst of its findings as they are worked out; what is shown is [`ShopRow::shown_level`].
    pub level: Level,
    /// How many of its readings are examples.
    pub examples: ExampleCount,
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
    /// What it comes to first if nobody touches its rollers, or why the record does not tell.
    pub due: Result<Due, NoDue>,
    /// Where each limit is met on the way to scrap, with the rollers untouched.
    pub left_alone: LeftAlone,
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
    /// What they may be.
    pub limits: SetLimits,
    /// Whose heights of cut stand out, by their places among the files.
    pub height_odd: OddOnes,
    /// Who stands out in how far behind centre.
    pub behind_odd: OddOnes,
    /// Whether none does in either.
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

/// What a person lets the units of one set differ by, in place of the starting values.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SetAmounts {
    /// In height of cut; none for the starting value of the turf.
    pub height: Option<Length>,
    /// In how far behind centre; none for the starting value.
    pub behind: Option<Length>,
}

impl SetAmounts {
    /// The limits of a set on a turf.
    #[must_use]
    pub fn on(&self, turf: Turf) -> SetLimits {
        let starting = SetLimits::starting(turf);
        SetLimits {
            height: self.height.unwrap_or(starting.height),
            behind: self.behind.unwrap_or(starting.behind),
        }
    }
}

impl ShopRow {
    /// The row of a solved unit, with its record.
    #[must_use]
    pub fn of(file: String, solved: &Solved, record: &Record) -> Self {
        let solution = &solved.solution;
        let left_alone = LeftAlone::of(solved);
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
            examples: solved.document.example_count(),
            height_of_cut: solution.pose.height_of_cut,
            behind_centre: length(NumberId::BehindCentre),
            sweep_share: solution.sweep_share,
            reel_diameter: length(NumberId::ReelDiameter),
            smallest_diameter: solved.unit.smallest_diameter,
            last: record.last_day(),
            entries: record.entries.len(),
            wear: WearRate::of_record(record)
                .and_then(|rate| rate.of_reel(left_alone.reel_diameter())),
            due: Due::of(&left_alone, record),
            left_alone,
            system: solved.unit.system,
        }
    }

    /// Its status as it is shown: none is fine that rests on example readings.
    #[must_use]
    pub const fn shown_level(&self) -> Level {
        self.level.resting_on(self.examples)
    }

    /// Its name, with its file where others among `repeated` are called the same.
    #[must_use]
    pub fn name_among(&self, repeated: &BTreeSet<String>) -> String {
        if repeated.contains(self.name.trim()) {
            format!("{} ({})", self.name, self.file)
        } else {
            self.name.clone()
        }
    }

    /// The word for its status.
    #[must_use]
    pub const fn status(&self) -> &'static str {
        self.level.word_resting_on(self.examples)
    }
}

/// The names that more than one unit has.
#[must_use]
pub fn repeated_names<'a>(rows: impl IntoIterator<Item = &'a ShopRow>) -> BTreeSet<String> {
    let mut met = BTreeSet::new();
    let names = rows.into_iter().map(|row| row.name.trim());
    let repeated = names.filter(|name| !met.insert(*name));
    repeated.map(str::to_owned).collect()
}

impl ShopSet {
    /// Whether a unit is marked in its height of cut and in how far behind centre it stands.
    #[must_use]
    pub fn marks(&self, file: &str) -> [bool; 2] {
        let place = self.files.iter().position(|own| own == file);
        [&self.height_odd, &self.behind_odd].map(|odd| place.is_some_and(|place| odd.marks(place)))
    }

    /// Which of its units stand out, in sentences; empty where it agrees. `name` tells how the unit of a
    /// file is called.
    #[must_use]
    pub fn odd_told(&self, name: impl Fn(&str) -> String) -> String {
        let told = |odd: &OddOnes, what: &str| match odd {
            OddOnes::None => None,
            OddOnes::Any if self.files.len() == 2 => Some(format!(
                "{what}: of two units either can be off, so both are marked."
            )),
            OddOnes::Any => Some(format!("{what}: none stands out, so all are marked.")),
            OddOnes::These(places) => {
                let names = places.iter().filter_map(|place| self.files.get(*place));
                let names: Vec<String> = names.map(|file| name(file)).collect();
                Some(format!(
                    "{what}: the odd one out is {}.",
                    names.join(" and ")
                ))
            }
        };
        let height = told(&self.height_odd, "Height of cut");
        let behind = told(&self.behind_odd, "Behind centre");
        let all: Vec<String> = height.into_iter().chain(behind).collect();
        all.join(" ")
    }
}

/// The sets among some units, in the order in which they are met.
#[must_use]
pub fn sets<'a>(rows: impl IntoIterator<Item = &'a ShopRow>, amounts: &SetAmounts) -> Vec<ShopSet> {
    let mut sets: Vec<(&str, Vec<&ShopRow>)> = Vec::new();
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    for row in rows {
        let Some(name) = row.set.as_deref() else {
            continue;
        };
        let place = *places.entry(name).or_insert(sets.len());
        if place == sets.len() {
            sets.push((name, Vec::new()));
        }
        sets[place].1.push(row);
    }
    let sets = sets.into_iter();
    sets.filter_map(|(name, rows)| set(name, &rows, amounts))
        .collect()
}

fn set(name: &str, rows: &[&ShopRow], amounts: &SetAmounts) -> Option<ShopSet> {
    let first = rows.first()?;
    let numbers = |number: fn(&ShopRow) -> Length| -> Vec<f64> {
        rows.iter().map(|row| number(row).mm()).collect()
    };
    let spread = |numbers: &[f64]| {
        let low = numbers.iter().copied().fold(f64::INFINITY, f64::min);
        let high = numbers.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        Length::from_mm(high - low)
    };
    let heights = numbers(|row| row.height_of_cut);
    let behind = numbers(|row| row.behind_centre);
    let limits = amounts.on(first.turf);
    let height_odd = OddOnes::among(&heights, limits.height.mm());
    let behind_odd = OddOnes::among(&behind, limits.behind.mm());
    Some(ShopSet {
        name: name.to_owned(),
        files: rows.iter().map(|row| row.file.clone()).collect(),
        height_spread: spread(&heights),
        behind_spread: spread(&behind),
        limits,
        agrees: height_odd.agree() && behind_odd.agree(),
        height_odd,
        behind_odd,
        system: first.system,
    })
}
