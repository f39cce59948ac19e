//! The shop board on the command line: to read, and as JSON.

use std::fmt::Write as _;
use std::path::Path;

use serde::Serialize;
use unicode_width::UnicodeWidthStr as _;

use super::report::{in_line, json_text};
use crate::analysis::shop::{SetAmounts, ShopRow, ShopSet, repeated_names, sets};
use crate::analysis::{DUE_RULE, Met, WearLimit, When, when};
use crate::command::{Problem, Refused, ShopBoard, caution};
use crate::plate::Day;
use crate::unit::OneOf as _;
use crate::units::{Length, Share};

/// Every unit of a folder: what is printed. What cannot be read is listed with its reason, and stops
/// none of the others.
///
/// # Errors
/// When the folder cannot be read.
pub fn shop(folder: &Path, is_json: bool) -> Result<String, Problem> {
    let board = ShopBoard::read(folder)?;
    let rows: Vec<&ShopRow> = board.rows().collect();
    let sets = sets(rows.iter().copied(), &SetAmounts::default());
    let refused = &board.refused;
    Ok(if is_json {
        json(&rows, &sets, refused)
    } else {
        text(&rows, &sets, refused)
    })
}

/// A file that could not be read, and why.
#[derive(Debug, Serialize)]
struct RefusedReport<'a> {
    file: &'a str,
    why: &'a str,
}

#[derive(Serialize)]
struct Report<'a> {
    units: Vec<UnitReport<'a>>,
    sets: Vec<SetReport<'a>>,
    refused: Vec<RefusedReport<'a>>,
}

#[derive(Serialize)]
struct UnitReport<'a> {
    file: &'a str,
    name: &'a str,
    set: Option<&'a str>,
    turf: &'static str,
    level: &'static str,
    height_of_cut_mm: f64,
    behind_centre_mm: f64,
    sweep_share: Option<f64>,
    reel_diameter_mm: f64,
    /// The last day in its record.
    last: Option<String>,
    entries: usize,
}

#[derive(Serialize)]
struct SetReport<'a> {
    name: &'a str,
    /// The files of its units.
    units: &'a [String],
    height_spread_mm: f64,
    behind_spread_mm: f64,
    agrees: bool,
}

impl<'a> UnitReport<'a> {
    fn of(row: &'a ShopRow) -> Self {
        Self {
            file: &row.file,
            name: &row.name,
            set: row.set.as_deref(),
            turf: row.turf.word(),
            level: row.level.id(),
            height_of_cut_mm: row.height_of_cut.mm(),
            behind_centre_mm: row.behind_centre.mm(),
            sweep_share: row.sweep_share.map(Share::of_one),
            reel_diameter_mm: row.reel_diameter.mm(),
            last: row.last.map(|day| day.to_string()),
            entries: row.entries,
        }
    }
}

impl<'a> SetReport<'a> {
    fn of(set: &'a ShopSet) -> Self {
        Self {
            name: &set.name,
            units: &set.files,
            height_spread_mm: set.height_spread.mm(),
            behind_spread_mm: set.behind_spread.mm(),
            agrees: set.agrees,
        }
    }
}

fn json(rows: &[&ShopRow], sets: &[ShopSet], refused: &[Refused]) -> String {
    json_text(&Report {
        units: rows.iter().map(|row| UnitReport::of(row)).collect(),
        sets: sets.iter().map(SetReport::of).collect(),
        refused: refused
            .iter()
            .map(|Refused { file, why, .. }| RefusedReport { file, why })
            .collect(),
    })
}

