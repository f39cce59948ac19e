//! Tables with headings for a spreadsheet: one for each picture of a unit.

use crate::analysis::knives::{csv, table};
use crate::analysis::why::BudgetOf;
use crate::analysis::{Kinematics, NumberId, Solved};
use crate::drawing::PictureView;
use crate::unit::{RowProblem, write_rows};
use crate::units::System;

/// The table that goes with a picture, its cells parted by tabs: what a spreadsheet takes when it is
/// pasted. With the map go the knives, with the blades' path its numbers, with the budgets their steps,
/// with every other picture the unit's numbers.
///
/// # Errors
/// When a row cannot be written; plain texts always can.
pub fn table_to_paste(
    solved: &Solved,
    view: PictureView,
    system: System,
) -> Result<String, RowProblem> {
    let rows = match view {
        PictureView::Map => return with_tabs(&csv(solved, &table(solved), system)?),
        PictureView::Budget => budgets(solved, system),
        PictureView::Path | PictureView::Motion => path(solved, system),
        PictureView::Whole | PictureView::Lens | PictureView::Ground => numbers(solved, system),
    };
    rows_to_paste(&rows)
}

/// Rows of cells with headings as a spreadsheet takes them when they are pasted: their cells parted by
/// tabs, and none of them taken for a formula.
///
/// # Errors
/// When a row cannot be written; plain texts always can.
pub fn rows_to_paste(rows: &[Vec<String>]) -> Result<String, RowProblem> {
    let rows = rows.iter().map(|row| row.iter().map(String::as_str));
    with_tabs(&write_rows(rows)?)
}

fn heads(heads: [&str; 2]) -> Vec<Vec<String>> {
    vec![heads.map(str::to_owned).to_vec()]
}

fn numbers(solved: &Solved, system: System) -> Vec<Vec<String>> {
    let mut rows = heads(["number", "value"]);
    let numbers = solved.solution.numbers();
    for id in NumberId::ALL {
        if let Some(shown) = numbers.shown(id, system) {
            rows.push(vec![id.name().to_owned(), shown]);
        }
    }
    rows
}

fn budgets(solved: &Solved, system: System) -> Vec<Vec<String>> {
    let mut rows = heads(["step", "height"]);
    for of in BudgetOf::ALL {
        let budget = of.of(&solved.case());
        rows.push(vec![of.title().to_owned(), String::new()]);
        for step in &budget.steps {
            let shown = step
                .none_told()
                .map_or_else(|| step.shown_in(system), |looked| looked.word().to_owned());
            rows.push(vec![step.kind.name().to_owned(), shown]);
        }
        let left = system.in_column(budget.left());
        rows.push(vec!["clearance to soil".to_owned(), left]);
    }
    rows
}

fn path(solved: &Solved, system: System) -> Vec<Vec<String>> {
    let mut rows = heads(["number", "value"]);
    let kinematics = Kinematics::of(&solved.unit, &solved.solution);
    for number in kinematics
        .iter()
        .flat_map(|kinematics| kinematics.told(system))
    {
        rows.push(vec![number.name.to_owned(), number.shown]);
    }
    rows
}

/// Rows parted by commas as rows parted by tabs.
fn with_tabs(rows: &str) -> Result<String, RowProblem> {
    let problem = |error: &dyn std::fmt::Display| RowProblem::NoTable(error.to_string());
    let mut reader = ::csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(rows.as_bytes());
    let mut writer = ::csv::WriterBuilder::new()
        .delimiter(b'\t')
        .flexible(true)
        .from_writer(Vec::new());
    for row in reader.records() {
        let row = row.map_err(|error| problem(&error))?;
        writer.write_record(&row).map_err(|error| problem(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| problem(&error))?;
    String::from_utf8(bytes).map_err(|error| problem(&error))
}
