//! A small picture of each reading that a new unit is asked for, drawn large, not to scale.

use kurbo::{Arc, Point, Shape as _, Vec2};

use crate::drawing::scene::{Dimension, Direction, EXACT, Role, Scene, Shape, Sketch};
use crate::unit::{Field, KnifePart, Reading};

/// Where the parts of the unit's picture stand.
const CENTRE: (f64, f64) = (6.0, 43.0);
const RADIUS: f64 = 31.0;
const EDGE: (f64, f64) = (-6.0, 14.4);
const FRONT: (f64, f64) = (76.0, 17.0);
const REAR: (f64, f64) = (-80.0, 14.0);
/// Where the parts of the knife's picture stand: edge, back, and heights.
const TIP: (f64, f64) = (66.0, 36.0);
const BACK: f64 = -76.0;
const SCREW: f64 = -34.0;
const LIP_BACK: f64 = 24.0;
const LIP: f64 = 13.0;
const BODY: f64 = 30.0;

/// The picture of what a field's reading is, `number` written at it. None where words say it better.
#[must_use]
pub fn measured_picture(field: Field, number: String) -> Option<Scene> {
    let mut sketch = Sketch::new(number);
    match field {
        Field::Reading(Reading::Knife(_, part)) => sketch.knife_section(part),
        Field::NewDiameter | Field::SmallestDiameter => {
            sketch.unit();
            sketch.across_reel();
        }
        Field::Reading(reading) => {
            sketch.unit();
            sketch.reading(reading)?;
        }
        _ => return None,
    }
    Some(sketch.scene)
}

impl Sketch {
    /// Reel, knife and rollers on the plate.
    fn unit(&mut self) {
        self.ground(Role::Plate);
        for (centre, radius) in [(FRONT, FRONT.1), (REAR, REAR.1)] {
            self.roller(centre, radius);
        }
        self.circle(Role::ReelRim, CENTRE, RADIUS);
        self.circle(Role::ReelRim, CENTRE, 2.0);
        self.knife(EDGE);
    }

    /// The diameter over the reel, clear of its circle however long the number is.
    fn across_reel(&mut self) {
        let (x, y) = CENTRE;
        let over = y + RADIUS + 14.0;
        for side in [x - RADIUS, x + RADIUS] {
            self.line(Role::Dimension, (side, y), (side, over + 4.0));
        }
        self.across((x - RADIUS, y), (x + RADIUS, y), over);
        self.scene.bounds.y1 = over + 24.0;
    }

    /// Shows a reading; none where the picture has no place for it.
    fn reading(&mut self, reading: Reading) -> Option<()> {
        match reading {
            Reading::ReelDiameter => self.across_reel(),
            Reading::HeightOfCut => self.upwards(EDGE.0 + 3.0, 0.0, EDGE.1),
            Reading::Attitude => self.attitude(),
            Reading::BehindCentre => {
                self.line(Role::CentreLine, CENTRE, (CENTRE.0, -20.0));
                self.line(Role::Dimension, EDGE, (EDGE.0, -20.0));
                self.across(EDGE, CENTRE, -14.0);
            }
            Reading::FrontDiameter => self.across_roller(FRONT),
            Reading::RearDiameter => self.across_roller(REAR),
            Reading::FrontAhead => self.across(EDGE, FRONT, -14.0),
            Reading::RearBehind => self.across(REAR, EDGE, -14.0),
            Reading::PivotAhead | Reading::PivotAbove => {
                let pivot = (-48.0, 62.0);
                self.circle(Role::Hardware, pivot, 3.0);
                if reading == Reading::PivotAhead {
                    self.across(pivot, EDGE, -14.0);
                } else {
                    self.upwards(pivot.0, 0.0, pivot.1);
                }
            }
            Reading::Gap
            | Reading::Lean
            | Reading::Knife(..)
            | Reading::HardwareBehind(_)
            | Reading::HardwareBelow(_)
            | Reading::GroundSpeed
            | Reading::ReelSpeed
            | Reading::RollerSink
            | Reading::FrontSink
            | Reading::RearSink
            | Reading::GroundRadius
            | Reading::FrontRunout
            | Reading::RearRunout
            | Reading::EndDifference => return None,
        }
        Some(())
    }

    fn across_roller(&mut self, (x, radius): (f64, f64)) {
        self.across((x - radius, radius), (x + radius, radius), -14.0);
    }

