//! Rollers: where they stand, and how far they were moved in their brackets.

use kurbo::Point;

use super::circles::Circle;
use super::number::Number;
use super::plane::{Motion, Place, Way};
use super::{Profile, Setting};
use crate::units::Length;

/// A roller standing on the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RollerOnPlate {
    /// Its centre.
    pub centre: Point,
    /// Its radius in millimetres.
    pub radius_mm: f64,
    /// How far it stands from its bench place in its bracket, positive towards the reel.
    pub moved: Length,
}

impl From<RollerStood<f64>> for RollerOnPlate {
    fn from(roller: RollerStood<f64>) -> Self {
        Self {
            centre: roller.disc.centre.into(),
            radius_mm: roller.disc.radius_mm,
            moved: roller.moved,
        }
    }
}

impl<N: Number> Setting<N> {
    /// The fitted knife's front face, underside and back, on the bar: where a roller could run into it.
    pub(crate) fn outline_on_bar(&self, profile: &Profile<N>) -> [Place<N>; 6] {
        let [lip_front, lip_back, body_front, body_back] = self.underside_on_bar(profile);
        let edge = self.edge_on_bar(profile);
        let top_back = Place::new(body_back.x, N::exact(0.0));
        [edge, lip_front, lip_back, body_front, body_back, top_back]
    }
}

/// How clear a disc stands of a line of straight sides from corner to corner; negative where both are in
/// one place.
///
/// It changes smoothly as either moves, but where another side takes over as the nearest.
pub(crate) fn clear_of_outline_mm<N: Number>(disc: Circle<N>, outline: &[Place<N>; 6]) -> N {
    let squares = outline
        .windows(2)
        .map(|side| square_to_side(disc.centre, side[0], side[1]));
    let nearest = squares.fold(N::exact(f64::INFINITY), |least, square| {
        if square.re() < least.re() {
            square
        } else {
            least
        }
    });
    nearest.root() - disc.radius_mm
}

/// The square of how far a place lies from the straight side between two others.
fn square_to_side<N: Number>(place: Place<N>, from: Place<N>, to: Place<N>) -> N {
    let (along, there) = (to - from, place - from);
    let length_square = along.dot(along);
    let part = along.dot(there);
    if part.re() <= 0.0 {
        return there.dot(there);
    }
    if part.re() >= length_square.re() {
        let from_end = place - to;
        return from_end.dot(from_end);
    }
    let across = along.cross(there);
    across * across / length_square
}

/// As [`RollerOnPlate`], in bare numbers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RollerStood<N> {
    pub(crate) disc: Circle<N>,
    pub(crate) moved: Length<N>,
}

impl<N: Number> RollerStood<N> {
    /// A roller carried by the frame and moved by `moved` in its bracket; brought to the plate
    /// by such a move along the frame's vertical where none is given.
    pub(super) fn carried(
        in_frame: Circle<N>,
        moved: Option<Length<N>>,
        plate_from_frame: Motion<N>,
    ) -> Self {
        let Circle { centre, radius_mm } = in_frame;
        let moved = moved.unwrap_or_else(|| {
            let carried = plate_from_frame * centre;
            Length::from_mm((radius_mm - carried.y) / plate_from_frame.cos)
        });
        Self {
            disc: Circle {
                centre: plate_from_frame * (centre + Way::up(moved.mm())),
                radius_mm,
            },
            moved,
        }
    }
}

#[cfg(test)]
mod tests {
    use kurbo::{Line, ParamCurveNearest as _};

    use super::*;

    #[test]
    fn a_disc_is_as_clear_of_an_outline_as_of_the_nearest_of_its_sides() {
        // A knife's section, its lip stepped; kurbo finds the nearest place of each side.
        let outline = [
            (0.0, 0.0),
            (0.0, -3.0),
            (12.0, -3.0),
            (12.0, -6.5),
            (60.0, -6.5),
            (60.0, 0.0),
        ];
        for step in 0..400_i32 {
            let (around, out) = (f64::from(step) * 0.1, f64::from(step % 37) * 2.0);
            let centre = Point::new(30.0 + out * around.cos(), -3.0 + out * around.sin());
            let sides = outline.windows(2).map(|side| {
                let line = Line::new(Point::from(side[0]), Point::from(side[1]));
                line.nearest(centre, 1e-9).distance_sq.sqrt()
            });
            let nearest = sides.fold(f64::INFINITY, f64::min);
            let disc = Circle {
                centre: Place::from(centre),
                radius_mm: 20.0,
            };
            let clear = clear_of_outline_mm(disc, &outline.map(|(x, y)| Place::new(x, y)));
            assert!((clear - (nearest - 20.0)).abs() < 1e-12, "{centre:?}");
        }
    }
}
