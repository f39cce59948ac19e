//! Lessons: what the shipped ones claim is so, what makes no sense is refused with its place, and one bad
//! step stops none of the others.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use sweepgauge::analysis::why::CrestLimits;
use sweepgauge::analysis::{FindingId, Level, NumberId, Solved};
use sweepgauge::drawing::{
    LessonPictures, Mark, Origin, Page, Role, STILL, Style, Theme, Words, handout_sheets,
};
use sweepgauge::lesson::{Lesson, LessonView, SolvedStep, StepProblem, read_lesson, solve_steps};
use sweepgauge::store::{open_unit, unit_beside, units_in};
use sweepgauge::units::Length;
use tempfile::TempDir;

use crate::common::pdf::{Pdf, packed};
use crate::common::program::{Run, program, ran};
use crate::lettering::faults;

pub(crate) const NAMES: [&str; 4] = [
    "behind-centre",
    "longer-knife",
    "worn-reel",
    "fairway-and-green",
];

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/lessons")
}

fn file(name: &str) -> PathBuf {
    folder().join(format!("{name}.lesson.ron"))
}

fn lesson(name: &str) -> (Lesson, Vec<SolvedStep>) {
    let lesson = read_lesson(&fs::read_to_string(file(name)).unwrap()).unwrap();
    let steps = solve_steps(&lesson, |unit| {
        open_unit(&folder().join(unit)).map_err(|problem| problem.to_string())
    });
    let steps = steps.into_iter().map(|step| step.expect("it is solved"));
    (lesson, steps.collect())
}

/// A shipped lesson as its pictures are made of it.
pub(crate) struct Pictured {
    pub(crate) lesson: Lesson,
    pub(crate) steps: Vec<Result<SolvedStep, StepProblem>>,
}

impl Pictured {
    pub(crate) fn of(name: &str) -> Self {
        let (lesson, steps) = lesson(name);
        let steps = steps.into_iter().map(Ok).collect();
        Self { lesson, steps }
    }

    /// The lesson, its steps, and their pictures standing still.
    pub(crate) fn parts(
        &self,
    ) -> (
        &Lesson,
        &[Result<SolvedStep, StepProblem>],
        LessonPictures<'_>,
    ) {
        let (lesson, steps) = (&self.lesson, &self.steps[..]);
        let clips = STILL;
        let pictures = LessonPictures {
            lesson,
            steps,
            clips,
        };
        (lesson, steps, pictures)
    }
}

fn number(solved: &Solved, id: NumberId) -> f64 {
    solved.solution.numbers().base(id).expect("there is one")
}

fn second(step: &SolvedStep) -> &Solved {
    step.second.as_ref().expect("a second unit")
}

fn level(solved: &Solved) -> Level {
    solved.findings.level_of(FindingId::Sweep).unwrap()
}

// What the shipped lessons claim.

#[test]
fn the_shipped_lessons_are_those_there_are_each_short_and_silent_first() {
    let there = fs::read_dir(folder()).unwrap();
    let there = there.filter_map(|entry| {
        let name = entry.unwrap().file_name().into_string().unwrap();
        name.strip_suffix(".lesson.ron").map(str::to_owned)
    });
    let mut there: Vec<String> = there.collect();
    there.sort();
    let mut named = NAMES;
    named.sort_unstable();
    assert_eq!(there, named);
    for name in NAMES {
        let (lesson, steps) = lesson(name);
        assert!((4..10).contains(&lesson.steps.len()), "{name}");
        assert!(lesson.steps[0].numbers.is_empty() && lesson.steps[0].text.len() < 90);
        for (step, solved) in lesson.steps.iter().zip(&steps) {
            let sentences = solved.text.matches(['.', '?', ':']).count();
            assert!(
                sentences > 0 && step.text.len() < 330,
                "{name}: {}",
                step.title
            );
        }
    }
}

/// Height of a segment of half chord 3/8 in on a circle of 3-1/2 in: `R − sqrt(R² − b²)`, handbooks of
/// mensuration. A sheet of paper as 0.004 in is from memory.
#[test]
fn behind_centre_ends_at_five_sheets_of_paper_and_four_times_the_share() {
    let (lesson, steps) = lesson("behind-centre");
    assert!(lesson.steps[0].motion);
    let on_centre = &steps[2].first;
    assert!(number(on_centre, NumberId::BehindCentre).abs() < 1e-9);
    assert!(number(on_centre, NumberId::SweepBelowCut).abs() < 1e-9);
    let sweep_in = 3.5 - (3.5_f64 * 3.5 - 0.375 * 0.375).sqrt();
    let answer = &steps[4];
    assert!((number(&answer.first, NumberId::SweepBelowCut) - 25.4 * sweep_in).abs() < 1e-9);
    assert!((sweep_in - 0.020).abs() < 0.0005);
    assert_eq!(
        (sweep_in / 0.004).round().to_string(),
        answer.numbers[1].shown
    );
    assert!(answer.text.contains("5 sheets of paper"), "{}", answer.text);
    let (half, eighth) = (&steps[5].first, second(&steps[5]));
    assert!((number(half, NumberId::HeightOfCut) - 12.7).abs() < 1e-9);
    assert!((number(eighth, NumberId::HeightOfCut) - 3.175).abs() < 1e-9);
    let shares = [half, eighth].map(|unit| number(unit, NumberId::SweepShare));
    assert!((shares[1] / shares[0] - 4.0).abs() < 1e-9);
    assert!(steps[5].text.contains(", 4 times as much"));
}

