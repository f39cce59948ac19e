//! The window by keyboard alone: where Tab goes, what it shows, and what keys do there.

use egui::accesskit::{Action, Invalid, Role};
use egui::{Key, Modifiers, PointerButton, Rect, Vec2};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::analysis::Solved;
use sweepgauge::drawing::verdict;
use sweepgauge::store::open_unit;
use sweepgauge::unit::Field;
use sweepgauge::units::System;

use crate::common::demo_unit::DemoUnit;
use crate::common::reading_list::READINGS;
use crate::common::shown::{MEASURED, Start, WANTED, Window};

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
    window.field("Gap, as measured").focus();
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
            "Height of cut, as measured",
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
    window.field("Attitude, as measured").focus();
    window.settle();
    window.harness.event(egui::Event::Text("5".to_owned()));
    window.settle();
    assert_eq!(window.entry("Attitude, as measured"), "5");
    window.press(Key::Tab);
    window.harness.event(egui::Event::Text("0.25".to_owned()));
    window.settle();
    assert_eq!(window.entry("Behind centre, as measured"), "0.25");
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
    let at = window.field("Attitude, as measured").rect().left_center() + Vec2::new(8.0, 0.0);
    click_at(&mut window, at);
    window.harness.event(egui::Event::Text("45".to_owned()));
    window.settle();
    assert_eq!(window.entry("Attitude, as measured"), "45");
    // A while later, so that it is no double click.
    (0..60).for_each(|_| {
        window.step();
    });
    click_at(&mut window, at);
    window.harness.event(egui::Event::Text(".".to_owned()));
    window.settle();
    let typed = window.entry("Attitude, as measured");
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
    window.type_over("Attitude, as measured", "about 4");
    assert_eq!(places(&window), before);
    let node = window.field("Attitude, as measured");
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

#[test]
fn what_cannot_be_true_is_told_at_its_field_and_taken_all_the_same() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    for (field, text, told) in [
        ("Reel diameter, as measured", "7.1", "a reel only wears"),
        ("Reach", "2.8", "no metal behind the screws"),
    ] {
        window.type_over(field, text);
        let node = window.field(field);
        let data = node.accesskit_node().data().clone();
        assert_eq!(data.invalid(), None, "{field}");
        let description = data.description().unwrap_or_default().to_owned();
        assert!(description.contains(told), "{field}: {description}");
        window.assert_says(&description);
        window.press(Key::Enter);
        assert!(!window.says("Not current"), "{field}");
    }
    let document = window.document();
    let doubts: Vec<_> = document.doubts(System::InchDecimal).collect();
    assert_eq!(doubts.len(), 2, "{doubts:?}");
}

#[test]
fn f1_tells_what_the_field_in_hand_means_and_escape_goes_back_to_it() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    for (role, name, path) in [
        (Role::TextInput, "Attitude, as measured", "bench.attitude"),
        (Role::ComboBox, "Turf", "turf"),
    ] {
        let words = Field::at_path(path).expect("a field").words();
        let is_told = |window: &Window| {
            window
                .texts()
                .iter()
                .filter(|t| *t == words.meaning)
                .count()
        };
        tab_to(&mut window, role, name);
        let before = is_told(&window);
        window.press(Key::F1);
        assert_eq!(is_told(&window), before + 1, "{name}");
        window.press(Key::Escape);
        assert_eq!(is_told(&window), before);
        assert_eq!(in_hand(&window).1, name);
    }
}

#[test]
fn a_question_mark_lists_the_keys_but_is_typed_in_a_field() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.press_with(Modifiers::SHIFT, Key::Questionmark);
    for told in [
        "Ctrl+N",
        "Ctrl+Shift+S",
        "Ctrl+1",
        "Ctrl+4",
        "F1",
        "F10, Alt+F",
        "F11",
        "?",
        "Begin a unit of your own",
    ] {
        window.assert_says(told);
    }
    window.press(Key::Escape);
    window.assert_silent("Begin a unit of your own");
    window.field("Name").focus();
    window.settle();
    window.press_with(Modifiers::SHIFT, Key::Questionmark);
    window.assert_silent("Begin a unit of your own");
}

