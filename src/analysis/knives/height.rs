//! The lowest height of cut at which a knife leaves as much room as is wanted.

use super::limit::Limit;
use super::window::windows_without;
use crate::analysis::ranges::{LEAST_HEIGHT_MM, MOST_HEIGHT_MM};
use crate::analysis::{NumberId, Solution, Uncertainty};
use crate::geometry::{KnifeSection, Setting};
use crate::unit::{Fitted, Follows, Unit};
use crate::units::Length;

/// Steps of the search, each so many times the one before.
const STEPS: u32 = 60;
/// The height is found to within this.
const EPSILON_MM: f64 = 1e-10;

/// The lowest height of cut of a knife, the reel at a diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LowestHeight {
    /// The height; none where no height leaves the room that is wanted.
    pub height: Option<Length>,
    /// Whether the readings are not sure enough to tell that the knife's top face clears the reel: then
    /// the knife is undecided at every height, and this one holds if it does.
    pub is_top_face_undecided: bool,
}

impl LowestHeight {
    /// Looks for it. A top face that may have too little relief leaves a knife undecided here as it does
    /// in its verdict, on whichever side of its limit it reads.
    #[must_use]
    pub fn of(
        unit: &Unit,
        setting: &Setting,
        (place, knife): (Fitted, KnifeSection),
        diameter: Length,
    ) -> Self {
        let fitted = Setting {
            knife,
            reel_diameter: diameter,
            ..*setting
        };
        let is_top_face_undecided = is_top_face_undecided(unit, &fitted, place);
        // The angle stays, since it also says where the edge of a ground knife is.
        let left_out = is_top_face_undecided.then_some(Limit::TopFace);
        Self {
            height: lowest_without(unit, &fitted, left_out),
            is_top_face_undecided,
        }
    }
}

/// Whether zero lies within what the top face's clearance can be off; turning the unit changes neither.
fn is_top_face_undecided(unit: &Unit, setting: &Setting, place: Fitted) -> bool {
    let clearance = Solution::of(unit, setting)
        .ok()
        .and_then(|solution| solution.top_face_clearance);
    clearance.is_some_and(|clearance| {
        let follows = Follows {
            reel_diameter: false,
            attitude: false,
            ..unit.follows.with_knife(place)
        };
        let uncertainty = Uncertainty::of(unit, setting, follows);
        clearance.deg().abs() < uncertainty.in_doubt_within(NumberId::TopFaceClearance)
    })
}

/// The lowest height of cut at which a window is as wide as the least room wanted, the reel at a
/// diameter.
///
/// Searched upwards in even ratios from 0.5 mm to 120 mm and then halved to the border, so a height
/// below it may leave a window only between two steps of 10 %. None when no height does.
#[must_use]
pub fn lowest_height(
    unit: &Unit,
    setting: &Setting,
    knife: KnifeSection,
    diameter: Length,
) -> Option<Length> {
    let setting = Setting {
        knife,
        reel_diameter: diameter,
        ..*setting
    };
    lowest_without(unit, &setting, None)
}

/// The same for the knife and the reel of a setting, with one limit left out, where there is one to
/// leave out.
fn lowest_without(unit: &Unit, setting: &Setting, left_out: Option<Limit>) -> Option<Length> {
    let has_window = |mm: f64| {
        let found = windows_without(unit, setting, Length::from_mm(mm), left_out);
        found
            .iter()
            .any(|window| window.width() >= unit.limits.room)
    };
    let ratio = (MOST_HEIGHT_MM / LEAST_HEIGHT_MM).powf(1.0 / f64::from(STEPS));
    let mut below = LEAST_HEIGHT_MM;
    if has_window(below) {
        return Some(Length::from_mm(below));
    }
    let mut above = (1..=STEPS)
        .map(|step| LEAST_HEIGHT_MM * ratio.powf(f64::from(step)))
        .find(|&mm| {
            let is_open = has_window(mm);
            if !is_open {
                below = mm;
            }
            is_open
        })?;
    while above - below > EPSILON_MM {
        let middle = f64::midpoint(below, above);
        if has_window(middle) {
            above = middle;
        } else {
            below = middle;
        }
    }
    Some(Length::from_mm(above))
}
