//! The Lesson area by accessible name: units kept as steps, put in order, written and saved; a wrong field
//! is said at once, and what is not saved comes back.

use std::fs;
use std::path::{Path, PathBuf};

use egui::{Key, Modifiers, Vec2};
use sweepgauge::app::{Beginning, Change};
use sweepgauge::lesson::{Lesson, LessonView, read_lesson};
use sweepgauge::units::{Length, Quantity, System};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Answers, Start, Window};

const TALL: Vec2 = Vec2::new(1440.0, 1400.0);

/// A folder with the shipped lessons and their units.
fn lessons() -> TempDir {
    let folder = TempDir::new().unwrap();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/lessons");
    for entry in fs::read_dir(from).unwrap() {
        let file = entry.unwrap().path();
        fs::copy(&file, folder.path().join(file.file_name().unwrap())).unwrap();
    }
    folder
}

fn read(file: &Path) -> Lesson {
    read_lesson(&fs::read_to_string(file).unwrap()).expect("a right lesson")
}

fn in_lesson(mut start: Start) -> Window {
    start.size = TALL;
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num7);
    window
}

/// A window on a lesson of a folder.
fn on(folder: &TempDir, name: &str, answers: &Answers) -> (PathBuf, Window) {
    let file = folder.path().join(format!("{name}.lesson.ron"));
    let mut start = Start::on(DemoUnit::FairwayTrailed.document()).asking(answers);
    start.beginning = Some(Beginning::with_lesson(&file).expect("a lesson"));
    (file, in_lesson(start))
}

fn keep_step(window: &mut Window) {
    window.press_with(Modifiers::COMMAND, Key::K);
}

fn save(window: &mut Window) {
    window.press_with(Modifiers::COMMAND, Key::S);
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
