//! Unit files: what opens, what is refused and how it is said, and that a save harms nothing.

use std::ffi::OsString;
use std::fs;
use std::path::Path;

use proptest::prelude::*;
use sweepgauge::geometry::{Pose, Stance, Terrain, underside_on_bar};
use sweepgauge::store::{FileProblem, open_unit, reopen_unit, save_unit, write_whole};
use sweepgauge::unit::{AsRead, Document, SettingEntry, TextProblem, most, read_text, write_text};
use sweepgauge::units::{Length, Quantity};
use tempfile::TempDir;

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;
use crate::common::example::EXAMPLE;

/// Only the fields that have no default.
const SHORTEST: &str = r#"(
    format: 1,
    name: "shortest",
    turf: Rough,
    reel: (new_diameter: "200 mm", smallest_diameter: "180 mm", blades: 5),
    bench: (
        reel_diameter: "198 mm",
        height_of_cut: "30 mm",
        attitude: "5 deg",
        behind_centre: "9 mm",
        front_roller: (diameter: "76 mm", ahead: "180 mm"),
        rear_roller: (diameter: "76 mm", behind: "140 mm"),
    ),
    closing: ReelSlides(),
    knife: (
        name: "plain",
        reach: "40 mm",
        width: "70 mm",
        lip_thickness: "4 mm",
        lip_length: "14 mm",
        body_thickness: "8 mm",
    ),
)
"#;

/// One thing broken in the example, and what must be said about it.
struct Broken {
    /// A piece of the example; its first place counts.
    good: &'static str,
    /// What stands there instead.
    bad: &'static str,
    line: usize,
    /// What stands at the line and column given.
    at: &'static str,
    field: &'static str,
    /// A piece of the sentence.
    says: &'static str,
}

const fn broken(
    good: &'static str,
    bad: &'static str,
    line: usize,
    at: &'static str,
    field: &'static str,
    says: &'static str,
) -> Broken {
    Broken {
        good,
        bad,
        line,
        at,
        field,
        says,
    }
}

const DIAMETER: &str = "reel.new_diameter";
const ROLLER: &str = r#"front_roller: (diameter: "3 in", ahead: "5.5 in")"#;
const HARDWARE: &str = r#"hardware: [(behind: "1.5 in", below: "0.3 in")]"#;
const NO_UNIT_FILE: &str = "this is not a unit file; one begins with (format: 1";

