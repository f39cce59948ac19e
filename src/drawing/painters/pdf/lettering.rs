//! Words of a PDF as real text: set by the bundled fonts letter by letter, as wide as layout measured
//! them, and shaped with the system's fonts where a script needs it.

use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::sync::Arc;

use krilla::geom::{Point as PdfPoint, Transform};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use kurbo::{Point, Rect, Size, Vec2};
use resvg::usvg::{self, fontdb};
use skrifa::{FontRef, MetadataProvider as _};
use unicode_width::UnicodeWidthChar as _;

use super::marks;
use crate::drawing::painters::png::options;
use crate::drawing::painters::svg::{FONT, escaped};
use crate::drawing::paper::{Anchor, Mark, Style, fonts, letters, words};
use crate::drawing::scene::Role;

/// From the middle of the letters to the line they stand on, in parts of their size.
const DROP: f64 = 0.35;

/// Whether the bundled fonts set a text letter by letter, from left to right.
pub(super) fn is_plain(text: &str) -> bool {
    let is_set = |c: char| {
        let goes_right =
            !matches!(c, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{feff}');
        words::is_bundled(c) && goes_right && c.width().is_some_and(|width| width > 0)
    };
    text.chars().all(is_set)
}

/// The fonts of a document.
pub(super) struct Letters {
    regular: Option<Font>,
    semibold: Option<Font>,
    /// The system's that stand in, by their places among all fonts.
    others: HashMap<fontdb::ID, Option<Font>>,
}

impl Default for Letters {
    fn default() -> Self {
        Self {
            regular: Font::new(fonts::REGULAR.into(), 0),
            semibold: Font::new(fonts::SEMIBOLD.into(), 0),
            others: HashMap::new(),
        }
    }
}

/// Words to be set.
struct Words<'a> {
    text: &'a str,
    at: Point,
    anchor: Anchor,
    size: f64,
    is_strong: bool,
}

impl Letters {
    /// Draws a mark.
    pub(super) fn draw(
        &mut self,
        surface: &mut Surface,
        mark: &Mark,
        style: Style,
        origin: Point,
    ) -> Result<(), String> {
        match mark {
            Mark::Stroke { role, path, pen } => {
                let (ink, width) = style.inked(*role, *pen);
                if let Some(path) = marks::path(path, origin) {
                    surface.set_fill(None);
                    surface.set_stroke(Some(marks::pen(ink, width)));
                    surface.draw_path(&path);
                }
            }
            Mark::Fill { role, path, is_ink } => {
                let colour = style.filled(*role, *is_ink);
                if let Some(path) = marks::path(path, origin) {
                    surface.set_stroke(None);
                    surface.set_fill(Some(marks::fill(colour)));
                    surface.draw_path(&path);
                }
            }
            Mark::Text {
                role,
                at,
                anchor,
                size,
                is_turned,
                is_strong,
                text,
            } => {
                let words = Words {
                    text,
                    at: *at,
                    anchor: *anchor,
                    size: *size,
                    is_strong: *is_strong,
                };
                let (x, y) = marks::place(*at, origin);
                if *is_turned {
                    surface.push_transform(&Transform::from_rotate_at(-90.0, x, y));
                }
                words.ground(surface, style, origin);
                surface.set_stroke(None);
                surface.set_fill(Some(marks::fill(style.theme.text_colour(*role))));
                let set = self.set(surface, &words, origin);
                if *is_turned {
                    surface.pop();
                }
                set?;
            }
        }
        Ok(())
    }

