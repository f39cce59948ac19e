//! Painting marks with egui.

use earcut::Earcut;
use egui::epaint::{Mesh, TextShape};
use egui::{Color32, FontFamily, FontId, Painter, Pos2, Rect, Shape, Stroke, Vec2};
use kurbo::{BezPath, PathEl, Point};

use super::look::colour;
use crate::app::widgets::lettering::strong;
use crate::drawing::{Mark, Panel, Role, Style};

/// How much the paper behind words hides of lines and hatching there.
const GROUND: f32 = 0.94;

/// A panel ready to be painted.
#[derive(Clone, Debug)]
pub struct Painted {
    clip: Rect,
    shapes: Vec<Shape>,
    /// Words are laid out anew each time: letters live in a picture that is redrawn at will.
    words: Vec<Words>,
}

/// Words of a panel.
#[derive(Clone, Debug)]
struct Words {
    at: Pos2,
    /// What part of them, across and down, stands at the place.
    part: Vec2,
    font: FontId,
    ink: Color32,
    halo: Color32,
    is_turned: bool,
    text: String,
}

impl Painted {
    /// Turns a panel's marks into shapes and words.
    pub fn from_panel(panel: &Panel) -> Self {
        let mut painted = Self {
            clip: rect(panel.window),
            shapes: Vec::with_capacity(panel.marks.len()),
            words: Vec::new(),
        };
        for mark in &panel.marks {
            painted.add(mark, panel.style);
        }
        painted
    }

    /// Paints shapes and words; a panel's words stand in front of its shapes.
    pub fn paint(&self, painter: &Painter) {
        let painter = painter.with_clip_rect(self.clip.intersect(painter.clip_rect()));
        painter.extend(self.shapes.iter().cloned());
        for words in &self.words {
            words.paint(&painter);
        }
    }

    /// Paints them moved by so much: for what is laid out once and scrolled.
    pub fn paint_moved(&self, painter: &Painter, by: Vec2) {
        let clip = self.clip.translate(by).intersect(painter.clip_rect());
        let painter = painter.with_clip_rect(clip);
        for shape in &self.shapes {
            let mut moved = shape.clone();
            moved.translate(by);
            painter.add(moved);
        }
        for words in &self.words {
            let moved = Words {
                at: words.at + by,
                ..words.clone()
            };
            moved.paint(&painter);
        }
    }

    #[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
    fn add(&mut self, mark: &Mark, style: Style) {
        match mark {
            Mark::Stroke { role, path, pen } => {
                let (ink, width) = style.inked(*role, *pen);
                self.shapes
                    .extend(stroked(path, Stroke::new(width as f32, colour(ink))));
            }
            Mark::Fill { role, path, is_ink } => {
                let paint = colour(style.filled(*role, *is_ink));
                self.shapes.extend(filled(path, paint));
            }
            Mark::Text {
                role,
                at,
                anchor,
                size,
                is_turned,
                is_strong,
                text,
            } => {
                let family = if *is_strong {
                    strong()
                } else {
                    FontFamily::Proportional
                };
                self.words.push(Words {
                    at: pos(*at),
                    part: vec2(anchor.part()),
                    font: FontId::new(*size as f32, family),
                    ink: colour(style.theme.text_colour(*role)),
                    halo: colour(style.look(Role::Paper).fill).gamma_multiply(GROUND),
                    is_turned: *is_turned,
                    text: text.clone(),
                });
            }
        }
    }
}

impl Words {
    fn paint(&self, painter: &Painter) {
        let galley = painter.layout_no_wrap(self.text.clone(), self.font.clone(), self.ink);
        let (extent, part) = (galley.size(), self.part);
        if self.is_turned {
            // Read from the right: a quarter turn against the clock about the text's corner.
            let corner = self.at + Vec2::new(-part.y * extent.y, part.x * extent.x);
            let size = Vec2::new(extent.y, extent.x);
            let back = Rect::from_min_size(corner - Vec2::new(0.0, extent.x), size);
            painter.rect_filled(back.shrink2(Vec2::new(2.0, 0.0)), 3.0, self.halo);
            let turned = TextShape::new(corner, galley, self.ink);
            painter.add(turned.with_angle(-std::f32::consts::FRAC_PI_2));
        } else {
            let corner = self.at - part * extent;
            let back = Rect::from_min_size(corner, extent).expand2(Vec2::new(2.0, -1.5));
            painter.rect_filled(back, 3.0, self.halo);
            painter.galley(corner, galley, self.ink);
        }
    }
}

/// A rectangle of paper on the screen: paper units are egui's points.
pub fn rect(paper: kurbo::Rect) -> Rect {
    Rect::from_min_max(
        pos(Point::new(paper.x0, paper.y0)),
        pos(Point::new(paper.x1, paper.y1)),
    )
}

/// A rectangle of the screen as paper.
pub fn paper(rect: Rect) -> kurbo::Rect {
    kurbo::Rect::new(
        f64::from(rect.min.x),
        f64::from(rect.min.y),
        f64::from(rect.max.x),
        f64::from(rect.max.y),
    )
}

