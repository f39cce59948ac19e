//! The path of the blades over the ground, against the handbook's trochoids and brute force, and
//! what is drawn of it.

use std::f64::consts::{PI, TAU};

use kurbo::{Affine, ParamCurve as _, Point, Vec2};
use proptest::prelude::*;
use sweepgauge::analysis::{Kinematics, Solved};
use sweepgauge::drawing::{
    Mark, PathCanvas, PathDrawing, Role, Scene, Shape, Sheet, ShownIn, Theme, to_svg,
};
use sweepgauge::geometry::{BladePath, clip_length, ground_speed_for_clip, reel_speed_for_clip};
use sweepgauge::unit::{self, Document};
use sweepgauge::units::{Length, Speed, System, Turning};

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;
use crate::common::example::example;
use crate::common::random_units::solved_unit;

/// A path by rolling radius and tracing radius, the tip lowest at time 0 and the turning 1 rad/s.
fn trochoid(rolling_mm: f64, tracing_mm: f64) -> BladePath {
    BladePath {
        reel_radius_mm: tracing_mm,
        centre_at_clip: Point::new(0.0, rolling_mm),
        cut_height_mm: 0.0,
        clip_angle_rad: 0.0,
        ground_speed_mm_per_s: rolling_mm,
        turning_rad_per_s: 1.0,
    }
}

/// Length of the path from one time to another, by Simpson's rule over its velocity.
fn length_by_quadrature(path: &BladePath, from_s: f64, to_s: f64) -> f64 {
    const HALVES: u32 = 2000;
    let step = (to_s - from_s) / f64::from(2 * HALVES);
    let sum: f64 = (0..=2 * HALVES)
        .map(|number| {
            let weight = match number {
                0 => 1.0,
                last if last == 2 * HALVES => 1.0,
                odd if odd % 2 == 1 => 4.0,
                _ => 2.0,
            };
            weight * path.velocity_at(from_s + step * f64::from(number)).hypot()
        })
        .sum();
    sum * step / 3.0
}

/// The complete elliptic integral of the second kind by the arithmetic-geometric mean (Abramowitz
/// and Stegun, Handbook of Mathematical Functions, 17.6, from memory).
fn elliptic_e(m: f64) -> f64 {
    let (mut a, mut g) = (1.0, (1.0 - m).sqrt());
    let (mut sum, mut power) = (m, 1.0);
    for _ in 0..40 {
        let c = (a - g) / 2.0;
        (a, g) = (f64::midpoint(a, g), (a * g).sqrt());
        power *= 2.0;
        sum += power * c * c;
    }
    PI / (2.0 * a) * (1.0 - sum / 2.0)
}

/// Engineers' handbooks, mensuration of plane curves (from memory): an arch of the cycloid is 8 r
/// long, 2πr wide, 2 r high, and holds 3πr².
#[test]
fn a_tip_as_fast_as_the_unit_runs_on_the_handbooks_cycloid() {
    let r = 87.5;
    let path = trochoid(r, r);
    assert!((path.tip_speed().mm_per_s() - path.ground_speed_mm_per_s).abs() < 1e-12);
    assert!((length_by_quadrature(&path, 0.0, TAU) - 8.0 * r).abs() < 1e-9);
    assert!((path.tip_at(TAU).x - path.tip_at(0.0).x - TAU * r).abs() < 1e-9);
    assert!((path.travel_in_turn().mm() - TAU * r).abs() < 1e-9);
    assert!((path.tip_at(PI).y - 2.0 * r).abs() < 1e-12);
    assert!(path.tip_at(0.0).y.abs() < 1e-12 && path.velocity_at(0.0).hypot() < 1e-12);
    // The area under the arch, by the trapezium rule on a smooth periodic integrand.
    let steps = 512;
    let area: f64 = (0..steps)
        .map(|number| {
            let t = TAU * f64::from(number) / f64::from(steps);
            path.tip_at(t).y * path.velocity_at(t).x * TAU / f64::from(steps)
        })
        .sum();
    assert!((area - 3.0 * PI * r * r).abs() < 1e-6, "{area}");
}

