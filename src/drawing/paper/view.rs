//! A view: the part of the world that a piece of paper shows, and at what scale.

use kurbo::{Affine, Point, Rect, Vec2};

use super::PAPER_PER_MM;

/// Which part of the world a rectangle of paper shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The rectangle of paper.
    pub window: Rect,
    /// What of the world stands in its middle.
    pub middle: Point,
    /// Paper units for a millimetre of the world, across.
    pub scale: f64,
    /// How many times larger the scale is upwards; 1 is true.
    pub stretch: f64,
}

/// The scales of drawings against true size, within a power of ten (ISO 5455).
const ROW: [f64; 3] = [1.0, 2.0, 5.0];

/// What a reduction divides by, within a power of ten: the row, and what lies between 2 and 5, which
/// ISO 5455 leaves free where the row does not serve (from memory). A unit that just misses 1:2 on a sheet
/// would stand there at less than half of the size it has room for.
const REDUCTIONS: [f64; 6] = [1.0, 2.0, 2.5, 3.0, 4.0, 5.0];

/// What a window's drawing divides or multiplies by: so close that no unit stands there much smaller than it
/// has room for, and each a scale that can be written as it is.
const WINDOW_ROW: [f64; 16] = [
    1.0, 1.25, 1.5, 1.75, 2.0, 2.25, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0, 9.0,
];

/// The part of its size that a drawing keeps at least where it takes a scale of the row: what a window
/// shows is not worth more.
const LEAST_OF_SIZE: f64 = 0.8;

/// The least and most paper units for a millimetre.
const SCALES: std::ops::RangeInclusive<f64> = 0.05..=2000.0;

impl View {
    /// The view that shows all of `bounds` in the middle of `window`.
    #[must_use]
    pub fn fitting(bounds: Rect, window: Rect) -> Self {
        let across = window.width() / bounds.width().max(1e-6);
        let up = window.height() / bounds.height().max(1e-6);
        Self {
            window,
            middle: bounds.center(),
            scale: across.min(up).clamp(*SCALES.start(), *SCALES.end()),
            stretch: 1.0,
        }
    }

    /// The view that shows all of `bounds` in the middle of `window`, at the largest scale of the row
    /// that drawings have: for paper, which keeps its size.
    #[must_use]
    pub fn fitting_at_scale_of_row(bounds: Rect, window: Rect) -> Self {
        let fitted = Self::fitting(bounds, window);
        let scale = of_row(fitted.scale / PAPER_PER_MM) * PAPER_PER_MM;
        Self { scale, ..fitted }
    }

    /// The view that shows all of `bounds` above a foot of so much paper, which it leaves to words.
    #[must_use]
    pub fn fitting_above(bounds: Rect, window: Rect, foot: f64) -> Self {
        let foot = foot.min(0.25 * window.height());
        let above = Rect::new(window.x0, window.y0, window.x1, window.y1 - foot);
        let fitted = Self::fitting(bounds, above);
        Self {
            window,
            ..fitted.dragged(Vec2::new(0.0, -foot / 2.0))
        }
    }

    /// The same at the next smaller scale that can be written as it is, `held` staying in its place on the
    /// paper; as it is where that would make the drawing much smaller.
    #[must_use]
    pub fn near_scale_of_row(self, held: Point) -> Self {
        let enlargement = self.scale / PAPER_PER_MM;
        let of_row = if enlargement >= 1.0 {
            largest_of_row(enlargement, &WINDOW_ROW)
        } else {
            1.0 / least_reduction(1.0 / enlargement, &WINDOW_ROW)
        };
        let factor = of_row * PAPER_PER_MM / self.scale;
        if factor < LEAST_OF_SIZE {
            return self;
        }
        self.zoomed(factor, self.paper_from_world() * held)
    }

    /// Takes a place of the world to the paper, where y runs down.
    #[must_use]
    pub fn paper_from_world(&self) -> Affine {
        Affine::translate(self.window.center().to_vec2())
            * Affine::scale_non_uniform(self.scale, -self.scale * self.stretch)
            * Affine::translate(-self.middle.to_vec2())
    }

