//! How far the numbers can be off: against draws of the readings, differences, and the guide's own
//! worked example.

use num_dual::Dual64;
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::{Config, RngAlgorithm, RngSeed, TestRng, TestRunner};
use sweepgauge::analysis::uncertainty::{
    COVERAGE, Sure, combined, expanded, standard_of_half_width,
};
use sweepgauge::analysis::{FindingId, LEAN_OFF, NumberId, Solution, Solved, Uncertainty};
use sweepgauge::geometry::{
    Closing, GroundShape, Hardware, HardwarePoint, Mount, Number, Pose, Setting, Stance,
};
use sweepgauge::unit::{
    Fitted, Follows, KnifePart, Mowing, Reading, Uncertain, Unit, Wear, read_text,
};
use sweepgauge::units::{Angle, Length, Measure as _, Speed, System, Turning};

use crate::common::demo_unit::DemoUnit;
use crate::common::example::example;
use crate::common::nudge::{nudge, values};
use crate::common::random_units::{self, believable_unit};

fn unit(edits: &[(&str, &str)]) -> Unit {
    let text = example(edits);
    let document = read_text(&text).unwrap();
    document.checked().unwrap()
}

fn uncertainty(unit: &Unit) -> Uncertainty {
    Uncertainty::of(unit, &unit.setting, unit.follows)
}

fn paths(uncertainty: &Uncertainty, output: NumberId) -> Vec<String> {
    let ranking = uncertainty.ranking(output).into_iter();
    ranking
        .map(|contribution| contribution.reading.to_string())
        .collect()
}

// Against draws of the readings.

const DRAWS: u32 = 200_000;

/// The bench's readings as a shop takes them, each with its ±.
const BENCH: [(&str, &str); 9] = [
    ("\"6.9 in\"", "\"6.9 in ± 0.01 in\""),
    (
        "height_of_cut: \"0.5 in\"",
        "height_of_cut: \"0.5 in ± 0.004 in\"",
    ),
    ("\"4 deg\"", "\"4 deg ± 0.2 deg\""),
    ("\"0.3 in\",\n", "\"0.3 in ± 0.02 in\",\n"),
    ("gap: \"0 mm\"", "gap: \"0.06 mm ± 0.02 mm\""),
    ("diameter: \"3 in\"", "diameter: \"3 in ± 0.01 in\""),
    ("ahead: \"5.5 in\"", "ahead: \"5.5 in ± 0.03 in\""),
    ("diameter: \"2.5 in\"", "diameter: \"2.5 in ± 0.01 in\""),
    ("behind: \"3.25 in\"", "behind: \"3.25 in ± 0.03 in\""),
];

const REACHING: (&str, &str) = (
    "reach: \"1.65 in\", width: \"2.65 in\", lip_thickness: \"0.12 in\", lip_length: \"0.5 in\"",
    "reach: \"1.65 in ± 0.01 in\", width: \"2.65 in\", lip_thickness: \"0.12 in ± 0.003 in\", lip_length: \"0.5 in ± 0.01 in\"",
);
const FIT_REACHING: (&str, &str) = ("knife: None,", "knife: Some(\"reaching\"),");
const BENCH_REACH: (&str, &str) = ("reach: \"1.5 in\"", "reach: \"1.5 in ± 0.01 in\"");

/// The standard deviations of every number while the readings are drawn evenly within their ±.
fn drawn(unit: &Unit) -> [f64; NumberId::ALL.len()] {
    let middle = values(unit).unwrap();
    let mut rng = TestRng::from_seed(RngAlgorithm::XorShift, b"sweepgauge draws");
    let mut sums = [(0.0, 0.0); NumberId::ALL.len()];
    for _ in 0..DRAWS {
        let mut moved = unit.clone();
        for uncertain in &unit.uncertain {
            let of_half_width = 2.0 * rng.random::<f64>() - 1.0;
            nudge(
                &mut moved,
                uncertain.reading,
                of_half_width * uncertain.half_width,
            );
        }
        let values = values(&moved).unwrap();
        for ((sum, squares), off) in sums
            .iter_mut()
            .zip(values.iter().zip(middle).map(|(v, m)| v - m))
        {
            *sum += off;
            *squares += off * off;
        }
    }
    let count = f64::from(DRAWS);
    sums.map(|(sum, squares)| {
        ((squares - sum * sum / count) / (count - 1.0))
            .max(0.0)
            .sqrt()
    })
}

/// 200 000 draws give a standard deviation to within some 0.2 % (one standard deviation).
fn agrees_with_draws(edits: &[(&str, &str)], exact: &[NumberId]) {
    let unit = unit(&[&BENCH, edits].concat());
    let uncertainty = Uncertainty::of_readings(&unit, &unit.setting, unit.follows);
    let all = NumberId::ALL.into_iter().zip(drawn(&unit));
    let solved = Solution::of(&unit, &unit.setting).unwrap().numbers();
    let is_told = |output: NumberId| output.has_off() && solved.value(output).is_some();
    for (output, drawn) in all.filter(|(output, _)| is_told(*output)) {
        let ours = uncertainty.standard(output);
        let name = output.name();
        assert_eq!(ours < 1e-9, exact.contains(&output), "{name}: {ours}");
        let off = (ours - drawn).abs();
        assert!(off < 0.02 * drawn + 1e-9, "{name}: {ours}, drawn {drawn}");
    }
}

