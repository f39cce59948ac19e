//! The card that works behind centre out from other readings, and fills it in.

use egui::{RichText, Sense, Ui, Vec2};

use super::field::Fields;
use crate::analysis::other_readings::{BehindFrom, Derived, Taken};
use crate::app::desk::{Card, Change, Desk, Drafts, Next, Slot};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper};
use crate::drawing::{Role, ShownIn, Theme, View, lay_out, reading_picture};
use crate::geometry::rise_of_segment;
use crate::unit::{BenchReadings, Document, Reading};
use crate::units::{Angle, Length, Measure as _, Quantity, System};

/// Size of a method's picture.
const PICTURE: Vec2 = Vec2::new(470.0, 200.0);

/// The card while it is open. What is typed into it is no part of the unit until it is filled in.
#[derive(Debug)]
pub struct BehindCard {
    method: BehindFrom,
    /// One reading for each method.
    readings: [Quantity<Length>; 3],
    /// Where a block to a square touches the front face, over the plate.
    touches_at: Quantity<Length>,
    /// How far the bench knife's front face leans back, where it is known.
    front_angle: Option<Quantity<Angle>>,
    is_ahead: bool,
    drafts: Drafts,
}

impl BehindCard {
    /// A card that begins with what the bench readings say now.
    pub fn for_document(document: &Document, system: System) -> Self {
        let bench = &document.bench;
        let radius = bench.reel_diameter.value() * 0.5;
        let behind = bench.behind_centre.value();
        let gap = bench.gap.value();
        let to_centre = radius + gap;
        let rise = rise_of_segment(to_centre, Length::from_mm(behind.mm().abs()))
            .map_or(Length::ZERO, |rise| rise - gap);
        let height = bench.height_of_cut.value();
        // Below the reel and above the foot of the lip's front face: halfway between.
        let lip = document.knife.lip_thickness.value();
        let below_edge = (Length::from_mm(rise.mm().max(0.0)) + lip) * 0.5;
        let touches_at = Quantity::from_value(height - below_edge, system);
        let front_angle = document.knife.front_angle.clone();
        let front = front_angle.as_ref().map_or(Angle::ZERO, Quantity::value);
        let leans = bench.attitude.value() + front;
        let leans_back = (height - touches_at.value()) * leans.rad().tan();
        let lengths = [rise, height - rise, behind + radius + leans_back];
        Self {
            method: BehindFrom::default(),
            // To the last digit: behind centre must come out as it stood.
            readings: lengths.map(|length| Quantity::exactly(length, system)),
            touches_at,
            front_angle,
            is_ahead: behind.mm() < 0.0,
            drafts: Drafts::default(),
        }
    }

    fn reading(&mut self) -> &mut Quantity<Length> {
        let index = BehindFrom::ALL.iter().position(|m| *m == self.method);
        &mut self.readings[index.unwrap_or(0)]
    }

    /// What follows, or why nothing does.
    fn found(&mut self, bench: &BenchReadings, system: System) -> Result<Derived, String> {
        if self.drafts.first_wrong().is_some() {
            return Err("The reading is not right yet.".to_owned());
        }
        let touches_at = self.touches_at.clone();
        let front_angle = self.front_angle.clone();
        let (method, is_ahead) = (self.method, self.is_ahead);
        let taken = Taken {
            reading: self.reading(),
            touches_at: &touches_at,
            front_angle: front_angle.as_ref(),
            is_ahead,
        };
        method
            .behind_centre(bench, taken)
            .map_err(|why| why.sentence().shown_in(system))
    }

    /// What a tip that stands beside the place that is read does to the number.
    fn tip_off_told(&mut self, bench: &BenchReadings, blades: u32, system: System) -> String {
        let touches_at = self.touches_at.clone();
        let front_angle = self.front_angle.clone();
        let (method, is_ahead) = (self.method, self.is_ahead);
        let taken = Taken {
            reading: self.reading(),
            touches_at: &touches_at,
            front_angle: front_angle.as_ref(),
            is_ahead,
        };
        let half_space = Angle::from_deg(180.0 / f64::from(blades.max(1)));
        let told = [
            (Angle::from_deg(2.0), "2°"),
            (half_space, "half a blade space"),
        ];
        let [near, far] = told.map(|(off, name)| match method.with_tip_off(bench, taken, off) {
            Ok(behind) => format!("{name} off that place: {}", system.length(behind)),
            Err(_) => format!("{name} off that place: no reading that can be"),
        });
        format!("On this unit with the tip {near}; {far}.")
    }

