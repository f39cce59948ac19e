//! Advice as it is shown, typed back: it clears its finding and makes no other one worse.

use proptest::prelude::*;
use sweepgauge::analysis::advice::{Certainty, Way};
use sweepgauge::analysis::knives::LipLeft;
use sweepgauge::analysis::{FindingId, Findings, Level, Solved};
use sweepgauge::unit::{Document, Field, Fitted, KnifePart, Limits, Reading, Turf, read_text};
use sweepgauge::units::{Length, Quantity, Rollers, System, Value};

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;
use crate::common::example::{EXAMPLE, example};

fn document(text: &str) -> Document {
    read_text(text).unwrap_or_else(|problem| panic!("{problem}\n{text}"))
}

fn solved(document: &Document) -> Solved {
    Solved::of(document).unwrap()
}

/// What rollers that stand wrong by so little do to the number of a finding: a share or a ratio of the
/// height of cut by as much more as the height is less, an angle over a lever of 100 mm, shorter than
/// from roller to roller on any of these units.
fn rounding(solved: &Solved, id: FindingId, by_mm: f64) -> f64 {
    let Some(judged) = Findings::judged(&solved.case(), id) else {
        return 0.0;
    };
    let height_mm = solved.solution.pose.height_of_cut.mm();
    match judged.value {
        Value::Share(_) | Value::Ratio(_) => by_mm * (1.0 + judged.value.base().abs()) / height_mm,
        Value::Angle(_) => (by_mm / 100.0).to_degrees(),
        _ => by_mm,
    }
}

/// Less than anybody reads of any number, in its base unit: an edge carried up by a hundredth of a
/// micrometre makes no finding worse.
const UNREAD: f64 = 1e-7;

/// Every finding that stands worse than before: at a worse level, or past a limit and further by
/// more than so much does.
fn worsened(before: &Solved, after: &Solved, by_rounding_mm: f64) -> Vec<FindingId> {
    let margin = |solved: &Solved, id| {
        let judged = Findings::judged(&solved.case(), id)?;
        let value = judged.value.base();
        judged
            .limits()
            .map(|bound| bound.margin(value))
            .reduce(f64::min)
    };
    let is_worse = |id: &FindingId| {
        let level = |solved: &Solved| solved.findings.level_of(*id).unwrap_or(Level::Fine);
        let (was, is) = (level(before), level(after));
        let further = || match (margin(before, *id), margin(after, *id)) {
            (Some(was), Some(is)) => is < was - rounding(before, *id, by_rounding_mm).max(UNREAD),
            _ => false,
        };
        is > was || is == was && is > Level::Fine && further()
    };
    FindingId::ALL.into_iter().filter(is_worse).collect()
}

/// A move as it is told, in a reader's units, read back.
fn told_move(by: Length, system: System) -> Length {
    let told = system.roller_move(by);
    let size = |text: &str| Quantity::<Length>::parse(text).unwrap().value();
    match told.split_once(' ') {
        Some(("raise", length)) => size(length),
        Some(("lower", length)) => -size(length),
        _ => Length::ZERO,
    }
}

/// The documents that a person has who types what a way says; each is to hold. Every quantity that
/// is typed stands in the text.
fn typed(before: &Solved, way: &Way, text: &str, system: System) -> Vec<Document> {
    let pose = &before.solution.pose;
    let set = |field: Field, value: Value| {
        let shown = value.shown_in(system);
        assert!(text.contains(&shown), "{shown} is not told: {text}");
        let mut document = (*before.document).clone();
        // Where the rollers set it, a person goes over to attitude and height first; else what is not
        // typed goes on following the bench.
        let is_of_stance = matches!(field, Field::WantedAttitude | Field::WantedHeightOfCut);
        if is_of_stance && document.setting.rollers.is_some() {
            document.set_stance(pose.as_wanted(), before.unit.system);
        }
        field.set(&mut document, &shown, system).unwrap();
        document
    };
    let moved = |front: Length, rear: Length| {
        let mut document = (*before.document).clone();
        let stance = sweepgauge::geometry::Stance::Rollers {
            front_move: pose.front_roller.moved + told_move(front, system),
            rear_move: pose.rear_roller.moved + told_move(rear, system),
        };
        document.set_stance(stance, system);
        document
    };
    match *way {
        Way::Attitude {
            to, front, rear, ..
        } => {
            for (rollers, by) in [(Rollers::Front, front), (Rollers::Rear, rear)] {
                assert!(text.contains(&system.move_of(rollers, by)), "{text}");
            }
            vec![set(Field::WantedAttitude, to.into()), moved(front, rear)]
        }
        Way::HeightOfCut { to, rollers, .. } => {
            let told = system.move_of(Rollers::Both, rollers);
            assert!(text.contains(&told), "{text}");
            vec![
                set(Field::WantedHeightOfCut, to.into()),
                moved(rollers, rollers),
            ]
        }
        Way::GroundSpeed(to, _) => vec![set(Reading::GroundSpeed.into(), to.into())],
        Way::ReelSpeed(to, _) => vec![set(Reading::ReelSpeed.into(), to.into())],
        Way::LightContact(_) => {
            let mut document = (*before.document).clone();
            Field::WantedGap.set(&mut document, "0", system).unwrap();
            vec![document]
        }
        Way::TopAngle(to, _) => {
            let top_angle = Reading::Knife(before.unit.fitted, KnifePart::TopAngle);
            vec![set(top_angle.into(), to.into())]
        }
        Way::Trued(_) | Way::RollersTrue(_) => {
            let mut document = (*before.document).clone();
            let readings = [
                Reading::FrontRunout,
                Reading::RearRunout,
                Reading::EndDifference,
            ];
            let has_ends = matches!(way, Way::Trued(_));
            for reading in &readings[..if has_ends { 3 } else { 2 }] {
                let reading = *reading;
                Field::from(reading)
                    .set(&mut document, "0", system)
                    .unwrap();
            }
            vec![document]
        }
        Way::Other(told) => {
            assert!(text.contains(told), "{told} is not told: {text}");
            look_at_other(before, told);
            Vec::new()
        }
    }
}

