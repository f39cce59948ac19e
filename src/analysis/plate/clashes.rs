//! Readings that clash with others of their kind: one of a turn off the circle of the rest, one along the reel
//! off the other two, and what was read half a turn apart.

use super::doubt::Doubt;
use super::runout::{RunoutLimits, StationRunout};
use crate::analysis::Level;
use crate::analysis::caution::HANDS_ON;
use crate::geometry::FittedCircle;
use crate::plate::{
    End, GapEntry, GapOfRoller, Place, Readings, Roller, RollerField, RollerReadings, SheetField,
    Side, Station, StationReadings, Worksheet,
};
use crate::unit::Turf;
use crate::units::{Angle, Length, Sentence};

/// How far a reading may lie off those beside it before it is asked about (common practice, no source): round
/// a turn, along the reel, and at an end of a roller beyond what its runout explains.
const OFF_ROUND: Length = Length::from_inches(0.002);
const OFF_ALONG: Length = Length::from_inches(0.015);
const OFF_AT_END: Length = Length::from_inches(0.001);

/// So many times as far off as any of the others, a reading is the odd one out.
const TIMES_ODD: f64 = 4.0;

/// The fewest readings of a turn among which one can be told to be the odd one: a circle takes three, and
/// the rest must agree on it.
const LEAST_ROUND: usize = 6;

fn size(length: Length) -> Length {
    Length::from_mm(length.mm().abs())
}

/// A place along the reel that stands far off the other two, which agree.
pub(super) fn odd_one_along(sheet: &Readings) -> Option<Doubt> {
    let reel = &sheet.reel;
    let read = [reel.left?, reel.middle?, reel.right?].map(|read| read.value);
    let off = |place: usize| {
        let (one, other) = (read[(place + 1) % 3], read[(place + 2) % 3]);
        (size(read[place] - (one + other) * 0.5), size(one - other))
    };
    let odd = (0..3).find(|place| {
        let (off, between) = off(*place);
        off > OFF_ALONG && off.mm() > TIMES_ODD * between.mm()
    })?;
    let told = Sentence::new("{} off the other two; read it again", &[off(odd).0.into()]);
    let field = SheetField::Reel(Station::ALL[odd]);
    Some(Doubt::new(&[field], Level::Watch, told))
}

/// Readings of a turn that lie far off the circle of the others, one a station.
pub(super) fn odd_places(sheet: &Readings, roller: Roller) -> Vec<Doubt> {
    let stations = sheet.roller(roller).into_iter();
    let stations = stations.flat_map(|roller| &roller.runout);
    let doubt = |station: &StationReadings| {
        let (at, off) = odd_place(station)?;
        let place = RollerField::Runout(station.station, Place::at(at.deg()));
        let told = Sentence::new(
            "{} off the circle of the others; read it again",
            &[off.into()],
        );
        let field = SheetField::Of(roller, place);
        Some(Doubt::new(&[field], Level::Watch, told))
    };
    stations.filter_map(doubt).collect()
}

/// The reading of a turn that lies far off the circle fitted to all the others, while each of those is near
/// it, and how far off it is.
fn odd_place(station: &StationReadings) -> Option<(Angle, Length)> {
    let readings = &station.readings;
    if readings.len() < LEAST_ROUND {
        return None;
    }
    let off_circle = |circle: &FittedCircle, (at, read): (Angle, Length)| {
        let (sine, cosine) = at.rad().sin_cos();
        let out = circle.out_of_centre;
        let on_it = circle.mean + out.cosine * cosine + out.sine * sine;
        size(read - on_it)
    };
    let odd = |place: usize| {
        let mut others = readings.clone();
        let one = others.remove(place);
        let circle = FittedCircle::of(&others).ok()?;
        let off = off_circle(&circle, one);
        let others = others.into_iter().map(|other| off_circle(&circle, other));
        let most_mm = others.map(Length::mm).fold(0.0, f64::max);
        (off > OFF_ROUND && off.mm() > TIMES_ODD * most_mm).then_some((one.0, off))
    };
    (0..readings.len()).find_map(odd)
}

/// What was read half a turn apart under the ends of a roller: after half a turn at one end alone, and so far
/// apart that its runout explains it no more.
pub(super) fn half_turns(
    sheet: &Worksheet,
    readings: &Readings,
    turf: Option<Turf>,
    roller: Roller,
) -> Vec<Doubt> {
    let both = sheet.roller(roller).zip(readings.roller(roller));
    let Some((entry, read)) = both else {
        return Vec::new();
    };
    let typed = |side: Side| match side {
        Side::Left => entry.left_half_turn.as_ref(),
        Side::Right => entry.right_half_turn.as_ref(),
    };
    let of = |side: Side| match side {
        Side::Left => read.left.as_ref(),
        Side::Right => read.right.as_ref(),
    };
    let mut all = Vec::new();
    for side in Side::ALL {
        let other = side.other();
        if let (Some(like), None, Some(_)) = (typed(side), typed(other), of(other)) {
            let field = field_of(roller, End::of(other, true), like);
            let told = format!(
                "not read; read it too, or the roller's runout passes for slope. Before you turn it: {HANDS_ON}"
            );
            all.push(Doubt::in_words(field, Level::Watch, told));
        }
    }
    let limits = RunoutLimits::of(readings, turf);
    for side in Side::ALL {
        let Some((like, gap)) = typed(side).zip(of(side)) else {
            continue;
        };
        let Some(told) = clash(gap, runout_at(read, side, limits), limits) else {
            continue;
        };
        let fields = [false, true].map(|turn| field_of(roller, End::of(side, turn), like));
        all.push(Doubt::new(&fields, Level::Over, told));
    }
    all
}

