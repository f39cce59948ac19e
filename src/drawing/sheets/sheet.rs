//! A sheet: the panels of one piece of paper, and what of them is a picture.

use std::ops::Range;

use kurbo::{Rect, Shape as _};

use crate::drawing::paper::{Mark, Panel, Pencil, Style};
use crate::drawing::scene::Role;

/// A picture among the panels of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// Its panels, by their places on the sheet.
    pub panels: Range<usize>,
    /// What it shows, for whoever has it read out.
    pub told: String,
}

/// One piece of paper with all that stands on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What the sheet is called.
    pub title: String,
    /// Its size in paper units.
    pub window: Rect,
    /// Its marks, from the back to the front.
    pub panels: Vec<Panel>,
    /// Which panels make up pictures; the others are words with their lines.
    pub figures: Vec<Figure>,
}

impl Sheet {
    /// A sheet of paper, its ground filled with the paper's colour.
    #[must_use]
    pub fn blank(title: impl Into<String>, window: Rect, style: impl Into<Style>) -> Self {
        let mut ground = Pencil::new(style, window);
        ground.body(Role::Paper, &window.to_path(0.1));
        Self {
            title: title.into(),
            window,
            panels: vec![ground.done()],
            figures: Vec::new(),
        }
    }

    /// Whether it lies on its side.
    #[must_use]
    pub fn is_lying(&self) -> bool {
        self.window.width() > self.window.height()
    }

    /// Adds the panels of a picture.
    pub fn add_figure(&mut self, told: impl Into<String>, panels: impl IntoIterator<Item = Panel>) {
        let first = self.panels.len();
        self.panels.extend(panels);
        self.figures.push(Figure {
            panels: first..self.panels.len(),
            told: told.into(),
        });
    }

    /// The same without the paper's colour behind it, to be laid over another ground.
    #[must_use]
    pub fn without_ground(mut self) -> Self {
        let is_ground = |mark: &Mark| {
            matches!(
                mark,
                Mark::Fill {
                    role: Role::Paper,
                    is_ink: false,
                    ..
                }
            )
        };
        for panel in &mut self.panels {
            panel.marks.retain(|mark| !is_ground(mark));
        }
        self
    }

    /// The picture that a panel is part of.
    #[must_use]
    pub fn figure_of(&self, panel: usize) -> Option<&Figure> {
        let mut figures = self.figures.iter();
        figures.find(|figure| figure.panels.contains(&panel))
    }

    /// Every word on the sheet.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.panels
            .iter()
            .flat_map(|panel| &panel.marks)
            .filter_map(|mark| match mark {
                Mark::Text { text, .. } => Some(text.as_str()),
                _ => None,
            })
    }
}
