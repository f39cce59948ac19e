//! The runout of a roller: readings round its turn at three stations, and what they come to.

use egui::{Align, Grid, Layout, RadioButton, ScrollArea, Sense, TextEdit, Ui, UiBuilder, Vec2};

use super::shown::Shown;
use super::turn::{COUNTS, Turn};
use crate::analysis::Level;
use crate::analysis::plate::{
    OnceATurn, RollerResult, RunoutLimits, StationRunout, band_in_the_cut,
};
use crate::app::areas::plate::entry::{Entries, number_ui, told_ui};
use crate::app::desk::SheetWork;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::typing::take_all_in_hand;
use crate::plate::{Place, Roller, RollerField, SheetField, Station};
use crate::units::{Angle, Quantity, System};

/// The narrowest and the widest entry of a reading: the narrowest holds a reading as it is written, the
/// widest one with its ±.
const READING: (f32, f32) = (104.0, 176.0);
/// Width of what names a place of the turn.
const TURN: f32 = 56.0;
/// Height of a row of readings, and of their headings.
const ROW: f32 = 38.0;
const HEADS: f32 = 24.0;
/// Height of the line that says why a place cannot be added.
const PROBLEM: f32 = 20.0;

/// Entries round the turn, and the numbers of each station.
pub fn runout_ui(
    ui: &mut Ui,
    entries: &mut Entries,
    shown: &Shown,
    turn: &mut Turn,
    roller: Roller,
) {
    let Some(sheet) = entries.desk.sheet() else {
        return;
    };
    let read = sheet.entries().places_of(roller);
    let places = turn.places(&read);
    places_ui(ui, turn, &read, &places);
    let unit = match shown.system {
        System::Millimetre => "Readings in mm, from one mark on the roller.",
        System::InchDecimal | System::InchFraction => {
            "Readings in thou (0.001 in) where no unit is written, from one mark on the roller."
        }
    };
    ui.label(Lettering::Note.of(unit));
    let each = (ui.available_width() - TURN) / 3.0 - ui.spacing().item_spacing.x;
    let width = each.clamp(READING.0, READING.1);
    ScrollArea::horizontal()
        .id_salt("round the turn")
        .show(ui, |ui| readings_ui(ui, entries, roller, &places, width));
    for place in &places {
        for station in Station::ALL {
            let field = SheetField::Of(roller, RollerField::Runout(station, *place));
            entries.problem_ui(ui, field);
        }
    }
    let sheet = entries.desk.sheet().map(SheetWork::entries);
    let unread = sheet.and_then(|sheet| turn.unread(sheet, roller));
    if let Some(unread) = unread.filter(|_| !read.is_empty()) {
        told_ui(ui, Level::Watch, &format!("Not whole yet: {unread}."));
    }
    also_read_ui(ui, entries, shown.system, roller);
    entries.row(
        ui,
        "Indicator's lever slants by",
        SheetField::Of(roller, RollerField::LeverAngle),
        "0 deg",
    );
    let told = "A lever at an angle A reads too much: the true reading is what it shows times cos A, 0.97 of it at 15°, 0.87 at 30°.";
    ui.label(Lettering::FinePrint.of(told).weak());
    let result = shown
        .result
        .as_ref()
        .and_then(|result| result.roller(roller));
    if let Some(result) = result {
        ui.add_space(6.0);
        numbers_ui(ui, result, shown, roller);
    }
}

/// Which places are read: so many evenly round the turn, and any of one's own.
fn places_ui(ui: &mut Ui, turn: &mut Turn, read: &[Place], places: &[Place]) {
    let count = turn.count(read);
    ui.horizontal_wrapped(|ui| {
        ui.label("Places round the turn");
        for offered in COUNTS {
            let radio = RadioButton::new(count == Some(offered), offered.to_string());
            let radio = ui.add_enabled(turn.can_be(offered, read), radio);
            let why = "Readings stand at other places of the turn: clear those first";
            if radio.on_disabled_hover_text(why).clicked() {
                turn.chosen = Some(offered);
            }
        }
        ui.separator();
        ui.label("and at");
        let own = TextEdit::singleline(&mut turn.own)
            .hint_text("30 deg")
            .desired_width(70.0);
        let own = ui.add(own).accessible_name("Another place of the turn");
        take_all_in_hand(ui, &own, &turn.own);
        if own.changed() {
            turn.problem = None;
        }
        let is_entered = own.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
        if ui.button("Add the place").clicked() || is_entered {
            add_own(turn, places);
        }
        let empty = turn.added.iter().copied();
        let empty: Vec<_> = empty.filter(|place| !read.contains(place)).collect();
        for place in empty {
            let name = format!("Leave out {}°", place.deg());
            if ui.button(name).clicked() {
                turn.added.retain(|added| *added != place);
            }
        }
    });
    // It has its line whether or not there is anything to tell, so that no row moves under the pointer.
    let size = Vec2::new(ui.available_width(), PROBLEM);
    let (place, _) = ui.allocate_exact_size(size, Sense::hover());
    if let Some(problem) = &turn.problem {
        let text = format!("Another place of the turn: {problem}.");
        told_ui(
            &mut ui.new_child(UiBuilder::new().max_rect(place)),
            Level::Over,
            &text,
        );
    }
}

