//! The surface plate: a sheet's numbers against sums by hand, a linear-algebra crate and draws of its
//! readings; wrong sheets refused with their place; records that no crash harms.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use kurbo::Point;
use parry2d_f64::glamx::{DMat3, DVec3};
use proptest::prelude::*;
use proptest::test_runner::{RngAlgorithm, TestRng};
use serde_json::Value;
use sweepgauge::analysis::plate::{BARS, HighEnd, PlateResult, Verdict, bar_choices, recommended};
use sweepgauge::analysis::{Level, Solved};
use sweepgauge::geometry::{FittedCircle, OnBar, RollerDown};
use sweepgauge::plate::{Entry, Roller, Step, Worksheet, read_record, read_sheet, write_sheet};
use sweepgauge::store::{add_entry, open_record, open_sheet, open_unit, record_beside, save_sheet};
use sweepgauge::unit::Remarks;
use sweepgauge::units::{Angle, Length, Quantity, System};
use tempfile::TempDir;

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;
use crate::common::program::{Run, program, ran};
use crate::common::random_units::believable_unit;

/// Millimetres in an inch, by definition.
const INCH: f64 = 25.4;

const UNIT: &str = "walking-greens.ron";

/// The sheet that the checks by hand begin with.
const SHEET: &str = r#"(
    plate_sheet: 1,
    unit: "",
    date: "2026-11-25", by: "A. Fitter", hours: "1210", notes: "",
    cut_width: "21 in",
    bar: (left: "0.250 in", right: "0.250 in"), // both ends
    reel: (left: "4.961 in", middle: "4.962 in", right: "4.960 in"),
    front: (
        measured_apart: "22 in",
        adjusters_apart: "26 in",
        left: Gap("0.004 in"),
        right: Gap("0.009 in"),
        adjust: Left,
        adjuster: Eccentric(throw: "1/16 in", now: "0 deg"),
        parallel_within: "0.002 in",
        runout: [
            (station: Left, readings: [("0 deg", "0 thou"), ("45 deg", "1 thou"), ("90 deg", "3 thou"), ("135 deg", "4 thou"), ("180 deg", "4 thou"), ("225 deg", "3 thou"), ("270 deg", "1 thou"), ("315 deg", "0 thou")]),
        ],
    ),
)
"#;

/// The sheet with some of its text replaced; each must stand there once.
fn edited(edits: &[(&str, &str)]) -> String {
    edits.iter().fold(SHEET.to_owned(), |text, (from, to)| {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text.replace(from, to)
    })
}

fn sheet(edits: &[(&str, &str)]) -> Worksheet {
    read_sheet(&edited(edits)).unwrap_or_else(|problem| panic!("{problem}"))
}

fn result(edits: &[(&str, &str)]) -> PlateResult {
    PlateResult::of(&sheet(edits), None).expect("it was checked")
}

fn is_near(found: f64, wanted: f64, within: f64) -> bool {
    (found - wanted).abs() <= within
}

/// A folder with the sheet and its unit.
fn shop(edits: &[(&str, &str)]) -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join(UNIT), DemoUnit::GreensWalking.text()).unwrap();
    let file = folder.path().join("one.plate.ron");
    fs::write(&file, edited(edits)).unwrap();
    (folder, file)
}

fn json(edits: &[(&str, &str)]) -> Value {
    let (_folder, file) = shop(edits);
    let Run { code, out, err } = ran(program().args(["plate", file.to_str().unwrap(), "--json"]));
    assert_eq!(code, Some(0), "{err}");
    serde_json::from_str(&out).unwrap()
}

#[track_caller]
fn number(value: &Value, path: &str) -> f64 {
    let found = value.pointer(path).and_then(Value::as_f64);
    found.unwrap_or_else(|| panic!("{path} in {value}"))
}

// Sums by hand.

#[test]
fn a_sheet_gives_the_numbers_worked_by_hand() {
    let report = json(&[]);
    // 0.005 in over 22 in: 0.004773 in over the 21 in of cut, 0.005909 in at adjusters 26 in apart.
    for (path, wanted) in [
        ("/front/slope", 0.005 / 22.0),
        ("/front/out_of_parallel_mm", 0.005 / 22.0 * 21.0 * INCH),
        ("/front/expanded_mm", 0.0),
        // The left end comes up by that: less than down.
        ("/front/at_adjuster_mm", -0.005 / 22.0 * 26.0 * INCH),
        ("/front/correction/reach_mm/0", -INCH / 16.0),
        ("/front/correction/reach_mm/1", INCH / 16.0),
        ("/front/correction/eccentric_deg/0", 5.425_158_522),
        ("/front/correction/eccentric_deg/1", 174.574_841_478),
        ("/front/runout/0/tir_mm", 0.004 * INCH),
        ("/front/runout/0/high_point_deg", 157.5),
        ("/reel/taper_mm", 0.001 * INCH),
        ("/reel/barrel_mm", 0.0015 * INCH),
    ] {
        let found = number(&report, path);
        assert!(is_near(found, wanted, 1e-9), "{path}: {found} for {wanted}");
    }
    let thou = |path: &str| number(&report, path) / INCH * 1000.0;
    assert!(is_near(
        thou("/front/runout/0/eccentricity_mm"),
        2.2304,
        5e-5
    ));
    assert!(is_near(thou("/front/runout/0/left_over_mm"), 0.293, 5e-4));
    assert_eq!(report["front"]["high_end"], "right");
    assert_eq!(report["front"]["verdict"], "fail");
    for path in [
        "/rear",
        "/right_less_left_mm",
        "/front/bow",
        "/front/runout/0/verdict",
    ] {
        assert_eq!(report.pointer(path), Some(&Value::Null), "{path}");
    }
}

