//! Slips in a record put right: of the reel diameters of one day, the one written down last counts, and so
//! do its hours.

use std::collections::BTreeMap;

use super::date::Day;
use super::record::{Entry, Record};

/// What two entries have in common that are of one time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Time {
    Day(Day),
    /// Hours without a day, by their bits.
    Hours(u64),
}

impl Time {
    fn of(entry: &Entry) -> Option<Self> {
        let hours = || Some(Self::Hours(entry.hours_run()?.to_bits()));
        entry.day().map(Self::Day).or_else(hours)
    }
}

impl Record {
    /// For each entry, the place of the one whose reel diameter counts in place of its own: the last
    /// written down of the same day, or of the same hours where both have no day. None for an entry
    /// whose own counts, or that has none.
    ///
    /// So a slip is put right by another event of its day, and a record is only ever added to.
    #[must_use]
    pub fn diameter_replaced_by(&self) -> Vec<Option<usize>> {
        self.replaced_by(|entry| entry.reel_diameter.is_some())
    }

    /// The hours that count, each with its day where that is known, in the order they were written down:
    /// of those of one day, the last written down.
    #[must_use]
    pub fn hours_that_count(&self) -> Vec<(f64, Option<Day>)> {
        let replaced = self.replaced_by(|entry| entry.hours_run().is_some());
        let entries = self.entries.iter().zip(replaced);
        let counting = entries.filter(|(_, by)| by.is_none());
        counting
            .filter_map(|(entry, _)| Some((entry.hours_run()?, entry.day())))
            .collect()
    }

    /// For each entry with something, the place of the last one of its time that has it too.
    fn replaced_by(&self, has: impl Fn(&Entry) -> bool) -> Vec<Option<usize>> {
        let times: Vec<_> = self.entries.iter().map(Time::of).collect();
        let has_it: Vec<_> = self.entries.iter().map(has).collect();
        let mut last = BTreeMap::new();
        for place in (0..self.entries.len()).filter(|place| has_it[*place]) {
            if let Some(time) = times[place] {
                last.insert(time, place);
            }
        }
        let replaced = |place: usize| {
            let by = *last.get(&times[place]?)?;
            (by != place && has_it[place]).then_some(by)
        };
        (0..self.entries.len()).map(replaced).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::super::record::read_record;

    #[test]
    fn the_last_diameter_of_a_day_counts_and_an_entry_without_one_replaces_none() {
        let record = read_record(
            "(record: 1)\n\
             (date: \"2026-11-24\", reel_diameter: Some(\"4.505 in\"))\n\
             (date: \"2026-11-25\", reel_diameter: Some(\"4.7 in\"))\n\
             (date: \"2026-11-24\", reel_diameter: Some(\"4.705 in\"))\n\
             (date: \"2026-11-24\", what: \"washed\")\n\
             (hours: \"1210\", reel_diameter: Some(\"4.6 in\"))\n\
             (hours: \"1210 h\", reel_diameter: Some(\"4.69 in\"))\n\
             (reel_diameter: Some(\"4.1 in\"))\n\
             (reel_diameter: Some(\"4.2 in\"))\n",
        )
        .unwrap();
        assert_eq!(record.entries.len(), 8, "{:?}", record.damaged);
        let replaced = record.diameter_replaced_by();
        let wanted = [Some(2), None, None, None, Some(5), None, None, None];
        assert_eq!(replaced, wanted);
    }

    #[test]
    fn the_last_hours_of_a_day_count_and_an_entry_without_hours_replaces_none() {
        let record = read_record(
            "(record: 1)\n\
             (date: \"2026-11-26\", hours: \"600\", what: \"reel ground\")\n\
             (date: \"2026-11-20\", hours: \"630\")\n\
             (date: \"2026-11-26\", hours: \"640\")\n\
             (date: \"2026-11-26\", what: \"washed\")\n\
             (hours: \"650\")\n",
        )
        .unwrap();
        assert_eq!(record.entries.len(), 5, "{:?}", record.damaged);
        let counting = record.hours_that_count();
        let day = |place: usize| record.entries[place].day();
        assert!(day(1).is_some() && day(2).is_some());
        let wanted = vec![(630.0, day(1)), (640.0, day(2)), (650.0, None)];
        assert_eq!(counting, wanted);
    }
}
