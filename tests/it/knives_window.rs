//! The Knives area: what its table shows, and what is done to the knives in it, without a display.

use std::fs;

use egui::accesskit::{Role, Toggled};
use egui_kittest::kittest::NodeT as _;
use kurbo::{ParamCurveNearest as _, Vec2};
use sweepgauge::analysis::knives::{
    KnifeRow, Trial, Verdict, csv, rank, rests_on, table, window_text,
};
use sweepgauge::analysis::{Case, FindingId, Solution, Solved};
use sweepgauge::app::{DEMO_UNIT, Preferences};
use sweepgauge::drawing::{Hold, OVERLAYS, Overlay, Role as DrawnRole, Shape, SideView, Theme};
use sweepgauge::unit::{Document, Field, Pieces, read_knife_rows};
use sweepgauge::units::{Rollers, System};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::shown::{Answers, Start, Window, demo_set, document};

/// A window on a document, in the Knives area.
fn knives_of(document: Document) -> Window {
    opened(Start::on(document))
}

fn opened(start: Start) -> Window {
    let mut window = start.window();
    window.click("Knives");
    window
}

fn demo() -> Window {
    knives_of(document(DEMO_UNIT))
}

fn rows_of(document: &Document) -> Vec<KnifeRow> {
    table(&Solved::of(document).unwrap())
}

/// The labels of the table and what follows it.
fn labels(window: &Window) -> Vec<String> {
    let labels: Vec<String> = window
        .nodes()
        .iter()
        .filter(|node| node.accesskit_node().role() == Role::Label)
        .filter_map(egui_kittest::Node::value)
        .collect();
    let is_order = |text: &String| text.starts_with("As listed.") || text.starts_with("Sorted by");
    let start = labels.iter().position(is_order).expect("a table");
    labels[start + 1..].to_vec()
}

/// The knives of the table, from its top down.
fn order(window: &Window) -> Vec<String> {
    let names: Vec<&str> = window
        .document()
        .knives()
        .map(|(_, knife)| knife.name.as_str())
        .collect();
    // What the table rests on stands under it, and ends it; plots and map name knives too.
    labels(window)
        .into_iter()
        .take_while(|label| !label.starts_with("Readings used"))
        .filter(|label| names.contains(&label.as_str()))
        .collect()
}

/// The texts of a knife's row.
fn row(window: &Window, name: &str) -> Vec<String> {
    let names = order(window);
    let labels = labels(window);
    let start = labels.iter().position(|label| label == name).unwrap();
    let rest = labels[start + 1..].iter();
    rest.take_while(|label| !names.contains(label) && !label.starts_with("Bench measurements"))
        .cloned()
        .collect()
}

fn names(document: &Document) -> Vec<&str> {
    document.knives().map(|(_, k)| k.name.as_str()).collect()
}

/// Every number that the analysis found stands in the row of its knife.
#[track_caller]
fn assert_rows_shown(window: &Window) {
    let system = window.app().system();
    for found in rows_of(window.document()) {
        let texts = row(window, &found.name);
        let mut wanted = Vec::new();
        wanted.extend(found.aim.ok().map(|aim| system.angle(aim.attitude)));
        wanted.extend(
            found
                .aim
                .ok()
                .map(|aim| system.move_of(Rollers::Rear, aim.rear_roller)),
        );
        for reel in &found.life {
            if reel.windows.is_empty() {
                wanted.push("none".to_owned());
            }
            for window in &reel.windows {
                let width = system.angle(window.width());
                wanted.push(format!("{} ({width})", window_text(window, system)));
            }
        }
        match &found.solution {
            Ok(solution) => {
                wanted.push(system.length(solution.sweep.behind_centre));
                wanted.push(system.length(solution.sweep.below_cut));
                wanted.extend(solution.sweep_share.map(|share| system.share(share)));
                wanted.push(system.length(solution.underside_clearance));
            }
            Err(_) => wanted.push("does not meet the reel".to_owned()),
        }
        wanted.push(system.length(found.lip.thickness));
        wanted.extend(found.lip.grinds_told());
        let mut texts = texts.iter();
        for number in wanted {
            assert!(
                texts.any(|text| *text == number),
                "\"{number}\" in its place in the row of {}: {:#?}",
                found.name,
                row(window, &found.name)
            );
        }
    }
}

