//! The one open card over the window, for what must be read or answered first.

use egui::{Context, Frame, Id, Margin, Modal, ScrollArea, Ui};

use super::{Desk, SessionId};
use crate::app::widgets::focus::Followed;

/// What a card leaves of the window over and under what stands on it: its margin, and some of the window.
const AROUND: f32 = 64.0;

/// A card over the window. One is open at the most.
pub trait Card {
    /// What it is called among cards.
    fn name(&self) -> &'static str;

    /// How wide it is, in points.
    fn width(&self) -> f32;

    /// Shows what stands on it and takes what is done there; whether it stays open.
    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next;

    /// Escape, or a click beside it; whether it closes. Escape closes every card: one that stays is
    /// another by then.
    fn put_away(&mut self, desk: &mut Desk) -> Next {
        if let Some(beneath) = self.beneath() {
            beneath.put_back(desk);
        }
        Next::Close
    }

    /// Whether a click beside it closes it as well: not while something typed would be lost.
    fn yields_to_a_click(&self) -> bool {
        true
    }

    /// Where a card waits that was open until this one was opened over it, if that comes back afterwards.
    fn beneath(&mut self) -> Option<&mut Beneath> {
        None
    }

    /// Whether shortcuts wait until it is closed.
    fn takes_keys(&self) -> bool {
        true
    }

    /// Whether the document must stay as it is until it is answered.
    fn is_question(&self) -> bool {
        false
    }

    /// Whether what is done on it goes into the unit that was in front when it was opened: it closes when
    /// another one comes there, and no file dropped on the window takes the unit away.
    fn works_on_unit(&self) -> bool {
        false
    }
}

/// A card with the session that was in front when it was opened.
pub struct OpenCard {
    card: Box<dyn Card>,
    of: SessionId,
}

impl OpenCard {
    /// A card for a session in front.
    pub fn new(card: impl Card + 'static, of: SessionId) -> Self {
        let card = Box::new(card);
        Self { card, of }
    }

    /// Whether the document must stay as it is until it is answered.
    pub fn is_question(&self) -> bool {
        self.card.is_question()
    }

    pub(super) fn name(&self) -> &'static str {
        self.card.name()
    }

    pub(super) fn takes_keys(&self) -> bool {
        self.card.takes_keys()
    }

    /// Whether the unit in front must stay there until it is closed.
    pub(super) fn holds_unit(&self) -> bool {
        self.card.is_question() || self.card.works_on_unit()
    }

    /// Lays a card under it; one that has no place for it drops it.
    pub(super) fn lay_over(&mut self, card: Self) {
        if let Some(beneath) = self.card.beneath() {
            beneath.lay(card);
        }
    }
}

/// The card that another one lies over, which comes back when that one is put away.
#[derive(Default)]
pub struct Beneath(Option<OpenCard>);

impl Beneath {
    /// A card that waits until what was opened over it is put away.
    #[must_use]
    pub fn of(card: OpenCard) -> Self {
        Self(Some(card))
    }

    /// The open card, taken from the desk, if there is one.
    #[must_use]
    pub fn taken_from(desk: &mut Desk) -> Self {
        Self(desk.take_card())
    }

    /// The open card, taken from the desk, unless it is a question itself: that one is asked no more.
    #[must_use]
    pub fn unless_question(desk: &mut Desk) -> Self {
        Self(desk.take_card().filter(|card| !card.is_question()))
    }

    /// Lays a card there, unless one lies there already.
    pub fn lay(&mut self, card: OpenCard) {
        self.0.get_or_insert(card);
    }

    /// Puts it back on the desk. It comes back once.
    pub fn put_back(&mut self, desk: &mut Desk) {
        if let Some(card) = self.0.take() {
            desk.put_card_back(card);
        }
    }
}

/// What becomes of a card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// It stays open.
    Stay,
    /// It closes.
    Close,
}

/// Shows the open card in the middle of the window.
pub fn show_card(ctx: &Context, desk: &mut Desk) {
    let Some(OpenCard { mut card, of }) = desk.take_card() else {
        return;
    };
    if card.works_on_unit() && desk.session().id() != of {
        return;
    }
    let frame = Frame::popup(&ctx.global_style()).inner_margin(Margin::same(20));
    let modal = Modal::new(Id::unique(card.name()))
        .frame(frame)
        .show(ctx, |ui| {
            ui.set_width(card.width());
            // What is higher than the window is scrolled to.
            let room = (ctx.content_rect().height() - AROUND).max(AROUND);
            let scrolled = ScrollArea::vertical().id_salt("card").max_height(room);
            let scrolled = scrolled.min_scrolled_height(room).show(ui, |ui| {
                let followed = Followed::begin(ui);
                let next = card.show(ui, desk);
                followed.bring_in(ui);
                next
            });
            scrolled.inner
        });
    let next = match modal.inner {
        Next::Stay if modal.should_close() => {
            let is_click = modal.backdrop_response.clicked();
            if is_click && !card.yields_to_a_click() {
                Next::Stay
            } else {
                card.put_away(desk)
            }
        }
        next => next,
    };
    if next == Next::Stay {
        desk.put_card_back(OpenCard { card, of });
    }
}
