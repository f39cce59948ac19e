//! The window map: attitude across, reel diameter up, and what forbids each place.

mod chosen;
mod key;
mod lowest;

use egui::{ComboBox, RichText, Sense, Slider, Stroke, Tooltip, Ui, WidgetInfo, vec2};

use self::chosen::{Choice, Chosen, without_setting};
use self::key::key_ui;
use self::lowest::LowestHeights;
use super::inks::faint_ink;
use super::room::PictureRoom;
use super::worked_out::{KnivesDrawn, Named};
use crate::analysis::Solved;
use crate::analysis::knives::{Limit, Map, map_of_all, passed_at};
use crate::analysis::ranges::{LEAST_HEIGHT_MM, attitude_range};
use crate::app::desk::{Aim, Desk};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::strong;
use crate::app::widgets::list::list_ui;
use crate::app::widgets::long_list::long_list_ui;
use crate::app::widgets::look::theme;
use crate::app::widgets::paint::{Painted, paper, point, rect};
use crate::drawing::{MapAxes, MapKey, MapPicture, MapSetting, Theme};
use crate::geometry::KnifeSection;
use crate::unit::Unit;
use crate::units::{Angle, Length, System};

/// Height of the map.
const HEIGHT: f32 = 400.0;
/// What the map says in words under it.
const UNDER: f32 = 26.0;

/// About how high a knife of a list to choose from is.
const LINE: f32 = 31.0;

/// What the map remembers.
#[derive(Debug, Default)]
pub struct WindowMap {
    choice: Choice,
    mapped: Kept<Swept, Mapped>,
    aim: Kept<(Unit, Swept, System), Option<Angle>>,
    lowest: LowestHeights,
}

/// A map and its picture as it was painted last: what stays while a setting moves, and the rest.
#[derive(Debug)]
struct Mapped {
    map: Map,
    ground: Kept<MapAxes, [Painted; 2]>,
    lettering: Kept<(MapAxes, Vec<MapSetting>), Painted>,
}

impl Mapped {
    fn of(chosen: &Chosen, swept: &Swept) -> Self {
        Self {
            map: map_of_all(&chosen.unit, &chosen.trial, &swept.knives),
            ground: Kept::default(),
            lettering: Kept::default(),
        }
    }
}

/// What a map depends on; neither the attitude nor the reel's size as set is part of it.
#[derive(Clone, Debug, PartialEq)]
struct Swept {
    unit: Unit,
    knives: Vec<KnifeSection>,
    height: Length,
}

impl Swept {
    fn of(chosen: &Chosen) -> Self {
        Self {
            unit: without_setting(&chosen.unit),
            knives: chosen.sections(),
            height: chosen.trial.height_of_cut,
        }
    }
}

