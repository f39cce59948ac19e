//! Painters translate marks and do no more: SVG, PNG from that SVG with the bundled fonts, one
//! or several that move, and PDF.
//!
//! Imports the rooms before it.

mod moving_png;
mod pdf;
mod png;
mod svg;

pub use moving_png::{Delay, to_moving_png};
pub use pdf::PdfBook;
pub use png::{Pixels, to_pixels, to_png};
pub use svg::to_svg;
