//! Knives as rows: pasted from a spreadsheet, read from a CSV file, written to one.

use std::path::Path;

use egui::{Grid, Id, ScrollArea, Sense, TextEdit, Ui, Vec2};

use crate::analysis::Level;
use crate::app::areas::knives::worked_out::WorkedOut;
use crate::app::desk::{Ask, Card, Change, Desk, Next};
use crate::app::files::{ask, ask_place, file_stem_for};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::store::{self, ReadProblem};
use crate::unit::{COLUMNS, Knife, knife_cells, most, read_knife_rows};
use crate::units::{Quoted, System, clipped};

/// Rows being pasted.
#[derive(Clone, Debug, Default)]
struct Pasting {
    text: String,
    /// The units that bare numbers are read in; none for the reader's own.
    read_in: Option<System>,
    problem: Option<String>,
    /// Whether the cursor was put into the text, ready to paste.
    has_begun: bool,
}

/// Buttons that bring knives in and out.
pub fn rows_buttons_ui(ui: &mut Ui, desk: &mut Desk, worked_out: Option<&mut WorkedOut>) {
    if ui
        .button("Paste rows…")
        .on_hover_text("Several knives at once, from a spreadsheet")
        .clicked()
    {
        let text = ui.data(|data| data.get_temp(left_rows()));
        desk.open_card(Pasting {
            text: text.unwrap_or_default(),
            ..Pasting::default()
        });
    }
    if ui
        .button("Read CSV…")
        .on_hover_text("Add the knives of a CSV file")
        .clicked()
    {
        read_rows(desk);
    }
    if ui
        .button("Write CSV…")
        .on_hover_text("The knives with what was found about them")
        .clicked()
    {
        write_rows(desk, worked_out);
    }
}

fn read_rows(desk: &mut Desk) {
    let session = desk.session().id();
    ask(desk, &Ask::RowsToRead, move |desk, file| {
        let Some(file) = file else { return false };
        if desk.session().id() != session {
            desk.warn("No knife was added: another unit has come to the front since.");
            return false;
        }
        read_rows_of(desk, &file)
    });
}

/// Whether there are knives to add.
fn read_rows_of(desk: &mut Desk, file: &Path) -> bool {
    let text = store::read_text(file, most::ROWS_BYTES).map_err(|problem| match problem {
        ReadProblem::NoText { .. } => {
            format!("{problem}; save it as CSV UTF-8 from the spreadsheet")
        }
        _ => problem.to_string(),
    });
    let system = desk.system();
    // What is read is shown before it is added.
    let read = text.and_then(|text| checked_rows(&text, system).map(|_| text));
    let is_done = read.is_ok();
    match read {
        Ok(text) => desk.open_card(Pasting {
            text,
            has_begun: true,
            ..Pasting::default()
        }),
        Err(what) => {
            let file = file.display();
            desk.warn(format!("No knife was added: {what}. File: {file}"));
        }
    }
    is_done
}

fn write_rows(desk: &mut Desk, worked_out: Option<&mut WorkedOut>) {
    if let Some(why) = desk.why_not_current() {
        desk.warn(format!("Not written. {why}"));
        return;
    }
    let Some(worked_out) = worked_out else {
        return;
    };
    let text = match worked_out.csv() {
        Ok(text) => text,
        Err(problem) => {
            desk.warn(format!("Not written. {problem}"));
            return;
        }
    };
    let name = format!("{}-knives.csv", file_stem_for(&desk.document().name));
    let place = Ask::PlaceForRows(name);
    ask_place(desk, &place, &["csv", "tsv", "txt"], move |file| {
        let shown = file.display();
        match store::write_whole(file, text.as_bytes()) {
            Ok(()) => Ok(format!("Wrote {shown}")),
            Err(error) => Err(format!("Not written: {error}. File: {shown}")),
        }
    });
}

