//! The reel in motion: every tip on its trochoid, the unit on by a clip length a blade, every stem left
//! as long as its clip place says, and the file that moves.

use std::f64::consts::TAU;

use kurbo::{ParamCurve as _, Point, Vec2};
use proptest::prelude::*;
use sweepgauge::analysis::{Kinematics, Solved};
use sweepgauge::drawing::{
    Mark, MotionDrawing, MotionOf, Pen, PictureView, Role, Shape, Standing, Theme, clip_on_paper,
    motion_frame, motion_panel, view_picture,
};
use sweepgauge::geometry::{BladePath, ReelTurn, StemState, Stems};
use sweepgauge::printing::{PictureAsked, Resolution, moving_bytes};
use sweepgauge::units::{Length, Speed, System, Turning};
use tempfile::TempDir;

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;
use crate::common::program::{program, ran};
use crate::common::random_units::solved_unit;

fn units() -> Vec<(Solved, Kinematics, ReelTurn)> {
    let units = DemoUnit::ALL.into_iter().map(|unit| {
        let solved = Solved::of(&unit.document()).unwrap();
        let kinematics = Kinematics::of(&solved.unit, &solved.solution).expect("speeds");
        let turn = ReelTurn {
            path: kinematics.path,
            blades: solved.unit.blades,
        };
        (solved, kinematics, turn)
    });
    units.collect()
}

proptest! {
    #![proptest_config(by_chance(64))]

    /// The velocity of a point of a rolling, sliding circle, taken from no formula of the path: it drives at
    /// `v` and turns with the clock at `ω` about a centre that drives at `v`.
    #[test]
    fn every_tip_stands_where_its_velocity_summed_up_takes_it(
        solved in solved_unit(),
        ground_mm_per_s in 100.0..=5000.0,
        reel_rpm in 20.0..=3000.0,
        blades in 3_u32..=14,
        phase in 0.0..=1.0,
    ) {
        const STEPS: u32 = 4000;
        let pose = solved.pose;
        let (v, w): (f64, f64) = (ground_mm_per_s, TAU * reel_rpm / 60.0);
        let path = BladePath::of(
            &pose,
            Speed::from_mm_per_s(v),
            Turning::from_rev_per_s(reel_rpm / 60.0),
        );
        let turn = ReelTurn { path, blades };
        let end_s = phase * TAU / w;
        let step = end_s / f64::from(STEPS);
        let velocity = |tip: Point, time_s: f64| {
            let to_tip = tip - (pose.centre_on_plate + Vec2::new(v * time_s, 0.0));
            Vec2::new(v + w * to_tip.y, -w * to_tip.x)
        };
        for (tip, start) in turn.tips(phase).zip(turn.tips(0.0)) {
            // Fourth order, after Runge and Kutta.
            let mut at = start;
            for number in 0..STEPS {
                let t = step * f64::from(number);
                let k1 = velocity(at, t);
                let k2 = velocity(at + k1 * (step / 2.0), t + step / 2.0);
                let k3 = velocity(at + k2 * (step / 2.0), t + step / 2.0);
                let k4 = velocity(at + k3 * step, t + step);
                at += (k1 + 2.0 * k2 + 2.0 * k3 + k4) * (step / 6.0);
            }
            prop_assert!(tip.distance(at) < 1e-6 * (1.0 + v * end_s), "{tip:?} {at:?}");
        }
        // All on one circle, as far apart as blades are.
        let centre = turn.centre(phase);
        let tips: Vec<Point> = turn.tips(phase).collect();
        for tip in &tips {
            prop_assert!((tip.distance(centre) - pose.reel_radius_mm).abs() < 1e-6);
        }
        let apart = 2.0 * pose.reel_radius_mm * (TAU / f64::from(blades) / 2.0).sin();
        prop_assert!((tips[0].distance(tips[1]) - apart).abs() < 1e-6);
    }

    #[test]
    fn the_unit_goes_on_by_a_clip_length_a_blade(
        solved in solved_unit(),
        ground_mm_per_s in 100.0..=5000.0,
        reel_rpm in 20.0..=3000.0,
        blades in 3_u32..=14,
        clips in -20_i32..=20,
    ) {
        let path = BladePath::of(
            &solved.pose,
            Speed::from_mm_per_s(ground_mm_per_s),
            Turning::from_rev_per_s(reel_rpm / 60.0),
        );
        let turn = ReelTurn { path, blades };
        // Ground speed over clips a second.
        let clip_mm: f64 = ground_mm_per_s / (f64::from(blades) * reel_rpm / 60.0);
        prop_assert!((turn.clip_length().mm() / clip_mm - 1.0).abs() < 1e-12);
        let clips = f64::from(clips);
        let phase = clips / f64::from(blades);
        prop_assert!((turn.travelled(phase).mm() - clips * clip_mm).abs() < 1e-9 * (1.0 + clip_mm));
        // And the blade of that clip then stands at the clip point, as far on.
        let clip = solved.pose.clip_point_on_plate() + Vec2::new(clips * clip_mm, 0.0);
        let tip = turn.tip_of_clip(clips, phase);
        prop_assert!(tip.distance(clip) < 1e-6 * (1.0 + clip_mm), "{tip:?} {clip:?}");
    }
}

