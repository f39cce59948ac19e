//! Sheets and pictures to print: what stands on paper is true to size, to the numbers and to the file,
//! none of its words stands on another, and it can be read by everybody.

use std::cell::Cell;
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;

use kurbo::{BezPath, PathEl, Rect, Shape as _};
use serde_json::Value as Json;
use sha2::{Digest as _, Sha256};
use sweepgauge::analysis::why::{BudgetOf, Complaint};
use sweepgauge::analysis::{CAUTION, NumberId, Solved};
use sweepgauge::drawing::{
    Awaited, Complained, Mark, Origin, Page, PdfBook, PictureView, Role, Sheet, SheetKind,
    Standing, Theme, view_picture,
};
use sweepgauge::printing::{
    PictureFormat, Progress, Resolution, SheetAsked, bound, bound_sheet, folder_book, origin_of,
    picture_bytes,
};
use sweepgauge::store::open_with_digest;
use sweepgauge::unit::{Document, Looked};
use sweepgauge::units::System;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::program::program;
use crate::lettering::faults;

fn solved(document: &Document) -> Solved {
    Solved::of(document).expect("solves")
}

fn origin() -> Origin {
    Origin {
        file: Some("unit.ron".to_owned()),
        digest: Some("01234567".to_owned()),
        is_changed: false,
        ..Origin::default()
    }
}

fn asked(kind: SheetKind, page: Page) -> SheetAsked {
    SheetAsked {
        kind,
        page,
        complained: Complained {
            complaint: (kind == SheetKind::Why).then_some(Complaint::Ribs),
            spacing: None,
        },
    }
}

fn pdf_of(sheets: &[Sheet]) -> Pdf {
    Pdf::read(&bound("a unit", sheets).expect("a PDF"))
}

/// Names that are hard to set: as long as one may be, of one word, from right to left, with marks over
/// their letters, and of letters that no font has.
const NAMES: [&str; 4] = [
    "مرج الوادي ٣",
    "gre\u{301}ens n\u{303}o. 3 e\u{302}\u{301}",
    "芝生 三号",
    "\u{10fffd}\u{10fffc} three",
];

fn named(document: &Document, name: &str) -> Document {
    let mut named = document.clone();
    name.clone_into(&mut named.name);
    named
}

// The numbers.

#[test]
fn the_setting_sheet_writes_no_number_for_what_was_not_measured() {
    let mut all = 0;
    for unit in DemoUnit::ALL {
        let solved = solved(&unit.document());
        let case = solved.case();
        let unmeasured: usize = BudgetOf::ALL
            .iter()
            .map(|part| {
                let budget = part.of(&case);
                let steps = budget.steps.iter();
                let looked = steps.filter_map(|step| budget.none_of(step.kind));
                looked.filter(|looked| *looked == Looked::NotYet).count()
            })
            .sum();
        let sheets =
            asked(SheetKind::Setting, Page::A4).sheets(&solved, &origin(), System::Millimetre);
        let says = |marks: &[Mark], words: &str| {
            let is_it = |mark: &&Mark| matches!(mark, Mark::Text { text, .. } if text == words);
            marks.iter().filter(is_it).count()
        };
        // The drawing's key says it of its lighter pen.
        let panels = sheets.iter().flat_map(|sheet| &sheet.panels);
        let beside_the_key = panels.filter(|panel| says(&panel.marks, "the rest in view") == 0);
        let said: usize = beside_the_key
            .map(|panel| says(&panel.marks, "not measured"))
            .sum();
        assert_eq!(said, unmeasured, "{unit:?}");
        all += unmeasured;
    }
    assert!(all > 0, "some unit has a step that was not measured");
}

#[test]
fn every_plot_over_the_reels_life_shows_its_knives() {
    for unit in DemoUnit::ALL {
        let solved = solved(&unit.document());
        let sheets =
            asked(SheetKind::Knives, Page::A4).sheets(&solved, &origin(), System::Millimetre);
        // A plot's lines stand on a panel of their own: limits, the reel's diameter, the knives.
        let is_of_plot =
            |role: &Role| matches!(role, Role::Datum | Role::CentreLine | Role::Overlay(_));
        let mut plots = 0;
        for panel in sheets.iter().flat_map(|sheet| &sheet.panels) {
            let strokes: Vec<(&Role, Rect)> = panel
                .marks
                .iter()
                .filter_map(|mark| match mark {
                    Mark::Stroke { role, path, .. } => Some((role, path.bounding_box())),
                    _ => None,
                })
                .collect();
            if strokes.len() < panel.marks.len()
                || !strokes.iter().all(|(role, _)| is_of_plot(role))
            {
                continue;
            }
            if !strokes.iter().any(|(role, _)| **role == Role::CentreLine) {
                continue;
            }
            plots += 1;
            let shown = strokes.iter().filter(|(role, place)| {
                matches!(role, Role::Overlay(_)) && panel.window.overlaps(*place)
            });
            assert!(shown.count() > 0, "{unit:?}: plot {plots} is empty");
        }
        assert_eq!(plots, 3, "{unit:?}");
    }
}

