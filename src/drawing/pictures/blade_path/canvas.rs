//! The close-up and the turns of the reel side by side on paper.

use kurbo::{Point, Rect, Shape as _, Vec2};

use super::PathDrawing;
use crate::drawing::paper::{Anchor, Panel, Pencil, Style, View, lay_out_around};
use crate::drawing::scene::{Role, Scene, ShownIn};

/// Height of the strip with a view's name and scale.
const TITLE_HEIGHT: f64 = 28.0;
/// Paper between the views and around them.
const MARGIN: f64 = 10.0;
/// Paper kept below the ground line, and below the cut line, for the dimensions.
const GROUND_ROOM: f64 = 52.0;
const CUT_ROOM: f64 = 108.0;
/// Paper narrower than this has no room for both views.
const LEAST_FOR_BOTH: f64 = 540.0;
/// The letter that names the close-up on the other view.
const LETTER: &str = "A";
const LETTER_SIZE: f64 = 15.0;

/// The views of the paths.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PathCanvas {
    /// The cut line near the knife.
    pub close: View,
    /// Two turns of the reel.
    pub whole: Option<View>,
}

impl PathCanvas {
    /// The parts of a rectangle of paper for the close-up and, where there is room, for the turns
    /// of the reel.
    #[must_use]
    pub fn split(paper: Rect, has_whole: bool) -> (Rect, Option<Rect>) {
        let inner = paper.inset(-MARGIN);
        if !has_whole || inner.width() < LEAST_FOR_BOTH {
            return (inner, None);
        }
        let width = 0.34 * inner.width();
        let close = Rect::new(inner.x0, inner.y0, inner.x1 - width - MARGIN, inner.y1);
        let whole = Rect::new(inner.x1 - width, inner.y0, inner.x1, inner.y1);
        (close, Some(whole))
    }

    /// The views that show all of a drawing, its close-up stretched upwards by a factor.
    #[must_use]
    pub fn fitting(drawing: &PathDrawing, paper: Rect, has_whole: bool, stretch: f64) -> Self {
        let (close, whole) = Self::split(paper, has_whole);
        let below_title = |part: Rect| Rect {
            y0: (part.y0 + TITLE_HEIGHT).min(part.y1),
            ..part
        };
        let bounds = drawing.close_bounds();
        let fitted = View::fitting(bounds, below_title(close));
        let mut view = fitted.near_scale_of_row(bounds.center());
        if stretch > 1.0 {
            // Across as before; upwards the cut line stays in sight, whatever else does not.
            view.stretch = stretch;
            view.middle.y = drawing.kinematics.path.cut_height_mm;
        } else {
            // Room to spare goes to the blades above; below, the dimensions have theirs.
            let below = |y: f64, room: f64| y - room / view.scale;
            let foot = bounds
                .y0
                .min(below(0.0, GROUND_ROOM))
                .min(below(drawing.kinematics.path.cut_height_mm, CUT_ROOM));
            let high = view.window.height() / view.scale;
            // Clips too long for any scale leave the cut line in sight.
            let least = drawing.kinematics.path.cut_height_mm - 0.3 * high;
            view.middle.y = (foot + high / 2.0).max(least);
        }
        Self {
            close: View {
                window: close,
                ..view
            }
            .dragged(Vec2::new(0.0, TITLE_HEIGHT / 2.0)),
            whole: whole.map(|part| {
                let bounds = drawing.whole_bounds();
                let fitted = View::fitting(bounds, below_title(part));
                let view = fitted.near_scale_of_row(bounds.center());
                View {
                    window: part,
                    ..view
                }
                .dragged(Vec2::new(0.0, TITLE_HEIGHT / 2.0))
            }),
        }
    }

    /// The marks of the views, with their borders, names and scales.
    #[must_use]
    pub fn panels(&self, scene: &Scene, style: impl Into<Style>) -> Vec<Panel> {
        let style = style.into();
        let laid_out = |view: &View, shown_in, others: &[Rect]| {
            let mut reserved = vec![strip(view, style)];
            reserved.extend(others);
            lay_out_around(scene, view, shown_in, style, (&reserved, |_| false))
        };
        let mut panels = vec![laid_out(&self.close, ShownIn::Lens, &[])];
        let stretch = self.close.stretch;
        let scale = self.close.written_scale();
        let names = if stretch > 1.0 {
            [
                format!("{LETTER}: at the cut line, {scale} across, stretched upwards ×{stretch}"),
                format!("{LETTER}: {scale} across, upwards ×{stretch}"),
                format!("{LETTER}, {scale}, ×{stretch}"),
            ]
        } else {
            [
                format!("{LETTER}: at the cut line, {scale}"),
                format!("{LETTER}: {scale}"),
                LETTER.to_owned(),
            ]
        };
        panels.push(framed(&self.close, style, &names, None));
        if let Some(whole) = &self.whole {
            let letter = letter_place(whole, style, self.close.world());
            panels.push(laid_out(whole, ShownIn::Whole, &[letter]));
            let scale = whole.written_scale();
            let names = [
                format!("Two turns of one blade, {scale}"),
                format!("Two turns, {scale}"),
                scale,
            ];
            panels.push(framed(whole, style, &names, Some(self.close.world())));
        }
        panels
    }
}

/// The strip with a view's name and scale.
fn strip(view: &View, style: Style) -> Rect {
    let window = view.window;
    Rect {
        y1: window.y0 + TITLE_HEIGHT * style.text,
        ..window
    }
}

/// The part of a view that another one enlarges.
fn enlarged_on(view: &View, part: Rect) -> Rect {
    view.paper_from_world().transform_rect_bbox(part)
}

/// Where the letter of the enlarged part stands: at a corner of it, on the paper below the title.
fn letter_place(view: &View, style: Style, part: Rect) -> Rect {
    let part = enlarged_on(view, part);
    let size = Vec2::new(14.0, 18.0) * style.text;
    let (window, top) = (view.window, strip(view, style).y1);
    let x = (part.x1 + 3.0 * style.text).min(window.x1 - size.x);
    let y = (part.y0 - size.y).max(top);
    Rect::from_origin_size((x.max(window.x0), y), size.to_size())
}

/// A view's border and title, and the part of it that another view shows.
fn framed(view: &View, style: Style, names: &[String], enlarged: Option<Rect>) -> Panel {
    let window = view.window;
    let mut pencil = Pencil::new(style, window);
    if let Some(part) = enlarged {
        pencil.stroke(Role::LensFrame, &enlarged_on(view, part).to_path(0.1));
        let place = letter_place(view, style, part);
        if window.contains_rect(place) {
            let letter = LETTER.to_owned();
            pencil.sized_text(
                Role::Heading,
                place.center(),
                Anchor::Middle,
                LETTER_SIZE,
                letter,
            );
        }
    }
    let strip = strip(view, style);
    // Past the border, where the last pixel of what lies under it would show.
    let covered = Rect {
        y0: strip.y0 - 2.0,
        ..strip
    };
    pencil.body(Role::Paper, &covered.to_path(0.1));
    let at = Point::new(window.x0 + pencil.by_text(10.0), strip.center().y);
    let room = window.width() - pencil.by_text(20.0);
    if let Some((name, size)) = pencil.longest_fitting(Role::Heading, names, (10.0, 14.0), room) {
        pencil.sized_text(Role::Heading, at, Anchor::Left, size, name.to_owned());
    }
    let frame = Rect {
        y0: strip.y1.min(window.y1),
        ..window
    };
    let frame = frame.inset(-0.5 * style.look(Role::LensFrame).width);
    pencil.stroke(Role::LensFrame, &frame.to_path(0.1));
    pencil.done()
}
