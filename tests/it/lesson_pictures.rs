//! What the pictures of the shipped lessons show: each holds what its step is about, whose words are the
//! largest, and asks for that where its numbers are hidden.

use kurbo::{Point, Rect, Shape as _};
use sweepgauge::analysis::Solved;
use sweepgauge::drawing::{Mark, Numbers, Panel, Role, Style, Theme, Words};
use sweepgauge::lesson::{Emphasis, Held, LessonView, SingleView, Step};

use crate::lessons::{NAMES, Pictured};

/// As wide and high as a handout, a projector and a screen leave a picture, with how large words are there.
const PAPERS: [(f64, f64, f64); 3] = [
    (733.0, 300.0, 0.8),
    (983.0, 360.0, 1.39),
    (1843.0, 560.0, 1.96),
];

fn style(text: f64, step: &Step) -> Style {
    Style {
        text,
        words: Words::Few,
        numbers: if step.numbers_hidden {
            Numbers::Hidden
        } else {
            Numbers::Shown
        },
        ..Style::from(Theme::Light)
    }
}

fn panels(shipped: &Pictured, at: usize, (wide, high, text): (f64, f64, f64)) -> Vec<Panel> {
    let (lesson, steps, pictures) = shipped.parts();
    let (step, solved) = (&lesson.steps[at], steps[at].as_ref().unwrap());
    let place = Rect::new(0.0, 0.0, wide, high);
    pictures
        .panels(step, solved, place, style(text, step))
        .expect("it has a picture")
}

fn texts(panels: &[Panel]) -> Vec<(&str, f64)> {
    let marks = panels.iter().flat_map(|panel| &panel.marks);
    let texts = marks.filter_map(|mark| match mark {
        Mark::Text { text, size, .. } => Some((text.as_str(), *size)),
        _ => None,
    });
    texts.collect()
}

/// The clip point's ring on a panel.
fn ring(panel: &Panel) -> Rect {
    let mut rings = panel.marks.iter().filter_map(|mark| match mark {
        Mark::Stroke {
            role: Role::Clip,
            path,
            ..
        } => Some(path.bounding_box()),
        _ => None,
    });
    rings.next_back().expect("the ring about the clip point")
}

/// Whether a line of a role is drawn on a panel.
fn has_line(panel: &Panel, of: Role) -> bool {
    let mut marks = panel.marks.iter();
    marks.any(|mark| matches!(mark, Mark::Stroke { role, .. } if *role == of))
}

fn is_lens(step: &Step) -> bool {
    let is_lens = matches!(
        step.view,
        LessonView::Lens | LessonView::SideBySide(SingleView::Lens)
    );
    // Where the knife alone is emphasised, the lens looks at its lip.
    let is_at_lip = step.emphasis == [Emphasis::Knife];
    is_lens && !is_at_lip
}

#[test]
fn a_lens_holds_the_edge_the_lowest_point_and_the_sweep_of_every_unit_it_is_about() {
    let mut count = 0;
    for name in NAMES {
        let shipped = Pictured::of(name);
        for at in 0..shipped.lesson.steps.len() {
            let step = &shipped.lesson.steps[at];
            if !is_lens(step) {
                continue;
            }
            for paper in PAPERS {
                let told = format!("{name}, step {}, {paper:?}", at + 1);
                let drawn = panels(&shipped, at, paper);
                let lenses = drawn
                    .iter()
                    .filter(|panel| has_line(panel, Role::LensFrame));
                let solved = shipped.steps[at].as_ref().unwrap();
                let units: Vec<&Solved> = match (&step.view, &solved.second) {
                    (LessonView::SideBySide(_), Some(second)) => vec![&solved.first, second],
                    _ => vec![&solved.first],
                };
                let mut scales = Vec::new();
                for (panel, unit) in lenses.zip(units) {
                    count += 1;
                    // The strip with the title covers the head.
                    let seen = Rect {
                        y0: panel.window.y0 + 30.0 * paper.2,
                        ..panel.window
                    };
                    let clip = ring(panel).center();
                    assert!(seen.contains(clip), "{told}: the clip point {clip:?}");
                    let below = panel.marks.iter().filter_map(|mark| match mark {
                        Mark::Stroke {
                            role: Role::BelowCut(_),
                            path,
                            ..
                        } => Some(path.bounding_box()),
                        _ => None,
                    });
                    let below = below.reduce(|all, next| all.union(next));
                    let sweep = &unit.solution.sweep;
                    if sweep.below_cut.mm() <= 0.0 {
                        continue;
                    }
                    let below = below.expect("the sweep is drawn");
                    let lowest = Point::new(below.center().x, below.y1);
                    assert!(seen.contains(lowest), "{told}: the lowest point {lowest:?}");
                    // As deep as it is, so that all of it is in view; and deep enough to be seen.
                    let scale = below.height() / sweep.below_cut.mm();
                    scales.push(scale);
                    let is_thin = sweep.below_cut.mm() < 0.2;
                    assert!(is_thin || below.height() > 5.0, "{told}: {below:?}");
                }
                for scale in &scales {
                    let off = (scale / scales[0] - 1.0).abs();
                    assert!(off < 1e-3, "{told}: {scales:?}");
                }
            }
        }
    }
    assert!(count >= 50, "{count}");
}