#[test]
fn every_stem_is_left_as_long_as_the_slant_from_its_root_to_the_nearest_clip() {
    for (solved, kinematics, turn) in units() {
        let stems = Stems::of(turn).unwrap();
        let height = solved.solution.pose.height_of_cut.mm();
        let clip = kinematics.clip_length.mm();
        let (mut shortest, mut longest) = (f64::INFINITY, 0.0_f64);
        for number in -500..=500 {
            let root = 0.0137 * f64::from(number) * clip;
            // Of all clip places the nearest, by looking at them all.
            let slants = (-20..=20).map(|clips| {
                let at = kinematics.clip_offset(clips).mm();
                (at - root).hypot(height)
            });
            let wanted = slants.fold(f64::INFINITY, f64::min);
            let left = stems.cut_length(Length::from_mm(root)).mm();
            assert!((left - wanted).abs() < 1e-9, "{root}: {left} {wanted}");
            shortest = shortest.min(left);
            longest = longest.max(left);
        }
        let ripple = kinematics.ripple_estimate.unwrap().mm();
        assert!(longest - shortest <= ripple + 1e-9);
        // 500 places leave out next to nothing of it.
        assert!(longest - shortest > 0.97 * ripple);
        assert!(stems.grown().mm() > longest, "every stem is cut");
    }
}

#[test]
fn a_stem_stands_on_its_root_is_met_by_a_blade_cut_at_its_clip_and_keeps_its_length() {
    for (solved, kinematics, turn) in units() {
        let clip = kinematics.clip_length.mm();
        let knife_wide = solved.unit.setting.knife.width;
        let stems = Stems::of(turn)
            .unwrap()
            .under_knife(solved.solution.underside_clearance, knife_wide);
        for part in [-0.49, -0.3, -0.01, 0.0, 0.02, 0.33, 0.49] {
            for of_clip in [0.0, 3.0] {
                let root = Length::from_mm((of_clip + part) * clip);
                let cut_at = of_clip * turn.phase_of_clip();
                let (mut bent, mut lengths) = (0, Vec::new());
                for number in -300..=300 {
                    let phase = cut_at + f64::from(number) / 300.0;
                    let stem = stems.stem(root, phase);
                    assert!((stem.root.x - root.mm()).abs() < 1e-12 && stem.root.y == 0.0);
                    assert!(stem.top.y >= -1e-9);
                    let length = stem.top.distance(stem.root);
                    if phase >= cut_at {
                        assert_eq!(stem.state, StemState::Cut);
                        lengths.push(length);
                    } else {
                        assert_ne!(stem.state, StemState::Cut);
                        assert!((length - stems.grown().mm()).abs() < 1e-9);
                        bent += u32::from(stem.state != StemState::Standing);
                    }
                }
                assert!(bent > 0, "{part}: nothing met it");
                let wanted = stems.cut_length(root).mm();
                assert!(lengths.iter().all(|length| (length - wanted).abs() < 1e-9));
                // At the cut it reaches to the edge, which has come as far as the clip.
                let edge = Point::new(of_clip * clip, solved.solution.pose.edge_on_plate.y);
                let cut = stems.stem(root, cut_at);
                assert!(cut.top.distance(edge) < 1e-9, "{part}: {cut:?} {edge:?}");
            }
        }
    }
}

/// Before the cut a blade holds a stem by its tip: nothing runs through what it bends.
#[test]
fn a_stem_that_a_blade_bends_lies_against_the_tip_that_bends_it_most() {
    let mut bent = 0;
    for (_, kinematics, turn) in units() {
        let phase = 0.8 * turn.phase_of_clip();
        let stems = Stems::of(turn).unwrap();
        let clip = kinematics.clip_length.mm();
        for number in 0..400 {
            let root = 0.05 * f64::from(number) * clip;
            let stem = stems.stem(Length::from_mm(root), phase);
            if stem.state != StemState::BentByBlade {
                continue;
            }
            bent += 1;
            let along = (stem.top - stem.root).normalize();
            let off = turn
                .tips(phase)
                .map(|tip| (tip - stem.root).cross(along).abs());
            assert!(off.fold(f64::INFINITY, f64::min) < 1e-9);
            assert!(along.x < 0.0, "back, against the travel");
        }
    }
    assert!(bent > 20, "only {bent} were bent");
}