// The lettering.

#[test]
fn no_words_of_a_sheet_stand_on_others_or_leave_their_paper() {
    let (mut pages, mut all) = (0, Vec::new());
    let long = ["the lower green ".repeat(12), "W".repeat(200)];
    for unit in DemoUnit::ALL {
        let plain = unit.document();
        let mut documents = vec![plain.clone()];
        documents.extend(long.iter().map(|name| named(&plain, name)));
        for (index, document) in documents.iter().enumerate() {
            let solved = solved(document);
            for system in System::ALL {
                for page in Page::ALL {
                    for kind in SheetKind::ALL {
                        let sheets = asked(kind, page).sheets(&solved, &origin(), system);
                        assert!(
                            kind != SheetKind::Setting || sheets.len() == 1,
                            "{unit:?} {page:?} {system:?}: {} pages",
                            sheets.len()
                        );
                        for sheet in &sheets {
                            pages += 1;
                            let paper = sheet.window;
                            let out = sheet
                                .panels
                                .iter()
                                .filter(|panel| paper.union(panel.window) != paper);
                            assert_eq!(out.count(), 0, "{unit:?}: {}", sheet.title);
                            for fault in faults(&sheet.panels) {
                                all.push(format!(
                                    "{unit:?} name {index} {page:?} {system:?} {}: {fault}",
                                    sheet.title
                                ));
                            }
                        }
                    }
                }
            }
        }
    }
    assert!(pages > 600, "{pages}");
    let count = all.len();
    all.truncate(12);
    assert!(count == 0, "{count} of {pages} pages: {all:#?}");
}

#[test]
fn setting_and_why_sheets_take_one_page() {
    for unit in DemoUnit::ALL {
        let solved = solved(&unit.document());
        for system in System::ALL {
            for page in Page::ALL {
                for kind in [SheetKind::Setting, SheetKind::Why] {
                    let sheets = asked(kind, page).sheets(&solved, &origin(), system);
                    assert_eq!(sheets.len(), 1, "{unit:?} {page:?} {kind:?}");
                }
            }
        }
    }
}

#[test]
fn every_letter_of_a_sheet_can_be_read() {
    /// The smallest letters, in points: a rule of thumb for print that is read in the hand.
    const LEAST: f64 = 6.0;
    // 96 paper units are an inch, as 72 points are.
    let points = |size: f64| 0.75 * size;
    let mut small = Vec::new();
    for unit in DemoUnit::ALL {
        let solved = solved(&unit.document());
        for system in System::ALL {
            for page in Page::ALL {
                for kind in SheetKind::ALL {
                    let sheets = asked(kind, page).sheets(&solved, &origin(), system);
                    let marks = sheets.iter().flat_map(|sheet| &sheet.panels);
                    for mark in marks.flat_map(|panel| &panel.marks) {
                        if let Mark::Text { text, size, .. } = mark {
                            let size = points(*size);
                            if size < LEAST - 1e-9 {
                                small.push(format!(
                                    "{unit:?} {page:?} {system:?} {kind:?}: {text} at {size:.2}"
                                ));
                            }
                        }
                    }
                }
            }
        }
    }
    assert!(small.is_empty(), "{}: {small:#?}", small.len());
}

#[test]
fn every_sheet_says_what_makes_it_safe_and_where_it_comes_from() {
    let solved = solved(&DemoUnit::KnifeChoice.document());
    for kind in SheetKind::ALL {
        for sheet in asked(kind, Page::A4).sheets(&solved, &origin(), System::InchDecimal) {
            let words: Vec<&str> = sheet.words().collect();
            let words = packed(&words.join(" "));
            for caution in CAUTION {
                assert!(words.contains(&packed(caution)), "{kind:?}: {caution}");
            }
            for told in ["unit.ron", "01234567", env!("CARGO_PKG_VERSION")] {
                assert!(words.contains(told), "{kind:?}: {told}");
            }
        }
    }
}

