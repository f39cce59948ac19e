//! Nothing is lost: what is not saved outlives its window, and a file that something else changed is
//! asked about.

use std::cell::RefCell;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Sender, channel};

use egui::{Event, Key, Modifiers};
use sweepgauge::app::{Ask, Beginning, Change, Choosing, DEMO_UNIT, Dialogs, Preferences, Session};
use sweepgauge::command::open_lesson;
use sweepgauge::store::open_unit;
use sweepgauge::store::recovery::left_behind;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Answers, Start, Window, demo_set, document};

const OFFERED: &str = "Work was not saved";
const UNSAVED: &str = "unsaved changes";

/// A unit file, and a folder to keep work in.
struct Bench {
    folder: TempDir,
    file: PathBuf,
    recovery: PathBuf,
}

impl Bench {
    fn new() -> Self {
        let folder = TempDir::new().unwrap();
        let file = folder.path().join("gang.ron");
        fs::write(&file, DEMO_UNIT).unwrap();
        let recovery = folder.path().join("recovery");
        Self {
            folder,
            file,
            recovery,
        }
    }

    fn start(&self) -> Start {
        Start::on_file(&self.file).keeping_in(&self.recovery)
    }

    /// A window on the file.
    fn window(&self) -> Window {
        self.start().window()
    }

    /// A window without a file, as the program starts by itself.
    fn next_start(&self) -> Window {
        let start = Start::on(document(DEMO_UNIT));
        start.keeping_in(&self.recovery).window()
    }

    /// How many works dead windows left.
    fn left(&self) -> usize {
        left_behind(&self.recovery).works.len()
    }

    fn write_otherwise(&self) {
        fs::write(&self.file, otherwise()).unwrap();
    }
}

/// The demo unit as something else would leave it.
fn otherwise() -> String {
    DEMO_UNIT.replace("Example Ground", "Sample Ground")
}

#[test]
fn what_was_not_saved_is_offered_beside_its_file_and_recovered_with_its_wrong_texts() {
    let bench = Bench::new();
    let mut window = bench.window();
    window.enter_text("Attitude", "5");
    window.enter_text("Height of cut", "half");
    drop(window);

    let mut window = bench.next_start();
    window.assert_says(OFFERED);
    window.assert_says("gang.ron");
    window.assert_says("Attitude, as wanted");
    window.assert_silent("setting.");
    for text in ["left out", "5 deg", "\"half\", not taken"] {
        window.assert_says(text);
    }
    window.click("Recover");
    window.assert_silent(OFFERED);
    assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
    assert_eq!(window.app().session().file(), Some(bench.file.as_path()));
    assert_eq!(window.entry("Height of cut"), "half");
    window.assert_says(UNSAVED);
    assert_eq!(open_unit(&bench.file).unwrap(), document(DEMO_UNIT));
    assert_eq!(bench.left(), 0, "a living window has it");
    window.enter_text("Height of cut", "0.5 in");
    window.press_with(Modifiers::COMMAND, Key::S);
    assert!(!window.says(UNSAVED));
    let saved = open_unit(&bench.file).unwrap();
    assert_eq!(&saved, window.document());
    drop(window);
    assert_eq!(bench.left(), 0, "it is saved");
}

#[test]
fn a_wrong_radius_of_the_ground_comes_back_in_its_own_field() {
    // As it is kept, and as it was before the radius had a path of its own.
    for path in ["ground.radius", "ground.shape"] {
        let bench = Bench::new();
        let mut window = bench.window();
        window.unfold_one("Ground");
        window.choose("Shape", "Crest");
        window.enter_text("Radius", "round");
        drop(window);
        for entry in fs::read_dir(&bench.recovery).unwrap() {
            let file = entry.unwrap().path();
            if file.extension().is_some_and(|kind| kind == "recovery") {
                let kept = fs::read_to_string(&file).unwrap();
                assert_eq!(kept.matches("ground.radius").count(), 1, "{kept}");
                fs::write(&file, kept.replace("ground.radius", path)).unwrap();
            }
        }
        let mut window = bench.next_start();
        window.click("Recover");
        window.unfold_one("Ground");
        assert_eq!(window.entry("Radius"), "round", "{path}");
        window.enter_text("Radius", "20 ft");
        window.press_with(Modifiers::COMMAND, Key::S);
        let saved = open_unit(&bench.file).unwrap();
        let radius = saved.ground.shape.radius().expect("a crest");
        assert_eq!(radius.text(), "20 ft");
    }
}

