//! How a picture is laid out: light or dark, and how large its words and pens are.

use kurbo::Size;

use super::colour::Rgb;
use super::look::{Look, Pen};
use super::theme::Theme;
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
    /// Which words are shown, with the lines that lead to them and what else stands and falls with them.
    pub words: Words,
    /// Whether its numbers are shown.
    pub numbers: Numbers,
    /// How many times enlarged it is seen through a glass, words and pens being so much smaller beneath it. The
    /// room that is left for words is that of the picture as it is seen without: so it stays where it is.
    pub enlarged: f64,
}

/// Whether a picture shows its numbers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Numbers {
    /// All of them.
    #[default]
    Shown,
    /// None: what is measured keeps its name, and what is a number alone goes with the lines that lead to it.
    /// So do scales, by which it could be read.
    Hidden,
}

/// Which words a picture shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Words {
    /// All for which there is room.
    #[default]
    All,
    /// Of a drawing of the unit the few that its sweep is told by: for a room.
    Few,
    /// None.
    None,
}

impl From<Theme> for Style {
    fn from(theme: Theme) -> Self {
        Self {
            theme,
            text: 1.0,
            pen: 1.0,
            words: Words::All,
            numbers: Numbers::Shown,
            enlarged: 1.0,
        }
    }
}

/// Paper on which words and pens are as large as given for the window; on larger paper they grow with
/// it, to be read from where all of it is seen.
const PLAIN: Size = Size::new(1000.0, 480.0);
/// How many times as large they grow at most.
const MOST: f64 = 2.0;

impl Style {
    /// How many times as large as in the window the words are that room is left for.
    #[must_use]
    pub fn room_for_words(self) -> f64 {
        self.text * self.enlarged
    }

    /// A style for a picture that fills so much of a window.
    #[must_use]
    pub fn filling(theme: Theme, paper: Size) -> Self {
        let by = (paper.width / PLAIN.width).min(paper.height / PLAIN.height);
        let text = by.clamp(1.0, MOST);
        Self {
            theme,
            text,
            pen: text.sqrt(),
            words: Words::All,
            numbers: Numbers::Shown,
            enlarged: 1.0,
        }
    }

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

    /// Colour of a filled mark: a role's ink or its ground.
    #[must_use]
    pub fn filled(&self, role: Role, is_ink: bool) -> Rgb {
        let look = self.look(role);
        if is_ink { look.ink } else { look.fill }
    }
}
