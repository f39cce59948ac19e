//! Fields worked out from other readings: round trips through the geometry, ± against differences
//! and draws, and the unit file that keeps a straightedge's reading.

#[allow(dead_code)] // random units also serve the tests of the geometry, which use more of them
mod common;
#[path = "common/example.rs"]
mod example;

use std::path::Path;

use common::believable_unit;
use example::{EXAMPLE, example};
use proptest::prelude::*;
use sweepgauge::analysis::other_readings::{
    BehindFrom, Derived, GroundFound, ground_from_straightedge,
};
use sweepgauge::geometry::{GapAt, Misread, behind_centre_from_rise, radius_under_straightedge};
use sweepgauge::unit::{BenchReadings, Document, GapPlace, read_text, write_text};
use sweepgauge::units::{Length, Quantity, System};

fn document(text: &str) -> Document {
    read_text(Path::new("test unit"), text).unwrap()
}

fn length(text: &str) -> Quantity<Length> {
    Quantity::parse(text).unwrap()
}

fn bench(edits: &[(&str, &str)]) -> BenchReadings {
    document(&example(edits)).bench
}

proptest! {
    #[test]
    fn the_rise_that_a_pose_has_gives_its_behind_centre_back(unit in believable_unit()) {
        let Ok(pose) = unit.solve() else { return Ok(()) };
        let sweep = pose.sweep();
        let found = behind_centre_from_rise(
            pose.reel_radius_mm,
            pose.gap.mm(),
            sweep.below_cut.mm(),
        ).unwrap();
        prop_assert!((found - sweep.behind_centre.mm().abs()).abs() < 1e-6, "{found}");
    }

    #[test]
    fn a_circle_drawn_under_a_straightedge_gives_its_radius_back(
        radius_mm in 500.0..50_000.0_f64,
        length_mm in 100.0..450.0_f64,
    ) {
        // Heights of the circle's own points, not the formula turned round.
        let below_top = |across_mm: f64| radius_mm - (radius_mm * radius_mm - across_mm * across_mm).sqrt();
        let half = below_top(length_mm / 2.0);
        let whole = below_top(length_mm);
        for (gap_mm, at) in [(half, GapAt::Middle), (half, GapAt::EachEnd), (whole, GapAt::OneEnd)] {
            let found = radius_under_straightedge(length_mm, gap_mm, at).unwrap().unwrap();
            prop_assert!((found / radius_mm - 1.0).abs() < 1e-6, "{at:?} {found}");
        }
    }
}

#[test]
fn each_way_gives_the_same_behind_centre() {
    // 7 in reel, 0.5 in cut, 0.375 in behind centre by hand: rise 0.020 147 in.
    let bench = bench(&[("reel_diameter: \"6.9 in\"", "reel_diameter: \"7 in\"")]);
    for (method, reading) in [
        (BehindFrom::Rise, "0.020147 in"),
        (BehindFrom::BlockUnderReel, "0.479853 in"),
        (BehindFrom::BlockToSquare, "3.875 in"),
    ] {
        let found = method
            .behind_centre(&bench, &length(reading), false)
            .unwrap();
        assert!((found.value.inches() - 0.375).abs() < 1e-5, "{method:?}");
        assert!(found.standard.mm() <= 0.0);
        let ahead = method
            .behind_centre(&bench, &length(reading), true)
            .unwrap();
        let sign = if method.has_two_sides() { -1.0 } else { 1.0 };
        assert!(
            (ahead.value.inches() - sign * 0.375).abs() < 1e-5,
            "{method:?}"
        );
    }
}

#[test]
fn its_plus_or_minus_is_that_of_its_readings_by_differences() {
    let bench = bench(&[
        (
            "reel_diameter: \"6.9 in\"",
            "reel_diameter: \"6.9 in ± 0.01 in\"",
        ),
        (
            "height_of_cut: \"0.5 in\"",
            "height_of_cut: \"0.5 in ± 0.002 in\"",
        ),
        ("gap: \"0 mm\"", "gap: \"0.03 mm ± 0.02 mm\""),
    ]);
    for (method, at, off) in [
        (BehindFrom::Rise, 0.02, 0.001),
        (BehindFrom::BlockUnderReel, 0.47, 0.001),
        (BehindFrom::BlockToSquare, 3.8, 0.003),
    ] {
        let reading = length(&format!("{at} in ± {off} in"));
        let found = method.behind_centre(&bench, &reading, false).unwrap();
        // The same by central differences of the value, one reading after the other.
        let value = |diameter: f64, gap: f64, height: f64, reading: f64| {
            let mut bench = bench.clone();
            bench.reel_diameter = length(&format!("{diameter:.12} in"));
            bench.gap = length(&format!("{gap:.12} mm"));
            bench.height_of_cut = length(&format!("{height:.12} in"));
            let reading = length(&format!("{reading:.12} in"));
            method
                .behind_centre(&bench, &reading, false)
                .unwrap()
                .value
                .mm()
        };
        let step = 1e-5;
        let by = |a: [f64; 4]| value(6.9 + a[0], 0.03 + a[1], 0.5 + a[2], at + a[3]);
        let mut variance = 0.0;
        for (index, half_width) in [0.01, 0.02, 0.002, off].into_iter().enumerate() {
            let mut up = [0.0; 4];
            let mut down = [0.0; 4];
            (up[index], down[index]) = (step, -step);
            let slope = (by(up) - by(down)) / (2.0 * step);
            variance += (slope * half_width).powi(2) / 3.0;
        }
        let wanted = variance.sqrt();
        assert!(
            (found.standard.mm() / wanted - 1.0).abs() < 1e-4,
            "{method:?} {found:?} {wanted}"
        );
        assert!((found.expanded().mm() - 2.0 * found.standard.mm()).abs() < 1e-12);
    }
}

