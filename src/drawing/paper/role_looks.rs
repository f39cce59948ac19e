//! What each role looks like, in each theme.
//!
//! No meaning by colour alone: levels differ in hatching, symbol and word too. Line types after
//! ISO 128-2: thick for visible outlines, thin for dimensions and hatching, long dash and dot, thin, for
//! axes, long dash and two dots for where a part stood or can stand. Lines have a contrast of 3 to 1 with
//! the paper at the least (WCAG 2.2, 1.4.11).

use super::colour::Rgb;
use super::colour::palette::{BLUE, BLUISH_GREEN, REDDISH_PURPLE, SKY_BLUE, VERMILLION, YELLOW};
use super::look::{Hatching, Look};
use super::theme::Theme;
use crate::analysis::Level;
use crate::analysis::knives::Limit;
use crate::drawing::scene::Role;

const THICK: f64 = 2.0;
const THIN: f64 = 1.0;
const CHAIN: &[f64] = &[14.0, 4.0, 2.0, 4.0];
const OTHER_POSITION: &[f64] = &[14.0, 3.0, 2.0, 3.0, 2.0, 3.0];
const DOTTED: &[f64] = &[2.0, 3.0];
const DASHED: &[f64] = &[7.0, 4.0];
/// Line patterns of knives: whole, long dash, dot, short dash. Plots draw them too, and know no others.
const KNIFE_DASHES: [&[f64]; 4] = [&[], &[12.0, 7.4], &[2.5, 3.5], &[5.0, 3.1]];
/// Colours of knives. Orange and vermillion are left to the limits.
const KNIFE_INKS: usize = 5;

/// How many knives differ in colour, line pattern or both.
pub const KNIFE_LINES: usize = KNIFE_DASHES.len() * KNIFE_INKS;

/// How many knives can be drawn over the present one and still be told apart.
pub const OVERLAYS: usize = 4;

fn hatching(ink: Rgb, angle_deg: f64, spacing: f64) -> Hatching {
    Hatching {
        ink,
        angle_deg,
        spacing,
        width: THIN,
        is_crossed: false,
    }
}

impl Theme {
    /// What hangs below the cut line: levels differ in their hatching too.
    fn below_cut(self, level: Level, plain: Look) -> Look {
        let ink = self.line(self.level(level));
        let hatched = hatching(ink, 60.0, 6.0);
        Look {
            ink,
            fill: self.level(level).faint(120),
            width: 1.6,
            hatching: match level {
                Level::Fine => None,
                Level::Watch => Some(hatched),
                Level::Over => Some(Hatching {
                    is_crossed: true,
                    ..hatched
                }),
            },
            ..plain
        }
    }

    /// The place of the worst finding: hatched across, the drawing under it in sight.
    fn worst(self, level: Level) -> Look {
        let ink = self.line(self.level(level));
        Look {
            ink,
            fill: ink.faint(36),
            width: 1.4,
            dashes: DASHED,
            hatching: Some(Hatching {
                is_crossed: level == Level::Over,
                ..hatching(ink, 45.0, 5.0)
            }),
        }
    }

    /// A region of the window map that a limit forbids: limits differ in the direction of their
    /// hatching too.
    fn forbidden(self, limit: Limit, plain: Look) -> Look {
        let n = self.neutrals();
        let (ink, angle_deg, spacing) = match limit {
            Limit::Sweep => (VERMILLION, 45.0, 11.0),
            Limit::Reel => (self.cut_line(), -45.0, 11.0),
            Limit::LowEnd => (self.cut_line(), -70.0, 14.0),
            Limit::Cut => (n.ink, 90.0, 10.0),
            Limit::Underside => (REDDISH_PURPLE, 0.0, 9.0),
            Limit::LowEndUnderside => (REDDISH_PURPLE, 20.0, 12.0),
            Limit::Lip => (n.ink, 0.0, 14.0),
            Limit::Ahead => (BLUISH_GREEN, 70.0, 11.0),
            Limit::TopFace => (n.ink, 30.0, 14.0),
            Limit::Rollers => (n.ink, -45.0, 16.0),
            Limit::Range | Limit::Reach => (n.middle, -20.0, 7.0),
        };
        let ink = self.line(ink);
        Look {
            ink,
            fill: ink.faint(26),
            width: 1.6,
            hatching: Some(hatching(ink.faint(140), angle_deg, spacing)),
            ..plain
        }
    }

