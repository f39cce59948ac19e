//! The setting: what is being tried on a unit, with the attitude, height and rollers it stands by.

use serde::{Deserialize, Serialize};

use super::left_out::without_some;
use crate::geometry::Stance;
use crate::units::{Angle, Length, Quantity, System};

/// What is being tried; whatever is left out follows the bench.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct SettingEntry {
    /// Reel diameter after grinding.
    pub reel_diameter: Option<Quantity<Length>>,
    /// Height of cut wanted.
    pub height_of_cut: Option<Quantity<Length>>,
    /// Attitude wanted.
    pub attitude: Option<Quantity<Angle>>,
    /// Gap wanted.
    pub gap: Option<Quantity<Length>>,
    /// Name of the knife fitted.
    pub knife: Option<String>,
    /// Edge further ahead than the fitted knife's reach gives.
    pub extension: Option<Quantity<Length>>,
    /// Taken off the top face.
    pub top_ground: Option<Quantity<Length>>,
    /// Taken off the front face.
    pub face_ground: Option<Quantity<Length>>,
    /// The rollers as given; attitude and height then follow, or with one of them left out the
    /// attitude alone.
    pub rollers: Option<RollerMoves>,
}

/// Rollers given by how far each was moved in its bracket; one of them at least.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct RollerMoves {
    /// Front roller from its bench place, positive towards the reel; left out, it follows from the
    /// height of cut.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub front_move: Option<Quantity<Length>>,
    /// Rear roller from its bench place, positive towards the reel; left out, it follows from the
    /// height of cut.
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "without_some"
    )]
    pub rear_move: Option<Quantity<Length>>,
}

impl RollerMoves {
    /// Both rollers as given.
    #[must_use]
    pub const fn both(front_move: Quantity<Length>, rear_move: Quantity<Length>) -> Self {
        Self {
            front_move: Some(front_move),
            rear_move: Some(rear_move),
        }
    }

    /// Whether both are given, so that the height of cut follows.
    #[must_use]
    pub const fn are_both(&self) -> bool {
        self.front_move.is_some() && self.rear_move.is_some()
    }
}

impl SettingEntry {
    /// Sets attitude and height as wanted, the rollers as given, or one of each, written in `system`,
    /// exact enough that switching from one to another keeps the pose.
    pub(super) fn set_stance(&mut self, stance: Stance, system: System) {
        let exactly = |length| Some(Quantity::exactly(length, system));
        match stance {
            Stance::Wanted {
                attitude,
                height_of_cut,
            } => {
                self.attitude = Some(Quantity::exactly(attitude, system));
                self.height_of_cut = exactly(height_of_cut);
                self.rollers = None;
            }
            Stance::Rollers {
                front_move,
                rear_move,
            } => {
                self.attitude = None;
                self.height_of_cut = None;
                self.rollers = Some(RollerMoves {
                    front_move: exactly(front_move),
                    rear_move: exactly(rear_move),
                });
            }
            Stance::FrontRoller {
                front_move,
                height_of_cut,
            } => {
                self.attitude = None;
                self.height_of_cut = exactly(height_of_cut);
                self.rollers = Some(RollerMoves {
                    front_move: exactly(front_move),
                    rear_move: None,
                });
            }
            Stance::RearRoller {
                rear_move,
                height_of_cut,
            } => {
                self.attitude = None;
                self.height_of_cut = exactly(height_of_cut);
                self.rollers = Some(RollerMoves {
                    front_move: None,
                    rear_move: exactly(rear_move),
                });
            }
        }
    }
}
