//! A drawing as one sheet: verdict above, whole unit and lens side by side, key numbers and
//! cautions below.

use kurbo::{Point, Rect};

use super::page::Page;
use super::sheet::Sheet;
use crate::analysis::{CAUTION_IN_SHORT, Finding, Findings, Level, MODEL_IN_SHORT};
use crate::drawing::paper::{
    Anchor, Numbers, PAPER_PER_MM, Pen, Pencil, Style, Theme, View, Words, letters, level_symbol,
};
use crate::drawing::pictures::{Canvas, Lens, LensChoice, SideView};
use crate::drawing::scene::Role;
use crate::unit::ExampleCount;

/// Paper that stays white around all that is printed, in millimetres: printers hold it by there.
const MARGIN_MM: f64 = 6.0;
/// Words and pens of a sheet against the window's: read in the hand, ordinary words are set at
/// 8 points, and the lines are 0.42 mm and 0.21 mm wide, near the 0.5 mm and 0.25 mm of ISO 128-2.
const IN_THE_HAND: f64 = 0.8;
/// Height of what stands above the drawing and below it, at the window's size of words.
const HEADER: f64 = 92.0;
const FOOTER: f64 = 166.0;

/// Draws a unit on a page lying on its side.
#[must_use]
pub fn plate_sheet(
    unit_name: &str,
    knife_name: &str,
    view: &SideView,
    lens: LensChoice,
    theme: Theme,
    page: Page,
) -> Sheet {
    let style = Style {
        theme,
        text: IN_THE_HAND,
        pen: IN_THE_HAND,
        words: Words::All,
        numbers: Numbers::Shown,
        enlarged: 1.0,
    };
    let window = page.on_its_side();
    let scene = view.scene();
    let mut sheet = Sheet::blank(unit_name, window, style);
    let mut words = Pencil::new(style, window.inset(-MARGIN_MM * PAPER_PER_MM));
    let frame = words.window;
    let canvas = Rect::new(
        frame.x0,
        frame.y0 + words.by_text(HEADER),
        frame.x1,
        frame.y1 - words.by_text(FOOTER),
    );
    let (whole, window) = Canvas::split_paper(canvas, scene.bounds);
    let solution = view.case.solution;
    let canvas = Canvas {
        whole,
        lens: Some(Lens::on(solution, lens, window, view.system)),
    };
    sheet.add_figure(
        "The unit from the side, to scale, and its clip point enlarged",
        canvas.panels(&scene, style),
    );
    header(&mut words, unit_name, knife_name, view);
    footer(&mut words, view, &canvas.whole, page);
    sheet.panels.push(words.done());
    sheet
}

/// The verdict in few words: the level, what is worst, and what cannot be told. With readings that are
/// still examples it is never fine.
#[must_use]
pub fn verdict(findings: &Findings, examples: ExampleCount) -> (Level, String) {
    let worst = findings.worst();
    let titles = |is_wanted: &dyn Fn(&Finding) -> bool| {
        let titles = findings.iter().filter(|finding| is_wanted(finding));
        let titles: Vec<_> = titles.map(|f| f.title().to_lowercase()).collect();
        titles.join(", ")
    };
    let certain = titles(&|finding| finding.level == worst && finding.doubt.is_none());
    // The worst first, and what it reads where that is not OK.
    let mut doubted: Vec<&Finding> = findings.iter().filter(|it| it.doubt.is_some()).collect();
    doubted.sort_by_key(|finding| std::cmp::Reverse(finding.level));
    let doubted: Vec<String> = doubted
        .into_iter()
        .map(|finding| {
            let title = finding.title().to_lowercase();
            match finding.level {
                Level::Fine => title,
                level => format!("{title} (reads {})", level.word()),
            }
        })
        .collect();
    let word = match worst {
        Level::Fine => "OK",
        Level::Watch => "Watch",
        Level::Over => "Over limit",
    };
    let mut parts = Vec::new();
    if worst > Level::Fine && !certain.is_empty() {
        parts.push(format!("{word}: {certain}"));
    }
    if !doubted.is_empty() {
        let word = if parts.is_empty() {
            "Undecided"
        } else {
            "undecided"
        };
        parts.push(format!("{word}: {}", doubted.join(", ")));
    }
    let shown = findings.shown_level();
    let (level, otherwise) = if examples.is_none() {
        (shown, "OK: every finding is within its limits")
    } else {
        let otherwise = "Undecided: some readings are still examples";
        (shown.max(Level::Watch), otherwise)
    };
    let text = if parts.is_empty() {
        otherwise.to_owned()
    } else {
        parts.join("; ")
    };
    (level, text)
}

