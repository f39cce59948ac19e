//! What comes as a reel wears: where a unit left alone meets its limits, against scans in small steps, and
//! when, by a record whose wear is known; the jobs of a record with what stood before and after.

use sweepgauge::analysis::{
    Due, LeftAlone, Met, NoDue, NoRate, Solution, Solved, WearAhead, WearAlong, WearLimit, When,
    due_told, jobs, rollers_held,
};
use sweepgauge::command::ShopBoard;
use sweepgauge::plate::{Day, Entry, Record};
use sweepgauge::store::{open_record, record_beside};
use sweepgauge::unit::{Document, read_text};
use sweepgauge::units::{Length, Measure as _, Quantity, Share, System};

use crate::common::demo_unit::DemoUnit;

/// Steps of a scan from the reel as it is to its minimum diameter.
const STEPS: u32 = 600;

/// Ways in which reel and knife may be brought together.
const CLOSINGS: [&str; 7] = [
    "ReelSlides(lean: None)",
    "ReelSlides(lean: Some(\"40 deg\"))",
    "ReelSlides(lean: Some(\"-40 deg\"))",
    "ReelPivots(ahead: \"-4 in\", above: \"1 in\")",
    "KnifePivots(ahead: \"-3 in\", above: \"2-1/4 in\")",
    "KnifePivots(ahead: \"2 in\", above: \"2 in\")",
    // The knife's back goes down as its edge goes up.
    "KnifePivots(ahead: \"-0.8 in\", above: \"1-1/2 in\")",
];

/// The demo units with a new reel, closed in every way, with their own limits and with limits that lie half
/// way between what they are as they stand and what they become.
fn units() -> impl Iterator<Item = Solved> {
    let all = DemoUnit::ALL.into_iter();
    let closed = all.flat_map(|demo| {
        CLOSINGS.into_iter().filter_map(move |closing| {
            let text = demo.text();
            let from = text.find("    closing: ").unwrap();
            let to = from + text[from..].find('\n').unwrap();
            let text = format!("{}    closing: {closing},{}", &text[..from], &text[to..]);
            let mut document = read_text(&text).ok()?;
            document.setting.reel_diameter = Some(document.reel.new_diameter.clone());
            Solved::of(&document).ok()
        })
    });
    closed.flat_map(|solved| {
        let between = limits_between(&solved);
        [Some(solved), between].into_iter().flatten()
    })
}

/// The unit with its limits of sweep and underside half way between what they are now and what they become.
fn limits_between(solved: &Solved) -> Option<Solved> {
    let mut worn = rollers_held(solved);
    worn.reel_diameter = solved.unit.smallest_diameter;
    let worn = Solution::of(&solved.unit, &worn).ok()?;
    let (share, worn_share) = (
        solved.solution.sweep_share?.of_one(),
        worn.sweep_share?.of_one(),
    );
    let clear = |solution: &Solution| solution.on_ground.underside_clearance.mm();
    let (sweep, underside) = (
        f64::midpoint(share, worn_share),
        f64::midpoint(clear(&solved.solution), clear(&worn)),
    );
    let mut document = Document::clone(&solved.document);
    let mut limits = document.limits.take().unwrap_or_default();
    limits.sweep_watch = None;
    limits.sweep_over =
        (sweep > 0.0).then(|| Quantity::exactly(Share::from_base(sweep), System::InchDecimal));
    limits.underside = (underside > 0.0)
        .then(|| Quantity::exactly(Length::from_mm(underside), System::InchDecimal));
    document.limits = Some(limits);
    Solved::of(&document).ok()
}

/// What is past at a diameter, the rollers where they are: sweep, underside, and whether reel and knife
/// meet no more. By the numbers and the limits alone.
fn past(solved: &Solved, diameter_mm: f64) -> [bool; 3] {
    let mut setting = rollers_held(solved);
    setting.reel_diameter = Length::from_mm(diameter_mm);
    let Ok(solution) = Solution::of(&solved.unit, &setting) else {
        return [false, false, true];
    };
    let limits = &solved.unit.limits;
    let most = limits.sweep_over.of_one() * solution.pose.height_of_cut.mm();
    [
        solution.sweep.below_cut.mm() > most,
        solution.on_ground.underside_clearance < limits.underside,
        false,
    ]
}

