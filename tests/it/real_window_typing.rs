//! The real window with somebody typing into it, on screens of the test's own, until it is killed, told
//! to end or left without its display. Left out of an ordinary run:
//! `cargo test --test it -- --ignored real_window`.

use std::borrow::Cow;
use std::fs;
use std::process::{Child, Command};
use std::thread;
use std::time::{Duration, Instant};

use proptest::prelude::*;
use proptest::test_runner::{RngAlgorithm, TestRng};
use sweepgauge::store::recovery::{Work, left_behind};
use sweepgauge::unit::{Document, Field, parse_text};

use crate::common::demo_unit::DemoUnit;
use crate::common::screen::{Home, Screen, wait_for};

/// A text of a decimal that stands nowhere else.
fn reading(rng: &mut TestRng) -> String {
    format!("6.{}", rng.random_range(1000..10_000))
}

/// What the work that a dead window left holds, as the next start would be offered it.
fn left(home: &Home) -> String {
    works_left(home)
        .iter()
        .map(|work| {
            let wrong = work.wrong.iter().map(|wrong| wrong.text.as_str());
            std::iter::once(work.document.as_str())
                .chain(wrong)
                .collect::<Vec<_>>()
                .join("\n")
        })
        .collect()
}

fn works_left(home: &Home) -> Vec<Work> {
    let left = left_behind(&home.recovery());
    assert!(left.damaged.is_empty(), "{:?}", left.damaged);
    left.works.into_iter().map(|left| left.work).collect()
}

/// The text that stands in the one field that work has changed of a unit. A text that was not taken stands
/// there in place of the value before it.
fn changed_text(work: &Work, unit: &Document) -> String {
    let document = parse_text(&work.document).expect("a unit");
    let text_in = |document: &Document, field: Field| field.text(document).map(Cow::into_owned);
    let mut changed = Field::all(&document)
        .filter(|field| text_in(&document, *field) != text_in(unit, *field))
        .map(|field| text_in(&document, field).expect("it is not left out"));
    let text = changed.next();
    assert_eq!(changed.next(), None, "more fields than one: {work:?}");
    assert!(work.wrong.len() < 2, "more fields than one: {work:?}");
    let wrong = work.wrong.first().map(|wrong| wrong.text.clone());
    let text = wrong.or(text).expect("a change");
    // A bare number is kept with the unit that it was read in.
    text.trim_end_matches(" in").to_owned()
}

/// What stood in the field, one after the other, and until when at least.
#[derive(Debug)]
struct Stood {
    text: String,
    until: Option<Instant>,
}

/// All that stands in the field while a reading is typed over what stood there: letter after letter.
fn stand_while_typed(stood: &mut Vec<Stood>, reading: &str) {
    let now = Instant::now();
    if let Some(before) = stood.last_mut() {
        before.until = Some(now);
    }
    stood.extend((1..=reading.len()).map(|letters| Stood {
        text: reading[..letters].to_owned(),
        until: (letters < reading.len()).then_some(now),
    }));
}

/// Waits until a window has taken what was typed: but for the keeper, which has the disk to wait for, none of
/// its threads does or wants to do anything.
fn wait_until_taken(process: u32) {
    let is_busy = || {
        let threads = fs::read_dir(format!("/proc/{process}/task")).expect("it runs");
        let stats = threads.flatten().map(|thread| thread.path().join("stat"));
        // A thread may be gone since it was listed.
        stats
            .filter_map(|stat| fs::read_to_string(stat).ok())
            .any(|stat| {
                // Its name in brackets, then its state (proc(5)).
                let (name, rest) = stat.rsplit_once(')').expect("its name");
                !name.ends_with("(keeper") && !rest.trim_start().starts_with('S')
            })
    };
    let mut rests = 0;
    wait_for("rest", || {
        rests = if is_busy() { 0 } else { rests + 1 };
        (rests > 2).then_some(())
    });
}

