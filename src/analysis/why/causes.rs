//! Which of a unit's mechanisms can make a mark, and how strong each is now.

use std::f64::consts::PI;

use super::budget::{Budget, StepKind};
use super::crest::{CrestLimit, CrestLimits};
use crate::analysis::Case;
use crate::geometry::Shape;
use crate::units::{Length, Measure as _, Sentence, Share, Value};

/// Gap past which leaves bend over instead of being cut: two thou (common practice, no source).
const MOST_GAP_MM: f64 = 0.0508;
/// Swing of the cut over a roller's turn that the eye sees, as a share of the height of cut
/// (common practice, no source).
const SEEN_SHARE: f64 = 0.05;

/// What is wrong with the turf.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Complaint {
    /// A strip along one end of the unit is scuffed.
    StripAtOneEnd,
    /// Ribs stand across the travel.
    Ribs,
    /// The crowns of the ground are scalped.
    ScalpedCrowns,
    /// Leaves are torn.
    Tearing,
    /// The knife rides on the turf.
    KnifeRiding,
    /// A streak comes back with every turn of a roller.
    StreakPerTurn,
}

impl Complaint {
    /// Every complaint, in the order they are offered.
    pub const ALL: [Self; 6] = [
        Self::StripAtOneEnd,
        Self::Ribs,
        Self::ScalpedCrowns,
        Self::Tearing,
        Self::KnifeRiding,
        Self::StreakPerTurn,
    ];

    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::StripAtOneEnd => "strip_at_one_end",
            Self::Ribs => "ribs",
            Self::ScalpedCrowns => "scalped_crowns",
            Self::Tearing => "tearing",
            Self::KnifeRiding => "knife_riding",
            Self::StreakPerTurn => "streak_per_turn",
        }
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::StripAtOneEnd => "Scuffed strip at one end",
            Self::Ribs => "Ribs across the travel",
            Self::ScalpedCrowns => "Scalped crowns",
            Self::Tearing => "Torn leaves",
            Self::KnifeRiding => "Knife riding on the turf",
            Self::StreakPerTurn => "A streak per roller turn",
        }
    }

    /// What lies outside this geometry and makes the same mark.
    #[must_use]
    pub const fn outside(self) -> &'static str {
        match self {
            Self::StripAtOneEnd => {
                "Also look at what plane geometry does not know: a bent frame, a down-pressure spring, a reel ground to a cone."
            }
            Self::Ribs => {
                "Also look at what plane geometry does not know: a bouncing unit, a worn bearing, a belt that slips."
            }
            Self::ScalpedCrowns => {
                "Also look at what plane geometry does not know: soft or thatchy ground, a turn on a slope, a unit that cannot float."
            }
            Self::Tearing => {
                "Also look at what plane geometry does not know: a dull edge, a rounded blade, contact that is not even along the knife. Cut paper along its whole length, reel blocked between cuts."
            }
            Self::KnifeRiding => {
                "Also look at what plane geometry does not know: thatch, clippings packed under the bar, a bar that bends."
            }
            Self::StreakPerTurn => {
                "Also look at what plane geometry does not know: clippings caked on a roller, a dent, a loose bearing."
            }
        }
    }
}

/// How strong a mechanism is now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Strength {
    /// As a part of what it takes to make the mark: one and more makes it.
    Known(f64),
    /// A reading is missing.
    NotMeasured,
}

impl Strength {
    /// From here on a mechanism has a part in the mark.
    const PART: f64 = 0.5;

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::NotMeasured => "not measured",
            Self::Known(strength) if strength >= 1.0 => "can make this mark",
            Self::Known(strength) if strength >= Self::PART => "has a part",
            Self::Known(strength) if strength > 0.0 => "weak",
            Self::Known(_) => "no part",
        }
    }

    /// Whether it makes the mark by itself.
    #[must_use]
    pub fn makes_it(self) -> bool {
        matches!(self, Self::Known(strength) if strength >= 1.0)
    }

    /// Whether it has a part in the mark.
    #[must_use]
    pub fn has_part(self) -> bool {
        matches!(self, Self::Known(strength) if strength >= Self::PART)
    }

    /// For ranking: what was not measured stands between what has a part and what is weak.
    fn rank(self) -> f64 {
        match self {
            Self::Known(strength) => strength,
            Self::NotMeasured => Self::PART - 1e-6,
        }
    }
}

/// A mechanism that can make a mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// Its name for programs; never changes.
    pub id: &'static str,
    /// Its name.
    pub name: &'static str,
    /// How strong it is.
    pub strength: Strength,
    /// The numbers.
    pub text: Sentence,
    /// The measurement that would confirm it.
    pub confirm: &'static str,
}

