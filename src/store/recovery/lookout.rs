//! The lookout on the files that are open, the unit's and those of works beside it: whether something else changes
//! one, or another window opens the unit's too.

use std::collections::BTreeMap;
use std::thread;
use std::time::{Duration, Instant};

use super::mark::WindowMark;
use super::news::News;
use crate::store::stamp::{OnDisk, Watched};

/// The time between two looks at the file that is open. A look asks for its length and time only.
const BETWEEN_LOOKS: Duration = Duration::from_secs(3);
/// A file that another program saves can be away for a moment.
const AWAY_FOR_A_MOMENT: Duration = Duration::from_millis(300);

/// Looks at the files that are open from time to time.
#[derive(Default)]
pub struct Lookout {
    unit: Option<Seen>,
    /// By their kinds.
    works: BTreeMap<u8, Seen>,
}

/// A file that is looked at, and what was told of it.
struct Seen {
    file: Watched,
    last_look: Instant,
    told: OnDisk,
    others: usize,
}

impl Seen {
    fn new(file: Watched) -> Self {
        Self {
            file,
            last_look: Instant::now(),
            told: OnDisk::Same,
            others: 0,
        }
    }

    /// Looks now; what is new of how it stands on the disk.
    fn look(&mut self) -> Option<News> {
        self.last_look = Instant::now();
        let mut seen = self.file.look();
        if seen == OnDisk::Gone {
            thread::sleep(AWAY_FOR_A_MOMENT);
            seen = self.file.look();
        }
        let is_new = std::mem::replace(&mut self.told, seen) != seen;
        (is_new && seen != OnDisk::Same).then(|| News::OnDisk {
            file: self.file.file().to_owned(),
            since: self.file.stamp(),
            seen,
        })
    }
}

impl Lookout {
    /// Looks at the file of a unit from here on, and tells other windows that it is open.
    pub fn watch(&mut self, mark: &WindowMark, watched: Option<Watched>) {
        // A folder that cannot be written is told when work is to be kept.
        let _ = mark.opens(watched.as_ref().map(Watched::file));
        self.unit = watched.map(Seen::new);
    }

    /// Looks at the file of a kind of work beside the units from here on.
    pub fn watch_besides(&mut self, kind: u8, watched: Option<Watched>) {
        match watched {
            Some(watched) => self.works.insert(kind, Seen::new(watched)),
            None => self.works.remove(&kind),
        };
    }

    /// How long until the next look; none where there is no file to look at.
    pub fn rest(&self) -> Option<Duration> {
        let rest = |seen: &Seen| BETWEEN_LOOKS.saturating_sub(seen.last_look.elapsed());
        let seen = self.unit.iter().chain(self.works.values());
        seen.map(rest).min()
    }

    /// Looks now; what is new.
    pub fn look(&mut self, mark: &WindowMark) -> Vec<News> {
        let mut news = Vec::new();
        if let Some(unit) = &mut self.unit {
            news.extend(unit.look());
            let file = unit.file.file().to_owned();
            let others = mark.others_on(&file);
            if std::mem::replace(&mut unit.others, others) != others {
                news.push(News::Others { file, others });
            }
        }
        news.extend(self.works.values_mut().filter_map(Seen::look));
        news
    }
}
