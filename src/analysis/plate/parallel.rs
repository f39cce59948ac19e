//! How parallel a roller is to the cut line, and how surely.

use crate::plate::{GapOfRoller, Readings, RollerReadings};
use crate::unit::Turf;
use crate::units::{Length, Sentence};

/// How parallel a roller is to the cut line.
#[derive(Clone, Debug, PartialEq)]
pub struct Parallel {
    /// How much higher it stands to the right, a part of the way along.
    pub slope: f64,
    /// The same over the width of cut: positive with the right end high.
    pub out: Length,
    /// How far that can be off either way, k = 2.
    pub expanded: Length,
    /// The end that stands high.
    pub high: HighEnd,
    /// How parallel it is wanted; none where neither the sheet nor a unit's turf says.
    pub within: Option<Length>,
    /// Whether it is.
    pub verdict: Option<Verdict>,
    /// What makes it uncertain, the most first: each with its share of the variance.
    pub parts: Vec<(Part, f64)>,
    /// Whether both ends say how far their readings can be off. Where one does not, `expanded` is too small.
    pub is_off_known: bool,
}

/// The end of a roller that stands high.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HighEnd {
    /// The left one.
    Left,
    /// The right one.
    Right,
    /// None that can be told.
    Level,
}

/// Whether a roller is as parallel as it is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It is.
    Pass,
    /// It is not.
    Fail,
    /// The readings are not sure enough to tell.
    CannotTell,
}

/// What the uncertainty of a roller's slope comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// What was read at the left end.
    Left,
    /// What was read at the right end.
    Right,
    /// The diameters that heights are read over.
    Diameters,
    /// The gauge bar's thickness.
    Bar,
    /// The plate's flatness.
    Plate,
}

impl Part {
    /// Its name in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Left => "the reading at the left end",
            Self::Right => "the reading at the right end",
            Self::Diameters => "the roller's diameters",
            Self::Bar => "the gauge bar's thickness",
            Self::Plate => "the plate's flatness",
        }
    }
}

/// How much of what the result can be off by comes from a reading, in words: `share` is that of the
/// variance, from zero to one.
fn part_of_doubt(share: f64) -> &'static str {
    const STEPS: [(f64, &str); 6] = [
        (0.9, "nearly all of the uncertainty"),
        (0.7, "three quarters of the uncertainty"),
        (0.58, "two thirds of the uncertainty"),
        (0.42, "half of the uncertainty"),
        (0.29, "a third of the uncertainty"),
        (0.2, "a quarter of the uncertainty"),
    ];
    let mut steps = STEPS.iter();
    let step = steps.find(|(least, _)| share >= *least);
    step.map_or("one of many small parts", |(_, told)| told)
}

impl HighEnd {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Level => "level",
        }
    }
}

impl Verdict {
    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Fail => "fail",
            Self::CannotTell => "cannot tell",
        }
    }

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Fail => "fail",
            Self::CannotTell => "undecided",
        }
    }
}

/// How parallel a roller is wanted on a turf before anybody says otherwise, over the width of cut
/// (common practice, no source).
#[must_use]
pub fn starting_parallel(turf: Turf) -> Length {
    Length::from_inches(match turf {
        Turf::Green | Turf::Tee => 0.002,
        Turf::Fairway | Turf::Rough => 0.010,
    })
}

/// Lengths that differ by less are one: the last digits of the sums, in millimetres.
pub(super) const SAME_MM: f64 = 1e-9;

impl Parallel {
    /// None where an end was not read, or the bar was not, or it is not known how far apart the ends
    /// were read.
    pub(super) fn of(
        roller: &RollerReadings,
        sheet: &Readings,
        turf: Option<Turf>,
    ) -> Option<Self> {
        let (left, right) = (roller.left?, roller.right?);
        let [bar_left, bar_right] = sheet.bar?;
        let apart_mm = roller.measured_apart?.mm();
        let cut_width = sheet.cut_width;
        // A bar thicker on the right lifts the knife there, which is no fault of the roller.
        let higher = (right.gap - left.gap) - (bar_right.value - bar_left.value);
        let slope = higher.mm() / apart_mm;
        let out = cut_width * slope;
        let parts = [
            (Part::Left, left.standard_read.mm().powi(2)),
            (Part::Right, right.standard_read.mm().powi(2)),
            (Part::Diameters, diameters(&left, &right)),
            (Part::Bar, bar_variance(sheet)),
            (Part::Plate, plate_variance(sheet)),
        ];
        let variance: f64 = parts.iter().map(|(_, variance)| variance).sum();
        let expanded = cut_width * (2.0 * variance.sqrt() / apart_mm);
        let mut parts: Vec<_> = parts
            .into_iter()
            .filter(|(_, part)| *part > 0.0)
            .map(|(name, part)| (name, part / variance))
            .collect();
        parts.sort_by(|one, other| other.1.total_cmp(&one.1));
        let within = roller
            .parallel_within
            .or_else(|| turf.map(starting_parallel));
        Some(Self {
            slope,
            out,
            expanded,
            high: high_end(out, expanded),
            within,
            verdict: within.map(|within| verdict(out, expanded, within)),
            parts,
            is_off_known: left.is_off_known && right.is_off_known,
        })
    }

