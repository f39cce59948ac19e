//! Paper being drawn on: a pencil that puts marks down, cut, hatched and kept apart.

use std::borrow::Cow;

use kurbo::{Arc, BezPath, Circle, Line, Point, Rect, Shape as _};

use super::cut::shown;
use super::hatch::{Lies, hatch};
use super::hidden::{without_number, without_numbers};
use super::look::{Hatching, Pen};
use super::mark::{Anchor, Mark, Panel};
use super::placer::{Group, LEAST, MINOR, Placed, Placer, Wording};
use super::spot::{LeaderEnd, Spot};
use super::style::{Numbers, Style, Words};
use super::words;
use crate::drawing::scene::Role;

/// Size of ordinary words in paper units, in the window.
pub(in crate::drawing) const TEXT_SIZE: f64 = 13.5;
/// How far a curve cut into dashes, or a hatched outline, may stray, in paper units.
const FLATNESS: f64 = 0.15;

/// A pencil on a rectangle of paper.
#[derive(Debug)]
pub(in crate::drawing) struct Pencil {
    pub(in crate::drawing) style: Style,
    pub(in crate::drawing) window: Rect,
    marks: Vec<(Group, Mark)>,
    /// Words that want a place, which they get when all else is drawn.
    wordings: Vec<Wording>,
    /// What is drawn over the paper afterwards: words keep clear of it.
    reserved: Vec<Rect>,
    /// The group that marks belong to; 0 for none.
    group: Group,
    last_group: Group,
}

impl Pencil {
    pub(in crate::drawing) fn new(style: impl Into<Style>, window: Rect) -> Self {
        Self {
            style: style.into(),
            window,
            marks: Vec::new(),
            wordings: Vec::new(),
            reserved: Vec::new(),
            group: 0,
            last_group: 0,
        }
    }

    /// Keeps words clear of a place.
    pub(in crate::drawing) fn reserve(&mut self, place: Rect) {
        self.reserved.push(place);
    }

    /// The marks, words in front of everything.
    pub(in crate::drawing) fn done(mut self) -> Panel {
        self.place_words();
        if self.style.words == Words::None {
            self.drop_words();
        }
        if self.style.numbers == Numbers::Hidden {
            self.hide_numbers();
        }
        let mut marks: Vec<Mark> = self.marks.into_iter().map(|(_, mark)| mark).collect();
        marks.sort_by_key(|mark| matches!(mark, Mark::Text { .. }));
        Panel {
            style: self.style,
            window: self.window,
            marks,
        }
    }

    /// Drops all words, and what stands and falls with them.
    fn drop_words(&mut self) {
        let is_words = |mark: &Mark| matches!(mark, Mark::Text { .. });
        let with_words = self.marks.iter().filter(|(_, mark)| is_words(mark));
        let groups: Vec<Group> = with_words.map(|(group, _)| *group).collect();
        self.marks.retain(|(group, mark)| {
            let falls = *group != 0 && groups.contains(group);
            !is_words(mark) && !falls
        });
    }

    /// Leaves no number in words that stand at a place of their own; notes about one go.
    fn hide_numbers(&mut self) {
        self.marks.retain_mut(|(_, mark)| match mark {
            Mark::Text { role, text, .. } => match without_number(text) {
                Some(name) if name == *text => true,
                Some(name) if *role != Role::Note => {
                    *text = name;
                    true
                }
                Some(_) | None => false,
            },
            _ => true,
        });
    }

    /// The paper that words set so far take.
    pub(in crate::drawing) fn words_places(&self) -> impl Iterator<Item = Rect> {
        self.marks.iter().filter_map(|(_, mark)| mark.words_place())
    }

    /// Draws what stands and falls with its words.
    pub(super) fn together(&mut self, draw: impl FnOnce(&mut Self)) {
        self.last_group += 1;
        self.group = self.last_group;
        draw(self);
        self.group = 0;
    }

    /// Words in one of their forms at the best of the places they would like, found when all else is
    /// drawn.
    pub(super) fn wording(
        &mut self,
        role: Role,
        forms: Vec<String>,
        plain_size: f64,
        spots: Vec<Spot>,
    ) {
        let forms = self.shown_forms(forms, false);
        self.ranked_wording(role, rank(role), forms, plain_size, spots);
    }

    /// The same for words that are so many times as large as others: what the picture is about.
    pub(super) fn larger_wording(
        &mut self,
        role: Role,
        forms: Vec<String>,
        (plain_size, larger): (f64, f64),
        spots: Vec<Spot>,
    ) {
        let is_subject = larger > 1.0;
        let forms = self.shown_forms(forms, is_subject);
        let rank = if is_subject { SUBJECT } else { rank(role) };
        self.ranked_wording(role, rank, forms, plain_size, spots);
    }

    /// Words that the picture is about, which find their place before all others.
    pub(super) fn first_wording(
        &mut self,
        role: Role,
        forms: Vec<String>,
        plain_size: f64,
        spots: Vec<Spot>,
    ) {
        let forms = self.shown_forms(forms, true);
        self.ranked_wording(role, SUBJECT, forms, plain_size, spots);
    }

