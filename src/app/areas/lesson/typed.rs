//! What is typed for a step's settings, and how it goes into the step.

use std::sync::Arc;

use egui::Id;

use crate::app::desk::{Change, Desk, Drafts};
use crate::lesson::{Named, Step, StepUnits, UnitUse, WrongEntry};
use crate::store::recovery::WrongText;
use crate::unit::Document;

/// Which of a step's units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    First,
    Second,
}

/// What is being typed for one of a step's units.
#[derive(Debug, Default)]
pub struct Typed {
    drafts: Drafts,
    /// The unit that is set here, and it as these fields left it.
    of: Option<Arc<Document>>,
    left: Option<Document>,
    /// What stood there before the field in hand was typed into.
    began: Option<Began>,
}

/// What stood in a step before a field was typed into, which Escape leads back to.
#[derive(Debug)]
struct Began {
    field: Id,
    document: Arc<Document>,
    unit: Option<UnitUse>,
}

/// What stood in the fields when a frame began.
pub struct Before {
    document: Arc<Document>,
    drafts: Drafts,
    wrong: Vec<WrongEntry>,
}

impl Side {
    pub const ALL: [Self; 2] = [Self::First, Self::Second];

    pub const fn title(self) -> &'static str {
        match self {
            Self::First => "Set for this step",
            Self::Second => "Set beside it",
        }
    }

    /// A field's name among both.
    pub fn named(self, name: &str) -> String {
        match self {
            Self::First => name.to_owned(),
            Self::Second => format!("{name}{BESIDE_IT}"),
        }
    }

    /// What undo calls a change of a field.
    fn undone(self, named: &str) -> String {
        let name = named.strip_suffix(BESIDE_IT).unwrap_or(named);
        let whose = match self {
            Self::First => "the step",
            Self::Second => "the unit beside it",
        };
        format!("{} of {whose}", name.to_lowercase())
    }

    pub const fn unit(self, step: &Step) -> Option<&UnitUse> {
        match self {
            Self::First => step.unit.as_ref(),
            Self::Second => step.second.as_ref(),
        }
    }

    pub const fn unit_mut(self, step: &mut Step) -> &mut Option<UnitUse> {
        match self {
            Self::First => &mut step.unit,
            Self::Second => &mut step.second,
        }
    }

    pub fn is_second(self) -> bool {
        self == Self::Second
    }

    /// What stands wrong for it in a step of the lesson.
    pub fn wrong(self, desk: &Desk, number: usize) -> Vec<WrongEntry> {
        let wrong = step_of(desk, number)
            .into_iter()
            .flat_map(|step| &step.wrong);
        let wrong = wrong.filter(|wrong| wrong.of_second == self.is_second());
        wrong.cloned().collect()
    }

    pub fn document(self, units: &StepUnits) -> Option<&Arc<Document>> {
        let named: Option<&Named> = match self {
            Self::First => Some(&units.first),
            Self::Second => units.second.as_ref(),
        };
        named?.as_ref().ok()
    }
}

const BESIDE_IT: &str = ", beside it";

/// A step of the lesson.
pub fn step_of(desk: &Desk, number: usize) -> Option<&Step> {
    desk.lesson()?.lesson().steps.get(number)
}

impl Typed {
    /// Begins a frame of these fields over the unit as the lesson has it, with what stands wrong in the step:
    /// the document to be edited, and what stood there before.
    pub fn begin(&mut self, unit: &Arc<Document>, wrong: Vec<WrongEntry>, side: Side) -> Before {
        let is_same = self.of.as_ref().is_some_and(|of| Arc::ptr_eq(of, unit));
        let left = self.left.take().filter(|_| !is_same);
        // Taken back or set elsewhere meanwhile: what stood in a field is no more what is typed.
        if let Some(left) = left.filter(|left| *left != **unit) {
            self.drafts.drop_stale(&Change::new(""), &left, unit);
            self.began = None;
        }
        self.of = Some(Arc::clone(unit));
        // What stands wrong belongs to the step, which may have been moved or taken back.
        if !self.wrong(side).eq(wrong.iter().cloned()) {
            self.put_wrong(&wrong, unit);
        }
        Before {
            document: Arc::clone(unit),
            drafts: self.drafts.only_wrong(),
            wrong,
        }
    }

