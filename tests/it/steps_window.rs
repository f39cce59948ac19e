//! The form's two steps: as measured, with its examples, then as wanted.

use egui::{Key, Vec2};
use sweepgauge::analysis::Solved;
use sweepgauge::unit::{Document, Field, Reading, SettingEntry};
use sweepgauge::units::System;

use crate::common::demo_unit::DemoUnit;
use crate::common::reading_list::READINGS;
use crate::common::shown::{Start, WANTED, Window, demo_set};

fn new_unit() -> Document {
    DemoUnit::FairwayTrailed.document().as_new()
}

fn new_window() -> Window {
    Start::on(new_unit()).window()
}

#[test]
fn a_list_of_readings_typed_in_order_is_the_unit_it_describes() {
    let mut built = new_unit();
    for (_, text, path) in READINGS {
        let field = Field::at_path(path).expect("a field");
        field.set(&mut built, text, System::InchDecimal).unwrap();
    }
    assert!(
        built.examples.is_empty(),
        "the list is all that is asked for"
    );
    let mut window = new_window();
    for (index, (name, text, _)) in READINGS.into_iter().enumerate() {
        let left = READINGS.len() - index;
        if left > 1 {
            window.assert_says(&format!("{left} of 17 readings are still examples"));
        }
        window.assert_silent("Fine: every finding");
        window.enter_text(name, text);
        if name == "Reel, new" {
            // Smaller now than the scrap size that still stands there: the next reading mends it.
            continue;
        }
        window.assert_silent("Not current");
    }
    assert_eq!(window.document(), &built);
    window.assert_silent("still example");
    let solved = Solved::of(&built).unwrap();
    for finding in solved.findings.iter() {
        window.assert_says(&format!("{}: {}", finding.title(), finding.standing()));
        window.assert_says(&finding.text.shown_in(System::InchDecimal));
    }
    window.click(WANTED);
    for name in ["Height of cut", "Attitude", "Reel diameter", "Gap"] {
        assert_eq!(window.placeholder(name), "as measured");
    }
    assert_eq!(window.document().setting, SettingEntry::default());
}

#[test]
fn one_tab_after_another_runs_through_the_list_in_order() {
    let mut window = new_window();
    window.field("Reel, new").focus();
    window.settle();
    let mut seen: Vec<String> = Vec::new();
    let mut is_past_end = false;
    for _ in 0..80 {
        let nodes = window.nodes();
        let focused = nodes.iter().find(|node| node.is_focused());
        let name = focused.and_then(|node| {
            use egui_kittest::kittest::NodeT as _;
            let node = node.accesskit_node();
            let is_at_end = seen.last().is_some_and(|name| name == "Width");
            let is_button = node.role() == egui::accesskit::Role::Button;
            is_past_end |= is_at_end && is_button;
            let told = node.label();
            assert!(is_past_end || !is_button, "{told:?} between readings");
            (node.role() == egui::accesskit::Role::TextInput).then_some(told)?
        });
        drop(nodes);
        seen.extend(name);
        window.press(Key::Tab);
    }
    let order: Vec<_> = READINGS
        .iter()
        .map(|(name, ..)| (*name).to_owned())
        .collect();
    seen.retain(|name| order.contains(name));
    seen.dedup();
    assert_eq!(seen[..order.len()], order);
}

#[test]
fn an_example_that_is_true_is_kept_by_a_click_and_comes_back_with_undo() {
    let mut window = new_window();
    window.click("Gap, as measured: an example, keep it as mine");
    window.assert_says("16 of 17 readings are still examples");
    assert!(!window.document().examples.has(Reading::Gap));
    window.press_with(egui::Modifiers::COMMAND, Key::Z);
    assert_eq!(window.document(), &new_unit());
}

#[test]
fn escape_makes_an_example_of_it_again() {
    let mut window = new_window();
    window.type_over("Height of cut, as measured", "0.4");
    window.assert_says("16 of 17 readings are still examples");
    window.press(Key::Escape);
    assert_eq!(window.document(), &new_unit());
}

