//! The real window on a real display. Left out of an ordinary run, which needs neither:
//! `cargo test --test it -- --ignored real_window`.

use std::collections::HashSet;
use std::fs;
use std::process::{Child, Command};
use std::thread::sleep;
use std::time::Duration;

use sweepgauge::app::DEMO_UNIT;
use sweepgauge::store::recovery::left_behind;
use sweepgauge::unit::parse_text;

use crate::common::demo_unit::DemoUnit;
use crate::common::screen::{Home, Screen, wait_for};
use crate::common::shown::demo_set;

/// Opens the window on a demo unit and gives the picture of it.
fn shot(unit: DemoUnit, extra: &[&str]) -> image::RgbaImage {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("shot.png");
    let done = Command::new(env!("CARGO_BIN_EXE_sweepgauge"))
        .arg("window")
        .arg(unit.file())
        .args(["--size", "1280x800", "--shot"])
        .arg(&out)
        .args(extra)
        .output()
        .expect("the program runs");
    let said = String::from_utf8_lossy(&done.stderr).into_owned();
    assert!(done.status.success(), "{said}");
    image::open(&out).expect("a picture").to_rgba8()
}

fn colours_in(picture: &image::RgbaImage, from: (u32, u32), size: (u32, u32)) -> usize {
    let part = image::imageops::crop_imm(picture, from.0, from.1, size.0, size.1).to_image();
    part.pixels()
        .map(|pixel| pixel.0)
        .collect::<HashSet<_>>()
        .len()
}

#[test]
#[ignore = "needs a display"]
fn the_window_shows_form_drawing_and_findings() {
    let picture = shot(DemoUnit::GreensScalping, &[]);
    assert_eq!(picture.dimensions(), (1280, 800));
    for (part, from, size) in [
        ("form", (0, 60), (380, 700)),
        ("drawing", (420, 160), (480, 400)),
        ("lens", (930, 180), (320, 360)),
        ("findings", (880, 600), (380, 180)),
    ] {
        assert!(colours_in(&picture, from, size) > 40, "{part} is blank");
    }
}

#[test]
#[ignore = "needs a display"]
fn the_dark_window_is_dark() {
    let brightness = |picture: &image::RgbaImage| {
        let sum: u64 = picture
            .pixels()
            .map(|p| p.0[..3].iter().map(|&c| u64::from(c)).sum::<u64>())
            .sum();
        sum / u64::from(picture.width() * picture.height() * 3)
    };
    assert!(brightness(&shot(DemoUnit::FairwayTrailed, &["--dark"])) < 80);
    assert!(brightness(&shot(DemoUnit::FairwayTrailed, &[])) > 180);
}

#[test]
#[ignore = "needs a display"]
fn every_area_opens_with_something_of_its_own() {
    let areas = [&[][..], &["--knives"], &["--why"], &["--blade-path"]];
    let pictures = areas.map(|area| shot(DemoUnit::TeesCrowned, area));
    for (index, picture) in pictures.iter().enumerate() {
        assert!(
            colours_in(picture, (410, 60), (860, 700)) > 40,
            "{:?}",
            areas[index]
        );
        assert!(pictures[..index].iter().all(|before| before != picture));
    }
    for (id, picture) in ["unit", "knives", "why", "blade-path"]
        .iter()
        .zip(&pictures)
    {
        assert!(
            shot(DemoUnit::TeesCrowned, &["--area", id]) == *picture,
            "{id}"
        );
    }
}

/// Opens a window that begins with a change that is not saved.
#[cfg(target_os = "linux")]
fn changed_window(home: &Home, screen: &Screen) -> Child {
    home.program(screen)
        .args(["window", "--size", "1000x700", "--attitude", "5 deg"])
        .arg(home.file())
        .spawn()
        .expect("the program runs")
}

/// Whether a file with this ending lies where the program keeps work.
#[cfg(target_os = "linux")]
fn has(home: &Home, ending: &str) -> bool {
    let files = fs::read_dir(home.recovery()).into_iter().flatten();
    let mut files = files.flatten().map(|entry| entry.path());
    files.any(|path| path.extension().is_some_and(|found| found == ending))
}

/// Checks what an ended window left and clears it; how many works there were.
#[cfg(target_os = "linux")]
fn assert_whole(home: &Home) -> usize {
    assert_eq!(fs::read_to_string(home.file()).expect("a file"), DEMO_UNIT);
    let left = left_behind(&home.recovery());
    assert!(left.damaged.is_empty(), "{:?}", left.damaged);
    let count = left.works.len();
    for left in left.works {
        let recovered = parse_text(&left.work.document).expect("a unit");
        assert_eq!(recovered, demo_set("attitude: \"5 deg\""));
        assert_eq!(left.work.file, Some(home.file()));
        left.discard().expect("it goes");
    }
    count
}

#[cfg(target_os = "linux")]
#[test]
#[ignore = "needs Xvfb"]
fn a_window_killed_at_any_moment_loses_no_work() {
    const KILLS: u64 = 50;
    let (home, screen) = (Home::new(DEMO_UNIT), Screen::new());
    let mut recovered = 0;
    for kill in 0..KILLS {
        let mut window = changed_window(&home, &screen);
        // Around the first writing, and after it.
        let ending = if kill % 2 == 0 { "lock" } else { "recovery" };
        wait_for(ending, || has(&home, ending).then_some(()));
        sleep(Duration::from_millis(kill * 37 % 400));
        let was_kept = has(&home, "recovery");
        window.kill().expect("it is there to be killed");
        window.wait().expect("it ended");
        let count = assert_whole(&home);
        assert!(count == 1 || (count == 0 && !was_kept), "{count} works");
        recovered += count;
    }
    assert!(recovered >= 25, "{recovered} of {KILLS}");
}

#[cfg(target_os = "linux")]
#[test]
#[ignore = "needs Xvfb"]
fn a_window_told_to_end_keeps_its_work_and_ends_as_promised() {
    let (home, screen) = (Home::new(DEMO_UNIT), Screen::new());
    for signal in ["-TERM", "-INT", "-HUP"] {
        let mut window = changed_window(&home, &screen);
        wait_for("kept work", || has(&home, "recovery").then_some(()));
        let process = window.id().to_string();
        let told = Command::new("kill").args([signal, &process]).status();
        assert!(told.expect("kill runs").success());
        assert_eq!(window.wait().expect("it ended").code(), Some(0), "{signal}");
        assert_eq!(assert_whole(&home), 1, "{signal}");
    }
}
