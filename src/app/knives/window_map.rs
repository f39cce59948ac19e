//! The window map: attitude across, reel diameter up, and what forbids each place.

use egui::{ComboBox, Rect, RichText, Shape, Slider, Ui, WidgetInfo, vec2};
use egui_plot::{HoverPosition, PlotBounds, PlotPoint};

use super::App;
use super::aim::Aim;
use super::axis::{Axis, still_plot};
use super::life::Named;
use super::lowest::Lowest;
use super::map_marks::{key_ui, mark_places, marks_ui};
use super::map_painting::{Paper, USABLE};
use crate::analysis::knives::{
    LEAST_HEIGHT_MM, Limit, Map, Trial, attitude_range, map_of_all, passed_at,
};
use crate::drawing::Theme;
use crate::geometry::{KnifeSection, Stance};
use crate::unit::{Fitted, Follows, Unit};
use crate::units::{Angle, Length, System};

/// Height of the map.
const HEIGHT: f32 = 400.0;

/// What the map remembers.
#[derive(Debug, Default)]
pub(super) struct MapState {
    /// The knife mapped, by its name; the one fitted when none was chosen.
    first: Option<String>,
    /// A second one, by its name.
    second: Option<String>,
    /// The height of cut tried on the map; the one in force when none was.
    height: Option<Length>,
    mapped: Option<(MapKey, Map)>,
    painted: Option<Painted>,
    pub(super) lowest: Option<Lowest>,
}

/// A map's shapes and names on a piece of paper.
#[derive(Debug)]
struct Painted {
    paper: Paper,
    shapes: Vec<Shape>,
    /// Where the marks and their names stand.
    avoided: [Rect; 2],
    names: Vec<(Rect, String)>,
}

/// What a map depends on; neither the attitude nor the reel's size as set is part of it.
#[derive(Clone, Debug, PartialEq)]
struct MapKey {
    unit: Unit,
    knives: Vec<KnifeSection>,
    height: Length,
}

/// What is chosen for the map, with what the unit gives.
pub(super) struct Chosen {
    pub(super) unit: Unit,
    pub(super) trial: Trial,
    knives: Vec<Named>,
    height_in_force: Length,
}

impl Chosen {
    fn sections(&self) -> Vec<KnifeSection> {
        self.knives.iter().map(|(_, section)| *section).collect()
    }

    fn together(&self) -> String {
        let names: Vec<_> = self
            .knives
            .iter()
            .map(|(name, _)| format!("\"{name}\""))
            .collect();
        names.join(" and ")
    }
}

/// The unit without what a map sweeps over.
pub(super) fn without_setting(unit: &Unit) -> Unit {
    let mut unit = unit.clone();
    unit.setting.stance = Stance::Wanted {
        attitude: Angle::ZERO,
        height_of_cut: Length::ZERO,
    };
    unit.setting.reel_diameter = unit.new_diameter;
    unit.setting.knife = unit.profile.knife;
    unit.fitted = Fitted::Bench;
    unit.follows = Follows::NONE;
    unit.uncertain.clear();
    unit.mowing = None;
    unit.system = System::default();
    unit
}

impl MapState {
    /// Works the map out, if anything it depends on changed; whether it did.
    fn work_out(&mut self, chosen: &Chosen) -> bool {
        let key = MapKey {
            unit: without_setting(&chosen.unit),
            knives: chosen.sections(),
            height: chosen.trial.height_of_cut,
        };
        if self.mapped.as_ref().is_some_and(|(had, _)| *had == key) {
            return false;
        }
        let map = map_of_all(&chosen.unit, &chosen.trial, &key.knives);
        self.mapped = Some((key, map));
        self.painted = None;
        true
    }
}

impl App {
    pub(super) fn window_map_ui(&mut self, ui: &mut Ui) {
        ui.heading("Window map");
        let system = self.system();
        let theme = Self::theme(ui.ctx());
        let knives = self.named_knives();
        let Some(chosen) = self.choose_ui(ui, &knives) else {
            return;
        };
        let wanted = self.map_height_ui(ui, &chosen, system);
        let Some(chosen) = self.chosen(&knives) else {
            return;
        };
        self.knives.map.work_out(&chosen);
        let clicked = self.map_ui(ui, &chosen, system, theme);
        let is_held = ui.input(|input| input.pointer.any_down());
        // Dear enough to wait for the end of a drag.
        if !is_held || self.knives.map.lowest.is_none() {
            self.knives.map.find_lowest(&chosen.unit, &knives);
        }
        ui.add_space(6.0);
        self.lowest_ui(ui, &chosen.unit, &knives, system);
        if let Some(aim) = clicked.or(wanted) {
            self.aim(aim);
        }
        if wanted.is_some() {
            self.knives.map.height = None;
        }
    }

