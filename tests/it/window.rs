//! The window: what is typed, dragged, opened and saved in it, without a display.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::accesskit::{Action, Role};
use egui::{Key, Modifiers, Vec2, ViewportCommand};
use egui_kittest::kittest::NodeT as _;
use proptest::prelude::*;
use sweepgauge::analysis::CAUTION;
use sweepgauge::analysis::{FindingId, Level, Solved};
use sweepgauge::app::{DEMO_UNIT, Session};
use sweepgauge::geometry::Pose;
use sweepgauge::store::{open_unit, save_unit};
use sweepgauge::unit::{
    ClosingReadings, Document, SettingEntry, ShapeEntry, Turf, read_text, write_text,
};
use sweepgauge::units::{Angle, Length, Quantity, System};
use tempfile::TempDir;

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Answers, MEASURED, Start, WANTED, Window, demo_set, document};

/// Said over the numbers while they are not those of what stands in the fields.
const NUMBERS_NOT_CURRENT: &str = "Not current: these are the numbers of the last drawing.";
const UNSAVED: &str = "unsaved changes";
const ASKING: &str = "has changes that are not saved";

fn pose(document: &Document) -> Pose {
    Solved::of(document).unwrap().solution.pose
}

/// Every number and finding of a document stands in the window.
#[track_caller]
fn assert_shows(window: &Window, document: &Document) {
    let system = window.app().system();
    let solved = Solved::of(document).unwrap();
    for (id, number) in solved.solution.numbers().key(system) {
        let name = id.title();
        assert_eq!(window.number(name), number, "{name}");
    }
    for finding in solved.findings.iter() {
        window.assert_says(&format!("{}: {}", finding.title(), finding.standing()));
        window.assert_says(&finding.text.shown_in(system));
    }
}

fn length_mm(entry: Option<&Quantity<Length>>) -> f64 {
    entry.expect("something is set").value().mm()
}

/// A folder with a copy of the demo unit.
fn folder_with_demo(name: &str) -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join(name);
    save_unit(&document(DEMO_UNIT), &file).unwrap();
    (folder, file)
}

// Typing.

#[test]
fn typing_an_attitude_changes_the_numbers_and_the_findings() {
    let mut window = Window::demo();
    assert_shows(&window, &document(DEMO_UNIT));
    let before = window.number("Sweep as % of height of cut");
    window.type_over("Attitude", "9 deg");
    let too_steep = demo_set("attitude: \"9 deg\"");
    assert_shows(&window, &too_steep);
    assert_ne!(window.number("Sweep as % of height of cut"), before);
    let level = |document: &Document| {
        let solved = Solved::of(document).unwrap();
        let sweep = solved
            .findings
            .iter()
            .find(|f| f.id == FindingId::Sweep)
            .unwrap();
        sweep.level
    };
    assert_ne!(level(&document(DEMO_UNIT)), Level::Over);
    assert_eq!(level(&too_steep), Level::Over);
    window.assert_says("Sweep: undecided: reads over limit");
}

#[test]
fn typing_a_height_of_cut_changes_the_numbers_and_the_findings() {
    let mut window = Window::demo();
    window.assert_silent("reads over limit");
    window.type_over("Height of cut", "1/8 in");
    assert_shows(&window, &demo_set("height_of_cut: \"1/8 in\""));
    assert_eq!(window.number("Height of cut"), "0.125 in");
    window.assert_says("Sweep: undecided: reads over limit");
}

#[test]
fn typing_a_reel_diameter_changes_the_numbers() {
    let mut window = Window::demo();
    let before = window.number("Sweep");
    window.type_over("Reel diameter", "6.6");
    assert_shows(&window, &demo_set("reel_diameter: \"6.6 in\""));
    assert_ne!(window.number("Sweep"), before);
}

#[test]
fn emptying_a_setting_follows_the_bench_again() {
    let mut window = Start::on(demo_set("attitude: \"9 deg\"")).window();
    assert_eq!(window.entry("Attitude"), "9 deg");
    window.enter_text("Attitude", "");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    assert_eq!(window.placeholder("Attitude"), "as measured");
    window.assert_says("measured 4 deg");
}

#[test]
fn a_wrong_text_stays_with_its_reason_and_marks_what_is_drawn() {
    let mut window = Window::demo();
    window.enter_text("Attitude", "5 deg");
    let good = demo_set("attitude: \"5 deg\"");
    let solved = window.generation();
    window.enter_text("Attitude", "about 6");
    assert_eq!(window.entry("Attitude"), "about 6");
    let reasons = window
        .texts()
        .iter()
        .filter(|text| text.contains("\"about 6\"") && text.contains("number"))
        .count();
    assert!(reasons >= 2, "beside the field and over the drawing");
    window.assert_says("The field \"Attitude\" holds \"about 6\"");
    window.assert_says(NUMBERS_NOT_CURRENT);
    assert_eq!(window.document(), &good);
    assert_eq!(window.generation(), solved);
    assert_shows(&window, &good);
    window.assert_says("Side view of the unit");
    assert!(!window.has_button("Attitude handle"));
}

#[test]
fn escape_brings_the_last_good_value_back() {
    let mut window = Window::demo();
    window.enter_text("Attitude", "5 deg");
    window.type_over("Attitude", "5 apples");
    window.assert_says("Not current");
    window.press(Key::Escape);
    assert_eq!(window.entry("Attitude"), "5 deg");
    window.assert_silent("Not current");
    assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
    assert!(window.has_button("Attitude handle"));
}

#[test]
fn escape_leaves_the_document_as_if_nothing_had_been_typed() {
    let mut window = Window::demo();
    let before = window.document().clone();
    // Shown in millimetres, kept in inches as it was typed: nothing is lost on the way.
    window.click(System::Millimetre.name());
    for (field, text) in [
        ("Reel diameter, as measured", "9 mm"),
        ("Height of cut", "9"),
        ("Edge forward", "1 mm"),
        ("Name", "another"),
    ] {
        window.type_over(field, text);
        assert_ne!(window.document(), &before, "{field}");
        window.press(Key::Escape);
        assert_eq!(window.document(), &before, "{field}");
    }
}

#[test]
fn a_file_by_its_path_is_saved_but_replaces_no_other() {
    let folder = TempDir::new().unwrap();
    let other = folder.path().join("other.ron");
    fs::write(&other, "another unit").unwrap();
    let mut window = Window::demo();
    window.click("File");
    window.click("Save to a path…");
    window.enter_text("Path", &other.display().to_string());
    window.click("Save here");
    window.assert_says("is there already");
    assert_eq!(fs::read_to_string(&other).unwrap(), "another unit");
    let own = folder.path().join("own");
    // Entered with the Enter key, which saves.
    window.enter_text("Path", &own.display().to_string());
    assert_eq!(
        &open_unit(&own.with_extension("ron")).unwrap(),
        window.document()
    );
}

#[test]
fn a_chosen_name_that_becomes_another_files_is_asked_about() {
    let folder = TempDir::new().unwrap();
    let (unit, lesson) = (
        folder.path().join("other.ron"),
        folder.path().join("other.lesson.ron"),
    );
    for file in [&unit, &lesson] {
        fs::write(file, "another one").unwrap();
    }
    // The desktop's dialog asks about the name as it is chosen, and here no file has it.
    let answers = Answers::default();
    answers.save(&folder.path().join("other"));
    let mut window = Start::on(DemoUnit::KnifeChoice.document())
        .asking(&answers)
        .window();
    let save_as = |window: &mut Window, file: &Path| {
        window.press_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
        window.assert_says("Not saved: a file is there already");
        assert_eq!(window.entry("Path"), file.display().to_string());
        assert_eq!(fs::read_to_string(file).unwrap(), "another one");
    };
    save_as(&mut window, &unit);
    window.click("Close");
    assert_eq!(fs::read_to_string(&unit).unwrap(), "another one");
    save_as(&mut window, &unit);
    window.click("Replace the file");
    assert_eq!(&open_unit(&unit).unwrap(), window.document());
    window.press_with(Modifiers::COMMAND, Key::Num7);
    window.press_with(Modifiers::COMMAND, Key::K);
    save_as(&mut window, &lesson);
    window.click("Replace the file");
    window.assert_says("Saved ");
    assert_ne!(fs::read_to_string(&lesson).unwrap(), "another one");
}