/// A period of the trochoid is `4 (r + d) E(m)` long, `m = 4 r d/(r + d)²` (handbooks of plane
/// curves, from memory), with d the tracing radius.
#[test]
fn curtate_and_prolate_paths_are_as_long_as_the_elliptic_integral_says() {
    for (r, d) in [(20.0, 80.0), (87.5, 60.0), (5.0, 100.0), (70.0, 70.5)] {
        let path = trochoid(r, d);
        let m = 4.0 * r * d / ((r + d) * (r + d));
        let wanted = 4.0 * (r + d) * elliptic_e(m);
        let found = length_by_quadrature(&path, 0.0, TAU);
        assert!(
            (found / wanted - 1.0).abs() < 1e-9,
            "{r} {d}: {found} {wanted}"
        );
        // Looped when the tip is faster than the unit, and only then.
        assert_eq!(path.velocity_at(0.0).x < 0.0, d > r, "{r} {d}");
    }
}

/// Sides 3, 4, 5: reel radius 50, edge 30 behind and 40 below the centre, so the chord is 60.
#[test]
fn the_way_below_the_cut_is_that_of_a_sum_by_hand() {
    let path = BladePath {
        reel_radius_mm: 50.0,
        centre_at_clip: Point::new(30.0, 55.0),
        cut_height_mm: 15.0,
        clip_angle_rad: 0.75_f64.atan(),
        ground_speed_mm_per_s: 10.0,
        turning_rad_per_s: 1.0,
    };
    let below = path.below_cut().unwrap();
    let turned_deg = 2.0 * 36.869_897_645_844_02;
    assert!((below.ahead_of_centre.deg() - turned_deg / 2.0).abs() < 1e-9);
    assert!((below.time_s - turned_deg * PI / 180.0).abs() < 1e-12);
    assert!((below.ground_covered.mm() - 10.0 * below.time_s).abs() < 1e-12);
    assert!((below.tip_back.mm() - (60.0 - 10.0 * below.time_s)).abs() < 1e-9);
    // 50 mm/s along the circle at 36.87°, (−0.8, 0.6) of it, and 10 mm/s ahead.
    let at_clip = (30.0_f64).hypot(30.0);
    assert!((path.speed_at_clip().mm_per_s() - at_clip).abs() < 1e-9);
}

/// The tip by turning the clip point about a centre that is carried ahead: no angle of ours. The
/// reel's lower side goes back, so with x to the right it turns with the clock.
fn turned(centre: Point, clip: Point, speed: f64, turning: f64, time_s: f64) -> Point {
    let turn = Affine::rotate_about(-turning * time_s, centre);
    Affine::translate((speed * time_s, 0.0)) * (turn * clip)
}

