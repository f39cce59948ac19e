//! What was last told.

use crate::analysis::SolvedId;

/// Something to tell, until the next thing happens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    pub text: String,
    pub is_problem: bool,
    /// The solution that stood when it was first shown; news of an older one is no news.
    solved: Option<SolvedId>,
}

impl Notice {
    /// Something that was done.
    pub fn news(text: String) -> Self {
        Self {
            text,
            is_problem: false,
            solved: None,
        }
    }

    /// Something that could not be done.
    pub fn problem(text: String) -> Self {
        Self {
            is_problem: true,
            ..Self::news(text)
        }
    }

    /// Whether it is of an earlier solution than the present one, which it takes as its own when it
    /// has none yet.
    pub(super) fn is_old(&mut self, solved: Option<SolvedId>) -> bool {
        let told_at = self.solved.or(solved);
        self.solved = told_at;
        !self.is_problem && told_at != solved
    }
}