#[test]
fn a_wrong_text_that_was_left_can_still_be_undone() {
    let mut window = Window::demo();
    window.enter_text("Height of cut", "low");
    window.enter_text("Attitude", "5");
    assert_eq!(window.entry("Height of cut"), "low");
    window.assert_says("The field \"Height of cut\" holds \"low\"");
    window.field("Height of cut").focus();
    window.settle();
    window.press(Key::Escape);
    assert_eq!(window.placeholder("Height of cut"), "as measured");
    window.assert_silent("Not current");
}

#[test]
fn a_right_text_clears_the_mark() {
    let mut window = Window::demo();
    window.enter_text("Reel diameter", "6,6 in");
    window.assert_says(NUMBERS_NOT_CURRENT);
    window.enter_text("Reel diameter", "6.6 in");
    window.assert_silent("Not current");
    assert_shows(&window, &demo_set("reel_diameter: \"6.6 in\""));
}

#[test]
fn a_wrong_text_in_a_folded_group_is_still_named() {
    let mut window = Window::demo();
    window.unfold_one("Mowing");
    window.enter_text("Reel speed", "a few");
    window.assert_says("\"a few\" is not a number");
    window.assert_silent("1 wrong");
    window.unfold_one("Mowing");
    assert!(!window.says("Ground speed"), "the part is folded");
    window.assert_says("The field \"Reel speed\" holds \"a few\"");
    window.assert_says("1 wrong");
}

#[test]
fn a_value_that_makes_no_sense_is_told_beside_its_field_and_over_the_drawing() {
    let mut window = Window::demo();
    window.enter_text("Gap, as measured", "-1 mm");
    let reason = "\"-1 mm\" must not be negative";
    let reasons = window.texts();
    let reasons: Vec<_> = reasons.iter().filter(|t| t.contains(reason)).collect();
    assert_eq!(reasons.len(), 2, "{reasons:?}");
    assert!(reasons.iter().any(|text| text.starts_with("Gap")));
    window.assert_says(NUMBERS_NOT_CURRENT);
    window.enter_text("Gap, as measured", "0 mm");
    window.assert_silent("Not current");
    window.assert_silent(reason);
}

#[test]
fn an_impossible_unit_keeps_the_last_drawing_marked_not_current() {
    let mut window = Window::demo();
    let solved = window.generation();
    window.enter_text("Behind centre, as measured", "4 in");
    window.assert_says("The edge cannot stand 4.000 in from the reel's centre line");
    window.assert_says(NUMBERS_NOT_CURRENT);
    assert_eq!(window.generation(), solved);
    assert_shows(&window, &document(DEMO_UNIT));
    window.assert_says("Side view of the unit");
    assert!(!window.has_button("Attitude handle"));
    window.enter_text("Behind centre, as measured", "0.35 in");
    window.assert_silent("Not current");
    assert!(window.has_button("Attitude handle"));
}

#[test]
fn a_unit_that_never_could_be_built_says_why_nothing_is_drawn() {
    let text = DEMO_UNIT.replace("0.3 in ± 0.02 in", "4 in");
    let window = Start::on(document(&text)).window();
    window.assert_says("Cannot be drawn yet");
    window.assert_says("The edge cannot stand 4.000 in");
    window.assert_silent("Side view of the unit");
}

// Units.

#[test]
fn the_unit_switch_changes_what_is_shown() {
    let mut window = Window::demo();
    for (system, height, reel) in [
        (System::Millimetre, "12.7 mm", "175.3 mm"),
        (System::InchFraction, "1/2 in", "6.900 in"),
        (System::InchDecimal, "0.5 in", "6.900 in"),
    ] {
        window.click(system.name());
        assert!(
            window
                .entry("Height of cut, as measured")
                .starts_with(height)
        );
        assert_shows(&window, &document(DEMO_UNIT));
        let entry = window.entry("Reel diameter, as measured");
        let read = Quantity::<Length>::parse(&entry).expect("a length");
        assert_eq!(
            read.shown_in(system),
            entry,
            "as it is written for {system:?}"
        );
        let solved = window.app().session().good().unwrap();
        assert_eq!(system.length(solved.unit.setting.reel_diameter), reel);
    }
}

#[test]
fn looking_at_a_unit_in_every_system_never_changes_it() {
    for file in DemoUnit::files() {
        let mut window = Start::on_file(&file).window();
        let before = window.document().clone();
        let solved = window.generation();
        window.unfold();
        for system in System::ALL {
            window.click(system.name());
            assert_eq!(window.app().system(), system);
            assert_eq!(window.document(), &before, "{}", file.display());
        }
        window.assert_silent(UNSAVED);
        assert_eq!(window.generation(), solved, "solved again for nothing");
    }
}

#[test]
fn empty_prices_and_limits_of_a_file_are_left_as_they_are() {
    let text = DEMO_UNIT
        .replace("price: \"41.50\"", "price: \"\"")
        .replace("    mowing:", "    limits: (),\n    mowing:");
    let unit = document(&text);
    assert!(unit.limits.is_some());
    let mut window = Start::on(unit.clone()).window();
    window.unfold();
    assert_eq!(window.document(), &unit);
    window.assert_silent(UNSAVED);
}

#[test]
fn a_length_is_read_however_it_is_written() {
    let mut window = Window::demo();
    for (system, typed, mm) in [
        (System::InchDecimal, "1/8", 3.175),
        (System::InchDecimal, "1-3/8", 34.925),
        (System::InchDecimal, ".125\"", 3.175),
        (System::InchDecimal, "3.2 mm", 3.2),
        (System::InchDecimal, "0.5", 12.7),
        (System::InchFraction, "7/16", 11.1125),
        (System::InchFraction, "1/2 in + 4 thou", 12.8016),
        (System::InchFraction, "0.25", 6.35),
        (System::Millimetre, "12.5", 12.5),
        (System::Millimetre, "1/2 in", 12.7),
        (System::Millimetre, "2.5 cm", 25.0),
    ] {
        window.click(system.name());
        window.enter_text("Height of cut", typed);
        let set = length_mm(window.document().setting.height_of_cut.as_ref());
        assert!((set - mm).abs() < 1e-9, "{typed} is {set} mm");
        for other in System::ALL {
            window.click(other.name());
            assert_eq!(
                window.number("Height of cut"),
                other.length(Length::from_mm(mm))
            );
            let entry = window.entry("Height of cut");
            let read = Quantity::<Length>::parse(&entry).unwrap().value().mm();
            assert!((read - mm).abs() < 2e-3, "{typed} shown as {entry}");
        }
    }
}

#[test]
fn a_text_still_being_typed_is_shown_anew_when_the_units_are_switched() {
    let mut window = Window::demo();
    window.type_over("Height of cut", "1/4");
    window.click(System::Millimetre.name());
    assert_eq!(window.entry("Height of cut"), "6.35 mm");
    assert_eq!(
        window.document().setting.height_of_cut,
        Some(Quantity::parse("1/4 in").unwrap())
    );
}

