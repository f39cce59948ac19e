//! The Plate area by accessible name: a sheet filled in step by step, and what follows from it.

use std::fs;

use egui::{Event, Key, Modifiers, Shape, Vec2};
use sweepgauge::app::Beginning;
use sweepgauge::plate::{GapEntry, Step};
use sweepgauge::store::open_sheet;

use crate::common::demo_unit::DemoUnit;
use crate::common::plate_window::{GANG, GREENS, go_to, ground, keys_are_at, on, save, state};
use crate::common::shown::Start;

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
    window.assert_says("write the thinner leaf as the one that goes");
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
    window.assert_says("\"Eccentric now\" was changed to -5.43°");
    assert_eq!(state(&window, "Front roller ends"), "to do");
    assert_eq!(state(&window, "Rear roller ends"), "again");
    // What comes next is not the other roller.
    window.click("Next step");
    window.assert_says("Front roller ends: to do");
    go_to(&mut window, "Front roller adjuster");
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
fn a_roller_found_out_of_parallel_leaves_later_steps_to_do_again_until_each_is_done_anew() {
    let (_folder, file, mut window) = on(GANG, &[]);
    window.assert_says("Every step is done");
    let later = ["Rear roller ends", "Rock test", "Height of cut", "Record"];
    let right = "Front roller, height over the top, right end";
    go_to(&mut window, "Front roller ends");
    window.enter_text(right, "3.0580 in ± 0.0005 in");
    for step in later {
        assert_eq!(state(&window, step), "again", "{step}");
    }
    save(&mut window);
    assert!(open_sheet(&file).unwrap().again.is_empty());
    // It is parallel now, because it was moved; each of the later readings is older than that.
    window.enter_text(right, "3.0080 in ± 0.0005 in");
    for step in later {
        assert_eq!(state(&window, step), "again", "{step}");
    }
    window.assert_silent("Every step is done");
    save(&mut window);
    assert!(open_sheet(&file).unwrap().again.contains(&Step::Record));
    go_to(&mut window, "Rock test");
    window.click("It sits firm on both rollers");
    assert_eq!(state(&window, "Rock test"), "done");
    go_to(&mut window, "Height of cut");
    for place in ["left", "middle"] {
        window.enter_text(&format!("Height of cut, {place}"), "0.5005 in ± 0.002 in");
        assert_eq!(state(&window, "Height of cut"), "again");
    }
    window.enter_text("Height of cut, right", "0.5005 in ± 0.002 in");
    assert_eq!(state(&window, "Height of cut"), "done");
    go_to(&mut window, "Record");
    window.click("Add another entry to the record");
    assert_eq!(state(&window, "Record"), "done");
    // One that was parallel is read once more, and no later step goes back.
    let (_folder, _file, mut window) = on(GANG, &[]);
    go_to(&mut window, "Front roller ends");
    window.enter_text(right, "3.0080 in ± 0.0004 in");
    window.assert_says("Every step is done");
}

#[test]
fn the_height_of_cut_is_compared_place_by_place_and_without_its_plus_minus_is_no_fault() {
    let (_folder, _file, mut window) = on(GANG, &[]);
    go_to(&mut window, "Height of cut");
    window.assert_says("As expected: the difference is within the ± of both");
    // The unit's height is 0.5 in, and both rollers are level to some thou: by hand 0.014 in over in the
    // middle alone is a bent knife, at every place alike another height.
    window.enter_text("Height of cut, middle", "0.514 in ± 0.001 in");
    window.assert_says("Not as expected: middle 0.0140 in over what is expected. Look for twist");
    assert_eq!(state(&window, "Height of cut"), "done, over limit");
    for place in ["left", "right"] {
        window.enter_text(&format!("Height of cut, {place}"), "0.514 in ± 0.001 in");
    }
    window.assert_says("The cut is straight, and its height is not the unit's");
    // As the rollers lie, the left is half a thou over the middle, and the right as much under it.
    for (place, height) in [
        ("left", "0.5005 in"),
        ("middle", "0.5 in"),
        ("right", "0.4995 in"),
    ] {
        window.enter_text(&format!("Height of cut, {place}"), height);
    }
    window.assert_says("As expected");
    window.enter_text("Height of cut, middle", "0.5005 in");
    window.assert_silent("Not as expected");
    window.assert_says("Undecided: middle 0.0005 in over what is expected. ± not entered");
    assert_eq!(state(&window, "Height of cut"), "done, watch");
    window.assert_says("Every step is done; the result of one is not OK");
}

