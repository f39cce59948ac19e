//! Where each field of a unit file stands in its text, so that a wrong value can be pointed at.
//!
//! The RON parser knows places but not which field it is in, serde knows fields but no places, and
//! a check across fields knows only their names. This walks the text once and ties both together.

use std::iter::Peekable;
use std::str::CharIndices;

/// A field and the byte where its value begins.
#[derive(Debug, PartialEq, Eq)]
struct Place {
    path: String,
    start: usize,
}

/// Every field of a text, in the order it is written.
#[derive(Debug, Default)]
pub(super) struct Places(Vec<Place>);

/// An open bracket, and the part of the path it adds for what stands in it now.
struct Level {
    base: String,
    index: Option<usize>,
}

impl Places {
    /// Walks a text; one that is no RON is walked as far as it makes sense.
    pub(super) fn of(text: &str) -> Self {
        let mut places = Vec::new();
        let mut levels: Vec<Level> = Vec::new();
        let mut current = String::new();
        let mut chars = text.char_indices().peekable();
        while let Some((at, c)) = chars.next() {
            match c {
                '"' => skip_string(&mut chars),
                '/' if matches!(chars.peek(), Some((_, '/'))) => skip_line(&mut chars),
                '/' if matches!(chars.peek(), Some((_, '*'))) => skip_block(&mut chars),
                '(' | '{' => levels.push(Level {
                    base: current.clone(),
                    index: None,
                }),
                '[' => {
                    levels.push(Level {
                        base: current.clone(),
                        index: Some(0),
                    });
                    current = format!("{current}[0]");
                    places.push(Place {
                        path: current.clone(),
                        start: at + 1,
                    });
                }
                ')' | ']' | '}' => {
                    if let Some(level) = levels.pop() {
                        current = level.base;
                    }
                }
                ',' => {
                    if let Some(level) = levels.last_mut() {
                        current.clone_from(&level.base);
                        if let Some(index) = &mut level.index {
                            *index += 1;
                            current = format!("{}[{index}]", level.base);
                            places.push(Place {
                                path: current.clone(),
                                start: at + 1,
                            });
                        }
                    }
                }
                c if is_word(c) => {
                    let end = word_end(&mut chars, at + c.len_utf8());
                    if let Some(value) = value_after(text, end) {
                        let base = levels
                            .last()
                            .map_or("", |level| level_path(level, &current));
                        let name = &text[at..end];
                        current = if base.is_empty() {
                            name.to_owned()
                        } else {
                            format!("{base}.{name}")
                        };
                        places.push(Place {
                            path: current.clone(),
                            start: value,
                        });
                    }
                }
                _ => {}
            }
        }
        for place in &mut places {
            let rest = &text[place.start.min(text.len())..];
            place.start += rest.len() - rest.trim_start().len();
        }
        Self(places)
    }

    /// The byte where a field's value begins, or that of the nearest field around it.
    pub(super) fn start_of(&self, path: &str) -> Option<usize> {
        let mut wanted = path;
        loop {
            if let Some(place) = self.0.iter().find(|place| place.path == wanted) {
                return Some(place.start);
            }
            wanted = &wanted[..wanted.rfind(['.', '['])?];
        }
    }

    /// The field whose value begins last before a byte.
    pub(super) fn field_before(&self, byte: usize) -> Option<&str> {
        let before = self.0.iter().take_while(|place| place.start <= byte);
        before.last().map(|place| place.path.as_str())
    }
}

/// In a list the element is part of the path; in brackets with names it is what opened them.
fn level_path<'a>(level: &'a Level, current: &'a str) -> &'a str {
    if level.index.is_some() {
        current
    } else {
        &level.base
    }
}

/// The byte after the colon that follows a word, if one does.
fn value_after(text: &str, end: usize) -> Option<usize> {
    let rest = &text[end..];
    let colon = rest.len() - rest.trim_start().len();
    rest[colon..].starts_with(':').then_some(end + colon + 1)
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

fn word_end(chars: &mut Peekable<CharIndices<'_>>, mut end: usize) -> usize {
    while let Some((at, c)) = chars.next_if(|&(_, c)| is_word(c)) {
        end = at + c.len_utf8();
    }
    end
}

fn skip_string(chars: &mut Peekable<CharIndices<'_>>) {
    while let Some((_, c)) = chars.next() {
        match c {
            '\\' => drop(chars.next()),
            '"' => break,
            _ => {}
        }
    }
}

fn skip_line(chars: &mut Peekable<CharIndices<'_>>) {
    chars.by_ref().find(|&(_, c)| c == '\n');
}

fn skip_block(chars: &mut Peekable<CharIndices<'_>>) {
    while let Some((_, c)) = chars.next() {
        if c == '*' && chars.next_if(|&(_, c)| c == '/').is_some() {
            break;
        }
    }
}

/// Line and column of a byte, both from 1.
pub(super) fn line_and_column(text: &str, byte: usize) -> (usize, usize) {
    let before = &text[..text.floor_char_boundary(byte)];
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    (
        before.matches('\n').count() + 1,
        before[line_start..].chars().count() + 1,
    )
}

/// The byte at a line and column, both from 1.
pub(super) fn byte_at(text: &str, line: usize, column: usize) -> usize {
    let start: usize = text
        .split_inclusive('\n')
        .take(line.saturating_sub(1))
        .map(str::len)
        .sum();
    let rest = &text[start.min(text.len())..];
    start
        + rest
            .chars()
            .take(column.saturating_sub(1))
            .map(char::len_utf8)
            .sum::<usize>()
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = r#"( // name: "not this"
    name: "a: (b), c",
    bench: (reel_diameter: "7 in", front_roller: (diameter: "3 in")),
    closing: ReelSlides(lean: None),
    hardware: [(behind: "1 in", below: "2 in"), (behind: "3 in", below: "4 in")],
    setting: (rollers: Some((front_move: "0 mm"))), /* ground: */
)"#;

    #[test]
    fn every_field_is_found_where_its_value_begins() {
        let places = Places::of(TEXT);
        for (path, value) in [
            ("name", "\"a: (b), c\""),
            ("bench.reel_diameter", "\"7 in\""),
            ("bench.front_roller.diameter", "\"3 in\""),
            ("closing.lean", "None"),
            ("hardware[1].below", "\"4 in\""),
            ("hardware[1]", "(behind: \"3 in\""),
            ("setting.rollers.front_move", "\"0 mm\""),
            ("setting.rollers.rear_move", "Some(("),
        ] {
            let start = places.start_of(path).unwrap();
            assert!(
                TEXT[start..].starts_with(value),
                "{path}: {}",
                &TEXT[start..]
            );
        }
        assert_eq!(places.start_of("ground"), None);
        assert_eq!(
            places.field_before(TEXT.find("\"3 in\"").unwrap()),
            Some("bench.front_roller.diameter")
        );
    }

    #[test]
    fn a_byte_and_its_line_and_column_agree() {
        let text = "ab\ncä\"d";
        let byte = text.find('"').unwrap();
        assert_eq!(line_and_column(text, byte), (2, 3));
        assert_eq!(byte_at(text, 2, 3), byte);
    }
}
