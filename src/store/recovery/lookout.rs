//! The lookout on the unit file that is open: whether something else changes it, or another window opens
//! it too.

use std::thread;
use std::time::{Duration, Instant};

use super::mark::WindowMark;
use super::news::News;
use crate::store::stamp::{OnDisk, Watched};

/// The time between two looks at the file that is open. A look asks for its length and time only.
const BETWEEN_LOOKS: Duration = Duration::from_secs(3);
/// A file that another program saves can be away for a moment.
const AWAY_FOR_A_MOMENT: Duration = Duration::from_millis(300);

/// Looks at the file that is open from time to time.
#[derive(Default)]
pub struct Lookout {
    watched: Option<Seen>,
}

/// The file that is looked at, and what was told of it.
struct Seen {
    file: Watched,
    last_look: Instant,
    told: OnDisk,
    others: usize,
}

impl Lookout {
    /// Looks at a file from here on, and tells other windows that it is open.
    pub fn watch(&mut self, mark: &WindowMark, watched: Option<Watched>) {
        // A folder that cannot be written is told when work is to be kept.
        let _ = mark.opens(watched.as_ref().map(Watched::file));
        self.watched = watched.map(|file| Seen {
            file,
            last_look: Instant::now(),
            told: OnDisk::Same,
            others: 0,
        });
    }

    /// How long until the next look; none where there is no file to look at.
    pub fn rest(&self) -> Option<Duration> {
        let seen = self.watched.as_ref()?;
        Some(BETWEEN_LOOKS.saturating_sub(seen.last_look.elapsed()))
    }

    /// Looks now; what is new.
    pub fn look(&mut self, mark: &WindowMark) -> Vec<News> {
        let Some(watched) = &mut self.watched else {
            return Vec::new();
        };
        watched.last_look = Instant::now();
        let mut seen = watched.file.look();
        if seen == OnDisk::Gone {
            thread::sleep(AWAY_FOR_A_MOMENT);
            seen = watched.file.look();
        }
        let file = watched.file.file().to_owned();
        let others = mark.others_on(&file);
        let mut news = Vec::new();
        if std::mem::replace(&mut watched.told, seen) != seen && seen != OnDisk::Same {
            news.push(News::OnDisk {
                file: file.clone(),
                since: watched.file.stamp(),
                seen,
            });
        }
        if std::mem::replace(&mut watched.others, others) != others {
            news.push(News::Others { file, others });
        }
        news
    }
}