#[rustfmt::skip]
const BROKEN_VALUES: &[Broken] = &[
    broken("format: 1", "format: 2", 2, "2,", "format", "reads and writes format 1"),
    broken("format: 1", "format: -1", 2, "-1,", "format", "found -1; write the number 1"),
    broken("format: 1", "format: 1.5", 2, "1.5,", "format", "found 1.5; write the number 1"),
    broken("format: 1", r#"format: "1""#, 2, r#""1""#, "format", "write the number 1"),
    broken("name: \"Example Ground, trailed gang, number 3\"", "name: 3", 3, "3,", "name", "a text in quotes"),
    broken("turf: Fairway", "turf: Meadow", 4, "Meadow", "turf", "one of Green, Tee, Fairway, Rough"),
    broken("turf: Fairway", "turf: fairway", 4, "fairway", "turf", "one of Green, Tee, Fairway, Rough"),
    broken("turf: Fairway", "turf: \"Fairway\"", 4, "\"Fairway\"", "turf", "without quotes"),
    broken("turf: Fairway", "turf: 3", 4, "3,", "turf", "one of Green, Tee, Fairway, Rough"),
    broken("blades: 8", "blades: 0", 8, "0,", "reel.blades", "at least one blade"),
    broken("blades: 8", "blades: -3", 8, "-3,", "reel.blades", "found -3; write a whole number"),
    broken("blades: 8", "blades: 2.5", 8, "2.5,", "reel.blades", "found 2.5; write a whole number"),
    broken("blades: 8", "blades: \"8\"", 8, "\"8\"", "reel.blades", "a whole number, like 8"),
    broken("blades: 8", "blades: 99999999999", 8, "999", "reel.blades", "a whole number, like 8"),
    broken("blades: 8", "blades: eight", 8, "eight", "reel.blades", "a whole number, like 8"),
    broken("blades: 8", "blades: ", 8, ",", "reel.blades", "found nothing; write a whole number"),
    broken("\"7 in\"", "7", 6, "7,", DIAMETER, "found 7; write a length in quotes with its unit"),
    broken("\"7 in\"", "7 in", 6, "7 in,", DIAMETER, "a length in quotes with its unit"),
    broken("\"7 in\"", "[\"7 in\"]", 6, "[\"7 in\"]", DIAMETER, "a length in quotes with its unit"),
    broken("\"7 in\"", "(\"7 in\")", 6, "(\"7 in\")", DIAMETER, "a length in quotes with its unit"),
    broken("\"7 in\"", "None", 6, "None", DIAMETER, "a length in quotes with its unit"),
    broken("\"7 in\"", "NaN", 6, "NaN", DIAMETER, "a length in quotes with its unit"),
    broken("\"7 in\"", "inf", 6, "inf", DIAMETER, "a length in quotes with its unit"),
    broken("\"7 in\"", "\"NaN in\"", 6, "\"NaN in\"", DIAMETER, "is not a number"),
    broken("\"7 in\"", "\"inf\"", 6, "\"inf\"", DIAMETER, "is not a number"),
    broken("\"7 in\"", "\"\"", 6, "\"\"", DIAMETER, "this is empty; write a length"),
    broken("\"7 in\"", "\"-7 in\"", 6, "\"-7 in\"", DIAMETER, "must be more than zero"),
    broken("\"7 in\"", "\"0 in\"", 6, "\"0 in\"", DIAMETER, "must be more than zero"),
    broken("\"7 in\"", "\"7 rpm\"", 6, "\"7 rpm\"", DIAMETER, "\"rpm\" is not a unit of a length"),
    broken("\"7 in\"", "\"7\"", 6, "\"7\"", DIAMETER, "has no unit"),
    broken("\"7 in\"", "\"7,5 in\"", 6, "\"7,5 in\"", DIAMETER, "with a point, like 7.5"),
    broken("\"7 in\"", "\"7/0 in\"", 6, "\"7/0 in\"", DIAMETER, "divides by zero"),
    broken("\"6.5 in\"", "\"7.5 in\"", 7, "\"7.5 in\"", "reel.smallest_diameter", "not be more than the new diameter"),
    broken("\"4 deg\"", "\"95 deg\"", 13, "\"95 deg\"", "bench.attitude", "between -90 deg and 90 deg"),
    broken("\"4 deg\"", "\"4 in\"", 13, "\"4 in\"", "bench.attitude", "not a unit of an angle"),
    broken("\"0.3 in\"", "\"0.3 in ± -0.02 in\"", 14, "\"0.3 in ±", "bench.behind_centre", "cannot be negative"),
    broken("\"0.3 in\"", "\"0.3 in ±\"", 14, "\"0.3 in ±", "bench.behind_centre", "no number follows the ± in \"0.3 in ±\""),
    broken("\"0.3 in\"", "\"± 0.3 in\"", 14, "\"± 0.3 in", "bench.behind_centre", "there is no number before the ±"),
    broken("\"0.5 in\"", "\"0.5 in ± 5 in\"", 12, "\"0.5 in ± 5 in\"", "bench.height_of_cut", "the ± in \"0.5 in ± 5 in\" is far too large"),
    broken("\"0.5 in\"", "\"0.5 in ± 0.5 in\"", 12, "\"0.5 in ±", "bench.height_of_cut", "far too large"),
    broken("\"4 deg\"", "\"4 deg ± 88 deg\"", 13, "\"4 deg ±", "bench.attitude", "far too large"),
    broken("\"0 mm\"", "\"0 mm ± 11 m\"", 15, "\"0 mm ±", "bench.gap", "far too large"),
    broken("\"0.3 in\"", "\"0.3 in ± 5 in\"", 14, "\"0.3 in ±", "bench.behind_centre", "off by more than itself"),
    broken("\"0 mm\"", "\"0 mm ± 5 in\"", 15, "\"0 mm ±", "bench.gap", "off by more than itself"),
    broken("\"0.5 in\"", "\"0.0000000000000000000000000000001 mm\"", 12, "\"0.000", "bench.height_of_cut", "too small to work with; at least 0.001 mm"),
    broken("\"900 rpm\"", "\"0.0001 rpm\"", 38, "\"0.0001 rpm\"", "mowing.reel_speed", "at least 0.01 rpm"),
    broken("\"7 in\"", "\"1' - 6 in\"", 6, "\"1' - 6 in\"", DIAMETER, "what follows them is in inches"),
    broken("\"0 mm\"", "\"-1 mm\"", 15, "\"-1 mm\"", "bench.gap", "must not be negative"),
    broken("reel: (", "reel: [", 5, "[", "reel", "between round brackets"),
    broken(ROLLER, "front_roller: \"3 in\"", 16, "\"3 in\"", "bench.front_roller", "write (diameter: …, ahead: …)"),
    broken(ROLLER, "front_roller: [\"3 in\", \"5.5 in\"]", 16, "[", "bench.front_roller", "write (diameter: …, ahead: …)"),
    broken("ReelSlides(lean: None)", "ReelSpins(lean: None)", 19, "ReelSpins", "closing", "KnifePivots(ahead: …, above: …)"),
    broken("ReelSlides(lean: None)", "ReelPivots", 19, "ReelPivots", "closing", "ReelPivots(ahead: …, above: …)"),
    broken("ReelSlides(lean: None)", "ReelSlides(lean: 4)", 19, "4)", "closing.lean", "an angle in quotes"),
    broken(HARDWARE, "hardware: (behind: \"1.5 in\", below: \"0.3 in\")", 28, "(behind", "hardware", "a list in square brackets"),
    broken(HARDWARE, "hardware: [(behind: \"1.5 in\", below: \"0.3\")]", 28, "\"0.3\"", "hardware[0].below", "has no unit"),
    broken(HARDWARE, "hardware: [\"1.5 in\"]", 28, "\"1.5 in\"", "hardware[0]", "write (behind: …, below: …)"),
    broken("lip_length: \"0.5 in\"", "lip_length: \"3.5 in\"", 25, "\"3.5 in\"", "knife.lip_length", "the knife's width, \"2.5 in\""),
    broken("name: \"reaching\"", "name: \"plain\"", 30, "\"plain\"", "options[0].name", "two knives are called \"plain\""),
    broken("name: \"reaching\"", "name: \" \"", 30, "\" \"", "options[0].name", "a knife needs a name"),
    broken("\"1.65 in\"", "1.65", 30, "1.65,", "options[0].reach", "found 1.65; write a length"),
    broken("knife: None", "knife: Some(\"long\")", 34, "Some(\"long\")", "setting.knife", "there are \"plain\", \"reaching\""),
    broken("knife: None", "knife: long", 34, "long", "setting.knife", "in quotes, or None"),
    broken("gap: None", "gap: \"1 mm ± 0.1 mm\"", 33, "\"1 mm ±", "setting.gap", "only readings carry a ±"),
    broken("gap: None", "gap: Some(0.1)", 33, "Some(0.1)", "setting.gap", "a length in quotes"),
    broken("rollers: None", "rollers: \"0 mm\"", 36, "\"0 mm\"", "setting.rollers", "(front_move: …, rear_move: …), or None"),
    broken("\"900 rpm\"", "\"0 rpm\"", 38, "\"0 rpm\"", "mowing.reel_speed", "must be more than zero"),
    broken("\"900 rpm\"", "\"900 mph\"", 38, "\"900 mph\"", "mowing.reel_speed", "not a unit of a turning speed"),
    broken("\"900 rpm\"", "900", 38, "900)", "mowing.reel_speed", "in quotes with its unit, like 1200 rpm"),
    broken("shape: Level", "shape: Bump", 39, "Bump", "ground.shape", "Level, Crest(\"6 m\") or Hollow(\"6 m\")"),
    broken("shape: Level", "shape: Crest", 39, "Crest)", "ground.shape", "Level, Crest(\"6 m\") or Hollow(\"6 m\")"),
    broken("shape: Level", "shape: Level(\"6 m\")", 39, "Level(", "ground.shape", "Level, Crest(\"6 m\") or Hollow(\"6 m\")"),
    broken("shape: Level", "shape: Crest(\"-6 m\")", 39, "Crest(", "ground.shape", "must be more than zero"),
    broken("limits: None", "limits: 5", 40, "5,", "limits", "between round brackets"),
    broken("limits: None", "limits: (sweep_watch: \"12 %\", sweep_over: \"10 %\")", 40, "\"12 %\"", "limits.sweep_watch", "not be more than sweep_over, \"10 %\""),
    broken("limits: None", "limits: (clip_watch: \"1.6\", clip_over: \"1.5\")", 40, "\"1.6\"", "limits.clip_watch", "not be more than clip_over"),
    broken("limits: None", "limits: (attitude_range: (low: \"9 deg\", high: \"2 deg\"))", 40, "\"9 deg\"", "limits.attitude_range.low", "not be more than the highest"),
    broken("limits: None", "limits: (underside: \"-1 mm\")", 40, "\"-1 mm\"", "limits.underside", "must not be negative"),
    broken("limits: None", "examples: [\"bench.gap\", \"bench.colour\"]", 40, "\"bench.colour\"", "examples[1]", "\"bench.colour\" is not a reading that can be an example"),
    broken("limits: None", "examples: [\"setting.attitude\"]", 40, "\"setting.attitude\"", "examples[0]", "write its path, like \"bench.reel_diameter\""),
    broken("limits: None", "examples: \"bench.gap\"", 40, "\"bench.gap\"", "examples", "a list of readings in quotes"),
    broken("limits: None", "examples: [4]", 40, "4]", "examples[0]", "a list of readings in quotes"),
];

#[rustfmt::skip]
const BROKEN_WRITING: &[Broken] = &[
    broken("ReelSlides(lean: None)", "ReelSlides(leen: None)", 19, "leen", "closing.leen", "the fields are lean"),
    broken("    format: 1,\n", "", 40, ")", "format", "the field \"format\" is missing"),
    broken("        blades: 8,\n", "", 8, "),", "reel.blades", "the field \"blades\" is missing"),
    broken(ROLLER, "front_roller: (diameter: \"3 in\")", 16, "),", "bench.front_roller.ahead", "missing"),
    broken("(behind: \"1.5 in\", below: \"0.3 in\")", "(behind: \"1.5 in\")", 28, ")]", "hardware[0].below", "missing"),
    broken("ReelSlides(lean: None)", "KnifePivots(ahead: \"1 in\")", 19, "),", "closing.above", "missing"),
    broken("rollers: None", "rollers: Some(())", 36, "Some(())", "setting.rollers.front_move", "the move of one roller at least"),
    broken("rollers: None", "rollers: Some((rear: \"0 mm\"))", 36, "rear", "setting.rollers.rear", "the fields are front_move, rear_move"),
    broken("        blades: 8,\n", "        blades: 8,\n        blades: 9,\n", 9, "blades: 9", "reel.blades", "is here twice; keep one"),
    broken("new_diameter", "new_diamter", 6, "new_diamter", "reel.new_diamter", "the fields are new_diameter, smallest_diameter, blades"),
    broken("blades: 8", "blades: 8, colour: \"red\"", 8, "colour", "reel.colour", "there is no field \"colour\" here"),
    broken("ahead: \"5.5 in\"", "behind: \"5.5 in\"", 16, "behind", "bench.front_roller.behind", "the fields are diameter, ahead"),
    broken("limits: None", "limits: (sweep_wtch: \"5 %\")", 40, "sweep_wtch", "limits.sweep_wtch", "sweep_watch"),
    broken("limits: None", "limit: None", 40, "limit:", "limit", "there is no field \"limit\" here"),
    broken("\"7 in\"", "\"7 in", 6, "\"7 in,", DIAMETER, "a quote is not closed on its line"),
    broken("\"7 in\"", "7 in\"", 6, "7 in\"", DIAMETER, "a length in quotes"),
    broken("number 3\"", "number 3", 3, "\"Example", "name", "a quote is not closed on its line"),
    broken("\"7 in\",", "\"7 in\"", 6, "\n", DIAMETER, "a comma is missing here"),
    broken("turf: Fairway", "turf Fairway", 4, "turf", "turf", "a colon is missing"),
    broken("turf: Fairway", "turf = Fairway", 4, "turf", "turf", "a colon is missing"),
    broken("bench: (", "bench (", 10, "bench", "bench", "a colon is missing"),
    broken("turf: Fairway,", "turf: Fairway,,", 4, ", ", "turf", "a comma or a bracket may be wrong"),
    broken("turf: Fairway,", "turf: Fairway;", 4, "Fairway;", "turf", "found Fairway; write one of"),
    broken("bench: (", "bench: ", 11, "reel_diameter", "bench", "between round brackets"),
    broken("    ),\n    bench", "\n    bench", 10, "bench", "reel.bench", "there is no field \"bench\" here"),
    broken("    ),\n    bench", "    ],\n    bench", 9, "],", "reel.blades", "a bracket may be wrong"),
    broken("    ),\n    bench", "    )),\n    bench", 9, "),", "bench", "missing; add it before this bracket"),
    broken("// Green", "/* Green", 4, "/* Green", "turf", "a remark that begins with /* is not closed"),
    broken("// Green", "/ Green", 4, "/ Green", "turf", "a remark begins with //"),
    broken("\"plain\"", r#""pl\ain""#, 21, r#""pl\ain""#, "knife.name", "a backslash in a text is written twice"),
    broken("limits: None,", "limits: None))", 40, ")  ", "limits", "more text after the unit"),
    broken("(\n    format", "[\n    format", 1, "[", "format", NO_UNIT_FILE),
    broken("(\n    format", "\n    format", 1, "", "format", NO_UNIT_FILE),
    broken("(\n    format", "Dear greenkeeper,\n(\n    format", 1, "Dear", "format", NO_UNIT_FILE),
];

/// Words of the parser and of this program's insides, which tell a technician nothing.
const JARGON: [&str; 17] = [
    "struct",
    "enum",
    "variant",
    "identifier",
    "sequence",
    "integer",
    "floating",
    "boolean",
    "optional value",
    "unit value",
    "u32",
    "f64",
    "Option<",
    "Quantity",
    "invalid type",
    "Expected",
    "serde",
];

fn assert_plain(problem: &str) {
    for word in JARGON {
        assert!(!problem.contains(word), "jargon {word:?} in: {problem}");
    }
}

/// The text of the example with the first place of a piece replaced.
fn example_with(good: &str, bad: &str) -> String {
    assert!(EXAMPLE.contains(good), "the example has no {good}");
    EXAMPLE.replacen(good, bad, 1)
}

fn example() -> Document {
    read_text(EXAMPLE).unwrap()
}

/// What is said of a text; that it opened is a failure.
fn problem_of(text: &str) -> FileProblem {
    match read_text(text) {
        Ok(_) => panic!("this opened:\n{text}"),
        Err(problem) => FileProblem::wrong(Path::new("unit.ron"), problem),
    }
}

fn assert_said(text: &str, problem: &FileProblem, line: usize, field: &str, says: &str) {
    let said = problem.to_string();
    let FileProblem::Wrong {
        problem: TextProblem { column, .. },
        ..
    } = problem
    else {
        panic!("{said}")
    };
    let begins = format!("unit.ron:{line}:{column}: field {field}: ");
    assert!(said.starts_with(&begins), "{begins} — {said}\n{text}");
    assert!(said.contains(says), "{says} — {said}");
    assert!(said.len() > begins.len() + 8, "no sentence: {said}");
    assert_plain(&said);
}

/// What stands at the line and column of a problem.
fn standing_at<'a>(text: &'a str, problem: &FileProblem) -> &'a str {
    let FileProblem::Wrong {
        problem: TextProblem { line, column, .. },
        ..
    } = problem
    else {
        panic!("{problem}")
    };
    let start: usize = text
        .split_inclusive('\n')
        .take(line - 1)
        .map(str::len)
        .sum();
    let rest = &text[start..];
    let (at, _) = rest
        .char_indices()
        .chain([(rest.len(), '\n')])
        .nth(column - 1)
        .unwrap();
    &rest[at..]
}

