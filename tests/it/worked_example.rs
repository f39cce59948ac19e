//! The worked example of the README: its commands are run as they stand there, what it shows of their
//! output is what they print, and every number it tells comes from them or from the unit's file.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use tempfile::TempDir;

use crate::common::pdf::{Pdf, packed};

const HEADING: &str = "## A worked example, from bench to decision";
/// What stands where lines of an output are left out, or the rest of a line.
const LEFT_OUT: &str = "…";

fn home() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The chapter, without its heading.
fn chapter() -> String {
    let readme = fs::read_to_string(home().join("README.md")).expect("there is a README");
    let (_, from) = readme.split_once(HEADING).expect("it has the chapter");
    let (chapter, _) = from.split_once("\n## ").expect("another chapter follows");
    chapter.to_owned()
}

/// A command and the lines that are shown of what it prints.
#[derive(Debug, PartialEq, Eq)]
struct Step {
    command: String,
    shown: Vec<String>,
}

/// The steps of a chapter, and the words around them.
fn read(chapter: &str) -> (Vec<Step>, String) {
    let (mut steps, mut words) = (Vec::<Step>::new(), String::new());
    let mut is_console = false;
    for line in chapter.lines() {
        if line.starts_with("```") {
            assert!(line == "```console" || (is_console && line == "```"));
            is_console = !is_console;
        } else if !is_console {
            words.push_str(line);
            words.push('\n');
        } else if let Some(command) = line.strip_prefix("$ ") {
            let (command, shown) = (command.to_owned(), Vec::new());
            steps.push(Step { command, shown });
        } else {
            let step = steps
                .last_mut()
                .expect("a command stands before its output");
            step.shown.push(line.to_owned());
        }
    }
    assert!(!is_console, "a block is left open");
    (steps, words)
}

/// The words of a command line; double quotes hold words together, as a shell reads them.
fn words_of(command: &str) -> Vec<String> {
    let (mut words, mut is_quoted) = (vec![String::new()], false);
    for letter in command.chars() {
        match letter {
            '"' => is_quoted = !is_quoted,
            ' ' if !is_quoted => words.push(String::new()),
            _ => words.last_mut().expect("never empty").push(letter),
        }
    }
    assert!(!is_quoted, "{command}");
    words.retain(|word| !word.is_empty());
    words
}

/// Runs a command of the chapter in a folder.
fn run(command: &str, folder: &Path) -> Output {
    let words = words_of(command);
    let (program, arguments) = words.split_first().expect("a command has words");
    assert_eq!(program, "sweepgauge", "{command}");
    Command::new(env!("CARGO_BIN_EXE_sweepgauge"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("the program starts")
}

/// A folder with the demo unit of the chapter, as seen from where the README stands.
fn folder() -> TempDir {
    let folder = TempDir::new().expect("a folder");
    let demo = "demo-units/worked-example";
    fs::create_dir_all(folder.path().join(demo)).expect("a folder");
    let file = format!("{demo}/tee.ron");
    fs::copy(home().join(&file), folder.path().join(&file)).expect("it is copied");
    folder
}

/// The first line shown that does not stand in what is printed, in the order shown. Where nothing is said
/// to be left out between two lines, none may stand between them.
fn first_not_printed<'a>(shown: &'a [String], printed: &str) -> Option<&'a str> {
    let printed: Vec<&str> = printed.lines().map(str::trim_end).collect();
    let mut next = 0;
    // Ahead of the first line some may be left out without a word.
    let mut may_skip = true;
    for line in shown {
        if line == LEFT_OUT {
            may_skip = true;
            continue;
        }
        let is_it = |one: &str| match line.strip_suffix(LEFT_OUT) {
            Some(beginning) => one.starts_with(beginning),
            None => one == line,
        };
        let rest = &printed[next..];
        let looked_at = if may_skip {
            rest.len()
        } else {
            rest.len().min(1)
        };
        let found = rest[..looked_at].iter().position(|one| is_it(one));
        let Some(found) = found else {
            return Some(line);
        };
        next += found + 1;
        may_skip = false;
    }
    None
}

