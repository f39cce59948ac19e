//! How fast a reel wears, and when it reaches scrap: a straight line through its diameters, and the
//! band in which the next one is to be expected.

use std::collections::BTreeMap;

use statrs::distribution::{ContinuousCDF as _, StudentsT};
use thiserror::Error;

use crate::plate::{Day, Entry, Record};
use crate::units::{Length, fixed};

/// What a reel's diameters are laid along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WearAlong {
    /// The machine's hours.
    Hours,
    /// Days since the year 2000 began.
    Days,
}

impl WearAlong {
    /// Both, in the order they are offered.
    pub const ALL: [Self; 2] = [Self::Hours, Self::Days];

    /// What it is called in a choice and beside an axis.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hours => "hours",
            Self::Days => "date",
        }
    }

    /// Where an entry stands; none where it does not tell.
    #[must_use]
    pub fn of_entry(self, entry: &Entry) -> Option<f64> {
        match self {
            Self::Hours => entry.hours_run(),
            Self::Days => entry.day().map(Day::number),
        }
    }

    /// A place along it as it is read: `1207 h`, `2026-11-25`.
    #[must_use]
    pub fn told(self, at: f64) -> String {
        match self {
            Self::Hours => format!("{} h", fixed(at, 0)),
            Self::Days => Day::of_number(at).map_or_else(|| "never".to_owned(), |d| d.to_string()),
        }
    }

    /// What a rate is told for, and how many hours or days that is.
    #[must_use]
    pub const fn told_in(self) -> (&'static str, f64) {
        match self {
            Self::Hours => ("100 hours", 100.0),
            Self::Days => ("30 days", 30.0),
        }
    }

    /// The diameters of the reel that is on the unit now, each with its hours or days, in the order of
    /// the record.
    #[must_use]
    pub fn diameters(self, record: &Record) -> Vec<(f64, Length)> {
        points(record, self)
    }
}

/// Why no rate can be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NoRate {
    /// Too few diameters.
    #[error(
        "the record has too few diameters of this reel; two at different hours or dates are needed"
    )]
    TooFew,
    /// All of them at one time.
    #[error("all the diameters in the record are from the same time")]
    OneTime,
    /// They do not come to the diameter that the unit has.
    #[error(
        "the diameters in the record do not come to the unit's reel diameter; once the reel is measured, add an event with its diameter"
    )]
    OtherReel,
}

/// A straight line through a reel's diameters, by least squares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WearRate {
    /// What they are laid along.
    pub along: WearAlong,
    /// How many there are.
    pub count: usize,
    /// How much larger the diameter is an hour or a day later: less than zero as a reel wears.
    pub slope_mm: f64,
    /// The last of the diameters.
    pub last: Length,
    /// The last of the hours or days.
    last_along: f64,
    /// The middle of the hours or days.
    mean_along: f64,
    /// The middle of the diameters.
    mean_mm: f64,
    /// The sum of the squares of the hours or days about their middle.
    spread: f64,
    /// Student's t times the standard deviation of a diameter about the line; none with two diameters,
    /// which any line meets.
    band_mm: Option<f64>,
}

/// When a reel reaches a diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReachedAt {
    /// By the line, in hours or days.
    pub at: f64,
    /// When it does at the earliest, by the band; none where the diameters do not tell.
    pub earliest: Option<f64>,
    /// When it does at the latest, by the band; none where the diameters do not tell.
    pub latest: Option<f64>,
}

/// The share of the next diameters that lie within the band.
const WITHIN_BAND: f64 = 0.95;
/// What every diameter scatters by at the least: a reel is read to half a thousandth of an inch at the best
/// (common practice, no source), rectangular (JCGM 100:2008, 4.3.7). Diameters that lie on a line by chance
/// tell no more than that.
const READ_TO_MM: f64 = 0.0127 / 1.732_050_807_568_877_2;
/// A diameter larger by more than this than the one before is that of another reel.
pub(super) const OTHER_REEL: Length = Length::from_mm(1.0);

impl WearRate {
    /// The rate of the reel that is on a unit now, by the unit's record: along hours where as many
    /// diameters have them as have a day, else along days.
    ///
    /// # Errors
    /// When the record has too few diameters of it.
    pub fn of_record(record: &Record) -> Result<Self, NoRate> {
        let [hours, days] = WearAlong::ALL.map(|along| along.diameters(record));
        if hours.len() >= days.len() {
            Self::of(WearAlong::Hours, &hours)
        } else {
            Self::of(WearAlong::Days, &days)
        }
    }

    /// The rate of the reel that is on a unit now along hours or days, whichever is asked for.
    ///
    /// # Errors
    /// When the record has too few diameters of it with their hours or days.
    pub fn of_record_along(record: &Record, along: WearAlong) -> Result<Self, NoRate> {
        Self::of(along, &along.diameters(record))
    }

