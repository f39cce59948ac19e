//! What is done to a row of the table.

use crate::unit::Fitted;

/// What is done to a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Done {
    Fit(Fitted),
    Open(Option<Fitted>),
    Duplicate(Fitted),
    Remove(usize),
    Tick(String, bool),
}