#[test]
fn a_text_set_by_a_screen_reader_is_taken_and_shown_anew_like_any_other() {
    let mut window = Window::demo_as_wanted();
    window
        .field("Height of cut")
        .set_text_value_accesskit("1/4");
    window.settle();
    assert_eq!(window.number("Height of cut"), "0.250 in");
    window.click(System::Millimetre.name());
    assert_eq!(window.entry("Height of cut"), "6.35 mm");
}

#[test]
fn a_reading_keeps_how_far_it_can_be_off() {
    let mut window = Window::demo();
    window.enter_text("Behind centre, as measured", "0.31 ± 0.01");
    let reading = &window.document().bench.behind_centre;
    assert_eq!(reading.text(), "0.31 in ± 0.01");
    let file = write_text(window.document());
    assert!(read_text(&file).is_ok(), "{file}");
    window.click(System::Millimetre.name());
    assert_eq!(
        window.entry("Behind centre, as measured"),
        "7.874 mm ± 0.254 mm"
    );
}

// Sliders.

#[test]
fn arrow_keys_step_a_slider_and_shift_steps_it_finer() {
    for (name, step, fine, unit) in [
        ("Attitude", 0.1, 0.01, 1.0),
        ("Reel diameter", 0.005, 0.0005, 25.4),
        ("Edge forward", 0.005, 0.0005, 25.4),
    ] {
        let mut window = Window::demo_as_wanted();
        let value = |window: &Window| {
            let setting = &window.document().setting;
            let bench = &window.document().bench;
            let length = |entry: &Option<Quantity<Length>>, otherwise: f64| {
                entry.as_ref().map_or(otherwise, |e| e.value().mm())
            };
            match name {
                "Attitude" => setting
                    .attitude
                    .as_ref()
                    .unwrap_or(&bench.attitude)
                    .value()
                    .deg(),
                "Edge forward" => length(&setting.extension, 0.0),
                _ => length(&setting.reel_diameter, bench.reel_diameter.value().mm()),
            }
        };
        let start = value(&window);
        window.slider(&format!("{name} slider")).focus();
        window.settle();
        let mut wanted = start;
        for (modifiers, key, by) in [
            (Modifiers::NONE, Key::ArrowRight, step),
            (Modifiers::NONE, Key::ArrowLeft, -step),
            (Modifiers::NONE, Key::ArrowLeft, -step),
            (Modifiers::SHIFT, Key::ArrowRight, fine),
            (Modifiers::SHIFT, Key::ArrowRight, fine),
            (Modifiers::SHIFT, Key::ArrowLeft, -fine),
        ] {
            window.press_with(modifiers, key);
            wanted += by * unit;
            let now = value(&window);
            assert!((now - wanted).abs() < 1e-6, "{name}: {now}, not {wanted}");
        }
        assert_shows(&window, &window.document().clone());
    }
}

#[test]
fn dragging_a_slider_moves_its_value_with_it() {
    let mut window = Window::demo_as_wanted();
    let handle = window.slider("Edge forward slider").rect().center();
    window.drag(handle, Vec2::new(60.0, 0.0));
    assert!(length_mm(window.document().setting.extension.as_ref()) > 1.0);
    let handle = window.slider("Edge forward slider").rect().center();
    window.drag(handle, Vec2::new(-60.0, 0.0));
    assert!(length_mm(window.document().setting.extension.as_ref()) < -1.0);
    window.assert_says(UNSAVED);
}

#[test]
fn a_double_click_on_a_slider_goes_back_to_the_bench() {
    let mut window = Start::on(demo_set(
        "attitude: \"9 deg\", reel_diameter: \"6.6 in\", extension: \"0.1 in\"",
    ))
    .window();
    for name in [
        "Attitude slider",
        "Reel diameter slider",
        "Edge forward slider",
    ] {
        let at = window.slider(name).rect().center();
        window.double_click(at);
    }
    assert_eq!(window.document().setting, SettingEntry::default());
    assert_shows(&window, &document(DEMO_UNIT));
}

#[test]
fn a_slider_takes_the_place_of_what_is_being_typed() {
    let mut window = Window::demo();
    window.type_over("Attitude", "nonsense");
    window.slider("Attitude slider").focus();
    window.settle();
    window.press(Key::ArrowRight);
    assert_eq!(window.entry("Attitude"), "4.1 deg");
    window.assert_silent("Not current");
}

#[test]
fn back_to_as_measured_undoes_everything_that_was_set() {
    let mut window = Window::demo();
    window.enter_text("Attitude", "6");
    window.enter_text("Edge forward", "0.05");
    window.choose("Knife fitted", "short");
    window.click("the rollers");
    window.enter_text("Front roller moved", "up a bit");
    window.assert_says("Not current");
    window.click("Back to as measured");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    window.assert_silent("Not current");
    assert_eq!(window.placeholder("Attitude"), "as measured");
    window.assert_silent(UNSAVED);
}

// The two ways of setting.

/// How far the farthest of a pose's points stands from where it stood, in millimetres.
fn moved_mm(before: &Pose, after: &Pose) -> f64 {
    [
        (before.edge_on_plate, after.edge_on_plate),
        (before.centre_on_plate, after.centre_on_plate),
        (before.front_roller.centre, after.front_roller.centre),
        (before.rear_roller.centre, after.rear_roller.centre),
    ]
    .into_iter()
    .map(|(a, b)| a.distance(b))
    .fold(0.0, f64::max)
}

#[test]
fn the_way_of_setting_can_be_switched_there_and_back_without_moving_anything() {
    let settings = [
        "attitude: \"5.37 deg\", height_of_cut: \"0.437 in\", reel_diameter: \"6.6 in\"",
        "knife: \"reaching\", extension: \"1/32 in\", top_ground: \"10 thou\"",
        "rollers: (front_move: \"1/16 in\", rear_move: \"-1/8 in\")",
    ];
    for setting in settings {
        let unit = demo_set(setting);
        let before = pose(&unit);
        for system in System::ALL {
            let mut window = Start::on(unit.clone()).window();
            window.click(system.name());
            let is_by_rollers = unit.setting.rollers.is_some();
            let mut ways = [
                "attitude and height",
                "front roller, height kept",
                "the rollers",
                "rear roller, height kept",
                "attitude and height",
            ];
            if !is_by_rollers {
                ways.rotate_left(2);
            }
            for way in ways {
                window.click(way);
                let setting = &window.document().setting;
                let moves = setting.rollers.as_ref();
                let has = |name: &str| way == "the rollers" || way.starts_with(name);
                assert_eq!(moves.is_some_and(|m| m.front_move.is_some()), has("front"));
                assert_eq!(moves.is_some_and(|m| m.rear_move.is_some()), has("rear"));
                assert_eq!(setting.attitude.is_none(), way != "attitude and height");
                assert_eq!(setting.height_of_cut.is_none(), way == "the rollers");
                let off_mm = moved_mm(&before, &pose(window.document()));
                assert!(off_mm < 1e-6, "{off_mm} mm with {setting:?}");
                window.assert_silent("Not current");
            }
        }
    }
}

#[test]
fn given_rollers_show_what_follows_from_them() {
    let mut window = Window::demo();
    window.click("the rollers");
    window.enter_text("Rear roller moved", "-1/8 in");
    let unit = demo_set("rollers: (front_move: \"0 in\", rear_move: \"-1/8 in\")");
    assert_shows(&window, &unit);
    let follows = format!(
        "{}, follows from the rollers",
        System::InchDecimal.angle(pose(&unit).attitude)
    );
    window.assert_says(&follows);
    window.click("Left alone, both 0");
    assert!(moved_mm(&pose(&document(DEMO_UNIT)), &pose(window.document())) < 1e-6);
}

