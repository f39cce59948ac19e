//! Two units side by side in the window: chosen, swapped, the settings of one put into the other in one step,
//! shown to a room, from two knives and from a job of the record.

use std::fs;
use std::path::{Path, PathBuf};

use egui::epaint::TextShape;
use egui::{Key, Modifiers, Shape, Vec2};
use sweepgauge::app::{OtherUnit, Session};
use sweepgauge::store::{open_unit, record_beside};
use sweepgauge::units::System;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Answers, Start, Window, demo_set};

fn shipped(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/lessons");
    folder.join(format!("matched-{name}.ron"))
}

fn sized(mut start: Start, size: Vec2) -> Window {
    start.size = size;
    start.window()
}

/// Height of a digit in parts of its font's size, as Open Sans draws them (its `OS/2` table's cap height).
const DIGIT: f32 = 0.713;

const DESK: Vec2 = Vec2::new(1366.0, 900.0);

fn open_card(window: &mut Window) {
    window.click("View");
    window.click("Side by side…");
}

/// The names of the pictures there are.
fn pictures(window: &Window) -> Vec<String> {
    use egui_kittest::kittest::NodeT as _;
    let nodes = window.nodes();
    let images = nodes.iter().map(egui_kittest::Node::accesskit_node);
    let images = images.filter(|node| node.role() == egui::accesskit::Role::Image);
    let names = images.filter_map(|node| node.label());
    names.filter(|name| name.starts_with("Picture: ")).collect()
}

#[track_caller]
fn assert_picture(window: &Window, left: &str, right: &str) {
    let wanted = format!("Picture: {left} beside {right}");
    assert_eq!(pictures(window), [wanted]);
}

#[test]
fn the_unit_stands_as_measured_beside_as_set_and_both_change_places() {
    let mut window = sized(Start::on(demo_set("attitude: \"7 deg\"")), DESK);
    open_card(&mut window);
    assert_picture(&window, "As measured", "As set");
    window.click("Swap");
    assert_picture(&window, "As set", "As measured");
    for view in ["Lens", "Ground", "Motion", "Whole"] {
        window.click(view);
        assert_eq!(pictures(&window).len(), 1, "{view}");
    }
    window.assert_says("cut even when turned");
    window.click("Close");
    assert!(pictures(&window).is_empty());
}

#[test]
fn copying_tells_what_it_does_first_is_one_step_and_changes_no_reading() {
    let mut window = sized(Start::on_file(&shipped("fairway")), DESK);
    let before = window.document().clone();
    open_card(&mut window);
    let green = shipped("green");
    window.type_over("Path of another unit file", green.to_str().unwrap());
    window.click("Open beside");
    let [fairway, green] = ["fairway", "green"].map(|name| open_unit(&shipped(name)).unwrap());
    assert_picture(&window, &fairway.name, &green.name);
    window.click("Copy settings of the right one…");
    window.assert_says("(no reading changes):");
    window.assert_says("0.125 in (now as measured)");
    assert_eq!(*window.document(), before, "told, not done");
    window.click("Copy these settings");
    let after = window.document().clone();
    assert_ne!(after.setting, before.setting);
    assert_eq!(after.bench, before.bench);
    let solved = window.app().session().good().unwrap();
    assert!((solved.solution.pose.height_of_cut.mm() - 3.175).abs() < 1e-9);
    // Copied once, there is no more to copy.
    window.click("Copy settings of the right one…");
    window.assert_says("is set so already");
    window.press(Key::Escape);
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.document(), before, "one step");
    window.assert_says("Undone: settings of");
}

