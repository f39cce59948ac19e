//! How pictures of several units are seen that are to be compared: at one scale, with the same held still.

use kurbo::{Point, Rect, TranslateScale, Vec2};

use super::view_picture::{
    NoPicture, PictureView, budgets, motion_bounds, motion_panel_over, path, window_map,
};
use crate::analysis::{Case, Kinematics, Solved};
use crate::drawing::paper::{PAPER_PER_MM, Panel, Style, View};
use crate::drawing::pictures::{
    AtLip, Canvas, ENLARGEMENTS, Hold, Lens, LensAim, LensChoice, MotionOf, SideView, Standing,
};
use crate::units::System;

/// Paper between two pictures side by side.
pub(super) const BETWEEN: f64 = 12.0;

/// The height that a lens is fitted in at the most, in parts of its width: every picture that shows the same
/// has so much.
const FITTED_PART: f64 = 0.3;
/// How much of a lens's width and height a knife's lip takes.
const LIP_PART: f64 = 0.74;

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
    /// Where the lens looks; none for what suits the first of them.
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
    fn side_view<'s>(&self, solved: &'s Solved) -> SideView<'s> {
        let standing = if self.view == PictureView::Ground {
            Standing::Turf
        } else {
            Standing::Plate
        };
        SideView {
            standing,
            uncertainty: None,
            ghost: None,
            system: self.system_of(solved),
            ..SideView::of(solved)
        }
    }

    fn is_on_one_ground(&self) -> bool {
        self.is_pair && self.hold != Hold::Edge
    }

    /// Where a unit has what is held, as far as it stays in one place.
    fn held(&self, case: &Case) -> Point {
        let place = self.hold.place(case);
        if self.is_on_one_ground() {
            Point::new(place.x, 0.0)
        } else {
            place
        }
    }

    fn system_of(&self, solved: &Solved) -> System {
        self.system.unwrap_or(solved.unit.system)
    }

    /// The picture of one of them in a rectangle of paper.
    pub(super) fn unit(&self, solved: &Solved, place: Rect) -> Result<Vec<Panel>, NoPicture> {
        self.unit_at(solved, self.clips, place)
    }

    fn unit_at(&self, solved: &Solved, clips: f64, place: Rect) -> Result<Vec<Panel>, NoPicture> {
        let system = self.system_of(solved);
        Ok(match self.view {
            PictureView::Whole | PictureView::Ground => self.whole(solved, place),
            PictureView::Lens => vec![self.lens(solved, place)],
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

    fn lens(&self, solved: &Solved, place: Rect) -> Panel {
        let view = self.side_view(solved);
        let system = view.system;
        let aim = self.lens.unwrap_or_else(|| {
            if self.at_lip.is_some() {
                return self.aim_at_lip(solved, place);
            }
            // By its width alone: what words leave of its height differs from one picture to the next.
            let most = place.y0 + FITTED_PART * place.width();
            let fitted_in = Rect {
                y1: place.y1.min(most),
                ..place
            };
            let fitted = |solved: &Solved| {
                let (choice, system) = (LensChoice::default(), self.system_of(solved));
                Lens::on(&solved.solution, choice, fitted_in, system).enlargement()
            };
            let least = self.alike.iter().map(|solved| fitted(solved));
            let least = least.fold(fitted(solved), f64::min);
            let choice = LensChoice {
                enlargement: Some(least),
                ..LensChoice::default()
            };
            // Aimed at the first of them, so that what is held stays in its place.
            let first = self.alike.first().copied().unwrap_or(solved);
            Lens::on(&first.solution, choice, place, system).aim(self.hold, &first.case())
        });
        let first = self.alike.first().copied().unwrap_or(solved);
        // The ground of all is that of the first.
        let up = if self.is_on_one_ground() {
            aim.hold.place(&first.case()).y - aim.hold.place(&view.case).y
        } else {
            0.0
        };
        let aim = aim.raised(up);
        let lens = Lens::aimed(aim, &view.case, 1.0, place, system);
        let scene = match self.at_lip {
            Some(at) => view.scene_at_lip(at),
            None => view.scene(),
        };
        lens.panel(&scene, self.style)
    }

    /// The lens that shows the lips of all of them from edge to body, as large as it goes; over the plate
    /// where there is room for both.
    fn aim_at_lip(&self, solved: &Solved, place: Rect) -> LensAim {
        let from_held = |solved: &Solved| {
            let view = self.side_view(solved);
            let held = self.hold.place(&view.case).to_vec2();
            (
                view.lip_bounds() - held,
                view.lip_bounds().union_pt((view.lip_bounds().x0, 0.0)) - held,
            )
        };
        let all = self.alike.iter().map(|solved| from_held(solved));
        let (lips, over_plate) = all.fold(from_held(solved), |all, next| {
            (all.0.union(next.0), all.1.union(next.1))
        });
        let fits = |shown: Rect, enlargement: f64| {
            let (scale, room) = (enlargement * PAPER_PER_MM, LIP_PART * place.size());
            scale * shown.width() <= room.width && scale * shown.height() <= room.height
        };
        let mut from_largest = ENLARGEMENTS.into_iter().rev();
        let enlargement = from_largest.find(|enlargement| fits(lips, *enlargement));
        let enlargement = enlargement.unwrap_or(ENLARGEMENTS[0]);
        let shown = if fits(over_plate, enlargement) {
            over_plate
        } else {
            lips
        };
        let choice = LensChoice {
            enlargement: Some(enlargement),
            ..LensChoice::default()
        };
        let first = self.alike.first().copied().unwrap_or(solved);
        let case = first.case();
        let middle = shown.center() + self.hold.place(&case).to_vec2();
        let lens = Lens::on(&first.solution, choice, place, self.system_of(first));
        lens.aim(self.hold, &case).at(middle, &case)
    }

    /// Two of them in the halves of a rectangle of paper, the left one first; the reels of both at the same
    /// time.
    pub(super) fn in_halves(
        &self,
        units: [&Solved; 2],
        place: Rect,
    ) -> Result<Vec<Panel>, NoPicture> {
        let times = [1.0, clips_in_one(units).unwrap_or(1.0)];
        let mut panels = Vec::new();
        for ((solved, half), times) in units.into_iter().zip(halves(place)).zip(times) {
            panels.extend(self.unit_at(solved, times * self.clips, half)?);
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
