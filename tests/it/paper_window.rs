//! From the window on paper and out of it: the sheet as it will be, saved; pictures saved and copied;
//! tables for a spreadsheet.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::mpsc::{Sender, channel};

use egui::{Event, Key, Modifiers, OutputCommand};
use sweepgauge::analysis::Solved;
use sweepgauge::analysis::plate::PlateResult;
use sweepgauge::app::{
    Ask, Beginning, Choosing, Dialogs, Opener, Opening, PrintJob, Printed, Printer, Printing,
};
use sweepgauge::drawing::{PictureView, SheetKind};
use sweepgauge::printing::table_to_paste;
use sweepgauge::store::{open_record, open_sheet, open_unit, open_with_digest, record_beside};
use sweepgauge::units::Length;
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::pdf::{Pdf, packed};
use crate::common::shown::{Answers, NoFileDialogs, Start, Window};

/// What the window says once a sheet is made.
const SHOWN: &str = "as it will be on paper";

/// Waits until a kind of sheet is shown.
#[track_caller]
fn wait_for_sheet(window: &mut Window, kind: &str) {
    let is_it = |text: &String| text.starts_with(kind) && text.ends_with(SHOWN);
    for _ in 0..500 {
        if window.texts().iter().any(is_it) {
            return window.settle();
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        window.step();
    }
    panic!("no sheet \"{kind}\" in {:#?}", window.texts());
}

fn with_shift() -> Modifiers {
    Modifiers::COMMAND | Modifiers::SHIFT
}

#[test]
fn a_sheet_is_shown_as_it_will_be_and_saved() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("sheet.pdf");
    let answers = Answers::default();
    answers.save(&out);
    let file = DemoUnit::TeesCrowned.file();
    let mut window = Start::on_file(&file).asking(&answers).window();
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says("Setting sheet, as it will be on paper");
    window.click("Why it marks the turf");
    wait_for_sheet(&mut window, "Why it marks the turf");
    window.click("Save PDF…");
    window.assert_says("Saved the sheet");
    let offered = answers.offered();
    assert!(offered[0].ends_with("-why.pdf"), "{offered:?}");
    let text = Pdf::read(&std::fs::read(&out).unwrap()).text(1);
    assert!(text.contains("tees-crowned.ron"), "{text}");
    let name = packed(&window.document().name.clone());
    assert!(text.contains(&name), "{text}");
}

#[test]
fn a_sheet_names_what_was_opened_and_not_what_stands_in_the_file_since() {
    let folder = TempDir::new().unwrap();
    let (unit, out) = (folder.path().join("unit.ron"), folder.path().join("a.pdf"));
    std::fs::copy(DemoUnit::TeesCrowned.file(), &unit).unwrap();
    let (_, opened) = open_with_digest(&unit).unwrap();
    let answers = Answers::default();
    answers.save(&out);
    let mut window = Start::on_file(&unit).asking(&answers).window();
    std::fs::copy(DemoUnit::KnifeChoice.file(), &unit).unwrap();
    let (_, since) = open_with_digest(&unit).unwrap();
    assert_ne!(opened, since);
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    window.click("Save PDF…");
    window.assert_says("Saved the sheet");
    let text = Pdf::read(&std::fs::read(&out).unwrap()).text(1);
    assert!(text.contains(&opened) && !text.contains(&since), "{text}");
}

#[test]
fn a_picture_is_saved_in_the_format_its_name_ends_in() {
    let folder = TempDir::new().unwrap();
    let answers = Answers::default();
    for (name, begins) in [
        ("a.svg", "<svg".as_bytes()),
        ("a.pdf", b"%PDF"),
        ("a.png", b"\x89PNG"),
    ] {
        let out = folder.path().join(name);
        answers.save(&out);
        let mut window = Start::on_file(&DemoUnit::KnifeChoice.file())
            .asking(&answers)
            .window();
        window.click("File");
        window.click("Save picture…");
        window.click("Clear background");
        window.wait_until_it_says(SHOWN);
        window.click("Save picture…");
        window.wait_until_it_says("Saved the picture");
        assert!(std::fs::read(&out).unwrap().starts_with(begins), "{name}");
    }
}

