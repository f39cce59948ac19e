//! Sheets of one unit or of a folder of units, bound into one PDF.

use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;

use crate::analysis::Solved;
use crate::analysis::plate::PlateResult;
use crate::command::{OpenLesson, Problem};
use crate::drawing::{
    Awaited, Complained, LessonPictures, Origin, Page, PdfBook, STILL, Sheet, SheetKind, SheetOf,
    handout_sheets, letters, list_sheet, worksheet,
};
use crate::lesson::Lesson;
use crate::plate::{Record, Worksheet};
use crate::store::{self, FileProblem};
use crate::unit::Document;
use crate::units::{System, clipped};

/// Letters of a name in a document's title and outline.
const LONGEST_NAME: usize = 120;

/// Which sheet, and on what paper.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SheetAsked {
    /// The kind of sheet.
    pub kind: SheetKind,
    /// The size of the paper.
    pub page: Page,
    /// What is wrong with the turf, for the why sheet.
    pub complained: Complained,
}

impl SheetAsked {
    /// The pages for a solved unit, for somebody who reads in `system`.
    #[must_use]
    pub fn sheets(&self, solved: &Solved, origin: &Origin, system: System) -> Vec<Sheet> {
        let of = SheetOf {
            solved,
            origin,
            page: self.page,
            system,
            awaited: Awaited::default(),
        };
        self.kind.sheets(of, self.complained)
    }
}

/// Where the numbers of a unit come from: the file, and the digest of what was read from it or written
/// to it, whatever stands there by now.
#[must_use]
pub fn origin_of(file: Option<&Path>, digest: Option<&str>, is_changed: bool) -> Origin {
    let Some(file) = file else {
        return Origin::default();
    };
    let name = file.file_name().unwrap_or(file.as_os_str());
    Origin {
        file: Some(name.to_string_lossy().into_owned()),
        digest: digest.map(str::to_owned),
        is_changed,
        record: Record::default(),
    }
}

/// The same with the record that stands beside a unit's file, where the sheet asked for shows it.
///
/// # Errors
/// When there is one that cannot be read.
pub fn with_record(
    origin: Origin,
    asked: &SheetAsked,
    file: Option<&Path>,
) -> Result<Origin, FileProblem> {
    let file = file.filter(|_| asked.kind == SheetKind::Record);
    let record = file.map(|file| store::open_record(&store::record_beside(file)));
    Ok(Origin {
        record: record.transpose()?.unwrap_or_default(),
        ..origin
    })
}

fn title_of(name: &str) -> String {
    clipped(&letters::readable(name), LONGEST_NAME).to_string()
}

/// Binds the pages of one unit's sheet.
///
/// # Errors
/// When the PDF cannot be put together, in words.
pub fn bound(name: &str, sheets: &[Sheet]) -> Result<Vec<u8>, String> {
    let title = title_of(name);
    let mut book = PdfBook::new(&title);
    book.add_chapter(&title, sheets)?;
    book.finish()
}

/// How far a binding has come: so many of a folder's files, or of a sheet's pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Those that are done.
    pub done: usize,
    /// All of them; zero while it is not known how many there are.
    pub of: usize,
}

/// A unit's sheet with the document bound of it.
#[derive(Clone, Debug, PartialEq)]
pub struct BoundSheet {
    /// Its pages.
    pub sheets: Vec<Sheet>,
    /// The PDF.
    pub bytes: Vec<u8>,
}

/// Solves a document, makes its sheet for somebody who reads in `system`, and binds it. None when it is no longer
/// awaited, or when `tell`, which hears how far it is, breaks it off.
///
/// # Errors
/// When the document has no solution, or the PDF cannot be put together, in words.
pub fn bound_sheet(
    document: Arc<Document>,
    asked: &SheetAsked,
    origin: &Origin,
    system: System,
    awaited: Awaited,
    tell: impl FnMut(Progress) -> ControlFlow<()>,
) -> Result<Option<BoundSheet>, String> {
    let title = title_of(&document.name);
    let solved = Solved::of_shared(document).map_err(|why| why.shown_in(system))?;
    let of = SheetOf {
        solved: &solved,
        origin,
        page: asked.page,
        system,
        awaited,
    };
    bound_pages(
        &title,
        awaited,
        || asked.kind.sheets(of, asked.complained),
        tell,
    )
}

/// Makes the page of a plate sheet for somebody who reads in `system`, with its unit's document, and binds
/// it. None when it is no longer awaited, or when `tell`, which hears how far it is, breaks it off.
///
/// # Errors
/// When the unit has no solution, a value of the sheet makes no sense, or the PDF cannot be put together,
/// in words.
pub fn bound_worksheet(
    (sheet, unit): (&Worksheet, Arc<Document>),
    (page, system): (Page, System),
    origin: &Origin,
    awaited: Awaited,
    tell: impl FnMut(Progress) -> ControlFlow<()>,
) -> Result<Option<BoundSheet>, String> {
    let title = title_of(&unit.name);
    let solved = Solved::of_shared(unit).map_err(|why| why.shown_in(system))?;
    let result = PlateResult::of(sheet, Some(&solved)).map_err(|flaw| flaw.to_string())?;
    let of = SheetOf {
        solved: &solved,
        origin,
        page,
        system,
        awaited,
    };
    bound_pages(&title, awaited, || worksheet(of, sheet, &result), tell)
}

