//! What a set unit is accepted by when it is read again on the surface plate: the readings at which every
//! finding they move is OK, by more than its number can be off.

use super::dial::{Dial, Scale};
use super::search::{ALL_COUNT, Stretch, Values, runs, stretches};
use super::{Case, FindingId, Findings, Level, NumberId, Solution, Solved, Uncertainty};
use crate::geometry::Setting;
use crate::unit::Follows;
use crate::units::{Length, System, Value};

/// Cells that the range of a reading is cut into.
const CELLS: u32 = 25;
/// A number that moves by less than this along a whole range stays.
const SAME: f64 = 1e-9;
/// Where in its range a reading is tried for what it moves.
const TRIED_AT: [f64; 4] = [0.1, 0.37, 0.71, 0.9];
/// Stands for a margin without end, so that a search can reckon with it.
const FAR: f64 = 1e6;
/// Inside the limits, where no one number decides a finding.
const INSIDE: f64 = 1.0;

/// The findings that tell how far behind centre the edge may stand.
const OF_BEHIND_CENTRE: [FindingId; 2] = [FindingId::Sweep, FindingId::Ahead];

/// From where to where a reading is accepted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accepted {
    /// The least; none where no unit stands so.
    pub least: Option<Value>,
    /// The most; none where no unit stands so.
    pub most: Option<Value>,
}

impl Accepted {
    /// The ends as they are read: rounded inwards, so that what reads as an end is accepted. None where no
    /// reading lies between them.
    #[must_use]
    pub fn as_read_in(self, system: System) -> Option<Self> {
        let inwards = |end: Value, is_least: bool| {
            let read = end.as_read_in(system);
            let is_outside = if is_least {
                read.base() < end.base()
            } else {
                read.base() > end.base()
            };
            if is_outside {
                read.next_read_in(system, is_least)
            } else {
                read
            }
        };
        let least = self.least.map(|end| inwards(end, true));
        let most = self.most.map(|end| inwards(end, false));
        let is_empty = least
            .zip(most)
            .is_some_and(|(least, most)| least.base() > most.base());
        (!is_empty).then_some(Self { least, most })
    }
}

/// A reading, and what it is accepted by.
#[derive(Clone, Debug, PartialEq)]
pub enum Acceptable {
    /// It is as set, and so from here to there.
    Between(Accepted),
    /// It is not as set, for the sake of these findings; from where to where it would be.
    Not {
        /// What is not OK, or undecided, as set.
        findings: Vec<FindingId>,
        /// Where all would be OK; empty where nowhere.
        elsewhere: Vec<Accepted>,
    },
}

/// What the readings of a unit that is set are accepted by.
#[derive(Clone, Debug, PartialEq)]
pub struct Acceptance {
    /// The height of cut, attitude kept.
    pub height_of_cut: Acceptable,
    /// The attitude, height of cut kept.
    pub attitude: Acceptable,
    /// How far the edge stands behind centre, by the sweep and by the reel's centre.
    pub behind_centre: Acceptable,
    /// The gap at most.
    pub gap_most: Length,
}

impl Acceptance {
    /// What a solved unit is accepted by, as it is set; none where a finding reads over its limit: that
    /// unit is not to be set or run.
    #[must_use]
    pub fn of(solved: &Solved) -> Option<Self> {
        if solved.findings.worst() == Level::Over {
            return None;
        }
        let along = |scale| Along {
            solved,
            dial: Dial {
                case: solved.case(),
                scale,
            },
        };
        let (height, attitude) = (along(Scale::HeightOfCut), along(Scale::Attitude));
        let every = FindingId::ALL;
        Some(Self {
            height_of_cut: height.acceptable(&every, |at| Some(height.dial.value(at))),
            attitude: attitude.acceptable(&every, |at| Some(attitude.dial.value(at))),
            behind_centre: attitude.acceptable(&OF_BEHIND_CENTRE, |at| {
                let solution = Solution::of(&solved.unit, &attitude.dial.setting(at)).ok()?;
                Some(solution.sweep.behind_centre.into())
            }),
            gap_most: solved.unit.limits.gap_watch,
        })
    }
}

