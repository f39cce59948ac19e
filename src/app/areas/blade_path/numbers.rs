//! The kinematics under the drawing: numbers on the left, what to do about the clip on the right.

use egui::{Button, Grid, RichText, ScrollArea, Ui, Vec2};

use super::worked_out::{NEVER_TURNING, WorkedOut};
use crate::analysis::{Kinematics, SpeedsForCut};
use crate::app::desk::{Change, Desk};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::unit::Reading;
use crate::units::{Measure, Quantity, System};

/// A speed that was chosen by its button.
enum Chosen {
    Drive(Quantity<crate::units::Speed>),
    Turn(Quantity<crate::units::Turning>),
}

/// Numbers and sentences.
pub fn numbers_ui(ui: &mut Ui, desk: &mut Desk, worked_out: &WorkedOut) {
    let is_current = desk.why_not_current().is_none();
    if !is_current {
        let text = "Not current: these are the numbers of the last drawing.";
        ui.label(RichText::new(text).family(strong()));
    }
    let system = desk.system();
    let can_change = is_current && !desk.is_asking();
    let mut chosen = None;
    ui.horizontal_top(|ui| {
        let width = (0.56 * ui.available_width()).clamp(330.0, 700.0);
        let size = Vec2::new(width, ui.available_height());
        let layout = egui::Layout::top_down(egui::Align::Min);
        ui.allocate_ui_with_layout(size, layout, |ui| {
            ui.set_min_width(width);
            ui.add_enabled_ui(is_current, |ui| kinematics_ui(ui, worked_out, width, system));
        });
        ui.separator();
        ui.vertical(|ui| {
            ui.heading("Clip as long as the height of cut");
            ScrollArea::vertical()
                .id_salt("speeds for the cut")
                .auto_shrink(false)
                .show(ui, |ui| {
                    let followed = Followed::begin(ui);
                    ui.add_enabled_ui(can_change, |ui| {
                        chosen = for_cut_ui(ui, &worked_out.kinematics, system);
                    });
                    ui.add_space(4.0);
                    ui.label(NEVER_TURNING);
                    ui.add_space(4.0);
                    caution_in_short_ui(ui);
                    ui.add_space(4.0);
                    let basis = "Drawn on level ground with zero roller sink. The ripple is an estimate: it takes each stem to be cut at the clip nearest its root, and to stand straight from root to edge.";
                    ui.label(Lettering::FinePrint.of(basis).weak());
                    followed.bring_in(ui);
                });
        });
    });
    match chosen {
        Some(Chosen::Drive(speed)) => {
            let change = Change::of("Ground speed", Reading::GroundSpeed);
            desk.edit(change, |document| {
                if let Some(mowing) = &mut document.mowing {
                    mowing.ground_speed = speed;
                }
            });
        }
        Some(Chosen::Turn(speed)) => {
            let change = Change::of("Reel speed", Reading::ReelSpeed);
            desk.edit(change, |document| {
                if let Some(mowing) = &mut document.mowing {
                    mowing.reel_speed = speed;
                }
            });
        }
        None => {}
    }
}

fn kinematics_ui(ui: &mut Ui, worked_out: &WorkedOut, width: f32, system: System) {
    // Fractions are wide.
    let two_columns = if system == System::InchFraction {
        590.0
    } else {
        460.0
    };
    let numbers = &worked_out.numbers;
    ui.heading("Clip and speeds");
    ScrollArea::vertical()
        .id_salt("kinematics")
        .auto_shrink(false)
        .show(ui, |ui| {
            let columns = if width > two_columns { 2 } else { 1 };
            let rows = numbers.len().div_ceil(columns);
            let between_rows = if columns == 1 { 1.0 } else { 3.0 };
            Grid::new("kinematics numbers")
                .num_columns(2 * columns)
                .min_row_height(20.0)
                .spacing(Vec2::new(12.0, between_rows))
                .show(ui, |ui| {
                    for row in 0..rows {
                        for column in 0..columns {
                            if let Some(told) = numbers.get(column * rows + row) {
                                ui.label(RichText::new(told.name).weak())
                                    .on_hover_text(told.meaning);
                                ui.label(RichText::new(&told.shown).family(strong()))
                                    .on_hover_text(told.meaning);
                            }
                        }
                        ui.end_row();
                    }
                });
            if let Some(why) = worked_out.kinematics.why_never_below() {
                ui.add_space(4.0);
                ui.label(why);
            }
        });
}

/// The speeds that give a clip as long as the height of cut, each with its button.
fn for_cut_ui(ui: &mut Ui, kinematics: &Kinematics, system: System) -> Option<Chosen> {
    let Some(SpeedsForCut {
        ground_speed,
        reel_speed,
    }) = kinematics.for_cut
    else {
        ui.label("The edge does not stand above the ground: there is no height of cut to match.");
        return None;
    };
    let now = kinematics.speeds;
    ui.label(format!(
        "Rule of thumb. Now: {} with the reel at {}. Either of these alone gives it; use it only if the machine's manual allows it:",
        now.ground_speed.entry(system),
        now.reel_speed.entry(system)
    ));
    let mut chosen = None;
    ui.horizontal_wrapped(|ui| {
        let (drive, turn) = (entry(ground_speed, system), entry(reel_speed, system));
        if speed_button(ui, "Drive at", &drive, now.ground_speed) {
            chosen = Some(Chosen::Drive(drive));
        }
        if speed_button(ui, "Use", &turn, now.reel_speed) {
            chosen = Some(Chosen::Turn(turn));
        }
    });
    chosen
}

/// A speed as it would be typed; kept finer where it would be rounded to zero.
fn entry<M: Measure>(speed: M, system: System) -> Quantity<M> {
    let rounded = Quantity::from_value(speed, system);
    if rounded.value().base() > 0.0 {
        rounded
    } else {
        Quantity::exactly(speed, system)
    }
}

/// A button for a speed; it is dead where the speed is past what can be worked with, or is
/// the present one.
fn speed_button<M: Measure>(ui: &mut Ui, words: &str, speed: &Quantity<M>, now: M) -> bool {
    let base = speed.value().base();
    let is_possible = base > 0.0 && base <= M::MOST.0;
    #[expect(clippy::float_cmp, reason = "the same text was read into both")]
    let is_other = base != now.base();
    let text = format!("{words} {}", speed.text());
    let button = ui.add_enabled(is_possible && is_other, Button::new(text));
    button
        .on_hover_text("Writes it into the form")
        .on_disabled_hover_text("The present speed, or one that cannot be worked with")
        .clicked()
}
