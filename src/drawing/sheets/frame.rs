//! What stands on every page of a sheet: what it is and of which unit, the verdict, the cautions, and
//! the file it was made from.

use kurbo::{Line, Point, Rect, Shape as _};

use super::awaited::Awaited;
use super::columns::{Laid, Layout};
use super::flow::{BODY, Band, wrapped};
use super::page::Page;
use super::print_style::{IN_THE_HAND, SMALLEST_LETTERS, on_paper};
use super::sheet::Sheet;
use crate::analysis::{CAUTION, Level, MODEL_IN_SHORT, Solved};
use crate::drawing::paper::{
    Anchor, PAPER_PER_MM, Panel, Pen, Pencil, Style, letters, level_symbol,
};
use crate::drawing::scene::Role;
use crate::plate::Record;
use crate::units::System;

/// Where a sheet's numbers come from, so that paper and file can be matched.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Origin {
    /// The file's name; none for a unit that no file holds.
    pub file: Option<String>,
    /// The first eight digits of its SHA-256 (FIPS 180-4).
    pub digest: Option<String>,
    /// What is on the sheet differs from what is in the file.
    pub is_changed: bool,
    /// The unit's record, for a sheet that shows it; empty where it has none.
    pub record: Record,
}

impl Origin {
    /// It in a line, the program with it.
    #[must_use]
    pub fn told(&self) -> String {
        let program = concat!("Sweepgauge ", env!("CARGO_PKG_VERSION"));
        let digest = self.digest.as_ref();
        let digest = digest.map_or_else(String::new, |digest| format!(", SHA-256 {digest}"));
        match &self.file {
            None => format!("{program}. Not saved in a file."),
            Some(file) if self.is_changed => {
                format!("{program}{digest}. Not as saved in the file: {file}")
            }
            Some(file) => format!("{program}{digest}. File: {file}"),
        }
    }
}

/// What a sheet is made of, and for whom.
#[derive(Clone, Copy, Debug)]
pub struct SheetOf<'a> {
    /// The solved unit.
    pub solved: &'a Solved,
    /// Where it comes from.
    pub origin: &'a Origin,
    /// The size of the paper.
    pub page: Page,
    /// The units of the words.
    pub system: System,
    /// Whether somebody still waits for it. Given up, it has no pages.
    pub awaited: Awaited<'a>,
}

/// What stands at the head and foot of a sheet's pages.
pub(super) struct Frame<'a> {
    pub(super) of: SheetOf<'a>,
    /// What the sheet is.
    pub(super) title: &'static str,
    /// What is wanted of its reader to know first.
    pub(super) verdict: Option<(Level, String)>,
    /// Whether the page lies on its side.
    pub(super) is_lying: bool,
    /// The day it was read and who read it; empty for a line to write on.
    pub(super) read: [&'a str; 2],
}

/// Paper that stays white around all that is printed, in millimetres: printers hold it by there.
pub(super) const MARGIN_MM: f64 = 8.0;
/// Sizes of words at the window's scale.
const TITLE: f64 = 21.0;
const NAME: f64 = 17.0;
const ABOUT: f64 = 13.0;
const CAUTIONS: f64 = 11.0;
/// From one line to the next, in parts of the words' size.
const LEADING: f64 = 1.32;
/// The smallest part of the words' usual size that a sheet is set in to stay on one page, or to take a page
/// less.
const SMALLEST: f64 = SMALLEST_LETTERS / (IN_THE_HAND * BODY);
/// From one size that is tried to the next.
const STEP: f64 = 0.04;
/// A last page with more than so much of it free is to be saved.
const FREE: f64 = 0.4;
/// The shortest line to write on, in parts of its share of the paper.
const SHORTEST_LINE: f64 = 0.6;
/// Lines that a unit's name takes at the most.
const NAME_LINES: usize = 2;

