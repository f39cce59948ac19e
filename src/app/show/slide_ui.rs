//! A slide on the screen.

use egui::{
    Color32, Context, CornerRadius, Galley, Label, Rect, RichText, Sense, TextWrapMode, Ui,
    UiBuilder, Vec2, WidgetInfo,
};
use std::sync::Arc;

use super::keys::KEYS;
use super::sizes::{BETWEEN, MARGIN, Sizes};
use super::slide::{PictureOf, Slide};
use crate::analysis::CAUTION_IN_A_LINE;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper};
use crate::drawing::{Mark, Panel, Role, Theme};
use crate::lesson::ShownFigure;

/// From one line to the next, in parts of its size: Open Sans stands so high.
const LINE: f32 = 1.37;
/// How long the hint is seen after a key, and how long it takes to fade, in seconds.
const HINT_S: f64 = 4.0;
const FADES_S: f64 = 1.0;

/// What a picture depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Key {
    of: PictureOf,
    place: Rect,
    theme: Theme,
    clips: f64,
    has_numbers: bool,
}

/// What is kept of the slide on the screen.
#[derive(Default)]
pub(super) struct SlideUi {
    picture: Kept<Key, Result<Vec<Painted>, String>>,
    /// When a key was pressed last, by the toolkit's clock; none before the first frame.
    woken_s: Option<f64>,
}

impl SlideUi {
    /// Shows the hint again.
    pub(super) fn wake(&mut self, ctx: &Context) {
        self.woken_s = Some(ctx.input(|input| input.time));
    }

    /// All dark.
    pub(super) fn blank(ui: &Ui) {
        let all = ui.max_rect();
        ui.painter()
            .rect_filled(all, CornerRadius::ZERO, Color32::BLACK);
    }

    pub(super) fn show(&mut self, ui: &mut Ui, slide: &Slide, has_numbers: bool, clips: f64) {
        let all = ui.max_rect();
        let sizes = Sizes { high: all.height() };
        let theme = theme(ui.ctx());
        let ground = colour(theme.look(Role::Paper).fill);
        ui.painter().rect_filled(all, CornerRadius::ZERO, ground);
        let ink = colour(theme.look(Role::Heading).ink);
        let between = sizes.part(BETWEEN);
        let mut left = all.shrink(sizes.part(MARGIN));
        // From the foot up: cautions, hint, numbers.
        let fine = sizes.fine();
        let line = 1.4 * fine.size;
        let caution = CAUTION_IN_A_LINE.into_iter().find(|told| {
            let galley = laid(ui, told, fine.clone(), ink);
            galley.size().x <= left.width()
        });
        let caution = caution.unwrap_or(CAUTION_IN_A_LINE[CAUTION_IN_A_LINE.len() - 1]);
        let place = cut_foot(&mut left, line);
        words(
            ui,
            place,
            RichText::new(caution).font(fine.clone()).color(ink),
        );
        let place = cut_foot(&mut left, line);
        self.hint(ui, place, RichText::new(KEYS).font(fine), ink);
        left.max.y -= between;
        let numbers: &[ShownFigure] = if has_numbers { &slide.numbers } else { &[] };
        numbers_ui(ui, &mut left, numbers, sizes, ink);
        left.max.y -= between;
        // From the head down: title, text; the picture has what is left.
        let title = RichText::new(&slide.title).font(sizes.title()).color(ink);
        let mut head = ui.new_child(UiBuilder::new().max_rect(left));
        head.add(Label::new(title).wrap());
        if !slide.text.is_empty() {
            let text = RichText::new(&slide.text).font(sizes.text()).color(ink);
            head.add(Label::new(text).wrap());
        }
        left.min.y = (head.min_rect().bottom() + between).min(left.max.y);
        let Some((of, draw)) = &slide.picture else {
            return;
        };
        let key = Key {
            of: *of,
            place: left,
            theme,
            clips: if slide.moves { clips } else { 0.0 },
            has_numbers,
        };
        let drawn = self.picture.get(key, |_| {
            let panels = draw(paper(left), sizes.style(theme, slide.is_chart), key.clips)?;
            let panels = panels.into_iter().map(|panel| {
                let panel = if has_numbers {
                    panel
                } else {
                    without_numbers(panel)
                };
                Painted::from_panel(&panel)
            });
            Ok(panels.collect())
        });
        match drawn {
            Ok(panels) => {
                let response = ui.interact(left, ui.scope_id().with("slide"), Sense::hover());
                response.widget_info(|| {
                    WidgetInfo::labeled(
                        egui::Role::Image,
                        true,
                        format!("Picture: {}", slide.title),
                    )
                });
                for panel in panels {
                    panel.paint(ui.painter());
                }
            }
            Err(why) => {
                let why = RichText::new(why.as_str()).font(sizes.text()).color(ink);
                ui.new_child(UiBuilder::new().max_rect(left))
                    .add(Label::new(why).wrap());
            }
        }
    }

