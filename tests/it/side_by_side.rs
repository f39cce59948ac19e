//! Two units side by side, or two settings of one: one scale, one ground line, one time, and the differences
//! of their own numbers between them.

use std::fs;
use std::path::{Path, PathBuf};

use kurbo::{Rect, Shape as _, TranslateScale};
use sweepgauge::analysis::{Difference, NumberId, Solved};
use sweepgauge::drawing::{
    Mark, PairNumbers, Panel, PictureView, Role, STILL, SideBySide, Theme, side_by_side_sheet,
};
use sweepgauge::store::open_unit;
use sweepgauge::unit::Document;
use sweepgauge::units::{Length, Quantity, System};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::program::{program, ran};

fn shipped(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/lessons");
    folder.join(format!("matched-{name}.ron"))
}

fn matched() -> [Solved; 2] {
    ["fairway", "green"].map(|name| Solved::of(&open_unit(&shipped(name)).unwrap()).unwrap())
}

fn side_by_side(units: &[Solved; 2], view: PictureView) -> SideBySide<'_> {
    let [left, right] = units;
    SideBySide {
        units: [left, right],
        names: ["Left", "Right"].map(str::to_owned),
        view,
        system: System::InchDecimal,
        clips: STILL,
    }
}

const PAPER: Rect = Rect::new(0.0, 0.0, 1200.0, 900.0);

fn drawn(pair: &SideBySide) -> Vec<Panel> {
    let numbers = PairNumbers::all_of(pair.view);
    let panels = pair.panels(&numbers, PAPER, Theme::Light.into());
    panels.unwrap()
}

/// What a role's lines take of the left half and of the right one.
fn places(panels: &[Panel], role: Role) -> [Rect; 2] {
    let place = |is_left: bool| {
        let panels = panels.iter();
        let half = panels.filter(|panel| {
            panel.window.width() < 700.0 && (panel.window.center().x < 600.0) == is_left
        });
        let marks = half.flat_map(|panel| &panel.marks);
        let lines = marks.filter_map(|mark| match mark {
            Mark::Stroke {
                role: drawn, path, ..
            } if *drawn == role => Some(path.bounding_box()),
            _ => None,
        });
        lines
            .reduce(|all, next| all.union(next))
            .expect("it is drawn")
    };
    [place(true), place(false)]
}

#[test]
fn both_stand_on_one_ground_line_at_one_scale_whatever_they_are() {
    let units = DemoUnit::ALL.map(|unit| Solved::of(&unit.document()).unwrap());
    let mut pairs: Vec<[Solved; 2]> = units
        .windows(2)
        .map(|pair| [pair[0].clone(), pair[1].clone()])
        .collect();
    pairs.push(matched());
    for pair in pairs {
        let panels = drawn(&side_by_side(&pair, PictureView::Whole));
        let [left, right] = places(&panels, Role::TipCircle);
        let diameters = [&pair[0], &pair[1]].map(|unit| 2.0 * unit.solution.pose.reel_radius_mm);
        let scales = [left.width() / diameters[0], right.width() / diameters[1]];
        assert!((scales[0] / scales[1] - 1.0).abs() < 1e-9, "{scales:?}");
        let [left, right] = places(&panels, Role::Roller);
        assert!(
            (left.y1 - right.y1).abs() < 1e-3,
            "the rollers' feet: {} and {}",
            left.y1,
            right.y1
        );
        // The edge stands as far from the middle of either half.
        let [left, right] = places(&panels, Role::Clip);
        let off = right.center().x - left.center().x;
        let half = 0.5 * (PAPER.width() + 12.0);
        // A gap of some thou lies between the edge and the clip point that is marked.
        assert!((off - half).abs() < 0.05, "{off}");
    }
}

