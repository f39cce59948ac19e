//! A sheet of the surface plate on the command line: to read, and as JSON.

use serde::Serialize;

use super::plate_text::plate_text;
use super::report::json_text;
use crate::analysis::plate::{
    Correction, Parallel, PlateResult, RollerResult, StationRunout, Verdict,
};
use crate::analysis::{Level, Solved};
use crate::command::Problem;
use crate::geometry::OutOfCentre;
use crate::plate::Worksheet;
use crate::units::{Angle, Length};

/// A sheet worked out for its unit, if it names one: what is printed.
///
/// # Errors
/// When a value of the sheet makes no sense.
pub fn plate(sheet: &Worksheet, unit: Option<&Solved>, is_json: bool) -> Result<String, Problem> {
    let result = PlateResult::of(sheet, unit)?;
    Ok(if is_json {
        json_text(&Report::of(&result))
    } else {
        plate_text(sheet, &result, unit)
    })
}

/// The sheet in the shape of this file format; whatever was not entered is null.
#[derive(Debug, Serialize)]
struct Report {
    front: Option<RollerReport>,
    rear: Option<RollerReport>,
    right_less_left_mm: Option<f64>,
    reel: Option<ReelReport>,
    order: Vec<StepReport>,
}

#[derive(Debug, Serialize)]
struct ReelReport {
    taper_mm: Option<f64>,
    barrel_mm: Option<f64>,
}

#[derive(Debug, Serialize)]
struct StepReport {
    step: &'static str,
    state: &'static str,
}

#[derive(Debug, Serialize)]
struct RollerReport {
    slope: Option<f64>,
    out_of_parallel_mm: Option<f64>,
    expanded_mm: Option<f64>,
    high_end: Option<&'static str>,
    verdict: Option<&'static str>,
    at_adjuster_mm: Option<f64>,
    correction: Option<CorrectionReport>,
    runout: Option<Vec<RunoutReport>>,
    bow: Option<BowReport>,
}

#[derive(Debug, Serialize)]
#[serde(untagged)]
enum CorrectionReport {
    Eccentric {
        /// Both places, the nearer turn first; none where they are out of throw.
        eccentric_deg: Option<[f64; 2]>,
        shift_mm: Option<[f64; 2]>,
        /// How far it can still go, down and up.
        reach_mm: [f64; 2],
    },
    Thread {
        turns: f64,
    },
    Shims {
        shims_mm: Vec<f64>,
        left_over_mm: f64,
    },
}

#[derive(Debug, Serialize)]
struct RunoutReport {
    station: &'static str,
    tir_mm: f64,
    eccentricity_mm: f64,
    high_point_deg: f64,
    tir_of_fit_mm: f64,
    left_over_mm: f64,
    verdict: Option<&'static str>,
}

#[derive(Debug, Serialize)]
struct BowReport {
    mm: f64,
    deg: f64,
}

impl Report {
    fn of(result: &PlateResult) -> Self {
        Self {
            front: result.front.as_ref().map(RollerReport::of),
            rear: result.rear.as_ref().map(RollerReport::of),
            right_less_left_mm: result.cut.map(|cut| cut.right_less_left.mm()),
            reel: result.readings.reel.is_read().then(|| ReelReport {
                taper_mm: result.reel_taper.map(Length::mm),
                barrel_mm: result.reel_barrel.map(Length::mm),
            }),
            order: result
                .order
                .iter()
                .map(|(step, state)| StepReport {
                    step: step.title(),
                    state: state.words(),
                })
                .collect(),
        }
    }
}

impl RollerReport {
    fn of(roller: &RollerResult) -> Self {
        let parallel = roller.parallel.as_ref();
        let of = |value: fn(&Parallel) -> f64| parallel.map(value);
        let runout = roller.runout.iter().map(RunoutReport::of).collect();
        Self {
            slope: of(|parallel| parallel.slope),
            out_of_parallel_mm: of(|parallel| parallel.out.mm()),
            expanded_mm: of(|parallel| parallel.expanded.mm()),
            high_end: parallel.map(|parallel| parallel.high.word()),
            verdict: roller.verdict().map(Verdict::id),
            at_adjuster_mm: roller.at_adjuster.map(Length::mm),
            correction: roller.correction.as_ref().map(CorrectionReport::of),
            runout: (!roller.runout.is_empty()).then_some(runout),
            bow: roller.bow.map(BowReport::of),
        }
    }
}

impl CorrectionReport {
    fn of(correction: &Correction) -> Self {
        match correction {
            Correction::Eccentric { reach, turns, .. } => Self::Eccentric {
                eccentric_deg: turns.map(|turns| turns.map(|turn| turn.to.deg())),
                shift_mm: turns.map(|turns| turns.map(|turn| turn.shift.mm())),
                reach_mm: [reach.down.mm(), reach.up.mm()],
            },
            Correction::Thread { turns } => Self::Thread { turns: *turns },
            Correction::Shims(stack) => Self::Shims {
                shims_mm: stack.pieces.iter().map(|piece| piece.mm()).collect(),
                left_over_mm: stack.left_over.mm(),
            },
        }
    }
}

impl RunoutReport {
    fn of(runout: &StationRunout) -> Self {
        let circle = &runout.circle;
        Self {
            station: runout.station.word(),
            tir_mm: circle.read.mm(),
            eccentricity_mm: circle.out_of_centre.size().mm(),
            high_point_deg: circle.out_of_centre.direction().deg(),
            tir_of_fit_mm: circle.read_by_fit().mm(),
            left_over_mm: circle.left_over.mm(),
            verdict: runout.level.map(Level::id),
        }
    }
}

impl BowReport {
    fn of(bow: OutOfCentre) -> Self {
        let (size, direction): (Length, Angle) = (bow.size(), bow.direction());
        Self {
            mm: size.mm(),
            deg: direction.deg(),
        }
    }
}
