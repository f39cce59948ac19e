//! The numbers report, as JSON and as a table to read.

use std::fmt::Write as _;

use serde::{Serialize, Serializer};

use crate::analysis::uncertainty::ENTERED_AND_WORKED_OUT;
use crate::analysis::{NumberId, Numbers, Solved, knife_moved, lean_in_doubt};
use crate::command::caution;
use crate::drawing::verdict;
use crate::unit::Examples;
use crate::units::{Measure as _, in_plain_letters, is_hidden};

/// The report in the shape of this file format: millimetres, degrees and plain ratios.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report {
    unit: String,
    knife: String,
    setting: Part,
    solution: Part,
    ground: Part,
    mowing: Option<Part>,
    findings: Vec<FindingText>,
    /// What a slide's lean that is not given leaves open; left out where it leaves none.
    #[serde(skip_serializing_if = "Option::is_none")]
    lean_not_given: Option<String>,
    /// The readings that nobody measured on this unit yet.
    #[serde(skip_serializing_if = "Examples::is_empty")]
    examples: Examples,
}

/// Numbers by their names in this file format.
#[derive(Clone, Debug, PartialEq)]
struct Part(Vec<(NumberId, Option<f64>)>);

/// Width of the column of how findings stand, unless one of them needs more.
const LEAST_STANDING_WIDTH: usize = 10;

const SETTING: [NumberId; 5] = [
    NumberId::ReelDiameter,
    NumberId::HeightOfCut,
    NumberId::Attitude,
    NumberId::Extension,
    NumberId::Gap,
];
const SOLUTION: [NumberId; 12] = [
    NumberId::BehindCentre,
    NumberId::CentreAboveEdge,
    NumberId::ClipAngle,
    NumberId::SweepBelowCut,
    NumberId::SweepShare,
    NumberId::SweepChord,
    NumberId::ReelOverPlate,
    NumberId::UndersideOverPlate,
    NumberId::FrontRollerMove,
    NumberId::RearRollerMove,
    NumberId::TopAngleNeeded,
    NumberId::TopFaceClearance,
];
const GROUND: [NumberId; 4] = [
    NumberId::CutOnGround,
    NumberId::ReelOnGround,
    NumberId::SweepOnGround,
    NumberId::AttitudeOnGround,
];
const MOWING: [NumberId; 2] = [NumberId::ClipLength, NumberId::ClipToCut];

impl Part {
    fn of(numbers: &Numbers, ids: &[NumberId]) -> Self {
        let bases = ids.iter().map(|id| (*id, numbers.base(*id)));
        Self(bases.collect())
    }
}

impl Serialize for Part {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(id, base)| (id.key(), base)))
    }
}

/// The numbers of a report's part `solution` by themselves.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(transparent)]
pub(super) struct SolutionReport(Part);

impl SolutionReport {
    pub(super) fn of(solved: &Solved) -> Self {
        Self(Part::of(&solved.solution.numbers(), &SOLUTION))
    }
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
        let numbers = solved.solution.numbers();
        let part = |ids: &[NumberId]| Part::of(&numbers, ids);
        Self {
            unit: solved.document.name.clone(),
            knife: solved.document.fitted_name().to_owned(),
            setting: part(&SETTING),
            solution: part(&SOLUTION),
            ground: part(&GROUND),
            mowing: solved.solution.mowing.map(|_| part(&MOWING)),
            findings: solved
                .findings
                .iter()
                .map(|finding| FindingText {
                    id: finding.id.id(),
                    level: finding.level.id(),
                    text: solved.told(finding, solved.unit.system),
                })
                .collect(),
            lean_not_given: lean_in_doubt(solved).map(|told| told.shown_in(solved.unit.system)),
            examples: solved.document.examples.clone(),
        }
    }

    /// One JSON object.
    #[must_use]
    pub fn to_json(&self) -> String {
        json_text(self)
    }
}

