//! The geometry of a cutting unit against handbook tables, sums by hand and independent numeric
//! work: kurbo's distances, parry's contacts and ray casts, and scans that know no closed form.

use std::collections::BTreeSet;

use kurbo::{Affine, Point, Vec2};
use parry2d_f64::math::{Pose as Place, Vector};
use parry2d_f64::query::{Ray, RayCast as _, contact};
use parry2d_f64::shape::{Ball, HalfSpace};
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;
use sweepgauge::geometry::{
    Closing, GroundShape, HardwarePoint, Impossible, KnifeSection, Mount, Pose, Profile, Roller,
    RollerOnPlate, Setting, Sink, Stance, Terrain, clip_length, heel_to_reel, lip_bottom_on_plate,
    on_level, rise_of_segment,
};
use sweepgauge::units::{Angle, Length, Quantity, Speed, System, Turning};

use crate::common::by_chance;
use crate::common::random_units::{SolvedUnit, Unit, believable_unit, plain_profile, solved_unit};

/// A picometre: far below any measurement, and a thousand times the rounding of sums over
/// hundreds of millimetres.
const EXACT: f64 = 1e-9;

/// Farther than anything here stands apart, so that a contact is always reported.
const FAR_MM: f64 = 1e6;

type Checked = Result<(), TestCaseError>;

/// How many units each law is tried on.
fn two_thousand() -> ProptestConfig {
    by_chance(2000)
}

#[expect(
    clippy::large_types_passed_by_value,
    reason = "a unit is handed over as it was drawn"
)]
fn built(unit: Unit) -> Result<Pose, TestCaseError> {
    unit.solve()
        .map_err(|error| TestCaseError::fail(error.to_string()))
}

fn near_within(what: &str, got: f64, wanted: f64, tolerance: f64) -> Checked {
    let is_near = (got - wanted).abs() <= tolerance;
    prop_assert!(is_near, "{what}: {got}, not {wanted}");
    Ok(())
}

fn near(what: &str, got: f64, wanted: f64) -> Checked {
    near_within(what, got, wanted, EXACT)
}

fn near_point(what: &str, got: Point, wanted: Point) -> Checked {
    near(what, got.distance(wanted), 0.0)
}

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

fn wanted(attitude: Angle, height_of_cut: Length) -> Stance {
    Stance::Wanted {
        attitude,
        height_of_cut,
    }
}

fn given_rollers(front_mm: f64, rear_mm: f64) -> Stance {
    Stance::Rollers {
        front_move: mm(front_mm),
        rear_move: mm(rear_mm),
    }
}

// The collision library as a measuring tool.

fn place(point: Point) -> Place {
    Place::translation(point.x, point.y)
}

/// Signed distance of a disc from everything at or below a level line; negative when it dips in.
fn disc_above_line(centre: Point, radius_mm: f64, line_mm: f64) -> f64 {
    let below = HalfSpace::new(Vector::Y);
    let line = place(Point::new(0.0, line_mm));
    contact(&line, &below, &place(centre), &Ball::new(radius_mm), FAR_MM)
        .expect("a ball and a half-space are measured")
        .expect("nothing is so far away")
        .dist
}

/// Signed distance of two discs; negative when they overlap.
fn disc_to_disc(first: (Point, f64), second: (Point, f64)) -> f64 {
    let (one, other) = (Ball::new(first.1), Ball::new(second.1));
    contact(&place(first.0), &one, &place(second.0), &other, FAR_MM)
        .expect("two balls are measured")
        .expect("nothing is so far away")
        .dist
}

/// The chord a level line cuts from a disc, by casting a ray along it from either side.
fn chord_at_line(centre: Point, radius_mm: f64, line_mm: f64) -> Option<f64> {
    let disc = Ball::new(radius_mm);
    let reach_mm = 2.0 * radius_mm;
    let cast = |from_mm: f64, direction: Vector| {
        let ray = Ray::new(Vector::new(from_mm, line_mm), direction);
        disc.cast_ray(&place(centre), &ray, 2.0 * reach_mm, false)
            .map(|way| ray.point_at(way).x)
    };
    let rear_mm = cast(centre.x - reach_mm, Vector::X)?;
    let front_mm = cast(centre.x + reach_mm, -Vector::X)?;
    Some(front_mm - rear_mm)
}

fn roller_above_plate(roller: RollerOnPlate) -> f64 {
    disc_above_line(roller.centre, roller.radius_mm, 0.0)
}

// Our model put down a second time, by angles and steps along named directions.

fn bench_edge(profile: &Profile) -> Point {
    Point::new(0.0, profile.bench.height_of_cut.mm())
}

fn bench_centre(profile: &Profile) -> Point {
    let bench = &profile.bench;
    let reach_mm = bench.reel_diameter.mm() / 2.0 + bench.gap.mm();
    let clip_angle_rad = (bench.behind_centre.mm() / reach_mm).asin();
    bench_edge(profile) + reach_mm * Vec2::new(clip_angle_rad.sin(), clip_angle_rad.cos())
}

/// The front and the rear roller's centre in the bench pose.
fn bench_rollers(profile: &Profile) -> (Point, Point) {
    let (front, rear) = (profile.bench.front_roller, profile.bench.rear_roller);
    (
        Point::new(front.from_edge.mm(), front.diameter.mm() / 2.0),
        Point::new(-rear.from_edge.mm(), rear.diameter.mm() / 2.0),
    )
}

/// Where the ground faces of a knife meet, behind and below its unground edge, by crossing the two
/// lines: each face moved square to itself by what is off it.
fn where_faces_meet(knife: &KnifeSection) -> Vec2 {
    let rad = |angle: Option<Angle>| angle.map_or(0.0, Angle::rad);
    let (top, front) = (rad(knife.top_angle), rad(knife.front_angle));
    let along_top = Vec2::new(top.cos(), top.sin());
    let along_front = Vec2::new(front.sin(), front.cos());
    let on_top = knife.top_ground.mm() * Vec2::new(-top.sin(), top.cos());
    let on_front = knife.face_ground.mm() * Vec2::new(front.cos(), -front.sin());
    let by = (on_front - on_top).cross(along_front) / along_top.cross(along_front);
    on_top + by * along_top
}

/// The edge now fitted, before the bar turns.
fn fitted_edge(profile: &Profile, setting: &Setting) -> Point {
    let attitude_rad = profile.bench.attitude.rad();
    let ahead = Vec2::from_angle(-attitude_rad);
    let down = Vec2::new(ahead.y, -ahead.x);
    let longer_mm = setting.knife.reach.mm() - profile.knife.reach.mm();
    let ground = where_faces_meet(&setting.knife);
    let ahead_mm = longer_mm + setting.extension.mm() - ground.x;
    bench_edge(profile) + ahead_mm * ahead + ground.y * down
}

/// How high the back of the bar stands over its front: the datum's angle from the level.
fn attitude_of_bar_rad(map_of_bar: Affine) -> f64 {
    let backward = map_of_bar * Point::new(10.0, 0.0) - map_of_bar * Point::ORIGIN;
    backward.y.atan2(-backward.x)
}

