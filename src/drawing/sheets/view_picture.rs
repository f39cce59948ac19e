//! A single picture by itself, for a report or a projector, with a line that says what it is of.

use kurbo::{Point, Rect, Size};

use super::sheet::Sheet;
use crate::analysis::knives::{KnifeAim, Trial, map};
use crate::analysis::why::BudgetOf;
use crate::analysis::{CAUTION_IN_SHORT, Kinematics, Solved};
use crate::drawing::paper::{Anchor, Panel, Pencil, Style, View, lay_out, letters};
use crate::drawing::pictures::{
    BudgetChart, Canvas, Hold, Lens, LensChoice, MapAxes, MapKey, MapMark, MapPicture, MapSetting,
    MotionDrawing, MotionOf, PathCanvas, PathDrawing, SideView, Standing,
};
use crate::drawing::scene::{Role, ShownIn};
use crate::units::System;

/// Which picture of a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureView {
    /// The whole unit from the side.
    Whole,
    /// The clip point enlarged.
    Lens,
    /// The whole unit on its ground.
    Ground,
    /// The paths of the blade tips.
    Path,
    /// The reel in motion over stems of grass.
    Motion,
    /// The height budgets.
    Budget,
    /// The window map of the knife fitted.
    Map,
}

/// Why there is no such picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoPicture {
    /// Paths and motion follow from speeds that are not given.
    #[error(
        "blades in motion need both speeds, and this unit has none: enter ground speed and reel speed"
    )]
    NoSpeeds,
    /// Paths, budgets and maps have scales of their own.
    #[error("side by side there are the views whole, lens, ground and motion: choose one of them")]
    NotSideBySide,
}

/// The size of a picture in paper units.
pub(super) const SIZE: Size = Size::new(1280.0, 800.0);
/// Paper for the line below it, and beside all.
pub(super) const FOOT: f64 = 58.0;
pub(super) const ASIDE: f64 = 14.0;
/// Size of the words in that line.
pub(super) const FOOT_WORDS: f64 = 14.0;
/// Paper for a map's key.
const KEY: f64 = 232.0;
/// How wide two height budgets are beside each other at least, so that each column has room for its name.
const BESIDE_EACH_OTHER: f64 = 840.0;

impl PictureView {
    /// Every one of them.
    pub const ALL: [Self; 7] = [
        Self::Whole,
        Self::Lens,
        Self::Ground,
        Self::Path,
        Self::Motion,
        Self::Budget,
        Self::Map,
    ];

    /// Its name for programs.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::Lens => "lens",
            Self::Ground => "ground",
            Self::Path => "path",
            Self::Motion => "motion",
            Self::Budget => "budget",
            Self::Map => "map",
        }
    }

    /// Whether it is a chart or a map rather than a drawing of the unit.
    #[must_use]
    pub const fn is_chart(self) -> bool {
        matches!(self, Self::Path | Self::Budget | Self::Map)
    }

    /// What it shows.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Whole => "The whole unit from the side",
            Self::Lens => "The clip point enlarged",
            Self::Ground => "The whole unit on its ground",
            Self::Path => "The paths of the blade tips",
            Self::Motion => "The reel in motion",
            Self::Budget => "The height budgets",
            Self::Map => "The attitude map",
        }
    }
}

/// Draws one picture of a solved unit.
///
/// # Errors
/// When the unit has no such picture.
pub fn view_picture(
    solved: &Solved,
    view: PictureView,
    standing: Standing,
    system: System,
    style: impl Into<Style>,
) -> Result<Sheet, NoPicture> {
    let style = style.into();
    let window = SIZE.to_rect();
    let mut sheet = Sheet::blank(view.name(), window, style);
    let place = Rect {
        y1: window.y1 - FOOT,
        ..window
    };
    let panels = view_panels(solved, view, standing, system, place, style)?;
    sheet.add_figure(view.name(), panels);
    let caption = caption(solved, view.name(), system, window, style);
    sheet.panels.push(caption);
    Ok(sheet)
}

