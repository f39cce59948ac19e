//! A slide's picture on the screen, and what a hand does on it.

use egui::{CornerRadius, Label, Pos2, Rect, RichText, Sense, Stroke, StrokeKind, Ui, UiBuilder};
use egui::{Vec2, WidgetInfo};

use super::looking::{BY_PLACE, Looking};
use super::sizes::Sizes;
use super::slide::{Draw, InMotion, LinkedSeen, PictureOf, Slide};
use crate::analysis::NumberId;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper, rect};
use crate::drawing::{Numbers, Panel, Role, Style, Theme, Words};

/// How far the wheel turns for a zoom by e, in points.
const WHEEL: f32 = 300.0;
/// The least frame around a place that is zoomed to, in points.
const LEAST_FRAME: f32 = 12.0;

/// What a picture depends on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    of: PictureOf,
    /// The numbers that are part of it.
    shows: Vec<NumberId>,
    place: Rect,
    theme: Theme,
    clips: f64,
    looking: Looking,
    has_numbers: bool,
    words: Words,
}

/// How the picture is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Shown {
    /// How far the reel has turned, in clips.
    pub(super) clips: f64,
    pub(super) has_numbers: bool,
    /// The words asked for on the picture.
    pub(super) words: Words,
}

/// What is kept of the picture on the screen.
#[derive(Default)]
pub(super) struct PictureUi {
    painted: Kept<Key, Result<Vec<Painted>, String>>,
    looking: Looking,
    /// Where it was shown last; of two that are linked, the left one.
    place: Option<Rect>,
    /// How far the right one of two stands from there.
    to_right: f32,
    /// Where a frame around a place begins.
    frame_from: Option<Pos2>,
}

impl PictureUi {
    /// All of it.
    pub(super) fn show_all(&mut self) {
        self.looking = Looking::default();
    }

    /// Enlarged by a factor at the pointer, or in the middle where the pointer is elsewhere.
    pub(super) fn zoom(&mut self, by: f64, pointer: Option<Pos2>) {
        let Some(place) = self.place else { return };
        let held = pointer.map(|at| self.in_left(at));
        let held = held.filter(|at| place.contains(*at));
        let held = held.unwrap_or(place.center());
        self.looking = self.looking.zoomed(by, point(held), paper(place));
    }

    /// A place of the right one of two pictures as the same place of the left one.
    fn in_left(&self, at: Pos2) -> Pos2 {
        let moved = at - Vec2::new(self.to_right, 0.0);
        let is_right = self.to_right > 0.0 && self.place.is_some_and(|left| left.contains(moved));
        if is_right { moved } else { at }
    }

    /// Close to the place at the pointer, or all of it again.
    pub(super) fn zoom_here(&mut self, pointer: Option<Pos2>) {
        if self.looking.is_close() {
            self.show_all();
        } else {
            self.zoom(BY_PLACE, pointer);
        }
    }

