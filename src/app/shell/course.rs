//! The course that Tab runs through the window, in the order in which a person reads it: bar, form,
//! area, notices, and round again. It begins at the form's first field. Whatever has the keys when it
//! vanishes leaves them to what comes after it.

use egui::{Context, FocusDirection, Id, Key, LayerId, Modifiers, Popup, Rect, Ui};

use crate::app::form::Keys;

/// Something that can have the keys.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Stop {
    id: Id,
    place: Rect,
}

/// What of a part of the window can have the keys, in the order in which it was laid out.
#[derive(Clone, Debug, Default)]
pub struct Stops(Vec<Stop>);

impl Stops {
    /// Shows a part of the window; what of it can have the keys is noted.
    pub fn of(ui: &mut Ui, part_ui: impl FnOnce(&mut Ui)) -> Self {
        let layer = ui.layer_id();
        let before = ui
            .ctx()
            .viewport(|view| view.this_pass.widgets.get_layer(layer).count());
        part_ui(ui);
        ui.ctx().viewport(|view| {
            let shown = view.this_pass.widgets.get_layer(layer).skip(before);
            let stops = shown.filter(|widget| widget.enabled && widget.sense.is_focusable());
            let stop = |widget: &egui::WidgetRect| Stop {
                id: widget.id,
                place: widget.rect,
            };
            Self(stops.map(stop).collect())
        })
    }

    /// From line to line and from left to right, however it was laid out.
    pub fn in_reading_order(mut self) -> Self {
        // Lines of a bar are higher than what differs within one.
        const LINE: f32 = 12.0;
        self.0.sort_by(|a, b| {
            let (a, b) = (a.place.center(), b.place.center());
            if (a.y - b.y).abs() < LINE {
                a.x.total_cmp(&b.x)
            } else {
                a.y.total_cmp(&b.y)
            }
        });
        self
    }

    /// With the marks of examples, and the buttons between readings, after everything else: whoever types
    /// one reading after the other comes to none, and no mark vanishes under the hand.
    pub fn with_marks_last(mut self, marks: &[Id]) -> Self {
        self.0.sort_by_key(|stop| marks.contains(&stop.id));
        self
    }
}

/// A stop, and which part of the window it stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Placed {
    part: usize,
    id: Id,
}

/// The course, as the last frame laid it out.
#[derive(Clone, Debug, Default)]
pub struct Course {
    stops: Vec<Placed>,
    /// Where it begins.
    first: Option<Id>,
    /// What had the keys last.
    last: Option<Id>,
    /// What had them when a card was opened, until it is closed.
    beneath_card: Option<Id>,
    had_card: bool,
}

impl Course {
    /// Goes on by what is pressed, before anything is laid out. On a card the toolkit goes by itself.
    pub fn go_on(&mut self, ctx: &Context, has_card: bool) {
        // The toolkit keeps the window out of reach for one frame more than the card is open.
        let is_in_reach = ctx.memory(|memory| memory.is_above_modal_layer(LayerId::background()));
        if has_card || !is_in_reach {
            return;
        }
        if std::mem::take(&mut self.had_card)
            && let Some(beneath) = self.beneath_card.take()
            && ctx.memory(|memory| memory.focused().is_none())
        {
            ctx.memory_mut(|memory| memory.request_focus(beneath));
        }
        let presses = |modifiers: Modifiers| {
            ctx.input(|input| {
                let is_press = |event: &&egui::Event| {
                    matches!(event, egui::Event::Key { key: Key::Tab, pressed: true, modifiers: held, .. } if *held == modifiers)
                };
                input.events.iter().filter(is_press).count()
            })
        };
        let (on, back) = (presses(Modifiers::NONE), presses(Modifiers::SHIFT));
        if on == back {
            return;
        }
        ctx.memory_mut(|memory| memory.move_focus(FocusDirection::None));
        if Popup::is_any_open(ctx) {
            // An open list or menu closes; its button has the keys again.
            Popup::close_all(ctx);
            return;
        }
        let focused = ctx.memory(egui::Memory::focused);
        let place = |id: Id| self.stops.iter().position(|stop| stop.id == id);
        let stop = |place: usize| self.stops.get(place).map(|stop| stop.id);
        let next = match focused.or(self.last).and_then(place) {
            Some(here) => stop(stepped(here, on, back, self.stops.len())),
            None => self.first.or(stop(0)),
        };
        if let Some(next) = next {
            ctx.memory_mut(|memory| memory.request_focus(next));
        }
    }

