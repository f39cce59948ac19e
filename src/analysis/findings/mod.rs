//! Findings: what a person should know about a setting, each judged by one function in one file.
//!
//! To add one: a file with its `Rule`, a variant of [`FindingId`] and its line in the table.

#![expect(
    clippy::unnecessary_wraps,
    reason = "a rule may not apply; some always do"
)]

mod ahead;
mod attitude;
mod case;
mod clip;
mod cut;
mod finding;
mod gap;
mod id;
mod judged;
mod level;
mod lip;
mod low_end;
mod reel;
mod rollers;
mod rule;
mod runout_swing;
mod scrap;
mod standing;
mod sweep;
mod table;
mod top_face;
mod underside;
mod urgency;

pub use case::Case;
pub use finding::{Finding, Findings};
pub use id::FindingId;
pub use judged::{Bound, Doubt, Judged, Side};
pub use level::Level;
pub(in crate::analysis) use runout_swing::seen_swing;
pub use standing::{Standing, Standings};
pub use urgency::Urgency;

use rule::{Rule, Verdict, WindowEnd, above_ground, with_room};
