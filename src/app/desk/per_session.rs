//! State that belongs to a session: each on the desk has its own, and it goes with the session.

use std::collections::BTreeMap;

use super::{Desk, SessionId};

/// A state for each session on the desk that was in front.
#[derive(Debug)]
pub struct PerSession<S>(BTreeMap<SessionId, S>);

impl<S> Default for PerSession<S> {
    fn default() -> Self {
        Self(BTreeMap::new())
    }
}

impl<S> PerSession<S> {
    /// The state of the session in front, begun when it is first asked for.
    pub fn front(&mut self, desk: &Desk, begin: impl FnOnce() -> S) -> &mut S {
        self.0
            .retain(|id, _| desk.sessions().any(|s| s.id() == *id));
        self.0.entry(desk.session().id()).or_insert_with(begin)
    }

    /// The state of the session in front; none before it was first asked for.
    pub fn front_if_begun(&self, desk: &Desk) -> Option<&S> {
        self.0.get(&desk.session().id())
    }
}
