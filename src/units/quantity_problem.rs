//! Why a text is not a quantity, and what would be right.

use thiserror::Error;

use super::{Measure, NumberProblem, Quoted};

/// Why a text is not a quantity.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum QuantityProblem {
    /// It is empty.
    #[error("this is empty; write {kind}, like {example}")]
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
    #[error("{} has no unit; write {kind}, like {example}", Quoted(.text))]
    NoUnit {
        /// What was written.
        text: String,
        /// The kind wanted, with its article.
        kind: &'static str,
        /// A right entry.
        example: &'static str,
    },
    /// A unit of another kind, or none at all.
    #[error("{} is not a unit of {kind}; write it like {example}", Quoted(.symbol))]
    UnknownUnit {
        /// The unit written.
        symbol: String,
        /// The kind wanted, with its article.
        kind: &'static str,
        /// A right entry.
        example: &'static str,
    },
    /// A plus-or-minus below zero.
    #[error("what follows ± is how far the reading can be off, so it cannot be negative: {}", Quoted(.0))]
    NegativeHalfWidth(String),
    /// A ± that no number stands after.
    #[error("no number follows the ± in {}; write how far the reading can be off, or take the ± out", Quoted(.0))]
    NoHalfWidth(String),
    /// A ± that no number stands before.
    #[error("there is no number before the ± in {}; write the reading itself first", Quoted(.0))]
    OnlyHalfWidth(String),
    /// Feet with something after them that is no inches.
    #[error("{} begins with feet; what follows them is in inches, less than 12, like 1' 6\" or 1 ft 6 in", Quoted(.0))]
    AfterFeet(String),
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
