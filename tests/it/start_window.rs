//! What the window begins with, and what it remembers: the start card, what was open last, the scale,
//! where the window stood.

use std::fs;
use std::path::Path;

use egui::{Key, Modifiers, Pos2, Rect, Vec2};
use sweepgauge::analysis::CAUTION;
use sweepgauge::app::{Beginning, DEMO_UNIT, Preferences};
use sweepgauge::store::{PreferencesProblem, read_preferences};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Answers, NoFileDialogs, Start, Window, document};

const QUESTION: &str = "Will this unit scalp?";

/// How a window starts that was told no file, with what is remembered in a file.
fn started(preferences_file: &Path) -> (Start, Option<PreferencesProblem>) {
    let (preferences, problem) = read_preferences::<Preferences>(preferences_file);
    let mut start = Start::on(document(DEMO_UNIT));
    let beginning = Beginning::with_last(&preferences, |_| false);
    start.beginning = Some(beginning.expect("it begins"));
    start.preferences = preferences;
    start.preferences_file = Some(preferences_file.to_owned());
    (start, problem)
}

fn first_start() -> (TempDir, Start) {
    let folder = TempDir::new().expect("a folder");
    let (start, _) = started(&folder.path().join("preferences.ron"));
    (folder, start)
}

/// The scale that a window is shown at.
fn scale(window: &Window) -> String {
    format!("{:.0} %", 100.0 * window.harness.ctx.zoom_factor())
}

/// A unit file of this name in a folder.
fn unit_in(folder: &TempDir, name: &str) -> std::path::PathBuf {
    let file = folder.path().join(name);
    fs::write(&file, DemoUnit::GreensWalking.text()).expect("it is written");
    file
}

#[test]
fn a_first_start_asks_what_to_work_on() {
    let (_folder, start) = first_start();
    let mut window = start.window();
    window.assert_says(QUESTION);
    for caution in CAUTION {
        window.assert_says(caution);
    }
    window.press(Key::Escape);
    window.assert_silent(QUESTION);
    assert_eq!(window.document(), &document(DEMO_UNIT));
}

#[test]
fn the_start_card_begins_a_unit_of_ones_own() {
    let (_folder, start) = first_start();
    let mut window = start.window();
    window.click("My own unit");
    window.assert_silent(QUESTION);
    assert!(window.document().example_count().told().is_some());
    // Its name is in hand, all of it: what is typed takes its place.
    let typed = egui::Event::Text("North course, 3".to_owned());
    window.harness.event(typed);
    window.settle();
    assert_eq!(window.document().name, "North course, 3");
}

#[test]
fn the_start_card_opens_a_file() {
    let answers = Answers::default();
    answers.open(&DemoUnit::GreensWalking.file());
    let (_folder, start) = first_start();
    let mut window = start.asking(&answers).window();
    window.click("Open a unit file…");
    window.assert_silent(QUESTION);
    assert_eq!(window.document(), &DemoUnit::GreensWalking.document());
}

#[test]
fn the_start_card_opens_every_demo_unit() {
    for (name, unit) in [
        ("Fairway gang", DemoUnit::FairwayTrailed),
        ("Greens unit that scalps", DemoUnit::GreensScalping),
        ("Walking greens unit", DemoUnit::GreensWalking),
        ("Knives to order", DemoUnit::KnifeChoice),
        ("Rear spacer", DemoUnit::RollersGiven),
        ("Sports ground", DemoUnit::SportsMetric),
        ("Crowned tees", DemoUnit::TeesCrowned),
        ("Turning bar", DemoUnit::TurningBar),
    ] {
        let (_folder, start) = first_start();
        let mut window = start.window();
        window.click(name);
        assert_eq!(window.document(), &unit.document(), "{name}");
        window.assert_silent(QUESTION);
        assert_eq!(window.app().session().file(), None, "{name}");
    }
}

#[test]
fn the_start_card_comes_back_after_the_first_steps() {
    let (_folder, start) = first_start();
    let mut window = start.window();
    window.assert_silent("1  Measure");
    window.click("Show the first steps");
    window.assert_says("1  Measure");
    window.assert_silent(QUESTION);
    window.press(Key::Escape);
    window.assert_silent("1  Measure");
    window.assert_says(QUESTION);
}

