use std::collections::BTreeSet;

use super::*;
use crate::unit::places::Places;
use crate::unit::{
    AsRead, AttitudeRange, BracketEntry, ClosingWay, Document, Fitted, FlawKind, GapPlace,
    GrindingEntry, HardwareReadings, LimitEntries, MountEntry, MowingEntry, Pieces, RollerMoves,
    ShapeEntry, StraightedgeEntry, read_text, write_text,
};
use crate::units::{Measure, Quantity, System};

fn quantity<M: Measure>(text: &str) -> Quantity<M> {
    Quantity::parse(text).unwrap()
}

fn demo() -> Document {
    let text = include_str!("../../../demo-units/fairway-trailed.ron");
    read_text(text).unwrap()
}

/// A document in which everything that can be left out is filled in.
fn filled() -> Document {
    let mut document = demo();
    document.as_read = AsRead::default();
    document.hardware = vec![HardwareReadings {
        behind: quantity("1.5 in"),
        below: quantity("0.3 in"),
        on: MountEntry::Knife,
    }];
    document.serial = Some("4711".to_owned());
    document.date = Some("2026-11-26".to_owned());
    document.set = Some("fairway set".to_owned());
    document.notes = Some("bought used".to_owned());
    document.options.truncate(1);
    let (knife, option) = (&mut document.knife, &mut document.options[0]);
    for knife in [knife, option] {
        knife.price = Some("52".to_owned());
        knife.quantity = Pieces(3);
        knife.notes = Some("on order".to_owned());
        knife.top_angle = Some(quantity("6 deg"));
        knife.front_angle = Some(quantity("2 deg"));
        knife.top_ground = Some(quantity("0.01 in"));
        knife.face_ground = Some(quantity("0.02 in"));
    }
    document.setting.rollers = Some(RollerMoves {
        front_move: Some(quantity("0 mm")),
        rear_move: Some(quantity("-1/8 in")),
    });
    document.mowing = Some(MowingEntry {
        ground_speed: quantity("4 mph"),
        reel_speed: quantity("900 rpm"),
    });
    document.ground.shape = ShapeEntry::Crest(quantity("20 ft"));
    document.wear.front_runout = Some(quantity("0.01 in"));
    document.wear.rear_runout = Some(quantity("0.01 in"));
    document.wear.end_difference = Some(quantity("0.01 in"));
    document.ground.front_sink = Some(quantity("0.02 in"));
    document.ground.rear_sink = Some(quantity("0.01 in"));
    document.ground.straightedge = Some(StraightedgeEntry {
        length: quantity("6 ft"),
        gap: quantity("1/4 in"),
        at: GapPlace::EachEnd,
    });
    document.brackets = BracketEntry {
        front_pitch: Some(quantity("1/16 in")),
        rear_pitch: Some(quantity("1.5 mm")),
        spacers: Some("1/32 in; 2 mm".to_owned()),
    };
    document.grinding = GrindingEntry {
        a_grind: Some(quantity("0.005 in")),
        least_lip: Some(quantity("1 mm")),
    };
    document.limits = Some(LimitEntries {
        sweep_watch: Some(quantity("5 %")),
        attitude_range: Some(AttitudeRange {
            low: quantity("0 deg"),
            high: quantity("10 deg"),
        }),
        ..LimitEntries::default()
    });
    document
}

/// The paths at which a text holds values, without those that only hold others.
fn leaves(text: &str) -> BTreeSet<String> {
    let places = Places::of(text);
    let paths: BTreeSet<&str> = places.paths().collect();
    let holds_others = |path: &str| {
        let inside = |other: &&str| {
            let rest = other.strip_prefix(path);
            rest.is_some_and(|rest| rest.starts_with(['.', '[']))
        };
        paths.iter().any(inside)
    };
    // After the last comma of a list stands a place without anything in it.
    let leaves = paths
        .iter()
        .filter(|path| !path.ends_with(']') && !holds_others(path));
    leaves.map(|path| (*path).to_owned()).collect()
}

#[test]
fn every_value_of_a_written_file_is_a_field_and_every_field_stands_in_it() {
    for way in ClosingWay::ALL {
        let mut document = filled();
        document.closing.close_by(*way, System::InchDecimal);
        let mut in_file = leaves(&write_text(&document));
        assert!(in_file.remove("format"));
        let in_table: BTreeSet<String> = Field::all(&document)
            .filter(|field| *field != Field::Closing && field.entry(&document).is_some())
            .map(|field| field.to_string())
            .collect();
        assert_eq!(in_file, in_table);
    }
}

#[test]
fn fields_are_listed_in_the_order_of_the_file() {
    let document = filled();
    let text = write_text(&document);
    let places = Places::of(&text);
    let present = Field::all(&document).filter(|field| field.entry(&document).is_some());
    let starts: Vec<_> = present
        .map(|field| places.start_of(&field.to_string()).unwrap())
        .collect();
    assert!(starts.is_sorted(), "{starts:?}");
}

