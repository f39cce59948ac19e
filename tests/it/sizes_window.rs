//! The window at every size and scale: the drawing keeps its room, and no widget lies over another.

use egui::{Key, LayerId, Modifiers, Rect, Vec2};

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Start, Window};

/// Windows as people have them, in the screen's own points.
const SIZES: [(f32, f32); 6] = [
    (900.0, 600.0),
    (1024.0, 768.0),
    (1366.0, 768.0),
    (1440.0, 900.0),
    (1920.0, 1080.0),
    (3840.0, 2160.0),
];
const SCALES: [u32; 10] = [80, 90, 100, 110, 125, 150, 175, 200, 225, 250];
/// The least drawing, in points.
const LEAST_DRAWING: Vec2 = Vec2::new(300.0, 200.0);

/// A window of a size on its screen, with everything in it shown at a scale.
fn window(size: Vec2, scale: u32) -> Window {
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.preferences.scale_percent = Some(scale);
    start.size = size;
    let mut window = start.window();
    for _ in 0..4 {
        // A larger scale leaves a window of fewer points.
        let zoom = window.harness.ctx.zoom_factor();
        window.harness.set_size(size / zoom);
        window.settle();
    }
    window
}

fn drawing(window: &Window) -> Rect {
    use egui_kittest::kittest::Queryable as _;
    window.harness.get_by_label("Side view of the unit").rect()
}

/// The grip between two parts of the window is no wider.
const GRIP: f32 = 8.0;

/// What can be pressed or typed into, but for the handles in the drawing and the grips between parts.
fn pressable(window: &Window) -> Vec<Rect> {
    let drawing = drawing(window);
    let widgets = window.harness.ctx.viewport(|view| {
        let widgets = view.prev_pass.widgets.get_layer(LayerId::background());
        let seen = widgets.filter(|widget| {
            widget.enabled && widget.sense.is_focusable() && widget.interact_rect.is_positive()
        });
        seen.map(|widget| widget.interact_rect).collect::<Vec<_>>()
    });
    assert!(widgets.len() > 12, "{}", widgets.len());
    let is_handle =
        |place: &Rect| drawing.contains(place.center()) || place.size().min_elem() <= GRIP;
    widgets
        .into_iter()
        .filter(|place| !is_handle(place))
        .collect()
}

#[test]
fn the_drawing_keeps_its_room_and_no_widget_lies_over_another() {
    for (width, height) in SIZES {
        for scale in SCALES {
            let window = window(Vec2::new(width, height), scale);
            let told = format!("{width}x{height} at {scale} %");
            let screen = window.harness.ctx.content_rect();
            let drawing = drawing(&window);
            assert!(
                screen.contains_rect(drawing),
                "{told}: {drawing} of {screen}"
            );
            let size = drawing.size();
            assert!(
                size.x >= LEAST_DRAWING.x && size.y >= LEAST_DRAWING.y,
                "{told}: {size}"
            );
            let places = pressable(&window);
            for (index, place) in places.iter().enumerate() {
                assert!(
                    screen.expand(1.0).contains_rect(*place),
                    "{told}: {place} of {screen}"
                );
                let is_over = |other: &&Rect| {
                    other.shrink(1.0).intersects(place.shrink(1.0))
                        && !other.expand(1.0).contains_rect(*place)
                        && !place.expand(1.0).contains_rect(**other)
                };
                let over = places[..index].iter().find(is_over);
                assert_eq!(over, None, "{told}: {place}");
            }
        }
    }
}

#[test]
fn in_a_narrow_window_the_form_is_a_drawer_over_the_drawing() {
    let mut window = window(Vec2::new(900.0, 600.0), 125);
    let before = drawing(&window);
    assert!(!window.has_button("1 As measured"));
    window.click("Form");
    assert_eq!(drawing(&window), before);
    window.enter_text("Reel diameter, bench", "6.8");
    assert!(window.says("unsaved changes"));
    window.press(Key::F2);
    assert!(!window.has_button("1 As measured"));
    window.press(Key::F2);
    assert!(window.has_button("1 As measured"));
    window.press(Key::F2);
    window.press_with(Modifiers::COMMAND, Key::S);
    // A new unit begins in the form.
    window.press(Key::Escape);
    window.press_with(Modifiers::COMMAND, Key::N);
    window.click("Discard changes");
    assert!(window.field("Name").is_focused());
}