#[test]
fn work_that_was_left_is_offered_after_what_a_room_sees_and_not_over_it() {
    let bench = Bench::new();
    let mut window = bench.window();
    window.enter_text("Attitude", "5");
    drop(window);

    let demo = DemoUnit::FairwayTrailed.file();
    let lesson = demo.with_file_name("lessons/behind-centre.lesson.ron");
    let mut start = Start::on(document(DEMO_UNIT)).keeping_in(&bench.recovery);
    start.show = Some(open_lesson(&lesson).unwrap());
    let mut window = start.window();
    window.assert_silent(OFFERED);
    window.press(Key::PageDown);
    window.assert_silent(OFFERED);
    assert!(!window.has_button("File"), "the lesson is shown");
    window.press(Key::Escape);
    assert!(window.has_button("File"), "Show has ended");
    window.assert_says(OFFERED);
    window.click("Recover");
    assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
}

#[test]
fn what_to_work_on_is_no_question_once_work_is_recovered() {
    for is_recovered in [true, false] {
        let bench = Bench::new();
        let mut window = bench.window();
        window.enter_text("Attitude", "5");
        drop(window);
        let mut start = Start::on(document(DEMO_UNIT)).keeping_in(&bench.recovery);
        let beginning = Beginning::with_last(&Preferences::default(), |_| false);
        start.beginning = Some(beginning.expect("it begins"));
        let mut window = start.window();
        window.assert_says(OFFERED);
        window.click(if is_recovered { "Recover" } else { "Later" });
        window.assert_silent(OFFERED);
        assert_eq!(window.says("Will this unit scalp?"), !is_recovered);
    }
}

#[test]
fn a_document_that_makes_no_sense_is_recovered_as_it_was() {
    let bench = Bench::new();
    let mut window = bench.window();
    window.unfold();
    window.enter_text("Gap, as measured", "-1 mm");
    let flawed = window.document().clone();
    assert!(flawed.checked().is_err());
    drop(window);
    let mut window = bench.next_start();
    window.click("Recover");
    assert_eq!(window.document(), &flawed);
}

#[test]
fn a_unit_that_was_never_saved_is_recovered_and_is_in_no_file() {
    let bench = Bench::new();
    let mut window = bench.next_start();
    window.enter_text("Attitude", "5");
    drop(window);
    let mut window = bench.next_start();
    window.assert_says("in no file yet");
    window.click("Recover");
    assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
    assert_eq!(window.app().session().file(), None);
    window.assert_says(UNSAVED);
}

#[test]
fn later_offers_it_again_and_discard_never_does() {
    let bench = Bench::new();
    let mut window = bench.window();
    window.enter_text("Attitude", "5");
    drop(window);
    for answer in ["Later", "Discard"] {
        let mut window = bench.next_start();
        window.assert_says(OFFERED);
        window.click(answer);
        window.assert_silent(OFFERED);
        assert_eq!(window.document(), &document(DEMO_UNIT));
    }
    bench.next_start().assert_silent(OFFERED);
    assert_eq!(bench.left(), 0);
}

