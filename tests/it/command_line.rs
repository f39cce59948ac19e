//! The command line: numbers, findings, what-ifs, exit codes and pictures, from the program as run.

use std::collections::BTreeSet;
use std::f64::consts::FRAC_PI_2;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use resvg::usvg;
use serde_json::Value;
use sweepgauge::analysis::{CAUTION, CAUTION_IN_SHORT};
use sweepgauge::drawing::fonts;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::example::{EXAMPLE, example};
use crate::common::program::{Run, program, ran};

/// Millimetres in an inch, by definition.
const INCH: f64 = 25.4;

// Running the program.

fn report(file: &Path, rest: &[&str]) -> Run {
    ran(program().arg("report").arg(file).args(rest))
}

fn done(run: Run) -> String {
    assert_eq!(run.code, Some(0), "{}", run.err);
    // What cannot be true is told beside the numbers; nothing else is.
    let is_note = |line: &str| line.contains(": note: field ");
    assert!(run.err.lines().all(is_note), "{}", run.err);
    run.out
}

/// The numbers of a unit with some what-ifs.
fn numbers(file: &Path, what_if: &[&str]) -> Value {
    let arguments = [&["--json"], what_if].concat();
    let text = done(report(file, &arguments));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{error} in {text}"))
}

/// A run that was refused: nothing on standard output, the reason on standard error.
#[track_caller]
fn refused(run: &Run, code: i32, says: &[&str]) {
    assert_eq!(run.code, Some(code), "{run:?}");
    assert_eq!(run.out, "");
    assert!(!run.err.contains("panicked"), "{}", run.err);
    for word in says {
        assert!(run.err.contains(word), "{word} in {}", run.err);
    }
}

/// A folder of unit files that goes when the test does.
struct Shop(TempDir);

impl Shop {
    fn new() -> Self {
        Self(TempDir::new().unwrap())
    }

    fn file(&self, name: &str, text: &str) -> PathBuf {
        let path = self.path(name);
        fs::write(&path, text).unwrap();
        path
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn example(&self, edits: &[(&str, &str)]) -> PathBuf {
        self.file("unit.ron", &example(edits))
    }
}

// Reading a report.

fn number(report: &Value, place: &str) -> f64 {
    report
        .pointer(place)
        .and_then(Value::as_f64)
        .unwrap_or_else(|| panic!("no number at {place} of {report}"))
}

#[track_caller]
fn near(what: &str, got: f64, wanted: f64, tolerance: f64) {
    assert!(
        (got - wanted).abs() <= tolerance,
        "{what}: got {got}, wanted {wanted}"
    );
}

/// Full precision: no more than rounding apart.
#[track_caller]
fn exact(report: &Value, place: &str, wanted: f64) {
    near(
        place,
        number(report, place),
        wanted,
        1e-10 * wanted.abs().max(1.0),
    );
}

fn finding<'a>(report: &'a Value, id: &str) -> Option<(&'a str, &'a str)> {
    let findings = report["findings"].as_array().unwrap();
    let found = findings.iter().find(|finding| finding["id"] == id)?;
    Some((
        found["level"].as_str().unwrap(),
        found["text"].as_str().unwrap(),
    ))
}

#[track_caller]
fn text_of<'a>(report: &'a Value, id: &str, level: &str) -> &'a str {
    let (found, text) = finding(report, id).unwrap_or_else(|| panic!("no {id} in {report}"));
    assert_eq!(found, level, "{id}: {text}");
    text
}

/// The first number after some words.
#[track_caller]
fn number_after(text: &str, words: &str) -> f64 {
    let (_, rest) = text
        .split_once(words)
        .unwrap_or_else(|| panic!("no \"{words}\" in \"{text}\""));
    let start = rest
        .find(|c: char| c.is_ascii_digit() || c == '-')
        .unwrap_or_else(|| panic!("no number after \"{words}\" in \"{text}\""));
    let rest = &rest[start..];
    let end = rest
        .char_indices()
        .find(|&(at, c)| !(c.is_ascii_digit() || c == '.' || at == 0 && c == '-'))
        .map_or(rest.len(), |(at, _)| at);
    rest[..end].trim_end_matches('.').parse().unwrap()
}

// Our model, a second time: plane geometry with plain pairs, in millimetres and radians.

type Pair = (f64, f64);

fn minus(a: Pair, b: Pair) -> Pair {
    (a.0 - b.0, a.1 - b.1)
}

fn plus(a: Pair, b: Pair, times: f64) -> Pair {
    (a.0 + times * b.0, a.1 + times * b.1)
}

fn dot(a: Pair, b: Pair) -> f64 {
    a.0 * b.0 + a.1 * b.1
}

fn long(a: Pair) -> f64 {
    a.0.hypot(a.1)
}

/// The example's bench.
mod bench {
    use super::INCH;

    pub const REEL_RADIUS: f64 = 3.45 * INCH;
    pub const HEIGHT: f64 = 0.5 * INCH;
    pub const ATTITUDE_DEG: f64 = 4.0;
    pub const BEHIND: f64 = 0.3 * INCH;
    pub const FRONT_RADIUS: f64 = 1.5 * INCH;
    pub const FRONT_AHEAD: f64 = 5.5 * INCH;
    pub const REAR_RADIUS: f64 = 1.25 * INCH;
    pub const REAR_BEHIND: f64 = 3.25 * INCH;
    pub const HARDWARE: (f64, f64) = (1.5 * INCH, 0.3 * INCH);
}

/// How the example is set.
#[derive(Clone, Copy)]
struct Tried {
    reel_radius: f64,
    gap: f64,
    /// The total extension.
    extension: f64,
    top_ground: f64,
    face_ground: f64,
    width: f64,
    stance: Stance,
}

#[derive(Clone, Copy)]
enum Stance {
    Wanted { attitude_deg: f64, height: f64 },
    Rollers { front: f64, rear: f64 },
}

const AS_ON_BENCH: Tried = Tried {
    reel_radius: bench::REEL_RADIUS,
    gap: 0.0,
    extension: 0.0,
    top_ground: 0.0,
    face_ground: 0.0,
    width: 2.5 * INCH,
    stance: Stance::Wanted {
        attitude_deg: bench::ATTITUDE_DEG,
        height: bench::HEIGHT,
    },
};

/// What the model gives.
struct Model {
    height: f64,
    attitude_deg: f64,
    behind: f64,
    centre_above_edge: f64,
    reel_radius: f64,
    underside: f64,
    front_move: f64,
    rear_move: f64,
    /// Edge, reel centre, front roller centre, rear roller centre, on the plate.
    places: [Pair; 4],
}

impl Model {
    /// The example with a setting; its reel slides along the bench line.
    fn of(tried: Tried) -> Self {
        let bench_attitude = bench::ATTITUDE_DEG.to_radians();
        let (sin, cos) = bench_attitude.sin_cos();
        let (back, down) = ((-cos, sin), (-sin, -cos));
        let bench_edge = (0.0, bench::HEIGHT);
        let risen = (bench::REEL_RADIUS.powi(2) - bench::BEHIND.powi(2)).sqrt();
        let bench_centre = (bench::BEHIND, bench::HEIGHT + risen);
        let edge_on_bar = (tried.face_ground - tried.extension, tried.top_ground);
        let edge = plus(plus(bench_edge, back, edge_on_bar.0), down, edge_on_bar.1);

        // |C₀ + t·u − K| = R + g, the smaller travel of the two.
        let line = minus(bench_centre, bench_edge);
        let along = (line.0 / long(line), line.1 / long(line));
        let from_edge = minus(bench_centre, edge);
        let half = dot(from_edge, along);
        let reach = tried.reel_radius + tried.gap;
        let root = (half.powi(2) - dot(from_edge, from_edge) + reach.powi(2)).sqrt();
        let travel = if (root - half).abs() < (-root - half).abs() {
            root - half
        } else {
            -root - half
        };
        let v = minus(plus(bench_centre, along, travel), edge);

        let front = (bench::FRONT_AHEAD, bench::FRONT_RADIUS);
        let rear = (-bench::REAR_BEHIND, bench::REAR_RADIUS);
        let (turn, height) = match tried.stance {
            Stance::Wanted {
                attitude_deg,
                height,
            } => (attitude_deg.to_radians() - bench_attitude, height),
            Stance::Rollers {
                front: front_move,
                rear: rear_move,
            } => {
                let (front, rear) = (
                    plus(front, (0.0, 1.0), front_move),
                    plus(rear, (0.0, 1.0), rear_move),
                );
                let between = minus(front, rear);
                let lean = ((bench::FRONT_RADIUS - bench::REAR_RADIUS) / long(between)).asin();
                let slope = between.1.atan2(between.0) - lean;
                let up = (-slope.sin(), slope.cos());
                (slope, dot(minus(edge, rear), up) + bench::REAR_RADIUS)
            }
        };
        // Nosing down by φ turns the plane clockwise about the edge.
        let (sin, cos) = turn.sin_cos();
        let turned = |v: Pair| (v.0 * cos + v.1 * sin, -v.0 * sin + v.1 * cos);
        let on_plate = |place: Pair| plus((0.0, height), turned(minus(place, edge)), 1.0);
        let moved = |place: Pair, radius: f64| match tried.stance {
            Stance::Wanted { .. } => (radius - on_plate(place).1) / cos,
            Stance::Rollers { front: by, .. } if place == front => by,
            Stance::Rollers { rear: by, .. } => by,
        };
        let front_move = moved(front, bench::FRONT_RADIUS);
        let rear_move = moved(rear, bench::REAR_RADIUS);

        let attitude = bench_attitude + turn;
        let (lip, body) = (0.12 * INCH, 0.25 * INCH);
        let corners = [
            (tried.face_ground, lip),
            (0.5 * INCH, lip),
            (0.5 * INCH, body),
            (tried.width, body),
        ];
        let underside = corners
            .iter()
            .map(|corner| (corner.0 - tried.extension, corner.1))
            .chain([bench::HARDWARE])
            .map(|(behind, below)| {
                height + (behind - edge_on_bar.0) * attitude.sin()
                    - (below - edge_on_bar.1) * attitude.cos()
            })
            .fold(f64::INFINITY, f64::min);
        let (behind, centre_above_edge) = turned(v);
        Self {
            height,
            attitude_deg: attitude.to_degrees(),
            behind,
            centre_above_edge,
            reel_radius: tried.reel_radius,
            underside,
            front_move,
            rear_move,
            places: [
                (0.0, height),
                (behind, height + centre_above_edge),
                on_plate(plus(front, (0.0, 1.0), front_move)),
                on_plate(plus(rear, (0.0, 1.0), rear_move)),
            ],
        }
    }

