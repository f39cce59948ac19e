//! Knives as rows: pasted from a spreadsheet, or a CSV file in and out (RFC 4180).

use std::borrow::Cow;

use thiserror::Error;

use super::{EntryProblem, FlawKind, Knife, Pieces, most, row_cell, row_head};
use crate::units::{Angle, Length, Measure as _, Quantity, Quoted, System};

/// The columns, in the order in which rows have them; without a heading, the first eight.
pub const COLUMNS: [&str; 13] = [
    "name",
    "reach",
    "width",
    "lip thickness",
    "lip length",
    "body thickness",
    "price",
    "notes",
    "top angle",
    "front angle",
    "metal off top face",
    "metal off front face",
    "quantity",
];

/// Columns that a row cannot do without: the first ones.
pub const NEEDED_COLUMNS: usize = 6;
/// Columns of rows without a heading; what follows is read under its heading alone.
const BARE: usize = 8;

/// Why rows could not be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum RowProblem {
    /// There are none.
    #[error("there are no rows; each is a knife: {}", COLUMNS.join(", "))]
    Empty,
    /// They are more text than rows of knives can be.
    #[error("the rows take {0} bytes; the most is {most}", most = most::ROWS_BYTES)]
    TooLarge(usize),
    /// There are more rows than knives can be compared.
    #[error("there are more than {most} rows of knives; no more can be compared", most = most::KNIVES)]
    TooMany,
    /// The rows are no table.
    #[error("the rows cannot be read as a table: {0}")]
    NoTable(String),
    /// The heading lacks a column.
    #[error("the heading has no column \"{column}\"{unknown}; the columns are {columns}", unknown = told_unknown(.unknown), columns = COLUMNS.join(", "))]
    NoColumn {
        /// The column.
        column: &'static str,
        /// Heads that name no column, one of which may be meant for it.
        unknown: Vec<String>,
    },
    /// A row has cells that no column is for.
    #[error("row {row} has more cells than there are columns; the first over is {}", Quoted(.cell))]
    Surplus {
        /// The line from 1.
        row: u64,
        /// The first cell over.
        cell: String,
    },
    /// A cell is wrong.
    #[error("row {row}, column \"{column}\": {what}")]
    Cell {
        /// The line from 1, heading and blank lines included.
        row: u64,
        /// The column.
        column: &'static str,
        /// What is wrong, and what would be right.
        what: String,
    },
}

/// Reads rows of knives: cells between tabs, semicolons or commas; with or without a heading.
/// A bare number takes the unit of `system`.
///
/// # Errors
/// When a cell is wrong; no row is taken then.
pub fn read_knife_rows(text: &str, system: System) -> Result<Vec<Knife>, RowProblem> {
    if text.len() > most::ROWS_BYTES {
        return Err(RowProblem::TooLarge(text.len()));
    }
    if text.trim().is_empty() {
        return Err(RowProblem::Empty);
    }
    // The first mark that parts a row into as many cells as a knife needs; notes may hold others.
    let is_parted = |&mark: &u8| {
        let first = reader(text, mark).into_records().flatten().find(is_filled);
        first.is_some_and(|record| record.len() >= NEEDED_COLUMNS)
    };
    let delimiter = [b'\t', b';', b',']
        .into_iter()
        .find(is_parted)
        .unwrap_or(b',');
    let mut reader = reader(text, delimiter);
    let mut places: [Option<usize>; COLUMNS.len()] =
        std::array::from_fn(|column| (column < BARE).then_some(column));
    let mut units: [Option<&'static str>; COLUMNS.len()] = [None; COLUMNS.len()];
    let mut knives = Vec::new();
    let mut columns = BARE;
    let mut is_first = true;
    for record in reader.records() {
        let record = record.map_err(|error| RowProblem::NoTable(error.to_string()))?;
        if !is_filled(&record) {
            continue;
        }
        if is_first && record.iter().any(|cell| row_head::column(cell) == "name") {
            places = headed(&record)?;
            let head = |place: Option<usize>| record.get(place?);
            units = places.map(|place| row_head::unit(head(place)?));
            columns = record.len();
        } else {
            let row = record.position().map_or(1, csv::Position::line);
            let mut over = record.iter().skip(columns).map(str::trim);
            if let Some(cell) = over.find(|cell| !cell.is_empty()) {
                let cell = cell.to_owned();
                return Err(RowProblem::Surplus { row, cell });
            }
            if knives.len() == most::KNIVES {
                return Err(RowProblem::TooMany);
            }
            knives.push(knife(&record, (&places, &units), row, system)?);
        }
        is_first = false;
    }
    if knives.is_empty() {
        Err(RowProblem::Empty)
    } else {
        Ok(knives)
    }
}

fn reader(text: &str, delimiter: u8) -> csv::Reader<&[u8]> {
    csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text.as_bytes())
}