/// Adds the place that is typed, or says why it is none.
fn add_own(turn: &mut Turn, places: &[Place]) {
    match Quantity::<Angle>::typed(&turn.own, "deg") {
        Ok(angle) => {
            let place = Place::at(angle.value().deg());
            turn.problem = places
                .contains(&place)
                .then(|| format!("{}° is among the places already", place.deg()));
            if turn.problem.is_none() {
                turn.added.push(place);
                turn.own.clear();
            }
        }
        Err(problem) => turn.problem = Some(problem.to_string()),
    }
}

/// Columns of entries, all of one width: a grid would give each column the width of its heading. A column is
/// gone down before the next, as the roller is turned under an indicator that stays.
fn readings_ui(ui: &mut Ui, entries: &mut Entries, roller: Roller, places: &[Place], width: f32) {
    ui.horizontal_top(|ui| {
        column_ui(ui, TURN, |ui| {
            cell_ui(ui, (TURN, HEADS), |ui| heading_ui(ui, "Turn"));
            for place in places {
                cell_ui(ui, (TURN, ROW), |ui| {
                    ui.label(format!("{}°", place.deg()));
                });
            }
        });
        for station in Station::ALL {
            column_ui(ui, width, |ui| {
                cell_ui(ui, (width, HEADS), |ui| heading_ui(ui, station.word()));
                for place in places {
                    let field = RollerField::Runout(station, *place);
                    let field = SheetField::Of(roller, field);
                    cell_ui(ui, (width, ROW), |ui| entries.entry(ui, field, width, ""));
                }
            });
        }
    });
}

/// What else was read at a place, which counts and has no entry of its own.
fn also_read_ui(ui: &mut Ui, entries: &mut Entries, system: System, roller: Roller) {
    let Some(sheet) = entries.desk.sheet() else {
        return;
    };
    for also in sheet.entries().also_read(roller, system) {
        let SheetField::Of(_, RollerField::Runout(station, place)) = also.field else {
            continue;
        };
        let at = format!("{} at {}°", station.word(), place.deg());
        let state = if also.counts {
            "counts with the entry"
        } else {
            "waits for the entry"
        };
        let told = format!("Also read, {at}: {}; {state}.", also.readings.join(", "));
        ui.horizontal_wrapped(|ui| {
            ui.label(told);
            let button = ui.small_button("Leave it out");
            let name = format!("Leave out what was also read {at}");
            if button.accessible_name(&name).clicked() {
                entries
                    .desk
                    .edit_sheet(&name, None, |entries| entries.leave_out_again(also.field));
            }
        });
    }
}

fn column_ui(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui)) {
    ui.vertical(|ui| {
        ui.set_width(width);
        ui.spacing_mut().item_spacing.y = 2.0;
        add(ui);
    });
}

fn heading_ui(ui: &mut Ui, text: &str) {
    ui.label(Lettering::Note.of(text).family(strong()));
}

/// A cell of its own size, whatever stands in it.
fn cell_ui(ui: &mut Ui, (width, height): (f32, f32), add: impl FnOnce(&mut Ui)) {
    let (place, _) = ui.allocate_exact_size(Vec2::new(width, height), Sense::hover());
    let layout = Layout::left_to_right(Align::Center);
    add(&mut ui.new_child(UiBuilder::new().max_rect(place).layout(layout)));
}

