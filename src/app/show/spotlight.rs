//! A pointer that is seen from the back of a room: a bright ring, all around it dimmed.

use egui::epaint::Mesh;
use egui::{Color32, Pos2, Rect, Shape, Stroke, Ui, Vec2};

/// Radius of the ring and how wide it is drawn, in parts of the screen's height.
const RADIUS: f32 = 0.11;
const RING: f32 = 0.009;
/// How much of the light around it is taken.
const DIMMED: f32 = 0.62;
/// Pieces of its edge.
const PIECES: u16 = 96;
/// The ring is of no other use on a slide, and stands out from light and dark.
const BRIGHT: Color32 = Color32::from_rgb(0xFF, 0xC4, 0x1E);

/// The ring at a place of the screen.
pub(super) fn spotlight(ui: &Ui, at: Pos2) {
    let all = ui.max_rect();
    let radius = RADIUS * all.height();
    let painter = ui.painter();
    painter.add(Shape::mesh(around(at, radius, all)));
    let ring = Stroke::new(RING * all.height(), BRIGHT);
    painter.circle_stroke(at, radius, ring);
    // Its own edge, for a picture as bright as it is.
    let edge = Stroke::new(0.2 * RING * all.height(), Color32::BLACK);
    painter.circle_stroke(at, radius + 0.6 * ring.width, edge);
}

/// All of the screen but a circle.
fn around(at: Pos2, radius: f32, all: Rect) -> Mesh {
    let dim = Color32::BLACK.gamma_multiply(DIMMED);
    let far = 2.0 * all.size().length();
    let mut mesh = Mesh::default();
    for piece in 0..=PIECES {
        let way = Vec2::angled(std::f32::consts::TAU * f32::from(piece) / f32::from(PIECES));
        mesh.colored_vertex(at + radius * way, dim);
        mesh.colored_vertex(at + far * way, dim);
    }
    for piece in 0..u32::from(PIECES) {
        let corner = 2 * piece;
        mesh.add_triangle(corner, corner + 1, corner + 2);
        mesh.add_triangle(corner + 1, corner + 3, corner + 2);
    }
    mesh
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_but_the_circle_is_dimmed() {
        let all = Rect::from_min_size(Pos2::ZERO, Vec2::new(1024.0, 768.0));
        let at = Pos2::new(900.0, 40.0);
        let mesh = around(at, 80.0, all);
        let covered = |place: Pos2| {
            mesh.indices.chunks(3).any(|corners| {
                let [a, b, c] = [0, 1, 2].map(|at| mesh.vertices[corners[at] as usize].pos);
                let side = |from: Pos2, to: Pos2| {
                    let (way, off) = (to - from, place - from);
                    way.x * off.y - way.y * off.x
                };
                let sides = [side(a, b), side(b, c), side(c, a)];
                sides.iter().all(|side| *side >= 0.0) || sides.iter().all(|side| *side <= 0.0)
            })
        };
        for corner in [all.min, all.max, all.left_bottom(), all.right_top()] {
            let is_lit = corner.distance(at) < 80.0;
            assert_eq!(covered(corner), !is_lit, "{corner:?}");
        }
        assert!(!covered(at) && !covered(at + Vec2::new(0.0, 75.0)));
        assert!(covered(at + Vec2::new(85.0, 0.0)));
    }
}