    fn sweep(&self) -> f64 {
        self.reel_radius - self.centre_above_edge
    }

    /// Where two circles about the roller centres meet, below them or above.
    fn ground_centre(&self, from_front: f64, from_rear: f64, is_below: bool) -> Pair {
        let [.., front, rear] = self.places;
        let between = minus(front, rear);
        let apart = long(between);
        let ahead = (between.0 / apart, between.1 / apart);
        let along = (apart.powi(2) + from_rear.powi(2) - from_front.powi(2)) / (2.0 * apart);
        let aside = (from_rear.powi(2) - along.powi(2)).sqrt();
        let up = (-ahead.1, ahead.0);
        let sign = if is_below { -1.0 } else { 1.0 };
        plus(plus(rear, ahead, along), up, sign * aside)
    }

    #[track_caller]
    fn assert_reported(&self, report: &Value) {
        let chord = 2.0
            * (self.reel_radius.powi(2) - self.centre_above_edge.powi(2))
                .max(0.0)
                .sqrt();
        for (place, wanted) in [
            ("/setting/height_of_cut_mm", self.height),
            ("/setting/attitude_deg", self.attitude_deg),
            ("/solution/behind_centre_mm", self.behind),
            ("/solution/centre_above_edge_mm", self.centre_above_edge),
            (
                "/solution/clip_angle_deg",
                self.behind.atan2(self.centre_above_edge).to_degrees(),
            ),
            ("/solution/sweep_below_cut_mm", self.sweep()),
            ("/solution/sweep_share", self.sweep() / self.height),
            ("/solution/reel_clearance_mm", self.height - self.sweep()),
            ("/solution/underside_clearance_mm", self.underside),
            ("/solution/front_roller_move_mm", self.front_move),
            ("/solution/rear_roller_move_mm", self.rear_move),
        ] {
            exact(report, place, wanted);
        }
        // A root taken near zero doubles what rounding leaves of its square.
        near(
            "chord",
            number(report, "/solution/sweep_chord_mm"),
            chord,
            1e-9,
        );
    }
}

// The numbers report.

fn keys(value: &Value) -> BTreeSet<&str> {
    value
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect()
}

