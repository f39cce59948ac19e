//! Sheets to print, written without a window.

use std::fmt::Write as _;
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;

use super::report::in_line;
use crate::analysis::Solved;
use crate::command::{Problem, WhatIf};
use crate::printing::{SheetAsked, bound, folder_book, origin_of, with_record};
use crate::store;

/// Writes the sheet of a unit, or those of a folder's units, and tells what became of a folder's
/// files.
///
/// # Errors
/// When the unit, the folder or what is tried is wrong, no unit of a folder has a sheet, or the
/// document cannot be written.
pub fn sheet(
    file: &Path,
    out: &Path,
    asked: &SheetAsked,
    what_if: &WhatIf,
) -> Result<String, Problem> {
    let problem = |what: String| Problem::Paper {
        file: out.to_owned(),
        what,
    };
    let is_pdf = out
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("pdf"));
    if !is_pdf {
        return Err(problem("write a name that ends in .pdf".to_owned()));
    }
    if store::is_folder(file) {
        if *what_if != WhatIf::default() {
            return Err(Problem::Paper {
                file: file.to_owned(),
                what: "what is tried belongs to one unit: name its file, not the folder".to_owned(),
            });
        }
        return of_folder(file, out, asked);
    }
    let unsolved = |why| Problem::unsolved(Some(file), why);
    let (mut document, digest) = store::open_with_digest(file)?;
    let kept = document.clone();
    what_if.apply(&mut document)?.map_err(unsolved)?;
    let origin = origin_of(Some(file), Some(&digest), document != kept);
    let origin = with_record(origin, asked, Some(file))?;
    let solved = Solved::of_shared(Arc::new(document)).map_err(unsolved)?;
    let sheets = asked.sheets(&solved, &origin, solved.unit.system);
    let bytes = bound(&solved.document.name, &sheets).map_err(problem)?;
    written(out, &bytes)?;
    Ok(String::new())
}

fn of_folder(folder: &Path, out: &Path, asked: &SheetAsked) -> Result<String, Problem> {
    let book = folder_book(folder, asked, |_| ControlFlow::Continue(()))?;
    let Some(book) = book else {
        return Ok(String::new());
    };
    if book.units == 0 {
        let reasons = book.refused.iter();
        let reasons: Vec<String> = reasons.map(|(_, why)| in_line(why)).collect();
        return Err(Problem::Paper {
            file: folder.to_owned(),
            what: format!(
                "no unit of this folder gave a sheet. {}",
                reasons.join("; ")
            ),
        });
    }
    written(out, &book.bytes)?;
    let mut told = format!("{} units\n", book.units);
    for (_, why) in &book.refused {
        // Writing to a `String` cannot fail.
        let _ = writeln!(told, "left out: {}", in_line(why));
    }
    Ok(told)
}

fn written(out: &Path, bytes: &[u8]) -> Result<(), Problem> {
    store::write_whole(out, bytes).map_err(|error| Problem::Paper {
        file: out.to_owned(),
        what: format!("cannot be written: {error}"),
    })
}
