//! Which knife fits best, in plain sentences.

use std::collections::BTreeSet;

use super::limit::Limit;
use super::table::{KnifeRow, Life, Trial};
use super::window::{Window, attitude_spans};
use crate::analysis::Solved;
use crate::analysis::ranges::attitude_range;
use crate::unit::{Document, Limits};
use crate::units::{Angle, Quoted, System, clipped};

/// Knives in the order they fit, with the reasons.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ranking {
    /// Places of the rows, the best first; those that do not fit follow.
    pub order: Vec<usize>,
    /// How many of them fit from a new reel to a scrap one.
    pub fitting: usize,
    /// A sentence for each, in that order, after one for all.
    pub sentences: Vec<String>,
}

/// Ranks the rows of a table: by the room that is left through the reel's whole life, then by name.
#[must_use]
pub fn rank(rows: &[KnifeRow], solved: &Solved, system: System) -> Ranking {
    let ranks = Ranks::of(rows);
    let first = ranks.sentence(solved, system);
    let told = ranks.order.iter();
    let told = told.map(|&index| rank_sentence(&rows[index], solved, system));
    let sentences = std::iter::once(first).chain(told).collect();
    Ranking {
        order: ranks.order,
        fitting: ranks.fitting,
        sentences,
    }
}

/// Knives in the order they fit, before anything is said about them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ranks {
    /// Places of the rows, the best first; those that do not fit follow.
    pub order: Vec<usize>,
    /// How many of them fit from a new reel to a scrap one.
    pub fitting: usize,
}

impl Ranks {
    /// Ranks rows: by the room that is left through the reel's whole life, then by name.
    #[must_use]
    pub fn of<'a>(rows: impl IntoIterator<Item = &'a KnifeRow>) -> Self {
        let rows = rows.into_iter().map(|row| {
            let room = row.least_room().map_or(-1.0, Angle::deg);
            let windows = row.life.iter().filter(|reel| !reel.windows.is_empty());
            (room, windows.count(), row.name.as_str())
        });
        let rows: Vec<_> = rows.collect();
        let mut order: Vec<usize> = (0..rows.len()).collect();
        order.sort_by(|&a, &b| {
            let (a, b) = (&rows[a], &rows[b]);
            b.0.total_cmp(&a.0)
                .then(b.1.cmp(&a.1))
                .then_with(|| a.2.cmp(b.2))
        });
        let fitting = rows.iter().filter(|row| row.0 >= 0.0).count();
        Self { order, fitting }
    }

    /// How many fit, in a sentence.
    #[must_use]
    pub fn sentence(&self, solved: &Solved, system: System) -> String {
        let height = system.length(solved.solution.pose.height_of_cut);
        match self.fitting {
            0 => format!("No knife fits at {height} from a new reel to a scrap one."),
            1 => format!("One knife fits at {height} from a new reel to a scrap one."),
            n => format!("{n} knives fit at {height} from a new reel to a scrap one."),
        }
    }
}

/// Why a knife has the rank it has, in a sentence.
#[must_use]
pub fn rank_sentence(row: &KnifeRow, solved: &Solved, system: System) -> String {
    let price = solved
        .document
        .knife_at(row.knife)
        .and_then(|knife| knife.price.as_deref());
    let name = match price {
        Some(price) => format!("{}, price {},", Quoted(&row.name), clipped(price, 60)),
        None => Quoted(&row.name).to_string(),
    };
    if let Some(least) = row.least_room() {
        let narrowest = row.life.iter().min_by(|a, b| {
            let width = |reel: &super::ReelWindows| reel.widest().map_or(0.0, |w| w.width().deg());
            width(a).total_cmp(&width(b))
        });
        let (when, window) = narrowest
            .and_then(|reel| Some((reel.life.name(), reel.widest()?)))
            .unwrap_or(("now", &FULL));
        return format!(
            "{name} fits and leaves at least {} of attitude (reel {when}: {} to {}; below it {}, above it {}).",
            system.angle(least),
            system.angle(window.low),
            system.angle(window.high),
            window.low_limit.name(),
            window.high_limit.name(),
        );
    }
    let missing = row.life.iter().filter(|reel| reel.windows.is_empty());
    let whys: Vec<String> = missing
        .map(|reel| {
            let why = why_none(row, reel.life, solved);
            format!("reel {}: {}", reel.life.name(), why.join(" or "))
        })
        .collect();
    format!(
        "{name} does not fit: no attitude holds every limit with the {}.",
        whys.join("; with the ")
    )
}

const FULL: Window = Window {
    low: Angle::ZERO,
    high: Angle::ZERO,
    low_limit: Limit::Range,
    high_limit: Limit::Range,
};

/// The limits that are passed at one attitude or another, with the reel at a size that leaves no
/// window: whatever the attitude, one of them at least.
fn why_none(row: &KnifeRow, life: Life, solved: &Solved) -> Vec<&'static str> {
    let Some(knife) = solved.document.knife_at(row.knife) else {
        return Vec::new();
    };
    let (unit, trial) = (&solved.unit, Trial::of(&solved.solution));
    let setting = trial.setting(unit, knife.section(), life.diameter(unit));
    let spans = attitude_spans(unit, &setting, trial.height_of_cut);
    let passed: BTreeSet<Limit> = spans.into_iter().flat_map(|span| span.passed).collect();
    passed.into_iter().map(Limit::name).collect()
}

/// What the table rests on, for whoever orders by it: the readings, the limits, the drawings.
#[must_use]
pub fn rests_on(document: &Document, system: System) -> [String; 3] {
    let bench = &document.bench;
    [
        format!(
            "Bench measurements used: reel {}, height of cut {}, attitude {}, behind centre {}, gap {}.",
            bench.reel_diameter.text(),
            bench.height_of_cut.text(),
            bench.attitude.text(),
            bench.behind_centre.text(),
            bench.gap.text(),
        ),
        limits_used(document, system),
        "Reach and section come from the supplier's drawing: check them on arrival, before the knife is fitted.".to_owned(),
    ]
}

/// The limits that a window rests on, each with whether it is the unit's own.
fn limits_used(document: &Document, system: System) -> String {
    let given = document.limits.clone().unwrap_or_default();
    let limits = Limits::in_force(document.turf, Some(&given));
    let judged = [
        (
            format!(
                "sweep {} of the height of cut",
                system.share(limits.sweep_over)
            ),
            // A watch limit of one's own may have raised the other with it.
            limits.sweep_over != Limits::starting(document.turf).sweep_over
                || given.sweep_over.is_some(),
        ),
        (
            format!("underside {}", system.length(limits.underside)),
            given.underside.is_some(),
        ),
        (
            format!(
                "edge ahead of centre {}",
                system.length(limits.ahead_of_centre)
            ),
            given.ahead_of_centre.is_some(),
        ),
    ];
    let starting = if judged.iter().all(|(_, is_own)| *is_own) {
        ""
    } else {
        " Starting values are this program's, no standard and not from your own trials."
    };
    let told = judged.map(|(limit, is_own)| {
        let whose = if is_own {
            "from the unit's file"
        } else {
            "starting value"
        };
        format!("{limit} ({whose})")
    });
    let (low, high) = attitude_range(&limits);
    let whose = if given.attitude_range.is_some() {
        "from the unit's file"
    } else {
        "the brackets' range is not given"
    };
    format!(
        "Limits used: {}, attitudes {} to {} ({whose}).{starting}",
        told.join(", "),
        system.angle(low),
        system.angle(high),
    )
}
