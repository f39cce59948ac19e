//! Themes: the tones and colours of light and dark, and of print.
//!
//! Meaning is carried by the palette; all else is neutral slate.

use super::colour::Rgb;
use super::colour::palette::{BLUE, BLUISH_GREEN, ORANGE, REDDISH_PURPLE, SKY_BLUE, VERMILLION};
use crate::analysis::Level;

/// Light or dark.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Dark ink on light paper.
    #[default]
    Light,
    /// Light ink on dark paper.
    Dark,
    /// Black ink on white paper, for printers and copiers.
    Print,
}

/// Neutral tones of a theme, from the paper to the ink.
pub(super) struct Neutrals {
    pub(super) paper: Rgb,
    /// Filled parts.
    pub(super) body: Rgb,
    /// Thin metal that is cut: blades.
    pub(super) cut_metal: Rgb,
    /// Ghosts and hints.
    pub(super) faint: Rgb,
    /// Thin lines.
    pub(super) middle: Rgb,
    pub(super) ink: Rgb,
}

impl Theme {
    pub(super) const fn neutrals(self) -> Neutrals {
        match self {
            Self::Light => Neutrals {
                paper: Rgb::new(0x00FC_FCFA),
                body: Rgb::new(0x00E6_EAED),
                cut_metal: Rgb::new(0x003F_4A55),
                faint: Rgb::new(0x007A_8590),
                middle: Rgb::new(0x004E_5B68),
                ink: Rgb::new(0x001C_232B),
            },
            Self::Dark => Neutrals {
                paper: Rgb::new(0x0015_191E),
                body: Rgb::new(0x002B_333C),
                cut_metal: Rgb::new(0x00C3_CDD6),
                faint: Rgb::new(0x007D_8994),
                middle: Rgb::new(0x00A9_B4BF),
                ink: Rgb::new(0x00F0_F3F5),
            },
            Self::Print => Neutrals {
                paper: Rgb::new(0x00FF_FFFF),
                body: Rgb::new(0x00EC_ECEC),
                cut_metal: Rgb::new(0x0038_3838),
                faint: Rgb::new(0x0080_8080),
                middle: Rgb::new(0x0044_4444),
                ink: Rgb::new(0x0000_0000),
            },
        }
    }

    /// A level's colour.
    #[must_use]
    pub const fn level(self, level: Level) -> Rgb {
        if matches!(self, Self::Print) {
            // Symbol and hatching tell them apart.
            return self.neutrals().middle;
        }
        match level {
            Level::Fine => BLUISH_GREEN,
            Level::Watch => ORANGE,
            Level::Over => VERMILLION,
        }
    }

    /// A colour of the palette as a line on this paper: where it is too light for it, a darker shade.
    pub(super) const fn line(self, colour: Rgb) -> Rgb {
        match (self, colour) {
            (Self::Light, ORANGE) => Rgb::new(0x00B8_7F00),
            (Self::Light, SKY_BLUE) => Rgb::new(0x0045_90BA),
            (Self::Light, REDDISH_PURPLE) => Rgb::new(0x00C4_709E),
            _ => colour,
        }
    }

    /// The cut line's own.
    pub(super) const fn cut_line(self) -> Rgb {
        match self {
            Self::Light => BLUE,
            Self::Dark => SKY_BLUE,
            Self::Print => self.neutrals().ink,
        }
    }
}
