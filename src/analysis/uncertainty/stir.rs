//! Which inputs a reading is: they change with it, one for one.

use num_dual::Dual64;

use super::output::Inputs;
use crate::geometry::{ClosingFigures, Place, ShapeFigures, StanceFigures};
use crate::unit::{Fitted, Follows, KnifePart, Reading};

impl Inputs<'_, Dual64> {
    /// Makes the derivatives those by one reading. Whether any output can depend on it.
    ///
    /// A setting that follows the bench is the same variable as its reading; so is the reach of
    /// the knife fitted and that of the bench knife when they are one, and it cancels in the
    /// extension.
    pub(super) fn stir(&mut self, reading: Reading, follows: Follows) -> bool {
        let bench = &mut self.figures.bench;
        let setting = &mut self.figures.setting;
        match reading {
            Reading::ReelDiameter => stir_both(
                &mut bench.reel_diameter_mm,
                &mut setting.reel_diameter_mm,
                follows.reel_diameter,
            ),
            Reading::Gap => stir_both(&mut bench.gap_mm, &mut setting.gap_mm, follows.gap),
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
                return self.stir_closing(reading);
            }
            Reading::Knife(which, part) => return self.stir_knife(which, part, follows.knife),
            Reading::HardwareBehind(index) => {
                return self.stir_hardware(index, |place| &mut place.x);
            }
            Reading::HardwareBelow(index) => {
                return self.stir_hardware(index, |place| &mut place.y);
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

    fn stir_closing(&mut self, reading: Reading) -> bool {
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

    fn stir_knife(&mut self, which: Fitted, part: KnifePart, fitted: Fitted) -> bool {
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

    fn stir_hardware(
        &mut self,
        index: usize,
        coordinate: impl Fn(&mut Place<Dual64>) -> &mut Dual64,
    ) -> bool {
        let Some(point) = self.hardware.get(index) else {
            return false;
        };
        let mut place = Place::exact(*point);
        stir(coordinate(&mut place));
        self.stirred_hardware = Some((index, place));
        true
    }
}

fn stir(input: &mut Dual64) {
    input.eps = 1.0;
}

fn stir_both(reading: &mut Dual64, setting: &mut Dual64, is_followed: bool) {
    stir(reading);
    if is_followed {
        stir(setting);
    }
}
