//! The text of a sheet, read and written: RON, as a unit file is.

use super::sheet::Worksheet;
use crate::unit::{AsRead, FileKind, TextProblem, WANTED_QUANTITY, Written, most, parse, written};

/// Plate sheets.
pub static SHEET_FILE: FileKind = FileKind {
    name: "plate sheet",
    holds: "sheet",
    begins: "(plate_sheet: 1, unit: …",
    first_field: "plate_sheet",
    most_bytes: most::FILE_BYTES,
    usual_bytes: "a few thousand",
    lines_deep: 2,
    wanted_at,
};

/// What stands at a path of a sheet, as it is written.
fn wanted_at(path: &str) -> &'static str {
    let name = path.rsplit('.').next().unwrap_or(path);
    let is_of_roller = path.starts_with("front.") || path.starts_with("rear.");
    match name {
        "plate_sheet" => "the number 1",
        "unit" | "date" | "by" | "hours" | "notes" => "a text in quotes",
        "bar" => "(left: …, right: …)",
        "reel" | "knife_to_reel" | "height" => "(left: …, middle: …, right: …)",
        "front" | "rear" => "its fields between brackets, (measured_apart: …, left: …)",
        "adjust" => "Left or Right, without quotes",
        "adjuster" => "Eccentric(throw: …, now: …), Thread(pitch: …, tilt: …) or Shims([…, …])",
        "station" => "one of Left, Middle, Right, without quotes",
        "runout" => "a list, [(station: Left, readings: […]), …]",
        "readings" => "a list of angles and readings, [(\"0 deg\", \"0 thou\"), …]",
        "left" | "right" | "left_half_turn" | "right_half_turn" if is_of_roller => {
            "Feeler(goes: …, stops_at: …), Gap(…) or Height(…)"
        }
        name if name.starts_with("readings[") => {
            "an angle and what was read there, (\"0 deg\", \"0 thou\")"
        }
        name if name.starts_with("ticked") || name.starts_with("again") => WANTED_STEPS,
        "left" | "middle" | "right" if path.starts_with("knife_to_reel.") => {
            "Feeler(goes: …, stops_at: …)"
        }
        _ => WANTED_QUANTITY,
    }
}

/// The steps that are ticked, or to be done again.
const WANTED_STEPS: &str = "steps without quotes, [PlateAndBar, Reel, Bearings, FrontRunout, RearRunout, KnifeToReel, FrontEnds, FrontAdjuster, RearEnds, RearAdjuster, RockTest, Height, Attitude, Record]";

/// Reads the text of a sheet and checks that it makes sense.
///
/// # Errors
/// When it is no sheet, or holds a value that makes no sense.
pub fn read_sheet(text: &str) -> Result<Worksheet, TextProblem> {
    let sheet = parse_sheet(text)?;
    match sheet.checked() {
        Ok(_) => Ok(sheet),
        Err(flaw) => {
            let what = flaw.kind.to_string();
            Err(TextProblem::at_path(
                &SHEET_FILE,
                text,
                flaw.path,
                None,
                what,
            ))
        }
    }
}

/// Reads the text of a sheet without asking whether its values make sense.
///
/// # Errors
/// When it is no sheet, or a value in it cannot be read.
pub fn parse_sheet(text: &str) -> Result<Worksheet, TextProblem> {
    let mut sheet: Worksheet = parse(text, &SHEET_FILE)?;
    sheet.as_read = AsRead::new(text);
    Ok(sheet)
}

/// The text of a sheet; of one that was read, its own text changed where values changed.
#[must_use]
pub fn write_sheet(sheet: &Worksheet) -> Written {
    written(sheet, &sheet.as_read, &SHEET_FILE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::Step;

    #[test]
    fn a_refusal_of_a_step_names_every_step_there_is() {
        for step in Step::ALL {
            let name = format!("{step:?}");
            let mut names = WANTED_STEPS.split(|c: char| !c.is_alphanumeric());
            assert!(names.any(|one| one == name), "{name}");
        }
    }
}
