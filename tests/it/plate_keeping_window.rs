//! A plate sheet as a file and over the death of its window, by accessible name: nothing that was typed is
//! lost, and nobody else's work either.

use std::fs;
use std::path::Path;

use egui::{Event, Key, Modifiers};
use sweepgauge::app::Beginning;
use sweepgauge::plate::{Step, Worksheet};
use sweepgauge::store::recovery::left_behind;
use sweepgauge::store::{open_sheet, open_unit};

use crate::common::demo_unit::DemoUnit;
use crate::common::plate_window::{
    GREENS, TALL, after, go_to, ground, in_plate, keeping_in, keys_are_at, on, on_kept, on_sheet,
    recovery_in, save, state,
};
use crate::common::shown::{Answers, Start};

#[test]
fn a_new_sheet_is_filled_in_and_saved_beside_its_unit() {
    let folder = ground();
    let unit = folder.path().join("greens-2.ron");
    let file = folder.path().join("greens-2.plate.ron");
    let answers = Answers::default();
    answers.save(&file);
    let mut window = in_plate(Start::on_file(&unit).asking(&answers));
    window.click("New sheet for this unit");
    window.assert_says("New sheet");
    assert_eq!(keys_are_at(&window), "Cutting width");
    // Without its width no sheet can be opened again, and none is written.
    save(&mut window);
    window.assert_says("Not saved. Cutting width");
    assert!(!file.exists());
    window.enter_text("Cutting width", "21");
    go_to(&mut window, "Plate and gauge bar");
    window.enter_text("Gauge bar, left", "0.25");
    window.assert_says("counts together with");
    window.enter_text("Gauge bar, right", "1/4 in");
    window.assert_silent("counts together with");
    assert_eq!(state(&window, "Plate and gauge bar"), "done");
    window.assert_says("not saved");
    save(&mut window);
    let sheet = open_sheet(&file).expect("it was saved");
    assert_eq!(
        (sheet.unit.as_str(), sheet.cut_width.text()),
        ("greens-2.ron", "21 in")
    );
    let bar = sheet.bar.expect("a bar");
    assert_eq!((bar.left.text(), bar.right.text()), ("0.25 in", "1/4 in"));
    assert!(sheet.date.starts_with("20"), "{}", sheet.date);
    window.assert_silent("not saved");
}