/// What is told besides gives no number that could be typed back; what it says of another knife is so.
fn look_at_other(before: &Solved, told: &str) {
    let has_number = told.contains(|c: char| c.is_ascii_digit() || c == '{');
    assert!(!has_number, "{told}");
    let with = |part: KnifePart, by: &dyn Fn(Length) -> Length| {
        let mut document = (*before.document).clone();
        // Another knife beside the one measured: of that one nobody changes a measure.
        let mut knife = document.knife_at(before.unit.fitted).unwrap().clone();
        "another".clone_into(&mut knife.name);
        // Ground as the fitted one is, so that it differs by one measure alone.
        let set = &document.setting;
        knife.top_ground = set.top_ground.clone().or(knife.top_ground);
        knife.face_ground = set.face_ground.clone().or(knife.face_ground);
        document.options.push(knife);
        let place = Fitted::Option(document.options.len() - 1);
        let field = Field::from(Reading::Knife(place, part));
        let now = Quantity::<Length>::parse(&field.text(&document).unwrap()).unwrap();
        let system = System::Millimetre;
        let exactly = Quantity::exactly(by(now.value()), system).shown_in(system);
        field.set(&mut document, &exactly, system).unwrap();
        document.fit_knife(place);
        Solved::of(&document)
    };
    let sweep = |solved: &Solved| solved.solution.sweep.below_cut;
    let reach = |mm: f64| with(KnifePart::Reach, &|reach| reach + Length::from_mm(mm));
    let level = |solved: &Solved, id| solved.findings.level_of(id).unwrap_or(Level::Fine);
    let is_past = |id| level(before, id) > Level::Fine;
    let (unit, knife) = (&before.unit, before.unit.setting.knife);
    let reel = unit.setting.reel_diameter;
    match told {
        "A knife with a longer reach sweeps less; so does a thinner one at less attitude." => {
            assert!(is_past(FindingId::Sweep));
            assert!(sweep(&reach(0.1).unwrap()) < sweep(before), "{told}");
            let mut less = (*before.document).clone();
            less.set_stance(before.solution.pose.as_wanted(), unit.system);
            // Rollers can set more attitude than anyone types.
            let attitude = before.solution.pose.attitude.deg().min(30.0) - 0.5;
            let field = Field::WantedAttitude;
            field
                .set(&mut less, &format!("{attitude} deg"), unit.system)
                .unwrap();
            // More attitude carries the edge further behind centre, wherever it stands.
            assert!(sweep(&solved(&less)) < sweep(before), "{told}");
        }
        "A knife with a shorter reach sweeps less." => {
            assert!(is_past(FindingId::Sweep));
            assert!(sweep(&reach(-0.1).unwrap()) < sweep(before), "{told}");
        }
        "A knife with a thinner lip would clear it." => {
            let clears = |part: f64| {
                with(KnifePart::LipThickness, &|lip| lip * part).is_ok_and(|after| {
                    level(&after, FindingId::Lip) == Level::Fine
                        && worsened(before, &after, 1e-6).is_empty()
                })
            };
            assert!(is_past(FindingId::Lip));
            assert!(
                (1..100).any(|part| clears(f64::from(part) / 100.0)),
                "{told}"
            );
        }
        "It needs another knife." => {
            let lip = LipLeft::of(&knife, &unit.grinding);
            let is_gone = lip.thickness.mm() <= 0.0 || lip.length.mm() <= 0.0;
            assert!(is_past(FindingId::Lip) && is_gone, "{lip:?}");
        }
        "It needs a new reel." => assert!(reel < unit.smallest_diameter, "{told}"),
        told if told.starts_with("Measure it again: ") => {
            assert!(reel > unit.new_diameter, "{told}");
            assert_by_hand(told);
        }
        told if told.starts_with("Check how far the brackets go, ") => {
            assert!(is_past(FindingId::Rollers));
            assert_by_hand(told);
        }
        told if told.starts_with("Adjust reel to knife, ") => {
            assert!(is_past(FindingId::Gap));
            assert_by_hand(told);
            assert!(
                told.contains("reel drive disconnected") && told.contains("clear of every blade")
            );
        }
        told if told.starts_with("Grind the top face to a larger angle, ") => {
            assert!(is_past(FindingId::TopFace));
            assert!(told.contains("knife off the machine") && told.contains("guards on"));
            assert!(told.contains("eye, hearing and dust protection"), "{told}");
        }
        told => panic!("nobody looked whether this is so: {told}"),
    }
}

