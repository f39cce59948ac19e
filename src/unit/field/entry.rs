//! What stands in a field: where it is kept in the document, and how it is read and typed over.

use std::borrow::Cow;

use thiserror::Error;

use super::{Field, KnifePart, KnifeText, OneOf, Reading};
use crate::unit::closing::{ClosingReadings, ClosingWay};
use crate::unit::flaw::FlawKind;
use crate::unit::ground::{GroundForm, ShapeEntry};
use crate::unit::{Document, Knife, Pieces};
use crate::units::{Measure, Quantity, QuantityProblem, Quoted, System};

/// Why a text cannot stand in a field.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum EntryProblem {
    /// It is no quantity of the field's kind.
    #[error(transparent)]
    Quantity(#[from] QuantityProblem),
    /// It is no whole number.
    #[error("write a whole number, like 8")]
    NoCount,
    /// It is none of those that there are.
    #[error("{} is not one of {known}", Quoted(.wanted))]
    NoneOf {
        /// What was written.
        wanted: String,
        /// Those there are.
        known: String,
    },
    /// No quantity stands in such a field.
    #[error("this field takes no quantity")]
    NoQuantity,
    /// It cannot be a knife's name.
    #[error(transparent)]
    Name(FlawKind),
    /// It makes no sense on any unit.
    #[error("{0}")]
    PastSense(String),
    /// The unit has no such field as it is described now.
    #[error("the unit has no such field as it is described now")]
    NotThere,
}

/// A quantity whatever its kind, in the kind's base unit.
#[derive(Clone, Copy, Debug)]
pub(in crate::unit) struct Amount {
    pub(in crate::unit) base: f64,
    pub(in crate::unit) half_width: Option<f64>,
}

/// What stands in a field, whatever its kind.
pub(in crate::unit) trait Entry {
    /// As typed, or as the unit file writes it; none where it is left out.
    fn text(&self) -> Option<Cow<'_, str>>;

    /// As a person who works in `system` expects it.
    fn shown_in(&self, _system: System) -> Option<Cow<'_, str>> {
        self.text()
    }

    /// How much it is; none for what is no number or is left out.
    fn amount(&self) -> Option<Amount> {
        None
    }

    /// Takes what was typed by a person who works in `system`.
    fn type_over(&mut self, text: &str, system: System) -> Result<(), EntryProblem>;
}

