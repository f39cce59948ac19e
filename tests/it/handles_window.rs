//! The handles on the drawing, held by the pointer: they keep up with it, go by steps and stay within
//! limits.

use egui::{Pos2, Vec2};
use sweepgauge::units::System;

use crate::common::shown::Window;

/// A handle, where it is taken to, and how far from the pointer a step and its own way leave it.
const DRAGS: [(&str, Vec2); 6] = [
    ("Reel diameter", Vec2::new(-12.0, 10.0)),
    ("Reel diameter", Vec2::new(5.0, -4.0)),
    ("Edge forward", Vec2::new(17.0, 1.0)),
    ("Edge forward", Vec2::new(-17.0, -1.0)),
    ("Attitude", Vec2::new(12.0, -28.0)),
    ("Attitude", Vec2::new(-12.0, 28.0)),
];

fn handle(window: &Window, name: &str) -> Pos2 {
    window.button(&format!("{name} handle")).rect().center()
}

/// The value a handle moves, in its own unit.
fn value(window: &Window, name: &str) -> f64 {
    let setting = &window.document().setting;
    let solved = window.app().session().good().unwrap();
    let unit_mm = match window.app().system() {
        System::Millimetre => 1.0,
        System::InchDecimal | System::InchFraction => 25.4,
    };
    match name {
        "Attitude" => solved.solution.pose.attitude.deg(),
        "Edge forward" => setting.extension.as_ref().map_or(0.0, |e| e.value().mm()) / unit_mm,
        _ => solved.unit.setting.reel_diameter.mm() / unit_mm,
    }
}

fn step(window: &Window, name: &str) -> f64 {
    match (name, window.app().system()) {
        ("Attitude", _) => 0.05,
        (_, System::Millimetre) => 0.1,
        (_, System::InchDecimal | System::InchFraction) => 0.005,
    }
}

#[test]
fn a_held_handle_stays_under_the_pointer_and_goes_by_steps() {
    for system in System::ALL {
        for (name, by) in DRAGS {
            let mut window = Window::demo_as_wanted();
            window.click(system.name());
            let from = handle(&window, name);
            window.harness.hover_at(from);
            window.harness.drag_at(from);
            window.settle();
            let before = value(&window, name);
            for part in 1_u8..=10 {
                window.harness.hover_at(from + by * f32::from(part) / 10.0);
                window.step();
            }
            window.settle();
            let off = handle(&window, name) - (from + by);
            // Along its way the handle stands within a step; aside of it the hand may stray.
            let way = by.normalized();
            let (along, aside) = (off.dot(way), off.dot(way.rot90()));
            assert!(
                along.abs() < 4.0 && aside.abs() < 10.0,
                "{name} by {by:?}, {system:?}: {off:?}"
            );
            let (value, step) = (value(&window, name), step(&window, name));
            assert!((value - before).abs() >= 0.9 * step, "{name}: {value}");
            let steps = value / step;
            assert!(
                (steps - steps.round()).abs() < 1e-6,
                "{name} by {by:?}, {system:?}: {value} is between steps of {step}"
            );
            window.harness.drop_at(from + by);
            window.settle();
        }
    }
}

#[test]
fn a_held_handle_stops_at_its_limits_and_comes_back_with_the_pointer() {
    let limits = [
        ("Reel diameter", Vec2::new(300.0, -260.0), 7.0),
        ("Reel diameter", Vec2::new(-200.0, 170.0), 6.5),
        ("Edge forward", Vec2::new(260.0, 0.0), 0.5),
    ];
    for (name, far, limit) in limits {
        let mut window = Window::demo_as_wanted();
        let from = handle(&window, name);
        window.harness.hover_at(from);
        window.harness.drag_at(from);
        window.settle();
        let began = value(&window, name);
        for part in 1_u8..=20 {
            window.harness.hover_at(from + far * f32::from(part) / 20.0);
            window.step();
        }
        window.settle();
        let reached = value(&window, name);
        assert!((reached - limit).abs() < 1e-6, "{name}: {reached}");
        // Back where it was taken, it stands as it stood.
        for part in (0_u8..20).rev() {
            window.harness.hover_at(from + far * f32::from(part) / 20.0);
            window.step();
        }
        window.settle();
        let back = value(&window, name);
        assert!(
            (back - began).abs() < 1.01 * step(&window, name),
            "{name}: {back} from {began}"
        );
        window.harness.drop_at(from);
        window.settle();
    }
}

#[test]
fn a_roller_held_by_its_handle_moves_by_steps_and_no_further_than_its_limits() {
    let moved = |window: &Window| {
        let rollers = window.document().setting.rollers.as_ref();
        let moved = rollers.and_then(|rollers| rollers.rear_move.as_ref());
        moved.map_or(0.0, |moved| moved.value().inches())
    };
    for (far, limit) in [(-500.0, -1.0), (500.0, 1.0)] {
        let mut window = Window::demo_as_wanted();
        window.click("the rollers");
        let from = handle(&window, "Rear roller");
        window.harness.hover_at(from);
        window.harness.drag_at(from);
        window.settle();
        for part in 1_u8..=20 {
            window
                .harness
                .hover_at(from + Vec2::new(0.0, far) * f32::from(part) / 20.0);
            window.step();
            let steps = moved(&window) / 0.005;
            assert!((steps - steps.round()).abs() < 1e-6, "{steps}");
        }
        window.settle();
        let reached = moved(&window);
        assert!((reached - limit).abs() < 1e-6, "{far}: {reached}");
        window.harness.drop_at(from);
        window.settle();
    }
}
