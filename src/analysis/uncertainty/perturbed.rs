//! A unit's readings as inputs that can be moved: which inputs each reading is, one for one.

use num_dual::Dual64;

use crate::analysis::numbers::{Assembled, Given, Numbers};
use crate::geometry::{
    Closing, GroundShape, Hardware, HardwarePoint, Impossible, Number, Profile, Setting, Sink,
    Stance,
};
use crate::unit::{Fitted, Follows, KnifePart, Mowing, Reading, Unit, Wear};
use crate::units::{Angle, Length};

/// Everything the numbers follow from.
#[derive(Clone, Debug)]
pub(super) struct Inputs<'a, N> {
    profile: Profile<N>,
    setting: Setting<N>,
    shape: GroundShape<N>,
    sink: Sink<N>,
    wear: Wear<N>,
    hardware: &'a Hardware,
    /// Stands in for the hardware point of that number.
    moved_hardware: Option<(usize, HardwarePoint<N>)>,
    mowing: Option<Mowing<N>>,
    blades: u32,
}

impl<'a, N: Number> Inputs<'a, N> {
    /// The inputs as they are read, none with a derivative.
    pub(super) fn exact(unit: &'a Unit, setting: &Setting) -> Self {
        Self {
            profile: unit.profile.exact(),
            setting: setting.exact(),
            shape: unit.shape.exact(),
            sink: unit.sink.exact(),
            wear: unit.wear.exact(),
            hardware: &unit.hardware,
            moved_hardware: None,
            mowing: unit.mowing.map(|mowing| mowing.exact()),
            blades: unit.blades,
        }
    }

    /// The numbers that follow.
    pub(super) fn numbers(&self) -> Result<Numbers<N>, Impossible> {
        let given = Given {
            profile: &self.profile,
            setting: &self.setting,
            shape: self.shape,
            sink: self.sink,
            wear: &self.wear,
            mowing: self.mowing,
            blades: self.blades,
        };
        let is_tipped = self.wear.has_runout();
        let points = self.hardware.that_can_be_lowest(&self.shape, is_tipped);
        let exact = points.map(|(place, point)| (place, point.exact()));
        // The one moved stands at its turn in the list, whether or not it can be lowest.
        let moved = self.moved_hardware;
        let turn = moved.map_or(0, |(moved, _)| moved);
        let before = exact.clone().take_while(move |(place, _)| *place < turn);
        let after = exact.skip_while(move |(place, _)| *place < turn);
        let after = after.filter(move |(place, _)| moved.is_none() || *place != turn);
        let hardware = before.chain(moved).chain(after);
        Assembled::of(&given, &hardware).map(|assembled| assembled.numbers)
    }
}

impl Inputs<'_, Dual64> {
    /// Makes the derivatives those by one reading. Whether any number can depend on it.
    pub(super) fn derive_by(&mut self, reading: Reading, follows: Follows) -> bool {
        self.touch(reading, follows, &|input| input.eps = 1.0)
    }
}

impl Inputs<'_, f64> {
    /// Moves one reading. Whether any number can depend on it.
    pub(super) fn shift(&mut self, reading: Reading, follows: Follows, by: f64) -> bool {
        self.touch(reading, follows, &|input| *input += by)
    }
}

