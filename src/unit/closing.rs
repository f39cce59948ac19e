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
}

impl OneOf for ClosingWay {
    const ALL: &'static [Self] = &[Self::ReelSlides, Self::ReelPivots, Self::KnifePivots];

    fn word(self) -> &'static str {
        match self {
            Self::ReelSlides => "ReelSlides",
            Self::ReelPivots => "ReelPivots",
            Self::KnifePivots => "KnifePivots",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::ReelSlides => "Reel slides",
            Self::ReelPivots => "Reel swings on a pivot",
            Self::KnifePivots => "Knife's bar turns on a pivot",
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
        }
    }

    /// Closes it in another way. A pivot stays where it is; a new one begins behind and above the
    /// edge, to be measured, written in `system`.
    pub fn close_by(&mut self, way: ClosingWay, system: System) {
        if way == self.way() {
            return;
        }
        let (ahead, above) = match self {
            Self::ReelPivots { ahead, above } | Self::KnifePivots { ahead, above } => {
                (ahead.clone(), above.clone())
            }
            Self::ReelSlides { .. } => (
                Quantity::from_value(Length::from_inches(-4.0), system),
                Quantity::from_value(Length::from_inches(6.0), system),
            ),
        };
        *self = match way {
            ClosingWay::ReelSlides => Self::ReelSlides { lean: None },
            ClosingWay::ReelPivots => Self::ReelPivots { ahead, above },
            ClosingWay::KnifePivots => Self::KnifePivots { ahead, above },
        };
    }
}
