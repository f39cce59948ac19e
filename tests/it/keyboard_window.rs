//! The window by keyboard alone: where Tab goes, what it shows, and what keys do there.

use egui::accesskit::{Invalid, Role};
use egui::{Key, Modifiers, PointerButton, Rect, Vec2};
use egui_kittest::kittest::NodeT as _;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Start, WANTED, Window};

/// A small laptop's screen.
const SMALL: Vec2 = Vec2::new(1366.0, 768.0);
/// More stops than any area has.
const MOST_STOPS: usize = 400;

fn small_window(unit: DemoUnit) -> Window {
    let mut start = Start::on(unit.document());
    start.size = SMALL;
    start.window()
}

/// The role and name of what has the keys.
fn in_hand(window: &Window) -> (Role, String) {
    let nodes = window.nodes();
    let focused = nodes.iter().find(|node| node.is_focused());
    let focused = focused.expect("something has the keys");
    let node = focused.accesskit_node();
    (node.role(), node.label().unwrap_or_default())
}

/// What has the keys stands in the window and, in its scroll area, where it is seen.
#[track_caller]
fn assert_in_view(window: &Window) {
    let ctx = &window.harness.ctx;
    let id = ctx.memory(egui::Memory::focused).expect("a widget");
    let response = ctx.read_response(id).expect("it is shown");
    let screen = Rect::from_min_size(egui::Pos2::ZERO, SMALL);
    let told = in_hand(window);
    let (whole, seen) = (response.rect, response.interact_rect);
    assert!(screen.contains_rect(whole), "{told:?} stands at {whole}");
    // What is higher than its area can only be seen in part.
    let hidden = (whole.height() - seen.height()).max(whole.width() - seen.width());
    assert!(
        hidden < 1.0 || whole.height() > 200.0,
        "{told:?}: {seen} of {whole}"
    );
}

#[test]
fn the_first_tab_is_the_first_field_and_shift_goes_back_to_the_steps() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.press(Key::Tab);
    assert_eq!(in_hand(&window), (Role::TextInput, "Name".to_owned()));
    window.press_with(Modifiers::SHIFT, Key::Tab);
    assert_eq!(in_hand(&window).1, WANTED);
    window.press(Key::Enter);
    window.press(Key::Tab);
    assert_eq!(in_hand(&window).1, "Height of cut");
}

#[test]
fn where_a_field_was_left_tab_goes_on() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.field("Gap, bench").focus();
    window.settle();
    window.press(Key::Enter);
    window.press(Key::Tab);
    assert_eq!(in_hand(&window).1, "Front, diameter");
}

#[test]
fn tab_runs_through_every_area_in_view_and_round_again() {
    for area in ["unit", "knives", "why", "blade-path"] {
        let mut window = small_window(DemoUnit::FairwayTrailed);
        assert!(window.harness.state_mut().bring_to_front(area));
        window.settle();
        window.press(Key::Tab);
        let first = in_hand(&window);
        let mut stops = vec![first.clone()];
        for _ in 0..MOST_STOPS {
            window.press(Key::Tab);
            assert_in_view(&window);
            let stop = in_hand(&window);
            if stop == first {
                break;
            }
            stops.push(stop);
        }
        assert!(
            (40..MOST_STOPS).contains(&stops.len()),
            "{area}: {}",
            stops.len()
        );
        let place = |name: &str| stops.iter().position(|(_, stop)| stop == name);
        let order = [
            "Name",
            "Height of cut, bench",
            "Knife name",
            "Limits",
            "File",
            "Edit",
            "About",
            "1 As measured",
        ];
        let places: Vec<_> = order
            .map(|name| place(name).unwrap_or_else(|| panic!("{area}: no {name}")))
            .into();
        assert!(places.is_sorted(), "{area}: {places:?}");
    }
}

#[test]
fn shift_tab_runs_the_same_way_back_in_view() {
    let mut window = small_window(DemoUnit::TeesCrowned);
    window.press(Key::Tab);
    let mut on = vec![in_hand(&window)];
    for _ in 0..60 {
        window.press(Key::Tab);
        on.push(in_hand(&window));
    }
    for stop in on.iter().rev().skip(1) {
        window.press_with(Modifiers::SHIFT, Key::Tab);
        assert_eq!(&in_hand(&window), stop);
        assert_in_view(&window);
    }
}