#[test]
fn a_roller_that_is_parallel_is_left_and_one_that_is_not_has_its_mark() {
    let (_folder, _file, mut window) = on(GANG, &[]);
    go_to(&mut window, "Front roller adjuster");
    window.assert_says("leave it: it is as parallel as wanted");
    window.assert_silent("Shims to");
    let (_folder, _file, mut window) = on(GREENS, &[]);
    assert_eq!(state(&window, "Front roller ends"), "done, over limit");
    assert_eq!(state(&window, "Choose the gauge bar"), "done, watch");
    go_to(&mut window, "Front roller ends");
    window.assert_says("Front roller ends: done, over limit");
}

#[test]
fn readings_that_cannot_be_are_told_where_they_stand() {
    let (_folder, _file, mut window) = on(GANG, &[]);
    for (step, field, text, said) in [
        (
            "Reel diameter",
            "Reel diameter, left",
            "9 in",
            "is more than the new reel's",
        ),
        (
            "Reel diameter",
            "Reel diameter, right",
            "3 in",
            "is under scrap size",
        ),
        (
            "Attitude",
            "Attitude, right",
            "9 deg",
            "the ends differ by 5",
        ),
        // Last, because such a bar leaves no roller parallel.
        (
            "Plate and gauge bar",
            "Gauge bar, right",
            "0.0002 in",
            "more than a gauge bar's can",
        ),
    ] {
        assert!(state(&window, step).starts_with("done"), "{step}");
        go_to(&mut window, step);
        window.enter_text(field, text);
        window.assert_says(said);
        // It is told at its entry, under its name, and what was typed stays.
        window.assert_says(&format!("{field}: "));
        assert_eq!(window.entry(field), text);
        assert_ne!(state(&window, step), "done", "{step}");
    }
}

#[test]
fn the_gap_between_knife_and_reel_is_judged_by_both_leaves() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Knife to reel");
    // The unit is to be watched from 0.0010 in on, and the leaves are 0.0010 and 0.0015 in.
    window.assert_says("undecided: the gap reads 0.0013 in, and the 0.0010 in");
    assert_eq!(state(&window, "Knife to reel"), "done, watch");
    let stops = "Knife to reel, leaf that stops, right";
    window.enter_text(stops, "0.15");
    window.assert_says(&format!("{stops}: 0.149 in more than the leaf that goes"));
    assert_eq!(state(&window, "Knife to reel"), "done, read again");
    for place in ["left", "middle", "right"] {
        let leaf = |what: &str| format!("Knife to reel, leaf that {what}, {place}");
        window.enter_text(&leaf("goes"), "0.0005");
        window.enter_text(&leaf("stops"), "0.001");
    }
    assert_eq!(state(&window, "Knife to reel"), "done");
}

#[test]
fn a_pass_by_gaps_that_say_nothing_of_their_plus_minus_is_undecided() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Rear roller ends");
    window.assert_says("Pass: parallel within 0.0020 in");
    for (end, read) in [
        ("left end", "0.0045"),
        ("left end, half a turn on", "0.0051"),
        ("right end", "0.0052"),
        ("right end, half a turn on", "0.0049"),
    ] {
        window.enter_text(&format!("Rear roller, gap, {end}"), read);
    }
    window.assert_says("Undecided: ± not entered.");
    window.assert_says("write each with its ±");
    window.assert_silent("Pass: parallel");
}

#[test]
fn readings_half_a_turn_apart_that_clash_are_read_again_before_anything_is_moved() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Rear roller ends");
    let right = "Rear roller, gap, right end, half a turn on";
    let before = window.entry(right);
    // A slip: .52 for .0052.
    window.enter_text(right, "0.52");
    window.assert_says(&format!(
        "{right}: 0.515 in from the reading half a turn before"
    ));
    window.assert_says("No verdict: the readings half a turn apart clash");
    window.assert_silent("Go on to its adjuster");
    go_to(&mut window, "Rear roller adjuster");
    window.assert_says("read both ends again first");
    go_to(&mut window, "Rear roller ends");
    window.enter_text(right, "");
    window.assert_says(&format!("{right}: not read; read it too"));
    window.assert_silent("Pass: parallel");
    window.enter_text(right, &before);
    window.assert_says("Pass: parallel within 0.0020 in");
}

