//! Where each field of a unit file stands in its text, so that a wrong value can be pointed at.
//!
//! The RON parser knows places but not which field it is in, serde knows fields but no places, and
//! a check across fields knows only their names. This walks the text once and ties both together.

use std::iter::Peekable;
use std::ops::Range;
use std::str::CharIndices;

/// A field and the byte where its value begins.
#[derive(Debug, PartialEq, Eq)]
struct Place {
    path: String,
    start: usize,
}

/// Every field of a text, in the order it is written, and what was opened and never closed.
#[derive(Debug, Default)]
pub(super) struct Places {
    fields: Vec<Place>,
    /// Texts whose closing quote stands on a later line, or nowhere: from quote to quote.
    long_quotes: Vec<Range<usize>>,
    unclosed_remark: Option<usize>,
}

/// A unit file nests five brackets; a text that goes deeper is none, and is walked no further.
const DEEPEST_NESTING: usize = 32;

/// An open bracket, and the part of the path it adds for what stands in it now.
struct Level {
    base: String,
    index: Option<usize>,
}

impl Places {
    /// Walks a text; one that is no RON is walked as far as it makes sense.
    pub(super) fn of(text: &str) -> Self {
        let mut places = Vec::new();
        let mut long_quotes = Vec::new();
        let mut unclosed_remark = None;
        let mut levels: Vec<Level> = Vec::new();
        let mut current = String::new();
        let mut chars = text.char_indices().peekable();
        while let Some((at, c)) = chars.next() {
            match c {
                '"' => {
                    let end = skip_string(&mut chars).unwrap_or(text.len());
                    if text[at..end].contains('\n') {
                        long_quotes.push(at..end);
                    }
                }
                '/' if matches!(chars.peek(), Some((_, '/'))) => skip_line(&mut chars),
                '/' if matches!(chars.peek(), Some((_, '*'))) => {
                    unclosed_remark = skip_block(&mut chars).is_none().then_some(at);
                }
                '(' | '{' | '[' if levels.len() == DEEPEST_NESTING => break,
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
            place.start = past_remarks(text, place.start);
        }
        Self {
            fields: places,
            long_quotes,
            unclosed_remark,
        }
    }

    /// The quote that runs on to the line of a byte and ends at or before it, where it begins.
    pub(super) fn quote_run_on_to(&self, text: &str, byte: usize) -> Option<usize> {
        let ends_there = |quote: &&Range<usize>| {
            let end = quote.end.min(text.len());
            quote.start <= byte && end <= byte && !text[end..byte].contains('\n')
        };
        self.long_quotes
            .iter()
            .find(ends_there)
            .map(|quote| quote.start)
    }

    /// Where a remark begins that `*/` never closes.
    pub(super) fn unclosed_remark(&self) -> Option<usize> {
        self.unclosed_remark
    }

    /// The byte where a field's value begins, or that of the nearest field around it.
    pub(super) fn start_of(&self, path: &str) -> Option<usize> {
        let mut wanted = path;
        loop {
            if let Some(place) = self.fields.iter().find(|place| place.path == wanted) {
                return Some(place.start);
            }
            wanted = &wanted[..wanted.rfind(['.', '['])?];
        }
    }

    /// The paths of every field, in the order they are written.
    #[cfg(test)]
    pub(super) fn paths(&self) -> impl Iterator<Item = &str> {
        self.fields.iter().map(|place| place.path.as_str())
    }

    /// The field whose value begins last before a byte.
    pub(super) fn field_before(&self, byte: usize) -> Option<&str> {
        let before = self.fields.iter().take_while(|place| place.start <= byte);
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

/// Passes a text to its closing quote, and says where what follows begins; none when it is open.
fn skip_string(chars: &mut Peekable<CharIndices<'_>>) -> Option<usize> {
    while let Some((at, c)) = chars.next() {
        match c {
            '\\' => drop(chars.next()),
            '"' => return Some(at + 1),
            _ => {}
        }
    }
    None
}

fn skip_line(chars: &mut Peekable<CharIndices<'_>>) {
    chars.by_ref().find(|&(_, c)| c == '\n');
}

/// Passes a remark between `/*` and `*/`, which may hold others; none when it is open.
fn skip_block(chars: &mut Peekable<CharIndices<'_>>) -> Option<()> {
    chars.next();
    let mut depth = 1;
    while depth > 0 {
        let (_, c) = chars.next()?;
        if c == '*' && chars.next_if(|&(_, c)| c == '/').is_some() {
            depth -= 1;
        } else if c == '/' && chars.next_if(|&(_, c)| c == '*').is_some() {
            depth += 1;
        }
    }
    Some(())
}

/// The first byte from `start` that is neither blank nor in a remark.
pub(super) fn past_remarks(text: &str, start: usize) -> usize {
    let mut at = start.min(text.len());
    loop {
        let rest = &text[at..];
        at += rest.len() - rest.trim_start().len();
        let rest = &text[at..];
        let mut chars = rest.char_indices().peekable();
        if rest.starts_with("//") {
            skip_line(&mut chars);
        } else if rest.starts_with("/*") {
            chars.next();
            if skip_block(&mut chars).is_none() {
                return at;
            }
        } else {
            return at;
        }
        at = chars.peek().map_or(text.len(), |(next, _)| at + next);
    }
}

/// The remarks of a text, in the order they stand there, those that are never closed aside.
pub(super) fn remarks(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut chars = text.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let is_closed = match (c, chars.peek()) {
            ('"', _) => {
                skip_string(&mut chars);
                continue;
            }
            ('r', Some((_, '"' | '#'))) => {
                skip_raw_string(&mut chars);
                continue;
            }
            ('/', Some((_, '/'))) => {
                skip_line(&mut chars);
                true
            }
            ('/', Some((_, '*'))) => skip_block(&mut chars).is_some(),
            _ => continue,
        };
        if is_closed {
            let end = chars.peek().map_or(text.len(), |(next, _)| *next);
            found.push(text[at..end].trim_end());
        }
    }
    found
}

/// Passes a text that ends with as many marks as it begins with: `r#"a "quoted" word"#`.
fn skip_raw_string(chars: &mut Peekable<CharIndices<'_>>) {
    let mut marks = 0;
    while chars.next_if(|&(_, c)| c == '#').is_some() {
        marks += 1;
    }
    if chars.next_if(|&(_, c)| c == '"').is_none() {
        return;
    }
    while chars.by_ref().any(|(_, c)| c == '"') {
        let mut closing = 0;
        while closing < marks && chars.next_if(|&(_, c)| c == '#').is_some() {
            closing += 1;
        }
        if closing == marks {
            return;
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
    fn a_value_is_found_past_the_remarks_before_it() {
        let text = "(bench: ( /* a /* b */ c */ // d\n gap: // e\n \"0 mm\"))";
        let places = Places::of(text);
        assert!(text[places.start_of("bench.gap").unwrap()..].starts_with("\"0 mm\""));
        assert_eq!(places.unclosed_remark(), None);
        let open = "(name: \"a\", /* b /* c */ )";
        assert_eq!(Places::of(open).unclosed_remark(), open.find("/*"));
    }

    #[test]
    fn remarks_are_found_and_what_stands_in_quotes_is_none() {
        let text =
            "// one\n(a: \"// no\", /* two /* of */ it */ b: r#\"/* \"no\" */\"#, // three\n)";
        assert_eq!(
            remarks(text),
            ["// one", "/* two /* of */ it */", "// three"]
        );
    }

    #[test]
    fn a_quote_left_open_is_found_where_it_begins() {
        let text = "(\n  name: \"a,\n  turf: \"b\",\n)";
        let places = Places::of(text);
        let b = text.find('b').unwrap();
        assert_eq!(places.quote_run_on_to(text, b), text.find('"'));
        assert_eq!(places.quote_run_on_to(text, 3), None);
    }

    #[test]
    fn endless_nesting_is_walked_no_further() {
        let places = Places::of(&"[".repeat(900_000));
        assert_eq!(places.fields.len(), DEEPEST_NESTING);
    }

    #[test]
    fn a_byte_and_its_line_and_column_agree() {
        let text = "ab\ncä\"d";
        let byte = text.find('"').unwrap();
        assert_eq!(line_and_column(text, byte), (2, 3));
        assert_eq!(byte_at(text, 2, 3), byte);
    }
}
