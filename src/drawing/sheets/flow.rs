//! What flows over pages: headings, words, rows, tables and pictures as blocks, one under the other.

use kurbo::{Line, Point, Rect};

use crate::drawing::paper::{Anchor, Panel, Style, letters, words};
use crate::drawing::scene::Role;

/// Sizes of words at the window's scale.
pub(super) const BODY: f64 = 13.0;
const HEADING: f64 = 15.0;
const STRIP: f64 = 17.0;
/// From one line of words to the next, in parts of their size.
const LEADING: f64 = 1.36;
/// Paper between columns, at the window's scale.
const GUTTER: f64 = 22.0;
/// Letters of a text that a sheet shows at the most.
const LONGEST: usize = 900;
/// Lines of a paragraph that are never parted; of a longer one the first two stay together, and the
/// last two.
const TOGETHER: usize = 8;
/// The part of a column's width that a number takes beside another one.
const NUMBERS: f64 = 0.31;
/// How far lines are set in under a mark at the most, in parts of the words' size.
const MOST_ASIDE: f64 = 2.2;

/// Words at a place from a block's upper left corner, in paper units.
#[derive(Clone, Debug)]
pub(super) struct Set {
    pub(super) at: Point,
    pub(super) anchor: Anchor,
    pub(super) role: Role,
    /// At the window's scale.
    pub(super) size: f64,
    pub(super) text: String,
}

/// A picture's panels in a rectangle of paper.
type Draw<'a> = Box<dyn Fn(Rect, Style) -> Vec<Panel> + 'a>;

/// What stands together and is never torn apart.
pub(super) struct Block<'a> {
    pub(super) height: f64,
    /// It must not be the last of a column.
    pub(super) keeps_next: bool,
    pub(super) is_heading: bool,
    /// What it stands under: heading and heads of columns, by their places among the blocks.
    pub(super) under: Vec<usize>,
    pub(super) words: Vec<Set>,
    pub(super) lines: Vec<Line>,
    /// What a picture shows, and how it is drawn.
    pub(super) picture: Option<(String, Draw<'a>)>,
}

/// Blocks under each other, in so many columns side by side.
pub(super) struct Band<'a> {
    pub(super) columns: u8,
    pub(super) blocks: Vec<Block<'a>>,
    pub(super) width: f64,
    pub(super) style: Style,
    /// What the next block stands under.
    under: Vec<usize>,
}

impl<'a> Band<'a> {
    /// A band of so many columns over a width of paper.
    pub(super) fn new(columns: u8, area: Rect, style: Style) -> Self {
        let count = f64::from(columns.max(1));
        let gutter = GUTTER * style.text;
        Self {
            columns: columns.max(1),
            blocks: Vec::new(),
            width: (area.width() - (count - 1.0) * gutter) / count,
            style,
            under: Vec::new(),
        }
    }

    /// Paper between two columns.
    pub(super) fn gutter(&self) -> f64 {
        self.by_text(GUTTER)
    }

    fn by_text(&self, plain: f64) -> f64 {
        self.style.text * plain
    }

    /// Paper left free.
    pub(super) fn gap(&mut self, plain: f64) {
        let height = self.by_text(plain);
        self.push(height, Vec::new(), Vec::new());
    }

    fn push(&mut self, height: f64, words: Vec<Set>, lines: Vec<Line>) {
        self.blocks.push(Block {
            height,
            keeps_next: false,
            is_heading: false,
            under: self.under.clone(),
            words,
            lines,
            picture: None,
        });
    }

    /// Keeps the last block and what follows it, also in the next band, in one column.
    pub(super) fn keep_with_next(&mut self) {
        for block in self.blocks.iter_mut().rev() {
            block.keeps_next = true;
            // Free paper after words goes with them.
            if !block.is_free() {
                break;
            }
        }
    }

    /// Keeps all blocks from one on in one column.
    pub(super) fn keep_together_from(&mut self, first: usize) {
        let last = self.blocks.len().saturating_sub(1);
        for block in self.blocks.iter_mut().take(last).skip(first) {
            block.keeps_next = true;
        }
    }

