//! The Why area: what it shows and what is done in it, without a display.

use egui::Vec2;
use sweepgauge::analysis::why::{
    Complaint, CrestLimits, Cure, Goal, Knob, Why, causes, worst_finding,
};
use sweepgauge::analysis::{FindingId, NumberId, Solved};
use sweepgauge::unit::Document;
use sweepgauge::units::{Rollers, System};

use crate::common::demo_unit::DemoUnit;
use crate::common::example::{EXAMPLE, example};
use crate::common::shown::{Start, Window, document};

fn why_of(document: Document) -> Window {
    let mut window = Start::on(document).window();
    window.click("Why");
    window
}

fn worked_out(document: &Document) -> (Solved, Why) {
    let solved = Solved::of(document).unwrap();
    let why = Why::of(&solved, None, Goal::Fine, System::InchDecimal);
    (solved, why)
}

#[test]
fn the_area_shows_both_budgets_the_crests_and_every_knob() {
    let window = why_of(DemoUnit::GreensScalping.document());
    let (solved, why) = worked_out(window.document());
    let system = window.app().system();
    for name in [
        "Height budget: Reel",
        "Height budget: Underside of the knife and its hardware",
    ] {
        assert!(
            window.nodes().iter().any(|node| {
                use egui_kittest::kittest::NodeT as _;
                node.accesskit_node().label().as_deref() == Some(name)
            }),
            "{name}"
        );
    }
    let radius = CrestLimits::of(&solved.case()).reel.radius().unwrap();
    window.assert_says(&format!("of a radius over {}", system.radius(radius)));
    for knob in Knob::ALL {
        window.assert_says(knob.name());
    }
    for answer in &why.knobs {
        if let Err(why_not) = &answer.to_limit {
            window.assert_says(&why_not.sentence().shown_in(system));
        }
    }
}

#[test]
fn a_complaint_brings_its_causes_and_what_would_confirm_them() {
    let mut window = why_of(DemoUnit::GreensScalping.document());
    for complaint in Complaint::ALL {
        window.click(complaint.name());
        let (solved, _) = worked_out(window.document());
        for cause in causes(&solved.case(), complaint) {
            window.assert_says(&format!("{}: {}", cause.name, cause.strength.word()));
            window.assert_says(cause.confirm);
        }
        window.assert_says(complaint.outside());
        window.click(complaint.name());
        window.assert_silent(complaint.outside());
    }
}

#[test]
fn a_knob_is_tried_with_one_click_and_taken_back_with_another() {
    for (demo, knob) in [
        (DemoUnit::GreensScalping, Knob::Attitude),
        (DemoUnit::GreensScalping, Knob::Extension),
        (DemoUnit::GreensScalping, Knob::FrontRoller),
        (DemoUnit::KnifeChoice, Knob::Knife),
    ] {
        let mut window = why_of(demo.document());
        let before = window.document().clone();
        let (_, why) = worked_out(&before);
        assert_eq!(why.finding, FindingId::Sweep);
        let ends = if knob == Knob::Knife { "Inside" } else { "To" };
        let button = format!("Try {}, {ends} its OK limit", knob.name());
        assert!(window.has_button(&button), "{button}");
        assert!(!window.has_button("Undo"));
        window.click(&button);
        let (tried, _) = worked_out(window.document());
        let level = tried.findings.level_of(FindingId::Sweep).unwrap();
        assert_eq!(level, sweepgauge::analysis::Level::Fine, "{knob:?}");
        window.assert_says("Tried: ");
        window.click("Undo");
        assert_eq!(window.document(), &before, "{knob:?}");
        assert!(!window.has_button("Undo"));
    }
}

#[test]
fn undo_is_gone_once_something_else_was_changed() {
    let mut window = why_of(DemoUnit::GreensScalping.document());
    window.click(&format!("Try {}, To its OK limit", Knob::Extension.name()));
    assert!(window.has_button("Undo"));
    window.enter_text("Name", "Another name");
    assert!(!window.has_button("Undo"));
}

#[test]
fn another_finding_and_another_limit_can_be_asked_about() {
    let mut window = why_of(DemoUnit::GreensScalping.document());
    let (solved, _) = worked_out(window.document());
    assert_eq!(
        worst_finding(&solved.findings, &solved.case()),
        FindingId::Sweep
    );
    window.choose("Finding to bring to its limit", "Clip length: OK");
    let drive = format!(
        "Try {}, Room left, to its OK limit",
        Knob::GroundSpeed.name()
    );
    window.click(&drive);
    let then = Solved::of(window.document()).unwrap();
    let ratio = then.solution.mowing.unwrap().clip_to_cut.unwrap().number();
    // A green's starting limit.
    assert!((ratio - 1.5).abs() < 1e-6, "{ratio}");
    window.choose("Finding to bring to its limit", "Sweep: over limit");
    window.click("not over limit");
    window.click(&format!("Try {}, To its over limit", Knob::Attitude.name()));
    let share = Solved::of(window.document()).unwrap().solution.sweep_share;
    // What is set is what is read, on the safe side: a few hundredths of a degree.
    assert!(
        (0.098..=0.1).contains(&share.unwrap().of_one()),
        "{share:?}"
    );
}

