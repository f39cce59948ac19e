//! Choosing a knife: usable windows, crossings, the map, the lowest height and the ranking against
//! scans that know nothing of root finding, and the table of knives from the program as run.

use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::PI;
use std::ffi::{OsStr, OsString};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use kurbo::{Line, ParamCurveNearest as _, Point};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::{Config, RngAlgorithm, RngSeed, TestRng, TestRunner};
use serde_json::Value;
use sweepgauge::analysis::CAUTION;
use sweepgauge::analysis::advice::{Advice, Way};
use sweepgauge::analysis::knives::{
    Apart, KnifeRow, Life, Limit, LowestHeight, Measured, NoAim, Over, Ranking, Trial, Verdict,
    Window, curves, lowest_height, map, rank, table, windows,
};
use sweepgauge::analysis::ranges::attitude_range;
use sweepgauge::analysis::why::{Goal, Knob, Why};
use sweepgauge::analysis::{FindingId, Lowest, Solution, Solved};
use sweepgauge::geometry::{
    Closing, GroundShape, Hardware, HardwarePoint, KnifeSection, Mount, RollerOnPlate, Setting,
    Sink, Stance, underside_on_bar,
};
use sweepgauge::store::open_unit;
use sweepgauge::unit::{
    Brackets, COLUMNS, Document, Fitted, Follows, Grinding, Knife, Limits, LookedFor, Turf, Unit,
    Wear, read_knife_rows, read_text,
};
use sweepgauge::units::{Angle, Length, Measure as _, Share, System};
use tempfile::TempDir;

use crate::common::demo_unit::DemoUnit;
use crate::common::example::{clear_example, example};
use crate::common::random_units::believable_unit;

/// Ends of windows and crossings are wanted to within this, in degrees or millimetres.
const SOLVED: f64 = 1e-9;

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

fn deg(deg: f64) -> Angle {
    Angle::from_deg(deg)
}

// Units at random.

/// Points under the knife: some of them near the ground, some of those straight below the edge,
/// where turning the unit either way lifts them.
fn on_the_bar(point: Point) -> HardwarePoint {
    HardwarePoint {
        behind: mm(point.x),
        below: mm(point.y),
        on: Mount::Bar,
    }
}

fn hardware(height_mm: f64) -> impl Strategy<Value = Vec<HardwarePoint>> + use<> {
    let anywhere = (-15.0..=60.0, 0.2..=0.9);
    let below_the_edge = (-4.0..=1.0, 0.85..=1.0);
    let point = prop_oneof![3 => anywhere, 1 => below_the_edge];
    vec(
        point.prop_map(move |(behind_mm, of_height): (f64, f64)| HardwarePoint {
            behind: mm(behind_mm),
            below: mm(of_height * height_mm),
            on: Mount::Bar,
        }),
        0..3,
    )
}

/// Any ground; the tightest hollows leave no room for both rollers at some attitudes.
fn shape() -> impl Strategy<Value = GroundShape> {
    prop_oneof![
        2 => Just(GroundShape::Level),
        1 => (200.0..=8000.0).prop_map(|radius_mm| GroundShape::Crest(mm(radius_mm))),
        1 => (300.0..=8000.0).prop_map(|radius_mm| GroundShape::Hollow(mm(radius_mm))),
        1 => (90.0..=250.0).prop_map(|radius_mm| GroundShape::Hollow(mm(radius_mm))),
    ]
}

prop_compose! {
    fn limits()(
        sweep_over in prop_oneof![3 => 0.02..=0.2, 1 => 0.2..=1.0],
        of_over in 0.2..=1.0,
        underside_mm in 0.0..=2.0,
        ahead_mm in prop_oneof![3 => 0.0..=8.0, 1 => 8.0..=40.0],
        range in option::weighted(0.15, (-5.0..=6.0, 0.5..=14.0)),
    ) -> Limits {
        Limits {
            sweep_watch: Share::from_base(sweep_over * of_over),
            sweep_over: Share::from_base(sweep_over),
            underside: mm(underside_mm),
            ahead_of_centre: mm(ahead_mm),
            attitude_range: range.map(|(low, wide)| (deg(low), deg(low + wide))),
            ..Limits::starting(Turf::Fairway, System::InchDecimal)
        }
    }
}

/// Runout of both rollers and one end lower than the other; most units have none.
fn wear() -> impl Strategy<Value = Wear> {
    let worn = (0.0..=1.0, 0.0..=1.0, 0.0..=4.0);
    let worn = worn.prop_map(|(front_mm, rear_mm, ends_mm)| Wear {
        front_runout: mm(front_mm),
        rear_runout: mm(rear_mm),
        end_difference: mm(ends_mm),
    });
    prop_oneof![3 => Just(Wear::default()), 1 => worn]
}

fn any_unit() -> impl Strategy<Value = Unit> {
    believable_unit().prop_flat_map(|bare| {
        let Stance::Wanted { height_of_cut, .. } = bare.setting.stance else {
            unreachable!("believable units are set as wanted")
        };
        let sink_mm = prop_oneof![Just(0.0), 0.0..=3.0, 0.0..=20.0];
        (
            hardware(height_of_cut.mm()),
            limits(),
            shape(),
            sink_mm,
            0.88..=1.0,
            wear(),
        )
            .prop_map(move |(hardware, limits, shape, sink_mm, left, wear)| Unit {
                profile: bare.profile,
                setting: bare.setting,
                fitted: Fitted::Bench,
                follows: Follows::NONE,
                hardware: Hardware::new(hardware),
                new_diameter: bare.profile.bench.reel_diameter * 1.01,
                smallest_diameter: bare.profile.bench.reel_diameter * left,
                blades: 8,
                mowing: None,
                shape,
                sink: Sink::of_both(mm(sink_mm)),
                brackets: Brackets::default(),
                grinding: Grinding::default(),
                wear,
                looked_for: LookedFor::default(),
                limits,
                uncertain: Vec::new(),
                system: System::Millimetre,
            })
    })
}

/// The same units every time; `PROPTEST_RNG_SEED` looks at others.
pub fn units(how_many: usize, is_wanted: impl Fn(&Unit) -> bool) -> Vec<Unit> {
    let mut config = Config::default();
    if config.rng_seed == RngSeed::Random {
        config.rng_seed = RngSeed::Fixed(1);
    }
    let mut runner = TestRunner::new(config);
    let strategy = any_unit();
    std::iter::repeat_with(|| strategy.new_tree(&mut runner).unwrap().current())
        .filter(is_wanted)
        .take(how_many)
        .collect()
}

/// The attitude and height of cut a unit's setting wants.
pub fn trial_of(unit: &Unit) -> Trial {
    let Stance::Wanted {
        attitude,
        height_of_cut,
    } = unit.setting.stance
    else {
        panic!("rollers given")
    };
    Trial {
        attitude,
        height_of_cut,
    }
}

// The limits a second time, from the numbers the findings are about.

const JUDGED: [Limit; 10] = [
    Limit::Sweep,
    Limit::Reel,
    Limit::Cut,
    Limit::Underside,
    Limit::Ahead,
    Limit::LowEnd,
    Limit::LowEndUnderside,
    Limit::Lip,
    Limit::TopFace,
    Limit::Rollers,
];

/// What is left before each limit of [`JUDGED`] is reached, in millimetres.
type Left = [f64; JUDGED.len()];

fn left(unit: &Unit, tried: &Setting, solution: &Solution) -> Left {
    let limits = &unit.limits;
    let most_sweep = limits.sweep_over.of_one() * solution.pose.height_of_cut.mm();
    let knife = &tried.knife;
    let [front, top] =
        [knife.front_angle, knife.top_angle].map(|angle| angle.map_or(0.0, Angle::rad));
    // Where the two ground faces meet, from where they met when new.
    let between = (front + top).cos();
    let (top_ground, face_ground) = (knife.top_ground.mm(), knife.face_ground.mm());
    let down = (top_ground * front.cos() + face_ground * top.sin()) / between;
    let back = (top_ground * front.sin() + face_ground * top.cos()) / between;
    let is_ground_away = knife.lip_thickness.mm() <= down || knife.lip_length.mm() <= back;
    let wear = &unit.wear;
    let at_low_side = |clear: Length| {
        let worn = [wear.front_runout, wear.rear_runout, wear.end_difference];
        if worn.iter().any(|worn| worn.mm() != 0.0) {
            clear.mm()
        } else {
            f64::INFINITY
        }
    };
    let radius_mm = solution.pose.reel_radius_mm;
    [
        most_sweep - solution.sweep.below_cut.mm(),
        solution.on_ground.reel_clearance.mm(),
        solution.on_ground.cut.mm(),
        solution.on_ground.underside_clearance.mm() - limits.underside.mm(),
        solution.sweep.behind_centre.mm() + limits.ahead_of_centre.mm(),
        at_low_side(solution.on_ground.reel_at_low_end),
        at_low_side(solution.on_ground.underside_at_low_end),
        if is_ground_away {
            f64::NEG_INFINITY
        } else {
            solution.lip_bottom_on_plate.y
        },
        solution
            .top_face_clearance
            .map_or(f64::INFINITY, |clear| clear.rad() * radius_mm),
        roller_to_knife_mm(unit, tried, solution),
    ]
}

