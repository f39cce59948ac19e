//! Knives drawn over each other: which are ticked, and the lens that shows them beside the table.

use egui::{Rect, RichText, Sense, Shape, Stroke, Ui, Vec2, WidgetInfo};

use super::super::App;
use super::super::look::{colour, strong};
use super::super::paint::{Painted, paper};
use crate::analysis::knives::Trial;
use crate::analysis::{Case, Solution, Solved, SolvedId};
use crate::drawing::{Lens, LensChoice, OVERLAYS, Overlay, Role, SideView, Theme};
use crate::geometry::Setting;
use crate::units::System;

/// The knives ticked for drawing over the fitted one, each in a place that keeps its line pattern.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(in crate::app) struct Ticked([Option<String>; OVERLAYS]);

impl Ticked {
    /// The place of a knife that is ticked.
    pub(super) fn place_of(&self, name: &str) -> Option<u8> {
        self.iter()
            .find_map(|(place, ticked)| (ticked == name).then_some(place))
    }

    /// Whether every place is taken.
    pub(super) fn is_full(&self) -> bool {
        self.0.iter().all(Option::is_some)
    }

    fn is_empty(&self) -> bool {
        self.0.iter().all(Option::is_none)
    }

    /// Ticks a knife, in the first place that is free, or unticks it.
    pub(super) fn set(&mut self, name: &str, is_ticked: bool) {
        self.keep_only(|ticked| ticked != name);
        if is_ticked && let Some(place) = self.0.iter_mut().find(|place| place.is_none()) {
            *place = Some(name.to_owned());
        }
    }

    pub(super) fn rename(&mut self, old: &str, new: &str) {
        for ticked in self.0.iter_mut().flatten().filter(|name| *name == old) {
            new.clone_into(ticked);
        }
    }

    pub(super) fn keep_only(&mut self, is_kept: impl Fn(&str) -> bool) {
        for place in &mut self.0 {
            if place.as_deref().is_some_and(|name| !is_kept(name)) {
                *place = None;
            }
        }
    }

    fn iter(&self) -> impl Iterator<Item = (u8, &str)> {
        (0_u8..)
            .zip(&self.0)
            .filter_map(|(place, name)| Some((place, name.as_deref()?)))
    }
}

/// A ticked knife solved on the unit, all else as set.
#[derive(Clone, Debug)]
pub(in crate::app) struct Overlaid {
    name: String,
    place: u8,
    setting: Setting,
    solution: Solution,
}

impl Overlaid {
    fn all_of(ticked: &Ticked, solved: &Solved) -> Vec<Self> {
        let (unit, trial) = (&solved.unit, Trial::of(&solved.solution));
        ticked
            .iter()
            .filter_map(|(place, name)| {
                let (_, knife) = solved
                    .document
                    .knives()
                    .find(|(_, knife)| knife.name == name)?;
                let setting = trial.setting(unit, knife.section(), unit.setting.reel_diameter);
                Some(Self {
                    name: name.to_owned(),
                    place,
                    setting,
                    solution: Solution::of(unit, &setting).ok()?,
                })
            })
            .collect()
    }

    /// What a side view draws of them.
    pub(in crate::app) fn all_on<'a>(all: &'a [Self], solved: &'a Solved) -> Vec<Overlay<'a>> {
        all.iter()
            .map(|overlaid| Overlay {
                name: &overlaid.name,
                place: overlaid.place,
                case: Case {
                    unit: &solved.unit,
                    setting: &overlaid.setting,
                    solution: &overlaid.solution,
                },
            })
            .collect()
    }
}

/// What the painted lens depends on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    solved: SolvedId,
    ticked: Ticked,
    place: Rect,
    theme: Theme,
    system: System,
    pixels_per_point: f32,
}

/// The lens beside the table, painted when something it shows changed and at no other time.
#[derive(Debug, Default)]
pub(super) struct OverlayState {
    pub(super) ticked: Ticked,
    painted: Option<(Key, Painted)>,
}

impl App {
    /// The knives that are ticked.
    pub(in crate::app) fn ticked(&self) -> &Ticked {
        &self.knives.overlay.ticked
    }

    /// The ticked knives that can be drawn, solved.
    pub(in crate::app) fn overlaid(&self, solved: &Solved) -> Vec<Overlaid> {
        Overlaid::all_of(self.ticked(), solved)
    }