fn turned_about(pivot: Point, angle_rad: f64, point: Point) -> Point {
    let (sin, cos) = angle_rad.sin_cos();
    let arm = point - pivot;
    pivot + Vec2::new(cos * arm.x - sin * arm.y, sin * arm.x + cos * arm.y)
}

fn angle_about_rad(pivot: Point, from: Point, to: Point) -> f64 {
    let (from, to) = (from - pivot, to - pivot);
    from.cross(to).atan2(from.dot(to))
}

fn slide_direction(profile: &Profile, lean: Option<Angle>) -> Vec2 {
    lean.map_or_else(
        || (bench_centre(profile) - bench_edge(profile)).normalize(),
        |lean| Vec2::new(lean.rad().sin(), lean.rad().cos()),
    )
}

/// Edge and reel centre in the frame after so much travel: millimetres of slide, or radians.
fn travelled(unit: &Unit, travel: f64) -> (Point, Point) {
    let profile = &unit.profile;
    let edge = fitted_edge(profile, &unit.setting);
    let centre = bench_centre(profile);
    match profile.closing {
        Closing::ReelSlides { lean } => (edge, centre + travel * slide_direction(profile, lean)),
        Closing::ReelPivots { pivot_in_frame } => {
            (edge, turned_about(pivot_in_frame.into(), travel, centre))
        }
        Closing::KnifePivots { pivot_in_frame } => {
            (turned_about(pivot_in_frame.into(), travel, edge), centre)
        }
        Closing::KnifeSlides { lean } => (edge + travel * slide_direction(profile, lean), centre),
    }
}

/// How far the reel still is from its gap after so much travel.
fn still_open_mm(unit: &Unit, travel: f64) -> f64 {
    let (edge, centre) = travelled(unit, travel);
    centre.distance(edge) - unit.setting.reel_diameter.mm() / 2.0 - unit.setting.gap.mm()
}

/// Edge and reel centre of a pose, taken back to the frame.
fn edge_and_centre_in_frame(pose: &Pose) -> (Point, Point) {
    let frame_from_plate = pose.plate_from_frame.inverse();
    (
        frame_from_plate * pose.edge_on_plate,
        frame_from_plate * pose.centre_on_plate,
    )
}

/// The travel a pose took to close its gap.
fn travel_of(unit: &Unit, pose: &Pose) -> f64 {
    let (edge, centre) = edge_and_centre_in_frame(pose);
    let started = bench_centre(&unit.profile);
    match unit.profile.closing {
        Closing::ReelSlides { lean } => {
            (centre - started).dot(slide_direction(&unit.profile, lean))
        }
        Closing::ReelPivots { pivot_in_frame } => {
            angle_about_rad(pivot_in_frame.into(), started, centre)
        }
        Closing::KnifePivots { pivot_in_frame } => {
            let fitted = fitted_edge(&unit.profile, &unit.setting);
            angle_about_rad(pivot_in_frame.into(), fitted, edge)
        }
        Closing::KnifeSlides { lean } => {
            let fitted = fitted_edge(&unit.profile, &unit.setting);
            (edge - fitted).dot(slide_direction(&unit.profile, lean))
        }
    }
}

// Circle segments.

/// Central angle in degrees, height and chord of a circular segment of radius 1, as handbooks of
/// mensuration tabulate them to five decimals. From memory.
#[expect(clippy::approx_constant, reason = "a table is copied, not computed")]
const SEGMENTS: [(f64, f64, f64); 9] = [
    (10.0, 0.003_81, 0.174_31),
    (20.0, 0.015_19, 0.347_30),
    (30.0, 0.034_07, 0.517_64),
    (45.0, 0.076_12, 0.765_37),
    (60.0, 0.133_97, 1.000_00),
    (90.0, 0.292_89, 1.414_21),
    (120.0, 0.500_00, 1.732_05),
    (150.0, 0.741_18, 1.931_85),
    (180.0, 1.000_00, 2.000_00),
];

/// Half a unit of the table's last place.
const LAST_PLACE: f64 = 0.5e-5;

#[test]
fn the_rise_of_a_segment_is_the_handbooks() -> Checked {
    for (angle_deg, height, chord) in SEGMENTS {
        let rise = rise_of_segment(mm(1.0), mm(chord / 2.0)).expect("half a chord is no radius");
        // Half the chord is read to half of LAST_PLACE, and the rise grows tan(angle/2) as fast;
        // the last row is exact.
        let slope = if angle_deg < 180.0 {
            (angle_deg / 2.0).to_radians().tan()
        } else {
            0.0
        };
        let tolerance = LAST_PLACE * (1.0 + slope / 2.0);
        near_within(&format!("{angle_deg}°"), rise.mm(), height, tolerance)?;
    }
    assert_eq!(rise_of_segment(mm(1.0), mm(1.000_01)), None);
    Ok(())
}

#[test]
fn the_sweep_of_a_unit_in_light_contact_is_the_handbooks_segment() -> Checked {
    const RADIUS_MM: f64 = 100.0;
    let mut profile = plain_profile();
    profile.bench.reel_diameter = mm(2.0 * RADIUS_MM);
    profile.bench.gap = Length::ZERO;
    let bench = Unit::on_the_bench(profile);
    for (angle_deg, height, chord) in SEGMENTS {
        // Measured so far behind centre on the bench.
        let mut profile = profile;
        profile.bench.behind_centre = mm(RADIUS_MM) * (angle_deg / 2.0).to_radians().sin();
        let measured = Unit::on_the_bench(profile).solve();
        let mut sweeps = vec![measured.expect("behind centre is within the reel").sweep()];
        // On centre on the bench, and nosed down by half the central angle; a right angle would
        // lay the unit on its nose.
        if angle_deg < 180.0 {
            let attitude = Angle::from_deg(angle_deg / 2.0);
            let nosed = bench.standing(wanted(attitude, mm(12.0))).solve();
            sweeps.push(nosed.expect("less than a right angle").sweep());
        }
        for sweep in sweeps {
            let row = |what| format!("{what} at {angle_deg}°");
            let (below, across) = (sweep.below_cut.mm(), sweep.chord.mm());
            near_within(&row("height"), below / RADIUS_MM, height, LAST_PLACE)?;
            near_within(&row("chord"), across / RADIUS_MM, chord, LAST_PLACE)?;
            near(&row("clip angle"), sweep.clip_angle.deg() * 2.0, angle_deg)?;
        }
    }
    Ok(())
}

#[test]
fn seven_inches_of_reel_three_eighths_behind_centre_sweep_twenty_thou() -> Checked {
    // By hand: 3.5 − sqrt(12.25 − 0.140625) = 3.5 − 3.47985 = 0.02015.
    let rise = rise_of_segment(Length::from_inches(3.5), Length::from_inches(0.375));
    let rise_inches = rise.expect("3/8 in is within 3.5 in").inches();
    near_within("rise", rise_inches, 0.020_15, LAST_PLACE)?;

    let mut profile = plain_profile();
    profile.bench.reel_diameter = Length::from_inches(7.0);
    profile.bench.behind_centre = Length::from_inches(0.375);
    profile.bench.gap = Length::ZERO;
    let pose = Unit::on_the_bench(profile)
        .solve()
        .expect("it was measured");
    let below_inches = pose.sweep().below_cut.inches();
    near_within("sweep", below_inches, 0.020_15, LAST_PLACE)
}

