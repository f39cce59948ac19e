//! Finding places for words: each has places it would like and shorter forms, and none is set on
//! another or over the border of its paper. What finds no place is left out, with the lines that
//! belong to it.

use kurbo::{BezPath, Line, PathSeg, Point, Rect, Shape as _, Size, Vec2};

use super::cut::cut_to;
use super::look::Pen;
use super::mark::{Anchor, Mark};
use super::spot::{LeaderEnd, OVER_SHELF, Spot};
use super::words;
use crate::drawing::scene::Role;

/// Paper between words and others, and between words and the border.
const APART: f64 = 3.0;
const BORDER: f64 = 3.0;
/// Height that a line of words needs, in parts of its size.
const LINE: f64 = 1.24;

/// The part that lines count which belong to the words themselves.
const OWN: f64 = 0.5;

/// From this rank on words are left out rather than set where they cost more.
pub(super) const MINOR: u8 = 5;
/// The rank of what is left out first.
pub(super) const LEAST: u8 = 6;
const MOST_FOR_MINOR: f64 = 11.0;

/// What it costs to lead a line across one that weighs so much or more.
const CROSSED: f64 = 1.5;
const LEAST_CROSSED: f64 = 2.0;

/// A line to words that is longer than this costs so much for each unit of paper: words stand near what
/// they name.
const NEAR: f64 = 30.0;
const FAR: f64 = 0.07;
/// What it costs to lead a line to words that is flatter than this, so that it reads as one of the ground's
/// or a part's.
const FLAT: f64 = 2.0;
const FLAT_SLOPE: f64 = 0.3;

/// Which marks belong together: words that find no place take the rest with them.
pub(super) type Group = u32;

/// Words that want a place.
#[derive(Clone, Debug)]
pub(super) struct Wording {
    pub(super) role: Role,
    pub(super) size: f64,
    pub(super) is_strong: bool,
    /// From the whole to the shortest that still says it.
    pub(super) forms: Vec<String>,
    /// From the best to the least.
    pub(super) spots: Vec<Spot>,
    pub(super) group: Group,
    /// What is placed first has the lowest.
    pub(super) rank: u8,
}

/// Words that found their place.
#[derive(Debug)]
pub(super) struct Placed {
    pub(super) mark: Mark,
    /// The line that leads to them, and their shelf.
    pub(super) leader: Option<[Line; 2]>,
    /// The line that leads there is an arc about this place.
    pub(super) about: Option<Point>,
    pub(super) end: LeaderEnd,
}

/// Hatching, on which words read worse than beside it.
#[derive(Debug)]
struct Hatched {
    place: Rect,
    lines: Vec<Line>,
    weight: f64,
}

/// The body of a part, on which the words of others read as its own.
#[derive(Debug)]
struct Body {
    place: Rect,
    outline: BezPath,
    role: Role,
    weight: f64,
}

/// A line that words had better not cover.
#[derive(Clone, Copy, Debug)]
struct Obstacle {
    line: Line,
    /// Lines of one mark count once.
    mark: usize,
    group: Group,
    weight: f64,
}

/// Paper with words on it.
#[derive(Debug)]
pub(super) struct Placer {
    window: Rect,
    /// How large words and what is set out against them are.
    text: f64,
    taken: Vec<Rect>,
    obstacles: Vec<Obstacle>,
    hatched: Vec<Hatched>,
    bodies: Vec<Body>,
    leaders: Vec<Line>,
}

impl Placer {
    pub(super) fn new(window: Rect, text: f64, reserved: &[Rect]) -> Self {
        Self {
            window,
            text,
            taken: reserved.to_vec(),
            obstacles: Vec::new(),
            hatched: Vec::new(),
            bodies: Vec::new(),
            leaders: Vec::new(),
        }
    }

    /// Keeps words clear of what stands there already.
    pub(super) fn keep(&mut self, mark: &Mark) {
        if let Some(place) = mark.words_place() {
            self.taken.push(place);
        }
    }

