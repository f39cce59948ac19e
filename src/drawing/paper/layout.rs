//! Laying a scene out on paper: world shapes become marks in paper units.

use kurbo::{Affine, BezPath, Circle, Point, Rect, Shape as _, Vec2};

use super::dimension::ARROW;
use super::hatch::Lies;
use super::mark::{Anchor, Panel};
use super::pencil::{Pencil, TEXT_SIZE};
use super::spot::{LeaderEnd, Spot};
use super::style::{Style, Words};
use super::view::View;
use crate::drawing::scene::{Item, Label, Role, Scene, Shape, ShownIn};

/// Lays the shapes that a view shows out on paper; a theme alone lays them out as for the window.
#[must_use]
pub fn lay_out(scene: &Scene, view: &View, shown_in: ShownIn, style: impl Into<Style>) -> Panel {
    lay_out_around(scene, view, shown_in, style.into(), (&[], |_| false))
}

/// Lays the shapes out with words kept clear of places that something else will cover, and without what is
/// told elsewhere.
pub(in crate::drawing) fn lay_out_around(
    scene: &Scene,
    view: &View,
    shown_in: ShownIn,
    style: Style,
    (reserved, is_told): (&[Rect], impl Fn(&Item) -> bool),
) -> Panel {
    let mut pencil = Pencil::new(style, view.window);
    for place in reserved {
        pencil.reserve(*place);
    }
    // Below a strip across the top a key has its place.
    let is_strip = |place: &&Rect| place.y0 <= view.window.y0 && place.x0 <= view.window.x0;
    let strips = reserved.iter().filter(is_strip);
    let head = strips.map(|strip| strip.y1).fold(view.window.y0, f64::max);
    let paper_from_world = view.paper_from_world();
    let margin = 20.0 * pencil.style.pen / view.scale;
    let near = view.world().inflate(margin, margin);
    let is_few = pencil.style.words == Words::Few;
    let is_shown = |item: &&Item| {
        let is_here = item.shown_in == ShownIn::Both || item.shown_in == shown_in;
        is_here && (!is_few || is_among_few(item)) && !is_told(item)
    };
    for item in scene.items.iter().filter(is_shown) {
        lay_out_item(&mut pencil, item, paper_from_world, (near, head));
    }
    pencil.done()
}

/// Whether something stays where few words are shown: all that is no word, and what the sweep is told by.
fn is_among_few(item: &Item) -> bool {
    match &item.shape {
        Shape::Label(label) => match item.role {
            Role::Clip
            | Role::BelowCut(_)
            | Role::Worst(_)
            | Role::CutLine
            | Role::Knife
            | Role::ReelBody => true,
            // The word at an arrow.
            Role::Note => !label.has_leader,
            // The number that the drawing is about.
            _ => label.larger > 1.0,
        },
        Shape::Ruler(ruler) => ruler.larger > 1.0,
        Shape::Angle { .. } | Shape::Diameter { .. } | Shape::Key { .. } => false,
        Shape::Line(_)
        | Shape::Fill(_)
        | Shape::Hatch(_)
        | Shape::MovingHatch { .. }
        | Shape::Arrow(_)
        | Shape::Dimension(_)
        | Shape::Ring(_) => true,
    }
}

