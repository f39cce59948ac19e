//! What a sheet comes to, a row at a time: the one walk through its result, for text, paper and spreadsheet.

use super::correction::Correction;
use super::cut::ExpectedCut;
use super::parallel::{HighEnd, Parallel};
use super::result::PlateResult;
use super::roller::RollerResult;
use super::runout::StationRunout;
use crate::analysis::Level;
use crate::analysis::end_high::out_with_end;
use crate::plate::{Roller, Side, Step};
use crate::units::{Angle, Length, System, fixed};

/// A number of a row by itself, as a spreadsheet takes it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Figure {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// Turns of a thread.
    Turns(f64),
    /// A word: a verdict, an end.
    Word(&'static str),
}

/// A row: what it is, what it says, and the same in figures.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateRow {
    /// What it is; empty for a sentence that goes with the row before it.
    pub name: String,
    /// What it says, to be read.
    pub told: String,
    /// The figures in it, each with its own name among those of its part of the sheet.
    pub figures: Vec<(String, Figure)>,
}

impl PlateRow {
    fn new(name: impl Into<String>, told: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            told: told.into(),
            figures: Vec::new(),
        }
    }

    /// A sentence that goes with the row before it.
    fn sentence(told: impl Into<String>) -> Self {
        Self::new("", told)
    }

    fn with(mut self, name: impl Into<String>, figure: Figure) -> Self {
        self.figures.push((name.into(), figure));
        self
    }
}

/// A raise with its way in words: an end goes up or down.
fn moved(system: System, raise: Length) -> String {
    let size = system.length(Length::from_mm(raise.mm().abs()));
    let way = if raise < Length::ZERO { "down" } else { "up" };
    format!("{way} {size}")
}

/// Which way an eccentric's turn moves the roller along, and how far: at 0° it points forward.
#[must_use]
pub fn shifted(system: System, shift: Length) -> String {
    let size = system.length(Length::from_mm(shift.mm().abs()));
    match shift.mm() {
        mm if mm.abs() < super::parallel::SAME_MM => {
            "the roller stays where it is along the unit".to_owned()
        }
        mm if mm > 0.0 => format!("the roller goes {size} forward"),
        _ => format!("the roller goes {size} back"),
    }
}

/// By how much a stack of shims misses what is wanted, `left_over` being what it leaves of that.
#[must_use]
pub fn shims_miss(system: System, left_over: Length) -> String {
    let size = system.length(Length::from_mm(left_over.mm().abs()));
    match left_over.mm() {
        mm if mm.abs() < super::parallel::SAME_MM => "as thick as wanted".to_owned(),
        mm if mm > 0.0 => format!("{size} thinner than wanted"),
        _ => format!("{size} thicker than wanted"),
    }
}

/// A place of a turn, from 0° round to 360°.
fn round_the_turn(at: Angle) -> Figure {
    Figure::Angle(Angle::from_deg(at.deg().rem_euclid(360.0)))
}

impl PlateResult {
    /// The rows of the reel.
    #[must_use]
    pub fn reel_rows(&self, system: System) -> Vec<PlateRow> {
        let row = |name: &str, length: Option<Length>| {
            let length = length?;
            let row = PlateRow::new(name, system.length(length));
            Some(row.with(name, Figure::Length(length)))
        };
        let taper = row("taper, left less right", self.reel_taper);
        let barrel = row("barrel, middle", self.reel_barrel);
        let doubts = self.doubt_rows(Step::Reel, system);
        taper.into_iter().chain(barrel).chain(doubts).collect()
    }

    /// What is not as it should be between knife and reel.
    #[must_use]
    pub fn knife_rows(&self, system: System) -> Vec<PlateRow> {
        self.doubt_rows(Step::KnifeToReel, system)
    }

    /// The rows of a roller; none where nobody read anything of it.
    #[must_use]
    pub fn roller_rows(&self, roller: Roller, system: System) -> Vec<PlateRow> {
        let both = self.roller(roller).zip(self.readings.roller(roller));
        let Some((result, read)) = both else {
            return Vec::new();
        };
        let (ends, runout) = match roller {
            Roller::Front => (Step::FrontEnds, Step::FrontRunout),
            Roller::Rear => (Step::RearEnds, Step::RearRunout),
        };
        let mut rows = match &result.parallel {
            Some(parallel) => {
                let notes = self.ends_notes(roller, system);
                parallel_rows(result, parallel, &notes, self.readings.cut_width, system)
            }
            None => vec![PlateRow::new(
                "out of parallel",
                "not read: it takes both ends, how far apart they were read, and the bar",
            )],
        };
        if let Some(before) = read.out_before {
            let told = out_with_end(system, before);
            let row = PlateRow::new("when the work began", told);
            rows.push(row.with(
                "out of parallel, when the work began",
                Figure::Length(before),
            ));
        }
        if let (Some(down), Some(side)) = (result.at_adjuster, read.adjust) {
            let name = format!("{} adjuster", side.word());
            let up = format!("{name}, up");
            let told = result
                .why_left()
                .map_or_else(|| moved(system, -down), ToOwned::to_owned);
            let row = PlateRow::new(name, told);
            rows.push(row.with(up, Figure::Length(-down)));
            if let Some(correction) = result.correction.as_ref().filter(|_| !result.is_left()) {
                rows.extend(correction_rows(correction, side, system));
            }
        }
        rows.extend(self.doubt_rows(ends, system));
        let of_station = |station: &StationRunout| runout_row(station, system);
        rows.extend(result.runout.iter().map(of_station));
        if let Some(bow) = result.bow {
            let (size, towards) = (bow.size(), bow.direction());
            let told = format!(
                "{} towards {}",
                system.length(size),
                system.round_the_turn(towards)
            );
            let row = PlateRow::new("bow", told).with("bow", Figure::Length(size));
            rows.push(row.with("bow towards", round_the_turn(towards)));
        }
        let notes = self.runout_notes(roller, system);
        rows.extend(notes.into_iter().map(PlateRow::sentence));
        rows.extend(self.doubt_rows(runout, system));
        rows
    }