    /// Takes a place of the paper to the world.
    #[must_use]
    pub fn world_from_paper(&self) -> Affine {
        self.paper_from_world().inverse()
    }

    /// The part of the world shown.
    #[must_use]
    pub fn world(&self) -> Rect {
        self.world_from_paper().transform_rect_bbox(self.window)
    }

    /// Shows what lies `by` to the left and above, so that the world follows a dragging hand.
    #[must_use]
    pub fn dragged(mut self, by: Vec2) -> Self {
        self.middle -= Vec2::new(by.x / self.scale, -by.y / (self.scale * self.stretch));
        self
    }

    /// Enlarges by a factor, what is under `held` staying there.
    #[must_use]
    pub fn zoomed(mut self, factor: f64, held: Point) -> Self {
        let before = self.world_from_paper() * held;
        self.scale = (self.scale * factor).clamp(*SCALES.start(), *SCALES.end());
        let after = self.world_from_paper() * held;
        self.middle += before - after;
        self
    }

    /// The scale against true size on paper, as drawings write it: `1:2`, `10:1`. One that is not of
    /// their row is told for what it is: `about 1:1.7`.
    #[must_use]
    pub fn written_scale(&self) -> String {
        let enlargement = self.scale / PAPER_PER_MM;
        let times = enlargement.max(1.0 / enlargement);
        let of_row = if enlargement >= 1.0 {
            largest_of_row(times * (1.0 + 1e-9), &WINDOW_ROW)
        } else {
            least_reduction(times * (1.0 - 1e-9), &WINDOW_ROW)
        };
        let is_of_row = (times / of_row - 1.0).abs() < 1e-6;
        let about = if is_of_row { "" } else { "about " };
        // One of the row has all of its digits: no more than two.
        let text = if is_of_row {
            format!("{times:.2}")
        } else {
            format!("{times:.1}")
        };
        let times = text.trim_end_matches('0').trim_end_matches('.');
        if enlargement >= 1.0 {
            format!("{about}{times}:1")
        } else {
            format!("{about}1:{times}")
        }
    }
}

/// The largest scale of the row that is no more than a scale.
fn of_row(enlargement: f64) -> f64 {
    // A reduction is told by what it divides by, so that 1:2 is one half to the last bit.
    if enlargement >= 1.0 {
        largest_of_row(enlargement, &ROW)
    } else {
        1.0 / least_reduction(1.0 / enlargement, &REDUCTIONS)
    }
}

/// The largest number of the row that is no more than one of 1 or more.
fn largest_of_row(most: f64, row: &[f64]) -> f64 {
    let ten = 10_f64.powf(most.max(1.0).log10().floor());
    let fits = |part: &f64| part * ten <= most;
    row.iter().copied().rev().find(fits).unwrap_or(1.0) * ten
}

/// The least reduction that is no less than one of 1 or more.
fn least_reduction(least: f64, row: &[f64]) -> f64 {
    let ten = 10_f64.powf(least.max(1.0).log10().floor());
    let fits = |part: &f64| part * ten >= least * (1.0 - 1e-12);
    row.iter().copied().find(fits).unwrap_or(10.0) * ten
}

#[cfg(test)]
mod tests {
    use super::*;

    const WINDOW: Rect = Rect::new(100.0, 50.0, 500.0, 250.0);

    #[test]
    fn a_fitting_view_shows_all_and_keeps_the_scale_true() {
        let bounds = Rect::new(-80.0, -5.0, 140.0, 180.0);
        let view = View::fitting(bounds, WINDOW);
        let world = view.world();
        assert!(world.union(bounds).area() <= world.area() + 1e-6);
        let across = view.paper_from_world() * Point::new(1.0, 0.0)
            - view.paper_from_world() * Point::ORIGIN;
        let up = view.paper_from_world() * Point::new(0.0, 1.0)
            - view.paper_from_world() * Point::ORIGIN;
        assert!((across.hypot() - up.hypot()).abs() < 1e-12 && up.y < 0.0);
    }

