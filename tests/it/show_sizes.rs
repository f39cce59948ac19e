//! Show at every size of screen: on no slide of any unit do words stand on others, are cut or too small, and
//! the digits are as high as promised.

use egui::{Key, Rect, Vec2};
use kurbo::Rect as Paper;
use sweepgauge::analysis::Solved;
use sweepgauge::app::show_style;
use sweepgauge::drawing::{PictureView, Standing, Theme, view_panels};
use sweepgauge::units::System;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Start, Window};
use crate::lettering::faults;
use crate::show_window::{assert_seen_from_the_back, painted};

/// Screens from small to large.
const SCREENS: [Vec2; 6] = [
    Vec2::new(900.0, 600.0),
    Vec2::new(1024.0, 768.0),
    Vec2::new(1366.0, 768.0),
    Vec2::new(1920.0, 1080.0),
    Vec2::new(2560.0, 1440.0),
    Vec2::new(3840.0, 2160.0),
];

fn showing(demo: DemoUnit, system: System, size: Vec2) -> Window {
    let mut start = Start::on(demo.document());
    start.size = size;
    start.preferences.system = Some(system);
    let mut window = start.window();
    window.press(Key::F11);
    window
}

/// To the next picture; the reel stands still on the one that moves.
fn go_on(window: &mut Window) {
    window.harness.key_press(Key::ArrowRight);
    window.step();
    if window.says("Space: stop, go") || window.says("illustration") {
        window.harness.key_press(Key::Space);
    }
    window.settle();
}

/// Words of the whole window that stand on others.
fn overlapping(window: &Window) -> Vec<String> {
    let words: Vec<(String, Rect)> = painted(window)
        .iter()
        .map(|text| (text.galley.text().to_owned(), text.visual_bounding_rect()))
        .collect();
    let mut found = Vec::new();
    for (index, (text, place)) in words.iter().enumerate() {
        for (other, its) in &words[index + 1..] {
            if place.shrink(0.5).intersects(its.shrink(0.5)) {
                found.push(format!("\"{text}\" on \"{other}\""));
            }
        }
    }
    found
}

/// Height of a digit in parts of its font's size, as Open Sans draws them (its `OS/2` table's cap height).
const DIGIT: f32 = 0.713;

/// The digits of the numbers under a picture, the lowest of them.
fn least_digits(window: &Window, high: f32) -> f32 {
    let words = painted(window);
    let large = words.iter().filter(|text| {
        let sizes = text.galley.job.sections.iter();
        let size = sizes.map(|section| section.format.font_id.size);
        size.fold(0.0, f32::max) > 0.06 * high
    });
    let digits = large.map(|text| {
        let sizes = text.galley.job.sections.iter();
        let size = sizes.map(|section| section.format.font_id.size);
        DIGIT * size.fold(f32::INFINITY, f32::min)
    });
    let least = digits.reduce(f32::min);
    least.expect("a number in large digits")
}

#[test]
fn every_picture_of_every_unit_is_read_from_the_last_row_at_every_size() {
    let mut count = 0;
    for (place, screen) in SCREENS.into_iter().enumerate() {
        let mut least = f32::INFINITY;
        for (index, demo) in DemoUnit::ALL.into_iter().enumerate() {
            let system = System::ALL[(index + place) % System::ALL.len()];
            let mut window = showing(demo, system, screen);
            for view in PictureView::ALL {
                let told = format!("{demo:?}, {system:?}, {screen}, {view:?}");
                assert_seen_from_the_back(&window, screen, &[], &told);
                let overlapping = overlapping(&window);
                assert!(overlapping.is_empty(), "{told}: {overlapping:#?}");
                let digits = least_digits(&window, screen.y);
                assert!(digits >= 0.05 * screen.y, "{told}: digits {digits} high");
                least = least.min(digits);
                count += 1;
                go_on(&mut window);
            }
        }
        println!(
            "{screen}: digits {least} high, {:.1} %",
            100.0 * least / screen.y
        );
    }
    assert!(count > 200, "{count}");
}

#[test]
fn no_words_of_a_picture_in_show_stand_on_others_in_any_system_of_units() {
    let (mut count, mut wrong) = (0, Vec::new());
    for demo in DemoUnit::ALL {
        let solved = Solved::of(&demo.document()).unwrap();
        for (view, system) in PictureView::ALL
            .into_iter()
            .flat_map(|view| System::ALL.map(|system| (view, system)))
        {
            let is_chart = view.is_chart();
            for screen in SCREENS {
                let (wide, high) = (f64::from(screen.x), f64::from(screen.y));
                // With numbers in two rows, in one, and without any.
                for part in [0.4, 0.52, 0.66] {
                    let margin = 0.02 * high;
                    let top = 0.1 * high;
                    let place = Paper::new(margin, top, wide - margin, top + part * high);
                    let style = show_style(screen.y, Theme::Light, is_chart);
                    let panels = view_panels(&solved, view, Standing::Plate, system, place, style);
                    let Ok(panels) = panels else { continue };
                    count += 1;
                    for fault in faults(&panels) {
                        let told = format!("{demo:?}, {view:?}, {system:?}, {screen}, {part}");
                        wrong.push(format!("{told}: {fault}"));
                    }
                }
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "{} wrong: {:#?}",
        wrong.len(),
        &wrong[..wrong.len().min(20)]
    );
    assert!(count > 2000, "{count}");
}
