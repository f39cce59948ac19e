//! Readings moved by hand, and the numbers that follow, without any derivative.

use kurbo::{Line, ParamCurveNearest as _, Point};
use sweepgauge::analysis::{NumberId, Solution};
use sweepgauge::geometry::{
    Closing, GroundShape, Hardware, HardwarePoint, KnifeSection, RollerOnPlate, Stance,
    underside_on_bar,
};
use sweepgauge::unit::{Fitted, KnifePart, Reading, Unit};
use sweepgauge::units::{Angle, Length, Measure};

fn add<M: Measure>(to: &mut M, by: f64) {
    *to = M::from_base(to.base() + by);
}

fn move_hardware(unit: &mut Unit, index: usize, change: impl FnOnce(&mut HardwarePoint)) {
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
        Stance::FrontRoller { height_of_cut, .. } | Stance::RearRoller { height_of_cut, .. } => {
            (&mut exact.0, height_of_cut)
        }
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
            let follows_it = match part {
                KnifePart::TopGround => follows.top_ground,
                KnifePart::FaceGround => follows.face_ground,
                _ => true,
            };
            if which == follows.knife && follows_it {
                nudge_knife(&mut setting.knife, part, by);
            }
        }
        Reading::HardwareBehind(index) => {
            move_hardware(unit, index, |point| add(&mut point.behind, by));
        }
        Reading::HardwareBelow(index) => {
            move_hardware(unit, index, |point| add(&mut point.below, by));
        }
        Reading::GroundSpeed => {
            let mowing = unit.mowing.as_mut().unwrap();
            add(&mut mowing.ground_speed, by);
        }
        Reading::ReelSpeed => add(&mut unit.mowing.as_mut().unwrap().reel_speed, by),
        Reading::RollerSink => add(&mut unit.sink.rollers, by),
        Reading::FrontSink => add(unit.sink.front.as_mut().unwrap(), by),
        Reading::RearSink => add(unit.sink.rear.as_mut().unwrap(), by),
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
        Closing::ReelSlides { lean } | Closing::KnifeSlides { lean } => {
            add(lean.as_mut().unwrap(), by);
        }
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
        KnifePart::TopGround => &mut knife.top_ground,
        KnifePart::FaceGround => &mut knife.face_ground,
        KnifePart::TopAngle => return add(knife.top_angle.as_mut().unwrap(), by),
        KnifePart::FrontAngle => return add(knife.front_angle.as_mut().unwrap(), by),
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
        NumberId::RollerToKnife => {
            let [lip_front, lip_back, body_front, body_back] =
                underside_on_bar(&unit.profile, &unit.setting);
            let edge = Point::from(unit.setting.edge_on_bar(&unit.profile));
            let top_back = Point::new(body_back.x, 0.0);
            let outline = [edge, lip_front, lip_back, body_front, body_back, top_back];
            let outline = outline.map(|on_bar| pose.plate_from_bar() * on_bar);
            let rollers = [&pose.front_roller, &pose.rear_roller].into_iter();
            let sides = rollers.flat_map(|roller| {
                let sides = outline.windows(2);
                sides.map(|side| {
                    let nearest = Line::new(side[0], side[1]).nearest(roller.centre, 1e-9);
                    nearest.distance_sq.sqrt() - roller.radius_mm
                })
            });
            sides.fold(f64::INFINITY, f64::min)
        }
        NumberId::CutOnGround => solution.on_ground.cut.mm(),
        NumberId::ReelOnGround => solution.on_ground.reel_clearance.mm(),
        NumberId::ReelAtLowEnd => {
            let lower_mm = lower_mm(unit, solution, pose.centre_on_plate.x);
            solution.on_ground.reel_clearance.mm() - lower_mm
        }
        NumberId::UndersideAtLowEnd => {
            let corners = underside_on_bar(&unit.profile, &unit.setting);
            let points = corners
                .into_iter()
                .chain(unit.hardware_on_bar(&unit.setting));
            let left_mm = points.map(|on_bar| {
                let place = pose.plate_from_bar() * on_bar;
                solution.terrain.clearance(place).mm() - lower_mm(unit, solution, place.x)
            });
            left_mm.fold(f64::INFINITY, f64::min)
        }
        NumberId::UndersideOnGround => solution.on_ground.underside_clearance.mm(),
        NumberId::ClipLength => mowing.map_or(0.0, |mowing| mowing.clip_length.mm()),
        NumberId::ClipToCut => mowing
            .and_then(|mowing| mowing.clip_to_cut)
            .map_or(0.0, Measure::base),
        NumberId::TopAngleNeeded => pose.attitude.deg() - solution.sweep.clip_angle.deg(),
        NumberId::TopFaceClearance => unit.setting.knife.top_angle.map_or(0.0, |top| {
            top.deg() + solution.sweep.clip_angle.deg() - pose.attitude.deg()
        }),
        NumberId::SweepOnGround => {
            (solution.on_ground.cut - solution.on_ground.reel_clearance).mm()
        }
        NumberId::RunoutSwing => {
            // Without the ends' difference, down and up.
            let ends_mm = 0.5 * unit.wear.end_difference.mm();
            2.0 * (lower_mm(unit, solution, pose.edge_on_plate.x) - ends_mm)
        }
        NumberId::AttitudeOnGround => {
            // The datum against the ground, by two points of its surface about the edge's foot.
            let ground = &solution.terrain;
            let foot = pose.edge_on_plate
                + ground.down_at(pose.edge_on_plate) * ground.clearance(pose.edge_on_plate).mm();
            let height_mm = |x_mm: f64| ground.surface_mm(foot.x + x_mm).unwrap();
            let rise = (height_mm(0.5) - height_mm(-0.5)).atan();
            pose.attitude.deg() + rise.to_degrees()
        }
    }
}

/// Written anew: half of the ends' difference, and half of each runout shared out as a beam's load is
/// between its two supports, where the rollers touch the ground; past a support a beam would lift, which at worst it does not.
fn lower_mm(unit: &Unit, solution: &Solution, x_mm: f64) -> f64 {
    let ground = &solution.terrain;
    let contact_mm = |roller: &RollerOnPlate| {
        let clear_mm = ground.clearance(roller.centre).mm();
        (roller.centre + ground.down_at(roller.centre) * clear_mm).x
    };
    let front_mm = contact_mm(&solution.pose.front_roller);
    let rear_mm = contact_mm(&solution.pose.rear_roller);
    let part = (x_mm - rear_mm) / (front_mm - rear_mm);
    let wear = &unit.wear;
    let of_front = 0.5 * wear.front_runout.mm() * part.max(0.0);
    let of_rear = 0.5 * wear.rear_runout.mm() * (1.0 - part).max(0.0);
    of_front + of_rear + 0.5 * wear.end_difference.mm()
}

/// Every number of the unit in its setting.
pub fn values(unit: &Unit) -> Option<[f64; NumberId::ALL.len()]> {
    let solution = Solution::of(unit, &unit.setting).ok()?;
    Some(NumberId::ALL.map(|output| value(unit, &solution, output)))
}
