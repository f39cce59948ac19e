//! The bar of what can be done: there while a hand is at keys or pointer, gone a while after.

use std::borrow::Cow;

use egui::{Button, Color32, Context, Rect, RichText, Ui, UiBuilder, Vec2};

use super::keys::{Act, TABLE};
use super::sizes::Sizes;
use super::strips::width_of;
use crate::app::widgets::lettering::strong;

/// How long it is seen after a key or a move of the pointer, and how long it takes to fade, in seconds.
const SEEN_S: f64 = 4.0;
const FADES_S: f64 = 1.0;
/// Paper beside a word on the bar, and between one and the next, in parts of its size.
const ASIDE: f32 = 0.35;
const APART: f32 = 0.35;

/// The bar of a slide.
#[derive(Clone, Debug, Default)]
pub(super) struct Hint {
    /// When it was woken last, by the toolkit's clock; none before the first frame.
    woken_s: Option<f64>,
    /// What was done, said before all else until the bar is woken again.
    told: Cow<'static, str>,
}

impl Hint {
    /// Shows it again.
    pub(super) fn wake(&mut self, ctx: &Context) {
        self.told = Cow::default();
        self.woken_s = Some(ctx.input(|input| input.time));
    }

    /// Says what was done while the bar is seen.
    pub(super) fn tell(&mut self, what: impl Into<Cow<'static, str>>) {
        self.told = what.into();
    }

    /// How much of it is seen now, of one.
    fn seen(&mut self, ctx: &Context) -> f32 {
        let now = ctx.input(|input| input.time);
        let woken = *self.woken_s.get_or_insert(now);
        let left = SEEN_S - (now - woken);
        if left <= 0.0 {
            return 0.0;
        }
        let wait = if left > FADES_S { left - FADES_S } else { 0.05 };
        ctx.request_repaint_after_secs(as_f32(wait));
        as_f32((left / FADES_S).min(1.0))
    }

    /// The bar, as far as it has room: the rest is on the list of keys. What was pressed on it; none while
    /// it is not seen.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        place: Rect,
        sizes: Sizes,
        ink: Color32,
        is_offered: impl Fn(Act) -> bool,
    ) -> Option<Act> {
        let seen = self.seen(ui.ctx());
        if seen <= 0.0 {
            return None;
        }
        let font = sizes.fine();
        let aside = (ASIDE * font.size).floor();
        let apart = (APART * font.size).floor();
        let mut bar = ui.new_child(
            UiBuilder::new()
                .id_salt("what can be done")
                .max_rect(place)
                .layout(egui::Layout::left_to_right(egui::Align::Center)),
        );
        bar.spacing_mut().item_spacing.x = apart;
        bar.spacing_mut().button_padding = Vec2::new(aside, 0.0);
        bar.spacing_mut().interact_size.y = place.height();
        bar.set_opacity(seen);
        let mut room = place.width();
        let mut pressed = None;
        if !self.told.is_empty() {
            room -= width_of(&bar, &self.told, font.clone(), ink) + 2.0 * apart;
            let told = RichText::new(&*self.told).font(font.clone()).color(ink);
            bar.label(told.family(strong()));
        }
        let offers = TABLE.iter().filter(|entry| !entry.offer.is_empty());
        for entry in offers.filter(|entry| is_offered(entry.act)) {
            room -= width_of(&bar, entry.offer, font.clone(), ink) + 2.0 * aside + apart;
            if room < 0.0 {
                break;
            }
            let text = RichText::new(entry.offer).font(font.clone()).color(ink);
            if bar.add(Button::new(text)).clicked() {
                pressed = Some(entry.act);
            }
        }
        pressed
    }
}

#[expect(clippy::cast_possible_truncation, reason = "seconds of a hint")]
fn as_f32(seconds: f64) -> f32 {
    seconds as f32
}
