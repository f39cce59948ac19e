//! What one part of the window wants of another: noted here, and taken once by the part that does it.

use std::path::PathBuf;

use super::change::Change;
use super::dialogs::Ask;
use super::to_print::ToPrint;
use super::works::InHand;
use crate::drawing::PictureView;

/// What waits to be taken.
#[derive(Debug, Default)]
pub struct Wishes {
    pub(super) begins_with_first_field: bool,
    pub(super) moved_by_step: Option<Change>,
    pub(super) missed_dialog: Option<Ask>,
    pub(super) taken_name: Option<(InHand, PathBuf)>,
    pub(super) area_wanted: Option<&'static str>,
    pub(super) is_asked_to_show: bool,
    pub(super) step_to_keep: Option<PictureView>,
    pub(super) step_wanted: Option<usize>,
    pub(super) lesson_to_show: Option<usize>,
    pub(super) sheet_wanted: Option<ToPrint>,
}
