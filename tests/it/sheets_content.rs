//! What stands on every kind of sheet: the numbers of `--json` to the shown digits, what is signed, and
//! no letter that would be a box.

use std::path::Path;

use serde_json::Value as Json;
use sweepgauge::analysis::why::Complaint;
use sweepgauge::analysis::{Acceptable, Acceptance, Accepted, FindingId, Level, NumberId, Solved};
use sweepgauge::drawing::{
    Complained, Mark, Origin, Page, PictureView, Sheet, SheetKind, Standing, Theme, letters,
    view_picture,
};
use sweepgauge::printing::SheetAsked;
use sweepgauge::unit::Document;
use sweepgauge::units::{Angle, Length, Quantity, System, Value};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::program::program;

fn json(arguments: &[&str], unit: &Path) -> Json {
    let run = program().args(arguments).arg(unit).output().unwrap();
    assert!(run.status.success(), "{run:?}");
    serde_json::from_slice(&run.stdout).unwrap()
}

/// All that stands on a sheet, its pages one after the other.
fn printed(unit: DemoUnit, arguments: &[&str]) -> String {
    let shop = TempDir::new().unwrap();
    let out = shop.path().join("sheet.pdf");
    let mut command = program();
    command
        .arg("sheet")
        .arg(unit.file())
        .arg(&out)
        .args(arguments);
    let run = command.output().unwrap();
    assert!(run.status.success(), "{run:?}");
    let pdf = Pdf::read(&std::fs::read(&out).unwrap());
    (1..=pdf.pages()).map(|page| pdf.text(page)).collect()
}

fn length(value: &Json) -> Length {
    Length::from_mm(value.as_f64().expect("millimetres"))
}

fn angle(value: &Json) -> Angle {
    Angle::from_deg(value.as_f64().expect("degrees"))
}

#[test]
fn the_decision_sheet_has_the_numbers_of_the_table() {
    let mut ranges = 0;
    for unit in DemoUnit::ALL {
        let system = unit.document().system();
        let text = printed(unit, &["--kind", "knives"]);
        let knives = json(&["knives", "--json"], &unit.file());
        for knife in knives.as_array().unwrap() {
            let range = match knife["set_once"].as_object() {
                None => "none".to_owned(),
                Some(range) => {
                    ranges += 1;
                    let [low, high] = ["low_deg", "high_deg"].map(|key| angle(&range[key]));
                    format!("{} to {}", system.angle(low), system.angle(high))
                }
            };
            let row = packed(&format!(
                "{range}{}",
                system.angle(angle(&knife["room_deg"]))
            ));
            assert!(text.contains(&row), "{unit:?}: {row} in {text}");
            let name = packed(knife["name"].as_str().unwrap());
            let rank = format!("{}{name}", knife["rank"]);
            assert!(text.contains(&rank), "{unit:?}: {rank} in {text}");
        }
    }
    assert!(ranges > 6, "{ranges}");
}

#[test]
fn the_why_sheet_has_the_numbers_of_its_causes_budgets_and_crests() {
    let complaint = Complaint::AllOver;
    let (mut crests, mut shares) = (0, 0);
    for unit in DemoUnit::ALL {
        let system = unit.document().system();
        let asked = ["--complaint", complaint.id()];
        let text = printed(unit, &[&["--kind", "why"], &asked[..]].concat());
        let why = json(&[&["why", "--json"], &asked[..]].concat(), &unit.file());
        for step in ["budget", "underside_budget"]
            .iter()
            .flat_map(|budget| why[budget].as_array().unwrap())
        {
            if step["reading"] == "not measured" {
                assert!(text.contains('–'), "{unit:?}: {step}");
                continue;
            }
            let shown = system.in_column(length(&step["mm"]));
            // The unit of a number is left out in a narrow column.
            let number = shown.rsplit_once(' ').unwrap().0;
            assert!(text.contains(number), "{unit:?}: {number} in {text}");
        }
        for key in ["crest_to_scalp_mm", "crest_to_drag_mm"] {
            if !why[key].is_null() {
                crests += 1;
                let radius = packed(&format!(
                    "tighter than {}",
                    system.radius(length(&why[key]))
                ));
                assert!(text.contains(&radius), "{unit:?}: {radius} in {text}");
            }
        }
        let mut before = f64::INFINITY;
        for (number, cause) in (1..).zip(why["causes"].as_array().unwrap()) {
            let (name, word) = (cause["name"].as_str(), cause["word"].as_str());
            let name = name.map_or_else(String::new, packed);
            assert!(text.contains(&packed(word.unwrap())), "{unit:?}: {word:?}");
            for told in ["text", "confirm"] {
                let told = packed(cause[told].as_str().unwrap());
                assert!(text.contains(&told), "{unit:?}: {told} in {text}");
            }
            assert!(text.contains(&format!("{number}.{name}")), "{unit:?}");
            if let Some(strength) = cause["strength"].as_f64() {
                shares += 1;
                let share = format!("{:.0}%ofwhatittakes", 100.0 * strength);
                let share = if strength > 0.0 { share } else { String::new() };
                assert!(text.contains(&share), "{unit:?}: {share} in {text}");
                assert!(strength <= before, "{unit:?}: the strongest stands first");
                before = strength;
            }
        }
    }
    assert!(crests > 8 && shares > 16, "{crests} {shares}");
}

