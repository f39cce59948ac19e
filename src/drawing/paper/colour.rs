//! Colours, and the palette that carries meaning.

/// A colour, red, green, blue and how opaque it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rgb {
    /// Red, green and blue.
    pub rgb: [u8; 3],
    /// 255 is opaque.
    pub opacity: u8,
}

impl Rgb {
    /// Of red, green and blue in hexadecimal, opaque.
    pub(super) const fn new(hex: u32) -> Self {
        let [_, r, g, b] = hex.to_be_bytes();
        Self {
            rgb: [r, g, b],
            opacity: 255,
        }
    }

    /// The same, less opaque.
    pub(super) const fn faint(self, opacity: u8) -> Self {
        Self { opacity, ..self }
    }

    /// The grey that a copier makes of it, darker where it is a colour: coloured lines carry meaning.
    pub(super) fn in_grey(self) -> Self {
        let [r, g, b] = self.rgb.map(u16::from);
        let most = r.max(g).max(b);
        // Luma of ITU-R BT.601.
        let luma = (299 * u32::from(r) + 587 * u32::from(g) + 114 * u32::from(b)) / 1000;
        let luma = if most - r.min(g).min(b) > 40 {
            luma * 3 / 5
        } else {
            luma
        };
        let grey = u8::try_from(luma).unwrap_or(u8::MAX);
        Self {
            rgb: [grey; 3],
            ..self
        }
    }
}

/// The Okabe–Ito palette (M. Okabe, K. Ito, "Color Universal Design", 2008), which the colour-blind can
/// tell apart.
pub mod palette {
    use super::Rgb;

    /// Orange.
    pub const ORANGE: Rgb = Rgb::new(0x00E6_9F00);
    /// Sky blue.
    pub const SKY_BLUE: Rgb = Rgb::new(0x0056_B4E9);
    /// Bluish green.
    pub const BLUISH_GREEN: Rgb = Rgb::new(0x0000_9E73);
    /// Yellow.
    pub const YELLOW: Rgb = Rgb::new(0x00F0_E442);
    /// Blue.
    pub const BLUE: Rgb = Rgb::new(0x0000_72B2);
    /// Vermillion.
    pub const VERMILLION: Rgb = Rgb::new(0x00D5_5E00);
    /// Reddish purple.
    pub const REDDISH_PURPLE: Rgb = Rgb::new(0x00CC_79A7);
}
