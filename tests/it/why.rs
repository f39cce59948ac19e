//! Why a unit marks the turf: budgets that add up, crests that touch, knobs that end on their limit
//! and nowhere sooner, causes ranked by the unit's own numbers, and the same on the command line.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use proptest::prelude::*;
use serde_json::Value;
use sweepgauge::analysis::advice::Way;
use sweepgauge::analysis::why::{
    Budget, Cause, Change, Complaint, CrestLimit, CrestLimits, Cure, Goal, Knob, KnobAnswer,
    NotSensible, StepKind, Strength, Why, WhyNot, bounces_per_s, causes, matches, pitches,
    spacing_told,
};
use sweepgauge::analysis::{
    CAUTION, Case, FindingId, Findings, Judged, Level, NumberId, Solution, Solved,
};
use sweepgauge::geometry::{GroundShape, Sink, Terrain, touching_crest};
use sweepgauge::store::open_unit;
use sweepgauge::unit::{Document, Field, Looked, RollerMoves, read_text};
use sweepgauge::units::{Length, Measure, Quantity, System};

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;
use crate::common::example::example;
use crate::common::nudge::value;
use crate::common::random_units::believable_unit;

fn document(text: &str) -> Document {
    read_text(text).unwrap()
}

fn solved(document: &Document) -> Solved {
    Solved::of(document).unwrap_or_else(|error| panic!("{}: {error}", document.name))
}

const GROUND: &str =
    "ground: (roller_sink: \"0 mm\", shape: Level),   // or Crest(\"6 m\"), Hollow(\"6 m\")";

/// The example on ground and with wear of its own.
fn worn(ground: &str, wear: &str) -> Document {
    let line = format!("ground: ({ground}), wear: ({wear}),");
    document(&example(&[(GROUND, &line)]))
}

/// Every demo unit, and the example on other ground.
fn units() -> Vec<Document> {
    let wear = "front_runout: \"0.02 in\", rear_runout: \"0.01 in\", end_difference: \"0.5 mm\"";
    DemoUnit::ALL
        .map(DemoUnit::document)
        .into_iter()
        .chain([
            worn("roller_sink: \"1 mm\", shape: Crest(\"4 m\")", wear),
            worn("roller_sink: \"2 mm\", shape: Hollow(\"5 m\")", wear),
        ])
        .collect()
}

// The budget.

#[test]
fn a_budget_adds_up_to_what_the_ground_leaves_less_the_wear() {
    for document in units() {
        let solved = solved(&document);
        let case = solved.case();
        let written_anew = |number| value(&solved.unit, &solved.solution, number);
        for (budget, wanted) in [
            (Budget::of_reel(&case), written_anew(NumberId::ReelAtLowEnd)),
            (
                Budget::of_underside(&case),
                written_anew(NumberId::UndersideAtLowEnd),
            ),
        ] {
            let sum: f64 = budget.steps.iter().map(|step| step.by.mm()).sum();
            assert!((sum - wanted).abs() < 1e-9, "{}: {budget:?}", document.name);
            assert!((budget.left().mm() - wanted).abs() < 1e-9);
            assert_eq!(budget.steps[0].by, solved.solution.pose.height_of_cut);
        }
        let reel = Budget::of_reel(&case);
        let sweep = solved.solution.sweep.below_cut.mm();
        assert!((reel.by(StepKind::Sweep).mm() + sweep).abs() < 1e-9);
    }
}

#[test]
fn a_crest_takes_and_a_hollow_gives() {
    let on = |ground: &str| {
        let document = worn(ground, "");
        let solved = solved(&document);
        Budget::of_reel(&solved.case())
    };
    let crest = on("shape: Crest(\"4 m\")").by(StepKind::Crest).mm();
    let hollow = on("shape: Hollow(\"4 m\")").by(StepKind::Hollow).mm();
    assert!(crest < -0.5 && hollow > 0.5, "{crest} {hollow}");
    assert_eq!(on("shape: Level").by(StepKind::Crest).mm().to_bits(), 0);
}

#[test]
fn half_of_each_runout_by_its_lever_and_half_the_end_difference_count() {
    let document = worn(
        "",
        "front_runout: \"0.4 mm\", rear_runout: \"0.6 mm\", end_difference: \"1 mm\"",
    );
    let solved = solved(&document);
    let budget = Budget::of_reel(&solved.case());
    // The reel's lowest point stands 0.3 in ahead of the edge, rollers 5.5 in ahead and 3.25 behind:
    // 0.2·3.55/8.75 + 0.3·5.2/8.75.
    let by_lever_mm = (0.2 * 3.55 + 0.3 * 5.2) / 8.75;
    assert!((budget.by(StepKind::RollerRunout).mm() + by_lever_mm).abs() < 1e-12);
    assert!((budget.by(StepKind::EndDifference).mm() + 0.5).abs() < 1e-12);
    assert_eq!(
        solved.findings.level_of(FindingId::LowEnd),
        Some(Level::Fine)
    );
    let worn = worn("", "end_difference: \"26 mm\"");
    assert_eq!(
        self::solved(&worn).findings.level_of(FindingId::LowEnd),
        Some(Level::Over)
    );
}

#[test]
fn on_a_crest_or_sunk_apart_runout_comes_down_by_the_lever_between_the_contacts() {
    let wear = "front_runout: \"0.4 mm\", rear_runout: \"0.6 mm\"";
    for ground in [
        "roller_sink: \"0 mm\", shape: Crest(\"1.2 m\")",
        "roller_sink: \"0 mm\", shape: Hollow(\"1.5 m\")",
        "front_sink: \"9 mm\", rear_sink: \"0 mm\"",
    ] {
        let solved = solved(&worn(ground, wear));
        let (pose, terrain) = (&solved.solution.pose, &solved.solution.terrain);
        // Where a roller touches the ground: from its centre square down to the surface.
        let contact_mm = |centre: kurbo::Point| {
            let clear_mm = terrain.clearance(centre).mm();
            (centre + terrain.down_at(centre) * clear_mm).x
        };
        let rollers = [&pose.front_roller, &pose.rear_roller];
        let [front, rear] = rollers.map(|roller| contact_mm(roller.centre));
        let [front_centre, rear_centre] = rollers.map(|roller| roller.centre.x);
        let at = pose.centre_on_plate.x;
        let lowered =
            |front: f64, rear: f64| (0.2 * (at - rear) + 0.3 * (front - at)) / (front - rear);
        let told_mm = solved.solution.on_ground.reel_lowered.mm();
        assert!(
            (told_mm - lowered(front, rear)).abs() < 1e-9,
            "{ground}: {told_mm}"
        );
        let by_centres = lowered(front_centre, rear_centre);
        assert!((told_mm - by_centres).abs() > 1e-6, "{ground}: {told_mm}");
    }
}

// Crests.

proptest! {
    #![proptest_config(by_chance(256))]

    #[test]
    fn on_the_touching_crest_the_reel_touches_and_on_every_wider_one_it_clears(
        unit in believable_unit(),
    ) {
        let Ok(pose) = unit.solve() else { return Ok(()) };
        let level_mm = (pose.height_of_cut - pose.sweep().below_cut).mm();
        prop_assume!(level_mm > 0.0);
        let (front, rear) = (&pose.front_roller, &pose.rear_roller);
        let found = touching_crest(front, rear, pose.centre_on_plate, pose.reel_radius_mm);
        let clear = |radius: Length| {
            Terrain::under(&pose, GroundShape::Crest(radius), Sink::NONE)
                .map(|terrain| terrain.reel_clearance(&pose).mm())
        };
        let Some(radius) = found else {
            // None touches: then no crest of a long list does.
            let mut radius_mm = 1e6;
            while let Ok(clear_mm) = clear(Length::from_mm(radius_mm)) {
                prop_assert!(clear_mm > 0.0, "{radius_mm}: {clear_mm}");
                radius_mm *= 0.97;
                if radius_mm < 1.0 { break; }
            }
            return Ok(());
        };
        let at = clear(radius).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert!(at.abs() < 1e-7 * radius.mm().max(100.0), "{at} on {radius:?}");
        for wider in [1.001, 1.05, 1.4, 3.0, 20.0, 500.0] {
            let clear_mm = clear(radius * wider).unwrap();
            prop_assert!(clear_mm > 0.0, "×{wider}: {clear_mm}");
        }
    }
}