impl WindowMap {
    /// Choice, key, map and the lowest heights of cut.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        desk: &mut Desk,
        lists: Option<(&[Named], &KnivesDrawn)>,
        room: PictureRoom,
    ) {
        if !room.is_pane() {
            ui.heading("Attitude map");
        }
        let system = desk.system();
        let theme = theme(ui.ctx());
        let (Some(good), Some((knives, plotted))) = (desk.good(), lists) else {
            return;
        };
        let Some(chosen) = self.choose_ui(ui, good, knives) else {
            return;
        };
        let wanted = self.height_ui(ui, &chosen, system);
        let Some(chosen) = Chosen::of(&self.choice, good, knives) else {
            return;
        };
        let clicked = self.map_ui(ui, &chosen, system, theme, room);
        let is_held = ui.input(|input| input.pointer.any_down());
        // Dear enough to wait for the end of a drag.
        if !is_held || self.lowest.is_empty() {
            self.lowest
                .find(&chosen.unit, &plotted.knives, &plotted.places);
        }
        ui.add_space(6.0);
        self.lowest.show(ui, &chosen.unit, plotted, system);
        if let Some(aim) = clicked.or(wanted) {
            desk.aim(aim);
        }
        if wanted.is_some() {
            self.choice.height = None;
        }
    }

    fn choose_ui(&mut self, ui: &mut Ui, good: &Solved, knives: &[Named]) -> Option<Chosen> {
        let chosen = Chosen::of(&self.choice, good, knives)?;
        let state = &mut self.choice;
        let first = &chosen.knives.first()?.0;
        let second = chosen.knives.get(1).map(|(name, _)| name);
        ui.horizontal_wrapped(|ui| {
            ui.label("Working range with");
            let list = ComboBox::from_id_salt("map knife")
                .width(150.0)
                .selected_text(first);
            list_ui(ui, list, |ui, list| {
                long_list_ui(ui, "first", knives.len(), LINE, |ui, index| {
                    let (name, _) = &knives[index];
                    let offer = |ui: &mut Ui| list.offer(ui, name == first, name);
                    if ui.push_id(index, offer).inner {
                        state.first = Some(name.clone());
                    }
                });
            })
            .accessible_name("Map of knife");
            ui.label("and with");
            let shown = second.map_or("none", String::as_str);
            let list = ComboBox::from_id_salt("map second knife")
                .width(150.0)
                .selected_text(shown);
            list_ui(ui, list, |ui, list| {
                if list.offer(ui, second.is_none(), "none") {
                    state.second = None;
                }
                let others = knives.iter().filter(|(name, _)| name != first);
                let others: Vec<&Named> = others.collect();
                long_list_ui(ui, "second", others.len(), LINE, |ui, index| {
                    let (name, _) = others[index];
                    let offer = |ui: &mut Ui| list.offer(ui, second == Some(name), name);
                    if ui.push_id(index, offer).inner {
                        state.second = Some(name.clone());
                    }
                });
            })
            .accessible_name("Map of second knife");
        });
        Chosen::of(&self.choice, good, knives)
    }

    /// The height of cut that the map is drawn for; what to set, if it is to be used.
    fn height_ui(&mut self, ui: &mut Ui, chosen: &Chosen, system: System) -> Option<Aim> {
        let in_force = chosen.height_in_force;
        let height = chosen.trial.height_of_cut;
        let unit_mm = match system {
            System::Millimetre => 1.0,
            System::InchDecimal | System::InchFraction => Length::from_inches(1.0).mm(),
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
            ui.ctx().accesskit_node_builder(response.id, |node| {
                node.set_value(system.length(height));
            });
            if response.changed() {
                self.choice.height = Some(Length::from_mm(shown * unit_mm));
            }
            let tried = self.choice.height.unwrap_or(in_force);
            ui.label(RichText::new(system.length(tried)).family(strong()));
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
                .add_enabled(is_other, egui::Button::new("Back to the current height"))
                .clicked()
            {
                self.choice.height = None;
            }
            let note = if is_other {
                format!(
                    "tried on the map alone; current is {}",
                    system.length(in_force)
                )
            } else {
                "current".to_owned()
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
        room: PictureRoom,
    ) -> Option<Aim> {
        let swept = Swept::of(chosen);
        let asked = (chosen.unit.clone(), swept.clone(), system);
        let settings = chosen.settings(*self.aim.get(asked, |_| chosen.aim(system)));
        let mapped = self.mapped.get(swept, |swept| Mapped::of(chosen, swept));
        let map = &mapped.map;
        key_ui(ui, map, &settings, theme);
        let high = room.height(ui, HEIGHT, UNDER);
        let size = vec2(ui.available_width(), high);
        let (whole, painter) = ui.allocate_painter(size, Sense::hover());
        let corner = whole.rect.min.to_vec2();
        let on_paper = paper(whole.rect.translate(-corner));
        let axes = MapAxes::of(&chosen.unit, on_paper, system, theme);
        let response = ui.interact(
            rect(axes.frame()).translate(corner),
            whole.id.with("map"),
            Sense::click(),
        );
        let title = format!("Attitude map of {}", chosen.together());
        response.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, title.clone()));
        let picture = MapPicture { map, axes };
        let ground = mapped.ground.get(axes, |_| {
            picture.ground().map(|panel| Painted::from_panel(&panel))
        });
        let lettering = mapped.lettering.get((axes, settings), |(_, settings)| {
            Painted::from_panel(&picture.lettering(settings))
        });
        for painted in ground.iter().chain([&*lettering]) {
            painted.paint_moved(&painter, corner);
        }
        state_ui(ui, chosen, map, system);
        let setting_at = |at: egui::Pos2| axes.setting_at(point(at - corner));
        if let Some(at) = response.hover_pos() {
            let thin = Stroke::new(1.0, faint_ink(theme));
            painter.hline(response.rect.x_range(), at.y, thin);
            painter.vline(at.x, response.rect.y_range(), thin);
            Tooltip::always_open(
                ui.ctx().clone(),
                ui.layer_id(),
                response.id,
                egui::PopupAnchor::Pointer,
            )
            .gap(12.0)
            .show(|ui| ui.label(hover_text(chosen, system, setting_at(at))));
        }
        let (attitude, diameter) = setting_at(response.interact_pointer_pos()?);
        response.clicked().then(|| Aim {
            attitude: Some(attitude),
            reel_diameter: Some(diameter),
            ..Aim::default()
        })
    }
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
            "At {height} no attitude holds every limit with {together}, at any diameter of the reel."
        )
    } else if is_everywhere {
        format!(
            "At {height} an attitude holds every limit with {together} at every diameter, new to scrap. The table shows whether one leaves room enough for all of them."
        )
    } else {
        let (least, most) = (Length::from_mm(least), Length::from_mm(most));
        format!(
            "At {height} there is a working range with {together} only on reels between {} and {}.",
            system.length(least),
            system.length(most)
        )
    };
    ui.label(says);
    let (low, high) = attitude_range(&chosen.unit.limits);
    let (smallest, new) = (chosen.unit.smallest_diameter, chosen.unit.new_diameter);
    let bench = &chosen.unit.profile.bench;
    for (words, attitude, diameter) in [
        (
            "The current setting",
            chosen.trial.attitude,
            chosen.unit.setting.reel_diameter,
        ),
        ("The unit as measured", bench.attitude, bench.reel_diameter),
    ] {
        let is_on = (low..=high).contains(&attitude) && (smallest..=new).contains(&diameter);
        if !is_on {
            ui.label(format!(
                "{words} is off the map: attitude {}, reel {}.",
                system.angle(attitude),
                system.length(diameter)
            ));
        }
    }
    ui.label(RichText::new("Click the map to set attitude and reel diameter.").weak());
}

