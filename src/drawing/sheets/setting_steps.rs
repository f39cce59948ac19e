//! What to do to a unit as it was measured, in the order of the work, so that it stands as set.

use crate::analysis::{BEFORE_EVERY_STEP, FEELER, GRINDING, PAPER_TEST, Solved, moves_told};
use crate::unit::Fitted;
use crate::units::{Length, Quantity, Quoted, System};

/// Less is none that anybody reads.
const LEAST_MM: f64 = 0.005;

fn is_some(length: Length) -> bool {
    length.mm().abs() > LEAST_MM
}

/// The steps from the bench to the setting, each a sentence.
pub(super) fn setting_steps(solved: &Solved, system: System) -> Vec<String> {
    let (unit, document) = (&solved.unit, &solved.document);
    let (bench, setting) = (&unit.profile.bench, &unit.setting);
    let pose = &solved.solution.pose;
    let length = |length: Length| system.length(length);
    let size = |by: Length| length(Length::from_mm(by.mm().abs()));
    let mut steps = Vec::new();
    steps.push(format!(
        "{BEFORE_EVERY_STEP} The full caution is at the foot of this page."
    ));
    let ground = bench.reel_diameter - setting.reel_diameter;
    if is_some(ground) {
        steps.push(if ground.mm() > 0.0 {
            format!(
                "Grind the reel from {} to {}: {} off its diameter. {GRINDING}",
                length(bench.reel_diameter),
                length(setting.reel_diameter),
                size(ground)
            )
        } else {
            format!(
                "Fit a reel of {}, as the machine's manual says; {} was measured.",
                length(setting.reel_diameter),
                length(bench.reel_diameter)
            )
        });
    }
    if document.fitted() != Some(Fitted::Bench) {
        let knife = Quoted(document.fitted_name());
        steps.push(format!(
            "Fit the knife {knife}, reel blocked and gloves on; screws as the machine's manual says."
        ));
    }
    let faces = [
        ("top face", document.setting.top_ground.as_ref()),
        ("front face", document.setting.face_ground.as_ref()),
    ];
    for (face, off) in faces {
        let off = off.map(Quantity::value).filter(|off| is_some(*off));
        if let Some(off) = off {
            steps.push(format!(
                "Grind the knife's {face} until {} in all is off it, square to it. {GRINDING}",
                length(off)
            ));
        }
    }
    if is_some(setting.extension) {
        let way = if setting.extension.mm() > 0.0 {
            "ahead"
        } else {
            "back"
        };
        steps.push(format!(
            "Set the edge {} further {way} on its bar.",
            size(setting.extension)
        ));
    }
    let what_moves = if document.closing.way().moves_knife() {
        "knife up to the reel"
    } else {
        "reel down to the knife"
    };
    steps.push(if is_some(setting.gap) {
        format!(
            "Bring the {what_moves}: gap {}, by a feeler at both ends and the middle ({FEELER}).",
            length(setting.gap)
        )
    } else {
        format!(
            "Bring the {what_moves} to light contact along the whole knife, then cut paper: {PAPER_TEST}."
        )
    });
    let moves = (pose.front_roller.moved, pose.rear_roller.moved);
    if is_some(moves.0) || is_some(moves.1) {
        let turns = moves_told(moves, &unit.brackets, system);
        let turns = turns.map_or_else(String::new, |told| format!(" {told}"));
        steps.push(format!(
            "Rollers in their brackets, from where you measured them, unit and reel blocked, gloves on: {}; to raise is towards the reel.{turns}",
            system.roller_moves(moves)
        ));
    } else {
        steps.push("Leave both rollers where you measured them.".to_owned());
    }
    steps.push(format!(
        "On the surface plate, reel blocked, gloves on, read again: height of cut {}, attitude {}, behind centre {}.",
        length(pose.height_of_cut),
        system.angle(pose.attitude),
        length(solved.solution.sweep.behind_centre)
    ));
    steps
}
