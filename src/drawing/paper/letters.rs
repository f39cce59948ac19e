//! Letters that the bundled fonts lack: the system's fonts that have them, and what is told where none
//! has.

use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

use resvg::usvg::fontdb::{Database, FaceInfo, ID};
use skrifa::{FontRef, MetadataProvider as _};

use super::{fonts, words};
use crate::units::is_hidden;

static BUNDLED: LazyLock<Arc<Database>> = LazyLock::new(|| Arc::new(bundled()));
static ALL: LazyLock<Arc<Database>> = LazyLock::new(|| {
    let mut fonts = bundled();
    fonts.load_system_fonts();
    Arc::new(fonts)
});

fn bundled() -> Database {
    let mut all = Database::new();
    all.load_font_data(fonts::REGULAR.to_vec());
    all.load_font_data(fonts::SEMIBOLD.to_vec());
    all
}

/// The fonts that a text needs: the bundled ones, and the system's where those lack a letter.
#[must_use]
pub fn needed_for(text: &str) -> Arc<Database> {
    let fonts = if words::are_bundled(text) {
        &BUNDLED
    } else {
        &ALL
    };
    Arc::clone(fonts)
}

/// The font that stands in where those used so far lack a letter: one as heavy and as upright as the
/// first, if there is any.
#[must_use]
pub fn stand_in(letter: char, used: &[ID], fonts: &Database) -> Option<ID> {
    let like = fonts.face(*used.first()?)?;
    let has_it = |face: &&FaceInfo| !used.contains(&face.id) && has(fonts, face.id, letter);
    let differs = |face: &&FaceInfo| {
        let weight = face.weight.0.abs_diff(like.weight.0);
        (
            face.style != like.style,
            face.stretch != like.stretch,
            weight,
        )
    };
    fonts
        .faces()
        .filter(has_it)
        .min_by_key(differs)
        .map(|face| face.id)
}

fn has(fonts: &Database, font: ID, letter: char) -> bool {
    let has_it = |data: &[u8], index| {
        let font = FontRef::from_index(data, index);
        font.is_ok_and(|font| font.charmap().map(letter).is_some())
    };
    fonts.with_face_data(font, has_it).unwrap_or(false)
}

/// What is told in place of letters that no font here has, or not the one that stands in.
const UNREADABLE: &str = "[letters that cannot be shown here]";
/// More letters than these are not looked for in the system's fonts.
const MOST_SOUGHT: usize = 400;

/// The font of the system's that a text is shown in besides the bundled ones: that of the first letter
/// they lack. One alone, since the letters of several scripts on one line are not put together rightly.
fn beside_bundled(text: &str) -> Option<ID> {
    static KNOWN: LazyLock<Mutex<HashMap<char, Option<ID>>>> = LazyLock::new(Mutex::default);
    let is_lacking = |c: &char| !is_hidden(*c) && !is_joiner(*c) && !words::is_bundled(*c);
    let first = text.chars().find(is_lacking)?;
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(font) = known.get(&first) {
        return *font;
    }
    let is_sought = known.len() < MOST_SOUGHT;
    let bundled = ALL.faces().next().map(|face| face.id).filter(|_| is_sought);
    let font = bundled.and_then(|bundled| stand_in(first, &[bundled], &ALL));
    known.insert(first, font);
    font
}

/// Whether a letter is bundled, or in the font that stands in.
fn is_readable(letter: char, beside: Option<ID>) -> bool {
    static KNOWN: LazyLock<Mutex<HashMap<(ID, char), bool>>> = LazyLock::new(Mutex::default);
    if words::is_bundled(letter) {
        return true;
    }
    let Some(beside) = beside else { return false };
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(is_readable) = known.get(&(beside, letter)) {
        return *is_readable;
    }
    let is_readable = known.len() < MOST_SOUGHT && has(&ALL, beside, letter);
    known.insert((beside, letter), is_readable);
    is_readable
}

/// Joiners are no letters of their own.
const fn is_joiner(c: char) -> bool {
    matches!(c, '\u{200c}' | '\u{200d}' | '\u{fe0f}')
}

/// A text as paper can show it, on one line: without letters that steer what stands around them, and
/// with plain words where no font here has the letters, or not all of them.
#[must_use]
pub fn readable(text: &str) -> Cow<'_, str> {
    let beside = beside_bundled(text);
    let is_plain = |c: char| !is_hidden(c) && (is_joiner(c) || is_readable(c, beside));
    if text.chars().all(is_plain) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len());
    let mut is_lost = false;
    for c in text.chars() {
        if is_hidden(c) {
            shown.push(' ');
        } else if is_plain(c) {
            is_lost &= is_joiner(c);
            shown.push(c);
        } else if !is_lost {
            is_lost = true;
            shown.push_str(UNREADABLE);
        }
    }
    Cow::Owned(shown)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_that_no_font_has_are_told_in_words() {
        // Of the private use area, of which no font here makes a letter.
        let lost = "greens \u{10fffd}\u{10fffc} 3";
        assert_eq!(readable(lost), format!("greens {UNREADABLE} 3"));
        assert_eq!(readable("Grüße, 1½ in"), "Grüße, 1½ in");
        assert_eq!(readable("two\nlines\u{202e}"), "two lines ");
    }

    #[test]
    fn one_font_of_the_systems_stands_in_on_a_line_and_no_second() {
        let mixed = "green \u{645}\u{644} \u{8349}\u{576a} 3";
        let shown = readable(mixed);
        let beside = beside_bundled(mixed);
        for c in shown.chars().filter(|c| !words::is_bundled(*c)) {
            assert!(beside.is_some_and(|font| has(&ALL, font, c)), "{c:?}");
        }
        assert!(
            shown.starts_with("green ") && shown.ends_with(" 3"),
            "{shown}"
        );
    }
}
