//! How far a roller is out of parallel, in words: the end that stands high instead of a sign.

use crate::units::{Length, System};

/// Lengths that differ by less are one: the last digits of the sums, in millimetres.
const SAME_MM: f64 = 1e-9;

/// How far, and the end that stands high; none of both where it is not out at all.
fn parts(system: System, out: Length) -> (String, Option<&'static str>) {
    let size = system.length(Length::from_mm(out.mm().abs()));
    let end = match out.mm() {
        mm if mm.abs() < SAME_MM => None,
        mm if mm > 0.0 => Some("right end high"),
        _ => Some("left end high"),
    };
    (size, end)
}

/// How far a roller is out of parallel, with the end that stands high.
#[must_use]
pub fn out_with_end(system: System, out: Length) -> String {
    match parts(system, out) {
        (size, Some(end)) => format!("{size}, {end}"),
        (size, None) => size,
    }
}

/// The same to go on in a line: the end stands in brackets.
#[must_use]
pub fn out_in_line(system: System, out: Length) -> String {
    match parts(system, out) {
        (size, Some(end)) => format!("{size} ({end})"),
        (size, None) => size,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_end_is_named_and_no_sign_written() {
        let out = |thou: f64| out_in_line(System::InchDecimal, Length::from_inches(thou / 1000.0));
        assert_eq!(out(-0.2), "0.0002 in (left end high)");
        assert_eq!(out(4.8), "0.0048 in (right end high)");
        assert_eq!(out(0.0), "0.0000 in");
    }
}
