//! A knob's change as it reads in a line: how far, where it ends, and how far the rollers move.

use super::{Change, Knob, KnobAnswer};
use crate::analysis::FindingId;
use crate::units::{System, with_plus};

/// Where a change leads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Towards {
    /// The finding's limit.
    Limit,
    /// What is aimed at, inside the limit.
    Aim,
}

impl KnobAnswer {
    /// A change of this answer, what follows the knob's name.
    #[must_use]
    pub fn told(&self, change: &Change, towards: Towards, system: System) -> String {
        let to = change.trial.shown_in(system);
        let by = change.trial_by.shown_in(system);
        let rollers = system.roller_moves(change.trial_rollers);
        let is_met = towards == Towards::Limit && self.is_within;
        let limit = self.limit_word;
        let lead = match towards {
            Towards::Aim => "to its aim".to_owned(),
            Towards::Limit if is_met => format!("within its {limit}, which it meets"),
            Towards::Limit => format!("to its {limit}"),
        };
        match self.knob {
            // The clip's limit, and not the reel's.
            Knob::GroundSpeed | Knob::ReelSpeed => format!(
                "clip length is within its limit at {to}; use it only if the machine's manual allows it"
            ),
            // How far it goes is told by how far the rollers do.
            Knob::FrontRoller
            | Knob::RearRoller
            | Knob::FrontRollerHeightKept
            | Knob::RearRollerHeightKept => {
                let with = if is_met { " with" } else { ":" };
                let stands = self.stands_told(change, system);
                format!("{lead}{with} {rollers}{stands}")
            }
            Knob::RollersTrued if self.finding == FindingId::RunoutSwing => {
                format!("inside its {limit}: the edge swings by {by} less; {rollers}")
            }
            Knob::RollersTrued | Knob::RollersParallel => {
                let up = change.trial_by.with_base(-change.trial_by.base());
                let up = up.shown_in(system);
                format!("inside its {limit}: the low place comes up by {up}; {rollers}")
            }
            Knob::Attitude
            | Knob::Knife
            | Knob::Extension
            | Knob::FaceGround
            | Knob::TopGround
            | Knob::HeightOfCut => {
                let way = match (by == to, is_met) {
                    // From none on, how far and where to are one.
                    (true, _) => format!("at {to}"),
                    (false, true) => {
                        format!("after {}, at {to}", with_plus(change.trial_by.base(), by))
                    }
                    (false, false) => {
                        format!("by {}, to {to}", with_plus(change.trial_by.base(), by))
                    }
                };
                let stands = self.stands_told(change, system);
                format!("{lead} {way}; {rollers}{stands}")
            }
        }
    }

    /// What follows by itself from a change of one roller, and what grinding leaves.
    #[must_use]
    pub fn stands_told(&self, change: &Change, system: System) -> String {
        let (attitude, height) = change.stands;
        let (attitude, height) = (system.angle(attitude), system.length(height));
        let left = change.lip_left.map(|left| system.length(left));
        match (self.knob, left) {
            (Knob::FrontRoller | Knob::RearRoller, _) => {
                format!("; height of cut then {height}, attitude {attitude}")
            }
            (Knob::FrontRollerHeightKept | Knob::RearRollerHeightKept, _) => {
                format!("; attitude then {attitude}")
            }
            (Knob::TopGround, Some(left)) => format!(
                "; {left} of the lip's thickness left, and metal ground off does not come back"
            ),
            (Knob::FaceGround, Some(left)) => {
                format!(
                    "; {left} of the lip's length left, and metal ground off does not come back"
                )
            }
            _ => String::new(),
        }
    }
}
