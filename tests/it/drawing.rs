//! The drawing: what is drawn stands where the solution says, is lettered with its numbers, and is
//! laid out so that it can be read.

use std::sync::{Arc, LazyLock};

use kurbo::{
    BezPath, Line, ParamCurve as _, ParamCurveNearest as _, PathEl, Point, Rect, Shape as _, Vec2,
};
use proptest::prelude::*;
use resvg::usvg;
use sweepgauge::analysis::{FindingId, Level, Lowest, NumberId, Solved};
use sweepgauge::drawing::fonts;
use sweepgauge::drawing::{
    Canvas, Dimension, Direction, ENLARGEMENTS, Hold, Item, Lens, LensChoice, Mark, Numbers, Page,
    Panel, Pen, Role, STRETCHES, Scene, Shape, Sheet, ShownIn, SideView, Standing, Style, Theme,
    View, Words, lay_out, plate_sheet, to_png, to_svg, words,
};
use sweepgauge::geometry::Stance;
use sweepgauge::unit::{ClosingReadings, Document, RollerMoves, ShapeEntry};
use sweepgauge::units::{Angle, Length, Quantity, System};

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;

/// A curve of the scene strays no further than this from the true one.
const NEAR_MM: f64 = 1e-5;
/// Curves laid out on paper are flat pieces; this is more than they stray.
const NEAR_PAPER: f64 = 0.3;
/// A rectangle of paper as large as a window's drawing.
const PAPER: Rect = Rect::new(10.0, 20.0, 910.0, 620.0);

fn demo_units() -> [Document; 8] {
    DemoUnit::ALL.map(DemoUnit::document)
}

#[expect(clippy::unnecessary_wraps, reason = "what a setting's field takes")]
fn length(text: &str) -> Option<Quantity<Length>> {
    Some(Quantity::parse(text).unwrap())
}

#[expect(clippy::unnecessary_wraps, reason = "what a setting's field takes")]
fn angle(text: &str) -> Option<Quantity<Angle>> {
    Some(Quantity::parse(text).unwrap())
}

fn view(solved: &Solved, standing: Standing, system: System) -> SideView<'_> {
    SideView {
        standing,
        system,
        ..SideView::of(solved)
    }
}

fn on_plate(solved: &Solved) -> Scene {
    view(solved, Standing::Plate, solved.unit.system).scene()
}

/// Every demo unit as it is set, and set in ways that show more of what can be drawn.
fn settings() -> Vec<(String, Solved)> {
    let mut settings = Vec::new();
    for document in demo_units() {
        let mut tell = |what: &str, change: &dyn Fn(&mut Document)| {
            let mut changed = document.clone();
            change(&mut changed);
            let solved = Solved::of(&changed).unwrap();
            settings.push((format!("{}, {what}", document.name), solved));
        };
        tell("as it is", &|_| {});
        for option in &document.options {
            let name = option.name.clone();
            tell(&name, &|unit| unit.setting.knife = Some(name.clone()));
        }
        tell("ground and nosed down", &|unit| {
            unit.setting.top_ground = length("0.4 mm");
            unit.setting.face_ground = length("1.2 mm");
            unit.setting.rollers = None;
            unit.setting.attitude = angle("9 deg");
        });
        tell("edge ahead of centre", &|unit| {
            unit.setting.rollers = None;
            unit.setting.attitude = angle("-3 deg");
        });
        tell("wide gap", &|unit| unit.setting.gap = length("3 mm"));
        tell("edge in the ground", &|unit| {
            unit.setting.attitude = None;
            unit.setting.height_of_cut = None;
            unit.setting.rollers = Some(RollerMoves {
                front_move: Some(Quantity::parse("25 mm").unwrap()),
                rear_move: Some(Quantity::parse("25 mm").unwrap()),
            });
        });
    }
    settings
}

#[track_caller]
fn near(what: &str, got: f64, wanted: f64, tolerance: f64) {
    assert!(
        (got - wanted).abs() <= tolerance,
        "{what}: got {got}, wanted {wanted}"
    );
}

#[track_caller]
fn near_rect(what: &str, got: Rect, wanted: Rect) {
    for (side, got, wanted) in [
        ("left", got.x0, wanted.x0),
        ("bottom", got.y0, wanted.y0),
        ("right", got.x1, wanted.x1),
        ("top", got.y1, wanted.y1),
    ] {
        near(&format!("{what}, {side}"), got, wanted, NEAR_MM);
    }
}

fn about(centre: Point, radius_mm: f64) -> Rect {
    Rect::from_center_size(centre, (2.0 * radius_mm, 2.0 * radius_mm))
}

fn lines_of(scene: &Scene, role: Role) -> Vec<&BezPath> {
    scene
        .of_role(role)
        .filter_map(|shape| match shape {
            Shape::Line(path) => Some(path),
            _ => None,
        })
        .collect()
}

fn distance(path: &BezPath, point: Point) -> f64 {
    path.segments()
        .map(|segment| segment.nearest(point, 1e-9).distance_sq)
        .fold(f64::INFINITY, f64::min)
        .sqrt()
}

/// The hatched part below the cut line with the level it is drawn in.
fn below_cut(scene: &Scene) -> Option<(Level, &BezPath)> {
    scene
        .items
        .iter()
        .find_map(|item| match (item.role, &item.shape) {
            (Role::BelowCut(level), Shape::Hatch(path)) => Some((level, path)),
            _ => None,
        })
}

// Where things stand.

#[test]
fn reel_and_rollers_are_drawn_where_the_solution_puts_them() {
    for (name, solved) in settings() {
        let scene = on_plate(&solved);
        let pose = &solved.solution.pose;
        let rims = lines_of(&scene, Role::TipCircle);
        assert_eq!(rims.len(), 1, "{name}");
        let rim = about(
            pose.centre_on_plate,
            solved.unit.setting.reel_diameter.mm() / 2.0,
        );
        near_rect(&name, rims[0].bounding_box(), rim);
        let bodies: Vec<Rect> = scene
            .of_role(Role::Roller)
            .filter_map(|shape| match shape {
                Shape::Fill(path) => Some(path.bounding_box()),
                _ => None,
            })
            .collect();
        let bench = &solved.unit.profile.bench;
        let rollers = [
            (pose.front_roller.centre, bench.front_roller.diameter),
            (pose.rear_roller.centre, bench.rear_roller.diameter),
        ];
        assert_eq!(bodies.len(), rollers.len(), "{name}");
        for (body, (centre, diameter)) in bodies.into_iter().zip(rollers) {
            near_rect(&name, body, about(centre, diameter.mm() / 2.0));
            near(
                &format!("{name}: roller on the plate"),
                body.y0,
                0.0,
                NEAR_MM,
            );
            let is_outlined = lines_of(&scene, Role::Roller)
                .iter()
                .any(|line| (line.bounding_box().width() - body.width()).abs() < NEAR_MM);
            assert!(is_outlined, "{name}");
        }
    }
}

#[test]
fn the_knife_is_drawn_with_its_edge_and_underside_in_their_places() {
    for (name, solved) in settings() {
        let scene = on_plate(&solved);
        let pose = &solved.solution.pose;
        let setting = &solved.unit.setting;
        let outlines = lines_of(&scene, Role::Knife);
        assert_eq!(outlines.len(), 1, "{name}");
        let outline = outlines[0];
        let edge = pose.edge_on_plate;
        near(
            &format!("{name}: edge"),
            distance(outline, edge),
            0.0,
            NEAR_MM,
        );
        // Behind the edge and below the datum, in the attitude in force.
        let (sin, cos) = pose.attitude.rad().sin_cos();
        let (back, down) = (Vec2::new(-cos, sin), Vec2::new(-sin, -cos));
        let inside = edge + back * 0.4 + down * 0.4;
        assert!(outline.contains(inside), "{name}");
        assert!(
            !outline.contains(edge - back * 0.01),
            "{name}: ahead of the edge"
        );
        assert!(
            !outline.contains(edge - down * 0.01),
            "{name}: above the edge"
        );
        let knife = &setting.knife;
        let (face, top) = (knife.face_ground.mm(), knife.top_ground.mm());
        let (lip, body) = (knife.lip_thickness.mm(), knife.body_thickness.mm());
        for (behind, below) in [
            (face, lip),
            (knife.lip_length.mm(), lip),
            (knife.lip_length.mm(), body),
            (knife.width.mm(), body),
        ] {
            let corner = edge + back * (behind - face) + down * (below - top);
            let is_corner = outline
                .elements()
                .iter()
                .filter_map(PathEl::end_point)
                .any(|point| point.distance(corner) < NEAR_MM);
            assert!(is_corner, "{name}: {corner:?}");
        }
        let lowest = solved.solution.lowest_on_plate;
        let role = match solved.solution.lowest {
            Lowest::Knife => Role::Knife,
            Lowest::Hardware(_) => Role::Hardware,
        };
        let nearest = lines_of(&scene, role)
            .iter()
            .map(|line| distance(line, lowest))
            .fold(f64::INFINITY, f64::min);
        near(&format!("{name}: lowest point"), nearest, 0.0, NEAR_MM);
    }
}

