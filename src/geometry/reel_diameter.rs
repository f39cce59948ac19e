//! The reel's diameter from readings that take it short: blade tips are so many points on a circle,
//! which a caliper or a tape does not follow.

use std::f64::consts::PI;

use super::{Misread, Number};
use crate::units::Length;

/// The fewest blades whose tips a tape or a caliper can lie over.
const FEWEST_BLADES: u32 = 2;

/// From the longest distance over two tips. With an even number of blades two stand opposite each
/// other; with an odd one the longest chord, across `(n − 1)/2` spaces, is `D·cos(π/2n)`.
///
/// # Errors
/// When the reel has fewer than two blades.
pub fn reel_diameter_over_tips<N: Number>(over_tips_mm: N, blades: u32) -> Result<N, Misread> {
    let blades = enough(blades)?;
    Ok(if blades % 2 == 0 {
        over_tips_mm
    } else {
        over_tips_mm / (PI / (2.0 * f64::from(blades))).cos()
    })
}

/// From two straight bars laid along the reel on opposite sides: each bridges the tips of a twisted
/// blade's neighbours, so what lies between them is the circle of tips, whatever the number of blades.
///
/// # Errors
/// When the bars leave no reel between them.
pub fn reel_diameter_over_bars<N: Number>(over_bars_mm: N, bars_mm: N) -> Result<N, Misread> {
    let between = over_bars_mm - bars_mm;
    if between.re() <= 0.0 {
        return Err(Misread::BarsThickerThanOver {
            over: Length::from_mm(over_bars_mm.re()),
            bars: Length::from_mm(bars_mm.re()),
        });
    }
    Ok(between)
}

/// From a plain tape once round, read along its middle: it lies straight from tip to tip, and turns
/// by a whole turn about the tips at half its thickness.
///
/// # Errors
/// When the reel has fewer than two blades, or the tape is thicker than its length allows.
pub fn reel_diameter_by_tape<N: Number>(
    length_mm: N,
    thickness_mm: N,
    blades: u32,
) -> Result<N, Misread> {
    let perimeter = length_mm - thickness_mm * PI;
    if perimeter.re() <= 0.0 {
        return Err(Misread::TapeThickerThanRound {
            length: Length::from_mm(length_mm.re()),
            thickness: Length::from_mm(thickness_mm.re()),
        });
    }
    by_perimeter(perimeter, blades)
}

/// From a diameter tape, which divides by π and allows for its own thickness, taking what it goes
/// round for a circle.
///
/// # Errors
/// When the reel has fewer than two blades.
pub fn reel_diameter_by_diameter_tape<N: Number>(reading_mm: N, blades: u32) -> Result<N, Misread> {
    by_perimeter(reading_mm * PI, blades)
}

/// The circle about a regular polygon of that perimeter, a corner a blade: `P/(n·sin(π/n))`.
fn by_perimeter<N: Number>(perimeter_mm: N, blades: u32) -> Result<N, Misread> {
    let blades = f64::from(enough(blades)?);
    Ok(perimeter_mm / (blades * (PI / blades).sin()))
}

fn enough(blades: u32) -> Result<u32, Misread> {
    if blades < FEWEST_BLADES {
        return Err(Misread::TooFewBlades);
    }
    Ok(blades)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The tips of a reel, one straight ahead of the axis.
    fn tips(diameter_mm: f64, blades: u32) -> Vec<kurbo::Vec2> {
        let angle = |blade| 2.0 * PI * f64::from(blade) / f64::from(blades);
        (0..blades)
            .map(|blade| 0.5 * diameter_mm * kurbo::Vec2::from_angle(angle(blade)))
            .collect()
    }

    #[test]
    fn every_way_finds_the_diameter_that_its_reading_was_taken_from() {
        for blades in 2..=15 {
            let tips = tips(177.8, blades);
            let longest = tips
                .iter()
                .flat_map(|one| tips.iter().map(move |other| (*one - *other).hypot()))
                .fold(0.0, f64::max);
            let over_tips: f64 = reel_diameter_over_tips(longest, blades).unwrap();
            assert!((over_tips - 177.8).abs() < 1e-9, "{blades}: {over_tips}");

            let next = tips.iter().skip(1).chain(&tips[..1]);
            let round: f64 = tips.iter().zip(next).map(|(a, b)| (*a - *b).hypot()).sum();
            // A tape's middle goes round each corner on an arc of half its thickness.
            let thickness = 0.3;
            let plain: f64 =
                reel_diameter_by_tape(round + PI * thickness, thickness, blades).unwrap();
            assert!((plain - 177.8).abs() < 1e-9, "{blades}: {plain}");
            let reading = round / PI;
            let by_diameter_tape: f64 = reel_diameter_by_diameter_tape(reading, blades).unwrap();
            assert!((by_diameter_tape - 177.8).abs() < 1e-9, "{blades}");
        }
    }

    #[test]
    fn regular_polygons_are_those_of_the_handbook() {
        // Regular polygons in a circle of radius 1, handbook (from memory): the side of a hexagon
        // is 1, that of a triangle 1.73205, that of a pentagon 1.17557, whose diagonal is 1.90211.
        for (blades, side) in [(6, 1.0), (3, 1.732_05), (5, 1.175_57)] {
            let perimeter = f64::from(blades) * side;
            let diameter: f64 = reel_diameter_by_tape(perimeter, 0.0, blades).unwrap();
            assert!((diameter - 2.0).abs() < 1e-5, "{blades}: {diameter}");
        }
        let pentagon: f64 = reel_diameter_over_tips(1.902_11, 5).unwrap();
        assert!((pentagon - 2.0).abs() < 1e-5, "{pentagon}");
        let square: f64 = reel_diameter_over_tips(2.0, 4).unwrap();
        assert!((square - 2.0).abs() < 1e-15);
    }

    #[test]
    fn bars_along_the_reel_read_its_tips_and_themselves() {
        let between: f64 = reel_diameter_over_bars(197.8, 20.0).unwrap();
        assert!((between - 177.8).abs() < 1e-12);
        assert!(reel_diameter_over_bars(20.0, 20.0).is_err());
    }

    #[test]
    fn a_reel_without_two_tips_and_a_tape_too_thick_are_told() {
        let none = reel_diameter_over_tips(100.0, 1);
        assert_eq!(none, Err(Misread::TooFewBlades));
        assert!(reel_diameter_by_tape(10.0, 4.0, 8).is_err());
    }
}