#[test]
fn what_each_of_two_windows_left_is_offered_one_after_the_other() {
    let bench = Bench::new();
    for _ in 0..2 {
        let mut window = bench.next_start();
        if window.says(OFFERED) {
            window.press(Key::Escape);
        }
        window.enter_text("Attitude", "5");
    }
    assert_eq!(bench.left(), 2);
    let mut window = bench.next_start();
    window.assert_says("1 more after this one");
    window.click("Discard");
    window.assert_says(OFFERED);
    window.click("Recover");
    drop(window);
    assert_eq!(bench.left(), 1);
}

#[test]
fn every_session_with_changes_comes_back_whichever_was_in_front() {
    let bench = Bench::new();
    let other = document(&otherwise());
    let mut window = bench.window();
    window.enter_text("Attitude", "5");
    let app = window.harness.state_mut();
    let untouched = app.lay_beside(Session::new(other.clone(), None));
    let second = app.lay_beside(Session::new(other, None));
    assert!(app.bring_session_to_front(second));
    window.settle();
    window.enter_text("Attitude", "6");
    window.enter_text("Height of cut", "half");
    let second = window.document().clone();
    assert!(window.harness.state_mut().bring_session_to_front(untouched));
    window.settle();
    drop(window);
    assert_eq!(bench.left(), 2, "and none of what was not touched");

    let mut window = bench.next_start();
    window.assert_says("1 more after this one");
    window.click("Recover");
    window.assert_says("1 more waits for the next start");
    assert_eq!(window.document(), &demo_set("attitude: \"5 deg\""));
    window.press_with(Modifiers::COMMAND, Key::S);
    drop(window);
    assert_eq!(bench.left(), 1);

    let mut window = bench.next_start();
    window.click("Recover");
    assert_eq!(window.document(), &second);
    assert_eq!(window.entry("Height of cut"), "half");
    // What was recovered wrong is where undo ends, not a step.
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.entry("Height of cut"), "half");
}

#[test]
fn what_is_saved_or_given_up_is_kept_no_more() {
    let bench = Bench::new();
    let mut window = bench.window();
    window.enter_text("Attitude", "5");
    window.press_with(Modifiers::COMMAND, Key::S);
    drop(window);
    assert_eq!(bench.left(), 0);
    let mut window = bench.window();
    window.enter_text("Attitude", "6");
    assert!(!window.would_close());
    window.button("Discard changes").click();
    assert!(window.has_closed());
    drop(window);
    assert_eq!(bench.left(), 0);
}

#[test]
fn a_damaged_recovery_file_is_told_once_and_set_aside() {
    let bench = Bench::new();
    fs::create_dir(&bench.recovery).unwrap();
    fs::write(bench.recovery.join("1-dead.recovery"), "(document: ").unwrap();
    let window = bench.next_start();
    window.assert_says("A recovery file is damaged, and was set aside as");
    window.assert_silent(OFFERED);
    drop(window);
    bench.next_start().assert_silent("damaged");
    assert!(bench.recovery.join("1-dead.recovery.damaged").exists());
}

#[test]
fn a_file_that_cannot_be_read_is_told_beside_what_was_kept() {
    let bench = Bench::new();
    let mut window = bench.window();
    window.enter_text("Attitude", "5");
    drop(window);
    fs::write(&bench.file, "(format: 1, ").unwrap();
    let window = bench.next_start();
    window.assert_says("The file cannot be read now");
    window.assert_silent("left out");
    window.assert_silent("In the file");
}

#[test]
fn work_that_differs_in_its_example_marks_alone_is_not_called_the_same() {
    let bench = Bench::new();
    let mut marked = document(DEMO_UNIT);
    marked
        .examples
        .mark(sweepgauge::unit::Reading::ReelDiameter);
    sweepgauge::store::save_unit(&marked, &bench.file).unwrap();
    let mut window = bench.window();
    window
        .harness
        .state_mut()
        .edit(Change::new("Kept"), |document| {
            document.examples = sweepgauge::unit::Examples::default();
        });
    window.settle();
    drop(window);
    let window = bench.next_start();
    window.assert_silent("It says the same");
    window.assert_says("Readings that are examples");
}