#[test]
fn the_screw_ends_in_the_bed_bar_and_stays_out_of_the_reel() {
    for (name, solved) in settings() {
        let scene = on_plate(&solved);
        let pose = &solved.solution.pose;
        let clears = |at: &Point| at.distance(pose.centre_on_plate) > pose.reel_radius_mm;
        let ends = |line: &BezPath| -> Vec<Point> {
            let elements = line.elements().iter();
            elements.filter_map(PathEl::end_point).collect()
        };
        let bar = &lines_of(&scene, Role::Bar)[0];
        let hardware = lines_of(&scene, Role::Hardware);
        assert!(!hardware.is_empty(), "{name}");
        for head in &hardware {
            assert!(ends(head).iter().all(clears), "{name}: {head:?}");
        }
        // How long the screw is stands in no file: its shank is hinted at, the one part with four corners.
        let hinted = lines_of(&scene, Role::Hint);
        let shanks: Vec<_> = hinted
            .iter()
            .map(|line| ends(line))
            .filter(|at| at.len() == 4)
            .collect();
        assert_eq!(shanks.len(), 1, "{name}");
        assert!(shanks[0].iter().all(clears), "{name}: {shanks:?}");
        let in_bar = shanks[0].iter().filter(|at| bar.contains(**at)).count();
        assert_eq!(in_bar, 2, "{name}: {shanks:?} in {bar:?}");
    }
}

#[test]
fn ring_and_cut_line_stand_at_clip_point_and_height_of_cut() {
    for (name, solved) in settings() {
        let scene = on_plate(&solved);
        let pose = &solved.solution.pose;
        let rings: Vec<Point> = scene
            .of_role(Role::Clip)
            .filter_map(|shape| match shape {
                Shape::Ring(at) => Some(*at),
                _ => None,
            })
            .collect();
        let (centre, edge) = (pose.centre_on_plate, pose.edge_on_plate);
        let clip = centre + (edge - centre).normalize() * pose.reel_radius_mm;
        assert_eq!(rings.len(), 1, "{name}");
        near(&name, rings[0].distance(clip), 0.0, NEAR_MM);
        near(
            &name,
            rings[0].distance(edge),
            solved.unit.setting.gap.mm(),
            NEAR_MM,
        );

        let cut_lines = lines_of(&scene, Role::CutLine);
        assert_eq!(cut_lines.len(), 1, "{name}");
        let cut_line = cut_lines[0].bounding_box();
        let height = pose.height_of_cut.mm();
        near(&name, cut_line.y0, height, NEAR_MM);
        near(&name, cut_line.y1, height, NEAR_MM);
        assert!(
            cut_line.x0 < scene.bounds.x0 && cut_line.x1 > scene.bounds.x1,
            "{name}"
        );
    }
}

#[test]
fn what_hangs_below_the_cut_line_is_as_deep_as_the_sweep_and_as_long_as_the_chord() {
    let mut drawn = 0;
    for (name, solved) in settings() {
        let scene = on_plate(&solved);
        let sweep = &solved.solution.sweep;
        let Some((_, segment)) = below_cut(&scene) else {
            assert!(sweep.below_cut.mm() <= 0.0, "{name}");
            continue;
        };
        drawn += 1;
        let bounds = segment.bounding_box();
        near(&name, bounds.height(), sweep.below_cut.mm(), NEAR_MM);
        near(&name, bounds.width(), sweep.chord.mm(), NEAR_MM);
        near(
            &name,
            bounds.y1,
            solved.solution.pose.height_of_cut.mm(),
            NEAR_MM,
        );
        near(&name, bounds.center().x, sweep.behind_centre.mm(), NEAR_MM);
    }
    assert!(drawn > 12, "{drawn}");
}

#[test]
fn what_hangs_below_the_cut_line_is_drawn_in_the_sweeps_own_level() {
    let mut seen = Vec::new();
    for attitude in ["4 deg", "5 deg", "8 deg", "12 deg"] {
        let mut document = DemoUnit::FairwayTrailed.document();
        document.setting.attitude = angle(attitude);
        let solved = Solved::of(&document).unwrap();
        let sweep = solved
            .findings
            .iter()
            .find(|f| f.id == FindingId::Sweep)
            .unwrap();
        let scene = on_plate(&solved);
        let (level, _) = below_cut(&scene).unwrap();
        assert_eq!(level, sweep.level, "{attitude}");
        let levels = scene.items.iter().filter_map(|item| match item.role {
            Role::BelowCut(level) => Some(level),
            _ => None,
        });
        assert!(levels.into_iter().all(|drawn| drawn == level));
        seen.push(level);
    }
    // R·(1 − cos β) with β a degree more for each of attitude: 2.6 %, 3.8 %, 8.5 % and 17.7 %.
    assert_eq!(seen, [Level::Fine, Level::Fine, Level::Watch, Level::Over]);
}

#[test]
fn a_reel_above_the_cut_line_has_nothing_drawn_below_it() {
    for mut document in demo_units() {
        document.setting.gap = length("5 mm");
        let solved = Solved::of(&document).unwrap();
        assert!(solved.solution.sweep.below_cut.mm() < 0.0);
        let scene = on_plate(&solved);
        let is_drawn = scene
            .items
            .iter()
            .any(|item| matches!(item.role, Role::BelowCut(_)));
        assert!(!is_drawn, "{}", document.name);
    }
}

#[test]
fn the_turfs_surface_passes_under_both_rollers_as_deep_as_they_sink() {
    for (name, solved) in settings() {
        let scene = view(&solved, Standing::Turf, solved.unit.system).scene();
        let surface = lines_of(&scene, Role::Soil);
        assert_eq!(surface.len(), 1, "{name}");
        for roller in [
            &solved.solution.pose.front_roller,
            &solved.solution.pose.rear_roller,
        ] {
            let from_centre = distance(surface[0], roller.centre);
            let sunk = roller.radius_mm - from_centre;
            // The surface is drawn in steps, which a crest of a few metres hardly shows.
            near(&name, sunk, solved.unit.sink.rollers.mm(), 0.02);
        }
    }
}

/// MODEL: on the ground the cut is the edge's distance to it, the sweep that cut without the reel's clearance.
#[test]
fn on_its_ground_the_cut_line_lies_as_far_over_it_as_the_cut_and_the_sweep_hangs_below_that() {
    let (mut drawn, mut curved) = (0, 0);
    for (name, solved) in settings() {
        let solution = &solved.solution;
        let (terrain, on_ground) = (solution.terrain, &solution.on_ground);
        let scene = view(&solved, Standing::Turf, solved.unit.system).scene();
        let over_ground = |place: Point| terrain.clearance(place).mm();
        let cut_lines = lines_of(&scene, Role::CutLine);
        assert_eq!(cut_lines.len(), 1, "{name}");
        for corner in cut_lines[0]
            .elements()
            .iter()
            .filter_map(kurbo::PathEl::end_point)
        {
            near(&name, over_ground(corner), on_ground.cut.mm(), NEAR_MM);
        }
        let arc = scene.items.iter().find_map(|item| match &item.shape {
            Shape::Line(path) if matches!(item.role, Role::BelowCut(_)) => Some(path),
            _ => None,
        });
        let Some(arc) = arc else {
            assert!(on_ground.sweep.mm() <= NEAR_MM, "{name}");
            continue;
        };
        drawn += 1;
        curved += i32::from(!terrain.is_level());
        let places: Vec<Point> = arc
            .segments()
            .flat_map(|piece| (0..=50).map(move |part| piece.eval(f64::from(part) / 50.0)))
            .collect();
        for end in [places[0], places[places.len() - 1]] {
            near(&name, over_ground(end), on_ground.cut.mm(), NEAR_MM);
        }
        let deepest = places.iter().map(|place| over_ground(*place));
        let deepest = on_ground.cut.mm() - deepest.fold(f64::INFINITY, f64::min);
        near(&name, deepest, on_ground.sweep.mm(), 1e-4);
        let told = solved.unit.system.length(on_ground.sweep);
        assert!(
            scene.words().any(|word| word.contains(&told)),
            "{name}: {told}"
        );
    }
    assert!(drawn > 12 && curved > 3, "{drawn}, {curved}");
}