    /// What is chosen; choices that are gone from the document count as none.
    fn chosen(&self, knives: &[Named]) -> Option<Chosen> {
        let good = self.session.good()?;
        let named = |name: &str| knives.iter().find(|(known, _)| known == name).cloned();
        let state = &self.knives.map;
        let first = state
            .first
            .as_deref()
            .and_then(named)
            .or_else(|| named(good.document.fitted_name()))
            .or_else(|| knives.first().cloned())?;
        let second = state
            .second
            .as_deref()
            .and_then(named)
            .filter(|second| *second != first);
        let in_force = Trial::of(&good.solution);
        Some(Chosen {
            unit: good.unit.clone(),
            trial: Trial {
                height_of_cut: state.height.unwrap_or(in_force.height_of_cut),
                ..in_force
            },
            knives: std::iter::once(first).chain(second).collect(),
            height_in_force: in_force.height_of_cut,
        })
    }

    fn choose_ui(&mut self, ui: &mut Ui, knives: &[Named]) -> Option<Chosen> {
        let chosen = self.chosen(knives)?;
        let state = &mut self.knives.map;
        let first = &chosen.knives.first()?.0;
        let second = chosen.knives.get(1).map(|(name, _)| name);
        ui.horizontal_wrapped(|ui| {
            ui.label("What leaves a window with");
            ComboBox::from_id_salt("map knife")
                .width(150.0)
                .selected_text(first)
                .show_ui(ui, |ui| {
                    for (name, _) in knives {
                        if ui.selectable_label(name == first, name).clicked() {
                            state.first = Some(name.clone());
                        }
                    }
                })
                .response
                .accessible_name("Map of knife");
            ui.label("and with");
            let shown = second.map_or("none", String::as_str);
            ComboBox::from_id_salt("map second knife")
                .width(150.0)
                .selected_text(shown)
                .show_ui(ui, |ui| {
                    if ui.selectable_label(second.is_none(), "none").clicked() {
                        state.second = None;
                    }
                    for (name, _) in knives.iter().filter(|(name, _)| name != first) {
                        let is_chosen = second == Some(name);
                        if ui.selectable_label(is_chosen, name).clicked() {
                            state.second = Some(name.clone());
                        }
                    }
                })
                .response
                .accessible_name("Map of second knife");
        });
        self.chosen(knives)
    }

    /// The height of cut that the map is drawn for; what to set, if it is to be used.
    fn map_height_ui(&mut self, ui: &mut Ui, chosen: &Chosen, system: System) -> Option<Aim> {
        let in_force = chosen.height_in_force;
        let height = chosen.trial.height_of_cut;
        let unit_mm = match system {
            System::Millimetre => 1.0,
            _ => Length::from_inches(1.0).mm(),
        };
        let step_mm = if unit_mm > 1.0 { 0.005 * unit_mm } else { 0.1 };
        let about_mm = in_force.mm().max(1.0);
        let stepped = |mm: f64| (mm / step_mm).round().max(1.0) * step_mm;
        let least = stepped((0.25 * about_mm).max(LEAST_HEIGHT_MM));
        let most = stepped(2.5 * about_mm).max(least + step_mm);
        let mut wanted = None;
        ui.horizontal_wrapped(|ui| {
            ui.label("at a height of cut of");
            let mut shown = height.mm() / unit_mm;
            ui.spacing_mut().slider_width = 220.0;
            let slider = Slider::new(&mut shown, least / unit_mm..=most / unit_mm)
                .show_value(false)
                .smart_aim(false)
                // The height in force stands where it stands, not at the nearest step.
                .clamping(egui::SliderClamping::Never)
                .step_by(step_mm / unit_mm);
            let response = ui
                .add(slider)
                .accessible_name("Map height of cut slider")
                .on_hover_text("Changes this map alone, until it is used");
            if response.changed() {
                self.knives.map.height = Some(Length::from_mm(shown * unit_mm));
            }
            let tried = self.knives.map.height.unwrap_or(in_force);
            ui.label(RichText::new(system.length(tried)).family(super::super::look::strong()));
            let is_other = tried != in_force;
            if ui
                .add_enabled(is_other, egui::Button::new("Use this height"))
                .on_hover_text("Set the unit to it")
                .clicked()
            {
                wanted = Some(Aim {
                    height_of_cut: Some(tried),
                    ..Aim::default()
                });
            }
            if ui
                .add_enabled(is_other, egui::Button::new("Back to the height in force"))
                .clicked()
            {
                self.knives.map.height = None;
            }
            let note = if is_other {
                format!(
                    "tried on the map alone; in force is {}",
                    system.length(in_force)
                )
            } else {
                "as in force".to_owned()
            };
            ui.label(RichText::new(note).weak());
        });
        wanted
    }

