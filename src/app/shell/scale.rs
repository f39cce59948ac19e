//! The scale of everything in the window: chosen, or one that fits the screen.

use egui::{Context, Key, Ui, Vec2};

use super::keys::{Deed, keys_of};
use super::menu::choice_ui;
use crate::app::desk::{Desk, Preferences};
use crate::app::widgets::lettering::Lettering;

/// The scales there are, in percent.
const STEPS: [u32; 10] = [80, 90, 100, 110, 125, 150, 175, 200, 225, 250];
/// Their letters in the menu, beside those of what else it offers.
const LETTERS: [Key; STEPS.len()] = [
    Key::A,
    Key::B,
    Key::C,
    Key::E,
    Key::G,
    Key::H,
    Key::I,
    Key::J,
    Key::K,
    Key::M,
];
/// The scale as it was drawn.
const USUAL: u32 = 100;
/// What a window holds at the least, in points: a drawing that can be read, with bar and numbers. The
/// scale chosen is shown as far as the window leaves room for that.
const LEAST_HELD: Vec2 = Vec2::new(720.0, 560.0);
/// What of a screen the window needs to show form, drawing and lens beside one another.
const ROOM: Vec2 = Vec2::new(1280.0, 700.0);

/// The scale chosen, on the nearest step; none when none was chosen.
fn chosen(preferences: &Preferences) -> Option<u32> {
    let percent = preferences.scale_percent?;
    STEPS.into_iter().min_by_key(|step| step.abs_diff(percent))
}

/// The largest scale up to the usual at which a screen has room, its size given at the usual one.
fn fitting(screen: Vec2) -> u32 {
    let fits = |step: &u32| {
        let part = factor(*step);
        screen.x / part >= ROOM.x && screen.y / part >= ROOM.y
    };
    let mut steps = STEPS.into_iter().rev().filter(|step| *step <= USUAL);
    steps.find(fits).unwrap_or(STEPS[0])
}

/// The scale that is shown when none is chosen: one that fits the screen, where it is known.
fn unchosen(ctx: &Context) -> u32 {
    // What is told of the screen is told at the scale shown.
    let screen = ctx.input(|input| input.viewport().monitor_size);
    screen.map_or(USUAL, |screen| fitting(screen * ctx.zoom_factor()))
}

#[expect(clippy::cast_precision_loss, reason = "a percentage")]
fn factor(percent: u32) -> f32 {
    percent as f32 / 100.0
}

/// The largest scale for which a window has room, its size given at the usual one; in whole percent.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a percentage between two bounds"
)]
fn most_for(window: Vec2) -> u32 {
    let part = (window / LEAST_HELD).min_elem();
    let (low, high) = (factor(STEPS[0]), factor(STEPS[STEPS.len() - 1]));
    // What a size loses to rounding is no percent.
    (part.clamp(low, high) * 100.0 + 0.05).floor() as u32
}

/// The scale that is shown: the one chosen or that fits the screen, as far as the window has room.
fn shown(ctx: &Context, preferences: &Preferences) -> u32 {
    let percent = chosen(preferences).unwrap_or_else(|| unchosen(ctx));
    percent.min(most_for(ctx.content_rect().size() * ctx.zoom_factor()))
}

/// Shows everything at the scale chosen from the next frame on, or at one that fits the screen; a small
/// window shows it no larger than it has room for.
pub fn apply_scale(ctx: &Context, preferences: &Preferences) {
    ctx.set_zoom_factor(factor(shown(ctx, preferences)));
}

/// One step larger.
pub fn larger(ctx: &Context, desk: &mut Desk) {
    let now = chosen(desk.preferences()).unwrap_or_else(|| unchosen(ctx));
    let larger = STEPS.into_iter().find(|step| *step > now);
    desk.preferences_mut().scale_percent = Some(larger.unwrap_or(now));
}

/// One step smaller.
pub fn smaller(ctx: &Context, desk: &mut Desk) {
    let now = shown(ctx, desk.preferences());
    let smaller = STEPS.into_iter().rev().find(|step| *step < now);
    desk.preferences_mut().scale_percent = Some(smaller.unwrap_or(now));
}

/// As the program chooses.
pub fn fit_scale(desk: &mut Desk) {
    desk.preferences_mut().scale_percent = None;
}

/// The scales there are, with the one that is shown marked.
pub fn scale_menu_ui(ui: &mut Ui, desk: &mut Desk) {
    let now = chosen(desk.preferences());
    let fitted = unchosen(ui.ctx());
    let mut choose = None;
    let mut offer = |ui: &mut Ui, text: (&str, Key), step: Option<u32>, keys: &str| {
        if choice_ui(ui, text, now == step, keys) {
            choose = Some(step);
            ui.close();
        }
    };
    let keys = |ui: &Ui, deed| keys_of(ui.ctx(), deed);
    let reset = keys(ui, Deed::FittingScale);
    let fitting = format!("Automatic ({fitted} %)");
    offer(ui, (&fitting, Key::F), None, &reset);
    ui.separator();
    let shown = now.unwrap_or(fitted);
    let larger = STEPS.into_iter().find(|step| *step > shown);
    let smaller = STEPS.into_iter().rev().find(|step| *step < shown);
    for (step, letter) in STEPS.into_iter().zip(LETTERS) {
        let keys = match Some(step) {
            step if step == larger => keys(ui, Deed::Larger),
            step if step == smaller => keys(ui, Deed::Smaller),
            _ => String::new(),
        };
        offer(ui, (&format!("{step} %"), letter), Some(step), &keys);
    }
    let wanted = now.unwrap_or(fitted);
    let is_shown = self::shown(ui.ctx(), desk.preferences());
    if is_shown < wanted {
        let text = format!("Shown at {is_shown} %: a larger window would have room for {wanted} %");
        ui.label(Lettering::Note.of(text));
    }
    if let Some(step) = choose {
        desk.preferences_mut().scale_percent = step;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_screen_gets_a_scale_that_fits() {
        for (width, height, percent) in [
            (1920.0, 1080.0, 100),
            (1366.0, 768.0, 100),
            (1280.0, 800.0, 100),
            (1280.0, 660.0, 90),
            (1152.0, 864.0, 90),
            (1024.0, 768.0, 80),
            (800.0, 600.0, 80),
        ] {
            assert_eq!(
                fitting(Vec2::new(width, height)),
                percent,
                "{width}x{height}"
            );
        }
    }

    #[test]
    fn a_small_window_is_shown_no_larger_than_it_has_room_for() {
        for (width, height, percent) in [
            (900.0, 600.0, 107),
            (1366.0, 768.0, 137),
            (1440.0, 900.0, 160),
            (3840.0, 2160.0, 250),
            (300.0, 200.0, 80),
        ] {
            let window = Vec2::new(width, height);
            assert_eq!(most_for(window), percent, "{width}x{height}");
            // The same from what is told of it at another scale.
            let told = window / 1.37 * 1.37;
            assert_eq!(most_for(told), percent, "{width}x{height}");
        }
    }

    #[test]
    fn what_was_remembered_is_one_of_the_steps() {
        for (remembered, step) in [(0, 80), (93, 90), (100, 100), (4_000_000_000, 250)] {
            let preferences = Preferences {
                scale_percent: Some(remembered),
                ..Preferences::default()
            };
            assert_eq!(chosen(&preferences), Some(step));
        }
        assert_eq!(chosen(&Preferences::default()), None);
    }
}
