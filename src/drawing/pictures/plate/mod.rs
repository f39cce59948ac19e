//! Small pictures of the work at the surface plate, drawn from what was read: small differences drawn
//! large, not to scale.

mod clock;
mod from_front;
mod on_bar;
mod plain;
mod turn;

pub use clock::{ClockPicture, clock_picture, shims_picture, thread_picture};
pub use from_front::{
    attitude_picture, bar_picture, ends_picture, height_picture, knife_picture, reel_at_places,
};
pub use on_bar::on_bar_picture;
pub use plain::{bearings_picture, rock_picture};
pub use turn::{ground_band_picture, turn_picture};
