//! The picture of a lesson's step: one unit or two, what is held still in one place over all the steps that
//! show the same.

use kurbo::{Point, Rect, TranslateScale};

use super::seen::{Seen, halves};
use super::view_picture::{NoPicture, PictureView, clip_on_paper};
use crate::analysis::{NumberId, Solved};
use crate::drawing::paper::{Anchor, Mark, Numbers, Panel, Pen, Pencil, Style};
use crate::drawing::pictures::{AtLip, Hold, MotionOf, Subject};
use crate::drawing::scene::Role;
use crate::lesson::{
    Emphasis, Figure, FigureOf, Held, Lesson, LessonView, SingleView, SolvedStep, Step, StepMove,
    StepProblem, Whose,
};

/// How many times as wide as usual the lines of what is emphasised are.
const STRONG: f64 = 2.2;
/// Paper for the words over each of two pictures side by side.
const OVER: f64 = 20.0;
/// Size of these words, and the paper that a line of them takes below.
const WORDS: f64 = 13.0;
const UNDER: f64 = 18.0;
/// Edges that stand so near one height, in millimetres, stand over one ground line.
const SAME_GROUND_MM: f64 = 1e-3;
/// What is told of two that are held by their edges over ground of two heights, in as many words as there is
/// room for.
const HELD_BY_EDGES: [&str; 2] = [
    "Drawn with both edges at one level: the ground lines are not.",
    "Edges at one level, ground not.",
];

/// What a step shows of each of its units.
fn view_of(step: &Step) -> PictureView {
    let view = match step.view {
        LessonView::Whole | LessonView::SideBySide(SingleView::Whole) => PictureView::Whole,
        LessonView::Lens | LessonView::SideBySide(SingleView::Lens) => PictureView::Lens,
        LessonView::Ground | LessonView::SideBySide(SingleView::Ground) => PictureView::Ground,
        LessonView::Budget | LessonView::SideBySide(SingleView::Budget) => PictureView::Budget,
        LessonView::Path => PictureView::Path,
        LessonView::Map => PictureView::Map,
    };
    if step.turns() {
        PictureView::Motion
    } else {
        view
    }
}

fn motion_of(step: &Step) -> MotionOf {
    if step.is_of_one_blade() {
        MotionOf::OneBlade
    } else {
        MotionOf::Mowing
    }
}

fn hold_of(held: Held) -> Hold {
    match held {
        Held::Ground => Hold::Ground,
        Held::Edge => Hold::Edge,
        Held::Screws => Hold::Screws,
        Held::ReelCentre => Hold::ReelCentre,
    }
}

fn is_side_by_side(step: &Step) -> bool {
    matches!(step.view, LessonView::SideBySide(_))
}

/// Whether two steps show the same kind of picture, at one scale and with the same held still.
fn are_alike(one: &Step, other: &Step) -> bool {
    view_of(one) == view_of(other)
        && motion_of(one) == motion_of(other)
        && one.held == other.held
        && is_side_by_side(one) == is_side_by_side(other)
        && at_lip(one) == at_lip(other)
}

/// What a lens measures at the knife's lip: it looks there where the knife is emphasised and the sweep is not.
fn at_lip(step: &Step) -> Option<AtLip> {
    let is_strong = |what| step.emphasis.contains(&what);
    let shows = |number| {
        let of_either = [Whose::First, Whose::Second].map(|whose| FigureOf {
            whose,
            figure: Figure::Number(number),
        });
        of_either.into_iter().any(|figure| step.hides(figure))
    };
    (is_strong(Emphasis::Knife) && !is_strong(Emphasis::Sweep)).then(|| AtLip {
        underside: shows(NumberId::UndersideOverPlate),
        relief: shows(NumberId::TopAngleNeeded),
    })
}

/// What a step's picture makes the most of: the number that it emphasises, or else the first of its large ones
/// that pictures have.
fn subject(step: &Step) -> Subject {
    let is_strong = |what: &Emphasis| step.emphasis.contains(what);
    let emphasised = Emphasis::ALL.iter().filter(|what| is_strong(what));
    let mut emphasised = emphasised.filter_map(|what| match what {
        Emphasis::Sweep => Some(Subject::Sweep),
        Emphasis::BehindCentre => Some(Subject::BehindCentre),
        Emphasis::HeightOfCut => Some(Subject::HeightOfCut),
        Emphasis::Ground if step.view == LessonView::Ground => Some(Subject::ReelToSoil),
        Emphasis::Ground | Emphasis::Knife | Emphasis::Reel | Emphasis::Rollers => None,
    });
    let mut numbers = step.large().filter_map(|of| match of.figure {
        Figure::Number(NumberId::SweepBelowCut | NumberId::SweepShare) | Figure::SweepInSheets => {
            Some(Subject::Sweep)
        }
        Figure::Number(NumberId::BehindCentre) => Some(Subject::BehindCentre),
        Figure::Number(NumberId::HeightOfCut) => Some(Subject::HeightOfCut),
        Figure::Number(NumberId::ReelOnGround) | Figure::ReelIntoSoil => Some(Subject::ReelToSoil),
        _ => None,
    });
    // Where it says no more than its unit, the sweep is what a picture is for.
    let says_no_more = step.emphasis.is_empty() && !step.numbers_hidden;
    let otherwise = if says_no_more {
        Subject::Sweep
    } else {
        Subject::NoNumber
    };
    let strongest = emphasised.next().or_else(|| numbers.next());
    strongest.unwrap_or(otherwise)
}

