//! A text's lines, and what is changed in it.

use std::ops::Range;

use ron2::ast::Expr;

use super::brackets::Brackets;
use crate::unit::places::past_remarks;

/// A text whose values are known by their places.
#[derive(Clone, Copy)]
pub(super) struct Source<'a>(pub(super) &'a str);

impl<'a> Source<'a> {
    /// What a value is written as.
    pub(super) fn of(self, value: &Expr) -> &'a str {
        let span = value.span();
        &self.0[span.start_offset..span.end_offset]
    }

    fn line_start(self, at: usize) -> usize {
        self.0[..at].rfind('\n').map_or(0, |newline| newline + 1)
    }

    fn line_end(self, at: usize) -> usize {
        let rest = &self.0[at..];
        let line = &rest[..rest.find('\n').unwrap_or(rest.len())];
        at + line.strip_suffix('\r').unwrap_or(line).len()
    }

    /// The blanks that the line of a place begins with.
    pub(super) fn indent_at(self, at: usize) -> &'a str {
        let line = &self.0[self.line_start(at)..at];
        &line[..line.len() - line.trim_start_matches([' ', '\t']).len()]
    }

    /// How far in a line begins inside brackets.
    pub(super) fn indent_inside(self, brackets: &Brackets) -> String {
        match brackets.elements.first().map(|element| element.start) {
            Some(start) if self.begins_line(start) => self.indent_at(start).to_owned(),
            _ => format!("{}    ", self.indent_at(brackets.open_end)),
        }
    }

    /// Whether only blanks stand before it on its line.
    pub(super) fn begins_line(self, at: usize) -> bool {
        self.0[self.line_start(at)..at].trim().is_empty()
    }

    /// Whether the closing one stands on a later line than the opening one.
    pub(super) fn spans_lines(self, brackets: &Brackets) -> bool {
        self.0[brackets.open_end..brackets.close_start].contains('\n')
    }

    /// Whether only blanks stand between them.
    pub(super) fn is_blank(self, brackets: &Brackets) -> bool {
        self.0[brackets.open_end..brackets.close_start]
            .trim()
            .is_empty()
    }

    /// The end of the line, where nothing but a remark follows on it; else the place itself.
    pub(super) fn past_line_remark(self, at: usize) -> usize {
        let end = self.line_end(at);
        let rest = &self.0[at..end];
        if past_remarks(rest, 0) == rest.len() {
            end
        } else {
            at
        }
    }

    /// What goes when an element goes: where it has lines of its own those, with the remark at their
    /// end, which is about it; else the blanks that part it from the next.
    pub(super) fn with_its_line(self, element: Range<usize>) -> Range<usize> {
        let text = self.0;
        let end = self.past_line_remark(element.end);
        let ends_line = end == self.line_end(element.end);
        if self.begins_line(element.start) && ends_line {
            let newline = text[end..]
                .find('\n')
                .map_or(text.len(), |newline| end + newline + 1);
            return self.line_start(element.start)..newline;
        }
        let is_gap = |c: char| matches!(c, ' ' | '\t');
        let before = text[..element.start].trim_end_matches(is_gap).len();
        let after = &text[element.end..];
        let gap_after = after.len() - after.trim_start_matches(is_gap).len();
        if before < element.start && !self.begins_line(element.start) {
            before..element.end
        } else {
            element.start..element.end + gap_after
        }
    }
}

/// What is changed in a text, by its places.
#[derive(Default)]
pub(super) struct Edits(Vec<(Range<usize>, String)>);

impl Edits {
    pub(super) fn replace(&mut self, at: Range<usize>, text: String) {
        self.0.push((at, text));
    }

    pub(super) fn insert(&mut self, at: usize, text: String) {
        self.replace(at..at, text);
    }

    pub(super) fn remove(&mut self, at: Range<usize>) {
        self.replace(at, String::new());
    }

    /// The text with all of it done; none where two changes are in each other's way.
    pub(super) fn applied(mut self, text: &str) -> Option<String> {
        self.0.sort_by_key(|(at, _)| (at.start, at.end));
        let mut changed = String::with_capacity(text.len());
        let mut done = 0;
        for (at, replacement) in &self.0 {
            // Two that are taken out may share the blank between them.
            let is_taken_out = replacement.is_empty() && at.end >= done;
            if at.start < done && !is_taken_out {
                return None;
            }
            changed.push_str(text.get(done..at.start).unwrap_or_default());
            changed.push_str(replacement);
            done = at.end;
        }
        changed.push_str(text.get(done..)?);
        Some(changed)
    }
}
