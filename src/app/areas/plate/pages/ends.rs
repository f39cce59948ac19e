//! The gaps under both ends of a roller, and how parallel it is by them.

use egui::Ui;

use super::shown::{Shown, place};
use crate::analysis::Level;
use crate::analysis::plate::{HighEnd, Parallel, Reread, RollerResult, Verdict};
use crate::app::areas::plate::entry::{Beside, Entries, number_ui, told_ui};
use crate::app::widgets::lettering::Lettering;
use crate::plate::{End, GapWay, Roller, RollerField, SheetField, Side};
use crate::units::{Length, System};

/// Entries of both ends, first as the roller lies, then after half a turn.
pub fn ends_ui(
    ui: &mut Ui,
    entries: &mut Entries,
    shown: &Shown,
    ways: &mut [GapWay; 2],
    roller: Roller,
) {
    let Some(sheet) = entries.desk.sheet() else {
        return;
    };
    let entered = sheet.entries().gap_way(roller);
    let way = &mut ways[place(roller)];
    *way = entered.unwrap_or(*way);
    let mut chosen = *way;
    ui.horizontal_wrapped(|ui| {
        ui.label("Read with");
        for offered in GapWay::ALL {
            ui.radio_value(&mut chosen, offered, offered.name());
        }
    });
    if chosen != *way {
        *way = chosen;
        let is_parallel = !entries.is_not_parallel(roller);
        let system = entries.desk.system();
        entries
            .desk
            .edit_sheet("way of reading the ends", None, |entries| {
                entries.change_gap_way(roller, chosen, is_parallel, system);
            });
    }
    let sheet = entries.desk.sheet();
    let aside = sheet.map_or_else(Vec::new, |sheet| sheet.entries().ways_aside(roller));
    aside_ui(ui, &aside.iter().map(|way| way.name()).collect::<Vec<_>>());
    let of = |field| SheetField::Of(roller, field);
    entries.row(
        ui,
        "Between the two places read",
        of(RollerField::MeasuredApart),
        "22 in",
    );
    if chosen == GapWay::OverTop {
        ui.label(Lettering::Heading.of("Roller diameter where it is read"));
        let diameters = Beside {
            entries: Side::ALL
                .map(|side| (side.word(), of(RollerField::Diameter(side))))
                .to_vec(),
            hint: "2.000 in",
        };
        entries.beside(ui, &diameters);
    }
    for (is_half_turn, heading) in [
        (false, "As it lies"),
        (true, "After half a turn of the roller"),
    ] {
        ui.label(Lettering::Heading.of(heading));
        ends_of_turn_ui(ui, entries, roller, chosen, is_half_turn);
    }
    let told = "Read each end twice, half a turn apart, so an eccentric roller does not look like slope. The mean of the two counts.";
    ui.label(Lettering::FinePrint.of(told).weak());
    let result = shown
        .result
        .as_ref()
        .and_then(|result| result.roller(roller));
    match result.and_then(|result| result.parallel.as_ref()) {
        Some(parallel) => parallel_ui(ui, parallel, shown, (roller, On::Ends)),
        None => {
            ui.label("Out of parallel is worked out once both ends, the distance between them and the bar are written down.");
        }
    }
}

/// What waits because it was entered otherwise than is chosen now.
pub fn aside_ui(ui: &mut Ui, names: &[&str]) {
    if names.is_empty() {
        return;
    }
    let names = names.join(" and ");
    let told = format!(
        "Kept while this sheet is open: what was entered for {names}. It comes back when you choose that again. The file holds the choice above alone."
    );
    ui.label(Lettering::FinePrint.of(told).weak());
}

