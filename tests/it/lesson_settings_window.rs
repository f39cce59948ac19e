//! What is typed for a lesson's step in the Lesson area, by accessible name: a setting and a ground that lead
//! back to where the step had them from, and what stands wrong, which is kept, told, left out and taken back.

use std::fs;
use std::path::Path;

use egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::app::Beginning;
use sweepgauge::lesson::{Lesson, read_lesson};
use sweepgauge::units::{Length, Quantity};

use crate::common::demo_unit::DemoUnit;
use crate::common::lesson_window::{in_lesson, lessons, on, read, save};
use crate::common::shown::{Answers, Start, Window};

#[test]
fn a_setting_and_a_ground_are_typed_for_a_step_and_each_is_a_step_to_take_back() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "longer-knife", &Answers::default());
    let before = read(&file);
    window.click("Step 4: Less and more");
    window.enter_text("Attitude", "6 deg");
    window.assert_says("From 6° to 9°");
    window.enter_text("Height of cut, beside it", "0.15 in");
    window.enter_text("Edge forward", "0.05 in");
    window.choose("Knife", "longer");
    window.choose("Shape of the ground", "Crest");
    window.enter_text("Radius", "9 ft");
    save(&mut window);
    let step = read(&file).steps[3].clone();
    let text = |quantity: &Option<Quantity<Length>>| quantity.as_ref().map(|q| q.text().to_owned());
    let unit = step.unit.clone().unwrap();
    let setting = unit.setting.unwrap();
    assert_eq!(setting.attitude.unwrap().text(), "6 deg");
    assert_eq!(text(&setting.extension).as_deref(), Some("0.05 in"));
    assert_eq!(setting.knife.as_deref(), Some("longer"));
    let radius = unit.ground.unwrap().shape.radius().cloned();
    assert_eq!(radius.unwrap().text(), "9 ft");
    let second = step.second.clone().unwrap().setting.unwrap();
    assert_eq!(text(&second.height_of_cut).as_deref(), Some("0.15 in"));
    assert_eq!(second.attitude.unwrap().text(), "9 deg");
    // The file of the unit is as it was, and so are the other steps.
    let others =
        |lesson: &Lesson| [lesson.steps[..3].to_vec(), lesson.steps[4..].to_vec()].concat();
    assert_eq!(others(&read(&file)), others(&before));
    // What is no angle stays in its field, says why and is in no lesson; Escape brings back what stood there.
    window.type_over("Attitude", "steep");
    window.assert_says("Attitude: ");
    window.press(Key::Escape);
    assert_eq!(window.entry("Attitude"), "6 deg");
    // A setting that cannot be is told, and typed over again.
    window.enter_text("Edge forward", "5 in");
    window.assert_says("This step shows why it cannot be shown");
    window.enter_text("Edge forward", "");
    window.assert_says("Reads: From 6°");
    for _ in 0..10 {
        window.press_with(Modifiers::COMMAND, Key::Z);
    }
    save(&mut window);
    assert_eq!(read(&file), before);
    assert_eq!(window.entry("Attitude"), "5 deg");
    // And all of it at once.
    window.click("As in the step before");
    window.assert_says("From 9° to 9°");
    window.press_with(Modifiers::COMMAND, Key::Z);
    window.assert_says("From 5° to 9°");
    // A step that went on with the one before is set for itself from here on.
    let (file, mut window) = on(&folder, "behind-centre", &Answers::default());
    window.click("Step 6: Over two heights of cut");
    window.enter_text("Height of cut", "0.4 in");
    window.assert_says("At 0.400 in it is");
    save(&mut window);
    let steps = read(&file).steps;
    assert!(steps[4].unit.is_none());
    assert!(steps[5].unit.as_ref().unwrap().setting.is_some());
}

