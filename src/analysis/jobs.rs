//! The jobs of a unit's record in the order of their days, each with what stood before and after it.

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
}

impl Fact {
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
        match &self.less {
            Some(less) => format!("{told}, {less} less"),
            None => told,
        }
    }
}

/// A job: an entry of the record, with what it changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
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
    let entries = in_order(&record.entries).into_iter();
    entries
        .map(|entry| job(entry, &mut stood, system))
        .collect()
}

/// The entries by their days; one without a day keeps to the one before it.
pub(super) fn in_order(entries: &[Entry]) -> Vec<&Entry> {
    let mut last = None;
    let mut dated: Vec<_> = entries
        .iter()
        .map(|entry| {
            last = entry.day().or(last);
            (last, entry)
        })
        .collect();
    dated.sort_by_key(|(day, _)| *day);
    dated.into_iter().map(|(_, entry)| entry).collect()
}

fn job<'a>(entry: &'a Entry, stood: &mut Stood<'a>, system: System) -> Job {
    let mut facts = Vec::new();
    let mut diameter = moved(
        "reel diameter",
        entry.reel_diameter.as_ref(),
        &mut stood.reel_diameter,
        system,
    );
    if let Some((fact, Some(off))) = &mut diameter
        && off.mm() > 0.0
    {
        fact.less = Some(system.length(*off));
    }
    facts.extend(diameter.map(|(fact, _)| fact));
    if !entry.knife.trim().is_empty() {
        let before = stood.knife.replace(&entry.knife);
        facts.push(Fact {
            name: "knife",
            before: before.map(str::to_owned),
            after: Some(entry.knife.clone()),
            less: None,
        });
    }
    let shown = |length: Option<&Quantity<Length>>| length.map(|l| l.shown_in(system));
    for (name, ground) in [
        ("metal off top face", entry.top_ground.as_ref()),
        ("metal off front face", entry.face_ground.as_ref()),
    ] {
        facts.extend(shown(ground).map(|after| Fact {
            name,
            before: None,
            after: Some(after),
            less: None,
        }));
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
                before: shown(before),
                after: shown(after),
                less: None,
            });
        }
    }
    Job {
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
        name,
        before: before.map(|before| before.shown_in(system)),
        after: Some(after.shown_in(system)),
        less: None,
    };
    Some((fact, off))
}
