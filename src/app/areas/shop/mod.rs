//! The Shop area: the units of a folder beside each other, and the record of the open one.

mod board;
mod column;
mod fresh;
mod hover;
mod opening;
mod order;
mod record;
mod set_amounts;
mod shown;
mod table;

use egui::{Button, CentralPanel, Key, Ui};

use self::board::Board;
use self::record::RecordView;
use super::{About, Area};
use crate::app::desk::{Desk, ToPrint};
use crate::drawing::SheetKind;

pub const ABOUT: About = About {
    id: "shop",
    title: "Shop",
    purpose: "A folder of units, and what was done to each",
    key: Key::Num6,
    picture: None,
};

/// The area.
#[derive(Default)]
pub struct ShopArea {
    /// What was chosen; none before.
    part: Option<Part>,
    board: Board,
    record: RecordView,
}

/// A part of the area.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// The units of a folder.
    Board,
    /// The record of the open unit.
    Record,
}

impl ShopArea {
    /// The part in front: without a folder there is but the record to show.
    fn front(&self, desk: &Desk) -> Part {
        let has_record_alone =
            desk.preferences().shop.folder.is_none() && desk.session().file().is_some();
        let begins_with = if has_record_alone {
            Part::Record
        } else {
            Part::Board
        };
        self.part.unwrap_or(begins_with)
    }
}

impl Area for ShopArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        CentralPanel::default_margins().show(ui, |ui| {
            let front = self.front(desk);
            ui.horizontal_wrapped(|ui| {
                for (part, name) in [
                    (Part::Board, "Units of a folder"),
                    (Part::Record, "Record of this unit"),
                ] {
                    let is_front = front == part;
                    let tab = Button::selectable(is_front, name).frame_when_inactive(true);
                    if ui.add(tab).clicked() {
                        self.part = Some(part);
                    }
                }
            });
            match self.part.unwrap_or(front) {
                Part::Board => self.board.show(ui, desk),
                Part::Record => self.record.show(ui, desk),
            }
        });
    }

    fn table(&mut self, desk: &Desk) -> Option<Result<String, String>> {
        Some(match self.front(desk) {
            Part::Board => self.board.table_to_paste(desk),
            Part::Record => self.record.table_to_paste(desk),
        })
    }

    fn to_print(&mut self, desk: &Desk) -> Result<ToPrint, String> {
        Ok(match self.front(desk) {
            Part::Board => ToPrint::default(),
            Part::Record => ToPrint::Unit(SheetKind::Record),
        })
    }

    /// The table takes the whole width.
    fn has_form(&self, _desk: &Desk) -> bool {
        false
    }
}