fn click_far_off(window: &mut Window, name: &str) {
    window.button(name).click_accesskit();
    window.settle();
}

/// Back to the unit on screen; a group of the form has the switch's name.
fn to_unit_area(window: &mut Window) {
    let nodes = window.nodes();
    let switch = nodes.iter().find(|node| {
        let node = node.accesskit_node();
        node.label().as_deref() == Some("Unit") && node.data().is_expanded().is_none()
    });
    switch.expect("a switch").click_accesskit();
    window.settle();
}

#[test]
fn the_area_opens_by_its_switch_and_shows_every_knife_with_its_numbers() {
    let window = demo();
    assert_eq!(order(&window), ["plain", "reaching", "short", "heavy"]);
    assert_rows_shown(&window);
    let solved = Solved::of(window.document()).unwrap();
    let rows = table(&solved);
    let system = window.app().system();
    let ranking = rank(&rows, &solved, system);
    for sentence in ranking
        .sentences
        .iter()
        .chain(&rests_on(window.document(), window.app().system()))
    {
        window.assert_says(sentence);
    }
}

#[test]
fn every_demo_unit_shows_its_knives_in_every_unit_and_in_dark() {
    for file in DemoUnit::files() {
        for system in System::ALL {
            let mut start = Start::on_file(&file);
            start.theme = egui::Theme::Dark;
            start.preferences = Preferences {
                system: Some(system),
                ..start.preferences
            };
            assert_rows_shown(&opened(start));
        }
    }
}

#[test]
fn knives_that_fit_nowhere_say_none() {
    let window = knives_of(demo_set("height_of_cut: \"0.1 in\""));
    window.assert_says("No knife passes at 0.100 in");
    assert_rows_shown(&window);
    assert!(row(&window, "short").contains(&"none".to_owned()));
}

#[test]
fn fitting_a_knife_sets_it_and_marks_its_row() {
    let mut window = demo();
    assert!(row(&window, "reaching").iter().all(|text| text != "fitted"));
    window.click("Fit reaching");
    assert_eq!(window.document(), &demo_set("knife: \"reaching\""));
    assert!(row(&window, "reaching").contains(&"fitted".to_owned()));
    assert_rows_shown(&window);
    window.click("Fit plain");
    assert_eq!(window.document(), &document(DEMO_UNIT));
}

#[test]
fn a_knife_is_added_duplicated_and_removed() {
    let mut window = demo();
    window.click("Add a knife");
    // It is blank, and no knife before it is filled.
    window.click("Add this knife");
    window.assert_says("No knife was added: the name is still blank");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    for (column, text) in [
        ("name", "knife"),
        ("reach", "1.7"),
        ("width", "2.7"),
        ("lip thickness", "0.12"),
        ("lip length", "1/2"),
        ("body thickness", "0.25"),
    ] {
        window.enter_text(&format!("New knife, {column}"), text);
    }
    assert_eq!(window.document(), &document(DEMO_UNIT));
    window.click("Add this knife");
    let added = window.document().options.last().unwrap().clone();
    assert_eq!((added.name.as_str(), added.price), ("knife", None));
    assert_eq!(added.reach.text(), "1.7 in");
    window.click("Duplicate short");
    let copy = window.document().options.last().unwrap();
    assert_eq!(copy.name, "short 2");
    assert_eq!(copy.reach, window.document().options[1].reach);
    assert_rows_shown(&window);
    window.click("Fit short 2");
    window.click("Remove knife knife");
    assert_eq!(window.document().fitted_name(), "short 2");
    window.click("Remove knife short 2");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    assert!(!window.has_button("Remove knife plain"));
}

