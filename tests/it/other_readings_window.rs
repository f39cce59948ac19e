//! The card and the part of the form for other readings, by accessible name, without a display.

use egui::{Key, Modifiers};
use sweepgauge::app::DEMO_UNIT;
use sweepgauge::unit::{ClosingReadings, Document, Field, Reading, ShapeEntry};
use sweepgauge::units::{Angle, Quantity};

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Start, Window, document};

fn card_on(document: Document) -> Window {
    let mut window = Start::on(document).window();
    window.click("Behind centre from other readings…");
    window
}

/// Types over what stands in fields of a card, the same.
fn take_as_read(window: &mut Window, names: &[&str]) {
    for name in names {
        let text = window.entry(name);
        window.type_over(name, &text);
    }
}

#[test]
fn nothing_is_filled_in_from_a_reading_that_nobody_took() {
    let mut window = reel_card_on(document(DEMO_UNIT));
    let before = window.document().clone();
    window.click("a plain tape");
    window.assert_says("Type your own readings over the examples first.");
    window.click("Fill in");
    assert_eq!(window.document(), &before);
    window.type_over("Tape, once round", "21 in ± 1/16 in");
    window.click("Fill in");
    assert_eq!(window.document(), &before, "the tape's thickness");
    take_as_read(&mut window, &["Tape's thickness"]);
    window.assert_silent("Type your own readings over the examples first.");
    window.click("Fill in");
    assert_ne!(window.document(), &before);
}

#[test]
fn a_shaft_that_would_put_the_reel_into_the_plate_gives_no_lean() {
    let mut document = document(DEMO_UNIT);
    document.closing = ClosingReadings::ReelSlides { lean: None };
    let mut window = lean_card_on(document);
    let before = window.document().clone();
    take_as_read(&mut window, &LEAN_READINGS);
    window.type_over("Shaft height, first", "0.295 in");
    window.assert_says("the reel would reach into the plate");
    window.click("Fill in");
    window.type_over("Shaft height, first", "-4 in");
    window.assert_says("over the plate is not possible");
    window.click("Fill in");
    assert_eq!(window.document(), &before);
}

const LEAN_READINGS: [&str; 4] = [
    "Behind centre, first",
    "Shaft height, first",
    "Behind centre, second",
    "Shaft height, second",
];

#[test]
fn every_way_begins_with_what_the_bench_says_and_gives_it_back() {
    for demo in [DemoUnit::FairwayTrailed, DemoUnit::GreensWalking] {
        let document = demo.document();
        let wanted = document.bench.behind_centre.value();
        for (way, names) in [
            ("the rise", &["Rise of the edge"][..]),
            ("a block under the reel", &["Height of the block"]),
            (
                "a block to a square",
                &["Length of the block", "Touches the face at"],
            ),
        ] {
            let mut window = card_on(document.clone());
            window.click(way);
            take_as_read(&mut window, names);
            window.click("Fill in");
            let filled = window.document().bench.behind_centre.value();
            assert!(
                (filled - wanted).mm().abs() < 0.0013 + 1e-9,
                "{way}: {filled:?}, {wanted:?}"
            );
        }
    }
}

#[test]
fn a_block_to_a_square_counts_the_lean_of_the_front_face() {
    let mut window = card_on(DemoUnit::GreensWalking.document());
    window.click("a block to a square");
    window.type_over("Length of the block", "2.64 in ± 1 thou");
    window.type_over("Touches the face at", "0.1 in");
    window.click("Fill in");
    // 2.64 - 2.48 - (0.125 - 0.1) tan 6° by hand: 0.157 37 in.
    let filled = window.document().bench.behind_centre.value();
    assert!((filled.inches() - 0.1574).abs() < 1e-9, "{filled:?}");
}

#[test]
fn only_the_rise_asks_on_which_side_the_edge_stands() {
    let mut window = card_on(document(DEMO_UNIT));
    window.click("ahead of centre");
    window.assert_says("Behind centre -");
    for way in ["a block under the reel", "a block to a square"] {
        window.click(way);
        assert!(!window.has_button("ahead of centre"), "{way}");
        window.assert_silent("Behind centre -");
    }
}

#[test]
fn a_reading_without_its_plus_or_minus_is_asked_for_one() {
    let mut window = card_on(document(DEMO_UNIT));
    window.assert_says("No ± is written behind a reading");
    window.type_over("Rise of the edge", "0.02 in ± 1 thou");
    window.assert_silent("No ± is written behind a reading");
}

