//! Files opened or saved before, each with the folder it stands in: many a file has the same name.

use std::path::{Path, PathBuf};

use egui::{Button, Ui};

/// The letters of a folder that are shown; its end tells most.
const LONGEST_FOLDER: usize = 56;

/// The files, each to be opened by a click: which one was clicked.
pub fn recent_ui<'a>(ui: &mut Ui, files: impl Iterator<Item = &'a PathBuf>) -> Option<PathBuf> {
    let mut clicked = None;
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let folder = file.parent().map(Path::to_string_lossy);
        let folder = folder.unwrap_or_default();
        let button = Button::new(&*name).shortcut_text(shortened(&folder));
        let response = ui
            .add(button)
            .accessible_name(format!("{name}, in {folder}"));
        if response.on_hover_text(file.display().to_string()).clicked() {
            clicked = Some(file.clone());
        }
    }
    clicked
}

/// The end of a folder's path.
fn shortened(folder: &str) -> String {
    let letters = folder.chars().count();
    if letters <= LONGEST_FOLDER {
        return folder.to_owned();
    }
    let end = folder.chars().skip(letters - LONGEST_FOLDER);
    std::iter::once('…').chain(end).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_folder_keeps_its_end() {
        assert_eq!(shortened("/home/shop/units"), "/home/shop/units");
        let long = format!("/home/{}/greens", "ü".repeat(90));
        let short = shortened(&long);
        assert!(
            short.starts_with("…ü") && short.ends_with("/greens"),
            "{short}"
        );
        assert_eq!(short.chars().count(), LONGEST_FOLDER + 1);
    }
}
