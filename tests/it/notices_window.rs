//! What the window tells about files and saving, how long, and where.

use std::fs;
use std::path::PathBuf;
use std::time::Duration;

use egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::app::DEMO_UNIT;
use sweepgauge::store::{open_unit, save_unit};
use tempfile::TempDir;

use crate::common::shown::{Start, Window, document};

fn folder_with_demo() -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("gang.ron");
    save_unit(&document(DEMO_UNIT), &file).unwrap();
    (folder, file)
}

fn in_file_menu(window: &mut Window, item: &str) {
    window.click("File");
    window.click(item);
}

fn type_path(window: &mut Window, path: &str) {
    window.type_over("Path", path);
}

/// Steps until so many seconds have passed.
fn wait(window: &mut Window, seconds: u32) {
    (0..60 * seconds).for_each(|_| {
        window.step();
    });
}

#[test]
fn news_leaves_after_six_seconds_and_the_window_rests_until_then() {
    let (_folder, file) = folder_with_demo();
    let mut window = Start::on_file(&file).window();
    window.press_with(Modifiers::COMMAND, Key::S);
    window.assert_says("Saved ");
    let rest = window.step();
    assert!(
        rest > Duration::from_secs(5) && rest <= Duration::from_secs(6),
        "{rest:?}"
    );
    wait(&mut window, 5);
    window.assert_says("Saved ");
    wait(&mut window, 1);
    window.assert_silent("Saved ");
    assert_eq!(window.step(), Duration::MAX, "and then it rests for good");
    window.click("Notices");
    window.assert_says(&format!("Saved {}", file.display()));
}

#[test]
fn a_problem_stays_twice_as_long_or_until_it_is_closed() {
    let (_folder, file) = folder_with_demo();
    let mut window = Start::on_file(&file).window();
    window.enter_text("Height of cut", "half");
    window.press_with(Modifiers::COMMAND, Key::S);
    wait(&mut window, 11);
    window.assert_says("Not saved.");
    wait(&mut window, 1);
    window.assert_silent("Not saved.");
    window.press_with(Modifiers::COMMAND, Key::S);
    window.click("Close");
    window.assert_silent("Not saved.");
}

#[test]
fn a_notice_lies_over_nothing() {
    let (_folder, file) = folder_with_demo();
    let mut window = Start::on_file(&file).window();
    window.harness.set_size(egui::vec2(1366.0, 768.0));
    window.press_with(Modifiers::COMMAND, Key::S);
    for key in [Key::Num1, Key::Num2, Key::Num3, Key::Num4] {
        window.press_with(Modifiers::COMMAND, key);
        let notice = rect_of(&window, |text| text.starts_with("Saved "));
        let foot = window.button("Notices").rect();
        assert!(notice.bottom() <= 768.0 && notice.top() > foot.top() - 6.0);
        // Panels and what they show end where the strip begins; what has scrolled out of sight there
        // is cut off.
        let drawing = window.nodes();
        let canvases = drawing.iter().filter(|node| {
            node.accesskit_node().role() == egui::accesskit::Role::Image
                && node.accesskit_node().bounding_box().is_some()
        });
        let canvases: Vec<_> = canvases.collect();
        assert!(key != Key::Num1 || !canvases.is_empty());
        for canvas in canvases
            .iter()
            .filter(|node| node.rect().top() < notice.top())
        {
            let is_scrolled = key == Key::Num2 || key == Key::Num3;
            assert!(
                is_scrolled || canvas.rect().bottom() <= notice.top(),
                "{key:?}"
            );
        }
    }
}

/// Where a text stands.
fn rect_of(window: &Window, is_meant: impl Fn(&str) -> bool) -> egui::Rect {
    let nodes = window.nodes();
    let found = nodes
        .iter()
        .find(|node| node.value().is_some_and(|text| is_meant(&text)));
    found.expect("the text").rect()
}

