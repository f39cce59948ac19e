//! How the reel wears: its diameters plotted, and when the limits are met.

use std::rc::Rc;

use egui::{Label, ScrollArea, Sense, Ui, Vec2, WidgetInfo};

use crate::analysis::{DUE_RULE, LeftAlone, Solved, SolvedId, WearAhead, WearAlong, due_told};
use crate::app::desk::Desk;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::Painted;
use crate::drawing::{Role, Style, Theme, wear_plot};
use crate::plate::{Day, Record};
use crate::units::System;

/// Height of the plot, least and most.
const LEAST: f32 = 170.0;
const MOST: f32 = 330.0;

/// Which solve and which reading of the record, and along what.
type Key = (SolvedId, u64, WearAlong);

/// What the plot remembers.
#[derive(Default)]
pub struct Wear {
    /// What is chosen; none before, for whatever the record has more of.
    chosen: Option<WearAlong>,
    ahead: Kept<Key, Rc<WearAhead>>,
    painted: Kept<(Key, System, Theme, [u32; 2]), Vec<Painted>>,
}

impl Wear {
    /// The choice, the plot, and what is told of it.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        (good, left_alone): (&Solved, &LeftAlone),
        (record, reading): (&Record, u64),
    ) {
        let system = desk.system();
        let most_of = || {
            let [hours, days] = WearAlong::ALL.map(|along| along.diameters(record).len());
            if hours >= days {
                WearAlong::Hours
            } else {
                WearAlong::Days
            }
        };
        let mut along = self.chosen.unwrap_or_else(most_of);
        ui.horizontal_wrapped(|ui| {
            ui.heading("Wear of the reel");
            ui.label("over");
            for offered in WearAlong::ALL {
                if ui
                    .selectable_label(along == offered, offered.name())
                    .clicked()
                {
                    self.chosen = Some(offered);
                    along = offered;
                }
            }
        });
        let key = (good.id, reading, along);
        let made = |_: &_| Rc::new(WearAhead::of(left_alone, record, along));
        let ahead = Rc::clone(self.ahead.get(key, made));
        ScrollArea::vertical()
            .id_salt("wear of the reel")
            .auto_shrink(false)
            .show(ui, |ui| {
                let followed = Followed::begin(ui);
                self.plot_ui(ui, (good, &ahead), key, system);
                let today = Day::today();
                let first = Lettering::Name.of(due_told(&ahead.due, today));
                ui.add(Label::new(first).wrap());
                ui.add(Label::new(ahead.rate_told(system)).wrap());
                ui.label("Left alone, rollers untouched:");
                for limit in &ahead.limits {
                    ui.add(Label::new(ahead.limit_told(limit, system, today)).wrap());
                }
                ui.label(Lettering::FinePrint.of(BASIS).weak());
                ui.label(Lettering::FinePrint.of(DUE_RULE).weak());
                followed.bring_in(ui);
            });
    }

    fn plot_ui(
        &mut self,
        ui: &mut Ui,
        (good, ahead): (&Solved, &WearAhead),
        key: Key,
        system: System,
    ) {
        let theme = theme(ui.ctx());
        let height = (0.5 * ui.clip_rect().height()).clamp(LEAST, MOST);
        let size = Vec2::new(ui.available_width(), height);
        let (response, painter) = ui.allocate_painter(size, Sense::hover());
        let told = format!("Reel diameter over {}", key.2.name());
        response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, told.clone()));
        let paper = colour(theme.look(Role::Paper).fill);
        painter.rect_filled(response.rect, 6.0, paper);
        let extent = [size.x, size.y].map(f32::to_bits);
        let plot = self.painted.get((key, system, theme, extent), |_| {
            let size = kurbo::Size::new(f64::from(size.x), f64::from(size.y));
            let window = size.to_rect().inset(-8.0);
            let smallest = good.unit.smallest_diameter;
            let style = Style::from(theme);
            let panels = wear_plot(ahead, smallest, window, system, style);
            panels.iter().map(Painted::from_panel).collect()
        });
        for panel in plot {
            panel.paint_moved(&painter, response.rect.min.to_vec2());
        }
    }
}

/// What the plot rests on.
const BASIS: &str = "Line: the straight one that lies closest to the diameters of the reel that is on the unit now (least squares). A diameter larger by more than 1 mm (0.039 in) begins a new reel. Band: where the next diameter lies with 95 % while the work stays as it is; it is drawn as far as it tells anything.";
