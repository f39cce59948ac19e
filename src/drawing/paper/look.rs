//! How a role is drawn: its pens, its fill, its hatching.

use super::colour::Rgb;

/// Hatching: parallel lines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hatching {
    /// Colour of its lines.
    pub ink: Rgb,
    /// The lines' angle on paper, in degrees, rising to the right when positive.
    pub angle_deg: f64,
    /// Paper units between lines.
    pub spacing: f64,
    /// Width of its lines in paper units.
    pub width: f64,
    /// Crossed by a second set.
    pub is_crossed: bool,
}

/// How a role is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Colour of lines and words.
    pub ink: Rgb,
    /// Colour of fills.
    pub fill: Rgb,
    /// Width of lines in paper units.
    pub width: f64,
    /// Dash and gap lengths in paper units; an unbroken line has none.
    pub dashes: &'static [f64],
    /// Hatching, where the role has one.
    pub hatching: Option<Hatching>,
}

/// Which of a role's pens draws a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pen {
    /// The one for its outlines.
    Outline,
    /// The outlines' colour, so many times as wide.
    Wide(f64),
    /// The thin one for hatching.
    Hatching,
}

impl Look {
    /// Colour and width of a pen.
    #[must_use]
    pub fn pen(&self, pen: Pen) -> (Rgb, f64) {
        match (pen, self.hatching) {
            (Pen::Hatching, Some(hatching)) => (hatching.ink, hatching.width),
            (Pen::Wide(factor), _) => (self.ink, self.width * factor),
            (Pen::Outline | Pen::Hatching, _) => (self.ink, self.width),
        }
    }
}
