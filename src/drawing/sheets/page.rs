//! Pages: the sizes of paper that a sheet is printed on.

use kurbo::Rect;

use crate::drawing::paper::PAPER_PER_MM;

/// A size of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Page {
    /// A4, 210 mm by 297 mm (ISO 216).
    #[default]
    A4,
    /// Letter, 8.5 in by 11 in (size A of ASME Y14.1).
    Letter,
}

impl Page {
    /// Every size.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its name for programs.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }

    /// Its short side and its long side in millimetres.
    #[must_use]
    pub const fn sides_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (8.5 * 25.4, 11.0 * 25.4),
        }
    }

    /// The page upright, in paper units.
    #[must_use]
    pub fn upright(self) -> Rect {
        let (short_mm, long_mm) = self.sides_mm();
        Rect::new(0.0, 0.0, short_mm * PAPER_PER_MM, long_mm * PAPER_PER_MM)
    }

    /// The page lying on its side, the long one across, in paper units.
    #[must_use]
    pub fn on_its_side(self) -> Rect {
        let (short_mm, long_mm) = self.sides_mm();
        Rect::new(0.0, 0.0, long_mm * PAPER_PER_MM, short_mm * PAPER_PER_MM)
    }
}
