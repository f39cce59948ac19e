//! A shot: what the window shows once it has settled, saved as PNG.

use std::io::Cursor;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};

use egui::ColorImage;

use super::App;
use crate::store;

/// Frames until fonts are loaded, panels have their sizes and nothing moves any more.
const SETTLING_FRAMES: u32 = 12;

/// A shot being taken.
pub(super) struct Shot {
    out: PathBuf,
    frames: u32,
    taken: Option<Receiver<Arc<ColorImage>>>,
    /// Why it could not be saved, for whoever waits for the window to close.
    result: std::sync::mpsc::Sender<Result<(), String>>,
}

impl Shot {
    pub(super) fn new(out: PathBuf) -> (Self, Receiver<Result<(), String>>) {
        let (result, told) = channel();
        (
            Self {
                out,
                frames: 0,
                taken: None,
                result,
            },
            told,
        )
    }
}

impl App {
    /// Takes a shot, if one is wanted, and closes the window.
    pub(super) fn take_shot(&mut self, ctx: &egui::Context) {
        let Some(shot) = &mut self.shot else { return };
        shot.frames += 1;
        ctx.request_repaint();
        match &shot.taken {
            None if shot.frames >= SETTLING_FRAMES => {
                let (sender, taken) = channel();
                shot.taken = Some(taken);
                let callback = egui::ScreenshotCallback::new(move |image| {
                    // Nobody waits any more once the window is gone.
                    let _ = sender.send(image);
                });
                ctx.send_viewport_cmd(egui::ViewportCommand::Screenshot(callback));
            }
            None => {}
            Some(taken) => {
                if let Ok(picture) = taken.try_recv() {
                    let _ = shot.result.send(save(&picture, &shot.out));
                    self.may_close = true;
                }
            }
        }
    }
}

fn save(picture: &ColorImage, out: &std::path::Path) -> Result<(), String> {
    let [width, height] = picture.size;
    let size = |side: usize| u32::try_from(side).map_err(|error| error.to_string());
    let mut png = Cursor::new(Vec::new());
    image::write_buffer_with_format(
        &mut png,
        picture.as_raw(),
        size(width)?,
        size(height)?,
        image::ColorType::Rgba8,
        image::ImageFormat::Png,
    )
    .map_err(|error| format!("cannot be written: {error}"))?;
    store::write_whole(out, png.get_ref()).map_err(|error| format!("cannot be written: {error}"))
}
