//! How much the units of one set may differ: the fields it is typed into, and the sets that do not agree.

use egui::{TextEdit, Ui};

use crate::analysis::Level;
use crate::analysis::shop::{SetAmounts, SetLimits, ShopSet};
use crate::app::desk::Desk;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::words::capitalised;
use crate::unit::Turf;
use crate::units::{Length, Measure as _, Quantity, System};

/// What is being typed into the two fields; none while nobody types.
#[derive(Default)]
pub struct AmountsTyped([Option<String>; 2]);

/// A text that is a length, none where it is empty.
fn length_of(text: &str, system: System) -> Result<Option<Quantity<Length>>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    match Quantity::<Length>::typed(text, Length::unit_in(system).0) {
        Ok(length) if length.value().mm() < 0.0 => {
            Err(format!("{} is less than zero", length.text()))
        }
        Ok(length) => Ok(Some(length)),
        Err(problem) => Err(problem.to_string()),
    }
}

/// A text as it is remembered: with its unit, so that it stays the length it was typed as when the units
/// are changed. A text that is no length stays as it is.
fn with_unit(text: &str, system: System) -> String {
    match length_of(text, system) {
        Ok(Some(length)) => length.text().to_owned(),
        Ok(None) | Err(_) => text.to_owned(),
    }
}

/// What is remembered of both amounts; the starting value stands in for a text that is none.
pub fn amounts(desk: &Desk) -> SetAmounts {
    let shop = &desk.preferences().shop;
    let system = desk.system();
    let taken = |text: &str| Some(length_of(text, system).ok()??.value());
    SetAmounts {
        height: taken(&shop.height_differs),
        behind: taken(&shop.behind_differs),
    }
}

/// The two fields.
pub fn amounts_ui(ui: &mut Ui, desk: &mut Desk, typed: &mut AmountsTyped) {
    let system = desk.system();
    let mut shop = desk.preferences().shop.clone();
    let [green, fairway] = [Turf::Green, Turf::Fairway].map(SetLimits::starting);
    let starting = [
        format!(
            "(empty: green, tee {}; fairway, rough {})",
            system.length(green.height),
            system.length(fairway.height)
        ),
        format!("(empty: {})", system.length(green.behind)),
    ];
    let mut problem = None;
    ui.horizontal_wrapped(|ui| {
        ui.label("Units of one set may differ by");
        let fields = [
            (&mut shop.height_differs, "height of cut"),
            (&mut shop.behind_differs, "behind centre"),
        ];
        let fields = fields.into_iter().zip(&mut typed.0).zip(starting);
        for (((kept, what), typed), starting) in fields {
            ui.label(what);
            let name = format!("{} may differ by", capitalised(what));
            let mut text = typed.take().unwrap_or_else(|| kept.clone());
            let field = ui
                .add(TextEdit::singleline(&mut text).desired_width(78.0))
                .on_hover_text("Rule of thumb where it is left empty. A unit of a set that differs by more is marked.")
                .accessible_name(name.clone());
            *kept = with_unit(&text, system);
            *typed = field.has_focus().then_some(text);
            ui.label(Lettering::Note.of(starting).weak());
            if let Err(why) = length_of(kept, system) {
                problem = Some(format!("{name}: {why}"));
            }
        }
    });
    if let Some(problem) = problem {
        let ink = colour(theme(ui.ctx()).level(Level::Over));
        ui.colored_label(ink, format!("{problem}. The starting value is used."));
    }
    if shop != desk.preferences().shop {
        desk.preferences_mut().shop = shop;
    }
}

/// How a set does not agree, and who stands out; none where it does. `name` tells how the unit of a file is
/// called.
pub fn disagreement(
    set: &ShopSet,
    system: System,
    name: impl Fn(&str) -> String,
) -> Option<String> {
    let told = |agrees: bool, what: &str, spread: Length, most: Length| {
        (!agrees).then(|| {
            format!(
                "{what} differs by {} (at most {})",
                system.length(spread),
                system.length(most)
            )
        })
    };
    let limits = &set.limits;
    let height = told(
        set.height_odd.agree(),
        "height of cut",
        set.height_spread,
        limits.height,
    );
    let behind = told(
        set.behind_odd.agree(),
        "behind centre",
        set.behind_spread,
        limits.behind,
    );
    let parts: Vec<String> = height.into_iter().chain(behind).collect();
    (!parts.is_empty()).then(|| {
        let (parts, odd) = (parts.join(", "), set.odd_told(name));
        format!("The set {} does not agree: {parts}. {odd}", set.name)
    })
}