#[test]
fn a_rise_lost_in_its_plus_or_minus_fills_nothing() {
    let mut window = card_on(document(DEMO_UNIT));
    let before = window.document().clone();
    window.type_over("Rise of the edge", "0 in ± 1 thou");
    window.assert_says("may be no rise at all");
    window.click("Fill in");
    assert_eq!(window.document(), &before);
}

#[test]
fn what_is_filled_in_takes_the_place_of_a_wrong_text() {
    let mut window = Start::on(document(DEMO_UNIT)).window();
    window.type_over("Behind centre, as measured", "far");
    window.assert_says("\"far\" is not a number");
    window.click("Behind centre from other readings…");
    window.type_over("Rise of the edge", "0.02 in ± 0.001 in");
    window.click("Fill in");
    window.assert_silent("\"far\" is not a number");
    let text = window.document().bench.behind_centre.text().to_owned();
    assert_eq!(window.entry("Behind centre, as measured"), text);
}

fn reel_card_on(document: Document) -> Window {
    let mut window = Start::on(document).window();
    window.click("Reel diameter from other readings…");
    window
}

const REEL_WAYS: [(&str, &[&str]); 4] = [
    ("blade tips", &["Over two tips"]),
    (
        "two straight bars",
        &["Over both bars", "Both bars together"],
    ),
    ("a plain tape", &["Tape, once round", "Tape's thickness"]),
    ("a diameter tape", &["Diameter tape reads"]),
];

#[test]
fn every_way_to_the_reel_begins_with_what_the_bench_says_and_gives_it_back() {
    for blades in [8, 9] {
        let mut document = document(DEMO_UNIT);
        document.reel.blades = blades;
        let wanted = document.bench.reel_diameter.value();
        for (way, names) in REEL_WAYS {
            let mut window = reel_card_on(document.clone());
            window.click(way);
            take_as_read(&mut window, names);
            window.click("Fill in");
            let filled = window.document().bench.reel_diameter.value();
            let off = (filled - wanted).mm().abs();
            assert!(off < 0.0013 + 1e-9, "{way}, {blades} blades: {filled:?}");
        }
    }
}

#[test]
fn each_way_to_the_reel_adds_back_what_it_reads_short() {
    // Nine blades by hand: 6.8 / cos 10° = 6.9049; (21 - 0.008 π)/(9 sin 20°) = 6.8140;
    // 6.7 π/(9 sin 20°) = 6.8380. Two bars: 7.9 - 1 = 6.9.
    for (way, name, text, wanted) in [
        ("blade tips", "Over two tips", "6.8 in ± 5 thou", 6.9049),
        (
            "two straight bars",
            "Over both bars",
            "7.9 in ± 5 thou",
            6.9,
        ),
        (
            "a plain tape",
            "Tape, once round",
            "21 in ± 1/16 in",
            6.8140,
        ),
        (
            "a diameter tape",
            "Diameter tape reads",
            "6.7 in ± 5 thou",
            6.8380,
        ),
    ] {
        let mut document = document(DEMO_UNIT);
        document.reel.blades = 9;
        let mut window = reel_card_on(document);
        window.click(way);
        window.type_over(name, text);
        let ways = REEL_WAYS.iter().find(|(of, _)| *of == way);
        let (_, names) = ways.expect("a way");
        take_as_read(&mut window, &names[1..]);
        window.click("Fill in");
        let filled = &window.document().bench.reel_diameter;
        let off = (filled.value().inches() - wanted).abs();
        assert!(off < 6e-4, "{way}: {}", filled.text());
        assert!(filled.half_width().is_some(), "{way}: {}", filled.text());
    }
}

#[test]
fn a_reel_that_the_readings_leave_none_of_is_not_filled_in() {
    let mut window = reel_card_on(document(DEMO_UNIT));
    let before = window.document().clone();
    for (way, name, text) in [
        ("blade tips", "Over two tips", "-6 in"),
        ("blade tips", "Over two tips", "6 in ± 7 in"),
        ("two straight bars", "Over both bars", "0.5 in"),
        ("a plain tape", "Tape's thickness", "9 in"),
        ("a plain tape", "Tape's thickness", "-1 in"),
    ] {
        window.click(way);
        window.type_over(name, text);
        window.click("Fill in");
        assert_eq!(window.document(), &before, "{way}: {text}");
    }
    window.assert_says("A thickness is zero or more");
}

