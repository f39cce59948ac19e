//! Show, the window in front of a room: large enough for the last row, by keys alone, and no more of it
//! seen than is meant to be.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::accesskit::Role;
use egui::epaint::TextShape;
use egui::{Key, Rect, Shape, Vec2, ViewportCommand};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::app::DEMO_UNIT;
use sweepgauge::command::open_lesson;
use sweepgauge::drawing::LessonPictures;
use sweepgauge::unit::read_text;
use tempfile::TempDir;

use crate::common::shown::{Start, Window};

/// Screens of projectors and of desks.
const SCREENS: [Vec2; 5] = [
    Vec2::new(1024.0, 768.0),
    Vec2::new(1366.0, 768.0),
    Vec2::new(1920.0, 1080.0),
    Vec2::new(3840.0, 2160.0),
    Vec2::new(900.0, 600.0),
];

pub fn lessons() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/lessons");
    let files = fs::read_dir(folder).unwrap();
    let files = files.map(|file| file.unwrap().path());
    let mut files: Vec<_> = files
        .filter(|file| file.to_string_lossy().ends_with(".lesson.ron"))
        .collect();
    files.sort();
    files
}

fn window(size: Vec2) -> Window {
    let mut start = Start::on(read_text(DEMO_UNIT).unwrap());
    start.size = size;
    start.window()
}

/// A lesson from a step on, its reel standing still.
pub fn telling(file: &Path, step: usize, size: Vec2) -> Window {
    let mut window = window(size);
    let lesson = open_lesson(file).unwrap();
    let ctx = window.harness.ctx.clone();
    window.harness.state_mut().show_lesson(&ctx, lesson, step);
    window.harness.key_press(Key::Space);
    window.settle();
    window
}

fn behind_centre() -> PathBuf {
    lessons()
        .into_iter()
        .find(|file| file.ends_with("behind-centre.lesson.ron"))
        .unwrap()
}

/// Words as they were painted.
pub fn painted(window: &Window) -> Vec<TextShape> {
    fn collect(shape: &Shape, words: &mut Vec<TextShape>) {
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| collect(shape, words)),
            Shape::Text(text) if !text.galley.is_empty() => words.push(text.clone()),
            _ => {}
        }
    }
    let mut words = Vec::new();
    for shape in &window.harness.output().shapes {
        collect(&shape.shape, &mut words);
    }
    words
}

fn size(text: &TextShape) -> f32 {
    let sizes = text
        .galley
        .job
        .sections
        .iter()
        .map(|section| section.format.font_id.size);
    sizes.fold(f32::INFINITY, f32::min)
}

/// Every word large enough, none over another, none cut; and the digits of these numbers as high as promised.
#[track_caller]
pub fn assert_seen_from_the_back(window: &Window, screen: Vec2, numbers: &[String], told: &str) {
    let words = painted(window);
    assert!(words.len() > 3, "{told}");
    for text in &words {
        let told = format!("{told}: \"{}\"", text.galley.text());
        assert!(
            size(text) >= 0.02 * screen.y,
            "{told} is {} high",
            size(text)
        );
        assert!(!text.galley.elided, "{told} is cut");
    }
    for number in numbers {
        let shown = words.iter().filter(|text| text.galley.text() == number);
        // The ink itself, from the foot of its digits to their top.
        let high = shown
            .map(|text| text.galley.mesh_bounds.height())
            .fold(0.0, f32::max);
        assert!(high >= 0.05 * screen.y, "{told}: {number} is {high} high");
    }
    // Labels stand outside of the picture, whose own words are seen to elsewhere.
    let nodes = window.nodes();
    let labels = nodes
        .iter()
        .filter(|node| node.accesskit_node().role() == Role::Label);
    let places: Vec<Rect> = labels.map(egui_kittest::Node::rect).collect();
    let all = Rect::from_min_size(egui::Pos2::ZERO, screen).expand(1.0);
    for (index, one) in places.iter().enumerate() {
        assert!(all.contains_rect(*one), "{told}: {one}");
        let before = places[..index].iter();
        let over = before
            .clone()
            .find(|other| other.shrink(1.5).intersects(one.shrink(1.5)));
        assert_eq!(over, None, "{told}: {one}");
    }
    let picture = nodes
        .iter()
        .filter(|node| node.accesskit_node().role() == Role::Image);
    for picture in picture.map(egui_kittest::Node::rect) {
        assert!(picture.height() > 0.2 * screen.y, "{told}: {picture}");
        let over = places
            .iter()
            .find(|label| label.shrink(1.5).intersects(picture.shrink(1.5)));
        assert_eq!(over, None, "{told}: {picture}");
    }
}

