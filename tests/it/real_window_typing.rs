//! The real window with somebody typing into it, on screens of the test's own, until it is killed, told
//! to end or left without its display. Left out of an ordinary run:
//! `cargo test --test it -- --ignored real_window`.

use std::fs;
use std::process::Command;
use std::thread;
use std::time::{Duration, Instant};

use proptest::prelude::*;
use proptest::test_runner::{RngAlgorithm, TestRng};
use sweepgauge::store::open_unit;
use sweepgauge::store::recovery::left_behind;

use crate::common::demo_unit::DemoUnit;
use crate::common::screen::{Home, Screen};

/// A text of a decimal that stands nowhere else.
fn reading(rng: &mut TestRng) -> String {
    format!("6.{}", rng.random_range(1000..10_000))
}

/// What the work that a dead window left holds, as the next start would be offered it.
fn left(home: &Home) -> String {
    let left = left_behind(&home.recovery());
    assert!(left.damaged.is_empty(), "{:?}", left.damaged);
    let works = left.works.iter().map(|left| {
        let wrong = left.work.wrong.iter().map(|wrong| wrong.text.as_str());
        std::iter::once(left.work.document.as_str())
            .chain(wrong)
            .collect::<Vec<_>>()
            .join("\n")
    });
    works.collect()
}

/// Types into a window until it is killed at a moment by chance. Whether what was left is a whole
/// reading: it may have been caught in the middle of one.
fn killed_while_typing(screen: &Screen, rng: &mut TestRng) -> bool {
    let home = Home::new(&fs::read_to_string(DemoUnit::FairwayTrailed.file()).expect("the unit"));
    let first = reading(rng);
    let mut window = home.window(screen, &first);
    let begun = Instant::now();
    // So late that what was kept first is no answer.
    let killed_at = begun + Duration::from_millis(rng.random_range(3_000..5_000));
    // Each reading with the times from which and to which it stood in the field.
    let mut typed = vec![(first, begun, None)];
    while Instant::now() < killed_at {
        let dwell = Duration::from_millis(rng.random_range(50..500));
        thread::sleep(dwell.min(killed_at.saturating_duration_since(Instant::now())));
        if let Some((.., until)) = typed.last_mut() {
            *until = Some(Instant::now());
        }
        let next = reading(rng);
        screen.enter(&next);
        typed.push((next, Instant::now(), None));
    }
    window.kill().expect("it is killed");
    let killed = Instant::now();
    window.wait().expect("it is gone");
    let left = left(&home);
    let unit = fs::read_to_string(home.file()).expect("the unit");
    assert!(open_unit(&home.file()).is_ok(), "{unit}");
    let found = typed.iter().rfind(|(text, ..)| left.contains(text));
    let Some((text, _, until)) = found else {
        // A part of a reading: only while one was being typed. What stood there first is long gone.
        assert!(typed.len() > 4 && !left.is_empty(), "{left}");
        return false;
    };
    let age = until.map_or(Duration::ZERO, |until| killed - until);
    assert!(
        age < Duration::from_secs(2),
        "{text} is {age:?} old of {typed:?}"
    );
    true
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn what_was_typed_two_seconds_before_a_kill_is_left() {
    let workers = [1, 2].map(|seed| {
        thread::spawn(move || {
            let screen = Screen::new();
            let mut rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32]);
            (0..25)
                .filter(|_| killed_while_typing(&screen, &mut rng))
                .count()
        })
    });
    let whole: usize = workers
        .map(|worker| worker.join().expect("25 kills"))
        .iter()
        .sum();
    assert!(whole > 25, "{whole} of 50 left a whole reading");
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn told_to_end_the_program_keeps_the_last_letter_and_ends_well() {
    let screen = Screen::new();
    for signal in ["-TERM", "-INT", "-HUP"] {
        let home = Home::new(&fs::read_to_string(DemoUnit::SportsMetric.file()).expect("the unit"));
        let mut window = home.window(&screen, "6.1234");
        let told = Command::new("kill")
            .args([signal, &window.id().to_string()])
            .status();
        assert!(told.expect("it is told").success());
        assert_eq!(window.wait().expect("it ends").code(), Some(0), "{signal}");
        assert!(left(&home).contains("6.1234"), "{signal}");
    }
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn without_its_display_the_program_keeps_the_work_and_says_so() {
    let mut screen = Screen::new();
    let home = Home::new(&fs::read_to_string(DemoUnit::SportsMetric.file()).expect("the unit"));
    let window = home.window(&screen, "6.1234");
    screen.kill();
    let ended = window.wait_with_output().expect("it ends");
    let said = String::from_utf8_lossy(&ended.stderr);
    assert_eq!(ended.status.code(), Some(4), "{said}");
    assert!(said.contains("the display is gone"), "{said}");
    assert!(left(&home).contains("6.1234"));
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_wayland_display_that_is_gone_is_passed_over() {
    let screen = Screen::new();
    let home = Home::new(&fs::read_to_string(DemoUnit::SportsMetric.file()).expect("the unit"));
    let out = home.file().with_extension("png");
    let done = home
        .program(&screen)
        .env("WAYLAND_DISPLAY", "wayland-77")
        .env("XDG_RUNTIME_DIR", out.parent().expect("a folder"))
        .arg("window")
        .arg(home.file())
        .arg("--shot")
        .arg(&out)
        .output()
        .expect("the program runs");
    assert!(
        done.status.success(),
        "{}",
        String::from_utf8_lossy(&done.stderr)
    );
    assert!(out.exists());
}
