//! The Knives area: which knife fits this unit, at this height of cut, from a new reel to a scrap
//! one, and how much room in attitude it leaves.

mod axis;
mod inks;
mod life;
mod map;
mod overlay;
mod table;
mod worked_out;

use std::rc::Rc;

use egui::{CentralPanel, Key, ScrollArea, Ui};

use self::life::LifePlots;
use self::map::WindowMap;
use self::overlay::OverlayLens;
use self::table::KnifeTable;
use self::worked_out::WorkedOut;
use super::{About, Area};
use crate::analysis::SolvedId;
use crate::app::desk::{Desk, PerSession};
use crate::app::widgets::kept::Kept;
use crate::units::System;

pub const ABOUT: About = About {
    id: "knives",
    title: "Knives",
    purpose: "Compare knives before ordering",
    key: Key::Num2,
};

/// The area. What is chosen in it belongs to the session.
#[derive(Debug, Default)]
pub struct KnivesArea {
    state: PerSession<State>,
}

#[derive(Debug, Default)]
struct State {
    /// By what was solved and the units.
    worked_out: Kept<(SolvedId, System), Rc<WorkedOut>>,
    table: KnifeTable,
    overlay: OverlayLens,
    map: WindowMap,
    life: LifePlots,
}

impl Area for KnivesArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let state = self.state.front(desk, State::default);
        CentralPanel::default_margins().show(ui, |ui| state.show(ui, desk));
    }
}

impl State {
    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let system = desk.system();
        let worked_out = desk.good().map(|good| {
            let made = |_: &_| Rc::new(WorkedOut::of(good, system));
            self.worked_out.get((good.id, system), made).clone()
        });
        ScrollArea::vertical()
            .id_salt("knives")
            .auto_shrink(false)
            .show(ui, |ui| {
                self.table.show(ui, desk, worked_out.as_deref());
                if worked_out.is_some() {
                    ui.separator();
                    self.overlay.show(ui, desk);
                }
                ui.separator();
                // Before the plots: a click on either changes how much is said under the plots, and
                // nothing may move under the hand.
                self.map.show(ui, desk);
                ui.separator();
                self.life.show(ui, desk);
            });
    }
}
