//! What is remembered from one start to the next.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::WindowPlace;
use crate::units::System;

/// How many files are remembered.
const MOST_RECENT: usize = 8;

/// What is remembered from one start to the next; none of it belongs to a unit.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Preferences {
    /// Files opened or saved, the latest first.
    pub recent: Vec<PathBuf>,
    /// The file that is open; none while what is open was never saved.
    pub last_open: Option<PathBuf>,
    /// Units chosen; those of each document when none were chosen.
    pub system: Option<System>,
    /// Dark, light, or as the desktop is when neither was chosen.
    pub is_dark: Option<bool>,
    /// The scale of everything in the window, in percent; one that fits the screen when none was
    /// chosen.
    pub scale_percent: Option<u32>,
    /// Where the window stood when it was last closed.
    pub window: Option<WindowPlace>,
}

impl Preferences {
    /// Remembers a file as the one that is open, and as the latest. A path that is no text cannot be
    /// written down.
    pub fn remember(&mut self, file: &Path) {
        let file = std::path::absolute(file).unwrap_or_else(|_| file.to_owned());
        if file.to_str().is_none() {
            self.last_open = None;
            return;
        }
        self.recent.retain(|known| *known != file);
        self.recent.insert(0, file.clone());
        self.recent.truncate(MOST_RECENT);
        self.last_open = Some(file);
    }

    /// Forgets a file that cannot be opened.
    pub fn forget(&mut self, file: &Path) {
        self.recent.retain(|known| known != file);
    }
}
