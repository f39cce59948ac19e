//! What was read at the surface plate, as it was typed, on the plate sheet on paper.

use super::flow::Band;
use crate::plate::{AdjusterEntry, GapEntry, RollerEntry};
use crate::units::Quantity;

/// The readings of a roller, with what moves its end.
pub(super) fn as_read(band: &mut Band, read: &RollerEntry) {
    let gaps = [
        ("Left end, read", &read.left),
        ("Left end, half a turn on", &read.left_half_turn),
        ("Right end, read", &read.right),
        ("Right end, half a turn on", &read.right_half_turn),
    ];
    for (name, gap) in gaps {
        if let Some(gap) = gap {
            band.row(name, &gap_told(gap));
        }
    }
    let lengths = [
        ("Diameter, left", &read.left_diameter),
        ("Diameter, right", &read.right_diameter),
        ("Between the places read", &read.measured_apart),
        ("Between the adjusters", &read.adjusters_apart),
    ];
    for (name, length) in lengths {
        if let Some(length) = length {
            band.row(name, length.text());
        }
    }
    if let Some(adjuster) = &read.adjuster {
        band.row("Adjuster", &adjuster_told(adjuster));
    }
    if let Some(angle) = &read.lever_angle {
        band.row("Indicator's lever, off square", angle.text());
    }
    for entry in &read.runout {
        let readings = entry.readings.iter();
        let readings = readings.map(|read| format!("{}: {}", read.0.text(), read.1.text()));
        let name = format!("Indicator, {}", entry.station.word());
        band.row(&name, &readings.collect::<Vec<_>>().join("; "));
    }
}

fn gap_told(gap: &GapEntry) -> String {
    match gap {
        GapEntry::Feeler { goes, stops_at } => {
            format!("goes {}, stops at {}", goes.text(), stops_at.text())
        }
        GapEntry::Gap(gap) => format!("gap {}", gap.text()),
        GapEntry::Height(height) => format!("{} over its top", height.text()),
    }
}

fn adjuster_told(adjuster: &AdjusterEntry) -> String {
    match adjuster {
        AdjusterEntry::Eccentric { throw, now } => {
            format!("eccentric, throw {}, at {}", throw.text(), now.text())
        }
        AdjusterEntry::Thread { pitch, tilt } => {
            format!("thread, pitch {}, leaning {}", pitch.text(), tilt.text())
        }
        AdjusterEntry::Shims(sizes) => {
            let sizes: Vec<&str> = sizes.iter().map(Quantity::text).collect();
            format!("shims {}", sizes.join(", "))
        }
    }
}
