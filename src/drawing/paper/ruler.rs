//! A ruler on paper: a height read off as on a rule stood beside it.

use kurbo::{Affine, Line, Point, Shape as _, Vec2};

use super::look::Pen;
use super::mark::Anchor;
use super::pencil::{Pencil, TEXT_SIZE};
use super::spot::Spot;
use crate::drawing::scene::{Role, Ruler};

/// Marks stand no closer than this.
const CLOSEST: f64 = 4.5;
/// From the ruler to the paper's border at least.
const BORDER: f64 = 24.0;
/// Lengths of small marks and of large ones.
const SMALL: f64 = 6.0;
const LARGE: f64 = 12.0;
/// Marks that a ruler has at most, so that one far too tall for the paper stays cheap.
const MOST: f64 = 400.0;

impl Ruler {
    /// Draws the ruler; it stands and falls with its number.
    pub(super) fn lay_out(&self, pencil: &mut Pencil, paper_from_world: Affine) {
        // Beside its place, as far as the paper goes.
        let border = pencil.window.x1 - pencil.by_text(BORDER);
        let beside = (paper_from_world * self.beside).x + pencil.by_text(self.offset);
        let measured = [self.foot, self.top].map(|place| paper_from_world * place);
        let aside = Vec2::new(beside.min(border) - measured[0].x, 0.0);
        let [foot, top] = measured.map(|place| place + aside);
        let window = pencil.window;
        // One that runs off the paper measures nothing that can be read there.
        let is_shown = (window.x0..=window.x1).contains(&foot.x) && window.contains(foot);
        if !is_shown || foot.y <= top.y {
            return;
        }
        pencil.together(|pencil| {
            let height_mm = self.top.distance(self.foot);
            let paper_per_mm = top.distance(foot) / height_mm;
            let up = (top - foot) / height_mm;
            // From the place measured: the ground may fall on the way to the ruler.
            pencil.line(Role::Dimension, measured[0], foot);
            let line = Line::new(foot, top).to_path(0.1);
            pencil.stroke_with(Role::CutLine, &line, Pen::Wide(1.4));
            let closest = pencil.by_text(CLOSEST);
            let step = self
                .steps
                .iter()
                .find(|step| step.small_mm * paper_per_mm >= closest);
            if let Some(step) = step {
                let count = (height_mm / step.small_mm + 1e-9).floor().min(MOST);
                let mut number = 0.0;
                while number <= count {
                    let is_large = (number / step.larges).fract().abs() < 1e-9;
                    let long = pencil.by_text(if is_large { LARGE } else { SMALL });
                    let at = foot + up * (number * step.small_mm);
                    pencil.line(Role::CutLine, at, at + Vec2::new(long, 0.0));
                    number += 1.0;
                }
            }
            let long = Vec2::new(pencil.by_text(LARGE), 0.0);
            pencil.line(Role::CutLine, top - long / 2.0, top + long);
            pencil.line(Role::CutLine, foot - long / 2.0, foot + long);
            let spots = Self::spots(pencil, foot, top);
            let forms = std::iter::once(&self.text).chain(&self.shorter);
            pencil.larger_wording(
                Role::Dimension,
                forms.cloned().collect(),
                (self.larger * TEXT_SIZE, self.larger),
                spots,
            );
        });
    }

    fn spots(pencil: &Pencil, foot: Point, top: Point) -> Vec<Spot> {
        // Of the ruler, what the paper shows.
        let window = pencil.window;
        let middle = Point::new(foot.x, foot.y.min(window.y1).midpoint(top.y.max(window.y0)));
        let beside = pencil.by_text(LARGE + 5.0);
        let down = Vec2::new(0.0, pencil.by_text(1.1 * TEXT_SIZE));
        let mut spots = vec![
            Spot::new(middle + Vec2::new(beside, 0.0), Anchor::Left),
            Spot::new(middle - Vec2::new(pencil.by_text(5.0), 0.0), Anchor::Right),
            Spot::new(foot + down, Anchor::Middle).sliding(),
            Spot::new(foot + 2.0 * down, Anchor::Middle).sliding(),
        ];
        spots.extend(pencil.shelves(middle, 40.0));
        spots
    }
}
