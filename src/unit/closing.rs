//! The document's closing: how reel and knife are brought together.

use serde::{Deserialize, Serialize};

use super::field::OneOf;
use crate::units::{Angle, Length, Quantity, System};

/// How reel and knife are brought together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum ClosingReadings {
    /// The reel slides along a line.
    ReelSlides {
        /// The line's lean from the vertical; the bench line when left out.
        #[serde(default)]
        lean: Option<Quantity<Angle>>,
    },
    /// The reel swings about a pivot.
    ReelPivots {
        /// The pivot, ahead of the bench edge.
        ahead: Quantity<Length>,
        /// The pivot, above the plate.
        above: Quantity<Length>,
    },
    /// The knife's bar turns about a pivot.
    KnifePivots {
        /// The pivot, ahead of the bench edge.
        ahead: Quantity<Length>,
        /// The pivot, above the plate.
        above: Quantity<Length>,
    },
    /// The knife's bar slides along a line. Beyond the three ways of this file format.
    KnifeSlides {
        /// The line's lean from the vertical; the bench line when left out.
        #[serde(default)]
        lean: Option<Quantity<Angle>>,
    },
}

/// The way in which reel and knife are brought together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClosingWay {
    /// The reel slides along a line.
    ReelSlides,
    /// The reel swings about a pivot.
    ReelPivots,
    /// The knife's bar turns about a pivot.
    KnifePivots,
    /// The knife's bar slides along a line.
    KnifeSlides,
}

impl ClosingWay {
    /// Whether the knife moves, and the height of cut with it.
    #[must_use]
    pub const fn moves_knife(self) -> bool {
        match self {
            Self::ReelSlides | Self::ReelPivots => false,
            Self::KnifePivots | Self::KnifeSlides => true,
        }
    }
}

impl OneOf for ClosingWay {
    const ALL: &'static [Self] = &[
        Self::ReelSlides,
        Self::ReelPivots,
        Self::KnifePivots,
        Self::KnifeSlides,
    ];

    fn word(self) -> &'static str {
        match self {
            Self::ReelSlides => "ReelSlides",
            Self::ReelPivots => "ReelPivots",
            Self::KnifePivots => "KnifePivots",
            Self::KnifeSlides => "KnifeSlides",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::ReelSlides => "Reel slides",
            Self::ReelPivots => "Reel swings on a pivot",
            Self::KnifePivots => "Bed bar turns on a pivot",
            Self::KnifeSlides => "Bed bar slides",
        }
    }
}

impl ClosingReadings {
    /// The way it is closed in.
    #[must_use]
    pub const fn way(&self) -> ClosingWay {
        match self {
            Self::ReelSlides { .. } => ClosingWay::ReelSlides,
            Self::ReelPivots { .. } => ClosingWay::ReelPivots,
            Self::KnifePivots { .. } => ClosingWay::KnifePivots,
            Self::KnifeSlides { .. } => ClosingWay::KnifeSlides,
        }
    }

    /// Closes it in another way. A pivot stays where it is, and so does a line; a new pivot begins
    /// behind and above the edge, to be measured, written in `system`.
    pub fn close_by(&mut self, way: ClosingWay, system: System) {
        if way == self.way() {
            return;
        }
        let (ahead, above) = match self {
            Self::ReelPivots { ahead, above } | Self::KnifePivots { ahead, above } => {
                (ahead.clone(), above.clone())
            }
            Self::ReelSlides { .. } | Self::KnifeSlides { .. } => (
                Quantity::from_value(Length::from_inches(-4.0), system),
                Quantity::from_value(Length::from_inches(6.0), system),
            ),
        };
        let lean = match self {
            Self::ReelSlides { lean } | Self::KnifeSlides { lean } => lean.take(),
            Self::ReelPivots { .. } | Self::KnifePivots { .. } => None,
        };
        *self = match way {
            ClosingWay::ReelSlides => Self::ReelSlides { lean },
            ClosingWay::ReelPivots => Self::ReelPivots { ahead, above },
            ClosingWay::KnifePivots => Self::KnifePivots { ahead, above },
            ClosingWay::KnifeSlides => Self::KnifeSlides { lean },
        };
    }
}