    /// The map and its key; what was clicked on it.
    fn map_ui(
        &mut self,
        ui: &mut Ui,
        chosen: &Chosen,
        system: System,
        theme: Theme,
    ) -> Option<Aim> {
        let Some((_, map)) = &self.knives.map.mapped else {
            return None;
        };
        key_ui(ui, map, theme);
        let (attitude, diameter) = (Axis::of_angle(), Axis::of_length(system));
        let (low, high) = attitude_range(&chosen.unit);
        let (smallest_mm, new_mm) = diameters_mm(&chosen.unit);
        let response = still_plot("window map")
            .height(HEIGHT)
            // Room for half of the last number under the map.
            .width(ui.available_width() - 14.0)
            .show_grid(false)
            .custom_x_axes(vec![attitude.across("attitude")])
            .custom_y_axes(vec![diameter.up("reel diameter, scrap to new")])
            .x_grid_spacer(attitude.marks_across())
            .y_grid_spacer(diameter.marks_up())
            .label_formatter(move |hover| Some(hover_text(chosen, system, hover)))
            .show(ui, |plot| {
                plot.set_plot_bounds(PlotBounds::from_min_max(
                    [low.deg(), diameter.place(smallest_mm)],
                    [high.deg(), diameter.place(new_mm)],
                ));
            });
        let title = format!("Window map of {}", chosen.together());
        response
            .response
            .widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, title.clone()));
        let frame = *response.transform.frame();
        let brush = ui.painter().with_clip_rect(frame.intersect(ui.clip_rect()));
        let laid = Paper {
            size: frame.size(),
            attitudes: (low.deg(), high.deg()),
            diameters_mm: (smallest_mm, new_mm),
            theme,
            pixels_per_point: ui.pixels_per_point(),
        };
        let corner = frame.min.to_vec2();
        let avoided = mark_places(&response, chosen, diameter)
            .map(|place| Rect::from_center_size(place - corner, vec2(260.0, 26.0)));
        let (shapes, names) = match self.knives.map.painted.take() {
            Some(last) if last.paper == laid => {
                let names = Some(last.names).filter(|_| last.avoided == avoided);
                (last.shapes, names)
            }
            _ => (laid.shapes(map), None),
        };
        let painted = Painted {
            names: names.unwrap_or_else(|| laid.names(map, &avoided, &brush)),
            paper: laid,
            avoided,
            shapes,
        };
        brush.extend(painted.shapes.iter().cloned().map(|mut shape| {
            shape.translate(corner);
            shape
        }));
        for (place, words) in &painted.names {
            laid.paint_name(place.translate(corner), words, &brush);
        }
        self.knives.map.painted = Some(painted);
        marks_ui(ui, &response, chosen, diameter, theme);
        state_ui(ui, chosen, map, system);
        let pointer = response.response.interact_pointer_pos()?;
        if !response.response.clicked() {
            return None;
        }
        let at = response.transform.value_from_position(pointer);
        let (attitude, diameter) = place_of(chosen, system, at);
        Some(Aim {
            attitude: Some(attitude),
            reel_diameter: Some(diameter),
            ..Aim::default()
        })
    }
}

/// The diameters that the map shows.
fn diameters_mm(unit: &Unit) -> (f64, f64) {
    let (smallest, new) = (unit.smallest_diameter.mm(), unit.new_diameter.mm());
    if new > smallest {
        (smallest, new)
    } else {
        // A reel of one size still wants a strip of paper.
        (0.99 * smallest, 1.01 * new)
    }
}

/// What a place on the map's axes stands for.
fn place_of(chosen: &Chosen, system: System, at: PlotPoint) -> (Angle, Length) {
    let (low, high) = attitude_range(&chosen.unit);
    let (smallest, new) = (
        chosen.unit.smallest_diameter.mm(),
        chosen.unit.new_diameter.mm(),
    );
    let diameter_mm = Axis::of_length(system).base(at.y);
    (
        Angle::from_deg(at.x.min(high.deg()).max(low.deg())),
        Length::from_mm(diameter_mm.min(new).max(smallest)),
    )
}