#[test]
fn a_broken_file_is_refused_with_file_line_column_field_and_what_would_be_right() {
    for row in BROKEN_VALUES.iter().chain(BROKEN_WRITING) {
        let text = example_with(row.good, row.bad);
        let problem = problem_of(&text);
        assert_said(&text, &problem, row.line, row.field, row.says);
        let at = standing_at(&text, &problem);
        assert!(at.starts_with(row.at), "{problem}: {:?}", row.at);
    }
}

#[test]
fn a_gap_of_zero_may_be_off_by_more_than_it_is() {
    let text = example_with("\"0 mm\"", "\"0 mm ± 0.05 mm\"");
    assert_eq!(read_text(&text).unwrap().bench.gap.text(), "0 mm ± 0.05 mm");
}

#[test]
fn a_wrong_value_of_any_length_is_told_on_one_short_line() {
    let long = "9".repeat(300_000);
    for (good, bad) in [
        ("\"7 in\"", format!("\"{long}\"")),
        ("\"7 in\"", format!("\"7 {long}\"")),
        ("\"7 in\"", format!("\"7,{long} in\"")),
        ("\"7 in\"", format!("\"-{long} in\"")),
        ("\"7 in\"", format!("\"-0.{long} in\"")),
        ("\"0.3 in\"", format!("\"0.3 in ± -0.{long} in\"")),
        ("\"7 in\"", long.clone()),
        ("turf: Fairway", format!("turf: F{long}")),
        ("turf: Fairway", format!("t{long}: Fairway")),
        ("turf: Fairway", format!("t{long} = Fairway")),
        ("knife: None", format!("knife: \"{long}\"")),
        ("\"reaching\"", format!("\"{long}\", colour_{long}: 3")),
    ] {
        let said = problem_of(&example_with(good, &bad)).to_string();
        assert!(
            said.chars().count() < 500,
            "{} letters",
            said.chars().count()
        );
    }
}

