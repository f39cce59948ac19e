//! The words where no area stands: cards, menus, sheets, helps of fields and refusals say none of the
//! list that is never to be used; and what is done by hand says what makes it safe.

use std::path::Path;

use egui::{Key, Modifiers, Vec2};
use sweepgauge::analysis::lean_from::Slid;
use sweepgauge::analysis::other_readings::BehindFrom;
use sweepgauge::analysis::why::{Complaint, causes};
use sweepgauge::analysis::{
    CAUTION, CAUTION_IN_A_LINE, FindingId, GRINDING, PAPER_TEST, ReelWay, Solved,
};
use sweepgauge::drawing::{Complained, Mark, Origin, Page, Sheet, SheetKind};
use sweepgauge::printing::SheetAsked;
use sweepgauge::unit::{Document, Field};
use sweepgauge::units::System;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{MEASURED, Start, WANTED, Window};
use crate::words::{in_every_area, never, wrong};

#[track_caller]
fn assert_plain(what: &str, texts: &[String]) {
    let wrong = wrong(texts, &never());
    assert!(wrong.is_empty(), "{what}: {wrong:#?}");
}

fn texts_of(sheets: &[Sheet]) -> Vec<String> {
    let panels = sheets.iter().flat_map(|sheet| &sheet.panels);
    let marks = panels.flat_map(|panel| &panel.marks);
    let texts = marks.filter_map(|mark| match mark {
        Mark::Text { text, .. } => Some(text.clone()),
        Mark::Stroke { .. } | Mark::Fill { .. } => None,
    });
    texts.collect()
}

#[test]
fn no_sheet_of_any_kind_has_a_word_of_the_list() {
    for demo in DemoUnit::ALL {
        let document = demo.document();
        let solved = Solved::of(&document).expect("a demo unit");
        for kind in SheetKind::ALL {
            let complaints: &[_] = if kind == SheetKind::Why {
                &Complaint::ALL
            } else {
                &[Complaint::ALL[0]]
            };
            for complaint in complaints {
                let asked = SheetAsked {
                    kind,
                    page: Page::default(),
                    complained: Complained {
                        complaint: Some(*complaint),
                        spacing: None,
                    },
                };
                let sheets = asked.sheets(&solved, &Origin::default(), System::InchDecimal);
                let texts = texts_of(&sheets);
                assert!(texts.len() > 10, "{demo:?} {}", kind.name());
                // Lines are broken where there is room: what is looked for may go over two.
                let whole = vec![texts.join(" ")];
                assert_plain(&format!("{demo:?} {}", kind.name()), &whole);
            }
        }
    }
}

/// Texts that a person may type by a slip.
const SLIPS: [&str; 12] = [
    "",
    "some",
    "0",
    "-1",
    "-1 mm",
    "1e9 mm",
    "99999",
    "0.0000001 mm",
    "1 mm ± 90 mm",
    "89 deg",
    "120 deg",
    "0.5 in ± 0.01",
];

/// What is told of a document with one of its fields set by a slip.
fn told_of_slip(document: &Document, field: Field, slip: &str) -> Vec<String> {
    let mut document = document.clone();
    let system = document.system();
    if let Err(problem) = field.set(&mut document, slip, system) {
        return vec![problem.to_string()];
    }
    let mut told: Vec<_> = document.doubts(system).map(|(_, why)| why).collect();
    if let Err(unsolved) = Solved::of(&document) {
        told.push(unsolved.shown_in(system));
    }
    told
}

#[test]
fn no_help_of_a_field_and_no_refusal_under_it_has_a_word_of_the_list() {
    let mut told = Vec::new();
    for demo in DemoUnit::ALL {
        let document = demo.document();
        for field in Field::all(&document) {
            let words = field.words();
            told.extend([words.name, words.meaning, words.measured].map(str::to_owned));
            for slip in SLIPS {
                told.extend(told_of_slip(&document, field, slip));
            }
        }
    }
    told.sort();
    told.dedup();
    assert!(told.len() > 300, "{}", told.len());
    assert_plain("fields", &told);
}

/// A window in which everything that folds is out.
fn whole_window() -> Window {
    let mut window = Window::demo();
    window.unfold();
    window
}

#[test]
fn no_menu_and_no_card_has_a_word_of_the_list() {
    let mut window = whole_window();
    let look = |window: &mut Window, name: &str, least: usize| {
        let texts = window.texts();
        assert!(texts.len() > least, "{name}: {texts:#?}");
        assert_plain(name, &texts);
        window.press(Key::Escape);
        window.settle();
    };
    let without = window.texts().len();
    for card in [
        "File",
        "Edit",
        "View",
        "About",
        "First steps",
        "± by instrument…",
        "Behind centre from other readings…",
        "Reel diameter from other readings…",
        "Lean from two readings…",
    ] {
        window.click(card);
        look(&mut window, card, without);
    }
    for item in [
        "Print or save a sheet…",
        "Save picture…",
        "Open a path…",
        "Save to a path…",
        "Start…",
    ] {
        window.click("File");
        window.click(item);
        look(&mut window, item, without);
    }
    window.press_with(Modifiers::SHIFT, Key::Questionmark);
    look(&mut window, "keys", without);
    window.click("File");
    window.click("Copy table");
    window.click("Notices");
    look(&mut window, "notices", without);
    window.type_over("Attitude, as measured", "flat");
    window.would_close();
    look(&mut window, "unsaved changes", without);
}

