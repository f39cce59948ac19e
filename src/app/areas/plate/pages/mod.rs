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

use egui::Ui;

use self::runout::Turn;
pub use self::shown::Shown;
use super::entry::Entries;
use super::page::Page;
use crate::plate::{AdjusterKind, GapWay, Roller, Step};

/// How the entries are shown: chosen here, and told by what was entered once there is something.
#[derive(Debug, Default)]
pub struct Ways {
    gaps: [GapWay; 2],
    /// By roller.
    pub adjusters: [AdjusterKind; 2],
    turn: Turn,
    bars: gauge_bar::Bars,
    reel: reel_from::ReelRead,
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
        Step::FrontRunout => {
            runout::runout_ui(ui, entries, shown, &mut ways.turn, Roller::Front);
        }
        Step::RearRunout => runout::runout_ui(ui, entries, shown, &mut ways.turn, Roller::Rear),
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
