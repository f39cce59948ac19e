//! The window on its screen: as large as there is room for, and where it can be taken hold of.

use egui::{Context, Rect, Vec2, ViewportCommand};

use crate::app::desk::WindowPlace;

/// The least size that is offered, in points of the usual scale.
pub const LEAST_OFFERED: Vec2 = Vec2::new(900.0, 600.0);
/// The frame from which on the window is on the screen: some desktops maximize none that is hidden.
const SHOWN: u32 = 2;

/// The screens there are, the window's own first, in the desktop's own points.
#[expect(clippy::cast_possible_truncation, reason = "places on a screen")]
pub fn screens(creation: &eframe::CreationContext<'_>) -> Vec<Rect> {
    let Some(window) = creation.winit_window() else {
        return Vec::new();
    };
    let scale = window.scale_factor();
    let own = window
        .current_monitor()
        .or_else(|| window.primary_monitor());
    own.into_iter()
        .chain(window.available_monitors())
        .map(|screen| {
            let (at, size) = (screen.position(), screen.size());
            let point = |pixels: f64| (pixels / scale) as f32;
            Rect::from_min_size(
                egui::pos2(point(f64::from(at.x)), point(f64::from(at.y))),
                egui::vec2(point(f64::from(size.width)), point(f64::from(size.height))),
            )
        })
        .collect()
}

/// Puts the window where it fits, and keeps the least size it can be given.
#[derive(Debug)]
pub struct Placing {
    fitted: WindowPlace,
    /// Whether the window was opened as it fits.
    is_fitted: bool,
    screen: Option<Vec2>,
    frames: u32,
    least: Vec2,
}

impl Placing {
    /// Of a window that was opened in a place.
    pub fn of(opened: WindowPlace, screens: &[Rect]) -> Self {
        let fitted = opened.fitted(screens);
        Self {
            fitted,
            is_fitted: fitted == opened && !fitted.is_maximized,
            screen: screens.first().map(Rect::size),
            frames: 0,
            least: LEAST_OFFERED,
        }
    }

    /// Asks the desktop for what is not as it should be.
    pub fn send(&mut self, ctx: &Context) {
        self.frames += 1;
        if self.frames < SHOWN {
            ctx.request_repaint();
            return;
        }
        let scale = ctx.zoom_factor();
        // The same of the screen at every scale, and never more than there is.
        let least = self
            .screen
            .map_or(LEAST_OFFERED, |screen| LEAST_OFFERED.min(0.8 * screen))
            / scale;
        if self.least != least {
            self.least = least;
            ctx.send_viewport_cmd(ViewportCommand::MinInnerSize(least));
        }
        if self.is_fitted {
            return;
        }
        self.is_fitted = true;
        let size = Vec2::from(self.fitted.size);
        ctx.send_viewport_cmd(ViewportCommand::InnerSize(size / scale));
        if let Some(at) = self.fitted.at {
            let at = egui::Pos2::from(at) / scale;
            ctx.send_viewport_cmd(ViewportCommand::OuterPosition(at));
        }
        if self.fitted.is_maximized {
            ctx.send_viewport_cmd(ViewportCommand::Maximized(true));
        }
    }
}
