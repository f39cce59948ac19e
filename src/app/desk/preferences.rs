//! What is remembered from one start to the next.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::units::System;

/// How many files are remembered.
const MOST_RECENT: usize = 8;

/// What is remembered from one start to the next; none of it belongs to a unit.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Preferences {
    /// Files opened or saved, the latest first.
    pub recent: Vec<PathBuf>,
    /// Units chosen; those of each document when none were chosen.
    pub system: Option<System>,
    /// Dark, light, or as the desktop is when neither was chosen.
    pub is_dark: Option<bool>,
    /// Whether the start card was put away.
    pub has_seen_start_card: bool,
}

impl Preferences {
    /// Remembers a file as the latest.
    pub fn remember(&mut self, file: &Path) {
        let file = std::path::absolute(file).unwrap_or_else(|_| file.to_owned());
        self.recent.retain(|known| *known != file);
        self.recent.insert(0, file);
        self.recent.truncate(MOST_RECENT);
    }

    /// Forgets a file that cannot be opened.
    pub fn forget(&mut self, file: &Path) {
        self.recent.retain(|known| known != file);
    }
}