#[test]
fn a_folder_that_cannot_be_written_is_told_once_and_stops_nobody() {
    let bench = Bench::new();
    fs::write(&bench.recovery, "a file where the folder would be").unwrap();
    let mut window = bench.window();
    window.assert_says("cannot be written");
    window.click("Close");
    window.enter_text("Attitude", "5");
    window.assert_silent("cannot be written");
    window.press_with(Modifiers::COMMAND, Key::S);
    let saved = open_unit(&bench.file).unwrap();
    assert_eq!(saved, demo_set("attitude: \"5 deg\""));
}

// A file that something else has its hands on.

#[test]
fn a_file_changed_outside_is_asked_about_when_the_window_is_gone_to() {
    let bench = Bench::new();
    for (answer, name) in [("Reload", "Sample Ground"), ("Keep mine", "Example Ground")] {
        fs::write(&bench.file, DEMO_UNIT).unwrap();
        let mut window = bench.window();
        window.assert_silent("Changed outside");
        bench.write_otherwise();
        window.harness.event(Event::WindowFocused(true));
        window.wait_until_it_says("Changed outside");
        window.click(answer);
        assert!(window.document().name.starts_with(name), "{answer}");
        assert_eq!(window.says(UNSAVED), answer == "Keep mine");
        let there = fs::read_to_string(&bench.file).unwrap();
        assert_eq!(there, otherwise(), "only a save writes");
        if answer == "Keep mine" {
            window.press_with(Modifiers::COMMAND, Key::S);
            window.assert_silent("Changed outside");
            assert_eq!(open_unit(&bench.file).unwrap(), document(DEMO_UNIT));
        }
    }
}

#[test]
fn a_file_that_is_gone_is_told_and_what_is_open_is_unsaved() {
    let bench = Bench::new();
    let mut window = bench.window();
    fs::remove_file(&bench.file).unwrap();
    window.harness.event(Event::WindowFocused(true));
    window.wait_until_it_says("The file is gone");
    assert!(!window.has_button("Reload"));
    window.click("Keep mine");
    window.assert_says(UNSAVED);
    window.press_with(Modifiers::COMMAND, Key::S);
    assert_eq!(open_unit(&bench.file).unwrap(), document(DEMO_UNIT));
}

#[test]
fn no_save_goes_over_what_something_else_wrote_without_asking() {
    let bench = Bench::new();
    let answers = Answers::default();
    let elsewhere = bench.folder.path().join("mine.ron");
    answers.save(&elsewhere);
    // A window that keeps no work looks as well.
    let mut window = Start::on_file(&bench.file).asking(&answers).window();
    window.enter_text("Attitude", "5");
    bench.write_otherwise();
    window.press_with(Modifiers::COMMAND, Key::S);
    window.assert_says("Changed outside");
    assert_eq!(fs::read_to_string(&bench.file).unwrap(), otherwise());
    // An answer put off is no leave.
    for _ in 0..2 {
        window.press(Key::Escape);
        window.assert_silent("Changed outside");
        window.assert_says(UNSAVED);
        window.press_with(Modifiers::COMMAND, Key::S);
        window.assert_says("Changed outside");
        assert_eq!(fs::read_to_string(&bench.file).unwrap(), otherwise());
    }
    window.click("Save as…");
    let mine = demo_set("attitude: \"5 deg\"");
    assert_eq!(open_unit(&elsewhere).unwrap(), mine);
    fs::write(&bench.file, DEMO_UNIT).unwrap();
    let mut window = Start::on_file(&bench.file).window();
    window.enter_text("Attitude", "5");
    bench.write_otherwise();
    window.press_with(Modifiers::COMMAND, Key::S);
    window.click("Save mine over it");
    let saved = open_unit(&bench.file).unwrap();
    assert_eq!(&saved, window.document());
    window.assert_silent(UNSAVED);
}

