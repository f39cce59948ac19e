//! How round a roller runs, and how straight it is.

use std::f64::consts::TAU;

use super::cut::RollerShares;
use super::parallel::SAME_MM;
use crate::analysis::Level;
use crate::geometry::{FittedCircle, OutOfCentre, Pose, bow};
use crate::plate::{Readings, Roller, Station, StationReadings};
use crate::unit::Turf;
use crate::units::Length;

/// What a roller's runout is judged by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunoutLimits {
    /// Up to here it is fine.
    pub wanted: Length,
    /// Past here it is too much.
    pub most: Length,
}

impl RunoutLimits {
    /// The starting values of a turf (common practice, no source).
    #[must_use]
    pub fn starting(turf: Turf) -> Self {
        let (wanted, most) = match turf {
            Turf::Green | Turf::Tee => (0.002, 0.005),
            // One figure is in use there, for both.
            Turf::Fairway | Turf::Rough => (0.010, 0.010),
        };
        Self {
            wanted: Length::from_inches(wanted),
            most: Length::from_inches(most),
        }
    }
}

impl RunoutLimits {
    /// What a sheet's runout is judged by: the user's own limits, the turf's starting values where they
    /// gave none. None where neither is known.
    #[must_use]
    pub fn of(sheet: &Readings, turf: Option<Turf>) -> Option<Self> {
        let starting = turf.map(Self::starting);
        let most = sheet
            .runout_most
            .or_else(|| starting.map(|limits| limits.most))
            .or(sheet.runout_wanted)?;
        let wanted = sheet
            .runout_wanted
            .or_else(|| starting.map(|limits| limits.wanted))
            .unwrap_or(most);
        // Of limits that contradict each other the smaller holds.
        let wanted = if wanted > most { most } else { wanted };
        Some(Self { wanted, most })
    }
}

/// The runout at one place along a roller.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StationRunout {
    /// Where the indicator stood.
    pub station: Station,
    /// The circle fitted to what it read.
    pub circle: FittedCircle,
    /// How it stands; none without a turf to judge it by, and where too little of the turn was read for it
    /// to be fine.
    pub level: Option<Level>,
}

impl StationRunout {
    pub(super) fn of(station: &StationReadings, limits: Option<RunoutLimits>) -> Self {
        let circle = station.circle;
        let judged = Self {
            station: station.station,
            circle,
            level: None,
        };
        Self {
            level: limits.and_then(|limits| judged.level_by(limits)),
            ..judged
        }
    }

    /// What it is judged by: the largest less the smallest reading, or twice the eccentricity where that
    /// is more, because few readings fall short of the whole turn. A circle through one side of the turn is
    /// a guess, and judges none.
    #[must_use]
    pub fn judged(&self) -> Length {
        let by_fit = self.circle.read_by_fit();
        if self.is_judged_by_fit() {
            by_fit
        } else {
            self.circle.read
        }
    }

    /// Whether it is judged by the circle fitted.
    #[must_use]
    pub fn is_judged_by_fit(&self) -> bool {
        self.circle.is_read_all_round()
            && self.circle.read_by_fit().mm() > self.circle.read.mm() + SAME_MM
    }

    /// Which of both it is judged by, in words.
    #[must_use]
    pub fn judged_by(&self) -> &'static str {
        if self.is_judged_by_fit() {
            "by the circle fitted"
        } else {
            "read"
        }
    }

    /// How it stands by some limits; none where it would be fine by what was read alone, and more than half
    /// of the turn was not.
    #[must_use]
    pub fn level_by(&self, limits: RunoutLimits) -> Option<Level> {
        let level = runout_level(self.judged(), limits);
        (self.circle.is_read_all_round() || level > Level::Fine).then_some(level)
    }
}

/// What both ends of a roller do in a turn, from the lowest place to the highest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnceATurn {
    /// Both ends together, up and down.
    pub heave: Length,
    /// One end against the other.
    pub roll: Length,
}

impl OnceATurn {
    /// From the stations at both ends; none where one of them was not read. Their parts add up as they lie
    /// to one angular zero: half of their sum lifts both, and each rises by twice its eccentricity.
    #[must_use]
    pub fn of(stations: &[StationRunout]) -> Option<Self> {
        let at = |wanted: Station| {
            let found = stations.iter().find(|station| station.station == wanted)?;
            Some(found.circle.out_of_centre)
        };
        let (left, right) = (at(Station::Left)?, at(Station::Right)?);
        let size = |cosine: Length, sine: Length| Length::from_mm(cosine.mm().hypot(sine.mm()));
        Some(Self {
            heave: size(left.cosine + right.cosine, left.sine + right.sine),
            roll: size(right.cosine - left.cosine, right.sine - left.sine) * 2.0,
        })
    }
}