/// What is done by hand at the machine says what makes it safe.
fn assert_by_hand(told: &str) {
    for safe in [
        "engine off, key out",
        "reel blocked",
        "cut-resistant gloves on",
    ] {
        assert!(told.contains(safe), "{safe}: {told}");
    }
}

/// A knife of the file that advice names clears the finding once it is fitted, all else as it is set.
fn fit_named(before: &Solved, finding: FindingId, place: Fitted, text: &str) {
    let mut document = (*before.document).clone();
    let name = document.knife_at(place).unwrap().name.clone();
    assert!(text.contains(&format!("\"{name}\"")), "{name}: {text}");
    assert_ne!(place, before.unit.fitted);
    // The attitude stays, whatever the knife is measured against.
    document.set_stance(before.solution.pose.as_wanted(), before.unit.system);
    document.fit_knife(place);
    let after = solved(&document);
    let level = after.findings.level_of(finding).unwrap_or(Level::Fine);
    assert_eq!(level, Level::Fine, "{finding}: {text}");
    assert_eq!(worsened(before, &after, 1e-6), [], "{finding}: {text}");
}

/// Types every advice of a unit back, in all systems; how many there were.
fn type_back(document: &Document) -> Result<u32, TestCaseError> {
    let before = solved(document);
    let mut typed_back = 0;
    for finding in before.findings.iter() {
        for system in System::ALL {
            let Some(advice) = before.advice(finding.id, system) else {
                prop_assert_eq!(finding.level, Level::Fine);
                continue;
            };
            let text = advice.shown_in(system);
            prop_assert!(!text.is_empty(), "{}: nothing is told", finding.id);
            if let Some(place) = advice.knife {
                fit_named(&before, finding.id, place, &text);
            }
            for way in &advice.ways {
                for (place, document) in typed(&before, way, &text, system).into_iter().enumerate()
                {
                    let after = solved(&document);
                    let level = after.findings.level_of(finding.id);
                    prop_assert!(
                        level.is_none_or(|level| level == Level::Fine),
                        "{}: still {:?} after {:?} ({:?})",
                        finding.id,
                        level,
                        way,
                        system
                    );
                    // What is told to clear it is sure to: neither is it undecided, nor one that was not.
                    let claims = way.certainty() == Some(Certainty::Sure);
                    let says_open = text.contains("undecided: a limit lies within the ±");
                    let reads_only = way.certainty() == Some(Certainty::Reads);
                    prop_assert!(says_open || !reads_only, "{}: {:?}", finding.id, text);
                    if claims && place == 0 {
                        let is_open = |solved: &Solved, id| {
                            let found = solved.findings.get(id);
                            found.is_some_and(|found| found.doubt.is_some())
                        };
                        let made_open = |id: &FindingId| {
                            let was_sure = !is_open(&before, *id)
                                && before.findings.level_of(*id) == Some(Level::Fine);
                            is_open(&after, *id) && (*id == finding.id || was_sure)
                        };
                        let open: Vec<_> = FindingId::ALL.into_iter().filter(made_open).collect();
                        prop_assert!(
                            open.is_empty(),
                            "{:?} leaves {:?} undecided: {}",
                            way,
                            open,
                            text
                        );
                    }
                    // Roller moves are read to half a thou, which moves what is past its limit.
                    let by_rounding_mm = if place == 0 { 1e-6 } else { 0.05 };
                    let worse = worsened(&before, &after, by_rounding_mm);
                    prop_assert!(
                        worse.is_empty(),
                        "{}: {:?} makes {:?} worse",
                        finding.id,
                        way,
                        worse
                    );
                    typed_back += 1;
                }
            }
        }
    }
    Ok(typed_back)
}

