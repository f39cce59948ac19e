//! A price as it was written, and the number in it.

use crate::unit::{Knife, Pieces};

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

/// What so many knives cost at a price each.
#[must_use]
pub fn total_of(price: Option<f64>, quantity: Pieces) -> Option<f64> {
    Some(price? * f64::from(quantity.0))
}

/// What several knives cost together, each as many times as it is wanted.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Order {
    /// How many pieces there are.
    pub pieces: u64,
    /// What those with a price cost together.
    pub sum: f64,
    /// How many pieces have no price that reads as a number.
    pub unpriced: u64,
}

impl Order {
    /// The order of these knives.
    #[must_use]
    pub fn of<'a>(knives: impl IntoIterator<Item = &'a Knife>) -> Self {
        knives.into_iter().fold(Self::default(), |order, knife| {
            let pieces = u64::from(knife.quantity.0);
            let price = knife.price.as_deref().and_then(price_in);
            let total = total_of(price, knife.quantity);
            Self {
                pieces: order.pieces + pieces,
                sum: order.sum + total.unwrap_or_default(),
                unpriced: order.unpriced + if total.is_none() { pieces } else { 0 },
            }
        })
    }

    /// It in a sentence.
    #[must_use]
    pub fn told(self) -> String {
        let pieces = match self.pieces {
            1 => "one knife".to_owned(),
            n => format!("{n} knives"),
        };
        let sum = sum_text(self.sum);
        match self.unpriced {
            0 => format!("{pieces}, total price {sum}."),
            n if n == self.pieces => format!("{pieces}, no price."),
            n => format!("{pieces}, total price {sum} without {n} that have no price."),
        }
    }
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

    #[test]
    fn an_order_counts_every_piece_and_names_those_without_a_price() {
        let text = include_str!("../../../demo-units/fairway-trailed.ron");
        let document = crate::unit::read_text(text).expect("a demo unit");
        let knife = |price: Option<&str>, quantity| Knife {
            price: price.map(str::to_owned),
            quantity: Pieces(quantity),
            ..document.knife.clone()
        };
        let (dear, cheap) = (knife(Some("$ 41.50"), 3), knife(Some("9"), 1));
        let unpriced = knife(Some("on request"), 2);
        let told = |knives: &[&Knife]| Order::of(knives.iter().copied()).told();
        assert_eq!(told(&[&dear, &cheap]), "4 knives, total price 133.50.");
        assert_eq!(
            told(&[&dear, &unpriced]),
            "5 knives, total price 124.50 without 2 that have no price."
        );
        assert_eq!(told(&[&unpriced]), "2 knives, no price.");
        assert_eq!(told(&[&cheap]), "one knife, total price 9.00.");
    }
}
