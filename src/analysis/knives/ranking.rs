//! Which knife is told first, in plain sentences.

use std::cmp::Ordering;

use super::limit::Limit;
use super::price::sum_text;
use super::set_once::{Apart, End};
use super::table::KnifeRow;
use super::verdict::{Against, MeasureOut, Verdict};
use crate::analysis::ranges::attitude_range;
use crate::analysis::{LEAN_OFF, Level, Solved};
use crate::unit::{ClosingReadings, Document, Fitted, Limits};
use crate::units::{Angle, Quoted, System, clipped};

/// Rooms that differ by less read the same: half of the last digit shown.
const SAME_ROOM: Angle = Angle::from_deg(0.005);

/// Knives in the order they are told, with the reasons.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranking {
    /// The order.
    pub ranks: Ranks,
    /// A sentence for each, in that order, after one for all.
    pub sentences: Vec<String>,
}

/// Ranks the rows of a table.
#[must_use]
pub fn rank(rows: &[KnifeRow], solved: &Solved, system: System) -> Ranking {
    let ranks = Ranks::of(rows);
    let first = ranks.sentence(solved, system);
    let told = ranks.order.iter().zip(&ranks.ties);
    let told = told.map(|(&index, tie)| {
        let tie = tie.as_ref().map(|tie| (tie, rows[tie.with].name.as_str()));
        rank_sentence(&rows[index], tie, solved, system)
    });
    let sentences = std::iter::once(first).chain(told).collect();
    Ranking { ranks, sentences }
}

/// Knives in the order they are told, before anything is said about them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ranks {
    /// Places of the rows, the best first: those that fit, those that cannot be told, the others.
    pub order: Vec<usize>,
    /// How many there are of each.
    pub counts: Counts,
    /// By rank, with which other knife one ties for room; none for one that does not pass, which nobody
    /// would order for its price.
    pub ties: Vec<Option<Tie>>,
    /// The knives that fit.
    pub fitting: Vec<Fitted>,
}

/// How many knives of a ranking fit, and how many cannot be told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// How many fit: they come first.
    pub fitting: usize,
    /// How many after those cannot be told.
    pub undecided: usize,
}

impl Counts {
    /// Whether the knife of a rank fits.
    #[must_use]
    pub const fn verdict(self, rank: usize) -> Verdict {
        if rank < self.fitting {
            Verdict::Fits
        } else if rank < self.fitting + self.undecided {
            Verdict::CannotTell
        } else {
            Verdict::DoesNotFit
        }
    }
}

/// Two knives that leave the same room, as far as the readings go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tie {
    /// The place of the other's row: the first of those that tie, for the first the second.
    pub with: usize,
    /// How much cheaper it is than the other; negative where it is dearer. None where one of both has
    /// no price.
    pub cheaper_by: Option<f64>,
}

