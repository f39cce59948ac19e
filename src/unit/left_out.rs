//! How what can be left out of a unit file is written where it stands.

use serde::{Serialize, Serializer};

/// What can be left out, written as if it could not: the reader wants no `Some(…)` about it.
#[expect(clippy::ref_option, reason = "serde hands a field over by reference")]
pub(super) fn without_some<T: Serialize, S: Serializer>(
    entry: &Option<T>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    match entry {
        Some(value) => value.serialize(serializer),
        None => serializer.serialize_none(),
    }
}
