//! The table of knives: one row for each, with its numbers, its windows and what can be done to it.

use egui::{Frame, RichText, ScrollArea, Ui, Vec2};

use super::super::App;
use super::super::form_knives::edited_knife_ui;
use super::super::look::colour;
use super::WorkedOut;
use super::cells::{Cells, GAP, Widths};
use super::rows::Pasting;
use super::sort::Sorted;
use crate::analysis::knives::KnifeRow;
use crate::drawing::Role;
use crate::unit::{Document, Fitted, Group, Knife};

/// What the table remembers.
#[derive(Debug, Default)]
pub(super) struct TableState {
    pub(super) sorted: Option<Sorted>,
    /// The knife whose row is open.
    open: Option<Fitted>,
    /// How many options there were when it was opened: with fewer, its place may be another's.
    options: usize,
    pub(super) pasting: Option<Pasting>,
}

/// What is done to a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Done {
    Fit(Fitted),
    Open(Option<Fitted>),
    Duplicate(Fitted),
    Remove(usize),
    Tick(String, bool),
}

impl App {
    /// Everything about the table: which knife fits, the rows, and what they rest on.
    pub(super) fn knife_table_ui(&mut self, ui: &mut Ui) {
        ui.horizontal_wrapped(|ui| {
            ui.heading("Which knife fits");
            ui.add_space(12.0);
            if ui
                .button("Add a knife")
                .on_hover_text("A copy of the bench knife, to be changed")
                .clicked()
            {
                self.add_copy_of(Fitted::Bench, "knife", false);
                ui.ctx().request_repaint();
            }
            self.rows_buttons_ui(ui);
        });
        self.not_current_note_ui(ui);
        // Lent out while the rows are shown, which edit the document beside it.
        if let Some(worked_out) = self.knives.worked_out.take() {
            Self::ranking_ui(ui, &worked_out);
            ui.scope(|ui| self.rows_ui(ui, &worked_out));
            ui.add_space(6.0);
            for sentence in &worked_out.rests_on {
                ui.add(egui::Label::new(sentence).wrap());
            }
            self.knives.worked_out = Some(worked_out);
            ui.separator();
            self.overlay_ui(ui);
        }
        self.paste_card_ui(ui);
    }

