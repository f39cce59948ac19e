//! The height budget as a stepped bar: from the height of cut down to what is left over the soil.

use kurbo::{Point, Rect, Shape as _, Vec2};

use crate::analysis::Level;
use crate::analysis::why::{Budget, StepKind};
use crate::drawing::paper::{Anchor, Panel, Pencil, Style, in_lines};
use crate::drawing::scene::Role;
use crate::units::{Length, System};

/// Paper that the title takes.
const TITLE: f64 = 30.0;
/// Room over the highest bar for its number.
const ABOVE: f64 = 54.0;
/// Room under the soil line for the names.
const BELOW: f64 = 66.0;
/// The least room for the bars themselves.
const LEAST_BARS: f64 = 20.0;
/// Part of a column that its bar fills.
const BAR_PART: f64 = 0.62;
/// How deep the soil is drawn.
const SOIL: f64 = 14.0;
const NAME_SIZE: f64 = 13.0;
const NUMBER_SIZE: f64 = 14.0;
/// Words so small are left out rather than made smaller.
const SMALLEST: f64 = 10.0;
/// From one line of a name to the next.
const NAME_LINE: f64 = 15.0;
/// As many lines fit into the room under the soil line; more take more room.
const FEW_LINES: usize = 3;

/// A column of the chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// A step of the budget.
    Step(StepKind),
    /// What is left at the end.
    Left,
}

/// A budget to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct BudgetChart<'a> {
    /// What it is the budget of.
    pub title: &'a str,
    /// The budget.
    pub budget: &'a Budget,
    /// How what is left stands to its limit.
    pub level: Level,
    /// What is wanted at least, for a line across.
    pub least: Option<Length>,
    /// The units of the words.
    pub system: System,
}

/// A chart on pencil.
#[derive(Clone, Debug, PartialEq)]
pub struct Charted {
    /// Its marks.
    pub panel: Panel,
    /// Each column with the paper that belongs to it.
    pub columns: Vec<(Column, Rect)>,
}

