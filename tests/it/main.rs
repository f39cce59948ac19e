//! What the program promises to a person, a promise a module: one binary, so that the window's
//! toolkit is linked once.

mod advice;
mod blade_path;
mod blade_path_window;
mod command_line;
mod common;
mod desk_window;
mod desktop;
mod disk;
mod disk_window;
mod drawing;
mod drawing_why;
mod examples;
mod files;
mod geometry;
mod handles_window;
mod house;
mod keyboard_window;
mod knives;
mod knives_plots;
mod knives_set_once;
mod knives_window;
mod lettering;
mod mutated;
mod notices_window;
mod other_readings;
mod other_readings_window;
mod plate;
mod real_window;
#[cfg(all(unix, not(target_os = "macos")))]
mod real_window_rest;
mod real_window_typing;
mod recovery_window;
mod saving;
mod sessions_window;
mod sizes_window;
mod start_window;
mod steps_window;
mod supply;
mod uncertainty;
mod undo_window;
mod untrusted_text;
mod why;
mod why_window;
mod window;
mod words;
