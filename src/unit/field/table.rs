//! The table of fields: the order of the unit file, and where in it each stands, what it holds and
//! what must be true of it.

use super::{Choice, Field, Group, Kind, KnifePart, KnifeText, Reading, Rule};
use crate::unit::{Document, Fitted};

/// Where a field stands in the unit file, what it holds, and what must be true of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub(super) group: Group,
    pub(super) word: &'static str,
    pub(super) kind: Kind,
    pub(super) rule: Rule,
}

pub(super) const fn row(group: Group, word: &'static str, kind: Kind, rule: Rule) -> Row {
    Row {
        group,
        word,
        kind,
        rule,
    }
}

impl Field {
    /// A name and what is known of the reel.
    const UNIT: [Self; 9] = [
        Self::Name,
        Self::Serial,
        Self::Set,
        Self::Date,
        Self::Notes,
        Self::Turf,
        Self::NewDiameter,
        Self::SmallestDiameter,
        Self::Blades,
    ];
    const SETTING: [Self; 10] = [
        Self::WantedReelDiameter,
        Self::WantedHeightOfCut,
        Self::WantedAttitude,
        Self::WantedGap,
        Self::FittedKnife,
        Self::Extension,
        Self::TopGround,
        Self::FaceGround,
        Self::FrontMove,
        Self::RearMove,
    ];
    const GROUND: [Self; 8] = [
        Self::Reading(Reading::RollerSink),
        Self::Reading(Reading::FrontSink),
        Self::Reading(Reading::RearSink),
        Self::GroundShape,
        Self::Reading(Reading::GroundRadius),
        Self::StraightedgeLength,
        Self::StraightedgeGap,
        Self::StraightedgeAt,
    ];
    const BRACKETS: [Self; 3] = [Self::FrontPitch, Self::RearPitch, Self::Spacers];
    const GRINDING: [Self; 2] = [Self::AGrind, Self::LeastLip];
    const LIMITS: [Self; 13] = [
        Self::SweepWatch,
        Self::SweepOver,
        Self::GapWatch,
        Self::GapOver,
        Self::LeastUnderside,
        Self::MostAheadOfCentre,
        Self::LeastBehindCentre,
        Self::ClipLeast,
        Self::ClipWatch,
        Self::ClipOver,
        Self::LeastAttitude,
        Self::MostAttitude,
        Self::LeastRoom,
    ];