    /// What is left of words where numbers are hidden: before they find a place, so that the line to them is
    /// as long as that.
    pub(super) fn shown_forms(&self, forms: Vec<String>, is_subject: bool) -> Vec<String> {
        match self.style.numbers {
            Numbers::Shown => forms,
            Numbers::Hidden => without_numbers(&forms, is_subject),
        }
    }

    /// Words that are left out first where space is short.
    pub(super) fn least_wording(&mut self, role: Role, forms: Vec<String>, spots: Vec<Spot>) {
        let forms = self.shown_forms(forms, false);
        self.ranked_wording(role, LEAST, forms, TEXT_SIZE, spots);
    }

    fn ranked_wording(
        &mut self,
        role: Role,
        rank: u8,
        forms: Vec<String>,
        plain_size: f64,
        spots: Vec<Spot>,
    ) {
        self.wordings.push(Wording {
            role,
            size: self.by_text(plain_size),
            is_strong: is_strong(role),
            forms,
            spots,
            group: self.group,
            rank,
        });
    }

    fn place_words(&mut self) {
        let mut wordings = std::mem::take(&mut self.wordings);
        if wordings.is_empty() {
            return;
        }
        let mut paper = Placer::new(self.window, self.style.text, &self.reserved);
        for (index, (group, mark)) in self.marks.iter().enumerate() {
            paper.keep(mark);
            paper.avoid(mark, |path| self.flattened(path), index, *group);
        }
        wordings.sort_by_key(|wording| wording.rank);
        let mut left_out = Vec::new();
        for wording in &wordings {
            self.group = wording.group;
            match paper.place(wording) {
                Some(placed) => self.set(placed),
                None => left_out.push(wording.group),
            }
        }
        self.marks
            .retain(|(group, _)| *group == 0 || !left_out.contains(group));
    }

    fn set(&mut self, placed: Placed) {
        if let Some([way, shelf]) = placed.leader {
            let mut path = BezPath::new();
            path.move_to(way.p0);
            match placed.about {
                Some(centre) => path.extend(arc_about(centre, way).append_iter(self.curved())),
                None => path.line_to(way.p1),
            }
            // One line as far as it can be.
            if shelf.p1 == way.p1 {
                path.line_to(shelf.p0);
            } else {
                if shelf.p0 != way.p1 {
                    path.move_to(shelf.p0);
                }
                path.line_to(shelf.p1);
            }
            self.stroke(Role::Dimension, &path);
            match placed.end {
                LeaderEnd::Plain => {}
                LeaderEnd::Arrow => self.arrowhead(Role::Dimension, way.p0, way.p0 - way.p1),
                LeaderEnd::Dot => self.leader_dot(way.p0),
            }
        }
        self.put(placed.mark);
    }

    /// The dot in which a line to words ends.
    pub(super) fn leader_dot(&mut self, at: Point) {
        let dot = Circle::new(at, self.by_text(2.2)).to_path(self.curved());
        self.fill(Role::Dimension, &dot);
    }

    fn put(&mut self, mark: Mark) {
        self.marks.push((self.group, mark));
    }

    /// A length given for the window's words, at the size that words have here.
    pub(in crate::drawing) fn by_text(&self, plain: f64) -> f64 {
        self.style.text * plain
    }

    /// How far the arcs of small marks may stray from true ones, in paper units.
    pub(super) fn curved(&self) -> f64 {
        0.01 * self.style.pen
    }

    /// How wide a role's words are at a size given for the window.
    pub(in crate::drawing) fn width_of(&self, role: Role, text: &str, plain_size: f64) -> f64 {
        words::width(text, self.by_text(plain_size), is_strong(role))
    }