impl Frame<'_> {
    fn window(&self) -> Rect {
        if self.is_lying {
            self.of.page.on_its_side()
        } else {
            self.of.page.upright()
        }
    }

    fn style(text: f64) -> Style {
        on_paper(text)
    }

    fn pencil(&self) -> Pencil {
        let window = self.window().inset(-MARGIN_MM * PAPER_PER_MM);
        Pencil::new(Self::style(IN_THE_HAND), window)
    }

    /// What is left of a page between its head and its foot.
    pub(super) fn area(&self) -> Rect {
        let (mut head, mut foot) = (self.pencil(), self.pencil());
        let top = self.head(&mut head, "");
        let bottom = self.foot(&mut foot);
        Rect {
            y0: top,
            y1: bottom,
            ..head.window
        }
    }

    /// Lays bands out over as many pages as they take, or on one with smaller words.
    pub(super) fn pages<'b>(
        &self,
        is_one_page: bool,
        bands: impl Fn(Rect, Style) -> Vec<Band<'b>>,
    ) -> Vec<Sheet> {
        self.filled_pages(is_one_page, |area, style, _| bands(area, style))
    }

    /// Whether bands fit on one page with their words a part of the usual size.
    pub(super) fn fits_one_page<'b>(
        &self,
        size: f64,
        bands: impl Fn(Rect, Style) -> Vec<Band<'b>>,
    ) -> bool {
        if self.of.awaited.is_given_up() {
            return true;
        }
        let (area, style) = (self.area(), Self::style(IN_THE_HAND * size));
        self.placed(&bands(area, style), area, style).pages() == 1
    }

    /// Lays bands out as [`Frame::pages`] does. They are asked for once more with the paper that is left
    /// on the last page, for its pictures to take.
    pub(super) fn filled_pages<'b>(
        &self,
        is_one_page: bool,
        bands: impl Fn(Rect, Style, f64) -> Vec<Band<'b>>,
    ) -> Vec<Sheet> {
        let area = self.area();
        let style = |size: f64| Self::style(IN_THE_HAND * size);
        let made = |size: f64, left: f64| bands(area, style(size), left);
        let pages = |size: f64| {
            // Nobody waits any more: the first size is as good as another.
            if self.of.awaited.is_given_up() {
                return 1;
            }
            self.placed(&made(size, 0.0), area, style(size)).pages()
        };
        let whole = made(1.0, 0.0);
        let laid_out = self.placed(&whole, area, style(1.0));
        if self.of.awaited.is_given_up() {
            return Vec::new();
        }
        let (count, left) = (laid_out.pages(), laid_out.left());
        let size = if count == 1 {
            1.0
        } else if is_one_page {
            largest(SMALLEST, |size| pages(size) == 1).unwrap_or(SMALLEST)
        } else if left > FREE * area.height() {
            largest(SMALLEST, |size| pages(size) < count).unwrap_or(1.0)
        } else {
            1.0
        };
        let style = style(size);
        let plain = made(size, 0.0);
        let laid_out = self.placed(&plain, area, style);
        let larger = made(size, laid_out.left());
        let filled = self.placed(&larger, area, style);
        let is_filled = filled.pages() == laid_out.pages();
        let laid = if is_filled { filled } else { laid_out }.drawn();
        if self.of.awaited.is_given_up() {
            return Vec::new();
        }
        let count = laid.len();
        laid.into_iter()
            .enumerate()
            .map(|(index, laid)| {
                let number = if count > 1 {
                    format!("page {} of {count}", index + 1)
                } else {
                    String::new()
                };
                self.sheet(&number, laid)
            })
            .collect()
    }

    /// Places bands in an area of every page, as long as somebody waits for it.
    fn placed<'b, 'a>(&'b self, bands: &'b [Band<'a>], area: Rect, style: Style) -> Layout<'b, 'a> {
        Layout::of(bands, area, style, self.of.awaited)
    }

    /// One page with its head and its foot; `number` says which of several.
    pub(super) fn sheet(&self, number: &str, laid: Laid) -> Sheet {
        let title = match number {
            "" => self.title.to_owned(),
            _ => format!("{}, {number}", self.title),
        };
        let mut sheet = Sheet::blank(title, self.window(), Self::style(IN_THE_HAND));
        let mut head = self.pencil();
        self.head(&mut head, number);
        sheet.panels.push(head.done());
        for (told, panels) in laid.pictures {
            sheet.add_figure(told, panels);
        }
        sheet.panels.push(laid.panel);
        let mut foot = self.pencil();
        self.foot(&mut foot);
        sheet.panels.push(foot.done());
        sheet
    }

    /// Draws the head; where it ends.
    fn head(&self, pencil: &mut Pencil, number: &str) -> f64 {
        let frame = pencil.window;
        let by_text = |plain: f64| IN_THE_HAND * plain;
        let document = &self.of.solved.document;
        let mut y = frame.y0;
        let line = |pencil: &mut Pencil, y: &mut f64, role, size, text: String| {
            let at = Point::new(frame.x0, *y + by_text(0.5 * LEADING * size));
            pencil.sized_text(role, at, Anchor::Left, size, text);
            *y += by_text(LEADING * size);
        };
        if !number.is_empty() {
            let at = Point::new(frame.x1, y + by_text(0.5 * LEADING * TITLE));
            pencil.sized_text(Role::Note, at, Anchor::Right, ABOUT, number.to_owned());
        }
        line(pencil, &mut y, Role::Heading, TITLE, self.title.to_owned());
        let mut name = wrapped(&document.name, by_text(NAME), true, frame.width());
        if name.len() > NAME_LINES {
            let rest = name.split_off(NAME_LINES - 1).join(" ");
            let rest = pencil.fitted(Role::Heading, &rest, NAME, frame.width() - by_text(NAME));
            let rest = if rest.ends_with('…') {
                rest.into_owned()
            } else {
                format!("{rest}…")
            };
            name.push(rest);
        }
        for text in name {
            line(pencil, &mut y, Role::Heading, NAME, text);
        }
        self.about(pencil, y);
        y += by_text(LEADING * ABOUT);
        if let Some(told) = document.example_count().told() {
            line(pencil, &mut y, Role::Heading, ABOUT, told);
        }
        if let Some((level, text)) = &self.verdict {
            y += by_text(4.0);
            let size = by_text(LEADING * NAME);
            let place = Rect::from_origin_size((frame.x0, y), (size, size));
            let role = Role::Level(*level);
            let (symbol, stroke) = level_symbol(*level, place);
            pencil.fill(role, &symbol);
            pencil.stroke_with(Role::Paper, &stroke, Pen::Wide(2.6));
            let aside = size + by_text(8.0);
            let needed = pencil.width_of(Role::Heading, text, NAME).max(1e-9);
            let size_of = NAME * ((frame.width() - aside) / needed).min(1.0);
            let text = if size_of < 9.0 {
                pencil.fitted(Role::Heading, text, 9.0, frame.width() - aside)
            } else {
                text.into()
            };
            let at = Point::new(frame.x0 + aside, place.center().y);
            pencil.sized_text(
                Role::Heading,
                at,
                Anchor::Left,
                size_of.max(9.0),
                text.into_owned(),
            );
            y = place.y1;
        }
        y += by_text(6.0);
        let under = Line::new((frame.x0, y), (frame.x1, y)).to_path(0.1);
        pencil.stroke_with(Role::Heading, &under, Pen::Wide(1.2));
        y + by_text(6.0)
    }

    /// Draws which unit it is and who read it when, with a line to write on for each that is not in the
    /// file.
    fn about(&self, pencil: &mut Pencil, top: f64) {
        let frame = pencil.window;
        let by_text = |plain: f64| IN_THE_HAND * plain;
        let middle = top + by_text(0.5 * LEADING * ABOUT);
        let foot = top + by_text(0.9 * LEADING * ABOUT);
        let document = &self.of.solved.document;
        let [date, by] = self
            .read
            .map(|text| Some(text).filter(|text| !text.is_empty()));
        let known = [
            ("Serial number", document.serial.as_deref(), 150.0),
            ("Set", document.set.as_deref(), 80.0),
            ("Knife", Some(document.fitted_name()), 150.0),
            ("Date", date, 90.0),
            ("By", by, 90.0),
        ];
        let between = by_text(24.0);
        let named: f64 = known
            .iter()
            .map(|(name, ..)| pencil.width_of(Role::Note, name, ABOUT) + by_text(6.0) + between)
            .sum();
        let shares: f64 = known.iter().map(|(_, _, share)| share).sum();
        let room = (frame.width() - named + between).max(0.0);
        // What is known takes the paper it needs where there is enough for a line to write on beside it.
        let needs = known.map(|(_, text, share)| {
            text.map_or(SHORTEST_LINE * share, |text| {
                pencil.width_of(Role::Heading, &letters::readable(text), ABOUT)
            })
        });
        let needed: f64 = needs.iter().sum();
        let spare = (room - needed) / f64::from(u8::try_from(known.len()).unwrap_or(u8::MAX));
        let mut x = frame.x0;
        for ((name, text, share), need) in known.into_iter().zip(needs) {
            let at = Point::new(x, middle);
            pencil.sized_text(Role::Note, at, Anchor::Left, ABOUT, name.to_owned());
            x += pencil.width_of(Role::Note, name, ABOUT) + by_text(6.0);
            let most = if spare >= 0.0 {
                need + spare
            } else {
                room * share / shares
            };
            if let Some(text) = text {
                let text = letters::readable(text);
                let text = pencil
                    .fitted(Role::Heading, &text, ABOUT, most)
                    .into_owned();
                let at = Point::new(x, middle);
                pencil.sized_text(Role::Heading, at, Anchor::Left, ABOUT, text);
            } else {
                pencil.line(Role::Note, Point::new(x, foot), Point::new(x + most, foot));
            }
            x += most + between;
        }
    }

    fn foot(&self, pencil: &mut Pencil) -> f64 {
        foot(pencil, self.of.origin)
    }
}

