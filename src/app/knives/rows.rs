//! Knives as rows: pasted from a spreadsheet, read from a CSV file, written to one.

use egui::{RichText, ScrollArea, Sense, TextEdit, Ui, Vec2};

use super::super::App;
use super::super::card::card;
use super::super::field::symbol;
use super::super::files::file_stem_for;
use super::super::look::strong;
use crate::analysis::Level;
use crate::analysis::knives::csv;
use crate::store::{self, ReadProblem};
use crate::unit::{COLUMNS, Document, read_knife_rows};
use crate::units::System;

/// Rows being pasted.
#[derive(Clone, Debug, Default)]
pub(super) struct Pasting {
    text: String,
    problem: Option<String>,
    /// Whether the cursor was put into the text, ready to paste.
    has_begun: bool,
}

impl App {
    /// Buttons that bring knives in and out.
    pub(super) fn rows_buttons_ui(&mut self, ui: &mut Ui) {
        if ui
            .button("Paste rows…")
            .on_hover_text("Several knives at once, from a spreadsheet")
            .clicked()
        {
            self.knives.table.pasting = Some(Pasting::default());
        }
        if ui
            .button("Read CSV…")
            .on_hover_text("Add the knives of a CSV file")
            .clicked()
        {
            self.read_rows();
        }
        if ui
            .button("Write CSV…")
            .on_hover_text("The knives with what was found about them")
            .clicked()
        {
            self.write_rows();
        }
    }

    fn read_rows(&mut self) {
        let Some(file) = self.dialogs.rows_to_read() else {
            return;
        };
        let text = store::read_text(&file).map_err(|problem| match problem {
            ReadProblem::NoText { .. } => {
                format!("{problem}; save it as CSV UTF-8 from the spreadsheet")
            }
            _ => problem.to_string(),
        });
        let system = self.system();
        match text.and_then(|text| add_rows(&mut self.session.document, &text, system)) {
            Ok(told) => self.tell(told),
            Err(what) => self.warn(format!("No knife was added. {}: {what}", file.display())),
        }
    }

    fn write_rows(&mut self) {
        if let Some(why) = self.why_not_current() {
            self.warn(format!("Not written. {why}"));
            return;
        }
        let name = format!("{}-knives.csv", file_stem_for(&self.session.document.name));
        let Some(file) = self.dialogs.rows_to_write(&name) else {
            return;
        };
        let Some(file) = self.whole_name(&file, "csv") else {
            return;
        };
        let (Some(good), Some(worked_out)) = (self.session.good(), &self.knives.worked_out) else {
            return;
        };
        let text = match csv(good, &worked_out.rows, self.system()) {
            Ok(text) => text,
            Err(problem) => {
                self.warn(format!("Not written. {problem}"));
                return;
            }
        };
        match store::write_whole(&file, text.as_bytes()) {
            Ok(()) => self.tell(format!("Wrote {}", file.display())),
            Err(error) => self.warn(format!("Not written. {}: {error}", file.display())),
        }
    }

    /// The card that takes rows from a spreadsheet.
    pub(super) fn paste_card_ui(&mut self, ui: &Ui) {
        let Some(pasting) = &mut self.knives.table.pasting else {
            return;
        };
        let theme = Self::theme(ui.ctx());
        let system = self
            .preferences
            .system
            .unwrap_or_else(|| self.session.document.system());
        let (mut is_taken, mut is_over) = (false, false);
        let modal = card(ui.ctx(), "paste knives", 700.0, |ui| {
            ui.label(RichText::new("Paste knives").family(strong()).size(18.0));
            ui.label(format!(
                "One row a knife: {}. Cells may stand between tabs, semicolons or commas. With a heading, columns may stand in any order; price and notes may be left out. A bare number is read in {}.",
                COLUMNS.join(", "),
                unit_name(system)
            ));
            ui.add_space(6.0);
            let response = ScrollArea::vertical()
                .max_height(260.0)
                .show(ui, |ui| {
                    ui.add(
                        TextEdit::multiline(&mut pasting.text)
                            .desired_rows(10)
                            .desired_width(f32::INFINITY)
                            .hint_text("long\t1.65\t2.65\t0.12\t0.5\t0.25\t52.00"),
                    )
                })
                .inner
                .accessible_name("Rows of knives");
            if !pasting.has_begun {
                response.request_focus();
                pasting.has_begun = true;
            }
            if response.changed() {
                pasting.problem = None;
            }
            if let Some(problem) = &pasting.problem {
                ui.horizontal_top(|ui| {
                    let (place, _) = ui.allocate_exact_size(Vec2::splat(18.0), Sense::hover());
                    symbol(ui, place, Level::Over, theme);
                    ui.add(egui::Label::new(format!("No knife was added: {problem}")).wrap());
                });
            }
            ui.add_space(8.0);
            ui.horizontal(|ui| {
                is_taken = ui.button("Add these knives").clicked();
                is_over = ui.button("Leave it").clicked();
            });
        });
        if is_taken {
            match add_rows(&mut self.session.document, &pasting.text, system) {
                Ok(told) => {
                    self.knives.table.pasting = None;
                    self.tell(told);
                    ui.ctx().request_repaint();
                }
                Err(what) => pasting.problem = Some(what),
            }
        } else if is_over || modal.should_close() && pasting.text.trim().is_empty() {
            self.knives.table.pasting = None;
        }
    }
}

fn unit_name(system: System) -> &'static str {
    match system {
        System::Millimetre => "millimetres",
        System::InchDecimal | System::InchFraction => "inches",
    }
}

/// Adds the knives of a text to a document, all of them or none. What to tell about it.
fn add_rows(document: &mut Document, text: &str, system: System) -> Result<String, String> {
    // Spreadsheets put a mark before the first letter of a text in UTF-8.
    let text = text.trim_start_matches('\u{feff}');
    let knives = read_knife_rows(text, system).map_err(|problem| problem.to_string())?;
    for knife in &knives {
        if let Err(flaw) = knife.checked() {
            let (name, field) = (&knife.name, flaw.field.name());
            return Err(format!("\"{name}\", {field}: {}", flaw.kind));
        }
    }
    let mut tried = document.clone();
    let mut renamed = Vec::new();
    let count = knives.len();
    for knife in knives {
        let wanted = knife.name.clone();
        let given = tried.add_knife(knife);
        if given != wanted {
            renamed.push(format!(
                "\"{wanted}\" was taken, so one is called \"{given}\"."
            ));
        }
    }
    *document = tried;
    let added = match count {
        1 => "Added one knife.".to_owned(),
        n => format!("Added {n} knives."),
    };
    Ok(std::iter::once(added)
        .chain(renamed)
        .collect::<Vec<_>>()
        .join(" "))
}
