//! The reel's diameter from other readings, for reels that cannot be read across: tips, bars or a tape.

use egui::{CollapsingHeader, TextEdit, Ui};

use super::shown::Shown;
use crate::analysis::{Level, ReelWay};
use crate::app::areas::plate::entry::{Entries, number_ui, told_ui};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::typing::take_all_in_hand;
use crate::plate::{SheetField, Station};
use crate::units::{Length, Measure as _, Quantity, System};

/// What is typed, until it is put into the sheet.
#[derive(Clone, Debug, Default)]
pub struct ReelRead {
    way: ReelWay,
    reading: String,
    /// The tape's thickness, or the bars without the reel.
    other: String,
}

/// The ways, the reading, and what it comes to for a place along the reel.
pub fn reel_from_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown, read: &mut ReelRead) {
    CollapsingHeader::new("Reel from…").show(ui, |ui| {
        let Some(unit) = shown.unit.solved() else {
            ui.label("This needs the number of blades: bring the sheet's unit to the front first.");
            return;
        };
        let blades = unit.document.reel.blades;
        ui.horizontal_wrapped(|ui| {
            for way in ReelWay::ALL {
                ui.radio_value(&mut read.way, way, way.name());
            }
        });
        told_ui(ui, Level::Watch, read.way.how(blades));
        text_ui(ui, read.way.reading(), &mut read.reading);
        if let Some(other) = read.way.other() {
            text_ui(ui, other, &mut read.other);
        }
        if read.reading.trim().is_empty() {
            return;
        }
        match found(read, blades, shown.system) {
            Ok(text) => {
                number_ui(ui, "Reel diameter", &text);
                ui.horizontal_wrapped(|ui| {
                    ui.label("Write it down");
                    for station in Station::ALL {
                        if ui.button(station.word()).clicked() {
                            let field = SheetField::Reel(station);
                            let (name, system) = (field.name(), shown.system);
                            entries.desk.edit_sheet(&name, None, |entries| {
                                entries.set(field, &text, system);
                            });
                        }
                    }
                });
            }
            Err(why) => told_ui(ui, Level::Over, &why),
        }
    });
}

fn text_ui(ui: &mut Ui, name: &str, text: &mut String) {
    ui.horizontal(|ui| {
        ui.label(name);
        let field = TextEdit::singleline(text)
            .font(Lettering::InShort.font())
            .desired_width(160.0);
        let field = ui.add(field).accessible_name(name);
        take_all_in_hand(ui, &field, text);
    });
}

/// The diameter with its ±, as it is written down; or why there is none.
fn found(read: &ReelRead, blades: u32, system: System) -> Result<String, String> {
    let unit = Length::unit_in(system).0;
    let typed = |name: &str, text: &str| {
        Quantity::<Length>::typed(text, unit).map_err(|problem| format!("{name}: {problem}."))
    };
    let reading = typed(read.way.reading(), &read.reading)?;
    let other = match read.way.other() {
        Some(name) => typed(name, &read.other)?,
        None => Quantity::from_value(Length::ZERO, system),
    };
    if other.value() < Length::ZERO {
        return Err("A thickness is zero or more. Check the reading.".to_owned());
    }
    let found = read.way.diameter(&reading, &other, blades);
    let found = found.map_err(|why| why.sentence().shown_in(system))?;
    let half = found.half_width();
    if found.value <= half {
        return Err("The reading and its ± leave no reel. Check the reading.".to_owned());
    }
    let text = found.value.entry(system);
    Ok(if half > Length::ZERO {
        format!("{text} ± {}", half.entry(system))
    } else {
        text
    })
}
