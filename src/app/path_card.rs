//! A file by its path, for where the desktop has no file dialog.

use std::path::PathBuf;

use egui::{Key, RichText, TextEdit};

use super::App;
use super::card::card;
use super::files::Asking;
use super::look::strong;

/// A path being typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct PathCard {
    pub(super) text: String,
    pub(super) is_saving: bool,
    /// Whether its field was given the keys.
    pub(super) has_begun: bool,
}

impl App {
    /// The card, when it is open.
    pub(super) fn path_card_ui(&mut self, ctx: &egui::Context) {
        let Some(mut typed) = self.path_card.take() else {
            return;
        };
        let (title, verb) = if typed.is_saving {
            ("Save to a path", "Save here")
        } else {
            ("Open a path", "Open it")
        };
        let modal = card(ctx, "path", 520.0, |ui| {
            ui.label(RichText::new(title).family(strong()).size(18.0));
            ui.label("The whole path of the unit file, ending in .ron.");
            let field = ui.add(TextEdit::singleline(&mut typed.text).desired_width(f32::INFINITY));
            let field = field.accessible_name("Path");
            if !typed.has_begun {
                field.request_focus();
                typed.has_begun = true;
            }
            let is_entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            ui.add_space(8.0);
            ui.horizontal(|ui| {
                (
                    ui.button(verb).clicked() || is_entered,
                    ui.button("Put away").clicked(),
                )
            })
            .inner
        });
        let (is_taken, is_put_away) = modal.inner;
        let path = PathBuf::from(typed.text.trim());
        let is_named = !typed.text.trim().is_empty();
        if is_taken && is_named && typed.is_saving {
            let is_another = self.session.file.as_ref() != Some(&path);
            // There is no dialog that would have asked before another file is replaced.
            if is_another && path.exists() {
                self.warn_of_another(&path);
                self.path_card = Some(typed);
            } else if !self.save_to_chosen(&path) {
                self.path_card = Some(typed);
            }
        } else if is_taken && is_named {
            self.ask_first(Asking::Open(path));
        } else {
            // A click beside the card or Escape puts it away only while nothing was typed.
            let is_over = is_put_away || modal.should_close() && !is_named;
            if !is_over {
                self.path_card = Some(typed);
            }
        }
    }
}