#[test]
fn a_spacer_at_the_rear_keeps_the_height_and_the_front_adjusters_follow() {
    let mut window = Window::demo();
    window.click("rear roller, height kept");
    window.type_over("Rear roller moved", "-1/8 in");
    let unit = demo_set("rollers: (rear_move: \"-1/8 in\"), height_of_cut: \"0.5 in\"");
    let found = pose(&unit);
    assert_shows(&window, &unit);
    let attitude = System::InchDecimal.angle(found.attitude);
    window.assert_says(&format!("{attitude}, follows from the rollers"));
    window.assert_says(&System::InchDecimal.roller_move(found.front_roller.moved));
    // The height is still a wish: it can be set beside the roller.
    window.enter_text("Height of cut", "0.45 in");
    assert!((pose(window.document()).height_of_cut.inches() - 0.45).abs() < 1e-9);
    window.assert_silent("Not current");
}

#[test]
fn a_roller_move_that_is_cleared_can_be_typed_anew() {
    let mut window = Window::demo();
    window.click("the rollers");
    window.type_over("Front roller moved", "");
    // One roller is given now, and the height is kept.
    let attitude = System::InchDecimal.angle(pose(window.document()).attitude);
    window.assert_says(&format!("{attitude}, follows from the rollers"));
    assert_eq!(window.placeholder("Height of cut"), "as measured");
    window.type_over("Front roller moved", "1/16 in");
    let moves = window.document().setting.rollers.as_ref().expect("given");
    assert!(moves.are_both());
    window.assert_silent("Not current");
}

// The form.

#[test]
fn fitting_a_knife_changes_the_solution() {
    let mut window = Window::demo();
    window.choose("Knife fitted", "short");
    assert_shows(&window, &demo_set("knife: \"short\""));
    let short = window.number("Sweep");
    window.choose("Knife fitted", "reaching");
    assert_shows(&window, &demo_set("knife: \"reaching\""));
    assert_ne!(window.number("Sweep"), short);
    window.choose("Knife fitted", "plain (as measured)");
    assert_eq!(window.document(), &document(DEMO_UNIT));
}

#[test]
fn a_knife_is_added_renamed_while_fitted_and_removed() {
    let mut window = Window::demo();
    window.unfold_one("Knives to compare");
    window.click("Add a knife to compare");
    window.click("Add a knife to compare");
    let names: Vec<_> = window.document().options.iter().map(|k| &k.name).collect();
    assert_eq!(names, ["reaching", "short", "heavy", "knife 1", "knife 2"]);
    window.choose("Knife fitted", "knife 1");
    window.enter_text("Knife name, 4", "long");
    assert_eq!(window.document().setting.knife.as_deref(), Some("long"));
    window.enter_text("Reach, 4", "1.7 in");
    let plain = pose(&document(DEMO_UNIT)).sweep().below_cut;
    let long = pose(window.document()).sweep().below_cut;
    assert!(long.mm() < plain.mm(), "a longer reach sweeps less");
    window.enter_text("Price, 4", "61.20");
    assert_eq!(window.document().options[3].price.as_deref(), Some("61.20"));
    window.click("Remove long");
    assert_eq!(window.document().options.len(), 4);
    assert_eq!(window.document().setting.knife, None);
    for name in ["reaching", "short", "heavy", "knife 2"] {
        window.click(&format!("Remove {name}"));
    }
    assert!(window.document().options.is_empty());
    window.assert_silent("Not current");
}

#[test]
fn two_knives_of_one_name_are_told_apart_before_anything_is_drawn() {
    let mut window = Window::demo();
    window.unfold_one("Knives to compare");
    window.enter_text("Knife name, 2", "reaching");
    let reason = "two knives are called \"reaching\"";
    let beside = window.texts();
    let beside = beside.iter().filter(|text| text.starts_with(reason));
    assert_eq!(beside.count(), 1, "once beside the field");
    window.assert_says(NUMBERS_NOT_CURRENT);
    window.enter_text("Knife name, 2", "short");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    window.assert_silent("Not current");
}

#[test]
fn hardware_is_added_measured_and_removed() {
    let mut window = Window::demo();
    window.unfold_one("Hardware under the knife");
    window.click("Add a point");
    assert_eq!(window.document().hardware.len(), 3);
    let before = window.number("Underside above plate");
    window.enter_text("Point 3, below", "0.5 in");
    assert_ne!(window.number("Underside above plate"), before);
    window.enter_text("Point 2, behind", "far");
    window.assert_says("Not current");
    window.click("Remove point 2");
    window.assert_silent("Not current");
    assert_eq!(window.document().hardware[1].below.text(), "0.5 in");
    window.click("Remove point 2");
    window.click("Remove point 1");
    assert!(window.document().hardware.is_empty());
    assert_shows(&window, &window.document().clone());
}

#[test]
fn every_way_of_closing_the_gap_can_be_chosen_and_measured() {
    let mut window = Window::demo();
    window.enter_text("Reel diameter", "6.7 in");
    window.unfold_one("Reel-to-knife adjustment");
    let slides = window.number("Behind centre");
    window.choose("Adjusted by", "Reel swings on a pivot");
    assert!(matches!(
        window.document().closing,
        ClosingReadings::ReelPivots { .. }
    ));
    window.enter_text("Pivot, ahead of edge", "-5 in");
    window.enter_text("Pivot, above plate", "5 in");
    assert_shows(&window, &window.document().clone());
    assert_ne!(window.number("Behind centre"), slides);
    window.choose("Adjusted by", "Bed bar turns on a pivot");
    let ClosingReadings::KnifePivots { ahead, above } = &window.document().closing else {
        panic!("{:?}", window.document().closing);
    };
    assert_eq!((ahead.text(), above.text()), ("-5 in", "5 in"));
    window.enter_text("Pivot, above plate", "high");
    window.choose("Adjusted by", "Reel slides");
    window.assert_silent("Not current");
    window.enter_text("Lean of the slide", "10");
    assert_shows(&window, &window.document().clone());
    window.enter_text("Lean of the slide", "");
    assert_eq!(
        window.document().closing,
        ClosingReadings::ReelSlides { lean: None }
    );
    assert_eq!(window.number("Behind centre"), slides);
}

#[test]
fn the_shape_of_the_ground_changes_what_the_reel_clears() {
    let mut window = Window::demo();
    window.unfold_one("Ground");
    let level = window.number("Reel above ground");
    window.choose("Shape", "Crest");
    let crest = window.number("Reel above ground");
    assert_ne!(crest, level);
    window.enter_text("Radius", "10 ft");
    assert_ne!(window.number("Reel above ground"), crest);
    window.choose("Shape", "Hollow");
    let ShapeEntry::Hollow(radius) = &window.document().ground.shape else {
        panic!("{:?}", window.document().ground.shape);
    };
    assert_eq!(radius.text(), "10 ft");
    assert_shows(&window, &window.document().clone());
    window.enter_text("Radius", "wide");
    window.choose("Shape", "Level");
    window.assert_silent("Not current");
    window.enter_text("Roller sink", "2 mm");
    assert_ne!(window.number("Reel above ground"), level);
}

#[test]
fn mowing_speeds_come_and_go() {
    let mut window = Window::demo();
    window.unfold_one("Mowing");
    window.click("Speeds are known");
    assert_eq!(window.document().mowing, None);
    window.assert_silent("Clip length");
    window.assert_silent("Ground speed");
    window.click("Speeds are known");
    assert!(window.document().mowing.is_some());
    let before = window.number("Clip length");
    window.enter_text("Ground speed", "8 km/h");
    window.enter_text("Reel speed", "700");
    assert_shows(&window, &window.document().clone());
    assert_ne!(window.number("Clip length"), before);
    window.enter_text("Reel speed", "fast");
    window.click("Speeds are known");
    window.assert_silent("Not current");
}

