//! What a knife that moves while the gap is closed does to the height of cut.

use std::fmt::Write as _;

use super::Solved;
use crate::geometry::Stance;
use crate::units::{Angle, Length, System};

/// A move or a turn below this is not seen in what is told, in millimetres and degrees.
const LEAST_TOLD: f64 = 0.001;

/// What a knife that moves while the gap is closed does to the height of cut and the attitude, in a
/// reader's units; none where the reel moves, and where it did not have to move.
#[must_use]
pub fn knife_moved(solved: &Solved, system: System) -> Option<String> {
    if !solved.document.closing.way().moves_knife() {
        return None;
    }
    let pose = &solved.solution.pose;
    let lifted_mm = pose.edge_lifted_by_closing.mm();
    let turned_deg = pose.attitude_by_closing.deg();
    let is_told = |by: f64| by.abs() >= LEAST_TOLD;
    if !is_told(lifted_mm) && !is_told(turned_deg) {
        return None;
    }
    let lifted = system.length(Length::from_mm(lifted_mm.abs()));
    let (way, more) = if lifted_mm < 0.0 {
        ("lowers", "less")
    } else {
        ("lifts", "more")
    };
    let mut told = format!(
        "The reel-to-knife adjustment moves the knife and {way} its edge by {lifted}: with the rollers left alone the height of cut is that much {more}."
    );
    if is_told(turned_deg) {
        let attitude = system.angle(Angle::from_deg(turned_deg.abs()));
        let more = if turned_deg < 0.0 { "less" } else { "more" };
        // Writing to a `String` cannot fail.
        let _ = write!(told, " It also gives the knife {attitude} {more} attitude.");
    }
    if matches!(solved.unit.setting.stance, Stance::Wanted { .. }) {
        told.push_str(" The numbers here are with the rollers set again.");
    }
    Some(told)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::{ClosingReadings, Document, read_text};
    use crate::units::Quantity;

    fn told(change: impl FnOnce(&mut Document)) -> Option<String> {
        let text = include_str!("../../demo-units/fairway-trailed.ron");
        let mut document = read_text(text).expect("reads");
        document.setting.reel_diameter = Some(document.reel.smallest_diameter.clone());
        change(&mut document);
        let solved = Solved::of(&document).expect("solves");
        knife_moved(&solved, System::Millimetre)
    }

    #[test]
    fn both_ways_of_moving_a_knife_tell_what_they_do_and_a_reel_tells_none() {
        let length = |text: &str| Quantity::parse(text).expect("a length");
        let slides = told(|unit| unit.closing = ClosingReadings::KnifeSlides { lean: None });
        let slides = slides.expect("it moves");
        assert!(
            slides.contains("lifts its edge") && !slides.contains("attitude"),
            "{slides}"
        );
        let pivots = told(|unit| {
            unit.closing = ClosingReadings::KnifePivots {
                ahead: length("-2 in"),
                above: length("2 in"),
            };
        });
        let pivots = pivots.expect("it turns");
        assert!(pivots.contains("attitude"), "{pivots}");
        assert_eq!(
            told(|unit| unit.closing = ClosingReadings::ReelSlides { lean: None }),
            None
        );
        let stays = told(|unit| {
            unit.closing = ClosingReadings::KnifeSlides { lean: None };
            unit.setting.reel_diameter = None;
        });
        assert_eq!(stays, None);
    }
}
