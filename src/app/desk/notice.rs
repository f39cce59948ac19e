//! What was told: the notice that is shown now, and the last ones, to be read again.

use std::collections::VecDeque;

use crate::analysis::SolvedId;

/// How many notices are kept to be read again.
const MOST_KEPT: usize = 10;
/// How long news is shown, in seconds.
const NEWS_SECONDS: f64 = 6.0;
/// How long it is shown that something could not be done, in seconds.
const PROBLEM_SECONDS: f64 = 12.0;

/// The letters of a notice: some lines of them, however long what they quote.
const LONGEST: usize = 600;

/// Something that was told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    pub text: String,
    pub is_problem: bool,
}

impl Notice {
    fn seconds(&self) -> f64 {
        if self.is_problem {
            PROBLEM_SECONDS
        } else {
            NEWS_SECONDS
        }
    }
}

/// What was told, the latest last.
#[derive(Clone, Debug, Default)]
pub struct Notices {
    kept: VecDeque<Notice>,
    told: u64,
    /// Since when the latest is shown; none once it left or was put away.
    shown: Option<Shown>,
}

#[derive(Clone, Copy, Debug)]
struct Shown {
    /// When it was first seen, in seconds of the window's clock.
    since: Option<f64>,
    /// The solution that stood then; news of an older one is no news.
    solved: Option<SolvedId>,
}

impl Notices {
    /// Tells something.
    pub(super) fn tell(&mut self, mut text: String, is_problem: bool) {
        if let Some((end, _)) = text.char_indices().nth(LONGEST) {
            text.truncate(end);
            text.push('…');
        }
        if self.kept.len() == MOST_KEPT {
            self.kept.pop_front();
        }
        self.told += 1;
        self.kept.push_back(Notice { text, is_problem });
        self.shown = Some(Shown {
            since: None,
            solved: None,
        });
    }

    /// The notice that is shown at a time, and how many seconds are left to it. News leaves with the
    /// solution it was told at, and every notice after some seconds.
    pub(super) fn shown_at(&mut self, now: f64, solved: Option<SolvedId>) -> Option<(Notice, f64)> {
        let (notice, shown) = (self.kept.back()?, self.shown.as_mut()?);
        let since = *shown.since.get_or_insert(now);
        shown.solved = shown.solved.or(solved);
        let left = since + notice.seconds() - now;
        let is_old = !notice.is_problem && shown.solved != solved;
        if is_old || left <= 0.0 {
            self.shown = None;
            return None;
        }
        Some((notice.clone(), left))
    }

    /// Puts the notice that is shown away.
    pub(super) fn put_away(&mut self) {
        self.shown = None;
    }

    /// How many were told.
    pub fn told(&self) -> u64 {
        self.told
    }

    /// The last ones, the latest first.
    pub fn kept(&self) -> impl ExactSizeIterator<Item = &Notice> {
        self.kept.iter().rev()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_notice_leaves_after_some_seconds_and_a_problem_later() {
        for (is_problem, seconds) in [(false, NEWS_SECONDS), (true, PROBLEM_SECONDS)] {
            let mut notices = Notices::default();
            notices.tell("Saved".to_owned(), is_problem);
            // Its time begins when it is first seen.
            let (_, left) = notices.shown_at(100.0, None).expect("shown");
            assert!((left - seconds).abs() < 1e-9);
            assert!(notices.shown_at(100.0 + 0.99 * seconds, None).is_some());
            assert!(notices.shown_at(100.0 + seconds, None).is_none());
            assert_eq!(notices.kept().count(), 1);
        }
    }

    #[test]
    fn a_notice_takes_some_lines_and_not_the_window() {
        for length in [0, 600, 601, 900_000] {
            let mut notices = Notices::default();
            notices.tell("ä".repeat(length), true);
            let (told, _) = notices.shown_at(0.0, None).expect("shown");
            assert_eq!(told.text.chars().count(), length.min(601));
            assert_eq!(told.text.ends_with('…'), length > 600);
        }
    }

    #[test]
    fn the_last_ten_are_kept() {
        let mut notices = Notices::default();
        (0..13).for_each(|number| notices.tell(number.to_string(), false));
        let kept: Vec<_> = notices.kept().map(|one| one.text.as_str()).collect();
        assert_eq!((kept.len(), kept[0], kept[9]), (10, "12", "3"));
    }
}