prop_compose! {
    fn closing()(
        way in 0..6,
        lean in -25.0..25.0,
        ahead in prop_oneof![60.0..200.0, -200.0..-60.0],
        above in 20.0..120.0,
    ) -> String {
        match way {
            0 => "ReelSlides(lean: None)".to_owned(),
            1 => format!("ReelSlides(lean: Some(\"{lean} deg\"))"),
            2 => "KnifeSlides(lean: None)".to_owned(),
            3 => format!("KnifeSlides(lean: Some(\"{lean} deg\"))"),
            4 => format!("ReelPivots(ahead: \"{ahead} mm\", above: \"{above} mm\")"),
            _ => format!("KnifePivots(ahead: \"{ahead} mm\", above: \"{above} mm\")"),
        }
    }
}

prop_compose! {
    /// Setting, ground, wear and limits: whatever is judged beside the unit itself.
    fn around()(
        (front_move, rear_move, given) in (-4.0..4.0, -4.0..4.0, 0..8),
        (ground_speed, reel_speed) in (2.0..9.0, 300.0..2200.0),
        sink in prop_oneof![2 => Just((0.0, None)), 1 => (0.0..2.0, proptest::option::of(0.0..2.0))],
        ground in proptest::option::of((0.0..1.5, 0.0..3.0)),
        shape in prop_oneof![2 => Just("Level".to_owned()),
            1 => (3.0..40.0).prop_map(|r| format!("Crest(\"{r} m\")")),
            1 => (3.0..40.0).prop_map(|r| format!("Hollow(\"{r} m\")"))],
        wear in prop_oneof![Just((0.0, 0.0, 0.0)), (0.0..0.6, 0.0..0.6, 0.0..1.5)],
        range in proptest::option::weighted(0.3, (-3.0..5.0, 1.0..9.0)),
        least_behind in proptest::option::weighted(0.2, 0.0..8.0),
        height_of_cut in proptest::option::weighted(0.5, 2.5..40.0),
    ) -> String {
        let front = format!("front_move: \"{front_move} mm\", ");
        let rear = format!("rear_move: \"{rear_move} mm\"");
        let height = height_of_cut
            .map_or_else(String::new, |mm| format!("height_of_cut: Some(\"{mm} mm\"), "));
        let rollers = match given {
            0 | 1 => format!("rollers: Some(({front}{rear})), "),
            2 => format!("{height}rollers: Some(({front})), "),
            3 => format!("{height}rollers: Some(({rear})), "),
            _ => height,
        };
        let ground = ground.map_or_else(String::new, |(top, face)| {
            format!("top_ground: Some(\"{top} mm\"), face_ground: Some(\"{face} mm\")")
        });
        let (sink, rear_sink) = sink;
        let rear_sink = rear_sink
            .map_or_else(String::new, |mm: f64| format!("rear_sink: \"{mm} mm\", "));
        let range = range.map_or_else(String::new, |(low, wide)| {
            format!("attitude_range: Some((low: \"{low} deg\", high: \"{} deg\")), ", low + wide)
        });
        let behind = least_behind
            .map_or_else(String::new, |mm| format!("behind_centre: Some(\"{mm} mm\")"));
        let (front, rear, ends) = wear;
        format!(
            "setting: ({rollers}{ground}),
             mowing: Some((ground_speed: \"{ground_speed} km/h\", reel_speed: \"{reel_speed} rpm\")),
             ground: (roller_sink: \"{sink} mm\", {rear_sink}shape: {shape}),
             wear: (front_runout: \"{front} mm\", rear_runout: \"{rear} mm\", end_difference: \"{ends} mm\"),
             limits: Some(({range}{behind})),"
        )
    }
}

prop_compose! {
    /// Units of which most have findings past their limits.
    fn unit_text()(
        turf in prop_oneof![Just("Green"), Just("Tee"), Just("Fairway"), Just("Rough")],
        (reel, worn, blades) in (100.0..260.0, 0.88..1.02, 5..15),
        (height, attitude, behind) in (2.5..40.0, -1.0..10.0, -3.0..14.0),
        (front, ahead) in (40.0..110.0, 80.0..200.0),
        (rear, back) in (40.0..110.0, 60.0..160.0),
        (reach, width) in (30.0..60.0, 50.0..80.0),
        (lip, lip_length, body) in (1.5..6.0, 8.0..25.0, 4.0..12.0),
        hardware in proptest::option::of((5.0..60.0, 3.0..14.0)),
        closing in closing(),
        around in around(),
        (gap, relief, leaning) in (
            prop_oneof![2 => Just(0.0), 1 => 0.0..0.2],
            proptest::option::of(-2.0..9.0),
            proptest::option::of(-3.0..15.0),
        ),
        is_inch in any::<bool>(),
    ) -> String {
        let hardware = hardware.map_or_else(String::new, |(behind, below)| {
            format!("(behind: \"{behind} mm\", below: \"{below} mm\")")
        });
        let relief = relief
            .map_or_else(String::new, |deg: f64| format!(", top_angle: \"{deg} deg\""));
        let leaning = leaning
            .map_or_else(String::new, |deg: f64| format!(", front_angle: \"{deg} deg\""));
        let height = if is_inch {
            format!("{} in", height / 25.4)
        } else {
            format!("{height} mm")
        };
        format!(
            "(format: 1, name: \"a unit\", turf: {turf},
              reel: (new_diameter: \"{reel} mm\", smallest_diameter: \"{} mm\", blades: {blades}),
              bench: (reel_diameter: \"{} mm\", height_of_cut: \"{height}\", attitude: \"{attitude} deg\",
                behind_centre: \"{behind} mm\", gap: \"{gap} mm\",
                front_roller: (diameter: \"{front} mm\", ahead: \"{ahead} mm\"),
                rear_roller: (diameter: \"{rear} mm\", behind: \"{back} mm\")),
              closing: {closing},
              knife: (name: \"plain\", reach: \"{reach} mm\", width: \"{width} mm\", lip_thickness: \"{lip} mm\",
                lip_length: \"{lip_length} mm\", body_thickness: \"{body} mm\"{relief}{leaning}),
              hardware: [{hardware}], options: [], {around})",
            0.9 * reel,
            worn * reel,
        )
    }
}

/// How many units are tried.
const UNITS: u32 = 300;

proptest! {
    #![proptest_config(by_chance(UNITS))]

    #[test]
    fn whatever_is_advised_holds_when_it_is_typed_back(text in unit_text()) {
        let document = document(&text);
        prop_assume!(Solved::of(&document).is_ok());
        type_back(&document)?;
    }
}

proptest! {
    #![proptest_config(by_chance(UNITS / 4))]

    #[test]
    fn whatever_is_advised_is_as_sure_as_it_is_told_to_be(
        text in unit_text(),
        (off_mm, off_deg) in (0.02..0.4, 0.02..0.4),
    ) {
        let off = |key: &str, value: &str, unit: &str, off: f64| {
            (format!("{key}: \"{value} {unit}\""), format!("{key}: \"{value} {unit} ± {off} {unit}\""))
        };
        // Every length and angle that was read gets a ± of the same kind.
        let mut with_off = text;
        for (key, unit, by) in [
            ("behind_centre", "mm", off_mm),
            ("reel_diameter", "mm", off_mm),
            ("attitude", "deg", off_deg),
            ("ahead", "mm", off_mm),
            ("lip_thickness", "mm", 0.3 * off_mm),
            ("below", "mm", off_mm),
            ("ground_speed", "km/h", 0.2),
        ] {
            let lead = format!("{key}: \"");
            let Some(begin) = with_off.find(&lead).map(|at| at + lead.len()) else { continue };
            let Some(end) = with_off[begin..].find(&format!(" {unit}\"")) else { continue };
            let value = with_off[begin..begin + end].to_owned();
            if value.contains('"') { continue }
            let (plain, doubtful) = off(key, &value, unit, by);
            with_off = with_off.replacen(&plain, &doubtful, 1);
        }
        let document = document(&with_off);
        prop_assume!(Solved::of(&document).is_ok());
        type_back(&document)?;
    }
}

#[test]
fn units_of_every_kind_get_advice_that_holds() {
    let mut told = 0;
    for edits in [
        &[][..],
        &[("behind_centre: \"0.3 in\"", "behind_centre: \"0.6 in\"")],
        &[("behind_centre: \"0.3 in\"", "behind_centre: \"-1.1 mm\"")],
        &[("gap: \"0 mm\"", "gap: \"0.1 mm\"")],
        &[("height_of_cut: None", "height_of_cut: Some(\"0.2 in\")")],
        &[("below: \"0.3 in\"", "below: \"0.45 in\"")],
        &[("ground_speed: \"4 mph\"", "ground_speed: \"9 mph\"")],
        &[("reel_speed: \"900 rpm\"", "reel_speed: \"2600 rpm\"")],
        &[(
            "rollers: None",
            "rollers: Some((front_move: \"0.6 in\", rear_move: \"0.6 in\"))",
        )],
    ] {
        told += type_back(&document(&example(edits))).unwrap();
    }
    assert!(told > 30, "{told}");
}

#[test]
fn no_speed_is_advised_that_no_field_would_take() {
    // A cut of two hundredths of a millimetre would take more turns than can be worked with.
    let moves = "rollers: Some((front_move: \"12.68 mm\", rear_move: \"12.68 mm\")),";
    let sunk = solved(&document(&example(&[("rollers: None,", moves)])));
    let advice = sunk.advice(FindingId::Clip, System::Millimetre).unwrap();
    let by_reel = |way: &Way| matches!(way, Way::ReelSpeed(..));
    assert!(!advice.ways.iter().any(by_reel), "{advice:?}");
    assert!(!advice.shown_in(System::Millimetre).is_empty());
}

#[test]
fn a_move_is_told_in_turns_and_spacers_where_they_are_known() {
    let known = "brackets: (front_pitch: \"1/16 in\", rear_pitch: \"1/16 in\", spacers: \"1/32 in; 1/16 in; 1/8 in\"),
    limits: None,";
    let with = |limits: &str| {
        let behind = "behind_centre: \"0.6 in\"";
        let text = example(&[
            ("behind_centre: \"0.3 in\"", behind),
            ("limits: None,", limits),
        ]);
        let solved = solved(&document(&text));
        let advice = solved.advice(FindingId::Sweep, System::InchDecimal);
        advice.unwrap().shown_in(System::InchDecimal)
    };
    let told = with(known);
    assert!(told.contains("turns of the adjuster down"), "{told}");
    assert!(
        told.contains("taken out, ") && told.contains("left over"),
        "{told}"
    );
    assert!(!with("limits: None,").contains("turns"));
    let wrong = example(&[("limits: None,", "brackets: (spacers: \"1/32 in; thin\"),")]);
    let told = read_text(&wrong).unwrap_err().to_string();
    assert!(
        told.contains("brackets.spacers") && told.contains("semicolons"),
        "{told}"
    );
}

#[test]
fn where_no_way_holds_what_stands_in_the_way_is_told() {
    // The sweep leaves no room for the attitude that the underside takes, and the other way round.
    let tight = document(&example(&[
        ("height_of_cut: \"0.5 in\"", "height_of_cut: \"0.225 in\""),
        ("behind_centre: \"0.3 in\"", "behind_centre: \"0.5 in\""),
    ]));
    let solved = solved(&tight);
    let advice = solved
        .advice(FindingId::Sweep, System::InchDecimal)
        .unwrap();
    let by_attitude = |way: &Way| matches!(way, Way::Attitude { .. });
    assert!(!advice.ways.iter().any(by_attitude), "{advice:?}");
    let told = advice.shown_in(System::InchDecimal);
    assert!(
        told.starts_with(
            "The attitude that would clear it by itself makes another finding worse: underside"
        ),
        "{told}"
    );
    // With the edge in the ground only its height can come first.
    let sunk = "rollers: Some((front_move: \"0.6 in\", rear_move: \"0.6 in\")),";
    let sunk = document(&example(&[
        ("rollers: None,", sunk),
        ("behind_centre: \"0.3 in\"", "behind_centre: \"-2 mm\""),
    ]));
    let sunk = self::solved(&sunk);
    let advice = sunk.advice(FindingId::Ahead, System::InchDecimal).unwrap();
    assert!(advice.ways.is_empty(), "{advice:?}");
    let told = advice.shown_in(System::InchDecimal);
    assert!(told.contains("set the height of cut first"), "{told}");
}

#[test]
fn the_starting_limits_are_the_turfs_own() {
    // This program's starting values: common practice, no source.
    for (turf, sweep, clip, underside) in [
        (Turf::Green, (0.08, 0.15), (1.5, 2.0), (0.02, 0.5)),
        (Turf::Tee, (0.05, 0.10), (1.1, 1.5), (0.02, 0.5)),
        (Turf::Fairway, (0.05, 0.10), (1.1, 1.5), (0.06, 1.5)),
        (Turf::Rough, (0.05, 0.10), (1.1, 1.5), (0.12, 3.0)),
    ] {
        let metric = Limits::starting(turf, System::Millimetre);
        let lengths = [metric.gap_watch, metric.gap_over, metric.ahead_of_centre];
        assert_eq!(lengths, [0.025, 0.05, 1.0].map(Length::from_mm));
        assert_eq!(metric.underside, Length::from_mm(underside.1));
        let limits = Limits::starting(turf, System::InchFraction);
        let lengths = [limits.gap_watch, limits.gap_over, limits.ahead_of_centre];
        assert_eq!(lengths, [0.001, 0.002, 0.04].map(Length::from_inches));
        let told = (limits.sweep_watch.of_one(), limits.sweep_over.of_one());
        assert_eq!(told, sweep);
        assert_eq!(
            (limits.clip_watch.number(), limits.clip_over.number()),
            clip
        );
        assert_eq!(limits.underside, Length::from_inches(underside.0));
        assert!((limits.clip_least.number() - 0.6).abs() < 1e-12);
        assert_eq!(limits.behind_centre, None);
    }
}

#[test]
fn seven_inches_and_three_eighths_are_over_on_a_green_and_fine_at_half_an_inch() {
    // The trade's check values: sweep 0.0201 in, by the handbook's versed sine.
    let green = |height: &str| {
        let text = EXAMPLE
            .replace("turf: Fairway", "turf: Green")
            .replace("reel_diameter: \"6.9 in\"", "reel_diameter: \"7 in\"")
            .replace("behind_centre: \"0.3 in\"", "behind_centre: \"0.375 in\"")
            .replace(
                "height_of_cut: \"0.5 in\"",
                &format!("height_of_cut: \"{height}\""),
            );
        solved(&document(&text)).findings.level_of(FindingId::Sweep)
    };
    assert_eq!(green("0.125 in"), Some(Level::Over));
    assert_eq!(green("0.5 in"), Some(Level::Fine));
}

#[test]
fn a_reel_that_turns_too_fast_for_its_cut_is_watched_and_advised() {
    let text = example(&[("reel_speed: \"900 rpm\"", "reel_speed: \"2600 rpm\"")]);
    let solved = solved(&document(&text));
    let clip = solved.findings.get(FindingId::Clip).unwrap();
    assert_eq!(clip.level, Level::Watch);
    let told = solved.told(clip, System::InchDecimal);
    assert!(
        told.contains("watch below 0.60") && told.contains("reel speed of"),
        "{told}"
    );
}

#[test]
fn a_least_behind_centre_is_judged_where_it_is_wanted() {
    let with = |least: &str| {
        let limits = format!("limits: Some((behind_centre: {least})),");
        let text = example(&[("limits: None,", &limits)]);
        solved(&document(&text)).findings.level_of(FindingId::Ahead)
    };
    assert_eq!(with("None"), Some(Level::Fine));
    assert_eq!(with("Some(\"0.25 in\")"), Some(Level::Fine));
    assert_eq!(with("Some(\"0.35 in\")"), Some(Level::Watch));
}

#[test]
fn light_contact_that_makes_another_finding_worse_is_told_with_it() {
    let tight = document(&example(&[
        ("gap: \"0 mm\"", "gap: \"0.5 mm\""),
        ("behind_centre: \"0.3 in\"", "behind_centre: \"0.42 in\""),
    ]));
    let solved = solved(&tight);
    assert_eq!(
        solved.findings.level_of(FindingId::Sweep),
        Some(Level::Fine)
    );
    let advice = solved.advice(FindingId::Gap, System::InchDecimal).unwrap();
    assert!(
        !advice
            .ways
            .iter()
            .any(|way| matches!(way, Way::LightContact(_))),
        "{advice:?}"
    );
    let told = advice.shown_in(System::InchDecimal);
    assert!(
        told.starts_with(
            "Light contact (zero gap) would clear it, but makes another finding worse: sweep. Adjust reel to knife"
        ),
        "{told}"
    );
}

#[test]
fn a_top_angle_that_makes_another_finding_worse_is_told_with_it() {
    // Metal off a relieved top face carries the edge back as well as down: more relief, more of it.
    let faces = "body_thickness: \"0.25 in\",
        top_angle: \"0.5 deg\", front_angle: \"20 deg\", top_ground: \"1.5 mm\", face_ground: \"2.5 mm\",
    ),
    hardware";
    let text = example(&[
        ("body_thickness: \"0.25 in\",\n    ),\n    hardware", faces),
        ("attitude: \"4 deg\"", "attitude: \"9 deg\""),
    ]);
    let solved = solved(&document(&text));
    let advice = solved
        .advice(FindingId::TopFace, System::InchDecimal)
        .unwrap();
    let by_angle = |way: &Way| matches!(way, Way::TopAngle(..));
    assert!(!advice.ways.iter().any(by_angle), "{advice:?}");
    let told = advice.shown_in(System::InchDecimal);
    assert!(
        told.starts_with("A top angle of ") && told.contains("makes another finding worse: "),
        "{told}"
    );
}

#[test]
fn the_lip_that_is_allowed_is_the_one_on_its_limit() {
    for (attitude, front_angle) in [(4, 0), (12, 15), (-2, 20), (9, -5)] {
        let with = |lip_mm: f64| {
            let knife = format!(
                "lip_thickness: \"{lip_mm} mm\", front_angle: \"{front_angle} deg\",\n        lip_length: \"0.5 in\",\n        body_thickness"
            );
            let attitude = format!("attitude: \"{attitude} deg\"");
            let text = example(&[
                ("attitude: \"4 deg\"", &attitude),
                (
                    "lip_thickness: \"0.12 in\",\n        lip_length: \"0.5 in\",\n        body_thickness",
                    &knife,
                ),
            ]);
            solved(&document(&text))
        };
        let told = |solved: &Solved| {
            let lip = solved.findings.get(FindingId::Lip).unwrap();
            (lip.level, lip.text.shown_in(System::Millimetre))
        };
        let (_, text) = told(&with(3.0));
        let allowed = text.split("allows ").nth(1).unwrap();
        let allowed = Quantity::<Length>::parse(allowed.trim_end_matches('.'));
        let allowed = allowed.unwrap().value().mm();
        let (level, text) = told(&with(allowed - 0.02));
        assert_eq!(level, Level::Fine, "{text}");
        let (level, text) = told(&with(allowed + 0.02));
        assert_eq!(level, Level::Watch, "{text}");
    }
}

#[test]
fn a_knife_of_another_lip_or_reach_is_told_only_where_one_clears_it_or_sweeps_less() {
    let told = |edits: &[(&str, &str)], finding| {
        let solved = solved(&document(&example(edits)));
        let advice = solved.advice(finding, System::InchDecimal).unwrap();
        advice.shown_in(System::InchDecimal)
    };
    let thick = (
        "lip_thickness: \"0.12 in\",\n        lip_length",
        "lip_thickness: \"0.45 in\",\n        lip_length",
    );
    let lip = told(&[thick], FindingId::Lip);
    assert!(
        lip.contains("A knife with a thinner lip would clear it."),
        "{lip}"
    );
    // The edge itself stands nearer the plate than its limit.
    let low = ("height_of_cut: None", "height_of_cut: Some(\"0.05 in\")");
    let lip = told(&[low], FindingId::Lip);
    assert!(!lip.contains("thinner lip"), "{lip}");
    let behind = ("behind_centre: \"0.3 in\"", "behind_centre: \"0.6 in\"");
    let sweep = told(&[behind], FindingId::Sweep);
    assert!(sweep.contains("A knife with a longer reach"), "{sweep}");
    let ahead = ("behind_centre: \"0.3 in\"", "behind_centre: \"-0.6 in\"");
    let sweep = told(&[ahead], FindingId::Sweep);
    assert!(sweep.contains("A knife with a shorter reach"), "{sweep}");
}

#[test]
fn every_roller_move_is_told_with_what_makes_it_safe() {
    let behind = ("behind_centre: \"0.3 in\"", "behind_centre: \"0.6 in\"");
    let brackets = (
        "limits: None,",
        "brackets: (front_pitch: \"1/16 in\", rear_pitch: \"1/16 in\"),\n    limits: None,",
    );
    for edits in [&[behind][..], &[behind, brackets]] {
        let solved = solved(&document(&example(edits)));
        let advice = solved.advice(FindingId::Sweep, System::InchDecimal);
        let told = advice.unwrap().shown_in(System::InchDecimal);
        let by_height = told.find("At this attitude a height of cut").unwrap();
        assert!(
            told.contains(
                "Before you move a roller: engine off, key out, brake on, reel drive disconnected"
            ),
            "{told}"
        );
        let steps = told.matches("That is at the front").count();
        assert_eq!(steps, if edits.len() > 1 { 2 } else { 0 }, "{told}");
        if let Some(first) = told.find("That is at the front") {
            assert!(first < by_height, "{told}");
        }
    }
}

#[test]
fn a_knife_of_the_file_is_named_where_the_one_fitted_is_the_fault_and_not_where_an_attitude_will_do()
 {
    let named = |document: &Document| {
        let before = solved(document);
        let mut named = Vec::new();
        for finding in FindingId::ALL {
            let Some(advice) = before.advice(finding, System::InchDecimal) else {
                continue;
            };
            let text = advice.shown_in(System::InchDecimal);
            assert_eq!(
                text.contains("Of the knives in this file"),
                advice.knife.is_some()
            );
            if let Some(place) = advice.knife {
                fit_named(&before, finding, place, &text);
                let name = &document.knife_at(place).unwrap().name;
                named.push((finding, name.clone()));
            }
        }
        named
    };
    // At 8 deg the sweep should be watched with the knife measured, and less attitude is all it takes.
    let as_set = DemoUnit::KnifeChoice.document();
    assert_eq!(named(&as_set), []);
    // Its lip ground away, no setting brings it back.
    let mut ground = as_set.clone();
    Field::TopGround
        .set(&mut ground, "0.13 in", System::InchDecimal)
        .unwrap();
    Field::WantedAttitude
        .set(&mut ground, "6 deg", System::InchDecimal)
        .unwrap();
    let found = named(&ground);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, FindingId::Lip);
}
