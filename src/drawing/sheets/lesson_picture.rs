//! The picture of a lesson's step: one unit or two, what is held still in one place over all the steps that
//! show the same.

use kurbo::{Point, Rect};

use super::view_picture::{NoPicture, budgets, motion_panel, path, window_map};
use crate::analysis::{NumberId, Solved};
use crate::drawing::paper::{Anchor, Mark, Panel, Pen, Pencil, Style, View};
use crate::drawing::pictures::{Canvas, Hold, Lens, LensChoice, SideView, Standing};
use crate::drawing::scene::Role;
use crate::lesson::{
    Emphasis, Held, Lesson, LessonView, SingleView, SolvedStep, Step, StepMove, StepProblem,
};

/// How many times as wide as usual the lines of what is emphasised are.
const STRONG: f64 = 2.2;
/// Paper between two pictures side by side, and for the words over each.
const BETWEEN: f64 = 12.0;
const OVER: f64 = 20.0;
/// Size of these words.
const WORDS: f64 = 13.0;

/// What a step shows of each of its units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Whole,
    Ground,
    Lens,
    Motion,
    Path,
    Budget,
    Map,
}

impl Kind {
    fn of(step: &Step) -> Self {
        let kind = match step.view {
            LessonView::Whole | LessonView::SideBySide(SingleView::Whole) => Self::Whole,
            LessonView::Lens | LessonView::SideBySide(SingleView::Lens) => Self::Lens,
            LessonView::Ground | LessonView::SideBySide(SingleView::Ground) => Self::Ground,
            LessonView::Budget | LessonView::SideBySide(SingleView::Budget) => Self::Budget,
            LessonView::Path => Self::Path,
            LessonView::Map => Self::Map,
        };
        // What turns is seen where the reel is.
        let has_reel = !matches!(kind, Self::Budget | Self::Map);
        if step.motion && has_reel {
            Self::Motion
        } else {
            kind
        }
    }

    fn standing(self) -> Standing {
        if self == Self::Ground {
            Standing::Turf
        } else {
            Standing::Plate
        }
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
    Kind::of(one) == Kind::of(other)
        && one.held == other.held
        && is_side_by_side(one) == is_side_by_side(other)
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
        let seen = Seen {
            kind: Kind::of(step),
            hold: hold_of(step.held),
            alike: self.alike(step),
            style,
            clips: self.clips,
        };
        let mut panels = match &solved.second {
            Some(second) if is_side_by_side(step) => {
                seen.side_by_side([&solved.first, second], place)?
            }
            _ => seen.unit(&solved.first, place)?,
        };
        for panel in &mut panels {
            strengthen(panel, &step.emphasis);
        }
        Ok(panels)
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
        let moves = !matches!(Kind::of(to), Kind::Budget | Kind::Map);
        let moved = StepMove::of(from_solved, to_solved, is_side_by_side(to));
        (moves && are_alike(from, to)).then_some(moved)
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

/// How the units of a step are seen.
struct Seen<'a> {
    kind: Kind,
    hold: Hold,
    alike: Vec<&'a Solved>,
    style: Style,
    clips: f64,
}

impl Seen<'_> {
    fn side_view<'s>(&self, solved: &'s Solved) -> SideView<'s> {
        SideView {
            standing: self.kind.standing(),
            uncertainty: None,
            ghost: None,
            ..SideView::of(solved)
        }
    }

    fn unit(&self, solved: &Solved, place: Rect) -> Result<Vec<Panel>, NoPicture> {
        let system = solved.unit.system;
        Ok(match self.kind {
            Kind::Whole | Kind::Ground => self.whole(solved, place),
            Kind::Lens => vec![self.lens(solved, place)],
            Kind::Motion => vec![motion_panel(solved, self.clips, place, self.style)?],
            Kind::Path => path(solved, system, place, self.style)?,
            Kind::Budget => budgets(solved, system, place, self.style),
            Kind::Map => window_map(solved, system, place, self.style),
        })
    }

    fn whole(&self, solved: &Solved, place: Rect) -> Vec<Panel> {
        // What every like step shows, told from what is held still.
        let from_held = |solved: &Solved| {
            let view = self.side_view(solved);
            view.bounds() - self.hold.place(&view.case).to_vec2()
        };
        let all = self.alike.iter().map(|solved| from_held(solved));
        let bounds = all.fold(from_held(solved), |all, next| all.union(next));
        let view = self.side_view(solved);
        let bounds = bounds + self.hold.place(&view.case).to_vec2();
        let canvas = Canvas {
            whole: View::fitting(bounds, place),
            lens: None,
        };
        canvas.panels(&view.scene(), self.style)
    }

    fn lens(&self, solved: &Solved, place: Rect) -> Panel {
        let view = self.side_view(solved);
        let fitted = |solved: &Solved| {
            let (choice, system) = (LensChoice::default(), solved.unit.system);
            Lens::on(&solved.solution, choice, place, system)
        };
        let least = self.alike.iter().map(|solved| fitted(solved).enlargement());
        let least = least.fold(fitted(solved).enlargement(), f64::min);
        let choice = LensChoice {
            enlargement: Some(least),
            ..LensChoice::default()
        };
        // Aimed at the first of them, so that what is held stays in its place.
        let first = self.alike.first().copied().unwrap_or(solved);
        let system = view.system;
        let aim = Lens::on(&first.solution, choice, place, system).aim(self.hold, &first.case());
        let lens = Lens::aimed(aim, &view.case, 1.0, place, system);
        lens.panel(&view.scene(), self.style)
    }

    /// Two units on one line and at one scale, what differs written over each.
    fn side_by_side(&self, units: [&Solved; 2], place: Rect) -> Result<Vec<Panel>, NoPicture> {
        let middle = place.center().x;
        let over = place.y0 + OVER * self.style.text;
        let halves = [
            Rect::new(place.x0, over, middle - BETWEEN / 2.0, place.y1),
            Rect::new(middle + BETWEEN / 2.0, over, place.x1, place.y1),
        ];
        let mut panels = Vec::new();
        let mut words = Pencil::new(self.style, place);
        for ((solved, half), told) in units.into_iter().zip(halves).zip(differences(units)) {
            panels.extend(self.unit(solved, half)?);
            let told = words.fitted(Role::Heading, &told, WORDS, half.width());
            let (told, at) = (
                told.into_owned(),
                Point::new(half.x0, place.y0.midpoint(over)),
            );
            words.sized_text(Role::Heading, at, Anchor::Left, WORDS, told);
        }
        panels.push(words.done());
        Ok(panels)
    }
}

/// What two units differ in, of what is set and of what they are called.
fn differences(units: [&Solved; 2]) -> [String; 2] {
    const SET: [NumberId; 4] = [
        NumberId::HeightOfCut,
        NumberId::Attitude,
        NumberId::ReelDiameter,
        NumberId::Extension,
    ];
    let mut told = [Vec::new(), Vec::new()];
    for id in SET {
        let shown = units.map(|unit| {
            let shown = unit.solution.numbers().shown(id, unit.unit.system);
            format!("{} {}", id.name(), shown.unwrap_or_default())
        });
        if shown[0] != shown[1] {
            told[0].push(shown[0].clone());
            told[1].push(shown[1].clone());
        }
    }
    let knives = units.map(|unit| unit.document.fitted_name());
    if knives[0] != knives[1] {
        for (told, knife) in told.iter_mut().zip(knives) {
            told.push(format!("knife \"{knife}\""));
        }
    }
    told.map(|told| {
        if told.is_empty() {
            "set alike".to_owned()
        } else {
            told.join(", ")
        }
    })
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
