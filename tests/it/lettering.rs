//! The words on the pictures: none stands on another and none leaves its paper, on every screen from
//! small to large, in every system of units, at every size of the words.

use kurbo::{BezPath, ParamCurve as _, Rect, Size, Vec2};
use sweepgauge::analysis::knives::{KnifeAim, Trial, map};
use sweepgauge::analysis::other_readings::BehindFrom;
use sweepgauge::analysis::plate::PlateResult;
use sweepgauge::analysis::why::{Budget, StepKind};
use sweepgauge::analysis::{Kinematics, Level, Solved};
use sweepgauge::drawing::{
    BudgetChart, Canvas, Handles, Lens, LensChoice, MapAxes, MapMark, MapPicture, MapSetting, Mark,
    NoPicture, Overlay, PairNumbers, Panel, PathCanvas, PathDrawing, Role, Shape, ShownIn,
    SideBySide, SideView, Standing, Style, Theme, View, lay_out, measured_picture, reading_picture,
    step_picture, words,
};
use sweepgauge::drawing::{
    ClockPicture, attitude_picture, bar_picture, bearings_picture, clock_picture, ends_picture,
    height_picture, knife_picture, reel_at_places, rock_picture, thread_picture, turn_picture,
};
use sweepgauge::geometry::Eccentric;
use sweepgauge::plate::Roller;
use sweepgauge::store::{open_sheet, open_unit};
use sweepgauge::unit::{Field, Fitted, KnifePart, Reading};
use sweepgauge::units::{Angle, Length, System};

use crate::common::demo_unit::DemoUnit;

/// Screens in points, from small to large.
const SCREENS: [(f64, f64); 6] = [
    (900.0, 600.0),
    (1024.0, 768.0),
    (1366.0, 768.0),
    (1920.0, 1080.0),
    (2560.0, 1440.0),
    (3840.0, 2160.0),
];
/// How large the window's words are set.
const ZOOMS: [f64; 5] = [1.0, 1.25, 1.5, 2.0, 2.5];
/// What the form takes beside a drawing, and the bar and the verdict above it.
const FORM: f64 = 400.0;
const ABOVE: f64 = 180.0;

/// The papers that a drawing gets on all those screens: beside the form with the numbers below, and alone.
fn papers() -> Vec<Rect> {
    let mut sizes: Vec<Size> = Vec::new();
    for (width, height) in SCREENS {
        for zoom in ZOOMS {
            let (width, height) = (width / zoom, height / zoom);
            let beside = (
                (width - FORM).max(0.78 * width.min(420.0)),
                (0.58 * height - 0.5 * ABOVE).max(130.0),
            );
            let alone = (width - 16.0, (height - ABOVE).max(180.0));
            for (width, height) in [beside, alone] {
                // Papers that differ by a few points are one.
                let is_had = |had: &Size| {
                    (had.width - width).abs() < 8.0 && (had.height - height).abs() < 8.0
                };
                if !sizes.iter().any(is_had) {
                    sizes.push(Size::new(width, height));
                }
            }
        }
    }
    sizes
        .into_iter()
        .map(|size| Rect::from_origin_size((7.0, 11.0), size))
        .collect()
}

/// The place that a text's letters take.
pub fn letters(mark: &Mark) -> Option<(&str, Rect)> {
    let Mark::Text {
        at,
        anchor,
        size,
        is_turned,
        is_strong,
        text,
        ..
    } = mark
    else {
        return None;
    };
    // From the top of the capitals to the foot of a g.
    let along = words::width(text, *size, *is_strong);
    let across = 0.95 * size;
    let (right, down) = anchor.part();
    let (size, part) = if *is_turned {
        ((across, along), (down, 1.0 - right))
    } else {
        ((along, across), (right, down))
    };
    let corner = *at - Vec2::new(part.0 * size.0, part.1 * size.1);
    Some((text, Rect::from_origin_size(corner, Size::from(size))))
}

