//! What stands on each page of the sheet: entries, and what follows from them.

mod adjuster;
mod along;
mod ends;
mod gauge_bar;
mod job;
mod record;
mod reel_from;
mod runout;
mod shown;
mod ticks;
mod turn;

use egui::Ui;

pub use self::shown::Shown;
use self::shown::place;
use self::turn::Turn;
use super::entry::Entries;
use super::page::Page;
use crate::plate::{AdjusterKind, Entries as SheetEntries, GapWay, Roller, Step};

/// How the entries are shown: chosen here, and told by what was entered once there is something.
#[derive(Debug, Default)]
pub struct Ways {
    gaps: [GapWay; 2],
    /// By roller.
    pub adjusters: [AdjusterKind; 2],
    /// By roller.
    turns: [Turn; 2],
    bars: gauge_bar::Bars,
    reel: reel_from::ReelRead,
}

impl Ways {
    /// How much of both rollers' turns was read where it was not read at every place that is shown.
    pub fn unread(&self, entries: &SheetEntries) -> [Option<String>; 2] {
        Roller::ALL.map(|roller| self.turns[place(roller)].unread(entries, roller))
    }
}

fn runout_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown, ways: &mut Ways, roller: Roller) {
    runout::runout_ui(ui, entries, shown, &mut ways.turns[place(roller)], roller);
}

/// A page's entries and numbers.
pub fn page_ui(ui: &mut Ui, page: Page, entries: &mut Entries, shown: &Shown, ways: &mut Ways) {
    match page {
        Page::Job => job::job_ui(ui, entries, shown),
        Page::GaugeBar => gauge_bar::gauge_bar_ui(ui, entries, shown, &mut ways.bars),
        Page::Step(step) => step_ui(ui, step, entries, shown, ways),
    }
}

fn step_ui(ui: &mut Ui, step: Step, entries: &mut Entries, shown: &Shown, ways: &mut Ways) {
    match step {
        Step::PlateAndBar => along::bar_ui(ui, entries, shown),
        Step::Reel => along::reel_ui(ui, entries, shown, &mut ways.reel),
        Step::KnifeToReel => along::knife_ui(ui, entries, shown),
        Step::Height => along::height_ui(ui, entries, shown),
        Step::Attitude => along::attitude_ui(ui, entries, shown),
        Step::Bearings | Step::RockTest => ticks::tick_ui(ui, entries, step),
        Step::FrontRunout => runout_ui(ui, entries, shown, ways, Roller::Front),
        Step::RearRunout => runout_ui(ui, entries, shown, ways, Roller::Rear),
        Step::FrontEnds => ends::ends_ui(ui, entries, shown, &mut ways.gaps, Roller::Front),
        Step::RearEnds => ends::ends_ui(ui, entries, shown, &mut ways.gaps, Roller::Rear),
        Step::FrontAdjuster => {
            adjuster::adjuster_ui(ui, entries, shown, &mut ways.adjusters, Roller::Front);
        }
        Step::RearAdjuster => {
            adjuster::adjuster_ui(ui, entries, shown, &mut ways.adjusters, Roller::Rear);
        }
        Step::Record => record::record_ui(ui, entries, shown),
    }
}
