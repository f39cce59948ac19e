//! The table of knives: one row for each, with its numbers, its windows and what can be done to it.

mod adding;
mod cells;
mod done;
mod heads;
mod held;
mod ranking;
mod rows;
mod sort;
mod widths;

use std::rc::Rc;

use egui::{Frame, ScrollArea, Ui, Vec2};

use self::adding::Adding;
use self::cells::Cells;
use self::done::Done;
use self::heads::heads_ui;
use self::held::Held;
use self::ranking::{not_current_note_ui, ranking_ui, which_ui};
use self::rows::rows_buttons_ui;
use self::sort::Sorted;
use self::widths::{GAP, Widths};
use super::worked_out::WorkedOut;
use crate::analysis::knives::{KnifeRow, Order};
use crate::app::desk::{Beside, Change, Desk, Side, Ticked};
use crate::app::form::{edited_knife_ui, fill_in};
use crate::app::widgets::focus::Followed;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::long_list::long_list_ui;
use crate::app::widgets::look::{colour, theme};
use crate::drawing::{KNIFE_LINES, Role};
use crate::unit::{Document, Fitted, Group, Knife};
use crate::units::Angle;

/// About how high a row is.
const ROW: f32 = 78.0;

/// What the table remembers.
#[derive(Debug, Default)]
pub struct KnifeTable {
    sorted: Option<Sorted>,
    /// By the solve, what it is sorted by, and whether every row was there.
    order: Kept<(u64, Sorted, bool), Rc<[usize]>>,
    /// The knife whose row is open.
    open: Option<Fitted>,
    /// How many options there were when it was opened: with fewer, its place may be another's.
    options: usize,
}