#[test]
fn the_tightest_crest_counts_the_rollers_sink_and_every_point_of_the_knife() {
    for document in units() {
        let solved = solved(&document);
        let case = solved.case();
        let limits = CrestLimits::of(&case);
        for (limit, is_reel) in [(limits.reel, true), (limits.underside, false)] {
            let Some(radius) = limit.radius() else {
                continue;
            };
            let on = |radius: Length| {
                let mut unit = solved.unit.clone();
                unit.shape = GroundShape::Crest(radius);
                let ground = Solution::of(&unit, &unit.setting).unwrap().on_ground;
                if is_reel {
                    ground.reel_clearance.mm()
                } else {
                    ground.underside_clearance.mm()
                }
            };
            let name = &document.name;
            assert!(on(radius).abs() < 1e-6, "{name}: {}", on(radius));
            assert!(on(radius * 1.01) > 0.0 && on(radius * 0.99) < 0.0, "{name}");
        }
    }
}

#[test]
fn a_reel_in_the_ground_on_the_level_crosses_no_crest() {
    let document = worn("roller_sink: \"14 mm\"", "");
    let limits = CrestLimits::of(&solved(&document).case());
    assert_eq!(limits.reel, CrestLimit::TouchesOnLevel);
}

// Knobs.

fn answers(document: &Document, finding: FindingId, goal: Goal) -> Vec<KnobAnswer> {
    Why::of(&solved(document), Some(finding), goal, System::InchDecimal).knobs
}

fn judged(document: &Document, finding: FindingId) -> Judged {
    Findings::judged(&solved(document).case(), finding).unwrap()
}

/// How far the nearest of the limits that count is kept.
fn margin(judged: &Judged, goal: Goal) -> f64 {
    let counts = |level| goal == Goal::Fine || level == Level::Over;
    judged
        .limits()
        .filter(|bound| counts(bound.level))
        .map(|bound| bound.margin(judged.value.base()))
        .fold(f64::INFINITY, f64::min)
}

fn put(document: &Document, knob: Knob, change: &Change) -> Document {
    let mut tried = document.clone();
    let solved = solved(document);
    change.put(knob, &mut tried, &solved.solution, solved.unit.system);
    tried
}

const JUDGED: [FindingId; 8] = [
    FindingId::Sweep,
    FindingId::Ahead,
    FindingId::Reel,
    FindingId::LowEnd,
    FindingId::Cut,
    FindingId::Underside,
    FindingId::Lip,
    FindingId::Clip,
];

#[test]
fn a_change_put_into_the_unit_ends_on_the_limit_of_its_finding() {
    let mut tried = 0;
    for document in units() {
        let solved = solved(&document);
        for (finding, ..) in Findings::all_judged(&solved.case()) {
            for goal in [Goal::Fine, Goal::NotOver] {
                for answer in answers(&document, finding, goal) {
                    let Ok(change) = &answer.to_limit else {
                        continue;
                    };
                    let knob = answer.knob;
                    let name = format!("{}, {finding}, {knob:?}, {goal:?}", document.name);
                    let after = put(&document, knob, change);
                    if matches!(knob, Knob::RollersTrued | Knob::RollersParallel) {
                        assert!(
                            self::solved(&after).findings.level_of(FindingId::LowEnd)
                                != Some(Level::Over)
                        );
                        continue;
                    }
                    let then = judged(&after, finding);
                    let margin = margin(&then, goal);
                    if knob == Knob::Knife {
                        assert!(margin >= 0.0, "{name}");
                    } else {
                        // What is set is what is read: a few digits inside the limit, at most.
                        let inside = (change.trial.base() - change.to.base()).abs();
                        assert!(inside < 0.06, "{name}: {inside} from the limit");
                        assert!(margin.abs() < 1e-5 || inside > 1e-6, "{name}: {margin}");
                        assert!(margin > -1e-9, "{name}: {margin} is past the limit");
                    }
                    // What was told to come is what comes.
                    let told = change.after.value.base();
                    let came = then.value.base();
                    assert!((told - came).abs() < 1e-6, "{name}: {told}, {came}");
                    // On a cut of zero a share of it is no number to compare.
                    let cut_mm = self::solved(&after).solution.on_ground.cut.mm();
                    for other in change.others.iter().filter(|_| cut_mm > 0.01) {
                        let then = self::solved(&after);
                        let level = then.findings.level_of(other.id);
                        assert_eq!(Some(other.after.level), level, "{name}, {}", other.id);
                        let Some(told) = other.after.judged else {
                            continue;
                        };
                        let came = judged(&after, other.id).value.base();
                        let told = told.value.base();
                        assert!((told - came).abs() < 1e-6 * came.abs().max(1.0), "{name}");
                    }
                    tried += 1;
                }
            }
        }
    }
    assert!(tried > 150, "{tried}");
}

fn exact<M: Measure>(base: f64) -> Quantity<M> {
    Quantity::exactly(M::from_base(base), System::Millimetre)
}

/// Knobs that turn something on or off, or one of a list into another.
const WITHOUT_SCALE: [Knob; 3] = [Knob::Knife, Knob::RollersTrued, Knob::RollersParallel];

/// A document as a person would type it, with a knob's scale at a place.
fn turned(document: &Document, solved: &Solved, knob: Knob, at: f64) -> Document {
    let pose = &solved.solution.pose;
    let mut turned = document.clone();
    let setting = &mut turned.setting;
    let mut wanted = |attitude_deg, height_mm| {
        setting.attitude = Some(exact(attitude_deg));
        setting.height_of_cut = Some(exact(height_mm));
        setting.rollers = None;
    };
    match knob {
        Knob::Attitude => wanted(at, pose.height_of_cut.mm()),
        Knob::HeightOfCut => wanted(pose.attitude.deg(), at),
        Knob::FrontRoller => {
            setting.attitude = None;
            setting.height_of_cut = None;
            setting.rollers = Some(RollerMoves::both(
                exact(at),
                exact(pose.rear_roller.moved.mm()),
            ));
        }
        Knob::RearRoller => {
            setting.attitude = None;
            setting.height_of_cut = None;
            setting.rollers = Some(RollerMoves::both(
                exact(pose.front_roller.moved.mm()),
                exact(at),
            ));
        }
        Knob::FrontRollerHeightKept | Knob::RearRollerHeightKept => {
            let is_front = knob == Knob::FrontRollerHeightKept;
            setting.attitude = None;
            setting.height_of_cut = Some(exact(pose.height_of_cut.mm()));
            setting.rollers = Some(RollerMoves {
                front_move: is_front.then(|| exact(at)),
                rear_move: (!is_front).then(|| exact(at)),
            });
        }
        Knob::Extension => setting.extension = Some(exact(at)),
        Knob::FaceGround => setting.face_ground = Some(exact(at)),
        Knob::TopGround => setting.top_ground = Some(exact(at)),
        Knob::GroundSpeed => turned.mowing.as_mut().unwrap().ground_speed = exact(at),
        Knob::ReelSpeed => turned.mowing.as_mut().unwrap().reel_speed = exact(at),
        Knob::Knife | Knob::RollersTrued | Knob::RollersParallel => {
            panic!("{knob:?} has no scale")
        }
    }
    turned
}

#[test]
fn no_limit_is_crossed_sooner_and_what_is_out_of_reach_is_crossed_nowhere() {
    const SCAN: u32 = 400;
    let (mut reached, mut out_of_reach) = (0, 0);
    for document in units() {
        let solved = solved(&document);
        let keeps = |knob, at, finding| {
            let unit = turned(&document, &solved, knob, at).checked().ok()?;
            let solution = Solution::of(&unit, &unit.setting).ok()?;
            let case = Case {
                unit: &unit,
                setting: &unit.setting,
                solution: &solution,
            };
            Some(margin(&Findings::judged(&case, finding)?, Goal::Fine) >= 0.0)
        };
        for finding in JUDGED {
            for answer in answers(&document, finding, Goal::Fine) {
                let knob = answer.knob;
                if WITHOUT_SCALE.contains(&knob) {
                    continue;
                }
                let name = format!("{}, {finding}, {knob:?}", document.name);
                let (from, to) = match &answer.to_limit {
                    Ok(change) => {
                        reached += 1;
                        let to = change.to.base();
                        (to - change.by.base(), to)
                    }
                    Err(WhyNot::OutOfReach { low, high }) => {
                        out_of_reach += 1;
                        (low.base(), high.base())
                    }
                    Err(_) => continue,
                };
                // All places short of the border stand as the first one does.
                let held: Vec<bool> = (0..SCAN)
                    .map(|step| from + (to - from) * (f64::from(step) + 0.5) / f64::from(SCAN))
                    .filter_map(|at| keeps(knob, at, finding))
                    .collect();
                assert!(held.len() > 100, "{name}: only {} places", held.len());
                assert!(held.windows(2).all(|pair| pair[0] == pair[1]), "{name}");
                if answer.to_limit.is_ok() {
                    let beyond = to + 1e-4 * (to - from).signum();
                    if let (Some(beyond), Some(&before)) =
                        (keeps(knob, beyond, finding), held.last())
                    {
                        assert!(beyond != before, "{name}: no limit is crossed at {to}");
                    }
                }
            }
        }
    }
    assert!(
        reached > 40 && out_of_reach > 10,
        "{reached} {out_of_reach}"
    );
}

