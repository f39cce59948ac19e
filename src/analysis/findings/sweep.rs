//! Sweep below the cut line, as a length and as a share of the height of cut.

use super::{Bound, Case, FindingId, Judged, Level, Rule, Side, Verdict, WindowEnd};
use crate::analysis::NumberId;
use crate::units::{Length, Sentence};

pub(super) const RULE: Rule = Rule {
    finding: FindingId::Sweep,
    id: "sweep",
    title: "Sweep",
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
            "The reel sweeps {} below the cut line, {} of the height of cut (watch above {}, over limit above {}), with the edge {} ahead of centre."
        } else {
            "The reel sweeps {} below the cut line, {} of the height of cut (watch above {}, over limit above {}), with the edge {} behind centre."
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
    Some(Verdict { level, text })
}
