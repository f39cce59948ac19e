//! What a plate sheet gives its unit, by accessible name: the bar for it, its fields, its record, its page.

use std::cell::RefCell;
use std::fs;
use std::path::Path;
use std::rc::Rc;
use std::sync::mpsc::channel;

use egui::{Key, Modifiers};
use sha2::{Digest as _, Sha256};
use sweepgauge::analysis::{NumberId, Solved};
use sweepgauge::app::{Beginning, PrintJob, Printer, Printing};
use sweepgauge::store::{open_record, record_beside};
use sweepgauge::unit::Document;
use sweepgauge::units::Quantity;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::plate_window::{
    GANG, GREENS, TALL, go_to, ground, in_plate, on, on_sheet, state,
};
use crate::common::program::{program, ran};
use crate::common::shown::{Answers, Start, Window};

#[test]
fn the_unit_is_filled_in_after_before_and_after_were_shown_and_in_one_step() {
    let reel = "left: \"6.880 in\", middle: \"6.881 in\", right: \"6.879 in\"";
    let ground = "left: \"6.870 in\", middle: \"6.871 in\", right: \"6.869 in\"";
    let (_folder, _file, mut window) = on(GANG, &[(reel, ground)]);
    let before = window.document().clone();
    window.click("Fill in the unit…");
    window.assert_says("By the sheet");
    // Read without a ±, it keeps that of the reading before it.
    window.assert_says("6.88 in ± 0.005 in");
    window.assert_says("6.87 in ± 0.005 in");
    window.assert_silent("left out");
    assert_eq!(*window.document(), before, "it is shown only");
    window.click("Fill in");
    let filled = window.document().clone();
    assert_ne!(filled, before);
    assert_eq!(filled.bench.reel_diameter.text(), "6.87 in ± 0.005 in");
    assert_eq!(filled.setting, before.setting);
    assert_eq!(
        filled.wear.front_runout.as_ref().unwrap().text(),
        // Twice the eccentricity, 4.4609 thou: more than the 4 thou read, and what the sheet judges by.
        "0.0045 in"
    );
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.document(), before);
}

#[test]
fn what_was_measured_goes_into_the_unit_with_its_plus_minus_and_differs_from_nothing() {
    let (_folder, _file, mut window) = on(
        GANG,
        &[(
            "attitude: (left: \"4 deg\", right: \"4 deg\")",
            "attitude: (left: \"4.3 deg ± 0.1 deg\", right: \"4.3 deg ± 0.1 deg\")",
        )],
    );
    let before = window.document().clone();
    let solved = Solved::of(&before).unwrap();
    window.click("Fill in the unit…");
    window.assert_says("4.3 deg ± 0.1 deg");
    window.assert_says("each keeps its own ±");
    window.click("Fill in");
    let filled = window.document().clone();
    // The setting asks for nothing of what was measured.
    assert_eq!(filled.setting, before.setting);
    assert_eq!(filled.bench.attitude.text(), "4.3 deg ± 0.1 deg");
    assert_eq!(filled.bench.height_of_cut.text(), "0.5 in ± 0.002 in");
    let off = |document: &Document| document.bench.behind_centre.half_width();
    assert_eq!(off(&filled), off(&before));
    assert!(off(&before).is_some());
    // The same unit with its attitude wanted so stands in the same pose: the old way of filling it in.
    let mut wanted = before.clone();
    wanted.setting.attitude = Quantity::parse("4.3 deg").ok();
    wanted.setting.reel_diameter = Quantity::parse("6.88 in").ok();
    let wanted = Solved::of(&wanted).unwrap();
    let anew = Solved::of(&filled).unwrap();
    for number in [
        NumberId::BehindCentre,
        NumberId::SweepBelowCut,
        NumberId::UndersideOverPlate,
    ] {
        let [old, wanted, anew] = [&solved, &wanted, &anew]
            .map(|solved| solved.solution.numbers().base(number).expect("a number"));
        assert!(
            (wanted - anew).abs() < 0.01,
            "{number:?}: {wanted} and {anew}, was {old}"
        );
    }
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.assert_silent("Differs from as measured");
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.document(), before);
}

