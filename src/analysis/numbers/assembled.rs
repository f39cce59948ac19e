//! A unit's numbers assembled once, by formulas that give values as well as sensitivities.

use crate::geometry::{
    Ground, GroundShape, Impossible, Number, Place, Profile, Setting, Stood, Sweep, clip_length,
    clip_to_cut, lowest_over,
};
use crate::unit::{Mowing, Wear};
use crate::units::{Angle, Length, Ratio, Share};

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
pub struct OnGround<N = f64> {
    /// Ground to edge; negative below the ground.
    pub cut: Length<N>,
    /// Ground to the reel's circle; negative when the reel digs in.
    pub reel_clearance: Length<N>,
    /// Ground to the lowest of knife and hardware; negative when it drags.
    pub underside_clearance: Length<N>,
    /// What that belongs to; on shaped ground not always what hangs lowest over the plate.
    pub lowest: Lowest,
    /// The reel's clearance at the worst place: the low end, the worse roller at its lowest.
    pub reel_at_low_end: Length<N>,
    /// The underside's clearance there.
    pub underside_at_low_end: Length<N>,
}

/// What the speeds give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MowingNumbers<N = f64> {
    /// Forward travel between two clips.
    pub clip_length: Length<N>,
    /// Clip length over height of cut; none when the edge is not above the plate.
    pub clip_to_cut: Option<Ratio<N>>,
}

/// Every number of a solution.
#[derive(Clone, Copy, Debug)]
pub struct Numbers<N = f64> {
    pub(in crate::analysis) reel_diameter: Length<N>,
    pub(in crate::analysis) height_of_cut: Length<N>,
    pub(in crate::analysis) attitude: Angle<N>,
    pub(in crate::analysis) extension: Length<N>,
    pub(in crate::analysis) gap: Length<N>,
    pub(in crate::analysis) front_roller_move: Length<N>,
    pub(in crate::analysis) rear_roller_move: Length<N>,
    pub(in crate::analysis) sweep: Sweep<N>,
    pub(in crate::analysis) sweep_share: Option<Share<N>>,
    pub(in crate::analysis) reel_clearance: Length<N>,
    pub(in crate::analysis) underside_clearance: Length<N>,
    pub(in crate::analysis) lip_clearance: Length<N>,
    pub(in crate::analysis) on_ground: OnGround<N>,
    pub(in crate::analysis) mowing: Option<MowingNumbers<N>>,
}

/// Everything that the numbers follow from, but the hardware.
#[derive(Clone, Copy, Debug)]
pub(in crate::analysis) struct Given<'a, N> {
    pub(in crate::analysis) profile: &'a Profile<N>,
    pub(in crate::analysis) setting: &'a Setting<N>,
    pub(in crate::analysis) shape: GroundShape<N>,
    pub(in crate::analysis) roller_sink: Length<N>,
    pub(in crate::analysis) wear: &'a Wear<N>,
    pub(in crate::analysis) mowing: Option<Mowing<N>>,
    pub(in crate::analysis) blades: u32,
}

/// A unit standing, and its numbers.
#[derive(Clone, Copy, Debug)]
pub(in crate::analysis) struct Assembled<N> {
    pub(in crate::analysis) stood: Stood<N>,
    pub(in crate::analysis) ground: Ground<N>,
    pub(in crate::analysis) lowest: Lowest,
    pub(in crate::analysis) lowest_on_plate: Place<N>,
    pub(in crate::analysis) lip_bottom_on_plate: Place<N>,
    pub(in crate::analysis) numbers: Numbers<N>,
}

impl<N: Number> Assembled<N> {
    #[inline]
    pub(in crate::analysis) fn of(
        given: &Given<N>,
        hardware_on_bar: &(impl Iterator<Item = (usize, Place<N>)> + Clone),
    ) -> Result<Self, Impossible> {
        let setting = given.setting;
        let stood = Stood::of(given.profile, setting)?;
        let (front, rear) = (stood.front_roller.disc, stood.rear_roller.disc);
        let ground = Ground::under(front, rear, given.shape, given.roller_sink)?;
        let sweep = stood.sweep();
        let height_of_cut = stood.height_of_cut();
        let corners = setting.underside_on_bar(given.profile);
        let plate_from_bar = stood.plate_from_bar();
        let over = |ground: &Ground<N>| {
            let hardware = hardware_on_bar.clone();
            lowest_over(ground, plate_from_bar, corners, hardware)
        };
        let owner = |place: Option<usize>| place.map_or(Lowest::Knife, Lowest::Hardware);
        let (lowest, lowest_on_plate, underside_mm) = over(&Ground::level());
        let (lowest_on_ground, _, underside_on_ground_mm) = over(&ground);
        let lip_bottom_on_plate = plate_from_bar * corners[0];
        let reel_on_ground = Length::from_mm(ground.clearance_of_disc_mm(stood.reel));
        let underside_on_ground = Length::from_mm(underside_on_ground_mm);
        let lowers = given.wear.lowers();
        let clips = given.mowing.map(|mowing| {
            let clip_length = clip_length(mowing.ground_speed, mowing.reel_speed, given.blades);
            MowingNumbers {
                clip_length,
                clip_to_cut: clip_to_cut(clip_length, height_of_cut).map(Ratio::from_number),
            }
        });
        Ok(Self {
            stood,
            ground,
            lowest: owner(lowest),
            lowest_on_plate,
            lip_bottom_on_plate,
            numbers: Numbers {
                reel_diameter: setting.reel_diameter,
                height_of_cut,
                attitude: stood.attitude,
                extension: stood.extension,
                gap: stood.gap,
                front_roller_move: stood.front_roller.moved,
                rear_roller_move: stood.rear_roller.moved,
                sweep,
                sweep_share: sweep.share_of(height_of_cut).map(Share::from_one),
                reel_clearance: height_of_cut - sweep.below_cut,
                underside_clearance: Length::from_mm(underside_mm),
                lip_clearance: Length::from_mm(lip_bottom_on_plate.y),
                on_ground: OnGround {
                    cut: Length::from_mm(ground.clearance_mm(stood.edge_on_plate)),
                    reel_clearance: reel_on_ground,
                    underside_clearance: underside_on_ground,
                    lowest: owner(lowest_on_ground),
                    reel_at_low_end: reel_on_ground - lowers,
                    underside_at_low_end: underside_on_ground - lowers,
                },
                mowing: clips,
            },
        })
    }
}
