//! What a reader of a sheet should know beside its numbers, in sentences: why a verdict is not given, which
//! reading to improve, and readings that contradict each other.

use super::result::PlateResult;
use super::roller::Reread;
use crate::analysis::caution::{HANDS_ON, LIFTING};
use crate::plate::{Roller, Station, Step};
use crate::units::{Length, System};

/// Part of how parallel a roller is wanted by which the bar's ends may mislead before it is said.
const BAR_MATTERS: f64 = 0.1;

impl PlateResult {
    /// What to know beside how parallel a roller is.
    #[must_use]
    pub fn ends_notes(&self, roller: Roller, system: System) -> Vec<String> {
        let Some((result, parallel)) = self
            .roller(roller)
            .and_then(|result| Some((result, result.parallel.as_ref()?)))
        else {
            return Vec::new();
        };
        let mut notes = Vec::new();
        if let Some(again) = result.again {
            notes.push(again.told().to_owned());
        }
        let is_open = matches!(result.again, Some(Reread::Mixed | Reread::Clash));
        if let Some((_, sentence)) = parallel.read_better().filter(|_| !is_open) {
            notes.push(sentence.shown_in(system));
        }
        if !parallel.is_off_known && !is_open {
            let told = "± not entered, so U does not hold all these readings can be off: write each with its ±, like 0.0045 in ± 0.0005 in.";
            notes.push(told.to_owned());
        }
        let of_bar = self.doubts_of(Step::PlateAndBar);
        notes.extend(of_bar.map(|doubt| doubt.told_alone(system)));
        notes.extend(self.bar_note(roller, system));
        if self.wants_half_turn(roller) {
            notes.push(format!("This roller runs out: read both ends once more after half a turn, or its runout passes for slope. Before you turn it: {HANDS_ON}."));
        }
        notes
    }

    /// The bar stands under the ends of the knife, and its difference is taken out of readings that are
    /// nearer together or further apart.
    fn bar_note(&self, roller: Roller, system: System) -> Option<String> {
        let [left, right] = self.readings.bar?;
        let apart = self.readings.roller(roller)?.measured_apart?;
        let within = self.roller(roller)?.parallel.as_ref()?.within?;
        let difference = Length::from_mm((right.value - left.value).mm().abs());
        let width = self.readings.cut_width;
        let misleads_mm = difference.mm() * (width.mm() / apart.mm() - 1.0).abs();
        (misleads_mm > BAR_MATTERS * within.mm()).then(|| {
            format!(
                "The bar's ends differ by {}: measure the roller over the same width as the bar, or lift the unit off ({LIFTING}), turn the bar end for end, read once more and take the mean.",
                system.length(difference)
            )
        })
    }

    /// What to know beside a roller's runout.
    #[must_use]
    pub fn runout_notes(&self, roller: Roller, system: System) -> Vec<String> {
        let Some(result) = self.roller(roller) else {
            return Vec::new();
        };
        let mut notes = Vec::new();
        for station in &result.runout {
            if !station.circle.is_read_all_round() {
                notes.push(format!(
                    "Runout, {}: more than half of the turn was not read. Read it all the way round.",
                    station.station.word()
                ));
            }
        }
        for place in Station::ALL {
            let here = result.runout.iter().filter(|read| read.station == place);
            if here.count() > 1 {
                notes.push(format!(
                    "Two turns were read at the {}: the bow takes their mean, heave and roll the first. Keep one of them.",
                    place.word()
                ));
            }
        }
        let (wanted, most) = (self.readings.runout_wanted, self.readings.runout_most);
        if let (Some(wanted), Some(most)) = (wanted, most)
            && wanted > most
            && !result.runout.is_empty()
        {
            notes.push(format!(
                "The runout wanted, {}, is more than the most there may be, {}: the smaller counts for both.",
                system.length(wanted),
                system.length(most)
            ));
        }
        notes
    }
}