    /// Lines of a mark that words had better not cover.
    pub(super) fn avoid(
        &mut self,
        mark: &Mark,
        flattened: impl FnOnce(&BezPath) -> BezPath,
        index: usize,
        group: Group,
    ) {
        if let Mark::Stroke {
            role,
            path,
            pen: Pen::Hatching,
        } = mark
        {
            self.hatched.push(Hatched {
                place: path.bounding_box(),
                lines: lines_of(path).collect(),
                weight: hatching_weight(*role),
            });
        }
        let window = self.window;
        if let Mark::Fill {
            role,
            path,
            is_ink: false,
        } = mark
            && let Some(weight) = body_weight(*role)
            && path.bounding_box().overlaps(window)
        {
            let outline = flattened(path);
            self.bodies.push(Body {
                place: outline.bounding_box(),
                outline,
                role: *role,
                weight,
            });
            return;
        }
        let (Some(weight), Mark::Stroke { path, .. }) = (weight(mark), mark) else {
            return;
        };
        let flat = flattened(path);
        let lines = lines_of(&flat).filter(|line| crosses(*line, window));
        self.obstacles.extend(lines.map(|line| Obstacle {
            line,
            mark: index,
            group,
            weight,
        }));
    }

    /// Finds a place for words and takes it; none where there is none.
    pub(super) fn place(&mut self, wording: &Wording) -> Option<Placed> {
        let mut best: Option<(f64, &String, Rect, Spot)> = None;
        for (shorter, form) in wording.forms.iter().enumerate() {
            let along = words::width(form, wording.size, wording.is_strong);
            // What the whole text has no free place for, a shorter one may; it had better be whole.
            let mut cost_of_form = 5.0 * f64::from(u32::try_from(shorter).unwrap_or(u32::MAX));
            for spot in &wording.spots {
                if best.as_ref().is_some_and(|(had, ..)| *had <= cost_of_form) {
                    break;
                }
                if let Some((spot, place)) = self.fitting(spot, along, wording.size)
                    && let Some(covered) = self.covered(place, &spot, wording)
                {
                    let cost = cost_of_form + covered;
                    if best.as_ref().is_none_or(|(had, ..)| cost < *had) {
                        best = Some((cost, form, place, spot));
                    }
                }
                cost_of_form += spot.step;
            }
        }
        let (cost, form, place, spot) = best?;
        // Minor words do not push in between others, nor stand far off.
        if wording.rank >= MINOR && cost > MOST_FOR_MINOR {
            return None;
        }
        self.taken.push(place);
        let leader = spot
            .leader
            .map(|from| leader_to(from, place, &spot, wording.size));
        self.leaders.extend(leader.into_iter().flatten());
        let mark = Mark::Text {
            role: wording.role,
            at: spot.at,
            anchor: spot.anchor,
            size: wording.size,
            is_turned: spot.is_turned,
            is_strong: wording.is_strong,
            text: form.clone(),
        };
        Some(Placed {
            mark,
            leader,
            about: spot.about,
            end: spot.end,
        })
    }

    /// A place with the paper its words take, moved across if it may; none where they leave the paper.
    fn fitting(&self, spot: &Spot, along: f64, size: f64) -> Option<(Spot, Rect)> {
        if along > spot.most {
            return None;
        }
        let border = self.text * BORDER;
        let inner = self.window.inset(-border);
        let mut spot = *spot;
        let mut place = place_of(&spot, along, size);
        if spot.may_slide && inner.width() > place.width() {
            let by = (inner.x0 - place.x0).max(0.0) + (inner.x1 - place.x1).min(0.0);
            spot.at.x += by;
            place = place + Vec2::new(by, 0.0);
        }
        let is_inside = inner.x0 <= place.x0
            && place.x1 <= inner.x1
            && inner.y0 <= place.y0
            && place.y1 <= inner.y1;
        is_inside.then_some((spot, place))
    }