/// The one list of where each field is kept, borrowed as asked: the two ways of borrowing differ in
/// the words between brackets alone.
macro_rules! place {
    ($field:expr, $document:expr, [$($mut:ident)?], $as_ref:ident, $get:ident, $knife_at:ident, $part:ident, $text:ident) => {{
        let entry: & $($mut)? dyn Entry = match $field {
            Field::Name => & $($mut)? $document.name,
            Field::Serial => & $($mut)? $document.serial,
            Field::Set => & $($mut)? $document.set,
            Field::Date => & $($mut)? $document.date,
            Field::Notes => & $($mut)? $document.notes,
            Field::Turf => & $($mut)? $document.turf,
            Field::NewDiameter => & $($mut)? $document.reel.new_diameter,
            Field::SmallestDiameter => & $($mut)? $document.reel.smallest_diameter,
            Field::Blades => & $($mut)? $document.reel.blades,
            Field::Closing => & $($mut)? $document.closing,
            Field::KnifeText(knife, text) => $document.$knife_at(knife)?.$text(text),
            Field::HardwareOn(index) => & $($mut)? $document.hardware.$get(index)?.on,
            Field::Reading(reading) => match reading {
                Reading::ReelDiameter => & $($mut)? $document.bench.reel_diameter,
                Reading::HeightOfCut => & $($mut)? $document.bench.height_of_cut,
                Reading::Attitude => & $($mut)? $document.bench.attitude,
                Reading::BehindCentre => & $($mut)? $document.bench.behind_centre,
                Reading::Gap => & $($mut)? $document.bench.gap,
                Reading::FrontDiameter => & $($mut)? $document.bench.front_roller.diameter,
                Reading::FrontAhead => & $($mut)? $document.bench.front_roller.ahead,
                Reading::RearDiameter => & $($mut)? $document.bench.rear_roller.diameter,
                Reading::RearBehind => & $($mut)? $document.bench.rear_roller.behind,
                Reading::Lean => match & $($mut)? $document.closing {
                    ClosingReadings::ReelSlides { lean } | ClosingReadings::KnifeSlides { lean } => lean,
                    ClosingReadings::ReelPivots { .. } | ClosingReadings::KnifePivots { .. } => return None,
                },
                Reading::PivotAhead => match & $($mut)? $document.closing {
                    ClosingReadings::ReelPivots { ahead, .. } | ClosingReadings::KnifePivots { ahead, .. } => ahead,
                    ClosingReadings::ReelSlides { .. } | ClosingReadings::KnifeSlides { .. } => return None,
                },
                Reading::PivotAbove => match & $($mut)? $document.closing {
                    ClosingReadings::ReelPivots { above, .. } | ClosingReadings::KnifePivots { above, .. } => above,
                    ClosingReadings::ReelSlides { .. } | ClosingReadings::KnifeSlides { .. } => return None,
                },
                Reading::Knife(knife, part) => $document.$knife_at(knife)?.$part(part),
                Reading::HardwareBehind(index) => & $($mut)? $document.hardware.$get(index)?.behind,
                Reading::HardwareBelow(index) => & $($mut)? $document.hardware.$get(index)?.below,
                Reading::GroundSpeed => & $($mut)? $document.mowing.$as_ref()?.ground_speed,
                Reading::ReelSpeed => & $($mut)? $document.mowing.$as_ref()?.reel_speed,
                Reading::RollerSink => & $($mut)? $document.ground.roller_sink,
                Reading::FrontSink => & $($mut)? $document.ground.front_sink,
                Reading::RearSink => & $($mut)? $document.ground.rear_sink,
                Reading::GroundRadius => match & $($mut)? $document.ground.shape {
                    ShapeEntry::Crest(radius) | ShapeEntry::Hollow(radius) => radius,
                    ShapeEntry::NotMeasured | ShapeEntry::Level => return None,
                },
                Reading::FrontRunout => & $($mut)? $document.wear.front_runout,
                Reading::RearRunout => & $($mut)? $document.wear.rear_runout,
                Reading::EndDifference => & $($mut)? $document.wear.end_difference,
            },
            Field::WantedReelDiameter => & $($mut)? $document.setting.reel_diameter,
            Field::WantedHeightOfCut => & $($mut)? $document.setting.height_of_cut,
            Field::WantedAttitude => & $($mut)? $document.setting.attitude,
            Field::WantedGap => & $($mut)? $document.setting.gap,
            Field::FittedKnife => & $($mut)? $document.setting.knife,
            Field::Extension => & $($mut)? $document.setting.extension,
            Field::TopGround => & $($mut)? $document.setting.top_ground,
            Field::FaceGround => & $($mut)? $document.setting.face_ground,
            Field::FrontMove => & $($mut)? $document.setting.rollers.$as_ref()?.front_move,
            Field::RearMove => & $($mut)? $document.setting.rollers.$as_ref()?.rear_move,
            Field::GroundShape => & $($mut)? $document.ground.shape,
            Field::StraightedgeLength => & $($mut)? $document.ground.straightedge.$as_ref()?.length,
            Field::StraightedgeGap => & $($mut)? $document.ground.straightedge.$as_ref()?.gap,
            Field::StraightedgeAt => & $($mut)? $document.ground.straightedge.$as_ref()?.at,
            Field::FrontPitch => & $($mut)? $document.brackets.front_pitch,
            Field::RearPitch => & $($mut)? $document.brackets.rear_pitch,
            Field::Spacers => & $($mut)? $document.brackets.spacers,
            Field::AGrind => & $($mut)? $document.grinding.a_grind,
            Field::LeastLip => & $($mut)? $document.grinding.least_lip,
            Field::SweepWatch => & $($mut)? $document.limits.$as_ref()?.sweep_watch,
            Field::SweepOver => & $($mut)? $document.limits.$as_ref()?.sweep_over,
            Field::GapWatch => & $($mut)? $document.limits.$as_ref()?.gap_watch,
            Field::GapOver => & $($mut)? $document.limits.$as_ref()?.gap_over,
            Field::LeastUnderside => & $($mut)? $document.limits.$as_ref()?.underside,
            Field::MostAheadOfCentre => & $($mut)? $document.limits.$as_ref()?.ahead_of_centre,
            Field::LeastBehindCentre => & $($mut)? $document.limits.$as_ref()?.behind_centre,
            Field::ClipLeast => & $($mut)? $document.limits.$as_ref()?.clip_least,
            Field::ClipWatch => & $($mut)? $document.limits.$as_ref()?.clip_watch,
            Field::ClipOver => & $($mut)? $document.limits.$as_ref()?.clip_over,
            Field::LeastAttitude => & $($mut)? $document.limits.$as_ref()?.attitude_range.$as_ref()?.low,
            Field::MostAttitude => & $($mut)? $document.limits.$as_ref()?.attitude_range.$as_ref()?.high,
            Field::LeastRoom => & $($mut)? $document.limits.$as_ref()?.room,
        };
        Some(entry)
    }};
}