fn is_filled(record: &csv::StringRecord) -> bool {
    record.iter().any(|cell| !cell.trim().is_empty())
}

/// Where each column stands under a heading; columns of other names are passed over.
fn headed(record: &csv::StringRecord) -> Result<[Option<usize>; COLUMNS.len()], RowProblem> {
    let place = |column| {
        record
            .iter()
            .position(|cell| row_head::column(cell) == column)
    };
    let places = COLUMNS.map(place);
    match places.iter().take(NEEDED_COLUMNS).position(Option::is_none) {
        Some(missing) => {
            let heads = record.iter().map(str::trim);
            let unknown = heads.filter(|head| {
                !head.is_empty() && !COLUMNS.contains(&row_head::column(head).as_str())
            });
            Err(RowProblem::NoColumn {
                column: COLUMNS[missing],
                unknown: unknown.map(str::to_owned).collect(),
            })
        }
        None => Ok(places),
    }
}

/// Which heads name no column, as many as are read at a glance.
fn told_unknown(heads: &[String]) -> String {
    let told: Vec<_> = heads
        .iter()
        .take(3)
        .map(|head| Quoted(head).to_string())
        .collect();
    match told.as_slice() {
        [] => String::new(),
        [one] => format!("; {one} is not known: rename it if it is meant"),
        several => format!(
            "; {} are not known: rename the one that is meant",
            several.join(", ")
        ),
    }
}

