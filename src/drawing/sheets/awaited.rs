//! Whether somebody still waits for a sheet while it is laid out.

use std::fmt;

/// Asks whether what is being laid out is given up. By default nobody gives it up.
#[derive(Clone, Copy, Default)]
pub struct Awaited<'a>(Option<&'a dyn Fn() -> bool>);

impl<'a> Awaited<'a> {
    /// Until this says that it is given up. It is asked often: between one block of a page and the next.
    #[must_use]
    pub fn unless(is_given_up: &'a dyn Fn() -> bool) -> Self {
        Self(Some(is_given_up))
    }

    /// Whether nobody waits any more: what is laid out from here on is thrown away.
    #[must_use]
    pub fn is_given_up(self) -> bool {
        self.0.is_some_and(|is_given_up| is_given_up())
    }
}

impl fmt::Debug for Awaited<'_> {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.debug_struct("Awaited").finish_non_exhaustive()
    }
}