#[test]
fn an_open_row_edits_its_knife_in_place() {
    let mut window = knives_of(demo_set("knife: \"reaching\""));
    window.click("Edit reaching");
    window.enter_text("Reach, 1", "1.7");
    assert_eq!(window.document().options[0].reach.text(), "1.7 in");
    window.enter_text("Notes, 1", "ask first");
    assert!(row(&window, "reaching").contains(&"ask first".to_owned()));
    window.enter_text("Knife name, 1", "longest");
    assert_eq!(window.document().fitted_name(), "longest");
    assert_rows_shown(&window);
    window.click("Close longest");
    window.assert_silent("Reach, 1");
    window.click("Edit plain");
    window.enter_text("Width", "2.6 in");
    assert_eq!(window.document().knife.width.text(), "2.6 in");
}

#[test]
fn a_wrong_entry_stays_with_its_reason_and_goes_with_its_knife() {
    let mut window = demo();
    window.click("Edit short");
    window.enter_text("Reach, 2", "long");
    window.assert_says("The field \"Reach, 2\" holds \"long\"");
    window.assert_says("Not current: these are the knives as they last were.");
    window.click("Remove knife reaching");
    window.assert_silent("Not current");
    assert_eq!(window.entry("Reach, 1"), "1.35 in");
    assert_eq!(names(window.document()), ["plain", "short", "heavy"]);
    assert_rows_shown(&window);
}

#[test]
fn two_knives_never_have_one_name_and_none_has_no_name() {
    let mut window = demo();
    window.click("Edit short");
    window.enter_text("Knife name, 2", "heavy");
    window.assert_says("two knives are called \"heavy\"");
    window.assert_says("Not current");
    assert_eq!(
        names(window.document()),
        ["plain", "reaching", "short", "heavy"]
    );
    window.enter_text("Knife name, 2", "");
    window.assert_says("a knife needs a name");
    window.enter_text("Knife name, 2", "other");
    window.assert_silent("Not current");
    assert_eq!(order(&window), ["plain", "reaching", "other", "heavy"]);
    assert_rows_shown(&window);
}

#[test]
fn a_click_on_a_head_sorts_and_a_third_brings_the_list_back() {
    let mut window = demo();
    click_far_off(&mut window, "Sort by sweep");
    assert_eq!(order(&window)[0], "reaching");
    assert_eq!(order(&window)[3], "short");
    window.assert_says("Sorted by sweep, least first.");
    assert_rows_shown(&window);
    click_far_off(&mut window, "Sort by sweep");
    assert_eq!(order(&window)[0], "short");
    click_far_off(&mut window, "Sort by sweep");
    assert_eq!(order(&window), ["plain", "reaching", "short", "heavy"]);
    window.click("Sort by knife");
    assert_eq!(order(&window), ["heavy", "plain", "reaching", "short"]);
    click_far_off(&mut window, "Sort by price");
    assert_eq!(order(&window), ["short", "plain", "heavy", "reaching"]);
    click_far_off(&mut window, "Sort by working range, reel scrap");
    let rows = rows_of(window.document());
    let room = |name: &String| {
        let row = rows.iter().find(|row| row.name == *name).unwrap();
        row.life[2].widest().map_or(-1.0, |w| w.width().deg())
    };
    assert!(order(&window).iter().map(room).is_sorted_by(|a, b| a >= b));
    for head in ["behind centre", "underside", "lip left", "notes"] {
        click_far_off(&mut window, &format!("Sort by {head}"));
        assert_rows_shown(&window);
    }
}

#[test]
fn rows_pasted_from_a_spreadsheet_become_knives() {
    let mut window = demo();
    let rows = "long\t1.7\t2.7\t0.12\t1/2\t0.25\t$ 60\tby air\nshort\t1.3\t2.3\t0.12\t.45\t0.25";
    window.click("Paste rows…");
    window.field("Rows of knives").focus();
    window.settle();
    window.harness.event(egui::Event::Paste(rows.to_owned()));
    window.settle();
    window.click("Add these knives");
    assert_eq!(
        names(window.document()),
        ["plain", "reaching", "short", "heavy", "long", "short 2"]
    );
    window.assert_says("Added 2 knives. \"short\" was taken, so one is called \"short 2\".");
    assert_eq!(window.document().options[3].price.as_deref(), Some("$ 60"));
    window.assert_silent("Paste knives");
    assert_rows_shown(&window);
}

