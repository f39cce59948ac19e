//! The desk with the picture that is on its way to the clipboard.

use egui::{Context, Ui};

use super::Desk;
use super::copying::CopiedPicture;
use crate::app::widgets::making::{Making, Stage, Teller};

impl Desk {
    /// Has a picture made and copied, unless another one still is.
    pub fn copy_picture(
        &mut self,
        ctx: &Context,
        make: impl FnOnce(&Teller) -> Result<CopiedPicture, String> + Send + 'static,
    ) {
        if self.is_copying() {
            self.warn("Not copied: the picture asked for before is still being made.");
            return;
        }
        let make = move |teller: &Teller| Some(make(teller));
        self.copying.0 = Some(Making::begin(ctx, "copy", make));
    }

    /// Whether a picture is being made to be copied.
    pub fn is_copying(&self) -> bool {
        self.copying.0.is_some()
    }

    /// How far it is, once that takes a while, with Cancel.
    pub fn copying_ui(&mut self, ui: &mut Ui) {
        let copying = self.copying.0.as_ref();
        if copying.is_some_and(|making| making.progress_ui(ui, "Copying the picture")) {
            self.copying.0 = None;
            self.tell("Cancelled: no picture was copied.");
        }
    }

    /// Copies the picture once it is made, and tells what came of it.
    pub fn hear_from_copying(&mut self, ctx: &Context) {
        let Some(stage) = self.copying.0.as_ref().map(Making::take) else {
            return;
        };
        match stage {
            Stage::Going => return,
            Stage::Made(Ok(copied)) => {
                ctx.copy_image(copied.image);
                self.tell(format!("Copied the picture: {}", copied.title));
            }
            Stage::Made(Err(why)) => self.warn(format!("Not copied. {why}")),
            Stage::Ended => self.warn("Not copied: the picture could not be made."),
        }
        self.copying.0 = None;
    }
}