/// Makes the handout of a lesson, its steps solved with the units of the folder of `file`, and binds it. A
/// step without numbers stands there with its reason. None when it is no longer awaited, or when `tell`,
/// which hears how far it is, breaks it off.
///
/// # Errors
/// When the PDF cannot be put together, in words.
pub fn bound_handout(
    (lesson, file): (&Lesson, Option<&Path>),
    page: Page,
    origin: &Origin,
    awaited: Awaited,
    tell: impl FnMut(Progress) -> ControlFlow<()>,
) -> Result<Option<BoundSheet>, String> {
    let OpenLesson { lesson, steps, .. } = OpenLesson::as_it_stands(lesson.clone(), file);
    let pictures = LessonPictures {
        lesson: &lesson,
        steps: &steps,
        clips: STILL,
    };
    let title = title_of(&lesson.title);
    let lay_out = || handout_sheets(pictures, origin, page);
    bound_pages(&title, awaited, lay_out, tell)
}

/// Lays pages out and binds them, unless that is given up before.
fn bound_pages(
    title: &str,
    awaited: Awaited,
    lay_out: impl FnOnce() -> Vec<Sheet>,
    mut tell: impl FnMut(Progress) -> ControlFlow<()>,
) -> Result<Option<BoundSheet>, String> {
    if tell(Progress { done: 0, of: 0 }).is_break() {
        return Ok(None);
    }
    let sheets = lay_out();
    if awaited.is_given_up() {
        return Ok(None);
    }
    let of = sheets.len();
    let mut book = PdfBook::new(title);
    let added = book.add_chapter_telling(title, &sheets, |done| tell(Progress { done, of }))?;
    if added.is_break() || tell(Progress { done: of, of }).is_break() {
        return Ok(None);
    }
    let bytes = book.finish()?;
    Ok(Some(BoundSheet { sheets, bytes }))
}

/// A folder's units bound into one document.
#[derive(Debug)]
pub struct FolderBook {
    /// The PDF.
    pub bytes: Vec<u8>,
    /// How many units have a sheet in it.
    pub units: usize,
    /// Whether its first page lies on its side.
    pub is_lying: bool,
    /// Files that gave none, each with the reason; they are listed at the end of the document too.
    pub refused: Vec<(String, String)>,
}

/// Binds the sheets of every unit file of a folder, in the order of their names. None when `tell`,
/// which hears how far it is, breaks it off.
///
/// # Errors
/// When the folder cannot be read or holds no unit file, or the PDF cannot be put together.
pub fn folder_book(
    folder: &Path,
    asked: &SheetAsked,
    mut tell: impl FnMut(Progress) -> ControlFlow<()>,
) -> Result<Option<FolderBook>, Problem> {
    let problem = |what: String| Problem::Paper {
        file: folder.to_owned(),
        what,
    };
    let files = store::units_in(folder)?;
    if files.is_empty() {
        return Err(problem(
            "no unit file is in this folder: their names end in .ron".to_owned(),
        ));
    }
    let of = files.len();
    let name = folder.file_name().unwrap_or(folder.as_os_str());
    let mut book = PdfBook::new(title_of(&name.to_string_lossy()));
    let (mut refused, mut is_lying) = (Vec::new(), None);
    for (done, file) in files.iter().enumerate() {
        if tell(Progress { done, of }).is_break() {
            return Ok(None);
        }
        match solved_of(file, asked) {
            Ok((solved, origin)) => {
                let sheets = asked.sheets(&solved, &origin, solved.unit.system);
                is_lying = is_lying.or(sheets.first().map(Sheet::is_lying));
                book.add_chapter(&title_of(&solved.document.name), &sheets)
                    .map_err(problem)?;
            }
            Err(why) => {
                let name = file.file_name().unwrap_or(file.as_os_str());
                refused.push((name.to_string_lossy().into_owned(), why.to_string()));
            }
        }
    }
    let units = of - refused.len();
    if !refused.is_empty() {
        let title = "Files that gave no sheet";
        book.add_chapter(title, &list_sheet(title, &refused, asked.page))
            .map_err(problem)?;
    }
    Ok(Some(FolderBook {
        bytes: book.finish().map_err(problem)?,
        units,
        is_lying: is_lying.unwrap_or_default(),
        refused,
    }))
}

/// A file's unit, with what was read.
fn solved_of(file: &Path, asked: &SheetAsked) -> Result<(Solved, Origin), Problem> {
    let (document, digest) = store::open_with_digest(file)?;
    let solved = Solved::of_shared(Arc::new(document));
    let solved = solved.map_err(|why| Problem::unsolved(Some(file), why))?;
    let origin = origin_of(Some(file), Some(&digest), false);
    Ok((solved, with_record(origin, asked, Some(file))?))
}
