//! True scale: the unit at 1:1, over as many pages as it takes, to hold the paper against it.

use kurbo::{Line, Point, Rect, Shape as _, Size, Vec2};

use super::columns::Laid;
use super::flow::Band;
use super::frame::{Frame, SheetOf, no_words};
use super::print_style::IN_THE_HAND;
use super::sheet::Sheet;
use crate::drawing::paper::{
    Anchor, Numbers, PAPER_PER_MM, Panel, Pen, Pencil, Style, Theme, View, Words, lay_out,
};
use crate::drawing::pictures::{Canvas, GROUND_DEPTH_MM, SideView};
use crate::drawing::scene::{Role, Scene, ShownIn};
use crate::units::{Length, System};

/// Paper for the check ruler under each piece of the drawing.
const RULER: f64 = 40.0;
/// Paper around a piece, for the joining marks.
const JOIN: f64 = 16.0;

/// Paper about a unit on one page: beside and over it, ahead of it for the height of cut, and under the plate
/// for what is dimensioned there.
const BESIDE: f64 = 4.0;
const AHEAD: f64 = 34.0;
const BELOW: f64 = 34.0;

/// Pages that a person still joins on a bench.
const MOST_PAGES: f64 = 60.0;

/// The sheets of a solved unit; one page that says so where it is too large.
pub(super) fn true_scale_sheet(of: SheetOf) -> Vec<Sheet> {
    let (solved, system) = (of.solved, of.system);
    if let Some(sheet) = on_one_page(of) {
        return vec![sheet];
    }
    let scene = SideView {
        system,
        ..SideView::of(solved)
    }
    .scene();
    let frame = |is_lying| frame(of, is_lying);
    let size = scene.bounds.size() * PAPER_PER_MM;
    // The way up that takes fewer pages.
    let tiled = |is_lying: bool| {
        let frame = frame(is_lying);
        let tile = tile_of(frame.area());
        let counts = (
            (size.width / tile.width()).ceil().max(1.0),
            (size.height / tile.height()).ceil().max(1.0),
        );
        (frame, tile, counts)
    };
    let (lying, upright) = (tiled(true), tiled(false));
    let pages = |(across, down): (f64, f64)| across * down;
    let (frame, tile, (across, down)) = if pages(upright.2) < pages(lying.2) {
        upright
    } else {
        lying
    };
    if across * down > MOST_PAGES {
        return too_large(&frame);
    }
    let style = style();
    // The pieces stand about the drawing's middle.
    let whole = scene.bounds.center()
        - Vec2::new(across * tile.width(), -down * tile.height()) / (2.0 * PAPER_PER_MM);
    let (columns, rows) = (count(across), count(down));
    let mut sheets = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            if of.awaited.is_given_up() {
                return Vec::new();
            }
            let corner = whole
                + Vec2::new(
                    f64::from(column) * tile.width(),
                    -f64::from(row) * tile.height(),
                ) / PAPER_PER_MM;
            let view = View {
                window: tile,
                middle: corner + Vec2::new(tile.width(), -tile.height()) / (2.0 * PAPER_PER_MM),
                scale: PAPER_PER_MM,
                stretch: 1.0,
            };
            let piece = Piece {
                column,
                row,
                columns,
                rows,
            };
            // The first piece has the key of all.
            let drawn = if (column, row) == (0, 0) {
                drawn_with_key(&scene, view)
            } else {
                vec![lay_out(&scene, &view, ShownIn::Whole, style)]
            };
            let mut laid = Laid {
                panel: piece.joins(frame.area(), tile, style),
                pictures: vec![(piece.told(), drawn)],
            };
            let key = piece.key(frame.area(), style);
            let beside = Rect {
                x1: key.as_ref().map_or(frame.area().x1, |(place, _)| place.x0),
                ..frame.area()
            };
            let ruler = ruler(beside, system, style);
            laid.panel.marks.extend(ruler.marks);
            laid.panel
                .marks
                .extend(key.into_iter().flat_map(|(_, key)| key.marks));
            let number = if columns * rows > 1 {
                format!("piece {} of {}", row * columns + column + 1, columns * rows)
            } else {
                String::new()
            };
            sheets.push(frame.sheet(&number, laid));
        }
    }
    sheets
}

