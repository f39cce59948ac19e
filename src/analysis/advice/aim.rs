//! Where along a dial a finding is cleared and no other is made worse, rounded to what is read.

use super::trial::{Asked, Certainty, FINDINGS, Undecided, doubts};
use crate::analysis::dial::{Dial, Scale};
use crate::analysis::ranges::LEAST_HEIGHT_MM;
use crate::analysis::search::{ALL_COUNT, Crossing, Stretch, Values, runs, stretches};
use crate::analysis::{Bound, Case, FindingId, Findings, Judged, Solution, Standing, Uncertainty};
use crate::geometry::Stance;
use crate::unit::Follows;
use crate::units::{Length, System, Value};

/// The highest cut that is still the same kind of turf, over the height now (common practice, no
/// source).
pub(in crate::analysis) const NEAR_HEIGHT: f64 = 2.5;
/// Cells that a dial's range is cut into.
const CELLS: u32 = 50;
/// Room wanted inside a limit that is a length: ten thou, or its like in millimetres (common
/// practice, no source: what a feeler and a height gauge tell for sure).
const ROOM_INCHES: f64 = 0.010;
const ROOM_MM: f64 = 0.25;
/// Room wanted inside any other limit, as a part of it.
const ROOM_PART: f64 = 0.03;
/// What is made do with where there is no such room, as parts of it.
const PARTS: [f64; 4] = [1.0, 0.3, 0.05, 0.0];
/// How often a place is looked for that keeps clear by what the numbers can be off at the last one.
const ROUNDS: usize = 4;
/// By how much more than they can be off there: from place to place it changes.
const MORE: f64 = 1.02;
/// How many readings from the aim on are tried.
const READINGS: usize = 4;
/// Margins of a finding in the search: one for each of its limits.
const MARGINS: usize = 3;
/// The margin of a finding that does not apply.
const FREE: f64 = 1e3;
/// By how much a margin may seem less and be the same.
const SAME: f64 = 1e-8;

/// A place of a dial that does what is asked.
#[derive(Clone, Copy, Debug)]
pub(in crate::analysis) struct Aimed {
    /// The place, as it is read.
    pub(in crate::analysis) to: Value,
    /// How the front and the rear roller move from where they stand, as it is read.
    pub(in crate::analysis) rollers: (Length, Length),
    /// What is kept clear of, where the least place was looked for.
    pub(in crate::analysis) kept_clear: Option<KeptClear>,
    /// How sure it is that the finding is cleared there.
    pub(in crate::analysis) certainty: Certainty,
    /// What is undecided there.
    pub(in crate::analysis) undecided: Undecided,
}

/// The limit next to a place that was aimed at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::analysis) struct KeptClear {
    /// Whose limit it is.
    pub(in crate::analysis) finding: FindingId,
    /// The limit.
    pub(in crate::analysis) limit: Value,
    /// The room to it.
    pub(in crate::analysis) room: Value,
}

/// The room wanted inside the limits of every finding.
#[derive(Clone, Copy, Debug)]
struct Room {
    /// As a part of what is wanted at best.
    part: f64,
    /// At least so much of each, in its base unit: what its number can be off.
    doubts: [f64; FINDINGS],
}

/// What is to be within its limits by more than its number can be off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Need {
    /// All that is to be fine.
    All,
    /// What is asked, and what is so already.
    Kept,
}

/// What is asked of one finding along a dial.
#[derive(Clone, Copy, Debug)]
enum Demand {
    /// To be within its limits.
    Fine,
    /// To be kept no worse than now.
    NoWorse(f64),
}

/// A stretch of a dial in which every demand is met.
#[derive(Clone, Copy, Debug)]
struct Run {
    low: f64,
    high: f64,
    begin: Option<Crossing>,
}

/// A dial, and what is asked of it.
pub(in crate::analysis) struct Aim<'a> {
    pub(in crate::analysis) asked: Asked<'a>,
    pub(in crate::analysis) dial: Dial<'a>,
    pub(in crate::analysis) system: System,
}