#[test]
fn a_wrong_setting_keeps_its_lesson_from_being_saved_and_is_asked_about() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "longer-knife", &Answers::default());
    let before = fs::read_to_string(&file).unwrap();
    window.click("Step 4: Less and more");
    window.type_over("Attitude", "steep");
    save(&mut window);
    window.assert_says("Not saved. Step 4, setting of the step: Attitude: ");
    assert_eq!(fs::read_to_string(&file).unwrap(), before);
    window.assert_says("longer-knife.lesson.ron, not saved");
    window.click("Close lesson");
    window.assert_says("Unsaved lesson");
    window.click("Keep editing");
    assert_eq!(window.entry("Attitude"), "steep");
    // Taken back, it is gone, and the lesson is as its file holds it.
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.entry("Attitude"), "5 deg");
    window.assert_silent("longer-knife.lesson.ron, not saved");
}

#[test]
fn a_wrong_setting_goes_with_its_step_and_with_no_other() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "longer-knife", &Answers::default());
    let before = fs::read_to_string(&file).unwrap();
    window.click("Step 4: Less and more");
    window.type_over("Attitude", "steep");
    window.press_with(Modifiers::ALT, Key::ArrowUp);
    assert_eq!(window.entry("Attitude"), "steep");
    window.assert_says("Step 3: Less and more, to be put right");
    save(&mut window);
    window.assert_says("Not saved. Step 3, setting of the step: Attitude: ");
    let other = read(&file).steps[2].title.clone();
    window.click(&format!("Step 4: {other}"));
    assert_ne!(window.entry("Attitude"), "steep");
    window.click("Step 3: Less and more, to be put right");
    assert_eq!(window.entry("Attitude"), "steep");
    assert_eq!(fs::read_to_string(&file).unwrap(), before);
    // Its step deleted, no other has it.
    window.click("Delete this step");
    save(&mut window);
    window.assert_silent("Not saved.");
    let steps = read_lesson(&before).expect("a right lesson").steps.len();
    assert_eq!(read(&file).steps.len(), steps - 1);
}

#[test]
fn a_wrong_setting_that_a_dead_window_left_comes_back_with_its_step() {
    let folder = lessons();
    let recovery = folder.path().join("recovery");
    let file = folder.path().join("longer-knife.lesson.ron");
    let keeping = || Start::on(DemoUnit::FairwayTrailed.document()).keeping_in(&recovery);
    let mut start = keeping();
    start.beginning = Some(Beginning::with_lesson(&file).unwrap());
    let mut window = in_lesson(start);
    window.click("Step 4: Less and more");
    window.type_over("Attitude, beside it", "steep");
    drop(window);
    let mut window = keeping().window();
    window.assert_says("Work was not saved");
    window.assert_says("steep");
    window.click("Recover");
    window.click("Step 4: Less and more, to be put right");
    assert_eq!(window.entry("Attitude, beside it"), "steep");
    save(&mut window);
    window.assert_says("Not saved. Step 4, setting of the step: Attitude, beside it: ");
}

/// The names of everything that is typed for a step.
const TYPED: [&str; 6] = [
    "Attitude",
    "Height of cut",
    "Reel diameter",
    "Edge forward",
    "Radius",
    "Roller sink",
];

/// A letter at a time, as a person types.
fn type_slowly(window: &mut Window, name: &str, text: &str) {
    let mut letters = text.chars();
    window.type_over(name, &letters.next().into_iter().collect::<String>());
    for letter in letters {
        window.type_text(&letter.to_string());
    }
}

/// The kept files of a window that is gone, each as it is made of what stood there.
fn rewrite_kept(recovery: &Path, rewrite: impl Fn(&str) -> String) {
    for entry in fs::read_dir(recovery).unwrap() {
        let file = entry.unwrap().path();
        if file.extension().is_some_and(|kind| kind == "recovery") {
            let kept = fs::read_to_string(&file).unwrap();
            fs::write(&file, rewrite(&kept)).unwrap();
        }
    }
}

