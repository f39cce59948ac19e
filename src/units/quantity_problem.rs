//! Why a text is not a quantity, and what would be right.

use thiserror::Error;

use super::{Measure, NumberProblem};

/// Why a text is not a quantity.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum QuantityProblem {
    /// It is empty.
    #[error("nothing is written here; write {kind}, like {example}")]
    Empty {
        /// The kind wanted, with its article.
        kind: &'static str,
        /// A right entry.
        example: &'static str,
    },
    /// The number is wrong.
    #[error("{problem}; write {kind}, like {example}")]
    Number {
        /// What is wrong with it.
        problem: NumberProblem,
        /// The kind wanted, with its article.
        kind: &'static str,
        /// A right entry.
        example: &'static str,
    },
    /// A number without a unit where one is needed.
    #[error("\"{text}\" has no unit; write {kind}, like {example}")]
    NoUnit {
        /// What was written.
        text: String,
        /// The kind wanted, with its article.
        kind: &'static str,
        /// A right entry.
        example: &'static str,
    },
    /// A unit of another kind, or none at all.
    #[error("\"{symbol}\" is not a unit of {kind}; write it like {example}")]
    UnknownUnit {
        /// The unit written.
        symbol: String,
        /// The kind wanted, with its article.
        kind: &'static str,
        /// A right entry.
        example: &'static str,
    },
    /// A plus-or-minus below zero.
    #[error("what follows ± is how far the reading can be off, so it cannot be negative: \"{0}\"")]
    NegativeHalfWidth(String),
}

impl QuantityProblem {
    /// A number that is wrong where a quantity of a kind belongs.
    pub(super) fn of_number<M: Measure>(problem: NumberProblem) -> Self {
        Self::Number {
            problem,
            kind: M::KIND,
            example: M::EXAMPLE,
        }
    }
}
