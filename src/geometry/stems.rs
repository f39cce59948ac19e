//! Stems of grass under a reel in motion: a simple model, made to illustrate clip places.
//!
//! A stem stands on the ground, straight from its root. A blade's tip that comes down ahead of the knife
//! bends it back and lets go of it where it is too short to reach; the edge that has passed over its root
//! bends it ahead. At the clip nearest its root it reaches straight to the edge and is cut there. So the
//! stem rooted at x is left as long as the slant from its root to that clip: `sqrt(H² + (x − k·p)²)`, with
//! H the height of cut, p the clip length and k·p the nearest clip (Pythagoras; that stems stay straight is
//! this model's own, no source). It keeps its length, lies down under the knife and rises behind it.
//! Stiffness and leaves lying over each other are left out.

use kurbo::{Point, Vec2};

use super::ReelTurn;
use crate::units::Length;

/// How far a stem had grown above the cut, in parts of the height of cut: drawn, not known.
const GROWN: f64 = 1.5;
/// How much longer than the longest that is left a stem had grown at the least, so that every one is cut.
const LEAST_CUT_OFF: f64 = 1.1;
/// Clips that a phase is off by its rounding at the most.
const ROUNDED: f64 = 1e-9;
/// In how many parts of the time from clip to clip a cut stem leaves the edge: drawn, not known.
const LEAVES_IN: f64 = 0.5;

/// The stems ahead of, under and behind a unit that mows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stems {
    turn: ReelTurn,
    height_mm: f64,
    clip_mm: f64,
    grown_mm: f64,
    under: Option<Under>,
}

/// The room under the knife.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Under {
    clearance_mm: f64,
    /// From the edge to the knife's back, along the ground.
    wide_mm: f64,
}

/// What has become of a stem.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StemState {
    /// Nothing has touched it.
    Standing,
    /// A blade bends it back.
    BentByBlade,
    /// The knife bends it ahead.
    BentByKnife,
    /// It is cut.
    Cut,
}

/// A stem at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stem {
    /// Where it grows.
    pub root: Point,
    /// Its upper end.
    pub top: Point,
    /// What has become of it.
    pub state: StemState,
}

impl Stems {
    /// The stems of a unit in motion; none where its edge is not above the ground.
    #[must_use]
    pub fn of(turn: ReelTurn) -> Option<Self> {
        let height_mm = turn.path.cut_height_mm;
        if height_mm <= 0.0 {
            return None;
        }
        let clip_mm = turn.clip_length().mm();
        let longest_mm = height_mm.hypot(clip_mm / 2.0);
        Some(Self {
            turn,
            height_mm,
            clip_mm,
            grown_mm: (GROWN * height_mm).max(LEAST_CUT_OFF * longest_mm),
            under: None,
        })
    }

    /// The same under a knife with so much room below it, over so much of the ground behind its edge.
    #[must_use]
    pub fn under_knife(self, clearance: Length, wide: Length) -> Self {
        let under = Under {
            clearance_mm: clearance.mm().max(0.0),
            wide_mm: wide.mm(),
        };
        Self {
            under: Some(under),
            ..self
        }
    }

    /// How long a stem is before it is cut.
    #[must_use]
    pub fn grown(&self) -> Length {
        Length::from_mm(self.grown_mm)
    }

    /// The clip nearest a root: 0 the one at phase 0, 1 the one after.
    #[must_use]
    pub fn clip_of(&self, root: Length) -> f64 {
        (root.mm() / self.clip_mm).round()
    }

    /// How far ahead of a stem's root it is cut; behind it when negative.
    #[must_use]
    pub fn cut_ahead(&self, root: Length) -> Length {
        Length::from_mm(self.clip_of(root) * self.clip_mm) - root
    }

    /// How long a stem is left.
    #[must_use]
    pub fn cut_length(&self, root: Length) -> Length {
        Length::from_mm(self.height_mm.hypot(self.cut_ahead(root).mm()))
    }

    /// A stem at a phase of the reel's turn, on the ground's axes.
    #[must_use]
    pub fn stem(&self, root: Length, phase: f64) -> Stem {
        let clip = self.clip_of(root);
        let clips_since = phase / self.turn.phase_of_clip() - clip;
        let root_at = Point::new(root.mm(), 0.0);
        // How far it leans ahead, as an angle from upright.
        let (state, lean_rad, length_mm) = if clips_since >= -ROUNDED {
            let at_cut = self.cut_ahead(root).mm().atan2(self.height_mm);
            let leaves = (clips_since / LEAVES_IN).clamp(0.0, 1.0);
            let length_mm = self.cut_length(root).mm();
            let pressed = self.pressed_rad(root.mm(), length_mm, phase);
            let lean_rad = at_cut + leaves * (pressed - at_cut);
            (StemState::Cut, lean_rad, length_mm)
        } else {
            let (state, lean_rad) = self.bent(root.mm(), phase);
            (state, lean_rad, self.grown_mm)
        };
        let (sin, cos) = lean_rad.sin_cos();
        Stem {
            root: root_at,
            top: root_at + Vec2::new(sin, cos) * length_mm,
            state,
        }
    }

    /// How a stem leans before it is cut.
    fn bent(&self, root_mm: f64, phase: f64) -> (StemState, f64) {
        let edge_past_mm = self.turn.travelled(phase).mm() - root_mm;
        if edge_past_mm > 0.0 {
            return (StemState::BentByKnife, edge_past_mm.atan2(self.height_mm));
        }
        let apart = self.turn.phase_of_clip();
        // Every blade in the quarter of a turn in which it comes down to its clip.
        let mut clip = (phase / apart).ceil();
        let mut back_rad = 0.0_f64;
        while clip * apart - phase < 0.25 {
            let tip = self.turn.tip_of_clip(clip, phase);
            let to_tip = Vec2::new(root_mm - tip.x, tip.y.max(0.0));
            if to_tip.x > 0.0 && to_tip.hypot() < self.grown_mm {
                back_rad = back_rad.max(to_tip.x.atan2(to_tip.y));
            }
            clip += 1.0;
        }
        if back_rad > 0.0 {
            (StemState::BentByBlade, -back_rad)
        } else {
            (StemState::Standing, 0.0)
        }
    }

    /// How far ahead a stem of a length lies down under the knife; not at all before the edge has passed it
    /// and once the knife's back has.
    fn pressed_rad(&self, root_mm: f64, length_mm: f64, phase: f64) -> f64 {
        let Some(under) = self.under else {
            return 0.0;
        };
        let past_mm = self.turn.travelled(phase).mm() - root_mm;
        // It comes and goes over half a height of cut: drawn, not known.
        let over_mm = 0.5 * self.height_mm;
        let pressed = (past_mm / over_mm).min((under.wide_mm + over_mm - past_mm) / over_mm);
        let whole = (under.clearance_mm / length_mm).min(1.0).acos();
        whole * pressed.clamp(0.0, 1.0)
    }
}
