//! The rule of a finding: what it judges and says, and what judgements have in common.

use super::{Bound, Case, FindingId, Judged, Level, Side};
use crate::analysis::NumberId;
use crate::units::{Length, Sentence};

/// One kind of finding: what it judges, by which limits, and what it says.
#[derive(Clone, Copy)]
pub(super) struct Rule {
    pub(super) finding: FindingId,
    pub(super) id: &'static str,
    pub(super) title: &'static str,
    /// What `measure` gives, for its uncertainty; where it gives none, what ends a usable window.
    pub(super) number: Option<NumberId>,
    /// The number it judges, with its limits; none when it does not apply, or no one number
    /// decides.
    pub(super) measure: fn(&Case) -> Option<Judged>,
    /// What it says; none when it does not apply.
    pub(super) judge: fn(&Case) -> Option<Verdict>,
    /// Which of its limits ends a usable window of attitudes; none where none does.
    pub(super) window: Option<WindowEnd>,
    /// Whether an adjustment changes its number: a worn reel is not made larger by any.
    pub(super) is_adjustable: bool,
}

/// The limit of a finding that ends a usable window.
#[derive(Clone, Copy)]
pub(super) struct WindowEnd {
    /// The level that the finding has past it.
    pub(super) past: Level,
    /// How it is kept, in millimetres; negative past it. Each margin is smooth over attitude and
    /// diameter, so there may be several: the least of them counts. It gives as many for every case of
    /// a unit and a knife: infinity where it does not apply.
    pub(super) margins_mm: fn(&Case, &mut Vec<f64>),
}

/// A level and a sentence.
pub(super) struct Verdict {
    pub(super) level: Level,
    pub(super) text: Sentence,
}

/// A clearance that is too little at zero.
pub(super) fn above_ground(clearance: Length) -> Judged {
    let bound = Bound::new(Level::Over, Side::MoreThan, Length::ZERO);
    Judged::by(clearance, [Some(bound), None])
}

/// A clearance that wants some room, and is too little at zero.
pub(super) fn with_room(clearance: Length, least: Length) -> Judged {
    let bounds = [
        Bound::new(Level::Watch, Side::AtLeast, least),
        Bound::new(Level::Over, Side::MoreThan, Length::ZERO),
    ];
    Judged::by(clearance, bounds.map(Some))
}
