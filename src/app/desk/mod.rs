//! The desk: what every area works on.
//!
//! What belongs here: the sessions, what is being typed into them, dialogs, units and preferences,
//! the notices, the one open card and the ticked knives. An area is lent the desk and owns the rest
//! of its state itself. A document is changed through [`Desk::edit`] and its sisters for forms and
//! handles, or by undo and redo; all of them end in one function of its session.

mod aim;
mod beside;
mod card;
mod change;
mod copying;
mod demo_units;
mod dialogs;
mod drafts;
mod grip;
mod handed_over;
mod history;
mod kept_step;
mod left_session;
mod less_motion;
mod lesson_work;
mod notice;
mod opener;
mod per_session;
mod preferences;
mod printer;
mod session;
mod sheet_work;
mod show_choices;
mod side_work;
mod snapshot;
mod ticked;
mod to_print;
mod window_place;
mod wishes;
mod with_beside;
mod with_copying;
mod with_keeper;
mod with_lesson;
mod with_motion;
mod with_opener;
mod with_printer;
mod with_sheet;
mod with_wishes;
mod with_works;
mod work_history;
mod works;

pub use aim::Aim;
pub use beside::{Beside, OtherUnit, Side};
pub use card::{Beneath, Card, Next, OpenCard, show_card};
pub use change::{Change, Part};
pub use copying::CopiedPicture;
pub use demo_units::{DEMO_UNIT, DEMO_UNITS, DemoUnit};
pub use dialogs::{Ask, Choosing, Dialogs, NoDialogs, chosen};
pub use drafts::{Draft, Drafts, Slot};
pub use handed_over::LastWork;
pub use history::StepId;
pub use less_motion::{LessMotion, MotionWish, NoMotionWish};
pub use lesson_work::LessonWork;
pub use notice::{Notice, Notices};
pub use opener::{NoOpener, Opener, Opening};
pub use per_session::PerSession;
pub use preferences::{Preferences, ShopChoices};
pub use printer::{NoPrinter, PrintJob, Printed, Printer, Printing};
pub use session::{NO_SOLUTION, Session, SessionId};
pub use sheet_work::{SheetWork, entries_in};
pub use show_choices::ShowChoices;
pub use side_work::{DeskWork, WorkKind};
pub use ticked::{Overlaid, Ticked, line_of};
pub use to_print::{LessonToPrint, PlateToPrint, ToPrint};
pub use window_place::WindowPlace;
pub use with_beside::BesideDrawn;
pub use with_keeper::document_in;
pub use works::InHand;

use std::rc::Rc;

use beside::BesideDesk;
use copying::Copying;
use handed_over::HandedOver;
use less_motion::MotionDesk;
use opener::Outside;
use printer::PrintDesk;
use wishes::Wishes;
use works::Works;

use crate::analysis::{Solved, Unsolved};
use crate::store::FileProblem;
use crate::unit::{Document, Remarks};
use crate::units::System;

/// What every area works on.
pub struct Desk {
    /// At least one.
    sessions: Vec<Session>,
    /// The place of the one in front.
    front: usize,
    preferences: Preferences,
    dialogs: Box<dyn Dialogs>,
    card: Option<OpenCard>,
    notices: Notices,
    /// Whether the window may close: what is not saved, and is not to be kept, may be lost.
    may_close: bool,
    beside: BesideDesk,
    wishes: Wishes,
    handed_over: HandedOver,
    outside: Outside,
    works: Works,
    in_hand: InHand,
    printing: PrintDesk,
    copying: Copying,
    motion: MotionDesk,
}

impl Desk {
    /// A desk with one session on it.
    pub fn new(session: Session, preferences: Preferences, dialogs: Box<dyn Dialogs>) -> Self {
        Self {
            sessions: vec![session],
            front: 0,
            preferences,
            dialogs,
            card: None,
            notices: Notices::default(),
            may_close: false,
            beside: BesideDesk::default(),
            wishes: Wishes::default(),
            handed_over: HandedOver::default(),
            outside: Outside::default(),
            works: Works::default(),
            in_hand: InHand::default(),
            printing: PrintDesk::default(),
            copying: Copying::default(),
            motion: MotionDesk::default(),
        }
    }

    /// The session in front.
    pub fn session(&self) -> &Session {
        &self.sessions[self.front]
    }

    fn session_mut(&mut self) -> &mut Session {
        &mut self.sessions[self.front]
    }

    /// The document in front.
    pub fn document(&self) -> &Document {
        self.session().document()
    }

    /// The last solution of the document in front.
    pub fn good(&self) -> Option<&Rc<Solved>> {
        self.session().good()
    }

    /// Every session on the desk.
    pub fn sessions(&self) -> impl Iterator<Item = &Session> {
        self.sessions.iter()
    }

