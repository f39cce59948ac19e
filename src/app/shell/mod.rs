//! The window around the areas: opening it, the bar, the form beside the area in front, the cards
//! that belong to no area, what was last told, shots.

mod about;
mod app;
mod beginning;
mod beside_card;
mod beside_copy;
mod beside_file;
mod course;
mod deeds;
mod display;
mod drawer;
mod edit_menu;
mod ending;
mod folder_card;
mod help_card;
mod keys;
mod keys_card;
mod licences;
mod menu;
mod notice;
mod picture_card;
mod placing;
mod preview;
mod print_card;
mod recent;
mod remembering;
mod scale;
mod sheet_choices;
mod shot;
mod start_card;
mod steps_card;
mod title;
mod top_bar;
mod turns;
mod window;
mod work_card;

pub use app::App;
pub use beginning::Beginning;
pub use window::open_window;
