//! Help at hand: the word for every field, what it means, and how it is measured on the bench.

use egui::{RichText, Ui};

use super::look::strong;

/// What a key number means.
pub(super) fn meaning_of_number(name: &str) -> Option<&'static str> {
    let name = if name == "Rear roller" {
        "Front roller"
    } else {
        name
    };
    let found = NUMBERS.iter().find(|(number, _)| *number == name);
    found.map(|(_, meaning)| *meaning)
}

/// The key numbers and what they mean.
pub(super) const NUMBERS: [(&str, &str); 12] = [
    (
        "Behind centre",
        "How far the knife's edge stands behind the vertical through the reel's centre.",
    ),
    (
        "Sweep below the cut",
        "How far the lowest point of the reel's circle hangs below the edge: the depth the blades reach into the canopy before they come up to the clip point.",
    ),
    (
        "Sweep share",
        "The sweep over the height of cut. The same sweep is nothing at a high cut and far too much at a low one.",
    ),
    (
        "Sweep chord",
        "Length of the reel's circle that lies below the cut line, along the cut.",
    ),
    (
        "Clip angle",
        "At the reel's centre, from straight down to the edge.",
    ),
    (
        "Attitude",
        "The knife datum against the plate, positive with the knife's back higher than its edge.",
    ),
    ("Height of cut", "From the plate up to the edge."),
    (
        "Reel over plate",
        "From the plate up to the lowest point of the reel's circle.",
    ),
    (
        "Reel over ground",
        "The same after the ground's shape and the rollers' sink.",
    ),
    (
        "Underside over plate",
        "From the plate up to the lowest point of the knife or the hardware under it.",
    ),
    (
        "Front roller",
        "How far it stands in its bracket from its bench place, along the frame's own vertical: up is towards the reel. The rear roller's likewise.",
    ),
    (
        "Clip length",
        "Forward travel between two blades passing the knife.",
    ),
];

/// A word of the trade as this program uses it.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Word {
    /// The field of the unit file, without the places in lists.
    field: &'static str,
    /// The word itself.
    name: &'static str,
    /// What it means.
    meaning: &'static str,
    /// How it is measured, or where it comes from.
    measured: &'static str,
}

impl Word {
    pub(super) fn help_ui(&self, ui: &mut Ui) {
        ui.label(RichText::new(self.name).family(strong()).size(15.0));
        ui.label(self.meaning);
        if !self.measured.is_empty() {
            ui.add_space(4.0);
            ui.label(RichText::new(self.measured).weak());
        }
    }
}

/// The word for a field of the unit file.
pub(super) fn word_of(path: &str) -> Option<&'static Word> {
    let mut plain = String::with_capacity(path.len());
    let mut is_inside = false;
    for c in path.chars() {
        match c {
            '[' => is_inside = true,
            ']' => is_inside = false,
            c if !is_inside => plain.push(c),
            _ => {}
        }
    }
    // Knives to compare have the same fields as the bench knife.
    let plain = plain.replacen("options.", "knife.", 1);
    WORDS.iter().find(|word| word.field == plain)
}

/// What a field of the unit file is called.
pub(super) fn name_of(path: &str) -> &str {
    word_of(path).map_or(path, |word| word.name)
}

const fn word(
    field: &'static str,
    name: &'static str,
    meaning: &'static str,
    measured: &'static str,
) -> Word {
    Word {
        field,
        name,
        meaning,
        measured,
    }
}

