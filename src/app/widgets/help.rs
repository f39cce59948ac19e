//! Help at hand: what a field or a number means.

use egui::{Response, RichText, Ui};

use super::look::strong;
use crate::unit::{Field, Words};

/// What a key number means.
pub fn meaning_of_number(name: &str) -> Option<&'static str> {
    let name = if name == "Rear roller" {
        "Front roller"
    } else {
        name
    };
    let found = NUMBERS.iter().find(|(number, _)| *number == name);
    found.map(|(_, meaning)| *meaning)
}

/// The key numbers and what they mean.
pub const NUMBERS: [(&str, &str); 12] = [
    (
        "Behind centre",
        "How far the knife's edge stands behind the vertical through the reel's centre.",
    ),
    (
        "Sweep below the cut",
        "How far the lowest point of the reel's circle hangs below the edge: the depth the blades reach into the canopy before they come up to the clip point.",
    ),
    (
        "Sweep share",
        "The sweep over the height of cut. The same sweep is nothing at a high cut and far too much at a low one.",
    ),
    (
        "Sweep chord",
        "Length of the reel's circle that lies below the cut line, along the cut.",
    ),
    (
        "Clip angle",
        "At the reel's centre, from straight down to the edge.",
    ),
    (
        "Attitude",
        "The knife datum against the plate, positive with the knife's back higher than its edge.",
    ),
    ("Height of cut", "From the plate up to the edge."),
    (
        "Reel over plate",
        "From the plate up to the lowest point of the reel's circle.",
    ),
    (
        "Reel over ground",
        "The same after the ground's shape and the rollers' sink.",
    ),
    (
        "Underside over plate",
        "From the plate up to the lowest point of the knife or the hardware under it.",
    ),
    (
        "Front roller",
        "How far it stands in its bracket from its bench place, along the frame's own vertical: up is towards the reel. The rear roller's likewise.",
    ),
    (
        "Clip length",
        "Forward travel between two blades passing the knife.",
    ),
];

/// A field's name, what it means and how it is measured.
fn help_ui(ui: &mut Ui, field: Field) {
    let Words {
        name,
        meaning,
        measured,
    } = field.words();
    ui.label(RichText::new(name).family(strong()).size(15.0));
    ui.label(meaning);
    if !measured.is_empty() {
        ui.add_space(4.0);
        ui.label(RichText::new(measured).weak());
    }
}

/// Shows what a field means and how it is measured while the pointer rests on it.
pub fn explain(response: Response, field: Field) -> Response {
    response.on_hover_ui(|ui| help_ui(ui, field))
}