#[test]
fn a_unit_left_alone_meets_its_limits_where_a_scan_meets_them() {
    let told = [
        WearLimit::Sweep,
        WearLimit::Underside,
        WearLimit::Adjustment,
    ];
    let mut met_at = [0; 3];
    let mut count = 0;
    for solved in units() {
        count += 1;
        let left_alone = LeftAlone::of(&solved);
        let (now, scrap) = (
            solved.unit.setting.reel_diameter.mm(),
            solved.unit.smallest_diameter.mm(),
        );
        let step_mm = (now - scrap) / f64::from(STEPS);
        let name = &solved.document.name;
        let closing = &solved.document.closing;
        for (place, limit) in told.into_iter().enumerate() {
            let at = |step: u32| now - step_mm * f64::from(step);
            let first = (0..=STEPS).find(|step| past(&solved, at(*step))[place]);
            let told = format!("{name}, {closing:?}: {limit:?}, by the scan at {first:?}");
            match (left_alone.met(limit), first) {
                (Met::NotBeforeScrap, None) | (Met::Already, Some(0)) => {}
                (Met::At(diameter), Some(step)) => {
                    met_at[place] += 1;
                    let off = diameter.mm() - at(step);
                    assert!(
                        (-1e-9..=step_mm + 1e-9).contains(&off),
                        "{told}: {diameter:?}"
                    );
                }
                (other, _) => panic!("{told}: {other:?}"),
            }
        }
        assert_eq!(
            left_alone.met(WearLimit::Scrap),
            Met::At(solved.unit.smallest_diameter)
        );
    }
    assert!(count > 30, "{count} units");
    assert!(met_at[0] > 2 && met_at[1] > 2, "{met_at:?}");
}

/// A record of diameters that get less by so much a day and 10 hours a day, to a hundredth of a millimetre.
fn worn(first_mm: f64, a_day_mm: f64) -> Record {
    let begin = Day::parse("2026-01-01").unwrap().number();
    let entries = (0..5).map(|step| {
        let days = 20.0 * f64::from(step);
        let diameter = first_mm - a_day_mm * days;
        Entry {
            date: Day::of_number(begin + days).unwrap().to_string(),
            hours: format!("{}", 1000.0 + 10.0 * days),
            reel_diameter: Quantity::parse(&format!("{diameter:.6} mm")).ok(),
            ..Entry::default()
        }
    });
    Record {
        entries: entries.collect(),
        damaged: Vec::new(),
    }
}

#[test]
fn limits_are_met_when_the_records_own_wear_brings_them() {
    let begin = Day::parse("2026-01-01").unwrap().number();
    let mut dated = 0;
    for solved in units() {
        let left_alone = LeftAlone::of(&solved);
        let first = solved.unit.setting.reel_diameter.mm() + 0.4;
        let record = worn(first, 0.005);
        for along in WearAlong::ALL {
            let ahead = WearAhead::of(&left_alone, &record, along);
            for (limit, met, when) in &ahead.limits {
                let (Met::At(diameter), Some(When::Then(_, reached))) = (met, when) else {
                    assert!(!matches!(met, Met::At(_)), "{limit:?}");
                    continue;
                };
                dated += 1;
                let days = (first - diameter.mm()) / 0.005;
                let wanted = match along {
                    WearAlong::Hours => 1000.0 + 10.0 * days,
                    WearAlong::Days => begin + days,
                };
                assert!(
                    (reached.at - wanted).abs() < 0.01,
                    "{limit:?}: {reached:?}, {wanted}"
                );
            }
        }
        let due = Due::of(&left_alone, &record).unwrap();
        let firsts = left_alone.all_met().map(|(_, met)| match met {
            Met::Already => f64::INFINITY,
            Met::At(diameter) => diameter.mm(),
            Met::NotBeforeScrap => 0.0,
        });
        let first_mm = firsts.fold(0.0, f64::max);
        match due.when {
            When::Now => assert!(first_mm.is_infinite(), "{due:?}"),
            When::Then(along, reached) => {
                assert_eq!(along, WearAlong::Days);
                let days = begin + (first - first_mm) / 0.005;
                assert!((reached.at - days).abs() < 0.01, "{due:?}: {days}");
            }
        }
    }
    assert!(dated > 60, "{dated}");
}

