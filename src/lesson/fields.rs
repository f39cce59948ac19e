//! The fields of a lesson's texts: every number that can stand in one, worked out and never typed.

use similar::{Algorithm, capture_diff_slices, diff_ratio};

use super::script::LessonView;
use crate::analysis::why::CrestLimits;
use crate::analysis::{NumberId, Solved};
use crate::geometry::GroundShape;
use crate::units::{Length, Ratio, System, fixed, reads_as_zero};

/// How thick a sheet of ordinary writing paper is, in inches: from memory, no source.
const PAPER_IN: f64 = 0.004;

/// What can stand in a text, by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// A number of the solution.
    Number(NumberId),
    /// The name of the knife fitted.
    Knife,
    /// How many blades the reel has.
    Blades,
    /// The sweep in sheets of paper lying on each other.
    SweepInSheets,
    /// The radius of the crest or hollow it stands on.
    GroundRadius,
    /// The radius of the tightest crest on which the reel stays clear.
    CrestToScalp,
    /// The radius of the tightest crest on which the knife and its hardware stay clear.
    CrestToDrag,
    /// How far both rollers go from where they were measured, as what is to be done.
    RollerMoves,
    /// How deep the reel stands in the ground.
    ReelIntoSoil,
    /// How deep the knife or its hardware stands in the ground.
    KnifeIntoSoil,
}

/// Whose it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// The step's unit's.
    First,
    /// The second unit's: `b.sweep`.
    Second,
    /// How many times the first unit's the second's is: `times.sweep`.
    Times,
}

/// A figure of one of a step's units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FigureOf {
    /// Whose.
    pub whose: Whose,
    /// Which.
    pub figure: Figure,
}

/// The units that figures are taken from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair<'a> {
    pub(super) first: &'a Solved,
    pub(super) second: Option<&'a Solved>,
}

impl Figure {
    /// Every one of them.
    pub fn all() -> impl Iterator<Item = Self> {
        let others = [
            Self::Knife,
            Self::Blades,
            Self::SweepInSheets,
            Self::GroundRadius,
            Self::CrestToScalp,
            Self::CrestToDrag,
            Self::RollerMoves,
            Self::ReelIntoSoil,
            Self::KnifeIntoSoil,
        ];
        NumberId::ALL.map(Self::Number).into_iter().chain(others)
    }

