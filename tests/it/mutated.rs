//! Unit files damaged by chance: each is taken or refused in words, and none brings the program down.
//!
//! `tests/corpus` keeps small files for every answer at every field that was met, called by both, and two
//! whole units that between them use every field. An ordinary run tries those, each against the answer
//! that is kept beside them in `answers.txt`; a million new ones, and the corpus anew:
//!
//! ```sh
//! cargo test --test it -- --ignored --nocapture a_million_damaged_files
//! cargo test --test it -- --ignored write_the_corpus_anew
//! ```

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use proptest::prelude::*;
use proptest::test_runner::{RngAlgorithm, TestRng};
use sweepgauge::analysis::{Solved, Unsolved};
use sweepgauge::unit::{Field, most, read_text, write_text};

use crate::common::demo_unit::DemoUnit;
use crate::common::example::EXAMPLE;

/// How a damaged file was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Answer {
    /// Refused, with its place and a reason.
    Refused,
    /// Taken as a unit that cannot exist.
    Impossible,
    /// Taken and solved.
    Solved,
}

/// Has a text read, and what is taken solved and written. Gives the answer, and its words without what
/// is particular to the file.
fn answered(text: &str) -> (Answer, String) {
    let document = match read_text(text) {
        Ok(document) => document,
        Err(problem) => {
            let lines = text.split('\n').count();
            assert!((1..=lines).contains(&problem.line), "{problem}");
            assert!(
                problem.column >= 1 && !problem.field.is_empty(),
                "{problem}"
            );
            assert!(
                !problem.what.is_empty() && problem.what.len() < 2_000,
                "{problem}"
            );
            return (Answer::Refused, kind_of(&problem.what));
        }
    };
    let written = write_text(&document);
    assert!(written.len() <= most::FILE_BYTES + text.len());
    let read = read_text(&written).expect("what was taken is written so that it reads");
    assert_eq!(write_text(&read), written);
    match Solved::of(&document) {
        Ok(solved) => {
            assert!(solved.solution.pose.height_of_cut.mm().is_finite());
            (Answer::Solved, "solved".to_owned())
        }
        Err(Unsolved::Impossible { why, system }) => (
            Answer::Impossible,
            kind_of(&why.sentence().shown_in(system)),
        ),
        Err(Unsolved::Flaw(flaw)) => panic!("read, and flawed: {flaw}"),
    }
}

/// What a text is answered, and at which field and place it is refused.
fn pinned(text: &str) -> (String, String) {
    if let Err(problem) = read_text(text) {
        return (
            format!("refused {}", place_of(&problem.field)),
            format!(
                "refused at {}:{}, {}",
                problem.line, problem.column, problem.field
            ),
        );
    }
    let (answer, kind) = answered(text);
    if matches!(answer, Answer::Solved) {
        ("solved".to_owned(), "solved".to_owned())
    } else {
        (format!("impossible {kind}"), "impossible".to_owned())
    }
}

/// A field's path without its place in a list; a word that is no field's is none of the file's.
fn place_of(path: &str) -> String {
    let every_field = fs::read_to_string(corpus().join("every-field.ron")).expect("a seed");
    let document = read_text(&every_field).expect("it is right");
    let within = format!("{path}.");
    let is_known = Field::at_path(path).is_some()
        || Field::all(&document).any(|field| field.to_string().starts_with(&within));
    if !is_known {
        return "a name of no field".to_owned();
    }
    let parts = path.split(|c: char| c.is_ascii_digit() || c == '.');
    let parts: Vec<_> = parts
        .filter(|part| !matches!(*part, "" | "[" | "]"))
        .collect();
    parts.join(" ")
}

/// A sentence without its numbers and what it quotes.
fn kind_of(sentence: &str) -> String {
    let quoted = sentence.split('"').step_by(2).collect::<Vec<_>>().join("…");
    let words = quoted.split_whitespace();
    let words = words.filter(|word| !word.contains(|c: char| c.is_ascii_digit()));
    words.take(8).collect::<Vec<_>>().join(" ")
}

/// The name of the file with the answers to all others.
const ANSWERS: &str = "answers.txt";
/// How the name of a damaged file begins.
const DAMAGED: &str = "damaged-";

