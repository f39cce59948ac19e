//! The shop board: every unit of a folder as its own report has it, the sets that agree, and what cannot
//! be read beside what can.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use sweepgauge::analysis::Solved;
use sweepgauge::analysis::plate::PlateResult;
use sweepgauge::store::{
    add_entry, open_record, open_sheet, open_unit, record_beside, save_unit, units_in,
};
use sweepgauge::units::Length;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::program::{Run, program, ran};

fn demo_shop() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/example-ground")
}

fn json(arguments: &[&str]) -> Value {
    let Run { code, out, err } = ran(program().args(arguments));
    assert_eq!((code, err.as_str()), (Some(0), ""), "{arguments:?}");
    serde_json::from_str(&out).unwrap()
}

fn board(folder: &Path) -> Value {
    json(&["shop", folder.to_str().unwrap(), "--json"])
}

/// The names of the units that a level stands for, the worst last.
const LEVELS: [&str; 3] = ["fine", "watch", "over"];

#[test]
fn every_unit_stands_on_the_board_as_in_its_own_report() {
    let board = board(&demo_shop());
    let units = board["units"].as_array().unwrap();
    assert_eq!(units.len(), 6);
    assert_eq!(board["refused"], Value::Array(Vec::new()));
    for unit in units {
        let file = demo_shop().join(unit["file"].as_str().unwrap());
        let report = json(&["report", file.to_str().unwrap(), "--json"]);
        for (on_board, path) in [
            ("name", "/unit"),
            ("height_of_cut_mm", "/setting/height_of_cut_mm"),
            ("reel_diameter_mm", "/setting/reel_diameter_mm"),
            ("behind_centre_mm", "/solution/behind_centre_mm"),
            ("sweep_share", "/solution/sweep_share"),
        ] {
            assert_eq!(Some(&unit[on_board]), report.pointer(path), "{on_board}");
        }
        let findings = report["findings"].as_array().unwrap().iter();
        let place = |level: &Value| LEVELS.iter().position(|known| level == known).unwrap();
        let worst = findings.map(|finding| place(&finding["level"])).max();
        assert_eq!(unit["level"], LEVELS[worst.unwrap_or(0)], "{file:?}");
        let record = open_record(&record_beside(&file)).unwrap();
        assert!(record.damaged.is_empty(), "{record:?}");
        assert_eq!(unit["entries"], record.entries.len());
        let dates = record.entries.iter().map(|entry| entry.date.as_str());
        assert_eq!(unit["last"], dates.max().unwrap());
    }
    let names: Vec<_> = units
        .iter()
        .map(|unit| unit["file"].as_str().unwrap())
        .collect();
    assert!(names.is_sorted(), "{names:?}");
}

#[test]
fn a_set_agrees_while_its_units_are_set_alike() {
    let board = board(&demo_shop());
    let sets = board["sets"].as_array().unwrap();
    let of = |name: &str| sets.iter().find(|set| set["name"] == name).unwrap();
    let (greens, gang) = (of("walking greens"), of("trailed gang"));
    assert_eq!(
        (&greens["agrees"], &gang["agrees"]),
        (&Value::Bool(true), &Value::Bool(false))
    );
    let inch = |set: &Value, key: &str| set[key].as_f64().unwrap() / 25.4;
    // As the remarks in the demo files say: 0.125 to 0.126 in, and 0.47 to 0.5 in.
    assert!((inch(greens, "height_spread_mm") - 0.001).abs() < 1e-9);
    assert!((inch(greens, "behind_spread_mm") - 0.005).abs() < 1e-9);
    assert!((inch(gang, "height_spread_mm") - 0.03).abs() < 1e-9);
    assert_eq!(gang["units"].as_array().unwrap().len(), 3);
}

