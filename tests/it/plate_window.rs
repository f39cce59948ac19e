//! The Plate area by accessible name: a sheet filled in step by step, what follows from it, and nothing
//! that was typed is lost.

use std::fs;
use std::path::{Path, PathBuf};

use egui::{Key, Modifiers, Shape, Vec2};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::app::Beginning;
use sweepgauge::plate::{GapEntry, Step, Worksheet};
use sweepgauge::store::recovery::left_behind;
use sweepgauge::store::{open_record, open_sheet, open_unit, record_beside};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::shown::{Answers, Start, Window};

const GREENS: &str = "greens-1.plate.ron";
const GANG: &str = "gang-2.plate.ron";

/// High enough that every step of the list is in sight.
const TALL: Vec2 = Vec2::new(1440.0, 1800.0);

/// A folder with the demo ground's units and sheets.
fn ground() -> TempDir {
    let folder = TempDir::new().unwrap();
    let demo = DemoUnit::FairwayTrailed.file();
    let from = demo.with_file_name("example-ground");
    for entry in fs::read_dir(from).unwrap() {
        let file = entry.unwrap().path();
        fs::copy(&file, folder.path().join(file.file_name().unwrap())).unwrap();
    }
    folder
}

/// A window on a sheet, its unit in front.
fn on_sheet(file: &Path, answers: &Answers) -> Window {
    let mut start = Start::on(DemoUnit::FairwayTrailed.document()).asking(answers);
    start.beginning = Some(Beginning::with_sheet(file).expect("a right sheet"));
    in_plate(start)
}

/// A tall window, the Plate area in front.
fn in_plate(mut start: Start) -> Window {
    start.size = TALL;
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num5);
    window
}

/// A window on a demo sheet that keeps for the next start what is not saved.
fn on_kept() -> (TempDir, PathBuf, Window) {
    let folder = ground();
    let file = folder.path().join(GREENS);
    let mut start = keeping_in(&folder);
    start.beginning = Some(Beginning::with_sheet(&file).expect("a right sheet"));
    (folder, file, in_plate(start))
}

/// The next start after a window that kept what was not saved.
fn after(folder: &TempDir) -> Window {
    let mut start = keeping_in(folder);
    start.size = TALL;
    start.window()
}

fn keeping_in(folder: &TempDir) -> Start {
    Start::on(DemoUnit::FairwayTrailed.document()).keeping_in(&recovery_in(folder))
}

fn recovery_in(folder: &TempDir) -> PathBuf {
    folder.path().join("recovery")
}

/// A window on a demo sheet with some of its text replaced.
fn on(name: &str, edits: &[(&str, &str)]) -> (TempDir, PathBuf, Window) {
    let folder = ground();
    let file = folder.path().join(name);
    let text = fs::read_to_string(&file).unwrap();
    let text = edits.iter().fold(text, |text, (from, to)| {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text.replace(from, to)
    });
    fs::write(&file, text).unwrap();
    let window = on_sheet(&file, &Answers::default());
    (folder, file, window)
}

/// How a step of the list stands.
#[track_caller]
fn state(window: &Window, title: &str) -> String {
    let begins = format!("Step {title}: ");
    let labels = window.nodes();
    let mut labels = labels
        .iter()
        .filter_map(|node| node.accesskit_node().label());
    let found = labels.find_map(|label| Some(label.strip_prefix(&begins)?.to_owned()));
    found.unwrap_or_else(|| panic!("no step {title}"))
}

/// Goes to a step.
#[track_caller]
fn go_to(window: &mut Window, title: &str) {
    let state = state(window, title);
    window.click(&format!("Step {title}: {state}"));
}

