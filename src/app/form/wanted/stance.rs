//! The two ways of setting: attitude and height, or the rollers.

use egui::{RichText, Sense, Ui, Vec2};

use crate::analysis::{Level, Solution};
use crate::app::desk::Change;
use crate::app::form::field::Fields;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::symbol::symbol;
use crate::unit::{Document, Field, Group, RollerMoves};
use crate::units::{Length, Quantity};

/// The two ways of setting, and what the rollers do.
pub fn stance_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    solution: Option<&Solution>,
) {
    let is_by_rollers = document.setting.rollers.is_some();
    let mut wants_rollers = is_by_rollers;
    ui.horizontal(|ui| {
        ui.label("Set by");
        ui.selectable_value(&mut wants_rollers, false, "attitude and height")
            .on_hover_text(
                "Attitude and height are wanted; how far to move each roller comes out.",
            );
        ui.selectable_value(&mut wants_rollers, true, "the rollers")
            .on_hover_text(
                "The rollers are given, by a spacer or left alone; attitude and height come out.",
            );
    });
    if wants_rollers != is_by_rollers
        && let Some(solution) = solution
    {
        let pose = &solution.pose;
        let stance = if wants_rollers {
            pose.as_rollers()
        } else {
            pose.as_wanted()
        };
        document.set_stance(stance, fields.system);
        let name = if wants_rollers {
            "Setting by the rollers"
        } else {
            "Setting by attitude and height"
        };
        fields.set(Change::of(name, Group::Setting));
    }
    if document.setting.rollers.is_some() {
        fields.group_rows(ui, document, Group::RollerMoves);
        let help = "Nobody touched the rollers since the unit was measured: both moves are zero.";
        let button = ui.button("Left alone, both 0").on_hover_text(help);
        if button.clicked() {
            let zero = Quantity::from_value(Length::ZERO, fields.system);
            document.setting.rollers = Some(RollerMoves::both(zero.clone(), zero));
            fields.set(Change::of("Rollers left alone", Group::RollerMoves));
        }
        let hint = "Up, towards the reel, is +; down is -: a 1/8 in spacer that pushes a roller down is -1/8.";
        ui.label(Lettering::Note.of(hint).weak());
    } else if let Some(solution) = solution {
        roller_moves_ui(ui, fields, document, solution);
    }
    ui.add_space(4.0);
}

/// How far each roller has to move from where it was measured.
fn roller_moves_ui(ui: &mut Ui, fields: &Fields, document: &Document, solution: &Solution) {
    let pose = &solution.pose;
    for (name, roller) in [
        ("Front roller", &pose.front_roller),
        ("Rear roller", &pose.rear_roller),
    ] {
        ui.horizontal(|ui| {
            ui.label(RichText::new(format!("{name}:")).weak());
            ui.label(RichText::new(fields.system.roller_move(roller.moved)).family(strong()));
            ui.label(RichText::new("from where it was measured").weak());
        });
    }
    let places = [Group::FrontRoller, Group::RearRoller];
    let mut marked = document.examples.iter().map(Field::group);
    if marked.any(|group| places.contains(&group)) {
        ui.horizontal(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(14.0), Sense::hover());
            symbol(ui, place, Level::Watch, fields.theme);
            ui.label(Lettering::Note.of("The rollers' places are still examples."));
        });
    }
}