#[test]
fn draws_agree_for_a_sliding_reel_that_follows_the_bench_on_a_crest() {
    let edits = [
        (
            "shape: Level),",
            "shape: Crest(\"3 m ± 0.3 m\")), wear: (front_runout: \"0.9 mm ± 0.5 mm\", rear_runout: \"0.2 mm ± 0.1 mm\", end_difference: \"1 mm ± 0.4 mm\"),",
        ),
        ("roller_sink: \"0 mm\"", "roller_sink: \"1 mm ± 0.5 mm\""),
        (
            "ground_speed: \"4 mph\", reel_speed: \"900 rpm\"",
            "ground_speed: \"4 mph ± 0.3 mph\", reel_speed: \"900 rpm ± 20 rpm\"",
        ),
        BENCH_REACH,
    ];
    agrees_with_draws(&edits, &[]);
}

#[test]
fn draws_agree_for_a_leaning_slide_with_another_knife_and_a_ground_reel() {
    let edits = [
        ("lean: None", "lean: Some(\"5 deg ± 1 deg\")"),
        (
            "setting: (                           // what is being tried; each left out means \"as on the bench\"\n        reel_diameter: None",
            "setting: (\n        reel_diameter: Some(\"6.7 in\")",
        ),
        REACHING,
        FIT_REACHING,
        BENCH_REACH,
    ];
    let exact = [
        NumberId::ReelDiameter,
        NumberId::ClipLength,
        NumberId::RunoutSwing,
    ];
    agrees_with_draws(&edits, &exact);
}

#[test]
fn draws_agree_for_a_swinging_reel_at_an_attitude_of_its_own_in_a_hollow() {
    let edits = [
        (
            "ReelSlides(lean: None)",
            "ReelPivots(ahead: \"-4 in ± 0.1 in\", above: \"6 in ± 0.1 in\")",
        ),
        (
            "height_of_cut: None, attitude: None",
            "height_of_cut: None, attitude: Some(\"6 deg\")",
        ),
        ("shape: Level", "shape: Hollow(\"4 m ± 0.2 m\")"),
        ("extension: None", "extension: Some(\"2 mm\")"),
    ];
    let exact = [
        NumberId::Attitude,
        NumberId::ClipLength,
        NumberId::RunoutSwing,
    ];
    agrees_with_draws(&edits, &exact);
}

#[test]
fn draws_agree_for_a_turning_knife_with_uncertain_hardware() {
    let edits = [
        (
            "ReelSlides(lean: None)",
            "KnifePivots(ahead: \"-1.5 in ± 0.05 in\", above: \"2 in ± 0.05 in\")",
        ),
        ("below: \"0.3 in\")", "below: \"0.4 in ± 0.01 in\")"),
        ("(behind: \"1.5 in\"", "(behind: \"1.5 in ± 0.03 in\""),
        (
            "height_of_cut: None, attitude: None",
            "height_of_cut: Some(\"0.6 in\"), attitude: None",
        ),
        REACHING,
        FIT_REACHING,
    ];
    agrees_with_draws(
        &edits,
        &[
            NumberId::HeightOfCut,
            NumberId::CutOnGround,
            NumberId::ClipLength,
            NumberId::ClipToCut,
            NumberId::RunoutSwing,
        ],
    );
}

#[test]
fn draws_agree_for_faces_at_angles_one_roller_given_and_rollers_that_sink_apart() {
    let faces = |reach: &str| {
        format!(
            "reach: \"{reach}\", top_angle: \"6 deg ± 0.5 deg\", front_angle: \"3 deg ± 0.5 deg\", top_ground: \"0.02 in ± 0.002 in\", face_ground: \"0.03 in ± 0.002 in\""
        )
    };
    let edits = [
        ("reach: \"1.5 in\"", &*faces("1.5 in ± 0.01 in")),
        // Low enough to hang lowest in every draw: the lowest of several has a kink.
        (
            "below: \"0.3 in\")",
            "below: \"0.1 in ± 0.01 in\", on: Knife)",
        ),
        ("rollers: None,", "rollers: Some((rear_move: \"-2 mm\")),"),
        (
            "roller_sink: \"0 mm\"",
            "roller_sink: \"1 mm ± 0.5 mm\", rear_sink: \"2 mm ± 0.5 mm\"",
        ),
        (
            "shape: Level),",
            "shape: Level), wear: (front_runout: \"0.3 mm ± 0.1 mm\", rear_runout: \"0.5 mm ± 0.1 mm\"),",
        ),
    ];
    agrees_with_draws(&edits, &[NumberId::ClipLength]);
}