#[test]
fn every_step_of_every_lesson_is_read_from_the_last_row() {
    let mut count = 0;
    for file in lessons() {
        let lesson = open_lesson(&file).unwrap();
        for screen in SCREENS {
            let mut window = telling(&file, 0, screen);
            for (index, step) in lesson.steps.iter().enumerate() {
                let solved = step.as_ref().unwrap();
                if lesson.lesson.steps[index].numbers_hidden {
                    window.press(Key::N);
                }
                let numbers: Vec<String> = solved
                    .numbers
                    .iter()
                    .map(|number| number.shown.clone())
                    .collect();
                let told = format!("{}, step {}, {screen}", file.display(), index + 1);
                window.assert_says(&lesson.lesson.steps[index].title);
                window.assert_says(&solved.text);
                for number in &numbers {
                    window.assert_says(number);
                }
                assert_seen_from_the_back(&window, screen, &numbers, &told);
                count += 1;
                window.press(Key::ArrowRight);
            }
        }
    }
    assert!(count > 60, "{count}");
}

#[test]
fn the_unit_is_shown_from_every_area_and_escape_brings_the_window_back() {
    for screen in SCREENS {
        let mut window = window(screen);
        let areas: Vec<_> = window.app().areas().map(|about| about.id).collect();
        for area in areas {
            window.harness.state_mut().bring_to_front(area);
            window.settle();
            assert!(window.has_button("File"), "the bar of {area}");
            window.take_commands();
            window.press(Key::F11);
            assert!(!window.has_button("File"), "{area}");
            assert!(
                window
                    .take_commands()
                    .contains(&ViewportCommand::Fullscreen(true))
            );
            window.assert_says("Example Ground, trailed gang, number 3");
            window.assert_says("unit and reel blocked");
            let numbers = ["0.300 in", "0.0131 in", "2.6 %", "0.500 in"].map(str::to_owned);
            assert_seen_from_the_back(&window, screen, &numbers, area);
            window.press(Key::Escape);
            assert!(window.has_button("File"), "{area}");
            assert!(
                window
                    .take_commands()
                    .contains(&ViewportCommand::Fullscreen(false))
            );
        }
    }
}

#[test]
fn a_lesson_goes_by_keys_and_its_notes_are_for_the_presenter_alone() {
    let file = behind_centre();
    let lesson = open_lesson(&file).unwrap().lesson;
    let mut window = telling(&file, 0, SCREENS[0]);
    let titles: Vec<_> = lesson.steps.iter().map(|step| step.title.clone()).collect();
    let assert_at = |window: &Window, step: usize| {
        window.assert_says(&titles[step]);
        for step in &lesson.steps {
            assert!(
                step.notes.is_empty() || !window.says(&step.notes),
                "{}",
                step.notes
            );
        }
    };
    assert_at(&window, 0);
    window.press(Key::ArrowLeft);
    assert_at(&window, 0);
    for step in 1..titles.len() {
        window.press(if step % 2 == 0 {
            Key::PageDown
        } else {
            Key::ArrowRight
        });
        assert_at(&window, step);
    }
    window.press(Key::ArrowRight);
    assert_at(&window, titles.len() - 1);
    window.press(Key::PageUp);
    assert_at(&window, titles.len() - 2);
    // Blank: no word of it, until the same key or the next step.
    window.press(Key::B);
    window.assert_silent(&titles[titles.len() - 2]);
    window.press(Key::B);
    assert_at(&window, titles.len() - 2);
    window.press(Key::Home);
    window.harness.key_press(Key::Space);
    (0..3).for_each(|_| {
        window.step();
    });
    assert_at(&window, 0);
}

#[test]
fn hidden_numbers_stay_hidden_until_somebody_asks() {
    let mut window = telling(&behind_centre(), 3, SCREENS[0]);
    window.assert_says("The knife slides back");
    let words = |window: &Window| -> Vec<String> {
        painted(window)
            .iter()
            .map(|text| text.galley.text().to_owned())
            .collect()
    };
    // Neither under the picture nor on it.
    assert!(
        !words(&window).iter().any(|text| text.contains("0.0201")),
        "{:?}",
        words(&window)
    );
    assert!(
        words(&window).iter().any(|text| text == "knife"),
        "the picture is there"
    );
    window.press(Key::N);
    window.assert_says("0.0201 in");
    assert!(
        words(&window)
            .iter()
            .filter(|text| text.contains("0.0201"))
            .count()
            > 1
    );
    window.press(Key::N);
    window.assert_silent("0.0201 in");
    // Asked for on one step, they are hidden anew on the next visit.
    window.press(Key::N);
    window.press(Key::ArrowRight);
    window.press(Key::ArrowLeft);
    window.assert_silent("0.0201 in");
}

#[test]
fn no_step_of_any_lesson_shows_a_number_that_it_hides() {
    let mut count = 0;
    for file in lessons() {
        let lesson = open_lesson(&file).unwrap();
        let mut window = telling(&file, 0, SCREENS[0]);
        for (step, solved) in lesson.lesson.steps.iter().zip(&lesson.steps) {
            if step.numbers_hidden {
                let words = painted(&window);
                let solved = solved.as_ref().unwrap();
                for number in &solved.numbers {
                    let told = words
                        .iter()
                        .find(|text| text.galley.text().contains(&number.shown));
                    assert!(told.is_none(), "{}: {}", step.title, number.shown);
                    count += 1;
                }
            }
            window.press(Key::ArrowRight);
        }
    }
    assert!(count > 5, "{count}");
}

