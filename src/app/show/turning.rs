//! How the reel turns in front of a room: how far, how fast, or not at all.

/// Blades a second that can be chosen, below the real speed.
const PACES: [f64; 8] = [0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 20.0, 50.0];
/// The one that is begun with.
const BEGINS_WITH: usize = 2;
/// The longest time between two frames that the reel turns on for, in seconds.
const LONGEST_FRAME_S: f64 = 0.1;

/// How fast the reel turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Pace {
    /// A blade each time the key is pressed.
    OneAStep,
    Slow(usize),
    Real,
}

/// A reel in front of a room.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turning {
    /// How far it has turned, in blades.
    pub(super) clips: f64,
    pace: Pace,
    is_stopped: bool,
    /// Blades it went on by key since it moved otherwise.
    blades_on: u32,
    /// Somebody stopped it or let it go: the desktop's wish counts no more.
    is_chosen: bool,
}

impl Default for Turning {
    fn default() -> Self {
        Self {
            clips: 0.0,
            pace: Pace::Slow(BEGINS_WITH),
            is_stopped: false,
            blades_on: 0,
            is_chosen: false,
        }
    }
}

impl Turning {
    /// Stands as the desktop wishes, until somebody chooses.
    pub(super) fn heed(&mut self, is_less_wanted: bool) {
        if !self.is_chosen {
            self.is_stopped = is_less_wanted;
        }
    }

    /// Stops it.
    pub(super) fn stop(&mut self) {
        self.is_stopped = true;
        self.is_chosen = true;
    }

    /// Stops it, or lets it go on.
    pub(super) fn stop_or_go(&mut self) {
        let goes = self.goes();
        self.is_chosen = true;
        self.is_stopped = goes;
        if !goes && self.pace == Pace::OneAStep {
            self.pace = Pace::Slow(0);
        }
    }

    /// Whether it turns by itself.
    pub(super) fn goes(self) -> bool {
        !self.is_stopped && self.pace != Pace::OneAStep
    }

    /// Back to its first blade.
    pub(super) fn begin_again(&mut self) {
        self.clips = 0.0;
        self.blades_on = 0;
    }

    /// On to where the next blade clips, and stops there.
    pub(super) fn one_clip(&mut self) {
        self.stop();
        self.clips = (self.clips + 1.0).floor();
        self.blades_on += 1;
    }

    /// By so many blades, held by a hand.
    pub(super) fn drag(&mut self, clips: f64) {
        self.stop();
        self.blades_on = 0;
        self.clips += clips;
    }

    /// One pace slower or faster; at work it makes so many clips a second.
    pub(super) fn change_pace(&mut self, is_faster: bool, real: f64) {
        let is_below = |place: &usize| PACES[*place] < real;
        let next = |place: usize| Some(place).filter(is_below).filter(|at| *at < PACES.len());
        self.pace = match (self.pace, is_faster) {
            (Pace::OneAStep, true) => Pace::Slow(0),
            (Pace::OneAStep | Pace::Slow(0), false) => Pace::OneAStep,
            (Pace::Slow(place), false) => Pace::Slow(place - 1),
            (Pace::Slow(place), true) if place + 1 < PACES.len() => {
                next(place + 1).map_or(Pace::Real, Pace::Slow)
            }
            (Pace::Slow(_) | Pace::Real, true) => Pace::Real,
            (Pace::Real, false) => {
                let last = (0..PACES.len()).rev().find(is_below);
                Pace::Slow(last.unwrap_or(0))
            }
        };
    }

    /// Blades a second while it goes.
    fn clips_per_s(self, real: f64) -> f64 {
        match self.pace {
            Pace::OneAStep => 0.0,
            Pace::Slow(place) => PACES[place].min(real),
            Pace::Real => real,
        }
    }

    /// Turns it on for the time that passed, if it goes; at work it makes so many clips a second.
    pub(super) fn pass(&mut self, seconds: f64, real: f64) {
        if self.goes() {
            self.blades_on = 0;
            self.clips += self.clips_per_s(real) * seconds.min(LONGEST_FRAME_S);
        }
    }

    /// How fast it is shown, and how fast it is at work.
    pub(super) fn told(self, real: f64) -> String {
        let shown = match self.pace {
            Pace::Real if self.goes() => return format!("Shown: real speed, {}.", blades(real)),
            Pace::OneAStep => "one blade a step".to_owned(),
            _ if !self.goes() => "standing still".to_owned(),
            _ => blades(self.clips_per_s(real)),
        };
        let on = self.on();
        format!("Shown: {shown}{on}. Mowing: {real:.0} blades a second.")
    }