#[test]
fn what_was_open_last_is_open_again() {
    let folder = TempDir::new().expect("a folder");
    let (preferences, unit) = (folder.path().join("p.ron"), unit_in(&folder, "walking.ron"));
    let mut window = started(&preferences).0.window();
    window.drop_file(&unit);
    let again = started(&preferences).0.window();
    again.assert_silent(QUESTION);
    assert_eq!(again.app().session().file(), Some(unit.as_path()));
    // What is in no file is no file that was open last.
    window.press_with(Modifiers::COMMAND, Key::N);
    started(&preferences).0.window().assert_says(QUESTION);
}

#[test]
fn a_file_that_is_gone_or_spoilt_since_is_told_and_the_card_asks() {
    for (spoil, told) in [
        (None, "is not there any more"),
        (
            Some("(format: 1, name: 4)"),
            "What was open last is not opened.",
        ),
    ] {
        let folder = TempDir::new().expect("a folder");
        let (preferences, unit) = (folder.path().join("p.ron"), unit_in(&folder, "w.ron"));
        started(&preferences).0.window().drop_file(&unit);
        match spoil {
            None => fs::remove_file(&unit).expect("it goes"),
            Some(text) => fs::write(&unit, text).expect("it is written"),
        }
        let window = started(&preferences).0.window();
        window.assert_says(QUESTION);
        window.assert_says(told);
        window.assert_says("w.ron");
        assert_eq!(window.document(), &document(DEMO_UNIT));
        started(&preferences).0.window().assert_silent(told);
    }
}

#[test]
fn a_file_that_another_window_has_open_is_not_opened_twice() {
    let folder = TempDir::new().expect("a folder");
    let unit = unit_in(&folder, "w.ron");
    let mut preferences = Preferences::default();
    preferences.remember(&unit);
    let mut start = Start::on(document(DEMO_UNIT));
    let beginning = Beginning::with_last(&preferences, |file| file == unit);
    start.beginning = Some(beginning.expect("it begins"));
    let window = start.window();
    window.assert_says(QUESTION);
    window.assert_says("is open in another window");
}

#[test]
fn files_of_one_name_are_told_apart_by_their_folders() {
    let folders = [
        TempDir::new().expect("a folder"),
        TempDir::new().expect("a folder"),
    ];
    let files = folders.each_ref().map(|folder| unit_in(folder, "gang.ron"));
    let (_folder, start) = first_start();
    let mut window = start.window();
    window.press(Key::Escape);
    for file in &files {
        window.drop_file(file);
    }
    window.click("File");
    window.click("Start…");
    for (folder, file) in folders.iter().zip(&files) {
        window.click(&format!("gang.ron, in {}", folder.path().display()));
        assert_eq!(window.app().session().file(), Some(file.as_path()));
        window.click("File");
        window.click("Start…");
    }
}

#[test]
fn preferences_are_written_as_they_are_chosen_and_damaged_ones_are_told_once() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("p.ron");
    let mut window = started(&file).0.window();
    window.press(Key::Escape);
    window.click("View");
    window.click("Dark");
    window.click("mm");
    let (kept, problem) = read_preferences::<Preferences>(&file);
    assert!(problem.is_none());
    assert_eq!(kept, *window.app().preferences());
    assert_eq!(kept.is_dark, Some(true));
    fs::write(&file, "(is_dark: Some(4").expect("it is written");
    let (start, problem) = started(&file);
    assert!(problem.expect("it is told").to_string().contains("damaged"));
    assert_eq!(start.preferences, Preferences::default());
    assert!(started(&file).1.is_none(), "told twice");
}

#[test]
fn two_windows_keep_each_others_preferences() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("p.ron");
    let units = ["one.ron", "two.ron", "three.ron"].map(|name| unit_in(&folder, name));
    // Both begin with what stands in the file before either chooses.
    let [first, second] = [(); 2].map(|()| started(&file).0);
    let (mut first, mut second) = (first.window(), second.window());
    for window in [&mut first, &mut second] {
        window.press(Key::Escape);
    }
    first.click("View");
    first.click("Dark");
    first.drop_file(&units[0]);
    second.click("mm");
    second.drop_file(&units[1]);
    first.press_with(Modifiers::COMMAND, Key::Plus);
    first.drop_file(&units[2]);
    let (kept, problem) = read_preferences::<Preferences>(&file);
    assert!(problem.is_none(), "{problem:?}");
    assert_eq!(kept.is_dark, Some(true));
    assert_eq!(kept.system, second.app().preferences().system);
    assert!(kept.system.is_some());
    assert_eq!(kept.scale_percent, first.app().preferences().scale_percent);
    assert_eq!(
        kept.recent,
        [2, 1, 0].map(|place: usize| units[place].clone())
    );
    assert_eq!(kept.last_open.as_deref(), Some(units[2].as_path()));
    // Where a window stood when it closes is all it writes then.
    second.harness.state_mut().keep_place();
    let after = read_preferences::<Preferences>(&file).0;
    assert!(after.window.is_some());
    assert_eq!(
        Preferences {
            window: None,
            ..after
        },
        Preferences {
            window: None,
            ..kept
        }
    );
}

