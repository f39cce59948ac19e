//! The height budgets as stepped bars, each step with its picture while the pointer rests on it.

use egui::{RichText, Sense, Ui, Vec2, WidgetInfo};

use crate::analysis::why::{Budget, BudgetOf, StepKind, Why};
use crate::analysis::{Solved, SolvedId};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper, rect};
use crate::app::widgets::words::capitalised;
use crate::drawing::{
    BudgetChart, Charted, Column, Role, ShownIn, Theme, View, lay_out, step_picture,
};
use crate::units::System;

/// Height of a chart.
const HEIGHT: f32 = 236.0;
/// Both charts stand side by side where each gets at least this.
const LEAST_WIDTH: f32 = 640.0;
/// Size of a step's picture.
const PICTURE: Vec2 = Vec2::new(320.0, 160.0);

/// The charts as they were last painted.
#[derive(Debug, Default)]
pub struct ChartsState([Kept<Key, Drawn>; 2]);

#[derive(Clone, Debug, PartialEq)]
struct Key {
    solved: SolvedId,
    size: Vec2,
    theme: Theme,
    system: System,
}

#[derive(Debug)]
struct Drawn {
    charted: Charted,
    painted: Painted,
}

impl ChartsState {
    /// Both budgets, side by side where there is room.
    pub fn show(&mut self, ui: &mut Ui, good: &Solved, why: &Why, system: System) {
        ui.heading("Height budget");
        ui.label(
            RichText::new("From the height of cut on the plate down to the clearance to soil at the worst place. Rest the pointer on a step for its picture and its field.")
                .weak(),
        );
        if ui.available_width() >= 2.0 * LEAST_WIDTH {
            ui.columns(2, |columns| {
                self.chart_ui(&mut columns[0], good, (why, BudgetOf::Reel), system);
                self.chart_ui(&mut columns[1], good, (why, BudgetOf::Underside), system);
            });
        } else {
            self.chart_ui(ui, good, (why, BudgetOf::Reel), system);
            self.chart_ui(ui, good, (why, BudgetOf::Underside), system);
        }
    }

    fn chart_ui(
        &mut self,
        ui: &mut Ui,
        good: &Solved,
        (why, part): (&Why, BudgetOf),
        system: System,
    ) {
        let theme = theme(ui.ctx());
        let size = Vec2::new(ui.available_width(), HEIGHT);
        let (response, canvas) = ui.allocate_painter(size, Sense::hover());
        let title = part.title();
        let budget = match part {
            BudgetOf::Reel => &why.reel,
            BudgetOf::Underside => &why.underside,
        };
        response.widget_info(|| {
            WidgetInfo::labeled(egui::Role::Image, true, format!("Height budget: {title}"))
        });
        let key = Key {
            solved: good.id,
            size,
            theme,
            system,
        };
        let drawn = self.0[part as usize].get(key, |_| {
            let charted = BudgetChart {
                title,
                budget,
                level: part
                    .level(&good.case())
                    .resting_on(good.document.example_count()),
                least: part.least(&good.unit.limits),
                system,
            }
            .lay_out(
                paper(egui::Rect::from_min_size(egui::Pos2::ZERO, size)),
                theme,
            );
            let painted = Painted::from_panel(&charted.panel);
            Drawn { charted, painted }
        });
        let place = response.rect.min.to_vec2();
        drawn.painted.paint_moved(&canvas, place);
        let pointed = response.hover_pos().and_then(|at| {
            let mut columns = drawn.charted.columns.iter();
            columns.find(|(_, slot)| rect(*slot).translate(place).contains(at))
        });
        let help = ColumnHelp {
            budget,
            is_by_rollers: good.document.setting.rollers.is_some(),
            theme,
            system,
        };
        if let Some((column, _)) = pointed {
            response.on_hover_ui_at_pointer(|ui| help.ui(ui, *column));
        }
    }
}

/// What is told of a column while the pointer rests on it.
struct ColumnHelp<'a> {
    budget: &'a Budget,
    is_by_rollers: bool,
    theme: Theme,
    system: System,
}

impl ColumnHelp<'_> {
    fn ui(&self, ui: &mut Ui, column: Column) {
        let heading = |text: String| Lettering::Name.of(text);
        let Column::Step(kind) = column else {
            ui.label(heading("Clearance to soil".to_owned()));
            let left = self.system.in_column(self.budget.left());
            ui.label(format!("{left}: all steps together."));
            return;
        };
        ui.label(heading(capitalised(kind.name())));
        let number = self.budget.shown(kind, self.system).unwrap_or_default();
        ui.label(RichText::new(&number).family(strong()));
        if let Some(looked) = self.budget.none_of(kind) {
            ui.label(Lettering::Note.of(capitalised(looked.word())));
        }
        ui.label(kind.meaning());
        picture_ui(ui, kind, number, self.theme);
        let fields = kind.fields(self.is_by_rollers).iter();
        let fields: Vec<_> = fields.map(|field| field.name()).collect();
        ui.label(RichText::new(format!("From: {}", fields.join("; "))).weak());
    }
}

/// The step's picture, not to scale.
fn picture_ui(ui: &mut Ui, kind: StepKind, number: String, theme: Theme) {
    let (place, _) = ui.allocate_exact_size(PICTURE, Sense::hover());
    let scene = step_picture(kind, number);
    let view = View::fitting(scene.bounds, paper(place));
    let panel = lay_out(&scene, &view, ShownIn::Whole, theme);
    ui.painter()
        .rect_filled(place, 4.0, colour(theme.look(Role::Paper).fill));
    Painted::from_panel(&panel).paint(ui.painter());
}