#[test]
fn a_sheet_that_is_not_saved_is_asked_about_before_the_window_closes() {
    let (_folder, file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Plate and gauge bar");
    window.enter_text("Gauge bar, left", "0.26");
    assert!(!window.would_close());
    window.assert_says("Unsaved plate sheet");
    window.click("Keep editing");
    assert_eq!(window.entry("Gauge bar, left"), "0.26 in");
    assert!(!window.would_close());
    window.button("Save").click();
    assert!(window.has_closed());
    assert_eq!(
        open_sheet(&file).unwrap().bar.unwrap().left.text(),
        "0.26 in"
    );
}

#[test]
fn a_new_sheet_is_no_work_to_lose_until_something_is_entered() {
    let folder = ground();
    let recovery = folder.path().join("recovery");
    let unit = folder.path().join("new-unit.ron");
    let answers = Answers::default();
    answers.save(&unit);
    let begin = || {
        let start = Start::on(DemoUnit::FairwayTrailed.document());
        let mut window = start.asking(&answers).keeping_in(&recovery).window();
        window.press_with(Modifiers::COMMAND, Key::Num5);
        window
    };
    let mut window = begin();
    window.click("New sheet for this unit");
    // The unit's name comes into it by itself once the unit has a file.
    window.press_with(Modifiers::COMMAND, Key::Num1);
    save(&mut window);
    assert!(unit.exists());
    window.press_with(Modifiers::COMMAND, Key::Num5);
    window.assert_says("New sheet");
    window.assert_silent(", not saved");
    drop(window);
    assert!(left_behind(&recovery).works.is_empty());

    let mut window = begin();
    window.click("New sheet for this unit");
    assert!(window.would_close());
    drop(window);

    let mut window = begin();
    window.click("New sheet for this unit");
    window.enter_text("Cutting width", "21");
    assert!(!window.would_close());
    window.assert_says("Unsaved plate sheet");
    window.click("Keep editing");
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert!(window.would_close());
    window.press_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    drop(window);
    assert_eq!(left_behind(&recovery).works.len(), 1);
}

#[test]
fn what_was_typed_into_a_sheet_outlives_its_window() {
    let (folder, file, mut first) = on_kept();
    go_to(&mut first, "Plate and gauge bar");
    first.enter_text("Gauge bar, left", "0.26");
    first.enter_text("Plate flat within", "flat");
    drop(first);

    let mut second = after(&folder);
    second.assert_says("Work was not saved");
    second.assert_says("Gauge bar, left");
    second.click("Recover");
    go_to(&mut second, "Plate and gauge bar");
    assert_eq!(second.entry("Gauge bar, left"), "0.26 in");
    assert_eq!(second.entry("Plate flat within"), "flat");
    second.enter_text("Plate flat within", "0.0002 in");
    save(&mut second);
    assert_eq!(
        open_sheet(&file).unwrap().bar.unwrap().left.text(),
        "0.26 in"
    );
    drop(second);
    assert!(left_behind(&recovery_in(&folder)).works.is_empty());
}

#[test]
fn a_sheet_changed_by_something_else_is_asked_about_before_it_is_saved_over() {
    let (_folder, file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Plate and gauge bar");
    window.enter_text("Gauge bar, left", "0.26");
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, text.replace("A. Fitter", "C. Other")).unwrap();
    save(&mut window);
    window.assert_says("Changed outside");
    assert_eq!(open_sheet(&file).unwrap().by, "C. Other");
    window.click("Save mine over it");
    let sheet: Worksheet = open_sheet(&file).unwrap();
    assert_eq!(
        (sheet.by.as_str(), sheet.bar.unwrap().left.text()),
        ("A. Fitter", "0.26 in")
    );
}

#[test]
fn a_path_typed_to_save_a_sheet_to_goes_over_no_change_from_outside_unasked() {
    let folder = ground();
    let file = folder.path().join(GREENS);
    // The desktop has no file dialog.
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.beginning = Some(Beginning::with_sheet(&file).expect("a right sheet"));
    let mut window = in_plate(start);
    go_to(&mut window, "Plate and gauge bar");
    window.enter_text("Gauge bar, left", "0.26");
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, text.replace("A. Fitter", "C. Other")).unwrap();
    window.click("File");
    window.click("Save to a path…");
    window.assert_says("Save the plate sheet to a path");
    window.click("Save here");
    window.assert_says("Changed outside");
    assert_eq!(open_sheet(&file).unwrap().by, "C. Other");
}