// Random units.

/// The places in a tally of the ways of closing.
fn place_of(closing: Closing) -> usize {
    match closing {
        Closing::ReelSlides { lean: None } => 0,
        Closing::ReelSlides { lean: Some(_) } => 1,
        Closing::ReelPivots { .. } => 2,
        Closing::KnifePivots { .. } => 3,
        Closing::KnifeSlides { .. } => 4,
    }
}

#[test]
fn nearly_every_believable_unit_can_be_set() {
    // Every test below leaves out what cannot be built; this one says that it is little, and that
    // those left have a gap to close.
    let mut runner = TestRunner::deterministic();
    let mut tried = [0; 5];
    let mut solved = [0; 5];
    let mut moved = [0; 5];
    for _ in 0..5000 {
        let tree = believable_unit().new_tree(&mut runner);
        let unit = tree.expect("nothing is filtered").current();
        let way = place_of(unit.profile.closing);
        tried[way] += 1;
        if let Ok(pose) = unit.solve() {
            solved[way] += 1;
            moved[way] += usize::from(travel_of(&unit, &pose).abs() > 0.01);
        }
    }
    for way in 0..5 {
        let of = (tried[way], solved[way], moved[way]);
        assert!(of.0 > 800, "{of:?} of way {way}");
        assert!(of.1 * 100 > of.0 * 95, "{of:?} of way {way}");
        assert!(of.2 * 100 > of.0 * 70, "{of:?} of way {way}");
    }
}