fn lay_out_item(
    pencil: &mut Pencil,
    item: &Item,
    paper_from_world: Affine,
    (near, head): (Rect, f64),
) {
    let role = item.role;
    let placed = |path: &BezPath| {
        let is_near = path.bounding_box().inflate(1e-9, 1e-9).overlaps(near);
        is_near.then(|| paper_from_world * path)
    };
    match &item.shape {
        Shape::Line(path) => {
            if let Some(path) = placed(path) {
                pencil.stroke(role, &path);
            }
        }
        Shape::Fill(path) => {
            if let Some(path) = placed(path) {
                pencil.body(role, &path);
            }
        }
        Shape::Hatch(path) => {
            if let Some(path) = placed(path) {
                pencil.body(role, &path);
                pencil.hatching(role, &path);
            }
        }
        Shape::MovingHatch {
            outline,
            through,
            alike_mm,
        } => {
            if let Some(path) = placed(outline) {
                pencil.body(role, &path);
                let lies = Lies::of(*through, *alike_mm, paper_from_world);
                pencil.moving_hatching(role, &path, lies);
            }
        }
        Shape::Arrow(path) => {
            if let Some(path) = placed(path) {
                pencil.arrow(role, &path);
            }
        }
        Shape::Dimension(dimension) => dimension.lay_out(pencil, paper_from_world),
        Shape::Ruler(ruler) => ruler.lay_out(pencil, paper_from_world),
        Shape::Angle {
            apex,
            from,
            to,
            radius_mm,
            text,
            shorter,
        } => {
            let on_paper = |way: Vec2| paper_from_world * (*apex + way) - paper_from_world * *apex;
            let radius = on_paper(Vec2::new(*radius_mm, 0.0)).hypot();
            let forms = std::iter::once(text).chain(shorter).cloned().collect();
            // What is not shown has no number here.
            let on_arc = |way: Vec2| {
                let place = *apex + way.normalize() * *radius_mm;
                pencil.window.contains(paper_from_world * place)
            };
            let mut ways = [*from, *to, from.normalize() + to.normalize()].into_iter();
            if !ways.any(on_arc) {
                return;
            }
            pencil.together(|pencil| {
                pencil.angle(
                    paper_from_world * *apex,
                    on_paper(*from),
                    on_paper(*to),
                    radius,
                    forms,
                );
            });
        }
        Shape::Diameter {
            centre,
            radius_mm,
            text,
        } => {
            let centre_on_paper = paper_from_world * *centre;
            let rim = paper_from_world * (*centre + Vec2::new(*radius_mm, 0.0));
            pencil.diameter(centre_on_paper, rim.distance(centre_on_paper), text);
        }
        Shape::Label(label) => pencil.label(role, label, paper_from_world),
        Shape::Key { row, text } => pencil.key(role, *row, head, text),
        Shape::Ring(at) => {
            let at = paper_from_world * *at;
            let curved = pencil.curved();
            let (ring, dot) = (pencil.by_text(11.0), pencil.by_text(3.4));
            pencil.stroke(role, &Circle::new(at, ring).to_path(curved));
            pencil.fill(role, &Circle::new(at, dot).to_path(curved));
        }
    }
}

/// From where to where the shelves about a place lie, against the one that is asked for.
const REACHES: [f64; 6] = [0.6, 0.85, 1.1, 1.4, 1.8, 2.4];
/// Directions of the lines to them.
const DIRECTIONS: i32 = 12;
/// How far across the steep ones among them go at the most, in parts of their length.
const STEEP: f64 = 0.8;
/// How far past the end of an angle's arc its number may stand, and how far round it at the most.
const PAST_ARC: [f64; 10] = [2.0, 8.0, 14.0, 20.0, 28.0, 36.0, 46.0, 58.0, 70.0, 84.0];
const MOST_PAST_ARC: f64 = 1.2;
/// Where on a circle the line of its diameter ends, from the best, and how far past it the number
/// stands.
const DIAMETER_DEGREES: [f64; 10] = [
    -40.0, -140.0, -60.0, -120.0, -20.0, -160.0, 20.0, 160.0, -80.0, -100.0,
];
const DIAMETER_REACHES: [f64; 2] = [1.0, 2.0];

impl Pencil {
    /// A line with an arrowhead at its end.
    fn arrow(&mut self, role: Role, path: &BezPath) {
        self.stroke(role, path);
        let flat = self.flattened(path);
        let ends: Vec<Point> = flat
            .elements()
            .iter()
            .filter_map(kurbo::PathEl::end_point)
            .collect();
        // Flattening can leave a last piece of no length, which points nowhere.
        if let Some(&tip) = ends.last()
            && let Some(&before) = ends.iter().rfind(|end| end.distance(tip) > 1e-6)
        {
            self.arrowhead(role, tip, tip - before);
        }
    }

    /// Shelves about a place, the nearest first, all on slanting lines.
    pub(super) fn shelves(&self, from: Point, plain_reach: f64) -> impl Iterator<Item = Spot> {
        let (reach, size) = (self.by_text(plain_reach), self.by_text(TEXT_SIZE));
        REACHES.into_iter().flat_map(move |part| {
            (0..DIRECTIONS).flat_map(move |direction| {
                let turn =
                    std::f64::consts::TAU * (f64::from(direction) + 0.5) / f64::from(DIRECTIONS);
                let way = Vec2::from_angle(turn);
                let spot = Spot::on_shelf(from, from + way * (part * reach), size);
                let spot = spot.sliding().among_many();
                // From a steep line a shelf may go either way.
                let other = (way.x.abs() < STEEP).then(|| spot.mirrored());
                std::iter::once(spot).chain(other)
            })
        })
    }