/// The runout that was read at the station next to an end.
fn runout_at(read: &RollerReadings, side: Side, limits: Option<RunoutLimits>) -> Option<Length> {
    let station = match side {
        Side::Left => Station::Left,
        Side::Right => Station::Right,
    };
    let there = read.runout.iter().filter(|read| read.station == station);
    let judged = there.map(|read| StationRunout::of(read, limits).judged());
    judged.reduce(|one, other| if other > one { other } else { one })
}

/// Readings half a turn apart differ by no more than the roller runs out there, and by what both can be off.
fn clash(
    gap: &GapOfRoller,
    runout: Option<Length>,
    limits: Option<RunoutLimits>,
) -> Option<Sentence> {
    let apart = gap.half_turn_apart?;
    // The mean of two is off by half of what their difference is.
    let off = gap.standard_read * 4.0 + OFF_AT_END;
    let (template, explained) = match (runout, limits) {
        (Some(runout), _) => (
            "{} from the reading half a turn before, and this end runs out by {}; read both again",
            runout,
        ),
        (None, Some(limits)) => (
            "{} from the reading half a turn before, more than the runout of {} there may be; read both again, and the runout",
            limits.most,
        ),
        (None, None) => return None,
    };
    (apart > explained + off).then(|| Sentence::new(template, &[apart.into(), explained.into()]))
}

/// The entry of an end that is read as another reading was.
fn field_of(roller: Roller, end: End, like: &GapEntry) -> SheetField {
    let field = match like {
        GapEntry::Feeler { .. } => RollerField::StopsAt(end),
        GapEntry::Gap(_) => RollerField::Gap(end),
        GapEntry::Height(_) => RollerField::OverTop(end),
    };
    SheetField::Of(roller, field)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::Measured;
    use crate::units::System;

    fn thou(thou: f64) -> Length {
        Length::from_inches(thou / 1000.0)
    }

    /// A turn read at even places.
    fn turn(read: &[f64]) -> StationReadings {
        let count = u32::try_from(read.len()).expect("a few");
        let places = Place::round(count).map(|place| Angle::from_deg(place.deg()));
        let readings: Vec<_> = places.zip(read.iter().copied().map(thou)).collect();
        StationReadings {
            station: Station::Left,
            circle: FittedCircle::of(&readings).expect("a circle"),
            readings,
        }
    }

    #[test]
    fn a_reading_ten_times_too_large_is_the_odd_one_of_its_turn() {
        // A dot left out: 8 for 0.8.
        let (at, off) = odd_place(&turn(&[0.0, 0.2, 0.6, 0.9, 1.0, 8.0, 0.4, 0.1])).expect("one");
        assert!((at.deg() - 225.0).abs() < 1e-9);
        assert!((off.inches() * 1000.0 - 7.2).abs() < 0.3, "{off:?}");
        for right in [
            &[0.0, 0.2, 0.6, 0.9, 1.0, 0.8, 0.4, 0.1][..],
            // Oval: no one reading is to blame.
            &[0.0, 2.0, 4.0, 2.0, 0.0, 2.0, 4.0, 2.0][..],
            // Of four any one could be it.
            &[0.0, 8.0, 1.0, 0.2][..],
        ] {
            assert_eq!(odd_place(&turn(right)), None, "{right:?}");
        }
    }

    #[test]
    fn one_place_along_the_reel_is_read_again_where_the_other_two_agree() {
        let told = |inches: [f64; 3]| {
            let [left, middle, right] = inches.map(|inches| {
                Some(Measured {
                    value: Length::from_inches(inches),
                    standard: Length::ZERO,
                })
            });
            let mut sheet = Readings::default();
            (sheet.reel.left, sheet.reel.middle, sheet.reel.right) = (left, middle, right);
            let doubt = odd_one_along(&sheet)?;
            Some(doubt.told_alone(System::InchDecimal))
        };
        // By hand: 4.751 less the mean of 4.712 and 4.709.
        let odd = told([4.712, 4.751, 4.709]).expect("the middle");
        assert!(
            odd.starts_with("Reel diameter, middle: 0.0405 in off"),
            "{odd}"
        );
        // A cone and a worn middle are no slips.
        assert_eq!(told([4.730, 4.710, 4.690]), None);
        assert_eq!(told([4.712, 4.704, 4.709]), None);
    }

    #[test]
    fn readings_half_a_turn_apart_differ_by_no_more_than_the_runout_explains() {
        let gap = |apart: f64| GapOfRoller {
            half_turn_apart: Some(thou(apart)),
            ..GapOfRoller::default()
        };
        let runout = Some(thou(2.6));
        let limits = RunoutLimits::of(&Readings::default(), Some(Turf::Green));
        assert_eq!(clash(&gap(3.0), runout, limits), None);
        let told = clash(&gap(515.1), runout, limits).expect("a clash");
        let told = told.shown_in(System::InchDecimal);
        assert!(told.starts_with("0.515 in from the reading"), "{told}");
        // Where nobody read the runout, the most there may be explains it.
        assert_eq!(clash(&gap(5.0), None, limits), None);
        assert!(clash(&gap(8.0), None, limits).is_some());
        assert_eq!(clash(&gap(8.0), None, None), None);
    }
}