#[test]
fn rows_are_shown_as_they_are_read_and_their_units_asked_about() {
    let mut window = demo();
    let rows =
        "Part no.;Reach (mm);Width;Lip thickness;Lip length;Body thickness\nK1;43,2;68;3;12,7;6,35";
    window.click("Paste rows…");
    window.field("Rows of knives").focus();
    window.settle();
    window.harness.event(egui::Event::Paste(rows.to_owned()));
    window.settle();
    window.assert_says("One knife is read:");
    window.assert_says("43.2 mm");
    window.assert_says("68 in");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    window.click("millimetres");
    window.assert_says("68 mm");
    window.click("Add these knives");
    let added = window.document().options.last().unwrap();
    assert_eq!((added.name.as_str(), added.reach.text()), ("K1", "43.2 mm"));
    assert_eq!(added.body_thickness.text(), "6.35 mm");

    window.click("Paste rows…");
    window.field("Rows of knives").focus();
    window.settle();
    let rows = "K2\t43.2\t68\t3\t12.7\t6.35";
    window.harness.event(egui::Event::Paste(rows.to_owned()));
    window.settle();
    let asked =
        "\"K2\" has a reach of 43.2 in, 29 times the fitted knife's: are the numbers millimetres?";
    window.assert_says(asked);
    window.click("millimetres");
    window.assert_silent("are the numbers millimetres?");
}

#[test]
fn rows_that_carry_their_units_ask_for_none() {
    let mut window = demo();
    window.click("Paste rows…");
    window.field("Rows of knives").focus();
    window.settle();
    let heads = "Part no.;Reach (mm);Width (mm);Lip thk (mm);Lip length (mm);Body thk (mm)";
    let rows = format!("{heads}\nK1;43,2;68;3;12,7;6,35");
    window.harness.event(egui::Event::Paste(rows));
    window.settle();
    window.assert_says("One knife is read:");
    window.assert_says("Every length has its unit");
    window.assert_silent("Bare numbers are");
    window.field("Rows of knives").focus();
    window.settle();
    let bare = "\nK2;43,2 mm;68;3;12,7;6,35".replace(';', "\t");
    let all = (egui::Modifiers::COMMAND, egui::Key::A);
    window.harness.key_press_modifiers(all.0, all.1);
    window.harness.key_press(egui::Key::Delete);
    window.harness.event(egui::Event::Paste(bare));
    window.settle();
    window.assert_says("Bare numbers are");
}

#[test]
fn the_list_says_what_it_goes_by_and_the_sums_are_prices() {
    let mut unit = document(DEMO_UNIT);
    for knife in &mut unit.options {
        knife.price = Some("38.50".to_owned());
    }
    unit.options[0].quantity = Pieces(4);
    let mut window = knives_of(unit);
    window.assert_says("Order: those that pass, the most room first; price counts only");
    window.assert_says("total 154.00");
    window.assert_says("If you order them all: 6 knives, total price 231.00.");
    let name = window.document().options[0].name.clone();
    window.click(&format!("Overlay {name}"));
    window.assert_says("Ticked: 4 knives, total price 154.00.");

    let window = knives_of(DemoUnit::KnifeChoice.document());
    let rows = rows_of(window.document());
    let failing = rows
        .iter()
        .filter(|row| row.judgement.verdict == Verdict::DoesNotFit);
    assert_eq!(failing.count(), 1);
    window.assert_says("One does not pass: it is listed last.");
}

