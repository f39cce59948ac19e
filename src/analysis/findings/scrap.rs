//! The reel under its scrap size, or larger than a new one.

use super::{Case, Level, Verdict};
use crate::units::Sentence;

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let now = case.setting.reel_diameter;
    let (new, smallest) = (case.unit.new_diameter, case.unit.smallest_diameter);
    let (level, text, remedy) = if now < smallest {
        (
            Level::Over,
            Sentence::new(
                "The reel, {}, is under its scrap size of {}.",
                &[now.into(), smallest.into()],
            ),
            Some(Sentence::new("It wants a new reel.", &[])),
        )
    } else if now > new {
        (
            Level::Watch,
            Sentence::new(
                "The reel, {}, is larger than a new one, {}.",
                &[now.into(), new.into()],
            ),
            Some(Sentence::new("Measure it again.", &[])),
        )
    } else {
        (
            Level::Fine,
            Sentence::new(
                "The reel, {}, has {} of diameter left to its scrap size.",
                &[now.into(), (now - smallest).into()],
            ),
            None,
        )
    };
    Some(Verdict {
        level,
        text,
        remedy,
    })
}
