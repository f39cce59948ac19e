//! What must be true of a field by itself.

use super::{Entry, Kind};
use crate::unit::flaw::FlawKind;
use crate::units::{Angle, Length, Quantity};

/// What must be true of a field by itself. Every quantity but an angle within the upright must also
/// stay within what numbers and loops are good for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// Whatever it is.
    Free,
    /// A name that is no blank.
    NotBlank,
    /// Either sign.
    InProportion,
    /// More than zero.
    AboveZero,
    /// Zero or more.
    NotNegative,
    /// An angle between -90° and 90°.
    WithinUpright,
    /// A radius of the ground: more than zero. A crest or hollow may be as wide as the country; past
    /// 10 km it is level to the last digit.
    Radius,
    /// A number of blades.
    Blades,
    /// A number of knives to order.
    Pieces,
}

/// The widest crest or hollow: ground of a wider radius is level to the last digit.
pub const WIDEST_GROUND: Length = Length::from_mm(1e7);
/// The most that a small length read on a machine can be off by; a larger one can be off by itself.
/// Common practice, no source.
const WIDEST_OFF: Length = Length::from_mm(25.4);
/// The widest ground as it is told.
const WIDEST: (f64, &str) = (WIDEST_GROUND.mm(), "10000 m (about 6.2 miles)");

impl Rule {
    /// Checks a length that is no field of a unit.
    ///
    /// # Errors
    /// When it makes no sense by itself.
    pub fn check_length(self, length: &Quantity<Length>) -> Result<(), FlawKind> {
        self.check(Kind::Length, length)
    }

    /// Checks an angle that is no field of a unit.
    ///
    /// # Errors
    /// When it makes no sense by itself.
    pub fn check_angle(self, angle: &Quantity<Angle>) -> Result<(), FlawKind> {
        self.check(Kind::Angle, angle)
    }

    /// Checks an entry of a kind. One that is left out makes sense.
    pub(super) fn check(self, kind: Kind, entry: &dyn Entry) -> Result<(), FlawKind> {
        let text = || entry.text().unwrap_or_default().into_owned();
        let fails = |is_right: bool, flaw: fn(String) -> FlawKind| {
            if is_right { Ok(()) } else { Err(flaw(text())) }
        };
        let Some(amount) = entry.amount() else {
            let is_blank = || entry.text().is_some_and(|text| text.trim().is_empty());
            return if self == Self::NotBlank && is_blank() {
                Err(FlawKind::NoName)
            } else {
                Ok(())
            };
        };
        let base = amount.base;
        let most = match self {
            Self::WithinUpright | Self::Blades | Self::Pieces => None,
            Self::Radius => Some(WIDEST),
            Self::Free
            | Self::NotBlank
            | Self::InProportion
            | Self::AboveZero
            | Self::NotNegative => kind.most(),
        };
        if let Some((most, told)) = most
            && base.abs() > most
        {
            return Err(FlawKind::OutOfProportion {
                value: text(),
                most: told,
            });
        }
        match self {
            Self::Free | Self::NotBlank | Self::InProportion => Ok(()),
            Self::AboveZero | Self::Radius => fails(base > 0.0, FlawKind::NotAboveZero)
                .and_then(|()| not_too_small(base, kind, text)),
            Self::NotNegative => fails(base >= 0.0, FlawKind::Negative),
            Self::WithinUpright => fails(base.abs() < 90.0, FlawKind::PastUpright),
            Self::Blades if (1.0..=100.0).contains(&base) => Ok(()),
            Self::Blades => Err(FlawKind::Blades),
            Self::Pieces if (1.0..=9999.0).contains(&base) => Ok(()),
            Self::Pieces => Err(FlawKind::Pieces),
        }?;
        match amount.half_width {
            Some(half_width) if !self.allows(base, half_width, most.map(|(most, _)| most)) => {
                Err(FlawKind::HalfWidthOutOfProportion(text()))
            }
            Some(half_width) if !self.can_be_off(kind, base, half_width) => {
                Err(FlawKind::HalfWidthTooWide(text()))
            }
            _ => Ok(()),
        }
    }

    /// Whether a reading on a machine can be off by so much. What must be more than zero or within
    /// the upright is bounded by that.
    fn can_be_off(self, kind: Kind, base: f64, half_width: f64) -> bool {
        let has_own_bound = match self {
            Self::AboveZero | Self::Radius | Self::WithinUpright => true,
            Self::Free
            | Self::NotBlank
            | Self::InProportion
            | Self::NotNegative
            | Self::Blades
            | Self::Pieces => kind != Kind::Length,
        };
        has_own_bound || half_width <= base.abs().max(WIDEST_OFF.mm())
    }

    /// Whether a value may be off by so much: everywhere within its ± it still keeps the rule that
    /// it must be more than zero or within the upright, and is nowhere past the most there can be.
    ///
    /// What may be zero may be off by more than it is: a gap of zero is measured with a ± too.
    fn allows(self, base: f64, half_width: f64, most: Option<f64>) -> bool {
        let is_within = base.abs() + half_width <= most.unwrap_or(f64::INFINITY);
        is_within
            && match self {
                Self::AboveZero | Self::Radius => half_width < base,
                Self::WithinUpright => base.abs() + half_width < 90.0,
                Self::Free
                | Self::NotBlank
                | Self::InProportion
                | Self::NotNegative
                | Self::Blades
                | Self::Pieces => true,
            }
    }
}

fn not_too_small(base: f64, kind: Kind, text: impl Fn() -> String) -> Result<(), FlawKind> {
    match kind.least() {
        Some((least, told)) if base < least => Err(FlawKind::TooSmall {
            value: text(),
            least: told,
        }),
        _ => Ok(()),
    }
}