    pub(super) const fn row(self) -> Row {
        use Group as G;
        use Kind::{Angle, Count, Knife, Length, Ratio, Share, Text};
        use Rule::{
            AboveZero, Blades, Free, InProportion, NotBlank, NotNegative, Pieces, WithinUpright,
        };
        match self {
            Self::Name => row(G::Unit, "name", Text, Free),
            Self::Serial => row(G::Unit, "serial", Text, Free),
            Self::Set => row(G::Unit, "set", Text, Free),
            Self::Date => row(G::Unit, "date", Text, Free),
            Self::Notes => row(G::Unit, "notes", Text, Free),
            Self::Turf => row(G::Unit, "turf", Kind::Choice(Choice::Turf), Free),
            Self::NewDiameter => row(G::Reel, "new_diameter", Length, AboveZero),
            Self::SmallestDiameter => row(G::Reel, "smallest_diameter", Length, AboveZero),
            Self::Blades => row(G::Reel, "blades", Count, Blades),
            Self::Closing => row(G::Unit, "closing", Kind::Choice(Choice::Closing), Free),
            Self::KnifeText(knife, text) => {
                let group = G::Knife(knife);
                match text {
                    KnifeText::Name => row(group, "name", Text, NotBlank),
                    KnifeText::Price => row(group, "price", Text, Free),
                    KnifeText::Quantity => row(group, "quantity", Count, Pieces),
                    KnifeText::Notes => row(group, "notes", Text, Free),
                }
            }
            Self::HardwareOn(index) => {
                let on = Kind::Choice(Choice::Mount);
                row(G::Hardware(index), "on", on, Free)
            }
            Self::Reading(reading) => reading.row(),
            Self::WantedReelDiameter => row(G::Setting, "reel_diameter", Length, AboveZero),
            Self::WantedHeightOfCut => row(G::Setting, "height_of_cut", Length, AboveZero),
            Self::WantedAttitude => row(G::Setting, "attitude", Angle, WithinUpright),
            Self::WantedGap => row(G::Setting, "gap", Length, NotNegative),
            Self::FittedKnife => row(G::Setting, "knife", Knife, Free),
            Self::Extension => row(G::Setting, "extension", Length, InProportion),
            Self::TopGround => row(G::Setting, "top_ground", Length, NotNegative),
            Self::FaceGround => row(G::Setting, "face_ground", Length, NotNegative),
            Self::FrontMove => row(G::RollerMoves, "front_move", Length, InProportion),
            Self::RearMove => row(G::RollerMoves, "rear_move", Length, InProportion),
            Self::GroundShape => row(G::Ground, "shape", Kind::Choice(Choice::GroundShape), Free),
            Self::StraightedgeLength => row(G::Straightedge, "length", Length, AboveZero),
            Self::StraightedgeGap => row(G::Straightedge, "gap", Length, NotNegative),
            Self::StraightedgeAt => {
                row(G::Straightedge, "at", Kind::Choice(Choice::GapPlace), Free)
            }
            Self::FrontPitch => row(G::Brackets, "front_pitch", Length, AboveZero),
            Self::RearPitch => row(G::Brackets, "rear_pitch", Length, AboveZero),
            Self::Spacers => row(G::Brackets, "spacers", Text, Free),
            Self::AGrind => row(G::Grinding, "a_grind", Length, AboveZero),
            Self::LeastLip => row(G::Grinding, "least_lip", Length, NotNegative),
            Self::SweepWatch => row(G::Limits, "sweep_watch", Share, NotNegative),
            Self::SweepOver => row(G::Limits, "sweep_over", Share, NotNegative),
            Self::GapWatch => row(G::Limits, "gap_watch", Length, NotNegative),
            Self::GapOver => row(G::Limits, "gap_over", Length, NotNegative),
            Self::LeastUnderside => row(G::Limits, "underside", Length, NotNegative),
            Self::MostAheadOfCentre => row(G::Limits, "ahead_of_centre", Length, NotNegative),
            Self::LeastBehindCentre => row(G::Limits, "behind_centre", Length, NotNegative),
            Self::ClipLeast => row(G::Limits, "clip_least", Ratio, NotNegative),
            Self::ClipWatch => row(G::Limits, "clip_watch", Ratio, NotNegative),
            Self::ClipOver => row(G::Limits, "clip_over", Ratio, NotNegative),
            Self::LeastAttitude => row(G::AttitudeRange, "low", Angle, WithinUpright),
            Self::MostAttitude => row(G::AttitudeRange, "high", Angle, WithinUpright),
            Self::LeastRoom => row(G::Limits, "room", Angle, NotNegative),
        }
    }

    /// The brackets of the unit file that it stands in.
    #[must_use]
    pub const fn group(self) -> Group {
        self.row().group
    }

    /// What kind of thing it holds.
    #[must_use]
    pub const fn kind(self) -> Kind {
        self.row().kind
    }

    /// What must be true of it by itself.
    #[must_use]
    pub const fn rule(self) -> Rule {
        self.row().rule
    }

    /// Every field of a document, in the order of the unit file, those left out included.
    pub fn all(document: &Document) -> impl Iterator<Item = Self> + use<> {
        Self::listed(0..document.hardware.len(), 0..document.options.len())
    }

    /// Every field there is, with the points of the hardware and the knives to compare at these
    /// places of their lists.
    fn listed(
        hardware: impl Iterator<Item = usize>,
        options: impl Iterator<Item = usize>,
    ) -> impl Iterator<Item = Self> {
        let readings = |readings: &'static [Reading]| readings.iter().copied().map(Self::Reading);
        Self::UNIT
            .into_iter()
            .chain(readings(&Reading::BENCH))
            .chain([Self::Closing])
            .chain(readings(&Reading::CLOSING))
            .chain(Self::of_knife(Fitted::Bench))
            .chain(hardware.flat_map(Self::of_hardware))
            .chain(options.flat_map(|index| Self::of_knife(Fitted::Option(index))))
            .chain(Self::SETTING)
            .chain(readings(&Reading::MOWING))
            .chain(Self::GROUND)
            .chain(readings(&Reading::WEAR))
            .chain(Self::BRACKETS)
            .chain(Self::GRINDING)
            .chain(Self::LIMITS)
    }