// What is written.

/// The dimensions of a scene with what each measures.
fn dimensions(scene: &Scene) -> Vec<(&Dimension, f64)> {
    let measured = |dimension: &Dimension| match dimension.direction {
        Direction::Across => (dimension.to.x - dimension.from.x).abs(),
        Direction::Up => (dimension.to.y - dimension.from.y).abs(),
        Direction::Along => dimension.to.distance(dimension.from),
    };
    scene
        .items
        .iter()
        .filter_map(|item| match &item.shape {
            Shape::Dimension(dimension) => Some((dimension, measured(dimension))),
            _ => None,
        })
        .collect()
}

#[test]
fn every_dimension_is_lettered_with_the_solutions_number_and_measures_it() {
    for (name, solved) in settings() {
        let solution = &solved.solution;
        let (sweep, pose) = (&solution.sweep, &solution.pose);
        for system in System::ALL {
            let scene = view(&solved, Standing::Plate, system).scene();
            let share = solution.sweep_share.map(|share| system.share(share));
            let below = system.length(sweep.below_cut);
            // In the lens with what the readings leave open.
            let off = |output| match solved.uncertainty.expanded(output) {
                mm if mm > 0.0 => format!(" ± {}", system.length(Length::from_mm(mm))),
                _ => String::new(),
            };
            let behind = if sweep.behind_centre.mm() < 0.0 {
                format!("ahead of centre {}", system.length(-sweep.behind_centre))
            } else {
                format!("behind centre {}", system.length(sweep.behind_centre))
            };
            let behind_off = format!("{behind}{}", off(NumberId::BehindCentre));
            let below_off = off(NumberId::SweepBelowCut);
            // Where the sweep is the worst finding, its number says so.
            let worst = SideView::of(&solved).worst_place();
            let level =
                worst.filter(|w| w.finding == FindingId::Sweep && sweep.below_cut.mm() > 0.0);
            let level = level.map_or(String::new(), |w| format!("{}: ", w.standing));
            let wanted = [
                (behind, sweep.behind_centre),
                (behind_off, sweep.behind_centre),
                (
                    format!("height of cut {}", system.length(pose.height_of_cut)),
                    pose.height_of_cut,
                ),
                (format!("{level}sweep {below}"), sweep.below_cut),
            ];
            let drawn = dimensions(&scene);
            assert_eq!(drawn.len(), 4, "{name}");
            for (text, number) in &wanted {
                let times = wanted.iter().filter(|(other, _)| other == text).count();
                let found: Vec<_> = drawn.iter().filter(|(d, _)| d.text == *text).collect();
                assert_eq!(found.len(), times, "{name}: {text}");
                for (_, measured) in found {
                    near(text, *measured, number.mm().abs(), 1e-9);
                }
            }

            let angles: Vec<(&str, f64)> = scene
                .items
                .iter()
                .filter_map(|item| match &item.shape {
                    Shape::Angle { from, to, text, .. } => {
                        let between = from.cross(*to).atan2(from.dot(*to));
                        Some((text.as_str(), between.to_degrees().abs()))
                    }
                    _ => None,
                })
                .collect();
            let wanted = [
                (
                    format!("attitude {}", system.angle(pose.attitude)),
                    pose.attitude,
                ),
                (
                    format!("clip angle {}", system.angle(sweep.clip_angle)),
                    sweep.clip_angle,
                ),
            ];
            assert_eq!(angles.len(), wanted.len(), "{name}");
            for ((text, measured), (wanted, angle)) in angles.into_iter().zip(wanted) {
                assert_eq!(text, wanted, "{name}");
                near(text, measured, angle.deg().abs(), 1e-7);
            }

            let reel = system.length(solved.unit.setting.reel_diameter);
            let mut labels = vec![format!("Ø {reel}"), "reel".to_owned()];
            for roller in [&pose.front_roller, &pose.rear_roller] {
                let diameter = Length::from_mm(2.0 * roller.radius_mm);
                labels.push(format!("Ø {}", system.length(diameter)));
            }
            if sweep.below_cut.mm() > 0.0
                && let Some(share) = share
            {
                // Level and share both would crowd what stands beside the number.
                labels.push(match level.as_str() {
                    "" => format!("sweep {below} ({share})"),
                    level => format!("{level}sweep {below}"),
                });
                // The number once, its share and its ± each beside what they are of.
                labels.push(format!("{share} of the height of cut"));
                if !below_off.is_empty() {
                    labels.push(format!("{} of the readings", below_off.trim_start()));
                }
            }
            if pose.height_of_cut.mm() > 0.0 {
                labels.push(format!(
                    "height of cut {}",
                    system.length(pose.height_of_cut)
                ));
            }
            for label in labels {
                assert!(scene.words().any(|word| word == label), "{name}: {label}");
            }
        }
    }
}

// The lens.

fn paper_length(view: &View, way: Vec2) -> f64 {
    let paper_from_world = view.paper_from_world();
    (paper_from_world * way.to_point() - paper_from_world * Point::ORIGIN).hypot()
}

fn texts(panel: &Panel) -> Vec<&str> {
    panel
        .marks
        .iter()
        .filter_map(|mark| match mark {
            Mark::Text { text, .. } => Some(text.as_str()),
            _ => None,
        })
        .collect()
}

fn choices() -> impl Iterator<Item = LensChoice> {
    let enlargements = ENLARGEMENTS.into_iter().map(Some).chain([None]);
    enlargements.flat_map(|enlargement| {
        STRETCHES.into_iter().map(move |stretch| LensChoice {
            enlargement,
            stretch,
        })
    })
}

#[test]
fn the_lens_is_true_to_the_scale_it_writes() {
    for (name, solved) in settings() {
        for choice in choices() {
            let lens = Lens::on(&solved.solution, choice, PAPER, solved.unit.system);
            let enlargement = lens.enlargement();
            if let Some(chosen) = choice.enlargement {
                near(&name, enlargement, chosen, 1e-12);
            } else {
                assert!(ENLARGEMENTS.contains(&enlargement), "{name}: {enlargement}");
            }
            let across = paper_length(&lens.view, Vec2::new(1.0, 0.0));
            let up = paper_length(&lens.view, Vec2::new(0.0, 1.0));
            near(&name, across, enlargement * 96.0 / 25.4, 1e-9);
            near(&name, up, across * choice.stretch, 1e-9);
            // Whatever is enlarged, the edge is in it.
            assert!(
                PAPER.contains(lens.view.paper_from_world() * solved.solution.pose.edge_on_plate)
            );

            let panel = lens.panel(&Scene::default(), Theme::Light);
            let words = texts(&panel);
            assert_eq!(lens.view.written_scale(), format!("{enlargement}:1"));
            assert!(
                words.contains(&format!("Lens A, section, {enlargement}:1").as_str()),
                "{words:?}"
            );
            let told: Vec<_> = words
                .iter()
                .filter(|word| word.contains("stretched"))
                .collect();
            if choice.stretch > 1.0 {
                assert_eq!(told, [&format!("stretched upwards ×{}", choice.stretch)]);
            } else {
                assert!(told.is_empty(), "{told:?}");
            }
        }
    }
}

#[test]
fn a_lens_left_to_itself_shows_edge_lowest_point_and_sweep() {
    for (name, solved) in settings() {
        let lens = Lens::on(
            &solved.solution,
            LensChoice::default(),
            PAPER,
            solved.unit.system,
        );
        let world = lens.view.world();
        let pose = &solved.solution.pose;
        assert!(world.contains(pose.edge_on_plate), "{name}");
        assert!(world.contains(pose.lowest_of_reel_on_plate()), "{name}");
        assert!(world.contains(pose.clip_point_on_plate()), "{name}");
    }
}

