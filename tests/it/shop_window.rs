//! The Shop area by accessible name: a folder of units as a table that is sorted and filtered, what cannot
//! be read beside it, changes that show by themselves, and a unit opened from it.

use std::fs;
use std::path::{Path, PathBuf};

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT as _;
use sweepgauge::analysis::{Level, Solved};
use sweepgauge::app::Beginning;
use sweepgauge::store::{open_unit, save_unit};
use sweepgauge::units::System;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Answers, Start, Window};

fn demo_shop() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/example-ground")
}

/// A folder with the files of the demo shop, to be changed.
fn own_shop() -> TempDir {
    let folder = TempDir::new().unwrap();
    for entry in fs::read_dir(demo_shop()).unwrap() {
        let file = entry.unwrap().path();
        fs::copy(&file, folder.path().join(file.file_name().unwrap())).unwrap();
    }
    folder
}

/// A window with the board of a folder in front.
fn board_of(folder: &Path) -> Window {
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.preferences.shop.folder = Some(folder.to_owned());
    shown(start)
}

fn shown(start: Start) -> Window {
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.wait_until_it_says(" OK");
    window
}

/// The units in the table, from the top, as their names begin to differ.
fn units(window: &Window) -> Vec<String> {
    let nodes = window.nodes().into_iter();
    let buttons = nodes.filter(|node| node.accesskit_node().role() == Role::Button);
    let names = buttons.filter_map(|node| node.accesskit_node().label());
    names
        .filter_map(|name| Some(name.strip_prefix("Example Ground, ")?.to_owned()))
        .collect()
}

#[test]
fn a_folder_is_chosen_and_its_units_stand_in_a_table() {
    let answers = Answers::default();
    answers.folder(&demo_shop());
    let start = Start::on(DemoUnit::FairwayTrailed.document()).asking(&answers);
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.assert_says("The units of a folder beside each other");
    window.click("Choose a folder…");
    window.wait_until_it_says("6 units:");
    assert_eq!(
        units(&window),
        [
            "trailed gang, 1",
            "trailed gang, 2",
            "trailed gang, 3",
            "walking greens, 1",
            "walking greens, 2",
            "walking greens, 3"
        ]
    );
    // As the remarks in the demo files say.
    window.assert_says("The set trailed gang does not agree");
    assert_eq!(window.app().preferences().shop.folder, Some(demo_shop()));
}

#[test]
fn without_a_dialog_the_folder_is_typed() {
    let mut start = Start::on_file(&demo_shop().join("greens-1.ron"));
    start.dialogs = Box::new(crate::common::shown::NoFileDialogs);
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.click("Units of a folder");
    window.click("Choose a folder…");
    window.assert_says("Type its path into the field Folder");
    window.enter_text("Folder of units", &demo_shop().display().to_string());
    window.wait_until_it_says("6 units:");
    // The one that is open says so.
    window.assert_says("Example Ground, walking greens, 1, open");
    window.enter_text("Folder of units", "/no/such/folder");
    window.wait_until_it_says("The folder cannot be read");
    window.click("Folder of this unit");
    window.wait_until_it_says("6 units:");
}

#[test]
fn every_column_sorts_both_ways_and_what_is_missing_comes_last() {
    let mut window = board_of(&demo_shop());
    let by = |window: &mut Window, head: &str| {
        window.click(&format!("Sort by {head}"));
        let once = units(window);
        window.click(&format!("Sort by {head}"));
        (once, units(window))
    };
    let heights = |units: &[String]| -> Vec<f64> {
        let height = |unit: &String| {
            let file = unit.replace("trailed gang, ", "gang-");
            let file = file.replace("walking greens, ", "greens-") + ".ron";
            let unit = open_unit(&demo_shop().join(file)).unwrap();
            unit.bench.height_of_cut.value().mm()
        };
        units.iter().map(height).collect()
    };
    let (up, down) = by(&mut window, "height of cut");
    assert!(heights(&up).is_sorted(), "{up:?}");
    assert!(heights(&down).iter().rev().is_sorted(), "{down:?}");
    assert_ne!(up, down);
    for head in [
        "unit",
        "set",
        "turf",
        "status",
        "behind centre",
        "sweep",
        "reel left",
        "last job",
    ] {
        let (once, twice) = by(&mut window, head);
        assert_eq!((once.len(), twice.len()), (6, 6), "{head}");
        assert_ne!(once, twice, "{head}");
    }
    // The third of the gang has one diameter in its record: no wear to be told.
    let (up, down) = by(&mut window, "next due");
    assert_eq!(up.last().unwrap(), "trailed gang, 3", "{up:?}");
    assert_eq!(down.last().unwrap(), "trailed gang, 3", "{down:?}");
}

