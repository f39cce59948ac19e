//! Blocks laid out: in columns as even as they come, and on to the next page where one is full. What
//! goes on in another column or on another page stands under its heading again.

use kurbo::{Line, Point, Rect, Shape as _, Vec2};

use super::awaited::Awaited;
use super::flow::{Band, Block};
use super::print_style::of_pictures;
use crate::drawing::paper::{Panel, Pencil, Style, words};
use crate::drawing::scene::Role;

/// Paper between one band and the next, at the window's scale.
const BETWEEN: f64 = 8.0;
/// Follows a heading that stands over what goes on from before.
const CONTINUED: &str = ", continued";

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
    /// It stands somewhere before as well, and here over what goes on.
    is_again: bool,
}

/// Bands in their places, not drawn yet.
pub(super) struct Layout<'b, 'a> {
    bands: &'b [Band<'a>],
    area: Rect,
    style: Style,
    /// What is on each page, each block with its band.
    pages: Vec<Vec<(usize, Placed)>>,
    /// Where the last page's blocks end.
    end: f64,
    awaited: Awaited<'b>,
}

/// Lays bands out in an area of every page, one under the other.
pub(super) fn lay_out(bands: &[Band], area: Rect, style: Style) -> Vec<Laid> {
    Layout::of(bands, area, style, Awaited::default()).drawn()
}

impl<'b, 'a> Layout<'b, 'a> {
    /// Places bands in an area of every page, one under the other. Given up, it stays as far as it came.
    pub(super) fn of(
        bands: &'b [Band<'a>],
        area: Rect,
        style: Style,
        awaited: Awaited<'b>,
    ) -> Self {
        let mut pages: Vec<Vec<(usize, Placed)>> = vec![Vec::new()];
        let (mut y, mut end) = (area.y0, area.y0);
        'bands: for (index, band) in bands.iter().enumerate() {
            let then = bands.get(index + 1).map_or(0.0, |next| {
                style.text * BETWEEN + next.blocks.first().map_or(0.0, |block| block.height)
            });
            let mut next = 0;
            while next < band.blocks.len() {
                if awaited.is_given_up() {
                    break 'bands;
                }
                let (mut taken, used) = band.take(next, area.y1 - y, then);
                if taken.is_empty() {
                    if y > area.y0 {
                        pages.push(Vec::new());
                        y = area.y0;
                        continue;
                    }
                    // A page that holds none of it yet takes one block at the least.
                    taken.push(Placed {
                        block: next,
                        at: Point::ORIGIN,
                        is_again: false,
                    });
                }
                next += count_of(&taken);
                end = y + used;
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
        Self {
            bands,
            area,
            style,
            pages,
            end,
            awaited,
        }
    }

    /// How many pages it takes.
    pub(super) fn pages(&self) -> usize {
        self.pages.len()
    }

    /// How much of the last page stays free, from its foot up.
    pub(super) fn left(&self) -> f64 {
        (self.area.y1 - self.end).max(0.0)
    }

    /// Draws every page.
    pub(super) fn drawn(&self) -> Vec<Laid> {
        self.pages.iter().map(|page| self.page(page)).collect()
    }

    fn page(&self, page: &[(usize, Placed)]) -> Laid {
        let mut pencil = Pencil::new(self.style, self.area);
        let mut pictures = Vec::new();
        for (band, placed) in page {
            if self.awaited.is_given_up() {
                break;
            }
            let band = &self.bands[*band];
            let block = &band.blocks[placed.block];
            let by = placed.at.to_vec2();
            for line in &block.lines {
                let path = Line::new(line.p0 + by, line.p1 + by).to_path(0.1);
                pencil.stroke(Role::Note, &path);
            }
            for set in &block.words {
                let text = if placed.is_again && block.is_heading {
                    band.continued(&set.text, set.size)
                } else {
                    set.text.clone()
                };
                pencil.sized_text(set.role, set.at + by, set.anchor, set.size, text);
            }
            if let Some((told, draw)) = &block.picture {
                let place = Rect::from_origin_size(placed.at, (band.width, block.height));
                pictures.push((told.clone(), draw(place, of_pictures(self.style))));
            }
        }
        Laid {
            panel: pencil.done(),
            pictures,
        }
    }
}

/// How many blocks are placed that do not stand somewhere before.
fn count_of(placed: &[Placed]) -> usize {
    placed.iter().filter(|placed| !placed.is_again).count()
}

impl Block<'_> {
    /// Whether it is paper left free.
    pub(super) fn is_free(&self) -> bool {
        self.words.is_empty() && self.lines.is_empty() && self.picture.is_none()
    }
}

