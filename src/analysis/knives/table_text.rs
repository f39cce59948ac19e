//! What was found about the knives of a table as texts, in a reader's units.

use std::borrow::Cow;

use super::life::{Life, ReelWindows};
use super::price::sum_text;
use super::ranking::Ranks;
use super::table::KnifeRow;
use super::window::Window;
use crate::analysis::ranges::attitude_range;
use crate::analysis::{NumberId, Solved};
use crate::unit::{COLUMNS, RowProblem, knife_cells, write_rows};
use crate::units::{Angle, Length, Measure as _, System};

/// Headings of the columns that follow those of the knife itself.
pub const FOUND: [&str; 7] = [
    "behind centre",
    "sweep",
    "sweep as % of height of cut",
    "underside",
    "working range, reel new",
    "working range, reel now",
    "working range, reel scrap",
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

/// The headings of a table for spreadsheets that follow those of the knife itself: every number by
/// itself, its unit in the head.
#[must_use]
pub fn number_heads(system: System) -> Vec<String> {
    let length = Length::unit_in(system).0;
    let mut heads: Vec<String> = [
        ("behind centre", length),
        ("sweep", length),
        ("sweep as % of height of cut", "%"),
        ("underside", length),
        ("top angle needed", "deg"),
        ("set once low", "deg"),
        ("set once high", "deg"),
        ("room", "deg"),
        ("room ±", "deg"),
        ("aim", "deg"),
        ("aim, rear roller", length),
        ("lip thickness left", length),
        ("lip length left", length),
    ]
    .map(|(name, unit)| format!("{name} ({unit})"))
    .to_vec();
    heads.push("grinds left".to_owned());
    heads.push("total price".to_owned());
    heads.extend(["verdict", "against", "rank"].map(str::to_owned));
    for life in Life::ALL {
        let name = life.name();
        heads.push(format!("reel {name} ({length})"));
        heads.push(format!("working range reel {name} low (deg)"));
        heads.push(format!("working range reel {name} high (deg)"));
    }
    heads.push("unit".to_owned());
    heads.push("date".to_owned());
    heads.push(format!("height of cut ({length})"));
    heads.push("attitude (deg)".to_owned());
    heads.push("limit sweep (%)".to_owned());
    heads.push(format!("limit underside ({length})"));
    heads.push(format!("limit ahead of centre ({length})"));
    heads.push("limit room (deg)".to_owned());
    heads.push("attitudes from (deg)".to_owned());
    heads.push("attitudes to (deg)".to_owned());
    heads
}

fn numbers_of(solved: &Solved, row: &KnifeRow, rank: usize, system: System) -> Vec<String> {
    let unit = &solved.unit;
    let length = |length: Length| length.bare(system);
    let angle = |angle: Angle| angle.bare(system);
    let or_none = |text: Option<String>| text.unwrap_or_default();
    let solution = row.solution.as_ref().ok();
    let range = row.set_once.as_ref();
    let judgement = &row.judgement;
    let against: Vec<_> = judgement
        .against
        .iter()
        .map(|against| against.id())
        .collect();
    let mut cells = vec![
        or_none(solution.map(|s| length(s.sweep.behind_centre))),
        or_none(solution.map(|s| length(s.sweep.below_cut))),
        or_none(row.sweep_share().map(|share| share.bare(system))),
        or_none(solution.map(|s| length(s.underside_clearance))),
        or_none(row.top_angle_needed().map(angle)),
        or_none(range.map(|range| angle(range.low.at))),
        or_none(range.map(|range| angle(range.high.at))),
        angle(row.room()),
        // Without end it is not known.
        or_none(
            Some(judgement.off.whole)
                .filter(|off| off.deg().is_finite())
                .map(angle),
        ),
        or_none(row.aim.ok().map(|aim| angle(aim.attitude))),
        or_none(row.aim.ok().map(|aim| length(aim.rear_roller))),
        length(row.lip.thickness),
        length(row.lip.length),
        or_none(row.lip.grinds.map(|grinds| grinds.to_string())),
        row.total().map_or_else(String::new, sum_text),
        judgement.verdict.word().to_owned(),
        against.join(" "),
        rank.to_string(),
    ];
    for reel in &row.life {
        let widest = reel.widest();
        cells.push(length(reel.diameter));
        cells.push(or_none(widest.map(|window| angle(window.low))));
        cells.push(or_none(widest.map(|window| angle(window.high))));
    }
    let (limits, pose) = (&unit.limits, &solved.solution.pose);
    let (low, high) = attitude_range(limits);
    cells.extend([
        solved.document.name.clone(),
        solved.document.date.clone().unwrap_or_default(),
        length(pose.height_of_cut),
        angle(pose.attitude),
        limits.sweep_over.bare(system),
        length(limits.underside),
        length(limits.ahead_of_centre),
        angle(limits.room),
        angle(low),
        angle(high),
    ]);
    cells
}

/// The table as CSV: each knife's own columns, then what was found about it and what that rests on,
/// one plain number a cell.
///
/// # Errors
/// When a row cannot be written; plain texts always can.
pub fn csv<'a>(
    solved: &Solved,
    rows: impl IntoIterator<Item = &'a KnifeRow>,
    system: System,
) -> Result<String, RowProblem> {
    let rows: Vec<&KnifeRow> = rows.into_iter().collect();
    let ranks = Ranks::of(rows.iter().copied()).by_row();
    let own = COLUMNS.iter().map(|&text| text.to_owned());
    let mut lines: Vec<Vec<String>> = vec![own.chain(number_heads(system)).collect()];
    let knives = solved.document.knives().map(|(_, knife)| knife);
    for ((row, rank), knife) in rows.into_iter().zip(ranks).zip(knives) {
        let own = knife_cells(knife).map(Cow::into_owned);
        let numbers = numbers_of(solved, row, rank, system);
        lines.push(own.into_iter().chain(numbers).collect());
    }
    let rows = lines.iter().map(|line| line.iter().map(String::as_str));
    write_rows(rows)
}