#[test]
fn a_menu_opens_by_its_letter_and_an_item_is_taken_by_its_own() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.press(Key::F10);
    assert_eq!(in_hand(&window).1, "New");
    window.press(Key::ArrowDown);
    assert_eq!(in_hand(&window).1, "Open…");
    window.press(Key::P);
    window.assert_says("Open a path");
    window.press(Key::Escape);
    window.enter_text("Attitude, as measured", "5");
    window.press_with(Modifiers::ALT, Key::E);
    assert_eq!(in_hand(&window).1, "Undo attitude, as measured 5 deg");
    window.press(Key::U);
    assert_eq!(window.document(), &DemoUnit::FairwayTrailed.document());
    window.assert_silent("Undo attitude");
    window.press_with(Modifiers::ALT, Key::E);
    window.press(Key::R);
    assert_eq!(window.entry("Attitude, as measured"), "5 deg");
    window.press(Key::F10);
    window.press(Key::Escape);
    assert!(!window.has_button("Open…"), "the menu is closed");
}

#[test]
fn a_menu_that_is_closed_gives_the_keys_back_to_the_field_they_came_from() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    for letter in [Key::V, Key::E] {
        window.type_over("Attitude, as measured", "5");
        window.press_with(Modifiers::ALT, letter);
        assert!(!window.field("Attitude, as measured").is_focused());
        window.press(Key::Escape);
        assert!(window.field("Attitude, as measured").is_focused());
    }
}

#[test]
fn a_screen_reader_is_told_names_values_and_levels_in_every_area() {
    for unit in [DemoUnit::FairwayTrailed, DemoUnit::GreensScalping] {
        for area in ["unit", "knives", "why", "blade-path"] {
            let mut window = Start::on(unit.document()).window();
            window.click(WANTED);
            assert!(window.harness.state_mut().bring_to_front(area));
            window.settle();
            let mut count = 0;
            for node in window.nodes() {
                let node = node.accesskit_node();
                let data = node.data();
                let is_reached = [Action::Focus, Action::Click]
                    .into_iter()
                    .any(|action| data.supports_action(action));
                if !is_reached || matches!(node.role(), Role::Label | Role::ScrollBar) {
                    continue;
                }
                count += 1;
                let name = node.label().unwrap_or_default();
                assert!(
                    !name.trim().is_empty(),
                    "{area}: a {:?} without a name",
                    node.role()
                );
                match node.role() {
                    Role::Slider => {
                        let told = data.value().unwrap_or_default();
                        assert!(
                            data.numeric_value().is_some() && !told.is_empty(),
                            "{area}: {name}"
                        );
                    }
                    Role::ComboBox => assert!(data.value().is_some(), "{area}: {name}"),
                    _ => {}
                }
            }
            assert!(count > 30, "{area}: only {count} widgets");
            if !matches!(area, "unit" | "why") {
                continue;
            }
            let solved = Solved::of(&unit.document()).expect("a right unit");
            let texts = window.texts();
            let (level, told) = verdict(&solved.findings, solved.document.example_count());
            let levels = [
                ("OK", "OK"),
                ("watch", "Watch"),
                ("over limit", "Over limit"),
            ];
            let worst = solved.findings.worst().word();
            let says = levels
                .iter()
                .find(|(word, _)| *word == worst)
                .expect("a level")
                .1;
            let is_sure = !solved.findings.are_in_doubt();
            assert!(!is_sure || told.starts_with(says), "{told}");
            assert!(
                is_sure || told.to_lowercase().contains("undecided"),
                "{told}"
            );
            assert!(texts.contains(&told), "{area}: no node says {told}");
            let nodes = window.nodes();
            let mut verdicts = nodes.iter().filter(|node| {
                let node = node.accesskit_node();
                node.label().as_deref() == Some("Verdict")
            });
            let node = verdicts.next().expect("the verdict").accesskit_node();
            assert_eq!(node.value().as_deref(), Some(&*told), "{area}");
            assert_eq!(node.data().description(), Some(level.word()), "{area}");
            assert!(verdicts.next().is_none(), "{area}: one verdict");
            if area == "unit" {
                for finding in solved.findings.iter() {
                    let told = format!("{}: {}", finding.title(), finding.standing());
                    assert!(texts.contains(&told), "{told}");
                }
            }
        }
    }
}

