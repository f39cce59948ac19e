//! The text of a unit file changed where its values changed and nowhere else, so that remarks, blanks
//! and the order of fields stay as a person wrote them.
//!
//! Three texts are laid over one another: the one that was read, and the document as it was then and
//! as it is now, both written by the program alike. Where these two agree the text that was read
//! stays, byte for byte; where they do not, what stands there is replaced, added or taken out. That
//! the result says what the document holds is for the caller to check.

mod brackets;
mod edits;

use ron2::ast::{Expr, parse_document};
use similar::{Algorithm, DiffOp, capture_diff_slices};

use self::brackets::{Brackets, Element, Kind};
use self::edits::{Edits, Source};

/// The text that was read, changed as much as the document's own text `before` and `after`. None
/// where it cannot be laid over them.
pub(super) fn changed(read: &str, before: &str, after: &str) -> Option<String> {
    let [read_as, before_as, after_as] =
        [read, before, after].map(|text| parse_document(text).ok()?.value);
    let mut merge = Merge {
        read: Source(read),
        before: Source(before),
        after: Source(after),
        newline: if read.contains("\r\n") { "\r\n" } else { "\n" },
        edits: Edits::default(),
    };
    merge.value(&read_as?, &before_as?, &after_as?);
    merge.edits.applied(read)
}

struct Merge<'a> {
    read: Source<'a>,
    before: Source<'a>,
    after: Source<'a>,
    newline: &'static str,
    edits: Edits,
}

