//! What is told above the table: which knives fit, and whether that is still so.

use egui::{RichText, ScrollArea, Sense, Ui, Vec2};

use crate::analysis::Level;
use crate::app::areas::knives::worked_out::WorkedOut;
use crate::app::desk::Desk;
use crate::app::widgets::examples::still_examples_ui;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;

/// That what is shown is of an earlier entry, and why.
pub fn not_current_note_ui(ui: &mut Ui, desk: &Desk) {
    let Some(why) = desk.why_not_current() else {
        return;
    };
    let theme = theme(ui.ctx());
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(20.0), Sense::hover());
        symbol(ui, place, Level::Over, theme);
        let text = format!("Not current: these are the knives as they last were. {why}");
        ui.add(egui::Label::new(RichText::new(text).family(strong())).wrap());
    });
}

/// The knives in the order they fit, each with its reason.
pub fn ranking_ui(ui: &mut Ui, worked_out: &WorkedOut) {
    let theme = theme(ui.ctx());
    let ranking = &worked_out.ranking;
    let level = |fits: bool| match fits {
        false => Level::Over,
        true if worked_out.examples.is_none() => Level::Fine,
        true => Level::Watch,
    };
    let told = |ui: &mut Ui, fits: bool, side: f32, text: RichText| {
        ui.horizontal_top(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(side), Sense::hover());
            symbol(ui, place, level(fits), theme);
            ui.add(egui::Label::new(text).wrap());
        });
    };
    let mut sentences = ranking.sentences.iter();
    if let Some(first) = sentences.next() {
        let text = Lettering::Headline.of(first);
        told(ui, ranking.fitting > 0, 24.0, text);
    }
    still_examples_ui(ui, worked_out.examples);
    ScrollArea::vertical()
        .id_salt("ranking")
        .max_height(250.0)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            for (place, sentence) in sentences.enumerate() {
                told(ui, place < ranking.fitting, 17.0, RichText::new(sentence));
            }
        });
    ui.add_space(4.0);
}
