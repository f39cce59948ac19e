//! A place for what is written beside the unit: a sheet, a picture, rows of knives.

use std::cell::Cell;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use egui::Ui;

use super::asking::ask;
use super::saving::{is_open_file, with_ending};
use super::typed_path::{Typed, TypedPath};
use crate::app::desk::{Ask, Beneath, Card, Desk, Next};
use crate::store::whole_path;

/// Endings that say what a file is. A name with another one, like "greens 7.5", has none yet.
const KNOWN: [&str; 13] = [
    "ron", "pdf", "png", "svg", "csv", "tsv", "txt", "jpg", "jpeg", "gif", "webp", "tif", "tiff",
];

/// Writes to a file, or begins to; or why it is not written.
type Write = Box<dyn FnMut(&mut Desk, &Path) -> Result<(), String>>;

/// What is to be written.
struct Writing {
    /// What its name may end in; a name without an ending gets the first.
    endings: &'static [&'static str],
    write: Write,
}

/// Asks where to write something that may have one of `endings`; a name without an ending gets the
/// first. A person names the place by its path where the desktop shows no dialog. What becomes of a
/// card that asked: it closes once it is written, and comes back where it was not.
pub fn ask_place(
    desk: &mut Desk,
    what: &Ask,
    endings: &'static [&'static str],
    mut write: impl FnMut(&Path) -> Result<String, String> + 'static,
) -> Next {
    ask_place_then(desk, what, endings, move |desk, file| {
        let told = write(file)?;
        desk.tell(told);
        Ok(())
    })
}

/// Asks as [`ask_place`] does, and opens what was written with the system's own program for it.
pub fn ask_place_and_open(
    desk: &mut Desk,
    what: &Ask,
    endings: &'static [&'static str],
    mut write: impl FnMut(&Path) -> Result<String, String> + 'static,
) -> Next {
    ask_place_then(desk, what, endings, move |desk, file| {
        let told = write(file)?;
        desk.open_outside(file);
        desk.tell(told);
        Ok(())
    })
}

/// Asks as [`ask_place`] does, and lends the desk to what writes there, which may as well begin to.
pub fn ask_place_then(
    desk: &mut Desk,
    what: &Ask,
    endings: &'static [&'static str],
    write: impl FnMut(&mut Desk, &Path) -> Result<(), String> + 'static,
) -> Next {
    let writing = Writing {
        endings,
        write: Box::new(write),
    };
    ask_for(desk, what, writing)
}

fn ask_for(desk: &mut Desk, what: &Ask, mut writing: Writing) -> Next {
    let is_written = Rc::new(Cell::new(false));
    let written = Rc::clone(&is_written);
    let asked = what.clone();
    ask(desk, what, move |desk, file| {
        let Some(file) = file else {
            if let Some(missed) = desk.missed_dialog() {
                let card = PlaceCard::new(&missed, writing);
                desk.open_card(card);
            }
            return false;
        };
        let put = match whole_name(desk, &file, writing.endings) {
            Ok(whole) => (writing.write)(desk, &whole),
            // The dialog asked about the name without its ending.
            Err(Refused::Taken(whole)) => {
                let card = PlaceCard::over(&asked, writing, &whole);
                desk.open_card(card);
                return false;
            }
            Err(Refused::Told(why)) => Err(why),
        };
        let is_done = put.is_ok();
        if let Err(why) = put {
            desk.warn(why);
        }
        written.set(is_done);
        is_done
    });
    if is_written.get() {
        Next::Close
    } else {
        Next::Stay
    }
}

/// Why a place is not taken.
enum Refused {
    /// A file stands there that nobody chose to replace.
    Taken(PathBuf),
    /// In words.
    Told(String),
}

/// The file that a person's choice means: a name without an ending gets the first of `endings`, unless
/// that would replace a file nobody chose. Never one that holds a unit, nor one of another kind.
fn whole_name(desk: &Desk, file: &Path, endings: &[&str]) -> Result<PathBuf, Refused> {
    let is_one_of = |endings: &[&str], file: &Path| {
        let own = file.extension();
        own.is_some_and(|own| endings.iter().any(|one| own.eq_ignore_ascii_case(one)))
    };
    let has_own = is_one_of(endings, file);
    if !has_own && is_one_of(&KNOWN, file) {
        let own = file.extension().unwrap_or_default().to_string_lossy();
        return Err(Refused::Told(format!(
            "Not saved: this name ends in .{own}. Write a name that ends in {}.",
            listed(endings)
        )));
    }
    let first = endings.first().copied().unwrap_or_default();
    let whole = if has_own {
        file.to_owned()
    } else {
        with_ending(file.to_owned(), first)
    };
    if is_open_file(desk, &whole) {
        let whole = whole.display();
        return Err(Refused::Told(format!(
            "Not saved: this file holds the unit that is open: {whole}"
        )));
    }
    if !has_own && whole.exists() {
        return Err(Refused::Taken(whole));
    }
    Ok(whole)
}