#[test]
fn preferences_that_cannot_be_written_are_told_once() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("p.ron");
    let mut window = started(&file).0.window();
    window.press(Key::Escape);
    // A folder in its place: nothing can be written there, whoever asks.
    fs::remove_file(&file).ok();
    fs::create_dir(&file).expect("a folder");
    window.click("mm");
    let told = "is forgotten when the window closes";
    window.assert_says(told);
    window.click("Close");
    window.assert_silent(told);
    window.click("in, fractions");
    window.assert_silent(told);
}

/// A window with room for the largest scale.
fn roomy(preferences_file: &Path) -> Window {
    let (mut start, _) = started(preferences_file);
    start.size = Vec2::new(1800.0, 4200.0);
    start.window()
}

#[test]
fn the_scale_goes_in_steps_from_80_to_250_percent_and_is_remembered() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("p.ron");
    let mut window = roomy(&file);
    window.press(Key::Escape);
    assert_eq!(scale(&window), "100 %");
    for step in ["110", "125", "150", "175", "200", "225", "250", "250"] {
        window.press_with(Modifiers::COMMAND, Key::Plus);
        window.settle();
        assert_eq!(scale(&window), format!("{step} %"));
    }
    assert_eq!(scale(&roomy(&file)), "250 %");
    window.press_with(Modifiers::COMMAND, Key::Num0);
    window.settle();
    assert_eq!(scale(&window), "100 %");
    assert_eq!(window.app().preferences().scale_percent, None);
    for _ in 0..4 {
        window.press_with(Modifiers::COMMAND, Key::Minus);
        window.settle();
    }
    assert_eq!(scale(&window), "80 %");
    window.click("View");
    window.click("125 %");
    window.settle();
    assert_eq!(scale(&window), "125 %");
    assert_eq!(
        read_preferences::<Preferences>(&file).0.scale_percent,
        Some(125)
    );
    for (letter, percent) in [(Key::M, 250), (Key::A, 80), (Key::H, 150)] {
        window.press_with(Modifiers::ALT, Key::V);
        window.press(letter);
        window.settle();
        assert_eq!(scale(&window), format!("{percent} %"));
    }
}

#[test]
fn a_recent_file_is_opened_by_its_number_in_the_menu() {
    let folder = TempDir::new().expect("a folder");
    let files = ["first.ron", "second.ron", "third.ron"].map(|name| unit_in(&folder, name));
    let (_folder, start) = first_start();
    let mut window = start.window();
    window.press(Key::Escape);
    for file in &files {
        window.drop_file(file);
    }
    // The latest stands first.
    for (number, opened) in [(Key::Num3, 0), (Key::Num3, 1), (Key::Num2, 0)] {
        window.press_with(Modifiers::ALT, Key::F);
        window.press(Key::R);
        window.press(number);
        let file = window.app().session().file();
        assert_eq!(file, Some(files[opened].as_path()));
    }
}

#[test]
fn every_area_and_card_stands_at_every_scale() {
    /// Cards, each with what opens it and what stands on it alone.
    const CARDS: [(&[&str], &str); 7] = [
        (&["File", "Start…"], QUESTION),
        (&["File", "Open a path…"], "Path"),
        (&["File", "Save to a path…"], "Save here"),
        (&["About"], "Licences"),
        (&["First steps"], "1  Measure"),
        (&["Behind centre from other readings…"], "Fill in"),
        (&["Reel diameter from other readings…"], "Fill in"),
    ];
    for percent in [80, 150, 250] {
        let mut start = Start::on(document(DEMO_UNIT));
        start.size = Vec2::new(1366.0, 768.0);
        start.preferences.scale_percent = Some(percent);
        let mut window = start.window();
        for key in [Key::Num2, Key::Num3, Key::Num4, Key::Num1] {
            window.press_with(Modifiers::COMMAND, key);
            window.settle();
        }
        for (opened_by, says) in CARDS {
            let is_of_the_form = opened_by[0].contains("from other readings");
            let is_out = window.has_button(opened_by[0]);
            if is_of_the_form && !is_out {
                window.click("Form");
            }
            for name in opened_by {
                window.click(name);
            }
            window.assert_says(says);
            let screen = window.harness.ctx.content_rect();
            for name in ["Close", "Fill in", "Save here", "Open"] {
                if window.has_button(name) {
                    // What is higher than the window is scrolled to as it gets the keys.
                    window.button(name).focus();
                    window.settle();
                    let place = window.button(name).rect();
                    assert!(screen.contains_rect(place), "{percent} %, {says}: {name}");
                }
            }
            window.press(Key::Escape);
            window.assert_silent(says);
            if is_of_the_form && !is_out {
                window.press(Key::F2);
            }
        }
        window.press(Key::Questionmark);
        window.assert_says("This list, outside of a field");
        window.press(Key::Escape);
        window.press(Key::F2);
        window.assert_silent("This list, outside of a field");
    }
}

