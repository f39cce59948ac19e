//! The name of every number: for programs, in a sentence, in a list, and what it means.

use crate::units::{Angle, Length, Measure as _, Ratio, Share, Value};

/// A number of a solution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NumberId {
    /// Behind centre, in millimetres.
    BehindCentre,
    /// Sweep below cut, in millimetres.
    SweepBelowCut,
    /// Sweep over height of cut, of one.
    SweepShare,
    /// Sweep chord, in millimetres.
    SweepChord,
    /// Centre above the edge, in millimetres.
    CentreAboveEdge,
    /// Clip angle, in degrees.
    ClipAngle,
    /// Height of cut, in millimetres.
    HeightOfCut,
    /// Attitude, in degrees.
    Attitude,
    /// Reel diameter, in millimetres.
    ReelDiameter,
    /// Extension, in millimetres.
    Extension,
    /// Gap, in millimetres.
    Gap,
    /// The front roller's place in its bracket from that on the bench; up towards the reel is positive.
    FrontRollerMove,
    /// The rear roller's place in its bracket from that on the bench; up towards the reel is positive.
    RearRollerMove,
    /// Plate to the lowest point of the reel's circle, in millimetres.
    ReelOverPlate,
    /// Plate to the lowest point of the knife's underside and its hardware, in millimetres.
    UndersideOverPlate,
    /// Plate to the front bottom of the lip, in millimetres.
    LipBottom,
    /// How clear the nearer roller stands of the knife, in millimetres.
    RollerToKnife,
    /// Ground to edge, in millimetres.
    CutOnGround,
    /// Ground to the reel's circle, in millimetres.
    ReelOnGround,
    /// Ground to the reel's circle at the low end, the rollers at their lowest, in millimetres.
    ReelAtLowEnd,
    /// Ground to the lowest of knife and hardware, in millimetres.
    UndersideOnGround,
    /// Ground to the lowest of knife and hardware at the low end, the rollers at their lowest.
    UndersideAtLowEnd,
    /// Forward travel between two clips, in millimetres.
    ClipLength,
    /// Clip length over height of cut, a plain ratio.
    ClipToCut,
    /// The top angle below which the face behind the edge would stand inside the reel, in degrees.
    TopAngleNeeded,
    /// What the top face has more than that, in degrees; none where its angle is not given.
    TopFaceClearance,
    /// Sweep below the edge, square to the ground, in millimetres.
    SweepOnGround,
    /// Knife datum against the ground under the edge, in degrees.
    AttitudeOnGround,
    /// How far the rollers' runout swings the edge up and down over a turn, in millimetres.
    RunoutSwing,
}

/// What a number is a quantity of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Length,
    /// A roller's move in its bracket.
    Move,
    Angle,
    Share,
    Ratio,
}

/// What is said of a number.
#[derive(Clone, Copy, Debug)]
struct Entry {
    /// Its name for programs, the part of the report it stands in before the dot; never changes.
    id: &'static str,
    name: &'static str,
    title: &'static str,
    meaning: &'static str,
    kind: Kind,
    /// Whether its ± is told.
    has_off: bool,
}

const ROLLER_MOVES: &str = "How far it moves in its bracket from where it was measured, along the frame's own vertical: to raise it is towards the reel. The same for the rear roller.";

impl NumberId {
    /// Every number.
    pub const ALL: [Self; 29] = [
        Self::BehindCentre,
        Self::SweepBelowCut,
        Self::SweepShare,
        Self::SweepChord,
        Self::CentreAboveEdge,
        Self::ClipAngle,
        Self::HeightOfCut,
        Self::Attitude,
        Self::ReelDiameter,
        Self::Extension,
        Self::Gap,
        Self::FrontRollerMove,
        Self::RearRollerMove,
        Self::ReelOverPlate,
        Self::UndersideOverPlate,
        Self::LipBottom,
        Self::RollerToKnife,
        Self::CutOnGround,
        Self::ReelOnGround,
        Self::ReelAtLowEnd,
        Self::UndersideOnGround,
        Self::UndersideAtLowEnd,
        Self::ClipLength,
        Self::ClipToCut,
        Self::TopAngleNeeded,
        Self::TopFaceClearance,
        Self::SweepOnGround,
        Self::AttitudeOnGround,
        Self::RunoutSwing,
    ];

    /// Those that stand under a drawing, in their order.
    pub const KEY: [Self; 15] = [
        Self::BehindCentre,
        Self::SweepBelowCut,
        Self::SweepShare,
        Self::SweepChord,
        Self::ClipAngle,
        Self::Attitude,
        Self::HeightOfCut,
        Self::CutOnGround,
        Self::ReelOverPlate,
        Self::ReelOnGround,
        Self::UndersideOverPlate,
        Self::UndersideOnGround,
        Self::FrontRollerMove,
        Self::RearRollerMove,
        Self::ClipLength,
    ];

