//! A file by its path, for where the desktop has no file dialog.

use egui::{Align, Key, Label, Layout, Sense, TextEdit, Ui, Vec2};

use super::opening::{Asking, ask_first};
use super::outside::holds_save_back;
use super::saving::{file_name_for, is_open_file, save_to_chosen, warn_of_another, with_ending};
use crate::analysis::Level;
use crate::app::desk::{Ask, Card, Desk, Next};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::app::widgets::typing::take_all;
use crate::store::whole_path;

/// A path being typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PathCard {
    text: String,
    is_saving: bool,
    /// Whether its field was given the keys.
    has_begun: bool,
    /// How many notices there were when it was last shown.
    told: Option<u64>,
    /// Why the path was refused.
    problem: String,
}

impl PathCard {
    /// For opening a file.
    pub fn to_open() -> Self {
        Self::beginning_with(String::new(), false)
    }

    /// For saving, beginning with where the document is kept.
    pub fn to_save(desk: &Desk) -> Self {
        let file = desk.session().file();
        let offered = || file_name_for(&desk.document().name);
        // With its folder: a person sees where it goes.
        let whole =
            || whole_path(&offered()).map_or_else(|_| offered(), |path| path.display().to_string());
        let text = file.map_or_else(whole, |file| file.display().to_string());
        Self::beginning_with(text, true)
    }

    fn beginning_with(text: String, is_saving: bool) -> Self {
        Self {
            text,
            is_saving,
            has_begun: false,
            told: None,
            problem: String::new(),
        }
    }

    /// Takes over what was told of a path that was refused: the notice stands under the card.
    fn hear(&mut self, desk: &Desk) {
        let told = desk.notices().told();
        let is_new = self.told.is_some_and(|heard| heard != told);
        if is_new && let Some(notice) = desk.notices().kept().next().filter(|n| n.is_problem) {
            self.problem.clone_from(&notice.text);
        }
        self.told = Some(told);
    }

    /// Takes the path; whether the card stays open.
    fn take(&self, desk: &mut Desk) -> Next {
        let path = match whole_path(self.text.trim()) {
            Ok(path) => path,
            Err(problem) => {
                desk.warn(problem.to_string());
                return Next::Stay;
            }
        };
        let path = if self.is_saving && !is_open_file(desk, &path) {
            with_ending(path, "ron")
        } else {
            path
        };
        if !self.is_saving {
            // A path that is refused stays, to be put right.
            return if ask_first(desk, Asking::Open(path)) {
                Next::Close
            } else {
                Next::Stay
            };
        }
        let is_another = !is_open_file(desk, &path);
        // There is no dialog that would have asked before another file is replaced.
        if is_another && path.exists() {
            warn_of_another(desk, &path);
            Next::Stay
        } else if holds_save_back(desk, &path) {
            // Asked about on a card of its own.
            Next::Close
        } else if save_to_chosen(desk, &path) {
            Next::Close
        } else {
            Next::Stay
        }
    }

    fn is_named(&self) -> bool {
        !self.text.trim().is_empty()
    }
}

impl Card for PathCard {
    fn name(&self) -> &'static str {
        "path"
    }

    fn width(&self) -> f32 {
        520.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        self.hear(desk);
        let (title, verb) = if self.is_saving {
            ("Save to a path", "Save here")
        } else {
            ("Open a path", "Open it")
        };
        ui.label(Lettering::CardTitle.of(title));
        ui.label(if self.is_saving {
            "The path of the unit file; .ron is added where it is missing, and ~/ is your home folder."
        } else {
            "The path of the unit file, ending in .ron; ~/ is your home folder."
        });
        let field = ui.add(TextEdit::singleline(&mut self.text).desired_width(f32::INFINITY));
        let field = field.accessible_name("Path");
        if field.changed() {
            self.problem.clear();
        }
        if !self.has_begun {
            field.request_focus();
            take_all(ui, &field, &self.text);
            self.has_begun = true;
        }
        let is_entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        problem_ui(ui, &self.problem);
        let (is_taken, is_put_away) = ui
            .horizontal(|ui| {
                (
                    ui.button(verb).clicked() || is_entered,
                    ui.button("Close").clicked(),
                )
            })
            .inner;
        if is_taken && self.is_named() {
            let next = self.take(desk);
            // What was refused is in hand again, to be typed over.
            self.has_begun = next == Next::Close;
            ui.ctx().request_repaint();
            next
        } else if is_put_away {
            Next::Close
        } else {
            Next::Stay
        }
    }

    fn yields_to_a_click(&self) -> bool {
        !self.is_named()
    }

    fn works_on_unit(&self) -> bool {
        self.is_saving
    }
}

/// Opens the card by which a file is named, where the desktop showed no dialog to choose one in.
pub fn name_without_dialog(desk: &mut Desk) {
    let card = match desk.missed_dialog() {
        Some(Ask::UnitToOpen) => PathCard::to_open(),
        Some(Ask::PlaceForUnit(_)) => PathCard::to_save(desk),
        Some(Ask::RowsToRead) => {
            desk.warn(
                "No knife was added: the desktop showed no file dialog. Copy the rows and use Paste rows.",
            );
            return;
        }
        // Taken by the card that asked for them.
        Some(Ask::PlaceForRows(_) | Ask::PlaceForSheet(_) | Ask::PlaceForPicture(_)) | None => {
            return;
        }
    };
    desk.open_card(card);
}

/// Why the path was refused, in a place that is always kept: nothing moves under the hand.
pub(super) fn problem_ui(ui: &mut Ui, problem: &str) {
    let size = Vec2::new(ui.available_width(), 42.0);
    ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Min), |ui| {
        ui.set_min_size(size);
        if !problem.is_empty() {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(16.0), Sense::hover());
            symbol(ui, place, Level::Over, theme(ui.ctx()));
            ui.add(Label::new(problem).wrap());
        }
    });
}