#[test]
fn a_sheet_to_open_that_is_refused_leaves_the_one_that_is_open() {
    let (folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Plate and gauge bar");
    window.enter_text("Gauge bar, left", "0.26");
    let wrong = folder.path().join("wrong.plate.ron");
    fs::write(&wrong, "(plate_sheet: 1").unwrap();
    window.drop_file(&wrong);
    window.assert_says("Unsaved plate sheet");
    window.click("Discard changes");
    window.assert_says("Not opened");
    assert_eq!(window.entry("Gauge bar, left"), "0.26 in");
}

#[test]
fn half_a_reading_hinders_no_save_and_is_not_lost_by_it() {
    let (folder, file, mut first) = on_kept();
    go_to(&mut first, "Knife to reel");
    first.enter_text("Knife to reel, leaf that stops, middle", "");
    first.enter_text("Knife to reel, leaf that goes, middle", "0.001");
    go_to(&mut first, "Roller bearings");
    let ticked = open_sheet(&file).unwrap().ticked.contains(&Step::Bearings);
    first.click("No play in any bearing");
    save(&mut first);
    first.assert_says("Saved without what is not complete yet");
    let sheet = open_sheet(&file).unwrap();
    assert_ne!(sheet.ticked.contains(&Step::Bearings), ticked);
    assert!(!first.would_close());
    first.assert_says("left out of the file: Knife to reel, leaf that goes, middle");
    first.button("Keep for the next start").click();
    assert!(first.has_closed());
    drop(first);

    let mut second = after(&folder);
    second.assert_says("Work was not saved");
    second.assert_says("Knife to reel, leaf that goes, middle");
    second.click("Recover");
    go_to(&mut second, "Knife to reel");
    assert_eq!(
        second.entry("Knife to reel, leaf that goes, middle"),
        "0.001 in"
    );
    second.enter_text("Knife to reel, leaf that stops, middle", "0.002");
    save(&mut second);
    let knife = open_sheet(&file).unwrap().knife_to_reel.unwrap();
    assert_eq!(knife.middle.unwrap().goes.text(), "0.001 in");
}

#[test]
fn a_sheet_given_up_stays_where_the_window_stays_open_after_all() {
    let (folder, _file, mut window) = on_kept();
    go_to(&mut window, "Plate and gauge bar");
    window.enter_text("Gauge bar, left", "0.26");
    window.press_with(Modifiers::COMMAND, Key::K);
    for answer in ["Keep editing", "Discard changes"] {
        assert!(!window.would_close());
        window.assert_says("Unsaved plate sheet");
        window.click("Discard changes");
        window.assert_says("Unsaved lesson");
        if answer == "Discard changes" {
            window.button(answer).click();
            assert!(window.has_closed());
            continue;
        }
        window.click(answer);
        window.press_with(Modifiers::COMMAND, Key::Num5);
        assert_eq!(window.entry("Gauge bar, left"), "0.26 in");
    }
    drop(window);
    let next = after(&folder);
    next.assert_silent("Work was not saved");
}

#[test]
fn a_tick_alone_is_listed_among_what_a_dead_window_left() {
    let (folder, _file, mut first) = on_kept();
    go_to(&mut first, "Roller bearings");
    first.click("No play in any bearing");
    drop(first);
    let second = after(&folder);
    second.assert_says("Steps ticked");
    second.assert_silent("It is the same as the file now");
}

#[test]
fn a_sheet_begun_for_a_unit_in_no_file_names_it_once_it_is_saved() {
    let folder = ground();
    let unit = folder.path().join("new-unit.ron");
    let file = folder.path().join("new-unit.plate.ron");
    let answers = Answers::default();
    let start = Start::on(DemoUnit::FairwayTrailed.document());
    let mut window = in_plate(start.asking(&answers));
    window.click("New sheet for this unit");
    window.enter_text("Cutting width", "21");
    answers.save(&file);
    save(&mut window);
    assert_eq!(open_sheet(&file).unwrap().unit, "");
    answers.save(&unit);
    window.press_with(Modifiers::COMMAND, Key::Num1);
    save(&mut window);
    assert!(unit.exists());
    window.press_with(Modifiers::COMMAND, Key::Num5);
    save(&mut window);
    assert_eq!(open_sheet(&file).unwrap().unit, "new-unit.ron");
}

#[test]
fn a_sheet_dropped_on_the_window_takes_no_unit_away() {
    let folder = ground();
    let unit = folder.path().join("gang-1.ron");
    let mut start = Start::on_file(&unit);
    start.size = TALL;
    let mut window = start.window();
    window.enter_text("Attitude, as measured", "4.2");
    let typed = window.document().clone();
    window.drop_file(&folder.path().join(GREENS));
    window.assert_says("greens-1.plate.ron");
    window.assert_says("This sheet is for another unit than the one in front");
    assert_eq!(*window.document(), typed);
    // What was typed into the unit is asked about before the sheet's own takes its place.
    window.click("Bring its unit to the front");
    window.assert_says("Unsaved changes");
    window.click("Discard changes");
    let own = open_unit(&folder.path().join("greens-1.ron")).unwrap();
    assert_eq!(*window.document(), own);
}

/// Writes another name into a sheet, as somebody else would.
fn write_otherwise(file: &Path) {
    let text = fs::read_to_string(file).unwrap();
    fs::write(file, text.replace("A. Fitter", "C. Other")).unwrap();
}

#[test]
fn save_as_onto_its_own_file_goes_over_no_change_from_outside_unasked() {
    let folder = ground();
    let file = folder.path().join(GREENS);
    let answers = Answers::default();
    answers.save(&file);
    let mut window = on_sheet(&file, &answers);
    go_to(&mut window, "Plate and gauge bar");
    window.enter_text("Gauge bar, left", "0.26");
    write_otherwise(&file);
    window.click("Save sheet as…");
    window.assert_says("Changed outside");
    assert_eq!(open_sheet(&file).unwrap().by, "C. Other");
    window.click("Cancel");
    window.assert_says("not saved");
    let elsewhere = folder.path().join("mine.plate.ron");
    window.click("Save sheet");
    window.assert_says("Changed outside");
    answers.save(&elsewhere);
    window.click("Save as…");
    assert_eq!(open_sheet(&file).unwrap().by, "C. Other");
    assert_eq!(open_sheet(&elsewhere).unwrap().by, "A. Fitter");
}

#[test]
fn a_sheet_changed_or_removed_by_something_else_is_found_while_it_is_open() {
    for (answer, by) in [("Reload", "C. Other"), ("Keep mine", "A. Fitter")] {
        let (_folder, file, mut window) = on_kept();
        go_to(&mut window, "The job");
        write_otherwise(&file);
        window.harness.event(Event::WindowFocused(true));
        window.wait_until_it_says("Changed outside");
        // A click beside it is no answer.
        window.drag(egui::pos2(6.0, 1700.0), egui::Vec2::ZERO);
        window.assert_says("Changed outside");
        window.click(answer);
        go_to(&mut window, "The job");
        assert_eq!(window.entry("By"), by);
        assert_eq!(window.says(", not saved"), answer == "Keep mine");
        assert_eq!(
            open_sheet(&file).unwrap().by,
            "C. Other",
            "only a save writes"
        );
        save(&mut window);
        window.assert_silent("Changed outside");
        assert_eq!(open_sheet(&file).unwrap().by, by);
        fs::remove_file(&file).unwrap();
        window.harness.event(Event::WindowFocused(true));
        window.wait_until_it_says("The file is gone");
        assert!(!window.has_button("Reload"));
        window.click("Keep mine");
        assert!(!window.would_close());
        window.assert_says("Unsaved plate sheet");
        window.button("Save").click();
        assert!(window.has_closed());
        assert_eq!(open_sheet(&file).unwrap().by, by);
    }
}

#[test]
fn a_recovered_sheet_finds_its_recovered_unit_though_no_file_holds_either() {
    let folder = ground();
    let mut window = in_plate(keeping_in(&folder));
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.enter_text("Height of cut", "0.4 in");
    window.press_with(Modifiers::COMMAND, Key::Num5);
    window.click("New sheet for this unit");
    window.enter_text("Cutting width", "30");
    drop(window);
    let mut window = after(&folder);
    for _ in 0..2 {
        window.assert_says("Work was not saved");
        window.click("Recover");
    }
    window.press_with(Modifiers::COMMAND, Key::Num5);
    window.assert_silent("names no unit");
    go_to(&mut window, "The job");
    window.assert_says("fairway: rules of thumb");
    // Saved one after the other, the sheet names the unit.
    let (unit, file) = (
        folder.path().join("mine.ron"),
        folder.path().join("mine.plate.ron"),
    );
    drop(window);
    let answers = Answers::default();
    let mut start = keeping_in(&folder).asking(&answers);
    start.size = TALL;
    let mut window = start.window();
    for _ in 0..2 {
        window.click("Recover");
    }
    answers.save(&unit);
    window.press_with(Modifiers::COMMAND, Key::Num1);
    save(&mut window);
    answers.save(&file);
    window.press_with(Modifiers::COMMAND, Key::Num5);
    save(&mut window);
    assert_eq!(open_sheet(&file).unwrap().unit, "mine.ron");
}

#[test]
fn a_sheet_whose_unit_is_lost_says_so_and_can_be_given_to_the_one_in_front() {
    let folder = ground();
    let mut window = in_plate(keeping_in(&folder));
    // A demo unit that nobody changed is no work to lose, and is not there at the next start.
    window.click("New sheet for this unit");
    window.enter_text("Cutting width", "21");
    drop(window);
    let mut start = Start::on_file(&folder.path().join("greens-1.ron"));
    start = start.keeping_in(&recovery_in(&folder));
    start.size = TALL;
    let mut window = start.window();
    window.click("Recover");
    window.assert_says("This sheet names no unit that is known here");
    window.click("It is for the unit in front");
    window.assert_silent("names no unit");
    go_to(&mut window, "The job");
    window.assert_says("green: rules of thumb");
}

#[test]
fn sheets_are_among_the_recent_files_and_beside_their_unit() {
    let folder = ground();
    let file = folder.path().join(GREENS);
    let other = folder.path().join("greens-1-spring.plate.ron");
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&other, text.replace("2026-11-25", "2026-04-02")).unwrap();
    let mut window = in_plate(Start::on_file(&folder.path().join("greens-1.ron")));
    window.wait_until_it_says("Sheets of this unit");
    // The newest first, and none of another unit.
    let told = [
        "greens-1.plate.ron, 2026-11-25, A. Fitter",
        "greens-1-spring.plate.ron, 2026-04-02, A. Fitter",
    ];
    assert!(window.button(told[0]).rect().top() < window.button(told[1]).rect().top());
    window.assert_silent("gang-2.plate.ron, ");
    window.click(told[1]);
    window.assert_says("greens-1-spring.plate.ron, Example Ground");
    window.click("Sheets of this unit");
    window.click(told[0]);
    window.assert_says("greens-1.plate.ron, Example Ground");
    let recent = &window.app().preferences().recent;
    assert_eq!(recent[..2], [file.clone(), other.clone()]);
    let unit = folder.path().join("greens-1.ron");
    assert_eq!(window.app().preferences().last_open.as_ref(), Some(&unit));
    // From the list of the menu it comes back beside the unit.
    window.click("Close sheet");
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.click("File");
    window.click("Recent");
    window.click(&format!("{GREENS}, in {}", folder.path().display()));
    window.assert_says("greens-1.plate.ron, Example Ground");
}