/// How clear the nearer roller stands of the knife's front face, underside and back.
fn roller_to_knife_mm(unit: &Unit, tried: &Setting, solution: &Solution) -> f64 {
    let pose = &solution.pose;
    let [lip_front, lip_back, body_front, body_back] = underside_on_bar(&unit.profile, tried);
    let edge = Point::from(tried.edge_on_bar(&unit.profile));
    let top_back = Point::new(body_back.x, 0.0);
    let outline = [edge, lip_front, lip_back, body_front, body_back, top_back];
    let outline = outline.map(|on_bar| pose.plate_from_bar() * on_bar);
    let to_roller = |roller: &RollerOnPlate| {
        let sides = outline.windows(2).map(|side| {
            let nearest = Line::new(side[0], side[1]).nearest(roller.centre, 1e-9);
            nearest.distance_sq.sqrt() - roller.radius_mm
        });
        sides.fold(f64::INFINITY, f64::min)
    };
    to_roller(&pose.front_roller).min(to_roller(&pose.rear_roller))
}

/// A unit in one setting, tried at any attitude and height.
#[derive(Clone, Copy)]
pub struct Tried<'a> {
    pub unit: &'a Unit,
    pub setting: &'a Setting,
    pub height: Length,
}

impl Tried<'_> {
    pub fn solve(&self, at_deg: f64) -> Option<Solution> {
        let stance = Stance::Wanted {
            attitude: deg(at_deg),
            height_of_cut: self.height,
        };
        let tried = Setting {
            stance,
            ..*self.setting
        };
        Solution::of(self.unit, &tried).ok()
    }

    fn left(&self, at_deg: f64) -> Option<Left> {
        Some(left(self.unit, self.setting, &self.solve(at_deg)?))
    }

    pub fn margin(&self, limit: Limit, at_deg: f64) -> Option<f64> {
        let place = JUDGED.iter().position(|&judged| judged == limit)?;
        Some(self.left(at_deg)?[place])
    }

    pub fn holds(&self, at_deg: f64) -> bool {
        self.left(at_deg)
            .is_some_and(|left| left.iter().all(|&left| left >= 0.0))
    }

    pub fn windows(&self) -> Vec<Window> {
        windows(self.unit, self.setting, self.height)
    }

    pub fn range(&self) -> (f64, f64) {
        let (low, high) = attitude_range(&self.unit.limits);
        (low.deg(), high.deg())
    }
}

/// Even steps from one place to another, both included.
pub fn steps(low: f64, high: f64, how_many: u32) -> impl Iterator<Item = f64> {
    (0..=how_many).map(move |step| low + (high - low) * f64::from(step) / f64::from(how_many))
}

/// Looks at one end of a window: `out` leads out of it, up or down.
fn check_end(tried: &Tried, at: f64, out: f64, limit: Limit) {
    let (inside, outside) = (at - out * 2.0 * SOLVED, at + out * 2.0 * SOLVED);
    match limit {
        Limit::Range => {
            let (low, high) = tried.range();
            assert_eq!(at.to_bits(), if out < 0.0 { low } else { high }.to_bits());
        }
        Limit::Reach => {
            assert!(tried.solve(inside).is_some(), "{at}");
            assert!(tried.solve(outside).is_none(), "{at}");
        }
        _ => {
            let margin = |at| tried.margin(limit, at);
            // Beside a place past which no unit can be built, a slope may be as steep as it likes.
            let around = [inside, at, outside].map(margin);
            let [Some(inside), Some(here), Some(outside)] = around else {
                panic!("{limit:?} at {at}: {around:?}")
            };
            let slope =
                (margin(at + 1e-5).unwrap_or(outside) - margin(at - 1e-5).unwrap_or(outside)).abs()
                    / 2e-5;
            assert!(
                here.abs() <= 1e-7_f64.max(slope * SOLVED),
                "{limit:?} at {at}: {here} mm left"
            );
            // Rounding over hundreds of millimetres, and thousands where the ground is round.
            let is_steep = slope * 2.0 * SOLVED > 2e-11;
            assert!(
                !is_steep || (inside > 0.0 && outside < 0.0),
                "{limit:?} at {at}: {inside} inside, {outside} outside"
            );
        }
    }
}

/// Compares the windows of a setting with a scan, and gives them.
fn check_windows(tried: &Tried, scan_steps: u32) -> Vec<Window> {
    let found = tried.windows();
    let (low, high) = tried.range();
    let ends: Vec<(f64, f64)> = found
        .iter()
        .map(|window| (window.low.deg(), window.high.deg()))
        .collect();
    for &(from, to) in &ends {
        assert!(low <= from && from < to && to <= high, "{ends:?}");
        assert!(tried.holds(f64::midpoint(from, to)), "{ends:?} invented");
    }
    for pair in ends.windows(2) {
        let ((_, end), (begin, _)) = (pair[0], pair[1]);
        assert!(end < begin, "{ends:?} not in order");
        assert!(
            !tried.holds(f64::midpoint(end, begin)),
            "{ends:?} not apart"
        );
    }
    let exists = |at: f64| tried.solve(at).map(|_| 0.0);
    for at in places(exists, low, high, scan_steps) {
        let is_inside = ends
            .iter()
            .any(|&(from, to)| from + SOLVED < at && at < to - SOLVED);
        let is_outside = ends
            .iter()
            .all(|&(from, to)| at < from - SOLVED || to + SOLVED < at);
        let holds = tried.holds(at);
        assert!(holds || !is_inside, "{at} fails in {found:?}");
        assert!(!holds || !is_outside, "{at} holds beside {found:?}");
    }
    for window in &found {
        check_end(tried, window.low.deg(), -1.0, window.low_limit);
        check_end(tried, window.high.deg(), 1.0, window.high_limit);
    }
    found
}

#[test]
fn every_window_is_what_a_scan_of_the_attitudes_finds() {
    use Limit::{Ahead, LowEnd, LowEndUnderside, Range, Reel, Sweep, Underside};

    let (mut lows, mut highs) = (BTreeSet::new(), BTreeSet::new());
    let (mut several, mut none) = (0, 0);
    for unit in units(2500, |_| true) {
        let tried = Tried {
            unit: &unit,
            setting: &unit.setting,
            height: trial_of(&unit).height_of_cut,
        };
        let found = check_windows(&tried, 500);
        lows.extend(found.iter().map(|window| window.low_limit));
        highs.extend(found.iter().map(|window| window.high_limit));
        several += u32::from(found.len() > 1);
        none += u32::from(found.is_empty());
    }
    // The units at random must be of every kind, or this has shown little.
    assert!(lows.is_superset(&BTreeSet::from([Sweep, Reel, Underside, Ahead, Range])));
    assert!(highs.is_superset(&BTreeSet::from([Sweep, Reel, Underside, Range])));
    let both: BTreeSet<_> = lows.union(&highs).copied().collect();
    assert!(
        both.is_superset(&BTreeSet::from([LowEnd, LowEndUnderside])),
        "{both:?}"
    );
    assert!(several > 0 && none > 100, "{several}, {none}");
}

/// Hardware of many points: on an arc under the knife, and strewn about inside it.
fn much_hardware(unit: &Unit, random: &mut impl FnMut() -> f64) -> Vec<Point> {
    let height_mm = trial_of(unit).height_of_cut.mm();
    let (most, middle, reach) = (0.2 + 0.6 * random(), 40.0 * random(), 5.0 + 30.0 * random());
    let at = |round: f64, out: f64| {
        let (up, along) = (PI * round).sin_cos();
        Point::new(middle + reach * along * out, height_mm * most * up * out)
    };
    let arc = (0_u8..=60).map(|step| at(f64::from(step) / 60.0, 1.0));
    let mut points: Vec<_> = arc.collect();
    points.extend((0..60).map(|_| at(random(), random())));
    points
}