/// Writes a line of words, smaller where the frame has no room for it, `x` and `y` from the
/// frame's upper left corner at the window's size of words.
fn line(pencil: &mut Pencil, role: Role, (x, y): (f64, f64), size: f64, text: String) {
    let frame = pencil.window;
    let at = Point::new(frame.x0 + pencil.by_text(x), frame.y0 + pencil.by_text(y));
    let needed = pencil.width_of(role, &text, size).max(1e-9);
    let size = size * ((frame.x1 - at.x) / needed).min(1.0);
    pencil.sized_text(role, at, Anchor::Left, size, text);
}

fn header(pencil: &mut Pencil, unit_name: &str, knife_name: &str, view: &SideView) {
    let (level, text) = verdict(view.findings, view.examples);
    let role = Role::Level(level);
    let frame = pencil.window;
    let size = pencil.by_text(34.0);
    let place = Rect::from_origin_size(frame.origin(), (size, size));
    let (symbol, stroke) = level_symbol(level, place);
    pencil.fill(role, &symbol);
    pencil.stroke_with(Role::Paper, &stroke, Pen::Wide(3.5));
    line(pencil, Role::Heading, (48.0, 17.0), 26.0, text);
    let setting = view.case.setting;
    let system = view.system;
    let examples = view.examples.told();
    let examples = examples.map_or_else(String::new, |told| format!("{told}. "));
    // The numbers beside them keep their room, however long the names are.
    let size = 15.0;
    let name = |name, part: f64| {
        let shown = letters::readable(name);
        let fitted = pencil.fitted(Role::Note, &shown, size, part * frame.width());
        fitted.into_owned()
    };
    let (unit_name, knife_name) = (name(unit_name, 0.4), name(knife_name, 0.2));
    let about = format!(
        "{examples}{unit_name}. Knife: {knife_name}. Reel {}, height of cut {}, attitude {}, edge forward {}.",
        system.length(setting.reel_diameter),
        system.length(view.case.solution.pose.height_of_cut),
        system.angle(view.case.solution.pose.attitude),
        system.length(view.case.solution.pose.extension),
    );
    line(pencil, Role::Note, (0.0, 60.0), size, about);
}

/// Columns of key numbers.
const COLUMNS: u8 = 4;

fn footer(pencil: &mut Pencil, view: &SideView, whole: &View, page: Page) {
    let frame = pencil.window;
    let (width, height) = (
        frame.width() / pencil.by_text(1.0),
        frame.height() / pencil.by_text(1.0),
    );
    let top = height - FOOTER + 22.0;
    let places = (0_u8..).flat_map(|row| (0..COLUMNS).map(move |column| (column, row)));
    let numbers = view.case.solution.numbers().key(view.system);
    for ((number, shown), (column, row)) in numbers.into_iter().zip(places) {
        let off = view.off_beside(number);
        let shown = format!("{shown} {off}").trim_end().to_owned();
        let x = width / f64::from(COLUMNS) * f64::from(column);
        let y = top + 22.0 * f64::from(row);
        let title = number.title();
        // The longest titles have the shortest numbers.
        let taken = pencil.width_of(Role::Note, title, 13.0) / pencil.by_text(1.0);
        line(pencil, Role::Note, (x, y), 13.0, title.to_owned());
        let begins = (taken + 10.0).max(148.0);
        let room = pencil.by_text(width / f64::from(COLUMNS) - begins - 10.0);
        let needed = pencil.width_of(Role::Heading, &shown, 13.5).max(1e-9);
        let size = 13.5 * (room / needed).min(1.0);
        line(pencil, Role::Heading, (x + begins, y), size, shown);
    }
    let scale = format!(
        "Whole unit {}; scales hold printed at full size on {}, the lens's bar at any size.",
        whole.written_scale(),
        page.name(),
    );
    let [cuts, precedence] = CAUTION_IN_SHORT;
    let below = [&format!("{scale} {MODEL_IN_SHORT}"), cuts, precedence];
    for (row, text) in (0_u8..).zip(below) {
        let y = height - 46.0 + 19.0 * f64::from(row);
        let needed = pencil.width_of(Role::Note, text, 12.0).max(1e-9);
        let size = 12.0 * (pencil.by_text(width) / needed).min(1.0);
        line(pencil, Role::Note, (0.0, y), size, text.to_owned());
    }
}