#[test]
fn limits_of_ones_own_take_the_place_of_the_starting_ones() {
    let mut window = Window::demo();
    window.unfold_one("Limits");
    let fields = [
        ("Sweep, watch above", "0.1"),
        ("Sweep, over limit above", "0.2 %"),
        ("Underside, minimum", "2 mm"),
        ("Ahead of centre, maximum", "1 mm"),
        ("Clip ÷ height of cut, watch", "0.4"),
        ("Clip ÷ height of cut, over limit", "50 %"),
    ];
    window.assert_silent("Sweep: over");
    for (name, text) in fields {
        window.enter_text(name, text);
    }
    window.assert_says("Sweep: over");
    assert_shows(&window, &window.document().clone());
    window.click("Attitude range of the brackets is known");
    window.enter_text("Attitude, minimum", "1");
    window.enter_text("Attitude, maximum", "3");
    window.assert_says("Roller brackets: over");
    assert_shows(&window, &window.document().clone());
    window.enter_text("Attitude, minimum", "8");
    window.assert_says(NUMBERS_NOT_CURRENT);
    window.click("Attitude range of the brackets is known");
    window.assert_silent("Not current");
    for (name, _) in fields {
        window.enter_text(name, "");
    }
    assert_eq!(window.document(), &document(DEMO_UNIT));
}

#[test]
fn turf_reel_rollers_and_grinding_are_taken_from_the_form() {
    let mut window = Window::demo();
    window.unfold();
    window.choose("Turf", "Green");
    window.enter_text("Name", "Example Ground, spare");
    for (name, text) in [
        ("Reel, new", "7.1 in"),
        ("Reel, minimum (scrap)", "6.4 in"),
        ("Blades", "9"),
        ("Front, diameter", "2-3/4 in"),
        ("Front, ahead of edge", "5.4 in"),
        ("Rear, diameter", "2.25"),
        ("Rear, behind edge", "4.1 in"),
        ("Gap", "2 thou"),
        ("Metal off top face", "5 thou"),
        ("Metal off front face", "8 thou"),
        ("Lip length", "0.52"),
    ] {
        window.enter_text(name, text);
        window.assert_silent("Not current");
    }
    let unit = window.document();
    assert_eq!(unit.turf, Turf::Green);
    assert_eq!(unit.name, "Example Ground, spare");
    assert_eq!(unit.reel.new_diameter.text(), "7.1 in");
    assert_eq!(unit.reel.smallest_diameter.text(), "6.4 in");
    assert_eq!(unit.reel.blades, 9);
    assert_eq!(unit.bench.front_roller.diameter.text(), "2-3/4 in");
    assert_eq!(unit.bench.front_roller.ahead.text(), "5.4 in");
    assert_eq!(unit.bench.rear_roller.diameter.text(), "2.25 in");
    assert_eq!(unit.bench.rear_roller.behind.text(), "4.1 in");
    assert_eq!(unit.knife.lip_length.text(), "0.52 in");
    let setting = &unit.setting;
    let text = |entry: &Option<Quantity<Length>>| entry.as_ref().unwrap().text().to_owned();
    assert_eq!(text(&setting.gap), "2 thou");
    assert_eq!(text(&setting.top_ground), "5 thou");
    assert_eq!(text(&setting.face_ground), "8 thou");
    assert_shows(&window, &unit.clone());
}

// The drawing.

#[test]
fn dragging_a_handle_moves_its_value_the_way_it_is_dragged() {
    for (name, by, is_more) in [
        ("Reel diameter", Vec2::new(12.0, -10.0), true),
        ("Reel diameter", Vec2::new(-12.0, 10.0), false),
        ("Edge forward", Vec2::new(48.0, 0.0), true),
        ("Edge forward", Vec2::new(-48.0, 0.0), false),
        ("Attitude", Vec2::new(0.0, -42.0), true),
        ("Attitude", Vec2::new(0.0, 42.0), false),
    ] {
        let mut window = Window::demo_as_wanted();
        // Worn so far that it can be larger and smaller.
        window.type_over("Reel diameter", "6.7 in");
        window.settle();
        let handle = window.button(&format!("{name} handle")).rect().center();
        window.drag(handle, by);
        let setting = &window.document().setting;
        let change = match name {
            "Attitude" => setting.attitude.as_ref().unwrap().value().deg() - 4.0,
            "Edge forward" => length_mm(setting.extension.as_ref()),
            _ => length_mm(setting.reel_diameter.as_ref()) - 6.7 * 25.4,
        };
        assert!(change.abs() > 0.3, "{name} by {by:?}: {change}");
        assert_eq!(change > 0.0, is_more, "{name} by {by:?}: {change}");
        let entry = window.entry(name);
        assert!(entry.ends_with(" in") || entry.ends_with(" deg"), "{entry}");
        assert_shows(&window, &window.document().clone());
        if name != "Reel diameter" {
            // The drawing stands on its plate under the edge: an extension moves the rest of the
            // unit, and at any attitude the rear roller is set to rest on the plate.
            continue;
        }
        let after = window.button(&format!("{name} handle")).rect().center();
        let followed = (after - handle).dot(by) / by.length_sq();
        assert!(
            (0.3..1.2).contains(&followed),
            "the handle stays by the pointer, though the drawing fits again: {name}, {followed} of {by:?}"
        );
    }
}

#[test]
fn a_drag_takes_the_place_of_what_is_being_typed() {
    let mut window = Window::demo();
    window.type_over("Attitude", "5");
    let handle = window.button("Attitude handle").rect().center();
    window.drag(handle, Vec2::new(0.0, -14.0));
    let set = window.document().setting.attitude.clone().unwrap();
    assert!(set.value().deg() > 5.1);
    assert_eq!(window.entry("Attitude"), set.text());
}

#[test]
fn with_the_rollers_given_the_back_handle_moves_the_rear_roller() {
    let mut window = Window::demo();
    window.click("the rollers");
    let handle = window.button("Rear roller handle").rect().center();
    window.drag(handle, Vec2::new(0.0, -14.0));
    let rollers = window.document().setting.rollers.as_ref().unwrap();
    assert!(
        rollers.rear_move.as_ref().unwrap().value().mm() < -0.3,
        "lifting the back moves the roller away from the reel: {rollers:?}"
    );
    let front = rollers.front_move.as_ref().unwrap();
    assert_eq!(front.value(), Length::ZERO);
}

#[test]
fn arrow_keys_step_the_handle_in_hand_and_shift_makes_them_finer() {
    let inch = 25.4;
    for (name, key, step) in [
        ("Attitude", Key::ArrowUp, 0.05),
        ("Attitude", Key::ArrowLeft, -0.05),
        ("Edge forward", Key::ArrowRight, 0.005 * inch),
        ("Edge forward", Key::ArrowDown, -0.005 * inch),
        ("Reel diameter", Key::ArrowUp, 0.005 * inch),
        ("Reel diameter", Key::ArrowLeft, -0.005 * inch),
    ] {
        let mut window = Window::demo_as_wanted();
        let handle = format!("{name} handle");
        window.button(&handle).focus();
        window.settle();
        let moved = |window: &Window| {
            let setting = &window.document().setting;
            match name {
                "Attitude" => setting.attitude.as_ref().unwrap().value().deg() - 4.0,
                "Edge forward" => length_mm(setting.extension.as_ref()),
                _ => length_mm(setting.reel_diameter.as_ref()) - 6.9 * inch,
            }
        };
        window.press(key);
        window.press(key);
        assert!((moved(&window) - 2.0 * step).abs() < 1e-9, "{name}");
        let told = window.button(&handle).value().expect("its value");
        let told = match name {
            "Attitude" => Quantity::<Angle>::parse(&told).unwrap().value().deg() - 4.0,
            "Edge forward" => Quantity::<Length>::parse(&told).unwrap().value().mm(),
            _ => Quantity::<Length>::parse(&told).unwrap().value().mm() - 6.9 * inch,
        };
        assert!((told - 2.0 * step).abs() < 1e-9, "{name}: {told}");
        window.press_with(Modifiers::SHIFT, key);
        assert!((moved(&window) - 2.1 * step).abs() < 1e-9, "{name}");
        assert!(window.button(&handle).is_focused(), "{name} keeps the keys");
        assert_shows(&window, &window.document().clone());
        for _ in 0..3 {
            window.press_with(Modifiers::COMMAND, Key::Z);
        }
        assert_eq!(window.document(), &document(DEMO_UNIT), "a step a press");
    }
}