#[test]
fn what_stands_there_typed_again_is_no_example() {
    let mut window = new_window();
    let shown = window.entry("Attitude, as measured");
    window.type_over("Attitude, as measured", "7");
    window.enter_text("Attitude, as measured", &shown);
    assert!(!window.document().examples.has(Reading::Attitude));
}

#[test]
fn nothing_can_be_wanted_beside_an_example() {
    let mut window = new_window();
    window.click(WANTED);
    for name in ["Height of cut", "Attitude", "Reel diameter", "Gap"] {
        assert!(
            window.has_button(&format!("{name}: measure it first")),
            "{name}"
        );
    }
    window.click("Attitude: measure it first");
    assert!(window.field("Attitude, as measured").is_focused());
    window.enter_text("Attitude, as measured", "3");
    window.click(WANTED);
    assert!(!window.has_button("Attitude: measure it first"));
    assert_eq!(window.placeholder("Attitude"), "as measured");
    assert!(window.has_button("Gap: measure it first"));
    window.assert_says("The rollers' places are still examples.");
}

#[test]
fn a_document_opens_on_the_step_that_it_is_at() {
    let is_wanted = |window: &Window| window.says("Back to as measured");
    assert!(!is_wanted(&new_window()));
    assert!(!is_wanted(&Window::demo()));
    assert!(is_wanted(
        &Start::on(demo_set("attitude: \"5 deg\"")).window()
    ));
    let mut unfinished = new_unit();
    unfinished.setting = demo_set("extension: \"1 mm\"").setting;
    assert!(!is_wanted(&Start::on(unfinished).window()));
}

#[test]
fn the_second_step_says_what_differs_and_goes_back_one_by_one_or_at_once() {
    let mut window = Window::demo_as_wanted();
    window.assert_silent("Differs from as measured");
    window.enter_text("Attitude", "5");
    window.enter_text("Reel diameter", "6.7");
    window.choose("Knife fitted", "short");
    window.assert_says("Differs from as measured");
    for told in [
        "attitude 5 deg (was 4 deg)",
        "reel diameter 6.7 in (was 6.9 in)",
        "knife short (was plain)",
    ] {
        window.assert_says(told);
    }
    window.assert_says("measured 6.9 in");
    window.click("Attitude: back to as measured");
    window.assert_silent("(was 4 deg)");
    window.assert_says("reel diameter 6.7 in (was 6.9 in)");
    assert_eq!(window.placeholder("Attitude"), "as measured");
    // What was measured, written out, differs from nothing.
    window.enter_text("Reel diameter", "6.9");
    window.assert_says("Differs from as measured");
    window.assert_says("knife short (was plain)");
    window.assert_silent("(was 6.9 in)");
    window.click("Back to as measured");
    assert_eq!(window.document().setting, SettingEntry::default());
    window.assert_silent("Differs from as measured");
}

#[test]
fn a_folded_part_says_what_is_wrong_or_an_example_in_it() {
    let mut window = Window::demo();
    window.unfold_one("Reel-to-knife adjustment");
    window.choose("Adjusted by", "Reel swings on a pivot");
    window.assert_says("2 of 21 readings are still examples");
    window.assert_silent("2 still examples");
    window.unfold_one("Reel-to-knife adjustment");
    window.assert_says("2 still examples");
    window.unfold_one("Reel-to-knife adjustment");
    window.enter_text("Pivot, ahead of edge", "-5");
    window.enter_text("Pivot, above plate", "high up");
    window.unfold_one("Reel-to-knife adjustment");
    window.assert_says("1 wrong");
}

#[test]
fn everything_that_is_measured_is_in_view_on_a_small_screen() {
    let mut start = Start::on(new_unit());
    start.size = Vec2::new(1366.0, 768.0);
    let window = start.window();
    for (name, ..) in READINGS {
        let field = window.field(name).rect();
        let room = if name == "Body thickness" || name == "Width" {
            // The last line stands under the help until it is scrolled to.
            768.0
        } else {
            652.0
        };
        assert!(field.bottom() <= room, "{name} ends at {}", field.bottom());
        assert!(field.width() > 120.0, "{name} is {} wide", field.width());
    }
}