/// What is wrong with the words of panels that stand side by side.
pub fn faults(panels: &[Panel]) -> Vec<String> {
    let mut faults = Vec::new();
    let mut all: Vec<(&str, Rect)> = Vec::new();
    for panel in panels {
        for (text, place) in panel.marks.iter().filter_map(letters) {
            if panel.window.inflate(0.01, 0.01).intersect(place) != place {
                faults.push(format!("\"{text}\" leaves its paper"));
            }
            all.push((text, place));
        }
    }
    for (index, (text, place)) in all.iter().enumerate() {
        for (other, its) in &all[index + 1..] {
            if place.overlaps(*its) {
                faults.push(format!("\"{text}\" on \"{other}\""));
            }
        }
    }
    faults
}

/// Counts what is wrong, with examples.
#[derive(Default)]
struct Tally {
    pictures: usize,
    texts: usize,
    faults: usize,
    examples: Vec<String>,
}

impl Tally {
    fn look(&mut self, name: impl FnOnce() -> String, panels: &[Panel]) {
        self.pictures += 1;
        let marks = panels.iter().flat_map(|panel| &panel.marks);
        self.texts += marks.filter(|mark| letters(mark).is_some()).count();
        let faults = faults(panels);
        self.faults += faults.len();
        if !faults.is_empty() && self.examples.len() < 30 {
            self.examples
                .push(format!("{}: {}", name(), faults.join("; ")));
        }
    }

    #[track_caller]
    fn assert_none(&self, least_texts: usize) {
        let Self {
            pictures,
            texts,
            faults,
            ..
        } = self;
        let told = format!("{faults} in {texts} texts of {pictures} pictures");
        println!("{told}");
        assert!(*faults == 0, "{told}\n{}", self.examples.join("\n"));
        assert!(*texts > least_texts, "{told}");
    }
}

fn demo_units() -> Vec<Solved> {
    let documents = DemoUnit::ALL.map(DemoUnit::document);
    documents
        .iter()
        .map(|document| Solved::of(document).unwrap())
        .collect()
}

/// Each unit in one system of units, every system with every paper.
fn on_every_paper(mut look: impl FnMut(&Solved, System, Rect)) {
    let papers = papers();
    for solved in demo_units() {
        for paper in &papers {
            for system in System::ALL {
                look(&solved, system, *paper);
            }
        }
    }
}

/// What the handles cover of the paper, the edge's standing off below it.
fn handles_on(whole: &View, solved: &Solved) -> Vec<Rect> {
    let handles = Handles::of(&solved.solution);
    let places = [
        (handles.reel_rim, Vec2::ZERO),
        (handles.knife_edge, Vec2::new(-24.0, 24.0)),
        (handles.unit_back, Vec2::ZERO),
    ];
    let on_paper = places.map(|(place, off)| whole.paper_from_world() * place + off);
    let shown = on_paper
        .into_iter()
        .filter(|place| whole.window.inset(-8.0).contains(*place));
    shown
        .map(|place| Rect::from_center_size(place, Size::new(18.0, 18.0)))
        .collect()
}

#[test]
fn no_words_of_the_unit_and_its_lens_stand_on_others_or_leave_their_paper() {
    let mut tally = Tally::default();
    let standings = [Standing::Plate, Standing::Turf, Standing::Crest];
    let mut turn = standings.iter().cycle();
    on_every_paper(|solved, system, paper| {
        let standing = *turn.next().unwrap();
        let others: Vec<_> = solved
            .document
            .options
            .iter()
            .take(4)
            .filter_map(|option| {
                let mut document = (*solved.document).clone();
                document.setting.knife = Some(option.name.clone());
                Some((option.name.clone(), Solved::of(&document).ok()?))
            })
            .collect();
        let overlays: Vec<_> = (0_u8..)
            .zip(&others)
            .map(|(place, (name, solved))| Overlay {
                name,
                place,
                case: solved.case(),
            })
            .collect();
        let view = SideView {
            standing,
            system,
            overlays: &overlays,
            ..SideView::of(solved)
        };
        let scene = view.scene();
        for has_lens in [true, false] {
            let (whole, lens) = Canvas::split(paper, has_lens);
            let choice = LensChoice::default();
            let canvas = Canvas {
                whole: View::fitting(scene.bounds, whole),
                lens: lens.map(|window| Lens::on(&solved.solution, choice, window, system)),
            };
            let handles = handles_on(&canvas.whole, solved);
            let style = Style::filling(Theme::Light, paper.size());
            let panels = canvas.panels_clear_of(&scene, style, &handles);
            let name = || {
                format!(
                    "{}, {system:?}, {standing:?}, {:?}, {has_lens}",
                    solved.document.name,
                    paper.size()
                )
            };
            for (text, place) in panels[0].marks.iter().filter_map(letters) {
                let is_covered = handles.iter().any(|handle| handle.overlaps(place));
                assert!(!is_covered, "{}: a handle covers \"{text}\"", name());
            }
            tally.look(name, &panels);
        }
    });
    tally.assert_none(1000);
}

