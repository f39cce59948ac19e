//! How far the readings can be off: which of them carry a ±, and which settings follow the bench.

use super::document::Document;
use super::field::{Field, Reading};
use super::fitted::Fitted;
use super::setting::SettingEntry;

/// A reading and how far it can be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncertain {
    /// The reading.
    pub reading: Reading,
    /// What stands after its ±, above zero, in the base unit of its kind: millimetres, degrees,
    /// millimetres a second, revolutions a minute.
    pub half_width: f64,
}

/// Which values of a setting follow the bench's readings, their uncertainty included; the others
/// are exact.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each value follows or does not by itself"
)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Follows {
    /// The reel diameter is the bench's.
    pub reel_diameter: bool,
    /// The gap is the bench's.
    pub gap: bool,
    /// The attitude wanted is the bench's.
    pub attitude: bool,
    /// The height of cut wanted is the bench's.
    pub height_of_cut: bool,
    /// What is off the top face is the fitted knife's own.
    pub top_ground: bool,
    /// What is off the front face is the fitted knife's own.
    pub face_ground: bool,
    /// Whose readings the section of the knife fitted is.
    pub knife: Fitted,
}

impl Follows {
    /// Everything but grinding: the bench pose, its knife not yet ground.
    pub const BENCH: Self = Self {
        reel_diameter: true,
        gap: true,
        attitude: true,
        height_of_cut: true,
        top_ground: false,
        face_ground: false,
        knife: Fitted::Bench,
    };

    /// None but the bench knife: every value of the setting is exact.
    pub const NONE: Self = Self {
        reel_diameter: false,
        gap: false,
        attitude: false,
        height_of_cut: false,
        top_ground: false,
        face_ground: false,
        knife: Fitted::Bench,
    };

    /// The same with another knife fitted, ground as it is by itself: what a setting grinds off belongs
    /// to the knife it fits.
    #[must_use]
    pub fn with_knife(self, knife: Fitted) -> Self {
        let is_other = knife != self.knife;
        Self {
            top_ground: self.top_ground || is_other,
            face_ground: self.face_ground || is_other,
            knife,
            ..self
        }
    }

    /// What is left out of a setting follows. With the rollers given, attitude and height of cut
    /// follow from them instead; with one of them, the attitude.
    pub(super) fn of(entry: &SettingEntry, fitted: Fitted) -> Self {
        let is_wanted = entry.rollers.is_none();
        let is_height_wanted = entry.rollers.as_ref().is_none_or(|moves| !moves.are_both());
        Self {
            reel_diameter: entry.reel_diameter.is_none(),
            gap: entry.gap.is_none(),
            attitude: is_wanted && entry.attitude.is_none(),
            height_of_cut: is_height_wanted && entry.height_of_cut.is_none(),
            top_ground: entry.top_ground.is_none(),
            face_ground: entry.face_ground.is_none(),
            knife: fitted,
        }
    }
}

/// The readings of a document that carry a ± of more than zero, in the order of the file.
pub(super) fn uncertain_readings(document: &Document) -> Vec<Uncertain> {
    let with_half_width = Field::all(document).filter_map(|field| {
        let Field::Reading(reading) = field else {
            return None;
        };
        let half_width = field.half_width(document)?;
        (half_width > 0.0).then_some(Uncertain {
            reading,
            half_width,
        })
    });
    with_half_width.collect()
}