/// A report as JSON text, in which no letter steers a terminal: such are written as JSON's escapes.
pub(super) fn json_text(report: &impl Serialize) -> String {
    // A report holds numbers and texts only: there is nothing JSON cannot write.
    let text = serde_json::to_string_pretty(report)
        .unwrap_or_else(|error| unreachable!("a report is plain: {error}"));
    let mut plain = String::with_capacity(text.len() + 1);
    for c in text.chars() {
        // Outside of texts JSON has no hidden letters but the ends of its lines.
        if is_hidden(c) && c != '\n' {
            for unit in c.encode_utf16(&mut [0; 2]) {
                // Writing to a `String` cannot fail.
                let _ = write!(plain, "\\u{unit:04x}");
            }
        } else {
            plain.push(c);
        }
    }
    plain.push('\n');
    plain
}

/// A name as it is printed in a line of a report: on one line, and as it reads.
pub(super) fn in_line(name: &str) -> String {
    in_plain_letters(name, is_hidden).to_string()
}

/// The report as a table in the units of the file.
#[must_use]
pub fn table(solved: &Solved) -> String {
    let system = solved.unit.system;
    let numbers = solved.solution.numbers();
    let row = |id: NumberId| {
        let shown = numbers.shown(id, system)?;
        let off = solved.off_beside(id, system);
        Some((id.title(), format!("{shown} {off}").trim_end().to_owned()))
    };
    let first = [NumberId::ReelDiameter, NumberId::Extension, NumberId::Gap];
    let after = first.iter().chain(&NumberId::KEY);
    let mut rows = vec![
        ("Unit", in_line(&solved.document.name)),
        ("Knife", in_line(solved.document.fitted_name())),
    ];
    let of_unit = [
        ("Serial number", &solved.document.serial),
        ("Set", &solved.document.set),
        ("Date measured", &solved.document.date),
        ("Notes", &solved.document.notes),
    ];
    let written =
        |(name, text): (&'static str, &Option<String>)| Some((name, in_line(text.as_ref()?)));
    rows.splice(1..1, of_unit.into_iter().filter_map(written));
    let more = [
        NumberId::SweepOnGround,
        NumberId::AttitudeOnGround,
        NumberId::TopAngleNeeded,
    ];
    rows.extend(after.chain(&more).filter_map(|id| row(*id)));
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
    if solved.uncertainty.has_any() {
        let _ = writeln!(text, "{ENTERED_AND_WORKED_OUT}");
    }
    let examples = solved.document.example_count();
    let _ = writeln!(text, "\n{}", verdict(&solved.findings, examples).1);
    if let Some(told) = examples.told() {
        let _ = writeln!(text, "{told}");
    }
    let standings = solved.findings.iter().map(|f| f.standing_on(examples));
    let standing_width = standings.map(|told| told.chars().count()).max();
    let standing_width = standing_width.unwrap_or(0).max(LEAST_STANDING_WIDTH);
    for finding in solved.findings.iter() {
        let _ = writeln!(
            text,
            "  {:standing_width$}  {}: {}",
            finding.standing_on(examples),
            finding.title(),
            solved.told(finding, system)
        );
    }
    if let Some(told) = lean_in_doubt(solved) {
        let _ = writeln!(text, "\n{}", told.shown_in(system));
    }
    if let Some(told) = knife_moved(solved, system) {
        let _ = writeln!(text, "\n{told}");
    }
    let _ = writeln!(text, "\n{}", caution());
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers that the report tells in the words of its findings alone.
    const IN_FINDINGS: [NumberId; 6] = [
        NumberId::LipBottom,
        NumberId::RollerToKnife,
        NumberId::ReelAtLowEnd,
        NumberId::UndersideOnGround,
        NumberId::UndersideAtLowEnd,
        NumberId::RunoutSwing,
    ];

    #[test]
    fn every_number_stands_in_one_part_of_the_report_or_in_a_finding() {
        let parts: [&[NumberId]; 5] = [&SETTING, &SOLUTION, &GROUND, &MOWING, &IN_FINDINGS];
        for id in NumberId::ALL {
            let found = parts.iter().filter(|part| part.contains(&id)).count();
            assert_eq!(found, 1, "{}", id.name());
        }
        for id in IN_FINDINGS {
            assert!(id.finding().is_some(), "{}", id.name());
        }
    }
}