fn save(window: &mut Window) {
    window.press_with(Modifiers::COMMAND, Key::S);
}

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
fn a_wrong_entry_is_told_kept_and_never_saved() {
    let (_folder, file, mut window) = on(GREENS, &[]);
    let before = fs::read_to_string(&file).unwrap();
    go_to(&mut window, "Front roller ends");
    let stops = "Front roller, leaf that stops, left end";
    let goes = "Front roller, leaf that goes, left end";
    window.enter_text(stops, "thick");
    assert_eq!(window.entry(stops), "thick");
    assert_eq!(window.entry(goes), "0.004 in");
    window.assert_says("like 0.125 in");
    save(&mut window);
    window.assert_says("Not saved. Front roller");
    assert_eq!(fs::read_to_string(&file).unwrap(), before);
    // What makes no sense beside the other is told as well.
    window.enter_text(stops, "0.003 in");
    window.assert_says("write the thinner leaf for goes");
    save(&mut window);
    assert_eq!(fs::read_to_string(&file).unwrap(), before);
    window.enter_text(stops, "0.006 in");
    save(&mut window);
    let sheet = open_sheet(&file).unwrap();
    let Some(GapEntry::Feeler { goes, stops_at }) = sheet.front.unwrap().left else {
        panic!("a feeler");
    };
    assert_eq!((goes.text(), stops_at.text()), ("0.004 in", "0.006 in"));
    // The remarks of the file stay.
    assert!(
        fs::read_to_string(&file)
            .unwrap()
            .starts_with("// A walking greens unit")
    );
}

#[test]
fn escape_brings_back_what_stood_in_an_entry() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Plate and gauge bar");
    window.type_over("Gauge bar, left", "x");
    window.press(Key::Escape);
    assert_eq!(window.entry("Gauge bar, left"), "0.250 in");
    window.assert_silent("not saved");
}

