//! A sheet of the surface plate, to read.

use std::fmt::Write as _;

use super::report::in_line;
use crate::analysis::plate::{
    BARS, Correction, ExpectedCut, HighEnd, MOST_TURN, Parallel, PlateResult, RollerResult,
    StepState, bar_choices, part_of_doubt, recommended,
};
use crate::analysis::{Level, Solved};
use crate::command::caution;
use crate::plate::{RollerReadings, Side, Worksheet};
use crate::units::{Length, System, fixed};

/// A sheet worked out, in its own units.
pub(super) fn plate_text(sheet: &Worksheet, result: &PlateResult, unit: Option<&Solved>) -> String {
    let mut page = Page {
        text: String::new(),
        system: sheet.system(),
    };
    page.heading(sheet, unit);
    page.reel(result);
    let readings = &result.readings;
    for (name, roller, read) in [
        ("Front roller", &result.front, &readings.front),
        ("Rear roller", &result.rear, &readings.rear),
    ] {
        if let (Some(roller), Some(read)) = (roller, read) {
            page.title(name);
            page.roller(roller, read, readings.cut_width);
        }
    }
    if let Some(cut) = &result.cut {
        page.title("Height of cut to expect with the rollers as they are");
        page.cut(cut);
    }
    if let Some(unit) = unit {
        page.title("Gauge bars for this unit");
        page.bars(unit);
    }
    page.title("Steps");
    page.steps(result);
    page.line(&format!("\n{}", caution()));
    page.text
}

struct Page {
    text: String,
    system: System,
}

impl Page {
    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn title(&mut self, title: &str) {
        self.line(&format!("\n{title}"));
    }

    fn row(&mut self, name: &str, value: &str) {
        // Writing to a `String` cannot fail.
        let _ = writeln!(self.text, "  {name:22}  {value}");
    }

    fn length(&self, length: Length) -> String {
        self.system.length(length)
    }

    fn heading(&mut self, sheet: &Worksheet, unit: Option<&Solved>) {
        let name = unit.map_or("without a unit file", |unit| &unit.document.name);
        self.line(&format!("Plate sheet: {}", in_line(name)));
        for (name, text) in [
            ("Date", &sheet.date),
            ("By", &sheet.by),
            ("Hours", &sheet.hours),
            ("Notes", &sheet.notes),
        ] {
            if !text.is_empty() {
                self.row(name, &in_line(text));
            }
        }
    }

    fn reel(&mut self, result: &PlateResult) {
        if let Some(taper) = result.reel_taper {
            self.title("Reel");
            self.row("taper, left - right", &self.length(taper));
        }
        if let Some(barrel) = result.reel_barrel {
            self.row("barrel, middle", &self.length(barrel));
        }
    }

    fn roller(&mut self, roller: &RollerResult, read: &RollerReadings, cut_width: Length) {
        match &roller.parallel {
            Some(parallel) => self.parallel(parallel, cut_width),
            None => self.row(
                "out of parallel",
                "not read: it takes both ends, how far apart they were read, and the bar",
            ),
        }
        if let (Some(down), Some(side)) = (roller.at_adjuster, read.adjust) {
            let name = format!("{} adjuster", side.word());
            self.row(&name, &moved(self.system, -down));
            if let Some(correction) = &roller.correction {
                self.correction(correction, side);
            }
        }
        for station in &roller.runout {
            let circle = &station.circle;
            let level = station
                .level
                .map_or(String::new(), |level| format!("{}: ", level.word()));
            let name = format!("runout, {}", station.station.word());
            let told = format!(
                "{level}{} read, {} by the circle fitted, high at {}, {} left over",
                self.length(circle.read),
                self.length(circle.read_by_fit()),
                self.system.round_the_turn(circle.out_of_centre.direction()),
                self.length(circle.left_over),
            );
            self.row(&name, &told);
        }
        if let Some(bow) = roller.bow {
            let told = format!(
                "{} towards {}",
                self.length(bow.size()),
                self.system.round_the_turn(bow.direction())
            );
            self.row("bow", &told);
        }
        let ends = [read.left, read.right];
        if ends.iter().flatten().any(|end| !end.is_of_half_turn) && !roller.runout.is_empty() {
            let is_out = |level: Option<Level>| level.is_some_and(|level| level > Level::Fine);
            if roller.runout.iter().any(|station| is_out(station.level)) {
                self.row("", "This roller runs out: read its ends once more after half a turn, or its runout passes for slope.");
            }
        }
    }