#[test]
fn settings_go_into_another_unit_that_is_open_and_into_none_that_is_a_file() {
    let mut window = sized(Start::on_file(&shipped("fairway")), DESK);
    open_card(&mut window);
    let green = open_unit(&shipped("green")).unwrap();
    window.type_over(
        "Path of another unit file",
        shipped("green").to_str().unwrap(),
    );
    window.click("Open beside");
    window.assert_says("Settings cannot go into");
    window.assert_says("its file is not open");
    window.assert_greyed("Copy settings of the left one…", "its file is not open");
    window.click("Close");

    let behind = Session::new(green.clone(), None);
    let id = window.harness.state_mut().lay_beside(behind);
    let front = window.document().clone();
    open_card(&mut window);
    window.choose("Right", &format!("Open: {}", green.name));
    window.assert_silent("its file is not open");
    window.click("Copy settings of the left one…");
    window.assert_says(&format!("Settings that change in \"{}\"", green.name));
    window.click("Copy these settings");
    window.assert_says("Copied the settings into");
    window.press(Key::Escape);
    assert_eq!(*window.document(), front, "the unit in front is as it was");
    assert!(window.harness.state_mut().bring_session_to_front(id));
    window.settle();
    let after = window.document().clone();
    assert_eq!(after.bench, green.bench);
    let solved = window.app().session().good().unwrap();
    assert!((solved.solution.pose.height_of_cut.mm() - 12.7).abs() < 1e-9);
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.document(), green, "one step");
}

#[test]
fn the_numbers_chosen_in_front_of_a_room_are_those_of_the_pair_at_once() {
    let mut window = sized(
        Start::on(demo_set("attitude: \"7 deg\"")),
        Vec2::new(1024.0, 768.0),
    );
    window.press(Key::F11);
    window.press(Key::D);
    assert!(has(&painted(&window), "Behind centre"));
    window.press(Key::C);
    window.click("Behind centre");
    window.click("Close");
    assert!(!has(&painted(&window), "Behind centre"));
    // Hidden, they leave the pictures where they are.
    let places = |window: &Window| {
        let words = painted(window).into_iter();
        let words = words.filter(|word| ["knife", "reel"].contains(&word.galley.text()));
        words.map(|word| word.pos).collect::<Vec<_>>()
    };
    let before = places(&window);
    assert!(before.len() > 2, "{before:?}");
    window.press(Key::N);
    assert_eq!(places(&window), before);
}

#[test]
fn a_unit_of_a_file_is_opened_beside_the_one_in_front_on_the_card_or_before_a_room() {
    let other = || {
        let document = open_unit(&shipped("green")).unwrap();
        OtherUnit {
            name: document.name.clone(),
            document: std::sync::Arc::new(document),
        }
    };
    let [fairway, green] = ["fairway", "green"].map(|name| open_unit(&shipped(name)).unwrap());
    let mut window = sized(Start::on_file(&shipped("fairway")), DESK);
    window.harness.state_mut().look_beside(other());
    window.settle();
    assert_picture(&window, &fairway.name, &green.name);
    window.click("Close");
    window.press_with(Modifiers::COMMAND, Key::Num4);
    let ctx = window.harness.ctx.clone();
    window.harness.state_mut().show_beside(&ctx, other());
    window.settle();
    window.assert_says("Side by side: ");
    assert!(has(&painted(&window), &green.name));
    window.press(Key::Escape);
    assert!(window.has_button("File"));
}

#[test]
fn two_that_are_one_say_why() {
    let mut unit = DemoUnit::KnifeChoice.document();
    unit.setting = sweepgauge::unit::SettingEntry::default();
    let mut window = sized(Start::on(unit), Vec2::new(1024.0, 768.0));
    window.press(Key::F11);
    window.press(Key::D);
    window.assert_says("no setting is tried");
}

#[test]
fn as_measured_puts_every_setting_back_and_another_unit_that_is_open_is_offered() {
    let mut window = sized(
        Start::on(demo_set("attitude: \"7 deg\", extension: \"0.05 in\"")),
        DESK,
    );
    let other = Session::new(DemoUnit::GreensWalking.document(), None);
    window.harness.state_mut().lay_beside(other);
    open_card(&mut window);
    window.click("Copy settings of the left one…");
    window.assert_says("as measured (now 7 deg)");
    window.click("Copy these settings");
    assert_eq!(
        window.document().setting,
        sweepgauge::unit::SettingEntry::default()
    );
    let name = DemoUnit::GreensWalking.document().name;
    window.choose("Left", &format!("Open: {name}"));
    assert_picture(&window, &name, &window.document().name.clone());
}

