//! The limits that forbid an attitude, each with a margin: what is left before it is reached.

use crate::analysis::{Case, FindingId};

/// What forbids an attitude.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Limit {
    /// The sweep is more of the height of cut than its limit.
    Sweep,
    /// The reel is in the ground.
    Reel,
    /// At the low side, the rollers at their lowest, the reel is in the ground.
    LowEnd,
    /// The edge is in the ground.
    Cut,
    /// Knife or hardware is nearer the ground than its limit.
    Underside,
    /// At the low side, the rollers at their lowest, knife or hardware is in the ground.
    LowEndUnderside,
    /// The lip is thicker than the height of cut allows, or ground away.
    Lip,
    /// The edge runs further ahead of centre than its limit.
    Ahead,
    /// The top face has too little relief to clear the reel.
    TopFace,
    /// A roller and the knife are in one place.
    Rollers,
    /// The attitudes searched, or what the brackets allow, end here.
    Range,
    /// The geometry cannot exist beyond here.
    Reach,
}

impl Limit {
    /// The finding whose limit it is, or the name for programs of what ends a search.
    const fn finding_or_id(self) -> Result<FindingId, &'static str> {
        match self {
            Self::Sweep => Ok(FindingId::Sweep),
            Self::Reel => Ok(FindingId::Reel),
            Self::LowEnd => Ok(FindingId::LowEnd),
            Self::Cut => Ok(FindingId::Cut),
            Self::Underside => Ok(FindingId::Underside),
            Self::LowEndUnderside => Ok(FindingId::LowEndUnderside),
            Self::Lip => Ok(FindingId::Lip),
            Self::Ahead => Ok(FindingId::Ahead),
            Self::TopFace => Ok(FindingId::TopFace),
            Self::Rollers => Ok(FindingId::Rollers),
            Self::Range => Err("range"),
            Self::Reach => Err("reach"),
        }
    }

    /// The finding whose limit it is; none for what ends a search.
    #[must_use]
    pub const fn finding(self) -> Option<FindingId> {
        match self.finding_or_id() {
            Ok(finding) => Some(finding),
            Err(_) => None,
        }
    }

    /// Its name for programs; never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self.finding_or_id() {
            Ok(finding) => finding.id(),
            Err(id) => id,
        }
    }

    /// Its name in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sweep => "sweep over limit",
            Self::Reel => "reel in the ground",
            Self::LowEnd => "reel digs in at low side",
            Self::Cut => "edge in the ground",
            Self::Underside => "underside under OK limit",
            Self::LowEndUnderside => "underside drags at low side",
            Self::Lip => "lip too thick or ground away",
            Self::Ahead => "edge ahead of centre",
            Self::TopFace => "top face too near the reel",
            Self::Rollers => "roller in the knife",
            Self::Range => "end of the bracket range",
            Self::Reach => "reel and knife do not meet",
        }
    }

    /// What wants more or less attitude because of it, in a sentence.
    #[must_use]
    pub const fn what_for(self) -> &'static str {
        match self {
            Self::Sweep => "the sweep",
            Self::Reel => "the reel to clear the ground",
            Self::LowEnd => "the reel to clear the ground at the low side",
            Self::Cut => "the edge to clear the ground",
            Self::Underside => "the underside",
            Self::LowEndUnderside => "the underside to clear the ground at the low side",
            Self::Lip => "the lip",
            Self::Ahead => "the edge to stand behind centre",
            Self::TopFace => "the top face to clear the reel",
            Self::Rollers => "the rollers to clear the knife",
            Self::Range => "the brackets",
            Self::Reach => "reel and knife to meet",
        }
    }

    /// Those that have a margin, in the order they are told.
    pub const WITH_MARGIN: [Self; 10] = [
        Self::Sweep,
        Self::Reel,
        Self::LowEnd,
        Self::Cut,
        Self::Underside,
        Self::LowEndUnderside,
        Self::Lip,
        Self::Ahead,
        Self::TopFace,
        Self::Rollers,
    ];
}

/// The margins of one solution: above zero within the limit, below it past the limit.
///
/// Each is smooth over attitude and diameter. The underside has one for every point, since the
/// lowest of several points is not smooth where another takes over.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::analysis) struct Margins(pub(in crate::analysis) Vec<f64>);

/// The limits of the margins, in their order; all that follow are those of the underside's points.
const OF_MARGINS: [Limit; 10] = [
    Limit::Sweep,
    Limit::Reel,
    Limit::LowEnd,
    Limit::Cut,
    Limit::LowEndUnderside,
    Limit::Lip,
    Limit::Ahead,
    Limit::TopFace,
    Limit::Rollers,
    Limit::Underside,
];

impl Margins {
    /// From this margin on all are of the underside's points, of which the lowest counts.
    pub(super) const OF_UNDERSIDE: usize = OF_MARGINS.len() - 1;

