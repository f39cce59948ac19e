//! Painters translate marks and do no more: SVG, PNG from that SVG with the bundled fonts, and PDF.
//!
//! Imports the rooms before it.

mod pdf;
mod png;
mod svg;

pub use pdf::PdfBook;
pub use png::{Pixels, to_pixels, to_png};
pub use svg::to_svg;