    /// Notes how the frame was laid out, and what has the keys in it.
    pub fn lay(&mut self, ctx: &Context, parts: [Stops; 4], keys: &Keys, has_card: bool) {
        let stops = parts.into_iter().enumerate().flat_map(|(part, stops)| {
            let placed = move |stop: Stop| Placed { part, id: stop.id };
            stops.0.into_iter().map(placed)
        });
        let before = std::mem::replace(&mut self.stops, stops.collect());
        self.first = keys.first;
        let focused = ctx.memory(egui::Memory::focused);
        let heir = focused.filter(|_| !has_card);
        let heir = heir.and_then(|focused| heir_of(focused, &before, &self.stops));
        if let Some(heir) = heir {
            ctx.memory_mut(|memory| memory.request_focus(heir));
            ctx.request_repaint();
        }
        let focused = heir.or(focused);
        let focused = focused.filter(|focused| self.stops.iter().any(|stop| stop.id == *focused));
        self.last = focused.or(self.last);
        if has_card {
            self.had_card = true;
        } else if !self.had_card {
            self.beneath_card = focused;
        }
    }
}

/// What has the keys after what had them: none while that is still there. It is what came next in the
/// same part of the window, or else what came before.
fn heir_of(focused: Id, before: &[Placed], now: &[Placed]) -> Option<Id> {
    if now.iter().any(|stop| stop.id == focused) {
        return None;
    }
    let gone = before.iter().position(|stop| stop.id == focused)?;
    let is_heir = |stop: &&Placed| stop.part == before[gone].part && now.contains(stop);
    let heir = before[gone..].iter().find(is_heir);
    let heir = heir.or_else(|| before[..gone].iter().rev().find(is_heir));
    heir.map(|stop| stop.id)
}

/// So many places on and back, round and round.
fn stepped(here: usize, on: usize, back: usize, count: usize) -> usize {
    (here + on + count * back - back) % count
}

#[cfg(test)]
mod tests {
    use egui::{Vec2, pos2};

    use super::*;

    fn stops(places: &[(f32, f32)]) -> Stops {
        let stop = |(index, (x, y)): (usize, &(f32, f32))| Stop {
            id: Id::unique(index),
            place: Rect::from_center_size(pos2(*x, *y), Vec2::splat(20.0)),
        };
        Stops(places.iter().enumerate().map(stop).collect())
    }

    fn order(stops: &Stops) -> Vec<usize> {
        let index = |stop: &Stop| (0..9).find(|index| Id::unique(index) == stop.id);
        stops.0.iter().filter_map(index).collect()
    }

    #[test]
    fn a_bar_is_read_from_left_to_right_and_line_by_line() {
        let bar = stops(&[(10.0, 10.0), (90.0, 12.0), (50.0, 9.0), (20.0, 40.0)]);
        assert_eq!(order(&bar.in_reading_order()), [0, 2, 1, 3]);
    }

    #[test]
    fn the_marks_of_examples_come_after_every_field() {
        let form =
            stops(&[(0.0, 0.0); 5]).with_marks_last(&[Id::unique(0_usize), Id::unique(3_usize)]);
        assert_eq!(order(&form), [1, 2, 4, 0, 3]);
    }

    #[test]
    fn what_vanishes_leaves_the_keys_to_what_comes_after_it_in_its_part() {
        let placed = |stops: &[(usize, usize)]| -> Vec<Placed> {
            let placed = |(part, index): &(usize, usize)| Placed {
                part: *part,
                id: Id::unique(index),
            };
            stops.iter().map(placed).collect()
        };
        let before = placed(&[(0, 0), (1, 1), (1, 2), (1, 3), (2, 4)]);
        let heir = |now: &[(usize, usize)]| heir_of(Id::unique(2_usize), &before, &placed(now));
        assert_eq!(heir(&[(0, 0), (1, 1), (1, 2)]), None, "it is still there");
        assert_eq!(heir(&[(1, 1), (1, 3), (2, 4)]), Some(Id::unique(3_usize)));
        assert_eq!(heir(&[(0, 0), (1, 1), (2, 4)]), Some(Id::unique(1_usize)));
        assert_eq!(heir(&[(0, 0), (2, 4)]), None, "its part is gone");
    }

    #[test]
    fn the_course_goes_round() {
        assert_eq!(stepped(4, 1, 0, 5), 0);
        assert_eq!(stepped(0, 0, 1, 5), 4);
        assert_eq!(stepped(1, 0, 3, 5), 3);
        assert_eq!(stepped(2, 2, 0, 5), 4);
    }
}
