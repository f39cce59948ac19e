//! The Knives area: which knife fits this unit, at this height of cut, from a new reel to a scrap
//! one, and how much room in attitude it leaves.

mod axis;
mod inks;
mod life;
mod map;
mod overlay;
mod table;
mod worked_out;

use std::rc::Rc;

use egui::{Align, CentralPanel, Key, ScrollArea, Ui};

use self::life::LifePlots;
use self::map::WindowMap;
use self::overlay::OverlayLens;
use self::table::KnifeTable;
use self::worked_out::{AT_ONCE, KnivesDrawn, Named, WorkedOut, named_knives};
use super::{About, Area};
use crate::analysis::SolvedId;
use crate::app::desk::{Desk, PerSession, Ticked};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::kept::Kept;
use crate::drawing::PictureView;
use crate::units::System;

pub const ABOUT: About = About {
    id: "knives",
    title: "Knives",
    purpose: "Compare knives before ordering",
    key: Key::Num2,
    picture: PictureView::Map,
};

/// The area. What is chosen in it belongs to the session.
#[derive(Debug, Default)]
pub struct KnivesArea {
    state: PerSession<State>,
}

/// A part of the area, to be brought to the top of what is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Table,
    Overlay,
    Map,
    Life,
}

impl Part {
    const ALL: [Self; 4] = [Self::Table, Self::Overlay, Self::Map, Self::Life];

    fn name(self) -> &'static str {
        match self {
            Self::Table => "Table",
            Self::Overlay => "Overlay",
            Self::Map => "Map",
            Self::Life => "Reel's life",
        }
    }
}

/// Buttons that bring a part to the top; which was asked for.
fn parts_ui(ui: &mut Ui) -> Option<Part> {
    let mut wanted = None;
    ui.horizontal_wrapped(|ui| {
        ui.label("Go to");
        for part in Part::ALL {
            let button = ui
                .small_button(part.name())
                .accessible_name(format!("Go to {}", part.name()));
            if button.clicked() {
                wanted = Some(part);
            }
        }
    });
    wanted
}

#[derive(Debug, Default)]
struct State {
    /// By what was solved and the units.
    worked_out: Kept<(SolvedId, System), WorkedOut>,
    named: Kept<SolvedId, Rc<[Named]>>,
    plotted: Kept<(SolvedId, Ticked), Rc<KnivesDrawn>>,
    table: KnifeTable,
    overlay: OverlayLens,
    map: WindowMap,
    life: LifePlots,
}

impl Area for KnivesArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let state = self.state.front(desk, State::default);
        CentralPanel::default_margins().show(ui, |ui| state.show(ui, desk));
    }
}

impl State {
    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let system = desk.system();
        let Self {
            worked_out,
            named,
            plotted,
            table,
            overlay,
            map,
            life,
        } = self;
        let good = desk.good().cloned();
        let mut shown = good.as_ref().map(|good| {
            let worked_out = worked_out.get((good.id, system), |_| WorkedOut::of(good, system));
            let named = named.get(good.id, |_| named_knives(good).into());
            let key = (good.id, desk.ticked().clone());
            let plotted = plotted.get(key, |(_, ticked)| Rc::new(KnivesDrawn::of(good, ticked)));
            (worked_out, Rc::clone(named), Rc::clone(plotted))
        });
        if let Some((worked_out, ..)) = &mut shown
            && !worked_out.go_on(AT_ONCE)
        {
            ui.ctx().request_repaint();
        }
        let wanted = shown.is_some().then(|| parts_ui(ui)).flatten();
        let begin = |ui: &Ui, part: Part| {
            if wanted == Some(part) {
                ui.scroll_to_cursor(Some(Align::TOP));
            }
        };
        ScrollArea::vertical()
            .id_salt("knives")
            .auto_shrink(false)
            .show(ui, |ui| {
                let followed = Followed::begin(ui);
                let worked_out = shown.as_mut().map(|(worked_out, ..)| &mut **worked_out);
                begin(ui, Part::Table);
                table.show(ui, desk, worked_out);
                if shown.is_some() {
                    ui.separator();
                    begin(ui, Part::Overlay);
                    overlay.show(ui, desk);
                }
                ui.separator();
                // Before the plots: a click on either changes how much is said under the plots, and
                // nothing may move under the hand.
                let lists = shown
                    .as_ref()
                    .map(|(_, named, plotted)| (&**named, &**plotted));
                begin(ui, Part::Map);
                map.show(ui, desk, lists);
                ui.separator();
                begin(ui, Part::Life);
                life.show(ui, desk, lists.map(|(_, plotted)| plotted));
                ui.separator();
                caution_in_short_ui(ui);
                followed.bring_in(ui);
            });
    }
}
