//! What-ifs: settings given on the command line in place of the file's.

use clap::Args;
use thiserror::Error;

use crate::analysis::{Solved, Unsolved};
use crate::unit::{Document, RollerMoves};
use crate::units::{Length, Measure, Quantity, QuantityProblem};

/// Settings to try, each as in a unit file: "6.6 in", "5 deg".
#[derive(Clone, Debug, Default, PartialEq, Eq, Args)]
#[command(next_help_heading = "What to try, instead of what the file sets")]
pub struct WhatIf {
    /// Reel diameter after grinding.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub reel_diameter: Option<String>,
    /// Height of cut wanted.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub height_of_cut: Option<String>,
    /// Attitude wanted.
    #[arg(long, value_name = "ANGLE", allow_hyphen_values = true)]
    pub attitude: Option<String>,
    /// Gap between reel and knife.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub gap: Option<String>,
    /// Name of the knife fitted.
    #[arg(long, value_name = "NAME")]
    pub knife: Option<String>,
    /// Edge further ahead than the fitted knife's reach gives.
    #[arg(
        long = "edge-forward",
        alias = "extension",
        value_name = "LENGTH",
        allow_hyphen_values = true
    )]
    pub extension: Option<String>,
    /// Metal taken off the knife's top face.
    #[arg(
        long = "off-top-face",
        alias = "top-ground",
        value_name = "LENGTH",
        allow_hyphen_values = true
    )]
    pub top_ground: Option<String>,
    /// Metal taken off the knife's front face.
    #[arg(
        long = "off-front-face",
        alias = "face-ground",
        value_name = "LENGTH",
        allow_hyphen_values = true
    )]
    pub face_ground: Option<String>,
    /// Front roller moved from where it was measured, towards the reel positive; attitude and height follow, or
    /// with a height of cut the attitude and the rear roller's move.
    #[arg(
        long,
        value_name = "LENGTH",
        allow_hyphen_values = true,
        conflicts_with = "attitude"
    )]
    pub front_move: Option<String>,
    /// Rear roller moved from where it was measured, towards the reel positive; attitude and height follow, or
    /// with a height of cut the attitude and the front roller's move.
    #[arg(
        long,
        value_name = "LENGTH",
        allow_hyphen_values = true,
        conflicts_with = "attitude"
    )]
    pub rear_move: Option<String>,
}

/// A what-if that is no quantity.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("--{option}: {problem}")]
pub struct WhatIfProblem {
    option: &'static str,
    problem: QuantityProblem,
}

impl WhatIf {
    /// Puts the what-ifs into a document.
    ///
    /// One of attitude and height alone takes the other from the current setting; so does one
    /// roller alone. The inner result is an error when that setting is needed and has no solution.
    ///
    /// # Errors
    /// When a text is no quantity.
    pub fn apply(&self, document: &mut Document) -> Result<Result<(), Unsolved>, WhatIfProblem> {
        let setting = &mut document.setting;
        put(
            "reel-diameter",
            self.reel_diameter.as_ref(),
            &mut setting.reel_diameter,
        )?;
        put("gap", self.gap.as_ref(), &mut setting.gap)?;
        put(
            "edge-forward",
            self.extension.as_ref(),
            &mut setting.extension,
        )?;
        put(
            "off-top-face",
            self.top_ground.as_ref(),
            &mut setting.top_ground,
        )?;
        put(
            "off-front-face",
            self.face_ground.as_ref(),
            &mut setting.face_ground,
        )?;
        if let Some(knife) = &self.knife {
            setting.knife = Some(knife.clone());
        }
        if let Err(unsolved) = self.make_way(document) {
            return Ok(Err(unsolved));
        }
        let setting = &mut document.setting;
        put("attitude", self.attitude.as_ref(), &mut setting.attitude)?;
        put(
            "height-of-cut",
            self.height_of_cut.as_ref(),
            &mut setting.height_of_cut,
        )?;
        if let Some(rollers) = &mut setting.rollers {
            put(
                "front-move",
                self.front_move.as_ref(),
                &mut rollers.front_move,
            )?;
            put("rear-move", self.rear_move.as_ref(), &mut rollers.rear_move)?;
        }
        Ok(Ok(()))
    }

    /// Turns a document to the way of setting that is asked for, its pose kept: by attitude and
    /// height, by both rollers, or by one of them with the height of cut.
    fn make_way(&self, document: &mut Document) -> Result<(), Unsolved> {
        let rollers = document.setting.rollers.as_ref();
        let has = |roller: fn(&RollerMoves) -> &Option<Quantity<Length>>| {
            rollers.is_some_and(|moves| roller(moves).is_some())
        };
        let (has_front, has_rear) = (has(|m| &m.front_move), has(|m| &m.rear_move));
        let (asks_front, asks_rear) = (self.front_move.is_some(), self.rear_move.is_some());
        let has_one = has_front != has_rear;
        // The one roller that is asked for with a height, or that the file has already.
        let with_height = self.height_of_cut.is_some() && asks_front != asks_rear;
        if with_height {
            document.setting.attitude = None;
            document.setting.rollers = Some(RollerMoves::default());
            return Ok(());
        }
        let is_wanted = self.attitude.is_some()
            || self.height_of_cut.is_some() && has_front && has_rear && !asks_front && !asks_rear;
        let is_other = has_one && (asks_front && !has_front || asks_rear && !has_rear);
        let is_rollers = asks_front || asks_rear;
        let goes_to_wanted = is_wanted && (has_front || has_rear);
        let goes_to_rollers = is_rollers && (is_other || !has_front && !has_rear);
        if !goes_to_wanted && !goes_to_rollers {
            return Ok(());
        }
        let solved = Solved::of(document)?;
        let pose = &solved.solution.pose;
        let stance = if goes_to_wanted {
            pose.as_wanted()
        } else {
            pose.as_rollers()
        };
        document.set_stance(stance, solved.unit.system);
        Ok(())
    }
}

/// A length that an option of its own gives.
///
/// # Errors
/// When the text is no length.
pub fn given_length(
    option: &'static str,
    text: Option<&String>,
) -> Result<Option<Length>, WhatIfProblem> {
    let read = read::<Length>(option, text)?;
    Ok(read.map(|quantity| quantity.value()))
}

fn put<M: Measure>(
    option: &'static str,
    text: Option<&String>,
    entry: &mut Option<Quantity<M>>,
) -> Result<(), WhatIfProblem> {
    if let Some(quantity) = read(option, text)? {
        *entry = Some(quantity);
    }
    Ok(())
}

fn read<M: Measure>(
    option: &'static str,
    text: Option<&String>,
) -> Result<Option<Quantity<M>>, WhatIfProblem> {
    text.map(|text| Quantity::parse(text))
        .transpose()
        .map_err(|problem| WhatIfProblem { option, problem })
}