#[test]
fn threads_and_shims_and_a_split_throw_are_told() {
    let eccentric = "Eccentric(throw: \"1/16 in\", now: \"0 deg\")";
    let thread = json(&[(eccentric, "Thread(pitch: \"1.25 mm\", tilt: \"0 deg\")")]);
    let turns = number(&thread, "/front/correction/turns");
    assert!(is_near(turns, 0.13 / 22.0 * INCH / 1.25, 1e-9), "{turns}");
    let shims = json(&[(eccentric, "Shims([\"0.002 in\", \"0.005 in\"])")]);
    let left = number(&shims, "/front/correction/left_over_mm");
    // 0.005909 in: two and two and two leave -0.000091 in, nearer than five.
    assert_eq!(
        shims["front"]["correction"]["shims_mm"]
            .as_array()
            .unwrap()
            .len(),
        3
    );
    assert!(is_near(left, (0.13 / 22.0 - 0.006) * INCH, 1e-9), "{left}");
    let small = (eccentric, "Eccentric(throw: \"0.005 in\", now: \"30 deg\")");
    let out_of_throw = json(&[small]);
    assert_eq!(
        out_of_throw["front"]["correction"]["eccentric_deg"],
        Value::Null
    );
    let up = number(&out_of_throw, "/front/correction/reach_mm/1");
    assert!(is_near(up, 0.0025 * INCH, 1e-9), "{up}");
    let (_folder, file) = shop(&[small]);
    let Run { out: text, .. } = ran(program().args(["plate", file.to_str().unwrap()]));
    // 0.005909 in up, of which 0.0025 in is to be had: the right end goes the rest down.
    assert!(
        text.contains("Move both ends: left up 0.0025 in, right down 0.0034 in"),
        "{text}"
    );
}

#[test]
fn the_cut_is_tipped_by_both_rollers_as_the_unit_stands() {
    let rear = "    rear: (measured_apart: \"22 in\", left: Gap(\"0.004 in\"), right: Gap(\"0.002 in\")),\n)\n";
    let edits = [
        ("unit: \"\"", "unit: \"walking-greens.ron\""),
        ("    ),\n)\n", "    ),\n)\n"),
    ];
    let text = edited(&edits).replace("    ),\n)\n", &format!("    ),\n{rear}"));
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join(UNIT), DemoUnit::GreensWalking.text()).unwrap();
    let file = folder.path().join("one.plate.ron");
    fs::write(&file, text).unwrap();
    let Run { code, out, err } = ran(program().args(["plate", file.to_str().unwrap(), "--json"]));
    assert_eq!(code, Some(0), "{err}");
    let report: Value = serde_json::from_str(&out).unwrap();
    // The unit stands as on its bench: rollers 3.6 in ahead of its edge and 3.3 in behind it.
    let slope = (3.3 * 0.005 - 3.6 * 0.002) / 6.9 / 22.0;
    let found = number(&report, "/right_less_left_mm");
    assert!(is_near(found, -21.0 * INCH * slope, 1e-9), "{found}");
    // A green: twice 0.002 in at the most, and what was read is 0.004 in.
    assert_eq!(report["front"]["runout"][0]["verdict"], "watch");
    let states: Vec<_> = report["order"].as_array().unwrap().iter().collect();
    let state = |name: &str| {
        let step = states.iter().find(|step| step["step"] == name);
        step.unwrap_or_else(|| panic!("{name}"))["state"]
            .as_str()
            .unwrap()
    };
    assert_eq!(state("front roller ends"), "done");
    assert_eq!(state("front roller adjuster"), "to do");
    assert_eq!(state("rear roller ends"), "again");
    assert_eq!(state("rock test"), "to do");
}

#[test]
fn a_thicker_bar_is_no_fault_of_the_roller() {
    let bar = ("right: \"0.250 in\"", "right: \"0.255 in\"");
    let parallel = result(&[bar]).front.unwrap().parallel.unwrap();
    assert!(parallel.slope.abs() < 1e-12, "{parallel:?}");
    assert_eq!(parallel.high, HighEnd::Level);
    assert_eq!(parallel.verdict, Some(Verdict::Pass));
}

#[test]
fn heights_and_half_turns_give_the_gap_under_each_end() {
    let edits = [
        (
            "left: Gap(\"0.004 in\")",
            "left: Height(\"2.005 in ± 0.0003 in\"), left_half_turn: Height(\"2.003 in ± 0.0003 in\"), left_diameter: \"2.000 in ± 0.0002 in\"",
        ),
        (
            "right: Gap(\"0.009 in\")",
            "right: Feeler(goes: \"0.008 in\", stops_at: \"0.009 in\"), right_half_turn: Gap(\"0.0095 in\")",
        ),
    ];
    let parallel = result(&edits).front.unwrap().parallel.unwrap();
    assert!(
        is_near(parallel.slope, (0.009 - 0.004) / 22.0, 1e-12),
        "{parallel:?}"
    );
    // Both heights share one diameter, whose own uncertainty reading twice does not lower.
    let left = 0.0003_f64.powi(2) / 3.0 / 2.0 + 0.0002_f64.powi(2) / 3.0;
    let right = 0.0005_f64.powi(2) / 3.0 / 4.0;
    let wanted = 2.0 * (left + right).sqrt() / 22.0 * 21.0 * INCH;
    assert!(
        is_near(parallel.expanded.mm(), wanted, 1e-12),
        "{parallel:?}"
    );
}