    /// Shelves past the ends of an angle's arc, which is drawn on to them (ISO 129-1): the nearest first.
    fn shelves_past_arc(
        &self,
        (apex, radius): (Point, f64),
        legs: [(f64, f64); 2],
        tail: f64,
    ) -> impl Iterator<Item = Spot> {
        let size = self.by_text(TEXT_SIZE);
        let at = move |angle: f64| apex + Vec2::from_angle(angle) * radius;
        let reaches = PAST_ARC.map(|reach| tail + self.by_text(reach));
        let turns = reaches.map(|reach| reach / radius);
        let turns = turns.into_iter().filter(|turn| *turn < MOST_PAST_ARC);
        turns.flat_map(move |turn| {
            legs.into_iter().flat_map(move |(leg, outwards)| {
                let ends = (
                    at(leg + outwards * tail / radius),
                    at(leg + outwards * turn),
                );
                [Anchor::Right, Anchor::Left].map(|side| Spot::on_arc(apex, ends, side, size))
            })
        })
    }

    fn label(&mut self, role: Role, label: &Label, paper_from_world: Affine) {
        let at = paper_from_world * label.at;
        // What is not shown has no name here.
        if !self.window.contains(at) {
            return;
        }
        let forms = std::iter::once(&label.text).chain(&label.shorter);
        let forms: Vec<String> = forms.cloned().collect();
        let offset = label.offset * self.style.text;
        let plain_size = TEXT_SIZE * label.larger;
        if label.has_leader {
            self.together(|pencil| {
                pencil.leader_dot(at);
                let size = pencil.by_text(plain_size);
                let ways = [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
                let wanted = ways.map(|(x, y)| {
                    let to = at + Vec2::new(x * offset.x, y * offset.y);
                    Spot::on_shelf(at, to, size).sliding()
                });
                let reach = label.offset.hypot().max(40.0);
                let spots = wanted
                    .into_iter()
                    .chain(pencil.shelves(at, reach))
                    .collect();
                if label.larger > 1.0 {
                    pencil.first_wording(role, forms, plain_size, spots);
                } else {
                    pencil.wording(role, forms, plain_size, spots);
                }
            });
            return;
        }
        let anchor = match label.offset.x {
            x if x > 0.5 => Anchor::Left,
            x if x < -0.5 => Anchor::Right,
            _ => Anchor::Middle,
        };
        let line = self.by_text(1.25 * TEXT_SIZE);
        let wide = self.width_of(role, &label.text, plain_size);
        let mut spots = Vec::new();
        // On its line, on either side of it, or else on a leader: never adrift on another's edge.
        let is_on_line = role == Role::CutLine;
        let under = -2.0 * offset.y / line;
        // Words beside a place stand on its other side as far off as on this one, never on it.
        let other_side = if offset.y.abs() > 0.5 { under } else { -1.0 };
        let on_line = [0.0, 0.5, -0.5, 1.1, -1.1, 2.0, -2.0, 3.2, -3.2].map(|across| (across, 0.0));
        let on_line = on_line
            .into_iter()
            .chain([(0.0, under), (1.1, under), (-1.1, under)]);
        let about = [
            (0.0, 0.0),
            (0.0, 1.0),
            (0.0, other_side),
            (0.25, 0.0),
            (-0.25, 0.0),
            (0.5, 0.0),
            (-0.5, 0.0),
            (1.1, 0.0),
            (-1.1, 0.0),
            (0.5, 1.0),
            (-0.5, 1.0),
            (0.5, other_side),
            (-0.5, other_side),
        ];
        let places: Vec<(f64, f64)> = if is_on_line {
            on_line.collect()
        } else {
            about.to_vec()
        };
        // The name of one of a row of places stands over or under its own.
        let is_of_row = anchor == Anchor::Middle && matches!(role, Role::Clip | Role::Note);
        let stays = |(across, _): &(f64, f64)| !is_of_row || across.abs() < 0.3;
        for (across, down) in places.into_iter().filter(stays) {
            let to = at + offset + Vec2::new(across * wide, down * line);
            let spot = Spot::new(to, anchor);
            spots.push(if offset == Vec2::ZERO || is_of_row {
                spot
            } else {
                spot.sliding()
            });
        }
        // What must not go unnamed, from further off where there is no room on it.
        let end = match role {
            Role::CutLine => Some(LeaderEnd::Arrow),
            Role::ReelBody | Role::Roller => Some(LeaderEnd::Dot),
            _ => None,
        };
        if let Some(end) = end {
            spots.extend(self.shelves(at, 40.0).map(|spot| spot.ending(end)));
        }
        self.wording(role, forms, plain_size, spots);
    }

    /// A line of the key, below the strip in which a lens has its title; its words as far as there is
    /// room for them.
    fn key(&mut self, role: Role, row: u8, head: f64, text: &str) {
        const SAMPLE: f64 = 46.0;
        let down = self.by_text(16.0 + 19.0 * f64::from(row));
        let start = Point::new(self.window.x0 + self.by_text(12.0), head + down);
        let end = start + Vec2::new(self.by_text(SAMPLE), 0.0);
        let at = end + Vec2::new(self.by_text(8.0), 0.0);
        let most = self.window.x1 - self.by_text(6.0) - at.x;
        let half = self.by_text(0.7 * TEXT_SIZE);
        let words = self.fitted(role, text, TEXT_SIZE, most).into_owned();
        if start.y + half > self.window.y1 || self.width_of(role, &words, TEXT_SIZE) > most {
            return;
        }
        self.together(|pencil| {
            if role == Role::Knife {
                // A section is told by its hatching.
                let up = Vec2::new(0.0, pencil.by_text(5.0));
                let section = Rect::from_points(start - up, end + up).to_path(0.1);
                pencil.body(role, &section);
                pencil.closer_hatching(role, &section, 0.8);
                pencil.stroke(role, &section);
            } else {
                pencil.line(role, start, end);
            }
            let spots = vec![Spot::new(at, Anchor::Left)];
            pencil.wording(role, vec![words], TEXT_SIZE, spots);
        });
    }

    /// A diameter's number on a shelf, its line ending in an arrowhead at the circle (ISO 129-1).
    fn diameter(&mut self, centre: Point, radius: f64, text: &str) {
        let (reach, size) = (self.by_text(26.0), self.by_text(TEXT_SIZE));
        let outside = DIAMETER_REACHES.map(|part| part * reach);
        let reaches = outside.into_iter().chain([-0.3 * radius]);
        let window = self.window;
        let spots = reaches.flat_map(|past| {
            DIAMETER_DEGREES.map(|degrees| {
                let way = Vec2::from_angle(f64::to_radians(degrees));
                let tip = centre + way * radius;
                (tip, tip + way * past)
            })
        });
        let spots: Vec<Spot> = spots
            .filter(|(tip, _)| window.contains(*tip))
            .map(|(tip, to)| Spot::on_shelf(tip, to, size).ending(LeaderEnd::Arrow))
            .collect();
        self.together(|pencil| {
            pencil.least_wording(Role::Dimension, vec![text.to_owned()], spots);
        });
    }

    fn angle(&mut self, apex: Point, from: Vec2, to: Vec2, radius: f64, forms: Vec<String>) {
        let start = from.atan2();
        let mut sweep = to.atan2() - start;
        if sweep > std::f64::consts::PI {
            sweep -= std::f64::consts::TAU;
        } else if sweep < -std::f64::consts::PI {
            sweep += std::f64::consts::TAU;
        }
        let at = |angle: f64| apex + Vec2::from_angle(angle) * radius;
        let curved = self.curved();
        let arc = |start: f64, sweep: f64| {
            kurbo::Arc::new(apex, (radius, radius), start, sweep, 0.0).to_path(curved)
        };
        self.stroke(Role::Dimension, &arc(start, sweep));
        let arrow = self.by_text(ARROW);
        let is_wide = sweep.abs() * radius >= 3.2 * arrow;
        // Where it is narrow the arrowheads stand outside and point at each other.
        let tail = if is_wide { 0.0 } else { 2.4 * arrow };
        let legs = [(start, -sweep.signum()), (start + sweep, sweep.signum())];
        for (leg, outwards) in legs {
            let inwards = if is_wide { -1.0 } else { 1.0 };
            let foot = at(leg + inwards * outwards * arrow / radius);
            if tail > 0.0 {
                let turn = (tail / radius).min(1.0);
                self.stroke(Role::Dimension, &arc(leg, outwards * turn));
            }
            self.arrowhead(Role::Dimension, at(leg), at(leg) - foot);
        }
        // Beside the leg it starts from, away from the other leg, if that leg stands upright.
        let aside = self.by_text(8.0);
        let is_upright = from.y.abs() > from.x.abs();
        let (place, is_left) = if is_upright {
            (
                at(start) - Vec2::new((aside + tail).copysign(to.x), aside),
                to.x > 0.0,
            )
        } else {
            let middle = apex + Vec2::from_angle(start + sweep / 2.0) * (radius + aside);
            (middle, middle.x < apex.x)
        };
        let anchor = if is_left { Anchor::Right } else { Anchor::Left };
        let line = Vec2::new(0.0, self.by_text(1.25 * TEXT_SIZE));
        let mut spots = vec![
            Spot::new(place, anchor),
            Spot::new(place - line, anchor),
            Spot::new(place + line, anchor),
        ];
        spots.extend(self.shelves_past_arc((apex, radius), legs, tail));
        spots.extend(self.shelves(at(start + sweep / 2.0), 40.0));
        self.wording(Role::Dimension, forms, TEXT_SIZE, spots);
    }
}
