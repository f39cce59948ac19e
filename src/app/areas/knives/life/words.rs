//! What the life plots show, in words: where each knife goes past a limit.

use super::key::Key;
use crate::analysis::knives::{Curve, MeasuredLimit, Over};
use crate::units::{Angle, Length, System};

/// A value of what the plots run over, in a sentence.
pub fn told(over: Over, at: f64, system: System) -> String {
    match over {
        Over::Diameter => format!("a reel of {}", system.length(Length::from_mm(at))),
        Over::Attitude => format!("an attitude of {}", system.angle(Angle::from_deg(at))),
        Over::Extension => format!("an edge forward of {}", system.length(Length::from_mm(at))),
    }
}

/// Every place of what the plots run over.
fn everywhere(over: Over) -> &'static str {
    match over {
        Over::Diameter => "from a new reel to a scrap one",
        Over::Attitude => "at every attitude shown",
        Over::Extension => "at every edge forward shown",
    }
}

pub fn sentences(key: &Key, limits: &[MeasuredLimit], curves: &[&Curve]) -> Vec<String> {
    let mut sentences = Vec::new();
    for ((name, _), curve) in key.knives.iter().zip(curves) {
        let Some(first) = curve.pieces.first().and_then(|piece| piece.first()) else {
            let everywhere = everywhere(key.over);
            sentences.push(format!(
                "\"{name}\": reel and knife do not meet {everywhere}."
            ));
            continue;
        };
        if curve.pieces.len() > 1 || !is_whole(key, curve) {
            sentences.push(format!(
                "\"{name}\": its line ends where reel and knife do not meet."
            ));
        }
        for limit in limits {
            let crossings: Vec<_> = curve
                .crossings
                .iter()
                .filter(|crossing| crossing.limit == *limit)
                .collect();
            for crossing in &crossings {
                let at = told(key.over, crossing.at, key.system);
                let side = match (key.over, crossing.is_past_beyond) {
                    (Over::Diameter, true) => "on larger ones",
                    (Over::Diameter, false) => "on smaller ones",
                    (_, true) => "above that",
                    (_, false) => "below that",
                };
                sentences.push(format!(
                    "\"{name}\" goes past {} at {at}; it is past it {side}.",
                    limit.told
                ));
            }
            if crossings.is_empty() && limit.is_past(first[1]) {
                sentences.push(format!(
                    "\"{name}\" is past {} {}.",
                    limit.told,
                    everywhere(key.over)
                ));
            }
        }
    }
    if sentences.is_empty() {
        let everywhere = everywhere(key.over);
        sentences.push(format!("No knife is past a limit {everywhere}."));
    }
    sentences
}

/// Whether a curve reaches from one end of its range to the other.
fn is_whole(key: &Key, curve: &Curve) -> bool {
    let (low, high) = key.over.range(&key.unit);
    let ends = curve.pieces.first().zip(curve.pieces.last());
    ends.is_some_and(|(first, last)| {
        first.first().is_some_and(|point| point[0] <= low)
            && last.last().is_some_and(|point| point[0] >= high)
    })
}
