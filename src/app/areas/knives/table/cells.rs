//! The cells of a knife's row.

use egui::{Align, Layout, RichText, Sense, Ui, Vec2};

use super::done::Done;
use super::held::Held;
use super::sort::Column;
use super::widths::Widths;
use crate::analysis::knives::{
    KnifeRow, Life, Limit, ReelWindows, RowLevels, Verdict, Window, price_in, sum_text, total_of,
    window_text,
};
use crate::analysis::{Level, Solution};
use crate::app::areas::knives::inks::{knife_ink, line_sample};
use crate::app::desk::{Ticked, line_of};
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::colour;
use crate::app::widgets::symbol::symbol;
use crate::drawing::{OVERLAYS, Theme};
use crate::unit::{ExampleCount, Fitted, Knife};
use crate::units::{Angle, Rollers, System};

/// What a row shows.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each says another thing about the row"
)]
pub struct Cells<'a> {
    pub place: Fitted,
    pub knife: &'a Knife,
    pub row: Option<&'a KnifeRow>,
    /// What its widgets are called after.
    pub called: String,
    pub is_fitted: bool,
    pub is_open: bool,
    pub is_current: bool,
    /// Whether there are more knives than lines that can be told apart.
    pub is_long: bool,
    /// The attitudes that are looked at.
    pub attitudes: (Angle, Angle),
    pub ticked: &'a Ticked,
    /// How many of the unit's readings are still examples.
    pub examples: ExampleCount,
    pub system: System,
    pub theme: Theme,
}

