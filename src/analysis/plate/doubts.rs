//! Readings that cannot be, or not together: what they are, where they stand, and how bad.

use super::clashes::{half_turns, odd_one_along, odd_places};
use super::doubt::Doubt;
use super::knife_gap::knife_gaps;
use crate::analysis::hours::{HoursAgainst, hours_against};
use crate::analysis::{Level, Solved};
use crate::plate::{Readings, Record, Roller, SheetField, Side, Station, Worksheet};
use crate::units::{Angle, Length, Sentence};

/// The ends of a gauge bar differ by no more (common practice, no source).
const BAR_ENDS: Length = Length::from_inches(0.005);

/// The attitude at both ends of a knife differs by no more (common practice, no source).
const ATTITUDE_ENDS: Angle = Angle::from_deg(0.5);

/// Every one of a sheet, in working order.
pub(super) fn doubts_of(
    sheet: &Worksheet,
    readings: &Readings,
    unit: Option<&Solved>,
) -> Vec<Doubt> {
    let turf = unit.map(|unit| unit.document.turf);
    let mut all: Vec<Doubt> = bar(readings).into_iter().collect();
    all.extend(unit.into_iter().flat_map(|unit| reel(readings, unit)));
    all.extend(odd_one_along(readings));
    let rollers = Roller::ALL.into_iter();
    all.extend(
        rollers
            .clone()
            .flat_map(|roller| odd_places(readings, roller)),
    );
    all.extend(knife_gaps(readings, unit.map(|unit| &unit.unit.limits)));
    all.extend(rollers.flat_map(|roller| half_turns(sheet, readings, turf, roller)));
    all.extend(attitude(readings));
    all
}

impl Doubt {
    /// Hours that cannot be beside those of the unit's record.
    #[must_use]
    pub fn of_hours(sheet: &Readings, record: &Record) -> Option<Self> {
        let against = hours_against(sheet.hours?, sheet.day, record);
        let told: Vec<_> = against.iter().map(HoursAgainst::told).collect();
        (!told.is_empty()).then(|| {
            let told = told.join(", and ");
            let told = format!("{told}; read the clock again, or check the date");
            Self::in_words(SheetField::Hours, Level::Over, told)
        })
    }
}

fn bar(sheet: &Readings) -> Option<Doubt> {
    let [left, right] = sheet.bar?;
    let apart = Length::from_mm((right.value - left.value).mm().abs());
    (apart > BAR_ENDS).then(|| {
        let template = "the ends differ by {}, more than a gauge bar's can; measure both again";
        Doubt::new(
            &Side::ALL.map(SheetField::Bar),
            Level::Over,
            Sentence::new(template, &[apart.into()]),
        )
    })
}

/// No reel is larger than when it was new; one under scrap size is to be renewed.
fn reel(sheet: &Readings, unit: &Solved) -> Vec<Doubt> {
    let reel = &unit.document.reel;
    let (new, scrap) = (&reel.new_diameter, &reel.smallest_diameter);
    let doubt = |station: Station| {
        let read = sheet.reel.at(station)?;
        let (least, most) = (
            read.value - read.standard * 2.0,
            read.value + read.standard * 2.0,
        );
        let (template, limit) = if least > new.value() {
            ("{} is more than the new reel's {}; read it again", new)
        } else if most < scrap.value() {
            (
                "{} is under scrap size, {}; read it again, or renew the reel",
                scrap,
            )
        } else {
            return None;
        };
        let values = [read.value.into(), limit.value().into()];
        let field = SheetField::Reel(station);
        Some(Doubt::new(
            &[field],
            Level::Over,
            Sentence::new(template, &values),
        ))
    };
    Station::ALL.into_iter().filter_map(doubt).collect()
}

fn attitude(sheet: &Readings) -> Option<Doubt> {
    let [left, right] = sheet.attitude?;
    let apart = Angle::from_deg((right.value.deg() - left.value.deg()).abs());
    (apart > ATTITUDE_ENDS).then(|| {
        let template = "the ends differ by {}; more than {} is a lot on one knife: read both again, and look for a bent knife or a twisted frame";
        Doubt::new(
            &Side::ALL.map(SheetField::Attitude),
            Level::Watch,
            Sentence::new(template, &[apart.into(), ATTITUDE_ENDS.into()]),
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::{Day, Entry};
    use crate::units::System;

    #[test]
    fn hours_go_on_from_day_to_day() {
        let entry = |date: &str, hours: &str| Entry {
            date: date.to_owned(),
            hours: hours.to_owned(),
            ..Entry::default()
        };
        let record = Record {
            entries: vec![
                entry("2026-10-01", "1150"),
                entry("2026-11-20", "1207"),
                entry("2026-12-01", ""),
            ],
            ..Record::default()
        };
        let told = |day: &str, hours: f64| {
            let sheet = Readings {
                day: Day::parse(day).ok(),
                hours: Some(hours),
                ..Readings::default()
            };
            let doubt = Doubt::of_hours(&sheet, &record)?;
            Some(doubt.told_alone(System::InchDecimal))
        };
        let fewer = told("2026-11-25", 1200.0).expect("a doubt");
        assert!(
            fewer.starts_with("Hours: 1200 h are fewer than the 1207 h on record of 2026-11-20")
        );
        assert!(
            told("2026-11-01", 1300.0)
                .expect("a doubt")
                .contains("more than")
        );
        for (day, hours) in [
            ("2026-11-25", 1207.0),
            ("2026-11-01", 1200.0),
            ("2026-11-20", 1200.0),
        ] {
            assert_eq!(told(day, hours), None, "{day}");
        }
        assert!(told("", 1200.0).is_some());
        // Tenths are told where they make the difference.
        let tenths = Record {
            entries: vec![entry("2026-11-20", "1207.4")],
            ..Record::default()
        };
        let sheet = Readings {
            day: Day::parse("2026-11-25").ok(),
            hours: Some(1207.2),
            ..Readings::default()
        };
        let doubt = Doubt::of_hours(&sheet, &tenths).expect("a doubt");
        let told = doubt.told(System::InchDecimal);
        assert!(
            told.starts_with("1207.2 h are fewer than the 1207.4 h on record"),
            "{told}"
        );
        // An entry without a date was written down before this one, like one of a day before.
        let undated = Record {
            entries: vec![entry("", "1208")],
            ..Record::default()
        };
        let doubt = Doubt::of_hours(&sheet, &undated).expect("a doubt");
        let told = doubt.told(System::InchDecimal);
        assert!(
            told.starts_with("1207.2 h are fewer than the 1208 h on record;"),
            "{told}"
        );
    }

    #[test]
    fn hours_put_right_by_another_event_of_their_day_count_no_more() {
        let entry = |hours: &str| Entry {
            date: "2026-11-26".to_owned(),
            hours: hours.to_owned(),
            ..Entry::default()
        };
        let sheet = Readings {
            day: Day::parse("2026-11-25").ok(),
            hours: Some(638.0),
            ..Readings::default()
        };
        let mut record = Record {
            entries: vec![entry("600")],
            ..Record::default()
        };
        assert!(Doubt::of_hours(&sheet, &record).is_some());
        record.entries.push(entry("640"));
        assert_eq!(Doubt::of_hours(&sheet, &record), None);
    }
}