/// The parts by which a unit is recognised, each by its name or a shorter one.
const PARTS: [&[&str]; 8] = [
    &["reel"],
    &["knife"],
    &["bed bar", "bar"],
    &["front roller"],
    &["rear roller"],
    &["clip point"],
    &["cut line"],
    &["vertical through the reel's centre", "vertical"],
];

/// What the drawing gets of windows of 900×600, 1024×768, 1366×768 and 1920×1080.
const WINDOWS: [(f64, f64); 4] = [
    (884.0, 274.0),
    (610.0, 326.0),
    (952.0, 362.0),
    (1506.0, 574.0),
];

/// A unit as a window shows it at a size of its paper: the view of the whole, and the marks.
fn in_window(view: &SideView, solved: &Solved, size: (f64, f64)) -> (View, Vec<Panel>) {
    let paper = Rect::from_origin_size((7.0, 11.0), size);
    let scene = view.scene();
    let (whole, lens) = Canvas::split(paper, true);
    let choice = LensChoice::default();
    let style = Style::filling(Theme::Light, paper.size());
    let fitted = Canvas::whole_in_window(scene.bounds, whole, style);
    let canvas = Canvas {
        whole: fitted.near_scale_of_row(scene.bounds.center()),
        lens: lens.map(|window| Lens::on(&solved.solution, choice, window, view.system)),
    };
    let handles = handles_on(&canvas.whole, solved);
    let panels = canvas.panels_clear_of(&scene, style, &handles);
    (canvas.whole, panels)
}

/// Every demo unit on every ground, in every system of units, in each of those windows.
fn in_every_window(mut look: impl FnMut(&str, &SideView, &View, &[Panel])) {
    for solved in demo_units() {
        for standing in [Standing::Plate, Standing::Turf, Standing::Crest] {
            for system in System::ALL {
                let view = SideView {
                    standing,
                    system,
                    ..SideView::of(&solved)
                };
                for size in WINDOWS {
                    let (whole, panels) = in_window(&view, &solved, size);
                    let name = &solved.document.name;
                    let name = format!("{name}, {standing:?}, {system:?}, {size:?}");
                    look(&name, &view, &whole, &panels);
                }
            }
        }
    }
}

/// How far a place of paper lies off the nearest piece of some paths.
fn off<'a>(place: Rect, paths: impl Iterator<Item = &'a BezPath>) -> f64 {
    let pieces = paths.flat_map(BezPath::segments);
    let places =
        pieces.flat_map(|piece| (0..=40).map(move |part| piece.eval(f64::from(part) / 40.0)));
    let off = places.map(|at| {
        let across = (place.x0 - at.x).max(at.x - place.x1).max(0.0);
        let down = (place.y0 - at.y).max(at.y - place.y1).max(0.0);
        across.hypot(down)
    });
    off.fold(f64::INFINITY, f64::min)
}

