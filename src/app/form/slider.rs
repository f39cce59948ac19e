//! A slider of a setting, and the range it covers.

use egui::{Slider, Ui};

use super::field::Fields;
use crate::app::desk::Change;
use crate::app::widgets::help::tell_beside;
use crate::unit::{Document, Field};
use crate::units::{Angle, Length, System};

/// A slider: the range it covers and its steps, in the unit it shows.
pub struct Range {
    low: f64,
    high: f64,
    /// By arrow key.
    step: f64,
    /// By arrow key with Shift, and while dragging with Shift.
    fine: f64,
    /// Size of the unit in base units.
    unit: f64,
}

impl Range {
    pub fn of_length(system: System, low: Length, high: Length) -> Self {
        let (unit, step, fine) = match system {
            System::Millimetre => (1.0, 0.1, 0.01),
            System::InchDecimal | System::InchFraction => {
                (Length::from_inches(1.0).mm(), 0.005, 0.0005)
            }
        };
        let floor = (low.mm() / unit / step).floor() * step;
        let ceil = (high.mm() / unit / step).ceil() * step;
        Self {
            low: floor,
            // A reel that is scrap when new still has a slider.
            high: ceil.max(floor + step),
            step,
            fine,
            unit,
        }
    }

    pub fn of_angle(low: Angle, high: Angle) -> Self {
        Self {
            low: low.deg().floor(),
            high: high.deg().ceil(),
            step: 0.1,
            fine: 0.01,
            unit: 1.0,
        }
    }
}

impl Range {
    /// Its ends, in base units.
    pub fn ends_base(&self) -> (f64, f64) {
        (self.low * self.unit, self.high * self.unit)
    }

    /// A step by key, in base units.
    pub fn step_base(&self) -> f64 {
        self.step * self.unit
    }
}

/// The slider of a setting; `measured` is where it stands while it is left out, in base units.
pub fn slider_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    (name, field): (&'static str, Field),
    measured: f64,
    range: &Range,
) {
    let before = field.base(document).unwrap_or(measured) / range.unit;
    let mut shown = before;
    let is_fine = ui.input(|input| input.modifiers.shift);
    let step = if is_fine { range.fine } else { range.step };
    let width = ui.available_width();
    let response = ui
        .scope(|ui| {
            ui.spacing_mut().slider_width = width - 4.0;
            let slider = Slider::new(&mut shown, range.low..=range.high)
                .show_value(false)
                .smart_aim(false)
                .clamping(egui::SliderClamping::Never)
                .step_by(step);
            ui.add(slider)
        })
        .inner
        .accessible_name(format!("{name} slider"));
    let told = field.kind().written(before * range.unit, fields.system);
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(told.unwrap_or_default());
    });
    measured_mark(
        ui,
        response.rect,
        (measured / range.unit - range.low) / (range.high - range.low),
    );
    if !ui.is_enabled() {
        return;
    }
    // A slider of its own accord takes drags alone, and never hears of a click.
    let clicks = response.interact(egui::Sense::click());
    if clicks.clicked() || response.drag_stopped() {
        response.request_focus();
    }
    if response.has_focus() {
        // From where it stands, not from the nearest whole step: a fine setting is kept.
        let presses = ui.input(|input| {
            let pressed = |key| i32::try_from(input.num_presses(key)).unwrap_or(0);
            pressed(egui::Key::ArrowRight) - pressed(egui::Key::ArrowLeft)
        });
        if presses != 0 {
            shown = before + f64::from(presses) * step;
        }
    }
    let taken = if clicks.double_clicked() {
        Some(field.set(document, "", fields.system))
    } else if response.changed() {
        Some(field.set_base(document, shown * range.unit, fields.system))
    } else {
        None
    };
    if let Some(Ok(())) = taken {
        fields.set(Change::of(name, field));
    }
    tell_beside(ui, &response, |ui| {
        ui.label("Drag, or click and use the arrow keys; with Shift in finer steps. Double-click for as measured.");
    });
}

/// A tick under a slider where it was measured.
#[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
fn measured_mark(ui: &Ui, slider: egui::Rect, part: f64) {
    let handle = slider.height() / 2.5;
    let x = egui::lerp(
        slider.left() + handle..=slider.right() - handle,
        part as f32,
    );
    let y = slider.bottom() + 3.0;
    let colour = ui
        .visuals()
        .weak_text_color
        .unwrap_or(ui.visuals().text_color());
    let corners = vec![
        egui::pos2(x, y - 5.0),
        egui::pos2(x + 3.5, y),
        egui::pos2(x - 3.5, y),
    ];
    ui.painter().add(egui::Shape::convex_polygon(
        corners,
        colour,
        egui::Stroke::NONE,
    ));
}