#[test]
fn a_file_that_is_none_is_told_and_what_stood_there_stays() {
    let folder = TempDir::new().unwrap();
    let answers = Answers::default();
    answers.open(&shipped("green"));
    let mut window = sized(Start::on_file(&shipped("fairway")).asking(&answers), DESK);
    open_card(&mut window);
    let gone = folder.path().join("gone.ron");
    window.type_over("Path of another unit file", gone.to_str().unwrap());
    window.click("Open beside");
    window.assert_says("gone.ron");
    assert_picture(&window, "As measured", "As set");
    window.click("Choose a file…");
    let [fairway, green] = ["fairway", "green"].map(|name| open_unit(&shipped(name)).unwrap());
    assert_picture(&window, &fairway.name, &green.name);
    let picture = folder.path().join("pair.svg");
    answers.save(&picture);
    window.click("Save picture…");
    let text = fs::read_to_string(picture).unwrap();
    assert!(text.contains(&green.name) && text.contains("right minus left"));
}

#[test]
fn two_ticked_knives_stand_side_by_side() {
    let mut window = Start::on(DemoUnit::KnifeChoice.document()).window();
    let names: Vec<String> = window.document().options[..2]
        .iter()
        .map(|knife| knife.name.clone())
        .collect();
    let fitted = window.document().fitted_name().to_owned();
    window.press_with(Modifiers::COMMAND, Key::Num2);
    window.click(&format!("Overlay {}", names[0]));
    window.click("Side by side…");
    assert_ne!(fitted, names[0]);
    assert_picture(&window, "As set", &format!("Knife: {}", names[0]));
    window.click("Close");
    window.click(&format!("Overlay {}", names[1]));
    window.click("Side by side…");
    assert_picture(
        &window,
        &format!("Knife: {}", names[0]),
        &format!("Knife: {}", names[1]),
    );
    window.click("Copy settings of the right one…");
    window.click("Copy these settings");
    assert_eq!(window.document().fitted_name(), names[1]);
}

#[test]
fn a_job_of_the_record_shows_the_unit_before_and_after_it() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    fs::copy(shipped("green"), &file).unwrap();
    let record = "(record: 1)\n\
        (date: \"2026-01-05\", what: \"set\", height_of_cut: Some(\"0.14 in\"))\n\
        (date: \"2026-02-05\", what: \"lowered\", height_of_cut: Some(\"0.125 in\"))\n";
    fs::write(record_beside(&file), record).unwrap();
    let mut window = sized(Start::on_file(&file), DESK);
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.click("Record of this unit");
    window.wait_until_it_says("2 events");
    window.wait_until_it_says("lowered");
    assert!(!window.has_button("Before and after, side by side: 2026-01-05, set"));
    window.click("Before and after, side by side: 2026-02-05, lowered");
    assert_picture(
        &window,
        "Before: 2026-02-05, lowered",
        "After: 2026-02-05, lowered",
    );
}

/// Words as they were painted.
fn painted(window: &Window) -> Vec<TextShape> {
    fn collect(shape: &Shape, words: &mut Vec<TextShape>) {
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| collect(shape, words)),
            Shape::Text(text) if !text.galley.is_empty() => words.push(text.clone()),
            _ => {}
        }
    }
    let mut words = Vec::new();
    for shape in &window.harness.output().shapes {
        collect(&shape.shape, &mut words);
    }
    words
}

fn has(words: &[TextShape], text: &str) -> bool {
    words.iter().any(|word| word.galley.text() == text)
}

