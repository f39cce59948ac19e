//! Which inputs a reading is: they change with it, one for one.

use num_dual::Dual64;

use super::output::Inputs;
use crate::geometry::{Closing, GroundShape, Number, Place, Stance};
use crate::unit::{Fitted, Follows, KnifePart, Reading};

impl Inputs<'_, Dual64> {
    /// Makes the derivatives those by one reading. Whether any output can depend on it.
    pub(super) fn stir(&mut self, reading: Reading, follows: Follows) -> bool {
        self.touch(reading, follows, &|input| input.eps = 1.0)
    }
}

impl Inputs<'_, f64> {
    /// Moves one reading. Whether any output can depend on it.
    pub(super) fn shift(&mut self, reading: Reading, follows: Follows, by: f64) -> bool {
        self.touch(reading, follows, &|input| *input += by)
    }
}

impl<N: Number> Inputs<'_, N> {
    /// Does something to every input that one reading is. Whether any output can depend on it.
    ///
    /// A setting that follows the bench is the same variable as its reading; so is the reach of
    /// the knife fitted and that of the bench knife when they are one, and it cancels in the
    /// extension.
    fn touch(&mut self, reading: Reading, follows: Follows, stir: &dyn Fn(&mut N)) -> bool {
        let bench = &mut self.profile.bench;
        let setting = &mut self.setting;
        match reading {
            Reading::ReelDiameter => stir_both(
                bench.reel_diameter.base_mut(),
                setting.reel_diameter.base_mut(),
                follows.reel_diameter,
                stir,
            ),
            Reading::Gap => stir_both(
                bench.gap.base_mut(),
                setting.gap.base_mut(),
                follows.gap,
                stir,
            ),
            Reading::HeightOfCut => {
                stir(bench.height_of_cut.base_mut());
                if let Stance::Wanted { height_of_cut, .. } = &mut setting.stance
                    && follows.height_of_cut
                {
                    stir(height_of_cut.base_mut());
                }
            }
            Reading::Attitude => {
                stir(bench.attitude.base_mut());
                if let Stance::Wanted { attitude, .. } = &mut setting.stance
                    && follows.attitude
                {
                    stir(attitude.base_mut());
                }
            }
            Reading::BehindCentre => stir(bench.behind_centre.base_mut()),
            Reading::FrontDiameter => stir(bench.front_roller.diameter.base_mut()),
            Reading::FrontAhead => stir(bench.front_roller.from_edge.base_mut()),
            Reading::RearDiameter => stir(bench.rear_roller.diameter.base_mut()),
            Reading::RearBehind => stir(bench.rear_roller.from_edge.base_mut()),
            Reading::Lean | Reading::PivotAhead | Reading::PivotAbove => {
                return self.touch_closing(reading, stir);
            }
            Reading::Knife(which, part) => {
                return self.touch_knife(which, part, follows.knife, stir);
            }
            Reading::HardwareBehind(index) => {
                return self.touch_hardware(index, &|place| stir(&mut place.x));
            }
            Reading::HardwareBelow(index) => {
                return self.touch_hardware(index, &|place| stir(&mut place.y));
            }
            Reading::GroundSpeed | Reading::ReelSpeed => {
                let Some(mowing) = &mut self.mowing else {
                    return false;
                };
                stir(if reading == Reading::GroundSpeed {
                    mowing.ground_speed.base_mut()
                } else {
                    mowing.reel_speed.base_mut()
                });
            }
            Reading::RollerSink => stir(self.roller_sink.base_mut()),
            Reading::GroundRadius => match &mut self.shape {
                GroundShape::Level => return false,
                GroundShape::Crest(radius) | GroundShape::Hollow(radius) => {
                    stir(radius.base_mut());
                }
            },
            Reading::FrontRunout => stir(self.wear.front_runout.base_mut()),
            Reading::RearRunout => stir(self.wear.rear_runout.base_mut()),
            Reading::EndDifference => stir(self.wear.end_difference.base_mut()),
        }
        true
    }

    fn touch_closing(&mut self, reading: Reading, stir: &dyn Fn(&mut N)) -> bool {
        match (&mut self.profile.closing, reading) {
            (Closing::ReelSlides { lean }, Reading::Lean) => {
                let Some(lean) = lean else {
                    return false;
                };
                stir(lean.base_mut());
            }
            (
                Closing::ReelPivots { pivot_in_frame } | Closing::KnifePivots { pivot_in_frame },
                Reading::PivotAhead,
            ) => stir(&mut pivot_in_frame.x),
            (
                Closing::ReelPivots { pivot_in_frame } | Closing::KnifePivots { pivot_in_frame },
                Reading::PivotAbove,
            ) => stir(&mut pivot_in_frame.y),
            _ => return false,
        }
        true
    }

    fn touch_knife(
        &mut self,
        which: Fitted,
        part: KnifePart,
        fitted: Fitted,
        stir: &dyn Fn(&mut N),
    ) -> bool {
        let is_bench_reach = which == Fitted::Bench && part == KnifePart::Reach;
        if is_bench_reach {
            stir(self.profile.knife.reach.base_mut());
        }
        let is_fitted = which == fitted;
        if is_fitted {
            let knife = &mut self.setting.knife;
            stir(match part {
                KnifePart::Reach => knife.reach.base_mut(),
                KnifePart::Width => knife.width.base_mut(),
                KnifePart::LipThickness => knife.lip_thickness.base_mut(),
                KnifePart::LipLength => knife.lip_length.base_mut(),
                KnifePart::BodyThickness => knife.body_thickness.base_mut(),
            });
        }
        is_bench_reach || is_fitted
    }

    fn touch_hardware(&mut self, index: usize, stir: &dyn Fn(&mut Place<N>)) -> bool {
        let Some(point) = self.hardware.get(index) else {
            return false;
        };
        let mut place = Place::from(*point).exact();
        stir(&mut place);
        self.stirred_hardware = Some((index, place));
        true
    }
}

fn stir_both<N>(reading: &mut N, setting: &mut N, is_followed: bool, stir: &dyn Fn(&mut N)) {
    stir(reading);
    if is_followed {
        stir(setting);
    }
}