// True scale, measured in the PDF.

/// A straight line of one piece.
fn straight(path: &BezPath) -> Option<kurbo::Line> {
    match path.elements() {
        [PathEl::MoveTo(from), PathEl::LineTo(to)] => Some(kurbo::Line::new(*from, *to)),
        _ => None,
    }
}

#[test]
fn true_scale_is_true_in_the_pdfs_own_units() {
    const EXACT_MM: f64 = 0.1;
    for unit in [DemoUnit::FairwayTrailed, DemoUnit::GreensScalping] {
        let solved = solved(&unit.document());
        let reel_mm = solved.unit.setting.reel_diameter.mm();
        for system in System::ALL {
            for page in Page::ALL {
                let sheets = asked(SheetKind::TrueScale, page).sheets(&solved, &origin(), system);
                let pdf = pdf_of(&sheets);
                let (ruler_mm, ticks) = match system {
                    System::Millimetre => (100.0, 101),
                    System::InchDecimal | System::InchFraction => (4.0 * 25.4, 33),
                };
                let mut circles = 0;
                for number in 1..=pdf.pages() {
                    let size = pdf.size_mm(number);
                    let (short, long) = page.sides_mm();
                    let (low, high) = (size.0.min(size.1), size.0.max(size.1));
                    assert!((low - short).abs() < 0.01 && (high - long).abs() < 0.01);
                    let paths = pdf.paths_mm(number);
                    let lines: Vec<_> = paths.iter().filter_map(straight).collect();
                    let ruler = lines.iter().find(|line| {
                        (line.p0.y - line.p1.y).abs() < 1e-3
                            && ((line.p1.x - line.p0.x) - ruler_mm).abs() < EXACT_MM
                    });
                    let ruler = ruler.unwrap_or_else(|| panic!("{unit:?} {page:?}: no ruler"));
                    assert!((ruler.p1.x - ruler.p0.x - ruler_mm).abs() < 0.005);
                    let on_it = |line: &&kurbo::Line| {
                        (line.p0.x - line.p1.x).abs() < 1e-3
                            && (line.p0.y - ruler.p0.y).abs() < 1e-3
                    };
                    let mut feet: Vec<f64> =
                        lines.iter().filter(on_it).map(|line| line.p0.x).collect();
                    feet.sort_by(f64::total_cmp);
                    assert_eq!(feet.len(), ticks);
                    for pair in feet.windows(2) {
                        let step = ruler_mm / f64::from(u32::try_from(ticks - 1).unwrap());
                        assert!((pair[1] - pair[0] - step).abs() < 0.005, "{pair:?}");
                    }
                    circles += paths
                        .iter()
                        .filter(|path| is_circle(path, reel_mm, EXACT_MM))
                        .count();
                }
                assert!(
                    circles > 0,
                    "{unit:?} {page:?} {system:?}: no reel of {reel_mm} mm"
                );
            }
        }
    }
}

/// Whether a path is a whole circle of a diameter.
fn is_circle(path: &BezPath, diameter_mm: f64, off_mm: f64) -> bool {
    let has_curves = path
        .elements()
        .iter()
        .any(|element| matches!(element, PathEl::CurveTo(..)));
    let place = path.bounding_box();
    let is_wide = (place.width() - diameter_mm).abs() < off_mm;
    has_curves && is_wide && (place.height() - diameter_mm).abs() < off_mm
}

#[test]
fn a_greens_unit_at_true_scale_takes_one_page_of_either_size() {
    for unit in [DemoUnit::GreensScalping, DemoUnit::GreensWalking] {
        let solved = solved(&unit.document());
        for page in Page::ALL {
            let sheets =
                asked(SheetKind::TrueScale, page).sheets(&solved, &origin(), System::InchDecimal);
            assert_eq!(sheets.len(), 1, "{unit:?} {page:?}");
            let figure = &sheets[0].panels[sheets[0].figures[0].panels.start];
            let reel = solved.unit.setting.reel_diameter.mm() * 96.0 / 25.4;
            let whole = figure.marks.iter().any(|mark| match mark {
                Mark::Stroke {
                    role: Role::TipCircle,
                    path,
                    ..
                } => {
                    let place = path.bounding_box();
                    let is_inside = figure.window.union(place) == figure.window;
                    (place.height() - reel).abs() < 0.01 && is_inside
                }
                _ => false,
            });
            assert!(whole, "{unit:?} {page:?}: the reel is not all on the page");
        }
    }
}

