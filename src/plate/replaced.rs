//! Slips in a record put right: of the reel diameters of one day, the one written down last counts.

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
        let times: Vec<_> = self.entries.iter().map(Time::of).collect();
        let with_diameter = |place: &usize| self.entries[*place].reel_diameter.is_some();
        let mut last = BTreeMap::new();
        for place in (0..self.entries.len()).filter(with_diameter) {
            if let Some(time) = times[place] {
                last.insert(time, place);
            }
        }
        let replaced = |place: usize| {
            let by = *last.get(&times[place]?)?;
            (by != place && with_diameter(&place)).then_some(by)
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
}
