//! The window map's key: samples of its regions and marks, with their words.

use kurbo::{Rect, Shape as _};

use super::settings::{MapMark, MapSetting, draw_mark};
use crate::analysis::knives::{Limit, Map};
use crate::drawing::paper::{Panel, Pencil, Style};
use crate::drawing::scene::Role;

/// Limits that have regions, in the order they are drawn and explained.
pub(super) const SHOWN: [Limit; 11] = [
    Limit::Sweep,
    Limit::Reel,
    Limit::LowEnd,
    Limit::Cut,
    Limit::Underside,
    Limit::LowEndUnderside,
    Limit::Lip,
    Limit::Ahead,
    Limit::TopFace,
    Limit::Rollers,
    Limit::Reach,
];

/// An entry of the key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MapKey {
    /// Where every limit holds.
    Usable,
    /// Where a limit forbids.
    Forbidden(Limit),
    /// A setting that is marked.
    Marked(MapMark),
}

/// A sample's hatching is this much closer than the map's.
const CLOSER: f64 = 0.6;

impl MapKey {
    /// What a map needs explained, with the settings that are marked on it.
    #[must_use]
    pub fn of(map: &Map, settings: &[MapSetting]) -> Vec<Self> {
        let is_on_map = |limit: &Limit| map.rows.iter().any(|row| !row.bands(*limit).is_empty());
        let limits = SHOWN.into_iter().filter(is_on_map).map(Self::Forbidden);
        let is_marked = |mark: &MapMark| settings.iter().any(|setting| setting.mark == *mark);
        std::iter::once(Self::Usable)
            .chain(limits)
            .chain(MapMark::ALL.into_iter().filter(is_marked).map(Self::Marked))
            .collect()
    }

    /// The regions in the order in which places are found for their names.
    pub(super) fn regions() -> impl Iterator<Item = Self> {
        std::iter::once(Self::Usable).chain(SHOWN.into_iter().map(Self::Forbidden))
    }

    /// Its words, on the map too.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Usable => "every limit holds",
            Self::Forbidden(limit) => limit.name(),
            Self::Marked(mark) => mark.words(),
        }
    }

    /// A sample of it.
    #[must_use]
    pub fn sample(self, place: Rect, style: impl Into<Style>) -> Panel {
        let mut pencil = Pencil::new(style, place.inset(2.0));
        let outline = place.inset(-1.0).to_path(0.1);
        match self {
            Self::Usable => {
                pencil.body(Role::Usable, &outline);
                pencil.stroke(Role::Usable, &outline);
            }
            Self::Forbidden(limit) => {
                let role = Role::Forbidden(limit);
                // Twice as strong as on the map, being so small.
                pencil.body(role, &outline);
                pencil.body(role, &outline);
                pencil.closer_hatching(role, &outline, CLOSER);
                pencil.stroke(role, &outline);
            }
            Self::Marked(mark) => draw_mark(&mut pencil, mark, place.center()),
        }
        pencil.done()
    }
}
