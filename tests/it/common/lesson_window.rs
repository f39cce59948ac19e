//! Windows on the shipped lessons.

use std::fs;
use std::path::{Path, PathBuf};

use egui::{Key, Modifiers, Vec2};
use sweepgauge::app::Beginning;
use sweepgauge::lesson::{Lesson, read_lesson};
use tempfile::TempDir;

use super::demo_unit::DemoUnit;
use super::shown::{Answers, Start, Window};

/// High enough that all of a step is in sight.
pub const TALL: Vec2 = Vec2::new(1440.0, 1400.0);

/// A folder with the shipped lessons and their units.
pub fn lessons() -> TempDir {
    let folder = TempDir::new().unwrap();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/lessons");
    for entry in fs::read_dir(from).unwrap() {
        let file = entry.unwrap().path();
        fs::copy(&file, folder.path().join(file.file_name().unwrap())).unwrap();
    }
    folder
}

/// The lesson of a file.
pub fn read(file: &Path) -> Lesson {
    read_lesson(&fs::read_to_string(file).unwrap()).expect("a right lesson")
}

/// The window that is started, gone to the Lesson area.
pub fn in_lesson(mut start: Start) -> Window {
    start.size = TALL;
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num7);
    window
}

/// A window on a lesson of a folder.
pub fn on(folder: &TempDir, name: &str, answers: &Answers) -> (PathBuf, Window) {
    let file = folder.path().join(format!("{name}.lesson.ron"));
    let mut start = Start::on(DemoUnit::FairwayTrailed.document()).asking(answers);
    start.beginning = Some(Beginning::with_lesson(&file).expect("a lesson"));
    (file, in_lesson(start))
}

/// Saves what is in hand.
pub fn save(window: &mut Window) {
    window.press_with(Modifiers::COMMAND, Key::S);
}
