//! What of a folder the table shows.

use std::collections::{BTreeMap, BTreeSet};

use crate::analysis::shop::ShopSet;
use crate::command::BoardUnit;
use crate::units::System;

/// What the table shows.
pub struct Shown<'a> {
    pub units: &'a [BoardUnit],
    /// The places of the units that are wanted, in their order.
    pub places: &'a [usize],
    /// The sets, by their names.
    pub sets: &'a BTreeMap<&'a str, &'a ShopSet>,
    /// Names that more than one unit has.
    pub repeated: &'a BTreeSet<String>,
    /// How the unit of a file is called.
    pub name_of: &'a dyn Fn(&str) -> String,
    pub system: System,
    /// The file that is open in the window, by its place among the units.
    pub open: Option<usize>,
}
