//! The band around the fitted knife's line: how far it can be off because the readings can.

use egui_plot::{FilledArea, PlotUi};

use super::key::Key;
use crate::analysis::knives::{OffAt, bands};
use crate::app::areas::knives::inks::knife_ink;
use crate::drawing::{Axis, Theme};

/// A band where it stands on the axes of its plot, in its unbroken pieces.
#[derive(Debug, Default)]
pub struct LifeBand(Vec<Piece>);

#[derive(Debug)]
struct Piece {
    across: Vec<f64>,
    low: Vec<f64>,
    high: Vec<f64>,
}

impl LifeBand {
    /// The bands of the fitted knife, in the order the plots stand; empty without any ±.
    pub fn all(key: &Key, across: Axis, up: Axis) -> [Self; 3] {
        let fitted = key.unit.fitted;
        let knife = key.knives.get(key.fitted);
        let found = knife
            .and_then(|(_, section)| bands(&key.unit, &key.trial, (fitted, *section), key.over));
        let place = |piece: Vec<OffAt>| Piece {
            across: piece.iter().map(|off| across.place(off.at)).collect(),
            low: piece.iter().map(|off| up.place(off.low_mm)).collect(),
            high: piece.iter().map(|off| up.place(off.high_mm)).collect(),
        };
        let all = |pieces: Vec<Vec<OffAt>>| Self(pieces.into_iter().map(place).collect());
        found.map_or_else(Default::default, |bands| bands.map(all))
    }

    /// Fills the band in the plot, in the fitted knife's colour.
    pub fn show(&self, plot: &mut PlotUi, key: &Key, theme: Theme) {
        let colour = knife_ink(key.fitted_line(), theme).colour;
        for piece in self.0.iter().filter(|piece| piece.across.len() > 1) {
            let name = "as far as the readings can be off";
            let area = FilledArea::new(name, &piece.across, &piece.low, &piece.high);
            plot.add(
                area.fill_color(colour.gamma_multiply(0.18))
                    .stroke(egui::Stroke::new(0.8, colour.gamma_multiply(0.6)))
                    .allow_hover(false),
            );
        }
    }
}
