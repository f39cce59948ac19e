//! The handout of a lesson: one step a block, with its picture, its text and its numbers.

use kurbo::{Line, Point, Rect, Shape as _};

use super::columns::lay_out;
use super::flow::{Band, wrapped};
use super::frame::{MARGIN_MM, Origin, foot};
use super::lesson_picture::LessonPictures;
use super::page::Page;
use super::print_style::{IN_THE_HAND, on_paper};
use super::sheet::Sheet;
use crate::drawing::paper::{Anchor, Numbers, PAPER_PER_MM, Pen, Pencil, Style};
use crate::drawing::scene::Role;
use crate::lesson::{Answer, answers};

/// Size of the lesson's title, and of the page's number.
const TITLE: f64 = 21.0;
const NUMBER: f64 = 13.0;
/// Part of a page's room that a picture takes: two steps stand on a page.
const PICTURE: f64 = 0.36;

/// The pages of a lesson's handout.
#[must_use]
pub fn handout_sheets(pictures: LessonPictures, origin: &Origin, page: Page) -> Vec<Sheet> {
    let style = on_paper(IN_THE_HAND);
    let title = &pictures.lesson.title;
    let window = page.upright();
    let pencil = || Pencil::new(style, window.inset(-MARGIN_MM * PAPER_PER_MM));
    let area = Rect {
        y0: head(&mut pencil(), title, ""),
        y1: foot(&mut pencil(), origin),
        ..pencil().window
    };
    let band = band(pictures, area, style);
    let laid = lay_out(&[band], area, style);
    let count = laid.len();
    let pages = laid.into_iter().enumerate().map(|(index, laid)| {
        let number = format!("page {} of {count}", index + 1);
        let mut sheet = Sheet::blank(format!("{title}, {number}"), window, style);
        let mut words = pencil();
        head(&mut words, title, &number);
        sheet.panels.push(words.done());
        for (told, panels) in laid.pictures {
            sheet.add_figure(told, panels);
        }
        sheet.panels.push(laid.panel);
        let mut words = pencil();
        foot(&mut words, origin);
        sheet.panels.push(words.done());
        sheet
    });
    pages.collect()
}

fn band(pictures: LessonPictures<'_>, area: Rect, style: Style) -> Band<'_> {
    let mut band = Band::new(1, area, style);
    let steps = pictures.lesson.steps.iter().zip(pictures.steps);
    for (number, (step, solved)) in (1..).zip(steps) {
        let first = band.blocks.len();
        band.heading(&format!("{number}. {}", step.title));
        match solved {
            Ok(solved) => {
                let numbers = if step.numbers_hidden {
                    Numbers::Hidden
                } else {
                    Numbers::Shown
                };
                let drawn = move |place, style: Style| {
                    let style = Style { numbers, ..style };
                    pictures.panels(step, solved, place, style)
                };
                // Asked once before, so that what has no picture takes no paper.
                match drawn(area, style) {
                    Ok(_) => {
                        let high = PICTURE * area.height();
                        band.picture(&step.title, high, move |place, style| {
                            drawn(place, style).unwrap_or_default()
                        });
                    }
                    Err(none) => band.words(Role::Note, &format!("No picture: {none}.")),
                }
                band.gap(3.0);
                if step.numbers_hidden {
                    band.words(Role::Note, &solved.text_asked);
                    let answers = answers(pictures.lesson, pictures.steps, number - 1);
                    if answers.is_empty() && step.text.contains('?') {
                        band.blanks(&["Answer:"]);
                    }
                    asked(&mut band, &answers);
                } else {
                    band.words(Role::Note, &solved.text);
                    for figure in &solved.numbers {
                        band.row(&figure.title, &figure.shown);
                    }
                }
            }
            Err(problem) => band.words(Role::Note, &format!("Not shown: {problem}")),
        }
        band.keep_together_from(first);
        band.gap(6.0);
    }
    answered(&mut band, pictures);
    band
}

/// What a step asks for, with lines to write on, and where it is answered.
fn asked(band: &mut Band, answers: &[Answer]) {
    for answer in answers {
        band.blanks(&[&format!("Answer, {}:", as_in_sentence(&answer.title))]);
    }
    let mut steps: Vec<usize> = answers
        .iter()
        .filter_map(|answer| answer.given_in)
        .collect();
    steps.dedup();
    for step in &steps {
        band.words(Role::Note, &format!("Answered in step {}.", step + 1));
    }
    if answers.iter().any(|answer| answer.given_in.is_none()) {
        band.words(Role::Note, "Answered at the end.");
    }
}

/// The answers that no step gives.
fn answered(band: &mut Band, pictures: LessonPictures) {
    let first = band.blocks.len();
    let LessonPictures { lesson, steps, .. } = pictures;
    for (at, step) in lesson.steps.iter().enumerate() {
        let answers = answers(lesson, steps, at);
        let open: Vec<_> = answers
            .iter()
            .filter(|answer| answer.given_in.is_none())
            .collect();
        if open.is_empty() {
            continue;
        }
        if band.blocks.len() == first {
            band.heading("Answers");
        }
        band.words(Role::Note, &format!("{}. {}", at + 1, step.title));
        for answer in open {
            band.row(&answer.title, &answer.shown);
        }
    }
    band.keep_together_from(first);
}

/// A title inside a sentence.
fn as_in_sentence(title: &str) -> String {
    let mut letters = title.chars();
    let first = letters.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(letters).collect()
}

/// Draws the lesson's title; where it ends.
fn head(pencil: &mut Pencil, title: &str, number: &str) -> f64 {
    let frame = pencil.window;
    let line = pencil.by_text(1.32 * TITLE);
    let at = Point::new(frame.x1, frame.y0 + line / 2.0);
    pencil.sized_text(Role::Note, at, Anchor::Right, NUMBER, number.to_owned());
    let most = frame.width() - pencil.by_text(110.0);
    let mut y = frame.y0;
    for text in wrapped(title, pencil.by_text(TITLE), true, most) {
        let at = Point::new(frame.x0, y + line / 2.0);
        pencil.sized_text(Role::Heading, at, Anchor::Left, TITLE, text);
        y += line;
    }
    y += pencil.by_text(4.0);
    let under = Line::new((frame.x0, y), (frame.x1, y)).to_path(0.1);
    pencil.stroke_with(Role::Heading, &under, Pen::Wide(1.2));
    y + pencil.by_text(6.0)
}
