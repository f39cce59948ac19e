//! Two units side by side, or two settings of one: chosen, looked at, swapped, and saved as a picture.

use std::rc::Rc;

use egui::{Button, ComboBox, Label, Sense, TextEdit, Ui, Vec2, WidgetInfo};

use super::beside_copy::Copying;
use super::beside_file::{choose, open};
use crate::analysis::{Solved, SolvedId};
use crate::app::desk::{Ask, Beside, BesideDrawn, Card, Desk, Next, Side};
use crate::app::files::{Refusal, ask_place, file_stem_for};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::list::list_ui;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper};
use crate::drawing::{
    PairNumbers, PictureView, Role, STILL, SideBySide, Style, Theme, side_by_side_sheet,
};
use crate::printing::{PictureFormat, Resolution, picture_bytes};
use crate::store;
use crate::units::{System, clipped};

/// Knives of the unit that are offered at the most.
const MOST_KNIVES: usize = 40;
/// Letters of a name on a button or in a list.
const LETTERS: usize = 44;
/// What stands around the picture on the card, and the least and most of it, in points.
const AROUND: Vec2 = Vec2::new(110.0, 330.0);
const LEAST: Vec2 = Vec2::new(560.0, 260.0);
const MOST: Vec2 = Vec2::new(1500.0, 900.0);

/// What the picture depends on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    solved: [SolvedId; 2],
    names: [String; 2],
    view: PictureView,
    system: System,
    place: egui::Rect,
    theme: Theme,
}

/// The card.
pub struct BesideCard {
    view: PictureView,
    /// The path of a unit file that is to stand there.
    path: String,
    drawn: BesideDrawn,
    painted: Kept<Key, Result<Vec<Painted>, String>>,
    copying: Copying,
    refusal: Refusal,
    wide: f32,
}

impl Default for BesideCard {
    fn default() -> Self {
        Self {
            view: PictureView::Whole,
            path: String::new(),
            drawn: BesideDrawn::default(),
            painted: Kept::default(),
            copying: Copying::default(),
            refusal: Refusal::default(),
            wide: 900.0,
        }
    }
}

impl Card for BesideCard {
    fn name(&self) -> &'static str {
        "side by side"
    }

    fn width(&self) -> f32 {
        self.wide
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        self.refusal.hear(desk);
        let screen = ui.ctx().content_rect().size();
        let size = (screen - AROUND).clamp(LEAST, MOST);
        if (self.wide - size.x).abs() > 0.5 {
            self.wide = size.x;
            ui.ctx().request_repaint();
        }
        ui.label(Lettering::CardTitle.of("Side by side"));
        self.sides_ui(ui, desk);
        let beside = desk.beside().clone();
        let sides = self.drawn.of(desk, &beside);
        let names = desk.names_of(&beside);
        self.picture_ui(ui, desk, (&sides, &names), size.y);
        let next = self.buttons_ui(ui, desk, (&sides, &names));
        self.copying.show(ui, desk, &sides);
        self.refusal.show(ui);
        caution_in_short_ui(ui);
        next
    }

    fn works_on_unit(&self) -> bool {
        true
    }

    fn yields_to_a_click(&self) -> bool {
        self.path.is_empty()
    }
}

