//! A unit solved: its pose and every number that follows from it.

use kurbo::Point;

use crate::geometry::{
    Impossible, Pose, Setting, Sweep, Terrain, lip_bottom_on_plate, on_level, underside_on_bar,
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
        let pose = Pose::solve(&unit.profile, setting)?;
        let terrain = Terrain::under(&pose, unit.shape, unit.roller_sink)?;
        let sweep = pose.sweep();
        let height = pose.height_of_cut;
        let is_above = height.mm() > 0.0;
        let (lowest, lowest_on_plate, underside_clearance) =
            lowest_underside(unit, setting, &pose, &on_level());
        let (lowest_on_ground, _, underside_on_ground) =
            lowest_underside(unit, setting, &pose, &terrain);
        Ok(Self {
            pose,
            sweep,
            sweep_share: is_above.then(|| Share::from_base(sweep.below_cut.mm() / height.mm())),
            reel_clearance: height - sweep.below_cut,
            underside_clearance,
            lowest_on_plate,
            lowest,
            lip_bottom_on_plate: lip_bottom_on_plate(&pose, &unit.profile, setting),
            terrain,
            on_ground: OnGround {
                cut: terrain.clearance(pose.edge_on_plate),
                reel_clearance: terrain.reel_clearance(&pose),
                underside_clearance: underside_on_ground,
                lowest: lowest_on_ground,
            },
            mowing: unit.clip_length().map(|clip_length| MowingNumbers {
                clip_length,
                clip_to_cut: is_above.then(|| Ratio::from_base(clip_length.mm() / height.mm())),
            }),
        })
    }
}

fn lowest_underside(
    unit: &Unit,
    setting: &Setting,
    pose: &Pose,
    terrain: &Terrain,
) -> (Lowest, Point, Length) {
    let plate_from_bar = pose.plate_from_bar();
    let corners = underside_on_bar(&unit.profile, setting);
    let knife = corners.into_iter().map(|corner| (Lowest::Knife, corner));
    let hardware = unit
        .hardware
        .iter()
        .enumerate()
        .map(|(i, point)| (Lowest::Hardware(i), *point));
    knife
        .chain(hardware)
        .map(|(owner, on_bar)| {
            let on_plate = plate_from_bar * on_bar;
            (owner, on_plate, terrain.clearance(on_plate))
        })
        .reduce(|lowest, next| if next.2 < lowest.2 { next } else { lowest })
        // The knife's four corners are always there.
        .unwrap_or((
            Lowest::Knife,
            pose.edge_on_plate,
            terrain.clearance(pose.edge_on_plate),
        ))
}
