//! A value that makes no sense, and what would be right.

use thiserror::Error;

use super::field::Field;
use super::most;
use crate::units::Quoted;

/// A value that makes no sense, and the field it stands in.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{field}: {kind}")]
pub struct Flaw {
    /// The field.
    pub field: Field,
    /// What is wrong with it.
    pub kind: FlawKind,
}

/// What is wrong with a value, and what would be right.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum FlawKind {
    /// Zero or less where there must be more.
    #[error("{} must be more than zero", Quoted(.0))]
    NotAboveZero(String),
    /// More than zero, but less than anything of its kind.
    #[error("{} is too small to work with; at least {least}", Quoted(.value))]
    TooSmall {
        /// The value.
        value: String,
        /// The least of its kind.
        least: &'static str,
    },
    /// A ± within which the value makes no sense.
    #[error("the ± in {} is far too large; at both its ends there must still be a reading that makes sense", Quoted(.0))]
    HalfWidthOutOfProportion(String),
    /// A ± that is more than a reading of a machine can be off by.
    #[error("the ± in {} is far too large; no reading on a machine is off by more than itself, or 1 in where it is smaller", Quoted(.0))]
    HalfWidthTooWide(String),
    /// Less than zero.
    #[error("{} must not be negative", Quoted(.0))]
    Negative(String),
    /// Far more than anything of its kind.
    #[error("{} is far too large; the most is {most}", Quoted(.value))]
    OutOfProportion {
        /// The value.
        value: String,
        /// The most of its kind.
        most: &'static str,
    },
    /// An attitude or lean past the upright.
    #[error("{} must lie between -90 deg and 90 deg", Quoted(.0))]
    PastUpright(String),
    /// No blades.
    #[error("a reel needs at least one blade, and no more than 100")]
    Blades,
    /// No knife to order, or more than anybody orders.
    #[error("order at least one knife, and no more than 9999")]
    Pieces,
    /// More than what it must not pass.
    #[error("{} must not be more than {of}, {}", Quoted(.value), Quoted(.most))]
    MoreThan {
        /// The value.
        value: String,
        /// What it must not pass.
        of: &'static str,
        /// The value of that.
        most: String,
    },
    /// Another flaw, where one of the two values is an example: no reading is wrong.
    #[error("{0}; one of the two is still an example: write your own over it")]
    BesideExample(Box<Self>),
    /// A range of one value.
    #[error("{} is both the lowest and the highest; a range needs some width", Quoted(.0))]
    NoRange(String),
    /// More letters than screens and files are good for.
    #[error("these are {letters} letters; the most is {most} letters")]
    TooLong {
        /// How many there are.
        letters: usize,
        /// How many there may be.
        most: usize,
    },
    /// More knives than can be compared.
    #[error("with it there are {0} knives to compare; the most is {most}", most = most::KNIVES)]
    TooManyKnives(usize),
    /// More points of the hardware than can be worked with.
    #[error("with it there are {0} points of hardware; the most is {most}", most = most::HARDWARE_POINTS)]
    TooManyPoints(usize),
    /// A list of spacers in which one is no length.
    #[error("{problem}; write sizes with semicolons between them, like 1/32 in; 1/16 in")]
    NoSpacer {
        /// What is wrong with it.
        problem: String,
    },
    /// A spacer of no thickness.
    #[error("a spacer is thicker than zero")]
    ThinSpacer,
    /// A knife without a name.
    #[error("a knife needs a name, so that a setting can fit it")]
    NoName,
    /// Two knives of one name.
    #[error("two knives are called {}; give each a name of its own", Quoted(.0))]
    NameTwice(String),
    /// The setting fits a knife that is not there.
    #[error("no knife is called {}; there are {known}", Quoted(.wanted))]
    NoSuchKnife {
        /// The name wanted.
        wanted: String,
        /// Those there are.
        known: String,
    },
    /// Rollers given together with what follows from them.
    #[error(
        "with the rollers given, attitude and height of cut follow from them; leave this out, or set rollers to None"
    )]
    BesideRollers,
    /// One roller given together with the attitude, which follows.
    #[error(
        "with one roller given and the height of cut kept, the attitude follows; leave this out, or set rollers to None"
    )]
    BesideOneRoller,
    /// Rollers given, but none of them.
    #[error("give the move of one roller at least, or set rollers to None")]
    NoRollerGiven,
    /// Face angles that leave no edge.
    #[error("a top angle of {} and a front angle of {} leave no edge: together they must stay under 90 deg", Quoted(.top), Quoted(.front))]
    FacesWithoutEdge {
        /// The top angle.
        top: String,
        /// The front angle.
        front: String,
    },
    /// A gap under a straightedge that no crest or hollow leaves.
    #[error(
        "{} under this straightedge is a step, no crest or hollow; it must stay under half the straightedge, or under all of it where one end lies flat",
        Quoted(.0)
    )]
    Step(String),
    /// A setting with a plus-or-minus.
    #[error("{} is a setting and taken as exact; only readings carry a ±", Quoted(.0))]
    SettingWithHalfWidth(String),
}
