//! What a lesson that a dead window left holds beside its file.

use super::left_sheet::{Row, shown};
use crate::lesson::{Lesson, Step, Turned, WrongEntry, parse_lesson};
use crate::store::recovery::Work;

/// Everything that differs from the file; everything with something in it where there is none.
pub(super) fn rows_of_lesson(work: &Work, in_file: Option<&Lesson>) -> Vec<Row> {
    let Ok(recovered) = parse_lesson(&work.document) else {
        return Vec::new();
    };
    let none = Lesson::default();
    let before = in_file.unwrap_or(&none);
    let mut rows = Vec::new();
    let mut row = |name: String, in_file: Option<String>, recovered: Option<String>| {
        let filled = |text: Option<String>| shown(text.filter(|text| !text.is_empty()));
        let (in_file, recovered) = (filled(in_file), filled(recovered));
        if in_file != recovered {
            rows.push(Row {
                name,
                in_file,
                recovered,
            });
        }
    };
    let title = |lesson: &Lesson| Some(lesson.title.clone());
    row("Title".to_owned(), title(before), title(&recovered));
    for place in 0..before.steps.len().max(recovered.steps.len()) {
        let steps = [before, &recovered].map(|lesson| lesson.steps.get(place));
        for (what, of) in PARTS {
            let [before, after] = steps.map(|step| step.map(of));
            row(format!("Step {}, {what}", place + 1), before, after);
        }
        // What is shown has too much in it for a line.
        let units = steps.map(|step| step.map(|step| (&step.unit, &step.second)));
        if units[0].is_some() && units[1].is_some() && units[0] != units[1] {
            row(
                format!("Step {}, its units", place + 1),
                Some("as they are there".to_owned()),
                Some("others".to_owned()),
            );
        }
    }
    let wrong = work.wrong.iter().map(|wrong| {
        let step = WrongEntry::at_path(&wrong.field).map(|(step, _, _)| step + 1);
        let step = step.map_or_else(String::new, |step| format!("Step {step}, "));
        Row {
            name: format!("{step}{}", wrong.name),
            in_file: String::new(),
            recovered: format!(
                "\"{}\", not taken: {}",
                shown(Some(wrong.text.clone())),
                shown(Some(wrong.problem.clone()))
            ),
        }
    });
    rows.extend(wrong);
    rows
}

/// What of a step is told, and in which words.
type Part = (&'static str, fn(&Step) -> String);

const PARTS: [Part; 10] = [
    ("title", |step| step.title.clone()),
    ("text", |step| step.text.clone()),
    ("notes", |step| step.notes.clone()),
    ("view", |step| step.view.title().to_owned()),
    ("held still", |step| step.held.title().to_owned()),
    ("emphasis", |step| {
        let titles: Vec<_> = step.emphasis.iter().map(|what| what.title()).collect();
        titles.join(", ")
    }),
    ("numbers", |step| step.numbers.join(", ")),
    ("numbers hidden", |step| yes_or_no(step.numbers_hidden)),
    ("slider", |step| {
        step.slider.map_or("none", Turned::name).to_owned()
    }),
    ("motion", |step| yes_or_no(step.motion)),
];

fn yes_or_no(is_so: bool) -> String {
    if is_so { "yes" } else { "no" }.to_owned()
}
