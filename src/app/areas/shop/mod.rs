//! The Shop area: the units of a folder beside each other, and the record of the open one.

mod board;
mod column;
mod folder;
mod hover;
mod opening;
mod order;
mod set_amounts;
mod table;

use egui::{CentralPanel, Key, Ui};

use self::board::Board;
use super::{About, Area};
use crate::app::desk::Desk;
use crate::drawing::PictureView;

pub const ABOUT: About = About {
    id: "shop",
    title: "Shop",
    purpose: "A folder of units, and what was done to each",
    key: Key::Num6,
    picture: PictureView::Whole,
};

/// The area.
#[derive(Default)]
pub struct ShopArea {
    board: Board,
}

impl Area for ShopArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        CentralPanel::default_margins().show(ui, |ui| self.board.show(ui, desk));
    }

    /// The table takes the whole width.
    fn has_form(&self, _desk: &Desk) -> bool {
        false
    }
}
