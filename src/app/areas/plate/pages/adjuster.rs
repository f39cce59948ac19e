//! The adjuster of a roller: what is turned, how far, and which way.

use egui::Ui;

use super::ends::{On, aside_ui, parallel_ui};
use super::shown::{Shown, place};
use crate::analysis::Level;
use crate::analysis::plate::{Correction, RollerResult, Split, shifted, shims_miss};
use crate::app::areas::plate::entry::{Entries, number_ui, told_ui};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::words::capitalised;
use crate::geometry::{EccentricTurn, Reach};
use crate::plate::{AdjusterKind, Roller, RollerField, SheetField, Side};
use crate::units::{Angle, Length, System, fixed};

/// Entries of the adjuster, and what it takes.
pub fn adjuster_ui(
    ui: &mut Ui,
    entries: &mut Entries,
    shown: &Shown,
    kinds: &mut [AdjusterKind; 2],
    roller: Roller,
) {
    side_ui(ui, entries, roller);
    kind_ui(ui, entries, kinds, roller);
    let of = |field| SheetField::Of(roller, field);
    entries.row(
        ui,
        "Between the adjusters",
        of(RollerField::AdjustersApart),
        "26 in",
    );
    match kinds[place(roller)] {
        AdjusterKind::Eccentric => {
            entries.row(
                ui,
                "Throw of the eccentric",
                of(RollerField::Throw),
                "1/16 in",
            );
            entries.row(
                ui,
                "Eccentric now (0° = forward, + up)",
                of(RollerField::Now),
                "0 deg",
            );
        }
        AdjusterKind::Thread => {
            entries.row(ui, "Pitch of the thread", of(RollerField::Pitch), "1.25 mm");
            entries.row(
                ui,
                "Thread leans from upright by",
                of(RollerField::Tilt),
                "0 deg",
            );
        }
        AdjusterKind::Shims => {
            let hint = "0.005 in, 0.010 in";
            entries.list_row(ui, "Shims in stock", of(RollerField::Shims), hint);
        }
    }
    let result = shown
        .result
        .as_ref()
        .and_then(|result| result.roller(roller));
    let Some(result) = result else { return };
    ui.add_space(6.0);
    if let Some(parallel) = &result.parallel {
        parallel_ui(ui, parallel, shown, (roller, On::Adjuster));
    }
    let kind = kinds[place(roller)];
    correction_ui(ui, entries, result, shown.system, (roller, kind));
}

fn side_ui(ui: &mut Ui, entries: &mut Entries, roller: Roller) {
    let Some(sheet) = entries.desk.sheet() else {
        return;
    };
    let now = sheet.sheet().roller(roller).and_then(|entry| entry.adjust);
    ui.horizontal_wrapped(|ui| {
        ui.label("End that is moved");
        for side in Side::ALL {
            if ui.radio(now == Some(side), side.word()).clicked() && now != Some(side) {
                entries
                    .desk
                    .edit_sheet("end that is moved", None, |entries| {
                        entries.adjust(roller, side);
                    });
            }
        }
    });
}

fn kind_ui(ui: &mut Ui, entries: &mut Entries, kinds: &mut [AdjusterKind; 2], roller: Roller) {
    let Some(sheet) = entries.desk.sheet() else {
        return;
    };
    let kind = &mut kinds[place(roller)];
    *kind = sheet.entries().adjuster_kind(roller).unwrap_or(*kind);
    let mut chosen = *kind;
    ui.horizontal_wrapped(|ui| {
        ui.label("Moved by");
        for offered in AdjusterKind::ALL {
            ui.radio_value(&mut chosen, offered, offered.name());
        }
    });
    if chosen != *kind {
        *kind = chosen;
        let system = entries.desk.system();
        entries
            .desk
            .edit_sheet("kind of adjuster", None, |entries| {
                entries.change_adjuster(roller, chosen, system);
            });
    }
    let sheet = entries.desk.sheet();
    let aside = sheet.map_or_else(Vec::new, |sheet| sheet.entries().kinds_aside(roller));
    aside_ui(
        ui,
        &aside.iter().map(|kind| kind.name()).collect::<Vec<_>>(),
    );
}

