//! Fields worked out from other readings: round trips through the geometry, ± against differences
//! and draws, and the unit file that keeps a straightedge's reading.

use proptest::prelude::*;
use sweepgauge::analysis::other_readings::{
    BehindFrom, Derived, GroundFound, Taken, ground_from_straightedge,
};
use sweepgauge::geometry::{
    GapAt, Misread, behind_centre_from_rise, behind_centre_from_square, radius_under_straightedge,
    underside_on_bar,
};
use sweepgauge::unit::{BenchReadings, Document, GapPlace, read_text, write_text};
use sweepgauge::units::{Angle, Length, Quantity, System};

use crate::common::by_chance;
use crate::common::example::{EXAMPLE, example};
use crate::common::random_units::believable_unit;

fn document(text: &str) -> Document {
    read_text(text).unwrap()
}

fn length(text: &str) -> Quantity<Length> {
    Quantity::parse(text).unwrap()
}

fn bench(edits: &[(&str, &str)]) -> BenchReadings {
    document(&example(edits)).bench
}

/// What a way makes of a reading; a block to a square touches the face `touches_at`.
fn found_where(
    method: BehindFrom,
    bench: &BenchReadings,
    reading: &str,
    touches_at: &str,
) -> Result<Derived, Misread> {
    let taken = Taken {
        front_angle: None,
        reading: &length(reading),
        touches_at: &length(touches_at),
        is_ahead: false,
    };
    method.behind_centre(bench, taken)
}

/// The same where it does not matter where the block touches, or at the edge itself.
fn found(method: BehindFrom, bench: &BenchReadings, reading: &str) -> Result<Derived, Misread> {
    found_where(method, bench, reading, "0.5 in")
}

proptest! {
    #![proptest_config(by_chance(256))]

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
    fn a_block_from_the_drawn_front_face_to_the_square_gives_behind_centre_back(
        unit in believable_unit(),
        share in 0.05..0.95_f64,
    ) {
        let Ok(pose) = unit.solve() else { return Ok(()) };
        // A place on the front face of the knife as it stands, from its corners alone.
        let lip_bottom = underside_on_bar(&unit.profile, &unit.setting)[0];
        let to_plate = pose.plate_from_bar();
        let (edge, foot) = (pose.edge_on_plate, to_plate * lip_bottom);
        let face = foot - edge;
        // What was ground off the front face leaves it at the same angle to the datum.
        let front_rad = unit.setting.knife.front_angle.map_or(0.0, Angle::rad);
        let touch = edge + face * share;
        prop_assume!(touch.y < edge.y);
        let foremost_mm = pose.centre_on_plate.x + pose.reel_radius_mm;
        let found = behind_centre_from_square(
            pose.reel_radius_mm,
            foremost_mm - touch.x,
            edge.y,
            touch.y,
            pose.attitude.rad() + front_rad,
        ).unwrap();
        prop_assert!((found - pose.sweep().behind_centre.mm()).abs() < 1e-9, "{found}");
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
    for (method, reading, touches_at) in [
        (BehindFrom::Rise, "0.020147 in", "0 in"),
        (BehindFrom::BlockUnderReel, "0.479853 in", "0 in"),
        (BehindFrom::BlockToSquare, "3.875 in", "0.5 in"),
        // A tenth below the edge, at 4 degrees: 0.1 tan 4° is 0.006 993 in.
        (BehindFrom::BlockToSquare, "3.881993 in", "0.4 in"),
    ] {
        let (reading, touches_at) = (length(reading), length(touches_at));
        for is_ahead in [false, true] {
            let taken = Taken {
                front_angle: None,
                reading: &reading,
                touches_at: &touches_at,
                is_ahead,
            };
            let found = method.behind_centre(&bench, taken).unwrap();
            // A block under the reel or to a square says itself on which side the edge stands.
            let is_turned = is_ahead && method == BehindFrom::Rise;
            let wanted = if is_turned { -0.375 } else { 0.375 };
            assert!(
                (found.value.inches() - wanted).abs() < 1e-5,
                "{method:?} {found:?}"
            );
            assert!(found.standard.mm() <= 0.0);
        }
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
        ("attitude: \"4 deg\"", "attitude: \"4 deg ± 0.3 deg\""),
    ]);
    for (method, at, off) in [
        (BehindFrom::Rise, 0.02, 0.001),
        (BehindFrom::BlockUnderReel, 0.47, 0.001),
        (BehindFrom::BlockToSquare, 3.8, 0.003),
    ] {
        let reading = format!("{at} in ± {off} in");
        let found = found_where(method, &bench, &reading, "0.42 in ± 0.01 in").unwrap();
        // The same by central differences of the value, one reading after the other.
        let by = |a: [f64; 6]| {
            let mut bench = bench.clone();
            bench.reel_diameter = length(&format!("{:.12} in", 6.9 + a[0]));
            bench.gap = length(&format!("{:.12} mm", 0.03 + a[1]));
            bench.height_of_cut = length(&format!("{:.12} in", 0.5 + a[2]));
            bench.attitude = Quantity::parse(&format!("{:.12} deg", 4.0 + a[3])).unwrap();
            let touches_at = format!("{:.12} in", 0.42 + a[4]);
            let reading = format!("{:.12} in", at + a[5]);
            let found = found_where(method, &bench, &reading, &touches_at);
            found.unwrap().value.mm()
        };
        let step = 1e-5;
        let mut variance = 0.0;
        for (index, half_width) in [0.01, 0.02, 0.002, 0.3, 0.01, off].into_iter().enumerate() {
            let mut up = [0.0; 6];
            let mut down = [0.0; 6];
            (up[index], down[index]) = (step, -step);
            let slope = (by(up) - by(down)) / (2.0 * step);
            variance += (slope * half_width).powi(2) / 3.0;
        }
        let wanted = variance.sqrt();
        assert!(
            (found.standard.mm() / wanted - 1.0).abs() < 1e-4,
            "{method:?} {found:?} {wanted}"
        );
        // One reading that brings all gives 1.65, many alike 2.
        let factor = found.expanded.mm() / found.standard.mm();
        assert!((1.65..2.0).contains(&factor), "{method:?} {factor}");
    }
}

