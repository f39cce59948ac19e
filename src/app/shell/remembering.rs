//! Preferences, kept in their file while the window is open.

use std::path::{Path, PathBuf};

use egui::Context;

use crate::app::desk::{Desk, Preferences, WindowPlace};
use crate::store::change_preferences;

/// What keeps preferences in their file.
#[derive(Debug)]
pub struct Remembering {
    file: PathBuf,
    /// What the file holds of what was chosen here.
    written: Preferences,
    /// What was last to be written, whether it could be or not.
    tried: Preferences,
    is_told: bool,
    /// Where the window stands; none where that is not to be remembered.
    place: Option<WindowPlace>,
}

impl Remembering {
    /// In a file, from which these were read.
    pub fn new(file: &Path, read: Preferences) -> Self {
        Self {
            file: file.to_owned(),
            place: Some(read.window.unwrap_or_default()),
            tried: read.clone(),
            written: read,
            is_told: false,
        }
    }

    /// With the window's place left as it was remembered: it was asked for this time only.
    pub fn without_place(mut self) -> Self {
        self.place = None;
        self
    }

    /// Writes what was chosen since the last frame, beside what other windows chose. It waits for the
    /// disk, which a click can.
    pub fn keep(&mut self, desk: &mut Desk) {
        let chosen = desk.preferences();
        if *chosen == self.tried {
            return;
        }
        let changed =
            change_preferences(&self.file, |standing: Option<Preferences>| match standing {
                Some(standing) => standing.with_chosen_between(&self.written, chosen),
                None => chosen.clone(),
            });
        self.tried = chosen.clone();
        match changed {
            Ok(damaged) => {
                self.written = self.tried.clone();
                if let Some(damaged) = damaged {
                    desk.warn(format!(
                        "The preferences file {damaged}. This window's settings were written in its place."
                    ));
                }
            }
            // They are tried again with the next thing chosen, and told once.
            Err(problem) if !self.is_told => {
                desk.warn(problem.to_string());
                self.is_told = true;
            }
            Err(_) => {}
        }
    }

    /// Looks where the window stands.
    pub fn look_at_place(&mut self, ctx: &Context) {
        if let Some(place) = &mut self.place {
            *place = place_now(ctx, *place);
        }
    }

    /// Writes where the window stands, as it closes.
    pub fn keep_place(&mut self, desk: &mut Desk) {
        if self.place.is_some() {
            desk.preferences_mut().window = self.place;
        }
        self.keep(desk);
    }
}

/// Where the window stands now; that of before while it is no window on the desktop.
fn place_now(ctx: &Context, before: WindowPlace) -> WindowPlace {
    let scale = ctx.zoom_factor();
    ctx.input(|input| {
        let window = input.viewport();
        let is = |state: Option<bool>| state == Some(true);
        if is(window.minimized) || is(window.fullscreen) {
            return before;
        }
        if is(window.maximized) {
            return WindowPlace {
                is_maximized: true,
                ..before
            };
        }
        let at = window.outer_rect.map(|frame| scale * frame.min.to_vec2());
        WindowPlace {
            at: at.map(Into::into),
            size: (scale * input.viewport_rect().size()).into(),
            is_maximized: false,
        }
    })
}
