//! The numbers of a plate sheet for a spreadsheet: a row each, with the unit in a cell of its own.

use super::table::rows_to_paste;
use crate::analysis::plate::{Correction, ExpectedCut, Parallel, PlateResult, RollerResult};
use crate::plate::{Roller, RollerReadings, Side, Worksheet};
use crate::unit::RowProblem;
use crate::units::{Angle, Length, Measure as _, System, bare};

/// What a sheet says, as rows of name, number and unit, their cells parted by tabs. Lengths are in the
/// units of a reader, angles in degrees; a part that was not read has no row.
///
/// # Errors
/// When a row cannot be written; plain texts always can.
pub fn plate_table_to_paste(
    sheet: &Worksheet,
    result: &PlateResult,
    system: System,
) -> Result<String, RowProblem> {
    let mut rows = Rows {
        rows: vec![["number", "value", "unit"].map(str::to_owned).to_vec()],
        system,
    };
    for (name, text) in [
        ("unit file", &sheet.unit),
        ("date", &sheet.date),
        ("by", &sheet.by),
        ("hours", &sheet.hours),
    ] {
        if !text.is_empty() {
            rows.word(name, text);
        }
    }
    rows.length("cutting width", result.readings.cut_width);
    if let Some(taper) = result.reel_taper {
        rows.length("reel, taper, left - right", taper);
    }
    if let Some(barrel) = result.reel_barrel {
        rows.length("reel, barrel, middle", barrel);
    }
    for (which, read) in [
        (Roller::Front, &result.readings.front),
        (Roller::Rear, &result.readings.rear),
    ] {
        if let (Some(roller), Some(read)) = (result.roller(which), read) {
            rows.roller(which, roller, read);
        }
    }
    if let Some(cut) = &result.cut {
        rows.cut(cut);
    }
    rows_to_paste(&rows.rows)
}

/// A place of a turn, from 0° round to 360°.
fn round_the_turn(at: Angle) -> Angle {
    Angle::from_deg(at.deg().rem_euclid(360.0))
}

struct Rows {
    rows: Vec<Vec<String>>,
    system: System,
}

impl Rows {
    fn add(&mut self, name: &str, value: String, unit: &str) {
        self.rows
            .push(vec![name.to_owned(), value, unit.to_owned()]);
    }

    fn word(&mut self, name: &str, word: &str) {
        self.add(name, word.to_owned(), "");
    }

    fn length(&mut self, name: &str, length: Length) {
        let (unit, _) = Length::unit_in(self.system);
        self.add(name, length.bare(self.system), unit);
    }

    fn angle(&mut self, name: &str, angle: Angle) {
        let (unit, _) = Angle::unit_in(self.system);
        self.add(name, angle.bare(self.system), unit);
    }

    fn roller(&mut self, which: Roller, roller: &RollerResult, read: &RollerReadings) {
        let of = format!("{} roller", which.word());
        if let Some(parallel) = &roller.parallel {
            self.parallel(&of, parallel);
        }
        if let (Some(down), Some(side)) = (roller.at_adjuster, read.adjust) {
            let end = format!("{of}, {} adjuster", side.word());
            self.length(&format!("{end}, up"), -down);
            if let Some(correction) = &roller.correction {
                self.correction(&of, correction, side);
            }
        }
        for station in &roller.runout {
            let (at, circle) = (station.station.word(), &station.circle);
            let of = format!("{of}, runout, {at}");
            self.length(&format!("{of}, read"), circle.read);
            self.length(&format!("{of}, by the circle fitted"), circle.read_by_fit());
            let high = circle.out_of_centre.direction();
            self.angle(&format!("{of}, high at"), round_the_turn(high));
            self.length(&format!("{of}, left over"), circle.left_over);
            if let Some(level) = station.level {
                self.word(&of, level.word());
            }
        }
        if let Some(bow) = roller.bow {
            self.length(&format!("{of}, bow"), bow.size());
            let towards = round_the_turn(bow.direction());
            self.angle(&format!("{of}, bow towards"), towards);
        }
    }

    fn parallel(&mut self, of: &str, parallel: &Parallel) {
        let of = format!("{of}, out of parallel");
        self.length(&format!("{of}, right end high"), parallel.out);
        self.length(&format!("{of}, ± (k = 2)"), parallel.expanded);
        self.word(&format!("{of}, high end"), parallel.high.word());
        if let (Some(within), Some(verdict)) = (parallel.within, parallel.verdict) {
            self.length(&format!("{of}, wanted within"), within);
            self.word(&format!("{of}, as wanted"), verdict.word());
        }
    }

    fn correction(&mut self, of: &str, correction: &Correction, side: Side) {
        match correction {
            Correction::Eccentric {
                reach,
                turns,
                split,
            } => {
                for (name, turn) in ["eccentric", "eccentric, the other way"]
                    .into_iter()
                    .zip(turns.iter().flatten())
                {
                    self.angle(&format!("{of}, {name}, to"), turn.to);
                    self.angle(&format!("{of}, {name}, turn"), turn.turn);
                    self.length(&format!("{of}, {name}, shift"), turn.shift);
                }
                if let Some(split) = split {
                    for (end, raise) in [(side, split.here), (side.other(), split.there)] {
                        let end = end.word();
                        self.length(&format!("{of}, both ends moved, {end}, up"), raise);
                    }
                }
                self.length(&format!("{of}, throw left, down"), -reach.down);
                self.length(&format!("{of}, throw left, up"), reach.up);
            }
            Correction::Thread { turns } => {
                self.add(&format!("{of}, thread, up"), bare(*turns), "turns");
            }
            Correction::Shims(stack) => {
                for (piece, thickness) in (1..).zip(&stack.pieces) {
                    self.length(&format!("{of}, shim {piece}"), *thickness);
                }
                self.length(&format!("{of}, shims, left over"), stack.left_over);
            }
        }
    }

    fn cut(&mut self, cut: &ExpectedCut) {
        let of = "height of cut to expect";
        self.length(&format!("{of}, right less left"), cut.right_less_left);
        self.length(&format!("{of}, right less left, ± (k = 2)"), cut.expanded);
        for (at, height) in ["left", "middle", "right"].into_iter().zip(cut.heights) {
            self.length(&format!("{of}, {at}"), height);
        }
        if let Some(measured) = cut.measured {
            let of = "height of cut measured, right less left";
            self.length(of, measured.right_less_left);
            self.length(&format!("{of}, ± (k = 2)"), measured.expanded);
            let agrees = if measured.agrees {
                "as expected"
            } else {
                "not as expected"
            };
            self.word(&format!("{of}, beside what was expected"), agrees);
        }
    }
}
