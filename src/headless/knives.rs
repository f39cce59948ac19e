//! The table of knives on the command line: to read, as JSON, as CSV.

use std::fmt::Write as _;

use serde::Serialize;

use super::report::{in_line, json_text};
use crate::analysis::advice::Certainty;
use crate::analysis::knives::{
    FOUND, KnifeRow, Limit, Ranking, Ranks, ReelWindows, Window, csv, found, rank, rests_on,
    sum_text, table,
};
use crate::analysis::ranges::attitude_range;
use crate::analysis::{NumberId, Solution, Solved};
use crate::command::caution;
use crate::unit::{Fitted, RowProblem};
use crate::units::{Angle, Rollers, Share};

#[derive(Clone, Debug, PartialEq, Serialize)]
struct KnifeReport<'a> {
    name: &'a str,
    price: Option<&'a str>,
    extension_mm: f64,
    behind_centre_mm: Option<f64>,
    sweep_below_cut_mm: Option<f64>,
    sweep_share: Option<f64>,
    underside_clearance_mm: Option<f64>,
    top_angle_needed_deg: Option<f64>,
    /// New, now, scrap; none where no attitude holds every limit.
    windows: Vec<Option<WindowReport>>,
    /// The attitudes that hold every limit at every diameter of the reel; none where there are none.
    set_once: Option<RangeReport>,
    /// Its width; zero where there is none.
    room_deg: f64,
    verdict: &'static str,
    /// What stands against it, by the names of limits, findings and measures.
    why: Vec<&'static str>,
    /// Its place among the knives, from 1.
    rank: usize,
    /// The attitude it is set to, the reel as it is; none where there is no such attitude.
    aim_deg: Option<f64>,
    /// The rear roller's place from the bench for that.
    aim_rear_roller_mm: Option<f64>,
    /// Why there is no such attitude; none where there is one.
    no_aim: Option<String>,
    lip_thickness_left_mm: f64,
    lip_length_left_mm: f64,
    least_lip_thickness_mm: f64,
    /// None where it is not known what a grind takes.
    grinds_left: Option<u32>,
    context: ContextReport<'a>,
}

/// What the comparison rests on, the same for every knife.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct ContextReport<'a> {
    unit: &'a str,
    /// The day the unit was measured, as written.
    date: Option<&'a str>,
    height_of_cut_mm: f64,
    attitude_deg: f64,
    limits: LimitsReport,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct LimitsReport {
    sweep_over: f64,
    underside_mm: f64,
    ahead_of_centre_mm: f64,
    room_deg: f64,
    attitude_from_deg: f64,
    attitude_to_deg: f64,
}