#[test]
fn what_is_held_still_stays_where_it_is_in_the_lens_and_the_scale_with_it() {
    let mut compared = 0;
    let before = Solved::of(&DemoUnit::KnifeChoice.document()).unwrap();
    for (name, after) in settings() {
        for hold in Hold::ALL {
            let fitted = Lens::on(
                &before.solution,
                LensChoice::default(),
                PAPER,
                System::Millimetre,
            );
            let aim = fitted.aim(hold, &before.case());
            let shown = |solved: &Solved| {
                let lens = Lens::aimed(aim, &solved.case(), 1.0, PAPER, System::Millimetre);
                near(&name, lens.enlargement(), fitted.enlargement(), 1e-12);
                lens.view.paper_from_world() * hold.place(&solved.case())
            };
            near(&name, shown(&before).distance(shown(&after)), 0.0, 1e-6);
            // Holding something else still moves the lens nowhere by itself.
            for other in Hold::ALL {
                let changed = aim.holding(other, &before.case());
                let lens = Lens::aimed(changed, &before.case(), 1.0, PAPER, System::Millimetre);
                near(
                    &name,
                    lens.view.middle.distance(fitted.view.middle),
                    0.0,
                    1e-6,
                );
            }
            compared += 1;
        }
    }
    assert!(compared > 100, "{compared}");
}

#[test]
fn ground_and_cut_line_are_both_in_the_lens_at_any_stretch_where_they_fit() {
    let mut shown = 0;
    for (name, solved) in settings() {
        let height = solved.solution.pose.height_of_cut.mm();
        for choice in choices() {
            let lens = Lens::on(&solved.solution, choice, PAPER, solved.unit.system);
            let world = lens.view.world();
            if height > 0.0 && height < 0.68 * world.height() {
                shown += 1;
                assert!(world.y0 < 0.0 && height < world.y1, "{name}: {choice:?}");
            }
        }
    }
    assert!(shown > 300, "{shown}");
}

#[test]
fn a_lens_gets_ground_and_cut_line_back_into_view_at_its_scale_unless_its_place_was_chosen() {
    let before = Solved::of(&DemoUnit::KnifeChoice.document()).unwrap();
    let system = System::Millimetre;
    let mut moved = 0;
    for choice in choices() {
        let fitted = Lens::on(&before.solution, choice, PAPER, system);
        for (name, after) in settings() {
            let height = after.solution.pose.height_of_cut.mm();
            for hold in Hold::ALL {
                let aim = fitted.aim(hold, &before.case());
                let (case, stretch) = (after.case(), choice.stretch);
                let on_plate = view(&after, Standing::Plate, system);
                let back = aim.with_ground_and_cut(&on_plate, stretch, PAPER.height());
                let lens = Lens::aimed(back, &case, stretch, PAPER, system);
                near(&name, lens.enlargement(), fitted.enlargement(), 1e-12);
                let world = lens.view.world();
                if height > 0.0 && height < 0.68 * world.height() {
                    assert!(world.y0 < 0.0 && height < world.y1, "{name}: {choice:?}");
                    moved += usize::from(back != aim);
                }
                let chosen = aim.dragged(Vec2::new(3.0, 200.0), &fitted.view);
                let left = chosen.with_ground_and_cut(&on_plate, stretch, PAPER.height());
                assert_eq!(left, chosen, "{name}");
            }
        }
    }
    assert!(moved > 100, "{moved}");
}

#[test]
fn a_place_and_a_scale_that_were_chosen_stay_while_the_paper_changes() {
    let solved = Solved::of(&DemoUnit::KnifeChoice.document()).unwrap();
    let system = System::Millimetre;
    for choice in choices() {
        let fitted = Lens::on(&solved.solution, choice, PAPER, system);
        let aim = fitted.aim(Hold::Edge, &solved.case());
        assert_eq!(aim.kept(false), None, "left to itself it is fitted anew");
        let chosen = aim.dragged(Vec2::new(30.0, 20.0), &fitted.view);
        let kept = chosen.kept(false).expect("somebody chose the place");
        let smaller = Rect::new(0.0, 0.0, 300.0, 200.0);
        let at = |window| Lens::aimed(kept, &solved.case(), choice.stretch, window, system);
        let (before, after) = (at(PAPER), at(smaller));
        near(
            "place",
            before.view.middle.distance(after.view.middle),
            0.0,
            1e-9,
        );
        near("scale", after.enlargement(), fitted.enlargement(), 1e-12);
        // Another scale is told of the same place.
        let closer = kept.enlarged(50.0);
        let closer = Lens::aimed(closer, &solved.case(), choice.stretch, PAPER, system);
        near(
            "place",
            before.view.middle.distance(closer.view.middle),
            0.0,
            1e-9,
        );
        near("scale", closer.enlargement(), 50.0, 1e-12);
    }
}

#[test]
fn the_place_of_the_worst_finding_is_hatched_in_its_level() {
    let solved = Solved::of(&DemoUnit::GreensScalping.document()).unwrap();
    let view = SideView::of(&solved);
    let worst = view.worst_place().expect("something is over");
    assert_eq!(
        (worst.finding, worst.level),
        (FindingId::Sweep, Level::Over)
    );
    let scene = view.scene();
    let (_, below) = below_cut(&scene).unwrap();
    assert!(below.bounding_box().contains(worst.at));
    let hatched: Vec<_> = scene
        .of_role(Role::Worst(Level::Over))
        .filter(|shape| matches!(shape, Shape::Hatch(_)))
        .collect();
    assert_eq!(hatched.len(), 1);
    let fine = Solved::of(&DemoUnit::TurningBar.document()).unwrap();
    assert_eq!(fine.findings.shown_level(), Level::Fine);
    assert!(SideView::of(&fine).worst_place().is_none());
}

#[test]
fn the_slot_of_a_bar_that_slides_stands_over_the_plate_at_its_screws() {
    let mut drawn = 0;
    for demo in DemoUnit::ALL {
        let mut document = demo.document();
        document.closing = ClosingReadings::KnifeSlides { lean: None };
        let Ok(solved) = Solved::of(&document) else {
            continue;
        };
        let scene = on_plate(&solved);
        let outlines = scene.of_role(Role::Hint).filter_map(|shape| match shape {
            Shape::Line(path) => Some(path.bounding_box()),
            _ => None,
        });
        let hold = Hold::Screws.place(&solved.case());
        let slot = outlines
            .filter(|place| place.contains(hold))
            .min_by(|a, b| a.area().total_cmp(&b.area()))
            .expect("a slot about the screws");
        let radius = solved.solution.pose.reel_radius_mm;
        assert!(slot.height() < 0.5 * radius, "{demo:?}: {slot:?}");
        assert!(slot.y0 > -1e-9, "{demo:?}: {slot:?}");
        drawn += 1;
    }
    assert!(drawn > 3, "{drawn}");
}

/// The scale bars of a lens: where each line runs, and what is written at its end.
fn bars(panel: &Panel) -> Vec<(Line, f64)> {
    let bars = panel.marks.iter().filter_map(|mark| match mark {
        Mark::Stroke {
            role: Role::Heading,
            path,
            pen: Pen::Wide(wide),
        } if *wide > 1.9 => match path.elements() {
            [PathEl::MoveTo(from), PathEl::LineTo(to)] => Some(Line::new(*from, *to)),
            other => panic!("no plain bar: {other:?}"),
        },
        _ => None,
    });
    bars.map(|bar| {
        let beside = panel.marks.iter().find_map(|mark| match mark {
            Mark::Text { at, text, .. } if at.distance(bar.p1) < 12.0 => {
                Some(Quantity::<Length>::parse(text).unwrap().value().mm())
            }
            _ => None,
        });
        (bar, beside.expect("a bar with its length"))
    })
    .collect()
}

