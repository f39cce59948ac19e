//! A slide whose lean nobody gave: the bench line stands in for it, and can be off.

use crate::geometry::Closing;
use crate::unit::{Reading, Uncertain, Unit};
use crate::units::{Angle, Measure as _};

/// How far a slide may lean from its bench line where its lean is not given: a starting value, no
/// source.
pub const LEAN_OFF: Angle = Angle::from_deg(10.0);

/// What a lean that is not given leaves open; none where it is given, or where none slides.
///
/// It is no reading, but every number that rests on it can be off by it: as long as reel and knife have
/// not come together anew since the bench, none does.
pub(in crate::analysis) fn open_lean(unit: &Unit) -> Option<Uncertain> {
    match unit.profile.closing {
        Closing::ReelSlides { lean: None } | Closing::KnifeSlides { lean: None } => {
            Some(Uncertain {
                reading: Reading::Lean,
                half_width: LEAN_OFF.base(),
            })
        }
        Closing::ReelSlides { lean: Some(_) }
        | Closing::KnifeSlides { lean: Some(_) }
        | Closing::ReelPivots { .. }
        | Closing::KnifePivots { .. } => None,
    }
}
