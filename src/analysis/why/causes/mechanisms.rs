//! The mechanisms of reel, knife, rollers and speeds: how strong each is, from the unit's numbers.

use super::super::budget::Budget;
use super::super::crest::CrestLimits;
use super::cause::{Cure, JudgedBy};
use super::{Cause, Strength, circumference};
use crate::analysis::caution::{at_grinder_or_lathe, hands_on, paper_test};
use crate::analysis::findings::seen_swing;
use crate::analysis::{Case, FindingId, Side};
use crate::geometry::RollerOnPlate;
use crate::unit::Looked;
use crate::units::{Length, Measure as _, Sentence, Share, Value};

/// As strong as a cause is ever told to be.
pub(super) const MOST: f64 = 99.0;

/// Less than this is not seen in any number that is told: rounding, and no cause.
pub(super) const LEAST_TOLD: Length = Length::from_mm(0.001);

/// A part of what there is; as much as there is at most is told as one whole and more.
pub(super) fn part(of: Length, there: Length) -> Strength {
    Strength::Known(if of < LEAST_TOLD {
        0.0
    } else if there.mm() <= 0.0 {
        MOST
    } else {
        (of.mm() / there.mm()).min(MOST)
    })
}

/// How far a number is from its ideal to where it is over: zero at the ideal, one at over.
fn toward_over(value: f64, ideal: f64, over: f64) -> Strength {
    let way = over - ideal;
    Strength::Known(if way > 0.0 {
        ((value - ideal) / way).clamp(0.0, MOST)
    } else if value > over {
        MOST
    } else {
        0.0
    })
}

/// What is told of what comes to none: measured with a ±, measured, and not measured.
pub(super) struct NoneTold {
    /// Its ± stands before whatever else is told.
    pub(super) within: &'static str,
    pub(super) found_none: &'static str,
    pub(super) not_yet: &'static str,
}

impl NoneTold {
    /// The strength of a mechanism that comes to none, and what is told of it. `more` stands after the
    /// reading's ±.
    pub(super) fn cause(&self, looked: Looked, more: Option<Value>) -> (Strength, Sentence) {
        let plain = |text| match more {
            Some(more) => Sentence::new(text, &[more]),
            None => Sentence::new(text, &[]),
        };
        match looked {
            Looked::FoundNone { off: Some(off) } => {
                let text = match more {
                    Some(more) => Sentence::new(self.within, &[off.into(), more]),
                    None => Sentence::new(self.within, &[off.into()]),
                };
                (Strength::Known(0.0), text)
            }
            Looked::FoundNone { off: None } | Looked::Found => {
                (Strength::Known(0.0), plain(self.found_none))
            }
            Looked::NotYet => (Strength::NotMeasured, plain(self.not_yet)),
        }
    }
}

const NO_ENDS: NoneTold = NoneTold {
    within: "Measured: none, to ± {}: both sides cut alike.",
    found_none: "Measured: none, ± not entered: both sides cut alike.",
    not_yet: "The height-of-cut difference side to side is not measured.",
};

/// Every mechanism of one unit in one setting.
pub(super) struct Mechanisms<'a> {
    pub(super) case: &'a Case<'a>,
    pub(super) reel: Budget,
    pub(super) underside: Budget,
    pub(super) crests: CrestLimits,
}

impl<'a> Mechanisms<'a> {
    pub(super) fn of(case: &'a Case<'a>) -> Self {
        Self {
            case,
            reel: Budget::of_reel(case),
            underside: Budget::of_underside(case),
            crests: CrestLimits::of(case),
        }
    }

    pub(super) fn low_end(&self) -> Length {
        self.case.unit.wear.at_low_end()
    }

    pub(super) fn low_end_reel(&self) -> Cause {
        let before = self.case.solution.on_ground.reel_clearance;
        let told = [
            "The low side stands {} below the middle; in the middle the reel clears the ground by {}.",
            "The reel touches the ground over its whole width, {} deep in the middle: that would not leave a strip.",
        ];
        let (strength, text) = self.of_low_end(before, told);
        Cause {
            id: "low_end_reel",
            name: "Reel at the low side",
            strength,
            text,
            confirm: "On the plate, engine off, key out, reel blocked, gloves on: height of cut at both ends; the scuffed side should be the lower one.",
            cure: Cure::Adjustments(FindingId::LowEnd),
            judged_by: None,
        }
    }

