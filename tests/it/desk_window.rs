//! The window as a whole: one document that changes in one way, areas from one list, sessions side
//! by side.

use std::time::Duration;

use egui::accesskit::Role;
use egui::{Key, Modifiers, Pos2, Vec2};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::analysis::Solved;
use sweepgauge::app::{Change, Part, Session};
use sweepgauge::unit::{Field, Group};
use sweepgauge::units::{Angle, Quantity, System};

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Window, demo_set};

/// Drags a little at a time and tells after each frame how often it solved, and whether the
/// document then was another.
fn drag(window: &mut Window, from: Pos2, by: Vec2) -> Vec<(u64, bool)> {
    window.harness.hover_at(from);
    window.harness.drag_at(from);
    window.settle();
    let frames = (1_u8..=20).map(|part| {
        let before = window.document().clone();
        let solves = window.app().session().solves();
        window.harness.hover_at(from + by * f32::from(part) / 20.0);
        window.step();
        let solves = window.app().session().solves() - solves;
        (solves, *window.document() != before)
    });
    let frames = frames.collect();
    window.harness.drop_at(from + by);
    window.settle();
    frames
}

#[test]
fn at_rest_no_area_asks_for_a_frame_with_or_without_a_cursor_in_a_field() {
    let mut window = Window::demo();
    let areas: Vec<_> = window.app().areas().map(|about| about.id).collect();
    assert!(areas.len() >= 4);
    for area in areas {
        assert!(window.harness.state_mut().bring_to_front(area));
        window.settle();
        if window.has_button("New sheet for this unit") {
            window.click("New sheet for this unit");
        }
        if window.has_button("New lesson") {
            window.click("New lesson");
        }
        for has_cursor in [false, true] {
            if has_cursor {
                let mut nodes = window.nodes().into_iter();
                let field = nodes.find(|node| node.accesskit_node().role() == Role::TextInput);
                field
                    .unwrap_or_else(|| panic!("{area} has no field"))
                    .focus();
            } else {
                window.press(Key::Escape);
            }
            window.settle();
            // A second of frames that nobody asked for.
            for _ in 0..60 {
                let rest = window.step();
                let causes = window.harness.ctx.repaint_causes();
                let told = format!("{area}, cursor {has_cursor}: {causes:?}");
                assert_eq!(rest, Duration::MAX, "{told}");
            }
        }
    }
}

#[test]
fn a_drag_solves_once_a_frame() {
    for (name, by) in [
        ("Attitude handle", Vec2::new(0.0, -40.0)),
        ("Reel diameter handle", Vec2::new(-12.0, 10.0)),
        ("Edge forward handle", Vec2::new(20.0, 0.0)),
    ] {
        let mut window = Window::demo();
        let handle = window.button(name).rect().center();
        let frames = drag(&mut window, handle, by);
        let moved = frames.iter().filter(|(_, is_moved)| *is_moved).count();
        assert!(moved > 10, "{name}: {frames:?}");
        for (solves, is_moved) in &frames {
            assert_eq!(*solves, u64::from(*is_moved), "{name}: {frames:?}");
        }
    }
    for name in ["Attitude slider", "Reel diameter slider"] {
        let mut window = Window::demo_as_wanted();
        let slider = window.slider(name).rect();
        let frames = drag(&mut window, slider.center(), Vec2::new(60.0, 0.0));
        let moved = frames.iter().filter(|(_, is_moved)| *is_moved).count();
        assert!(moved > 5, "{name}: {frames:?}");
        for (solves, is_moved) in &frames {
            assert_eq!(*solves, u64::from(*is_moved), "{name}: {frames:?}");
        }
    }
}

#[test]
fn the_frame_of_a_drag_shows_what_it_set() {
    let mut window = Window::demo();
    let handle = window.button("Attitude handle").rect().center();
    window.harness.hover_at(handle);
    window.harness.drag_at(handle);
    window.settle();
    let system = window.app().system();
    let mut seen = 0;
    for part in 1_u8..=10 {
        let before = window.document().clone();
        window
            .harness
            .hover_at(handle - Vec2::new(0.0, 4.0 * f32::from(part)));
        window.step();
        if *window.document() != before {
            let solved = Solved::of(window.document()).expect("it has a solution");
            let sweep = system.length(solved.solution.sweep.below_cut);
            window.assert_says(&format!("Sweep {sweep}"));
            seen += 1;
        }
    }
    assert!(seen > 5, "moved in {seen} frames");
    window.harness.drop_at(handle - Vec2::new(0.0, 40.0));
    window.settle();
}

#[test]
fn every_change_has_a_name() {
    let mut window = Window::demo();
    let last = |window: &Window| window.app().session().last_change().cloned();
    assert_eq!(last(&window), None);
    window.enter_text("Gap, as measured", "1 thou");
    assert_eq!(
        last(&window).expect("a change").parts(),
        [Part::Field(sweepgauge::unit::Reading::Gap.into())]
    );
    window.choose("Turf", "Rough");
    assert_eq!(last(&window), Some(Change::of("Turf", Field::Turf)));
    window.click("the rollers");
    assert_eq!(
        last(&window),
        Some(Change::of("Setting by the rollers", Group::Setting))
    );
    window.click("Left alone, both 0");
    assert_eq!(
        last(&window).map(|change| change.name().to_owned()),
        Some("Setting by the rollers".to_owned()),
        "both moves are zero already: nothing was changed"
    );
    window.click("Back to as measured");
    assert_eq!(
        last(&window),
        Some(Change::of("Back to as measured", Group::Setting))
    );
}