#[test]
fn arrow_keys_move_the_roller_that_is_given() {
    for (given, name, moves) in [
        (
            "front_move: \"0 mm\", rear_move: \"0 mm\"",
            "Rear",
            [0.0, -0.005],
        ),
        ("front_move: \"0 mm\"", "Front", [0.005, 0.0]),
    ] {
        let setting = format!("rollers: Some(({given}))");
        let mut window = Start::on(demo_set(&setting)).window();
        window.button(&format!("{name} roller handle")).focus();
        window.settle();
        window.press(Key::ArrowUp);
        let rollers = window.document().setting.rollers.as_ref().unwrap();
        let moved = [&rollers.front_move, &rollers.rear_move];
        for (entry, inches) in moved.into_iter().zip(moves) {
            let by = entry.as_ref().map_or(0.0, |entry| entry.value().inches());
            assert!((by - inches).abs() < 1e-9, "{name}: {rollers:?}");
        }
        window.click("Edit");
        window.assert_says(&format!("Undo {}", name.to_lowercase()));
    }
}

#[test]
fn a_double_click_on_a_handle_goes_back_to_the_bench() {
    let mut window = Start::on(demo_set(
        "attitude: \"9 deg\", reel_diameter: \"6.6 in\", extension: \"0.1 in\"",
    ))
    .window();
    for name in [
        "Attitude handle",
        "Reel diameter handle",
        "Edge forward handle",
    ] {
        let at = window.button(name).rect().center();
        window.double_click(at);
    }
    assert_eq!(window.document().setting, SettingEntry::default());
}

#[test]
fn looking_around_in_the_drawing_changes_nothing_but_the_view() {
    let mut window = Window::demo();
    let solved = window.generation();
    let at = |window: &Window| window.button("Reel diameter handle").rect().center();
    let fitted = at(&window);
    window.click("Larger");
    assert_ne!(at(&window), fitted);
    window.click("Show all");
    assert_eq!(at(&window), fitted);
    window.click("Lens");
    assert_ne!(at(&window), fitted, "the drawing has the lens' room");
    window.click("As measured, in outline");
    window.click("Turf");
    window.click("On plate");
    window.click("Lens");
    assert_eq!(at(&window), fitted);
    for scale in ["10:1", "fitted"] {
        window.choose("Lens scale", scale);
    }
    assert_eq!(window.generation(), solved);
    assert_eq!(window.document(), &document(DEMO_UNIT));
}

// Files.

#[test]
fn an_edit_shows_the_unsaved_mark_and_undoing_it_takes_the_mark_away() {
    let mut window = Window::demo();
    window.assert_silent(UNSAVED);
    window.take_commands();
    window.enter_text("Attitude", "5");
    window.assert_says(UNSAVED);
    let marked = "• Example Ground, trailed gang, number 3 - Sweepgauge";
    assert!(
        window
            .take_commands()
            .contains(&ViewportCommand::Title(marked.to_owned()))
    );
    window.enter_text("Attitude", "");
    window.assert_silent(UNSAVED);
    let unmarked = marked.trim_start_matches("• ").to_owned();
    assert!(
        window
            .take_commands()
            .contains(&ViewportCommand::Title(unmarked))
    );
}

fn file_menu(window: &mut Window, item: &str) {
    window.click("File");
    let name = window
        .texts()
        .into_iter()
        .find(|text| text == item || text.starts_with(&format!("{item} ")))
        .unwrap_or_else(|| panic!("no \"{item}\" in the menu: {:#?}", window.texts()));
    window.click(&name);
}

#[test]
fn save_writes_the_file_the_unit_was_opened_from() {
    let (_folder, file) = folder_with_demo("gang.ron");
    let answers = Answers::default();
    let mut window = Start::on_file(&file).asking(&answers).window();
    window.enter_text("Attitude", "5");
    file_menu(&mut window, "Save");
    let wanted = demo_set("attitude: \"5 deg\"");
    assert_eq!(open_unit(&file).unwrap(), wanted);
    window.assert_silent(UNSAVED);
    window.assert_says(&format!("Saved {}", file.display()));
    window.enter_text("Attitude", "6");
    window.press_with(Modifiers::COMMAND, Key::S);
    assert_eq!(open_unit(&file).unwrap(), demo_set("attitude: \"6 deg\""));
    assert!(answers.offered().is_empty(), "nobody was asked where");
}

#[test]
fn save_as_writes_where_it_is_told_and_goes_on_there() {
    let (folder, file) = folder_with_demo("gang.ron");
    let answers = Answers::default();
    let mut window = Start::on_file(&file).asking(&answers).window();
    window.enter_text("Attitude", "5");
    file_menu(&mut window, "Save as…");
    assert_eq!(answers.offered(), ["gang.ron"]);
    window.assert_says(UNSAVED);
    answers.save(&folder.path().join("other"));
    window.press_with(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::S);
    let other = folder.path().join("other.ron");
    assert_eq!(open_unit(&other).unwrap(), demo_set("attitude: \"5 deg\""));
    assert_eq!(open_unit(&file).unwrap(), document(DEMO_UNIT));
    assert_eq!(window.app().session().file(), Some(other.as_path()));
    window.assert_silent(UNSAVED);
}

#[test]
fn a_unit_without_a_file_is_offered_its_own_name_to_save_under() {
    let folder = TempDir::new().unwrap();
    let answers = Answers::default();
    let mut window = Start::on(document(DEMO_UNIT)).asking(&answers).window();
    answers.save(&folder.path().join("new.ron"));
    file_menu(&mut window, "Save");
    assert_eq!(
        answers.offered(),
        ["example-ground-trailed-gang-number-3.ron"]
    );
    assert_eq!(
        open_unit(&folder.path().join("new.ron")).unwrap(),
        document(DEMO_UNIT)
    );
}

#[test]
fn a_save_that_fails_says_so_and_loses_nothing() {
    let folder = TempDir::new().unwrap();
    let answers = Answers::default();
    answers.save(&folder.path().join("missing").join("unit.ron"));
    let mut window = Start::on(document(DEMO_UNIT)).asking(&answers).window();
    window.enter_text("Attitude", "5");
    file_menu(&mut window, "Save");
    window.assert_says("missing");
    window.assert_says(UNSAVED);
    assert_eq!(window.app().session().file(), None);
}

#[test]
fn a_wrong_text_blocks_saving_and_is_named() {
    let (_folder, file) = folder_with_demo("gang.ron");
    let mut window = Start::on_file(&file).window();
    window.enter_text("Attitude", "5");
    window.enter_text("Height of cut", "half");
    window.press_with(Modifiers::COMMAND, Key::S);
    window.assert_says("Not saved. The field \"Height of cut\" holds \"half\"");
    assert_eq!(open_unit(&file).unwrap(), document(DEMO_UNIT));
    window.assert_says(UNSAVED);
    window.click("Close");
    window.assert_silent("Not saved.");
}

