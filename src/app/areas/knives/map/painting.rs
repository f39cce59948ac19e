//! Painting a window map: hatched regions with solved borders, and their names where there is room.

use std::sync::Arc;

use egui::epaint::{Mesh, WHITE_UV};
use egui::{Color32, FontId, Galley, Painter, Pos2, Rect, Shape, Stroke, Vec2, pos2, vec2};

use crate::analysis::knives::{Band, Limit, Map, MapRow, Region};
use crate::app::areas::knives::inks::{RegionInk, ink, paper, region_ink, veil};
use crate::drawing::Theme;
use crate::units::{Angle, Length};

/// Limits that have regions, in the order they are painted and explained.
pub const SHOWN: [Limit; 6] = [
    Limit::Sweep,
    Limit::Reel,
    Limit::Cut,
    Limit::Underside,
    Limit::Ahead,
    Limit::Reach,
];

/// The word in the region that no limit forbids.
pub const USABLE: &str = "every limit holds";

/// How opaque a region is.
const FILL: f32 = 0.10;

/// A map laid on a piece of paper, its corner at the left top.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paper {
    pub size: Vec2,
    pub attitudes: (f64, f64),
    pub diameters_mm: (f64, f64),
    pub theme: Theme,
    pub pixels_per_point: f32,
}

impl Paper {
    #[allow(clippy::cast_possible_truncation)] // points on a screen
    fn place(&self, attitude: Angle, diameter: Length) -> Pos2 {
        let part = |value: f64, (low, high): (f64, f64)| ((value - low) / (high - low)) as f32;
        let across = part(attitude.deg(), self.attitudes);
        let up = part(diameter.mm(), self.diameters_mm);
        pos2(across * self.size.x, (1.0 - up) * self.size.y)
    }

    /// The two sides of a region, from the least diameter up.
    fn sides(&self, region: &Region) -> (Vec<Pos2>, Vec<Pos2>) {
        let mut bands = region.bands.clone();
        // A reel of one size is a single row, which the paper shows as a strip.
        if let [(_, band)] | [(_, band), (_, _)] = bands[..]
            && bands.first().map(|first| first.0) == bands.last().map(|last| last.0)
        {
            let (low, high) = self.diameters_mm;
            bands = vec![(Length::from_mm(low), band), (Length::from_mm(high), band)];
        }
        bands
            .iter()
            .map(|(diameter, band)| {
                (
                    self.place(band.low, *diameter),
                    self.place(band.high, *diameter),
                )
            })
            .unzip()
    }

    /// Everything of a map but its names.
    pub fn shapes(&self, map: &Map) -> Vec<Shape> {
        let mut shapes = Vec::new();
        for limit in SHOWN {
            let look = region_ink(limit, self.theme);
            for region in map.forbidden(limit) {
                let (lows, highs) = self.sides(&region);
                shapes.push(fill(&lows, &highs, look.colour.gamma_multiply(FILL)));
                shapes.extend(hatch(&lows, &highs, look));
                for side in [lows, highs] {
                    shapes.extend(self.border(side, Stroke::new(1.6, look.colour)));
                }
            }
        }
        for region in map.usable() {
            let (lows, highs) = self.sides(&region);
            for side in [lows, highs] {
                shapes.extend(self.border(side, Stroke::new(2.4, ink(self.theme))));
            }
        }
        shapes
    }

    /// A side of a region, unless it is the edge of the paper, where the search ended.
    fn border(&self, side: Vec<Pos2>, stroke: Stroke) -> Option<Shape> {
        let is_edge = |x: f32| x < 0.5 || x > self.size.x - 0.5;
        let is_border = side.iter().any(|point| !is_edge(point.x));
        is_border.then(|| Shape::line(side, stroke))
    }

