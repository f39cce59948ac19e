//! What moves the rollers in their brackets: the adjusters' threads, and the spacers in stock.

use serde::{Deserialize, Serialize};

use crate::units::{Length, Quantity, QuantityProblem};

/// What moves the rollers, as typed; whatever is left out is not known.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct BracketEntry {
    /// How far one turn of the front adjuster moves the front roller.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub front_pitch: Option<Quantity<Length>>,
    /// How far one turn of the rear adjuster moves the rear roller.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rear_pitch: Option<Quantity<Length>>,
    /// The sizes of spacers in stock, with semicolons between them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spacers: Option<String>,
}

/// What moves the rollers, in plain values.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Brackets {
    /// How far one turn of the front adjuster moves the front roller.
    pub front_pitch: Option<Length>,
    /// How far one turn of the rear adjuster moves the rear roller.
    pub rear_pitch: Option<Length>,
    /// The sizes of spacers in stock.
    pub spacers: Vec<Length>,
}

impl BracketEntry {
    /// Whether none of it is known.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The spacers' sizes, read.
    ///
    /// # Errors
    /// When a size is no length.
    pub(super) fn sizes(&self) -> Result<Vec<Length>, QuantityProblem> {
        let text = self.spacers.as_deref().unwrap_or_default();
        let sizes = text
            .split(';')
            .map(str::trim)
            .filter(|size| !size.is_empty());
        sizes
            .map(|size| Ok(Quantity::<Length>::parse(size)?.value()))
            .collect()
    }

    /// In plain values; a size that is none was refused before.
    pub(super) fn values(&self) -> Brackets {
        Brackets {
            front_pitch: self.front_pitch.as_ref().map(Quantity::value),
            rear_pitch: self.rear_pitch.as_ref().map(Quantity::value),
            spacers: self.sizes().unwrap_or_default(),
        }
    }
}
