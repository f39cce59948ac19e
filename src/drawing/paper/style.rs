//! How a picture is laid out: light or dark, and how large its words and pens are.

use super::theme::{Look, Pen, Rgb, Theme};
use crate::drawing::scene::Role;

/// Light or dark, with the sizes of words and pens: the same picture serves a window, a sheet of
/// paper and a projector. A theme alone is a style with the sizes of the window.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// What the roles look like.
    pub theme: Theme,
    /// How many times as large as in the window words are, and all that is set out against them:
    /// arrowheads, the gaps about a dimension, the way from a label to its place.
    pub text: f64,
    /// How many times as wide as in the window lines are, and how far apart dashes and hatching.
    pub pen: f64,
}

impl From<Theme> for Style {
    fn from(theme: Theme) -> Self {
        Self {
            theme,
            text: 1.0,
            pen: 1.0,
        }
    }
}

impl Style {
    /// How a role is drawn. Its dashes are those of the window, before [`Style::pen`].
    #[must_use]
    pub fn look(&self, role: Role) -> Look {
        let mut look = self.theme.look(role);
        look.width *= self.pen;
        if let Some(hatching) = &mut look.hatching {
            hatching.spacing *= self.pen;
            hatching.width *= self.pen;
        }
        look
    }

    /// Colour and width of one of a role's pens.
    #[must_use]
    pub fn inked(&self, role: Role, pen: Pen) -> (Rgb, f64) {
        self.look(role).pen(pen)
    }
}