#[test]
fn draws_agree_with_the_rollers_given() {
    let edits = [
        (
            "ReelSlides(lean: None)",
            "KnifePivots(ahead: \"-1.5 in ± 0.05 in\", above: \"2 in ± 0.05 in\")",
        ),
        // Low enough to hang lowest in every draw: the lowest of several has a kink.
        ("below: \"0.3 in\")", "below: \"0.4 in\")"),
        (
            "rollers: None,",
            "rollers: Some((front_move: \"0.5 mm\", rear_move: \"-2 mm\")),",
        ),
        (
            "setting: (                           // what is being tried; each left out means \"as on the bench\"\n        reel_diameter: None",
            "setting: (\n        reel_diameter: Some(\"6.8 in\")",
        ),
    ];
    let exact = [
        NumberId::ReelDiameter,
        NumberId::ClipLength,
        NumberId::RunoutSwing,
    ];
    agrees_with_draws(&edits, &exact);
}

// Against differences.

/// Every reading that a unit has, each with a ± of one.
fn all_readings(unit: &Unit) -> Vec<Uncertain> {
    use Reading as R;
    let mut readings = vec![
        R::ReelDiameter,
        R::HeightOfCut,
        R::Attitude,
        R::BehindCentre,
        R::Gap,
        R::FrontDiameter,
        R::FrontAhead,
        R::RearDiameter,
        R::RearBehind,
        R::HardwareBehind(0),
        R::HardwareBelow(0),
        R::GroundSpeed,
        R::ReelSpeed,
        R::RollerSink,
        R::RearSink,
        R::GroundRadius,
        R::FrontRunout,
        R::RearRunout,
        R::EndDifference,
    ];
    for part in [
        KnifePart::Reach,
        KnifePart::Width,
        KnifePart::LipThickness,
        KnifePart::LipLength,
        KnifePart::BodyThickness,
        KnifePart::TopAngle,
        KnifePart::FrontAngle,
        KnifePart::TopGround,
        KnifePart::FaceGround,
    ] {
        readings.extend([
            R::Knife(Fitted::Bench, part),
            R::Knife(Fitted::Option(0), part),
        ]);
    }
    match unit.profile.closing {
        Closing::ReelSlides { lean: None } | Closing::KnifeSlides { lean: None } => {}
        Closing::ReelSlides { .. } | Closing::KnifeSlides { .. } => readings.push(R::Lean),
        _ => readings.extend([R::PivotAhead, R::PivotAbove]),
    }
    let all = readings.into_iter();
    all.map(|reading| Uncertain {
        reading,
        half_width: 1.0,
    })
    .collect()
}

/// The demo unit's limits and sizes around a random profile, ground and hardware under it.
fn whole_unit(bare: &random_units::Unit, shape: GroundShape, is_on_knife: bool) -> Unit {
    let mut whole = unit(&[]);
    (whole.profile, whole.setting, whole.shape) = (bare.profile, bare.setting, shape);
    whole.hardware = Hardware::new(vec![HardwarePoint {
        behind: Length::from_mm(30.0),
        below: Length::from_mm(if is_on_knife { 1.0 } else { 9.0 }),
        on: if is_on_knife {
            Mount::Knife
        } else {
            Mount::Bar
        },
    }]);
    // The rear roller's own sink, and the common one for the front roller.
    whole.sink.rear = Some(Length::from_mm(0.7));
    for knife in [&mut whole.profile.knife, &mut whole.setting.knife] {
        knife.top_angle.get_or_insert(Angle::from_deg(4.0));
        knife.front_angle.get_or_insert(Angle::from_deg(2.0));
    }
    whole.mowing = Some(Mowing {
        ground_speed: Speed::from_base(1800.0),
        reel_speed: Turning::from_base(900.0),
    });
    whole.wear = Wear {
        front_runout: Length::from_mm(0.2),
        rear_runout: Length::from_mm(0.5),
        end_difference: Length::from_mm(0.8),
    };
    whole.uncertain = all_readings(&whole);
    whole
}

/// The derivative by differences; none where the number has a kink or bends hard.
fn by_difference(unit: &Unit, reading: Reading) -> Option<[Option<f64>; NumberId::ALL.len()]> {
    let step = 1e-4;
    let at = |by| {
        let mut moved = unit.clone();
        nudge(&mut moved, reading, by);
        values(&moved)
    };
    let (before, here, after) = (at(-step)?, values(unit)?, at(step)?);
    Some(std::array::from_fn(|index| {
        let ahead = (after[index] - here[index]) / step;
        let behind = (here[index] - before[index]) / step;
        let is_smooth = (ahead - behind).abs() < 1e-3 * (1.0 + ahead.abs());
        is_smooth.then_some(f64::midpoint(ahead, behind))
    }))
}

