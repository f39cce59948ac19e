//! The plots of the Knives area: what they show, what a click sets, and that they rest.

use egui::accesskit::Role;
use egui::{Modifiers, Pos2, Rect, pos2, vec2};
use egui_kittest::Node;
use egui_kittest::kittest::NodeT as _;
use sweepgauge::analysis::Solved;
use sweepgauge::app::DEMO_UNIT;
use sweepgauge::unit::{AttitudeRange, Document, Knife, LimitEntries, RollerMoves, ShapeEntry};
use sweepgauge::units::{Angle, Length, Measure, Quantity, System};

use crate::common::shown::{Start, Window, demo_set, document};

const SWEEP_OVER_LIFE: &str = "Sweep against reel diameter";
const MAP: &str = "Attitude map of \"plain\"";

fn length(inches: f64) -> Quantity<Length> {
    Quantity::from_value(Length::from_inches(inches), System::InchDecimal)
}

fn angle(deg: f64) -> Quantity<Angle> {
    Quantity::from_value(Angle::from_deg(deg), System::InchDecimal)
}

/// A window on a document with the Knives area open.
fn knives_of(document: Document) -> Window {
    knives_at(Start::on(document))
}

fn knives_at(start: Start) -> Window {
    let mut window = start.window();
    window.click("Knives");
    window
}

/// Where a plot is drawn.
#[track_caller]
fn frame(window: &Window, name: &str) -> Rect {
    window.button(name).rect()
}

/// Clicks a place of a plot: parts of it across and up.
#[track_caller]
fn click_in(window: &mut Window, name: &str, across: f32, up: f32) {
    let frame = frame(window, name);
    let at = pos2(
        egui::lerp(frame.left()..=frame.right(), across),
        egui::lerp(frame.bottom()..=frame.top(), up),
    );
    click_at(window, at);
}

#[track_caller]
fn click_at(window: &mut Window, at: Pos2) {
    window.harness.hover_at(at);
    window.settle();
    window.harness.drag_at(at);
    window.settle();
    window.harness.drop_at(at);
    window.settle();
    window.harness.remove_cursor();
    window.settle();
}

#[track_caller]
fn value<M: Measure>(entry: Option<&Quantity<M>>) -> f64 {
    entry.expect("something is set").value().base()
}

#[test]
fn the_area_shows_plots_map_and_lowest_heights() {
    let window = knives_of(document(DEMO_UNIT));
    window.assert_says("Through the reel's life");
    for name in [
        SWEEP_OVER_LIFE,
        "Behind centre against reel diameter",
        "Underside above the ground against reel diameter",
        MAP,
    ] {
        let frame = frame(&window, name);
        assert!(frame.width() > 200.0 && frame.height() > 150.0, "{name}");
    }
    window.assert_says("\"short\" is past the sweep limit (watch) from a new reel to a scrap one.");
    window.assert_says(
        "At 0.500 in an attitude holds every limit with \"plain\" at every diameter, new to scrap.",
    );
    window.assert_says("Lowest height of cut with at least 1.00° of room");
    window.assert_says("sweep over limit");
}

#[test]
fn the_switches_are_found_by_their_names() {
    let mut window = knives_of(document(DEMO_UNIT));
    window.click("attitude");
    window.assert_says("Over attitude");
    window.assert_says("goes past the sweep limit (over) at an attitude of");
    window.click("edge forward");
    window.assert_says("Over edge forward");
    window.click("reel diameter");
    window.assert_says("Through the reel's life");
    window.choose("Map of second knife", "reaching");
    window.assert_says("Attitude map of \"plain\" and \"reaching\"");
    window.choose("Map of knife", "short");
    window.assert_says("Attitude map of \"short\" and \"reaching\"");
    window.choose("Map of second knife", "none");
    window.assert_says("Attitude map of \"short\"");
    assert_eq!(window.document(), &document(DEMO_UNIT), "nothing was set");
}

#[test]
fn a_click_on_a_life_plot_sets_the_reel_diameter() {
    let mut window = knives_of(document(DEMO_UNIT));
    // New stands on the left and scrap on the right, with a little margin.
    click_in(&mut window, SWEEP_OVER_LIFE, 0.5, 0.6);
    let set = value(window.document().setting.reel_diameter.as_ref());
    assert!((set - 6.75 * 25.4).abs() < 0.05, "{set}");
    assert_eq!(window.document().setting.knife, None);
    click_in(&mut window, SWEEP_OVER_LIFE, 0.999, 0.6);
    let set = value(window.document().setting.reel_diameter.as_ref());
    assert!(
        (set - 6.5 * 25.4).abs() < 1e-9,
        "no reel below scrap: {set}"
    );
}

