//! The Blade path area: how long the clips are, and the way of the blades' tips over the ground.

mod drawing;
mod numbers;

use std::rc::Rc;

use egui::{RichText, Ui};

use super::App;
use super::form::example_speeds;
use super::look::strong;
use crate::analysis::{Kinematics, SolvedId, Told};
use crate::unit::Group;
use crate::units::{Sentence, System};

/// Never with the reel turning.
const CAUTION: &str = "Never measure or look closely with the reel turning: engine off, key out, reel blocked, cut-resistant gloves. Take speeds from the machine's manual, or have a qualified technician measure them with the guards on.";

/// What the area shows, worked out when an input changed and at no other time.
#[derive(Debug, Default)]
pub(super) struct BladePathState {
    /// What was solved and the units that `worked_out` belongs to.
    key: Option<(SolvedId, System)>,
    worked_out: Option<Rc<WorkedOut>>,
    drawing: drawing::DrawingState,
}

/// The kinematics and how they read.
#[derive(Clone, Debug)]
struct WorkedOut {
    kinematics: Kinematics,
    numbers: Vec<Told>,
    in_short: String,
}

impl App {
    /// The whole area.
    pub(super) fn blade_path_ui(&mut self, ui: &mut Ui) {
        self.work_out_blade_path();
        let has_numbers = self.blade_path.worked_out.is_some();
        if has_numbers {
            let height = ui.ctx().content_rect().height();
            egui::Panel::bottom("path numbers")
                .default_size((0.335 * height).clamp(200.0, 275.0))
                .size_range(120.0..=480.0)
                .resizable(true)
                .show(ui, |ui| self.path_numbers_ui(ui));
        }
        egui::CentralPanel::default_margins().show(ui, |ui| {
            let theme = Self::theme(ui.ctx());
            if self.session.good().is_none() {
                self.nothing_drawn_ui(ui, theme);
            } else if has_numbers {
                self.path_heading_ui(ui);
                self.path_tools_ui(ui);
                self.path_drawing_ui(ui, theme);
            } else {
                self.no_speeds_ui(ui);
            }
        });
    }

    fn work_out_blade_path(&mut self) {
        let system = self.system();
        let Some(good) = self.session.good() else {
            return;
        };
        let key = Some((good.id, system));
        if self.blade_path.key == key {
            return;
        }
        let kinematics = Kinematics::of(&good.unit, &good.solution);
        self.blade_path.worked_out = kinematics.map(|kinematics| {
            Rc::new(WorkedOut {
                numbers: kinematics.told(system),
                in_short: in_short(&kinematics, system),
                kinematics,
            })
        });
        self.blade_path.key = key;
    }

    fn path_heading_ui(&self, ui: &mut Ui) {
        let Some(worked_out) = &self.blade_path.worked_out else {
            return;
        };
        ui.add_enabled_ui(self.why_not_current().is_none(), |ui| {
            let text = RichText::new(&worked_out.in_short)
                .family(strong())
                .size(19.0);
            ui.add(egui::Label::new(text).truncate());
        });
    }

    /// Without speeds there is nothing to show but what is missing.
    fn no_speeds_ui(&mut self, ui: &mut Ui) {
        ui.vertical_centered(|ui| {
            ui.set_max_width(560.0);
            ui.add_space(80.0);
            ui.heading("No speeds yet");
            ui.label("Clips and paths follow from the ground speed and the reel's speed, which this unit does not have. Write them under Mowing in the form, or begin with an example and type over it there.");
            ui.add_space(6.0);
            let can_fill = self.asking.is_none();
            let button = ui
                .add_enabled(can_fill, egui::Button::new("Fill in speeds"))
                .on_hover_text("Puts an example into the form, to be typed over");
            if button.clicked() {
                self.drafts.remove_within(Group::Mowing);
                self.session.document.mowing = Some(example_speeds(self.system()));
            }
            ui.add_space(16.0);
            ui.label(CAUTION);
        });
    }
}

/// The clips in one line.
fn in_short(kinematics: &Kinematics, system: System) -> String {
    let clip = kinematics.clip_length.into();
    match kinematics.clip_to_cut {
        Some(ratio) => Sentence::new(
            "A clip every {}, {} times the height of cut",
            &[clip, ratio.into()],
        ),
        None => Sentence::new("A clip every {}; there is no height of cut", &[clip]),
    }
    .shown_in(system)
}
