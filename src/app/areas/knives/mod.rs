//! The Knives area: which knife fits this unit, at this height of cut, from a new reel to a scrap
//! one, and how much room in attitude it leaves.

mod axis;
mod inks;
mod life;
mod map;
mod overlay;
mod room;
mod table;
mod worked_out;

use std::rc::Rc;

use egui::{Align, CentralPanel, Key, Panel, ScrollArea, Ui};

use self::life::LifePlots;
use self::map::WindowMap;
use self::overlay::OverlayLens;
use self::room::PictureRoom;
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
    picture: Some(PictureView::Map),
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

/// An area so high has room for all its parts one below the other.
const ALL_BELOW: f32 = 1500.0;
/// Of a lower one, the part that the pictures get under the table, and the least of either.
const PICTURES: f32 = 0.58;
/// The same of one lower than this, where the table would have no room for a row.
const LOW: f32 = 560.0;
const PICTURES_WHERE_LOW: f32 = 0.42;
const LEAST_PANE: f32 = 150.0;

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

#[derive(Debug)]
struct State {
    /// The picture under the table, where there is room for one.
    picture: Part,
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
        state.show(ui, desk);
    }
}

impl Default for State {
    fn default() -> Self {
        Self {
            picture: Part::Map,
            worked_out: Kept::default(),
            named: Kept::default(),
            plotted: Kept::default(),
            table: KnifeTable::default(),
            overlay: OverlayLens::default(),
            map: WindowMap::default(),
            life: LifePlots::default(),
        }
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
            picture,
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
        let has_shown = shown.is_some();
        let (worked_out, lists) = match &mut shown {
            Some((worked_out, named, plotted)) => {
                (Some(&mut **worked_out), Some((&**named, &**plotted)))
            }
            None => (None, None),
        };
        if has_shown && ui.available_height() < ALL_BELOW {
            let high = ui.available_height();
            if *picture == Part::Table {
                // The tabs alone, and all the room for the rows.
                Panel::bottom("tabs of knives").show(ui, |ui| tabs_ui(ui, picture));
            } else {
                let part = if high < LOW {
                    PICTURES_WHERE_LOW
                } else {
                    PICTURES
                };
                Panel::bottom("pictures of knives")
                    .resizable(true)
                    .default_size(part * high)
                    .size_range(LEAST_PANE..=(high - LEAST_PANE).max(LEAST_PANE))
                    .show(ui, |ui| {
                        tabs_ui(ui, picture);
                        let room = PictureRoom::PaneDownTo(ui.max_rect().bottom());
                        scrolled(ui, picture.name(), |ui| match picture {
                            Part::Map => map.show(ui, desk, lists, room),
                            Part::Life => life.show(ui, desk, lists.map(|lists| lists.1), room),
                            Part::Overlay => overlay.show(ui, desk, room),
                            // Asked for just now.
                            Part::Table => {}
                        });
                    });
            }
            CentralPanel::default_margins().show(ui, |ui| {
                scrolled(ui, "knives", |ui| {
                    table.show(ui, desk, worked_out, *picture == Part::Table);
                    ui.separator();
                    caution_in_short_ui(ui);
                });
            });
            return;
        }
        CentralPanel::default_margins().show(ui, |ui| {
            let wanted = has_shown.then(|| parts_ui(ui)).flatten();
            let begin = |ui: &Ui, part: Part| {
                if wanted == Some(part) {
                    ui.scroll_to_cursor(Some(Align::TOP));
                }
            };
            scrolled(ui, "knives", |ui| {
                begin(ui, Part::Table);
                table.show(ui, desk, worked_out, false);
                if has_shown {
                    ui.separator();
                    begin(ui, Part::Overlay);
                    overlay.show(ui, desk, PictureRoom::Page);
                }
                ui.separator();
                // Before the plots: a click on either changes how much is said under the plots, and
                // nothing may move under the hand.
                begin(ui, Part::Map);
                map.show(ui, desk, lists, PictureRoom::Page);
                ui.separator();
                begin(ui, Part::Life);
                life.show(ui, desk, lists.map(|lists| lists.1), PictureRoom::Page);
                ui.separator();
                caution_in_short_ui(ui);
            });
        });
    }
}

/// The picture to show under the table, or the table alone.
fn tabs_ui(ui: &mut Ui, picture: &mut Part) {
    ui.horizontal_wrapped(|ui| {
        for part in [Part::Table, Part::Map, Part::Life, Part::Overlay] {
            ui.selectable_value(picture, part, part.name())
                .accessible_name(format!("Go to {}", part.name()));
        }
    });
}

/// A part that is scrolled where it is higher than its room.
fn scrolled(ui: &mut Ui, id: &str, part_ui: impl FnOnce(&mut Ui)) {
    ScrollArea::vertical()
        .id_salt(id)
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            part_ui(ui);
            followed.bring_in(ui);
        });
}