    /// The rows of the cut to expect, and of the one that was measured.
    #[must_use]
    pub fn cut_rows(&self, system: System) -> Vec<PlateRow> {
        let cut = self.cut.as_ref();
        let mut rows = cut.map_or_else(Vec::new, |cut| cut_rows(cut, system));
        rows.extend(self.doubt_rows(Step::Attitude, system));
        rows
    }

    /// What cannot be, of what was read in a step.
    fn doubt_rows(&self, step: Step, system: System) -> Vec<PlateRow> {
        let told = self.doubts_of(step).map(|doubt| doubt.told_alone(system));
        told.map(PlateRow::sentence).collect()
    }
}

fn parallel_rows(
    roller: &RollerResult,
    parallel: &Parallel,
    notes: &[String],
    cut_width: Length,
    system: System,
) -> Vec<PlateRow> {
    let high = match parallel.high {
        HighEnd::Left => "left end high",
        HighEnd::Right => "right end high",
        HighEnd::Level => "level as far as the readings show",
    };
    let size = Length::from_mm(parallel.out.mm().abs());
    let told = format!(
        "{} ± {} (k = 2) over {}, {high}",
        system.length(size),
        system.length(parallel.expanded),
        system.length(cut_width)
    );
    let of = |what: &str| format!("out of parallel, {what}");
    let mut rows = vec![
        PlateRow::new("out of parallel", told)
            .with(of("right end high"), Figure::Length(parallel.out))
            .with(of("± (k = 2)"), Figure::Length(parallel.expanded))
            .with(of("high end"), Figure::Word(parallel.high.word())),
    ];
    if let (Some(within), Some(verdict)) = (parallel.within, roller.sure_verdict()) {
        let told = format!("within {}: {}", system.length(within), verdict.word());
        let row = PlateRow::new("wanted", told)
            .with(of("wanted within"), Figure::Length(within))
            .with(of("as wanted"), Figure::Word(verdict.word()));
        rows.push(row);
    }
    rows.extend(notes.iter().map(PlateRow::sentence));
    if let Some(told) = parallel.least_sure() {
        rows.push(PlateRow::new("least sure", told));
    }
    rows
}

fn correction_rows(correction: &Correction, side: Side, system: System) -> Vec<PlateRow> {
    match correction {
        Correction::Eccentric { .. } => eccentric_rows(correction, side, system),
        Correction::Thread { turns } => {
            let told = format!(
                "{} turns, {} flats of the nut, to {} the roller's end",
                fixed(turns.abs(), 2),
                fixed(turns.abs() * 6.0, 1),
                if *turns < 0.0 { "lower" } else { "raise" }
            );
            vec![PlateRow::new("thread", told).with("thread, up", Figure::Turns(*turns))]
        }
        Correction::Shims(stack) => {
            let pieces = stack.pieces.iter().map(|piece| system.length(*piece));
            let pieces: Vec<_> = pieces.collect();
            let pieces = if pieces.is_empty() {
                "no shim comes nearer".to_owned()
            } else {
                pieces.join(" + ")
            };
            let told = format!("{pieces}; {}", shims_miss(system, stack.left_over));
            let row = PlateRow::new("shims", told);
            let row = (1..).zip(&stack.pieces).fold(row, |row, (piece, size)| {
                row.with(format!("shim {piece}"), Figure::Length(*size))
            });
            vec![row.with("shims, left over", Figure::Length(stack.left_over))]
        }
    }
}

