//! When a unit is next due, by its record: the day, or the hours, at which it comes to the first limit
//! if nobody touches its rollers.

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

/// How the day that a unit is due is found, to be read beside it.
pub const DUE_RULE: &str = "Next due: the day, with the hours beside it, by how fast its record says the reel wears, at which the first of these is reached if nobody touches the rollers: minimum diameter (scrap), the sweep's limit, the underside's minimum clearance, the end of the reel-to-knife adjustment. By hours where the record has no days. None where the record has too few diameters, or where they do not come to the unit's own.";

impl Due {
    /// The first of the limits that a unit comes to.
    #[must_use]
    pub fn of(left_alone: &LeftAlone, record: &Record) -> Option<Self> {
        let along = |along| WearRate::of_record_along(record, along);
        let of_reel = |rate: WearRate| rate.of_reel(left_alone.reel_diameter());
        let by_hours = along(WearAlong::Hours).and_then(of_reel);
        let by_days = along(WearAlong::Days);
        let has_days = by_days.is_ok();
        let rate = by_days.map_or(by_hours, of_reel);
        let all = left_alone.all_met();
        let dated = all.filter_map(|(limit, met)| {
            Some(Self {
                limit,
                when: when(met, &rate)?,
                hours: when(met, &by_hours)
                    .filter(|hours| has_days && matches!(hours, When::Then(..))),
            })
        });
        dated.min_by(Self::cmp_when)
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

/// When a limit is met; none where it is not, or the record tells no rate.
#[must_use]
pub fn when(met: Met, rate: &Result<WearRate, NoRate>) -> Option<When> {
    match (met, rate) {
        (Met::Already, _) => Some(When::Now),
        (Met::At(diameter), Ok(rate)) => Some(When::Then(rate.along, rate.reaches(diameter)?)),
        (Met::At(_), Err(_)) | (Met::NotBeforeScrap, _) => None,
    }
}
