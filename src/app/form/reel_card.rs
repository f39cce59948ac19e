//! The card that works the reel's diameter out from other readings, and fills it in.

use egui::{RichText, Sense, Ui, Vec2};

use super::field::Fields;
use crate::analysis::ReelWay;
use crate::analysis::other_readings::Derived;
use crate::app::desk::{Card, Change, Desk, Drafts, Next, Slot};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper};
use crate::drawing::{Role, ShownIn, Theme, View, lay_out, reel_picture};
use crate::unit::{Document, Field, Reading};
use crate::units::{Length, Measure as _, Quantity, System};

/// Size of a way's picture.
const PICTURE: Vec2 = Vec2::new(470.0, 200.0);

/// What a way reads, and how thick its tape is or its bars are.
#[derive(Clone, Debug)]
struct Read {
    reading: Quantity<Length>,
    other: Quantity<Length>,
}

/// The card while it is open. What is typed into it is no part of the unit until it is filled in.
#[derive(Debug)]
pub struct ReelCard {
    way: ReelWay,
    /// One for each way, in the order of [`ReelWay::ALL`].
    read: [Read; 4],
    drafts: Drafts,
}

impl ReelCard {
    /// A card that begins with what the bench reading says now.
    pub fn for_document(document: &Document, system: System) -> Self {
        let diameter = document.bench.reel_diameter.value();
        let blades = document.reel.blades;
        let read = ReelWay::ALL.map(|way| {
            let other = other_to_begin_with(way, system);
            // To the last digit: the diameter must come out as it stood.
            let reading = way.reading_on(diameter, blades, other.value());
            Read {
                reading: Quantity::exactly(reading, system),
                other,
            }
        });
        Self {
            way: ReelWay::default(),
            read,
            drafts: Drafts::default(),
        }
    }

    fn read(&mut self) -> &mut Read {
        let index = ReelWay::ALL.iter().position(|way| *way == self.way);
        &mut self.read[index.unwrap_or(0)]
    }

    /// What follows, or why nothing does.
    fn found(&mut self, blades: u32, system: System) -> Result<Derived, String> {
        if self.drafts.first_wrong().is_some() {
            return Err("The reading is not right yet.".to_owned());
        }
        let way = self.way;
        let Read { reading, other } = self.read();
        if other.value().mm() < 0.0 {
            return Err("A thickness is zero or more. Check the reading.".to_owned());
        }
        let found = way.diameter(reading, other, blades);
        let found = found.map_err(|why| why.sentence().shown_in(system))?;
        if found.value.mm() <= found.standard.mm() * 3_f64.sqrt() {
            return Err("The reading and its ± leave no reel. Check the reading.".to_owned());
        }
        Ok(found)
    }

    fn ui(&mut self, ui: &mut Ui, system: System, theme: Theme, blades: u32) -> Action {
        let title = "Reel diameter from other readings";
        ui.label(Lettering::CardTitle.of(title));
        ui.horizontal_wrapped(|ui| {
            ui.label("From");
            for way in ReelWay::ALL {
                let button = egui::Button::selectable(self.way == way, way.name());
                if ui.add(button.frame_when_inactive(true)).clicked() && self.way != way {
                    self.way = way;
                    self.drafts = Drafts::default();
                }
            }
        });
        let way = self.way;
        ui.label(way.how(blades));
        let shown = self.read().reading.value();
        picture_ui(ui, way, blades, shown.entry(system), theme);
        let mut drafts = std::mem::take(&mut self.drafts);
        let mut fields = Fields::over(&mut drafts, system, theme).on_card(ui);
        let read = self.read();
        let slot = Slot::OtherReading;
        fields.quantity(ui, way.reading(), slot, &mut read.reading);
        if let Some(name) = way.other() {
            fields.quantity(ui, name, Slot::Thickness, &mut read.other);
        }
        let has_off = read.reading.half_width().is_some();
        self.drafts = drafts;
        let mut basis = format!("Worked out for {blades} blades.");
        if self.drafts.first_wrong().is_none() && !has_off {
            basis.push_str(" The reading has no ± of its own: write one, like ± ");
            basis.push_str(match system {
                System::Millimetre => "0.1 mm.",
                System::InchDecimal | System::InchFraction => "5 thou.",
            });
        }
        ui.label(Lettering::FinePrint.of(basis).weak());
        let found = self.found(blades, system);
        found_ui(ui, &found, system);
        caution_in_short_ui(ui);
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            let fill = ui.add_enabled(found.is_ok(), egui::Button::new("Fill in"));
            let is_put_away = ui.button("Close").clicked();
            match found {
                Ok(derived) if fill.clicked() => Action::Fill(derived),
                _ if is_put_away => Action::PutAway,
                _ => Action::Stay,
            }
        })
        .inner
    }
}

