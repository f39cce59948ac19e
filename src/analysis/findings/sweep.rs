//! Sweep below the cut line, as a length and as a share of the height of cut.

use super::advice::ADVISED_ROOM;
use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict, WindowEnd};
use crate::analysis::NumberId;
use crate::units::{Length, Sentence, Value};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Sweep,
    id: "sweep",
    title: "Sweep below the cut",
    number: Some(NumberId::SweepShare),
    measure,
    judge,
    window: Some(WindowEnd {
        past: Level::Over,
        margins_mm,
    }),
    is_adjustable: true,
};

fn measure(case: &Case) -> Option<Judged> {
    let limits = &case.unit.limits;
    let bounds = [
        Some(Bound::new(Level::Watch, Side::AtMost, limits.sweep_watch)),
        Some(Bound::new(Level::Over, Side::AtMost, limits.sweep_over)),
    ];
    Some(Judged::by(case.solution.sweep_share?, bounds))
}

/// In millimetres of sweep: as smooth as the share, and there without a height of cut as well.
fn margins_mm(case: &Case, margins_mm: &mut Vec<f64>) {
    let height_mm = case.solution.pose.height_of_cut.mm();
    let most_mm = case.unit.limits.sweep_over.of_one() * height_mm;
    margins_mm.push(most_mm - case.solution.sweep.below_cut.mm());
}

fn judge(case: &Case) -> Option<Verdict> {
    let share = case.solution.sweep_share?;
    let sweep = &case.solution.sweep;
    let limits = &case.unit.limits;
    let level = measure(case)?.level();
    let behind = sweep.behind_centre;
    let text = if sweep.below_cut.mm() < 0.0 {
        Sentence::new(
            "The reel's lowest point stays {} above the cut line.",
            &[(-sweep.below_cut).into()],
        )
    } else {
        let template = if behind.mm() < 0.0 {
            "The reel sweeps {} below the cut line, {} of the height of cut (watch above {}, over above {}), with the edge {} ahead of centre."
        } else {
            "The reel sweeps {} below the cut line, {} of the height of cut (watch above {}, over above {}), with the edge {} behind centre."
        };
        Sentence::new(
            template,
            &[
                sweep.below_cut.into(),
                share.into(),
                limits.sweep_watch.into(),
                limits.sweep_over.into(),
                Length::from_mm(behind.mm().abs()).into(),
            ],
        )
        .judging(1)
    };
    let remedy = (level > Level::Fine).then(|| bring_back(case)).flatten();
    Some(Verdict {
        level,
        text,
        remedy,
    })
}

/// To just inside the watch limit, by attitude, or by height alone: the sweep does not change with
/// the height.
fn bring_back(case: &Case) -> Option<Sentence> {
    let pose = &case.solution.pose;
    let sweep = &case.solution.sweep;
    let aim = case.unit.limits.sweep_watch.of_one() * (1.0 - ADVISED_ROOM);
    // An edge ahead of centre is brought back by what is found about that.
    if aim <= 0.0 || sweep.behind_centre.mm() < 0.0 {
        return None;
    }
    let wanted = Length::from_mm(pose.height_of_cut.mm() * aim);
    let height = Length::from_mm(sweep.below_cut.mm() / aim);
    // Another height is advice only while it is still the same kind of turf.
    let is_near = height.mm() <= 2.5 * pose.height_of_cut.mm();
    let attitude = pose.attitude_for_sweep(wanted);
    let tried = attitude.and_then(|attitude| Some((attitude, case.at_attitude(attitude)?)));
    Some(match (attitude, tried) {
        (_, Some((attitude, other))) => {
            let moved = |then: Length, now: Length| Value::Move(then - now);
            let attitude = attitude.into();
            let front = moved(other.pose.front_roller.moved, pose.front_roller.moved);
            let rear = moved(other.pose.rear_roller.moved, pose.rear_roller.moved);
            let underside = other.on_ground.underside_clearance.into();
            if is_near {
                Sentence::new(
                    "At this height of cut an attitude of {} would bring it inside the watch limit and keep the other limits: front roller {}, rear roller {} from where they stand now; the underside would then clear the ground by {}. So would a height of cut of {} at this attitude.",
                    &[attitude, front, rear, underside, height.into()],
                )
            } else {
                Sentence::new(
                    "At this height of cut an attitude of {} would bring it inside the watch limit and keep the other limits: front roller {}, rear roller {} from where they stand now; the underside would then clear the ground by {}.",
                    &[attitude, front, rear, underside],
                )
            }
        }
        (Some(attitude), None) if is_near => Sentence::new(
            "By attitude alone it would take {}, which breaks another limit at this height of cut: a thinner knife or one that reaches further ahead would help, or a height of cut of {} at this attitude.",
            &[attitude.into(), height.into()],
        ),
        (Some(attitude), None) => Sentence::new(
            "By attitude alone it would take {}, which breaks another limit at this height of cut: a thinner knife or one that reaches further ahead would help.",
            &[attitude.into()],
        ),
        (None, None) => Sentence::new(
            "No attitude brings it inside the watch limit: a knife that reaches further ahead would help.",
            &[],
        ),
    })
}
