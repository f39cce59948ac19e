//! What is remembered from one start to the next.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::{ShowChoices, WindowPlace};
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
    /// The gauge bars of the shop, each a length; those to begin with when none were written.
    pub gauge_bars: Option<Vec<String>>,
    /// What the shop board shows.
    pub shop: ShopChoices,
    /// What is shown to a room.
    pub show: ShowChoices,
}

/// What the shop board shows.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct ShopChoices {
    /// The folder of units; none when none was chosen.
    pub folder: Option<PathBuf>,
    /// How much the heights of cut of one set may differ, as typed; the starting value where it is
    /// empty.
    pub height_differs: String,
    /// How much the units of one set may differ in how far behind centre, likewise.
    pub behind_differs: String,
    /// The head of the column that it is sorted by; the unit's name where it is empty.
    pub sorted_by: String,
    /// Whether it is sorted the other way round.
    pub is_reversed: bool,
    /// The words by which units are found.
    pub find: String,
    /// The status of the units that are wanted, as JSON has it; every one where it is empty.
    pub status: String,
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

    /// Remembers a plate sheet or a lesson among the latest files. What is open stays the unit's.
    pub fn remember_work(&mut self, file: &Path) {
        let last_open = self.last_open.take();
        self.remember(file);
        self.last_open = last_open;
    }

    /// Forgets a file that cannot be opened.
    pub fn forget(&mut self, file: &Path) {
        self.recent.retain(|known| known != file);
    }

    /// These, with what was chosen between two other ones put in: what another window chose in the same
    /// time stays.
    #[must_use]
    pub fn with_chosen_between(self, before: &Self, after: &Self) -> Self {
        let Self {
            recent,
            last_open,
            system,
            is_dark,
            scale_percent,
            window,
            shop,
            gauge_bars,
            show,
        } = self;
        Self {
            recent: recent_between(recent, &before.recent, &after.recent),
            last_open: chosen_between(last_open, &before.last_open, &after.last_open),
            system: chosen_between(system, &before.system, &after.system),
            is_dark: chosen_between(is_dark, &before.is_dark, &after.is_dark),
            scale_percent: chosen_between(
                scale_percent,
                &before.scale_percent,
                &after.scale_percent,
            ),
            window: chosen_between(window, &before.window, &after.window),
            shop: chosen_between(shop, &before.shop, &after.shop),
            gauge_bars: chosen_between(gauge_bars, &before.gauge_bars, &after.gauge_bars),
            show: chosen_between(show, &before.show, &after.show),
        }
    }
}

fn chosen_between<T: Clone + PartialEq>(standing: T, before: &T, after: &T) -> T {
    if before == after {
        standing
    } else {
        after.clone()
    }
}

/// Files remembered, with those on top that were remembered in between, and without those forgotten.
fn recent_between(
    mut standing: Vec<PathBuf>,
    before: &[PathBuf],
    after: &[PathBuf],
) -> Vec<PathBuf> {
    // What was not touched stands at the end, in its order of before.
    let is_untouched = |rest: &[PathBuf]| {
        let mut before = before.iter();
        rest.iter().all(|file| before.any(|known| known == file))
    };
    let touched = (0..=after.len()).find(|from| is_untouched(&after[*from..]));
    let remembered = &after[..touched.unwrap_or(after.len())];
    standing.retain(|file| !before.contains(file) || after.contains(file));
    standing.retain(|file| !remembered.contains(file));
    standing.splice(0..0, remembered.iter().cloned());
    standing.truncate(MOST_RECENT);
    standing
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_that_two_windows_remember_and_forget_are_all_in_one_list() {
        let files = |names: &str| names.chars().map(|name| name.to_string().into()).collect();
        for (standing, before, after, wanted) in [
            ("abc", "abc", "abc", "abc"),
            // Another window opened x; this one y, or c again, or forgot b.
            ("xabc", "abc", "yabc", "yxabc"),
            ("xabc", "abc", "cab", "cxab"),
            ("xabc", "abc", "ac", "xac"),
            ("xabc", "abc", "yxac", "yxac"),
            // The other one forgot a.
            ("bc", "abc", "yabc", "ybc"),
            ("", "abc", "yabc", "y"),
            ("xyabcdef", "abcdefgh", "zabcdefg", "zxyabcde"),
        ] {
            let [standing, before, after, wanted]: [Vec<PathBuf>; 4] =
                [standing, before, after, wanted].map(files);
            assert_eq!(recent_between(standing, &before, &after), wanted);
        }
    }
}
