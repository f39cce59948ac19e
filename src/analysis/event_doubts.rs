//! What of an event is to be asked about before it is kept: it makes sense by itself, and hardly beside
//! the record or the unit.

use super::hours::hours_against;
use super::wear_rate::{WearAlong, WearRate};
use crate::plate::{Day, Entry, EntryField, Record};
use crate::units::{Length, System};

/// What is written for what was done when a reel is a new one.
const NEW_REEL: &str = "new reel";

/// Something to be asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EventDoubt {
    /// The field it is about.
    pub field: EntryField,
    /// What is odd about it, in a sentence.
    pub told: String,
}

/// A reel as its unit's file has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReelSizes {
    /// Its diameter when it was new.
    pub new: Length,
    /// Its minimum diameter (scrap).
    pub smallest: Length,
}

/// What of an event is odd beside a record, to which it is to be added, and beside the unit's reel.
///
/// A diameter of a day that has one already takes its place, so it is held against the other days alone.
#[must_use]
pub fn event_doubts(
    event: &Entry,
    record: &Record,
    reel: Option<ReelSizes>,
    today: Day,
    system: System,
) -> Vec<EventDoubt> {
    let others = without_day_of(event, record);
    let date = date_doubt(event, record, today);
    let hours = hours_doubts(event, &others);
    let diameter = diameter_doubts(event, &others, reel, system);
    date.into_iter().chain(hours).chain(diameter).collect()
}

fn doubt(field: EntryField, told: String) -> EventDoubt {
    EventDoubt { field, told }
}

/// The record without what was written down for the day of an event.
fn without_day_of(event: &Entry, record: &Record) -> Record {
    let day = event.day();
    let is_other = |entry: &&Entry| day.is_none() || entry.day() != day;
    Record {
        entries: record.entries.iter().filter(is_other).cloned().collect(),
        damaged: Vec::new(),
    }
}

fn date_doubt(event: &Entry, record: &Record, today: Day) -> Option<EventDoubt> {
    let day = event.day()?;
    let told = if day > today {
        format!("{day} is in the future: today is {today}.")
    } else {
        let last = record.last_day().filter(|last| *last > day)?;
        // An event of a day on record puts that one right.
        if record.entries.iter().any(|entry| entry.day() == Some(day)) {
            return None;
        }
        format!("{day} is before the last event on record, {last}.")
    };
    Some(doubt(EntryField::Date, told))
}

fn hours_doubts(event: &Entry, others: &Record) -> Vec<EventDoubt> {
    let Some(hours) = event.hours_run() else {
        return Vec::new();
    };
    let against = hours_against(hours, event.day(), others).into_iter();
    against
        .map(|against| doubt(EntryField::Hours, format!("{}.", against.told())))
        .collect()
}

fn diameter_doubts(
    event: &Entry,
    others: &Record,
    reel: Option<ReelSizes>,
    system: System,
) -> Vec<EventDoubt> {
    let Some(read) = &event.reel_diameter else {
        return Vec::new();
    };
    let (diameter, shown) = (read.value(), read.shown_in(system));
    let mut told = Vec::new();
    if let Some(reel) = reel {
        if diameter < reel.smallest {
            let smallest = system.length(reel.smallest);
            told.push(format!(
                "{shown} is under the reel's minimum diameter (scrap), {smallest}."
            ));
        }
        if diameter > reel.new {
            let new = system.length(reel.new);
            told.push(format!("{shown} is more than the new reel's {new}."));
        }
    }
    if !is_new_reel(event) {
        let larger = larger_than_last(event, others, system);
        let is_larger = larger.is_some();
        told.extend(larger);
        told.extend(off_the_wear(event, others, system).filter(|_| !is_larger));
    }
    let all = told.into_iter();
    all.map(|told| doubt(EntryField::ReelDiameter, told))
        .collect()
}

/// Whether an event says that a new reel was fitted.
fn is_new_reel(event: &Entry) -> bool {
    event.what.to_lowercase().contains(NEW_REEL)
}