/// The mechanisms that can make a mark, the strongest first.
#[must_use]
pub fn causes(case: &Case, complaint: Complaint) -> Vec<Cause> {
    let of = Mechanisms::of(case);
    let mut causes = match complaint {
        Complaint::StripAtOneEnd => vec![of.low_end_reel(), of.low_end_underside(), of.deep_end()],
        Complaint::Ribs => vec![
            of.clip_length(),
            of.sweep(),
            of.front_runout(),
            of.rear_runout(),
        ],
        Complaint::ScalpedCrowns => vec![of.crest(), of.sink(), of.sweep(), of.low_end_reel()],
        Complaint::Tearing => vec![of.gap(), of.ahead(), of.clip_length(), of.sweep()],
        Complaint::KnifeRiding => vec![
            of.underside(),
            of.sink_under_knife(),
            of.crest_under_knife(),
            of.low_end_underside(),
        ],
        Complaint::StreakPerTurn => vec![of.front_runout(), of.rear_runout()],
    };
    causes.sort_by(|a, b| b.strength.rank().total_cmp(&a.strength.rank()));
    causes
}

/// The distances at which marks come back: by clip, by turn of the reel, by turn of each roller.
#[must_use]
pub fn pitches(case: &Case) -> Vec<(&'static str, Length)> {
    let pose = &case.solution.pose;
    let clip = case.solution.mowing.map(|mowing| mowing.clip_length);
    let by_reel = clip.into_iter().flat_map(|clip| {
        [
            ("every clip", clip),
            ("every turn of the reel", clip * f64::from(case.unit.blades)),
        ]
    });
    by_reel
        .chain([
            (
                "every turn of the front roller",
                circumference(pose.front_roller.radius_mm),
            ),
            (
                "every turn of the rear roller",
                circumference(pose.rear_roller.radius_mm),
            ),
        ])
        .collect()
}

fn circumference(radius_mm: f64) -> Length {
    Length::from_mm(2.0 * PI * radius_mm)
}

/// A part of what there is; as much as there is at most is told as one whole and more.
fn part(of: Length, there: Length) -> Strength {
    const MOST: f64 = 99.0;
    Strength::Known(if of.mm() <= 0.0 {
        0.0
    } else if there.mm() <= 0.0 {
        MOST
    } else {
        (of.mm() / there.mm()).min(MOST)
    })
}

struct Mechanisms<'a> {
    case: &'a Case<'a>,
    reel: Budget,
    underside: Budget,
    crests: CrestLimits,
}

impl<'a> Mechanisms<'a> {
    fn of(case: &'a Case<'a>) -> Self {
        Self {
            case,
            reel: Budget::of_reel(case),
            underside: Budget::of_underside(case),
            crests: CrestLimits::of(case),
        }
    }

    fn low_end(&self) -> Length {
        self.case.unit.wear.at_low_end()
    }

    fn low_end_reel(&self) -> Cause {
        let before = self.case.solution.on_ground.reel_clearance;
        let text = Sentence::new(
            "The low end stands {} below the middle; in the middle the reel clears the ground by {}.",
            &[self.low_end().into(), before.into()],
        );
        Cause {
            id: "low_end_reel",
            name: "Reel at the low end",
            strength: self.of_ends(part(self.low_end(), before)),
            text,
            confirm: "On the plate, reel blocked: height of cut at both ends; the scuffed end should be the lower one.",
        }
    }

    fn low_end_underside(&self) -> Cause {
        let before = self.case.solution.on_ground.underside_clearance;
        let text = Sentence::new(
            "The low end stands {} below the middle; in the middle the underside clears the ground by {}.",
            &[self.low_end().into(), before.into()],
        );
        Cause {
            id: "low_end_underside",
            name: "Underside at the low end",
            strength: self.of_ends(part(self.low_end(), before)),
            text,
            confirm: "On the plate: feeler gauge under the knife at both ends; look for polish under the low end.",
        }
    }

    /// The same sweep over a lower cut.
    fn deep_end(&self) -> Cause {
        let solution = self.case.solution;
        let height = solution.pose.height_of_cut - self.low_end();
        let sweep = solution.sweep.below_cut;
        let limit = self.case.unit.limits.sweep_watch.of_one();
        let strength = part(sweep, height * limit);
        let text = Sentence::new(
            "At the low end the cut is {}, and the same sweep of {} is more of it.",
            &[height.into(), sweep.into()],
        );
        // Without a difference both ends sweep alike, which is no strip at one end.
        let strength = if self.low_end().mm() > 0.0 {
            strength
        } else {
            Strength::NotMeasured
        };
        Cause {
            id: "low_end_sweep",
            name: "Sweep at the low end",
            strength,
            text,
            confirm: "On the plate: height of cut at both ends; on the turf: height of the grass in the strip and beside it.",
        }
    }

