//! Which gauge bar the knife is laid on: the one that leaves the unit nearest to the pose it works in.

use kurbo::Point;

use crate::analysis::Solved;
use crate::geometry::{OnBar, RollerDown, underside_on_bar};
use crate::units::{Angle, Length, Measure as _, System};

/// The bars that a shop has to begin with (common practice, no source).
pub const BARS: [Length; 2] = [Length::from_inches(0.25), Length::from_inches(0.5)];

/// A unit turned further than this is measured in a pose too far from the one it works in (common
/// practice, no source).
pub const MOST_TURN: Angle = Angle::from_deg(3.0);

/// What becomes of a unit on a bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarChoice {
    /// The bar's thickness.
    pub bar: Length,
    /// How far the unit is turned with its front roller down at the plate, then with its rear roller;
    /// none where that roller cannot come down.
    pub turned: [Option<Angle>; 2],
    /// How far over the plate the lowest of reel, knife and hardware stands in the lower of both poses,
    /// what lies on the bar left out.
    pub clear: Option<Length>,
}

impl BarChoice {
    /// The further of both turns, without its sign; none where a roller cannot come down.
    #[must_use]
    pub fn furthest(&self) -> Option<Angle> {
        let [front, rear] = self.turned;
        let deg = front?.deg().abs().max(rear?.deg().abs());
        Some(Angle::from_deg(deg))
    }

    /// Whether it can be used: near enough to the pose the unit works in, and clear of the plate.
    #[must_use]
    pub fn can_be_used(&self) -> bool {
        self.why_not().is_none()
    }

    /// Why it cannot be used; none where it can.
    #[must_use]
    pub fn why_not(&self) -> Option<BarRefused> {
        match (self.furthest(), self.clear) {
            (_, Some(clear)) if clear <= Length::ZERO => Some(BarRefused::MeetsThePlate),
            (None, _) | (_, None) => Some(BarRefused::RollerStaysOff),
            (Some(turn), _) if turn > MOST_TURN => Some(BarRefused::TurnsTooFar),
            _ => None,
        }
    }
}

/// Why a bar cannot be used for a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BarRefused {
    /// It turns the unit by more than [`MOST_TURN`].
    TurnsTooFar,
    /// Reel, knife or hardware meets the plate.
    MeetsThePlate,
    /// A roller does not come down to the plate.
    RollerStaysOff,
}

impl BarRefused {
    /// Every reason.
    pub const ALL: [Self; 3] = [Self::TurnsTooFar, Self::MeetsThePlate, Self::RollerStaysOff];
}

/// Why none of some bars can be used and what to do about it, `names` being what they are called; none where
/// one can, or there are none.
#[must_use]
pub fn none_can_be_used(
    unit: &Solved,
    choices: &[BarChoice],
    names: &[String],
    system: System,
) -> Option<String> {
    if choices.is_empty() || choices.iter().any(BarChoice::can_be_used) {
        return None;
    }
    let reasons = BarRefused::ALL.into_iter().filter_map(|why| {
        let bars = choices.iter().zip(names);
        let bars = bars.filter(|(choice, _)| choice.why_not() == Some(why));
        let bars: Vec<&str> = bars.map(|(_, name)| &**name).collect();
        let (last, before) = bars.split_last()?;
        let (bars, turns) = match before {
            [] => ((*last).to_owned(), "turns"),
            before => (format!("{} and {last}", before.join(", ")), "each turn"),
        };
        Some(match why {
            BarRefused::TurnsTooFar => {
                let most = system.angle(MOST_TURN);
                format!("{bars} {turns} the unit by more than {most} from its working attitude")
            }
            BarRefused::MeetsThePlate => {
                format!("on {bars} something under the unit meets the plate")
            }
            BarRefused::RollerStaysOff => format!("on {bars} a roller stays off the plate"),
        })
    });
    let reasons: Vec<_> = reasons.collect();
    let next = match usable_thickness(unit, system) {
        Some([thin, thick]) if thin == thick => format!(
            "Get a bar {} thick, and add it to the bars in the shop.",
            thin.entry(system)
        ),
        Some([thin, thick]) => format!(
            "Get a bar from {} to {} thick, and add it to the bars in the shop.",
            thin.entry(system),
            thick.entry(system)
        ),
        None => "No bar suits this unit as it is set: check its height of cut, attitude and knife in the area Unit.".to_owned(),
    };
    Some(format!("None of these: {}. {next}", reasons.join("; ")))
}

/// Steps of thickness that are looked at, and how many of them.
const STEP_IN: Length = Length::from_inches(0.01);
const STEP_MM: Length = Length::from_mm(0.25);
const STEPS: u8 = 160;

