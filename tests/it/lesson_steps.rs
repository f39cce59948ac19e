//! One step of a lesson: what it hides with a hidden number, what it tells of two units, and how both are
//! looked at.

use kurbo::{Rect, TranslateScale};
use sweepgauge::drawing::{LessonPictures, Mark, PairPaper, Panel, Role, STILL, Style, Theme};
use sweepgauge::lesson::{Lesson, SolvedStep, StepProblem, read_lesson, solve_steps};

use crate::common::shown::document;

const SEVEN_INCH: &str = include_str!("../../demo-units/lessons/seven-inch.ron");
const PLACE: Rect = Rect::new(0.0, 0.0, 1000.0, 500.0);

/// The same unit with something else in its place.
fn seven_inch(of: &str, to: &str) -> String {
    assert_eq!(SEVEN_INCH.matches(of).count(), 1, "{of}");
    SEVEN_INCH.replace(of, to)
}

/// A lesson of one step over units of its folder, solved.
fn of_one_step(
    step: &str,
    units: &[(&str, &str)],
) -> (Lesson, Vec<Result<SolvedStep, StepProblem>>) {
    let text = format!(r#"(lesson: 1, title: "Told", steps: [(title: "One", {step})])"#);
    let lesson = read_lesson(&text).unwrap();
    let steps = solve_steps(&lesson, |name| {
        let unit = units.iter().find(|(at, _)| *at == name);
        Ok(document(unit.expect("it is there").1))
    });
    (lesson, steps)
}

#[test]
fn what_says_a_hidden_number_in_another_way_is_hidden_with_it_and_the_rest_is_not() {
    let step = r#"text: "{sweep_in_sheets} sheets, {sweep_share} of {height_of_cut}, {behind_centre} behind.",
        unit: (file: "a.ron"), numbers: ["sweep"], numbers_hidden: true"#;
    let (_, steps) = of_one_step(step, &[("a.ron", SEVEN_INCH)]);
    let solved = steps[0].as_ref().unwrap();
    for told in ["5 sheets", "4.0 % of 1/2 in", "3/8 in behind"] {
        assert!(solved.text.contains(told), "{}", solved.text);
    }
    let asked = &solved.text_asked;
    assert!(
        !asked.contains("5 sheets") && !asked.contains('%'),
        "{asked}"
    );
    assert!(asked.contains("1/2 in, 3/8 in behind"), "{asked}");
    // The other way about, the sweep is what the share is worked out from.
    let (_, steps) = of_one_step(
        &step.replace(r#"["sweep"]"#, r#"["sweep_share"]"#),
        &[("a.ron", SEVEN_INCH)],
    );
    let asked = &steps[0].as_ref().unwrap().text_asked;
    assert!(
        asked.contains("5 sheets") && !asked.contains('%'),
        "{asked}"
    );
}

#[test]
fn nothing_is_so_many_times_what_reads_as_zero() {
    let on_centre = seven_inch(r#"behind_centre: "3/8 in""#, r#"behind_centre: "0.002 in""#);
    let step = r#"text: "{times.sweep} times.", unit: (file: "a.ron"), second: (file: "b.ron")"#;
    let (_, steps) = of_one_step(step, &[("a.ron", &on_centre), ("b.ron", SEVEN_INCH)]);
    let why = &steps[0].as_ref().unwrap_err().why;
    assert!(why.contains("the first unit's is zero"), "{why}");
    let (_, steps) = of_one_step(step, &[("a.ron", SEVEN_INCH), ("b.ron", SEVEN_INCH)]);
    assert_eq!(steps[0].as_ref().unwrap().text, "1 times.");
}

/// The pictures of a step that shows two, as they are looked at through a glass.
fn pair(units: [&str; 2], glass: TranslateScale) -> Vec<Panel> {
    let step =
        r#"text: "Two.", unit: (file: "a.ron"), second: (file: "b.ron"), view: SideBySide(Whole)"#;
    let (lesson, steps) = of_one_step(step, &[("a.ron", units[0]), ("b.ron", units[1])]);
    let pictures = LessonPictures {
        lesson: &lesson,
        steps: &steps,
        clips: STILL,
    };
    let solved = steps[0].as_ref().unwrap();
    let style = Style::from(Theme::Light);
    let panels = pictures.panels_through(&lesson.steps[0], solved, glass, (PLACE, style));
    panels.unwrap()
}

fn words(panel: &Panel) -> Vec<&str> {
    let words = panel.marks.iter().filter_map(|mark| match mark {
        Mark::Text { text, .. } => Some(&**text),
        _ => None,
    });
    words.collect()
}

#[test]
fn a_length_measured_in_other_units_is_no_difference_of_two() {
    let in_millimetres = seven_inch(r#"height_of_cut: "1/2 in""#, r#"height_of_cut: "12.7 mm""#);
    let in_millimetres =
        in_millimetres.replace(r#"reel_diameter: "7 in""#, r#"reel_diameter: "177.8 mm""#);
    let lower = seven_inch(r#"height_of_cut: "1/2 in""#, r#"height_of_cut: "10 mm""#);
    let over = |second: &str| {
        let panels = pair([SEVEN_INCH, second], TranslateScale::default());
        words(panels.last().unwrap()).join("; ")
    };
    assert_eq!(over(&in_millimetres), "left; right");
    let over = over(&lower);
    assert!(
        over == "height of cut 1/2 in; height of cut 10.00 mm",
        "{over}"
    );
}

#[test]
fn what_enlarges_a_place_of_one_of_two_enlarges_the_same_place_of_the_other() {
    let style = Style::from(Theme::Light);
    let [left, right] = PairPaper::default().halves(PLACE, style);
    let at = left.center();
    let glass = TranslateScale::new(at.to_vec2() * (1.0 - 4.0), 4.0);
    let panels = pair([SEVEN_INCH; 2], glass);
    let [of_left, of_right] = [left, right].map(|half| {
        let mut inside = panels
            .iter()
            .filter(|panel| half.contains(panel.window.center()));
        let panel = inside.next().expect("a picture");
        assert!(half.inflate(1e-6, 1e-6).contains_rect(panel.window));
        panel
    });
    // Two that are one are drawn alike, each in its half.
    let strokes = |panel: &Panel, half: Rect| -> Vec<Rect> {
        let strokes = panel.marks.iter().filter_map(|mark| match mark {
            // Hatching and leaders go by the paper.
            Mark::Stroke {
                role: Role::TipCircle | Role::Roller | Role::Blade,
                path,
                ..
            } => Some(kurbo::Shape::bounding_box(path) - half.origin().to_vec2()),
            _ => None,
        });
        strokes.collect()
    };
    let (left, right) = (strokes(of_left, left), strokes(of_right, right));
    assert!(left.len() > 4, "{}", left.len());
    assert_eq!(left.len(), right.len());
    for (left, right) in left.into_iter().zip(right) {
        let apart = [
            left.x0 - right.x0,
            left.y0 - right.y0,
            left.x1 - right.x1,
            left.y1 - right.y1,
        ];
        assert!(
            apart.iter().all(|apart| apart.abs() < 1e-6),
            "{left} {right}"
        );
    }
}
