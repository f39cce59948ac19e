//! The unit in front, shown to a room: one picture after the other.

use std::rc::Rc;
use std::sync::Arc;

use super::slide::{InMotion, LargeNumber, PictureOf, Slide};
use super::tried::Tried;
use super::views::Views;
use crate::analysis::{Level, NumberId, Solved};
use crate::app::areas::PagePicture;
use crate::app::desk::{Desk, NO_SOLUTION};
use crate::drawing::{
    Canvas, MotionOf, Panel, PictureView, ShownIn, SideView, Standing, Style, View, lay_out,
    letters, motion_panel, view_panels,
};
use crate::unit::Document;
use crate::units::{Length, System};

/// What a room sees first.
pub enum First {
    /// A picture of the unit.
    View(PictureView),
    /// The page that was in front, before the pictures of the unit.
    Page(PagePicture),
}

/// Which picture of the unit is shown.
pub(super) struct OfUnit {
    /// The picture of a page, which stands before those of the unit.
    page: Option<Rc<PagePicture>>,
    /// The page's picture is shown.
    is_page: bool,
    views: Views,
    tried: Tried,
}

impl OfUnit {
    pub(super) fn beginning_with(first: First) -> Self {
        let (page, view) = match first {
            First::View(view) => (None, view),
            First::Page(page) => (Some(Rc::new(page)), PictureView::Whole),
        };
        Self {
            is_page: page.is_some(),
            page,
            views: Views::of(&PictureView::ALL, view),
            tried: Tried::default(),
        }
    }

    /// The picture that is seen.
    pub(super) fn view(&self) -> PictureView {
        self.views.view()
    }

    /// So many pictures on; it stops at the first and at the last.
    pub(super) fn go(&mut self, by: isize) {
        let is_first = self.views.is_first() || by == isize::MIN;
        if self.is_page && by > 0 {
            self.is_page = false;
            self.views.go(isize::MIN);
            if by == isize::MAX {
                self.views.go(by);
            }
        } else if !self.is_page && by < 0 && is_first {
            self.is_page = self.page.is_some();
            self.views.go(isize::MIN);
        } else {
            self.views.go(by);
        }
    }

    /// To a picture, and back to the one before.
    pub(super) fn go_to_or_back(&mut self, view: PictureView) {
        self.is_page = false;
        self.views.go_to_or_back(view);
    }

    /// Turns the slider to a place, in millimetres or degrees.
    pub(super) fn turn(&mut self, desk: &Desk, base: f64) {
        let (set, turned) = (desk.good(), desk.preferences().show.slider);
        if let (Some(set), Some(turned)) = (set, turned) {
            self.tried.turn(set, turned, base, desk.system());
        }
    }

    /// The unit as the slider has it; none while that stands where the unit is set.
    pub(super) fn tried(&self, desk: &Desk) -> Option<Arc<Document>> {
        let tried = self
            .tried
            .otherwise(desk.good()?, desk.preferences().show.slider?);
        tried.map(|tried| Arc::clone(&tried.document))
    }

    /// To a picture of the unit.
    pub(super) fn go_to(&mut self, view: PictureView) {
        self.is_page = false;
        self.views = Views::of(&PictureView::ALL, view);
    }

    /// The slider back to what is set.
    pub(super) fn turn_back(&mut self) {
        self.tried.end();
    }