#[test]
fn units_are_found_by_words_and_by_status() {
    let mut window = board_of(&demo_shop());
    window.type_over("Find units", "walking GREENS");
    assert_eq!(units(&window).len(), 3);
    window.assert_says("3 of 6");
    window.type_over("Find units", "gang 2");
    assert_eq!(units(&window), ["trailed gang, 2"]);
    window.click("Show all units");
    assert_eq!(units(&window).len(), 6);
    let mut found = Vec::new();
    for level in ["OK", "watch", "over limit"] {
        window.choose("Status", level);
        found.extend(units(&window));
    }
    found.sort();
    window.choose("Status", "every status");
    let mut all = units(&window);
    all.sort();
    assert_eq!(found, all);
}

#[test]
fn a_set_agrees_by_the_amounts_that_are_typed() {
    let mut window = board_of(&demo_shop());
    window.assert_says("1 set does not agree");
    // 0.47 to 0.5 in, as the remarks in the demo files say.
    window.enter_text("Height of cut may differ by", "0.03");
    window.assert_silent("set does not agree");
    window.enter_text("Height of cut may differ by", "about so much");
    window.assert_says("The starting value is used.");
    window.assert_says("1 set does not agree");
    window.enter_text("Height of cut may differ by", "0.0005");
    window.assert_says("2 sets do not agree");
    window.assert_says("The set walking greens does not agree: height of cut differs by 0.0010 in (at most 0.0005 in).");
    window.enter_text("Height of cut may differ by", "");
    window.enter_text("Behind centre may differ by", "0.001 in");
    window.assert_says("behind centre differs by 0.0050 in (at most 0.0010 in)");
}

#[test]
fn what_cannot_be_read_is_listed_with_its_reason_while_the_rest_is_shown() {
    let folder = own_shop();
    fs::write(folder.path().join("broken.ron"), "(format: 1, name: 3").unwrap();
    let record = folder.path().join("gang-1.record.ron");
    let text = fs::read_to_string(&record).unwrap();
    fs::write(&record, text + "(date:\"2026-1").unwrap();
    fs::write(folder.path().join("lone.record.ron"), "(record:1)\n").unwrap();
    let window = board_of(folder.path());
    assert_eq!(units(&window).len(), 6);
    // Units apart from records, by what of them is read.
    window.assert_says(
        "; 1 unit cannot be read; 1 record is read in part; 1 record is without its unit",
    );
    window.assert_says("lone.record.ron: the unit of this record is not in the folder");
    window.assert_says("broken.ron: ");
    window.assert_says("gang-1.record.ron: 1 line is damaged and left out, the others are read");
}

#[test]
fn what_changes_in_the_folder_shows_by_itself() {
    let folder = own_shop();
    let mut window = board_of(folder.path());
    assert_eq!(units(&window).len(), 6);
    let file = folder.path().join("greens-1.ron");
    let text = fs::read_to_string(&file).unwrap();
    let more = text.replace("walking greens, 1", "walking greens, one more");
    fs::write(folder.path().join("greens-4.ron"), more).unwrap();
    window.wait_until_it_says("walking greens, one more");
    window.wait_until_it_says("7 units:");
    fs::remove_file(&file).unwrap();
    window.wait_until_it_says("6 units:");
    // A change of its record is one of the unit's row.
    fs::write(
        folder.path().join("greens-4.record.ron"),
        "(record:1)\n(date:\"2027-01-02\",hours:\"5\")\n",
    )
    .unwrap();
    window.wait_until_it_says("2027-01-02");
}

#[test]
fn a_unit_is_opened_by_enter_and_by_a_double_click_and_comes_to_the_front() {
    let mut window = board_of(&demo_shop());
    window.button("Example Ground, walking greens, 2").focus();
    window.settle();
    window.press(Key::ArrowDown);
    window.press(Key::Enter);
    assert_eq!(window.document().name, "Example Ground, walking greens, 3");
    // The drawing is in front.
    assert!(window.has_button("1 As measured"));
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.wait_until_it_says("walking greens, 3, open");
    let place = window.button("Example Ground, trailed gang, 1").rect();
    window.double_click(place.center());
    assert_eq!(window.document().name, "Example Ground, trailed gang, 1");
}

#[test]
fn unsaved_work_is_asked_about_before_another_unit_is_opened() {
    let folder = own_shop();
    let mut start = Start::on_file(&folder.path().join("greens-1.ron"));
    start.preferences.shop.folder = Some(folder.path().to_owned());
    let mut window = start.window();
    window.enter_text("Name", "changed");
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.wait_until_it_says("6 units:");
    let open = |window: &mut Window| {
        window.button("Example Ground, trailed gang, 1").focus();
        window.settle();
        window.press(Key::Enter);
    };
    open(&mut window);
    window.assert_says("Unsaved changes");
    window.click("Keep editing");
    assert_eq!(window.document().name, "changed");
    window.assert_says("6 units:");
    open(&mut window);
    window.click("Save");
    assert_eq!(window.document().name, "Example Ground, trailed gang, 1");
    let kept = open_unit(&folder.path().join("greens-1.ron")).unwrap();
    assert_eq!(kept.name, "changed");
}

