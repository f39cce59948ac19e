//! What must be true of single values of a sheet or a record.

use super::date::Day;
use super::flaw::{SheetFlaw, SheetFlawKind};
use super::readings::Measured;
use crate::unit::{FlawKind, Rule, most};
use crate::units::{Angle, Length, Quantity};

/// A flaw at a path.
pub(super) fn at(path: &str, kind: impl Into<SheetFlawKind>) -> SheetFlaw {
    SheetFlaw {
        path: path.to_owned(),
        kind: kind.into(),
    }
}

/// A path inside another.
pub(super) fn inside(path: &str, name: &str) -> String {
    if path.is_empty() || name.starts_with('[') {
        format!("{path}{name}")
    } else {
        format!("{path}.{name}")
    }
}

/// A length that may carry a ±.
pub(super) fn measured(
    path: &str,
    length: &Quantity<Length>,
    rule: Rule,
) -> Result<Measured, SheetFlaw> {
    rule.check_length(length).map_err(|flaw| at(path, flaw))?;
    let half_width = length.half_width().map_or(0.0, Length::mm);
    Ok(Measured {
        value: length.value(),
        standard: standard_of(half_width),
    })
}

/// An angle that may carry a ±.
pub(super) fn measured_angle(
    path: &str,
    angle: &Quantity<Angle>,
    rule: Rule,
) -> Result<Measured<Angle>, SheetFlaw> {
    rule.check_angle(angle).map_err(|flaw| at(path, flaw))?;
    let half_width = angle.half_width().map_or(0.0, Angle::deg);
    Ok(Measured {
        value: angle.value(),
        standard: Angle::from_deg(half_width / 3.0_f64.sqrt()),
    })
}

/// The standard uncertainty of a rectangular distribution, half-width/√3 (JCGM 100:2008, 4.3.7).
pub(super) fn standard_of(half_width_mm: f64) -> Length {
    Length::from_mm(half_width_mm / 3.0_f64.sqrt())
}

/// A length that is taken as exact.
pub(super) fn exact(
    path: &str,
    length: &Quantity<Length>,
    rule: Rule,
) -> Result<Length, SheetFlaw> {
    rule.check_length(length).map_err(|flaw| at(path, flaw))?;
    no_half_width(path, length.half_width().is_some(), length.text())?;
    Ok(length.value())
}

/// An angle that is taken as exact.
pub(super) fn exact_angle(
    path: &str,
    angle: &Quantity<Angle>,
    rule: Rule,
) -> Result<Angle, SheetFlaw> {
    rule.check_angle(angle).map_err(|flaw| at(path, flaw))?;
    no_half_width(path, angle.half_width().is_some(), angle.text())?;
    Ok(angle.value())
}

fn no_half_width(path: &str, has_one: bool, text: &str) -> Result<(), SheetFlaw> {
    if has_one {
        return Err(at(path, SheetFlawKind::Exact(text.to_owned())));
    }
    Ok(())
}

/// A text of one's own.
pub(super) fn text(path: &str, text: &str, most: usize) -> Result<(), SheetFlaw> {
    let letters = text.chars().count();
    if letters > most {
        return Err(at(path, FlawKind::TooLong { letters, most }));
    }
    Ok(())
}

/// A day; none where none is written.
pub(super) fn day(path: &str, written: &str) -> Result<Option<Day>, SheetFlaw> {
    let written = written.trim();
    if written.is_empty() {
        return Ok(None);
    }
    Day::parse(written)
        .map(Some)
        .map_err(|wrong| at(path, wrong))
}

/// The most hours that a machine's clock shows.
const MOST_HOURS: f64 = 1e6;

/// The machine's hours; none where none are written.
pub(super) fn hours(path: &str, written: &str) -> Result<Option<f64>, SheetFlaw> {
    let number = written.trim();
    let number = number.strip_suffix('h').unwrap_or(number).trim_end();
    if number.is_empty() && written.trim().is_empty() {
        return Ok(None);
    }
    let is_plain = number.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    number
        .parse::<f64>()
        .ok()
        .filter(|hours| is_plain && (0.0..=MOST_HOURS).contains(hours))
        .map(Some)
        .ok_or_else(|| at(path, SheetFlawKind::Hours(written.to_owned())))
}

/// Who and what else, whatever the document.
pub(super) fn names_and_notes(by: &str, notes: &str) -> Result<(), SheetFlaw> {
    text("by", by, most::NAME_LETTERS)?;
    text("notes", notes, most::NOTES_LETTERS)
}
