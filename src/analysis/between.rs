//! A unit on its way from one setting to another, or to another unit of its kind: every pose between
//! them is solved like any other, so that none is shown that cannot exist.

use std::sync::Arc;

use super::Solved;
use crate::geometry::{
    Bench, Closing, GroundShape, Hardware, HardwarePoint, KnifeSection, Place, Profile, Roller,
    Setting, Sink, Stance,
};
use crate::unit::{Mowing, Unit};
use crate::units::{Angle, Length, Measure};

/// How many poses between both are tried before any is shown.
const TRIED: u8 = 16;

/// The way from one solved unit to another.
#[derive(Clone, Copy, Debug)]
pub struct Between<'a> {
    /// Where it begins.
    pub from: &'a Solved,
    /// Where it ends.
    pub to: &'a Solved,
}

impl Between<'_> {
    /// Whether both are of one kind and every pose between them can exist, as far as some of them tell.
    #[must_use]
    pub fn can_be(&self) -> bool {
        let mut parts = (1..TRIED).map(|step| f64::from(step) / f64::from(TRIED));
        parts.all(|part| self.at(part).is_some())
    }

    /// Whether anything of the unit moves on it.
    #[must_use]
    pub fn is_any(&self) -> bool {
        let (from, to) = (&self.from.unit, &self.to.unit);
        from.profile != to.profile
            || from.setting != to.setting
            || from.hardware != to.hardware
            || from.shape != to.shape
            || from.sink != to.sink
    }

    /// The unit so far on the way: at 0 and below the first itself, at 1 and above the other itself. None
    /// where the pose there cannot exist.
    #[must_use]
    pub fn at(&self, part: f64) -> Option<Solved> {
        let (from, to) = (self.from, self.to);
        if part <= 0.0 {
            return Some(from.clone());
        }
        if part >= 1.0 {
            return Some(to.clone());
        }
        let unit = Part(part).unit(from, to)?;
        Solved::of_unit(Arc::clone(&to.document), unit).ok()
    }
}

/// How much of the way is done.
#[derive(Clone, Copy)]
struct Part(f64);

impl Part {
    fn of<M: Measure>(self, from: M, to: M) -> M {
        // Where both are the same, so is what lies between, to the last bit.
        M::from_base(self.number(from.base(), to.base()))
    }

    fn number(self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.0
    }

    /// A face without an angle of its own counts as 0° on the way to one that has one.
    fn angle(self, from: Option<Angle>, to: Option<Angle>) -> Option<Angle> {
        let is_given = from.is_some() || to.is_some();
        let given = |angle: Option<Angle>| angle.unwrap_or(Angle::ZERO);
        is_given.then(|| self.of(given(from), given(to)))
    }

    fn unit(self, from: &Solved, to: &Solved) -> Option<Unit> {
        let (one, other) = (&from.unit, &to.unit);
        if one.blades != other.blades || one.mowing.is_some() != other.mowing.is_some() {
            return None;
        }
        Some(Unit {
            profile: self.profile(&one.profile, &other.profile)?,
            setting: self.setting(from, to),
            hardware: self.hardware(&one.hardware, &other.hardware)?,
            new_diameter: self.of(one.new_diameter, other.new_diameter),
            smallest_diameter: self.of(one.smallest_diameter, other.smallest_diameter),
            mowing: self.mowing(one.mowing, other.mowing),
            shape: self.shape(one.shape, other.shape),
            sink: self.sink(one.sink, other.sink),
            ..other.clone()
        })
    }

    fn profile(self, from: &Profile, to: &Profile) -> Option<Profile> {
        Some(Profile {
            bench: self.bench(&from.bench, &to.bench),
            closing: self.closing(from.closing, to.closing)?,
            knife: self.knife(&from.knife, &to.knife),
        })
    }

    fn bench(self, from: &Bench, to: &Bench) -> Bench {
        let roller = |from: &Roller, to: &Roller| Roller {
            diameter: self.of(from.diameter, to.diameter),
            from_edge: self.of(from.from_edge, to.from_edge),
        };
        Bench {
            reel_diameter: self.of(from.reel_diameter, to.reel_diameter),
            height_of_cut: self.of(from.height_of_cut, to.height_of_cut),
            attitude: self.of(from.attitude, to.attitude),
            behind_centre: self.of(from.behind_centre, to.behind_centre),
            gap: self.of(from.gap, to.gap),
            front_roller: roller(&from.front_roller, &to.front_roller),
            rear_roller: roller(&from.rear_roller, &to.rear_roller),
        }
    }