#[test]
fn pieces_of_a_true_scale_sheet_hold_all_of_the_unit() {
    let solved = solved(&DemoUnit::SportsMetric.document());
    let sheets =
        asked(SheetKind::TrueScale, Page::Letter).sheets(&solved, &origin(), System::Millimetre);
    assert!(sheets.len() > 1);
    let area: f64 = sheets
        .iter()
        .map(|sheet| {
            let figure = sheet.figures[0].panels.start;
            sheet.panels[figure].window.area()
        })
        .sum();
    let per_mm = 96.0 / 25.4;
    let scene = sweepgauge::drawing::SideView::of(&solved).scene();
    assert!(area / (per_mm * per_mm) >= scene.bounds.area());
}

#[test]
fn a_unit_too_large_for_true_scale_gets_one_page_that_says_so() {
    let mut text = std::fs::read_to_string(DemoUnit::SportsMetric.file()).unwrap();
    for (usual, far) in [("170 mm", "9 m"), ("125 mm", "9 m"), ("8 m\"", "9000 m\"")] {
        assert!(text.contains(usual));
        text = text.replace(usual, far);
    }
    let solved = solved(&sweepgauge::unit::read_text(&text).unwrap());
    for page in Page::ALL {
        let sheets =
            asked(SheetKind::TrueScale, page).sheets(&solved, &origin(), System::InchDecimal);
        assert_eq!(sheets.len(), 1, "{page:?}");
        let told = pdf_of(&sheets).text(1);
        assert!(
            told.contains(&packed("The unit is too large for true scale")),
            "{told}"
        );
    }
}

// Numbers and files.

#[test]
fn numbers_on_paper_are_those_of_the_report() {
    let shop = TempDir::new().unwrap();
    for unit in DemoUnit::ALL {
        let out = shop.path().join("sheet.pdf");
        let run = program()
            .arg("sheet")
            .arg(unit.file())
            .arg(&out)
            .output()
            .unwrap();
        assert!(run.status.success(), "{run:?}");
        let pdf = Pdf::read(&std::fs::read(&out).unwrap());
        let text = pdf.text(1);
        let report = program()
            .args(["report", "--json"])
            .arg(unit.file())
            .output()
            .unwrap();
        let report: Json = serde_json::from_slice(&report.stdout).unwrap();
        let system = unit.document().system();
        let mut seen = 0;
        for id in NumberId::KEY {
            let (part, key) = id.id().split_once('.').unwrap();
            let Some(base) = report[part][key].as_f64() else {
                continue;
            };
            let shown = id.value(base).shown_in(system);
            let row = packed(&format!("{}{shown}", id.title()));
            assert!(text.contains(&row), "{unit:?}: {row} in {text}");
            seen += 1;
        }
        assert!(seen > 8, "{unit:?}: {seen}");
        for finding in report["findings"].as_array().unwrap() {
            let told = finding["text"].as_str().unwrap();
            // What can be done about it comes after its first sentence, and is told as steps.
            let first = told.split(". ").next().unwrap();
            assert!(text.contains(&packed(first)), "{unit:?}: {first}");
        }
    }
}

#[test]
fn paper_and_file_can_be_matched() {
    let file = DemoUnit::GreensWalking.file();
    let whole = Sha256::digest(std::fs::read(&file).unwrap());
    let whole = format!("{:08x}", u32::from_be_bytes(whole[..4].try_into().unwrap()));
    let (_, digest) = open_with_digest(&file).unwrap();
    let origin = origin_of(Some(&file), Some(&digest), false);
    assert_eq!(origin.digest.as_deref(), Some(&whole[..8]));
    let shop = TempDir::new().unwrap();
    let out = shop.path().join("sheet.pdf");
    for (rest, is_tried) in [(&[][..], false), (&["--attitude", "5 deg"][..], true)] {
        let run = program()
            .arg("sheet")
            .arg(&file)
            .arg(&out)
            .args(rest)
            .output();
        assert!(run.unwrap().status.success());
        let text = Pdf::read(&std::fs::read(&out).unwrap()).text(1);
        assert!(text.contains(&whole[..8]) && text.contains("greens-walking.ron"));
        assert_eq!(text.contains(&packed("Not as saved")), is_tried, "{text}");
    }
    assert!(Origin::default().told().contains("Not saved"));
}