#[test]
fn of_much_hardware_every_point_counts() {
    let (mut hardware_lowest, mut ended) = (0, 0);
    let mut random = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let mut random = || random.random_range(0.0..1.0);
    for mut unit in units(60, |_| true) {
        let points = much_hardware(&unit, &mut random);
        unit.hardware = Hardware::new(points.into_iter().map(on_the_bar).collect());
        // So that it is the hardware that ends a window.
        unit.limits.sweep_over = Share::from_base(1.0);
        unit.limits.ahead_of_centre = mm(40.0);
        let tried = Tried {
            unit: &unit,
            setting: &unit.setting,
            height: trial_of(&unit).height_of_cut,
        };
        let (low, high) = tried.range();
        for solution in steps(low, high, 100).filter_map(|at| tried.solve(at)) {
            let corners = underside_on_bar(&unit.profile, &unit.setting);
            let hardware = unit.hardware_on_bar(&unit.setting);
            let points = corners.into_iter().chain(hardware);
            let on_plate = points.map(|on_bar| solution.pose.plate_from_bar() * on_bar);
            let clear = on_plate.map(|point| solution.terrain.clearance(point).mm());
            let least = clear.fold(f64::INFINITY, f64::min);
            let told = solution.on_ground.underside_clearance.mm();
            assert!((told - least).abs() < 1e-9, "{told} against {least}");
            hardware_lowest += u32::from(solution.on_ground.lowest != Lowest::Knife);
        }
        let found = check_windows(&tried, 200);
        let is_underside =
            |window: &Window| [window.low_limit, window.high_limit].contains(&Limit::Underside);
        ended += u32::from(found.iter().any(is_underside));
    }
    assert!(
        hardware_lowest > 500 && ended > 2,
        "{hardware_lowest}, {ended}"
    );
}

/// So tight a hollow that at one end of the range the rollers have no room in it: just before
/// that, everything is as steep as it likes.
#[test]
fn a_window_beside_a_place_where_nothing_can_stand_is_what_a_scan_finds() {
    let has_border = |unit: &Unit| {
        let tried = Tried {
            unit,
            setting: &unit.setting,
            height: trial_of(unit).height_of_cut,
        };
        let (low, high) = tried.range();
        tried.solve(low).is_some() != tried.solve(high).is_some()
    };
    let mut ends = BTreeSet::new();
    for unit in units(250, has_border) {
        let tried = Tried {
            unit: &unit,
            setting: &unit.setting,
            height: trial_of(&unit).height_of_cut,
        };
        for window in check_windows(&tried, 250) {
            ends.extend([window.low_limit, window.high_limit]);
        }
    }
    assert!(ends.contains(&Limit::Reach) && ends.len() > 3, "{ends:?}");
}

/// The example with a stop bolt straight below the edge, near the ground, and much sweep allowed:
/// tipped forward or back the bolt clears, in between it does not.
fn with_stop_bolt(below_mm: f64) -> String {
    let bolt = format!("hardware: [(behind: \"-1.33 mm\", below: \"{below_mm} mm\"), ");
    clear_example(&[
        ("hardware: [", &bolt),
        (
            "limits: None,",
            "limits: Some((sweep_over: \"30 %\", underside: \"0.5 mm\")),",
        ),
    ])
}

#[test]
fn windows_that_lie_apart_are_reported_one_by_one() {
    // The last two leave a gap of 0.3 and of less than 0.1 degrees.
    for below_mm in [12.18, 12.127_33, 12.127_29] {
        let solved = Solved::of(&document(&with_stop_bolt(below_mm))).unwrap();
        let tried = Tried {
            unit: &solved.unit,
            setting: &solved.unit.setting,
            height: solved.solution.pose.height_of_cut,
        };
        let found = check_windows(&tried, 5000);
        let limits: Vec<_> = found.iter().map(|w| (w.low_limit, w.high_limit)).collect();
        assert_eq!(
            limits,
            [
                (Limit::Ahead, Limit::Underside),
                (Limit::Underside, Limit::Sweep)
            ],
            "{below_mm}"
        );
        // The bolt swings about the edge on its own radius, lowest where it is straight below.
        let behind_mm = -1.33_f64;
        let straight_down = (-behind_mm).atan2(below_mm).to_degrees();
        let radius_mm = behind_mm.hypot(below_mm);
        let aside = ((12.7 - 0.5) / radius_mm).acos().to_degrees();
        assert!((found[0].high.deg() - (straight_down - aside)).abs() < SOLVED);
        assert!((found[1].low.deg() - (straight_down + aside)).abs() < SOLVED);
    }
}

#[test]
fn the_attitudes_searched_are_those_the_brackets_allow() {
    let ranges = [
        (None, (-5.0, 20.0)),
        (Some(("3 deg", "5.5 deg")), (3.0, 5.5)),
        (Some(("-20 deg", "60 deg")), (-20.0, 60.0)),
        (Some(("16 deg", "19 deg")), (16.0, 19.0)),
    ];
    for (given, (low, high)) in ranges {
        let limits = given.map_or("limits: None,".to_owned(), |(low, high)| {
            format!("limits: Some((attitude_range: Some((low: \"{low}\", high: \"{high}\")))),")
        });
        let solved = Solved::of(&document(&clear_example(&[("limits: None,", &limits)]))).unwrap();
        let tried = Tried {
            unit: &solved.unit,
            setting: &solved.unit.setting,
            height: solved.solution.pose.height_of_cut,
        };
        assert_eq!(tried.range(), (low, high));
        let found = check_windows(&tried, 500);
        let ends: Vec<_> = found.iter().map(|w| (w.low_limit, w.high_limit)).collect();
        match given {
            Some(("3 deg", _)) => {
                assert_eq!(ends, [(Limit::Range, Limit::Range)]);
                assert_eq!((found[0].low, found[0].high), (deg(3.0), deg(5.5)));
            }
            Some(("16 deg", _)) => assert!(ends.is_empty(), "{found:?}"),
            _ => assert_eq!(ends, [(Limit::Ahead, Limit::Sweep)]),
        }
    }
}

// Curves.

/// Places to scan: even steps, and ever finer ones towards where no unit can be built any more.
fn places(value: impl Fn(f64) -> Option<f64>, low: f64, high: f64, how_many: u32) -> Vec<f64> {
    let even: Vec<(f64, bool)> = steps(low, high, how_many)
        .map(|at| (at, value(at).is_some()))
        .collect();
    let mut places: Vec<f64> = even.iter().map(|(at, _)| *at).collect();
    for pair in even.windows(2) {
        let (mut exists, mut gone) = match *pair {
            [(from, true), (to, false)] => (from, to),
            [(from, false), (to, true)] => (to, from),
            _ => continue,
        };
        let from = exists;
        while (gone - exists).abs() > 1e-12 {
            let middle = f64::midpoint(exists, gone);
            if value(middle).is_some() {
                exists = middle;
            } else {
                gone = middle;
            }
        }
        let towards = |part: f64| exists + (from - exists) * part * part;
        places.extend(steps(0.0, 1.0, 40).take(40).map(towards));
    }
    places.sort_by(f64::total_cmp);
    places
}

/// Where a margin changes sign between two places, by halving.
fn halved(margin: impl Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    let (mut from, mut to) = (from, to);
    let is_below = margin(from) < 0.0;
    while to - from > 1e-12 {
        let middle = f64::midpoint(from, to);
        if (margin(middle) < 0.0) == is_below {
            from = middle;
        } else {
            to = middle;
        }
    }
    f64::midpoint(from, to)
}

/// What a curve is to run over.
fn scanned_range(unit: &Unit, over: Over) -> (f64, f64) {
    match over {
        Over::Diameter => (unit.smallest_diameter.mm(), unit.new_diameter.mm()),
        Over::Attitude => {
            let (low, high) = attitude_range(&unit.limits);
            (low.deg(), high.deg())
        }
        Over::Extension => (-12.7, 12.7),
    }
}

/// The limits a curve is to be held against, in millimetres.
fn limits_of(unit: &Unit, trial: &Trial, measured: Measured) -> Vec<(&'static str, f64)> {
    let of_cut = |share: Share| share.of_one() * trial.height_of_cut.mm();
    match measured {
        Measured::Sweep => vec![
            ("watch", of_cut(unit.limits.sweep_watch)),
            ("over", of_cut(unit.limits.sweep_over)),
        ],
        Measured::BehindCentre => {
            vec![("ahead of centre", -unit.limits.ahead_of_centre.mm())]
        }
        Measured::Underside => vec![("least underside", unit.limits.underside.mm())],
    }
}