fn eccentric_rows(correction: &Correction, side: Side, system: System) -> Vec<PlateRow> {
    let Correction::Eccentric {
        reach,
        turns,
        split,
    } = correction
    else {
        return Vec::new();
    };
    let mut rows = Vec::new();
    let names = [
        ("eccentric to", "eccentric"),
        ("or to", "eccentric, the other way"),
    ];
    for ((name, of), turn) in names.into_iter().zip(turns.iter().flatten()) {
        let told = format!(
            "{}, a turn of {}; {}",
            system.angle(turn.to),
            system.angle(turn.turn),
            shifted(system, turn.shift)
        );
        let row = PlateRow::new(name, told)
            .with(format!("{of}, to"), Figure::Angle(turn.to))
            .with(format!("{of}, turn"), Figure::Angle(turn.turn))
            .with(format!("{of}, shift"), Figure::Length(turn.shift));
        rows.push(row);
    }
    if let Some(split) = split {
        let told = format!(
            "out of throw. Move both ends: {} {}, {} {}.",
            side.word(),
            moved(system, split.here),
            side.other().word(),
            moved(system, split.there)
        );
        let up = |end: Side| format!("both ends moved, {}, up", end.word());
        let row = PlateRow::new("eccentric", told)
            .with(up(side), Figure::Length(split.here))
            .with(up(side.other()), Figure::Length(split.there));
        rows.push(row);
    }
    let told = format!(
        "{} down, {} up",
        system.length(-reach.down),
        system.length(reach.up)
    );
    let row = PlateRow::new("throw left as it stands now", told)
        .with("throw left, down", Figure::Length(-reach.down))
        .with("throw left, up", Figure::Length(reach.up));
    rows.push(row);
    rows.push(PlateRow::sentence(
        "Rule of thumb: leave the leading eccentric level and adjust the trailing one.",
    ));
    rows
}

fn runout_row(station: &StationRunout, system: System) -> PlateRow {
    let circle = &station.circle;
    let (by_fit, high) = (circle.read_by_fit(), circle.out_of_centre.direction());
    let level = station.level;
    let judged = |level: Level| {
        let by = if station.is_judged_by_fit() {
            " by the circle fitted"
        } else {
            ""
        };
        format!("{}{by}: ", level.word())
    };
    let [read, fitted] = [circle.read, by_fit].map(|length| system.length(length));
    let both = if read == fitted {
        format!("{read} read and by the circle fitted")
    } else {
        format!("{read} read, {fitted} by the circle fitted")
    };
    let told = format!(
        "{}{both}, high at {}, {} left over",
        level.map_or_else(String::new, judged),
        system.round_the_turn(high),
        system.length(circle.left_over),
    );
    let name = format!("runout, {}", station.station.word());
    let of = |what: &str| format!("{name}, {what}");
    let row = PlateRow::new(&*name, told)
        .with(of("read"), Figure::Length(circle.read))
        .with(of("by the circle fitted"), Figure::Length(by_fit))
        .with(of("high at"), round_the_turn(high))
        .with(of("left over"), Figure::Length(circle.left_over));
    match level {
        Some(level) => row.with(&*name, Figure::Word(level.word())),
        None => row,
    }
}

fn cut_rows(cut: &ExpectedCut, system: System) -> Vec<PlateRow> {
    let length = |length: Length| system.length(length);
    let expected = format!(
        "{} ± {} (k = 2)",
        length(cut.right_less_left),
        length(cut.expanded)
    );
    let of = |what: &str| format!("height of cut to expect, {what}");
    let heights = ["left", "middle", "right"].into_iter().zip(cut.heights);
    let all = PlateRow::new("left, middle, right", cut.heights.map(length).join(", "));
    let mut rows = vec![
        PlateRow::new("right minus left", expected)
            .with(of("right minus left"), Figure::Length(cut.right_less_left))
            .with(
                of("right minus left, ± (k = 2)"),
                Figure::Length(cut.expanded),
            ),
        heights.fold(all, |row, (at, height)| {
            row.with(of(at), Figure::Length(height))
        }),
    ];
    let of = "height of cut measured, right minus left";
    if let Some(measured) = cut.measured {
        let off = measured.expanded.map_or_else(
            || ", ± not entered".to_owned(),
            |off| format!(" ± {}", length(off)),
        );
        let told = format!("{}{off}", length(measured.right_less_left));
        let row =
            PlateRow::new("measured", told).with(of, Figure::Length(measured.right_less_left));
        rows.push(match measured.expanded {
            Some(off) => row.with(format!("{of}, ± (k = 2)"), Figure::Length(off)),
            None => row,
        });
    }
    let places: Vec<_> = cut.places_read().collect();
    if !places.is_empty() {
        let told = places.iter().map(|place| {
            let sign = if place.over < Length::ZERO { "" } else { "+" };
            format!("{} {sign}{}", place.station.word(), length(place.over))
        });
        let row = PlateRow::new("less expected", told.collect::<Vec<_>>().join(", "));
        rows.push(places.iter().fold(row, |row, place| {
            let name = format!("height of cut less expected, {}", place.station.word());
            row.with(name, Figure::Length(place.over))
        }));
    }
    if let Some(told) = cut.told(system) {
        let row = PlateRow::sentence(told);
        rows.push(row.with(
            format!("{of}, beside what was expected"),
            Figure::Word(cut.word()),
        ));
    }
    rows
}