    /// Its name in a text.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Knife => "knife",
            Self::Blades => "blades",
            Self::SweepInSheets => "sweep_in_sheets",
            Self::GroundRadius => "ground_radius",
            Self::CrestToScalp => "crest_to_scalp",
            Self::CrestToDrag => "crest_to_drag",
            Self::RollerMoves => "roller_moves",
            Self::ReelIntoSoil => "reel_into_soil",
            Self::KnifeIntoSoil => "knife_into_soil",
            Self::Number(id) => name_of(id),
        }
    }

    /// Its name beside a number that is shown large.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Knife => "Knife",
            Self::Blades => "Blades",
            Self::SweepInSheets => "Sweep in sheets of paper",
            Self::GroundRadius => "Radius of the ground",
            Self::CrestToScalp => "Tightest crest that the reel clears",
            Self::CrestToDrag => "Tightest crest that the knife clears",
            Self::RollerMoves => "Roller moves",
            Self::ReelIntoSoil => "Reel into the soil",
            Self::KnifeIntoSoil => "Knife into the soil",
            Self::Number(id) => id.title(),
        }
    }

    /// It for a solved unit, in a reader's units.
    ///
    /// # Errors
    /// When the unit has no such figure, with the reason.
    fn shown(self, solved: &Solved, system: System) -> Result<String, String> {
        match self {
            Self::Number(id) => {
                let numbers = solved.solution.numbers();
                let shown = numbers.value(id).map(|value| value.shown_in(system));
                shown.ok_or_else(|| self.missing())
            }
            Self::Knife => Ok(solved.document.fitted_name().to_owned()),
            Self::Blades => Ok(solved.unit.blades.to_string()),
            Self::SweepInSheets => {
                let sheet = Length::from_inches(PAPER_IN);
                let sweep = solved.solution.sweep.below_cut;
                Ok(fixed(sweep.mm() / sheet.mm(), 0))
            }
            Self::GroundRadius => match solved.unit.shape {
                GroundShape::Crest(radius) | GroundShape::Hollow(radius) => {
                    Ok(system.radius(radius))
                }
                GroundShape::Level => Err(self.missing()),
            },
            Self::CrestToScalp | Self::CrestToDrag => {
                let limits = CrestLimits::of(&solved.case());
                let limit = if self == Self::CrestToScalp {
                    limits.reel
                } else {
                    limits.underside
                };
                let radius = limit.radius().map(|radius| system.radius(radius));
                radius.ok_or_else(|| self.missing())
            }
            Self::RollerMoves => {
                let pose = &solved.solution.pose;
                Ok(system.roller_moves((pose.front_roller.moved, pose.rear_roller.moved)))
            }
            Self::ReelIntoSoil => self.into_soil(NumberId::ReelOnGround, solved, system),
            Self::KnifeIntoSoil => self.into_soil(NumberId::UndersideOnGround, solved, system),
        }
    }

    /// A clearance below zero as the depth that it is.
    fn into_soil(
        self,
        clearance: NumberId,
        solved: &Solved,
        system: System,
    ) -> Result<String, String> {
        let clear = solved.solution.numbers().base(clearance);
        let deep = clear.filter(|clear| *clear < 0.0);
        let shown = deep.map(|clear| system.length(Length::from_mm(-clear)));
        shown.ok_or_else(|| self.missing())
    }

    /// Whether who reads it knows another one as well: it is that, or says the same in another way.
    pub(super) fn tells(self, other: Self) -> bool {
        const SWEEP: Figure = Figure::Number(NumberId::SweepBelowCut);
        const REEL: Figure = Figure::Number(NumberId::ReelOnGround);
        const KNIFE: Figure = Figure::Number(NumberId::UndersideOnGround);
        let said = match self {
            Self::SweepInSheets | Self::Number(NumberId::SweepShare) => SWEEP,
            Self::ReelIntoSoil => REEL,
            Self::KnifeIntoSoil => KNIFE,
            figure => figure,
        };
        let asked = match other {
            Self::ReelIntoSoil => REEL,
            Self::KnifeIntoSoil => KNIFE,
            figure => figure,
        };
        let is_a_move = matches!(
            other,
            Self::Number(NumberId::FrontRollerMove | NumberId::RearRollerMove)
        );
        self == other || said == asked || self == Self::RollerMoves && is_a_move
    }

    /// Only numbers can be so many times as large.
    const fn has_times(self) -> bool {
        matches!(self, Self::Number(_))
    }

    fn missing(self) -> String {
        let why = match self {
            Self::Number(NumberId::ClipLength | NumberId::ClipToCut) => {
                "it needs ground speed and reel speed, and the unit has none"
            }
            Self::GroundRadius => "the unit stands on level ground",
            Self::CrestToScalp => "no crest touches its reel, or level ground does already",
            Self::CrestToDrag => "no crest touches its knife, or level ground does already",
            Self::ReelIntoSoil => "the reel stands clear of the ground",
            Self::KnifeIntoSoil => "the knife stands clear of the ground",
            _ => "the unit has no such number",
        };
        format!("{{{}}} has no value: {why}", self.name())
    }
}

impl FigureOf {
    /// What is written between the braces for it.
    #[must_use]
    pub fn written(self) -> String {
        let name = self.figure.name();
        match self.whose {
            Whose::First => name.to_owned(),
            Whose::Second => format!("b.{name}"),
            Whose::Times => format!("times.{name}"),
        }
    }

    /// Every figure that a step can have, those of a second unit behind those of the first.
    pub fn all(has_second: bool) -> impl Iterator<Item = Self> {
        let of = |whose| Figure::all().map(move |figure| Self { whose, figure });
        let second = of(Whose::Second).chain(of(Whose::Times).filter(|of| of.figure.has_times()));
        of(Whose::First).chain(second.filter(move |_| has_second))
    }

