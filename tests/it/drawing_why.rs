//! What is drawn about why a unit marks the turf: the crest, the band, the stepped bars and the
//! small pictures, without a screen.

use kurbo::{BezPath, Line, ParamCurveNearest as _, Point, Rect, Shape as _};
use sweepgauge::analysis::knives::{Over, Trial, bands, measured_at};
use sweepgauge::analysis::other_readings::BehindFrom;
use sweepgauge::analysis::why::{Budget, CrestLimits, Goal, StepKind, Why};
use sweepgauge::analysis::{FindingId, Findings, Level, NumberId, Solved, Uncertainty};
use sweepgauge::drawing::{
    BudgetChart, Canvas, Column, Hold, Lens, LensChoice, Mark, Page, Role, Scene, Shape, ShownIn,
    SideView, Standing, Theme, View, lay_out, plate_sheet, reading_picture, step_picture, to_svg,
};
use sweepgauge::geometry::{GroundShape, underside_on_bar};
use sweepgauge::headless::Asked;
use sweepgauge::unit::{Document, Follows, read_text};
use sweepgauge::units::{Length, System};

use crate::common::demo_unit::DemoUnit;
use crate::common::example::example;

fn document(text: &str) -> Document {
    read_text(text).unwrap()
}

fn every_unit() -> Vec<(Document, Solved)> {
    DemoUnit::ALL
        .map(|unit| {
            let document = unit.document();
            let solved = Solved::of(&document).unwrap();
            (document, solved)
        })
        .into()
}

fn side_view(solved: &Solved, standing: Standing) -> SideView<'_> {
    SideView {
        ghost: None,
        standing,
        ..SideView::of(solved)
    }
}

fn lines(scene: &Scene, role: Role) -> Vec<BezPath> {
    scene
        .of_role(role)
        .filter_map(|shape| match shape {
            Shape::Line(path) => Some(path.clone()),
            _ => None,
        })
        .collect()
}

/// The soil's surface as drawn.
fn soil(scene: &Scene) -> Vec<Point> {
    let lines = lines(scene, Role::Soil);
    let points = lines.iter().flat_map(BezPath::elements);
    points.filter_map(kurbo::PathEl::end_point).collect()
}

#[test]
fn on_the_tightest_crest_the_soil_bends_up_to_reel_or_knife_and_no_further() {
    for (document, solved) in every_unit() {
        let pose = &solved.solution.pose;
        if matches!(solved.unit.shape, GroundShape::Crest(_)) {
            continue;
        }
        let limits = CrestLimits::of(&solved.case());
        let (Some(reel), Some(knife)) = (limits.reel.radius(), limits.underside.radius()) else {
            continue;
        };
        // The wider one: on it the other part stands clear.
        let radius = if reel > knife { reel } else { knife };
        let scene = side_view(&solved, Standing::Crest).scene();
        let surface = soil(&scene);
        let name = &document.name;
        // The circle through three points of the drawn line has the crest's radius.
        let (a, b, c) = (
            surface[10],
            surface[surface.len() / 2],
            surface[surface.len() - 11],
        );
        let area = (b - a).cross(c - a).abs() / 2.0;
        let drawn = (b - a).hypot() * (c - b).hypot() * (c - a).hypot() / (4.0 * area);
        assert!((drawn / radius.mm() - 1.0).abs() < 1e-3, "{name}: {drawn}");
        let over = |point: Point, disc_mm: f64| {
            let away = surface
                .iter()
                .map(|place| (*place - point).hypot() - disc_mm);
            away.fold(f64::INFINITY, f64::min)
        };
        if reel > knife {
            let nearest = over(pose.centre_on_plate, pose.reel_radius_mm);
            assert!(nearest.abs() < 0.1, "{name}: {nearest}");
            assert!(
                scene
                    .words()
                    .any(|word| word == "the reel touches the crest")
            );
        } else {
            let plate_from_bar = pose.plate_from_bar();
            let corners = underside_on_bar(&solved.unit.profile, &solved.unit.setting);
            let hardware = solved.unit.hardware_on_bar(&solved.unit.setting);
            let nearest = corners
                .into_iter()
                .chain(hardware)
                .map(|point| over(plate_from_bar * point, 0.0))
                .fold(f64::INFINITY, f64::min);
            // The surface is drawn in steps of some millimetres.
            assert!(nearest < 2.5, "{name}: {nearest}");
            assert!(
                scene
                    .words()
                    .any(|word| word == "the underside touches the crest")
            );
        }
        let shown = solved.unit.system.radius(radius);
        assert!(scene.words().any(|word| word.contains(&shown)), "{name}");
    }
}