/// How many sensitivities were compared, and how many could not be.
fn agrees_with_differences(unit: &Unit, tally: &mut (usize, usize)) {
    let uncertainty = uncertainty(unit);
    let rankings = NumberId::ALL.map(|output| uncertainty.ranking(output));
    for uncertain in &unit.uncertain {
        let Some(differences) = by_difference(unit, uncertain.reading) else {
            tally.1 += 1;
            continue;
        };
        for ((output, ranking), difference) in NumberId::ALL.iter().zip(&rankings).zip(differences)
        {
            let Some(difference) = difference else {
                tally.1 += 1;
                continue;
            };
            let largest = ranking.first().map_or(0.0, |first| first.sensitivity.abs());
            let of_reading = ranking.iter().find(|c| c.reading == uncertain.reading);
            let ours = of_reading.map_or(0.0, |contribution| contribution.sensitivity);
            let off = (ours - difference).abs();
            assert!(
                off < 1e-5 * (1.0 + largest),
                "{} by {}: {ours}, by difference {difference}: {unit:?}",
                output.name(),
                uncertain.reading,
            );
            tally.0 += 1;
        }
    }
}

#[test]
fn derivatives_are_the_differences_for_random_units_of_every_closing() {
    let mut config = Config::default();
    if config.rng_seed == RngSeed::Random {
        config.rng_seed = RngSeed::Fixed(1);
    }
    let mut runner = TestRunner::new(config);
    let strategy = believable_unit();
    let mut draw = || strategy.new_tree(&mut runner).unwrap().current();
    let (mut tally, mut closings) = ((0, 0), [0; 5]);
    for number in 0..300 {
        let metres = |m: f64| Length::from_mm(1000.0 * m);
        let shape = [
            GroundShape::Level,
            GroundShape::Crest(metres(3.0)),
            GroundShape::Hollow(metres(4.0)),
        ][number % 3];
        let mut unit = whole_unit(&draw(), shape, number % 2 == 0);
        closings[match unit.profile.closing {
            Closing::ReelSlides { lean: None } => 0,
            Closing::ReelSlides { .. } => 1,
            Closing::ReelPivots { .. } => 2,
            Closing::KnifePivots { .. } => 3,
            Closing::KnifeSlides { .. } => 4,
        }] += 1;
        let Ok(pose) = Pose::solve(&unit.profile, &unit.setting) else {
            continue;
        };
        // Another knife fitted and everything exact; the same with the rollers given; the bench
        // pose itself, whose gap is closed before anything moves.
        unit.follows = Follows {
            knife: Fitted::Option(0),
            top_ground: true,
            face_ground: number % 4 == 1,
            ..Follows::NONE
        };
        agrees_with_differences(&unit, &mut tally);
        unit.setting.stance = pose.as_rollers();
        agrees_with_differences(&unit, &mut tally);
        let one_roller = if number % 2 == 0 {
            Stance::FrontRoller {
                front_move: pose.front_roller.moved,
                height_of_cut: pose.height_of_cut,
            }
        } else {
            Stance::RearRoller {
                rear_move: pose.rear_roller.moved,
                height_of_cut: pose.height_of_cut,
            }
        };
        unit.setting.stance = one_roller;
        unit.follows.height_of_cut = true;
        agrees_with_differences(&unit, &mut tally);
        unit.setting = Setting::as_on_bench(&unit.profile);
        unit.follows = Follows::BENCH;
        agrees_with_differences(&unit, &mut tally);
        unit.follows = Follows::NONE;
        agrees_with_differences(&unit, &mut tally);
    }
    assert!(closings.iter().all(|count| *count > 20), "{closings:?}");
    assert!(tally.0 > 200_000 && tally.1 < tally.0 / 100, "{tally:?}");
}

// Against the guide.

/// The model of JCGM 100:2008, example H.1: the length of an end gauge compared with a standard.
fn end_gauge_mm<N: Number>(
    [
        standard_mm,
        difference_mm,
        expansion,
        off_expansion,
        off_20,
        off_temperature,
    ]: [N; 6],
) -> N {
    standard_mm + difference_mm
        - standard_mm * (off_expansion * off_20 + expansion * off_temperature)
}