proptest! {
    #![proptest_config(two_thousand())]

    #[test]
    fn the_reel_stands_its_radius_and_gap_from_the_edge(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let radius_mm = unit.setting.reel_diameter.mm() / 2.0;
        let gap_mm = unit.setting.gap.mm();
        let clip_point = pose.clip_point_on_plate();
        let apart_mm = pose.centre_on_plate.distance(pose.edge_on_plate);
        near("centre to edge", apart_mm, radius_mm + gap_mm)?;
        near("centre to clip point", pose.centre_on_plate.distance(clip_point), radius_mm)?;
        near("clip point to edge", clip_point.distance(pose.edge_on_plate), gap_mm)?;
        near("reel radius", pose.reel_radius_mm, radius_mm)?;
    }

    #[test]
    fn both_rollers_touch_the_plate(solved in solved_unit()) {
        let pose = solved.pose;
        let bench = solved.unit.profile.bench;
        near("front", roller_above_plate(pose.front_roller), 0.0)?;
        near("rear", roller_above_plate(pose.rear_roller), 0.0)?;
        near("front radius", pose.front_roller.radius_mm * 2.0, bench.front_roller.diameter.mm())?;
        near("rear radius", pose.rear_roller.radius_mm * 2.0, bench.rear_roller.diameter.mm())?;
    }

    #[test]
    fn a_roller_moves_along_the_frames_own_vertical(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let (front, rear) = bench_rollers(&unit.profile);
        let nosed_down_rad = pose.attitude.rad() - attitude_of_bar_rad(pose.frame_from_bar);
        for (at_bench, roller) in [(front, pose.front_roller), (rear, pose.rear_roller)] {
            let carried = pose.plate_from_frame * at_bench;
            let moved_mm = roller.moved.mm();
            let move_wanted_mm = (roller.radius_mm - carried.y) / nosed_down_rad.cos();
            near("move", moved_mm, move_wanted_mm)?;
            let aside_mm = moved_mm * nosed_down_rad.sin();
            near_point("place", roller.centre, Point::new(carried.x + aside_mm, roller.radius_mm))?;
        }
    }

    #[test]
    fn the_attitude_and_height_wanted_are_met(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let Stance::Wanted { attitude, height_of_cut } = unit.setting.stance else {
            return Err(TestCaseError::fail("a stance was wanted"));
        };
        let plate_from_bar = pose.plate_from_frame * pose.frame_from_bar;
        near("attitude of the bar", attitude_of_bar_rad(plate_from_bar), attitude.rad())?;
        near("attitude", pose.attitude.rad(), attitude.rad())?;
        // The edge fitted, on the bar: behind and below the bench edge.
        let longer_mm = unit.setting.knife.reach.mm() - unit.profile.knife.reach.mm();
        let extension_mm = longer_mm + unit.setting.extension.mm();
        let ground = where_faces_meet(&unit.setting.knife);
        let on_bar = Point::new(ground.x - extension_mm, ground.y);
        near_point("edge", plate_from_bar * on_bar, Point::new(0.0, height_of_cut.mm()))?;
        near_point("edge", pose.edge_on_plate, Point::new(0.0, height_of_cut.mm()))?;
        near("height", pose.height_of_cut.mm(), height_of_cut.mm())?;
        near("extension", pose.extension.mm(), extension_mm)?;
    }

    #[test]
    fn the_frame_and_the_bar_keep_their_shape(solved in solved_unit()) {
        let pose = solved.pose;
        for map in [pose.plate_from_frame, pose.frame_from_bar] {
            let origin = map * Point::ORIGIN;
            let along = map * Point::new(1.0, 0.0) - origin;
            let up = map * Point::new(0.0, 1.0) - origin;
            near("length along", along.hypot(), 1.0)?;
            near("length up", up.hypot(), 1.0)?;
            near("square, and not mirrored", along.cross(up), 1.0)?;
        }
    }

    #[test]
    fn the_sweep_is_how_deep_the_reel_dips_under_the_cut_line(solved in solved_unit()) {
        let pose = solved.pose;
        let sweep = pose.sweep();
        let cut_mm = pose.edge_on_plate.y;
        let above_mm = disc_above_line(pose.centre_on_plate, pose.reel_radius_mm, cut_mm);
        near("sweep", sweep.below_cut.mm(), -above_mm)?;
        near("lowest of the reel", pose.lowest_of_reel_on_plate().y, cut_mm + above_mm)?;
        near("clearance on the plate", on_level().reel_clearance(&pose).mm(), cut_mm + above_mm)?;
        let across = pose.centre_on_plate - pose.edge_on_plate;
        near("behind centre", sweep.behind_centre.mm(), across.x)?;
        near("centre above edge", sweep.centre_above_edge.mm(), across.y)?;
        let (sin, cos) = sweep.clip_angle.rad().sin_cos();
        near("clip angle, across", across.hypot() * sin, across.x)?;
        near("clip angle, up", across.hypot() * cos, across.y)?;
    }

    #[test]
    fn the_sweep_chord_is_cut_from_the_reel_by_the_cut_line(solved in solved_unit()) {
        let pose = solved.pose;
        let sweep = pose.sweep();
        let cast = chord_at_line(pose.centre_on_plate, pose.reel_radius_mm, pose.edge_on_plate.y);
        // A rise of a picometre already has a chord of a micrometre, so rounding decides whether
        // a grazing line meets the reel: that is not asked.
        if sweep.below_cut.mm() < -EXACT {
            prop_assert_eq!(cast, None);
            prop_assert_eq!(sweep.chord, Length::ZERO);
        } else if sweep.below_cut.mm() > 1e-4 {
            // From here on the chord is 0.2 mm and more, and the rounding of R² spread over it
            // stays below EXACT.
            let chord_mm = cast.ok_or_else(|| TestCaseError::fail("the line misses the reel"))?;
            near("chord", sweep.chord.mm(), chord_mm)?;
        }
    }

    #[test]
    fn closing_the_gap_moves_only_what_it_may(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let travel = travel_of(&unit, &pose);
        let (edge, centre) = travelled(&unit, travel);
        let (edge_found, centre_found) = edge_and_centre_in_frame(&pose);
        near_point("edge", edge_found, edge)?;
        near_point("centre", centre_found, centre)?;
        let turned_rad = match unit.profile.closing {
            Closing::KnifePivots { .. } => travel,
            _ => 0.0,
        };
        // Counter-clockwise with x ahead to the right lifts the front: less attitude.
        let attitude_rad = attitude_of_bar_rad(pose.frame_from_bar);
        let bench_rad = unit.profile.bench.attitude.rad();
        near("attitude in the frame", attitude_rad, bench_rad - turned_rad)?;
    }

    #[test]
    fn of_two_ways_to_close_the_gap_the_shorter_is_taken(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let travel = travel_of(&unit, &pose);
        near("closed", still_open_mm(&unit, travel), 0.0)?;
        // Travelling less, either way, the gap stays as open or as tight as it was on starting.
        let started = still_open_mm(&unit, 0.0).signum();
        for step in -63..=63 {
            let part = travel * f64::from(step) / 64.0;
            let open_mm = still_open_mm(&unit, part) * started;
            prop_assert!(open_mm > -EXACT, "{part} already closes what {travel} closed");
        }
    }

    #[test]
    fn behind_centre_follows_from_the_frame_as_the_model_says(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let (edge, centre) = travelled(&unit, travel_of(&unit, &pose));
        let v = centre - edge;
        let nosed_down_rad = pose.attitude.rad() - attitude_of_bar_rad(pose.frame_from_bar);
        let (sin, cos) = nosed_down_rad.sin_cos();
        near("behind centre", pose.sweep().behind_centre.mm(), v.x * cos + v.y * sin)?;
        near("above the edge", pose.sweep().centre_above_edge.mm(), -v.x * sin + v.y * cos)?;
    }

    #[test]
    fn roller_moves_put_back_give_the_same_attitude_and_height(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let put_back = Stance::Rollers {
            front_move: pose.front_roller.moved,
            rear_move: pose.rear_roller.moved,
        };
        let again = built(unit.standing(put_back))?;
        near("attitude", again.attitude.deg(), pose.attitude.deg())?;
        near("height", again.height_of_cut.mm(), pose.height_of_cut.mm())?;
        near_point("reel", again.centre_on_plate, pose.centre_on_plate)?;
        near_point("front roller", again.front_roller.centre, pose.front_roller.centre)?;
        near_point("rear roller", again.rear_roller.centre, pose.rear_roller.centre)?;
    }

    #[test]
    fn given_rollers_stand_on_the_plate_and_it_is_under_both(
        solved in solved_unit(),
        front_mm in -10.0..=10.0,
        rear_mm in -10.0..=10.0,
    ) {
        let unit = solved.unit.standing(given_rollers(front_mm, rear_mm));
        let pose = built(unit)?;
        let (front, rear) = (pose.front_roller, pose.rear_roller);
        near("front roller", roller_above_plate(front), 0.0)?;
        near("rear roller", roller_above_plate(rear), 0.0)?;
        prop_assert!(front.centre.y > 0.0 && rear.centre.y > 0.0 && front.centre.x > rear.centre.x);
        near("front move", front.moved.mm(), front_mm)?;
        near("rear move", rear.moved.mm(), rear_mm)?;
        let (front_at_bench, rear_at_bench) = bench_rollers(&unit.profile);
        let front_in_frame = front_at_bench + Vec2::new(0.0, front_mm);
        let rear_in_frame = rear_at_bench + Vec2::new(0.0, rear_mm);
        near_point("front place", pose.plate_from_frame * front_in_frame, front.centre)?;
        near_point("rear place", pose.plate_from_frame * rear_in_frame, rear.centre)?;
        let attitude_rad = attitude_of_bar_rad(pose.plate_from_frame * pose.frame_from_bar);
        near("attitude", pose.attitude.rad(), attitude_rad)?;
        near("height", pose.height_of_cut.mm(), pose.edge_on_plate.y)?;
        // The rollers alone make the ground: the gap is closed as it was.
        let (edge, centre) = edge_and_centre_in_frame(&pose);
        let (edge_before, centre_before) = edge_and_centre_in_frame(&solved.pose);
        near_point("edge", edge, edge_before)?;
        near_point("centre", centre, centre_before)?;
    }

    #[test]
    fn the_same_spacer_over_both_rollers_changes_the_height_alone(
        solved in solved_unit(),
        front_mm in -8.0..=8.0,
        spacer_mm in 0.1..=8.0,
    ) {
        let standing =
            |front_mm, rear_mm| built(solved.unit.standing(given_rollers(front_mm, rear_mm)));
        let before = standing(front_mm, 0.0)?;
        let after = standing(front_mm + spacer_mm, spacer_mm)?;
        near("attitude", after.attitude.deg(), before.attitude.deg())?;
        let nosed_down_rad = before.attitude.rad() - attitude_of_bar_rad(before.frame_from_bar);
        let lower_mm = before.height_of_cut.mm() - after.height_of_cut.mm();
        // Rollers brought towards the reel let the unit down.
        near("lower", lower_mm, spacer_mm * nosed_down_rad.cos())?;
    }

    #[test]
    fn the_bench_pose_returns_itself(unit in believable_unit()) {
        let bench = unit.profile.bench;
        let wanted = unit.as_on_the_bench();
        for unit in [wanted, wanted.standing(given_rollers(0.0, 0.0))] {
            let pose = built(unit)?;
            near("behind centre", pose.sweep().behind_centre.mm(), bench.behind_centre.mm())?;
            near("height", pose.height_of_cut.mm(), bench.height_of_cut.mm())?;
            near("attitude", pose.attitude.deg(), bench.attitude.deg())?;
            near("front move", pose.front_roller.moved.mm(), 0.0)?;
            near("rear move", pose.rear_roller.moved.mm(), 0.0)?;
            near_point("edge", pose.edge_on_plate, bench_edge(&unit.profile))?;
            near_point("centre", pose.centre_on_plate, bench_centre(&unit.profile))?;
            near("ahead", pose.front_roller.centre.x, bench.front_roller.from_edge.mm())?;
            near("behind", -pose.rear_roller.centre.x, bench.rear_roller.from_edge.mm())?;
            near("extension", pose.extension.mm(), 0.0)?;
        }
    }

    #[test]
    fn a_pivot_on_the_edge_or_the_reels_centre_leaves_the_bench_pose_alone(
        unit in believable_unit(),
    ) {
        // Such a pivot closes no gap, and on the bench there is none to close.
        let profile = unit.profile;
        let on_edge = Closing::KnifePivots { pivot_in_frame: bench_edge(&profile).into() };
        let on_centre = Closing::ReelPivots { pivot_in_frame: bench_centre(&profile).into() };
        for closing in [on_edge, on_centre] {
            let unit = Unit::on_the_bench(Profile { closing, ..profile });
            let pose = built(unit)?;
            near_point("edge", pose.edge_on_plate, bench_edge(&profile))?;
            near_point("centre", pose.centre_on_plate, bench_centre(&profile))?;
        }
    }

    #[test]
    fn a_pivot_in_line_with_edge_and_centre_leaves_the_bench_pose_alone(
        unit in believable_unit(),
        along in prop_oneof![-1.0..=-0.2, 1.2..=2.0],
    ) {
        let profile = unit.profile;
        let (edge, centre) = (bench_edge(&profile), bench_centre(&profile));
        let pivot_in_frame = edge.lerp(centre, along).into();
        let knife = Closing::KnifePivots { pivot_in_frame };
        let reel = Closing::ReelPivots { pivot_in_frame };
        for closing in [knife, reel] {
            let unit = Unit::on_the_bench(Profile { closing, ..profile });
            let pose = built(unit)?;
            near("edge", pose.edge_on_plate.distance(edge), 0.0)?;
            near("centre", pose.centre_on_plate.distance(centre), 0.0)?;
        }
    }

    #[test]
    fn more_attitude_always_carries_the_edge_further_behind_centre(
        solved in solved_unit(),
        more_deg in 0.01..=8.0,
    ) {
        let SolvedUnit { unit, pose } = solved;
        let attitude = pose.attitude + Angle::from_deg(more_deg);
        let nosed = built(unit.standing(wanted(attitude, pose.height_of_cut)))?;
        let (before, after) = (pose.sweep(), nosed.sweep());
        prop_assert!(after.behind_centre > before.behind_centre);
        // The frame turns about the edge: the clip angle grows by what the attitude grew.
        let grown_deg = after.clip_angle.deg() - before.clip_angle.deg();
        near("clip angle", grown_deg, more_deg)?;
    }

    #[test]
    fn a_longer_knife_never_stands_further_behind(
        unit in believable_unit(),
        longer_mm in 0.01..=10.0,
        is_by_extension in any::<bool>(),
    ) {
        let mut shorter = unit;
        shorter.profile.closing = Closing::ReelSlides { lean: None };
        let mut longer = shorter;
        if is_by_extension {
            longer.setting.extension = longer.setting.extension + mm(longer_mm);
        } else {
            longer.setting.knife.reach = longer.setting.knife.reach + mm(longer_mm);
        }
        let behind = |unit: Unit| {
            let pose = built(unit)?;
            Ok::<_, TestCaseError>(pose.sweep().behind_centre)
        };
        let (before, after) = (behind(shorter)?, behind(longer)?);
        prop_assert!(after < before, "{after:?} and {before:?} before");
    }

    #[test]
    fn the_attitude_for_a_sweep_gives_that_sweep(solved in solved_unit(), sweep_mm in 0.0..=6.0) {
        let SolvedUnit { unit, pose } = solved;
        let put_back = |attitude: Option<Angle>| {
            let attitude = attitude.ok_or_else(|| TestCaseError::fail("an attitude gives it"))?;
            built(unit.standing(wanted(attitude, pose.height_of_cut)))
        };
        let again = put_back(pose.attitude_for_sweep(mm(sweep_mm)))?.sweep();
        near("sweep", again.below_cut.mm(), sweep_mm)?;
        // Nearer of the two attitudes that give it: the edge stays on its side of the centre.
        let now_mm = pose.sweep().behind_centre.mm();
        prop_assert!(again.behind_centre.mm() * now_mm >= -EXACT);
        let itself = pose.attitude_for_sweep(pose.sweep().below_cut);
        let itself = put_back(itself)?.sweep();
        near("its own sweep", itself.below_cut.mm(), pose.sweep().below_cut.mm())?;

        let on_centre = put_back(Some(pose.attitude_on_centre()))?.sweep();
        near("on centre", on_centre.behind_centre.mm(), 0.0)?;
        near("sweep on centre", on_centre.below_cut.mm(), -pose.gap.mm())?;
        // On centre is the least there is.
        prop_assert_eq!(pose.attitude_for_sweep(-(pose.gap + mm(0.001))), None);
        let most = pose.reel_radius_mm * 2.0 + pose.gap.mm();
        prop_assert_eq!(pose.attitude_for_sweep(mm(most + 0.001)), None);
    }

    #[test]
    fn the_lip_bottom_hangs_under_the_edge_along_the_front_face(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let bottom = lip_bottom_on_plate(&pose, &unit.profile, &unit.setting);
        let knife = &unit.setting.knife;
        let left_mm = knife.lip_thickness.mm() - where_faces_meet(knife).y;
        // Straight down from the datum, leaning back by the attitude and by the front angle.
        let front_rad = knife.front_angle.map_or(0.0, Angle::rad);
        let (sin, cos) = (pose.attitude.rad() + front_rad).sin_cos();
        let down_the_face = left_mm / front_rad.cos() * Vec2::new(-sin, -cos);
        near_point("lip bottom", bottom, pose.edge_on_plate + down_the_face)?;
    }
}

