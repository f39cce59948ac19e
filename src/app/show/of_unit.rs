//! The unit in front, shown to a room: one picture after the other.

use super::slide::{PictureOf, Slide};
use crate::analysis::NumberId;
use crate::app::desk::Desk;
use crate::drawing::{PictureView, Standing, letters, motion_panel, view_panels};
use crate::lesson::ShownFigure;

/// The numbers that stand under the picture.
const NUMBERS: [NumberId; 4] = [
    NumberId::BehindCentre,
    NumberId::SweepBelowCut,
    NumberId::SweepShare,
    NumberId::HeightOfCut,
];

/// Which picture of the unit is shown.
pub(super) struct OfUnit {
    at: usize,
}

impl OfUnit {
    pub(super) fn beginning_with(view: PictureView) -> Self {
        let at = PictureView::ALL.into_iter().position(|other| other == view);
        Self {
            at: at.unwrap_or(0),
        }
    }

    /// So many pictures on; it stops at the first and at the last.
    pub(super) fn go(&mut self, by: isize) {
        let last = PictureView::ALL.len() - 1;
        self.at = self.at.saturating_add_signed(by).min(last);
    }

    pub(super) fn slide<'a>(&self, desk: &'a Desk) -> Slide<'a> {
        let view = PictureView::ALL[self.at];
        let name = letters::readable(&desk.document().name).into_owned();
        let title = format!("{name}: {}", view.name().to_lowercase());
        // What is not current is not shown to a room.
        let good = desk.good().filter(|_| desk.why_not_current().is_none());
        let Some(good) = good else {
            let why = desk.why_not_current();
            return Slide {
                title,
                text: why.unwrap_or_else(|| "This unit has no solution yet.".to_owned()),
                numbers: Vec::new(),
                picture: None,
                is_chart: false,
                moves: false,
            };
        };
        let system = desk.system();
        let numbers = good.solution.numbers();
        let shown = NUMBERS.into_iter().filter_map(|id| {
            let shown = numbers.shown(id, system)?;
            let title = id.title().to_owned();
            Some(ShownFigure { title, shown })
        });
        let moves = view == PictureView::Motion && good.unit.mowing.is_some();
        let draw = move |place, style, clips| {
            let panels = if moves {
                motion_panel(good, clips, place, style).map(|panel| vec![panel])
            } else {
                view_panels(good, view, Standing::Plate, system, place, style)
            };
            panels.map_err(|none| none.to_string())
        };
        Slide {
            title,
            text: String::new(),
            numbers: shown.collect(),
            picture: Some((PictureOf::Unit(good.id, view, system), Box::new(draw))),
            is_chart: matches!(
                view,
                PictureView::Path | PictureView::Budget | PictureView::Map
            ),
            moves,
        }
    }
}
