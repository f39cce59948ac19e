//! What must be true of fields beside one another.

use std::collections::HashSet;

use super::document::{Document, Knife, LimitEntries};
use super::field::{Field, KnifePart, KnifeText, Reading};
use super::fitted::Fitted;
use super::flaw::{Flaw, FlawKind};
use super::ground::StraightedgeEntry;
use super::most;
use super::setting::SettingEntry;
use crate::geometry::radius_under_straightedge;
use crate::units::{Measure, Quantity, Quoted};

/// Checks what must be true of fields beside one another; each makes sense by itself. The knife that
/// the setting fits.
pub(super) fn check(document: &Document) -> Result<Fitted, Flaw> {
    not_more_than(
        (Field::SmallestDiameter, &document.reel.smallest_diameter),
        ("the new diameter", &document.reel.new_diameter),
    )
    .map_err(|flaw| beside_example(document, flaw, Field::NewDiameter))?;
    counts(document)?;
    for (place, one) in document.knives() {
        let width = Reading::Knife(place, KnifePart::Width);
        knife(place, one).map_err(|flaw| beside_example(document, flaw, width.into()))?;
    }
    distinct_names(document)?;
    let fitted = fitted(document)?;
    setting(&document.setting)?;
    document
        .ground
        .straightedge
        .as_ref()
        .map_or(Ok(()), straightedge)?;
    spacers(document)?;
    document.limits.as_ref().map_or(Ok(()), limits)?;
    Ok(fitted)
}

/// Checks the measures of a knife beside one another.
pub(super) fn knife(place: Fitted, knife: &Knife) -> Result<(), Flaw> {
    let lip_length = Reading::Knife(place, KnifePart::LipLength);
    not_more_than(
        (lip_length.into(), &knife.lip_length),
        ("the knife's width", &knife.width),
    )?;
    faces(place, knife)
}

/// The same flaw told of the example, where it or the field beside it holds one: whoever writes their
/// readings in order has done nothing wrong yet.
fn beside_example(document: &Document, flaw: Flaw, beside: Field) -> Flaw {
    let examples = &document.examples;
    let example = [flaw.field, beside]
        .into_iter()
        .find(|field| examples.has(*field));
    match (flaw.kind, example) {
        (kind @ FlawKind::MoreThan { .. }, Some(example)) => {
            example.flaw(FlawKind::BesideExample(Box::new(kind)))
        }
        (kind, _) => flaw.field.flaw(kind),
    }
}

/// The two faces of a knife meet at an edge: it takes some metal between them.
fn faces(place: Fitted, knife: &Knife) -> Result<(), Flaw> {
    let (Some(top), Some(front)) = (&knife.top_angle, &knife.front_angle) else {
        return Ok(());
    };
    let together = top.value() + front.value();
    if together.deg().abs() < MOST_FACES_DEG {
        return Ok(());
    }
    let field = Field::Reading(Reading::Knife(place, KnifePart::FrontAngle));
    Err(field.flaw(FlawKind::FacesWithoutEdge {
        top: top.text().to_owned(),
        front: front.text().to_owned(),
    }))
}

/// What both face angles together must stay under, either way: a right angle, at which the faces are
/// one.
const MOST_FACES_DEG: f64 = 90.0;

/// Told of the first that is one too many.
fn counts(document: &Document) -> Result<(), Flaw> {
    let (knives, points) = (document.options.len(), document.hardware.len());
    if knives > most::KNIVES {
        let name = Field::KnifeText(Fitted::Option(most::KNIVES), KnifeText::Name);
        return Err(name.flaw(FlawKind::TooManyKnives(knives)));
    }
    if points > most::HARDWARE_POINTS {
        let point = Field::Reading(Reading::HardwareBehind(most::HARDWARE_POINTS));
        return Err(point.flaw(FlawKind::TooManyPoints(points)));
    }
    Ok(())
}

fn distinct_names(document: &Document) -> Result<(), Flaw> {
    let mut names = HashSet::new();
    for (place, knife) in document.knives() {
        if !names.insert(knife.name.as_str()) {
            let kind = FlawKind::NameTwice(knife.name.clone());
            return Err(Field::KnifeText(place, KnifeText::Name).flaw(kind));
        }
    }
    Ok(())
}