    /// Lays a session beside those on the desk, behind the one in front.
    pub fn lay_beside(&mut self, session: Session) -> SessionId {
        let id = session.id();
        self.sessions.push(session);
        id
    }

    /// Brings a session to the front; whether it is on the desk.
    pub fn bring_to_front(&mut self, id: SessionId) -> bool {
        let found = self.sessions().position(|session| session.id() == id);
        self.front = found.unwrap_or(self.front);
        found.is_some()
    }

    /// Puts another session where the one in front is, which is gone then.
    pub fn replace(&mut self, session: Session) {
        self.sessions[self.front] = session;
        self.notices.put_away();
    }

    /// Changes the document in front, solves it, and drops what was being typed into the part that
    /// the change names.
    ///
    /// A form changes it by [`Desk::edit_typed`], a handle by [`Desk::edit_if_solved`]; these three,
    /// [`Desk::undo`] and [`Desk::redo`] are all there are, and in the session they go through one
    /// door, on which solution, stale drafts, ticked knives and history hang.
    pub fn edit<R>(&mut self, change: Change, edit: impl FnOnce(&mut Document) -> R) -> R {
        self.edit_typed(|document, drafts| {
            drafts.follow(&change);
            (edit(document), Some(change))
        })
    }

    /// Changes the document in front as [`Desk::edit`] does, if it can be solved afterwards; whether
    /// it can. Otherwise document and drafts stay as they are.
    pub fn edit_if_solved(&mut self, change: Change, edit: impl FnOnce(&mut Document)) -> bool {
        self.session_mut().edit_if_solved(change, edit)
    }

    /// Lends the document in front and what is being typed to a form, which always names the change
    /// it made; none when it made none.
    pub fn edit_typed<R>(
        &mut self,
        typing: impl FnOnce(&mut Document, &mut Drafts) -> (R, Option<Change>),
    ) -> R {
        self.session_mut().edit(typing)
    }

    /// Looks at what a person holds in this frame. What is changed without letting go is one step.
    pub fn look_at_hands(&mut self, ctx: &egui::Context) {
        for session in &mut self.sessions {
            session.look_at_hands(ctx);
        }
        for kind in WorkKind::ALL {
            if let Some(work) = self.works.get_mut(kind) {
                work.side_mut().look_at_hands(ctx);
            }
        }
    }

    /// Takes back the last step of what is in hand, the session in front or a work beside it, and tells which it was; whether there was one. A
    /// wrong text that stands in a field is a step like any other.
    pub fn undo(&mut self) -> bool {
        if let InHand::Work(kind) = self.in_hand() {
            return self.undo_of_work(kind);
        }
        let told = self.undone().map(|step| format!("Undone: {step}."));
        let change = self.session_mut().undo();
        self.tell_step(told, change)
    }

    /// Does again the step of it that was taken back last and tells which it was; whether there was one.
    pub fn redo(&mut self) -> bool {
        if let InHand::Work(kind) = self.in_hand() {
            return self.redo_of_work(kind);
        }
        let told = self.redone().map(|step| format!("Redone: {step}."));
        let change = self.session_mut().redo();
        self.tell_step(told, change)
    }

    fn tell_step(&mut self, told: Option<String>, change: Option<Change>) -> bool {
        let (Some(told), Some(change)) = (told, change) else {
            return false;
        };
        self.tell(told);
        self.wishes.moved_by_step = Some(change);
        true
    }

    /// What [`Desk::undo`] would take back, to be read after "Undo"; none when there is no step.
    pub fn undone(&self) -> Option<&str> {
        match self.work_in_hand() {
            Some(work) => work.side().undone(),
            None => self.session().history().undone(),
        }
    }

    /// What [`Desk::redo`] would do again, to be read after "Redo"; none when no step was taken back.
    pub fn redone(&self) -> Option<&str> {
        match self.work_in_hand() {
            Some(work) => work.side().redone(),
            None => self.session().history().redone(),
        }
    }

    /// The step that [`Desk::undo`] would take back.
    pub fn newest_step(&self) -> Option<StepId> {
        self.session().newest_step()
    }

    /// The last step done that changed the document. A text typed since that could not be taken is a
    /// newer step, and no change.
    pub fn newest_step_of_document(&self) -> Option<StepId> {
        self.session().newest_step_of_document()
    }

    /// Takes back steps up to one, and that one.
    pub fn undo_through(&mut self, step: StepId) {
        while let Some(newest) = self.newest_step() {
            self.session_mut().undo();
            if newest == step {
                return;
            }
        }
    }

    /// Keeps the session in front in a file.
    ///
    /// # Errors
    /// When it cannot be written; what stood there before is whole.
    pub fn save_to(&mut self, file: &std::path::Path) -> Result<Remarks, FileProblem> {
        let saved = self.session_mut().save_to(file)?;
        self.name_unit_of_sheet();
        Ok(saved)
    }