    /// Places for the names of the regions: each where it is forbidden by nothing else, if there is
    /// such a place with room for it in one line or in several.
    pub fn names(&self, map: &Map, avoided: &[Rect], painter: &Painter) -> Vec<(Rect, String)> {
        let mut names = Vec::new();
        let mut taken = avoided.to_vec();
        let all = std::iter::once((None, USABLE))
            .chain(SHOWN.into_iter().map(|limit| (Some(limit), limit.name())));
        for (limit, words) in all {
            let written = [1, 2, 3].map(|lines| in_lines(words, lines));
            let sized = written.map(|words| {
                let size = self.name(&words, painter).size() + vec2(10.0, 4.0);
                (words, size)
            });
            let alone = |row: &MapRow| match limit {
                None => row.windows(),
                Some(limit) => row.bands_alone(limit),
            };
            let any = |row: &MapRow| limit.map_or(Vec::new(), |limit| row.bands(limit));
            let find = |bands: &dyn Fn(&MapRow) -> Vec<Band>, needs_room: bool| {
                sized.iter().find_map(|(words, size)| {
                    let place = self.room(map, bands, *size, needs_room, &taken)?;
                    Some((place, words.clone()))
                })
            };
            let mut found = find(&alone, true).or_else(|| find(&any, true));
            // A narrow window is plain enough; a name would hide it.
            if limit.is_some() {
                found = found
                    .or_else(|| find(&alone, false))
                    .or_else(|| find(&any, false));
            }
            if let Some((place, words)) = found {
                taken.push(place.expand(3.0));
                names.push((place, words));
            }
        }
        names
    }

    /// Paints a name, its place moved with the paper.
    pub fn paint_name(&self, place: Rect, words: &str, painter: &Painter) {
        let galley = self.name(words, painter);
        let background = if words.replace('\n', " ") == USABLE {
            paper(self.theme)
        } else {
            veil(self.theme)
        };
        painter.rect_filled(place, 3.0, background);
        painter.galley(
            place.center() - galley.size() / 2.0,
            galley,
            ink(self.theme),
        );
    }

    fn name(&self, words: &str, painter: &Painter) -> Arc<Galley> {
        let font = FontId::proportional(13.0);
        painter.layout_no_wrap(words.to_owned(), font, ink(self.theme))
    }

    /// Where a name has most room in the bands of some row.
    fn room(
        &self,
        map: &Map,
        bands: &dyn Fn(&MapRow) -> Vec<Band>,
        size: Vec2,
        needs_room: bool,
        taken: &[Rect],
    ) -> Option<Rect> {
        let centres = Rect::from_min_size(Pos2::ZERO, self.size)
            .shrink(4.0)
            .shrink2(size / 2.0);
        if centres.is_negative() {
            return None;
        }
        // Every band of every row on the paper: its height, and from where to where it goes.
        let strips: Vec<(f32, Vec<(f32, f32)>)> = map
            .rows
            .iter()
            .map(|row| {
                let across = |attitude| self.place(attitude, row.diameter).x;
                let strips = bands(row).into_iter();
                (
                    self.place(Angle::ZERO, row.diameter).y,
                    strips
                        .map(|band| (across(band.low), across(band.high)))
                        .collect(),
                )
            })
            .collect();
        let has_room = |place: Rect| {
            strips
                .iter()
                .filter(|(y, _)| place.y_range().expand(4.0).contains(*y))
                .all(|(_, strips)| {
                    strips
                        .iter()
                        .any(|(from, to)| *from < place.left() - 2.0 && place.right() + 2.0 < *to)
                })
        };
        let mut best: Option<(f32, Rect)> = None;
        for (y, strips) in &strips {
            for (from, to) in strips {
                let middle = pos2(f32::midpoint(*from, *to), *y);
                let place = Rect::from_center_size(middle.clamp(centres.min, centres.max), size);
                // Past what a name needs, the middle of the paper is better than more room.
                let off_middle = (middle.y - self.size.y / 2.0).abs() / self.size.y;
                let score = (to - from).min(2.0 * size.x) - 40.0 * off_middle;
                let is_free = to - from > 6.0
                    && !taken.iter().any(|other| other.intersects(place))
                    && best.is_none_or(|(had, _)| score > had)
                    && (!needs_room || has_room(place));
                if is_free {
                    best = Some((score, place));
                }
            }
        }
        best.map(|(_, place)| place)
    }
}

/// Words spread over so many lines, as even as they come.
fn in_lines(words: &str, lines: usize) -> String {
    let length = words.len().div_ceil(lines);
    let mut text = String::new();
    let mut in_line = 0;
    for word in words.split(' ') {
        if in_line > 0 {
            let is_full = in_line + word.len() / 2 >= length;
            text.push(if is_full { '\n' } else { ' ' });
            if is_full {
                in_line = 0;
            }
        }
        text.push_str(word);
        in_line += word.len() + 1;
    }
    text
}