#[test]
fn no_sheet_or_picture_is_written_over_a_unit_or_under_the_ending_of_another_kind() {
    let folder = TempDir::new().unwrap();
    let unit = folder.path().join("unit.ron");
    std::fs::copy(DemoUnit::TeesCrowned.file(), &unit).unwrap();
    let before = std::fs::read(&unit).unwrap();
    let answers = Answers::default();
    let mut window = Start::on_file(&unit).asking(&answers).window();
    let mut save_sheet = |name: &str, told: &str| {
        answers.save(&folder.path().join(name));
        window.press_with(Modifiers::COMMAND, Key::P);
        window.wait_until_it_says(SHOWN);
        window.click("Save PDF…");
        window.assert_says(told);
    };
    save_sheet("unit.ron", "Not saved: this name ends in .ron.");
    save_sheet("other.RON", "Not saved: this name ends in .RON.");
    save_sheet("sheet.png", "Not saved: this name ends in .png.");
    save_sheet("greens 7.5", "Saved the sheet");
    let sheet = folder.path().join("greens 7.5.pdf");
    assert!(std::fs::read(&sheet).unwrap().starts_with(b"%PDF"));
    std::fs::write(&sheet, "somebody's").unwrap();
    // The dialog asked about the name without the ending alone: the other file is asked about.
    save_sheet("greens 7.5", "a file with this name is there already");
    assert_eq!(std::fs::read(&sheet).unwrap(), b"somebody's");
    window.press(Key::Escape);
    window.wait_until_it_says(SHOWN);
    window.press(Key::Escape);
    let mut save_sheet = |told: &str| {
        answers.save(&folder.path().join("greens 7.5"));
        window.press_with(Modifiers::COMMAND, Key::P);
        window.wait_until_it_says(SHOWN);
        window.click("Save PDF…");
        window.assert_says(told);
    };
    save_sheet("a file with this name is there already");
    window.click("Replace the file");
    window.assert_says("Saved the sheet");
    assert!(std::fs::read(&sheet).unwrap().starts_with(b"%PDF"));
    window.click("File");
    window.click("Save picture…");
    window.wait_until_it_says(SHOWN);
    answers.save(&unit);
    window.click("Save picture…");
    window.assert_says("Write a name that ends in .png, .svg or .pdf.");
    assert_eq!(std::fs::read(&unit).unwrap(), before);
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2);
}

/// A dialog of the desktop that is still open: what it is answered with, when it is.
#[derive(Clone, Default)]
struct Open(Rc<RefCell<Option<Sender<Option<PathBuf>>>>>);

impl Dialogs for Open {
    fn ask(&self, _: &Ask) -> Choosing {
        let (sender, choosing) = channel();
        *self.0.borrow_mut() = Some(sender);
        choosing
    }
}

impl Open {
    fn answer(&self, window: &mut Window, file: Option<PathBuf>) {
        let sender = self.0.borrow_mut().take().expect("asked");
        sender.send(file).expect("waits for it");
        // The dialog wakes the window.
        window.step();
        window.settle();
    }
}

#[test]
fn a_choice_that_is_refused_or_given_up_leaves_its_card_open_as_it_was() {
    let folder = TempDir::new().unwrap();
    let dialog = Open::default();
    let mut start = Start::on_file(&DemoUnit::TeesCrowned.file());
    start.dialogs = Box::new(dialog.clone());
    let mut window = start.window();
    let why = "this name ends in .png. Write a name that ends in .pdf.";
    window.press_with(Modifiers::COMMAND, Key::P);
    window.click("Why it marks the turf");
    wait_for_sheet(&mut window, "Why it marks the turf");
    // By the card and by the notice under it; given up, there is none to tell.
    for (file, times) in [(Some("sheet.png"), 2), (None, 2)] {
        window.click("Save PDF…");
        window.assert_says("Choose a file in the dialog of the desktop.");
        dialog.answer(&mut window, file.map(|name| folder.path().join(name)));
        wait_for_sheet(&mut window, "Why it marks the turf");
        let texts = window.texts();
        let said = texts.iter().filter(|text| text.contains(why)).count();
        assert!(said >= times, "{said}: {texts:#?}");
    }
    window.click("Save PDF…");
    dialog.answer(&mut window, Some(folder.path().join("sheet.pdf")));
    window.assert_says("Saved the sheet");
    window.assert_silent("as it will be on paper");
    window.click("File");
    window.click("Save picture…");
    window.click("Clear background");
    window.wait_until_it_says(SHOWN);
    window.click("Save picture…");
    dialog.answer(&mut window, Some(folder.path().join("picture.gif")));
    window.assert_says("Write a name that ends in .png, .svg or .pdf.");
    window.assert_says("Clear background");
    // What cannot be written brings the card back as it was.
    window.click("Save picture…");
    dialog.answer(&mut window, Some(folder.path().join("none/picture.svg")));
    window.wait_until_it_says("Not saved: ");
    window.wait_until_it_says("Clear background");
    window.wait_until_it_says(SHOWN);
    window.click("Save picture…");
    dialog.answer(&mut window, Some(folder.path().join("picture.svg")));
    window.wait_until_it_says("Saved the picture");
    window.assert_silent("Clear background");
}