#[test]
fn a_reading_off_the_others_is_named_by_its_station_and_place() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Front roller runout");
    let place = "Front roller, indicator left, at 225°";
    window.enter_text(place, "8");
    window.assert_says(&format!("{place}: "));
    window.assert_says("off the circle of the others; read it again");
    assert_eq!(state(&window, "Front roller runout"), "done, read again");
    window.enter_text(place, "0.8");
    assert_eq!(state(&window, "Front roller runout"), "done");
    go_to(&mut window, "Reel diameter");
    window.enter_text("Reel diameter, middle", "4.911");
    window.assert_says("Reel diameter, middle: 0.0395 in off the other two; read it again");
    assert_eq!(state(&window, "Reel diameter"), "done, read again");
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
    // By hand, from the eight readings: twice an eccentricity of 2.2304 thou, more than the 4 thou read.
    window.assert_says(
        "OK: 0.0045 in by the circle fitted; rule of thumb, 0.0100 in wanted, 0.0100 in at most",
    );
    window.assert_says("In the cut");
    go_to(&mut window, "The job");
    window.enter_text("Runout wanted", "0.001");
    window.enter_text("Runout at most", "0.003");
    go_to(&mut window, "Front roller runout");
    window.assert_says("over limit: 0.0045 in by the circle fitted; your limits, 0.0010 in wanted");
    window.assert_says("OK: 0.0045 in by the circle fitted; the turf's rule of thumb");
    // By hand: cos 60° is a half.
    window.enter_text("Front roller, indicator's lever slants by", "60");
    window.assert_says("watch: 0.0022 in by the circle fitted");
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
        // The cells of a row stand level.
        let tops =
            ["left", "middle", "right"].map(|station| window.field(&name(station)).rect().top());
        assert!(
            tops.iter().all(|top| (top - tops[0]).abs() < 0.1),
            "{size}: {tops:?}"
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
    window.enter_text("Another place of the turn", "45");
    window.assert_says("45° is among the places already");
    window.enter_text("Another place of the turn", "30");
    window.assert_silent("among the places already");
    // It is this roller's place alone, and goes again while nobody read anything there.
    go_to(&mut window, "Front roller runout");
    assert!(!window.has_button("Leave out 30°"));
    go_to(&mut window, "Rear roller runout");
    window.click("Leave out 30°");
    assert!(!window.has_button("Leave out 30°"));
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
fn a_place_that_is_refused_moves_no_row_of_the_turn_and_its_reason_goes_as_it_is_typed_over() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Rear roller runout");
    let first = "Rear roller, indicator left, at 0°";
    let before = window.field(first).rect();
    window.enter_text("Another place of the turn", "45");
    window.assert_says("45° is among the places already");
    assert_eq!(window.field(first).rect(), before);
    window.type_over("Another place of the turn", "4");
    window.assert_silent("is among the places already");
    assert_eq!(window.field(first).rect(), before);
}

#[test]
fn a_turn_that_is_not_read_at_every_place_says_how_many_were() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    let done = "Front roller runout";
    go_to(&mut window, done);
    window.assert_silent("Not whole yet");
    for deg in ["45", "135", "315"] {
        window.enter_text(&format!("Front roller, indicator left, at {deg}°"), "");
    }
    window.assert_says("Not whole yet: left 5 of 8 places read.");
    assert!(state(&window, done).ends_with(", left 5 of 8 places read"));
}

#[test]
fn one_wrong_reading_is_told_once_and_the_head_names_the_step_that_the_list_does() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    let next = "Next: roller bearings";
    window.assert_says(next);
    go_to(&mut window, "Front roller ends");
    window.enter_text("Front roller, leaf that stops, left end", "0.003 in");
    window.assert_says(next);
    window.assert_says("Not worked out until the entry marked below is put right.");
    let why = "write the thinner leaf as the one that goes";
    let texts = window.texts();
    let told = texts.iter().filter(|text| text.contains(why)).count();
    assert_eq!(told, 1, "{texts:#?}");
    go_to(&mut window, "Rear roller ends");
    window.assert_says("Not worked out. Front roller");
}

#[test]
fn every_page_shows_what_makes_its_step_safe() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    for step in Step::ALL {
        let title = step.title();
        let mut letters = title.chars();
        let first = letters.next().unwrap().to_uppercase();
        go_to(&mut window, &format!("{first}{}", letters.as_str()));
        window.assert_says(step.what_to_do());
        window.assert_says(step.caution().unwrap_or_default());
    }
    go_to(&mut window, "Choose the gauge bar");
    window.assert_says("Lift the unit with a hoist or a second person. Block the reel");
}

