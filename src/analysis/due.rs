//! When a unit is next due, by its record: the day, or the hours, at which it comes to the first limit
//! if nobody touches its rollers.

use thiserror::Error;

use super::left_alone::{LeftAlone, Met, WearLimit};
use super::wear_rate::{NoRate, ReachedAt, WearAlong, WearRate};
use crate::plate::{Day, Record};

/// When something is reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum When {
    /// It is past it as it stands.
    Now,
    /// By the wear of the record, with the band about it.
    Then(WearAlong, ReachedAt),
}

impl When {
    /// It as it is read: `now`, `2027-05-03`, `1840 h`.
    #[must_use]
    pub fn told(&self) -> String {
        match self {
            Self::Now => "now".to_owned(),
            Self::Then(along, reached) => along.told(reached.at),
        }
    }

    /// Between which ends 19 of 20 lie; none where the diameters do not tell.
    #[must_use]
    pub fn between(&self) -> Option<(String, String)> {
        let Self::Then(along, reached) = self else {
            return None;
        };
        Some((along.told(reached.earliest?), along.told(reached.latest?)))
    }

    /// Whether its day is past: what is told of it has not been seen to yet, or not been written down.
    #[must_use]
    pub fn is_overdue(&self, today: Day) -> bool {
        matches!(self, Self::Then(WearAlong::Days, reached) if reached.at < today.number())
    }

    /// For sorting: what is past first, then days, then hours.
    fn order(&self) -> (u8, f64) {
        match self {
            Self::Now => (0, 0.0),
            Self::Then(WearAlong::Days, reached) => (1, reached.at),
            Self::Then(WearAlong::Hours, reached) => (2, reached.at),
        }
    }
}

/// What a unit comes to first, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Due {
    /// What is reached.
    pub limit: WearLimit,
    /// When: the day, or the hours where the record has no days.
    pub when: When,
    /// The hours of that day, where the record has hours beside its days.
    pub hours: Option<When>,
}

/// Why a unit is due at no time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NoDue {
    /// The record has too few diameters of its reel.
    #[error("no wear rate yet: two diameters on different days needed")]
    NoRate,
    /// The record's diameters do not come to the unit's own.
    #[error(
        "the diameters in the record do not come to the unit's reel diameter; once the reel is measured, add an event with its diameter"
    )]
    OtherReel,
    /// By its record the reel does not wear.
    #[error("by its record the reel does not wear")]
    NoWear,
}

impl NoDue {
    /// The same in few words, for a table.
    #[must_use]
    pub const fn in_short(self) -> &'static str {
        match self {
            Self::NoRate => "no wear rate yet",
            Self::OtherReel => "not the record's reel",
            Self::NoWear => "no wear on record",
        }
    }
}

/// What is told of a reel at which no forecast is left to make.
pub(super) const UNDER_SMALLEST: &str = "reel already at or under its minimum diameter (scrap)";

/// When a unit is next due, or why it is not known, in a sentence.
#[must_use]
pub fn due_told(due: &Result<Due, NoDue>, today: Day) -> String {
    match due {
        Ok(due) => {
            let (when, limit) = (due.told(), due.limit.name());
            let overdue = due.overdue(today).map_or("", |_| " Overdue.");
            let limit = match (due.limit, due.when) {
                (WearLimit::Scrap, When::Now) => UNDER_SMALLEST,
                _ => limit,
            };
            format!("Next due: {when}, {limit}.{overdue}")
        }
        Err(why) => format!("Next due: not known, {why}."),
    }
}

/// How the day that a unit is due is found, to be read beside it.
pub const DUE_RULE: &str = "Next due: when the first of these comes, rollers untouched: reel at its minimum diameter (scrap), sweep at its limit, underside at its minimum clearance, end of the reel-to-knife adjustment. Reckoned from how fast the reel diameters in the record get smaller.";

impl Due {
    /// The first of the limits that a unit comes to.
    ///
    /// # Errors
    /// When the record does not tell how fast the unit's reel wears.
    pub fn of(left_alone: &LeftAlone, record: &Record) -> Result<Self, NoDue> {
        let along = |along| {
            let rate = WearRate::of_record_along(record, along)?;
            rate.of_reel(left_alone.reel_diameter())
        };
        let (by_days, by_hours) = (along(WearAlong::Days), along(WearAlong::Hours));
        let has_days = by_days.is_ok();
        let rate = by_days.or(by_hours);
        let all = left_alone.all_met();
        let dated = all.filter_map(|(limit, met)| {
            let met = met_by_record(limit, met, rate.as_ref().ok());
            Some(Self {
                limit,
                when: when(met, &rate)?,
                hours: when(met, &by_hours)
                    .filter(|hours| has_days && matches!(hours, When::Then(..))),
            })
        });
        dated
            .min_by(Self::cmp_when)
            .ok_or(match (by_days, by_hours) {
                (Ok(_), _) | (_, Ok(_)) => NoDue::NoWear,
                (Err(NoRate::OtherReel), _) | (_, Err(NoRate::OtherReel)) => NoDue::OtherReel,
                (Err(NoRate::TooFew | NoRate::OneTime), Err(NoRate::TooFew | NoRate::OneTime)) => {
                    NoDue::NoRate
                }
            })
    }

    /// "overdue" where its day is past.
    #[must_use]
    pub fn overdue(&self, today: Day) -> Option<&'static str> {
        self.when.is_overdue(today).then_some("overdue")
    }

    /// It for a table: `overdue: 2027-05-03, 1840 h`.
    #[must_use]
    pub fn told_on(&self, today: Day) -> String {
        let overdue = self.overdue(today);
        let overdue = overdue.map_or_else(String::new, |overdue| format!("{overdue}: "));
        overdue + &self.told()
    }

    /// It as it is read: `2027-05-03, 1840 h`.
    #[must_use]
    pub fn told(&self) -> String {
        let hours = self.hours.map(|hours| format!(", {}", hours.told()));
        self.when.told() + &hours.unwrap_or_default()
    }

    /// Which of two comes first.
    #[must_use]
    pub fn cmp_when(&self, other: &Self) -> std::cmp::Ordering {
        let ((one, at), (other, other_at)) = (self.when.order(), other.when.order());
        one.cmp(&other).then(at.total_cmp(&other_at))
    }
}

/// Where a limit is met, once the record's last diameter of the unit's reel is heard: a reel that was read
/// at its minimum, or under it, has no way to go.
pub(super) fn met_by_record(limit: WearLimit, met: Met, rate: Option<&WearRate>) -> Met {
    match (limit, met, rate) {
        (WearLimit::Scrap, Met::At(scrap), Some(rate)) if rate.last <= scrap => Met::Already,
        _ => met,
    }
}

/// When a limit is met; none where it is not, or the record tells no rate.
#[must_use]
pub fn when(met: Met, rate: &Result<WearRate, NoRate>) -> Option<When> {
    match (met, rate) {
        (Met::Already, _) => Some(When::Now),
        (Met::At(diameter), Ok(rate)) => Some(When::Then(rate.along, rate.reaches(diameter)?)),
        (Met::At(_), Err(_)) | (Met::NotBeforeScrap, _) => None,
    }
}