#[test]
fn what_cannot_be_read_is_told_and_stops_none_of_the_others() {
    let folder = TempDir::new().unwrap();
    let path = |name: &str| folder.path().join(name);
    fs::write(path("good.ron"), DemoUnit::GreensWalking.text()).unwrap();
    fs::write(path("broken.ron"), "(format: 1, name: 3").unwrap();
    let impossible = DemoUnit::GreensWalking
        .text()
        .replace("\"0.15 in ± 0.02 in\"", "\"3 in\"");
    fs::write(path("impossible.ron"), impossible).unwrap();
    fs::write(
        path("good.record.ron"),
        "(record:1)\n(date:\"2026-11-25\")\n(date:\"2026-1",
    )
    .unwrap();
    for passed_over in ["good.plate.ron", ".hidden.ron", "notes.txt"] {
        fs::write(path(passed_over), "no unit").unwrap();
    }
    fs::create_dir(path("folder.ron")).unwrap();
    let board = board(folder.path());
    assert_eq!(board["units"].as_array().unwrap().len(), 1);
    assert_eq!(board["units"][0]["entries"], 1);
    assert_eq!(board["units"][0]["last"], "2026-11-25");
    let refused = board["refused"].as_array().unwrap();
    let why = |file: &str| {
        let found = refused.iter().find(|refused| refused["file"] == file);
        found.unwrap_or_else(|| panic!("{file} in {refused:?}"))["why"]
            .as_str()
            .unwrap()
    };
    assert_eq!(refused.len(), 3, "{refused:?}");
    assert!(why("broken.ron").contains("field name"), "{refused:?}");
    assert!(!why("impossible.ron").is_empty());
    assert!(why("good.record.ron").contains("line 3"), "{refused:?}");
    let Run { code, out, .. } = ran(program().args(["shop", folder.path().to_str().unwrap()]));
    assert_eq!(code, Some(0));
    assert!(
        out.contains("Not read") && out.contains("broken.ron"),
        "{out}"
    );
    for wrong in [path("good.ron"), path("gone")] {
        let Run { code, out, err } = ran(program().args(["shop", wrong.to_str().unwrap()]));
        assert_eq!((code, out.as_str()), (Some(2), ""), "{err}");
    }
}

#[test]
fn a_reels_wear_is_told_by_its_record() {
    let Run { out, .. } = ran(program().args(["shop", demo_shop().to_str().unwrap()]));
    let line = |name: &str| {
        let begin = format!("  Example Ground, {name}: ");
        let found = out.lines().find(|line| line.starts_with(&begin));
        found.unwrap_or_else(|| panic!("{name} in {out}"))
    };
    // Worked by hand: about 1003.5 hours and 4.7555 in, Σxy −21.415 over Σx² 94729.
    let greens = line("walking greens, 3");
    assert!(greens.contains("wears 0.0226 in per 100 hours"), "{greens}");
    assert!(greens.contains("likely between"), "{greens}");
    assert!(
        line("trailed gang, 3").contains("too few diameters"),
        "{out}"
    );
}

#[test]
fn a_finished_sheet_fills_its_unit_and_makes_an_entry_in_its_record() {
    let sheet = open_sheet(&demo_shop().join("gang-2.plate.ron")).unwrap();
    let mut document = open_unit(&demo_shop().join("gang-2.ron")).unwrap();
    let solved = Solved::of(&document).unwrap();
    let result = PlateResult::of(&sheet, Some(&solved)).unwrap();
    let before = document.clone();
    result.fill(&mut document);
    let inch = |length: Length| (length.inches() * 1e4).round() / 1e4;
    let is = |found: Length, wanted: f64| assert!((inch(found) - wanted).abs() < 1e-9, "{found:?}");
    // By the larger of what was read and twice the fitted eccentricity, as the sheet is judged.
    is(document.wear.front_runout.as_ref().unwrap().value(), 0.0045);
    is(document.wear.rear_runout.as_ref().unwrap().value(), 0.0021);
    // Measured 0.501 in and 0.499 in.
    is(
        document.wear.end_difference.as_ref().unwrap().value(),
        0.002,
    );
    // It reads on the plate as it was measured before, and is not to be set otherwise.
    is(document.bench.reel_diameter.value(), 6.88);
    is(document.bench.height_of_cut.value(), 0.5);
    assert_eq!(document.bench, before.bench);
    let setting = &document.setting;
    assert!(setting.reel_diameter.is_none() && setting.height_of_cut.is_none());
    assert!(Solved::of(&document).is_ok());

    let entry = result.entry(
        &sheet,
        Some(&solved),
        [Some(Length::from_inches(0.012)), None],
    );
    let folder = TempDir::new().unwrap();
    let unit = folder.path().join("gang-2.ron");
    let record = add_entry(&unit, &entry).unwrap();
    let record = open_record(&record).unwrap();
    assert_eq!(record.entries, [entry]);
    let entry = &record.entries[0];
    is(entry.front_before.as_ref().unwrap().value(), 0.012);
    // 0.0034 in over 28 in, the bar's own 0.0002 in among it.
    is(entry.front_after.as_ref().unwrap().value(), 0.0036);
    assert_eq!(
        (entry.date.as_str(), entry.knife.as_str()),
        ("2026-11-25", "plain")
    );
}

