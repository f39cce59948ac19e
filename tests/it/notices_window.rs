//! What the window tells about files and saving, how long, and where.

use std::fs;
use std::path::{Path, PathBuf};
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
    for (key, is_long) in [
        (Key::Num1, false),
        (Key::Num2, true),
        (Key::Num3, true),
        (Key::Num4, false),
    ] {
        window.press_with(Modifiers::COMMAND, key);
        let notice = rect_of(&window, |text| text.starts_with("Saved "));
        let foot = window.button("Notices").rect();
        assert!(notice.bottom() <= 768.0 && notice.top() > foot.top() - 6.0);
        let strip = egui::Rect::from_x_y_ranges(0.0..=1366.0, notice.y_range());
        let (inside, cut): (Vec<_>, Vec<_>) = painted(&window)
            .into_iter()
            .filter(|painted| painted.whole.intersect(strip).is_positive())
            .partition(|painted| painted.seen.intersect(strip).is_positive());
        // What is longer than its area reaches below it, and is cut off where the strip begins.
        assert!(
            !is_long || !cut.is_empty(),
            "{key:?} has room for all it shows"
        );
        let mut texts: Vec<_> = inside
            .iter()
            .filter_map(|one| one.text.as_deref())
            .collect();
        texts.sort_unstable();
        let saved = format!("Saved {}", file.display());
        let caution = "Engine off, key out, reel drive disconnected, unit and reel blocked, cut-resistant gloves.";
        assert_eq!(
            texts,
            ["Close", caution, "Notices", saved.as_str()],
            "{key:?}"
        );
        let own = inside.iter().filter(|one| one.text.is_none());
        for one in own {
            let is_ground = one.is_box
                && one.whole.width() > 1300.0
                && one.whole.y_range().contains(strip.center().y);
            let is_buttons = one.is_box && one.seen.left() > notice.right();
            assert!(is_ground || is_buttons, "{key:?}: {one:?}");
        }
    }
}

/// Something on the screen: where all of it would be, and where it is seen.
#[derive(Debug)]
struct Painted {
    whole: egui::Rect,
    seen: egui::Rect,
    text: Option<String>,
    is_box: bool,
}

/// All that is painted.
fn painted(window: &Window) -> Vec<Painted> {
    fn add(all: &mut Vec<Painted>, clip: egui::Rect, shape: &egui::Shape) {
        if let egui::Shape::Vec(shapes) = shape {
            return shapes.iter().for_each(|shape| add(all, clip, shape));
        }
        let whole = shape.visual_bounding_rect();
        all.push(Painted {
            whole,
            seen: whole.intersect(clip),
            text: match shape {
                egui::Shape::Text(text) => Some(text.galley.text().to_owned()),
                _ => None,
            },
            is_box: matches!(shape, egui::Shape::Rect(_)),
        });
    }
    let mut all = Vec::new();
    for clipped in &window.harness.output().shapes {
        add(&mut all, clipped.clip_rect, &clipped.shape);
    }
    all
}

#[test]
fn the_reason_stands_before_the_path_that_a_narrow_strip_cuts_off() {
    let folder = TempDir::new().unwrap();
    let long = folder.path().join("a folder with a long name ".repeat(4));
    fs::create_dir(&long).unwrap();
    let file = long.join("gang.ron");
    fs::write(&file, DEMO_UNIT).unwrap();
    let gone = long.join("gone.ron");
    let wrong = long.join("wrong.ron");
    fs::write(&wrong, "(format: 1, name: 4)").unwrap();
    let mut window = Start::on_file(&file).window();
    let refused = |window: &mut Window, reason: &str, path: &Path| {
        let nodes = window.nodes();
        let mut told = nodes.iter().map(|node| node.value().unwrap_or_default());
        let told = told.find(|text| text.contains(reason));
        let told = told.unwrap_or_else(|| panic!("{reason}: {:#?}", window.texts()));
        let at = told.find(&path.display().to_string()).expect("the path");
        assert!(
            told.find(reason).is_some_and(|reason| reason < at),
            "{told}"
        );
    };
    window.drop_file(&gone);
    refused(&mut window, "cannot be read", &gone);
    window.drop_file(&wrong);
    refused(&mut window, "field name", &wrong);
    in_file_menu(&mut window, "Save to a path…");
    type_path(&mut window, &wrong.display().to_string());
    window.click("Save here");
    refused(&mut window, "is there already", &wrong);
    window.press(Key::Escape);
    window.enter_text("Attitude", "5");
    fs::remove_file(&file).unwrap();
    fs::create_dir(&file).unwrap();
    window.press_with(Modifiers::COMMAND, Key::S);
    refused(&mut window, "ould not be saved", &file);
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
        window.assert_says("Not opened: ");
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
    window.enter_text("Gap, as measured", "-1 mm");
    assert_eq!(offered(&mut window), [false; 3], "a flaw");
    window.enter_text("Gap, as measured", "0 mm");
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