#[test]
fn an_aim_typed_as_it_reads_clears_its_finding_and_makes_no_other_worse() {
    let mut tried = 0;
    for document in units() {
        let before = solved(&document);
        for (finding, ..) in Findings::adjustable(&before.case()) {
            for answer in answers(&document, finding, Goal::Fine) {
                let Some(aim) = &answer.to_aim else {
                    continue;
                };
                let name = format!("{}, {finding}, {:?}", document.name, answer.knob);
                let read = aim.to.as_read_in(System::InchDecimal);
                assert!((read.base() - aim.to.base()).abs() < 1e-9, "{name}");
                let after = solved(&put(&document, answer.knob, aim));
                assert_eq!(
                    after.findings.level_of(finding),
                    Some(Level::Fine),
                    "{name}"
                );
                for then in after.findings.iter() {
                    let level = before.findings.level_of(then.id).unwrap_or(Level::Fine);
                    assert!(then.level <= level, "{name}: {}", then.id);
                }
                tried += 1;
            }
        }
    }
    assert!(tried > 60, "{tried}");
}

#[test]
fn aim_and_finding_give_one_and_the_same_attitude_and_name_its_margin_once() {
    let mut told = 0;
    for document in units() {
        let solved = solved(&document);
        let system = System::InchDecimal;
        for finding in solved.findings.iter().filter(|f| f.id.is_adjustable()) {
            let Some(advice) = solved.advice(finding.id, system) else {
                continue;
            };
            let attitude = advice.ways.iter().find_map(|way| match way {
                Way::Attitude { to, .. } => Some(*to),
                _ => None,
            });
            let answers = answers(&document, finding.id, Goal::Fine);
            let knob = answers.iter().find(|answer| answer.knob == Knob::Attitude);
            let Some(knob) = knob else {
                continue;
            };
            let aimed = knob.to_aim.as_ref().map(|change| change.to);
            assert_eq!(
                aimed,
                attitude.map(Into::into),
                "{}, {}",
                document.name,
                finding.id
            );
            if let Some(is) = knob.aim_is {
                let text = advice.shown_in(system);
                assert_eq!(text.matches(&is.shown_in(system)).count(), 1, "{text}");
                told += 1;
            }
        }
    }
    assert!(told >= 2, "{told}");
}

#[test]
fn at_a_high_cut_no_attitude_is_aimed_at_for_zero_gain() {
    // In the middle of its window this unit would stand at 8.5° and sweep; it stands well at 4°.
    let high = document(&example(&[(
        "height_of_cut: \"0.5 in\"",
        "height_of_cut: \"2 in\"",
    )]));
    let answers = answers(&high, FindingId::Sweep, Goal::Fine);
    let attitude = answers.iter().find(|a| a.knob == Knob::Attitude).unwrap();
    assert_eq!(attitude.to_aim, None, "{attitude:?}");
}

#[test]
fn a_low_cut_is_aimed_at_the_least_attitude_that_clears_the_underside() {
    let low = document(&example(&[
        ("height_of_cut: \"0.5 in\"", "height_of_cut: \"0.35 in\""),
        ("behind_centre: \"0.3 in\"", "behind_centre: \"0.4 in\""),
    ]));
    let answers = answers(&low, FindingId::Sweep, Goal::Fine);
    let attitude = answers.iter().find(|a| a.knob == Knob::Attitude).unwrap();
    let aim = attitude.to_aim.as_ref().unwrap();
    let is = attitude.aim_is.unwrap().shown_in(System::InchDecimal);
    assert!(
        is.contains("leaves 0.0700 in under the knife (OK limit 0.0600 in)"),
        "{is}"
    );
    let then = solved(&put(&low, Knob::Attitude, aim)).solution;
    let clears = then.on_ground.underside_clearance.inches();
    assert!((0.0700..0.0704).contains(&clears), "{clears}");
}

#[test]
fn no_change_that_is_offered_with_a_button_brings_another_finding_to_over() {
    let mut offered = 0;
    for document in units() {
        let before = solved(&document);
        let over = |solved: &Solved, id| solved.findings.level_of(id) == Some(Level::Over);
        for (finding, ..) in Findings::adjustable(&before.case()) {
            for goal in [Goal::Fine, Goal::NotOver] {
                for answer in answers(&document, finding, goal) {
                    for change in answer.changes().filter(|change| !change.bars_a_trial()) {
                        let after = solved(&put(&document, answer.knob, change));
                        let mut others = FindingId::ALL.into_iter().filter(|id| *id != finding);
                        let turned = others.find(|id| over(&after, *id) && !over(&before, *id));
                        let knob = answer.knob;
                        assert_eq!(turned, None, "{}, {finding}, {knob:?}", document.name);
                        offered += 1;
                    }
                }
            }
        }
    }
    assert!(offered > 300, "{offered}");
}

#[test]
fn no_cure_of_any_complaint_has_a_button_that_another_finding_forbids() {
    let (mut offered, mut led_to) = (0, 0);
    for demo in DemoUnit::ALL {
        let document = demo.document();
        let before = solved(&document);
        for complaint in Complaint::ALL {
            let cures = causes(&before.case(), complaint).into_iter();
            let cures = cures.filter(Cause::can_be_cured);
            let findings = cures.filter_map(|cause| match cause.cure_by(&before.findings) {
                Cure::Adjustments(finding) => Some(finding),
                Cure::Other(_) => None,
            });
            for finding in findings {
                led_to += 1;
                for answer in answers(&document, finding, Goal::Fine) {
                    for change in answer.changes().filter(|change| !change.bars_a_trial()) {
                        let after = solved(&put(&document, answer.knob, change));
                        for other in FindingId::ALL.into_iter().filter(|id| *id != finding) {
                            let name = format!("{demo:?} {complaint:?} {:?}", answer.knob);
                            let level = |solved: &Solved| solved.findings.level_of(other);
                            let margin = |solved: &Solved| {
                                Findings::judged(&solved.case(), other).map(|now| now.margin())
                            };
                            if level(&after) != Some(Level::Over) {
                                continue;
                            }
                            assert_eq!(level(&before), Some(Level::Over), "{name}, {other}");
                            if let (Some(was), Some(is)) = (margin(&before), margin(&after)) {
                                assert!(is > was - 1e-6, "{name}, {other}: {was}, then {is}");
                            }
                        }
                        offered += 1;
                    }
                }
            }
        }
    }
    assert!(offered > 100 && led_to > 15, "{offered} {led_to}");
}

#[test]
fn at_the_low_side_rollers_are_made_parallel_and_true_before_anything_is_set_and_metal_goes_last() {
    let grinding = [Knob::TopGround, Knob::FaceGround];
    for finding in FindingId::ALL {
        let all = Knob::all_for(finding);
        assert_eq!(all[12..], grinding, "{finding}");
        for knob in Knob::ALL {
            assert!(all.contains(&knob), "{finding} {knob:?}");
        }
    }
    for finding in [
        FindingId::LowEnd,
        FindingId::LowEndUnderside,
        FindingId::RunoutSwing,
    ] {
        let first = &Knob::all_for(finding)[..2];
        assert_eq!(first, [Knob::RollersParallel, Knob::RollersTrued]);
    }
    let speeds = &Knob::all_for(FindingId::Clip)[..2];
    assert_eq!(speeds, [Knob::GroundSpeed, Knob::ReelSpeed]);
    // What differs from side to side is measured at both ends first, measured already or not.
    let ends = "end_difference: \"18 mm\"";
    for unit in [worn("", ends), worn("", "")] {
        let solved = solved(&unit);
        for complaint in [
            Complaint::StripAtOneEnd,
            Complaint::LineAlong,
            Complaint::StepBetweenUnits,
        ] {
            let causes = causes(&solved.case(), complaint);
            assert_eq!(causes[0].id, "ends", "{complaint:?}");
            assert!(causes[0].confirm.contains("height of cut at both ends"));
            assert!(complaint.order().contains("both ends first"));
            let others = causes[1..].iter().filter(|cause| cause.id == "ends");
            assert_eq!(others.count(), 0, "{complaint:?}");
        }
    }
}

