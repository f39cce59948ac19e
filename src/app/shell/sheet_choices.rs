//! Which sheet is wanted and on what paper, as it is chosen on a card.

use egui::{ComboBox, Ui};

use crate::analysis::why::Complaint;
use crate::app::widgets::list::list_ui;
use crate::drawing::{Page, SheetKind};
use crate::printing::SheetAsked;

/// What a why sheet says where nobody said what is seen.
const BY_HAND: &str = "to be written in by hand";

/// The kinds of sheet, what is seen on the turf for the sheet that asks why, and the paper.
pub fn sheet_choices_ui(ui: &mut Ui, asked: &mut SheetAsked) {
    ui.label("What for");
    kinds_ui(ui, asked, &mut false);
}

/// The same with the handout of a lesson before the sheets of the unit in front.
pub fn lesson_choices_ui(ui: &mut Ui, asked: &mut SheetAsked, is_handout: &mut bool) {
    ui.label("What for");
    if ui
        .radio(*is_handout, "Handout of the lesson")
        .on_hover_text("The steps with pictures, texts and numbers, for whoever was in the room.")
        .clicked()
    {
        *is_handout = true;
    }
    ui.label("Of the unit in front");
    kinds_ui(ui, asked, is_handout);
}

/// The kinds of a unit's sheet, none of them chosen while another sheet is.
fn kinds_ui(ui: &mut Ui, asked: &mut SheetAsked, is_other: &mut bool) {
    for kind in SheetKind::ALL {
        let is_chosen = asked.kind == kind && !*is_other;
        let choice = ui.radio(is_chosen, kind.name());
        if choice.on_hover_text(kind.meaning()).clicked() {
            asked.kind = kind;
            *is_other = false;
        }
    }
    // Greyed for the other kinds, so that what stands below stays where it is.
    let asks_why = asked.kind == SheetKind::Why && !*is_other;
    ui.add_enabled_ui(asks_why, |ui| {
        let complaint = asked.complained.complaint;
        let shown = complaint.map_or(BY_HAND, Complaint::name);
        let list = ComboBox::from_id_salt("sheet complaint")
            .width(200.0)
            .selected_text(shown);
        list_ui(ui, list, |ui, list| {
            if list.offer(ui, complaint.is_none(), BY_HAND) {
                asked.complained.complaint = None;
            }
            for one in Complaint::ALL {
                if list.offer(ui, complaint == Some(one), one.name()) {
                    asked.complained.complaint = Some(one);
                }
            }
        })
        .accessible_name("What is seen on the turf");
    });
    ui.add_space(6.0);
    paper_ui(ui, &mut asked.page);
}

/// The size of the paper.
pub fn paper_ui(ui: &mut Ui, page: &mut Page) {
    ui.horizontal(|ui| {
        ui.label("Paper");
        for offered in Page::ALL {
            ui.radio_value(page, offered, offered.name());
        }
    });
}