    /// A figure by what is written between the braces; none for an unknown one.
    #[must_use]
    pub fn named(written: &str) -> Option<Self> {
        let (whose, name) = match written.split_once('.') {
            None => (Whose::First, written),
            Some(("b", name)) => (Whose::Second, name),
            Some(("times", name)) => (Whose::Times, name),
            Some(_) => return None,
        };
        let figure = Figure::all().find(|figure| figure.name() == name)?;
        (whose != Whose::Times || figure.has_times()).then_some(Self { whose, figure })
    }

    /// Whether it needs a second unit.
    #[must_use]
    pub fn needs_second(self) -> bool {
        self.whose != Whose::First
    }

    /// It for a step's units, each in the units it was measured in.
    ///
    /// # Errors
    /// When there is no such figure, with the reason.
    pub(super) fn shown(self, pair: Pair) -> Result<String, String> {
        let second = || {
            let none = "there is no second unit to take it from".to_owned();
            pair.second.ok_or(none)
        };
        match self.whose {
            Whose::First => self.figure.shown(pair.first, pair.first.unit.system),
            Whose::Second => {
                let second = second()?;
                self.figure.shown(second, second.unit.system)
            }
            Whose::Times => {
                let (first, second) = (self.base(pair.first)?, self.base(second()?)?);
                let system = pair.first.unit.system;
                let is_zero = reads_as_zero(&self.figure.shown(pair.first, system)?);
                let times = second / first;
                let shown = (times.is_finite() && !is_zero).then(|| {
                    let shown = system.ratio(Ratio::from_number(times));
                    // "4 times", as a person says it.
                    let short = shown.trim_end_matches('0').trim_end_matches('.');
                    let is_whole = !shown.contains('.') || short.is_empty();
                    if is_whole { shown } else { short.to_owned() }
                });
                shown.ok_or_else(|| {
                    let name = self.figure.name();
                    format!("{{times.{name}}} has no value: the first unit's is zero")
                })
            }
        }
    }

    /// It in a step's text. An attitude is told to a room as it is said, "5°"; what is read off a screen or a
    /// sheet keeps its places.
    ///
    /// # Errors
    /// When there is no such figure, with the reason.
    pub(super) fn in_text(self, pair: Pair) -> Result<String, String> {
        let shown = self.shown(pair)?;
        let is_attitude = self.figure == Figure::Number(NumberId::Attitude);
        let said = shown
            .strip_suffix('°')
            .filter(|number| is_attitude && self.whose != Whose::Times && number.contains('.'))
            .map(|number| number.trim_end_matches('0').trim_end_matches('.'));
        Ok(said.map(|number| format!("{number}°")).unwrap_or(shown))
    }

    /// What it is called beside a number that is shown large.
    #[must_use]
    pub fn title(self) -> String {
        let title = self.figure.title();
        match self.whose {
            Whose::First => title.to_owned(),
            Whose::Second => format!("{title}, second unit"),
            Whose::Times => format!("{title}, times the first unit's"),
        }
    }

    /// What it is called there in a view: beside each other, units are told by where they stand.
    #[must_use]
    pub fn title_in(self, view: LessonView) -> String {
        if !matches!(view, LessonView::SideBySide(_)) {
            return self.title();
        }
        let title = self.figure.title();
        match self.whose {
            Whose::First => format!("{title}, left"),
            Whose::Second => format!("{title}, right"),
            Whose::Times => format!("{title}, right ÷ left"),
        }
    }

    fn base(self, solved: &Solved) -> Result<f64, String> {
        let base = match self.figure {
            Figure::Number(id) => solved.solution.numbers().base(id),
            _ => None,
        };
        base.ok_or_else(|| self.figure.missing())
    }
}

/// The names of all fields, as help lists them.
#[must_use]
pub fn list_of_fields() -> String {
    let names: Vec<&str> = Figure::all().map(Figure::name).collect();
    format!(
        "{}; with a second unit also b.sweep and times.sweep, and so on",
        names.join(", ")
    )
}

/// How many fields are told in place of one that there is not, and how like it they are at least.
const MOST_NEAREST: usize = 3;
const LEAST_LIKE: f32 = 0.5;

