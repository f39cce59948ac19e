//! A roller's runout: the circle fitted to an indicator's readings round a turn, and a bent roller's
//! bow from three of them.

use kurbo::Vec2;
use thiserror::Error;

use crate::units::{Angle, Length};

/// How far the middle of a roller's surface stands from the axis it turns about, and which way.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OutOfCentre {
    /// Its part along the angular zero.
    pub cosine: Length,
    /// Its part a quarter turn on.
    pub sine: Length,
}

impl OutOfCentre {
    fn of(mm: Vec2) -> Self {
        Self {
            cosine: Length::from_mm(mm.x),
            sine: Length::from_mm(mm.y),
        }
    }

    fn mm(self) -> Vec2 {
        Vec2::new(self.cosine.mm(), self.sine.mm())
    }

    /// How far: the eccentricity.
    #[must_use]
    pub fn size(self) -> Length {
        Length::from_mm(self.mm().hypot())
    }

    /// Which way, from the angular zero, above -180° up to 180°; 0° where it is in its centre.
    #[must_use]
    pub fn direction(self) -> Angle {
        let mm = self.mm();
        if mm.hypot() < LEAST_MM {
            return Angle::ZERO;
        }
        let deg = mm.atan2().to_degrees();
        Angle::from_deg(if deg <= -180.0 { deg + 360.0 } else { deg })
    }

    /// The middle of several; in its centre when there are none.
    #[must_use]
    pub fn mean(all: &[Self]) -> Self {
        let sum = all
            .iter()
            .map(|one| one.mm())
            .fold(Vec2::ZERO, |a, b| a + b);
        let count = u32::try_from(all.len()).unwrap_or(u32::MAX).max(1);
        Self::of(sum / f64::from(count))
    }
}

/// Less than this is no eccentricity: the last digits of the sums.
const LEAST_MM: f64 = 1e-9;

/// Readings at fewer than three different angles, which any circle fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error("{count} different angles; a circle takes three at least")]
pub struct TooFewAngles {
    /// How many there are.
    pub count: usize,
}

/// Angles nearer than this are one, in degrees.
const SAME_ANGLE_DEG: f64 = 1e-3;

/// A roller's surface at one place along it, by the least squares of
/// `reading = mean + a·cos θ + b·sin θ`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FittedCircle {
    /// What the indicator reads in the middle of a turn.
    pub mean: Length,
    /// How far the surface is out of its centre: a and b.
    pub out_of_centre: OutOfCentre,
    /// Largest reading less smallest.
    pub read: Length,
    /// What the circle leaves of the readings, from peak to valley: flats, dents, dirt.
    pub left_over: Length,
    /// The largest part of the turn between two places next to each other: nobody read it there.
    pub unread: Angle,
}

impl FittedCircle {
    /// Fits a circle to readings, each at an angle of the roller's turn. The angles need not be even.
    ///
    /// # Errors
    /// When the angles are fewer than three different ones.
    pub fn of(readings: &[(Angle, Length)]) -> Result<Self, TooFewAngles> {
        let angles = different_angles(readings);
        if angles.len() < 3 {
            return Err(TooFewAngles {
                count: angles.len(),
            });
        }
        let column = |part: fn(Angle) -> f64| {
            let parts: Vec<f64> = readings.iter().map(|(angle, _)| part(*angle)).collect();
            about_mean(parts)
        };
        let (cosines_mean, cosines) = column(|angle| angle.rad().cos());
        let (sines_mean, sines) = column(|angle| angle.rad().sin());
        let (reading_mean, read) = about_mean(readings.iter().map(|(_, at)| at.mm()).collect());
        // The longer column first, so that it is never near none.
        let (a, b) = if dot(&cosines, &cosines) >= dot(&sines, &sines) {
            least_squares(&cosines, &sines, &read)
        } else {
            let (b, a) = least_squares(&sines, &cosines, &read);
            (a, b)
        };
        let residuals = (0..read.len()).map(|at| read[at] - a * cosines[at] - b * sines[at]);
        let left_over_mm = peak_to_valley(residuals);
        Ok(Self {
            mean: Length::from_mm(reading_mean - a * cosines_mean - b * sines_mean),
            out_of_centre: OutOfCentre::of(Vec2::new(a, b)),
            read: Length::from_mm(peak_to_valley(read.iter().copied())),
            left_over: Length::from_mm(left_over_mm),
            unread: largest_between(&angles),
        })
    }