/// The damaged files that are kept.
fn kept() -> Vec<PathBuf> {
    let entries = fs::read_dir(corpus()).expect("the corpus");
    let files = entries.map(|entry| entry.expect("an entry").path());
    let is_damaged = |file: &PathBuf| {
        let name = file.file_name().and_then(|name| name.to_str());
        name.is_some_and(|name| name.starts_with(DAMAGED))
    };
    let mut files: Vec<_> = files.filter(is_damaged).collect();
    files.sort();
    files
}

fn corpus() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus")
}

/// The whole units that all others come from.
fn seeds() -> Vec<String> {
    let whole = ["every-field.ron", "rollers-in-a-hollow.ron"].map(|name| corpus().join(name));
    let files = DemoUnit::ALL.map(DemoUnit::file).into_iter().chain(whole);
    let texts = files.map(|file| fs::read_to_string(file).expect("a seed"));
    texts.chain([EXAMPLE.to_owned()]).collect()
}

/// Texts that a file is damaged with: what numbers, units and RON stumble over.
const GRAFTS: [&str; 56] = [
    "",
    " ",
    "\n",
    "\t",
    "\0",
    "\u{feff}",
    "\u{202e}",
    "\u{9b}",
    "\u{301}",
    "\u{10ffff}",
    "\"",
    "\\",
    "\\u{",
    "\\x",
    "r#\"",
    "(",
    ")",
    "[",
    "]",
    ",",
    ":",
    "//",
    "/*",
    "*/",
    "None",
    "Some(",
    "Level",
    "Crest(\"1 mm\")",
    "Hollow(\"1 km\")",
    "true",
    "-1",
    "0",
    "1e999",
    "1e-999",
    "NaN",
    "inf",
    "\"-0 mm\"",
    "\"1e308 in\"",
    "\"99999999999999999999 mm\"",
    "\"0.0000000000001 in\"",
    "\"1/0 in\"",
    "\"½ in\"",
    "\"1' 6\\\"\"",
    "\"5 %\"",
    "\"90 deg\"",
    "\"-90 deg\"",
    "\"1 mm ± 9 m\"",
    "\"± 1 mm\"",
    "\"5 furlong\"",
    "\"1,5 mm\"",
    "\"1 rpm\"",
    "name: ",
    "format: 2",
    "options: [",
    "#![enable(implicit_some)]",
    "'",
];

/// A text with some of its bytes changed, at places where letters begin.
fn damaged(text: &str, other: &str, rng: &mut TestRng) -> String {
    let mut text = text.to_owned();
    for _ in 0..rng.random_range(1..=4) {
        let place = |text: &str, rng: &mut TestRng| {
            text.floor_char_boundary(rng.random_range(0..=text.len()))
        };
        let from = place(&text, rng);
        let near = text.floor_char_boundary((from + rng.random_range(0..24)).min(text.len()));
        match rng.random_range(0..8) {
            0 => text.truncate(from),
            1 => text.replace_range(from..near.max(from), ""),
            2 => {
                let to = place(&text, rng);
                let part = text[from.min(to)..from.max(to)].to_owned();
                text.insert_str(from, &part);
            }
            3 => {
                let start = place(other, rng);
                let end =
                    other.floor_char_boundary((start + rng.random_range(0..80)).min(other.len()));
                text.insert_str(from, &other[start..end.max(start)]);
            }
            // A whole value of a field.
            4 | 5 => {
                let graft = GRAFTS[rng.random_range(0..GRAFTS.len())];
                if let Some(value) = text[from..].find(": ").map(|at| from + at + 2) {
                    let rest = &text[value..];
                    let end = value + rest.find([',', ')', '\n']).unwrap_or(rest.len());
                    text.replace_range(value..end, graft);
                }
            }
            // Digits of a number.
            6 => {
                if let Some(at) = text[from..].find(|c: char| c.is_ascii_digit()) {
                    let digit = ["0", "9", "-1", ".", "1e9", "77"][rng.random_range(0..6)];
                    text.replace_range(from + at..=from + at, digit);
                }
            }
            _ => text.insert_str(from, GRAFTS[rng.random_range(0..GRAFTS.len())]),
        }
    }
    text
}

/// Figures of a run.
#[derive(Debug, Default)]
struct Figures {
    refused: u32,
    impossible: u32,
    solved: u32,
    panics: Vec<String>,
    longest: Duration,
}