#[test]
fn a_close_goes_on_once_what_held_its_save_back_is_answered() {
    let mine = demo_set("attitude: \"5 deg\"");
    for answer in ["Save mine over it", "Save as…", "Reload"] {
        let bench = Bench::new();
        let elsewhere = bench.folder.path().join("mine.ron");
        let answers = Answers::default();
        answers.save(&elsewhere);
        let mut window = Start::on_file(&bench.file).asking(&answers).window();
        window.enter_text("Attitude", "5");
        bench.write_otherwise();
        assert!(!window.would_close());
        window.click("Save");
        window.assert_says("Changed outside");
        assert!(!window.has_closed());
        window.button(answer).click();
        assert!(window.has_closed(), "{answer}");
        let there = open_unit(&bench.file).unwrap();
        let is_over = answer == "Save mine over it";
        assert_eq!(there == mine, is_over, "{answer}");
        assert_eq!(elsewhere.exists(), answer == "Save as…");
    }
}

#[test]
fn an_answer_put_off_holds_the_close_back_too() {
    let bench = Bench::new();
    let mut window = Start::on_file(&bench.file).window();
    window.enter_text("Attitude", "5");
    bench.write_otherwise();
    assert!(!window.would_close());
    window.click("Save");
    window.press(Key::Escape);
    window.assert_silent("Changed outside");
    assert!(!window.has_closed());
    assert_eq!(fs::read_to_string(&bench.file).unwrap(), otherwise());
}

#[test]
fn a_save_as_that_is_given_up_is_no_leave_to_save_over_it() {
    let bench = Bench::new();
    let mut window = bench.window();
    bench.write_otherwise();
    for _ in 0..2 {
        window.press_with(Modifiers::COMMAND, Key::S);
        window.click("Save as…");
        window.assert_says(UNSAVED);
        assert_eq!(fs::read_to_string(&bench.file).unwrap(), otherwise());
    }
}

#[test]
fn what_is_written_while_it_is_asked_is_asked_about_too() {
    let bench = Bench::new();
    let mut window = bench.window();
    window.enter_text("Attitude", "5");
    bench.write_otherwise();
    window.press_with(Modifiers::COMMAND, Key::S);
    let later = otherwise().replace("Sample", "Second");
    fs::write(&bench.file, &later).unwrap();
    window.click("Save mine over it");
    window.assert_says("changed again");
    assert_eq!(fs::read_to_string(&bench.file).unwrap(), later);
    window.click("Save mine over it");
    window.assert_silent("changed again");
    assert_eq!(&open_unit(&bench.file).unwrap(), window.document());
}

#[test]
fn the_only_copy_is_never_dropped_without_a_word() {
    let removed = |bench: &Bench| fs::remove_file(&bench.file).unwrap();
    let changes: [fn(&Bench); 2] = [removed, Bench::write_otherwise];
    for change in changes {
        let bench = Bench::new();
        // Neither window was told: one does not look, the other is closed before it looks again.
        for is_watched in [false, true] {
            fs::write(&bench.file, DEMO_UNIT).unwrap();
            let start = if is_watched {
                bench.start()
            } else {
                Start::on_file(&bench.file)
            };
            let mut window = start.window();
            change(&bench);
            window.drop_file(&DemoUnit::GreensWalking.file());
            window.assert_says("What is open here is no longer in any file.");
            window.click("Keep editing");
            assert_eq!(window.document(), &document(DEMO_UNIT));
            assert!(!window.would_close());
            window.assert_says("What is open here is no longer in any file.");
        }
    }
}

#[test]
fn the_only_copy_is_kept_for_recovery_before_anybody_answers() {
    let bench = Bench::new();
    let mut window = bench.window();
    fs::remove_file(&bench.file).unwrap();
    window.harness.event(Event::WindowFocused(true));
    window.wait_until_it_says("The file is gone");
    window.assert_says(UNSAVED);
    drop(window);
    assert_eq!(bench.left(), 1);
}

