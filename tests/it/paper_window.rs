//! From the window on paper and out of it: the sheet as it will be, saved; pictures saved and copied;
//! tables for a spreadsheet.

use egui::{Key, Modifiers};
use sweepgauge::analysis::Solved;
use sweepgauge::drawing::PictureView;
use sweepgauge::printing::table_to_paste;
use sweepgauge::units::System;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::shown::{Answers, Start};

fn with_shift() -> Modifiers {
    Modifiers::COMMAND | Modifiers::SHIFT
}

#[test]
fn a_sheet_is_shown_as_it_will_be_and_saved() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("sheet.pdf");
    let answers = Answers::default();
    answers.save(&out);
    let file = DemoUnit::TeesCrowned.file();
    let mut window = Start::on_file(&file).asking(&answers).window();
    window.press_with(Modifiers::COMMAND, Key::P);
    window.assert_says("Setting sheet, as it will be on paper");
    window.click("Why it marks the turf");
    window.settle();
    window.assert_says("Why it marks the turf, as it will be on paper");
    window.click("Save PDF…");
    window.assert_says("Saved the sheet");
    let offered = answers.offered();
    assert!(offered[0].ends_with("-why.pdf"), "{offered:?}");
    let text = Pdf::read(&std::fs::read(&out).unwrap()).text(1);
    assert!(text.contains("tees-crowned.ron"), "{text}");
    let name = packed(&window.document().name.clone());
    assert!(text.contains(&name), "{text}");
}

#[test]
fn a_picture_is_saved_in_the_format_its_name_ends_in() {
    let folder = TempDir::new().unwrap();
    let answers = Answers::default();
    for (name, begins) in [
        ("a.svg", "<svg".as_bytes()),
        ("a.pdf", b"%PDF"),
        ("a.png", b"\x89PNG"),
    ] {
        let out = folder.path().join(name);
        answers.save(&out);
        let mut window = Start::on_file(&DemoUnit::KnifeChoice.file())
            .asking(&answers)
            .window();
        window.click("File");
        window.click("Save picture…");
        window.click("Clear ground");
        window.click("Save picture…");
        window.assert_says("Saved the picture");
        assert!(std::fs::read(&out).unwrap().starts_with(begins), "{name}");
    }
}

#[test]
fn every_area_has_its_picture_and_its_table_to_copy() {
    let file = DemoUnit::KnifeChoice.file();
    let mut window = Start::on_file(&file).window();
    let solved = Solved::of(&DemoUnit::KnifeChoice.document()).unwrap();
    let areas = [
        (Key::Num1, PictureView::Whole, "behind centre"),
        (Key::Num2, PictureView::Map, "reaching"),
        (Key::Num3, PictureView::Budget, "sweep"),
        (Key::Num4, PictureView::Path, "Tip speed"),
    ];
    for (key, view, in_table) in areas {
        window.press_with(Modifiers::COMMAND, key);
        window.press_with(with_shift(), Key::C);
        window.assert_says(&format!("Copied the picture: {}", view.name()));
        window.click("File");
        window.click("Copy table");
        window.assert_says("Copied the table");
        let table = table_to_paste(&solved, view, System::InchDecimal).unwrap();
        assert!(table.contains(in_table), "{key:?}: {table}");
        let widths: Vec<usize> = table.lines().map(|row| row.split('\t').count()).collect();
        assert!(widths.len() > 4 && widths[0] >= 2, "{key:?}: {table}");
        assert!(
            widths.iter().all(|width| *width == widths[0]),
            "{key:?}: {table}"
        );
    }
}
