//! The band around the fitted knife's line: how far it can be off because the readings can.

use egui_plot::{FilledArea, PlotUi};

use super::axis::Axis;
use crate::analysis::knives::{OffAt, bands};
use crate::unit::Fitted;

use super::inks::knife_ink;
use super::life::Key;
use crate::drawing::Theme;

/// A band where it stands on the axes of its plot.
#[derive(Debug, Default)]
pub(super) struct LifeBand {
    across: Vec<f64>,
    low: Vec<f64>,
    high: Vec<f64>,
}

/// The place of the fitted knife in the list of knives.
fn fitted_place(fitted: Fitted) -> usize {
    match fitted {
        Fitted::Bench => 0,
        Fitted::Option(index) => index + 1,
    }
}

impl LifeBand {
    /// The bands of the fitted knife, in the order the plots stand; empty without any ±.
    pub(super) fn all(key: &Key, across: Axis, up: Axis) -> [Self; 3] {
        let fitted = key.unit.fitted;
        let knife = key.knives.get(fitted_place(fitted));
        let found = knife
            .and_then(|(_, section)| bands(&key.unit, &key.trial, (fitted, *section), key.over));
        let place = |band: Vec<OffAt>| Self {
            across: band.iter().map(|off| across.place(off.at)).collect(),
            low: band.iter().map(|off| up.place(off.low_mm)).collect(),
            high: band.iter().map(|off| up.place(off.high_mm)).collect(),
        };
        found.map_or_else(Default::default, |bands| bands.map(place))
    }

    pub(super) fn is_drawn(&self) -> bool {
        self.across.len() > 1
    }

    /// Fills the band in the plot, in the fitted knife's colour.
    pub(super) fn show(&self, plot: &mut PlotUi, key: &Key, theme: Theme) {
        if !self.is_drawn() {
            return;
        }
        let colour = knife_ink(fitted_place(key.unit.fitted), theme).colour;
        let area = FilledArea::new(
            "as far as the readings can be off",
            &self.across,
            &self.low,
            &self.high,
        );
        plot.add(
            area.fill_color(colour.gamma_multiply(0.18))
                .stroke(egui::Stroke::new(0.8, colour.gamma_multiply(0.6)))
                .allow_hover(false),
        );
    }
}