#[test]
fn a_roller_that_was_moved_is_read_again_and_so_is_what_came_after_it() {
    let (_folder, file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Front roller adjuster");
    window.assert_says("Fail: not parallel within 0.0020 in");
    // By hand: 0.005 in over 22 in is 0.0059 in over 26 in, asin(0.00591/0.0625) is 5.43°.
    window.assert_says("down 0.0059 in");
    window.assert_says("-5.43°");
    window.assert_says("-174.57°");
    window.assert_says("leave the leading eccentric level and adjust the trailing one");
    // Which way it was turned is asked for.
    assert!(window.has_button("I turned it to -174.57°: read again"));
    window.click("I turned it to -5.43°: read again");
    window.assert_says("\"It stands at\" was changed to -5.43°");
    assert_eq!(state(&window, "Front roller ends"), "to do");
    assert_eq!(state(&window, "Rear roller ends"), "again");
    assert_eq!(
        window.entry("Front roller, eccentric stands at"),
        "-5.425 deg"
    );
    go_to(&mut window, "Front roller ends");
    for end in ["left", "right"] {
        window.enter_text(&format!("Front roller, leaf that goes, {end} end"), "0.004");
        window.enter_text(
            &format!("Front roller, leaf that stops, {end} end"),
            "0.005",
        );
    }
    window.assert_says("Pass: parallel within 0.0020 in");
    assert_eq!(state(&window, "Front roller adjuster"), "done");
    // It was read before the front roller was moved, so it is still to be read again.
    assert_eq!(state(&window, "Rear roller ends"), "again");
    go_to(&mut window, "Rear roller ends");
    window.click("It still holds");
    assert_eq!(state(&window, "Rear roller ends"), "done");
    save(&mut window);
    let front = open_sheet(&file).unwrap().front.unwrap();
    let before = front.out_before.expect("what the work began with");
    assert_eq!(before.text(), "0.0048 in");
}

#[test]
fn a_typing_and_a_click_are_steps_to_take_back_of_the_sheet_alone() {
    let (_folder, file, mut window) = on(GREENS, &[]);
    let unit = window.document().clone();
    go_to(&mut window, "Reel diameter");
    window.enter_text("Reel diameter, left", "4.94");
    window.enter_text("Reel diameter, right", "4.93");
    go_to(&mut window, "Roller bearings");
    window.click("No play in any bearing");
    assert_eq!(state(&window, "Roller bearings"), "done");
    for told in [
        "roller bearings",
        "Reel diameter, right",
        "Reel diameter, left",
    ] {
        window.press_with(Modifiers::COMMAND, Key::Z);
        window.assert_says(&format!("Undone: {told}."));
    }
    window.assert_silent("not saved");
    assert_eq!(*window.document(), unit);
    for _ in 0..3 {
        window.press_with(Modifiers::COMMAND, Key::Y);
    }
    save(&mut window);
    let sheet = open_sheet(&file).unwrap();
    assert!(sheet.ticked.contains(&Step::Bearings));
    assert_eq!(sheet.reel.unwrap().right.unwrap().text(), "4.93 in");
}

#[test]
fn out_of_throw_both_ends_are_moved_and_it_is_told() {
    let edits = [
        (
            "goes: \"0.009 in\", stops_at: \"0.010 in\"",
            "goes: \"0.059 in\", stops_at: \"0.060 in\"",
        ),
        (
            "throw: \"1/16 in\", now: \"0 deg\"",
            "throw: \"1/16 in\", now: \"-30 deg\"",
        ),
    ];
    let (_folder, _file, mut window) = on(GREENS, &edits);
    go_to(&mut window, "Front roller adjuster");
    // By hand: 0.055·26/22 is 0.0650 in, and from -30° down there is 0.0625·(1 - 0.5), 0.03125 in.
    window.assert_says("Out of throw. Move both ends: right down 0.0312 in, left up 0.0338 in");
    window.assert_says("0.0312 in down, 0.0937 in up");
    // At the end of its throw an eccentric stands straight down.
    window.click("I turned it to -90.00°: read again");
    assert_eq!(window.entry("Front roller, eccentric stands at"), "-90 deg");
}

#[test]
fn a_verdict_that_cannot_be_given_tells_what_to_read_better() {
    let edits = [(
        "parallel_within: \"0.002 in\",\n        runout",
        "parallel_within: \"0.0045 in\",\n        runout",
    )];
    let (_folder, _file, mut window) = on(GREENS, &edits);
    go_to(&mut window, "Front roller ends");
    window.assert_says("Undecided: the limit of 0.0045 in lies within U");
    window.assert_says("read the ends with an indicator or a gauge of finer steps");
}

#[test]
fn runout_is_judged_by_ones_own_limits_with_the_turfs_beside() {
    let (_folder, file, mut window) = on(GANG, &[]);
    go_to(&mut window, "Front roller runout");
    window.assert_says("OK: 0.0040 in read; rule of thumb, 0.0100 in wanted, 0.0100 in at most");
    window.assert_says("In the cut");
    go_to(&mut window, "The job");
    window.enter_text("Runout wanted", "0.001");
    window.enter_text("Runout at most", "0.003");
    go_to(&mut window, "Front roller runout");
    window.assert_says("over limit: 0.0040 in read; your limits, 0.0010 in wanted");
    window.assert_says("OK: 0.0040 in read; the turf's rule of thumb");
    // By hand: cos 60° is a half.
    window.enter_text("Front roller, indicator's lever slants by", "60");
    window.assert_says("watch: 0.0020 in read");
    save(&mut window);
    let sheet = open_sheet(&file).unwrap();
    assert_eq!(sheet.front.unwrap().lever_angle.unwrap().text(), "60 deg");
}

#[test]
fn every_reading_round_a_turn_has_a_cell_as_wide_as_the_others_and_as_its_text() {
    for size in [Vec2::new(1024.0, 768.0), Vec2::new(1366.0, 768.0)] {
        let folder = ground();
        let mut start = Start::on(DemoUnit::FairwayTrailed.document());
        start.beginning = Some(Beginning::with_sheet(&folder.path().join(GREENS)).unwrap());
        start.size = size;
        let mut window = start.window();
        window.press_with(Modifiers::COMMAND, Key::Num5);
        go_to(&mut window, "Rear roller runout");
        let name = |station: &str| format!("Rear roller, indicator {station}, at 0°");
        let widths = ["left", "middle", "right"].map(|station| {
            window.enter_text(&name(station), "0.0045 in");
            window.settle();
            window.field(&name(station)).rect().width()
        });
        assert!(
            widths.iter().all(|width| (width - widths[0]).abs() < 0.5),
            "{size}: {widths:?}"
        );
        let painted = window.harness.output().shapes.iter();
        let texts: Vec<f32> = painted
            .filter_map(|painted| match &painted.shape {
                Shape::Text(text) if text.galley.text() == "0.0045 in" => {
                    Some(text.galley.size().x)
                }
                _ => None,
            })
            .collect();
        assert_eq!(texts.len(), 3, "{size}");
        let widest = texts.into_iter().fold(0.0, f32::max);
        assert!(widths[0] > widest + 12.0, "{size}: {widest} in {widths:?}");
    }
}

#[test]
fn a_high_place_of_a_turn_is_told_from_none_round_to_the_whole_turn() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Rear roller runout");
    // By hand: highest at 270°, which the sums call -90°.
    for (deg, read) in [("0", "1"), ("90", "0"), ("180", "1"), ("270", "2")] {
        window.enter_text(&format!("Rear roller, indicator left, at {deg}°"), read);
    }
    window.assert_says("270.00°");
    window.assert_silent("-90.00°");
}