/// The panels of one picture of a solved unit in a rectangle of paper.
///
/// # Errors
/// When the unit has no such picture.
pub fn view_panels(
    solved: &Solved,
    view: PictureView,
    standing: Standing,
    system: System,
    place: Rect,
    style: Style,
) -> Result<Vec<Panel>, NoPicture> {
    Ok(match view {
        PictureView::Whole => side(solved, standing, system, place, style),
        PictureView::Ground => {
            let standing = match standing {
                Standing::Plate => Standing::Turf,
                other => other,
            };
            side(solved, standing, system, place, style)
        }
        PictureView::Lens => lens(solved, standing, system, place, style),
        PictureView::Path => path(solved, system, place, style)?,
        PictureView::Motion => vec![motion_panel(solved, STILL, place, style)?],
        PictureView::Budget => budgets(solved, system, place, style),
        PictureView::Map => window_map(solved, system, place, style),
    })
}

fn side_view(solved: &Solved, standing: Standing, system: System) -> SideView<'_> {
    SideView {
        standing,
        system,
        ..SideView::of(solved)
    }
}

fn side(
    solved: &Solved,
    standing: Standing,
    system: System,
    place: Rect,
    style: Style,
) -> Vec<Panel> {
    let scene = side_view(solved, standing, system).scene();
    let canvas = Canvas {
        whole: View::fitting_at_scale_of_row(scene.bounds, place.inset(-ASIDE)),
        lens: None,
    };
    canvas.panels(&scene, style)
}

fn lens(
    solved: &Solved,
    standing: Standing,
    system: System,
    place: Rect,
    style: Style,
) -> Vec<Panel> {
    let side_view = side_view(solved, standing, system);
    let scene = side_view.scene();
    let window = place.inset(-ASIDE);
    let (_, lens) = Lens::fitted(&side_view, LensChoice::default(), Hold::default(), window);
    vec![lens.panel(&scene, style)]
}

pub(super) fn path(
    solved: &Solved,
    system: System,
    place: Rect,
    style: Style,
) -> Result<Vec<Panel>, NoPicture> {
    let kinematics = Kinematics::of(&solved.unit, &solved.solution).ok_or(NoPicture::NoSpeeds)?;
    let drawing = PathDrawing {
        case: solved.case(),
        findings: &solved.findings,
        examples: solved.document.example_count(),
        kinematics: &kinematics,
        system,
    };
    let canvas = PathCanvas::fitting(&drawing, place, true, 1.0);
    Ok(canvas.panels(&drawing.scene(), style))
}

/// The moment that a still picture of the motion shows, in parts of the time from clip to clip: the next
/// blade is on its way to the knife.
pub const STILL: f64 = 0.75;

/// The reel at a moment, so many clips after the first, in a rectangle of paper.
///
/// # Errors
/// When the unit's speeds are not known.
pub fn motion_panel(
    solved: &Solved,
    clips: f64,
    place: Rect,
    style: Style,
) -> Result<Panel, NoPicture> {
    let shows = MotionOf::Mowing;
    let bounds = motion_bounds(solved, shows).ok_or(NoPicture::NoSpeeds)?;
    motion_panel_over(solved, (shows, clips), bounds, place, style)
}

/// What the reel in motion takes of the world; none without speeds.
pub(super) fn motion_bounds(solved: &Solved, shows: MotionOf) -> Option<Rect> {
    let kinematics = Kinematics::of(&solved.unit, &solved.solution)?;
    Some(motion_drawing(solved, &kinematics, shows).bounds())
}

fn motion_drawing<'a>(
    solved: &'a Solved,
    kinematics: &'a Kinematics,
    shows: MotionOf,
) -> MotionDrawing<'a> {
    MotionDrawing {
        case: solved.case(),
        findings: &solved.findings,
        examples: solved.document.example_count(),
        kinematics,
        phase: 0.0,
        shows,
    }
}

/// The same, or the whole reel, with so much of the world in view.
pub(super) fn motion_panel_over(
    solved: &Solved,
    (shows, clips): (MotionOf, f64),
    bounds: Rect,
    place: Rect,
    style: Style,
) -> Result<Panel, NoPicture> {
    let kinematics = Kinematics::of(&solved.unit, &solved.solution).ok_or(NoPicture::NoSpeeds)?;
    let mut drawing = motion_drawing(solved, &kinematics, shows);
    drawing.phase = clips * drawing.turn().phase_of_clip();
    let view = View::fitting(bounds, place.inset(-ASIDE));
    Ok(lay_out(&drawing.scene(), &view, ShownIn::Whole, style))
}

