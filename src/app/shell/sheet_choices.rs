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
    for kind in SheetKind::ALL {
        ui.radio_value(&mut asked.kind, kind, kind.name())
            .on_hover_text(kind.meaning());
    }
    // Greyed for the other kinds, so that what stands below stays where it is.
    ui.add_enabled_ui(asked.kind == SheetKind::Why, |ui| {
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