#[test]
fn a_path_leads_back_to_its_field_and_group() {
    for field in Field::all(&filled()) {
        let found = Field::at_path(&field.to_string());
        // A radius stands in the shape's own brackets, and has no path but the shape's.
        let expected = match field {
            Field::Reading(Reading::GroundRadius) => Field::GroundShape,
            _ => field,
        };
        assert_eq!(found, Some(expected));
        assert_eq!(
            Group::at_path(&field.group().to_string()),
            Some(field.group())
        );
    }
    let far = Reading::Knife(Fitted::Option(usize::MAX), KnifePart::Width);
    assert_eq!(Field::at_path(&far.to_string()), Some(far.into()));
    assert_eq!(Field::at_path("reel.colour"), None);
    assert_eq!(Group::at_path("setting.rollers"), Some(Group::RollerMoves));
    assert_eq!(Group::at_path("options"), Some(Group::Options));
}

#[test]
fn a_text_is_kept_under_a_path_that_leads_back_to_its_own_field() {
    let typed = Field::all(&filled()).filter(|field| !matches!(field.kind(), Kind::Choice(_)));
    for field in typed {
        assert_eq!(Field::at_kept_path(&field.kept_path()), Some(field));
    }
    // A radius that an earlier program kept, as it wrote it.
    let radius = Field::from(Reading::GroundRadius);
    assert_eq!(Field::at_kept_path(&radius.to_string()), Some(radius));
    assert_eq!(Field::at_kept_path("reel.colour"), None);
}

#[test]
fn typing_what_stands_there_changes_nothing() {
    let document = filled();
    for field in Field::all(&document) {
        if let Some(text) = field.text(&document) {
            let mut typed = document.clone();
            field.set(&mut typed, &text, document.system()).unwrap();
            assert_eq!(typed, document, "{field}");
        }
    }
}

#[test]
fn what_is_typed_stands_there_and_an_empty_text_leaves_it_out() {
    let mut document = demo();
    let system = document.system();
    let sink = Field::Reading(Reading::RollerSink);
    sink.set(&mut document, "1/8 ± 0.01", system).unwrap();
    assert_eq!(sink.text(&document).unwrap(), "1/8 in ± 0.01");
    assert!((sink.half_width(&document).unwrap() - 0.254).abs() < 1e-12);
    let gap = Field::Reading(Reading::Gap);
    assert!(gap.set(&mut document, "", system).is_err());
    sink.set(&mut document, "", system).unwrap();
    assert_eq!(sink.text(&document), None);
    sink.set_base(&mut document, 6.35, system).unwrap();
    assert_eq!(sink.text(&document).unwrap(), "0.25 in");
    assert!((sink.base(&document).unwrap() - 6.35).abs() < 1e-12);
    assert_eq!(
        Field::Name.set_base(&mut document, 1.0, system),
        Err(EntryProblem::NoQuantity)
    );
    for field in [Field::WantedAttitude, Field::SweepWatch, Field::ClipOver] {
        assert_eq!(field.text(&document), None);
        let text = field.kind().unit_in(system).map(|unit| format!("1 {unit}"));
        let text = text.unwrap();
        field.set(&mut document, &text, system).unwrap();
        assert_eq!(field.text(&document).unwrap(), text.trim());
        field.set(&mut document, " ", system).unwrap();
        assert_eq!(field.text(&document), None);
        assert_eq!(document.limits, None);
    }
    assert_eq!(
        Field::FrontMove.set(&mut document, "1 mm", system),
        Err(EntryProblem::NotThere)
    );
    let problem = Field::Turf
        .set(&mut document, "Meadow", system)
        .unwrap_err();
    assert!(problem.to_string().contains("Green, Tee, Fairway, Rough"));
}

#[test]
fn a_knife_is_renamed_with_the_setting_that_fits_it() {
    let mut document = demo();
    let system = document.system();
    let name = Field::KnifeText(Fitted::Option(0), KnifeText::Name);
    document.fit_knife(Fitted::Option(0));
    name.set(&mut document, "another", system).unwrap();
    assert_eq!(document.setting.knife.as_deref(), Some("another"));
    let bench = document.knife.name.clone();
    assert_eq!(
        name.set(&mut document, &bench, system),
        Err(EntryProblem::Name(FlawKind::NameTwice(bench)))
    );
    assert_eq!(
        name.set(&mut document, " ", system),
        Err(EntryProblem::Name(FlawKind::NoName))
    );
}

#[test]
fn every_choice_can_be_set_by_its_word() {
    for field in Field::all(&filled()) {
        if let Kind::Choice(choice) = field.kind() {
            for offer in choice.offers() {
                let mut document = filled();
                field
                    .set(&mut document, offer.word, System::Millimetre)
                    .unwrap();
                assert_eq!(field.text(&document).unwrap(), offer.word);
                // What is not measured is left out of the file.
                let is_written = offer.word != "NotMeasured";
                assert_eq!(write_text(&document).contains(offer.word), is_written);
            }
        }
    }
}

#[test]
fn light_contact_is_a_gap_of_zero() {
    for field in [Field::WantedGap, Reading::Gap.into()] {
        for word in ["none", " Light contact "] {
            let mut document = demo();
            let system = document.system();
            field.set(&mut document, "0.002 in", system).unwrap();
            field.set(&mut document, word, system).unwrap();
            assert_eq!(field.base(&document), Some(0.0), "{word}");
        }
    }
    let (mut document, system) = (demo(), System::Millimetre);
    let behind = Field::from(Reading::BehindCentre);
    assert!(behind.set(&mut document, "none", system).is_err());
}
