//! The picture of a step, drawn from what was entered.

use egui::{Rect, Sense, Ui, Vec2, WidgetInfo};

use super::page::Page;
use super::pages::Shown;
use crate::analysis::SolvedId;
use crate::analysis::plate::{
    BARS, Correction, OnceATurn, band_in_the_cut, bar_choices, recommended,
};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper};
use crate::drawing::{
    ClockPicture, Role, Scene, ShownIn, Style, Theme, View, attitude_picture, bar_picture,
    bearings_picture, clock_picture, ends_picture, ground_band_picture, height_picture,
    knife_picture, lay_out, on_bar_picture, reel_at_places, rock_picture, shims_picture,
    thread_picture, turn_picture,
};
use crate::plate::{AdjusterKind, AdjusterReadings, Readings, Roller, Step};

/// What a painted picture depends on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    page: Page,
    revision: u64,
    unit: Option<SolvedId>,
    system: crate::units::System,
    kinds: [AdjusterKind; 2],
    place: Rect,
    theme: Theme,
}

/// Height of the band under a picture, in parts of the picture's.
const BAND: f32 = 0.7;

/// The picture of the page in front.
#[derive(Debug, Default)]
pub struct StepPicture {
    painted: Kept<Key, Vec<Painted>>,
}

impl StepPicture {
    /// Shows it in a size; a page without a picture shows none.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        page: Page,
        revision: u64,
        (shown, kinds): (&Shown, [AdjusterKind; 2]),
        size: Vec2,
    ) {
        if !has_picture(page) {
            return;
        }
        let theme = theme(ui.ctx());
        let whole = match band_of(page, shown) {
            Some(_) => size + Vec2::new(0.0, BAND * size.y),
            None => size,
        };
        let (place, response) = ui.allocate_exact_size(whole, Sense::hover());
        response.widget_info(|| {
            let name = format!("Picture of the step: {}", page.title());
            WidgetInfo::labeled(egui::Role::Image, true, name)
        });
        let key = Key {
            page,
            revision,
            unit: shown.unit.solved().map(|unit| unit.id),
            system: shown.system,
            kinds,
            place,
            theme,
        };
        let ground = colour(theme.look(Role::Paper).fill);
        ui.painter().rect_filled(place, 4.0, ground);
        let painted = self.painted.get(key, |_| {
            let style = Style::from(theme);
            let paint = |(scene, place): (&Scene, Rect)| {
                let view = View::fitting(scene.bounds, paper(place));
                Painted::from_panel(&lay_out(scene, &view, ShownIn::Whole, style))
            };
            let under = place.with_min_y(place.top() + size.y);
            let scenes = scene_of(page, shown, kinds).into_iter();
            let scenes: Vec<_> = scenes.chain(band_of(page, shown)).collect();
            let places = [place.with_max_y(place.top() + size.y), under];
            scenes.iter().zip(places).map(paint).collect()
        });
        for painted in painted {
            let clip = place.intersect(ui.clip_rect());
            painted.paint(&ui.painter().with_clip_rect(clip));
        }
    }
}

/// What a roller's runout does to the cut along the ground, on the page of its runout.
fn band_of(page: Page, shown: &Shown) -> Option<Scene> {
    let roller = match page {
        Page::Step(Step::FrontRunout) => Roller::Front,
        Page::Step(Step::RearRunout) => Roller::Rear,
        _ => return None,
    };
    let pose = &shown.unit.solved()?.solution.pose;
    let turn = OnceATurn::of(&shown.result.as_ref()?.roller(roller)?.runout)?;
    let (rise, pitch) = band_in_the_cut(pose, roller, turn)?;
    Some(ground_band_picture(rise, pitch, shown.system))
}

/// Whether a page has a picture.
pub const fn has_picture(page: Page) -> bool {
    !matches!(page, Page::Job | Page::Step(Step::Record))
}

/// What the picture of a page shows.
pub fn scene_of(page: Page, shown: &Shown, kinds: [AdjusterKind; 2]) -> Option<Scene> {
    let system = shown.system;
    let none = Readings::default();
    let result = shown.result.as_deref();
    let read = result.map_or(&none, |result| &result.readings);
    Some(match page {
        Page::Job | Page::Step(Step::Record) => return None,
        Page::GaugeBar => {
            let unit = shown.unit.solved()?;
            let bar = read
                .bar
                .map(|[left, right]| (left.value + right.value) * 0.5);
            let bar = bar.or_else(|| Some(recommended(&bar_choices(unit, &BARS))?.bar))?;
            on_bar_picture(unit, bar, system)?
        }
        Page::Step(step) => match step {
            Step::Record => return None,
            Step::PlateAndBar => bar_picture(read.bar, system),
            Step::Reel => reel_at_places(&read.reel, system),
            Step::Bearings => bearings_picture(),
            Step::KnifeToReel => knife_picture(&read.knife_to_reel, system),
            Step::RockTest => rock_picture(),
            Step::Height => {
                let cut = result.and_then(|result| result.cut.as_ref());
                height_picture(&read.height, cut, system)
            }
            Step::Attitude => attitude_picture(read.attitude, system),
            Step::FrontRunout => turn_of(Roller::Front, shown, read),
            Step::RearRunout => turn_of(Roller::Rear, shown, read),
            Step::FrontEnds => ends_picture(read.front.as_ref(), system),
            Step::RearEnds => ends_picture(read.rear.as_ref(), system),
            Step::FrontAdjuster => adjuster_of(Roller::Front, shown, read, kinds[0])?,
            Step::RearAdjuster => adjuster_of(Roller::Rear, shown, read, kinds[1])?,
        },
    })
}

fn turn_of(roller: Roller, shown: &Shown, read: &Readings) -> Scene {
    let result = shown
        .result
        .as_ref()
        .and_then(|result| result.roller(roller));
    let stations = result.map_or(&[][..], |result| &result.runout);
    let read = read.roller(roller).map_or(&[][..], |read| &read.runout);
    turn_picture(read, stations)
}

fn adjuster_of(
    roller: Roller,
    shown: &Shown,
    read: &Readings,
    kind: AdjusterKind,
) -> Option<Scene> {
    let result = shown
        .result
        .as_ref()
        .and_then(|result| result.roller(roller));
    // A roller that is left as it is has its adjuster drawn as it stands.
    let moved = result.filter(|result| !result.is_left());
    let correction = moved.and_then(|result| result.correction.as_ref());
    Some(match kind {
        AdjusterKind::Eccentric => match read.roller(roller)?.adjuster.as_ref()? {
            AdjusterReadings::Eccentric(eccentric) => {
                clock_picture(ClockPicture::of(*eccentric, correction), shown.system)
            }
            AdjusterReadings::Thread { .. } | AdjusterReadings::Shims(_) => return None,
        },
        AdjusterKind::Thread => thread_picture(match correction {
            Some(Correction::Thread { turns }) => Some(*turns),
            _ => None,
        }),
        AdjusterKind::Shims => {
            let stack = match correction {
                Some(Correction::Shims(stack)) => Some(stack),
                _ => None,
            };
            shims_picture(stack, shown.system)
        }
    })
}
