//! The numbers of a plate sheet for a spreadsheet: a row each, with the unit in a cell of its own.

use super::table::rows_to_paste;
use crate::analysis::plate::{Figure, PlateResult, PlateRow};
use crate::plate::{Roller, Worksheet};
use crate::unit::RowProblem;
use crate::units::{Angle, Length, Measure as _, System, bare};

/// What a sheet says, as rows of name, number and unit, their cells parted by tabs. Lengths are in the
/// units of a reader, angles in degrees; a part that was not read has no row.
///
/// # Errors
/// When a row cannot be written; plain texts always can.
pub fn plate_table_to_paste(
    sheet: &Worksheet,
    result: &PlateResult,
    system: System,
) -> Result<String, RowProblem> {
    let mut rows = Rows {
        rows: vec![["number", "value", "unit"].map(str::to_owned).to_vec()],
        system,
    };
    for (name, text) in [
        ("unit file", &sheet.unit),
        ("date", &sheet.date),
        ("by", &sheet.by),
        ("hours", &sheet.hours),
    ] {
        if !text.is_empty() {
            rows.add(name, text.clone(), "");
        }
    }
    let width = result.readings.cut_width;
    rows.figure("cutting width", Figure::Length(width));
    rows.part("reel, ", &result.reel_rows(system));
    for roller in Roller::ALL {
        let of = format!("{} roller, ", roller.word());
        rows.part(&of, &result.roller_rows(roller, system));
    }
    rows.part("", &result.cut_rows(system));
    rows_to_paste(&rows.rows)
}

struct Rows {
    rows: Vec<Vec<String>>,
    system: System,
}

impl Rows {
    fn add(&mut self, name: &str, value: String, unit: &str) {
        self.rows
            .push(vec![name.to_owned(), value, unit.to_owned()]);
    }

    /// The figures of a part of the sheet, which begin with its name.
    fn part(&mut self, of: &str, rows: &[PlateRow]) {
        for (name, figure) in rows.iter().flat_map(|row| &row.figures) {
            self.figure(&format!("{of}{name}"), *figure);
        }
    }

    fn figure(&mut self, name: &str, figure: Figure) {
        let system = self.system;
        match figure {
            Figure::Length(length) => {
                self.add(name, length.bare(system), Length::unit_in(system).0);
            }
            Figure::Angle(angle) => self.add(name, angle.bare(system), Angle::unit_in(system).0),
            Figure::Turns(turns) => self.add(name, bare(turns), "turns"),
            Figure::Word(word) => self.add(name, word.to_owned(), ""),
        }
    }
}
