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

/// What stands for a number that is hidden.
const HIDDEN: &str = "?";
/// Lines of a number's name at the most, where it stands beside others.
const MOST_LINES: usize = 2;

/// Numbers off the foot of a rectangle, each over its name; in as many columns as there is room for. While
/// they are hidden their room is kept, so that the picture stays as it is when they are asked for.
pub(super) fn numbers_ui(
    ui: &mut Ui,
    left: &mut Rect,
    (numbers, are_hidden): (&[LargeNumber], bool),
    sizes: Sizes,
    ink: Color32,
) {
    if numbers.is_empty() {
        return;
    }
    let (large, small) = (sizes.number(), sizes.name());
    let gap = sizes.part(2.0 * BETWEEN);
    let beside = BESIDE * large.size;
    let widths = numbers.iter().map(|number| {
        let symbol = number.level.as_ref().map_or(0.0, |_| beside);
        width_of(ui, &number.shown, large.clone(), ink) + symbol
    });
    let widths: Vec<f32> = widths.collect();
    let lines_of = |number: &LargeNumber, wide: f32| {
        let symbol = number.level.as_ref().map_or(0.0, |_| beside);
        let text = number.title.clone();
        let galley = ui.painter().layout(text, small.clone(), ink, wide - symbol);
        galley.rows.len()
    };
    // The most columns, in even rows, in which every number stands whole and its name in two lines.
    let set = (1..=numbers.len()).rev().find_map(|most| {
        let rows = numbers.len().div_ceil(most);
        let columns = Columns::of(&widths, numbers.len().div_ceil(rows), left.width(), gap)?;
        let lines = numbers.iter().enumerate();
        let lines = lines.map(|(at, number)| lines_of(number, columns.wide(at)));
        let lines = lines.max().unwrap_or(1);
        (lines <= MOST_LINES || most == 1).then_some((columns, rows, lines))
    });
    let Some((columns, rows, lines)) = set else {
        return;
    };
    let high = LINE * (large.size + small.size * as_f32(lines));
    let place = cut_foot(left, high * as_f32(rows));
    for (index, number) in numbers.iter().enumerate() {
        let (row, x) = (index / columns.count(), columns.from(index));
        let at = place.min + Vec2::new(x, high * as_f32(row));
        let mut cell = Rect::from_min_size(at, Vec2::new(columns.wide(index), high));
        if let Some((level, word)) = number.level.as_ref().filter(|_| !are_hidden) {
            // Its middle is the digits' middle.
            let middle = cell.min + Vec2::new(0.5 * SYMBOL, 0.5 * LINE) * large.size;
            let place = Rect::from_center_size(middle, Vec2::splat(SYMBOL * large.size));
            symbol(ui, place, *level, theme(ui.ctx()));
            let id = ui.scope_id().with(("level", &number.title));
            let told = format!("{}: {word}", number.title);
            ui.interact(place, id, Sense::hover())
                .widget_info(|| WidgetInfo::labeled(egui::Role::Label, true, &told));
            cell.min.x += beside;
        }
        let mut cell = ui.new_child(UiBuilder::new().max_rect(cell));
        cell.spacing_mut().item_spacing = Vec2::ZERO;
        cell.style_mut().wrap_mode = Some(TextWrapMode::Truncate);
        let shown = if are_hidden { HIDDEN } else { &number.shown };
        let shown = RichText::new(shown).font(large.clone()).color(ink);
        cell.add(Label::new(shown));
        let title = RichText::new(&number.title).font(small.clone()).color(ink);
        cell.add(Label::new(title).wrap());
    }
}

/// Columns of numbers, each as wide as its widest number and its share of what is left.
struct Columns {
    widths: Vec<f32>,
    gap: f32,
}

impl Columns {
    /// So many columns; none where they do not fit, unless there is but one.
    fn of(widths: &[f32], count: usize, room: f32, gap: f32) -> Option<Self> {
        let widest = |column: usize| {
            let own = widths.iter().skip(column).step_by(count);
            own.copied().fold(0.0, f32::max)
        };
        let widths: Vec<f32> = (0..count).map(widest).collect();
        let needed = widths.iter().sum::<f32>() + gap * as_f32(count - 1);
        if needed > room && count > 1 {
            return None;
        }
        let share = (room - needed) / as_f32(count);
        let widths = widths.iter().map(|wide| wide + share).collect();
        Some(Self { widths, gap })
    }

    fn count(&self) -> usize {
        self.widths.len()
    }

    fn wide(&self, index: usize) -> f32 {
        self.widths[index % self.count()]
    }

    fn from(&self, index: usize) -> f32 {
        let before = &self.widths[..index % self.count()];
        before.iter().map(|wide| wide + self.gap).sum()
    }
}

#[expect(clippy::cast_precision_loss, reason = "a handful")]
fn as_f32(count: usize) -> f32 {
    count as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_as_wide_as_their_numbers_and_share_what_is_left() {
        let widths = [100.0, 200.0, 150.0, 50.0];
        let columns = Columns::of(&widths, 4, 620.0, 20.0).expect("they fit");
        assert_eq!(columns.widths, [115.0, 215.0, 165.0, 65.0]);
        assert_eq!((columns.from(0), columns.from(2)), (0.0, 370.0));
        assert!(Columns::of(&widths, 4, 559.0, 20.0).is_none());
        let two = Columns::of(&widths, 2, 400.0, 20.0).expect("they fit");
        assert_eq!(two.widths, [165.0, 215.0]);
        assert_eq!((two.wide(3), two.from(3)), (215.0, 185.0));
    }
}