#[test]
fn wrong_rows_are_refused_with_the_reason_and_none_is_added() {
    let mut window = demo();
    window.click("Paste rows…");
    for (rows, reason) in [
        ("", "there are no rows"),
        ("a,1,wide,.1,.5,.2", "row 1, column \"width\": "),
        ("a,1,2,.1,5,.2", "\"a\", Lip length: "),
        ("name,reach\na,1", "the heading has no column \"width\""),
    ] {
        window.field("Rows of knives").focus();
        window.settle();
        window
            .harness
            .key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
        window.harness.key_press(egui::Key::Delete);
        window.harness.event(egui::Event::Paste(rows.to_owned()));
        window.settle();
        window.assert_silent("No knife was added");
        window.click("Add these knives");
        window.assert_says(&format!("No knife was added: {reason}"));
        assert_eq!(window.document(), &document(DEMO_UNIT));
    }
    window.click("Cancel");
    window.assert_silent("Paste knives");
}

#[test]
fn a_csv_file_is_read_and_written() {
    let folder = TempDir::new().unwrap();
    let (source, target) = (folder.path().join("in.csv"), folder.path().join("out"));
    let answers = Answers::default();
    let mut window = opened(Start::on(document(DEMO_UNIT)).asking(&answers));
    window.click("Read CSV…");
    window.click("Write CSV…");
    assert_eq!(window.document(), &document(DEMO_UNIT));

    fs::write(
        &source,
        "\u{feff}Name;Reach;Width;Lip thickness;Lip length;Body thickness;Price\nlong;1.7;2.7;.12;.5;.25;9\n",
    )
    .unwrap();
    answers.read_rows(&source);
    window.click("Read CSV…");
    window.assert_says("One knife is read:");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    window.click("Add these knives");
    window.assert_says("Added one knife.");
    assert_eq!(names(window.document()).last(), Some(&"long"));

    answers.write_rows(&target);
    window.click("Write CSV…");
    assert_eq!(
        answers.offered().last().map(String::as_str),
        Some("example-ground-trailed-gang-number-3-knives.csv")
    );
    let written = fs::read_to_string(target.with_extension("csv")).unwrap();
    let solved = Solved::of(window.document()).unwrap();
    let rows = table(&solved);
    assert_eq!(written, csv(&solved, &rows, window.app().system()).unwrap());
    let back = read_knife_rows(&written, System::InchDecimal).unwrap();
    let listed: Vec<_> = window.document().knives().map(|(_, k)| k.clone()).collect();
    assert_eq!(back, listed);
}

#[test]
fn a_file_that_cannot_be_read_or_written_is_told() {
    let folder = TempDir::new().unwrap();
    let source = folder.path().join("in.csv");
    let answers = Answers::default();
    let mut window = opened(Start::on(document(DEMO_UNIT)).asking(&answers));
    answers.read_rows(&source);
    window.click("Read CSV…");
    window.assert_says("No knife was added: ");
    fs::write(&source, [0xFF, 0xFE, 0x41, 0x00]).unwrap();
    window.click("Read CSV…");
    window.assert_says("it is not text in UTF-8");
    fs::write(&source, "a,1,wide,.1,.5,.2").unwrap();
    window.click("Read CSV…");
    window.assert_says("row 1, column \"width\"");
    answers.write_rows(&folder.path().join("nowhere/out.csv"));
    window.click("Write CSV…");
    window.assert_says("Not written: ");
    assert_eq!(window.document(), &document(DEMO_UNIT));
    window.enter_text("Attitude", "about 6");
    answers.write_rows(&folder.path().join("out.csv"));
    window.click("Write CSV…");
    window.assert_says("Not written. The field \"Attitude\" holds");
    assert!(!folder.path().join("out.csv").exists());
}

#[test]
fn up_to_four_knives_are_drawn_over_each_other() {
    let mut window = demo();
    window.click("Duplicate short");
    window.click("Close short 2");
    window.assert_silent("Lens with knives drawn over each other");
    for name in ["reaching", "short", "heavy", "short 2"] {
        window.click(&format!("Overlay {name}"));
    }
    window.assert_says("Lens with knives drawn over each other");
    let is_disabled = |window: &Window, name: &str| {
        window
            .button(&format!("Overlay {name}"))
            .accesskit_node()
            .is_disabled()
    };
    assert!(is_disabled(&window, "plain"));
    assert!(!is_disabled(&window, "heavy"));
    window.click("Overlay heavy");
    assert!(!is_disabled(&window, "plain"));
    window.click("Overlay plain");
    window.click("Remove knife short 2");
    assert!(!is_disabled(&window, "heavy"));
    to_unit_area(&mut window);
    window.assert_says("Side view of the unit");
    window.type_over("Attitude", "6 deg");
    window.click("Knives");
    assert_rows_shown(&window);
}