/// What each station comes to, heave and roll, and the bow.
fn numbers_ui(ui: &mut Ui, result: &RollerResult, shown: &Shown, roller: Roller) {
    let system = shown.system;
    if result.runout.is_empty() {
        ui.label("With three readings at a station its circle is fitted.");
        return;
    }
    Grid::new("runout numbers")
        .num_columns(5)
        .striped(true)
        .spacing((14.0, 4.0))
        .show(ui, |ui| {
            for head in [
                "Station",
                "Read",
                "Twice eccentricity",
                "High at",
                "Left over",
            ] {
                ui.label(Lettering::Note.of(head).family(strong()));
            }
            ui.end_row();
            for station in &result.runout {
                let circle = &station.circle;
                ui.label(station.station.word());
                ui.label(system.length(circle.read));
                ui.label(system.length(circle.read_by_fit()));
                ui.label(system.round_the_turn(circle.out_of_centre.direction()));
                ui.label(system.length(circle.left_over));
                ui.end_row();
            }
        });
    let why = "Read is the largest less the smallest reading. Few places fall short of the whole turn: four by up to 29 %. Twice the eccentricity is what a round roller reads over a whole turn; what is left over are flats, dents and dirt.";
    ui.label(Lettering::FinePrint.of(why).weak());
    verdict_ui(ui, result, shown, roller);
    heave_ui(ui, result, shown, roller);
    if let Some(bow) = result.bow {
        let told = format!(
            "{} towards {}",
            system.length(bow.size()),
            system.round_the_turn(bow.direction())
        );
        number_ui(ui, "Bow, middle over the ends", &told);
    }
}

/// The worst station by the limits that hold, and by the turf's beside them where they are the user's own.
fn verdict_ui(ui: &mut Ui, result: &RollerResult, shown: &Shown, roller: Roller) {
    let system = shown.system;
    let Some(sheet) = &shown.result else {
        return;
    };
    for note in sheet.runout_notes(roller, system) {
        told_ui(ui, Level::Watch, &note);
    }
    let turf = shown.unit.solved().map(|unit| unit.document.turf);
    let starting = turf.map(RunoutLimits::starting);
    let limits = RunoutLimits::of(&sheet.readings, turf);
    let Some(limits) = limits else {
        ui.label("No limit to judge it by: write one under The job.");
        return;
    };
    // What cannot be told counts as the step list counts it.
    let level = |station: &StationRunout| station.level_by(limits).unwrap_or(Level::Watch);
    let worst = result.runout.iter().max_by(|one, other| {
        let sizes = [one, other].map(|station| station.judged().mm());
        let by_size = sizes[0].total_cmp(&sizes[1]);
        level(one).cmp(&level(other)).then(by_size)
    });
    let Some(worst) = worst else { return };
    let told = |whose: &str, limits: RunoutLimits| {
        format!(
            "{}: {} {}; {whose} {} wanted, {} at most.",
            worst.level_by(limits).map_or("undecided", Level::word),
            system.length(worst.judged()),
            worst.judged_by(),
            system.length(limits.wanted),
            system.length(limits.most)
        )
    };
    let is_own = starting != Some(limits);
    let whose = if is_own {
        "your limits,"
    } else {
        "rule of thumb,"
    };
    let level = worst.level_by(limits).unwrap_or(Level::Watch);
    told_ui(ui, level, &told(whose, limits));
    if let Some(starting) = starting.filter(|_| is_own) {
        let beside = told("the turf's rule of thumb,", starting);
        ui.label(Lettering::FinePrint.of(beside).weak());
    }
}

/// What both ends do together, and against each other, and what of it reaches the cut.
fn heave_ui(ui: &mut Ui, result: &RollerResult, shown: &Shown, roller: Roller) {
    let system = shown.system;
    let Some(turn) = OnceATurn::of(&result.runout) else {
        return;
    };
    let told = format!("up and down by {} once a turn", system.length(turn.heave));
    number_ui(ui, "Heave, both ends together", &told);
    let told = format!(
        "one end against the other by {} once a turn",
        system.length(turn.roll)
    );
    number_ui(ui, "Roll, end against end", &told);
    let pose = shown.unit.solved().map(|unit| &unit.solution.pose);
    if let Some((rise, pitch)) = pose.and_then(|pose| band_in_the_cut(pose, roller, turn)) {
        let told = format!(
            "up and down by {}, every {} along the ground",
            system.length(rise),
            system.length(pitch)
        );
        number_ui(ui, "In the cut", &told);
    }
}
