//! A path being typed on a card, where the desktop has no file dialog.

use std::path::{Path, PathBuf};

use egui::{Align, Key, Layout, TextEdit, Ui, Vec2};

use super::refusal::refused_ui;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::typing::take_all;

/// Replaces the file that stands at the path.
const REPLACE: &str = "Replace the file";

/// A path, and why it was refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct TypedPath {
    text: String,
    /// Whether its field was given the keys.
    has_begun: bool,
    problem: String,
    /// The file that stands there already, and may be replaced.
    taken: Option<PathBuf>,
}

/// What a person did with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Typed {
    /// The path is to be taken.
    Taken,
    /// The file that stands there already is to be replaced.
    Replaced,
    /// The card is to be closed.
    PutAway,
    /// It is still being typed.
    Going,
}

impl TypedPath {
    pub(super) fn beginning_with(text: String) -> Self {
        Self {
            text,
            has_begun: false,
            problem: String::new(),
            taken: None,
        }
    }

    /// The path of a file that stands there already: why it is not taken, and that it may be replaced.
    pub(super) fn over(file: &Path, why: &str) -> Self {
        let mut path = Self::beginning_with(file.display().to_string());
        path.tell(why);
        path.offer_to_replace(file);
        path
    }

    /// The path without what stands around it.
    pub(super) fn text(&self) -> &str {
        self.text.trim()
    }

    /// Says why the path is not taken.
    pub(super) fn tell(&mut self, why: &str) {
        why.clone_into(&mut self.problem);
    }

    /// Offers to replace the file that stands there, as a dialog of the desktop would: no folder, and nothing
    /// else that is no file.
    pub(super) fn offer_to_replace(&mut self, file: &Path) {
        self.taken = file.is_file().then(|| file.to_owned());
    }

    /// The file that may be replaced, if one was offered.
    pub(super) fn taken(&self) -> Option<PathBuf> {
        self.taken.clone()
    }

    /// Gives the path into hand again, to be typed over.
    pub(super) fn begin_anew(&mut self, ui: &Ui) {
        self.has_begun = false;
        ui.ctx().request_repaint();
    }

    /// Title, what to write, the field, why it was refused, and the buttons.
    pub(super) fn show(&mut self, ui: &mut Ui, title: &str, what: &str, verb: &str) -> Typed {
        ui.label(Lettering::CardTitle.of(title));
        ui.label(what);
        let field = ui.add(TextEdit::singleline(&mut self.text).desired_width(f32::INFINITY));
        let field = field.accessible_name("Path");
        if field.changed() {
            self.problem.clear();
            self.taken = None;
        }
        if !self.has_begun {
            field.request_focus();
            take_all(ui, &field, &self.text);
            self.has_begun = true;
        }
        let is_entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        self.problem_ui(ui);
        let (is_taken, is_replaced, is_put_away) = ui
            .horizontal(|ui| {
                (
                    ui.button(verb).clicked() || is_entered,
                    self.taken.is_some() && ui.button(REPLACE).clicked(),
                    ui.button("Close").clicked(),
                )
            })
            .inner;
        if is_put_away {
            Typed::PutAway
        } else if is_replaced {
            Typed::Replaced
        } else if is_taken && !self.text().is_empty() {
            Typed::Taken
        } else {
            Typed::Going
        }
    }

    /// Why the path was refused, in a place that is always kept: nothing moves under the hand.
    fn problem_ui(&self, ui: &mut Ui) {
        let size = Vec2::new(ui.available_width(), 42.0);
        ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Min), |ui| {
            ui.set_min_size(size);
            if !self.problem.is_empty() {
                refused_ui(ui, &self.problem);
            }
        });
    }
}
