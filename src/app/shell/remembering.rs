//! Preferences, kept in their file while the window is open.

use std::borrow::Cow;
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
    /// What is dark or light for this start alone, until somebody chooses in the window.
    only_now: Option<OnlyNow>,
}

/// Dark or light for one start.
#[derive(Clone, Copy, Debug)]
struct OnlyNow {
    shown: Option<bool>,
    remembered: Option<bool>,
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
            only_now: None,
        }
    }

    /// With dark or light left as it was remembered: what is shown was asked for this time only, unless
    /// somebody chooses another in the window.
    pub fn showing_now(mut self, shown: Option<bool>) -> Self {
        let remembered = self.written.is_dark;
        self.only_now = (shown != remembered).then_some(OnlyNow { shown, remembered });
        self
    }

    /// Of what is chosen, what is remembered.
    fn of_chosen<'p>(&mut self, chosen: &'p Preferences) -> Cow<'p, Preferences> {
        self.only_now = self.only_now.filter(|now| now.shown == chosen.is_dark);
        match self.only_now {
            Some(OnlyNow { remembered, .. }) => Cow::Owned(Preferences {
                is_dark: remembered,
                ..chosen.clone()
            }),
            None => Cow::Borrowed(chosen),
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
        let chosen = self.of_chosen(desk.preferences());
        if *chosen == self.tried {
            return;
        }
        let changed =
            change_preferences(&self.file, |standing: Option<Preferences>| match standing {
                Some(standing) => standing.with_chosen_between(&self.written, &chosen),
                None => Preferences::clone(&chosen),
            });
        self.tried = chosen.into_owned();
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

#[cfg(test)]
mod tests {
    use super::*;

    fn dark(is_dark: Option<bool>) -> Preferences {
        Preferences {
            is_dark,
            ..Preferences::default()
        }
    }

    #[test]
    fn dark_for_one_start_is_not_remembered_until_it_is_chosen() {
        for remembered in [None, Some(false)] {
            let file = Path::new("preferences.ron");
            let kept = Remembering::new(file, dark(remembered));
            let mut kept = kept.showing_now(Some(true));
            let mut remember = |is_dark| kept.of_chosen(&dark(is_dark)).is_dark;
            assert_eq!(remember(Some(true)), remembered);
            // Chosen in the window, whatever it is.
            assert_eq!(remember(Some(false)), Some(false));
            assert_eq!(remember(Some(true)), Some(true));
        }
    }
}