impl Cells<'_> {
    /// Shows the row's cells, from left to right; the first stay in view.
    pub fn show(&self, ui: &mut Ui, held: &Held, done: &mut Option<Done>) {
        let (first, rest) = held.columns();
        let mut first_done = None;
        held.show(
            ui,
            |ui| {
                cell(ui, Widths::OVERLAY, Align::Min, |ui| {
                    self.overlay_ui(ui, &mut first_done);
                });
                if held.is_stacked() {
                    cell(ui, Widths::STACKED, Align::Min, |ui| {
                        self.stacked_ui(ui, &mut first_done);
                    });
                } else {
                    self.columns_ui(ui, first, &mut first_done);
                }
            },
            |ui| self.columns_ui(ui, rest, done),
        );
        *done = first_done.or(done.take());
    }

    /// What stays in view, one under the other.
    fn stacked_ui(&self, ui: &mut Ui, done: &mut Option<Done>) {
        let named = |ui: &mut Ui, column: Column| {
            ui.label(Lettering::FinePrint.of(column.head()).weak());
        };
        // As high as the words are: several rows are to be in view.
        ui.spacing_mut().interact_size.y = 17.0;
        ui.spacing_mut().item_spacing.x = 6.0;
        self.title_ui(ui);
        ui.horizontal(|ui| {
            named(ui, Column::Reach);
            self.number(ui, self.knife.reach.shown_in(self.system));
            let Some(price) = &self.knife.price else {
                return;
            };
            named(ui, Column::Price);
            self.number(ui, price.clone());
            if !self.knife.quantity.is_one() {
                self.number(ui, format!("× {}", self.knife.quantity.0));
            }
        });
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            self.set_once_ui(ui);
        });
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            named(ui, Column::Aim);
            self.aim_ui(ui);
        });
        self.buttons_ui(ui, done);
    }

    fn columns_ui(&self, ui: &mut Ui, columns: &[Column], done: &mut Option<Done>) {
        for &column in columns {
            cell(
                ui,
                Widths(self.system).of(column),
                Widths::align(column),
                |ui| {
                    self.column_ui(ui, column, done);
                },
            );
        }
    }

    fn overlay_ui(&self, ui: &mut Ui, done: &mut Option<Done>) {
        let name = &self.knife.name;
        let place = self.ticked.place_of(name);
        let mut is_ticked = place.is_some();
        let can_tick = (is_ticked || !self.ticked.is_full()) && !name.is_empty();
        let response = ui
            .add_enabled(can_tick, egui::Checkbox::without_text(&mut is_ticked))
            .accessible_name(format!("Overlay {}", self.called))
            .on_hover_text("Draw it over the knife that is fitted")
            .on_disabled_hover_text(if name.is_empty() {
                "Give it a name first".to_owned()
            } else {
                format!("{OVERLAYS} are drawn already: untick one first")
            });
        if response.changed() {
            *done = Some(Done::Tick(name.clone(), is_ticked));
        }
        // Of a long list only those that are ticked are drawn anywhere.
        if place.is_some() || !self.is_long {
            line_sample(ui, knife_ink(line_of(self.place), self.theme));
        }
    }

    fn column_ui(&self, ui: &mut Ui, column: Column, done: &mut Option<Done>) {
        let system = self.system;
        match column {
            Column::Name => {
                self.title_ui(ui);
                self.buttons_ui(ui, done);
            }
            Column::Reach => {
                self.number(ui, self.knife.reach.shown_in(system));
            }
            Column::SetOnce => self.set_once_ui(ui),
            Column::BehindCentre => self.solved_ui(ui, |ui, solution| {
                let level = self.level(|levels| levels.behind_centre);
                self.judged(ui, system.length(solution.sweep.behind_centre), level);
            }),
            Column::Sweep => {
                if let Some(Ok(solution)) = self.row.map(|row| &row.solution) {
                    let level = self.level(|levels| levels.sweep);
                    self.judged(ui, system.length(solution.sweep.below_cut), level);
                    if let Some(share) = solution.sweep_share {
                        self.number(ui, system.share(share));
                    }
                }
            }
            Column::Underside => {
                if let Some(Ok(solution)) = self.row.map(|row| &row.solution) {
                    let level = self.level(|levels| levels.underside);
                    self.judged(ui, system.length(solution.underside_clearance), level);
                }
            }
            Column::Window(life) => {
                if let Some(row) = self.row {
                    self.windows_ui(ui, life, row.at(life));
                }
            }
            Column::Aim => self.aim_ui(ui),
            Column::LipLeft => self.lip_ui(ui),
            Column::Price => {
                self.number(ui, self.knife.price.clone().unwrap_or_default());
            }
            Column::Quantity => {
                let quantity = self.knife.quantity;
                self.number(ui, quantity.0.to_string());
                let price = self.knife.price.as_deref().and_then(price_in);
                if let Some(total) = total_of(price, quantity)
                    && !quantity.is_one()
                {
                    let told = format!("total {}", sum_text(total));
                    ui.label(Lettering::FinePrint.of(told));
                }
            }
            Column::Notes => {
                ui.label(self.knife.notes.as_deref().unwrap_or_default());
            }
        }
    }

    fn title_ui(&self, ui: &mut Ui) {
        let is_bench = self.place == Fitted::Bench;
        ui.horizontal(|ui| {
            let told = match (is_bench, self.is_fitted) {
                (true, true) => "measured, fitted",
                (true, false) => "measured",
                (false, true) => "fitted",
                (false, false) => "",
            };
            let name = Lettering::Name.of(&self.knife.name);
            ui.scope(|ui| {
                let room = if told.is_empty() { 0.0 } else { 84.0 };
                ui.set_max_width(Widths(self.system).of(Column::Name) - room);
                ui.add(egui::Label::new(name).wrap());
            });
            if !told.is_empty() {
                ui.label(Lettering::Note.of(told).weak());
            }
        });
    }

    fn buttons_ui(&self, ui: &mut Ui, done: &mut Option<Done>) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            ui.spacing_mut().button_padding.x = 6.0;
            let button = |ui: &mut Ui, word: &str, told: &str| {
                let name = format!("{told} {}", self.called);
                ui.small_button(word).accessible_name(&name).clicked()
            };
            ui.add_enabled_ui(!self.is_fitted, |ui| {
                if button(ui, "Fit", "Fit") {
                    *done = Some(Done::Fit(self.place));
                }
            });
            let word = if self.is_open { "Close" } else { "Edit" };
            if button(ui, word, word) {
                *done = Some(Done::Open((!self.is_open).then_some(self.place)));
            }
            if button(ui, "Duplicate", "Duplicate") {
                *done = Some(Done::Duplicate(self.place));
            }
            // The others are measured against the bench knife.
            if let Fitted::Option(index) = self.place
                && button(ui, "Remove", "Remove knife")
            {
                *done = Some(Done::Remove(index));
            }
        });
    }

    /// A cell for knives that meet the reel, and the reason for those that do not.
    fn solved_ui(&self, ui: &mut Ui, shown: impl FnOnce(&mut Ui, &Solution)) {
        match self.row.map(|row| &row.solution) {
            None => {}
            Some(Ok(solution)) => shown(ui, solution),
            Some(Err(why)) => {
                ui.label("does not meet the reel")
                    .on_hover_text(why.sentence().shown_in(self.system));
            }
        }
    }

    fn windows_ui(&self, ui: &mut Ui, life: Life, reel: &ReelWindows) {
        if reel.windows.is_empty() {
            ui.horizontal(|ui| {
                let (place, _) = ui.allocate_exact_size(Vec2::splat(15.0), Sense::hover());
                symbol(ui, place, Level::Over, self.theme);
                ui.label(self.strong("none".to_owned())).on_hover_text(format!(
                    "With the reel {} ({}) no attitude holds every limit: see above the table for why.",
                    life.name(),
                    self.system.length(reel.diameter)
                ));
            });
        }
        for window in &reel.windows {
            let range = window_text(window, self.system);
            let text = format!("{range} ({})", self.system.angle(window.width()));
            let hover = self.ends(life, reel, window);
            self.number(ui, text).on_hover_text(&hover);
            let ends = format!(
                "low: {}; high: {}",
                short(window.low_limit),
                short(window.high_limit)
            );
            self.bar_ui(ui, window).on_hover_text(&hover);
            ui.label(Lettering::FinePrint.of(ends).weak())
                .on_hover_text(hover);
        }
    }

    /// What can be set once for the reel's whole life, and whether the knife fits by that.
    fn set_once_ui(&self, ui: &mut Ui) {
        let Some(row) = self.row else {
            return;
        };
        let (system, judgement) = (self.system, &row.judgement);
        let verdict = judgement.verdict;
        ui.horizontal(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(15.0), Sense::hover());
            symbol(ui, place, verdict.level(self.examples), self.theme);
            let text = row.set_once.as_ref().map_or_else(
                || "none".to_owned(),
                |range| {
                    let (low, high) = (system.angle(range.low.at), system.angle(range.high.at));
                    format!("{low} to {high} ({})", system.angle(range.width()))
                },
            );
            self.number(ui, text);
        });
        let told = match verdict {
            Verdict::Fits if self.examples.is_none() => "passes",
            Verdict::Fits => "example readings",
            Verdict::CannotTell => "undecided",
            Verdict::DoesNotFit => "does not pass",
        };
        let off = if let Some(off) = judgement.off.told(system) {
            format!(", {off}")
        } else {
            String::new()
        };
        ui.label(Lettering::FinePrint.of(format!("{told}{off}")))
            .on_hover_text("See above the table for why.");
    }

    /// Where a window lies among the attitudes that are looked at, over what can be set once.
    fn bar_ui(&self, ui: &mut Ui, window: &Window) -> egui::Response {
        let width = Widths(self.system).of(Column::Window(Life::Now)) - 14.0;
        let (rect, response) = ui.allocate_exact_size(Vec2::new(width, 9.0), Sense::hover());
        let (least, most) = (self.attitudes.0.deg(), self.attitudes.1.deg());
        let part = |angle: Angle| {
            let part = (angle.deg() - least) / (most - least);
            #[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
            let part = part.clamp(0.0, 1.0) as f32;
            rect.left() + part * rect.width()
        };
        let span = |low: Angle, high: Angle, inset: f32| {
            let (top, bottom) = (rect.top() + inset, rect.bottom() - inset);
            egui::Rect::from_min_max(
                egui::pos2(part(low), top),
                egui::pos2(part(high).max(part(low) + 1.0), bottom),
            )
        };
        let ink = ui.visuals().text_color();
        let painter = ui.painter();
        painter.rect_filled(
            rect.shrink2(Vec2::new(0.0, 3.5)),
            0.0,
            ink.gamma_multiply(0.2),
        );
        let fine = colour(self.theme.level(Level::Fine.resting_on(self.examples)));
        painter.rect_filled(
            span(window.low, window.high, 2.0),
            1.0,
            fine.gamma_multiply(0.45),
        );
        if let Some(common) = self.row.and_then(|row| row.set_once.as_ref()) {
            painter.rect_filled(span(common.low.at, common.high.at, 0.0), 1.0, fine);
        }
        response
    }

    fn level(&self, of: fn(RowLevels) -> Level) -> Level {
        let levels = self.row.and_then(|row| row.levels);
        levels.map_or(Level::Fine, of)
    }

    /// A number, with the symbol of its level where it is past a limit.
    fn judged(&self, ui: &mut Ui, text: String, level: Level) {
        if level == Level::Fine {
            self.number(ui, text);
            return;
        }
        // Numbers stand on the right, so what comes first stands right of what follows.
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            self.number(ui, text).on_hover_text(level.word());
            let (place, _) = ui.allocate_exact_size(Vec2::splat(13.0), Sense::hover());
            symbol(ui, place, level, self.theme);
        });
    }

    /// What ends a window at each of its ends, in a sentence.
    fn ends(&self, life: Life, reel: &ReelWindows, window: &Window) -> String {
        let system = self.system;
        format!(
            "Reel {}, {}. Below {}: {}. Above {}: {}. Between them {} of room.",
            life.name(),
            system.length(reel.diameter),
            system.angle(window.low),
            window.low_limit.name(),
            system.angle(window.high),
            window.high_limit.name(),
            system.angle(window.width()),
        )
    }

    fn aim_ui(&self, ui: &mut Ui) {
        let Some(row) = self.row else {
            return;
        };
        let aim = match &row.aim {
            Ok(aim) => aim,
            Err(why) => {
                ui.label("none")
                    .on_hover_text(why.sentence().shown_in(self.system));
                return;
            }
        };
        let why = aim.why.map(|why| why.shown_in(self.system));
        let why = why.unwrap_or_else(|| "The nearest that holds every limit it can.".to_owned());
        self.number(ui, self.system.angle(aim.attitude))
            .on_hover_text(why);
        let rear = self.system.move_of(Rollers::Rear, aim.rear_roller);
        ui.label(Lettering::FinePrint.of(rear).weak())
            .on_hover_text("From where it was measured, height of cut kept");
    }

    fn lip_ui(&self, ui: &mut Ui) {
        let Some(row) = self.row else {
            return;
        };
        let lip = &row.lip;
        self.number(ui, self.system.length(lip.thickness))
            .on_hover_text(format!(
                "{} of its length is left. A grind may leave {} of its thickness.",
                self.system.length(lip.length),
                self.system.length(lip.least)
            ));
        let told = lip.grinds_told();
        let told = told.unwrap_or_else(|| "grind not entered".to_owned());
        ui.label(Lettering::FinePrint.of(told).weak())
            .on_hover_text(
                "What a grind takes, and the least lip: see Grinding knives in the form",
            );
    }

    fn number(&self, ui: &mut Ui, text: String) -> egui::Response {
        ui.label(self.strong(text))
    }

    /// Numbers of an earlier list stand back.
    fn strong(&self, text: String) -> RichText {
        let text = RichText::new(text).family(strong());
        if self.is_current { text } else { text.weak() }
    }
}

fn cell(ui: &mut Ui, width: f32, align: Align, show: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(Vec2::new(width, 0.0), Layout::top_down(align), |ui| {
        ui.set_width(width);
        show(ui);
    });
}

/// A limit in as few letters as a narrow cell needs.
fn short(limit: Limit) -> &'static str {
    match limit {
        Limit::Sweep => "sweep",
        Limit::Reel => "reel",
        Limit::LowEnd | Limit::LowEndUnderside => "low side",
        Limit::Cut => "edge",
        Limit::Underside => "underside",
        Limit::Lip => "lip",
        Limit::Ahead => "ahead",
        Limit::TopFace => "top face",
        Limit::Rollers => "roller",
        Limit::Range => "range",
        Limit::Reach => "adjustment",
    }
}