/// The numbers of a text, as they are written.
fn numbers(text: &str) -> BTreeSet<String> {
    let parts = text.split(|letter: char| !letter.is_ascii_digit() && letter != '.');
    parts
        .map(|part| part.trim_matches('.'))
        .filter(|part| !part.is_empty())
        .map(str::to_owned)
        .collect()
}

#[test]
fn every_command_of_the_worked_example_prints_what_the_readme_shows() {
    let (steps, words) = read(&chapter());
    let used: BTreeSet<String> = steps
        .iter()
        .map(|step| words_of(&step.command)[1].clone())
        .collect();
    for command in ["report", "why", "knives", "sheet", "picture"] {
        assert!(used.contains(command), "{command} is not shown: {used:?}");
    }
    let shown: usize = steps.iter().map(|step| step.shown.len()).sum();
    assert!(shown > 20, "only {shown} lines are shown");
    let folder = folder();
    let unit = fs::read_to_string(home().join("demo-units/worked-example/tee.ron"));
    let mut told = numbers(&unit.expect("it is there"));
    for step in &steps {
        let output = run(&step.command, folder.path());
        let problem = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{}: {problem}", step.command);
        let printed = String::from_utf8_lossy(&output.stdout);
        let missing = first_not_printed(&step.shown, &printed);
        assert_eq!(missing, None, "{} prints:\n{printed}", step.command);
        told.extend(numbers(&step.command));
        told.extend(step.shown.iter().flat_map(|line| numbers(line)));
    }
    let in_words = numbers(&words);
    assert!(in_words.len() > 10, "{in_words:?}");
    let made_up: Vec<_> = in_words.difference(&told).collect();
    assert!(made_up.is_empty(), "shown by no command: {made_up:?}");
}

#[test]
fn the_sheets_and_the_picture_of_the_worked_example_are_written() {
    let (steps, _) = read(&chapter());
    let folder = folder();
    let mut sheets = String::new();
    let mut pictures = 0;
    for step in &steps {
        let words = words_of(&step.command);
        let (is_sheet, is_picture) = (words[1] == "sheet", words[1] == "picture");
        if !is_sheet && !is_picture {
            continue;
        }
        run(&step.command, folder.path());
        let out = words.iter().find(|word| {
            Path::new(word)
                .extension()
                .is_some_and(|end| end == "pdf" || end == "png")
        });
        let bytes = fs::read(folder.path().join(out.expect("it names a file"))).expect("written");
        if is_sheet {
            sheets.push_str(&Pdf::read(&bytes).text(1));
        } else {
            assert!(bytes.starts_with(b"\x89PNG"));
            pictures += 1;
        }
    }
    assert_eq!(pictures, 1);
    // What the chapter says of the roller moves stands on the setting sheet.
    for told in ["reaching", "0.0949 in", "0.0403 in", "39.00"] {
        assert!(sheets.contains(&packed(told)), "{told}: {sheets}");
        assert!(chapter().contains(told), "{told}");
    }
}

#[test]
fn a_line_that_changed_or_was_left_out_without_a_word_is_found() {
    let printed = "a  1.0\nb  2.0\nc  3.0\n";
    let lines = |lines: &[&str]| {
        lines
            .iter()
            .map(|&line| line.to_owned())
            .collect::<Vec<_>>()
    };
    for right in [
        &["a  1.0", "b  2.0"][..],
        &["b  2.0", "…", "c  3.0"],
        &["a…", "b…"],
        &[],
    ] {
        assert_eq!(first_not_printed(&lines(right), printed), None);
    }
    for (wrong, at) in [
        (&["a  1.1"][..], "a  1.1"),
        (&["a  1.0", "c  3.0"], "c  3.0"),
        (&["b  2.0", "…", "a  1.0"], "a  1.0"),
        (&["c  3.0", "d"], "d"),
        (&["a  1.0", "b  3…"], "b  3…"),
    ] {
        assert_eq!(first_not_printed(&lines(wrong), printed), Some(at));
    }
    let found = numbers("down 0.0949 in, 4.5 % ± 0.7 %, at 6°.");
    let wanted = ["0.0949", "0.7", "4.5", "6"].map(str::to_owned);
    assert_eq!(found, BTreeSet::from(wanted));
}
