//! The Lesson area by accessible name: units kept as steps, put in order, written and saved; a wrong field
//! is said at once, and what is not saved comes back.

use std::fs;
use std::path::Path;

use egui::{Key, Modifiers};
use sweepgauge::app::{Beginning, Change};
use sweepgauge::lesson::{Lesson, LessonView};
use sweepgauge::units::{Length, Quantity, System};

use crate::common::demo_unit::DemoUnit;
use crate::common::lesson_window::{TALL, in_lesson, lessons, on, read, save};
use crate::common::shown::{Answers, Start, Window};

fn keep_step(window: &mut Window) {
    window.press_with(Modifiers::COMMAND, Key::K);
}

#[test]
fn a_unit_is_kept_as_steps_from_two_areas_and_the_lesson_is_saved_beside_it() {
    let folder = lessons();
    let unit = folder.path().join("matched-green.ron");
    let out = folder.path().join("made.lesson.ron");
    let answers = Answers::default();
    answers.save(&out);
    let mut start = Start::on_file(&unit).asking(&answers);
    start.size = TALL;
    let mut window = start.window();
    keep_step(&mut window);
    window.assert_says("A lesson was begun with this step.");
    // From another area, with its picture; and with the unit set otherwise.
    window.press_with(Modifiers::COMMAND, Key::Num3);
    keep_step(&mut window);
    window.assert_says("Kept as step 2");
    let height = Change::new("height of cut");
    window.harness.state_mut().edit(height, |document| {
        let height = Quantity::from_value(Length::from_inches(0.2), System::InchDecimal);
        document.setting.height_of_cut = Some(height);
    });
    window.settle();
    keep_step(&mut window);
    window.press_with(Modifiers::COMMAND, Key::Num7);
    window.assert_says("New lesson, in no file yet");
    save(&mut window);
    let lesson = read(&out);
    assert_eq!(lesson.steps.len(), 3);
    let of = |step: usize| lesson.steps[step].unit.as_ref().expect("a unit");
    for step in 0..3 {
        assert_eq!(of(step).file.as_deref(), Some("matched-green.ron"));
        assert!(of(step).embedded.is_none());
    }
    assert!(of(0).setting.is_none());
    assert_eq!(lesson.steps[1].view, LessonView::Budget);
    let set = of(2).setting.as_ref().expect("its own setting");
    assert!(set.height_of_cut.is_some());
    window.assert_silent("not saved");
    // Every number of its text is a field.
    assert!(lesson.steps[0].text.contains("{sweep}"));
}

#[test]
fn a_unit_that_no_file_of_the_folder_holds_is_written_out() {
    let folder = lessons();
    let out = folder.path().join("made.lesson.ron");
    let answers = Answers::default();
    answers.save(&out);
    let mut window = in_lesson(Start::on(DemoUnit::FairwayTrailed.document()).asking(&answers));
    window.click("New lesson");
    window.click("Keep the unit in front as a step");
    save(&mut window);
    window.assert_says("Not saved. Lesson, title: write something here");
    assert!(!out.exists());
    window.enter_text("Title of the lesson", "Told in the yard");
    save(&mut window);
    let lesson = read(&out);
    let unit = lesson.steps[0].unit.as_ref().unwrap();
    let embedded = unit.embedded.as_ref().expect("written out");
    assert_eq!(embedded.name, DemoUnit::FairwayTrailed.document().name);
}

