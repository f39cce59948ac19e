//! What a finished sheet gives its unit, and the entry it makes in the unit's record.

use super::measured_anew::{MeasuredAnew, NotAsMeasured, with_off};
use super::parallel::Verdict;
use super::result::PlateResult;
use super::roller::RollerResult;
use super::runout::StationRunout;
use crate::analysis::{NumberId, Solved};
use crate::plate::{AlongRead, Entry, Measured, Worksheet};
use crate::unit::Document;
use crate::units::{Angle, Length, Quantity};

/// Where a sheet's readings of height of cut, attitude and reel went in its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Filled {
    /// As measured.
    AsMeasured,
    /// As set: the unit is drawn with another knife, or ground.
    AsSet,
    /// As set: there is no pose with these readings and what was measured before.
    NoSuchPose,
    /// The reel alone, as set: the rollers are given, and the rest follows from them.
    RollersGiven,
}

impl PlateResult {
    /// Fills a unit from the sheet: runout, the difference from side to side, the reel's diameter, and
    /// height of cut and attitude as they were measured off the bar, each with its ±. What was not read
    /// stays. What was measured stands in the unit as measured ([`MeasuredAnew`]), and the setting asks for
    /// nothing else there.
    ///
    /// Where the unit is drawn with its rollers moved, another knife, or ground, the readings are of it as
    /// it is set, and go there; where it is set by its rollers, height of cut and attitude follow and are
    /// left alone.
    pub fn fill(&self, document: &mut Document) -> Filled {
        let system = document.system();
        let length = |length: Length| Quantity::from_value(length, system);
        if let Some(runout) = largest_runout(self.front.as_ref()) {
            document.wear.front_runout = Some(length(runout));
        }
        if let Some(runout) = largest_runout(self.rear.as_ref()) {
            document.wear.rear_runout = Some(length(runout));
        }
        if let Some(difference) = self.side_to_side() {
            let difference = Measured {
                value: Length::from_mm(difference.value.mm().abs()),
                ..difference
            };
            document.wear.end_difference = Some(with_off(difference, system));
        }
        let anew = MeasuredAnew {
            reel_diameter: mean(&self.readings.reel),
            height_of_cut: mean(&self.readings.height),
            attitude: self.attitude(),
        };
        if anew.is_none() {
            return Filled::AsMeasured;
        }
        let why_not = match anew.put_into(document) {
            Ok(()) => return Filled::AsMeasured,
            Err(NotAsMeasured::SetOtherwise) => Filled::AsSet,
            Err(NotAsMeasured::NoSuchPose) => Filled::NoSuchPose,
        };
        if let Some(diameter) = anew.reel_diameter {
            document.setting.reel_diameter = Some(length(diameter.value));
        }
        if document.setting.rollers.is_some() {
            return Filled::RollersGiven;
        }
        if let Some(height) = anew.height_of_cut {
            document.setting.height_of_cut = Some(length(height.value));
        }
        if let Some(attitude) = anew.attitude {
            document.setting.attitude = Some(Quantity::from_value(attitude.value, system));
        }
        why_not
    }

    /// The height of cut at the right less that at the left: as measured, else as expected.
    #[must_use]
    pub fn side_to_side(&self) -> Option<Measured> {
        let height = &self.readings.height;
        let measured = height.left.zip(height.right).map(|(left, right)| Measured {
            value: right.value - left.value,
            standard: Length::from_mm(left.standard.mm().hypot(right.standard.mm())),
        });
        measured.or_else(|| {
            self.cut.map(|cut| Measured {
                value: cut.right_less_left,
                standard: cut.expanded * 0.5,
            })
        })
    }

    /// The middle of the attitude at both ends.
    fn attitude(&self) -> Option<Measured<Angle>> {
        let [left, right] = self.readings.attitude?;
        // One instrument read both: what it is off by is in both alike.
        Some(Measured {
            value: (left.value + right.value) * 0.5,
            standard: (left.standard + right.standard) * 0.5,
        })
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
            reel_diameter: length(value(mean(&self.readings.reel))),
            knife: knife.unwrap_or_default(),
            height_of_cut: length(value(mean(&self.readings.height))),
            attitude: self
                .attitude()
                .map(|attitude| Quantity::from_value(attitude.value, system)),
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
        is_measured
            && filled.setting == unit.document.setting
            && filled.bench == unit.document.bench
    }

    /// What was done to the rollers, by what their readings say of them: no roller is called parallel that
    /// was not found so.
    fn what_was_done(&self, before: [Option<Length>; 2]) -> String {
        let told = |roller: Option<&RollerResult>, before: Option<Length>| {
            let Some(roller) = roller.filter(|roller| roller.parallel.is_some()) else {
                return "not read";
            };
            match roller.sure_verdict() {
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

/// The largest runout along a roller, by what the sheet judges it by.
fn largest_runout(roller: Option<&RollerResult>) -> Option<Length> {
    let read = roller?.runout.iter().map(StationRunout::judged);
    read.reduce(|one, other| if other > one { other } else { one })
}

/// The middle of what was read along the reel or the knife. One instrument read it everywhere, so that the
/// mean can be off by as much as its readings.
fn mean(along: &AlongRead) -> Option<Measured> {
    let read: Vec<Measured> = [along.left, along.middle, along.right]
        .into_iter()
        .flatten()
        .collect();
    let count = f64::from(u32::try_from(read.len()).ok().filter(|count| *count > 0)?);
    let mean = |of: fn(&Measured) -> Length| {
        let sum: f64 = read.iter().map(|read| of(read).mm()).sum();
        Length::from_mm(sum / count)
    };
    Some(Measured {
        value: mean(|read| read.value),
        standard: mean(|read| read.standard),
    })
}

fn value(read: Option<Measured>) -> Option<Length> {
    read.map(|read| read.value)
}