#[test]
fn every_cure_on_the_why_sheet_tells_whether_it_ends_at_its_limit_or_its_aim() {
    let mut found = 0;
    for unit in DemoUnit::ALL {
        let solved = Solved::of(&unit.document()).unwrap();
        for sheet in sheets(&solved, SheetKind::Why, Page::ALL[0], solved.unit.system) {
            for text in texts(&sheet) {
                let told = text.contains(" the front roller ") && text.contains("; ");
                if !told {
                    continue;
                }
                found += 1;
                let ends = [
                    "to its OK limit",
                    "to its over limit",
                    "inside its OK limit",
                    "inside its over limit",
                    "to its aim",
                    "limit, which it meets",
                ];
                assert!(
                    ends.iter().any(|end| text.contains(end)),
                    "{unit:?}: {text}"
                );
            }
        }
    }
    assert!(found > 0);
}

#[test]
fn true_scale_says_the_scale_and_the_numbers_that_are_drawn() {
    for unit in DemoUnit::ALL {
        let text = printed(unit, &["--kind", "true-scale"]);
        let report = json(&["report", "--json"], &unit.file());
        let id = NumberId::SweepBelowCut;
        let (part, key) = id.id().split_once('.').unwrap();
        let base = report[part][key].as_f64().unwrap();
        let sweep = packed(&id.value(base).shown_in(unit.document().system()));
        assert!(text.contains(&sweep), "{unit:?}: {sweep} in {text}");
    }
}

#[test]
fn a_least_clearance_is_told_with_its_value() {
    let mut told = 0;
    for unit in DemoUnit::ALL {
        let solved = Solved::of(&unit.document()).unwrap();
        for system in System::ALL {
            let least = packed(&system.length(solved.unit.limits.underside));
            for page in Page::ALL {
                for kind in [SheetKind::Setting, SheetKind::Why] {
                    for sheet in sheets(&solved, kind, page, system) {
                        let texts = texts(&sheet);
                        for (at, _) in texts
                            .iter()
                            .enumerate()
                            .filter(|(_, text)| **text == "minimum" || text.starts_with("minimum "))
                            // The name of another length, over two lines.
                            .filter(|(_, text)| !text.starts_with("minimum (scrap)"))
                        {
                            told += 1;
                            let here: String = texts[at..]
                                .iter()
                                .take(3)
                                .map(|text| packed(text))
                                .collect();
                            let column = packed(&system.in_column(solved.unit.limits.underside));
                            assert!(
                                here.contains(&least) || here.contains(&column),
                                "{unit:?} {page:?} {kind:?}: {here}"
                            );
                        }
                    }
                }
            }
        }
    }
    assert!(told > 80, "{told}");
}

fn sheets(solved: &Solved, kind: SheetKind, page: Page, system: System) -> Vec<Sheet> {
    let asked = SheetAsked {
        kind,
        page,
        complained: Complained::default(),
    };
    asked.sheets(solved, &Origin::default(), system)
}

fn texts(sheet: &Sheet) -> Vec<&str> {
    sheet.words().collect()
}

#[test]
fn the_setting_sheet_has_its_acceptance_and_lines_to_sign() {
    let (mut ranges, mut unsigned) = (0, 0);
    for unit in DemoUnit::ALL {
        let solved = Solved::of(&unit.document()).unwrap();
        let accepted = Acceptance::of(&solved);
        for system in System::ALL {
            let sheets = sheets(&solved, SheetKind::Setting, Page::Letter, system);
            let [sheet] = &sheets[..] else {
                panic!("{unit:?}: {} pages", sheets.len());
            };
            let texts = texts(sheet);
            for wanted in ["Serial number", "Set", "Date", "By", "Notes"] {
                assert!(texts.contains(&wanted), "{unit:?}: {wanted}");
            }
            // A unit over its limit is not to be set: nobody signs for it.
            let to_sign = [
                "findings OK at",
                "left",
                "right",
                "Agreed: off by at most",
                "Set by",
                "Signature",
            ];
            let Some(accepted) = &accepted else {
                assert_eq!(solved.findings.worst(), Level::Over, "{unit:?}");
                assert!(
                    to_sign.iter().all(|line| !texts.contains(line)),
                    "{unit:?}: {texts:?}"
                );
                unsigned += 1;
                continue;
            };
            for wanted in to_sign {
                assert!(texts.contains(&wanted), "{unit:?}: {wanted}");
            }
            let all = texts.join("\n");
            if let Acceptable::Between(range) = &accepted.attitude
                && let Some(Accepted {
                    least: Some(least),
                    most: Some(most),
                }) = range.as_read_in(system)
            {
                let range = format!("{} to {}", least.shown_in(system), most.shown_in(system));
                assert!(all.contains(&range), "{unit:?}: {range}");
                ranges += 1;
            }
            let gap = system.length(accepted.gap_most);
            assert!(all.contains(&gap), "{unit:?}: {gap}");
            // Two lines to write on for each of four readings, and four more.
            let lines = sheet.panels.iter().flat_map(|panel| &panel.marks).filter(
                |mark| matches!(mark, Mark::Stroke { path, .. } if path.elements().len() == 2),
            );
            assert!(lines.count() > 9, "{unit:?}");
        }
    }
    assert!(ranges > 0 && unsigned > 0, "{ranges}, {unsigned}");
}

