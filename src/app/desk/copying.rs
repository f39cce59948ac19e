//! A picture on its way to the clipboard: made on a thread of its own, one at a time.

use egui::ColorImage;

use crate::app::widgets::making::Making;

/// A picture that was made to be copied.
pub struct CopiedPicture {
    /// What it shows.
    pub title: String,
    /// Its pixels.
    pub image: ColorImage,
}

/// The picture that is being made to be copied, if one is.
#[derive(Default)]
pub struct Copying(pub(super) Option<Making<Result<CopiedPicture, String>>>);