    /// Whether replacing the session in front now would lose something: a change, or a text that is
    /// not right yet.
    pub fn has_unsaved(&self) -> bool {
        self.session().has_unsaved()
    }

    /// The sessions that closing now would lose something of, the one in front first.
    pub fn any_unsaved(&self) -> impl Iterator<Item = SessionId> {
        let behind = self.sessions.iter().enumerate();
        let behind = behind.filter(|(place, _)| *place != self.front);
        std::iter::once(self.session())
            .chain(behind.map(|(_, session)| session))
            .filter(|session| session.has_unsaved())
            .map(Session::id)
    }

    /// Why drawing and numbers are those of an earlier entry; none while they are current.
    pub fn why_not_current(&self) -> Option<String> {
        if let Some(draft) = self.session().drafts().first_wrong() {
            return Some(draft.told());
        }
        let trouble = self.session().trouble()?;
        let why = trouble.shown_in(self.system());
        Some(match trouble {
            Unsolved::Flaw(flaw) => format!("{}: {why}", flaw.field.name_in(self.document())),
            Unsolved::Impossible { .. } => why,
        })
    }

    /// The units shown: those chosen, or those the document was measured in.
    pub fn system(&self) -> System {
        let chosen = self.preferences.system;
        chosen.unwrap_or_else(|| self.document().system())
    }

    /// What is remembered from one start to the next.
    pub fn preferences(&self) -> &Preferences {
        &self.preferences
    }

    /// What is remembered from one start to the next, to be changed.
    pub fn preferences_mut(&mut self) -> &mut Preferences {
        &mut self.preferences
    }

    /// The dialogs of the desktop.
    pub fn dialogs(&self) -> &dyn Dialogs {
        &*self.dialogs
    }

    /// The knives ticked for drawing over the fitted one.
    pub fn ticked(&self) -> &Ticked {
        self.session().ticked()
    }

    /// Ticks a knife, or unticks it.
    pub fn tick(&mut self, name: &str, is_ticked: bool) {
        self.session_mut().ticked.set(name, is_ticked);
    }

    /// The ticked knives that can be drawn, solved on the document last solved.
    pub fn overlaid(&self) -> Vec<Overlaid> {
        self.good()
            .map_or_else(Vec::new, |good| Overlaid::all_of(good, self.ticked()))
    }

    /// Tells something.
    pub fn tell(&mut self, text: impl Into<String>) {
        self.notices.tell(text.into(), false);
    }

    /// Tells that something could not be done.
    pub fn warn(&mut self, text: impl Into<String>) {
        self.notices.tell(text.into(), true);
    }

    /// What is to be told at a time of the window's clock, and how many seconds are left to it.
    pub fn notice(&mut self, now: f64) -> Option<(Notice, f64)> {
        let solved = self.good().map(|good| good.id);
        self.notices.shown_at(now, solved)
    }

    /// What was told, the last of it to be read again.
    pub fn notices(&self) -> &Notices {
        &self.notices
    }

    /// Puts the notice away.
    pub fn put_notice_away(&mut self) {
        self.notices.put_away();
    }

    /// Opens a card in place of the one that is open.
    pub fn open_card(&mut self, card: impl Card + 'static) {
        self.card = Some(OpenCard::new(card, self.session().id()));
    }

    /// Whether a card is open.
    pub fn has_card(&self) -> bool {
        self.card.is_some()
    }

    /// Whether the card of this name is open.
    pub fn has_card_named(&self, name: &str) -> bool {
        self.card.as_ref().is_some_and(|card| card.name() == name)
    }

    /// Whether a question waits for its answer, so that the document must stay as it is.
    pub fn is_asking(&self) -> bool {
        self.card.as_ref().is_some_and(OpenCard::is_question)
    }

    /// Whether a card is open for which the unit in front must stay there.
    pub fn is_unit_held(&self) -> bool {
        self.card.as_ref().is_some_and(OpenCard::holds_unit)
    }

    /// Whether a card is open that takes the keys.
    pub fn are_keys_taken(&self) -> bool {
        self.card.as_ref().is_some_and(OpenCard::takes_keys)
    }

    /// Takes the open card from the desk, to be shown or to wait under another.
    pub fn take_card(&mut self) -> Option<OpenCard> {
        self.card.take()
    }

    /// Puts a card back, under another that was opened since it was taken.
    pub fn put_card_back(&mut self, card: OpenCard) {
        match &mut self.card {
            Some(over) => over.lay_over(card),
            None => self.card = Some(card),
        }
    }

    /// Lets the window close: there is nothing to lose, or it may be lost.
    pub fn close(&mut self) {
        self.may_close = true;
    }

    /// Whether the window may close.
    pub fn may_close(&self) -> bool {
        self.may_close
    }
}
