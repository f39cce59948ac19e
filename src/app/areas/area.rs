//! What an area of the window is.

use egui::{Key, Ui};

use crate::app::desk::{Desk, InHand, ToPrint};
use crate::drawing::{PictureView, Scene};

/// What an area is called and for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct About {
    /// Its name on the command line.
    pub id: &'static str,
    /// Its name in the bar.
    pub title: &'static str,
    /// What it is for, in a few words.
    pub purpose: &'static str,
    /// The key that brings it to the front, together with Ctrl or Command.
    pub key: Key,
    /// The picture that is saved and copied from it; none where it has none of its own.
    pub picture: Option<PictureView>,
}

/// A picture of what an area has in front, to be shown to a room.
#[derive(Clone, Debug)]
pub struct PagePicture {
    /// What it is called.
    pub title: String,
    /// What is drawn.
    pub scene: Scene,
}

/// An area of the window.
pub trait Area {
    /// What it is called and for.
    fn about(&self) -> &'static About;

    /// Shows it beside the form and takes what is done in it.
    fn show(&mut self, ui: &mut Ui, desk: &mut Desk);

    /// What keys and menus work on while it is in front.
    fn in_hand(&self) -> InHand {
        InHand::Unit
    }

    /// The table of its own that is copied from it, its cells parted by tabs, or why there is none now.
    /// None where the table of its picture is copied.
    fn table(&mut self, _desk: &Desk) -> Option<Result<String, String>> {
        None
    }

    /// What is printed while it is in front, or why it cannot be now.
    fn to_print(&mut self, _desk: &Desk) -> Result<ToPrint, String> {
        Ok(ToPrint::default())
    }

    /// The picture that a room sees first in place of the unit's; none where it has none of its own now.
    fn page_picture(&mut self, _desk: &Desk) -> Option<PagePicture> {
        None
    }

    /// The step of the open lesson that a room sees first, the first being 0; none where it sees the unit.
    fn step_shown(&self, _desk: &Desk) -> Option<usize> {
        None
    }

    /// Whether the form stands beside it.
    fn has_form(&self, _desk: &Desk) -> bool {
        true
    }
}