    /// The same of two reels by one clock, which make so many clips a second at work.
    pub(super) fn told_of_two(self, [left, right]: [f64; 2]) -> String {
        let shown = match self.pace {
            Pace::Real if self.goes() => "real speed".to_owned(),
            Pace::OneAStep => "one blade of the left one a step".to_owned(),
            _ if !self.goes() => "standing still".to_owned(),
            _ => format!("left {}", blades(self.clips_per_s(left))),
        };
        let on = self.on();
        format!("Shown: {shown}{on}. Mowing: left {left:.0}, right {right:.0} blades a second.")
    }

    /// How far it went on by key: a blade on, the picture is the same.
    fn on(self) -> String {
        match self.blades_on {
            0 => String::new(),
            1 => ", one blade on".to_owned(),
            more => format!(", {more} blades on"),
        }
    }
}

/// So many blades a second, in words.
fn blades(a_second: f64) -> String {
    match a_second {
        slow if slow < 0.95 => format!("1 blade in {:.0} seconds", 1.0 / slow),
        one if one < 1.5 => "1 blade a second".to_owned(),
        more => format!("{more:.0} blades a second"),
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "what is compared comes out exact")]

    use super::*;

    const REAL: f64 = 133.0;

    #[test]
    fn it_turns_from_one_blade_a_step_to_its_real_speed_and_back() {
        let mut turning = Turning::default();
        let mut told = Vec::new();
        for _ in 0..20 {
            turning.change_pace(false, REAL);
        }
        assert_eq!(
            turning.told(REAL),
            "Shown: one blade a step. Mowing: 133 blades a second."
        );
        assert!(!turning.goes());
        let mut rates = vec![turning.clips_per_s(REAL)];
        for _ in 0..20 {
            turning.change_pace(true, REAL);
            rates.push(turning.clips_per_s(REAL));
            told.push(turning.told(REAL));
        }
        assert!(rates.is_sorted(), "{rates:?}");
        assert_eq!(rates.last(), Some(&REAL));
        assert!(
            told.contains(&"Shown: 1 blade in 4 seconds. Mowing: 133 blades a second.".to_owned())
        );
        assert!(told.contains(&"Shown: 1 blade a second. Mowing: 133 blades a second.".to_owned()));
        assert_eq!(
            told.last().map(String::as_str),
            Some("Shown: real speed, 133 blades a second.")
        );
        turning.change_pace(false, REAL);
        assert_eq!(turning.clips_per_s(REAL), 50.0);
        // A slow reel is never shown faster than it is.
        let mut slow = Turning::default();
        for _ in 0..20 {
            slow.change_pace(true, 3.0);
            assert!(slow.clips_per_s(3.0) <= 3.0);
        }
        slow.change_pace(false, 3.0);
        assert_eq!(slow.clips_per_s(3.0), 2.0);
    }

    #[test]
    fn it_stands_where_the_desktop_asks_for_less_motion_until_somebody_lets_it_go() {
        let mut turning = Turning::default();
        turning.heed(true);
        turning.pass(0.1, REAL);
        assert_eq!(turning.clips, 0.0);
        turning.stop_or_go();
        turning.heed(true);
        turning.pass(0.05, REAL);
        assert_eq!(turning.clips, 0.05);
        // A frame that took long is no leap.
        turning.pass(30.0, REAL);
        assert!(turning.clips < 0.2);
        turning.one_clip();
        assert_eq!((turning.clips, turning.goes()), (1.0, false));
        assert!(turning.told(REAL).contains("standing still, one blade on."));
        turning.one_clip();
        assert!(turning.told(REAL).contains("standing still, 2 blades on."));
        turning.drag(-0.5);
        assert_eq!(turning.clips, 1.5);
        assert!(turning.told(REAL).contains("standing still. "));
    }

    #[test]
    fn one_blade_is_one_however_slow_the_reel() {
        let mut turning = Turning::default();
        for _ in 0..20 {
            turning.change_pace(true, 1.2);
        }
        assert_eq!(turning.told(1.2), "Shown: real speed, 1 blade a second.");
        assert_eq!(
            Turning::default().told_of_two([133.0, 180.4]),
            "Shown: left 1 blade a second. Mowing: left 133, right 180 blades a second."
        );
    }

    #[test]
    fn space_lets_a_reel_go_that_went_by_steps() {
        let mut turning = Turning::default();
        for _ in 0..9 {
            turning.change_pace(false, REAL);
        }
        turning.stop_or_go();
        assert!(turning.goes() && turning.clips_per_s(REAL) == 0.25);
        turning.stop_or_go();
        assert!(!turning.goes());
    }
}