#[test]
fn a_path_that_is_refused_stays_with_the_reason_beside_it() {
    let (folder, file) = folder_with_demo();
    let wrong = folder.path().join("gone.ron").display().to_string();
    for is_changed in [false, true] {
        let mut window = Window::demo();
        if is_changed {
            window.enter_text("Name", "Another name");
        }
        in_file_menu(&mut window, "Open a path…");
        type_path(&mut window, &wrong);
        window.click("Open it");
        if is_changed {
            window.click("Keep editing");
            assert_eq!(window.entry("Path"), wrong);
            window.click("Open it");
            window.click("Discard changes");
        }
        assert_eq!(window.entry("Path"), wrong);
        window.assert_says("Not opened. ");
        type_path(&mut window, &file.display().to_string());
        window.click("Open it");
        if is_changed {
            window.click("Discard changes");
        }
        assert_eq!(window.app().session().file(), Some(file.as_path()));
        assert!(!window.has_button("Open it"));
    }
}

#[test]
fn the_open_file_is_known_however_its_path_is_spelt() {
    let (folder, file) = folder_with_demo();
    fs::create_dir(folder.path().join("below")).unwrap();
    let spelt = folder.path().join("below").join("..").join("gang.ron");
    let mut window = Start::on_file(&file).window();
    window.enter_text("Name", "Another name");
    in_file_menu(&mut window, "Save to a path…");
    type_path(&mut window, &spelt.display().to_string());
    window.click("Save here");
    window.assert_says("Saved ");
    assert_eq!(open_unit(&file).unwrap().name, "Another name");
    let other = folder.path().join("other.ron");
    fs::copy(&file, &other).unwrap();
    in_file_menu(&mut window, "Save to a path…");
    type_path(&mut window, &other.display().to_string());
    window.click("Save here");
    window.assert_says("is there already, and it is not the file that is open");
}

#[test]
fn saving_is_offered_only_while_it_can_be_done() {
    let (_folder, file) = folder_with_demo();
    let mut window = Start::on_file(&file).window();
    let offered = |window: &mut Window| {
        window.click("File");
        let nodes = window.nodes();
        let is_offered = ["Save", "Save as…", "Save to a path…"].map(|name| {
            let item = nodes.iter().find(|node| {
                let label = node.accesskit_node().label().unwrap_or_default();
                label.split(" Ctrl+").next() == Some(name)
            });
            !item.expect("an item").accesskit_node().is_disabled()
        });
        drop(nodes);
        window.press(Key::Escape);
        is_offered
    };
    assert_eq!(offered(&mut window), [true; 3]);
    window.enter_text("Height of cut", "half");
    assert_eq!(offered(&mut window), [false; 3], "a wrong text");
    window.enter_text("Height of cut", "0.5");
    window.enter_text("Gap, bench", "-1 mm");
    assert_eq!(offered(&mut window), [false; 3], "a flaw");
    window.enter_text("Gap, bench", "0 mm");
    assert_eq!(offered(&mut window), [true; 3]);
    let mut permissions = fs::metadata(&file).unwrap().permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&file, permissions).unwrap();
    assert_eq!(
        offered(&mut window),
        [false, true, true],
        "a read-only file"
    );
}

#[cfg(unix)]
#[test]
fn saving_into_a_folder_that_is_gone_is_not_offered() {
    let (folder, file) = folder_with_demo();
    let mut window = Start::on_file(&file).window();
    fs::rename(folder.path(), folder.path().with_extension("moved")).unwrap();
    window.click("File");
    let is_offered = |window: &Window, name: &str| {
        let nodes = window.nodes();
        let item = nodes.iter().find(|node| {
            let label = node.accesskit_node().label().unwrap_or_default();
            label.split(" Ctrl+").next() == Some(name)
        });
        !item.expect("an item").accesskit_node().is_disabled()
    };
    assert!(!is_offered(&window, "Save"));
    assert!(is_offered(&window, "Save as…"));
    fs::rename(folder.path().with_extension("moved"), folder.path()).unwrap();
}