#[test]
fn a_crest_that_was_entered_is_the_one_drawn_also_while_the_unit_is_on_turf() {
    let text = example(&[("shape: Level)", "shape: Crest(\"3 m\"))")]);
    let solved = Solved::of(&document(&text)).unwrap();
    let on = |standing| soil(&side_view(&solved, standing).scene());
    assert_eq!(on(Standing::Crest), on(Standing::Turf));
    let scene = side_view(&solved, Standing::Crest).scene();
    let clear = solved.solution.on_ground.reel_clearance;
    let told = format!("reel {} over the crest", solved.unit.system.length(clear));
    assert!(scene.words().any(|word| word == told), "{told}");
}

#[test]
fn on_ground_the_effective_height_of_cut_is_measured_from_the_ground_straight_under_the_edge() {
    let text = example(&[("shape: Level)", "shape: Crest(\"3 m\"))")]);
    let on_crest = Solved::of(&document(&text)).unwrap();
    let units = every_unit().into_iter().map(|(_, solved)| solved);
    for solved in units.chain([on_crest]) {
        let edge = solved.solution.pose.edge_on_plate;
        for standing in [Standing::Turf, Standing::Crest] {
            let scene = side_view(&solved, standing).scene();
            let is_height = |text: &str| text.starts_with("effective height of cut ");
            let dimension = scene.items.iter().find_map(|item| match &item.shape {
                Shape::Dimension(dimension) if is_height(&dimension.text) => Some(dimension),
                _ => None,
            });
            let ruler = scene.items.iter().find_map(|item| match &item.shape {
                Shape::Ruler(ruler) => Some(ruler),
                _ => None,
            });
            let dimension = dimension.expect("the height of cut is dimensioned");
            let ruler = ruler.expect("the height of cut is on a ruler");
            assert!(is_height(&ruler.text), "{}", ruler.text);
            for (ground, top) in [(dimension.from, dimension.to), (ruler.foot, ruler.top)] {
                assert!(top.distance(edge) < 1e-9);
                // The nearest place of the ground, which is drawn there.
                let long = ground.distance(edge);
                let surface = soil(&scene);
                let pieces = surface.windows(2).map(|two| Line::new(two[0], two[1]));
                let nearest = pieces.map(|piece| piece.nearest(edge, 1e-9).distance_sq.sqrt());
                let nearest = nearest.fold(f64::INFINITY, f64::min);
                assert!((long - nearest).abs() < 0.01, "{long}, {nearest}");
                let length = solved.unit.system.length(Length::from_mm(long));
                assert!(dimension.text.ends_with(&length), "{}", dimension.text);
                if standing == Standing::Turf {
                    let cut = solved.solution.on_ground.cut.mm();
                    assert!((long - cut).abs() < 1e-9, "{long}, {cut}");
                }
            }
        }
    }
}

#[test]
fn the_band_is_as_wide_as_the_sweep_is_unsure_and_none_is_drawn_without_doubt() {
    let mut banded = 0;
    for (document, solved) in every_unit() {
        let off = solved.uncertainty.expanded(NumberId::SweepBelowCut);
        let scene = side_view(&solved, Standing::Plate).scene();
        let sides = lines(&scene, Role::Band);
        if off <= 0.0 {
            assert!(sides.is_empty(), "{}", document.name);
            continue;
        }
        banded += 1;
        let lowest = solved.solution.pose.lowest_of_reel_on_plate().y;
        let foot = |path: &BezPath| path.bounding_box().y0;
        let mut feet: Vec<f64> = sides.iter().map(foot).collect();
        feet.sort_by(f64::total_cmp);
        assert_eq!(feet.len(), 2);
        assert!((feet[0] - (lowest - off)).abs() < 1e-5, "{}", document.name);
        assert!((feet[1] - (lowest + off)).abs() < 1e-5, "{}", document.name);
    }
    assert!(banded >= 3, "{banded}");
}