/// What the map says, in words.
fn state_ui(ui: &mut Ui, chosen: &Chosen, map: &Map, system: System) {
    let height = system.length(chosen.trial.height_of_cut);
    let together = chosen.together();
    let has_window = |row: &crate::analysis::knives::MapRow| !row.windows().is_empty();
    let with = map.rows.iter().filter(|row| has_window(row));
    let (least, most) = with.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), row| {
        (least.min(row.diameter.mm()), most.max(row.diameter.mm()))
    });
    let is_everywhere = map.rows.iter().all(has_window);
    let says = if !least.is_finite() {
        format!(
            "At {height} no attitude holds every limit with {together}, at any size of the reel."
        )
    } else if is_everywhere {
        format!("At {height} there is a window with {together} from a new reel to a scrap one.")
    } else {
        let (least, most) = (Length::from_mm(least), Length::from_mm(most));
        format!(
            "At {height} there is a window with {together} only on reels between {} and {}.",
            system.length(least),
            system.length(most)
        )
    };
    ui.label(says);
    let (low, high) = attitude_range(&chosen.unit);
    let (smallest, new) = (chosen.unit.smallest_diameter, chosen.unit.new_diameter);
    let bench = &chosen.unit.profile.bench;
    for (words, attitude, diameter) in [
        (
            "The present setting",
            chosen.trial.attitude,
            chosen.unit.setting.reel_diameter,
        ),
        ("The bench pose", bench.attitude, bench.reel_diameter),
    ] {
        let is_on = (low..=high).contains(&attitude) && (smallest..=new).contains(&diameter);
        if !is_on {
            ui.label(format!(
                "{words} lies off the map: attitude {}, reel {}.",
                system.angle(attitude),
                system.length(diameter)
            ));
        }
    }
    ui.label(RichText::new("Click the map to set attitude and reel diameter.").weak());
}

/// What forbids the place under the pointer.
fn hover_text(chosen: &Chosen, system: System, hover: &HoverPosition<'_>) -> String {
    let (HoverPosition::NearDataPoint { position, .. } | HoverPosition::Elsewhere { position }) =
        hover;
    let (attitude, diameter) = place_of(chosen, system, *position);
    let mut lines = vec![format!(
        "Attitude {}, reel {}",
        system.angle(attitude),
        system.length(diameter)
    )];
    for (name, section) in &chosen.knives {
        let passed = passed_at(&chosen.unit, &chosen.trial, *section, attitude, diameter);
        let says = if passed.is_empty() {
            USABLE.to_owned()
        } else {
            let names: Vec<_> = passed.into_iter().map(Limit::name).collect();
            names.join(", ")
        };
        lines.push(format!("{name}: {says}"));
    }
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{NoDialogs, Preferences, Session};
    use crate::units::Quantity;

    fn app() -> App {
        let session = Session::demo().expect("the demo unit opens");
        App::new(session, Preferences::default(), Box::new(NoDialogs))
    }

    fn work_out(app: &mut App) -> (bool, usize) {
        let knives = app.named_knives();
        let chosen = app.chosen(&knives).expect("solved");
        let state = &mut app.knives.map;
        (
            state.work_out(&chosen),
            state.find_lowest(&chosen.unit, &knives),
        )
    }

    #[test]
    fn the_map_is_worked_out_once_while_nothing_it_shows_changes() {
        let mut app = app();
        let (is_new, looked_for) = work_out(&mut app);
        assert!(is_new && looked_for == 12, "{looked_for}");
        assert_eq!(work_out(&mut app), (false, 0));
        let setting = &mut app.session.document.setting;
        setting.attitude = Some(Quantity::from_value(
            Angle::from_deg(6.0),
            System::InchDecimal,
        ));
        app.session.settle();
        assert_eq!(
            work_out(&mut app),
            (false, 0),
            "the map sweeps over attitude"
        );
        let setting = &mut app.session.document.setting;
        setting.reel_diameter = Some(Quantity::from_value(
            Length::from_inches(6.7),
            System::InchDecimal,
        ));
        app.session.settle();
        assert_eq!(work_out(&mut app), (false, 4), "only the reel as it is now");
        app.knives.map.height = Some(Length::from_inches(0.375));
        assert_eq!(work_out(&mut app), (true, 0));
        app.knives.map.second = Some("reaching".to_owned());
        assert_eq!(work_out(&mut app), (true, 0));
    }

    #[test]
    fn a_knife_that_is_gone_is_no_longer_mapped() {
        let mut app = app();
        app.knives.map.first = Some("reaching".to_owned());
        app.knives.map.second = Some("gone".to_owned());
        let knives = app.named_knives();
        let chosen = app.chosen(&knives).expect("solved");
        assert_eq!(chosen.together(), "\"reaching\"");
        app.session.document.options.clear();
        app.session.settle();
        let knives = app.named_knives();
        let chosen = app.chosen(&knives).expect("solved");
        assert_eq!(chosen.together(), "\"plain\"");
    }
}
