//! From the window on paper and out of it: the sheet as it will be, saved; pictures saved and copied;
//! tables for a spreadsheet.

use egui::{Key, Modifiers, OutputCommand};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::shown::{Answers, Start, Window};

/// What the window put on the clipboard in the last frames.
fn copied(window: &mut Window) -> Vec<OutputCommand> {
    window.take_copied()
}

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
    let mut window = Start::on_file(&DemoUnit::KnifeChoice.file()).window();
    let areas = [
        (Key::Num1, "behind centre"),
        (Key::Num2, "reaching"),
        (Key::Num3, "left over the soil"),
        (Key::Num4, "Tip speed"),
    ];
    for (key, in_table) in areas {
        window.press_with(Modifiers::COMMAND, key);
        copied(&mut window);
        window.press_with(with_shift(), Key::C);
        let commands = copied(&mut window);
        let images = commands.iter().filter_map(|command| match command {
            OutputCommand::CopyImage(image) => Some(image.size),
            _ => None,
        });
        assert_eq!(images.collect::<Vec<_>>(), [[1920, 1200]], "{key:?}");
        window.click("File");
        window.click("Copy table");
        let commands = copied(&mut window);
        let table = commands.iter().find_map(|command| match command {
            OutputCommand::CopyText(text) => Some(text.clone()),
            _ => None,
        });
        let table = table.unwrap_or_else(|| panic!("{key:?}: no table"));
        assert!(table.contains(in_table), "{key:?}: {table}");
        let first = table.lines().next().unwrap();
        assert!(first.split('\t').count() >= 2, "{key:?}: {first}");
    }
}
