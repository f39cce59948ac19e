//! How a knife is ground in this shop: what a grind takes, and the least lip it may leave.

use serde::{Deserialize, Serialize};

use super::left_out::without_some;
use crate::units::{Length, Quantity};

/// How knives are ground, as typed; whatever is left out is not known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct GrindingEntry {
    /// What one grind takes off the top face, square to it.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub a_grind: Option<Quantity<Length>>,
    /// The least thickness of lip that may be left; half of what it was made with when left out.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub least_lip: Option<Quantity<Length>>,
}

/// How knives are ground, in plain values.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Grinding {
    /// What one grind takes off the top face, square to it; none where it is not known.
    pub a_grind: Option<Length>,
    /// The least thickness of lip that may be left; none where half of it may go.
    pub least_lip: Option<Length>,
}

impl GrindingEntry {
    /// Whether none of it is known.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// In plain values.
    pub(super) fn values(&self) -> Grinding {
        Grinding {
            a_grind: self.a_grind.as_ref().map(Quantity::value),
            least_lip: self.least_lip.as_ref().map(Quantity::value),
        }
    }
}