// Text for everybody.

#[test]
fn a_sheet_is_named_tagged_and_can_be_searched() {
    let document = DemoUnit::TeesCrowned.document();
    let solved = solved(&document);
    for kind in SheetKind::ALL {
        let sheets = asked(kind, Page::A4).sheets(&solved, &origin(), System::InchDecimal);
        let bytes = bound(&document.name, &sheets).unwrap();
        let pdf = Pdf::read(&bytes);
        assert_eq!(pdf.title(), document.name);
        assert!(pdf.catalog("Lang").is_some() && pdf.catalog("MarkInfo").is_some());
        assert_eq!(pdf.outline()[0], document.name);
        assert!(pdf.text(1).contains(&packed(&document.name)));
        let tags = pdf.tags();
        let figures = tags.iter().filter(|(kind, _)| kind == "Figure");
        let figures: Vec<_> = figures.collect();
        assert!(!figures.is_empty(), "{kind:?}");
        assert!(figures.iter().all(|(_, told)| told.is_some()));
        assert!(tags.iter().any(|(kind, _)| kind == "H1"), "{kind:?}");
        assert!(tags.iter().filter(|(kind, _)| kind == "P").count() > 5);
        // Whole fonts are ten times as large.
        assert!(bytes.len() < 300_000, "{kind:?}: {} bytes", bytes.len());
    }
}

#[test]
fn names_in_any_script_are_shaped_or_told_of_in_words() {
    let plain = DemoUnit::GreensWalking.document();
    for name in NAMES {
        let document = named(&plain, name);
        let solved = solved(&document);
        for kind in SheetKind::ALL {
            let sheets = asked(kind, Page::A4).sheets(&solved, &origin(), System::Millimetre);
            let shown = sweepgauge::drawing::letters::readable(name);
            let is_told = shown.contains("cannot be shown here");
            let words: Vec<_> = sheets[0].words().collect();
            assert!(
                words.iter().any(|words| words.contains(&*shown)),
                "{kind:?}: {shown}"
            );
            let pdf = pdf_of(&sheets);
            let text = pdf.text(1);
            assert_eq!(
                text.contains(&packed("letters that cannot be shown here")),
                is_told
            );
            // Glyph 0 is the box that stands for a letter a font lacks.
            assert!(!text.contains('\u{fffd}'), "{kind:?}: {text}");
        }
    }
    assert!(sweepgauge::drawing::letters::readable(NAMES[3]).contains("cannot be shown here"));
}

// Pictures.

#[test]
fn every_picture_is_drawn_in_every_format() {
    let shop = TempDir::new().unwrap();
    let unit = DemoUnit::GreensScalping.file();
    for view in PictureView::ALL {
        for (ending, begins) in [("svg", "<svg"), ("png", "\u{89}PNG"), ("pdf", "%PDF")] {
            let out = shop.path().join(format!("{}.{ending}", view.id()));
            let mut command = program();
            command.arg("picture").arg(&unit).arg(&out);
            command.args(["--view", view.id()]);
            if ending == "png" {
                command.args(["--width", "640"]);
            }
            let run = command.output().unwrap();
            assert!(run.status.success(), "{run:?}");
            let bytes = std::fs::read(&out).unwrap();
            let begins: Vec<u8> = begins
                .chars()
                .map(|c| u8::try_from(u32::from(c)).unwrap())
                .collect();
            assert!(bytes.starts_with(&begins), "{view:?} {ending}");
            if ending == "png" {
                let picture = image::load_from_memory(&bytes).unwrap();
                assert_eq!((picture.width(), picture.height()), (640, 400));
            }
        }
    }
    let out = shop.path().join("whole.svg");
    let run = program()
        .arg("picture")
        .arg(&unit)
        .arg(&out)
        .args(["--width", "640"])
        .output();
    let run = run.unwrap();
    assert_eq!(run.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&run.stderr).contains("--width"));
}