/// ISO 129-1: the number of an angle stands at its arc, or on the arc drawn on past its ends.
#[test]
fn the_attitudes_number_stands_at_its_arc_or_on_its_extension() {
    let (mut seen, mut furthest) = (0, (0.0, String::new()));
    in_every_window(|name, view, whole, panels| {
        let [apex, on_arc] = view
            .scene()
            .items
            .iter()
            .find_map(|item| match &item.shape {
                Shape::Angle {
                    apex,
                    radius_mm,
                    text,
                    ..
                } if text.starts_with("attitude") => {
                    Some([*apex, *apex + Vec2::new(*radius_mm, 0.0)])
                }
                _ => None,
            })
            .map(|places| places.map(|place| whole.paper_from_world() * place))
            .unwrap();
        let radius = on_arc.distance(apex);
        let is_arc = |path: &&BezPath| {
            let mut curves = path.segments().filter(|piece| {
                let is_curve = matches!(piece, kurbo::PathSeg::Cubic(_));
                let ends = [piece.start(), piece.end()];
                is_curve
                    && ends
                        .iter()
                        .all(|end| (end.distance(apex) - radius).abs() < 0.1)
            });
            curves.next().is_some()
        };
        let arcs: Vec<BezPath> = panels[0]
            .marks
            .iter()
            .filter_map(|mark| match mark {
                Mark::Stroke { path, .. } => Some(path),
                _ => None,
            })
            .filter(is_arc)
            .cloned()
            .collect();
        let told = panels[0].marks.iter().filter_map(letters);
        for (_, place) in told.filter(|(text, _)| text.starts_with("attitude")) {
            seen += 1;
            let off = off(place, arcs.iter());
            if off > furthest.0 {
                furthest = (off, name.to_owned());
            }
        }
    });
    println!("{seen} seen, the furthest {furthest:?}");
    // No more than the paper between a line and the words beside it.
    assert!(furthest.0 < 14.0, "{furthest:?}");
    assert!(seen > 250, "{seen}");
}

#[test]
fn knife_and_bed_bar_have_their_names_near_them() {
    let (mut seen, mut furthest) = (0, (0.0, String::new()));
    let mut far = 0;
    in_every_window(|name, view, whole, panels| {
        for (part, role) in [("knife", Role::Knife), ("bed bar", Role::Bar)] {
            let scene = view.scene();
            let drawn = scene.of_role(role).filter_map(|shape| match shape {
                Shape::Line(path) => Some(whole.paper_from_world() * path),
                _ => None,
            });
            let drawn: Vec<BezPath> = drawn.collect();
            let told = panels[0].marks.iter().filter_map(letters);
            for (_, place) in told.filter(|(text, _)| *text == part) {
                seen += 1;
                let off = off(place, drawn.iter());
                far += u32::from(off > 50.0);
                if off > furthest.0 {
                    furthest = (off, format!("{name}: {part}"));
                }
            }
        }
    });
    println!("{seen} seen, {far} far, the furthest {furthest:?}");
    assert!(furthest.0 < 96.0, "{furthest:?}");
    assert!(seen > 400 && 5 * far < seen, "{far} of {seen}");
}

/// What is cut is told by its hatching, so a key without it explains the least.
#[test]
fn a_key_tells_what_is_cut_or_the_scale_alone() {
    let (mut whole_keys, mut scales) = (0, Vec::new());
    in_every_window(|name, _, _, panels| {
        let told = panels[0].marks.iter().filter_map(letters);
        let told: Vec<&str> = told.map(|(text, _)| text).collect();
        let has_section = told.iter().any(|text| text.starts_with("section: "));
        let is_key = |text: &&&str| matches!(**text, "not measured" | "the rest in view");
        let is_known = told.iter().any(|text| text.starts_with("scale 1:"));
        assert!(is_known, "{name}: no scale");
        assert_eq!(told.iter().any(|text| is_key(&text)), has_section, "{name}");
        if has_section {
            whole_keys += 1;
        } else {
            scales.push(name.to_owned());
        }
    });
    println!(
        "{whole_keys} with all of it, {} without: {scales:?}",
        scales.len()
    );
    assert!(whole_keys > 20 * scales.len(), "{scales:?}");
}