/// Types into a window until it is killed at a moment by chance, and checks that what is left stood in the
/// field since it was last kept, and in the two seconds before the kill. Whether it is a whole reading:
/// the window may have been killed in the middle of one.
fn killed_while_typing(screen: &Screen, rng: &mut TestRng) -> bool {
    let text = fs::read_to_string(DemoUnit::FairwayTrailed.file()).expect("the unit");
    let unit = parse_text(&text).expect("a unit");
    let home = Home::new(&text);
    let first = reading(rng);
    let mut window = home.window(screen, &first);
    let begun = Instant::now();
    // So late that what was kept first is no answer.
    let killed_at = begun + Duration::from_millis(rng.random_range(3_000..5_000));
    let mut stood = Vec::new();
    stand_while_typed(&mut stood, &first);
    while Instant::now() < killed_at {
        // A machine that lags behind the hands is not what is asked about.
        wait_until_taken(window.id());
        let dwell = Duration::from_millis(rng.random_range(50..500));
        thread::sleep(dwell.min(killed_at.saturating_duration_since(Instant::now())));
        let next = reading(rng);
        stand_while_typed(&mut stood, &next);
        screen.enter(&next);
    }
    let last_kept = home.works().first().map(|work| changed_text(work, &unit));
    window.kill().expect("it is killed");
    let killed = Instant::now();
    window.wait().expect("it is gone");
    let works = works_left(&home);
    let [work] = &works[..] else {
        panic!("one work is left of one window: {works:?}");
    };
    let left = changed_text(work, &unit);
    assert_eq!(fs::read_to_string(home.file()).expect("the unit"), text);
    let last_kept = last_kept.expect("work was kept before the kill");
    let kept_at = stood.iter().position(|stood| stood.text == last_kept);
    let left_at = stood.iter().rposition(|stood| stood.text == left);
    let (Some(kept_at), Some(left_at)) = (kept_at, left_at) else {
        panic!("{last_kept} and {left} stood there at no time: {stood:?}");
    };
    assert!(
        kept_at <= left_at,
        "{left} is older than {last_kept}: {stood:?}"
    );
    let age = stood[left_at]
        .until
        .map_or(Duration::ZERO, |until| killed - until);
    assert!(
        age < Duration::from_secs(2),
        "{left} is {age:?} old: {stood:?}"
    );
    left.len() == first.len()
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

/// A window that nobody typed into, once it stands on the screen.
fn shown(screen: &Screen, program: &mut Command) -> Child {
    let window = program.spawn().expect("the program runs");
    screen.focus(window.id());
    window
}

fn tell_to_end(window: &Child) {
    let told = Command::new("kill").arg(window.id().to_string()).status();
    assert!(told.expect("it is told").success());
}

/// The code that a window ended with, and what it said.
fn ended(window: Child) -> (Option<i32>, String) {
    let ended = window.wait_with_output().expect("it ends");
    let said = String::from_utf8_lossy(&ended.stderr).into_owned();
    (ended.status.code(), said)
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn where_no_work_is_kept_the_program_ends_as_promised_and_says_what_is_lost() {
    const LOST: &str = "what was not saved could not be kept";
    let home = Home::new(&fs::read_to_string(DemoUnit::SportsMetric.file()).expect("the unit"));
    for (what_if, is_changed) in [(&["--attitude", "5 deg"][..], true), (&[], false)] {
        let mut screen = Screen::new();
        let window = |screen: &Screen| {
            let mut program = home.program_without_home(screen);
            shown(screen, program.arg("window").arg(home.file()).args(what_if))
        };
        let told = window(&screen);
        tell_to_end(&told);
        let (code, said) = ended(told);
        assert_eq!(code, Some(if is_changed { 2 } else { 0 }), "{said}");
        assert_eq!(said.contains(LOST), is_changed, "{said}");
        let left_alone = window(&screen);
        screen.kill();
        let (code, said) = ended(left_alone);
        assert_eq!(code, Some(4), "{said}");
        assert!(said.contains("the display is gone"), "{said}");
        assert_eq!(said.contains(LOST), is_changed, "{said}");
    }
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_shot_that_is_not_saved_never_ends_well() {
    let home = Home::new(&fs::read_to_string(DemoUnit::SportsMetric.file()).expect("the unit"));
    let out = home.file().with_extension("png");
    let shot = |screen: &Screen| {
        let mut program = home.program(screen);
        let program = program.arg("window").arg(home.file());
        shown(screen, program.arg("--shot").arg(&out))
    };
    // One may be taken before it is told to end.
    let untaken = |end: fn(&mut Screen, &Child)| {
        (0..20).find_map(|_| {
            let mut screen = Screen::new();
            let window = shot(&screen);
            end(&mut screen, &window);
            let (code, said) = ended(window);
            let is_taken = fs::remove_file(&out).is_ok();
            (!is_taken).then_some((code, said))
        })
    };
    let (code, said) = untaken(|_, window| tell_to_end(window)).expect("one in time");
    assert_eq!(code, Some(2), "{said}");
    assert!(
        said.contains("told to end before the shot was saved"),
        "{said}"
    );
    let (code, said) = untaken(|screen, _| screen.kill()).expect("one in time");
    assert_eq!(code, Some(4), "{said}");
    assert!(
        said.contains("the display is gone") && !said.contains("kept"),
        "{said}"
    );
}