/// The same for what stands in a knife.
macro_rules! place_in_knife {
    ($part:expr, $knife:expr, [$($mut:ident)?]) => {
        match $part {
            KnifePart::Reach => & $($mut)? $knife.reach,
            KnifePart::Width => & $($mut)? $knife.width,
            KnifePart::LipThickness => & $($mut)? $knife.lip_thickness,
            KnifePart::LipLength => & $($mut)? $knife.lip_length,
            KnifePart::BodyThickness => & $($mut)? $knife.body_thickness,
            KnifePart::TopAngle => & $($mut)? $knife.top_angle,
            KnifePart::FrontAngle => & $($mut)? $knife.front_angle,
            KnifePart::TopGround => & $($mut)? $knife.top_ground,
            KnifePart::FaceGround => & $($mut)? $knife.face_ground,
        }
    };
}

macro_rules! text_of_knife {
    ($text:expr, $knife:expr, [$($mut:ident)?]) => {
        match $text {
            KnifeText::Name => & $($mut)? $knife.name,
            KnifeText::Price => & $($mut)? $knife.price,
            KnifeText::Quantity => & $($mut)? $knife.quantity,
            KnifeText::Notes => & $($mut)? $knife.notes,
        }
    };
}

impl Field {
    pub(super) fn entry(self, document: &Document) -> Option<&dyn Entry> {
        place!(self, document, [], as_ref, get, knife_at, part, written)
    }

    pub(super) fn entry_mut(self, document: &mut Document) -> Option<&mut dyn Entry> {
        place!(self, document, [mut], as_mut, get_mut, knife_at_mut, part_mut, written_mut)
    }
}

impl Knife {
    pub(in crate::unit) fn part(&self, part: KnifePart) -> &dyn Entry {
        place_in_knife!(part, self, [])
    }

    fn part_mut(&mut self, part: KnifePart) -> &mut dyn Entry {
        place_in_knife!(part, self, [mut])
    }

    pub(in crate::unit) fn written(&self, text: KnifeText) -> &dyn Entry {
        text_of_knife!(text, self, [])
    }

    fn written_mut(&mut self, text: KnifeText) -> &mut dyn Entry {
        text_of_knife!(text, self, [mut])
    }
}

impl<M: Measure> Entry for Quantity<M> {
    fn text(&self) -> Option<Cow<'_, str>> {
        Some(Cow::Borrowed(Quantity::text(self)))
    }

    fn shown_in(&self, system: System) -> Option<Cow<'_, str>> {
        Some(Cow::Owned(Quantity::shown_in(self, system)))
    }

    fn amount(&self) -> Option<Amount> {
        Some(Amount {
            base: self.value().base(),
            half_width: self.half_width().map(Measure::base),
        })
    }

    fn type_over(&mut self, text: &str, system: System) -> Result<(), EntryProblem> {
        *self = Self::typed(text, M::unit_in(system).0)?;
        Ok(())
    }
}