// Against a linear-algebra crate, and draws.

proptest! {
    #![proptest_config(by_chance(256))]

    #[test]
    fn circles_of_uneven_angles_are_those_of_the_normal_equations(
        readings in proptest::collection::vec((0.0..360.0_f64, -0.2..0.2_f64), 4..20),
    ) {
        let typed: Vec<_> = readings
            .iter()
            .map(|(deg, mm)| (Angle::from_deg(*deg), Length::from_mm(*mm)))
            .collect();
        // glam's inverse of the matrix of the normal equations.
        let mut matrix = DMat3::ZERO;
        let mut right = DVec3::ZERO;
        for (deg, mm) in &readings {
            let (sin, cos) = deg.to_radians().sin_cos();
            let row = DVec3::new(1.0, cos, sin);
            matrix += DMat3::from_cols(row, row * cos, row * sin);
            right += row * *mm;
        }
        prop_assume!(matrix.determinant() > 1e-2);
        let wanted = matrix.inverse() * right;
        let circle = FittedCircle::of(&typed).unwrap();
        let out = circle.out_of_centre;
        for (found, wanted) in [
            (circle.mean.mm(), wanted.x),
            (out.cosine.mm(), wanted.y),
            (out.sine.mm(), wanted.z),
        ] {
            prop_assert!(is_near(found, wanted, 1e-9), "{} for {}", found, wanted);
        }
    }

    #[test]
    fn a_unit_on_a_bar_rests_on_it_with_one_roller_at_the_plate(
        unit in believable_unit(),
        bar_mm in 3.0..20.0_f64,
        is_front in any::<bool>(),
    ) {
        let Ok(pose) = unit.solve() else { return Ok(()) };
        let down = if is_front { RollerDown::Front } else { RollerDown::Rear };
        let resting = Point::new(0.0, pose.height_of_cut.mm() - 1.0);
        let Some(on_bar) = OnBar::of(&pose, resting, Length::from_mm(bar_mm), down) else {
            return Ok(());
        };
        prop_assert!(is_near((on_bar.moved * resting).y, bar_mm, 1e-9));
        let roller = if is_front { pose.front_roller } else { pose.rear_roller };
        let bottom = (on_bar.moved * roller.centre).y - roller.radius_mm;
        prop_assert!(is_near(bottom, 0.0, 1e-9), "{}", bottom);
        // The map turns as far as it says, the other way round: nosing down is clockwise.
        let [cos, sin, ..] = on_bar.moved.as_coeffs();
        prop_assert!(is_near(sin.atan2(cos), -on_bar.turned.rad(), 1e-9));
    }
}

const DRAWS: u32 = 100_000;

/// Something drawn evenly within a half-width of a middle.
fn even(rng: &mut TestRng, middle: f64, half_width: f64) -> f64 {
    middle + half_width * (2.0 * rng.random::<f64>() - 1.0)
}

/// The standard deviation of what is drawn.
fn spread(mut draw: impl FnMut() -> f64) -> f64 {
    let (mut sum, mut squares) = (0.0, 0.0);
    for _ in 0..DRAWS {
        let drawn = draw();
        sum += drawn;
        squares += drawn * drawn;
    }
    let count = f64::from(DRAWS);
    ((squares - sum * sum / count) / (count - 1.0)).sqrt()
}

#[test]
fn a_rollers_uncertainty_is_that_of_draws_of_its_readings() {
    let edits = [
        (
            "    reel:",
            "    plate_flat_within: \"0.0004 in\",\n    reel:",
        ),
        (
            "left: \"0.250 in\", right: \"0.250 in\"",
            "left: \"0.250 in ± 0.0002 in\", right: \"0.250 in ± 0.0001 in\"",
        ),
        (
            "left: Gap(\"0.004 in\")",
            "left: Feeler(goes: \"0.004 in\", stops_at: \"0.005 in\"), left_half_turn: Feeler(goes: \"0.005 in\", stops_at: \"0.006 in\")",
        ),
        (
            "right: Gap(\"0.009 in\")",
            "right: Height(\"2.009 in ± 0.0004 in\"), right_diameter: \"2.000 in ± 0.0003 in\"",
        ),
    ];
    let parallel = result(&edits).front.unwrap().parallel.unwrap();
    let mut rng = TestRng::from_seed(RngAlgorithm::XorShift, b"on surface plate");
    let drawn = spread(|| {
        let mut draw = |middle, half_width| even(&mut rng, middle, half_width);
        let left = f64::midpoint(draw(4.5, 0.5), draw(5.5, 0.5)) + draw(0.0, 0.2);
        let right = draw(9.0, 0.4) - draw(0.0, 0.3) + draw(0.0, 0.2);
        let bar = draw(0.0, 0.1) - draw(0.0, 0.2);
        (right - left - bar) / 22.0 * 21.0
    });
    let ours = parallel.expanded.inches() * 1000.0;
    assert!(
        is_near(ours, 2.0 * drawn, 0.01 * ours),
        "{ours}, drawn {}",
        2.0 * drawn
    );
    let shares: f64 = parallel.parts.iter().map(|(_, share)| share).sum();
    assert!(is_near(shares, 1.0, 1e-12), "{parallel:?}");
}

