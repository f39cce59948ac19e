//! The head of the area: which sheet is open, what comes next, and what is done with the whole sheet.

use egui::{Button, Label, RichText, Ui};

use super::beside::sheets_menu_ui;
use super::fill_card::FillCard;
use super::printing::{to_print, why_not_printable};
use super::steps::{next_page, to_look_at};
use super::worked_out::{SheetUnit, WorkedOut};
use crate::analysis::plate::PlateResult;
use crate::app::desk::{Desk, DeskWork as _, SheetWork, WorkKind};
use crate::app::files::{
    Asking, WorkAsking, ask_first, ask_work_first, choose_work, save_work, save_work_as,
};
use crate::app::widgets::lettering::{Lettering, strong};
use crate::store::SheetBeside;
use crate::units::clipped;

/// Letters of a name that the head shows.
const LONGEST_NAME: usize = 60;

/// The head.
pub fn tools_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    worked_out: &WorkedOut,
    last: Option<&PlateResult>,
    beside: &[SheetBeside],
) {
    ui.add_space(2.0);
    ui.horizontal_wrapped(|ui| {
        if ui.button("New sheet").clicked() {
            ask_work_first(desk, WorkKind::Sheet, WorkAsking::New);
        }
        if ui.button("Open sheet…").clicked() {
            choose_work(desk, WorkKind::Sheet);
        }
        sheets_menu_ui(ui, desk, beside);
        let why_not = desk.sheet().and_then(SheetWork::why_not_savable);
        let save = ui.add_enabled(why_not.is_none(), Button::new("Save sheet"));
        let told = why_not
            .as_ref()
            .map(|why| format!("It cannot be saved yet. {why}"));
        let save = match &told {
            Some(told) => save.on_disabled_hover_text(told),
            None => save,
        };
        if save.clicked() {
            save_work(desk, WorkKind::Sheet, |_, is_saved| is_saved);
        }
        let save_as = ui.add_enabled(why_not.is_none(), Button::new("Save sheet as…"));
        if save_as.clicked() {
            save_work_as(desk, WorkKind::Sheet, |_, is_saved| is_saved);
        }
        ui.separator();
        fill_button_ui(ui, desk, worked_out);
        let why_not = why_not_printable(worked_out);
        let print_button = Button::new("Print sheet…");
        let button = ui.add_enabled(why_not.is_none(), print_button);
        let button = button.on_hover_text("One page, A4 or Letter");
        let button = match why_not {
            Some(why_not) => button.on_disabled_hover_text(why_not),
            None => button,
        };
        if button.clicked() {
            match to_print(desk, worked_out) {
                Ok(sheet) => desk.want_sheet(sheet),
                Err(why) => desk.warn(why),
            }
        }
        if ui.button("Close sheet").clicked() {
            ask_work_first(desk, WorkKind::Sheet, WorkAsking::Close);
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.add(Label::new(Lettering::Heading.of(headline(worked_out, last))).wrap());
        ui.separator();
        name_ui(ui, desk, worked_out);
    });
    unit_ui(ui, desk, &worked_out.unit);
    ui.add_space(2.0);
}

/// What the sheet comes to, in a line: by the last numbers that made sense, as the list of steps.
fn headline(worked_out: &WorkedOut, result: Option<&PlateResult>) -> String {
    match next_page(result) {
        None => match to_look_at(result, worked_out.hours.as_ref()) {
            0 => "Every step is done".to_owned(),
            1 => "Every step is done; the result of one is not OK".to_owned(),
            some => format!("Every step is done; the results of {some} are not OK"),
        },
        Some(page) => format!("Next: {}", page.title()),
    }
}

fn fill_button_ui(ui: &mut Ui, desk: &mut Desk, worked_out: &WorkedOut) {
    let (SheetUnit::InFront(_), Ok(result)) = (&worked_out.unit, &worked_out.result) else {
        let why = "Bring the sheet's unit to the front first";
        ui.add_enabled(false, Button::new("Fill in the unit…"))
            .on_disabled_hover_text(why);
        return;
    };
    let button = ui
        .button("Fill in the unit…")
        .on_hover_text("Puts what was read here into the unit, after showing before and after");
    if button.clicked() {
        desk.open_card(FillCard::new(result));
    }
}

/// The name of the sheet, and whether it wants saving.
fn name_ui(ui: &mut Ui, desk: &Desk, worked_out: &WorkedOut) {
    let Some(sheet) = desk.sheet() else { return };
    let name = sheet.file().and_then(|file| file.file_name());
    let name = name.map_or_else(
        || "New sheet".to_owned(),
        |name| clipped(&name.to_string_lossy(), LONGEST_NAME).to_string(),
    );
    let unit = worked_out.unit.solved().map_or_else(String::new, |unit| {
        format!(", {}", clipped(&unit.document.name, LONGEST_NAME))
    });
    let text = if sheet.has_unsaved() {
        format!("• {name}{unit}, not saved")
    } else {
        format!("{name}{unit}")
    };
    let kept = sheet.file().map_or_else(
        || "Not saved in a file yet".to_owned(),
        |file| file.display().to_string(),
    );
    let label = Label::new(RichText::new(text).family(strong())).wrap();
    ui.add(label).on_hover_text(kept);
}

/// What is not as it should be with the sheet's unit.
fn unit_ui(ui: &mut Ui, desk: &mut Desk, unit: &SheetUnit) {
    match unit {
        SheetUnit::InFront(_) => {}
        SheetUnit::InFile(file, _) => {
            let file = file.clone();
            ui.horizontal_wrapped(|ui| {
                ui.label("This sheet is for another unit than the one in front.");
                if ui.button("Bring its unit to the front").clicked() {
                    ask_first(desk, Asking::Open(file));
                }
            });
        }
        SheetUnit::Unreadable(file, why) => {
            let name = file.file_name().unwrap_or_default().to_string_lossy();
            ui.label(format!(
                "The sheet's unit cannot be used, so turf, bars and expected cut are not known. {name}: {why}"
            ));
        }
        SheetUnit::None => {
            ui.horizontal_wrapped(|ui| {
                ui.label("This sheet names no unit that is known here, so turf, bars and expected cut are not known.");
                let help = "Gives the sheet to the unit in front; its file is named in the sheet once both are saved";
                let button = ui.button("It is for the unit in front").on_hover_text(help);
                if button.clicked() {
                    desk.give_sheet_this_unit();
                }
            });
        }
    }
}