/// A reading that is changed by itself.
struct Along<'a> {
    solved: &'a Solved,
    dial: Dial<'a>,
}

impl Along<'_> {
    /// The unit with the reading at a place.
    fn at<T>(&self, at: f64, told: impl FnOnce(&Case) -> T) -> Option<T> {
        let (unit, setting) = (&self.solved.unit, self.dial.setting(at));
        let solution = Solution::of(unit, &setting).ok()?;
        Some(told(&Case {
            unit,
            setting: &setting,
            solution: &solution,
        }))
    }

    /// Those of some findings that the reading moves.
    fn moved(&self, among: &[FindingId]) -> Vec<FindingId> {
        let (low, high) = self.dial.range();
        let of = |at: f64| {
            self.at(at, |case| {
                let judged = |id: &FindingId| Findings::judged(case, *id).map(|it| it.value.base());
                let levels = Findings::about(case);
                among
                    .iter()
                    .map(|id| (judged(id), levels.level_of(*id)))
                    .collect::<Vec<_>>()
            })
        };
        let now = of(self.dial.now()).unwrap_or_default();
        let then: Vec<_> = TRIED_AT
            .into_iter()
            .filter_map(|part| of(low + part * (high - low)))
            .collect();
        let is_moved = |index: usize| {
            then.iter().any(|then| match (now[index], then[index]) {
                ((Some(now), _), (Some(then), _)) => (now - then).abs() > SAME,
                ((_, now), (_, then)) => now != then,
            })
        };
        (0..now.len())
            .filter(|index| is_moved(*index))
            .map(|index| among[index])
            .collect()
    }

    /// By how much each of some findings is OK beyond what its number can be off.
    fn margins(&self, at: f64, findings: &[FindingId]) -> Values {
        let setting = self.dial.setting(at);
        let off = self.off(&setting);
        self.at(at, |case| {
            let levels = Findings::about(case);
            let margin = |id: &FindingId| {
                let level = levels.level_of(*id).unwrap_or(Level::Fine);
                match Findings::judged(case, *id).zip(id.number()) {
                    Some((judged, number)) => (judged.margin() - off(number)).clamp(-FAR, FAR),
                    None if level == Level::Fine => INSIDE,
                    None => -INSIDE,
                }
            };
            findings.iter().map(margin).collect()
        })
    }

    /// How far a number can be off, whether the reading is the bench's own or set.
    fn off(&self, setting: &Setting) -> impl Fn(NumberId) -> f64 {
        let unit = &self.solved.unit;
        let follows = unit.follows;
        let set = match self.dial.scale {
            Scale::HeightOfCut => Follows {
                height_of_cut: false,
                ..follows
            },
            _ => Follows {
                attitude: false,
                ..follows
            },
        };
        let both = [follows, set].map(|follows| Uncertainty::of(unit, setting, follows));
        move |number| {
            let [one, other] = both.each_ref().map(|both| both.in_doubt_within(number));
            one.max(other)
        }
    }

    /// From where to where the findings that the reading moves are OK, told as `value` has a place of
    /// the reading.
    fn acceptable(&self, among: &[FindingId], value: impl Fn(f64) -> Option<Value>) -> Acceptable {
        let moved = self.moved(among);
        let (low, high) = self.dial.range();
        let mut margins = |at: f64| self.margins(at, &moved);
        let found = stretches(&mut margins, (low, high), CELLS, ALL_COUNT);
        let is_ok = |stretch: &Stretch| {
            let values = stretch.values.as_ref();
            values.is_some_and(|values| values.iter().all(|margin| *margin >= 0.0))
        };
        let now = self.dial.now();
        let (mut here, mut elsewhere) = (None, Vec::new());
        for (first, last) in runs(&found, is_ok) {
            let range = Accepted {
                // What lies beyond the range that is looked at is not known to be OK.
                least: value(first.low),
                most: value(last.high),
            };
            if (first.low..=last.high).contains(&now) {
                here = Some(range);
            }
            elsewhere.push(range);
        }
        // As the unit is set its own findings decide.
        let mut findings: Vec<FindingId> = moved
            .into_iter()
            .filter(|id| {
                let finding = self.solved.findings.get(*id);
                finding.is_some_and(|it| it.level > Level::Fine || it.doubt.is_some())
            })
            .collect();
        match here {
            Some(range) if findings.is_empty() => Acceptable::Between(range),
            _ => {
                findings.sort_unstable();
                Acceptable::Not {
                    findings,
                    elsewhere,
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Stance;
    use crate::unit::{Document, read_text};
    use crate::units::{Angle, Measure as _, Quantity};

    fn demo() -> Document {
        read_text(include_str!("../../demo-units/greens-scalping.ron")).unwrap()
    }

    fn at(attitude: &str) -> Solved {
        let mut document = demo();
        document.setting.rollers = None;
        document.setting.attitude = Some(Quantity::parse(attitude).unwrap());
        Solved::of(&document).unwrap()
    }

    /// Whether all findings are surely OK when the unit is set to an attitude.
    fn is_ok(attitude_deg: f64) -> bool {
        let mut document = demo();
        document.setting.rollers = None;
        let text = format!("{attitude_deg:.9} deg");
        document.setting.attitude = Some(Quantity::parse(&text).unwrap());
        let solved = Solved::of(&document).unwrap();
        let mut findings = solved.findings.iter();
        findings.all(|it| it.level == Level::Fine && it.doubt.is_none())
    }

    #[test]
    fn just_past_each_end_a_finding_is_not_surely_ok_and_inside_all_are() {
        let accepted = Acceptance::of(&at("3 deg")).expect("it may run");
        let Acceptable::Between(Accepted {
            least: Some(least),
            most: Some(most),
        }) = accepted.attitude
        else {
            panic!("{:?}", accepted.attitude);
        };
        let off = 1e-6;
        for (end, inwards) in [(least.base(), off), (most.base(), -off)] {
            assert!(is_ok(end + inwards), "{end}");
            assert!(!is_ok(end - inwards), "{end}");
        }
        // The edge is as far behind centre at the attitude that the sweep ends.
        let Acceptable::Between(Accepted {
            most: Some(behind), ..
        }) = accepted.behind_centre
        else {
            panic!("{:?}", accepted.behind_centre);
        };
        let solved = at("3 deg");
        let setting = Setting {
            stance: Stance::Wanted {
                attitude: Angle::from_base(most.base()),
                height_of_cut: solved.solution.pose.height_of_cut,
            },
            ..solved.unit.setting
        };
        let there = Solution::of(&solved.unit, &setting).unwrap();
        assert!((there.sweep.behind_centre.mm() - behind.base()).abs() < 1e-4);
    }

    #[test]
    fn an_end_is_read_inwards_in_every_system() {
        for system in System::ALL {
            let ends = Accepted {
                least: Some(Length::from_inches(0.123_456).into()),
                most: Some(Length::from_inches(0.223_456).into()),
            };
            let read = ends.as_read_in(system).unwrap();
            assert!(read.least.unwrap().base() >= 0.123_456 * 25.4 - 1e-9);
            assert!(read.most.unwrap().base() <= 0.223_456 * 25.4 + 1e-9);
            let none = Accepted {
                least: Some(Length::from_inches(0.100_01).into()),
                most: Some(Length::from_inches(0.100_02).into()),
            };
            assert!(none.as_read_in(system).is_none());
        }
    }

    #[test]
    fn a_unit_over_its_limit_is_accepted_by_no_reading() {
        let solved = at("12 deg");
        assert_eq!(solved.findings.worst(), Level::Over);
        assert_eq!(Acceptance::of(&solved), None);
        // What should be watched as set is not accepted as set.
        let watched = at("5 deg");
        assert_eq!(watched.findings.worst(), Level::Watch);
        let accepted = Acceptance::of(&watched).expect("it may run");
        let Acceptable::Not {
            findings,
            elsewhere,
        } = accepted.attitude
        else {
            panic!("{:?}", accepted.attitude);
        };
        assert_eq!(findings, [FindingId::Sweep]);
        assert_eq!(elsewhere.len(), 1);
    }
}