#[test]
fn knives_drawn_over_each_other_share_the_edge_and_are_told_apart() {
    let document = document(DEMO_UNIT);
    let solved = Solved::of(&document).unwrap();
    let (unit, trial) = (&solved.unit, Trial::of(&solved.solution));
    let solved_with: Vec<_> = document
        .knives()
        .map(|(_, knife)| {
            let setting = trial.setting(unit, knife.section(), unit.setting.reel_diameter);
            (&knife.name, setting, Solution::of(unit, &setting).unwrap())
        })
        .collect();
    let overlays: Vec<_> = (0_u8..)
        .zip(&solved_with)
        .map(|(place, (name, setting, solution))| Overlay {
            name,
            place,
            case: Case {
                unit,
                setting,
                solution,
            },
        })
        .collect();
    assert_eq!(overlays.len(), OVERLAYS);
    let scene = SideView {
        ghost: None,
        overlays: &overlays,
        system: System::Millimetre,
        ..SideView::of(&solved)
    }
    .scene();
    let edge = solved.solution.pose.edge_on_plate;
    for overlay in &overlays {
        let shapes: Vec<_> = scene.of_role(DrawnRole::Overlay(overlay.place)).collect();
        let lines: Vec<_> = shapes
            .iter()
            .filter_map(|shape| match shape {
                Shape::Line(path) => Some(path),
                _ => None,
            })
            .collect();
        assert_eq!(lines.len(), 2, "the knife and the reel's arc");
        for line in lines {
            let nearest = line.segments().map(|segment| segment.nearest(edge, 1e-9));
            let distance = nearest.map(|near| near.distance_sq.sqrt());
            assert!(distance.fold(f64::INFINITY, f64::min) < 1e-3);
        }
        assert!(scene.words().any(|word| word == overlay.name));
    }
    for theme in [Theme::Light, Theme::Dark] {
        for (a, b) in [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)] {
            let (a, b) = (
                theme.look(DrawnRole::Overlay(a)),
                theme.look(DrawnRole::Overlay(b)),
            );
            assert!(a.dashes != b.dashes && a.ink != b.ink);
        }
    }
}

#[test]
fn knives_drawn_bar_on_bar_stand_as_far_apart_as_they_reach() {
    let mut window = demo();
    window.click("Overlay reaching");
    window.click("bar on bar");
    let toggled = window.button("bar on bar").accesskit_node().toggled();
    assert_eq!(toggled, Some(Toggled::True));
    let document = document(DEMO_UNIT);
    let solved = Solved::of(&document).unwrap();
    let (unit, trial) = (&solved.unit, Trial::of(&solved.solution));
    let (_, knife) = document
        .knives()
        .find(|(_, k)| k.name == "reaching")
        .unwrap();
    let setting = trial.setting(unit, knife.section(), unit.setting.reel_diameter);
    let solution = Solution::of(unit, &setting).unwrap();
    let case = Case {
        unit,
        setting: &setting,
        solution: &solution,
    };
    let scene = SideView {
        ghost: None,
        hold: Hold::Screws,
        overlays: &[Overlay {
            name: "reaching",
            place: 0,
            case,
        }],
        ..SideView::of(&solved)
    }
    .scene();
    let pose = &solved.solution.pose;
    let further = knife.reach.value() - document.knife.reach.value();
    let ahead = Vec2::from_angle(-pose.attitude.rad()) * further.mm();
    let edge = pose.edge_on_plate + ahead;
    assert!(further.mm() > 1.0, "{further:?}");
    let mut lines = scene
        .of_role(DrawnRole::Overlay(0))
        .filter_map(|shape| match shape {
            Shape::Line(path) => Some(path),
            _ => None,
        });
    let nearest = lines.next().unwrap().segments();
    let distance = nearest.map(|segment| segment.nearest(edge, 1e-9).distance_sq.sqrt());
    assert!(distance.fold(f64::INFINITY, f64::min) < 1e-3);
}

