//! Text that flows over pages: blocks one under the other in columns, and on to the next page where
//! one is full.

use kurbo::{Line, Point, Rect, Shape as _, Vec2};

use crate::drawing::paper::{Anchor, Panel, Pencil, Style, letters, words};
use crate::drawing::scene::Role;

/// Sizes of words at the window's scale.
pub(super) const BODY: f64 = 13.0;
const HEADING: f64 = 15.0;
/// From one line of words to the next, in parts of their size.
const LEADING: f64 = 1.36;
/// Paper between columns, at the window's scale.
const GUTTER: f64 = 22.0;
/// Paper between one band and the next, at the window's scale.
const BETWEEN: f64 = 8.0;
/// Letters of a text that a sheet shows at the most.
const LONGEST: usize = 900;
/// The smallest part of the words' usual size that a sheet is set in to stay on one page.
const SMALLEST: f64 = 0.62;

/// Words at a place from a block's upper left corner, in paper units.
#[derive(Clone, Debug)]
struct Set {
    at: Point,
    anchor: Anchor,
    role: Role,
    /// At the window's scale.
    size: f64,
    text: String,
}

/// A picture's panels in a rectangle of paper.
type Draw<'a> = Box<dyn Fn(Rect, Style) -> Vec<Panel> + 'a>;

/// What stands together and is never torn apart.
pub(super) struct Block<'a> {
    height: f64,
    /// It must not be the last of a column.
    keeps_next: bool,
    words: Vec<Set>,
    lines: Vec<Line>,
    /// What a picture shows, and how it is drawn.
    picture: Option<(String, Draw<'a>)>,
}