#[test]
fn a_clear_picture_has_no_paper_behind_it() {
    let solved = solved(&DemoUnit::GreensScalping.document());
    for view in PictureView::ALL {
        let sheet = view_picture(
            &solved,
            view,
            Standing::Plate,
            System::InchDecimal,
            Theme::Light,
        )
        .expect("it has speeds");
        let opacity = |sheet: &Sheet| {
            let bytes = picture_bytes(sheet, PictureFormat::Png, Resolution::Width(320)).unwrap();
            let picture = image::load_from_memory(&bytes).unwrap().to_rgba8();
            picture.get_pixel(1, 1).0[3]
        };
        assert_eq!(opacity(&sheet), 255, "{view:?}");
        assert_eq!(opacity(&sheet.without_ground()), 0, "{view:?}");
    }
}

#[test]
fn a_picture_without_speeds_says_what_it_needs() {
    let mut document = DemoUnit::GreensScalping.document();
    document.mowing = None;
    let solved = solved(&document);
    for view in [PictureView::Path, PictureView::Motion] {
        let none = view_picture(
            &solved,
            view,
            Standing::Plate,
            System::Millimetre,
            Theme::Light,
        );
        assert!(none.unwrap_err().to_string().contains("speed"));
    }
}

#[test]
fn words_on_pictures_stand_on_none_and_stay_on_their_paper() {
    let (mut count, mut all) = (0, Vec::new());
    for unit in DemoUnit::ALL {
        for name in [&unit.document().name, &"the lower green ".repeat(12)] {
            let solved = solved(&named(&unit.document(), name));
            for system in System::ALL {
                for view in PictureView::ALL {
                    let picture =
                        view_picture(&solved, view, Standing::Plate, system, Theme::Light);
                    let Ok(sheet) = picture else { continue };
                    count += 1;
                    let faults = faults(&sheet.panels).into_iter();
                    all.extend(
                        faults.map(|fault| format!("{unit:?} {view:?} {system:?}: {fault}")),
                    );
                }
            }
        }
    }
    assert!(count > 200, "{count}");
    all.truncate(12);
    assert!(all.is_empty(), "{all:#?}");
}

// A folder of units.

fn copied(unit: DemoUnit, folder: &Path, name: &str) {
    std::fs::copy(unit.file(), folder.join(name)).unwrap();
}

#[test]
fn a_folder_becomes_one_document_and_says_what_it_left_out() {
    let shop = TempDir::new().unwrap();
    let units = shop.path().join("units");
    std::fs::create_dir(&units).unwrap();
    for unit in DemoUnit::ALL {
        copied(unit, &units, unit.file_name());
    }
    std::fs::write(units.join("broken.ron"), "(format: 1, name: ").unwrap();
    for name in ["notes.txt", "tees.record.ron", "tees.plate.ron"] {
        std::fs::write(units.join(name), "no unit").unwrap();
    }
    let out = shop.path().join("all.pdf");
    let run = program()
        .arg("sheet")
        .arg(&units)
        .arg(&out)
        .output()
        .unwrap();
    assert!(run.status.success(), "{run:?}");
    let told = String::from_utf8(run.stdout).unwrap();
    assert!(
        told.contains("8 units") && told.contains("broken.ron"),
        "{told}"
    );
    let pdf = Pdf::read(&std::fs::read(&out).unwrap());
    assert_eq!(pdf.pages(), 9);
    let mut names: Vec<String> = DemoUnit::ALL
        .iter()
        .map(|unit| unit.document().name)
        .collect();
    names.push("Files that gave no sheet".to_owned());
    assert_eq!(pdf.outline(), names);
    let last = pdf.text(9);
    assert!(
        last.contains("broken.ron") && !last.contains("notes.txt"),
        "{last}"
    );
    // What is tried belongs to one unit.
    let tried = program()
        .arg("sheet")
        .arg(&units)
        .arg(&out)
        .args(["--attitude", "5 deg"])
        .output()
        .unwrap();
    assert_eq!(tried.status.code(), Some(2));
}

