//! Numbers in digits for the last row.

use egui::{Color32, Label, Rect, RichText, Sense, TextWrapMode, Ui, UiBuilder, Vec2, WidgetInfo};

use super::sizes::{BETWEEN, Sizes};
use super::slide::LargeNumber;
use super::strips::{cut_foot, width_of};
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;

/// From one line to the next, in parts of its size: Open Sans stands so high.
const LINE: f32 = 1.37;
/// How large the symbol of a level is beside a number, and the paper it takes, in parts of the number's size.
const SYMBOL: f32 = 0.62;
const BESIDE: f32 = 0.85;

/// Numbers off the foot of a rectangle, each over its name; in as many columns as there is room for.
pub(super) fn numbers_ui(
    ui: &mut Ui,
    left: &mut Rect,
    numbers: &[LargeNumber],
    sizes: Sizes,
    ink: Color32,
) {
    if numbers.is_empty() {
        return;
    }
    let (large, small) = (sizes.number(), sizes.name());
    let gap = sizes.part(2.0 * BETWEEN);
    let beside = BESIDE * large.size;
    let widest = numbers.iter().map(|number| {
        let symbol = number.level.as_ref().map_or(0.0, |_| beside);
        let shown = width_of(ui, &number.shown, large.clone(), ink) + symbol;
        shown.max(width_of(ui, &number.title, small.clone(), ink))
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
        let mut cell = Rect::from_min_size(at, Vec2::new(across - gap / 2.0, high));
        if let Some((level, word)) = &number.level {
            // Its middle is the digits' middle.
            let middle = cell.min + Vec2::new(0.5 * SYMBOL, 0.5 * LINE) * large.size;
            let place = Rect::from_center_size(middle, Vec2::splat(SYMBOL * large.size));
            symbol(ui, place, *level, theme(ui.ctx()));
            let id = ui.scope_id().with(("level", &number.title));
            let told = format!("{}: {word}", number.title);
            ui.interact(place, id, Sense::hover())
                .widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &told));
            cell.min.x += beside;
        }
        let mut cell = ui.new_child(UiBuilder::new().max_rect(cell));
        cell.spacing_mut().item_spacing = Vec2::ZERO;
        cell.style_mut().wrap_mode = Some(TextWrapMode::Truncate);
        let shown = RichText::new(&number.shown).font(large.clone()).color(ink);
        cell.add(Label::new(shown));
        let title = RichText::new(&number.title).font(small.clone()).color(ink);
        cell.add(Label::new(title));
    }
}