#[test]
fn a_longer_knife_leaves_half_the_distance_and_a_quarter_of_the_sweep() {
    let (lesson, steps) = lesson("longer-knife");
    // More attitude: further behind, deeper; less: nearer the plate.
    let (less, more) = (&steps[3].first, second(&steps[3]));
    for id in [
        NumberId::BehindCentre,
        NumberId::SweepBelowCut,
        NumberId::UndersideOverPlate,
    ] {
        assert!(number(more, id) > number(less, id), "{}", id.name());
    }
    let step = lesson
        .steps
        .iter()
        .position(|step| step.title.starts_with("Half the distance"));
    let step = &steps[step.expect("the step")];
    let part = |id| number(second(step), id) / number(&step.first, id);
    assert!((part(NumberId::BehindCentre) - 0.5).abs() < 0.005);
    assert!((part(NumberId::SweepBelowCut) - 0.25).abs() < 0.005);
    let same = [
        NumberId::Attitude,
        NumberId::HeightOfCut,
        NumberId::ReelDiameter,
    ];
    assert!(same.into_iter().all(|id| (part(id) - 1.0).abs() < 1e-9));
    // And the top face has to fall more, as the longer knife's does.
    let relief = |solved| number(solved, NumberId::TopAngleNeeded);
    assert!(relief(&step.first) < 0.0 && relief(second(step)) > 2.0);
    for knife in [&step.first, second(step)] {
        let level = knife.findings.level_of(FindingId::TopFace);
        assert_eq!(level, Some(Level::Fine));
    }
    // What it is asked after is what the longer knife alone changes.
    let (asked, forward) = (&steps[5].first, &steps[6].first);
    assert!(
        same.into_iter()
            .all(|id| (number(asked, id) - number(forward, id)).abs() < 1e-9)
    );
    let moved = number(forward, NumberId::Extension) - number(asked, NumberId::Extension);
    let came = number(asked, NumberId::BehindCentre) - number(forward, NumberId::BehindCentre);
    assert!(
        moved > 0.0 && (came / moved - 1.0).abs() < 0.05,
        "{came} of {moved}"
    );
}

#[test]
fn the_reel_nobody_touched_sweeps_deeper_at_the_same_height_and_attitude() {
    let (_, steps) = lesson("worn-reel");
    let (new, worn) = (&steps[3].first, second(&steps[3]));
    for id in [NumberId::HeightOfCut, NumberId::Attitude] {
        assert!(
            (number(new, id) - number(worn, id)).abs() < 1e-9,
            "{}",
            id.name()
        );
    }
    let rollers = [NumberId::FrontRollerMove, NumberId::RearRollerMove];
    assert!(rollers.into_iter().all(|id| number(worn, id).abs() < 1e-9));
    assert!(number(worn, NumberId::ReelDiameter) < number(new, NumberId::ReelDiameter));
    assert!(number(worn, NumberId::BehindCentre) > number(new, NumberId::BehindCentre));
    assert_eq!((level(new), level(worn)), (Level::Fine, Level::Watch));
    let (asked, back) = (&steps[4].first, &steps[5].first);
    assert_eq!(level(asked), Level::Watch, "the worn reel, as it was left");
    assert!(number(back, NumberId::Attitude) < number(asked, NumberId::Attitude));
    assert_eq!(level(back), Level::Fine, "less attitude puts it right");
}

#[test]
fn the_matched_pair_stands_equally_far_behind_and_a_crest_scalps_a_fine_unit() {
    let (_, steps) = lesson("fairway-and-green");
    let (fairway, green) = (&steps[2].first, second(&steps[2]));
    for id in [
        NumberId::BehindCentre,
        NumberId::SweepBelowCut,
        NumberId::Attitude,
    ] {
        assert!(
            (number(fairway, id) - number(green, id)).abs() < 1e-9,
            "{}",
            id.name()
        );
    }
    assert_eq!((level(fairway), level(green)), (Level::Fine, Level::Over));
    let put_right = &steps[3].first;
    for finding in [FindingId::Sweep, FindingId::TopFace] {
        let level = put_right.findings.level_of(finding);
        assert_eq!(level, Some(Level::Fine), "{finding:?}");
    }
    let crest = &steps[5].first;
    assert_eq!(level(crest), Level::Fine, "the sweep is fine");
    assert!(
        number(crest, NumberId::ReelOnGround) < 0.0,
        "and the reel is in the soil"
    );
    // The knife touches on gentler crests than the reel does, and both touch on this one.
    let limits = CrestLimits::of(&steps[6].first.case());
    let [knife, reel] = [limits.underside, limits.reel].map(|limit| limit.radius().unwrap());
    assert!(knife > reel && reel > Length::from_inches(48.0));
    assert!(
        steps[5]
            .text
            .contains("the reel is 0.0070 in into the soil")
    );
    assert!(number(crest, NumberId::UndersideOnGround) < number(crest, NumberId::ReelOnGround));
    assert!(
        number(&steps[4].first, NumberId::ReelOnGround) > 0.0,
        "on the level it is not"
    );
}

