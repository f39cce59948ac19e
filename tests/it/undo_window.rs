//! Taking steps back and doing them again: every edit is one step, wherever it was made.

use egui::{Event, Key, Modifiers, Vec2};
use sweepgauge::unit::Document;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Answers, Start, WANTED, Window};

const UNDO: (Modifiers, Key) = (Modifiers::COMMAND, Key::Z);
const REDO: (Modifiers, Key) = (Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
const REDO_TOO: (Modifiers, Key) = (Modifiers::COMMAND, Key::Y);

fn press(window: &mut Window, (modifiers, key): (Modifiers, Key)) {
    window.press_with(modifiers, key);
}

/// What the Edit menu offers first.
fn offered(window: &mut Window) -> Vec<String> {
    window.click("Edit");
    let mut texts = window.texts();
    texts.retain(|text| text.starts_with("Undo ") || text.starts_with("Redo "));
    window.press(Key::Escape);
    // Without the keys beside it.
    let bare = |text: &String| text.split(" Ctrl+").next().unwrap_or_default().to_owned();
    texts.iter().map(bare).collect()
}

/// Asserts that what was done is one step of this name, which goes back and comes again.
#[track_caller]
fn assert_one_step(window: &mut Window, before: &Document, name: &str) {
    let after = window.document().clone();
    assert_ne!(&after, before, "{name} changed nothing");
    assert_eq!(
        offered(window),
        [format!("Undo {name}")],
        "and none to redo"
    );
    press(window, UNDO);
    assert_eq!(window.document(), before, "{name} taken back");
    let offers = offered(window);
    assert_eq!(offers.last(), Some(&format!("Redo {name}")));
    press(window, REDO);
    assert_eq!(window.document(), &after, "{name} done again");
    press(window, UNDO);
    press(window, REDO_TOO);
    assert_eq!(
        window.document(),
        &after,
        "{name} done again with the other keys"
    );
    window.assert_silent("Not current");
}

#[test]
fn what_is_typed_into_a_field_is_one_step() {
    let mut window = Window::demo_as_wanted();
    let before = window.document().clone();
    window.type_over("Reel diameter", "6");
    for letter in [".", "7", "5"] {
        window.harness.event(Event::Text(letter.to_owned()));
        window.settle();
    }
    window.press(Key::Enter);
    assert_one_step(&mut window, &before, "reel diameter 6.75 in");
    press(&mut window, UNDO);
    assert_eq!(window.placeholder("Reel diameter"), "as measured");
    window.type_over("Reel diameter", "6.8");
    window.press(Key::Tab);
    assert_one_step(&mut window, &before, "reel diameter 6.8 in");
    // Another entry in the same field is another step.
    let before = window.document().clone();
    window.enter_text("Reel diameter", "6.75");
    press(&mut window, UNDO);
    assert_eq!(window.document(), &before);
}

#[test]
fn typing_that_ends_where_it_began_is_no_step() {
    let mut window = Window::demo();
    let before = window.document().clone();
    let shown = window.entry("Behind centre, as measured");
    window.type_over("Behind centre, as measured", "0.3");
    window.type_over("Behind centre, as measured", &shown);
    window.press(Key::Enter);
    assert_eq!(window.document(), &before);
    window.type_over("Reel diameter", "6.7");
    assert_ne!(window.document(), &before);
    window.press(Key::Escape);
    assert_eq!(window.document(), &before);
    assert!(offered(&mut window).is_empty());
}

#[test]
fn a_field_takes_back_what_is_typed_into_it_first() {
    let mut window = Window::demo_as_wanted();
    let first = window.document().clone();
    window.enter_text("Edge forward", "0.1");
    let before = window.document().clone();
    window.type_over("Reel diameter", "6.7 wide");
    window.assert_says("Not current");
    press(&mut window, UNDO);
    assert_eq!(window.placeholder("Reel diameter"), "as measured");
    assert_eq!(window.document(), &before);
    press(&mut window, UNDO);
    assert_eq!(window.document(), &first);
    press(&mut window, REDO);
    assert_eq!(window.document(), &before);
}

#[test]
fn a_wrong_text_is_a_step_of_its_own_and_comes_back() {
    let mut window = Window::demo_as_wanted();
    let first = window.document().clone();
    let shown = window.entry("Height of cut");
    window.enter_text("Edge forward", "0.1");
    let extended = window.document().clone();
    window.enter_text("Height of cut", "half");
    window.assert_says("Not current");
    let name = "what was typed into height of cut";
    assert_eq!(offered(&mut window), [format!("Undo {name}")]);
    press(&mut window, UNDO);
    window.assert_silent("Not current");
    assert_eq!(window.entry("Height of cut"), shown);
    assert_eq!(window.document(), &extended, "the step before it stays");
    assert_eq!(offered(&mut window).last(), Some(&format!("Redo {name}")));
    press(&mut window, REDO);
    window.assert_says("Not current");
    assert_eq!(window.entry("Height of cut"), "half");
    for _ in 0..2 {
        press(&mut window, UNDO);
    }
    assert_eq!(window.document(), &first);
    for _ in 0..2 {
        press(&mut window, REDO);
    }
    assert_eq!(window.document(), &extended);
    assert_eq!(window.entry("Height of cut"), "half");
    // Put right, the text is as it was: that is a step too, and the wrong one comes back by undo.
    window.enter_text("Height of cut", "0.6 in");
    window.assert_silent("Not current");
    press(&mut window, UNDO);
    assert_eq!(window.document(), &extended);
    assert_eq!(window.entry("Height of cut"), "half");
}

#[test]
fn a_wrong_text_stays_while_other_steps_come_and_go() {
    let mut window = Window::demo_as_wanted();
    let first = window.document().clone();
    window.enter_text("Height of cut", "half");
    window.enter_text("Edge forward", "0.1");
    press(&mut window, UNDO);
    assert_eq!(window.document(), &first);
    assert_eq!(window.entry("Height of cut"), "half");
    press(&mut window, REDO);
    assert_eq!(window.entry("Height of cut"), "half");
    press(&mut window, UNDO);
    press(&mut window, UNDO);
    window.assert_silent("Not current");
    assert!(offered(&mut window)[0].starts_with("Redo "));
}

#[test]
fn a_wrong_text_that_was_right_on_its_way_is_one_step() {
    let mut window = Window::demo_as_wanted();
    let first = window.document().clone();
    window.type_over("Reel diameter", "6");
    for letter in [".", "7", "w"] {
        window.harness.event(Event::Text(letter.to_owned()));
        window.settle();
    }
    window.press(Key::Tab);
    let typed = window.document().clone();
    assert_ne!(typed, first);
    press(&mut window, UNDO);
    assert_eq!(window.document(), &first);
    window.assert_silent("Not current");
    press(&mut window, REDO);
    assert_eq!(window.document(), &typed);
    assert_eq!(window.entry("Reel diameter"), "6.7w");
}

#[test]
fn a_change_over_a_wrong_text_is_taken_back_with_it() {
    let mut window = Window::demo_as_wanted();
    window.enter_text("Edge forward", "0.1");
    window.enter_text("Edge forward", "long");
    let before = window.document().clone();
    let slider = window.slider("Edge forward slider").rect().center();
    window.drag(slider, Vec2::new(40.0, 0.0));
    window.assert_silent("Not current");
    press(&mut window, UNDO);
    assert_eq!(window.document(), &before);
    assert_eq!(window.entry("Edge forward"), "long");
}

#[test]
fn a_drag_is_one_step() {
    let mut window = Window::demo_as_wanted();
    let before = window.document().clone();
    let slider = window.slider("Edge forward slider").rect().center();
    window.drag(slider, Vec2::new(60.0, 0.0));
    let entry = window.entry("Edge forward");
    assert_one_step(&mut window, &before, &format!("edge forward {entry}"));
    let before = window.document().clone();
    let slider = window.slider("Edge forward slider").rect().center();
    window.drag(slider, Vec2::new(20.0, 0.0));
    press(&mut window, UNDO);
    assert_eq!(window.document(), &before, "a second drag is a second step");
    for (handle, name) in [
        ("Reel diameter handle", "Reel diameter"),
        ("Attitude handle", "Attitude"),
    ] {
        let mut window = Window::demo_as_wanted();
        let before = window.document().clone();
        let at = window.button(handle).rect().center();
        window.drag(at, Vec2::new(-30.0, 26.0));
        let entry = window.entry(name);
        let name = name.to_lowercase();
        assert_one_step(&mut window, &before, &format!("{name} {entry}"));
    }
}

#[test]
fn each_press_of_an_arrow_key_is_a_step() {
    let mut window = Window::demo_as_wanted();
    let before = window.document().clone();
    window.slider("Attitude slider").focus();
    window.settle();
    window.press(Key::ArrowRight);
    let once = window.document().clone();
    window.press(Key::ArrowRight);
    press(&mut window, UNDO);
    assert_eq!(window.document(), &once);
    press(&mut window, UNDO);
    assert_eq!(window.document(), &before);
}

#[test]
fn a_click_is_one_step_in_every_area() {
    let mut window = Start::on(DemoUnit::KnifeChoice.document()).window();
    let before = window.document().clone();
    window.click("the rollers");
    assert_one_step(&mut window, &before, "setting by the rollers");
    window.click("Back to as measured");
    press(&mut window, UNDO);
    assert_eq!(offered(&mut window)[1], "Redo back to as measured");
    press(&mut window, UNDO);

    window.click("Knives");
    window.click("Paste rows…");
    window.field("Rows of knives").focus();
    window.settle();
    let rows = "long\t1.7\t2.7\t0.12\t1/2\t0.25\nlonger\t1.8\t2.7\t0.12\t1/2\t0.25";
    window.harness.event(Event::Paste(rows.to_owned()));
    window.settle();
    window.click("Add these knives");
    assert_one_step(&mut window, &before, "added knives");
    let before = window.document().clone();
    window.click("Fit longer");
    assert_one_step(&mut window, &before, "knife fitted");
    let before = window.document().clone();
    window.click("Remove knife longer");
    assert_one_step(&mut window, &before, "removed knife");

    let mut window = Window::demo();
    let before = window.document().clone();
    window.click("Knives");
    let middle = window.button("Attitude map of \"plain\"").rect().center();
    window.harness.hover_at(middle);
    window.settle();
    window.harness.drag_at(middle);
    window.settle();
    window.harness.drop_at(middle);
    window.settle();
    assert_one_step(&mut window, &before, "attitude and reel diameter");

    let mut unit = DemoUnit::KnifeChoice.document();
    unit.mowing = None;
    let mut window = Start::on(unit).window();
    let before = window.document().clone();
    window.click("Blade path");
    window.click("Fill in speeds");
    assert_one_step(&mut window, &before, "filled in speeds");

    let mut window = Start::on(DemoUnit::GreensScalping.document()).window();
    let before = window.document().clone();
    window.click("Why");
    window.click("Try Edge forward, To its OK limit");
    assert_one_step(&mut window, &before, "trial of edge forward");
    window.click("Undo");
    assert_eq!(window.document(), &before);
}

#[test]
fn steps_made_in_one_area_are_taken_back_in_another() {
    let mut window = Window::demo();
    let first = window.document().clone();
    window.enter_text("Reel diameter", "6.7");
    window.click("Knives");
    window.enter_text("Name", "Another name");
    assert_eq!(offered(&mut window), ["Undo name \"Another name\""]);
    window.click("Why");
    press(&mut window, UNDO);
    press(&mut window, UNDO);
    assert_eq!(window.document(), &first);
    assert!(!window.says("unsaved changes"));
    press(&mut window, UNDO);
    assert_eq!(window.document(), &first);
    // What is done now leaves no way to what was taken back.
    window.enter_text("Name", "A third name");
    assert_eq!(offered(&mut window), ["Undo name \"A third name\""]);
}

#[test]
fn a_step_taken_back_is_told_and_shown_where_it_happened() {
    let mut window = Window::demo();
    let before = window.entry("Attitude, as measured");
    window.enter_text("Attitude, as measured", "5");
    window.click(WANTED);
    press(&mut window, UNDO);
    window.assert_says("Undone: attitude, as measured 5 deg.");
    assert_eq!(window.entry("Attitude, as measured"), before);
    window.click(WANTED);
    press(&mut window, REDO);
    window.assert_says("Redone: attitude, as measured 5 deg.");
    assert_eq!(window.entry("Attitude, as measured"), "5 deg");
}

#[test]
fn another_file_has_its_own_steps() {
    let answers = Answers::default();
    answers.open(&DemoUnit::RollersGiven.file());
    let mut window = Start::on(DemoUnit::GreensScalping.document())
        .asking(&answers)
        .window();
    window.enter_text("Name", "Another name");
    window.press_with(Modifiers::COMMAND, Key::O);
    window.click("Discard changes");
    assert_eq!(window.document(), &DemoUnit::RollersGiven.document());
    assert!(offered(&mut window).is_empty());
    press(&mut window, UNDO);
    assert_eq!(window.document(), &DemoUnit::RollersGiven.document());
}

#[test]
fn a_question_holds_the_steps() {
    let mut window = Window::demo();
    window.enter_text("Name", "Another name");
    let changed = window.document().clone();
    window.press_with(Modifiers::COMMAND, Key::N);
    press(&mut window, UNDO);
    assert_eq!(window.document(), &changed);
}