/// How wide a clip is in such a picture of the reel, drawn at one scale with others, in paper units; zero where
/// the unit's speeds are not known.
#[must_use]
pub fn clip_on_paper(solved: &Solved, alike: &[&Solved], shows: MotionOf, place: Rect) -> f64 {
    let Some(kinematics) = Kinematics::of(&solved.unit, &solved.solution) else {
        return 0.0;
    };
    let all = alike.iter().copied().chain([solved]);
    let bounds = all.filter_map(|solved| motion_bounds(solved, shows));
    let Some(bounds) = bounds.reduce(|all, next| all.union(next)) else {
        return 0.0;
    };
    let view = View::fitting(bounds, place.inset(-ASIDE));
    view.scale * kinematics.clip_length.mm()
}

/// One picture of a moving one: the reel so many clips after the first, with what is told of its speed.
///
/// # Errors
/// When the unit's speeds are not known.
pub fn motion_frame(
    solved: &Solved,
    clips: f64,
    told: &str,
    system: System,
    style: impl Into<Style>,
) -> Result<Sheet, NoPicture> {
    let style = style.into();
    let window = SIZE.to_rect();
    let name = PictureView::Motion.name();
    let mut sheet = Sheet::blank(name, window, style);
    let place = Rect {
        y1: window.y1 - FOOT,
        ..window
    };
    sheet.add_figure(name, vec![motion_panel(solved, clips, place, style)?]);
    let name = format!("{name}, {told}");
    let caption = caption(solved, &name, system, window, style);
    sheet.panels.push(caption);
    Ok(sheet)
}

pub(super) fn budgets(solved: &Solved, system: System, place: Rect, style: Style) -> Vec<Panel> {
    let middle = place.center();
    // Large letters want wide columns: then one stands over the other.
    let is_wide = place.width() >= BESIDE_EACH_OTHER * style.text;
    let (first, second) = if is_wide {
        let (x0, x1) = (middle.x, middle.x);
        (Rect { x1, ..place }, Rect { x0, ..place })
    } else {
        let (y0, y1) = (middle.y, middle.y);
        (Rect { y1, ..place }, Rect { y0, ..place })
    };
    [(BudgetOf::Reel, first), (BudgetOf::Underside, second)]
        .into_iter()
        .map(|(of, half)| budget_chart(solved, of, system, half.inset(-ASIDE), style))
        .collect()
}

/// The chart of one height budget in a rectangle of paper.
pub(super) fn budget_chart(
    solved: &Solved,
    of: BudgetOf,
    system: System,
    place: Rect,
    style: Style,
) -> Panel {
    let case = solved.case();
    let budget = of.of(&case);
    BudgetChart {
        title: of.title(),
        budget: &budget,
        level: of.level(&case).resting_on(solved.document.example_count()),
        least: of.least(&solved.unit.limits),
        system,
    }
    .lay_out(place, style)
    .panel
}

pub(super) fn window_map(solved: &Solved, system: System, place: Rect, style: Style) -> Vec<Panel> {
    let unit = &solved.unit;
    let trial = Trial::of(&solved.solution);
    let map = map(unit, &trial, unit.setting.knife);
    let mut drawn = Rect {
        x1: place.x1 - KEY * style.text,
        ..place
    };
    drawn = drawn.inset(-ASIDE);
    let bench = &unit.profile.bench;
    let aim = KnifeAim::of(unit, &trial, (unit.fitted, unit.setting.knife), system);
    let aim = aim.ok().map(|aim| MapSetting {
        mark: MapMark::Aim,
        attitude: aim.attitude,
        diameter: unit.setting.reel_diameter,
    });
    let settings = [
        MapSetting {
            mark: MapMark::Bench,
            attitude: bench.attitude,
            diameter: bench.reel_diameter,
        },
        MapSetting {
            mark: MapMark::Now,
            attitude: trial.attitude,
            diameter: unit.setting.reel_diameter,
        },
    ];
    let settings: Vec<MapSetting> = settings.into_iter().chain(aim).collect();
    let picture = MapPicture {
        axes: MapAxes::of(unit, drawn, system, style),
        map: &map,
    };
    let mut panels: Vec<Panel> = picture.ground().into();
    panels.push(picture.lettering(&settings));
    let mut words = Pencil::new(
        style,
        Rect {
            x0: drawn.x1,
            ..place
        },
    );
    let keys: Vec<_> = MapKey::of(&map, &settings);
    let rows = KeyRows::of(keys.len(), place.height() / style.text);
    for (row, key) in (0_u8..).zip(&keys).take(rows.count) {
        let at = Point::new(
            drawn.x1 + words.by_text(12.0),
            place.y0 + words.by_text(rows.from + rows.apart * f64::from(row)),
        );
        let size = Size::new(words.by_text(30.0), words.by_text(rows.high()));
        let sample = Rect::from_origin_size(at, size);
        panels.push(key.sample(sample, style));
        let beside = Point::new(sample.x1 + words.by_text(8.0), sample.center().y);
        let most = words.window.x1 - words.by_text(6.0) - beside.x;
        let text = words
            .fitted(Role::Note, key.words(), 13.0, most)
            .into_owned();
        words.sized_text(Role::Note, beside, Anchor::Left, 13.0, text);
    }
    panels.push(words.done());
    panels
}