    /// What the words would cover; none where that may not be.
    fn covered(&self, place: Rect, spot: &Spot, wording: &Wording) -> Option<f64> {
        let apart = self.text * APART;
        let room = place.inflate(apart, 0.3 * apart);
        if self.taken.iter().any(|other| other.overlaps(room)) {
            return None;
        }
        if self.leaders.iter().any(|line| crosses(*line, room)) {
            return None;
        }
        // The shelf under words is a line by itself.
        let mut beside = place.inflate(0.0, 0.5 * apart);
        if spot.leader.is_some() && !spot.is_turned {
            beside.y1 = spot.at.y + OVER_SHELF * wording.size + apart;
        }
        let mut weights = 0.0;
        let mut last = usize::MAX;
        for obstacle in &self.obstacles {
            if obstacle.mark != last && crosses(obstacle.line, beside) {
                last = obstacle.mark;
                // Its own lines show what is covered of them.
                let is_own = obstacle.group != 0 && obstacle.group == wording.group;
                weights += obstacle.weight * if is_own { OWN } else { 1.0 };
            }
        }
        for hatched in &self.hatched {
            if hatched.place.overlaps(place)
                && hatched.lines.iter().any(|line| crosses(*line, place))
            {
                weights += hatched.weight;
            }
        }
        for body in &self.bodies {
            if body.role != wording.role && body.is_under(place) {
                weights += body.weight;
            }
        }
        if let Some(from) = spot.leader {
            let lines = leader_to(from, place, spot, wording.size);
            let is_over = |line: &Line| self.taken.iter().any(|other| crosses(*line, *other));
            if lines.iter().any(is_over) {
                return None;
            }
            let crossed = self.leaders.iter().filter(|other| meet(**other, lines[0]));
            let crossed = u32::try_from(crossed.count()).unwrap_or(u32::MAX);
            weights += 6.0 * f64::from(crossed);
            weights += self.crossed(lines[0], wording.group);
            weights += self.led(lines[0]);
        }
        Some(weights)
    }
}

impl Placer {
    /// How bad a line to words is by itself: long, or flat and no level line drawn on.
    fn led(&self, leader: Line) -> f64 {
        let way = leader.p1 - leader.p0;
        let long = FAR * (way.hypot() / self.text - NEAR).max(0.0);
        let is_flat = way.y.abs() < FLAT_SLOPE * way.x.abs();
        if is_flat && way.y.abs() > 1e-6 {
            long + FLAT
        } else {
            long
        }
    }

    /// How bad it is to lead a line to words across what is drawn.
    fn crossed(&self, leader: Line, group: Group) -> f64 {
        let mut weights = 0.0;
        let mut last = usize::MAX;
        for obstacle in &self.obstacles {
            let is_own = obstacle.group != 0 && obstacle.group == group;
            let counts = !is_own && obstacle.weight >= LEAST_CROSSED && obstacle.mark != last;
            if counts && meet(obstacle.line, leader) {
                last = obstacle.mark;
                weights += CROSSED;
            }
        }
        weights
    }
}

impl Body {
    /// Whether words at a place would stand on the body.
    fn is_under(&self, place: Rect) -> bool {
        let corners = [
            (place.x0, place.y0),
            (place.x1, place.y0),
            (place.x0, place.y1),
            (place.x1, place.y1),
        ];
        let corners = corners.into_iter().map(Point::from);
        let mut places = corners.chain([place.center()]);
        self.place.overlaps(place)
            && (places.any(|place| self.outline.winding(place) != 0)
                || lines_of(&self.outline).any(|line| crosses(line, place)))
    }
}