impl Ranks {
    /// Ranks rows by whether they fit, then by the room they leave set once for the reel's whole
    /// life. Equal room within its own uncertainty is a tie, in which the lower price comes first,
    /// one without a price last.
    ///
    /// Of the knives still to be told, the one with the most room is tied with all that leave as
    /// much within the larger of both uncertainties; the next tie begins with the next one left.
    #[must_use]
    pub fn of<'a>(rows: impl IntoIterator<Item = &'a KnifeRow>) -> Self {
        let rows: Vec<&KnifeRow> = rows.into_iter().collect();
        let mut left: Vec<usize> = (0..rows.len()).collect();
        left.sort_by(|&a, &b| {
            let (a, b) = (rows[a], rows[b]);
            let verdict = a.judgement.verdict.cmp(&b.judgement.verdict);
            verdict.then_with(|| b.room().deg().total_cmp(&a.room().deg()))
        });
        let mut ranks = Self {
            counts: Counts {
                fitting: count(&rows, Verdict::Fits),
                undecided: count(&rows, Verdict::CannotTell),
            },
            ..Self::default()
        };
        // Rooms further apart than the largest uncertainty tie with none.
        let offs = rows.iter().map(|row| row.judgement.off.by_readings.deg());
        let most_off_deg = offs.fold(SAME_ROOM.deg(), f64::max);
        let mut from = 0;
        while let Some(&leader) = left.get(from) {
            let of_leader = rows[leader].judgement.verdict;
            let most_deg = rows[leader].room().deg();
            let tied = left[from..]
                .iter()
                .take_while(|&&index| rows[index].judgement.verdict == of_leader)
                .take_while(|&&index| most_deg - rows[index].room().deg() <= most_off_deg)
                .count();
            let mut group: Vec<usize> = Vec::new();
            let mut others: Vec<usize> = Vec::new();
            for &index in &left[from..from + tied] {
                if is_same_room(rows[leader], rows[index]) {
                    group.push(index);
                } else {
                    others.push(index);
                }
            }
            group.sort_by(|&a, &b| by_price(rows[a], rows[b]));
            ranks.push_group(&group, &rows);
            let told = group.len();
            left.splice(from..from + tied, group.into_iter().chain(others));
            from += told;
        }
        ranks
    }

    /// The rank of each row from 1, in the order of the rows.
    #[must_use]
    pub fn by_row(&self) -> Vec<usize> {
        let mut by_row = vec![0; self.order.len()];
        for (rank, &row) in self.order.iter().enumerate() {
            by_row[row] = rank + 1;
        }
        by_row
    }

    fn push_group(&mut self, group: &[usize], rows: &[&KnifeRow]) {
        for (place, &index) in group.iter().enumerate() {
            let other = if place == 0 {
                group.get(1)
            } else {
                group.first()
            };
            let is_out = rows[index].judgement.verdict == Verdict::DoesNotFit;
            let tie = other.filter(|_| !is_out).map(|&with| Tie {
                with,
                cheaper_by: rows[index]
                    .price
                    .zip(rows[with].price)
                    .map(|(own, others)| others - own),
            });
            if rows[index].judgement.verdict == Verdict::Fits {
                self.fitting.push(rows[index].knife);
            }
            self.order.push(index);
            self.ties.push(tie);
        }
    }

    /// How many fit, in a sentence.
    #[must_use]
    pub fn sentence(&self, solved: &Solved, system: System) -> String {
        let height = system.length(solved.solution.pose.height_of_cut);
        let undecided = match self.counts.undecided {
            0 => String::new(),
            1 => "; one is undecided".to_owned(),
            n => format!("; {n} are undecided"),
        };
        let is_own = solved.document.example_count().is_none();
        let fitting = match (self.counts.fitting, is_own) {
            (0, _) => "No knife passes".to_owned(),
            (1, true) => "One knife passes".to_owned(),
            (n, true) => format!("{n} knives pass"),
            (1, false) => "By example readings one knife would pass".to_owned(),
            (n, false) => format!("By example readings {n} knives would pass"),
        };
        let fitted = solved.document.fitted();
        let is_fitted_among = fitted.is_some_and(|knife| self.fitting.contains(&knife));
        let among = match (is_fitted_among, self.counts.fitting) {
            (false, _) => "",
            (true, 1) => ": the one fitted now",
            (true, _) => ", the one fitted now among them",
        };
        format!("{fitting} at {height} from a new reel to a scrap one{among}{undecided}.")
    }
}

fn count(rows: &[&KnifeRow], verdict: Verdict) -> usize {
    let with = rows.iter().filter(|row| row.judgement.verdict == verdict);
    with.count()
}

fn is_same_room(a: &KnifeRow, b: &KnifeRow) -> bool {
    let off = [a, b].map(|row| row.judgement.off.by_readings).into_iter();
    let within = off.fold(SAME_ROOM, |most, off| if off > most { off } else { most });
    let apart = a.room().deg() - b.room().deg();
    apart.abs() <= within.deg()
}

/// The cheaper first, one without a price last.
fn by_price(a: &KnifeRow, b: &KnifeRow) -> Ordering {
    match (a.price, b.price) {
        (Some(a), Some(b)) => a.total_cmp(&b),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => Ordering::Equal,
    }
}