#[test]
fn what_is_filled_in_carries_the_same_standard_uncertainty_on() {
    let found = Derived {
        value: Length::from_mm(7.5),
        standard: Length::from_mm(0.2),
    };
    let reading = found.as_reading(System::Millimetre);
    let half_width = reading.half_width().unwrap().mm();
    assert!(
        (half_width / 3_f64.sqrt() - 0.2).abs() < 5e-4,
        "{}",
        reading.text()
    );
    let exact = Derived {
        standard: Length::ZERO,
        ..found
    };
    assert_eq!(exact.as_reading(System::Millimetre).half_width(), None);
}

#[test]
fn a_reading_that_cannot_be_is_answered_with_what_could() {
    let bench = bench(&[]);
    let found = BehindFrom::BlockUnderReel.behind_centre(&bench, &length("0.6 in"), false);
    let told = found.unwrap_err().sentence().shown_in(System::InchDecimal);
    assert!(
        told.contains("-0.100 in") && told.contains("3.450 in"),
        "{told}"
    );
    let found = ground_from_straightedge(&length("2 ft"), &length("1 ft"), GapAt::Middle);
    assert!(matches!(found, Err(Misread::GapUnderStraightedge { .. })));
    let told = found.unwrap_err().sentence().shown_in(System::Millimetre);
    assert!(told.contains("304.8 mm"), "{told}");
}

#[test]
fn where_the_gap_is_read_says_crest_or_hollow() {
    let (edge, gap) = (length("2 m"), length("10 mm ± 1 mm"));
    let found = |at| ground_from_straightedge(&edge, &gap, at).unwrap();
    let GroundFound::Hollow(radius) = found(GapAt::Middle) else {
        panic!("a hollow rests both ends")
    };
    // (1000² + 10²)/20 by hand; its slope over the gap is -(1000² - 10²)/(2·10²).
    assert!((radius.value.mm() - 50_005.0).abs() < 1e-9);
    assert!((radius.standard.mm() - 4999.5 / 3_f64.sqrt()).abs() < 1e-6);
    assert!(matches!(found(GapAt::EachEnd), GroundFound::Crest(_)));
    let GroundFound::Crest(radius) = found(GapAt::OneEnd) else {
        panic!("an end held down lies on a crest")
    };
    assert!((radius.value.mm() - 200_005.0).abs() < 1e-9);
    let none = ground_from_straightedge(&edge, &length("0 mm"), GapAt::Middle);
    assert_eq!(none, Ok(GroundFound::Level));
}

// The unit file.

const GROUND: &str = "shape: Level)";

#[test]
fn a_straightedge_is_kept_with_the_unit_and_older_files_have_none() {
    assert_eq!(document(EXAMPLE).ground.straightedge, None);
    let with =
        "shape: Level, straightedge: Some((length: \"6 ft ± 1 in\", gap: \"3/8 in\", at: OneEnd)))";
    let read = document(&example(&[(GROUND, with)]));
    let kept = read.ground.straightedge.as_ref().unwrap();
    assert_eq!(
        (kept.length.text(), kept.gap.text()),
        ("6 ft ± 1 in", "3/8 in")
    );
    assert_eq!(kept.at, GapPlace::OneEnd);
    assert_eq!(document(&write_text(&read)), read);
}

#[test]
fn wear_is_kept_with_the_unit_and_older_files_have_none() {
    assert!(document(EXAMPLE).checked().unwrap().wear.lowers().mm() <= 0.0);
    let with = "shape: Level), wear: (front_runout: \"0.01 in\", end_difference: \"0.4 mm\"";
    let read = document(&example(&[(GROUND, &format!("{with})"))]));
    assert!((read.checked().unwrap().wear.lowers().mm() - 0.327).abs() < 1e-12);
    assert_eq!(document(&write_text(&read)), read);
}

#[test]
fn wrong_values_of_wear_and_straightedge_are_refused_by_their_field() {
    for (with, field) in [
        (
            "shape: Level), wear: (rear_runout: \"-1 mm\")",
            "wear.rear_runout",
        ),
        (
            "shape: Level), wear: (end_difference: \"1\")",
            "wear.end_difference",
        ),
        ("shape: Level), wear: (runout: \"1 mm\")", "wear"),
        (
            "shape: Level, straightedge: Some((length: \"0 ft\", gap: \"1 mm\", at: Middle)))",
            "ground.straightedge.length",
        ),
        (
            "shape: Level, straightedge: Some((length: \"1 ft\", gap: \"2 ft\", at: Middle)))",
            "ground.straightedge.gap",
        ),
        (
            "shape: Level, straightedge: Some((length: \"1 ft\", gap: \"1 mm\", at: Sideways)))",
            "ground.straightedge.at",
        ),
    ] {
        let text = example(&[(GROUND, with)]);
        let told = read_text(Path::new("test unit"), &text)
            .unwrap_err()
            .to_string();
        assert!(told.contains(&format!("field {field}")), "{told}");
    }
}