impl Aim<'_> {
    /// The place aimed at. An attitude is the least that clears the underside: more of it carries the
    /// edge further behind centre and the sweep deeper. Anything else is the nearest.
    pub(in crate::analysis) fn find(&self) -> Option<Aimed> {
        if !self.moves(self.asked.finding) {
            return None;
        }
        // An attitude serves every finding it moves, if one can: so all of them tell the same one.
        let all_fine = self.dial.scale == Scale::Attitude;
        let demands = all_fine.then(|| self.all_fine());
        let demands: Vec<_> = demands.into_iter().chain([self.no_worse()]).collect();
        let now = self.asked.undecided_now();
        let read: Vec<_> = demands
            .iter()
            .map(|demands| self.nearest(demands, [0.0; FINDINGS], now))
            .collect();
        [Need::All, Need::Kept]
            .into_iter()
            .find_map(|need| {
                demands
                    .iter()
                    .zip(&read)
                    .find_map(|(demands, read)| self.surely(demands, need, *read, now))
            })
            .or_else(|| read.into_iter().flatten().next())
    }

    /// The nearest place, with as much room as there is beyond what the numbers can be off.
    fn nearest(
        &self,
        demands: &[(FindingId, Demand)],
        doubts: [f64; FINDINGS],
        now: Undecided,
    ) -> Option<Aimed> {
        PARTS
            .into_iter()
            .map(|part| Room { part, doubts })
            .find_map(|room| self.along(demands, &room, now))
    }

    /// A place where the readings' ± leave no doubt, from one where the numbers read so. None where
    /// there is none.
    fn surely(
        &self,
        demands: &[(FindingId, Demand)],
        need: Need,
        read: Option<Aimed>,
        now: Undecided,
    ) -> Option<Aimed> {
        let wanted = |id: FindingId| {
            id == self.asked.finding
                || need == Need::All
                || self.asked.now.is_fine(id) && !now.iter().any(|open| open == id)
        };
        let is_met = |aimed: &Aimed| {
            let is_open = |(id, demand): &(FindingId, Demand)| {
                matches!(demand, Demand::Fine)
                    && wanted(*id)
                    && aimed.undecided.iter().any(|open| open == *id)
            };
            aimed.certainty == Certainty::Sure && !demands.iter().any(is_open)
        };
        let mut aimed = read?;
        let mut least = [0.0_f64; FINDINGS];
        for _ in 0..ROUNDS {
            if is_met(&aimed) {
                return self.is_sensible(&aimed).then_some(aimed);
            }
            let there = self.doubts_at(aimed.to.base());
            for (id, _) in demands.iter().filter(|(id, _)| wanted(*id)) {
                let least = &mut least[*id as usize];
                *least = least.max(MORE * there[*id as usize]);
            }
            aimed = self.nearest(demands, least, now)?;
        }
        (is_met(&aimed) && self.is_sensible(&aimed)).then_some(aimed)
    }

    /// Another height is no advice once it is another kind of turf.
    fn is_sensible(&self, aimed: &Aimed) -> bool {
        let height = self.asked.case.solution.pose.height_of_cut.mm();
        self.dial.scale != Scale::HeightOfCut || aimed.to.base() <= NEAR_HEIGHT * height
    }

    /// Which of the setting's values are the bench's own readings, in the ways that a place is set: by
    /// itself, or with all that stands beside it.
    fn ways_set(&self) -> [Follows; 2] {
        let follows = self.asked.follows;
        let alone = match self.dial.scale {
            Scale::Attitude => Follows {
                attitude: false,
                ..follows
            },
            Scale::HeightOfCut => Follows {
                height_of_cut: false,
                ..follows
            },
            Scale::FaceGround => Follows {
                face_ground: false,
                ..follows
            },
            Scale::TopGround => Follows {
                top_ground: false,
                ..follows
            },
            Scale::FrontRoller
            | Scale::RearRoller
            | Scale::FrontRollerHeightKept
            | Scale::RearRollerHeightKept
            | Scale::Extension => follows,
        };
        let together = match self.dial.scale {
            Scale::Attitude | Scale::HeightOfCut => Follows {
                attitude: false,
                height_of_cut: false,
                ..follows
            },
            _ => alone,
        };
        [alone, together]
    }

    /// Within how much of the number of every finding no limit is shown to be kept at a place.
    fn doubts_at(&self, at: f64) -> [f64; FINDINGS] {
        let setting = self.dial.setting(at);
        let by = self
            .ways_set()
            .map(|follows| doubts(&Uncertainty::of(self.asked.case.unit, &setting, follows)));
        std::array::from_fn(|id| by[0][id].max(by[1][id]))
    }

    /// What a place that clears the finding alone makes worse; none where no place clears it.
    pub(super) fn in_the_way(&self) -> Option<Vec<FindingId>> {
        if !self.moves(self.asked.finding) {
            return None;
        }
        let demands = [(self.asked.finding, Demand::Fine)];
        let room = Room {
            part: 0.0,
            doubts: [0.0; FINDINGS],
        };
        let runs = self.runs(&demands, &room);
        let now = self.dial.now();
        let run = runs.first()?;
        let (low, high) = (run.low, run.high);
        // Well inside, so that it is the finding's own limit that is passed.
        let inside = now.clamp(low + 1e-6 * (high - low), high - 1e-6 * (high - low));
        let setting = self.dial.setting(inside);
        let (_, then) = Asked::tried(self.asked.case.unit, &setting)?;
        Some(self.asked.now.worsened(&then).collect())
    }

    fn all_fine(&self) -> Vec<(FindingId, Demand)> {
        let moved = |id: &FindingId| *id == self.asked.finding || self.moves(*id);
        let moved = FindingId::ALL.into_iter().filter(moved);
        moved.map(|id| (id, Demand::Fine)).collect()
    }

    fn no_worse(&self) -> Vec<(FindingId, Demand)> {
        let demand = |id| {
            let now: Option<&Standing> = self.asked.now.get(id);
            let margin = now.and_then(|standing| standing.judged).map(|j| j.margin());
            match margin {
                Some(margin) if margin < 0.0 && id != self.asked.finding => {
                    (id, Demand::NoWorse(margin - SAME))
                }
                _ => (id, Demand::Fine),
            }
        };
        let moved = |id: &FindingId| *id == self.asked.finding || self.moves(*id);
        let moved = FindingId::ALL.into_iter().filter(moved);
        moved.map(demand).collect()
    }

    /// Whether the dial changes the number of a finding.
    fn moves(&self, id: FindingId) -> bool {
        let (low, high) = self.dial.range();
        let at = |part: f64| self.judged(low + part * (high - low), &[id]);
        let now = self.judged(self.dial.now(), &[id]);
        [0.1, 0.37, 0.71, 0.9].into_iter().map(at).any(|then| {
            match (now.as_deref(), then.as_deref()) {
                (Some([Some(now)]), Some([Some(then)])) => {
                    (now.value.base() - then.value.base()).abs() > 1e-9
                }
                (Some([now]), Some([then])) => now.is_some() != then.is_some(),
                _ => false,
            }
        })
    }

    fn judged(&self, at: f64, ids: &[FindingId]) -> Option<Vec<Option<Judged>>> {
        let setting = self.dial.setting(at);
        let solution = Solution::of(self.asked.case.unit, &setting).ok()?;
        let then = Case {
            setting: &setting,
            solution: &solution,
            ..self.asked.case
        };
        let judged = ids.iter().map(|id| Findings::judged(&then, *id));
        Some(judged.collect())
    }

    /// How every demand is met at a place, with so much room.
    fn margins(&self, at: f64, demands: &[(FindingId, Demand)], room: &Room) -> Values {
        let ids: Vec<_> = demands.iter().map(|(id, _)| *id).collect();
        let mut margins = Vec::with_capacity(MARGINS * demands.len());
        for (judged, (id, demand)) in self.judged(at, &ids)?.iter().zip(demands) {
            let mut of_finding = [FREE; MARGINS];
            if let Some(judged) = judged {
                match demand {
                    Demand::NoWorse(least) => of_finding[0] = judged.margin() - least,
                    Demand::Fine => {
                        for (margin, bound) in of_finding.iter_mut().zip(judged.limits()) {
                            let room = self.room_in(room, *id, judged, bound);
                            *margin = bound.margin(judged.value.base()) - room;
                        }
                    }
                }
            }
            margins.extend(of_finding);
        }
        Some(margins)
    }

    /// The room wanted inside a limit of a finding.
    fn room_in(&self, room: &Room, id: FindingId, judged: &Judged, bound: &Bound) -> f64 {
        let doubt = room.doubts[id as usize];
        (room.part * self.room(judged, bound)).max(doubt)
    }

    /// The room wanted inside a limit at best.
    fn room(&self, judged: &Judged, bound: &Bound) -> f64 {
        match judged.value {
            Value::Length(_)
            | Value::Limit(_)
            | Value::Radius(_)
            | Value::Move(_)
            | Value::MoveOf(..) => {
                // The same in whatever units it is read: the unit's own are round.
                match self.asked.case.unit.system {
                    System::Millimetre => ROOM_MM,
                    System::InchDecimal | System::InchFraction => {
                        Length::from_inches(ROOM_INCHES).mm()
                    }
                }
            }
            Value::Angle(_) => {
                let ends: Vec<f64> = judged.limits().map(|bound| bound.at_base).collect();
                let most = ends.iter().copied().fold(f64::MIN, f64::max);
                let least = ends.iter().copied().fold(f64::MAX, f64::min);
                ROOM_PART * (most - least)
            }
            Value::Share(_) | Value::Ratio(_) | Value::Speed(_) | Value::Turning(_) => {
                ROOM_PART * bound.at_base
            }
        }
    }

    /// Every run of places that meet the demands, the one to take first in front.
    fn runs(&self, demands: &[(FindingId, Demand)], room: &Room) -> Vec<Run> {
        let (low, high) = self.dial.range();
        let mut margins = |at| self.margins(at, demands, room);
        let found = stretches(&mut margins, (low, high), CELLS, ALL_COUNT);
        let is_met = |stretch: &Stretch| {
            let values = stretch.values.as_ref();
            values.is_some_and(|values| values.iter().all(|margin| *margin >= 0.0))
        };
        let mut runs: Vec<Run> = runs(&found, is_met)
            .map(|(first, last)| Run {
                low: first.low,
                high: last.high,
                begin: first.begin,
            })
            .collect();
        // No height is set lower than any unit stands.
        if self.dial.scale == Scale::HeightOfCut {
            for run in &mut runs {
                run.low = run.low.max(LEAST_HEIGHT_MM);
            }
            runs.retain(|run| run.low <= run.high);
        }
        let now = self.dial.now();
        let away = |run: &Run| (run.low - now).max(now - run.high).max(0.0);
        runs.sort_by(|a, b| away(a).total_cmp(&away(b)));
        runs
    }

    fn along(
        &self,
        demands: &[(FindingId, Demand)],
        room: &Room,
        open_now: Undecided,
    ) -> Option<Aimed> {
        let now = self.dial.now();
        self.runs(demands, room).iter().find_map(|run| {
            let least = self.least(run, demands, room);
            let (from, is_up) = match () {
                () if least.is_some() || now < run.low => (run.low, true),
                () if now > run.high => (run.high, false),
                () => (now, true),
            };
            let run = run.low - SAME..=run.high + SAME;
            let mut to = self.dial.value(from).as_read_in(self.system);
            for _ in 0..READINGS {
                if run.contains(&to.base())
                    && let Some(rollers) = self.as_read(to.base())
                {
                    let undecided = self.undecided(to.base());
                    return Some(Aimed {
                        to,
                        rollers,
                        kept_clear: least,
                        certainty: self.asked.certainty(open_now, undecided),
                        undecided,
                    });
                }
                to = to.next_read_in(self.system, is_up);
            }
            None
        })
    }

    /// What is undecided at a place, of what the dial moves.
    fn undecided(&self, at: f64) -> Undecided {
        let setting = self.dial.setting(at);
        let unit = self.asked.case.unit;
        Asked::undecided_after(unit, &setting, self.ways_set())
            .among(|id| id == self.asked.finding || self.moves(id))
    }

    /// The underside's limit where a run of attitudes begins at it: the least attitude is aimed at
    /// there. Where another limit begins it, or where it lies below zero with the knife's back lower
    /// than its edge, the least would carry the edge to the reel's centre for zero gain, and the
    /// nearest is aimed at.
    fn least(&self, run: &Run, demands: &[(FindingId, Demand)], room: &Room) -> Option<KeptClear> {
        let which = run.begin?.which?;
        let (finding, demand) = *demands.get(which / MARGINS)?;
        let is_underside = matches!(finding, FindingId::Underside | FindingId::LowEndUnderside);
        if self.dial.scale != Scale::Attitude
            || !is_underside
            || !matches!(demand, Demand::Fine)
            || run.low < 0.0
        {
            return None;
        }
        let judged = (*self.judged(run.low, &[finding])?.first()?)?;
        let bound = *judged.limits().nth(which % MARGINS)?;
        let room = self.room_in(room, finding, &judged, &bound);
        Some(KeptClear {
            finding,
            limit: judged.value.with_base(bound.at_base).as_limit(),
            room: judged.value.with_base(room),
        })
    }

    /// The roller moves to a place, if it holds when it is typed and when the moves are made as
    /// they read.
    fn as_read(&self, at: f64) -> Option<(Length, Length)> {
        let unit = self.asked.case.unit;
        let setting = self.dial.setting(at);
        let then = self.asked.holding(unit, &setting)?;
        let (now, pose) = (&self.asked.case.solution.pose, &then.pose);
        let told = |from: Length, to: Length| {
            let by = Value::Move(to - from).as_read_in(self.system);
            Length::from_mm(by.base())
        };
        let front = told(now.front_roller.moved, pose.front_roller.moved);
        let rear = told(now.rear_roller.moved, pose.rear_roller.moved);
        let moved = Stance::Rollers {
            front_move: now.front_roller.moved + front,
            rear_move: now.rear_roller.moved + rear,
        };
        let stance = match self.dial.scale {
            Scale::Attitude | Scale::HeightOfCut => moved,
            Scale::FrontRoller
            | Scale::RearRoller
            | Scale::FrontRollerHeightKept
            | Scale::RearRollerHeightKept
            | Scale::Extension
            | Scale::FaceGround
            | Scale::TopGround => return Some((front, rear)),
        };
        let setting = crate::geometry::Setting { stance, ..setting };
        self.asked
            .keeps_levels(unit, &setting)
            .then_some((front, rear))
    }
}
