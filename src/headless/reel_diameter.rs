//! A reel's diameter from readings that take it short.

use serde::Serialize;

use super::report::json_text;
use crate::analysis::ReelFrom;
use crate::command::{Problem, caution};
use crate::units::{Length, Measure as _, Quantity};

/// What was read, as typed.
#[derive(Clone, Copy, Debug)]
pub struct ReelRead<'a> {
    /// The longest distance over two blade tips.
    pub tips: Option<&'a str>,
    /// Over two straight bars along the reel, on opposite sides.
    pub over_bars: Option<&'a str>,
    /// Both bars together, without the reel.
    pub bars: Option<&'a str>,
    /// A plain tape once round.
    pub tape: Option<&'a str>,
    /// How thick that is.
    pub thickness: Option<&'a str>,
    /// A tape that shows a diameter.
    pub diameter_tape: Option<&'a str>,
}

/// No reel is smaller (common practice, no source).
const SMALLEST: Length = Length::from_mm(25.4);

#[derive(Serialize)]
struct Report {
    reel_diameter_mm: f64,
    /// Its expanded uncertainty, about 95 %; left out where no reading carries a ±.
    #[serde(skip_serializing_if = "Option::is_none")]
    reel_diameter_off_mm: Option<f64>,
}

/// The diameter of a reel of so many blades, in the units of the reading.
///
/// # Errors
/// When a reading is none, is not above zero, or cannot be on such a reel.
pub fn reel_diameter(blades: u32, read: ReelRead, is_json: bool) -> Result<String, Problem> {
    let zero = Quantity::default();
    let thickness = read
        .thickness
        .map(|text| length("thickness", text, true))
        .transpose()?;
    let bars = read
        .bars
        .map(|text| length("bars", text, false))
        .transpose()?;
    let reading;
    let (option, from) = match (read.tips, read.tape, read.over_bars, read.diameter_tape) {
        (Some(text), ..) => {
            reading = length("tips", text, false)?;
            ("tips", ReelFrom::Tips(&reading))
        }
        (None, Some(text), ..) => {
            reading = length("tape", text, false)?;
            let thickness = thickness.as_ref().unwrap_or(&zero);
            let from = ReelFrom::Tape {
                length: &reading,
                thickness,
            };
            ("tape", from)
        }
        (None, None, Some(text), _) => {
            reading = length("over-bars", text, false)?;
            let bars = bars.as_ref().unwrap_or(&zero);
            let from = ReelFrom::Bars {
                over: &reading,
                bars,
            };
            ("over-bars", from)
        }
        (None, None, None, text) => {
            reading = length("diameter-tape", text.unwrap_or_default(), false)?;
            ("diameter-tape", ReelFrom::DiameterTape(&reading))
        }
    };
    let system = reading.system();
    let found = from.diameter(blades).map_err(|why| Problem::Reading {
        option,
        what: why.sentence().shown_in(system),
    })?;
    if found.value < SMALLEST {
        let told = system.length(found.value);
        let what = format!(
            "that gives a reel of {told}, less than any has ({}); see whether the unit is right",
            system.length(SMALLEST)
        );
        return Err(Problem::Reading { option, what });
    }
    let off = found.expanded;
    let has_off = off.mm() > 0.0;
    if is_json {
        return Ok(json_text(&Report {
            reel_diameter_mm: found.value.mm(),
            reel_diameter_off_mm: has_off.then_some(off.mm()),
        }));
    }
    let diameter = system.length(found.value);
    let told = if has_off {
        format!("{diameter} ± {} (95 %)", system.length(off))
    } else {
        format!("{diameter}, ± not entered")
    };
    Ok(format!("Reel diameter: {told}\n\n{}\n", caution()))
}

fn length(
    option: &'static str,
    text: &str,
    may_be_zero: bool,
) -> Result<Quantity<Length>, Problem> {
    let wrong = |what: String| Problem::Reading { option, what };
    let quantity = Quantity::<Length>::parse(text).map_err(|problem| wrong(problem.to_string()))?;
    let mm = quantity.value().mm();
    let off_mm = quantity.half_width().map_or(0.0, Length::mm);
    let (most_mm, most) = Length::MOST;
    if mm < 0.0 || mm == 0.0 && !may_be_zero {
        let least = if may_be_zero {
            "not be negative"
        } else {
            "be more than zero"
        };
        return Err(wrong(format!("{text} must {least}")));
    }
    if mm > most_mm {
        return Err(wrong(format!("{text} is more than {most}")));
    }
    if off_mm >= mm && !may_be_zero {
        return Err(wrong(format!("the ± in {text} leaves no reading")));
    }
    Ok(quantity)
}