#[test]
fn whatever_stands_wrong_for_a_step_comes_back_in_its_own_field() {
    let both = TYPED.map(|name| [name.to_owned(), format!("{name}, beside it")]);
    let all = both.as_flattened();
    // As it is kept, and as it was before the ground's radius had a path of its own.
    for path_of_radius in ["ground.radius", "ground.shape"] {
        let folder = lessons();
        let recovery = folder.path().join("recovery");
        let file = folder.path().join("longer-knife.lesson.ron");
        let keeping = || Start::on(DemoUnit::FairwayTrailed.document()).keeping_in(&recovery);
        let mut start = keeping();
        start.beginning = Some(Beginning::with_lesson(&file).unwrap());
        let mut window = in_lesson(start);
        window.click("Step 4: Less and more");
        window.choose("Shape of the ground", "Crest");
        window.choose("Shape of the ground, beside it", "Hollow");
        for name in all {
            window.enter_text(name, &format!("no {name}"));
        }
        drop(window);
        rewrite_kept(&recovery, |kept| {
            assert_eq!(kept.matches("ground.radius").count(), 2, "{kept}");
            kept.replace("ground.radius", path_of_radius)
        });
        let mut window = keeping().window();
        window.click("Recover");
        window.click("Step 4: Less and more, to be put right");
        for name in all {
            assert_eq!(window.entry(name), format!("no {name}"), "{path_of_radius}");
            window.assert_says(&format!("{name}: "));
        }
        save(&mut window);
        window.assert_says("Not saved. Step 4, setting of the step: ");
        for name in all {
            window.click(&format!("Leave it out: {name}"));
        }
        save(&mut window);
        window.assert_silent("Not saved.");
    }
}

#[test]
fn escape_leaves_a_step_with_the_one_before_it() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "behind-centre", &Answers::default());
    let before = fs::read_to_string(&file).unwrap();
    window.click("Step 6: Over two heights of cut");
    let stood = window.entry("Height of cut");
    // Wrong at once; right for some letters and wrong with the next; right to the end; the same again.
    for typed in ["low", "0.4 inx", "0.4 in"] {
        type_slowly(&mut window, "Height of cut", typed);
        assert_eq!(window.entry("Height of cut"), typed);
        window.press(Key::Escape);
        assert_eq!(window.entry("Height of cut"), stood, "{typed}");
        window.assert_silent("behind-centre.lesson.ron, not saved");
    }
    type_slowly(&mut window, "Height of cut", "0.4 in");
    window.type_over("Height of cut", &stood);
    window.press(Key::Enter);
    window.assert_silent("behind-centre.lesson.ron, not saved");
    save(&mut window);
    assert_eq!(fs::read_to_string(&file).unwrap(), before);
    // What the step before is set to still goes for it.
    window.click("Step 5: The answer");
    window.enter_text("Height of cut", "0.45 in");
    window.click("Step 6: Over two heights of cut");
    window.assert_says("At 0.450 in it is");
}

#[test]
fn what_is_set_for_a_step_leads_back_to_where_the_step_had_it_from() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "behind-centre", &Answers::default());
    let before = read(&file);
    let is_open = |window: &Window, name: &str| {
        let button = window.button(name);
        !button.accesskit_node().is_disabled()
    };
    // No unit of its own: as in the step before.
    window.click("Step 6: Over two heights of cut");
    let (own, other) = ("As in the step before", "As the unit has it");
    assert!(!is_open(&window, own) && !window.has_button(other));
    window.enter_text("Height of cut", "0.4 in");
    assert!(is_open(&window, own));
    window.click(own);
    save(&mut window);
    assert_eq!(read(&file), before);
    // The unit beside it goes on with no step.
    assert!(is_open(&window, "As the unit has it, beside it"));
    // A unit of its own: as that has it.
    window.click("Step 4: The knife slides back");
    assert!(!is_open(&window, other) && !window.has_button(own));
    window.enter_text("Height of cut", "0.4 in");
    window.click(other);
    save(&mut window);
    assert_eq!(read(&file), before);
}