#[test]
fn every_crossing_of_a_curve_is_where_a_scan_finds_a_change_of_sign() {
    let mut seen: BTreeMap<&str, u32> = BTreeMap::new();
    for unit in units(90, |_| true) {
        let trial = trial_of(&unit);
        let knife = unit.setting.knife;
        let trying = |over: Over, at: f64| {
            let mut setting = unit.setting;
            match over {
                Over::Diameter => setting.reel_diameter = mm(at),
                Over::Extension => setting.extension = mm(at),
                Over::Attitude => {
                    setting.stance = Stance::Wanted {
                        attitude: deg(at),
                        height_of_cut: trial.height_of_cut,
                    }
                }
            }
            Solution::of(&unit, &setting).ok()
        };
        let kinds = Over::ALL
            .into_iter()
            .flat_map(|over| Measured::ALL.map(|measured| (over, measured)));
        for (over, measured) in kinds {
            let value = |at: f64| {
                let solution = trying(over, at)?;
                Some(match measured {
                    Measured::Sweep => solution.sweep.below_cut.mm(),
                    Measured::BehindCentre => solution.sweep.behind_centre.mm(),
                    Measured::Underside => solution.on_ground.underside_clearance.mm(),
                })
            };
            let (low, high) = scanned_range(&unit, over);
            let limits = limits_of(&unit, &trial, measured);
            let index = Measured::ALL.iter().position(|m| *m == measured).unwrap();
            let drawn = &curves(&unit, &trial, knife, over)[index];
            for &[at, at_mm] in drawn.pieces.iter().flatten() {
                assert_eq!(value(at), Some(at_mm));
            }
            let scanned = places(value, low, high, 800);
            let named: BTreeSet<_> = drawn.crossings.iter().map(|c| c.limit.name).collect();
            assert!(named.iter().all(|name| limits.iter().any(|l| l.0 == *name)));
            for (name, limit_mm) in limits {
                let margin = |at: f64| value(at).map(|value| value - limit_mm);
                let found: Vec<f64> = drawn
                    .crossings
                    .iter()
                    .filter(|crossing| crossing.limit.name == name)
                    .inspect(|crossing| assert_eq!(crossing.limit.at, mm(limit_mm)))
                    .map(|crossing| crossing.at)
                    .collect();
                for pair in scanned.windows(2) {
                    let (Some(a), Some(b)) = (margin(pair[0]), margin(pair[1])) else {
                        continue;
                    };
                    let here: Vec<f64> = found
                        .iter()
                        .copied()
                        .filter(|&at| pair[0] < at && at <= pair[1])
                        .collect();
                    let changes = (a < 0.0) != (b < 0.0);
                    let said = || format!("{over:?} {measured:?} {name}: {here:?} in {pair:?}");
                    assert_eq!(here.len() % 2 == 1, changes, "{}", said());
                    if changes && let [at] = here[..] {
                        let wanted = halved(|at| margin(at).unwrap_or(a), pair[0], pair[1]);
                        assert!((at - wanted).abs() < SOLVED, "{}: {wanted}", said());
                        *seen.entry(over.name()).or_default() += 1;
                        *seen.entry(measured.name()).or_default() += 1;
                        *seen.entry(name).or_default() += 1;
                    }
                }
                for &at in &found {
                    let around = [at - 2.0 * SOLVED, at, at + 2.0 * SOLVED].map(margin);
                    let [Some(before), Some(here), Some(after)] = around else {
                        continue;
                    };
                    let is_steep = (after - before).abs() > 4e-11;
                    let is_solved = before * after < 0.0 || !is_steep && here.abs() < 1e-7;
                    assert!(
                        is_solved,
                        "{over:?} {measured:?} {name} at {at}: {around:?}"
                    );
                }
            }
        }
    }
    assert!(seen.len() == 10, "{seen:?}");
}

// The map.

#[test]
fn every_row_of_the_map_is_the_windows_at_its_diameter_with_exact_borders() {
    use Limit::{Ahead, Reach, Reel, Sweep, Underside};

    let mut seen = BTreeSet::new();
    for unit in units(60, |_| true) {
        let trial = trial_of(&unit);
        let knife = unit.setting.knife;
        let drawn = map(&unit, &trial, knife);
        let diameters: Vec<f64> = drawn.rows.iter().map(|row| row.diameter.mm()).collect();
        assert!(diameters.len() >= 25 && diameters.is_sorted());
        assert_eq!(diameters.first(), Some(&unit.smallest_diameter.mm()));
        assert_eq!(diameters.last(), Some(&unit.new_diameter.mm()));
        for row in &drawn.rows {
            let setting = Setting {
                reel_diameter: row.diameter,
                ..unit.setting
            };
            let tried = Tried {
                unit: &unit,
                setting: &setting,
                height: trial.height_of_cut,
            };
            let (low, high) = tried.range();
            let spans = &row.spans;
            assert_eq!(spans.first().unwrap().low, deg(low));
            assert_eq!(spans.last().unwrap().high, deg(high));
            assert!(spans.windows(2).all(|pair| pair[0].high == pair[1].low));
            let within = row.windows();
            let bands: Vec<_> = within.iter().map(|b| (b.low, b.high)).collect();
            let found: Vec<_> = tried.windows().iter().map(|w| (w.low, w.high)).collect();
            assert_eq!(bands, found);
            for limit in JUDGED {
                let bands = row.bands(limit);
                let ends: Vec<f64> = bands
                    .iter()
                    .flat_map(|band| [band.low.deg(), band.high.deg()])
                    .collect();
                assert!(ends.is_sorted(), "{ends:?}");
                for &end in &ends {
                    let around = [end - 2.0 * SOLVED, end, end + 2.0 * SOLVED]
                        .map(|at| tried.margin(limit, at));
                    if let [Some(before), Some(here), Some(after)] = around
                        && end > low
                        && end < high
                    {
                        let is_steep = (after - before).abs() > 4e-11;
                        let is_border = before * after < 0.0 || !is_steep && here.abs() < 1e-7;
                        assert!(is_border, "{limit:?} at {end}: {around:?}");
                        seen.insert(limit);
                    }
                }
                for at in steps(low, high, 120) {
                    if ends.iter().any(|end| (end - at).abs() < SOLVED) {
                        continue;
                    }
                    let is_banned = bands
                        .iter()
                        .any(|band| band.low.deg() < at && at < band.high.deg());
                    let is_passed = tried.margin(limit, at).is_some_and(|left| left < 0.0);
                    assert_eq!(is_banned, is_passed, "{limit:?} at {at}: {bands:?}");
                }
            }
            for band in row.bands(Limit::Reach) {
                let middle = f64::midpoint(band.low.deg(), band.high.deg());
                assert!(tried.solve(middle).is_none());
                seen.insert(Limit::Reach);
            }
        }
    }
    assert!(seen.is_superset(&BTreeSet::from([Sweep, Reel, Underside, Ahead, Reach])));
}

// The lowest height of cut.

#[test]
fn below_the_lowest_height_there_is_less_than_the_least_room_and_at_it_as_much() {
    let (mut found, mut never) = (0, 0);
    for unit in units(80, |_| true) {
        let any_at = |height_mm: f64| {
            let tried = Tried {
                unit: &unit,
                setting: &unit.setting,
                height: mm(height_mm),
            };
            let (low, high) = tried.range();
            let is_scanned = steps(low, high, 100).any(|at| tried.holds(at));
            let found = tried.windows();
            assert!(!found.is_empty() || !is_scanned, "at {height_mm}");
            found
                .iter()
                .any(|window| window.width() >= unit.limits.room)
        };
        let setting = &unit.setting;
        if let Some(lowest) = lowest_height(&unit, setting, setting.knife, setting.reel_diameter) {
            let lowest = lowest.mm();
            assert!(any_at(lowest + 1e-6), "none at {lowest}");
            let is_searched_from = lowest <= 0.5;
            let lower = steps(0.5, lowest - 1e-6, 50).filter(|_| !is_searched_from);
            for height_mm in lower {
                assert!(!any_at(height_mm), "{height_mm} under {lowest}");
            }
            found += u32::from(!is_searched_from);
        } else {
            for height_mm in steps(0.5, 120.0, 25) {
                assert!(!any_at(height_mm), "{height_mm}, but none told");
            }
            never += 1;
        }
    }
    assert!(found > 40 && never > 0, "{found}, {never}");
}

#[test]
fn the_lowest_height_is_that_of_the_knife_and_diameter_asked_for() {
    let solved = Solved::of(&document(&example(&[]))).unwrap();
    let unit = &solved.unit;
    let thick = KnifeSection {
        body_thickness: unit.setting.knife.body_thickness * 1.5,
        ..unit.setting.knife
    };
    for (knife, diameter) in [
        (unit.setting.knife, unit.new_diameter),
        (thick, unit.smallest_diameter),
    ] {
        let lowest = lowest_height(unit, &unit.setting, knife, diameter).unwrap();
        let setting = Setting {
            knife,
            reel_diameter: diameter,
            ..unit.setting
        };
        let any_at = |height: Length| {
            let found = windows(unit, &setting, height);
            found.iter().any(|window| window.width().deg() >= 1.0)
        };
        assert!(any_at(lowest + mm(1e-6)) && !any_at(lowest - mm(1e-6)));
    }
}

