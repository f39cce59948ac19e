//! Key numbers and findings under the drawing.

use egui::{Grid, RichText, ScrollArea, Ui, Vec2};

use crate::analysis::uncertainty::ENTERED_AND_WORKED_OUT;
use crate::analysis::{Finding, Level, Solved, SolvedId, knife_moved, lean_in_doubt};
use crate::app::desk::{Desk, SessionId};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::look::theme;

use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::symbol::symbol;
use crate::drawing::verdict;
use crate::units::{Quoted, System};

/// What can be done about each finding, in words, until the unit or its reader's units change.
type KeptAdvice = Kept<(SolvedId, System), Vec<Option<Advised>>>;

/// What can be done about a finding, in words, and the name of a knife of the list that clears it.
#[derive(Debug)]
struct Advised {
    told: String,
    knife: Option<String>,
}

impl Advised {
    fn of(solved: &Solved, finding: &Finding, system: System) -> Option<Self> {
        let advice = solved.advice(finding.id, system)?;
        let knife = advice
            .knife
            .and_then(|place| solved.document.knife_at(place));
        Some(Self {
            told: advice.shown_in(system),
            knife: knife.map(|knife| knife.name.clone()),
        })
    }
}

/// What the area keeps of the findings.
#[derive(Debug, Default)]
pub struct FindingsState {
    advice: KeptAdvice,
    /// The session whose findings were read last, and its verdict then.
    read: Option<(SessionId, (Level, String))>,
}

impl FindingsState {
    /// Whether the verdict is another than when the findings were read last: what changed it stands
    /// on top.
    fn has_another_verdict(&mut self, desk: &Desk, solved: &Solved) -> bool {
        let verdict = verdict(&solved.findings, solved.document.example_count());
        let now = Some((desk.session().id(), verdict));
        let is_another = self.read != now;
        self.read = now;
        is_another
    }
}

/// The least height of each list, which scrolls.
const LEAST_LIST: f32 = 52.0;

/// Numbers on the left, findings on the right; whether the knives are to be compared.
pub fn numbers_ui(ui: &mut Ui, desk: &Desk, findings: &mut FindingsState) -> bool {
    let Some(good) = desk.good() else {
        return false;
    };
    let mut to_knives = false;
    let is_current = desk.why_not_current().is_none();
    if !is_current {
        ui.label(
            RichText::new("Not current: these are the numbers of the last drawing.")
                .family(strong()),
        );
    }
    ui.add_enabled_ui(is_current, |ui| {
        ui.horizontal_top(|ui| {
            let height = ui.available_height();
            let width = (0.5 * ui.available_width()).clamp(330.0, 640.0);
            ui.allocate_ui_with_layout(
                Vec2::new(width, height),
                egui::Layout::top_down(egui::Align::Min),
                |ui| key_numbers_ui(ui, good, width, desk.system()),
            );
            ui.separator();
            ui.vertical(|ui| to_knives = findings_ui(ui, desk, good, findings));
        });
    });
    to_knives
}