/// The words of a picture that are larger than any other; none where several are as large.
fn largest(panels: &[Panel]) -> Vec<&str> {
    let mut texts = texts(panels);
    texts.retain(|(text, _)| !text.starts_with("Lens A"));
    let most = texts.iter().map(|(_, size)| *size).fold(0.0, f64::max);
    let largest = texts.iter().filter(|(_, size)| *size >= most - 1e-9);
    largest.map(|(text, _)| *text).collect()
}

#[test]
fn the_largest_words_of_a_picture_are_about_what_its_step_is_about() {
    for (name, at, words) in [
        ("behind-centre", 1, &["behind centre: how far?"][..]),
        ("behind-centre", 2, &["behind centre 0.0000 in"]),
        ("behind-centre", 3, &["sweep: how deep?"]),
        ("behind-centre", 4, &["sweep 0.0201 in"]),
        ("behind-centre", 5, &["sweep 0.0201 in"; 2]),
        ("longer-knife", 0, &["behind centre: how far?"]),
        ("longer-knife", 1, &["behind centre: how far?"]),
        ("longer-knife", 2, &["behind centre 0.406 in"]),
        ("longer-knife", 3, &["sweep 0.0109 in", "sweep 0.0332 in"]),
        ("longer-knife", 5, &["sweep: how deep?"]),
        ("longer-knife", 7, &["sweep 0.0206 in", "sweep 0.0051 in"]),
        ("worn-reel", 2, &["sweep: how deep?"]),
        ("worn-reel", 3, &["sweep 0.0206 in", "sweep 0.0350 in"]),
        ("fairway-and-green", 1, &["sweep: how deep?"; 2]),
        ("fairway-and-green", 2, &["sweep 0.0206 in"; 2]),
        ("fairway-and-green", 4, &["reel 0.120 in above the soil"]),
    ] {
        let shipped = Pictured::of(name);
        for paper in PAPERS {
            let drawn = panels(&shipped, at, paper);
            let told = format!("{name}, step {}, {paper:?}", at + 1);
            assert_eq!(largest(&drawn), words, "{told}");
        }
    }
    // A crest that the reel stands in, with its level where there is room for it.
    let shipped = Pictured::of("fairway-and-green");
    for paper in PAPERS {
        let drawn = panels(&shipped, 5, paper);
        let largest = largest(&drawn);
        assert_eq!(largest.len(), 1, "{largest:?}");
        assert!(
            largest[0].ends_with("reel 0.0070 in into the soil"),
            "{largest:?}"
        );
    }
}

#[test]
fn a_picture_asks_for_no_sweep_where_its_step_does_not() {
    for (name, at) in [("fairway-and-green", 0), ("worn-reel", 0), ("worn-reel", 4)] {
        let shipped = Pictured::of(name);
        assert!(shipped.lesson.steps[at].numbers_hidden);
        for paper in PAPERS {
            let drawn = panels(&shipped, at, paper);
            let texts = texts(&drawn);
            let asked = texts.iter().find(|(text, _)| text.contains('?'));
            assert_eq!(asked, None, "{name}, step {}", at + 1);
        }
    }
}

#[test]
fn the_arrow_of_travel_is_named_where_few_words_are_shown() {
    let shipped = Pictured::of("behind-centre");
    for paper in PAPERS {
        let drawn = panels(&shipped, 1, paper);
        let has_word = texts(&drawn).iter().any(|(text, _)| *text == "travel");
        assert!(has_word, "{paper:?}");
    }
}

#[test]
fn two_that_are_held_by_their_edges_say_that_their_ground_lines_are_not_level() {
    let mut shipped = Pictured::of("fairway-and-green");
    let levels = |shipped: &Pictured| -> Vec<f64> {
        let drawn = panels(shipped, 1, PAPERS[1]);
        let told = texts(&drawn);
        let says = told.iter().any(|(text, _)| text.contains("one level"));
        let is_held = shipped.lesson.steps[1].held == Held::Edge;
        assert_eq!(says, is_held, "{told:?}");
        let lenses = drawn.iter().filter(|panel| has_line(panel, Role::Clip));
        lenses.map(|panel| ring(panel).center().y).collect()
    };
    let on_ground = levels(&shipped);
    assert!(on_ground[1] > on_ground[0] + 50.0, "{on_ground:?}");
    shipped.lesson.steps[1].held = Held::Edge;
    let by_edge = levels(&shipped);
    assert!((by_edge[0] - by_edge[1]).abs() < 0.5, "{by_edge:?}");
}
