//! A drawing as one sheet: verdict above, whole unit and lens side by side, key numbers and
//! cautions below.

use kurbo::{Point, Rect, Shape as _};

use crate::analysis::{Finding, Findings, Level, Solution};
use crate::drawing::paper::{Anchor, Mark, Panel, Paper, Pen, Theme, View, lay_out, level_symbol};
use crate::drawing::pictures::{Lens, LensChoice, SideView};
use crate::drawing::scene::{Role, Scene, ShownIn};
use crate::units::System;

/// The usual cautions, on screen and on paper.
pub const CAUTIONS: [&str; 4] = [
    "Reels and knives cut even when turned slowly by hand: engine off, key out, wheels chocked, reel blocked, cut-resistant gloves.",
    "Eye protection at the grinder.",
    "The machine's own manual, local codes and a qualified technician go before anything shown here.",
    "The numbers hold for rigid parts in one plane with all blade tips on one cylinder.",
];

/// The whole unit and the lens beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Canvas {
    /// The view of the whole unit.
    pub whole: View,
    /// The lens.
    pub lens: Option<Lens>,
}

/// Paper between a canvas's border and what stands in it.
const MARGIN: f64 = 12.0;

impl Canvas {
    /// The parts of a rectangle of paper for the whole unit and for the lens.
    #[must_use]
    pub fn split(window: Rect, has_lens: bool) -> (Rect, Option<Rect>) {
        if !has_lens {
            return (window, None);
        }
        let width = (0.40 * window.width()).clamp(280.0_f64.min(0.5 * window.width()), 680.0);
        let border = window.x1 - width;
        let whole = Rect::new(window.x0, window.y0, border - MARGIN, window.y1);
        let lens = Rect::new(
            border,
            window.y0 + MARGIN,
            window.x1 - MARGIN,
            window.y1 - MARGIN,
        );
        (whole, Some(lens))
    }

    /// The marks of both views.
    #[must_use]
    pub fn panels(&self, scene: &Scene, theme: Theme) -> Vec<Panel> {
        let mut panels = vec![lay_out(scene, &self.whole, ShownIn::Whole, theme)];
        if let Some(lens) = &self.lens {
            panels.push(lens.marks_on_whole(&self.whole, theme));
            panels.push(lens.panel(scene, theme));
        }
        panels
    }
}

/// A drawing to keep or print.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateSheet {
    /// Its size in paper units.
    pub window: Rect,
    /// Its marks.
    pub panels: Vec<Panel>,
    /// Light or dark.
    pub theme: Theme,
}

/// Size of a sheet in paper units: the long side of A4 across, room for both views.
const SHEET: Rect = Rect::new(0.0, 0.0, 1400.0, 900.0);
const HEADER: f64 = 96.0;
const FOOTER: f64 = 172.0;

impl PlateSheet {
    /// Draws a unit on a sheet.
    #[must_use]
    pub fn of(
        unit_name: &str,
        knife_name: &str,
        view: &SideView,
        lens: LensChoice,
        theme: Theme,
    ) -> Self {
        let scene = view.scene();
        let canvas = Rect::new(SHEET.x0, SHEET.y0 + HEADER, SHEET.x1, SHEET.y1 - FOOTER);
        let (whole, lens_window) = Canvas::split(canvas, true);
        let solution = view.case.solution;
        let canvas = Canvas {
            whole: View::fitting(scene.bounds, whole),
            lens: lens_window.map(|window| Lens::on(solution, lens, window, view.system)),
        };
        let mut back = Paper::new(theme, SHEET);
        back.body(Role::Paper, &SHEET.to_path(0.1));
        let mut panels = vec![back.done()];
        panels.extend(canvas.panels(&scene, theme));
        let mut words = Paper::new(theme, SHEET);
        header(&mut words, unit_name, knife_name, view);
        footer(&mut words, view, &canvas.whole);
        panels.push(words.done());
        Self {
            window: SHEET,
            panels,
            theme,
        }
    }

    /// Every word on the sheet.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.panels
            .iter()
            .flat_map(|panel| &panel.marks)
            .filter_map(|mark| match mark {
                Mark::Text { text, .. } => Some(text.as_str()),
                _ => None,
            })
    }
}