#[test]
fn no_card_of_the_knives_has_a_word_of_the_list() {
    let mut window = whole_window();
    window.press_with(Modifiers::COMMAND, Key::Num2);
    window.click("Add a knife");
    assert_plain("adding", &window.texts());
    window.press(Key::Escape);
    for rows in [
        "K1\t43.2 mm\t68 mm\t3 mm\t12.7 mm\t6.35 mm\t52.00",
        "K2\t43.2",
        "\t-3\t68\t3\t12.7\tthick",
    ] {
        window.click("Paste rows…");
        window.settle();
        window.assert_says("Paste knives");
        window.field("Rows of knives").focus();
        window.settle();
        window.harness.event(egui::Event::Paste(rows.to_owned()));
        window.settle();
        window.assert_says("Paste knives");
        assert_plain(rows, &window.texts());
        window.press(Key::Escape);
    }
}

#[test]
fn no_card_of_recovered_work_names_a_field_by_its_place_in_the_file() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    std::fs::copy(DemoUnit::KnifeChoice.file(), &file).unwrap();
    let recovery = folder.path().join("recovery");
    let mut window = Start::on_file(&file).keeping_in(&recovery).window();
    window.unfold();
    let fields = [
        "Height of cut, as measured",
        "Front, ahead of edge",
        "Gap, as measured",
    ];
    for field in fields {
        window.enter_text(field, "0.4 in");
    }
    window.choose("Adjusted by", "Bed bar slides");
    window.type_over("Blades", "many");
    drop(window);
    let window = Start::on_file(&file).keeping_in(&recovery).window();
    window.assert_says("Work was not saved");
    let texts = window.texts();
    for told in [
        "Front roller, ahead",
        "Bed bar slides",
        "\"many\", not taken",
    ] {
        assert!(
            texts.iter().any(|text| text.contains(told)),
            "{told}: {texts:#?}"
        );
    }
    assert_plain("recovery", &texts);
    // Whatever is edited: a place in the file has a point or an underscore within its words.
    let document = DemoUnit::KnifeChoice.document();
    for path in Field::all(&document).map(|field| field.to_string()) {
        if path.contains(['.', '_']) {
            assert!(
                !texts.iter().any(|text| text.contains(&path)),
                "{path}: {texts:#?}"
            );
        }
    }
}

#[test]
fn no_board_of_a_shop_has_a_word_of_the_list() {
    let shop = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/example-ground");
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.preferences.shop.folder = Some(shop);
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.wait_until_it_says(" OK");
    assert_plain("shop", &window.texts());
}

#[test]
fn the_caution_is_in_view_in_every_area_and_both_steps_at_any_size() {
    for size in [
        (900.0, 600.0),
        (1024.0, 768.0),
        (1366.0, 768.0),
        (1920.0, 1080.0),
    ] {
        let size = Vec2::from(size);
        let mut start = Start::on(DemoUnit::FairwayTrailed.document());
        start.size = size;
        let mut window = start.window();
        let assert_in_view = |window: &Window, area: &str| {
            let screen = egui::Rect::from_min_size(egui::Pos2::ZERO, size);
            let lines = window.nodes();
            let mut lines = lines.iter().filter(|node| {
                use egui_kittest::kittest::NodeT as _;
                let text = node.accesskit_node().value();
                text.is_some_and(|text| CAUTION_IN_A_LINE.contains(&text.as_str()))
            });
            let line = lines.next().unwrap_or_else(|| panic!("{area} at {size}"));
            assert!(
                screen.contains_rect(line.rect()),
                "{area}: {:?}",
                line.rect()
            );
        };
        // In a narrow window the form is a drawer.
        if size.x < 1000.0 {
            window.click("Form");
        }
        for step in [MEASURED, WANTED] {
            window.click(step);
            assert_in_view(&window, step);
        }
        in_every_area(&mut window, |window, area| assert_in_view(window, area));
    }
}

#[test]
fn where_metal_is_ground_off_it_says_what_protects_at_the_grinder() {
    let mut window = whole_window();
    window.click(WANTED);
    window.assert_says(GRINDING);
    window.press_with(Modifiers::COMMAND, Key::Num3);
    window.assert_says(GRINDING);
    for field in [Field::TopGround, Field::FaceGround, Field::AGrind] {
        let measured = field.words().measured;
        assert!(measured.ends_with(GRINDING), "{measured}");
    }
    assert!(
        CAUTION
            .iter()
            .any(|line| line.starts_with("At the grinder"))
    );
}