#[test]
fn more_than_can_be_worked_with_is_refused_by_its_count() {
    let letters = |count: usize| "ä".repeat(count);
    let named = |count| example_with("Example Ground, trailed gang, number 3", &letters(count));
    assert!(read_text(&named(most::NAME_LETTERS)).is_ok());
    let noted = |count| {
        let notes = format!("(name: \"reaching\", notes: \"{}\",", letters(count));
        example_with("(name: \"reaching\",", &notes)
    };
    assert!(read_text(&noted(most::NOTES_LETTERS)).is_ok());
    let with_points = |count| {
        let points = "(behind: \"1.5 in\", below: \"0.3 in\"),".repeat(count);
        example_with(HARDWARE, &format!("hardware: [{points}]"))
    };
    assert!(read_text(&with_points(most::HARDWARE_POINTS)).is_ok());
    let with_knives = |count: usize| {
        let knife = |number| {
            format!(
                "(name: \"{number}\", reach: \"1 in\", width: \"2 in\", lip_thickness: \"0.1 in\", lip_length: \"0.5 in\", body_thickness: \"0.2 in\"),"
            )
        };
        let knives = (0..count).map(knife).collect::<Vec<_>>().concat();
        example_with(
            "(name: \"reaching\"",
            &format!("{knives}(name: \"reaching\""),
        )
    };
    assert!(read_text(&with_knives(most::KNIVES - 1)).is_ok());
    let beyond = "9".repeat(most::NAME_LETTERS);
    for (text, line, field, says) in [
        (named(201), 3, "name", "201 letters; the most is 200"),
        (
            noted(10_001),
            30,
            "options[0].notes",
            "10001 letters; the most is 10000",
        ),
        (
            example_with("\"7 in\"", &format!("\"0.{beyond} in\"")),
            6,
            DIAMETER,
            "the most is 200",
        ),
        (
            with_points(10_001),
            28,
            "hardware[10000].behind",
            "10001 points of hardware; the most is 10000",
        ),
        (
            with_knives(5_000),
            30,
            "options[5000].name",
            "5001 knives to compare; the most is 5000",
        ),
    ] {
        assert_said(&text, &problem_of(&text), line, field, says);
    }
}

