//! The Knives area: which knife fits this unit, at this height of cut, from a new reel to a scrap
//! one, and how much room in attitude it leaves.

mod aim;
mod axis;
mod cells;
mod heads;
mod inks;
mod life;
mod life_band;
mod life_key;
mod life_words;
mod lowest;
mod map_marks;
mod map_painting;
mod overlay;
mod rows;
mod sentences;
mod sort;
mod table;
mod window_map;

pub(super) use overlay::{Overlaid, Ticked};

use egui::{ScrollArea, Ui};

use super::App;
use crate::analysis::SolvedId;
use crate::analysis::knives::{KnifeRow, Ranking, rank, rests_on, table};
use crate::units::System;

/// What the area shows, worked out when an input changed and at no other time.
#[derive(Debug, Default)]
pub(super) struct KnivesState {
    /// What was solved and the units that `worked_out` belongs to.
    key: Option<(SolvedId, System)>,
    worked_out: Option<WorkedOut>,
    life: life::LifeState,
    map: window_map::MapState,
    table: table::TableState,
    overlay: overlay::OverlayState,
}

impl KnivesState {
    /// Whether rows are being pasted, which nothing may put away unasked.
    pub(super) fn is_pasting(&self) -> bool {
        self.table.pasting.is_some()
    }
}

/// The table and its ranking.
#[derive(Clone, Debug)]
struct WorkedOut {
    rows: Vec<KnifeRow>,
    ranking: Ranking,
    rests_on: [String; 3],
}

impl App {
    /// The whole area.
    pub(super) fn knives_ui(&mut self, ui: &mut Ui) {
        self.work_out_knives();
        ScrollArea::vertical()
            .id_salt("knives")
            .auto_shrink(false)
            .show(ui, |ui| {
                self.knife_table_ui(ui);
                ui.separator();
                // Before the plots: a click on either changes how much is said under the plots, and
                // nothing may move under the hand.
                self.window_map_ui(ui);
                ui.separator();
                self.life_ui(ui);
            });
    }

    fn work_out_knives(&mut self) {
        let system = self.system();
        let Some(good) = self.session.good() else {
            return;
        };
        let key = Some((good.id, system));
        if self.knives.key == key {
            return;
        }
        let document = &good.document;
        let rows = table(good);
        let ranking = rank(&rows, good, system);
        let is_listed = |name: &str| document.knives().any(|(_, knife)| knife.name == name);
        self.knives.overlay.ticked.keep_only(is_listed);
        self.knives.worked_out = Some(WorkedOut {
            rows,
            ranking,
            rests_on: rests_on(document, system),
        });
        self.knives.key = key;
    }
}