#[test]
fn what_stands_wrong_is_told_and_left_out_though_no_field_shows_it() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "longer-knife", &Answers::default());
    let before = fs::read_to_string(&file).unwrap();
    window.click("Step 4: Less and more");
    window.enter_text("Attitude", "steep");
    window.enter_text("Edge forward, beside it", "far");
    // Beside its field it is told without the text.
    window.assert_silent("holds");
    fs::remove_file(folder.path().join("matched-green.ron")).unwrap();
    window.harness.event(egui::Event::WindowFocused(true));
    window.settle();
    window.assert_says("Attitude holds \"steep\": ");
    window.assert_says("Edge forward, beside it holds \"far\": ");
    // And why the step cannot be shown stands there still.
    window.assert_says("This step shows why it cannot be shown: matched-green.ron");
    window.click("Leave it out: Edge forward, beside it");
    window.assert_says("Attitude holds \"steep\": ");
    window.assert_silent("far");
    window.click("Leave it out: Attitude");
    window.assert_silent("holds");
    window.press_with(Modifiers::COMMAND, Key::Z);
    window.assert_says("Undone: wrong text left out, Attitude.");
    window.assert_says("Attitude holds \"steep\": ");
    window.press_with(Modifiers::COMMAND, Key::Y);
    window.assert_silent("longer-knife.lesson.ron, not saved");
    assert_eq!(fs::read_to_string(&file).unwrap(), before);
}

#[test]
fn undo_takes_back_the_wrong_texts_one_field_at_a_time() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "longer-knife", &Answers::default());
    let before = read(&file);
    window.click("Step 4: Less and more");
    let fields = ["Attitude", "Height of cut", "Edge forward, beside it"];
    let undone = [
        "attitude of the step",
        "height of cut of the step",
        "edge forward of the unit beside it",
    ];
    let stood = fields.map(|name| window.entry(name));
    // In both orders: which is wrong first among the fields is not which was typed into last.
    for order in [[0, 1, 2], [2, 1, 0]] {
        for at in order {
            type_slowly(&mut window, fields[at], "wrong");
            window.press(Key::Enter);
        }
        for left in (0..order.len()).rev() {
            let at = order[left];
            window.press_with(Modifiers::COMMAND, Key::Z);
            window.assert_says(&format!("Undone: {}.", undone[at]));
            assert_eq!(window.entry(fields[at]), stood[at]);
            for other in &order[..left] {
                assert_eq!(window.entry(fields[*other]), "wrong");
            }
        }
        window.assert_silent("longer-knife.lesson.ron, not saved");
    }
    save(&mut window);
    assert_eq!(read(&file), before);
}

#[test]
fn a_step_that_cannot_be_shown_is_marked_and_says_why_under_the_pointer() {
    let folder = lessons();
    fs::remove_file(folder.path().join("seven-inch.ron")).unwrap();
    let (_, mut window) = on(&folder, "behind-centre", &Answers::default());
    let told = |window: &mut Window, name: &str, why: &str| {
        window.assert_silent(why);
        let place = window.button(name).rect().center();
        window.harness.hover_at(place);
        window.wait_until_it_says(why);
        window.harness.remove_cursor();
        window.settle();
    };
    // Its unit is gone, and so is that of the steps that go on with it.
    for step in [
        "Step 4: The knife slides back, to be put right",
        "Step 5: The answer, to be put right",
    ] {
        told(&mut window, step, "It cannot be shown: seven-inch.ron");
    }
    // A setting that cannot be.
    let first = "Step 1: One blade draws its circle";
    assert!(window.has_button(first));
    window.enter_text("Edge forward", "5 in");
    window.click("Step 4: The knife slides back, to be put right");
    let first = format!("{first}, to be put right");
    told(&mut window, &first, "It cannot be shown: ");
    // What makes no sense is told before it.
    window.click(&first);
    window.enter_text("Title of the step", "");
    window.click("Step 4: The knife slides back, to be put right");
    told(
        &mut window,
        "Step 1: , to be put right",
        "Step 1, title: write something here",
    );
}

#[test]
fn the_last_step_deleted_leaves_the_one_before_it_in_front_at_once() {
    let folder = lessons();
    let (_, mut window) = on(&folder, "worn-reel", &Answers::default());
    let steps = |window: &Window| {
        let nodes = window.nodes();
        let names = nodes
            .iter()
            .filter_map(|node| node.accesskit_node().label());
        names
            .filter(|name| name.starts_with("Step "))
            .collect::<Vec<_>>()
    };
    let names = steps(&window);
    window.click(names.last().unwrap());
    window.button("Delete this step").click();
    for _ in 0..4 {
        window.step();
        window.assert_silent("A lesson begins with its first step");
    }
    assert_eq!(steps(&window), names[..names.len() - 1]);
}
