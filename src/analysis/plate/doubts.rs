//! Readings that cannot be, or not together: what they are, and how bad.

use crate::analysis::{Level, Solved};
use crate::plate::{Readings, Station, Step};
use crate::units::{Angle, Length, Sentence};

/// The ends of a gauge bar differ by no more (common practice, no source).
const BAR_ENDS: Length = Length::from_inches(0.005);

/// The attitude at both ends of a knife differs by no more (common practice, no source).
const ATTITUDE_ENDS: Angle = Angle::from_deg(0.5);

/// A reading that cannot be, or not beside another.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// The step in which it was read.
    pub step: Step,
    /// How bad it is.
    pub level: Level,
    /// What it is, in a sentence.
    pub told: Sentence,
}

impl Doubt {
    fn new(step: Step, level: Level, told: Sentence) -> Self {
        Self { step, level, told }
    }

    /// Every one of a sheet, in working order.
    pub(super) fn all_of(sheet: &Readings, unit: Option<&Solved>) -> Vec<Self> {
        let bar = bar(sheet).into_iter();
        let reel = unit.map_or_else(Vec::new, |unit| reel(sheet, unit));
        bar.chain(reel).chain(attitude(sheet)).collect()
    }
}

fn bar(sheet: &Readings) -> Option<Doubt> {
    let [left, right] = sheet.bar?;
    let apart = Length::from_mm((right.value - left.value).mm().abs());
    (apart > BAR_ENDS).then(|| {
        let template =
            "The bar's ends differ by {}, more than a gauge bar's can: measure both again.";
        Doubt::new(
            Step::PlateAndBar,
            Level::Over,
            Sentence::new(template, &[apart.into()]),
        )
    })
}

/// No reel is larger than when it was new; one under scrap size is to be renewed.
fn reel(sheet: &Readings, unit: &Solved) -> Vec<Doubt> {
    let reel = &unit.document.reel;
    let (new, scrap) = (&reel.new_diameter, &reel.smallest_diameter);
    let doubt = |station: Station| {
        let read = sheet.reel.at(station)?;
        let (least, most) = (
            read.value - read.standard * 2.0,
            read.value + read.standard * 2.0,
        );
        let template = if least > new.value() {
            match station {
                Station::Left => "Left: {} is more than the new reel's {}. Read it again.",
                Station::Middle => "Middle: {} is more than the new reel's {}. Read it again.",
                Station::Right => "Right: {} is more than the new reel's {}. Read it again.",
            }
        } else if most < scrap.value() {
            match station {
                Station::Left => "Left: {} is under scrap size, {}.",
                Station::Middle => "Middle: {} is under scrap size, {}.",
                Station::Right => "Right: {} is under scrap size, {}.",
            }
        } else {
            return None;
        };
        let limit = if least > new.value() { new } else { scrap };
        let values = [read.value.into(), limit.value().into()];
        Some(Doubt::new(
            Step::Reel,
            Level::Over,
            Sentence::new(template, &values),
        ))
    };
    Station::ALL.into_iter().filter_map(doubt).collect()
}

fn attitude(sheet: &Readings) -> Option<Doubt> {
    let [left, right] = sheet.attitude?;
    let apart = Angle::from_deg((right.deg() - left.deg()).abs());
    (apart > ATTITUDE_ENDS).then(|| {
        let template = "The ends differ by {}, and {} is much for one knife: read both again, and look for a bent knife or a twisted frame.";
        Doubt::new(
            Step::Attitude,
            Level::Watch,
            Sentence::new(template, &[apart.into(), ATTITUDE_ENDS.into()]),
        )
    })
}
