//! The reel in motion as a moving picture: one clip, over and over.

use std::path::Path;

use super::picture::{PictureAsked, PictureFormat, Resolution};
use crate::analysis::{Kinematics, Solved};
use crate::command::Problem;
use crate::drawing::{Delay, NoPicture, PictureView, motion_frame, to_moving_png};
use crate::store;

/// Pixels for a paper unit where nobody asked for others: a moving picture is looked at on a screen.
const USUAL: f64 = 0.75;

/// Writes one clip of a solved unit as an animated PNG of so many pictures, from one blade at the knife to
/// the next; the last is followed by the first without a jump. A clip takes a second, however fast the
/// reel is; how much slower that is stands on the picture.
///
/// # Errors
/// When the file is no PNG, another picture than the motion is asked for, the unit's speeds are not
/// known, there are too many pixels, or the file cannot be written.
pub fn write_moving_picture(
    solved: &Solved,
    out: &Path,
    asked: &PictureAsked,
    count: u16,
) -> Result<(), Problem> {
    let problem = |what: String| Problem::Picture {
        file: out.to_owned(),
        what,
    };
    if PictureFormat::of(out) != Some(PictureFormat::Png) {
        return Err(problem(
            "only a .png moves: write a name that ends in .png".to_owned(),
        ));
    }
    if asked.view != Some(PictureView::Motion) {
        return Err(problem("only --view motion moves".to_owned()));
    }
    let bytes = moving_bytes(solved, asked, count).map_err(problem)?;
    store::write_whole(out, &bytes).map_err(|error| problem(format!("cannot be written: {error}")))
}

/// The bytes of such a file.
///
/// # Errors
/// When the unit's speeds are not known, or there are too many pixels, in words.
pub fn moving_bytes(solved: &Solved, asked: &PictureAsked, count: u16) -> Result<Vec<u8>, String> {
    let kinematics = Kinematics::of(&solved.unit, &solved.solution);
    let kinematics = kinematics.ok_or_else(|| NoPicture::NoSpeeds.to_string())?;
    let seconds = kinematics.path.turn_s() / f64::from(solved.unit.blades);
    let told = slowed(seconds);
    let sheet = |number: u32| {
        let clips = f64::from(number) / f64::from(count);
        let sheet = motion_frame(solved, clips, &told, asked.system, asked.theme)
            .map_err(|none| none.to_string())?;
        Ok(if asked.is_clear {
            sheet.without_ground()
        } else {
            sheet
        })
    };
    let per_unit = match asked.resolution {
        Resolution::Usual => USUAL,
        other => other.per_unit(&sheet(0)?),
    };
    let delay = Delay {
        parts: 1,
        in_a_second: count,
    };
    to_moving_png(u32::from(count), per_unit, delay, sheet)
}

/// How much slower or faster than the machine a clip that takes a second is.
fn slowed(clip_s: f64) -> String {
    if clip_s <= 1.0 {
        format!("{:.0} times slower than the machine", 1.0 / clip_s)
    } else {
        format!("{clip_s:.0} times faster than the machine")
    }
}