impl KnifeTable {
    /// Everything about the table: which knife passes and why, the rows, and what they rest on. The rows
    /// stand first where the reasons would push them out of view.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        desk: &mut Desk,
        mut worked_out: Option<&mut WorkedOut>,
        are_rows_first: bool,
    ) {
        ui.horizontal_wrapped(|ui| {
            ui.heading("Which knife passes");
            ui.add_space(12.0);
            if ui
                .button("Add a knife")
                .on_hover_text("A blank row, compared once it is filled in")
                .clicked()
            {
                desk.open_card(Adding::with_what_was_left(ui));
            }
            rows_buttons_ui(ui, desk, worked_out.as_deref_mut());
        });
        not_current_note_ui(ui, desk);
        if let Some(worked_out) = worked_out {
            which_ui(ui, worked_out);
            if are_rows_first {
                ui.scope(|ui| self.rows_ui(ui, desk, worked_out));
                order_ui(ui, desk);
                ranking_ui(ui, worked_out);
            } else {
                ranking_ui(ui, worked_out);
                ui.scope(|ui| self.rows_ui(ui, desk, worked_out));
                order_ui(ui, desk);
            }
            ui.add_space(6.0);
            for sentence in &worked_out.rests_on {
                ui.add(egui::Label::new(sentence).wrap());
            }
        }
    }

    fn rows_ui(&mut self, ui: &mut Ui, desk: &mut Desk, worked_out: &mut WorkedOut) {
        if desk.document().options.len() < self.options {
            self.open = None;
        }
        let mut done = None;
        let order_told = match self.sorted {
            None => "As listed. Click a column heading to sort.".to_owned(),
            Some(sorted) => format!("Sorted by {}, {}.", sorted.by.head(), sorted.words()),
        };
        ui.label(Lettering::Note.of(order_told).weak());
        // A bar that is always there says that there is more to the right.
        ui.spacing_mut().scroll = egui::style::ScrollStyle::solid();
        ScrollArea::horizontal()
            .id_salt("rows of knives")
            .auto_shrink([false, true])
            .show_viewport(ui, |ui, view| {
                let followed = Followed::begin(ui);
                ui.spacing_mut().item_spacing.y = 2.0;
                let held = Held::of(Widths(desk.system()), view);
                let reached = heads_ui(ui, &held, desk.system(), &mut self.sorted);
                let order = self.order(desk, worked_out);
                let fitted = desk.document().fitted();
                let attitudes = worked_out.attitudes();
                long_list_ui(ui, "rows", order.len(), ROW, |ui, line| {
                    let index = order[line];
                    let place = place_of(index);
                    let Some(knife) = desk.document().knife_at(place).cloned() else {
                        return;
                    };
                    let row = row_place(desk, worked_out, index, &knife);
                    let row = row.and_then(|index| worked_out.row(index));
                    ui.push_id(("row of a knife", index), |ui| {
                        let shown = (place, &knife, row);
                        let seen = (&held, attitudes);
                        self.row_ui(ui, desk, (line, fitted), shown, seen, &mut done);
                        if self.open == Some(place) {
                            open_row_ui(ui, desk, place, held.offset());
                        }
                    });
                });
                followed.bring_in(ui);
                // A head that the keys reached comes out from under the columns that stay.
                if let Some(mut head) = reached {
                    head.min.x -= held.width() + GAP;
                    ui.scroll_to_rect(head, None);
                }
            });
        if let Some(done) = done {
            self.do_to_row(desk, done);
            ui.ctx().request_repaint();
        }
    }

    /// The knives' places in the order they stand in the table. While rows of a long list are still
    /// wanting, the order is that of the list before, or as listed.
    fn order(&mut self, desk: &Desk, worked_out: &WorkedOut) -> Rc<[usize]> {
        let document = desk.document();
        let count = document.options.len() + 1;
        let Some(sorted) = self.sorted else {
            return (0..count).collect();
        };
        let is_done = worked_out.ranks().is_some();
        if !is_done && let Some(last) = self.order.last().filter(|last| last.len() == count) {
            return Rc::clone(last);
        }
        let key = (desk.session().solves(), sorted, is_done);
        let order = self.order.get(key, |_| {
            let knives = document.knives().enumerate();
            let mut listed: Vec<(usize, &Knife, Option<&KnifeRow>)> = knives
                .map(|(index, (_, knife))| {
                    let row = row_place(desk, worked_out, index, knife);
                    (index, knife, row.and_then(|row| worked_out.known(row)))
                })
                .collect();
            listed.sort_by(|a, b| sorted.compare((a.1, a.2), (b.1, b.2)));
            listed.into_iter().map(|(index, ..)| index).collect()
        });
        Rc::clone(order)
    }

    fn row_ui(
        &self,
        ui: &mut Ui,
        desk: &Desk,
        (line, fitted): (usize, Option<Fitted>),
        (place, knife, row): (Fitted, &Knife, Option<&KnifeRow>),
        (held, attitudes): (&Held, (Angle, Angle)),
        done: &mut Option<Done>,
    ) {
        let is_fitted = fitted == Some(place);
        let theme = theme(ui.ctx());
        let cells = Cells {
            place,
            knife,
            row,
            called: called(desk.document(), place, knife),
            is_fitted,
            is_open: self.open == Some(place),
            is_current: desk.why_not_current().is_none(),
            is_long: desk.document().options.len() + 1 > KNIFE_LINES,
            attitudes,
            ticked: desk.ticked(),
            examples: desk.document().example_count(),
            system: desk.system(),
            theme,
        };
        let behind = ui.painter().add(egui::Shape::Noop);
        let response = Frame::new()
            .inner_margin(egui::Margin {
                left: 10,
                ..egui::Margin::symmetric(0, 5)
            })
            .show(ui, |ui| {
                ui.horizontal_top(|ui| {
                    ui.spacing_mut().item_spacing.x = GAP;
                    cells.show(ui, held, done);
                });
            })
            .response;
        let accent = colour(theme.look(Role::CutLine).ink);
        let rect = response.rect;
        let fill = match (is_fitted, line % 2) {
            (true, _) => accent.gamma_multiply(0.16),
            (false, 0) => ui.visuals().faint_bg_color,
            _ => egui::Color32::TRANSPARENT,
        };
        let mut shapes = vec![egui::Shape::rect_filled(rect, 3.0, fill)];
        if is_fitted {
            let bar = egui::Rect::from_min_size(rect.min, Vec2::new(4.0, rect.height()));
            shapes.push(egui::Shape::rect_filled(bar, 2.0, accent));
        }
        ui.painter().set(behind, egui::Shape::Vec(shapes));
    }

    fn do_to_row(&mut self, desk: &mut Desk, done: Done) {
        match done {
            Done::Fit(place) => {
                desk.edit(Change::new("Knife fitted"), |document| {
                    document.fit_knife(place);
                });
            }
            Done::Open(place) => self.open_row(desk, place),
            Done::Duplicate(place) => {
                let knife = desk.document().knife_at(place);
                let name = knife.map(|knife| knife.name.clone());
                self.add_copy_of(desk, place, &name.unwrap_or_default());
            }
            Done::Remove(index) => {
                // Those after it move up.
                desk.edit(Change::of("Removed knife", Group::Options), |document| {
                    document.remove_knife(index);
                });
                let open = match self.open {
                    Some(Fitted::Option(open)) if open == index => None,
                    Some(Fitted::Option(open)) if open > index => Some(Fitted::Option(open - 1)),
                    other => other,
                };
                self.open_row(desk, open);
            }
            Done::Tick(name, is_ticked) => desk.tick(&name, is_ticked),
        }
    }

    fn open_row(&mut self, desk: &Desk, place: Option<Fitted>) {
        self.open = place;
        self.options = desk.document().options.len();
    }

    /// Adds a copy of a knife under a name of its own, and opens its row.
    fn add_copy_of(&mut self, desk: &mut Desk, place: Fitted, name: &str) {
        let Some(mut copy) = desk.document().knife_at(place).cloned() else {
            return;
        };
        name.clone_into(&mut copy.name);
        desk.edit(Change::new("Added knife"), |document| {
            document.add_knife(copy);
        });
        let last = desk.document().options.len() - 1;
        self.open_row(desk, Some(Fitted::Option(last)));
    }
}