/// A place of the paper on the screen.
#[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
pub fn pos(point: Point) -> Pos2 {
    Pos2::new(point.x as f32, point.y as f32)
}

#[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
fn vec2((x, y): (f64, f64)) -> Vec2 {
    Vec2::new(x as f32, y as f32)
}

/// A place of the screen on the paper.
pub fn point(pos: Pos2) -> Point {
    Point::new(f64::from(pos.x), f64::from(pos.y))
}

/// How far a curve's straight pieces may stray from it, in points.
const FLATNESS: f64 = 0.15;

/// The pieces of a path, its curves flattened: their corners, and whether each is closed.
fn pieces(path: &BezPath) -> Vec<(Vec<Pos2>, bool)> {
    let mut pieces: Vec<(Vec<Pos2>, bool)> = Vec::new();
    kurbo::flatten(path.iter(), FLATNESS, |element| match element {
        PathEl::MoveTo(to) => pieces.push((vec![pos(to)], false)),
        PathEl::ClosePath => {
            if let Some((_, is_closed)) = pieces.last_mut() {
                *is_closed = true;
            }
        }
        other => {
            if let (Some(to), Some((corners, _))) = (other.end_point(), pieces.last_mut()) {
                corners.push(pos(to));
            }
        }
    });
    pieces
}

/// Whether a polygon turns the same way at every corner, so that egui can fill it smoothly.
fn is_convex(corners: &[Pos2]) -> bool {
    let turn = |index: usize| {
        let at = |step: usize| corners[(index + step) % corners.len()];
        let (before, after) = (at(1) - at(0), at(2) - at(1));
        before.x * after.y - before.y * after.x
    };
    let turns = || (0..corners.len()).map(turn);
    corners.len() > 2 && (turns().all(|t| t >= 0.0) || turns().all(|t| t <= 0.0))
}

fn filled(path: &BezPath, colour: Color32) -> impl Iterator<Item = Shape> {
    let mut cutter = Earcut::new();
    pieces(path).into_iter().map(move |(corners, _)| {
        if is_convex(&corners) {
            return Shape::convex_polygon(corners, colour, Stroke::NONE);
        }
        let mut mesh = Mesh::default();
        let mut indices: Vec<u32> = Vec::new();
        cutter.earcut::<u32>(corners.iter().map(|c| [c.x, c.y]), &[], &mut indices);
        for corner in corners {
            mesh.colored_vertex(corner, colour);
        }
        mesh.indices = indices;
        Shape::mesh(mesh)
    })
}

/// Whether a path turns so sharply somewhere that its mitred corner would run far out.
fn has_spike(corners: &[Pos2], is_closed: bool) -> bool {
    let count = corners.len();
    let turns = if is_closed {
        count
    } else {
        count.saturating_sub(2)
    };
    (0..turns).any(|index| {
        let at = |step: usize| corners[(index + step) % count];
        let (before, after) = (at(1) - at(0), at(2) - at(1));
        // Two corners in one place have no direction to mitre along.
        let is_empty = before.length_sq().min(after.length_sq()) < 1e-6;
        is_empty || before.normalized().dot(after.normalized()) < -0.7
    })
}

/// The sides of a path, each by itself.
fn sides(corners: &[Pos2], is_closed: bool, stroke: Stroke) -> Shape {
    let back = is_closed.then(|| (corners[corners.len() - 1], corners[0]));
    let along = corners.windows(2).map(|pair| (pair[0], pair[1]));
    let line = |(from, to)| Shape::line_segment([from, to], stroke);
    Shape::Vec(along.chain(back).map(line).collect())
}

/// A path drawn with a pen.
pub fn stroked(path: &BezPath, stroke: Stroke) -> impl Iterator<Item = Shape> {
    pieces(path)
        .into_iter()
        .map(move |(corners, is_closed)| match corners[..] {
            [from, to] => Shape::line_segment([from, to], stroke),
            _ if has_spike(&corners, is_closed) => sides(&corners, is_closed, stroke),
            _ if is_closed => Shape::closed_line(corners, stroke),
            _ => Shape::line(corners, stroke),
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::widgets::look::dress;
    use crate::drawing::words;

    #[test]
    fn letters_on_the_screen_are_as_wide_as_they_were_measured() {
        let ctx = egui::Context::default();
        dress(&ctx);
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            for text in [
                "behind centre 0.292 in ± 0.0230 in",
                "sweep",
                "front roller",
            ] {
                for (is_strong, family) in [(false, FontFamily::Proportional), (true, strong())] {
                    let font = FontId::new(13.5, family);
                    let galley = ui
                        .painter()
                        .layout_no_wrap(text.to_owned(), font, Color32::BLACK);
                    let (set, measured) = (
                        f64::from(galley.size().x),
                        words::width(text, 13.5, is_strong),
                    );
                    // Kerning, and letters set on whole pixels.
                    assert!(
                        (set - measured).abs() < 0.04 * measured + 1.0,
                        "{text}: {set} beside {measured}"
                    );
                }
            }
        });
        output.textures_delta.clear();
    }
}
