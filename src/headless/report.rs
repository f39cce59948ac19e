//! The numbers report, as JSON and as a table to read.

use std::fmt::Write as _;

use serde::Serialize;

use crate::analysis::Solved;
use crate::drawing::{CAUTIONS, key_numbers, verdict};
use crate::units::{Length, Measure as _};

/// The report in the shape of the written format: millimetres, degrees and plain ratios.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report {
    unit: String,
    knife: String,
    setting: SettingInForce,
    solution: SolutionNumbers,
    ground: GroundNumbers,
    mowing: Option<MowingNumbers>,
    findings: Vec<FindingText>,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct SettingInForce {
    reel_diameter_mm: f64,
    height_of_cut_mm: f64,
    attitude_deg: f64,
    extension_mm: f64,
    gap_mm: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct SolutionNumbers {
    behind_centre_mm: f64,
    centre_above_edge_mm: f64,
    clip_angle_deg: f64,
    sweep_below_cut_mm: f64,
    sweep_share: Option<f64>,
    sweep_chord_mm: f64,
    reel_clearance_mm: f64,
    underside_clearance_mm: f64,
    front_roller_move_mm: f64,
    rear_roller_move_mm: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct GroundNumbers {
    cut_mm: f64,
    reel_clearance_mm: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct MowingNumbers {
    clip_length_mm: f64,
    clip_to_cut: Option<f64>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct FindingText {
    id: &'static str,
    level: &'static str,
    text: String,
}

impl Report {
    /// The report of a solved unit.
    #[must_use]
    pub fn of(solved: &Solved) -> Self {
        let setting = &solved.unit.setting;
        let solution = &solved.solution;
        let (pose, sweep) = (&solution.pose, &solution.sweep);
        Self {
            unit: solved.document.name.clone(),
            knife: solved.document.fitted_name().to_owned(),
            setting: SettingInForce {
                reel_diameter_mm: setting.reel_diameter.mm(),
                height_of_cut_mm: pose.height_of_cut.mm(),
                attitude_deg: pose.attitude.deg(),
                extension_mm: pose.extension.mm(),
                gap_mm: setting.gap.mm(),
            },
            solution: SolutionNumbers {
                behind_centre_mm: sweep.behind_centre.mm(),
                centre_above_edge_mm: sweep.centre_above_edge.mm(),
                clip_angle_deg: sweep.clip_angle.deg(),
                sweep_below_cut_mm: sweep.below_cut.mm(),
                sweep_share: solution.sweep_share.map(crate::units::Share::of_one),
                sweep_chord_mm: sweep.chord.mm(),
                reel_clearance_mm: solution.reel_clearance.mm(),
                underside_clearance_mm: solution.underside_clearance.mm(),
                front_roller_move_mm: pose.front_roller.moved.mm(),
                rear_roller_move_mm: pose.rear_roller.moved.mm(),
            },
            ground: GroundNumbers {
                cut_mm: solution.on_ground.cut.mm(),
                reel_clearance_mm: solution.on_ground.reel_clearance.mm(),
            },
            mowing: solution.mowing.map(|mowing| MowingNumbers {
                clip_length_mm: mowing.clip_length.mm(),
                clip_to_cut: mowing.clip_to_cut.map(crate::units::Ratio::number),
            }),
            findings: solved
                .findings
                .iter()
                .map(|finding| FindingText {
                    id: finding.id.id(),
                    level: finding.level.word(),
                    text: finding.shown_in(solved.unit.system),
                })
                .collect(),
        }
    }

    /// One JSON object.
    #[must_use]
    pub fn to_json(&self) -> String {
        json_text(self)
    }
}

/// A report as JSON text.
pub(super) fn json_text(report: &impl Serialize) -> String {
    // A report holds numbers and texts only, and JSON can write every one.
    let mut text = serde_json::to_string_pretty(report)
        .unwrap_or_else(|error| unreachable!("a report is plain: {error}"));
    text.push('\n');
    text
}

/// The report as a table in the units of the file.
#[must_use]
pub fn table(solved: &Solved) -> String {
    let system = solved.unit.system;
    let setting = &solved.unit.setting;
    let shown = |length: Length| system.length(length);
    let mut rows = vec![
        ("Unit", solved.document.name.clone()),
        ("Knife", solved.document.fitted_name().to_owned()),
        ("Reel diameter", shown(setting.reel_diameter)),
        ("Extension, total", shown(solved.solution.pose.extension)),
        ("Gap", shown(setting.gap)),
    ];
    rows.extend(key_numbers(&solved.solution, system));
    rows.push(("Edge over the ground", shown(solved.solution.on_ground.cut)));
    if let Some(mowing) = &solved.unit.mowing {
        let speeds = format!(
            "{} over the ground, reel {}",
            mowing.ground_speed.entry(system),
            mowing.reel_speed.entry(system)
        );
        rows.push(("Speeds", speeds));
    }
    let width = rows
        .iter()
        .map(|(name, _)| name.chars().count())
        .max()
        .unwrap_or(0);
    // Writing to a `String` cannot fail, so its results are passed over below.
    let mut text = String::new();
    for (name, value) in &rows {
        let _ = writeln!(text, "{name:width$}  {value}");
    }
    let _ = writeln!(text, "\n{}", verdict(&solved.findings).1);
    for finding in solved.findings.iter() {
        let _ = writeln!(
            text,
            "  {:5}  {}: {}",
            finding.level.word(),
            finding.title(),
            finding.shown_in(system)
        );
    }
    let _ = writeln!(text, "\n{}", CAUTIONS.join("\n"));
    text
}