impl BudgetChart<'_> {
    /// Lays the chart out in a rectangle of pencil.
    #[must_use]
    pub fn lay_out(&self, window: Rect, style: impl Into<Style>) -> Charted {
        let mut pencil = Pencil::new(style, window);
        pencil.body(Role::Paper, &window.to_path(0.1));
        let heading = Point::new(
            window.x0 + pencil.by_text(14.0),
            window.y0 + pencil.by_text(17.0),
        );
        let room = window.width() - pencil.by_text(28.0);
        let titles = [
            self.title.to_owned(),
            self.title.split(' ').next().unwrap_or("").to_owned(),
        ];
        if let Some((title, size)) =
            pencil.longest_fitting(Role::Heading, &titles, (10.0, 15.0), room)
        {
            let title = title.to_owned();
            pencil.sized_text(Role::Heading, heading, Anchor::Left, size, title);
        }
        let count = self.budget.steps.len() + 1;
        #[expect(
            clippy::cast_precision_loss,
            reason = "a budget has a handful of steps"
        )]
        let width = window.width() / count as f64;
        let kinds = self.budget.steps.iter().map(|step| Column::Step(step.kind));
        let room = width - pencil.by_text(4.0);
        let names: Vec<Vec<Line>> = kinds
            .chain([Column::Left])
            .map(|column| self.names(&pencil, column, room))
            .collect();
        let most = names.iter().map(Vec::len).max().unwrap_or_default();
        let place = Upward::of(self.budget, self.least, &pencil, most);
        self.ground(&mut pencil, &place);
        let mut columns = Vec::with_capacity(count);
        let mut before = 0.0;
        let left = self.budget.left().mm();
        let steps = self.budget.steps.iter().map(|step| {
            let column = Column::Step(step.kind);
            (column, step.shown_in(self.system), step.left.mm())
        });
        let whole = self.system.in_column(self.budget.left());
        let steps = steps.chain([(Column::Left, whole, left)]);
        let mut x0 = window.x0;
        for ((column, by, after), lines) in steps.zip(names) {
            let slot = Rect::new(x0, window.y0, x0 + width, window.y1);
            let from = if column == Column::Left { 0.0 } else { before };
            self.bar(&mut pencil, &place, slot, column, (from, after));
            let limit_y = self.least.map(|least| place.y(least.mm()));
            words(
                &mut pencil,
                &place,
                slot,
                (&by, lines),
                (from.max(after), limit_y),
            );
            if column != Column::Left {
                // Where the next step begins.
                let half = BAR_PART / 2.0 * width;
                let y = place.y(after);
                let start = Point::new(slot.center().x + half, y);
                pencil.line(
                    Role::Datum,
                    start,
                    start + Vec2::new(width - 2.0 * half, 0.0),
                );
            }
            columns.push((column, slot));
            before = after;
            x0 += width;
        }
        Charted {
            panel: pencil.done(),
            columns,
        }
    }

    /// What stands below a column: at the size of names in few lines, smaller where it takes more.
    fn names(&self, pencil: &Pencil, column: Column, room: f64) -> Vec<Line> {
        let large = self.names_of_size(pencil, column, room, NAME_SIZE);
        if large.len() <= FEW_LINES {
            return large;
        }
        self.names_of_size(pencil, column, room, SMALLEST)
    }

    fn names_of_size(&self, pencil: &Pencil, column: Column, room: f64, size: f64) -> Vec<Line> {
        let (role, name) = match column {
            Column::Step(kind) => (Role::Note, kind.name().to_owned()),
            Column::Left => (Role::Heading, "clearance to soil".to_owned()),
        };
        let mut lines = lines_within(pencil, role, &name, (room, size));
        let more = match column {
            Column::Step(kind) => {
                let looked = self.budget.none_of(kind);
                looked.map(|looked| looked.word().to_owned())
            }
            Column::Left => {
                let least = self.least.map(|least| self.system.length(least));
                least.map(|least| format!("minimum {least}"))
            }
        };
        if let Some(more) = more {
            let more = lines_within(pencil, Role::Note, &more, (room, size));
            // Half of what is said here misleads: it is said whole or not at all.
            #[expect(clippy::cast_precision_loss, reason = "a name has a handful of lines")]
            let below = (lines.len() + more.len()).saturating_sub(FEW_LINES) as f64;
            let wanted = ABOVE + LEAST_BARS + BELOW + below * NAME_LINE;
            if pencil.window.height() >= pencil.by_text(wanted) {
                lines.extend(more);
            }
        }
        lines
    }

    fn ground(&self, pencil: &mut Pencil, place: &Upward) {
        let window = pencil.window;
        let y = place.y(0.0);
        let soil = Rect::new(window.x0, y, window.x1, y + pencil.by_text(SOIL)).to_path(0.1);
        pencil.body(Role::Soil, &soil);
        pencil.hatching(Role::Soil, &soil);
        pencil.line(
            Role::Soil,
            Point::new(window.x0, y),
            Point::new(window.x1, y),
        );
        if let Some(least) = self.least {
            let y = place.y(least.mm());
            pencil.line(
                Role::CentreLine,
                Point::new(window.x0, y),
                Point::new(window.x1, y),
            );
        }
    }

    fn role(&self, column: Column) -> Role {
        match column {
            Column::Left => Role::BelowCut(self.level),
            Column::Step(StepKind::HeightOfCut) => Role::CutLine,
            Column::Step(StepKind::Sweep | StepKind::Underside) => Role::Knife,
            Column::Step(_) => Role::Hardware,
        }
    }

    fn bar(
        &self,
        pencil: &mut Pencil,
        place: &Upward,
        slot: Rect,
        column: Column,
        (from, to): (f64, f64),
    ) {
        let role = self.role(column);
        let half = BAR_PART / 2.0 * slot.width();
        let middle = slot.center().x;
        let (top, foot) = (place.y(from.max(to)), place.y(from.min(to)));
        // A step of zero is a line.
        let bar = Rect::new(
            middle - half,
            top,
            middle + half,
            foot.max(top + pencil.by_text(0.5)),
        );
        let outline = bar.to_path(0.1);
        pencil.body(role, &outline);
        pencil.hatching(role, &outline);
        pencil.stroke(role, &outline);
    }
}

