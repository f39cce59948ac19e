//! The life plots: what each knife does from a new reel to a scrap one, or over attitude or
//! extension.

mod band;
mod key;
mod legend;
mod words;

use egui::{Align, Align2, Layout, Rect, RichText, Ui, WidgetInfo, pos2, vec2};
use egui_plot::{
    HLine, HoverPosition, Line, LineStyle, MarkerShape, PlotBounds, PlotPoint, PlotPoints,
    PlotResponse, Points, VLine,
};

use self::band::LifeBand;
use self::key::Key;
use self::legend::legend_ui;
use self::words::{sentences, told};
use super::axis::{PlotAxis as _, still_plot};
use super::inks::{KnifeInk, faint_ink, ink, knife_ink, limit_line, paper, veil};
use crate::analysis::knives::{Curve, Measured, MeasuredLimit, Over, curves, measured_at};
use crate::app::desk::{Aim, Desk};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::theme;
use crate::app::widgets::words::capitalised;
use crate::drawing::{Axis, Theme};
use crate::unit::Unit;
use crate::units::{Angle, Length, System};

/// Height of a plot.
const HEIGHT: f32 = 250.0;
/// Three plots stand side by side where each gets at least this.
const LEAST_WIDTH: f32 = 262.0;
/// How far a plot reaches beyond limits and values in force, in parts of what they span.
const REACH: f64 = 1.0;

/// What the plots remember.
#[derive(Debug, Default)]
pub struct LifePlots {
    over: Over,
    worked_out: Kept<Key, WorkedOut>,
}

/// The plots, in the order of [`Measured::ALL`].
#[derive(Debug)]
struct WorkedOut {
    plots: [Plotted; 3],
}

/// One plot, its values where they stand on its axes.
#[derive(Debug)]
struct Plotted {
    /// Of each knife, its unbroken pieces.
    lines: Vec<Vec<Vec<PlotPoint>>>,
    /// Of each knife, where it crosses a limit.
    crossings: Vec<Vec<PlotPoint>>,
    limits: Vec<(MeasuredLimit, f64)>,
    /// How far the fitted knife's line can be off.
    band: LifeBand,
    up: (f64, f64),
    /// What happens at the limits, in words.
    sentences: Vec<String>,
}

impl WorkedOut {
    fn of(key: &Key) -> Self {
        let all: Vec<[Curve; 3]> = key
            .knives
            .iter()
            .map(|(_, section)| curves(&key.unit, &key.trial, *section, key.over))
            .collect();
        let (across, up) = (across(key.over, key.system), up(key.system));
        let place = |point: [f64; 2]| PlotPoint::new(across.place(point[0]), up.place(point[1]));
        let mut bands = LifeBand::all(key, across, up);
        let plots = std::array::from_fn(|index| {
            let measured = Measured::ALL[index];
            let curves: Vec<&Curve> = all.iter().map(|of_knife| &of_knife[index]).collect();
            let lines = curves.iter().map(|curve| {
                let pieces = curve.pieces.iter();
                pieces
                    .map(|piece| piece.iter().copied().map(place).collect())
                    .collect()
            });
            let crossings = curves.iter().map(|curve| {
                let crossings = curve.crossings.iter();
                crossings
                    .map(|crossing| place([crossing.at, crossing.limit.at.mm()]))
                    .collect()
            });
            let limits = measured.limits(&key.unit, &key.trial);
            Plotted {
                lines: lines.collect(),
                crossings: crossings.collect(),
                up: range_up(key, index, &limits, &curves),
                sentences: sentences(key, &limits, &curves),
                band: std::mem::take(&mut bands[index]),
                limits: limits
                    .iter()
                    .map(|limit| (*limit, up.place(limit.at.mm())))
                    .collect(),
            }
        });
        Self { plots }
    }
}

fn across(over: Over, system: System) -> Axis {
    match over {
        Over::Diameter => Axis::of_length(system),
        Over::Attitude => Axis::of_angle(),
        Over::Extension => Axis::of_small_length(system),
    }
}

fn up(system: System) -> Axis {
    Axis::of_small_length(system)
}

/// What a plot shows upwards: limits and the values in force, and as much around them as the lines
/// reach and the eye can still tell from the limits.
fn range_up(key: &Key, index: usize, limits: &[MeasuredLimit], curves: &[&Curve]) -> (f64, f64) {
    let now = key.over.now(&key.unit, &key.trial);
    let in_force = key.knives.iter().filter_map(|(_, section)| {
        Some(measured_at(&key.unit, &key.trial, *section, key.over, now)?[index])
    });
    let of_interest = span(limits.iter().map(|limit| limit.at.mm()).chain(in_force));
    let points = curves
        .iter()
        .flat_map(|curve| curve.pieces.iter().flatten());
    let drawn = span(points.map(|point| point[1]));
    let reach = REACH * (of_interest.1 - of_interest.0).max(0.1);
    let low = drawn.0.max(of_interest.0 - reach).min(of_interest.0);
    let high = drawn.1.min(of_interest.1 + reach).max(of_interest.1);
    let margin = 0.07 * (high - low).max(0.1);
    let axis = up(key.system);
    let is_right = low.is_finite() && high.is_finite();
    if is_right {
        (axis.place(low - margin), axis.place(high + margin))
    } else {
        (axis.place(0.0), axis.place(1.0))
    }
}