#[test]
fn in_a_small_window_every_part_keeps_its_name() {
    // What the drawing gets of a window of 1024×768, and of one of 1366×768.
    let small = [(610.0, 312.0), (950.0, 342.0)];
    let small = small.map(|size| Rect::from_origin_size((7.0, 11.0), size));
    for solved in demo_units() {
        for system in System::ALL {
            let view = SideView {
                system,
                ..SideView::of(&solved)
            };
            let scene = view.scene();
            for paper in &small {
                let (whole, lens) = Canvas::split(*paper, true);
                let choice = LensChoice::default();
                let style = Style::filling(Theme::Light, paper.size());
                let fitted = Canvas::whole_in_window(scene.bounds, whole, style);
                let canvas = Canvas {
                    whole: fitted.near_scale_of_row(scene.bounds.center()),
                    lens: lens.map(|window| Lens::on(&solved.solution, choice, window, system)),
                };
                let handles = handles_on(&canvas.whole, &solved);
                let panels = canvas.panels_clear_of(&scene, style, &handles);
                let marks = panels.iter().flat_map(|panel| &panel.marks);
                let words: Vec<&str> = marks.filter_map(letters).map(|(text, _)| text).collect();
                for names in PARTS {
                    let name = &solved.document.name;
                    let has_name = names.iter().any(|name| words.contains(name));
                    assert!(has_name, "{name}, {:?}: no {names:?}", paper.size());
                }
            }
        }
    }
}

#[test]
fn no_words_of_the_blade_paths_stand_on_others_or_leave_their_paper() {
    let mut tally = Tally::default();
    on_every_paper(|solved, system, paper| {
        let Some(kinematics) = Kinematics::of(&solved.unit, &solved.solution) else {
            return;
        };
        let drawing = PathDrawing {
            case: solved.case(),
            findings: &solved.findings,
            examples: solved.document.example_count(),
            kinematics: &kinematics,
            system,
        };
        let scene = drawing.scene();
        for (has_whole, stretch) in [(true, 1.0), (true, 5.0), (false, 1.0)] {
            let canvas = PathCanvas::fitting(&drawing, paper, has_whole, stretch);
            let name = || {
                let size = paper.size();
                format!(
                    "{}, {system:?}, {size:?}, stretched {stretch}",
                    solved.document.name
                )
            };
            let style = Style::filling(Theme::Light, paper.size());
            tally.look(name, &canvas.panels(&scene, style));
        }
    });
    tally.assert_none(1000);
}

#[test]
fn no_words_of_the_height_budget_stand_on_others_or_leave_their_paper() {
    let mut tally = Tally::default();
    on_every_paper(|solved, system, paper| {
        for (title, budget) in [
            ("Reel", Budget::of_reel(&solved.case())),
            (
                "Underside of the knife and its hardware",
                Budget::of_underside(&solved.case()),
            ),
        ] {
            let paper = Rect {
                y1: paper.y0 + 236.0,
                ..paper
            };
            let charted = BudgetChart {
                title,
                budget: &budget,
                level: Level::Over,
                least: Some(solved.unit.limits.underside),
                system,
            }
            .lay_out(paper, Theme::Light);
            let name = || {
                let size = paper.size();
                format!("{}, {title}, {system:?}, {size:?}", solved.document.name)
            };
            tally.look(name, &[charted.panel]);
        }
    });
    tally.assert_none(1000);
}