/// Damages seeds by chance, and tells each text with its answer.
fn damage(count: u32, seed: u8, mut tell: impl FnMut(&str, &str)) -> Figures {
    let seeds = seeds();
    let mut rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32]);
    let mut figures = Figures::default();
    for _ in 0..count {
        let [one, other] = [0; 2].map(|_| rng.random_range(0..seeds.len()));
        let text = damaged(&seeds[one], &seeds[other], &mut rng);
        let begun = Instant::now();
        match catch_unwind(AssertUnwindSafe(|| answered(&text))) {
            Ok((answer, kind)) => {
                *match answer {
                    Answer::Refused => &mut figures.refused,
                    Answer::Impossible => &mut figures.impossible,
                    Answer::Solved => &mut figures.solved,
                } += 1;
                tell(&text, &kind);
            }
            Err(_) => figures.panics.push(text),
        }
        figures.longest = figures.longest.max(begun.elapsed());
    }
    figures
}

#[test]
fn every_kept_damaged_file_is_taken_or_refused_in_words() {
    let answers = fs::read_to_string(corpus().join(ANSWERS)).expect("the answers");
    let mut answers: BTreeMap<_, _> = answers
        .lines()
        .map(|line| line.split_once(": ").expect("a name and its answer"))
        .collect();
    assert!(answers.len() > 60, "{answers:#?}");
    for file in kept() {
        let text = fs::read_to_string(&file).expect("a text");
        answered(&text);
        let name = file.file_name().and_then(|name| name.to_str());
        let kept = answers.remove(name.expect("a name"));
        assert_eq!(kept, Some(&*pinned(&text).1), "{}", file.display());
    }
    assert!(answers.is_empty(), "without a file: {answers:?}");
}

#[test]
fn the_seeds_solve() {
    for seed in seeds() {
        assert_eq!(answered(&seed).0, Answer::Solved, "{seed}");
    }
}

#[test]
fn some_hundreds_of_new_damaged_files_bring_nothing_down() {
    let figures = damage(400, 1, |_, _| {});
    assert!(figures.panics.is_empty(), "{:?}", figures.panics);
    assert!(figures.refused > 100 && figures.solved > 10, "{figures:?}");
}

#[test]
#[ignore = "takes minutes"]
fn a_million_damaged_files() {
    let halves = [2, 3].map(|seed| std::thread::spawn(move || damage(500_000, seed, |_, _| {})));
    for half in halves {
        let figures = half.join().expect("a run");
        eprintln!("{figures:#?}");
        assert!(figures.panics.is_empty());
    }
}

#[test]
#[ignore = "writes into the source"]
fn write_the_corpus_anew() {
    const MOST_BYTES: usize = 2_500;
    // The smallest for every answer and its field, and for each another one that is told otherwise.
    const OF_ONE_ANSWER: usize = 2;
    let mut found = BTreeMap::<String, BTreeMap<String, String>>::new();
    let figures = damage(60_000, 4, |text, kind| {
        if text.len() > MOST_BYTES {
            return;
        }
        let words = pinned(text).0.to_lowercase();
        let words = words.split(|c: char| !c.is_ascii_alphanumeric());
        let words = words.filter(|word| !word.is_empty()).take(6);
        let name = words.collect::<Vec<_>>().join("-");
        let told = found.entry(name).or_default();
        let before = told.get(kind);
        if before.is_none_or(|before| text.len() < before.len()) {
            told.insert(kind.to_owned(), text.to_owned());
        }
    });
    assert!(figures.panics.is_empty(), "{:?}", figures.panics);
    for file in kept() {
        fs::remove_file(file).expect("it goes");
    }
    let mut answers = String::new();
    for (name, told) in found {
        let mut texts: Vec<_> = told.into_values().collect();
        texts.sort_by_key(String::len);
        for (place, text) in texts.iter().take(OF_ONE_ANSWER).enumerate() {
            let name = format!("{DAMAGED}{name}-{}.ron", place + 1);
            fs::write(corpus().join(&name), text).expect("it is written");
            writeln!(answers, "{name}: {}", pinned(text).1).expect("a text holds it");
        }
    }
    fs::write(corpus().join(ANSWERS), answers).expect("it is written");
}
