//! The record of the open unit in the window: its timeline, an event added to it, a damaged one, and how
//! the reel wears.

use std::fs;
use std::path::{Path, PathBuf};

use egui::{Key, Modifiers};
use sweepgauge::store::{open_record, record_beside};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::shown::{Answers, Start, Window};

fn demo_unit(name: &str) -> PathBuf {
    let top = Path::new(env!("CARGO_MANIFEST_DIR"));
    top.join("demo-units/example-ground").join(name)
}

/// A unit with its record in a folder of its own.
fn own_unit(record: &str) -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    fs::copy(demo_unit("greens-3.ron"), &file).unwrap();
    fs::write(record_beside(&file), record).unwrap();
    (folder, file)
}

/// A window with the record of a unit in front.
fn record_of(file: &Path) -> Window {
    shown(Start::on_file(file))
}

fn shown(start: Start) -> Window {
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.click("Record of this unit");
    window.wait_until_it_says("ecord");
    for _ in 0..300 {
        if !window.says("Reading the record") {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        window.step();
    }
    window.settle();
    window
}

#[test]
fn the_record_is_a_timeline_with_before_and_after_and_tells_what_comes() {
    let mut window = record_of(&demo_unit("greens-3.ron"));
    window.assert_says("5 events, the last on 2026-11-24");
    let texts = window.texts();
    let place = |text: &str| {
        let found = texts.iter().position(|shown| shown.contains(text));
        found.unwrap_or_else(|| panic!("{text} in {texts:#?}"))
    };
    // The newest first.
    assert!(place("2026-11-24, 1207 h, reel ground, by A. Fitter") < place("2025-11-21"));
    window.assert_says("reel diameter 4.736 in before, 4.71 in after, 0.0260 in less");
    // As in the text of the board, worked by hand there.
    window.assert_says("The reel gets smaller by 0.0226 in per 100 hours, wear and grinding together (4 diameters).");
    window.assert_says("Reel at its minimum diameter (scrap): ");
    window.assert_says("Sweep at its limit: ");
    window.assert_says("Underside at its minimum clearance: ");
    window.click("date");
    window.assert_says("per 30 days, wear and grinding together (4 diameters)");
    window.assert_says("Reel at its minimum diameter (scrap): 2027-10-22");
}

#[test]
fn an_event_is_added_and_a_wrong_one_gets_its_sentence() {
    let (_folder, file) = own_unit(
        "(record:1)\n(date:\"2026-11-24\",by:\"A. Fitter\",hours:\"1207\",reel_diameter:Some(\"4.71 in\"))\n",
    );
    let before = fs::read_to_string(record_beside(&file)).unwrap();
    let mut window = record_of(&file);
    window.assert_says("1 event, on 2026-11-24");
    window.click("Add an event…");
    assert_eq!(window.entry("By"), "A. Fitter");
    window.type_over("Date", "yesterday");
    window.press(Key::Tab);
    window.assert_says("\"yesterday\" is not a date");
    window.type_over("Hours", "many");
    window.type_over("Metal off top face", "-0.01");
    window.click("Add to the record");
    window.assert_says("Not added yet: correct the marked fields.");
    window.assert_says("\"many\" is not a number of hours");
    assert_eq!(fs::read_to_string(record_beside(&file)).unwrap(), before);
    window.type_over("Date", "2026-11-25");
    window.type_over("Hours", "1260");
    window.type_over("What was done", "reel ground, \"both\" sides");
    window.type_over("Reel diameter after", "4.70");
    window.type_over("Metal off top face", "0.010");
    window.type_over("Front roller out of parallel, before", "0.004");
    window.type_over("Front roller out of parallel, after", "0.0005");
    window.type_over("Notes", "at last");
    window.click("Add to the record");
    window.wait_until_it_says("2 events, the last on 2026-11-25");
    window.assert_says("reel diameter 4.71 in before, 4.70 in after, 0.0100 in less");
    window.assert_says("front roller out of parallel 0.0040 in (right end high) before, 0.0005 in (right end high) after");
    let text = fs::read_to_string(record_beside(&file)).unwrap();
    assert!(text.starts_with(&before), "{text}");
    let record = open_record(&record_beside(&file)).unwrap();
    assert_eq!(record.entries.len(), 2);
    let added = &record.entries[1];
    assert_eq!(added.what, "reel ground, \"both\" sides");
    assert_eq!(added.top_ground.as_ref().unwrap().text(), "0.010 in");
    assert_eq!(added.notes, "at last");
}

#[test]
fn the_unit_as_it_is_set_fills_the_event_in() {
    let (_folder, file) = own_unit("");
    let mut window = record_of(&file);
    window.assert_says("No event in the record yet");
    window.click("Add an event…");
    window.click("Fill in as the unit is set now");
    assert_eq!(window.entry("Reel diameter after"), "4.71 in");
    assert_eq!(window.entry("Height of cut set"), "0.126 in");
    assert_eq!(window.entry("Knife fitted"), "greens, thin");
    window.click("Add to the record");
    window.wait_until_it_says("1 event, on ");
    let record = open_record(&record_beside(&file)).unwrap();
    let height = record.entries[0].height_of_cut.as_ref().unwrap();
    assert_eq!(height.text(), "0.126 in");
}

#[test]
fn an_event_given_up_leaves_no_trace() {
    let (_folder, file) = own_unit("(record:1)\n");
    let mut window = record_of(&file);
    for is_key in [false, true] {
        window.click("Add an event…");
        window.type_over("Notes", "no");
        if is_key {
            window.press(Key::Escape);
        } else {
            window.click("Cancel");
        }
        window.assert_silent("Add an event to the record");
    }
    assert_eq!(
        fs::read_to_string(record_beside(&file)).unwrap(),
        "(record:1)\n"
    );
}

#[test]
fn a_damaged_record_shows_what_is_whole_and_one_that_is_none_says_so() {
    let (_folder, file) =
        own_unit("(record:1)\n(date:\"2026-11-24\",what:\"whole\")\n(date:\"2026-1");
    let window = record_of(&file);
    window.assert_says("2026-11-24, whole");
    window.assert_says("1 line is damaged and left out, the others are read; line 3");
    let (_folder, file) = own_unit("no record at all");
    let window = record_of(&file);
    window.assert_says("The record cannot be read");
    window.assert_says("The file is left as it is.");
}

#[test]
fn what_is_added_elsewhere_shows_by_itself_and_another_unit_has_its_own_record() {
    let (folder, file) = own_unit("(record:1)\n(date:\"2026-11-24\",what:\"first\")\n");
    let mut window = record_of(&file);
    window.assert_says("first");
    let more =
        "(record:1)\n(date:\"2026-11-24\",what:\"first\")\n(date:\"2026-11-25\",what:\"second\")\n";
    fs::write(record_beside(&file), more).unwrap();
    window.wait_until_it_says("2026-11-25, second");
    let other = folder.path().join("other.ron");
    fs::copy(demo_unit("greens-1.ron"), &other).unwrap();
    window.drop_file(&other);
    window.wait_until_it_says("No event in the record yet");
    window.assert_silent("second");
}

#[test]
fn a_unit_in_no_file_is_to_be_saved_first() {
    let mut window = Start::on(DemoUnit::FairwayTrailed.document()).window();
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.click("Record of this unit");
    window.assert_says("Save the unit first");
    assert!(!window.has_button("Add an event…"));
}

#[test]
fn the_record_is_saved_as_one_page_with_what_the_window_tells() {
    let folder = TempDir::new().unwrap();
    let answers = Answers::default();
    let start = Start::on_file(&demo_unit("greens-3.ron")).asking(&answers);
    let mut window = shown(start);
    for (paper, size_mm) in [("A4", (210.0, 297.0)), ("Letter", (215.9, 279.4))] {
        let out = folder.path().join(format!("{paper}.pdf"));
        answers.save(&out);
        window.click("Print or save the record…");
        window.click(paper);
        window.wait_until_it_says("Record, as it will be on paper");
        window.click("Save PDF…");
        window.assert_says("Saved the sheet");
        let pdf = Pdf::read(&fs::read(&out).unwrap());
        assert_eq!(pdf.pages(), 1);
        let (wide, high) = pdf.size_mm(1);
        assert!((wide - size_mm.0).abs() < 0.1 && (high - size_mm.1).abs() < 0.1);
        let text = pdf.text(1);
        for told in [
            "greens-3.ron",
            "2026-11-24, 1207 h, reel ground, by A. Fitter",
            "reel diameter 4.736 in before, 4.71 in after, 0.0260 in less",
            "The reel gets smaller by 0.0226 in per 100 hours, wear and grinding together (4 diameters).",
            "Next due: 2027-10-22, 1581 h, reel at its minimum diameter (scrap).",
        ] {
            assert!(text.contains(&packed(told)), "{told} in {text}");
        }
    }
    let offered = answers.offered();
    assert!(offered[0].ends_with("-record.pdf"), "{offered:?}");
}

#[test]
fn a_long_record_still_takes_one_page_and_says_what_it_leaves_out() {
    let lines = (0..60).map(|step| {
        let (month, day) = (1 + step / 28, 1 + step % 28);
        let hours = 800 + 10 * step;
        format!("(date:\"2026-{month:02}-{day:02}\",hours:\"{hours}\",what:\"reel ground\",reel_diameter:Some(\"{} mm\"),notes:\"job {step}\")\n", 125.0 - 0.01 * f64::from(step))
    });
    let (folder, file) = own_unit(&format!("(record:1)\n{}", lines.collect::<String>()));
    let answers = Answers::default();
    let out = folder.path().join("long.pdf");
    answers.save(&out);
    let mut window = shown(Start::on_file(&file).asking(&answers));
    window.assert_says("60 events");
    window.click("Print or save the record…");
    window.wait_until_it_says("Record, as it will be on paper");
    window.click("Save PDF…");
    let pdf = Pdf::read(&fs::read(&out).unwrap());
    assert_eq!(pdf.pages(), 1);
    let text = pdf.text(1);
    assert!(
        text.contains(&packed("job 59")) && !text.contains(&packed("job 3.")),
        "{text}"
    );
    assert!(
        text.contains(&packed("older ones, in the record's file.")),
        "{text}"
    );
}

#[test]
fn a_copy_with_a_record_of_its_own_is_told_no_rate_of_the_first() {
    let record = fs::read_to_string(record_beside(&demo_unit("greens-3.ron"))).unwrap();
    let (folder, file) = own_unit(&record);
    let answers = Answers::default();
    let mut window = shown(Start::on_file(&file).asking(&answers));
    window.assert_says("The reel gets smaller by 0.0226 in per 100 hours");
    answers.save(&folder.path().join("copy.ron"));
    window.press_with(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::S);
    window.wait_until_it_says("No event in the record yet");
    window.assert_says("No rate of wear");
    window.assert_silent("The reel gets smaller");
}

#[test]
fn a_record_that_grew_while_another_unit_was_in_front_is_shown_as_it_is() {
    let (_folder, file) = own_unit("(record:1)\n(date:\"2026-11-24\",what:\"first\")\n");
    let mut window = record_of(&file);
    window.assert_says("2026-11-24, first");
    window.press_with(Modifiers::COMMAND, Key::N);
    window.assert_says("Save the unit first");
    let more =
        "(record:1)\n(date:\"2026-11-24\",what:\"first\")\n(date:\"2026-11-25\",what:\"second\")\n";
    fs::write(record_beside(&file), more).unwrap();
    window.drop_file(&file);
    window.wait_until_it_says("2 events");
    window.assert_says("2026-11-25, second");
}

#[test]
fn what_was_typed_when_escape_put_the_card_away_stands_on_it_again_until_it_is_given_up() {
    let (_folder, file) = own_unit("(record:1)\n");
    let mut window = record_of(&file);
    window.click("Add an event…");
    window.type_over("What was done", "reel ground");
    window.type_over("Hours", "1260");
    window.press(Key::Escape);
    window.assert_silent("Add an event to the record");
    window.click("Add an event…");
    assert_eq!(window.entry("What was done"), "reel ground");
    assert_eq!(window.entry("Hours"), "1260");
    window.click("Cancel");
    window.click("Add an event…");
    assert_eq!(window.entry("What was done"), "");
    window.type_over("What was done", "lapped");
    window.press(Key::Escape);
    window.click("Add an event…");
    window.click("Add to the record");
    window.wait_until_it_says("1 event, on");
    window.click("Add an event…");
    assert_eq!(window.entry("What was done"), "");
}

#[test]
fn what_is_odd_is_asked_about_before_it_is_kept() {
    let record = fs::read_to_string(record_beside(&demo_unit("greens-3.ron"))).unwrap();
    let (_folder, file) = own_unit(&record);
    let kept = || fs::read_to_string(record_beside(&file)).unwrap();
    let mut window = record_of(&file);
    window.click("Add an event…");
    window.type_over("Date", "2026-11-25");
    window.type_over("Hours", "1200");
    window.type_over("Reel diameter after", "4.505");
    window.click("Add to the record");
    window.assert_says("1200 h are fewer than the 1207 h on record of 2026-11-24.");
    window.assert_says("4.505 in is under the reel's minimum diameter (scrap), 4.625 in.");
    window.assert_says("Is what is marked right?");
    assert_eq!(kept(), record);
    // Enter is no answer to that: the button is.
    window.press(Key::Enter);
    window.assert_says("Is what is marked right?");
    assert_eq!(kept(), record);
    // What was corrected is looked at again.
    window.type_over("Hours", "1215");
    assert!(window.has_button("Add to the record"));
    window.click("Add to the record");
    window.assert_silent("are fewer than");
    window.click("It is right: add it");
    window.wait_until_it_says("6 events, the last on 2026-11-25");
    assert!(kept().starts_with(&record));
}

#[test]
fn a_slip_is_corrected_by_an_event_of_its_date_and_no_new_reel_begins() {
    let record = fs::read_to_string(record_beside(&demo_unit("greens-3.ron"))).unwrap();
    // 4.71 in was meant.
    let slip = record.replace("4.71 in", "4.91 in");
    let (_folder, file) = own_unit(&slip);
    let mut window = record_of(&file);
    window.assert_says("No rate of wear");
    window.click("Correct: 2026-11-24, 1207 h, reel ground, by A. Fitter");
    window.assert_says("no new reel begins with it");
    window.assert_says("unit.record.ron with a text editor");
    assert_eq!(window.entry("Date"), "2026-11-24");
    assert_eq!(window.entry("What was done"), "correction: reel ground");
    assert_eq!(window.entry("Reel diameter after"), "4.91 in");
    // The field has the keys, with all of it in hand.
    window.type_text("4.71");
    window.press(Key::Enter);
    window.wait_until_it_says("6 events, the last on 2026-11-24");
    window.assert_says(
        "reel diameter 4.91 in (not counted: 4.71 in was written down after it for the same day)",
    );
    window.assert_says("reel diameter 4.736 in before, 4.71 in after, 0.0260 in less");
    // As without the slip.
    window.assert_says("The reel gets smaller by 0.0226 in per 100 hours, wear and grinding together (4 diameters).");
    let text = fs::read_to_string(record_beside(&file)).unwrap();
    assert!(text.starts_with(&slip), "{text}");
}

#[test]
fn an_event_is_typed_by_keys_alone() {
    let (_folder, file) = own_unit("(record:1)\n");
    let mut window = record_of(&file);
    window.click("Add an event…");
    window.type_text("1260");
    window.press(Key::Tab);
    window.type_text("knife ground");
    // What stands in a field is in hand as it is come to, and typed over.
    window.press_with(Modifiers::SHIFT, Key::Tab);
    window.press(Key::Tab);
    window.type_text("washed");
    window.press_with(Modifiers::SHIFT, Key::Tab);
    window.press_with(Modifiers::SHIFT, Key::Tab);
    window.press_with(Modifiers::SHIFT, Key::Tab);
    window.type_text("soon");
    window.press(Key::Enter);
    window.assert_says("\"soon\" is not a date");
    // The field that is wrong has the keys.
    window.type_text("2026-11-25");
    window.press(Key::Enter);
    window.wait_until_it_says("1 event, on 2026-11-25");
    let record = open_record(&record_beside(&file)).unwrap();
    let [entry] = &record.entries[..] else {
        panic!("{record:?}");
    };
    assert_eq!(
        (entry.hours.as_str(), entry.what.as_str()),
        ("1260", "washed")
    );
    window.click("Add an event…");
    window.type_over("Reel diameter after", "40000");
    window.click("Add to the record");
    window.assert_says("the most is 10 m (about 33 ft)");
}
