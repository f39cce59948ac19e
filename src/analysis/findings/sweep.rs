//! Sweep below the cut line, as a length and as a share of the height of cut.

use super::{Case, Level, Verdict};
use crate::units::{Length, Sentence};

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let share = case.solution.sweep_share?;
    let sweep = &case.solution.sweep;
    let limits = &case.unit.limits;
    let level = match share {
        share if share > limits.sweep_over => Level::Over,
        share if share > limits.sweep_watch => Level::Watch,
        _ => Level::Fine,
    };
    let text = if sweep.below_cut.mm() < 0.0 {
        Sentence::new(
            "The reel's lowest point stays {} above the cut line.",
            &[(-sweep.below_cut).into()],
        )
    } else {
        Sentence::new(
            "The reel sweeps {} below the cut line, {} of the height of cut (watch above {}, over above {}), with the edge {} behind centre.",
            &[
                sweep.below_cut.into(),
                share.into(),
                limits.sweep_watch.into(),
                limits.sweep_over.into(),
                sweep.behind_centre.into(),
            ],
        )
    };
    let remedy = (level > Level::Fine).then(|| bring_back(case)).flatten();
    Some(Verdict {
        level,
        text,
        remedy,
    })
}

/// To the lower limit, by attitude, or by height alone: the sweep does not change with the height.
fn bring_back(case: &Case) -> Option<Sentence> {
    let pose = &case.solution.pose;
    let watch = case.unit.limits.sweep_watch.of_one();
    if watch <= 0.0 {
        return None;
    }
    let wanted = Length::from_mm(pose.height_of_cut.mm() * watch);
    let height = Length::from_mm(case.solution.sweep.below_cut.mm() / watch);
    let by_attitude = pose
        .attitude_for_sweep(wanted)
        .and_then(|attitude| Some((attitude, case.at_attitude(attitude)?)));
    Some(match by_attitude {
        Some((attitude, other)) => Sentence::new(
            "An attitude of {} would bring it to the watch limit (front roller {}, rear roller {} from where they stand now; the knife's underside would then clear the plate by {}); so would a height of cut of {}.",
            &[
                attitude.into(),
                other.front_change,
                other.rear_change,
                other.underside_clearance.into(),
                height.into(),
            ],
        ),
        None => Sentence::new(
            "No attitude brings it to the watch limit; a height of cut of {} would.",
            &[height.into()],
        ),
    })
}
