//! What can be wanted otherwise than it was measured: the settings, what differs, and how far their
//! sliders go.

use crate::analysis::ranges;
use crate::app::form::slider::Range;
use crate::unit::{Document, Field, Reading};
use crate::units::{Angle, Length, Quantity, System};

/// A setting: what it is called, and the reading it follows while it is left out.
#[derive(Clone, Copy)]
pub struct Wanted {
    pub name: &'static str,
    pub field: Field,
    pub measured: Option<Reading>,
}

const ATTITUDE: Wanted = Wanted {
    name: "Attitude",
    field: Field::WantedAttitude,
    measured: Some(Reading::Attitude),
};
const HEIGHT_OF_CUT: Wanted = Wanted {
    name: "Height of cut",
    field: Field::WantedHeightOfCut,
    measured: Some(Reading::HeightOfCut),
};
const REEL_DIAMETER: Wanted = Wanted {
    name: "Reel diameter",
    field: Field::WantedReelDiameter,
    measured: Some(Reading::ReelDiameter),
};
const EXTENSION: Wanted = Wanted {
    name: "Edge forward",
    field: Field::Extension,
    measured: None,
};
const GAP: Wanted = Wanted {
    name: "Gap",
    field: Field::WantedGap,
    measured: Some(Reading::Gap),
};
const TOP_GROUND: Wanted = Wanted {
    name: "Metal off top face",
    field: Field::TopGround,
    measured: None,
};
const FACE_GROUND: Wanted = Wanted {
    name: "Metal off front face",
    field: Field::FaceGround,
    measured: None,
};

impl Wanted {
    /// Every setting by a quantity, in the order of the step.
    pub const ALL: [Self; 7] = [
        HEIGHT_OF_CUT,
        ATTITUDE,
        REEL_DIAMETER,
        EXTENSION,
        GAP,
        TOP_GROUND,
        FACE_GROUND,
    ];

    /// Where it stands while it is left out, in base units.
    pub fn base_measured(self, document: &Document) -> f64 {
        let measured = self.measured.map(Field::from);
        measured
            .and_then(|field| field.base(document))
            .unwrap_or(0.0)
    }

    /// The same in words.
    pub fn measured_text(self, document: &Document, system: System) -> String {
        match self.measured {
            Some(_) => {
                let base = self.base_measured(document);
                let written = self.field.kind().written(base, system);
                format!("measured {}", written.unwrap_or_default())
            }
            None if self.field == Field::Extension => "zero: as the knife's reach gives".to_owned(),
            None => "none taken off".to_owned(),
        }
    }

    /// Whether it asks for something else than was measured.
    fn is_changed(self, document: &Document) -> bool {
        let wanted = self.field.base(document);
        wanted.is_some_and(|wanted| (wanted - self.base_measured(document)).abs() > 1e-6)
    }

    /// What it asks for, and what was measured: to be read after "Differs from as measured"; none where
    /// it asks for nothing else.
    fn difference(self, document: &Document, system: System) -> Option<String> {
        if !self.is_changed(document) {
            return None;
        }
        let wanted = self.field.shown_in(document, system)?;
        let name = self.name.to_lowercase();
        let measured = self.measured.map(|_| self.base_measured(document));
        let measured = measured.and_then(|base| self.field.kind().written(base, system));
        Some(match measured {
            Some(measured) => format!("{name} {wanted} (was {measured})"),
            None => format!("{name} {wanted}"),
        })
    }
}

/// What is wanted differently from what was measured, each with what was measured.
pub fn differences(document: &Document, system: System) -> Vec<String> {
    let changed = Wanted::ALL.into_iter();
    let mut told: Vec<_> = changed
        .filter_map(|wanted| wanted.difference(document, system))
        .collect();
    let (fitted, bench) = (document.fitted_name(), &document.knife.name);
    if fitted != bench {
        told.push(format!("knife {fitted} (was {bench})"));
    }
    for (name, field) in [("front", Field::FrontMove), ("rear", Field::RearMove)] {
        let moved = field.base(document).filter(|mm| *mm != 0.0);
        if let Some(moved) = moved {
            let moved = system.roller_move(Length::from_mm(moved));
            told.push(format!("{name} roller {moved}"));
        }
    }
    told
}

/// The range of a setting's slider; none for one that has no slider.
pub fn range_of(system: System, document: &Document, field: Field) -> Option<Range> {
    let (bench, setting) = (&document.bench, &document.setting);
    match field {
        Field::WantedAttitude => {
            let bench = bench.attitude.value();
            let now = setting.attitude.as_ref().map_or(bench, Quantity::value);
            let limits = document.limits.as_ref();
            let range = limits.and_then(|limits| limits.attitude_range.as_ref());
            let (low, high) = range.map_or(ranges::ATTITUDES, |range| {
                (range.low.value(), range.high.value())
            });
            let low = low.deg().min(now.deg()).min(bench.deg());
            let high = high.deg().max(now.deg()).max(bench.deg());
            let angle = Angle::from_deg;
            Some(Range::of_angle(angle(low), angle(high)))
        }
        Field::WantedHeightOfCut => {
            let bench = bench.height_of_cut.value();
            let now = setting
                .height_of_cut
                .as_ref()
                .map_or(bench, Quantity::value);
            let least = least_of(bench * 0.5, now);
            let most = most_of(bench * 2.0, now);
            Some(Range::of_length(system, least, most))
        }
        Field::WantedReelDiameter => {
            let bench = bench.reel_diameter.value();
            let now = setting
                .reel_diameter
                .as_ref()
                .map_or(bench, Quantity::value);
            let reel = &document.reel;
            let (new, smallest) = (reel.new_diameter.value(), reel.smallest_diameter.value());
            let least = [now, bench].into_iter().fold(smallest, least_of);
            let most = [now, bench].into_iter().fold(new, most_of);
            Some(Range::of_length(system, least, most))
        }
        Field::Extension => {
            let now = setting
                .extension
                .as_ref()
                .map_or(Length::ZERO, Quantity::value);
            let most = ranges::MOST_EXTENSION;
            Some(Range::of_length(
                system,
                least_of(-most, now),
                most_of(most, now),
            ))
        }
        _ => None,
    }
}

fn least_of(a: Length, b: Length) -> Length {
    if b < a { b } else { a }
}

fn most_of(a: Length, b: Length) -> Length {
    if b > a { b } else { a }
}