impl BesideCard {
    /// What stands left and right, and another file.
    fn sides_ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let mut beside = desk.beside().clone();
        let offered = offered(desk, &beside);
        let before = beside.clone();
        ui.horizontal_wrapped(|ui| {
            for (side, name) in beside.0.iter_mut().zip(["Left", "Right"]) {
                let shown = offered.iter().find(|(other, _)| other == side);
                let shown = shown.map_or_else(String::new, |(_, name)| name.clone());
                let list = ComboBox::from_id_salt(name)
                    .selected_text(shown)
                    .width(230.0);
                ui.label(name);
                let list = list_ui(ui, list, |ui, list| {
                    for (other, name) in &offered {
                        if list.offer(ui, other == side, name.as_str()) {
                            *side = other.clone();
                        }
                    }
                });
                list.accessible_name(name);
            }
            if ui.button("Swap").clicked() {
                beside.0.swap(0, 1);
            }
            ui.separator();
            for view in SideBySide::VIEWS {
                ui.selectable_value(&mut self.view, view, short_name(view))
                    .on_hover_text(view.name());
            }
        });
        if beside != before {
            desk.look_at(beside);
            self.copying.end();
        }
        ui.horizontal_wrapped(|ui| {
            ui.label("Another unit file, right");
            let field = TextEdit::singleline(&mut self.path).desired_width(260.0);
            ui.add(field).accessible_name("Path of another unit file");
            let open = ui.add_enabled(!self.path.trim().is_empty(), Button::new("Open beside"));
            if open.clicked() {
                self.open(desk);
            }
            if ui.button("Choose a file…").clicked() {
                choose(desk);
            }
        });
    }

    fn open(&mut self, desk: &mut Desk) {
        let path = match store::whole_path(self.path.trim()) {
            Ok(path) => path,
            Err(problem) => {
                desk.warn(problem.to_string());
                return;
            }
        };
        if open(desk, &path) {
            self.path.clear();
            self.copying.end();
        }
    }

    fn picture_ui(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        (sides, names): (&[Result<Rc<Solved>, String>; 2], &[String; 2]),
        high: f32,
    ) {
        let (place, response) =
            ui.allocate_exact_size(Vec2::new(ui.available_width(), high), Sense::hover());
        let both = match sides {
            [Ok(left), Ok(right)] => [left, right],
            sides => {
                let told = sides.iter().zip(names).filter_map(|(side, name)| {
                    let why = side.as_ref().err()?;
                    Some(format!("{}: {why}", clipped(name, LETTERS)))
                });
                let told: Vec<_> = told.collect();
                ui.put(place, Label::new(told.join("\n")).wrap());
                return;
            }
        };
        let (view, system) = (self.view, desk.system());
        let key = Key {
            solved: both.map(|solved| solved.id),
            names: names.clone(),
            view,
            system,
            place,
            theme: theme(ui.ctx()),
        };
        let painted = self.painted.get(key, |key| {
            let pair = pair_of(both, names, view, system);
            let place = paper(place);
            let style = Style::from(key.theme);
            let panels = pair.panels(&PairNumbers::all_of(view), place, style);
            let panels = panels.map_err(|none| none.to_string())?;
            Ok(panels.iter().map(Painted::from_panel).collect())
        });
        match painted {
            Ok(painted) => {
                // Words have the paper's colour behind them.
                let paper = colour(theme(ui.ctx()).look(Role::Paper).fill);
                ui.painter().rect_filled(place, 4.0, paper);
                response.widget_info(|| {
                    let told = format!("Picture: {} beside {}", names[0], names[1]);
                    WidgetInfo::labeled(egui::Role::Image, true, told)
                });
                for panel in painted {
                    panel.paint(ui.painter());
                }
            }
            Err(why) => {
                let why = why.clone();
                ui.put(place, Label::new(why).wrap());
            }
        }
    }

    fn buttons_ui(
        &mut self,
        ui: &mut Ui,
        desk: &mut Desk,
        (sides, names): (&[Result<Rc<Solved>, String>; 2], &[String; 2]),
    ) -> Next {
        let both = match sides {
            [Ok(left), Ok(right)] => Some([left, right]),
            _ => None,
        };
        let mut next = Next::Stay;
        ui.horizontal_wrapped(|ui| {
            let show = ui.add_enabled(both.is_some(), Button::new("Show to a room"));
            if show.clicked() {
                desk.ask_to_show_beside(self.view);
                next = Next::Close;
            }
            let save = ui.add_enabled(both.is_some(), Button::new("Save picture…"));
            if let Some(both) = both.filter(|_| save.clicked()) {
                next = save_picture(desk, &pair_of(both, names, self.view, desk.system()));
            }
            self.copying.buttons_ui(ui, desk, sides);
            if ui.button("Close").clicked() {
                next = Next::Close;
            }
        });
        next
    }
}

fn short_name(view: PictureView) -> &'static str {
    match view {
        PictureView::Whole => "Whole",
        PictureView::Lens => "Lens",
        PictureView::Ground => "Ground",
        PictureView::Motion => "Motion",
        PictureView::Path | PictureView::Budget | PictureView::Map => view.name(),
    }
}

fn pair_of<'a>(
    both: [&'a Rc<Solved>; 2],
    names: &[String; 2],
    view: PictureView,
    system: System,
) -> SideBySide<'a> {
    SideBySide {
        units: both.map(|solved| &**solved),
        names: names.clone(),
        view,
        system,
        clips: STILL,
    }
}

/// What can stand on either side, by its name.
fn offered(desk: &Desk, beside: &Beside) -> Vec<(Side, String)> {
    let mut offered = vec![
        (Side::AsSet, "This unit, as set".to_owned()),
        (Side::AsMeasured, "This unit, as measured".to_owned()),
    ];
    let document = desk.document();
    let fitted = document.fitted_name();
    let knives = document.knives().filter(|(_, knife)| knife.name != fitted);
    let knives = knives.take(MOST_KNIVES).map(|(_, knife)| {
        let told = format!("This unit, knife {}", clipped(&knife.name, LETTERS));
        (Side::WithKnife(knife.name.clone()), told)
    });
    offered.extend(knives);
    let front = desk.session().id();
    let sessions = desk.sessions().filter(|session| session.id() != front);
    offered.extend(sessions.map(|session| {
        let told = format!("Open: {}", clipped(&session.document().name, LETTERS));
        (Side::Session(session.id()), told)
    }));
    for side in &beside.0 {
        if !offered.iter().any(|(other, _)| other == side) {
            let told = match side {
                Side::Other(other) => clipped(&other.name, LETTERS).to_string(),
                Side::WithKnife(name) => format!("This unit, knife {}", clipped(name, LETTERS)),
                Side::AsTried(_) => "This unit, as tried".to_owned(),
                _ => "Closed since".to_owned(),
            };
            offered.push((side.clone(), told));
        }
    }
    offered
}

fn save_picture(desk: &mut Desk, pair: &SideBySide) -> Next {
    let sheet = match side_by_side_sheet(pair, Theme::Light, None) {
        Ok(sheet) => sheet,
        Err(none) => {
            desk.warn(format!("Not saved. {none}"));
            return Next::Stay;
        }
    };
    let name = format!("{}-side-by-side.png", file_stem_for(&desk.document().name));
    let place = Ask::PlaceForPicture(name);
    ask_place(desk, &place, &["png", "svg", "pdf"], move |file| {
        let shown = file.display();
        let Some(format) = PictureFormat::of(file) else {
            return Err("Not saved: write a name that ends in .png, .svg or .pdf.".to_owned());
        };
        let written = picture_bytes(&sheet, format, Resolution::Usual).and_then(|bytes| {
            let written = store::write_whole(file, &bytes);
            written.map_err(|error| error.to_string())
        });
        match written {
            Ok(()) => Ok(format!("Saved the picture: {shown}")),
            Err(error) => Err(format!("Not saved: {error}. File: {shown}")),
        }
    })
}