#[test]
fn both_lenses_have_one_scale_and_one_ground_line_and_show_both_clip_points() {
    let pair = matched();
    let panels = drawn(&side_by_side(&pair, PictureView::Lens));
    let titles = panels
        .iter()
        .flat_map(|panel| &panel.marks)
        .filter_map(|mark| match mark {
            Mark::Text { text, .. } => text.strip_prefix("Lens A, section, "),
            _ => None,
        });
    let titles: Vec<_> = titles.collect();
    assert_eq!(titles.len(), 2);
    assert_eq!(titles[0], titles[1]);
    let [left, right] = places(&panels, Role::CutLine);
    let scale: f64 = titles[0].strip_suffix(":1").unwrap().parse().unwrap();
    // 96 paper units to the inch; the cuts are 1/2 in and 1/8 in.
    let apart = (right.y0 - left.y0) / (96.0 * scale);
    let [left, right] = places(&panels, Role::Plate);
    assert!((left.y0 - right.y0).abs() < 1e-6, "the ground line");
    assert!((apart - 0.375).abs() < 1e-6, "{apart}");
    for clip in places(&panels, Role::Clip) {
        assert!(PAPER.contains_rect(clip), "{clip:?}");
    }
}

#[test]
fn the_differences_are_those_of_the_solutions_with_sign_and_unit() {
    let pair = matched();
    let units = [&pair[0], &pair[1]];
    for ids in [Difference::ON_PLATE, Difference::ON_GROUND] {
        for id in ids {
            let difference = Difference::of(id, units);
            let [left, right] = units.map(|unit| unit.solution.numbers().base(id).unwrap());
            let more = difference.more().unwrap();
            assert!(
                (more.base() - (right - left)).abs() < 1e-12,
                "{}",
                id.name()
            );
        }
    }
    let shown = |id, system| {
        let compared = Difference::of(id, units).compared(system);
        let [left, right] = compared.shown.clone();
        (left, compared.told(), right)
    };
    let told =
        |left: &str, more: &str, right: &str| (left.to_owned(), more.to_owned(), right.to_owned());
    assert_eq!(
        shown(NumberId::HeightOfCut, System::InchFraction),
        told("1/2 in", "-3/8 in", "1/8 in")
    );
    assert_eq!(
        shown(NumberId::BehindCentre, System::Millimetre),
        told("8.128 mm", "same", "8.128 mm")
    );
    assert_eq!(
        shown(NumberId::SweepShare, System::Millimetre),
        told("4.1 %", "+12.4 points", "16.5 %")
    );
    // Each of them stands on the picture.
    let panels = drawn(&side_by_side(&pair, PictureView::Whole));
    let words: Vec<_> = panels
        .iter()
        .flat_map(|panel| &panel.marks)
        .filter_map(|mark| match mark {
            Mark::Text { text, .. } => Some(text.as_str()),
            _ => None,
        })
        .collect();
    for id in Difference::ON_PLATE {
        let (left, more, right) = shown(id, System::InchDecimal);
        let between = format!("{}: {more}", id.title());
        for text in [
            left.as_str(),
            between.as_str(),
            right.as_str(),
            "difference: right minus left",
            "Left",
            "Right",
        ] {
            assert!(words.contains(&text), "{text}");
        }
    }
}

/// What differs is told first, in the order chosen; and what the rest comes from is among it though nobody
/// chose it.
#[test]
fn what_differs_is_told_first_and_its_cause_with_it() {
    let chosen = [
        NumberId::BehindCentre,
        NumberId::SweepBelowCut,
        NumberId::SweepShare,
        NumberId::HeightOfCut,
    ];
    let told = |chosen: &[NumberId], left: &Solved, right: &Solved| {
        Difference::told_first(chosen, [left, right], System::InchDecimal)
    };
    let [fairway, green] = matched();
    let alike = [NumberId::BehindCentre, NumberId::SweepBelowCut];
    let differ = [NumberId::SweepShare, NumberId::HeightOfCut];
    assert_eq!(told(&chosen, &fairway, &green), [differ, alike].concat());
    // A smaller reel: what it changes, and itself.
    let mut ground = fairway.document.as_ref().clone();
    ground.bench.reel_diameter =
        Quantity::from_value(Length::from_inches(6.8), System::InchDecimal);
    let ground = Solved::of(&ground).unwrap();
    let first = &told(&chosen, &fairway, &ground)[..3];
    assert_eq!(first[2], NumberId::ReelDiameter, "{first:?}");
    assert!(chosen.contains(&first[0]) && chosen.contains(&first[1]));
    // None that differs was chosen; and one alone was, which stays alone while it differs.
    let first = told(&alike, &fairway, &green);
    assert_eq!(first[0], NumberId::HeightOfCut, "{first:?}");
    assert_eq!(first[1..], alike);
    let share = [NumberId::SweepShare];
    assert_eq!(told(&share, &fairway, &green), share);
    // Two that are one.
    assert_eq!(told(&chosen, &green, &green), chosen);
}