#[test]
fn a_file_that_cannot_be_read_again_leaves_the_work_unsaved() {
    let bench = Bench::new();
    let mut window = bench.window();
    fs::write(&bench.file, "(format: 1, ").unwrap();
    window.harness.event(Event::WindowFocused(true));
    window.wait_until_it_says("Changed outside");
    window.click("Reload");
    window.assert_says("Not opened:");
    window.assert_says(UNSAVED);
    assert!(!window.would_close());
}

#[test]
fn what_happened_to_one_file_is_not_asked_of_another() {
    let bench = Bench::new();
    let mut window = bench.window();
    fs::remove_file(&bench.file).unwrap();
    // The keeper waits a moment for a file that is gone; another comes to the front meanwhile.
    window.harness.event(Event::WindowFocused(true));
    window.step();
    let behind = window.app().session().id();
    let elsewhere = bench.folder.path().join("other.ron");
    fs::write(&elsewhere, otherwise()).unwrap();
    let app = window.harness.state_mut();
    let other = app.lay_beside(Session::open(&elsewhere).unwrap());
    assert!(app.bring_session_to_front(other));
    for _ in 0..100 {
        std::thread::sleep(std::time::Duration::from_millis(10));
        window.step();
    }
    window.assert_silent("The file is gone");
    window.assert_silent(UNSAVED);
    assert!(window.harness.state_mut().bring_session_to_front(behind));
    window.wait_until_it_says("The file is gone");
}

#[test]
fn two_windows_on_one_file_know_of_each_other() {
    let bench = Bench::new();
    let mut first = bench.window();
    let mut second = bench.window();
    second.wait_until_it_says("open in another window");
    first.harness.event(Event::WindowFocused(true));
    first.wait_until_it_says("open in another window");
    second.enter_text("Attitude", "5");
    second.press_with(Modifiers::COMMAND, Key::S);
    second.assert_says("Another window has");
    assert_eq!(open_unit(&bench.file).unwrap(), document(DEMO_UNIT));
    second.click("Save mine over it");
    let saved = demo_set("attitude: \"5 deg\"");
    assert_eq!(open_unit(&bench.file).unwrap(), saved);
    first.harness.event(Event::WindowFocused(true));
    first.wait_until_it_says("Changed outside");
    first.click("Reload");
    assert_eq!(first.document(), &saved);
}

// Dialogs.

/// A dialog that stays open until it is told what was chosen.
#[derive(Default)]
struct Open(std::rc::Rc<RefCell<Option<Sender<Option<PathBuf>>>>>);

impl Dialogs for Open {
    fn ask(&self, _: &Ask) -> Choosing {
        let (sender, choosing) = channel();
        *self.0.borrow_mut() = Some(sender);
        choosing
    }
}

fn with_open_dialog(file: Option<&Path>) -> (Window, impl FnOnce(Option<PathBuf>)) {
    let dialog = Open::default();
    let sender = std::rc::Rc::clone(&dialog.0);
    let mut start = match file {
        Some(file) => Start::on_file(file),
        None => Start::on(document(DEMO_UNIT)),
    };
    start.dialogs = Box::new(dialog);
    let choose = move |file| {
        let sender = sender.borrow_mut().take().expect("a dialog is open");
        let _ = sender.send(file);
    };
    (start.window(), choose)
}

const WAITING: &str = "Choose a file in the dialog";

#[test]
fn the_window_goes_on_while_a_dialog_is_open() {
    let bench = Bench::new();
    let (mut window, choose) = with_open_dialog(None);
    window.press_with(Modifiers::COMMAND, Key::O);
    window.assert_says(WAITING);
    assert!(window.would_close(), "it can be closed");
    choose(Some(bench.file.clone()));
    window.step();
    window.settle();
    window.assert_silent(WAITING);
    assert_eq!(window.app().session().file(), Some(bench.file.as_path()));
}