#[test]
fn the_end_gauge_of_the_guide_comes_out_as_in_the_guide() {
    // JCGM 100:2008, H.1, figures from memory of the example. Taken from it: the estimates; the
    // standard uncertainty of the standard (25 nm), of the comparison (5.8, 3.9 and 6.7 nm, 9.7
    // together), of the temperature (0.41); the bounds ± of the expansion, the difference of the
    // expansions and of the temperatures; and as results, the length 50.000838 mm, the parts 25,
    // 9.7, 0, 2.9, 0 and 16.6 nm, and 32 nm together.
    let nm = 1e-6;
    let comparison = combined([(1.0, 5.8 * nm), (1.0, 3.9 * nm), (1.0, 6.7 * nm)]);
    assert!((comparison / nm - 9.7).abs() < 0.05);
    let inputs = [
        (50.000_623, 25.0 * nm),
        (215.0 * nm, comparison),
        (11.5e-6, standard_of_half_width(2e-6)),
        (0.0, standard_of_half_width(1e-6)),
        (-0.1, 0.41),
        (0.0, standard_of_half_width(0.05)),
    ];
    let sensitivity = |by: usize| {
        let mut index = 0..;
        let stirred = inputs.map(|(estimate, _)| {
            let is_stirred = index.next() == Some(by);
            Dual64::new(estimate, f64::from(u8::from(is_stirred)))
        });
        end_gauge_mm(stirred).eps
    };
    let parts: Vec<(f64, f64)> = (0..6).map(|by| (sensitivity(by), inputs[by].1)).collect();
    let length_mm = end_gauge_mm(inputs.map(|(estimate, _)| estimate));
    assert!((length_mm - 50.000_838).abs() < 0.5 * nm);
    for ((sensitivity, standard), guide_nm) in parts.iter().zip([25.0, 9.7, 0.0, 2.9, 0.0, 16.6]) {
        let part_nm = (sensitivity * standard).abs() / nm;
        assert!((part_nm - guide_nm).abs() < 0.05, "{part_nm} {guide_nm}");
    }
    assert!((combined(parts) / nm - 32.0).abs() < 0.5);
}

// What follows the bench, and what is exact.

#[test]
fn a_setting_left_out_follows_the_bench_and_an_explicit_one_is_exact() {
    let follows = uncertainty(&unit(&BENCH));
    // As on the bench, behind centre is the reading itself, and so is the height of cut.
    assert_eq!(
        paths(&follows, NumberId::BehindCentre),
        ["bench.behind_centre"]
    );
    assert_eq!(
        paths(&follows, NumberId::HeightOfCut),
        ["bench.height_of_cut"]
    );
    let behind = follows.standard(NumberId::BehindCentre);
    assert!(
        (behind - 0.02 * 25.4 / 3_f64.sqrt()).abs() < 1e-9,
        "{behind}"
    );
    // One evenly spread reading alone: 95.45 % of it lies within so much of its half-width.
    let expanded = follows.expanded(NumberId::BehindCentre);
    assert!(
        (expanded - COVERAGE * 0.02 * 25.4).abs() < 1e-4,
        "{expanded}"
    );

    let explicit = (
        "height_of_cut: None, attitude: None",
        "height_of_cut: Some(\"0.5 in\"), attitude: Some(\"4 deg\")",
    );
    let exact = uncertainty(&unit(&[&BENCH[..], &[explicit]].concat()));
    assert!(exact.standard(NumberId::HeightOfCut).abs() < f64::MIN_POSITIVE);
    assert!(exact.standard(NumberId::Attitude).abs() < f64::MIN_POSITIVE);
    // The bench's attitude may be off from the one now wanted: it turns the edge about.
    assert!(paths(&exact, NumberId::BehindCentre).contains(&"bench.attitude".to_owned()));
    assert!(exact.standard(NumberId::BehindCentre) > 1.1 * behind);
}

#[test]
fn a_reel_diameter_that_follows_the_bench_moves_with_it() {
    let diameter = [BENCH[0]];
    let follows = uncertainty(&unit(&diameter));
    let explicit = (
        "setting: (                           // what is being tried; each left out means \"as on the bench\"\n        reel_diameter: None",
        "setting: (\n        reel_diameter: Some(\"6.9 in\")",
    );
    let exact = uncertainty(&unit(&[diameter[0], explicit]));
    // S = R − sqrt(R² − b²) hardly changes with R while b stays.
    let (radius, behind) = (6.9 * 25.4 / 2.0, 0.3 * 25.4);
    let by_diameter = (1.0 - radius / f64::sqrt(radius * radius - behind * behind)) / 2.0;
    let sensitivity = |of: &Uncertainty| of.ranking(NumberId::SweepBelowCut)[0].sensitivity;
    assert!((sensitivity(&follows) - by_diameter).abs() < 1e-9);
    // With an exact reel only the bench's line leans otherwise.
    assert!(exact.standard(NumberId::ReelDiameter).abs() < f64::MIN_POSITIVE);
    assert!(exact.standard(NumberId::BehindCentre) > 0.0);
    assert!(follows.ranking(NumberId::BehindCentre).is_empty());
}