#[test]
fn unit_files_are_found_in_the_order_of_their_names() {
    let files = units_in(&demo_shop()).unwrap();
    let names: Vec<_> = files.iter().map(|file| file.file_name().unwrap()).collect();
    assert_eq!(
        names,
        [
            "gang-1.ron",
            "gang-2.ron",
            "gang-3.ron",
            "greens-1.ron",
            "greens-2.ron",
            "greens-3.ron"
        ]
    );
}

#[test]
fn a_limit_that_comes_before_scrap_is_told_with_the_reel() {
    let folder = TempDir::new().unwrap();
    let text = DemoUnit::TurningBar.text();
    // A limit that the turning bar's unit is past as it stands.
    let text = text.replace(
        "    mowing:",
        "    limits: (sweep_over: \"0.5 %\"),\n    mowing:",
    );
    fs::write(folder.path().join("unit.ron"), text).unwrap();
    let Run { out, .. } = ran(program().args(["shop", folder.path().to_str().unwrap()]));
    assert!(
        out.contains("rollers untouched, sweep at its limit now"),
        "{out}"
    );
    assert!(out.contains("now (sweep)"), "{out}");
}

#[test]
fn the_board_to_read_calls_no_unit_of_example_readings_fine_and_programs_get_the_level() {
    let folder = TempDir::new().unwrap();
    let new = DemoUnit::GreensWalking.document().as_new();
    save_unit(&new, &folder.path().join("new.ron")).unwrap();
    assert_eq!(board(folder.path())["units"][0]["level"], "fine");
    let Run { out, .. } = ran(program().args(["shop", folder.path().to_str().unwrap()]));
    let row = out
        .lines()
        .find(|line| line.starts_with("New unit"))
        .unwrap();
    assert!(row.contains("watch: example readings"), "{out}");
    assert!(!row.contains("  OK"), "{out}");
}

#[test]
fn endings_in_capitals_lone_records_and_letters_of_other_codes_are_told_for_what_they_are() {
    let folder = TempDir::new().unwrap();
    let path = |name: &str| folder.path().join(name);
    fs::write(path("UP.RON"), DemoUnit::GreensWalking.text()).unwrap();
    fs::write(path("UP.record.ron"), "(record:1)\n(date:\"2026-11-25\")\n").unwrap();
    fs::write(path("latin.ron"), DemoUnit::GreensWalking.text()).unwrap();
    let latin = b"(record:1)\n(date:\"2026-11-25\")\nM\xfcller, 3 May\n";
    fs::write(path("latin.record.ron"), latin).unwrap();
    fs::write(path("headless.ron"), DemoUnit::GreensWalking.text()).unwrap();
    fs::write(path("headless.record.ron"), "(date:\"2026-11-25\")\n").unwrap();
    fs::write(path("lone.record.ron"), "(record:1)\n").unwrap();
    let board = board(folder.path());
    let files: Vec<_> = board["units"]
        .as_array()
        .unwrap()
        .iter()
        .map(|unit| &unit["file"])
        .collect();
    assert_eq!(files, ["UP.RON", "headless.ron", "latin.ron"]);
    assert_eq!(board["units"][0]["last"], "2026-11-25");
    let refused = board["refused"].as_array().unwrap();
    let why = |file: &str| {
        let found = refused.iter().find(|refused| refused["file"] == file);
        found.unwrap_or_else(|| panic!("{file} in {refused:?}"))["why"]
            .as_str()
            .unwrap()
    };
    assert_eq!(refused.len(), 3, "{refused:?}");
    assert!(why("latin.record.ron").contains("line 3: the line is not text in UTF-8"));
    assert!(
        why("headless.record.ron")
            .contains("the first line is missing; a record begins with (record: 1)")
    );
    assert!(why("lone.record.ron").contains("the unit of this record is not in the folder"));
}