/// The pictures of a lesson's steps.
#[derive(Clone, Copy, Debug)]
pub struct LessonPictures<'a> {
    /// The lesson.
    pub lesson: &'a Lesson,
    /// Its steps, solved or not, in the same order.
    pub steps: &'a [Result<SolvedStep, StepProblem>],
    /// Where the reel stands that turns, so many clips after the first.
    pub clips: f64,
}

impl<'a> LessonPictures<'a> {
    /// Draws the picture of a step in a rectangle of paper.
    ///
    /// # Errors
    /// When the step's unit has no such picture.
    pub fn panels(
        &self,
        step: &Step,
        solved: &SolvedStep,
        place: Rect,
        style: Style,
    ) -> Result<Vec<Panel>, NoPicture> {
        self.panels_through(step, solved, TranslateScale::default(), (place, style))
    }

    /// The same; where two stand side by side, both are looked at through a glass, which lies over the left
    /// one.
    ///
    /// # Errors
    /// When the step's unit has no such picture.
    pub fn panels_through(
        &self,
        step: &Step,
        solved: &SolvedStep,
        glass: TranslateScale,
        (place, style): (Rect, Style),
    ) -> Result<Vec<Panel>, NoPicture> {
        let seen = Seen {
            view: view_of(step),
            motion: motion_of(step),
            hold: hold_of(step.held),
            is_pair: Self::are_two(step, solved),
            alike: self.alike(step),
            subject: subject(step),
            lens: None,
            at_lip: at_lip(step),
            is_scale_of_row: false,
            system: None,
            style,
            clips: self.clips,
        };
        let mut panels = match &solved.second {
            Some(second) if is_side_by_side(step) => {
                side_by_side(seen, step, [&solved.first, second], (place, glass))?
            }
            _ => seen.unit(&solved.first, place)?,
        };
        for panel in &mut panels {
            strengthen(panel, &step.emphasis);
        }
        Ok(panels)
    }

    /// Whether a step shows two units side by side.
    #[must_use]
    pub fn are_two(step: &Step, solved: &SolvedStep) -> bool {
        is_side_by_side(step) && solved.second.is_some()
    }

    /// How wide a clip of the step's unit is in its picture in motion, or in the half of it that it has, in
    /// paper units; zero where the unit's speeds are not known.
    #[must_use]
    pub fn clip_on_paper(&self, step: &Step, solved: &SolvedStep, place: Rect) -> f64 {
        clip_on_paper(&solved.first, &self.alike(step), motion_of(step), place)
    }

    /// How the picture of one step moves to that of another, by their places; none where they are pictures
    /// of another kind, or what is drawn cannot move.
    #[must_use]
    pub fn step_move(&self, from: usize, to: usize) -> Option<StepMove<'a>> {
        let step = |at: usize| {
            Some((
                self.lesson.steps.get(at)?,
                self.steps.get(at)?.as_ref().ok()?,
            ))
        };
        let ((from, from_solved), (to, to_solved)) = (step(from)?, step(to)?);
        let is_drawing = !matches!(view_of(to), PictureView::Budget | PictureView::Map);
        let moved = StepMove::of(from_solved, to_solved, is_side_by_side(to));
        (is_drawing && are_alike(from, to)).then_some(moved)
    }

    /// Every unit that a step like this one shows: seen at one scale, what is held in one place.
    fn alike(&self, step: &Step) -> Vec<&'a Solved> {
        let steps = self.lesson.steps.iter().zip(self.steps);
        let steps = steps.filter(|(other, _)| are_alike(other, step));
        let solved = steps.filter_map(|(_, solved)| solved.as_ref().ok());
        let both = solved.flat_map(|solved| {
            let second = solved.second.as_ref().filter(|_| is_side_by_side(step));
            std::iter::once(&solved.first).chain(second)
        });
        both.collect()
    }
}

/// The paper of two side by side: words over both, and a line under them where they are held by their edges
/// over ground of two heights.
#[derive(Clone, Copy, Debug, Default)]
pub struct PairPaper {
    has_two_grounds: bool,
}

impl PairPaper {
    /// The paper of a step's two units.
    #[must_use]
    pub fn of(step: &Step, units: [&Solved; 2]) -> Self {
        let [one, other] = units.map(|unit| unit.solution.pose.edge_on_plate.y);
        let is_drawing = !matches!(view_of(step), PictureView::Budget | PictureView::Map);
        let is_by_edges = is_drawing && step.held == Held::Edge;
        Self {
            has_two_grounds: is_by_edges && (one - other).abs() > SAME_GROUND_MM,
        }
    }

