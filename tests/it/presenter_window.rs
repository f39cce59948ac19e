//! The presenter's window: notes, next step and clocks stand in a window of their own and never before the
//! room; its keys work the lesson.

use std::path::Path;

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, RawInput, Rect, Vec2, ViewportId, ViewportInfo};
use sweepgauge::app::DEMO_UNIT;
use sweepgauge::command::open_lesson;
use sweepgauge::lesson::Lesson;
use sweepgauge::unit::read_text;

use crate::common::shown::{Start, Window};

const SIZE: Vec2 = Vec2::new(900.0, 620.0);

/// A lesson in front of a room, and the lesson itself. Its second step is the first that stands still.
fn telling(has_windows: bool) -> (Window, Lesson) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/lessons");
    let opened = open_lesson(&folder.join("behind-centre.lesson.ron")).unwrap();
    let lesson = opened.lesson.clone();
    let mut start = Start::on(read_text(DEMO_UNIT).unwrap());
    start.size = Vec2::new(1024.0, 768.0);
    let mut window = start.window();
    let ctx = window.harness.ctx.clone();
    ctx.set_embed_viewports(!has_windows);
    window.harness.state_mut().show_lesson(&ctx, opened, 1);
    window.settle();
    (window, lesson)
}

/// The second window, if there is one.
fn second(window: &Window) -> Option<ViewportId> {
    let ids = window.harness.output().viewport_output.keys();
    ids.copied().find(|id| *id != ViewportId::ROOT)
}

/// What a frame of the second window says, while something is done in it.
#[track_caller]
fn presenter_with(window: &Window, events: Vec<Event>) -> Vec<String> {
    let id = second(window).expect("the presenter's window");
    let output = &window.harness.output().viewport_output[&id];
    let show = output.viewport_ui_cb.clone().expect("what it shows");
    let input = RawInput {
        viewport_id: id,
        viewports: [
            (ViewportId::ROOT, ViewportInfo::default()),
            (id, ViewportInfo::default()),
        ]
        .into_iter()
        .collect(),
        screen_rect: Some(Rect::from_min_size(egui::Pos2::ZERO, SIZE)),
        focused: true,
        events,
        ..RawInput::default()
    };
    let mut output = window.harness.ctx.run_ui(input, |ui| show(ui));
    // No screen is here to put letters on.
    output.textures_delta.clear();
    let update = output
        .platform_output
        .accesskit_update
        .expect("it is read out");
    let nodes = update.nodes.iter().map(|(_, node)| node);
    nodes
        .filter(|node| matches!(node.role(), Role::Label | Role::Image))
        .filter_map(|node| node.value().or(node.label()).map(str::to_owned))
        .collect()
}

fn presenter(window: &Window) -> Vec<String> {
    presenter_with(window, Vec::new())
}

fn pressed(key: Key) -> Vec<Event> {
    vec![Event::Key {
        key,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::NONE,
    }]
}

#[track_caller]
fn assert_no_notes_before_the_room(window: &Window, lesson: &Lesson) {
    for step in lesson.steps.iter().filter(|step| !step.notes.is_empty()) {
        assert!(!window.says(&step.notes), "{}", step.notes);
    }
    for words in ["Time of day", "Since the start", "Next:"] {
        window.assert_silent(words);
    }
}

#[test]
fn notes_next_step_and_clocks_stand_in_the_presenters_window_alone() {
    let (mut window, lesson) = telling(true);
    assert_eq!(second(&window), None);
    window.press(Key::P);
    window.settle();
    for number in 1..lesson.steps.len() {
        let says = presenter(&window).join("\n");
        let step = &lesson.steps[number];
        assert!(
            says.contains(&step.notes) && says.contains(&step.title),
            "{says}"
        );
        assert!(says.contains(&format!("{} of {}", number + 1, lesson.steps.len())));
        assert!(says.contains("Time of day") && says.contains("Since the start"));
        match lesson.steps.get(number + 1) {
            Some(next) => {
                assert!(says.contains(&format!("Next: {}", next.title)), "{says}");
                assert!(says.contains(&format!("Picture of the next step: {}", next.title)));
            }
            None => assert!(says.contains("This is the last step"), "{says}"),
        }
        assert_no_notes_before_the_room(&window, &lesson);
        window.assert_says(&step.title);
        window.press(Key::ArrowRight);
        window.settle();
    }
    window.press(Key::P);
    window.settle();
    assert_eq!(second(&window), None, "and closes again");
}

#[test]
fn keys_in_the_presenters_window_work_the_lesson() {
    let (mut window, lesson) = telling(true);
    window.press(Key::P);
    let press = |window: &mut Window, key| {
        presenter_with(window, pressed(key));
        // The room follows, and then the presenter's window what it shows.
        window.settle();
        presenter(window).join("\n")
    };
    let says = press(&mut window, Key::PageDown);
    window.assert_says(&lesson.steps[2].title);
    assert!(says.contains(&lesson.steps[2].notes), "{says}");
    press(&mut window, Key::ArrowRight);
    window.assert_says(&lesson.steps[3].title);
    // The presenter sees the number that the room is to guess.
    let says = presenter(&window).join("\n");
    assert!(
        says.contains("hidden from the room") && says.contains("0.0201 in"),
        "{says}"
    );
    window.assert_silent("0.0201 in");
    let says = press(&mut window, Key::N);
    window.assert_says("0.0201 in");
    assert!(says.contains("that the room sees"), "{says}");
    let says = press(&mut window, Key::B);
    window.assert_silent(&lesson.steps[3].title);
    assert!(says.contains("The room's screen is dark"), "{says}");
    press(&mut window, Key::B);
    // The list of keys stands there and not before the room.
    let says = press(&mut window, Key::F1);
    assert!(says.contains("All dark, and back"), "{says}");
    window.assert_silent("All dark, and back");
    press(&mut window, Key::F1);
    // It closes with Show, whoever ends it.
    presenter_with(&window, pressed(Key::Escape));
    window.settle();
    assert!(window.has_button("File"));
    assert_eq!(second(&window), None);
}

#[test]
fn where_there_is_one_window_only_the_notes_stay_away() {
    let (mut window, lesson) = telling(false);
    window.press(Key::P);
    window.settle();
    assert_eq!(second(&window), None);
    assert_no_notes_before_the_room(&window, &lesson);
    window.assert_says(&lesson.steps[1].title);
}
