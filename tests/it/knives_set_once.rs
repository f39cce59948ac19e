//! Which knife to order: what holds set once for the reel's whole life against scans, borders through
//! the report, ties told by price, and what a knife must be to fit.

use std::collections::BTreeSet;

use serde_json::Value;
use sweepgauge::analysis::knives::{
    Life, Limit, ReelWindows, SetOnce, Verdict, Window, rank, rests_on, set_once, table,
};
use sweepgauge::analysis::{FindingId, Level, Solved};
use sweepgauge::geometry::Setting;
use sweepgauge::headless::Report;
use sweepgauge::unit::{Document, Field, Fitted, Reading, Unit};
use sweepgauge::units::{Angle, Length, Quantity, System};

use crate::common::demo_unit::DemoUnit;
use crate::common::example::{clear_example, example};
use crate::knives::{Tried, document, json_list, ranked, steps, trial_of, units, written};

// Set once.

fn reel(unit: &Unit, life: Life, height: Length) -> ReelWindows {
    let diameter = life.diameter(unit);
    let setting = Setting {
        reel_diameter: diameter,
        ..unit.setting
    };
    let tried = Tried {
        unit,
        setting: &setting,
        height,
    };
    ReelWindows {
        life,
        diameter,
        windows: tried.windows(),
    }
}

fn set_once_of(unit: &Unit) -> Option<SetOnce> {
    let height = trial_of(unit).height_of_cut;
    let [new, scrap] = [Life::New, Life::Scrap].map(|life| reel(unit, life, height));
    set_once(unit, &unit.setting, height, [&new, &scrap])
}

/// Whether every limit holds at an attitude with the reel at every one of many diameters.
fn holds_for_life(unit: &Unit, at_deg: f64, diameters: u32) -> bool {
    let height = trial_of(unit).height_of_cut;
    let (scrap, new) = (unit.smallest_diameter.mm(), unit.new_diameter.mm());
    steps(scrap, new, diameters).all(|diameter_mm| {
        let setting = Setting {
            reel_diameter: Length::from_mm(diameter_mm),
            ..unit.setting
        };
        let tried = Tried {
            unit,
            setting: &setting,
            height,
        };
        tried.holds(at_deg)
    })
}

#[test]
fn set_once_is_what_a_scan_of_attitudes_and_diameters_leaves() {
    let (mut some, mut none, mut in_between) = (0, 0, 0);
    for unit in units(400, |_| true) {
        let found = set_once_of(&unit);
        let height = trial_of(&unit).height_of_cut;
        let tried = Tried {
            unit: &unit,
            setting: &unit.setting,
            height,
        };
        let (low, high) = tried.range();
        let scanned: Vec<f64> = steps(low, high, 120)
            .filter(|&at| holds_for_life(&unit, at, 24))
            .collect();
        let Some(range) = found else {
            // A scan that is coarse in diameter may see a little where a finer one sees none.
            for at in scanned {
                assert!(!holds_for_life(&unit, at, 2000), "{at} holds, none told");
            }
            none += 1;
            continue;
        };
        some += 1;
        let (from, to) = (range.low.at.deg(), range.high.at.deg());
        for part in [0.001, 0.25, 0.5, 0.75, 0.999] {
            let at = from + (to - from) * part;
            assert!(holds_for_life(&unit, at, 400), "{at} of {range:?}");
        }
        for (end, out) in [(range.low, -1e-6), (range.high, 1e-6)] {
            let outside = end.at.deg() + out;
            if (low..=high).contains(&outside) {
                let setting = Setting {
                    reel_diameter: end.diameter,
                    ..unit.setting
                };
                let tried = Tried {
                    setting: &setting,
                    ..tried
                };
                assert!(!tried.holds(outside), "{outside} beside {range:?}");
            }
            let sizes = [unit.new_diameter, unit.smallest_diameter];
            in_between += u32::from(!sizes.contains(&end.diameter));
        }
        // It is the widest: no run of the scan is wider.
        let step = (high - low) / 120.0;
        let runs = scanned.chunk_by(|a, b| b - a < 1.5 * step);
        let widest = runs
            .map(|run| run[run.len() - 1] - run[0])
            .fold(0.0, f64::max);
        assert!(widest <= to - from + 1e-9, "{widest} beside {range:?}");
    }
    // Some limits are nearest with the reel between new and scrap, at neither of its two sizes.
    let seen = (some, none, in_between);
    assert!(some > 100 && none > 50 && in_between > 0, "{seen:?}");
}