#[test]
fn without_a_dialog_a_sheet_is_saved_to_a_path() {
    let folder = TempDir::new().unwrap();
    let mut start = Start::on_file(&DemoUnit::TeesCrowned.file());
    start.dialogs = Box::new(NoFileDialogs);
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    window.click("Save PDF…");
    window.assert_says("Save the sheet to a path");
    assert!(window.entry("Path").ends_with("-setting.pdf"));
    let type_path = |window: &mut Window, name: &str| {
        let path = folder.path().join(name).display().to_string();
        window.harness.event(egui::Event::Text(path));
        window.settle();
        window.press(Key::Enter);
    };
    type_path(&mut window, "none/sheet.pdf");
    window.assert_says("Not saved: ");
    window.assert_says("Save the sheet to a path");
    type_path(&mut window, "sheet");
    window.assert_says("Saved the sheet");
    window.assert_silent("Save the sheet to a path");
    let out = folder.path().join("sheet.pdf");
    assert!(std::fs::read(&out).unwrap().starts_with(b"%PDF"));
    // A file that is there is replaced only when that is asked for, and a folder never.
    std::fs::write(&out, "somebody's").unwrap();
    std::fs::create_dir(folder.path().join("folder.pdf")).unwrap();
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    window.click("Save PDF…");
    type_path(&mut window, "folder.pdf");
    window.assert_says("Not saved: a folder with this name is there already");
    window.assert_silent("Replace the file");
    type_path(&mut window, "sheet.pdf");
    window.assert_says("Not saved: a file with this name is there already");
    assert_eq!(std::fs::read(&out).unwrap(), b"somebody's");
    window.click("Replace the file");
    window.assert_says("Saved the sheet");
    assert!(std::fs::read(&out).unwrap().starts_with(b"%PDF"));
}

/// A file that was asked to be opened, and what is told how that went.
type Asked = (PathBuf, Sender<()>);

/// Opens what it is given once it is told to, or tells that nobody can.
#[derive(Clone, Default)]
struct Watched(Rc<RefCell<Vec<Asked>>>);

impl Opener for Watched {
    fn open(&self, file: &Path) -> Opening {
        let (sender, opening) = channel();
        self.0.borrow_mut().push((file.to_owned(), sender));
        opening
    }
}

const UNOPENED: &str = "Saved, not opened: no program here opens it.";

/// A window whose sheet is saved as `out` by a button of the card, and what is asked to open it.
fn saved_by(button: &str, out: &Path) -> (Window, Watched) {
    let (answers, opener) = (Answers::default(), Watched::default());
    answers.save(out);
    let mut start = Start::on_file(&DemoUnit::TeesCrowned.file()).asking(&answers);
    start.opener = Box::new(opener.clone());
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    window.click(button);
    window.assert_says("Saved the sheet");
    (window, opener)
}

#[test]
fn a_sheet_is_opened_outside_only_when_asked_and_the_window_goes_on_meanwhile() {
    let folder = TempDir::new().unwrap();
    let (_, opener) = saved_by("Save PDF…", &folder.path().join("kept.pdf"));
    assert!(opener.0.borrow().is_empty());
    // A name without an ending: what is opened is the file that was written.
    let (mut window, opener) = saved_by("Save PDF and open it…", &folder.path().join("shown"));
    let (file, sender) = opener.0.borrow_mut().pop().expect("asked to open it");
    assert_eq!(file, folder.path().join("shown.pdf"));
    assert!(std::fs::read(&file).unwrap().starts_with(b"%PDF"));
    // No answer came yet: the window works on.
    window.press_with(Modifiers::COMMAND, Key::Num2);
    window.assert_silent(UNOPENED);
    sender.send(()).unwrap();
    drop(sender);
    window.settle();
    window.assert_silent(UNOPENED);
}

#[test]
fn a_sheet_that_no_program_opens_is_told_as_saved_with_its_place() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("sheet.pdf");
    let (mut window, opener) = saved_by("Save PDF and open it…", &out);
    window.assert_silent(UNOPENED);
    opener.0.borrow_mut().clear();
    window.settle();
    window.assert_says(UNOPENED);
    window.assert_says(&out.display().to_string());
    assert!(out.exists());
}

#[test]
fn a_sheet_that_could_not_be_saved_is_not_opened() {
    let folder = TempDir::new().unwrap();
    let (answers, opener) = (Answers::default(), Watched::default());
    answers.save(&folder.path().join("none/sheet.pdf"));
    let mut start = Start::on_file(&DemoUnit::TeesCrowned.file()).asking(&answers);
    start.opener = Box::new(opener.clone());
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    window.click("Save PDF and open it…");
    window.assert_says("Not saved: ");
    assert!(opener.0.borrow().is_empty());
}