#[test]
fn a_scale_bar_is_as_long_as_it_says() {
    let document = DemoUnit::GreensWalking.document();
    let solved = Solved::of(&document).unwrap();
    for system in System::ALL {
        for choice in choices() {
            let lens = Lens::on(&solved.solution, choice, PAPER, system);
            let panel = lens.panel(&Scene::default(), Theme::Light);
            let bars = bars(&panel);
            let is_stretched = choice.stretch > 1.0;
            assert_eq!(
                bars.len(),
                if is_stretched { 2 } else { 1 },
                "{system:?} {choice:?}"
            );
            for (bar, says_mm) in bars {
                let world_from_paper = lens.view.world_from_paper();
                let drawn_mm = (world_from_paper * bar.p1).distance(world_from_paper * bar.p0);
                // A bar has a round length: what it says is all of it.
                near(
                    &format!("{system:?} {choice:?}"),
                    drawn_mm,
                    says_mm,
                    1e-9 * says_mm,
                );
                let on_paper = bar.p0.distance(bar.p1);
                assert!(
                    (20.0..=0.3 * PAPER.width() + 1e-9).contains(&on_paper),
                    "{on_paper}"
                );
                assert!(PAPER.contains(bar.p0) && PAPER.contains(bar.p1));
            }
        }
    }
}

#[test]
fn the_enlarged_part_is_framed_on_the_whole() {
    for (name, solved) in settings() {
        let scene = on_plate(&solved);
        let whole = View::fitting(scene.bounds, PAPER);
        let lens = Lens::on(
            &solved.solution,
            LensChoice::default(),
            PAPER,
            System::Millimetre,
        );
        let panel = lens.marks_on_whole(&whole, Theme::Light);
        let frame = panel.marks.iter().find_map(|mark| match mark {
            Mark::Stroke {
                role: Role::LensFrame,
                path,
                ..
            } => Some(path.bounding_box()),
            _ => None,
        });
        let place = whole
            .world_from_paper()
            .transform_rect_bbox(frame.expect("a frame"));
        // What stands under the lens's title.
        let lens_panel = lens.panel(&scene, Theme::Light);
        let outlines = lens_panel.marks.iter().filter_map(|mark| match mark {
            Mark::Stroke {
                role: Role::LensFrame,
                path,
                ..
            } => Some(path.bounding_box()),
            _ => None,
        });
        let shown: Vec<Rect> = outlines.collect();
        let half = 0.5 * Theme::Light.look(Role::LensFrame).width;
        let [shown] = shown[..] else {
            panic!("{name}: {} frames", shown.len());
        };
        assert!(
            shown.height() > 0.8 * PAPER.height() && shown.y0 > PAPER.y0 + 20.0,
            "{name}"
        );
        let shown = lens
            .view
            .world_from_paper()
            .transform_rect_bbox(shown.inflate(half, half));
        near_rect(&name, place, shown);
        assert_eq!(texts(&panel), ["A"]);
    }
}

// Marks on paper.

#[track_caller]
fn assert_finite(name: &str, panel: &Panel) {
    for mark in &panel.marks {
        let is_finite = match mark {
            Mark::Stroke { path, .. } | Mark::Fill { path, .. } => path.is_finite(),
            Mark::Text { at, size, .. } => at.is_finite() && size.is_finite(),
        };
        assert!(is_finite, "{name}: {mark:?}");
    }
}

#[track_caller]
fn lay_out_everything(name: &str, scene: &Scene, whole: View, lens: Lens) {
    let canvas = Canvas {
        whole,
        lens: Some(lens),
    };
    let panels = canvas.panels(scene, Theme::Dark);
    assert_eq!(panels.len(), 3);
    for panel in &panels {
        assert_finite(name, panel);
    }
}

#[test]
fn no_mark_is_lost_to_infinity_however_far_in_or_out_a_view_goes() {
    for document in demo_units() {
        let solved = Solved::of(&document).unwrap();
        for standing in [Standing::Plate, Standing::Turf] {
            let scene = view(&solved, standing, solved.unit.system).scene();
            let fitting = View::fitting(scene.bounds, PAPER);
            let held = fitting.paper_from_world() * solved.solution.pose.edge_on_plate;
            let views = [
                fitting,
                fitting.zoomed(1e-9, held),
                fitting.zoomed(40.0, held),
                fitting.zoomed(1e9, held),
                fitting.zoomed(1e9, PAPER.center()),
                fitting.dragged(Vec2::new(1e7, -1e7)),
                fitting
                    .zoomed(1e9, held)
                    .dragged(Vec2::new(-3000.0, 2000.0)),
                View::fitting(Rect::from_center_size((3.0, 4.0), (0.0, 0.0)), PAPER),
                View::fitting(scene.bounds, Rect::new(0.0, 0.0, 1.0, 1.0)),
            ];
            for whole in views {
                for (enlargement, stretch) in [(None, 1.0), (Some(1.0), 10.0), (Some(80.0), 10.0)] {
                    let choice = LensChoice {
                        enlargement,
                        stretch,
                    };
                    let lens = Lens::on(&solved.solution, choice, PAPER, solved.unit.system);
                    lay_out_everything(&document.name, &scene, whole, lens);
                }
            }
        }
    }
}

#[test]
fn paper_too_small_for_anything_still_takes_a_drawing() {
    for document in demo_units() {
        let solved = Solved::of(&document).unwrap();
        let scene = on_plate(&solved);
        for (width, height) in [(1.0, 1.0), (15.0, 900.0), (900.0, 12.0), (40.0, 25.0)] {
            let window = Rect::new(10.0, 10.0, 10.0 + width, 10.0 + height);
            let (whole, lens) = Canvas::split(window, true);
            let canvas = Canvas {
                whole: View::fitting(scene.bounds, whole),
                lens: lens.map(|window| {
                    let choice = LensChoice::default();
                    Lens::on(&solved.solution, choice, window, solved.unit.system)
                }),
            };
            assert_eq!(canvas.panels(&scene, Theme::Light).len(), 3);
            // The same paper, seen from above the clip point.
            let view = View::fitting(scene.bounds, window);
            let held = view.paper_from_world() * solved.solution.pose.edge_on_plate;
            let view = view.zoomed(50.0, held);
            assert_finite(
                &document.name,
                &lay_out(&scene, &view, ShownIn::Lens, Theme::Light),
            );
        }
    }
}

/// One shape alone, laid out.
fn alone(item: &Item, scene: &Scene, view: &View, theme: Theme) -> Panel {
    let scene = Scene {
        items: vec![Item {
            shown_in: ShownIn::Both,
            ..item.clone()
        }],
        bounds: scene.bounds,
    };
    lay_out(&scene, view, ShownIn::Whole, theme)
}

fn views_of(solved: &Solved, scene: &Scene) -> [(ShownIn, View); 2] {
    let lens = Lens::on(
        &solved.solution,
        LensChoice::default(),
        PAPER,
        solved.unit.system,
    );
    [
        (ShownIn::Whole, View::fitting(scene.bounds, PAPER)),
        (ShownIn::Lens, lens.view),
    ]
}

fn straight_pieces(path: &BezPath) -> Vec<Line> {
    path.segments()
        .map(|segment| Line::new(segment.start(), segment.end()))
        .collect()
}

fn flat(path: &BezPath) -> BezPath {
    let mut flat = BezPath::new();
    kurbo::flatten(path, 0.01, |element| flat.push(element));
    flat
}

#[test]
fn hatching_stays_within_its_outline() {
    let mut lines = 0;
    for (name, solved) in settings() {
        for standing in [Standing::Plate, Standing::Turf] {
            let scene = view(&solved, standing, solved.unit.system).scene();
            for (_, view) in views_of(&solved, &scene) {
                for item in &scene.items {
                    let Shape::Hatch(_) = item.shape else {
                        continue;
                    };
                    let panel = alone(item, &scene, &view, Theme::Light);
                    // In straight pieces: what lies in a shallow curve is hard to tell.
                    let outline = panel.marks.iter().find_map(|mark| match mark {
                        Mark::Fill { path, .. } => Some(flat(path)),
                        _ => None,
                    });
                    let hatching = panel.marks.iter().filter_map(|mark| match mark {
                        Mark::Stroke {
                            path,
                            pen: Pen::Hatching,
                            ..
                        } => Some(path),
                        _ => None,
                    });
                    for line in hatching.flat_map(straight_pieces) {
                        lines += 1;
                        let outline = outline.as_ref().expect("a filled outline");
                        for part in [0.0, 0.02, 0.5, 0.98, 1.0] {
                            let point = line.eval(part);
                            let is_within =
                                outline.contains(point) || distance(outline, point) < NEAR_PAPER;
                            assert!(is_within, "{name}: {:?} {point:?}", item.role);
                        }
                    }
                }
            }
        }
    }
    assert!(lines > 5000, "{lines}");
}

