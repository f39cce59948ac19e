//! A lesson's steps put into another order or taken out, each going on to show what it showed.

use super::script::{Lesson, Step, UnitUse};

impl Lesson {
    /// Moves a step to another place, the first being 0. A step that went on with the unit of the one before
    /// it, and would now show another, has that unit written into it.
    pub fn move_step(&mut self, from: usize, to: usize) {
        if from < self.steps.len() && to < self.steps.len() {
            self.arrange(|steps| {
                let step = steps.remove(from);
                steps.insert(to, step);
            });
        }
    }

    /// Takes a step out; the one behind it goes on to show what it showed.
    pub fn take_step_out(&mut self, place: usize) {
        if place < self.steps.len() {
            self.arrange(|steps| {
                steps.remove(place);
            });
        }
    }

    /// Puts a copy of a step behind it.
    pub fn double_step(&mut self, place: usize) {
        if let Some(step) = self.steps.get(place).cloned() {
            self.steps.insert(place + 1, step);
        }
    }

    fn arrange(&mut self, arrange: impl FnOnce(&mut Vec<(Step, Shows)>)) {
        let shows = shown_by(self.steps.iter());
        let mut steps: Vec<_> = self.steps.drain(..).zip(shows).collect();
        arrange(&mut steps);
        // In order: what is written into one step is what the next ones go on with.
        let mut going_on = GoingOn::default();
        for (step, before) in steps {
            let now = going_on.clone().shows(&step);
            let step = before.kept_in(step, &now);
            going_on.shows(&step);
            self.steps.push(step);
        }
    }
}

/// What a step shows, whoever says so: its unit and its second one.
#[derive(Clone, Debug, Default, PartialEq)]
struct Shows {
    unit: Option<UnitUse>,
    second: Option<UnitUse>,
}

impl Shows {
    fn kept_in(self, mut step: Step, now: &Self) -> Step {
        if self.unit != now.unit {
            step.unit = self.unit;
        }
        if self.second != now.second {
            step.second = self.second;
        }
        step
    }
}

/// What a step goes on with: the unit that was named last, and the one that was used last.
#[derive(Clone, Default)]
struct GoingOn {
    named: UnitUse,
    used: Option<UnitUse>,
}

impl GoingOn {
    /// What the next step shows.
    fn shows(&mut self, step: &Step) -> Shows {
        if let Some(unit) = &step.unit {
            let whole = self.with_name(unit);
            self.named = UnitUse {
                setting: None,
                ground: None,
                ..whole.clone()
            };
            self.used = Some(whole);
        }
        let second = step.second.as_ref();
        Shows {
            unit: self.used.clone(),
            second: second.map(|second| self.with_name(second)),
        }
    }

    fn with_name(&self, unit: &UnitUse) -> UnitUse {
        if unit.names_one() {
            return unit.clone();
        }
        UnitUse {
            file: self.named.file.clone(),
            embedded: self.named.embedded.clone(),
            ..unit.clone()
        }
    }
}

/// What each of these steps shows, in their order.
fn shown_by<'a>(steps: impl Iterator<Item = &'a Step>) -> Vec<Shows> {
    let mut going_on = GoingOn::default();
    steps.map(|step| going_on.shows(step)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{parse_lesson, solve_steps};

    const LESSON: &str = r#"(lesson: 1, title: "Told", steps: [
        (title: "One", text: "{sweep}", unit: (file: "one.ron")),
        (title: "Two", text: "{sweep}", unit: (setting: (height_of_cut: "4 mm"))),
        (title: "Three", text: "{sweep}"),
        (title: "Four", text: "{sweep}", unit: (file: "two.ron"), second: (setting: (attitude: "5 deg"))),
    ])"#;

    /// What every step asks for, by its title: the files it would open and the heights it would try.
    fn shown(lesson: &Lesson) -> Vec<(String, Shows)> {
        let shows = shown_by(lesson.steps.iter());
        let titles = lesson.steps.iter().map(|step| step.title.clone());
        let mut by_title: Vec<_> = titles.zip(shows).collect();
        by_title.sort_by(|one, other| one.0.cmp(&other.0));
        by_title
    }

    /// Steps that go on behind others that do.
    const GOING_ON: &str = r#"(lesson: 1, title: "Told", steps: [
        (title: "A", text: "{sweep}", unit: (file: "one.ron")),
        (title: "B", text: "{sweep}"),
        (title: "C", text: "{sweep}", unit: (file: "two.ron")),
        (title: "D", text: "{sweep}", second: (setting: (attitude: "5 deg"))),
        (title: "E", text: "{sweep}"),
    ])"#;

    #[test]
    fn a_step_shows_what_it_showed_wherever_it_is_moved() {
        for text in [LESSON, GOING_ON] {
            let lesson = parse_lesson(text).expect("a lesson");
            let count = lesson.steps.len();
            for (from, to) in (0..count).flat_map(|from| (0..count).map(move |to| (from, to))) {
                let mut moved = lesson.clone();
                moved.move_step(from, to);
                assert_eq!(moved.steps[to].title, lesson.steps[from].title);
                assert_eq!(shown(&moved), shown(&lesson), "{from} to {to}");
                moved.check().expect("it makes sense still");
            }
            let mut same = lesson.clone();
            same.move_step(2, 2);
            assert_eq!(same, lesson, "and no more is written than was");
        }
    }

    #[test]
    fn a_step_behind_one_taken_out_shows_what_it_showed() {
        for text in [LESSON, GOING_ON] {
            let lesson = parse_lesson(text).expect("a lesson");
            for place in 0..lesson.steps.len() {
                let mut fewer = lesson.clone();
                fewer.take_step_out(place);
                let title = &lesson.steps[place].title;
                let rest: Vec<_> = shown(&lesson)
                    .into_iter()
                    .filter(|(other, _)| other != title)
                    .collect();
                assert_eq!(shown(&fewer), rest, "without {title}");
            }
        }
        let lesson = parse_lesson(LESSON).expect("a lesson");
        // And no unit is asked for that is not: the reader of files hears two names.
        let mut asked = Vec::new();
        let mut fewer = lesson.clone();
        fewer.take_step_out(0);
        let _ = solve_steps(&fewer, |name| {
            asked.push(name.to_owned());
            Err(String::new())
        });
        assert_eq!(asked, ["one.ron", "two.ron"]);
    }
}