/// What the knives to compare cost together and what the ticked ones do, each as many times as it is
/// wanted. The measured knife is on the unit, and ordered only where it is ticked.
fn order_ui(ui: &mut Ui, desk: &mut Desk) {
    let document = desk.document();
    let all = Order::of(&document.options);
    // One of each is a choice, no order: their sum says nothing.
    let is_order = document.options.iter().any(|knife| knife.quantity.0 > 1);
    if is_order && all.unpriced < all.pieces {
        ui.label(format!("If you order them all: {}", all.told()));
    }
    let ticked = desk.ticked();
    if ticked.is_empty() {
        return;
    }
    let knives = document.knives().map(|(_, knife)| knife);
    let order = Order::of(knives.filter(|knife| ticked.place_of(&knife.name).is_some()));
    let told = format!("Ticked: {}", order.told());
    let beside = ticked_beside(ticked);
    ui.horizontal_wrapped(|ui| {
        ui.label(told);
        let button = ui.button("Side by side…");
        let help = "The first two ticked knives on this unit, or the fitted one and the ticked one, at one scale";
        if button.on_hover_text(help).clicked() {
            desk.want_beside(beside);
        }
    });
}

/// The first two ticked knives; one alone beside the knife that is fitted.
fn ticked_beside(ticked: &Ticked) -> Beside {
    let mut names = ticked.names().map(str::to_owned);
    let (first, second) = (names.next(), names.next());
    let side = |name: Option<String>| name.map_or(Side::AsSet, Side::WithKnife);
    match second {
        Some(second) => Beside([side(first), side(Some(second))]),
        None => Beside([Side::AsSet, side(first)]),
    }
}

/// The fields of a knife, under its row.
fn open_row_ui(ui: &mut Ui, desk: &mut Desk, place: Fitted, offset: f32) {
    const WIDTH: f32 = 520.0;
    let frame = Frame::group(ui.style()).inner_margin(10.0);
    ui.horizontal(|ui| {
        // Under the knife's name, which stays in view.
        ui.add_space(offset + Widths::OVERLAY + GAP);
        frame.show(ui, |ui| {
            ui.vertical(|ui| {
                ui.set_width(WIDTH);
                ui.spacing_mut().item_spacing.y = 5.0;
                fill_in(ui, desk, |ui, fields, document| {
                    edited_knife_ui(ui, fields, document, place);
                });
            });
        });
    });
}

/// The row of a knife of the document, by its place in what was worked out. Where that was an earlier
/// list, knives are known by their names.
fn row_place(desk: &Desk, worked_out: &WorkedOut, index: usize, knife: &Knife) -> Option<usize> {
    let is_settled = desk.session().trouble().is_none();
    if is_settled && worked_out.len() == desk.document().options.len() + 1 {
        Some(index)
    } else {
        worked_out.place_of(&knife.name)
    }
}

/// The place of a knife by its number in the list.
fn place_of(number: usize) -> Fitted {
    match number.checked_sub(1) {
        None => Fitted::Bench,
        Some(index) => Fitted::Option(index),
    }
}

/// A number for a knife's place in the list.
fn number_of(place: Fitted) -> usize {
    match place {
        Fitted::Bench => 0,
        Fitted::Option(index) => index + 1,
    }
}

/// What a row is called: its knife's name, with its number where another has the same.
fn called(document: &Document, place: Fitted, knife: &Knife) -> String {
    let same = document
        .knives()
        .filter(|(_, other)| other.name == knife.name);
    if knife.name.is_empty() || same.count() > 1 {
        format!("{}, {}", knife.name, number_of(place) + 1)
    } else {
        knife.name.clone()
    }
}
