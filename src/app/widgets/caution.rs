//! What makes it safe to touch a machine, beside whatever the window shows.

use egui::{RichText, Ui};

use super::lettering::{Lettering, strong};
use crate::analysis::{CAUTION, CAUTION_IN_SHORT};

/// The caution in full.
pub fn caution_ui(ui: &mut Ui) {
    ui.label(RichText::new("Before you touch a unit").family(strong()));
    for sentence in CAUTION {
        ui.label(sentence);
    }
}

/// The caution in short, in fine print.
pub fn caution_in_short_ui(ui: &mut Ui) {
    for sentence in CAUTION_IN_SHORT {
        ui.label(Lettering::FinePrint.of(sentence).weak());
    }
}
