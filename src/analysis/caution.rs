//! What makes it safe to touch a machine: the one text, in full and in short.

/// The caution in full, for texts, help and pages with room.
pub const CAUTION: [&str; 7] = [
    "Set the parking brake, stop the engine and take the key out (no key: pull the spark-plug lead or isolate the battery). Wait until everything stops.",
    "Lower the lift arms or pin them, and release hydraulic pressure before you reach under.",
    "Disconnect the reel drive and chock the wheels. Lift with a hoist or two people, and block the unit so that it cannot roll or tip.",
    "A ground-driven reel turns when the unit is pushed: take it out of gear.",
    "Block the reel and wear cut-resistant gloves: reels and bedknives cut even when turned slowly by hand.",
    "At the grinder keep the guards on, wear eye, hearing and dust protection, and gloves only as the grinder's manual says.",
    "The machine's manual, local safety rules and a qualified technician take precedence over anything shown.",
];

/// What is done before a hand goes near the machine.
macro_rules! made_safe {
    () => {
        "engine off, key out, brake on, reel drive disconnected, wheels chocked, lift arms down or pinned, unit and reel blocked, cut-resistant gloves"
    };
}

/// What makes the steps of a work safe, told before the first of them.
pub const BEFORE_EVERY_STEP: &str = concat!("Before every one of these steps: ", made_safe!(), ".");

/// The same in short, where space is short.
pub const CAUTION_IN_SHORT: [&str; 2] = [
    concat!(
        "Reels and bedknives cut even when turned by hand: ",
        made_safe!(),
        "."
    ),
    "A ground-driven reel turns when the unit is pushed. At the grinder: eye, hearing and dust protection. The machine's manual, local safety rules and a qualified technician take precedence.",
];

/// The same in one line, the longest first, for a strip that is always in view.
pub const CAUTION_IN_A_LINE: [&str; 4] = [
    "Before you touch a unit: engine off, key out, brake on, reel drive disconnected, wheels chocked, unit and reel blocked, cut-resistant gloves. The machine's manual takes precedence.",
    "Before you touch a unit: engine off, key out, reel drive disconnected, wheels chocked, unit and reel blocked, cut-resistant gloves.",
    "Engine off, key out, reel drive disconnected, wheels chocked, unit and reel blocked, cut-resistant gloves.",
    "Engine off, key out, reel drive disconnected, unit and reel blocked, cut-resistant gloves.",
];

/// What makes it safe to move a roller, told beside every move.
pub const MOVING_ROLLERS: &str = concat!("Before you move a roller: ", made_safe!(), ".");

/// What makes it safe to turn or move a part of a unit that stands or hangs still, to go on a sentence.
macro_rules! hands_on {
    () => {
        "engine off, key out, reel drive disconnected, unit and reel blocked, gloves on"
    };
}
pub(in crate::analysis) use hands_on;

/// The same, where it is set in later.
pub(in crate::analysis) const HANDS_ON: &str = hands_on!();

/// What makes lifting a unit safe, which is blocked where it is set down, to go on a sentence.
pub(in crate::analysis) const LIFTING: &str = "with a hoist or a second person, engine off, key out, reel drive disconnected, reel blocked, cut-resistant gloves on, hands and feet from under the unit";

/// What makes truing a roller at a machine safe.
macro_rules! at_grinder_or_lathe {
    () => {
        "At the grinder or lathe: guards on, eye, hearing and dust protection, gloves only as its manual says."
    };
}
pub(in crate::analysis) use at_grinder_or_lathe;

/// What makes grinding safe.
pub const GRINDING: &str = "At the grinder: guards on, eye, hearing and dust protection, gloves only as the grinder's manual says.";

/// What makes a feeler between reel and knife safe.
pub const FEELER: &str = "reel blocked, cut-resistant gloves, fingers clear";

/// What makes cutting paper with the reel safe.
macro_rules! paper_test {
    () => {
        "power isolated, cut-resistant gloves, one person, a long strip, fingers well clear, the reel turned slowly from the shaft's end and blocked again before reaching in"
    };
}
pub(in crate::analysis) use paper_test;

/// The same, where it is set in later.
pub const PAPER_TEST: &str = paper_test!();

/// What every number rests on, in one sentence.
pub const MODEL_IN_SHORT: &str =
    "The numbers hold for rigid parts in one plane with all blade tips on one cylinder.";