#[test]
fn the_units_of_the_lessons_are_no_lessons_and_lessons_no_units() {
    let units = units_in(&folder()).unwrap();
    assert_eq!(units.len(), 3, "{units:?}");
    for unit in units {
        open_unit(&unit).unwrap();
    }
}

// On the command line.

fn checked(file: &Path, more: &[&str]) -> Run {
    ran(program().arg("lesson").arg(file).arg("--check").args(more))
}

#[test]
fn a_check_tells_every_step_with_the_numbers_of_the_report() {
    for name in NAMES {
        let (lesson, steps) = lesson(name);
        let run = checked(&file(name), &["--json"]);
        assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{name}");
        let told: Value = serde_json::from_str(&run.out).unwrap();
        let told = told["steps"].as_array().unwrap();
        assert_eq!(told.len(), lesson.steps.len());
        for ((told, step), solved) in told.iter().zip(&lesson.steps).zip(&steps) {
            assert_eq!(told["title"], step.title.as_str());
            assert_eq!(told["text"], solved.text.as_str());
            assert!(!solved.text.contains(['{', '}']));
            let share = told["solution"]["sweep_share"].as_f64().unwrap();
            assert!((share - number(&solved.first, NumberId::SweepShare)).abs() < 1e-12);
            assert_eq!(told["solution"].as_object().unwrap().len(), 12);
            assert_eq!(told["second"].is_null(), solved.second.is_none());
            assert!(told["problem"].is_null());
        }
        let plain = checked(&file(name), &[]);
        assert_eq!(plain.code, Some(0));
        for solved in &steps {
            assert!(plain.out.contains(&solved.text), "{name}");
        }
        assert!(plain.out.contains("cut even when turned"), "the caution");
    }
    // The report of the file itself says the same.
    let report = ran(program()
        .arg("report")
        .arg(folder().join("seven-inch.ron"))
        .arg("--json"));
    let report: Value = serde_json::from_str(&report.out).unwrap();
    let check = checked(&file("behind-centre"), &["--json"]);
    let check: Value = serde_json::from_str(&check.out).unwrap();
    assert_eq!(check["steps"][4]["solution"], report["solution"]);
}

fn kept(folder: &TempDir, text: &str) -> PathBuf {
    for unit in ["seven-inch.ron", "matched-green.ron"] {
        let from = self::folder().join(unit);
        fs::copy(from, folder.path().join(unit)).unwrap();
    }
    let file = folder.path().join("told.lesson.ron");
    fs::write(&file, text).unwrap();
    file
}

fn of_steps(steps: &[&str]) -> String {
    format!(
        "(lesson: 1, title: \"Told\", steps: [{}])",
        steps.join(", ")
    )
}

const SOUND: &str = r#"(title: "One", text: "It sweeps {sweep}.", unit: (file: "seven-inch.ron"))"#;

#[test]
fn a_step_whose_unit_is_missing_or_impossible_is_told_with_its_reason_and_the_rest_goes_on() {
    let folder = TempDir::new().unwrap();
    let missing = r#"(title: "Two", text: "It sweeps {sweep}.", unit: (file: "gone.ron"))"#;
    let impossible = r#"(title: "Three", text: "It sweeps {sweep}.", unit: (file: "matched-green.ron", setting: (knife: "longer", extension: "5 in", reel_diameter: "4.6 in")))"#;
    let last = r#"(title: "Four", text: "It sweeps {sweep}.", unit: (file: "matched-green.ron"))"#;
    let told = |steps: &[&str]| {
        let file = kept(&folder, &of_steps(steps));
        let run = checked(&file, &["--json"]);
        let json: Value = serde_json::from_str(&run.out).unwrap();
        (run, json)
    };
    let (run, json) = told(&[SOUND, missing, impossible, last]);
    assert_eq!(run.code, Some(2), "{}", run.err);
    assert!(run.err.contains("2 of 4 steps"), "{}", run.err);
    let problem = |step: usize| json["steps"][step]["problem"].as_str();
    assert_eq!((problem(0), problem(3)), (None, None));
    assert!(problem(1).unwrap().contains("gone.ron"), "{json}");
    assert!(json["steps"][1]["solution"].is_null());
    assert!(problem(2).unwrap().contains("cannot"), "{json}");
    assert!(json["steps"][3]["solution"]["sweep_below_cut_mm"].is_f64());
    // Where geometry alone is at fault, its own code.
    let (run, _) = told(&[SOUND, impossible]);
    assert_eq!(run.code, Some(3), "{}", run.err);
    // A step that would go on with the missing unit says so too.
    let after = r#"(title: "Three", text: "And {behind_centre}.")"#;
    let (run, json) = told(&[SOUND, missing, after]);
    assert_eq!(run.code, Some(2));
    assert!(
        json["steps"][2]["problem"]
            .as_str()
            .unwrap()
            .contains("gone.ron")
    );
}

