//! A shot: what the window shows once it has settled, saved as PNG.

use std::io::Cursor;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};

use egui::{ColorImage, Context};

use crate::store;

/// Frames until fonts are loaded, panels have their sizes and nothing moves any more.
const SETTLING_FRAMES: u32 = 12;

/// A shot being taken.
pub struct Shot {
    out: PathBuf,
    /// How large a window was asked for, in points.
    asked: Option<(u32, u32)>,
    frames: u32,
    taken: Option<Receiver<Arc<ColorImage>>>,
    /// Why it could not be saved, for whoever waits for the window to close.
    result: std::sync::mpsc::Sender<Result<(), String>>,
}

impl Shot {
    pub fn new(out: PathBuf, asked: Option<(u32, u32)>) -> (Self, Receiver<Result<(), String>>) {
        let (result, told) = channel();
        (
            Self {
                out,
                asked,
                frames: 0,
                taken: None,
                result,
            },
            told,
        )
    }

    /// Takes a step towards the shot; whether it is taken, and the window may close.
    pub fn take(&mut self, ctx: &Context) -> bool {
        self.frames += 1;
        ctx.request_repaint();
        match &self.taken {
            None if self.frames >= SETTLING_FRAMES => {
                let (sender, taken) = channel();
                self.taken = Some(taken);
                let callback = egui::ScreenshotCallback::new(move |image| {
                    // Nobody waits any more once the window is gone.
                    let _ = sender.send(image);
                });
                ctx.send_viewport_cmd(egui::ViewportCommand::Screenshot(callback));
                false
            }
            None => false,
            Some(taken) => {
                let picture = taken.try_recv().ok();
                if let Some(picture) = &picture {
                    let _ = self.result.send(self.keep(picture, ctx.pixels_per_point()));
                }
                picture.is_some()
            }
        }
    }
}

impl Shot {
    /// Saves what was shown, unless it is smaller or larger than was asked for.
    fn keep(&self, picture: &ColorImage, pixels_per_point: f32) -> Result<(), String> {
        if let Some((width, height)) = self.asked {
            let points = |pixels: usize| {
                let pixels = u32::try_from(pixels).unwrap_or(u32::MAX);
                f64::from(pixels) / f64::from(pixels_per_point)
            };
            let [shown_width, shown_height] = picture.size.map(points);
            let is_off = |shown: f64, asked: u32| (shown - f64::from(asked)).abs() > 1.0;
            if is_off(shown_width, width) || is_off(shown_height, height) {
                return Err(format!(
                    "the window is {shown_width:.0}x{shown_height:.0} here and cannot be {width}x{height}"
                ));
            }
        }
        save(picture, &self.out)
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
