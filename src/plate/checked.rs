//! A sheet checked and turned into plain values: once, and no more after that.

use super::checks::{
    at, day, exact, exact_angle, hours, inside, measured, measured_angle, names_and_notes,
    standard_of,
};
use super::flaw::{SheetFlaw, SheetFlawKind};
use super::readings::{
    AdjusterReadings, AlongRead, GapOfKnife, GapOfRoller, Measured, Readings, RollerReadings,
    StationReadings,
};
use super::sheet::{
    AdjusterEntry, Feeler, GapEntry, RollerEntry, RunoutEntry, Side, ThreeEntry, Worksheet,
};
use crate::geometry::{Eccentric, FittedCircle};
use crate::unit::{Rule, is_name_alone};
use crate::units::{Angle, Length, Quantity};

/// The most places along a roller at which its runout is read.
const MOST_STATIONS: usize = 24;
/// The most readings round a turn.
const MOST_READINGS: usize = 720;
/// The most sizes of shims.
const MOST_SHIMS: usize = 16;
/// How much lower than its own diameter a roller's top can be read; more is a wrong reading.
const LOWEST_GAP: Length = Length::from_mm(-1.0);

impl Worksheet {
    /// Checks the sheet and turns it into plain values.
    ///
    /// # Errors
    /// The first value that makes no sense, with its path and what would be right.
    pub fn checked(&self) -> Result<Readings, SheetFlaw> {
        let bar = self.bar.as_ref().map(|bar| {
            let thickness = |path, length| measured(path, length, Rule::AboveZero);
            Ok([
                thickness("bar.left", &bar.left)?,
                thickness("bar.right", &bar.right)?,
            ])
        });
        let flat = self.plate_flat_within.as_ref();
        let attitude = self.attitude.as_ref().map(|attitude| {
            let angle = |path, angle| measured_angle(path, angle, Rule::WithinUpright);
            Ok([
                angle("attitude.left", &attitude.left)?,
                angle("attitude.right", &attitude.right)?,
            ])
        });
        let unit = unit_name(&self.unit)?;
        let day = day("date", &self.date)?;
        names_and_notes(&self.by, &self.notes)?;
        Ok(Readings {
            unit,
            day,
            hours: hours("hours", &self.hours)?,
            cut_width: exact("cut_width", &self.cut_width, Rule::AboveZero)?,
            bar: bar.transpose()?,
            plate_flat_within: flat.map_or(Ok(Length::ZERO), |flat| {
                exact("plate_flat_within", flat, Rule::NotNegative)
            })?,
            reel: lengths_along("reel", self.reel.as_ref())?,
            knife_to_reel: along("knife_to_reel", self.knife_to_reel.as_ref(), knife_gap)?,
            front: roller("front", self.front.as_ref())?,
            rear: roller("rear", self.rear.as_ref())?,
            height: lengths_along("height", self.height.as_ref())?,
            attitude: attitude.transpose()?,
            runout_wanted: limit("runout_wanted", self.runout_wanted.as_ref())?,
            runout_most: limit("runout_most", self.runout_most.as_ref())?,
        })
    }
}

/// A limit of the user's own; none where the turf's holds.
fn limit(path: &str, entry: Option<&Quantity<Length>>) -> Result<Option<Length>, SheetFlaw> {
    entry
        .map(|limit| exact(path, limit, Rule::NotNegative))
        .transpose()
}

/// The name of a unit's file; none where none is written. Never a path: a sheet that came from
/// elsewhere opens no file but one beside it.
fn unit_name(written: &str) -> Result<Option<String>, SheetFlaw> {
    if written.is_empty() {
        return Ok(None);
    }
    if !is_name_alone(written) {
        return Err(at("unit", SheetFlawKind::NotAName(written.to_owned())));
    }
    Ok(Some(written.to_owned()))
}

fn along<E, T>(
    path: &str,
    entry: Option<&ThreeEntry<E>>,
    check: impl Fn(&str, &E) -> Result<T, SheetFlaw>,
) -> Result<AlongRead<T>, SheetFlaw> {
    let mut places = [None, None, None];
    if let Some(entry) = entry {
        for (place, (name, read)) in places.iter_mut().zip(entry.each()) {
            *place = read
                .map(|read| check(&inside(path, name), read))
                .transpose()?;
        }
    }
    let [left, middle, right] = places;
    Ok(AlongRead {
        left,
        middle,
        right,
    })
}

fn lengths_along(
    path: &str,
    entry: Option<&ThreeEntry<Quantity<Length>>>,
) -> Result<AlongRead, SheetFlaw> {
    along(path, entry, |path, length| {
        measured(path, length, Rule::AboveZero)
    })
}

fn knife_gap(path: &str, feeler: &Feeler) -> Result<GapOfKnife, SheetFlaw> {
    let read = leaves(path, &feeler.goes, &feeler.stops_at)?;
    Ok(GapOfKnife {
        gap: read.middle,
        half_width: read.half_width,
    })
}

/// Two leaves of a feeler, the gap between them.
struct Leaves {
    middle: Length,
    half_width: Length,
    /// What the leaves' own ± adds.
    own_standard: Length,
}