#[test]
fn what_a_unit_does_not_have_is_told_at_its_step() {
    let folder = TempDir::new().unwrap();
    let unit = fs::read_to_string(self::folder().join("seven-inch.ron")).unwrap();
    let speeds = r#"    mowing: (ground_speed: "4 mph", reel_speed: "1000 rpm"),"#;
    assert_eq!(unit.matches(speeds).count(), 1);
    let step = r#"(title: "One", text: "A clip every {clip_length}.", unit: (file: "still.ron"))"#;
    let file = kept(&folder, &of_steps(&[step, SOUND]));
    fs::write(folder.path().join("still.ron"), unit.replace(speeds, "")).unwrap();
    let run = checked(&file, &[]);
    assert_eq!(run.code, Some(2));
    assert!(
        run.out
            .contains("{clip_length} has no value: it needs ground speed"),
        "{}",
        run.out
    );
    assert!(run.out.contains("It sweeps 0.0201 in."));
    // A picture that it cannot have is told; its numbers are there all the same.
    let step =
        r#"(title: "One", text: "It sweeps {sweep}.", unit: (file: "still.ron"), motion: true)"#;
    let file = kept(&folder, &of_steps(&[step, SOUND]));
    let run = checked(&file, &[]);
    assert_eq!(run.code, Some(0), "{}", run.err);
    assert_eq!(run.out.matches("No picture: ").count(), 1, "{}", run.out);
    let json: Value = serde_json::from_str(&checked(&file, &["--json"]).out).unwrap();
    let why = json["steps"][0]["no_picture"].as_str().unwrap();
    assert!(why.contains("need both speeds"), "{why}");
    assert!(json["steps"][0]["solution"].is_object() && json["steps"][0]["problem"].is_null());
    assert!(json["steps"][1]["no_picture"].is_null());
}