#[test]
fn a_top_face_that_may_have_too_little_relief_leaves_the_lowest_height_undecided() {
    let lowest_and_verdict = |top_angle: &str| {
        let text = clear_example(&[(
            "        body_thickness: \"0.25 in\",\n    ),\n    hardware",
            &format!("        body_thickness: \"0.25 in\",{top_angle}\n    ),\n    hardware"),
        )]);
        let solved = Solved::of(&document(&text)).unwrap();
        let unit = &solved.unit;
        let knife = (Fitted::Bench, unit.setting.knife);
        let lowest = LowestHeight::of(unit, &unit.setting, knife, unit.new_diameter);
        (lowest, table(&solved)[0].judgement.verdict)
    };
    let (plain, verdict) = lowest_and_verdict("");
    assert!(plain.height.is_some() && !plain.is_top_face_undecided);
    assert_eq!(verdict, Verdict::Fits);
    // The reel needs about -1 degree of relief.
    for (angle, is_undecided, verdict) in [
        ("1 deg", false, Verdict::Fits),
        ("-1.5 deg ± 1 deg", true, Verdict::CannotTell),
        ("-3 deg", false, Verdict::DoesNotFit),
    ] {
        let (lowest, judged) = lowest_and_verdict(&format!(" top_angle: \"{angle}\","));
        assert_eq!(lowest.is_top_face_undecided, is_undecided, "{angle}");
        assert_eq!(judged, verdict, "{angle}");
        let stands = judged != Verdict::DoesNotFit;
        let height = plain.height.filter(|_| stands);
        assert_eq!(lowest.height, height, "{angle}");
    }
}

#[test]
fn a_ground_knife_keeps_its_edge_where_its_top_face_is_undecided() {
    // Off the front face, the angle of the top face moves the edge: 1 mm at 5 deg by
    // 1 mm · sin 5 deg / cos 5 deg = 0.0875 mm down.
    let solved_with = |angle: &str| {
        let text = clear_example(&[(
            "        body_thickness: \"0.25 in\",\n    ),\n    hardware",
            &format!(
                "        body_thickness: \"0.25 in\", top_angle: \"{angle}\", face_ground: \"1 mm\"\n    ),\n    hardware"
            ),
        )]);
        Solved::of(&document(&text)).unwrap()
    };
    let solved = solved_with("5 deg ± 20 deg");
    let unit = &solved.unit;
    let knife = unit.setting.knife;
    let edge = knife.edge_from_unground();
    let flat = KnifeSection {
        top_angle: None,
        ..knife
    };
    assert!((edge.y - flat.edge_from_unground().y - 0.0875).abs() < 1e-4);
    let lowest = |solved: &Solved, knife: KnifeSection| {
        let unit = &solved.unit;
        LowestHeight::of(
            unit,
            &unit.setting,
            (Fitted::Bench, knife),
            unit.new_diameter,
        )
    };
    let undecided = lowest(&solved, knife);
    assert!(undecided.is_top_face_undecided);
    // The same angle known exactly leaves the same edge, and clears the reel.
    let exact = solved_with("5 deg");
    let decided = lowest(&exact, exact.unit.setting.knife);
    assert!(!decided.is_top_face_undecided);
    let [undecided, decided] = [undecided, decided].map(|lowest| lowest.height.unwrap().mm());
    assert!((undecided - decided).abs() < 1e-8, "{undecided} {decided}");
    let without_angle = lowest(&exact, flat).height.unwrap().mm();
    assert!((undecided - without_angle).abs() > 1e-3, "{without_angle}");
}

// More reach.

/// With a sliding reel the centre keeps to its line, so an edge further ahead along the datum
/// stands nearer below it, and the unit may be tipped by just that much more before the line of
/// centres leans as far as the sweep allows. With a pivot the centre leaves its line: no such rule.
#[test]
fn an_edge_further_ahead_may_have_more_attitude_where_the_reel_slides() {
    let slides = |unit: &Unit| matches!(unit.profile.closing, Closing::ReelSlides { .. });
    let mut compared = 0;
    for unit in units(400, slides) {
        let trial = trial_of(&unit);
        let mut ends = Vec::new();
        for more in [0.0, 0.5, 3.0, 6.0] {
            let mut knife = unit.setting.knife;
            knife.reach = knife.reach + mm(more);
            let setting = trial.setting(&unit, knife, unit.setting.reel_diameter);
            let found = windows(&unit, &setting, trial.height_of_cut);
            let Ok(solution) = Solution::of(&unit, &setting) else {
                continue;
            };
            let sweep = &solution.sweep;
            let lean = sweep
                .behind_centre
                .mm()
                .atan2(solution.pose.centre_on_plate.y - solution.pose.edge_on_plate.y)
                .to_degrees();
            if let Some(window) = found.last()
                && window.high_limit == Limit::Sweep
            {
                ends.push((window.high.deg(), lean));
            }
        }
        for pair in ends.windows(2) {
            let ((less, leans), (more, leans_less)) = (pair[0], pair[1]);
            assert!(more > less, "{ends:?}");
            assert!(
                (more - less - (leans - leans_less)).abs() < SOLVED,
                "{ends:?}"
            );
            compared += 1;
        }
    }
    assert!(compared > 100, "{compared}");
}

// The table and its ranking.

pub fn document(text: &str) -> Document {
    read_text(text).unwrap()
}

pub fn ranked(document: &Document) -> (Vec<KnifeRow>, Ranking) {
    let solved = Solved::of(document).unwrap();
    let rows = table(&solved);
    let ranking = rank(&rows, &solved, solved.unit.system);
    (rows, ranking)
}

#[test]
fn the_table_has_the_numbers_and_windows_of_each_knife_through_the_reels_life() {
    let (mut without, mut rows_in_all) = (Vec::new(), 0);
    for file in DemoUnit::files() {
        let document = open_unit(&file).unwrap();
        let solved = Solved::of(&document).unwrap();
        let unit = &solved.unit;
        let (rows, _) = ranked(&document);
        let knives: Vec<&Knife> = document.knives().map(|(_, knife)| knife).collect();
        assert_eq!(rows.len(), knives.len());
        for (row, knife) in rows.iter().zip(knives) {
            assert_eq!(row.name, knife.name);
            let pose = &solved.solution.pose;
            let stance = Stance::Wanted {
                attitude: pose.attitude,
                height_of_cut: pose.height_of_cut,
            };
            let setting = Setting {
                knife: document.section_of(row.knife, knife),
                stance,
                ..unit.setting
            };
            assert_eq!(row.solution, Solution::of(unit, &setting));
            let further = knife.reach.value() - document.knife.reach.value();
            assert_eq!(row.extension, further + unit.setting.extension);
            let diameters = [
                unit.new_diameter,
                unit.setting.reel_diameter,
                unit.smallest_diameter,
            ];
            for ((reel, life), diameter) in row.life.iter().zip(Life::ALL).zip(diameters) {
                assert_eq!((reel.life, reel.diameter), (life, diameter));
                let setting = Setting {
                    reel_diameter: diameter,
                    ..setting
                };
                let tried = Tried {
                    unit,
                    setting: &setting,
                    height: pose.height_of_cut,
                };
                assert_eq!(check_windows(&tried, 500), reel.windows);
            }
            let tried = Tried {
                unit,
                setting: &setting,
                height: pose.height_of_cut,
            };
            let windows = &row.at(Life::Now).windows;
            let holds = |attitude: Angle| {
                let mut windows = windows.iter();
                windows.any(|window| (window.low..=window.high).contains(&attitude))
            };
            match row.aim {
                Ok(aim) => {
                    assert!(holds(aim.attitude), "{}: {aim:?}", row.name);
                    let there = tried.solve(aim.attitude.deg()).unwrap();
                    assert_eq!(aim.rear_roller, there.pose.rear_roller.moved);
                }
                Err(NoAim::DoesNotMeet) => assert!(row.solution.is_err(), "{}", row.name),
                Err(NoAim::NoRange) => assert!(windows.is_empty(), "{}", row.name),
                Err(NoAim::EdgeInGround) => {
                    assert!(!windows.is_empty() && pose.height_of_cut.mm() <= 0.0);
                }
                Err(NoAim::OutsideRange(attitude)) => {
                    assert!(!windows.is_empty() && !holds(attitude), "{}", row.name);
                }
                Err(NoAim::NoneClears) => assert!(!windows.is_empty(), "{}", row.name),
            }
            if let Err(why) = row.aim {
                without.push((row.name.clone(), why));
            }
            rows_in_all += 1;
        }
    }
    // Its working range holds no place as far from the limits as an aim is set.
    let plain = NoAim::OutsideRange(Angle::from_deg(4.5));
    let tee = ("tee, plain".to_owned(), plain);
    assert_eq!((rows_in_all, without), (18, vec![tee]));
}