/// A filled arrowhead's tip: the first of its three corners.
fn tip(path: &BezPath) -> Point {
    match path.elements() {
        [
            PathEl::MoveTo(tip),
            PathEl::LineTo(_),
            PathEl::LineTo(_),
            PathEl::ClosePath,
        ] => *tip,
        other => panic!("no arrowhead: {other:?}"),
    }
}

#[test]
fn the_arrowheads_of_a_dimension_touch_its_extension_lines_or_the_places_measured() {
    let mut seen = 0;
    let mut standings = [Standing::Plate, Standing::Turf, Standing::Crest]
        .iter()
        .cycle();
    for (name, solved) in settings() {
        let standing = *standings.next().unwrap();
        let scene = view(&solved, standing, solved.unit.system).scene();
        for (shown_in, view) in views_of(&solved, &scene) {
            for item in &scene.items {
                let Shape::Dimension(dimension) = &item.shape else {
                    continue;
                };
                if item.shown_in != ShownIn::Both && item.shown_in != shown_in {
                    continue;
                }
                seen += 1;
                let panel = alone(item, &scene, &view, Theme::Light);
                let tips: Vec<Point> = panel
                    .marks
                    .iter()
                    .filter_map(|mark| match mark {
                        Mark::Fill { path, .. } => Some(tip(path)),
                        _ => None,
                    })
                    .collect();
                assert_eq!(tips.len(), 2, "{name}");
                let places = [dimension.from, dimension.to].map(|p| view.paper_from_world() * p);
                let lines: Vec<Line> = panel
                    .marks
                    .iter()
                    .filter_map(|mark| match mark {
                        Mark::Stroke { path, .. } => Some(straight_pieces(path)),
                        _ => None,
                    })
                    .flatten()
                    .collect();
                // Square to the dimension: an extension line runs the other way.
                let measured = (places[1] - places[0]).normalize();
                let is_extension = |line: &&Line| {
                    let way = line.p1 - line.p0;
                    match dimension.direction {
                        Direction::Along => way.normalize().dot(measured).abs() < 1e-6,
                        Direction::Across => way.x.abs() < 1e-6 && way.y.abs() > 1e-6,
                        Direction::Up => way.y.abs() < 1e-6 && way.x.abs() > 1e-6,
                    }
                };
                for (tip, place) in tips.into_iter().zip(places) {
                    let to_line = lines
                        .iter()
                        .filter(is_extension)
                        .map(|line| line.nearest(tip, 1e-9).distance_sq.sqrt())
                        .fold(f64::INFINITY, f64::min);
                    let apart = to_line.min(tip.distance(place));
                    near(&format!("{name}: {}", dimension.text), apart, 0.0, 1e-6);
                    let aside = match dimension.direction {
                        Direction::Across => tip.x - place.x,
                        Direction::Up => tip.y - place.y,
                        Direction::Along => (tip - place).dot(measured),
                    };
                    near(&format!("{name}: {}", dimension.text), aside, 0.0, 1e-6);
                }
            }
        }
    }
    assert!(seen > 100, "{seen}");
}

/// ISO 129-1: an angle's arc has an arrowhead at either leg.
#[test]
fn the_arrowheads_of_an_angle_touch_both_its_legs() {
    let mut seen = 0;
    for (name, solved) in settings() {
        let scene = on_plate(&solved);
        for (shown_in, view) in views_of(&solved, &scene) {
            for item in &scene.items {
                let Shape::Angle {
                    apex,
                    from,
                    to,
                    radius_mm,
                    ..
                } = &item.shape
                else {
                    continue;
                };
                if item.shown_in != ShownIn::Both && item.shown_in != shown_in {
                    continue;
                }
                seen += 1;
                let panel = alone(item, &scene, &view, Theme::Light);
                let tips = panel.marks.iter().filter_map(|mark| match mark {
                    Mark::Fill { path, .. } => Some(tip(path)),
                    _ => None,
                });
                let tips: Vec<Point> = tips.collect();
                assert_eq!(tips.len(), 2, "{name}");
                for (tip, leg) in tips.into_iter().zip([from, to]) {
                    let on_leg = *apex + leg.normalize() * *radius_mm;
                    let on_leg = view.paper_from_world() * on_leg;
                    near(&name, tip.distance(on_leg), 0.0, 1e-6);
                }
            }
        }
    }
    assert!(seen > 50, "{seen}");
}

#[test]
fn an_angle_that_is_not_shown_has_no_number() {
    let solved = Solved::of(&DemoUnit::FairwayTrailed.document()).unwrap();
    let scene = on_plate(&solved);
    let front = solved.solution.pose.front_roller.centre;
    let view = View::fitting(Rect::from_center_size(front, (120.0, 100.0)), PAPER);
    let panel = lay_out(&scene, &view, ShownIn::Whole, Theme::Light);
    let words = texts(&panel);
    assert!(words.contains(&"front roller"), "{words:?}");
    let is_angle = |word: &&str| word.contains('°');
    assert!(!words.iter().any(is_angle), "{words:?}");
}

/// ISO 129-1: a diameter's line points at the circle's middle and ends at the circle.
#[test]
fn the_line_of_a_diameter_ends_on_its_circle_and_points_at_its_middle() {
    let mut seen = 0;
    for (name, solved) in settings() {
        let scene = on_plate(&solved);
        let view = View::fitting(scene.bounds, PAPER);
        for item in &scene.items {
            let Shape::Diameter {
                centre, radius_mm, ..
            } = &item.shape
            else {
                continue;
            };
            seen += 1;
            let panel = alone(item, &scene, &view, Theme::Light);
            let middle = view.paper_from_world() * *centre;
            let mut has_head = false;
            for mark in &panel.marks {
                match mark {
                    Mark::Fill { path, .. } => {
                        has_head = true;
                        let off = tip(path).distance(middle) - radius_mm * view.scale;
                        near(&name, off, 0.0, 1e-6);
                    }
                    Mark::Stroke { path, .. } => {
                        let line = straight_pieces(path)[0];
                        near(
                            &name,
                            (line.p1 - line.p0).cross(middle - line.p0),
                            0.0,
                            1e-3,
                        );
                    }
                    Mark::Text { .. } => {}
                }
            }
            assert!(has_head, "{name}");
        }
    }
    assert!(seen > 50, "{seen}");
}

/// How many times larger a style is: a power of four, which every sum of layout carries exactly.
const LARGER: f64 = 4.0;

/// A mark as a style so much larger lays it out.
fn enlarged(mark: &Mark) -> Mark {
    let larger = kurbo::Affine::scale(LARGER);
    let mut mark = mark.clone();
    match &mut mark {
        Mark::Stroke { path, .. } | Mark::Fill { path, .. } => path.apply_affine(larger),
        Mark::Text { at, size, .. } => {
            *at = larger * *at;
            *size *= LARGER;
        }
    }
    mark
}

/// The places of a mark, and what of it does not move.
fn taken_apart(mark: &Mark) -> (Vec<Point>, Mark) {
    let mut rest = mark.clone();
    let mut places = Vec::new();
    match &mut rest {
        Mark::Stroke { path, .. } | Mark::Fill { path, .. } => {
            for element in std::mem::take(path) {
                match element {
                    PathEl::MoveTo(p) | PathEl::LineTo(p) => places.push(p),
                    PathEl::QuadTo(c, p) => places.extend([c, p]),
                    PathEl::CurveTo(c, d, p) => places.extend([c, d, p]),
                    PathEl::ClosePath => {}
                }
            }
        }
        Mark::Text { at, size, .. } => {
            places.extend([std::mem::take(at), Point::new(*size, 0.0)]);
            *size = 0.0;
        }
    }
    (places, rest)
}

/// What lies under a glass is laid out as without it, its words alone being smaller: so the place looked at
/// stays where it is.
#[test]
fn the_whole_unit_stands_where_it_stood_under_a_glass() {
    let place = kurbo::Rect::new(20.0, 60.0, 1000.0, 560.0);
    for (name, solved) in settings() {
        let bounds = SideView::of(&solved).scene().bounds;
        let plain = Style {
            text: 1.4,
            ..Style::from(Theme::Light)
        };
        let under_glass = Style {
            text: plain.text / 3.0,
            enlarged: 3.0,
            ..plain
        };
        let views = [plain, under_glass].map(|style| Canvas::whole_in_window(bounds, place, style));
        assert!((views[0].scale - views[1].scale).abs() < 1e-9, "{name}");
        let [one, other] = views.map(|view| view.paper_from_world() * kurbo::Point::ORIGIN);
        assert!((one - other).hypot() < 1e-9, "{name}");
    }
}