#[test]
fn the_plots_bands_are_the_uncertainty_of_each_place() {
    for (document, solved) in every_unit() {
        let unit = &solved.unit;
        let trial = Trial::of(&solved.solution);
        let knife = (unit.fitted, unit.setting.knife);
        for over in Over::ALL {
            let Some(found) = bands(unit, &trial, knife, over) else {
                assert!(unit.uncertain.is_empty(), "{}", document.name);
                continue;
            };
            assert!(!unit.uncertain.is_empty());
            for (index, band) in found.iter().enumerate() {
                for place in band.iter().flatten() {
                    let value = measured_at(unit, &trial, knife.1, over, place.at).unwrap()[index];
                    let middle = f64::midpoint(place.low_mm, place.high_mm);
                    assert!((middle - value).abs() < 1e-9, "{}", document.name);
                    assert!(place.low_mm <= place.high_mm);
                }
            }
        }
    }
    // At the setting in force the sweep's band is that of the setting with the diameter exact.
    let text = example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"0.3 in ± 0.02 in\"",
    )]);
    let solved = Solved::of(&document(&text)).unwrap();
    let unit = &solved.unit;
    let trial = Trial::of(&solved.solution);
    let found = bands(
        unit,
        &trial,
        (unit.fitted, unit.setting.knife),
        Over::Attitude,
    )
    .unwrap();
    let now = trial.attitude.deg();
    let nearest = found[0]
        .iter()
        .flatten()
        .min_by(|a, b| (a.at - now).abs().total_cmp(&(b.at - now).abs()))
        .unwrap();
    let follows = Follows {
        attitude: false,
        ..unit.follows
    };
    let wanted = Uncertainty::of(unit, &unit.setting, follows).expanded(NumberId::SweepBelowCut);
    let half = (nearest.high_mm - nearest.low_mm) / 2.0;
    assert!((half / wanted - 1.0).abs() < 0.1, "{half} {wanted}");
}

/// The bars of a chart, outlines of the pens that draw them.
fn bars(marks: &[Mark], slot: Rect) -> Vec<Rect> {
    marks
        .iter()
        .filter_map(|mark| match mark {
            Mark::Fill { path, role, .. } if *role != Role::Paper && *role != Role::Soil => {
                Some(path.bounding_box())
            }
            _ => None,
        })
        .filter(|bar| slot.contains_rect(*bar))
        .collect()
}

#[test]
fn the_bars_of_a_budget_are_as_high_as_its_steps_and_stand_on_each_other() {
    let wear = "shape: Crest(\"5 m\")), wear: (rear_runout: \"0.4 mm\", end_difference: \"1 mm\")";
    let text = example(&[(
        "roller_sink: \"0 mm\", shape: Level)",
        &format!("roller_sink: \"2 mm\", {wear}"),
    )]);
    let solved = Solved::of(&document(&text)).unwrap();
    let budget = Budget::of_reel(&solved.case());
    let window = Rect::new(0.0, 0.0, 840.0, 240.0);
    let charted = BudgetChart {
        title: "Reel",
        budget: &budget,
        level: Level::Fine,
        least: None,
        system: System::Millimetre,
    }
    .lay_out(window, Theme::Light);
    assert_eq!(charted.columns.len(), 7);
    let bar = |index: usize| {
        let bars = bars(&charted.panel.marks, charted.columns[index].1);
        assert_eq!(bars.len(), 1, "{index}");
        bars[0]
    };
    let whole = bar(0);
    let paper_per_mm = whole.height() / budget.steps[0].by.mm();
    for (index, step) in budget.steps.iter().enumerate().skip(1) {
        let this = bar(index);
        assert!(
            (this.height() - step.by.mm().abs() * paper_per_mm).abs() < 1e-6,
            "{step:?}"
        );
        let before = whole.y1 - budget.steps[index - 1].left.mm() * paper_per_mm;
        assert!((this.y0 - before).abs() < 1e-6, "{step:?}");
    }
    let last = bar(6);
    assert!((last.height() - budget.left().mm() * paper_per_mm).abs() < 1e-6);
    assert!((last.y1 - whole.y1).abs() < 1e-6);
    let said = |wanted: &str| {
        charted
            .panel
            .marks
            .iter()
            .any(|mark| matches!(mark, Mark::Text { text, .. } if text == wanted))
    };
    for step in &budget.steps {
        assert!(said(&step.shown_in(System::Millimetre)) && said(step.kind.name()));
    }
    assert!(said(&System::Millimetre.in_column(budget.left())));
    let columns: Vec<_> = charted.columns.iter().map(|(column, _)| *column).collect();
    assert_eq!(columns.last(), Some(&Column::Left));
    assert_eq!(columns[0], Column::Step(StepKind::HeightOfCut));
}

