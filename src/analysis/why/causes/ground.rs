//! The mechanisms of the ground: crests and rollers that sink.

use super::super::budget::{Budget, StepKind};
use super::super::crest::CrestLimit;
use super::cause::Cure;
use super::mechanisms::{LEAST_TOLD, MOST, Mechanisms, NoneTold, part};
use super::{Cause, Strength};
use crate::analysis::{FindingId, Solution};
use crate::geometry::GroundShape;
use crate::unit::{Looked, LookedFor, Unit};
use crate::units::{Length, Sentence, Value};

/// Share of the height of cut that a crown loses before it is scalped: the third that mowing takes at
/// most (common practice, no source).
const SCALPED_SHARE: f64 = 1.0 / 3.0;

/// What each takes a little of, all may take together.
fn together(
    (id, name): (&'static str, &'static str),
    (budget, looked_for): (&Budget, LookedFor),
    hanging: StepKind,
    told: TogetherTold,
    cure: FindingId,
) -> Cause {
    let before = budget.by(StepKind::HeightOfCut) + budget.by(hanging);
    let takes = before - budget.left();
    let looked = looked_for.all();
    let plain = |text| Sentence::new(text, &[]);
    let (strength, text) = if takes >= LEAST_TOLD {
        let left = budget.left();
        let (told, end) = if left < Length::ZERO {
            (told.short, -left)
        } else {
            (told.left, left)
        };
        let values = [takes.into(), before.into(), end.into()];
        (part(takes, before), Sentence::new(told, &values))
    } else if looked.iter().all(|looked| *looked != Looked::NotYet) {
        let text =
            "Measured: sink, crest, runout and side-to-side difference together take none of it.";
        (Strength::Known(0.0), plain(text))
    } else if looked.iter().all(|looked| *looked == Looked::NotYet) {
        let text = "No sink, crest, runout or side-to-side difference is measured.";
        (Strength::NotMeasured, plain(text))
    } else {
        let text = "Not all of sink, crest, runout and side-to-side difference are measured; those that are take none of it.";
        (Strength::NotMeasured, plain(text))
    };
    Cause {
        id,
        name,
        strength,
        text,
        confirm: "Each step of the height budget where the mark is: sink, straightedge, dial gauge, height of cut at both ends; engine off, key out, unit and reel blocked, gloves on.",
        cure: Cure::Adjustments(cure),
        judged_by: None,
    }
}

/// What is told of a part of the unit on a crest.
struct CrestTold {
    touching: &'static str,
    clear: &'static str,
    unknown: &'static str,
    none: &'static str,
    known: &'static str,
}

/// What is told of all that is taken together, where it leaves some and where it takes more than there is.
#[derive(Clone, Copy)]
struct TogetherTold {
    left: &'static str,
    short: &'static str,
}

/// What is told of rollers that sink alike, and of rollers that sink apart.
struct SinkTold {
    alike: &'static str,
    apart: &'static str,
    none: NoneTold,
}