    pub(super) fn slide(&self, desk: &Desk) -> Slide<'static> {
        if let Some(page) = self.page.as_ref().filter(|_| self.is_page) {
            return page_slide(page);
        }
        let view = self.view();
        let name = letters::readable(&desk.document().name).into_owned();
        let title = format!("{name}: {}", view.name().to_lowercase());
        // What is not current is not shown to a room.
        let why = desk.why_not_current();
        let Some(set) = desk.good().filter(|_| why.is_none()) else {
            let why = why.unwrap_or_else(|| NO_SOLUTION.to_owned());
            return Slide {
                short_title: Some(name),
                ..Slide::of_words(title, why)
            };
        };
        let (system, turned) = (desk.system(), desk.preferences().show.slider);
        let shown = self.tried.shown(set, turned);
        let chosen = desk.preferences().show.numbers();
        let numbers = chosen.into_iter().filter_map(|id| {
            // What a unit has no value of is left out.
            large_number(&shown, id, system)
        });
        let numbers = numbers.collect();
        let slider = turned.and_then(|turned| self.tried.slider(set, turned, system));
        let motion = (view == PictureView::Motion)
            .then(|| InMotion::of(Rc::clone(&shown), MotionOf::Mowing))
            .flatten();
        let moves = motion.is_some();
        let of = PictureOf::Unit(shown.id, view, system);
        let draw = move |place, style, clips| {
            let panels = match standing_of(view) {
                Some(standing) => Ok(whole(&shown, standing, system, (place, style))),
                None if moves => motion_panel(&shown, clips, place, style).map(|panel| vec![panel]),
                None => view_panels(&shown, view, Standing::Plate, system, place, style),
            };
            panels.map_err(|none| none.to_string())
        };
        Slide {
            title,
            short_title: Some(name),
            text: String::new(),
            numbers,
            picture: Some((of, Box::new(draw))),
            linked: None,
            is_chart: view.is_chart(),
            has_few_words: !view.is_chart(),
            may_turn: true,
            motion,
            slider,
        }
    }
}

/// What the whole unit stands on in a picture; none for another picture.
fn standing_of(view: PictureView) -> Option<Standing> {
    match view {
        PictureView::Whole => Some(Standing::Plate),
        PictureView::Ground => Some(Standing::Turf),
        PictureView::Lens
        | PictureView::Path
        | PictureView::Motion
        | PictureView::Budget
        | PictureView::Map => None,
    }
}

/// The whole unit, as large as there is room for: a screen keeps to no scale.
fn whole(
    solved: &Solved,
    standing: Standing,
    system: System,
    (place, style): (kurbo::Rect, Style),
) -> Vec<Panel> {
    let scene = SideView {
        standing,
        system,
        ..SideView::of(solved)
    }
    .scene();
    let canvas = Canvas {
        whole: Canvas::whole_in_window(scene.bounds, place, style),
        lens: None,
    };
    canvas.panels(&scene, style)
}

/// The picture of a page.
fn page_slide(page: &Rc<PagePicture>) -> Slide<'static> {
    let shown = Rc::clone(page);
    let draw = move |place, style, _| {
        let view = View::fitting(shown.scene.bounds, place);
        Ok(vec![lay_out(&shown.scene, &view, ShownIn::Whole, style)])
    };
    Slide {
        picture: Some((PictureOf::Page, Box::new(draw))),
        ..Slide::of_words(page.title.clone(), String::new())
    }
}

/// A number of a unit, with how it stands where that should be looked at.
fn large_number(solved: &Solved, id: NumberId, system: System) -> Option<LargeNumber> {
    let numbers = solved.solution.numbers();
    let shown = numbers.shown(id, system)?;
    let examples = solved.document.example_count();
    let finding = id
        .finding()
        .and_then(|finding| solved.findings.get(finding));
    let level = finding.and_then(|finding| {
        let level = finding.shown_level().resting_on(examples);
        let word = finding.standing_on(examples).into_owned();
        (level > Level::Fine).then_some((level, word))
    });
    // A clearance below zero is told as the depth that it is.
    let in_soil = finding.and_then(|finding| finding.id.in_soil());
    let deep = numbers.base(id).filter(|clear| *clear < 0.0);
    let (title, shown) = match in_soil.zip(deep) {
        Some((title, clear)) => (title, system.length(Length::from_mm(-clear))),
        None => (id.title(), shown),
    };
    Some(LargeNumber {
        title: title.to_owned(),
        shown,
        level,
    })
}