#[test]
fn a_budget_says_whole_of_every_step_that_it_was_not_measured() {
    let mut told = 0;
    for (document, solved) in every_unit() {
        // As on a sheet, and in a window.
        for (width, height) in [(420.0, 190.0), (840.0, 240.0)] {
            let budget = Budget::of_reel(&solved.case());
            let charted = BudgetChart {
                title: "Reel",
                budget: &budget,
                level: Level::Fine,
                least: Some(solved.unit.limits.underside),
                system: System::Millimetre,
            }
            .lay_out(Rect::new(0.0, 0.0, width, height), Theme::Light);
            for (column, slot) in &charted.columns {
                let &Column::Step(kind) = column else {
                    continue;
                };
                let Some(looked) = budget.none_of(kind) else {
                    continue;
                };
                let marks = charted.panel.marks.iter();
                let texts = marks.filter_map(|mark| match mark {
                    Mark::Text { text, at, .. } if slot.contains(*at) => Some(text.as_str()),
                    _ => None,
                });
                let said = texts.collect::<Vec<_>>().join(" ");
                let whole = format!("{} {}", kind.name(), looked.word());
                assert!(said.contains(&whole), "{} {width}: {said}", document.name);
                told += 1;
            }
        }
    }
    assert!(told > 0, "some step was not measured");
}

#[test]
fn a_budget_that_ends_in_the_soil_is_drawn_below_it() {
    let text = example(&[("roller_sink: \"0 mm\"", "roller_sink: \"14 mm\"")]);
    let solved = Solved::of(&document(&text)).unwrap();
    let budget = Budget::of_reel(&solved.case());
    assert!(budget.left().mm() < 0.0);
    let charted = BudgetChart {
        title: "Reel",
        budget: &budget,
        level: Level::Over,
        least: Some(Length::from_mm(0.5)),
        system: System::Millimetre,
    }
    .lay_out(Rect::new(0.0, 0.0, 840.0, 240.0), Theme::Dark);
    let first = bars(&charted.panel.marks, charted.columns[0].1)[0];
    let last = bars(&charted.panel.marks, charted.columns[6].1)[0];
    assert!(
        (last.y0 - first.y1).abs() < 1e-6 && last.y1 > first.y1,
        "{first:?} {last:?}"
    );
    assert!(charted.panel.window.contains_rect(last));
}

#[test]
fn every_step_and_every_reading_has_a_picture_with_its_number_whole_on_it() {
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
    let number = "0.128 in";
    let steps = kinds.map(|kind| step_picture(kind, number.to_owned()));
    let readings = BehindFrom::ALL.map(|method| reading_picture(method, number.to_owned()));
    let window = Rect::new(0.0, 0.0, 320.0, 160.0);
    let mut seen: Vec<Scene> = Vec::new();
    for scene in steps.into_iter().chain(readings) {
        assert!(!seen.contains(&scene));
        let view = View::fitting(scene.bounds, window);
        let panel = lay_out(&scene, &view, ShownIn::Whole, Theme::Light);
        let at = panel.marks.iter().find_map(|mark| match mark {
            Mark::Text { text, at, .. } if text == number => Some(*at),
            _ => None,
        });
        let at = at.expect("its number");
        assert!(window.inset(-8.0).contains(at), "{at:?}");
        seen.push(scene);
    }
}