proptest! {
    #![proptest_config(by_chance(256))]

    #[test]
    fn the_path_is_the_handbooks_trochoid_and_a_turning_carried_circle(
        solved in solved_unit(),
        ground_mm_per_s in 100.0..=5000.0,
        reel_rpm in 20.0..=3000.0,
        part in -2.0..=2.0,
    ) {
        let pose = solved.pose;
        let (v, w) = (ground_mm_per_s, TAU * reel_rpm / 60.0);
        let path = BladePath::of(
            &pose,
            Speed::from_mm_per_s(v),
            Turning::from_rev_per_s(reel_rpm / 60.0),
        );
        let time_s = part * TAU / w;
        let tip = path.tip_at(time_s);
        let clip = pose.clip_point_on_plate();
        prop_assert!(tip.distance(turned(pose.centre_on_plate, clip, v, w, time_s)) < 1e-6);
        // x = rφ − d sin φ, y = r − d cos φ with φ from the lowest point (handbooks of plane
        // curves): rolling radius r = v/ω, tracing radius d the reel's, curtate and prolate alike.
        let (r, d) = (v / w, pose.reel_radius_mm);
        let to_clip = clip - pose.centre_on_plate;
        let phi_clip = (-to_clip.x).atan2(-to_clip.y);
        let phi = phi_clip + w * time_s;
        let from_lowest = pose.centre_on_plate.x - r * phi_clip;
        let wanted = Point::new(
            from_lowest + r * phi - d * phi.sin(),
            pose.centre_on_plate.y - r + (r - d * phi.cos()),
        );
        prop_assert!(tip.distance(wanted) < 1e-6, "{tip:?} {wanted:?}");
        // The velocity, by a difference.
        let h = 1e-6 / w;
        let slope = (path.tip_at(time_s + h) - path.tip_at(time_s - h)) / (2.0 * h);
        prop_assert!((path.velocity_at(time_s) - slope).hypot() < 1e-4 * (v + d * w));
    }

    #[test]
    fn the_way_below_the_cut_is_where_a_fine_scan_finds_it(
        solved in solved_unit(),
        ground_mm_per_s in 100.0..=5000.0,
        reel_rpm in 20.0..=3000.0,
    ) {
        const STEPS: u32 = 40_000;
        let pose = solved.pose;
        let (v, w) = (ground_mm_per_s, TAU * reel_rpm / 60.0);
        let path = BladePath::of(
            &pose,
            Speed::from_mm_per_s(v),
            Turning::from_rev_per_s(reel_rpm / 60.0),
        );
        let clip = pose.clip_point_on_plate();
        let step = PI / w / f64::from(STEPS);
        let tip = |number: u32| {
            turned(pose.centre_on_plate, clip, v, w, -step * f64::from(number))
        };
        // Back from the clip through half a turn, which ends above the cut for any believable unit.
        let is_below = |number: &u32| tip(*number).y < pose.edge_on_plate.y - 1e-7;
        let below = path.below_cut();
        match (1..STEPS).rev().find(is_below) {
            None => {
                // None, or so shallow that the scan steps over it.
                let depth = pose.edge_on_plate.y - (pose.centre_on_plate.y - pose.reel_radius_mm);
                prop_assert!(below.is_none() || depth < 1e-5, "{below:?}, {depth}");
            }
            Some(first) => {
                let below = below.expect("a way below the cut");
                let off = (below.time_s - step * f64::from(first)).abs();
                // A step, and the depth the scan leaves out where the circle grazes.
                prop_assert!(off < 1.5 * step + 1e-3 * below.time_s, "{below:?} {off}");
                let entry = path.tip_at(-below.time_s);
                prop_assert!((entry.y - pose.edge_on_plate.y).abs() < 1e-6);
                prop_assert!(entry.x >= pose.centre_on_plate.x - v * below.time_s);
                let driven = pose.centre_on_plate - path.centre_at(-below.time_s);
                prop_assert!((driven.x - below.ground_covered.mm()).abs() < 1e-9);
                prop_assert!((entry.x - clip.x - below.tip_back.mm()).abs() < 1e-6);
            }
        }
    }

    #[test]
    fn the_speeds_that_give_a_clip_length_give_it(
        cut_mm in 1.0..=80.0,
        ground_mm_per_s in 100.0..=5000.0,
        reel_rpm in 20.0..=3000.0,
        blades in 3_u32..=14,
    ) {
        let cut = Length::from_mm(cut_mm);
        let (ground, reel) = (
            Speed::from_mm_per_s(ground_mm_per_s),
            Turning::from_rev_per_s(reel_rpm / 60.0),
        );
        let by_driving = clip_length(ground_speed_for_clip(cut, reel, blades), reel, blades);
        prop_assert!((by_driving.mm() / cut_mm - 1.0).abs() < 1e-12);
        let by_turning = clip_length(ground, reel_speed_for_clip(cut, ground, blades), blades);
        prop_assert!((by_turning.mm() / cut_mm - 1.0).abs() < 1e-12);
    }
}

fn solved(document: &Document) -> (Solved, Kinematics) {
    let solved = Solved::of(document).unwrap();
    let kinematics = Kinematics::of(&solved.unit, &solved.solution).expect("speeds");
    (solved, kinematics)
}

fn units() -> Vec<(Solved, Kinematics)> {
    DemoUnit::ALL.map(|unit| solved(&unit.document())).into()
}

fn edited(edits: &[(&str, &str)]) -> (Solved, Kinematics) {
    solved(&unit::read_text(&example(edits)).unwrap())
}