#[test]
fn a_changed_unit_says_on_paper_that_the_file_does_not_hold_it() {
    let folder = TempDir::new().unwrap();
    let answers = Answers::default();
    let mut window = Start::on_file(&DemoUnit::TeesCrowned.file())
        .asking(&answers)
        .window();
    let text_of = |window: &mut Window, name: &str| {
        let out = folder.path().join(name);
        answers.save(&out);
        window.press_with(Modifiers::COMMAND, Key::P);
        window.wait_until_it_says(SHOWN);
        window.click("Save PDF…");
        window.assert_says("Saved the sheet");
        Pdf::read(&std::fs::read(&out).unwrap()).text(1)
    };
    let told = packed("Not as saved in the file");
    assert!(!text_of(&mut window, "as-it-is.pdf").contains(&told));
    window.enter_text("Height of cut", "0.4 in");
    assert!(text_of(&mut window, "tried.pdf").contains(&told));
    window.press_with(Modifiers::COMMAND, Key::Z);
    assert!(!text_of(&mut window, "taken-back.pdf").contains(&told));
}

// Printing.

/// What was asked to be printed, and what is told of it.
type ToPrint = (PrintJob, Sender<Printed>);

/// Prints what it is given once it is told to, or tells that it cannot.
#[derive(Clone, Default)]
struct Press(Rc<RefCell<Vec<ToPrint>>>);

impl Printer for Press {
    fn print(&self, job: &PrintJob) -> Printing {
        let (sender, printing) = channel();
        self.0.borrow_mut().push((job.clone(), sender));
        printing
    }
}

/// A window that was asked to print, what was to print it, and what opens files.
fn asked_to_print() -> (Window, ToPrint, Watched) {
    let (press, opener) = (Press::default(), Watched::default());
    let mut start = Start::on_file(&DemoUnit::TeesCrowned.file());
    start.printer = Box::new(press.clone());
    start.opener = Box::new(opener.clone());
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::P);
    window.click("Letter");
    window.wait_until_it_says(SHOWN);
    window.click("Print…");
    window.assert_silent("Print or save a sheet");
    let job = press.0.borrow_mut().pop().expect("asked to print");
    (window, job, opener)
}

#[test]
fn a_sheet_is_printed_by_the_desktops_dialog() {
    let (mut window, (job, sender), opener) = asked_to_print();
    let text = Pdf::read(&job.pdf).text(1);
    assert!(text.contains("tees-crowned.ron"), "{text}");
    assert!(job.title.contains(&window.document().name), "{}", job.title);
    assert_eq!((job.page.id(), job.is_lying), ("letter", false));
    // No answer came yet: the window works on.
    window.press_with(Modifiers::COMMAND, Key::Num2);
    window.assert_silent("Sent to print");
    sender.send(Printed::Sent).unwrap();
    window.settle();
    window.assert_says("Sent to print: Setting sheet");
    let (mut window, (_, sender), _) = asked_to_print();
    sender.send(Printed::GivenUp).unwrap();
    window.settle();
    window.assert_says("Not printed: the print dialog was closed.");
    assert!(opener.0.borrow().is_empty());
}

#[test]
fn without_a_print_dialog_the_viewer_opens_the_same_pdf() {
    for why in [None, Some("no such service")] {
        let (mut window, (job, sender), opener) = asked_to_print();
        if let Some(why) = why {
            sender.send(Printed::NoDialog(why.to_owned())).unwrap();
        }
        drop(sender);
        window.settle();
        window.assert_says("This desktop gave no print dialog");
        window.assert_says("at 100 %");
        window.assert_says(why.unwrap_or_default());
        let (file, _) = opener.0.borrow_mut().pop().expect("asked to open it");
        assert_eq!(std::fs::read(&file).unwrap(), *job.pdf);
        std::fs::remove_file(file).unwrap();
    }
}

#[test]
fn without_a_dialog_and_a_viewer_it_says_once_that_none_was_printed_and_leaves_no_copy() {
    let (mut window, (_, sender), opener) = asked_to_print();
    drop(sender);
    window.settle();
    let (file, answer) = opener.0.borrow_mut().pop().expect("asked to open it");
    assert!(file.exists());
    drop(answer);
    window.settle();
    window.assert_says("Not printed: this desktop has no print dialog and no PDF viewer.");
    window.assert_silent("Trying its PDF viewer");
    assert!(!file.exists(), "{}", file.display());
}

