//! How a reel wears by its unit's record, and when the limits of the unit are met if it is left alone.

use super::due::{Due, NoDue, UNDER_SMALLEST, When, met_by_record, when as when_met};
use super::left_alone::{LeftAlone, Met, WearLimit};
use super::wear_rate::{NoRate, WearAlong, WearRate};
use crate::plate::{Day, Record};
use crate::units::{Length, System};

/// How a reel wears, and what comes.
#[derive(Clone, Debug, PartialEq)]
pub struct WearAhead {
    /// What it is laid along.
    pub along: WearAlong,
    /// The diameters of the reel that is on the unit now.
    pub diameters: Vec<(f64, Length)>,
    /// How fast it wears.
    pub rate: Result<WearRate, NoRate>,
    /// Every limit with where it is met, and when.
    pub limits: Vec<(WearLimit, Met, Option<When>)>,
    /// What it comes to first, by days with the hours beside them.
    pub due: Result<Due, NoDue>,
    /// How fast it wears along the other of both, hours beside dates and dates beside hours.
    beside: Result<WearRate, NoRate>,
}

impl WearAhead {
    /// By a record, along hours or days.
    #[must_use]
    pub fn of(left_alone: &LeftAlone, record: &Record, along: WearAlong) -> Self {
        let diameters = along.diameters(record);
        let of_reel = |rate: WearRate| rate.of_reel(left_alone.reel_diameter());
        let rate = WearRate::of(along, &diameters).and_then(of_reel);
        let beside = match along {
            WearAlong::Hours => WearAlong::Days,
            WearAlong::Days => WearAlong::Hours,
        };
        let beside = WearRate::of_record_along(record, beside).and_then(of_reel);
        let of_reel = rate.as_ref().or(beside.as_ref()).ok();
        let limits = WearLimit::ALL.into_iter().map(|limit| {
            let met = met_by_record(limit, left_alone.met(limit), of_reel);
            (limit, met, when_met(met, &rate))
        });
        Self {
            along,
            limits: limits.collect(),
            diameters,
            rate,
            due: Due::of(left_alone, record),
            beside,
        }
    }

    /// How fast it wears, in a sentence.
    #[must_use]
    pub fn rate_told(&self, system: System) -> String {
        let rate = match &self.rate {
            Ok(rate) => rate,
            Err(why) => return format!("No rate of wear: {why}."),
        };
        let (per, times) = self.along.told_in();
        if rate.slope_mm >= 0.0 {
            return "By its record the reel does not wear.".to_owned();
        }
        let wears = system.length(Length::from_mm(-rate.slope_mm * times));
        let count = rate.count;
        format!(
            "The reel gets smaller by {wears} per {per}, wear and grinding together ({count} diameters)."
        )
    }

    /// When a limit is met, in a sentence; a day that is past is told as overdue.
    #[must_use]
    pub fn limit_told(
        &self,
        (limit, met, when): &(WearLimit, Met, Option<When>),
        system: System,
        today: Day,
    ) -> String {
        let name = limit.name();
        let at = match met {
            Met::NotBeforeScrap => {
                return format!("{}: not before the minimum diameter.", capital(name));
            }
            Met::Already if *limit == WearLimit::Scrap => {
                return format!("{}.", capital(UNDER_SMALLEST));
            }
            Met::Already => return format!("{}: now.", capital(name)),
            Met::At(diameter) => system.length(*diameter),
        };
        let Some(when) = when else {
            return format!("{}: at a reel diameter of {at}.", capital(name));
        };
        let between = match when.between() {
            Some((from, to)) => format!(", likely between {from} and {to} (95 %)"),
            None => "; the diameters on record are too few or too scattered to say how far off that can be".to_owned(),
        };
        let beside = when_met(*met, &self.beside);
        let beside = beside.filter(|_| matches!(when, When::Then(..)));
        let is_overdue = [Some(*when), beside].into_iter().flatten();
        let is_overdue = is_overdue.into_iter().any(|when| when.is_overdue(today));
        let beside = beside.map_or_else(String::new, |beside| format!(" ({})", beside.told()));
        let told = when.told();
        let overdue = if is_overdue { " Overdue." } else { "" };
        format!(
            "{}: {told}{beside}, at a reel diameter of {at}{between}.{overdue}",
            capital(name)
        )
    }
}

fn capital(name: &str) -> String {
    let mut letters = name.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}
