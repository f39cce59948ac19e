//! A day as it is written down: 2026-11-25.

use std::fmt;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use thiserror::Error;

use crate::units::Quoted;

/// A day of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

/// A text that is no day.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{} is not a date; write year, month and day, like 2026-11-25", Quoted(.0))]
pub struct NotADay(pub String);

/// The first of the days that are counted from.
const FIRST: Date = Date::constant(2000, 1, 1);

impl Day {
    /// Reads a day.
    ///
    /// # Errors
    /// When it is not written as 2026-11-25, or there is no such day.
    pub fn parse(text: &str) -> Result<Self, NotADay> {
        let wrong = || NotADay(text.to_owned());
        let is_plain = text.len() == "2026-11-25".len()
            && text.bytes().all(|b| b.is_ascii_digit() || b == b'-');
        if !is_plain {
            return Err(wrong());
        }
        text.parse().map(Self).map_err(|_| wrong())
    }

    /// The day it is now, where this machine stands.
    #[must_use]
    pub fn today() -> Self {
        Self(ZonedDateTime::now().date())
    }

    /// Its year and its month, from 1 to 12.
    #[must_use]
    pub fn year_and_month(self) -> (i32, u32) {
        let month = u32::try_from(self.0.month()).unwrap_or(1);
        (i32::from(self.0.year()), month)
    }

    /// The first day of a month, from 1 to 12, of a year; none past the year 9999.
    #[must_use]
    pub fn first_of(year: u32, month: u32) -> Option<Self> {
        let (year, month) = (i16::try_from(year).ok()?, i8::try_from(month).ok()?);
        Date::new(year, month, 1).ok().map(Self)
    }

    /// Days since the year 2000 began.
    #[must_use]
    pub fn number(self) -> f64 {
        // Two dates are never so far apart that their days are no exact number.
        f64::from((self.0 - FIRST).get_days())
    }

    /// The day of a number of days since the year 2000 began; none past the year 9999.
    #[must_use]
    pub fn of_number(days: f64) -> Option<Self> {
        if !(-4e6..4e6).contains(&days) {
            return None;
        }
        #[expect(clippy::cast_possible_truncation, reason = "within four million days")]
        let days = days.floor() as i64;
        let span = jiff::Span::new().try_days(days).ok()?;
        FIRST.checked_add(span).ok().map(Self)
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_read_counted_and_written() {
        let day = Day::parse("2026-11-25").unwrap();
        assert_eq!(day.to_string(), "2026-11-25");
        let week_on = Day::of_number(day.number() + 7.9).unwrap();
        assert_eq!(week_on.to_string(), "2026-12-02");
        // 2000 has 366 days, as every fourth year but 1900 and its like.
        assert!((Day::parse("2001-01-01").unwrap().number() - 366.0).abs() < 1e-12);
        for wrong in [
            "",
            "2026-02-30",
            "25.11.2026",
            "2026-1-5",
            "2026-11-25T10:00",
            "+002026-1",
        ] {
            assert!(Day::parse(wrong).is_err(), "{wrong}");
        }
        assert_eq!(Day::of_number(f64::NAN), None);
        // That many days lie between both firsts: thirty years, seven of them leap years.
        assert_eq!(Day::of_number(-10_957.0).unwrap().to_string(), "1970-01-01");
        assert!(Day::today() > day);
        assert_eq!(Day::of_number(3e7), None);
    }
}