#[test]
fn a_file_cut_short_is_refused_where_it_ends() {
    let early = "the file ends too early";
    let quote = "a quote is not closed";
    for (last, line, field, says) in [
        ("(", 1, "format", early),
        ("(\n    form", 2, "format", early),
        ("(\n    format: 1", 2, "format", early),
        ("    turf", 4, "name", early),
        ("Example Ground", 3, "name", quote),
        ("new_diameter:", 6, DIAMETER, early),
        ("\"7 in", 6, DIAMETER, quote),
        ("\"6.9 in\",", 11, "bench.reel_diameter", early),
        ("closing: ReelSlides(", 19, "closing", early),
        ("hardware: [(", 28, "hardware[0]", early),
        ("    mowing", 38, "setting.rollers", early),
        ("limits: None,", 40, "limits", early),
    ] {
        let end = EXAMPLE.find(last).unwrap() + last.len();
        let text = &EXAMPLE[..end];
        assert_said(text, &problem_of(text), line, field, says);
    }
}

#[test]
fn wherever_a_file_is_cut_short_it_is_refused_in_plain_words() {
    let end = EXAMPLE.trim_end().len();
    for (cut, _) in EXAMPLE[..end].char_indices() {
        let problem = problem_of(&EXAMPLE[..cut]);
        assert!(matches!(problem, FileProblem::Wrong { .. }), "{problem}");
        assert_plain(&problem.to_string());
    }
}

#[test]
fn rollers_are_not_given_together_with_what_follows_from_them() {
    let rollers = r#"rollers: (front_move: "0 mm", rear_move: "-1/8 in")"#;
    let with_rollers = example_with("rollers: None", rollers);
    for (field, none, given) in [
        ("setting.attitude", "attitude: None", "attitude: \"4 deg\""),
        (
            "setting.height_of_cut",
            "height_of_cut: None",
            "height_of_cut: \"0.5 in\"",
        ),
    ] {
        let text = with_rollers.replacen(none, given, 1);
        let problem = problem_of(&text);
        assert_said(&text, &problem, 33, field, "or set rollers to None");
    }
    let text = with_rollers.replacen("-1/8 in", "-1/8 in ± 2 thou", 1);
    let field = "setting.rollers.rear_move";
    assert_said(&text, &problem_of(&text), 36, field, "taken as exact");
}

#[test]
fn text_after_the_unit_is_refused() {
    for more in ["more", ")", EXAMPLE] {
        let text = format!("{EXAMPLE}{more}");
        let problem = problem_of(&text);
        assert_said(&text, &problem, 42, "limits", "more text after the unit");
    }
    let remark = format!("{EXAMPLE}// a remark is no more text");
    assert!(read_text(&remark).is_ok());
}

#[test]
fn a_file_that_is_no_unit_file_is_refused() {
    let empty = "the file is empty; a unit file begins with (format: 1";
    let endless = "[".repeat(900_000);
    for (text, says) in [
        ("", empty),
        ("\n  \n\n", empty),
        ("// only a remark", empty),
        ("\0\0\0\0\0\0\0\0", NO_UNIT_FILE),
        ("{\"format\": 1, \"name\": \"a\"}", NO_UNIT_FILE),
        ("Dear greenkeeper, please find attached", NO_UNIT_FILE),
        (endless.as_str(), NO_UNIT_FILE),
    ] {
        assert_said(text, &problem_of(text), 1, "format", says);
    }
    for opening in ["(", "(a:", "(format: 1, name: [", "(format: 1, reel: (a: {"] {
        let problem = problem_of(&opening.repeat(40_000));
        assert_plain(&problem.to_string());
    }
}

#[test]
fn a_file_that_is_no_text_or_far_too_large_is_refused() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    let refused = |bytes: &[u8]| {
        fs::write(&file, bytes).unwrap();
        let said = open_unit(&file).unwrap_err().to_string();
        assert_plain(&said);
        let begins = format!("{}:", file.display());
        said.strip_prefix(&begins).unwrap().to_owned()
    };

    let said = refused(&vec![b' '; 10_000_000]);
    assert!(said.starts_with("1:1: field format: the file is larger than"));
    let said = refused(&[0; 4096]);
    assert!(said.starts_with("1:1: field format: this is not a unit file"));

    let (before, after) = EXAMPLE.split_once("plain").unwrap();
    let latin = [before.as_bytes(), b"pl\xE4in", after.as_bytes()].concat();
    let said = refused(&latin);
    assert!(said.starts_with("21:18: field knife.name: this is not UTF-8 text; save"));

    fs::remove_file(&file).unwrap();
    for unreadable in [file.as_path(), folder.path()] {
        let problem = open_unit(unreadable).unwrap_err();
        assert!(
            matches!(problem, FileProblem::Unreadable { .. }),
            "{problem}"
        );
        let begins = format!("{}: cannot be read", unreadable.display());
        assert!(problem.to_string().starts_with(&begins), "{problem}");
    }
}

#[test]
fn the_example_opens_and_a_setting_left_out_is_as_on_the_bench() {
    let document = example();
    assert_eq!(document.name, "Example Ground, trailed gang, number 3");
    assert_eq!(document.setting, SettingEntry::default());
    let unit = document.checked().unwrap();
    let (setting, bench) = (unit.setting, unit.profile.bench);
    assert_eq!(setting.reel_diameter, bench.reel_diameter);
    assert_eq!(setting.gap, bench.gap);
    assert_eq!(setting.knife, unit.profile.knife);
    assert_eq!(setting.extension, Length::ZERO);
    assert_eq!(setting.knife.top_ground, Length::ZERO);
    assert_eq!(setting.knife.face_ground, Length::ZERO);
    assert_eq!(
        setting.stance,
        Stance::Wanted {
            attitude: bench.attitude,
            height_of_cut: bench.height_of_cut
        }
    );
    let pose = Pose::solve(&unit.profile, &setting).unwrap();
    let behind_centre = pose.sweep().behind_centre - bench.behind_centre;
    assert!(behind_centre.mm().abs() < 1e-9);

    let from = EXAMPLE.find("    setting: (").unwrap();
    let to = EXAMPLE.find("    mowing:").unwrap();
    let without_setting = format!("{}{}", &EXAMPLE[..from], &EXAMPLE[to..]);
    let without_setting = read_text(&without_setting).unwrap();
    assert_eq!(without_setting, document);
}

