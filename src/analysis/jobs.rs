//! The jobs of a unit's record in the order of their days, each with what stood before and after it.

use super::end_high::out_in_line;
use crate::plate::{Entry, Record};
use crate::units::{Angle, Length, Measure, Quantity, System};

/// Something that a job left otherwise, or that was read at it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// What it is.
    pub name: &'static str,
    /// What stood before; none where the record does not tell.
    pub before: Option<String>,
    /// What stood after; none where the record does not tell.
    pub after: Option<String>,
    /// How much less it is after; none where it is no length, or did not get less.
    pub less: Option<String>,
    /// What was written down later that day in its place; none where it counts.
    pub replaced_by: Option<String>,
}

impl Fact {
    /// What was read, with no word of before.
    fn read(name: &'static str, after: String) -> Self {
        Self {
            name,
            before: None,
            after: Some(after),
            less: None,
            replaced_by: None,
        }
    }

    /// It in a line: `reel diameter 4.736 in before, 4.71 in after, 0.0260 in less`.
    #[must_use]
    pub fn told(&self) -> String {
        let name = self.name;
        let told = match (&self.before, &self.after) {
            (Some(before), Some(after)) if before == after => format!("{name} {after}, unchanged"),
            (Some(before), Some(after)) => format!("{name} {before} before, {after} after"),
            (Some(before), None) => format!("{name} {before} before"),
            (None, Some(after)) => format!("{name} {after}"),
            (None, None) => String::new(),
        };
        let less = self.less.as_ref();
        let less = less.map_or_else(String::new, |less| format!(", {less} less"));
        let replaced = self.replaced_by.as_ref().map_or_else(String::new, |by| {
            format!(" (not counted: {by} was written down after it for the same day)")
        });
        told + &less + &replaced
    }
}

/// A job: an entry of the record, with what it changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// The place of its entry in the record.
    pub place: usize,
    /// When, as written.
    pub date: String,
    /// The machine's hours, as written.
    pub hours: String,
    /// Who did it.
    pub by: String,
    /// What was done.
    pub what: String,
    /// What stood before and after.
    pub facts: Vec<Fact>,
    /// Notes.
    pub notes: String,
}

impl Job {
    /// When, at how many hours, what and who: `2026-11-24, 1207 h, reel ground, by A. Fitter`.
    #[must_use]
    pub fn head(&self) -> String {
        let date = if self.date.is_empty() {
            "no date"
        } else {
            &self.date
        };
        let hours = self.hours.trim_end_matches('h').trim_end();
        let parts = [
            Some(date.to_owned()),
            (!hours.is_empty()).then(|| format!("{hours} h")),
            (!self.what.is_empty()).then(|| self.what.clone()),
            (!self.by.is_empty()).then(|| format!("by {}", self.by)),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        parts.join(", ")
    }
}

/// What the record last told of a unit.
#[derive(Default)]
struct Stood<'a> {
    reel_diameter: Option<&'a Quantity<Length>>,
    knife: Option<&'a str>,
    height_of_cut: Option<&'a Quantity<Length>>,
    attitude: Option<&'a Quantity<Angle>>,
    behind_centre: Option<&'a Quantity<Length>>,
}

/// The jobs of a record, the oldest first. An entry without a day stands where it was written.
#[must_use]
pub fn jobs(record: &Record, system: System) -> Vec<Job> {
    let mut stood = Stood::default();
    let replaced = record.diameter_replaced_by();
    let job = |place: usize| {
        let entry = &record.entries[place];
        let by = replaced[place].and_then(|by| record.entries[by].reel_diameter.as_ref());
        let reel = reel(entry, by, &mut stood, system);
        job(place, entry, reel, &mut stood, system)
    };
    in_order(&record.entries).into_iter().map(job).collect()
}

