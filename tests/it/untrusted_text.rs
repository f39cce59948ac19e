//! Texts that a person did not write, from names, files and arguments: none of them steers a
//! terminal, none is a formula in a spreadsheet; and where nothing can be written only the promised
//! exit codes come back.

use std::fs;
use std::io::pipe;
use std::path::Path;
use std::process::{Output, Stdio};

use serde_json::Value;
use sweepgauge::unit::{Document, Fitted, read_knife_rows, read_text, write_text};
use sweepgauge::units::System;
use tempfile::TempDir;

use crate::common::example::EXAMPLE;
use crate::common::program::program;

/// A name that would colour, clear, ring, turn round and break lines.
const NAME: &str = "a\u{1b}[31m\u{1b}]0;b\u{7}\r\nc\u{9b}2J\u{202e}d\u{2066}e\tf\u{7f}";

fn hostile() -> Document {
    let mut document = read_text(EXAMPLE).unwrap();
    NAME.clone_into(&mut document.name);
    document.options[0].price = Some(NAME.to_owned());
    document.rename_knife(Fitted::Option(0), NAME).unwrap();
    document.fit_knife(Fitted::Option(0));
    document
}

fn saved(folder: &TempDir, document: &Document) -> std::path::PathBuf {
    let file = folder.path().join("unit.ron");
    fs::write(&file, write_text(document)).unwrap();
    file
}

