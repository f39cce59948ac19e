//! A file by its path, for where the desktop has no file dialog.

use std::path::PathBuf;

use egui::{Key, TextEdit, Ui};

use super::opening::{Asking, ask_first};
use super::saving::{save_to_chosen, warn_of_another};
use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::lettering::Lettering;

/// A path being typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PathCard {
    text: String,
    is_saving: bool,
    /// Whether its field was given the keys.
    has_begun: bool,
}

impl PathCard {
    /// For opening a file.
    pub fn to_open() -> Self {
        Self {
            text: String::new(),
            is_saving: false,
            has_begun: false,
        }
    }

    /// For saving, beginning with where the document is kept.
    pub fn to_save(desk: &Desk) -> Self {
        let file = desk.session().file();
        Self {
            text: file.map_or_else(String::new, |file| file.display().to_string()),
            is_saving: true,
            has_begun: false,
        }
    }

    /// Takes the path; whether the card stays open.
    fn take(&self, desk: &mut Desk) -> Next {
        let path = PathBuf::from(self.text.trim());
        if !self.is_saving {
            ask_first(desk, Asking::Open(path));
            return Next::Close;
        }
        let is_another = desk.session().file() != Some(path.as_path());
        // There is no dialog that would have asked before another file is replaced.
        if is_another && path.exists() {
            warn_of_another(desk, &path);
            Next::Stay
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
        let (title, verb) = if self.is_saving {
            ("Save to a path", "Save here")
        } else {
            ("Open a path", "Open it")
        };
        ui.label(Lettering::CardTitle.of(title));
        ui.label("The whole path of the unit file, ending in .ron.");
        let field = ui.add(TextEdit::singleline(&mut self.text).desired_width(f32::INFINITY));
        let field = field.accessible_name("Path");
        if !self.has_begun {
            field.request_focus();
            self.has_begun = true;
        }
        let is_entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        ui.add_space(8.0);
        let (is_taken, is_put_away) = ui
            .horizontal(|ui| {
                (
                    ui.button(verb).clicked() || is_entered,
                    ui.button("Close").clicked(),
                )
            })
            .inner;
        if is_taken && self.is_named() {
            self.take(desk)
        } else if is_put_away {
            Next::Close
        } else {
            Next::Stay
        }
    }

    /// A click beside the card or Escape puts it away only while nothing was typed.
    fn put_away(&mut self, _desk: &mut Desk) -> Next {
        if self.is_named() {
            Next::Stay
        } else {
            Next::Close
        }
    }
}
