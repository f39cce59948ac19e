//! What each adjustment alone would do, with a button that tries it and one that takes it back.

use egui::{Align, ComboBox, Layout, RichText, Sense, Ui, Vec2};

use super::trial::Chosen;
use super::worked_out::WorkedOut;
use crate::analysis::why::{Change, Goal, Knob, KnobAnswer, Other};
use crate::analysis::{FindingId, GRINDING, Judged, Solved, moves_told};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::list::list_ui;
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::drawing::Theme;
use crate::unit::{Brackets, Document, ExampleCount};
use crate::units::{System, Value, with_plus};

/// Width of an adjustment's name.
const NAME_WIDTH: f32 = 176.0;
/// Width of what else changes, where there is room for it.
const LEAST_COSTS: f32 = 250.0;

/// Where a change leads: what has no scale ends inside the limit, and a finding that keeps its limit
/// has room left.
fn to_limit(answer: &KnobAnswer) -> String {
    let lead = match answer.knob {
        Knob::Knife | Knob::RollersTrued | Knob::RollersParallel => "Inside its",
        _ if answer.is_within => "Room left, to its",
        _ => "To its",
    };
    format!("{lead} {}", answer.limit_word)
}

/// The finding, and a row for each adjustment; the change that is to be tried.
pub fn knobs_ui(
    ui: &mut Ui,
    good: &Solved,
    worked_out: &WorkedOut,
    (finding, goal): (&mut Option<FindingId>, &mut Goal),
    system: System,
) -> Option<Chosen> {
    let why = &worked_out.why;
    ui.heading("What each adjustment alone would do");
    let theme = theme(ui.ctx());
    if let Some(first) = &why.comes_first {
        ui.horizontal_top(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(18.0), Sense::hover());
            let level = first.level.resting_on(good.document.example_count());
            symbol(ui, place, level, theme);
            ui.add(egui::Label::new(&first.told).wrap());
        });
    }
    finding_ui(ui, (good, worked_out), (finding, goal), system);
    let mut chosen = None;
    if why.knobs.is_empty() {
        ui.label("This finding does not apply to the unit as it is set; choose another.");
    }
    let (odd, usual): (Vec<_>, Vec<_>) = why
        .knobs
        .iter()
        .partition(|answer| answer.not_sensible().is_some());
    let row = Row {
        document: &good.document,
        brackets: &good.unit.brackets,
        theme,
        system,
    };
    row.list(ui, &usual, &mut chosen);
    if !odd.is_empty() {
        egui::CollapsingHeader::new("Possible, not sensible")
            .show(ui, |ui| row.list(ui, &odd, &mut chosen));
    }
    let caution = "Grinding takes metal that does not come back. Speeds, bracket travel and grinding limits: only what the machine's manual allows.";
    ui.label(
        Lettering::FinePrint
            .of(format!("{caution} {GRINDING}"))
            .weak(),
    );
    caution_in_short_ui(ui);
    chosen
}

/// Which finding, and which of its limits.
fn finding_ui(
    ui: &mut Ui,
    (good, worked_out): (&Solved, &WorkedOut),
    (finding, goal): (&mut Option<FindingId>, &mut Goal),
    system: System,
) {
    let asked = worked_out.why.finding;
    let mut judged = worked_out.judged.iter();
    let chosen = judged.find(|(id, _)| *id == asked);
    let word = |(id, judged): &(FindingId, Judged)| {
        let examples = good.document.example_count();
        let found = good.findings.get(*id);
        found.map_or_else(
            || judged.level().word_resting_on(examples).to_owned(),
            |finding| finding.standing_on(examples).into_owned(),
        )
    };
    ui.horizontal_wrapped(|ui| {
        ui.label("For");
        let findings = ComboBox::from_id_salt("finding of the knobs")
            .width(230.0)
            .selected_text(chosen.map_or("none", |(id, _)| id.title()));
        list_ui(ui, findings, |ui, list| {
            for offered in &worked_out.judged {
                let id = &offered.0;
                let text = format!("{}: {}", id.title(), word(offered));
                if list.offer(ui, *id == asked, text) {
                    *finding = Some(*id);
                }
            }
        })
        .accessible_name("Finding to bring to its limit");
        if let Some(asked) = chosen {
            let judged = &asked.1;
            let now = judged.value.shown_in(system);
            let limits = judged.limits_told(system);
            ui.label(format!("now {now}, {}; {limits}", word(asked)));
            if judged.limits().count() > 1 {
                ui.separator();
                ui.label("Aim for");
                for (offered, name) in [(Goal::Fine, "OK"), (Goal::NotOver, "not over limit")] {
                    ui.selectable_value(goal, offered, name)
                        .on_hover_text("Which of the finding's limits is aimed at");
                }
            }
        }
    });
}

