//! The Blade path area by accessible name, without a display.

use std::time::Duration;

use egui_kittest::kittest::NodeT as _;
use sweepgauge::analysis::{Kinematics, Solved};
use sweepgauge::app::DEMO_UNIT;
use sweepgauge::unit::Document;
use sweepgauge::units::{Measure as _, System};

use crate::common::shown::{Start, Window, demo_set, document};

/// The demo unit without speeds.
fn without_speeds() -> Document {
    let mut document = document(DEMO_UNIT);
    document.mowing = None;
    document
}

/// A window on a document, in the Blade path area.
fn blade_path_of(document: Document) -> Window {
    opened(Start::on(document))
}

fn opened(start: Start) -> Window {
    let mut window = start.window();
    window.click("Blade path");
    window
}

fn kinematics(document: &Document) -> Kinematics {
    let solved = Solved::of(document).unwrap();
    Kinematics::of(&solved.unit, &solved.solution).expect("speeds")
}

/// Every number of the window's document stands after its name.
#[track_caller]
fn assert_numbers_shown(window: &Window) {
    let system = window.app().system();
    let told = kinematics(window.document()).told(system);
    assert!(told.len() >= 7);
    for told in told {
        assert_eq!(window.number(told.name), told.shown, "{}", told.name);
    }
}

#[test]
fn the_area_shows_the_numbers_and_the_drawing_in_every_system() {
    let mut window = blade_path_of(document(DEMO_UNIT));
    for system in System::ALL {
        window.click(system.name());
        assert_numbers_shown(&window);
        window.assert_says("Paths of the blades over the ground");
        window.assert_says("times the height of cut");
        let (named, other) = match system {
            System::Millimetre => ("Clips per metre", "Clips per foot"),
            _ => ("Clips per foot", "Clips per metre"),
        };
        window.assert_says(named);
        window.assert_silent(other);
    }
    window.assert_says("Never measure or look closely while the reel turns");
    window.assert_says("Rule of thumb");
    window.assert_says("The ripple is an estimate");
}

#[test]
fn the_numbers_follow_what_is_set() {
    let mut window = blade_path_of(document(DEMO_UNIT));
    let before = window.number("Enters the cut line");
    window.enter_text("Attitude", "6 deg");
    assert_numbers_shown(&window);
    assert_ne!(window.number("Enters the cut line"), before);
    let solved = window.generation();
    window.click("Smaller");
    window.click("Show all");
    window.click("Two turns of a blade");
    window.choose("Stretch upwards", "upwards ×5");
    assert_eq!(window.generation(), solved, "looking around solves nothing");
}

#[test]
fn driving_at_the_offered_speed_makes_the_clip_as_long_as_the_cut() {
    let mut window = blade_path_of(document(DEMO_UNIT));
    let reel = window.document().mowing.clone().unwrap().reel_speed;
    let system = window.app().system();
    let speeds = kinematics(window.document()).for_cut.unwrap();
    let offered = speeds.ground_speed.entry(system);
    assert_ne!(window.number("Clip ÷ height of cut"), "1.00");
    window.click(&format!("Drive at {offered}"));
    let mowing = window.document().mowing.clone().unwrap();
    assert_eq!(mowing.ground_speed.text(), offered);
    assert_eq!(mowing.reel_speed, reel);
    assert_eq!(window.number("Clip ÷ height of cut"), "1.00");
    assert_numbers_shown(&window);
    // The form shows it as well, and what was typed there gives way.
    window.unfold_one("Mowing");
    assert_eq!(window.entry("Ground speed"), offered);
}

#[test]
fn turning_the_reel_at_the_offered_speed_makes_the_clip_as_long_as_the_cut() {
    let mut window = blade_path_of(document(DEMO_UNIT));
    window.click("mm");
    let ground = window.document().mowing.clone().unwrap().ground_speed;
    let speeds = kinematics(window.document()).for_cut.unwrap();
    let offered = speeds.reel_speed.entry(System::Millimetre);
    window.click(&format!("Use {offered}"));
    let mowing = window.document().mowing.clone().unwrap();
    assert_eq!(mowing.reel_speed.text(), offered);
    assert_eq!(mowing.ground_speed, ground);
    assert_eq!(window.number("Clip ÷ height of cut"), "1.00");
}

#[test]
fn without_speeds_the_area_says_so_and_fills_in_an_example() {
    let mut window = blade_path_of(without_speeds());
    window.assert_says("No speeds yet");
    window.assert_says("Never measure or look closely while the reel turns");
    window.assert_silent("Paths of the blades over the ground");
    window.assert_silent("Clip ÷ height of cut");
    window.click("Fill in speeds");
    let mowing = window.document().mowing.clone().expect("speeds");
    assert!(mowing.ground_speed.value().mm_per_s() > 0.0);
    window.assert_silent("No speeds yet");
    assert_numbers_shown(&window);
}

#[test]
fn a_tip_that_never_is_below_the_cut_is_told_in_words() {
    let window = blade_path_of(demo_set("attitude: \"-6 deg\""));
    window.assert_says("The edge does not stand behind centre");
    window.assert_silent("Time to the clip");
    window.assert_silent("NaN");
    assert_numbers_shown(&window);
}

#[test]
fn an_edge_below_the_ground_has_no_clip_to_match() {
    let rollers = "rollers: (front_move: \"1.5 in\", rear_move: \"1.5 in\")";
    let window = blade_path_of(demo_set(rollers));
    assert!(kinematics(window.document()).for_cut.is_none());
    window.assert_says("there is no height of cut to match");
    window.assert_silent("Drive at");
    assert_eq!(window.number("Clip ÷ height of cut"), "none");
}

#[test]
fn a_wrong_entry_marks_the_paths_as_not_current() {
    let mut window = blade_path_of(document(DEMO_UNIT));
    window.enter_text("Attitude", "about 6");
    window.assert_says("Not current: these are the numbers of the last drawing.");
    let offered = kinematics(window.document()).for_cut.unwrap();
    let button = format!(
        "Drive at {}",
        offered.ground_speed.entry(System::InchDecimal)
    );
    let is_disabled = window.button(&button).accesskit_node().is_disabled();
    assert!(
        is_disabled,
        "nothing is changed from a drawing that is not current"
    );
    window.enter_text("Attitude", "6");
    window.assert_silent("Not current");
}

#[test]
fn the_area_rests_when_nobody_touches_it_and_follows_a_change_of_the_unit() {
    let mut window = blade_path_of(document(DEMO_UNIT));
    for _ in 0..5 {
        assert_eq!(window.step(), Duration::MAX);
    }
    window.click("Knives");
    window.enter_text("Height of cut", "3/8 in");
    window.click("Blade path");
    assert_numbers_shown(&window);
}

#[test]
fn resting_on_a_number_tells_what_it_means() {
    let mut start = Start::on(document(DEMO_UNIT));
    start.pace = 0.5;
    let mut window = opened(start);
    for told in kinematics(window.document()).told(System::InchDecimal) {
        let at = window
            .nodes()
            .iter()
            .filter(|node| node.value().as_deref() == Some(told.name))
            .map(|node| node.rect().center())
            .next_back()
            .unwrap_or_else(|| panic!("{}", told.name));
        window.harness.remove_cursor();
        (0..2).for_each(|_| {
            window.step();
        });
        window.assert_silent(told.meaning);
        window.harness.hover_at(at);
        (0..4).for_each(|_| {
            window.step();
        });
        window.assert_says(told.meaning);
    }
}