#[test]
fn the_record_names_what_the_readings_say_and_goes_beside_no_other_unit() {
    let (folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Record");
    window.assert_says("front roller not parallel");
    // What goes into the record is shown, in the words of the page that it was read on.
    window.assert_says("no end high as far as the readings show");
    window.assert_says("Knife fitted");
    window.click("Add it to the record");
    let record = record_beside(&folder.path().join("greens-1.ron"));
    let entry = open_record(&record).unwrap().entries.pop().unwrap();
    assert!(entry.what.starts_with("front roller not parallel"));
    // Behind centre is that of the unit's own setting, which nobody measured here.
    assert_eq!(entry.behind_centre, None);
}

#[test]
fn a_unit_whose_file_changed_is_read_again() {
    let folder = ground();
    let file = folder.path().join(GREENS);
    let mut start = Start::on_file(&folder.path().join("gang-1.ron"));
    start.size = TALL;
    let mut window = start.window();
    window.drop_file(&file);
    window.assert_silent("cannot be read");
    let unit = folder.path().join("greens-1.ron");
    fs::write(&unit, "(").unwrap();
    window.settle();
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.press_with(Modifiers::COMMAND, Key::Num5);
    go_to(&mut window, "Record");
    window.assert_silent("Add it to the record");
}

#[test]
fn a_finished_sheet_adds_its_entry_to_the_units_record() {
    let (folder, _file, mut window) = on(GANG, &[("RockTest, Record]", "RockTest]")]);
    let record = record_beside(&folder.path().join("gang-2.ron"));
    let before = open_record(&record).unwrap().entries;
    assert_eq!(state(&window, "Record"), "to do");
    go_to(&mut window, "Record");
    window.click("Add it to the record");
    let after = open_record(&record).unwrap().entries;
    assert_eq!(after.len(), before.len() + 1);
    assert_eq!(after[..before.len()], before[..]);
    let entry = after.last().unwrap();
    assert_eq!(
        (entry.by.as_str(), entry.date.as_str()),
        ("B. Grinder", "2026-11-25")
    );
    assert_eq!(state(&window, "Record"), "done");
    window.assert_says("Every step is done");
}

#[test]
fn a_bar_is_recommended_and_the_list_is_the_users() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Choose the gauge bar");
    // By hand: the lip's bottom is 0.125 - 0.07·cos 6° up, 0.0554 in, 3.293 in ahead of the rear roller's
    // centre, so that a quarter inch turns the unit by about 0.1946/3.293, 3.4°.
    window.assert_says("3.36°");
    window.assert_says("None of these: 0.25 in and 0.5 in each turn the unit by more than 3.00° from its working attitude. Get a bar from 0.02 in to 0.22 in thick");
    window.assert_silent("meets the plate");
    window.enter_text("Bars in the shop", "0.25, thick");
    window.assert_says("Bars in the shop: ");
    assert_eq!(window.entry("Bars in the shop"), "0.25, thick");
    window.enter_text("Bars in the shop", "0.25, 3/16, 4 mm");
    let bars = window.app().preferences().gauge_bars.clone();
    assert_eq!(bars.unwrap(), ["0.25 in", "3/16 in", "4 mm"]);
    window.assert_says("Use the 4 mm bar.");
    // A bar that cannot be used is offered to nobody. One of another size takes the place of the one that
    // was measured, whose thickness waits.
    assert!(!window.has_button("Use 0.25 in"));
    window.click("Use 3/16 in");
    window.assert_says("measure the bar under both ends");
    window.assert_says("another bar, measured 0.250 in left and 0.250 in right");
    go_to(&mut window, "Plate and gauge bar");
    assert_eq!(window.entry("Gauge bar, right"), "3/16 in");
    assert_eq!(state(&window, "Plate and gauge bar"), "to do");
    // What was read over the other bar is to be read again over this one.
    assert_eq!(state(&window, "Front roller ends"), "again");
    window.enter_text("Gauge bar, left", "0.1874 in");
    window.enter_text("Gauge bar, right", "0.1876 in");
    assert_eq!(state(&window, "Plate and gauge bar"), "done");
    go_to(&mut window, "Choose the gauge bar");
    window.click("Use 3/16 in");
    window.assert_says("its thickness there was left as it is");
    window.click("Use 4 mm");
    window.click("Use 3/16 in");
    window.assert_says("What was measured of this bar came back.");
    go_to(&mut window, "Plate and gauge bar");
    assert_eq!(window.entry("Gauge bar, right"), "0.1876 in");
    assert_eq!(state(&window, "Plate and gauge bar"), "done");
    for _ in 0..2 {
        window.press_with(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(window.entry("Gauge bar, right"), "0.1876 in");
}

#[test]
fn the_sheet_is_printed_on_one_page_with_the_digest_of_its_file() {
    let folder = ground();
    let out = folder.path().join("plate.pdf");
    for name in [GREENS, GANG] {
        let file = folder.path().join(name);
        let answers = Answers::default();
        let mut window = on_sheet(&file, &answers);
        let text = page_of(&mut window, &answers, &out);
        // FIPS 180-4, by the sha2 crate, over the bytes of the file.
        let digest = Sha256::digest(fs::read(&file).unwrap());
        let digest = format!(
            "{:02x}{:02x}{:02x}{:02x}",
            digest[0], digest[1], digest[2], digest[3]
        );
        let digest = format!("SHA-256 {digest}. File: {name}");
        for said in [
            "Plate sheet",
            &digest,
            "Front roller",
            "Knife to reel",
            "(k = 2)",
        ] {
            assert!(text.contains(&packed(said)), "{name}: {said} in {text}");
        }
        fs::remove_file(&out).unwrap();
    }
}

/// What a desktop without a print dialog of its own was asked to print.
#[derive(Clone, Default)]
struct Press(Rc<RefCell<Vec<PrintJob>>>);

impl Printer for Press {
    fn print(&self, job: &PrintJob) -> Printing {
        self.0.borrow_mut().push(job.clone());
        channel().1
    }
}

#[test]
fn the_print_key_and_the_menu_print_the_sheet_on_the_paper_that_is_chosen() {
    let folder = ground();
    let press = Press::default();
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.beginning = Some(Beginning::with_sheet(&folder.path().join(GREENS)).unwrap());
    start.printer = Box::new(press.clone());
    let mut window = in_plate(start);
    for (is_by_key, paper) in [(true, "A4"), (false, "Letter")] {
        if is_by_key {
            window.press_with(Modifiers::COMMAND, Key::P);
        } else {
            window.click("File");
            window.click("Print or save a sheet…");
        }
        window.assert_says("Print or save the plate sheet");
        window.click(paper);
        window.wait_until_it_says("Plate sheet, as it will be on paper");
        window.click("Print…");
        let job = press.0.borrow_mut().pop().expect("asked to print");
        assert_eq!(job.page.name(), paper);
        assert!(job.title.starts_with("Plate sheet: "), "{}", job.title);
        let (wide, _) = Pdf::read(&job.pdf).size_mm(1);
        let wanted = if paper == "A4" { 210.0 } else { 215.9 };
        assert!((wide - wanted).abs() < 0.1, "{paper}: {wide}");
    }
    // With no sheet open the key prints the unit's, as anywhere.
    window.click("Close sheet");
    window.press_with(Modifiers::COMMAND, Key::P);
    window.assert_says("Setting sheet");
}

/// The lines of a page, their blanks left out.
fn page_of(window: &mut Window, answers: &Answers, out: &Path) -> String {
    answers.save(out);
    window.click("Print sheet…");
    window.wait_until_it_says("Plate sheet, as it will be on paper");
    window.click("Save PDF…");
    window.assert_says("Saved the sheet");
    let pdf = Pdf::read(&fs::read(out).unwrap());
    assert_eq!(pdf.pages(), 1);
    pdf.text(1)
}

#[test]
fn the_page_has_every_reading_as_it_was_typed_and_asks_for_no_name_twice() {
    let folder = ground();
    let file = folder.path().join(GREENS);
    let text = fs::read_to_string(&file).unwrap();
    let bar = "bar: (left: \"0.250 in\", right: \"0.2501 in\")";
    let text = text.replace("bar: (left: \"0.250 in\", right: \"0.250 in\")", bar);
    fs::write(&file, text).unwrap();
    let answers = Answers::default();
    let mut window = on_sheet(&file, &answers);
    let page = page_of(&mut window, &answers, &folder.path().join("greens.pdf"));
    for said in [
        "goes 0.009 in, stops at 0.010 in",
        "gap 0.0051 in ± 0.0002 in",
        "Right end, half a turn on",
        "thread, pitch 1.25 mm",
        "225 deg: 1.6 thou",
        "Roller bearings",
        "Rock test",
        "Right minus left, taken out of the gaps",
        "0.0001 in",
        "Date 2026-11-25",
        "By A. Fitter",
        "left 0.0045 in",
        "right 0.0095 in",
        "Done, not OK: knife to reel, watch; front roller ends, fail.",
        "Height of cut, left, middle, right not read",
    ] {
        assert!(page.contains(&packed(said)), "{said} in {page}");
    }
    assert!(!page.contains(&packed("Done by")), "{page}");
}

#[test]
fn readings_of_before_and_after_a_move_give_no_verdict_in_window_text_and_print() {
    let folder = ground();
    let file = folder.path().join(GANG);
    let text = fs::read_to_string(&file).unwrap();
    let again = "ticked: [Bearings, RockTest, Record],\n    again: [RearEnds]";
    let text = text.replace("ticked: [Bearings, RockTest, Record]", again);
    fs::write(&file, text).unwrap();
    let answers = Answers::default();
    let mut window = on_sheet(&file, &answers);
    go_to(&mut window, "Rear roller ends");
    let told = "No verdict: a roller was moved after some of these readings";
    window.assert_says(told);
    window.assert_silent("Pass: parallel within");
    let page = page_of(&mut window, &answers, &folder.path().join("gang.pdf"));
    for said in ["Front roller parallel, rear roller undecided", told] {
        assert!(page.contains(&packed(said)), "{said} in {page}");
    }
    let run = ran(program().arg("plate").arg(&file));
    assert_eq!(run.code, Some(0), "{}", run.err);
    let printed = run.out;
    assert!(printed.contains(told), "{printed}");
    let rear = printed.split("Rear roller").nth(1).unwrap();
    assert!(rear.contains(": undecided"), "{rear}");
}

#[test]
fn what_was_read_at_the_rear_waits_for_a_front_roller_that_is_not_parallel() {
    let folder = ground();
    let file = folder.path().join(GREENS);
    let answers = Answers::default();
    let mut window = on_sheet(&file, &answers);
    go_to(&mut window, "Rear roller ends");
    let told = "The front roller is not parallel: once it has been moved, read these ends again.";
    window.assert_says(told);
    let page = page_of(&mut window, &answers, &folder.path().join("greens.pdf"));
    for said in [
        "Front roller not parallel, rear roller to be read again",
        told,
    ] {
        assert!(page.contains(&packed(said)), "{said} in {page}");
    }
    go_to(&mut window, "Record");
    window.assert_says("rear roller to be read again");
}

#[test]
fn a_sheet_with_every_step_done_prints_the_marks_of_its_results() {
    let folder = ground();
    let file = folder.path().join(GANG);
    let text = fs::read_to_string(&file).unwrap();
    let text = text.replace(
        "middle: \"0.500 in ± 0.002 in\"",
        "middle: \"0.520 in ± 0.002 in\"",
    );
    fs::write(&file, text).unwrap();
    let answers = Answers::default();
    let mut window = on_sheet(&file, &answers);
    window.assert_says("Every step is done; the result of one is not OK");
    let out = folder.path().join("gang.pdf");
    let page = page_of(&mut window, &answers, &out);
    let told = "Every step is done, not OK: height of cut, not as expected.";
    assert!(page.contains(&packed(told)), "{page}");
    // The large sign is that of the whole sheet.
    let head = "Front roller parallel, rear roller parallel, but: height of cut not as expected";
    assert!(page.contains(&packed(head)), "{page}");
    assert!(
        page.contains(&packed("0.5001 in ± 0.0001 in, 0.4999 in ± 0.0001 in")),
        "{page}"
    );
    // What is saved is the page: of a sheet that is not, it says so.
    go_to(&mut window, "The job");
    window.enter_text("By", "C. Setter");
    fs::remove_file(&out).unwrap();
    page_of(&mut window, &answers, &out);
    window.assert_says("This is the page alone: the plate sheet is not saved yet");
    let run = ran(program().arg("plate").arg(&file));
    assert!(run.out.contains("done: not as expected"), "{}", run.out);
}