#[test]
fn a_tip_must_stand_at_the_place_that_is_read() {
    let mut window = card_on(document(DEMO_UNIT));
    for way in ["the rise", "a block under the reel", "a block to a square"] {
        window.click(way);
        window.assert_says("rock the reel by hand, gloved, one person");
        window.assert_says("then block it");
    }
}

#[test]
fn what_a_tip_off_its_place_does_to_behind_centre_is_shown() {
    let mut document = document(DEMO_UNIT);
    document.reel.blades = 8;
    let mut window = card_on(document);
    // By hand: R = 3.45, b = 0.3, rise 0.013 068; 2° off reads 0.002 102 less, b = 0.2748; half a
    // space, 22.5°, reads 0.2626 less: below the reel's lowest point.
    window.assert_says("2° off that place: 0.275");
    window.assert_says("half a blade space off that place: no such reading");
    window.click("a block to a square");
    // 0.3 less 0.0021, and less 0.2626.
    window.assert_says("2° off that place: 0.298");
    window.assert_says("half a blade space off that place: 0.037");
}

#[test]
fn a_straightedge_with_a_wrong_reading_gives_no_shape() {
    let mut window = Start::on(document(DEMO_UNIT)).window();
    window.unfold_one("Ground");
    window.click("Measured with a straightedge");
    // Nothing is measured yet, so nothing but level is told.
    window.assert_says("Level ground");
    for wrong in ["wide", "-1/4 in"] {
        window.type_over("Gap under it", wrong);
        window.assert_says("The readings are not right yet.");
        window.assert_silent("Level ground");
        window.click("Use as the ground's shape");
        assert_eq!(window.document().ground.shape, ShapeEntry::Level);
    }
    window.type_over("Gap under it", "1/4 in");
    window.press(Key::Enter);
    window.assert_silent("The readings are not right yet.");
    window.click("Use as the ground's shape");
    assert!(matches!(
        window.document().ground.shape,
        ShapeEntry::Hollow(_)
    ));
}

fn lean_card_on(document: Document) -> Window {
    let mut window = Start::on(document).window();
    window.unfold_one("Reel-to-knife adjustment");
    window.click("Lean from two readings…");
    window
}