/// The places of the entries by their days; one without a day keeps to the one before it.
pub(super) fn in_order(entries: &[Entry]) -> Vec<usize> {
    let mut last = None;
    let dated = entries.iter().enumerate().map(|(place, entry)| {
        last = entry.day().or(last);
        (last, place)
    });
    let mut dated: Vec<_> = dated.collect();
    dated.sort_by_key(|(day, _)| *day);
    dated.into_iter().map(|(_, place)| place).collect()
}

/// The reel's diameter; one that was written down again for the same day is told, and stood at no time.
fn reel<'a>(
    entry: &'a Entry,
    replaced_by: Option<&Quantity<Length>>,
    stood: &mut Stood<'a>,
    system: System,
) -> Option<Fact> {
    let name = "reel diameter";
    let read = entry.reel_diameter.as_ref();
    if let (Some(read), Some(by)) = (read, replaced_by) {
        return Some(Fact {
            replaced_by: Some(by.shown_in(system)),
            ..Fact::read(name, read.shown_in(system))
        });
    }
    let (mut fact, off) = moved(name, read, &mut stood.reel_diameter, system)?;
    let off = off.filter(|off| off.mm() > 0.0);
    fact.less = off.map(|off| system.length(off));
    Some(fact)
}

fn job<'a>(
    place: usize,
    entry: &'a Entry,
    reel: Option<Fact>,
    stood: &mut Stood<'a>,
    system: System,
) -> Job {
    let mut facts = Vec::new();
    facts.extend(reel);
    if !entry.knife.trim().is_empty() {
        let before = stood.knife.replace(&entry.knife);
        facts.push(Fact {
            before: before.map(str::to_owned),
            ..Fact::read("knife", entry.knife.clone())
        });
    }
    let shown = |length: Option<&Quantity<Length>>| length.map(|l| l.shown_in(system));
    for (name, ground) in [
        ("metal off top face", entry.top_ground.as_ref()),
        ("metal off front face", entry.face_ground.as_ref()),
    ] {
        facts.extend(shown(ground).map(|after| Fact::read(name, after)));
    }
    let lengths = [
        moved(
            "height of cut",
            entry.height_of_cut.as_ref(),
            &mut stood.height_of_cut,
            system,
        ),
        moved(
            "behind centre",
            entry.behind_centre.as_ref(),
            &mut stood.behind_centre,
            system,
        ),
    ];
    facts.extend(lengths.into_iter().flatten().map(|(fact, _)| fact));
    let attitude = moved(
        "attitude",
        entry.attitude.as_ref(),
        &mut stood.attitude,
        system,
    );
    facts.extend(attitude.map(|(fact, _)| fact));
    for (name, before, after) in [
        (
            "front roller out of parallel",
            entry.front_before.as_ref(),
            entry.front_after.as_ref(),
        ),
        (
            "rear roller out of parallel",
            entry.rear_before.as_ref(),
            entry.rear_after.as_ref(),
        ),
    ] {
        if before.is_some() || after.is_some() {
            facts.push(Fact {
                name,
                before: before.map(|out| out_in_line(system, out.value())),
                after: after.map(|out| out_in_line(system, out.value())),
                less: None,
                replaced_by: None,
            });
        }
    }
    Job {
        place,
        date: entry.date.trim().to_owned(),
        hours: entry.hours.trim().to_owned(),
        by: entry.by.trim().to_owned(),
        what: entry.what.trim().to_owned(),
        facts,
        notes: entry.notes.trim().to_owned(),
    }
}

/// A reading of an entry beside the one before it, and how much less it is.
fn moved<'a, M: Measure>(
    name: &'static str,
    read: Option<&'a Quantity<M>>,
    stood: &mut Option<&'a Quantity<M>>,
    system: System,
) -> Option<(Fact, Option<Length>)> {
    let after = read?;
    let before = stood.replace(after);
    let off = before.map(|before| Length::from_base(before.value().base() - after.value().base()));
    let fact = Fact {
        before: before.map(|before| before.shown_in(system)),
        ..Fact::read(name, after.shown_in(system))
    };
    Some((fact, off))
}