#[test]
fn a_wrong_field_is_said_at_once_with_the_nearest_that_exist_and_is_never_saved() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "behind-centre", &Answers::default());
    let before = fs::read_to_string(&file).unwrap();
    window.type_over("Text", "It sweeps {depth}.");
    window.assert_says("There is no field {depth}; \"Insert a number\" in the Lesson area");
    window.type_over("Text", "It sweeps {swep}.");
    window.assert_says("There is no field {swep}; the nearest are {sweep}");
    window.type_over("Text", "It sweeps {depth}.");
    window.assert_says("to be put right");
    save(&mut window);
    window.assert_says("Not saved. Step 1, text: there is no field {depth}");
    assert_eq!(fs::read_to_string(&file).unwrap(), before);
    window.type_over("Text", "It sweeps 3 thou.");
    window.assert_says("never typed");
    // Escape brings back what stood there.
    window.press(Key::Escape);
    window.assert_silent("never typed");
    window.assert_says("Watch one blade.");
    // Undo brings the typed words back, which Escape took out.
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.entry("Text"), "It sweeps 3 thou.");
    window.type_over("Text", "It sweeps {sweep}.");
    window.assert_says("Reads: It sweeps 0.0000 in.");
    save(&mut window);
    let after = fs::read_to_string(&file).unwrap();
    assert_eq!(read(&file).steps[0].text, "It sweeps {sweep}.");
    // Everything else stands as it was, remarks too.
    let kept = before.replace(
        "Watch one blade. Its tip runs on a circle about the reel's centre.",
        "It sweeps {sweep}.",
    );
    assert_eq!(after, kept);
}

#[test]
fn steps_are_moved_copied_deleted_and_each_is_a_step_to_take_back() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "worn-reel", &Answers::default());
    let before = read(&file);
    let titles = |lesson: &Lesson| -> Vec<String> {
        lesson.steps.iter().map(|step| step.title.clone()).collect()
    };
    window.click("Move this step down");
    window.click("Copy this step behind itself");
    save(&mut window);
    let mut wanted = titles(&before);
    wanted.swap(0, 1);
    wanted.insert(2, wanted[1].clone());
    assert_eq!(titles(&read(&file)), wanted);
    window.click("Delete this step");
    window.click("Delete this step");
    save(&mut window);
    wanted.drain(2..4);
    assert_eq!(titles(&read(&file)), wanted);
    for _ in 0..4 {
        window.press_with(Modifiers::COMMAND, Key::Z);
    }
    window.assert_says("Undone: step moved.");
    save(&mut window);
    assert_eq!(read(&file), before);
    window.press_with(Modifiers::COMMAND, Key::Y);
    window.assert_says("Redone: step moved.");
}

#[test]
fn a_step_is_moved_by_alt_and_an_arrow_and_back_again() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "worn-reel", &Answers::default());
    let before = read(&file);
    let title = |file: &Path, step: usize| read(file).steps[step].title.clone();
    window.press_with(Modifiers::ALT, Key::ArrowUp);
    window.press_with(Modifiers::ALT, Key::ArrowDown);
    window.press_with(Modifiers::ALT, Key::ArrowDown);
    save(&mut window);
    assert_eq!(title(&file, 2), before.steps[0].title);
    assert_eq!(window.entry("Title of the step"), before.steps[0].title);
    window.press_with(Modifiers::ALT, Key::ArrowUp);
    for undone in 0..3 {
        window.press_with(Modifiers::COMMAND, Key::Z);
        assert!(window.says("Undone: step moved."), "{undone}");
    }
    save(&mut window);
    assert_eq!(read(&file), before);
}

#[test]
fn what_a_step_shows_is_chosen_and_the_unit_in_front_stands_beside() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "behind-centre", &Answers::default());
    window.click("Step 3: The edge exactly below the centre");
    window.choose("View of the step", "Whole unit");
    window.choose("Held still", "Knife edge");
    window.click("Rollers");
    window.click("The reel turns");
    window.click("Hidden until asked for (N)");
    window.type_over("Notes for the presenter", "Wait.");
    window.click("Take the unit in front beside it");
    window.choose("View of the step", "Side by side: whole units");
    save(&mut window);
    let step = &read(&file).steps[2];
    assert!(matches!(step.view, LessonView::SideBySide(_)));
    assert!(step.second.as_ref().unwrap().embedded.is_some());
    assert!(step.motion && step.numbers_hidden);
    assert_eq!(step.notes, "Wait.");
    assert_eq!(step.held.title(), "Knife edge");
    assert_eq!(step.emphasis.last().unwrap().title(), "Rollers");
    window.click("No second unit");
    save(&mut window);
    let step = &read(&file).steps[2];
    assert_eq!(
        (step.view, step.second.is_none()),
        (LessonView::Whole, true)
    );
}

