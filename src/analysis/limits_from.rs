//! Limits taken from a unit that cuts well: where each number stands now, and a margin past it.

use super::{FindingId, Findings, Solved};
use crate::unit::LimitEntries;
use crate::units::{Length, Measure, Quantity, Ratio, Share, System, Value};

/// The limits that a unit which cuts well keeps with some room: each number as it stands, and a
/// margin more, as a part of it, rounded to what is read so that the unit itself stays within them.
///
/// What comes after the watch limit keeps the proportion of the limits in force. The brackets' range
/// is no matter of how a unit cuts, and stays. A number on the wrong side of its ideal, such as a
/// reel that does not sweep at all, says nothing about a limit: that one stays as it is in the
/// turf's starting values.
#[must_use]
pub fn limits_from(solved: &Solved, margin: Share, system: System) -> LimitEntries {
    let limits = &solved.unit.limits;
    let case = solved.case();
    let now = |id| Findings::judged(&case, id).map(|judged| judged.value.base());
    let more = 1.0 + margin.of_one().max(0.0);
    let less = 1.0 / more;
    let entries = solved.document.limits.as_ref();
    let mut taken = entries.cloned().unwrap_or_default();
    taken.sweep_watch = None;
    taken.sweep_over = None;
    if let Some(share) = now(FindingId::Sweep).filter(|share| *share > 0.0) {
        let of_watch = ratio_of(limits.sweep_over.of_one(), limits.sweep_watch.of_one());
        taken.sweep_watch = Some(rounded(Share::from_base(share * more), true, system));
        taken.sweep_over = Some(rounded(
            Share::from_base(share * more * of_watch),
            true,
            system,
        ));
    }
    taken.clip_least = None;
    taken.clip_watch = None;
    taken.clip_over = None;
    if let Some(ratio) = now(FindingId::Clip).filter(|ratio| *ratio > 0.0) {
        let of_watch = ratio_of(limits.clip_over.number(), limits.clip_watch.number());
        taken.clip_least = Some(rounded(Ratio::from_base(ratio * less), false, system));
        taken.clip_watch = Some(rounded(Ratio::from_base(ratio * more), true, system));
        taken.clip_over = Some(rounded(
            Ratio::from_base(ratio * more * of_watch),
            true,
            system,
        ));
    }
    // One limit for the underside wherever it is judged, and for the lip.
    let clear = [
        FindingId::Underside,
        FindingId::LowEndUnderside,
        FindingId::Lip,
    ];
    let least = clear.into_iter().filter_map(now).reduce(f64::min);
    taken.underside = least
        .filter(|least| *least > 0.0)
        .map(|least| rounded(Length::from_mm(least * less), false, system));
    taken.behind_centre = now(FindingId::Ahead)
        .filter(|behind| *behind > 0.0)
        .map(|behind| rounded(Length::from_mm(behind * less), false, system));
    taken
}

fn ratio_of(over: f64, watch: f64) -> f64 {
    if watch > 0.0 {
        (over / watch).max(1.0)
    } else {
        1.0
    }
}

/// A limit as it is written, on the side that leaves the unit within it.
fn rounded<M: Measure + Into<Value>>(limit: M, is_up: bool, system: System) -> Quantity<M> {
    let nearest = limit.into().as_read_in(system);
    let is_kept = if is_up {
        nearest.base() >= limit.base()
    } else {
        nearest.base() <= limit.base()
    };
    let read = if is_kept {
        nearest
    } else {
        nearest.next_read_in(system, is_up)
    };
    Quantity::exactly(M::from_base(read.base()), system)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::Level;
    use crate::unit::read_text;

    #[test]
    fn a_unit_stays_within_the_limits_that_are_taken_from_it() {
        let demos = [
            include_str!("../../demo-units/fairway-trailed.ron"),
            include_str!("../../demo-units/greens-walking.ron"),
            include_str!("../../demo-units/sports-metric.ron"),
            include_str!("../../demo-units/greens-scalping.ron"),
        ];
        for demo in demos {
            for system in System::ALL {
                for percent in [0.0, 10.0, 25.0, 50.0] {
                    let mut document = read_text(demo).expect("reads");
                    let solved = Solved::of(&document).expect("solves");
                    let margin = Share::from_base(percent / 100.0);
                    document.limits = Some(limits_from(&solved, margin, system));
                    let after = Solved::of(&document).expect("solves");
                    for id in [
                        FindingId::Sweep,
                        FindingId::Clip,
                        FindingId::Underside,
                        FindingId::Ahead,
                        FindingId::Lip,
                    ] {
                        let level = after.findings.level_of(id);
                        assert!(
                            level.is_none_or(|level| level == Level::Fine),
                            "{}: {id} at {percent} % in {system:?}",
                            document.name
                        );
                    }
                    let share = after.solution.sweep_share.expect("above the plate");
                    let watch = after.unit.limits.sweep_watch;
                    let room = watch.of_one() / share.of_one() - 1.0;
                    assert!(room >= percent / 100.0 - 1e-9 && room < percent / 100.0 + 0.1);
                }
            }
        }
    }
}
