//! What is told above the table: which knives fit, and whether that is still so.

use egui::{RichText, ScrollArea, Sense, Ui, Vec2};

use crate::analysis::Level;
use crate::analysis::knives::Counts;
use crate::app::areas::knives::worked_out::WorkedOut;
use crate::app::desk::Desk;
use crate::app::widgets::examples::still_examples_ui;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::long_list::long_list_ui;
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

fn told(ui: &mut Ui, level: Level, side: f32, text: RichText) {
    let theme = theme(ui.ctx());
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(side), Sense::hover());
        symbol(ui, place, level, theme);
        ui.add(egui::Label::new(text).wrap());
    });
}

/// Which knives pass, in one sentence.
pub fn which_ui(ui: &mut Ui, worked_out: &mut WorkedOut) {
    let examples = worked_out.examples;
    let first = Lettering::Headline.of(worked_out.first_sentence());
    let Some(ranks) = worked_out.ranks() else {
        ui.label(first);
        return;
    };
    let level = ranks.counts.verdict(0).level(examples);
    told(ui, level, 24.0, first);
    still_examples_ui(ui, examples);
}

/// The knives in the order they pass, each with its reason.
pub fn ranking_ui(ui: &mut Ui, worked_out: &mut WorkedOut) {
    let examples = worked_out.examples;
    let Some(ranks) = worked_out.ranks() else {
        return;
    };
    let (counts, count) = (ranks.counts, ranks.order.len());
    let order = Lettering::Note.of(order_told(counts, count));
    ui.add(egui::Label::new(order.weak()).wrap());
    let height = if count <= SEEN_WHOLE {
        f32::INFINITY
    } else {
        250.0
    };
    ScrollArea::vertical()
        .id_salt("ranking")
        .max_height(height)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            long_list_ui(ui, "ranking", count, 27.0, |ui, rank| {
                let sentence = RichText::new(worked_out.sentence(rank));
                let level = counts.verdict(rank).level(examples);
                ui.push_id(rank, |ui| told(ui, level, 17.0, sentence));
            });
        });
    ui.add_space(4.0);
}

/// A list of so many knives is seen whole; a longer one is scrolled.
const SEEN_WHOLE: usize = 8;

/// What the list goes by, and how many of it do not pass.
fn order_told(counts: Counts, count: usize) -> String {
    let order = "Order: those that pass, the most room first; price counts only where the room is the same. Each sign is for the knife set within its range, not for the unit as it is set now.";
    match count - counts.fitting - counts.undecided {
        0 => order.to_owned(),
        1 => format!("{order} One does not pass: it is listed last."),
        n => format!("{order} {n} do not pass: they are listed last."),
    }
}