#[test]
fn a_dialog_that_never_comes_can_be_given_up() {
    let (mut window, choose) = with_open_dialog(None);
    window.enter_text("Attitude", "5");
    window.press_with(Modifiers::COMMAND, Key::S);
    window.assert_says(WAITING);
    window.click("Cancel");
    window.assert_silent(WAITING);
    window.assert_says(UNSAVED);
    choose(None);
    window.settle();
    assert_eq!(window.app().session().file(), None);
}

#[test]
fn no_drop_goes_past_an_open_question() {
    let bench = Bench::new();
    let rows = bench.folder.path().join("rows.csv");
    fs::write(&rows, "long\t1.65\t2.65\t0.12\t0.5\t0.25\t52.00").unwrap();
    let (mut window, choose) = with_open_dialog(None);
    window.click("Knives");
    window.click("Read CSV…");
    window.assert_says(WAITING);
    let before = window.document().clone();
    window.drop_file(&bench.file);
    window.assert_says("Answer it first");
    assert_eq!(window.app().session().file(), None);
    choose(Some(rows));
    window.step();
    window.settle();
    window.click("Add these knives");
    assert_eq!(window.document().options.len(), before.options.len() + 1);
    window.drop_file(&bench.file);
    window.assert_says("Unsaved changes");
    window.drop_file(&bench.file);
    window.click("Keep editing");
    assert_eq!(window.app().session().file(), None);
}

#[test]
fn no_drop_takes_the_unit_away_under_a_card_that_works_on_it() {
    let bench = Bench::new();
    let rows = bench.folder.path().join("rows.csv");
    fs::write(&rows, "long\t1.65\t2.65\t0.12\t0.5\t0.25\t52.00").unwrap();
    let answers = Answers::default();
    answers.read_rows(&rows);
    let mut window = Start::on(document(DEMO_UNIT)).asking(&answers).window();
    let knives = window.document().options.len();
    window.click("Knives");
    for (card, done, more) in [
        ("Read CSV…", "Add these knives", 1),
        ("Paste rows…", "Cancel", 1),
        ("Add a knife", "Cancel", 1),
    ] {
        window.click(card);
        window.drop_file(&DemoUnit::GreensWalking.file());
        window.assert_says("Not opened: a card about this unit is open.");
        window.click(done);
        let document = window.document();
        assert_eq!(document.name, self::document(DEMO_UNIT).name, "{card}");
        assert_eq!(document.options.len(), knives + more, "{card}");
    }
}

#[test]
fn a_card_goes_with_the_unit_that_it_works_on() {
    let mut window = Window::demo();
    window.click("Knives");
    window.click("Paste rows…");
    let other = document(&otherwise());
    let app = window.harness.state_mut();
    let other = app.lay_beside(Session::new(other, None));
    assert!(app.bring_session_to_front(other));
    window.settle();
    window.assert_silent("Paste knives");
}

#[test]
fn a_file_chosen_after_the_open_one_was_removed_is_asked_about() {
    let bench = Bench::new();
    let (mut window, choose) = with_open_dialog(Some(&bench.file));
    window.press_with(Modifiers::COMMAND, Key::O);
    let elsewhere = bench.folder.path().join("other.ron");
    fs::rename(&bench.file, &elsewhere).unwrap();
    choose(Some(elsewhere.clone()));
    window.step();
    window.settle();
    window.click("Discard changes");
    assert_eq!(window.app().session().file(), Some(elsewhere.as_path()));
}

#[test]
fn a_save_before_closing_waits_for_its_dialog_and_then_closes() {
    let bench = Bench::new();
    let (mut window, choose) = with_open_dialog(None);
    window.enter_text("Attitude", "5");
    assert!(!window.would_close());
    window.click("Save");
    window.assert_says(WAITING);
    let file = bench.folder.path().join("new.ron");
    choose(Some(file.clone()));
    assert!(window.has_closed());
    assert_eq!(open_unit(&file).unwrap(), *window.document());
}
