//! The SVG painter: a sheet's marks as SVG text (W3C SVG 1.1 elements only).

use std::fmt::Write as _;

use kurbo::BezPath;

use crate::drawing::paper::{Mark, PAPER_PER_MM, Panel, Rgb, Style};
use crate::drawing::scene::Role;
use crate::drawing::sheets::Sheet;

/// The family of the bundled fonts.
pub(super) const FONT: &str = "Open Sans";
/// How wide the paper's colour around words is, at the window's size of them: words on hatching stand
/// on plain ground.
const HALO: f64 = 5.0;

/// Writes a sheet as SVG, its size in real millimetres.
#[must_use]
pub fn to_svg(sheet: &Sheet) -> String {
    let (width, height) = (sheet.window.width(), sheet.window.height());
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{:.3}mm\" height=\"{:.3}mm\" viewBox=\"0 0 {width:.3} {height:.3}\" font-family=\"{FONT}\">\n",
        width / PAPER_PER_MM,
        height / PAPER_PER_MM,
    );
    for (index, panel) in sheet.panels.iter().enumerate() {
        panel_into(&mut svg, index, panel);
    }
    svg.push_str("</svg>\n");
    svg
}

// Writing to a `String` cannot fail, so its results are passed over below.
fn panel_into(svg: &mut String, index: usize, panel: &Panel) {
    let w = panel.window;
    let _ = writeln!(
        svg,
        "<clipPath id=\"panel{index}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/></clipPath>\n<g clip-path=\"url(#panel{index})\">",
        w.x0,
        w.y0,
        w.width(),
        w.height()
    );
    for mark in &panel.marks {
        mark_into(svg, mark, panel.style);
    }
    svg.push_str("</g>\n");
}

fn mark_into(svg: &mut String, mark: &Mark, style: Style) {
    match mark {
        Mark::Stroke { role, path, pen } => {
            let (ink, width) = style.inked(*role, *pen);
            let _ = writeln!(
                svg,
                "<path d=\"{}\" fill=\"none\" {} stroke-width=\"{:.2}\" stroke-linejoin=\"round\"/>",
                data(path),
                paint("stroke", ink),
                width
            );
        }
        Mark::Fill { role, path, is_ink } => {
            let colour = style.filled(*role, *is_ink);
            let _ = writeln!(
                svg,
                "<path d=\"{}\" {}/>",
                data(path),
                paint("fill", colour)
            );
        }
        Mark::Text {
            role,
            at,
            anchor,
            size,
            is_turned,
            is_strong,
            text,
        } => {
            let (across, down) = anchor.part();
            let align = match across {
                0.0 => "start",
                1.0 => "end",
                _ => "middle",
            };
            // From the middle of the letters, or their foot, to the line they stand on.
            let drop = if down < 1.0 { 0.35 } else { 0.0 };
            let turn = if *is_turned {
                format!(" transform=\"rotate(-90 {:.2} {:.2})\"", at.x, at.y)
            } else {
                String::new()
            };
            let weight = if *is_strong {
                " font-weight=\"600\""
            } else {
                ""
            };
            // The paper's colour around the letters keeps them apart from lines behind.
            let halo = paint("stroke", style.look(Role::Paper).ink);
            let _ = writeln!(
                svg,
                "<text x=\"{:.2}\" y=\"{:.2}\" font-size=\"{size:.2}\" text-anchor=\"{align}\"{weight}{turn} {} {halo} stroke-width=\"{:.2}\" stroke-linejoin=\"round\" paint-order=\"stroke\">{}</text>",
                at.x,
                at.y + drop * size,
                paint("fill", style.theme.text_colour(*role)),
                HALO * style.text,
                escaped(text)
            );
        }
    }
}

fn data(path: &BezPath) -> String {
    let mut data = String::new();
    for element in path.elements() {
        let _ = match element {
            kurbo::PathEl::MoveTo(p) => write!(data, "M{:.2} {:.2}", p.x, p.y),
            kurbo::PathEl::LineTo(p) => write!(data, "L{:.2} {:.2}", p.x, p.y),
            kurbo::PathEl::QuadTo(c, p) => {
                write!(data, "Q{:.2} {:.2} {:.2} {:.2}", c.x, c.y, p.x, p.y)
            }
            kurbo::PathEl::CurveTo(c, d, p) => {
                write!(
                    data,
                    "C{:.2} {:.2} {:.2} {:.2} {:.2} {:.2}",
                    c.x, c.y, d.x, d.y, p.x, p.y
                )
            }
            kurbo::PathEl::ClosePath => write!(data, "Z"),
        };
    }
    data
}

fn paint(attribute: &str, colour: Rgb) -> String {
    let [r, g, b] = colour.rgb;
    let mut text = format!("{attribute}=\"#{r:02x}{g:02x}{b:02x}\"");
    if colour.opacity < 255 {
        let _ = write!(
            text,
            " {attribute}-opacity=\"{:.3}\"",
            f64::from(colour.opacity) / 255.0
        );
    }
    text
}

pub(super) fn escaped(text: &str) -> String {
    text.replace(|c| !is_xml(c), "\u{fffd}")
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// Whether XML can hold a character at all (W3C XML 1.0, production 2).
fn is_xml(c: char) -> bool {
    matches!(c, '\t' | '\n' | '\r' | ' '..='\u{fffd}' | '\u{10000}'..)
}
