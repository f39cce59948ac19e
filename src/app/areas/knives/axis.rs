//! Axes of the plots, as the drawing has them, for `egui_plot`.

use std::ops::RangeInclusive;

use egui::{Rangef, Rect, Sense, Ui, vec2};
use egui_plot::{AxisHints, GridInput, GridMark, Plot, PlotResponse};

use crate::app::widgets::lettering::Lettering;
use crate::drawing::{Axis, Tick};

/// The least distance between two marks across, in points: room for a number.
const ACROSS: f64 = 44.0;
/// The same where the numbers are fractions.
const ACROSS_IN_FRACTIONS: f64 = 56.0;
/// The least distance between two marks up.
const UP: f64 = 34.0;

/// An axis of a plot.
pub trait PlotAxis {
    /// As an axis across.
    fn across(self, quantity: &str) -> AxisHints<'static>;
    /// As an axis up.
    fn up(self, quantity: &str) -> AxisHints<'static>;
    /// Marks across.
    fn marks_across(self) -> impl Fn(GridInput) -> Vec<GridMark>;
    /// Marks up.
    fn marks_up(self) -> impl Fn(GridInput) -> Vec<GridMark>;
}

impl PlotAxis for Axis {
    fn across(self, quantity: &str) -> AxisHints<'static> {
        hints(self, AxisHints::new_x(), quantity)
    }

    fn up(self, quantity: &str) -> AxisHints<'static> {
        hints(self, AxisHints::new_y(), quantity)
    }

    fn marks_across(self) -> impl Fn(GridInput) -> Vec<GridMark> {
        let least_points = if self.is_in_fractions() {
            ACROSS_IN_FRACTIONS
        } else {
            ACROSS
        };
        move |input| marks(self, &input, least_points)
    }

    fn marks_up(self) -> impl Fn(GridInput) -> Vec<GridMark> {
        move |input| marks(self, &input, UP)
    }
}

fn hints(axis: Axis, hints: AxisHints<'static>, quantity: &str) -> AxisHints<'static> {
    let number = move |mark: GridMark, _: &RangeInclusive<f64>| {
        axis.number(Tick {
            place: mark.value,
            step: mark.step_size,
        })
    };
    hints
        .label(Lettering::Note.of(axis.title(quantity)))
        .formatter(number)
        .label_spacing(Rangef::new(18.0, 24.0))
}

fn marks(axis: Axis, input: &GridInput, least_points: f64) -> Vec<GridMark> {
    // The plot says how much eight points are, the closest that it would mark.
    let least = input.base_step_size * least_points / 8.0;
    let mark = |tick: Tick| GridMark {
        value: tick.place,
        step_size: tick.step,
    };
    axis.ticks(input.bounds, least)
        .into_iter()
        .map(mark)
        .collect()
}

/// A plot that stands still: the wheel scrolls the page past it, and a click sets the unit.
pub fn still_plot<'a>(name: impl egui::AsIdSalt) -> Plot<'a> {
    Plot::new(name)
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_axis_zoom_drag(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .sense(Sense::click())
}

/// The least that an axis takes beside its plot, in points: the plot's own.
const LEAST_AXIS: f32 = 14.0;

/// What the room of a plot's axes hangs on.
#[derive(Clone, Debug, PartialEq)]
struct AxesRoom {
    /// What the axes say.
    shown: String,
    frame: Rect,
    /// An axis out of sight is not measured.
    is_seen: [bool; 2],
}

/// Asks for another frame until the axes have the room they need: a plot measures its numbers as it draws
/// them, and gives them that room in its next frame. `shown` names all that the numbers hang on.
pub fn settle_axes<T>(ui: &Ui, response: &PlotResponse<T>, shown: String) {
    let frame = *response.transform.frame();
    let under = Rect::from_min_size(frame.left_bottom(), vec2(frame.width(), LEAST_AXIS));
    let beside = frame.left_top() - vec2(LEAST_AXIS, 0.0);
    let beside = Rect::from_min_size(beside, vec2(LEAST_AXIS, frame.height()));
    let room = AxesRoom {
        shown,
        frame: frame.translate(-ui.min_rect().min.to_vec2()),
        is_seen: [under, beside].map(|axis| ui.is_rect_visible(axis)),
    };
    let id = response.response.id.with("room of its axes");
    let last = ui.data(|data| data.get_temp::<AxesRoom>(id));
    if last.as_ref() != Some(&room) {
        ui.data_mut(|data| data.insert_temp(id, room));
        ui.ctx().request_repaint();
    }
}
