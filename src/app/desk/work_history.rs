//! The changes of a work beside the units, to be taken back and done again.

use std::sync::Arc;

use egui::Id;
use undo::{Edit, Merged, Record};

use super::grip::{Grip, Hands};
use super::history::MOST_STEPS;

/// The changes of a work, and the work as the last of them left it. What is done in one grip is one
/// step, as with a unit.
#[derive(Debug)]
pub struct WorkHistory<T> {
    steps: Record<Step<T>>,
    now: Arc<T>,
    run: u64,
    grip: Option<Grip>,
}

#[derive(Debug)]
struct Step<T> {
    run: u64,
    name: String,
    before: Arc<T>,
    after: Arc<T>,
}

impl<T: PartialEq> Edit for Step<T> {
    type Target = Arc<T>;
    type Output = ();

    fn edit(&mut self, now: &mut Arc<T>) {
        now.clone_from(&self.after);
    }

    fn undo(&mut self, now: &mut Arc<T>) {
        now.clone_from(&self.before);
    }

    fn merge(&mut self, next: Self) -> Merged<Self> {
        if self.run != next.run {
            return Merged::No(next);
        }
        if self.before == next.after {
            return Merged::Annul;
        }
        self.after = next.after;
        Merged::Yes
    }
}

impl<T: PartialEq> WorkHistory<T> {
    /// Begins with a work.
    pub fn new(now: Arc<T>) -> Self {
        Self {
            steps: Record::builder().limit(MOST_STEPS).build(),
            now,
            run: 0,
            grip: None,
        }
    }

    /// Notes a change that was made, and what it left; `holder` is the text field it is typed into.
    pub fn note(&mut self, name: &str, holder: Option<Id>, after: &Arc<T>, hands: &Hands) {
        let grip = hands.grip(holder);
        let is_more = grip.is_some()
            && grip == self.grip
            && self.last_done().is_some_and(|last| last.name == name);
        if !is_more {
            self.run += 1;
        }
        self.grip = grip;
        let step = Step {
            run: self.run,
            name: name.to_owned(),
            before: Arc::clone(&self.now),
            after: Arc::clone(after),
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

    /// The work before the last step; none where there was none.
    pub fn undo(&mut self) -> Option<Arc<T>> {
        self.grip = None;
        self.steps.undo(&mut self.now)?;
        Some(Arc::clone(&self.now))
    }

    /// The work after the step taken back last; none where there was none.
    pub fn redo(&mut self) -> Option<Arc<T>> {
        self.grip = None;
        self.steps.redo(&mut self.now)?;
        Some(Arc::clone(&self.now))
    }

    /// What undo would take back.
    pub fn undone(&self) -> Option<&str> {
        self.last_done().map(|step| step.name.as_str())
    }

    /// What redo would do again.
    pub fn redone(&self) -> Option<&str> {
        let next = self.steps.get_entry(self.steps.head())?;
        Some(AsRef::<Step<T>>::as_ref(next).name.as_str())
    }

    fn last_done(&self) -> Option<&Step<T>> {
        let place = self.steps.head().checked_sub(1)?;
        self.steps.get_entry(place).map(AsRef::as_ref)
    }
}