    fn of_ends(&self, strength: Strength) -> Strength {
        if self.low_end().mm() > 0.0 {
            strength
        } else {
            Strength::NotMeasured
        }
    }

    fn clip_length(&self) -> Cause {
        let limits = &self.case.unit.limits;
        let confirm =
            "From rib to rib on the turf is the clip length; count ribs over a yard or a metre.";
        let (id, name) = ("clip_length", "Clip length");
        let known = self.case.solution.mowing.and_then(|mowing| {
            let ratio = mowing.clip_to_cut?;
            let strength = ratio.number() / limits.clip_watch.number();
            let text = Sentence::new(
                "The reel clips every {}, {} times the height of cut (watch above {}).",
                &[
                    mowing.clip_length.into(),
                    ratio.into(),
                    limits.clip_watch.into(),
                ],
            );
            Some((Strength::Known(strength), text))
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
        }
    }

    fn sweep(&self) -> Cause {
        let solution = self.case.solution;
        let limit = self.case.unit.limits.sweep_watch;
        let share = solution
            .sweep_share
            .unwrap_or(Share::from_base(f64::INFINITY));
        let strength = if limit.of_one() > 0.0 {
            (share.of_one() / limit.of_one()).clamp(0.0, 99.0)
        } else if share.of_one() > 0.0 {
            99.0
        } else {
            0.0
        };
        let text = if let Some(share) = solution.sweep_share {
            Sentence::new(
                "Every blade sweeps {} below the cut line, {} of the height of cut (watch above {}).",
                &[solution.sweep.below_cut.into(), share.into(), limit.into()],
            )
        } else {
            Sentence::new("The edge is not above the plate.", &[])
        };
        Cause {
            id: "sweep",
            name: "Sweep below the cut",
            strength: Strength::Known(strength),
            text,
            confirm: "On the plate, reel blocked: behind centre, or the rise from the reel's lowest point to the edge.",
        }
    }

    fn runout(
        &self,
        (id, name): (&'static str, &'static str),
        reading: Length,
        radius_mm: f64,
    ) -> Cause {
        let height = self.case.solution.pose.height_of_cut;
        let seen = height * SEEN_SHARE;
        let text = Sentence::new(
            "It runs out by {} over a turn (seen from about {} on); the mark would come back every {}.",
            &[reading.into(), seen.into(), circumference(radius_mm).into()],
        );
        let strength = if reading.mm() > 0.0 {
            part(reading, seen)
        } else {
            Strength::NotMeasured
        };
        Cause {
            id,
            name,
            strength,
            text,
            confirm: "From mark to mark on the turf, against the roller's circumference; a dial gauge on the roller, unit blocked.",
        }
    }

    fn front_runout(&self) -> Cause {
        let reading = self.case.unit.wear.front_runout;
        let radius_mm = self.case.solution.pose.front_roller.radius_mm;
        self.runout(("front_runout", "Front roller runout"), reading, radius_mm)
    }

    fn rear_runout(&self) -> Cause {
        let reading = self.case.unit.wear.rear_runout;
        let radius_mm = self.case.solution.pose.rear_roller.radius_mm;
        self.runout(("rear_runout", "Rear roller runout"), reading, radius_mm)
    }

    fn crest(&self) -> Cause {
        let (strength, text) = self.on_crest(self.crests.reel, &self.reel, "reel");
        Cause {
            id: "crest",
            name: "Crest under the reel",
            strength,
            text,
            confirm: "A straightedge on the scalped crown and the gap under its end: its radius against the tightest the reel crosses.",
        }
    }

    fn crest_under_knife(&self) -> Cause {
        let (strength, text) = self.on_crest(self.crests.underside, &self.underside, "knife");
        Cause {
            id: "crest_underside",
            name: "Crest under the knife",
            strength,
            text,
            confirm: "A straightedge on the crown and the gap under its end: its radius against the tightest the knife crosses.",
        }
    }

    fn on_crest(
        &self,
        limit: CrestLimit,
        budget: &Budget,
        part_named: &str,
    ) -> (Strength, Sentence) {
        let is_reel = part_named == "reel";
        let takes = Length::ZERO - budget.by(StepKind::Crest);
        let radius = match limit {
            CrestLimit::TouchesOnLevel => {
                let text = if is_reel {
                    Sentence::new("The reel touches the ground on the level already.", &[])
                } else {
                    Sentence::new(
                        "The underside touches the ground on the level already.",
                        &[],
                    )
                };
                return (Strength::Known(99.0), text);
            }
            CrestLimit::ClearsAll => {
                let text = if is_reel {
                    Sentence::new("No crest reaches the reel.", &[])
                } else {
                    Sentence::new("No crest reaches the underside.", &[])
                };
                return (Strength::Known(0.0), text);
            }
            CrestLimit::Radius(radius) => radius,
        };
        let Shape::Crest(ground) = self.case.unit.shape else {
            let text = if is_reel {
                Sentence::new(
                    "The reel touches on crests tighter than {}; how tight the crowns are here is not entered.",
                    &[Value::Radius(radius)],
                )
            } else {
                Sentence::new(
                    "The underside touches on crests tighter than {}; how tight the crowns are here is not entered.",
                    &[Value::Radius(radius)],
                )
            };
            return (Strength::NotMeasured, text);
        };
        let hanging = budget.steps[5].by;
        let before = budget.steps[1].left + hanging;
        let text = if is_reel {
            Sentence::new(
                "A crest of {} takes {} from the reel's {}; it touches on crests tighter than {}.",
                &[
                    Value::Radius(ground),
                    takes.into(),
                    before.into(),
                    Value::Radius(radius),
                ],
            )
        } else {
            Sentence::new(
                "A crest of {} takes {} from the underside's {}; it touches on crests tighter than {}.",
                &[
                    Value::Radius(ground),
                    takes.into(),
                    before.into(),
                    Value::Radius(radius),
                ],
            )
        };
        (part(takes, before), text)
    }

    fn sink(&self) -> Cause {
        let sink = self.case.unit.roller_sink;
        let before = self.case.solution.reel_clearance;
        let text = Sentence::new(
            "The rollers sink {}; on the plate the reel clears {}.",
            &[sink.into(), before.into()],
        );
        self.sinking("sink", "Rollers sinking", text, before)
    }

    fn sink_under_knife(&self) -> Cause {
        let sink = self.case.unit.roller_sink;
        let before = self.case.solution.underside_clearance;
        let text = Sentence::new(
            "The rollers sink {}; on the plate the underside clears {}.",
            &[sink.into(), before.into()],
        );
        self.sinking("sink_underside", "Rollers sinking", text, before)
    }

    fn sinking(
        &self,
        id: &'static str,
        name: &'static str,
        text: Sentence,
        before: Length,
    ) -> Cause {
        let sink = self.case.unit.roller_sink;
        Cause {
            id,
            name,
            strength: if sink.mm() > 0.0 {
                part(sink, before)
            } else {
                Strength::NotMeasured
            },
            text,
            confirm: "Height of the cut grass on the turf against the height of cut on the plate.",
        }
    }

    fn gap(&self) -> Cause {
        let gap = self.case.setting.gap;
        let most = Length::from_mm(MOST_GAP_MM);
        let text = Sentence::new(
            "The gap between reel and knife is {} (leaves bend over from about {} on).",
            &[gap.into(), most.into()],
        );
        Cause {
            id: "gap",
            name: "Gap between reel and knife",
            strength: part(gap, most),
            text,
            confirm: "Reel blocked, gloves on: feeler gauge between blade and knife along the whole length, then cut paper.",
        }
    }

    fn ahead(&self) -> Cause {
        let behind = self.case.solution.sweep.behind_centre;
        let most = self.case.unit.limits.ahead_of_centre;
        let text = if behind.mm() < 0.0 {
            Sentence::new(
                "The edge stands {} ahead of centre (over beyond {}): the blades are still coming down on it.",
                &[(-behind).into(), most.into()],
            )
        } else {
            Sentence::new("The edge stands {} behind centre.", &[behind.into()])
        };
        Cause {
            id: "ahead",
            name: "Edge ahead of centre",
            strength: part(Length::ZERO - behind, most),
            text,
            confirm: "On the plate, reel blocked: a square to the reel's centre and one to the edge.",
        }
    }

    fn underside(&self) -> Cause {
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
                "At an attitude of {} the underside clears the ground by {} (at least {} wanted).",
                &[attitude.into(), clearance.into(), least.into()],
            )
        };
        let strength = if clearance.mm() <= 0.0 {
            Strength::Known(99.0)
        } else {
            part(least, clearance)
        };
        Cause {
            id: "underside",
            name: "Underside too low",
            strength,
            text,
            confirm: "On the plate: feeler gauge under the back of the knife and its screws; look for polish there.",
        }
    }
}

impl Cause {
    /// Its strength in percent of what makes the mark; nothing where a reading is missing.
    #[must_use]
    pub fn share(&self) -> Option<Share> {
        match self.strength {
            Strength::Known(strength) => Some(Share::from_base(strength)),
            Strength::NotMeasured => None,
        }
    }
}