    /// A heading over what follows, with a line under it.
    pub(super) fn heading(&mut self, text: &str) {
        self.gap(7.0);
        let text = words::fitted(text, self.by_text(HEADING), true, self.width).into_owned();
        let height = self.by_text(HEADING * LEADING + 3.0);
        let line = Line::new(
            (0.0, height - self.by_text(2.0)),
            (self.width, height - self.by_text(2.0)),
        );
        let at = Point::new(0.0, self.by_text(0.5 * HEADING * LEADING));
        let set = Set {
            at,
            anchor: Anchor::Left,
            role: Role::Heading,
            size: HEADING,
            text,
        };
        self.under.clear();
        self.push(height, vec![set], vec![line]);
        if let Some(last) = self.blocks.last_mut() {
            last.is_heading = true;
        }
        self.keep_with_next();
        self.stand_under_last();
    }

    /// What follows, up to the next heading, stands under the last block as well.
    fn stand_under_last(&mut self) {
        if let Some(last) = self.blocks.len().checked_sub(1) {
            self.under.push(last);
        }
    }

    /// Running words, with a mark before their first line and the others set in under it.
    pub(super) fn item(&mut self, mark: &str, role: Role, text: &str) {
        let size = self.by_text(BODY);
        let is_strong = role == Role::Heading;
        let after_mark = if mark.is_empty() {
            0.0
        } else {
            words::width(mark, size, true) + 0.5 * size
        };
        let aside = after_mark.min(MOST_ASIDE * size);
        let first = self.width - after_mark;
        let lines = wrapped_from(text, size, is_strong, first, self.width - aside);
        let last = lines.len() - 1;
        for (index, text) in lines.into_iter().enumerate() {
            let y = 0.5 * LEADING * size;
            let from = if index == 0 { after_mark } else { aside };
            let mut sets = vec![Set {
                at: Point::new(from, y),
                anchor: Anchor::Left,
                role,
                size: BODY,
                text,
            }];
            if index == 0 && !mark.is_empty() {
                sets.insert(
                    0,
                    Set {
                        at: Point::new(0.0, y),
                        anchor: Anchor::Left,
                        role: Role::Heading,
                        size: BODY,
                        text: mark.to_owned(),
                    },
                );
            }
            self.push(LEADING * size, sets, Vec::new());
            if index < last && (last < TOGETHER || index == 0 || index + 1 == last) {
                self.keep_with_next();
            }
        }
        self.gap(2.0);
    }

    /// Running words.
    pub(super) fn words(&mut self, role: Role, text: &str) {
        self.item("", role, text);
    }

    /// A name with what it is, at the right; on two lines where one is too narrow.
    pub(super) fn row(&mut self, name: &str, value: &str) {
        let size = self.by_text(BODY);
        let room = |text: &str, is_strong| words::width(text, size, is_strong);
        let between = size;
        let value_lines = wrapped(value, size, true, self.width);
        let value_width = value_lines.first().map_or(0.0, |line| room(line, true));
        let is_beside =
            value_lines.len() == 1 && room(name, false) + between + value_width <= self.width;
        let name = words::fitted(name, size, false, self.width).into_owned();
        let set = |x: f64, y: f64, anchor, role, text| Set {
            at: Point::new(x, y),
            anchor,
            role,
            size: BODY,
            text,
        };
        let y = 0.5 * LEADING * size;
        let mut sets = vec![set(0.0, y, Anchor::Left, Role::Note, name)];
        let first = if is_beside { 0.0 } else { LEADING * size };
        let mut height = LEADING * size + first;
        for (index, line) in value_lines.into_iter().enumerate() {
            if index > 0 {
                height += LEADING * size;
            }
            let y = height - 0.5 * LEADING * size;
            sets.push(set(self.width, y, Anchor::Right, Role::Heading, line));
        }
        self.push(height, sets, Vec::new());
    }

    /// The heads of a table's columns, with a line under them; they stand again over what goes on in
    /// another column or on another page.
    pub(super) fn column_heads(&mut self, cells: &[(f64, &str)]) {
        self.cells(Role::Note, cells);
        self.stand_under_last();
        self.rule();
        self.keep_with_next();
        self.stand_under_last();
    }