#[test]
fn no_words_of_the_attitude_map_stand_on_others_or_leave_their_paper() {
    let mut tally = Tally::default();
    let papers = papers();
    for solved in demo_units() {
        let trial = Trial::of(&solved.solution);
        let map = map(&solved.unit, &trial, solved.unit.setting.knife);
        let setting = |mark, attitude, diameter| MapSetting {
            mark,
            attitude,
            diameter,
        };
        let bench = &solved.unit.profile.bench;
        let settings = [
            setting(
                MapMark::Now,
                solved.solution.pose.attitude,
                solved.unit.setting.reel_diameter,
            ),
            setting(MapMark::Bench, bench.attitude, bench.reel_diameter),
        ];
        // The aim at its own place, on the others and beside them.
        let reel = solved.unit.setting.reel_diameter;
        let knife = solved.unit.setting.knife;
        let aimed = KnifeAim::of(
            &solved.unit,
            &trial,
            (solved.unit.fitted, knife),
            solved.unit.system,
        );
        let aims = [
            aimed.ok().map(|aim| aim.attitude),
            Some(trial.attitude),
            Some(trial.attitude + Angle::from_deg(0.7)),
            Some(bench.attitude - Angle::from_deg(1.1)),
        ];
        for (aim, paper) in aims
            .into_iter()
            .flat_map(|aim| papers.iter().map(move |paper| (aim, paper)))
        {
            let aim = aim.map(|attitude| setting(MapMark::Aim, attitude, reel));
            let settings: Vec<_> = settings.into_iter().chain(aim).collect();
            for system in System::ALL {
                let axes = MapAxes::of(&solved.unit, *paper, system, Theme::Light);
                let picture = MapPicture { map: &map, axes };
                let [ground, regions] = picture.ground();
                let panels = [ground, regions, picture.lettering(&settings)];
                let told = |text: &str| text == "aim" || text.ends_with("aim");
                let mut words = panels[2].marks.iter().filter_map(letters);
                let has_room = paper.width() > 700.0 && paper.height() > 280.0;
                let is_on_map = aim.is_some_and(|aim| {
                    axes.frame()
                        .contains(axes.place(aim.attitude, aim.diameter))
                });
                let is_told = words.any(|(text, _)| told(text));
                assert!(
                    !has_room || !is_on_map || is_told,
                    "{}, {paper:?}",
                    solved.document.name
                );
                let name = || format!("{}, {system:?}, {:?}", solved.document.name, paper.size());
                tally.look(name, &panels);
            }
        }
    }
    tally.assert_none(1000);
}

#[test]
fn no_words_of_the_small_pictures_stand_on_others_or_leave_their_paper() {
    let mut tally = Tally::default();
    let kinds = [
        StepKind::HeightOfCut,
        StepKind::RollerSink,
        StepKind::Crest,
        StepKind::Hollow,
        StepKind::RollerRunout,
        StepKind::EndDifference,
        StepKind::Sweep,
        StepKind::Underside,
    ];
    let knife = KnifePart::ALL.map(|part| Reading::Knife(Fitted::Bench, part));
    let readings = [
        Reading::ReelDiameter,
        Reading::HeightOfCut,
        Reading::Attitude,
        Reading::BehindCentre,
        Reading::FrontDiameter,
        Reading::FrontAhead,
        Reading::RearDiameter,
        Reading::RearBehind,
        Reading::PivotAhead,
        Reading::PivotAbove,
    ];
    for number in ["0.128 in", "1-3/8 in", "12.70 mm", "-1/8 in - 3.9 thou"] {
        let number = || number.to_owned();
        let mut scenes = Vec::new();
        for kind in kinds {
            scenes.push((format!("{kind:?}"), step_picture(kind, number())));
        }
        for method in BehindFrom::ALL {
            scenes.push((format!("{method:?}"), reading_picture(method, number())));
        }
        for reading in knife.into_iter().chain(readings) {
            let scene = measured_picture(Field::Reading(reading), number()).unwrap();
            scenes.push((format!("{reading:?}"), scene));
        }
        for (name, scene) in scenes {
            for size in [(176.0, 100.0), (320.0, 160.0), (470.0, 200.0)] {
                let paper = Rect::from_origin_size((3.0, 5.0), size);
                let view = View::fitting(scene.bounds, paper);
                let panel = lay_out(&scene, &view, ShownIn::Whole, Theme::Light);
                let is_told = panel
                    .marks
                    .iter()
                    .filter_map(letters)
                    .any(|(text, _)| text == number());
                assert!(is_told, "{name}, {size:?}: {}", number());
                tally.look(|| format!("{name}, {size:?}"), &[panel]);
            }
        }
    }
    tally.assert_none(300);
}

