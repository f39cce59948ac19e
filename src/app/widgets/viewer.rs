//! A drawing that is looked at: moved by dragging, zoomed at the pointer, fitted, and painted anew
//! only when something it shows changed.

use egui::{Painter, Response, Ui};
use kurbo::{Point, Rect, Vec2};

use super::kept::Kept;
use super::paint::{Painted, point};
use crate::drawing::{Panel, View};

/// How far the buttons zoom.
const ZOOMS: [(&str, f64); 2] = [("Smaller", 0.8), ("Larger", 1.25)];
/// How far the wheel turns for a zoom by e, in points.
const WHEEL: f32 = 240.0;

/// A drawing that is looked at. `K` is what its picture depends on, the view among it.
#[derive(Debug)]
pub struct Viewer<K> {
    /// A view of one's own; fitted when none was chosen.
    own: Option<View>,
    /// What was shown last.
    shown: Option<View>,
    /// The view of one's own that was looked through last, and which parts stood in it.
    stood_in: Option<(View, Vec<bool>)>,
    painted: Kept<K, Vec<Painted>>,
}

impl<K> Default for Viewer<K> {
    fn default() -> Self {
        Self {
            own: None,
            shown: None,
            stood_in: None,
            painted: Kept::default(),
        }
    }
}

impl<K: PartialEq> Viewer<K> {
    /// Shows the whole again.
    pub fn fit(&mut self) {
        self.own = None;
    }

    /// Stays at a view that something else moved; one that fits still fits.
    pub fn stay(&mut self, view: View) {
        self.own = self.own.map(|_| view);
    }

    /// What was shown last; none before anything was.
    pub fn shown(&self) -> Option<View> {
        self.shown
    }

    /// The view to show, in the window of the one that fits.
    pub fn view(&self, fitted: View) -> View {
        let window = fitted.window;
        self.own.map_or(fitted, |own| View { window, ..own })
    }

    /// Shows the whole again when a part that stood in one's own view has left it, as the unit moved and
    /// not as a person looked elsewhere. While something is held in hand nothing moves under it.
    pub fn follow(&mut self, parts: &[Rect], is_held: bool) {
        let Some(own) = self.own else {
            self.stood_in = None;
            return;
        };
        let window = self.shown.map_or(own.window, |shown| shown.window);
        let own = View { window, ..own };
        let world = own.world();
        let stand: Vec<_> = parts
            .iter()
            .map(|part| world.contains_rect(*part))
            .collect();
        match &self.stood_in {
            Some((view, stood)) if *view == own => {
                let has_left = stood
                    .iter()
                    .zip(&stand)
                    .any(|(stood, stands)| *stood && !stands);
                if is_held {
                    return;
                }
                if has_left {
                    self.fit();
                    self.stood_in = None;
                    return;
                }
            }
            _ => {}
        }
        self.stood_in = Some((own, stand));
    }

    /// Buttons that fit and zoom; `whole` says what a fit shows.
    pub fn buttons_ui(&mut self, ui: &mut Ui, whole: &str) {
        let help = format!("Show {whole} (double-click the drawing)");
        if ui.button("Show all").on_hover_text(help).clicked() {
            self.fit();
        }
        for (name, factor) in ZOOMS {
            if ui
                .button(name)
                .on_hover_text("Or turn the wheel over the drawing")
                .clicked()
                && let Some(shown) = self.shown
            {
                self.own = Some(shown.zoomed(factor, shown.window.center()));
            }
        }
    }

    /// Paints the panels of a view: those kept for the key, or new ones.
    pub fn paint(
        &mut self,
        painter: &Painter,
        view: View,
        key: K,
        panels: impl FnOnce() -> Vec<Panel>,
    ) {
        self.shown = Some(view);
        let kept = self.painted.get(key, |_| {
            let panels = panels();
            panels.iter().map(Painted::from_panel).collect()
        });
        for panel in kept {
            panel.paint(painter);
        }
    }

    /// Moves, zooms at the pointer and fits as the hand asks. A zoom at a place that is not the
    /// view's own is given back: by what factor.
    pub fn look_around(
        &mut self,
        ui: &Ui,
        response: &Response,
        is_own: impl Fn(Point) -> bool,
    ) -> Option<f64> {
        let shown = self.shown?;
        if response.double_clicked() {
            self.fit();
        } else if response.dragged() {
            let by = response.drag_delta();
            self.own = Some(shown.dragged(Vec2::new(f64::from(by.x), f64::from(by.y))));
        }
        let pointer = point(response.hover_pos()?);
        let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta.y, input.zoom_delta()));
        let factor = f64::from((scroll / WHEEL).exp() * pinch);
        if (factor - 1.0).abs() < 1e-6 {
            return None;
        }
        if !is_own(pointer) {
            return Some(factor);
        }
        self.own = Some(shown.zoomed(factor, pointer));
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WINDOW: Rect = Rect::new(0.0, 0.0, 100.0, 100.0);

    #[test]
    fn a_view_of_ones_own_is_left_when_a_part_moves_out_of_it_and_nothing_is_held() {
        let whole = Rect::new(0.0, 0.0, 100.0, 100.0);
        let (inside, outside) = (
            Rect::new(40.0, 40.0, 50.0, 50.0),
            Rect::new(90.0, 90.0, 95.0, 95.0),
        );
        let mut viewer = Viewer::<u8>::default();
        let own = View::fitting(whole, WINDOW).zoomed(2.0, WINDOW.center());
        viewer.own = Some(own);
        // What a person left out of view themselves stays there.
        viewer.follow(&[inside, outside], false);
        viewer.follow(&[inside, outside], false);
        assert_eq!(viewer.own, Some(own));
        viewer.follow(&[outside, outside], true);
        assert_eq!(viewer.own, Some(own), "held");
        viewer.follow(&[outside, outside], false);
        assert_eq!(viewer.own, None, "let go");
    }
}
