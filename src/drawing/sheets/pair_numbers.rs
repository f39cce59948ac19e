//! The numbers under two pictures side by side: those of both, and what they differ in between them.

use kurbo::{Point, Rect, Size};

use super::view_picture::PictureView;
use crate::analysis::{Difference, Level, NumberId, Solved};
use crate::drawing::paper::{Anchor, Pen, Pencil, Style, level_symbol};
use crate::drawing::scene::Role;
use crate::units::{Compared, System};

/// Size of the line that says which way the differences count, and the paper it takes.
const WAY: f64 = 11.5;
const WAY_HIGH: f64 = 18.0;
/// What a difference counts.
const RIGHT_LESS_LEFT: &str = "difference: right minus left";
/// Paper between a number and the difference beside it.
const GAP: f64 = 16.0;
/// Paper between the numbers and what is over them.
const OVER: f64 = 4.0;
/// Part of the height that numbers take at the most.
const MOST_NUMBERS: f64 = 0.55;
/// The same of large ones, which leave the pictures with their names half of a screen.
const MOST_LARGE_NUMBERS: f64 = 0.36;
/// Width of a level's symbol beside a number, with its paper, in parts of the number's size.
const SYMBOL: f64 = 1.2;
/// How high a name and the difference under it are, in parts of their sizes, and the size of that in parts of
/// the large numbers'.
const NAME_HIGH: f64 = 1.3;
const MORE_HIGH: f64 = 1.4;
const MORE: f64 = 0.46;
/// What stands for a number that is hidden.
const HIDDEN: &str = "?";

/// The numbers that are told of both, and how large.
#[derive(Clone, Debug, PartialEq)]
pub struct PairNumbers {
    /// Which, what matters most first; those that find no room are left out.
    pub ids: Vec<NumberId>,
    /// Size of the numbers, in the window's sizes of words.
    pub size: f64,
    /// Size of what they are called: over the difference where the numbers are larger, else before it.
    pub name_size: f64,
    /// Their room is kept and their names stand there, but no number does.
    pub are_hidden: bool,
}

impl PairNumbers {
    /// All that are told of two units in a picture, in ordinary words.
    #[must_use]
    pub fn all_of(view: PictureView) -> Self {
        let ids = if view == PictureView::Ground {
            Difference::ON_GROUND
        } else {
            Difference::ON_PLATE
        };
        Self {
            ids: ids.to_vec(),
            size: 14.0,
            name_size: 14.0,
            are_hidden: false,
        }
    }

    fn is_named_above(&self) -> bool {
        self.size > 1.2 * self.name_size
    }

    /// From one number to the next, in the window's sizes of words.
    fn line(&self) -> f64 {
        if self.is_named_above() {
            NAME_HIGH * self.name_size + MORE_HIGH * self.more_size()
        } else {
            1.45 * self.size
        }
    }

    /// Size of the difference: between large numbers it is smaller, so that it has its name over it and the
    /// row is no higher than the numbers need.
    fn more_size(&self) -> f64 {
        if self.is_named_above() {
            MORE * self.size
        } else {
            self.size
        }
    }

    /// Those that find room.
    fn shown_in(&self, place: Rect, style: Style) -> impl Iterator<Item = NumberId> {
        let most = if self.is_named_above() {
            MOST_LARGE_NUMBERS
        } else {
            MOST_NUMBERS
        };
        let room = most * place.height() - style.text * (WAY_HIGH + OVER);
        let line = style.text * self.line();
        let counted = self.ids.iter().zip(1_u8..);
        let shown = counted.take_while(move |(_, count)| f64::from(*count) * line <= room);
        shown.map(|(id, _)| *id)
    }

    /// How high they are at the foot of a rectangle of paper, with the line over them.
    pub(super) fn high_in(&self, place: Rect, style: Style) -> f64 {
        let rows = self.shown_in(place, style);
        let rows = rows.fold(0.0, |rows, _| rows + 1.0);
        if rows > 0.0 {
            style.text * (rows * self.line() + WAY_HIGH + OVER)
        } else {
            0.0
        }
    }

    /// Writes them at the foot of the paper, the differences between those of both.
    pub(super) fn write(&self, words: &mut Pencil, units: [&Solved; 2], system: System) {
        let (place, style) = (words.window, words.style);
        let rows = self.shown_in(place, style);
        let rows = rows.map(|id| Row::of(&Difference::of(id, units), system, self.are_hidden));
        let rows: Vec<Row> = rows.collect();
        if rows.is_empty() {
            return;
        }
        let line = words.by_text(self.line());
        let way = words.by_text(WAY_HIGH);
        let mut top = place.y1 - self.high_in(place, style) + way;
        let middle = place.center().x;
        if !self.are_hidden {
            let at = Point::new(middle, top - 0.5 * way);
            let told = RIGHT_LESS_LEFT.to_owned();
            words.sized_text(Role::Note, at, Anchor::Middle, WAY, told);
        }
        let laid = Laid::of(words, self, &rows);
        for row in &rows {
            laid.row(words, self, row, (top, top + line));
            top += line;
        }
    }
}

/// A number of both, as it is read.
struct Row {
    name: &'static str,
    compared: Compared,
    levels: [Level; 2],
}