#[test]
fn what_is_filled_in_carries_the_same_standard_uncertainty_on() {
    let found = Derived {
        value: Length::from_mm(7.5),
        standard: Length::from_mm(0.2),
        expanded: Length::from_mm(0.33),
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
        expanded: Length::ZERO,
        ..found
    };
    assert_eq!(exact.as_reading(System::Millimetre).half_width(), None);
}

#[test]
fn a_reading_that_cannot_be_is_answered_with_what_could() {
    let bench = bench(&[]);
    let higher = found(BehindFrom::BlockUnderReel, &bench, "0.6 in");
    let told = higher.unwrap_err().sentence().shown_in(System::InchDecimal);
    assert!(
        told.contains("-0.100 in") && told.contains("3.450 in"),
        "{told}"
    );
    let over_edge = found_where(BehindFrom::BlockToSquare, &bench, "3.8 in", "0.51 in");
    let told = over_edge
        .unwrap_err()
        .sentence()
        .shown_in(System::InchDecimal);
    assert!(
        told.contains("0.510 in") && told.contains("0.500 in"),
        "{told}"
    );
    for gap in ["1 ft", "-1 mm"] {
        let found = ground_from_straightedge(&length("2 ft"), &length(gap), GapAt::Middle);
        assert!(matches!(found, Err(Misread::GapUnderStraightedge { .. })));
        let told = found.unwrap_err().sentence().shown_in(System::Millimetre);
        assert!(told.contains("304.8 mm"), "{told}");
    }
}

