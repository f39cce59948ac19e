//! The close-up and the turns of the reel side by side on paper.

use kurbo::{Point, Rect, Shape as _, Vec2};

use super::PathDrawing;
use crate::drawing::paper::{Anchor, Panel, Pencil, Style, View, lay_out};
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
        let mut view = View::fitting(bounds, below_title(close));
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
            view.middle.y = foot + view.window.height() / view.scale / 2.0;
        }
        Self {
            close: View {
                window: close,
                ..view
            }
            .dragged(Vec2::new(0.0, TITLE_HEIGHT / 2.0)),
            whole: whole.map(|part| {
                let view = View::fitting(drawing.whole_bounds(), below_title(part));
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
        let mut panels = vec![lay_out(scene, &self.close, ShownIn::Lens, style)];
        let stretch = self.close.stretch;
        let scale = self.close.written_scale();
        let name = if stretch > 1.0 {
            format!("{LETTER}: at the cut line, {scale} across, stretched upwards ×{stretch}")
        } else {
            format!("{LETTER}: at the cut line, {scale}")
        };
        panels.push(framed(&self.close, style, &name, None));
        if let Some(whole) = &self.whole {
            panels.push(lay_out(scene, whole, ShownIn::Whole, style));
            let name = format!("Two turns of one blade, {}", whole.written_scale());
            panels.push(framed(whole, style, &name, Some(self.close.world())));
        }
        panels
    }
}

/// A view's border and title, and the part of it that another view shows.
fn framed(view: &View, style: Style, name: &str, enlarged: Option<Rect>) -> Panel {
    let window = view.window;
    let mut pencil = Pencil::new(style, window);
    if let Some(part) = enlarged {
        let part = view.paper_from_world().transform_rect_bbox(part);
        pencil.stroke(Role::LensFrame, &part.to_path(0.1));
        let at = Point::new(part.x1 + pencil.by_text(4.0), part.y0 - pencil.by_text(2.0));
        let letter = LETTER.to_owned();
        pencil.sized_text(Role::Heading, at, Anchor::BottomLeft, 15.0, letter);
    }
    let strip = Rect::new(
        window.x0,
        window.y0,
        window.x1,
        window.y0 + pencil.by_text(TITLE_HEIGHT),
    );
    pencil.body(Role::Paper, &strip.to_path(0.1));
    pencil.body(Role::Frame, &strip.to_path(0.1));
    let at = Point::new(window.x0 + pencil.by_text(10.0), strip.center().y);
    // The words are as large as the strip has room for.
    let room = window.width() - pencil.by_text(24.0);
    let room = room / pencil.width_of(Role::Heading, name, 1.0);
    let size = room.clamp(9.0, 14.0);
    pencil.sized_text(Role::Heading, at, Anchor::Left, size, name.to_owned());
    let inside = -pencil.by_text(0.8);
    pencil.stroke(Role::LensFrame, &window.inset(inside).to_path(0.1));
    pencil.done()
}
