//! Which gauge bar the knife is laid on: how far each turns the unit, and whether it clears the plate.

use egui::{Grid, TextEdit, Ui};

use super::shown::Shown;
use crate::analysis::Level;
use crate::analysis::plate::{BARS, bar_choices, none_can_be_used, recommended};
use crate::app::areas::plate::entry::{Entries, told_ui};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::typing::take_all_in_hand;
use crate::plate::BarTaken;
use crate::units::{Length, Measure as _, Quantity, System};

/// The most bars of a shop.
const MOST_BARS: usize = 12;

/// The bars as they are typed.
#[derive(Debug, Default)]
pub struct Bars {
    typed: Option<String>,
    problem: Option<String>,
    chosen: Kept<(crate::analysis::SolvedId, Vec<String>), Vec<crate::analysis::plate::BarChoice>>,
}

/// The bars in the shop, what becomes of the unit on each, and the one to take.
pub fn gauge_bar_ui(ui: &mut Ui, entries: &mut Entries, shown: &Shown, bars: &mut Bars) {
    let system = shown.system;
    let texts = bars_ui(ui, entries, system, bars);
    let Some(unit) = shown.unit.solved() else {
        ui.label("Without its unit there is no telling which bar suits it: open or save the sheet beside the unit file.");
        return;
    };
    let key = (unit.id, texts.clone());
    let choices = bars.chosen.get(key, |(_, texts)| {
        let lengths: Vec<_> = texts
            .iter()
            .filter_map(|text| Some(Quantity::<Length>::parse(text).ok()?.value()))
            .collect();
        bar_choices(unit, &lengths)
    });
    let best = recommended(choices).map(|best| best.bar);
    let mut taken = None;
    Grid::new("gauge bars")
        .num_columns(4)
        .spacing((18.0, 8.0))
        .show(ui, |ui| {
            for head in [
                "Bar, nominal",
                "Turns the unit by",
                "Clear of the plate",
                "",
            ] {
                ui.label(Lettering::Note.of(head).family(strong()));
            }
            ui.end_row();
            for (choice, nominal) in choices.iter().zip(&texts) {
                ui.label(Lettering::Name.of(nominal));
                ui.label(choice.furthest().map_or_else(
                    || "a roller stays off the plate".to_owned(),
                    |turn| system.angle(turn),
                ));
                ui.label(choice.clear.map_or_else(String::new, |clear| {
                    if clear > Length::ZERO {
                        system.length(clear)
                    } else {
                        "no: it meets the plate".to_owned()
                    }
                }));
                if best == Some(choice.bar) {
                    ui.label(Lettering::Name.of("recommended"));
                } else if choice.can_be_used()
                    && ui.small_button(format!("Use {nominal}")).clicked()
                {
                    taken = Some(nominal);
                }
                ui.end_row();
            }
        });
    let recommended = choices.iter().zip(&texts);
    let mut recommended = recommended.filter(|(choice, _)| best == Some(choice.bar));
    if let Some((_, nominal)) = recommended.next() {
        told_ui(ui, Level::Fine, &format!("Use the {nominal} bar."));
        let button = format!("Use {nominal}");
        if ui.button(Lettering::Name.of(button)).clicked() {
            taken = Some(nominal);
        }
    } else if let Some(told) = none_can_be_used(unit, choices, &texts, system) {
        told_ui(ui, Level::Watch, &told);
    }
    let told = "The unit is turned about its reel's centre until one roller, then the other, is on the plate. Within 3° the reading holds at its working attitude: a rule of thumb.";
    ui.label(Lettering::FinePrint.of(told).weak());
    bars_aside_ui(ui, entries);
    if let Some(nominal) = taken {
        take(entries, nominal, system);
    }
}

/// The bars that were measured, but for the one that is used.
pub fn bars_aside_ui(ui: &mut Ui, entries: &Entries) {
    let Some(sheet) = entries.desk.sheet() else {
        return;
    };
    for [left, right] in sheet.entries().bars_aside() {
        let told = format!(
            "Kept while this sheet is open: another bar, measured {left} left and {right} right. It comes back when you use that bar again."
        );
        ui.label(Lettering::FinePrint.of(told).weak());
    }
}

/// Takes a bar: what was measured of it, or its nominal size to be measured over.
fn take(entries: &mut Entries, nominal: &str, system: System) {
    let mut taken = BarTaken::Same;
    entries.desk.edit_sheet("gauge bar", None, |entries| {
        taken = entries.take_bar(nominal, system);
    });
    entries.desk.tell(match taken {
        BarTaken::Nominal => "The bar's nominal size was filled in under Plate and gauge bar: measure the bar under both ends, and type over it.",
        BarTaken::CameBack => "What was measured of this bar came back. Whatever was read over the other bar is to be read again.",
        BarTaken::Same => "This is the bar measured under Plate and gauge bar: its thickness there was left as it is.",
    });
}

/// The list of the shop's bars, which is the user's; what counts of it.
fn bars_ui(ui: &mut Ui, entries: &mut Entries, system: System, bars: &mut Bars) -> Vec<String> {
    let own = entries.desk.preferences().gauge_bars.clone();
    let texts = own.unwrap_or_else(|| BARS.map(|bar| bar.entry(system)).to_vec());
    let listed = texts.join(", ");
    let mut typed = bars.typed.clone().unwrap_or_else(|| listed.clone());
    ui.label("Bars in the shop, with commas between");
    let width = ui.available_width().min(320.0);
    let field = TextEdit::singleline(&mut typed)
        .font(Lettering::InShort.font())
        .margin(egui::Margin::symmetric(6, 7))
        .desired_width(width);
    let field = ui.add(field).accessible_name("Bars in the shop");
    take_all_in_hand(ui, &field, &typed);
    if field.changed() {
        match read(&typed, system) {
            Ok(read) => {
                bars.problem = None;
                entries.desk.preferences_mut().gauge_bars = read;
            }
            Err(why) => bars.problem = Some(why),
        }
        bars.typed = Some(typed);
    } else if !field.has_focus() && bars.problem.is_none() {
        bars.typed = None;
    }
    if let Some(why) = &bars.problem {
        told_ui(ui, Level::Over, &format!("Bars in the shop: {why}."));
    }
    ui.add_space(6.0);
    texts
}

/// The bars of a list; none for the ones to begin with.
fn read(typed: &str, system: System) -> Result<Option<Vec<String>>, String> {
    let unit = Length::unit_in(system).0;
    let mut bars = Vec::new();
    for text in typed.split([',', ';']).map(str::trim) {
        if text.is_empty() {
            continue;
        }
        let bar = Quantity::<Length>::typed(text, unit).map_err(|problem| problem.to_string())?;
        if bar.value() <= Length::ZERO {
            return Err("a bar is thicker than zero".to_owned());
        }
        bars.push(bar.text().to_owned());
    }
    if bars.len() > MOST_BARS {
        return Err(format!(
            "these are {} bars; the most is {MOST_BARS}",
            bars.len()
        ));
    }
    Ok(Some(bars).filter(|bars| !bars.is_empty()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_of_bars_is_read_or_refused_with_its_reason() {
        let read = |text| read(text, System::InchDecimal);
        let some = |bars: &[&str]| Ok(Some(bars.iter().map(ToString::to_string).collect()));
        assert_eq!(
            read("1/4, 0.5 in; 10 mm"),
            some(&["1/4 in", "0.5 in", "10 mm"])
        );
        assert_eq!(read(" , "), Ok(None));
        assert!(read("thick").is_err() && read("0").is_err());
        assert!(read(&"1,".repeat(13)).unwrap_err().contains("13 bars"));
    }
}
