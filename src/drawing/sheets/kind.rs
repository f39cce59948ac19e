//! The kinds of sheet there are.

use super::frame::SheetOf;
use super::knives_sheet::knives_sheet;
use super::record_sheet::record_sheet;
use super::setting_sheet::setting_sheet;
use super::sheet::Sheet;
use super::true_scale::true_scale_sheet;
use super::why_sheet::{Complained, why_sheet};

/// A kind of sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SheetKind {
    /// One page to set a unit by.
    #[default]
    Setting,
    /// Which knife to order.
    Knives,
    /// Why the unit marks the turf.
    Why,
    /// The unit at 1:1.
    TrueScale,
    /// What was done to the unit, and how its reel wears.
    Record,
}

impl SheetKind {
    /// Every kind, in the order they are offered.
    pub const ALL: [Self; 5] = [
        Self::Setting,
        Self::Knives,
        Self::Why,
        Self::TrueScale,
        Self::Record,
    ];

    /// Its name for programs.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Setting => "setting",
            Self::Knives => "knives",
            Self::Why => "why",
            Self::TrueScale => "true-scale",
            Self::Record => "record",
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Setting => "Setting sheet",
            Self::Knives => "Which knife to order",
            Self::Why => "Why it marks the turf",
            Self::TrueScale => "True scale, 1:1",
            Self::Record => "Record",
        }
    }

    /// What it is for.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Setting => "One page over the bench: what to set, what to do in order, findings.",
            Self::Knives => "The ranked knives with reasons, for whoever pays.",
            Self::Why => "Causes, height budget and the adjustments that help.",
            Self::TrueScale => "The unit at true size: hold the paper against it.",
            Self::Record => "What was done to it, how its reel wears, when it is next due.",
        }
    }

    /// The pages of a solved unit's sheet.
    #[must_use]
    pub fn sheets(self, of: SheetOf, complained: Complained) -> Vec<Sheet> {
        match self {
            Self::Setting => setting_sheet(of),
            Self::Knives => knives_sheet(of),
            Self::Why => why_sheet(of, complained),
            Self::TrueScale => true_scale_sheet(of),
            Self::Record => record_sheet(of),
        }
    }
}
