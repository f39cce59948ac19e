//! The window at every size and scale: the drawing keeps its room, no widget lies over another, no words
//! are cut short, and what an area comes to is in view.

use egui::{Key, LayerId, Modifiers, Rect, Shape, Vec2};
use sweepgauge::analysis::Solved;
use sweepgauge::app::Beginning;
use sweepgauge::drawing::verdict;

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
    let shop = DemoUnit::FairwayTrailed.file();
    start.preferences.shop.folder = Some(shop.with_file_name("example-ground"));
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
fn pressable(window: &Window, drawing: Rect) -> Vec<Rect> {
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

/// What can be pressed stands in the window, and none of it over another.
#[track_caller]
fn assert_apart(places: &[Rect], screen: Rect, told: &str) {
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

/// The windows there are, each told; a scale that a window has no room for is shown as another is.
fn windows() -> impl Iterator<Item = (Window, String)> {
    SIZES.into_iter().flat_map(|(width, height)| {
        let mut zooms = Vec::new();
        SCALES.into_iter().filter_map(move |scale| {
            let window = window(Vec2::new(width, height), scale);
            let zoom = window.harness.ctx.zoom_factor();
            let is_new = !zooms.contains(&zoom);
            zooms.push(zoom);
            is_new.then(|| (window, format!("{width}x{height} at {scale} %")))
        })
    })
}

/// Words as they are painted.
#[derive(Debug)]
struct Painted {
    text: String,
    place: Rect,
    /// What is seen of the part of the window that they stand in.
    clip: Rect,
    is_shortened: bool,
}

fn painted(window: &Window) -> Vec<Painted> {
    fn collect(shape: &Shape, clip: Rect, words: &mut Vec<Painted>) {
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| collect(shape, clip, words)),
            Shape::Text(text) if text.angle == 0.0 && !text.galley.is_empty() => {
                words.push(Painted {
                    text: text.galley.text().to_owned(),
                    place: text.galley.rect.translate(text.pos.to_vec2()),
                    clip,
                    is_shortened: text.galley.elided,
                });
            }
            _ => {}
        }
    }
    let mut words = Vec::new();
    for shape in &window.harness.output().shapes {
        collect(&shape.shape, shape.clip_rect, &mut words);
    }
    words
}

/// What stands in a field is longer than the field at times, and can be reached with the cursor.
fn is_entry(window: &Window, text: &str) -> bool {
    use egui_kittest::kittest::NodeT as _;
    window.nodes().iter().any(|node| {
        let node = node.accesskit_node();
        node.role() == egui::accesskit::Role::TextInput && node.value().as_deref() == Some(text)
    })
}

#[test]
fn the_drawing_keeps_its_room_and_no_widget_lies_over_another() {
    for (window, told) in windows() {
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
        assert_apart(&pressable(&window, drawing), screen, &told);
    }
}

#[test]
fn in_every_area_no_words_are_cut_and_what_it_comes_to_is_in_view() {
    let solved = Solved::of(&DemoUnit::FairwayTrailed.document()).unwrap();
    let (_, verdict) = verdict(&solved.findings, solved.document.example_count());
    let areas = [
        (Key::Num2, "knives pass at"),
        (Key::Num3, &*verdict),
        (Key::Num4, "A clip every"),
        (Key::Num5, "Rollers parallel to the cut line"),
        (Key::Num6, "6 units: "),
        (Key::Num1, &*verdict),
    ];
    // Every other scale, for the time it takes.
    for (mut window, told) in windows().step_by(2) {
        for (key, headline) in areas {
            window.press_with(Modifiers::COMMAND, key);
            if key == Key::Num6 {
                window.wait_until_it_says(headline);
            }
            let told = format!("{told}, area {}", key.name());
            let screen = window.harness.ctx.content_rect();
            if key != Key::Num1 {
                assert_apart(&pressable(&window, Rect::NOTHING), screen, &told);
            }
            let words = painted(&window);
            let is_in_view = |words: &Painted| {
                let seen = words.clip.intersect(screen).expand(1.0);
                words.text.contains(headline) && seen.contains_rect(words.place)
            };
            assert!(words.iter().any(is_in_view), "{told}: \"{headline}\"");
            for words in &words {
                assert!(!words.is_shortened, "{told}: {words:?}");
                let seen = words.place.intersect(words.clip);
                if [Key::Num2, Key::Num6].contains(&key) || !seen.is_positive() {
                    // The tables of knives and of units are wider than their part of the window, and are
                    // scrolled.
                    continue;
                }
                let is_cut = seen.width() < words.place.width() - 1.5;
                assert!(
                    !is_cut || is_entry(&window, &words.text),
                    "{told}: {words:?}"
                );
            }
        }
    }
}