    /// Works out the margins of a solution, in millimetres.
    pub(in crate::analysis) fn of(case: &Case) -> Self {
        let mut margins_mm = Vec::with_capacity(OF_MARGINS.len() + 8);
        for finding in OF_MARGINS.into_iter().filter_map(Limit::finding) {
            finding.add_margins_mm(case, &mut margins_mm);
        }
        Self(margins_mm)
    }

    /// The same with one limit left out: it is passed nowhere.
    pub(super) fn without(mut self, limit: Limit) -> Self {
        let margins = self.0.iter_mut().enumerate();
        for (_, margin) in margins.filter(|(index, _)| Self::limit(*index) == limit) {
            *margin = f64::INFINITY;
        }
        self
    }

    /// The limit that a margin belongs to.
    pub(super) fn limit(index: usize) -> Limit {
        OF_MARGINS.get(index).copied().unwrap_or(Limit::Underside)
    }

    /// The limits that do not hold, in the order they are told.
    pub(super) fn passed(&self) -> impl Iterator<Item = Limit> {
        let limits = Limit::WITH_MARGIN.into_iter();
        limits.filter(|limit| !self.holds(*limit))
    }

    /// Whether one limit holds.
    fn holds(&self, limit: Limit) -> bool {
        let of_limit = self
            .0
            .iter()
            .enumerate()
            .filter(|(index, _)| Self::limit(*index) == limit);
        of_limit
            .map(|(_, margin)| *margin)
            .all(|margin| margin >= 0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Findings, Level, Solution, Solved};
    use crate::geometry::Stance;
    use crate::unit::{Wear, read_text};
    use crate::units::{Angle, Length};

    const DEMO_UNIT: &str = include_str!("../../../demo-units/greens-scalping.ron");

    #[test]
    fn every_finding_that_ends_a_window_is_a_limit_of_it() {
        let ending = FindingId::ALL
            .into_iter()
            .filter(|finding| finding.ends_window_past().is_some());
        let mut limits: Vec<_> = Limit::WITH_MARGIN
            .iter()
            .map(|limit| limit.finding())
            .collect();
        limits.sort_unstable();
        assert_eq!(limits, ending.map(Some).collect::<Vec<_>>());
        let mut excluding = FindingId::ALL.into_iter().filter(|id| id.excludes_knife());
        assert!(excluding.all(|id| id.ends_window_past().is_some()));
        let mut of_margins = OF_MARGINS;
        of_margins.sort_unstable();
        assert_eq!(of_margins, Limit::WITH_MARGIN);
    }

    #[test]
    fn a_margin_is_passed_where_the_finding_is_past_the_limit_that_ends_a_window() {
        let mut solved = Solved::of(&read_text(DEMO_UNIT).expect("reads")).expect("solves");
        let mut passed = std::collections::BTreeSet::new();
        for step in 0..800_u32 {
            // Worn, out of true and ground at every other step.
            let (is_worn, step) = (step % 2 == 1, step / 2);
            let worn_by = if is_worn { 1.0 } else { 0.0 };
            solved.unit.wear = Wear {
                front_runout: Length::from_mm(0.3 * worn_by),
                rear_runout: Length::from_mm(0.5 * worn_by),
                end_difference: Length::from_mm(0.8 * worn_by),
            };
            let mut setting = solved.unit.setting;
            setting.stance = Stance::Wanted {
                attitude: Angle::from_deg(-9.7 + 0.1 * f64::from(step)),
                height_of_cut: Length::from_mm(2.0 + 0.01 * f64::from(step)),
            };
            if is_worn {
                let knife = &mut setting.knife;
                knife.top_angle = Some(Angle::from_deg(0.05 * f64::from(step)));
                knife.face_ground = knife.lip_length * (f64::from(step) / 300.0);
            }
            let Ok(solution) = Solution::of(&solved.unit, &setting) else {
                continue;
            };
            let case = Case {
                unit: &solved.unit,
                setting: &setting,
                solution: &solution,
            };
            let margins = Margins::of(&case);
            let findings = Findings::about(&case);
            for limit in Limit::WITH_MARGIN {
                let finding = limit.finding().expect("it has a margin");
                let end = finding.ends_window_past().expect("it ends a window");
                let level = findings.level_of(finding).unwrap_or(Level::Fine);
                let is_past = match limit {
                    // A roller in the reel or too far off is watched too, and ends no window.
                    Limit::Rollers => {
                        level == end && solution.rollers_to_knife.iter().any(|to| to.mm() < 0.0)
                    }
                    _ => level >= end,
                };
                assert_eq!(margins.holds(limit), !is_past, "{limit:?} at {setting:?}");
                if is_past {
                    passed.insert(limit);
                }
            }
        }
        assert!(passed.len() >= 8, "{passed:?}");
    }
}
