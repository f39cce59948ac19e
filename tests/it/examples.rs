//! Readings that are still examples are told wherever a verdict rests on them, and none is fine then.

use std::process::Command;

use sweepgauge::analysis::{Level, Solved};
use sweepgauge::drawing::{LensChoice, Page, SideView, Theme, plate_sheet, verdict};
use sweepgauge::store::save_unit;
use sweepgauge::unit::{Document, Field, Reading};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;

/// A well set unit with so many of its readings taken for examples.
fn with_examples(fields: &[Field]) -> Document {
    let mut unit = DemoUnit::GreensWalking.document();
    for field in fields {
        unit.examples.mark(*field);
    }
    unit
}

fn said(unit: &Document, command: &[&str]) -> String {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    save_unit(unit, &file).unwrap();
    let (first, rest) = command.split_first().unwrap();
    let mut program = Command::new(env!("CARGO_BIN_EXE_sweepgauge"));
    let run = program.arg(first).arg(&file).args(rest).output().unwrap();
    assert!(run.status.success(), "{run:?}");
    String::from_utf8(run.stdout).unwrap()
}

#[test]
fn every_report_tells_how_many_readings_are_still_examples() {
    let unit = with_examples(&[Reading::Gap.into(), Field::Blades]);
    let told = unit.example_count().told().unwrap();
    let own = DemoUnit::GreensWalking.document();
    for command in [["report"], ["knives"], ["why"]] {
        assert!(said(&unit, &command).contains(&told), "{command:?}");
        assert!(!said(&own, &command).contains("examples"), "{command:?}");
    }
    let json = |unit: &Document| -> serde_json::Value {
        serde_json::from_str(&said(unit, &["report", "--json"])).unwrap()
    };
    let listed = serde_json::json!(["reel.blades", "bench.gap"]);
    assert_eq!(json(&unit)["examples"], listed);
    assert_eq!(json(&own).get("examples"), None);
}

#[test]
fn a_verdict_on_examples_is_never_fine() {
    let own = Solved::of(&DemoUnit::GreensWalking.document()).unwrap();
    let count = own.document.example_count();
    assert_eq!(verdict(&own.findings, count).0, Level::Fine);
    let unit = Solved::of(&with_examples(&[Reading::ReelDiameter.into()])).unwrap();
    let (level, text) = verdict(&unit.findings, unit.document.example_count());
    assert_eq!(level, Level::Watch);
    assert!(text.starts_with("Undecided: some readings"), "{text}");
    let sheet = plate_sheet(
        &unit.document.name,
        "plain",
        &SideView::of(&unit),
        LensChoice::default(),
        Theme::Light,
        Page::A4,
    );
    let told = unit.document.example_count().told().unwrap();
    assert!(sheet.words().any(|words| words.starts_with(&told)));
}

#[test]
fn a_verdict_past_its_limits_stays_past_them_on_examples() {
    let mut unit = DemoUnit::GreensScalping.document();
    unit.examples.mark(Reading::ReelDiameter);
    let solved = Solved::of(&unit).unwrap();
    let (level, text) = verdict(&solved.findings, unit.example_count());
    assert_eq!(level, Level::Over);
    assert!(text.starts_with("Over"), "{text}");
}

#[test]
fn no_report_to_be_read_says_ok_or_passes_of_an_example() {
    let unit = with_examples(&[Reading::Gap.into()]);
    let report = said(&unit, &["report"]);
    assert!(report.contains("watch: example readings"), "{report}");
    let is_fine = |text: &str| text.lines().any(|line| line.trim().starts_with("OK"));
    assert!(!is_fine(&report), "{report}");
    let why = said(&unit, &["why"]);
    assert!(!why.contains("(OK)"), "{why}");
    let knives = said(&unit, &["knives"]);
    assert!(
        !knives.contains(" passes") && !knives.contains("knives pass"),
        "{knives}"
    );
    // The levels that programs read stay as they are worked out.
    let json = said(&unit, &["report", "--json"]);
    assert!(json.contains("\"level\": \"fine\""), "{json}");
    let own = DemoUnit::GreensWalking.document();
    assert!(is_fine(&said(&own, &["report"])));
}
