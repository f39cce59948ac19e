//! How a scene becomes marks on paper: views, layout, hatching, dimensions, words, and the themes
//! that say what each role looks like.
//!
//! Paper is measured in reference pixels, 96 to the inch. Imports `scene`.

mod axis;
mod colour;
mod cut;
mod dimension;
pub mod fonts;
mod glass;
mod hatch;
mod hidden;
mod layout;
pub mod letters;
mod look;
mod mark;
mod pencil;
mod placer;
mod role_looks;
mod ruler;
mod spot;
mod style;
mod symbol;
mod theme;
mod view;
pub mod words;

pub use axis::{Axis, Tick};
pub use colour::{Rgb, palette};
pub(in crate::drawing) use cut::cut_to;
pub use layout::lay_out;
pub(in crate::drawing) use layout::lay_out_around;
pub use look::{Look, Pen};
pub use mark::{Anchor, Mark, Panel};
pub(in crate::drawing) use pencil::{Pencil, TEXT_SIZE};
pub use role_looks::{KNIFE_LINES, OVERLAYS};
pub use style::{Numbers, Style, Words};
pub use symbol::level_symbol;
pub use theme::Theme;
pub use view::View;
pub(in crate::drawing) use words::in_lines;

/// Reference pixels in a millimetre of paper: 96 to the inch (W3C CSS Values, reference pixel).
pub const PAPER_PER_MM: f64 = 96.0 / 25.4;