#[test]
fn a_click_on_the_other_plots_sets_what_they_run_over() {
    let mut window = knives_of(document(DEMO_UNIT));
    window.click("attitude");
    click_in(&mut window, "Behind centre against attitude", 0.5, 0.5);
    let set = value(window.document().setting.attitude.as_ref());
    assert!((set - 7.5).abs() < 0.2, "{set}");
    window.click("edge forward");
    click_in(
        &mut window,
        "Underside above the ground against edge forward",
        0.5,
        0.5,
    );
    let set = value(window.document().setting.extension.as_ref());
    assert!(set.abs() < 0.2, "{set}");
}

#[test]
fn a_click_on_the_map_sets_attitude_and_diameter() {
    for system in System::ALL {
        let mut start = Start::on(document(DEMO_UNIT));
        start.preferences.system = Some(system);
        let mut window = knives_at(start);
        click_in(&mut window, MAP, 0.5, 0.2);
        let setting = &window.document().setting;
        let attitude = value(setting.attitude.as_ref());
        let diameter = value(setting.reel_diameter.as_ref());
        assert!((attitude - 7.5).abs() < 0.1, "{attitude}");
        assert!((diameter - 6.6 * 25.4).abs() < 0.1, "{diameter}");
    }
}

#[test]
fn with_the_rollers_given_a_click_on_the_map_wants_an_attitude_at_the_height_there_was() {
    let mut given = document(DEMO_UNIT);
    given.setting.rollers = Some(RollerMoves::both(length(0.05), length(-0.03)));
    let before = Solved::of(&given).unwrap().solution.pose;
    let mut window = knives_of(given.clone());
    click_in(&mut window, SWEEP_OVER_LIFE, 0.5, 0.5);
    let setting = &window.document().setting;
    assert_eq!(setting.rollers, None, "the unit stands on the line clicked");
    assert!((value(setting.attitude.as_ref()) - before.attitude.deg()).abs() < 1e-6);
    assert!((value(setting.height_of_cut.as_ref()) - before.height_of_cut.mm()).abs() < 1e-6);
    let mut window = knives_of(given);
    click_in(&mut window, MAP, 0.5, 0.5);
    let setting = &window.document().setting;
    assert_eq!(setting.rollers, None);
    let height = value(setting.height_of_cut.as_ref());
    assert!((height - before.height_of_cut.mm()).abs() < 1e-6);
    assert!((value(setting.attitude.as_ref()) - 7.5).abs() < 0.1);
}

#[test]
fn a_wrong_text_is_dropped_where_a_click_sets_another_value() {
    let mut window = knives_of(document(DEMO_UNIT));
    window.enter_text("Attitude", "steep");
    assert_eq!(window.entry("Attitude"), "steep");
    click_in(&mut window, MAP, 0.4, 0.5);
    assert_ne!(window.entry("Attitude"), "steep");
}

#[test]
fn the_maps_height_is_tried_first_and_set_when_it_is_used() {
    let mut window = knives_of(document(DEMO_UNIT));
    let slider = window.slider("Map height of cut slider").rect();
    click_at(&mut window, slider.left_center() + egui::vec2(6.0, 0.0));
    window.assert_says("tried on the map alone; current is 0.500 in");
    window
        .assert_says("no attitude holds every limit with \"plain\", at any diameter of the reel.");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    window.click("Back to the current height");
    window.assert_silent("tried on the map alone");
    click_at(&mut window, slider.left_center() + egui::vec2(6.0, 0.0));
    window.click("Use this height");
    window.assert_silent("tried on the map alone");
    let set = value(window.document().setting.height_of_cut.as_ref());
    assert!(set < 0.25 * 25.4, "{set}");
}

