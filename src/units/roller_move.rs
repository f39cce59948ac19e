//! A roller's move in its bracket, as a mechanic says it.

use super::Length;
use super::shown::reads_as_zero;
use super::system::System;

/// Which rollers move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rollers {
    /// The front one.
    Front,
    /// The rear one.
    Rear,
    /// Both, as far.
    Both,
}

impl Rollers {
    const fn told(self) -> &'static str {
        match self {
            Self::Front => "the front roller",
            Self::Rear => "the rear roller",
            Self::Both => "both rollers",
        }
    }
}

impl System {
    /// A roller's move in its bracket to be read: `raise 0.118 in` towards the reel, `lower` from it,
    /// `unchanged` where it reads as zero.
    #[must_use]
    pub fn roller_move(self, moved: Length) -> String {
        match self.raised(moved) {
            Some((way, by)) => format!("{way} {by}"),
            None => "unchanged".to_owned(),
        }
    }

    /// The same as what is to be done: `raise the rear roller 0.118 in`.
    #[must_use]
    pub fn move_of(self, rollers: Rollers, moved: Length) -> String {
        let which = rollers.told();
        match self.raised(moved) {
            Some((way, by)) => format!("{way} {which} {by}"),
            None => format!("leave {which} unchanged"),
        }
    }

    /// What is to be done to the front and the rear roller.
    #[must_use]
    pub fn roller_moves(self, (front, rear): (Length, Length)) -> String {
        if self.raised(front).is_none() && self.raised(rear).is_none() {
            return self.move_of(Rollers::Both, Length::ZERO);
        }
        let (front, rear) = (
            self.move_of(Rollers::Front, front),
            self.move_of(Rollers::Rear, rear),
        );
        format!("{front}, {rear}")
    }

    /// Which way a roller moves and how far, as it reads; none where that is zero.
    fn raised(self, moved: Length) -> Option<(&'static str, String)> {
        let shown = self.length(Length::from_mm(moved.mm().abs()));
        let way = if moved.mm() > 0.0 { "raise" } else { "lower" };
        (!reads_as_zero(&shown)).then_some((way, shown))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moves_read_as_a_mechanic_says_them() {
        let inches = Length::from_inches;
        let told = |front, rear| System::InchDecimal.roller_moves((inches(front), inches(rear)));
        assert_eq!(
            told(-0.131, 0.116),
            "lower the front roller 0.131 in, raise the rear roller 0.116 in"
        );
        assert_eq!(
            told(0.0, 0.116),
            "leave the front roller unchanged, raise the rear roller 0.116 in"
        );
        assert_eq!(told(0.0, 0.000_01), "leave both rollers unchanged");
        let both = System::Millimetre.move_of(Rollers::Both, Length::from_mm(-2.0));
        assert_eq!(both, "lower both rollers 2.000 mm");
    }
}