    /// Whether no more than half a turn lies between two places that were read: what lies there can hide
    /// the largest reading as well as the smallest.
    #[must_use]
    pub fn is_read_all_round(&self) -> bool {
        self.unread.deg() <= 180.0 + SAME_ANGLE_DEG
    }

    /// Twice the eccentricity: what an indicator reads over a whole turn of a round roller. Few
    /// readings fall short of it, four of them by up to 29 %.
    #[must_use]
    pub fn read_by_fit(&self) -> Length {
        self.out_of_centre.size() * 2.0
    }
}

/// The different angles of a turn, in their order.
fn different_angles(readings: &[(Angle, Length)]) -> Vec<f64> {
    let turn = |angle: &Angle| angle.deg().rem_euclid(360.0);
    let mut angles: Vec<f64> = readings.iter().map(|(angle, _)| turn(angle)).collect();
    angles.sort_by(f64::total_cmp);
    angles.dedup_by(|next, kept| *next - *kept < SAME_ANGLE_DEG);
    let goes_round = match angles[..] {
        [first, .., last] => first + 360.0 - last < SAME_ANGLE_DEG,
        _ => false,
    };
    if goes_round {
        angles.pop();
    }
    angles
}

/// The largest angle between two next to each other round a turn.
fn largest_between(angles: &[f64]) -> Angle {
    let nexts = angles.iter().skip(1).copied();
    let first = angles.first().map(|first| first + 360.0);
    let between = angles
        .iter()
        .zip(nexts.chain(first))
        .map(|(at, next)| next - at);
    Angle::from_deg(between.fold(0.0, f64::max))
}

/// The mean of some numbers, and what each is over it.
fn about_mean(mut numbers: Vec<f64>) -> (f64, Vec<f64>) {
    let count = u32::try_from(numbers.len()).unwrap_or(u32::MAX);
    let mean = numbers.iter().sum::<f64>() / f64::from(count);
    for number in &mut numbers {
        *number -= mean;
    }
    (mean, numbers)
}

fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

/// What makes `a·first + b·second` come nearest to `wanted`, each about its mean: second made square
/// to first before it is used (Gram and Schmidt).
fn least_squares(first: &[f64], second: &[f64], wanted: &[f64]) -> (f64, f64) {
    let own = dot(first, first);
    let along = dot(first, second) / own;
    let square: Vec<f64> = first
        .iter()
        .zip(second)
        .map(|(f, s)| s - along * f)
        .collect();
    let b = dot(&square, wanted) / dot(&square, &square);
    let a = dot(first, wanted) / own - b * along;
    (a, b)
}

fn peak_to_valley(numbers: impl Iterator<Item = f64>) -> f64 {
    let (low, high) = numbers.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), number| {
        (low.min(number), high.max(number))
    });
    high - low
}

/// How far a bent roller stands out at its middle, from what is out of centre at its ends and half way
/// between them: `e_middle − (e_left + e_right)/2`, sides and all.
#[must_use]
pub fn bow(left: OutOfCentre, middle: OutOfCentre, right: OutOfCentre) -> OutOfCentre {
    OutOfCentre::of(middle.mm() - (left.mm() + right.mm()) * 0.5)
}