#[test]
fn no_button_of_the_card_moves_when_another_sheet_is_chosen() {
    let mut window = Start::on_file(&DemoUnit::TeesCrowned.file()).window();
    window.press_with(Modifiers::COMMAND, Key::P);
    window.wait_until_it_says(SHOWN);
    let buttons = ["Print…", "Save PDF…", "Save PDF and open it…", "Close"];
    let places = |window: &Window| buttons.map(|name| window.button(name).rect());
    let before = places(&window);
    for kind in SheetKind::ALL {
        window.button(kind.name()).click();
        window.harness.step();
        // Before the sheet is made, and after.
        assert_eq!(places(&window), before, "{kind:?}");
        window.wait_until_it_says(SHOWN);
        assert_eq!(places(&window), before, "{kind:?}, made");
    }
}

// A folder of units.

/// A folder with so many units and a broken one.
fn shop(units: usize) -> TempDir {
    let folder = TempDir::new().unwrap();
    for number in 0..units {
        let name = format!("unit-{number:04}.ron");
        std::fs::copy(DemoUnit::RollersGiven.file(), folder.path().join(name)).unwrap();
    }
    std::fs::write(folder.path().join("broken.ron"), "(format: 1, name: ").unwrap();
    folder
}

fn folder_card(answers: &Answers, start: Start) -> Window {
    let mut window = start.asking(answers).window();
    window.click("File");
    window.click("Print or save sheets of a folder…");
    window
}

#[test]
fn the_sheets_of_a_folder_are_bound_into_one_document() {
    let (units, place) = (shop(3), TempDir::new().unwrap());
    let out = place.path().join("all.pdf");
    let answers = Answers::default();
    answers.folder(units.path());
    answers.save(&out);
    let own = DemoUnit::TeesCrowned.file();
    let mut window = folder_card(&answers, Start::on_file(&own));
    let own = own.parent().unwrap().display().to_string();
    assert_eq!(window.entry("Folder"), own);
    window.click("Choose…");
    assert_eq!(window.entry("Folder"), units.path().display().to_string());
    window.click("Save PDF…");
    window.wait_until_it_says("Saved the sheets of 3 units");
    window.assert_says("broken.ron");
    assert!(answers.offered()[0].ends_with("-setting.pdf"));
    let pdf = Pdf::read(&std::fs::read(&out).unwrap());
    assert_eq!((pdf.pages(), pdf.outline().len()), (4, 4));
}

#[test]
fn the_sheets_of_a_folder_are_printed_as_one_document() {
    let units = shop(3);
    let (answers, press) = (Answers::default(), Press::default());
    answers.folder(units.path());
    let mut start = Start::on(DemoUnit::TeesCrowned.document());
    start.printer = Box::new(press.clone());
    let mut window = folder_card(&answers, start);
    window.click("Choose…");
    window.click("True scale, 1:1");
    window.click("Letter");
    window.click("Print…");
    window.wait_until_it_says("Left out, with the reasons on the last page: broken.ron");
    let (job, sender) = press.0.borrow_mut().pop().expect("asked to print");
    assert!(job.title.contains("3 units"), "{}", job.title);
    assert_eq!(job.page.id(), "letter");
    let pdf = Pdf::read(&job.pdf);
    assert!(pdf.pages() > 3, "{}", pdf.pages());
    let (across, up) = pdf.size_mm(1);
    assert_eq!(job.is_lying, across > up);
    sender.send(Printed::Sent).unwrap();
    window.settle();
    window.assert_says("Sent to print: True scale");
    window.click("File");
    window.click("Print or save sheets of a folder…");
    let empty = TempDir::new().unwrap();
    window.enter_text("Folder", &empty.path().display().to_string());
    window.click("Print…");
    window.assert_says("Not printed: no unit file is in this folder");
    assert!(press.0.borrow().is_empty());
}

#[test]
fn a_folder_without_units_is_refused_on_the_card() {
    let place = TempDir::new().unwrap();
    let answers = Answers::default();
    answers.save(&place.path().join("all.pdf"));
    let mut window = folder_card(&answers, Start::on(DemoUnit::TeesCrowned.document()));
    assert_eq!(window.entry("Folder"), "");
    for (folder, why) in [
        (
            place.path().display().to_string(),
            "no unit file is in this folder",
        ),
        (place.path().join("none").display().to_string(), "none"),
    ] {
        window.enter_text("Folder", &folder);
        window.click("Save PDF…");
        window.assert_says("Not saved: ");
        window.assert_says(why);
        window.assert_says("Print or save sheets of a folder");
    }
    assert!(answers.offered().is_empty());
    assert_eq!(std::fs::read_dir(place.path()).unwrap().count(), 0);
}

