//! Windows on the plate sheets of the demo ground.

use std::fs;
use std::path::{Path, PathBuf};

use egui::{Key, Modifiers, Vec2};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::app::Beginning;
use tempfile::TempDir;

use super::demo_unit::DemoUnit;
use super::shown::{Answers, Start, Window};

/// A sheet half way through, its front roller not parallel yet.
pub const GREENS: &str = "greens-1.plate.ron";
/// A finished sheet.
pub const GANG: &str = "gang-2.plate.ron";

/// High enough that every step of the list is in sight.
pub const TALL: Vec2 = Vec2::new(1440.0, 1800.0);

/// A folder with the demo ground's units and sheets.
pub fn ground() -> TempDir {
    let folder = TempDir::new().unwrap();
    let demo = DemoUnit::FairwayTrailed.file();
    let from = demo.with_file_name("example-ground");
    for entry in fs::read_dir(from).unwrap() {
        let file = entry.unwrap().path();
        fs::copy(&file, folder.path().join(file.file_name().unwrap())).unwrap();
    }
    folder
}

/// A window on a sheet, its unit in front.
pub fn on_sheet(file: &Path, answers: &Answers) -> Window {
    let mut start = Start::on(DemoUnit::FairwayTrailed.document()).asking(answers);
    start.beginning = Some(Beginning::with_sheet(file).expect("a right sheet"));
    in_plate(start)
}

/// A tall window, the Plate area in front.
pub fn in_plate(mut start: Start) -> Window {
    start.size = TALL;
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num5);
    window
}

/// A window on a demo sheet that keeps for the next start what is not saved.
pub fn on_kept() -> (TempDir, PathBuf, Window) {
    let folder = ground();
    let file = folder.path().join(GREENS);
    let mut start = keeping_in(&folder);
    start.beginning = Some(Beginning::with_sheet(&file).expect("a right sheet"));
    (folder, file, in_plate(start))
}

/// The next start after a window that kept what was not saved.
pub fn after(folder: &TempDir) -> Window {
    let mut start = keeping_in(folder);
    start.size = TALL;
    start.window()
}

pub fn keeping_in(folder: &TempDir) -> Start {
    Start::on(DemoUnit::FairwayTrailed.document()).keeping_in(&recovery_in(folder))
}

pub fn recovery_in(folder: &TempDir) -> PathBuf {
    folder.path().join("recovery")
}

/// A window on a demo sheet with some of its text replaced.
pub fn on(name: &str, edits: &[(&str, &str)]) -> (TempDir, PathBuf, Window) {
    let folder = ground();
    let file = folder.path().join(name);
    let text = fs::read_to_string(&file).unwrap();
    let text = edits.iter().fold(text, |text, (from, to)| {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text.replace(from, to)
    });
    fs::write(&file, text).unwrap();
    let window = on_sheet(&file, &Answers::default());
    (folder, file, window)
}

/// How a step of the list stands.
#[track_caller]
pub fn state(window: &Window, title: &str) -> String {
    let begins = format!("Step {title}: ");
    let labels = window.nodes();
    let mut labels = labels
        .iter()
        .filter_map(|node| node.accesskit_node().label());
    let found = labels.find_map(|label| Some(label.strip_prefix(&begins)?.to_owned()));
    found.unwrap_or_else(|| panic!("no step {title}"))
}

/// Goes to a step.
#[track_caller]
pub fn go_to(window: &mut Window, title: &str) {
    let state = state(window, title);
    window.click(&format!("Step {title}: {state}"));
}

/// Saves what is in hand.
pub fn save(window: &mut Window) {
    window.press_with(Modifiers::COMMAND, Key::S);
}

/// The name of what has the keys.
#[track_caller]
pub fn keys_are_at(window: &Window) -> String {
    let nodes = window.nodes();
    let focused = nodes.iter().find(|node| node.is_focused());
    let focused = focused.expect("something has the keys").accesskit_node();
    focused.label().expect("it has a name")
}