#[test]
fn one_roller_given_with_the_height_kept_ends_where_the_attitude_does() {
    let (mut limits, mut aims) = (0, 0);
    for document in units() {
        for (finding, ..) in Findings::adjustable(&solved(&document).case()) {
            let answers = answers(&document, finding, Goal::Fine);
            let of = |knob| answers.iter().find(|answer| answer.knob == knob).unwrap();
            let attitude = of(Knob::Attitude);
            for knob in [Knob::FrontRollerHeightKept, Knob::RearRollerHeightKept] {
                let name = format!("{}, {finding}, {knob:?}", document.name);
                let kept = of(knob);
                if let (Ok(one), Ok(other)) = (&kept.to_limit, &attitude.to_limit) {
                    let apart = |a: Length, b: Length| (a - b).mm().abs();
                    assert!(apart(one.rollers.0, other.rollers.0) < 1e-5, "{name}");
                    assert!(apart(one.rollers.1, other.rollers.1) < 1e-5, "{name}");
                    limits += 1;
                }
                if let Some(aim) = &kept.to_aim {
                    let then = solved(&put(&document, knob, aim)).solution.pose;
                    let height = solved(&document).solution.pose.height_of_cut;
                    assert!((then.height_of_cut - height).mm().abs() < 1e-9, "{name}");
                    let wanted = attitude.to_aim.as_ref().unwrap().to.base();
                    // A thousandth at a roller is less than that at the knife.
                    assert!((then.attitude.deg() - wanted).abs() < 0.06, "{name}");
                    aims += 1;
                }
            }
        }
    }
    assert!(limits > 20 && aims > 8, "{limits} {aims}");
}

#[test]
fn the_front_roller_alone_is_among_the_adjustments() {
    let document = document(&example(&[]));
    let answers = answers(&document, FindingId::Underside, Goal::Fine);
    let front = answers
        .iter()
        .find(|answer| answer.knob == Knob::FrontRoller)
        .unwrap();
    let change = front.to_limit.as_ref().unwrap();
    let (front_by, rear_by) = change.rollers;
    assert!(front_by.mm().abs() > 0.1 && rear_by.mm().abs() < 1e-6);
}

#[test]
fn what_nobody_would_do_is_told_so_with_the_reason() {
    let swept = document(&example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"0.75 in\"",
    )]));
    let fast = document(&example(&[(
        "ground_speed: \"4 mph\"",
        "ground_speed: \"9 mph\"",
    )]));
    let mut reasons = Vec::new();
    for (document, finding) in [(&swept, FindingId::Sweep), (&fast, FindingId::Clip)] {
        for answer in answers(document, finding, Goal::Fine) {
            let not_sensible = answer.not_sensible();
            for change in answer.changes() {
                let turns_over = change.others.iter().any(|other| {
                    other.after.level == Level::Over && other.before.level < Level::Over
                });
                assert!(!turns_over || change.not_sensible.is_some(), "{answer:?}");
            }
            if let (Knob::HeightOfCut, Ok(change)) = (answer.knob, &answer.to_limit) {
                let now = solved(document).solution.pose.height_of_cut.mm();
                let is_far = change.to.base() > 2.5 * now;
                assert_eq!(change.not_sensible == Some(NotSensible::OtherTurf), is_far);
            }
            if let (FindingId::Clip, Knob::TopGround | Knob::FaceGround, Ok(_)) =
                (finding, answer.knob, &answer.to_limit)
            {
                assert_eq!(not_sensible, Some(NotSensible::GroundForClip));
            }
            reasons.extend(not_sensible);
        }
    }
    assert!(reasons.contains(&NotSensible::OtherTurf), "{reasons:?}");
}

#[test]
fn with_the_edge_in_the_ground_height_is_told_to_come_first() {
    let moves = "rollers: Some((front_move: \"0.6 in\", rear_move: \"0.6 in\")),";
    let text = example(&[("rollers: None,", moves)]);
    let document = document(&text);
    assert!(solved(&document).solution.pose.height_of_cut.mm() < 0.0);
    for finding in [FindingId::Ahead, FindingId::Cut, FindingId::Reel] {
        for answer in answers(&document, finding, Goal::Fine) {
            match (answer.knob, &answer.to_limit) {
                (Knob::Attitude, found) => assert_eq!(found, &Err(WhyNot::EdgeInGround)),
                (Knob::HeightOfCut, Ok(change)) => {
                    let after = put(&document, Knob::HeightOfCut, change);
                    assert!(solved(&after).findings.level_of(finding) == Some(Level::Fine));
                }
                // Whatever is offered can be set.
                (knob, Ok(change)) => drop(solved(&put(&document, knob, change))),
                (_, Err(_)) => {}
            }
        }
    }
    let answers = answers(&document, FindingId::Cut, Goal::Fine);
    let height = answers
        .iter()
        .find(|answer| answer.knob == Knob::HeightOfCut)
        .unwrap();
    assert!(height.to_limit.is_ok(), "{height:?}");
}

#[test]
fn trued_rollers_tell_what_else_they_change() {
    let low = worn("", "rear_runout: \"0.3 in\", end_difference: \"0.9 in\"");
    let answers = answers(&low, FindingId::LowEnd, Goal::Fine);
    let of = |knob| answers.iter().find(|answer| answer.knob == knob).unwrap();
    let trued = of(Knob::RollersTrued).to_limit.as_ref().unwrap();
    assert!(
        trued
            .others
            .iter()
            .any(|other| other.id == FindingId::LowEndUnderside),
        "{trued:?}"
    );
}

#[test]
fn grinding_never_goes_back_and_says_so() {
    let document = document(&example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"0.7 in\"",
    )]));
    let answers = answers(&document, FindingId::Sweep, Goal::Fine);
    let of = |knob| {
        &answers
            .iter()
            .find(|answer| answer.knob == knob)
            .unwrap()
            .to_limit
    };
    assert_eq!(of(Knob::FaceGround), &Err(WhyNot::OtherWay));
    assert_eq!(of(Knob::GroundSpeed), &Err(WhyNot::HasNoPart));
    assert_eq!(of(Knob::RollersTrued), &Err(WhyNot::RunoutNotMeasured));
    let Err(parallel) = of(Knob::RollersParallel) else {
        panic!("nobody measured the ends");
    };
    let told = parallel.sentence().shown_in(System::Millimetre);
    assert!(
        told.contains("height-of-cut difference, side to side"),
        "{told}"
    );
    assert!(
        of(Knob::Extension)
            .as_ref()
            .is_ok_and(|change| change.by.base() > 0.0)
    );
}

#[test]
fn rollers_that_nobody_measured_are_not_called_true_nor_ends_level() {
    let of = |wear: &str, knob| {
        let document = document(&example(&[(GROUND, wear)]));
        let mut answers = answers(&document, FindingId::Sweep, Goal::Fine).into_iter();
        answers.find(|answer| answer.knob == knob).unwrap().to_limit
    };
    let (trued, parallel) = (Knob::RollersTrued, Knob::RollersParallel);
    for (wear, knob, why_not) in [
        ("", trued, WhyNot::RunoutNotMeasured),
        ("", parallel, WhyNot::EndsNotMeasured),
        // One roller's reading is not both rollers'.
        (
            "wear: (front_runout: \"0 in\"),",
            trued,
            WhyNot::RunoutNotMeasured,
        ),
        (
            "wear: (front_runout: \"0 in\", rear_runout: \"0 in\"),",
            trued,
            WhyNot::NothingToTrue,
        ),
        (
            "wear: (end_difference: \"0 in\"),",
            parallel,
            WhyNot::NoEndDifference,
        ),
    ] {
        assert_eq!(of(wear, knob), Err(why_not), "{wear}");
        let told = why_not.sentence().shown_in(System::InchDecimal);
        let is_open = matches!(why_not, WhyNot::RunoutNotMeasured | WhyNot::EndsNotMeasured);
        assert_eq!(told.starts_with("Not measured"), is_open, "{told}");
        let is_level = why_not == WhyNot::NoEndDifference;
        assert_eq!(told.contains("cut at the same height already"), is_level);
    }
}

