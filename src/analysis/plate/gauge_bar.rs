//! Which gauge bar the knife is laid on: the one that leaves the unit nearest to the pose it works in.

use kurbo::Point;

use crate::analysis::Solved;
use crate::geometry::{OnBar, RollerDown, underside_on_bar};
use crate::units::{Angle, Length};

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
        self.furthest().is_some_and(|turn| turn <= MOST_TURN)
            && self.clear.is_some_and(|clear| clear > Length::ZERO)
    }
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