/// Attitude and height of cut as a unit is set.
fn as_set(solved: &Solved) -> (Quantity<Angle>, Quantity<Length>) {
    let pose = &solved.solution.pose;
    (
        Quantity::parse(&format!("{:.9} deg", pose.attitude.deg())).unwrap(),
        Quantity::parse(&format!("{:.9} mm", pose.height_of_cut.mm())).unwrap(),
    )
}

#[test]
fn what_the_setting_sheet_accepts_the_report_calls_ok() {
    let mut ends = 0;
    for unit in DemoUnit::ALL {
        let solved = Solved::of(&unit.document()).unwrap();
        let Some(accepted) = Acceptance::of(&solved) else {
            continue;
        };
        let [attitudes, heights] = [&accepted.attitude, &accepted.height_of_cut].map(|it| {
            let ranges = match it {
                Acceptable::Between(range) => vec![*range],
                Acceptable::Not { elsewhere, .. } => elsewhere.clone(),
            };
            let ranges = ranges
                .into_iter()
                .filter_map(|range| range.as_read_in(solved.unit.system));
            let ends = ranges.flat_map(|range| [range.least, range.most]);
            ends.flatten().collect::<Vec<_>>()
        });
        // What the reading moves is OK at each end, to the digits that stand on paper; what it does not
        // move is as it was.
        let is_ok = |document: &Document| {
            let then = Solved::of(document).unwrap();
            for finding in then.findings.iter() {
                let now = solved.findings.get(finding.id);
                let is_as_before = now.is_some_and(|now| {
                    (now.level, now.doubt.is_some()) == (finding.level, finding.doubt.is_some())
                });
                let is_ok = finding.level == Level::Fine && finding.doubt.is_none();
                let stays = [
                    FindingId::Gap,
                    FindingId::Scrap,
                    FindingId::Clip,
                    FindingId::RunoutSwing,
                ];
                assert!(
                    is_ok || is_as_before && stays.contains(&finding.id),
                    "{unit:?}: {}",
                    finding.shown_in(then.unit.system)
                );
            }
        };
        for end in attitudes {
            let mut document = unit.document();
            let Value::Angle(attitude) = end else {
                panic!("{end:?}");
            };
            let text = format!("{:.6} deg", attitude.deg());
            document.setting.attitude = Some(Quantity::parse(&text).unwrap());
            if document.setting.rollers.take().is_some() {
                document.setting.height_of_cut = Some(as_set(&solved).1);
            }
            is_ok(&document);
            ends += 1;
        }
        for end in heights {
            let mut document = unit.document();
            let text = format!("{:.6} mm", end.base());
            document.setting.height_of_cut = Some(Quantity::parse(&text).unwrap());
            if document.setting.rollers.take().is_some() {
                document.setting.attitude = Some(as_set(&solved).0);
            }
            is_ok(&document);
            ends += 1;
        }
    }
    assert!(ends > 8, "{ends}");
}

#[test]
fn no_letter_that_no_font_has_reaches_paper() {
    // Of the private use area: what every letter is where the system has no fonts.
    const LOST: &str = "\u{10fffd}\u{10fffc} 3";
    let (mut pages, mut said) = (0, 0);
    for unit in DemoUnit::ALL {
        let mut document: Document = unit.document();
        LOST.clone_into(&mut document.name);
        document.serial = Some(LOST.to_owned());
        document.set = Some(LOST.to_owned());
        for knife in &mut document.options {
            knife.name = format!("{LOST} {}", knife.name);
            knife.price = knife.price.as_ref().map(|price| format!("{price} {LOST}"));
        }
        document.knife.name = LOST.to_owned();
        let solved = Solved::of(&document).unwrap();
        let of_kinds = SheetKind::ALL
            .into_iter()
            .flat_map(|kind| sheets(&solved, kind, Page::A4, System::Millimetre));
        let pictures = PictureView::ALL.into_iter().filter_map(|view| {
            let light = Theme::Light;
            view_picture(&solved, view, Standing::Plate, System::Millimetre, light).ok()
        });
        for sheet in of_kinds.chain(pictures) {
            pages += 1;
            for text in texts(&sheet) {
                said += usize::from(text.contains("letters that cannot be shown here"));
                let is_lost = |c: char| ('\u{100000}'..='\u{10ffff}').contains(&c);
                assert!(
                    !text.contains(is_lost),
                    "{unit:?} {}: {text:?}",
                    sheet.title
                );
                assert_eq!(letters::readable(text), text, "{unit:?} {}", sheet.title);
            }
        }
    }
    assert!(pages > 80 && said > pages, "{pages} {said}");
}