#[test]
fn no_unit_makes_the_plots_stumble() {
    let demo = || document(DEMO_UNIT);
    let mut one_knife = demo();
    one_knife.options.clear();
    let mut out_of_reach = demo();
    let far = |knife: &Knife, name: &str, reach: f64| Knife {
        name: name.to_owned(),
        reach: length(reach),
        ..knife.clone()
    };
    out_of_reach
        .options
        .push(far(&out_of_reach.knife, "far too long", 9.5));
    out_of_reach
        .options
        .push(far(&out_of_reach.knife, "just too long", 5.1));
    let mut one_size = demo();
    one_size.reel.smallest_diameter = length(6.9);
    one_size.reel.new_diameter = length(6.9);
    let mut in_brackets = demo();
    in_brackets.limits = Some(LimitEntries {
        attitude_range: Some(AttitudeRange {
            low: angle(2.0),
            high: angle(9.0),
        }),
        ..LimitEntries::default()
    });
    let given = demo_set("rollers: (front_move: \"0.2 in\", rear_move: \"-0.3 in\")");
    let dug_in = demo_set("rollers: (front_move: \"0.9 in\", rear_move: \"0.9 in\")");
    let mut on_crest = demo();
    on_crest.ground.shape = ShapeEntry::Crest(length(200.0));
    let mut on_sharp_crest = demo();
    on_sharp_crest.ground.shape = ShapeEntry::Crest(length(8.0));
    let mut in_hollow = demo();
    in_hollow.ground.shape = ShapeEntry::Hollow(length(30.0));
    let low = demo_set("height_of_cut: \"0.02 in\"");
    let steep = demo_set("attitude: \"40 deg\"");
    let looks = [
        (System::InchDecimal, egui::Theme::Light),
        (System::InchFraction, egui::Theme::Dark),
        (System::Millimetre, egui::Theme::Light),
    ];
    let units = vec![
        ("one knife", one_knife),
        ("out of reach", out_of_reach),
        ("one size", one_size),
        ("in brackets", in_brackets),
        ("given", given),
        ("dug in", dug_in),
        ("crest", on_crest),
        ("sharp crest", on_sharp_crest),
        ("hollow", in_hollow),
        ("low", low),
        ("steep", steep),
    ];
    for ((name, document), (system, theme)) in units.into_iter().zip(looks.into_iter().cycle()) {
        let mut start = Start::on(document);
        start.preferences.system = Some(system);
        start.theme = theme;
        let mut window = knives_at(start);
        assert!(window.generation() > 0, "{name} is solved");
        for over in ["attitude", "edge forward", "reel diameter"] {
            window.click(over);
        }
        for plot in [MAP, SWEEP_OVER_LIFE] {
            let middle = frame(&window, plot).center();
            window.harness.hover_at(middle);
            window.settle();
        }
        click_in(&mut window, MAP, 0.3, 0.3);
    }
}

#[test]
fn a_knife_out_of_reach_is_told() {
    let mut out_of_reach = document(DEMO_UNIT);
    let long = Knife {
        name: "far too long".to_owned(),
        reach: length(9.5),
        ..out_of_reach.knife.clone()
    };
    out_of_reach.options.push(long);
    let mut window = knives_of(out_of_reach);
    window.assert_says(
        "\"far too long\": reel and knife do not meet from a new reel to a scrap one.",
    );
    window.choose("Map of knife", "far too long");
    window.assert_says("reel and knife do not meet");
}

#[test]
fn the_plots_rest_and_solve_nothing_anew() {
    let mut window = knives_of(document(DEMO_UNIT));
    let solved = window.generation();
    for _ in 0..5 {
        assert!(window.step() > std::time::Duration::from_secs(1), "at rest");
    }
    assert_eq!(window.generation(), solved);
}

#[test]
fn a_pointer_over_a_plot_reads_every_knife() {
    let mut window = knives_of(document(DEMO_UNIT));
    window
        .harness
        .hover_at(frame(&window, SWEEP_OVER_LIFE).center());
    window.settle();
    let read = window
        .nodes()
        .iter()
        .filter(|node| node.accesskit_node().role() == Role::Label)
        .filter_map(Node::value)
        .find(|text| text.starts_with("Sweep at a reel of 6.75"))
        .expect("a reading beside the pointer");
    for knife in ["plain: 0.0", "reaching: 0.0", "short: 0.0", "heavy: 0.0"] {
        assert!(read.contains(knife), "{read}");
    }
    window.harness.hover_at(frame(&window, MAP).center());
    window.settle();
    window.assert_says("plain: every limit holds");
}

/// Where the ticked knives are drawn.
fn lens(window: &Window) -> Rect {
    use egui_kittest::kittest::Queryable as _;
    window
        .harness
        .get_by_label("Lens with knives drawn over each other")
        .rect()
}

#[test]
fn in_a_window_of_1366_by_768_map_and_plots_are_seen_whole_without_scrolling() {
    for size in [vec2(1366.0, 768.0), vec2(1920.0, 1080.0)] {
        let mut start = Start::on(document(DEMO_UNIT));
        start.size = size;
        let mut window = knives_at(start);
        let screen = window.harness.ctx.content_rect();
        // The table's verdict stands over them.
        window.assert_says("knives pass at");
        let is_whole = |window: &Window, name: &str, least: f32| {
            let frame = frame(window, name);
            assert!(screen.contains_rect(frame), "{size}, {name}: {frame}");
            assert!(frame.height() > least, "{size}, {name}: {frame}");
        };
        is_whole(&window, MAP, 110.0);
        window.click("Go to Reel's life");
        for name in [
            SWEEP_OVER_LIFE,
            "Behind centre against reel diameter",
            "Underside above the ground against reel diameter",
        ] {
            is_whole(&window, name, 110.0);
        }
        window.click("Go to Table");
        window.click("Overlay short");
        window.click("Go to Overlay");
        let lens = lens(&window);
        assert!(screen.contains_rect(lens), "{size}: {lens}");
        // What was chosen is there again after a look at something else.
        window.press_with(Modifiers::COMMAND, egui::Key::Num1);
        window.press_with(Modifiers::COMMAND, egui::Key::Num2);
        window.assert_says("Lens with knives drawn over each other");
    }
}
