//! What the system says of the disk, as a person reads it.

use std::io;

/// What the system says, without the number that it has for it.
#[must_use]
pub fn plain(error: &io::Error) -> String {
    let mut said = error.to_string();
    if let Some(number) = error.raw_os_error() {
        let tail = format!(" (os error {number})");
        if let Some(words) = said.strip_suffix(&tail) {
            said.truncate(words.len());
        }
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_systems_number_is_left_out() {
        for number in [2, 13, 28, 30] {
            let error = io::Error::from_raw_os_error(number);
            let said = plain(&error);
            assert!(!said.is_empty() && !said.contains("os error"), "{said}");
            assert!(error.to_string().starts_with(&said));
        }
        assert_eq!(plain(&io::Error::other("a pipe")), "a pipe");
    }
}
