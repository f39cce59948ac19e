//! Every step of every shipped lesson in front of a room, measured: how high its digits and the words of its
//! picture are, and that no words stand on others. `--nocapture` prints what was measured.

use egui::accesskit::Role;
use egui::{Key, Rect, Vec2};
use egui_kittest::kittest::NodeT as _;
use kurbo::Rect as Paper;
use std::fmt::Write as _;
use sweepgauge::app::show_style;
use sweepgauge::command::open_lesson;
use sweepgauge::drawing::{LessonPictures, Numbers, Style, Theme, Words};

use crate::common::shown::Window;
use crate::lettering::faults;
use crate::show_window::{assert_seen_from_the_back, lessons, painted, telling};

/// A projector, and a screen of today.
const SCREENS: [Vec2; 2] = [Vec2::new(1024.0, 768.0), Vec2::new(1920.0, 1080.0)];

/// Where the step's picture stands.
fn picture(window: &Window) -> Rect {
    let nodes = window.nodes();
    let mut pictures = nodes
        .iter()
        .filter(|node| node.accesskit_node().role() == Role::Image);
    pictures.next().expect("a picture").rect()
}

#[test]
fn digits_and_words_of_every_step_are_as_high_as_promised_on_a_projector_and_on_a_screen() {
    let mut table = Vec::new();
    for file in lessons() {
        let opened = open_lesson(&file).unwrap();
        let name = file.file_name().unwrap().to_string_lossy().into_owned();
        let pictures = LessonPictures {
            lesson: &opened.lesson,
            steps: &opened.steps,
            clips: 0.0,
        };
        let mut windows = SCREENS.map(|screen| telling(&file, 0, screen));
        for (at, step) in opened.lesson.steps.iter().enumerate() {
            let solved = opened.steps[at].as_ref().unwrap();
            let numbers: Vec<String> = solved.numbers.iter().map(|n| n.shown.clone()).collect();
            let mut row = format!("{name:<30} {:>2}", at + 1);
            for (screen, window) in SCREENS.into_iter().zip(&mut windows) {
                let told = format!("{name}, step {}, {screen}", at + 1);
                let ways = if step.numbers_hidden {
                    vec![Numbers::Hidden, Numbers::Shown]
                } else {
                    vec![Numbers::Shown]
                };
                let (mut digits, mut words) = (f32::INFINITY, f32::INFINITY);
                for way in ways {
                    if step.numbers_hidden && way == Numbers::Shown {
                        window.press(Key::N);
                    }
                    let seen: &[String] = match way {
                        Numbers::Shown => &numbers,
                        Numbers::Hidden => &[],
                    };
                    assert_seen_from_the_back(window, screen, seen, &told);
                    let place = picture(window);
                    let painted = painted(window);
                    for text in &painted {
                        let size = text.galley.job.sections.iter();
                        let size = size.map(|section| section.format.font_id.size);
                        if place.contains(text.visual_bounding_rect().center()) {
                            words = size.fold(words, f32::min);
                        }
                    }
                    // A slider may tell the same number beside it, smaller.
                    for number in seen {
                        let shown = painted.iter().filter(|text| text.galley.text() == number);
                        let high = shown.map(|text| text.galley.mesh_bounds.height());
                        digits = digits.min(high.fold(0.0, f32::max));
                    }
                    // On the picture itself.
                    let is_chart = step.is_chart();
                    let style = Style {
                        words: if is_chart { Words::All } else { Words::Few },
                        numbers: way,
                        ..show_style(screen.y, Theme::Light, is_chart)
                    };
                    let [x0, y0] = [place.min.x, place.min.y].map(f64::from);
                    let [x1, y1] = [place.max.x, place.max.y].map(f64::from);
                    let panels = pictures.panels(step, solved, Paper::new(x0, y0, x1, y1), style);
                    let faults = faults(&panels.unwrap());
                    assert!(faults.is_empty(), "{told}: {faults:#?}");
                }
                assert!(words >= 0.02 * screen.y, "{told}: words {words} high");
                if numbers.is_empty() {
                    let _ = write!(row, "   digits     –  words {words:>5.1}");
                } else {
                    assert!(digits >= 0.05 * screen.y, "{told}: digits {digits} high");
                    let _ = write!(row, "   digits {digits:>5.1}  words {words:>5.1}");
                }
                window.press(Key::ArrowRight);
            }
            table.push(row);
        }
    }
    assert!(table.len() > 24, "{}", table.len());
    println!(
        "in pixels, at 1024×768 and at 1920×1080\n{}",
        table.join("\n")
    );
}
