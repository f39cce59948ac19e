//! Where Enter leads on a page: from entry to entry, and from the last to the button that turns the page. A
//! page that was turned to begins at its first entry.

use egui::{Id, Key, Response, Ui};

/// The entries of a page as they are shown, in the order they are made.
#[derive(Debug, Default)]
pub struct FieldCourse {
    entries: Vec<Id>,
    /// The entry that Enter left in this frame, by its place.
    left: Option<usize>,
    /// Whether the page shown next is turned to.
    is_turned: bool,
    /// Whether this page was.
    begins: bool,
    /// Whether it begins at its first empty entry.
    is_blank_first: bool,
    /// That one.
    blank: Option<Id>,
    /// What gets the keys next.
    next: Option<Id>,
}

impl FieldCourse {
    /// Begins at the first entry of the page that is shown next.
    pub fn turn(&mut self) {
        self.is_turned = true;
    }

    /// The same, at its first entry that is empty.
    pub fn turn_to_blank(&mut self) {
        self.turn();
        self.is_blank_first = true;
    }

    /// Begins with the entries of a page. What was found in the last frame gets the keys now, before it is
    /// shown: it learns that it was entered, and takes its text in hand.
    pub fn begin(&mut self, ui: &Ui) {
        if let Some(next) = self.next.take() {
            ui.memory_mut(|memory| memory.request_focus(next));
        }
        self.entries.clear();
        self.left = None;
        self.blank = None;
        self.begins = std::mem::take(&mut self.is_turned);
    }

    /// Takes note of the next entry.
    pub fn pass(&mut self, ui: &Ui, entry: &Response, is_empty: bool) {
        if is_empty && self.blank.is_none() {
            self.blank = Some(entry.id);
        }
        if entry.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
            self.left = Some(self.entries.len());
        }
        self.entries.push(entry.id);
    }

    /// Finds where Enter leads, once the whole page is laid out. It gets the keys in the next frame: in this
    /// one the button would take the same press for its own.
    pub fn go_on(&mut self, ui: &Ui, button: Option<Id>) {
        let to = match self.left.take() {
            Some(left) => self.entries.get(left + 1).copied().or(button),
            None if self.begins => {
                let is_blank_first = std::mem::take(&mut self.is_blank_first);
                let blank = self.blank.filter(|_| is_blank_first);
                blank.or(self.entries.first().copied()).or(button)
            }
            None => None,
        };
        if to.is_some() {
            self.next = to;
            ui.ctx().request_repaint();
        }
    }
}