/// A reel gets no larger, but by what its readings can be off.
fn larger_than_last(event: &Entry, others: &Record, system: System) -> Option<String> {
    let read = event.reel_diameter.as_ref()?;
    let day = event.day();
    let is_before = |entry: &&Entry| match (entry.day(), day) {
        (Some(other), Some(day)) => other < day,
        _ => true,
    };
    let before = others.entries.iter().filter(is_before);
    // The last of equals, as it was written down.
    let last = before
        .filter(|entry| entry.reel_diameter.is_some())
        .max_by_key(|entry| entry.day())?;
    let other = last.reel_diameter.as_ref()?;
    let off = [read, other].map(|read| read.half_width().unwrap_or(Length::ZERO));
    let most = other.value() + off[0] + off[1];
    (read.value().mm() > most.mm() + SAME_MM).then(|| {
        let on = last.day().map_or_else(String::new, |on| format!(" of {on}"));
        format!(
            "{} is larger than the {} on record{on}. If a new reel was fitted, write \"{NEW_REEL}\" under What was done.",
            read.shown_in(system),
            other.shown_in(system)
        )
    })
}

/// Diameters that differ by less are one, in millimetres.
const SAME_MM: f64 = 1e-9;

/// Whether the diameter lies outside the band in which the record's own wear has the next one.
fn off_the_wear(event: &Entry, others: &Record, system: System) -> Option<String> {
    let diameter = event.reel_diameter.as_ref()?.value();
    let along = |along: WearAlong| {
        let rate = WearRate::of_record_along(others, along).ok()?;
        Some((along, along.of_entry(event)?, rate))
    };
    let (along, at, rate) = WearAlong::ALL.into_iter().find_map(along)?;
    let first = along.diameters(others).first()?.0;
    let (expected, off) = rate.expected(at);
    let off = off?;
    let is_off = (diameter.mm() - expected.mm()).abs() > off.mm();
    (is_off && at >= first).then(|| {
        let [least, most] = [expected - off, expected + off].map(|length| system.length(length));
        let at = along.told(at);
        format!("By the wear on record, {least} to {most} is to be expected at {at} (95 %).")
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::read_record;

    const RECORD: &str = "(record: 1)\n\
        (date: \"2025-11-21\", hours: \"815\", reel_diameter: Some(\"4.8 in\"))\n\
        (date: \"2026-03-03\", hours: \"902\", reel_diameter: Some(\"4.776 in\"))\n\
        (date: \"2026-07-20\", hours: \"1090\", reel_diameter: Some(\"4.736 in\"))\n\
        (date: \"2026-10-24\", hours: \"1207\", reel_diameter: Some(\"4.71 in\"))\n";

    /// What is asked about an event on RECORD, by field.
    fn asked(line: &str, record: &str) -> Vec<(EntryField, String)> {
        let record = read_record(record).unwrap();
        let event = read_record(&format!("(record: 1)\n{line}\n")).unwrap();
        let [event] = &event.entries[..] else {
            panic!("{event:?}");
        };
        let reel = ReelSizes {
            new: Length::from_inches(5.0),
            smallest: Length::from_inches(4.625),
        };
        let today = Day::parse("2026-11-26").unwrap();
        let doubts = event_doubts(event, &record, Some(reel), today, System::InchDecimal);
        doubts.into_iter().map(|d| (d.field, d.told)).collect()
    }

    fn assert_asked(line: &str, wanted: &[(EntryField, &str)]) {
        let found = asked(line, RECORD);
        let is_as_wanted = found.len() == wanted.len()
            && found
                .iter()
                .zip(wanted)
                .all(|(found, wanted)| found.0 == wanted.0 && found.1.contains(wanted.1));
        assert!(is_as_wanted, "{line}: {found:#?}");
    }

    #[test]
    fn what_is_in_line_is_kept_unasked() {
        for line in [
            "(date: \"2026-11-25\", hours: \"1260\", reel_diameter: Some(\"4.697 in\"))",
            "(date: \"2026-11-26\", what: \"washed\")",
            "(date: \"2026-10-24\", hours: \"1207\", what: \"knife changed\")",
            // Read again, with what each can be off.
            "(date: \"2026-11-25\", hours: \"1207\", reel_diameter: Some(\"4.711 in ± 0.002 in\"))",
            // In place of that day's own, the last or an older one.
            "(date: \"2026-07-20\", hours: \"1091\", reel_diameter: Some(\"4.737 in\"))",
            "(date: \"2026-10-24\", hours: \"1207\", reel_diameter: Some(\"4.712 in\"))",
            "(date: \"2026-11-25\", hours: \"1260\", what: \"New reel fitted\", reel_diameter: Some(\"5 in\"))",
        ] {
            assert_asked(line, &[]);
        }
    }

    #[test]
    fn what_is_odd_beside_the_record_or_the_reel_is_asked_about() {
        use EntryField::{Date, Hours, ReelDiameter};
        for (line, wanted) in [
            (
                "(date: \"2026-11-25\", hours: \"1260\", reel_diameter: Some(\"4.505 in\"))",
                &[
                    (
                        ReelDiameter,
                        "4.505 in is under the reel's minimum diameter (scrap), 4.625 in.",
                    ),
                    (ReelDiameter, "is to be expected at 1260 h"),
                ][..],
            ),
            (
                "(date: \"2026-11-25\", hours: \"1260\", reel_diameter: Some(\"4.905 in\"))",
                &[(
                    ReelDiameter,
                    "is larger than the 4.71 in on record of 2026-10-24. If a new reel was fitted, write \"new reel\"",
                )],
            ),
            (
                "(date: \"2026-11-25\", hours: \"1260\", what: \"new reel\", reel_diameter: Some(\"5.2 in\"))",
                &[(ReelDiameter, "5.2 in is more than the new reel's")],
            ),
            (
                "(date: \"2026-11-25\", hours: \"1200\")",
                &[(
                    Hours,
                    "1200 h are fewer than the 1207 h on record of 2026-10-24.",
                )],
            ),
            (
                "(date: \"2026-01-05\", hours: \"903.5\")",
                &[
                    (
                        Date,
                        "2026-01-05 is before the last event on record, 2026-10-24.",
                    ),
                    (
                        Hours,
                        "903.5 h are more than the 902 h on record of 2026-03-03.",
                    ),
                ],
            ),
            (
                "(date: \"2027-11-25\")",
                &[(Date, "2027-11-25 is in the future: today is 2026-11-26.")],
            ),
        ] {
            assert_asked(line, wanted);
        }
    }

    #[test]
    fn the_band_that_is_told_is_the_one_of_the_records_line() {
        // Worked by hand for this record: about 1003.5 h and 4.7555 in, Σxy −21.415 over Σx² 94729.
        let line = "(date: \"2026-11-25\", hours: \"1260\", reel_diameter: Some(\"4.68 in\"))";
        let found = asked(line, RECORD);
        let [(EntryField::ReelDiameter, told)] = &found[..] else {
            panic!("{found:?}");
        };
        let ends: Vec<f64> = told
            .split(" in")
            .filter_map(|part| part.rsplit(' ').next()?.parse().ok())
            .collect();
        let middle = 4.7555 - 21.415 / 94_729.0 * (1260.0 - 1003.5);
        assert!(
            (f64::midpoint(ends[0], ends[1]) - middle).abs() < 1e-3,
            "{told}"
        );
        // With two diameters any line meets both: there is no band to be outside of.
        let two: Vec<&str> = RECORD.lines().take(3).collect();
        assert_eq!(asked(line, &two.join("\n")), []);
    }

    #[test]
    fn a_slip_is_put_right_by_another_event_of_its_day_and_asked_about_no_more() {
        let slip = "(date: \"2026-11-25\", hours: \"1260\", reel_diameter: Some(\"4.505 in\"))\n";
        let record = format!("{RECORD}{slip}");
        let right = "(date: \"2026-11-25\", hours: \"1260\", reel_diameter: Some(\"4.697 in\"))";
        assert_eq!(asked(right, &record), []);
        // Whether it was too small or too large, no new reel begins with it.
        for wrong in ["4.505", "4.905"] {
            let slip = slip.replace("4.505", wrong);
            let whole = read_record(&format!("{RECORD}{slip}{right}\n")).unwrap();
            let without = read_record(&format!("{RECORD}{right}\n")).unwrap();
            for along in WearAlong::ALL {
                let points = along.diameters(&whole);
                assert_eq!(points, along.diameters(&without), "{wrong}");
                assert_eq!(points.len(), 5, "{wrong}");
            }
            // The hours that the right one leaves out are those of the slip.
            let bare = right.replace(" hours: \"1260\",", "");
            let bare = read_record(&format!("{RECORD}{slip}{bare}\n")).unwrap();
            let hours = WearAlong::Hours;
            assert_eq!(hours.diameters(&bare), hours.diameters(&whole), "{wrong}");
        }
    }
}