#[test]
fn a_sheet_is_given_up_between_one_block_and_the_next() {
    let document = Arc::new(DemoUnit::KnifeChoice.document());
    for kind in SheetKind::ALL {
        // How often it was asked whether it is still awaited, and whether it was made.
        let made_until = |stop: Option<usize>| {
            let asks = Cell::new(0);
            let is_given_up = || {
                asks.set(asks.get() + 1);
                stop.is_some_and(|stop| asks.get() >= stop)
            };
            let bound = bound_sheet(
                Arc::clone(&document),
                &asked(kind, Page::A4),
                &origin(),
                System::InchDecimal,
                Awaited::unless(&is_given_up),
                |_| ControlFlow::Continue(()),
            );
            (bound.expect("is no fault").is_some(), asks.get())
        };
        let (is_made, asks) = made_until(None);
        assert!(is_made && asks > 0, "{kind:?}: {asks}");
        for stop in [1, asks / 4, asks / 2, asks - 1, asks] {
            let stop = stop.max(1);
            let (is_made, until) = made_until(Some(stop));
            assert!(!is_made, "{kind:?} at {stop} of {asks}");
            // What is still asked leads out.
            assert!(until <= stop + 24, "{kind:?} at {stop} of {asks}: {until}");
        }
    }
}

#[test]
fn a_folder_can_be_broken_off_and_an_empty_one_is_refused() {
    let shop = TempDir::new().unwrap();
    let asked = asked(SheetKind::Setting, Page::A4);
    let go_on = |_: Progress| ControlFlow::Continue(());
    let refused = folder_book(shop.path(), &asked, go_on).unwrap_err();
    assert!(refused.to_string().contains(".ron"), "{refused}");
    for name in ["a.ron", "b.ron", "c.ron"] {
        copied(DemoUnit::RollersGiven, shop.path(), name);
    }
    let mut heard = Vec::new();
    let broken_off = folder_book(shop.path(), &asked, |progress| {
        heard.push(progress);
        if progress.done == 1 {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    });
    assert!(broken_off.unwrap().is_none());
    assert_eq!(heard.last(), Some(&Progress { done: 1, of: 3 }));
}

#[test]
fn a_sheet_that_cannot_be_made_is_refused_and_leaves_what_was_there() {
    let shop = TempDir::new().unwrap();
    let unit = DemoUnit::TurningBar.file();
    let ran = |arguments: &[&str], out: &Path| {
        let run = program()
            .arg("sheet")
            .arg(&unit)
            .arg(out)
            .args(arguments)
            .output();
        let run = run.unwrap();
        (run.status.code(), String::from_utf8(run.stderr).unwrap())
    };
    for name in ["sheet.svg", "sheet"] {
        let (code, told) = ran(&[], &shop.path().join(name));
        assert_eq!(code, Some(2));
        assert!(told.contains(".pdf"), "{told}");
    }
    let out = shop.path().join("sheet.pdf");
    std::fs::write(&out, "before").unwrap();
    let (code, told) = ran(&["--reel-diameter", "seven"], &out);
    assert_eq!(code, Some(2));
    assert!(told.contains("reel-diameter"), "{told}");
    assert_eq!(std::fs::read_to_string(&out).unwrap(), "before");
}

#[test]
fn a_document_without_a_sheet_has_no_page() {
    // A check of the checker.
    let mut book = PdfBook::new("empty");
    assert_eq!(book.pages(), 0);
    let sheet = Sheet::blank("one", Rect::new(0.0, 0.0, 100.0, 50.0), Theme::Print);
    book.add_chapter("one", &[sheet]).unwrap();
    assert_eq!(book.pages(), 1);
    let pdf = Pdf::read(&book.finish().unwrap());
    let (width, height) = pdf.size_mm(1);
    let per_mm = 96.0 / 25.4;
    assert!((width - 100.0 / per_mm).abs() < 1e-3 && (height - 50.0 / per_mm).abs() < 1e-3);
}

// What goes wrong on the command line.

/// What `sheet` is asked for and whether it did it; otherwise its exit code with what it says.
fn asked_for(arguments: &[&std::ffi::OsStr]) -> Result<String, (i32, String)> {
    let run = program().arg("sheet").args(arguments).output().unwrap();
    let said = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    if run.status.success() {
        Ok(said(&run.stdout))
    } else {
        assert_eq!(said(&run.stdout), "");
        Err((run.status.code().unwrap(), said(&run.stderr)))
    }
}

#[test]
fn a_sheet_that_cannot_be_written_says_so_and_leaves_nothing_half_written() {
    let shop = TempDir::new().unwrap();
    let unit = DemoUnit::TeesCrowned.file();
    std::fs::create_dir(shop.path().join("folder.pdf")).unwrap();
    for (name, told) in [
        ("sheet", "write a name that ends in .pdf"),
        ("sheet.png", "write a name that ends in .pdf"),
        ("none/sheet.pdf", "cannot be written: there is no folder"),
        ("folder.pdf", "there is a folder of that name"),
    ] {
        let out = shop.path().join(name);
        let (code, said) = asked_for(&[unit.as_os_str(), out.as_os_str()]).unwrap_err();
        assert_eq!(code, 2, "{name}");
        assert!(said.contains(told) && said.contains(name), "{name}: {said}");
        assert_eq!(said.lines().count(), 1, "{said}");
    }
    let left: Vec<_> = std::fs::read_dir(shop.path()).unwrap().collect();
    assert_eq!(left.len(), 1);
    assert!(
        std::fs::read_dir(shop.path().join("folder.pdf"))
            .unwrap()
            .next()
            .is_none()
    );
}

#[test]
fn a_name_of_the_list_is_taken_in_whatever_case_and_another_is_told_the_list() {
    let shop = TempDir::new().unwrap();
    let unit = DemoUnit::TeesCrowned.file();
    let out = shop.path().join("SHEET.PDF");
    let with = |kind: &str, page: &str| {
        let [kind, page] = [kind, page].map(std::ffi::OsString::from);
        asked_for(&[
            unit.as_os_str(),
            out.as_os_str(),
            "--kind".as_ref(),
            &kind,
            "--page".as_ref(),
            &page,
        ])
    };
    with("Why", "LETTER").unwrap();
    let pdf = Pdf::read(&std::fs::read(&out).unwrap());
    assert!(pdf.text(1).starts_with("Whyitmarks"), "{}", pdf.text(1));
    let (across, _) = pdf.size_mm(1);
    assert!((across - 215.9).abs() < 0.1, "{across}");
    let (code, said) = with("why", "a3").unwrap_err();
    assert_eq!(code, 2);
    assert!(said.contains("a4, letter"), "{said}");
}

#[test]
fn a_file_of_another_kind_is_named_as_what_it_is() {
    let shop = TempDir::new().unwrap();
    let out = shop.path().join("sheet.pdf");
    let demo = DemoUnit::TeesCrowned.file();
    let ground = demo.with_file_name("example-ground");
    for (file, kind) in [
        (ground.join("greens-1.plate.ron"), "this is a plate sheet"),
        (
            ground.join("greens-1.record.ron"),
            "this is a unit's record",
        ),
        (
            demo.with_file_name("lessons").join("worn-reel.lesson.ron"),
            "this is a lesson",
        ),
    ] {
        let (code, said) = asked_for(&[file.as_os_str(), out.as_os_str()]).unwrap_err();
        assert_eq!(code, 2);
        let told = format!("{kind}, not a unit file");
        assert!(said.contains(&told), "{said}");
        assert!(!out.exists());
    }
}

#[test]
fn of_a_thousand_files_only_the_units_are_bound_and_one_that_cannot_exist_is_told() {
    let shop = TempDir::new().unwrap();
    let ground = DemoUnit::TeesCrowned
        .file()
        .with_file_name("example-ground");
    let read = |name: &str| std::fs::read(ground.join(name)).unwrap();
    let (unit, sheet, record) = (
        read("greens-1.ron"),
        read("greens-1.plate.ron"),
        read("greens-1.record.ron"),
    );
    for number in 0..330 {
        for (ending, text) in [
            ("plate.ron", &sheet),
            ("record.ron", &record),
            ("txt", &unit),
        ] {
            let name = format!("unit-{number:03}.{ending}");
            std::fs::write(shop.path().join(name), text).unwrap();
        }
    }
    for number in 0..9 {
        std::fs::write(shop.path().join(format!("unit-{number:03}.ron")), &unit).unwrap();
    }
    let mut wrong = DemoUnit::TeesCrowned.document();
    wrong.bench.behind_centre = sweepgauge::units::Quantity::parse("9 in").unwrap();
    let wrong = sweepgauge::unit::write_text(&wrong);
    std::fs::write(shop.path().join("wrong.ron"), wrong).unwrap();
    let out = shop.path().join("all.pdf");
    let said = asked_for(&[shop.path().as_os_str(), out.as_os_str()]).unwrap();
    assert!(said.starts_with("9 units\nleft out: "), "{said}");
    assert!(
        said.contains("wrong.ron") && said.contains("9.000 in"),
        "{said}"
    );
    assert_eq!(said.lines().count(), 2);
    let pdf = Pdf::read(&std::fs::read(&out).unwrap());
    assert_eq!((pdf.pages(), pdf.outline().len()), (10, 10));
}