/// What is done at the adjuster, and the button for when it was done.
fn correction_ui(
    ui: &mut Ui,
    entries: &mut Entries,
    result: &RollerResult,
    system: System,
    (roller, kind): (Roller, AdjusterKind),
) {
    let Some(side) = entries
        .desk
        .sheet()
        .and_then(|sheet| sheet.sheet().roller(roller)?.adjust)
    else {
        let left = result
            .why_left()
            .map(|left| format!("{}.", capitalised(left)));
        ui.label(left.unwrap_or_else(|| "Choose the end to move to see what it takes.".to_owned()));
        return;
    };
    let Some(down) = result.at_adjuster else {
        ui.label("Read both ends and enter the distance between the adjusters to see what the adjuster takes.");
        return;
    };
    ui.label(Lettering::Heading.of("At the adjuster"));
    let name = format!("Move the {} end", side.word());
    let told = result
        .why_left()
        .map_or_else(|| moved(system, -down), ToOwned::to_owned);
    number_ui(ui, &name, &told);
    // Where the eccentric may stand once it has been moved.
    let mut stands = Vec::new();
    match &result.correction {
        _ if result.is_left() => {}
        None => {
            ui.label(match kind {
                AdjusterKind::Eccentric => {
                    "Enter the throw and where the eccentric stands to see how far to turn it."
                }
                AdjusterKind::Thread => "Enter the thread's pitch to see how far to turn it.",
                AdjusterKind::Shims => "Enter the shims in stock to see which of them to take.",
            });
        }
        Some(Correction::Eccentric {
            reach,
            turns,
            split,
        }) => {
            stands = match (turns, split) {
                (Some([near, far]), _) if near.to == far.to => vec![near.to],
                (Some([near, far]), _) => vec![near.to, far.to],
                // As far as it goes: straight up, or straight down.
                (None, Some(_)) if down > Length::ZERO => vec![Angle::from_deg(-90.0)],
                (None, Some(_)) => vec![Angle::from_deg(90.0)],
                (None, None) => Vec::new(),
            };
            eccentric_ui(ui, *turns, *split, *reach, (side, system));
        }
        Some(Correction::Thread { turns }) => thread_ui(ui, *turns),
        Some(Correction::Shims(stack)) => {
            let pieces: Vec<_> = stack
                .pieces
                .iter()
                .map(|piece| system.length(*piece))
                .collect();
            let what = if down < Length::ZERO {
                "Shims to put in"
            } else {
                "Shims to take out"
            };
            let told = if pieces.is_empty() {
                "none comes nearer".to_owned()
            } else {
                pieces.join(" + ")
            };
            number_ui(ui, what, &told);
            number_ui(ui, "The stack is", &shims_miss(system, stack.left_over));
        }
    }
    ui.add_space(4.0);
    let out = result.parallel.as_ref().map(|parallel| parallel.out);
    moved_ui(ui, entries, &stands, system, (roller, out));
}

/// The buttons for when it was moved: one for each place that an eccentric may stand at then.
fn moved_ui(
    ui: &mut Ui,
    entries: &mut Entries,
    stands: &[Angle],
    system: System,
    (roller, out): (Roller, Option<Length>),
) {
    let named: Vec<_> = if stands.is_empty() {
        vec![("I moved it: read again".to_owned(), None)]
    } else {
        let named = |at: &Angle| {
            let name = format!("I turned it to {}: read again", system.angle(*at));
            (name, Some(*at))
        };
        stands.iter().map(named).collect()
    };
    let help = "Clears this roller's end readings so that you read them again, and marks the steps after it to be done again";
    let mut done = None;
    ui.horizontal_wrapped(|ui| {
        for (name, at) in named {
            let button =
                egui::Button::new(Lettering::Name.of(name)).min_size(egui::Vec2::new(200.0, 34.0));
            if ui.add(button).on_hover_text(help).clicked() {
                done = Some(at);
            }
        }
    });
    let Some(at) = done else { return };
    let name = format!("{} roller moved", roller.word());
    entries.desk.edit_sheet(&name, None, |entries| {
        entries.moved(roller, out, at, system);
    });
    let changed = at.map_or_else(String::new, |at| {
        format!(
            " \"Eccentric now\" was changed to {}: type over it if it stands elsewhere.",
            system.angle(at)
        )
    });
    entries.desk.tell(format!(
        "Read both ends of the roller again; what was read after it is to be done again.{changed}"
    ));
}

fn eccentric_ui(
    ui: &mut Ui,
    turns: Option<[EccentricTurn; 2]>,
    split: Option<Split>,
    reach: Reach,
    (side, system): (Side, System),
) {
    if let Some(turns) = turns {
        for (name, turn) in ["Turn to, the nearer", "Or turn to"].into_iter().zip(turns) {
            let told = format!(
                "{}, {}; {}",
                system.angle(turn.to),
                turned(turn.turn),
                shifted(system, turn.shift)
            );
            number_ui(ui, name, &told);
        }
    }
    if let Some(split) = split {
        let told = format!(
            "Out of throw. Move both ends: {} {}, {} {}.",
            side.word(),
            moved(system, split.here),
            side.other().word(),
            moved(system, split.there)
        );
        told_ui(ui, Level::Watch, &told);
    }
    let left = format!(
        "{} down, {} up",
        system.length(-reach.down),
        system.length(reach.up)
    );
    number_ui(ui, "Throw left as it stands now", &left);
    let usual = "Rule of thumb: leave the leading eccentric level and adjust the trailing one.";
    ui.label(Lettering::FinePrint.of(usual).weak());
}

fn thread_ui(ui: &mut Ui, turns: f64) {
    let told = format!(
        "{} turns, {} flats of the nut, the way that {} this end of the roller",
        fixed(turns.abs(), 2),
        fixed(turns.abs() * 6.0, 1),
        if turns < 0.0 { "lowers" } else { "raises" }
    );
    number_ui(ui, "Turn the thread", &told);
}

/// How far an eccentric turns: up is the way that its angle grows.
fn turned(angle: Angle) -> String {
    let way = if angle < Angle::ZERO { "down" } else { "up" };
    format!("{}° {way}", fixed(angle.deg().abs(), 1))
}

/// Which way an end goes, and how far.
pub fn moved(system: System, raise: Length) -> String {
    let size = system.length(Length::from_mm(raise.mm().abs()));
    let way = if raise < Length::ZERO { "down" } else { "up" };
    format!("{way} {size}")
}
