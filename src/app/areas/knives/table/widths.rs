//! How wide the table's columns are, and on which side of them numbers and words stand.

use egui::{Align, Layout};

use super::sort::Column;
use crate::units::System;

/// Room between two columns.
pub const GAP: f32 = 12.0;

/// How wide the columns are in a reader's units.
#[derive(Clone, Copy)]
pub struct Widths(pub System);

impl Widths {
    pub const OVERLAY: f32 = 58.0;
    /// What stands under one another.
    pub const STACKED: f32 = 272.0;

    pub fn of(self, column: Column) -> f32 {
        // A fraction with its thou takes more letters.
        let length = |short: f32, long: f32| match self.0 {
            System::InchFraction => long,
            System::InchDecimal | System::Millimetre => short,
        };
        match column {
            Column::Name => 214.0,
            Column::BehindCentre => length(96.0, 142.0),
            Column::Sweep | Column::Underside => length(74.0, 130.0),
            Column::Reach => length(60.0, 112.0),
            Column::SetOnce => 178.0,
            Column::Window(_) => 174.0,
            Column::Aim => length(100.0, 164.0),
            Column::LipLeft => length(92.0, 130.0),
            Column::Price => 74.0,
            Column::Quantity => 90.0,
            Column::Notes => 150.0,
        }
    }

    /// Numbers stand on the right of their column, words on the left.
    pub const fn align(column: Column) -> Align {
        match column {
            Column::Reach
            | Column::BehindCentre
            | Column::Sweep
            | Column::Underside
            | Column::LipLeft
            | Column::Price
            | Column::Quantity => Align::Max,
            Column::Name | Column::SetOnce | Column::Window(_) | Column::Aim | Column::Notes => {
                Align::Min
            }
        }
    }

    pub fn head_layout(column: Column) -> Layout {
        match Self::align(column) {
            Align::Max => Layout::right_to_left(Align::Center),
            _ => Layout::left_to_right(Align::Center),
        }
    }
}
