//! Files opened or saved before, each with the folder it stands in: many a file has the same name.

use std::path::{Path, PathBuf};

use egui::{Button, Key, Response, Ui};

use super::menu::{is_taken, underlined};

/// The letters of a folder that are shown; its end tells most.
const LONGEST_FOLDER: usize = 56;

/// The keys by which they are taken from a menu, in their order.
const NUMBERS: [Key; 9] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::Num9,
];

/// The files, each to be opened by a click: which one was clicked.
pub fn recent_ui<'a>(ui: &mut Ui, files: impl Iterator<Item = &'a PathBuf>) -> Option<PathBuf> {
    let mut clicked = None;
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        if file_ui(ui, file, Button::new(&*name)).clicked() {
            clicked = Some(file.clone());
        }
    }
    clicked
}

/// The files in a menu, each to be opened by its number as by a click: which one was taken.
pub fn recent_menu_ui<'a>(
    ui: &mut Ui,
    files: impl Iterator<Item = &'a PathBuf>,
) -> Option<PathBuf> {
    let mut taken = None;
    for (file, number) in files.zip(NUMBERS) {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let text = underlined(ui, &format!("{}  {name}", number.name()), number);
        let response = file_ui(ui, file, Button::new(text));
        if is_taken(ui, &response, number) {
            taken = Some(file.clone());
        }
    }
    taken
}

/// A file's button, with the folder it stands in.
fn file_ui(ui: &mut Ui, file: &Path, button: Button<'_>) -> Response {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let folder = file.parent().map(Path::to_string_lossy);
    let folder = folder.unwrap_or_default();
    let response = ui.add(button.shortcut_text(shortened(&folder)));
    response
        .accessible_name(format!("{name}, in {folder}"))
        .on_hover_text(file.display().to_string())
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
