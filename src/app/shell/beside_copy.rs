//! The settings of one of two side by side put into the other: what that changes is told first.

use std::rc::Rc;

use egui::{Button, Label, ScrollArea, Ui};

use crate::analysis::{SettingsAcross, Solved};
use crate::app::desk::{Beside, Change, Desk, SessionId, Side};
use crate::app::widgets::lettering::Lettering;
use crate::unit::{Document, Group};
use crate::units::clipped;

/// Letters of a name in a sentence.
const LETTERS: usize = 44;

/// Where settings can be put: what a person can save.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Into {
    Front,
    Open(SessionId),
}

/// Why settings can go nowhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Nowhere {
    /// The other one is in a file, or a state that a record tells of.
    NotOpen,
    /// The other one is the same unit.
    Same,
}

impl Into {
    /// Where the settings of a side go: to the other one where that is open, or to the unit in front.
    fn of(beside: &Beside, from: usize) -> Result<Self, Nowhere> {
        let (from, other) = (&beside.0[from], &beside.0[1 - from]);
        match (from, other) {
            (_, Side::Session(id)) => Ok(Self::Open(*id)),
            (Side::AsSet, Side::Other(_)) => Err(Nowhere::NotOpen),
            (Side::AsSet, _) => Err(Nowhere::Same),
            _ => Ok(Self::Front),
        }
    }

    fn document(self, desk: &Desk) -> Option<&Document> {
        match self {
            Self::Front => Some(desk.document()),
            Self::Open(id) => {
                let mut sessions = desk.sessions();
                let session = sessions.find(|session| session.id() == id)?;
                Some(session.document())
            }
        }
    }
}

/// The copying that a person thinks about.
#[derive(Debug, Default)]
pub struct Copying {
    /// The side whose settings are about to be copied.
    from: Option<usize>,
}

impl Copying {
    /// Copies none.
    pub fn end(&mut self) {
        self.from = None;
    }

    /// A button for each side; greyed where its settings can go nowhere.
    pub fn buttons_ui(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        sides: &[Result<Rc<Solved>, String>; 2],
    ) {
        let beside = desk.beside();
        for (index, name) in ["left", "right"].into_iter().enumerate() {
            let into = Into::of(beside, index);
            let is_asked = self.from == Some(index) && into.is_ok();
            let text = format!("Copy settings of the {name} one…");
            let button = Button::new(text).selected(is_asked);
            let copy = ui.add_enabled(sides[index].is_ok() && into.is_ok(), button);
            let copy = match into {
                Ok(into) => {
                    let name = into.document(desk).map_or("", |document| &document.name);
                    let name = clipped(name, LETTERS);
                    copy.on_hover_text(format!(
                        "Into \"{name}\": settings alone. What was read on it stays. You see what it changes before it is done.",
                    ))
                }
                Err(why) => copy.on_disabled_hover_text(told(why, desk, index)),
            };
            if copy.clicked() {
                self.from = (!is_asked).then_some(index);
            }
        }
    }

    /// What copying would do, and doing it; and why a side's settings can go nowhere.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk, sides: &[Result<Rc<Solved>, String>; 2]) {
        for index in [0, 1] {
            let into = Into::of(desk.beside(), index);
            if let Err(why @ Nowhere::NotOpen) = into {
                let told = Lettering::Note.of(told(why, desk, index));
                ui.add(Label::new(told).wrap());
            }
        }
        let Some(index) = self.from else { return };
        let (Some(Ok(from)), Ok(into)) = (sides.get(index), Into::of(desk.beside(), index)) else {
            return;
        };
        let Some(document) = into.document(desk) else {
            return;
        };
        let across = SettingsAcross::of(from, document);
        let name = clipped(&document.name, LETTERS).to_string();
        if across.changes.is_empty() {
            ui.label(format!("\"{name}\" is set so already."));
        } else {
            ui.label(Lettering::Name.of(format!(
                "Settings that change in \"{name}\" (no reading changes):"
            )));
        }
        ScrollArea::vertical()
            .id_salt("what copying does")
            .max_height(110.0)
            .show(ui, |ui| {
                for line in across.changes.iter().chain(&across.stays) {
                    ui.add(Label::new(line).wrap());
                }
            });
        if across.changes.is_empty() {
            return;
        }
        if ui.button("Copy these settings").clicked() {
            let beside = desk.beside();
            let of = match &beside.0[index] {
                Side::AsMeasured => "as measured".to_owned(),
                _ => format!("\"{}\"", clipped(&desk.names_of(beside)[index], LETTERS)),
            };
            let change =
                Change::of(format!("settings of {of}"), Group::Setting).and(Group::RollerMoves);
            let put = |document: &mut Document| across.put_into(document);
            let (is_done, done) = match into {
                Into::Front => (
                    desk.edit_if_solved(change, put),
                    "Copied the settings. Undo takes them back in one step.".to_owned(),
                ),
                Into::Open(id) => (
                    desk.edit_open_if_solved(id, change, put),
                    format!(
                        "Copied the settings into \"{name}\". Bring it to the front, and Undo takes them back in one step."
                    ),
                ),
            };
            if is_done {
                desk.tell(done);
            } else {
                desk.warn("Not copied: with these settings the unit cannot stand.");
            }
            self.end();
        }
    }
}

/// Why the settings of a side can go nowhere.
fn told(why: Nowhere, desk: &Desk, from: usize) -> String {
    let name = &desk.names_of(desk.beside())[1 - from];
    let name = clipped(name, LETTERS);
    match why {
        Nowhere::NotOpen => format!(
            "Settings cannot go into \"{name}\": its file is not open. Open it with File, Open, and choose it here."
        ),
        Nowhere::Same => "These are the settings of this unit already.".to_owned(),
    }
}
