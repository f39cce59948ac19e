//! Tables with headings for a spreadsheet: one for each picture of a unit.

use crate::analysis::knives::{rank, sum_text, table};
use crate::analysis::uncertainty::Sure;
use crate::analysis::why::BudgetOf;
use crate::analysis::{Kinematics, NumberId, Solved};
use crate::drawing::PictureView;
use crate::unit::{RowProblem, write_rows};
use crate::units::{Length, Measure as _, System, Value};

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
        PictureView::Map => knives(solved, in_decimals(system)),
        PictureView::Budget => budgets(solved, system),
        PictureView::Path | PictureView::Motion => path(solved, system),
        PictureView::Whole | PictureView::Lens | PictureView::Ground => {
            numbers(solved, in_decimals(system))
        }
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

fn heads<const N: usize>(heads: [&str; N]) -> Vec<Vec<String>> {
    vec![heads.map(str::to_owned).to_vec()]
}

/// A spreadsheet reckons with decimals and takes fractions for words.
const fn in_decimals(system: System) -> System {
    match system {
        System::InchFraction => System::InchDecimal,
        other => other,
    }
}

/// A quantity as a number and its unit, with the digits that are shown; a roller's move is a length, up
/// positive.
fn number_and_unit(value: Value, system: System) -> [String; 2] {
    let value = match value {
        Value::Move(by) | Value::MoveOf(_, by) => Value::Length(by),
        other => other,
    };
    let shown = value.shown_in(system);
    let is_of_number = |letter: char| letter.is_ascii_digit() || "+-.".contains(letter);
    let end = shown.find(|letter| !is_of_number(letter));
    let (number, unit) = shown.split_at(end.unwrap_or(shown.len()));
    [number.to_owned(), unit.trim().to_owned()]
}

fn numbers(solved: &Solved, system: System) -> Vec<Vec<String>> {
    let mut rows = heads(["number", "value", "unit", "± (95 %)"]);
    let numbers = solved.solution.numbers();
    for id in NumberId::ALL {
        let Some(shown) = numbers.shown(id, system) else {
            continue;
        };
        let name = match numbers.value(id) {
            Some(Value::Move(_)) => format!("{}, raised is positive", id.name()),
            _ => id.name().to_owned(),
        };
        let [value, unit, off] = match numbers.value(id) {
            None => [shown, String::new(), String::new()],
            Some(value) => {
                let [number, unit] = number_and_unit(value, system);
                let off = match solved.sure(id) {
                    Sure::AsSet => String::new(),
                    Sure::NotEntered => "not entered".to_owned(),
                    Sure::Off(off) | Sure::ByLeanAlone(off) => {
                        let [off, _] = number_and_unit(value.with_base(off), system);
                        off
                    }
                };
                [number, unit, off]
            }
        };
        rows.push(vec![name, value, unit, off]);
    }
    rows
}

/// The knives in their order, each with what decides: as many columns as somebody reads.
fn knives(solved: &Solved, system: System) -> Vec<Vec<String>> {
    let length = Length::unit_in(system).0;
    let mut lines = heads([
        "rank",
        "knife",
        "verdict",
        "price",
        "pieces",
        "total",
        "set once from (°)",
        "set once to (°)",
        "room (°)",
        "room ± (°)",
    ]);
    lines[0].extend([
        format!("behind centre ({length})"),
        format!("sweep ({length})"),
        "sweep as % of height of cut".to_owned(),
        format!("underside above the plate ({length})"),
    ]);
    let rows = table(solved);
    let order = rank(&rows, solved, system).ranks.order;
    let bare = |value: Value| {
        let [number, _] = number_and_unit(value, system);
        number
    };
    for (rank, row) in (1..).zip(order.into_iter().filter_map(|index| rows.get(index))) {
        let knife = solved.document.knife_at(row.knife);
        let price = knife.and_then(|knife| knife.price.clone());
        let range = row.set_once.as_ref();
        let solution = row.solution.as_ref().ok();
        let off = row.judgement.off.whole;
        let told = |value: Option<Value>| value.map(bare).unwrap_or_default();
        lines.push(vec![
            i32::to_string(&rank),
            row.name.clone(),
            row.judgement.verdict.word().to_owned(),
            price.unwrap_or_default(),
            row.quantity.0.to_string(),
            row.total().map_or_else(String::new, sum_text),
            told(range.map(|range| range.low.at.into())),
            told(range.map(|range| range.high.at.into())),
            bare(row.room().into()),
            told(off.deg().is_finite().then(|| off.into())),
            told(solution.map(|it| it.sweep.behind_centre.into())),
            told(solution.map(|it| it.sweep.below_cut.into())),
            told(row.sweep_share().map(Value::from)),
            told(solution.map(|it| it.underside_clearance.into())),
        ]);
    }
    lines
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Angle;

    #[test]
    fn a_quantity_is_parted_into_a_number_and_its_unit() {
        let parted = |value: Value| number_and_unit(value, System::InchDecimal);
        assert_eq!(parted(Length::from_inches(0.25).into()), ["0.250", "in"]);
        assert_eq!(parted(Angle::from_deg(-3.5).into()), ["-3.50", "°"]);
        assert_eq!(
            parted(Value::Move(Length::from_inches(-0.125))),
            ["-0.125", "in"]
        );
    }

    #[test]
    fn what_is_pasted_is_numbers_with_their_uncertainty_and_as_many_columns_as_are_read() {
        let text = include_str!("../../demo-units/knife-choice.ron");
        let solved = Solved::of(&crate::unit::read_text(text).unwrap()).unwrap();
        let cells = |view: PictureView| -> Vec<Vec<String>> {
            let pasted = table_to_paste(&solved, view, System::InchFraction).unwrap();
            let lines = pasted.lines();
            lines
                .map(|line| line.split('\t').map(str::to_owned).collect())
                .collect()
        };
        let numbers = cells(PictureView::Whole);
        let sweep = numbers.iter().find(|row| row[0] == "sweep").unwrap();
        let [value, off] = [&sweep[1], &sweep[3]].map(|cell| cell.parse::<f64>().unwrap());
        let shown = solved.solution.sweep.below_cut.inches();
        assert!((value - shown).abs() < 1e-4, "{sweep:?}");
        assert!(sweep[2] == "in" && off > 0.0, "{sweep:?}");
        let knives = cells(PictureView::Map);
        assert_eq!(knives[0].len(), 14);
        assert_eq!(knives.len(), solved.document.knives().count() + 1);
        // The best first, and no number of six decimals.
        assert_eq!(knives[1][..2], ["1", "reaching"]);
        let decimals = |cell: &str| {
            cell.split_once('.')
                .map_or(0, |(_, decimals)| decimals.len())
        };
        assert!(
            knives.iter().flatten().all(|cell| decimals(cell) <= 4),
            "{knives:?}"
        );
    }
}