#[test]
fn what_a_knife_is_set_to_is_what_its_findings_and_its_adjustments_tell() {
    let (mut told_by_findings, mut told_by_adjustments) = (0, 0);
    for file in DemoUnit::files() {
        let document = open_unit(&file).unwrap();
        for place in document.knives().map(|(place, _)| place) {
            let mut fitted = document.clone();
            fitted.fit_knife(place);
            let Ok(solved) = Solved::of(&fitted) else {
                continue;
            };
            let system = solved.unit.system;
            let row = KnifeRow::of(&solved, place, fitted.knife_at(place).unwrap(), system);
            let Ok(aim) = row.aim else {
                continue;
            };
            for finding in FindingId::ALL {
                let advice = Advice::of(&solved.case(), finding, system);
                let ways = advice.map_or_else(Vec::new, |advice| advice.ways);
                for way in ways {
                    if let Way::Attitude { to, .. } = way {
                        assert_eq!(to, aim.attitude, "{}: {finding:?}", row.name);
                        told_by_findings += 1;
                    }
                }
                let why = Why::of(&solved, Some(finding), Goal::Fine, system);
                let answer = why.knobs.iter().find(|knob| knob.knob == Knob::Attitude);
                let Some(to_aim) = answer.and_then(|answer| answer.to_aim.as_ref()) else {
                    continue;
                };
                assert_eq!(
                    Angle::from_deg(to_aim.to.base()),
                    aim.attitude,
                    "{}",
                    row.name
                );
                told_by_adjustments += 1;
            }
        }
    }
    assert!(told_by_findings > 5, "{told_by_findings}");
    assert!(told_by_adjustments > 40, "{told_by_adjustments}");
}

#[test]
fn each_knife_tells_its_lip_and_its_grinds_and_what_they_rest_on() {
    let text = clear_example(&[
        (
            "    turf: Fairway,",
            "    date: \"2026-11-20\",\n    turf: Fairway,",
        ),
        (
            "limits: None,",
            "grinding: (a_grind: \"0.005 in\", least_lip: \"0.08 in\"),\n    limits: None,",
        ),
    ]);
    let (_folder, file) = written("unit.ron", &text);
    let told: Value = serde_json::from_str(&knives(&file, &["--json"])).unwrap();
    let document = open_unit(&file).unwrap();
    for (told, (_, knife)) in told.as_array().unwrap().iter().zip(document.knives()) {
        let number = |pointer: &str| told.pointer(pointer).and_then(Value::as_f64);
        let lip_mm = knife.lip_thickness.value().mm();
        assert_eq!(number("/lip_thickness_left_mm"), Some(lip_mm));
        assert_eq!(number("/least_lip_thickness_mm"), Some(0.08 * 25.4));
        let grinds = ((lip_mm / 25.4 - 0.08) / 0.005 + 1e-9).floor();
        assert_eq!(number("/grinds_left"), Some(grinds));
        assert_eq!(number("/context/height_of_cut_mm"), Some(12.7));
        assert_eq!(told.pointer("/context/date"), Some(&"2026-11-20".into()));
        assert!(number("/context/limits/room_deg").is_some());
        assert!(number("/aim_deg").is_some());
    }
    let csv = knives(&file, &["--csv"]);
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let heads = reader.headers().unwrap().clone();
    let place = |name: &str| heads.iter().position(|head| head == name).unwrap();
    for record in reader.records().map(Result::unwrap) {
        assert_eq!(&record[place("date")], "2026-11-20");
        assert!(record[place("grinds left")].parse::<u32>().is_ok());
        assert!(
            record[place("lip thickness left (in)")]
                .parse::<f64>()
                .is_ok()
        );
        assert!(record[place("aim (deg)")].parse::<f64>().is_ok());
    }
    let plain = knives(&file, &[]);
    assert!(
        plain.contains("measured 2026-11-20") && plain.contains("8 grinds left"),
        "{plain}"
    );
}

#[test]
fn knives_that_fit_are_told_first_and_by_the_room_they_leave_set_once() {
    let text = DemoUnit::KnifeChoice.text();
    let height = r#"height_of_cut: "1/4 in ± 0.002 in""#;
    assert_eq!(text.matches(height).count(), 1);
    let mut fitting = BTreeSet::new();
    for thousandths in (110..=300).step_by(10) {
        let lower = format!("height_of_cut: \"{} in\"", f64::from(thousandths) / 1e3);
        let document = document(&text.replace(height, &lower));
        let (rows, ranking) = ranked(&document);
        let ranks = &ranking.ranks;
        let mut places = ranks.order.clone();
        places.sort_unstable();
        assert!(places.into_iter().eq(0..rows.len()));
        let told: Vec<_> = ranks.order.iter().map(|&place| &rows[place]).collect();
        let is_in_order = told.is_sorted_by(|a, b| {
            let within = a
                .judgement
                .off
                .by_readings
                .deg()
                .max(b.judgement.off.by_readings.deg())
                .max(0.005);
            a.judgement.verdict < b.judgement.verdict
                || a.judgement.verdict == b.judgement.verdict
                    && b.room().deg() - a.room().deg() <= within
        });
        assert!(is_in_order, "{ranking:?}");
        let with = |verdict| {
            let judged = rows.iter().filter(|row| row.judgement.verdict == verdict);
            judged.count()
        };
        let fits = with(Verdict::Fits);
        assert_eq!(ranks.counts.fitting, fits);
        assert_eq!(ranks.counts.undecided, with(Verdict::CannotTell));
        fitting.insert(fits);
        assert_eq!(ranking.sentences.len(), rows.len() + 1);
        let begins = match fits {
            0 => "No knife passes at ".to_owned(),
            1 => "One knife passes at ".to_owned(),
            n => format!("{n} knives pass at "),
        };
        assert!(ranking.sentences[0].starts_with(&begins), "{ranking:?}");
        for (row, sentence) in told.iter().zip(&ranking.sentences[1..]) {
            assert_told(row, sentence);
        }
    }
    assert!(fitting.contains(&0) && fitting.len() > 3, "{fitting:?}");
}

/// Whether a sentence says of a knife what its row holds, the limits named.
#[track_caller]
fn assert_told(row: &KnifeRow, sentence: &str) {
    let system = System::InchDecimal;
    let mut wanted = vec![format!("\"{}\"", row.name)];
    wanted.push(
        match row.judgement.verdict {
            Verdict::Fits => " passes: ",
            Verdict::CannotTell => " is undecided: ",
            Verdict::DoesNotFit => " does not pass: ",
        }
        .to_owned(),
    );
    match (&row.set_once, &row.judgement.apart) {
        (Some(range), None) => wanted.extend([
            {
                let mut against = row.judgement.against.iter();
                let is_short = against.any(|against| {
                    matches!(against, sweepgauge::analysis::knives::Against::Limit(_))
                });
                let (low, high) = (system.angle(range.low.at), system.angle(range.high.at));
                if is_short {
                    format!("works only from {low} to {high}")
                } else {
                    format!("set it once between {low} and {high}")
                }
            },
            system.angle(row.room()),
            format!("below it {}", range.low.limit.name()),
            format!("above it {}", range.high.limit.name()),
        ]),
        (
            None,
            Some(Apart::Ends {
                more_than,
                less_than,
            }),
        ) => wanted.extend([
            format!("needs more than {}", system.angle(more_than.at)),
            format!("for {}", more_than.limit.what_for()),
            format!("less than {}", system.angle(less_than.at)),
            format!("for {}", less_than.limit.what_for()),
        ]),
        (None, Some(apart)) => {
            let told = apart.limits();
            assert!(!told.is_empty());
            wanted.extend(told.iter().map(|limit| {
                let name = limit.name();
                let what_for = limit.what_for();
                if sentence.contains(name) {
                    name
                } else {
                    what_for
                }
                .to_owned()
            }));
        }
        other => panic!("{other:?}"),
    }
    for text in wanted {
        assert!(sentence.contains(&text), "no \"{text}\" in \"{sentence}\"");
    }
}

#[test]
fn the_cheap_knife_of_the_demo_unit_fails_at_scrap_size() {
    let document = DemoUnit::KnifeChoice.document();
    let (rows, ranking) = ranked(&document);
    let price = |knife: &Knife| knife.price.as_ref().unwrap().parse::<f64>().unwrap();
    let cheapest = document
        .options
        .iter()
        .min_by(|a, b| price(a).total_cmp(&price(b)));
    assert_eq!(cheapest.unwrap().name, "cheap");
    for row in &rows {
        let is_cheap = row.name == "cheap";
        assert!(!row.at(Life::New).windows.is_empty());
        assert!(!row.at(Life::Now).windows.is_empty());
        assert_eq!(row.at(Life::Scrap).windows.is_empty(), is_cheap, "{row:?}");
        assert_eq!(row.set_once.is_none(), is_cheap, "{row:?}");
    }
    assert_eq!(rows[ranking.ranks.order[0]].name, "reaching");
    assert_eq!(
        ranking.sentences.last().unwrap(),
        "\"cheap\", price 24.00, does not pass: it needs more than 7.49° for the underside (reel 5 in), less than 6.66° for the sweep (reel 4-1/2 in) (known to ± 0.72°)."
    );
}