/// No letter of it steers: its lines are its own, and all else is seen.
#[track_caller]
fn assert_plain(bytes: &[u8]) {
    let text = std::str::from_utf8(bytes).unwrap();
    let steers = |c: char| {
        c.is_control() && c != '\n'
            || matches!(c, '\u{200e}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    let found: Vec<_> = text.chars().filter(|c| steers(*c)).collect();
    assert!(found.is_empty(), "{found:?} in {text:?}");
}

#[test]
fn no_name_steers_the_terminal_from_a_report() {
    let folder = TempDir::new().unwrap();
    let plain = read_text(EXAMPLE).unwrap();
    for what in ["report", "knives", "why"] {
        let ran = |document: &Document| {
            let file = saved(&folder, document);
            let ran = program().arg(what).arg(file).output().unwrap();
            assert_eq!(ran.status.code(), Some(0), "{ran:?}");
            ran.stdout
        };
        let mut fitted = plain.clone();
        fitted.fit_knife(Fitted::Option(0));
        fitted.options[0].price = Some("9".to_owned());
        let (usual, hostile) = (ran(&fitted), ran(&hostile()));
        assert_plain(&hostile);
        assert!(String::from_utf8_lossy(&hostile).contains("\\u{1b}"));
        // A name makes no line of its own.
        let lines = |bytes: &[u8]| String::from_utf8_lossy(bytes).lines().count();
        assert_eq!(lines(&hostile), lines(&usual), "{what}");
    }
}

#[test]
fn json_stays_json_and_gives_the_name_back() {
    let folder = TempDir::new().unwrap();
    let file = saved(&folder, &hostile());
    for what in ["report", "why"] {
        let ran = program()
            .arg(what)
            .arg(&file)
            .arg("--json")
            .output()
            .unwrap();
        assert_plain(&ran.stdout);
        let report: Value = serde_json::from_slice(&ran.stdout).unwrap();
        assert_eq!(report["unit"].as_str(), Some(NAME), "{what}");
        assert_eq!(report["knife"].as_str(), Some(NAME), "{what}");
    }
}

#[test]
fn no_argument_and_no_file_name_steers_the_terminal_from_a_refusal() {
    let folder = TempDir::new().unwrap();
    let file = saved(&folder, &hostile());
    let no_file = "no\u{1b}[31m\u{9b}\u{202e}file.ron";
    let runs: [&[&str]; 5] = [
        &["report", no_file],
        &[
            "report",
            file.to_str().unwrap(),
            "--knife",
            NAME,
            "--gap",
            NAME,
        ],
        &["report", file.to_str().unwrap(), "--knife", "b\u{1b}[31m"],
        &["why", file.to_str().unwrap(), "--finding", NAME],
        &["\u{1b}[31mreport", "--\u{202e}"],
    ];
    for arguments in runs {
        let ran = program().args(arguments).output().unwrap();
        assert_eq!(ran.status.code(), Some(2), "{ran:?}");
        assert!(ran.stdout.is_empty());
        assert!(!ran.stderr.is_empty());
        assert_plain(&ran.stderr);
    }
    fs::write(
        &file,
        EXAMPLE.replace("turf: Fairway", "turf: \"\u{1b}[31m\u{202e}\""),
    )
    .unwrap();
    let ran = program().arg("report").arg(&file).output().unwrap();
    assert_eq!(ran.status.code(), Some(2));
    assert_plain(&ran.stderr);
}

#[test]
fn formulas_are_no_formulas_in_csv_and_every_name_comes_back() {
    let folder = TempDir::new().unwrap();
    let mut document = read_text(EXAMPLE).unwrap();
    let knife = document.options[0].clone();
    document.options.clear();
    let names = [
        "=1+1",
        "+cmd|' /C calc'!A0",
        "-2+3+cmd|' /C calc'!A0",
        "@SUM(A1)",
        "'=quoted",
        " blanks ",
        "two\nlines",
        "-5",
        "comma, and \"quotes\"",
        "\t=tab",
        "good",
        NAME,
    ];
    document.add_knives(names.iter().map(|name| {
        let mut knife = knife.clone();
        knife.name = (*name).to_owned();
        knife.price = Some((*name).to_owned());
        knife.notes = Some("=HYPERLINK(\"x\")".to_owned());
        knife
    }));
    let file = saved(&folder, &document);
    let ran = program()
        .arg("knives")
        .arg(file)
        .arg("--csv")
        .output()
        .unwrap();
    assert_eq!(ran.status.code(), Some(0), "{ran:?}");
    let text = String::from_utf8(ran.stdout).unwrap();
    let mut cells = csv::ReaderBuilder::new()
        .has_headers(true)
        .from_reader(text.as_bytes());
    for record in cells.records() {
        for cell in &record.unwrap() {
            let is_number =
                cell.starts_with(['-', '+']) && !cell.contains(['(', '!', '|', '=', '@', '+']);
            let is_formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && !is_number;
            assert!(!is_formula, "{cell:?}");
        }
    }
    let knives = read_knife_rows(&text, System::InchDecimal).unwrap();
    let back: Vec<_> = knives[1..]
        .iter()
        .map(|knife| knife.name.as_str())
        .collect();
    assert_eq!(back, names);
    for (knife, name) in knives[1..].iter().zip(names) {
        assert_eq!(knife.price.as_deref(), Some(name));
        assert_eq!(knife.notes.as_deref(), Some("=HYPERLINK(\"x\")"));
    }
}

#[test]
fn two_thousand_rows_of_one_name_are_taken_in_no_time() {
    let mut document = read_text(EXAMPLE).unwrap();
    let rows = "one,1.5,2.5,.1,.5,.2\n".repeat(4_900);
    let began = std::time::Instant::now();
    let knives = read_knife_rows(&rows, System::InchDecimal).unwrap();
    document.add_knives(knives);
    assert!(document.checked().is_ok());
    assert!(began.elapsed().as_secs_f64() < 5.0, "{:?}", began.elapsed());
    assert_eq!(document.options[4_900].name, "one 4900");
    let too_many = "one,1.5,2.5,.1,.5,.2\n".repeat(5_001);
    let problem = read_knife_rows(&too_many, System::InchDecimal).unwrap_err();
    assert!(
        problem.to_string().contains("more than 5000 rows"),
        "{problem}"
    );
    let too_large = "a".repeat(4_000_001);
    let problem = read_knife_rows(&too_large, System::InchDecimal).unwrap_err();
    assert!(
        problem.to_string().contains("the most is 4000000"),
        "{problem}"
    );
}

// Where nothing can be written.

/// A pipe whose far end is closed.
fn closed() -> Stdio {
    let (reader, writer) = pipe().unwrap();
    drop(reader);
    writer.into()
}

/// What a run ends with, its two outputs given.
fn code(arguments: &[&str], out: Stdio, err: Stdio) -> Option<i32> {
    let mut command = program();
    command
        .args(arguments)
        .stdin(Stdio::null())
        .stdout(out)
        .stderr(err);
    // Without a display, so that the window is refused.
    command.env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY");
    command.status().unwrap().code()
}

fn runs(folder: &TempDir) -> Vec<(Vec<String>, i32)> {
    let unit = folder.path().join("unit.ron");
    fs::write(&unit, EXAMPLE).unwrap();
    let run = |words: &[&str], code| (words.iter().map(|word| (*word).to_owned()).collect(), code);
    let unit = unit.to_str().unwrap();
    vec![
        run(&["report", unit], 0),
        run(&["report", unit, "--json"], 0),
        run(&["knives", unit, "--csv"], 0),
        run(&["--help"], 0),
        run(&["--version"], 0),
        run(&["report", "no such file.ron"], 2),
        run(&["report"], 2),
        run(&["no such command", "b"], 2),
        run(&["report", unit, "--gap", "wide"], 2),
        run(
            &[
                "report",
                unit,
                "--reel-diameter",
                "1 in",
                "--edge-forward",
                "9 in",
            ],
            3,
        ),
        run(&["window", unit], 4),
    ]
}

#[test]
fn with_nobody_reading_the_promised_codes_come_back() {
    let folder = TempDir::new().unwrap();
    for (arguments, promised) in runs(&folder) {
        let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
        for (out, err) in [
            (closed(), Stdio::piped()),
            (Stdio::null(), closed()),
            (closed(), closed()),
        ] {
            assert_eq!(code(&words, out, err), Some(promised), "{words:?}");
        }
    }
}

#[cfg(target_os = "linux")]
#[test]
fn with_no_room_to_print_only_promised_codes_come_back() {
    let full = || Stdio::from(fs::File::create("/dev/full").unwrap());
    let folder = TempDir::new().unwrap();
    for (arguments, promised) in runs(&folder) {
        let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
        // What was asked for could not be printed.
        let unprinted = if promised == 0 { 2 } else { promised };
        assert_eq!(
            code(&words, full(), Stdio::null()),
            Some(unprinted),
            "{words:?}"
        );
        assert_eq!(code(&words, full(), full()), Some(unprinted), "{words:?}");
        assert_eq!(
            code(&words, Stdio::null(), full()),
            Some(promised),
            "{words:?}"
        );
    }
}

#[test]
fn a_name_without_a_folder_is_written_beside_and_no_message_names_a_temporary_copy() {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("unit.ron"), EXAMPLE).unwrap();
    let ran = |out: &str| -> Output {
        let mut command = program();
        command
            .current_dir(folder.path())
            .args(["picture", "unit.ron", out]);
        command.output().unwrap()
    };
    let done = ran("picture.svg");
    assert_eq!(done.status.code(), Some(0), "{done:?}");
    assert!(Path::new(&folder.path().join("picture.svg")).exists());
    let refused = ran("no such folder/picture.svg");
    assert_eq!(refused.status.code(), Some(2));
    let said = String::from_utf8(refused.stderr).unwrap();
    assert!(said.contains("there is no folder no such folder"), "{said}");
    assert!(!said.contains(".sweepgauge-"), "{said}");
}
