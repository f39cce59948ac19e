//! Open Sans, regular and semibold, bundled so that words look the same everywhere.

/// For running words.
pub const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/OpenSans-Regular.ttf");
/// For headings and numbers.
pub const SEMIBOLD: &[u8] = include_bytes!("../../../assets/fonts/OpenSans-Semibold.ttf");