impl Card for Pasting {
    fn name(&self) -> &'static str {
        "paste knives"
    }

    fn width(&self) -> f32 {
        700.0
    }

    /// The card that takes rows from a spreadsheet.
    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let system = self.read_in.unwrap_or(desk.system());
        ui.label(Lettering::CardTitle.of("Paste knives"));
        ui.label(format!(
            "One row a knife: {}. Separate cells by tabs, semicolons or commas. With a heading row, columns may come in any order; price and notes may be left out. A bare number is read in {}.",
            COLUMNS.join(", "),
            unit_name(system)
        ));
        ui.add_space(6.0);
        let response = ScrollArea::vertical()
            .max_height(150.0)
            .show(ui, |ui| {
                ui.add(
                    TextEdit::multiline(&mut self.text)
                        .desired_rows(6)
                        .desired_width(f32::INFINITY)
                        .hint_text("long\t1.65\t2.65\t0.12\t0.5\t0.25\t52.00"),
                )
            })
            .inner
            .accessible_name("Rows of knives");
        if !self.has_begun {
            response.request_focus();
            self.has_begun = true;
        }
        if response.changed() {
            self.problem = None;
        }
        ui.data_mut(|data| data.insert_temp(left_rows(), self.text.clone()));
        if let Some(problem) = &self.problem {
            problem_ui(ui, problem);
        }
        self.preview_ui(ui, desk, system);
        ui.add_space(8.0);
        let (mut is_taken, mut is_over) = (false, false);
        ui.horizontal(|ui| {
            is_taken = ui.button("Add these knives").clicked();
            is_over = ui.button("Cancel").clicked();
        });
        if is_taken {
            match add_rows(desk, &self.text, system) {
                Ok(told) => {
                    desk.tell(told);
                    ui.data_mut(|data| data.remove::<String>(left_rows()));
                    return Next::Close;
                }
                Err(what) => self.problem = Some(what),
            }
        }
        if is_over {
            ui.data_mut(|data| data.remove::<String>(left_rows()));
            Next::Close
        } else {
            Next::Stay
        }
    }

    fn yields_to_a_click(&self) -> bool {
        self.text.trim().is_empty()
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

/// Where rows are kept that Escape left without adding them: they stand there again.
fn left_rows() -> Id {
    Id::unique("rows of knives left")
}

impl Pasting {
    /// The unit that bare numbers are read in.
    fn units_ui(&mut self, ui: &mut Ui, system: System) {
        ui.horizontal(|ui| {
            ui.label("Bare numbers are");
            for choice in [System::Millimetre, System::InchDecimal] {
                let is_chosen = unit_name(choice) == unit_name(system);
                let button = egui::Button::selectable(is_chosen, unit_name(choice));
                if ui.add(button.frame_when_inactive(true)).clicked() {
                    self.read_in = Some(choice);
                    self.problem = None;
                }
            }
        });
    }

    /// What the rows are read as, before any of them is added.
    fn preview_ui(&mut self, ui: &mut Ui, desk: &Desk, system: System) {
        if self.text.trim().is_empty() {
            return;
        }
        ui.add_space(6.0);
        if carries_units(&self.text) {
            ui.label("Every length has its unit, in its cell or in the heading.");
        } else {
            self.units_ui(ui, system);
        }
        // What is wrong is told when it is to be added.
        let Ok(knives) = checked_rows(&self.text, system) else {
            return;
        };
        if let Some(question) = question(desk, &knives, system) {
            note_ui(ui, Level::Watch, &question);
        }
        let told = match knives.len() {
            1 => "One knife is read:".to_owned(),
            n if n > PREVIEWED => format!("{n} knives are read, the first {PREVIEWED}:"),
            n => format!("{n} knives are read:"),
        };
        ui.label(told);
        ScrollArea::both()
            .id_salt("preview")
            .max_height(150.0)
            .show(ui, |ui| {
                Grid::new("preview").striped(true).show(ui, |ui| {
                    for head in COLUMNS {
                        ui.label(Lettering::Note.of(head).weak());
                    }
                    ui.end_row();
                    for knife in knives.iter().take(PREVIEWED) {
                        for cell in knife_cells(knife) {
                            ui.label(clipped(&cell, 40).to_string());
                        }
                        ui.end_row();
                    }
                });
            });
    }
}

/// Whether rows are read the same whichever unit bare numbers are read in.
fn carries_units(text: &str) -> bool {
    let read = |system| checked_rows(text, system);
    match (read(System::Millimetre), read(System::InchDecimal)) {
        (Ok(in_mm), Ok(in_inches)) => in_mm == in_inches,
        _ => false,
    }
}

/// Knives that a preview shows.
const PREVIEWED: usize = 8;
/// From so many times the fitted knife's reach on, or as small a part of it, the unit is asked about.
const FAR_OFF: f64 = 8.0;

/// What to ask about the units of rows; none where their reach is like that of the knife fitted.
fn question(desk: &Desk, knives: &[Knife], system: System) -> Option<String> {
    let document = desk.document();
    let fitted = document.knife_at(document.fitted()?)?.reach.value();
    let far = knives.iter().find_map(|knife| {
        let times = knife.reach.value().mm() / fitted.mm();
        let is_far = times >= FAR_OFF || times <= 1.0 / FAR_OFF;
        is_far.then_some((knife, times))
    });
    let (knife, times) = far?;
    let other = match system {
        System::Millimetre => "inches",
        System::InchDecimal | System::InchFraction => "millimetres",
    };
    let how_far = if times > 1.0 {
        format!("{times:.0} times")
    } else {
        format!("1/{:.0} of", 1.0 / times)
    };
    Some(format!(
        "{} has a reach of {}, {how_far} the fitted knife's: are the numbers {other}?",
        Quoted(&knife.name),
        knife.reach.text(),
    ))
}

/// Why no knife was added.
pub(super) fn problem_ui(ui: &mut Ui, problem: &str) {
    note_ui(ui, Level::Over, &format!("No knife was added: {problem}"));
}

fn note_ui(ui: &mut Ui, level: Level, told: &str) {
    let theme = theme(ui.ctx());
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(18.0), Sense::hover());
        symbol(ui, place, level, theme);
        ui.add(egui::Label::new(told).wrap());
    });
}

