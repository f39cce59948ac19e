//! What was found about the knives of a table as texts, in a reader's units.

use super::life::ReelWindows;
use super::table::KnifeRow;
use super::window::Window;
use crate::analysis::{NumberId, Solved};
use crate::unit::{COLUMNS, RowProblem, knife_cells, write_rows};
use crate::units::System;

/// Headings of the columns that follow those of the knife itself.
pub const FOUND: [&str; 7] = [
    "behind centre",
    "sweep below the cut",
    "sweep share",
    "underside",
    "window, reel new",
    "window, reel now",
    "window, reel scrap",
];

/// The numbers among them, which come first.
const NUMBERS: [NumberId; 4] = [
    NumberId::BehindCentre,
    NumberId::SweepBelowCut,
    NumberId::SweepShare,
    NumberId::UndersideOverPlate,
];

/// What was found about a knife, in the order of [`FOUND`].
#[must_use]
pub fn found(row: &KnifeRow, system: System) -> [String; FOUND.len()] {
    let [new, now, scrap] =
        [&row.life[0], &row.life[1], &row.life[2]].map(|reel| windows_text(reel, system));
    match &row.solution {
        Err(_) => {
            let none = || "does not meet the reel".to_owned();
            [none(), none(), none(), none(), new, now, scrap]
        }
        Ok(solution) => {
            let numbers = solution.numbers();
            let [behind, sweep, share, underside] = NUMBERS.map(|number| {
                let value = numbers.value(number);
                value.map_or_else(String::new, |value| value.shown_in(system))
            });
            [behind, sweep, share, underside, new, now, scrap]
        }
    }
}

/// From where to where a window reaches.
#[must_use]
pub fn window_text(window: &Window, system: System) -> String {
    format!(
        "{} to {}",
        system.angle(window.low),
        system.angle(window.high)
    )
}

fn windows_text(reel: &ReelWindows, system: System) -> String {
    match reel.windows[..] {
        [] => "none".to_owned(),
        _ => reel
            .windows
            .iter()
            .map(|window| window_text(window, system))
            .collect::<Vec<_>>()
            .join(" and "),
    }
}

/// The table as CSV: each knife's own columns, then what was found about it.
///
/// # Errors
/// When a row cannot be written; plain texts always can.
pub fn csv<'a>(
    solved: &Solved,
    rows: impl IntoIterator<Item = &'a KnifeRow>,
    system: System,
) -> Result<String, RowProblem> {
    let headings = COLUMNS.iter().chain(&FOUND).map(|&text| text.to_owned());
    let mut lines: Vec<Vec<String>> = vec![headings.collect()];
    for (row, (_, knife)) in rows.into_iter().zip(solved.document.knives()) {
        let own = knife_cells(knife).map(str::to_owned);
        lines.push(own.into_iter().chain(found(row, system)).collect());
    }
    let rows = lines.iter().map(|line| line.iter().map(String::as_str));
    write_rows(rows)
}
