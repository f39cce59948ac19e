//! What is drawn: plain shapes with roles, in world millimetres, and the small sketches made of them.
//!
//! A scene knows neither paper nor screen nor colour.

mod polygon;
mod role;
mod shapes;
mod sketch;

pub(in crate::drawing) use polygon::{closed, polyline};
pub use role::Role;
pub(in crate::drawing) use shapes::EXACT_MM;
pub use shapes::{Dimension, Direction, Item, Label, Ruler, RulerStep, Scene, Shape, ShownIn};
pub(in crate::drawing) use sketch::{EXACT, Sketch, WIDE};