#[test]
fn some_may_be_written_or_left_out() {
    for (with, without) in [
        (
            "mowing: Some((ground_speed: \"4 mph\", reel_speed: \"900 rpm\"))",
            "mowing: (ground_speed: \"4 mph\", reel_speed: \"900 rpm\")",
        ),
        ("knife: Some(\"reaching\")", "knife: \"reaching\""),
        ("gap: Some(\"1 thou\")", "gap: \"1 thou\""),
        ("lean: Some(\"-3 deg\")", "lean: \"-3 deg\""),
        (
            "rollers: Some((front_move: \"0 mm\", rear_move: \"1 mm\"))",
            "rollers: (front_move: \"0 mm\", rear_move: \"1 mm\")",
        ),
        (
            "limits: Some((sweep_watch: Some(\"4 %\")))",
            "limits: (sweep_watch: \"4 %\")",
        ),
    ] {
        let left_out = format!("{}: None", with.split(':').next().unwrap());
        let good = if EXAMPLE.contains(with) {
            with
        } else {
            &left_out
        };
        let opened = |text: &str| {
            let text = example_with(good, text);
            read_text(&text).unwrap_or_else(|problem| panic!("{problem}"))
        };
        assert_eq!(opened(with), opened(without), "{with}");
        assert_eq!(opened(with) == example(), good == with, "{with}");
    }
}

#[test]
fn a_file_with_only_the_fields_that_have_no_default_opens() {
    let document = read_text(SHORTEST).unwrap();
    assert_eq!(document.bench.gap.value(), Length::ZERO);
    assert!(document.hardware.is_empty() && document.options.is_empty());
    assert_eq!(document.setting, SettingEntry::default());
    assert!(document.mowing.is_none() && document.limits.is_none());
    assert_eq!(document.ground.roller_sink, None);
    let unit = document.checked().unwrap();
    assert!(Pose::solve(&unit.profile, &unit.setting).is_ok());
    assert_kept(SHORTEST);

    // None of its fields can be left out.
    for field in ["format", "turf", "reel", "closing"] {
        let line = SHORTEST
            .split_inclusive('\n')
            .find(|line| line.trim_start().starts_with(&format!("{field}:")))
            .unwrap();
        let text = SHORTEST.replacen(line, "", 1);
        let says = format!("the field \"{field}\" is missing");
        assert_said(&text, &problem_of(&text), 22, field, &says);
    }
}

#[test]
fn a_file_from_another_editor_opens_the_same() {
    let opened = |text: &str| read_text(text).unwrap();
    assert_eq!(opened(&EXAMPLE.replace('\n', "\r\n")), example());
    assert_eq!(opened(&format!("\u{feff}{EXAMPLE}")), example());
    let marked = format!("\u{feff}{}", example_with("format: 1", "format: 2"));
    let problem = problem_of(&marked).to_string();
    assert!(
        problem.starts_with("unit.ron:2:13: field format"),
        "{problem}"
    );
}

/// Every text between quotes, remarks aside, in order of the alphabet.
fn quoted_texts(text: &str) -> Vec<&str> {
    let without_remark = |line: &'_ str| line.find("//").unwrap_or(line.len());
    let mut texts: Vec<&str> = text
        .lines()
        .map(|line| &line[..without_remark(line)])
        .flat_map(|line| line.split('"').skip(1).step_by(2))
        .collect();
    texts.sort_unstable();
    texts
}

/// What is written out is read back the same, with every text as it was typed.
fn assert_kept(text: &str) {
    let document = read_text(text).unwrap();
    let written = write_text(&document);
    let again = read_text(&written).unwrap();
    assert_eq!(again, document);
    assert_eq!(write_text(&again), written);
    let mut kept = quoted_texts(&written).into_iter();
    for typed in quoted_texts(text) {
        assert!(kept.any(|text| text == typed), "{typed} in\n{written}");
    }
}