// Causes.

fn strongest(document: &Document, complaint: Complaint) -> (&'static str, Strength) {
    let solved = solved(document);
    let causes = causes(&solved.case(), complaint);
    // The height at both ends is looked at first whatever it comes to.
    let is_first = causes[0].id == "ends" && complaint == Complaint::StripAtOneEnd;
    let strongest = &causes[usize::from(is_first)];
    (strongest.id, strongest.strength)
}

#[test]
fn each_mark_is_laid_to_what_was_made_strong_enough() {
    let mower = |from: &str, to: &str| document(&example(&[(from, to)]));
    let cases: Vec<(Document, Complaint, &str)> = vec![
        (
            document(&example(&[
                (GROUND, "wear: (end_difference: \"0.6 in\"),"),
                ("behind_centre: \"0.3 in\"", "behind_centre: \"0.05 in\""),
            ])),
            Complaint::StripAtOneEnd,
            "low_end_underside",
        ),
        (mower("900 rpm", "500 rpm"), Complaint::Ribs, "clip_length"),
        (
            worn("shape: Crest(\"0.45 m\")", ""),
            Complaint::ScalpedCrowns,
            "lower_cut",
        ),
        (
            worn("roller_sink: \"9 mm\"", ""),
            Complaint::KnifeRiding,
            "underside",
        ),
        (
            worn("", "rear_runout: \"1.1 mm\""),
            Complaint::StreakPerTurn,
            "rear_runout",
        ),
        (
            mower("gap: \"0 mm\"", "gap: \"0.2 mm\""),
            Complaint::Tearing,
            "gap",
        ),
        (
            mower("behind_centre: \"0.3 in\"", "behind_centre: \"0.9 in\""),
            Complaint::AllOver,
            "sweep",
        ),
        (
            worn("", "end_difference: \"1 mm\""),
            Complaint::StepBetweenUnits,
            "ends",
        ),
    ];
    for (document, complaint, wanted) in cases {
        let (id, strength) = strongest(&document, complaint);
        assert_eq!(id, wanted, "{complaint:?} {strength:?}");
        assert!(strength.makes_it(), "{complaint:?} {strength:?}");
    }
}

#[test]
fn ribs_are_asked_of_the_clip_before_the_sweep_that_deepens_them() {
    let swept = solved(&document(&example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"0.9 in\"",
    )])));
    let causes = causes(&swept.case(), Complaint::Ribs);
    assert_eq!((causes[0].id, causes[1].id), ("clip_length", "sweep"));
    assert!(!causes[0].strength.makes_it() && causes[1].strength.makes_it());
    assert!(!causes[0].can_be_cured() && causes[1].can_be_cured());
}

#[test]
fn what_each_takes_a_little_of_all_take_together() {
    // On the plate the underside clears 0.285 in by the report; none of the four takes half of it.
    let unit = worn(
        "roller_sink: \"2.2 mm\", shape: Crest(\"4 m\")",
        "rear_runout: \"3 mm\", end_difference: \"6.4 mm\"",
    );
    let solved = solved(&unit);
    assert!(solved.solution.on_ground.underside_at_low_end.mm() < 0.0);
    let causes = causes(&solved.case(), Complaint::KnifeRiding);
    let of = |id: &str| causes.iter().find(|cause| cause.id == id).unwrap();
    assert!(of("together_underside").strength.makes_it());
    for id in ["sink_underside", "crest_underside"] {
        assert!(!of(id).strength.makes_it(), "{id}");
    }
    let level = worn("", "");
    let causes = self::causes(&self::solved(&level).case(), Complaint::KnifeRiding);
    let together = causes
        .iter()
        .find(|cause| cause.id == "together_underside")
        .unwrap();
    assert_eq!(together.strength, Strength::NotMeasured);
}

#[test]
fn a_hair_between_the_ends_is_no_strip_however_deep_the_whole_width_sweeps() {
    let scalping = document(&example(&[
        (GROUND, "wear: (end_difference: \"0.0001 in\"),"),
        ("behind_centre: \"0.3 in\"", "behind_centre: \"0.9 in\""),
    ]));
    let solved = solved(&scalping);
    assert_eq!(
        solved.findings.level_of(FindingId::Sweep),
        Some(Level::Over)
    );
    let causes = causes(&solved.case(), Complaint::StripAtOneEnd);
    assert!(
        causes.iter().all(|cause| !cause.strength.has_part()),
        "{causes:?}"
    );
}

#[test]
fn a_roller_swings_the_edge_by_its_lever_alone() {
    // Front 5.5 in ahead, rear 3.25 in behind: the edge takes 3.25/8.75 of the front roller's runout.
    // Seen from 5 % of 0.5 in on: 0.025 in.
    let unit = worn("", "front_runout: \"0.05 in\"");
    let (id, strength) = strongest(&unit, Complaint::StreakPerTurn);
    assert_eq!(id, "front_runout");
    let Strength::Known(strength) = strength else {
        panic!("it is measured")
    };
    assert!(
        (strength - 0.05 * 3.25 / 8.75 / 0.025).abs() < 1e-9,
        "{strength}"
    );
}

#[test]
fn what_this_geometry_does_not_explain_it_does_not_claim() {
    let healthy = document(&example(&[("900 rpm", "2400 rpm")]));
    let solved = solved(&healthy);
    for complaint in Complaint::ALL {
        let causes = causes(&solved.case(), complaint);
        assert!(
            causes.iter().all(|cause| !cause.strength.makes_it()),
            "{complaint:?}"
        );
        assert!(causes.iter().all(|cause| !cause.confirm.is_empty()));
    }
    let streak = causes(&solved.case(), Complaint::StreakPerTurn);
    assert!(
        streak
            .iter()
            .all(|cause| cause.strength == Strength::NotMeasured)
    );
}

#[test]
fn a_clip_as_long_as_the_cut_and_little_sweep_explain_neither_ribs_nor_ragged_tips() {
    // 1788.16 mm/s over 8 blades and 12.7 mm: 1.00 at 1056 rpm; the sweep is 2.6 %.
    let ideal = solved(&document(&example(&[("900 rpm", "1056 rpm")])));
    let share = ideal.solution.sweep_share.unwrap().of_one();
    assert!((0.025..0.027).contains(&share), "{share}");
    for complaint in [Complaint::Ribs, Complaint::Tearing, Complaint::Stragglers] {
        let causes = causes(&ideal.case(), complaint);
        assert!(
            causes.iter().all(|cause| !cause.strength.has_part()),
            "{complaint:?}: {causes:?}"
        );
    }
}

#[test]
fn a_strength_runs_from_zero_at_the_ideal_to_one_at_over() {
    let clip = |rpm: &str| {
        let unit = solved(&document(&example(&[("900 rpm", rpm)])));
        let causes = causes(&unit.case(), Complaint::Ribs);
        let clip = causes.iter().find(|cause| cause.id == "clip_length");
        let ratio = unit.solution.mowing.unwrap().clip_to_cut.unwrap().number();
        (ratio, clip.unwrap().share().unwrap().of_one())
    };
    for rpm in ["1300 rpm", "1000 rpm", "900 rpm", "704 rpm", "500 rpm"] {
        let (ratio, strength) = clip(rpm);
        // Over above 1.5 on a fairway, and as long as the cut is the ideal.
        let wanted = ((ratio - 1.0) / 0.5).max(0.0);
        assert!(
            (strength - wanted).abs() < 1e-9,
            "{rpm}: {strength}, {wanted}"
        );
    }
}