    fn rows_ui(&mut self, ui: &mut Ui, worked_out: &WorkedOut) {
        if self.session.document.options.len() < self.knives.table.options {
            self.knives.table.open = None;
        }
        let is_settled = self.session.trouble().is_none();
        let mut done = None;
        let order_told = match self.knives.table.sorted {
            None => "In the order they are listed; click a column's head to sort.".to_owned(),
            Some(sorted) => format!("Sorted by {}, {}.", sorted.by.head(), sorted.words()),
        };
        ui.label(RichText::new(order_told).weak().size(13.0));
        // A bar that is always there says that there is more to the right.
        ui.spacing_mut().scroll = egui::style::ScrollStyle::solid();
        ScrollArea::horizontal()
            .id_salt("rows of knives")
            .auto_shrink([false, true])
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 2.0;
                self.heads_ui(ui);
                let document = &self.session.document;
                let row_of = |index: usize, knife: &Knife| {
                    let rows = &worked_out.rows;
                    if is_settled && rows.len() == document.options.len() + 1 {
                        rows.get(index)
                    } else {
                        // The rows are those of an earlier list.
                        rows.iter().find(|row| row.name == knife.name)
                    }
                };
                let mut listed: Vec<(Fitted, &Knife, Option<&KnifeRow>)> = document
                    .knives()
                    .enumerate()
                    .map(|(index, (place, knife))| (place, knife, row_of(index, knife)))
                    .collect();
                if let Some(sorted) = self.knives.table.sorted {
                    listed.sort_by(|a, b| sorted.compare((a.1, a.2), (b.1, b.2)));
                }
                let listed: Vec<(Fitted, Knife, Option<&KnifeRow>)> = listed
                    .into_iter()
                    .map(|(place, knife, row)| (place, knife.clone(), row))
                    .collect();
                for (line, (place, knife, row)) in listed.iter().enumerate() {
                    ui.push_id(("row of a knife", number_of(*place)), |ui| {
                        self.row_ui(ui, line, (*place, knife, *row), &mut done);
                        if self.knives.table.open == Some(*place) {
                            self.open_row_ui(ui, *place);
                        }
                    });
                }
            });
        if let Some(done) = done {
            self.do_to_row(done);
            ui.ctx().request_repaint();
        }
    }

    fn row_ui(
        &mut self,
        ui: &mut Ui,
        line: usize,
        (place, knife, row): (Fitted, &Knife, Option<&KnifeRow>),
        done: &mut Option<Done>,
    ) {
        let is_fitted = self.session.document.fitted() == Some(place);
        let theme = Self::theme(ui.ctx());
        let cells = Cells {
            place,
            knife,
            row,
            called: called(&self.session.document, place, knife),
            is_fitted,
            is_open: self.knives.table.open == Some(place),
            is_current: self.why_not_current().is_none(),
            ticked: self.ticked(),
            system: self.system(),
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
                    cells.show(ui, done);
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

    /// The fields of a knife, under its row.
    fn open_row_ui(&mut self, ui: &mut Ui, place: Fitted) {
        const WIDTH: f32 = 520.0;
        let system = self.system();
        let mut fields = Self::fields(&mut self.drafts, &self.session, system, ui.ctx());
        let document = &mut self.session.document;
        let Some(old_name) = document.knife_at(place).map(|knife| knife.name.clone()) else {
            return;
        };
        let frame = Frame::group(ui.style()).inner_margin(10.0);
        ui.horizontal(|ui| {
            // Under the knife's name.
            ui.add_space(Widths::OVERLAY + GAP);
            frame.show(ui, |ui| {
                ui.vertical(|ui| {
                    ui.set_width(WIDTH);
                    ui.spacing_mut().item_spacing.y = 5.0;
                    edited_knife_ui(ui, &mut fields, document, place);
                });
            });
        });
        if let Some(knife) = document.knife_at(place)
            && knife.name != old_name
        {
            let name = knife.name.clone();
            self.knives.overlay.ticked.rename(&old_name, &name);
        }
    }

    fn do_to_row(&mut self, done: Done) {
        match done {
            Done::Fit(place) => self.session.document.fit_knife(place),
            Done::Open(place) => self.open_row(place),
            Done::Duplicate(place) => {
                let name = self
                    .session
                    .document
                    .knife_at(place)
                    .map(|k| k.name.clone());
                self.add_copy_of(place, &name.unwrap_or_default(), true);
            }
            Done::Remove(index) => {
                self.session.document.remove_knife(index);
                // Those after it have moved up.
                self.drafts.remove_within(Group::Options);
                let open = match self.knives.table.open {
                    Some(Fitted::Option(open)) if open == index => None,
                    Some(Fitted::Option(open)) if open > index => Some(Fitted::Option(open - 1)),
                    other => other,
                };
                self.open_row(open);
            }
            Done::Tick(name, is_ticked) => self.knives.overlay.ticked.set(&name, is_ticked),
        }
    }

    fn open_row(&mut self, place: Option<Fitted>) {
        self.knives.table.open = place;
        self.knives.table.options = self.session.document.options.len();
    }

    /// Adds a copy of a knife under a name of its own, and opens its row. Price and notes are kept
    /// for the same article alone.
    fn add_copy_of(&mut self, place: Fitted, name: &str, is_same_article: bool) {
        let document = &mut self.session.document;
        let Some(mut copy) = document.knife_at(place).cloned() else {
            return;
        };
        name.clone_into(&mut copy.name);
        if !is_same_article {
            (copy.price, copy.notes) = (None, None);
        }
        document.add_knife(copy);
        let last = document.options.len() - 1;
        self.open_row(Some(Fitted::Option(last)));
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