    /// The line through diameters, each with its hours or days.
    ///
    /// # Errors
    /// When there are fewer than two, or all at one time.
    pub fn of(along: WearAlong, points: &[(f64, Length)]) -> Result<Self, NoRate> {
        if points.len() < 2 {
            return Err(NoRate::TooFew);
        }
        let count = f64::from(u32::try_from(points.len()).unwrap_or(u32::MAX));
        let mean = |of: fn(&(f64, Length)) -> f64| points.iter().map(of).sum::<f64>() / count;
        let mean_along = mean(|(at, _)| *at);
        let mean_mm = mean(|(_, diameter)| diameter.mm());
        let about = |(at, diameter): &(f64, Length)| (at - mean_along, diameter.mm() - mean_mm);
        let by_time = |one: &&(f64, Length), other: &&(f64, Length)| one.0.total_cmp(&other.0);
        let Some(&(last_along, last)) = points.iter().max_by(by_time) else {
            return Err(NoRate::TooFew);
        };
        let spread: f64 = points.iter().map(about).map(|(x, _)| x * x).sum();
        if spread <= f64::EPSILON * mean_along.abs().max(1.0) {
            return Err(NoRate::OneTime);
        }
        let slope_mm = points.iter().map(about).map(|(x, y)| x * y).sum::<f64>() / spread;
        let left_mm = |(x, y): (f64, f64)| (y - slope_mm * x).powi(2);
        let squares: f64 = points.iter().map(about).map(left_mm).sum();
        let free = count - 2.0;
        let band_mm = (free > 0.0)
            .then(|| StudentsT::new(0.0, 1.0, free).ok())
            .flatten()
            .map(|student| student.inverse_cdf(0.5 + WITHIN_BAND / 2.0))
            .map(|t| t * (squares / free).sqrt().max(READ_TO_MM));
        Ok(Self {
            along,
            count: points.len(),
            slope_mm,
            last,
            last_along,
            mean_along,
            mean_mm,
            spread,
            band_mm,
        })
    }

    /// The diameter to expect at so many hours or days, and how far off 19 of 20 are at the most either
    /// way; that is none with two diameters alone.
    #[must_use]
    pub fn expected(&self, at: f64) -> (Length, Option<Length>) {
        let from_middle = at - self.mean_along;
        let diameter = Length::from_mm(self.mean_mm + self.slope_mm * from_middle);
        let count = f64::from(u32::try_from(self.count).unwrap_or(u32::MAX));
        let widening = (1.0 + 1.0 / count + from_middle.powi(2) / self.spread).sqrt();
        (
            diameter,
            self.band_mm.map(|band| Length::from_mm(band * widening)),
        )
    }

    /// This rate, if it is that of a unit's reel: the unit's diameter lies in the band at the last of the
    /// record's diameters, or no further off the line than another reel is told by.
    ///
    /// # Errors
    /// When it does not, as after a new reel that is not in the record.
    pub fn of_reel(self, diameter: Length) -> Result<Self, NoRate> {
        let (last, band) = self.expected(self.last_along);
        let most_mm = band.map_or(0.0, Length::mm).max(OTHER_REEL.mm());
        if (diameter.mm() - last.mm()).abs() > most_mm {
            return Err(NoRate::OtherReel);
        }
        Ok(self)
    }

    /// When the reel reaches a diameter; none where it does not wear.
    ///
    /// The ends of the band meet it where `(d − line)² = band²`, a quadratic in the time.
    #[must_use]
    pub fn reaches(&self, diameter: Length) -> Option<ReachedAt> {
        if self.slope_mm >= 0.0 {
            return None;
        }
        let below_mm = diameter.mm() - self.mean_mm;
        let at = self.mean_along + below_mm / self.slope_mm;
        let ends = self.band_mm.and_then(|band| {
            let count = f64::from(u32::try_from(self.count).unwrap_or(u32::MAX));
            let squared = band.powi(2);
            let bends = self.slope_mm.powi(2) - squared / self.spread;
            // Where the wear does not stand out of the scatter, the band never comes down for good.
            if bends <= 0.0 {
                return None;
            }
            let middle = self.slope_mm * below_mm / bends;
            let constant = below_mm.powi(2) - squared * (1.0 + 1.0 / count);
            let half = (middle.powi(2) - constant / bends).max(0.0).sqrt();
            Some((middle - half, middle + half))
        });
        let at_time = |from_middle: f64| self.mean_along + from_middle;
        Some(ReachedAt {
            at,
            earliest: ends.map(|(early, _)| at_time(early)),
            latest: ends.map(|(_, late)| at_time(late)),
        })
    }
}