#[test]
fn a_rise_that_may_be_nothing_is_never_called_sure() {
    let bench = bench(&[("gap: \"0 mm\"", "gap: \"0.01 mm ± 0.01 mm\"")]);
    for (method, reading) in [
        (BehindFrom::Rise, "0 in ± 0.001 in"),
        (BehindFrom::Rise, "0.0005 in ± 0.001 in"),
        (BehindFrom::BlockUnderReel, "0.5 in ± 0.001 in"),
    ] {
        let lost = found(method, &bench, reading).unwrap_err();
        let Misread::RiseLostInItsOff { off, within, .. } = lost else {
            panic!("{method:?} {reading}: {lost:?}")
        };
        assert!((off.inches() - 0.001 - 0.01 / 25.4).abs() < 1e-12);
        // The farthest by hand: the root of 2 · 3.45 in times rise and gap at their most.
        let rise = if reading.starts_with("0.0005") {
            0.0015
        } else {
            0.001
        };
        let farthest = (6.9 * (rise + 0.02 / 25.4_f64)).sqrt();
        assert!((within.inches() - farthest).abs() < 1e-3, "{within:?}");
    }
    assert!(found(BehindFrom::Rise, &bench, "0.002 in ± 0.001 in").is_ok());
    // Below the reel by more than any ± is still told as off the reel.
    let off_reel = found(BehindFrom::Rise, &bench, "-0.1 in ± 0.001 in");
    let Err(Misread::RiseOffTheReel { rise, .. }) = off_reel else {
        panic!("{off_reel:?}")
    };
    assert!((rise.inches() + 0.1).abs() < 1e-12);
}

#[test]
fn its_plus_or_minus_is_the_spread_of_draws_from_the_readings() {
    const DRAWS: u32 = 200_000;
    let bench = bench(&[(
        "reel_diameter: \"6.9 in\"",
        "reel_diameter: \"6.9 in ± 0.02 in\"",
    )]);
    let told = found(BehindFrom::Rise, &bench, "0.02 in ± 0.001 in").unwrap();
    // Even spreads by a linear congruence (Knuth's MMIX constants); b² = 2RS − S² by hand.
    let mut state = 1_u64;
    let mut even = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(state >> 32).unwrap()) / f64::from(u32::MAX) * 2.0 - 1.0
    };
    let (mut sum, mut squares) = (0.0, 0.0);
    for _ in 0..DRAWS {
        let (diameter, rise) = (6.9 + 0.02 * even(), 0.02 + 0.001 * even());
        let off = (diameter * rise - rise * rise).sqrt() - told.value.inches();
        sum += off;
        squares += off * off;
    }
    let mean = sum / f64::from(DRAWS);
    let spread = (squares / f64::from(DRAWS) - mean * mean).sqrt();
    assert!(
        (told.standard.inches() / spread - 1.0).abs() < 0.01,
        "{told:?} {spread}"
    );
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
    assert!(!document(EXAMPLE).checked().unwrap().wear.is_any());
    let with = "shape: Level), wear: (front_runout: \"0.01 in\", end_difference: \"0.4 mm\"";
    let read = document(&example(&[(GROUND, &format!("{with})"))]));
    let wear = read.checked().unwrap().wear;
    assert!((wear.front_runout.mm() - 0.254).abs() < 1e-12 && wear.has_runout());
    assert!((wear.at_low_end().mm() - 0.2).abs() < 1e-12);
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
        let told = read_text(&text).unwrap_err().to_string();
        assert!(told.contains(&format!("field {field}")), "{told}");
    }
}

#[test]
fn a_gap_that_may_be_nothing_makes_no_crest_and_a_small_doubt_is_not_rounded_away() {
    let found = ground_from_straightedge(&length("2 m"), &length("1 mm ± 1 mm"), GapAt::Middle);
    assert!(matches!(found, Err(Misread::GapLostInItsOff { .. })));
    let sure = Derived {
        value: Length::from_mm(7.5),
        standard: Length::from_mm(0.0001),
        expanded: Length::from_mm(0.000_165),
    };
    let half_width = sure
        .as_reading(System::Millimetre)
        .half_width()
        .unwrap()
        .mm();
    assert!(
        (half_width / 3_f64.sqrt() - 0.0001).abs() < 1e-7,
        "{half_width}"
    );
}
