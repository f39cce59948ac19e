//! The name of a file in the folder of the file that names it.

use std::path::{Component, Path};

/// Whether a text is the name alone of a file, never a path: what came from elsewhere opens no file but
/// one beside it.
#[must_use]
pub fn is_name_alone(written: &str) -> bool {
    let mut parts = Path::new(written).components();
    let is_one_name = matches!(
        (parts.next(), parts.next()),
        (Some(Component::Normal(name)), None) if name == written
    );
    // What parts a path on another system is no letter of a name here either.
    is_one_name && !written.contains(['/', '\\', ':', '\0'])
}
