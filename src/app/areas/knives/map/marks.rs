//! The map's key and its two marks: the present setting and the bench pose.

use egui::{Align2, FontId, Pos2, Rect, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use egui_plot::{PlotPoint, PlotResponse};

use super::chosen::Chosen;
use super::painting::{SHOWN, USABLE, swatch};
use crate::analysis::knives::Map;
use crate::app::areas::knives::axis::Axis;
use crate::app::areas::knives::inks::{ink, paper, veil};
use crate::drawing::Theme;

/// What the hatches and the two marks mean.
pub fn key_ui(ui: &mut Ui, map: &Map, theme: Theme) {
    ui.horizontal_wrapped(|ui| {
        let plain = |place: Rect| {
            let stroke = Stroke::new(2.0, ink(theme));
            let inside = egui::StrokeKind::Inside;
            vec![
                Shape::rect_filled(place, 2.0, paper(theme)),
                Shape::rect_stroke(place, 2.0, stroke, inside),
            ]
        };
        key_entry_ui(ui, USABLE, &plain, theme);
        for limit in SHOWN {
            if map.rows.iter().any(|row| !row.bands(limit).is_empty()) {
                let hatched = |place: Rect| swatch(place, limit, theme);
                key_entry_ui(ui, limit.name(), &hatched, theme);
            }
        }
        for (mark, words) in [(Mark::Now, "as set now"), (Mark::Bench, "bench")] {
            let marked = |place: Rect| mark.shapes(place.center(), theme);
            key_entry_ui(ui, words, &marked, theme);
        }
    });
}

/// A sample and its words, which no line break parts.
fn key_entry_ui(ui: &mut Ui, words: &str, sample: &dyn Fn(Rect) -> Vec<Shape>, theme: Theme) {
    const SAMPLE: egui::Vec2 = vec2(22.0, 16.0);
    let font = egui::TextStyle::Body.resolve(ui.style());
    let galley = ui
        .painter()
        .layout_no_wrap(words.to_owned(), font, ink(theme));
    let size = vec2(
        SAMPLE.x + galley.size().x + 14.0,
        SAMPLE.y.max(galley.size().y),
    );
    let (place, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Label, true, words));
    let corner = pos2(place.left(), place.center().y - SAMPLE.y / 2.0);
    let at = Rect::from_min_size(corner, SAMPLE);
    ui.painter()
        .with_clip_rect(at.expand(2.0).intersect(ui.clip_rect()))
        .extend(sample(at));
    let corner = pos2(at.right() + 6.0, place.center().y - galley.size().y / 2.0);
    ui.painter().galley(corner, galley, ink(theme));
}

/// A place that is marked on the map.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Mark {
    Now,
    Bench,
}

impl Mark {
    fn shapes(self, at: Pos2, theme: Theme) -> Vec<Shape> {
        let (ink, paper) = (ink(theme), paper(theme));
        match self {
            Self::Now => vec![
                Shape::circle_filled(at, 7.5, paper),
                Shape::circle_stroke(at, 6.0, Stroke::new(2.0, ink)),
                Shape::circle_filled(at, 2.8, ink),
            ],
            Self::Bench => {
                let corners = |size: f32| {
                    [(0.0, -size), (size, 0.0), (0.0, size), (-size, 0.0)]
                        .into_iter()
                        .map(|(x, y)| at + vec2(x, y))
                        .collect::<Vec<_>>()
                };
                vec![
                    Shape::convex_polygon(corners(8.5), paper, Stroke::NONE),
                    Shape::convex_polygon(corners(6.5), paper, Stroke::new(2.0, ink)),
                ]
            }
        }
    }
}

/// Where the bench pose and the present setting stand on the screen.
pub fn mark_places(response: &PlotResponse<()>, chosen: &Chosen, diameter: Axis) -> [Pos2; 2] {
    let bench = &chosen.unit.profile.bench;
    let now = chosen.unit.setting.reel_diameter;
    [
        (bench.attitude, bench.reel_diameter),
        (chosen.trial.attitude, now),
    ]
    .map(|(attitude, size)| {
        let point = PlotPoint::new(attitude.deg(), diameter.place(size.mm()));
        response.transform.position_from_point(&point)
    })
}

/// The present setting and the bench pose, with their names.
pub fn marks_ui(
    ui: &Ui,
    response: &PlotResponse<()>,
    chosen: &Chosen,
    diameter: Axis,
    theme: Theme,
) {
    let frame = *response.transform.frame();
    let painter = ui
        .painter()
        .with_clip_rect(frame.expand(8.0).intersect(ui.clip_rect()));
    let [on_bench, now] = mark_places(response, chosen, diameter);
    let is_one_place = on_bench.distance(now) < 14.0;
    for (mark, words, place) in [
        (Mark::Bench, "bench", on_bench),
        (Mark::Now, "as set now", now),
    ] {
        if !frame.expand(0.5).contains(place) || (is_one_place && mark == Mark::Bench) {
            continue;
        }
        let words = if !is_one_place {
            words
        } else if on_bench.distance(now) < 0.5 {
            "as set now, as on the bench"
        } else {
            "as set now, near the bench"
        };
        let galley =
            painter.layout_no_wrap(words.to_owned(), FontId::proportional(12.5), ink(theme));
        // On the side away from the other mark, if there is room.
        let other = if mark == Mark::Now { on_bench } else { now };
        let room = 14.0 + galley.size().x;
        let is_right =
            place.x + room < frame.right() && (place.x >= other.x || place.x - room < frame.left());
        let (anchor, off) = if is_right {
            (Align2::LEFT_CENTER, 12.0)
        } else {
            (Align2::RIGHT_CENTER, -12.0)
        };
        let mut label = anchor.anchor_size(place + vec2(off, 0.0), galley.size());
        let up = (frame.top() + 2.0 - label.top()).max(0.0);
        let down = (label.bottom() - frame.bottom() + 2.0).max(0.0);
        label = label.translate(vec2(0.0, up - down));
        painter.rect_filled(label.expand2(vec2(3.0, 1.0)), 2.0, veil(theme));
        painter.galley(label.min, galley, ink(theme));
        painter.extend(mark.shapes(place, theme));
    }
}