#[test]
fn a_unit_that_could_not_be_opened_again_is_not_saved() {
    let (_folder, file) = folder_with_demo("gang.ron");
    let mut window = Start::on_file(&file).window();
    window.enter_text("Gap, as measured", "-1 mm");
    window.press_with(Modifiers::COMMAND, Key::S);
    window.assert_says("Not saved");
    window.assert_says("must not be negative");
    assert_eq!(open_unit(&file).unwrap(), document(DEMO_UNIT));
}

#[test]
fn new_opens_at_once_when_nothing_would_be_lost() {
    let mut window = Start::on(demo_set("attitude: \"5 deg\"")).window();
    window.press_with(Modifiers::COMMAND, Key::N);
    window.assert_silent(ASKING);
    assert_eq!(window.document().name, "New unit");
    assert_eq!(window.document().setting, SettingEntry::default());
    assert_eq!(window.app().session().file(), None);
    window.assert_silent(UNSAVED);
}

#[test]
fn keep_editing_keeps_the_unit_and_its_changes() {
    for key in [Key::N, Key::O] {
        let (_folder, file) = folder_with_demo("gang.ron");
        let answers = Answers::default();
        answers.open(&file);
        let mut window = Start::on(document(DEMO_UNIT)).asking(&answers).window();
        window.enter_text("Attitude", "5");
        window.press_with(Modifiers::COMMAND, key);
        window.assert_says(ASKING);
        assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
        window.click("Keep editing");
        window.assert_silent(ASKING);
        assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
        window.press_with(Modifiers::COMMAND, key);
        window.press(Key::Escape);
        window.assert_silent(ASKING);
        assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
    }
}

#[test]
fn discard_changes_goes_on_without_saving() {
    let (_folder, file) = folder_with_demo("gang.ron");
    let answers = Answers::default();
    answers.open(&DemoUnit::RollersGiven.file());
    let mut window = Start::on_file(&file).asking(&answers).window();
    window.enter_text("Attitude", "5");
    window.enter_text("Height of cut", "wrong");
    file_menu(&mut window, "Open…");
    window.assert_says(ASKING);
    window.assert_says("The field \"Height of cut\" holds \"wrong\"");
    window.click("Discard changes");
    window.assert_silent(ASKING);
    assert_eq!(window.document(), &DemoUnit::RollersGiven.document());
    assert_eq!(open_unit(&file).unwrap(), document(DEMO_UNIT));
    window.assert_silent(UNSAVED);
    window.assert_silent("Not current");
    assert_shows(&window, &DemoUnit::RollersGiven.document());
}

#[test]
fn save_saves_before_it_goes_on() {
    let (_folder, file) = folder_with_demo("gang.ron");
    let mut window = Start::on_file(&file).window();
    window.enter_text("Attitude", "5");
    file_menu(&mut window, "New");
    window.click("Save");
    assert_eq!(open_unit(&file).unwrap(), demo_set("attitude: \"5 deg\""));
    assert_eq!(window.document().name, "New unit");
}

#[test]
fn save_that_cannot_save_stays_with_the_unit() {
    let (_folder, file) = folder_with_demo("gang.ron");
    let mut window = Start::on_file(&file).window();
    window.enter_text("Attitude", "wrong");
    window.press_with(Modifiers::COMMAND, Key::N);
    window.assert_says(ASKING);
    window.assert_says("It cannot be saved yet. The field \"Attitude\" holds \"wrong\"");
    assert!(window.button("Save").accesskit_node().is_disabled());
    window.click("Keep editing");
    window.assert_silent(ASKING);
    assert_eq!(window.entry("Attitude"), "wrong");
    assert_eq!(window.app().session().file(), Some(file.as_path()));
}

#[test]
fn a_broken_file_is_told_and_leaves_the_unit_as_it_was() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("broken.ron");
    fs::write(&file, DEMO_UNIT.replace("\"0.5 in ± 0.005 in\"", "\"low\"")).unwrap();
    let answers = Answers::default();
    answers.open(&file);
    let mut window = Start::on(document(DEMO_UNIT)).asking(&answers).window();
    window.press_with(Modifiers::COMMAND, Key::O);
    window.assert_says("Not opened:");
    window.assert_says("broken.ron");
    window.assert_says("bench.height_of_cut");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    assert_eq!(window.app().session().file(), None);
    assert!(window.app().preferences().recent.is_empty());
}

#[test]
fn a_file_dropped_on_the_window_opens() {
    let file = DemoUnit::GreensWalking.file();
    let mut window = Window::demo();
    window.drop_file(&file);
    assert_eq!(window.document(), &open_unit(&file).unwrap());
    window.enter_text("Attitude", "5");
    window.drop_file(&DemoUnit::FairwayTrailed.file());
    window.assert_says(ASKING);
    window.click("Discard changes");
    assert_eq!(window.document(), &DemoUnit::FairwayTrailed.document());
}

#[test]
fn recent_files_are_listed_the_latest_first_and_open_again() {
    let (scalping, walking) = (DemoUnit::GreensScalping, DemoUnit::GreensWalking);
    let mut window = Window::demo();
    window.drop_file(&scalping.file());
    window.drop_file(&walking.file());
    let recent = &window.app().preferences().recent;
    assert_eq!(recent, &[walking.file(), scalping.file()]);
    window.click("File");
    let menu = window.texts();
    let name = menu.iter().find(|text| text.starts_with("Recent")).unwrap();
    window.click(name);
    let place = |name: &str| {
        let name = name.to_owned();
        let texts = window.texts();
        texts.iter().position(|text| *text == name).unwrap()
    };
    let called = |unit: DemoUnit| {
        let (name, file) = (unit.file_name(), unit.file());
        format!("{name}, in {}", file.parent().unwrap().display())
    };
    assert!(place(&called(walking)) < place(&called(scalping)));
    window.click(&called(scalping));
    assert_eq!(window.document(), &scalping.document());
    assert_eq!(window.app().preferences().recent[0], scalping.file());
}

#[test]
fn a_recent_file_that_is_gone_is_told_and_forgotten() {
    let (folder, file) = folder_with_demo("gone.ron");
    let mut window = Window::demo();
    window.drop_file(&file);
    drop(folder);
    window.drop_file(&file);
    // What is open is in no file any more.
    window.click("Discard changes");
    window.assert_says("Not opened:");
    assert!(window.app().preferences().recent.is_empty());
    assert_eq!(window.document(), &document(DEMO_UNIT));
}

#[test]
fn closing_without_changes_asks_nothing() {
    let mut window = Window::demo();
    assert!(window.would_close());
    window.assert_silent(ASKING);
}

#[test]
fn closing_with_changes_asks_first_and_each_answer_does_what_it_says() {
    let (_folder, file) = folder_with_demo("gang.ron");
    for answer in ["Keep editing", "Discard changes", "Save"] {
        let mut window = Start::on_file(&file).window();
        window.enter_text("Attitude", "5.5");
        assert!(!window.would_close());
        window.assert_says(ASKING);
        window.take_commands();
        window.button(answer).click();
        (0..4).for_each(|_| {
            window.step();
        });
        assert_eq!(window.has_closed(), answer != "Keep editing", "{answer}");
        window.assert_silent(ASKING);
        let saved = open_unit(&file).unwrap().setting.attitude;
        assert_eq!(saved.is_some(), answer == "Save", "{answer}");
    }
}

#[test]
fn a_wrong_text_alone_holds_the_window_open() {
    let mut window = Window::demo();
    window.enter_text("Attitude", "wrong");
    assert!(!window.would_close());
    window.assert_says(ASKING);
}

#[test]
fn nothing_in_the_form_can_be_changed_while_the_window_asks() {
    let mut window = Window::demo();
    window.enter_text("Attitude", "5");
    window.press_with(Modifiers::COMMAND, Key::N);
    window.assert_says(ASKING);
    window.field("Height of cut").focus();
    window.settle();
    window.harness.event(egui::Event::Text("7".to_owned()));
    window.settle();
    assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
}