/// Blocks under each other, in so many columns side by side.
pub(super) struct Band<'a> {
    columns: u8,
    blocks: Vec<Block<'a>>,
    width: f64,
    style: Style,
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
        }
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
            words,
            lines,
            picture: None,
        });
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
        self.push(height, vec![set], vec![line]);
        if let Some(last) = self.blocks.last_mut() {
            last.keeps_next = true;
        }
    }

    /// Running words, with a mark before their first line and the others set in under it.
    pub(super) fn item(&mut self, mark: &str, role: Role, text: &str) {
        let size = self.by_text(BODY);
        let is_strong = role == Role::Heading;
        let aside = if mark.is_empty() {
            0.0
        } else {
            words::width(mark, size, true) + 0.5 * size
        };
        let lines = wrapped(text, size, is_strong, self.width - aside);
        for (index, text) in lines.into_iter().enumerate() {
            let y = 0.5 * LEADING * size;
            let mut sets = vec![Set {
                at: Point::new(aside, y),
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

    /// A row of a table: texts in columns that each take a part of the width, the first to the left,
    /// and a line under it.
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
        if let Some(last) = self.blocks.last_mut() {
            last.keeps_next = true;
        }
    }

    /// A line across.
    pub(super) fn rule(&mut self) {
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
        self.blocks.push(Block {
            height,
            keeps_next: false,
            words: Vec::new(),
            lines: Vec::new(),
            picture: Some((told.to_owned(), Box::new(draw))),
        });
    }

    /// How wide a column is.
    pub(super) fn width(&self) -> f64 {
        self.width
    }
}

/// A text cut into lines that fit into a width; words too long for one are cut.
pub(super) fn wrapped(text: &str, size: f64, is_strong: bool, most: f64) -> Vec<String> {
    let text = letters::readable(text);
    let cut = text.char_indices().nth(LONGEST).map(|(at, _)| at);
    let shown = cut.map_or_else(|| text.to_string(), |at| format!("{}…", &text[..at]));
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in shown.split_whitespace() {
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if words::width(&longer, size, is_strong) <= most {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for letter in word.chars() {
            line.push(letter);
            if line.chars().count() > 1 && words::width(&line, size, is_strong) > most {
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

/// What was laid out on one page.
pub(super) struct Laid {
    /// Words and lines.
    pub(super) panel: Panel,
    /// Pictures with what they show.
    pub(super) pictures: Vec<(String, Vec<Panel>)>,
}

/// A block with the place of its upper left corner.
struct Placed {
    block: usize,
    at: Point,
}

/// Lays bands out in an area of every page, one under the other.
pub(super) fn lay_out(bands: &[Band], area: Rect, style: Style) -> Vec<Laid> {
    let mut pages: Vec<Vec<(usize, Placed)>> = vec![Vec::new()];
    let mut y = area.y0;
    for (index, band) in bands.iter().enumerate() {
        let mut next = 0;
        while next < band.blocks.len() {
            let room = area.y1 - y;
            let (taken, used) = band.take(next, room);
            // A page that holds nothing of it yet takes one block at the least.
            let is_full = taken.is_empty();
            if is_full && y > area.y0 {
                pages.push(Vec::new());
                y = area.y0;
                continue;
            }
            let taken = if is_full {
                vec![Placed {
                    block: next,
                    at: Point::ORIGIN,
                }]
            } else {
                taken
            };
            next += taken.len();
            if let Some(page) = pages.last_mut() {
                page.extend(taken.into_iter().map(|placed| {
                    let at = placed.at + Vec2::new(area.x0, y);
                    (index, Placed { at, ..placed })
                }));
            }
            if next < band.blocks.len() {
                pages.push(Vec::new());
                y = area.y0;
            } else {
                y += used + style.text * BETWEEN;
            }
        }
    }
    pages
        .iter()
        .map(|page| drawn(bands, page, area, style))
        .collect()
}

impl Band<'_> {
    /// The blocks from one on that fit into a height, in columns as even as they come, with the height
    /// that these take.
    fn take(&self, from: usize, room: f64) -> (Vec<Placed>, f64) {
        let total: f64 = self.blocks[from..].iter().map(|block| block.height).sum();
        let even = total / f64::from(self.columns);
        let step = self.by_text(4.0).max(0.5);
        let mut height = even.min(room);
        loop {
            let (placed, used) = self.filled(from, height);
            if placed.len() == self.blocks.len() - from || height >= room {
                return (placed, used);
            }
            height = (height + step).min(room);
        }
    }

    /// Columns filled one after the other to a height.
    fn filled(&self, from: usize, height: f64) -> (Vec<Placed>, f64) {
        let across = self.width + self.by_text(GUTTER);
        let (mut column, mut y, mut used) = (0_u8, 0.0_f64, 0.0_f64);
        let mut placed: Vec<Placed> = Vec::new();
        let mut index = from;
        while let Some(block) = self.blocks.get(index) {
            // With what it must not be parted from.
            let mut needed = block.height;
            let mut last = index;
            while self.blocks[last].keeps_next
                && let Some(next) = self.blocks.get(last + 1)
            {
                needed += next.height;
                last += 1;
            }
            if y + needed > height + 1e-6 && y > 0.0 {
                column += 1;
                y = 0.0;
            }
            if column >= self.columns || needed > height + 1e-6 {
                break;
            }
            // Free paper at the head of a column is of no use.
            let is_free =
                block.words.is_empty() && block.lines.is_empty() && block.picture.is_none();
            let block_height = if is_free && y == 0.0 {
                0.0
            } else {
                block.height
            };
            placed.push(Placed {
                block: index,
                at: Point::new(f64::from(column) * across, y),
            });
            y += block_height;
            used = used.max(y);
            index += 1;
        }
        (placed, used)
    }
}

fn drawn(bands: &[Band], page: &[(usize, Placed)], area: Rect, style: Style) -> Laid {
    let mut pencil = Pencil::new(style, area);
    let mut pictures = Vec::new();
    for (band, placed) in page {
        let band = &bands[*band];
        let block = &band.blocks[placed.block];
        let by = placed.at.to_vec2();
        for line in &block.lines {
            let path = Line::new(line.p0 + by, line.p1 + by).to_path(0.1);
            pencil.stroke(Role::Note, &path);
        }
        for set in &block.words {
            pencil.sized_text(
                set.role,
                set.at + by,
                set.anchor,
                set.size,
                set.text.clone(),
            );
        }
        if let Some((told, draw)) = &block.picture {
            let place = Rect::from_origin_size(placed.at, (band.width, block.height));
            pictures.push((told.clone(), draw(place, style)));
        }
    }
    Laid {
        panel: pencil.done(),
        pictures,
    }
}

/// Parts of the usual size of words that are tried until all stands on one page.
pub(super) fn sizes() -> impl Iterator<Item = f64> {
    std::iter::successors(Some(1.0), |size| (*size > SMALLEST).then_some(size - 0.04))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::paper::Theme;

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

    #[test]
    fn what_does_not_fit_goes_on_to_the_next_page() {
        let style = Style::from(Theme::Light);
        let area = Rect::new(10.0, 20.0, 410.0, 220.0);
        for columns in [1, 2] {
            let mut band = Band::new(columns, area, style);
            for row in 0..60 {
                band.row(&format!("row {row}"), "1.000 in");
            }
            let pages = lay_out(&[band], area, style);
            assert!(pages.len() > 1);
            let texts: usize = pages.iter().map(|page| page.panel.marks.len()).sum();
            assert_eq!(texts, 120);
        }
    }
}