fn ends_of_turn_ui(
    ui: &mut Ui,
    entries: &mut Entries,
    roller: Roller,
    way: GapWay,
    is_half_turn: bool,
) {
    let both = |of: fn(End) -> RollerField, names: [&'static str; 2]| {
        let sides = Side::ALL.into_iter().zip(names);
        sides.map(move |(side, name)| {
            (
                name,
                SheetField::Of(roller, of(End::of(side, is_half_turn))),
            )
        })
    };
    let (row, hint): (Vec<_>, &[&str]) = match way {
        GapWay::Feeler => {
            let goes = both(RollerField::Goes, ["left, goes", "right, goes"]);
            let stops = both(RollerField::StopsAt, ["left, stops", "right, stops"]);
            let [goes, stops]: [Vec<_>; 2] = [goes.collect(), stops.collect()];
            (
                vec![goes[0], stops[0], goes[1], stops[1]],
                &["0.004 in", "0.005 in", "0.004 in", "0.005 in"],
            )
        }
        GapWay::Gap => (
            both(RollerField::Gap, ["left", "right"]).collect(),
            &["0.0045 in ± 0.0005 in"; 2],
        ),
        GapWay::OverTop => (
            both(RollerField::OverTop, ["left", "right"]).collect(),
            &["2.010 in ± 0.0005 in"; 2],
        ),
    };
    entries.beside_with(ui, &row, hint);
}

/// The page on which it is told how parallel a roller is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum On {
    /// That of its ends.
    Ends,
    /// That of its adjuster.
    Adjuster,
}

/// How parallel a roller is, with its verdict, and what to read better.
///
/// Ends to be read again give no verdict: some of what stands there is older than a roller's move.
pub fn parallel_ui(ui: &mut Ui, parallel: &Parallel, shown: &Shown, (roller, on): (Roller, On)) {
    let system = shown.system;
    let result = shown.result.as_ref();
    let of_roller = result.and_then(|result| result.roller(roller));
    let again = of_roller.and_then(|roller| roller.again);
    let verdict = of_roller.and_then(RollerResult::sure_verdict);
    let width = shown
        .result
        .as_ref()
        .map(|result| result.readings.cut_width);
    let over = width.map_or_else(String::new, |width| {
        format!(" over {}", system.length(width))
    });
    let told = format!("{}{over}", out_told(parallel, system));
    number_ui(ui, "Out of parallel", &told);
    number_ui(ui, "High end", high_told(parallel.high));
    match (verdict, parallel.within) {
        _ if matches!(again, Some(Reread::Mixed | Reread::Clash)) => {}
        (Some(Verdict::CannotTell), _) if parallel.verdict == Some(Verdict::Pass) => {
            told_ui(ui, Level::Watch, "Undecided: ± not entered.");
        }
        (Some(verdict), Some(within)) => verdict_ui(ui, verdict, (within, on), system),
        _ => {
            ui.label("No limit to judge it by: write one under The job.");
        }
    }
    let notes = result.map(|result| result.ends_notes(roller, system));
    for note in notes.unwrap_or_default() {
        told_ui(ui, Level::Watch, &note);
    }
    if let Some(told) = parallel.least_sure() {
        let told = format!("Least sure: {told}.");
        ui.label(Lettering::FinePrint.of(told).weak());
    }
}

/// How far a roller is out, with what that can be off.
pub fn out_told(parallel: &Parallel, system: System) -> String {
    let size = Length::from_mm(parallel.out.mm().abs());
    format!(
        "{}, U = {}",
        system.length(size),
        system.length(parallel.expanded)
    )
}

/// The end that stands high.
pub const fn high_told(high: HighEnd) -> &'static str {
    match high {
        HighEnd::Left => "left",
        HighEnd::Right => "right",
        HighEnd::Level => "none, as far as the readings show",
    }
}

/// Whether it is as parallel as it is wanted.
fn verdict_ui(ui: &mut Ui, verdict: Verdict, (within, on): (Length, On), system: System) {
    let next = match on {
        On::Ends => " Go on to its adjuster.",
        On::Adjuster => "",
    };
    let within = system.length(within);
    let (level, told) = match verdict {
        Verdict::Pass => (Level::Fine, format!("Pass: parallel within {within}.")),
        Verdict::Fail => (
            Level::Over,
            format!("Fail: not parallel within {within}.{next}"),
        ),
        Verdict::CannotTell => (
            Level::Watch,
            format!("Undecided: the limit of {within} lies within U."),
        ),
    };
    told_ui(ui, level, &told);
}
