//! The gap between knife and reel beside what the unit allows, and how surely two leaves tell it.

use super::doubt::Doubt;
use super::parallel::SAME_MM;
use crate::analysis::Level;
use crate::plate::{GapOfKnife, Readings, SheetField, Station};
use crate::unit::Limits;
use crate::units::{Length, Sentence};

/// A leaf that goes and one that stops tell a gap when they differ by no more (common practice, no source).
const LEAVES_APART: Length = Length::from_inches(0.001);

/// What is not as it should be with the gaps that were read, told under the leaf that stops: once where it
/// is so at several places.
pub(super) fn knife_gaps(sheet: &Readings, limits: Option<&Limits>) -> Vec<Doubt> {
    let mut all: Vec<Doubt> = Vec::new();
    for station in Station::ALL {
        let Some(read) = sheet.knife_to_reel.at(station) else {
            continue;
        };
        let field = SheetField::KnifeStopsAt(station);
        let past = limits.and_then(|limits| past_limit(*read, limits, field));
        for doubt in past.into_iter().chain(too_far_apart(*read, field)) {
            match all.iter_mut().find(|other| other.says_as(&doubt)) {
                Some(other) => other.fields.push(field),
                None => all.push(doubt),
            }
        }
    }
    all
}

fn are_too_far_apart(read: GapOfKnife) -> bool {
    read.half_width.mm() * 2.0 > LEAVES_APART.mm() + SAME_MM
}

fn too_far_apart(read: GapOfKnife, field: SheetField) -> Option<Doubt> {
    let apart = read.half_width * 2.0;
    are_too_far_apart(read).then(|| {
        let template = "{} more than the leaf that goes, too far apart to tell the gap; read it again with leaves no more than {} apart";
        let values = [apart.into(), LEAVES_APART.into()];
        Doubt::new(&[field], Level::Watch, Sentence::new(template, &values))
    })
}

/// The gap lies between both leaves: past a limit for certain where the leaf that goes is.
fn past_limit(read: GapOfKnife, limits: &Limits, field: SheetField) -> Option<Doubt> {
    let (goes, stops) = (read.gap - read.half_width, read.gap + read.half_width);
    let is_past = |leaf: Length, limit: Length| leaf.mm() > limit.mm() + SAME_MM;
    let (watch, over) = (limits.gap_watch, limits.gap_over);
    let (level, template, values) = if is_past(goes, over) {
        (
            Level::Over,
            "the gap is more than {}, over the unit's limit of {}",
            [goes, over],
        )
    } else if is_past(goes, watch) {
        (
            Level::Watch,
            "the gap is more than {}, over the {} from which this unit is to be watched",
            [goes, watch],
        )
    } else if is_past(stops, watch) && !are_too_far_apart(read) {
        (
            Level::Watch,
            "undecided: the gap reads {}, and the {} from which this unit is to be watched lies between the two leaves",
            [read.gap, watch],
        )
    } else {
        return None;
    };
    let told = Sentence::new(template, &values.map(Into::into));
    Some(Doubt::of_unit(field, level, told))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::System;

    /// What is told of a gap between two leaves, in thousandths of an inch, with how bad it is.
    fn told(goes: f64, stops: f64) -> Vec<(Level, bool, String)> {
        let thou = |thou: f64| Length::from_inches(thou / 1000.0);
        let mut limits = Limits::starting(crate::unit::Turf::Green, System::InchDecimal);
        (limits.gap_watch, limits.gap_over) = (thou(1.0), thou(3.0));
        let read = GapOfKnife {
            gap: thou(0.5 * (goes + stops)),
            half_width: thou(0.5 * (stops - goes)),
        };
        let mut sheet = Readings::default();
        sheet.knife_to_reel.right = Some(read);
        let all = knife_gaps(&sheet, Some(&limits)).into_iter();
        let told = |doubt: Doubt| {
            let told = doubt.told(System::InchDecimal);
            (doubt.level, doubt.is_of_reading(), told)
        };
        all.map(told).collect()
    }

    #[test]
    fn a_gap_is_past_its_limit_where_the_leaf_that_goes_is_and_undecided_where_only_the_other_is() {
        assert_eq!(told(0.5, 1.0), []);
        for (goes, stops, level, said) in [
            (1.0, 1.5, Level::Watch, "undecided"),
            (1.5, 2.0, Level::Watch, "more than 0.0015 in"),
            (3.5, 4.0, Level::Over, "over the unit's limit of 0.0030 in"),
        ] {
            let told = told(goes, stops);
            assert_eq!(told.len(), 1, "{told:?}");
            assert_eq!((told[0].0, told[0].1), (level, false));
            assert!(told[0].2.contains(said), "{told:?}");
        }
    }

    #[test]
    fn leaves_far_apart_tell_no_gap() {
        let told = told(1.0, 150.0);
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].1, "{told:?}");
        let said = "0.149 in more than the leaf that goes";
        assert!(told[0].2.starts_with(said), "{told:?}");
    }
}