// The program as run.

struct Run {
    code: Option<i32>,
    out: String,
    err: String,
}

fn ran<S: AsRef<OsStr>>(arguments: impl IntoIterator<Item = S>) -> Run {
    let output = Command::new(env!("CARGO_BIN_EXE_sweepgauge"))
        .args(arguments)
        .output()
        .expect("the program starts");
    Run {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).expect("plain text"),
        err: String::from_utf8(output.stderr).expect("plain text"),
    }
}

#[track_caller]
fn done<S: AsRef<OsStr>>(arguments: impl IntoIterator<Item = S>) -> String {
    let run = ran(arguments);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    run.out
}

pub fn knives(file: &Path, rest: &[&str]) -> String {
    let words = [OsStr::new("knives"), file.as_os_str()];
    done(words.into_iter().chain(rest.iter().map(OsStr::new)))
}

pub fn json_list(file: &Path, rest: &[&str]) -> Vec<Value> {
    let text = knives(file, &[&["--json"], rest].concat());
    let value: Value = serde_json::from_str(&text).unwrap();
    value.as_array().unwrap().clone()
}

fn keys(value: &Value) -> Vec<&str> {
    let mut keys: Vec<&str> = value
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect();
    keys.sort_unstable();
    keys
}

pub fn written(name: &str, text: &str) -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join(name);
    fs::write(&file, text).unwrap();
    (folder, file)
}

#[track_caller]
fn assert_number(reported: &Value, wanted: f64) {
    // The reader of JSON may be off in the last digit; what is printed is exact.
    let is_same = reported
        .as_f64()
        .is_some_and(|number| (number - wanted).abs() <= 1e-14 * wanted.abs().max(1.0));
    assert!(is_same, "{reported}, not {wanted}");
}

#[track_caller]
fn assert_window(reported: &Value, window: &Window) {
    assert_number(&reported["low_deg"], window.low.deg());
    assert_number(&reported["high_deg"], window.high.deg());
    assert_eq!(reported["low_limit"], window.low_limit.id());
    assert_eq!(reported["high_limit"], window.high_limit.id());
}

#[test]
fn the_json_list_has_each_knifes_numbers_and_its_windows_new_now_and_scrap() {
    let mut nulls = 0;
    for file in DemoUnit::files() {
        let (rows, _) = ranked(&open_unit(&file).unwrap());
        let list = json_list(&file, &[]);
        assert_eq!(list.len(), rows.len());
        for (knife, row) in list.iter().zip(&rows) {
            assert_eq!(
                keys(knife),
                [
                    "aim_deg",
                    "aim_rear_roller_mm",
                    "behind_centre_mm",
                    "context",
                    "extension_mm",
                    "grinds_left",
                    "least_lip_thickness_mm",
                    "lip_length_left_mm",
                    "lip_thickness_left_mm",
                    "name",
                    "no_aim",
                    "price",
                    "rank",
                    "room_deg",
                    "set_once",
                    "sweep_below_cut_mm",
                    "sweep_share",
                    "top_angle_needed_deg",
                    "underside_clearance_mm",
                    "verdict",
                    "why",
                    "windows"
                ]
            );
            assert_eq!(knife["name"], row.name.as_str());
            let windows = knife["windows"].as_array().unwrap();
            assert_eq!(windows.len(), 3);
            for ((reported, name), reel) in
                windows.iter().zip(["new", "now", "scrap"]).zip(&row.life)
            {
                match &reel.windows[..] {
                    [] => {
                        assert!(reported.is_null(), "{reported}");
                        nulls += 1;
                    }
                    [window] => {
                        assert_eq!(
                            keys(reported),
                            ["high_deg", "high_limit", "low_deg", "low_limit", "reel"]
                        );
                        assert_eq!(reported["reel"], name);
                        assert_window(reported, window);
                    }
                    several => panic!("{several:?}"),
                }
            }
        }
    }
    assert_eq!(nulls, 1, "the cheap knife at scrap size");
}

#[test]
fn the_json_list_tells_windows_that_lie_apart() {
    let (_folder, file) = written("unit.ron", &with_stop_bolt(12.18));
    let (rows, _) = ranked(&open_unit(&file).unwrap());
    let list = json_list(&file, &[]);
    for (reported, reel) in list[0]["windows"]
        .as_array()
        .unwrap()
        .iter()
        .zip(&rows[0].life)
    {
        let [first, second] = &reel.windows[..] else {
            panic!("{reel:?}")
        };
        let (widest, other) = if first.width() > second.width() {
            (first, second)
        } else {
            (second, first)
        };
        assert_window(reported, widest);
        let others = reported["others"].as_array().unwrap();
        assert_eq!(others.len(), 1);
        assert_window(&others[0], other);
    }
    let system = open_unit(&file).unwrap().system();
    let [first, second] = &rows[0].at(Life::Now).windows[..] else {
        panic!("{rows:?}")
    };
    let [a, b, c, d] =
        [first.low, first.high, second.low, second.high].map(|angle| system.angle(angle));
    assert!(knives(&file, &[]).contains(&format!("{a} to {b} and {c} to {d}")));
}

#[test]
fn the_list_says_of_each_knife_what_its_report_says() {
    for file in DemoUnit::files() {
        for what_if in [
            &[][..],
            &["--edge-forward", "2 mm", "--reel-diameter", "4.7 in"],
        ] {
            let whole = |rest: &[&str]| {
                let words = [OsStr::new("report"), file.as_os_str(), OsStr::new("--json")];
                let text = done(words.into_iter().chain(rest.iter().map(OsStr::new)));
                serde_json::from_str::<Value>(&text).unwrap()
            };
            let size = ["greens", "knife-choice"];
            let name = file.file_name().unwrap().to_str().unwrap();
            if !what_if.is_empty() && !size.iter().any(|begins| name.starts_with(begins)) {
                continue;
            }
            // The same attitude and height for every knife, also where the file gives the rollers.
            let set = &whole(what_if)["setting"];
            let attitude = format!("{} deg", set["attitude_deg"]);
            let height = format!("{} mm", set["height_of_cut_mm"]);
            for knife in json_list(&file, what_if) {
                let name = knife["name"].as_str().unwrap();
                let fitted = ["--knife", name, "--attitude", &attitude];
                let report = whole(&[&fitted[..], &["--height-of-cut", &height], what_if].concat());
                for (number, place) in [
                    ("extension_mm", "/setting/extension_mm"),
                    ("behind_centre_mm", "/solution/behind_centre_mm"),
                    ("sweep_below_cut_mm", "/solution/sweep_below_cut_mm"),
                    ("sweep_share", "/solution/sweep_share"),
                    ("underside_clearance_mm", "/solution/underside_clearance_mm"),
                ] {
                    let listed = knife[number].as_f64().unwrap();
                    let reported = report.pointer(place).unwrap().as_f64().unwrap();
                    let is_same = (listed - reported).abs() < SOLVED;
                    assert!(is_same, "{name}, {number}: {listed}, not {reported}");
                }
            }
        }
    }
}

