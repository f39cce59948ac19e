//! Whether another knife would help: one of another reach, or of a thinner lip.

use super::trial::Asked;
use crate::analysis::{Case, FindingId, Solution};
use crate::geometry::Setting;
use crate::unit::{Document, Fitted};
use crate::units::{Length, Quoted};

/// By how much more or less reach it is seen what reach does to the sweep.
const LITTLE_REACH: Length = Length::from_mm(0.1);
/// The lips that are tried, as parts of what is left of the one fitted.
const THINNER: [f64; 5] = [0.75, 0.5, 0.25, 0.1, 0.01];

/// What is told of a knife's reach about the sweep: more of it carries the edge ahead, which is towards
/// the reel's centre only for an edge behind it.
pub(super) fn other_reach(case: &Case) -> Option<&'static str> {
    let sweep_with = |by: Length| {
        let mut setting = *case.setting;
        setting.knife.reach = setting.knife.reach + by;
        let solution = Solution::of(case.unit, &setting).ok()?;
        Some(solution.sweep.below_cut)
    };
    let now = case.solution.sweep.below_cut;
    if sweep_with(LITTLE_REACH).is_some_and(|then| then < now) {
        Some("A knife with a longer reach sweeps less; so does a thinner one at less attitude.")
    } else if sweep_with(-LITTLE_REACH).is_some_and(|then| then < now) {
        Some("A knife with a shorter reach sweeps less.")
    } else {
        None
    }
}

/// Whether there is a knife of a thinner lip that clears the finding.
pub(super) fn would_a_thinner_lip_clear(asked: &Asked) -> bool {
    let case = &asked.case;
    let knife = &case.setting.knife;
    let ground = Length::from_mm(knife.edge_from_unground().y);
    let left = knife.lip_thickness - ground;
    let with = |part: f64| {
        let thickness = ground + left * part;
        let mut unit = case.unit.clone();
        let mut setting = *case.setting;
        setting.knife.lip_thickness = thickness;
        if unit.fitted == Fitted::Bench {
            unit.profile.knife.lip_thickness = thickness;
        }
        asked.holding(&unit, &setting).is_some()
    };
    THINNER.into_iter().any(with)
}

/// Whether a finding past its limit may be the knife's own doing: its reach, its lip, its thickness or the
/// angle of its top face.
const fn may_be_of_the_knife(finding: FindingId) -> bool {
    match finding {
        FindingId::Sweep
        | FindingId::Ahead
        | FindingId::TopFace
        | FindingId::Underside
        | FindingId::Lip => true,
        FindingId::Gap
        | FindingId::Reel
        | FindingId::LowEnd
        | FindingId::Cut
        | FindingId::LowEndUnderside
        | FindingId::RunoutSwing
        | FindingId::Scrap
        | FindingId::Clip
        | FindingId::Rollers
        | FindingId::Attitude => false,
    }
}

/// The knife of a document that clears a finding as the unit is set and makes no other one worse, the one
/// nearest in reach of several, and what is told of it.
pub(super) fn listed_knife(asked: &Asked, document: &Document) -> Option<(Fitted, String)> {
    if !may_be_of_the_knife(asked.finding) {
        return None;
    }
    let case = &asked.case;
    let reach = case.setting.knife.reach;
    let others = document
        .knives()
        .filter(|(place, _)| *place != case.unit.fitted);
    let clearing = others.filter_map(|(place, knife)| {
        let setting = Setting {
            knife: document.section_of(place, knife),
            ..*case.setting
        };
        let away_mm = (setting.knife.reach - reach).mm().abs();
        asked.holding(case.unit, &setting)?;
        Some((place, away_mm, &knife.name))
    });
    let mut clearing: Vec<_> = clearing.collect();
    clearing.sort_by(|a, b| a.1.total_cmp(&b.1));
    let (place, _, name) = *clearing.first()?;
    let more = match clearing.len() - 1 {
        0 => "",
        1 => "; one more does",
        _ => "; others do too",
    };
    let told = format!(
        "Of the knives in this file {} clears it as the unit is set and makes no other finding worse{more}. Fit only what the machine's manual allows.",
        Quoted(name)
    );
    Some((place, told))
}