    fn attitude(&mut self) {
        let (x, y) = EDGE;
        let back = Vec2::new(-62.0, 10.0);
        self.line(Role::Datum, EDGE, (x - 78.0, y));
        self.line(Role::Datum, EDGE, (x + 1.25 * back.x, y + 1.25 * back.y));
        let angle = Shape::Angle {
            apex: EDGE.into(),
            from: Vec2::new(-1.0, 0.0),
            to: back,
            radius_mm: 70.0,
            text: self.number.clone(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Dimension, angle);
    }

    fn across(&mut self, from: (f64, f64), to: (f64, f64), at: f64) {
        let dimension = Dimension {
            from: from.into(),
            to: to.into(),
            direction: Direction::Across,
            through: Point::new(from.0, at),
            offset: 0.0,
            larger: 1.0,
            text: self.number.clone(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Dimension, Shape::Dimension(dimension));
    }

    /// The knife's section, its edge to the right, with one of its measures.
    fn knife_section(&mut self, part: KnifePart) {
        let (edge, datum) = TIP;
        let (lip, body) = (datum - LIP, datum - BODY);
        self.hatched(
            Role::Knife,
            &[
                (BACK, datum),
                TIP,
                (edge, lip),
                (LIP_BACK, lip),
                (LIP_BACK, body),
                (BACK, body),
            ],
        );
        self.line(Role::CentreLine, (SCREW, datum + 8.0), (SCREW, body - 8.0));
        let arc = Arc::new((edge + 16.0, datum + 58.0), (58.0, 58.0), 4.0, 0.95, 0.0);
        let rim = Shape::Line(arc.to_path(EXACT));
        self.scene.add(Role::ReelRim, rim);
        let over = datum + 14.0;
        let under = body - 24.0;
        match part {
            KnifePart::Reach => self.across((SCREW, datum), TIP, over),
            KnifePart::Width => self.across((BACK, body), (edge, lip), under),
            KnifePart::LipLength => self.across((LIP_BACK, lip), (edge, lip), under),
            KnifePart::LipThickness => self.upwards(edge + 10.0, lip, datum),
            KnifePart::BodyThickness => self.upwards(BACK - 12.0, body, datum),
            KnifePart::TopAngle => self.face_angle(Vec2::new(-1.0, 0.0), Vec2::new(-40.0, -9.0)),
            KnifePart::FrontAngle => self.face_angle(Vec2::new(0.0, -1.0), Vec2::new(-9.0, -40.0)),
            KnifePart::TopGround => {
                let ground = datum - 5.0;
                self.line(Role::CentreLine, (LIP_BACK, ground), (edge, ground));
                self.upwards(LIP_BACK + 6.0, ground, datum);
            }
            KnifePart::FaceGround => {
                let ground = edge - 6.0;
                self.line(Role::CentreLine, (ground, datum), (ground, lip));
                self.across((ground, datum), TIP, over);
            }
        }
    }
}

impl Sketch {
    /// How far a face stands from square, at the edge.
    fn face_angle(&mut self, square: Vec2, face: Vec2) {
        let (x, y) = TIP;
        for way in [58.0 * square, 1.4 * face] {
            self.line(Role::Datum, TIP, (x + way.x, y + way.y));
        }
        let angle = Shape::Angle {
            apex: TIP.into(),
            from: square,
            to: face,
            radius_mm: 36.0,
            text: self.number.clone(),
            shorter: Vec::new(),
        };
        self.scene.add(Role::Dimension, angle);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::Fitted;

    #[test]
    fn every_measure_of_a_knife_and_every_roller_place_has_its_picture_with_its_number() {
        let knife = KnifePart::ALL.map(|part| Reading::Knife(Fitted::Bench, part));
        let rollers = [
            Reading::FrontDiameter,
            Reading::FrontAhead,
            Reading::RearDiameter,
            Reading::RearBehind,
        ];
        let mut pictures = Vec::new();
        for reading in knife.into_iter().chain(rollers) {
            let scene = measured_picture(reading.into(), "1-3/8 in".to_owned()).unwrap();
            assert_eq!(scene.words().collect::<Vec<_>>(), ["1-3/8 in"]);
            assert!(!pictures.contains(&scene), "{reading} looks like another");
            pictures.push(scene);
        }
        assert!(measured_picture(Field::Name, String::new()).is_none());
    }
}
