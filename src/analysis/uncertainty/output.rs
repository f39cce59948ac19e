//! The numbers of a solution that get an uncertainty, by the formulas that give their values.

use kurbo::Point;

use crate::geometry::{
    Ground, GroundShape, Impossible, Number, Place, Profile, Setting, Stood, clip_length,
    clip_to_cut, lowest_over,
};
use crate::unit::{Mowing, Unit, Wear};
use crate::units::Length;

/// A number of a solution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Output {
    /// Behind centre, in millimetres.
    BehindCentre,
    /// Sweep below the cut, in millimetres.
    SweepBelowCut,
    /// Sweep over height of cut, of one.
    SweepShare,
    /// Height of cut, in millimetres.
    HeightOfCut,
    /// Attitude, in degrees.
    Attitude,
    /// Reel diameter, in millimetres.
    ReelDiameter,
    /// Plate to the lowest point of the reel's circle, in millimetres.
    ReelOverPlate,
    /// Plate to the lowest point of the knife's underside and its hardware, in millimetres.
    UndersideOverPlate,
    /// Plate to the front bottom of the lip, in millimetres.
    LipBottom,
    /// Ground to edge, in millimetres.
    CutOnGround,
    /// Ground to the reel's circle, in millimetres.
    ReelOnGround,
    /// Ground to the reel's circle at the low end, the worse roller at its lowest, in millimetres.
    ReelAtLowEnd,
    /// Ground to the lowest of knife and hardware, in millimetres.
    UndersideOnGround,
    /// Ground to the lowest of knife and hardware at the low end, the worse roller at its lowest.
    UndersideAtLowEnd,
    /// Forward travel between two clips, in millimetres.
    ClipLength,
    /// Clip length over height of cut, a plain ratio.
    ClipToCut,
}

/// How many outputs there are.
pub(super) const COUNT: usize = Output::ALL.len();

impl Output {
    /// Every output.
    pub const ALL: [Self; 16] = [
        Self::BehindCentre,
        Self::SweepBelowCut,
        Self::SweepShare,
        Self::HeightOfCut,
        Self::Attitude,
        Self::ReelDiameter,
        Self::ReelOverPlate,
        Self::UndersideOverPlate,
        Self::LipBottom,
        Self::CutOnGround,
        Self::ReelOnGround,
        Self::ReelAtLowEnd,
        Self::UndersideOnGround,
        Self::UndersideAtLowEnd,
        Self::ClipLength,
        Self::ClipToCut,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::BehindCentre => "behind centre",
            Self::SweepBelowCut => "sweep below cut",
            Self::SweepShare => "sweep over height of cut",
            Self::HeightOfCut => "height of cut",
            Self::Attitude => "attitude",
            Self::ReelDiameter => "reel diameter",
            Self::ReelOverPlate => "reel over the plate",
            Self::UndersideOverPlate => "underside over the plate",
            Self::LipBottom => "lip over the plate",
            Self::CutOnGround => "cut on the ground",
            Self::ReelOnGround => "reel over the ground",
            Self::ReelAtLowEnd => "reel over the ground, at the worst place",
            Self::UndersideOnGround => "underside over the ground",
            Self::UndersideAtLowEnd => "underside over the ground, at the worst place",
            Self::ClipLength => "clip length",
            Self::ClipToCut => "clip length over height of cut",
        }
    }

    /// Its place in [`Self::ALL`].
    pub(super) const fn index(self) -> usize {
        self as usize
    }
}

/// Everything the outputs follow from.
#[derive(Clone, Debug)]
pub(super) struct Inputs<'a, N> {
    pub(super) profile: Profile<N>,
    pub(super) setting: Setting<N>,
    pub(super) shape: GroundShape<N>,
    pub(super) roller_sink: Length<N>,
    pub(super) wear: Wear<N>,
    pub(super) hardware: &'a [Point],
    /// Stands in for the hardware point of that number.
    pub(super) stirred_hardware: Option<(usize, Place<N>)>,
    pub(super) mowing: Option<Mowing<N>>,
    pub(super) blades: u32,
}

impl<'a, N: Number> Inputs<'a, N> {
    /// The inputs as they are read, none with a derivative.
    pub(super) fn exact(unit: &'a Unit, setting: &Setting) -> Self {
        Self {
            profile: unit.profile.exact(),
            setting: setting.exact(),
            shape: unit.shape.exact(),
            roller_sink: unit.roller_sink.exact(),
            wear: unit.wear.exact(),
            hardware: &unit.hardware,
            stirred_hardware: None,
            mowing: unit.mowing.map(|mowing| mowing.exact()),
            blades: unit.blades,
        }
    }

    fn hardware_on_bar(&self) -> impl Iterator<Item = Place<N>> {
        let points = self.hardware.iter().enumerate();
        points.map(|(index, point)| match self.stirred_hardware {
            Some((stirred, place)) if stirred == index => place,
            _ => Place::from(*point).exact(),
        })
    }
}

/// Every output, in the order of [`Output::ALL`]; nothing for one that the solution does not have.
pub(super) fn outputs<N: Number>(inputs: &Inputs<N>) -> Result<[N; COUNT], Impossible> {
    let stood = Stood::of(&inputs.profile, &inputs.setting)?;
    let (front, rear) = (stood.front_roller.disc, stood.rear_roller.disc);
    let ground = Ground::under(front, rear, inputs.shape, inputs.roller_sink)?;
    let sweep = stood.sweep();
    let height = stood.height_of_cut();
    let corners = inputs.setting.underside_on_bar(&inputs.profile);
    let plate_from_bar = stood.plate_from_bar();
    let underside_mm = |ground: &Ground<N>| {
        let hardware = inputs.hardware_on_bar();
        let (_, _, clear_mm) = lowest_over(ground, plate_from_bar, corners, hardware);
        clear_mm
    };
    let clip = inputs
        .mowing
        .map(|mowing| clip_length(mowing.ground_speed, mowing.reel_speed, inputs.blades));
    let lowers_mm = inputs.wear.lowers().mm();
    let values = Output::ALL.map(|output| match output {
        Output::BehindCentre => Some(sweep.behind_centre.mm()),
        Output::SweepBelowCut => Some(sweep.below_cut.mm()),
        Output::SweepShare => sweep.share_of(height),
        Output::HeightOfCut => Some(height.mm()),
        Output::Attitude => Some(stood.attitude.deg()),
        Output::ReelDiameter => Some(inputs.setting.reel_diameter.mm()),
        Output::ReelOverPlate => Some((height - sweep.below_cut).mm()),
        Output::UndersideOverPlate => Some(underside_mm(&Ground::level())),
        Output::LipBottom => Some((plate_from_bar * corners[0]).y),
        Output::CutOnGround => Some(ground.clearance_mm(stood.edge_on_plate)),
        Output::ReelOnGround => Some(ground.clearance_of_disc_mm(stood.reel)),
        Output::ReelAtLowEnd => Some(ground.clearance_of_disc_mm(stood.reel) - lowers_mm),
        Output::UndersideOnGround => Some(underside_mm(&ground)),
        Output::UndersideAtLowEnd => Some(underside_mm(&ground) - lowers_mm),
        Output::ClipLength => clip.map(Length::mm),
        Output::ClipToCut => clip.and_then(|clip| clip_to_cut(clip, height)),
    });
    Ok(values.map(|value| value.unwrap_or_else(|| N::exact(0.0))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_output_stands_at_its_own_place() {
        for (place, output) in Output::ALL.into_iter().enumerate() {
            assert_eq!(output.index(), place, "{}", output.name());
        }
    }
}
