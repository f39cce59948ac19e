//! The kinematics and how they read, and the caution that goes with them.

use crate::analysis::{Kinematics, PathNumber, Solved};
use crate::units::{Sentence, System};

/// Never with the reel turning.
pub const NEVER_TURNING: &str = "Never measure or look closely while the reel turns. Take speeds from the machine's manual, or have a qualified technician measure them, guards on, with a non-contact tachometer.";

/// The kinematics and how they read.
#[derive(Clone, Debug)]
pub struct WorkedOut {
    pub kinematics: Kinematics,
    pub numbers: Vec<PathNumber>,
    pub in_short: String,
}

impl WorkedOut {
    /// What follows from the speeds; none without them.
    pub fn of(good: &Solved, system: System) -> Option<Self> {
        let kinematics = Kinematics::of(&good.unit, &good.solution)?;
        Some(Self {
            numbers: kinematics.told(system),
            in_short: in_short(&kinematics, system),
            kinematics,
        })
    }
}

/// The clips in one line.
fn in_short(kinematics: &Kinematics, system: System) -> String {
    let clip = kinematics.clip_length.into();
    match kinematics.clip_to_cut {
        Some(ratio) => Sentence::new(
            "A clip every {}, {} times the height of cut",
            &[clip, ratio.into()],
        ),
        None => Sentence::new("A clip every {}; there is no height of cut", &[clip]),
    }
    .shown_in(system)
}
