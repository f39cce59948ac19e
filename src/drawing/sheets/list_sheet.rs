//! A page of plain lines: the files that gave no sheet, each with its reason.

use super::columns::lay_out;
use super::flow::Band;
use super::page::Page;
use super::sheet::Sheet;
use crate::drawing::paper::{Numbers, PAPER_PER_MM, Style, Theme, Words};
use crate::drawing::scene::Role;

/// Paper around the lines, in millimetres.
const MARGIN_MM: f64 = 15.0;

/// Pages with a title and lines of a name and what is said of it.
#[must_use]
pub fn list_sheet(title: &str, lines: &[(String, String)], page: Page) -> Vec<Sheet> {
    let style = Style {
        theme: Theme::Print,
        text: 0.85,
        pen: 0.85,
        words: Words::All,
        numbers: Numbers::Shown,
        enlarged: 1.0,
    };
    let window = page.upright();
    let area = window.inset(-MARGIN_MM * PAPER_PER_MM);
    let mut band = Band::new(1, area, style);
    band.heading(title);
    for (name, told) in lines {
        band.words(Role::Heading, name);
        band.words(Role::Note, told);
    }
    let pages = lay_out(&[band], area, style).into_iter();
    pages
        .map(|laid| {
            let mut sheet = Sheet::blank(title, window, style);
            sheet.panels.push(laid.panel);
            sheet
        })
        .collect()
}
