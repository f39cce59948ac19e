//! The decision sheet: which knife to order, and what that rests on.

use kurbo::Rect;

use super::flow::Band;
use super::frame::{Frame, SheetOf};
use super::print_style::of_pictures;
use super::setting_sheet::{findings, measured};
use super::sheet::Sheet;
use crate::analysis::knives::{
    KnifeRow, Measured, Over, Ranks, SameLine, Trial, curves, rank, rests_on, sum_text, table,
};
use crate::analysis::{Case, Level, Solution, Solved};
use crate::drawing::paper::{KNIFE_LINES, OVERLAYS, Panel, Style, letters};
use crate::drawing::pictures::{
    Lens, LensChoice, LifeLine, Overlay, SideView, attitude_bars, attitude_bars_height, life_plot,
};
use crate::drawing::scene::Role;
use crate::geometry::Setting;
use crate::units::System;

/// Knives that are drawn; the table holds all.
const MOST_DRAWN: usize = 8;

/// The sheets of a solved unit.
pub(super) fn knives_sheet(of: SheetOf) -> Vec<Sheet> {
    let (solved, system) = (of.solved, of.system);
    let mut rows = table(solved);
    for row in &mut rows {
        row.name = letters::readable(&row.name).into_owned();
    }
    let ranking = rank(&rows, solved, system);
    let ranks = &ranking.ranks;
    let first = ranking.sentences.first().cloned().unwrap_or_default();
    let level = if ranks.counts.fitting > 0 {
        Level::Fine
    } else if ranks.counts.undecided > 0 {
        Level::Watch
    } else {
        Level::Over
    };
    let frame = Frame {
        of,
        title: "Which knife to order",
        verdict: Some((level.resting_on(solved.document.example_count()), first)),
        is_lying: false,
        read: [""; 2],
    };
    let best: Vec<&KnifeRow> = ranks
        .order
        .iter()
        .take(MOST_DRAWN)
        .filter_map(|&index| rows.get(index))
        .collect();
    let drawn = Drawn::of(solved, &best);
    frame.pages(false, |area, style| {
        let mut ranked = Band::new(1, area, style);
        ranked.heading("From the best to the least");
        ranked_table(
            &mut ranked,
            &rows,
            ranks,
            &ranking.sentences,
            solved,
            system,
        );
        let bars = bars(solved, (&best, rows.len()), system, area, style);
        let [key, pictures] = drawn.pictures(of, rows.len(), area, style);
        let best = best.first().filter(|_| ranks.counts.fitting > 0);
        let order = order(of, best.copied(), area, style);
        let [rests, basis] = basis(of, area, style);
        vec![order, ranked, bars, rests, key, pictures, basis]
    })
}

/// The attitudes of the best knives.
fn bars<'a>(
    solved: &'a Solved,
    (best, all): (&[&'a KnifeRow], usize),
    system: System,
    area: Rect,
    style: Style,
) -> Band<'a> {
    let mut bars = Band::new(1, area, style);
    let heading = "Attitudes: framed, what holds from a new reel to a scrap one";
    bars.heading(&of_all(heading, best.len(), all));
    let shown = best.to_vec();
    let now = solved.solution.pose.attitude;
    bars.picture(
        "The attitudes that each knife leaves with the reel new, now and at scrap size",
        attitude_bars_height(best.len(), of_pictures(style)),
        move |place, style| {
            vec![attitude_bars(
                &shown,
                &solved.unit,
                now,
                place,
                system,
                style,
            )]
        },
    );
    bars
}

/// Where the order is written down and approved: before all that it rests on.
fn order<'a>(of: SheetOf, best: Option<&KnifeRow>, area: Rect, style: Style) -> Band<'a> {
    let mut order = Band::new(1, area, style);
    order.heading("Order");
    if let Some(best) = best {
        let fitted = of.solved.document.fitted();
        let mut told = in_order(best);
        if Some(best.knife) == fitted {
            told.push_str("; it is fitted now");
        }
        order.row("First in the table", &told);
    }
    order.blanks(&["Knife chosen", "How many", "Total"]);
    order.blanks(&["Approved by", "Date", "Signature"]);
    order.blanks(&["Reach and section checked on arrival by", "Date"]);
    order
}

