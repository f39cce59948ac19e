//! Hours beside those of a record: a clock never runs backwards.

use crate::plate::{Day, Record};
use crate::units::fixed;

/// Hours that cannot be beside others on record.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct HoursAgainst {
    hours: f64,
    /// What is on record, and of which day, where that is known.
    other: f64,
    on: Option<Day>,
}

/// What on record a clock's hours on a day cannot be beside: the most of those before, where they are fewer,
/// and the least of those after, where they are more. Without a day, on record or here, they were read in
/// the order they were written down; those of the same day are left out, since they are put right by these.
pub(super) fn hours_against(hours: f64, day: Option<Day>, record: &Record) -> Vec<HoursAgainst> {
    let counting = record.hours_that_count().into_iter();
    let read = counting.filter(|(_, on)| day.is_none() || *on != day);
    let is_later = |on: Option<Day>| matches!((on, day), (Some(on), Some(day)) if on > day);
    let (later, earlier): (Vec<_>, Vec<_>) = read.partition(|(_, on)| is_later(*on));
    let by_hours = |one: &(f64, _), other: &(f64, _)| one.0.total_cmp(&other.0);
    let most = earlier.into_iter().max_by(by_hours);
    let least = later.into_iter().min_by(by_hours);
    let fewer = most.filter(|(most, _)| hours < *most);
    let more = least.filter(|(least, _)| hours > *least);
    let against = fewer.into_iter().chain(more);
    against
        .map(|(other, on)| HoursAgainst { hours, other, on })
        .collect()
}

impl HoursAgainst {
    /// What they cannot be beside, in a sentence without its end.
    pub(super) fn told(&self) -> String {
        let than = if self.hours < self.other {
            "fewer"
        } else {
            "more"
        };
        let on = self.on.map_or_else(String::new, |on| format!(" of {on}"));
        let (hours, other) = (clock(self.hours), clock(self.other));
        format!("{hours} h are {than} than the {other} h on record{on}")
    }
}

/// Hours as a clock shows them, with as many decimals as they have, to the thousandth.
fn clock(hours: f64) -> String {
    const MOST: usize = 3;
    let told = fixed(hours, MOST);
    let told = told.trim_end_matches('0').trim_end_matches('.');
    told.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_shows_what_it_has() {
        for (hours, shown) in [
            (1207.0, "1207"),
            (1210.0, "1210"),
            (1207.2, "1207.2"),
            (1207.25, "1207.25"),
            (0.0, "0"),
        ] {
            assert_eq!(clock(hours), shown);
        }
    }
}
