//! The kinds of findings by name.

/// A kind of finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FindingId {
    /// Sweep below the cut line.
    Sweep,
    /// The edge against the reel's centre.
    Ahead,
    /// The gap between reel and knife.
    Gap,
    /// The knife's top face against the reel.
    TopFace,
    /// The reel over the ground.
    Reel,
    /// The same at the low end, the rollers at their lowest.
    LowEnd,
    /// The edge over the ground.
    Cut,
    /// The underside of knife and hardware over the ground.
    Underside,
    /// The same at the low end, the rollers at their lowest.
    LowEndUnderside,
    /// How far rollers that run out swing the edge.
    RunoutSwing,
    /// The knife's lip.
    Lip,
    /// The reel against its scrap size and that of a new one.
    Scrap,
    /// Clip length over height of cut.
    Clip,
    /// Rollers where they cannot be.
    Rollers,
    /// The attitude against what the roller brackets allow.
    Attitude,
}

impl FindingId {
    /// Every kind, in the order they are told.
    pub const ALL: [Self; 15] = [
        Self::Sweep,
        Self::Ahead,
        Self::Gap,
        Self::TopFace,
        Self::Reel,
        Self::LowEnd,
        Self::Cut,
        Self::Underside,
        Self::LowEndUnderside,
        Self::RunoutSwing,
        Self::Lip,
        Self::Scrap,
        Self::Clip,
        Self::Rollers,
        Self::Attitude,
    ];
}