#[test]
fn a_sheet_on_a_crest_is_written_as_svg() {
    let document = document(&example(&[]));
    let solved = Solved::of(&document).unwrap();
    let view = side_view(&solved, Standing::Crest);
    let sheet = plate_sheet(
        &document.name,
        "plain",
        &view,
        LensChoice::default(),
        Theme::Light,
        Page::A4,
    );
    let svg = to_svg(&sheet);
    assert!(svg.contains("tightest crest it crosses"), "{}", svg.len());
    let (whole, lens) = Canvas::split(Rect::new(0.0, 0.0, 900.0, 600.0), true);
    assert!(lens.is_some_and(|lens| lens.x0 >= whole.x1 - 1.0));
}

/// The example changed until one finding is its worst, for every finding that can be: where the edge
/// stands in the ground the reel does as well, and is told first.
const WORST: [(FindingId, &[(&str, &str)]); 14] = [
    (
        FindingId::Sweep,
        &[("behind_centre: \"0.3 in\"", "behind_centre: \"0.8 in\"")],
    ),
    (
        FindingId::Ahead,
        &[("behind_centre: \"0.3 in\"", "behind_centre: \"-0.2 in\"")],
    ),
    (FindingId::Gap, &[("gap: \"0 mm\"", "gap: \"0.02 in\"")]),
    (
        FindingId::TopFace,
        &[
            (
                "lip_length: \"0.5 in\",\n        body",
                "lip_length: \"0.5 in\", top_angle: \"0 deg\",\n        body",
            ),
            ("behind_centre: \"0.3 in\"", "behind_centre: \"0.1 in\""),
        ],
    ),
    (
        FindingId::Reel,
        &[("roller_sink: \"0 mm\"", "roller_sink: \"12.5 mm\"")],
    ),
    (
        FindingId::LowEnd,
        &[(
            "limits: None,",
            "wear: (front_runout: \"0 mm\", rear_runout: \"0 mm\", end_difference: \"25 mm\"),\n    limits: None,",
        )],
    ),
    (
        FindingId::Underside,
        &[("below: \"0.3 in\"", "below: \"0.62 in\"")],
    ),
    (
        FindingId::LowEndUnderside,
        &[(
            "limits: None,",
            "wear: (front_runout: \"0 mm\", rear_runout: \"0 mm\", end_difference: \"18 mm\"),\n    limits: None,",
        )],
    ),
    (
        FindingId::RunoutSwing,
        &[(
            "limits: None,",
            "wear: (front_runout: \"0 mm\", rear_runout: \"1.4 mm\", end_difference: \"0 mm\"),\n    limits: None,",
        )],
    ),
    (
        FindingId::Lip,
        &[(
            "extension: None, top_ground: None",
            "extension: None, top_ground: Some(\"0.13 in\")",
        )],
    ),
    (
        FindingId::Scrap,
        &[("reel_diameter: None", "reel_diameter: Some(\"6.4 in\")")],
    ),
    (
        FindingId::Clip,
        &[("ground_speed: \"4 mph\"", "ground_speed: \"12 mph\"")],
    ),
    (
        FindingId::Rollers,
        &[("ground_speed: \"4 mph\"", "ground_speed: \"3 mph\"")],
    ),
    (
        FindingId::Attitude,
        &[(
            "limits: None,",
            "limits: Some((attitude_range: Some((low: \"5 deg\", high: \"9 deg\")))),",
        )],
    ),
];