#[test]
fn a_turn_is_read_in_thou_at_places_of_ones_own() {
    let (_folder, file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Rear roller runout");
    window.enter_text("Another place of the turn", "30");
    for (deg, read) in [("0", "0"), ("30", "0.5"), ("180", "2")] {
        window.enter_text(&format!("Rear roller, indicator left, at {deg}°"), read);
    }
    window.assert_says("Twice eccentricity");
    save(&mut window);
    let sheet = open_sheet(&file).unwrap();
    let turn = &sheet.rear.unwrap().runout[0];
    let read: Vec<_> = turn
        .readings
        .iter()
        .map(|one| (one.0.text(), one.1.text()))
        .collect();
    assert_eq!(
        read,
        [
            ("0 deg", "0 thou"),
            ("30 deg", "0.5 thou"),
            ("180 deg", "2 thou")
        ]
    );
}

#[test]
fn the_unit_is_filled_in_after_before_and_after_were_shown_and_in_one_step() {
    let (_folder, _file, mut window) = on(GANG, &[]);
    let before = window.document().clone();
    window.click("Fill in the unit…");
    window.assert_says("By the sheet");
    window.assert_says("6.88 in");
    // What the unit follows while its setting leaves it out stands beside it.
    assert!(before.setting.reel_diameter.is_none());
    window.assert_says("measured 6.88 in");
    window.assert_silent("left out");
    assert_eq!(*window.document(), before, "it is shown only");
    window.click("Fill in");
    let filled = window.document().clone();
    assert_ne!(filled, before);
    assert_eq!(
        filled.setting.reel_diameter.as_ref().unwrap().text(),
        "6.88 in"
    );
    assert_eq!(
        filled.wear.front_runout.as_ref().unwrap().text(),
        "0.004 in"
    );
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.document(), before);
}

#[test]
fn the_record_names_what_the_readings_say_and_goes_beside_no_other_unit() {
    let (folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Record");
    window.assert_says("front roller not parallel");
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
    window.assert_says("None of these: each ");
    window.enter_text("Bars in the shop", "0.25, thick");
    window.assert_says("Bars in the shop: ");
    assert_eq!(window.entry("Bars in the shop"), "0.25, thick");
    window.enter_text("Bars in the shop", "0.25, 4 mm");
    let bars = window.app().preferences().gauge_bars.clone();
    assert_eq!(bars.unwrap(), ["0.25 in", "4 mm"]);
    window.assert_says("Use the 0.157 in bar.");
    // A bar that cannot be used is offered to nobody, and what was measured stays.
    assert!(!window.has_button("Use 0.250 in"));
    window.click("Use 0.157 in");
    window.assert_says("were left as they are");
    go_to(&mut window, "Plate and gauge bar");
    assert_eq!(window.entry("Gauge bar, right"), "0.250 in");
    window.enter_text("Gauge bar, left", "");
    window.enter_text("Gauge bar, right", "");
    go_to(&mut window, "Choose the gauge bar");
    window.click("Use 0.157 in");
    go_to(&mut window, "Plate and gauge bar");
    assert_eq!(window.entry("Gauge bar, right"), "0.1575 in");
    assert_eq!(state(&window, "Plate and gauge bar"), "to do");
    window.enter_text("Gauge bar, left", "0.1574 in");
    window.enter_text("Gauge bar, right", "0.1576 in");
    assert_eq!(state(&window, "Plate and gauge bar"), "done");
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

#[test]
fn the_sheet_is_printed_on_one_page() {
    let folder = ground();
    let out = folder.path().join("plate.pdf");
    for name in [GREENS, GANG] {
        let answers = Answers::default();
        answers.save(&out);
        let mut window = on_sheet(&folder.path().join(name), &answers);
        window.click("Print sheet…");
        window.assert_says("plate.pdf");
        let pdf = Pdf::read(&fs::read(&out).unwrap());
        assert_eq!(pdf.pages(), 1, "{name}");
        let text = pdf.text(1);
        for said in ["Plate sheet", name, "Front roller", "Knife to reel", "U = "] {
            assert!(text.contains(&packed(said)), "{name}: {said} in {text}");
        }
        fs::remove_file(&out).unwrap();
    }
}