#[test]
fn a_picture_in_a_larger_style_has_the_same_marks_as_much_larger() {
    let style = Style {
        theme: Theme::Light,
        text: LARGER,
        pen: LARGER,
        words: Words::All,
        numbers: Numbers::Shown,
        enlarged: 1.0,
    };
    let larger = kurbo::Affine::scale(LARGER);
    for (name, solved) in settings() {
        let scene = view(&solved, Standing::Turf, solved.unit.system).scene();
        for (shown_in, view) in views_of(&solved, &scene) {
            let large_view = View {
                window: larger.transform_rect_bbox(view.window),
                scale: LARGER * view.scale,
                ..view
            };
            let plain = lay_out(&scene, &view, shown_in, Theme::Light);
            let large = lay_out(&scene, &large_view, shown_in, style);
            assert_eq!(large.marks.len(), plain.marks.len(), "{name}");
            for (plain, large) in plain.marks.iter().zip(&large.marks) {
                let ((wanted, kind), (got, same_kind)) =
                    (taken_apart(&enlarged(plain)), taken_apart(large));
                assert_eq!(kind, same_kind, "{name}");
                assert_eq!(wanted.len(), got.len(), "{name}: {kind:?}");
                for (wanted, got) in wanted.into_iter().zip(got) {
                    near(
                        &name,
                        wanted.distance(got),
                        0.0,
                        1e-6 * (1.0 + wanted.to_vec2().hypot()),
                    );
                }
            }
        }
    }
}

#[test]
fn words_and_pens_are_as_large_as_a_style_says() {
    let solved = Solved::of(&DemoUnit::GreensWalking.document()).unwrap();
    let scene = on_plate(&solved);
    let view = View::fitting(scene.bounds, PAPER);
    let sizes = |panel: &Panel| -> Vec<f64> {
        let size = |mark: &Mark| match mark {
            Mark::Text { size, .. } => Some(*size),
            _ => None,
        };
        panel.marks.iter().filter_map(size).collect()
    };
    let styled = |text, pen| Style {
        theme: Theme::Dark,
        text,
        pen,
        words: Words::All,
        numbers: Numbers::Shown,
        enlarged: 1.0,
    };
    let plain = lay_out(&scene, &view, ShownIn::Whole, Theme::Dark);
    let wide = lay_out(&scene, &view, ShownIn::Whole, styled(1.0, 3.0));
    assert_eq!(sizes(&plain), sizes(&wide), "pens leave words alone");
    let small = lay_out(&scene, &view, ShownIn::Whole, styled(0.5, 1.0));
    // The sweep's number is larger than the rest.
    let is_half = |size: &f64| {
        [6.75, 1.5 * 6.75]
            .iter()
            .any(|half| (size - half).abs() < 1e-12)
    };
    assert!(sizes(&small).iter().all(is_half), "{:?}", sizes(&small));
    assert!(sizes(&small).iter().any(|size| *size > 7.0));
    for role in [Role::Plate, Role::CutLine, Role::Knife] {
        for pen in [Pen::Outline, Pen::Wide(1.5), Pen::Hatching] {
            let (ink, width) = plain.style.inked(role, pen);
            let (same_ink, wider) = wide.style.inked(role, pen);
            assert_eq!(ink, same_ink);
            near("width", wider, 3.0 * width, 1e-12);
        }
    }
}

#[test]
fn curves_stay_curves_until_they_are_painted() {
    let solved = Solved::of(&DemoUnit::GreensWalking.document()).unwrap();
    let scene = on_plate(&solved);
    let view = View::fitting(scene.bounds, PAPER);
    let panel = lay_out(&scene, &view, ShownIn::Whole, Theme::Light);
    let rim = panel.marks.iter().find_map(|mark| match mark {
        Mark::Stroke {
            role: Role::TipCircle,
            path,
            ..
        } => Some(path),
        _ => None,
    });
    let is_curved = |element: &PathEl| matches!(element, PathEl::CurveTo(..));
    assert!(rim.expect("a rim").elements().iter().any(is_curved));
    let sheet = sheet(
        &DemoUnit::GreensWalking.document(),
        &solved,
        Standing::Plate,
        System::Millimetre,
    );
    assert!(to_svg(&sheet).contains('C'));
}

#[test]
fn a_texts_width_is_what_the_painters_set() {
    let solved = Solved::of(&DemoUnit::GreensWalking.document()).unwrap();
    let document = DemoUnit::GreensWalking.document();
    let sheet = sheet(&document, &solved, Standing::Plate, System::InchFraction);
    let lettering = lettering(&sheet);
    let texts = sheet.panels.iter().flat_map(|panel| &panel.marks);
    let texts = texts.filter_map(|mark| match mark {
        Mark::Text {
            size,
            is_turned: false,
            is_strong,
            text,
            ..
        } => Some((text, words::width(text, *size, *is_strong))),
        _ => None,
    });
    let mut seen = 0;
    for (text, width) in texts {
        // The same words may stand turned elsewhere.
        let same = lettering.iter().filter(|set| set.text == *text);
        let set = same
            .max_by(|a, b| a.letters.width().total_cmp(&b.letters.width()))
            .unwrap();
        // Letters stand a little in from where their advance begins and ends; kerning narrows.
        let off = set.letters.width() - width;
        assert!(
            off < 1.0 && off > -0.03 * width - 3.0,
            "{text}: {off} of {width}"
        );
        seen += 1;
    }
    assert!(seen > 30, "{seen}");
}

// Sheets.

#[test]
fn a_sheet_is_as_large_as_its_page() {
    let document = DemoUnit::GreensWalking.document();
    let solved = Solved::of(&document).unwrap();
    for (page, size) in [
        (Page::A4, "width=\"297.000mm\" height=\"210.000mm\""),
        (Page::Letter, "width=\"279.400mm\" height=\"215.900mm\""),
    ] {
        let sheet = plate_sheet(
            &document.name,
            document.fitted_name(),
            &view(&solved, Standing::Plate, System::Millimetre),
            LensChoice::default(),
            Theme::Light,
            page,
        );
        assert!(to_svg(&sheet).contains(size), "{page:?}");
        assert!(
            sheet.words().any(|words| words.contains(page.name())),
            "{page:?}"
        );
        for Lettering { text, letters, .. } in lettering(&sheet) {
            let is_whole = sheet.window.inset(-15.0).intersect(letters) == letters;
            assert!(is_whole, "{page:?}: {text} at {letters:?}");
        }
    }
}

static FONTS: LazyLock<Arc<usvg::fontdb::Database>> = LazyLock::new(|| {
    let mut fonts = usvg::fontdb::Database::new();
    fonts.load_font_data(fonts::REGULAR.to_vec());
    fonts.load_font_data(fonts::SEMIBOLD.to_vec());
    Arc::new(fonts)
});

/// A text of a sheet with the box its letters fill and the paper it must stay on.
#[derive(Debug)]
struct Lettering {
    text: String,
    letters: Rect,
    paper: Rect,
}

/// The boxes of every text in an SVG, in order.
fn letter_boxes(group: &usvg::Group, boxes: &mut Vec<(String, Rect)>) {
    for node in group.children() {
        match node {
            usvg::Node::Group(group) => letter_boxes(group, boxes),
            usvg::Node::Text(text) => {
                let words = text.chunks().iter().map(usvg::TextChunk::text).collect();
                let b = text.flattened().abs_bounding_box();
                let letters = Rect::new(
                    f64::from(b.left()),
                    f64::from(b.top()),
                    f64::from(b.right()),
                    f64::from(b.bottom()),
                );
                boxes.push((words, letters));
            }
            _ => {}
        }
    }
}

