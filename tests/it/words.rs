//! The words: what makes it safe to touch a machine stands in every area, text and help.

use std::process::Command;

use clap::CommandFactory as _;
use egui::Modifiers;
use sweepgauge::analysis::why::Complaint;
use sweepgauge::analysis::{CAUTION, CAUTION_IN_SHORT, NumberId};
use sweepgauge::command::Arguments;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Start, WANTED, Window, document};

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
    let commands = Arguments::command();
    let names = commands.get_subcommands().map(clap::Command::get_name);
    asked.extend(names.map(|name| vec![name.to_owned(), "--help".to_owned()]));
    assert!(asked.len() > 6, "{asked:?}");
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
    let lessons = sheet.with_file_name("").join("../lessons");
    for lesson in [
        "behind-centre",
        "fairway-and-green",
        "longer-knife",
        "worn-reel",
    ] {
        let file = lessons.join(format!("{lesson}.lesson.ron"));
        asked.push(vec![
            "lesson".to_owned(),
            file.display().to_string(),
            "--check".to_owned(),
        ]);
    }
    let folder = sheet.with_file_name("").display().to_string();
    asked.push(vec!["shop".to_owned(), folder]);
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
pub fn in_every_area(window: &mut Window, mut look: impl FnMut(&Window, &str)) {
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

/// What never stands on a screen: the last column of the list of words.
pub fn never() -> Vec<String> {
    let folder = env!("CARGO_MANIFEST_DIR");
    let text = std::fs::read_to_string(format!("{folder}/DEVELOPERS.md")).expect("a guide");
    let list = text.split("\n## Words\n").nth(1).expect("a list of words");
    let list = list.split("\n## ").next().expect("its end");
    let rows = list.lines().filter(|line| line.starts_with('|')).skip(2);
    let words = rows.filter_map(|row| row.trim_end_matches('|').rsplit('|').next());
    let words: Vec<_> = words
        .flat_map(|cell| cell.split(';'))
        .map(|word| word.trim().to_lowercase())
        .filter(|word| !word.is_empty())
        .collect();
    assert!(words.len() > 30, "{words:?}");
    words
}

/// The words of the list that a text has, each by itself and whatever its case.
fn found_in(text: &str, never: &[String]) -> Vec<String> {
    let text = text.to_lowercase();
    let is_alone = |at: usize, word: &str| {
        let part_of_word =
            |letter: char| letter.is_alphanumeric() || letter == '_' || letter == '-';
        let (before, after) = (&text[..at], &text[at + word.len()..]);
        !before.ends_with(part_of_word) && !after.starts_with(part_of_word)
    };
    never
        .iter()
        .filter(|word| {
            text.match_indices(word.as_str())
                .any(|(at, _)| is_alone(at, word))
        })
        .cloned()
        .collect()
}

/// Texts that have words they should not, with the words.
pub fn wrong<'a>(texts: impl IntoIterator<Item = &'a String>, never: &[String]) -> Vec<String> {
    let wrong = texts.into_iter().filter_map(|text| {
        let found = found_in(text, never);
        (!found.is_empty()).then(|| format!("{found:?} in \"{text}\""))
    });
    wrong.collect()
}

#[test]
fn the_list_of_words_finds_what_it_is_there_for() {
    let never = never();
    for text in ["The level is fine.", "Top ground", "it wants watching"] {
        assert!(!found_in(text, &never).is_empty(), "{text}");
    }
    for text in ["in finer steps", "top_ground: Some", "metal off top face"] {
        assert!(found_in(text, &never).is_empty(), "{text}");
    }
}

#[test]
fn no_area_shows_a_word_of_the_list() {
    let never = never();
    for demo in DemoUnit::ALL {
        let mut window = Start::on(demo.document()).window();
        window.unfold();
        let mut all = wrong(&window.texts(), &never);
        window.click(WANTED);
        in_every_area(&mut window, |window, _| {
            all.extend(wrong(&window.texts(), &never));
        });
        assert!(all.is_empty(), "{demo:?}: {all:#?}");
    }
}

#[test]
fn no_card_shows_a_word_of_the_list() {
    let never = never();
    let mut window = Window::demo();
    for card in ["About", "First steps"] {
        window.click(card);
        let wrong = wrong(&window.texts(), &never);
        assert!(wrong.is_empty(), "{card}: {wrong:#?}");
        window.press(egui::Key::Escape);
    }
}

#[test]
fn no_help_of_a_field_or_number_has_a_word_of_the_list() {
    let never = never();
    let numbers = NumberId::ALL.map(|id| {
        let words = [id.name(), id.title(), id.meaning()];
        words.join("; ")
    });
    let complaints = Complaint::ALL.map(|complaint| {
        let words = [
            complaint.name(),
            complaint.look_first(),
            complaint.outside(),
        ];
        words.join("; ")
    });
    let wrong: Vec<_> = wrong(&numbers, &never)
        .into_iter()
        .chain(wrong(&complaints, &never))
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn no_printed_text_has_a_word_of_the_list() {
    let never = never();
    let mut all = Vec::new();
    for (asked, text) in printouts() {
        let lines: Vec<_> = text.lines().map(str::to_owned).collect();
        all.extend(
            wrong(&lines, &never)
                .into_iter()
                .map(|told| format!("{asked}: {told}")),
        );
    }
    assert!(all.is_empty(), "{all:#?}");
}

#[test]
fn the_page_to_read_has_the_whole_caution() {
    let folder = env!("CARGO_MANIFEST_DIR");
    let readme = std::fs::read_to_string(format!("{folder}/README.md")).expect("a page");
    let readme = readme.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(readme.contains(&CAUTION.join(" ")));
}

#[test]
fn no_demo_unit_and_no_page_to_read_has_a_word_of_the_list() {
    let never = never();
    let folder = env!("CARGO_MANIFEST_DIR");
    let readme = std::fs::read_to_string(format!("{folder}/README.md")).expect("a page");
    // What stands between backticks is a key or a command.
    let readme: String = readme.split('`').step_by(2).collect();
    let mut texts = vec![readme.replace('\n', " ")];
    texts.extend(DemoUnit::ALL.map(DemoUnit::text));
    for text in &texts {
        let words = found_in(text, &never);
        assert!(words.is_empty(), "{words:?} in {text}");
    }
}