    /// Between two ways of bringing reel and knife together there is none.
    fn closing(self, from: Closing, to: Closing) -> Option<Closing> {
        let place = |from: Place, to: Place| {
            Place::new(self.number(from.x, to.x), self.number(from.y, to.y))
        };
        let lean = |from: Option<Angle>, to: Option<Angle>| {
            let is_of_kind = from.is_some() == to.is_some();
            is_of_kind.then(|| self.angle(from, to))
        };
        match (from, to) {
            (Closing::ReelSlides { lean: one }, Closing::ReelSlides { lean: other }) => {
                Some(Closing::ReelSlides {
                    lean: lean(one, other)?,
                })
            }
            (Closing::KnifeSlides { lean: one }, Closing::KnifeSlides { lean: other }) => {
                Some(Closing::KnifeSlides {
                    lean: lean(one, other)?,
                })
            }
            (
                Closing::ReelPivots {
                    pivot_in_frame: one,
                },
                Closing::ReelPivots {
                    pivot_in_frame: other,
                },
            ) => Some(Closing::ReelPivots {
                pivot_in_frame: place(one, other),
            }),
            (
                Closing::KnifePivots {
                    pivot_in_frame: one,
                },
                Closing::KnifePivots {
                    pivot_in_frame: other,
                },
            ) => Some(Closing::KnifePivots {
                pivot_in_frame: place(one, other),
            }),
            _ => None,
        }
    }

    fn knife(self, from: &KnifeSection, to: &KnifeSection) -> KnifeSection {
        KnifeSection {
            reach: self.of(from.reach, to.reach),
            width: self.of(from.width, to.width),
            lip_thickness: self.of(from.lip_thickness, to.lip_thickness),
            lip_length: self.of(from.lip_length, to.lip_length),
            body_thickness: self.of(from.body_thickness, to.body_thickness),
            top_angle: self.angle(from.top_angle, to.top_angle),
            front_angle: self.angle(from.front_angle, to.front_angle),
            top_ground: self.of(from.top_ground, to.top_ground),
            face_ground: self.of(from.face_ground, to.face_ground),
        }
    }

    /// By attitude and height, whichever way either is set: the rollers follow.
    fn setting(self, from: &Solved, to: &Solved) -> Setting {
        let (one, other) = (&from.unit.setting, &to.unit.setting);
        let (one_pose, other_pose) = (&from.solution.pose, &to.solution.pose);
        Setting {
            reel_diameter: self.of(one.reel_diameter, other.reel_diameter),
            gap: self.of(one.gap, other.gap),
            knife: self.knife(&one.knife, &other.knife),
            extension: self.of(one.extension, other.extension),
            stance: Stance::Wanted {
                attitude: self.of(one_pose.attitude, other_pose.attitude),
                height_of_cut: self.of(one_pose.height_of_cut, other_pose.height_of_cut),
            },
        }
    }

    /// Point by point; between lists of other points there is none.
    fn hardware(self, from: &Hardware, to: &Hardware) -> Option<Hardware> {
        let (from, to) = (from.points(), to.points());
        let mounts = |points: &[HardwarePoint]| points.iter().map(|p| p.on).collect::<Vec<_>>();
        if mounts(from) != mounts(to) {
            return None;
        }
        let points = from.iter().zip(to).map(|(from, to)| HardwarePoint {
            behind: self.of(from.behind, to.behind),
            below: self.of(from.below, to.below),
            on: to.on,
        });
        Some(Hardware::new(points.collect()))
    }

    fn mowing(self, from: Option<Mowing>, to: Option<Mowing>) -> Option<Mowing> {
        from.zip(to).map(|(from, to)| Mowing {
            ground_speed: self.of(from.ground_speed, to.ground_speed),
            reel_speed: self.of(from.reel_speed, to.reel_speed),
        })
    }

    /// By how much the ground bends: a level is a crest without end.
    fn shape(self, from: GroundShape, to: GroundShape) -> GroundShape {
        if from == to {
            return to;
        }
        let bend = |shape| match shape {
            GroundShape::Level => 0.0,
            GroundShape::Crest(radius) => 1.0 / Length::mm(radius),
            GroundShape::Hollow(radius) => -1.0 / Length::mm(radius),
        };
        let bend = self.number(bend(from), bend(to));
        let radius = Length::from_mm(1.0 / bend.abs());
        if bend == 0.0 {
            GroundShape::Level
        } else if bend > 0.0 {
            GroundShape::Crest(radius)
        } else {
            GroundShape::Hollow(radius)
        }
    }