#[test]
fn the_rows_of_the_csv_read_back_as_the_same_knives() {
    let awkward = example(&[(
        "options: [",
        "options: [(name: \"thin, \\\"ground\\\"; short\", reach: \"1-3/8 in\", width: \"60 mm\", lip_thickness: \"3 mm\", lip_length: \"1/2 in\", body_thickness: \"0.25 in\", price: \"12; less by the dozen\", notes: \"ask first,\\nthen order\"), ",
    )]);
    let (_folder, awkward) = written("unit.ron", &awkward);
    for file in DemoUnit::files().into_iter().chain([awkward]) {
        let text = knives(&file, &["--csv"]);
        let document = open_unit(&file).unwrap();
        let listed: Vec<Knife> = document.knives().map(|(_, knife)| knife.clone()).collect();
        for system in [System::Millimetre, document.system()] {
            assert_eq!(read_knife_rows(&text, system).unwrap(), listed, "{text}");
        }
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let headings = reader.headers().unwrap().clone();
        let own: Vec<&str> = headings.iter().take(COLUMNS.len()).collect();
        assert_eq!(own, COLUMNS);
        let place = |name: &str| headings.iter().position(|heading| heading == name).unwrap();
        let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
        let (rows, _) = ranked(&document);
        assert_eq!(records.len(), rows.len());
        let (unit, size) = match document.system() {
            System::Millimetre => ("mm", 1.0),
            System::InchDecimal | System::InchFraction => ("in", 25.4),
        };
        let solved = Solved::of(&document).unwrap();
        let pose = &solved.solution.pose;
        for (record, row) in records.iter().zip(&rows) {
            let cell = |name: &str| &record[place(name)];
            let is = |name: &str, wanted: Option<f64>| {
                let number = cell(name).parse::<f64>().ok();
                let is_same = match (number, wanted) {
                    (Some(number), Some(wanted)) => (number - wanted).abs() < 1e-6,
                    (number, wanted) => number.is_none() && wanted.is_none(),
                };
                assert!(is_same, "{name}: \"{}\", not {wanted:?}", cell(name));
            };
            for (name, reel) in [
                ("new", &row.life[0]),
                ("now", &row.life[1]),
                ("scrap", &row.life[2]),
            ] {
                let widest = reel.widest();
                is(
                    &format!("working range reel {name} low (deg)"),
                    widest.map(|w| w.low.deg()),
                );
                is(
                    &format!("working range reel {name} high (deg)"),
                    widest.map(|w| w.high.deg()),
                );
                is(
                    &format!("reel {name} ({unit})"),
                    Some(reel.diameter.mm() / size),
                );
            }
            let solution = row.solution.as_ref().unwrap();
            let range = row.set_once.as_ref();
            for (name, length) in [
                ("behind centre", solution.sweep.behind_centre),
                ("sweep", solution.sweep.below_cut),
                ("underside", solution.underside_clearance),
                ("height of cut", pose.height_of_cut),
                ("limit underside", solved.unit.limits.underside),
            ] {
                is(&format!("{name} ({unit})"), Some(length.mm() / size));
            }
            let share = row.sweep_share().unwrap().of_one() * 100.0;
            is("sweep as % of height of cut (%)", Some(share));
            is("set once low (deg)", range.map(|range| range.low.at.deg()));
            is(
                "set once high (deg)",
                range.map(|range| range.high.at.deg()),
            );
            is("room (deg)", Some(row.room().deg()));
            assert_eq!(cell("verdict"), row.judgement.verdict.word());
            assert_eq!(cell("unit"), document.name);
        }
        let mut ranks: Vec<usize> = records
            .iter()
            .map(|record| record[place("rank")].parse().unwrap())
            .collect();
        ranks.sort_unstable();
        assert!(ranks.into_iter().eq(1..=rows.len()));
    }
}

#[test]
fn the_table_to_read_names_what_it_rests_on_and_the_cautions() {
    let file = DemoUnit::KnifeChoice.file();
    let document = open_unit(&file).unwrap();
    let text = knives(&file, &[]);
    let (rows, ranking) = ranked(&document);
    let bench = &document.bench;
    let readings = [
        bench.reel_diameter.text(),
        bench.height_of_cut.text(),
        bench.attitude.text(),
        bench.behind_centre.text(),
        bench.gap.text(),
    ];
    let about_limits = [
        "sweep 10.0 % of the height of cut (starting value)",
        "attitudes -5.00° to 20.00° (the bracket range is not entered)",
        "rules of thumb, not from your own trials",
        "supplier's drawing: check them on arrival",
    ];
    let said = readings
        .into_iter()
        .chain(about_limits)
        .chain(CAUTION)
        .chain(ranking.sentences.iter().map(String::as_str))
        .chain(rows.iter().map(|row| row.name.as_str()));
    for said in said {
        assert!(text.contains(said), "no \"{said}\" in {text}");
    }
}

#[test]
fn the_table_to_read_tells_limits_of_the_file_from_starting_ones() {
    let with = |limits: &str| {
        let text = example(&[("limits: None,", &format!("limits: {limits},"))]);
        let (_folder, file) = written("unit.ron", &text);
        knives(&file, &[])
    };
    let starting = with("None");
    assert!(starting.contains("(starting value)"), "{starting}");
    assert!(!starting.contains("unit's file"), "{starting}");
    // Limits that set no number, or none that a window rests on, are the starting ones.
    assert_eq!(with("Some(())"), starting);
    assert_eq!(with("Some((clip_watch: \"1.2\"))"), starting);
    let some =
        with(r#"Some((sweep_over: "8 %", attitude_range: Some((low: "3 deg", high: "9 deg"))))"#);
    assert!(
        some.contains("sweep 8.0 % of the height of cut (from the unit's file)"),
        "{some}"
    );
    assert!(
        some.contains("underside 0.0600 in (starting value)"),
        "{some}"
    );
    assert!(
        some.contains("attitudes 3.00° to 9.00° (from the unit's file)"),
        "{some}"
    );
    let all = with(
        r#"Some((sweep_over: "8 %", underside: "1 mm", ahead_of_centre: "2 mm", room: "2 deg", attitude_range: Some((low: "3 deg", high: "9 deg"))))"#,
    );
    assert!(!all.contains("starting value"), "{all}");
}

#[test]
fn json_and_csv_at_once_are_refused() {
    let file = DemoUnit::KnifeChoice.file();
    let words = [OsStr::new("knives"), file.as_os_str()];
    let run = ran(words
        .into_iter()
        .chain([OsStr::new("--json"), OsStr::new("--csv")]));
    assert_eq!((run.code, run.out.as_str()), (Some(2), ""));
    assert!(
        run.err.contains("--json") && run.err.contains("--csv"),
        "{}",
        run.err
    );
}

#[test]
fn attitudes_the_brackets_allow_end_a_window_in_the_list() {
    let limits = r#"limits: Some((attitude_range: Some((low: "3 deg", high: "5.5 deg")))),"#;
    let (_folder, file) = written("unit.ron", &clear_example(&[("limits: None,", limits)]));
    for knife in json_list(&file, &[]) {
        for window in knife["windows"].as_array().unwrap() {
            assert_eq!(window["low_deg"], 3.0);
            assert_eq!(window["high_deg"], 5.5);
            assert_eq!(window["low_limit"], "range");
            assert_eq!(window["high_limit"], "range");
        }
    }
}

#[test]
fn a_quantity_is_told_with_its_total_and_one_is_written_nowhere() {
    let text = example(&[(
        "options: [",
        "options: [(name: \"three\", reach: \"1.5 in\", width: \"2.5 in\", lip_thickness: \"0.12 in\", lip_length: \"0.5 in\", body_thickness: \"0.25 in\", price: \"$ 41.50\", quantity: 3), ",
    )]);
    let (_folder, file) = written("unit.ron", &text);
    let document = open_unit(&file).unwrap();
    let pieces: Vec<u32> = document.options.iter().map(|k| k.quantity.0).collect();
    assert_eq!(pieces[0], 3);
    assert!(pieces[1..].iter().all(|&pieces| pieces == 1));
    assert_eq!(
        sweepgauge::unit::write_text(&document)
            .matches("quantity")
            .count(),
        1
    );
    let told = knives(&file, &[]);
    let (_, of_three) = told.split_once("\nthree\n").unwrap();
    let (of_three, _) = of_three.split_once("\n\n").unwrap();
    for line in ["quantity             3", "total price          124.50"] {
        assert!(of_three.contains(line), "{of_three}");
    }
    assert_eq!(told.matches("total price").count(), 1, "{told}");
    let csv = knives(&file, &["--csv"]);
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let heads = reader.headers().unwrap().clone();
    let place = |name: &str| heads.iter().position(|head| head == name).unwrap();
    let row = reader.records().map(Result::unwrap).nth(1).unwrap();
    assert_eq!(&row[place("quantity")], "3");
    assert_eq!(&row[place("total price")], "124.50");
    let (_folder, none) = written("none.ron", &text.replace("quantity: 3", "quantity: 0"));
    let problem = open_unit(&none).unwrap_err().to_string();
    assert!(problem.contains("options[0].quantity"), "{problem}");
    assert!(problem.contains("at least one knife"), "{problem}");
}

#[test]
fn a_knife_that_passes_says_how_the_unit_is_as_it_is_set_now() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/worked-example/tee.ron");
    let told = |attitude: &str| {
        let mut asked = vec![OsString::from("knives"), file.clone().into_os_string()];
        asked.extend(["--knife", "reaching", "--attitude", attitude].map(OsString::from));
        let text = done(asked);
        let line = text
            .lines()
            .find(|line| line.starts_with("\"reaching\", price"));
        line.expect("a ranked knife").to_owned()
    };
    let set_wrong = told("12 deg");
    assert!(
        set_wrong.contains("passes: set it once between"),
        "{set_wrong}"
    );
    let as_set =
        "As the unit is set now, attitude 12.00°, height of cut 0.250 in: sweep, over limit";
    assert!(set_wrong.contains(as_set), "{set_wrong}");
    let set_right = told("6 deg");
    assert!(!set_right.contains("As the unit is set now"), "{set_right}");
}
