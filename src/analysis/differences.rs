//! What two solved units differ in, number by number.

use super::{Level, NumberId, Solved};
use crate::units::{Compared, System, Value};

/// A number of two units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Which.
    pub id: NumberId,
    /// What each has; none where it has no such number.
    pub values: [Option<Value>; 2],
    /// The level whose symbol stands beside each: fine where no limit judges it.
    pub levels: [Level; 2],
}

impl Difference {
    /// The numbers that are told of two units on the plate, what matters most first.
    pub const ON_PLATE: [NumberId; 8] = [
        NumberId::SweepShare,
        NumberId::SweepBelowCut,
        NumberId::BehindCentre,
        NumberId::Attitude,
        NumberId::HeightOfCut,
        NumberId::UndersideOverPlate,
        NumberId::ReelOverPlate,
        NumberId::ReelDiameter,
    ];
    /// The same of two units on their ground.
    pub const ON_GROUND: [NumberId; 8] = [
        NumberId::SweepShare,
        NumberId::SweepOnGround,
        NumberId::BehindCentre,
        NumberId::AttitudeOnGround,
        NumberId::CutOnGround,
        NumberId::UndersideOnGround,
        NumberId::ReelOnGround,
        NumberId::ReelDiameter,
    ];

    /// What two units are set or made otherwise by, where the rest comes from.
    const CAUSES: [NumberId; 5] = [
        NumberId::HeightOfCut,
        NumberId::ReelDiameter,
        NumberId::Attitude,
        NumberId::Extension,
        NumberId::UndersideOverPlate,
    ];
    /// So many numbers are told before the cause where it was not chosen.
    const BEFORE_CAUSE: usize = 2;

    /// The numbers of two units that somebody reads a few of, of those chosen: first what differs, in the order
    /// chosen, then what reads the same. Where what they are set or made otherwise by was not chosen, it is told
    /// among the first, unless somebody chose to read fewer.
    #[must_use]
    pub fn told_first(chosen: &[NumberId], units: [&Solved; 2], system: System) -> Vec<NumberId> {
        let differs = |id: &NumberId| !Self::of(*id, units).compared(system).reads_same();
        let (mut told, same): (Vec<_>, Vec<_>) = chosen.iter().copied().partition(differs);
        let is_told = Self::CAUSES.iter().any(|cause| told.contains(cause));
        let has_room = told.is_empty() || chosen.len() > Self::BEFORE_CAUSE;
        let causes = Self::CAUSES.into_iter();
        let cause = causes.filter(differs).find(|_| has_room && !is_told);
        if let Some(cause) = cause {
            told.insert(told.len().min(Self::BEFORE_CAUSE), cause);
        }
        told.into_iter().chain(same).collect()
    }

    /// A number of two units.
    #[must_use]
    pub fn of(id: NumberId, units: [&Solved; 2]) -> Self {
        let level = |unit: &Solved| {
            let judging = unit.findings.iter();
            let judging = judging.filter(|finding| finding.id.number() == Some(id));
            let levels = judging.map(|finding| {
                let examples = unit.document.example_count();
                finding.shown_level().resting_on(examples)
            });
            levels.max().unwrap_or(Level::Fine)
        };
        Self {
            id,
            values: units.map(|unit| unit.solution.numbers().value(id)),
            levels: units.map(level),
        }
    }

    /// What the second one is more than the first: none where one of them has no such number.
    #[must_use]
    pub fn more(&self) -> Option<Value> {
        let [Some(first), Some(second)] = self.values else {
            return None;
        };
        Some(first.with_base(second.base() - first.base()))
    }

    /// Both and what they differ in, to be read; dashes where one has no such number.
    #[must_use]
    pub fn compared(&self, system: System) -> Compared {
        if let [Some(first), Some(second)] = self.values {
            return first.compared(second, system);
        }
        let none = || "–".to_owned();
        let shown = |value: Option<Value>| value.map_or_else(none, |value| value.shown_in(system));
        Compared {
            shown: self.values.map(shown),
            more: none(),
            is_about: false,
        }
    }
}