/// What the sheet rests on.
fn basis(of: SheetOf<'_>, area: Rect, style: Style) -> [Band<'_>; 2] {
    let (solved, system) = (of.solved, of.system);
    let mut rests = Band::new(1, area, style);
    rests.heading("What this rests on");
    for told in rests_on(&solved.document, system) {
        rests.words(Role::Note, &told);
    }
    let mut basis = Band::new(2, area, style);
    measured(&mut basis, &solved.document, system);
    findings(&mut basis, solved, system);
    [rests, basis]
}

/// A heading over what is shown of the best knives alone, where the table holds more.
fn of_all(heading: &str, shown: usize, all: usize) -> String {
    if shown < all {
        format!("{heading}; the best {shown} of {all} knives")
    } else {
        heading.to_owned()
    }
}

/// A knife as it stands in an order.
fn in_order(row: &KnifeRow) -> String {
    let name = letters::readable(&row.name);
    let pieces = match row.quantity.0 {
        1 => "1 piece".to_owned(),
        pieces => format!("{pieces} pieces"),
    };
    let total = row.total();
    let total = total.map_or_else(String::new, |total| format!(", {} in all", sum_text(total)));
    format!("{name}, {pieces}{total}")
}

/// Columns of the table: heading and part of the width.
const COLUMNS: [(f64, &str); 8] = [
    (0.05, "rank"),
    (0.27, "knife"),
    (0.12, "verdict"),
    (0.12, "price"),
    (0.07, "pieces"),
    (0.11, "total"),
    (0.16, "set once"),
    (0.10, "room"),
];

fn ranked_table(
    band: &mut Band,
    rows: &[KnifeRow],
    ranks: &Ranks,
    sentences: &[String],
    solved: &Solved,
    system: System,
) {
    band.column_heads(&COLUMNS);
    for (rank, &index) in ranks.order.iter().enumerate() {
        let Some(row) = rows.get(index) else { continue };
        let verdict = row.judgement.verdict.told(solved.document.example_count());
        let price = solved
            .document
            .knife_at(row.knife)
            .and_then(|knife| knife.price.clone())
            .unwrap_or_else(|| NOT_GIVEN.to_owned());
        let total = row.total().map_or_else(|| NOT_GIVEN.to_owned(), sum_text);
        let range = row.set_once.as_ref().map_or_else(
            || "none".to_owned(),
            |range| {
                format!(
                    "{} to {}",
                    system.angle(range.low.at),
                    system.angle(range.high.at)
                )
            },
        );
        let texts = [
            (rank + 1).to_string(),
            letters::readable(&row.name).into_owned(),
            verdict.to_owned(),
            letters::readable(&price).into_owned(),
            row.quantity.0.to_string(),
            total,
            range,
            system.angle(row.room()),
        ];
        let cells: Vec<(f64, &str)> = COLUMNS
            .iter()
            .zip(&texts)
            .map(|((part, _), text)| (*part, text.as_str()))
            .collect();
        band.cells(Role::Heading, &cells);
        if let Some(why) = sentences.get(rank + 1) {
            band.words(Role::Note, why);
        }
        band.rule();
    }
}

/// What stands for a price that nobody gave.
const NOT_GIVEN: &str = "not given";

/// Whose numbers stand at the clip point, where several knives are drawn over each other.
fn whose_numbers(solved: &Solved) -> Option<String> {
    let fitted = solved.document.knife_at(solved.document.fitted()?)?;
    let name = letters::readable(&fitted.name);
    Some(format!(
        "The numbers at the clip point are those of {name}, the knife that is fitted."
    ))
}

/// What is drawn of the best knives.
#[derive(Clone)]
struct Drawn {
    knives: Vec<DrawnKnife>,
    lines: Vec<LifeLine>,
}

#[derive(Clone)]
struct DrawnKnife {
    name: String,
    place: u8,
    is_fitted: bool,
    setting: Setting,
    solution: Solution,
}