impl<'a> ContextReport<'a> {
    fn of(solved: &'a Solved) -> Self {
        let (limits, pose) = (&solved.unit.limits, &solved.solution.pose);
        let (from, to) = attitude_range(limits);
        Self {
            unit: &solved.document.name,
            date: solved.document.date.as_deref(),
            height_of_cut_mm: pose.height_of_cut.mm(),
            attitude_deg: pose.attitude.deg(),
            limits: LimitsReport {
                sweep_over: limits.sweep_over.of_one(),
                underside_mm: limits.underside.mm(),
                ahead_of_centre_mm: limits.ahead_of_centre.mm(),
                room_deg: limits.room.deg(),
                attitude_from_deg: from.deg(),
                attitude_to_deg: to.deg(),
            },
        }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct RangeReport {
    low_deg: f64,
    high_deg: f64,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct WindowReport {
    reel: &'static str,
    #[serde(flatten)]
    widest: SpanReport,
    /// Windows besides the widest, where there are several.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    others: Vec<SpanReport>,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct SpanReport {
    low_deg: f64,
    high_deg: f64,
    low_limit: &'static str,
    high_limit: &'static str,
}

impl From<&Window> for SpanReport {
    fn from(window: &Window) -> Self {
        Self {
            low_deg: window.low.deg(),
            high_deg: window.high.deg(),
            low_limit: window.low_limit.id(),
            high_limit: window.high_limit.id(),
        }
    }
}

fn window_report(reel: &ReelWindows) -> Option<WindowReport> {
    let widest = reel.widest()?;
    Some(WindowReport {
        reel: reel.life.name(),
        widest: widest.into(),
        others: reel
            .windows
            .iter()
            .filter(|w| *w != widest)
            .map(SpanReport::from)
            .collect(),
    })
}

/// How the table is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Printed {
    /// To be read.
    Plain,
    /// One JSON list, an object a knife.
    Json,
    /// CSV, one row a knife.
    Csv,
}

/// The table of knives of a solved unit.
///
/// # Errors
/// When a row of the table cannot be written as CSV.
pub fn knives(solved: &Solved, printed: Printed) -> Result<String, RowProblem> {
    let system = solved.unit.system;
    let rows = table(solved);
    Ok(match printed {
        Printed::Json => json(solved, &rows, &Ranks::of(&rows)),
        Printed::Csv => csv(solved, &rows, system)?,
        Printed::Plain => plain(solved, &rows, &rank(&rows, solved, system)),
    })
}

fn json(solved: &Solved, rows: &[KnifeRow], ranks: &Ranks) -> String {
    let reports: Vec<_> = rows
        .iter()
        .zip(ranks.by_row())
        .map(|(row, rank)| report(solved, row, rank))
        .collect();
    json_text(&reports)
}

fn report<'a>(solved: &'a Solved, row: &'a KnifeRow, rank: usize) -> KnifeReport<'a> {
    let numbers = row.solution.as_ref().ok().map(Solution::numbers);
    let number = |id: NumberId| Some(numbers.as_ref()?.value(id)?.base());
    let knife = solved.document.knife_at(row.knife);
    KnifeReport {
        name: &row.name,
        price: knife.and_then(|knife| knife.price.as_deref()),
        extension_mm: row.extension.mm(),
        behind_centre_mm: number(NumberId::BehindCentre),
        sweep_below_cut_mm: number(NumberId::SweepBelowCut),
        sweep_share: row.sweep_share().map(Share::of_one),
        underside_clearance_mm: number(NumberId::UndersideOverPlate),
        top_angle_needed_deg: row.top_angle_needed().map(Angle::deg),
        windows: row.life.iter().map(window_report).collect(),
        set_once: row.set_once.map(|range| RangeReport {
            low_deg: range.low.at.deg(),
            high_deg: range.high.at.deg(),
        }),
        room_deg: row.room().deg(),
        verdict: row.judgement.verdict.id(),
        why: row
            .judgement
            .against
            .iter()
            .map(|against| against.id())
            .collect(),
        rank,
        aim_deg: row.aim.ok().map(|aim| aim.attitude.deg()),
        aim_rear_roller_mm: row.aim.ok().map(|aim| aim.rear_roller.mm()),
        no_aim: row
            .aim
            .err()
            .map(|why| why.sentence().shown_in(solved.unit.system)),
        lip_thickness_left_mm: row.lip.thickness.mm(),
        lip_length_left_mm: row.lip.length.mm(),
        least_lip_thickness_mm: row.lip.least.mm(),
        grinds_left: row.lip.grinds,
        context: ContextReport::of(solved),
    }
}

/// When the unit was measured, to stand behind its name; empty where nobody wrote it.
fn measured_on(solved: &Solved) -> String {
    let date = solved.document.date.as_deref();
    date.map_or_else(String::new, |date| format!(", measured {}", in_line(date)))
}

fn plain(solved: &Solved, rows: &[KnifeRow], ranking: &Ranking) -> String {
    let system = solved.unit.system;
    let pose = &solved.solution.pose;
    // Writing to a `String` cannot fail, so its results are passed over below.
    let mut text = String::new();
    let _ = writeln!(
        text,
        "{}{}: knives at a height of cut of {} and an attitude of {}\n",
        in_line(&solved.document.name),
        measured_on(solved),
        system.length(pose.height_of_cut),
        system.angle(pose.attitude)
    );
    for row in rows {
        let is_bench = if row.knife == Fitted::Bench {
            " (as measured)"
        } else {
            ""
        };
        let _ = writeln!(text, "{}{is_bench}", in_line(&row.name));
        for (name, value) in FOUND.iter().zip(found(row, system)) {
            let _ = writeln!(text, "  {name:19}  {value}");
        }
        if let Some(price) = solved
            .document
            .knife_at(row.knife)
            .and_then(|knife| knife.price.as_deref())
        {
            let _ = writeln!(text, "  {:19}  {}", "price", in_line(price));
        }
        if !row.quantity.is_one() {
            let _ = writeln!(text, "  {:19}  {}", "quantity", row.quantity.0);
            if let Some(total) = row.total() {
                let _ = writeln!(text, "  {:19}  {}", "total price", sum_text(total));
            }
        }
        for reel in &row.life {
            if let Some(window) = reel.widest() {
                let limits = [window.low_limit, window.high_limit].map(Limit::name);
                let _ = writeln!(
                    text,
                    "  reel {:14}  {} of room; below: {}; above: {}",
                    reel.life.name(),
                    system.angle(window.width()),
                    limits[0],
                    limits[1]
                );
            }
        }
        let aim = match &row.aim {
            Ok(aim) => format!(
                "{}; {} from where it was measured{}",
                system.angle(aim.attitude),
                system.move_of(Rollers::Rear, aim.rear_roller),
                match aim.certainty {
                    Certainty::Sure => "",
                    Certainty::Reads =>
                        "; it reads OK there, but undecided: a limit lies within the ±",
                }
            ),
            Err(why) => format!("none: {}", why.sentence().shown_in(system)),
        };
        let _ = writeln!(text, "  {:19}  {aim}", "aim");
        let grinds = row.lip.grinds_told();
        let grinds = grinds.map_or_else(String::new, |told| format!("; {told}"));
        let _ = writeln!(
            text,
            "  {:19}  {} of its thickness, {} of its length{grinds}",
            "lip left",
            system.length(row.lip.thickness),
            system.length(row.lip.length)
        );
        text.push('\n');
    }
    if let Some(told) = solved.document.example_count().told() {
        let _ = writeln!(text, "{told}");
    }
    for sentence in &ranking.sentences {
        let _ = writeln!(text, "{sentence}");
    }
    let _ = writeln!(
        text,
        "\n{}\n\n{}",
        rests_on(&solved.document, system).join("\n"),
        caution()
    );
    text
}
