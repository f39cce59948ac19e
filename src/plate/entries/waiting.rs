//! What waits beside a sheet because it was entered otherwise than it is entered now.

use std::collections::BTreeMap;

use super::field::{End, RollerField, SheetField};
use super::held::{AdjusterKind, GapWay};
use crate::plate::sheet::Roller;
use crate::plate::step::Step;

/// An entry that waits.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Waiting {
    pub(super) text: String,
    /// Whether something was moved since it was read.
    pub(super) is_old: bool,
}

/// Everything that waits.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Aside {
    pub(super) entries: BTreeMap<SheetField, Waiting>,
    /// What was chosen while none of it was entered yet.
    pub(super) ways: BTreeMap<Roller, GapWay>,
    pub(super) kinds: BTreeMap<Roller, AdjusterKind>,
    /// Rollers that were not parallel by what waits.
    pub(super) not_parallel: Vec<Roller>,
    /// Other bars, as they were measured left and right.
    pub(super) bars: Vec<[String; 2]>,
}

impl Aside {
    pub(super) const fn new() -> Self {
        Self {
            entries: BTreeMap::new(),
            ways: BTreeMap::new(),
            kinds: BTreeMap::new(),
            not_parallel: Vec::new(),
            bars: Vec::new(),
        }
    }

    pub(super) fn way_chosen(&self, roller: Roller) -> Option<GapWay> {
        self.ways.get(&roller).copied()
    }

    pub(super) fn kind_chosen(&self, roller: Roller) -> Option<AdjusterKind> {
        self.kinds.get(&roller).copied()
    }

    /// Notes that what was read in some steps is older than what was moved.
    pub(super) fn is_old_in(&mut self, is_one: impl Fn(Step) -> bool) {
        for (field, waiting) in &mut self.entries {
            waiting.is_old |= field.is_reading() && field.step().is_some_and(&is_one);
        }
    }

    /// Drops what was read of a roller's ends before it was moved.
    pub(super) fn drop_ends(&mut self, roller: Roller) {
        let fields = GapWay::ALL.map(|way| way.fields(roller)).concat();
        self.entries.retain(|field, _| !fields.contains(field));
        self.was_moved(roller);
    }

    /// Notes that what is read of a roller from here on is known to be read after it was moved, or is
    /// what was read before.
    pub(super) fn was_moved(&mut self, roller: Roller) {
        self.not_parallel.retain(|one| *one != roller);
    }
}

impl GapWay {
    /// The entries of a roller's ends that are made this way.
    pub(super) fn fields(self, roller: Roller) -> Vec<SheetField> {
        let of_end = |end: End| match self {
            Self::Feeler => vec![RollerField::Goes(end), RollerField::StopsAt(end)],
            Self::Gap => vec![RollerField::Gap(end)],
            Self::OverTop => vec![RollerField::OverTop(end)],
        };
        let fields = End::ALL.into_iter().flat_map(of_end);
        fields.map(|field| SheetField::Of(roller, field)).collect()
    }
}

impl AdjusterKind {
    /// The entries of this kind alone.
    pub(super) fn fields(self, roller: Roller) -> Vec<SheetField> {
        let fields = match self {
            Self::Eccentric => vec![RollerField::Throw, RollerField::Now],
            Self::Thread => vec![RollerField::Pitch, RollerField::Tilt],
            Self::Shims => vec![RollerField::Shims],
        };
        let fields = fields.into_iter();
        fields.map(|field| SheetField::Of(roller, field)).collect()
    }
}
