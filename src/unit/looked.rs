//! What was looked for and may well be none: a zero that was measured is a reading, an empty field is not.

use super::ground::{GroundEntry, ShapeEntry, WearEntry};
use crate::units::{Length, Quantity};

/// Whether something that may be none was looked for, and what was found.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Looked {
    /// Nobody measured it.
    #[default]
    NotYet,
    /// It was measured, and there is none, to within the reading's ± where it carries one.
    FoundNone {
        /// How far the reading can be off.
        off: Option<Length>,
    },
    /// It was measured, and there is some.
    Found,
}

impl Looked {
    /// A reading that may be left out.
    #[must_use]
    pub fn of(reading: Option<&Quantity<Length>>) -> Self {
        match reading {
            None => Self::NotYet,
            Some(reading) if reading.value() > Length::ZERO => Self::Found,
            Some(reading) => Self::FoundNone {
                off: reading.half_width().filter(|off| *off > Length::ZERO),
            },
        }
    }

    /// Two readings as one: some of either is some, and only where both were measured there is none.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::Found, _) | (_, Self::Found) => Self::Found,
            (Self::FoundNone { off: one }, Self::FoundNone { off: two }) => Self::FoundNone {
                off: one
                    .zip(two)
                    .map(|(one, two)| if one < two { two } else { one }),
            },
            (Self::NotYet, _) | (_, Self::NotYet) => Self::NotYet,
        }
    }

    /// Whether it was measured and is none.
    #[must_use]
    pub const fn is_none(self) -> bool {
        matches!(self, Self::FoundNone { .. })
    }

    /// What is told of it: "measured: none".
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::NotYet => "not measured",
            Self::FoundNone { .. } => "measured: none",
            Self::Found => "measured",
        }
    }
}

/// Everything of a unit that may well be none.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LookedFor {
    /// The front roller's runout.
    pub front_runout: Looked,
    /// The rear roller's runout.
    pub rear_runout: Looked,
    /// How much higher one end cuts.
    pub end_difference: Looked,
    /// How deep the rollers sink, both of them.
    pub sink: Looked,
    /// A crest or a hollow: level ground is none.
    pub shape: Looked,
}

impl LookedFor {
    pub(super) fn of(ground: &GroundEntry, wear: &WearEntry) -> Self {
        let both = ground.roller_sink.as_ref();
        let sink_of = |own: &Option<Quantity<Length>>| Looked::of(own.as_ref().or(both));
        Self {
            front_runout: Looked::of(wear.front_runout.as_ref()),
            rear_runout: Looked::of(wear.rear_runout.as_ref()),
            end_difference: Looked::of(wear.end_difference.as_ref()),
            sink: sink_of(&ground.front_sink).and(sink_of(&ground.rear_sink)),
            shape: match ground.shape {
                ShapeEntry::NotMeasured => Looked::NotYet,
                ShapeEntry::Level => Looked::FoundNone { off: None },
                ShapeEntry::Crest(_) | ShapeEntry::Hollow(_) => Looked::Found,
            },
        }
    }

    /// Both rollers' runout.
    #[must_use]
    pub fn runout(self) -> Looked {
        self.front_runout.and(self.rear_runout)
    }

    /// All that takes from the height between plate and soil.
    #[must_use]
    pub fn all(self) -> [Looked; 4] {
        [self.sink, self.shape, self.runout(), self.end_difference]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn looked(text: &str) -> Looked {
        Looked::of(Some(&Quantity::parse(text).unwrap()))
    }

    #[test]
    fn a_zero_is_a_reading_and_an_empty_field_is_none() {
        assert_eq!(Looked::of(None), Looked::NotYet);
        assert_eq!(looked("0 mm"), Looked::FoundNone { off: None });
        let off = Some(Length::from_mm(0.1));
        assert_eq!(looked("0 mm ± 0.1 mm"), Looked::FoundNone { off });
        assert_eq!(looked("0.2 mm"), Looked::Found);
    }

    #[test]
    fn two_readings_are_none_only_where_both_were_measured() {
        let none = looked("0 mm ± 0.1 mm");
        let wider = looked("0 mm ± 0.3 mm");
        assert_eq!(none.and(wider), wider);
        assert_eq!(none.and(looked("0 mm")), looked("0 mm"));
        assert_eq!(none.and(Looked::NotYet), Looked::NotYet);
        assert_eq!(Looked::Found.and(Looked::NotYet), Looked::Found);
    }
}