fn span(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    })
}

/// What a plot runs over, as a person sees it.
fn range_across(over: Over, unit: &Unit, system: System) -> (f64, f64) {
    let axis = across(over, system);
    let (low, high) = over.range(unit);
    let (low, high) = (axis.place(low), axis.place(high));
    // A reel without a life between its two sizes still wants some paper.
    let margin = (0.02 * (high - low)).max(0.002 * high.abs().max(1.0));
    (low - margin, high + margin)
}

impl LifePlots {
    /// Heading, choice, key and plots.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let system = desk.system();
        let heading = match self.over {
            Over::Diameter => "Through the reel's life",
            Over::Attitude => "Over attitude",
            Over::Extension => "Over extension",
        };
        ui.heading(heading);
        ui.horizontal_wrapped(|ui| {
            ui.label("Against");
            for over in Over::ALL {
                ui.selectable_value(&mut self.over, over, over.name());
            }
        });
        let Some(good) = desk.good() else {
            return;
        };
        let key = &Key::of(good, self.over, system);
        let worked_out = &*self.worked_out.get(key.clone(), WorkedOut::of);
        let theme = theme(ui.ctx());
        note_ui(ui, key, desk.document().setting.rollers.is_some());
        legend_ui(ui, key, theme);
        let mut clicked = None;
        let mut plot = |ui: &mut Ui, index: usize| {
            if let Some(at) = plot_ui(ui, key, worked_out, index, theme) {
                clicked = Some(at);
            }
            for sentence in &worked_out.plots[index].sentences {
                ui.label(Lettering::Note.of(sentence));
            }
        };
        if ui.available_width() >= 3.0 * LEAST_WIDTH {
            ui.columns(3, |columns| {
                for (index, column) in columns.iter_mut().enumerate() {
                    // Columns stretch what stands in them, which spreads out words.
                    column.with_layout(Layout::top_down(Align::Min), |ui| plot(ui, index));
                }
            });
        } else {
            for index in 0..3 {
                plot(ui, index);
                ui.add_space(6.0);
            }
        }
        let over = key.over;
        if let Some(at) = clicked {
            desk.aim(match over {
                Over::Diameter => Aim {
                    reel_diameter: Some(Length::from_mm(at)),
                    ..Aim::default()
                },
                Over::Attitude => Aim {
                    attitude: Some(Angle::from_deg(at)),
                    ..Aim::default()
                },
                Over::Extension => Aim {
                    extension: Some(Length::from_mm(at)),
                    ..Aim::default()
                },
            });
        }
    }
}

/// What stays as it is along the lines.
fn note_ui(ui: &mut Ui, key: &Key, is_by_rollers: bool) {
    let height = key.system.length(key.trial.height_of_cut);
    let attitude = key.system.angle(key.trial.attitude);
    let diameter = key.system.length(key.unit.setting.reel_diameter);
    let kept = match key.over {
        Over::Diameter => format!("attitude {attitude}, height of cut {height}"),
        Over::Attitude => format!("reel {diameter}, height of cut {height}"),
        Over::Extension => {
            format!("reel {diameter}, attitude {attitude}, height of cut {height}")
        }
    };
    let rollers = if is_by_rollers {
        " as the given rollers leave them now"
    } else {
        ""
    };
    let text =
        format!("Kept along each line: {kept}{rollers}. Click a plot to set the unit there.");
    ui.label(RichText::new(text).weak());
}

/// One plot; where it was clicked, in the unit of what it runs over.
fn plot_ui(
    ui: &mut Ui,
    key: &Key,
    worked_out: &WorkedOut,
    index: usize,
    theme: Theme,
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
        .height(HEIGHT)
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
                } = knife_ink(knife, theme);
                for piece in &plotted.lines[knife] {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::desk::{Change, NoDialogs, Preferences, Session};
    use crate::units::Quantity;

    fn desk() -> Desk {
        let session = Session::demo().expect("the demo unit opens");
        Desk::new(session, Preferences::default(), Box::new(NoDialogs))
    }

    #[test]
    fn the_plots_are_worked_out_once_while_nothing_changes() {
        let desk = desk();
        let key = |over| Key::of(desk.good().expect("solved"), over, desk.system());
        let mut plots = LifePlots::default();
        plots.worked_out.get(key(Over::Diameter), WorkedOut::of);
        assert!(plots.worked_out.has(&key(Over::Diameter)));
        assert!(!plots.worked_out.has(&key(Over::Attitude)));
    }

    #[test]
    fn a_crossing_is_said_in_words() {
        let mut desk = desk();
        let system = System::InchDecimal;
        let attitude = Quantity::from_value(Angle::from_deg(6.0), system);
        desk.edit(Change::new("Attitude"), |document| {
            document.setting.attitude = Some(attitude);
        });
        let key = Key::of(desk.good().expect("solved"), Over::default(), system);
        let worked_out = WorkedOut::of(&key);
        let said = worked_out.plots[0].sentences.join("\n");
        assert!(
            said.contains("\"short\"") && said.contains("the sweep limit (watch) at a reel of"),
            "{said}"
        );
        for plotted in &worked_out.plots {
            let marked: usize = plotted.crossings.iter().map(Vec::len).sum();
            let told = plotted.sentences.iter().filter(|s| s.contains("passes"));
            assert_eq!(marked, told.count());
        }
    }
}
