//! The pictures: each makes a scene, or marks on paper, of what was worked out.
//!
//! Imports `scene` and `paper`.

mod attitude_bars;
mod blade_path;
mod budget_chart;
mod canvas;
mod hold;
mod key_of_drawing;
mod lean_picture;
mod lens;
mod lens_aim;
mod life_plot;
mod measured_picture;
mod motion_picture;
mod plate;
mod reading_picture;
mod reel_picture;
mod side_view;
mod step_picture;
mod wear_plot;
mod window_map;

pub use attitude_bars::{attitude_bars, attitude_bars_height};
pub use blade_path::{PathCanvas, PathDrawing};
pub use budget_chart::{BudgetChart, Charted, Column};
pub use canvas::Canvas;
pub use hold::Hold;
pub use lean_picture::lean_picture;
pub use lens::{ENLARGEMENTS, Lens, LensChoice, STRETCHES};
pub use lens_aim::LensAim;
pub use life_plot::{LifeLine, life_plot};
pub use measured_picture::measured_picture;
pub use motion_picture::{MotionDrawing, MotionOf};
pub use plate::{
    ClockPicture, attitude_picture, bar_picture, bearings_picture, clock_picture, ends_picture,
    ground_band_picture, height_picture, knife_picture, on_bar_picture, reel_at_places,
    rock_picture, shims_picture, thread_picture, turn_picture,
};
pub use reading_picture::reading_picture;
pub use reel_picture::reel_picture;
pub(in crate::drawing) use side_view::{AtLip, GROUND_DEPTH_MM};
pub use side_view::{Handles, Overlay, SideView, Standing, Subject, WorstPlace};
pub use step_picture::step_picture;
pub use wear_plot::wear_plot;
pub use window_map::{MapAxes, MapKey, MapMark, MapPicture, MapSetting};