proptest! {
    #![proptest_config(two_thousand())]

    #[test]
    fn one_roller_left_where_it_is_and_the_height_kept_give_the_same_pose(solved in solved_unit()) {
        let SolvedUnit { unit, pose } = solved;
        let height_of_cut = pose.height_of_cut;
        let (front, rear) = (pose.front_roller.moved, pose.rear_roller.moved);
        for stance in [
            Stance::FrontRoller { front_move: front, height_of_cut },
            Stance::RearRoller { rear_move: rear, height_of_cut },
        ] {
            let again = built(unit.standing(stance))?;
            near("attitude", again.attitude.deg(), pose.attitude.deg())?;
            near("height", again.height_of_cut.mm(), height_of_cut.mm())?;
            near("front roller", again.front_roller.moved.mm(), front.mm())?;
            near("rear roller", again.rear_roller.moved.mm(), rear.mm())?;
            near_point("centre", again.centre_on_plate, pose.centre_on_plate)?;
        }
    }

    #[test]
    fn rollers_that_sink_apart_tilt_the_ground_by_what_is_between_them(
        solved in solved_unit(),
        radius_mm in ground_radius(),
        front_mm in 0.0..=8.0,
        rear_mm in 0.0..=8.0,
    ) {
        let pose = solved.pose;
        let sink = Sink { rollers: mm(front_mm), front: None, rear: Some(mm(rear_mm)) };
        let sunk = [(pose.front_roller, front_mm), (pose.rear_roller, rear_mm)];
        for shape in [GroundShape::Level, GroundShape::Crest(mm(radius_mm)), GroundShape::Hollow(mm(radius_mm))] {
            let ground = Terrain::under(&pose, shape, sink);
            let ground = ground.map_err(|error| TestCaseError::fail(error.to_string()))?;
            for (roller, sink_mm) in sunk {
                near("roller", ground.clearance(roller.centre).mm(), roller.radius_mm - sink_mm)?;
            }
            // The slope under the edge, by two points of the surface beside its foot.
            let edge = pose.edge_on_plate;
            let foot = edge + ground.down_at(edge) * ground.clearance(edge).mm();
            let beside = |by_mm: f64| ground.surface_mm(foot.x + by_mm).map(|y| y - foot.y);
            let between = beside(0.5).zip(beside(-0.5));
            let (ahead, behind) = between.ok_or_else(|| TestCaseError::fail("no ground"))?;
            let by_points = (ahead - behind).atan();
            near_within("slope", ground.slope_under(edge).rad(), by_points, 1e-6)?;
        }
        let level = Terrain::under(&pose, GroundShape::Level, sink);
        let slope = level.map_err(|error| TestCaseError::fail(error.to_string()))?.slope_under(pose.edge_on_plate);
        // Rising towards the roller that sinks deeper.
        prop_assert!((front_mm - rear_mm) * slope.rad() >= 0.0);
    }

    #[test]
    fn a_top_face_short_of_its_angle_comes_as_near_as_a_scan_along_it_finds(
        solved in solved_unit(),
        short_deg in 0.05..=6.0_f64,
    ) {
        let pose = solved.pose;
        let to_centre = pose.edge_to_centre_mm();
        // The face leaves the edge this much nearer the reel than square to the line of centres.
        let square: Vec2 = Vec2::new(-to_centre.y, to_centre.x).normalize();
        let face = Vec2::from_angle(-Angle::from_deg(short_deg).rad());
        let along: Vec2 = Vec2::new(square.x * face.x - square.y * face.y, square.x * face.y + square.y * face.x);
        let steps = (0..=2000_u32).map(|step| 0.01 * f64::from(step));
        let clear = steps.map(|way: f64| (pose.edge_on_plate + way * along).distance(pose.centre_on_plate) - pose.reel_radius_mm);
        let nearest = clear.fold(f64::INFINITY, f64::min);
        let heel = heel_to_reel(mm(pose.reel_radius_mm), pose.gap, -Angle::from_deg(short_deg));
        // Half a step from the nearest it is (0.005 mm)²/2R farther: 2.5e-7 mm on the smallest reel.
        near_within("heel", heel.mm(), nearest, 3e-7)?;
    }
}