/// The pair that is shipped: the same behind centre on a fairway and on a green.
#[test]
fn the_matched_pair_differs_in_its_height_of_cut_alone() {
    let [mut fairway, green]: [Document; 2] =
        ["fairway", "green"].map(|name| open_unit(&shipped(name)).unwrap());
    assert_ne!(fairway.turf, green.turf);
    assert_ne!(fairway.bench.height_of_cut, green.bench.height_of_cut);
    assert_eq!(fairway.bench.behind_centre, green.bench.behind_centre);
    fairway.turf = green.turf;
    fairway.name.clone_from(&green.name);
    fairway.bench.height_of_cut = green.bench.height_of_cut.clone();
    fairway.mowing.clone_from(&green.mowing);
    assert_eq!(fairway, green);
}

#[test]
fn the_reels_turn_by_one_clock() {
    let mut documents = ["fairway", "green"].map(|name| open_unit(&shipped(name)).unwrap());
    for (document, speed) in documents.iter_mut().zip(["1000 rpm", "2000 rpm"]) {
        document.bench.height_of_cut = Quantity::parse("0.5 in").unwrap();
        document.mowing.as_mut().unwrap().reel_speed = Quantity::parse(speed).unwrap();
    }
    let pair = documents.map(|document| Solved::of(&document).unwrap());
    let blades = |clips: f64| {
        let pair = SideBySide {
            clips,
            ..side_by_side(&pair, PictureView::Motion)
        };
        let panels = drawn(&pair);
        let half = |is_left: bool| {
            let panel = panels.iter().find(|panel| {
                (panel.window.center().x < 600.0) == is_left && panel.window.width() < 700.0
            });
            let marks = panel.unwrap().marks.iter();
            let blades = marks.filter_map(|mark| match mark {
                Mark::Fill {
                    role: Role::Blade,
                    path,
                    ..
                } => Some(path.bounding_box().center()),
                _ => None,
            });
            blades.collect::<Vec<_>>()
        };
        [half(true), half(false)]
    };
    let [begun, half, whole] = [0.0, 0.5, 1.0].map(blades);
    let is_same = |one: &[kurbo::Point], other: &[kurbo::Point]| {
        let near = |point: &kurbo::Point| other.iter().any(|other| other.distance(*point) < 1e-3);
        one.len() == other.len() && one.iter().all(near)
    };
    // Half a clip of the slow one is a whole clip of the fast one.
    assert!(is_same(&begun[1], &half[1]) && !is_same(&begun[0], &half[0]));
    assert!(is_same(&begun[0], &whole[0]) && is_same(&begun[1], &whole[1]));
}

#[test]
fn on_a_page_the_scale_is_one_of_drawings() {
    let pair = matched();
    let sheet = side_by_side_sheet(
        &side_by_side(&pair, PictureView::Whole),
        Theme::Print,
        Some(sweepgauge::drawing::Page::A4),
    );
    let sheet = sheet.unwrap();
    let scales: Vec<_> = sheet
        .words()
        .filter(|text| text.starts_with("scale "))
        .collect();
    assert_eq!(scales, ["scale 1:2"; 2]);
    assert!(
        sheet
            .words()
            .any(|text| text.contains("cut even when turned"))
    );
}