#[test]
fn a_reel_that_cannot_be_read_across_is_worked_out_from_a_tape() {
    let (_folder, file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Reel diameter");
    window.click("Reel from…");
    window.click("a plain tape");
    window.assert_says("a plain tape pulled once round the tips");
    window.enter_text("Tape, once round", "15 in ± 0.01 in");
    window.enter_text("Tape's thickness", "thin");
    window.assert_says("Tape's thickness: ");
    window.enter_text("Tape's thickness", "0.008");
    window.click("middle");
    // A polygon round as many tips as the unit has blades: its perimeter over n·sin(π/n), the tape taken off.
    let blades = f64::from(window.document().reel.blades);
    let pi = std::f64::consts::PI;
    let wanted = (15.0 - 0.008 * pi) / (blades * (pi / blades).sin());
    save(&mut window);
    let read = open_sheet(&file).unwrap().reel.unwrap().middle.unwrap();
    assert!(
        (read.value().inches() - wanted).abs() < 0.001,
        "{wanted}: {}",
        read.text()
    );
    assert!(read.half_width().is_some());
}

#[test]
fn what_was_entered_another_way_comes_back_with_it_and_the_file_holds_the_choice_alone() {
    let (_folder, file, mut window) = on(GREENS, &[]);
    let goes = "Front roller, leaf that goes, right end";
    let gap = "Front roller, gap, right end";
    go_to(&mut window, "Front roller ends");
    window.click("gap, by gauge");
    window.assert_says("Kept while this sheet is open: what was entered for feeler leaves.");
    assert_eq!(window.entry(gap), "");
    // Undone in one step, and done again.
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.entry(goes), "0.009 in");
    window.assert_silent("Kept while this sheet is open");
    window.press_with(Modifiers::COMMAND, Key::Y);
    assert_eq!(window.entry(gap), "");
    for end in ["left", "right"] {
        window.enter_text(&format!("Front roller, gap, {end} end"), "0.0045");
    }
    // It was not parallel by the leaves: this was read after it was moved.
    assert_eq!(state(&window, "Rear roller ends"), "again");
    save(&mut window);
    let front = open_sheet(&file).unwrap().front.unwrap();
    assert!(matches!(front.right, Some(GapEntry::Gap(_))));
    window.click("feeler leaves");
    assert_eq!(window.entry(goes), "0.009 in");
    window.assert_says("Kept while this sheet is open: what was entered for gap, by gauge.");
    window.click("gap, by gauge");
    assert_eq!(window.entry(gap), "0.0045 in");
    go_to(&mut window, "Front roller adjuster");
    window.click("shims");
    window.assert_says("what was entered for eccentric");
    window.assert_silent("how far to turn");
    window.click("eccentric");
    assert_eq!(
        window.entry("Front roller, throw of the eccentric"),
        "1/16 in"
    );
    window.assert_silent("Kept while this sheet is open");
}

#[test]
fn what_is_typed_without_a_pause_goes_where_it_is_meant_whole() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Rear roller runout");
    window.click("Step before");
    let at = |deg: &str| format!("Front roller, indicator left, at {deg}°");
    // No frame is drawn to its end between the keys: the indicator's point is the first key after Enter.
    for text in [".3", ".4", ".7"] {
        window.harness.event(Event::Text(text[..1].to_owned()));
        window.harness.event(Event::Text(text[1..].to_owned()));
        window.harness.key_down(Key::Enter);
        window.harness.key_up(Key::Enter);
    }
    window.settle();
    for (deg, shown) in [("0", "0.3 thou"), ("45", "0.4 thou"), ("90", "0.7 thou")] {
        assert_eq!(window.entry(&at(deg)), shown);
    }
    assert_eq!(keys_are_at(&window), at("135"));
}