#[test]
fn a_change_takes_the_place_of_what_is_typed_where_it_moves_a_field() {
    let set = |window: &mut Window, attitude_deg: f64| {
        let entry = Quantity::from_value(Angle::from_deg(attitude_deg), System::InchDecimal);
        // A change that names no part of the document.
        window
            .harness
            .state_mut()
            .edit(Change::new("Another attitude"), |document| {
                document.setting.attitude = Some(entry);
            });
        window.settle();
    };
    let mut window = Window::demo();
    window.type_over("Attitude", "many");
    window.assert_says("The field \"Attitude\" holds \"many\"");
    set(&mut window, 5.0);
    assert_eq!(window.entry("Attitude"), "5 deg");
    window.assert_silent("holds \"many\"");
    window.type_over("Reel diameter", "large");
    set(&mut window, 6.0);
    assert_eq!(window.entry("Reel diameter"), "large", "it did not move");
    window.assert_says("The field \"Reel diameter\" holds \"large\"");
}

/// An area's name in the bar; the form may have a group of the same name.
#[track_caller]
fn tab<'a>(window: &'a Window, title: &str) -> egui_kittest::Node<'a> {
    let mut tabs = window.nodes();
    tabs.retain(|node| {
        node.accesskit_node().label().as_deref() == Some(title) && node.rect().bottom() < 80.0
    });
    assert_eq!(tabs.len(), 1, "{title}");
    tabs.remove(0)
}

#[test]
fn every_area_of_the_list_is_reached_by_bar_and_keys() {
    let mut window = Window::demo();
    let areas: Vec<_> = window.app().areas().collect();
    assert!(areas.len() >= 4);
    let mut shown = Vec::new();
    for about in areas.iter().rev() {
        tab(&window, about.title).click();
        window.settle();
        window.harness.remove_cursor();
        window.settle();
        let by_bar = window.texts();
        assert!(!shown.contains(&by_bar), "{} is like another", about.id);
        shown.push(by_bar);
    }
    for (about, by_bar) in areas.iter().zip(shown.iter().rev()) {
        window.press_with(Modifiers::COMMAND, about.key);
        assert_eq!(&window.texts(), by_bar, "{}", about.id);
        let tab = tab(&window, about.title);
        let is_front =
            tab.accesskit_node().data().toggled() == Some(egui::accesskit::Toggled::True);
        assert!(is_front, "{}", about.id);
    }
    for about in areas {
        assert!(window.harness.state_mut().bring_to_front(about.id));
        window.settle();
    }
    assert!(!window.harness.state_mut().bring_to_front("none such"));
}

#[test]
fn a_session_beside_another_keeps_its_own_document_typing_and_view() {
    let mut window = Window::demo();
    let first = window.app().session().id();
    window.type_over("Attitude", "many");
    window.click("Drawing only");
    assert!(window.app().session().document().setting.attitude.is_none());
    let other = DemoUnit::GreensWalking.document();
    let second = window
        .harness
        .state_mut()
        .lay_beside(Session::new(other.clone(), None));
    window.settle();
    assert_eq!(window.app().session().id(), first, "it is laid behind");
    assert!(window.harness.state_mut().bring_session_to_front(second));
    window.settle();
    assert_eq!(*window.document(), other);
    window.assert_says("On the plate");
    window.assert_silent("holds \"many\"");
    assert!(window.harness.state_mut().bring_session_to_front(first));
    window.settle();
    window.assert_silent("On the plate");
    window.assert_says("holds \"many\"");
    let gone = Session::new(demo_set(""), None).id();
    assert!(!window.harness.state_mut().bring_session_to_front(gone));
}

#[test]
fn closing_asks_about_every_session_with_changes_by_its_name() {
    let asking = |name: &str| format!("\"{name}\" has changes that are not saved.");
    let other = DemoUnit::GreensWalking.document();
    for discards in [false, true] {
        let mut window = Window::demo();
        let first = window.app().session().id();
        let first_name = window.document().name.clone();
        assert_ne!(first_name, other.name);
        let beside = Session::new(other.clone(), None);
        let second = window.harness.state_mut().lay_beside(beside);
        assert!(window.harness.state_mut().bring_session_to_front(second));
        window.settle();
        window.enter_text("Attitude", "5.5");
        assert!(window.harness.state_mut().bring_session_to_front(first));
        window.settle();
        if discards {
            window.enter_text("Attitude", "5.25");
            assert!(!window.would_close());
            window.assert_says(&asking(&first_name));
            window.button("Discard changes").click();
            (0..4).for_each(|_| {
                window.step();
            });
            assert!(!window.has_closed(), "another has changes still");
        } else {
            assert!(!window.would_close(), "the one behind has changes");
        }
        window.assert_says(&asking(&other.name));
        assert_eq!(window.app().session().id(), second);
        window.take_commands();
        window.button("Discard changes").click();
        (0..4).for_each(|_| {
            window.step();
        });
        assert!(window.has_closed());
    }
}