#[test]
fn the_worst_finding_is_marked_looked_at_and_answered_whatever_it_is() {
    let window = Rect::new(0.0, 0.0, 420.0, 360.0);
    let mut answered = 0;
    let can_be_worst = |finding: &FindingId| *finding != FindingId::Cut;
    let listed = FindingId::ALL.into_iter().filter(can_be_worst);
    for ((finding, edits), listed) in WORST.into_iter().zip(listed) {
        assert_eq!(finding, listed, "every finding has its unit");
        let document = read_text(&example(edits)).unwrap();
        let solved = Solved::of(&document).unwrap();
        let told: Vec<_> = solved.findings.iter().map(|f| (f.id, f.level)).collect();
        let worst = solved.findings.most_urgent().unwrap();
        assert_eq!(worst.id, finding, "{told:?}");
        let view = SideView::of(&solved);
        let place = view.worst_place().unwrap();
        assert_eq!((place.finding, place.level), (finding, worst.shown_level()));
        let scene = view.scene();
        let marked = || scene.of_role(Role::Worst(place.level));
        let outlines = marked().filter_map(|shape| match shape {
            Shape::Line(outline) => Some(outline.bounding_box()),
            _ => None,
        });
        let outlines: Vec<Rect> = outlines.collect();
        assert_eq!(outlines.len(), 1, "{finding}");
        assert!(
            outlines[0].contains(place.at) && outlines[0].area() > 0.0,
            "{finding}"
        );
        // Hatched between the parts; a ring on one, whose own hatching says what it is cut from.
        let is_on_part = matches!(
            finding,
            FindingId::Gap
                | FindingId::TopFace
                | FindingId::Lip
                | FindingId::Scrap
                | FindingId::Clip
                | FindingId::Rollers
                | FindingId::RunoutSwing
                | FindingId::Attitude
        );
        let hatches = marked().filter(|shape| matches!(shape, Shape::Hatch(_)));
        assert_eq!(hatches.count(), usize::from(!is_on_part), "{finding}");
        let title = worst.title().to_lowercase();
        assert!(scene.words().any(|word| word.contains(&title)), "{finding}");
        // Unasked the lens looks at the clip point; asked, it looks at the worst place.
        let (aim, lens) = Lens::fitted(&view, LensChoice::default(), Hold::Edge, window);
        let clip = solved.solution.pose.clip_point_on_plate();
        assert!(lens.view.world().contains(clip), "{finding}: no clip point");
        let asked = aim.at(place.at, &view.case);
        let lens = Lens::aimed(asked, &view.case, 1.0, window, view.system);
        assert!(
            lens.view.world().contains(place.at),
            "{finding}: the lens looks elsewhere"
        );
        let why = Why::of(&solved, None, Goal::Fine, System::InchDecimal);
        // A lip that is ground away is over whatever room it leaves, and a knife in one place with a
        // roller was measured wrong: no adjustment answers these.
        let judged = Findings::judged(&solved.case(), finding);
        let decides = judged.is_some_and(|judged| judged.level() >= worst.level);
        let printed = sweepgauge::headless::why(&solved, Asked::default());
        let comes_first = format!("{} comes first: ", worst.title());
        if finding.is_adjustable() && decides {
            answered += 1;
            assert_eq!(why.comes_first, None, "{finding}");
            assert!(!printed.contains("comes first"), "{printed}");
            assert_eq!(why.finding, finding, "{told:?}");
            assert!(!why.knobs.is_empty(), "{finding}");
        } else {
            let advice = solved.advice(finding, System::InchDecimal).unwrap();
            let advice = advice.shown_in(System::InchDecimal);
            assert!(!advice.is_empty(), "{finding}");
            let first = why.comes_first.unwrap();
            assert_eq!(first.finding, finding);
            assert!(first.told.starts_with(&comes_first), "{}", first.told);
            assert!(first.told.ends_with(&advice), "{}", first.told);
            // The command line says the same before its adjustments, and to programs too.
            let (before, _) = printed.split_once("What each adjustment").unwrap();
            assert!(before.contains(&first.told), "{printed}");
            let asked = Asked {
                is_json: true,
                ..Asked::default()
            };
            let report: serde_json::Value =
                serde_json::from_str(&sweepgauge::headless::why(&solved, asked)).unwrap();
            assert_eq!(report["comes_first"]["finding"], finding.id());
            assert_eq!(report["comes_first"]["text"], first.told);
        }
    }
    assert!(answered >= 9, "{answered}");
}