/// The fields that are most like what was written, the nearest first.
pub(super) fn nearest(written: &str) -> Vec<FigureOf> {
    let letters = |text: &str| text.to_lowercase().chars().collect::<Vec<char>>();
    let wanted = letters(written.trim());
    let like = |of: &FigureOf| {
        let name = letters(&of.written());
        let changes = capture_diff_slices(Algorithm::Myers, &wanted, &name);
        diff_ratio(&changes, wanted.len(), name.len())
    };
    let mut near: Vec<(f32, FigureOf)> = FigureOf::all(written.contains('.'))
        .map(|of| (like(&of), of))
        .filter(|(like, _)| *like >= LEAST_LIKE)
        .collect();
    near.sort_by(|(one, _), (other, _)| other.total_cmp(one));
    near.into_iter()
        .take(MOST_NEAREST)
        .map(|(_, of)| of)
        .collect()
}

/// The name of a number in a text.
const fn name_of(id: NumberId) -> &'static str {
    match id {
        NumberId::BehindCentre => "behind_centre",
        NumberId::SweepBelowCut => "sweep",
        NumberId::SweepShare => "sweep_share",
        NumberId::SweepChord => "length_swept",
        NumberId::CentreAboveEdge => "centre_above_edge",
        NumberId::ClipAngle => "clip_angle",
        NumberId::HeightOfCut => "height_of_cut",
        NumberId::Attitude => "attitude",
        NumberId::ReelDiameter => "reel_diameter",
        NumberId::Extension => "edge_forward",
        NumberId::Gap => "gap",
        NumberId::FrontRollerMove => "front_roller",
        NumberId::RearRollerMove => "rear_roller",
        NumberId::ReelOverPlate => "reel_above_plate",
        NumberId::UndersideOverPlate => "underside_above_plate",
        NumberId::LipBottom => "lip_above_plate",
        NumberId::CutOnGround => "effective_height_of_cut",
        NumberId::ReelOnGround => "reel_above_ground",
        NumberId::ReelAtLowEnd => "reel_at_low_side",
        NumberId::UndersideOnGround => "underside_above_ground",
        NumberId::UndersideAtLowEnd => "underside_at_low_side",
        NumberId::ClipLength => "clip_length",
        NumberId::ClipToCut => "clip_to_cut",
        NumberId::TopAngleNeeded => "top_angle_needed",
        NumberId::TopFaceClearance => "top_face_clearance",
        NumberId::SweepOnGround => "sweep_on_ground",
        NumberId::AttitudeOnGround => "attitude_on_ground",
        NumberId::RollerToKnife => "roller_to_knife",
        NumberId::RunoutSwing => "runout_swing",
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_field_has_a_name_of_its_own_and_is_found_by_it() {
        let names: BTreeSet<_> = Figure::all().map(Figure::name).collect();
        assert_eq!(names.len(), Figure::all().count());
        for figure in Figure::all() {
            let found = FigureOf::named(figure.name()).expect("it is known");
            assert_eq!((found.whose, found.figure), (Whose::First, figure));
            let beside = FigureOf::named(&format!("b.{}", figure.name()));
            assert_eq!(beside.expect("it is known").whose, Whose::Second);
        }
        for figure in FigureOf::all(true) {
            assert_eq!(FigureOf::named(&figure.written()), Some(figure));
        }
        let nearest = |written| nearest(written).into_iter().map(FigureOf::written);
        let nearest = |written| nearest(written).collect::<Vec<_>>();
        assert_eq!(nearest("swep"), ["sweep", "sweep_share", "length_swept"]);
        assert_eq!(nearest("Behind_Center")[0], "behind_centre");
        assert_eq!(nearest("b.swep")[0], "b.sweep");
        assert!(nearest("sweep_shares").len() <= MOST_NEAREST);
        assert!(nearest("zzz").is_empty());
        for none in ["", "b", "c.sweep", "times.knife", "Sweep", " sweep"] {
            assert_eq!(FigureOf::named(none), None, "{none}");
        }
    }
}