    /// Shows it in a place; by how many clips a hand turned the reel.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        place: Rect,
        slide: &Slide,
        (shown, sizes): (Shown, Sizes),
    ) -> Option<f64> {
        let (of, draw) = slide.picture.as_ref()?;
        let theme = theme(ui.ctx());
        let words = match shown.words {
            Words::Few if !slide.has_few_words => Words::All,
            words => words,
        };
        let numbers = if shown.has_numbers {
            Numbers::Shown
        } else {
            Numbers::Hidden
        };
        let style = Style {
            words,
            numbers,
            ..sizes.style(theme, slide.is_chart)
        };
        let linked = slide.linked.as_ref();
        (self.place, self.to_right) = match linked {
            None => (Some(place), 0.0),
            Some(linked) => {
                let halves = (linked.halves)(paper(place), style);
                let [left, right] = halves.map(rect);
                (Some(left), right.min.x - left.min.x)
            }
        };
        let key = Key {
            of: *of,
            shows: linked.map_or_else(Vec::new, |linked| linked.shows.clone()),
            place,
            theme,
            clips: if slide.motion.is_some() {
                shown.clips
            } else {
                0.0
            },
            looking: self.looking,
            has_numbers: shown.has_numbers,
            words,
        };
        let drawn = self.painted.get(key, |key| {
            let panels = match linked {
                Some(linked) => {
                    let seen = LinkedSeen {
                        clips: key.clips,
                        glass: key.looking.glass(),
                        has_numbers: key.has_numbers,
                    };
                    (linked.draw)(paper(key.place), style, seen)?
                }
                None => drawn(draw, key, style, slide.is_chart)?,
            };
            Ok(panels.iter().map(Painted::from_panel).collect())
        });
        match drawn {
            Ok(panels) => {
                for panel in panels {
                    panel.paint(ui.painter());
                }
            }
            Err(why) => {
                let ink = colour(theme.look(Role::Heading).ink);
                let why = RichText::new(why.as_str()).font(sizes.text()).color(ink);
                ui.new_child(UiBuilder::new().max_rect(place))
                    .add(Label::new(why).wrap());
                return None;
            }
        }
        let id = ui.scope_id().with("slide");
        let response = ui.interact(place, id, Sense::click_and_drag());
        response.widget_info(|| {
            let name = format!("Picture: {}", slide.title);
            WidgetInfo::labeled(egui::Role::Image, true, name)
        });
        self.take_hand(ui, &response, slide.motion.as_ref())
    }

    /// The wheel zooms. A drag turns the reel of a picture in motion, moves one that is close, and draws a
    /// frame around a place of any other.
    fn take_hand(
        &mut self,
        ui: &Ui,
        response: &egui::Response,
        motion: Option<&InMotion>,
    ) -> Option<f64> {
        let place = self.place.unwrap_or(response.rect);
        let over = response.hover_pos();
        let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta.y, input.zoom_delta()));
        let wheel = f64::from((scroll / WHEEL).exp() * pinch);
        if over.is_some() && (wheel - 1.0).abs() > 1e-6 {
            self.zoom(wheel, over);
            ui.ctx().request_repaint();
        }
        let by = response.drag_delta();
        if let Some(motion) = motion {
            let wide = (motion.clip_on_paper)(paper(place)) * self.looking.enlarges();
            // The ground goes with the hand, which is back while the reel goes on.
            return (by.x != 0.0 && wide > 0.0).then(|| f64::from(-by.x) / wide);
        }
        if self.looking.is_close() && self.frame_from.is_none() {
            if by != Vec2::ZERO {
                let by = kurbo::Vec2::new(f64::from(by.x), f64::from(by.y));
                self.looking = self.looking.dragged(by, paper(place));
                ui.ctx().request_repaint();
            }
            return None;
        }
        let pointer = ui.input(|input| input.pointer.interact_pos());
        if response.drag_started() {
            let began = ui.input(|input| input.pointer.press_origin());
            self.frame_from = began.or(pointer);
        }
        let (Some(from), Some(to)) = (self.frame_from, pointer) else {
            return None;
        };
        // A frame on the right one of two is one on the left one as well.
        let to_left = self.in_left(from) - from;
        let (from, to) = (from + to_left, to + to_left);
        let frame = Rect::from_two_pos(from, to).intersect(place);
        if response.drag_stopped() {
            self.frame_from = None;
            if frame.width().min(frame.height()) >= LEAST_FRAME {
                self.looking = self.looking.at_frame(paper(frame), paper(place));
                ui.ctx().request_repaint();
            }
        } else if response.dragged() {
            let ink = colour(theme(ui.ctx()).look(Role::Heading).ink);
            let line = Stroke::new(2.0, ink);
            ui.painter()
                .rect_stroke(frame, CornerRadius::ZERO, line, StrokeKind::Inside);
        } else {
            self.frame_from = None;
        }
        None
    }
}

/// The panels of a picture as it is looked at.
fn drawn(draw: &Draw, key: &Key, style: Style, is_chart: bool) -> Result<Vec<Panel>, String> {
    let place = paper(key.place);
    // A chart is enlarged as it is; in a drawing words and lines keep their size.
    let by = if is_chart {
        1.0
    } else {
        key.looking.enlarges()
    };
    let small = Style {
        text: style.text / by,
        pen: style.pen / by,
        enlarged: by,
        ..style
    };
    let panels = draw(place, small, key.clips)?;
    let panels = panels.into_iter().map(|panel| {
        if key.looking.is_close() {
            panel.through_glass(key.looking.glass(), place, style)
        } else {
            panel
        }
    });
    Ok(panels.collect())
}

fn point(at: Pos2) -> kurbo::Point {
    kurbo::Point::new(f64::from(at.x), f64::from(at.y))
}
