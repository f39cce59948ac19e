//! A unit as it stood before a job of its record and after it.

use std::collections::BTreeMap;

use super::jobs::in_order;
use crate::plate::{Entry, Record};
use crate::unit::{Document, Knife, SettingEntry};
use crate::units::{Length, Measure, Quantity};

/// The unit before a job and after it, for each job of its record in the order of [`jobs`](super::jobs()); none
/// where the record tells of nothing that the job changed. What no entry told up to there is as the unit's
/// file has it.
///
/// An entry tells how much metal its job took off the knife that was on the unit; the unit's file how much
/// is off each knife by now. So before the first job of a knife what its jobs took off was still on it. Which
/// knife was ground before the first entry that names one is not known, and none is charged with it; where
/// no entry names one, it is the fitted one.
#[must_use]
pub fn job_units(record: &Record, unit: &Document) -> Vec<Option<[Document; 2]>> {
    let order = in_order(&record.entries);
    let entries: Vec<&Entry> = order.iter().map(|place| &record.entries[*place]).collect();
    let mut stood = Stood::before_all(&entries, unit);
    let replaced = record.diameter_replaced_by();
    let job = |(entry, place): (&&Entry, usize)| {
        let diameter = entry.reel_diameter.as_ref();
        stood.job(entry, diameter.filter(|_| replaced[place].is_none()))
    };
    entries.iter().zip(order).map(job).collect()
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
    /// The name of the knife that is on the unit; none while it is not known.
    knife: Option<&'a str>,
    /// Metal off each knife that the record tells a grind of.
    off: BTreeMap<&'a str, MetalOff>,
}

/// Metal off a knife's top face and front face; none of a face that the record tells no grind of.
#[derive(Clone, Copy, Debug, Default)]
struct MetalOff([Option<Length>; 2]);

impl MetalOff {
    /// With what an entry took off each face.
    fn and(self, entry: &Entry) -> Self {
        let mut sums = self.0;
        for (sum, off) in sums.iter_mut().zip([&entry.top_ground, &entry.face_ground]) {
            if let Some(off) = off {
                *sum = Some(sum.unwrap_or(Length::ZERO) + off.value());
            }
        }
        Self(sums)
    }

    /// What was off before all that, where so much is off by now.
    fn before(self, now: [Length; 2]) -> Self {
        let before = |(sum, now): (Option<Length>, Length)| {
            let left_mm = now.mm() - sum?.mm();
            Some(Length::from_mm(left_mm.max(0.0)))
        };
        let [top, face] = self.0;
        Self([before((top, now[0])), before((face, now[1]))])
    }
}