    /// A row of a table: texts in columns that each take a part of the width, the first to the left. It
    /// is not parted from what follows, which may be its line.
    pub(super) fn cells(&mut self, role: Role, cells: &[(f64, &str)]) {
        let size = self.by_text(BODY);
        let mut from = 0.0;
        let mut sets = Vec::new();
        for (part, text) in cells {
            let room = part * self.width - 0.6 * size;
            let text = words::fitted(text, size, role == Role::Heading, room).into_owned();
            sets.push(Set {
                at: Point::new(from, 0.5 * LEADING * size),
                anchor: Anchor::Left,
                role,
                size: BODY,
                text,
            });
            from += part * self.width;
        }
        self.push(LEADING * size, sets, Vec::new());
        self.keep_with_next();
    }

    /// A row of a table to be filled in by hand: an empty text is a line to write on.
    pub(super) fn entries(&mut self, cells: &[(f64, &str)]) {
        let size = self.by_text(BODY);
        let height = 1.75 * LEADING * size;
        let y = height - 0.5 * LEADING * size;
        let foot = height - 0.35 * size;
        let (mut sets, mut lines) = (Vec::new(), Vec::new());
        let mut from = 0.0;
        for (part, text) in cells {
            let room = part * self.width - 0.6 * size;
            if text.is_empty() {
                lines.push(Line::new((from, foot), (from + room, foot)));
            } else {
                sets.push(Set {
                    at: Point::new(from, y),
                    anchor: Anchor::Left,
                    role: Role::Note,
                    size: BODY,
                    text: words::fitted(text, size, false, room).into_owned(),
                });
            }
            from += part * self.width;
        }
        self.push(height, sets, lines);
    }

    /// Names side by side, each over what it is, in larger letters.
    pub(super) fn strip(&mut self, pairs: &[(&str, String)]) {
        let between = self.by_text(BODY);
        let count = f64::from(u8::try_from(pairs.len().max(1)).unwrap_or(u8::MAX));
        let each = self.width / count;
        let lines = [(BODY, Role::Note), (STRIP, Role::Heading)];
        let mut sets = Vec::new();
        let mut from = 0.0;
        let mut height = 0.0;
        for (name, value) in pairs {
            height = 0.0;
            for ((plain, role), text) in lines.into_iter().zip([*name, value.as_str()]) {
                let size = self.by_text(plain);
                let is_strong = role == Role::Heading;
                sets.push(Set {
                    at: Point::new(from, height + 0.5 * LEADING * size),
                    anchor: Anchor::Left,
                    role,
                    size: plain,
                    text: words::fitted(text, size, is_strong, each - between).into_owned(),
                });
                height += LEADING * size;
            }
            from += each;
        }
        self.push(height, sets, Vec::new());
    }

    /// A name with some numbers that each end their own column.
    pub(super) fn numbers(&mut self, role: Role, name: &str, numbers: &[&str]) {
        let size = self.by_text(BODY);
        let y = 0.5 * LEADING * size;
        let mut to = self.width;
        let mut sets = Vec::new();
        for text in numbers.iter().rev() {
            let room = NUMBERS * self.width;
            sets.push(Set {
                at: Point::new(to, y),
                anchor: Anchor::Right,
                role,
                size: BODY,
                text: words::fitted(text, size, role == Role::Heading, room).into_owned(),
            });
            to -= room;
        }
        sets.push(Set {
            at: Point::new(0.0, y),
            anchor: Anchor::Left,
            role: Role::Note,
            size: BODY,
            text: words::fitted(name, size, false, to).into_owned(),
        });
        sets.reverse();
        self.push(LEADING * size, sets, Vec::new());
    }

    /// A line across, which stays with what it stands under.
    pub(super) fn rule(&mut self) {
        self.keep_with_next();
        let y = self.by_text(1.5);
        self.push(
            self.by_text(3.0),
            Vec::new(),
            vec![Line::new((0.0, y), (self.width, y))],
        );
    }