#[test]
fn a_folder_that_takes_long_shows_how_far_it_is_and_cancel_leaves_no_file() {
    let (units, place) = (shop(2500), TempDir::new().unwrap());
    let answers = Answers::default();
    answers.folder(units.path());
    answers.save(&place.path().join("all.pdf"));
    for way in ["Cancel", "Escape"] {
        let mut window = folder_card(&answers, Start::on(DemoUnit::TeesCrowned.document()));
        window.click("Choose…");
        window.button("Save PDF…").click();
        window.step();
        window.wait_for_button("Cancel");
        window.assert_says("Units done: ");
        if way == "Escape" {
            window.harness.key_press(Key::Escape);
        } else {
            window.button("Cancel").click();
        }
        window.step();
        window.settle();
        window.assert_says("Cancelled: no sheet was saved.");
        window.assert_silent("Units done: ");
    }
    assert_eq!(std::fs::read_dir(place.path()).unwrap().count(), 0);
}

// Pictures and tables.

/// The folder of the demo ground's units and sheets.
fn example_ground() -> PathBuf {
    DemoUnit::FairwayTrailed
        .file()
        .with_file_name("example-ground")
}

/// The rows of the table that the area in front copies, each as wide as the first.
#[track_caller]
fn copied_table(window: &mut Window) -> Vec<String> {
    window.click("File");
    window.click("Copy table");
    window.assert_says("Copied the table");
    let copied = window.take_copied();
    let [OutputCommand::CopyText(table)] = &copied[..] else {
        panic!("{} things were copied", copied.len());
    };
    let rows: Vec<String> = table.lines().map(str::to_owned).collect();
    let width = |row: &String| row.split('\t').count();
    assert!(
        rows.iter().all(|row| width(row) == width(&rows[0])),
        "{table}"
    );
    rows
}

/// The cells of the one row that begins with a name.
#[track_caller]
fn cells<'a>(rows: &'a [String], name: &str) -> Vec<&'a str> {
    let mut found = rows.iter().map(|row| row.split('\t').collect::<Vec<_>>());
    let row = found.find(|row| row[0] == name);
    row.unwrap_or_else(|| panic!("no row \"{name}\" in {rows:#?}"))
}

#[test]
fn the_board_is_copied_as_it_is_shown_with_bare_numbers() {
    let mut start = Start::on(DemoUnit::KnifeChoice.document());
    start.preferences.shop.folder = Some(example_ground());
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.wait_until_it_says("6 units:");
    window.click("Sort by unit");
    window.enter_text("Find units", "greens");
    let rows = copied_table(&mut window);
    let heads: Vec<&str> = rows[0].split('\t').collect();
    assert_eq!(
        heads,
        [
            "unit",
            "set",
            "turf",
            "status",
            "height of cut (in)",
            "behind centre (in)",
            "sweep (% of height of cut)",
            "reel left (in)",
            "last job",
            "next due"
        ]
    );
    // Turned round by the click, the others left out.
    let names = ["3", "2", "1"].map(|number| format!("Example Ground, walking greens, {number}"));
    let first: Vec<_> = rows[1..].iter().map(|row| row.split('\t').next()).collect();
    let wanted: Vec<_> = names.iter().map(|name| Some(name.as_str())).collect();
    assert_eq!(first, wanted);
    let unit = open_unit(&example_ground().join("greens-1.ron")).unwrap();
    let solved = Solved::of(&unit).unwrap();
    let numbers = |rows: &[String]| -> Vec<f64> {
        let row = cells(rows, &names[2]);
        row[4..8].iter().map(|cell| cell.parse().unwrap()).collect()
    };
    let pose = &solved.solution.pose;
    let left = solved.unit.setting.reel_diameter - solved.unit.smallest_diameter;
    let sweep = solved.solution.sweep;
    let share = 100.0 * sweep.below_cut.mm() / pose.height_of_cut.mm();
    let assert_near = |found: Vec<f64>, wanted: [f64; 4]| {
        let mut pairs = found.iter().zip(wanted);
        let is_near = pairs.all(|(found, wanted)| (found - wanted).abs() < 1e-6);
        assert!(is_near, "{found:?}: {wanted:?}");
    };
    let (height, behind) = (pose.height_of_cut, sweep.behind_centre);
    let inches = [height, behind, left].map(Length::inches);
    assert_near(numbers(&rows), [inches[0], inches[1], share, inches[2]]);
    window.click("mm");
    let rows = copied_table(&mut window);
    assert!(rows[0].contains("height of cut (mm)"), "{}", rows[0]);
    assert_near(numbers(&rows), [height.mm(), behind.mm(), share, left.mm()]);
}

