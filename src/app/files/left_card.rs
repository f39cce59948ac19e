//! Work that a dead window left, offered beside what stands in its file.

use std::borrow::Cow;
use std::collections::VecDeque;
use std::path::Path;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use egui::{Grid, Label, ScrollArea, Ui};

use super::left_lesson::rows_of_lesson;
use super::left_sheet::{Row, rows_of_sheet, shown};
use super::work_asking::ask_work_first;
use super::work_files::WorkAsking;
use super::work_words::words_of;
use crate::app::desk::{Beneath, Card, Desk, Next, WorkKind, document_in};
use crate::app::widgets::lettering::Lettering;
use crate::lesson::{LESSON_FILE, parse_lesson};
use crate::plate;
use crate::store::recovery::{Flushed, Left, LeftBehind, Work};
use crate::store::{self, FileProblem};
use crate::unit::{self, Document, Field};

/// Offers what dead windows left behind, over whatever card is open, and tells what was damaged.
pub fn offer_left(desk: &mut Desk, left: LeftBehind) {
    if !left.damaged.is_empty() {
        let told = left.damaged.iter();
        let told: Vec<_> = told.map(|one| format!("A recovery file {one}.")).collect();
        desk.warn(told.join(" "));
    }
    let mut others = VecDeque::from(left.works);
    if let Some(first) = others.pop_front() {
        let beneath = Beneath::taken_from(desk);
        desk.open_card(LeftCard {
            beside: Beside::of(&first.work),
            left: Some(first),
            others,
            beneath,
        });
    }
}

/// The card on which one work after the other is offered.
struct LeftCard {
    /// The work that is offered; none once it is answered to.
    left: Option<Left>,
    beside: Beside,
    others: VecDeque<Left>,
    /// The card that comes back when all are answered to.
    beneath: Beneath,
}

#[derive(Clone, Copy)]
enum Reply {
    Recover,
    Discard,
    Later,
}

/// Work beside what stands in its file.
struct Beside {
    /// What a unit that was left is called; none for other work, and for a unit without a name.
    unit: Option<String>,
    /// Whether there is a file that can be read.
    has_file: bool,
    /// Why the file cannot be read.
    problem: Option<String>,
    rows: Vec<Row>,
}

impl LeftCard {
    fn take(&mut self, desk: &mut Desk, reply: Reply) -> Next {
        let kind = self.left.as_ref().and_then(|left| kind_of(&left.work));
        if let (Reply::Recover, Some(kind)) = (reply, kind)
            && desk.has_unsaved_work(kind)
        {
            // It would take the place of one that is in no file as it stands; this card comes back then.
            ask_work_first(desk, kind, WorkAsking::MakeRoom);
            return Next::Stay;
        }
        if let Some(left) = self.left.take() {
            match reply {
                // It is offered again once nobody has it.
                Reply::Later => {}
                Reply::Discard => discard(desk, left),
                Reply::Recover => {
                    let others = self.others.iter();
                    let alike = others.filter(|other| kind_of(&other.work) == kind);
                    if recover(desk, left, alike.count()) {
                        // What to work on is no question any more.
                        self.beneath = Beneath::default();
                    }
                    // A window shows one of each kind; what is more of it waits for another start.
                    self.others.retain(|other| kind_of(&other.work) != kind);
                }
            }
        }
        if let Some(next) = self.others.pop_front() {
            self.beside = Beside::of(&next.work);
            self.left = Some(next);
            return Next::Stay;
        }
        self.beneath.put_back(desk);
        Next::Close
    }
}

impl Beside {
    fn rows_ui(&self, ui: &mut Ui) {
        if let Some(problem) = &self.problem {
            ui.label(format!(
                "The file cannot be read now, so all that was kept is listed. {problem}"
            ));
        }
        if self.rows.is_empty() {
            ui.label("It is the same as the file now.");
            return;
        }
        let columns: u8 = if self.has_file { 3 } else { 2 };
        let width = ui.available_width() / f32::from(columns) - 2.0 * ui.spacing().item_spacing.x;
        let cells = |ui: &mut Ui, id: &str, cells: &mut dyn FnMut(&mut Ui)| {
            let grid = Grid::new(id).num_columns(columns.into());
            grid.min_col_width(width)
                .max_col_width(width)
                .show(ui, cells);
        };
        cells(ui, "heads of recovered", &mut |ui| {
            ui.label(Lettering::Name.of("Field"));
            if self.has_file {
                ui.label(Lettering::Name.of("In the file"));
            }
            ui.label(Lettering::Name.of("Recovered"));
        });
        let height = ui
            .text_style_height(&egui::TextStyle::Body)
            .max(ui.spacing().interact_size.y);
        let list = ScrollArea::vertical().max_height(320.0);
        list.show_rows(ui, height, self.rows.len(), |ui, shown| {
            let first = shown.start;
            for (place, row) in self.rows[shown].iter().enumerate() {
                cells(ui, &format!("recovered {}", first + place), &mut |ui| {
                    // Cut short, each shows its whole text under the pointer.
                    let mut cell = |text: &str| ui.add(Label::new(text).truncate());
                    cell(&row.name);
                    if self.has_file {
                        cell(&row.in_file);
                    }
                    cell(&row.recovered);
                });
            }
        });
    }

