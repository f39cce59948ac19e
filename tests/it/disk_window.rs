//! A disk that takes no more, as a person at the window meets it: each trouble has its sentence, what is
//! open stays, and what is on the disk is whole.
#![cfg(target_os = "linux")]

use std::fs;
use std::path::Path;
use std::process::Command;

use egui::{Key, Modifiers};
use sweepgauge::app::DEMO_UNIT;
use sweepgauge::store::open_unit;
use tempfile::TempDir;

use crate::common::shown::{Answers, Start, demo_set, document};

const UNSAVED: &str = "unsaved changes";

/// Tells the second run of the test below where the unit is.
const FULL_DISK: &str = "SWEEPGAUGE_TEST_FULL_DISK";

#[test]
fn a_full_disk_is_told_and_what_is_open_stays() {
    // This test runs itself again where no file can grow past a kilobyte.
    let name = "disk_window::a_full_disk_is_told_and_what_is_open_stays";
    if let Some(folder) = std::env::var_os(FULL_DISK) {
        work_on_a_full_disk(Path::new(&folder));
        return;
    }
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("gang.ron");
    fs::write(&file, DEMO_UNIT).unwrap();
    let ran = Command::new("sh")
        .args([
            "-c",
            "trap '' XFSZ; ulimit -f 1; exec \"$0\" --exact \"$1\"",
        ])
        .arg(std::env::current_exe().unwrap())
        .arg(name)
        .env(FULL_DISK, folder.path())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&ran.stdout);
    assert!(ran.status.success(), "{said}");
    assert!(said.contains("1 passed"), "{said}");
    assert_eq!(fs::read_to_string(&file).unwrap(), DEMO_UNIT);
    let names = fs::read_dir(folder.path()).unwrap();
    let mut names: Vec<_> = names.map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["gang.ron", "recovery"], "and no half a copy");
}

fn work_on_a_full_disk(folder: &Path) {
    let file = folder.join("gang.ron");
    let start = Start::on_file(&file).keeping_in(&folder.join("recovery"));
    let mut window = start.window();
    window.enter_text("Attitude", "5");
    window.wait_until_it_says("What is not saved cannot be kept for recovery");
    let told = "Could not be saved: there is no room left for it on the disk; the file that was there is unchanged";
    window.press_with(Modifiers::COMMAND, Key::S);
    window.assert_says(told);
    window.assert_says(UNSAVED);
    assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
    // Nor does saving on the way out close over it.
    window.click("Close");
    assert!(!window.would_close());
    window.click("Save");
    assert!(!window.has_closed());
    window.assert_says(told);
    assert!(!window.would_close());
    assert_eq!(fs::read_to_string(&file).unwrap(), DEMO_UNIT);
}

#[test]
fn a_folder_that_is_read_only_is_told_and_another_takes_it() {
    // Read-only for everybody, the system's owner too.
    let closed = Path::new("/sys");
    if !closed.join("kernel").exists() {
        eprintln!("not run: this system has no folder that is read-only for everybody");
        return;
    }
    let folder = TempDir::new().unwrap();
    let elsewhere = folder.path().join("gang.ron");
    let answers = Answers::default();
    answers.save(&closed.join("gang.ron"));
    let start = Start::on(document(DEMO_UNIT)).asking(&answers);
    let mut window = start.window();
    window.enter_text("Attitude", "5");
    window.press_with(Modifiers::COMMAND, Key::S);
    window
        .assert_says("Could not be saved: the folder /sys is read-only, or not yours to write in");
    window.assert_says("File: /sys/gang.ron");
    window.assert_says(UNSAVED);
    assert_eq!(window.app().session().file(), None);
    answers.save(&elsewhere);
    window.press_with(Modifiers::COMMAND, Key::S);
    window.assert_silent(UNSAVED);
    assert_eq!(&open_unit(&elsewhere).unwrap(), window.document());
}