    /// The keys, until a while after the last one was pressed.
    fn hint(&mut self, ui: &mut Ui, place: Rect, text: RichText, ink: Color32) {
        let now = ui.input(|input| input.time);
        let woken = *self.woken_s.get_or_insert(now);
        let left = HINT_S - (now - woken);
        if left <= 0.0 {
            return;
        }
        let wait = if left > FADES_S { left - FADES_S } else { 0.05 };
        ui.ctx().request_repaint_after_secs(as_f32(wait));
        let seen = as_f32((left / FADES_S).min(1.0));
        words(ui, place, text.color(ink.gamma_multiply(seen)));
    }
}

#[expect(clippy::cast_possible_truncation, reason = "seconds of a hint")]
fn as_f32(seconds: f64) -> f32 {
    seconds as f32
}

/// A picture that keeps its numbers to itself: a leader or a dimension asks with what it is about.
fn without_numbers(mut panel: Panel) -> Panel {
    let has_number = |text: &str| text.contains(|c: char| c.is_ascii_digit());
    panel.marks.retain_mut(|mark| match mark {
        Mark::Text { role, text, .. } if has_number(text) => {
            *text = asking(text);
            *role != Role::Note
        }
        _ => true,
    });
    panel
}

/// What a text is about, with a question in place of its number. A verdict before the number would
/// answer the question, and what stands behind a comma is a title's scale.
fn asking(text: &str) -> String {
    let before = text.split(|c: char| c.is_ascii_digit()).next();
    let about = before.unwrap_or_default();
    match about.rsplit_once(": ") {
        Some((_, about)) => format!("{about}?"),
        None => match about.rsplit_once(", ") {
            Some((title, _)) => title.to_owned(),
            None => format!("{about}?"),
        },
    }
}

/// Takes so much off the foot of a rectangle.
fn cut_foot(left: &mut Rect, high: f32) -> Rect {
    let place = Rect::from_min_max(egui::pos2(left.min.x, left.max.y - high), left.max);
    left.max.y -= high;
    place
}

fn laid(ui: &Ui, text: &str, font: egui::FontId, ink: Color32) -> Arc<Galley> {
    ui.painter().layout_no_wrap(text.to_owned(), font, ink)
}

/// Words in one line.
fn words(ui: &mut Ui, place: Rect, text: RichText) {
    let mut line = ui.new_child(UiBuilder::new().max_rect(place));
    line.style_mut().wrap_mode = Some(TextWrapMode::Truncate);
    line.add(Label::new(text));
}

/// Numbers in digits for the last row, each over its name; in as many columns as there is room for.
fn numbers_ui(ui: &mut Ui, left: &mut Rect, numbers: &[ShownFigure], sizes: Sizes, ink: Color32) {
    if numbers.is_empty() {
        return;
    }
    let (large, small) = (sizes.number(), sizes.name());
    let gap = sizes.part(2.0 * BETWEEN);
    let widest = numbers.iter().map(|number| {
        let shown = laid(ui, &number.shown, large.clone(), ink).size().x;
        shown.max(laid(ui, &number.title, small.clone(), ink).size().x)
    });
    let widest = widest.fold(0.0, f32::max) + gap;
    let most = (left.width() / widest).floor().max(1.0);
    let count = u8::try_from(numbers.len()).unwrap_or(u8::MAX);
    // Even rows: four in fours or in twos.
    let fitting = (1..=count)
        .rev()
        .find(|columns| f32::from(*columns) <= most);
    let rows = count.div_ceil(fitting.unwrap_or(1));
    let columns = count.div_ceil(rows);
    let high = LINE * (large.size + small.size);
    let place = cut_foot(left, high * f32::from(rows));
    let across = left.width() / f32::from(columns);
    for (index, number) in (0_u8..).zip(numbers) {
        let (column, row) = (index % columns, index / columns);
        let at = place.min + Vec2::new(across * f32::from(column), high * f32::from(row));
        let cell = Rect::from_min_size(at, Vec2::new(across - gap / 2.0, high));
        let mut cell = ui.new_child(UiBuilder::new().max_rect(cell));
        cell.spacing_mut().item_spacing = Vec2::ZERO;
        cell.style_mut().wrap_mode = Some(TextWrapMode::Truncate);
        let shown = RichText::new(&number.shown).font(large.clone()).color(ink);
        cell.add(Label::new(shown));
        let title = RichText::new(&number.title).font(small.clone()).color(ink);
        cell.add(Label::new(title));
    }
}
