//! Where the window stood, fitted to the screens there are now.

use egui::{Pos2, Rect, Vec2};
use serde::{Deserialize, Serialize};

/// Width and height on a first start, where the screen has room for them.
const USUAL: (f32, f32) = (1440.0, 900.0);
/// The least width and height that are taken for a window's: less was no window to work in.
const LEAST_REMEMBERED: (f32, f32) = (640.0, 400.0);
/// About what the frame and the desktop's own bars take of a screen.
const FRAME: Vec2 = Vec2::new(16.0, 72.0);
/// How high the frame's upper part is, by which the window is moved.
const TITLE: f32 = 30.0;
/// How much of that must be on a screen to take hold of it.
const HOLD: f32 = 120.0;

/// Where the window stands, in the desktop's own points whatever the scale of what is in it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct WindowPlace {
    /// The upper left corner of its frame; none where the desktop does not tell, or chooses.
    pub at: Option<(f32, f32)>,
    /// Width and height of what stands in the frame, when it is not maximized.
    pub size: (f32, f32),
    /// Whether it fills the screen.
    pub is_maximized: bool,
}

impl Default for WindowPlace {
    fn default() -> Self {
        Self {
            at: None,
            size: USUAL,
            is_maximized: false,
        }
    }
}

impl WindowPlace {
    /// The place fitted to the screens there are: no larger than its screen, and where a person can
    /// take hold of it. One that is too large fills its screen. Without a screen that is known, only
    /// numbers that make no sense are put right.
    #[must_use]
    pub fn fitted(self, screens: &[Rect]) -> Self {
        let is_right = |number: f32| number.is_finite() && number.abs() < 1e6;
        let (width, height) = self.size;
        let size = if is_right(width) && is_right(height) {
            Vec2::new(width, height).max(LEAST_REMEMBERED.into())
        } else {
            USUAL.into()
        };
        let at = self.at.filter(|(x, y)| is_right(*x) && is_right(*y));
        let at = at.map(Pos2::from);
        let frame = at.map(|at| Rect::from_min_size(at, size + FRAME));
        let Some(screen) = screen_of(frame, screens) else {
            return Self {
                at: at.map(Into::into),
                size: size.into(),
                ..self
            };
        };
        let most = (screen.size() - FRAME).max(Vec2::splat(1.0));
        let is_too_large = size.x > most.x || size.y > most.y;
        let size = size.min(most);
        let at = at.map(|at| {
            if can_be_held(at, size, screens) {
                at
            } else {
                let last = (screen.max - size - FRAME).max(screen.min);
                at.clamp(screen.min, last)
            }
        });
        Self {
            at: at.map(Into::into),
            size: size.into(),
            is_maximized: self.is_maximized || is_too_large,
        }
    }
}

/// The screen that shows most of a frame, or else the first.
fn screen_of(frame: Option<Rect>, screens: &[Rect]) -> Option<Rect> {
    let shown = |screen: &Rect| frame.map_or(0.0, |frame| frame.intersect(*screen).area());
    let mut best: Option<Rect> = None;
    for screen in screens.iter().filter(|screen| screen.is_positive()) {
        if best.is_none_or(|best| shown(screen) > shown(&best)) {
            best = Some(*screen);
        }
    }
    best
}

/// Whether the upper part of the frame can be taken hold of on some screen.
fn can_be_held(at: Pos2, size: Vec2, screens: &[Rect]) -> bool {
    let title = Rect::from_min_size(at, Vec2::new(size.x, TITLE));
    screens.iter().any(|screen| {
        let held = title.intersect(*screen);
        held.width() >= HOLD && held.height() >= 0.5 * TITLE
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn screen(x: f32, y: f32, width: f32, height: f32) -> Rect {
        Rect::from_min_size(Pos2::new(x, y), Vec2::new(width, height))
    }

    fn place(x: f32, y: f32, width: f32, height: f32) -> WindowPlace {
        WindowPlace {
            at: Some((x, y)),
            size: (width, height),
            is_maximized: false,
        }
    }

    /// The frame with what stands in it.
    fn frame(place: WindowPlace) -> Rect {
        let at = place.at.expect("a place");
        Rect::from_min_size(at.into(), Vec2::from(place.size) + FRAME)
    }

    #[test]
    fn a_first_window_leaves_room_for_its_frame_or_fills_the_screen() {
        let large = WindowPlace::default().fitted(&[screen(0.0, 0.0, 1920.0, 1080.0)]);
        assert_eq!(large, WindowPlace::default());
        for (width, height) in [(1366.0, 768.0), (1024.0, 768.0), (1440.0, 900.0)] {
            let fitted = WindowPlace::default().fitted(&[screen(0.0, 0.0, width, height)]);
            assert!(fitted.is_maximized);
            assert!(
                fitted.size.0 < width && fitted.size.1 < height - 40.0,
                "{fitted:?}"
            );
        }
    }

    #[test]
    fn a_place_on_a_screen_stays_and_one_off_every_screen_is_brought_back() {
        let both = [
            screen(0.0, 0.0, 1920.0, 1080.0),
            screen(1920.0, 0.0, 1280.0, 1024.0),
        ];
        for kept in [
            place(100.0, 80.0, 1200.0, 800.0),
            place(2000.0, 10.0, 1000.0, 700.0),
            // Half on either.
            place(1500.0, 50.0, 900.0, 600.0),
            // Some of it below the edge.
            place(60.0, 700.0, 900.0, 600.0),
        ] {
            assert_eq!(kept.fitted(&both), kept);
        }
        let only = [both[0]];
        for lost in [
            place(2000.0, 10.0, 1000.0, 700.0),
            place(-3000.0, -3000.0, 1000.0, 700.0),
            place(100.0, -400.0, 1000.0, 700.0),
            place(1890.0, 100.0, 1000.0, 700.0),
        ] {
            let back = lost.fitted(&only);
            assert!(only[0].contains_rect(frame(back)), "{lost:?} to {back:?}");
            assert_eq!(back.size, lost.size);
        }
    }

    #[test]
    fn numbers_that_make_no_sense_open_a_window_all_the_same() {
        let screens = [screen(0.0, 0.0, 1920.0, 1080.0)];
        for bad in [f32::NAN, f32::INFINITY, -1e30, 1e30] {
            for wrong in [place(bad, 0.0, 900.0, 700.0), place(0.0, 0.0, bad, 700.0)] {
                for fitted in [wrong.fitted(&screens), wrong.fitted(&[])] {
                    let (width, height) = fitted.size;
                    assert!((LEAST_REMEMBERED.0..=1920.0).contains(&width), "{fitted:?}");
                    assert!(
                        (LEAST_REMEMBERED.1..=1080.0).contains(&height),
                        "{fitted:?}"
                    );
                    assert!(
                        fitted
                            .at
                            .is_none_or(|(x, y)| x.is_finite() && y.is_finite())
                    );
                }
            }
        }
        let tiny = place(0.0, 0.0, 0.0, -5.0).fitted(&screens);
        assert_eq!(tiny.size, LEAST_REMEMBERED);
    }
}
