//! From the Lesson area before a room and on paper: F11 shows the lesson at the step in front, its handout is
//! made as on the command line, and a lesson told from its file lies in the area when it ends.

use std::fs;

use egui::{Key, Modifiers};
use sweepgauge::app::Beginning;
use sweepgauge::command::open_lesson;

use crate::common::demo_unit::DemoUnit;
use crate::common::lesson_window::{TALL, lessons, on};
use crate::common::pdf::{Pdf, packed};
use crate::common::program::{program, ran};
use crate::common::shown::{Answers, Start};

/// What the window says once a sheet is made.
const SHOWN: &str = "as it will be on paper";

#[test]
fn a_handout_from_the_area_is_that_of_the_command_line() {
    let folder = lessons();
    let file = folder.path().join("behind-centre.lesson.ron");
    let told = folder.path().join("told.pdf");
    let run = ran(program()
        .arg("lesson")
        .arg(&file)
        .arg("--handout")
        .arg(&told)
        .args(["--page", "letter"]));
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    let answers = Answers::default();
    let out = folder.path().join("seen.pdf");
    answers.save(&out);
    let (_, mut window) = on(&folder, "behind-centre", &answers);
    window.click("Handout…");
    window.wait_until_it_says(SHOWN);
    window.click("Letter");
    window.wait_until_it_says(SHOWN);
    window.click("Save PDF…");
    window.assert_says("Saved the sheet");
    assert!(answers.offered()[0].ends_with("-handout.pdf"));
    assert!(
        fs::read(&told).unwrap() == fs::read(&out).unwrap(),
        "one PDF"
    );
}

#[test]
fn the_print_card_offers_the_handout_first_and_the_units_sheets_beside_it() {
    let folder = lessons();
    let answers = Answers::default();
    let out = folder.path().join("out.pdf");
    answers.save(&out);
    let (_, mut window) = on(&folder, "behind-centre", &answers);
    let text = || {
        let pdf = Pdf::read(&fs::read(&out).unwrap());
        let pages = (1..=pdf.pages()).map(|page| pdf.text(page));
        pages.collect::<String>()
    };
    // With something that is in no file yet, which the paper says.
    window.enter_text("Title of the step", "Told in the yard");
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    window.click("Save PDF…");
    window.assert_says("the lesson is not saved yet");
    let handout = text();
    assert!(handout.contains(&packed("Told in the yard")), "{handout}");
    assert!(
        handout.contains(&packed("Not as saved in the file")),
        "{handout}"
    );
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    window.click("Setting sheet");
    window.wait_until_it_says(SHOWN);
    window.click("Save PDF…");
    let name = packed(&window.document().name.clone());
    assert!(text().contains(&name));
    assert!(!text().contains(&packed("Told in the yard")));
    // Where no lesson is in hand, none is offered.
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    window.assert_silent("Handout of the lesson");
}

#[test]
fn f11_shows_the_lesson_at_the_step_in_front_and_elsewhere_the_unit() {
    let folder = lessons();
    let (_, mut window) = on(&folder, "behind-centre", &Answers::default());
    window.click("Step 5: The answer");
    window.press(Key::F11);
    assert!(!window.has_button("File"));
    window.assert_says("The answer");
    window.assert_says("0.0201 in");
    window.press(Key::Escape);
    assert_eq!(window.entry("Title of the step"), "The answer");
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.press(Key::F11);
    let unit = window.document().name.clone();
    window.assert_says(&unit);
    window.assert_silent("The answer");
}

#[test]
fn a_lesson_told_from_its_file_lies_in_the_area_at_the_step_shown_last() {
    let folder = lessons();
    let file = folder.path().join("behind-centre.lesson.ron");
    let opened = open_lesson(&file).unwrap();
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.beginning = Some(Beginning::behind_lesson(&opened, &file).unwrap());
    start.size = TALL;
    start.show = Some(opened);
    let mut window = start.window();
    for _ in 0..4 {
        window.harness.key_press(Key::ArrowRight);
        window.settle();
    }
    window.assert_says("The answer");
    window.press(Key::Escape);
    window.press_with(Modifiers::COMMAND, Key::Num7);
    window.assert_says("behind-centre.lesson.ron");
    window.assert_silent("not saved");
    assert_eq!(window.entry("Title of the step"), "The answer");
    // And back before the room.
    window.press(Key::F11);
    window.assert_says("0.0201 in");
}