fn text(rows: &[&ShopRow], sets: &[ShopSet], refused: &[Refused]) -> String {
    let repeated = repeated_names(rows.iter().copied());
    let names: Vec<String> = rows
        .iter()
        .map(|row| in_line(&row.name_among(&repeated)))
        .collect();
    let name_of = |file: &str| {
        let place = rows.iter().position(|row| row.file == file);
        place.map_or_else(|| file.to_owned(), |place| names[place].clone())
    };
    let mut text = table(rows, &names);
    // Writing to a `String` cannot fail, so its results are passed over below.
    if !sets.is_empty() {
        let _ = writeln!(text, "\nSets");
    }
    for set in sets {
        let _ = writeln!(
            text,
            "  {}: {}; height of cut differs by {}, behind centre by {}",
            in_line(&set.name),
            if set.agrees {
                "agrees"
            } else {
                "does not agree"
            },
            set.system.length(set.height_spread),
            set.system.length(set.behind_spread)
        );
        let odd = set.odd_told(name_of);
        if !odd.is_empty() {
            let _ = writeln!(text, "    {odd}");
        }
    }
    let _ = writeln!(text, "\nReels");
    for (row, name) in rows.iter().zip(&names) {
        let _ = writeln!(text, "  {name}: {}{}", reel_told(row), limits_told(row));
    }
    let _ = writeln!(text, "  {DUE_RULE}");
    if !refused.is_empty() {
        let _ = writeln!(text, "\nNot read");
    }
    for Refused { file, why, .. } in refused {
        let _ = writeln!(text, "  {}: {}", in_line(file), in_line(why));
    }
    let _ = writeln!(text, "\n{}", caution());
    text
}

const HEADS: [&str; 10] = [
    "unit",
    "set",
    "turf",
    "status",
    "height of cut",
    "behind centre",
    "sweep",
    "reel",
    "last entry",
    "next due",
];

fn table(rows: &[&ShopRow], names: &[String]) -> String {
    let today = Day::today();
    let mut cells = vec![HEADS.map(str::to_owned)];
    cells.extend(rows.iter().zip(names).map(|(row, name)| {
        [
            name.clone(),
            in_line(row.set.as_deref().unwrap_or("-")),
            row.turf.name().to_owned(),
            row.status().to_owned(),
            row.system.length(row.height_of_cut),
            row.system.length(row.behind_centre),
            row.sweep_share
                .map_or_else(|| "-".to_owned(), |share| row.system.share(share)),
            row.system.length(row.reel_diameter),
            row.last
                .map_or_else(|| "-".to_owned(), |day| day.to_string()),
            match row.due {
                Ok(due) => format!("{} ({})", due.told_on(today), due.limit.word()),
                Err(why) => why.in_short().to_owned(),
            },
        ]
    }));
    let widths: Vec<usize> = (0..HEADS.len())
        .map(|column| {
            cells
                .iter()
                .map(|row| row[column].width())
                .max()
                .unwrap_or(0)
        })
        .collect();
    let mut text = String::new();
    for row in &cells {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(&widths) {
            line.push_str(cell);
            line.extend(std::iter::repeat_n(' ', width - cell.width() + 2));
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// What is left of a reel, how fast it wears, and when it is at scrap.
fn reel_told(row: &ShopRow) -> String {
    let system = row.system;
    let left = system.length(row.reel_diameter - row.smallest_diameter);
    let rate = match &row.wear {
        Ok(rate) => rate,
        Err(why) => return format!("{left} left; {why}"),
    };
    let (per, times) = rate.along.told_in();
    let Some(reached) = rate.reaches(row.smallest_diameter) else {
        return format!("{left} left; its record shows no wear");
    };
    let when = |at: f64| rate.along.told(at);
    let wears = system.length(Length::from_mm(-rate.slope_mm * times));
    let between = match (reached.earliest, reached.latest) {
        (Some(early), Some(late)) => {
            format!(", likely between {} and {} (95 %)", when(early), when(late))
        }
        _ => {
            "; the diameters on record are too few or too scattered to say how far off that can be"
                .to_owned()
        }
    };
    format!(
        "{left} left; wears {wears} per {per}, at its minimum diameter at {}{between}",
        when(reached.at)
    )
}

/// The limits that a unit meets before its minimum diameter if nobody touches its rollers, and when.
fn limits_told(row: &ShopRow) -> String {
    let mut told = String::new();
    for (limit, met) in row.left_alone.all_met() {
        if limit == WearLimit::Scrap {
            continue;
        }
        let at = match (met, when(met, &row.wear)) {
            (_, Some(When::Now)) => "now".to_owned(),
            (_, Some(when)) => format!("at {}", when.told()),
            (Met::At(diameter), None) => {
                format!("at a reel diameter of {}", row.system.length(diameter))
            }
            (Met::Already | Met::NotBeforeScrap, None) => continue,
        };
        // Writing to a `String` cannot fail.
        let _ = write!(told, "; rollers untouched, {} {at}", limit.name());
    }
    told
}
