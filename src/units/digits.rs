//! Numbers as digits: so many decimals, no more than are needed, or fractions of an inch.

/// Below this many inches a length is shown finer, or in thou.
pub(super) const SMALL_INCHES: f64 = 0.1;
/// The finest fraction shown, in parts of an inch.
const FINEST_FRACTION: f64 = 64.0;

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

pub(super) fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// `1-3/8 in`, with what the nearest 64th leaves over in thou.
pub(super) fn fraction(inches: f64, write_thou: impl Fn(f64) -> String) -> String {
    if inches.abs() < SMALL_INCHES {
        return format!("{} thou", write_thou(inches * 1000.0));
    }
    let magnitude = inches.abs();
    let parts = (magnitude * FINEST_FRACTION).round();
    let left_over_thou = (magnitude - parts / FINEST_FRACTION) * 1000.0;
    let whole = (parts / FINEST_FRACTION).floor();
    let (mut upper, mut lower) = (parts - whole * FINEST_FRACTION, FINEST_FRACTION);
    while upper > 0.0 && upper % 2.0 == 0.0 {
        upper /= 2.0;
        lower /= 2.0;
    }
    let sign = if inches < 0.0 { "-" } else { "" };
    let main = match (whole > 0.0, upper > 0.0) {
        (true, true) => format!("{sign}{whole}-{upper}/{lower} in"),
        (true, false) => format!("{sign}{whole} in"),
        _ => format!("{sign}{upper}/{lower} in"),
    };
    let rest = write_thou(left_over_thou.abs());
    if rest.bytes().all(|b| matches!(b, b'0' | b'.')) {
        return main;
    }
    let joint = if (left_over_thou > 0.0) == (inches > 0.0) {
        '+'
    } else {
        '-'
    };
    format!("{main} {joint} {rest} thou")
}
