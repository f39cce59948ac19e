//! The desk with what one part of the window wants of another.

use std::path::PathBuf;

use super::{Ask, Change, Desk, InHand, ToPrint};
use crate::drawing::PictureView;

impl Desk {
    /// Notes that the desktop showed no dialog for what was asked.
    pub fn miss_dialog(&mut self, ask: Ask) {
        self.wishes.missed_dialog = Some(ask);
    }

    /// What was asked without a dialog; told once.
    pub fn missed_dialog(&mut self) -> Option<Ask> {
        self.wishes.missed_dialog.take()
    }

    /// Has it asked whether a file is to be replaced by what is in hand: its name was made longer than the
    /// one that was chosen, and nobody asked about that.
    pub fn ask_about_taken(&mut self, what: InHand, file: PathBuf) {
        self.wishes.taken_name = Some((what, file));
    }

    /// The file that is to be asked about, and what would be saved there; told once.
    pub fn taken_name(&mut self) -> Option<(InHand, PathBuf)> {
        self.wishes.taken_name.take()
    }

    /// Has an area brought to the front by its name, once this frame is done.
    pub fn want_area(&mut self, id: &'static str) {
        self.wishes.area_wanted = Some(id);
    }

    /// The area that is to come to the front; asked once.
    pub fn area_wanted(&mut self) -> Option<&'static str> {
        self.wishes.area_wanted.take()
    }

    /// Has the unit shown to a room.
    pub fn ask_to_show(&mut self) {
        self.wishes.is_asked_to_show = true;
    }

    /// Whether the unit is to be shown to a room; asked once.
    pub fn is_asked_to_show(&mut self) -> bool {
        std::mem::take(&mut self.wishes.is_asked_to_show)
    }

    /// Has the card opened on which this sheet is printed or saved.
    pub fn want_sheet(&mut self, what: ToPrint) {
        self.wishes.sheet_wanted = Some(what);
    }

    /// The sheet that is to be printed or saved; asked once.
    pub fn sheet_wanted(&mut self) -> Option<ToPrint> {
        self.wishes.sheet_wanted.take()
    }

    /// Has the form begin with its first field in hand, as for a unit that nobody typed yet.
    pub fn begin_with_first_field(&mut self) {
        self.wishes.begins_with_first_field = true;
    }

    /// Whether the form is still to begin with its first field in hand.
    pub fn wants_first_field(&self) -> bool {
        self.wishes.begins_with_first_field
    }

    /// Whether the form is to begin with its first field in hand; asked once.
    pub fn begins_with_first_field(&mut self) -> bool {
        std::mem::take(&mut self.wishes.begins_with_first_field)
    }

    /// The change that undo or redo moved since it was asked last: the form shows where it happened.
    pub fn moved_by_step(&mut self) -> Option<Change> {
        self.wishes.moved_by_step.take()
    }

    /// Has the unit in front kept as a step of the lesson, seen in a view.
    pub fn ask_to_keep_step(&mut self, view: PictureView) {
        self.wishes.step_to_keep = Some(view);
    }

    /// The view in which the unit in front is to be kept as a step; asked once.
    pub fn step_to_keep(&mut self) -> Option<PictureView> {
        self.wishes.step_to_keep.take()
    }

    /// Has the lesson shown to a room from a step on, the first being 0.
    pub fn ask_to_show_lesson(&mut self, step: usize) {
        self.wishes.lesson_to_show = Some(step);
    }

    /// The step from which the lesson is to be shown; asked once.
    pub fn lesson_to_show(&mut self) -> Option<usize> {
        self.wishes.lesson_to_show.take()
    }

    /// Has a step of the lesson brought to the front of its area, the first being 0.
    pub fn want_step(&mut self, step: usize) {
        self.wishes.step_wanted = Some(step);
    }

    /// The step that is to come to the front, as the one that was kept last; told once.
    pub fn step_wanted(&mut self) -> Option<usize> {
        self.wishes.step_wanted.take()
    }
}