/// What a roller's runout does to the cut: the rise of the edge once a turn, and the way along the ground
/// from one to the next.
#[must_use]
pub fn band_in_the_cut(pose: &Pose, roller: Roller, turn: OnceATurn) -> Option<(Length, Length)> {
    let shares = RollerShares::of_pose(pose)?;
    let (share, radius_mm) = match roller {
        Roller::Front => (shares.front, pose.front_roller.radius_mm),
        Roller::Rear => (shares.rear, pose.rear_roller.radius_mm),
    };
    let pitch = Length::from_mm(TAU * radius_mm);
    Some((turn.heave * share, pitch))
}

/// How a runout stands.
#[must_use]
pub fn runout_level(read: Length, limits: RunoutLimits) -> Level {
    match read.mm() - SAME_MM {
        mm if mm <= limits.wanted.mm() => Level::Fine,
        mm if mm <= limits.most.mm() => Level::Watch,
        _ => Level::Over,
    }
}

/// How far a roller is bent, by what its middle has over its ends; none where one of the three places
/// was not read. A place read more than once counts with the middle of its readings.
#[must_use]
pub fn bow_of(stations: &[StationReadings]) -> Option<OutOfCentre> {
    let at = |wanted: Station| {
        let there = stations.iter().filter(|read| read.station == wanted);
        let out: Vec<_> = there.map(|read| read.circle.out_of_centre).collect();
        (!out.is_empty()).then(|| OutOfCentre::mean(&out))
    };
    Some(bow(
        at(Station::Left)?,
        at(Station::Middle)?,
        at(Station::Right)?,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Angle;

    #[test]
    fn ends_out_the_same_way_heave_and_ends_out_against_each_other_roll() {
        let station = |station, side: f64| {
            let turn = [0.0, 90.0, 180.0, 270.0].map(|deg: f64| {
                let read = side * deg.to_radians().cos();
                (Angle::from_deg(deg), Length::from_mm(read))
            });
            StationRunout {
                station,
                circle: FittedCircle::of(&turn).unwrap(),
                level: None,
            }
        };
        // Worked by hand: each end rises and falls by 2 mm in a turn.
        for (right, heave, roll) in [(1.0, 2.0, 0.0), (-1.0, 0.0, 4.0)] {
            let stations = [station(Station::Left, 1.0), station(Station::Right, right)];
            let turn = OnceATurn::of(&stations).unwrap();
            assert!((turn.heave.mm() - heave).abs() < 1e-9, "{turn:?}");
            assert!((turn.roll.mm() - roll).abs() < 1e-9, "{turn:?}");
            assert_eq!(OnceATurn::of(&stations[..1]), None);
        }
    }

    #[test]
    fn the_starting_limits_are_those_of_the_trade() {
        // 0.002 in wanted and 0.005 in at most on greens, 0.010 in on fairways (common practice, no source);
        // tees as greens, rough as fairways.
        for (turf, wanted, most) in [
            (Turf::Green, 0.002, 0.005),
            (Turf::Tee, 0.002, 0.005),
            (Turf::Fairway, 0.010, 0.010),
            (Turf::Rough, 0.010, 0.010),
        ] {
            let limits = RunoutLimits::starting(turf);
            let inches = [limits.wanted, limits.most].map(Length::inches);
            assert!((inches[0] - wanted).abs() < 1e-12, "{turf:?}: {limits:?}");
            assert!((inches[1] - most).abs() < 1e-12, "{turf:?}: {limits:?}");
        }
    }

    #[test]
    fn a_runout_at_its_limit_is_within_it() {
        let limits = RunoutLimits::starting(Turf::Green);
        let level = |thou: f64| runout_level(Length::from_inches(thou / 1000.0), limits);
        assert_eq!(level(2.0), Level::Fine);
        assert_eq!(level(2.1), Level::Watch);
        assert_eq!(level(5.0), Level::Watch);
        assert_eq!(level(5.1), Level::Over);
    }
}