/// The thinnest and the thickest bar that can be used for a unit, in round sizes; none where there is none.
#[must_use]
pub fn usable_thickness(unit: &Solved, system: System) -> Option<[Length; 2]> {
    let step = match system {
        System::Millimetre => STEP_MM,
        System::InchDecimal | System::InchFraction => STEP_IN,
    };
    let bars: Vec<_> = (1..=STEPS).map(|count| step * f64::from(count)).collect();
    let choices = bar_choices(unit, &bars);
    let usable = choices.iter().filter(|choice| choice.can_be_used());
    let mut usable = usable.map(|choice| choice.bar);
    let thin = usable.next()?;
    Some([thin, usable.next_back().unwrap_or(thin)])
}

/// What becomes of a unit on each of some bars.
///
/// The knife rests by the front of its lip, the first thing under the edge that a bar meets; then the
/// unit is turned until one roller is down at the plate, where its gaps can be read.
#[must_use]
pub fn bar_choices(unit: &Solved, bars: &[Length]) -> Vec<BarChoice> {
    let solution = &unit.solution;
    let pose = &solution.pose;
    let resting = solution.lip_bottom_on_plate;
    let plate_from_bar = pose.plate_from_bar();
    let [_, of_knife @ ..] = underside_on_bar(&unit.unit.profile, &unit.unit.setting);
    let under: Vec<Point> = of_knife
        .into_iter()
        .chain(unit.unit.hardware_on_bar(&unit.unit.setting))
        .map(|on_bar| plate_from_bar * on_bar)
        .collect();
    let choice = |bar: &Length| {
        let poses =
            [RollerDown::Front, RollerDown::Rear].map(|down| OnBar::of(pose, resting, *bar, down));
        let clear = |on_bar: &OnBar| {
            let under = on_bar.lowest(under.iter().copied());
            let centre = on_bar.moved * pose.centre_on_plate;
            let reel = Length::from_mm(centre.y - pose.reel_radius_mm);
            under.map_or(reel, |under| if under < reel { under } else { reel })
        };
        let clears = poses.iter().flatten().map(clear);
        BarChoice {
            bar: *bar,
            turned: poses.map(|on_bar| on_bar.map(|on_bar| on_bar.turned)),
            clear: clears.reduce(|one, other| if other < one { other } else { one }),
        }
    };
    bars.iter().map(choice).collect()
}

/// The bar that leaves a unit nearest to the pose it works in; none where none can be used.
#[must_use]
pub fn recommended(choices: &[BarChoice]) -> Option<&BarChoice> {
    let usable = choices.iter().filter(|choice| choice.can_be_used());
    usable.min_by(|one, other| {
        let [one, other] = [one, other].map(|choice| choice.furthest().map_or(0.0, Angle::deg));
        one.total_cmp(&other)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::read_text;

    fn greens() -> Solved {
        let text = include_str!("../../../demo-units/example-ground/greens-1.ron");
        Solved::of(&read_text(text).expect("a unit")).expect("it can be solved")
    }

    fn bar(turned_deg: Option<f64>, clear_mm: f64) -> BarChoice {
        BarChoice {
            bar: Length::from_inches(0.25),
            turned: [turned_deg.map(Angle::from_deg); 2],
            clear: Some(Length::from_mm(clear_mm)),
        }
    }

    #[test]
    fn a_shop_begins_with_a_quarter_and_a_half_inch() {
        // Common practice, no source.
        for (bar, inches) in BARS.into_iter().zip([0.25, 0.5]) {
            assert!((bar.inches() - inches).abs() < 1e-12, "{bar:?}");
        }
        assert!(bar(Some(-3.0), 1.0).can_be_used());
        assert!(!bar(Some(3.01), 1.0).can_be_used());
    }

    #[test]
    fn a_bar_that_cannot_be_used_is_told_with_its_own_reason_and_what_would_do() {
        let unit = greens();
        let names = ["a", "b", "c"].map(str::to_owned);
        let told =
            |choices: &[BarChoice]| none_can_be_used(&unit, choices, &names, System::InchDecimal);
        let [far, low, off] = [bar(Some(4.0), 1.0), bar(Some(1.0), -1.0), bar(None, 1.0)];
        let all = told(&[far, low, off]).expect("none can be used");
        for said in [
            "a turns the unit by more than 3.00°",
            "on b something under the unit meets the plate",
            "on c a roller stays off the plate",
            "Get a bar from 0.02 in to 0.22 in thick",
        ] {
            assert!(all.contains(said), "{said} in {all}");
        }
        let turned = told(&[far, far]).expect("none can be used");
        assert!(turned.contains("a and b each turn the unit"), "{turned}");
        assert!(!turned.contains("meets the plate"), "{turned}");
        assert_eq!(told(&[far, bar(Some(1.0), 1.0)]), None);
        assert_eq!(told(&[]), None);
        // By hand: the lip's bottom stands 0.0554 in up and 3.293 in ahead of the rear roller's centre; 3°
        // there is 0.173 in more, 0.228 in.
        let [_, thick] = usable_thickness(&unit, System::InchDecimal).expect("some can");
        assert!((thick.inches() - 0.22).abs() < 1e-9, "{thick:?}");
    }
}