#[test]
fn the_record_in_front_is_copied_and_not_the_board() {
    let unit = example_ground().join("greens-1.ron");
    let mut window = Start::on_file(&unit).window();
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.wait_until_it_says(" events, the last on ");
    let rows = copied_table(&mut window);
    let record = open_record(&record_beside(&unit)).unwrap();
    assert_eq!(rows.len(), record.entries.len() + 1);
    assert!(rows[0].starts_with("date\thours\tevent\t"), "{}", rows[0]);
    let newest = record.last_day().unwrap().to_string();
    assert!(rows[1].starts_with(&newest), "{}", rows[1]);
}

#[test]
fn the_numbers_of_a_plate_sheet_are_copied_in_the_units_shown() {
    let file = example_ground().join("greens-1.plate.ron");
    let mut start = Start::on(DemoUnit::FairwayTrailed.document());
    start.beginning = Some(Beginning::with_sheet(&file).unwrap());
    let mut window = start.window();
    let unit = open_unit(&example_ground().join("greens-1.ron")).unwrap();
    let solved = Solved::of(&unit).unwrap();
    let result = PlateResult::of(&open_sheet(&file).unwrap(), Some(&solved)).unwrap();
    let front = result.front.as_ref().unwrap();
    let parallel = front.parallel.as_ref().unwrap();
    let runout = &front.runout[0];
    let at = runout.station.word();
    window.press_with(Modifiers::COMMAND, Key::Num5);
    for (units, unit) in [("in, decimal", "in"), ("mm", "mm")] {
        window.click(units);
        let rows = copied_table(&mut window);
        assert_eq!(rows[0], "number\tvalue\tunit");
        assert_eq!(cells(&rows, "unit file")[1], "greens-1.ron");
        for (name, length) in [
            (
                "front roller, out of parallel, right end high",
                parallel.out,
            ),
            (
                "front roller, out of parallel, ± (k = 2)",
                parallel.expanded,
            ),
            (
                &*format!("front roller, runout, {at}, read"),
                runout.circle.read,
            ),
        ] {
            let row = cells(&rows, name);
            let found: f64 = row[1].parse().unwrap();
            let wanted = if unit == "mm" {
                length.mm()
            } else {
                length.inches()
            };
            assert!((found - wanted).abs() < 1e-6, "{row:?}: {wanted}");
            assert_eq!(row[2], unit);
        }
    }
}