/// Goes on with Tab to something, everything on the way in view.
#[track_caller]
fn tab_to(window: &mut Window, role: Role, name: &str) {
    for _ in 0..MOST_STOPS {
        window.press(Key::Tab);
        assert_in_view(window);
        if in_hand(window) == (role, name.to_owned()) {
            return;
        }
    }
    panic!("Tab never comes to {name}");
}

/// Keys that come faster than frames: all of them in one.
fn press_at_once(window: &mut Window, pressed: &[egui::Event]) {
    window.harness.input_mut().events.extend_from_slice(pressed);
    window.settle();
}

fn pressing(key: Key, modifiers: Modifiers) -> egui::Event {
    egui::Event::Key {
        key,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers,
    }
}

fn typing(text: &str) -> egui::Event {
    egui::Event::Text(text.to_owned())
}

#[test]
fn readings_typed_faster_than_frames_each_land_in_their_field() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.press_with(Modifiers::COMMAND, Key::N);
    window.field("Reel, new").focus();
    window.settle();
    let tab = pressing(Key::Tab, Modifiers::NONE);
    assert_eq!(window.entry("Reel, new"), "7 in", "the same as the example");
    press_at_once(
        &mut window,
        &[
            typing("7"),
            tab.clone(),
            typing("6"),
            typing(".4"),
            tab.clone(),
            typing("9"),
            tab,
        ],
    );
    window.assert_says("14 of 17 readings are still examples");
    let held = |window: &Window, field: &str| {
        let field = Field::at_path(field).expect("a field");
        field
            .text(window.document())
            .unwrap_or_default()
            .into_owned()
    };
    assert_eq!(held(&window, "reel.new_diameter"), "7 in");
    assert_eq!(held(&window, "reel.smallest_diameter"), "6.4 in");
    assert_eq!(held(&window, "reel.blades"), "9");
    assert_eq!(in_hand(&window).1, "Reel diameter, as measured");
    // A shortcut takes what was typed before it.
    let undo = pressing(Key::Z, Modifiers::COMMAND);
    press_at_once(&mut window, &[typing("6.8"), tab_back(), undo]);
    window.assert_says("14 of 17 readings are still examples");
    assert_eq!(in_hand(&window).1, "Blades");
}

fn tab_back() -> egui::Event {
    pressing(Key::Tab, Modifiers::SHIFT)
}

#[test]
fn what_stands_there_typed_letter_for_letter_is_no_example() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.press_with(Modifiers::COMMAND, Key::N);
    let blades = window.entry("Blades");
    window.enter_text("Blades", &blades);
    window.assert_says("16 of 17 readings are still examples");
}

