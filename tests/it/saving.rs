//! What a save keeps of a file that a person wrote: its remarks, its layout, its letters; and that it
//! always gives the unit back.

use std::collections::BTreeSet;

use proptest::prelude::*;
use sweepgauge::unit::{
    AsRead, ClosingWay, Document, Field, Fitted, HardwareReadings, Kind, LimitEntries, MountEntry,
    Remarks, RollerMoves, ShapeEntry, Written, parse_text, read_text, write, write_text,
};
use sweepgauge::units::{Quantity, System};

use crate::common::by_chance;
use crate::common::demo_unit::DemoUnit;
use crate::common::example::EXAMPLE;

/// A file as a careful person keeps it.
const KEPT: &str = r#"// Shed 2, third from the door.
( // a unit
    format: 1,
    name: "kept", turf: Green, /* two on a line */
    reel: (new_diameter: "7 in", smallest_diameter: "6.5 in", blades: 8),
    bench: (
        reel_diameter: "6.9 in",     // three places, middle one
        height_of_cut:   "0.5 in",   // gauge bar
        attitude: "4 deg",
        behind_centre: "0.3 in",
        // rollers: by the calliper
        front_roller: (diameter: "3 in", ahead: "5.5 in"),
        rear_roller: (diameter: "2.5 in", behind: "3.25 in"),
    ),
    closing: ReelSlides(),
    knife: (
        name: "plain",
        reach: "1.5 in",
        width: "2.5 in",
        lip_thickness: "0.12 in",
        lip_length: "0.5 in",
        body_thickness: "0.25 in" // filed flat
    ),
    hardware: [
        (behind: "1.5 in", below: "0.3 in"), // screws
        // the lug stands lower
        (behind: "2.6 in", below: "0.35 in"), // lug
    ],
    options: [
        // ordered in May
        (
            name: "long",
            reach: "1.65 in", // measured twice
            width: "2.65 in",
            lip_thickness: "0.12 in",
            lip_length: "0.5 in",
            body_thickness: "0.25 in",
        ),
        (name: "short", reach: "1.35 in", width: "2.35 in", lip_thickness: "0.12 in", lip_length: "0.45 in", body_thickness: "0.25 in"),
    ],
    setting: (attitude: "5 deg" /* as tried on Tuesday */),
)
// the end
"#;

fn kept() -> Document {
    read_text(KEPT).unwrap()
}

/// The kept file as it is saved after an edit.
#[track_caller]
fn saved_after(edit: impl FnOnce(&mut Document)) -> String {
    let mut document = kept();
    edit(&mut document);
    let Written { text, remarks } = write(&document);
    assert_eq!(parse_text(&text).as_ref(), Ok(&document), "{text}");
    assert_eq!(remarks, Remarks::InPlace, "{text}");
    text
}

/// The kept file with pieces of it replaced; each must stand there once.
fn with(pieces: &[(&str, &str)]) -> String {
    pieces.iter().fold(KEPT.to_owned(), |text, (from, to)| {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text.replace(from, to)
    })
}

fn set(document: &mut Document, path: &str, text: &str) {
    let field = Field::at_path(path).unwrap();
    field.set(document, text, System::InchDecimal).unwrap();
}

#[test]
fn a_file_that_was_not_changed_is_saved_byte_for_byte() {
    assert_eq!(saved_after(|_| {}), KEPT);
    for file in DemoUnit::files() {
        let text = std::fs::read_to_string(file).unwrap();
        assert_eq!(write_text(&read_text(&text).unwrap()), text);
        let from_elsewhere = format!("\u{feff}{}", text.replace('\n', "\r\n"));
        assert_eq!(
            write_text(&read_text(&from_elsewhere).unwrap()),
            from_elsewhere
        );
    }
}

#[test]
fn a_changed_value_changes_nothing_around_it() {
    let text = saved_after(|document| {
        set(document, "bench.height_of_cut", "½ in ± 0.005 in");
        set(document, "turf", "Tee");
        set(document, "reel.blades", "11");
        set(document, "setting.attitude", "6 deg");
        set(document, "hardware[1].below", "9 mm");
        set(document, "options[0].reach", "1.7 in");
    });
    let wanted = with(&[
        (
            "\"0.5 in\",   // gauge bar",
            "\"½ in ± 0.005 in\",   // gauge bar",
        ),
        ("Green", "Tee"),
        ("blades: 8", "blades: 11"),
        ("attitude: \"5 deg\"", "attitude: \"6 deg\""),
        ("0.35 in", "9 mm"),
        ("1.65 in", "1.7 in"),
    ]);
    assert_eq!(text, wanted);
    let to_bench = saved_after(|document| document.setting.attitude = None);
    assert_eq!(to_bench, with(&[("attitude: \"5 deg\"", "attitude: None")]));
}