#[test]
fn the_cuts_uncertainty_is_that_of_draws_over_one_bar() {
    let solved = Solved::of(&DemoUnit::GreensWalking.document()).unwrap();
    let bar = (
        "left: \"0.250 in\", right: \"0.250 in\"",
        "left: \"0.250 in ± 0.0003 in\", right: \"0.250 in ± 0.0003 in\"",
    );
    let text = edited(&[
        bar,
        (
            "left: Gap(\"0.004 in\")",
            "left: Gap(\"0.004 in ± 0.0002 in\")",
        ),
        (
            "right: Gap(\"0.009 in\")",
            "right: Gap(\"0.009 in ± 0.0003 in\")",
        ),
    ]);
    let rear = "    rear: (measured_apart: \"20 in\", left: Gap(\"0.004 in ± 0.0005 in\"), right: Gap(\"0.002 in\")),\n)\n";
    let text = text.replace("    ),\n)\n", &format!("    ),\n{rear}"));
    let sheet = read_sheet(&text).unwrap();
    let cut = PlateResult::of(&sheet, Some(&solved)).unwrap().cut.unwrap();
    let mut rng = TestRng::from_seed(RngAlgorithm::XorShift, b"cut from rollers");
    let drawn = spread(|| {
        let mut draw = |half_width| even(&mut rng, 0.0, half_width);
        let bar = draw(0.3) - draw(0.3);
        let front = (draw(0.3) - draw(0.2) - bar) / 22.0;
        let rear = (-draw(0.5) - bar) / 20.0;
        21.0 * (cut.shares.front * front + cut.shares.rear * rear)
    });
    let ours = cut.expanded.inches() * 1000.0;
    assert!(
        is_near(ours, 2.0 * drawn, 0.01 * ours),
        "{ours}, drawn {}",
        2.0 * drawn
    );
}

// What to know beside the numbers.

/// The readings of a turn, in place of those of the sheet.
fn turn(stations: &[(&str, &[(f64, f64)])]) -> PlateResult {
    let stations = stations.iter().map(|(station, readings)| {
        let readings = readings
            .iter()
            .map(|(deg, thou)| format!("(\"{deg} deg\", \"{thou} thou\")"));
        let readings: Vec<_> = readings.collect();
        format!("(station: {station}, readings: [{}])", readings.join(", "))
    });
    let stations: Vec<_> = stations.collect();
    let begin = SHEET.find("runout: [").unwrap();
    let text = format!(
        "{}runout: [{}]),\n runout_wanted: \"2 thou\", runout_most: \"5 thou\")",
        &SHEET[..begin],
        stations.join(", ")
    );
    let sheet = read_sheet(&text).unwrap_or_else(|problem| panic!("{problem}\n{text}"));
    PlateResult::of(&sheet, None).expect("it was checked")
}