#[test]
fn a_screw_head_on_the_knife_hangs_below_the_body_that_is_fitted() {
    let mut knife = plain_profile().knife;
    let head = |on| HardwarePoint {
        behind: mm(25.0),
        below: mm(1.5),
        on,
    };
    for (body_mm, on, wanted_mm) in [
        (8.0, Mount::Knife, 9.5),
        (10.0, Mount::Knife, 11.5),
        (10.0, Mount::Bar, 1.5),
    ] {
        knife.body_thickness = mm(body_mm);
        knife.reach = mm(45.0);
        let place = head(on).on_bar(&knife);
        assert!((place.x - 25.0).abs() < EXACT && (place.y - wanted_mm).abs() < EXACT);
    }
}

// On the ground.

/// The centre of round ground by the law of cosines at the rear roller, from what both roller
/// centres are away from it.
fn ground_centre(pose: &Pose, from_front_mm: f64, from_rear_mm: f64, is_below: bool) -> Point {
    let (front, rear) = (pose.front_roller.centre, pose.rear_roller.centre);
    let apart_mm = front.distance(rear);
    let cosine = ((from_rear_mm - from_front_mm) * (from_rear_mm + from_front_mm)
        + apart_mm * apart_mm)
        / (2.0 * from_rear_mm * apart_mm);
    let aside_rad = if is_below {
        -cosine.acos()
    } else {
        cosine.acos()
    };
    rear + from_rear_mm * Vec2::from_angle((front - rear).atan2() + aside_rad)
}

/// Radii from a bank beside a green to ground that nobody would call round.
///
/// At the largest a double holds the centre to 1e-11 mm, so [`EXACT`] still means something.
fn ground_radius() -> impl Strategy<Value = f64> {
    (3.0..=5.0).prop_map(|exponent: f64| 10f64.powf(exponent))
}

fn on_ground(pose: &Pose, shape: GroundShape, sink_mm: f64) -> Result<Terrain, TestCaseError> {
    Terrain::under(pose, shape, Sink::of_both(mm(sink_mm)))
        .map_err(|error| TestCaseError::fail(error.to_string()))
}

