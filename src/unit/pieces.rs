//! How many of a knife are wanted.

use serde::{Deserialize, Serialize};

/// A number of knives to order: one unless another number is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Pieces(pub u32);

impl Default for Pieces {
    fn default() -> Self {
        Self(1)
    }
}

impl Pieces {
    /// Whether it is what stands for a number left out.
    #[must_use]
    pub fn is_one(&self) -> bool {
        *self == Self::default()
    }
}