#[test]
fn a_new_unit_begins_with_its_name_in_hand_and_tab_comes_to_no_mark_between_fields() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.click("2 As wanted");
    window.press_with(Modifiers::COMMAND, Key::N);
    assert_eq!(in_hand(&window), (Role::TextInput, "Name".to_owned()));
    let mut stops = Vec::new();
    loop {
        window.press(Key::Tab);
        let stop = in_hand(&window).1;
        if stop == "Name" {
            break;
        }
        stops.push(stop);
        assert!(stops.len() < MOST_STOPS, "{stops:?}");
    }
    let is_mark = |stop: &String| stop.ends_with("keep it as mine");
    let marks = stops.iter().filter(|stop| is_mark(stop)).count();
    assert_eq!(marks, 17);
    let first = stops.iter().position(is_mark).expect("a mark");
    // So do the buttons between readings: none is met by whoever types one reading after the other.
    let is_between = |stop: &String| {
        let names = [
            "± by instrument…",
            "Behind centre from other readings…",
            "Reel diameter from other readings…",
        ];
        names.contains(&stop.as_str())
    };
    assert!(!stops[..first].iter().any(is_between), "{stops:?}");
    assert_eq!(stops.iter().filter(|stop| is_between(stop)).count(), 3);
    stops.retain(|stop| !is_between(stop));
    assert!(stops[first..first + marks].iter().all(is_mark), "{stops:?}");
    // A mark that is taken leaves the keys to the next one.
    window.button(&stops[first]).focus();
    window.settle();
    window.press(Key::Enter);
    assert_eq!(in_hand(&window).1, stops[first + 1]);
}

#[test]
fn the_question_about_changes_begins_with_the_answer_that_loses_none() {
    for wrong in [false, true] {
        let mut window = small_window(DemoUnit::FairwayTrailed);
        window.enter_text(
            "Reel diameter, as measured",
            if wrong { "x" } else { "6.8" },
        );
        window.press_with(Modifiers::COMMAND, Key::N);
        assert_eq!(in_hand(&window).1, "Keep editing");
        let before = window.document().clone();
        window.press(Key::Enter);
        window.assert_silent("Unsaved changes");
        assert_eq!(window.document(), &before);
    }
}

#[test]
fn the_view_menu_goes_by_its_letters_and_the_file_menu_quits() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    for (letter, theme) in [(Key::D, egui::Theme::Dark), (Key::L, egui::Theme::Light)] {
        window.press_with(Modifiers::ALT, Key::V);
        window.press(letter);
        assert_eq!(window.harness.ctx.theme(), theme);
    }
    window.enter_text("Reel diameter, as measured", "6.8");
    window.press_with(Modifiers::ALT, Key::F);
    window.press(Key::Q);
    window.assert_says("Unsaved changes");
    window.press(Key::Escape);
    window.press_with(Modifiers::COMMAND, Key::Q);
    window.assert_says("Unsaved changes");
}

#[test]
fn a_reason_hides_no_field() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    for (field, below) in [
        ("Attitude, as measured", "Gap, as measured"),
        ("Reel, minimum (scrap)", "Reel diameter, as measured"),
    ] {
        let before = window.entry(field);
        window.type_over(field, "x");
        let nodes = window.nodes();
        let is_reason = |node: &&egui_kittest::Node<'_>| {
            let node = node.accesskit_node();
            let told = node.label().or_else(|| node.value()).unwrap_or_default();
            node.role() == Role::Label && told.contains("\"x\"")
        };
        let reasons: Vec<_> = nodes
            .iter()
            .filter(is_reason)
            .map(egui_kittest::Node::rect)
            .collect();
        drop(nodes);
        assert!(!reasons.is_empty(), "{field}: no reason is told");
        for reason in reasons {
            for other in [field, below] {
                let field = window.field(other).rect();
                assert!(
                    !reason.intersects(field),
                    "{reason} over {other} at {field}"
                );
            }
        }
        window.type_over(field, &before);
    }
}