#[test]
fn the_unit_is_drawn_beside_its_row_while_the_pointer_rests_on_it() {
    let mut window = board_of(&demo_shop());
    window.assert_silent("greens-2.ron");
    let place = window.button("Example Ground, walking greens, 2").rect();
    window.harness.hover_at(place.center());
    for _ in 0..60 {
        window.step();
    }
    window.assert_says("greens-2.ron");
}

#[test]
fn another_folder_shows_its_own_units_and_sets() {
    let few = TempDir::new().unwrap();
    for file in ["greens-1.ron", "greens-2.ron"] {
        fs::copy(demo_shop().join(file), few.path().join(file)).unwrap();
    }
    let mut window = board_of(&demo_shop());
    assert_eq!(units(&window).len(), 6);
    window.assert_says("The set trailed gang does not agree");
    let folder = few.path().display().to_string();
    window.enter_text("Folder of units", &folder);
    window.wait_until_it_says("2 units:");
    assert_eq!(units(&window), ["walking greens, 1", "walking greens, 2"]);
    window.assert_silent("The set trailed gang");
    let many = demo_shop().display().to_string();
    window.enter_text("Folder of units", &many);
    window.wait_until_it_says("6 units:");
    assert_eq!(units(&window).len(), 6);
    window.assert_says("The set trailed gang does not agree");
}

#[test]
fn an_amount_stays_the_length_it_was_typed_as_when_the_units_change() {
    let mut window = board_of(&demo_shop());
    window.enter_text("Height of cut may differ by", "0.03");
    window.assert_silent("set does not agree");
    assert_eq!(window.app().preferences().shop.height_differs, "0.03 in");
    window.click(System::Millimetre.name());
    // 0.03 mm would be too little for either set.
    window.assert_silent("not agree");
    assert_eq!(window.entry("Height of cut may differ by"), "0.03 in");
    window.enter_text("Height of cut may differ by", "0.01");
    window.assert_says("2 sets do not agree");
    window.click(System::InchDecimal.name());
    window.assert_says("2 sets do not agree");
    assert_eq!(window.app().preferences().shop.height_differs, "0.01 mm");
}

#[test]
fn a_unit_of_example_readings_is_none_that_is_fine() {
    let folder = TempDir::new().unwrap();
    let own = DemoUnit::GreensWalking.document();
    let new = own.as_new();
    assert_eq!(Solved::of(&new).unwrap().findings.worst(), Level::Fine);
    save_unit(&new, &folder.path().join("new.ron")).unwrap();
    let mut start = Start::on(own);
    start.preferences.shop.folder = Some(folder.path().to_owned());
    let mut window = shown(start);
    window.assert_says("1 unit: 0 over limit, 1 watch, 0 OK");
    window.assert_says("watch: example readings");
    window.choose("Status", "OK");
    window.assert_says("0 of 1");
    window.choose("Status", "watch");
    window.assert_says("1 of 1");
}

#[test]
fn a_folder_that_is_taken_away_is_told_and_one_put_there_again_is_watched_after_refresh() {
    let top = TempDir::new().unwrap();
    let (folder, away) = (top.path().join("shop"), top.path().join("away"));
    fs::create_dir(&folder).unwrap();
    let greens = |to: &Path, number: u8| {
        let name = format!("greens-{number}.ron");
        fs::copy(demo_shop().join(&name), to.join(&name)).unwrap();
    };
    greens(&folder, 1);
    let mut window = board_of(&folder);
    window.assert_says("1 unit:");
    fs::rename(&folder, &away).unwrap();
    window.wait_until_it_says("The folder cannot be read");
    window.click("Refresh");
    window.wait_until_it_says("This folder is not watched");
    fs::create_dir(&folder).unwrap();
    greens(&folder, 1);
    // It waits while the folder is being read.
    while window.button("Refresh").accesskit_node().is_disabled() {
        window.step();
    }
    window.click("Refresh");
    window.wait_until_it_says("1 unit:");
    window.assert_silent("This folder is not watched");
    greens(&folder, 2);
    window.wait_until_it_says("2 units:");
}

/// A folder with a set of units of these heights of cut.
fn shop_of(heights: &[&str]) -> TempDir {
    let folder = TempDir::new().unwrap();
    let text = fs::read_to_string(demo_shop().join("gang-1.ron")).unwrap();
    for (place, height) in heights.iter().enumerate() {
        let own = text.replace("trailed gang, 1", &format!("trailed gang, {}", place + 1));
        let own = own.replace(
            "height_of_cut: \"0.5 in ± 0.002 in\"",
            &format!("height_of_cut: \"{height}\""),
        );
        fs::write(folder.path().join(format!("unit-{place}.ron")), own).unwrap();
    }
    folder
}