#[test]
fn what_differs_from_as_measured_is_told_whole_at_its_foot() {
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.size = Vec2::new(1366.0, 768.0);
    let mut window = start.window();
    window.click("2 As wanted");
    for (field, text) in [
        ("Attitude", "4.5"),
        ("Height of cut", "0.45"),
        ("Reel diameter", "6.8"),
        ("Edge forward", "0.05"),
        ("Gap", "0.001"),
    ] {
        window.enter_text(field, text);
    }
    window.assert_says("Differs from as measured");
    for words in painted(&window) {
        assert!(!words.is_shortened, "{words:?}");
    }
    window.assert_says("attitude 4.5 deg (was 4 deg)");
}

#[test]
fn in_a_narrow_window_the_form_is_a_drawer_over_the_drawing() {
    let mut window = window(Vec2::new(900.0, 600.0), 125);
    let before = drawing(&window);
    assert!(!window.has_button("1 As measured"));
    window.click("Form");
    assert_eq!(drawing(&window), before);
    window.enter_text("Reel diameter, as measured", "6.8");
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

#[test]
fn in_every_step_of_a_plate_sheet_no_words_are_cut_and_no_widget_lies_over_another() {
    let demo = DemoUnit::FairwayTrailed.file();
    let sheet = demo.with_file_name("example-ground/greens-1.plate.ron");
    for (width, height, scale) in [
        (900.0, 600.0, 125),
        (1024.0, 768.0, 100),
        (1366.0, 768.0, 100),
        (1440.0, 900.0, 150),
        (1920.0, 1080.0, 110),
        (3840.0, 2160.0, 250),
    ] {
        let size = Vec2::new(width, height);
        let mut start = Start::on(DemoUnit::FairwayTrailed.document());
        start.beginning = Some(Beginning::with_sheet(&sheet).expect("a sheet"));
        start.preferences.scale_percent = Some(scale);
        start.size = size;
        let mut window = start.window();
        for _ in 0..4 {
            let zoom = window.harness.ctx.zoom_factor();
            window.harness.set_size(size / zoom);
            window.settle();
        }
        window.press_with(Modifiers::COMMAND, Key::Num5);
        let screen = window.harness.ctx.content_rect();
        let names: Vec<_> = {
            use egui_kittest::kittest::NodeT as _;
            let nodes = window.nodes();
            let names = nodes
                .iter()
                .filter_map(|node| node.accesskit_node().label());
            names
                .filter(|name| name.starts_with("Step ") && name.contains(": "))
                .collect()
        };
        assert!(names.len() > 14, "{names:?}");
        for name in names {
            // Out of view in a low window, it is taken by its name.
            window.button(&name).click_accesskit();
            window.settle();
            let told = format!("{width}x{height} at {scale} %, {name}");
            assert_apart(&pressable(&window, Rect::NOTHING), screen, &told);
            for words in &painted(&window) {
                assert!(!words.is_shortened, "{told}: {words:?}");
                let seen = words.place.intersect(words.clip);
                if !seen.is_positive() {
                    continue;
                }
                let is_cut = seen.width() < words.place.width() - 1.5;
                let is_typed = is_entry(&window, &words.text) || is_hint(&window, &words.text);
                assert!(!is_cut || is_typed, "{told}: {words:?}");
            }
        }
    }
}

/// What an empty field shows.
fn is_hint(window: &Window, text: &str) -> bool {
    use egui_kittest::kittest::NodeT as _;
    window.nodes().iter().any(|node| {
        let node = node.accesskit_node();
        node.data().placeholder() == Some(text)
    })
}

#[test]
fn the_numbers_beside_the_life_plots_have_their_room_before_the_window_rests() {
    for size in [Vec2::new(1366.0, 768.0), Vec2::new(1440.0, 900.0)] {
        let mut start = Start::on(DemoUnit::TeesCrowned.document());
        start.size = size;
        let mut window = start.window();
        window.press_with(Modifiers::COMMAND, Key::Num2);
        window.click("Go to Reel's life");
        let places = |window: &Window| -> Vec<(String, Rect)> {
            let words = painted(window).into_iter();
            words.map(|words| (words.text, words.place)).collect()
        };
        let at_rest = places(&window);
        let titles: Vec<_> = at_rest
            .iter()
            .filter(|(text, _)| text.starts_with("reel diameter, new to scrap"))
            .collect();
        assert!(!titles.is_empty(), "{size}: {:#?}", window.texts());
        for (title, place) in titles {
            let mut others = at_rest.iter().filter(|(text, _)| text != title);
            let over = others.find(|(_, other)| other.shrink(1.0).intersects(*place));
            assert_eq!(over, None, "{size}: {title} at {place}");
        }
        // Idle, and nothing moves any more.
        assert!(window.step() > std::time::Duration::ZERO, "{size}");
        assert_eq!(at_rest, places(&window), "{size}");
    }
}