#[test]
fn a_page_is_gone_through_by_enter_alone() {
    let (_folder, _file, mut window) = on(GREENS, &[]);
    go_to(&mut window, "Rear roller runout");
    window.click("Step before");
    let at = |station: &str, deg: &str| format!("Front roller, indicator {station}, at {deg}°");
    // The page begins at its first entry, and goes down the places of one station as the roller is turned.
    assert_eq!(keys_are_at(&window), at("left", "0"));
    window.press(Key::Enter);
    assert_eq!(keys_are_at(&window), at("left", "45"));
    window.press(Key::Tab);
    assert_eq!(keys_are_at(&window), at("left", "90"));
    for _ in 0..5 {
        window.press(Key::Enter);
    }
    assert_eq!(keys_are_at(&window), at("left", "315"));
    window.press(Key::Enter);
    assert_eq!(keys_are_at(&window), at("middle", "0"));
    // What is typed replaces what stood there.
    window.harness.event(Event::Text("7".to_owned()));
    window.settle();
    window.press(Key::Enter);
    assert_eq!(window.entry(&at("middle", "0")), "7 thou");
    for _ in 0..7 + 8 {
        window.press(Key::Enter);
    }
    let lever = "Front roller, indicator's lever slants by";
    assert_eq!(keys_are_at(&window), lever);
    window.press(Key::Enter);
    assert_eq!(keys_are_at(&window), "Next step");
    window.assert_says("Front roller runout: ");
    // The button takes a press of its own, and the next page begins at its first entry.
    window.press(Key::Enter);
    window.assert_says("Rear roller runout: ");
    assert_eq!(keys_are_at(&window), "Rear roller, indicator left, at 0°");
    // Where there is none to type into, the button keeps the keys: no tick is made by a press too many.
    go_to(&mut window, "Reel diameter");
    window.click("Next step");
    assert_eq!(keys_are_at(&window), "Next step");
    assert_eq!(state(&window, "Roller bearings"), "to do");
}

#[test]
fn hours_that_go_back_are_told_at_their_entry() {
    let (folder, _file, mut window) = on(GREENS, &[]);
    let record = fs::read_to_string(folder.path().join("greens-1.record.ron")).unwrap();
    assert!(record.contains("hours:"), "{record}");
    go_to(&mut window, "The job");
    assert_eq!(state(&window, "The job"), "done");
    window.enter_text("Hours", "12");
    window.assert_says("Hours: 12 h are fewer than the ");
    assert_eq!(state(&window, "The job"), "done, read again");
    assert_eq!(window.entry("Hours"), "12");
    window.enter_text("Hours", "1210");
    assert_eq!(state(&window, "The job"), "done");
}

#[test]
fn what_was_read_twice_is_shown_and_waits_while_its_place_is_empty() {
    let one = "(\"90 deg\", \"0.6 thou\")";
    let two = format!("{one}, (\"90 deg\", \"0.7 thou\")");
    let (_folder, _file, mut window) = on(GREENS, &[(one, &two)]);
    go_to(&mut window, "Front roller runout");
    window.assert_says("Also read, left at 90°: 0.0007 in; counts with the entry.");
    let field = "Front roller, indicator left, at 90°";
    let before = window.entry(field);
    window.enter_text(field, "");
    window.assert_says("Also read, left at 90°: 0.0007 in; waits for the entry.");
    assert!(!window.would_close());
    window
        .assert_says("left out of the file: Front roller, indicator left, at 90°, read once more");
    window.click("Keep editing");
    window.enter_text(field, &before);
    window.assert_says("; counts with the entry.");
    window.click("Leave out what was also read left at 90°");
    window.assert_silent("Also read");
}

#[test]
fn lists_and_readings_with_their_plus_minus_stay_in_their_entries_in_a_narrow_window() {
    let folder = ground();
    let file = folder.path().join(GANG);
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.beginning = Some(Beginning::with_sheet(&file).unwrap());
    start.size = Vec2::new(1024.0, 768.0);
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num5);
    let shims = "0.002 in, 0.005 in, 0.010 in, 0.015 in, 0.020 in";
    for (step, field, text) in [
        (
            "Front roller adjuster",
            "Front roller, shims in stock",
            shims,
        ),
        (
            "Height of cut",
            "Height of cut, left",
            "0.5012 in ± 0.0015 in",
        ),
        (
            "Height of cut",
            "Height of cut, right",
            "0.4998 in ± 0.0016 in",
        ),
        ("Attitude", "Attitude, left", "4.05 deg ± 0.15 deg"),
    ] {
        go_to(&mut window, step);
        window.enter_text(field, text);
        window.settle();
        let entry = window.field(field).rect();
        let painted = window.harness.output().shapes.iter();
        let widest = painted.filter_map(|painted| match &painted.shape {
            Shape::Text(shape) if shape.galley.text() == text => Some(shape.galley.size().x),
            _ => None,
        });
        let widest = widest.fold(0.0, f32::max);
        assert!(widest > 0.0, "{field}: not painted");
        assert!(
            widest + 12.0 <= entry.width() + 0.5,
            "{field}: {widest} in {entry:?}"
        );
    }
}
