//! The life plots: what each knife does from a new reel to a scrap one, or over attitude or
//! extension.

mod band;
mod key;
mod legend;
mod plot;
mod words;
mod worked_out;

use egui::{Align, Layout, RichText, Ui};

use self::key::Key;
use self::legend::legend_ui;
use self::plot::plot_ui;
use self::worked_out::WorkedOut;
use super::room::PictureRoom;
use super::worked_out::KnivesDrawn;
use crate::analysis::knives::Over;
use crate::app::desk::{Aim, Desk};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::theme;
use crate::units::{Angle, Length};

/// Three plots stand side by side where each gets at least this.
const LEAST_WIDTH: f32 = 262.0;

/// What the plots remember.
#[derive(Debug, Default)]
pub struct LifePlots {
    over: Over,
    worked_out: Kept<Key, WorkedOut>,
}

impl LifePlots {
    /// Heading, choice, key and plots.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        desk: &mut Desk,
        plotted: Option<&KnivesDrawn>,
        room: PictureRoom,
    ) {
        let system = desk.system();
        let heading = match self.over {
            Over::Diameter => "Through the reel's life",
            Over::Attitude => "Over attitude",
            Over::Extension => "Over edge forward",
        };
        if !room.is_pane() {
            ui.heading(heading);
        }
        ui.horizontal_wrapped(|ui| {
            if room.is_pane() {
                ui.heading(heading);
            }
            ui.label("Against");
            for over in Over::ALL {
                ui.selectable_value(&mut self.over, over, over.name());
            }
        });
        let (Some(good), Some(plotted)) = (desk.good(), plotted) else {
            return;
        };
        let key = &Key::of(good, plotted, self.over, system);
        let worked_out = &*self.worked_out.get(key.clone(), WorkedOut::of);
        let theme = theme(ui.ctx());
        note_ui(ui, key, desk.document().setting.rollers.is_some());
        if let Some(note) = plotted.note() {
            ui.label(note);
        }
        legend_ui(ui, key, &worked_out.same, theme);
        let mut clicked = None;
        let mut plot = |ui: &mut Ui, index: usize| {
            if let Some(at) = plot_ui(ui, key, worked_out, index, theme, room) {
                clicked = Some(at);
            }
            for sentence in &worked_out.plots[index].sentences {
                ui.label(Lettering::Note.of(sentence));
            }
        };
        if ui.available_width() >= 3.0 * LEAST_WIDTH {
            ui.columns(3, |columns| {
                for (index, column) in columns.iter_mut().enumerate() {
                    // Columns stretch what stands in them, which spreads out words.
                    column.with_layout(Layout::top_down(Align::Min), |ui| plot(ui, index));
                }
            });
        } else {
            for index in 0..3 {
                plot(ui, index);
                ui.add_space(6.0);
            }
        }
        let over = key.over;
        if let Some(at) = clicked {
            desk.aim(match over {
                Over::Diameter => Aim {
                    reel_diameter: Some(Length::from_mm(at)),
                    ..Aim::default()
                },
                Over::Attitude => Aim {
                    attitude: Some(Angle::from_deg(at)),
                    ..Aim::default()
                },
                Over::Extension => Aim {
                    extension: Some(Length::from_mm(at)),
                    ..Aim::default()
                },
            });
        }
    }
}

/// What stays as it is along the lines.
fn note_ui(ui: &mut Ui, key: &Key, is_by_rollers: bool) {
    let height = key.system.length(key.trial.height_of_cut);
    let attitude = key.system.angle(key.trial.attitude);
    let diameter = key.system.length(key.unit.setting.reel_diameter);
    let kept = match key.over {
        Over::Diameter => format!("attitude {attitude}, height of cut {height}"),
        Over::Attitude => format!("reel {diameter}, height of cut {height}"),
        Over::Extension => {
            format!("reel {diameter}, attitude {attitude}, height of cut {height}")
        }
    };
    let rollers = if is_by_rollers {
        " as the given rollers leave them now"
    } else {
        ""
    };
    let text =
        format!("Held along each line: {kept}{rollers}. Click a plot to set the unit there.");
    ui.label(RichText::new(text).weak());
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::desk::{Change, NoDialogs, Preferences, Session};
    use crate::units::{Quantity, System};

    fn desk() -> Desk {
        let session = Session::demo().expect("the demo unit opens");
        Desk::new(session, Preferences::default(), Box::new(NoDialogs))
    }

    #[test]
    fn the_plots_are_worked_out_once_while_nothing_changes() {
        let mut desk = desk();
        let mut plots = LifePlots::default();
        // Whether the plots were made anew.
        let mut work_out = |desk: &Desk, over| {
            let good = desk.good().expect("solved");
            let drawn = KnivesDrawn::of(good, desk.ticked());
            let key = Key::of(good, &drawn, over, desk.system());
            let mut is_new = false;
            plots.worked_out.get(key, |key| {
                is_new = true;
                WorkedOut::of(key)
            });
            is_new
        };
        assert!(work_out(&desk, Over::Diameter));
        assert!(!work_out(&desk, Over::Diameter), "asked for again");
        assert!(work_out(&desk, Over::Attitude));
        assert!(!work_out(&desk, Over::Attitude), "asked for again");
        let attitude = Quantity::from_value(Angle::from_deg(6.0), System::InchDecimal);
        desk.edit(Change::new("Attitude"), |document| {
            document.setting.attitude = Some(attitude);
        });
        assert!(work_out(&desk, Over::Attitude), "the unit is another");
        assert!(!work_out(&desk, Over::Attitude), "asked for again");
    }

    #[test]
    fn a_crossing_is_said_in_words() {
        let mut desk = desk();
        let system = System::InchDecimal;
        let attitude = Quantity::from_value(Angle::from_deg(6.0), system);
        desk.edit(Change::new("Attitude"), |document| {
            document.setting.attitude = Some(attitude);
        });
        let good = desk.good().expect("solved");
        let plotted = KnivesDrawn::of(good, desk.ticked());
        let key = Key::of(good, &plotted, Over::default(), system);
        let worked_out = WorkedOut::of(&key);
        let said = worked_out.plots[0].sentences.join("\n");
        assert!(
            said.contains("\"short\"") && said.contains("the sweep limit (watch) at a reel of"),
            "{said}"
        );
        for plotted in &worked_out.plots {
            let marked: usize = plotted.crossings.iter().map(Vec::len).sum();
            let told = plotted.sentences.iter().filter(|s| s.contains("goes past"));
            assert_eq!(marked, told.count());
        }
    }
}
