//! The real window on a real display. Left out of an ordinary run, which needs neither:
//! `cargo test --test it -- --ignored real_window`.

use std::collections::HashSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use sweepgauge::app::DEMO_UNIT;
use sweepgauge::store::recovery::left_behind;
use sweepgauge::unit::parse_text;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
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

/// A unit file, and a home of its own for the windows that are opened on it.
#[cfg(target_os = "linux")]
struct Home(TempDir);

#[cfg(target_os = "linux")]
impl Home {
    fn new() -> Self {
        let home = Self(TempDir::new().expect("a folder"));
        fs::write(home.file(), DEMO_UNIT).expect("it is written");
        home
    }

    fn file(&self) -> PathBuf {
        self.0.path().join("gang.ron")
    }

    fn recovery(&self) -> PathBuf {
        self.0.path().join("sweepgauge").join("recovery")
    }

    /// Opens a window that begins with a change that is not saved.
    fn changed_window(&self) -> Child {
        Command::new(env!("CARGO_BIN_EXE_sweepgauge"))
            .args(["window", "--size", "1000x700", "--attitude", "5 deg"])
            .arg(self.file())
            .env("XDG_DATA_HOME", self.0.path())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program runs")
    }

    fn has(&self, ending: &str) -> bool {
        let is_one = |path: &Path| path.extension().is_some_and(|found| found == ending);
        let files = fs::read_dir(self.recovery()).into_iter().flatten();
        files.flatten().any(|entry| is_one(&entry.path()))
    }

    fn wait_for(&self, ending: &str) {
        let tries = (0..3000).find(|_| {
            sleep(Duration::from_millis(10));
            self.has(ending)
        });
        assert!(tries.is_some(), "no {ending} in half a minute");
    }

    /// Checks what an ended window left and clears it; how many works there were.
    fn assert_whole(&self) -> usize {
        assert_eq!(fs::read_to_string(self.file()).expect("a file"), DEMO_UNIT);
        let left = left_behind(&self.recovery());
        assert!(left.damaged.is_empty(), "{:?}", left.damaged);
        let count = left.works.len();
        for left in left.works {
            let recovered = parse_text(&left.work.document).expect("a unit");
            assert_eq!(recovered, demo_set("attitude: \"5 deg\""));
            assert_eq!(left.work.file, Some(self.file()));
            left.discard().expect("it goes");
        }
        count
    }
}

#[cfg(target_os = "linux")]
#[test]
#[ignore = "needs a display"]
fn a_window_killed_at_any_moment_loses_no_work() {
    const KILLS: u64 = 50;
    let home = Home::new();
    let mut recovered = 0;
    for kill in 0..KILLS {
        let mut window = home.changed_window();
        // Around the first writing, and after it.
        home.wait_for(if kill % 2 == 0 { "lock" } else { "recovery" });
        sleep(Duration::from_millis(kill * 37 % 400));
        let was_kept = home.has("recovery");
        window.kill().expect("it is there to be killed");
        window.wait().expect("it ended");
        let count = home.assert_whole();
        assert!(count == 1 || (count == 0 && !was_kept), "{count} works");
        recovered += count;
    }
    assert!(recovered >= 25, "{recovered} of {KILLS}");
}

#[cfg(target_os = "linux")]
#[test]
#[ignore = "needs a display"]
fn a_window_told_to_end_keeps_its_work_and_ends_as_promised() {
    let home = Home::new();
    for signal in ["-TERM", "-INT", "-HUP"] {
        let mut window = home.changed_window();
        home.wait_for("recovery");
        let process = window.id().to_string();
        let told = Command::new("kill").args([signal, &process]).status();
        assert!(told.expect("kill runs").success());
        assert_eq!(window.wait().expect("it ended").code(), Some(0), "{signal}");
        assert_eq!(home.assert_whole(), 1, "{signal}");
    }
}
