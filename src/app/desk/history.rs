//! The changes of a document, to be taken back and done again.

use std::sync::Arc;

use undo::{Edit, Merged, Record};

use super::grip::{Grip, Hands};
use super::snapshot::Snapshot;
use super::{Change, Drafts};
use crate::unit::Document;

/// How many steps can be taken back.
pub const MOST_STEPS: usize = 1000;

/// What a step leads from and to: a document, and the texts that stand wrong beside it.
#[derive(Clone, Debug)]
pub struct State {
    document: Snapshot,
    wrong: Arc<Drafts>,
}

impl State {
    fn of(document: &Document, drafts: &Drafts, before: Option<&Self>) -> Self {
        let kept = before.filter(|before| drafts.typed_wrong_since(&before.wrong).is_none());
        Self {
            document: Snapshot::of(document, before.map(|before| &before.document)),
            wrong: match kept {
                Some(before) => Arc::clone(&before.wrong),
                None => Arc::new(drafts.only_wrong()),
            },
        }
    }

    fn is_same_as(&self, other: &Self) -> bool {
        self.wrong.typed_wrong_since(&other.wrong).is_none()
            && self.document.is_same_as(&other.document)
    }

    /// The document.
    pub fn document(&self) -> Document {
        self.document.document()
    }

    /// The texts that stand wrong beside it.
    pub fn wrong(&self) -> &Drafts {
        &self.wrong
    }
}

/// The changes of a document, and the document as the last of them left it.
#[derive(Debug)]
pub struct History {
    steps: Record<Step>,
    now: State,
    /// The run that what is done next belongs to, if it is done in the same grip.
    run: StepId,
    /// What was held while the last change was made, as long as it is not let go.
    grip: Option<Grip>,
}

/// Which step of a document; no two have the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StepId(u64);

/// A step: what one typing, one drag or one click did.
#[derive(Debug)]
struct Step {
    id: StepId,
    change: Change,
    name: String,
    before: State,
    after: State,
}

impl Edit for Step {
    type Target = State;
    type Output = ();

    fn edit(&mut self, now: &mut State) {
        now.clone_from(&self.after);
    }

    fn undo(&mut self, now: &mut State) {
        now.clone_from(&self.before);
    }

    fn merge(&mut self, next: Self) -> Merged<Self> {
        if self.id != next.id {
            return Merged::No(next);
        }
        if self.before.is_same_as(&next.after) {
            return Merged::Annul;
        }
        self.name = next.name;
        self.after = next.after;
        Merged::Yes
    }
}

impl History {
    /// Begins with a document and the texts that stand wrong beside it.
    pub fn new(document: &Document, drafts: &Drafts) -> Self {
        Self {
            steps: Record::builder().limit(MOST_STEPS).build(),
            now: State::of(document, drafts, None),
            run: StepId(0),
            grip: None,
        }
    }

    /// Notes a change that was made, and what it left: a step of its own, or more of the last one.
    pub fn note(&mut self, change: &Change, document: &Document, drafts: &Drafts, hands: &Hands) {
        let grip = hands.grip(change.holder());
        let last = self
            .last_done()
            .filter(|_| grip.is_some() && grip == self.grip);
        let is_more = last.is_some_and(|last| last.change == *change);
        if !is_more {
            self.run = StepId(self.run.0 + 1);
        }
        self.grip = grip;
        let after = State::of(document, drafts, Some(&self.now));
        let step = Step {
            id: self.run,
            change: change.clone(),
            name: if drafts.is_wrong_in(change.holder()) {
                change.told_as_wrong()
            } else {
                change.told_in(document)
            },
            before: self.now.clone(),
            after,
        };
        self.steps.edit(&mut self.now, step);
    }

    /// Looks whether what was held was let go.
    pub fn look(&mut self, hands: &Hands) {
        self.grip = self.grip.filter(|grip| match grip {
            Grip::Field(field) => hands.has(*field),
            Grip::Press(_) => true,
        });
    }

    /// What was before the last step, and the change that is taken back.
    pub fn undo(&mut self) -> Option<(State, Change)> {
        let change = self.last_done()?.change.clone();
        self.grip = None;
        self.steps.undo(&mut self.now)?;
        Some((self.now.clone(), change))
    }