#[test]
fn a_room_reads_both_from_the_last_row_and_keys_swap_hide_and_enlarge_them() {
    let screens = [
        (900.0, 600.0),
        (1024.0, 768.0),
        (1366.0, 768.0),
        (1920.0, 1080.0),
        (3840.0, 2160.0),
    ];
    for ((wide, high), system) in screens
        .into_iter()
        .flat_map(|screen| System::ALL.map(|system| (screen, system)))
    {
        let mut start = Start::on(demo_set("attitude: \"7 deg\", height_of_cut: \"0.4 in\""));
        start.preferences.system = Some(system);
        let mut window = sized(start, Vec2::new(wide, high));
        window.press(Key::F11);
        window.press(Key::D);
        window.assert_says("Side by side: ");
        let told = format!("{wide}x{high}, {system:?}");
        for key in [Key::ArrowRight, Key::ArrowRight, Key::Home] {
            let words = painted(&window);
            for text in &words {
                let sections = text.galley.job.sections.iter();
                let size = sections.map(|section| section.format.font_id.size);
                let size = size.fold(f32::INFINITY, f32::min);
                assert!(
                    size >= 0.0199 * high,
                    "{told}: \"{}\" is {size} high",
                    text.galley.text()
                );
                assert!(!text.galley.elided, "{told}: {}", text.galley.text());
            }
            let share = words
                .iter()
                .find(|text| text.galley.text().ends_with(" points"));
            let share = share.unwrap_or_else(|| panic!("{told}: no difference"));
            let digits = DIGIT * share.galley.job.sections[0].format.font_id.size;
            assert!(
                digits >= 0.0235 * high,
                "{told}: a difference {digits} high"
            );
            // The numbers themselves stand in digits for the last row.
            let numbers = words.iter().filter(|text| {
                let text = text.galley.text();
                text.ends_with(" %") && text.starts_with(|c: char| c.is_ascii_digit())
            });
            let digits = numbers
                .map(|text| DIGIT * text.galley.job.sections[0].format.font_id.size)
                .fold(0.0, f32::max);
            assert!(digits >= 0.05 * high, "{told}: digits {digits} high");
            window.press(key);
        }
        let words = painted(&window);
        assert!(
            has(&words, "As measured") && has(&words, "As set"),
            "{told}"
        );
        let place = |words: &[TextShape], name: &str| {
            words
                .iter()
                .find(|word| word.galley.text() == name)
                .map(|word| word.pos.x)
        };
        assert!(place(&words, "As measured") < place(&words, "As set"));
        window.press(Key::X);
        let words = painted(&window);
        assert!(place(&words, "As measured") > place(&words, "As set"));
        // Hidden, no number is seen of either.
        window.press(Key::N);
        let words = painted(&window);
        assert!(
            !words
                .iter()
                .any(|text| text.galley.text().contains("points")),
            "{told}"
        );
        window.press(Key::N);
        window.press(Key::D);
        window.assert_silent("Side by side: ");
        window.press(Key::Escape);
        assert!(window.has_button("File"));
    }
}

/// The pictures with their names keep half of a small projector's height, over as many numbers as that leaves room for.
#[test]
fn the_pictures_of_a_pair_have_half_of_the_screen() {
    let mut window = sized(
        Start::on(demo_set("attitude: \"7 deg\", height_of_cut: \"0.4 in\"")),
        Vec2::new(1024.0, 768.0),
    );
    window.press(Key::F11);
    window.press(Key::D);
    let words = painted(&window);
    let place = |text: &str| {
        let word = words.iter().find(|word| word.galley.text() == text);
        let word = word.unwrap_or_else(|| panic!("{text} is not there"));
        word.galley.rect.translate(word.pos.to_vec2())
    };
    let pictures = place("difference: right minus left").top() - place("As set").top();
    assert!(pictures >= 0.5 * 768.0, "{pictures}");
    let numbers = words
        .iter()
        .filter(|word| DIGIT * word.galley.job.sections[0].format.font_id.size >= 0.05 * 768.0);
    assert!(numbers.count() >= 6, "three rows of two");
}

#[test]
fn the_card_shows_both_to_a_room_and_escape_comes_back() {
    let mut window = sized(Start::on_file(&shipped("fairway")), DESK);
    open_card(&mut window);
    window.type_over(
        "Path of another unit file",
        shipped("green").to_str().unwrap(),
    );
    window.click("Open beside");
    window.click("Show to a room");
    window.assert_says("Side by side: the whole unit from the side");
    let words = painted(&window);
    for name in ["fairway", "green"] {
        let name = open_unit(&shipped(name)).unwrap().name;
        assert!(has(&words, &name), "{name}");
    }
    window.press(Key::Escape);
    assert!(window.has_button("File"));
}