impl Mechanisms<'_> {
    pub(super) fn together_reel(&self) -> Cause {
        together(
            ("together_reel", "Everything together, under the reel"),
            (&self.reel, self.case.unit.looked_for),
            StepKind::Sweep,
            TogetherTold {
                left: "Sink, crest, runout and side-to-side difference together take {} of the {} that the reel clears on the plate; {} is left.",
                short: "Sink, crest, runout and side-to-side difference together take {}, and the reel clears {} on the plate: {} short.",
            },
            FindingId::Reel,
        )
    }

    pub(super) fn together_underside(&self) -> Cause {
        together(
            ("together_underside", "Everything together, under the knife"),
            (&self.underside, self.case.unit.looked_for),
            StepKind::Underside,
            TogetherTold {
                left: "Sink, crest, runout and side-to-side difference together take {} of the {} that the underside clears on the plate; {} is left.",
                short: "Sink, crest, runout and side-to-side difference together take {}, and the underside clears {} on the plate: {} short.",
            },
            FindingId::Underside,
        )
    }

    /// The edge itself cuts lower on a crest than on the plate.
    pub(super) fn lower_cut(&self) -> Cause {
        // The rollers sink on the level as well: only what the crest takes beyond that is its own.
        let level = Unit {
            shape: GroundShape::Level,
            ..self.case.unit.clone()
        };
        let on_level = Solution::of(&level, self.case.setting);
        let height = on_level.map_or(self.case.solution.pose.height_of_cut, |level| {
            level.on_ground.cut
        });
        let cut = self.case.solution.on_ground.cut;
        let (strength, text) = if matches!(self.case.unit.shape, GroundShape::Crest(_)) {
            let text = Sentence::new(
                "On this crest the effective height of cut is {}, against {} on level ground (a third less starts to show).",
                &[cut.into(), height.into()],
            );
            (part(height - cut, height * SCALPED_SHARE), text)
        } else if self.case.unit.looked_for.shape == Looked::NotYet {
            let text = Sentence::new(
                "How tight the high spots are here is not measured; the edge cuts at {}.",
                &[cut.into()],
            );
            (Strength::NotMeasured, text)
        } else {
            let text = Sentence::new(
                "Measured: none, there is no crest here; the edge cuts at {}.",
                &[cut.into()],
            );
            (Strength::Known(0.0), text)
        };
        Cause {
            id: "lower_cut",
            name: "Effective height of cut on the crest",
            strength,
            text,
            confirm: "Height of the cut grass on the high spot and beside it; a straightedge on the high spot and the gap under its end.",
            cure: Cure::Other("A higher cut: no setting of this unit follows a crest that tight."),
            judged_by: None,
        }
    }

    pub(super) fn crest(&self) -> Cause {
        let told = CrestTold {
            touching: "The reel touches level ground already.",
            clear: "No crest reaches the reel.",
            unknown: "The reel touches on crests tighter than {}; how tight the high spots are here is not measured.",
            none: "Measured: none, there is no crest here; the reel touches on crests tighter than {}.",
            known: "A crest of {} radius takes {} from the reel's {}; it touches on crests tighter than {}.",
        };
        let before = self.reel.by(StepKind::Sweep);
        let (strength, text) = self.on_crest(self.crests.reel, &self.reel, before, &told);
        Cause {
            id: "crest",
            name: "Crest under the reel",
            strength,
            text,
            confirm: "A straightedge on the scalped high spot and the gap under its end: its radius against the tightest the reel crosses.",
            cure: Cure::Adjustments(FindingId::Reel),
            judged_by: None,
        }
    }

    pub(super) fn crest_under_knife(&self) -> Cause {
        let told = CrestTold {
            touching: "The underside touches level ground already.",
            clear: "No crest reaches the underside.",
            unknown: "The underside touches on crests tighter than {}; how tight the high spots are here is not measured.",
            none: "Measured: none, there is no crest here; the underside touches on crests tighter than {}.",
            known: "A crest of {} radius takes {} from the underside's {}; it touches on crests tighter than {}.",
        };
        let before = self.underside.by(StepKind::Underside);
        let (strength, text) = self.on_crest(self.crests.underside, &self.underside, before, &told);
        Cause {
            id: "crest_underside",
            name: "Crest under the knife",
            strength,
            text,
            confirm: "A straightedge on the high spot and the gap under its end: its radius against the tightest the knife crosses.",
            cure: Cure::Adjustments(FindingId::Underside),
            judged_by: None,
        }
    }

    /// How much of what is clear on the level, the rollers sunk, a crest takes. `hanging` is what
    /// the part hangs below the cut line, negative.
    fn on_crest(
        &self,
        limit: CrestLimit,
        budget: &Budget,
        hanging: Length,
        told: &CrestTold,
    ) -> (Strength, Sentence) {
        let radius = match limit {
            CrestLimit::TouchesOnLevel => {
                return (Strength::Known(MOST), Sentence::new(told.touching, &[]));
            }
            CrestLimit::ClearsAll => {
                return (Strength::Known(0.0), Sentence::new(told.clear, &[]));
            }
            CrestLimit::Radius(radius) => radius,
        };
        let GroundShape::Crest(ground) = self.case.unit.shape else {
            let is_unknown = self.case.unit.looked_for.shape == Looked::NotYet;
            let (strength, told) = if is_unknown {
                (Strength::NotMeasured, told.unknown)
            } else {
                (Strength::Known(0.0), told.none)
            };
            return (strength, Sentence::new(told, &[Value::Radius(radius)]));
        };
        let takes = Length::ZERO - budget.by(StepKind::Crest);
        let sunk = budget.by(StepKind::HeightOfCut) + budget.by(StepKind::RollerSink);
        let before = sunk + hanging;
        let text = Sentence::new(
            told.known,
            &[
                Value::Radius(ground),
                takes.into(),
                before.into(),
                Value::Radius(radius),
            ],
        );
        (part(takes, before), text)
    }

    pub(super) fn sink(&self) -> Cause {
        let told = SinkTold {
            alike: "The rollers sink {}; on the plate the reel clears {}.",
            apart: "The front roller sinks {}, the rear one {}; on the plate the reel clears {}.",
            none: NoneTold {
                within: "Measured: none, to ± {}; on the plate the reel clears {}.",
                found_none: "Measured: none, ± not entered; on the plate the reel clears {}.",
                not_yet: "How deep the rollers sink is not measured; on the plate the reel clears {}.",
            },
        };
        let before = self.case.solution.reel_clearance;
        let named = ("sink", "Rollers sinking", FindingId::Reel);
        self.sinking(named, &told, &self.reel, before)
    }

    pub(super) fn sink_under_knife(&self) -> Cause {
        let told = SinkTold {
            alike: "The rollers sink {}; on the plate the underside clears {}.",
            apart: "The front roller sinks {}, the rear one {}; on the plate the underside clears {}.",
            none: NoneTold {
                within: "Measured: none, to ± {}; on the plate the underside clears {}.",
                found_none: "Measured: none, ± not entered; on the plate the underside clears {}.",
                not_yet: "How deep the rollers sink is not measured; on the plate the underside clears {}.",
            },
        };
        let before = self.case.solution.underside_clearance;
        let named = ("sink_underside", "Rollers sinking", FindingId::Underside);
        self.sinking(named, &told, &self.underside, before)
    }

    fn sinking(
        &self,
        (id, name, cure): (&'static str, &'static str, FindingId),
        told: &SinkTold,
        budget: &Budget,
        before: Length,
    ) -> Cause {
        let sink = self.case.unit.sink;
        let (front, rear) = (sink.of_front(), sink.of_rear());
        let takes = Length::ZERO - budget.by(StepKind::RollerSink);
        let (strength, text) = if sink.is_none() {
            let looked = self.case.unit.looked_for.sink;
            told.none.cause(looked, Some(before.into()))
        } else if front == rear {
            let text = Sentence::new(told.alike, &[front.into(), before.into()]);
            (part(takes, before), text)
        } else {
            let text = Sentence::new(told.apart, &[front.into(), rear.into(), before.into()]);
            (part(takes, before), text)
        };
        Cause {
            id,
            name,
            strength,
            text,
            confirm: "Height of the cut grass on the turf against the height of cut on the plate.",
            cure: Cure::Adjustments(cure),
            judged_by: None,
        }
    }
}