/// Around a speed: it is the clip's limit, and not the reel's.
const SPEED_LEAD: &str = "Clip length is within its limit at";
const IF_ALLOWED: &str = "use it only if the machine's manual allows it";

/// What a row needs to be shown.
struct Row<'a> {
    document: &'a Document,
    brackets: &'a Brackets,
    theme: Theme,
    system: System,
}

impl Row<'_> {
    fn examples(&self) -> ExampleCount {
        self.document.example_count()
    }

    fn list(&self, ui: &mut Ui, answers: &[&KnobAnswer], chosen: &mut Option<Chosen>) {
        for (index, answer) in answers.iter().enumerate() {
            let tint = ui.visuals().faint_bg_color;
            let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(6, 3));
            let frame = if index % 2 == 0 {
                frame.fill(tint)
            } else {
                frame
            };
            frame.show(ui, |ui| {
                ui.set_width(ui.available_width());
                if let Some(wanted) = self.show(ui, answer) {
                    *chosen = Some(wanted);
                }
            });
        }
    }

    fn show(&self, ui: &mut Ui, answer: &KnobAnswer) -> Option<Chosen> {
        let mut chosen = None;
        ui.horizontal_top(|ui| {
            let size = Vec2::new(NAME_WIDTH, ui.spacing().interact_size.y);
            ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
                ui.set_min_width(NAME_WIDTH);
                ui.label(RichText::new(answer.knob.name()).family(strong()));
            });
            let has_room = ui.available_width() > 2.0 * LEAST_COSTS + 60.0;
            let width = if has_room {
                0.52 * ui.available_width()
            } else {
                ui.available_width()
            };
            ui.vertical(|ui| {
                ui.set_width(width);
                match &answer.to_limit {
                    Err(why_not) => {
                        let text = why_not.sentence().shown_in(self.system);
                        ui.horizontal_wrapped(|ui| {
                            ui.set_min_height(ui.spacing().interact_size.y);
                            ui.label(RichText::new(text).weak());
                        });
                    }
                    Ok(change) => {
                        chosen = self
                            .change_ui(ui, answer, change, &to_limit(answer))
                            .or(chosen.take());
                    }
                }
                if let Some(change) = &answer.to_aim {
                    chosen = self
                        .change_ui(ui, answer, change, "To its aim")
                        .or(chosen.take());
                }
                if let Some(steps) = self.steps(answer) {
                    ui.label(Lettering::FinePrint.of(steps).weak());
                }
                if let Some(aim_is) = answer.aim_is {
                    let text = aim_is.shown_in(self.system);
                    ui.label(Lettering::FinePrint.of(text).weak());
                }
                if !has_room {
                    self.costs_ui(ui, answer);
                }
            });
            if has_room {
                ui.vertical(|ui| self.costs_ui(ui, answer));
            }
        });
        chosen
    }

    fn change_ui(
        &self,
        ui: &mut Ui,
        answer: &KnobAnswer,
        change: &Change,
        where_to: &str,
    ) -> Option<Chosen> {
        let what = self.what(answer, change);
        let name = answer.knob.name();
        let mut is_tried = false;
        let not_sensible = change.not_sensible;
        ui.horizontal_wrapped(|ui| {
            // What turns another finding to over is told, and is no button.
            if !change.bars_a_trial() {
                is_tried = ui
                    .button("Try")
                    .on_hover_ui(|ui| {
                        ui.label(format!("Set the unit so: {name}, {what}"));
                        for other in &change.others {
                            ui.label(self.before_after(other));
                        }
                    })
                    .accessible_name(format!("Try {name}, {where_to}"))
                    .clicked();
            }
            let is_speed = answer.knob.is_speed();
            let lead = if is_speed { SPEED_LEAD } else { where_to };
            ui.label(RichText::new(lead).weak());
            ui.label(RichText::new(&what).family(strong()));
            if is_speed {
                ui.label(IF_ALLOWED);
            }
            if let Some(rollers) = self.rollers(change) {
                ui.label(rollers);
            }
            if let Some(reason) = not_sensible {
                ui.label(RichText::new(reason.told()).weak());
            }
        });
        is_tried.then(|| Chosen {
            knob: answer.knob,
            change: change.clone(),
            told: format!("Tried: {name}, {what}."),
        })
    }

    /// How far, and where it ends.
    fn what(&self, answer: &KnobAnswer, change: &Change) -> String {
        let to = change.trial.shown_in(self.system);
        match answer.knob {
            Knob::Knife => {
                let fitted = change.knife.and_then(|place| self.document.knife_at(place));
                let name = fitted.map_or("", |knife| knife.name.as_str());
                format!("\"{name}\", reach {}", self.signed(change.trial_by))
            }
            Knob::RollersTrued if answer.finding == FindingId::RunoutSwing => {
                format!(
                    "the edge swings by {} less",
                    change.trial_by.shown_in(self.system)
                )
            }
            Knob::RollersTrued | Knob::RollersParallel => {
                format!(
                    "the low place comes up by {}",
                    change
                        .trial_by
                        .with_base(-change.trial_by.base())
                        .shown_in(self.system)
                )
            }
            Knob::FrontRoller
            | Knob::RearRoller
            | Knob::FrontRollerHeightKept
            | Knob::RearRollerHeightKept => match change.trial_by {
                Value::Length(by) => format!(
                    "{} from where it is now{}",
                    self.system.roller_move(by),
                    answer.stands_told(change, self.system)
                ),
                _ => to,
            },
            Knob::FaceGround | Knob::TopGround => {
                let part = if answer.knob == Knob::FaceGround {
                    "length"
                } else {
                    "thickness"
                };
                let left = change.lip_left.map_or_else(String::new, |left| {
                    format!(", {} of the lip's {part} left", self.system.length(left))
                });
                format!("by {}, to {to}{left}", self.signed(change.trial_by))
            }
            Knob::GroundSpeed | Knob::ReelSpeed => to,
            // From none on, how far and where to are one.
            _ if change.trial_by.shown_in(self.system) == to => format!("to {to}"),
            _ => format!("by {}, to {to}", self.signed(change.trial_by)),
        }
    }

    fn signed(&self, value: Value) -> String {
        with_plus(value.base(), value.shown_in(self.system))
    }

    /// The roller moves that go with it; none when both stay where they are.
    fn rollers(&self, change: &Change) -> Option<String> {
        let (front, rear) = change.trial_rollers;
        let moved = front.mm().abs().max(rear.mm().abs());
        (moved > 1e-6).then(|| format!("({})", self.system.roller_moves((front, rear))))
    }

    /// The roller moves to the aim, or else to the limit, in turns and spacers; none where these are
    /// not known.
    fn steps(&self, answer: &KnobAnswer) -> Option<String> {
        let change = answer.changes().next()?;
        moves_told(change.trial_rollers, self.brackets, self.system)
    }

    /// What else the change to the limit does: what stands otherwise than before in full, the rest
    /// on hover.
    fn costs_ui(&self, ui: &mut Ui, answer: &KnobAnswer) {
        let Some(change) = answer.to_limit.as_ref().ok().or(answer.to_aim.as_ref()) else {
            return;
        };
        if change.others.is_empty() {
            return;
        }
        let (turned, kept): (Vec<&Other>, Vec<&Other>) =
            change.others.iter().partition(|other| other.is_notable());
        for other in turned {
            ui.horizontal_wrapped(|ui| {
                let (place, _) = ui.allocate_exact_size(Vec2::splat(15.0), Sense::hover());
                let level = other.after.level.resting_on(self.examples());
                symbol(ui, place, level, self.theme);
                ui.label(self.before_after(other));
            });
        }
        if !kept.is_empty() {
            let names: Vec<_> = kept
                .iter()
                .map(|other| other.id.title().to_lowercase())
                .collect();
            let text = format!("Also changes, status unchanged: {}", names.join(", "));
            ui.label(Lettering::FinePrint.of(text).weak())
                .on_hover_ui(|ui| {
                    for other in kept {
                        ui.label(self.before_after(other));
                    }
                });
        }
    }

    fn before_after(&self, other: &Other) -> String {
        let [now, then] = other.told(self.examples(), self.system);
        format!("{}: {now}, then {then}", other.id.title())
    }
}
