//! Where a work beside the units is saved, by its path, for where the desktop has no file dialog.

use std::path::Path;

use egui::Ui;

use super::typed_path::{Typed, TypedPath};
use super::work_files::{offered_name, put_in_chosen, with_ending_of};
use super::work_outside::holds_work_back;
use super::work_words::words_of;
use crate::app::desk::{Card, Desk, DeskWork, Next, WorkKind};
use crate::store::{is_same_file, whole_path};

/// A path being typed.
pub struct WorkPathCard {
    kind: WorkKind,
    path: TypedPath,
}

impl WorkPathCard {
    /// Beginning with where the work of a kind is kept, or beside its unit.
    pub fn to_save(desk: &Desk, kind: WorkKind) -> Self {
        let work = desk.work(kind);
        let kept = work.and_then(DeskWork::file).map(ToOwned::to_owned);
        let offered = offered_name(desk, kind);
        let beside = || {
            let unit = work.and_then(DeskWork::unit_while_in_no_file)?;
            Some(unit.with_file_name(&offered))
        };
        let path = kept.or_else(beside);
        let path = path.or_else(|| whole_path(&offered).ok());
        let text = path.map_or(offered.clone(), |path| path.display().to_string());
        Self {
            kind,
            path: TypedPath::beginning_with(text),
        }
    }

    /// Asks whether a file is to be replaced by the work of a kind.
    pub fn over(kind: WorkKind, file: &Path) -> Self {
        let path = TypedPath::over(file, &taken(file));
        Self { kind, path }
    }

    fn take(&mut self, desk: &mut Desk) -> Result<(), String> {
        let path = whole_path(self.path.text()).map_err(|problem| problem.to_string())?;
        let path = with_ending_of(self.kind, &path);
        let own = desk.work(self.kind).and_then(DeskWork::file);
        let is_own = own.is_some_and(|own| own == path || is_same_file(own, &path));
        // There is no dialog that would have asked before another file is replaced.
        if path.exists() && !is_own {
            self.path.offer_to_replace(&path);
            return Err(taken(&path));
        }
        // What something else wrote there is asked about on a card of its own.
        if (is_own && holds_work_back(desk, self.kind, &path))
            || put_in_chosen(desk, self.kind, &path)
        {
            Ok(())
        } else {
            Err("Not saved: see the notice at the foot of the window.".to_owned())
        }
    }
}

fn taken(file: &Path) -> String {
    format!("Not saved: a file is there already: {}", file.display())
}

impl Card for WorkPathCard {
    fn name(&self) -> &'static str {
        "path of the work"
    }

    fn width(&self) -> f32 {
        520.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let words = words_of(self.kind);
        let what = format!(
            "The path of the {}, best in {}; {} is added where it is missing, and ~/ is your home folder.",
            words.name, words.best_in, words.ending
        );
        let title = format!("Save the {} to a path", words.name);
        match self.path.show(ui, &title, &what, "Save here") {
            Typed::Taken => match self.take(desk) {
                Ok(()) => Next::Close,
                Err(why) => {
                    self.path.tell(&why);
                    self.path.begin_anew(ui);
                    Next::Stay
                }
            },
            Typed::Replaced => match self.path.taken() {
                Some(file) if put_in_chosen(desk, self.kind, &file) => Next::Close,
                _ => Next::Stay,
            },
            Typed::PutAway => Next::Close,
            Typed::Going => Next::Stay,
        }
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }
}