#[test]
fn readings_with_plus_or_minus_say_how_sure_and_what_to_measure_first() {
    let window = why_of(DemoUnit::GreensScalping.document());
    let solved = Solved::of(window.document()).unwrap();
    let off = solved.uncertainty.expanded(NumberId::SweepShare);
    window.assert_says(&format!("± {:.1} %", 100.0 * off));
    window.assert_says("Behind centre, b: 98.8 % of its ±");
    let plain = why_of(document(EXAMPLE));
    assert!(
        Solved::of(plain.document())
            .unwrap()
            .unit
            .uncertain
            .is_empty()
    );
    plain.assert_says("No reading carries a ±");
}

#[test]
fn a_limit_within_the_readings_doubt_cannot_be_told() {
    let text = DemoUnit::GreensScalping.text().replace(
        "behind_centre: \"0.2 in ± 0.02 in\"",
        "behind_centre: \"0.2 in ± 0.06 in\"",
    );
    let solved = Solved::of(&document(&text)).unwrap();
    let sweep = solved
        .findings
        .iter()
        .find(|finding| finding.id == FindingId::Sweep)
        .unwrap();
    let doubt = sweep.doubt.unwrap();
    // 14.4 % is known to ± 6.9 %: the limit of 10 % lies within that.
    assert!((doubt.limit.base() - 0.1).abs() < 1e-12);
    assert!(doubt.off.base() > 0.044);
    let window = Start::on(document(&text)).window();
    window.assert_says("undecided: reads over limit");
    window.assert_says("Undecided: sweep (reads over limit)");
    let sure = Solved::of(&DemoUnit::GreensScalping.document()).unwrap();
    let sweep = sure
        .findings
        .iter()
        .find(|finding| finding.id == FindingId::Sweep)
        .unwrap();
    assert!(sweep.doubt.is_none());
}

#[test]
fn a_trial_that_leaves_nothing_to_show_can_still_be_taken_back() {
    let mut window = why_of(DemoUnit::GreensScalping.document());
    let before = window.document().clone();
    window.click(&format!("Try {}, To its OK limit", Knob::Extension.name()));
    // Another field is typed wrong meanwhile: the area is not current.
    window.type_over("Behind centre, as measured", "wide");
    window.assert_says("Not current");
    assert!(window.has_button("Undo"));
    window.click("Undo");
    assert_eq!(window.document(), &before);
    window.assert_silent("Not current");
}

#[test]
fn the_units_of_the_area_are_the_readers() {
    let mut window = why_of(DemoUnit::GreensScalping.document());
    window.click("mm");
    assert_eq!(window.app().system(), System::Millimetre);
    let (_, why) = worked_out(window.document());
    let attitude = &why.knobs[0];
    let rear = attitude.to_limit.as_ref().unwrap().trial_rollers.1;
    window.assert_says(&System::Millimetre.move_of(Rollers::Rear, rear));
}

#[test]
fn a_roller_move_is_told_in_turns_where_the_threads_are_known() {
    let swept = ("behind_centre: \"0.3 in\"", "behind_centre: \"0.6 in\"");
    let window = why_of(document(&example(&[swept])));
    window.assert_silent("turns of the adjuster");
    let brackets = "brackets: (rear_pitch: \"1.5 mm\"),\n    limits: None,";
    let window = why_of(document(&example(&[swept, ("limits: None,", brackets)])));
    window.assert_says("turns of the adjuster");
}

#[test]
fn a_cause_leads_straight_to_the_adjustments_that_cure_it() {
    let mut start = Start::on(DemoUnit::GreensScalping.document());
    start.size = Vec2::new(1366.0, 768.0);
    let mut window = start.window();
    window.click("Why");
    window.click(Complaint::Ribs.name());
    let top_of_try = |window: &Window| {
        let name = format!("Try {}, To its OK limit", Knob::Attitude.name());
        window.button(&name).rect().top()
    };
    let height = window.harness.ctx.content_rect().height();
    assert!(top_of_try(&window) > height, "{}", top_of_try(&window));
    window.click("What would cure Sweep");
    window.settle();
    assert!(
        (0.0..height).contains(&top_of_try(&window)),
        "{}",
        top_of_try(&window)
    );
}

#[test]
fn a_cause_that_plays_no_part_offers_no_cure() {
    let swept = ("behind_centre: \"0.3 in\"", "behind_centre: \"0.9 in\"");
    let mut window = why_of(document(&example(&[swept])));
    window.click(Complaint::Ribs.name());
    let (solved, _) = worked_out(window.document());
    let mut seen = [0, 0];
    for cause in causes(&solved.case(), Complaint::Ribs) {
        let Cure::Adjustments(_) = cause.cure else {
            continue;
        };
        let is_offered = window.says(&format!("What would cure {}", cause.name));
        assert_eq!(is_offered, cause.strength.has_part(), "{}", cause.name);
        seen[usize::from(is_offered)] += 1;
    }
    assert_eq!(seen, [1, 1]);
    window.assert_says("Clip length: weak, plays no part alone (");
    window.assert_says(" % of what it takes)");
    window.assert_says("Not measured: enter the runout of both rollers.");
}
