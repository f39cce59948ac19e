//! Which inputs a reading is: they change with it, one for one.

use num_dual::Dual64;

use super::output::Inputs;
use crate::geometry::{ClosingFigures, Number, Place, ShapeFigures, StanceFigures};
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
        let bench = &mut self.figures.bench;
        let setting = &mut self.figures.setting;
        match reading {
            Reading::ReelDiameter => stir_both(
                &mut bench.reel_diameter_mm,
                &mut setting.reel_diameter_mm,
                follows.reel_diameter,
                stir,
            ),
            Reading::Gap => stir_both(&mut bench.gap_mm, &mut setting.gap_mm, follows.gap, stir),
            Reading::HeightOfCut => {
                stir(&mut bench.height_of_cut_mm);
                if let StanceFigures::Wanted {
                    height_of_cut_mm, ..
                } = &mut setting.stance
                    && follows.height_of_cut
                {
                    stir(height_of_cut_mm);
                }
            }
            Reading::Attitude => {
                stir(&mut bench.attitude_deg);
                if let StanceFigures::Wanted { attitude_deg, .. } = &mut setting.stance
                    && follows.attitude
                {
                    stir(attitude_deg);
                }
            }
            Reading::BehindCentre => stir(&mut bench.behind_centre_mm),
            Reading::FrontDiameter => stir(&mut bench.front_roller.diameter_mm),
            Reading::FrontAhead => stir(&mut bench.front_roller.from_edge_mm),
            Reading::RearDiameter => stir(&mut bench.rear_roller.diameter_mm),
            Reading::RearBehind => stir(&mut bench.rear_roller.from_edge_mm),
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
                    &mut mowing.ground_speed_mm_per_s
                } else {
                    &mut mowing.reel_speed_rpm
                });
            }
            Reading::RollerSink => stir(&mut self.roller_sink_mm),
            Reading::GroundRadius => match &mut self.shape {
                ShapeFigures::Level => return false,
                ShapeFigures::Crest { radius_mm } | ShapeFigures::Hollow { radius_mm } => {
                    stir(radius_mm);
                }
            },
            Reading::FrontRunout => stir(&mut self.wear.front_runout_mm),
            Reading::RearRunout => stir(&mut self.wear.rear_runout_mm),
            Reading::EndDifference => stir(&mut self.wear.end_difference_mm),
        }
        true
    }

    fn touch_closing(&mut self, reading: Reading, stir: &dyn Fn(&mut N)) -> bool {
        match (&mut self.figures.closing, reading) {
            (ClosingFigures::ReelSlides { lean_deg }, Reading::Lean) => {
                let Some(lean_deg) = lean_deg else {
                    return false;
                };
                stir(lean_deg);
            }
            (
                ClosingFigures::ReelPivots { pivot_in_frame }
                | ClosingFigures::KnifePivots { pivot_in_frame },
                Reading::PivotAhead,
            ) => stir(&mut pivot_in_frame.x),
            (
                ClosingFigures::ReelPivots { pivot_in_frame }
                | ClosingFigures::KnifePivots { pivot_in_frame },
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
            stir(&mut self.figures.bench_reach_mm);
        }
        let is_fitted = which == fitted;
        if is_fitted {
            let knife = &mut self.figures.setting.knife;
            stir(match part {
                KnifePart::Reach => &mut knife.reach_mm,
                KnifePart::Width => &mut knife.width_mm,
                KnifePart::LipThickness => &mut knife.lip_thickness_mm,
                KnifePart::LipLength => &mut knife.lip_length_mm,
                KnifePart::BodyThickness => &mut knife.body_thickness_mm,
            });
        }
        is_bench_reach || is_fitted
    }

    fn touch_hardware(&mut self, index: usize, stir: &dyn Fn(&mut Place<N>)) -> bool {
        let Some(point) = self.hardware.get(index) else {
            return false;
        };
        let mut place = Place::exact(*point);
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