#[test]
fn a_clip_later_the_picture_is_the_same() {
    for (solved, kinematics, turn) in units() {
        let drawing = |phase: f64| MotionDrawing {
            shows: MotionOf::Mowing,
            case: solved.case(),
            findings: &solved.findings,
            examples: solved.document.example_count(),
            kinematics: &kinematics,
            phase,
        };
        let (now, later) = (
            drawing(0.03).scene(),
            drawing(0.03 + turn.phase_of_clip()).scene(),
        );
        let stems = |scene: &sweepgauge::drawing::Scene| {
            let paths = scene.of_role(Role::Turf).filter_map(|shape| match shape {
                Shape::Line(path) => Some(path.clone()),
                _ => None,
            });
            paths
                .flat_map(|path| {
                    path.segments()
                        .map(|s| kurbo::Shape::bounding_box(&s))
                        .collect::<Vec<_>>()
                })
                .filter(|lies| scene.bounds.contains_rect(*lies))
                .collect::<Vec<_>>()
        };
        let (one, other) = (stems(&now), stems(&later));
        assert!(one.len() > 40, "only {} stems", one.len());
        assert_eq!(one.len(), other.len());
        for (one, other) in one.iter().zip(&other) {
            assert!((one.origin() - other.origin()).hypot() < 1e-6);
        }
        // And half a clip later it is another.
        let half = stems(&drawing(0.03 + 0.5 * turn.phase_of_clip()).scene());
        let is_alike = one.len() == half.len()
            && one
                .iter()
                .zip(&half)
                .all(|(a, b)| (a.origin() - b.origin()).hypot() < 1e-6);
        assert!(!is_alike);
    }
}

/// One blade alone is dark and leaves its track on the reel's circle; its tip is where the trochoid has it,
/// told from the unit, and half a turn later across the centre.
#[test]
fn one_blade_draws_its_circle_without_grass_and_legend() {
    for (solved, kinematics, turn) in units() {
        let path = kinematics.path;
        let (centre, radius) = (path.centre_at_clip, path.reel_radius_mm);
        let tip = |phase: f64| {
            let drawing = MotionDrawing {
                case: solved.case(),
                findings: &solved.findings,
                examples: solved.document.example_count(),
                kinematics: &kinematics,
                phase,
                shows: MotionOf::OneBlade,
            };
            let scene = drawing.scene();
            let reel = kurbo::Circle::new(centre, radius);
            let bounds = kurbo::Shape::bounding_box(&reel);
            assert!(scene.bounds.contains_rect(bounds), "{bounds:?}");
            assert_eq!(scene.of_role(Role::Turf).count(), 0);
            assert_eq!(scene.of_role(Role::Clip).count(), 0);
            let is_key = |shape: &Shape| matches!(shape, Shape::Key { .. });
            assert!(!scene.items.iter().any(|item| is_key(&item.shape)));
            let blades = scene.of_role(Role::Blade);
            let dark = blades.filter(|shape| matches!(shape, Shape::Fill(_)));
            assert_eq!(dark.count(), 1);
            let mut tracks = scene.of_role(Role::TipCircle);
            let Some(Shape::Line(track)) = tracks.next() else {
                panic!("a track");
            };
            for segment in track.segments() {
                let off = (segment.eval(0.5) - centre).hypot() - radius;
                assert!(off.abs() < 0.01, "{off} mm off the circle");
            }
            let mut segments = track.segments();
            let tip = segments.next().unwrap().start();
            let still = Vec2::new(turn.travelled(phase).mm(), 0.0);
            let on_path = path.tip_at(turn.time_s(phase)) - still;
            assert!((tip - on_path).hypot() < 1e-6, "{tip:?} {on_path:?}");
            // The track lies where the tip was a moment ago.
            let before = path.tip_at(turn.time_s(phase - 0.05));
            let before = before - Vec2::new(turn.travelled(phase - 0.05).mm(), 0.0);
            let nearest = track.segments().map(|segment| {
                kurbo::ParamCurveNearest::nearest(&segment, before, 1e-3).distance_sq
            });
            assert!(nearest.fold(f64::INFINITY, f64::min) < 1e-2);
            let after = path.tip_at(turn.time_s(phase + 0.02));
            let after = after - Vec2::new(turn.travelled(phase + 0.02).mm(), 0.0);
            let nearest = track.segments().map(|segment| {
                kurbo::ParamCurveNearest::nearest(&segment, after, 1e-3).distance_sq
            });
            assert!(nearest.fold(f64::INFINITY, f64::min) > 1.0, "not yet there");
            tip
        };
        let (now, later) = (tip(0.1), tip(0.6));
        assert!((now.midpoint(later) - centre).hypot() < 1e-6);
    }
}