#[test]
fn without_days_a_unit_is_due_by_its_hours_and_without_diameters_not_at_all() {
    let solved = Solved::of(&DemoUnit::GreensWalking.document()).unwrap();
    let left_alone = LeftAlone::of(&solved);
    let mut record = worn(solved.unit.setting.reel_diameter.mm(), 0.001);
    for entry in &mut record.entries {
        entry.date.clear();
    }
    let due = Due::of(&left_alone, &record).unwrap();
    assert!(
        matches!(due.when, When::Then(WearAlong::Hours, _)),
        "{due:?}"
    );
    assert!(due.when.told().ends_with(" h"), "{due:?}");
    record.entries.truncate(1);
    assert_eq!(Due::of(&left_alone, &record), Err(NoDue::NoRate));
    // What is past as it stands is due whatever the record tells.
    let mut document: Document = DemoUnit::GreensWalking.document();
    document.setting.reel_diameter = Some(document.reel.smallest_diameter.clone());
    let worn_out = LeftAlone::of(&Solved::of(&document).unwrap());
    let due = Due::of(&worn_out, &record).unwrap();
    assert_eq!((due.limit, due.when), (WearLimit::Scrap, When::Now));
}

#[test]
fn a_reel_that_was_read_under_its_minimum_has_no_forecast() {
    let solved = Solved::of(&DemoUnit::GreensWalking.document()).unwrap();
    let left_alone = LeftAlone::of(&solved);
    let smallest = solved.unit.smallest_diameter;
    let mut record = worn(solved.unit.setting.reel_diameter.mm(), 0.001);
    let before = Due::of(&left_alone, &record).unwrap();
    assert_ne!(before.when, When::Now);
    let last = record.entries.last().unwrap().clone();
    let under = Length::from_mm(smallest.mm() - 0.5);
    record.entries.push(Entry {
        reel_diameter: Some(Quantity::from_value(under, System::Millimetre)),
        ..last
    });
    let due = Due::of(&left_alone, &record);
    let told = due_told(&due, Day::today());
    let wanted = "Next due: now, reel already at or under its minimum diameter (scrap).";
    assert_eq!(told, wanted);
    for along in WearAlong::ALL {
        let ahead = WearAhead::of(&left_alone, &record, along);
        let scrap = ahead.limit_told(&ahead.limits[0], System::InchDecimal, Day::today());
        assert_eq!(
            scrap,
            "Reel already at or under its minimum diameter (scrap)."
        );
    }
}

#[test]
fn a_job_tells_what_stood_before_it_whatever_the_order_it_was_written_in() {
    let entry = |date: &str, diameter: &str, knife: &str| Entry {
        date: date.to_owned(),
        reel_diameter: Quantity::parse(diameter).ok(),
        knife: knife.to_owned(),
        ..Entry::default()
    };
    let record = Record {
        entries: vec![
            entry("2026-03-01", "4.90 in", ""),
            entry("2026-01-01", "5.00 in", "thin"),
            Entry {
                front_before: Quantity::parse("0.004 in").ok(),
                front_after: Quantity::parse("0 in").ok(),
                top_ground: Quantity::parse("0.01 in").ok(),
                ..entry("2026-05-01", "4.90 in", "long")
            },
        ],
        damaged: Vec::new(),
    };
    let jobs = jobs(&record, System::InchDecimal);
    let dates: Vec<_> = jobs.iter().map(|job| job.date.as_str()).collect();
    assert_eq!(dates, ["2026-01-01", "2026-03-01", "2026-05-01"]);
    let told: Vec<Vec<String>> = jobs
        .iter()
        .map(|job| {
            job.facts
                .iter()
                .map(sweepgauge::analysis::Fact::told)
                .collect()
        })
        .collect();
    assert_eq!(told[0], ["reel diameter 5.00 in", "knife thin"]);
    assert_eq!(
        told[1],
        ["reel diameter 5.00 in before, 4.90 in after, 0.100 in less"]
    );
    assert_eq!(
        told[2],
        [
            "reel diameter 4.90 in, unchanged",
            "knife thin before, long after",
            "metal off top face 0.01 in",
            "front roller out of parallel 0.0040 in (right end high) before, 0.0000 in after"
        ]
    );
}