    /// A text with no more of it than fits into a width of paper.
    pub(in crate::drawing) fn fitted<'a>(
        &self,
        role: Role,
        text: &'a str,
        plain_size: f64,
        most: f64,
    ) -> Cow<'a, str> {
        words::fitted(text, self.by_text(plain_size), is_strong(role), most)
    }

    /// The longest of some words, from the longest to the shortest, that fit into a width of paper at
    /// a size between two, and the size. None where none of them do.
    pub(in crate::drawing) fn longest_fitting<'a>(
        &self,
        role: Role,
        forms: &'a [String],
        (least, most): (f64, f64),
        room: f64,
    ) -> Option<(&'a str, f64)> {
        forms.iter().find_map(|form| {
            let size = (room / self.width_of(role, form, 1.0)).min(most);
            (size >= least).then_some((form.as_str(), size))
        })
    }

    pub(in crate::drawing) fn line(&mut self, role: Role, from: Point, to: Point) {
        self.stroke(role, &Line::new(from, to).to_path(0.1));
    }

    pub(in crate::drawing) fn stroke(&mut self, role: Role, path: &BezPath) {
        self.stroke_with(role, path, Pen::Outline);
    }

    pub(in crate::drawing) fn stroke_with(&mut self, role: Role, path: &BezPath, pen: Pen) {
        let path = match self.style.theme.look(role).dashes {
            [] => path.clone(),
            dashes => self.dashed(path, dashes),
        };
        if !path.elements().is_empty() {
            self.put(Mark::Stroke { role, path, pen });
        }
    }

    fn dashed(&self, path: &BezPath, dashes: &[f64]) -> BezPath {
        // Only what the paper shows: far in, a whole circle would be some 100 000 dashes.
        let margin = 40.0 * self.style.pen;
        let flat = shown(&self.flattened(path), self.window.inflate(margin, margin));
        let dashes: Vec<f64> = dashes.iter().map(|dash| dash * self.style.pen).collect();
        kurbo::dash(flat.into_iter(), 0.0, &dashes).collect()
    }

    /// Fills with the pen's colour.
    pub(in crate::drawing) fn fill(&mut self, role: Role, outline: &BezPath) {
        self.put(Mark::Fill {
            role,
            path: outline.clone(),
            is_ink: true,
        });
    }

    /// Fills with the fill's colour.
    pub(in crate::drawing) fn body(&mut self, role: Role, outline: &BezPath) {
        self.put(Mark::Fill {
            role,
            path: outline.clone(),
            is_ink: false,
        });
    }

    pub(in crate::drawing) fn text(&mut self, role: Role, at: Point, anchor: Anchor, text: String) {
        self.sized_text(role, at, anchor, TEXT_SIZE, text);
    }

    pub(in crate::drawing) fn sized_text(
        &mut self,
        role: Role,
        at: Point,
        anchor: Anchor,
        plain_size: f64,
        text: String,
    ) {
        self.put(Mark::Text {
            role,
            at,
            anchor,
            size: self.by_text(plain_size),
            is_turned: false,
            is_strong: is_strong(role),
            text,
        });
    }

    pub(in crate::drawing) fn sized_turned_text(
        &mut self,
        role: Role,
        at: Point,
        plain_size: f64,
        text: String,
    ) {
        self.put(Mark::Text {
            role,
            at,
            anchor: Anchor::BottomMiddle,
            size: self.by_text(plain_size),
            is_turned: true,
            is_strong: is_strong(role),
            text,
        });
    }

    pub(in crate::drawing) fn hatching(&mut self, role: Role, outline: &BezPath) {
        self.closer_hatching(role, outline, 1.0);
    }

    /// Hatching with its lines at a part of their usual distance, for small samples.
    pub(in crate::drawing) fn closer_hatching(&mut self, role: Role, outline: &BezPath, part: f64) {
        let Some(mut hatching) = self.style.look(role).hatching else {
            return;
        };
        hatching.spacing *= part;
        self.hatched(role, outline, hatching, Point::ORIGIN);
    }

    /// Hatching that lies so along the ground.
    pub(super) fn moving_hatching(&mut self, role: Role, outline: &BezPath, lies: Lies) {
        if let Some(hatching) = self.style.look(role).hatching {
            self.hatched(role, outline, lies.alike_after(hatching), lies.through);
        }
    }

    fn hatched(&mut self, role: Role, outline: &BezPath, hatching: Hatching, through: Point) {
        let mut path = BezPath::new();
        for line in hatch(&self.flattened(outline), hatching, through, self.window) {
            path.move_to(line.p0);
            path.line_to(line.p1);
        }
        if !path.elements().is_empty() {
            self.put(Mark::Stroke {
                role,
                path,
                pen: Pen::Hatching,
            });
        }
    }

    /// A path in straight pieces.
    pub(super) fn flattened(&self, path: &BezPath) -> BezPath {
        let mut flat = BezPath::new();
        let tolerance = FLATNESS * self.style.pen;
        kurbo::flatten(path.elements().iter().copied(), tolerance, |element| {
            flat.push(element);
        });
        flat
    }
}

/// The shorter arc about a place from one end of a line to the other.
fn arc_about(centre: Point, chord: Line) -> Arc {
    let (from, to) = (chord.p0 - centre, chord.p1 - centre);
    let turn = from.cross(to).atan2(from.dot(to));
    let radius = from.hypot();
    Arc::new(centre, (radius, radius), from.atan2(), turn, 0.0)
}

/// Whether a role's words are heavier.
const fn is_strong(role: Role) -> bool {
    matches!(
        role,
        Role::Heading
            | Role::Clip
            | Role::Dimension
            | Role::BelowCut(_)
            | Role::Worst(_)
            | Role::Overlay(_)
    )
}

/// The rank of what a picture is about, which finds its place first.
const SUBJECT: u8 = 0;

/// Whose words are placed first: the lowest.
const fn rank(role: Role) -> u8 {
    match role {
        // The sweep is the point of the picture.
        Role::Overlay(_) | Role::BelowCut(_) => SUBJECT,
        Role::Worst(_) | Role::Level(_) => 1,
        Role::Dimension | Role::Heading => 2,
        // The names of the parts, by which a unit is recognised.
        Role::Clip | Role::ReelBody | Role::Knife | Role::Bar | Role::Roller => 3,
        Role::CutLine | Role::Vertical => 4,
        _ => MINOR,
    }
}