#[track_caller]
fn assert_keys(report: &Value) {
    let of = |names: &[&'static str]| names.iter().copied().collect::<BTreeSet<_>>();
    // Beyond this file format, where a slide's lean is not given and matters.
    let mut found = keys(report);
    found.remove("lean_not_given");
    assert_eq!(
        found,
        of(&[
            "unit", "knife", "setting", "solution", "ground", "mowing", "findings"
        ])
    );
    assert_eq!(
        keys(&report["setting"]),
        of(&[
            "reel_diameter_mm",
            "height_of_cut_mm",
            "attitude_deg",
            "extension_mm",
            "gap_mm"
        ])
    );
    assert_eq!(
        keys(&report["solution"]),
        of(&[
            "behind_centre_mm",
            "centre_above_edge_mm",
            "clip_angle_deg",
            "sweep_below_cut_mm",
            "sweep_share",
            "sweep_chord_mm",
            "reel_clearance_mm",
            "underside_clearance_mm",
            "front_roller_move_mm",
            "rear_roller_move_mm",
            "top_angle_needed_deg",
            "top_face_clearance_deg",
        ])
    );
    assert_eq!(
        keys(&report["ground"]),
        of(&["cut_mm", "reel_clearance_mm", "sweep_mm", "attitude_deg"])
    );
    if !report["mowing"].is_null() {
        assert_eq!(
            keys(&report["mowing"]),
            of(&["clip_length_mm", "clip_to_cut"])
        );
    }
    for finding in report["findings"].as_array().unwrap() {
        assert_eq!(keys(finding), of(&["id", "level", "text"]));
        assert!(["fine", "watch", "over"].contains(&finding["level"].as_str().unwrap()));
    }
}

#[test]
fn the_example_is_reported_as_worked_by_hand() {
    let shop = Shop::new();
    let report = numbers(&shop.example(&[]), &[]);
    assert_keys(&report);
    assert_eq!(report["unit"], "Example Ground, trailed gang, number 3");
    assert_eq!(report["knife"], "plain");
    for (place, wanted) in [
        ("/setting/reel_diameter_mm", 175.26),
        ("/setting/height_of_cut_mm", 12.7),
        ("/setting/attitude_deg", 4.0),
        ("/setting/extension_mm", 0.0),
        ("/setting/gap_mm", 0.0),
        ("/solution/behind_centre_mm", 7.62),
        ("/solution/front_roller_move_mm", 0.0),
        ("/solution/rear_roller_move_mm", 0.0),
        ("/ground/cut_mm", 12.7),
        // 4 mph is 1788.16 mm/s; eight blades at 15 rev/s pass 120 times a second.
        ("/mowing/clip_length_mm", 1788.16 / 120.0),
        ("/mowing/clip_to_cut", 1788.16 / 120.0 / 12.7),
    ] {
        exact(&report, place, wanted);
    }
    // 3.45 - sqrt(3.45² - 0.3²) = 0.013 068 2 in, the handbook's rise over a chord of 0.6 in.
    let sweep = number(&report, "/solution/sweep_below_cut_mm");
    near("sweep", sweep, 0.013_068_2 * INCH, 1e-6);
    near(
        "chord",
        number(&report, "/solution/sweep_chord_mm"),
        0.6 * INCH,
        1e-9,
    );
    // asin(0.3 / 3.45).
    near(
        "clip angle",
        number(&report, "/solution/clip_angle_deg"),
        4.988_54,
        1e-5,
    );
    // The body's front corner: 0.5 + 0.5·sin 4° - 0.25·cos 4° = 0.285 487 2 in.
    let underside = number(&report, "/solution/underside_clearance_mm");
    near("underside", underside, 0.285_487_2 * INCH, 1e-5);
    exact(&report, "/ground/reel_clearance_mm", 12.7 - sweep);
    Model::of(AS_ON_BENCH).assert_reported(&report);
}

#[test]
fn what_is_tried_on_the_example_is_reported_as_the_model_gives_it() {
    let shop = Shop::new();
    let unit = shop.example(&[]);
    let reaching = Tried {
        reel_radius: 3.3 * INCH,
        gap: 0.002 * INCH,
        extension: (0.15 + 0.02) * INCH,
        top_ground: 0.01 * INCH,
        face_ground: 0.03 * INCH,
        width: 2.65 * INCH,
        stance: Stance::Wanted {
            attitude_deg: 6.5,
            height: 0.45 * INCH,
        },
    };
    let metal = [
        "--knife",
        "reaching",
        "--edge-forward",
        "0.02 in",
        "--reel-diameter",
        "6.6 in",
        "--gap",
        "2 thou",
        "--off-top-face",
        "10 thou",
        "--off-front-face",
        "30 thou",
    ];
    let wanted = ["--attitude", "6.5 deg", "--height-of-cut", "0.45 in"];
    let report = numbers(&unit, &[&metal[..], &wanted[..]].concat());
    assert_keys(&report);
    assert_eq!(report["knife"], "reaching");
    exact(&report, "/setting/reel_diameter_mm", 6.6 * INCH);
    exact(&report, "/setting/gap_mm", 0.002 * INCH);
    // The total: 0.15 in from the longer knife, 0.02 in set.
    exact(&report, "/setting/extension_mm", 0.17 * INCH);
    Model::of(reaching).assert_reported(&report);

    let given = ["--front-move", "0.05 in", "--rear-move", "-1/8 in"];
    let report = numbers(&unit, &[&metal[..], &given[..]].concat());
    exact(&report, "/solution/front_roller_move_mm", 0.05 * INCH);
    exact(&report, "/solution/rear_roller_move_mm", -0.125 * INCH);
    Model::of(Tried {
        stance: Stance::Rollers {
            front: 0.05 * INCH,
            rear: -0.125 * INCH,
        },
        ..reaching
    })
    .assert_reported(&report);
}

#[test]
fn given_rollers_report_the_attitude_and_height_that_follow() {
    let shop = Shop::new();
    let unit = shop.example(&[(
        "rollers: None",
        r#"rollers: Some((front_move: "0 mm", rear_move: "-1/8 in"))"#,
    )]);
    let report = numbers(&unit, &[]);
    let model = Model::of(Tried {
        stance: Stance::Rollers {
            front: 0.0,
            rear: -INCH / 8.0,
        },
        ..AS_ON_BENCH
    });
    model.assert_reported(&report);
    // An eighth over the 8.75 in between the rollers is 0.82 degrees of nosing down.
    near(
        "attitude",
        number(&report, "/setting/attitude_deg"),
        4.82,
        0.01,
    );
    exact(&report, "/solution/front_roller_move_mm", 0.0);
    exact(&report, "/solution/rear_roller_move_mm", -3.175);
}

#[test]
fn crest_hollow_and_sink_take_their_share_of_cut_and_clearance() {
    let shop = Shop::new();
    let model = Model::of(AS_ON_BENCH);
    let [edge, centre, ..] = model.places;
    let (front, rear) = (bench::FRONT_RADIUS, bench::REAR_RADIUS);
    let on = |ground: &str| {
        let report = numbers(
            &shop.example(&[(r#"roller_sink: "0 mm", shape: Level"#, ground)]),
            &[],
        );
        // The plate's own numbers know nothing of the ground.
        model.assert_reported(&report);
        report
    };

    let sunk = on(r#"roller_sink: "1.5 mm", shape: Level"#);
    exact(&sunk, "/ground/cut_mm", 12.7 - 1.5);
    exact(
        &sunk,
        "/ground/reel_clearance_mm",
        12.7 - model.sweep() - 1.5,
    );

    let radius = 6000.0;
    // A roller that sinks by 1.5 mm stands on the ground with a radius that is so much smaller.
    let below = model.ground_centre(radius + front - 1.5, radius + rear - 1.5, true);
    let crest = on(r#"roller_sink: "1.5 mm", shape: Crest("6 m")"#);
    let cut = long(minus(edge, below)) - radius;
    let clear = long(minus(centre, below)) - model.reel_radius - radius;
    near(
        "cut over a crest",
        number(&crest, "/ground/cut_mm"),
        cut,
        1e-9,
    );
    near(
        "reel over a crest",
        number(&crest, "/ground/reel_clearance_mm"),
        clear,
        1e-9,
    );
    // Over a chord of some 222 mm a circle of 6 m rises about 1 mm.
    assert!((0.8..1.2).contains(&(12.7 - 1.5 - cut)), "{cut}");

    let above = model.ground_centre(radius - front, radius - rear, false);
    let hollow = on(r#"roller_sink: "0 mm", shape: Hollow("6 m")"#);
    let cut = radius - long(minus(edge, above));
    let clear = radius - model.reel_radius - long(minus(centre, above));
    near(
        "cut in a hollow",
        number(&hollow, "/ground/cut_mm"),
        cut,
        1e-9,
    );
    near(
        "reel in a hollow",
        number(&hollow, "/ground/reel_clearance_mm"),
        clear,
        1e-9,
    );
    assert!(cut > 13.0, "{cut}");
}

#[test]
fn one_roller_given_with_the_height_kept_is_asked_for_and_written_alike() {
    let shop = Shop::new();
    let asked = ["--rear-move", "-1/8 in", "--height-of-cut", "0.5 in"];
    let asked = numbers(&shop.example(&[]), &asked);
    exact(&asked, "/setting/height_of_cut_mm", 12.7);
    exact(&asked, "/solution/rear_roller_move_mm", -INCH / 8.0);
    // Set by the attitude that follows, the same moves come out.
    let attitude = format!("{} deg", number(&asked, "/setting/attitude_deg"));
    let wanted = numbers(&shop.example(&[]), &["--attitude", &attitude]);
    for place in [
        "/solution/front_roller_move_mm",
        "/solution/rear_roller_move_mm",
    ] {
        near(place, number(&wanted, place), number(&asked, place), 1e-9);
    }
    let written = shop.example(&[("rollers: None", r#"rollers: (rear_move: "-1/8 in")"#)]);
    assert_eq!(numbers(&written, &[])["solution"], asked["solution"]);
    let front = numbers(
        &written,
        &["--front-move", "1 mm", "--height-of-cut", "0.6 in"],
    );
    exact(&front, "/solution/front_roller_move_mm", 1.0);
    exact(&front, "/setting/height_of_cut_mm", 0.6 * INCH);
    let higher = numbers(&written, &["--height-of-cut", "0.6 in"]);
    exact(&higher, "/solution/rear_roller_move_mm", -INCH / 8.0);
    exact(&higher, "/setting/height_of_cut_mm", 0.6 * INCH);
    let refusing = ["--rear-move", "5 in", "--height-of-cut", "9 in"];
    refused(
        &report(&written, &refusing),
        3,
        &["cannot stand", "9.000 in"],
    );
}

#[test]
fn grinding_belongs_to_the_knife_that_was_ground() {
    let shop = Shop::new();
    let own = r#"name: "reaching", top_ground: "10 thou", face_ground: "30 thou","#;
    let unit = shop.example(&[(r#"name: "reaching","#, own)]);
    let other = Shop::new();
    let plain = other.example(&[]);
    let fitted = ["--knife", "reaching"];
    let set = [
        "--knife",
        "reaching",
        "--off-top-face",
        "10 thou",
        "--off-front-face",
        "30 thou",
    ];
    assert_eq!(
        numbers(&unit, &fitted)["solution"],
        numbers(&plain, &set)["solution"]
    );
    // The bench knife is not ground, whatever the other was.
    assert_eq!(
        numbers(&unit, &[])["solution"],
        numbers(&plain, &[])["solution"]
    );
    let new = [
        "--knife",
        "reaching",
        "--off-top-face",
        "0 in",
        "--off-front-face",
        "0 in",
    ];
    assert_eq!(
        numbers(&unit, &new)["solution"],
        numbers(&plain, &fitted)["solution"]
    );
}

#[test]
fn a_gap_too_wide_and_a_heel_in_the_reel_are_found() {
    let shop = Shop::new();
    let level = |report: &Value, id: &str| finding(report, id).map(|(level, _)| level.to_owned());
    let unit = shop.example(&[]);
    for (gap, wanted) in [
        ("1 thou", "fine"),
        ("1.5 thou", "watch"),
        ("20 thou", "over"),
    ] {
        let report = numbers(&unit, &["--gap", gap]);
        assert_eq!(level(&report, "gap"), Some(wanted.into()), "{gap}");
        // Without a top angle the finding is fine, and tells what it needs.
        assert_eq!(level(&report, "top_face"), Some("fine".into()));
        assert!(report["solution"]["top_face_clearance_deg"].is_null());
    }
    let relieved = |top: &str| {
        let knife = format!(r#"name: "plain", top_angle: "{top}","#);
        numbers(
            &shop.example(&[(r#"name: "plain","#, &knife)]),
            &["--attitude", "9 deg"],
        )
    };
    let needed = number(&relieved("0 deg"), "/solution/top_angle_needed_deg");
    // Turning the frame does not change it: 4 degrees of attitude less asin(0.3 / 3.45).
    near("needed", needed, 4.0 - 4.988_54, 1e-5);
    for (top, wanted) in [("-1.2 deg", "over"), ("-0.9 deg", "fine")] {
        assert_eq!(
            level(&relieved(top), "top_face"),
            Some(wanted.into()),
            "{top}"
        );
    }
}

#[test]
fn a_reels_diameter_comes_from_tips_tape_and_diameter_tape() {
    let asked = |arguments: &[&str]| ran(program().arg("reel-diameter").args(arguments));
    let diameter_mm = |arguments: &[&str]| {
        let text = done(asked(&[arguments, &["--json"]].concat()));
        let report: Value = serde_json::from_str(&text).unwrap();
        number(&report, "/reel_diameter_mm")
    };
    // Regular polygons in a circle of radius 1, handbook (from memory): a pentagon's diagonal is
    // 1.90211 and its side 1.17557; a hexagon's side is 1.
    near(
        "tips",
        diameter_mm(&["--blades", "5", "--tips", "190.211 mm"]),
        200.0,
        1e-3,
    );
    near(
        "even",
        diameter_mm(&["--blades", "6", "--tips", "200 mm"]),
        200.0,
        1e-9,
    );
    let tape = ["--blades", "5", "--tape", "587.785 mm"];
    near("tape", diameter_mm(&tape), 200.0, 1e-3);
    let thick = [
        "--blades",
        "6",
        "--tape",
        "600.9424777960769 mm",
        "--thickness",
        "0.3 mm",
    ];
    near("thick tape", diameter_mm(&thick), 200.0, 1e-9);
    let shown = ["--blades", "6", "--diameter-tape", "190.98593171027443 mm"];
    near("diameter tape", diameter_mm(&shown), 200.0, 1e-9);
    // Whatever the number of blades: 225 less 25.
    let over_bars = ["--blades", "9", "--over-bars", "225 mm", "--bars", "25 mm"];
    near("bars", diameter_mm(&over_bars), 200.0, 1e-9);
    let told = done(asked(&["--blades", "6", "--tips", "8 in"]));
    assert!(
        told.starts_with("Reel diameter: 8.000 in, ± not entered\n"),
        "{told}"
    );
    let told = done(asked(&["--blades", "6", "--tips", "8 in ± 0.01 in"]));
    // One evenly spread reading: 95.45 % of a bound of ten thou.
    assert!(
        told.starts_with("Reel diameter: 8.000 in ± 0.0095 in (95 %)\n\n"),
        "{told}"
    );
    for (arguments, says) in [
        (&["--blades", "8"][..], "--tips"),
        (&["--blades", "1", "--tips", "5 in"], "two blades or more"),
        (&["--blades", "8", "--tips", "0 in"], "more than zero"),
        (&["--blades", "8", "--over-bars", "9 in"], "--bars"),
        (&["--blades", "8", "--bars", "1 in"], "--over-bars"),
        (
            &["--blades", "8", "--over-bars", "1 in", "--bars", "1 in"],
            "leave no reel",
        ),
        (
            &["--blades", "8", "--over-bars", "9 in", "--bars", "0 in"],
            "more than zero",
        ),
        (
            &["--blades", "8", "--tips", "5 in", "--tape", "9 in"],
            "cannot be used with",
        ),
        (
            &["--blades", "8", "--tips", "5 in", "--thickness", "1 mm"],
            "cannot be used with",
        ),
        (
            &["--blades", "8", "--tape", "1 in", "--thickness", "1 in"],
            "cannot go round",
        ),
    ] {
        refused(&asked(arguments), 2, &[says]);
    }
}

#[test]
fn a_knife_that_moves_says_what_it_does_to_the_height_of_cut() {
    let shop = Shop::new();
    let told = |closing: &str| {
        let unit = shop.example(&[("closing: ReelSlides(lean: None)", closing)]);
        done(report(&unit, &["--reel-diameter", "6.7 in"]))
    };
    let says = "The reel-to-knife adjustment moves the knife and lifts its edge by";
    assert!(!told("closing: ReelSlides(lean: None)").contains(says));
    // Upright, the edge rises as the reel wears by half of what it lost, and a little more.
    let slides = told("closing: KnifeSlides(lean: \"0 deg\")");
    assert!(slides.contains(&format!("{says} 0.100 in:")), "{slides}");
    assert!(!slides.contains("attitude."), "{slides}");
}

#[test]
fn without_speeds_there_is_no_clip_length() {
    let shop = Shop::new();
    let unit = shop.example(&[(
        r#"Some((ground_speed: "4 mph", reel_speed: "900 rpm"))"#,
        "None",
    )]);
    let report = numbers(&unit, &[]);
    assert_keys(&report);
    assert!(report["mowing"].is_null());
    assert_eq!(finding(&report, "clip"), None);
    assert!(!done(self::report(&unit, &[])).contains("Clip length"));
}

#[test]
fn an_edge_below_the_plate_has_no_share_and_no_clip_ratio() {
    let shop = Shop::new();
    let unit = shop.example(&[]);
    let report = numbers(&unit, &["--front-move", "0.6 in", "--rear-move", "0.6 in"]);
    assert_keys(&report);
    // Both rollers up by 0.6 in take as much of half an inch.
    exact(&report, "/setting/height_of_cut_mm", -0.1 * INCH);
    assert!(report["solution"]["sweep_share"].is_null());
    assert!(report["mowing"]["clip_to_cut"].is_null());
}

#[test]
fn every_demo_unit_reports_both_ways() {
    for file in DemoUnit::files() {
        let report = numbers(&file, &[]);
        assert_keys(&report);
        let table = done(self::report(&file, &[]));
        for text in [&report["unit"], &report["knife"]] {
            assert!(table.contains(text.as_str().unwrap()), "{table}");
        }
        for finding in report["findings"].as_array().unwrap() {
            let text = finding["text"].as_str().unwrap();
            let word = word_of(finding["level"].as_str().unwrap());
            let undecided = format!("undecided: reads {word}  ");
            let is_told = table.lines().any(|line| {
                let begins = if text.contains("Undecided: ") {
                    &undecided
                } else {
                    word
                };
                line.ends_with(text) && line.trim_start().starts_with(begins)
            });
            assert!(is_told, "{text} in {table}");
            assert!(!text.contains("{}") && !text.contains("NaN"), "{text}");
        }
        for caution in CAUTION {
            assert!(table.contains(caution), "{caution} in {table}");
        }
    }
}

/// The word for a level that programs are told.
fn word_of(level: &str) -> &'static str {
    match level {
        "fine" => "OK",
        "watch" => "watch",
        "over" => "over limit",
        _ => panic!("no level {level}"),
    }
}

/// Whether a number with this unit stands in a text.
fn has_unit(text: &str, unit: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.windows(2).any(|pair| {
        pair[0].ends_with(|c: char| c.is_ascii_digit())
            && pair[1].trim_end_matches([',', '.', ';', ':', ')']) == unit
    })
}

#[test]
fn the_plain_report_is_in_the_units_of_the_file() {
    let metric = done(report(&DemoUnit::SportsMetric.file(), &[]));
    assert!(
        has_unit(&metric, "mm") && has_unit(&metric, "km/h"),
        "{metric}"
    );
    for unit in ["in", "thou", "mph"] {
        assert!(!has_unit(&metric, unit), "{unit} in {metric}");
    }
    let fractions = done(report(&DemoUnit::RollersGiven.file(), &[]));
    assert!(fractions.contains("lower 1/8 in"), "{fractions}");
    let decimal = done(report(&DemoUnit::FairwayTrailed.file(), &[]));
    assert!(decimal.contains("0.500 in"), "{decimal}");
    for inches in [fractions, decimal] {
        assert!(
            has_unit(&inches, "in") && has_unit(&inches, "mph"),
            "{inches}"
        );
        assert!(
            !has_unit(&inches, "mm") && !has_unit(&inches, "km/h"),
            "{inches}"
        );
    }
}

// Findings.

#[test]
fn three_eighths_behind_is_tolerable_on_a_fairway_reel_at_half_an_inch() {
    // Common practice, no source. 3.5 - sqrt(3.5² - 0.375²) = 0.020 147 in, 4.03 % of half an inch.
    let shop = Shop::new();
    let unit = shop.example(&[
        (r#""6.9 in""#, r#""7 in""#),
        (BEHIND, r#"behind_centre: "3/8 in""#),
    ]);
    let report = numbers(&unit, &[]);
    near(
        "share",
        number(&report, "/solution/sweep_share"),
        0.040_295,
        5e-7,
    );
    let (level, text) = finding(&report, "sweep").unwrap();
    assert_ne!(level, "over", "{text}");
}

#[test]
fn three_eighths_behind_scalps_on_a_greens_reel_at_an_eighth() {
    // Common practice, no source. 2.5 - sqrt(2.5² - 0.375²) = 0.028 285 in, 22.6 % of an eighth.
    let shop = Shop::new();
    let unit = shop.example(&[
        ("turf: Fairway", "turf: Green"),
        (r#"new_diameter: "7 in""#, r#"new_diameter: "5 in""#),
        (
            r#"smallest_diameter: "6.5 in""#,
            r#"smallest_diameter: "4.6 in""#,
        ),
        (r#""6.9 in""#, r#""5 in""#),
        (r#"height_of_cut: "0.5 in""#, r#"height_of_cut: "0.125 in""#),
        (r#"behind_centre: "0.3 in""#, r#"behind_centre: "3/8 in""#),
    ]);
    let report = numbers(&unit, &[]);
    near(
        "share",
        number(&report, "/solution/sweep_share"),
        0.226_280,
        1e-6,
    );
    text_of(&report, "sweep", "over");
}

/// What is edited in the example, what is asked, and the finding wanted with a word of its text.
type Reached = (
    &'static [(&'static str, &'static str)],
    &'static [&'static str],
    &'static str,
    &'static str,
    &'static str,
);

const BEHIND: &str = r#"behind_centre: "0.3 in""#;
const HARDWARE: &str = r#"below: "0.3 in""#;
const REEL_SPEED: &str = r#"reel_speed: "900 rpm""#;
const LIMITS: &str = "limits: None";
const RANGE: &str = r#"limits: Some((attitude_range: (low: "0 deg", high: "3 deg")))"#;
const SUNK: &str = r#"roller_sink: "12.5 mm""#;
const SINK: &str = r#"roller_sink: "0 mm""#;

#[rustfmt::skip]
const REACHED: [Reached; 34] = [
    // 3.45 - sqrt(3.45² - b²) over half an inch: 2.6 %, 5.9 %, 10.5 %.
    (&[], &[], "sweep", "fine", "2.6 %"),
    (&[(BEHIND, r#"behind_centre: "0.45 in""#)], &[], "sweep", "watch", "5.9 %"),
    (&[(BEHIND, r#"behind_centre: "0.6 in""#)], &[], "sweep", "over", "10.5 %"),
    (&[(BEHIND, r#"behind_centre: "0 in""#)], &["--gap", "0.1 in"], "sweep", "fine", "0.100 in above the cut line"),
    (&[(BEHIND, r#"behind_centre: "0.45 in""#), (LIMITS, r#"limits: Some((sweep_watch: "6 %"))"#)], &[], "sweep", "fine", "watch above 6.0 %"),
    (&[], &[], "ahead", "fine", "0.300 in behind"),
    (&[(BEHIND, r#"behind_centre: "-0.9 mm""#)], &[], "ahead", "watch", "ahead of the reel's centre"),
    (&[(BEHIND, r#"behind_centre: "-1.1 mm""#)], &[], "ahead", "over", "ahead of the reel's centre"),
    (&[], &[], "reel", "fine", "0.487 in"),
    // 3.45 - sqrt(3.45² - 0.9²) = 0.1195 in at a cut of 0.1 in.
    (&[(BEHIND, r#"behind_centre: "0.9 in""#)], &["--height-of-cut", "0.1 in"], "reel", "over", "0.0195 in into the ground"),
    // 12.368 mm of air less 12.5 mm of sink; the edge keeps 0.2 mm.
    (&[(SINK, SUNK)], &[], "reel", "over", "into the ground"),
    (&[(SINK, SUNK)], &[], "cut", "fine", "0.0079 in above the ground"),
    (&[], &["--front-move", "0.6 in", "--rear-move", "0.6 in"], "cut", "over", "0.100 in below the ground"),
    (&[], &["--front-move", "0.49 in", "--rear-move", "0.49 in"], "cut", "fine", "0.0100 in above the ground"),
    (&[], &[], "underside", "fine", "knife's underside clears"),
    // The body's front corner hangs 0.2145 in below the edge.
    (&[], &["--height-of-cut", "0.225 in"], "underside", "watch", "knife's underside clears"),
    (&[], &["--height-of-cut", "0.2 in"], "underside", "over", "knife's underside drags: it reaches 0.0145 in"),
    // Hardware 0.4 in below the datum hangs 0.2944 in below the edge.
    (&[(HARDWARE, r#"below: "0.4 in""#)], &["--height-of-cut", "0.3 in"], "underside", "watch", "hardware under the knife clears"),
    (&[(HARDWARE, r#"below: "0.4 in""#)], &["--height-of-cut", "0.25 in"], "underside", "over", "hardware under the knife drags: it reaches 0.0444 in"),
    (&[(LIMITS, r#"limits: Some((underside: "0.3 in"))"#)], &[], "underside", "watch", "minimum 0.300 in"),
    // The lip's front bottom hangs 0.1197 in below the edge; 0.0591 in is wanted under it.
    (&[], &[], "lip", "fine", "allows 0.441 in"),
    (&[], &["--height-of-cut", "0.13 in"], "lip", "watch", "0.120 in thick"),
    (&[], &["--height-of-cut", "0.11 in"], "lip", "over", "0.120 in thick"),
    (&[], &["--off-top-face", "0.13 in"], "lip", "over", "ground away"),
    (&[], &["--off-front-face", "0.5 in"], "lip", "over", "ground away"),
    (&[], &[], "scrap", "fine", "0.400 in of diameter left"),
    (&[], &["--reel-diameter", "6.5 in"], "scrap", "fine", "minimum (scrap)"),
    (&[], &["--reel-diameter", "6.49 in"], "scrap", "over", "below its minimum diameter (scrap) of 6.500 in"),
    (&[], &["--reel-diameter", "7.01 in"], "scrap", "watch", "larger than a new one"),
    // 1788.16 mm/s over 8 blades and 12.7 mm: 1.06, 1.17 and 1.76 at 1000, 900 and 600 rpm.
    (&[(REEL_SPEED, r#"reel_speed: "1000 rpm""#)], &[], "clip", "fine", "1.06 times"),
    (&[], &[], "clip", "watch", "1.17 times"),
    (&[(REEL_SPEED, r#"reel_speed: "600 rpm""#)], &[], "clip", "over", "1.76 times"),
    (&[(LIMITS, RANGE)], &["--attitude", "3 deg"], "attitude", "fine", "is within"),
    (&[(LIMITS, RANGE)], &[], "attitude", "over", "is outside"),
];

#[test]
fn what_cannot_be_true_is_told_on_standard_error_and_the_numbers_keep_their_shape() {
    let shop = Shop::new();
    let right = shop.example(&[]);
    assert_eq!(report(&right, &["--json"]).err, "");
    for (edit, field, says) in [
        (
            ("reel_diameter: \"6.9 in", "reel_diameter: \"7.9 in"),
            "bench.reel_diameter",
            "a reel only wears",
        ),
        (
            ("height_of_cut: \"0.5 in", "height_of_cut: \"50 in"),
            "bench.height_of_cut",
            "at most",
        ),
        (
            ("width: \"2.5 in", "width: \"1.5 in"),
            "knife.reach",
            "no metal behind the screws",
        ),
    ] {
        let file = shop.example(&[edit]);
        for asked in [&["--json"][..], &[]] {
            let run = report(&file, asked);
            assert_eq!(run.code, Some(0), "{run:?}");
            let note = format!("note: field {field}: ");
            assert_eq!(run.err.matches(&note).count(), 1, "{}", run.err);
            assert!(run.err.contains(says), "{}", run.err);
            assert!(!run.out.contains("note: field"), "{}", run.out);
        }
        let keys = |value: &Value| {
            value
                .as_object()
                .unwrap()
                .keys()
                .cloned()
                .collect::<Vec<_>>()
        };
        assert_eq!(keys(&numbers(&file, &[])), keys(&numbers(&right, &[])));
    }
}

#[test]
fn every_level_of_every_finding_is_reached() {
    let shop = Shop::new();
    let mut reached = BTreeSet::new();
    for (edits, asked, id, level, says) in REACHED {
        let report = numbers(&shop.example(edits), asked);
        let text = text_of(&report, id, level);
        assert!(text.contains(says), "{says} in {text}");
        // What stands beside its limits comes with a way back.
        let has_way_back = [
            "clears it",
            "within its limits",
            "needs a new reel",
            "needs another knife",
            "Measure it again",
        ]
        .iter()
        .any(|way| text.contains(way));
        assert_eq!(has_way_back, level != "fine", "{text}");
        reached.insert((id, level));
    }
    let ids: BTreeSet<_> = reached.iter().map(|(id, _)| *id).collect();
    assert_eq!(ids.len(), 9);
    for id in ids {
        let is_two_sided = ["reel", "cut", "attitude"].contains(&id);
        let wanted: &[_] = if is_two_sided {
            &["fine", "over"]
        } else {
            &["fine", "over", "watch"]
        };
        for level in wanted {
            assert!(reached.contains(&(id, *level)), "{id} {level}");
        }
    }
    // Brackets of which nothing was said allow every attitude.
    assert_eq!(finding(&numbers(&shop.example(&[]), &[]), "attitude"), None);
}

#[test]
fn the_sweeps_remedies_bring_the_share_to_the_watch_limit() {
    let shop = Shop::new();
    let swept = shop.example(&[(BEHIND, r#"behind_centre: "0.6 in""#)]);
    let scalping = DemoUnit::GreensScalping.file();
    let mut far = 0;
    for file in [&swept, &scalping] {
        let before = numbers(file, &[]);
        let text = text_of(&before, "sweep", "over");
        let attitude = format!("{} deg", number_after(text, "an attitude of"));
        let after = numbers(file, &["--attitude", &attitude]);
        // Aimed 3 % inside the limit, so that the digits read off a text keep within it; further
        // where the least attitude that clears the underside lies further.
        let share = number(&after, "/solution/sweep_share");
        if text.contains("least attitude") {
            assert!(share < 0.0485, "{share}");
        } else {
            near("share", share, 0.0485, 1e-3);
        }
        text_of(&after, "sweep", "fine");
        exact(
            &after,
            "/setting/height_of_cut_mm",
            number(&before, "/setting/height_of_cut_mm"),
        );
        for (name, place) in [
            ("front roller", "/solution/front_roller_move_mm"),
            ("rear roller", "/solution/rear_roller_move_mm"),
        ] {
            let size = number_after(text, name) * INCH;
            let is_down = text.contains(&format!("lower the {name}"));
            assert!(
                is_down || text.contains(&format!("raise the {name}")),
                "{text}"
            );
            let told = if is_down { -size } else { size };
            near(
                name,
                number(&after, place) - number(&before, place),
                told,
                0.02,
            );
        }
        // Another height is advised only while it is still the same kind of turf.
        if !text.contains("a height of cut of") {
            far += 1;
            continue;
        }
        let height = format!("{} in", number_after(text, "a height of cut of"));
        let after = numbers(file, &["--height-of-cut", &height]);
        near(
            "share",
            number(&after, "/solution/sweep_share"),
            0.0485,
            1e-3,
        );
        text_of(&after, "sweep", "fine");
        let attitude = number(&before, "/setting/attitude_deg");
        near(
            "attitude",
            number(&after, "/setting/attitude_deg"),
            attitude,
            1e-6,
        );
    }
    assert_eq!(far, 1, "one of both");
}

#[test]
fn the_undersides_remedy_clears_the_limit() {
    let shop = Shop::new();
    let low = r#"below: "0.4 in""#;
    let mut by_attitude = 0;
    for (edits, height) in [
        (&[][..], "0.225 in"),
        (&[], "0.2 in"),
        (&[(HARDWARE, low)], "0.3 in"),
        (&[(HARDWARE, low)], "0.25 in"),
        // With little sweep there is room for more attitude.
        (&[(BEHIND, r#"behind_centre: "0.1 in""#)], "0.25 in"),
        (&[(SINK, r#"roller_sink: "1 mm""#)], "0.24 in"),
    ] {
        let unit = shop.example(edits);
        let before = numbers(&unit, &["--height-of-cut", height]);
        let (level, text) = finding(&before, "underside").unwrap();
        assert_ne!(level, "fine", "{text}");
        let after = if text.contains("an attitude of") {
            by_attitude += 1;
            let attitude = format!("{} deg", number_after(text, "an attitude of"));
            let after = numbers(&unit, &["--height-of-cut", height, "--attitude", &attitude]);
            assert_ne!(
                finding(&after, "sweep").unwrap().0,
                "over",
                "breaks another limit"
            );
            after
        } else {
            let up = number_after(text, "a height of cut of");
            numbers(&unit, &["--height-of-cut", &format!("{up} in")])
        };
        text_of(&after, "underside", "fine");
        let sink = number(&after, "/setting/height_of_cut_mm") - number(&after, "/ground/cut_mm");
        let clears = number(&after, "/solution/underside_clearance_mm") - sink;
        // A fairway's 0.06 in and ten thou more, or less more where the sweep leaves no room for it.
        assert!((1.524..1.798).contains(&clears), "{clears}: {text}");
    }
    assert!(
        (1..6).contains(&by_attitude),
        "both kinds of advice: {by_attitude}"
    );
}

#[test]
fn the_other_remedies_are_true() {
    let shop = Shop::new();
    let unit = shop.example(&[(BEHIND, r#"behind_centre: "-1.1 mm""#)]);
    let before = numbers(&unit, &[]);
    let text = text_of(&before, "ahead", "over");
    let attitude = format!("{} deg", number_after(text, "an attitude of"));
    let after = numbers(&unit, &["--attitude", &attitude]);
    // Ten thou past the centre, and no more than the next hundredth of a degree.
    let behind = number(&after, "/solution/behind_centre_mm");
    near("behind", behind, 0.254, 0.03);
    text_of(&after, "ahead", "fine");

    let unit = shop.example(&[(BEHIND, r#"behind_centre: "0.9 in""#)]);
    let before = numbers(&unit, &["--height-of-cut", "0.1 in"]);
    let up = number_after(text_of(&before, "reel", "over"), "a height of cut of");
    let after = numbers(&unit, &["--height-of-cut", &format!("{up} in")]);
    assert!(number(&after, "/ground/reel_clearance_mm") >= 0.254);
    text_of(&after, "reel", "fine");

    let unit = shop.example(&[]);
    let before = numbers(&unit, &["--front-move", "0.6 in", "--rear-move", "0.6 in"]);
    let down = number_after(text_of(&before, "cut", "over"), "lower both rollers");
    let moved = format!("{} in", 0.6 - down);
    let after = numbers(&unit, &["--front-move", &moved, "--rear-move", &moved]);
    assert!(number(&after, "/ground/cut_mm") > 0.0);
    text_of(&after, "cut", "fine");

    let before = numbers(&unit, &["--height-of-cut", "0.11 in"]);
    let up = number_after(text_of(&before, "lip", "over"), "a height of cut of");
    let after = numbers(&unit, &["--height-of-cut", &format!("{up} in")]);
    text_of(&after, "lip", "fine");

    let text = text_of(&before, "clip", "over");
    let slower = format!(
        r#"ground_speed: "{} mph""#,
        number_after(text, "a ground speed of")
    );
    let faster = format!(
        r#"reel_speed: "{} rpm""#,
        number_after(text, "a reel speed of")
    );
    for edit in [(r#"ground_speed: "4 mph""#, slower), (REEL_SPEED, faster)] {
        let mended = shop.example(&[(edit.0, &edit.1)]);
        let after = numbers(&mended, &["--height-of-cut", "0.11 in"]);
        text_of(&after, "clip", "fine");
        // Three percent inside the limit.
        near("clip", number(&after, "/mowing/clip_to_cut"), 1.067, 0.02);
    }

    let ranged = shop.example(&[(LIMITS, RANGE)]);
    let text = finding(&numbers(&ranged, &[]), "attitude")
        .unwrap()
        .1
        .to_owned();
    // Inside the nearer end, 3°, by three percent of what the brackets allow.
    let inside = number_after(&text, "an attitude of");
    near("nearest", inside, 2.91, 1e-9);
}

// What-ifs.

#[test]
fn each_what_if_changes_what_it_says_and_no_other_setting() {
    let shop = Shop::new();
    let unit = shop.example(&[]);
    let before = numbers(&unit, &[]);
    for (asked, place, wanted) in [
        (
            ["--reel-diameter", "6.6 in"],
            "reel_diameter_mm",
            6.6 * INCH,
        ),
        (["--height-of-cut", "10 mm"], "height_of_cut_mm", 10.0),
        (["--attitude", "-1.5 deg"], "attitude_deg", -1.5),
        (["--gap", "4 thou"], "gap_mm", 0.004 * INCH),
        (["--edge-forward", "-0.1 in"], "extension_mm", -0.1 * INCH),
        (["--extension", "-0.1 in"], "extension_mm", -0.1 * INCH),
        (["--knife", "reaching"], "extension_mm", 0.15 * INCH),
    ] {
        let after = numbers(&unit, &asked);
        for key in keys(&before["setting"]) {
            let pointer = format!("/setting/{key}");
            let old = number(&before, &pointer);
            exact(&after, &pointer, if key == place { wanted } else { old });
        }
        assert_ne!(after["solution"], before["solution"], "{asked:?}");
    }
    assert_eq!(numbers(&unit, &["--knife", "plain"]), before);
    // Height kept, metal off the top brings the underside up, square to the datum.
    let angle = 4_f64.to_radians();
    let old = number(&before, "/solution/underside_clearance_mm");
    let after = numbers(&unit, &["--off-top-face", "10 thou"]);
    exact(
        &after,
        "/solution/underside_clearance_mm",
        old + 0.254 * angle.cos(),
    );
    // Off the front it brings the underside ahead, and so down.
    let after = numbers(&unit, &["--off-front-face", "20 thou"]);
    exact(
        &after,
        "/solution/underside_clearance_mm",
        old - 0.508 * angle.sin(),
    );
    assert!(number(&after, "/solution/behind_centre_mm") > 7.62 + 0.4);
}

#[test]
fn an_attitude_alone_keeps_the_height_that_given_rollers_leave() {
    let unit = DemoUnit::RollersGiven.file();
    let before = numbers(&unit, &[]);
    assert!(number(&before, "/setting/attitude_deg") > 3.5);
    let after = numbers(&unit, &["--attitude", "2 deg"]);
    exact(&after, "/setting/attitude_deg", 2.0);
    let height = number(&before, "/setting/height_of_cut_mm");
    near(
        "height",
        number(&after, "/setting/height_of_cut_mm"),
        height,
        1e-6,
    );

    let after = numbers(&unit, &["--height-of-cut", "1/2 in"]);
    exact(&after, "/setting/height_of_cut_mm", 12.7);
    let attitude = number(&before, "/setting/attitude_deg");
    near(
        "attitude",
        number(&after, "/setting/attitude_deg"),
        attitude,
        1e-6,
    );
}

#[test]
fn one_roller_alone_keeps_the_other_where_the_attitude_left_it() {
    let shop = Shop::new();
    let unit = shop.example(&[("attitude: None", r#"attitude: Some("6 deg")"#)]);
    let before = numbers(&unit, &[]);
    let (front, rear) = (
        "/solution/front_roller_move_mm",
        "/solution/rear_roller_move_mm",
    );
    assert!(number(&before, front).abs() > 1.0 && number(&before, rear).abs() > 1.0);
    let after = numbers(&unit, &["--rear-move", "1/8 in"]);
    near("front", number(&after, front), number(&before, front), 1e-6);
    exact(&after, rear, 3.175);
    let after = numbers(&unit, &["--front-move", "-0.05 in"]);
    exact(&after, front, -1.27);
    near("rear", number(&after, rear), number(&before, rear), 1e-6);

    let given = DemoUnit::RollersGiven.file();
    let after = numbers(&given, &["--front-move", "1 mm"]);
    exact(&after, front, 1.0);
    exact(&after, rear, -3.175);
}

#[test]
fn roller_moves_put_back_return_the_attitude_and_the_height() {
    let shop = Shop::new();
    for unit in [
        shop.example(&[]),
        DemoUnit::TurningBar.file(),
        DemoUnit::SportsMetric.file(),
    ] {
        let wanted = ["--attitude", "6.5 deg", "--height-of-cut", "0.4 in"];
        let before = numbers(&unit, &wanted);
        let moved = |place| format!("{} mm", number(&before, place));
        let after = numbers(
            &unit,
            &[
                "--front-move",
                &moved("/solution/front_roller_move_mm"),
                "--rear-move",
                &moved("/solution/rear_roller_move_mm"),
            ],
        );
        near(
            "attitude",
            number(&after, "/setting/attitude_deg"),
            6.5,
            1e-6,
        );
        near(
            "height",
            number(&after, "/setting/height_of_cut_mm"),
            0.4 * INCH,
            1e-6,
        );
        let sweep = "/solution/sweep_below_cut_mm";
        near("sweep", number(&after, sweep), number(&before, sweep), 1e-6);
    }
}

#[test]
fn a_what_if_that_is_wrong_is_refused_by_its_name() {
    let shop = Shop::new();
    let unit = shop.example(&[]);
    for (asked, says) in [
        (
            &["--knife", "nope"][..],
            &["knife", "nope", "plain", "reaching"][..],
        ),
        (&["--attitude", "3 in"], &["attitude", "deg"]),
        (&["--attitude", "95 deg"], &["attitude", "95 deg"]),
        (&["--reel-diameter", "4 deg"], &["reel-diameter", "length"]),
        (
            &["--reel-diameter", "0 in"],
            &["reel_diameter", "more than zero"],
        ),
        (&["--height-of-cut", "0.4"], &["height-of-cut", "unit"]),
        (&["--gap", "-1 thou"], &["gap", "negative"]),
        (&["--edge-forward", "wide"], &["edge-forward", "wide"]),
        (&["--edge-forward", "0.1 in ± 0.01 in"], &["extension", "±"]),
        (&["--off-top-face", "1,5 mm"], &["off-top-face", "1.5"]),
        (&["--off-front-face", "-1 mm"], &["face_ground", "negative"]),
        (&["--front-move", "fast"], &["front-move", "fast"]),
        (&["--rear-move", "1 rpm"], &["rear-move", "length"]),
        (
            &["--front-move", "1 mm", "--attitude", "3 deg"],
            &["front-move", "attitude"],
        ),
        (
            &["--rear-move", "1 mm", "--attitude", "3 deg"],
            &["rear-move", "attitude"],
        ),
        (
            &[
                "--rear-move",
                "1 mm",
                "--front-move",
                "1 mm",
                "--height-of-cut",
                "1/2 in",
            ],
            &["height_of_cut", "rollers"],
        ),
        (&["--attitude"], &["attitude"]),
        (&["--no-such-thing", "3"], &["no-such-thing"]),
    ] {
        refused(&report(&unit, asked), 2, says);
        refused(&report(&unit, &[&["--json"], asked].concat()), 2, says);
    }
}

// Exit codes.

#[test]
fn findings_however_bad_are_no_failure() {
    let run = report(&DemoUnit::GreensScalping.file(), &[]);
    assert_eq!(run.code, Some(0));
    assert!(run.out.contains("Over limit: sweep"), "{}", run.out);
}

#[test]
fn a_file_that_is_missing_or_broken_is_refused_in_its_own_name() {
    let shop = Shop::new();
    refused(
        &report(&shop.path("missing.ron"), &[]),
        2,
        &["missing.ron", "cannot be read"],
    );
    let cut_short = shop.file("short.ron", &EXAMPLE[..EXAMPLE.len() / 2]);
    refused(&report(&cut_short, &["--json"]), 2, &["short.ron:"]);
    let wrong = shop.example(&[(r#""6.9 in""#, r#""6.9 deg""#)]);
    refused(
        &report(&wrong, &[]),
        2,
        &["unit.ron:11:", "bench.reel_diameter"],
    );
    let out = shop.path("out.svg");
    let run = ran(program().arg("picture").arg(&wrong).arg(&out));
    refused(&run, 2, &["bench.reel_diameter"]);
    assert!(!out.exists());
}

#[test]
fn impossible_geometry_is_told_with_its_lengths_in_the_units_of_the_file() {
    let shop = Shop::new();
    // The edge four inches ahead along the datum, the reel sliding on the bench line: square to
    // that line, cos of clip angle less attitude is left of it, 3.999 in, and the reel reaches 3.45.
    let off_line = 4.0 * ((0.3_f64 / 3.45).asin() - 4_f64.to_radians()).cos();
    assert_eq!(format!("{off_line:.3}"), "3.999");
    let inches = shop.example(&[]);
    // Pivot to edge 168.77 mm, pivot to centre the hypotenuse of 121 and what the bench leaves up.
    let up = 22.0 + (98.55_f64.powi(2) - 121.0).sqrt() - 150.0;
    let nearest = 110_f64.hypot(128.0) - 121_f64.hypot(up);
    assert_eq!(format!("{nearest:.2}"), "44.09");
    let metric = DemoUnit::SportsMetric.file();
    for (file, asked, says, foreign) in [
        (
            &inches,
            ["--edge-forward", "4 in"],
            ["3.999 in", "3.450 in", "6.900 in"],
            "mm",
        ),
        (
            &metric,
            ["--reel-diameter", "20 mm"],
            ["20.00 mm", "44.09 mm", "10.05 mm"],
            "in",
        ),
    ] {
        for json in [&[][..], &["--json"]] {
            let run = report(file, &[json, &asked].concat());
            refused(&run, 3, &says);
            assert!(!has_unit(&run.err, foreign), "{}", run.err);
        }
        let out = shop.path("impossible.svg");
        refused(
            &ran(program().arg("picture").arg(file).arg(&out).args(asked)),
            3,
            &says,
        );
        assert!(!out.exists());
    }
    let crest = shop.example(&[("shape: Level", r#"shape: Crest("2 in")"#)]);
    refused(&report(&crest, &[]), 3, &["2.000 in"]);
}

#[cfg(target_os = "linux")]
#[test]
fn without_a_display_the_window_names_the_commands_that_need_none() {
    let shop = Shop::new();
    let unit = DemoUnit::SportsMetric.file();
    let saved = shop.path("shot.png");
    let with: [&[&OsStr]; 4] = [
        &[],
        &["window".as_ref()],
        &[unit.as_ref()],
        &[
            "window".as_ref(),
            unit.as_ref(),
            "--shot".as_ref(),
            saved.as_ref(),
        ],
    ];
    for arguments in with {
        let run = ran(program()
            .args(arguments)
            .env_remove("DISPLAY")
            .env_remove("WAYLAND_DISPLAY")
            .env_remove("WAYLAND_SOCKET"));
        refused(&run, 4, &["sweepgauge report", "sweepgauge picture"]);
        assert_eq!(run.err.lines().count(), 1, "{}", run.err);
        // A place in somebody's source helps nobody who wanted a window.
        assert!(!run.err.contains(".rs"), "{}", run.err);
        assert!(run.err.contains("DISPLAY"), "{}", run.err);
    }
    assert!(!saved.exists());
    // What is wrong with the file comes first.
    let run = ran(program().arg("window").arg(shop.path("missing.ron")));
    refused(&run, 2, &["missing.ron"]);
}

#[test]
fn an_area_is_named_on_the_command_line() {
    let run = ran(program().args(["window", "--area", "kitchen"]));
    let known = [
        "--area",
        "\"kitchen\"",
        "unit",
        "knives",
        "why",
        "blade-path",
    ];
    refused(&run, 2, &known);
    let run = ran(program().args(["window", "--area", "why", "--knives"]));
    refused(&run, 2, &["--area", "--knives"]);
}

// Pictures.

fn picture(file: &Path, out: &Path, rest: &[&str]) -> Vec<u8> {
    let said = done(ran(program().arg("picture").arg(file).arg(out).args(rest)));
    assert_eq!(said, "");
    fs::read(out).unwrap()
}

/// The words of an SVG, in order. Reading it at all takes well-formed XML.
fn words_of(svg: &[u8]) -> Vec<String> {
    fn gather(group: &usvg::Group, words: &mut Vec<String>) {
        for node in group.children() {
            match node {
                usvg::Node::Group(group) => gather(group, words),
                usvg::Node::Text(text) => {
                    words.extend(text.chunks().iter().map(|chunk| chunk.text().to_owned()));
                }
                _ => {}
            }
        }
    }
    let mut fonts = usvg::fontdb::Database::new();
    fonts.load_font_data(fonts::REGULAR.to_vec());
    fonts.load_font_data(fonts::SEMIBOLD.to_vec());
    let options = usvg::Options {
        fontdb: Arc::new(fonts),
        ..usvg::Options::default()
    };
    let tree = usvg::Tree::from_data(svg, &options).expect("well-formed");
    let mut words = Vec::new();
    gather(tree.root(), &mut words);
    words
}

#[test]
fn a_drawing_says_what_the_report_says() {
    let shop = Shop::new();
    for (index, file) in DemoUnit::files().iter().enumerate() {
        let svg = picture(file, &shop.path(&format!("{index}.svg")), &[]);
        let words = words_of(&svg);
        let table = done(report(file, &[]));
        let row = |name: &str| {
            let line = table.lines().find(|line| line.starts_with(name));
            line.map(|line| line[name.len()..].trim().to_owned())
        };
        for name in [
            "Behind centre",
            "Sweep",
            "Sweep as % of height of cut",
            "Length swept below the cut",
            "Clip angle",
            "Attitude",
            "Height of cut",
            "Reel above plate",
            "Reel above ground",
            "Underside above plate",
            "Front roller",
            "Rear roller",
            "Clip length",
        ] {
            let value = row(name).unwrap_or_else(|| panic!("no {name} in {table}"));
            let at = words.iter().position(|word| word == name);
            let at = at.unwrap_or_else(|| panic!("no {name} in {words:?}"));
            assert_eq!(words[at + 1], value, "{name}");
        }
        let verdict = table.split("\n\n").nth(1).unwrap().lines().next().unwrap();
        assert!(
            words.iter().any(|word| word == verdict),
            "{verdict} in {words:?}"
        );
        let cautions: Vec<_> = table
            .trim_end()
            .rsplit("\n\n")
            .next()
            .unwrap()
            .lines()
            .collect();
        assert_eq!(cautions, CAUTION, "in full in the report");
        for caution in CAUTION_IN_SHORT {
            assert!(words.iter().any(|word| word == caution), "{caution}");
        }
        let unit = row("Unit").unwrap();
        assert!(words.iter().any(|word| word.contains(&unit)), "{unit}");
    }
}

#[test]
fn a_name_of_any_letters_still_makes_a_well_formed_drawing() {
    let shop = Shop::new();
    let name = r#"<b> & "Müller" ]]> 刃 \u{1}\u{7f}\u{ffff}"#.replace('"', "\\\"");
    let unit = shop.example(&[("Example Ground, trailed gang, number 3", &name)]);
    let svg = picture(&unit, &shop.path("odd.svg"), &[]);
    let words = words_of(&svg);
    assert!(
        words
            .iter()
            .any(|word| word.starts_with("<b> & \"Müller\" ]]>")),
        "{words:?}"
    );
    let png = picture(&unit, &shop.path("odd.png"), &[]);
    assert!(image::load_from_memory(&png).is_ok());
}

/// The part of a sheet's pixels, from 0 to 1 both ways, that stand out from the paper.
fn ink_in(pixels: &image::RgbImage, across: (f64, f64), down: (f64, f64)) -> f64 {
    let paper = pixels.get_pixel(1, 1).0;
    let place = |part: f64, whole: u32| part * f64::from(whole);
    let (mut ink, mut all) = (0.0, 0.0);
    for (x, y, pixel) in pixels.enumerate_pixels() {
        let is_across = f64::from(x) >= place(across.0, pixels.width())
            && f64::from(x) < place(across.1, pixels.width());
        let is_down = f64::from(y) >= place(down.0, pixels.height())
            && f64::from(y) < place(down.1, pixels.height());
        if is_across && is_down {
            all += 1.0;
            let apart: u32 = (0..3)
                .map(|i| u32::from(pixel.0[i].abs_diff(paper[i])))
                .sum();
            ink += f64::from(u8::from(apart > 150));
        }
    }
    ink / all
}

fn pixels(png: &[u8]) -> image::RgbImage {
    image::load_from_memory(png).expect("a PNG").to_rgb8()
}

#[test]
fn a_png_has_ink_in_every_part() {
    let shop = Shop::new();
    let png = picture(
        &DemoUnit::FairwayTrailed.file(),
        &shop.path("unit.png"),
        &[],
    );
    assert_eq!(image::guess_format(&png).unwrap(), image::ImageFormat::Png);
    // 192 to the inch, told by the metre.
    let decoder = ::png::Decoder::new(std::io::Cursor::new(&png));
    let dims = decoder.read_info().unwrap().info().pixel_dims.unwrap();
    assert_eq!((dims.xppu, dims.yppu), (7559, 7559));
    assert_eq!(dims.unit, ::png::Unit::Meter);
    let pixels = pixels(&png);
    assert!(pixels.width() >= 2000 && pixels.height() >= 1200);
    let colours: BTreeSet<[u8; 3]> = pixels.pixels().map(|pixel| pixel.0).collect();
    assert!(colours.len() > 300, "{}", colours.len());
    for (name, across, down) in [
        ("verdict", (0.0, 0.5), (0.0, 0.06)),
        ("unit and knife", (0.0, 0.5), (0.06, 0.11)),
        ("whole unit", (0.0, 0.58), (0.12, 0.8)),
        ("rear roller", (0.0, 0.15), (0.45, 0.72)),
        ("front roller", (0.42, 0.58), (0.45, 0.72)),
        ("lens", (0.62, 0.98), (0.3, 0.6)),
        ("scale bar", (0.6, 0.75), (0.75, 0.79)),
        ("numbers", (0.0, 1.0), (0.81, 0.91)),
        ("cautions", (0.0, 0.7), (0.92, 1.0)),
    ] {
        let ink = ink_in(&pixels, across, down);
        assert!((0.005..0.5).contains(&ink), "{name}: {ink}");
    }
}

#[test]
fn a_dark_picture_is_dark_and_a_light_one_light() {
    let shop = Shop::new();
    let unit = DemoUnit::GreensWalking.file();
    let brightness = |rest: &[&str]| {
        let pixels = pixels(&picture(&unit, &shop.path("unit.png"), rest));
        let sum: f64 = pixels.pixels().flat_map(|p| p.0).map(f64::from).sum();
        sum / f64::from(pixels.width() * pixels.height() * 3)
    };
    let (light, dark) = (brightness(&[]), brightness(&["--dark"]));
    assert!(light > 220.0 && dark < 60.0, "{light} {dark}");
}

#[test]
fn what_is_tried_and_what_it_stands_on_are_drawn() {
    let shop = Shop::new();
    let unit = DemoUnit::SportsMetric.file();
    let out = shop.path("unit.svg");
    let plain = words_of(&picture(&unit, &out, &[]));
    let tried = words_of(&picture(&unit, &out, &["--attitude", "7 deg"]));
    assert!(
        plain.iter().any(|word| word == "attitude 5.00°"),
        "{plain:?}"
    );
    assert!(
        tried.iter().any(|word| word == "attitude 7.00°"),
        "{tried:?}"
    );
    let on_plate = picture(&unit, &out, &[]);
    let on_turf = picture(&unit, &out, &["--turf"]);
    let grass = |svg: &[u8]| {
        String::from_utf8_lossy(svg)
            .matches("stroke=\"#009e73\"")
            .count()
    };
    assert_eq!(
        (grass(&on_plate) > 0, grass(&on_turf) > grass(&on_plate)),
        (true, true)
    );
}

#[test]
fn the_same_call_twice_gives_the_same_bytes() {
    let shop = Shop::new();
    let unit = DemoUnit::TurningBar.file();
    for name in ["unit.svg", "unit.png", "UNIT.SVG"] {
        let out = shop.path(name);
        assert_eq!(
            picture(&unit, &out, &["--turf"]),
            picture(&unit, &out, &["--turf"])
        );
    }
    assert_eq!(
        report(&unit, &["--json"]).out,
        report(&unit, &["--json"]).out
    );
}

#[test]
fn a_picture_that_cannot_be_written_is_refused() {
    let shop = Shop::new();
    let unit = DemoUnit::TurningBar.file();
    for name in ["unit.jpg", "unit", "unit.svgz"] {
        let out = shop.path(name);
        let run = ran(program().arg("picture").arg(&unit).arg(&out));
        refused(&run, 2, &[".svg", ".png", ".pdf"]);
        assert!(!out.exists());
    }
    let nowhere = shop.path("no such folder").join("unit.svg");
    let run = ran(program().arg("picture").arg(&unit).arg(&nowhere));
    refused(&run, 2, &["no such folder", "cannot be written"]);
}

#[test]
fn a_picture_is_written_whole_or_the_old_one_stays() {
    let shop = Shop::new();
    let out = shop.file("unit.svg", "the old picture");
    let mut permissions = fs::metadata(&out).unwrap().permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&out, permissions).unwrap();
    let unit = DemoUnit::TurningBar.file();
    let run = ran(program().arg("picture").arg(&unit).arg(&out));
    refused(&run, 2, &["unit.svg", "cannot be written", "read-only"]);
    assert_eq!(fs::read_to_string(&out).unwrap(), "the old picture");
    let before: Vec<_> = fs::read_dir(shop.0.path()).unwrap().collect();
    assert_eq!(before.len(), 1, "{before:?}");
}

#[test]
fn the_model_of_these_tests_stands_on_both_rollers() {
    // A check of the checker: rollers on the plate, gap closed, the turn short of a right angle.
    let model = Model::of(Tried {
        gap: 0.3,
        extension: 3.0,
        stance: Stance::Rollers {
            front: 2.0,
            rear: -3.0,
        },
        ..AS_ON_BENCH
    });
    let [edge, centre, front, rear] = model.places;
    near("front", front.1, bench::FRONT_RADIUS, 1e-9);
    near("rear", rear.1, bench::REAR_RADIUS, 1e-9);
    near(
        "gap",
        long(minus(centre, edge)),
        bench::REEL_RADIUS + 0.3,
        1e-9,
    );
    assert!(model.attitude_deg.to_radians().abs() < FRAC_PI_2);
}

#[test]
fn a_lean_that_is_not_given_is_told_with_what_it_leaves_open() {
    let shop = Shop::new();
    let unit = shop.example(&[]);
    let ground = ["--reel-diameter", "6.6 in"];
    assert!(numbers(&unit, &[]).get("lean_not_given").is_none());
    let json = numbers(&unit, &ground);
    let told = json["lean_not_given"].as_str().unwrap();
    assert!(
        told.contains("is not entered") && told.contains("10.00°"),
        "{told}"
    );
    let plain = done(report(&unit, &ground));
    assert!(plain.contains(told), "{plain}");
    assert!(
        plain.contains("the lean alone") && plain.contains("± not entered"),
        "{plain}"
    );
    let given = shop.example(&[("lean: None", "lean: \"4 deg\"")]);
    assert!(numbers(&given, &ground).get("lean_not_given").is_none());
}