impl<N: Number> Inputs<'_, N> {
    /// Does something to every input that one reading is. Whether any number can depend on it.
    ///
    /// A setting that follows the bench is the same variable as its reading; so is the reach of
    /// the knife fitted and that of the bench knife when they are one, and it cancels in the
    /// extension.
    fn touch(&mut self, reading: Reading, follows: Follows, change: &dyn Fn(&mut N)) -> bool {
        let bench = &mut self.profile.bench;
        let setting = &mut self.setting;
        match reading {
            Reading::ReelDiameter => change_both(
                bench.reel_diameter.base_mut(),
                setting.reel_diameter.base_mut(),
                follows.reel_diameter,
                change,
            ),
            Reading::Gap => change_both(
                bench.gap.base_mut(),
                setting.gap.base_mut(),
                follows.gap,
                change,
            ),
            Reading::HeightOfCut => {
                change(bench.height_of_cut.base_mut());
                if let Some(height_of_cut) = setting.stance.height_wanted_mut()
                    && follows.height_of_cut
                {
                    change(height_of_cut.base_mut());
                }
            }
            Reading::Attitude => {
                change(bench.attitude.base_mut());
                if let Stance::Wanted { attitude, .. } = &mut setting.stance
                    && follows.attitude
                {
                    change(attitude.base_mut());
                }
            }
            Reading::BehindCentre => change(bench.behind_centre.base_mut()),
            Reading::FrontDiameter => change(bench.front_roller.diameter.base_mut()),
            Reading::FrontAhead => change(bench.front_roller.from_edge.base_mut()),
            Reading::RearDiameter => change(bench.rear_roller.diameter.base_mut()),
            Reading::RearBehind => change(bench.rear_roller.from_edge.base_mut()),
            Reading::Lean | Reading::PivotAhead | Reading::PivotAbove => {
                return self.touch_closing(reading, change);
            }
            Reading::Knife(which, part) => {
                return self.touch_knife(which, part, follows, change);
            }
            Reading::HardwareBehind(index) => {
                return self.touch_hardware(index, &|point| {
                    change(point.behind.base_mut());
                });
            }
            Reading::HardwareBelow(index) => {
                return self.touch_hardware(index, &|point| {
                    change(point.below.base_mut());
                });
            }
            Reading::GroundSpeed | Reading::ReelSpeed => {
                let Some(mowing) = &mut self.mowing else {
                    return false;
                };
                change(if reading == Reading::GroundSpeed {
                    mowing.ground_speed.base_mut()
                } else {
                    mowing.reel_speed.base_mut()
                });
            }
            Reading::RollerSink => {
                change(self.sink.rollers.base_mut());
                return self.sink.front.is_none() || self.sink.rear.is_none();
            }
            Reading::FrontSink => {
                return touch_own(self.sink.front.as_mut().map(Length::base_mut), change);
            }
            Reading::RearSink => {
                return touch_own(self.sink.rear.as_mut().map(Length::base_mut), change);
            }
            Reading::GroundRadius => match &mut self.shape {
                GroundShape::Level => return false,
                GroundShape::Crest(radius) | GroundShape::Hollow(radius) => {
                    change(radius.base_mut());
                }
            },
            Reading::FrontRunout => change(self.wear.front_runout.base_mut()),
            Reading::RearRunout => change(self.wear.rear_runout.base_mut()),
            Reading::EndDifference => change(self.wear.end_difference.base_mut()),
        }
        true
    }

    fn touch_closing(&mut self, reading: Reading, change: &dyn Fn(&mut N)) -> bool {
        let bench_line = self.profile.bench.lean_of_bench_line();
        let input = match &mut self.profile.closing {
            Closing::ReelSlides { lean } | Closing::KnifeSlides { lean } => {
                if reading != Reading::Lean {
                    return false;
                }
                // One that is not given is the bench line's, and can be off as any other.
                lean.get_or_insert(bench_line).base_mut()
            }
            Closing::ReelPivots { pivot_in_frame } | Closing::KnifePivots { pivot_in_frame } => {
                if reading == Reading::PivotAhead {
                    &mut pivot_in_frame.x
                } else if reading == Reading::PivotAbove {
                    &mut pivot_in_frame.y
                } else {
                    return false;
                }
            }
        };
        change(input);
        true
    }

    fn touch_knife(
        &mut self,
        which: Fitted,
        part: KnifePart,
        follows: Follows,
        change: &dyn Fn(&mut N),
    ) -> bool {
        let is_bench_reach = which == Fitted::Bench && part == KnifePart::Reach;
        if is_bench_reach {
            change(self.profile.knife.reach.base_mut());
        }
        let follows_it = match part {
            KnifePart::TopGround => follows.top_ground,
            KnifePart::FaceGround => follows.face_ground,
            _ => true,
        };
        let is_fitted = which == follows.knife && follows_it;
        if is_fitted {
            let knife = &mut self.setting.knife;
            change(match part {
                KnifePart::TopAngle => {
                    return touch_own(knife.top_angle.as_mut().map(Angle::base_mut), change);
                }
                KnifePart::FrontAngle => {
                    return touch_own(knife.front_angle.as_mut().map(Angle::base_mut), change);
                }
                KnifePart::TopGround => knife.top_ground.base_mut(),
                KnifePart::FaceGround => knife.face_ground.base_mut(),
                KnifePart::Reach => knife.reach.base_mut(),
                KnifePart::Width => knife.width.base_mut(),
                KnifePart::LipThickness => knife.lip_thickness.base_mut(),
                KnifePart::LipLength => knife.lip_length.base_mut(),
                KnifePart::BodyThickness => knife.body_thickness.base_mut(),
            });
        }
        is_bench_reach || is_fitted
    }

    fn touch_hardware(&mut self, index: usize, change: &dyn Fn(&mut HardwarePoint<N>)) -> bool {
        let Some(point) = self.hardware.points().get(index) else {
            return false;
        };
        let mut point = point.exact();
        change(&mut point);
        self.moved_hardware = Some((index, point));
        true
    }
}

/// Something of its own that may not be there. Whether it is.
fn touch_own<N>(own: Option<&mut N>, change: &dyn Fn(&mut N)) -> bool {
    own.map(change).is_some()
}

fn change_both<N>(reading: &mut N, setting: &mut N, is_followed: bool, change: &dyn Fn(&mut N)) {
    change(reading);
    if is_followed {
        change(setting);
    }
}