proptest! {
    #![proptest_config(two_thousand())]

    #[test]
    fn rollers_rest_on_a_crest_which_lowers_the_cut(
        solved in solved_unit(),
        radius_mm in ground_radius(),
    ) {
        let pose = solved.pose;
        let (front, rear) = (pose.front_roller, pose.rear_roller);
        let from_front_mm = radius_mm + front.radius_mm;
        let from_rear_mm = radius_mm + rear.radius_mm;
        let centre = ground_centre(&pose, from_front_mm, from_rear_mm, true);
        let ground = (centre, radius_mm);
        prop_assert!(centre.y < 0.0);
        for roller in [front, rear] {
            near("roller on ground", disc_to_disc(ground, (roller.centre, roller.radius_mm)), 0.0)?;
        }
        let crest = on_ground(&pose, GroundShape::Crest(mm(radius_mm)), 0.0)?;
        for roller in [front, rear] {
            near("roller centre", crest.clearance(roller.centre).mm(), roller.radius_mm)?;
        }
        let cut_mm = crest.clearance(pose.edge_on_plate).mm();
        near("cut", cut_mm, pose.edge_on_plate.distance(centre) - radius_mm)?;
        prop_assert!(cut_mm < pose.height_of_cut.mm());
        let reel = (pose.centre_on_plate, pose.reel_radius_mm);
        near("reel", crest.reel_clearance(&pose).mm(), disc_to_disc(ground, reel))?;
        for x_mm in [rear.centre.x, 0.0, front.centre.x] {
            let surface_mm = crest.surface_mm(x_mm);
            let surface_mm = surface_mm.ok_or_else(|| TestCaseError::fail("no ground"))?;
            let surface = Point::new(x_mm, surface_mm);
            near("surface", surface.distance(centre), radius_mm)?;
            prop_assert!(surface.y > centre.y);
        }
        prop_assert!(!crest.is_level());
    }

    #[test]
    fn rollers_rest_in_a_hollow_which_raises_the_cut(
        solved in solved_unit(),
        radius_mm in ground_radius(),
    ) {
        let pose = solved.pose;
        let (front, rear) = (pose.front_roller, pose.rear_roller);
        let from_front_mm = radius_mm - front.radius_mm;
        let from_rear_mm = radius_mm - rear.radius_mm;
        let centre = ground_centre(&pose, from_front_mm, from_rear_mm, false);
        let ground = (centre, radius_mm);
        prop_assert!(centre.y > 0.0);
        // Two discs that touch with one inside the other overlap by the whole smaller one.
        let inside = |disc: (Point, f64)| -disc_to_disc(ground, disc) - 2.0 * disc.1;
        for roller in [front, rear] {
            near("roller in ground", inside((roller.centre, roller.radius_mm)), 0.0)?;
        }
        let hollow = on_ground(&pose, GroundShape::Hollow(mm(radius_mm)), 0.0)?;
        for roller in [front, rear] {
            near("roller centre", hollow.clearance(roller.centre).mm(), roller.radius_mm)?;
        }
        let cut_mm = hollow.clearance(pose.edge_on_plate).mm();
        near("cut", cut_mm, radius_mm - pose.edge_on_plate.distance(centre))?;
        prop_assert!(cut_mm > pose.height_of_cut.mm());
        let reel = (pose.centre_on_plate, pose.reel_radius_mm);
        near("reel", hollow.reel_clearance(&pose).mm(), inside(reel))?;
        for x_mm in [rear.centre.x, 0.0, front.centre.x] {
            let surface_mm = hollow.surface_mm(x_mm);
            let surface_mm = surface_mm.ok_or_else(|| TestCaseError::fail("no ground"))?;
            let surface = Point::new(x_mm, surface_mm);
            near("surface", surface.distance(centre), radius_mm)?;
            prop_assert!(surface.y < centre.y);
        }
        prop_assert!(!hollow.is_level());
    }

    #[test]
    fn sinking_rollers_lower_everything_by_the_sink(
        solved in solved_unit(),
        radius_mm in ground_radius(),
        sink_mm in 0.1..=10.0,
    ) {
        let pose = solved.pose;
        for shape in [GroundShape::Level, GroundShape::Crest(mm(radius_mm)), GroundShape::Hollow(mm(radius_mm))] {
            let (firm, soft) = (on_ground(&pose, shape, 0.0)?, on_ground(&pose, shape, sink_mm)?);
            // Square to round ground a roller sinks by all of it; between the rollers the ground bends
            // over their share of its radius, on level ground not at all.
            let tolerance_mm = if shape == GroundShape::Level { EXACT } else { sink_mm * 600.0 / radius_mm };
            for roller in [pose.front_roller, pose.rear_roller] {
                let lower_mm = roller.radius_mm - soft.clearance(roller.centre).mm();
                near("roller", lower_mm, sink_mm)?;
            }
            for point in [pose.edge_on_plate, pose.centre_on_plate] {
                let lower_mm = (firm.clearance(point) - soft.clearance(point)).mm();
                near_within("point", lower_mm, sink_mm, tolerance_mm)?;
            }
            let lower_mm = (firm.reel_clearance(&pose) - soft.reel_clearance(&pose)).mm();
            near_within("reel", lower_mm, sink_mm, tolerance_mm)?;
            let surfaces_mm = soft.surface_mm(0.0).zip(firm.surface_mm(0.0));
            let (soft_mm, firm_mm) =
                surfaces_mm.ok_or_else(|| TestCaseError::fail("no ground"))?;
            near_within("surface", soft_mm - firm_mm, sink_mm, tolerance_mm)?;
        }
    }

    #[test]
    fn the_rounder_the_ground_the_farther_from_level(solved in solved_unit()) {
        let pose = solved.pose;
        let level = on_ground(&pose, GroundShape::Level, 0.0)?;
        prop_assert_eq!(level, on_level());
        prop_assert!(level.is_level());
        near("cut on level", level.clearance(pose.edge_on_plate).mm(), pose.height_of_cut.mm())?;
        near("surface", level.surface_mm(123.0).unwrap_or(f64::NAN), 0.0)?;
        let apart_mm = pose.front_roller.centre.distance(pose.rear_roller.centre);
        let mut cuts_mm = Vec::new();
        for radius_mm in [1e3, 1e4, 1e5, 1e6, 1e9] {
            // Ground between two rollers rises or dips by the apart²/8ρ of a flat arc at most;
            // twice that leaves room for how high edge and reel stand. At 1e9 mm a double's last
            // place is 1e-7 mm.
            let bound_mm = apart_mm * apart_mm / (4.0 * radius_mm) + 1e-15 * radius_mm;
            for shape in [GroundShape::Crest(mm(radius_mm)), GroundShape::Hollow(mm(radius_mm))] {
                let ground = on_ground(&pose, shape, 0.0)?;
                let cut_mm = ground.clearance(pose.edge_on_plate).mm();
                near_within("cut", cut_mm, pose.height_of_cut.mm(), bound_mm)?;
                let reel_mm = ground.reel_clearance(&pose).mm();
                near_within("reel", reel_mm, level.reel_clearance(&pose).mm(), bound_mm)?;
                cuts_mm.push((cut_mm - pose.height_of_cut.mm()).abs());
            }
        }
        for (rounder, flatter) in cuts_mm.iter().zip(cuts_mm.iter().skip(2)) {
            prop_assert!(flatter < rounder, "{cuts_mm:?}");
        }
    }
}

#[test]
fn a_crest_and_a_hollow_by_hand() -> Checked {
    let mut profile = plain_profile();
    profile.bench.height_of_cut = mm(10.0);
    profile.bench.front_roller.from_edge = mm(100.0);
    profile.bench.rear_roller.from_edge = mm(100.0);
    let pose = Unit::on_the_bench(profile).solve().expect("measured");
    let cut_mm = |shape| {
        let ground = on_ground(&pose, shape, 0.0)?;
        Ok::<_, TestCaseError>(ground.clearance(pose.edge_on_plate).mm())
    };
    // Roller radius 30: O is sqrt(1030² − 100²) = 1025.13414 below their centres, 1005.13414
    // below the edge.
    let on_crest_mm = cut_mm(GroundShape::Crest(mm(1000.0)))?;
    near_within("crest", on_crest_mm, 5.134_14, LAST_PLACE)?;
    // O is sqrt(970² − 100²) = 964.83159 above their centres, 984.83159 above the edge.
    let in_hollow_mm = cut_mm(GroundShape::Hollow(mm(1000.0)))?;
    near_within("hollow", in_hollow_mm, 15.168_41, LAST_PLACE)
}

// Clip length.

#[test]
fn four_miles_an_hour_with_eight_blades_at_900_rpm_clip_14_9_mm() -> Checked {
    let ground_speed = Quantity::<Speed>::parse("4 mph").expect("a speed").value();
    let reel_speed = Quantity::<Turning>::parse("900 rpm")
        .expect("turning")
        .value();
    // By hand: 4 · 447.04 mm/s over 8 blades · 15 rev/s = 1788.16 / 120.
    let clip = clip_length(ground_speed, reel_speed, 8);
    near("clip length", clip.mm(), 14.901_333_333_333_333)
}

// What cannot be built, and what only looks so.

/// A number for each kind of impossible; a new kind does not compile until it has one here.
fn kind_of(impossible: &Impossible) -> usize {
    match impossible {
        Impossible::BehindCentreBeyondReel { .. } => 0,
        Impossible::ReelSlidesPast { .. } => 1,
        Impossible::ReelPivotsPast { .. } => 2,
        Impossible::KnifePivotsPast { .. } => 3,
        Impossible::NoGroundUnderRollers { .. } => 4,
        Impossible::TurnedOver { .. } => 5,
        Impossible::CrestTooTight { .. } => 6,
        Impossible::HollowTooTight { .. } => 7,
        Impossible::RollersTurnOver { .. } => 8,
        Impossible::KnifeSlidesPast { .. } => 9,
        Impossible::HeightBeyondRoller { .. } => 10,
        Impossible::RollerTurnsOver { .. } => 11,
    }
}

