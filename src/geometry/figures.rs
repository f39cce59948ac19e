//! Everything a pose follows from, as bare numbers: what the formulas are written over.
//!
//! The public types ([`Profile`], [`Setting`]) carry their units in their types and are turned
//! into figures at the door. Lengths are millimetres; angles are degrees, as they were typed.

use super::number::Number;
use super::plane::Place;
use super::{Bench, Closing, KnifeSection, Profile, Roller, Setting, Shape, Stance};

/// A unit and its setting.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Figures<N> {
    pub(crate) bench: BenchFigures<N>,
    pub(crate) closing: ClosingFigures<N>,
    /// The reach of the knife that was on the unit on the bench.
    pub(crate) bench_reach_mm: N,
    pub(crate) setting: SettingFigures<N>,
}

/// As [`Roller`].
#[derive(Clone, Copy, Debug)]
pub(crate) struct RollerFigures<N> {
    pub(crate) diameter_mm: N,
    pub(crate) from_edge_mm: N,
}

/// As [`Bench`].
#[derive(Clone, Copy, Debug)]
pub(crate) struct BenchFigures<N> {
    pub(crate) reel_diameter_mm: N,
    pub(crate) height_of_cut_mm: N,
    pub(crate) attitude_deg: N,
    pub(crate) behind_centre_mm: N,
    pub(crate) gap_mm: N,
    pub(crate) front_roller: RollerFigures<N>,
    pub(crate) rear_roller: RollerFigures<N>,
}

/// As [`Closing`].
#[derive(Clone, Copy, Debug)]
pub(crate) enum ClosingFigures<N> {
    ReelSlides { lean_deg: Option<N> },
    ReelPivots { pivot_in_frame: Place<N> },
    KnifePivots { pivot_in_frame: Place<N> },
}

/// As [`KnifeSection`].
// A bare number's name carries its unit.
#[allow(clippy::struct_field_names)]
#[derive(Clone, Copy, Debug)]
pub(crate) struct KnifeFigures<N> {
    pub(crate) reach_mm: N,
    pub(crate) width_mm: N,
    pub(crate) lip_thickness_mm: N,
    pub(crate) lip_length_mm: N,
    pub(crate) body_thickness_mm: N,
}

/// As [`Setting`].
#[derive(Clone, Copy, Debug)]
pub(crate) struct SettingFigures<N> {
    pub(crate) reel_diameter_mm: N,
    pub(crate) gap_mm: N,
    pub(crate) knife: KnifeFigures<N>,
    pub(crate) extension_mm: N,
    pub(crate) top_ground_mm: N,
    pub(crate) face_ground_mm: N,
    pub(crate) stance: StanceFigures<N>,
}

/// As [`Stance`].
#[derive(Clone, Copy, Debug)]
pub(crate) enum StanceFigures<N> {
    Wanted {
        attitude_deg: N,
        height_of_cut_mm: N,
    },
    Rollers {
        front_move_mm: N,
        rear_move_mm: N,
    },
}

/// As [`Shape`].
#[derive(Clone, Copy, Debug)]
pub(crate) enum ShapeFigures<N> {
    Level,
    Crest { radius_mm: N },
    Hollow { radius_mm: N },
}

impl<N: Number> Figures<N> {
    /// The figures of a setting, none of them with a derivative.
    pub(crate) fn exact(profile: &Profile, setting: &Setting) -> Self {
        Self {
            bench: BenchFigures::exact(&profile.bench),
            closing: ClosingFigures::exact(&profile.closing),
            bench_reach_mm: N::exact(profile.knife.reach.mm()),
            setting: SettingFigures::exact(setting),
        }
    }

    /// The total extension *e*: how much further ahead, along the datum, the fitted knife's
    /// unground edge stands than the bench knife's did.
    pub(crate) fn total_extension_mm(&self) -> N {
        self.setting.total_extension_mm(self.bench_reach_mm)
    }
}