    fn set(&mut self, surface: &mut Surface, words: &Words, origin: Point) -> Result<(), String> {
        if words.text.is_empty() {
            return Ok(());
        }
        let (across, down) = words.anchor.part();
        let lowered = if down < 1.0 { DROP } else { 0.0 };
        let base = words.at + Vec2::new(0.0, lowered * words.size);
        if !is_plain(words.text) {
            return self.set_shaped(surface, words, marks::place(base, origin), across);
        }
        let (font, data) = if words.is_strong {
            (&self.semibold, fonts::SEMIBOLD)
        } else {
            (&self.regular, fonts::REGULAR)
        };
        let (Some(font), Ok(outlines)) = (font.clone(), FontRef::new(data)) else {
            return Err("a bundled font cannot be read".to_owned());
        };
        let charmap = outlines.charmap();
        let glyphs: Vec<KrillaGlyph> = words
            .text
            .char_indices()
            .map(|(from, letter)| {
                let glyph = charmap.map(letter).map_or(0, skrifa::GlyphId::to_u32);
                let range = from..from + letter.len_utf8();
                let advance = in_em(words::advance(letter, words.is_strong));
                KrillaGlyph::new(GlyphId::new(glyph), advance, 0.0, 0.0, 0.0, range, None)
            })
            .collect();
        let width = words::width(words.text, words.size, words.is_strong);
        let (x, y) = marks::place(base - Vec2::new(across * width, 0.0), origin);
        let size = marks::points(words.size);
        surface.draw_glyphs(
            PdfPoint::from_xy(x, y),
            &glyphs,
            font,
            words.text,
            size,
            false,
        );
        Ok(())
    }

    /// Words that the bundled fonts lack letters for, or that a script shapes: laid out as for PNG.
    fn set_shaped(
        &mut self,
        surface: &mut Surface,
        words: &Words,
        (x, y): (f32, f32),
        across: f64,
    ) -> Result<(), String> {
        let align = match across {
            0.0 => "start",
            1.0 => "end",
            _ => "middle",
        };
        let weight = if words.is_strong { 600 } else { 400 };
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1000\" height=\"1000\"><text font-family=\"{FONT}\" font-size=\"{}\" font-weight=\"{weight}\" text-anchor=\"{align}\">{}</text></svg>",
            marks::points(words.size),
            escaped(words.text)
        );
        let all = letters::needed_for(words.text);
        let tree = usvg::Tree::from_str(&svg, &options(Arc::clone(&all)))
            .map_err(|error| error.to_string())?;
        surface.push_transform(&Transform::from_translate(x, y));
        for text in texts(tree.root()) {
            for glyph in text
                .layouted()
                .iter()
                .flat_map(|span| &span.positioned_glyphs)
            {
                let Some(font) = self.other(glyph.font, &all) else {
                    continue;
                };
                let t = glyph.transform();
                surface.push_transform(&Transform::from_row(t.sx, t.ky, t.kx, t.sy, t.tx, t.ty));
                let range = 0..glyph.text.len();
                let id = GlyphId::new(glyph.id.0);
                let letter = KrillaGlyph::new(id, 0.0, 0.0, 0.0, 0.0, range, None);
                let em = font.units_per_em();
                surface.draw_glyphs(
                    PdfPoint::from_xy(0.0, 0.0),
                    &[letter],
                    font,
                    &glyph.text,
                    em,
                    false,
                );
                surface.pop();
            }
        }
        surface.pop();
        Ok(())
    }

    fn other(&mut self, id: fontdb::ID, all: &fontdb::Database) -> Option<Font> {
        let font = match self.others.entry(id) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(place) => {
                let read = |data: &[u8], index| Font::new(data.to_vec().into(), index);
                place.insert(all.with_face_data(id, read).flatten())
            }
        };
        font.clone()
    }
}

impl Words<'_> {
    /// The paper's colour behind the words, which keeps them apart from lines, as in the window.
    fn ground(&self, surface: &mut Surface, style: Style, origin: Point) {
        const OPACITY: u8 = 240;
        let width = words::width(self.text, self.size, self.is_strong);
        let (across, down) = self.anchor.part();
        let size = Size::new(width, words::LINE * self.size);
        let corner = self.at - Vec2::new(across * size.width, down * size.height);
        let aside = 2.0 * style.text;
        let place = Rect::from_origin_size(corner, size).inflate(aside, -0.75 * aside);
        let mut paper = style.look(Role::Paper).fill;
        paper.opacity = OPACITY;
        if let Some(path) = marks::rectangle(place, origin) {
            surface.set_stroke(None);
            surface.set_fill(Some(marks::fill(paper)));
            surface.draw_path(&path);
        }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a part of a letter's size")]
fn in_em(advance: f64) -> f32 {
    advance as f32
}

/// Every text of a group and the groups in it.
fn texts(group: &usvg::Group) -> Vec<&usvg::Text> {
    let mut found = Vec::new();
    for node in group.children() {
        match node {
            usvg::Node::Text(text) => found.push(&**text),
            usvg::Node::Group(group) => found.extend(texts(group)),
            _ => {}
        }
    }
    found
}