    /// What makes it uncertain the most, in words; none where nothing says how far it can be off.
    #[must_use]
    pub fn least_sure(&self) -> Option<String> {
        const ALIKE: f64 = 1e-6;
        let (part, share) = *self.parts.first()?;
        let ends = [Part::Left, Part::Right];
        let other = self.parts.get(1).filter(|(other, of_other)| {
            ends.contains(&part) && ends.contains(other) && (share - of_other).abs() < ALIKE
        });
        Some(match other {
            Some((_, of_other)) => format!(
                "the readings at both ends alike, {}",
                part_of_doubt(share + of_other)
            ),
            None => format!("{}, {}", part.name(), part_of_doubt(share)),
        })
    }

    /// What to do about a verdict that the readings are not sure enough for; none where there is one.
    #[must_use]
    pub fn read_better(&self) -> Option<(Part, Sentence)> {
        let within = self
            .within
            .filter(|_| self.verdict == Some(Verdict::CannotTell))?;
        let (part, _) = *self.parts.first()?;
        let values = [self.expanded.into(), within.into()];
        let template = match part {
            Part::Left | Part::Right => {
                "These readings give U = {} over this width of cut, too coarse to claim {}: read the ends with an indicator or a gauge of finer steps."
            }
            Part::Diameters => {
                "These diameters give U = {} over this width of cut, too coarse to claim {}: measure them with a micrometer, or read under the roller."
            }
            Part::Bar => {
                "This bar gives U = {} over this width of cut, too coarse to claim {}: measure it under both ends of the knife with a micrometer."
            }
            Part::Plate => {
                "This plate gives U = {} over this width of cut, too coarse to claim {}: use a flatter part of it, or a flatter plate."
            }
        };
        Some((part, Sentence::new(template, &values)))
    }
}

fn diameters(left: &GapOfRoller, right: &GapOfRoller) -> f64 {
    left.standard_diameter.mm().powi(2) + right.standard_diameter.mm().powi(2)
}

/// Both ends of the bar together, in square millimetres.
pub(super) fn bar_variance(sheet: &Readings) -> f64 {
    let ends = sheet.bar.iter().flatten();
    ends.map(|end| end.standard.mm().powi(2)).sum()
}

/// Each of the two places read may stand anywhere between the plate's peak and its valley: a half-width
/// of t/2 each, so t²/12 each (JCGM 100:2008, 4.3.7), in square millimetres.
pub(super) fn plate_variance(sheet: &Readings) -> f64 {
    sheet.plate_flat_within.mm().powi(2) / 6.0
}

fn high_end(out: Length, expanded: Length) -> HighEnd {
    match out.mm() {
        mm if mm.abs() <= expanded.mm() + SAME_MM => HighEnd::Level,
        mm if mm > 0.0 => HighEnd::Right,
        _ => HighEnd::Left,
    }
}

fn verdict(out: Length, expanded: Length, within: Length) -> Verdict {
    let (out, expanded, within) = (out.mm().abs(), expanded.mm(), within.mm());
    if out + expanded <= within + SAME_MM {
        Verdict::Pass
    } else if out - expanded > within + SAME_MM {
        Verdict::Fail
    } else {
        Verdict::CannotTell
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_verdict_is_given_only_where_the_readings_leave_no_doubt() {
        let judged = |out: f64, off: f64| {
            let [out, off, within] = [out, off, 0.05].map(Length::from_mm);
            (verdict(out, off, within), high_end(out, off))
        };
        assert_eq!(judged(0.03, 0.02), (Verdict::Pass, HighEnd::Right));
        assert_eq!(judged(-0.03, 0.021), (Verdict::CannotTell, HighEnd::Left));
        assert_eq!(judged(0.08, 0.03), (Verdict::CannotTell, HighEnd::Right));
        assert_eq!(judged(-0.08, 0.029), (Verdict::Fail, HighEnd::Left));
        assert_eq!(judged(0.0, 0.0), (Verdict::Pass, HighEnd::Level));
        assert_eq!(judged(0.02, 0.02), (Verdict::Pass, HighEnd::Level));
    }
}