#[test]
fn what_is_told_under_the_pointer_covers_no_field() {
    for size in [SMALL, Vec2::new(1024.0, 768.0)] {
        let mut start = Start::on(DemoUnit::FairwayTrailed.document());
        start.size = size;
        let mut window = start.window();
        for (step, name) in [
            (MEASURED, "Reel diameter, as measured"),
            (MEASURED, "Front, diameter"),
            (WANTED, "Height of cut"),
            (WANTED, "Attitude slider"),
        ] {
            window.click(step);
            let nodes = window.nodes();
            let mut named = nodes.iter().filter(|node| {
                let node = node.accesskit_node();
                let is_field = matches!(node.role(), Role::TextInput | Role::Slider);
                is_field && node.label().as_deref() == Some(name)
            });
            let place = named.next().expect("the field").rect();
            drop(nodes);
            window.harness.hover_at(place.center());
            // As long as a tooltip waits.
            for _ in 0..60 {
                window.step();
            }
            let tooltips: Vec<Rect> = window.harness.ctx.memory(|memory| {
                let layers = memory.areas().visible_layer_ids().into_iter();
                let tooltips = layers.filter(|layer| layer.order == egui::Order::Tooltip);
                tooltips
                    .filter_map(|layer| memory.area_rect(layer.id))
                    .collect()
            });
            assert!(!tooltips.is_empty(), "{size}: {name} tells of itself");
            for node in window.nodes() {
                if node.accesskit_node().role() != Role::TextInput {
                    continue;
                }
                let field = node.rect();
                let over = tooltips.iter().find(|tooltip| tooltip.intersects(field));
                assert_eq!(over, None, "{size}: {name} over {field}");
            }
            window.harness.remove_cursor();
            window.settle();
        }
    }
}

#[test]
fn shift_counts_as_it_was_when_the_key_went_down() {
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.enter_text("Reel diameter, as measured", "6.8");
    window.enter_text("Reel diameter, as measured", "6.7");
    let changed = window.document().clone();
    let shift = Modifiers::COMMAND | Modifiers::SHIFT;
    // All keys are up again before the frame is over.
    press_at_once(&mut window, &[pressing(Key::Z, Modifiers::COMMAND)]);
    let before = window.document().clone();
    assert_ne!(before, changed);
    press_at_once(&mut window, &[pressing(Key::Z, shift)]);
    assert_eq!(window.document(), &changed);
    let undo = pressing(Key::Z, Modifiers::COMMAND);
    press_at_once(&mut window, &[undo.clone(), undo, pressing(Key::Z, shift)]);
    assert_eq!(window.document(), &before);
}

#[track_caller]
fn type_in_hand(window: &mut Window, text: &str) {
    window.harness.event(egui::Event::Text(text.to_owned()));
    window.settle();
}

#[test]
fn a_new_unit_is_measured_set_and_saved_without_a_pointer() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north-3.ron");
    let mut window = small_window(DemoUnit::FairwayTrailed);
    window.press_with(Modifiers::COMMAND, Key::N);
    let mut wanted = window.document().clone();
    assert!(!wanted.examples.is_empty());
    let name = ("Name", "North course, 3", "name");
    for (name, text, path) in std::iter::once(name).chain(READINGS) {
        tab_to(&mut window, Role::TextInput, name);
        type_in_hand(&mut window, text);
        let field = Field::at_path(path).expect("a field");
        field
            .set(&mut wanted, text, System::InchDecimal)
            .expect("a right reading");
        // Whoever goes on in order is never told that a field not yet reached is wrong.
        window.assert_silent("1 wrong");
    }
    assert_eq!(window.document(), &wanted);
    window.assert_silent("still example");
    tab_to(&mut window, Role::Button, WANTED);
    window.press(Key::Enter);
    tab_to(&mut window, Role::TextInput, "Attitude");
    type_in_hand(&mut window, "3.25");
    window.press(Key::Enter);
    Field::WantedAttitude
        .set(&mut wanted, "3.25", System::InchDecimal)
        .expect("a right setting");
    window.press_with(Modifiers::ALT, Key::F);
    window.press(Key::H);
    type_in_hand(&mut window, &file.display().to_string());
    window.press(Key::Enter);
    window.assert_silent("unsaved");
    assert_eq!(open_unit(&file).expect("it was saved"), wanted);
}