/// The diameters of the reel that is on the unit now, each with what it is laid along. Of one day's the
/// last counts; where it has no hours, those written down before it for that day are its own.
fn points(record: &Record, along: WearAlong) -> Vec<(f64, Length)> {
    let entries = &record.entries;
    let replaced = record.diameter_replaced_by();
    let mut before = BTreeMap::new();
    for (entry, by) in entries.iter().zip(&replaced) {
        if let (Some(by), Some(at)) = (by, along.of_entry(entry)) {
            before.insert(*by, at);
        }
    }
    let counted = entries.iter().zip(&replaced).enumerate();
    let counted = counted.filter(|(_, (_, by))| by.is_none());
    let read = counted.filter_map(|(place, (entry, _))| {
        let diameter = entry.reel_diameter.as_ref()?.value();
        let at = along.of_entry(entry);
        Some((at.or_else(|| before.get(&place).copied())?, diameter))
    });
    // What was written down late stands where it belongs.
    let mut read: Vec<(f64, Length)> = read.collect();
    read.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut points: Vec<(f64, Length)> = Vec::new();
    for point in read {
        let is_other_reel = points
            .last()
            .is_some_and(|last| point.1 > last.1 + OTHER_REEL);
        if is_other_reel {
            points.clear();
        }
        points.push(point);
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Quantity;

    fn rate(points: &[(f64, f64)]) -> Result<WearRate, NoRate> {
        let points: Vec<_> = points
            .iter()
            .map(|(at, mm)| (*at, Length::from_mm(*mm)))
            .collect();
        WearRate::of(WearAlong::Hours, &points)
    }

    #[test]
    fn the_line_and_its_band_are_those_worked_by_hand() {
        // Worked by hand: middles 2 and 7, slope −4/10·… of the sums Σxy/Σx² = −9/10; residuals
        // 0.2, −0.9, 1, −0.1, −0.2 with squares 1.9, so s² = 1.9/3; t for 3 degrees of freedom at
        // 97.5 % is 3.1824 (handbook tables).
        let line = rate(&[(0.0, 9.0), (1.0, 7.0), (2.0, 8.0), (3.0, 6.0), (4.0, 5.0)]).unwrap();
        assert!((line.slope_mm + 0.9).abs() < 1e-12, "{line:?}");
        let (diameter, off) = line.expected(5.0);
        assert!((diameter.mm() - 4.3).abs() < 1e-12);
        let s = (1.9_f64 / 3.0).sqrt();
        let wanted = 3.182_446_305 * s * (1.0 + 0.2 + 9.0_f64 / 10.0).sqrt();
        assert!((off.unwrap().mm() - wanted).abs() < 1e-6, "{off:?}");
        let reached = line.reaches(Length::from_mm(4.3)).unwrap();
        assert!((reached.at - 5.0).abs() < 1e-12);
        // The band's ends stand at that diameter there.
        for (end, side) in [(reached.earliest, -1.0), (reached.latest, 1.0)] {
            let (diameter, off) = line.expected(end.unwrap());
            let at_end = diameter.mm() + side * off.unwrap().mm();
            assert!((at_end - 4.3).abs() < 1e-9, "{at_end}");
        }
    }

    #[test]
    fn what_does_not_wear_or_scatters_too_much_has_no_end() {
        assert_eq!(rate(&[(0.0, 5.0)]), Err(NoRate::TooFew));
        assert_eq!(rate(&[(3.0, 5.0), (3.0, 4.0)]), Err(NoRate::OneTime));
        let growing = rate(&[(0.0, 5.0), (1.0, 5.1)]).unwrap();
        assert_eq!(growing.reaches(Length::from_mm(4.0)), None);
        let two = rate(&[(0.0, 5.0), (1.0, 4.9)]).unwrap();
        let reached = two.reaches(Length::from_mm(4.0)).unwrap();
        assert!((reached.at - 10.0).abs() < 1e-9 && reached.earliest.is_none());
        let scattered = rate(&[(0.0, 5.0), (1.0, 4.0), (2.0, 5.2), (3.0, 4.5)]).unwrap();
        let reached = scattered.reaches(Length::from_mm(3.0)).unwrap();
        assert_eq!((reached.earliest, reached.latest), (None, None));
    }

    #[test]
    fn a_new_reel_begins_anew_and_hours_go_first() {
        let entry = |date: &str, hours: &str, diameter: &str| Entry {
            date: date.to_owned(),
            hours: hours.to_owned(),
            reel_diameter: Quantity::parse(diameter).ok(),
            ..Entry::default()
        };
        let mut record = Record {
            entries: vec![
                entry("2026-01-01", "100", "117 mm"),
                entry("2026-02-01", "200", "127 mm"),
                entry("2026-03-01", "300", "126.9 mm"),
                entry("2026-04-01", "400", "126.8 mm"),
            ],
            damaged: Vec::new(),
        };
        let rate = WearRate::of_record(&record).unwrap();
        assert_eq!((rate.along, rate.count), (WearAlong::Hours, 3));
        assert!((rate.slope_mm + 0.001).abs() < 1e-12, "{rate:?}");
        record.entries[1].hours.clear();
        let rate = WearRate::of_record(&record).unwrap();
        assert_eq!((rate.along, rate.count), (WearAlong::Days, 3));
    }
}