fn told_of_front(result: &PlateResult) -> String {
    let rows = result.roller_rows(Roller::Front, System::InchDecimal);
    let lines = rows.iter().map(|row| format!("{} {}", row.name, row.told));
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn a_runout_is_judged_by_the_larger_of_what_was_read_and_of_the_circle() {
    // By hand: 1.7, 1.7, 0, 0 thou at 45°, 135°, 225°, 315° is a sine of 0.85/sin 45°, 1.202 thou, so that
    // a whole turn reads 2.404 thou.
    let four = [(45.0, 1.7), (135.0, 1.7), (225.0, 0.0), (315.0, 0.0)];
    let result = turn(&[("Left", &four)]);
    let station = result.front.as_ref().unwrap().runout[0];
    let thou = |length: Length| length.inches() * 1000.0;
    assert!(is_near(thou(station.circle.read), 1.7, 1e-9));
    assert!(is_near(thou(station.judged()), 2.404_163, 1e-6));
    assert_eq!(station.level, Some(Level::Watch));
    let told = told_of_front(&result);
    assert!(
        told.contains("watch by the circle fitted: 0.0017 in read, 0.0024 in"),
        "{told}"
    );
    // A dent reads more than the circle through it.
    let dent = [
        (0.0, 0.0),
        (90.0, 0.0),
        (180.0, 6.0),
        (270.0, 0.0),
        (45.0, 0.0),
        (135.0, 0.0),
    ];
    let result = turn(&[("Left", &dent)]);
    assert_eq!(
        result.front.as_ref().unwrap().runout[0].level,
        Some(Level::Over)
    );
    let told = told_of_front(&result);
    assert!(told.contains("over limit: 0.0060 in read"), "{told}");
}

#[test]
fn a_turn_read_on_one_side_alone_is_never_fine() {
    let one_side = [(0.0, 0.0), (3.0, 0.1), (60.0, 1.5)];
    let result = turn(&[("Middle", &one_side)]);
    assert_eq!(result.front.as_ref().unwrap().runout[0].level, None);
    let told = told_of_front(&result);
    assert!(
        told.contains(
            "Runout, middle: more than half of the turn was not read. Read it all the way round."
        ),
        "{told}"
    );
    // Nor is it judged by a circle that is a guess.
    let station = result.front.as_ref().unwrap().runout[0];
    assert!(!station.is_judged_by_fit());
    assert_eq!(station.judged(), station.circle.read);
    // What was read there and is too much is too much.
    let result = turn(&[("Middle", &[(0.0, 0.0), (3.0, 0.1), (60.0, 7.0)])]);
    assert_eq!(
        result.front.as_ref().unwrap().runout[0].level,
        Some(Level::Over)
    );
    // Half a turn between two is a turn read all round.
    let half = [(0.0, 0.0), (90.0, 0.5), (180.0, 1.0)];
    let result = turn(&[("Middle", &half)]);
    assert_eq!(
        result.front.as_ref().unwrap().runout[0].level,
        Some(Level::Fine)
    );
}

#[test]
fn readings_that_contradict_each_other_are_told_beside_the_numbers() {
    let turns: [(&str, &[(f64, f64)]); 2] = [
        ("Left", &[(0.0, 0.0), (120.0, 1.0), (240.0, 2.0)]),
        ("Left", &[(0.0, 0.0), (120.0, 5.0), (240.0, 2.0)]),
    ];
    let told = told_of_front(&turn(&turns));
    assert!(told.contains("Two turns were read at the left"), "{told}");
    let limits = [(
        "cut_width: \"21 in\",",
        "cut_width: \"21 in\", runout_wanted: \"6 thou\", runout_most: \"5 thou\",",
    )];
    let told = told_of_front(&result(&limits));
    assert!(
        told.contains("is more than the most there may be, 0.0050 in"),
        "{told}"
    );
    // The bar's own difference over 21 in is taken out of readings 14 in apart: 3 thou · (21/14 − 1).
    let bar = [
        ("right: \"0.250 in\"", "right: \"0.253 in\""),
        ("measured_apart: \"22 in\"", "measured_apart: \"14 in\""),
    ];
    let said =
        "The bar's ends differ by 0.0030 in: measure the roller over the same width as the bar";
    let told = told_of_front(&result(&bar));
    assert!(told.contains(said), "{told}");
    // Over nearly the same width it does not matter: 3 thou · (1 − 21/22) is 0.14 thou of 2.
    let told = told_of_front(&result(&bar[..1]));
    assert!(!told.contains("The bar's ends differ"), "{told}");
}

#[test]
fn a_place_that_is_read_twice_counts_twice() {
    // By hand: the sines of the places are 0, 1, 1, 0, -1, -1 and the readings are just those, so that the
    // sine part is one and the mean none.
    let twice = [
        (0.0, 0.0),
        (90.0, 1.0),
        (90.0, 1.0),
        (180.0, 0.0),
        (270.0, -1.0),
        (270.0, -1.0),
    ];
    let result = turn(&[("Left", &twice)]);
    let circle = result.front.unwrap().runout[0].circle;
    let thou = |length: Length| length.inches() * 1000.0;
    assert!(is_near(thou(circle.out_of_centre.sine), 1.0, 1e-9));
    // Two that differ count with their mean.
    let apart = [
        (0.0, 0.0),
        (90.0, 0.5),
        (90.0, 1.5),
        (180.0, 0.0),
        (270.0, -1.0),
        (270.0, -1.0),
    ];
    let result = turn(&[("Left", &apart)]);
    let circle = result.front.unwrap().runout[0].circle;
    assert!(is_near(thou(circle.out_of_centre.sine), 1.0, 1e-9));
    assert!(is_near(thou(circle.left_over), 1.0, 1e-9));
}

#[test]
fn a_roller_whose_ends_are_to_be_read_again_is_told_neither_to_move_nor_to_stay() {
    let again = [
        (
            "cut_width: \"21 in\",",
            "cut_width: \"21 in\", again: [FrontEnds],",
        ),
        ("right: Gap(\"0.009 in\")", "right: Gap(\"0.0042 in\")"),
    ];
    let result = result(&again);
    let told = told_of_front(&result);
    assert!(told.contains("read both ends again first"), "{told}");
    assert!(!told.contains("leave it"), "{told}");
    let state = |step| result.state_of(step).words();
    assert_eq!(state(Step::FrontAdjuster), "to do");
    assert_eq!(state(Step::FrontEnds), "again");
}

#[test]
fn a_pass_by_readings_without_their_plus_minus_is_one_for_programs_and_undecided_to_read() {
    let gaps = [
        ("left: Gap(\"0.004 in\")", "left: Gap(\"0.0042 in\")"),
        ("right: Gap(\"0.009 in\")", "right: Gap(\"0.0045 in\")"),
    ];
    assert_eq!(json(&gaps)["front"]["verdict"], "pass");
    let result = result(&gaps);
    let told = told_of_front(&result);
    assert!(told.contains("undecided"), "{told}");
    assert!(told.contains("± not entered"), "{told}");
    assert_eq!(result.level_of(Step::FrontEnds), Level::Watch);
}

#[test]
fn a_reel_that_nobody_read_is_null() {
    let reel = "    reel: (left: \"4.961 in\", middle: \"4.962 in\", right: \"4.960 in\"),\n";
    assert!(json(&[(reel, "")])["reel"].is_null());
    let one = "    reel: (left: \"4.961 in\"),\n";
    assert!(json(&[(reel, one)])["reel"]["taper_mm"].is_null());
}

// Wrong sheets.

/// What is written in place of what, the field that is told, and what is said of it.
const WRONG: [(&str, &str, &str, &str); 27] = [
    (
        "plate_sheet: 1",
        "plate_sheet: 2",
        "plate_sheet",
        "reads and writes plate sheet 1",
    ),
    ("cut_width: \"21 in\",", "", "cut_width", "is missing"),
    ("\"21 in\"", "\"21\"", "cut_width", "has no unit"),
    ("\"21 in\"", "\"-21 in\"", "cut_width", "more than zero"),
    (
        "\"21 in\"",
        "\"21 in ± 0.1 in\"",
        "cut_width",
        "taken as exact",
    ),
    ("by:", "nobody:", "nobody", "there is no field \"nobody\""),
    ("2026-11-25", "2026-02-30", "date", "like 2026-11-25"),
    ("\"1210\"", "\"many\"", "hours", "a number of hours"),
    (
        "Gap(\"0.004 in\")",
        "Gap(\"-0.004 in\")",
        "front.left",
        "must not be negative",
    ),
    (
        "Gap(\"0.004 in\")",
        "Gap(\"4 gaps\")",
        "front.left",
        "is not a unit",
    ),
    (
        "Gap(\"0.004 in\")",
        "Height(\"2.004 in\")",
        "front.left",
        "the roller's diameter at its left end; add it",
    ),
    (
        "Gap(\"0.004 in\")",
        "Height(\"1.9 in\"), left_diameter: \"2 in\"",
        "front.left",
        "under the plate",
    ),
    (
        "Gap(\"0.004 in\")",
        "Feeler(goes: \"5 thou\", stops_at: \"4 thou\")",
        "front.left.stops_at",
        "the thinner leaf",
    ),
    ("Gap(\"0.004 in\")", "Shim(\"4 thou\")", "front.left", "Gap"),
    (
        "\"22 in\"",
        "\"0 in\"",
        "front.measured_apart",
        "more than zero",
    ),
    (
        "\"1/16 in\"",
        "\"0 in\"",
        "front.adjuster.throw",
        "more than zero",
    ),
    ("adjust: Left", "adjust: Middle", "front.adjust", "Left"),
    (
        "Eccentric(throw: \"1/16 in\", now: \"0 deg\")",
        "Shims([])",
        "front.adjuster",
        "list the sizes",
    ),
    (
        "Eccentric(throw: \"1/16 in\", now: \"0 deg\")",
        "Shims([\"1 thou\", \"x\"])",
        "front.adjuster[1]",
        "write a length",
    ),
    (
        "(\"45 deg\", \"1 thou\"), (\"90 deg\", \"3 thou\"), (\"135 deg\", \"4 thou\"), (\"180 deg\", \"4 thou\"), (\"225 deg\", \"3 thou\"), (\"270 deg\", \"1 thou\"), (\"315 deg\", \"0 thou\")",
        "(\"90 deg\", \"3 thou\"), (\"360 deg\", \"0 thou\")",
        "front.runout[0].readings",
        "2 different angles",
    ),
    (
        "(\"45 deg\", \"1 thou\")",
        "(\"45 deg\", \"1 thumb\")",
        "front.runout[0].readings[1]",
        "is not a unit",
    ),
    (
        "(\"45 deg\", \"1 thou\")",
        "(\"450 deg\", \"1 thou\")",
        "front.runout[0].readings[1]",
        "far too large",
    ),
    (
        "adjuster: Eccentric",
        "adjuster: Eccentrics",
        "front.adjuster",
        "Shims",
    ),
    (
        "cut_width: \"21 in\",",
        "cut_width: \"21 in\", ticked: [Bearing],",
        "ticked[0]",
        "found Bearing; write steps without quotes, [PlateAndBar, Reel, Bearings,",
    ),
    (
        "cut_width: \"21 in\",",
        "cut_width: \"21 in\", again: [Reer],",
        "again[0]",
        "RearEnds",
    ),
    (
        "cut_width: \"21 in\",",
        "cut_width: \"21 in\", knife_to_reel: (left: Gap(\"1 thou\")),",
        "knife_to_reel.left",
        "write Feeler(goes: …, stops_at: …)",
    ),
    (
        "station: Left",
        "station: Far",
        "front.runout[0].station",
        "Middle",
    ),
];

#[test]
fn a_wrong_sheet_is_refused_with_its_place_and_what_would_be_right() {
    for (from, to, field, says) in WRONG {
        let text = edited(&[(from, to)]);
        let Err(problem) = read_sheet(&text) else {
            panic!("{to} is taken");
        };
        assert!(problem.field.starts_with(field), "{to}: {problem}");
        assert!(problem.what.contains(says), "{to}: {problem}");
        let line = text
            .lines()
            .nth(problem.line - 1)
            .expect("the line is there");
        assert!(
            line.chars().count() + 1 >= problem.column,
            "{to}: {problem}"
        );
    }
    for text in [
        "",
        "hello",
        "[1]",
        "(plate_sheet: 1",
        "(format: 1, name: \"a\")",
    ] {
        let problem = read_sheet(text).unwrap_err();
        assert!(!problem.what.is_empty(), "{text}");
    }
    let (_folder, file) = shop(&[("\"21 in\"", "\"21 yd\"")]);
    let Run { code, out, err } = ran(program().args(["plate", file.to_str().unwrap()]));
    assert_eq!((code, out.as_str()), (Some(2), ""), "{err}");
    assert!(err.contains("one.plate.ron:5:16: field cut_width"), "{err}");
}

#[test]
fn a_sheet_opens_no_file_but_one_beside_it() {
    let outside = TempDir::new().unwrap();
    let unit = outside.path().join("unit.ron");
    fs::write(&unit, DemoUnit::GreensWalking.text()).unwrap();
    let whole = unit.to_str().unwrap();
    for name in [
        "../unit.ron",
        "..",
        ".",
        "./walking-greens.ron",
        "a/b.ron",
        "a\\\\b.ron",
        "c:x.ron",
        whole,
    ] {
        let edit = format!("unit: \"{name}\"");
        let problem = read_sheet(&edited(&[("unit: \"\"", &edit)])).unwrap_err();
        assert_eq!(
            (problem.line, problem.field.as_str()),
            (3, "unit"),
            "{name}"
        );
        assert!(
            problem.what.contains("in the sheet's own folder"),
            "{problem}"
        );
    }
    let (folder, file) = shop(&[("unit: \"\"", "unit: \"gone.ron\"")]);
    let Run { code, err, .. } = ran(program().args(["plate", file.to_str().unwrap()]));
    assert_eq!(code, Some(2), "{err}");
    assert!(err.contains("gone.ron: cannot be read"), "{err}");
    // A unit that cannot exist has a code of its own, as for the report.
    let impossible = DemoUnit::GreensWalking
        .text()
        .replace("\"0.15 in ± 0.02 in\"", "\"3 in\"");
    fs::write(folder.path().join("gone.ron"), impossible).unwrap();
    let Run { code, out, err } = ran(program().args(["plate", file.to_str().unwrap(), "--json"]));
    assert_eq!((code, out.as_str()), (Some(3), ""), "{err}");
}

#[test]
fn a_damaged_sheet_is_taken_or_refused_in_words() {
    let whole = fs::read_to_string(demo_shop().join("greens-1.plate.ron")).unwrap();
    let mut rng = TestRng::from_seed(RngAlgorithm::XorShift, b"damaged sheets..");
    let letters: Vec<char> = whole.chars().collect();
    for _ in 0..400 {
        let mut text = letters.clone();
        for _ in 0..rng.random_range(1..4) {
            let at = rng.random_range(0..text.len());
            match rng.random_range(0..3) {
                0 => drop(text.remove(at)),
                1 => text.insert(at, letters[rng.random_range(0..letters.len())]),
                _ => text.truncate(at.max(1)),
            }
        }
        let text: String = text.into_iter().collect();
        match read_sheet(&text) {
            Ok(sheet) => {
                PlateResult::of(&sheet, None).expect("it was checked");
                let written = write_sheet(&sheet).text;
                assert_eq!(read_sheet(&written), Ok(sheet), "{text}");
            }
            Err(problem) => {
                assert!(
                    problem.line >= 1 && problem.line <= text.split('\n').count(),
                    "{problem}"
                );
                assert!(
                    !problem.what.is_empty() && !problem.field.is_empty(),
                    "{problem}"
                );
            }
        }
    }
}

#[test]
fn a_saved_sheet_keeps_its_remarks_and_changes_what_changed() {
    let (folder, file) = shop(&[]);
    let mut sheet = open_sheet(&file).unwrap();
    sheet.notes = "a \"note\"".to_owned();
    let saved = save_sheet(&sheet, &file).unwrap();
    assert_eq!(saved.remarks, Remarks::InPlace);
    let text = fs::read_to_string(&file).unwrap();
    assert_eq!(
        text,
        edited(&[("notes: \"\"", "notes: \"a \\\"note\\\"\"")])
    );
    let mut anew = sheet.clone();
    anew.as_read = sweepgauge::unit::AsRead::default();
    let other = folder.path().join("other.plate.ron");
    save_sheet(&anew, &other).unwrap();
    assert_eq!(open_sheet(&other).unwrap(), sheet);
    anew.cut_width = Quantity::default();
    let problem = save_sheet(&anew, &other).unwrap_err().to_string();
    assert!(
        problem.contains("cut_width") && problem.contains("unchanged"),
        "{problem}"
    );
    assert_eq!(open_sheet(&other).unwrap(), sheet);
}

// Records.

fn entry(date: &str) -> Entry {
    Entry {
        date: date.to_owned(),
        what: "reel ground".to_owned(),
        reel_diameter: Quantity::parse("4.95 in ± 0.003 in").ok(),
        ..Entry::default()
    }
}

#[test]
fn a_record_torn_anywhere_gives_every_whole_entry_and_takes_another() {
    let folder = TempDir::new().unwrap();
    let unit = folder.path().join("greens.ron");
    for day in ["2026-11-23", "2026-11-24"] {
        let file = add_entry(&unit, &entry(day)).unwrap();
        assert_eq!(file, record_beside(&unit));
    }
    let file = record_beside(&unit);
    let whole = fs::read(&file).unwrap();
    let line_ends: Vec<_> = whole
        .iter()
        .enumerate()
        .filter(|(_, b)| **b == b'\n')
        .collect();
    for length in 0..whole.len() {
        fs::write(&file, &whole[..length]).unwrap();
        // An entry is whole without the end of its line.
        let whole_lines = line_ends.iter().filter(|(at, _)| *at <= length).count();
        let entries = whole_lines.saturating_sub(1);
        if whole_lines > 0 {
            let record = open_record(&file).unwrap();
            assert_eq!(record.entries.len(), entries, "{length}");
            assert!(record.damaged.len() <= 1, "{record:?}");
            add_entry(&unit, &entry("2026-11-25")).unwrap();
            let added = open_record(&file).unwrap();
            assert_eq!(added.entries.len(), entries + 1, "{length}");
            assert_eq!(added.last_day().unwrap().to_string(), "2026-11-25");
            assert!(fs::read(&file).unwrap().starts_with(&whole[..length]));
        }
    }
}

#[test]
fn units_whose_names_are_alike_up_to_a_point_keep_records_of_their_own() {
    let beside = |name: &str| {
        let record = record_beside(Path::new("shop").join(name).as_path());
        record.to_str().expect("plain letters").to_owned()
    };
    assert_eq!(beside("green 3.5.ron"), "shop/green 3.5.record.ron");
    assert_eq!(beside("green 3.5"), "shop/green 3.5.record.ron");
    assert_eq!(beside("green 3.6"), "shop/green 3.6.record.ron");
    assert_eq!(beside("greens.ron"), "shop/greens.record.ron");
}

#[test]
fn an_entry_goes_into_no_file_that_is_no_record_and_wrong_ones_go_nowhere() {
    let folder = TempDir::new().unwrap();
    let unit = folder.path().join("greens.ron");
    let file = record_beside(&unit);
    fs::write(&file, "a letter\n").unwrap();
    let problem = add_entry(&unit, &entry("2026-11-25"))
        .unwrap_err()
        .to_string();
    assert!(problem.contains("greens.record.ron:1:1"), "{problem}");
    assert_eq!(fs::read_to_string(&file).unwrap(), "a letter\n");
    fs::remove_file(&file).unwrap();
    let problem = add_entry(&unit, &entry("yesterday"))
        .unwrap_err()
        .to_string();
    assert!(
        problem.contains("date: \"yesterday\" is not a date"),
        "{problem}"
    );
    assert!(!file.exists());
    fs::create_dir(&file).unwrap();
    assert!(add_entry(&unit, &entry("2026-11-25")).is_err());
    let newer = read_record("(record:2)\n(date:\"2026-11-25\")\n").unwrap_err();
    assert!(newer.what.contains("reads and writes record 1"), "{newer}");
}

/// Tells the second run of the test below where the unit is.
#[cfg(target_os = "linux")]
const FULL_DISK: &str = "SWEEPGAUGE_TEST_FULL_DISK_RECORD";

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_leaves_a_record_as_it_was() {
    // This test runs itself again where no file can grow past a kilobyte.
    if let Some(unit) = std::env::var_os(FULL_DISK) {
        let unit = Path::new(&unit);
        let mut count = 0;
        let problem = loop {
            let before = fs::read(record_beside(unit)).unwrap_or_default();
            match add_entry(unit, &entry("2026-11-25")) {
                Ok(_) => count += 1,
                Err(problem) => {
                    assert_eq!(fs::read(record_beside(unit)).unwrap(), before);
                    break problem.to_string();
                }
            }
            assert!(count < 100, "the disk is not full");
        };
        assert!(problem.contains("no room left"), "{problem}");
        let record = open_record(&record_beside(unit)).unwrap();
        assert!(record.entries.len() == count && count > 3 && record.damaged.is_empty());
        return;
    }
    let folder = TempDir::new().unwrap();
    let ran = Command::new("sh")
        .args([
            "-c",
            "trap '' XFSZ; ulimit -f 1; exec \"$0\" --exact \"$1\"",
        ])
        .arg(std::env::current_exe().unwrap())
        .arg("plate::a_full_disk_leaves_a_record_as_it_was")
        .env(FULL_DISK, folder.path().join("greens.ron"))
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&ran.stdout);
    assert!(ran.status.success() && said.contains("1 passed"), "{said}");
}