    /// A knife drawn over the present one, in the colour and line pattern of its place in the list.
    fn overlay(self, place: u8, plain: Look) -> Look {
        let ink = self.neutrals().ink;
        let inks: [Rgb; KNIFE_INKS] = match self {
            Self::Light => [BLUE, BLUISH_GREEN, REDDISH_PURPLE, ink, SKY_BLUE],
            Self::Dark => [SKY_BLUE, BLUISH_GREEN, REDDISH_PURPLE, YELLOW, ink],
            Self::Print => [ink; KNIFE_INKS],
        };
        let place = usize::from(place);
        Look {
            ink: self.line(inks[place % inks.len()]),
            width: 2.4,
            dashes: KNIFE_DASHES[place % KNIFE_DASHES.len()],
            ..plain
        }
    }

    /// The colour of a role's words: the ink, since coloured words on paper read badly from afar.
    #[must_use]
    pub fn text_colour(self, role: Role) -> Rgb {
        match role {
            Role::Note => self.look(role).ink,
            Role::Plate
            | Role::Soil
            | Role::Turf
            | Role::Frame
            | Role::ReelRim
            | Role::TipCircle
            | Role::ReelBody
            | Role::Blade
            | Role::Knife
            | Role::Bar
            | Role::Hardware
            | Role::Hint
            | Role::Roller
            | Role::CentreLine
            | Role::Vertical
            | Role::Datum
            | Role::CutLine
            | Role::BelowCut(_)
            | Role::Worst(_)
            | Role::Band
            | Role::Clip
            | Role::Dimension
            | Role::Heading
            | Role::Ghost
            | Role::Overlay(_)
            | Role::LensFrame
            | Role::Forbidden(_)
            | Role::Usable
            | Role::Setting
            | Role::Paper
            | Role::Level(_) => self.neutrals().ink,
        }
    }

    /// How a role is drawn.
    #[must_use]
    pub fn look(self, role: Role) -> Look {
        let look = self.coloured(role);
        match self {
            Self::Light | Self::Dark => look,
            Self::Print => Look {
                ink: look.ink.in_grey(),
                fill: look.fill.in_grey(),
                hatching: look.hatching.map(|hatching| Hatching {
                    ink: hatching.ink.in_grey(),
                    ..hatching
                }),
                ..look
            },
        }
    }