    #[expect(
        clippy::too_many_lines,
        reason = "one entry after the other, in one table"
    )]
    const fn entry(self) -> Entry {
        match self {
            Self::BehindCentre => Entry {
                id: "solution.behind_centre_mm",
                name: "behind centre",
                title: "Behind centre",
                meaning: "How far the knife's edge stands behind the vertical through the reel's centre.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::SweepBelowCut => Entry {
                id: "solution.sweep_below_cut_mm",
                name: "sweep",
                title: "Sweep",
                meaning: "How far the lowest point of the reel's circle hangs below the edge: the depth the blades reach into the canopy before they come up to the clip point.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::SweepShare => Entry {
                id: "solution.sweep_share",
                name: "sweep as % of height of cut",
                title: "Sweep as % of height of cut",
                meaning: "The sweep as a share of the height of cut. The same sweep is harmless at a high cut and far too much at a low one.",
                kind: Kind::Share,
                has_off: true,
            },
            Self::SweepChord => Entry {
                id: "solution.sweep_chord_mm",
                name: "length swept below the cut",
                title: "Length swept below the cut",
                meaning: "How long the part of the reel's circle is that lies below the cut line, along the cut.",
                kind: Kind::Length,
                has_off: false,
            },
            Self::CentreAboveEdge => Entry {
                id: "solution.centre_above_edge_mm",
                name: "centre above the edge",
                title: "Centre above edge",
                meaning: "From the edge up to the reel's centre.",
                kind: Kind::Length,
                has_off: false,
            },
            Self::ClipAngle => Entry {
                id: "solution.clip_angle_deg",
                name: "clip angle",
                title: "Clip angle",
                meaning: "At the reel's centre, from straight down to the edge.",
                kind: Kind::Angle,
                has_off: false,
            },
            Self::HeightOfCut => Entry {
                id: "setting.height_of_cut_mm",
                name: "height of cut",
                title: "Height of cut",
                meaning: "From the plate up to the edge.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::Attitude => Entry {
                id: "setting.attitude_deg",
                name: "attitude",
                title: "Attitude",
                meaning: "The knife datum against the plate, positive with the knife's back higher than its edge.",
                kind: Kind::Angle,
                has_off: true,
            },
            Self::ReelDiameter => Entry {
                id: "setting.reel_diameter_mm",
                name: "reel diameter",
                title: "Reel diameter",
                meaning: "Across the blade tips, as the reel is set now.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::Extension => Entry {
                id: "setting.extension_mm",
                name: "edge forward",
                title: "Edge forward, total",
                meaning: "How much further ahead, along the datum, the fitted knife's unground edge stands than the edge of the knife that was on when you measured: its longer reach and the edge forward added.",
                kind: Kind::Length,
                has_off: false,
            },
            Self::Gap => Entry {
                id: "setting.gap_mm",
                name: "gap",
                title: "Gap",
                meaning: "From the reel to the edge, along the line from reel centre to edge.",
                kind: Kind::Length,
                has_off: false,
            },
            Self::FrontRollerMove => Entry {
                id: "solution.front_roller_move_mm",
                name: "front roller",
                title: "Front roller",
                meaning: ROLLER_MOVES,
                kind: Kind::Move,
                has_off: false,
            },
            Self::RearRollerMove => Entry {
                id: "solution.rear_roller_move_mm",
                name: "rear roller",
                title: "Rear roller",
                meaning: ROLLER_MOVES,
                kind: Kind::Move,
                has_off: false,
            },
            Self::ReelOverPlate => Entry {
                id: "solution.reel_clearance_mm",
                name: "reel above the plate",
                title: "Reel above plate",
                meaning: "From the plate up to the lowest point of the reel's circle.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::UndersideOverPlate => Entry {
                id: "solution.underside_clearance_mm",
                name: "underside above the plate",
                title: "Underside above plate",
                meaning: "From the plate up to the lowest point of the knife or the hardware under it.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::LipBottom => Entry {
                id: "solution.lip_clearance_mm",
                name: "lip above the plate",
                title: "Lip above plate",
                meaning: "From the plate up to the front bottom of the knife's lip.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::RollerToKnife => Entry {
                id: "solution.roller_to_knife_mm",
                name: "roller to the knife",
                title: "Roller to knife",
                meaning: "Clearance from the nearer roller to the knife's front face, underside or back. Below zero they overlap.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::CutOnGround => Entry {
                id: "ground.cut_mm",
                name: "effective height of cut",
                title: "Effective height of cut",
                meaning: "From the ground up to the edge, after the ground's shape and the rollers' sink.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::ReelOnGround => Entry {
                id: "ground.reel_clearance_mm",
                name: "reel above the ground",
                title: "Reel above ground",
                meaning: "From the ground up to the lowest point of the reel's circle, after the ground's shape and the rollers' sink.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::ReelAtLowEnd => Entry {
                id: "ground.reel_at_low_end_mm",
                name: "reel above the ground, low side",
                title: "Reel at the low side",
                meaning: "From the ground up to the reel at the low side of the unit, with the rollers at their lowest.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::UndersideOnGround => Entry {
                id: "ground.underside_clearance_mm",
                name: "underside above the ground",
                title: "Underside above ground",
                meaning: "From the ground up to the lowest point of the knife or the hardware under it.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::UndersideAtLowEnd => Entry {
                id: "ground.underside_at_low_end_mm",
                name: "underside above the ground, low side",
                title: "Underside at the low side",
                meaning: "From the ground up to the knife or the hardware under it at the low side of the unit, with the rollers at their lowest.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::ClipLength => Entry {
                id: "mowing.clip_length_mm",
                name: "clip length",
                title: "Clip length",
                meaning: "Forward travel between one blade passing the knife and the next (also called frequency of clip).",
                kind: Kind::Length,
                has_off: true,
            },
            Self::ClipToCut => Entry {
                id: "mowing.clip_to_cut",
                name: "clip length ÷ height of cut",
                title: "Clip ÷ height of cut",
                meaning: "Clip length ÷ height of cut.",
                kind: Kind::Ratio,
                has_off: true,
            },
            Self::TopAngleNeeded => Entry {
                id: "solution.top_angle_needed_deg",
                name: "top angle needed",
                title: "Top angle needed",
                meaning: "How far the top face must fall below the datum behind the edge: with less it would stand inside the reel. Turning the unit does not change it; another knife, wear and a turning bar do.",
                kind: Kind::Angle,
                has_off: true,
            },
            Self::TopFaceClearance => Entry {
                id: "solution.top_face_clearance_deg",
                name: "top face clear of the reel",
                title: "Top face clearance",
                meaning: "How much more top angle the knife has than it needs. Below zero the heel of the face stands inside the reel, which rides on it, and the edge does not cut.",
                kind: Kind::Angle,
                has_off: true,
            },
            Self::SweepOnGround => Entry {
                id: "ground.sweep_mm",
                name: "sweep on the ground",
                title: "Sweep on the ground",
                meaning: "How far the reel sweeps below the edge, square to the ground, after the ground's shape and the rollers' sink.",
                kind: Kind::Length,
                has_off: true,
            },
            Self::AttitudeOnGround => Entry {
                id: "ground.attitude_deg",
                name: "attitude on the ground",
                title: "Attitude on the ground",
                meaning: "The knife datum against the ground under the edge: rollers that sink apart and the ground's shape tilt it.",
                kind: Kind::Angle,
                has_off: true,
            },
            Self::RunoutSwing => Entry {
                id: "ground.runout_swing_mm",
                name: "swing of the edge by runout",
                title: "Swing of the edge",
                meaning: "How far the edge goes up and down over a turn of rollers that run out, both at their worst together.",
                kind: Kind::Length,
                has_off: true,
            },
        }
    }

    /// Its name for programs, after the part of the report it stands in; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        self.entry().id
    }

    /// The same within its part of the report.
    #[must_use]
    pub fn key(self) -> &'static str {
        self.id().split_once('.').map_or(self.id(), |(_, key)| key)
    }

    /// Its name in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.entry().name
    }

    /// Its name in a list of numbers.
    #[must_use]
    pub const fn title(self) -> &'static str {
        self.entry().title
    }

    /// What it means.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        self.entry().meaning
    }

    /// Whether its ± is told.
    #[must_use]
    pub const fn has_off(self) -> bool {
        self.entry().has_off
    }

    /// So many base units of it: millimetres, degrees, parts of one.
    #[must_use]
    pub fn value(self, base: f64) -> Value {
        match self.entry().kind {
            Kind::Length => Length::from_base(base).into(),
            Kind::Move => Value::Move(Length::from_base(base)),
            Kind::Angle => Angle::from_base(base).into(),
            Kind::Share => Share::from_base(base).into(),
            Kind::Ratio => Ratio::from_base(base).into(),
        }
    }

    /// Whether it is there without speeds as well.
    pub(super) const fn needs_no_speeds(self) -> bool {
        !matches!(self, Self::ClipLength | Self::ClipToCut)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_number_stands_at_its_own_place_and_has_its_own_names() {
        for (place, id) in NumberId::ALL.into_iter().enumerate() {
            assert_eq!(id as usize, place, "{}", id.name());
        }
        for names in [NumberId::id, NumberId::name, NumberId::title] {
            let names: BTreeSet<_> = NumberId::ALL.into_iter().map(names).collect();
            assert_eq!(names.len(), NumberId::ALL.len());
        }
    }
}
