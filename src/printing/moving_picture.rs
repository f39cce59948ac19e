//! The reel in motion as a moving picture: one clip, over and over; of two units side by side as many as it
//! takes until both stand as they began.

use std::path::Path;

use super::picture::{PictureAsked, PictureFormat, Resolution};
use crate::analysis::{Kinematics, Solved};
use crate::command::Problem;
use crate::drawing::{
    Delay, NoPicture, PictureView, Sheet, SideBySide, motion_frame, side_by_side_frame,
    to_moving_png,
};
use crate::store;

/// Pixels for a paper unit where nobody asked for others: a moving picture is looked at on a screen.
const USUAL: f64 = 0.75;
/// Clips of the left one of two until the picture begins again, at the most.
const MOST_CLIPS: u8 = 12;
/// How far, in clips, the right one may stand from where it began: no jump that is seen.
const UNSEEN: f64 = 0.03;

/// What moves.
#[derive(Clone, Copy, Debug)]
pub enum Moving<'a> {
    /// A unit.
    Unit(&'a Solved),
    /// Two side by side, by one clock.
    Pair(&'a SideBySide<'a>),
}

impl<'a> From<&'a Solved> for Moving<'a> {
    fn from(unit: &'a Solved) -> Self {
        Self::Unit(unit)
    }
}

impl<'a> From<&'a SideBySide<'a>> for Moving<'a> {
    fn from(pair: &'a SideBySide<'a>) -> Self {
        Self::Pair(pair)
    }
}

impl Moving<'_> {
    /// The one whose clips take a second each.
    fn first(&self) -> &Solved {
        match self {
            Self::Unit(unit) => unit,
            Self::Pair(pair) => pair.units[0],
        }
    }

    /// Clips of the first until the picture begins again.
    fn clips(&self) -> Result<u8, NoPicture> {
        match self {
            Self::Unit(_) => Ok(1),
            Self::Pair(pair) => {
                let in_one = pair.right_clips_in_one().ok_or(NoPicture::NoSpeeds)?;
                Ok(clips_until_alike(in_one))
            }
        }
    }

    /// So many clips of the first after it began.
    fn frame(&self, clips: f64, told: &str, asked: &PictureAsked) -> Result<Sheet, NoPicture> {
        match self {
            Self::Unit(unit) => motion_frame(unit, clips, told, asked.system, asked.theme),
            Self::Pair(pair) => {
                let pair = SideBySide {
                    clips,
                    view: PictureView::Motion,
                    ..(*pair).clone()
                };
                side_by_side_frame(&pair, told, asked.theme)
            }
        }
    }
}

/// Writes the reel of a solved unit, or both of two side by side, as an animated PNG of so many pictures from
/// one blade at the knife to the next; the last is followed by the first without a jump. A clip takes a second,
/// however fast the reel is; how much slower that is stands on the picture. Of two it is the left one's clip;
/// the right one turns by the same clock, and jumps by less than a twelfth of a clip where no few clips of both
/// take the same time.
///
/// # Errors
/// When the file is no PNG, another picture than the motion is asked for, a unit's speeds are not
/// known, there are too many pixels, or the file cannot be written.
pub fn write_moving_picture<'a>(
    moving: impl Into<Moving<'a>>,
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
    let bytes = moving_bytes(moving, asked, count).map_err(problem)?;
    store::write_whole(out, &bytes).map_err(|error| problem(format!("cannot be written: {error}")))
}

/// The bytes of such a file.
///
/// # Errors
/// When a unit's speeds are not known, or there are too many pixels, in words.
pub fn moving_bytes<'a>(
    moving: impl Into<Moving<'a>>,
    asked: &PictureAsked,
    count: u16,
) -> Result<Vec<u8>, String> {
    let moving = moving.into();
    let unit = moving.first();
    let kinematics = Kinematics::of(&unit.unit, &unit.solution);
    let kinematics = kinematics.ok_or_else(|| NoPicture::NoSpeeds.to_string())?;
    let seconds = kinematics.path.turn_s() / f64::from(unit.unit.blades);
    let told = slowed(seconds);
    let clips = moving.clips().map_err(|none| none.to_string())?;
    let sheet = |number: u32| {
        let clips = f64::from(number) / f64::from(count);
        let sheet = moving.frame(clips, &told, asked);
        let sheet = sheet.map_err(|none| none.to_string())?;
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
    to_moving_png(u32::from(clips) * u32::from(count), per_unit, delay, sheet)
}

/// Clips of one reel until another, of which so many fall into each, stands as it began: the fewest after
/// which no jump is seen, or else those after which it is the least.
fn clips_until_alike(in_one: f64) -> u8 {
    let off = |clips: u8| {
        let turned = f64::from(clips) * in_one;
        (turned - turned.round()).abs()
    };
    let unseen = (1..=MOST_CLIPS).find(|clips| off(*clips) <= UNSEEN);
    let least = (1..=MOST_CLIPS).min_by(|one, other| off(*one).total_cmp(&off(*other)));
    unseen.or(least).unwrap_or(1)
}

/// How much slower or faster than the machine a clip that takes a second is.
fn slowed(clip_s: f64) -> String {
    if clip_s <= 1.0 {
        format!("{:.0} times slower than the machine", 1.0 / clip_s)
    } else {
        format!("{clip_s:.0} times faster than the machine")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// That the jump is never more than 1 in 13 of a clip is Dirichlet's theorem on how near a number is to
    /// fractions of small denominators (Hardy and Wright, An Introduction to the Theory of Numbers, 11.3; from
    /// memory).
    #[test]
    fn two_reels_begin_again_where_the_least_is_seen_of_it() {
        for (in_one, clips) in [(1.0, 1), (2.0, 1), (0.5, 2), (1.25, 4), (1.334, 3)] {
            assert_eq!(clips_until_alike(in_one), clips, "{in_one}");
        }
        for step in 1..400 {
            let in_one = 0.01 * f64::from(step) + 0.003;
            let turned = f64::from(clips_until_alike(in_one)) * in_one;
            assert!((turned - turned.round()).abs() <= 1.0 / 13.0, "{in_one}");
        }
    }
}