/// The rows of a map's key, closer where the paper is low. The last ones, which are named on the map as well,
/// are left out where even so there is no room.
struct KeyRows {
    count: usize,
    from: f64,
    apart: f64,
}

impl KeyRows {
    /// So many rows in a height, which is given for the window's words.
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a handful of rows"
    )]
    fn of(count: usize, height: f64) -> Self {
        const APART: f64 = 28.0;
        const LEAST: f64 = 17.0;
        let from = (height - APART * count as f64).clamp(4.0, 18.0);
        let apart = ((height - from) / count.max(1) as f64).clamp(LEAST, APART);
        let fitting = ((height - from) / apart + 1e-9).max(0.0) as usize;
        Self {
            count: count.min(fitting),
            from,
            apart,
        }
    }

    /// How high a sample is.
    fn high(&self) -> f64 {
        (self.apart - 3.0).min(20.0)
    }
}

/// What the picture is of, and the caution that goes with it.
fn caption(solved: &Solved, name: &str, system: System, window: Rect, style: Style) -> Panel {
    let mut words = Pencil::new(style, window);
    let pose = &solved.solution.pose;
    let about = format!(
        "reel {}, height of cut {}, attitude {}",
        system.length(solved.unit.setting.reel_diameter),
        system.length(pose.height_of_cut),
        system.angle(pose.attitude)
    );
    let examples = solved.document.example_count().told();
    let examples = examples.map_or_else(String::new, |told| format!("{told}. "));
    let room = window.width() - 2.0 * ASIDE;
    let unit_name = letters::readable(&solved.document.name);
    let size = FOOT_WORDS;
    let tail = format!(". {name}: {about}");
    let most = room
        - words.width_of(Role::Heading, &examples, size)
        - words.width_of(Role::Heading, &tail, size);
    let unit_name = words.fitted(Role::Heading, &unit_name, size, most.max(0.0));
    let told = format!("{examples}{unit_name}{tail}");
    let told = words.fitted(Role::Heading, &told, size, room).into_owned();
    foot(&mut words, told);
    words.done()
}

/// A line of words under a picture, and the cautions that go with it.
pub(super) fn foot(words: &mut Pencil, told: String) {
    let window = words.window;
    let room = window.width() - 2.0 * ASIDE;
    let line = |row: f64| Point::new(window.x0 + ASIDE, window.y1 - FOOT + row);
    words.sized_text(Role::Heading, line(18.0), Anchor::Left, FOOT_WORDS, told);
    for (row, caution) in [37.0, 51.0].into_iter().zip(CAUTION_IN_SHORT) {
        let needed = words.width_of(Role::Note, caution, 1.0);
        let size = (room / needed).min(11.0);
        words.sized_text(
            Role::Note,
            line(row),
            Anchor::Left,
            size,
            caution.to_owned(),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::knives::Limit;
    use crate::drawing::paper::Theme;

    #[test]
    fn the_maps_key_has_room_for_the_name_of_every_limit() {
        let pencil = Pencil::new(Theme::Light, Rect::from_origin_size(Point::ZERO, SIZE));
        // Beside a sample with space on both sides of it.
        let room = KEY - (12.0 + 30.0 + 8.0 + 6.0);
        for limit in Limit::WITH_MARGIN {
            let wide = pencil.width_of(Role::Note, limit.name(), 13.0);
            assert!(wide <= room, "{}: {wide}", limit.name());
        }
    }
}
