//! What a finished sheet gives its unit, and the entry it makes in the unit's record.

use super::parallel::Verdict;
use super::result::PlateResult;
use super::roller::RollerResult;
use crate::analysis::{NumberId, Solved};
use crate::plate::{AlongRead, Entry, Measured, Worksheet};
use crate::unit::Document;
use crate::units::{Angle, Length, Quantity};

impl PlateResult {
    /// Fills a unit from the sheet: runout, the difference from side to side, the reel's diameter, and
    /// height of cut and attitude as they were measured off the bar. What was not read stays.
    ///
    /// Where the unit is set by its rollers, height of cut and attitude follow and are left alone.
    pub fn fill(&self, document: &mut Document) {
        let system = document.system();
        let length = |length: Length| Quantity::from_value(length, system);
        if let Some(runout) = largest_runout(self.front.as_ref()) {
            document.wear.front_runout = Some(length(runout));
        }
        if let Some(runout) = largest_runout(self.rear.as_ref()) {
            document.wear.rear_runout = Some(length(runout));
        }
        if let Some(difference) = self.side_to_side() {
            document.wear.end_difference = Some(length(Length::from_mm(difference.mm().abs())));
        }
        if let Some(diameter) = mean(&self.readings.reel) {
            document.setting.reel_diameter = Some(length(diameter));
        }
        if document.setting.rollers.is_some() {
            return;
        }
        if let Some(height) = mean(&self.readings.height) {
            document.setting.height_of_cut = Some(length(height));
        }
        if let Some(attitude) = self.attitude() {
            document.setting.attitude = Some(Quantity::from_value(attitude, system));
        }
    }

    /// The height of cut at the right less that at the left: as measured, else as expected.
    #[must_use]
    pub fn side_to_side(&self) -> Option<Length> {
        let height = &self.readings.height;
        let measured = height.left.zip(height.right);
        measured
            .map(|(left, right)| right.value - left.value)
            .or_else(|| self.cut.map(|cut| cut.right_less_left))
    }

    /// The middle of the attitude at both ends.
    fn attitude(&self) -> Option<Angle> {
        let [left, right] = self.readings.attitude?;
        Some((left + right) * 0.5)
    }

    /// The entry for the unit's record. `before` are the front and the rear roller's own numbers when
    /// the work began, where they are known.
    #[must_use]
    pub fn entry(
        &self,
        sheet: &Worksheet,
        unit: Option<&Solved>,
        before: [Option<Length>; 2],
    ) -> Entry {
        let system = sheet.system();
        let length =
            |length: Option<Length>| length.map(|length| Quantity::from_value(length, system));
        let out = |roller: Option<&RollerResult>| Some(roller?.parallel.as_ref()?.out);
        // The unit's own is that of its setting: it belongs to what was measured here only once that was
        // filled in.
        let behind_centre = unit
            .filter(|unit| self.is_filled_in(unit))
            .and_then(|unit| {
                let numbers = unit.solution.numbers();
                numbers.base(NumberId::BehindCentre).map(Length::from_mm)
            });
        let knife = unit.map(|unit| unit.document.fitted_name().to_owned());
        let [front_before, rear_before] = before;
        Entry {
            date: sheet.date.clone(),
            by: sheet.by.clone(),
            hours: sheet.hours.clone(),
            what: self.what_was_done(before),
            reel_diameter: length(mean(&self.readings.reel)),
            knife: knife.unwrap_or_default(),
            height_of_cut: length(mean(&self.readings.height)),
            attitude: self
                .attitude()
                .map(|attitude| Quantity::from_value(attitude, system)),
            behind_centre: length(behind_centre),
            front_before: length(front_before),
            front_after: length(out(self.front.as_ref())),
            rear_before: length(rear_before),
            rear_after: length(out(self.rear.as_ref())),
            notes: sheet.notes.clone(),
            ..Entry::default()
        }
    }
}

impl PlateResult {
    /// Whether height of cut, attitude and reel stand in a unit as they were measured here.
    fn is_filled_in(&self, unit: &Solved) -> bool {
        let is_measured = mean(&self.readings.height).is_some() && self.attitude().is_some();
        let mut filled = Document::clone(&unit.document);
        self.fill(&mut filled);
        is_measured && filled.setting == unit.document.setting
    }

    /// What was done to the rollers, by what their readings say of them: no roller is called parallel that
    /// was not found so.
    fn what_was_done(&self, before: [Option<Length>; 2]) -> String {
        let told = |roller: Option<&RollerResult>, before: Option<Length>| {
            let Some(roller) = roller.filter(|roller| roller.parallel.is_some()) else {
                return "not read";
            };
            match roller.verdict() {
                _ if roller.again.is_some() => "to be read again",
                Some(Verdict::Pass) if before.is_some() => "set parallel",
                Some(Verdict::Pass) => "found parallel",
                Some(Verdict::Fail) => "not parallel",
                Some(Verdict::CannotTell) => "read, undecided whether parallel",
                None => "read, no limit to judge by",
            }
        };
        let [front_before, rear_before] = before;
        let front = told(self.front.as_ref(), front_before);
        let rear = told(self.rear.as_ref(), rear_before);
        if front == rear {
            format!("rollers {front}")
        } else {
            format!("front roller {front}; rear roller {rear}")
        }
    }
}

/// The largest runout that was read along a roller.
fn largest_runout(roller: Option<&RollerResult>) -> Option<Length> {
    let read = roller?.runout.iter().map(|station| station.circle.read);
    read.reduce(|one, other| if other > one { other } else { one })
}

/// The middle of what was read along the reel or the knife.
fn mean(along: &AlongRead) -> Option<Length> {
    let read: Vec<Measured> = [along.left, along.middle, along.right]
        .into_iter()
        .flatten()
        .collect();
    let sum: f64 = read.iter().map(|read| read.value.mm()).sum();
    let count = f64::from(u32::try_from(read.len()).ok().filter(|count| *count > 0)?);
    Some(Length::from_mm(sum / count))
}