#[test]
fn the_command_line_draws_two_units_and_one_as_set_and_as_tried() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("pair.svg");
    let picture = |args: &[&str], beside: &Path| {
        ran(program()
            .arg("picture")
            .arg(shipped("fairway"))
            .arg(&out)
            .arg("--beside")
            .arg(beside)
            .args(args))
    };
    for view in SideBySide::VIEWS {
        let run = picture(&["--view", view.id()], &shipped("green"));
        assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{}", view.id());
        let text = fs::read_to_string(&out).unwrap();
        assert!(text.contains("matched pair, on the green") && text.contains("right minus left"));
        assert!(text.contains("cut even when turned"), "the caution");
    }
    let run = picture(&["--attitude", "5 deg"], &shipped("fairway"));
    assert_eq!(run.code, Some(0), "{}", run.err);
    let text = fs::read_to_string(&out).unwrap();
    assert!(text.contains("As set in the file") && text.contains("Attitude: -2.00°"));
    let run = picture(&["--view", "budget"], &shipped("green"));
    assert_eq!(run.code, Some(2));
    assert!(
        run.err.contains("whole, lens, ground and motion"),
        "{}",
        run.err
    );
    let run = picture(&[], &folder.path().join("gone.ron"));
    assert_eq!(run.code, Some(2));
    assert!(run.err.contains("gone.ron"), "{}", run.err);
}

#[test]
fn a_window_opens_one_unit_beside_another_and_none_beside_what_is_no_unit() {
    let folder = TempDir::new().unwrap();
    let window = |file: &Path, other: &Path, more: &[&str]| {
        let run = ran(program()
            .arg("window")
            .arg(file)
            .arg("--beside")
            .arg(other)
            .args(more)
            .env_remove("DISPLAY")
            .env_remove("WAYLAND_DISPLAY"));
        (run.code, run.err)
    };
    let gone = folder.path().join("gone.ron");
    let (code, told) = window(&shipped("fairway"), &gone, &["--show"]);
    assert_eq!(code, Some(2), "{told}");
    assert!(told.contains("gone.ron"), "{told}");
    let lesson = shipped("fairway").with_file_name("behind-centre.lesson.ron");
    for file in [folder.path(), lesson.as_path()] {
        let (code, told) = window(file, &shipped("green"), &[]);
        assert_eq!(code, Some(2), "{told}");
        assert!(told.contains("is no unit file"), "{told}");
    }
    // Both read, it asks for a display.
    let (code, told) = window(&shipped("fairway"), &shipped("green"), &["--show"]);
    assert_eq!(code, Some(4), "{told}");
}

#[test]
fn a_glass_enlarges_the_same_place_of_both() {
    let pair = matched();
    let pair = side_by_side(&pair, PictureView::Whole);
    let numbers = PairNumbers::all_of(pair.view);
    let style = Theme::Light.into();
    let [left, right] = SideBySide::halves(&numbers, PAPER, style);
    let apart = right.x0 - left.x0;
    let clips = |glass: TranslateScale| {
        let panels = pair.panels_through(glass, &numbers, PAPER, style).unwrap();
        for panel in panels.iter().filter(|panel| panel.window.width() < 700.0) {
            let within = [left, right]
                .iter()
                .any(|half| half.contains_rect(panel.window));
            assert!(within, "{:?}", panel.window);
        }
        places(&panels, Role::Clip).map(|clip| clip.center())
    };
    let plain = clips(TranslateScale::default());
    // Three times as large about the left one's clip point, which stays where it is.
    let held = plain[0].to_vec2();
    let glass = TranslateScale::new(held - 3.0 * held, 3.0);
    let close = clips(glass);
    assert!((close[0] - plain[0]).hypot() < 1e-6);
    assert!((close[1].x - close[0].x - apart).abs() < 1e-6, "{close:?}");
    assert!((close[1].y - close[0].y - 3.0 * (plain[1].y - plain[0].y)).abs() < 1e-6);
}
