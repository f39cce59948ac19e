//! One life plot: its lines, its limits with their names, and what stands under the pointer.

use egui::{Align2, Rect, RichText, Ui, WidgetInfo, pos2, vec2};
use egui_plot::{
    HLine, HoverPosition, Line, LineStyle, MarkerShape, PlotBounds, PlotPoints, PlotResponse,
    Points, VLine,
};

use super::key::Key;
use super::words::told;
use super::worked_out::{Plotted, WorkedOut, across, range_across, up};
use crate::analysis::knives::{Measured, Over, measured_at};
use crate::app::areas::knives::axis::{PlotAxis as _, settle_axes, still_plot};
use crate::app::areas::knives::inks::{
    KnifeInk, faint_ink, ink, knife_ink, limit_line, paper, veil,
};
use crate::app::areas::knives::room::PictureRoom;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::words::capitalised;
use crate::drawing::{Axis, Theme};
use crate::units::Length;

/// Height of a plot.
const HEIGHT: f32 = 250.0;

/// One plot; where it was clicked, in the unit of what it runs over.
pub fn plot_ui(
    ui: &mut Ui,
    key: &Key,
    worked_out: &WorkedOut,
    index: usize,
    theme: Theme,
    room: PictureRoom,
) -> Option<f64> {
    let measured = Measured::ALL[index];
    let plotted = &worked_out.plots[index];
    let (along, upwards) = (across(key.over, key.system), up(key.system));
    let name = capitalised(measured.name());
    ui.label(RichText::new(&name).family(strong()));
    let (left, right) = range_across(key.over, &key.unit, key.system);
    let (bottom, top) = plotted.up;
    let quantity = match key.over {
        Over::Diameter => "reel diameter, new to scrap",
        _ => key.over.name(),
    };
    let now = along.place(key.over.now(&key.unit, &key.trial));
    let response = still_plot(("life", index))
        .height(room.height(ui, HEIGHT, 6.0))
        // Room for half of the last number under the plot.
        .width(ui.available_width() - 10.0)
        .grid_color(faint_ink(theme).gamma_multiply(0.6))
        // A reel's life runs from new to scrap.
        .invert_x(key.over == Over::Diameter)
        .show_y(false)
        .custom_x_axes(vec![along.across(quantity)])
        .custom_y_axes(vec![upwards.up(measured.name())])
        .x_grid_spacer(along.marks_across())
        .y_grid_spacer(upwards.marks_up())
        .label_formatter(move |hover| Some(hover_text(key, index, along, hover)))
        .show(ui, |plot| {
            plot.set_plot_bounds(PlotBounds::from_min_max([left, bottom], [right, top]));
            plotted.band.show(plot, key, theme);
            for (limit, at) in &plotted.limits {
                plot.hline(
                    HLine::new(limit.name, *at)
                        .color(limit_line(limit.name, theme))
                        .width(1.4)
                        .style(LineStyle::Solid)
                        .allow_hover(false),
                );
            }
            plot.vline(
                VLine::new("as set now", now)
                    .color(ink(theme))
                    .width(1.4)
                    .allow_hover(false),
            );
            for (knife, (name, _)) in key.knives.iter().enumerate() {
                let KnifeInk {
                    colour,
                    style,
                    width,
                } = knife_ink(key.lines[knife], theme);
                // A line on another's would read as one of another pattern; the key tells of it.
                let is_own = worked_out.same[knife].in_plot(measured).is_none();
                for piece in plotted.lines[knife].iter().filter(|_| is_own) {
                    plot.line(
                        Line::new(name.as_str(), PlotPoints::Borrowed(piece))
                            .color(colour)
                            .style(style)
                            .width(width)
                            .allow_hover(false),
                    );
                }
                let crossings = &plotted.crossings[knife];
                for (radius, colour) in [(4.6, colour), (2.6, paper(theme))] {
                    plot.points(
                        Points::new(name.as_str(), PlotPoints::Borrowed(crossings))
                            .shape(MarkerShape::Circle)
                            .color(colour)
                            .filled(true)
                            .radius(radius)
                            .allow_hover(false),
                    );
                }
            }
        });
    let title = format!("{name} against {}", key.over.name());
    response
        .response
        .widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, title.clone()));
    limit_names(ui, plotted, &response, theme);
    let shown = format!("{:?} {:?} {:?}", key.system, (left, right), (bottom, top));
    settle_axes(ui, &response, shown);
    let pointer = response.response.interact_pointer_pos()?;
    if !response.response.clicked() {
        return None;
    }
    let at = along.base(response.transform.value_from_position(pointer).x);
    let (low, high) = key.over.range(&key.unit);
    Some(at.clamp(low.min(high), high.max(low)))
}

/// The names of the limits, on their lines.
fn limit_names(ui: &Ui, plotted: &Plotted, response: &PlotResponse<()>, theme: Theme) {
    let frame = *response.transform.frame();
    let painter = ui.painter().with_clip_rect(frame.intersect(ui.clip_rect()));
    let mut taken: Vec<Rect> = Vec::new();
    for (limit, at) in &plotted.limits {
        let y = response.transform.position_from_point_y(*at);
        let galley =
            painter.layout_no_wrap(limit.name.to_owned(), Lettering::Label.font(), ink(theme));
        // Beside the line on the side that is past it, and inside the plot.
        let (anchor, off) = if limit.is_past_above {
            (Align2::RIGHT_BOTTOM, -2.0)
        } else {
            (Align2::RIGHT_TOP, 2.0)
        };
        let mut place = anchor.anchor_size(pos2(frame.right() - 5.0, y + off), galley.size());
        if let Some(other) = taken.iter().find(|other| other.intersects(place)) {
            place = place.translate(vec2(other.left() - place.right() - 6.0, 0.0));
        }
        if place.bottom() > frame.bottom() || place.top() < frame.top() {
            place = place.translate(vec2(0.0, 2.0 * (y - place.center().y)));
        }
        painter.rect_filled(place.expand2(vec2(3.0, 0.0)), 2.0, veil(theme));
        painter.galley(place.min, galley, ink(theme));
        taken.push(place);
    }
}

/// What every knife gives under the pointer.
fn hover_text(key: &Key, index: usize, along: Axis, hover: &HoverPosition<'_>) -> String {
    let (HoverPosition::NearDataPoint { position, .. } | HoverPosition::Elsewhere { position }) =
        hover;
    let (low, high) = key.over.range(&key.unit);
    let at = along.base(position.x).clamp(low.min(high), high.max(low));
    let mut lines = vec![format!(
        "{} at {}",
        capitalised(Measured::ALL[index].name()),
        told(key.over, at, key.system)
    )];
    for (name, section) in &key.knives {
        let values = measured_at(&key.unit, &key.trial, *section, key.over, at);
        let shown = values.map_or("reel and knife do not meet".to_owned(), |values| {
            key.system.length(Length::from_mm(values[index]))
        });
        lines.push(format!("{name}: {shown}"));
    }
    lines.join("\n")
}