    /// What stands in the file, if there is one that can be read, beside what was left.
    fn of_file<T>(
        in_file: Option<Result<T, FileProblem>>,
        rows: impl FnOnce(Option<T>) -> Vec<Row>,
    ) -> Self {
        let (in_file, problem) = match in_file.transpose() {
            Ok(in_file) => (in_file, None),
            Err(problem) => (None, Some(problem.to_string())),
        };
        Self {
            unit: None,
            has_file: in_file.is_some(),
            rows: rows(in_file),
            problem,
        }
    }

    /// Every field that differs from the file; every field with something in it where there is none, or
    /// it cannot be read.
    fn of(work: &Work) -> Self {
        let file = work.file.as_deref();
        match kind_of(work) {
            None => {
                let rows = |in_file: Option<Document>| rows_of(work, in_file.as_ref());
                let unit = unit::parse_text(&work.document).ok();
                Self {
                    unit: unit.map(|unit| unit.name).filter(|name| !name.is_empty()),
                    ..Self::of_file(document_in(work), rows)
                }
            }
            Some(WorkKind::Sheet) => Self::of_file(file.map(store::open_sheet), |in_file| {
                rows_of_sheet(work, in_file)
            }),
            Some(WorkKind::Lesson) => {
                let in_file = file.map(|file| {
                    let (text, _) = store::text_with_digest(file, &LESSON_FILE)?;
                    parse_lesson(&text).map_err(|problem| FileProblem::wrong(file, problem))
                });
                Self::of_file(in_file, |in_file| rows_of_lesson(work, in_file.as_ref()))
            }
        }
    }
}

/// The kind of work beside the units; none for a unit's.
fn kind_of(work: &Work) -> Option<WorkKind> {
    let text = &work.document;
    if unit::parse_text(text).is_ok() {
        None
    } else if plate::parse_sheet(text).is_ok() {
        Some(WorkKind::Sheet)
    } else {
        is_lesson(text).then_some(WorkKind::Lesson)
    }
}

/// Whether a text that was left is a lesson's.
pub fn is_lesson(text: &str) -> bool {
    parse_lesson(text).is_ok()
}

fn discard(desk: &mut Desk, left: Left) {
    if let Err(error) = left.discard() {
        desk.warn(format!("The recovery file could not be removed: {error}"));
    }
}

/// Goes on with the work; whether it did. The old copy goes once the new one is on the disk.
fn recover(desk: &mut Desk, left: Left, others: usize) -> bool {
    let kind = kind_of(&left.work);
    let recovered = match kind {
        Some(kind) => desk.recover_work(kind, &left.work),
        None => desk.recover(&left.work),
    };
    if let Err(problem) = recovered {
        desk.warn(format!("Not recovered. {problem}"));
        return false;
    }
    let waiting = match others {
        0 => String::new(),
        1 => " 1 more waits for the next start.".to_owned(),
        _ => format!(" {others} more wait for the next start."),
    };
    if let Some(kind) = kind {
        desk.want_area(words_of(kind).area);
    }
    if let Some(file) = &left.work.file {
        if kind.is_none() {
            desk.preferences_mut().remember(file);
        }
        desk.tell(format!(
            "Recovered. Save to put it into {}.{waiting}",
            file.display()
        ));
    } else {
        if kind.is_none() {
            desk.preferences_mut().last_open = None;
        }
        desk.tell(format!("Recovered. It is in no file yet.{waiting}"));
    }
    if desk.last_work().flush() == Flushed::Kept {
        discard(desk, left);
    }
    true
}

