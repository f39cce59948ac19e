//! The drawing: a scene of plain shapes in world millimetres, laid out on paper, painted elsewhere.
//!
//! What belongs here: what is drawn ([`Scene`]), how lines, arrows, hatching and text of a technical
//! drawing are laid out for a view ([`lay_out`]), what each role looks like ([`Theme`]), and the SVG
//! painter. A scene knows no screen; paper is measured in reference pixels, 96 to the inch. This
//! room imports `units`, `geometry`, `unit` and `analysis`.

mod blade_path;
mod budget_chart;
mod dimension;
pub mod fonts;
mod hatch;
mod layout;
mod lens;
mod paper;
mod plate_sheet;
mod reading_picture;
mod role;
mod scene;
mod side_view;
mod sketch;
mod step_picture;
mod svg;
mod symbol;
mod theme;
mod view;

pub use blade_path::{PathCanvas, PathDrawing};
pub use budget_chart::{BudgetChart, Charted, Column};
pub use layout::lay_out;
pub use lens::{ENLARGEMENTS, Lens, LensChoice, STRETCHES};
pub use paper::{Anchor, Mark, Panel};
pub use plate_sheet::{CAUTIONS, Canvas, PlateSheet, key_numbers, verdict};
pub use reading_picture::reading_picture;
pub use role::Role;
pub use scene::{Dimension, Direction, Item, Label, Scene, Shape, ShownIn};
pub use side_view::{Handles, Overlay, SideView, Standing};
pub use step_picture::step_picture;
pub use svg::to_svg;
pub use symbol::level_symbol;
pub use theme::{Look, OVERLAYS, Pen, Rgb, Theme};
pub use view::View;

/// Reference pixels in a millimetre of paper: 96 to the inch (W3C CSS Values, reference pixel).
pub const PAPER_PER_MM: f64 = 96.0 / 25.4;