/// From the place that is labelled to the shelf, and the shelf.
fn leader_to(from: Point, place: Rect, spot: &Spot, size: f64) -> [Line; 2] {
    if spot.is_turned {
        let x = spot.at.x + OVER_SHELF * size;
        let (near, far) = if spot.anchor == Anchor::Right {
            (place.y0, place.y1)
        } else {
            (place.y1, place.y0)
        };
        let (near, far) = (Point::new(x, near), Point::new(x, far));
        return [Line::new(from, near), Line::new(near, far)];
    }
    let y = spot.at.y + OVER_SHELF * size;
    let shelf = Line::new((place.x0, y), (place.x1, y));
    if spot.is_tee && (place.x0..=place.x1).contains(&from.x) {
        return [Line::new(from, (from.x, y)), shelf];
    }
    // Words that moved across to stay on the paper are met at the end that is near.
    let is_near_right = (place.x1 - from.x).abs() < (place.x0 - from.x).abs();
    let near = if is_near_right { shelf.p1 } else { shelf.p0 };
    [Line::new(from, near), shelf]
}

/// The paper that words take at a place.
fn place_of(spot: &Spot, along: f64, size: f64) -> Rect {
    let (across, down) = spot.anchor.part();
    let (size, part) = if spot.is_turned {
        (Size::new(LINE * size, along), (down, 1.0 - across))
    } else {
        (Size::new(along, LINE * size), (across, down))
    };
    let corner = spot.at - Vec2::new(part.0 * size.width, part.1 * size.height);
    Rect::from_origin_size(corner, size)
}

/// How bad it is to cover a mark with words; none where it does not matter.
fn weight(mark: &Mark) -> Option<f64> {
    let Mark::Stroke { role, pen, .. } = mark else {
        return None;
    };
    if *pen == Pen::Hatching {
        return None;
    }
    Some(match role {
        Role::BelowCut(_) => 8.0,
        Role::Clip
        | Role::Dimension
        | Role::LensFrame
        | Role::Vertical
        | Role::Plate
        | Role::Soil => 4.0,
        // A note's strokes are the arrows of travel and of turning.
        Role::Note => 9.0,
        Role::CutLine => 2.5,
        Role::Knife | Role::Hardware | Role::Worst(_) => 2.0,
        Role::Overlay(_) | Role::Setting => 1.5,
        Role::CentreLine | Role::Datum => 1.0,
        Role::Blade => 4.5,
        Role::ReelRim | Role::TipCircle | Role::Bar | Role::Roller | Role::Band => 0.6,
        Role::Frame | Role::Ghost | Role::Hint => 0.3,
        Role::Heading
        | Role::Turf
        | Role::ReelBody
        | Role::Forbidden(_)
        | Role::Usable
        | Role::Paper
        | Role::Level(_) => return None,
    })
}

/// How bad it is to set words on a role's hatching.
fn hatching_weight(role: Role) -> f64 {
    match role {
        Role::Plate | Role::Soil => 3.0,
        Role::Forbidden(_) => 0.0,
        _ => 2.5,
    }
}

/// How bad it is to set words on a part that they do not name; none where it does not matter.
fn body_weight(role: Role) -> Option<f64> {
    match role {
        Role::Blade => Some(9.0),
        Role::Roller => Some(12.0),
        Role::Knife | Role::Bar | Role::Hardware => Some(2.5),
        _ => None,
    }
}

/// The straight pieces of a path that has no others.
fn lines_of(path: &BezPath) -> impl Iterator<Item = Line> {
    path.segments().filter_map(|segment| match segment {
        PathSeg::Line(line) => Some(line),
        _ => None,
    })
}

/// Whether a line runs through a rectangle (Liang and Barsky, 1984).
fn crosses(line: Line, place: Rect) -> bool {
    if line.p0.x.max(line.p1.x) < place.x0
        || line.p0.x.min(line.p1.x) > place.x1
        || line.p0.y.max(line.p1.y) < place.y0
        || line.p0.y.min(line.p1.y) > place.y1
    {
        return false;
    }
    cut_to(line, place).is_some()
}

/// Whether two lines cross.
fn meet(one: Line, other: Line) -> bool {
    let side = |line: Line, point: Point| (line.p1 - line.p0).cross(point - line.p0);
    side(one, other.p0) * side(one, other.p1) < 0.0
        && side(other, one.p0) * side(other, one.p1) < 0.0
}
