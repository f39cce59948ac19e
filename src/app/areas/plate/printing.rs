//! The sheet on paper: what its page is made of.

use std::sync::Arc;

use super::worked_out::WorkedOut;
use crate::app::desk::{Desk, DeskWork as _, PlateToPrint, ToPrint};
use crate::printing::origin_of;

/// Why the sheet cannot be printed; none while it can.
pub fn why_not_printable(worked_out: &WorkedOut) -> Option<&'static str> {
    if worked_out.result.is_err() {
        Some("A value makes no sense yet: the page says which")
    } else if worked_out.unit.solved().is_none() {
        Some("The head of the page tells the unit: it must be known")
    } else {
        None
    }
}

/// The sheet on the desk as it is printed, or why it cannot be now.
pub fn to_print(desk: &Desk, worked_out: &WorkedOut) -> Result<ToPrint, String> {
    if let Some(why_not) = why_not_printable(worked_out) {
        return Err(format!("Not printed. {why_not}."));
    }
    let (Some(unit), Some(sheet)) = (worked_out.unit.solved(), desk.sheet()) else {
        return Ok(ToPrint::default());
    };
    Ok(ToPrint::Plate(PlateToPrint {
        sheet: Arc::new(sheet.sheet().clone()),
        unit: Arc::clone(&unit.document),
        origin: origin_of(sheet.file(), sheet.digest(), sheet.has_unsaved()),
    }))
}
