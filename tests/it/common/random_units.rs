//! Units to test with: one plain unit for sums by hand, and believable ones at random.

use kurbo::Point;
use proptest::prelude::*;
use sweepgauge::geometry::{
    Bench, Closing, Impossible, KnifeSection, Pose, Profile, Roller, Setting, Stance,
};
use sweepgauge::units::{Angle, Length};

/// A unit and one way of setting it.
#[derive(Clone, Copy, Debug)]
pub struct Unit {
    /// The unit as measured.
    pub profile: Profile,
    /// What is tried on it.
    pub setting: Setting,
}

/// A unit whose setting can be built.
#[derive(Clone, Copy, Debug)]
pub struct SolvedUnit {
    /// The unit and its setting.
    pub unit: Unit,
    /// Where everything stands.
    pub pose: Pose,
}

impl Unit {
    /// Solves the setting.
    pub fn solve(&self) -> Result<Pose, Impossible> {
        Pose::solve(&self.profile, &self.setting)
    }

    /// The same unit with a stance of its own.
    pub fn standing(mut self, stance: Stance) -> Self {
        self.setting.stance = stance;
        self
    }

    /// The same unit set as it stood on the bench.
    pub fn as_on_the_bench(&self) -> Self {
        Self::on_the_bench(self.profile)
    }

    /// A unit set as it stood on the bench.
    pub fn on_the_bench(profile: Profile) -> Self {
        let bench = profile.bench;
        Self {
            profile,
            setting: Setting {
                reel_diameter: bench.reel_diameter,
                gap: bench.gap,
                knife: KnifeSection {
                    top_ground: Length::ZERO,
                    face_ground: Length::ZERO,
                    ..profile.knife
                },
                extension: Length::ZERO,
                stance: Stance::Wanted {
                    attitude: bench.attitude,
                    height_of_cut: bench.height_of_cut,
                },
            },
        }
    }
}

/// A unit on which sums by hand stay short: on centre, datum level, rollers alike.
pub fn plain_profile() -> Profile {
    let roller = |from_edge_mm| Roller {
        diameter: Length::from_mm(60.0),
        from_edge: Length::from_mm(from_edge_mm),
    };
    Profile {
        bench: Bench {
            reel_diameter: Length::from_mm(127.0),
            height_of_cut: Length::from_mm(12.0),
            attitude: Angle::ZERO,
            behind_centre: Length::ZERO,
            gap: Length::from_mm(0.05),
            front_roller: roller(90.0),
            rear_roller: roller(80.0),
        },
        closing: Closing::ReelSlides { lean: None },
        knife: KnifeSection {
            reach: Length::from_mm(40.0),
            width: Length::from_mm(55.0),
            lip_thickness: Length::from_mm(3.0),
            lip_length: Length::from_mm(15.0),
            body_thickness: Length::from_mm(8.0),
            top_angle: None,
            front_angle: None,
            top_ground: Length::ZERO,
            face_ground: Length::ZERO,
        },
    }
}

fn length(range_mm: std::ops::RangeInclusive<f64>) -> impl Strategy<Value = Length> {
    range_mm.prop_map(Length::from_mm)
}

fn angle(range_deg: std::ops::RangeInclusive<f64>) -> impl Strategy<Value = Angle> {
    range_deg.prop_map(Angle::from_deg)
}

fn roller() -> impl Strategy<Value = Roller> {
    (length(40.0..=110.0), length(40.0..=200.0)).prop_map(|(diameter, from_edge)| Roller {
        diameter,
        from_edge,
    })
}

prop_compose! {
    fn bench()(
        reel_diameter in length(100.0..=260.0),
        height_of_cut in length(2.5..=75.0),
        attitude in angle(0.0..=10.0),
        behind_centre in length(-5.0..=15.0),
        gap in length(0.0..=0.2),
        front_roller in roller(),
        rear_roller in roller(),
    ) -> Bench {
        Bench { reel_diameter, height_of_cut, attitude, behind_centre, gap, front_roller, rear_roller }
    }
}

prop_compose! {
    fn knife()(
        reach in length(30.0..=60.0),
        width in length(50.0..=80.0),
        lip_thickness in length(1.5..=6.0),
        lip_length in length(8.0..=25.0),
        body_thickness in length(6.0..=12.0),
        top_angle in prop::option::of(angle(-3.0..=20.0)),
        front_angle in prop::option::of(angle(-3.0..=20.0)),
    ) -> KnifeSection {
        KnifeSection {
            reach,
            width,
            lip_thickness,
            lip_length,
            body_thickness,
            top_angle,
            front_angle,
            top_ground: Length::ZERO,
            face_ground: Length::ZERO,
        }
    }
}

/// A pivot beside the line from edge to centre: one on that line could close no gap.
fn pivot(bench: &Bench) -> impl Strategy<Value = Point> + use<> {
    let edge_mm = bench.height_of_cut.mm();
    let radius_mm = bench.reel_diameter.mm() / 2.0;
    (any::<bool>(), 60.0..=200.0, -20.0..=20.0 + radius_mm).prop_map(
        move |(is_ahead, aside_mm, above_mm): (bool, f64, f64)| {
            let x_mm = if is_ahead { aside_mm } else { -aside_mm };
            Point::new(x_mm, edge_mm + above_mm)
        },
    )
}

fn closing(bench: &Bench) -> impl Strategy<Value = Closing> + use<> {
    prop_oneof![
        Just(Closing::ReelSlides { lean: None }),
        angle(-25.0..=25.0).prop_map(|lean| Closing::ReelSlides { lean: Some(lean) }),
        pivot(bench).prop_map(|pivot| Closing::ReelPivots {
            pivot_in_frame: pivot.into()
        }),
        pivot(bench).prop_map(|pivot| Closing::KnifePivots {
            pivot_in_frame: pivot.into()
        }),
        angle(-25.0..=25.0).prop_map(|lean| Closing::KnifeSlides { lean: Some(lean) }),
    ]
}

fn profile() -> impl Strategy<Value = Profile> {
    (bench(), knife()).prop_flat_map(|(bench, knife)| {
        closing(&bench).prop_map(move |closing| Profile {
            bench,
            closing,
            knife,
        })
    })
}

prop_compose! {
    /// A believable unit with the reel worn to 90 % at most, another knife fitted and extended by
    /// up to 10 mm together, both faces ground, and another attitude and height wanted.
    pub fn believable_unit()(
        profile in profile(),
        left_of_reel in 0.9..=1.0,
        gap in length(0.0..=0.2),
        longer in length(-4.0..=4.0),
        extension in length(-6.0..=6.0),
        top_ground in length(0.0..=1.5),
        face_ground in length(0.0..=4.0),
        attitude in angle(0.0..=10.0),
        height_of_cut in length(2.5..=75.0),
    ) -> Unit {
        let mut knife = profile.knife;
        knife.reach = knife.reach + longer;
        (knife.top_ground, knife.face_ground) = (top_ground, face_ground);
        Unit {
            profile,
            setting: Setting {
                reel_diameter: profile.bench.reel_diameter * left_of_reel,
                gap,
                knife,
                extension,
                stance: Stance::Wanted { attitude, height_of_cut },
            },
        }
    }
}

/// Believable units whose setting can be built; how few cannot is a test of its own.
pub fn solved_unit() -> impl Strategy<Value = SolvedUnit> {
    believable_unit().prop_filter_map("cannot be built", |unit| {
        unit.solve().ok().map(|pose| SolvedUnit { unit, pose })
    })
}
