//! What is looked at side by side: two units, or two settings of one.

use std::rc::Rc;
use std::sync::Arc;

use super::SessionId;
use crate::drawing::PictureView;
use crate::unit::Document;

/// One of two that are looked at side by side.
#[derive(Clone, Debug, PartialEq)]
pub enum Side {
    /// The unit in front, as it is set.
    AsSet,
    /// The unit in front with a setting that is tried before a room and that no document has.
    AsTried(Arc<Document>),
    /// The unit in front, as it was measured.
    AsMeasured,
    /// The unit in front with one of its knives, all else as it is set.
    WithKnife(String),
    /// Another unit that is open.
    Session(SessionId),
    /// A unit that stands in a file, or that a record tells of.
    Other(Rc<OtherUnit>),
}

/// A unit that is not open.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherUnit {
    /// What it is called where it stands beside another.
    pub name: String,
    /// The unit.
    pub document: Arc<Document>,
}

/// What is looked at side by side, the left one first.
#[derive(Clone, Debug, PartialEq)]
pub struct Beside(pub [Side; 2]);

impl Default for Beside {
    fn default() -> Self {
        Self([Side::AsMeasured, Side::AsSet])
    }
}

/// What the desk knows of looking at two side by side.
#[derive(Default)]
pub(super) struct BesideDesk {
    pub(super) shown: Beside,
    /// The card is to be opened.
    pub(super) is_wanted: bool,
    /// The picture of both that is to be shown to a room.
    pub(super) asked_to_show: Option<PictureView>,
}
