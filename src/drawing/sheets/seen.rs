//! How pictures of several units are seen that are to be compared: at one scale, with the same held still.

use kurbo::{Point, Rect, TranslateScale, Vec2};

use super::view_picture::{
    NoPicture, PictureView, budgets, motion_bounds, motion_panel_over, path, window_map,
};
use crate::analysis::{Case, Kinematics, Solved};
use crate::drawing::paper::{Panel, Pencil, Style, View};
use crate::drawing::pictures::{
    AtLip, Canvas, Hold, Lens, LensAim, MotionOf, SideView, Standing, Subject,
};
use crate::drawing::scene::{Dimension, Scene, Shape, ShownIn};
use crate::units::System;

/// Paper between two pictures side by side.
pub(super) const BETWEEN: f64 = 12.0;

/// How large words are of what both of two are about, against what a half has room for: they find room beside
/// the knife.
const BESIDE_KNIFE: f64 = 0.9;

/// How units are seen that are to be compared.
pub(super) struct Seen<'a> {
    /// The picture that each has.
    pub(super) view: PictureView,
    /// What is shown of a reel that turns.
    pub(super) motion: MotionOf,
    /// What stays in one place.
    pub(super) hold: Hold,
    /// Two stand side by side: whatever stays in one place, the ground is one line, unless it is the edge that
    /// is held.
    pub(super) is_pair: bool,
    /// All that are seen so: at one scale, and none leaves its paper.
    pub(super) alike: Vec<&'a Solved>,
    /// What their pictures are about.
    pub(super) subject: Subject,
    /// Where the lens looks, aimed at the first of them; none for what suits all.
    pub(super) lens: Option<LensAim>,
    /// What is measured at the knife's lip, where a lens that is not aimed looks there; else it looks at the
    /// clip point.
    pub(super) at_lip: Option<AtLip>,
    /// Whether the scale of a whole unit is one that drawings on paper have.
    pub(super) is_scale_of_row: bool,
    /// The units of the words; none for those that each was measured in.
    pub(super) system: Option<System>,
    pub(super) style: Style,
    /// Where the first one's reel stands that turns, so many clips after the first.
    pub(super) clips: f64,
}