#[test]
fn a_cause_shows_the_level_of_the_finding_that_judges_its_number() {
    // A clip length of 1.17 times the height of cut: watch above 1.1, over above 1.5.
    let unit = solved(&document(&example(&[])));
    let ratio = unit.solution.mowing.unwrap().clip_to_cut.unwrap().number();
    assert!((1.16..1.18).contains(&ratio), "{ratio}");
    let ribs = causes(&unit.case(), Complaint::Ribs);
    let clip = ribs.iter().find(|cause| cause.id == "clip_length").unwrap();
    assert_eq!(clip.level(&unit.findings), Some(Level::Watch));
    assert!(
        clip.text
            .shown_in(System::InchDecimal)
            .contains("watch above 1.10")
    );
    let mut seen = BTreeSet::new();
    for document in units() {
        let unit = solved(&document);
        for complaint in Complaint::ALL {
            for cause in causes(&unit.case(), complaint) {
                let Some(finding) = (cause.judged_by).and_then(|by| unit.findings.get(by.finding))
                else {
                    continue;
                };
                let Some(level) = cause.level(&unit.findings) else {
                    continue;
                };
                if level == Level::Fine {
                    // Fine too, or its number is past a limit on the side that makes no such mark.
                    let sweep = unit.solution.sweep.behind_centre;
                    let mowing = unit.solution.mowing;
                    let ratio = mowing.and_then(|mowing| mowing.clip_to_cut);
                    let is_other_side = match cause.id {
                        "clip_length" => ratio.is_some_and(|ratio| ratio.number() < 1.0),
                        "ahead" => sweep.mm() >= 0.0,
                        _ => false,
                    };
                    let is_fine = finding.shown_level() == Level::Fine;
                    assert!(is_fine || is_other_side, "{}: {finding:?}", cause.name);
                } else {
                    assert_eq!(level, finding.shown_level(), "{}", cause.name);
                }
                seen.insert((cause.id, level));
            }
        }
    }
    assert!(seen.len() >= 6, "{seen:?}");
}

fn level_of(unit: &Solved, complaint: Complaint, id: &str) -> (Level, String) {
    let causes = causes(&unit.case(), complaint);
    let cause = causes.iter().find(|cause| cause.id == id).unwrap();
    let level = cause.level(&unit.findings).unwrap();
    (level, cause.strength.word().to_owned())
}

#[test]
fn a_clip_that_is_too_short_is_watched_and_makes_no_ribs() {
    // 2100 rpm for 900 rpm: 1.17 * 900 / 2100 = 0.50 times the height of cut.
    let unit = solved(&document(&example(&[("900 rpm", "2100 rpm")])));
    let ratio = unit.solution.mowing.unwrap().clip_to_cut.unwrap().number();
    assert!((0.49..0.52).contains(&ratio), "{ratio}");
    let finding = unit.findings.get(FindingId::Clip).unwrap();
    assert_eq!(finding.shown_level(), Level::Watch);
    let none = (Level::Fine, "plays no part".to_owned());
    assert_eq!(level_of(&unit, Complaint::Ribs, "clip_length"), none);
    // On its own side the finding's level is the cause's.
    let long = solved(&document(&example(&[("900 rpm", "600 rpm")])));
    assert_eq!(
        level_of(&long, Complaint::Ribs, "clip_length").0,
        Level::Over
    );
}

#[test]
fn an_edge_behind_centre_but_nearer_than_wanted_is_watched_and_is_not_ahead() {
    let unit_of = |behind: &str, least: &str| {
        let mut document = document(&example(&[(
            "behind_centre: \"0.3 in\"",
            &format!("behind_centre: \"{behind}\""),
        )]));
        let set = Field::LeastBehindCentre.set(&mut document, least, System::InchDecimal);
        set.unwrap();
        solved(&document)
    };
    let near = unit_of("0.1 in", "0.2 in");
    let finding = near.findings.get(FindingId::Ahead).unwrap();
    assert_eq!(finding.shown_level(), Level::Watch);
    let none = (Level::Fine, "plays no part".to_owned());
    assert_eq!(level_of(&near, Complaint::Tearing, "ahead"), none);
    // Ahead of centre by however little it is the cause's own side.
    let ahead = unit_of("-0.01 in", "0.2 in");
    let finding = ahead.findings.get(FindingId::Ahead).unwrap();
    assert_eq!(finding.shown_level(), Level::Watch);
    assert_eq!(
        level_of(&ahead, Complaint::Tearing, "ahead").0,
        Level::Watch
    );
}

#[test]
fn leaves_that_are_torn_or_left_lead_with_gap_and_edges() {
    let swept = solved(&document(&example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"0.9 in\"",
    )])));
    for complaint in [Complaint::Tearing, Complaint::Stragglers] {
        let causes = causes(&swept.case(), complaint);
        assert_eq!((causes[0].id, causes[1].id), ("gap", "edges"));
    }
}

#[test]
fn what_the_rollers_sink_is_no_part_of_what_a_crest_takes() {
    let strength = |ground: &str| {
        let unit = solved(&worn(ground, ""));
        let causes = causes(&unit.case(), Complaint::ScalpedCrowns);
        let cut = causes.iter().find(|cause| cause.id == "lower_cut");
        cut.unwrap().share().unwrap().of_one()
    };
    let dry = strength("shape: Crest(\"8 m\")");
    let sunk = strength("roller_sink: \"3 mm\", shape: Crest(\"8 m\")");
    // The cut that is left is lower, so the same loss is a larger part of it; the loss is the same.
    let left = 12.7 / (12.7 - 3.0);
    assert!((sunk / (dry * left) - 1.0).abs() < 0.02, "{dry} {sunk}");
}

#[test]
fn every_complaint_says_what_to_look_at_first_what_lies_outside_and_what_would_cure() {
    let unit = solved(&document(&example(&[])));
    for complaint in Complaint::ALL {
        assert!(complaint.look_first().starts_with("Look first"));
        assert!(complaint.outside().starts_with("Outside this geometry"));
        for cause in causes(&unit.case(), complaint) {
            match cause.cure {
                Cure::Adjustments(finding) => assert!(finding.is_adjustable(), "{}", cause.id),
                Cure::Other(told) => assert!(told.len() > 20, "{}", cause.id),
            }
        }
    }
    let outside: String = Complaint::ALL.map(Complaint::outside).concat();
    for said in [
        "dull or rounded edges",
        "no relief",
        "uneven contact",
        "bearings",
        "speeds that do not match",
        "wet turf",
        "grain",
        "puffy turf or a cut too low for it",
        "weight transfer",
        "pull point",
        "turning at speed",
    ] {
        assert!(outside.contains(said), "{said}");
    }
}

#[test]
fn a_distance_from_mark_to_mark_is_laid_to_what_comes_round_as_far() {
    let unit = solved(&document(&example(&[])));
    // π·2.5 in is 7.854 in: the rear roller. At 4 mph, 70.4 in/s, 8 in is 8.8 bounces a second.
    let spacing = Length::from_inches(8.0);
    let found = matches(&unit.case(), spacing);
    assert_eq!(found[0].name, "every turn of the rear roller");
    assert!(found[0].is_same && !found[1].is_same, "{found:?}");
    assert!((bounces_per_s(&unit.case(), spacing).unwrap() - 8.8).abs() < 1e-9);
    // 70.4 in/s over 15 turns a second: one bent blade of the eight.
    let found = matches(&unit.case(), Length::from_inches(4.7));
    assert!(found[0].name.contains("one bent blade") && found[0].is_same);
    let far = matches(&unit.case(), Length::from_inches(30.0));
    assert!(far.iter().all(|found| !found.is_same), "{far:?}");
    let told = spacing_told(&unit.case(), Length::from_inches(30.0), System::InchDecimal);
    assert!(told.contains("no part of this unit comes round"), "{told}");
    let file = DemoUnit::FairwayTrailed.file().display().to_string();
    let why = json(&[
        "why",
        &file,
        "--json",
        "--complaint",
        "ribs",
        "--spacing",
        "8 in",
    ]);
    assert_eq!(why["marks"].as_array().unwrap().len(), 4);
    let output = run(&["why", &file, "--complaint", "ribs", "--spacing", "far"]);
    assert_eq!(output.status.code(), Some(2));
}

#[test]
fn a_roller_marks_at_its_circumference_and_a_reel_at_its_clips() {
    let solved = solved(&document(&example(&[])));
    let pitches = pitches(&solved.case());
    // Circumference π·d of 3 in and 2.5 in; 4 mph at 900 rpm and 8 blades: 70.4 in/s over 120 clips.
    let inches: Vec<f64> = pitches.iter().map(|(_, pitch)| pitch.inches()).collect();
    for (found, wanted) in inches
        .iter()
        .zip([70.4 / 120.0, 70.4 / 15.0, 9.424_778, 7.853_982])
    {
        assert!((found - wanted).abs() < 1e-6, "{inches:?}");
    }
}