    fn coloured(self, role: Role) -> Look {
        let n = self.neutrals();
        let plain = Look {
            ink: n.ink,
            fill: n.body,
            width: THIN,
            dashes: &[],
            hatching: None,
        };
        let hatched = |ink, angle_deg, spacing| Some(hatching(ink, angle_deg, spacing));
        let paint = |colour| Look {
            ink: colour,
            fill: colour,
            ..plain
        };
        let pen = |ink, width, dashes| Look {
            ink,
            width,
            dashes,
            ..plain
        };
        let part = |width, hatching| Look {
            width,
            hatching,
            ..plain
        };
        match role {
            Role::Plate | Role::Soil => Look {
                ink: n.middle,
                width: THICK,
                hatching: hatched(n.faint, 45.0, 9.0),
                ..plain
            },
            Role::Turf => Look {
                ink: BLUISH_GREEN.faint(150),
                fill: BLUISH_GREEN.faint(36),
                ..plain
            },
            Role::Frame => Look {
                ink: n.faint,
                fill: n.body.faint(110),
                ..plain
            },
            Role::ReelRim => part(THICK, None),
            Role::TipCircle | Role::Datum | Role::Note => pen(n.middle, THIN, &[]),
            Role::ReelBody => Look {
                fill: n.body.faint(120),
                ..plain
            },
            // A thin section is filled instead of hatched (ISO 128-50).
            Role::Blade => Look {
                fill: n.cut_metal,
                ..pen(n.ink, 1.4, &[])
            },
            // Sections that touch lean opposite ways (ISO 128-50), in outlines alike.
            Role::Knife => part(THICK, hatched(n.middle, -45.0, 5.0)),
            Role::Bar => Look {
                ink: n.faint,
                fill: n.body.faint(150),
                width: THICK,
                hatching: hatched(n.faint, 45.0, 7.0),
                ..plain
            },
            Role::Hardware => part(1.4, None),
            Role::Hint => Look {
                ink: n.faint,
                fill: n.body.faint(70),
                ..plain
            },
            Role::Roller => part(1.6, None),
            Role::CentreLine => pen(n.middle, THIN, CHAIN),
            // Thin as every axis is; its ink and its name make it strong.
            Role::Vertical => pen(n.ink, THIN, CHAIN),
            // No part ends there: thinner than any outline, told by its colour.
            Role::CutLine => pen(self.cut_line(), 1.2, &[]),
            Role::BelowCut(level) => self.below_cut(level, plain),
            Role::Worst(level) => self.worst(level),
            Role::Band => Look {
                fill: REDDISH_PURPLE.faint(46),
                ..pen(self.line(REDDISH_PURPLE), THIN, DOTTED)
            },
            Role::Clip => Look {
                width: 2.4,
                ..paint(self.line(REDDISH_PURPLE))
            },
            Role::Dimension => pen(n.ink, THIN, &[]),
            Role::Heading => plain,
            Role::Ghost => pen(n.faint, 1.2, OTHER_POSITION),
            Role::Overlay(place) => self.overlay(place, plain),
            Role::LensFrame => pen(n.middle, 1.2, &[]),
            Role::Forbidden(limit) => self.forbidden(limit, plain),
            Role::Usable => Look {
                fill: n.paper,
                ..pen(n.ink, 2.4, &[])
            },
            Role::Setting => Look {
                fill: n.paper,
                ..pen(n.ink, THICK, &[])
            },
            Role::Paper => paint(n.paper),
            Role::Level(level) => paint(self.level(level)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast ratio by WCAG 2.2, <https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio>.
    fn contrast(one: Rgb, other: Rgb) -> f64 {
        let luminance = |colour: Rgb| {
            let [red, green, blue] = colour.rgb.map(|part| {
                let part = f64::from(part) / 255.0;
                if part <= 0.04045 {
                    part / 12.92
                } else {
                    ((part + 0.055) / 1.055).powf(2.4)
                }
            });
            0.2126 * red + 0.7152 * green + 0.0722 * blue
        };
        let (one, other) = (luminance(one) + 0.05, luminance(other) + 0.05);
        one.max(other) / one.min(other)
    }

    /// A colour laid over another.
    fn over(upper: Rgb, lower: Rgb) -> Rgb {
        let part = f64::from(upper.opacity) / 255.0;
        let mixed = |at: usize| {
            let (upper, lower) = (f64::from(upper.rgb[at]), f64::from(lower.rgb[at]));
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "between two parts of a colour"
            )]
            let mixed = (upper * part + lower * (1.0 - part)).round() as u8;
            mixed
        };
        Rgb {
            rgb: [mixed(0), mixed(1), mixed(2)],
            opacity: 255,
        }
    }

    /// WCAG 2.2, 1.4.11 asks for 3 to 1 of graphics that are needed to understand a picture. Grass and
    /// the hatching that repeats what an outline says are left out.
    #[test]
    fn every_line_that_carries_meaning_stands_out_from_the_paper_and_from_its_own_fill() {
        let levels = [Level::Fine, Level::Watch, Level::Over];
        let mut roles = vec![
            Role::Plate,
            Role::Soil,
            Role::Frame,
            Role::ReelRim,
            Role::TipCircle,
            Role::ReelBody,
            Role::Blade,
            Role::Knife,
            Role::Bar,
            Role::Hardware,
            Role::Hint,
            Role::Roller,
            Role::CentreLine,
            Role::Vertical,
            Role::Datum,
            Role::CutLine,
            Role::Band,
            Role::Clip,
            Role::Dimension,
            Role::Note,
            Role::Heading,
            Role::Ghost,
            Role::LensFrame,
            Role::Usable,
            Role::Setting,
        ];
        roles.extend(levels.map(Role::BelowCut));
        roles.extend(levels.map(Role::Worst));
        roles.extend(Limit::WITH_MARGIN.map(Role::Forbidden));
        roles.extend((0..=u8::MAX).take(KNIFE_LINES).map(Role::Overlay));
        for theme in [Theme::Light, Theme::Dark, Theme::Print] {
            let paper = theme.look(Role::Paper).fill;
            for role in &roles {
                let look = theme.look(*role);
                let ratio = contrast(look.ink, paper);
                assert!(ratio >= 3.0, "{theme:?}, {role:?}: {ratio}");
                // The parts drawn as hints stand out from what they are filled with.
                if matches!(role, Role::Frame | Role::Bar | Role::Hint | Role::Roller) {
                    let ratio = contrast(look.ink, over(look.fill, paper));
                    assert!(ratio >= 3.0, "{theme:?}, {role:?} on its fill: {ratio}");
                }
            }
        }
    }

    /// ISO 128-2: an axis is a thin chain line, an outline is about twice as wide.
    #[test]
    fn axes_are_thin_chain_lines() {
        for theme in [Theme::Light, Theme::Dark, Theme::Print] {
            for role in [Role::CentreLine, Role::Vertical] {
                let look = theme.look(role);
                assert_eq!(look.dashes, CHAIN, "{theme:?}, {role:?}");
                assert!(2.0 * look.width <= theme.look(Role::Knife).width);
            }
        }
    }
}
