//! How a reel wears by its unit's record, and when the limits of the unit are met if it is left alone.

use super::due::{When, when};
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
}

impl WearAhead {
    /// By a record, along hours or days.
    #[must_use]
    pub fn of(left_alone: &LeftAlone, record: &Record, along: WearAlong) -> Self {
        let diameters = along.diameters(record);
        let rate = WearRate::of(along, &diameters)
            .and_then(|rate| rate.of_reel(left_alone.reel_diameter()));
        let limits = WearLimit::ALL.into_iter().map(|limit| {
            let met = left_alone.met(limit);
            (limit, met, when(met, &rate))
        });
        Self {
            along,
            limits: limits.collect(),
            diameters,
            rate,
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
        format!("The reel wears {wears} per {per}, by {count} diameters (grinding counted in).")
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
            Met::Already => return format!("{}: now.", capital(name)),
            Met::At(diameter) => system.length(*diameter),
        };
        let Some(when) = when else {
            return format!("{}: at a reel diameter of {at}.", capital(name));
        };
        let between = match when.between() {
            Some((from, to)) => format!(", 19 of 20 between {from} and {to}"),
            None => "; the diameters on record are too few or too scattered to say how far off that can be".to_owned(),
        };
        let told = when.told();
        let overdue = if when.is_overdue(today) {
            " Overdue."
        } else {
            ""
        };
        format!(
            "{}: {told}, at a reel diameter of {at}{between}.{overdue}",
            capital(name)
        )
    }
}

fn capital(name: &str) -> String {
    let mut letters = name.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}