impl<N: Number> SettingFigures<N> {
    pub(super) fn exact(setting: &Setting) -> Self {
        Self {
            reel_diameter_mm: N::exact(setting.reel_diameter.mm()),
            gap_mm: N::exact(setting.gap.mm()),
            knife: KnifeFigures::exact(&setting.knife),
            extension_mm: N::exact(setting.extension.mm()),
            top_ground_mm: N::exact(setting.top_ground.mm()),
            face_ground_mm: N::exact(setting.face_ground.mm()),
            stance: match setting.stance {
                Stance::Wanted {
                    attitude,
                    height_of_cut,
                } => StanceFigures::Wanted {
                    attitude_deg: N::exact(attitude.deg()),
                    height_of_cut_mm: N::exact(height_of_cut.mm()),
                },
                Stance::Rollers {
                    front_move,
                    rear_move,
                } => StanceFigures::Rollers {
                    front_move_mm: N::exact(front_move.mm()),
                    rear_move_mm: N::exact(rear_move.mm()),
                },
            },
        }
    }

    pub(super) fn total_extension_mm(&self, bench_reach_mm: N) -> N {
        self.knife.reach_mm - bench_reach_mm + self.extension_mm
    }

    /// The edge now fitted, on the bar.
    pub(super) fn edge_on_bar(&self, bench_reach_mm: N) -> Place<N> {
        let extension_mm = self.total_extension_mm(bench_reach_mm);
        Place::new(self.face_ground_mm - extension_mm, self.top_ground_mm)
    }
}

impl<N: Number> BenchFigures<N> {
    pub(super) fn exact(bench: &Bench) -> Self {
        let roller = |roller: &Roller| RollerFigures {
            diameter_mm: N::exact(roller.diameter.mm()),
            from_edge_mm: N::exact(roller.from_edge.mm()),
        };
        Self {
            reel_diameter_mm: N::exact(bench.reel_diameter.mm()),
            height_of_cut_mm: N::exact(bench.height_of_cut.mm()),
            attitude_deg: N::exact(bench.attitude.deg()),
            behind_centre_mm: N::exact(bench.behind_centre.mm()),
            gap_mm: N::exact(bench.gap.mm()),
            front_roller: roller(&bench.front_roller),
            rear_roller: roller(&bench.rear_roller),
        }
    }
}

impl<N: Number> RollerFigures<N> {
    /// Half the diameter.
    pub(super) fn radius_mm(&self) -> N {
        self.diameter_mm / 2.0
    }
}

impl<N: Number> ClosingFigures<N> {
    pub(super) fn exact(closing: &Closing) -> Self {
        match *closing {
            Closing::ReelSlides { lean } => Self::ReelSlides {
                lean_deg: lean.map(|lean| N::exact(lean.deg())),
            },
            Closing::ReelPivots { pivot_in_frame } => Self::ReelPivots {
                pivot_in_frame: Place::exact(pivot_in_frame),
            },
            Closing::KnifePivots { pivot_in_frame } => Self::KnifePivots {
                pivot_in_frame: Place::exact(pivot_in_frame),
            },
        }
    }
}

impl<N: Number> KnifeFigures<N> {
    fn exact(knife: &KnifeSection) -> Self {
        Self {
            reach_mm: N::exact(knife.reach.mm()),
            width_mm: N::exact(knife.width.mm()),
            lip_thickness_mm: N::exact(knife.lip_thickness.mm()),
            lip_length_mm: N::exact(knife.lip_length.mm()),
            body_thickness_mm: N::exact(knife.body_thickness.mm()),
        }
    }
}

impl<N: Number> ShapeFigures<N> {
    pub(crate) fn exact(shape: Shape) -> Self {
        let radius_mm = |radius: crate::units::Length| N::exact(radius.mm());
        match shape {
            Shape::Level => Self::Level,
            Shape::Crest(radius) => Self::Crest {
                radius_mm: radius_mm(radius),
            },
            Shape::Hollow(radius) => Self::Hollow {
                radius_mm: radius_mm(radius),
            },
        }
    }
}