    fn ui(
        &mut self,
        ui: &mut Ui,
        system: System,
        theme: Theme,
        (bench, blades): (&BenchReadings, u32),
    ) -> Action {
        let title = "Behind centre from other readings";
        ui.label(Lettering::CardTitle.of(title));
        ui.horizontal_wrapped(|ui| {
            ui.label("From");
            for method in BehindFrom::ALL {
                let button = egui::Button::selectable(self.method == method, method.name());
                if ui.add(button.frame_when_inactive(true)).clicked() && self.method != method {
                    self.method = method;
                    self.drafts = Drafts::default();
                }
            }
        });
        ui.label(self.method.how());
        let shown = self.reading().value();
        picture_ui(ui, self.method, shown.entry(system), theme);
        let name = self.method.reading();
        let mut drafts = std::mem::take(&mut self.drafts);
        let mut fields = Fields::over(&mut drafts, system, theme).on_card(ui);
        fields.quantity(ui, name, Slot::OtherReading, self.reading());
        if self.method.asks_where_it_touches() {
            let name = "Touches the face at";
            fields.quantity(ui, name, Slot::TouchesAt, &mut self.touches_at);
        }
        self.drafts = drafts;
        if self.method.has_two_sides() {
            ui.horizontal(|ui| {
                ui.label("The edge stands");
                ui.selectable_value(&mut self.is_ahead, false, "behind centre");
                ui.selectable_value(&mut self.is_ahead, true, "ahead of centre");
            });
        }
        let mut basis = format!(
            "{} are those of the bench measurements, with their ±.",
            self.method.stands_on()
        );
        if self.drafts.first_wrong().is_none() && self.reading().half_width().is_none() {
            basis.push_str(" The reading has no ± of its own: write one, like ± ");
            basis.push_str(match system {
                System::Millimetre => "0.02 mm.",
                System::InchDecimal | System::InchFraction => "1 thou.",
            });
        }
        ui.label(Lettering::FinePrint.of(basis).weak());
        let found = self.found(bench, system);
        match &found {
            Ok(derived) => {
                let value = system.length(derived.value);
                let off = system.length(derived.expanded);
                let text = format!("Behind centre {value} ± {off} (95 %)");
                ui.label(Lettering::Heading.of(text));
                let told = self.tip_off_told(bench, blades, system);
                ui.label(Lettering::Note.of(told));
                let filled = derived.as_reading(system);
                let text = format!(
                    "Filled in as {}: a ± in a field is the half-width of an even spread, which carries the same uncertainty on. From then on it counts as a reading by itself; that it came from reel and height of cut is not remembered, so clearances may show more ± than they have.",
                    filled.text()
                );
                ui.label(Lettering::FinePrint.of(text).weak());
            }
            Err(why) => {
                ui.label(RichText::new(why).family(strong()));
            }
        }
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

impl Card for BehindCard {
    fn name(&self) -> &'static str {
        "behind centre"
    }

    fn width(&self) -> f32 {
        470.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let (system, theme) = (desk.system(), theme(ui.ctx()));
        match self.ui(
            ui,
            system,
            theme,
            (&desk.document().bench, desk.document().reel.blades),
        ) {
            Action::Stay => return Next::Stay,
            Action::PutAway => {}
            Action::Fill(derived) => {
                let reading = derived.as_reading(system);
                desk.tell(format!("Behind centre filled in: {}.", reading.text()));
                let change = Change::of("Behind centre", Reading::BehindCentre);
                desk.edit(change, |document| {
                    document.bench.behind_centre = reading;
                    let from = [Reading::ReelDiameter, Reading::HeightOfCut];
                    // What follows from an example is no more than one.
                    if !from.iter().any(|reading| document.examples.has(*reading)) {
                        document.examples.keep(Reading::BehindCentre);
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

/// The method's picture, not to scale.
fn picture_ui(ui: &mut Ui, method: BehindFrom, number: String, theme: Theme) {
    let (place, _) = ui.allocate_exact_size(PICTURE, Sense::hover());
    let scene = reading_picture(method, number);
    let view = View::fitting(scene.bounds, paper(place));
    let panel = lay_out(&scene, &view, ShownIn::Whole, theme);
    let ground = colour(theme.look(Role::Paper).fill);
    ui.painter().rect_filled(place, 4.0, ground);
    Painted::from_panel(&panel).paint(ui.painter());
}