// Borders through the report.

/// The levels of the findings in a report, by their ids.
fn level_in_report(document: &Document, id: &str) -> Option<String> {
    let report = Report::of(&Solved::of(document).ok()?).to_json();
    let report: Value = serde_json::from_str(&report).unwrap();
    let findings = report["findings"].as_array().unwrap();
    let finding = findings.iter().find(|finding| finding["id"] == id)?;
    Some(finding["level"].as_str().unwrap().to_owned())
}

fn fitted(document: &Document, place: Fitted, diameter: Length, at_deg: f64) -> Document {
    let pose = Solved::of(document).unwrap().solution.pose;
    let mut fitted = document.clone();
    fitted.fit_knife(place);
    let setting = &mut fitted.setting;
    let exactly = |length| Some(Quantity::exactly(length, System::Millimetre));
    setting.rollers = None;
    setting.reel_diameter = exactly(diameter);
    setting.height_of_cut = exactly(pose.height_of_cut);
    setting.attitude = Some(Quantity::exactly(
        Angle::from_deg(at_deg),
        System::Millimetre,
    ));
    fitted
}

#[test]
fn borders_of_windows_hold_in_the_report_five_thousandths_of_a_degree_on_either_side() {
    const ASIDE_DEG: f64 = 0.005;
    let mut tried = 0;
    let mut limits = BTreeSet::new();
    for file in DemoUnit::files() {
        let document = sweepgauge::store::open_unit(&file).unwrap();
        for higher in [1.0, 1.15] {
            let mut document = document.clone();
            let height = Solved::of(&document).unwrap().solution.pose.height_of_cut;
            document.setting.rollers = None;
            document.setting.height_of_cut =
                Some(Quantity::exactly(height * higher, System::Millimetre));
            let solved = Solved::of(&document).unwrap();
            for row in table(&solved) {
                for reel in &row.life {
                    for window in &reel.windows {
                        let Window { low, high, .. } = *window;
                        if window.width().deg() < 3.0 * ASIDE_DEG {
                            continue;
                        }
                        for (at, out, limit) in [
                            (low, -1.0, window.low_limit),
                            (high, 1.0, window.high_limit),
                        ] {
                            let Some(finding) = limit.finding() else {
                                continue;
                            };
                            let past = finding.ends_window_past().unwrap();
                            let is_past = |at_deg: f64| {
                                let fitted = fitted(&document, row.knife, reel.diameter, at_deg);
                                let level = level_in_report(&fitted, finding.id()).unwrap();
                                level == Level::Over.id() || level == past.id()
                            };
                            let (inside, outside) =
                                (at.deg() - out * ASIDE_DEG, at.deg() + out * ASIDE_DEG);
                            let told = format!("{} {limit:?} at {at:?}", row.name);
                            assert!(!is_past(inside), "{told}, inside");
                            assert!(is_past(outside), "{told}, outside");
                            limits.insert(limit);
                            tried += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(tried >= 128 && limits.len() >= 3, "{tried}: {limits:?}");
}

// Ties.

/// The example with four knives to compare whose rooms are the same: by reach and width they differ in
/// how they are written alone, and behind the body they are all alike.
fn tied(knives: &[(&str, &str, &str)]) -> String {
    let options: Vec<String> = knives
        .iter()
        .map(|(name, reach, price)| {
            format!(
                "(name: \"{name}\", reach: \"{reach}\", width: \"2.5 in\", lip_thickness: \"0.12 in\", lip_length: \"0.5 in\", body_thickness: \"0.25 in\", price: \"{price}\"), "
            )
        })
        .collect();
    let options = format!("options: [{}", options.concat());
    clear_example(&[("options: [", &options)])
}

#[test]
fn of_three_knives_with_the_same_room_the_cheapest_leads() {
    // The middle one is written in millimetres, and the last differs by less than can be shown.
    let text = tied(&[
        ("dear", "1.6 in", "61.00"),
        ("cheapest", "40.64 mm", "$ 44.50"),
        ("middle", "1.6000001 in", "55,00"),
    ]);
    let (_folder, file) = written("unit.ron", &text);
    let list = json_list(&file, &[]);
    let of = |name: &str| list.iter().find(|knife| knife["name"] == name).unwrap();
    let rooms: Vec<f64> = ["dear", "cheapest", "middle"]
        .map(|name| of(name)["room_deg"].as_f64().unwrap())
        .to_vec();
    assert!(
        (1e-9..1e-5).contains(&(rooms[2] - rooms[0]).abs()),
        "{rooms:?}"
    );
    let rank = |name: &str| of(name)["rank"].as_u64().unwrap();
    assert_eq!(
        (rank("cheapest") + 1, rank("middle"), rank("dear")),
        (rank("middle"), rank("dear") - 1, rank("dear")),
    );
    let (_, ranking) = ranked(&document(&text));
    let told = |name: &str| {
        let begins = format!("\"{name}\"");
        let told = ranking
            .sentences
            .iter()
            .find(|told| told.starts_with(&begins));
        told.unwrap().clone()
    };
    assert!(
        told("cheapest").ends_with("Same room as \"middle\", 10.50 cheaper."),
        "{}",
        told("cheapest")
    );
    assert!(
        told("dear").ends_with("Same room as \"cheapest\", 16.50 dearer."),
        "{}",
        told("dear")
    );
}

#[test]
fn no_tie_is_told_of_knives_that_do_not_pass() {
    let text = tied(&[("heavy", "1.6 in", "61.00"), ("twin", "1.6 in", "")]);
    let told = |text: &str| {
        let (_, ranking) = ranked(&document(text));
        let mut told = ranking.sentences.into_iter();
        told.find(|told| told.starts_with("\"heavy\"")).unwrap()
    };
    assert!(told(&text).contains("Same room as"), "{}", told(&text));
    // So much room no knife leaves.
    let out = text.replace("limits: None,", "limits: Some((room: \"60 deg\")),");
    assert!(told(&out).contains("does not pass"), "{}", told(&out));
    assert!(!told(&out).contains("Same room as"), "{}", told(&out));
}

#[test]
fn rooms_that_differ_by_less_than_their_own_uncertainty_are_a_tie() {
    let text = tied(&[("long", "1.62 in", "44.50"), ("short", "1.60 in", "61.00")]);
    let sure = document(&text);
    let unsure = document(&text.replace(
        "height_of_cut: \"0.5 in\"",
        "height_of_cut: \"0.5 in ± 0.02 in\"",
    ));
    let first_of = |document: &Document| {
        let (rows, ranking) = ranked(document);
        let places = ranking.ranks.order.iter();
        let mut names = places.map(|&place| rows[place].name.clone());
        names
            .find(|name| name == "long" || name == "short")
            .unwrap()
    };
    assert_eq!(first_of(&sure), "short");
    assert_eq!(first_of(&unsure), "long");
}

#[test]
fn the_uncertainty_of_a_room_is_what_moving_the_readings_shows() {
    let document = DemoUnit::KnifeChoice.document();
    let row_of = |document: &Document| table(&Solved::of(document).unwrap()).remove(0);
    let exact = row_of(&document);
    let move_by = |part: f64| {
        let mut moved = document.clone();
        let bench = &mut moved.bench;
        let mut squares = 0.0;
        let before = exact.room().deg();
        let behind = bench.behind_centre.value();
        bench.behind_centre = Quantity::exactly(
            behind + Length::from_inches(0.02 * part),
            System::InchDecimal,
        );
        squares += (row_of(&moved).room().deg() - before).powi(2);
        moved = document.clone();
        let attitude = moved.bench.attitude.value();
        moved.bench.attitude =
            Quantity::exactly(attitude + Angle::from_deg(0.25 * part), System::InchDecimal);
        squares += (row_of(&moved).room().deg() - before).powi(2);
        moved = document.clone();
        let diameter = moved.bench.reel_diameter.value();
        moved.bench.reel_diameter = Quantity::exactly(
            diameter + Length::from_inches(0.005 * part),
            System::InchDecimal,
        );
        squares += (row_of(&moved).room().deg() - before).powi(2);
        moved = document.clone();
        let height = moved.bench.height_of_cut.value();
        let more = Length::from_inches(0.002 * part);
        moved.setting.height_of_cut = Some(Quantity::exactly(height + more, System::InchDecimal));
        moved.bench.height_of_cut = Quantity::exactly(height + more, System::InchDecimal);
        squares += (row_of(&moved).room().deg() - before).powi(2);
        squares.sqrt()
    };
    // Half-widths over √3, the root of the sum of squares (JCGM 100:2008, 4.3.7 and 5.1.2), and twice
    // that at the most: 1.65 times where one reading dominates.
    let small = 0.01;
    let standard = move_by(small) / small / 3_f64.sqrt();
    let factor = exact.judgement.off.whole.deg() / standard;
    assert!((1.64..2.02).contains(&factor), "{factor}");
}

// What a knife must be to fit.

fn verdict_of(text: &str, name: &str) -> (Verdict, Vec<&'static str>, String) {
    let solved = Solved::of(&document(text)).unwrap();
    let rows = table(&solved);
    let ranking = rank(&rows, &solved, solved.unit.system);
    let row = rows.iter().find(|row| row.name == name).unwrap();
    let begins = format!("\"{name}\"");
    let told = ranking
        .sentences
        .iter()
        .find(|told| told.starts_with(&begins));
    let against = row.judgement.against.iter().map(|against| against.id());
    (
        row.judgement.verdict,
        against.collect(),
        told.unwrap().clone(),
    )
}

fn with_option(fields: &str) -> String {
    clear_example(&[("options: [", &format!("options: [({fields}), "))])
}

#[test]
fn a_knife_in_one_place_with_the_rear_roller_does_not_fit() {
    let wide = "name: \"wide\", reach: \"1.5 in\", width: \"4 in\", lip_thickness: \"0.12 in\", lip_length: \"0.5 in\", body_thickness: \"0.25 in\"";
    let text = with_option(wide);
    let (verdict, against, told) = verdict_of(&text, "wide");
    assert_eq!(verdict, Verdict::DoesNotFit, "{told}");
    assert!(against.contains(&"rollers"), "{against:?}");
    let sentence = "no attitude works for the rollers to clear the knife";
    assert!(told.contains(sentence), "{told}");
    // So does the report say with the knife fitted.
    let mut unit = document(&text);
    unit.fit_knife(Fitted::Option(0));
    let report = Report::of(&Solved::of(&unit).unwrap()).to_json();
    assert!(
        report.contains("The rear roller and the knife overlap by"),
        "{report}"
    );
    assert_eq!(verdict_of(&text, "plain").0, Verdict::Fits);
}

/// The example with a rear roller that is clear of the reel, its centre so far behind the edge.
fn with_roller_behind(behind: &str) -> Document {
    let roller = format!("diameter: \"2 in\", behind: \"{behind}\"");
    document(&example(&[
        ("diameter: \"2.5 in\", behind: \"3.25 in\"", &roller),
        ("turf: Fairway,", "turf: Rough,"),
    ]))
}

/// Whether the report says that a roller and the knife are in one place.
fn overlap_in_report(document: &Document) -> bool {
    let report = Report::of(&Solved::of(document).unwrap()).to_json();
    report.contains("roller and the knife overlap by")
}

#[test]
fn a_roller_in_the_knife_over_a_part_of_the_attitudes_ends_what_can_be_set() {
    const ASIDE_DEG: f64 = 0.005;
    let mut tried = 0;
    for behind in ["3.3 in", "3.35 in", "3.4 in", "3.45 in", "3.5 in"] {
        let document = with_roller_behind(behind);
        let solved = Solved::of(&document).unwrap();
        for row in table(&solved) {
            let windows = row.life.iter().flat_map(|reel| {
                let of_reel = reel.windows.iter();
                of_reel.map(|window| (reel.diameter, *window))
            });
            let ends = windows.flat_map(|(diameter, window)| {
                [
                    (diameter, window.low, -1.0, window.low_limit),
                    (diameter, window.high, 1.0, window.high_limit),
                ]
            });
            let of_life = row.set_once.iter().flat_map(|range| {
                [(range.low, -1.0), (range.high, 1.0)]
                    .map(|(end, out)| (end.diameter, end.at, out, end.limit))
            });
            for (diameter, at, out, limit) in ends.chain(of_life) {
                if limit != Limit::Rollers {
                    continue;
                }
                let is_past = |aside: f64| {
                    let at_deg = at.deg() + out * aside;
                    overlap_in_report(&fitted(&document, row.knife, diameter, at_deg))
                };
                assert!(!is_past(-ASIDE_DEG), "{behind}, {} inside", row.name);
                assert!(is_past(ASIDE_DEG), "{behind}, {} outside", row.name);
                tried += 1;
            }
            // Nowhere in what is set once does the report find them in one place.
            let Some(range) = row.set_once else { continue };
            for at in steps(range.low.at.deg() + 1e-6, range.high.at.deg() - 1e-6, 12) {
                for life in Life::ALL {
                    let diameter = life.diameter(&solved.unit);
                    let fitted = fitted(&document, row.knife, diameter, at);
                    assert!(
                        !overlap_in_report(&fitted),
                        "{behind}, {} at {at}",
                        row.name
                    );
                }
            }
        }
    }
    assert!(tried >= 10, "{tried}");
}

#[test]
fn how_far_a_roller_border_can_be_off_decides_a_verdict_too() {
    let unit = with_roller_behind("3.4 in");
    let solved = Solved::of(&unit).unwrap();
    let row = table(&solved).remove(0);
    let range = row.set_once.unwrap();
    assert!(
        [range.low.limit, range.high.limit].contains(&Limit::Rollers),
        "{range:?}"
    );
    assert!(row.judgement.off.by_readings == Angle::ZERO);
    let mut unsure = unit.clone();
    Field::from(Reading::RearBehind)
        .set(&mut unsure, "3.4 in ± 0.04 in", System::InchDecimal)
        .unwrap();
    let row = table(&Solved::of(&unsure).unwrap()).remove(0);
    // By difference: half of it either way moves the border, the other end stands.
    let room_at = |behind: &str| table(&Solved::of(&with_roller_behind(behind)).unwrap())[0].room();
    let moved = (room_at("3.401 in").deg() - room_at("3.399 in").deg()).abs() / 0.002;
    // One evenly spread reading: 95 % of its half-width.
    let expected = 0.95 * 0.04 * moved;
    let off = row.judgement.off.by_readings.deg();
    assert!(
        (off - expected).abs() < 0.02 * expected,
        "{off}: {expected}"
    );
}

#[test]
fn a_knife_that_cannot_be_does_not_fit() {
    let knife = |reach: &str, width: &str, body: &str| {
        with_option(&format!(
            "name: \"odd\", reach: \"{reach}\", width: \"{width}\", lip_thickness: \"0.12 in\", lip_length: \"0.5 in\", body_thickness: \"{body}\""
        ))
    };
    let crossed = "its reach is not less than its width: check both";
    let thin = "its body thickness is less than any knife has: check it";
    // A slip of units beside it: reel and knife do not meet either, and both are told.
    for (reach, width, body, id, sentence) in [
        ("2.5 in", "2.5 in", "0.25 in", "reach_over_width", crossed),
        ("30 in", "3 in", "0.25 in", "reach_over_width", crossed),
        ("1.5 in", "2.5 in", "0.010 in", "body_thickness", thin),
    ] {
        let (verdict, against, told) = verdict_of(&knife(reach, width, body), "odd");
        assert_eq!(verdict, Verdict::DoesNotFit, "{told}");
        assert!(against.contains(&id), "{id}: {against:?}");
        assert!(told.contains(sentence), "{told}");
        let distinct: BTreeSet<_> = against.iter().collect();
        assert_eq!(distinct.len(), against.len(), "{against:?}");
        assert_eq!(against.contains(&"reach"), reach == "30 in", "{against:?}");
    }
    assert_eq!(
        verdict_of(&knife("1.5 in", "2.5 in", "0.25 in"), "odd").0,
        Verdict::Fits
    );
}

#[test]
fn a_knife_that_leaves_less_than_the_least_room_does_not_fit() {
    // A lean that is not entered would leave the room open.
    let lean = (
        "closing: ReelSlides(lean: None)",
        "closing: ReelSlides(lean: Some(\"5 deg\"))",
    );
    let solved = Solved::of(&document(&clear_example(&[lean]))).unwrap();
    let room = table(&solved)[0].room().deg();
    let with = |least: f64| {
        let limits = format!("limits: Some((room: \"{least} deg\")),");
        clear_example(&[lean, ("limits: None,", &limits)])
    };
    assert_eq!(verdict_of(&with(room - 0.01), "plain").0, Verdict::Fits);
    let (verdict, against, told) = verdict_of(&with(room + 0.01), "plain");
    assert_eq!(verdict, Verdict::DoesNotFit);
    assert!(!against.is_empty());
    let wanted = format!("at least {:.2}° wanted", room + 0.01);
    assert!(told.contains(&wanted), "{told}");
    // Within the readings' own ± nobody can tell.
    let unsure = with(room + 0.01).replace(
        "height_of_cut: \"0.5 in\"",
        "height_of_cut: \"0.5 in ± 0.02 in\"",
    );
    let (verdict, _, told) = verdict_of(&unsure, "plain");
    assert_eq!(verdict, Verdict::CannotTell, "{told}");
    assert!(told.contains(" is undecided: "), "{told}");
}

#[test]
fn room_counts_inside_what_the_brackets_allow_alone() {
    let limits = r#"limits: Some((attitude_range: Some((low: "3 deg", high: "5.5 deg")))),"#;
    let (_folder, file) = written("unit.ron", &clear_example(&[("limits: None,", limits)]));
    for knife in json_list(&file, &[]) {
        assert_eq!(knife["set_once"]["low_deg"], 3.0);
        assert_eq!(knife["set_once"]["high_deg"], 5.5);
        assert_eq!(knife["room_deg"], 2.5);
    }
}

/// One end of it cuts 0.4 in lower than the other, so that the underside reaches the ground first.
fn leaning_over() -> String {
    clear_example(&[(
        "limits: None,",
        "wear: (end_difference: \"0.4 in\"), limits: None,",
    )])
}

/// The findings over limit in a report with which no knife can be run.
fn excluding_in_report(document: &Document) -> Vec<FindingId> {
    let over = |id: &FindingId| {
        id.excludes_knife() && level_in_report(document, id.id()).as_deref() == Some("over")
    };
    FindingId::ALL.into_iter().filter(over).collect()
}

#[test]
fn what_is_set_once_is_over_no_limit_in_the_report_from_one_end_of_it_to_the_other() {
    let demo_units = DemoUnit::files()
        .into_iter()
        .map(|file| sweepgauge::store::open_unit(&file).unwrap());
    let mut looked_at = 0;
    for document in demo_units.chain([document(&leaning_over())]) {
        let solved = Solved::of(&document).unwrap();
        for row in table(&solved) {
            let Some(range) = row.set_once else { continue };
            for life in Life::ALL {
                let diameter = life.diameter(&solved.unit);
                let (low, high) = (range.low.at.deg() + 1e-6, range.high.at.deg() - 1e-6);
                for at in steps(low, high, 6) {
                    let fitted = fitted(&document, row.knife, diameter, at);
                    let over = excluding_in_report(&fitted);
                    assert_eq!(over, [], "{} at {at}, {life:?}", row.name);
                    looked_at += 1;
                }
            }
        }
    }
    assert!(looked_at > 100, "{looked_at}");
}

#[test]
fn the_low_side_ends_what_can_be_set_once() {
    let document = document(&leaning_over());
    let solved = Solved::of(&document).unwrap();
    let rows = table(&solved);
    let plain = rows.iter().find(|row| row.name == "plain").unwrap();
    let range = plain.set_once.unwrap();
    assert_eq!(range.low.limit, Limit::LowEndUnderside);
    // By hand: hardware 0.3 in below the edge, its end half of 0.4 in down: at 0° it touches at 0.5 in.
    assert!(range.low.at.deg().abs() < 1e-9, "{range:?}");
    let just_below = fitted(
        &document,
        Fitted::Bench,
        range.low.diameter,
        range.low.at.deg() - 0.001,
    );
    let over = excluding_in_report(&just_below);
    assert_eq!(over, [FindingId::LowEndUnderside]);
}

#[test]
fn a_knife_whose_top_face_or_lip_is_over_limit_everywhere_does_not_fit() {
    let knife = |lip: &str, more: &str| {
        with_option(&format!(
            "name: \"odd\", reach: \"1.5 in\", width: \"2.5 in\", lip_thickness: \"{lip}\", lip_length: \"0.5 in\", body_thickness: \"0.25 in\", {more}"
        ))
    };
    let told_of = |text: &str| verdict_of(text, "odd");
    // The reel needs about -1°: 5° from edge to centre are more than the attitude of 4°.
    let relieved = |top_angle: &str| knife("0.12 in", &format!("top_angle: \"{top_angle}\""));
    let (verdict, against, told) = told_of(&relieved("-3 deg"));
    assert_eq!((verdict, against), (Verdict::DoesNotFit, vec!["top_face"]));
    let sentence = "no attitude works for the top face to clear the reel";
    assert!(told.contains(sentence), "{told}");
    assert_eq!(told_of(&relieved("-3 deg ± 3 deg")).0, Verdict::CannotTell);
    assert_eq!(told_of(&relieved("1 deg")).0, Verdict::Fits);
    let ground = |by: &str| knife("0.12 in", &format!("top_ground: \"{by}\""));
    let (verdict, against, told) = told_of(&ground("0.13 in"));
    assert_eq!((verdict, against), (Verdict::DoesNotFit, vec!["lip"]));
    assert!(told.contains("no attitude works for the lip"), "{told}");
    assert_eq!(told_of(&ground("0.03 in")).0, Verdict::Fits);
}

#[test]
fn a_lean_that_is_not_entered_leaves_a_verdict_open_and_a_tie_as_it_is() {
    // By the report: with the line from edge to centre for its slide the room is 10.35°, with a slide
    // of -6° or 14° less than 10.3°.
    let with = |lean: &str| {
        let closing = format!("closing: ReelSlides(lean: {lean})");
        let text = clear_example(&[
            ("closing: ReelSlides(lean: None)", closing.as_str()),
            ("limits: None,", "limits: Some((room: \"10.3 deg\")),"),
        ]);
        let solved = Solved::of(&document(&text)).unwrap();
        let rows = table(&solved);
        let rests_on = rests_on(&solved.document, System::InchDecimal).join(" ");
        let (verdict, _, told) = verdict_of(&text, "plain");
        (verdict, rows[0].judgement.off, told, rests_on)
    };
    for lean in ["Some(\"-6 deg\")", "Some(\"14 deg\")"] {
        let (verdict, off, told, rests_on) = with(lean);
        assert_eq!(verdict, Verdict::DoesNotFit, "{told}");
        assert!(off.whole == Angle::ZERO, "{off:?}");
        assert!(!rests_on.contains("lean"), "{rests_on}");
    }
    let (verdict, off, told, rests_on) = with("None");
    assert_eq!(verdict, Verdict::CannotTell, "{told}");
    assert!(
        off.whole > Angle::ZERO && off.by_readings == Angle::ZERO,
        "{off:?}"
    );
    assert!(told.contains(" ± "), "{told}");
    assert!(rests_on.contains("lean is not entered"), "{rests_on}");
}
