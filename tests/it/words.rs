//! The words: what makes it safe to touch a machine stands in every area, text and help.

use std::process::Command;

use egui::Modifiers;
use sweepgauge::analysis::{CAUTION, CAUTION_IN_SHORT};

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Start, Window, document};

const COMMANDS: [&str; 7] = [
    "report",
    "knives",
    "why",
    "reel-diameter",
    "picture",
    "plate",
    "window",
];

/// What the program prints.
fn printed(arguments: &[&str]) -> String {
    let program = env!("CARGO_BIN_EXE_sweepgauge");
    let run = Command::new(program).args(arguments).output();
    let run = run.expect("the program starts");
    assert!(run.status.success(), "{arguments:?}: {run:?}");
    String::from_utf8(run.stdout).expect("plain text")
}

/// Every help and every text that commands print for the demo units, by what was asked.
fn printouts() -> Vec<(String, String)> {
    let mut asked: Vec<Vec<String>> = vec![vec!["--help".to_owned()]];
    asked.extend(COMMANDS.map(|command| vec![command.to_owned(), "--help".to_owned()]));
    for file in DemoUnit::files() {
        let file = file.display().to_string();
        asked.extend(["report", "knives", "why"].map(|c| vec![c.to_owned(), file.clone()]));
    }
    let reel = ["reel-diameter", "--blades", "7", "--tips", "7 in ± 0.01 in"];
    asked.push(reel.map(str::to_owned).to_vec());
    let sheet = DemoUnit::FairwayTrailed
        .file()
        .with_file_name("example-ground/greens-1.plate.ron");
    asked.push(vec!["plate".to_owned(), sheet.display().to_string()]);
    asked
        .into_iter()
        .map(|arguments| {
            let words: Vec<_> = arguments.iter().map(String::as_str).collect();
            (arguments.join(" "), printed(&words))
        })
        .collect()
}

#[test]
fn every_help_and_every_text_ends_with_the_caution() {
    // Help breaks lines where it likes.
    let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let caution = CAUTION.join(" ");
    for (asked, text) in printouts() {
        assert!(one_line(&text).ends_with(&caution), "{asked}: {text}");
    }
}

/// Shows every area in turn.
fn in_every_area(window: &mut Window, mut look: impl FnMut(&Window, &str)) {
    let areas: Vec<_> = window.app().areas().collect();
    assert!(areas.len() >= 4);
    for about in areas {
        window.press_with(Modifiers::COMMAND, about.key);
        look(window, about.title);
    }
}

fn assert_says_the_caution(window: &Window, area: &str) {
    for sentence in CAUTION_IN_SHORT {
        assert!(window.says(sentence), "{area}: {sentence}");
    }
}

#[test]
fn every_area_says_the_caution_in_short() {
    for demo in DemoUnit::ALL {
        let mut window = Start::on(demo.document()).window();
        in_every_area(&mut window, assert_says_the_caution);
    }
}

#[test]
fn an_area_with_no_drawing_or_no_speeds_says_it_too() {
    let text = DemoUnit::FairwayTrailed.text();
    for (from, to) in [
        ("0.3 in ± 0.02 in", "4 in"),
        (
            "mowing: Some((ground_speed: \"4 mph\", reel_speed: \"1000 rpm\")),",
            "",
        ),
    ] {
        assert!(text.contains(from), "{from}");
        let mut window = Start::on(document(&text.replace(from, to))).window();
        in_every_area(&mut window, assert_says_the_caution);
    }
}