impl Band<'_> {
    /// A heading over what goes on from before.
    fn continued(&self, heading: &str, size: f64) -> String {
        let size = self.style.text * size;
        let room = self.width - words::width(CONTINUED, size, true);
        format!("{}{CONTINUED}", words::fitted(heading, size, true, room))
    }

    /// The blocks from one on that fit into a height, in columns as even as they come, with the height
    /// that these take. `then` is what the last one needs after it where it must not be parted from what
    /// follows the band.
    fn take(&self, from: usize, room: f64, then: f64) -> (Vec<Placed>, f64) {
        let total: f64 = self.blocks[from..].iter().map(|block| block.height).sum();
        let even = total / f64::from(self.columns);
        let step = (4.0 * self.style.text).max(0.5);
        let mut height = even.min(room);
        loop {
            let (placed, used) = self.filled(from, height, room, then);
            if count_of(&placed) == self.blocks.len() - from || height >= room {
                return (placed, used);
            }
            height = (height + step).min(room);
        }
    }

    /// Columns filled one after the other to a height; `room` is what there is of it.
    fn filled(&self, from: usize, height: f64, room: f64, then: f64) -> (Vec<Placed>, f64) {
        let (mut column, mut y, mut used) = (0_u8, 0.0_f64, 0.0_f64);
        let mut placed: Vec<Placed> = Vec::new();
        let mut index = from;
        while let Some(block) = self.blocks.get(index) {
            let needed = self.needed(index);
            if y + needed > height + 1e-6 && y > 0.0 {
                column += 1;
                y = 0.0;
            }
            if column >= self.columns {
                break;
            }
            // Free paper at the head of a column is of no use.
            if block.is_free() && y == 0.0 {
                placed.push(self.placed(index, column, y));
                index += 1;
                continue;
            }
            let again: &[usize] = if y == 0.0 { &block.under } else { &[] };
            let repeated: f64 = again.iter().map(|&again| self.blocks[again].height).sum();
            if repeated + needed > height + 1e-6 {
                break;
            }
            if self.is_last_of(index) && y + repeated + needed + then > room + 1e-6 {
                break;
            }
            for &again in again {
                placed.push(Placed {
                    is_again: true,
                    ..self.placed(again, column, y)
                });
                y += self.blocks[again].height;
            }
            placed.push(self.placed(index, column, y));
            y += block.height;
            used = used.max(y);
            index += 1;
        }
        (placed, used)
    }

    fn placed(&self, block: usize, column: u8, y: f64) -> Placed {
        let across = self.width + self.gutter();
        Placed {
            block,
            at: Point::new(f64::from(column) * across, y),
            is_again: false,
        }
    }

    /// The height of a block with those that it must not be parted from.
    fn needed(&self, index: usize) -> f64 {
        let mut needed = self.blocks[index].height;
        let mut last = index;
        while self.blocks[last].keeps_next
            && let Some(next) = self.blocks.get(last + 1)
        {
            needed += next.height;
            last += 1;
        }
        needed
    }

    /// Whether a block must not be parted from what follows the band.
    fn is_last_of(&self, index: usize) -> bool {
        self.blocks[index..].iter().all(|block| block.keeps_next)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::paper::{Mark, Theme};

    fn texts(laid: &Laid) -> Vec<&str> {
        let marks = laid.panel.marks.iter();
        let texts = marks.filter_map(|mark| match mark {
            Mark::Text { text, .. } => Some(text.as_str()),
            _ => None,
        });
        texts.collect()
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

    #[test]
    fn what_goes_on_in_another_column_or_page_stands_under_its_heading_again() {
        let style = Style::from(Theme::Light);
        let area = Rect::new(10.0, 20.0, 410.0, 220.0);
        for columns in [1, 2] {
            let mut band = Band::new(columns, area, style);
            band.heading("Readings");
            band.column_heads(&[(0.5, "what"), (0.5, "how much")]);
            for row in 0..60 {
                band.cells(Role::Note, &[(0.5, &format!("row {row}")), (0.5, "1")]);
                band.rule();
            }
            let pages = lay_out(&[band], area, style);
            assert!(pages.len() > 1);
            for (number, page) in pages.iter().enumerate() {
                let texts = texts(page);
                let all = texts.iter().filter(|text| text.starts_with("Readings"));
                let heads = texts.iter().filter(|text| **text == "how much").count();
                let count = all.count();
                let is_last = number + 1 == pages.len();
                assert!(count == usize::from(columns) || is_last && count > 0);
                assert_eq!(heads, count, "{texts:?}");
                let is_first = number == 0;
                assert_eq!(texts[0] == "Readings", is_first, "{texts:?}");
                assert_eq!(texts[0] == "Readings, continued", !is_first);
            }
            let rows: usize = pages
                .iter()
                .map(|page| {
                    texts(page)
                        .iter()
                        .filter(|text| text.starts_with("row "))
                        .count()
                })
                .sum();
            assert_eq!(rows, 60);
        }
    }

    #[test]
    fn a_paragraph_of_few_lines_stays_in_one_column() {
        let style = Style::from(Theme::Light);
        let area = Rect::new(0.0, 0.0, 400.0, 150.0);
        let mut band = Band::new(2, area, style);
        for number in 0..9 {
            let text = format!("no. {number} {}", "goes on over some lines ".repeat(3));
            band.words(Role::Note, &text);
        }
        for page in lay_out(&[band], area, style) {
            let mut column = 0.0_f64;
            for mark in &page.panel.marks {
                let Mark::Text { text, at, .. } = mark else {
                    continue;
                };
                let is_below = (at.x - column).abs() < 1e-9;
                assert!(text.starts_with("no. ") || is_below, "{text}");
                column = at.x;
            }
        }
    }

    #[test]
    fn a_heading_that_belongs_to_the_next_band_goes_with_it() {
        let style = Style::from(Theme::Light);
        let area = Rect::new(0.0, 0.0, 400.0, 200.0);
        let mut first = Band::new(1, area, style);
        first.picture("before", 120.0, |_, _| Vec::new());
        first.row("a", "b");
        let mut heading = Band::new(1, area, style);
        heading.heading("Pictures");
        let mut picture = Band::new(2, area, style);
        picture.picture("one", 100.0, |_, _| Vec::new());
        let pages = lay_out(&[first, heading, picture], area, style);
        assert_eq!(pages.len(), 2);
        assert_eq!(texts(&pages[1]), ["Pictures"]);
        assert_eq!(pages[1].pictures.len(), 1);
    }
}