const WORDS: &[Word] = &[
    word("name", "Unit", "What the shop calls this cutting unit.", ""),
    word(
        "turf",
        "Turf",
        "Where the unit cuts. It picks the starting limits.",
        "",
    ),
    word(
        "reel.new_diameter",
        "Reel diameter, new",
        "Diameter of the circle of blade tips when the reel was new.",
        "From the parts list or the machine's manual.",
    ),
    word(
        "reel.smallest_diameter",
        "Scrap size",
        "The diameter below which the reel is to be replaced.",
        "From the machine's manual.",
    ),
    word(
        "reel.blades",
        "Blades",
        "Number of blades on the reel.",
        "Count them, reel blocked.",
    ),
    word(
        "bench.reel_diameter",
        "Reel diameter, on the bench",
        "Diameter of the circle of blade tips as it is now. Half of it is the reel radius, R.",
        "A tape of known thickness pulled once round the reel, or a caliper over two opposite blades; measure both ends and the middle, reel blocked, gloves on.",
    ),
    word(
        "bench.height_of_cut",
        "Height of cut, H",
        "From the surface plate up to the knife's edge.",
        "Unit standing on the plate on its rollers; a height gauge under the edge, or a gauge bar across the rollers.",
    ),
    word(
        "bench.attitude",
        "Attitude, α",
        "The knife datum against the plate: positive with the knife's back higher than its edge. The datum runs through the edge, parallel to the face that seats the knife on its bar.",
        "An angle gauge zeroed on the plate, then laid on the seat face or on a straightedge parallel to it.",
    ),
    word(
        "bench.behind_centre",
        "Behind centre, b",
        "How far the edge stands behind the vertical through the reel's centre. Negative when it stands ahead.",
        "Square from the plate up to the reel shaft's centre, mark the plate; square up to the edge, mark again; measure between the marks.",
    ),
    word(
        "bench.gap",
        "Gap, g",
        "Reel surface to edge along the line of centres. Nothing for light contact.",
        "A feeler gauge between a blade and the edge.",
    ),
    word(
        "bench.front_roller.diameter",
        "Front roller, diameter",
        "Outside diameter of the front roller where it stands on the plate.",
        "A caliper over the roller; over the lands of a grooved one.",
    ),
    word(
        "bench.front_roller.ahead",
        "Front roller, ahead",
        "How far the front roller's centre stands ahead of the edge, along the plate.",
        "Square both down to the plate and measure between the marks.",
    ),
    word(
        "bench.rear_roller.diameter",
        "Rear roller, diameter",
        "Outside diameter of the rear roller where it stands on the plate.",
        "A caliper over the roller.",
    ),
    word(
        "bench.rear_roller.behind",
        "Rear roller, behind",
        "How far the rear roller's centre stands behind the edge, along the plate.",
        "Square both down to the plate and measure between the marks.",
    ),
    word(
        "closing",
        "Closing the gap",
        "How reel and knife are brought together again after grinding or a change of knife: the reel slides along a line, swings on a pivot, or the knife's bar turns on a pivot.",
        "Watch which part moves when the adjuster is turned.",
    ),
    word(
        "closing.lean",
        "Lean of the slide",
        "Angle of the line on which the reel slides, from the vertical with the unit on the plate; positive leaning ahead at the top. Left out, it is the line from edge to reel centre.",
        "An angle gauge on the slide's guides.",
    ),
    word(
        "closing.ahead",
        "Pivot, ahead",
        "How far the pivot stands ahead of the edge's foot on the plate; negative behind it.",
        "Square the pivot's centre down to the plate and measure to the edge's mark.",
    ),
    word(
        "closing.above",
        "Pivot, above",
        "How high the pivot's centre stands above the plate.",
        "A height gauge at the pivot's centre.",
    ),
    word("knife.name", "Knife", "What the shop calls this knife.", ""),
    word(
        "knife.reach",
        "Reach",
        "From the line of the mounting screws to the edge, along the datum. A longer reach brings the edge further ahead.",
        "From the supplier's drawing, checked on arrival with a caliper.",
    ),
    word(
        "knife.width",
        "Width",
        "From the edge to the knife's back.",
        "A caliper.",
    ),
    word(
        "knife.lip_thickness",
        "Lip thickness",
        "Thickness of the knife's front lip, datum to underside, unground.",
        "A caliper or micrometer at the lip.",
    ),
    word(
        "knife.lip_length",
        "Lip length",
        "From the edge back to where the lip meets the body.",
        "A caliper's depth rod from the front face.",
    ),
    word(
        "knife.body_thickness",
        "Body thickness",
        "Thickness of the knife behind the lip, datum to underside.",
        "A caliper.",
    ),
    word(
        "knife.price",
        "Price",
        "What a supplier asks, as written. Kept, never reckoned with.",
        "",
    ),
    word(
        "knife.notes",
        "Notes",
        "Whatever else is worth knowing about the knife, as written.",
        "",
    ),
    word(
        "hardware.behind",
        "Hardware, behind",
        "A screw head or lug under the knife: how far behind the edge, along the datum.",
        "Measured on the bench with the bench knife fitted.",
    ),
    word(
        "hardware.below",
        "Hardware, below",
        "How far the same point hangs below the datum.",
        "A straightedge on the datum and a depth rod.",
    ),
    word(
        "setting.reel_diameter",
        "Reel diameter",
        "The reel as it is, or will be, after grinding.",
        "Double-click the slider to go back to the bench reading.",
    ),
    word(
        "setting.height_of_cut",
        "Height of cut",
        "The height wanted: both rollers are moved until the edge stands so high.",
        "",
    ),
    word(
        "setting.attitude",
        "Attitude",
        "The attitude wanted: the rollers are moved until the datum stands so. More attitude carries the edge further behind centre and the sweep deeper.",
        "Double-click the slider to go back to the bench reading.",
    ),
    word(
        "setting.extension",
        "Extension",
        "How much further ahead, along the datum, the edge stands than the fitted knife's reach gives: shims, slotted holes, another seat.",
        "Double-click the slider to go back to nothing.",
    ),
    word(
        "setting.knife",
        "Knife fitted",
        "The bench knife, or one of those to compare.",
        "Knives are described under Knife in the form.",
    ),
    word(
        "setting.gap",
        "Gap",
        "Reel surface to edge when set. Left out, the bench's.",
        "A feeler gauge.",
    ),
    word(
        "setting.top_ground",
        "Top ground",
        "Metal taken off the knife's top face: the edge moves down, square to the datum.",
        "Lip thickness before and after.",
    ),
    word(
        "setting.face_ground",
        "Face ground",
        "Metal taken off the knife's front face: the edge moves back, along the datum.",
        "Reach before and after.",
    ),
    word(
        "setting.rollers.front_move",
        "Front roller moved",
        "How far the front roller was moved in its bracket from its bench place: positive up towards the reel, negative down.",
        "A 1/8 in spacer that lowers the roller is -1/8.",
    ),
    word(
        "setting.rollers.rear_move",
        "Rear roller moved",
        "How far the rear roller was moved in its bracket from its bench place: positive up towards the reel, negative down.",
        "A 1/8 in spacer that lowers the roller is -1/8.",
    ),
    word(
        "mowing.ground_speed",
        "Ground speed",
        "Forward speed while mowing.",
        "Timed over a paced distance, or the machine's display.",
    ),
    word(
        "mowing.reel_speed",
        "Reel speed",
        "Turns of the reel a minute while mowing.",
        "A tachometer, by a qualified technician; guards on.",
    ),
    word(
        "ground.roller_sink",
        "Roller sink",
        "How deep the rollers sink into the turf. It takes as much off every clearance.",
        "Effective height of cut against bench height, with a prism or a gauge on the turf.",
    ),
    word(
        "ground.shape",
        "Ground's shape",
        "Level, a crest or a hollow, by its radius along the direction of travel.",
        "A straightedge across it and the gap under its middle.",
    ),
    word(
        "ground.straightedge.length",
        "Straightedge",
        "Length of the straightedge laid on the ground along the direction of travel.",
        "Longer shows the ground, shorter its bumps: about as long as the unit's rollers stand apart, or more.",
    ),
    word(
        "ground.straightedge.gap",
        "Gap under it",
        "The gap between straightedge and ground, square to the straightedge.",
        "A rule or a feeler gauge; press the grass down first.",
    ),
    word(
        "ground.straightedge.at",
        "Gap read at",
        "Where the gap was read. Both ends resting is a hollow, the middle resting or one end held down flat a crest.",
        "",
    ),
    word(
        "wear.front_runout",
        "Front roller runout",
        "Full reading of a dial gauge on the front roller over one turn. Its centre runs out of true by half of it.",
        "Unit blocked: turn the roller by hand under a dial gauge, at both ends and the middle; write the largest.",
    ),
    word(
        "wear.rear_runout",
        "Rear roller runout",
        "Full reading of a dial gauge on the rear roller over one turn. Its centre runs out of true by half of it.",
        "Unit blocked: turn the roller by hand under a dial gauge, at both ends and the middle; write the largest.",
    ),
    word(
        "wear.end_difference",
        "End to end difference",
        "How much higher one end of the unit cuts than the other. The low end stands half of it below the middle.",
        "On the plate: the height of cut at both ends, the smaller from the larger.",
    ),
    word(
        "limits.sweep_watch",
        "Sweep, watch",
        "Share of the height of cut above which the sweep wants watching.",
        "From your own trials.",
    ),
    word(
        "limits.sweep_over",
        "Sweep, over",
        "Share of the height of cut above which the sweep is too much.",
        "From your own trials.",
    ),
    word(
        "limits.underside",
        "Underside, least",
        "Least clearance wanted under knife and hardware.",
        "From your own trials.",
    ),
    word(
        "limits.ahead_of_centre",
        "Ahead of centre, most",
        "How far the edge may run ahead of centre before it is too much.",
        "From your own trials.",
    ),
    word(
        "limits.clip_watch",
        "Clip to cut, watch",
        "Clip length over height of cut above which it wants watching.",
        "From your own trials.",
    ),
    word(
        "limits.clip_over",
        "Clip to cut, over",
        "Clip length over height of cut above which it is too much.",
        "From your own trials.",
    ),
    word(
        "limits.attitude_range.low",
        "Attitude, least",
        "The least attitude that the roller brackets allow.",
        "Rollers at the ends of their brackets.",
    ),
    word(
        "limits.attitude_range.high",
        "Attitude, most",
        "The most attitude that the roller brackets allow.",
        "Rollers at the ends of their brackets.",
    ),
];