    /// Where the two stand, the left one first.
    #[must_use]
    pub fn halves(self, place: Rect, style: Style) -> [Rect; 2] {
        halves(self.pictures(place, style))
    }

    fn pictures(self, place: Rect, style: Style) -> Rect {
        let under = if self.has_two_grounds { UNDER } else { 0.0 };
        Rect {
            y0: place.y0 + OVER * style.text,
            y1: place.y1 - under * style.text,
            ..place
        }
    }
}

/// Two units on one line and at one scale, what differs written over each.
fn side_by_side(
    seen: Seen,
    step: &Step,
    units: [&Solved; 2],
    (place, glass): (Rect, TranslateScale),
) -> Result<Vec<Panel>, NoPicture> {
    let paper = PairPaper::of(step, units);
    let below = paper.pictures(place, seen.style);
    let over = below.y0;
    // What is set stays in view while the numbers are hidden: it is what the question is about.
    let style = Style {
        numbers: Numbers::Shown,
        ..seen.style
    };
    let are_hidden = seen.style.numbers == Numbers::Hidden;
    let is_asked = |number| {
        let of_either = [Whose::First, Whose::Second].map(|whose| FigureOf {
            whose,
            figure: Figure::Number(number),
        });
        are_hidden && of_either.into_iter().any(|of| step.hides(of))
    };
    let mut panels = seen.in_halves_through(units, below, glass)?;
    let mut words = Pencil::new(style, place);
    for (half, told) in halves(below).into_iter().zip(differences(units, is_asked)) {
        let told = words.fitted(Role::Heading, &told, WORDS, half.width());
        let (told, at) = (
            told.into_owned(),
            Point::new(half.x0, place.y0.midpoint(over)),
        );
        words.sized_text(Role::Heading, at, Anchor::Left, WORDS, told);
    }
    if paper.has_two_grounds {
        let fits = |told: &&&str| words.width_of(Role::Note, told, WORDS) <= place.width();
        let told = HELD_BY_EDGES.iter().find(fits);
        let told = told.unwrap_or(&HELD_BY_EDGES[1]);
        let at = Point::new(place.x0, place.y1.midpoint(below.y1));
        words.sized_text(Role::Note, at, Anchor::Left, WORDS, (*told).to_owned());
    }
    panels.push(words.done());
    Ok(panels)
}

/// What two units differ in, of what is set and of what they are called; a number that is asked for is not
/// among it.
fn differences(units: [&Solved; 2], is_asked: impl Fn(NumberId) -> bool) -> [String; 2] {
    const SET: [NumberId; 4] = [
        NumberId::HeightOfCut,
        NumberId::Attitude,
        NumberId::ReelDiameter,
        NumberId::Extension,
    ];
    let mut told = [Vec::new(), Vec::new()];
    let knives = units.map(|unit| unit.document.fitted_name());
    if knives[0] != knives[1] {
        for (told, knife) in told.iter_mut().zip(knives) {
            told.push(format!("knife \"{knife}\""));
        }
    }
    // How far its reach carries the edge goes with the knife.
    let is_set_alike = units[0].unit.setting.extension == units[1].unit.setting.extension;
    let goes_with_knife = knives[0] != knives[1] && is_set_alike;
    let set = SET
        .into_iter()
        .filter(|id| !(is_asked(*id) || goes_with_knife && *id == NumberId::Extension));
    for id in set {
        let shown = |unit: &Solved, system| unit.solution.numbers().shown(id, system);
        // Measured in other units, the same length is no difference.
        let [left, right] = units.map(|unit| shown(unit, units[0].unit.system));
        if left != right {
            for (told, unit) in told.iter_mut().zip(units) {
                let shown = shown(unit, unit.unit.system).unwrap_or_default();
                told.push(format!("{} {shown}", id.name()));
            }
        }
    }
    if told[0].is_empty() {
        return ["left".to_owned(), "right".to_owned()];
    }
    told.map(|told| told.join(", "))
}

/// Draws what is emphasised with wider lines.
fn strengthen(panel: &mut Panel, emphasis: &[Emphasis]) {
    for mark in &mut panel.marks {
        if let Mark::Stroke { role, pen, .. } = mark
            && *pen == Pen::Outline
            && emphasis.iter().any(|what| is_of(*what, *role))
        {
            *pen = Pen::Wide(STRONG);
        }
    }
}

fn is_of(what: Emphasis, role: Role) -> bool {
    match what {
        Emphasis::Sweep => matches!(role, Role::BelowCut(_)),
        Emphasis::BehindCentre => role == Role::Vertical,
        Emphasis::HeightOfCut => role == Role::CutLine,
        Emphasis::Knife => role == Role::Knife,
        Emphasis::Reel => matches!(role, Role::TipCircle | Role::ReelRim),
        Emphasis::Rollers => role == Role::Roller,
        Emphasis::Ground => matches!(role, Role::Plate | Role::Soil),
    }
}