/// The ground goes back with the unit's travel, and its hatching with it: a clip later it lies as it did, and
/// between that it lies elsewhere.
#[test]
fn the_hatching_of_the_soil_goes_back_with_the_ground() {
    let hatching = |solved: &Solved, clips: f64| {
        let paper = kurbo::Rect::new(0.0, 0.0, 1000.0, 700.0);
        let panel = motion_panel(solved, clips, paper, Theme::Light.into()).unwrap();
        let lines = panel.marks.iter().find_map(|mark| match mark {
            Mark::Stroke {
                role: Role::Soil,
                path,
                pen: Pen::Hatching,
            } => {
                let ends = path.segments().flat_map(|line| [line.start(), line.end()]);
                Some(ends.collect::<Vec<_>>())
            }
            _ => None,
        });
        lines.expect("it is hatched")
    };
    for (solved, ..) in units() {
        let paper = kurbo::Rect::new(0.0, 0.0, 1000.0, 700.0);
        let clip = clip_on_paper(&solved, &[], MotionOf::Mowing, paper);
        let (now, later) = (hatching(&solved, 0.1), hatching(&solved, 1.1));
        assert!(now.len() > 20 && now.len() == later.len());
        for (now, later) in now.iter().zip(&later) {
            assert!(now.distance(*later) < 1e-6, "{now:?}, {later:?}");
        }
        // A little later every line that ended at the ground does so again, moved back as the ground is.
        let (part, soon) = (0.02, hatching(&solved, 0.12));
        let at_ground = |ends: &[Point]| {
            let ground = ends.iter().map(|end| end.y).fold(f64::INFINITY, f64::min);
            let ends = ends.iter().filter(|end| end.y < ground + 1e-6);
            ends.map(|end| end.x).collect::<Vec<_>>()
        };
        let (now, soon) = (at_ground(&now), at_ground(&soon));
        assert!(soon.len() > 20, "{}", soon.len());
        let is_moved = |x: &&f64| {
            let was = **x + part * clip;
            now.iter().any(|now| (now - was).abs() < 1e-6)
        };
        let moved = soon.iter().filter(is_moved).count();
        assert!(moved + 1 >= soon.len(), "{moved} of {}", soon.len());
    }
}

#[test]
fn the_picture_says_that_its_stems_are_an_illustration() {
    let (solved, ..) = units().swap_remove(0);
    let still = view_picture(
        &solved,
        PictureView::Motion,
        Standing::Plate,
        System::InchDecimal,
        Theme::Light,
    )
    .unwrap();
    let moving = motion_frame(&solved, 0.3, "slower", System::InchDecimal, Theme::Dark).unwrap();
    for sheet in [still, moving] {
        assert!(sheet.words().any(|words| words.contains("illustration")));
        assert!(
            sheet
                .words()
                .any(|words| words.contains("cut even when turned"))
        );
    }
}

/// The chunks of a PNG file by their names (PNG Specification, third edition, W3C, 5.3).
fn chunks(bytes: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut chunks = Vec::new();
    let mut at = 8;
    while at + 12 <= bytes.len() {
        let long = u32::from_be_bytes(bytes[at..at + 4].try_into().unwrap()) as usize;
        let name = String::from_utf8(bytes[at + 4..at + 8].to_vec()).unwrap();
        chunks.push((name, bytes[at + 8..at + 8 + long].to_vec()));
        at += 12 + long;
    }
    chunks
}