impl Drawn {
    fn of(solved: &Solved, best: &[&KnifeRow]) -> Self {
        let (unit, trial) = (&solved.unit, Trial::of(&solved.solution));
        let fitted = solved.document.fitted();
        let (mut knives, mut lines) = (Vec::new(), Vec::new());
        // As many as differ by their pattern alone.
        for row in best.iter().take(OVERLAYS) {
            let Some(knife) = solved.document.knife_at(row.knife) else {
                continue;
            };
            let section = solved.document.section_of(row.knife, knife);
            let place = u8::try_from(lines.len() % KNIFE_LINES).unwrap_or_default();
            lines.push(LifeLine {
                place,
                curves: curves(unit, &trial, section, Over::Diameter),
            });
            let setting = trial.setting(unit, section, unit.setting.reel_diameter);
            if let Ok(solution) = Solution::of(unit, &setting) {
                knives.push(DrawnKnife {
                    name: row.name.clone(),
                    place,
                    is_fitted: Some(row.knife) == fitted,
                    setting,
                    solution,
                });
            }
        }
        Self { knives, lines }
    }

    /// The knives over each other and their numbers over the reel's life, with the key to their lines over
    /// them.
    fn pictures<'a>(&self, of: SheetOf<'a>, all: usize, area: Rect, style: Style) -> [Band<'a>; 2] {
        let (solved, system) = (of.solved, of.system);
        let mut pictures = Band::new(2, area, style);
        let side = pictures.width();
        let others = self.clone();
        pictures.picture(
            "The clip point with other knives drawn over the one fitted",
            0.72 * side,
            move |place, style| others.overlay(solved, place, system, style),
        );
        for measured in Measured::ALL {
            let lines = self.lines.clone();
            pictures.picture(
                &format!("{} over the reel's life", measured.name()),
                0.6 * side,
                move |place, style| {
                    let trial = Trial::of(&solved.solution);
                    life_plot(
                        &lines,
                        measured,
                        (&solved.unit, &trial),
                        place,
                        system,
                        style,
                    )
                },
            );
        }
        let mut key = Band::new(1, area, style);
        let heading = "Clip point and numbers over the reel's life";
        key.heading(&of_all(heading, self.knives.len(), all));
        let names = self.names();
        if !names.is_empty() {
            key.words(Role::Note, &names);
            key.keep_with_next();
        }
        if let Some(told) = whose_numbers(solved) {
            key.words(Role::Note, &told);
            key.keep_with_next();
        }
        [key, pictures]
    }

    /// Which line is whose, and for whom that of another is drawn.
    fn names(&self) -> String {
        const PATTERNS: [&str; OVERLAYS] = ["solid line", "long dashes", "dots", "short dashes"];
        let same = SameLine::of_all(self.lines.iter().map(|line| &line.curves));
        let name = |place: usize| {
            let of_line = |knife: &&DrawnKnife| usize::from(knife.place) == place;
            Some(self.knives.iter().find(of_line)?.name.as_str())
        };
        let named: Vec<String> = self
            .knives
            .iter()
            .map(|knife| {
                let place = usize::from(knife.place);
                let pattern = PATTERNS[place % PATTERNS.len()];
                let told = same.get(place).and_then(|same| same.told(name));
                let told = told.map_or_else(String::new, |told| format!(" ({told})"));
                format!("{pattern}: {}{told}", knife.name)
            })
            .collect();
        named.join(";  ")
    }

    fn overlay(&self, solved: &Solved, place: Rect, system: System, style: Style) -> Vec<Panel> {
        let overlays: Vec<Overlay> = self
            .knives
            .iter()
            .filter(|knife| !knife.is_fitted)
            .map(|knife| Overlay {
                name: &knife.name,
                place: knife.place,
                case: Case {
                    unit: &solved.unit,
                    setting: &knife.setting,
                    solution: &knife.solution,
                },
            })
            .collect();
        let scene = SideView {
            uncertainty: None,
            ghost: None,
            overlays: &overlays,
            system,
            ..SideView::of(solved)
        }
        .scene();
        let lens = Lens::on(&solved.solution, LensChoice::default(), place, system);
        vec![lens.panel(&scene, style)]
    }
}