    fn sink(self, from: Sink, to: Sink) -> Sink {
        Sink {
            rollers: self.of(from.rollers, to.rollers),
            front: Some(self.of(from.of_front(), to.of_front())),
            rear: Some(self.of(from.of_rear(), to.of_rear())),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::NumberId;
    use crate::unit::{Document, read_text};
    use crate::units::Quantity;

    const SLIDES: &str = include_str!("../../demo-units/fairway-trailed.ron");
    const PIVOTS: &str = include_str!("../../demo-units/greens-scalping.ron");

    fn solved(text: &str, edit: impl FnOnce(&mut Document)) -> Solved {
        let mut document = read_text(text).expect("reads");
        edit(&mut document);
        Solved::of(&document).expect("solves")
    }

    fn number(solved: &Solved, id: NumberId) -> f64 {
        solved.solution.numbers().base(id).expect("there is one")
    }

    #[test]
    fn the_way_begins_and_ends_with_the_units_themselves_and_lies_between_them() {
        let from = solved(SLIDES, |_| {});
        let to = solved(SLIDES, |document| {
            document.setting.attitude = Quantity::parse("8 deg").ok();
            document.setting.height_of_cut = Quantity::parse("0.25 in").ok();
            document.setting.reel_diameter = Quantity::parse("6.6 in").ok();
            document.setting.extension = Quantity::parse("0.1 in").ok();
        });
        let way = Between {
            from: &from,
            to: &to,
        };
        assert!(way.can_be() && way.is_any());
        let ends = [(-0.5, &from), (0.0, &from), (1.0, &to), (2.0, &to)];
        for (part, end) in ends {
            assert_eq!(way.at(part).expect("an end").id, end.id, "{part}");
        }
        for id in [
            NumberId::Attitude,
            NumberId::HeightOfCut,
            NumberId::ReelDiameter,
            NumberId::Extension,
        ] {
            let half = number(&way.at(0.5).expect("it can be"), id);
            let middle = f64::midpoint(number(&from, id), number(&to, id));
            assert!((half - middle).abs() < 1e-9, "{}", id.name());
        }
        // Near an end it stands near that end, whatever follows from the setting.
        for (part, end) in [(1e-7, &from), (1.0 - 1e-7, &to)] {
            let near = way.at(part).expect("it can be");
            for id in NumberId::ALL {
                if let Some(base) = near.solution.numbers().base(id) {
                    assert!((base - number(end, id)).abs() < 1e-4, "{}", id.name());
                }
            }
        }
    }

    #[test]
    fn rollers_given_and_wanted_meet_without_a_jump() {
        let rollers = include_str!("../../demo-units/rollers-given.ron");
        let from = solved(rollers, |_| {});
        let to = solved(rollers, |document| {
            document.setting.rollers = None;
            document.setting.attitude = Quantity::parse("6 deg").ok();
        });
        let way = Between {
            from: &from,
            to: &to,
        };
        assert!(way.can_be() && way.is_any());
        let near = way.at(1e-9).expect("it can be");
        for id in [NumberId::FrontRollerMove, NumberId::RearRollerMove] {
            assert!((number(&near, id) - number(&from, id)).abs() < 1e-5);
        }
    }

    #[test]
    fn between_units_of_another_kind_there_is_no_way() {
        let from = solved(SLIDES, |_| {});
        let can_be = |to: &Solved| Between { from: &from, to }.can_be();
        let pivots = read_text(PIVOTS).expect("reads").closing;
        let pivots = solved(SLIDES, |document| document.closing = pivots);
        let blades = solved(SLIDES, |document| document.reel.blades += 1);
        let bare = solved(SLIDES, |document| document.hardware.clear());
        assert!(!from.unit.hardware.points().is_empty());
        for other in [&pivots, &blades, &bare] {
            assert!(!can_be(other));
        }
        assert!(can_be(&from));
    }

    #[test]
    fn a_level_bends_into_a_crest_by_how_much_it_bends() {
        let radius = Length::from_mm(2000.0);
        let shape = |part: f64, to| Part(part).shape(GroundShape::Level, to);
        let GroundShape::Crest(half) = shape(0.5, GroundShape::Crest(radius)) else {
            panic!("a crest")
        };
        assert!((half.mm() - 4000.0).abs() < 1e-9);
        let through = Part(0.5).shape(GroundShape::Hollow(radius), GroundShape::Crest(radius));
        assert_eq!(through, GroundShape::Level);
    }
}
