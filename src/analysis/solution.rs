//! A unit solved: its pose and every number that follows from it.

use kurbo::Point;

use crate::geometry::{
    Ground, Impossible, Place, Pose, Setting, Stood, Sweep, Terrain, clip_to_cut, lowest_over,
};
use crate::unit::Unit;
use crate::units::{Length, Measure as _, Ratio, Share};

/// What hangs lowest under the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lowest {
    /// The knife itself.
    Knife,
    /// The hardware point at this place of the list.
    Hardware(usize),
}

/// What is left on the ground the unit stands on, after its shape and the rollers' sink.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnGround {
    /// Ground to edge; negative below the ground.
    pub cut: Length,
    /// Ground to the reel's circle; negative when the reel digs in.
    pub reel_clearance: Length,
    /// Ground to the lowest of knife and hardware; negative when it drags.
    pub underside_clearance: Length,
    /// What that belongs to; on shaped ground not always what hangs lowest over the plate.
    pub lowest: Lowest,
    /// The reel's clearance at the worst place: the low end, the worse roller at its lowest.
    pub reel_at_low_end: Length,
    /// The underside's clearance there.
    pub underside_at_low_end: Length,
}

/// What the speeds give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MowingNumbers {
    /// Forward travel between two clips.
    pub clip_length: Length,
    /// Clip length over height of cut; nothing when the edge is not above the plate.
    pub clip_to_cut: Option<Ratio>,
}

/// A unit solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solution {
    /// Where everything stands on the plate.
    pub pose: Pose,
    /// What the reel does below the cut line.
    pub sweep: Sweep,
    /// Sweep over height of cut; nothing when the edge is not above the plate.
    pub sweep_share: Option<Share>,
    /// Plate to the lowest point of the reel's circle: height of cut less sweep.
    pub reel_clearance: Length,
    /// Plate to the lowest point of the knife's underside and its hardware.
    pub underside_clearance: Length,
    /// That lowest point.
    pub lowest_on_plate: Point,
    /// What it belongs to.
    pub lowest: Lowest,
    /// The front bottom of the knife's lip.
    pub lip_bottom_on_plate: Point,
    /// The ground under the rollers.
    pub terrain: Terrain,
    /// What is left on that ground.
    pub on_ground: OnGround,
    /// What the speeds give, when they are known.
    pub mowing: Option<MowingNumbers>,
}

impl Solution {
    /// Solves a unit in one of its settings.
    ///
    /// # Errors
    /// When the geometry cannot exist.
    pub fn of(unit: &Unit, setting: &Setting) -> Result<Self, Impossible> {
        let stood = Stood::of(&unit.profile, setting)?;
        let pose = Pose::from(stood);
        let terrain = Terrain::under(&pose, unit.shape, unit.roller_sink)?;
        let sweep = stood.sweep();
        let height = stood.height_of_cut();
        let corners = setting.underside_on_bar(&unit.profile);
        let plate_from_bar = stood.plate_from_bar();
        let over = |ground: &Ground<f64>| {
            let hardware = unit.hardware.iter().copied().map(Place::from);
            lowest_over(ground, plate_from_bar, corners, hardware)
        };
        let owner = |index: usize| match index.checked_sub(corners.len()) {
            None => Lowest::Knife,
            Some(index) => Lowest::Hardware(index),
        };
        let (lowest, lowest_on_plate, underside_mm) = over(&Ground::level());
        let (lowest_on_ground, _, underside_on_ground_mm) = over(terrain.ground());
        let reel_clearance = terrain.reel_clearance(&pose);
        let underside_clearance = Length::from_mm(underside_on_ground_mm);
        let lowers = unit.wear.lowers();
        Ok(Self {
            pose,
            sweep,
            sweep_share: sweep.share_of(height).map(Share::from_base),
            reel_clearance: height - sweep.below_cut,
            underside_clearance: Length::from_mm(underside_mm),
            lowest_on_plate: lowest_on_plate.into(),
            lowest: owner(lowest),
            lip_bottom_on_plate: (plate_from_bar * corners[0]).into(),
            terrain,
            on_ground: OnGround {
                cut: terrain.clearance(pose.edge_on_plate),
                reel_clearance,
                underside_clearance,
                lowest: owner(lowest_on_ground),
                reel_at_low_end: reel_clearance - lowers,
                underside_at_low_end: underside_clearance - lowers,
            },
            mowing: unit.clip_length().map(|clip_length| MowingNumbers {
                clip_length,
                clip_to_cut: clip_to_cut(clip_length, height).map(Ratio::from_base),
            }),
        })
    }
}