/// What was done in the card.
enum Action {
    Stay,
    PutAway,
    Fill(Derived),
}

impl Card for ReelCard {
    fn name(&self) -> &'static str {
        "reel diameter"
    }

    fn width(&self) -> f32 {
        470.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let (system, theme) = (desk.system(), theme(ui.ctx()));
        match self.ui(ui, system, theme, desk.document().reel.blades) {
            Action::Stay => return Next::Stay,
            Action::PutAway => {}
            Action::Fill(derived) => {
                let reading = derived.as_reading(system);
                desk.tell(format!("Reel diameter filled in: {}.", reading.text()));
                let change = Change::of("Reel diameter", Reading::ReelDiameter);
                desk.edit(change, |document| {
                    document.bench.reel_diameter = reading;
                    // What follows from an example is no more than one.
                    if !document.examples.has(Field::Blades) {
                        document.examples.keep(Reading::ReelDiameter);
                    }
                });
            }
        }
        Next::Close
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

/// What follows, and what would be filled in.
fn found_ui(ui: &mut Ui, found: &Result<Derived, String>, system: System) {
    match found {
        Ok(derived) => {
            let value = system.length(derived.value);
            let text = if derived.standard.mm() > 0.0 {
                let off = system.length(derived.expanded);
                format!("Reel diameter {value} ± {off} (95 %)")
            } else {
                format!("Reel diameter {value}, ± not entered")
            };
            ui.label(Lettering::Heading.of(text));
            let filled = derived.as_reading(system);
            let text = format!("Filled in as {}.", filled.text());
            ui.label(Lettering::FinePrint.of(text).weak());
        }
        Err(why) => {
            ui.label(RichText::new(why).family(strong()));
        }
    }
}

/// A tape's or bars' thickness to begin with, to be typed over.
fn other_to_begin_with(way: ReelWay, system: System) -> Quantity<Length> {
    let is_metric = system == System::Millimetre;
    let thickness = match (way, is_metric) {
        (ReelWay::Bars, true) => Length::from_mm(25.0),
        (ReelWay::Bars, false) => Length::from_inches(1.0),
        (ReelWay::Tape, true) => Length::from_mm(0.2),
        (ReelWay::Tape, false) => Length::from_inches(0.008),
        (ReelWay::Tips | ReelWay::DiameterTape, _) => Length::ZERO,
    };
    Quantity::from_value(thickness, system)
}

/// The way's picture, not to scale.
fn picture_ui(ui: &mut Ui, way: ReelWay, blades: u32, number: String, theme: Theme) {
    let (place, _) = ui.allocate_exact_size(PICTURE, Sense::hover());
    let scene = reel_picture(way, blades, number);
    let view = View::fitting(scene.bounds, paper(place));
    let panel = lay_out(&scene, &view, ShownIn::Whole, theme);
    let ground = colour(theme.look(Role::Paper).fill);
    ui.painter().rect_filled(place, 4.0, ground);
    Painted::from_panel(&panel).paint(ui.painter());
}
