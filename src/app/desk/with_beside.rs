//! The desk with what is looked at side by side: both worked out as the desk has them now.

use std::rc::Rc;
use std::sync::Arc;

use super::session::NO_SOLUTION;
use super::{Beside, Change, Desk, Session, SessionId, Side};
use crate::analysis::{Solved, SolvedId};
use crate::app::widgets::kept::Kept;
use crate::drawing::PictureView;
use crate::unit::{Document, SettingEntry};

/// A side that can be drawn, or why it cannot.
pub type DrawnSide = Result<Rc<Solved>, String>;

/// Both sides worked out, until something of them changes.
#[derive(Default)]
pub struct BesideDrawn {
    sides: [Kept<(Side, Option<SolvedId>), DrawnSide>; 2],
}

impl BesideDrawn {
    /// Both, as the desk has them now.
    pub fn of(&mut self, desk: &Desk, beside: &Beside) -> [DrawnSide; 2] {
        let mut sides = self.sides.iter_mut().zip(&beside.0).map(|(kept, side)| {
            // While a unit is not current, it is not shown.
            let why_not = desk.why_not_drawn(side);
            let solved = match side {
                Side::Session(id) => desk.session_of(*id).and_then(|session| session.good()),
                _ => desk.good(),
            };
            let id = solved.map(|solved| solved.id);
            match why_not {
                Some(why) => Err(why),
                None => kept.get((side.clone(), id), |_| desk.drawn(side)).clone(),
            }
        });
        let mut next = || sides.next().unwrap_or_else(|| Err(String::new()));
        [next(), next()]
    }
}

impl Desk {
    fn session_of(&self, id: SessionId) -> Option<&Session> {
        self.sessions().find(|session| session.id() == id)
    }

    fn why_not_drawn(&self, side: &Side) -> Option<String> {
        match side {
            Side::AsSet | Side::AsTried(_) | Side::AsMeasured | Side::WithKnife(_) => {
                self.why_not_current()
            }
            Side::Session(_) | Side::Other(_) => None,
        }
    }

    fn drawn(&self, side: &Side) -> DrawnSide {
        let none = || NO_SOLUTION.to_owned();
        let solve = |document: Arc<Document>| {
            let system = self.system();
            let solved = Solved::of_shared(document);
            solved
                .map(Rc::new)
                .map_err(|unsolved| unsolved.shown_in(system))
        };
        let otherwise = |edit: &dyn Fn(&mut Document)| {
            let mut document = self.document().clone();
            edit(&mut document);
            solve(Arc::new(document))
        };
        match side {
            Side::AsSet => self.good().cloned().ok_or_else(none),
            Side::AsTried(document) => solve(Arc::clone(document)),
            Side::AsMeasured => otherwise(&|document| document.setting = SettingEntry::default()),
            Side::WithKnife(name) => otherwise(&|document| {
                let place = document.knives().find(|(_, knife)| knife.name == *name);
                if let Some(place) = place.map(|(place, _)| place) {
                    document.fit_knife(place);
                }
            }),
            Side::Session(id) => {
                let session = self.session_of(*id);
                let session = session.ok_or("This unit was closed.")?;
                match (session.trouble(), session.good()) {
                    (Some(trouble), _) => Err(trouble.shown_in(self.system())),
                    (None, good) => good.cloned().ok_or_else(none),
                }
            }
            Side::Other(other) => solve(Arc::clone(&other.document)),
        }
    }

    /// What both sides are called where they stand beside each other.
    pub fn names_of(&self, beside: &Beside) -> [String; 2] {
        let is_of_front = |side: &Side| !matches!(side, Side::Session(_) | Side::Other(_));
        let is_one_unit = beside.0.iter().all(is_of_front);
        let unit = || self.document().name.clone();
        beside.0.each_ref().map(|side| match side {
            Side::AsSet if is_one_unit => "As set".to_owned(),
            Side::AsTried(_) if is_one_unit => "As tried".to_owned(),
            Side::AsMeasured if is_one_unit => "As measured".to_owned(),
            Side::WithKnife(name) if is_one_unit => format!("Knife: {name}"),
            Side::AsSet => unit(),
            Side::AsTried(_) => format!("{}, as tried", unit()),
            Side::AsMeasured => format!("{}, as measured", unit()),
            Side::WithKnife(name) => format!("{}, knife {name}", unit()),
            Side::Session(id) => {
                let session = self.session_of(*id);
                session.map_or_else(String::new, |session| session.document().name.clone())
            }
            Side::Other(other) => other.name.clone(),
        })
    }

    /// What was looked at side by side last; the unit as measured and as set to begin with.
    pub fn beside(&self) -> &Beside {
        &self.beside.shown
    }

    /// Looks at two side by side from here on.
    pub fn look_at(&mut self, beside: Beside) {
        self.beside.shown = beside;
    }

    /// Has the card opened on which two are looked at side by side.
    pub fn want_beside(&mut self, beside: Beside) {
        self.beside.shown = beside;
        self.beside.is_wanted = true;
    }

    /// Whether that card is to be opened; asked once.
    pub fn is_beside_wanted(&mut self) -> bool {
        std::mem::take(&mut self.beside.is_wanted)
    }

    /// Has the two shown to a room, beginning with a picture.
    pub fn ask_to_show_beside(&mut self, view: PictureView) {
        self.beside.asked_to_show = Some(view);
    }

    /// The picture of the two that is to be shown to a room; asked once.
    pub fn asked_to_show_beside(&mut self) -> Option<PictureView> {
        self.beside.asked_to_show.take()
    }

    /// Changes the document of a session, in front or behind it, as [`Desk::edit_if_solved`] does; whether it is
    /// on the desk and can be solved afterwards.
    pub fn edit_open_if_solved(
        &mut self,
        id: SessionId,
        change: Change,
        edit: impl FnOnce(&mut Document),
    ) -> bool {
        let mut sessions = self.sessions.iter_mut();
        let session = sessions.find(|session| session.id() == id);
        session.is_some_and(|session| session.edit_if_solved(change, edit))
    }
}
