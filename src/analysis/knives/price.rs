//! A price as it was written, and the number in it.

/// The first number in a price, whatever stands around it; none where there is none.
///
/// The last point or comma is the decimal mark unless three digits follow it.
#[must_use]
pub fn price_in(text: &str) -> Option<f64> {
    let from = text.find(|c: char| c.is_ascii_digit())?;
    let written: String = text[from..]
        .chars()
        .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '\''))
        .collect();
    let written = written.trim_end_matches(['.', ',', '\'']);
    let digits = |text: &str| {
        text.chars()
            .filter(char::is_ascii_digit)
            .collect::<String>()
    };
    let plain = match written.rfind(['.', ',']) {
        Some(mark) if written.len() - mark - 1 != 3 => {
            format!("{}.{}", digits(&written[..mark]), digits(&written[mark..]))
        }
        _ => digits(written),
    };
    plain.parse().ok()
}

/// A sum of prices as it is written: two decimals.
#[must_use]
pub fn sum_text(sum: f64) -> String {
    format!("{sum:.2}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_is_read_however_it_is_written() {
        for (text, number) in [
            ("41.50", 41.5),
            ("$ 1,250.00", 1250.0),
            ("1.250,00 €", 1250.0),
            ("1,250", 1250.0),
            ("about 9, delivered", 9.0),
            ("CHF 52.-", 52.0),
        ] {
            assert_eq!(price_in(text), Some(number), "{text}");
        }
        assert_eq!(price_in("on request"), None);
    }
}