#[test]
fn the_reach_of_the_bench_knife_cancels_while_it_is_fitted() {
    let bench_fitted = uncertainty(&unit(&[BENCH_REACH, REACHING]));
    for output in NumberId::ALL {
        assert!(!paths(&bench_fitted, output).contains(&"knife.reach".to_owned()));
    }
    let other_fitted = uncertainty(&unit(&[BENCH_REACH, REACHING, FIT_REACHING]));
    let mut found = paths(&other_fitted, NumberId::BehindCentre);
    found.sort();
    assert_eq!(found, ["closing.lean", "knife.reach", "options[0].reach"]);
    let fitted = unit(&[BENCH_REACH, REACHING, FIT_REACHING]);
    let by_readings = Uncertainty::of_readings(&fitted, &fitted.setting, fitted.follows);
    let shares = by_readings.ranking(NumberId::BehindCentre);
    assert!((shares[0].share - 0.5).abs() < 1e-9 && (shares[1].share - 0.5).abs() < 1e-9);
    assert!((shares[0].sensitivity + shares[1].sensitivity).abs() < 1e-9);
}

#[test]
fn a_ranking_tells_every_reading_by_its_share_largest_first() {
    let uncertainty = uncertainty(&unit(&BENCH));
    for output in NumberId::ALL {
        let ranking = uncertainty.ranking(output);
        assert!(ranking.is_sorted_by(|a, b| a.share >= b.share));
        let whole: f64 = ranking.iter().map(|contribution| contribution.share).sum();
        assert!(ranking.is_empty() || (whole - 1.0).abs() < 1e-9, "{whole}");
        let standard = combined(
            ranking
                .iter()
                .map(|contribution| (1.0, contribution.standard)),
        );
        assert!((standard - uncertainty.standard(output)).abs() <= 1e-9 * standard);
    }
    assert_eq!(
        uncertainty.ranking(NumberId::SweepBelowCut)[0]
            .reading
            .to_string(),
        "bench.behind_centre"
    );
}

#[test]
fn a_unit_whose_readings_carry_nothing_is_not_uncertain() {
    let unit = unit(&[]);
    assert!(unit.uncertain.is_empty());
    assert!(!uncertainty(&unit).has_any());
    assert!(
        NumberId::ALL
            .iter()
            .all(|output| uncertainty(&unit).expanded(*output).abs() < f64::MIN_POSITIVE)
    );
}

#[test]
fn every_reading_with_a_half_width_is_listed_by_its_path_in_base_units() {
    let unit = unit(&[
        BENCH[2],
        ("ground_speed: \"4 mph\"", "ground_speed: \"4 mph ± 0.5\""),
        ("below: \"0.3 in\")", "below: \"0.3 in ± 0.01 in\")"),
        (
            "lip_thickness: \"0.12 in\",\n",
            "lip_thickness: \"0.12 in ± 0\",\n",
        ),
        REACHING,
        (
            "roller_sink: \"0 mm\", shape: Level),",
            "roller_sink: \"0 mm\", shape: Crest(\"6 m ± 0.1 m\")), wear: (front_runout: \"0.2 mm ± 0.02 mm\"),",
        ),
    ]);
    let listed = unit
        .uncertain
        .iter()
        .map(|u| (u.reading.to_string(), u.half_width));
    let expected = [
        ("bench.attitude", 0.2),
        ("hardware[0].below", 0.254),
        ("options[0].reach", 0.254),
        ("options[0].lip_thickness", 0.0762),
        ("options[0].lip_length", 0.254),
        ("mowing.ground_speed", 223.52),
        ("ground.shape", 100.0),
        ("wear.front_runout", 0.02),
    ];
    assert_eq!(listed.len(), expected.len(), "{:?}", unit.uncertain);
    for ((path, half_width), (wanted, by)) in listed.zip(expected) {
        assert_eq!(path, wanted);
        assert!((half_width - by).abs() < 1e-9, "{path}: {half_width}");
    }
}

#[test]
fn the_demo_units_have_sound_uncertainties() {
    let mut uncertain = 0;
    for demo in DemoUnit::ALL {
        let unit = demo.document().checked().unwrap();
        let found = uncertainty(&unit);
        assert!(
            NumberId::ALL
                .iter()
                .all(|output| found.standard(*output).is_finite()),
            "{demo:?}"
        );
        uncertain += usize::from(found.standard(NumberId::SweepBelowCut) > 0.0);
        let Stance::Wanted { .. } = unit.setting.stance else {
            continue;
        };
        assert!(found.standard(NumberId::Attitude) <= 0.3, "{demo:?}");
    }
    assert!(uncertain > 0);
}

