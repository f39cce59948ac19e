//! The columns of the table, and the order in which each puts the knives.

use std::cmp::Ordering;

use crate::analysis::knives::{KnifeRow, Life, price_in};
use crate::unit::Knife;

/// A column of the table that the knives can be sorted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    Name,
    Reach,
    SetOnce,
    BehindCentre,
    Sweep,
    Underside,
    Window(Life),
    LipLeft,
    Aim,
    Price,
    Quantity,
    Notes,
}

impl Column {
    /// Every column, from left to right.
    pub const ALL: [Self; 14] = [
        Self::Name,
        Self::Reach,
        Self::Price,
        Self::SetOnce,
        Self::Quantity,
        Self::Aim,
        Self::Window(Life::New),
        Self::Window(Life::Now),
        Self::Window(Life::Scrap),
        Self::BehindCentre,
        Self::Sweep,
        Self::Underside,
        Self::LipLeft,
        Self::Notes,
    ];

    /// How many of them stay in view, from the left, while the rest moves sideways.
    pub const HELD: usize = 4;
    /// How many do where they stand under one another.
    pub const HELD_STACKED: usize = 6;

    /// What stands over it.
    pub const fn head(self) -> &'static str {
        match self {
            Self::Name => "knife",
            Self::Reach => "reach",
            Self::SetOnce => "set once",
            Self::BehindCentre => "behind centre",
            Self::Sweep => "sweep",
            Self::Underside => "underside",
            Self::Window(Life::New) => "working range, reel new",
            Self::Window(Life::Now) => "working range, reel now",
            Self::Window(Life::Scrap) => "working range, reel scrap",
            Self::LipLeft => "lip left",
            Self::Aim => "aim",
            Self::Price => "price",
            Self::Quantity => "quantity",
            Self::Notes => "notes",
        }
    }

    /// What it shows, in a sentence.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Name => "The measured knife and every knife to compare.",
            Self::Reach => "From the line of the mounting screws to the edge.",
            Self::SetOnce => {
                "The attitudes at which every limit holds at every diameter of the reel, from new to scrap: set it once, and leave it."
            }
            Self::BehindCentre => {
                "How far the edge stands behind the vertical through the reel's centre, at the current attitude and height of cut."
            }
            Self::Sweep => {
                "How far the reel hangs below the edge, and its share of the height of cut."
            }
            Self::Underside => {
                "From the plate to the lowest point of the knife's underside or of the hardware under it."
            }
            Self::Window(Life::New) => {
                "The attitudes at which every limit holds, with the reel new."
            }
            Self::Window(Life::Now) => {
                "The attitudes at which every limit holds, with the reel as it is set."
            }
            Self::Window(Life::Scrap) => {
                "The attitudes at which every limit holds, with the reel at scrap size."
            }
            Self::LipLeft => {
                "The thickness of lip that is left under the edge as ground, and the grinds until it is at its least."
            }
            Self::Aim => {
                "The attitude to set it to, reel as it is set: the least that clears the underside by its limit and a margin. Below it, how far to move the rear roller from where it was measured."
            }
            Self::Price => "Price for one, as written.",
            Self::Quantity => "How many to order, and what they cost together.",
            Self::Notes => "Whatever else is worth knowing.",
        }
    }

    /// The order of its first click and of its second, in words.
    pub const fn orders(self) -> [&'static str; 2] {
        match self {
            Self::Name | Self::Notes => ["from A to Z", "from Z to A"],
            Self::Reach => ["longest first", "shortest first"],
            Self::SetOnce => ["best first", "worst first"],
            Self::Quantity => ["most first", "fewest first"],
            Self::BehindCentre | Self::Sweep | Self::Aim => ["least first", "most first"],
            Self::Underside | Self::LipLeft => ["most first", "least first"],
            Self::Window(_) => ["widest first", "narrowest first"],
            Self::Price => ["cheapest first", "dearest first"],
        }
    }

    /// What two knives are compared by; those without it come last in either order.
    fn key(self, knife: &Knife, row: Option<&KnifeRow>) -> Key {
        let solution = row.and_then(|row| row.solution.as_ref().ok());
        let text = |text: &str| (!text.is_empty()).then(|| text.to_lowercase());
        match self {
            Self::Name => Key::Text(text(&knife.name)),
            Self::Notes => Key::Text(knife.notes.as_deref().and_then(text)),
            Self::Price => Key::Number(knife.price.as_deref().and_then(price_in)),
            Self::Quantity => Key::Number(Some(-f64::from(knife.quantity.0))),
            Self::Reach => Key::Number(Some(-knife.reach.value().mm())),
            Self::SetOnce => Key::Number(row.map(|row| {
                // Those that fit before those that do not, each by its room.
                let verdict = row.judgement.verdict as u8;
                f64::from(verdict) * 1e3 - row.room().deg()
            })),
            Self::BehindCentre => Key::Number(solution.map(|s| s.sweep.behind_centre.mm())),
            Self::Sweep => Key::Number(solution.map(|s| s.sweep.below_cut.mm())),
            Self::Underside => Key::Number(solution.map(|s| -s.underside_clearance.mm())),
            Self::Window(life) => Key::Number(
                row.and_then(|row| row.at(life).widest())
                    .map(|window| -window.width().deg()),
            ),
            Self::LipLeft => Key::Number(row.map(|row| -row.lip.thickness.mm())),
            Self::Aim => Key::Number(
                row.and_then(|row| row.aim.ok())
                    .map(|aim| aim.attitude.deg()),
            ),
        }
    }
}

enum Key {
    Number(Option<f64>),
    Text(Option<String>),
}

/// How the table is sorted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sorted {
    pub by: Column,
    pub is_reversed: bool,
}

impl Sorted {
    /// The order after a click on a column's head: its own, the other way round, as listed.
    pub fn after_click(now: Option<Self>, by: Column) -> Option<Self> {
        match now {
            Some(sorted) if sorted.by == by => (!sorted.is_reversed).then_some(Self {
                by,
                is_reversed: true,
            }),
            _ => Some(Self {
                by,
                is_reversed: false,
            }),
        }
    }

    /// The order in words.
    pub fn words(self) -> &'static str {
        self.by.orders()[usize::from(self.is_reversed)]
    }

    /// Which of two knives comes first.
    pub fn compare(
        self,
        a: (&Knife, Option<&KnifeRow>),
        b: (&Knife, Option<&KnifeRow>),
    ) -> Ordering {
        let turned = |order: Ordering| {
            if self.is_reversed {
                order.reverse()
            } else {
                order
            }
        };
        match (self.by.key(a.0, a.1), self.by.key(b.0, b.1)) {
            (Key::Number(Some(a)), Key::Number(Some(b))) => turned(a.total_cmp(&b)),
            (Key::Text(Some(a)), Key::Text(Some(b))) => turned(a.cmp(&b)),
            (Key::Number(Some(_)) | Key::Text(Some(_)), _) => Ordering::Less,
            (_, Key::Number(Some(_)) | Key::Text(Some(_))) => Ordering::Greater,
            _ => Ordering::Equal,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_third_click_brings_the_listed_order_back() {
        let first = Sorted::after_click(None, Column::Sweep);
        let second = Sorted::after_click(first, Column::Sweep);
        assert!(second.is_some_and(|sorted| sorted.is_reversed));
        assert_eq!(Sorted::after_click(second, Column::Sweep), None);
        let other = Sorted::after_click(second, Column::Price);
        assert_eq!(other.map(Sorted::words), Some("cheapest first"));
    }
}
