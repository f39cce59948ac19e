//! The sizes and weights of every text in the window, by what the text is.

use egui::{FontFamily, FontId, RichText};

/// What a text is, which gives it its size and its weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lettering {
    /// The program's own name and first question.
    Title,
    /// What is told of the whole unit.
    Verdict,
    /// What an area comes to, in one line.
    Headline,
    /// The name of a card.
    CardTitle,
    /// The name of a part of the window.
    Heading,
    /// A unit's numbers in one line.
    InShort,
    /// The name of something that is told of.
    Name,
    /// Ordinary text.
    Body,
    /// What goes with a field or a list.
    Note,
    /// A sign of one letter.
    Sign,
    /// What a number rests on, and cautions that stand everywhere.
    FinePrint,
    /// A name on a line of a plot.
    Label,
}

impl Lettering {
    /// The font.
    pub fn font(self) -> FontId {
        let (size, is_strong) = match self {
            Self::Title => (22.0, true),
            Self::Verdict => (26.0, true),
            Self::Headline => (19.0, true),
            Self::CardTitle => (18.0, true),
            Self::Heading => (16.0, true),
            Self::InShort => (16.0, false),
            Self::Name => (15.0, true),
            Self::Body => (14.0, false),
            Self::Note => (13.0, false),
            Self::Sign => (13.0, true),
            Self::FinePrint => (12.5, false),
            Self::Label => (12.0, false),
        };
        let family = if is_strong {
            strong()
        } else {
            FontFamily::Proportional
        };
        FontId::new(size, family)
    }

    /// A text in it.
    pub fn of(self, text: impl Into<String>) -> RichText {
        RichText::new(text).font(self.font())
    }
}

/// The family of headings and numbers.
pub fn strong() -> FontFamily {
    FontFamily::Name("strong".into())
}