/// What forbids the place under the pointer.
fn hover_text(chosen: &Chosen, system: System, (attitude, diameter): (Angle, Length)) -> String {
    let mut lines = vec![format!(
        "Attitude {}, reel {}",
        system.angle(attitude),
        system.length(diameter)
    )];
    for (name, section) in &chosen.knives {
        let passed = passed_at(&chosen.unit, &chosen.trial, *section, attitude, diameter);
        let says = if passed.is_empty() {
            MapKey::Usable.words().to_owned()
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
    use super::super::worked_out::named_knives;
    use super::*;
    use crate::app::desk::{Change, NoDialogs, Preferences, Session};
    use crate::units::Quantity;

    fn desk() -> Desk {
        let session = Session::demo().expect("the demo unit opens");
        Desk::new(session, Preferences::default(), Box::new(NoDialogs))
    }

    /// Whether the map was made anew, and how many lowest heights had to be looked for.
    fn work_out(window_map: &mut WindowMap, desk: &Desk) -> (bool, usize) {
        let good = desk.good().expect("solved");
        let knives = named_knives(good);
        let chosen = Chosen::of(&window_map.choice, good, &knives).expect("solved");
        let key = Swept::of(&chosen);
        let is_new = !window_map.mapped.has(&key);
        window_map
            .mapped
            .get(key, |swept| Mapped::of(&chosen, swept));
        let places: Vec<_> = good.document.knives().map(|(place, _)| place).collect();
        let lowest = &mut window_map.lowest;
        (is_new, lowest.find(&chosen.unit, &knives, &places))
    }

    #[test]
    fn the_map_is_worked_out_once_while_nothing_it_shows_changes() {
        let (mut desk, mut map) = (desk(), WindowMap::default());
        let (is_new, looked_for) = work_out(&mut map, &desk);
        assert!(is_new && looked_for == 12, "{looked_for}");
        assert_eq!(work_out(&mut map, &desk), (false, 0));
        let system = System::InchDecimal;
        let attitude = Quantity::from_value(Angle::from_deg(6.0), system);
        desk.edit(Change::new("Attitude"), |document| {
            document.setting.attitude = Some(attitude);
        });
        assert_eq!(
            work_out(&mut map, &desk),
            (false, 0),
            "the map sweeps over attitude"
        );
        let diameter = Quantity::from_value(Length::from_inches(6.7), system);
        desk.edit(Change::new("Reel diameter"), |document| {
            document.setting.reel_diameter = Some(diameter);
        });
        assert_eq!(
            work_out(&mut map, &desk),
            (false, 4),
            "only the reel as it is now"
        );
        map.choice.height = Some(Length::from_inches(0.375));
        assert_eq!(work_out(&mut map, &desk), (true, 0));
        map.choice.second = Some("reaching".to_owned());
        assert_eq!(work_out(&mut map, &desk), (true, 0));
    }

    #[test]
    fn a_knife_that_is_gone_is_no_longer_mapped() {
        let mut desk = desk();
        let choice = Choice {
            first: Some("reaching".to_owned()),
            second: Some("gone".to_owned()),
            height: None,
        };
        let together = |desk: &Desk| {
            let good = desk.good().expect("solved");
            let chosen = Chosen::of(&choice, good, &named_knives(good)).expect("solved");
            chosen.together()
        };
        assert_eq!(together(&desk), "\"reaching\"");
        desk.edit(Change::new("Removed knives"), |document| {
            document.options.clear();
        });
        assert_eq!(together(&desk), "\"plain\"");
    }
}