// The command line.

fn run(arguments: &[&str]) -> std::process::Output {
    Command::new(env!("CARGO_BIN_EXE_sweepgauge"))
        .args(arguments)
        .output()
        .unwrap()
}

fn json(arguments: &[&str]) -> Value {
    let output = run(arguments);
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn the_json_has_its_keys_and_the_numbers_of_the_report() {
    for file in DemoUnit::files() {
        let file = file.to_str().unwrap();
        let why = json(&["why", file, "--json"]);
        let budget = why["budget"].as_array().unwrap();
        let last = budget.last().unwrap();
        assert_eq!(last["id"], "reel_clearance");
        // The report's is that of the middle; the budget goes on to the low end.
        let solved = solved(&open_unit(Path::new(file)).unwrap());
        let wanted = value(&solved.unit, &solved.solution, NumberId::ReelAtLowEnd);
        let left = last["mm"].as_f64().unwrap();
        assert!((left - wanted).abs() < 1e-12, "{file}");
        let report = json(&["report", file, "--json"]);
        let in_the_middle = report["ground"]["reel_clearance_mm"].as_f64().unwrap();
        let over_ground = solved.solution.on_ground.reel_clearance.mm();
        assert!((in_the_middle - over_ground).abs() < 1e-12, "{file}");
        let sum: f64 = budget[..budget.len() - 1]
            .iter()
            .map(|step| step["mm"].as_f64().unwrap())
            .sum();
        assert!((sum - last["mm"].as_f64().unwrap()).abs() < 1e-9);
        assert!(why["crest_to_scalp_mm"].is_number());
        for knob in why["knobs"].as_array().unwrap() {
            let reaches = knob["reaches_limit"].as_bool().unwrap();
            assert_eq!(reaches, knob["change"].is_number());
            assert_eq!(reaches, knob.get("why_not").is_none());
            assert!(
                knob["id"].is_string() && knob["unit"].is_string() && knob["finding"].is_string()
            );
        }
    }
}

#[test]
fn a_knob_told_on_the_command_line_and_given_back_to_the_report_ends_on_the_limit() {
    let file = DemoUnit::GreensScalping.file().display().to_string();
    let why = json(&["why", &file, "--json", "--finding", "sweep"]);
    let knobs = why["knobs"].as_array().unwrap();
    let attitude = knobs.iter().find(|knob| knob["id"] == "attitude").unwrap();
    let now = json(&["report", &file, "--json"])["setting"]["attitude_deg"]
        .as_f64()
        .unwrap();
    let wanted = format!("{} deg", now + attitude["change"].as_f64().unwrap());
    let then = json(&["report", &file, "--json", "--attitude", &wanted]);
    let share = then["solution"]["sweep_share"].as_f64().unwrap();
    assert!((share - 0.05).abs() < 1e-9, "{share}");
}

#[test]
fn a_word_that_is_not_known_is_answered_with_those_that_are() {
    let file = DemoUnit::FairwayTrailed.file().display().to_string();
    for (option, word, known) in [
        ("--finding", "swep", "underside"),
        ("--complaint", "rips", "ribs"),
    ] {
        let output = run(&["why", &file, option, word]);
        assert_eq!(output.status.code(), Some(2));
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(told.contains(word) && told.contains(known), "{told}");
    }
}

#[test]
fn a_finding_that_no_adjustment_changes_is_not_offered_for_the_knobs() {
    let file = DemoUnit::FairwayTrailed.file().display().to_string();
    let output = run(&["why", &file, "--finding", "scrap"]);
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    let (_, offered) = told.split_once("write one of").unwrap();
    let offered: Vec<_> = offered.trim().split(", ").collect();
    assert!(
        offered.contains(&"sweep") && !offered.contains(&"scrap"),
        "{told}"
    );
    for finding in offered {
        let output = run(&["why", &file, "--finding", finding]);
        assert!(output.status.success(), "{finding}");
    }
}

#[test]
fn an_attitude_told_between_the_brackets_stays_inside_by_three_percent_of_them() {
    let limits = "limits: Some((attitude_range: (low: \"5 deg\", high: \"9 deg\"))),";
    let solved = solved(&document(&example(&[("limits: None,", limits)])));
    let finding = solved.findings.get(FindingId::Attitude).unwrap();
    assert_eq!(finding.level, Level::Over);
    let told = solved.told(finding, System::Millimetre);
    assert!(told.contains("an attitude of 5.12° clears it"), "{told}");
}

#[test]
fn the_text_tells_the_causes_of_a_complaint_and_the_cautions() {
    let file = DemoUnit::FairwayTrailed.file().display().to_string();
    for complaint in Complaint::ALL {
        let output = run(&["why", &file, "--complaint", complaint.id()]);
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(
            text.contains(complaint.name()) && text.contains("Confirm:"),
            "{text}"
        );
        for caution in CAUTION {
            assert!(text.contains(caution), "{caution} in {text}");
        }
    }
}

#[test]
fn the_json_tells_the_expanded_uncertainty_and_what_to_improve_first() {
    for demo in [
        DemoUnit::GreensScalping,
        DemoUnit::GreensWalking,
        DemoUnit::SportsMetric,
    ] {
        let file = demo.file().display().to_string();
        let why = json(&["why", &file, "--json", "--finding", "sweep"]);
        let told = &why["uncertainty"];
        let solved = solved(&demo.document());
        for (key, output) in [
            ("behind_centre_mm", NumberId::BehindCentre),
            ("sweep_below_cut_mm", NumberId::SweepBelowCut),
            ("reel_clearance_mm", NumberId::ReelOnGround),
        ] {
            let told = told[key].as_f64().unwrap();
            let wanted = solved.uncertainty.expanded(output);
            let factor = wanted / solved.uncertainty.standard(output);
            assert!((1.65..2.0).contains(&factor), "{demo:?} {key}: {factor}");
            assert!(
                told > 0.0 && (told - wanted).abs() < 1e-12,
                "{demo:?} {key}"
            );
        }
        let shares: Vec<f64> = told["improve_first"]
            .as_array()
            .unwrap()
            .iter()
            .map(|reading| reading["share_of_variance"].as_f64().unwrap())
            .collect();
        assert!(
            shares.windows(2).all(|pair| pair[0] >= pair[1]),
            "{shares:?}"
        );
        assert!(
            (shares.iter().sum::<f64>() - 1.0).abs() < 1e-9,
            "{shares:?}"
        );
    }
}

#[test]
fn a_finding_in_doubt_is_told_on_the_command_line() {
    let file = tempfile::NamedTempFile::with_suffix(".ron").unwrap();
    let text = example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"0.41 in ± 0.05 in\"",
    )]);
    std::fs::write(file.path(), text).unwrap();
    let path = file.path().to_str().unwrap();
    let why = json(&["why", path, "--json"]);
    assert_eq!(why["uncertainty"]["cannot_tell"][0], "sweep");
    let report = json(&["report", path, "--json"]);
    let sweep = &report["findings"][0];
    assert_eq!(sweep["id"], "sweep");
    assert!(
        sweep["text"].as_str().unwrap().contains("Undecided"),
        "{sweep}"
    );
}

#[test]
fn without_a_finding_named_the_knobs_of_every_one_that_is_not_surely_fine_are_told() {
    let demo = DemoUnit::TeesCrowned;
    let solved = solved(&demo.document());
    let file = demo.file().display().to_string();
    let told = |arguments: &[&str]| {
        let mut found: Vec<String> = json(arguments)["knobs"]
            .as_array()
            .unwrap()
            .iter()
            .map(|knob| knob["finding"].as_str().unwrap().to_owned())
            .collect();
        found.dedup();
        found
    };
    let all = told(&["why", &file, "--json"]);
    assert_eq!(all[0], "low_end_underside");
    for finding in solved.findings.iter() {
        let is_wanted = finding.id == FindingId::Sweep || finding.shown_level() > Level::Fine;
        assert_eq!(
            all.iter().any(|id| id == finding.id.id()),
            is_wanted,
            "{}",
            finding.id
        );
    }
    assert_eq!(
        told(&["why", &file, "--json", "--finding", "clip"]),
        ["clip"]
    );
}

