//! A folder that is watched for changes of its files.

use std::path::{Path, PathBuf};

use notify::event::ModifyKind;
use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher as _};

/// A watch on a folder; it ends when it is dropped.
#[derive(Debug)]
pub struct FolderWatch {
    _watcher: RecommendedWatcher,
}

impl FolderWatch {
    /// Watches a folder, and calls `changed` from a thread of its own whenever a file in it whose name
    /// ends in .ron was made, written, renamed or removed, and when the folder itself was renamed or
    /// removed: it watches no more then.
    ///
    /// # Errors
    /// When the system does not watch it, in words.
    pub fn new(folder: &Path, changed: impl Fn() + Send + 'static) -> Result<Self, String> {
        let told = |error: notify::Error| error.to_string();
        let itself = std::path::absolute(folder).unwrap_or_else(|_| folder.to_owned());
        let mut watcher = notify::recommended_watcher(move |event: notify::Result<Event>| {
            // What the system lost count of is a change too.
            if event.is_err() || event.is_ok_and(|event| is_change(&event, &itself)) {
                changed();
            }
        })
        .map_err(told)?;
        watcher
            .watch(folder, RecursiveMode::NonRecursive)
            .map_err(told)?;
        Ok(Self { _watcher: watcher })
    }
}

/// Whether an event says that something else stands in the folder. Reading its files is none.
fn is_change(event: &Event, folder: &Path) -> bool {
    let is_kind = match event.kind {
        EventKind::Create(_) | EventKind::Remove(_) => true,
        EventKind::Modify(kind) => !matches!(kind, ModifyKind::Metadata(_)),
        EventKind::Any | EventKind::Access(_) | EventKind::Other => false,
    };
    let is_ours =
        |path: &PathBuf| path.extension().is_some_and(|end| end == "ron") || path == folder;
    event.need_rescan() || is_kind && event.paths.iter().any(is_ours)
}