#[test]
fn a_reel_that_is_not_the_records_is_due_at_no_day_and_a_day_that_is_past_is_overdue() {
    let solved = Solved::of(&DemoUnit::GreensWalking.document()).unwrap();
    let left_alone = LeftAlone::of(&solved);
    let now_mm = solved.unit.setting.reel_diameter.mm();
    // The record comes to a reel 3 mm smaller than the unit's, or larger.
    for off_mm in [-3.0, 3.0] {
        let other = worn(now_mm + off_mm + 0.4, 0.005);
        let due = Due::of(&left_alone, &other);
        assert_eq!(due, Err(NoDue::OtherReel), "{off_mm}");
        for along in WearAlong::ALL {
            let ahead = WearAhead::of(&left_alone, &other, along);
            assert!(matches!(ahead.rate, Err(NoRate::OtherReel)), "{ahead:?}");
            let scrap = ahead.limits[0];
            let told = ahead.limit_told(&scrap, System::InchDecimal, Day::today());
            assert!(told.contains("at a reel diameter of"), "{told}");
        }
    }
    let own = worn(now_mm + 0.4, 0.005);
    let due = Due::of(&left_alone, &own).unwrap();
    let When::Then(WearAlong::Days, reached) = due.when else {
        panic!("{due:?}");
    };
    let day = |off: f64| Day::of_number(reached.at + off).unwrap();
    assert!(!due.when.is_overdue(day(-1.0)) && due.when.is_overdue(day(2.0)));
    let ahead = WearAhead::of(&left_alone, &own, WearAlong::Days);
    let first = ahead.limits.iter().find(|limit| limit.0 == due.limit);
    let told = |day| ahead.limit_told(first.unwrap(), System::InchDecimal, day);
    assert!(told(day(2.0)).ends_with(" Overdue."), "{}", told(day(2.0)));
    assert!(!told(day(-1.0)).contains("verdue"));
}

#[test]
fn what_comes_first_is_one_day_and_one_hour_on_the_board_and_in_both_plots() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-units/example-ground");
    let board = ShopBoard::read(&folder).unwrap();
    let mut dated = 0;
    for unit in &board.units {
        let record = open_record(&record_beside(&unit.file)).unwrap();
        let left_alone = LeftAlone::of(&unit.solved);
        let [hours, days] = WearAlong::ALL.map(|along| WearAhead::of(&left_alone, &record, along));
        assert_eq!(unit.row.due, days.due, "{}", unit.row.file);
        assert_eq!(hours.due, days.due);
        let Ok(due) = unit.row.due else {
            continue;
        };
        dated += 1;
        let of_limit = |ahead: &WearAhead| {
            let mut limits = ahead.limits.iter();
            limits.find(|limit| limit.0 == due.limit).copied()
        };
        let told = |ahead: &WearAhead| {
            let limit = of_limit(ahead).unwrap();
            ahead.limit_told(&limit, System::InchDecimal, Day::today())
        };
        let (by_days, by_hours) = (due.when.told(), due.hours.unwrap().told());
        assert_eq!(of_limit(&days).unwrap().2, Some(due.when));
        assert_eq!(of_limit(&hours).unwrap().2, due.hours);
        assert!(
            told(&days).contains(&format!(": {by_days} ({by_hours}), at a reel diameter of")),
            "{}",
            told(&days)
        );
        assert!(
            told(&hours).contains(&format!(": {by_hours} ({by_days}), at a reel diameter of")),
            "{}",
            told(&hours)
        );
        // No other limit of either plot comes sooner.
        for ahead in [&days, &hours] {
            let first = of_limit(ahead).unwrap().2.unwrap();
            let Some(at) = at(first) else { continue };
            let others = ahead.limits.iter().filter_map(|limit| at_of(limit.2));
            assert!(others.into_iter().all(|other| other >= at), "{ahead:?}");
        }
    }
    assert!(dated >= 4, "{dated}");
}

fn at(when: When) -> Option<f64> {
    match when {
        When::Now => None,
        When::Then(_, reached) => Some(reached.at),
    }
}

fn at_of(when: Option<When>) -> Option<f64> {
    at(when?)
}