/// Words of a reading or a cure that is done by hand at the machine.
const BY_HAND: [&str; 16] = [
    "caliper",
    "micrometer",
    "feeler",
    "angle gauge",
    "height gauge",
    "dial gauge",
    "depth rod",
    "square",
    "tape",
    "paper test",
    "by hand",
    "true or replace",
    "true them",
    "true a roller",
    "adjuster",
    "polish",
];

/// What a text must say where it has one of the words: each of the lists, by one of its phrases.
const SAFE: [(&[&str], &[&[&str]]); 6] = [
    (
        &BY_HAND,
        &[
            &[
                "engine off, key out",
                "knife off the machine",
                "supplier's drawing",
                "power isolated",
            ],
            &["gloves", "fingers well clear"],
        ],
    ),
    (
        &[
            "feeler",
            "tips",
            "blades",
            "adjust reel to knife",
            "behind centre",
        ],
        &[&["reel blocked", "blocked again before reaching in"]],
    ),
    (&["paper test"], &[&[PAPER_TEST]]),
    (
        &["roller turned by hand", "roller by hand", "true or replace"],
        &[&["reel drive disconnected"], &["unit and reel blocked"]],
    ),
    (&["polish"], &[&["tipped only when blocked and supported"]]),
    // Gloves are for the bench: a wheel or a lathe pulls them in.
    (
        &[
            "true them",
            "true or replace",
            "true them",
            "true a roller",
            "true a roller",
            "grind or lap",
        ],
        &[
            &["guards on"],
            &["eye, hearing and dust protection"],
            &[
                "gloves only as its manual says",
                "gloves only as the grinder's manual says",
            ],
        ],
    ),
];

fn assert_safe(what: &str, text: &str) {
    let lower = text.to_lowercase();
    for (words, wanted) in SAFE {
        let is_by_hand = BY_HAND.iter().any(|word| lower.contains(word));
        if !is_by_hand || !words.iter().any(|word| lower.contains(word)) {
            continue;
        }
        for phrases in wanted {
            assert!(
                phrases
                    .iter()
                    .any(|phrase| lower.contains(&phrase.to_lowercase())),
                "{what} says none of {phrases:?}: {text}"
            );
        }
    }
}

#[test]
fn one_phrase_alone_makes_no_reading_safe() {
    let is_safe = |text: &str| std::panic::catch_unwind(|| assert_safe("", text)).is_ok();
    assert!(is_safe(
        "Engine off, key out, reel blocked, gloves on: a caliper over the tips."
    ));
    for unsafe_text in [
        "Gloves on: a caliper over the tips.",
        "Engine off, key out, gloves on: a caliper over the tips.",
        "Engine off, key out, reel blocked: a caliper over the tips.",
        "Engine off, key out, gloves on: the paper test, blocked again before reaching in.",
        "A dial gauge on the roller turned by hand: engine off, key out, reel blocked, gloves on.",
        "Look for polish: engine off, key out, reel blocked, gloves on.",
        "True them: engine off, key out, reel drive disconnected, unit and reel blocked, gloves on.",
    ] {
        assert!(!is_safe(unsafe_text), "{unsafe_text}");
    }
}

#[test]
fn what_is_read_or_cured_by_hand_says_what_makes_it_safe() {
    let ways = ReelWay::ALL
        .into_iter()
        .flat_map(|way| [7, 8].map(|n| way.how(n)));
    for how in ways.chain([Slid::Reel, Slid::Knife].map(Slid::how)) {
        assert!(
            how.contains("ngine off, key out") && how.contains("gloves"),
            "{how}"
        );
    }
    for how in BehindFrom::ALL.map(BehindFrom::how) {
        assert!(how.contains("ngine off, key out"), "{how}");
        assert!(
            how.contains("gloved, one person") && how.contains("block it"),
            "{how}"
        );
    }
    for demo in DemoUnit::ALL {
        let document = demo.document();
        // A straightedge lies on the turf and spacers in their drawer: no machine is near.
        let away = [Field::StraightedgeGap, Field::Spacers];
        let at_the_machine = |field: &Field| !away.contains(field);
        for field in Field::all(&document).filter(at_the_machine) {
            assert_safe(&field.to_string(), field.words().measured);
        }
        let solved = Solved::of(&document).expect("a demo unit");
        let system = System::InchDecimal;
        for complaint in Complaint::ALL {
            assert_safe("look first", complaint.look_first());
            for cause in causes(&solved.case(), complaint) {
                assert_safe(cause.name, cause.confirm);
                assert_safe(cause.name, &cause.cure.told());
            }
        }
        for finding in FindingId::ALL {
            if let Some(advice) = solved.advice(finding, system) {
                assert_safe(finding.id(), &advice.shown_in(system));
            }
        }
    }
}
