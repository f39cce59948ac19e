//! The text of a lesson, read: RON, as a unit file is.

use super::script::Lesson;
use crate::unit::{AsRead, FileKind, TextProblem, UNIT_FILE, Written, most, parse, written};

/// Lessons.
pub static LESSON_FILE: FileKind = FileKind {
    name: "lesson",
    holds: "lesson",
    begins: "(lesson: 1, title: …",
    first_field: "lesson",
    most_bytes: most::FILE_BYTES,
    usual_bytes: "a few thousand",
    lines_deep: 4,
    wanted_at,
};

/// What stands at a path of a lesson, as it is written.
fn wanted_at(path: &str) -> &'static str {
    if let Some(inside) = inside_unit(path) {
        return match inside {
            "file" => "the name of a unit file in quotes",
            "embedded" => "a unit as in a unit file, (format: 1, name: …)",
            inside => (UNIT_FILE.wanted_at)(inside.strip_prefix("embedded.").unwrap_or(inside)),
        };
    }
    let name = path.rsplit('.').next().unwrap_or(path);
    match name {
        "lesson" => "the number 1",
        "steps" => "a list, [(title: …, text: …), …]",
        "unit" | "second" => "(file: \"…\", setting: (…)) or (embedded: (format: 1, …))",
        "view" => "Whole, Lens, Ground, Path, Budget, Map or SideBySide(Lens), without quotes",
        "held" => "Ground, Edge, Screws or ReelCentre, without quotes",
        "slider" => "Attitude, HeightOfCut, ReelDiameter or EdgeForward, without quotes",
        "emphasis" => "a list of Sweep, BehindCentre, HeightOfCut, Knife, Reel, Rollers, Ground",
        "motion" | "numbers_hidden" => "true or false",
        "numbers" => "a list of fields in quotes, like [\"sweep\", \"sweep_share\"]",
        _ if name.starts_with("steps[") => "a step, (title: …, text: …)",
        _ if name.starts_with("emphasis[") => {
            "Sweep, BehindCentre, HeightOfCut, Knife, Reel, Rollers or Ground, without quotes"
        }
        _ => "a text in quotes",
    }
}

/// The rest of a path inside a step's unit or its second one.
fn inside_unit(path: &str) -> Option<&str> {
    let (step, rest) = path.split_once('.')?;
    if !step.starts_with("steps[") {
        return None;
    }
    let (whose, inside) = rest.split_once('.')?;
    matches!(whose, "unit" | "second").then_some(inside)
}

/// Reads the text of a lesson and checks that it makes sense.
///
/// # Errors
/// When it is no lesson, or something in it makes no sense.
pub fn read_lesson(text: &str) -> Result<Lesson, TextProblem> {
    let lesson = parse_lesson(text)?;
    match lesson.check() {
        Ok(()) => Ok(lesson),
        Err(flaw) => Err(TextProblem::at_path(
            &LESSON_FILE,
            text,
            flaw.path,
            None,
            flaw.kind.to_string(),
        )),
    }
}

/// Reads the text of a lesson without asking whether it makes sense.
///
/// # Errors
/// When it is no lesson, or a value in it cannot be read.
pub fn parse_lesson(text: &str) -> Result<Lesson, TextProblem> {
    let mut lesson: Lesson = parse(text, &LESSON_FILE)?;
    lesson.as_read = AsRead::new(text);
    Ok(lesson)
}

/// The text of a lesson; of one that was read, its own text changed where values changed.
#[must_use]
pub fn write_lesson(lesson: &Lesson) -> Written {
    written(lesson, &lesson.as_read, &LESSON_FILE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Emphasis, LessonView};

    const TEXT: &str = r#"// Told in the yard.
(
    lesson: 1,
    title: "Told", // to everybody
    steps: [
        (
            title: "One",
            text: "It sweeps {sweep}.",   // silent first
            unit: (file: "one.ron"),
        ),
        // And then ask.
        (title: "Two", text: "Why?", view: Lens),
    ],
)
"#;

    #[test]
    fn what_changes_is_written_and_the_rest_stays_as_it_was() {
        let mut lesson = read_lesson(TEXT).expect("a lesson");
        assert_eq!(write_lesson(&lesson).text, TEXT);
        lesson.steps[1].text = "Why is it so?".to_owned();
        lesson.steps[0].emphasis = vec![Emphasis::Sweep];
        let written = write_lesson(&lesson).text;
        for remark in [
            "Told in the yard.",
            "to everybody",
            "silent first",
            "And then ask.",
        ] {
            assert!(written.contains(remark), "{written}");
        }
        assert_eq!(read_lesson(&written).expect("it reads"), lesson);
        lesson.move_step(1, 0);
        let written = write_lesson(&lesson).text;
        assert_eq!(read_lesson(&written).expect("it reads"), lesson);
    }

    #[test]
    fn a_lesson_never_written_before_says_no_more_than_is_said_in_it() {
        let mut lesson = read_lesson(TEXT).expect("a lesson");
        lesson.as_read = AsRead::default();
        let written = write_lesson(&lesson).text;
        assert!(
            !written.contains("motion") && !written.contains("held"),
            "{written}"
        );
        assert!(
            written.contains("\n            title: \"One\",\n"),
            "{written}"
        );
        assert_eq!(lesson.steps[1].view, LessonView::Lens);
        assert_eq!(read_lesson(&written).expect("it reads"), lesson);
    }
}