#[test]
fn diameters_that_lie_on_a_line_by_chance_tell_no_hour_to_the_hour() {
    let folder = TempDir::new().unwrap();
    let demo = demo_shop().join("greens-1.ron");
    fs::copy(demo, folder.path().join("greens-1.ron")).unwrap();
    let record = "(record:1)\n(date:\"2025-01-01\",hours:\"300\",reel_diameter:Some(\"5.0 in\"))\n(date:\"2025-06-01\",hours:\"400\",reel_diameter:Some(\"4.975 in\"))\n(date:\"2026-01-01\",hours:\"500\",reel_diameter:Some(\"4.95 in\"))\n";
    fs::write(folder.path().join("greens-1.record.ron"), record).unwrap();
    let Run { code, out, err } = ran(program().args(["shop", folder.path().to_str().unwrap()]));
    assert_eq!(code, Some(0), "{err}");
    let told = out
        .split("likely between ")
        .nth(1)
        .unwrap_or_else(|| panic!("{out}"));
    let hours: Vec<f64> = told
        .split(" and ")
        .take(2)
        .map(|hours| hours.split(" h").next().unwrap().parse().unwrap())
        .collect();
    assert!(hours[1] - hours[0] > 50.0, "{hours:?} in {out}");
}

#[test]
fn the_record_sheet_has_the_numbers_of_the_board() {
    let board = board(&demo_shop());
    let out = TempDir::new().unwrap();
    for unit in board["units"].as_array().unwrap() {
        let name = unit["file"].as_str().unwrap();
        let (file, pdf) = (demo_shop().join(name), out.path().join("record.pdf"));
        let arguments = [
            "sheet",
            file.to_str().unwrap(),
            pdf.to_str().unwrap(),
            "--kind",
            "record",
        ];
        assert_eq!(ran(program().args(arguments)).code, Some(0));
        let text = Pdf::read(&fs::read(&pdf).unwrap()).text(1);
        let system = open_unit(&file).unwrap().system();
        let length = |key: &str| system.length(Length::from_mm(unit[key].as_f64().unwrap()));
        let share = 100.0 * unit["sweep_share"].as_f64().unwrap();
        let last = unit["last"].as_str().unwrap();
        for told in [
            format!("height of cut {},", length("height_of_cut_mm")),
            format!("behind centre {},", length("behind_centre_mm")),
            format!("sweep {share:.1} % of height of cut"),
            format!("reel diameter {} (", length("reel_diameter_mm")),
            format!("{} events on record, the last on {last}.", unit["entries"]),
        ] {
            assert!(text.contains(&packed(&told)), "{told} in {text}");
        }
    }
}

#[test]
fn long_notes_go_on_on_a_second_page_and_none_is_lost() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    fs::copy(demo_shop().join("greens-3.ron"), &file).unwrap();
    let jobs = (1..=9).map(|job| {
        let note = format!(
            "job {job} began. {} Job {job} ended.",
            "The bearing was stiff and was packed. ".repeat(40)
        );
        format!("(date:\"2026-0{job}-05\",what:\"reel ground\",notes:\"{note}\")\n")
    });
    let record = format!("(record:1)\n{}", jobs.collect::<String>());
    fs::write(record_beside(&file), record).unwrap();
    for page in ["a4", "letter"] {
        let pdf = folder.path().join("record.pdf");
        let arguments = ["sheet", file.to_str().unwrap(), pdf.to_str().unwrap()];
        let kind = ["--kind", "record", "--page", page];
        assert_eq!(ran(program().args(arguments).args(kind)).code, Some(0));
        let pdf = Pdf::read(&fs::read(&pdf).unwrap());
        assert!(pdf.pages() > 1, "{page}");
        let text: String = (1..=pdf.pages()).map(|page| pdf.text(page)).collect();
        for job in 1..=9 {
            for told in [format!("job {job} began."), format!("Job {job} ended.")] {
                assert!(text.contains(&packed(&told)), "{told} on {page}");
            }
        }
    }
}