/// The verdict in few words: the level, what is worst, and what cannot be told.
#[must_use]
pub fn verdict(findings: &Findings) -> (Level, String) {
    let worst = findings.worst();
    let titles = |is_wanted: &dyn Fn(&Finding) -> bool| {
        let titles = findings.iter().filter(|finding| is_wanted(finding));
        let titles: Vec<_> = titles.map(|f| f.title().to_lowercase()).collect();
        titles.join(", ")
    };
    let certain = titles(&|finding| finding.level == worst && finding.doubt.is_none());
    let doubted = |level_is: &dyn Fn(Level) -> bool| {
        titles(&|finding| finding.doubt.is_some() && level_is(finding.level))
    };
    let (worst_doubted, other_doubted) = (
        doubted(&|level| level == worst),
        doubted(&|level| level != worst),
    );
    let word = match worst {
        Level::Fine => "Fine",
        Level::Watch => "Watch",
        Level::Over => "Over",
    };
    let mut parts = Vec::new();
    if worst > Level::Fine && !certain.is_empty() {
        parts.push(format!("{word}: {certain}"));
    }
    if !worst_doubted.is_empty() {
        let told = format!("{} as measured: {worst_doubted}", worst.word());
        parts.push(if parts.is_empty() {
            format!("Cannot tell, {told}")
        } else {
            format!("cannot tell, {told}")
        });
    }
    if !other_doubted.is_empty() {
        parts.push(format!("cannot tell: {other_doubted}"));
    }
    let text = if parts.is_empty() {
        "Fine: every finding is within its limits".to_owned()
    } else {
        parts.join("; ")
    };
    (findings.shown_level(), text)
}

/// The numbers that stand under a drawing, each with its name.
#[must_use]
pub fn key_numbers(solution: &Solution, system: System) -> Vec<(&'static str, String)> {
    let sweep = &solution.sweep;
    let pose = &solution.pose;
    let mut numbers = vec![
        ("Behind centre", system.length(sweep.behind_centre)),
        ("Sweep below the cut", system.length(sweep.below_cut)),
        (
            "Sweep share",
            solution
                .sweep_share
                .map_or("none".to_owned(), |s| system.share(s)),
        ),
        ("Sweep chord", system.length(sweep.chord)),
        ("Clip angle", system.angle(sweep.clip_angle)),
        ("Attitude", system.angle(pose.attitude)),
        ("Height of cut", system.length(pose.height_of_cut)),
        ("Reel over plate", system.length(solution.reel_clearance)),
        (
            "Reel over ground",
            system.length(solution.on_ground.reel_clearance),
        ),
        (
            "Underside over plate",
            system.length(solution.underside_clearance),
        ),
        ("Front roller", system.roller_move(pose.front_roller.moved)),
        ("Rear roller", system.roller_move(pose.rear_roller.moved)),
    ];
    if let Some(mowing) = &solution.mowing {
        numbers.push(("Clip length", system.length(mowing.clip_length)));
    }
    numbers
}

/// The size at which words fit the sheet from a place to its right border.
fn fitting(text: &str, from: f64, size: f64) -> f64 {
    let room = SHEET.x1 - from - 24.0;
    size.min(size * room / (1.08 * Paper::width_of(text, size)))
}

fn header(paper: &mut Paper, unit_name: &str, knife_name: &str, view: &SideView) {
    let (level, text) = verdict(view.findings);
    let role = Role::Level(level);
    let (symbol, line) = level_symbol(level, Rect::new(24.0, 20.0, 58.0, 54.0));
    paper.fill(role, &symbol);
    paper.stroke_with(Role::Paper, &line, Pen::Wide(3.5));
    let size = fitting(&text, 72.0, 26.0);
    paper.sized_text(
        Role::Heading,
        Point::new(72.0, 37.0),
        Anchor::Left,
        size,
        text,
    );
    let setting = view.case.setting;
    let system = view.system;
    let about = format!(
        "{unit_name}. Knife: {knife_name}. Reel {}, height of cut {}, attitude {}, extension {}.",
        system.length(setting.reel_diameter),
        system.length(view.case.solution.pose.height_of_cut),
        system.angle(view.case.solution.pose.attitude),
        system.length(view.case.solution.pose.extension),
    );
    let size = fitting(&about, 24.0, 15.0);
    paper.sized_text(
        Role::Note,
        Point::new(24.0, 76.0),
        Anchor::Left,
        size,
        about,
    );
}

fn footer(paper: &mut Paper, view: &SideView, whole: &View) {
    let top = SHEET.y1 - FOOTER + 20.0;
    let numbers = key_numbers(view.case.solution, view.system);
    #[allow(clippy::cast_precision_loss)]
    for (index, (name, number)) in numbers.iter().enumerate() {
        let (column, row) = (index % 4, index / 4);
        let at = Point::new(24.0 + 345.0 * column as f64, top + 22.0 * row as f64);
        paper.sized_text(Role::Note, at, Anchor::Left, 13.0, (*name).to_owned());
        paper.sized_text(
            Role::Heading,
            Point::new(at.x + 148.0, at.y),
            Anchor::Left,
            13.5,
            number.clone(),
        );
    }
    let scale = format!(
        "Whole unit {}; scales hold printed at 96 paper units to the inch, the lens's bar at any size.",
        whole.written_scale()
    );
    #[allow(clippy::cast_precision_loss)]
    for (row, text) in [scale, CAUTIONS[..2].join(" "), CAUTIONS[2..].join(" ")]
        .into_iter()
        .enumerate()
    {
        let at = Point::new(24.0, SHEET.y1 - 58.0 + 19.0 * row as f64);
        paper.sized_text(Role::Note, at, Anchor::Left, 12.0, text);
    }
}
