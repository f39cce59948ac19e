//! The real window that nobody touches, on a screen of the test's own. Left out of an ordinary run:
//! `cargo test --test it -- --ignored real_window`.

use std::fs;
use std::thread::sleep;
use std::time::Duration;

use crate::common::demo_unit::DemoUnit;
use crate::common::screen::{Home, Screen};

/// How long a window is looked at.
const LOOK: Duration = Duration::from_secs(10);
/// Ticks of the processor's clock in a second, as Linux tells them (proc(5), `USER_HZ`).
const TICKS_A_SECOND: u64 = 100;
/// A frame drawn by software costs more than this; a thread that looks at its clock costs less.
const TICKS_WITHOUT_A_FRAME: u64 = 2;

/// What a process took of the processor so far, in ticks: fields 14 and 15 of its `stat`.
fn ticks(process: u32) -> u64 {
    let stat = fs::read_to_string(format!("/proc/{process}/stat")).expect("it runs");
    let (_, fields) = stat.rsplit_once(')').expect("its name");
    let fields = fields.split_whitespace().skip(11).take(2);
    fields
        .map(|ticks| ticks.parse::<u64>().expect("ticks"))
        .sum()
}

/// Waits until a window took nothing of the processor for a second.
fn wait_for_rest(process: u32) {
    let rests = (0..60).any(|_| {
        let before = ticks(process);
        sleep(Duration::from_secs(1));
        ticks(process) <= before + TICKS_WITHOUT_A_FRAME
    });
    assert!(rests, "it never comes to rest");
}

/// What windows take of the processor in a look at all of them at once.
fn taken(windows: &[u32]) -> Vec<u64> {
    let before: Vec<_> = windows.iter().map(|window| ticks(*window)).collect();
    sleep(LOOK);
    let pairs = windows.iter().zip(before);
    pairs
        .map(|(window, before)| ticks(*window) - before)
        .collect()
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn no_area_draws_a_frame_while_nobody_touches_it_and_a_cursor_costs_next_to_nothing() {
    let text = fs::read_to_string(DemoUnit::FairwayTrailed.file()).expect("the unit");
    let screen = Screen::new();
    let mut windows = ["unit", "knives", "why", "blade-path", "shop"].map(|area| {
        let home = Home::new(&text);
        let mut program = home.program(&screen);
        program
            .arg("window")
            .arg(home.file())
            .args(["--area", area]);
        (program.spawn().expect("the program runs"), home)
    });
    let ids: Vec<_> = windows.iter().map(|(window, _)| window.id()).collect();
    // Long enough for a first frame of each.
    sleep(Duration::from_secs(3));
    ids.iter().copied().for_each(wait_for_rest);
    // What a busy machine does late to a window that has just opened is over at the next look.
    let mut looks = Vec::new();
    let rests = (0..3).any(|_| {
        let look = taken(&ids);
        let rests = look.iter().all(|taken| *taken <= TICKS_WITHOUT_A_FRAME);
        looks.push(look);
        rests
    });
    assert!(rests, "ticks of each area: {looks:?}");
    for (window, _) in &mut windows {
        window.kill().expect("it goes");
        window.wait().expect("it went");
    }
    let home = Home::new(&text);
    let mut window = home.window(&screen, "6.1234");
    wait_for_rest(window.id());
    let taken = taken(&[window.id()]);
    window.kill().expect("it goes");
    window.wait().expect("it went");
    // Under 3 % of one processor.
    let most = 3 * TICKS_A_SECOND * LOOK.as_secs() / 100;
    assert!(taken[0] < most, "{taken:?} ticks with a cursor in a field");
}