    pub(super) fn low_end_underside(&self) -> Cause {
        let before = self.case.solution.on_ground.underside_clearance;
        let told = [
            "The low side stands {} below the middle; in the middle the underside clears the ground by {}.",
            "The underside touches the ground over its whole width, {} deep in the middle: that would not leave a strip.",
        ];
        let (strength, text) = self.of_low_end(before, told);
        Cause {
            id: "low_end_underside",
            name: "Underside at the low side",
            strength,
            text,
            confirm: "On the plate, engine off, key out, reel blocked, gloves on: a taper gauge or slips under the knife at both ends. Look for polish under the low side with the unit tipped only when blocked and supported.",
            cure: Cure::Adjustments(FindingId::LowEndUnderside),
            judged_by: None,
        }
    }

    /// How much of what is clear in the middle the low end takes. What touches in the middle
    /// touches everywhere, which is no strip at one end.
    fn of_low_end(
        &self,
        before: Length,
        [clear, touching]: [&'static str; 2],
    ) -> (Strength, Sentence) {
        match self.low_end() {
            low if low.mm() <= 0.0 => self.no_ends(),
            _ if before.mm() <= 0.0 => {
                let text = Sentence::new(touching, &[(-before).into()]);
                (Strength::Known(0.0), text)
            }
            low => {
                let text = Sentence::new(clear, &[low.into(), before.into()]);
                (part(low, before), text)
            }
        }
    }

    fn no_ends(&self) -> (Strength, Sentence) {
        NO_ENDS.cause(self.case.unit.looked_for.end_difference, None)
    }

    /// The same sweep over a lower cut: what it is more of it there than in the middle.
    pub(super) fn deep_end(&self) -> Cause {
        let solution = self.case.solution;
        let middle = solution.pose.height_of_cut;
        let height = middle - self.low_end();
        let sweep = solution.sweep.below_cut;
        let limit = self.case.unit.limits.sweep_over.of_one();
        let share = |height: Length| Share::from_base(sweep.mm() / height.mm());
        let is_known = self.low_end().mm() > 0.0 && height.mm() > 0.0 && sweep.mm() > 0.0;
        let (strength, text) = if is_known {
            let more = share(height) - share(middle);
            let text = Sentence::new(
                "At the low side the cut is {}: the same sweep of {} is {} of it, in the middle {}.",
                &[
                    height.into(),
                    sweep.into(),
                    share(height).into(),
                    share(middle).into(),
                ],
            );
            (
                part(Length::from_mm(more.of_one()), Length::from_mm(limit)),
                text,
            )
        } else if self.low_end().mm() > 0.0 && height.mm() <= 0.0 {
            let text = Sentence::new("At the low side the edge stands in the ground.", &[]);
            (Strength::Known(MOST), text)
        } else if self.low_end().mm() > 0.0 {
            let text = Sentence::new("The reel does not sweep below the cut line.", &[]);
            (Strength::Known(0.0), text)
        } else {
            self.no_ends()
        };
        Cause {
            id: "low_end_sweep",
            name: "Sweep at the low side",
            strength,
            text,
            confirm: "On the plate, engine off, key out, reel blocked, gloves on: height of cut at both ends. On the turf: height of the grass in the strip and beside it.",
            cure: Cure::Other(
                "Set both ends to the same height of cut by the rollers: engine off, key out, reel drive disconnected, unit and reel blocked, gloves on.",
            ),
            judged_by: None,
        }
    }

    pub(super) fn clip_length(&self) -> Cause {
        let limits = &self.case.unit.limits;
        let confirm =
            "Rib to rib on the turf is the clip length; count the ribs over a yard or a metre.";
        let (id, name) = ("clip_length", "Clip length");
        let known = self.case.solution.mowing.and_then(|mowing| {
            let ratio = mowing.clip_to_cut?;
            // A clip as long as the cut is high is the ideal (common practice, no source).
            let strength = toward_over(ratio.number(), 1.0, limits.clip_over.number());
            let text = Sentence::new(
                "The reel clips every {}, {} times the height of cut (watch above {}, over limit above {}).",
                &[
                    mowing.clip_length.into(),
                    ratio.into(),
                    limits.clip_watch.into(),
                    limits.clip_over.into(),
                ],
            )
            .judging(1);
            Some((strength, text))
        });
        let (strength, text) = known.unwrap_or_else(|| {
            let text = Sentence::new("Ground speed and reel speed are not known.", &[]);
            (Strength::NotMeasured, text)
        });
        Cause {
            id,
            name,
            strength,
            text,
            confirm,
            cure: Cure::Adjustments(FindingId::Clip),
            judged_by: JudgedBy::on_side(self.case, FindingId::Clip, Side::AtMost),
        }
    }

    pub(super) fn sweep(&self) -> Cause {
        let solution = self.case.solution;
        let limit = self.case.unit.limits.sweep_over;
        let strength = solution.sweep_share.map_or(Strength::Known(MOST), |share| {
            toward_over(share.of_one(), 0.0, limit.of_one())
        });
        let text = if let Some(share) = solution.sweep_share {
            Sentence::new(
                "Every blade sweeps {} below the cut line, {} of the height of cut (watch above {}, over limit above {}).",
                &[
                    solution.sweep.below_cut.into(),
                    share.into(),
                    self.case.unit.limits.sweep_watch.into(),
                    limit.into(),
                ],
            )
            .judging(1)
        } else {
            Sentence::new("The edge is not above the plate.", &[])
        };
        Cause {
            id: "sweep",
            name: "Sweep",
            strength,
            text,
            confirm: "On the plate, engine off, key out, reel blocked, gloves on: behind centre, or the rise from the reel's lowest point to the edge.",
            cure: Cure::Adjustments(FindingId::Sweep),
            judged_by: Some(JudgedBy::whole(FindingId::Sweep)),
        }
    }

    /// A roller that runs out swings the edge by the share of its lever: the edge stands between
    /// the rollers.
    fn runout(
        &self,
        (id, name): (&'static str, &'static str),
        (reading, looked): (Length, Looked),
        (roller, other): (&RollerOnPlate, &RollerOnPlate),
    ) -> Cause {
        let pose = &self.case.solution.pose;
        let from_other = |x: f64| (x - other.centre.x).abs();
        let lever = from_other(pose.edge_on_plate.x) / from_other(roller.centre.x);
        let swing = reading * lever;
        let seen = seen_swing(pose.height_of_cut);
        let pitch = circumference(roller.radius_mm);
        let (strength, text) = if reading.mm() > 0.0 {
            let text = Sentence::new(
                "It runs out by {}, which swings the edge by {} over a turn (it shows from about {}); the mark would come back every {}.",
                &[reading.into(), swing.into(), seen.into(), pitch.into()],
            );
            (part(swing, seen), text)
        } else {
            let told = NoneTold {
                within: "Measured: none, to ± {}; its mark would come back every {}.",
                found_none: "Measured: none, ± not entered; its mark would come back every {}.",
                not_yet: "The roller's runout is not measured; its mark would come back every {}.",
            };
            told.cause(looked, Some(pitch.into()))
        };
        Cause {
            id,
            name,
            strength,
            text,
            confirm: "Mark to mark on the turf against the roller's circumference; a dial gauge on the roller turned by hand: engine off, key out, reel drive disconnected, unit and reel blocked, gloves on.",
            cure: Cure::Other(concat!(
                "Clean the roller, then check its bearings, then true or replace it: ",
                hands_on!(),
                ". ",
                at_grinder_or_lathe!()
            )),
            // From there on the finding, which counts both rollers, tells of it too.
            judged_by: (reading.mm() > 0.0 && swing > seen)
                .then_some(JudgedBy::whole(FindingId::RunoutSwing)),
        }
    }

    pub(super) fn front_runout(&self) -> Cause {
        let unit = self.case.unit;
        let reading = (unit.wear.front_runout, unit.looked_for.front_runout);
        let pose = &self.case.solution.pose;
        let rollers = (&pose.front_roller, &pose.rear_roller);
        self.runout(("front_runout", "Front roller runout"), reading, rollers)
    }

    pub(super) fn rear_runout(&self) -> Cause {
        let unit = self.case.unit;
        let reading = (unit.wear.rear_runout, unit.looked_for.rear_runout);
        let pose = &self.case.solution.pose;
        let rollers = (&pose.rear_roller, &pose.front_roller);
        self.runout(("rear_runout", "Rear roller runout"), reading, rollers)
    }

    pub(super) fn gap(&self) -> Cause {
        let gap = self.case.setting.gap;
        let most = self.case.unit.limits.gap_over;
        let watch = self.case.unit.limits.gap_watch;
        let text = Sentence::new(
            "The gap between reel and knife is {} (watch above {}, over limit above {}).",
            &[gap.into(), Value::Limit(watch), Value::Limit(most)],
        )
        .judging(0);
        Cause {
            id: "gap",
            name: "Reel-to-knife gap",
            strength: part(gap, most),
            text,
            confirm: concat!(
                "Engine off, key out, reel blocked, gloves on: feeler gauge between blade and knife along the whole length. Then the paper test: ",
                paper_test!(),
                "."
            ),
            cure: Cure::Other(concat!(
                "Reel-to-knife adjustment to light contact: engine off, key out, reel drive disconnected, reel blocked, gloves on. Then the paper test along the whole knife: ",
                paper_test!(),
                "."
            )),
            judged_by: Some(JudgedBy::whole(FindingId::Gap)),
        }
    }

    pub(super) fn ahead(&self) -> Cause {
        let behind = self.case.solution.sweep.behind_centre;
        let most = self.case.unit.limits.ahead_of_centre;
        let text = if behind.mm() < 0.0 {
            Sentence::new(
                "The edge stands {} ahead of centre (limit {}): the blades are still coming down on it.",
                &[(-behind).into(), Value::Limit(most)],
            )
        } else {
            Sentence::new("The edge stands {} behind centre.", &[behind.into()])
        };
        Cause {
            id: "ahead",
            name: "Edge ahead of centre",
            strength: part(Length::ZERO - behind, most),
            text,
            confirm: "On the plate, engine off, key out, reel blocked, gloves on: a square up to the reel's centre and one up to the edge.",
            cure: Cure::Adjustments(FindingId::Ahead),
            // Behind centre, the least that somebody wants is no part of this.
            judged_by: JudgedBy::from_below(self.case, FindingId::Ahead, 0.0),
        }
    }

    pub(super) fn underside(&self) -> Cause {
        let clearance = self.case.solution.on_ground.underside_clearance;
        let least = self.case.unit.limits.underside;
        let attitude = self.case.solution.pose.attitude;
        let text = if clearance.mm() <= 0.0 {
            Sentence::new(
                "At an attitude of {} the underside reaches {} into the ground.",
                &[attitude.into(), (-clearance).into()],
            )
        } else {
            Sentence::new(
                "At an attitude of {} the underside clears the ground by {} (minimum {}).",
                &[attitude.into(), clearance.into(), Value::Limit(least)],
            )
        };
        // Twice the limit is clear enough; in the ground it is over.
        let ideal = 2.0 * least.mm();
        let strength = if clearance.mm() <= 0.0 {
            Strength::Known(MOST)
        } else {
            toward_over(-clearance.mm(), -ideal, 0.0)
        };
        Cause {
            id: "underside",
            name: "Underside too low",
            strength,
            text,
            confirm: "On the plate, engine off, key out, reel blocked, gloves on: a taper gauge or slips under the back of the knife and its screws. Look for polish there with the unit tipped only when blocked and supported.",
            cure: Cure::Adjustments(FindingId::Underside),
            judged_by: Some(JudgedBy::whole(FindingId::Underside)),
        }
    }

    /// Whether edges cut at all is no matter of this geometry, and the first thing to look at.
    pub(super) fn edges(&self) -> Cause {
        let text = Sentence::new(
            "Sharp edges, relief and even contact are not measured here (gap {}).",
            &[self.case.setting.gap.into()],
        );
        Cause {
            id: "edges",
            name: "Edges and contact",
            strength: Strength::NotMeasured,
            text,
            confirm: concat!("Paper test along the whole knife: ", paper_test!(), "."),
            cure: Cure::Other(
                "Grind or lap reel and knife as the machine's manual says, by a qualified technician, guards on the grinder, eye, hearing and dust protection, gloves only as the grinder's manual says; then adjust reel to knife again, reel blocked, gloves on. Powered lapping turns the reel: brush with a long handle, hands, clothes and bystanders clear, guards as the manual says, no gloves near the turning reel.",
            ),
            judged_by: None,
        }
    }

    /// What one end cuts lower than the other, which shows beside the next unit.
    pub(super) fn ends(&self) -> Cause {
        let difference = self.low_end() * 2.0;
        let seen = seen_swing(self.case.solution.pose.height_of_cut);
        let (strength, text) = if difference.mm() > 0.0 {
            let text = Sentence::new(
                "One side cuts {} lower than the other (it shows from about {}).",
                &[difference.into(), seen.into()],
            );
            (part(difference, seen), text)
        } else {
            self.no_ends()
        };
        Cause {
            id: "ends",
            name: "Height-of-cut difference side to side",
            strength,
            text,
            confirm: "On the plate, engine off, key out, reel blocked, gloves on: height of cut at both ends of this unit and of its neighbours.",
            cure: Cure::Other(
                "Set both ends of every unit to the same height of cut by the rollers: engine off, key out, reel drive disconnected, unit and reel blocked, gloves on.",
            ),
            judged_by: None,
        }
    }
}