/// Every text of a sheet as the bundled fonts set it.
fn lettering(sheet: &Sheet) -> Vec<Lettering> {
    let options = usvg::Options {
        fontdb: Arc::clone(&FONTS),
        ..usvg::Options::default()
    };
    let tree = usvg::Tree::from_str(&to_svg(sheet), &options).expect("well-formed");
    // One paper unit is one of its pixels.
    near(
        "width",
        f64::from(tree.size().width()),
        sheet.window.width(),
        0.01,
    );
    let mut boxes = Vec::new();
    letter_boxes(tree.root(), &mut boxes);
    let papers: Vec<(&str, Rect)> = sheet
        .panels
        .iter()
        .flat_map(|panel| texts(panel).into_iter().map(|text| (text, panel.window)))
        .collect();
    assert_eq!(boxes.len(), papers.len());
    boxes
        .into_iter()
        .zip(papers)
        .map(|((text, letters), (marked, paper))| {
            assert_eq!(text, marked);
            Lettering {
                text,
                letters,
                paper,
            }
        })
        .collect()
}

fn sheet(document: &Document, solved: &Solved, standing: Standing, system: System) -> Sheet {
    plate_sheet(
        &document.name,
        document.fitted_name(),
        &view(solved, standing, system),
        LensChoice::default(),
        Theme::Light,
        Page::A4,
    )
}

/// Every demo unit as it is and with each other knife, nosed up, down and raised, in each system on the
/// plate, and on turf.
static SHEETS: LazyLock<Vec<(String, Vec<Lettering>)>> = LazyLock::new(|| {
    let mut sheets = Vec::new();
    for document in demo_units() {
        let mut changes = vec![("as it is", document.clone())];
        for option in &document.options {
            let mut fitted = document.clone();
            fitted.setting.knife = Some(option.name.clone());
            changes.push((&option.name, fitted));
        }
        for (what, attitude, height_of_cut) in [
            ("nosed up", angle("0.5 deg"), None),
            ("nosed down", angle("9 deg"), None),
            ("a little higher", None, length("14 mm")),
            ("higher", None, length("21 mm")),
        ] {
            let mut set = document.clone();
            set.setting.rollers = None;
            set.setting.attitude = attitude;
            set.setting.height_of_cut = height_of_cut;
            changes.push((what, set));
        }
        for (what, changed) in changes {
            let solved = Solved::of(&changed).unwrap();
            let on_plate = System::ALL.map(|system| (Standing::Plate, system));
            // Fractions have the longest texts.
            let on_turf = [(Standing::Turf, System::InchFraction)];
            for (standing, system) in on_plate.into_iter().chain(on_turf) {
                let name = format!("{}, {what}, {system:?}, {standing:?}", document.name);
                let sheet = sheet(&changed, &solved, standing, system);
                sheets.push((name, lettering(&sheet)));
            }
        }
    }
    sheets
});

#[test]
fn every_text_of_a_sheet_is_whole_on_its_paper() {
    let mut wrong = Vec::new();
    for (name, lettering) in SHEETS.iter() {
        for Lettering {
            text,
            letters,
            paper,
        } in lettering
        {
            let is_whole = paper.intersect(*letters) == *letters && letters.area() > 0.0;
            if !is_whole {
                wrong.push(format!("{name}: {text} at {letters:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_two_texts_of_a_sheet_stand_on_each_other() {
    let mut wrong = Vec::new();
    for (name, lettering) in SHEETS.iter() {
        for (index, one) in lettering.iter().enumerate() {
            for other in &lettering[index + 1..] {
                if one.letters.overlaps(other.letters) {
                    wrong.push(format!("{name}: \"{}\" on \"{}\"", one.text, other.text));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

// Anything that can be set.

#[derive(Clone, Debug)]
struct Anything {
    unit: DemoUnit,
    reel_mm: f64,
    gap_mm: f64,
    extension_mm: f64,
    ground_mm: (f64, f64),
    stance: Stance,
    shape: ShapeEntry,
    sink_mm: f64,
    is_on_turf: bool,
    enlargement: Option<f64>,
    stretch: f64,
    zoom: f64,
    drag: (f64, f64),
}

fn stance() -> impl Strategy<Value = Stance> {
    let wanted = (-89.0..89.0, 0.01..200.0).prop_map(|(deg, mm)| Stance::Wanted {
        attitude: Angle::from_deg(deg),
        height_of_cut: Length::from_mm(mm),
    });
    let rollers = (-150.0..150.0, -150.0..150.0).prop_map(|(front, rear)| Stance::Rollers {
        front_move: Length::from_mm(front),
        rear_move: Length::from_mm(rear),
    });
    prop_oneof![wanted, rollers]
}

fn shape() -> impl Strategy<Value = ShapeEntry> {
    let radius =
        || (20.0..20_000.0).prop_map(|mm: f64| Quantity::parse(&format!("{mm} mm")).unwrap());
    prop_oneof![
        Just(ShapeEntry::Level),
        radius().prop_map(ShapeEntry::Crest),
        radius().prop_map(ShapeEntry::Hollow),
    ]
}

prop_compose! {
    fn anything()(
        unit in prop::sample::select(&DemoUnit::ALL[..]),
        reel_mm in 10.0..500.0,
        gap_mm in prop_oneof![Just(0.0), 0.0..20.0],
        extension_mm in -60.0..60.0,
        ground_mm in (0.0..10.0, 0.0..40.0),
        stance in stance(),
        shape in shape(),
        sink_mm in 0.0..50.0,
        is_on_turf in any::<bool>(),
        enlargement in proptest::option::of(0.05..300.0),
        stretch in 1.0..20.0,
        zoom in (-12.0..12.0).prop_map(f64::exp),
        drag in (-1e4..1e4, -1e4..1e4),
    ) -> Anything {
        Anything {
            unit, reel_mm, gap_mm, extension_mm, ground_mm, stance, shape, sink_mm, is_on_turf,
            enlargement, stretch, zoom, drag,
        }
    }
}

impl Anything {
    fn document(&self) -> Document {
        let mm = |mm: f64| Some(Quantity::exactly(Length::from_mm(mm), System::Millimetre));
        let mut document = self.unit.document();
        document.setting.reel_diameter = mm(self.reel_mm);
        document.setting.gap = mm(self.gap_mm);
        document.setting.extension = mm(self.extension_mm);
        document.setting.top_ground = mm(self.ground_mm.0);
        document.setting.face_ground = mm(self.ground_mm.1);
        document.set_stance(self.stance, System::Millimetre);
        document.ground.shape = self.shape.clone();
        document.ground.roller_sink = Some(mm(self.sink_mm).unwrap());
        document
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        max_global_rejects: 20_000,
        ..by_chance(400)
    })]

    #[test]
    fn whatever_is_set_and_however_it_is_viewed_it_can_be_drawn(anything in anything()) {
        let solved = Solved::of(&anything.document());
        prop_assume!(solved.is_ok());
        let solved = solved.unwrap();
        let standing = if anything.is_on_turf { Standing::Turf } else { Standing::Plate };
        let scene = view(&solved, standing, System::InchFraction).scene();
        prop_assert!(scene.bounds.is_finite() && scene.bounds.area() > 0.0);
        let whole = View::fitting(scene.bounds, PAPER)
            .zoomed(anything.zoom, PAPER.center())
            .dragged(anything.drag.into());
        let choice = LensChoice { enlargement: anything.enlargement, stretch: anything.stretch };
        let lens = Lens::on(&solved.solution, choice, PAPER, System::InchFraction);
        lay_out_everything("random", &scene, whole, lens);
        for word in scene.words() {
            prop_assert!(!word.contains("NaN") && !word.contains("inf"), "{}", word);
        }
    }
}

#[test]
fn a_sheet_shows_as_much_of_long_names_as_there_is_room_for() {
    let solved = Solved::of(&DemoUnit::ALL[0].document()).unwrap();
    let sheet = plate_sheet(
        &"grass ".repeat(20_000),
        &"steel ".repeat(20_000),
        &SideView::of(&solved),
        LensChoice::default(),
        Theme::Light,
        Page::A4,
    );
    let about = sheet.words().find(|words| words.starts_with("grass"));
    let about = about.unwrap();
    assert!(
        about.contains("…. Knife: steel") && about.contains("…. Reel "),
        "{about}"
    );
    assert!(about.len() < 300, "{}", about.len());
    // What is shaped for pixels is no more than that.
    let letters: usize = sheet.words().map(str::len).sum();
    assert!(letters < 3000, "{letters}");
    to_png(&sheet, 2.0).unwrap();
}