#[test]
fn every_area_has_its_picture_and_its_table_to_copy() {
    let file = DemoUnit::KnifeChoice.file();
    let (answers, place) = (Answers::default(), TempDir::new().unwrap());
    answers.save(&place.path().join("picture.svg"));
    let mut start = Start::on_file(&file).asking(&answers);
    start.preferences.shop.folder = Some(example_ground());
    let mut window = start.window();
    window.press_with(Modifiers::COMMAND, Key::Num5);
    let assert_greyed = |window: &mut Window, item: &str, why: &str| {
        window.click("File");
        window.assert_greyed(item, why);
        window.press(Key::Escape);
        assert_eq!(window.take_copied(), []);
    };
    assert_greyed(&mut window, "Copy table", "No plate sheet is open");
    window.click("New sheet for this unit");
    assert_greyed(
        &mut window,
        "Copy table",
        "Not worked out yet: write the cutting width",
    );
    window.enter_text("Cutting width", "21");
    window.press_with(Modifiers::COMMAND, Key::Num6);
    window.wait_until_it_says("6 units:");
    assert_eq!(window.take_copied(), []);
    let solved = Solved::of(&DemoUnit::KnifeChoice.document()).unwrap();
    let areas = [
        (Key::Num1, Some(PictureView::Whole), "behind centre"),
        (Key::Num2, Some(PictureView::Map), "reaching"),
        (Key::Num3, Some(PictureView::Budget), "sweep"),
        (Key::Num4, Some(PictureView::Path), "Tip speed"),
        (Key::Num5, None, "cutting width\t21\tin"),
        (Key::Num6, None, "trailed gang, 3"),
        (Key::Num7, None, "A lesson has no table"),
    ];
    let listed: Vec<_> = window.app().areas().collect();
    assert_eq!(areas.len(), listed.len());
    for ((key, view, in_table), about) in areas.into_iter().zip(listed) {
        assert_eq!((key, view), (about.key, about.picture), "{}", about.id);
        window.press_with(Modifiers::COMMAND, key);
        for pressed in [true, false] {
            window.harness.event(Event::Key {
                key: Key::C,
                pressed,
                modifiers: with_shift(),
                repeat: false,
                physical_key: None,
            });
            window.settle();
        }
        let Some(view) = view else {
            let told = format!("Not copied. The area {} has no picture", about.title);
            window.assert_says(&told);
            let told = format!("The area {} has no picture", about.title);
            for item in ["Copy picture", "Save picture…"] {
                assert_greyed(&mut window, item, &told);
            }
            assert_eq!(window.take_copied(), [], "{}", about.id);
            if about.id == "lesson" {
                assert_greyed(&mut window, "Copy table", in_table);
                continue;
            }
            let table = copied_table(&mut window).join("\n");
            assert!(table.contains(in_table), "{table}");
            continue;
        };
        // Of the unit the whole page, with lens and numbers.
        let title = match view {
            PictureView::Whole => window.document().name.clone(),
            _ => view.name().to_owned(),
        };
        window.wait_until_it_says(&format!("Copied the picture: {title}"));
        let copied = window.take_copied();
        let [OutputCommand::CopyImage(picture)] = &copied[..] else {
            panic!("{key:?}: {} things were copied", copied.len());
        };
        assert!(picture.width() > picture.height() && picture.height() > 400);
        let first = picture.pixels[0];
        assert!(picture.pixels.iter().any(|pixel| *pixel != first));
        window.click("File");
        window.click("Copy table");
        window.assert_says("Copied the table");
        let table = table_to_paste(&solved, view, window.app().system()).unwrap();
        let copied = window.take_copied();
        assert_eq!(copied, [OutputCommand::CopyText(table.clone())], "{key:?}");
        window.click("File");
        window.click("Save picture…");
        window.wait_until_it_says(&format!("{}, as it will be on paper", view.name()));
        let before = answers.offered().len();
        window.click("Save picture…");
        window.wait_until_it_says("Saved the picture");
        let offered = answers.offered();
        let name = format!("-{}.png", view.id());
        assert!(offered.len() == before + 1 && offered[before].ends_with(&name));
        assert!(table.contains(in_table), "{key:?}: {table}");
        if view == PictureView::Budget {
            // What nobody measured is told as it is shown, and is no number.
            assert!(table.contains("\tnot measured"), "{table}");
        }
        assert_even(&table);
    }
}

/// Every row of a table to paste has as many cells as its headings.
#[track_caller]
fn assert_even(table: &str) {
    let widths: Vec<usize> = table.lines().map(|row| row.split('\t').count()).collect();
    assert!(widths.len() > 4 && widths[0] >= 2, "{table}");
    assert!(widths.iter().all(|width| *width == widths[0]), "{table}");
}

#[test]
fn one_picture_is_copied_at_a_time_and_the_window_goes_on_meanwhile() {
    let mut window = Start::on(DemoUnit::KnifeChoice.document()).window();
    let copied_by_keys = |window: &mut Window| {
        window.harness.key_press_modifiers(with_shift(), Key::C);
        window.step();
    };
    copied_by_keys(&mut window);
    copied_by_keys(&mut window);
    window.assert_says("Not copied: the picture asked for before is still being made.");
    assert_eq!(window.take_copied(), []);
    // The window takes what is typed, and the picture is that of before.
    window.enter_text("Name", "Another name");
    window.wait_until_it_says("Copied the picture: ");
    assert_eq!(window.take_copied().len(), 1);
    copied_by_keys(&mut window);
    window.wait_until_it_says("Copied the picture: ");
    window.settle();
    // From its card as well, which stays open.
    window.click("File");
    window.click("Save picture…");
    window.wait_until_it_says("as it will be on paper");
    window.take_copied();
    window.button("Copy").click();
    window.step();
    window.button("Copy").click();
    window.step();
    window.assert_says("Not copied: the picture asked for before is still being made.");
    window.wait_until_it_says("Copied the picture: ");
    assert_eq!(window.take_copied().len(), 1);
    assert!(window.has_button("Save picture…"));
}

#[test]
fn without_speeds_the_blades_path_has_nothing_to_copy_and_says_why() {
    let mut document = DemoUnit::TeesCrowned.document();
    document.mowing = None;
    let mut window = Start::on(document).window();
    window.press_with(Modifiers::COMMAND, Key::Num4);
    for item in ["Copy picture", "Copy table"] {
        window.click("File");
        window.assert_greyed(item, "enter ground speed and reel speed");
        window.press(Key::Escape);
    }
    window.press_with(Modifiers::COMMAND, Key::Num1);
    window.click("File");
    window.click("Copy table");
    window.assert_says("Copied the table");
}