#[test]
fn entering_a_field_takes_all_of_it_in_hand() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.field("Attitude, bench").focus();
    window.settle();
    window.harness.event(egui::Event::Text("5".to_owned()));
    window.settle();
    assert_eq!(window.entry("Attitude, bench"), "5");
    window.press(Key::Tab);
    window.harness.event(egui::Event::Text("0.25".to_owned()));
    window.settle();
    assert_eq!(window.entry("Behind centre, bench"), "0.25");
}

fn click_at(window: &mut Window, at: egui::Pos2) {
    window.harness.hover_at(at);
    window.settle();
    for pressed in [true, false] {
        window.harness.event(egui::Event::PointerButton {
            pos: at,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
        window.settle();
    }
}

#[test]
fn a_click_into_a_field_takes_all_of_it_and_a_second_one_sets_the_cursor() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    let at = window.field("Attitude, bench").rect().left_center() + Vec2::new(8.0, 0.0);
    click_at(&mut window, at);
    window.harness.event(egui::Event::Text("45".to_owned()));
    window.settle();
    assert_eq!(window.entry("Attitude, bench"), "45");
    // A while later, so that it is no double click.
    (0..60).for_each(|_| {
        window.step();
    });
    click_at(&mut window, at);
    window.harness.event(egui::Event::Text(".".to_owned()));
    window.settle();
    let typed = window.entry("Attitude, bench");
    assert!(typed.contains('4') && typed.contains('5'), "{typed}");
}

#[test]
fn a_list_opens_on_what_it_holds_and_closes_on_enter() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.choice("Turf").focus();
    window.settle();
    window.press(Key::Enter);
    assert_eq!(in_hand(&window).1, "Fairway");
    window.press(Key::ArrowUp);
    assert_eq!(in_hand(&window).1, "Tee");
    window.press(Key::Enter);
    assert_eq!(in_hand(&window), (Role::ComboBox, "Turf".to_owned()));
    assert_eq!(window.choice("Turf").value().as_deref(), Some("Tee"));
    assert!(!window.has_button("Fairway"), "the list is closed");
    window.press(Key::ArrowDown);
    assert_eq!(in_hand(&window).1, "Tee");
    window.press(Key::ArrowDown);
    window.press(Key::Escape);
    assert_eq!(window.choice("Turf").value().as_deref(), Some("Tee"));
    window.press(Key::ArrowDown);
    window.press(Key::Tab);
    assert!(!window.has_button("Fairway"), "the list is closed");
    window.press(Key::Tab);
    assert_eq!(in_hand(&window).1, "Reel, new");
}

#[test]
fn escape_closes_the_card_whatever_stands_on_it() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.click("File");
    window.click("Save to a path…");
    window
        .harness
        .event(egui::Event::Text("/no/such/folder/unit.ron".to_owned()));
    window.settle();
    window.press(Key::Enter);
    window.assert_says("Save to a path");
    window.assert_says("/no/such/folder");
    window.press(Key::Escape);
    window.assert_silent("Save here");
}

#[test]
fn a_reason_moves_nothing_and_a_screen_reader_hears_it_at_its_field() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    let places = |window: &Window| -> Vec<Rect> {
        let nodes = window.nodes();
        let fields = nodes
            .iter()
            .filter(|node| node.accesskit_node().role() == Role::TextInput);
        fields.map(egui_kittest::Node::rect).collect()
    };
    let before = places(&window);
    assert!(before.len() > 10);
    window.type_over("Attitude, bench", "about 4");
    assert_eq!(places(&window), before);
    let node = window.field("Attitude, bench");
    let data = node.accesskit_node().data().clone();
    assert_eq!(data.invalid(), Some(Invalid::True));
    let told = data.description().unwrap_or_default().to_owned();
    assert!(told.contains("\"about 4\" is not a number"), "{told}");
    // It never covers the field that somebody is in.
    window.press(Key::Tab);
    let seen = window
        .texts()
        .into_iter()
        .filter(|text| *text == told)
        .count();
    assert_eq!(seen, 0);
    window.press(Key::Escape);
    let seen = window
        .texts()
        .into_iter()
        .filter(|text| *text == told)
        .count();
    assert_eq!(seen, 1);
    assert_eq!(places(&window), before);
}