/// The names of knives that a refusal lists.
const NAMES_TOLD: usize = 10;

fn fitted(document: &Document) -> Result<Fitted, Flaw> {
    document.fitted().ok_or_else(|| {
        let names = document.knives().map(|(_, k)| Quoted(&k.name).to_string());
        let mut known: Vec<_> = names.take(NAMES_TOLD).collect();
        if document.options.len() >= NAMES_TOLD {
            known.push("…".to_owned());
        }
        Field::FittedKnife.flaw(FlawKind::NoSuchKnife {
            wanted: document.setting.knife.clone().unwrap_or_default(),
            known: known.join(", "),
        })
    })
}

fn setting(entry: &SettingEntry) -> Result<(), Flaw> {
    let Some(moves) = &entry.rollers else {
        return Ok(());
    };
    if moves.front_move.is_none() && moves.rear_move.is_none() {
        return Err(Field::FrontMove.flaw(FlawKind::NoRollerGiven));
    }
    if entry.attitude.is_some() {
        let kind = if moves.are_both() {
            FlawKind::BesideRollers
        } else {
            FlawKind::BesideOneRoller
        };
        return Err(Field::WantedAttitude.flaw(kind));
    }
    if entry.height_of_cut.is_some() && moves.are_both() {
        return Err(Field::WantedHeightOfCut.flaw(FlawKind::BesideRollers));
    }
    Ok(())
}

fn straightedge(entry: &StraightedgeEntry) -> Result<(), Flaw> {
    let (length, gap) = (entry.length.value(), entry.gap.value());
    match radius_under_straightedge(length.mm(), gap.mm(), entry.at.gap_at()) {
        Ok(_) => Ok(()),
        Err(_) => Err(Field::StraightedgeGap.flaw(FlawKind::Step(entry.gap.text().to_owned()))),
    }
}

fn spacers(document: &Document) -> Result<(), Flaw> {
    let field = Field::Spacers;
    let sizes = document.brackets.sizes();
    let sizes = sizes.map_err(|problem| {
        field.flaw(FlawKind::NoSpacer {
            problem: problem.to_string(),
        })
    })?;
    if sizes.iter().any(|size| size.mm() <= 0.0) {
        return Err(field.flaw(FlawKind::ThinSpacer));
    }
    Ok(())
}

fn limits(entries: &LimitEntries) -> Result<(), Flaw> {
    if let (Some(watch), Some(over)) = (&entries.sweep_watch, &entries.sweep_over) {
        not_more_than((Field::SweepWatch, watch), ("sweep_over", over))?;
    }
    if let (Some(watch), Some(over)) = (&entries.clip_watch, &entries.clip_over) {
        not_more_than((Field::ClipWatch, watch), ("clip_over", over))?;
    }
    let most = entries.clip_watch.as_ref().or(entries.clip_over.as_ref());
    if let (Some(least), Some(most)) = (&entries.clip_least, most) {
        not_more_than(
            (Field::ClipLeast, least),
            ("the clip ÷ height of cut, watch", most),
        )?;
    }
    if let (Some(watch), Some(over)) = (&entries.gap_watch, &entries.gap_over) {
        not_more_than((Field::GapWatch, watch), ("gap_over", over))?;
    }
    if let Some(range) = &entries.attitude_range {
        not_more_than(
            (Field::LeastAttitude, &range.low),
            ("the highest", &range.high),
        )?;
        if range.low.value() == range.high.value() {
            let kind = FlawKind::NoRange(range.low.text().to_owned());
            return Err(Field::LeastAttitude.flaw(kind));
        }
    }
    Ok(())
}

fn not_more_than<M: Measure>(
    (field, value): (Field, &Quantity<M>),
    (of, most): (&'static str, &Quantity<M>),
) -> Result<(), Flaw> {
    if value.value() <= most.value() {
        return Ok(());
    }
    let (value, most) = (value.text().to_owned(), most.text().to_owned());
    Err(field.flaw(FlawKind::MoreThan { value, of, most }))
}
