//! Which units the board shows, and in what order.

use super::column::Column;
use crate::analysis::Level;
use crate::app::desk::ShopChoices;
use crate::command::BoardUnit;

/// What the table is sorted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sorted {
    pub by: Column,
    pub is_reversed: bool,
}

impl Default for Sorted {
    fn default() -> Self {
        Self {
            by: Column::Name,
            is_reversed: false,
        }
    }
}

impl Sorted {
    /// As it is remembered.
    pub fn remembered(shop: &ShopChoices) -> Self {
        let mut columns = Column::ALL.into_iter();
        let by = columns.find(|column| column.head() == shop.sorted_by);
        by.map_or_else(Self::default, |by| Self {
            by,
            is_reversed: shop.is_reversed,
        })
    }

    /// Remembers it.
    pub fn remember(self, shop: &mut ShopChoices) {
        self.by.head().clone_into(&mut shop.sorted_by);
        shop.is_reversed = self.is_reversed;
    }

    /// After a click on a column's head: by that column, turned round by the next click.
    pub fn after_click(self, on: Column) -> Self {
        Self {
            by: on,
            is_reversed: self.by == on && !self.is_reversed,
        }
    }
}

/// Which units are wanted.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filter {
    /// Words that all stand in the name, the set, the turf or the file's name.
    pub words: String,
    /// The status; none for every one.
    pub level: Option<Level>,
}

impl Filter {
    /// Every status, in the order they are offered.
    pub const LEVELS: [Level; 3] = [Level::Fine, Level::Watch, Level::Over];

    /// As it is remembered.
    pub fn remembered(shop: &ShopChoices) -> Self {
        let mut levels = Self::LEVELS.into_iter();
        Self {
            words: shop.find.clone(),
            level: levels.find(|level| level.id() == shop.status),
        }
    }

    /// Remembers it.
    pub fn remember(&self, shop: &mut ShopChoices) {
        shop.find.clone_from(&self.words);
        let status = self.level.map_or("", Level::id);
        status.clone_into(&mut shop.status);
    }

    fn takes(&self, unit: &BoardUnit) -> bool {
        let row = &unit.row;
        if self.level.is_some_and(|level| level != row.shown_level()) {
            return false;
        }
        if self.words.trim().is_empty() {
            return true;
        }
        let has = [Column::Name, Column::Set, Column::Turf]
            .map(|column| column.text(row, row.system).to_lowercase());
        let file = row.file.to_lowercase();
        let words = self.words.to_lowercase();
        words
            .split_whitespace()
            .all(|word| file.contains(word) || has.iter().any(|text| text.contains(word)))
    }
}

/// The places of the units that are wanted, in their order.
pub fn places(units: &[BoardUnit], filter: &Filter, sorted: Sorted) -> Vec<usize> {
    let mut places: Vec<usize> = (0..units.len())
        .filter(|place| filter.takes(&units[*place]))
        .collect();
    places.sort_by(|one, other| {
        sorted
            .by
            .compare(&units[*one], &units[*other], sorted.is_reversed)
    });
    places
}