/// Draws the cautions and the origin at the foot of a page; where they begin.
pub(super) fn foot(pencil: &mut Pencil, origin: &Origin) -> f64 {
    let frame = pencil.window;
    let size = IN_THE_HAND * CAUTIONS;
    let caution = format!("{} {MODEL_IN_SHORT}", CAUTION.join(" "));
    let mut lines = wrapped(&caution, size, false, frame.width());
    let origin = letters::readable(&origin.told()).into_owned();
    let origin = pencil.fitted(Role::Heading, &origin, CAUTIONS, frame.width());
    lines.push(origin.into_owned());
    let count = f64::from(u32::try_from(lines.len()).unwrap_or(u32::MAX));
    let last = lines.len() - 1;
    let top = frame.y1 - count * LEADING * size;
    let mut y = top;
    for (index, text) in lines.into_iter().enumerate() {
        let at = Point::new(frame.x0, y + 0.5 * LEADING * size);
        let role = if index == last {
            Role::Heading
        } else {
            Role::Note
        };
        pencil.sized_text(role, at, Anchor::Left, CAUTIONS, text);
        y += LEADING * size;
    }
    let rule = top - 0.4 * size;
    pencil.line(
        Role::Note,
        Point::new(frame.x0, rule),
        Point::new(frame.x1, rule),
    );
    rule - 0.6 * size
}

/// The largest part of the usual size of words under the whole one, down to the smallest and that one, that fits; where
/// one fits, a smaller one does.
fn largest(smallest: f64, fits: impl Fn(f64) -> bool) -> Option<f64> {
    let next = |size: &f64| (size - STEP > smallest - 1e-9).then_some(size - STEP);
    let steps = std::iter::successors(Some(1.0 - STEP), next);
    let sizes: Vec<f64> = steps.chain([smallest]).collect();
    let first = sizes.partition_point(|size| !fits(*size));
    sizes.get(first).copied()
}

/// A panel with no marks, for pages that hold pictures alone.
pub(super) fn no_words(area: Rect) -> Panel {
    Pencil::new(Frame::style(IN_THE_HAND), area).done()
}
