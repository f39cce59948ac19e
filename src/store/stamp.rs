//! What stood in a file, told by a few numbers: whether something else changed it since.

use std::fs::{self, File};
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use serde::{Deserialize, Serialize};

/// What stood in a file: its length and a checksum. Another content has another, save by a chance of
/// one in four thousand million.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    bytes: u64,
    checksum: u32,
}

impl Stamp {
    /// Of what stands in a file now; none when it cannot be read, or is no file.
    #[must_use]
    pub fn of(file: &Path) -> Option<Self> {
        Self::read(file).ok()
    }

    /// Of what is written to a file.
    #[must_use]
    pub fn of_bytes(written: &[u8]) -> Self {
        Self {
            bytes: written.len() as u64,
            checksum: crc32fast::hash(written),
        }
    }

    fn read(file: &Path) -> io::Result<Self> {
        // Opening a pipe would wait for whoever writes into it.
        if !fs::metadata(file)?.is_file() {
            return Err(io::ErrorKind::InvalidInput.into());
        }
        let mut opened = File::open(file)?;
        let mut hasher = crc32fast::Hasher::new();
        let mut bytes = 0;
        let mut part = [0; 16_384];
        loop {
            match opened.read(&mut part)? {
                0 => break,
                count => {
                    hasher.update(&part[..count]);
                    bytes += count as u64;
                }
            }
        }
        let checksum = hasher.finalize();
        Ok(Self { bytes, checksum })
    }
}

/// How a file stands beside what was last read from it or written to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnDisk {
    /// As it was, as far as can be told.
    Same,
    /// Something else stands in it.
    Changed(Stamp),
    /// It is there no more.
    Gone,
}

/// A file that is looked at from time to time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watched {
    file: PathBuf,
    /// What stood in it; none for one that was gone.
    stamp: Option<Stamp>,
    /// Its length and time when it stood so, which spares reading it again.
    seen: Option<(u64, SystemTime)>,
}

impl Watched {
    /// A file, and what stood in it when it was last read or written; none for one that was gone.
    #[must_use]
    pub fn new(file: PathBuf, stamp: Option<Stamp>) -> Self {
        let seen = None;
        Self { file, stamp, seen }
    }

    /// The file.
    #[must_use]
    pub fn file(&self) -> &Path {
        &self.file
    }

    /// What stood in it when it was last read or written; none for one that was gone.
    #[must_use]
    pub fn stamp(&self) -> Option<Stamp> {
        self.stamp
    }

    /// How it stands now. A file that cannot be looked at, such as one on a server out of reach,
    /// counts as unchanged: saving to it will tell.
    pub fn look(&mut self) -> OnDisk {
        let about = match fs::metadata(&self.file) {
            Ok(about) => about,
            Err(error) if error.kind() == io::ErrorKind::NotFound && self.stamp.is_some() => {
                return OnDisk::Gone;
            }
            Err(_) => return OnDisk::Same,
        };
        let now = about.modified().ok().map(|time| (about.len(), time));
        if now.is_some() && now == self.seen {
            return OnDisk::Same;
        }
        match Stamp::read(&self.file) {
            Ok(stamp) if Some(stamp) == self.stamp => {
                // A clock of whole seconds may show the same time for a change that comes yet.
                let is_settled =
                    now.is_some_and(|(_, time)| time.elapsed().is_ok_and(|age| age.as_secs() >= 3));
                self.seen = now.filter(|_| is_settled);
                OnDisk::Same
            }
            Ok(stamp) => OnDisk::Changed(stamp),
            Err(_) => OnDisk::Same,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_changed_by_something_else_is_seen_and_one_only_touched_is_not() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("unit.ron");
        fs::write(&file, "one").expect("it is written");
        let mut watched = Watched::new(file.clone(), Stamp::of(&file));
        assert_eq!(watched.look(), OnDisk::Same);
        fs::write(&file, "one").expect("it is written");
        assert_eq!(watched.look(), OnDisk::Same);
        fs::write(&file, "two").expect("it is written");
        let after = Stamp::of(&file).expect("a file");
        assert_eq!(after, Stamp::of_bytes(b"two"));
        assert_eq!(watched.look(), OnDisk::Changed(after));
        fs::remove_file(&file).expect("it goes");
        assert_eq!(watched.look(), OnDisk::Gone);
        assert_eq!(Watched::new(file, None).look(), OnDisk::Same);
    }

    #[test]
    fn a_change_of_the_same_length_at_the_same_time_is_seen_soon_after_the_last_look() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("unit.ron");
        fs::write(&file, "one").expect("it is written");
        let time = fs::metadata(&file).and_then(|about| about.modified());
        let time = time.expect("a time");
        let mut watched = Watched::new(file.clone(), Stamp::of(&file));
        assert_eq!(watched.look(), OnDisk::Same);
        fs::write(&file, "two").expect("it is written");
        let written = File::options().write(true).open(&file).expect("it opens");
        written.set_modified(time).expect("the time is set back");
        assert!(matches!(watched.look(), OnDisk::Changed(_)));
    }
}