fn taken(file: &Path) -> String {
    let what = if file.is_dir() { "folder" } else { "file" };
    format!(
        "Not saved: a {what} with this name is there already: {}",
        file.display()
    )
}

/// Endings in words.
fn listed(endings: &[&str]) -> String {
    let dotted: Vec<_> = endings.iter().map(|ending| format!(".{ending}")).collect();
    match &dotted[..] {
        [before @ .., last] if !before.is_empty() => format!("{} or {last}", before.join(", ")),
        _ => dotted.concat(),
    }
}

/// The path of a place being typed, where the desktop has no file dialog or asked about another file.
struct PlaceCard {
    title: &'static str,
    why: &'static str,
    writing: Writing,
    path: TypedPath,
    /// The card that asked, if it stays until this is done.
    beneath: Beneath,
}

impl PlaceCard {
    fn new(asked: &Ask, writing: Writing) -> Self {
        let (title, name) = match asked {
            Ask::PlaceForSheet(name) => ("Save the sheet to a path", name.as_str()),
            Ask::PlaceForPicture(name) => ("Save the picture to a path", name.as_str()),
            Ask::PlaceForRows(name) => ("Write the knives to a path", name.as_str()),
            Ask::PlaceForUnit(name) => ("Save to a path", name.as_str()),
            Ask::PlaceForWorksheet(name) => ("Save the plate sheet to a path", name.as_str()),
            Ask::PlaceForLesson(name) => ("Save the lesson to a path", name.as_str()),
            Ask::UnitToOpen
            | Ask::FolderOfUnits
            | Ask::RowsToRead
            | Ask::WorksheetToOpen
            | Ask::LessonToOpen => ("Save to a path", ""),
        };
        // With its folder: a person sees where it goes.
        let text = whole_path(name).map_or_else(
            |_| name.to_owned(),
            |path| path.to_string_lossy().into_owned(),
        );
        Self {
            title,
            why: "The desktop showed no file dialog. Type a path",
            writing,
            path: TypedPath::beginning_with(text),
            beneath: Beneath::default(),
        }
    }

    /// Asks whether a file is to be replaced.
    fn over(asked: &Ask, writing: Writing, file: &Path) -> Self {
        Self {
            why: "With its ending the name is that of another file. Replace that one, or type a path",
            path: TypedPath::over(file, &taken(file)),
            ..Self::new(asked, writing)
        }
    }

    fn take(&mut self, desk: &mut Desk) -> Result<(), String> {
        let path = whole_path(self.path.text()).map_err(|problem| problem.to_string())?;
        // There is no dialog that would have asked before another file is replaced.
        let path = match whole_name(desk, &path, self.writing.endings) {
            Ok(path) if !path.exists() => path,
            Ok(path) | Err(Refused::Taken(path)) => {
                self.path.offer_to_replace(&path);
                return Err(taken(&path));
            }
            Err(Refused::Told(why)) => return Err(why),
        };
        (self.writing.write)(desk, &path)
    }

    fn replace(&mut self, desk: &mut Desk) -> Result<(), String> {
        match self.path.taken() {
            Some(file) => (self.writing.write)(desk, &file),
            None => Ok(()),
        }
    }
}

impl Card for PlaceCard {
    fn name(&self) -> &'static str {
        "place"
    }

    fn width(&self) -> f32 {
        520.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let what = format!(
            "{} that ends in {}; ~/ is your home folder.",
            self.why,
            listed(self.writing.endings)
        );
        let put = match self.path.show(ui, self.title, &what, "Save here") {
            Typed::Taken => self.take(desk),
            Typed::Replaced => self.replace(desk),
            Typed::PutAway => return self.put_away(desk),
            Typed::Going => return Next::Stay,
        };
        match put {
            Ok(()) => Next::Close,
            Err(why) => {
                self.path.tell(&why);
                self.path.begin_anew(ui);
                Next::Stay
            }
        }
    }

    fn beneath(&mut self) -> Option<&mut Beneath> {
        Some(&mut self.beneath)
    }
}