/// Why a knife has the rank it has, in a sentence or two; `tie` with the other's name.
#[must_use]
pub fn rank_sentence(
    row: &KnifeRow,
    tie: Option<(&Tie, &str)>,
    solved: &Solved,
    system: System,
) -> String {
    let price = solved
        .document
        .knife_at(row.knife)
        .and_then(|knife| knife.price.as_deref());
    let name = match price {
        Some(price) => format!("{}, price {},", Quoted(&row.name), clipped(price, 60)),
        None => Quoted(&row.name).to_string(),
    };
    let judgement = &row.judgement;
    let verdict = judgement.verdict.told(solved.document.example_count());
    let against = judgement.against.iter().copied();
    let mut why: Vec<String> = against.filter_map(besides_room).collect();
    why.push(room_told(row, solved, system));
    let mut told = format!("{name} {verdict}: {}.", why.join("; "));
    if let Some((tie, other)) = tie
        && row.set_once.is_some()
    {
        told.push(' ');
        told.push_str(&tie_sentence(tie, other));
    }
    if row.judgement.verdict != Verdict::DoesNotFit
        && let Some(as_set) = as_set_now(row, solved, system)
    {
        told.push(' ');
        told.push_str(&as_set);
    }
    told
}

/// What stands against the unit as it is set now, for the knife that is on it: a knife that passes can
/// be set wrong. None for another knife, and where every finding is OK.
fn as_set_now(row: &KnifeRow, solved: &Solved, system: System) -> Option<String> {
    if solved.document.fitted() != Some(row.knife) {
        return None;
    }
    let examples = solved.document.example_count();
    let against = solved
        .findings
        .iter()
        .filter(|finding| finding.shown_level() > Level::Fine);
    let against: Vec<_> = against
        .map(|finding| {
            let title = finding.title().to_lowercase();
            format!("{title}, {}", finding.standing_on(examples))
        })
        .collect();
    let pose = &solved.solution.pose;
    (!against.is_empty()).then(|| {
        format!(
            "As the unit is set now, attitude {}, height of cut {}: {}.",
            system.angle(pose.attitude),
            system.length(pose.height_of_cut),
            against.join("; ")
        )
    })
}

/// The room that a knife leaves set once, or what stands apart where there is none.
fn room_told(row: &KnifeRow, solved: &Solved, system: System) -> String {
    let judgement = &row.judgement;
    let angle = |angle| system.angle(angle);
    // What reads as zero is not told.
    let is_told = judgement.off.whole >= SAME_ROOM;
    let off = judgement.off.told(system).filter(|_| is_told);
    let off = off.map(|off| format!(" {off}"));
    if let Some(range) = &row.set_once {
        let is_short = judgement
            .against
            .iter()
            .any(|against| matches!(against, Against::Limit(_)));
        let (low, high) = (angle(range.low.at), angle(range.high.at));
        let room = format!(
            "{}{} of room",
            angle(range.width()),
            off.unwrap_or_default()
        );
        let ends = format!(
            "(below it {}, above it {})",
            range.low.limit.name(),
            range.high.limit.name()
        );
        return if is_short {
            let least = angle(solved.unit.limits.room);
            format!(
                "works only from {low} to {high} for the whole life of the reel, {room}, at least {least} wanted {ends}"
            )
        } else {
            format!(
                "set it once between {low} and {high} for the whole life of the reel: {room} {ends}"
            )
        };
    }
    let names = |limits: &[Limit], name: fn(Limit) -> &'static str| {
        let names: Vec<_> = limits.iter().map(|limit| name(*limit)).collect();
        names.join(" or ")
    };
    match &judgement.apart {
        Some(Apart::Ends {
            more_than,
            less_than,
        }) => {
            let end = |end: &End| {
                let (what, reel) = (end.limit.what_for(), system.length(end.diameter));
                format!("{} for {what} (reel {reel})", angle(end.at))
            };
            let off = off.map(|off| format!(" (known to{off})"));
            format!(
                "it needs more than {}, less than {}{}",
                end(more_than),
                end(less_than),
                off.unwrap_or_default()
            )
        }
        Some(Apart::Nowhere(limits)) => {
            let what = names(limits, Limit::what_for);
            format!("no attitude works for {what}")
        }
        Some(Apart::InTurn(limits)) => {
            let passed = names(limits, Limit::name);
            format!("no single attitude holds every limit from a new reel to a scrap one: {passed}")
        }
        None => "no attitude can be set once".to_owned(),
    }
}