// The demo folder.

fn demo_shop() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/example-ground")
}

#[test]
fn the_demo_sheets_show_what_their_remarks_say() {
    let worked_out = |name: &str| {
        let file = demo_shop().join(format!("{name}.plate.ron"));
        let sheet = open_sheet(&file).unwrap();
        let unit = open_unit(&file.with_file_name(&sheet.unit)).unwrap();
        let solved = Solved::of(&unit).unwrap();
        (PlateResult::of(&sheet, Some(&solved)).unwrap(), solved)
    };
    let (greens, _) = worked_out("greens-1");
    let front = greens.front.unwrap().parallel.unwrap();
    assert_eq!(
        (front.verdict, front.high),
        (Some(Verdict::Fail), HighEnd::Right)
    );
    assert!(
        greens
            .order
            .iter()
            .any(|(_, state)| state.words() == "again")
    );
    let (gang, solved) = worked_out("gang-2");
    for roller in [gang.front, gang.rear] {
        assert_eq!(
            roller.unwrap().parallel.unwrap().verdict,
            Some(Verdict::Pass)
        );
    }
    assert!(
        gang.order.iter().all(|(_, state)| state.words() == "done"),
        "{:?}",
        gang.order
    );
    assert_eq!(gang.cut.unwrap().agrees(), Some(true));
    let choices = bar_choices(&solved, &BARS);
    let best = recommended(&choices).unwrap();
    assert!(
        choices
            .iter()
            .all(|choice| choice.furthest() >= best.furthest())
    );
}