fn knife(
    record: &csv::StringRecord,
    (places, units): (
        &[Option<usize>; COLUMNS.len()],
        &[Option<&'static str>; COLUMNS.len()],
    ),
    row: u64,
    system: System,
) -> Result<Knife, RowProblem> {
    let cell = |column: usize| {
        places[column]
            .and_then(|place| record.get(place))
            .map_or("", row_cell::read)
    };
    let wrong = |column: usize, what: String| RowProblem::Cell {
        row,
        column: COLUMNS[column],
        what,
    };
    let length = |column: usize| {
        let unit = units[column].unwrap_or(Length::unit_in(system).0);
        let quantity = Quantity::<Length>::typed(&row_head::with_point(cell(column)), unit)
            .map_err(|problem| wrong(column, problem.to_string()))?;
        if quantity.value().mm() > 0.0 {
            Ok(quantity)
        } else {
            let flaw = FlawKind::NotAboveZero(cell(column).to_owned());
            Err(wrong(column, flaw.to_string()))
        }
    };
    let angle = |column: usize| {
        let text = cell(column);
        let read = || Quantity::<Angle>::typed(text, Angle::unit_in(system).0);
        let angle = (!text.trim().is_empty()).then(read).transpose();
        angle.map_err(|problem| wrong(column, problem.to_string()))
    };
    let ground = |column: usize| {
        let text = cell(column);
        let unit = units[column].unwrap_or(Length::unit_in(system).0);
        let read = || Quantity::<Length>::typed(&row_head::with_point(text), unit);
        let ground = (!text.trim().is_empty()).then(read).transpose();
        ground.map_err(|problem| wrong(column, problem.to_string()))
    };
    let quantity = match cell(12).trim() {
        "" => Pieces::default(),
        text => Pieces(
            text.parse()
                .map_err(|_| wrong(12, EntryProblem::NoCount.to_string()))?,
        ),
    };
    if cell(0).trim().is_empty() {
        return Err(wrong(0, "a knife needs a name".to_owned()));
    }
    let kept = |column: usize| Some(cell(column).to_owned()).filter(|text| !text.is_empty());
    Ok(Knife {
        name: cell(0).to_owned(),
        reach: length(1)?,
        width: length(2)?,
        lip_thickness: length(3)?,
        lip_length: length(4)?,
        body_thickness: length(5)?,
        price: kept(6),
        notes: kept(7),
        top_angle: angle(8)?,
        front_angle: angle(9)?,
        top_ground: ground(10)?,
        face_ground: ground(11)?,
        quantity,
    })
}

/// The cells of a knife, in the order of [`COLUMNS`]; what is left out is blank.
#[must_use]
pub fn knife_cells(knife: &Knife) -> [Cow<'_, str>; COLUMNS.len()] {
    let quantity = if knife.quantity.is_one() {
        Cow::Borrowed("")
    } else {
        Cow::Owned(knife.quantity.0.to_string())
    };
    let texts: [&str; COLUMNS.len()] = [
        &knife.name,
        knife.reach.text(),
        knife.width.text(),
        knife.lip_thickness.text(),
        knife.lip_length.text(),
        knife.body_thickness.text(),
        knife.price.as_deref().unwrap_or_default(),
        knife.notes.as_deref().unwrap_or_default(),
        knife.top_angle.as_ref().map_or("", Quantity::text),
        knife.front_angle.as_ref().map_or("", Quantity::text),
        knife.top_ground.as_ref().map_or("", Quantity::text),
        knife.face_ground.as_ref().map_or("", Quantity::text),
        "",
    ];
    let mut cells = texts.map(Cow::Borrowed);
    cells[texts.len() - 1] = quantity;
    cells
}

/// Rows as CSV text that [`read_knife_rows`] gives the same cells of, and that no spreadsheet takes
/// for formulas.
///
/// # Errors
/// When they are more text than can be read again.
pub fn write_rows<'a, R, C>(rows: R) -> Result<String, RowProblem>
where
    R: IntoIterator<Item = C>,
    C: IntoIterator<Item = &'a str>,
{
    let problem = |error: &dyn std::fmt::Display| RowProblem::NoTable(error.to_string());
    let mut writer = csv::Writer::from_writer(Vec::new());
    for row in rows {
        let cells = row.into_iter().map(row_cell::written);
        let cells: Vec<_> = cells.collect();
        let bytes = cells.iter().map(|cell| cell.as_bytes());
        writer
            .write_record(bytes)
            .map_err(|error| problem(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| problem(&error))?;
    if bytes.len() > most::ROWS_BYTES {
        return Err(RowProblem::TooLarge(bytes.len()));
    }
    String::from_utf8(bytes).map_err(|error| problem(&error))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_that_make_no_table_are_a_problem_and_no_text() {
        let uneven = write_rows([vec!["name", "reach"], vec!["long"]]);
        assert!(matches!(uneven, Err(RowProblem::NoTable(_))), "{uneven:?}");
    }

    #[test]
    fn rows_pasted_from_a_spreadsheet_are_read_with_or_without_a_heading() {
        let bare =
            "long\t1.65\t2.65\t0.12\t1/2\t0.25\t$ 52\n\nshort\t1-3/8 in\t60 mm\t3 mm\t.5\t0.25\n";
        let knives = read_knife_rows(bare, System::InchDecimal).unwrap();
        assert_eq!(knives.len(), 2);
        assert_eq!(
            (knives[0].reach.text(), knives[0].price.as_deref()),
            ("1.65 in", Some("$ 52"))
        );
        assert_eq!(knives[1].width.text(), "60 mm");
        let headed = "Price;Name;Reach;Width;Lip thickness;lip_length;Body thickness;maker's mark\n9;a;1;2;.1;.5;.2;x";
        let knives = read_knife_rows(headed, System::InchDecimal).unwrap();
        assert_eq!(
            (knives[0].name.as_str(), knives[0].price.as_deref()),
            ("a", Some("9"))
        );
    }

    #[test]
    fn a_wrong_cell_is_told_by_row_and_column() {
        let text = "name,reach,width,lip thickness,lip length,body thickness\na,1,2,.1,.5,.2\nb,1,wide,.1,.5,.2";
        let problem = read_knife_rows(text, System::InchDecimal)
            .unwrap_err()
            .to_string();
        assert!(
            problem.starts_with("row 3, column \"width\": "),
            "{problem}"
        );
        assert!(matches!(
            read_knife_rows(" \n", System::InchDecimal),
            Err(RowProblem::Empty)
        ));
        let glued = "a,1,2,.1,.5,.2,9,noteb,1,2,.1,.5,.2";
        let problem = read_knife_rows(glued, System::InchDecimal).unwrap_err();
        let cell = "1".to_owned();
        assert_eq!(problem, RowProblem::Surplus { row: 1, cell });
        let noted = "a,1,2,.1,.5,.2,9,first; second\n\n,,,\nb,1,2,.1,wide,.2";
        let problem = read_knife_rows(noted, System::InchDecimal).unwrap_err();
        assert!(
            problem
                .to_string()
                .starts_with("row 4, column \"lip length\""),
            "{problem}"
        );
        let problem = read_knife_rows("name,reach\na,1", System::InchDecimal).unwrap_err();
        let told = problem.to_string();
        assert!(!told.contains("not known"), "{told}");
        let no_column = |column, unknown: &[&str]| RowProblem::NoColumn {
            column,
            unknown: unknown.iter().map(|head| (*head).to_owned()).collect(),
        };
        assert_eq!(problem, no_column("width", &[]));
        let heads = "name,reach,width,Lip strength (mm),lip length,body thickness\na,1,2,.1,.5,.2";
        let problem = read_knife_rows(heads, System::InchDecimal).unwrap_err();
        assert_eq!(problem, no_column("lip thickness", &["Lip strength (mm)"]));
        let told = problem.to_string();
        let pointed_at =
            "no column \"lip thickness\"; \"Lip strength (mm)\" is not known: rename it";
        assert!(told.contains(pointed_at), "{told}");
    }

    #[test]
    fn knives_written_as_rows_come_back() {
        let text = "name,reach,width,lip thickness,lip length,body thickness,price,notes,top angle,front angle,metal off top face,metal off front face,quantity\n\"a, \"\"b\"\"\",1-3/8 in,60 mm,3 mm,0.5 in,0.25 in,12,ask first,5 deg,,0.01 in,,12\n";
        let knives = read_knife_rows(text, System::InchDecimal).unwrap();
        assert_eq!(knives[0].quantity, Pieces(12));
        let own = knife_cells(&knives[0]);
        let rows = [COLUMNS.to_vec(), own.iter().map(AsRef::as_ref).collect()];
        assert_eq!(write_rows(rows).unwrap(), text);
        // As the heads were once written.
        let old = text
            .replace("metal off top face", "top ground")
            .replace("metal off front face", "face ground");
        assert_eq!(read_knife_rows(&old, System::InchDecimal).unwrap(), knives);
        let wrong = text.replace(",12\n", ",a dozen\n");
        let problem = read_knife_rows(&wrong, System::InchDecimal).unwrap_err();
        let told = problem.to_string();
        assert!(told.starts_with("row 2, column \"quantity\""), "{told}");
    }
}