fn frame(of: SheetOf, is_lying: bool) -> Frame {
    Frame {
        of,
        title: "True scale, 1:1",
        verdict: None,
        is_lying,
        read: [""; 2],
    }
}

fn style() -> Style {
    Style {
        theme: Theme::Print,
        text: IN_THE_HAND,
        pen: IN_THE_HAND,
        words: Words::All,
        numbers: Numbers::Shown,
        enlarged: 1.0,
    }
}

fn drawn_with_key(scene: &Scene, whole: View) -> Vec<Panel> {
    Canvas { whole, lens: None }.panels(scene, style())
}

/// All of the unit on one page, either way up, with no more paper about it than its dimensions take; the
/// unit as measured is left out where that makes room. None where the parts alone take more than a page.
fn on_one_page(of: SheetOf) -> Option<Sheet> {
    let all = SideView {
        system: of.system,
        ..SideView::of(of.solved)
    };
    let alone = SideView { ghost: None, ..all };
    let ways = [(all, true), (all, false), (alone, true), (alone, false)];
    ways.into_iter().find_map(|(side_view, is_lying)| {
        let frame = frame(of, is_lying);
        let area = frame.area();
        let tile = Rect {
            y1: area.y1 - RULER,
            ..area
        };
        let extent = side_view.extent();
        let low = extent.y0.min(0.0) - GROUND_DEPTH_MM;
        let needed = Rect::new(
            extent.x0 - BESIDE / PAPER_PER_MM,
            low - BELOW / PAPER_PER_MM,
            extent.x1 + AHEAD / PAPER_PER_MM,
            extent.y1 + BESIDE / PAPER_PER_MM,
        );
        let size = needed.size() * PAPER_PER_MM;
        if size.width > tile.width() || size.height > tile.height() {
            return None;
        }
        let style = style();
        let whole = View {
            window: tile,
            middle: needed.center(),
            scale: PAPER_PER_MM,
            stretch: 1.0,
        };
        let mut laid = Laid {
            panel: no_words(area),
            pictures: vec![(
                "The unit from the side at true size".to_owned(),
                drawn_with_key(&side_view.scene(), whole),
            )],
        };
        let ruler = ruler(area, of.system, style);
        laid.panel.marks.extend(ruler.marks);
        Some(frame.sheet("", laid))
    })
}

/// A page in place of more than anybody would join.
fn too_large(frame: &Frame) -> Vec<Sheet> {
    frame.pages(true, |area, style| {
        let mut band = Band::new(1, area, style);
        band.words(
            Role::Heading,
            &format!(
                "The unit is too large for true scale: it would take more than {MOST_PAGES} pages. Check the positions that were entered, or print another sheet."
            ),
        );
        vec![band]
    })
}

/// The paper of a piece of the drawing.
fn tile_of(area: Rect) -> Rect {
    Rect {
        y1: area.y1 - RULER,
        ..area
    }
    .inset(-JOIN)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a whole number that the most pages hold small"
)]
fn count(pieces: f64) -> u32 {
    pieces.clamp(1.0, MOST_PAGES) as u32
}

/// A piece of a drawing that is larger than a page.
struct Piece {
    column: u32,
    row: u32,
    columns: u32,
    rows: u32,
}

impl Piece {
    fn told(&self) -> String {
        if self.columns * self.rows == 1 {
            "The unit from the side at true size".to_owned()
        } else {
            format!(
                "The unit from the side at true size, piece {} from the left, {} from the top",
                self.column + 1,
                self.row + 1
            )
        }
    }