fn key_numbers_ui(ui: &mut Ui, solved: &Solved, width: f32, system: System) {
    ui.set_min_width(width);
    let numbers = solved.key(system);
    let lean = lean_in_doubt(solved).map(|told| told.shown_in(system));
    ui.horizontal(|ui| {
        ui.heading("Numbers");
        if numbers.iter().any(|(_, _, off)| !off.is_empty()) {
            ui.label(Lettering::FinePrint.of("± (95 %)").weak())
                .on_hover_text(ENTERED_AND_WORKED_OUT);
        }
        if let Some(told) = &lean {
            let theme = theme(ui.ctx());
            let (place, _) = ui.allocate_exact_size(Vec2::splat(14.0), egui::Sense::hover());
            symbol(ui, place, Level::Watch, theme);
            let text = Lettering::FinePrint.of("the slide's lean is not entered");
            ui.label(text).on_hover_text(told);
        }
    });
    ScrollArea::vertical()
        .min_scrolled_height(LEAST_LIST)
        .id_salt("numbers")
        .auto_shrink(false)
        .show(ui, |ui| {
            let least = if system == System::InchFraction {
                720.0
            } else {
                560.0
            };
            let columns = if width > least { 2 } else { 1 };
            let rows = numbers.len().div_ceil(columns);
            Grid::new("key numbers")
                .num_columns(2 * columns)
                .min_row_height(20.0)
                .spacing(Vec2::new(12.0, 3.0))
                .show(ui, |ui| {
                    // A number with its ± is no higher than a number.
                    ui.spacing_mut().interact_size.y = 16.0;
                    for row in 0..rows {
                        for column in 0..columns {
                            if let Some((number, shown, off)) = numbers.get(column * rows + row) {
                                let label = ui.label(RichText::new(number.title()).weak());
                                label.on_hover_text(number.meaning());
                                ui.horizontal(|ui| {
                                    ui.spacing_mut().item_spacing.x = 5.0;
                                    ui.label(RichText::new(shown).family(strong()));
                                    if !off.is_empty() {
                                        ui.label(Lettering::FinePrint.of(off).weak());
                                    }
                                });
                            }
                        }
                        ui.end_row();
                    }
                });
            if solved.uncertainty.has_any() {
                ui.label(Lettering::FinePrint.of(ENTERED_AND_WORKED_OUT).weak());
            }
            if let Some(told) = lean {
                ui.label(Lettering::Note.of(told));
            }
            if let Some(told) = knife_moved(solved, system) {
                ui.label(Lettering::Note.of(told));
            }
        });
}

/// The findings; whether the knives are to be compared.
fn findings_ui(ui: &mut Ui, desk: &Desk, solved: &Solved, state: &mut FindingsState) -> bool {
    let (theme, system) = (theme(ui.ctx()), desk.system());
    let to_top = state.has_another_verdict(desk, solved);
    let examples = solved.document.example_count();
    ui.heading("Findings");
    let advice = state.advice.get((solved.id, system), |_| {
        let advice = |finding: &Finding| Advised::of(solved, finding, system);
        solved.findings.iter().map(advice).collect()
    });
    let mut findings: Vec<_> = solved.findings.iter().zip(advice.iter()).collect();
    findings
        .sort_by_key(|(finding, _)| std::cmp::Reverse((finding.level, finding.doubt.is_some())));
    let mut list = ScrollArea::vertical()
        .min_scrolled_height(LEAST_LIST)
        .id_salt("findings")
        .auto_shrink(false);
    if to_top {
        list = list.vertical_scroll_offset(0.0);
    }
    let mut to_knives = false;
    list.show(ui, |ui| {
        for (finding, advice) in findings {
            ui.horizontal_top(|ui| {
                let (place, _) = ui.allocate_exact_size(Vec2::splat(18.0), egui::Sense::hover());
                symbol(ui, place, finding.shown_level().resting_on(examples), theme);
                ui.vertical(|ui| {
                    let title = format!("{}: {}", finding.title(), finding.standing_on(examples));
                    ui.label(RichText::new(title).family(strong()));
                    ui.label(finding.text.shown_in(system));
                    if let Some(doubt) = finding.doubt {
                        ui.label(doubt.sentence().shown_in(system));
                    }
                    if let Some(advice) = advice {
                        ui.label(&advice.told);
                        if let Some(knife) = &advice.knife {
                            let told = format!("Compare {} in Knives", Quoted(knife));
                            to_knives |= ui
                                .small_button(told)
                                .on_hover_text("Opens the list of knives and leaves the unit as it is.")
                                .clicked();
                        }
                    }
                });
            });
            ui.add_space(3.0);
        }
        let basis = "Limits not set in the file are rules of thumb; set your own from your own trials (see Limits in the form). Advice ends with some room inside the limit; Why shows the limit itself as well.";
        ui.label(Lettering::FinePrint.of(basis).weak());
        caution_in_short_ui(ui);
    });
    to_knives
}