    fn parallel(&mut self, parallel: &Parallel, cut_width: Length) {
        let high = match parallel.high {
            HighEnd::Left => "left end high",
            HighEnd::Right => "right end high",
            HighEnd::Level => "level as far as the readings show",
        };
        let size = Length::from_mm(parallel.out.mm().abs());
        let told = format!(
            "{} ± {} (k = 2) over {}, {high}",
            self.length(size),
            self.length(parallel.expanded),
            self.length(cut_width)
        );
        self.row("out of parallel", &told);
        if let (Some(within), Some(verdict)) = (parallel.within, parallel.verdict) {
            let told = format!("within {}: {}", self.length(within), verdict.word());
            self.row("wanted", &told);
        }
        if let Some((_, sentence)) = parallel.read_better() {
            let told = sentence.shown_in(self.system);
            self.row("", &told);
        }
        if let Some((part, share)) = parallel.parts.first() {
            let told = format!("{}, {}", part.name(), part_of_doubt(*share));
            self.row("least sure", &told);
        }
    }

    fn correction(&mut self, correction: &Correction, side: Side) {
        let system = self.system;
        match correction {
            Correction::Eccentric {
                reach,
                turns,
                split,
            } => {
                if let Some(turns) = turns {
                    for (name, turn) in ["eccentric to", "or to"].into_iter().zip(turns) {
                        let told = format!(
                            "{}, a turn of {}; shifts the roller by {}",
                            system.angle(turn.to),
                            system.angle(turn.turn),
                            system.length(turn.shift)
                        );
                        self.row(name, &told);
                    }
                }
                if let Some(split) = split {
                    let told = format!(
                        "out of throw. Move both ends: {} {}, {} {}.",
                        side.word(),
                        moved(system, split.here),
                        side.other().word(),
                        moved(system, split.there)
                    );
                    self.row("eccentric", &told);
                }
                let told = format!(
                    "{} down, {} up",
                    system.length(-reach.down),
                    system.length(reach.up)
                );
                self.row("throw left", &told);
                self.row(
                    "",
                    "Rule of thumb: leave the leading eccentric level and adjust the trailing one.",
                );
            }
            Correction::Thread { turns } => {
                let told = format!(
                    "{} turns, {} flats of the nut, to {} the roller's end",
                    fixed(turns.abs(), 2),
                    fixed(turns.abs() * 6.0, 1),
                    if *turns < 0.0 { "lower" } else { "raise" }
                );
                self.row("thread", &told);
            }
            Correction::Shims(stack) => {
                let pieces: Vec<_> = stack
                    .pieces
                    .iter()
                    .map(|piece| system.length(*piece))
                    .collect();
                let pieces = if pieces.is_empty() {
                    "no shim comes nearer".to_owned()
                } else {
                    pieces.join(" + ")
                };
                let told = format!("{pieces}; {} left over", system.length(stack.left_over));
                self.row("shims", &told);
            }
        }
    }

    fn cut(&mut self, cut: &ExpectedCut) {
        let told = format!(
            "{} ± {} (k = 2)",
            self.length(cut.right_less_left),
            self.length(cut.expanded)
        );
        self.row("right less left", &told);
        let heights = cut.heights.map(|height| self.length(height));
        self.row("left, middle, right", &heights.join(", "));
        if let Some(measured) = cut.measured {
            let told = format!(
                "{} ± {}: {}",
                self.length(measured.right_less_left),
                self.length(measured.expanded),
                if measured.agrees {
                    "as expected"
                } else {
                    "not as expected. Look for twist, a bent knife or a reading gone wrong."
                }
            );
            self.row("measured", &told);
        }
    }

    fn bars(&mut self, unit: &Solved) {
        let choices = bar_choices(unit, &BARS);
        for choice in &choices {
            let turned = choice.furthest().map_or_else(
                || "a roller does not come down to the plate".to_owned(),
                |turn| format!("turns the unit by up to {}", self.system.angle(turn)),
            );
            let clear = choice.clear.map_or_else(String::new, |clear| {
                if clear > Length::ZERO {
                    format!(", {} clear of the plate", self.length(clear))
                } else {
                    ", and something under the unit meets the plate".to_owned()
                }
            });
            self.row(&self.length(choice.bar), &format!("{turned}{clear}"));
        }
        let told = recommended(&choices).map_or_else(
            || {
                format!(
                    "none of these: each turns the unit by more than {} from its working attitude, or does not clear the plate",
                    self.system.angle(MOST_TURN)
                )
            },
            |choice| self.length(choice.bar),
        );
        self.row("recommended", &told);
    }

    fn steps(&mut self, result: &PlateResult) {
        let mut cautions: Vec<&str> = Vec::new();
        for (step, state) in &result.order {
            let told = if *state == StepState::Done {
                state.words().to_owned()
            } else {
                let caution = step.caution().filter(|caution| !cautions.contains(caution));
                cautions.extend(caution);
                format!("{}: {}", state.words(), step.what_to_do())
            };
            self.row(step.title(), &told);
        }
        if !cautions.is_empty() {
            self.title("Before you touch the unit");
            for caution in cautions {
                self.line(&format!("  {caution}"));
            }
        }
    }
}

/// Which way an end goes, and how far.
fn moved(system: System, raise: Length) -> String {
    let size = system.length(Length::from_mm(raise.mm().abs()));
    let way = if raise.mm() < 0.0 { "down" } else { "up" };
    format!("{way} {size}")
}
