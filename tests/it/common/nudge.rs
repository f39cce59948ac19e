//! Readings moved by hand, and the numbers that follow, without any derivative.

use kurbo::Point;
use sweepgauge::analysis::{NumberId, Solution};
use sweepgauge::geometry::{Closing, GroundShape, Hardware, KnifeSection, Stance};
use sweepgauge::unit::{Fitted, KnifePart, Reading, Unit};
use sweepgauge::units::{Angle, Length, Measure};

fn add<M: Measure>(to: &mut M, by: f64) {
    *to = M::from_base(to.base() + by);
}

fn move_hardware(unit: &mut Unit, index: usize, change: impl FnOnce(&mut Point)) {
    let mut points = unit.hardware.points().to_vec();
    change(&mut points[index]);
    unit.hardware = Hardware::new(points);
}

/// Moves a reading by so many base units, and every setting that follows it.
pub fn nudge(unit: &mut Unit, reading: Reading, by: f64) {
    let (bench, setting, follows) = (&mut unit.profile.bench, &mut unit.setting, unit.follows);
    let mut exact = (Angle::ZERO, Length::ZERO);
    let (attitude, height) = match &mut setting.stance {
        Stance::Wanted {
            attitude,
            height_of_cut,
        } => (attitude, height_of_cut),
        Stance::Rollers { .. } => (&mut exact.0, &mut exact.1),
    };
    let if_followed = |is_followed| if is_followed { by } else { 0.0 };
    match reading {
        Reading::ReelDiameter => {
            add(&mut bench.reel_diameter, by);
            add(
                &mut setting.reel_diameter,
                if_followed(follows.reel_diameter),
            );
        }
        Reading::HeightOfCut => {
            add(&mut bench.height_of_cut, by);
            add(height, if_followed(follows.height_of_cut));
        }
        Reading::Attitude => {
            add(&mut bench.attitude, by);
            add(attitude, if_followed(follows.attitude));
        }
        Reading::Gap => {
            add(&mut bench.gap, by);
            add(&mut setting.gap, if_followed(follows.gap));
        }
        Reading::BehindCentre => add(&mut bench.behind_centre, by),
        Reading::FrontDiameter => add(&mut bench.front_roller.diameter, by),
        Reading::FrontAhead => add(&mut bench.front_roller.from_edge, by),
        Reading::RearDiameter => add(&mut bench.rear_roller.diameter, by),
        Reading::RearBehind => add(&mut bench.rear_roller.from_edge, by),
        Reading::Lean | Reading::PivotAhead | Reading::PivotAbove => {
            nudge_closing(&mut unit.profile.closing, reading, by);
        }
        Reading::Knife(which, part) => {
            if which == Fitted::Bench {
                nudge_knife(&mut unit.profile.knife, part, by);
            }
            if which == follows.knife {
                nudge_knife(&mut setting.knife, part, by);
            }
        }
        Reading::HardwareBehind(index) => move_hardware(unit, index, |point| point.x += by),
        Reading::HardwareBelow(index) => move_hardware(unit, index, |point| point.y += by),
        Reading::GroundSpeed => {
            let mowing = unit.mowing.as_mut().unwrap();
            add(&mut mowing.ground_speed, by);
        }
        Reading::ReelSpeed => add(&mut unit.mowing.as_mut().unwrap().reel_speed, by),
        Reading::RollerSink => add(&mut unit.roller_sink, by),
        Reading::GroundRadius => match &mut unit.shape {
            GroundShape::Level => {}
            GroundShape::Crest(radius) | GroundShape::Hollow(radius) => add(radius, by),
        },
        Reading::FrontRunout => add(&mut unit.wear.front_runout, by),
        Reading::RearRunout => add(&mut unit.wear.rear_runout, by),
        Reading::EndDifference => add(&mut unit.wear.end_difference, by),
    }
}

fn nudge_closing(closing: &mut Closing, reading: Reading, by: f64) {
    match closing {
        Closing::ReelSlides { lean } => add(lean.as_mut().unwrap(), by),
        Closing::ReelPivots { pivot_in_frame } | Closing::KnifePivots { pivot_in_frame } => {
            if reading == Reading::PivotAhead {
                pivot_in_frame.x += by;
            } else {
                pivot_in_frame.y += by;
            }
        }
    }
}

fn nudge_knife(knife: &mut KnifeSection, part: KnifePart, by: f64) {
    let measure = match part {
        KnifePart::Reach => &mut knife.reach,
        KnifePart::Width => &mut knife.width,
        KnifePart::LipThickness => &mut knife.lip_thickness,
        KnifePart::LipLength => &mut knife.lip_length,
        KnifePart::BodyThickness => &mut knife.body_thickness,
    };
    add(measure, by);
}

/// A number of a solution, zero for one that it does not have.
pub fn value(unit: &Unit, solution: &Solution, output: NumberId) -> f64 {
    let (pose, mowing) = (&solution.pose, solution.mowing);
    match output {
        NumberId::BehindCentre => solution.sweep.behind_centre.mm(),
        NumberId::SweepBelowCut => solution.sweep.below_cut.mm(),
        NumberId::SweepShare => solution.sweep_share.map_or(0.0, Measure::base),
        NumberId::SweepChord => solution.sweep.chord.mm(),
        NumberId::CentreAboveEdge => solution.sweep.centre_above_edge.mm(),
        NumberId::ClipAngle => solution.sweep.clip_angle.deg(),
        NumberId::Extension => pose.extension.mm(),
        NumberId::Gap => pose.gap.mm(),
        NumberId::FrontRollerMove => pose.front_roller.moved.mm(),
        NumberId::RearRollerMove => pose.rear_roller.moved.mm(),
        NumberId::HeightOfCut => pose.height_of_cut.mm(),
        NumberId::Attitude => pose.attitude.deg(),
        NumberId::ReelDiameter => 2.0 * pose.reel_radius_mm,
        NumberId::ReelOverPlate => solution.reel_clearance.mm(),
        NumberId::UndersideOverPlate => solution.underside_clearance.mm(),
        NumberId::LipBottom => solution.lip_bottom_on_plate.y,
        NumberId::CutOnGround => solution.on_ground.cut.mm(),
        NumberId::ReelOnGround => solution.on_ground.reel_clearance.mm(),
        NumberId::ReelAtLowEnd => solution.on_ground.reel_clearance.mm() - lower_mm(unit),
        NumberId::UndersideAtLowEnd => solution.on_ground.underside_clearance.mm() - lower_mm(unit),
        NumberId::UndersideOnGround => solution.on_ground.underside_clearance.mm(),
        NumberId::ClipLength => mowing.map_or(0.0, |mowing| mowing.clip_length.mm()),
        NumberId::ClipToCut => mowing
            .and_then(|mowing| mowing.clip_to_cut)
            .map_or(0.0, Measure::base),
    }
}

/// Written anew: half of the worse runout and half of the ends' difference.
fn lower_mm(unit: &Unit) -> f64 {
    let wear = &unit.wear;
    let worse_mm = wear.front_runout.mm().max(wear.rear_runout.mm());
    0.5 * worse_mm + 0.5 * wear.end_difference.mm()
}

/// Every number of the unit in its setting.
pub fn values(unit: &Unit) -> Option<[f64; NumberId::ALL.len()]> {
    let solution = Solution::of(unit, &unit.setting).ok()?;
    Some(NumberId::ALL.map(|output| value(unit, &solution, output)))
}
