//! The crest on which a disc touches the ground while both rollers rest on it.

use kurbo::{Point, Vec2, common::solve_quadratic};

use super::RollerOnPlate;
use crate::units::Length;

/// Radius of the widest crest that carries both rollers and touches a disc: the reel, or with a
/// radius of zero a point of the knife. Rollers that sink are given with radii that are so much smaller.
///
/// The ground's centre O stands ρ + rᵢ from each of the three circles: a circle that touches three
/// others from outside (Apollonius' problem, by subtracting the circles' equations). With o = O/ρ and
/// κ = 1/ρ those are linear in o and κ, and what is left is a quadratic in κ.
///
/// None when no crest touches it.
#[must_use]
pub fn touching_crest(
    front: &RollerOnPlate,
    rear: &RollerOnPlate,
    disc_centre: Point,
    disc_radius_mm: f64,
) -> Option<Length> {
    let rear_radius = rear.radius_mm;
    let to_front = front.centre - rear.centre;
    let to_disc = disc_centre - rear.centre;
    let determinant = to_front.cross(to_disc);
    if determinant == 0.0 {
        return None;
    }
    // The point o with o·to_front = along_front and o·to_disc = along_disc.
    let meet = |along_front: f64, along_disc: f64| {
        Vec2::new(
            along_front * to_disc.y - along_disc * to_front.y,
            along_disc * to_front.x - along_front * to_disc.x,
        ) / determinant
    };
    let half_power = |way: Vec2, radius: f64| {
        (way.hypot2() - (radius - rear_radius) * (radius + rear_radius)) / 2.0
    };
    let flat = meet(rear_radius - front.radius_mm, rear_radius - disc_radius_mm);
    let curved = meet(
        half_power(to_front, front.radius_mm),
        half_power(to_disc, disc_radius_mm),
    );
    solve_quadratic(
        flat.hypot2() - 1.0,
        2.0 * (flat.dot(curved) - rear_radius),
        curved.hypot2() - rear_radius * rear_radius,
    )
    .into_iter()
    .filter(|curvature| *curvature > 0.0)
    // The ground lies below the rollers.
    .filter(|curvature| to_front.cross(flat + curved * *curvature) < 0.0)
    .reduce(f64::min)
    .map(|curvature| Length::from_mm(1.0 / curvature))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_midway_between_like_rollers_touches_by_the_segment_formula() {
        // Handbook, circular segment: chord 2a and rise s belong to the radius (a² + s²)/(2s).
        let roller = |x: f64| RollerOnPlate {
            centre: Point::new(x, 30.0),
            radius_mm: 30.0,
            moved: Length::ZERO,
        };
        let (front, rear) = (roller(100.0), roller(-100.0));
        let radius = touching_crest(&front, &rear, Point::new(0.0, 5.0), 0.0).unwrap();
        let half = 100.0_f64;
        // The point lies on the ground halfway: the rollers' centres stand lower by the rise of their
        // own circle, of radius ρ + 30, than its top, which is 30 above the point.
        let to_centre = radius.mm() + 30.0;
        let drop = to_centre - (to_centre * to_centre - half * half).sqrt();
        assert!((drop - 5.0).abs() < 1e-9, "{radius:?}");
    }

    #[test]
    fn what_stands_above_the_rollers_is_touched_by_no_crest() {
        let roller = |x: f64| RollerOnPlate {
            centre: Point::new(x, 30.0),
            radius_mm: 30.0,
            moved: Length::ZERO,
        };
        let beyond = Point::new(400.0, 5.0);
        assert_eq!(
            touching_crest(&roller(100.0), &roller(-100.0), beyond, 0.0),
            None
        );
    }
}