fn rows_of(work: &Work, in_file: Option<&Document>) -> Vec<Row> {
    let Ok(recovered) = unit::parse_text(&work.document) else {
        return Vec::new();
    };
    let text_in = |document: &Document, field: Field| field.text(document).map(Cow::into_owned);
    let told_in = |document: &Document, field: Field| field.told_in(document).map(Cow::into_owned);
    let longer = in_file.filter(|in_file| {
        in_file.options.len() > recovered.options.len()
            || in_file.hardware.len() > recovered.hardware.len()
    });
    let mut fields: Vec<_> = Field::all(&recovered).collect();
    if let Some(longer) = longer {
        let more = Field::all(longer).filter(|field| !fields.contains(field));
        fields.extend(more.collect::<Vec<_>>());
    }
    let differing = fields.into_iter().filter_map(|field| {
        let before = in_file.and_then(|document| text_in(document, field));
        let after = text_in(&recovered, field);
        let is_recovered = after.is_some() || in_file.is_none();
        (before != after).then(|| Row {
            name: field.name_in(match in_file {
                Some(in_file) if !is_recovered => in_file,
                _ => &recovered,
            }),
            in_file: shown(in_file.and_then(|document| told_in(document, field))),
            recovered: shown(told_in(&recovered, field)),
        })
    });
    let wrong = work.wrong.iter().map(|wrong| Row {
        name: wrong.name.clone(),
        in_file: String::new(),
        recovered: format!(
            "\"{}\", not taken: {}",
            shown(Some(wrong.text.clone())),
            shown(Some(wrong.problem.clone()))
        ),
    });
    let marked = |document: &Document| match document.examples.iter().count() {
        0 => "none".to_owned(),
        count => count.to_string(),
    };
    let examples = in_file
        .filter(|in_file| in_file.examples != recovered.examples)
        .map(|in_file| Row {
            name: "Readings that are examples".to_owned(),
            in_file: marked(in_file),
            recovered: marked(&recovered),
        });
    differing.chain(examples).chain(wrong).collect()
}

/// How long ago it was, in words.
fn ago(time: u64) -> String {
    let then = UNIX_EPOCH.checked_add(Duration::from_secs(time));
    let age = then.and_then(|then| SystemTime::now().duration_since(then).ok());
    let minutes = age.unwrap_or_default().as_secs() / 60;
    let (count, what) = match minutes {
        0 => return "less than a minute ago".to_owned(),
        1..60 => (minutes, "minute"),
        60..1440 => (minutes / 60, "hour"),
        _ => (minutes / 1440, "day"),
    };
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {what}{plural} ago")
}

impl Card for LeftCard {
    fn name(&self) -> &'static str {
        "recovery"
    }

    fn width(&self) -> f32 {
        640.0
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let Some(Left { work, .. }) = &self.left else {
            return Next::Close;
        };
        ui.label(Lettering::CardTitle.of("Work was not saved"));
        ui.add_space(6.0);
        if let Some(unit) = &self.beside.unit {
            ui.add(Label::new(Lettering::Name.of(unit.as_str())).wrap());
        }
        let file = work.file.as_deref().map(Path::display);
        let age = ago(work.time);
        let told = if let Some(file) = &file {
            format!(
                "The program ended {age} with changes to {file} that were not saved. They were kept:"
            )
        } else {
            let what = kind_of(work).map_or("unit", |kind| words_of(kind).name);
            format!("The program ended {age} with a {what} that was in no file yet. It was kept:")
        };
        ui.label(told);
        ui.add_space(6.0);
        self.beside.rows_ui(ui);
        ui.add_space(10.0);
        let others = self.others.len();
        if others > 0 {
            ui.label(format!("{others} more after this one."));
        }
        let answer = ui
            .horizontal(|ui| {
                let mut answer = None;
                for (word, reply, help) in [
                    (
                        "Recover",
                        Reply::Recover,
                        "Go on with it; it is not saved yet",
                    ),
                    ("Discard", Reply::Discard, "Remove it for good"),
                    ("Later", Reply::Later, "Offer it again at the next start"),
                ] {
                    if ui.button(word).on_hover_text(help).clicked() {
                        answer = Some(reply);
                    }
                }
                answer
            })
            .inner;
        answer.map_or(Next::Stay, |reply| self.take(desk, reply))
    }

    fn put_away(&mut self, desk: &mut Desk) -> Next {
        self.take(desk, Reply::Later)
    }

    fn is_question(&self) -> bool {
        true
    }
}