// The start, and about.

#[test]
fn the_first_steps_are_shown_when_asked_for() {
    let mut window = Window::demo();
    window.assert_silent("1  Measure");
    window.click("First steps");
    window.assert_says("1  Measure");
    for caution in CAUTION {
        window.assert_says(caution);
    }
    window.press(Key::Escape);
    window.assert_silent("1  Measure");
}

#[test]
fn about_has_every_caution() {
    let mut window = Window::demo();
    window.assert_silent(CAUTION[0]);
    window.click("About");
    for caution in CAUTION {
        window.assert_says(caution);
    }
    window.assert_says(env!("CARGO_PKG_VERSION"));
    window.click("Close");
    window.assert_silent(CAUTION[0]);
}

#[test]
fn the_demo_unit_opens() {
    let session = Session::demo().unwrap();
    assert_eq!(*session.document(), document(DEMO_UNIT));
    let mut start = Start::on(document(DEMO_UNIT));
    start.session = session;
    let window = start.window();
    assert_shows(&window, &document(DEMO_UNIT));
    window.assert_says("Side view of the unit");
    window.assert_silent("Not current");
}

// At rest.

#[test]
fn a_window_nobody_touches_rests() {
    let mut window = Window::demo();
    let assert_rests = |window: &mut Window, what: &str| {
        let solved = window.generation();
        window.take_commands();
        for _ in 0..5 {
            assert_eq!(window.step(), Duration::MAX, "{what}");
        }
        assert_eq!(window.generation(), solved, "{what}");
        assert_eq!(window.take_commands(), [], "{what}");
    };
    assert_rests(&mut window, "as it opens");
    window.unfold();
    assert_rests(&mut window, "with every group open");
    window.enter_text("Attitude", "5");
    assert_rests(&mut window, "after an edit");
    window.enter_text("Attitude", "wrong");
    assert_rests(&mut window, "with a wrong text");
    window.enter_text("Attitude", "5");
    window.enter_text("Behind centre, as measured", "4 in");
    assert_rests(&mut window, "with an impossible unit");
    window.click("About");
    assert_rests(&mut window, "with its cautions open");
}

#[test]
fn one_edit_is_solved_once() {
    let mut window = Window::demo();
    let solved = window.generation();
    window.enter_text("Attitude", "5");
    assert_eq!(window.generation(), solved + 1);
    window.click("mm");
    window.click("View");
    window.click("Dark");
    window.unfold();
    window.click("Larger");
    assert_eq!(window.generation(), solved + 1);
}

// Names, words and looks.

fn is_interactive(role: Role) -> bool {
    matches!(
        role,
        Role::Button
            | Role::CheckBox
            | Role::ComboBox
            | Role::DisclosureTriangle
            | Role::Link
            | Role::MenuItem
            | Role::RadioButton
            | Role::Slider
            | Role::SpinButton
            | Role::Splitter
            | Role::Switch
            | Role::Tab
            | Role::TextInput
            | Role::MultilineTextInput
    )
}

#[test]
fn everything_a_person_can_reach_has_a_name_of_its_own() {
    for file in DemoUnit::files() {
        let mut window = Start::on_file(&file).window();
        window.unfold();
        for step in [MEASURED, WANTED] {
            window.click(step);
            let mut names: BTreeMap<(String, String), usize> = BTreeMap::new();
            let mut count = 0;
            for node in window.nodes() {
                let node = node.accesskit_node();
                let is_reached = is_interactive(node.role())
                    || node.data().supports_action(Action::Focus)
                    || node.data().supports_action(Action::Click);
                if !is_reached || matches!(node.role(), Role::Label | Role::ScrollBar) {
                    continue;
                }
                count += 1;
                let name = node.label().unwrap_or_default();
                assert!(
                    !name.trim().is_empty(),
                    "a {:?} without a name",
                    node.role()
                );
                *names
                    .entry((format!("{:?}", node.role()), name))
                    .or_default() += 1;
            }
            assert!(count > 40, "only {count} widgets were looked at");
            // The two edges between panels are the toolkit's, and called alike.
            names.retain(|(role, _), times| *times > 1 && role != "Splitter");
            assert!(names.is_empty(), "names given twice: {names:?}");
        }
    }
}

#[test]
fn every_group_reads_in_every_system_and_in_light_and_dark() {
    for theme in [egui::Theme::Light, egui::Theme::Dark] {
        for file in DemoUnit::files() {
            let mut start = Start::on_file(&file);
            start.theme = theme;
            let mut window = start.window();
            window.unfold();
            for system in System::ALL {
                window.click(system.name());
                assert_shows(&window, &window.document().clone());
            }
        }
    }
}

#[test]
fn light_and_dark_are_chosen_in_the_window_and_remembered() {
    let mut window = Window::demo();
    for (name, theme) in [("Dark", egui::Theme::Dark), ("Light", egui::Theme::Light)] {
        window.click("View");
        window.click(name);
        assert_eq!(window.harness.ctx.theme(), theme);
        let is_dark = theme == egui::Theme::Dark;
        assert_eq!(window.app().preferences().is_dark, Some(is_dark));
        assert_shows(&window, &document(DEMO_UNIT));
    }
}

#[test]
fn resting_on_a_name_tells_what_it_means() {
    // Long frames, so that a tip does not have to be waited for.
    let mut start = Start::on(document(DEMO_UNIT));
    start.pace = 0.5;
    let mut window = start.window();
    window.unfold();
    let rest_on = |window: &mut Window, at: egui::Pos2| -> BTreeSet<String> {
        window.harness.remove_cursor();
        window.step();
        window.step();
        let before: BTreeSet<_> = window.texts().into_iter().collect();
        window.harness.hover_at(at);
        (0..4).for_each(|_| {
            window.step();
        });
        window
            .texts()
            .into_iter()
            .filter(|text| !before.contains(text))
            .collect()
    };
    let fields: Vec<_> = window
        .nodes()
        .iter()
        .filter(|node| node.accesskit_node().role() == Role::TextInput)
        .map(|node| (node.accesskit_node().label().unwrap(), node.rect()))
        .map(|(name, field)| {
            let is_beside = |at: egui::Rect| {
                at.right() <= field.left() && at.y_range().contains(field.center().y)
            };
            let is_over = |at: egui::Rect| {
                let gap = field.top() - at.bottom();
                (-2.0..8.0).contains(&gap) && (at.left() - field.left()).abs() < 8.0
            };
            let nodes = window.nodes();
            let label = nodes.iter().find(|node| {
                let label = node.accesskit_node();
                label.role() == Role::Label
                    && label.value().is_some_and(|label| name.starts_with(&label))
                    && (is_beside(node.rect()) || is_over(node.rect()))
            });
            let label = label.unwrap_or_else(|| panic!("\"{name}\" stands beside no field"));
            (name, label.rect().center())
        })
        .collect();
    assert!(fields.len() > 50);
    for (name, at) in fields {
        let told = rest_on(&mut window, at);
        let meaning = told.iter().any(|text| text.len() > 20);
        assert!(meaning, "{name}: {told:?}");
    }
}

proptest! {
    #![proptest_config(by_chance(6))]

    #[test]
    fn nothing_typed_into_any_field_makes_the_window_panic(text in "[-+0-9a-z/.,± \"']{0,10}") {
        let mut window = Window::demo();
        window.unfold();
        for step in [MEASURED, WANTED] {
            window.click(step);
            let names: Vec<_> = window
                .nodes()
                .iter()
                .filter(|node| node.accesskit_node().role() == Role::TextInput)
                .filter_map(|node| node.accesskit_node().label())
                .collect();
            for name in names {
                window.type_over(&name, &text);
            }
        }
        window.assert_says(WANTED);
    }
}