impl<M: Measure> Entry for Option<Quantity<M>> {
    fn text(&self) -> Option<Cow<'_, str>> {
        Entry::text(self.as_ref()?)
    }

    fn shown_in(&self, system: System) -> Option<Cow<'_, str>> {
        Entry::shown_in(self.as_ref()?, system)
    }

    fn amount(&self) -> Option<Amount> {
        self.as_ref()?.amount()
    }

    fn type_over(&mut self, text: &str, system: System) -> Result<(), EntryProblem> {
        *self = if text.trim().is_empty() {
            None
        } else {
            Some(Quantity::typed(text, M::unit_in(system).0)?)
        };
        Ok(())
    }
}

impl Entry for u32 {
    fn text(&self) -> Option<Cow<'_, str>> {
        Some(Cow::Owned(self.to_string()))
    }

    fn amount(&self) -> Option<Amount> {
        Some(Amount {
            base: f64::from(*self),
            half_width: None,
        })
    }

    fn type_over(&mut self, text: &str, _system: System) -> Result<(), EntryProblem> {
        *self = text.trim().parse().map_err(|_| EntryProblem::NoCount)?;
        Ok(())
    }
}

impl Entry for Pieces {
    fn text(&self) -> Option<Cow<'_, str>> {
        Some(Cow::Owned(self.0.to_string()))
    }

    fn amount(&self) -> Option<Amount> {
        self.0.amount()
    }

    fn type_over(&mut self, text: &str, system: System) -> Result<(), EntryProblem> {
        if text.trim().is_empty() {
            *self = Self::default();
            return Ok(());
        }
        self.0.type_over(text, system)
    }
}

impl Entry for String {
    fn text(&self) -> Option<Cow<'_, str>> {
        Some(Cow::Borrowed(self))
    }

    fn type_over(&mut self, text: &str, _system: System) -> Result<(), EntryProblem> {
        text.clone_into(self);
        Ok(())
    }
}

impl Entry for Option<String> {
    fn text(&self) -> Option<Cow<'_, str>> {
        self.as_deref().map(Cow::Borrowed)
    }

    fn type_over(&mut self, text: &str, _system: System) -> Result<(), EntryProblem> {
        *self = (!text.is_empty()).then(|| text.to_owned());
        Ok(())
    }
}

impl<T: OneOf> Entry for T {
    fn text(&self) -> Option<Cow<'_, str>> {
        Some(Cow::Borrowed(self.word()))
    }

    fn type_over(&mut self, text: &str, _system: System) -> Result<(), EntryProblem> {
        *self = of_word(text)?;
        Ok(())
    }
}

impl Entry for ClosingReadings {
    fn text(&self) -> Option<Cow<'_, str>> {
        Some(Cow::Borrowed(self.way().word()))
    }

    fn type_over(&mut self, text: &str, system: System) -> Result<(), EntryProblem> {
        self.close_by(of_word::<ClosingWay>(text)?, system);
        Ok(())
    }
}

impl Entry for ShapeEntry {
    fn text(&self) -> Option<Cow<'_, str>> {
        Some(Cow::Borrowed(self.form().word()))
    }

    fn type_over(&mut self, text: &str, system: System) -> Result<(), EntryProblem> {
        self.take_form(of_word::<GroundForm>(text)?, system);
        Ok(())
    }
}

/// The one that is written so.
fn of_word<T: OneOf>(text: &str) -> Result<T, EntryProblem> {
    T::of_word(text.trim()).ok_or_else(|| EntryProblem::NoneOf {
        wanted: text.trim().to_owned(),
        known: T::ALL
            .iter()
            .map(|one| one.word())
            .collect::<Vec<_>>()
            .join(", "),
    })
}