/// "Goes a, stops at b" reads the middle of a and b, rectangular between them.
fn leaves(
    path: &str,
    goes: &Quantity<Length>,
    stops_at: &Quantity<Length>,
) -> Result<Leaves, SheetFlaw> {
    let thin = measured(&inside(path, "goes"), goes, Rule::NotNegative)?;
    let thick = measured(&inside(path, "stops_at"), stops_at, Rule::AboveZero)?;
    if thick.value <= thin.value {
        let kind = SheetFlawKind::LeavesSwapped {
            goes: goes.text().to_owned(),
            stops_at: stops_at.text().to_owned(),
        };
        return Err(at(&inside(path, "stops_at"), kind));
    }
    let both_mm = thin.standard.mm().hypot(thick.standard.mm());
    Ok(Leaves {
        middle: (thin.value + thick.value) * 0.5,
        half_width: (thick.value - thin.value) * 0.5,
        own_standard: Length::from_mm(both_mm * 0.5),
    })
}

fn roller(path: &str, entry: Option<&RollerEntry>) -> Result<Option<RollerReadings>, SheetFlaw> {
    let Some(entry) = entry else { return Ok(None) };
    let apart = |name: &str, length: Option<&Quantity<Length>>| {
        length
            .map(|length| exact(&inside(path, name), length, Rule::AboveZero))
            .transpose()
    };
    let adjuster = entry.adjuster.as_ref();
    Ok(Some(RollerReadings {
        measured_apart: apart("measured_apart", entry.measured_apart.as_ref())?,
        adjusters_apart: apart("adjusters_apart", entry.adjusters_apart.as_ref())?,
        left: End::left(entry).gap(path)?,
        right: End::right(entry).gap(path)?,
        adjust: entry.adjust,
        adjuster: adjuster
            .map(|adjuster| adjuster_values(&inside(path, "adjuster"), adjuster))
            .transpose()?,
        parallel_within: apart("parallel_within", entry.parallel_within.as_ref())?,
        out_before: entry
            .out_before
            .as_ref()
            .map(|out| exact(&inside(path, "out_before"), out, Rule::InProportion))
            .transpose()?,
        runout: runout(
            &inside(path, "runout"),
            &entry.runout,
            lever_share(&inside(path, "lever_angle"), entry.lever_angle.as_ref())?,
        )?,
    }))
}

/// What was read at one end of a roller.
struct End<'a> {
    side: Side,
    once: Option<&'a GapEntry>,
    once_name: &'static str,
    again: Option<&'a GapEntry>,
    again_name: &'static str,
    diameter: Option<&'a Quantity<Length>>,
    diameter_name: &'static str,
}

impl<'a> End<'a> {
    fn left(roller: &'a RollerEntry) -> Self {
        Self {
            side: Side::Left,
            once: roller.left.as_ref(),
            once_name: "left",
            again: roller.left_half_turn.as_ref(),
            again_name: "left_half_turn",
            diameter: roller.left_diameter.as_ref(),
            diameter_name: "left_diameter",
        }
    }

    fn right(roller: &'a RollerEntry) -> Self {
        Self {
            side: Side::Right,
            once: roller.right.as_ref(),
            once_name: "right",
            again: roller.right_half_turn.as_ref(),
            again_name: "right_half_turn",
            diameter: roller.right_diameter.as_ref(),
            diameter_name: "right_diameter",
        }
    }

    /// The gap under this end: of one reading, or the mean of both. Heights share one diameter, so
    /// that its own uncertainty does not go down by reading twice.
    fn gap(&self, path: &str) -> Result<Option<GapOfRoller>, SheetFlaw> {
        let diameter = self
            .diameter
            .map(|diameter| {
                let path = inside(path, self.diameter_name);
                measured(&path, diameter, Rule::AboveZero)
            })
            .transpose()?;
        let once = self.read(path, self.once_name, self.once, diameter)?;
        let half_turn = self.read(path, self.again_name, self.again, diameter)?;
        let reads = [
            once.map(|read| (read, self.once)),
            half_turn.map(|read| (read, self.again)),
        ];
        let reads: Vec<_> = reads.into_iter().flatten().collect();
        let share = match reads.len() {
            0 => return Ok(None),
            1 => 1.0,
            _ => 0.5,
        };
        let apart = once.zip(half_turn).map(|(once, half_turn)| {
            let apart_mm = (half_turn.value - once.value).mm();
            Length::from_mm(apart_mm.abs())
        });
        let mut gap = GapOfRoller {
            is_of_half_turn: reads.len() > 1,
            half_turn_apart: apart,
            is_off_known: true,
            ..GapOfRoller::default()
        };
        let is_known = |read: &Measured| read.standard > Length::ZERO;
        let mut over_top = 0.0;
        for (read, entry) in reads {
            gap.gap = gap.gap + read.value * share;
            let standard_mm = gap.standard_read.mm().hypot(read.standard.mm() * share);
            gap.standard_read = Length::from_mm(standard_mm);
            gap.is_off_known &= is_known(&read);
            if entry.is_some_and(GapEntry::is_over_top) {
                over_top += share;
                gap.is_off_known &= diameter.as_ref().is_some_and(is_known);
            }
        }
        let of_diameter = diameter.map_or(Length::ZERO, |diameter| diameter.standard);
        gap.standard_diameter = of_diameter * over_top;
        Ok(Some(gap))
    }