impl Seen<'_> {
    pub(super) fn side_view<'s>(&self, solved: &'s Solved) -> SideView<'s> {
        let standing = if self.view == PictureView::Ground {
            Standing::Turf
        } else {
            Standing::Plate
        };
        SideView {
            standing,
            uncertainty: None,
            ghost: None,
            subject: self.subject,
            system: self.system_of(solved),
            ..SideView::of(solved)
        }
    }

    fn is_on_one_ground(&self) -> bool {
        self.is_pair && self.hold != Hold::Edge
    }

    /// Where a unit has what is held, as far as it stays in one place.
    pub(super) fn held(&self, case: &Case) -> Point {
        let place = self.hold.place(case);
        if self.is_on_one_ground() {
            Point::new(place.x, 0.0)
        } else {
            place
        }
    }

    pub(super) fn system_of(&self, solved: &Solved) -> System {
        self.system.unwrap_or(solved.unit.system)
    }

    /// The picture of one of them in a rectangle of paper.
    pub(super) fn unit(&self, solved: &Solved, place: Rect) -> Result<Vec<Panel>, NoPicture> {
        self.unit_at(solved, (self.clips, None), place)
    }

    /// Its reel so many clips after the first, what it is about so much larger than others at the most.
    fn unit_at(
        &self,
        solved: &Solved,
        (clips, larger): (f64, Option<f64>),
        place: Rect,
    ) -> Result<Vec<Panel>, NoPicture> {
        let system = self.system_of(solved);
        Ok(match self.view {
            PictureView::Whole | PictureView::Ground => self.whole(solved, place),
            PictureView::Lens => vec![self.lens(solved, larger, place)],
            PictureView::Motion => {
                let all = self.alike.iter().copied().chain([solved]);
                let bounds = all
                    .filter_map(|solved| motion_bounds(solved, self.motion))
                    .reduce(|all, next| all.union(next));
                let bounds = bounds.ok_or(NoPicture::NoSpeeds)?;
                vec![motion_panel_over(
                    solved,
                    (self.motion, clips),
                    bounds,
                    place,
                    self.style,
                )?]
            }
            PictureView::Path => path(solved, system, place, self.style)?,
            PictureView::Budget => budgets(solved, system, place, self.style),
            PictureView::Map => window_map(solved, system, place, self.style),
        })
    }

    fn whole(&self, solved: &Solved, place: Rect) -> Vec<Panel> {
        // What every like one shows, told from what is held still.
        let from_held = |solved: &Solved| {
            let view = self.side_view(solved);
            view.bounds() - self.held(&view.case).to_vec2()
        };
        let all = self.alike.iter().map(|solved| from_held(solved));
        let bounds = all.fold(from_held(solved), |all, next| all.union(next));
        let view = self.side_view(solved);
        let bounds = bounds + self.held(&view.case).to_vec2();
        let whole = if self.is_scale_of_row {
            View::fitting_at_scale_of_row(bounds, place)
        } else {
            View::fitting(bounds, place)
        };
        let canvas = Canvas { whole, lens: None };
        canvas.panels(&view.scene(), self.style)
    }

    fn lens(&self, solved: &Solved, larger: Option<f64>, place: Rect) -> Panel {
        let view = self.side_view(solved);
        let aim = match (self.lens, self.at_lip) {
            (Some(aim), _) => self.on_one_ground(aim, &view.case),
            (None, Some(_)) => self.aim_at_lip(solved, place),
            (None, None) => self.aim_at_sweep(solved, place),
        };
        let lens = Lens::aimed(aim, &view.case, 1.0, place, view.system);
        let mut scene = self.scene_in_lens(solved);
        if let Some(larger) = larger {
            for subject in subjects(&mut scene) {
                subject.drop_verdict();
                subject.larger = subject.larger.min(larger);
            }
        }
        lens.panel(&scene, self.style)
    }

    fn scene_in_lens(&self, solved: &Solved) -> Scene {
        let view = self.side_view(solved);
        match self.at_lip {
            Some(at) => view.scene_at_lip(at),
            None => view.scene(),
        }
    }

    /// A lens aimed at the first of them, on another: the ground of all is that of the first.
    fn on_one_ground(&self, aim: LensAim, case: &Case) -> LensAim {
        let first = self.alike.first().filter(|_| self.is_on_one_ground());
        first.map_or(aim, |first| {
            let hold = aim.hold;
            aim.raised(hold.place(&first.case()).y - hold.place(case).y)
        })
    }

    /// How much larger than others what both are about is told, alike in both and in few words: a level is
    /// told by its colour and its hatching.
    fn larger_in_both(&self, units: [&Solved; 2], place: Rect) -> Option<f64> {
        let larger = units
            .into_iter()
            .zip(halves(place))
            .flat_map(|(unit, half)| {
                let pencil = Pencil::new(self.style, half);
                let mut scene = self.scene_in_lens(unit);
                let larger = subjects(&mut scene).map(|subject| {
                    subject.drop_verdict();
                    subject.larger_on(&pencil)
                });
                larger.collect::<Vec<_>>()
            });
        let most = larger.reduce(f64::min);
        most.map(|most| (BESIDE_KNIFE * most).max(1.0))
    }

    /// Two of them in the halves of a rectangle of paper, the left one first; the reels of both at the same
    /// time.
    pub(super) fn in_halves(
        &self,
        units: [&Solved; 2],
        place: Rect,
    ) -> Result<Vec<Panel>, NoPicture> {
        let times = [1.0, clips_in_one(units).unwrap_or(1.0)];
        let is_lens = self.view == PictureView::Lens && self.at_lip.is_none();
        let larger = is_lens.then(|| self.larger_in_both(units, place)).flatten();
        let mut panels = Vec::new();
        for ((solved, half), times) in units.into_iter().zip(halves(place)).zip(times) {
            panels.extend(self.unit_at(solved, (times * self.clips, larger), half)?);
        }
        Ok(panels)
    }

    /// The same looked at through a glass over the left half; over the right one lies one alike. Words and
    /// lines keep their size.
    pub(super) fn in_halves_through(
        mut self,
        units: [&Solved; 2],
        place: Rect,
        glass: TranslateScale,
    ) -> Result<Vec<Panel>, NoPicture> {
        let style = self.style;
        self.style = Style {
            text: style.text / glass.scale,
            pen: style.pen / glass.scale,
            enlarged: glass.scale,
            ..style
        };
        let panels = self.in_halves(units, place)?;
        if glass.scale <= 1.0 {
            return Ok(panels);
        }
        let [left, right] = halves(place);
        let to_right = Vec2::new((right.x0 - left.x0) * (1.0 - glass.scale), 0.0);
        let right_glass = TranslateScale::new(glass.translation + to_right, glass.scale);
        let through = |panel: Panel| {
            if panel.window.center().x < left.x1 {
                panel.through_glass(glass, left, style)
            } else {
                panel.through_glass(right_glass, right, style)
            }
        };
        Ok(panels.into_iter().map(through).collect())
    }
}

/// What a lens's drawing is about, where a number tells it.
fn subjects(scene: &mut Scene) -> impl Iterator<Item = &mut Dimension> {
    let in_lens = scene.items.iter_mut();
    let in_lens = in_lens.filter(|item| item.shown_in != ShownIn::Whole);
    in_lens.filter_map(|item| match &mut item.shape {
        Shape::Dimension(dimension) if dimension.larger > 1.0 => Some(dimension),
        _ => None,
    })
}

/// How many blades of the second one clip in the time from one of the first one to the next; none where the
/// speeds of one are not known.
pub(super) fn clips_in_one(units: [&Solved; 2]) -> Option<f64> {
    let rate = |solved: &Solved| {
        let kinematics = Kinematics::of(&solved.unit, &solved.solution)?;
        Some(f64::from(solved.unit.blades) / kinematics.path.turn_s())
    };
    let [first, second] = units.map(rate);
    Some(second? / first?)
}

/// The halves of a rectangle of paper, with some paper between them.
pub(super) fn halves(place: Rect) -> [Rect; 2] {
    let middle = place.center().x;
    let (x1, x0) = (middle - BETWEEN / 2.0, middle + BETWEEN / 2.0);
    [Rect { x1, ..place }, Rect { x0, ..place }]
}