/// Units at which something is missing or out of all measure.
fn odd_units() -> Vec<(Solved, Kinematics)> {
    let speeds = r#"(ground_speed: "4 mph", reel_speed: "900 rpm")"#;
    vec![
        // The edge ahead of centre, straight below it, and with so wide a gap that the reel stays above.
        edited(&[("attitude: None", r#"attitude: Some("-6 deg")"#)]),
        edited(&[(r#"behind_centre: "0.3 in""#, r#"behind_centre: "0 in""#)]),
        edited(&[(r#"gap: "0 mm""#, r#"gap: "2 mm""#)]),
        // The edge below the ground.
        edited(&[(
            "rollers: None",
            r#"rollers: Some((front_move: "1.5 in", rear_move: "1.5 in"))"#,
        )]),
        edited(&[(speeds, r#"(ground_speed: "200 mph", reel_speed: "1 rpm")"#)]),
        edited(&[(
            speeds,
            r#"(ground_speed: "0.001 mph", reel_speed: "99000 rpm")"#,
        )]),
    ]
}

#[test]
fn a_neighbouring_blade_runs_on_the_same_path_a_clip_length_further() {
    for (solved, kinematics) in units() {
        let pose = &solved.solution.pose;
        let (v, w) = (
            kinematics.speeds.ground_speed.mm_per_s(),
            TAU * kinematics.speeds.reel_speed.rev_per_s(),
        );
        let pitch = TAU / f64::from(solved.unit.blades);
        for number in -3..=3 {
            // The blade that comes so many later stands as much behind in the turning.
            let lag = Affine::rotate_about(pitch * f64::from(number), pose.centre_on_plate);
            let start = lag * pose.clip_point_on_plate();
            for part in [-0.4, -0.01, 0.0, 0.02, 0.3] {
                let time_s = part * TAU / w;
                let tip = turned(pose.centre_on_plate, start, v, w, time_s);
                let later_s = pitch * f64::from(number) / w;
                let offset = Vec2::new(kinematics.clip_offset(number).mm(), 0.0);
                let on_path = kinematics.path.tip_at(time_s - later_s) + offset;
                assert!(tip.distance(on_path) < 1e-9, "{number} {part}");
            }
        }
    }
}

#[test]
fn what_is_told_is_what_the_speeds_and_the_reel_give() {
    for (solved, kinematics) in units() {
        let solution = &solved.solution;
        let tip = solution.pose.reel_radius_mm * TAU * kinematics.speeds.reel_speed.rev_per_s();
        assert!((kinematics.tip_speed.mm_per_s() - tip).abs() < 1e-9);
        assert_eq!(Some(kinematics.clip_length), solved.unit.clip_length());
        let metric = kinematics.told(System::Millimetre);
        let shown = |name: &str| {
            let told = metric.iter().find(|told| told.name == name);
            told.unwrap_or_else(|| panic!("{name}")).shown.clone()
        };
        let per_metre = 1000.0 / kinematics.clip_length.mm();
        assert_eq!(shown("Clips per metre"), format!("{per_metre:.1}"));
        assert_eq!(shown("Tip speed"), format!("{:.2} m/s", tip / 1000.0));
        let inches = kinematics.told(System::InchDecimal);
        let per_foot = inches.iter().find(|told| told.name == "Clips per foot");
        let wanted = 12.0 / kinematics.clip_length.inches();
        // Shown to a tenth; a tie may round either way.
        let shown: f64 = per_foot.unwrap().shown.parse().unwrap();
        assert!((shown - wanted).abs() < 0.05 + 1e-9, "{shown} {wanted}");
        // A mile an hour is 447.04 mm a second (NIST SP 811, appendix B.8).
        let mph = inches.iter().find(|told| told.name == "Tip speed");
        assert_eq!(mph.unwrap().shown, format!("{:.2} mph", tip / 447.04));
        // The ripple: Pythagoras over the height of cut and half a clip.
        let (cut, half) = (
            solution.pose.height_of_cut.mm(),
            kinematics.clip_length.mm() / 2.0,
        );
        let ripple = (cut * cut + half * half).sqrt() - cut;
        assert!((kinematics.ripple_estimate.unwrap().mm() - ripple).abs() < 1e-9);
        assert!(metric.iter().any(|told| told.name.contains("estimate")));
        assert_eq!(kinematics.why_never_below(), None);
    }
}

#[test]
fn what_is_missing_is_said_and_never_a_number() {
    let odd = odd_units();
    let why = |number: usize| odd[number].1.why_never_below();
    assert!(why(0).is_some_and(|why| why.contains("not stand behind centre")));
    assert!(why(1).is_some_and(|why| why.contains("not stand behind centre")));
    assert!(why(2).is_some_and(|why| why.contains("above the cut line")));
    assert!(odd[..3].iter().all(|(_, k)| k.below_cut.is_none()));
    let (below_ground, kinematics) = &odd[3];
    assert!(below_ground.solution.pose.height_of_cut.mm() < 0.0);
    assert_eq!(kinematics.for_cut, None);
    assert_eq!(kinematics.ripple_estimate, None);
    for (_, kinematics) in &odd {
        for system in System::ALL {
            for told in kinematics.told(system) {
                assert!(!told.shown.contains("NaN") && !told.shown.contains("inf"));
            }
        }
    }
}

fn drawing<'a>(solved: &'a Solved, kinematics: &'a Kinematics) -> PathDrawing<'a> {
    PathDrawing {
        case: solved.case(),
        findings: &solved.findings,
        examples: solved.document.example_count(),
        kinematics,
        system: System::Millimetre,
    }
}

fn rings(scene: &Scene) -> Vec<Point> {
    let ring = |shape: &Shape| match shape {
        Shape::Ring(at) => Some(*at),
        _ => None,
    };
    scene.of_role(Role::Clip).filter_map(ring).collect()
}

#[test]
fn the_clips_drawn_stand_a_clip_length_apart_and_on_their_paths() {
    for (solved, kinematics) in units() {
        let scene = drawing(&solved, &kinematics).scene();
        let rings = rings(&scene);
        assert_eq!(rings.len(), 5);
        for pair in rings.windows(2) {
            let apart = pair[1] - pair[0];
            assert!((apart - Vec2::new(kinematics.clip_length.mm(), 0.0)).hypot() < 1e-9);
        }
        let clip = solved.solution.pose.clip_point_on_plate();
        assert!(rings[2].distance(clip) < 1e-9);
        let lines: Vec<_> = scene
            .items
            .iter()
            .filter(|item| item.shown_in == ShownIn::Lens)
            .filter_map(|item| match (&item.role, &item.shape) {
                (Role::Blade | Role::ReelRim, Shape::Line(path)) => Some(path),
                _ => None,
            })
            .collect();
        assert_eq!(lines.len(), rings.len());
        for ring in &rings {
            let is_on = |path: &&&kurbo::BezPath| {
                path.segments().any(|piece| {
                    kurbo::ParamCurveNearest::nearest(&piece, *ring, 1e-6).distance_sq < 1e-6
                })
            };
            assert!(lines.iter().any(|path| is_on(&path)), "{ring:?}");
        }
    }
}

#[test]
fn between_its_corners_a_drawn_path_strays_less_than_can_be_seen() {
    for (solved, kinematics) in units() {
        let scene = drawing(&solved, &kinematics).scene();
        let path = &kinematics.path;
        let (lowest, turn) = (path.lowest_at_s(), path.turn_s());
        let turns = |shown_in| {
            scene
                .items
                .iter()
                .find_map(|item| match (&item.role, &item.shape) {
                    (Role::ReelRim, Shape::Line(line)) if item.shown_in == shown_in => Some(line),
                    _ => None,
                })
        };
        for (shown_in, from, long) in [
            (ShownIn::Lens, lowest - turn / 2.0, turn),
            (ShownIn::Whole, lowest - turn, 2.0 * turn),
        ] {
            let pieces: Vec<_> = turns(shown_in).expect("a path").segments().collect();
            let count = f64::from(u32::try_from(pieces.len()).unwrap());
            for (number, piece) in (0_u32..).zip(&pieces) {
                let time_s = from + long * (f64::from(number) + 0.5) / count;
                assert!(piece.eval(0.5).distance(path.tip_at(time_s)) < 1e-4);
            }
        }
    }
}

#[test]
fn everything_drawn_is_dimensioned_and_fits_its_views() {
    for (solved, kinematics) in units() {
        let drawing = drawing(&solved, &kinematics);
        let scene = drawing.scene();
        let system = System::Millimetre;
        let below = kinematics.below_cut.unwrap();
        for wanted in [
            format!("clip length {}", system.length(kinematics.clip_length)),
            format!("tip back {}", system.length(below.tip_back)),
            format!(
                "height of cut {}",
                system.length(solved.solution.pose.height_of_cut)
            ),
            format!(
                "travel per turn {}",
                system.length(kinematics.path.travel_in_turn())
            ),
            "enters the cut line".to_owned(),
            "travel".to_owned(),
        ] {
            assert!(scene.words().any(|word| word == wanted), "{wanted}");
        }
        let close = drawing.close_bounds();
        for ring in rings(&scene) {
            assert!(close.contains(ring), "{ring:?} {close:?}");
        }
        assert!(close.contains(kinematics.path.tip_at(-below.time_s)));
        assert!(close.contains(Point::ORIGIN));
    }
}

#[test]
fn every_unit_can_be_laid_out_and_written_as_svg() {
    let window = kurbo::Rect::new(0.0, 0.0, 860.0, 400.0);
    for (solved, kinematics) in units().into_iter().chain(odd_units()) {
        let drawing = drawing(&solved, &kinematics);
        let scene = drawing.scene();
        for (has_whole, stretch) in [(true, 1.0), (false, 5.0)] {
            let canvas = PathCanvas::fitting(&drawing, window, has_whole, stretch);
            let panels = canvas.panels(&scene, Theme::Dark);
            let places = panels.iter().flat_map(|panel| &panel.marks);
            for mark in places {
                let is_finite = match mark {
                    Mark::Stroke { path, .. } | Mark::Fill { path, .. } => path.is_finite(),
                    Mark::Text { at, .. } => at.is_finite(),
                };
                assert!(is_finite, "{mark:?}");
            }
            let sheet = Sheet {
                panels,
                ..Sheet::blank("paths", window, Theme::Light)
            };
            let words: Vec<_> = sheet.words().map(str::to_owned).collect();
            let is_named = words
                .iter()
                .any(|word| word.starts_with("A: at the cut line"));
            assert!(is_named, "{words:?}");
            assert_eq!(
                words.iter().any(|w| w.contains("upwards ×5")),
                stretch > 1.0
            );
            assert!(to_svg(&sheet).contains("clip length"), "{words:?}");
        }
    }
}

#[test]
fn the_name_of_a_clip_stands_nearest_to_its_own_ring_or_is_left_out() {
    const NAMES: [(&str, isize); 5] = [
        ("two before", -2),
        ("one before", -1),
        ("clip", 0),
        ("one after", 1),
        ("two after", 2),
    ];
    let mut seen = 0;
    for (solved, kinematics) in units().into_iter().chain(odd_units()) {
        let drawing = drawing(&solved, &kinematics);
        let scene = drawing.scene();
        for (wide, high) in [
            (380.0, 200.0),
            (560.0, 260.0),
            (860.0, 400.0),
            (1500.0, 640.0),
        ] {
            let window = kurbo::Rect::new(0.0, 0.0, wide, high);
            let canvas = PathCanvas::fitting(&drawing, window, true, 1.0);
            let to_paper = canvas.close.paper_from_world();
            let rings = rings(&scene).into_iter().map(|at| (to_paper * at).x);
            let mut rings: Vec<f64> = rings.collect();
            rings.sort_by(f64::total_cmp);
            let nearest_of = |x: f64| {
                let places = rings.iter().enumerate();
                let away = |ring: f64| (ring - x).abs();
                places.min_by(|a, b| away(*a.1).total_cmp(&away(*b.1)))
            };
            let panels = canvas.panels(&scene, Theme::Light);
            for mark in panels.iter().flat_map(|panel| &panel.marks) {
                let Mark::Text { at, text, .. } = mark else {
                    continue;
                };
                let Some((_, clips)) = NAMES.iter().find(|(name, _)| name == text) else {
                    continue;
                };
                let own = (rings.len() / 2).checked_add_signed(*clips);
                let nearest = nearest_of(at.x).map(|(place, _)| place);
                assert_eq!(nearest, own, "{text} at {at:?} of {rings:?} in {window:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 60, "{seen}");
}