#[test]
fn a_small_screen_gets_a_scale_of_its_own_until_one_is_chosen() {
    let (_folder, start) = first_start();
    let mut window = start.window();
    window.press(Key::Escape);
    let screen = Vec2::new(1024.0, 768.0);
    let tell = |window: &mut Window| {
        let scale = window.harness.ctx.zoom_factor();
        let viewports = &mut window.harness.input_mut().viewports;
        let viewport = viewports.entry(egui::ViewportId::ROOT).or_default();
        // A desktop tells it at the scale that is shown.
        viewport.monitor_size = Some(screen / scale);
        window.step();
    };
    for _ in 0..3 {
        tell(&mut window);
    }
    assert_eq!(scale(&window), "80 %");
    window.press_with(Modifiers::COMMAND, Key::Plus);
    for _ in 0..3 {
        tell(&mut window);
    }
    assert_eq!(scale(&window), "90 %");
}

#[test]
fn where_the_window_stood_is_remembered_when_it_closes() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("p.ron");
    let mut window = started(&file).0.window();
    let frame = Rect::from_min_size(Pos2::new(40.0, 30.0), Vec2::new(900.0, 700.0));
    let tell = |window: &mut Window, is_maximized: bool| {
        let viewports = &mut window.harness.input_mut().viewports;
        let viewport = viewports.entry(egui::ViewportId::ROOT).or_default();
        viewport.outer_rect = Some(frame);
        viewport.maximized = Some(is_maximized);
        window.step();
    };
    tell(&mut window, false);
    window.harness.state_mut().keep_place();
    let kept = read_preferences::<Preferences>(&file).0.window;
    let kept = kept.expect("a place");
    assert_eq!(kept.at, Some((40.0, 30.0)));
    assert!(!kept.is_maximized);
    // What it was before it was maximized comes back with it.
    tell(&mut window, true);
    window.harness.state_mut().keep_place();
    let maximized = read_preferences::<Preferences>(&file).0.window;
    let maximized = maximized.expect("a place");
    assert!(maximized.is_maximized);
    assert_eq!((maximized.at, maximized.size), (kept.at, kept.size));
}

#[test]
fn without_a_dialog_saving_asks_for_a_path_beginning_with_the_units_name() {
    let folder = TempDir::new().expect("a folder");
    let mut unit = document(DEMO_UNIT);
    "North 3".clone_into(&mut unit.name);
    let mut start = Start::on(unit);
    start.dialogs = Box::new(NoFileDialogs);
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::S);
    window.assert_says("Save to a path");
    let offered = std::path::absolute("north-3.ron").expect("a folder");
    assert_eq!(window.entry("Path"), offered.display().to_string());
    // All of it is in hand, and what is refused is in hand again.
    let type_path = |window: &mut Window, path: &Path| {
        let path = path.display().to_string();
        window.harness.event(egui::Event::Text(path));
        window.settle();
        window.press(Key::Enter);
    };
    type_path(&mut window, &folder.path().join("none/unit.ron"));
    window.assert_says("Save to a path");
    assert!(window.field("Path").is_focused());
    type_path(&mut window, &folder.path().join("north.3"));
    window.assert_silent("Save to a path");
    let saved = folder.path().join("north.3.ron");
    assert!(saved.is_file());
    assert_eq!(window.app().session().file(), Some(saved.as_path()));
    window.press_with(Modifiers::COMMAND, Key::O);
    window.assert_says("Open a path");
}
