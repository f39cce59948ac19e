//! A unit as it stood before a job of its record and after it.

use super::jobs::in_order;
use crate::plate::{Entry, Record};
use crate::unit::{Document, SettingEntry};
use crate::units::{Measure, Quantity};

/// The unit before a job and after it, for each job of its record in the order of [`jobs`](super::jobs()); none
/// where the record tells of nothing that the job changed. What no entry told up to there is as the unit's
/// file has it.
#[must_use]
pub fn job_units(record: &Record, unit: &Document) -> Vec<Option<[Document; 2]>> {
    let mut stood = Stood {
        unit,
        setting: unit.setting.clone(),
        told: Told::default(),
    };
    let entries = in_order(&record.entries).into_iter();
    entries.map(|entry| stood.job(entry)).collect()
}

/// Which of the settings an entry has told of.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a setting that was told of or not"
)]
#[derive(Clone, Copy, Default)]
struct Told {
    reel_diameter: bool,
    knife: bool,
    height_of_cut: bool,
    attitude: bool,
}

struct Stood<'a> {
    unit: &'a Document,
    setting: SettingEntry,
    told: Told,
}

impl Stood<'_> {
    fn job(&mut self, entry: &Entry) -> Option<[Document; 2]> {
        let mut after = self.setting.clone();
        let mut before = self.setting.clone();
        let told = self.told;
        // What is told for the first time was not told to be otherwise before.
        if let Some(diameter) = &entry.reel_diameter {
            after.reel_diameter = Some(self.as_set(diameter));
            if !told.reel_diameter {
                before.reel_diameter.clone_from(&after.reel_diameter);
            }
            self.told.reel_diameter = true;
        }
        let knife = entry.knife.trim();
        let mut knives = self.unit.knives();
        if let Some((_, knife)) = knives.find(|(_, listed)| listed.name == knife) {
            let is_bench = knife.name == self.unit.knife.name;
            after.knife = (!is_bench).then(|| knife.name.clone());
            if !told.knife {
                before.knife.clone_from(&after.knife);
            }
            self.told.knife = true;
        }
        if let Some(height) = &entry.height_of_cut {
            after.height_of_cut = Some(self.as_set(height));
            after.rollers = None;
            if !told.height_of_cut {
                before.height_of_cut.clone_from(&after.height_of_cut);
                before.rollers = None;
            }
            self.told.height_of_cut = true;
        }
        if let Some(attitude) = &entry.attitude {
            after.attitude = Some(self.as_set(attitude));
            after.rollers = None;
            if !told.attitude {
                before.attitude.clone_from(&after.attitude);
                before.rollers = None;
            }
            self.told.attitude = true;
        }
        // Metal is off the knife from this job on, whatever stood before.
        if entry.top_ground.is_some() {
            after.top_ground = entry.top_ground.as_ref().map(|off| self.as_set(off));
        }
        if entry.face_ground.is_some() {
            after.face_ground = entry.face_ground.as_ref().map(|off| self.as_set(off));
        }
        self.setting = after.clone();
        (before != after).then(|| {
            [before, after].map(|setting| Document {
                setting,
                ..self.unit.clone()
            })
        })
    }

    /// A setting is taken as exact.
    fn as_set<M: Measure>(&self, read: &Quantity<M>) -> Quantity<M> {
        Quantity::exactly(read.value(), self.unit.system())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::read_record;
    use crate::unit::read_text;
    use crate::units::Length;

    #[test]
    fn each_job_stands_between_what_the_record_told_before_and_after_it() {
        let unit = include_str!("../../demo-units/lessons/matched-fairway.ron");
        let unit = read_text(unit).expect("reads");
        let record = "(record: 1)\n\
            (date: \"2026-01-05\", reel_diameter: Some(\"4.96 in ± 0.005 in\"))\n\
            (date: \"2026-03-05\", what: \"washed\")\n\
            (date: \"2026-05-05\", reel_diameter: Some(\"4.9 in\"), knife: \"longer\", height_of_cut: Some(\"0.4 in\"))\n\
            (date: \"2026-07-05\", height_of_cut: Some(\"0.35 in\"), knife: \"of nobody\")\n";
        let record = read_record(record).expect("reads");
        let jobs = job_units(&record, &unit);
        // Told for the first time, or of nothing: there is no before.
        assert!(jobs[0].is_none() && jobs[1].is_none());
        let shown = |document: &Document| {
            let setting = &document.setting;
            let value =
                |length: &Option<Quantity<Length>>| length.as_ref().map(|l| l.value().inches());
            (
                value(&setting.reel_diameter),
                setting.knife.clone(),
                value(&setting.height_of_cut),
            )
        };
        let [before, after] = jobs[2].as_ref().expect("a job");
        let longer = Some("longer".to_owned());
        assert_eq!(shown(before), (Some(4.96), longer.clone(), Some(0.4)));
        assert_eq!(shown(after), (Some(4.9), longer.clone(), Some(0.4)));
        let [before, after] = jobs[3].as_ref().expect("a job");
        assert_eq!(shown(before).2, Some(0.4));
        assert_eq!(shown(after), (Some(4.9), longer, Some(0.35)));
        for document in [before, after] {
            assert!(document.checked().is_ok());
            assert_eq!(document.bench, unit.bench, "no reading");
        }
    }
}