#[test]
fn of_a_set_that_does_not_agree_the_odd_one_out_is_named_and_of_two_neither() {
    let folder = shop_of(&["0.5 in", "0.47 in", "0.5 in"]);
    let window = board_of(folder.path());
    window.assert_says("1 set does not agree");
    window.assert_says("Height of cut: the odd one out is Example Ground, trailed gang, 2.");
    let folder = shop_of(&["0.5 in", "0.47 in"]);
    let window = board_of(folder.path());
    window.assert_says("Height of cut: of two units either can be off, so both are marked.");
}

#[test]
fn units_of_one_name_are_told_apart_by_their_files() {
    let folder = own_shop();
    let copy = folder.path().join("greens-1-copy.ron");
    fs::copy(folder.path().join("greens-1.ron"), copy).unwrap();
    let window = board_of(folder.path());
    let all = units(&window);
    for name in [
        "walking greens, 1 (greens-1.ron)",
        "walking greens, 1 (greens-1-copy.ron)",
    ] {
        assert!(all.iter().any(|unit| unit == name), "{name} in {all:?}");
    }
    assert!(
        all.iter().any(|unit| unit == "walking greens, 2"),
        "{all:?}"
    );
}

#[test]
fn a_unit_that_is_due_at_no_time_says_why() {
    let mut window = board_of(&demo_shop());
    window.assert_says("no wear rate yet");
    let place = window.button("Example Ground, trailed gang, 3").rect();
    window.harness.hover_at(place.center());
    for _ in 0..60 {
        window.step();
    }
    window.assert_says(
        "Next due: not known, no wear rate yet: two diameters on different days needed.",
    );
}

#[test]
fn the_card_of_a_row_covers_no_name_and_stays_within_the_window_at_every_size() {
    for size in [
        [900.0, 600.0],
        [1024.0, 768.0],
        [1366.0, 768.0],
        [1920.0, 1080.0],
    ] {
        let mut start = Start::on(DemoUnit::FairwayTrailed.document());
        start.preferences.shop.folder = Some(demo_shop());
        start.size = size.into();
        let mut window = shown(start);
        for unit in ["trailed gang, 1", "trailed gang, 2"] {
            let name = window.button(&format!("Example Ground, {unit}")).rect();
            window.harness.hover_at(name.center());
            for _ in 0..60 {
                window.step();
            }
            // Its lowest line and its highest.
            let file = window.label_place("ron", |text| {
                text.starts_with("gang-") && text.contains(".ron")
            });
            let due = window.label_place("Next due", |text| text.starts_with("Next due: 2"));
            let card = file.union(due);
            assert!(card.left() >= 0.5 * size[0], "{size:?}: {card:?}");
            let all = egui::Rect::from_min_size(egui::Pos2::ZERO, size.into());
            assert!(all.contains_rect(card), "{size:?}: {card:?}");
        }
    }
}

#[test]
fn sort_and_filter_are_there_again_at_the_next_start() {
    let mut window = board_of(&demo_shop());
    window.click("Sort by sweep");
    window.click("Sort by sweep");
    window.enter_text("Find units", "gang");
    let before = units(&window);
    assert_eq!(before.len(), 3);
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.preferences = window.app().preferences().clone();
    let mut window = shown(start);
    assert_eq!(units(&window), before);
    assert_eq!(window.entry("Find units"), "gang");
    window.assert_says("3 of 6");
    window.choose("Status", "over limit");
    let over = units(&window);
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.preferences = window.app().preferences().clone();
    let mut window = shown(start);
    assert_eq!(units(&window), over);
    window.click("Show all units");
    assert_eq!(units(&window).len(), 6);
}

#[test]
fn letters_typed_onto_a_row_find_units_and_down_leads_back_to_the_rows() {
    let mut window = board_of(&demo_shop());
    window.button("Example Ground, trailed gang, 1").focus();
    window.settle();
    window.type_text("w");
    window.type_text("alk");
    assert_eq!(window.entry("Find units"), "walk");
    assert_eq!(units(&window).len(), 3);
    window.press(Key::ArrowDown);
    window.press(Key::ArrowDown);
    window.press(Key::Enter);
    assert_eq!(window.document().name, "Example Ground, walking greens, 2");
}

#[test]
fn on_a_folder_its_first_unit_is_open_and_a_new_one_where_none_can_be() {
    let first = Beginning::with_folder(&demo_shop()).unwrap();
    assert_eq!(first.document().name, "Example Ground, trailed gang, 1");
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("broken.ron"), "(format: 1, name: 3").unwrap();
    let none = Beginning::with_folder(folder.path()).unwrap();
    assert_eq!(none.document().name, "New unit");
}