    /// What is being typed.
    pub fn drafts(&mut self) -> &mut Drafts {
        &mut self.drafts
    }

    /// Ends it: puts what was set by these fields into the step, and what stands wrong in them beside it.
    pub fn end(
        &mut self,
        desk: &mut Desk,
        (number, side): (usize, Side),
        before: &Before,
        (document, change): (Document, Option<Change>),
    ) {
        let wrong: Vec<_> = self.wrong(side).collect();
        let is_left_out = side.wrong(desk, number) != before.wrong;
        let typed_wrong = (!is_left_out)
            .then(|| self.drafts.typed_wrong_since(&before.drafts))
            .flatten();
        let is_set = change.is_some();
        if let Some(change) = change.or(typed_wrong) {
            self.begin_typing(desk, (number, side), before, &change);
            let began = self.began.as_ref();
            let began = began.filter(|began| is_set_alike(&began.document, &document));
            desk.edit_lesson_by(&side.undone(change.name()), &change, |lesson| {
                let Some(step) = lesson.steps.get_mut(number) else {
                    return;
                };
                if is_set {
                    let unit = side.unit_mut(step);
                    match began {
                        Some(began) => unit.clone_from(&began.unit),
                        None => put(unit, &before.document, &document),
                    }
                }
                step.drop_wrong(side.is_second());
                for wrong in wrong {
                    step.put_wrong(wrong);
                }
            });
            // The next unit to be set here is worked out from this one.
            self.of = None;
        }
        let held = self.began.take();
        self.began = held.filter(|began| self.drafts.held_by(began.field).is_some());
        self.left = Some(document);
    }

    /// Notes what stands in the step before another field is typed into.
    fn begin_typing(
        &mut self,
        desk: &Desk,
        (number, side): (usize, Side),
        before: &Before,
        change: &Change,
    ) {
        let began = self.began.as_ref().map(|began| began.field);
        if change.holder() == began {
            return;
        }
        let step = step_of(desk, number);
        self.began = change.holder().map(|field| Began {
            field,
            document: Arc::clone(&before.document),
            unit: step.and_then(|step| side.unit(step)).cloned(),
        });
    }

    /// What stands wrong in these fields.
    fn wrong(&self, side: Side) -> impl Iterator<Item = WrongEntry> {
        let wrong = self.drafts.wrong_in_fields();
        wrong.map(move |(field, draft)| WrongEntry {
            of_second: side.is_second(),
            field,
            name: draft.name.clone(),
            text: draft.text.clone(),
            why: draft.problem.clone().unwrap_or_default(),
        })
    }

    /// Puts what stands wrong back into its fields, in place of what stood in them.
    fn put_wrong(&mut self, wrong: &[WrongEntry], document: &Document) {
        self.drafts = Drafts::default();
        self.began = None;
        for wrong in wrong {
            let text = WrongText {
                field: wrong.field.kept_path(),
                name: wrong.name.clone(),
                text: wrong.text.clone(),
                problem: wrong.why.clone(),
                is_waiting: false,
            };
            self.drafts
                .put_wrong_text(wrong.field.into(), &text, document);
        }
    }
}

/// Whether two documents of one unit are set alike.
fn is_set_alike(one: &Document, other: &Document) -> bool {
    one.setting == other.setting && one.ground == other.ground
}

/// Writes what a step tries into its use of a unit.
fn put(unit: &mut Option<UnitUse>, before: &Document, document: &Document) {
    // What leaves all as it was leaves a step that goes on with the one before with it.
    if is_set_alike(before, document) {
        return;
    }
    // One that went on with the step before has all that this one tried from here on.
    let goes_on = unit.is_none();
    let unit = unit.get_or_insert_default();
    if goes_on || document.setting != before.setting {
        unit.setting = Some(document.setting.clone());
    }
    if goes_on || document.ground != before.ground {
        unit.ground = Some(document.ground.clone());
    }
}
