//! The start card: what to work on.

use std::path::PathBuf;

use egui::{Button, Grid, Label, ScrollArea, Ui, Vec2};

use super::recent::recent_ui;
use super::steps_card::StepsCard;
use crate::app::desk::{Card, DEMO_UNITS, DemoUnit, Desk, Next, OpenCard, SessionId};
use crate::app::files::{Asking, ask_first};
use crate::app::widgets::caution::caution_ui;
use crate::app::widgets::lettering::Lettering;

/// How many files are offered again; the menu has them all.
const RECENT: usize = 4;
/// Of the buttons beside a text.
const BUTTON: Vec2 = Vec2::new(190.0, 28.0);

/// The card. It closes when something was begun without it, by a key or a file dropped on the window.
#[derive(Default)]
pub struct StartCard {
    /// What it was opened over.
    over: Option<SessionId>,
}

/// What a person chose.
enum Choice {
    Own,
    Open,
    Again(PathBuf),
    Demo(&'static DemoUnit),
    Steps,
}

impl Card for StartCard {
    fn name(&self) -> &'static str {
        "start card"
    }

    fn width(&self) -> f32 {
        700.0
    }

    fn takes_keys(&self) -> bool {
        false
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let now = desk.session().id();
        if *self.over.get_or_insert(now) != now {
            return Next::Close;
        }
        let room = ui.ctx().content_rect().height() - 70.0;
        ScrollArea::vertical()
            .max_height(room)
            .min_scrolled_height(room)
            .show(ui, |ui| choices_ui(ui, desk))
            .inner
            .map_or(Next::Stay, |choice| take(desk, choice))
    }
}

/// Does what was chosen. Where nothing came of it, the card is still there afterwards.
fn take(desk: &mut Desk, choice: Choice) -> Next {
    let asked = match choice {
        Choice::Steps => {
            let start = OpenCard::new(StartCard::default(), desk.session().id());
            desk.open_card(StepsCard::over(start));
            return Next::Close;
        }
        Choice::Own => Asking::New,
        Choice::Open => Asking::Choose,
        Choice::Again(file) => Asking::Open(file),
        Choice::Demo(demo) => Asking::Demo(demo),
    };
    let waits = matches!(asked, Asking::Choose);
    if ask_first(desk, asked) || desk.has_card() || waits {
        Next::Close
    } else {
        Next::Stay
    }
}

fn choices_ui(ui: &mut Ui, desk: &Desk) -> Option<Choice> {
    let mut choice = None;
    ui.label(Lettering::Title.of("Will this unit scalp?"));
    ui.label("Sweepgauge draws a cutting unit to scale and computes how deep its reel sweeps below the height of cut.");
    ui.add_space(6.0);
    Grid::new("what to work on")
        .num_columns(2)
        .spacing(Vec2::new(12.0, 4.0))
        .show(ui, |ui| {
            let mut row = |ui: &mut Ui, name: &str, told: &str, chosen: Choice| {
                let button = Button::new(name).min_size(BUTTON);
                let response = ui.add(button);
                ui.add(Label::new(told).wrap());
                ui.end_row();
                if response.clicked() {
                    choice = Some(chosen);
                }
            };
            let own = "Type in what you read on it; what you have not typed yet stays an example.";
            row(ui, "My own unit", own, Choice::Own);
            row(ui, "Open a unit file…", "One saved before.", Choice::Open);
            row(
                ui,
                "Show the first steps",
                "How to get from a unit on the plate to its setting.",
                Choice::Steps,
            );
        });
    let recent = &desk.preferences().recent;
    if !recent.is_empty() {
        heading_ui(ui, "Again");
        if let Some(file) = recent_ui(ui, recent.iter().take(RECENT)) {
            choice = Some(Choice::Again(file));
        }
    }
    heading_ui(ui, "A demo unit");
    Grid::new("demo units")
        .num_columns(2)
        .spacing(Vec2::new(12.0, 4.0))
        .show(ui, |ui| {
            for demo in &DEMO_UNITS {
                if ui.add(Button::new(demo.name).min_size(BUTTON)).clicked() {
                    choice = Some(Choice::Demo(demo));
                }
                ui.add(Label::new(demo.shows).wrap());
                ui.end_row();
            }
        });
    ui.separator();
    caution_ui(ui);
    choice
}

fn heading_ui(ui: &mut Ui, text: &str) {
    ui.add_space(6.0);
    ui.label(Lettering::Name.of(text));
}