#[test]
fn no_words_of_the_pictures_at_the_plate_stand_on_others_or_leave_their_paper() {
    let mut tally = Tally::default();
    for name in ["greens-1", "gang-2"] {
        let demo = DemoUnit::FairwayTrailed.file();
        let file = demo.with_file_name(format!("example-ground/{name}.plate.ron"));
        let sheet = open_sheet(&file).expect("a sheet");
        let unit = open_unit(&file.with_file_name(&sheet.unit)).expect("its unit");
        let unit = Solved::of(&unit).expect("it is solved");
        let result = PlateResult::of(&sheet, Some(&unit)).expect("it makes sense");
        let read = &result.readings;
        for system in System::ALL {
            let mut scenes = vec![
                ("bar", bar_picture(read.bar, system)),
                ("reel", reel_at_places(&read.reel, system)),
                ("bearings", bearings_picture()),
                ("knife", knife_picture(&read.knife_to_reel, system)),
                ("rock", rock_picture()),
                (
                    "height",
                    height_picture(&read.height, result.cut.as_ref(), system),
                ),
                ("attitude", attitude_picture(read.attitude, system)),
                ("thread", thread_picture(Some(-1.25))),
            ];
            for roller in Roller::ALL {
                let ends = ends_picture(read.roller(roller), system);
                scenes.push(("ends", ends));
                let worked_out = result.roller(roller).expect("it was read");
                let turns = read.roller(roller).map_or(&[][..], |read| &read.runout);
                scenes.push(("turn", turn_picture(turns, &worked_out.runout)));
            }
            for now in [-30.0, 0.0, 2.0, 85.0, 175.0] {
                let eccentric = Eccentric {
                    throw: Length::from_inches(0.0625),
                    now: Angle::from_deg(now),
                };
                let turns = eccentric.raised_by(Length::from_inches(-0.006));
                let clock = ClockPicture { eccentric, turns };
                scenes.push(("clock", clock_picture(clock, system)));
            }
            for (picture, scene) in scenes {
                for size in [
                    (300.0, 180.0),
                    (320.0, 192.0),
                    (465.0, 279.0),
                    (520.0, 312.0),
                ] {
                    let paper = Rect::from_origin_size((3.0, 5.0), size);
                    let view = View::fitting(scene.bounds, paper);
                    let panel = lay_out(&scene, &view, ShownIn::Whole, Theme::Light);
                    let told = || format!("{name}, {picture}, {system:?}, {size:?}");
                    tally.look(told, &[panel]);
                }
            }
        }
    }
    tally.assert_none(300);
}

#[test]
fn no_words_of_two_units_side_by_side_stand_on_others_or_leave_their_paper() {
    let mut tally = Tally::default();
    let units = demo_units();
    let before = units.iter().cycle().skip(units.len() - 1);
    let papers: Vec<Rect> = SCREENS
        .into_iter()
        .flat_map(|(width, height)| [1.0, 2.0].map(|zoom| Size::new(width / zoom, height / zoom)))
        .filter(|size| size.width >= 900.0)
        .map(|size| Rect::from_origin_size((7.0, 11.0), size))
        .collect();
    for ((one, other), paper) in units
        .iter()
        .zip(before)
        .flat_map(|pair| papers.iter().map(move |paper| (pair, *paper)))
    {
        for (view, system) in SideBySide::VIEWS
            .into_iter()
            .flat_map(|view| System::ALL.map(|system| (view, system)))
        {
            let pair = SideBySide {
                units: [one, other],
                names: [one, other].map(|unit| unit.document.name.clone()),
                view,
                system,
                clips: 0.75,
            };
            let plain = Style::filling(Theme::Light, paper.size());
            // As a room sees it: words and digits by the height of the screen.
            let large = Style {
                text: 0.0205 * paper.height() / 11.3,
                ..plain
            };
            let mut few = PairNumbers::all_of(view);
            few.ids.truncate(3);
            few.size = 0.073 * paper.height() / large.text;
            few.name_size = 0.025 * paper.height() / large.text;
            for (numbers, style) in [(PairNumbers::all_of(view), plain), (few, large)] {
                let name = || {
                    let (name, size) = (&one.document.name, paper.size());
                    format!("{name}, {view:?}, {system:?}, {size:?}, {}", numbers.size)
                };
                match pair.panels(&numbers, paper, style) {
                    Ok(panels) => tally.look(name, &panels),
                    Err(none) => assert_eq!(none, NoPicture::NoSpeeds, "{}", name()),
                }
            }
        }
    }
    tally.assert_none(10_000);
}
