//! A sheet of the surface plate, to read.

use std::fmt::Write as _;

use super::report::in_line;
use crate::analysis::plate::{
    BARS, PlateResult, PlateRow, StepState, bar_choices, none_can_be_used, recommended,
};
use crate::analysis::{Level, Solved};
use crate::command::caution;
use crate::plate::{Roller, Worksheet};
use crate::units::{Length, System};

/// A sheet worked out, in its own units.
pub(super) fn plate_text(sheet: &Worksheet, result: &PlateResult, unit: Option<&Solved>) -> String {
    let system = sheet.system();
    let mut page = Page {
        text: String::new(),
        system,
    };
    page.heading(sheet, unit);
    page.part("Reel", &result.reel_rows(system));
    page.part("Knife to reel", &result.knife_rows(system));
    for roller in Roller::ALL {
        let rows = result.roller_rows(roller, system);
        page.part(roller.title(), &rows);
    }
    let title = "Height of cut to expect with the rollers as they are";
    page.part(title, &result.cut_rows(system));
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

    /// A part under its title; none where nothing was read of it.
    fn part(&mut self, title: &str, rows: &[PlateRow]) {
        if rows.is_empty() {
            return;
        }
        self.title(title);
        for row in rows {
            self.row(&row.name, &row.told);
        }
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
        let names: Vec<_> = choices
            .iter()
            .map(|choice| self.length(choice.bar))
            .collect();
        let told = none_can_be_used(unit, &choices, &names, self.system).unwrap_or_else(|| {
            recommended(&choices).map_or_else(String::new, |choice| self.length(choice.bar))
        });
        self.row("recommended", &told);
    }

    fn steps(&mut self, result: &PlateResult) {
        let mut cautions: Vec<&str> = Vec::new();
        for (step, state) in &result.order {
            let told = if *state == StepState::Done {
                {
                    let level = result.level_of(*step);
                    if level > Level::Fine {
                        format!("{}: {}", state.words(), result.result_word(*step, level))
                    } else {
                        state.words().to_owned()
                    }
                }
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