    #[test]
    fn a_foot_is_kept_clear_of_what_is_shown() {
        let bounds = Rect::new(-80.0, -5.0, 140.0, 180.0);
        let view = View::fitting_above(bounds, WINDOW, 40.0);
        let shown = view.paper_from_world().transform_rect_bbox(bounds);
        assert!((shown.y0 - WINDOW.y0).abs() < 1e-9, "{shown:?}");
        assert!((shown.y1 - (WINDOW.y1 - 40.0)).abs() < 1e-9, "{shown:?}");
        assert!((shown.center().x - WINDOW.center().x).abs() < 1e-9);
    }

    #[test]
    fn zooming_holds_what_is_under_the_pointer() {
        let view = View::fitting(Rect::new(0.0, 0.0, 10.0, 10.0), WINDOW);
        let held = Point::new(130.0, 70.0);
        let zoomed = view.zoomed(3.0, held);
        assert!((view.world_from_paper() * held).distance(zoomed.world_from_paper() * held) < 1e-9);
        let dragged = view.dragged(Vec2::new(7.0, -3.0));
        let world = view.world_from_paper() * held;
        assert!((dragged.paper_from_world() * world - held - Vec2::new(7.0, -3.0)).hypot() < 1e-9);
    }

    #[test]
    fn a_scale_is_written_as_on_drawings() {
        let at = |enlargement: f64| View {
            window: WINDOW,
            middle: Point::ORIGIN,
            scale: enlargement * PAPER_PER_MM,
            stretch: 1.0,
        };
        assert_eq!(at(12.0).written_scale(), "about 12:1");
        assert_eq!(at(20.0).written_scale(), "20:1");
        assert_eq!(at(1.0).written_scale(), "1:1");
        assert_eq!(at(0.5).written_scale(), "1:2");
        assert_eq!(at(0.4).written_scale(), "1:2.5");
        assert_eq!(at(0.59).written_scale(), "about 1:1.7");
        assert_eq!(at(0.4999).written_scale(), "about 1:2");
    }

    #[test]
    fn a_scale_of_the_row_is_taken_where_it_costs_little_and_holds_its_place() {
        let at = |enlargement: f64| View {
            window: WINDOW,
            middle: Point::new(7.0, -2.0),
            scale: enlargement * PAPER_PER_MM,
            stretch: 1.0,
        };
        let held = Point::new(30.0, 40.0);
        for (from, to) in [
            (1.0 / 2.3, "1:2.5"),
            (1.0 / 3.1, "1:3.5"),
            (1.0 / 1.1, "1:1.25"),
            (1.1, "1:1"),
            (1.3, "1.25:1"),
            (1.0 / 4.4, "1:4.5"),
            (1.0 / 11.0, "1:12.5"),
        ] {
            let taken = at(from).near_scale_of_row(held);
            assert_eq!(taken.written_scale(), to);
            let moved = taken.paper_from_world() * held - at(from).paper_from_world() * held;
            assert!(moved.hypot() < 1e-9, "{from}");
        }
    }

    /// ISO 5455: 50:1, 20:1, 10:1, 5:1, 2:1, 1:1, 1:2, 1:5, 1:10, 1:20 and so on; between 1:2 and 1:5 a
    /// few that it leaves free.
    #[test]
    fn on_paper_the_scale_is_the_largest_of_the_row_that_fits() {
        for (wide_mm, scale) in [
            (0.9, "100:1"),
            (2.2, "20:1"),
            (60.0, "1:1"),
            (110.0, "1:2"),
            (211.0, "1:2"),
            (212.0, "1:2.5"),
            (300.0, "1:3"),
            (500.0, "1:5"),
            (600.0, "1:10"),
        ] {
            let bounds = Rect::new(0.0, 0.0, wide_mm, 0.1);
            let view = View::fitting_at_scale_of_row(bounds, WINDOW);
            assert_eq!(view.written_scale(), scale, "{wide_mm}");
            assert!(view.world().union(bounds).area() <= view.world().area() + 1e-6);
        }
    }
}
