//! Painters translate marks and do no more: SVG, and PNG from that SVG with the bundled fonts.
//!
//! Imports the rooms before it.

mod png;
mod svg;

pub use png::to_png;
pub use svg::to_svg;