/// A region's fill: a strip of triangles between its sides.
fn fill(lows: &[Pos2], highs: &[Pos2], colour: Color32) -> Shape {
    let mut mesh = Mesh::default();
    for point in lows.iter().zip(highs).flat_map(|(low, high)| [low, high]) {
        mesh.vertices.push(egui::epaint::Vertex {
            pos: *point,
            uv: WHITE_UV,
            color: colour,
        });
    }
    let rows = u32::try_from(lows.len()).unwrap_or(0);
    for row in 1..rows {
        let (below, above) = (2 * (row - 1), 2 * row);
        mesh.add_triangle(below, below + 1, above);
        mesh.add_triangle(below + 1, above, above + 1);
    }
    Shape::mesh(mesh)
}

/// Parallel lines clipped to a region, in step with those of its neighbours.
fn hatch(lows: &[Pos2], highs: &[Pos2], look: RegionInk) -> Vec<Shape> {
    let outline: Vec<(f64, f64)> = lows
        .iter()
        .chain(highs.iter().rev())
        .map(|point| (f64::from(point.x), f64::from(point.y)))
        .collect();
    // Paper's y runs down: a line rising to the right has a negative slope there.
    let (sin, cos) = (-look.hatch_deg.to_radians()).sin_cos();
    let height = |(x, y): (f64, f64)| y * cos - x * sin;
    let along = |(x, y): (f64, f64)| x * cos + y * sin;
    let (low, high) = outline
        .iter()
        .map(|point| height(*point))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), h| {
            (low.min(h), high.max(h))
        });
    let stroke = Stroke::new(1.0, look.colour.gamma_multiply(0.55));
    let mut shapes = Vec::new();
    let mut step = (low / look.spacing).ceil();
    while step * look.spacing <= high {
        let at = step * look.spacing;
        let mut crossings: Vec<f64> = (0..outline.len())
            .filter_map(|index| {
                let (from, to) = (outline[index], outline[(index + 1) % outline.len()]);
                let (a, b) = (height(from) - at, height(to) - at);
                let part = a / (a - b);
                ((a < 0.0) != (b < 0.0)).then(|| along(from) + (along(to) - along(from)) * part)
            })
            .collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            let place = |t: f64| {
                #[allow(clippy::cast_possible_truncation)] // points on a screen
                let (x, y) = ((t * cos - at * sin) as f32, (t * sin + at * cos) as f32);
                pos2(x, y)
            };
            shapes.push(Shape::line_segment(
                [place(pair[0]), place(pair[1])],
                stroke,
            ));
        }
        step += 1.0;
    }
    shapes
}

/// A swatch of a region's look.
pub fn swatch(place: Rect, limit: Limit, theme: Theme) -> Vec<Shape> {
    let look = region_ink(limit, theme);
    let lows = [place.left_bottom(), place.left_top()];
    let highs = [place.right_bottom(), place.right_top()];
    let mut shapes = vec![fill(&lows, &highs, look.colour.gamma_multiply(2.0 * FILL))];
    let closer = RegionInk {
        spacing: 0.6 * look.spacing,
        ..look
    };
    shapes.extend(hatch(&lows, &highs, closer));
    shapes.push(Shape::rect_stroke(
        place,
        2.0,
        Stroke::new(1.4, look.colour),
        egui::StrokeKind::Inside,
    ));
    shapes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_spread_over_lines() {
        assert_eq!(in_lines("edge ahead of centre", 1), "edge ahead of centre");
        assert_eq!(in_lines("edge ahead of centre", 2), "edge ahead\nof centre");
        assert_eq!(in_lines("sweep too deep", 3), "sweep\ntoo\ndeep");
    }

    #[test]
    fn hatching_stays_in_its_region() {
        let lows = [pos2(10.0, 90.0), pos2(30.0, 50.0), pos2(20.0, 10.0)];
        let highs = [pos2(60.0, 90.0), pos2(80.0, 50.0), pos2(90.0, 10.0)];
        for limit in SHOWN {
            let lines = hatch(&lows, &highs, region_ink(limit, Theme::Light));
            assert!(lines.len() > 3, "{limit:?}");
            for line in &lines {
                let Shape::LineSegment { points, .. } = line else {
                    panic!("{line:?}");
                };
                for point in points {
                    assert!((9.9..=90.1).contains(&point.x), "{limit:?} {point:?}");
                    assert!((9.9..=90.1).contains(&point.y), "{limit:?} {point:?}");
                }
            }
        }
    }
}
