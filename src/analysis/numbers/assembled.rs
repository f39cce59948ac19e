//! A unit's numbers assembled once, by formulas that give values as well as sensitivities.

use crate::geometry::{
    Ground, GroundShape, HardwarePoint, Impossible, LowSide, Number, Place, Profile, Setting, Sink,
    Stood, Sweep, clear_of_outline_mm, clip_length, clip_to_cut, lowest_by, top_angle_needed,
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
    /// How far the reel sweeps below the edge, square to the ground: the cut less the reel's
    /// clearance.
    pub sweep: Length<N>,
    /// Knife datum against the ground under the edge.
    pub attitude: Angle<N>,
    /// Ground to the lowest of knife and hardware; negative when it drags.
    pub underside_clearance: Length<N>,
    /// What that belongs to; on shaped ground not always what hangs lowest over the plate.
    pub lowest: Lowest,
    /// The reel's clearance at the worst place: the low end, both rollers at their lowest, each by its
    /// lever.
    pub reel_at_low_end: Length<N>,
    /// The underside's clearance there.
    pub underside_at_low_end: Length<N>,
    /// How far runout swings the edge over a turn at worst, by its lever between the rollers: lowered
    /// by half of it, lifted by the other half.
    pub edge_swing: Length<N>,
    /// How far runout lowers the lowest point of the reel at worst.
    pub reel_lowered: Length<N>,
    /// How far runout lowers that point of the underside which then comes lowest.
    pub underside_lowered: Length<N>,
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
    /// How clear the front roller and the rear one stand of the knife; negative in one place with it.
    pub(in crate::analysis) rollers_to_knife: [Length<N>; 2],
    pub(in crate::analysis) top_angle_needed: Angle<N>,
    pub(in crate::analysis) top_face_clearance: Option<Angle<N>>,
    pub(in crate::analysis) on_ground: OnGround<N>,
    pub(in crate::analysis) mowing: Option<MowingNumbers<N>>,
}

/// Everything that the numbers follow from, but the hardware.
#[derive(Clone, Copy, Debug)]
pub(in crate::analysis) struct Given<'a, N> {
    pub(in crate::analysis) profile: &'a Profile<N>,
    pub(in crate::analysis) setting: &'a Setting<N>,
    pub(in crate::analysis) shape: GroundShape<N>,
    pub(in crate::analysis) sink: Sink<N>,
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
    pub(in crate::analysis) nearest_ground: Place<N>,
    pub(in crate::analysis) nearest_ground_at_low_end: Place<N>,
    pub(in crate::analysis) lip_bottom_on_plate: Place<N>,
    pub(in crate::analysis) numbers: Numbers<N>,
}

impl<N: Number> Assembled<N> {
    #[inline]
    pub(in crate::analysis) fn of(
        given: &Given<N>,
        hardware: &(impl Iterator<Item = (usize, HardwarePoint<N>)> + Clone),
    ) -> Result<Self, Impossible> {
        let setting = given.setting;
        let stood = Stood::of(given.profile, setting)?;
        let (front, rear) = (stood.front_roller.disc, stood.rear_roller.disc);
        let ground = Ground::under(front, rear, given.shape, given.sink)?;
        let sweep = stood.sweep();
        let height_of_cut = stood.height_of_cut();
        let corners = setting.underside_on_bar(given.profile);
        let plate_from_bar = stood.plate_from_bar();
        let hardware = hardware
            .clone()
            .map(|(place, point)| (place, point.on_bar(&setting.knife)));
        let lowest_of = |clear_mm: &dyn Fn(Place<N>) -> N| {
            lowest_by(clear_mm, plate_from_bar, corners, hardware.clone())
        };
        let owner = |place: Option<usize>| place.map_or(Lowest::Knife, Lowest::Hardware);
        let (lowest, lowest_on_plate, underside_mm) = lowest_of(&|place| place.y);
        let (lowest_on_ground, nearest, underside_on_ground_mm) =
            lowest_of(&|place| ground.clearance_mm(place));
        let wear = given.wear;
        let contacts = [front, rear].map(|roller| ground.foot_of(roller.centre));
        let low_side = LowSide::of(
            contacts[0],
            contacts[1],
            wear.front_runout,
            wear.rear_runout,
        );
        let (nearest_at_low_end, underside_lowest_mm) = if wear.has_runout() {
            let (_, place, clear_mm) =
                lowest_of(&|place| ground.clearance_mm(place) - low_side.drop_mm(place.x));
            (place, clear_mm)
        } else {
            let drop_mm = low_side.drop_mm(nearest.x);
            (nearest, underside_on_ground_mm - drop_mm)
        };
        let lip_bottom_on_plate = plate_from_bar * corners[0];
        let outline = setting
            .outline_on_bar(given.profile)
            .map(|on_bar| plate_from_bar * on_bar);
        let to_knife = |roller| Length::from_mm(clear_of_outline_mm(roller, &outline));
        let reel_on_ground = Length::from_mm(ground.clearance_of_disc_mm(stood.reel));
        let underside_on_ground = Length::from_mm(underside_on_ground_mm);
        let reel_lowered = Length::from_mm(low_side.drop_mm(stood.reel.centre.x));
        let at_low_end = wear.at_low_end();
        let cut = Length::from_mm(ground.clearance_mm(stood.edge_on_plate));
        let slope = Angle::from_rad(ground.slope_under_rad(stood.edge_on_plate));
        let top_angle_needed = top_angle_needed(stood.attitude, sweep.clip_angle);
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
            nearest_ground: nearest,
            nearest_ground_at_low_end: nearest_at_low_end,
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
                rollers_to_knife: [front, rear].map(to_knife),
                top_angle_needed,
                top_face_clearance: setting.knife.top_angle.map(|top| top - top_angle_needed),
                on_ground: OnGround {
                    cut,
                    reel_clearance: reel_on_ground,
                    sweep: cut - reel_on_ground,
                    attitude: stood.attitude + slope,
                    underside_clearance: underside_on_ground,
                    lowest: owner(lowest_on_ground),
                    reel_at_low_end: reel_on_ground - reel_lowered - at_low_end,
                    underside_at_low_end: Length::from_mm(underside_lowest_mm) - at_low_end,
                    edge_swing: Length::from_mm(low_side.drop_mm(stood.edge_on_plate.x) * 2.0),
                    reel_lowered,
                    underside_lowered: Length::from_mm(low_side.drop_mm(nearest_at_low_end.x)),
                },
                mowing: clips,
            },
        })
    }
}
