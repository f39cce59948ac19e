//! The Blade path area: how long the clips are, and the way of the blades' tips over the ground.

mod drawing;
mod numbers;
mod worked_out;

use std::rc::Rc;

use egui::{Button, CentralPanel, Key, Label, Panel, Ui};

use self::drawing::PathView;
use self::numbers::numbers_ui;
use self::worked_out::{NEVER_TURNING, WorkedOut};
use super::not_current::nothing_drawn_ui;
use super::{About, Area};
use crate::analysis::{Solved, SolvedId};
use crate::app::desk::{Change, Desk, PerSession};
use crate::app::form::example_speeds;
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::drawing::PictureView;
use crate::unit::Group;
use crate::units::System;

pub const ABOUT: About = About {
    id: "blade-path",
    title: "Blade path",
    purpose: "Clips, and the blades' path over the ground",
    key: Key::Num4,
    picture: Some(PictureView::Path),
};

/// The area. How the drawing is looked at belongs to the session.
#[derive(Debug, Default)]
pub struct BladePathArea {
    state: PerSession<State>,
}

#[derive(Debug, Default)]
struct State {
    /// By what was solved and the units.
    worked_out: Kept<(SolvedId, System), Option<Rc<WorkedOut>>>,
    view: PathView,
}

impl Area for BladePathArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let state = self.state.front(desk, State::default);
        state.show(ui, desk);
    }
}

impl State {
    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let good = desk.good().cloned();
        let shown = good.as_ref().and_then(|good| {
            let worked_out = self.work_out(good, desk.system())?;
            Some((good, worked_out))
        });
        if let Some((_, worked_out)) = &shown {
            let height = ui.ctx().content_rect().height();
            Panel::bottom("path numbers")
                .default_size((0.335 * height).clamp(200.0, 275.0))
                .size_range(120.0..=480.0)
                .resizable(true)
                .show(ui, |ui| numbers_ui(ui, desk, worked_out));
        }
        CentralPanel::default_margins().show(ui, |ui| match (&good, &shown) {
            (None, _) => nothing_drawn_ui(ui, desk),
            (_, None) => no_speeds_ui(ui, desk),
            (_, Some((good, worked_out))) => {
                heading_ui(ui, desk, worked_out);
                self.view.tools_ui(ui);
                self.view.drawing_ui(ui, desk, good, worked_out);
            }
        });
    }

    fn work_out(&mut self, good: &Solved, system: System) -> Option<Rc<WorkedOut>> {
        let made = |_: &_| WorkedOut::of(good, system).map(Rc::new);
        self.worked_out.get((good.id, system), made).clone()
    }
}

fn heading_ui(ui: &mut Ui, desk: &Desk, worked_out: &WorkedOut) {
    ui.add_enabled_ui(desk.why_not_current().is_none(), |ui| {
        let text = Lettering::Headline.of(&worked_out.in_short);
        ui.add(Label::new(text).truncate());
    });
}

/// Without speeds there is nothing to show but what is missing.
fn no_speeds_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.vertical_centered(|ui| {
        ui.set_max_width(560.0);
        ui.add_space(80.0);
        ui.heading("No speeds yet");
        ui.label("Clips and paths follow from the ground speed and the reel's speed, which this unit does not have. Write them under Mowing in the form, or begin with an example and type over it there.");
        ui.add_space(6.0);
        let button = ui
            .add_enabled(!desk.is_asking(), Button::new("Fill in speeds"))
            .on_hover_text("Puts an example into the form, to be typed over");
        if button.clicked() {
            let speeds = example_speeds(desk.system());
            desk.edit(Change::of("Filled in speeds", Group::Mowing), |document| {
                document.mowing = Some(speeds);
                document.mark_examples(Group::Mowing);
            });
        }
        ui.add_space(16.0);
        ui.label(NEVER_TURNING);
        caution_in_short_ui(ui);
    });
}