#[test]
fn a_step_that_cannot_be_shown_says_why_and_the_lesson_goes_on() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("told.lesson.ron");
    let unit = behind_centre().with_file_name("seven-inch.ron");
    fs::copy(unit, folder.path().join("seven-inch.ron")).unwrap();
    let text = r#"(lesson: 1, title: "Told", steps: [
        (title: "Gone", text: "It sweeps {sweep}.", unit: (file: "gone.ron")),
        (title: "Here", text: "It sweeps {sweep}.", unit: (file: "seven-inch.ron")),
    ])"#;
    fs::write(&file, text).unwrap();
    let mut window = telling(&file, 0, SCREENS[0]);
    window.assert_says("Gone");
    window.assert_says("Not shown:");
    window.assert_says("gone.ron");
    window.press(Key::ArrowRight);
    window.assert_says("It sweeps 0.0201 in.");
}

#[test]
fn the_reel_turns_until_space_stops_it_and_no_frame_is_drawn_then() {
    let mut window = window(SCREENS[0]);
    let lesson = open_lesson(&behind_centre()).unwrap();
    let ctx = window.harness.ctx.clone();
    window.harness.state_mut().show_lesson(&ctx, lesson, 0);
    let blades = |window: &Window| {
        let shapes = &window.harness.output().shapes;
        format!(
            "{:?}",
            shapes.iter().map(|shape| &shape.shape).collect::<Vec<_>>()
        )
    };
    (0..4).for_each(|_| {
        window.step();
    });
    let before = blades(&window);
    assert_eq!(window.step(), Duration::ZERO, "it goes on");
    assert_ne!(blades(&window), before);
    window.harness.key_press(Key::Space);
    window.settle();
    let stopped = blades(&window);
    assert!(window.step() > Duration::ZERO);
    assert_eq!(blades(&window), stopped);
    // One blade on: the reel stands where a blade clips.
    window.press(Key::ArrowUp);
    assert_ne!(blades(&window), stopped);
    assert!(window.step() > Duration::ZERO);
}

#[test]
fn the_hint_fades_and_comes_again_with_a_key() {
    let mut window = telling(&behind_centre(), 2, SCREENS[0]);
    window.assert_says("N: numbers");
    // Five seconds of the toolkit's clock.
    (0..5 * 60 + 30).for_each(|_| {
        window.step();
    });
    window.assert_silent("N: numbers");
    assert!(
        window.step() > Duration::from_hours(1),
        "and then no frame is asked for"
    );
    window.press(Key::ArrowRight);
    window.assert_says("N: numbers");
}

/// All that was painted, to be compared.
pub fn all_painted(window: &Window) -> String {
    let shapes = &window.harness.output().shapes;
    format!(
        "{:?}",
        shapes.iter().map(|shape| &shape.shape).collect::<Vec<_>>()
    )
}

/// The step of a lesson after which the picture moves, and its file.
fn moving_step() -> (PathBuf, usize) {
    let found = lessons().into_iter().find_map(|file| {
        let opened = open_lesson(&file).unwrap();
        let pictures = LessonPictures {
            lesson: &opened.lesson,
            steps: &opened.steps,
            clips: 0.0,
        };
        let moves = |at: &usize| {
            let moved = pictures.step_move(*at, at + 1);
            moved.is_some_and(|moved| moved.can_be()) && !opened.lesson.steps[at + 1].motion
        };
        let at = (0..opened.lesson.steps.len()).find(moves)?;
        Some((file, at))
    });
    found.expect("a step that moves")
}

#[test]
fn between_two_steps_the_picture_moves_for_a_while_and_then_no_frame_is_asked_for() {
    let (file, at) = moving_step();
    let mut window = telling(&file, at, SCREENS[0]);
    window.harness.key_press(Key::ArrowRight);
    let mut frames = Vec::new();
    while window.step() == Duration::ZERO {
        frames.push(all_painted(&window));
        assert!(frames.len() < 60, "it ends");
    }
    // 0.6 s of 60 frames a second.
    assert!((30..=40).contains(&frames.len()), "{}", frames.len());
    let (first, last) = (all_painted(&window), &frames[frames.len() / 2]);
    assert_ne!(&first, last);
    assert!(window.step() > Duration::ZERO, "at rest");
    // What it ends with is the step as it is opened.
    let mut other = telling(&file, at + 1, SCREENS[0]);
    other.step();
    let pictured = |window: &Window| -> Vec<String> {
        painted(window)
            .iter()
            .map(|text| text.galley.text().to_owned())
            .collect()
    };
    assert_eq!(pictured(&window), pictured(&other));
}

#[test]
fn a_key_ends_the_move() {
    let (file, at) = moving_step();
    let mut window = telling(&file, at, SCREENS[0]);
    window.harness.key_press(Key::ArrowRight);
    (0..5).for_each(|_| {
        window.step();
    });
    let moving = all_painted(&window);
    // A key that changes nothing of the picture: the numbers, twice.
    window.harness.key_press(Key::N);
    window.harness.key_press(Key::N);
    let frames = (0..10).take_while(|_| window.step() == Duration::ZERO);
    assert!(frames.count() < 6, "it has arrived");
    assert_ne!(all_painted(&window), moving);
}
