//! Heads of columns as suppliers and spreadsheets write them: "Part no.", "Reach (mm)".

use crate::units::{Length, Measure as _};

/// Other words for the columns of a knife.
const ALSO: [(&str, &[&str]); 10] = [
    (
        "name",
        &[
            "knife",
            "part",
            "part no",
            "part number",
            "article",
            "description",
        ],
    ),
    ("lip thickness", &["lip", "lip height", "lip thk"]),
    ("lip length", &["lip depth"]),
    ("body thickness", &["thickness", "body", "thk", "body thk"]),
    ("width", &["depth", "edge to back"]),
    ("price", &["unit price", "cost"]),
    ("quantity", &["qty", "pieces", "pcs"]),
    ("metal off top face", &["top ground", "off top face"]),
    ("metal off front face", &["face ground", "off front face"]),
    ("notes", &["note", "remark", "remarks", "comment"]),
];

/// The column that a head names, in our word for it, or its own words without case and marks.
pub(super) fn column(head: &str) -> String {
    let (words, _) = parted(head);
    let words = words.replace('_', " ").to_lowercase();
    let words = words.trim().trim_end_matches(['.', ':']).trim();
    let is_also = |(_, also): &&(&str, &[&str])| also.contains(&words);
    let known = ALSO.iter().find(is_also);
    known.map_or(words, |(column, _)| column).to_owned()
}

/// The unit of length that stands in brackets behind a head; none where none does.
pub(super) fn unit(head: &str) -> Option<&'static str> {
    let unit = parted(head).1?;
    let symbols = Length::SYMBOLS.iter().map(|(symbol, _)| *symbol);
    symbols.into_iter().find(|symbol| *symbol == unit)
}

/// A head without its brackets, and what stands in them.
fn parted(head: &str) -> (&str, Option<&str>) {
    let head = head.trim();
    let brackets = head
        .strip_suffix([')', ']'])
        .and_then(|open| open.rsplit_once(['(', '[']));
    match brackets {
        Some((words, unit)) => (words, Some(unit.trim())),
        None => (head, None),
    }
}

/// A length with a comma for its decimal mark, with a point instead.
pub(super) fn with_point(cell: &str) -> String {
    let mut commas = cell.match_indices(',');
    let (first, more) = (commas.next(), commas.next());
    match (first, more) {
        (Some((at, _)), None) if !cell.contains('.') => {
            let is_digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
            let (before, after) = (cell[..at].chars().last(), cell[at + 1..].chars().next());
            if is_digit(before) && is_digit(after) {
                cell.replace(',', ".")
            } else {
                cell.to_owned()
            }
        }
        _ => cell.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heads_are_known_however_they_are_written() {
        for (head, name, in_unit) in [
            ("Part no.", "name", None),
            ("Reach (mm)", "reach", Some("mm")),
            (" LIP_thickness [in]", "lip thickness", Some("in")),
            ("Lip thk (mm)", "lip thickness", Some("mm")),
            ("Body thk. (mm)", "body thickness", Some("mm")),
            ("Price (each)", "price", None),
            ("Weight", "weight", None),
        ] {
            assert_eq!(
                (column(head).as_str(), unit(head)),
                (name, in_unit),
                "{head}"
            );
        }
    }

    #[test]
    fn a_decimal_comma_becomes_a_point_where_it_can_be_no_other() {
        for (cell, read) in [
            ("38,1", "38.1"),
            ("38,1 mm", "38.1 mm"),
            ("1,250.5", "1,250.5"),
            ("1,2,3", "1,2,3"),
            (",5", ",5"),
            ("1-3/8 in", "1-3/8 in"),
        ] {
            assert_eq!(with_point(cell), read, "{cell}");
        }
    }
}
