//! A shot: what the window shows once it has settled and all is worked out, saved as PNG.

use std::io::Cursor;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::Duration;

use egui::{ColorImage, Context};

use super::ending::end_with;
use crate::command::Problem;
use crate::store;

/// Frames until fonts are loaded, panels have their sizes and nothing moves any more.
const SETTLING_FRAMES: u32 = 12;
/// Frames after which a window is taken never to come to rest. The longest list takes some hundreds.
const MOST_FRAMES: u32 = 20_000;
/// The time between two frames. Longer than none at all, so that a frame the shot asks for is told from
/// one that the window itself needs to go on.
const BETWEEN_FRAMES: Duration = Duration::from_millis(1);

/// The longest that a shot may take, on a slow machine too.
const LONGEST: Duration = Duration::from_mins(1);

/// Ends the program if a shot is not taken in good time: a window too large for the machine may never
/// show itself.
pub fn watch_over(out: PathBuf) {
    let watch = move || {
        thread::sleep(LONGEST);
        end_with(&Problem::Picture {
            file: out,
            what: format!(
                "the window has not shown itself in {} s; ask for a smaller --size",
                LONGEST.as_secs()
            ),
        });
    };
    // Without a thread there is none to watch, and a shot may take as long as it likes.
    let _ = thread::Builder::new().name("shot".to_owned()).spawn(watch);
}

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
        ctx.request_repaint_after(BETWEEN_FRAMES);
        let is_at_rest = !ctx.requested_repaint_last_pass();
        match &self.taken {
            None if self.frames >= MOST_FRAMES => {
                let what = "the window keeps changing and does not settle";
                let _ = self.result.send(Err(what.to_owned()));
                true
            }
            None if self.frames >= SETTLING_FRAMES && is_at_rest => {
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

#[cfg(test)]
mod tests {
    use super::*;

    /// The frame in which a picture is asked for, of a window that goes on by itself for some frames;
    /// none where the shot gave up.
    fn taken_in(own_frames: u32) -> Option<u32> {
        let ctx = Context::default();
        let (mut shot, told) = Shot::new(PathBuf::from("shot.png"), None);
        for frame in 1.. {
            let mut has_ended = false;
            let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
                if frame <= own_frames {
                    ui.ctx().request_repaint();
                }
                has_ended = shot.take(ui.ctx());
            });
            let mut commands = output
                .viewport_output
                .values()
                .flat_map(|view| &view.commands);
            let is_asked =
                commands.any(|what| matches!(what, egui::ViewportCommand::Screenshot(_)));
            drop(commands);
            output.textures_delta.clear();
            if is_asked {
                return Some(frame);
            }
            if has_ended {
                assert!(matches!(told.try_recv(), Ok(Err(_))));
                return None;
            }
        }
        None
    }

    #[test]
    fn a_shot_waits_until_the_window_needs_no_further_frame() {
        assert_eq!(taken_in(0), Some(SETTLING_FRAMES));
        for own_frames in [SETTLING_FRAMES, 60, 400] {
            let taken = taken_in(own_frames).expect("it is taken");
            assert!(taken > own_frames, "{taken} of {own_frames}");
        }
        assert_eq!(taken_in(u32::MAX), None);
    }
}
