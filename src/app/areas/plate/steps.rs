//! The list of pages in working order, each with how it stands.

use egui::{Align, Button, Layout, Rect, ScrollArea, Sense, Stroke, Ui, Vec2};

use super::page::Page;
use crate::analysis::Level;
use crate::analysis::plate::{Doubt, PlateResult, StepState};
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::app::widgets::words::capitalised;
use crate::plate::Step;

/// How a page stands by what was worked out; to do while that is not known.
pub fn state_of(page: Page, result: Option<&PlateResult>) -> StepState {
    let is_done = |is_so: bool| {
        if is_so {
            StepState::Done
        } else {
            StepState::ToDo
        }
    };
    match (page, result) {
        (_, None) => StepState::ToDo,
        (Page::Job, Some(_)) => StepState::Done,
        (Page::GaugeBar, Some(result)) => is_done(result.readings.bar.is_some()),
        (Page::Step(step), Some(result)) => result.state_of(step),
    }
}

/// How the result of a page is; fine while there is none. `hours` are those that cannot be beside the
/// unit's record.
pub fn level_of(page: Page, result: Option<&PlateResult>, hours: Option<&Doubt>) -> Level {
    if let (Page::Job, Some(hours)) = (page, hours) {
        return hours.level;
    }
    match (page, result) {
        (Page::GaugeBar, Some(result)) if result.bar_suits == Some(false) => Level::Watch,
        (Page::Job | Page::GaugeBar, _) | (_, None) => Level::Fine,
        (Page::Step(step), Some(result)) => result.level_of(step),
    }
}

/// How much of the rollers' turns was read where that is not all, front and rear.
pub type Unread = [Option<String>; 2];

fn unread_of(page: Page, unread: &Unread) -> Option<&String> {
    match page {
        Page::Step(Step::FrontRunout) => unread[0].as_ref(),
        Page::Step(Step::RearRunout) => unread[1].as_ref(),
        _ => None,
    }
}

/// How a page stands, in words.
pub fn stands(
    page: Page,
    result: Option<&PlateResult>,
    hours: Option<&Doubt>,
    unread: &Unread,
) -> String {
    let is_read_again = match page {
        Page::Job => hours.is_some(),
        Page::GaugeBar => false,
        Page::Step(step) => result.is_some_and(|result| result.is_read_again(step)),
    };
    let state = state_of(page, result);
    let words = state.words_with(level_of(page, result, hours), is_read_again);
    match unread_of(page, unread) {
        Some(unread) if state == StepState::Done => format!("{words}, {unread}"),
        _ => words,
    }
}

/// The pages that are done, and whose result is not as it should be.
pub fn to_look_at(result: Option<&PlateResult>, hours: Option<&Doubt>) -> usize {
    let is_one = |page: &Page| {
        state_of(*page, result) == StepState::Done && level_of(*page, result, hours) > Level::Fine
    };
    Page::all().iter().filter(|page| is_one(page)).count()
}

/// The first page in working order that is not done; none once all are.
pub fn next_page(result: Option<&PlateResult>) -> Option<Page> {
    let mut all = Page::all().into_iter();
    all.find(|page| state_of(*page, result) != StepState::Done)
}

/// The list; a click brings a page to the front.
pub fn steps_ui(
    ui: &mut Ui,
    front: &mut Page,
    result: Option<&PlateResult>,
    hours: Option<&Doubt>,
    unread: &Unread,
) {
    let next = next_page(result);
    ui.label(Lettering::Heading.of("Steps"));
    ScrollArea::vertical()
        .id_salt("plate steps")
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            ui.spacing_mut().item_spacing.y = 2.0;
            for page in Page::all() {
                let mut level = level_of(page, result, hours);
                if unread_of(page, unread).is_some() {
                    level = level.max(Level::Watch);
                }
                let sign = (state_of(page, result), level);
                let stands = stands(page, result, hours, unread);
                step_ui(ui, front, page, (&stands, sign), next == Some(page));
            }
            followed.bring_in(ui);
        });
}

fn step_ui(
    ui: &mut Ui,
    front: &mut Page,
    page: Page,
    (stands, (state, level)): (&str, (StepState, Level)),
    is_next: bool,
) {
    let title = capitalised(page.title());
    let words = if is_next {
        format!("{title}: next")
    } else {
        title.clone()
    };
    let mut text = Lettering::Body.of(words);
    if is_next {
        text = text.family(strong());
    }
    ui.horizontal(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(18.0), Sense::hover());
        sign_ui(ui, place, state, level);
        let width = ui.available_width();
        let button = Button::selectable(*front == page, text)
            .min_size(Vec2::new(width, 27.0))
            .wrap_mode(egui::TextWrapMode::Truncate);
        let words_first = Layout::top_down_justified(Align::Min);
        let response = ui
            .with_layout(words_first, |ui| ui.add(button))
            .inner
            .on_hover_text(stands)
            .accessible_name(format!("Step {title}: {stands}"));
        if response.clicked() {
            *front = page;
        }
    });
}

/// How a step stands: done, by its result, to be done again, or an empty ring.
fn sign_ui(ui: &Ui, place: Rect, state: StepState, level: Level) {
    match state {
        StepState::Done => symbol(ui, place, level, theme(ui.ctx())),
        StepState::Again => symbol(ui, place, Level::Watch, theme(ui.ctx())),
        StepState::ToDo => {
            let ink = ui.visuals().weak_text_color();
            let stroke = Stroke::new(1.6, ink);
            ui.painter()
                .circle_stroke(place.center(), 0.5 * place.width() - 1.0, stroke);
        }
    }
}