fn lean_of(window: &Window) -> Quantity<Angle> {
    match &window.document().closing {
        ClosingReadings::ReelSlides { lean } | ClosingReadings::KnifeSlides { lean } => {
            lean.clone().unwrap()
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_lean_begins_with_the_bench_line_and_follows_from_two_places() {
    for closing in [
        ClosingReadings::ReelSlides { lean: None },
        ClosingReadings::KnifeSlides { lean: None },
    ] {
        let mut document = document(DEMO_UNIT);
        document.closing = closing.clone();
        let behind = document.bench.behind_centre.value().mm();
        let to_centre =
            document.bench.reel_diameter.value().mm() / 2.0 + document.bench.gap.value().mm();
        let mut window = lean_card_on(document);
        window.assert_says("leave the rollers alone");
        let height = match closing {
            ClosingReadings::KnifeSlides { .. } => "Height of cut",
            _ => "Shaft height",
        };
        for name in LEAN_READINGS {
            let name = name.replace("Shaft height", height);
            take_as_read(&mut window, &[&name]);
        }
        window.click("Fill in");
        let line = (behind / to_centre).asin().to_degrees();
        let lean = lean_of(&window).value().deg();
        assert!((lean - line).abs() < 0.006, "{closing:?}: {lean}, {line}");
    }
}

#[test]
fn a_lean_by_hand_is_filled_in_with_its_plus_or_minus_as_one_step() {
    let mut document = document(DEMO_UNIT);
    document.closing = ClosingReadings::ReelSlides { lean: None };
    let before = document.clone();
    let mut window = lean_card_on(document);
    window.type_over("Behind centre, first", "0.300 in ± 0.005 in");
    window.type_over("Behind centre, second", "0.250 in ± 0.005 in");
    window.type_over("Shaft height, first", "4 in ± 0.005 in");
    window.type_over("Shaft height, second", "4.2 in ± 0.005 in");
    // atan2(-0.05, 0.2) = -14.036°; each of b and h has √2·0.005/√3 in, over 0.20616 in of travel in
    // both directions: 1.1346° of standard uncertainty, half-width 1.9652°.
    window.assert_says("Lean of the slide -14.0");
    window.assert_says("It leans back at the top.");
    window.click("Fill in");
    let lean = lean_of(&window);
    assert!(
        (lean.value().deg() + 14.036).abs() < 0.006,
        "{}",
        lean.text()
    );
    let half_width = lean.half_width().unwrap().deg();
    assert!((half_width - 1.9652).abs() < 0.01, "{}", lean.text());
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.document(), &before);
}

#[test]
fn a_travel_lost_in_its_plus_or_minus_gives_no_lean() {
    let mut document = document(DEMO_UNIT);
    document.closing = ClosingReadings::ReelSlides { lean: None };
    let mut window = lean_card_on(document);
    let before = window.document().clone();
    window.type_over("Shaft height, first", "4 in ± 0.2 in");
    window.type_over("Shaft height, second", "4.1 in");
    window.assert_says("no lean follows");
    window.click("Fill in");
    assert_eq!(window.document(), &before);
}

#[test]
fn one_reading_gets_its_plus_or_minus_by_an_instrument_beside_its_name() {
    let mut document = document(DEMO_UNIT);
    document.bench.behind_centre = Quantity::parse("0.3 in").unwrap();
    let before = document.clone();
    let mut window = Start::on(document).window();
    window.click("Behind centre, as measured: ± by instrument");
    window.click("square and scale ± 0.02 in");
    let behind = Field::from(Reading::BehindCentre);
    let text = behind.text(window.document()).unwrap().into_owned();
    assert_eq!(text, "0.3 in ± 0.02 in");
    assert!(!window.has_button("Behind centre, as measured: ± by instrument"));
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.document(), &before);
}

#[test]
fn every_reading_without_a_plus_or_minus_gets_one_by_its_instrument_in_one_step() {
    let mut document = document(DEMO_UNIT);
    document.bench.height_of_cut = Quantity::parse("0.5 in").unwrap();
    document.bench.attitude = Quantity::parse("4 deg").unwrap();
    document.bench.behind_centre = Quantity::parse("0.3 in ± 0.01 in").unwrap();
    let before = document.clone();
    let mut window = Start::on(document).window();
    window.click("± by instrument…");
    window.click("All, each by its usual instrument");
    let text = |window: &Window, reading: Reading| {
        let text = Field::from(reading).text(window.document());
        text.unwrap_or_default().into_owned()
    };
    assert_eq!(text(&window, Reading::HeightOfCut), "0.5 in ± 0.002 in");
    assert_eq!(text(&window, Reading::BehindCentre), "0.3 in ± 0.01 in");
    assert!(text(&window, Reading::Attitude).ends_with("± 0.2 deg"));
    assert!(!window.has_button("All, each by its usual instrument"));
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.document(), &before);
}

#[test]
fn a_plus_or_minus_by_instrument_is_not_offered_while_what_is_typed_there_is_wrong() {
    let mut document = document(DEMO_UNIT);
    document.bench.behind_centre = Quantity::parse("0.3 in").unwrap();
    document.bench.height_of_cut = Quantity::parse("0.5 in").unwrap();
    let mut window = Start::on(document).window();
    let menu = "Behind centre, as measured: ± by instrument";
    assert!(window.has_button(menu));
    window.type_over("Behind centre, as measured", "0.3 furlongs");
    assert!(!window.has_button(menu));
    // For all at once it is left alone as well, and what was typed stays to be mended.
    window.click("± by instrument…");
    window.click("All, each by its usual instrument");
    let text = |window: &Window, reading: Reading| {
        let text = Field::from(reading).text(window.document());
        text.unwrap_or_default().into_owned()
    };
    assert_eq!(text(&window, Reading::HeightOfCut), "0.5 in ± 0.002 in");
    assert_eq!(text(&window, Reading::BehindCentre), "0.3 in");
    assert_eq!(window.entry("Behind centre, as measured"), "0.3 furlongs");
}

#[test]
fn a_reel_diameter_without_a_plus_or_minus_is_offered_other_readings() {
    let mut document = document(DEMO_UNIT);
    document.bench.reel_diameter = Quantity::parse("6.7 in").unwrap();
    let mut window = Start::on(document).window();
    window.click("Reel diameter, as measured: ± by instrument");
    assert!(!window.has_button("caliper ± 0.002 in"));
    window.assert_says("reads short on most reels");
    window.click("Reel from…");
    window.assert_says("Reel diameter from other readings");
}