    /// The fields of a point of the hardware.
    pub fn of_hardware(index: usize) -> impl Iterator<Item = Self> {
        let readings = Reading::of_hardware(index).map(Self::Reading);
        readings.into_iter().chain([Self::HardwareOn(index)])
    }

    /// The fields of a knife.
    pub fn of_knife(knife: Fitted) -> impl Iterator<Item = Self> {
        let parts = KnifePart::ALL.map(|part| Self::Reading(Reading::Knife(knife, part)));
        let text = move |text| Self::KnifeText(knife, text);
        std::iter::once(text(KnifeText::Name))
            .chain(parts)
            .chain([KnifeText::Price, KnifeText::Quantity, KnifeText::Notes].map(text))
    }

    /// Every field there is, of each list those at one place.
    pub(super) fn that_stand_at(index: usize) -> impl Iterator<Item = Self> {
        Self::listed(std::iter::once(index), std::iter::once(index))
    }
}

impl KnifePart {
    /// Its word in the unit file.
    #[must_use]
    pub const fn word(self) -> &'static str {
        Reading::Knife(Fitted::Bench, self).row().word
    }
}

impl Reading {
    pub(super) const fn row(self) -> Row {
        use Group as G;
        use Kind::{Angle, Length, Speed, Turning};
        use Rule::{AboveZero, InProportion, NotNegative, Radius, WithinUpright};
        match self {
            Self::ReelDiameter => row(G::Bench, "reel_diameter", Length, AboveZero),
            Self::HeightOfCut => row(G::Bench, "height_of_cut", Length, AboveZero),
            Self::Attitude => row(G::Bench, "attitude", Angle, WithinUpright),
            Self::BehindCentre => row(G::Bench, "behind_centre", Length, InProportion),
            Self::Gap => row(G::Bench, "gap", Length, NotNegative),
            Self::FrontDiameter => row(G::FrontRoller, "diameter", Length, AboveZero),
            Self::FrontAhead => row(G::FrontRoller, "ahead", Length, AboveZero),
            Self::RearDiameter => row(G::RearRoller, "diameter", Length, AboveZero),
            Self::RearBehind => row(G::RearRoller, "behind", Length, AboveZero),
            Self::Lean => row(G::Closing, "lean", Angle, WithinUpright),
            Self::PivotAhead => row(G::Closing, "ahead", Length, InProportion),
            Self::PivotAbove => row(G::Closing, "above", Length, InProportion),
            Self::Knife(knife, part) => {
                let group = G::Knife(knife);
                match part {
                    KnifePart::Reach => row(group, "reach", Length, AboveZero),
                    KnifePart::Width => row(group, "width", Length, AboveZero),
                    KnifePart::LipThickness => row(group, "lip_thickness", Length, AboveZero),
                    KnifePart::LipLength => row(group, "lip_length", Length, AboveZero),
                    KnifePart::BodyThickness => row(group, "body_thickness", Length, AboveZero),
                    KnifePart::TopAngle => row(group, "top_angle", Angle, WithinUpright),
                    KnifePart::FrontAngle => row(group, "front_angle", Angle, WithinUpright),
                    KnifePart::TopGround => row(group, "top_ground", Length, NotNegative),
                    KnifePart::FaceGround => row(group, "face_ground", Length, NotNegative),
                }
            }
            Self::HardwareBehind(index) => row(G::Hardware(index), "behind", Length, InProportion),
            Self::HardwareBelow(index) => row(G::Hardware(index), "below", Length, InProportion),
            Self::GroundSpeed => row(G::Mowing, "ground_speed", Speed, AboveZero),
            Self::ReelSpeed => row(G::Mowing, "reel_speed", Turning, AboveZero),
            Self::RollerSink => row(G::Ground, "roller_sink", Length, NotNegative),
            Self::FrontSink => row(G::Ground, "front_sink", Length, NotNegative),
            Self::RearSink => row(G::Ground, "rear_sink", Length, NotNegative),
            // It stands in the shape's own brackets: Crest("6 m").
            Self::GroundRadius => row(G::Ground, "shape", Length, Radius),
            Self::FrontRunout => row(G::Wear, "front_runout", Length, NotNegative),
            Self::RearRunout => row(G::Wear, "rear_runout", Length, NotNegative),
            Self::EndDifference => row(G::Wear, "end_difference", Length, NotNegative),
        }
    }
}
