//! The lean of the slide from two places of what slides, with its own ±.

use super::other_readings::{Derived, Input, propagate};
use crate::geometry::{Misread, lean_from_travel};
use crate::units::{Angle, Length, Quantity};

/// What slides while the gap is closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slid {
    /// The reel.
    Reel,
    /// The knife's bar.
    Knife,
}

/// What is read with it at one place.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Behind centre.
    pub behind: Quantity<Length>,
    /// How high what slides stands over the plate: the reel's shaft, or the edge.
    pub height: Quantity<Length>,
}

impl Slid {
    /// What the height is of.
    #[must_use]
    pub const fn height(self) -> &'static str {
        match self {
            Self::Reel => "Shaft height",
            Self::Knife => "Height of cut",
        }
    }

    /// How the two readings are taken.
    #[must_use]
    pub const fn how(self) -> &'static str {
        match self {
            Self::Reel => {
                "On the plate, engine off, key out, reel drive disconnected, unit and reel blocked, cut-resistant gloves. Read behind centre and the shaft height: from the plate up to the middle of the reel's shaft. Hands clear of the blades, back the reel off by its adjuster, both ends alike, as far as it lets you; leave the rollers alone. See that the reel is still blocked, then read both again."
            }
            Self::Knife => {
                "On the plate, engine off, key out, reel drive disconnected, unit and reel blocked, cut-resistant gloves. Read behind centre and the height of cut. Hands clear of the blades, back the knife off by its adjuster, both ends alike, as far as it lets you; leave the rollers alone. Read both again."
            }
        }
    }
}

impl Place {
    /// Whether what slides can stand there; `radius` is the reel's, where it was measured.
    ///
    /// # Errors
    /// When it, or the reel around its shaft, would stand in the plate for all its ± says.
    pub fn stands_over_plate(&self, slid: Slid, radius: Option<Length>) -> Result<(), Misread> {
        let height = self.height.value();
        if height <= Length::ZERO {
            return Err(Misread::UnderPlate { height });
        }
        let off = self.height.half_width().unwrap_or(Length::ZERO);
        match (slid, radius) {
            (Slid::Reel, Some(radius)) if height + off < radius => {
                Err(Misread::ShaftTooLow { height, radius })
            }
            _ => Ok(()),
        }
    }
}

/// The lean of the slide, positive leaning ahead at the top.
///
/// # Errors
/// When the two places are one and the same, lie level, or may be one for all their ± says.
pub fn lean_from(slid: Slid, first: &Place, second: &Place) -> Result<Derived<Angle>, Misread> {
    let readings = [&first.behind, &second.behind, &first.height, &second.height];
    let of = |place: usize| readings[place].value();
    let (across, up) = (of(1) - of(0), of(3) - of(2));
    let travel = Length::from_mm(across.mm().hypot(up.mm()));
    let off = readings.iter().filter_map(|reading| reading.half_width());
    let off = off.fold(Length::ZERO, |sum, off| sum + off);
    if travel <= off {
        return Err(Misread::TravelLostInItsOff { travel, off });
    }
    propagate(readings.map(Input::of), |[b0, b1, h0, h1]| {
        // The edge goes the other way when it is the knife that slides.
        let across = match slid {
            Slid::Reel => b1 - b0,
            Slid::Knife => b0 - b1,
        };
        lean_from_travel(across, h1 - h0).map(|lean| lean * 1_f64.to_degrees())
    })
}