#[test]
fn every_widget_of_the_table_has_a_name_of_its_own() {
    let mut window = demo();
    window.click("Edit short");
    window.click("Overlay heavy");
    let mut found: Vec<(Role, String)> = Vec::new();
    for node in window.nodes() {
        let node = node.accesskit_node();
        let is_interactive = matches!(
            node.role(),
            Role::Button | Role::CheckBox | Role::TextInput | Role::ComboBox | Role::Slider
        );
        if is_interactive {
            let name = node.label().unwrap_or_default();
            assert!(!name.is_empty(), "{:?} without a name", node.role());
            assert!(
                !found.contains(&(node.role(), name.clone())),
                "two are called {name}"
            );
            found.push((node.role(), name));
        }
    }
    for knife in ["plain", "reaching", "short", "heavy"] {
        for what in ["Fit", "Duplicate"] {
            assert!(window.has_button(&format!("{what} {knife}")));
        }
    }
}

#[test]
fn another_document_brings_its_own_knives() {
    let mut window = demo();
    window.click("Overlay heavy");
    window.drop_file(&DemoUnit::GreensWalking.file());
    assert_rows_shown(&window);
    window.assert_silent("Overlay heavy");
}

/// A demo unit with so many knives in all, each by a name of its own.
fn with_knives(count: usize) -> Document {
    let mut document = document(DEMO_UNIT);
    for index in document.options.len() + 1..count {
        let mut knife = document.options[index % 3].clone();
        knife.name = format!("{} {index}", knife.name);
        document.options.push(knife);
    }
    document
}

#[test]
fn of_a_long_list_of_knives_only_those_in_view_are_laid_out() {
    let mut window = knives_of(with_knives(400));
    window.settle();
    let fits = |window: &Window| {
        let nodes = window.nodes();
        let names = nodes
            .iter()
            .filter_map(|node| node.accesskit_node().label());
        names.filter(|name| name.starts_with("Duplicate ")).count()
    };
    let shown = fits(&window);
    // The test's window is some sixty rows high.
    assert!((3..100).contains(&shown), "{shown}");
    // Its ranking is that of the whole list.
    let solved = Solved::of(window.document()).unwrap();
    let ranking = rank(&table(&solved), &solved, System::InchDecimal);
    let labels: Vec<String> = window
        .nodes()
        .iter()
        .filter_map(egui_kittest::Node::value)
        .collect();
    assert!(labels.contains(&ranking.sentences[0]), "{labels:?}");
    assert!(labels.contains(&ranking.sentences[1]), "{labels:?}");
    assert!(
        labels
            .iter()
            .any(|label| label.starts_with("Of 400 knives:"))
    );
}

#[test]
fn a_finding_that_names_a_knife_of_the_list_leads_to_the_knives_and_changes_none() {
    let mut document = DemoUnit::KnifeChoice.document();
    for (field, text) in [
        (Field::TopGround, "0.13 in"),
        (Field::WantedAttitude, "6 deg"),
    ] {
        field.set(&mut document, text, System::InchDecimal).unwrap();
    }
    let solved = Solved::of(&document).unwrap();
    let advice = solved.advice(FindingId::Lip, System::InchDecimal).unwrap();
    let named = document.knife_at(advice.knife.unwrap()).unwrap();
    let button = format!("Compare \"{}\" in Knives", named.name);
    let mut window = Start::on(document.clone()).window();
    window.assert_silent("Which knife passes");
    window.click(&button);
    window.assert_says("Which knife passes");
    assert_eq!(*window.document(), document);
    // Where an attitude will do, no knife is named.
    let window = Start::on(DemoUnit::KnifeChoice.document()).window();
    window.assert_says("Findings");
    assert!(
        !window
            .texts()
            .iter()
            .any(|text| text.starts_with("Compare \"")),
        "{:?}",
        window.texts()
    );
}
