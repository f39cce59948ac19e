//! A value of a sheet or a record that makes no sense, and what would be right.

use thiserror::Error;

use super::date::NotADay;
use super::sheet::Side;
use crate::geometry::TooFewAngles;
use crate::unit::FlawKind;
use crate::units::Quoted;

/// A value that makes no sense, and where it stands.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("{path}: {kind}")]
pub struct SheetFlaw {
    /// The field's path, as `front.runout[0].readings`.
    pub path: String,
    /// What is wrong with it.
    pub kind: SheetFlawKind,
}

/// What is wrong with a value, and what would be right.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum SheetFlawKind {
    /// A quantity that makes no sense by itself.
    #[error(transparent)]
    Quantity(#[from] FlawKind),
    /// A ± where none counts.
    #[error("{} is taken as exact; leave its ± out", Quoted(.0))]
    Exact(String),
    /// The leaf that stops is no thicker than the one that goes.
    #[error("{} goes and {} does not: write the thinner leaf as the one that goes, the thicker one as the one that stops", Quoted(.goes), Quoted(.stops_at))]
    LeavesSwapped {
        /// The leaf that goes.
        goes: String,
        /// The leaf that does not.
        stops_at: String,
    },
    /// A height over a roller without its diameter.
    #[error("a height over the roller's top needs the roller's diameter at its {} end; add it", .0.word())]
    NoDiameter(Side),
    /// A height less than the diameter of what it was read over.
    #[error("{} over the top of a roller of {} puts it under the plate", Quoted(.height), Quoted(.diameter))]
    UnderThePlate {
        /// The height.
        height: String,
        /// The diameter.
        diameter: String,
    },
    /// Readings of a turn at too few angles.
    #[error("these are readings at {0}: read at least at three, better at eight")]
    TooFewAngles(#[from] TooFewAngles),
    /// No sizes of shims.
    #[error("list the sizes of shims in stock, like [\"0.005 in\", \"0.010 in\"]")]
    NoShims,
    /// More of something than can be worked with.
    #[error("these are {count} {what}; the most is {most}")]
    TooMany {
        /// How many there are.
        count: usize,
        /// Of what.
        what: &'static str,
        /// How many there may be.
        most: usize,
    },
    /// A unit that is not named as a file of the same folder.
    #[error(
        "{} is not a file name; write the name alone of a unit file in the sheet's own folder, like \"walking-greens.ron\"",
        Quoted(.0)
    )]
    NotAName(String),
    /// A day that is none.
    #[error(transparent)]
    Day(#[from] NotADay),
    /// Hours that are no number.
    #[error("{} is not a number of hours; write one, like \"1210\"", Quoted(.0))]
    Hours(String),
}