    /// Names, each with a line to write on.
    pub(super) fn blanks(&mut self, names: &[&str]) {
        let size = self.by_text(BODY);
        let height = 2.0 * LEADING * size;
        let count = f64::from(u8::try_from(names.len().max(1)).unwrap_or(u8::MAX));
        let each = self.width / count;
        let foot = height - 0.35 * size;
        let (mut sets, mut lines) = (Vec::new(), Vec::new());
        let mut from = 0.0;
        for name in names {
            let most = 0.75 * each;
            let text = words::fitted(name, size, false, most).into_owned();
            let wide = words::width(&text, size, false);
            sets.push(Set {
                at: Point::new(from, height - 0.5 * LEADING * size),
                anchor: Anchor::Left,
                role: Role::Note,
                size: BODY,
                text,
            });
            let end = from + each - size;
            lines.push(Line::new((from + wide + 0.4 * size, foot), (end, foot)));
            from += each;
        }
        self.push(height, sets, lines);
    }

    /// A picture over the column's width, so many paper units high.
    pub(super) fn picture(
        &mut self,
        told: &str,
        height: f64,
        draw: impl Fn(Rect, Style) -> Vec<Panel> + 'a,
    ) {
        self.push(height, Vec::new(), Vec::new());
        if let Some(last) = self.blocks.last_mut() {
            last.picture = Some((told.to_owned(), Box::new(draw)));
        }
    }

    /// How wide a column is.
    pub(super) fn width(&self) -> f64 {
        self.width
    }
}

/// A text cut into lines that fit into a width; words too long for one are cut.
pub(super) fn wrapped(text: &str, size: f64, is_strong: bool, most: f64) -> Vec<String> {
    wrapped_from(text, size, is_strong, most, most)
}

/// The words of a text, a number with its unit and its ± being one.
fn glued(text: &str) -> Vec<String> {
    const UNITS: [&str; 10] = ["%", "in", "mm", "m", "ft", "deg", "°", "mph", "km/h", "rpm"];
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let bare = word.trim_end_matches(|c: char| ".,;:)".contains(c));
        let belongs = words.last().is_some_and(|before| {
            let ends_in_digit = before.ends_with(|c: char| c.is_ascii_digit());
            before.ends_with('±') || bare == "±" || ends_in_digit && UNITS.contains(&bare)
        });
        match words.last_mut().filter(|_| belongs) {
            Some(before) => {
                before.push(' ');
                before.push_str(word);
            }
            None => words.push(word.to_owned()),
        }
    }
    words
}

/// The same with another width for the first line.
fn wrapped_from(text: &str, size: f64, is_strong: bool, first: f64, rest: f64) -> Vec<String> {
    let text = letters::readable(text);
    let cut = text.char_indices().nth(LONGEST).map(|(at, _)| at);
    let shown = cut.map_or_else(|| text.to_string(), |at| format!("{}…", &text[..at]));
    let mut lines = Vec::new();
    let mut line = String::new();
    let most = |lines: &Vec<String>| if lines.is_empty() { first } else { rest };
    for word in glued(&shown) {
        let word = word.as_str();
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if words::width(&longer, size, is_strong) <= most(&lines) {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for letter in word.chars() {
            line.push(letter);
            if line.chars().count() > 1 && words::width(&line, size, is_strong) > most(&lines) {
                line.pop();
                lines.push(std::mem::take(&mut line));
                line.push(letter);
            }
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_not_parted_from_its_unit() {
        let text = "it sweeps 0.0183 in ± 0.0024 in, 14.4 % of the height of cut (watch above 5.0 %), 3 mm";
        let parts = ["0.0183 in ± 0.0024 in,", "14.4 %", "5.0 %),", "3 mm"];
        for most in [70.0, 90.0, 120.0, 200.0, 300.0] {
            let lines = wrapped(text, 6.0, false, most);
            for part in parts {
                assert!(lines.iter().any(|line| line.contains(part)), "{lines:?}");
            }
        }
    }

    #[test]
    fn a_text_is_wrapped_to_its_width_and_loses_no_word() {
        let text = "the unit stands on the plate, reel blocked and gloves on";
        for most in [40.0, 90.0, 400.0] {
            let lines = wrapped(text, 10.0, false, most);
            assert!(
                lines
                    .iter()
                    .all(|line| words::width(line, 10.0, false) <= most)
            );
            assert_eq!(lines.join("").replace(' ', ""), text.replace(' ', ""));
        }
        let long = wrapped(&"W".repeat(300), 10.0, false, 100.0);
        assert!(
            long.iter()
                .all(|line| words::width(line, 10.0, false) <= 100.0)
        );
        assert_eq!(long.join("").len(), 300);
    }
}