/// What an indicator should read whose lever stands at an angle to the surface: `reading · cos A`.
#[must_use]
pub fn true_reading(reading: Length, lever: Angle) -> Length {
    reading * lever.rad().cos()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thou(thou: f64) -> Length {
        Length::from_inches(thou / 1000.0)
    }

    fn in_thou(length: Length) -> f64 {
        length.inches() * 1000.0
    }

    fn at(thou_out: f64, deg: f64) -> OutOfCentre {
        OutOfCentre::of(Vec2::from_angle(deg.to_radians()) * thou(thou_out).mm())
    }

    #[test]
    fn eight_readings_give_the_circle_worked_by_hand() {
        let read = [0.0, 1.0, 3.0, 4.0, 4.0, 3.0, 1.0, 0.0];
        let readings: Vec<_> = (0_u8..8)
            .zip(read)
            .map(|(place, reading)| (Angle::from_deg(45.0 * f64::from(place)), thou(reading)))
            .collect();
        let circle = FittedCircle::of(&readings).unwrap();
        // Worked by hand: with even angles a = Σ r·cos θ / 4 and b = Σ r·sin θ / 4.
        for (found, wanted) in [
            (in_thou(circle.mean), 2.0),
            (in_thou(circle.out_of_centre.cosine), -2.0607),
            (in_thou(circle.out_of_centre.sine), 0.8536),
            (in_thou(circle.out_of_centre.size()), 2.2304),
            (circle.out_of_centre.direction().deg(), 157.5),
            (in_thou(circle.read), 4.0),
            (in_thou(circle.read_by_fit()), 4.4609),
        ] {
            assert!((found - wanted).abs() < 5e-5, "{found} for {wanted}");
        }
        assert!(
            (in_thou(circle.left_over) - 0.293).abs() < 5e-4,
            "{circle:?}"
        );
    }

    #[test]
    fn two_angles_are_refused_however_they_are_written() {
        for (angles, count) in [
            (&[0.0, 90.0][..], 2),
            (&[0.0, 90.0, 360.0, 450.0, -270.0], 2),
            (&[0.0, 359.9999, 180.0], 2),
            (&[], 0),
        ] {
            let readings: Vec<_> = angles
                .iter()
                .map(|deg| (Angle::from_deg(*deg), thou(1.0)))
                .collect();
            assert_eq!(
                FittedCircle::of(&readings),
                Err(TooFewAngles { count }),
                "{angles:?}"
            );
        }
    }

    #[test]
    fn four_readings_fall_short_of_twice_the_eccentricity_by_29_percent_at_most() {
        let read = |turned_deg: f64| {
            let readings: Vec<_> = (0_u8..4)
                .map(|place| {
                    let deg = 90.0 * f64::from(place);
                    let out = (deg - turned_deg).to_radians().cos();
                    (Angle::from_deg(deg), thou(out))
                })
                .collect();
            let circle = FittedCircle::of(&readings).unwrap();
            circle.read.mm() / circle.read_by_fit().mm()
        };
        assert!((read(0.0) - 1.0).abs() < 1e-12);
        let worst = (0_u8..90)
            .map(|deg| read(f64::from(deg)))
            .fold(1.0, f64::min);
        assert!(
            (worst - std::f64::consts::FRAC_1_SQRT_2).abs() < 1e-12,
            "{worst}"
        );
    }

    #[test]
    fn a_bow_is_what_the_middle_has_over_its_ends() {
        // Worked by hand: (0, 4) less (1, 0) is (-1, 4).
        let bow = bow(at(1.0, 0.0), at(4.0, 90.0), at(1.0, 0.0));
        assert!((in_thou(bow.size()) - 17.0_f64.sqrt()).abs() < 1e-12);
        assert!((bow.direction().deg() - 104.0362).abs() < 1e-4);
        assert_eq!(OutOfCentre::mean(&[]), OutOfCentre::default());
        let mean = OutOfCentre::mean(&[at(2.0, 0.0), at(2.0, 90.0)]);
        assert!((mean.direction().deg() - 45.0).abs() < 1e-9);
    }

    #[test]
    fn a_lever_at_an_angle_reads_too_much() {
        // Tables of indicators give 0.966 at 15° and 0.866 at 30° (common practice, no source).
        for (deg, factor) in [(0.0, 1.0), (15.0, 0.966), (30.0, 0.866)] {
            let reading = true_reading(Length::from_mm(1.0), Angle::from_deg(deg));
            assert!((reading.mm() - factor).abs() < 5e-4, "{deg}");
        }
    }
}