    /// The lens with the ticked knives over the one that is fitted.
    pub(super) fn overlay_ui(&mut self, ui: &mut Ui) {
        const HEIGHT: f32 = 430.0;
        ui.label(
            RichText::new("Drawn over each other")
                .family(strong())
                .size(16.0),
        );
        let told = if self.ticked().is_empty() {
            "Tick \"overlay\" for up to four knives: they are drawn over the one that is fitted, edge on edge, here and in the drawing and lens of the Unit area."
        } else {
            "The ticked knives at the clip point, edge on edge, over the one that is fitted; also in the drawing and lens of the Unit area."
        };
        ui.label(told);
        let Some(good) = self.session.good() else {
            return;
        };
        if self.ticked().is_empty() {
            return;
        }
        let size = Vec2::new(ui.available_width().min(900.0), HEIGHT);
        let (response, painter) = ui.allocate_painter(size, Sense::hover());
        response.widget_info(|| {
            WidgetInfo::labeled(
                egui::Role::Image,
                true,
                "Lens with knives drawn over each other",
            )
        });
        let theme = Self::theme(ui.ctx());
        let system = self.system();
        let key = Key {
            solved: good.id,
            ticked: self.ticked().clone(),
            place: response.rect,
            theme,
            system,
            pixels_per_point: ui.pixels_per_point(),
        };
        let old = self.knives.overlay.painted.as_ref();
        if old.is_none_or(|(old, _)| *old != key) {
            let overlaid = self.overlaid(good);
            let scene = SideView {
                uncertainty: None,
                ghost: None,
                overlays: &Overlaid::all_on(&overlaid, good),
                system,
                ..SideView::of(good)
            }
            .scene();
            let window = paper(response.rect);
            let lens = Lens::on(&good.solution, LensChoice::default(), window, system);
            let shapes = Painted::from_panel(&lens.panel(&scene, theme), theme);
            self.knives.overlay.painted = Some((key, shapes));
        }
        if let Some((_, shapes)) = &self.knives.overlay.painted {
            shapes.paint(&painter);
        }
    }
}

/// A piece of the line that a knife is drawn with.
pub(super) fn line_sample(ui: &mut Ui, place: u8, theme: Theme) {
    let (rect, _) = ui.allocate_exact_size(Vec2::new(40.0, 14.0), Sense::hover());
    let look = theme.look(Role::Overlay(place));
    #[allow(clippy::cast_possible_truncation)]
    let lengths: Vec<f32> = look.dashes.iter().map(|&length| length as f32).collect();
    let dashes: Vec<f32> = lengths.iter().copied().step_by(2).collect();
    let gaps: Vec<f32> = lengths.iter().copied().skip(1).step_by(2).collect();
    let ends = [rect.left_center(), rect.right_center()];
    let stroke = Stroke::new(2.4, colour(look.ink));
    ui.painter().extend(Shape::dashed_line_with_offset(
        &ends, stroke, &dashes, &gaps, 0.0,
    ));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{NoDialogs, Preferences, Session};
    use crate::units::Quantity;

    #[test]
    fn a_ticked_knife_is_drawn_as_it_was_solved_whatever_was_typed_since() {
        let session = Session::demo().expect("the demo unit opens");
        let mut app = App::new(session, Preferences::default(), Box::new(NoDialogs));
        let good = app.session.good().cloned().expect("solved");
        let name = good.document.options[0].name.clone();
        app.knives.overlay.ticked.set(&name, true);
        let reach_mm = |app: &App| {
            let overlaid = app.overlaid(&good);
            overlaid
                .iter()
                .map(|o| o.setting.knife.reach.mm())
                .collect::<Vec<_>>()
        };
        let before = reach_mm(&app);
        assert_eq!(before.len(), 1);
        // No reach at all is a flaw: what is drawn stays that of the last solution.
        app.session.document.options[0].reach = Quantity::parse("0 mm").expect("a length");
        app.session.settle();
        assert!(app.session.trouble().is_some());
        assert_eq!(reach_mm(&app), before);
    }

    #[test]
    fn a_ticked_knife_keeps_its_place_while_others_come_and_go() {
        let mut ticked = Ticked::default();
        for name in ["a", "b", "c", "d", "e"] {
            ticked.set(name, true);
        }
        assert!(ticked.is_full() && ticked.place_of("e").is_none());
        ticked.set("b", false);
        assert_eq!(ticked.place_of("c"), Some(2));
        ticked.set("e", true);
        assert_eq!(ticked.place_of("e"), Some(1));
        ticked.rename("e", "f");
        ticked.keep_only(|name| name == "f");
        assert_eq!(ticked.iter().collect::<Vec<_>>(), [(1, "f")]);
    }
}