impl Row {
    fn of(difference: &Difference, system: System, is_hidden: bool) -> Self {
        let name = difference.id.title();
        if is_hidden {
            return Self {
                name,
                compared: Compared {
                    shown: [HIDDEN, HIDDEN].map(str::to_owned),
                    more: String::new(),
                    is_about: false,
                },
                levels: [Level::Fine; 2],
            };
        }
        Self {
            name,
            compared: difference.compared(system),
            levels: difference.levels,
        }
    }

    /// What stands over the difference.
    fn name_above(&self) -> String {
        if self.compared.is_about {
            format!("{}, about", self.name)
        } else {
            self.name.to_owned()
        }
    }

    fn in_a_line(&self) -> String {
        let more = self.compared.told();
        if more.is_empty() {
            self.name.to_owned()
        } else {
            format!("{}: {more}", self.name)
        }
    }

    /// Width of what stands in the middle, and of the wider of what stands beside it.
    fn widths(&self, words: &Pencil, numbers: &PairNumbers) -> (f64, f64) {
        let wide = |text: &str, size| words.width_of(Role::Heading, text, size);
        let middle = if numbers.is_named_above() {
            let name = wide(&self.name_above(), numbers.name_size);
            name.max(wide(&self.compared.more, numbers.more_size()))
        } else {
            wide(&self.in_a_line(), numbers.size)
        };
        let symbol = words.by_text(SYMBOL * numbers.size);
        let sides = self.compared.shown.iter().zip(self.levels);
        let sides = sides.map(|(shown, level)| {
            let symbol = if level > Level::Fine { symbol } else { 0.0 };
            wide(shown, numbers.size) + symbol
        });
        (middle, sides.fold(0.0, f64::max))
    }
}

/// Where the numbers stand, and by how much they are smaller than asked for where a row would find no room.
struct Laid {
    /// Half of the widest middle, with its paper: where all rows that have the room begin.
    half_middle: f64,
    part: f64,
    gap: f64,
}

impl Laid {
    fn of(words: &Pencil, numbers: &PairNumbers, rows: &[Row]) -> Self {
        let gap = words.by_text(GAP);
        let widths = rows.iter().map(|row| row.widths(words, numbers));
        let widths: Vec<_> = widths.collect();
        let needed = widths
            .iter()
            .map(|(middle, aside)| middle + 2.0 * (aside + gap));
        let needed = needed.fold(0.0, f64::max);
        let part = (words.window.width() / needed).min(1.0);
        let middle = widths.iter().map(|(middle, _)| *middle);
        Self {
            half_middle: 0.5 * part * middle.fold(0.0, f64::max) + gap,
            part,
            gap,
        }
    }

    /// How far from the middle a row's numbers begin: nearer where they would leave the paper.
    fn beside(&self, words: &Pencil, numbers: &PairNumbers, row: &Row) -> f64 {
        let (middle, aside) = row.widths(words, numbers);
        let most = 0.5 * words.window.width() - self.part * aside;
        let least = self.part * (0.5 * middle + self.gap);
        self.half_middle.min(most).max(least)
    }

    fn row(&self, words: &mut Pencil, numbers: &PairNumbers, row: &Row, (top, foot): (f64, f64)) {
        let (size, name_size) = (self.part * numbers.size, self.part * numbers.name_size);
        let middle = words.window.center().x;
        let number_y = top.midpoint(foot);
        if numbers.is_named_above() {
            let more_size = self.part * numbers.more_size();
            let more_y = foot - words.by_text(0.5 * MORE_HIGH * numbers.more_size());
            let at = Point::new(middle, more_y);
            let more = row.compared.more.clone();
            words.sized_text(Role::Heading, at, Anchor::Middle, more_size, more);
            // After the number, whose ground would lie over the feet of the letters.
            let name_y = top + words.by_text(0.5 * NAME_HIGH * numbers.name_size);
            words.sized_text(
                Role::Heading,
                Point::new(middle, name_y),
                Anchor::Middle,
                name_size,
                row.name_above(),
            );
        } else {
            let at = Point::new(middle, number_y);
            words.sized_text(Role::Heading, at, Anchor::Middle, size, row.in_a_line());
        }
        let beside = self.beside(words, numbers, row);
        let sides = [(-1.0, Anchor::Right), (1.0, Anchor::Left)];
        let shown = row.compared.shown.iter().zip(row.levels);
        for ((shown, level), (side, anchor)) in shown.zip(sides) {
            let at = Point::new(middle + side * beside, number_y);
            words.sized_text(Role::Heading, at, anchor, size, shown.clone());
            if level > Level::Fine {
                let high = words.by_text(0.85 * size);
                let wide = words.width_of(Role::Heading, shown, size) + words.by_text(0.75 * size);
                let middle = Point::new(at.x + side * wide, at.y);
                let place = Rect::from_center_size(middle, Size::new(high, high));
                let (symbol, stroke) = level_symbol(level, place);
                words.fill(Role::Level(level), &symbol);
                words.stroke_with(Role::Paper, &stroke, Pen::Wide(0.1 * high));
            }
        }
    }
}