#[test]
fn the_mark_of_the_underside_stands_at_the_point_that_the_finding_tells_of() {
    let mut elsewhere = [0, 0];
    for (finding, shape, wear) in [
        (FindingId::Underside, "Hollow(\"0.4 m\")", ""),
        (FindingId::Underside, "Crest(\"0.8 m\")", ""),
        (
            FindingId::LowEndUnderside,
            "Level",
            "front_runout: \"0 mm\", rear_runout: \"16 mm\"",
        ),
        (
            FindingId::LowEndUnderside,
            "Level",
            "front_runout: \"16 mm\", rear_runout: \"0 mm\"",
        ),
    ] {
        for step in 0..60_u32 {
            let attitude = format!("attitude: Some(\"{} deg\")", 0.25 * f64::from(step) - 3.0);
            let ground = format!("shape: {shape}");
            let worn = format!("wear: ({wear}),\n    limits: None,");
            let text = example(&[
                (
                    "height_of_cut: None, attitude: None",
                    &format!("height_of_cut: None, {attitude}"),
                ),
                ("shape: Level)", &format!("{ground})")),
                ("limits: None,", &worn),
            ]);
            let Ok(solved) = Solved::of(&document(&text)) else {
                continue;
            };
            let view = SideView::of(&solved);
            let Some(place) = view.worst_place().filter(|place| place.finding == finding) else {
                continue;
            };
            let solution = &solved.solution;
            let rollers = [&solution.pose.front_roller, &solution.pose.rear_roller];
            let [front, rear] = rollers.map(|roller| roller.centre.x);
            let wear = &solved.unit.wear;
            // Half of each runout by its lever between the contacts, on level ground alone; a drop of
            // the other roller lifts what stands past a contact.
            let drop_mm = |x: f64| {
                let lowered = |runout: Length, lever: f64| 0.5 * runout.mm() * lever.max(0.0);
                lowered(wear.front_runout, (x - rear) / (front - rear))
                    + lowered(wear.rear_runout, (front - x) / (front - rear))
            };
            let clear_mm =
                |point: &Point| solution.terrain.clearance(*point).mm() - drop_mm(point.x);
            let case = solved.case();
            let nearest = case
                .underside_on_plate()
                .min_by(|a, b| clear_mm(a).total_cmp(&clear_mm(b)))
                .unwrap();
            assert!(
                (place.at.x - nearest.x).abs() < 1e-6,
                "{finding} {shape} {attitude}"
            );
            let is_elsewhere = (nearest - solution.lowest_on_plate).hypot() > 1.0;
            elsewhere[usize::from(finding == FindingId::LowEndUnderside)] +=
                i32::from(is_elsewhere);
        }
    }
    assert!(elsewhere.iter().all(|&count| count > 0), "{elsewhere:?}");
}

#[test]
fn the_mark_of_the_rollers_stands_on_the_one_that_the_finding_tells_of() {
    // The rear roller is in one place with the knife; the front one was moved further.
    let text = example(&[
        ("ground_speed: \"4 mph\"", "ground_speed: \"3 mph\""),
        ("attitude: None", "attitude: Some(\"4.5 deg\")"),
    ]);
    let solved = Solved::of(&document(&text)).unwrap();
    let rollers = solved.findings.get(FindingId::Rollers).unwrap();
    let told = rollers.shown_in(System::InchDecimal);
    assert!(
        told.starts_with("The rear roller and the knife overlap"),
        "{told}"
    );
    let pose = &solved.solution.pose;
    assert!(pose.front_roller.moved.mm().abs() > pose.rear_roller.moved.mm().abs());
    let at_fault = Findings::roller_at_fault(&solved.case());
    assert_eq!(at_fault, &pose.rear_roller);
    let place = SideView::of(&solved).worst_place().unwrap();
    assert_eq!(place.finding, FindingId::Rollers);
    assert!(place.at.distance(pose.rear_roller.centre) < 1e-6);
}

#[test]
fn a_front_roller_in_one_place_with_the_knife_is_told_and_marked() {
    let text = example(&[
        (
            "(diameter: \"3 in\", ahead: \"5.5 in\")",
            "(diameter: \"0.45 in\", ahead: \"0.05 in\")",
        ),
        ("behind: \"3.25 in\"", "behind: \"4 in\""),
    ]);
    let solved = Solved::of(&document(&text)).unwrap();
    let rollers = solved.findings.get(FindingId::Rollers).unwrap();
    let told = rollers.shown_in(System::InchDecimal);
    assert!(
        told.starts_with("The front roller and the knife overlap"),
        "{told}"
    );
    assert_eq!(rollers.level, Level::Watch);
    let at_fault = Findings::roller_at_fault(&solved.case());
    assert_eq!(at_fault, &solved.solution.pose.front_roller);
}