impl<'a> Stood<'a> {
    /// The unit before every entry of its record.
    fn before_all(entries: &[&'a Entry], unit: &'a Document) -> Self {
        let is_told = entries.iter().any(|entry| named(unit, entry).is_some());
        let first = (!is_told).then(|| unit.fitted_name());
        let mut knife = first;
        let mut off: BTreeMap<&str, MetalOff> = BTreeMap::new();
        for entry in entries {
            knife = named(unit, entry).map_or(knife, |named| Some(named.name.as_str()));
            let is_ground = entry.top_ground.is_some() || entry.face_ground.is_some();
            if let Some(knife) = knife.filter(|_| is_ground) {
                let sum = off.entry(knife).or_default();
                *sum = sum.and(entry);
            }
        }
        for (name, sum) in &mut off {
            *sum = sum.before(off_by_now(unit, name));
        }
        let mut stood = Self {
            unit,
            setting: unit.setting.clone(),
            told: Told::default(),
            knife: first,
            off,
        };
        let setting = unit.setting.clone();
        stood.setting = stood.with_metal_off(setting);
        stood
    }

    /// A setting with the metal that is off the knife on the unit.
    fn with_metal_off(&self, setting: SettingEntry) -> SettingEntry {
        let Some(knife) = self.knife else {
            return setting;
        };
        let is_files_own = knife == self.unit.fitted_name();
        let own = |of_file: &Option<Quantity<Length>>| of_file.clone().filter(|_| is_files_own);
        let [top, face] = self.off.get(knife).copied().unwrap_or_default().0;
        let as_set = |off: Length| Quantity::exactly(off, self.unit.system());
        let of_file = &self.unit.setting;
        SettingEntry {
            top_ground: top.map(as_set).or_else(|| own(&of_file.top_ground)),
            face_ground: face.map(as_set).or_else(|| own(&of_file.face_ground)),
            ..setting
        }
    }

    /// What an entry changed, with the reel's diameter where the one it tells of counts.
    fn job(&mut self, entry: &Entry, diameter: Option<&Quantity<Length>>) -> Option<[Document; 2]> {
        let mut after = self.setting.clone();
        let mut before = self.setting.clone();
        let told = self.told;
        // What is told for the first time was not told to be otherwise before.
        if let Some(diameter) = diameter {
            after.reel_diameter = Some(self.as_set(diameter));
            if !told.reel_diameter {
                before.reel_diameter.clone_from(&after.reel_diameter);
            }
            self.told.reel_diameter = true;
        }
        if let Some(knife) = named(self.unit, entry) {
            self.knife = Some(&knife.name);
            let is_bench = knife.name == self.unit.knife.name;
            after.knife = (!is_bench).then(|| knife.name.clone());
            after = self.with_metal_off(after);
            if !told.knife {
                before.knife.clone_from(&after.knife);
                before = self.with_metal_off(before);
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
        let is_ground = entry.top_ground.is_some() || entry.face_ground.is_some();
        if let Some(knife) = self.knife.filter(|_| is_ground) {
            let off = self.off.entry(knife).or_default();
            *off = off.and(entry);
            after = self.with_metal_off(after);
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

/// The knife that an entry names, if it is one of the unit's.
fn named<'a>(unit: &'a Document, entry: &Entry) -> Option<&'a Knife> {
    let name = entry.knife.trim();
    let mut knives = unit.knives();
    knives.find_map(|(_, listed)| (listed.name == name).then_some(listed))
}

/// Metal off a knife's top face and front face as the unit's file has it: of the one that is fitted as it
/// is set, of every other as it is listed.
fn off_by_now(unit: &Document, name: &str) -> [Length; 2] {
    let listed = unit.knives().find(|(_, listed)| listed.name == name);
    let own = listed.map_or([None, None], |(_, knife)| {
        [knife.top_ground.as_ref(), knife.face_ground.as_ref()]
    });
    let set = if name == unit.fitted_name() {
        [
            unit.setting.top_ground.as_ref(),
            unit.setting.face_ground.as_ref(),
        ]
    } else {
        [None, None]
    };
    let [top, face] = [set[0].or(own[0]), set[1].or(own[1])];
    [top, face].map(|off| off.map_or(Length::ZERO, Quantity::value))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::read_record;
    use crate::unit::read_text;

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

    /// Metal off the top face before and after each job that changed it, in thousandths of an inch.
    fn top_ground(record: &str, unit: &Document) -> Vec<Option<[Option<i64>; 2]>> {
        let record = read_record(record).expect("reads");
        assert!(record.damaged.is_empty(), "{record:?}");
        let off = |document: &Document| {
            let off = document.setting.top_ground.as_ref()?.value();
            #[expect(clippy::cast_possible_truncation, reason = "some thousandths")]
            let thou = (off.inches() * 1000.0).round() as i64;
            Some(thou)
        };
        let jobs = job_units(&record, unit).into_iter();
        jobs.map(|job| job.map(|[before, after]| [off(&before), off(&after)]))
            .collect()
    }

    #[test]
    fn metal_off_adds_up_from_grind_to_grind_and_belongs_to_its_knife() {
        let unit = include_str!("../../demo-units/lessons/matched-fairway.ron");
        let mut unit = read_text(unit).expect("reads");
        assert_eq!(unit.fitted_name(), unit.knife.name);
        unit.setting.top_ground = Quantity::parse("0.030 in").ok();
        let ground = "(record: 1)\n\
            (date: \"2026-01-05\", top_ground: Some(\"0.010 in\"))\n\
            (date: \"2026-03-05\", top_ground: Some(\"0.005 in\"))\n";
        // 0.030 in are off by now, so 0.015 in were before both.
        let own = [Some([Some(15), Some(25)]), Some([Some(25), Some(30)])];
        assert_eq!(top_ground(ground, &unit), own);
        // Another knife has no metal off but its own, and each keeps what is off it.
        let changed = format!(
            "{ground}\
            (date: \"2026-05-05\", knife: \"longer\")\n\
            (date: \"2026-06-05\", top_ground: Some(\"0.002 in\"))\n\
            (date: \"2026-07-05\", knife: \"{}\")\n",
            unit.knife.name
        );
        // The knife that is named first is the one that was ground before.
        let named = changed.replacen(
            "top_ground",
            &format!("knife: \"{}\", top_ground", unit.knife.name),
            1,
        );
        let [first, second] = own;
        let wanted = [
            first,
            second,
            Some([Some(30), Some(0)]),
            Some([Some(0), Some(2)]),
            Some([Some(2), Some(30)]),
        ];
        assert_eq!(top_ground(&named, &unit), wanted);
        // Which knife was ground before the first that is named is not known: none is charged with it.
        let wanted = [
            None,
            None,
            None,
            Some([Some(0), Some(2)]),
            Some([Some(2), Some(30)]),
        ];
        assert_eq!(top_ground(&changed, &unit), wanted);
        let unnamed = "(record: 1)\n\
            (date: \"2026-01-05\", top_ground: Some(\"0.010 in\"))\n\
            (date: \"2026-05-05\", knife: \"longer\", height_of_cut: Some(\"0.4 in\"))\n\
            (date: \"2026-06-05\", height_of_cut: Some(\"0.5 in\"))\n";
        let mut longer = unit.clone();
        longer.setting.knife = Some("longer".to_owned());
        longer.setting.top_ground = None;
        let wanted = [None, None, Some([None, None])];
        assert_eq!(top_ground(unnamed, &longer), wanted);
        // Less is off by the file than the record tells: then none was before.
        unit.setting.top_ground = None;
        let wanted = [Some([Some(0), Some(10)]), Some([Some(10), Some(15)])];
        assert_eq!(top_ground(ground, &unit), wanted);
    }
}