/// A column's number over it and its name below.
fn words(
    pencil: &mut Pencil,
    place: &Upward,
    slot: Rect,
    (number, lines): (&str, Vec<Line>),
    (top_mm, limit_y): (f64, Option<f64>),
) {
    let middle = slot.center().x;
    let room = slot.width() - pencil.by_text(4.0);
    let highest = pencil.window.y0 + pencil.by_text(TITLE + NUMBER_SIZE);
    let mut y = place.y(top_mm.max(0.0)) - pencil.by_text(5.0);
    // Over the limit's line, which would strike it through.
    if let Some(limit_y) = limit_y
        && y > limit_y - pencil.by_text(2.0)
        && y - pencil.by_text(NUMBER_SIZE) < limit_y
    {
        y = limit_y - pencil.by_text(3.0);
    }
    let y = y.max(highest);
    let forms = [number.to_owned(), bare(number).to_owned()];
    let sizes = (SMALLEST, NUMBER_SIZE);
    if let Some((number, size)) = pencil.longest_fitting(Role::Dimension, &forms, sizes, room) {
        let (at, number) = (Point::new(middle, y), number.to_owned());
        pencil.sized_text(Role::Dimension, at, Anchor::BottomMiddle, size, number);
    }
    let line = pencil.by_text(NAME_LINE);
    let mut at = Point::new(middle, place.soil_foot + 0.75 * line);
    for (role, text, size) in lines {
        if at.y + 0.6 * line <= slot.y1 {
            pencil.sized_text(role, at, Anchor::Middle, size, text);
        }
        at.y += line;
    }
}

/// A number without its unit.
fn bare(number: &str) -> &str {
    number.rsplit_once(' ').map_or(number, |(number, _)| number)
}

/// A line of a name: its words and their size.
type Line = (Role, String, f64);

/// Words in as few lines as fit into a width, at least so large if they can be, or somewhat smaller.
fn lines_within(pencil: &Pencil, role: Role, words: &str, (room, wanted): (f64, f64)) -> Vec<Line> {
    let size_of = |lines: &[String]| {
        let widest = lines.iter().map(|line| pencil.width_of(role, line, 1.0));
        (room / widest.fold(1e-9, f64::max)).min(NAME_SIZE)
    };
    let sets = [1, 2, 3].map(|count| in_lines(words, count));
    let found = sets.iter().find(|lines| size_of(lines) >= wanted);
    let found = found.or_else(|| sets.iter().find(|lines| size_of(lines) >= SMALLEST));
    let lines = found.map_or_else(Vec::new, Clone::clone);
    let size = size_of(&lines);
    lines.into_iter().map(|line| (role, line, size)).collect()
}

/// From millimetres to paper, upwards.
struct Upward {
    soil_y: f64,
    /// Where the drawn soil ends and the names begin.
    soil_foot: f64,
    paper_per_mm: f64,
}

impl Upward {
    fn of(budget: &Budget, least: Option<Length>, pencil: &Pencil, most_lines: usize) -> Self {
        let all = budget.steps.iter().map(|step| step.left.mm());
        let (low, high) = all
            .chain(least.map(Length::mm))
            .fold((0.0_f64, 1e-6_f64), |(low, high), mm| {
                (low.min(mm), high.max(mm))
            });
        let (window, above) = (pencil.window, pencil.by_text(ABOVE));
        #[expect(clippy::cast_precision_loss, reason = "a name has a handful of lines")]
        let more = most_lines.saturating_sub(FEW_LINES) as f64;
        let below = pencil.by_text(BELOW + more * NAME_LINE);
        let room = window.height() - above - below;
        let room = room.max(pencil.by_text(LEAST_BARS));
        let paper_per_mm = room / (high - low);
        let soil_y = window.y0 + above + high * paper_per_mm;
        Self {
            soil_y,
            soil_foot: (window.y1 - below).max(soil_y) + pencil.by_text(SOIL),
            paper_per_mm,
        }
    }

    fn y(&self, mm: f64) -> f64 {
        self.soil_y - mm * self.paper_per_mm
    }
}
