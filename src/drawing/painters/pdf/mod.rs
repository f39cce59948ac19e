//! The PDF painter: sheets bound into one document, with real text in embedded fonts, an outline, and
//! a reading order for whoever has it read out (ISO 32000-1, 14.8: tagged PDF).

mod lettering;
mod marks;

use std::num::NonZeroU16;
use std::ops::ControlFlow;

use krilla::Document;
use krilla::destination::XyzDestination;
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, Node, SpanTag, Tag, TagGroup, TagTree,
};
use kurbo::Point;

use self::lettering::Letters;
use crate::drawing::paper::{Mark, Panel};
use crate::drawing::sheets::Sheet;

/// What the words of every sheet are written in.
const LANGUAGE: &str = "en";

/// A PDF document that sheets are added to, one after the other.
pub struct PdfBook {
    document: Document,
    letters: Letters,
    outline: Outline,
    tags: TagTree,
    pages: usize,
    title: String,
}

impl PdfBook {
    /// A document without a sheet.
    #[must_use]
    pub fn new(title: impl Into<String>) -> Self {
        Self {
            document: Document::new(),
            letters: Letters::default(),
            outline: Outline::new(),
            tags: TagTree::new().with_lang(Some(LANGUAGE.to_owned())),
            pages: 0,
            title: title.into(),
        }
    }

    /// How many pages it has.
    #[must_use]
    pub const fn pages(&self) -> usize {
        self.pages
    }

    /// Adds the sheets of a chapter, one a page, which the outline names.
    ///
    /// # Errors
    /// When a sheet has no size, or a font here cannot be read, in words.
    pub fn add_chapter(&mut self, name: &str, sheets: &[Sheet]) -> Result<(), String> {
        let go_on = |_| ControlFlow::Continue(());
        self.add_chapter_telling(name, sheets, go_on).map(|_| ())
    }

    /// Adds a chapter as [`PdfBook::add_chapter`] does, and breaks it off when `tell`, which hears how
    /// many of its sheets are added, does.
    ///
    /// # Errors
    /// When a sheet has no size, or a font here cannot be read, in words.
    pub fn add_chapter_telling(
        &mut self,
        name: &str,
        sheets: &[Sheet],
        mut tell: impl FnMut(usize) -> ControlFlow<()>,
    ) -> Result<ControlFlow<()>, String> {
        let mut chapter = OutlineNode::new(name.to_owned(), top_of(self.pages));
        for (index, sheet) in sheets.iter().enumerate() {
            if tell(index).is_break() {
                return Ok(ControlFlow::Break(()));
            }
            if index > 0 {
                let top = top_of(self.pages);
                chapter.push_child(OutlineNode::new(sheet.title.clone(), top));
            }
            self.add(sheet)?;
        }
        self.outline.push_child(chapter);
        Ok(ControlFlow::Continue(()))
    }

    fn add(&mut self, sheet: &Sheet) -> Result<(), String> {
        let (width, height) = (
            marks::points(sheet.window.width()),
            marks::points(sheet.window.height()),
        );
        let size = PageSettings::from_wh(width, height).ok_or("the sheet has no size")?;
        let mut page = self.document.start_page_with(size);
        let mut surface = page.surface();
        let mut read = Reading {
            nodes: Vec::new(),
            has_title: false,
        };
        let mut panel = 0;
        let origin = sheet.window.origin();
        while panel < sheet.panels.len() {
            if let Some(figure) = sheet.figure_of(panel) {
                let place = surface.start_tagged(ContentTag::Other);
                for panel in &sheet.panels[figure.panels.clone()] {
                    clipped(&mut surface, panel, origin, |surface| {
                        for mark in &panel.marks {
                            self.letters.draw(surface, mark, panel.style, origin)?;
                        }
                        Ok(())
                    })?;
                }
                surface.end_tagged();
                let tag = Tag::Figure(Some(figure.told.clone()));
                read.nodes
                    .push(TagGroup::with_children(tag, vec![place.into()]).into());
                panel = figure.panels.end.max(panel + 1);
            } else {
                let words = &sheet.panels[panel];
                let letters = &mut self.letters;
                clipped(&mut surface, words, origin, |surface| {
                    read.words(surface, words, letters, origin)
                })?;
                panel += 1;
            }
        }
        surface.finish();
        page.finish();
        self.pages += 1;
        let section = TagGroup::with_children(Tag::Section, read.nodes);
        self.tags.push(section);
        Ok(())
    }

    /// The document's bytes.
    ///
    /// # Errors
    /// When it cannot be put together, in words.
    pub fn finish(mut self) -> Result<Vec<u8>, String> {
        let metadata = Metadata::new()
            .title(self.title)
            .language(LANGUAGE.to_owned())
            .creator(format!("Sweepgauge {}", env!("CARGO_PKG_VERSION")));
        self.document.set_metadata(metadata);
        self.document.set_outline(self.outline);
        self.document.set_tag_tree(self.tags);
        let written = self.document.finish();
        written.map_err(|error| format!("the PDF cannot be put together: {error:?}"))
    }
}

/// The top of a page.
fn top_of(page: usize) -> XyzDestination {
    XyzDestination::new(page, krilla::geom::Point::from_xy(0.0, 0.0))
}

/// Draws inside a panel's window.
fn clipped(
    surface: &mut Surface,
    panel: &Panel,
    origin: Point,
    draw: impl FnOnce(&mut Surface) -> Result<(), String>,
) -> Result<(), String> {
    let Some(window) = marks::rectangle(panel.window, origin) else {
        return Ok(());
    };
    surface.push_clip_path(&window, &krilla::paint::FillRule::NonZero);
    let drawn = draw(surface);
    surface.pop();
    drawn
}

/// What is read out of a sheet, in its order.
struct Reading {
    nodes: Vec<Node>,
    has_title: bool,
}

impl Reading {
    /// Draws words, each a paragraph, the first of a sheet its heading; lines beside them are no
    /// content.
    fn words(
        &mut self,
        surface: &mut Surface,
        panel: &Panel,
        letters: &mut Letters,
        origin: Point,
    ) -> Result<(), String> {
        for mark in &panel.marks {
            let Mark::Text { text, .. } = mark else {
                surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(
                    ArtifactType::Other,
                )));
                letters.draw(surface, mark, panel.style, origin)?;
                surface.end_tagged();
                continue;
            };
            // What is shaped from right to left is still read as it was written.
            let span = if lettering::is_plain(text) {
                SpanTag::empty()
            } else {
                SpanTag::empty().with_actual_text(Some(text))
            };
            let place: Identifier = surface.start_tagged(ContentTag::Span(span));
            letters.draw(surface, mark, panel.style, origin)?;
            surface.end_tagged();
            let children = vec![place.into()];
            let group = if self.has_title {
                TagGroup::with_children(Tag::P, children)
            } else {
                self.has_title = true;
                TagGroup::with_children(Tag::Hn(NonZeroU16::MIN, None), children)
            };
            self.nodes.push(group.into());
        }
        Ok(())
    }
}
