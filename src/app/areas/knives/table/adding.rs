//! A new knife to compare: a blank row, no part of the unit until it is filled.

use egui::{Grid, Id, ScrollArea, TextEdit, Ui};

use super::rows::{add_rows, problem_ui, unit_name};
use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::lettering::Lettering;
use crate::unit::{COLUMNS, NEEDED_COLUMNS, write_rows};

/// What was typed, in the order of [`COLUMNS`].
type Cells = [String; COLUMNS.len()];

/// A knife being described.
#[derive(Clone, Debug, Default)]
pub struct Adding {
    cells: Cells,
    problem: Option<String>,
    /// Whether the cursor was put into the first field.
    has_begun: bool,
}

impl Adding {
    /// A card with what Escape left on it, or a blank one.
    pub fn with_what_was_left(ui: &Ui) -> Self {
        let cells = ui.data(|data| data.get_temp(left_knife()));
        Self {
            cells: cells.unwrap_or_default(),
            ..Self::default()
        }
    }
}

impl Card for Adding {
    fn name(&self) -> &'static str {
        "add a knife"
    }

    fn width(&self) -> f32 {
        520.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let system = desk.system();
        ui.label(Lettering::CardTitle.of("Add a knife"));
        ui.label(format!(
            "From the supplier's drawing. A bare number is read in {}. It is compared once it is filled in; price and what comes after it may stay blank.",
            unit_name(system)
        ));
        ui.add_space(6.0);
        ScrollArea::vertical().max_height(360.0).show(ui, |ui| {
            Grid::new("new knife").num_columns(2).show(ui, |ui| {
                for (column, cell) in COLUMNS.iter().zip(&mut self.cells) {
                    ui.label(*column);
                    let response = ui
                        .add(TextEdit::singleline(cell).desired_width(260.0))
                        .accessible_name(format!("New knife, {column}"));
                    if !self.has_begun {
                        response.request_focus();
                        self.has_begun = true;
                    }
                    if response.changed() {
                        self.problem = None;
                    }
                    ui.end_row();
                }
            });
        });
        ui.data_mut(|data| data.insert_temp(left_knife(), self.cells.clone()));
        if let Some(problem) = &self.problem {
            problem_ui(ui, problem);
        }
        ui.add_space(8.0);
        let (mut is_taken, mut is_over) = (false, false);
        ui.horizontal(|ui| {
            is_taken = ui.button("Add this knife").clicked();
            is_over = ui.button("Cancel").clicked();
        });
        let mut needed = COLUMNS.iter().zip(&self.cells).take(NEEDED_COLUMNS);
        let blank = needed.find(|(_, cell)| cell.trim().is_empty());
        if is_taken && let Some((column, _)) = blank {
            self.problem = Some(format!("the {column} is still blank"));
        } else if is_taken {
            let cells = self.cells.iter().map(String::as_str);
            let rows = [COLUMNS.to_vec(), cells.collect()];
            let text = write_rows(rows).map_err(|problem| problem.to_string());
            match text.and_then(|text| add_rows(desk, &text, system)) {
                Ok(told) => {
                    desk.tell(told);
                    ui.data_mut(|data| data.remove::<Cells>(left_knife()));
                    return Next::Close;
                }
                Err(what) => self.problem = Some(what),
            }
        }
        if is_over {
            ui.data_mut(|data| data.remove::<Cells>(left_knife()));
            Next::Close
        } else {
            Next::Stay
        }
    }

    fn yields_to_a_click(&self) -> bool {
        self.cells.iter().all(|cell| cell.trim().is_empty())
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

/// Where a knife is kept that Escape left without adding it: it stands there again.
fn left_knife() -> Id {
    Id::unique("new knife left")
}