#[test]
fn where_a_number_bends_over_the_width_of_its_readings_it_is_called_rough_and_left_in_doubt() {
    // On centre the sweep has no slope, and any ± of behind centre lets the reel hang lower.
    let text = example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"0 in ± 0.8 in\"",
    )]);
    let document = read_text(&text).unwrap();
    let solved = Solved::of(&document).unwrap();
    let off = &solved.uncertainty;
    assert!(off.expanded(NumberId::SweepBelowCut) < 1e-9);
    assert!(off.is_rough(NumberId::SweepBelowCut) && off.is_rough(NumberId::SweepShare));
    assert!(!off.is_rough(NumberId::BehindCentre));
    // By the segment formula: 3.45 - sqrt(3.45² - 0.8²) = 0.0940 in, more than a tenth of the cut.
    let within = off.in_doubt_within(NumberId::SweepBelowCut);
    assert!((within / 25.4 - 0.094_036).abs() < 1e-4, "{within}");
    let sweep = solved
        .findings
        .iter()
        .find(|finding| finding.id == FindingId::Sweep);
    assert!(sweep.is_some_and(|finding| finding.doubt.is_some()));
    // A usual reading bends its numbers by far less than its ±.
    let usual = example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"0.3 in ± 0.02 in\"",
    )]);
    let usual = Solved::of(&read_text(&usual).unwrap()).unwrap();
    assert!(
        NumberId::ALL
            .iter()
            .all(|output| !usual.uncertainty.is_rough(*output))
    );
}

#[test]
fn an_end_that_cannot_be_leaves_only_what_moves_with_it_in_doubt() {
    // The reel's radius is 3.45 in: an edge further behind centre than that meets no reel.
    let text = example(&[(
        "behind_centre: \"0.3 in\"",
        "behind_centre: \"3.44 in ± 0.02 in\"",
    )]);
    let solved = Solved::of(&read_text(&text).unwrap()).unwrap();
    for still in [FindingId::Gap, FindingId::Scrap, FindingId::Clip] {
        let finding = solved.findings.get(still).unwrap();
        assert_eq!(finding.doubt, None, "{still}");
    }
    let off = &solved.uncertainty;
    assert!(off.in_doubt_within(NumberId::ReelDiameter).is_finite());
    assert!(off.in_doubt_within(NumberId::SweepShare).is_infinite());
    for finding in solved.findings.iter() {
        let told = solved.told(finding, System::InchDecimal);
        assert!(!told.contains("inf"), "{told}");
    }
    let sweep = solved.findings.get(FindingId::Sweep).unwrap();
    let told = solved.told(sweep, System::InchDecimal);
    assert!(told.contains("units that cannot exist"), "{told}");
}

// How much a ± holds.

/// How many of so many draws lie within ± `off` of the middle, the readings evenly spread within their
/// half-widths; a general-purpose generator, independent of what is tested.
fn share_within(half_widths: &[f64], off: f64) -> f64 {
    let mut rng = TestRng::from_seed(RngAlgorithm::XorShift, b"held within a +-");
    let mut within = 0_u32;
    for _ in 0..DRAWS {
        let parts = half_widths.iter();
        let sum: f64 = parts
            .map(|half_width| half_width * (2.0 * rng.random::<f64>() - 1.0))
            .sum();
        within += u32::from(sum.abs() <= off);
    }
    f64::from(within) / f64::from(DRAWS)
}

#[test]
fn a_plus_or_minus_holds_what_it_says_whichever_reading_dominates() {
    for half_widths in [
        &[1.0][..],
        &[1.0, 0.1],
        &[1.0, 0.4, 0.4],
        &[1.0, 1.0],
        &[1.0, 1.0, 1.0],
        &[1.0, 0.9, 0.3, 0.2, 0.2],
        &[0.5, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1],
        &[1.0; 12],
    ] {
        let parts = || {
            let parts = half_widths.iter();
            parts.map(|half_width| (-1.0, standard_of_half_width(*half_width)))
        };
        let off = expanded(parts());
        let bound: f64 = half_widths.iter().sum();
        assert!(off <= bound, "{half_widths:?}: {off}");
        assert!(
            off <= 2.0 * combined(parts()) + 1e-9,
            "{half_widths:?}: {off}"
        );
        // So many draws give a share to within some 0.05 % (one standard deviation); the parts that
        // count as normal are less than 0.3 % off it.
        let held = share_within(half_widths, off);
        assert!((held - COVERAGE).abs() < 0.004, "{half_widths:?}: {held}");
    }
}

#[test]
fn draws_of_a_units_readings_lie_within_its_numbers_plus_or_minus_as_often_as_said() {
    for edits in [
        // Behind centre alone; behind centre before all others; every reading.
        vec![BENCH[3]],
        vec![BENCH[0], BENCH[1], BENCH[2], BENCH[3]],
        BENCH.to_vec(),
    ] {
        let unit = unit(&edits);
        let uncertainty = uncertainty(&unit);
        let off = uncertainty.expanded(NumberId::BehindCentre);
        let of_sweep = uncertainty.expanded(NumberId::SweepShare);
        let middle = values(&unit).unwrap();
        let mut rng = TestRng::from_seed(RngAlgorithm::XorShift, b"within as often.");
        let (mut held, mut sweep_held) = (0_u32, 0_u32);
        let count = 20_000;
        for _ in 0..count {
            let mut moved = unit.clone();
            for uncertain in &unit.uncertain {
                let part = 2.0 * rng.random::<f64>() - 1.0;
                nudge(&mut moved, uncertain.reading, part * uncertain.half_width);
            }
            let drawn = values(&moved).unwrap();
            let away = |number: NumberId| (drawn[number as usize] - middle[number as usize]).abs();
            held += u32::from(away(NumberId::BehindCentre) <= off);
            sweep_held += u32::from(away(NumberId::SweepShare) <= of_sweep);
        }
        // 20 000 draws give a share to within some 0.15 % (one standard deviation); the sweep goes
        // with the square of behind centre and bends a little besides.
        let [held, sweep_held] = [held, sweep_held].map(|held| f64::from(held) / f64::from(count));
        assert!((held - COVERAGE).abs() < 0.006, "{edits:?}: {held}");
        assert!(
            (sweep_held - COVERAGE).abs() < 0.015,
            "{edits:?}: {sweep_held}"
        );
    }
}