#[test]
fn a_try_begins_at_the_step_in_front_and_escape_comes_back_to_it() {
    let folder = lessons();
    let (_, mut window) = on(&folder, "behind-centre", &Answers::default());
    window.click("Step 5: The answer");
    window.enter_text("Title of the step", "Five sheets?");
    window.click("Try from this step");
    assert!(!window.has_button("File"));
    window.assert_says("Five sheets?");
    window.assert_says("0.0201 in");
    window.press(Key::Escape);
    assert!(window.has_button("File"));
    assert_eq!(window.entry("Title of the step"), "Five sheets?");
}

#[test]
fn a_lesson_that_is_not_saved_is_asked_about_before_it_is_lost() {
    let folder = lessons();
    let (file, mut window) = on(&folder, "behind-centre", &Answers::default());
    window.enter_text("Title of the step", "Changed");
    window.press_with(Modifiers::COMMAND, Key::Q);
    window.assert_says("Unsaved lesson");
    window.click("Keep editing");
    window.click("Close lesson");
    window.click("Save");
    assert_eq!(read(&file).steps[0].title, "Changed");
    window.assert_says("A unit explained in steps");
}

#[test]
fn a_lesson_that_a_dead_window_left_comes_back_beside_what_its_file_holds() {
    let folder = lessons();
    let recovery = folder.path().join("recovery");
    let file = folder.path().join("behind-centre.lesson.ron");
    let keeping = || Start::on(DemoUnit::FairwayTrailed.document()).keeping_in(&recovery);
    let mut start = keeping();
    start.beginning = Some(Beginning::with_lesson(&file).unwrap());
    let mut window = in_lesson(start);
    // Wrong as it is, it is kept.
    window.type_over("Text", "It sweeps {depth}.");
    drop(window);
    let mut window = keeping().window();
    window.assert_says("Work was not saved");
    window.assert_says("Step 1, text");
    window.assert_says("It sweeps {depth}.");
    window.click("Recover");
    assert_eq!(window.entry("Text"), "It sweeps {depth}.");
    window.assert_says("There is no field {depth}");
    window.assert_says("behind-centre.lesson.ron, not saved");
}

#[test]
fn a_lesson_that_was_left_takes_no_unsaved_one_away_unasked() {
    let folder = lessons();
    let recovery = folder.path().join("recovery");
    let file = folder.path().join("behind-centre.lesson.ron");
    let mut start = Start::on(DemoUnit::FairwayTrailed.document()).keeping_in(&recovery);
    start.beginning = Some(Beginning::with_lesson(&file).unwrap());
    let mut window = in_lesson(start);
    window.type_over("Text", "What was left.");
    drop(window);
    // What was left is offered once a room has seen the unit, and a step was kept before it.
    let mut window = Start::on(DemoUnit::FairwayTrailed.document()).window();
    window.press_with(Modifiers::COMMAND, Key::K);
    let app = window.harness.state_mut();
    assert!(app.keep_work_in(&recovery, &egui::Context::default()));
    window.step();
    window.wait_until_it_says("Work was not saved");
    window.click("Recover");
    window.assert_says("Unsaved lesson");
    window.click("Keep editing");
    window.assert_says("Work was not saved");
    window.click("Recover");
    window.assert_says("Unsaved lesson");
    window.click("Discard changes");
    window.assert_says("Work was not saved");
    window.click("Recover");
    window.assert_says("Recovered.");
    assert_eq!(window.entry("Text"), "What was left.");
}

#[test]
fn a_step_whose_unit_is_gone_says_so_and_the_others_stay() {
    let folder = lessons();
    fs::remove_file(folder.path().join("seven-inch.ron")).unwrap();
    let (_, mut window) = on(&folder, "behind-centre", &Answers::default());
    window.click("Step 4: The knife slides back, to be put right");
    window.assert_says("seven-inch.ron");
    window.assert_says("cannot be shown");
    window.click("Step 3: The edge exactly below the centre");
    window.assert_silent("cannot be shown");
}