#[test]
fn what_was_typed_is_written_back_as_typed() {
    assert_kept(EXAMPLE);
    for file in DemoUnit::files() {
        assert_kept(&fs::read_to_string(file).unwrap());
    }
    let odd = example_with("\"plain\"", r#""say \"thin\" \\ ± 1\nor 刃""#);
    let document = read_text(&odd).unwrap();
    assert_eq!(document.knife.name, "say \"thin\" \\ ± 1\nor 刃");
    let again = read_text(&write_text(&document)).unwrap();
    assert_eq!(again, document);
    for typed in [
        " 1-3/8 in",
        "35mm",
        "1 3/8 in.",
        "34.9 mm ± .1",
        "1 in + 4 thou",
    ] {
        let text = example_with("\"1.5 in\"", &format!("\"{typed}\""));
        let document = read_text(&text).unwrap();
        assert_eq!(document.knife.reach.text(), typed.trim());
        assert_eq!(write_text(&document), text);
        let anew = Document {
            as_read: AsRead::default(),
            ..document
        };
        assert!(write_text(&anew).contains(&format!("\"{}\"", typed.trim())));
    }
}

#[test]
fn every_demo_unit_opens_and_can_be_reckoned_with_every_knife() {
    for file in DemoUnit::files() {
        let said = file.display();
        assert!(fs::read_to_string(&file).unwrap().starts_with("// "));
        let document = open_unit(&file).unwrap();
        let names = std::iter::once(&document.knife).chain(&document.options);
        for name in names.map(|knife| knife.name.clone()) {
            let mut fitted = document.clone();
            fitted.setting.knife = Some(name);
            let unit = fitted.checked().unwrap();
            let pose = Pose::solve(&unit.profile, &unit.setting).unwrap();
            let ground = Terrain::under(&pose, unit.shape, unit.sink).unwrap();
            let plate_from_bar = pose.plate_from_frame * pose.frame_from_bar;
            let underside = underside_on_bar(&unit.profile, &unit.setting);
            let hardware = unit.hardware_on_bar(&unit.setting);
            for on_bar in underside.into_iter().chain(hardware) {
                let clear = ground.clearance(plate_from_bar * on_bar);
                assert!(clear >= unit.limits.underside, "{said}: {clear:?}");
            }
            for roller in [pose.front_roller, pose.rear_roller] {
                let apart = (roller.centre - pose.centre_on_plate).hypot();
                assert!(apart > roller.radius_mm + pose.reel_radius_mm, "{said}");
            }
        }
    }
}

/// Sweep below cut over height of cut, of a demo unit as its file sets it.
fn sweep_share(demo: DemoUnit) -> f64 {
    let unit = demo.document().checked().unwrap();
    let pose = Pose::solve(&unit.profile, &unit.setting).unwrap();
    pose.sweep().below_cut.mm() / pose.height_of_cut.mm()
}

#[test]
fn the_demo_units_show_what_their_remarks_say() {
    for well_set in [DemoUnit::GreensWalking, DemoUnit::FairwayTrailed] {
        assert!(sweep_share(well_set) < 0.05, "{well_set:?}");
    }
    assert!(sweep_share(DemoUnit::GreensScalping) > 0.12);
}

/// One way of spoiling a file's bytes; places are parts of its length.
#[derive(Clone, Debug)]
enum Spoil {
    Set(f64, u8),
    Insert(f64, Vec<u8>),
    Remove(f64, usize),
    Repeat(f64, usize),
    CutShort(f64),
}

impl Spoil {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        clippy::cast_sign_loss,
        reason = "a share of a text's length, somewhere in it"
    )]
    fn apply(&self, bytes: &mut Vec<u8>) {
        let place = |part: f64, bytes: &[u8]| (part * bytes.len() as f64) as usize;
        match self {
            Self::Set(part, byte) => {
                let at = place(*part, bytes);
                if let Some(old) = bytes.get_mut(at) {
                    *old = *byte;
                }
            }
            Self::Insert(part, more) => {
                let at = place(*part, bytes);
                bytes.splice(at..at, more.iter().copied());
            }
            Self::Remove(part, length) => {
                let at = place(*part, bytes);
                let end = (at + length).min(bytes.len());
                bytes.drain(at..end);
            }
            Self::Repeat(part, length) => {
                let at = place(*part, bytes);
                let end = (at + length).min(bytes.len());
                let piece = bytes[at..end].to_vec();
                bytes.splice(at..at, piece);
            }
            Self::CutShort(part) => bytes.truncate(place(*part, bytes)),
        }
    }
}

fn spoil() -> impl Strategy<Value = Spoil> {
    let part = || 0.0..1.0_f64;
    let mark = prop::sample::select(b"()[]{}\",:./*\\-+%'#r_ \n0129aN\x00\xC2\xFF".to_vec());
    prop_oneof![
        (part(), any::<u8>()).prop_map(|(part, byte)| Spoil::Set(part, byte)),
        (part(), mark.clone()).prop_map(|(part, byte)| Spoil::Set(part, byte)),
        (part(), prop::collection::vec(mark, 1..6)).prop_map(|(p, more)| Spoil::Insert(p, more)),
        (part(), 1_usize..60).prop_map(|(part, length)| Spoil::Remove(part, length)),
        (part(), 1_usize..60).prop_map(|(part, length)| Spoil::Repeat(part, length)),
        part().prop_map(Spoil::CutShort),
    ]
}

proptest! {
    #![proptest_config(by_chance(1500))]

    #[test]
    fn a_spoiled_file_opens_or_is_refused_with_a_place_in_it(
        spoils in prop::collection::vec(spoil(), 1..5),
        from_shortest in any::<bool>(),
    ) {
        let good = if from_shortest { SHORTEST } else { EXAMPLE };
        let mut bytes = good.as_bytes().to_vec();
        for spoil in &spoils {
            spoil.apply(&mut bytes);
        }
        let folder = TempDir::new().unwrap();
        let file = folder.path().join("unit.ron");
        fs::write(&file, &bytes).unwrap();
        match open_unit(&file) {
            Ok(document) => {
                let unit = document.checked().unwrap();
                // Geometry that cannot exist is said in words; either way nothing falls over.
                let _ = Pose::solve(&unit.profile, &unit.setting)
                    .map(|pose| Terrain::under(&pose, unit.shape, unit.sink));
                let written = write_text(&document);
                let again = read_text(&written).unwrap();
                prop_assert_eq!(again, document);
            }
            Err(problem) => {
                let said = problem.to_string();
                let FileProblem::Wrong { problem: TextProblem { line, column, field, what }, .. } = problem else {
                    return Err(TestCaseError::fail(said));
                };
                let lines = 1 + String::from_utf8_lossy(&bytes).matches('\n').count();
                prop_assert!((1..=lines).contains(&line) && column >= 1, "{}", said);
                prop_assert!(!field.is_empty() && what.len() > 8, "{}", said);
                assert_plain(&what);
            }
        }
    }
}

#[test]
fn a_document_put_away_while_a_value_made_no_sense_comes_back_as_it_was() {
    let mut flawed = example();
    flawed.as_read = AsRead::new(&format!("// halfway through\n{EXAMPLE}"));
    flawed.bench.height_of_cut = Quantity::parse("-1 mm").unwrap();
    flawed.setting.knife = Some("one still to be typed".to_owned());
    assert!(flawed.checked().is_err());
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("put-away.ron");
    write_whole(&file, write_text(&flawed).as_bytes()).unwrap();
    let problem = open_unit(&file).unwrap_err().to_string();
    assert!(problem.contains("field bench.height_of_cut"), "{problem}");
    assert_eq!(reopen_unit(&file).unwrap(), flawed);
    assert!(write_text(&flawed).starts_with("// halfway through\n("));
    // What is no unit at all does not come back as one.
    write_whole(&file, b"(format: 1").unwrap();
    assert!(reopen_unit(&file).is_err());
}

