//! How large words and pens are on a printed page.

use crate::drawing::paper::{Numbers, Style, Theme, Words};

/// Words and pens against the window's: read in the hand, ordinary words are set at 8 points.
pub(super) const IN_THE_HAND: f64 = 0.8;
/// The smallest letters of a sheet: 6 points, as a paper unit is 3/4 of one.
pub(super) const SMALLEST_LETTERS: f64 = 6.0 / 0.75;

/// How pictures are laid out among words of a style: their own words never smaller than usual.
pub(super) fn of_pictures(style: Style) -> Style {
    Style {
        text: style.text.max(IN_THE_HAND),
        ..style
    }
}

/// How a printed page is laid out, its words so many times as large as the window's.
pub(super) fn on_paper(text: f64) -> Style {
    Style {
        theme: Theme::Print,
        text,
        pen: IN_THE_HAND,
        words: Words::All,
        numbers: Numbers::Shown,
        enlarged: 1.0,
    }
}
