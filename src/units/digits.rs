//! Numbers as digits: so many decimals, no more than are needed, or fractions of an inch.

/// Below this many inches a length is shown finer.
pub(super) const SMALL_INCHES: f64 = 0.1;
/// The finest fraction shown, in parts of an inch.
const FINEST_FRACTION: f64 = 64.0;
/// A length as many inches off a fraction is read as that fraction.
const READ_AS_FRACTION: f64 = 0.000_05;

/// A number with so many decimals, and no minus before a zero.
#[must_use]
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let is_zero = text.bytes().all(|b| matches!(b, b'-' | b'0' | b'.'));
    if is_zero {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    }
}

/// How far bare numbers are written: past what any reading is good for.
const BARE_DECIMALS: usize = 6;

/// A bare number, as exact as is of use: for a spreadsheet, whose table tells the unit.
#[must_use]
pub fn bare(value: f64) -> String {
    trimmed(value, BARE_DECIMALS)
}

pub(super) fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// `1-3/8 in`, for a length that stands on a 64th or as near as `decimals` more digits tell; none for
/// what lies between, which reads better in decimals.
pub(super) fn fraction(inches: f64, decimals: usize) -> Option<String> {
    let magnitude = inches.abs();
    let parts = (magnitude * FINEST_FRACTION).round();
    let off = (magnitude - parts / FINEST_FRACTION).abs();
    let finer = 0.1_f64.powi(i32::try_from(decimals).unwrap_or(i32::MAX));
    if parts < 1.0 || off >= READ_AS_FRACTION * finer {
        return None;
    }
    let whole = (parts / FINEST_FRACTION).floor();
    let (mut upper, mut lower) = (parts - whole * FINEST_FRACTION, FINEST_FRACTION);
    while upper > 0.0 && upper % 2.0 == 0.0 {
        upper /= 2.0;
        lower /= 2.0;
    }
    let sign = if inches < 0.0 { "-" } else { "" };
    Some(match (whole > 0.0, upper > 0.0) {
        (true, true) => format!("{sign}{whole}-{upper}/{lower} in"),
        (true, false) => format!("{sign}{whole} in"),
        _ => format!("{sign}{upper}/{lower} in"),
    })
}