    /// What was after the step taken back last, and the change that is done again.
    pub fn redo(&mut self) -> Option<(State, Change)> {
        let change = self.next()?.change.clone();
        self.grip = None;
        self.steps.redo(&mut self.now)?;
        Some((self.now.clone(), change))
    }

    /// The texts that stood wrong after the last step.
    pub fn wrong(&self) -> &Drafts {
        self.now.wrong()
    }

    /// What undo would take back, to be read after "Undo".
    pub fn undone(&self) -> Option<&str> {
        self.last_done().map(|step| step.name.as_str())
    }

    /// What redo would do again, to be read after "Redo".
    pub fn redone(&self) -> Option<&str> {
        self.next().map(|step| step.name.as_str())
    }

    /// The step that undo would take back.
    pub fn newest(&self) -> Option<StepId> {
        self.last_done().map(|step| step.id)
    }

    /// The last step done that changed the document, and not only a text that stands wrong.
    pub fn newest_of_document(&self) -> Option<StepId> {
        let done = (0..self.steps.head()).rev();
        let mut done = done.filter_map(|place| self.steps.get_entry(place));
        let step = done.find(|step| {
            let Step { before, after, .. } = AsRef::<Step>::as_ref(*step);
            !before.document.is_same_as(&after.document)
        })?;
        Some(step.as_ref().id)
    }

    fn last_done(&self) -> Option<&Step> {
        let place = self.steps.head().checked_sub(1)?;
        self.steps.get_entry(place).map(AsRef::as_ref)
    }

    fn next(&self) -> Option<&Step> {
        self.steps.get_entry(self.steps.head()).map(AsRef::as_ref)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::{self, Field};

    fn demo() -> Document {
        let text = include_str!("../../../demo-units/fairway-trailed.ron");
        unit::read_text(text).expect("the demo unit")
    }

    fn named(document: &mut Document, history: &mut History, name: &str, hands: &Hands) {
        name.clone_into(&mut document.name);
        let change = Change::of("Name", Field::Name);
        history.note(&change, document, &Drafts::default(), hands);
    }

    #[test]
    fn a_thousand_steps_are_kept_and_no_more() {
        let (mut document, hands) = (demo(), Hands::default());
        let mut history = History::new(&document, &Drafts::default());
        for step in 0..=MOST_STEPS {
            named(&mut document, &mut history, &format!("{step}"), &hands);
        }
        let mut last = None;
        let mut steps = 0;
        while let Some((state, _)) = history.undo() {
            (last, steps) = (Some(state.document().name), steps + 1);
        }
        assert_eq!((steps, last.as_deref()), (MOST_STEPS, Some("0")));
    }

    #[test]
    fn what_is_done_in_one_grip_is_one_step_and_nothing_at_all_when_it_ends_where_it_began() {
        let ctx = egui::Context::default();
        let press = |hands: &mut Hands| {
            let mut input = egui::RawInput::default();
            input
                .events
                .push(egui::Event::PointerMoved(egui::Pos2::ZERO));
            input.events.push(egui::Event::PointerButton {
                pos: egui::Pos2::ZERO,
                button: egui::PointerButton::Primary,
                pressed: true,
                modifiers: egui::Modifiers::NONE,
            });
            let mut output = ctx.run_ui(input, |ui| hands.look(ui.ctx()));
            output.textures_delta.clear();
        };
        let mut document = demo();
        let (mut history, mut hands) = (
            History::new(&document, &Drafts::default()),
            Hands::default(),
        );
        press(&mut hands);
        let began = document.name.clone();
        named(&mut document, &mut history, "a", &hands);
        named(&mut document, &mut history, "b", &hands);
        assert_eq!(history.undone(), Some("name \"b\""));
        assert_eq!(history.undo().expect("a step").0.document().name, began);
        assert!(history.undo().is_none());
        history.redo();
        press(&mut hands);
        named(&mut document, &mut history, "c", &hands);
        named(&mut document, &mut history, "b", &hands);
        assert_eq!(
            history.undo().expect("the first step").0.document().name,
            began
        );
        assert!(history.undo().is_none() && history.redone().is_some());
    }
}