// A slide whose lean is not given.

const GROUND_REEL: (&str, &str) = (
    "setting: (                           // what is being tried; each left out means \"as on the bench\"\n        reel_diameter: None",
    "setting: (\n        reel_diameter: Some(\"6.6 in\")",
);

#[test]
fn a_lean_that_is_not_given_is_carried_off_the_bench_size_as_if_it_were_a_reading_of_ten_degrees() {
    let at_bench = uncertainty(&unit(&[BENCH[3]]));
    assert!(at_bench.is_lean_open());
    assert_eq!(
        paths(&at_bench, NumberId::SweepBelowCut),
        ["bench.behind_centre"]
    );
    for slides in ["ReelSlides", "KnifeSlides"] {
        let slides = slides.to_owned() + "(lean: None)";
        let closing = ("ReelSlides(lean: None)", &*slides);
        let ground = unit(&[BENCH[3], closing, GROUND_REEL]);
        let open = uncertainty(&ground);
        assert!(paths(&open, NumberId::SweepBelowCut).contains(&"closing.lean".to_owned()));
        // The bench line by hand: asin(0.3/3.45) = 4.9884 degrees.
        let given = slides.replace("None", "\"4.988384 deg ± 10 deg\"");
        let given = ("ReelSlides(lean: None)", &*given);
        let given = unit(&[given, GROUND_REEL]);
        let alone = uncertainty(&given);
        for number in [NumberId::SweepBelowCut, NumberId::BehindCentre] {
            let of = |uncertainty: &Uncertainty| {
                let ranking = uncertainty.ranking(number).into_iter();
                let mut lean = ranking.filter(|part| part.reading == Reading::Lean);
                lean.next().unwrap().standard
            };
            let (ours, wanted) = (of(&open), of(&alone));
            assert!((ours / wanted - 1.0).abs() < 1e-4, "{ours} {wanted}");
            assert!(open.expanded(number) > alone.expanded(number));
        }
    }
    assert!((LEAN_OFF.deg() - 10.0).abs() < f64::EPSILON);
}

#[test]
fn knives_are_compared_by_their_readings_whose_slide_is_one_and_the_same() {
    let ground = unit(&[BENCH[3], GROUND_REEL]);
    let of_readings = Uncertainty::of_readings(&ground, &ground.setting, ground.follows);
    assert_eq!(
        paths(&of_readings, NumberId::BehindCentre),
        ["bench.behind_centre"]
    );
}

// What is told beside a number.

#[test]
fn a_number_without_any_plus_or_minus_is_never_told_as_exact() {
    let solved = |edits: &[(&str, &str)]| Solved::of(&read_text(&example(edits)).unwrap()).unwrap();
    let none = solved(&[]);
    for number in [
        NumberId::BehindCentre,
        NumberId::SweepBelowCut,
        NumberId::ReelOverPlate,
        NumberId::ClipLength,
    ] {
        assert_eq!(none.sure(number), Sure::NotEntered, "{}", number.name());
    }
    let set = (
        "height_of_cut: None, attitude: None",
        "height_of_cut: Some(\"0.5 in\"), attitude: Some(\"4 deg\")",
    );
    let set = solved(&[set]);
    assert_eq!(set.sure(NumberId::HeightOfCut), Sure::AsSet);
    assert_eq!(set.sure(NumberId::Attitude), Sure::AsSet);
    assert_eq!(set.sure(NumberId::SweepBelowCut), Sure::NotEntered);
    // On centre the sweep has no slope by behind centre, and still rests on it.
    let on_centre = solved(&[("behind_centre: \"0.3 in\"", "behind_centre: \"0 in\"")]);
    assert_eq!(on_centre.sure(NumberId::SweepBelowCut), Sure::NotEntered);
    let ground = solved(&[GROUND_REEL]);
    assert!(matches!(
        ground.sure(NumberId::SweepBelowCut),
        Sure::ByLeanAlone(_)
    ));
    let known = solved(&[BENCH[3], GROUND_REEL]);
    assert!(matches!(known.sure(NumberId::SweepBelowCut), Sure::Off(_)));
    assert_eq!(known.sure(NumberId::ClipLength), Sure::NotEntered);
}