#[test]
fn a_new_sheet_takes_what_belongs_to_the_unit_from_its_last_one_and_a_name_that_is_free() {
    let folder = ground();
    let answers = Answers::default();
    let unit = folder.path().join("greens-1.ron");
    let mut window = in_plate(Start::on_file(&unit).asking(&answers));
    window.click("New sheet for this unit");
    window.assert_says("Taken from the unit's last sheet, greens-1.plate.ron: Cutting width, ");
    window.assert_silent("not saved");
    // The width is known, and who does the work is not.
    window.assert_says("Write the unit's cutting width, and who does the work on which day.");
    assert_eq!(keys_are_at(&window), "By");
    assert_eq!(window.entry("Cutting width"), "21 in");
    go_to(&mut window, "Front roller adjuster");
    assert_eq!(window.entry("Front roller, between the adjusters"), "26 in");
    assert_eq!(
        window.entry("Front roller, throw of the eccentric"),
        "1/16 in"
    );
    assert_eq!(window.entry("Front roller, eccentric stands at"), "");
    go_to(&mut window, "Rear roller adjuster");
    assert_eq!(window.entry("Rear roller, pitch of the thread"), "1.25 mm");
    // No file has the name that is offered.
    save(&mut window);
    let offered = answers.offered();
    let offered = offered.last().expect("it asks where to save");
    let name = Path::new(offered).file_name().unwrap().to_string_lossy();
    assert!(
        name.starts_with("greens-1 20") && name.ends_with(".plate.ron"),
        "{name}"
    );
    window.press_with(Modifiers::COMMAND, Key::Z);
    go_to(&mut window, "The job");
    assert_eq!(window.entry("Cutting width"), "");
}

#[test]
fn what_was_entered_another_way_is_asked_about_after_a_save_and_outlives_the_window() {
    let (folder, _file, mut first) = on_kept();
    go_to(&mut first, "Front roller ends");
    first.click("gap, by gauge");
    for end in ["left", "right"] {
        first.enter_text(&format!("Front roller, gap, {end} end"), "0.0045");
    }
    save(&mut first);
    let waits = "Front roller, leaf that goes, right end, entered another way";
    first.assert_says(waits);
    assert!(!first.would_close());
    first.assert_says("left out of the file: ");
    first.assert_says(waits);
    first.button("Keep for the next start").click();
    assert!(first.has_closed());
    drop(first);

    let mut second = after(&folder);
    second.click("Recover");
    go_to(&mut second, "Front roller ends");
    second.assert_says("Kept while this sheet is open: what was entered for feeler leaves.");
    second.click("feeler leaves");
    assert_eq!(
        second.entry("Front roller, leaf that goes, right end"),
        "0.009 in"
    );
}