/// What stands against a knife besides its room.
fn besides_room(against: Against) -> Option<String> {
    match against {
        Against::Limit(_) => None,
        Against::Measure(MeasureOut::ReachOverWidth) => {
            Some("its reach is not less than its width: check both".to_owned())
        }
        Against::Measure(MeasureOut::ThinBody) => {
            Some("its body thickness is less than any knife has: check it".to_owned())
        }
    }
}

fn tie_sentence(tie: &Tie, other: &str) -> String {
    let price = match tie.cheaper_by {
        None => "no price to compare".to_owned(),
        Some(by) if by > 0.0 => format!("{} cheaper", sum_text(by)),
        Some(by) if by < 0.0 => format!("{} dearer", sum_text(-by)),
        Some(_) => "same price".to_owned(),
    };
    format!("Same room as {}, {price}.", Quoted(other))
}

/// What a lean that is not entered leaves open; empty where it is, or where none slides.
fn lean_used(document: &Document, system: System) -> String {
    let is_open = matches!(
        document.closing,
        ClosingReadings::ReelSlides { lean: None } | ClosingReadings::KnifeSlides { lean: None }
    );
    if is_open {
        format!(
            " The slide's lean is not entered: the line from edge to reel centre stands in for it, and every ± of the room allows for up to {} more or less lean (rule of thumb).",
            system.angle(LEAN_OFF)
        )
    } else {
        String::new()
    }
}

/// What the table rests on, for whoever orders by it: the readings, the limits, the drawings.
#[must_use]
pub fn rests_on(document: &Document, system: System) -> [String; 3] {
    let bench = &document.bench;
    [
        format!(
            "Readings used: reel {}, height of cut {}, attitude {}, behind centre {}, gap {}.{}",
            bench.reel_diameter.shown_in(system),
            bench.height_of_cut.shown_in(system),
            bench.attitude.shown_in(system),
            bench.behind_centre.shown_in(system),
            bench.gap.shown_in(system),
            lean_used(document, system),
        ),
        limits_used(document, system),
        "Reach and section come from the supplier's drawing: check them on arrival, gloves on, before you fit the knife.".to_owned(),
    ]
}

/// The limits that a window rests on, each with whether it is the unit's own.
fn limits_used(document: &Document, system: System) -> String {
    let given = document.limits.clone().unwrap_or_default();
    let own = document.system();
    let limits = Limits::in_force(document.turf, Some(&given), own);
    let judged = [
        (
            format!(
                "sweep {} of the height of cut",
                system.share(limits.sweep_over)
            ),
            // A watch limit of one's own may have raised the other with it.
            limits.sweep_over != Limits::starting(document.turf, document.system()).sweep_over
                || given.sweep_over.is_some(),
        ),
        (
            format!("underside {}", system.limit(limits.underside)),
            given.underside.is_some(),
        ),
        (
            format!(
                "edge ahead of centre {}",
                system.limit(limits.ahead_of_centre)
            ),
            given.ahead_of_centre.is_some(),
        ),
    ];
    let starting = if judged.iter().all(|(_, is_own)| *is_own) {
        ""
    } else {
        " Starting values are rules of thumb, not from your own trials."
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
    let whose_room = if given.room.is_some() {
        "from the unit's file"
    } else {
        "starting value"
    };
    let whose = if given.attitude_range.is_some() {
        "from the unit's file"
    } else {
        "the bracket range is not entered"
    };
    let wanted = if given.attitude_range.is_some() {
        ""
    } else {
        " Enter the attitudes that the roller brackets allow under Limits: room outside them does not count."
    };
    format!(
        "Limits used: {}, attitudes {} to {} ({whose}), at least {} of room ({whose_room}).{wanted}{starting}",
        told.join(", "),
        system.angle(low),
        system.angle(high),
        system.angle(limits.room),
    )
}