#[test]
#[expect(
    clippy::too_many_lines,
    reason = "one flaw after the other, each with its place and its words"
)]
fn a_lesson_that_makes_no_sense_is_refused_with_its_place_and_what_would_be_right() {
    let folder = TempDir::new().unwrap();
    let with = |from: &str, to: &str| {
        assert!(SOUND.contains(from), "{from}");
        of_steps(&[&SOUND.replace(from, to)])
    };
    let many = vec![SOUND; 101];
    for (text, place, says) in [
        (
            with("{sweep}", "{depth}"),
            "steps[0].text",
            "there is no field {depth}; \"Insert a number\" in the Lesson area and sweepgauge lesson --help list them all",
        ),
        (with("{sweep}", "0.02 in"), "steps[0].text", "never typed"),
        (
            with("{sweep}", "{sweep"),
            "steps[0].text",
            "there is a brace by itself",
        ),
        (
            with("{sweep}", "{b.sweep}"),
            "steps[0].text",
            "no second unit",
        ),
        (
            with("It sweeps {sweep}.", ""),
            "steps[0].text",
            "write something here",
        ),
        (
            with("seven-inch.ron", "../seven-inch.ron"),
            "steps[0].unit.file",
            "in the lesson's own folder",
        ),
        (
            with("seven-inch.ron", "/etc/passwd"),
            "steps[0].unit.file",
            "in the lesson's own folder",
        ),
        (
            with("seven-inch.ron", "c:units.ron"),
            "steps[0].unit.file",
            "in the lesson's own folder",
        ),
        (
            with(r#", unit: (file: "seven-inch.ron")"#, ""),
            "steps[0].unit",
            "no step before this one has a unit",
        ),
        (
            with("title: \"One\"", "title: \"One\", view: SideBySide(Lens)"),
            "steps[0].view",
            "side by side needs a second unit",
        ),
        (
            with("title: \"One\"", "title: \"One\", view: Sideways"),
            "steps[0].view",
            "Whole, Lens, Ground",
        ),
        (
            with(
                "title: \"One\"",
                "title: \"One\", numbers: [\"sweep\", \"depth\"]",
            ),
            "steps[0].numbers[1]",
            "no field {depth}",
        ),
        (
            with(
                "title: \"One\"",
                "title: \"One\", numbers: [\"sweep\", \"sweep\", \"sweep\", \"sweep\", \"sweep\"]",
            ),
            "steps[0].numbers",
            "the most is 4",
        ),
        (
            with("title: \"One\"", "title: \"One\", colour: \"red\""),
            "steps[0]",
            "there is no field \"colour\"",
        ),
        (of_steps(&[]), "steps", "at least one step"),
        (
            of_steps(&many),
            "steps",
            "these are 101 steps; the most is 100",
        ),
        (
            "(lesson: 2, title: \"Told\", steps: [])".to_owned(),
            "lesson",
            "this program does not know lesson 2",
        ),
        (
            "(format: 1, name: \"unit\")".to_owned(),
            "",
            "this is a unit file, not a lesson",
        ),
        (
            String::new(),
            "lesson",
            "the file is empty; a lesson begins with (lesson: 1",
        ),
    ] {
        let file = kept(&folder, &text);
        let run = checked(&file, &[]);
        assert_eq!((run.code, run.out.as_str()), (Some(2), ""), "{text}");
        let wanted = format!("field {place}");
        assert!(run.err.contains(&wanted), "{text}: {}", run.err);
        assert!(run.err.contains(says), "{says}: {}", run.err);
        assert!(run.err.contains("told.lesson.ron:1:"), "{}", run.err);
    }
}

/// A link may lead anywhere: what stands in another folder is not read, and the step says so.
#[cfg(unix)]
#[test]
fn a_link_out_of_the_folder_is_not_followed_and_one_within_it_is() {
    let (folder, away) = (TempDir::new().unwrap(), TempDir::new().unwrap());
    let unit = self::folder().join("seven-inch.ron");
    let outside = away.path().join("away.ron");
    fs::copy(&unit, &outside).unwrap();
    let step = |title: &str, file: &str| {
        format!(r#"(title: "{title}", text: "It sweeps {{sweep}}.", unit: (file: "{file}"))"#)
    };
    let (leads_out, leads_back) = (step("Out", "out.ron"), step("Within", "within.ron"));
    let lesson = kept(&folder, &of_steps(&[&leads_out, &leads_back]));
    std::os::unix::fs::symlink(&outside, folder.path().join("out.ron")).unwrap();
    std::os::unix::fs::symlink("seven-inch.ron", folder.path().join("within.ron")).unwrap();
    let run = checked(&lesson, &["--json"]);
    assert_eq!(run.code, Some(2), "{}", run.err);
    let json: Value = serde_json::from_str(&run.out).unwrap();
    let why = json["steps"][0]["problem"].as_str().unwrap();
    assert!(why.contains("leads out of the folder"), "{why}");
    assert!(json["steps"][0]["solution"].is_null());
    assert_eq!(json["steps"][1]["text"], "It sweeps 0.0201 in.");
    // The lesson is found by a link of its own folder all the same.
    let linked = away.path().join("folder");
    std::os::unix::fs::symlink(folder.path(), &linked).unwrap();
    let run = checked(&linked.join("told.lesson.ron"), &[]);
    assert!(run.out.contains("It sweeps 0.0201 in."), "{}", run.out);
}

#[test]
fn an_embedded_unit_is_refused_as_in_its_own_file() {
    let text = fs::read_to_string(file("behind-centre")).unwrap();
    let line_of = |part: &str| 1 + text[..text.find(part).unwrap()].matches('\n').count();
    let edited = |from: &str, to: &str| {
        let at = text.find(from).unwrap();
        format!("{}{to}{}", &text[..at], &text[at + from.len()..])
    };
    let diameter = "reel_diameter: \"7 in\"";
    let problem = read_lesson(&edited(diameter, "reel_diameter: \"7\"")).unwrap_err();
    assert_eq!(problem.field, "steps[0].unit.embedded.bench.reel_diameter");
    assert_eq!(problem.line, line_of(diameter));
    let problem = read_lesson(&edited(diameter, "reel_diameter: \"-7 in\"")).unwrap_err();
    assert_eq!(problem.field, "steps[0].unit.embedded.bench.reel_diameter");
    assert_eq!(problem.line, line_of(diameter));
    assert!(problem.what.contains("more than zero"), "{problem}");
    let both = edited("embedded: (", "file: \"seven-inch.ron\", embedded: (");
    assert!(read_lesson(&both).unwrap_err().what.contains("not both"));
}

/// A lesson's file is opened once, and only by the name it gives: a unit of its own folder.
#[test]
fn each_unit_file_is_asked_for_once() {
    let (lesson, _) = lesson("fairway-and-green");
    let mut asked = Vec::new();
    let steps = solve_steps(&lesson, |name| {
        asked.push(name.to_owned());
        open_unit(&unit_beside(&file("fairway-and-green"), name)).map_err(|e| e.to_string())
    });
    assert!(steps.iter().all(Result::is_ok));
    asked.sort();
    assert_eq!(asked, ["matched-fairway.ron", "matched-green.ron"]);
    assert!(
        lesson
            .steps
            .iter()
            .any(|step| matches!(step.view, LessonView::SideBySide(_)))
    );
}

// The handout.

#[test]
fn a_handout_has_every_step_with_its_text_and_numbers_on_one_page_over_the_cautions() {
    let out = TempDir::new().unwrap();
    for name in NAMES {
        let (lesson, steps) = lesson(name);
        for page in ["a4", "letter"] {
            let out = out.path().join(format!("{name}-{page}.pdf"));
            let run = ran(program()
                .arg("lesson")
                .arg(file(name))
                .arg("--handout")
                .arg(&out)
                .args(["--page", page]));
            assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{name}");
            let pdf = Pdf::read(&fs::read(&out).unwrap());
            let pages: Vec<String> = (1..=pdf.pages()).map(|page| pdf.text(page)).collect();
            for text in &pages {
                assert!(text.contains(&packed("Block the reel and wear cut-resistant gloves")));
                assert!(text.contains(&packed(&lesson.title)));
                assert!(text.contains(&packed(&format!("{name}.lesson.ron"))));
            }
            for (step, solved) in lesson.steps.iter().zip(&steps) {
                let asks = step.numbers_hidden;
                let said = if asks {
                    &solved.text_asked
                } else {
                    &solved.text
                };
                let holds = |text: &&String| {
                    text.contains(&packed(said))
                        && text.contains(&packed(&step.title))
                        && solved.numbers.iter().all(|figure| {
                            let title = figure.title[1..].to_owned();
                            text.contains(&packed(&title))
                                && (asks || text.contains(&packed(&figure.shown)))
                        })
                };
                assert_eq!(
                    pages.iter().filter(holds).count(),
                    1,
                    "{name}: {}",
                    step.title
                );
                let is_note = !step.notes.is_empty()
                    && pages.iter().any(|text| text.contains(&packed(&step.notes)));
                assert!(!is_note, "the presenter's notes are for the presenter");
            }
            let pictures = pdf.tags().into_iter().filter(|(tag, _)| tag == "Figure");
            assert_eq!(pictures.count(), lesson.steps.len(), "{name}");
        }
    }
}

/// What a step hides is nowhere on paper before it is asked for: not in its picture, its text or its numbers.
#[test]
fn a_handout_asks_before_it_tells_and_answers_where_the_lesson_does_or_at_the_end() {
    let folder = TempDir::new().unwrap();
    let asking = r#"(title: "Asked", text: "It sweeps {sweep}, {sweep_share}. How deep?", unit: (file: "seven-inch.ron"), view: Lens, numbers: ["sweep", "sweep_share"], numbers_hidden: true)"#;
    let silent = r#"(title: "Silent", text: "Which way does it go?", numbers_hidden: true)"#;
    let telling =
        r#"(title: "Told", text: "It sweeps {sweep}.", view: Path, numbers_hidden: true)"#;
    let written = |steps: &[&str]| {
        let lesson = kept(&folder, &of_steps(steps));
        let out = folder.path().join("told.pdf");
        let run = ran(program()
            .arg("lesson")
            .arg(&lesson)
            .arg("--handout")
            .arg(&out));
        assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
        let pdf = Pdf::read(&fs::read(&out).unwrap());
        let pages: Vec<String> = (1..=pdf.pages()).map(|page| pdf.text(page)).collect();
        pages.concat()
    };
    let count = |text: &str, what: &str| text.matches(&packed(what)).count();
    let at_the_end = |text: &str| {
        let answers = text.split(&packed("Answers")).nth(1);
        answers.expect("answers at the end").to_owned()
    };
    // No step answers: once, at the end.
    let text = written(&[asking]);
    assert!(
        text.contains(&packed("It sweeps _____, _____. How deep?")),
        "{text}"
    );
    assert!(text.contains(&packed("Answer, sweep:")), "{text}");
    assert_eq!(count(&text, "Answered at the end."), 1);
    for (number, name) in [
        ("0.0201 in", "Sweep"),
        ("4.0 %", "Sweep as % of height of cut"),
    ] {
        assert_eq!(count(&text, number), 1, "{text}");
        let answers = at_the_end(&text);
        assert!(
            answers.contains(&packed(&format!("{name}{number}"))),
            "{answers}"
        );
    }
    // A step answers one of them, the end the other.
    let text = written(&[asking, silent, telling]);
    assert_eq!(count(&text, "Answered in step 3."), 1);
    assert_eq!(count(&text, "Answered at the end."), 1);
    let answers = at_the_end(&text);
    assert!(
        answers.contains(&packed("4.0 %")) && !answers.contains("0.0201"),
        "{answers}"
    );
    assert_eq!(count(&text, "0.0201 in"), 1, "{text}");
    // A question that is no number has a line to write on.
    let after = text.split(&packed("Which way does it go?")).nth(1).unwrap();
    assert!(after.starts_with(&packed("Answer:")), "{after}");
    // And no picture of a step that asks has a digit, in any shipped lesson.
    for name in NAMES {
        let shipped = Pictured::of(name);
        let (lesson, _, pictures) = shipped.parts();
        let asking = lesson.steps.iter().filter(|step| step.numbers_hidden);
        let titles: Vec<_> = asking.map(|step| step.title.as_str()).collect();
        assert!(!titles.is_empty(), "{name}");
        for sheet in handout_sheets(pictures, &Origin::default(), Page::A4) {
            let figures = sheet.figures.iter();
            for figure in figures.filter(|figure| titles.contains(&figure.told.as_str())) {
                let panels = sheet.panels[figure.panels.clone()].iter();
                let words = panels
                    .flat_map(|panel| &panel.marks)
                    .filter_map(|mark| match mark {
                        Mark::Text { text, .. } => Some(text),
                        _ => None,
                    });
                let has_digit = |text: &&String| text.contains(|c: char| c.is_ascii_digit());
                // What is set stays, where the two are told apart by it.
                let is_set = |text: &&String| text.starts_with("height of cut 0.");
                let told: Vec<_> = words
                    .filter(has_digit)
                    .filter(|text| !is_set(text))
                    .collect();
                assert!(told.is_empty(), "{name}, {}: {told:?}", figure.told);
            }
        }
    }
}

#[test]
fn words_of_a_handout_stand_on_none_and_stay_on_their_paper() {
    let mut all = Vec::new();
    for name in NAMES {
        let shipped = Pictured::of(name);
        let (_, _, pictures) = shipped.parts();
        let sheets = handout_sheets(pictures, &Origin::default(), Page::A4);
        assert!(sheets.len() > 1);
        for sheet in sheets {
            let faults = faults(&sheet.panels).into_iter();
            all.extend(faults.map(|fault| format!("{name}: {fault}")));
        }
    }
    all.truncate(12);
    assert!(all.is_empty(), "{all:#?}");
}

/// Where the knife is the matter, its lip is measured and the sweep is not told.
#[test]
fn a_lens_at_the_lip_measures_the_underside_and_the_relief_and_not_the_sweep() {
    let shipped = Pictured::of("longer-knife");
    let (lesson, steps, pictures) = shipped.parts();
    let place = kurbo::Rect::new(0.0, 0.0, 1000.0, 500.0);
    let words = |step: usize| -> Vec<String> {
        let solved = steps[step].as_ref().unwrap();
        let few = Style {
            words: Words::Few,
            ..Style::from(Theme::Light)
        };
        let panels = pictures.panels(&lesson.steps[step], solved, place, few);
        let marks = panels.unwrap().into_iter().flat_map(|panel| panel.marks);
        let words = marks.filter_map(|mark| match mark {
            Mark::Text { text, .. } => Some(text),
            _ => None,
        });
        words.collect()
    };
    for (step, told) in [
        (4, ["underside 0.0291 in", "underside 0.0460 in"]),
        (8, ["no relief needed", "relief needed 3.33°"]),
    ] {
        let words = words(step);
        for told in told {
            assert!(words.iter().any(|text| text == told), "{told}: {words:?}");
        }
        assert!(
            !words.iter().any(|text| text.contains("sweep")),
            "{words:?}"
        );
    }
    assert!(words(7).iter().any(|text| text.contains("sweep 0.0051 in")));
}

/// What is held still stands in one place on the paper of every step that shows the same.
#[test]
fn the_edge_that_is_held_stands_still_from_step_to_step() {
    let shipped = Pictured::of("worn-reel");
    let (lesson, steps, pictures) = shipped.parts();
    let place = kurbo::Rect::new(0.0, 0.0, 1000.0, 600.0);
    let clip = |step: usize| {
        let solved = steps[step].as_ref().unwrap();
        let panels = pictures.panels(&lesson.steps[step], solved, place, Theme::Light.into());
        let marks = panels.unwrap().into_iter().flat_map(|panel| panel.marks);
        let mut rings = marks.filter_map(|mark| match mark {
            Mark::Stroke {
                role: Role::Clip,
                path,
                ..
            } => Some(path),
            _ => None,
        });
        let ring = rings.next_back().expect("the ring about the clip point");
        kurbo::Shape::bounding_box(&ring).center()
    };
    let (new, worn) = (clip(1), clip(2));
    // In light contact the clip point is the edge.
    assert!((new - worn).hypot() < 1e-6, "{new:?} {worn:?}");
}

#[test]
fn a_handout_tells_a_step_without_numbers_and_is_written_all_the_same() {
    let folder = TempDir::new().unwrap();
    let missing = r#"(title: "Two", text: "It sweeps {sweep}.", unit: (file: "gone.ron"))"#;
    let lesson = kept(&folder, &of_steps(&[SOUND, missing]));
    let out = folder.path().join("told.pdf");
    let asked = |out: &Path| {
        ran(program()
            .arg("lesson")
            .arg(&lesson)
            .arg("--handout")
            .arg(out))
    };
    let run = asked(&out);
    assert_eq!(run.code, Some(2));
    assert!(run.err.contains("1 of 2 steps"), "{}", run.err);
    let text = Pdf::read(&fs::read(&out).unwrap()).text(1);
    assert!(text.contains(&packed("Not shown")) && text.contains("gone.ron"));
    assert!(text.contains(&packed("It sweeps 0.0201 in.")));
    // Only a PDF.
    let other = folder.path().join("told.png");
    let run = asked(&other);
    assert_eq!(run.code, Some(2));
    assert!(run.err.contains(".pdf") && !other.exists());
}

/// The lesson that the README shows is one, and its step is worked out.
#[test]
fn the_lesson_of_the_readme_is_read_and_solved() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = fs::read_to_string(top.join("README.md")).unwrap();
    let part = readme
        .split("## Lessons")
        .nth(1)
        .expect("the part on lessons");
    let text = part.split("```ron\n").nth(1).expect("a lesson");
    let text = text.split("```").next().unwrap();
    let folder = TempDir::new().unwrap();
    let run = checked(&kept(&folder, text), &[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    let told =
        "The edge stands 3/8 in behind centre and sweeps 0.0201 in, 4.0 % of the height of cut.";
    assert!(run.out.contains(told), "{}", run.out);
}

// From step to step.

/// All of what a picture's strokes and fills draw.
fn drawn(panels: &[sweepgauge::drawing::Panel]) -> Vec<&Mark> {
    let marks = panels.iter().flat_map(|panel| &panel.marks);
    marks
        .filter(|mark| !matches!(mark, Mark::Text { .. }))
        .collect()
}

#[test]
fn between_two_steps_the_picture_moves_through_poses_that_are_solved_and_begins_and_ends_with_the_steps()
 {
    let place = kurbo::Rect::new(0.0, 0.0, 1000.0, 500.0);
    let mut moving = 0;
    for name in NAMES {
        let shipped = Pictured::of(name);
        let (lesson, steps, pictures) = shipped.parts();
        for (from, to) in (1..steps.len()).map(|to| (to - 1, to)) {
            let Some(moved) = pictures.step_move(from, to) else {
                continue;
            };
            if !moved.can_be() {
                continue;
            }
            moving += 1;
            let ends = [(0.0, from), (1.0, to)].map(|(part, step)| {
                let end = moved.at(part).expect("an end");
                let own = steps[step].as_ref().unwrap();
                assert_eq!(end.first.id, own.first.id, "{name} {step}");
                let told = format!("{name}, step {to} at {part}");
                let panels = |solved: &SolvedStep| {
                    let step = &lesson.steps[to];
                    pictures
                        .panels(step, solved, place, Theme::Light.into())
                        .expect(&told)
                };
                let (end, own) = (panels(&end), panels(own));
                assert_eq!(end, own, "{told}");
                end
            });
            assert_ne!(drawn(&ends[0]), drawn(&ends[1]), "{name} {to}: it moves");
            for part in (1..20).map(|part| f64::from(part) / 20.0) {
                let on_the_way = moved.at(part).expect("a pose");
                let numbers = on_the_way.first.solution.numbers();
                for id in [
                    NumberId::Attitude,
                    NumberId::HeightOfCut,
                    NumberId::ReelDiameter,
                ] {
                    let ends =
                        [from, to].map(|step| number(&steps[step].as_ref().unwrap().first, id));
                    let (least, most) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
                    let base = numbers.base(id).unwrap();
                    assert!(
                        (least - 1e-9..=most + 1e-9).contains(&base),
                        "{name} {to}: {}",
                        id.name()
                    );
                }
                assert_eq!(on_the_way.text, steps[to].as_ref().unwrap().text);
            }
        }
    }
    assert!(moving >= 2, "{moving} steps move");
}

#[test]
fn a_picture_of_another_kind_is_cut_over_to() {
    let (lesson, steps) = lesson("fairway-and-green");
    let steps: Vec<_> = steps.into_iter().map(Ok).collect();
    let pictures = LessonPictures {
        lesson: &lesson,
        steps: &steps,
        clips: 0.0,
    };
    // From side by side to the lens alone, from the ground to the budget, and to no step.
    for (from, to) in [(2, 3), (5, 6), (6, 7)] {
        assert!(pictures.step_move(from, to).is_none(), "{from} to {to}");
    }
    // The same units in the same lens: there is a way, and nothing moves on it.
    assert!(!pictures.step_move(1, 2).expect("a way").can_be());
}

/// Steps that show the same are drawn at one scale, whatever their words leave of the paper's height.
#[test]
fn a_lens_keeps_its_scale_from_step_to_step_whatever_the_words_leave_it() {
    for (name, at) in [("behind-centre", 2), ("worn-reel", 1), ("longer-knife", 1)] {
        let shipped = Pictured::of(name);
        let (lesson, steps, pictures) = shipped.parts();
        for wide in [980.0, 1880.0] {
            let scale = |step: usize, part: f64| -> String {
                let place = kurbo::Rect::new(0.0, 0.0, wide, part * wide);
                let solved = steps[step].as_ref().unwrap();
                let style = Style {
                    text: wide / 700.0,
                    ..Style::from(Theme::Light)
                };
                let panels = pictures.panels(&lesson.steps[step], solved, place, style);
                let marks = panels.unwrap().into_iter().flat_map(|panel| panel.marks);
                let mut titles = marks.filter_map(|mark| match mark {
                    Mark::Text { text, .. } if text.starts_with("Lens A") => Some(text),
                    _ => None,
                });
                titles.next().expect("its title")
            };
            let first = scale(at, 0.31);
            for part in [0.34, 0.4, 0.5] {
                assert_eq!(scale(at, part), first, "{name}, {wide}, {part}");
                assert_eq!(scale(at + 1, part), first, "{name}, {wide}, {part}");
            }
        }
    }
}

/// Wherever a step shows the unit of the one before in the same view with something else set.
#[test]
fn the_steps_that_move_are_the_knife_slid_back_the_unit_turned_the_reel_worn_and_the_ground_raised()
{
    let mut moving = Vec::new();
    for name in NAMES {
        let shipped = Pictured::of(name);
        let (lesson, steps, pictures) = shipped.parts();
        for at in 1..steps.len() {
            let [one, other] = [at - 1, at].map(|at| steps[at].as_ref().unwrap());
            let moves = pictures
                .step_move(at - 1, at)
                .is_some_and(|moved| moved.can_be());
            if moves {
                moving.push((name, at + 1));
            }
            // None that could is left out.
            let [is_alike, is_other] = [
                lesson.steps[at - 1].view == lesson.steps[at].view
                    && lesson.steps[at - 1].motion == lesson.steps[at].motion,
                one.first.unit.setting != other.first.unit.setting
                    || one.first.unit.shape != other.first.unit.shape,
            ];
            let is_chart = lesson.steps[at].view == LessonView::Budget;
            assert!(
                moves || !is_alike || !is_other || is_chart,
                "{name}, step {}",
                at + 1
            );
        }
    }
    let told = [
        ("behind-centre", 4),
        ("longer-knife", 3),
        ("longer-knife", 7),
        ("worn-reel", 3),
        ("worn-reel", 6),
        ("fairway-and-green", 6),
    ];
    assert_eq!(moving, told);
}