pub(super) fn unit_name(system: System) -> &'static str {
    match system {
        System::Millimetre => "millimetres",
        System::InchDecimal | System::InchFraction => "inches",
    }
}

/// The knives of a text, each of which makes sense.
fn checked_rows(text: &str, system: System) -> Result<Vec<Knife>, String> {
    // Spreadsheets put a mark before the first letter of a text in UTF-8.
    let text = text.trim_start_matches('\u{feff}');
    let knives = read_knife_rows(text, system).map_err(|problem| problem.to_string())?;
    for knife in &knives {
        if let Err(flaw) = knife.checked() {
            let (name, field) = (&knife.name, flaw.field.name());
            return Err(format!("{}, {field}: {}", Quoted(name), flaw.kind));
        }
    }
    Ok(knives)
}

/// Adds the knives of a text to a document, all of them or none. What to tell about it.
pub(super) fn add_rows(desk: &mut Desk, text: &str, system: System) -> Result<String, String> {
    let knives = checked_rows(text, system)?;
    let count = knives.len();
    let has_room = desk.document().has_room_for_knives(count);
    has_room.map_err(|problem| problem.to_string())?;
    let wanted: Vec<_> = knives.iter().map(|knife| knife.name.clone()).collect();
    desk.edit(Change::new("Added knives"), |document| {
        document.add_knives(knives);
    });
    let options = &desk.document().options;
    let given = options[options.len().saturating_sub(count)..].iter();
    let mut renamed: Vec<_> = wanted
        .iter()
        .zip(given.map(|knife| &knife.name))
        .filter(|(wanted, given)| wanted != given)
        .map(|(wanted, given)| {
            let (wanted, given) = (Quoted(wanted), Quoted(given));
            format!("{wanted} was taken, so one is called {given}.")
        })
        .collect();
    let untold = renamed.len().saturating_sub(RENAMED_TOLD);
    if untold > 0 {
        renamed.truncate(RENAMED_TOLD);
        renamed.push(format!("So were {untold} more."));
    }
    let added = match count {
        1 => "Added one knife.".to_owned(),
        n => format!("Added {n} knives."),
    };
    Ok(std::iter::once(added)
        .chain(renamed)
        .collect::<Vec<_>>()
        .join(" "))
}

/// Names given to knives whose own was taken, as many as a notice tells.
const RENAMED_TOLD: usize = 3;
