//! The numbers that a step shows large, and what is hidden with them.

use super::fields::{FigureOf, Whose};
use super::script::Step;

impl Step {
    /// The numbers that it shows large, those that exist.
    pub fn large(&self) -> impl Iterator<Item = FigureOf> {
        self.numbers.iter().filter_map(|name| FigureOf::named(name))
    }

    /// Whether a number stays hidden as long as its large ones do: it is one of them, or gives one away.
    #[must_use]
    pub fn hides(&self, figure: FigureOf) -> bool {
        self.large().any(|large| {
            let tells_large = figure.figure.tells(large.figure);
            tells_large && (figure.whose == large.whose || figure.whose == Whose::Times)
        })
    }
}