impl Merge<'_> {
    fn is_same(&self, before: &Expr, after: &Expr) -> bool {
        self.before.of(before) == self.after.of(after)
    }

    fn value(&mut self, read: &Expr, before: &Expr, after: &Expr) {
        if self.is_same(before, after) {
            return;
        }
        if let (Some(before), Some(after)) = (in_some(before), in_some(after)) {
            // A person may leave `Some(…)` out.
            return self.value(in_some(read).unwrap_or(read), before, after);
        }
        let all = [read, before, after].map(Brackets::of);
        let [Some(in_read), Some(in_before), Some(in_after)] = all else {
            return self.replace(read, after);
        };
        if !in_before.is_like(&in_after) {
            return self.replace(read, after);
        }
        let counts = [&in_read, &in_before, &in_after].map(|one| one.elements.len());
        match (in_after.kind, in_read.kind) {
            (Kind::Fields, Kind::Fields) => self.fields(&in_read, &in_before, &in_after),
            (Kind::Fields, Kind::Places) if counts[0] == 0 => {
                self.fields(&in_read, &in_before, &in_after);
            }
            (Kind::List, Kind::List) if counts[0] == counts[1] => {
                if counts[0] == 0 && self.read.is_blank(&in_read) {
                    self.replace(read, after);
                } else {
                    self.list(&in_read, &in_before, &in_after);
                }
            }
            (Kind::Places, Kind::Places) if counts[0] == counts[1] && counts[1] == counts[2] => {
                let elements = in_read.elements.iter().zip(&in_before.elements);
                for ((read, before), after) in elements.zip(&in_after.elements) {
                    self.value(read.value, before.value, after.value);
                }
            }
            _ => self.replace(read, after),
        }
    }

    fn fields(&mut self, read: &Brackets, before: &Brackets, after: &Brackets) {
        let mut kept = None;
        let mut added: Vec<(Option<usize>, Vec<String>)> = Vec::new();
        let indent = self.read.indent_inside(read);
        for element in &after.elements {
            let was = before.named(element.name).map(|(_, was)| was.value);
            match read.named(element.name) {
                Some((place, stands)) => {
                    kept = Some(place);
                    match was {
                        Some(was) => self.value(stands.value, was, element.value),
                        None => self.replace(stands.value, element.value),
                    }
                }
                // What a person left out and is still as if left out stays so.
                None if was.is_some_and(|was| self.is_same(was, element.value)) => {}
                None => {
                    let value = self.written(element.value, &indent);
                    let text = format!("{}: {value}", element.name.unwrap_or_default());
                    add(&mut added, kept, text);
                }
            }
        }
        for element in &read.elements {
            if after.named(element.name).is_none() && before.named(element.name).is_some() {
                self.remove(element);
            }
        }
        for (kept, texts) in added {
            self.insert(read, kept, &texts);
        }
    }

    fn list(&mut self, read: &Brackets, before: &Brackets, after: &Brackets) {
        let old: Vec<_> = before
            .elements
            .iter()
            .map(|e| key(e, self.before))
            .collect();
        let new: Vec<_> = after.elements.iter().map(|e| key(e, self.after)).collect();
        let mut kept = None;
        let mut added: Vec<(Option<usize>, Vec<String>)> = Vec::new();
        let indent = self.read.indent_inside(read);
        for step in capture_diff_slices(Algorithm::Myers, &old, &new) {
            let (was, is) = match step {
                DiffOp::Equal {
                    old_index,
                    new_index,
                    len,
                } => (old_index..old_index + len, new_index..new_index + len),
                other => (other.old_range(), other.new_range()),
            };
            // Where some were taken out and others put in, those changed that have a like place.
            let paired = was.len().min(is.len());
            for (old, new) in was.clone().zip(is.clone()) {
                kept = Some(old);
                let stands = read.elements[old].value;
                self.value(
                    stands,
                    before.elements[old].value,
                    after.elements[new].value,
                );
            }
            for old in was.skip(paired) {
                self.remove(&read.elements[old]);
            }
            for new in is.skip(paired) {
                let like = read.elements.get(kept.unwrap_or(0)).map(|one| one.value);
                let text = self.written_like(after.elements[new].value, like, &indent);
                add(&mut added, kept, text);
            }
        }
        for (kept, texts) in added {
            self.insert(read, kept, &texts);
        }
    }

    fn replace(&mut self, read: &Expr, after: &Expr) {
        let span = read.span();
        let indent = self.read.indent_at(span.start_offset);
        let text = self.written(after, indent);
        self.edits.replace(span.start_offset..span.end_offset, text);
    }

    /// A value as the program writes it, on lines that begin as far in as those around it.
    fn written(&self, after: &Expr, indent: &str) -> String {
        let own = self.after.indent_at(after.span().start_offset);
        let (from, to) = (format!("\n{own}"), format!("{}{indent}", self.newline));
        self.after.of(after).replace(&from, &to)
    }

    /// The same laid out as another of its list is: a field a line, or all on one.
    fn written_like(&self, after: &Expr, like: Option<&Expr>, indent: &str) -> String {
        let first_field = like
            .and_then(Brackets::of)
            .and_then(|like| Some(like.elements.first()?.start))
            .filter(|field| self.read.begins_line(*field));
        let (Some(field), Some(like)) = (first_field, like) else {
            return self.written(after, indent);
        };
        let Some(brackets) = Brackets::of(after).filter(|after| after.kind == Kind::Fields) else {
            return self.written(after, indent);
        };
        let outer = self.read.indent_at(like.span().start_offset);
        let deeper = self.read.indent_at(field).strip_prefix(outer);
        let inner = format!("{indent}{}", deeper.unwrap_or("    "));
        let mut text = "(".to_owned();
        for element in &brackets.elements {
            let value = self.written(element.value, &inner);
            let name = element.name.unwrap_or_default();
            text.extend([self.newline, &inner, name, ": ", &value, ","]);
        }
        text + self.newline + indent + ")"
    }

    /// Puts elements after one that is kept, or first in their brackets.
    fn insert(&mut self, read: &Brackets, kept: Option<usize>, texts: &[String]) {
        let before = kept.and_then(|kept| read.elements.get(kept));
        let like = before.or_else(|| read.elements.first());
        let is_a_line_each = match like {
            Some(element) => self.read.begins_line(element.start),
            None => self.read.spans_lines(read),
        };
        let ends = before.map_or(read.open_end, |element| {
            element.comma_end.unwrap_or(element.end)
        });
        let needs_comma = before.is_some_and(|element| element.comma_end.is_none());
        if is_a_line_each {
            if needs_comma {
                self.edits.insert(ends, ",".to_owned());
            }
            let lead = format!("{}{}", self.newline, self.read.indent_inside(read));
            let last_comma = if needs_comma { "" } else { "," };
            let text = lead.clone() + &texts.join(&format!(",{lead}")) + last_comma;
            self.edits.insert(self.read.past_line_remark(ends), text);
        } else if before.is_some() {
            let text = if needs_comma {
                format!(", {}", texts.join(", "))
            } else {
                format!(" {},", texts.join(", "))
            };
            self.edits.insert(ends, text);
        } else if read.elements.is_empty() {
            self.edits.insert(read.close_start, texts.join(", "));
        } else {
            self.edits.insert(ends, format!("{}, ", texts.join(", ")));
        }
    }

    fn remove(&mut self, element: &Element) {
        let end = element.comma_end.unwrap_or(element.end);
        self.edits
            .remove(self.read.with_its_line(element.start..end));
    }
}

/// Those put in after the same element go together.
fn add(added: &mut Vec<(Option<usize>, Vec<String>)>, kept: Option<usize>, text: String) {
    match added.last_mut() {
        Some((same, texts)) if *same == kept => texts.push(text),
        _ => added.push((kept, vec![text])),
    }
}

/// What an element of a list is known by: its name, or all of it.
fn key<'a>(element: &Element, text: Source<'a>) -> &'a str {
    let brackets = Brackets::of(element.value);
    let name = brackets.and_then(|brackets| Some(brackets.named(Some("name"))?.1.value));
    text.of(name.unwrap_or(element.value))
}

/// What stands in `Some(…)`.
fn in_some<'e, 'a>(value: &'e Expr<'a>) -> Option<&'e Expr<'a>> {
    match value {
        Expr::Option(option) => Some(&option.value.as_ref()?.expr),
        _ => None,
    }
}