/// An animated PNG has one `acTL` with the number of frames and plays before `IDAT`, and an `fcTL` a frame
/// (the same specification, 11.3.6).
#[test]
fn the_moving_file_holds_its_pictures_plays_for_ever_and_none_is_like_the_one_before() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("clip.png");
    let run = ran(program()
        .arg("picture")
        .arg(DemoUnit::GreensScalping.file())
        .arg(&out)
        .args(["--view", "motion", "--frames", "4", "--width", "320"]));
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    let chunks = chunks(&std::fs::read(&out).unwrap());
    let of = |name: &str| chunks.iter().filter(|chunk| chunk.0 == name).count();
    assert_eq!((of("acTL"), of("fcTL"), of("IEND")), (1, 4, 1));
    let control = &chunks.iter().find(|chunk| chunk.0 == "acTL").unwrap().1;
    assert_eq!(control[..], [0, 0, 0, 4, 0, 0, 0, 0]);
    let first = chunks.iter().find(|chunk| chunk.0 == "fcTL").unwrap();
    // Four pictures take a second: each one part of four.
    assert_eq!(first.1[20..24], [0, 1, 0, 4]);
    let file = std::io::BufReader::new(std::fs::File::open(&out).unwrap());
    let mut reader = png::Decoder::new(file).read_info().unwrap();
    let mut pictures = Vec::new();
    for _ in 0..4 {
        let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut pixels).unwrap();
        assert_eq!((info.width, info.height), (320, 200));
        pictures.push(pixels);
    }
    assert!(pictures.windows(2).all(|two| two[0] != two[1]));
}

/// The matched pair's reels make 1200 and 2100 revolutions a minute, so that the right one's blades clip 7 times
/// in 4 clips of the left one.
#[test]
fn two_reels_side_by_side_move_by_one_clock_until_both_are_where_they_began() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("pair.png");
    let lessons = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/lessons");
    let asked = |more: &[&str]| {
        ran(program()
            .arg("picture")
            .arg(lessons.join("matched-fairway.ron"))
            .arg(&out)
            .arg("--beside")
            .arg(lessons.join("matched-green.ron"))
            .args(["--view", "motion", "--frames", "4", "--width", "320"])
            .args(more))
    };
    let run = asked(&["--page", "a4"]);
    assert_eq!(run.code, Some(2), "{run:?}");
    assert!(
        run.err.contains("a moving picture has no page"),
        "{}",
        run.err
    );
    let run = asked(&[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    let file = std::io::BufReader::new(std::fs::File::open(&out).unwrap());
    let mut reader = png::Decoder::new(file).read_info().unwrap();
    let control = reader.info().animation_control().unwrap();
    assert_eq!((control.num_frames, control.num_plays), (16, 0));
    let mut halves = Vec::new();
    for _ in 0..16 {
        let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut pixels).unwrap();
        let line = info.line_size;
        // The reels stand over the middle of either half; the words of speed are at the foot.
        let half = |from: usize, to: usize| -> Vec<u8> {
            let rows = pixels.chunks(line).skip(12).take(60);
            rows.flat_map(|row| row[from..to].to_vec()).collect()
        };
        halves.push([half(0, line / 2), half(line / 2 + 12, line)]);
    }
    for side in [0, 1] {
        assert!(halves.windows(2).all(|two| two[0][side] != two[1][side]));
    }
    // The left one is as it was a clip later, the right one after 4 of them and no sooner.
    assert!(halves[0][0] == halves[4][0] && halves[0][0] == halves[12][0]);
    assert!((1..4).all(|clip| halves[0][1] != halves[4 * clip][1]));
}

#[test]
fn what_cannot_move_is_refused_in_words_and_leaves_no_file() {
    let folder = TempDir::new().unwrap();
    let unit = DemoUnit::GreensScalping.file();
    let asked = |out: &str, more: &[&str]| {
        let run = ran(program()
            .arg("picture")
            .arg(&unit)
            .arg(folder.path().join(out))
            .args(more));
        assert_eq!(run.code, Some(2), "{run:?}");
        assert!(!folder.path().join(out).exists());
        run.err
    };
    let motion = ["--view", "motion", "--frames", "8"];
    assert!(asked("clip.svg", &motion).contains(".png"));
    assert!(asked("clip.png", &["--view", "lens", "--frames", "8"]).contains("motion"));
    let large = [&motion[..], &["--width", "20000"]].concat();
    assert!(asked("clip.png", &large).contains("million pixels"));
    asked("clip.png", &["--view", "motion", "--frames", "1"]);

    let mut document = DemoUnit::GreensScalping.document();
    document.mowing = None;
    let solved = Solved::of(&document).unwrap();
    let asked = PictureAsked {
        view: Some(PictureView::Motion),
        page: sweepgauge::drawing::Page::default(),
        resolution: Resolution::Width(320),
        is_clear: false,
        theme: Theme::Light,
        standing: Standing::Plate,
        system: System::Millimetre,
    };
    assert!(
        moving_bytes(&solved, &asked, 4)
            .unwrap_err()
            .contains("speed")
    );
}