    /// One reading as a gap, with the uncertainty of the reading alone.
    fn read(
        &self,
        path: &str,
        name: &str,
        entry: Option<&GapEntry>,
        diameter: Option<Measured>,
    ) -> Result<Option<Measured>, SheetFlaw> {
        let path = inside(path, name);
        let read = match entry {
            None => return Ok(None),
            Some(GapEntry::Feeler { goes, stops_at }) => {
                let leaves = leaves(&path, goes, stops_at)?;
                let between = standard_of(leaves.half_width.mm());
                let standard_mm = between.mm().hypot(leaves.own_standard.mm());
                Measured {
                    value: leaves.middle,
                    standard: Length::from_mm(standard_mm),
                }
            }
            Some(GapEntry::Gap(gap)) => measured(&path, gap, Rule::NotNegative)?,
            Some(GapEntry::Height(height)) => {
                let over = measured(&path, height, Rule::AboveZero)?;
                let Some(diameter) = diameter else {
                    return Err(at(&path, SheetFlawKind::NoDiameter(self.side)));
                };
                let value = over.value - diameter.value;
                if value < LOWEST_GAP {
                    let of = self.diameter.map_or("", |diameter| diameter.text());
                    let kind = SheetFlawKind::UnderThePlate {
                        height: height.text().to_owned(),
                        diameter: of.to_owned(),
                    };
                    return Err(at(&path, kind));
                }
                Measured { value, ..over }
            }
        };
        Ok(Some(read))
    }
}

fn adjuster_values(path: &str, entry: &AdjusterEntry) -> Result<AdjusterReadings, SheetFlaw> {
    Ok(match entry {
        AdjusterEntry::Eccentric { throw, now } => AdjusterReadings::Eccentric(Eccentric {
            throw: exact(&inside(path, "throw"), throw, Rule::AboveZero)?,
            now: exact_angle(&inside(path, "now"), now, Rule::InProportion)?,
        }),
        AdjusterEntry::Thread { pitch, tilt } => AdjusterReadings::Thread {
            pitch: exact(&inside(path, "pitch"), pitch, Rule::AboveZero)?,
            tilt: exact_angle(&inside(path, "tilt"), tilt, Rule::WithinUpright)?,
        },
        AdjusterEntry::Shims(sizes) => {
            if sizes.is_empty() {
                return Err(at(path, SheetFlawKind::NoShims));
            }
            no_more_than(path, sizes.len(), "sizes of shims", MOST_SHIMS)?;
            let size =
                |(place, size)| exact(&inside(path, &format!("[{place}]")), size, Rule::AboveZero);
            AdjusterReadings::Shims(
                sizes
                    .iter()
                    .enumerate()
                    .map(size)
                    .collect::<Result<_, _>>()?,
            )
        }
    })
}

fn no_more_than(
    path: &str,
    count: usize,
    what: &'static str,
    most: usize,
) -> Result<(), SheetFlaw> {
    if count > most {
        return Err(at(path, SheetFlawKind::TooMany { count, what, most }));
    }
    Ok(())
}

/// The part of what an indicator shows that the surface moved: the cosine of its lever's angle.
fn lever_share(path: &str, angle: Option<&Quantity<Angle>>) -> Result<f64, SheetFlaw> {
    let angle = angle
        .map(|angle| exact_angle(path, angle, Rule::WithinUpright))
        .transpose()?;
    Ok(angle.map_or(1.0, |angle| angle.rad().cos()))
}

fn runout(
    path: &str,
    entries: &[RunoutEntry],
    lever_share: f64,
) -> Result<Vec<StationReadings>, SheetFlaw> {
    no_more_than(
        path,
        entries.len(),
        "places along the roller",
        MOST_STATIONS,
    )?;
    let station = |(place, entry): (usize, &RunoutEntry)| {
        let path = inside(path, &format!("[{place}].readings"));
        no_more_than(
            &path,
            entry.readings.len(),
            "readings of a turn",
            MOST_READINGS,
        )?;
        let read = |(place, reading): (usize, &super::RunoutReading)| {
            let path = inside(&path, &format!("[{place}]"));
            Ok((
                exact_angle(&path, &reading.0, Rule::InProportion)?,
                exact(&path, &reading.1, Rule::InProportion)? * lever_share,
            ))
        };
        let readings: Vec<_> = entry
            .readings
            .iter()
            .enumerate()
            .map(read)
            .collect::<Result<_, SheetFlaw>>()?;
        let circle = FittedCircle::of(&readings).map_err(|few| at(&path, few))?;
        Ok(StationReadings {
            station: entry.station,
            readings,
            circle,
        })
    };
    entries.iter().enumerate().map(station).collect()
}