/// The names in a folder.
fn names_in(folder: &Path) -> Vec<OsString> {
    let mut names: Vec<OsString> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name())
        .collect();
    names.sort();
    names
}

/// A failed save says so and changes nothing in the folder.
fn assert_unsaved(file: &Path, folder: &Path) {
    let before = names_in(folder);
    let problem = save_unit(&example(), file).unwrap_err();
    assert!(matches!(problem, FileProblem::Unsaved { .. }), "{problem}");
    let begins = format!("{}: could not be saved: ", file.display());
    assert!(problem.to_string().starts_with(&begins), "{problem}");
    assert_eq!(names_in(folder), before);
}

#[test]
fn a_save_is_read_back_and_leaves_nothing_else_behind() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    save_unit(&example(), &file).unwrap();
    assert_eq!(open_unit(&file).unwrap(), example());

    let mut changed = example();
    changed.name = "number 4".to_owned();
    save_unit(&changed, &file).unwrap();
    assert_eq!(open_unit(&file).unwrap(), changed);
    assert_eq!(names_in(folder.path()), ["unit.ron"]);
}

#[test]
fn a_save_onto_a_read_only_file_leaves_it_as_it_was() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    fs::write(&file, SHORTEST).unwrap();
    let writable = fs::metadata(&file).unwrap().permissions();
    let mut read_only = writable.clone();
    read_only.set_readonly(true);
    fs::set_permissions(&file, read_only).unwrap();
    assert_unsaved(&file, folder.path());
    assert_eq!(fs::read_to_string(&file).unwrap(), SHORTEST);
    assert!(fs::metadata(&file).unwrap().permissions().readonly());
    fs::set_permissions(&file, writable).unwrap();
}

#[test]
fn a_save_to_where_no_file_can_be_leaves_everything_as_it_was() {
    let folder = TempDir::new().unwrap();
    let inside = |name: &str| folder.path().join(name);
    fs::write(inside("old.ron"), SHORTEST).unwrap();
    fs::create_dir(inside("empty folder")).unwrap();
    fs::create_dir(inside("folder")).unwrap();
    fs::write(inside("folder/kept.ron"), SHORTEST).unwrap();
    for target in [
        "no such folder/unit.ron",
        "empty folder",
        "folder",
        "old.ron/unit.ron",
    ] {
        assert_unsaved(&inside(target), folder.path());
    }
    for kept in ["old.ron", "folder/kept.ron"] {
        assert_eq!(fs::read_to_string(inside(kept)).unwrap(), SHORTEST);
    }
    assert!(names_in(&inside("empty folder")).is_empty());
    assert_eq!(names_in(&inside("folder")), ["kept.ron"]);
}

#[cfg(unix)]
#[test]
fn a_save_into_a_read_only_folder_leaves_the_old_file_as_it_was() {
    use std::os::unix::fs::PermissionsExt as _;

    let folder = TempDir::new().unwrap();
    let closed = folder.path().join("closed");
    let file = closed.join("unit.ron");
    fs::create_dir(&closed).unwrap();
    fs::write(&file, SHORTEST).unwrap();
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o555)).unwrap();
    // The system's owner writes into any folder; the save then is a whole one.
    let probe = closed.join("probe");
    if fs::write(&probe, "").is_ok() {
        fs::remove_file(&probe).unwrap();
        save_unit(&example(), &file).unwrap();
        assert_eq!(open_unit(&file).unwrap(), example());
    } else {
        assert_unsaved(&file, &closed);
        assert_eq!(fs::read_to_string(&file).unwrap(), SHORTEST);
    }
    assert_eq!(names_in(&closed), ["unit.ron"]);
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o755)).unwrap();
}

/// Tells the second run of the test below where to save.
#[cfg(target_os = "linux")]
const FULL_TARGET: &str = "SWEEPGAUGE_TEST_FULL_TARGET";

#[cfg(target_os = "linux")]
#[test]
fn a_save_that_runs_out_of_room_leaves_the_old_file_as_it_was() {
    // This test runs itself again where no file can grow past a kilobyte.
    let name = "files::a_save_that_runs_out_of_room_leaves_the_old_file_as_it_was";
    if let Some(file) = std::env::var_os(FULL_TARGET) {
        let file = Path::new(&file);
        assert!(write_text(&example()).len() > 1024);
        assert_unsaved(file, file.parent().unwrap());
        return;
    }
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    fs::write(&file, SHORTEST).unwrap();
    let ran = std::process::Command::new("sh")
        .args([
            "-c",
            "trap '' XFSZ; ulimit -f 1; exec \"$0\" --exact \"$1\"",
        ])
        .arg(std::env::current_exe().unwrap())
        .arg(name)
        .env(FULL_TARGET, &file)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&ran.stdout);
    assert!(ran.status.success(), "{said}");
    assert!(said.contains("1 passed"), "{said}");
    assert_eq!(fs::read_to_string(&file).unwrap(), SHORTEST);
    assert_eq!(names_in(folder.path()), ["unit.ron"]);
}

#[cfg(unix)]
#[test]
fn a_save_through_a_link_keeps_the_link() {
    use std::os::unix::fs::{PermissionsExt as _, symlink};

    let folder = TempDir::new().unwrap();
    let store = folder.path().join("store");
    fs::create_dir(&store).unwrap();
    let file = store.join("unit.ron");
    fs::write(&file, SHORTEST).unwrap();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
    let link = folder.path().join("link.ron");
    symlink("store/unit.ron", &link).unwrap();

    save_unit(&example(), &link).unwrap();
    assert_eq!(fs::read_link(&link).unwrap(), Path::new("store/unit.ron"));
    assert_eq!(open_unit(&file).unwrap(), example());
    let mode = fs::metadata(&file).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o640);
    assert_eq!(names_in(folder.path()), ["link.ron", "store"]);
    assert_eq!(names_in(&store), ["unit.ron"]);

    let mut read_only = fs::metadata(&file).unwrap().permissions();
    read_only.set_readonly(true);
    fs::set_permissions(&file, read_only).unwrap();
    assert_unsaved(&link, folder.path());
    assert_eq!(open_unit(&file).unwrap(), example());
}