#[test]
fn a_roller_move_is_told_in_turns_and_spacers_with_what_is_left_over() {
    let brackets = "brackets: (front_pitch: \"1/16 in\", rear_pitch: \"1.5 mm\", spacers: \"1/32 in; 1/8 in\"),\n    limits: None,";
    let text = example(&[
        ("behind_centre: \"0.3 in\"", "behind_centre: \"0.6 in\""),
        ("limits: None,", brackets),
    ]);
    let file = tempfile::NamedTempFile::with_suffix(".ron").unwrap();
    std::fs::write(file.path(), text).unwrap();
    let file = file.path().to_str().unwrap();
    let why = json(&["why", file, "--json", "--finding", "sweep"]);
    let stock_mm = [25.4 / 32.0, 25.4 / 8.0];
    let mut told = 0;
    for knob in why["knobs"].as_array().unwrap() {
        for (key, by) in [
            ("roller_steps", "change"),
            ("roller_steps_at_aim", "change_to_aim"),
        ] {
            let steps = &knob[key];
            assert_eq!(steps.is_null(), knob[by].is_null(), "{knob}");
            if steps.is_null() {
                continue;
            }
            for (roller, pitch_mm) in [("front", 25.4 / 16.0), ("rear", 1.5)] {
                let number = |name: &str| steps[roller][name].as_f64().unwrap();
                let by_mm = number("by_mm");
                assert!((number("turns") * pitch_mm - by_mm).abs() < 1e-9, "{knob}");
                let sizes = steps[roller]["spacers_mm"].as_array().unwrap();
                let sizes: Vec<f64> = sizes.iter().map(|size| size.as_f64().unwrap()).collect();
                for size in &sizes {
                    assert!(stock_mm.iter().any(|mm| (mm - size).abs() < 1e-9), "{size}");
                }
                let taken: f64 = sizes.iter().sum();
                assert!(
                    (taken + number("left_over_mm") - by_mm.abs()).abs() < 1e-9,
                    "{knob}"
                );
                told += usize::from(by_mm.abs() > 0.01);
            }
        }
    }
    assert!(told > 6, "{told}");
    let plain = String::from_utf8(run(&["why", file, "--finding", "sweep"]).stdout).unwrap();
    assert!(plain.contains("turns of the adjuster"), "{plain}");
}

// What was measured and is none.

#[test]
fn a_zero_that_was_measured_is_a_reading_and_an_empty_field_is_none() {
    let of = |unit: &Document, complaint: Complaint, id: &str| {
        let solved = solved(unit);
        let causes = causes(&solved.case(), complaint);
        let cause = causes.iter().find(|cause| cause.id == id).unwrap();
        (cause.strength, cause.text.shown_in(System::InchDecimal))
    };
    let none = Strength::Known(0.0);
    let measured = worn(
        "roller_sink: \"0 in ± 0.02 in\", shape: Level",
        "front_runout: \"0 in ± 0.001 in\", rear_runout: \"0 in\", end_difference: \"0 in ± 0.004 in\"",
    );
    let empty = worn("", "");
    for (complaint, id, told) in [
        (Complaint::StreakPerTurn, "front_runout", "± 0.0010 in"),
        (Complaint::StreakPerTurn, "rear_runout", "± not entered"),
        (Complaint::StripAtOneEnd, "low_end_reel", "± 0.0040 in"),
        (Complaint::StripAtOneEnd, "low_end_sweep", "± 0.0040 in"),
        (Complaint::StepBetweenUnits, "ends", "± 0.0040 in"),
        (Complaint::ScalpedCrowns, "sink", "± 0.0200 in"),
        (Complaint::ScalpedCrowns, "crest", "no crest here"),
        (Complaint::ScalpedCrowns, "lower_cut", "no crest here"),
        (Complaint::AllOver, "together_reel", "take none of it"),
    ] {
        let (strength, text) = of(&measured, complaint, id);
        assert_eq!(strength, none, "{id}: {text}");
        assert!(
            text.contains("Measured: ") && text.contains(told),
            "{id}: {text}"
        );
        let (strength, text) = of(&empty, complaint, id);
        assert_eq!(strength, Strength::NotMeasured, "{id}: {text}");
        assert!(
            text.contains("measured") && !text.contains("Measured: "),
            "{id}: {text}"
        );
    }
}

#[test]
fn the_budget_tells_a_step_that_was_measured_to_be_none_from_one_that_was_not_measured() {
    let unit = worn(
        "roller_sink: \"0 mm ± 0.5 mm\"",
        "front_runout: \"0 mm ± 0.01 mm\", end_difference: \"1 mm\"",
    );
    let why = Why::of(&solved(&unit), None, Goal::Fine, System::Millimetre);
    let told = |kind| why.reel.none_of(kind).map(Looked::word);
    assert_eq!(told(StepKind::RollerSink), Some("measured: none"));
    assert_eq!(told(StepKind::Crest), Some("not measured"));
    // One roller's reading is not both rollers'.
    assert_eq!(told(StepKind::RollerRunout), Some("not measured"));
    assert_eq!(told(StepKind::EndDifference), None);
    assert_eq!(told(StepKind::Sweep), None);
}

#[test]
fn no_cause_comes_of_rounding() {
    let unit = worn(
        "roller_sink: \"0.000001 mm\", shape: Level",
        "front_runout: \"0 mm\", rear_runout: \"0 mm\", end_difference: \"0 mm\"",
    );
    let solved = solved(&unit);
    for cause in causes(&solved.case(), Complaint::AllOver) {
        let text = cause.text.shown_in(System::InchDecimal);
        assert!(!text.contains("take 0.0000 in"), "{text}");
        if cause.id.starts_with("together") {
            assert_eq!(cause.strength, Strength::Known(0.0), "{text}");
        }
    }
}

#[test]
fn runout_is_seen_from_one_and_the_same_swing_on_in_causes_and_in_findings() {
    // The rear roller's lever is 5.5/8.75: 5 % of 0.5 in are reached by 0.03977 in of runout.
    for (runout, is_seen) in [("0.0397 in", false), ("0.0399 in", true)] {
        let unit = worn("", &format!("rear_runout: \"{runout}\""));
        let solved = solved(&unit);
        let (id, strength) = strongest(&unit, Complaint::StreakPerTurn);
        assert_eq!(
            (id, strength.makes_it()),
            ("rear_runout", is_seen),
            "{runout}"
        );
        let finding = solved.findings.get(FindingId::RunoutSwing).unwrap();
        let told = finding.text.shown_in(System::InchDecimal);
        assert!(told.contains("the edge swings by"), "{told}");
        assert_eq!(told.contains("the cut shows it"), is_seen, "{told}");
        // Level, sentence and sign go together.
        let level = if is_seen { Level::Watch } else { Level::Fine };
        assert_eq!(finding.level, level, "{told}");
        let causes = causes(&solved.case(), Complaint::StreakPerTurn);
        let sign = causes[0].level(&solved.findings);
        assert!(!is_seen || sign == Some(level), "{sign:?}");
        // The reel is clear of the ground at the low side, and its own finding says no more.
        let low_side = solved.findings.get(FindingId::LowEnd).unwrap();
        assert_eq!(low_side.level, Level::Fine);
        let told = low_side.text.shown_in(System::InchDecimal);
        assert!(!told.contains("swing"), "{told}");
    }
}

#[test]
fn a_gap_within_its_own_limits_makes_no_mark() {
    let gap = |limits: &str| {
        let text = example(&[
            ("gap: \"0 mm\"", "gap: \"0.08 mm\""),
            ("limits: None,", limits),
        ]);
        let solved = solved(&document(&text));
        let level = solved.findings.level_of(FindingId::Gap);
        let causes = causes(&solved.case(), Complaint::Tearing);
        let gap = causes.iter().find(|cause| cause.id == "gap").unwrap();
        (
            level,
            gap.strength.makes_it(),
            gap.text.shown_in(System::Millimetre),
        )
    };
    let (level, makes_it, told) =
        gap("limits: Some((gap_watch: \"0.1 mm\", gap_over: \"0.2 mm\")),");
    assert_eq!((level, makes_it), (Some(Level::Fine), false), "{told}");
    assert!(told.contains("over limit above 0.2"), "{told}");
    let (level, makes_it, told) = gap("limits: None,");
    assert_eq!((level, makes_it), (Some(Level::Over), true), "{told}");
}