fn roller(diameter_mm: f64, from_edge_mm: f64) -> Roller {
    Roller {
        diameter: mm(diameter_mm),
        from_edge: mm(from_edge_mm),
    }
}

/// Plain units spoilt one way each, and the quantities that say so, worked out by hand.
///
/// The plain unit's edge stands at (0, 12), its reel's centre at (0, 75.55).
fn spoilt_units() -> Vec<(Unit, Vec<&'static str>)> {
    let plain = Unit::on_the_bench(plain_profile());

    let mut beyond = plain;
    beyond.profile.bench.behind_centre = mm(80.0);

    // The edge goes 100 ahead of the upright on which the centre slides.
    let mut slides = plain;
    slides.setting.extension = mm(100.0);

    // Pivot 5 above the centre, 68.55 above the edge.
    let mut reel_pivots = plain;
    reel_pivots.profile.closing = Closing::ReelPivots {
        pivot_in_frame: Point::new(0.0, 80.55).into(),
    };
    reel_pivots.setting.reel_diameter = mm(120.0);

    // Pivot 5 above the edge, 58.55 below the centre.
    let mut knife_pivots = plain;
    knife_pivots.profile.closing = Closing::KnifePivots {
        pivot_in_frame: Point::new(0.0, 17.0).into(),
    };
    knife_pivots.setting.reel_diameter = mm(140.0);

    // The edge slides upright, 100 ahead of the centre's upright.
    let mut knife_slides = slides;
    knife_slides.profile.closing = Closing::KnifeSlides { lean: None };

    // The rear roller's centre, radius 30, stands at (-80, 30), 82 from the edge.
    let too_high = plain.standing(Stance::RearRoller {
        rear_move: mm(0.0),
        height_of_cut: mm(120.0),
    });

    // The front roller's centre goes to (2, -170), 182 below the edge and 2 ahead of it:
    // atan2(-182, 2) - asin((30 - 12) / 182.011) = -89.370 - 5.675 = -95.05°.
    let mut on_one = plain.standing(Stance::FrontRoller {
        front_move: mm(-200.0),
        height_of_cut: mm(12.0),
    });
    on_one.profile.bench.front_roller = roller(60.0, 2.0);

    // A small roller raised level with a large one, its circle wholly within the other.
    let mut nested = plain.standing(given_rollers(0.0, 35.0));
    nested.profile.bench.front_roller = roller(110.0, 10.0);
    nested.profile.bench.rear_roller = roller(40.0, 10.0);

    let mut crossed = plain.standing(given_rollers(0.0, 0.0));
    crossed.profile.bench.front_roller = roller(60.0, -150.0);

    // Centres 36 apart and 30 down, radii 40 apart: atan2(-30, 36) - asin(40 / 46.861) = -98.41°.
    let mut toppled = plain.standing(given_rollers(-70.0, 0.0));
    toppled.profile.bench.front_roller = roller(100.0, 18.0);
    toppled.profile.bench.rear_roller = roller(20.0, 18.0);

    let on_its_nose = plain.standing(wanted(Angle::from_deg(95.0), mm(12.0)));

    vec![
        (beyond, vec!["80.00 mm", "63.55 mm"]),
        (slides, vec!["127.0 mm", "100.0 mm", "63.55 mm"]),
        (
            reel_pivots,
            vec!["120.0 mm", "63.55 mm", "73.55 mm", "60.05 mm"],
        ),
        (
            knife_pivots,
            vec!["140.0 mm", "53.55 mm", "63.55 mm", "70.05 mm"],
        ),
        (knife_slides, vec!["127.0 mm", "100.0 mm", "63.55 mm"]),
        (too_high, vec!["30.00 mm", "120.0 mm", "82.00 mm"]),
        (on_one, vec!["200.0 mm", "12.00 mm", "-95.05°"]),
        (nested, vec!["20.00 mm ahead", "20.00 mm apart", "35.00 mm"]),
        (crossed, vec!["-70.00 mm ahead", "70.00 mm apart"]),
        (toppled, vec!["-70.00 mm", "0.000 mm", "-98.41°"]),
        (on_its_nose, vec!["95.00°"]),
    ]
}

#[test]
fn everything_impossible_says_so_with_its_lengths() {
    let plain = Unit::on_the_bench(plain_profile()).solve().expect("plain");
    let ground = |shape| Terrain::under(&plain, shape, Sink::NONE).expect_err("too tight");
    let mut cases: Vec<_> = spoilt_units()
        .into_iter()
        .map(|(unit, said)| (unit.solve().expect_err("spoilt"), said))
        .collect();
    cases.extend([
        (
            ground(GroundShape::Crest(mm(10.0))),
            vec!["10.00 mm", "170.0 mm"],
        ),
        (
            ground(GroundShape::Hollow(mm(60.0))),
            vec!["60.00 mm", "170.0 mm"],
        ),
        // Narrower than a roller.
        (
            ground(GroundShape::Hollow(mm(29.0))),
            vec!["29.00 mm", "170.0 mm"],
        ),
    ]);
    let mut kinds = BTreeSet::new();
    for (impossible, said) in cases {
        let text = impossible.to_string();
        for quantity in said {
            assert!(text.contains(quantity), "{quantity} in {text}");
        }
        assert!(!text.contains("{}") && text.ends_with('.'), "{text}");
        kinds.insert(kind_of(&impossible));
    }
    assert_eq!(kinds, (0..12).collect());
    // 170 / 25.4 = 6.6929.
    let in_inches = ground(GroundShape::Crest(mm(10.0))).sentence();
    let in_inches = in_inches.shown_in(System::InchDecimal);
    assert!(in_inches.contains("6.693 in"), "{in_inches}");
}

#[test]
fn a_right_angle_is_the_first_turn_too_far() {
    let plain = Unit::on_the_bench(plain_profile());
    let turned = |deg| {
        let stance = wanted(Angle::from_deg(deg), mm(12.0));
        plain.standing(stance).solve()
    };
    assert!(turned(89.9).is_ok() && turned(-89.9).is_ok());
    for deg in [90.0, -90.0] {
        let impossible = turned(deg).expect_err("a right angle");
        assert!(matches!(impossible, Impossible::TurnedOver { .. }));
    }
}

#[test]
fn an_edge_at_or_below_the_ground_is_no_error() -> Checked {
    // The plain unit cuts at 12 and stands level: rollers brought up by as much take it all away.
    let plain = Unit::on_the_bench(plain_profile());
    for (up_mm, left_mm) in [(11.0, 1.0), (12.0, 0.0), (13.0, -1.0), (30.0, -18.0)] {
        let pose = plain.standing(given_rollers(up_mm, up_mm)).solve();
        let pose = pose.expect("a finding, no error");
        near("height of cut", pose.height_of_cut.mm(), left_mm)?;
        near("edge", pose.edge_on_plate.y, left_mm)?;
        near("sweep", pose.sweep().below_cut.mm(), -0.05)?;
        near(
            "cut on level",
            on_level().clearance(pose.edge_on_plate).mm(),
            left_mm,
        )?;
        near("front roller", roller_above_plate(pose.front_roller), 0.0)?;
        near("rear roller", roller_above_plate(pose.rear_roller), 0.0)?;
    }
    Ok(())
}