    /// How the pieces join, beside the ruler, this one filled; with the paper it takes. None for a
    /// drawing in one piece.
    fn key(&self, area: Rect, style: Style) -> Option<(Rect, Panel)> {
        if self.columns * self.rows == 1 {
            return None;
        }
        let mut pencil = Pencil::new(style, area);
        let high = (0.8 * RULER / f64::from(self.rows)).min(0.5 * RULER);
        let cell = Size::new(1.3 * high, high);
        let whole = Size::new(
            f64::from(self.columns) * cell.width,
            f64::from(self.rows) * cell.height,
        );
        let corner = Point::new(
            area.x1 - JOIN - whole.width,
            area.y1 - 0.1 * RULER - whole.height,
        );
        for row in 0..self.rows {
            for column in 0..self.columns {
                let at = Vec2::new(f64::from(column) * cell.width, f64::from(row) * cell.height);
                let cell = Rect::from_origin_size(corner + at, cell);
                let outline = cell.to_path(0.1);
                if (column, row) == (self.column, self.row) {
                    pencil.fill(Role::Heading, &outline);
                }
                pencil.stroke(Role::Heading, &outline);
            }
        }
        let place = Rect::from_origin_size(corner, whole).inflate(JOIN, 0.0);
        Some((place, pencil.done()))
    }

    /// The border to cut along, and marks that meet those of the next piece.
    fn joins(&self, area: Rect, tile: Rect, style: Style) -> Panel {
        let mut panel = no_words(area);
        let mut pencil = Pencil::new(style, area);
        let out = 0.8 * JOIN;
        let sides = [
            (self.column > 0, tile.x0, -1.0, true),
            (self.column + 1 < self.columns, tile.x1, 1.0, true),
            (self.row > 0, tile.y0, -1.0, false),
            (self.row + 1 < self.rows, tile.y1, 1.0, false),
        ];
        for (joins, at, way, is_upright) in sides {
            if !joins {
                continue;
            }
            let (from, to) = if is_upright {
                (Point::new(at, tile.y0), Point::new(at, tile.y1))
            } else {
                (Point::new(tile.x0, at), Point::new(tile.x1, at))
            };
            pencil.line(Role::LensFrame, from, to);
            for part in [0.25, 0.5, 0.75] {
                let middle = from.lerp(to, part);
                let (across, along) = if is_upright {
                    (Vec2::new(way * out, 0.0), Vec2::new(0.0, 0.5 * out))
                } else {
                    (Vec2::new(0.0, way * out), Vec2::new(0.5 * out, 0.0))
                };
                for end in [middle + along, middle - along] {
                    let line = Line::new(middle, end + across).to_path(0.1);
                    pencil.stroke_with(Role::Heading, &line, Pen::Wide(1.0));
                }
            }
        }
        panel.marks.extend(pencil.done().marks);
        panel
    }
}

/// A ruler to check the printout by.
fn ruler(area: Rect, system: System, style: Style) -> Panel {
    let mut pencil = Pencil::new(style, area);
    let (unit, parts, length) = match system {
        System::Millimetre => (Length::from_mm(10.0), 10_u32, 10_u32),
        System::InchDecimal | System::InchFraction => (Length::from_inches(1.0), 8, 4),
    };
    let from = Point::new(area.x0 + JOIN, area.y1 - 0.2 * RULER);
    let along = |parts_along: u32| {
        let mm = unit.mm() * f64::from(parts_along) / f64::from(parts);
        from + Vec2::new(mm * PAPER_PER_MM, 0.0)
    };
    let end = along(parts * length);
    let base = Line::new(from, end).to_path(0.1);
    pencil.stroke_with(Role::Heading, &base, Pen::Wide(1.0));
    for tick in 0..=parts * length {
        let high = match tick {
            _ if tick % parts == 0 => 0.42,
            _ if tick % (parts / 2) == 0 => 0.3,
            _ => 0.18,
        };
        let foot = along(tick);
        let line = Line::new(foot, foot - Vec2::new(0.0, high * RULER)).to_path(0.1);
        pencil.stroke(Role::Heading, &line);
    }
    let long = system.length(Length::from_mm(unit.mm() * f64::from(length)));
    let told = [
        format!("Check: this ruler is {long} long. Print at 100 %, not fitted to the page."),
        format!("Check: this ruler is {long} long. Print at 100 %."),
    ];
    let at = Point::new(end.x + pencil.by_text(14.0), from.y - 0.2 * RULER);
    let most = area.x1 - at.x;
    if let Some((told, size)) = pencil.longest_fitting(Role::Heading, &told, (10.0, 12.0), most) {
        pencil.sized_text(Role::Heading, at, Anchor::Left, size, told.to_owned());
    }
    pencil.done()
}
