//! The plan of the house: imports run one way from room to room, and in no circle among files; one
//! room alone opens and writes files.

mod reader;

use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use reader::House;

/// The rooms, each of which may import those before it.
const ROOMS: [&str; 12] = [
    "units", "geometry", "unit", "plate", "store", "analysis", "lesson", "drawing", "command",
    "printing", "headless", "app",
];
/// Rooms side by side, that know nothing of each other.
const APART: [(&str, &str); 3] = [
    ("analysis", "store"),
    ("drawing", "store"),
    ("app", "headless"),
];

/// Rooms of a room, each of which may import those before it.
const WITHIN: [(&str, &[&str]); 2] = [
    (
        "drawing",
        &["scene", "paper", "pictures", "sheets", "painters"],
    ),
    (
        "app",
        &["widgets", "desk", "files", "form", "areas", "show", "shell"],
    ),
];

/// Rooms of a room that know none of each other: an area sees the desk and itself.
const AREAS: &str = "app/areas";

fn room_of(file: &Path) -> Option<&str> {
    let mut parts = file.iter();
    let room = parts.next()?.to_str()?;
    parts.next().map(|_| room)
}

#[test]
fn no_room_imports_from_one_above_it() {
    let house = House::read();
    let floor = |room: &str| {
        let found = ROOMS.iter().position(|known| *known == room);
        found.unwrap_or_else(|| panic!("the room \"{room}\" stands in no order"))
    };
    let mut arrows = Vec::new();
    let mut count = 0;
    for (file, used) in house.uses() {
        let Some(from) = room_of(file) else { continue };
        let Some(to) = room_of(used) else {
            panic!("{} uses the crate's own top", file.display());
        };
        count += usize::from(from != to);
        let are_apart = APART.contains(&(from, to)) || APART.contains(&(to, from));
        if floor(to) > floor(from) || are_apart {
            arrows.push(format!("{} uses {}", file.display(), used.display()));
        }
    }
    assert!(count > 200, "only {count} imports between rooms were read");
    assert!(arrows.is_empty(), "{arrows:#?}");
}

/// The room of a room that a file stands in.
fn part_of<'a>(file: &'a Path, room: &str) -> Option<&'a str> {
    room_of(file.strip_prefix(room).ok()?)
}

#[test]
fn no_part_of_a_room_imports_from_one_above_it() {
    let house = House::read();
    let mut arrows = Vec::new();
    for (room, parts) in WITHIN {
        let floor = |part: &str| {
            let found = parts.iter().position(|known| *known == part);
            found.unwrap_or_else(|| panic!("{room}/{part} stands in no order"))
        };
        let mut count = 0;
        for (file, used) in house.uses() {
            if let (Some(from), Some(to)) = (part_of(file, room), part_of(used, room)) {
                count += usize::from(from != to);
                if floor(to) > floor(from) {
                    arrows.push(format!("{} uses {}", file.display(), used.display()));
                }
            }
        }
        assert!(count > 20, "only {count} imports within {room} were read");
    }
    assert!(arrows.is_empty(), "{arrows:#?}");
}

#[test]
fn no_area_imports_from_another() {
    let house = House::read();
    let mut areas = BTreeSet::new();
    let mut arrows = Vec::new();
    for (file, used) in house.uses() {
        if let (Some(from), Some(to)) = (part_of(file, AREAS), part_of(used, AREAS)) {
            areas.insert(from.to_owned());
            if from != to {
                arrows.push(format!("{} uses {}", file.display(), used.display()));
            }
        }
    }
    assert!(areas.len() >= 4, "only {areas:?} were read");
    assert!(arrows.is_empty(), "{arrows:#?}");
}

#[test]
fn no_files_import_each_other_in_a_circle() {
    let house = House::read();
    let mut uses: BTreeMap<&PathBuf, BTreeSet<&PathBuf>> = BTreeMap::new();
    for file in house.sources.keys() {
        let mut others = house.used_by(file);
        // A module that writes none of its own puts its parts together, and they may reach each other
        // through it.
        let source = &house.sources[file];
        if source.only_puts_together() {
            others.retain(|other| !house.sources[*other].module.starts_with(&source.module));
        }
        uses.insert(file, others);
    }
    let count: usize = uses.values().map(BTreeSet::len).sum();
    assert!(count > 400, "only {count} imports were read");
    let reached: BTreeMap<_, _> = uses
        .keys()
        .map(|file| (*file, reached_by(file, &uses)))
        .collect();
    let circles: BTreeSet<Vec<_>> = reached
        .iter()
        .filter(|(file, reached)| reached.contains(*file))
        .map(|(file, own)| {
            let is_back = |other: &&&PathBuf| reached[**other].contains(file);
            own.iter().filter(is_back).copied().collect()
        })
        .collect();
    assert!(circles.is_empty(), "{circles:#?}");
}

/// Every file that a file uses, and those that these use.
fn reached_by<'a>(
    file: &PathBuf,
    uses: &BTreeMap<&'a PathBuf, BTreeSet<&'a PathBuf>>,
) -> BTreeSet<&'a PathBuf> {
    let mut reached = BTreeSet::new();
    let mut next: Vec<_> = uses[file].iter().copied().collect();
    while let Some(file) = next.pop() {
        if reached.insert(file) {
            next.extend(&uses[file]);
        }
    }
    reached
}

#[test]
fn no_room_but_the_store_opens_or_writes_a_file() {
    let house = House::read();
    let mut uses = Vec::new();
    let mut found = 0;
    for (file, source) in &house.sources {
        let may_open = room_of(file) == Some("store");
        for words in ["fs::", "File::", "OpenOptions::", "tempfile", "save_buffer"] {
            match source.code.contains(words) {
                true if may_open => found += 1,
                true => uses.push(format!("{words} in {}", file.display())),
                false => {}
            }
        }
    }
    assert!(found >= 3, "the store was not read");
    assert!(uses.is_empty(), "{uses:#?}");
}

#[test]
fn every_file_that_those_who_carry_on_are_sent_to_is_there() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(top.join("DEVELOPERS.md")).unwrap();
    let house = House::read();
    let is_there = |named: &str| {
        let is_source = |file: &PathBuf| file.ends_with(named) || file.starts_with(named);
        house.sources.keys().any(is_source)
            || [top.to_owned(), top.join("tests/it")]
                .iter()
                .any(|folder| folder.join(named).exists())
    };
    let is_file = |name: &&str| {
        let is_plain = |c: char| c.is_ascii_alphanumeric() || "_./-".contains(c);
        name.chars().all(is_plain)
            && (Path::new(name).extension() == Some(OsStr::new("rs")) || name.contains('/'))
    };
    let named: BTreeSet<_> = text.split('`').skip(1).step_by(2).filter(is_file).collect();
    let missing: Vec<_> = named.iter().filter(|named| !is_there(named)).collect();
    assert!(named.len() > 40, "only {} files are named", named.len());
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn every_file_of_promises_is_named_for_those_who_carry_on() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(top.join("DEVELOPERS.md")).unwrap();
    let files = std::fs::read_dir(top.join("tests/it")).unwrap();
    let mut names: Vec<_> = files
        .map(|file| file.unwrap().path())
        .filter(|file| file.extension().is_some_and(|ending| ending == "rs"))
        .map(|file| file.file_name().unwrap().to_str().unwrap().to_owned())
        .filter(|name| name != "main.rs")
        .collect();
    assert!(names.len() > 15, "only {names:?} were found");
    names.retain(|name| !text.contains(&format!("`{name}`")));
    assert!(names.is_empty(), "{names:?}");
}