#[test]
fn what_is_added_takes_the_layout_of_its_neighbours() {
    let text = saved_after(|document| {
        set(document, "bench.gap", "0.05 mm");
        set(document, "setting.gap", "0.1 mm");
        set(document, "knife.price", "41.50");
        let mut third = document.options[0].clone();
        third.name = "third".to_owned();
        document.options.insert(1, third);
        document.hardware.insert(
            0,
            HardwareReadings {
                behind: Quantity::parse("1 in").unwrap(),
                below: Quantity::parse("0.2 in").unwrap(),
                on: MountEntry::Bar,
            },
        );
        document.mowing = read_text(EXAMPLE).unwrap().mowing;
    });
    let third = r#"        ),
        (
            name: "third",
            reach: "1.65 in",
            width: "2.65 in",
            lip_thickness: "0.12 in",
            lip_length: "0.5 in",
            body_thickness: "0.25 in",
        ),
        (name: "short""#;
    let wanted = with(&[
        (
            "        behind_centre: \"0.3 in\",\n",
            "        behind_centre: \"0.3 in\",\n        gap: \"0.05 mm\",\n",
        ),
        (
            "(attitude: \"5 deg\" /* as tried on Tuesday */),\n",
            "(attitude: \"5 deg\", gap: Some(\"0.1 mm\") /* as tried on Tuesday */),\n    mowing: Some((\n        ground_speed: \"4 mph\",\n        reel_speed: \"900 rpm\",\n    )),\n",
        ),
        (
            "\"0.25 in\" // filed flat\n",
            "\"0.25 in\", // filed flat\n        price: Some(\"41.50\")\n",
        ),
        ("        ),\n        (name: \"short\"", third),
        (
            "hardware: [\n",
            "hardware: [\n        (behind: \"1 in\", below: \"0.2 in\", on: Bar),\n",
        ),
    ]);
    assert_eq!(text, wanted);
}

#[test]
fn what_is_taken_out_goes_with_the_remark_on_its_line_and_no_other() {
    let text = saved_after(|document| {
        document.hardware.remove(1);
        document.remove_knife(0);
    });
    let first = KEPT.find("        (\n            name: \"long\"").unwrap();
    let second = KEPT.find("        (name: \"short\"").unwrap();
    let wanted = with(&[
        (
            "        (behind: \"2.6 in\", below: \"0.35 in\"), // lug\n",
            "",
        ),
        (&KEPT[first..second], ""),
    ]);
    assert_eq!(text, wanted);
    let bare = saved_after(|document| {
        document.hardware.clear();
        document.options.clear();
    });
    assert!(bare.contains("// the lug stands lower"), "{bare}");
    assert!(bare.contains("// ordered in May"), "{bare}");
}

#[test]
fn a_knife_that_is_renamed_keeps_its_remarks() {
    let text = saved_after(|document| document.rename_knife(Fitted::Option(0), "longer").unwrap());
    assert_eq!(text, with(&[("\"long\"", "\"longer\"")]));
}

#[test]
fn where_the_way_of_closing_changes_what_stood_in_it_goes_and_the_rest_stays() {
    let text = saved_after(|document| {
        document
            .closing
            .close_by(ClosingWay::ReelPivots, System::InchDecimal);
    });
    let pivots = "ReelPivots(\n        ahead: \"-4 in\",\n        above: \"6 in\",\n    )";
    assert_eq!(text, with(&[("ReelSlides()", pivots)]));
}

#[test]
fn windows_line_ends_stay_windows_line_ends() {
    let text = KEPT.replace('\n', "\r\n");
    let mut document = read_text(&text).unwrap();
    document.remove_knife(0);
    set(&mut document, "bench.gap", "1 mm");
    document.mowing = read_text(EXAMPLE).unwrap().mowing;
    let written = write_text(&document);
    assert_eq!(read_text(&written).unwrap(), document);
    assert_eq!(
        written.matches('\n').count(),
        written.matches("\r\n").count()
    );
}

#[test]
fn letters_of_every_script_are_written_as_typed() {
    let name = "Grüße, e\u{301}te\u{301}, 芝生, עִבְרִית, ग्रीन, نسخه\u{200c}ها, 👩\u{200d}🌾";
    let mut document = read_text(EXAMPLE).unwrap();
    name.clone_into(&mut document.name);
    document.as_read = AsRead::default();
    let anew = write_text(&document);
    assert!(anew.contains(&format!("name: \"{name}\"")), "{anew}");
    assert_eq!(read_text(&anew).unwrap(), document);
    let notes = "a\u{301}".repeat(5_000);
    document.knife.notes = Some(notes.clone());
    assert!(write_text(&document).len() < anew.len() + notes.len() + 100);
    // What hides or steers stays an escape, in a file that a terminal may show.
    document.name = "a\u{1b}[31m\u{202e}\n\\u{41}\"".to_owned();
    let written = write_text(&document);
    assert!(
        written.contains(r#""a\u{1b}[31m\u{202e}\n\\u{41}\"""#),
        "{written}"
    );
    assert_eq!(read_text(&written).unwrap(), document);
}

#[test]
fn of_five_thousand_knives_only_those_that_changed_are_written_anew() {
    let mut document = read_text(EXAMPLE).unwrap();
    let knife = document.options[0].clone();
    document.add_knives(std::iter::repeat_n(knife, 4_990));
    let text = write_text(&document);
    document.as_read = AsRead::new(&text);
    document.options.retain(|knife| !knife.name.ends_with('7'));
    set(&mut document, "options[3].reach", "2.03 in");
    let written = write(&document);
    assert_eq!(written.remarks, Remarks::InPlace);
    assert_eq!(parse_text(&written.text), Ok(document));
    let known: BTreeSet<&str> = text.lines().collect();
    let new: Vec<_> = written
        .text
        .lines()
        .filter(|line| !known.contains(line))
        .collect();
    assert!(
        matches!(new[..], [line] if line.contains("2.03 in")),
        "{new:?}"
    );
}

// Any file, any remarks, any edits.

/// Places of a text between its words, outside of quotes and remarks, where a remark may stand.
fn gaps(text: &str) -> Vec<usize> {
    let bytes = text.as_bytes();
    let (mut gaps, mut at) = (Vec::new(), 0);
    while at < bytes.len() {
        match bytes[at] {
            b'"' => {
                at += 1;
                while bytes[at] != b'"' {
                    at += if bytes[at] == b'\\' { 2 } else { 1 };
                }
            }
            b'/' if bytes[at + 1] == b'/' => at += text[at..].find('\n').unwrap(),
            b'/' if bytes[at + 1] == b'*' => at += text[at..].find("*/").unwrap() + 1,
            b',' | b'(' | b'[' | b':' => gaps.push(at + 1),
            b')' | b']' => gaps.push(at),
            _ => {}
        }
        at += 1;
    }
    gaps
}

/// From the name of a field to the end of its value; nothing where it is left out.
fn field_range(text: &str, name: &str) -> std::ops::Range<usize> {
    let Some(start) = text.find(&format!("\n    {name}:")) else {
        return 0..0;
    };
    let end = text[start + 1..]
        .find("\n    }")
        .or_else(|| {
            let rest = &text[start + 1..];
            let next = rest.match_indices("\n    ").find(|(at, lead)| {
                rest[at + lead.len()..].starts_with(|c: char| c.is_alphabetic())
            });
            next.map(|(at, _)| at)
        })
        .unwrap_or(text.len() - start - 1);
    start..start + 1 + end
}

/// What an edit may take out whole, with the remarks in it.
const REMOVABLE: [&str; 9] = [
    "closing", "hardware", "options", "setting", "mowing", "ground", "limits", "wear", "examples",
];

#[derive(Clone, Debug)]
enum Edit {
    Type(prop::sample::Index, prop::sample::Index),
    AddKnife(prop::sample::Index),
    RemoveKnife(prop::sample::Index),
    MoveKnife(prop::sample::Index, prop::sample::Index),
    AddPoint(prop::sample::Index),
    RemovePoint(prop::sample::Index),
    Rollers(bool),
    Mowing(bool),
    Limits(bool),
    Close(prop::sample::Index),
    Shape(u8),
    ToBench,
}

const QUANTITIES: [&str; 8] = [
    "1 mm",
    "½ in",
    "0.3 ± 0.02",
    "1' 6\"",
    "12 deg",
    "3",
    "900 rpm",
    "6 %",
];
const TEXTS: [&str; 7] = [
    "",
    "a",
    "\"b\" \\ c",
    "two\nlines",
    "e\u{301}",
    "// no",
    "芝生 /* no */",
];

impl Edit {
    fn apply(&self, document: &mut Document) {
        match self {
            Self::Type(which, what) => {
                let fields: Vec<_> = Field::all(document).collect();
                let field = which.get(&fields);
                let text = match field.kind() {
                    Kind::Text | Kind::Knife => *what.get(&TEXTS),
                    Kind::Choice(choice) => what.get(&choice.offers()).word,
                    Kind::Count => "7",
                    _ => *what.get(&QUANTITIES),
                };
                // What the field cannot hold is another test's matter.
                let _ = field.set(document, text, System::InchDecimal);
            }
            Self::AddKnife(at) => {
                let mut knife = document.knife.clone();
                knife.name = document.free_knife_name("added");
                document
                    .options
                    .insert(at.index(document.options.len() + 1), knife);
            }
            Self::RemoveKnife(at) if !document.options.is_empty() => {
                document.remove_knife(at.index(document.options.len()));
            }
            Self::MoveKnife(from, to) if !document.options.is_empty() => {
                let knife = document.options.remove(from.index(document.options.len()));
                document
                    .options
                    .insert(to.index(document.options.len() + 1), knife);
            }
            Self::AddPoint(at) => {
                let point = HardwareReadings {
                    behind: Quantity::parse("1 in").unwrap(),
                    below: Quantity::parse("0.2 in").unwrap(),
                    on: MountEntry::Bar,
                };
                document
                    .hardware
                    .insert(at.index(document.hardware.len() + 1), point);
            }
            Self::RemovePoint(at) if !document.hardware.is_empty() => {
                document.hardware.remove(at.index(document.hardware.len()));
            }
            Self::RemoveKnife(_) | Self::MoveKnife(..) | Self::RemovePoint(_) => {}
            Self::Rollers(are_given) => {
                document.setting.rollers = are_given.then(|| RollerMoves {
                    front_move: Some(Quantity::parse("1 mm").unwrap()),
                    rear_move: Some(Quantity::parse("-1/8 in").unwrap()),
                });
            }
            Self::Mowing(is_known) => {
                document.mowing = read_text(EXAMPLE).unwrap().mowing.filter(|_| *is_known);
            }
            Self::Limits(are_own) => {
                document.limits = are_own.then(|| LimitEntries {
                    underside: Some(Quantity::parse("1 mm").unwrap()),
                    ..LimitEntries::default()
                });
            }
            Self::Close(way) => {
                let ways = [
                    ClosingWay::ReelSlides,
                    ClosingWay::ReelPivots,
                    ClosingWay::KnifePivots,
                ];
                document
                    .closing
                    .close_by(*way.get(&ways), System::Millimetre);
            }
            Self::Shape(which) => {
                let radius = Quantity::parse("6 m").unwrap();
                document.ground.shape = match which % 3 {
                    0 => ShapeEntry::Level,
                    1 => ShapeEntry::Crest(radius),
                    _ => ShapeEntry::Hollow(radius),
                };
            }
            Self::ToBench => document.setting = sweepgauge::unit::SettingEntry::default(),
        }
    }
}

fn edit() -> impl Strategy<Value = Edit> {
    let index = any::<prop::sample::Index>;
    prop_oneof![
        8 => (index(), index()).prop_map(|(which, what)| Edit::Type(which, what)),
        1 => index().prop_map(Edit::AddKnife),
        1 => index().prop_map(Edit::RemoveKnife),
        1 => (index(), index()).prop_map(|(from, to)| Edit::MoveKnife(from, to)),
        1 => index().prop_map(Edit::AddPoint),
        1 => index().prop_map(Edit::RemovePoint),
        1 => any::<bool>().prop_map(Edit::Rollers),
        1 => any::<bool>().prop_map(Edit::Mowing),
        1 => any::<bool>().prop_map(Edit::Limits),
        1 => index().prop_map(Edit::Close),
        1 => any::<u8>().prop_map(Edit::Shape),
        1 => Just(Edit::ToBench),
    ]
}

/// Files that people keep.
fn files() -> Vec<String> {
    let demos = DemoUnit::files().into_iter();
    let demos = demos.map(|file| std::fs::read_to_string(file).unwrap());
    demos.chain([KEPT.to_owned(), EXAMPLE.to_owned()]).collect()
}

proptest! {
    #![proptest_config(by_chance(300))]

    #[test]
    fn any_edit_of_any_file_is_saved_with_every_remark_beside_it(
        which in any::<prop::sample::Index>(),
        places in prop::collection::vec((any::<prop::sample::Index>(), any::<bool>()), 0..12),
        edits in prop::collection::vec(edit(), 1..6),
        has_windows_lines in any::<bool>(),
    ) {
        let plain = which.get(&files()).clone();
        let removable: Vec<_> = REMOVABLE.iter().map(|name| field_range(&plain, name)).collect();
        let gaps = gaps(&plain);
        let mut places: Vec<(usize, bool)> = places
            .iter()
            .map(|(place, is_line)| (*place.get(&gaps), *is_line))
            .collect();
        places.sort_unstable();
        let mut text = plain.clone();
        let mut staying = Vec::new();
        for (number, (at, is_line)) in places.iter().enumerate().rev() {
            let remark = if *is_line {
                format!("// remark <{number}>\n")
            } else {
                format!(" /* remark <{number}> */ ")
            };
            text.insert_str(*at, &remark);
            let is_in_one = removable.iter().any(|range| range.contains(at));
            let line = plain[..*at].rfind('\n').map_or(0, |newline| newline + 1);
            let is_price = plain[line..].trim_start().starts_with("price:");
            if !is_in_one && !is_price {
                staying.push(format!("remark <{number}>"));
            }
        }
        if has_windows_lines {
            text = text.replace('\n', "\r\n");
        }
        let before = parse_text(&text).unwrap();
        let mut document = before.clone();
        for edit in &edits {
            edit.apply(&mut document);
        }
        let written = write(&document);
        let again = parse_text(&written.text);
        prop_assert_eq!(again.as_ref(), Ok(&document), "{}", written.text);
        prop_assert_eq!(written.remarks, Remarks::InPlace, "{}\n{}", text, written.text);
        for remark in &staying {
            prop_assert!(written.text.contains(remark), "{remark} in\n{text}\n{}", written.text);
        }
        // And what was saved is edited and saved as well.
        let mut later = again.unwrap();
        edits[0].apply(&mut later);
        prop_assert_eq!(parse_text(&write_text(&later)), Ok(later));
        // Taking all of it back gives the file as it was.
        let mut back = before;
        back.as_read = document.as_read;
        prop_assert_eq!(write_text(&back), text);
    }

    #[test]
    fn typed_values_change_their_own_lines_only(
        which in any::<prop::sample::Index>(),
        typed in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 1..4),
    ) {
        let text = which.get(&files()).clone();
        let mut document = parse_text(&text).unwrap();
        let fields: Vec<_> = Field::all(&document)
            .filter(|field| field.kind().unit_in(System::Millimetre).is_some())
            .filter(|field| is_written(&text, *field, &document))
            .collect();
        for (which, what) in &typed {
            let _ = which.get(&fields).set(&mut document, what.get::<&str>(&QUANTITIES), System::InchDecimal);
        }
        let written = write_text(&document);
        prop_assert_eq!(written.lines().count(), text.lines().count());
        let changed = text.lines().zip(written.lines()).filter(|(old, new)| old != new);
        prop_assert!(changed.count() <= typed.len(), "{}", written);
    }
}

/// Whether a file names a field, instead of leaving it out.
fn is_written(text: &str, field: Field, document: &Document) -> bool {
    let path = field.to_string();
    let word = path.rsplit('.').next().unwrap_or_default();
    let value = field.text(document);
    value.is_some_and(|value| text.contains(&format!("{word}: \"{value}\"")))
}
