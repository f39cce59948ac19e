//! What each field is called, what it means, and how it is measured on the bench.

use super::{Field, KnifePart, KnifeText, Reading};

/// A field in words of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Words {
    /// Its name where it stands by itself.
    pub name: &'static str,
    /// What it means, with its sign.
    pub meaning: &'static str,
    /// How it is measured, or where it comes from; empty where there is no more to say.
    pub measured: &'static str,
}

const fn words(name: &'static str, meaning: &'static str, measured: &'static str) -> Words {
    Words {
        name,
        meaning,
        measured,
    }
}

#[expect(clippy::too_many_lines, reason = "one list, an entry a field")]
impl Field {
    /// What it is called, what it means and how it is measured.
    #[must_use]
    pub const fn words(self) -> Words {
        match self {
            Self::Name => words("Unit", "What the shop calls this cutting unit.", ""),
            Self::Serial => words("Serial number", "Serial or fleet number, as written.", ""),
            Self::Set => words(
                "Set",
                "The set of units it mows beside, as written. Units of one set must agree, or a step shows between them.",
                "",
            ),
            Self::Date => words(
                "Date measured",
                "The day the unit was measured, as written: 2026-11-26.",
                "",
            ),
            Self::Notes => words(
                "Notes",
                "Whatever else is worth knowing about the unit, as written.",
                "",
            ),
            Self::Turf => words(
                "Turf",
                "Where the unit cuts. It picks the starting limits.",
                "",
            ),
            Self::NewDiameter => words(
                "Reel diameter, new",
                "Diameter over the blade tips when the reel was new.",
                "From the parts list or the machine's manual.",
            ),
            Self::SmallestDiameter => words(
                "Minimum diameter (scrap)",
                "The diameter below which the reel must be replaced.",
                "From the machine's manual.",
            ),
            Self::Blades => words(
                "Blades",
                "Number of blades on the reel.",
                "Count them: engine off, key out, reel blocked.",
            ),
            Self::Closing => words(
                "Reel-to-knife adjustment",
                "What brings reel and knife together again after grinding or a change of knife: the reel slides along a line or swings on a pivot, or the bed bar turns on a pivot or slides. Where the knife moves, the height of cut moves with it.",
                "Watch which part moves while you turn the adjuster: engine off, key out, reel drive disconnected, reel blocked, gloves on.",
            ),
            Self::KnifeText(_, text) => text.words(),
            Self::HardwareOn(_) => words(
                "Hardware, on",
                "What the point sits on: the bed bar, or the knife, where it moves with the thickness of the knife fitted.",
                "A screw head under the knife sits on the knife; a lug of the bed bar stays whatever knife is fitted.",
            ),
            Self::Reading(reading) => reading.words(),
            Self::WantedReelDiameter => words(
                "Reel diameter",
                "The reel as it is, or will be, after grinding.",
                "Double-click the slider to go back to as measured.",
            ),
            Self::WantedHeightOfCut => words(
                "Height of cut",
                "The height you want: both rollers move until the edge stands at this height.",
                "",
            ),
            Self::WantedAttitude => words(
                "Attitude",
                "The attitude you want: the rollers move until the knife stands at this angle. More attitude takes the edge further behind centre and the sweep deeper.",
                "Double-click the slider to go back to as measured.",
            ),
            Self::Extension => words(
                "Edge forward",
                "How much further ahead, along the datum, the edge is set than the fitted knife's reach gives: shims, slotted holes. Only what the machine's manual allows.",
                "Double-click the slider to go back to zero.",
            ),
            Self::FittedKnife => words(
                "Knife fitted",
                "The knife that was on when you measured, or one of those to compare.",
                "Knives are described under Knife in the form.",
            ),
            Self::WantedGap => words(
                "Gap",
                "Reel to edge once adjusted. Left out, as measured.",
                "A feeler gauge, engine off, key out, reel blocked, gloves on.",
            ),
            Self::TopGround => words(
                "Metal off top face",
                "Metal off the fitted knife's top face, square to it: the edge moves down. Left out, the knife's own.",
                "Lip thickness before and after, knife off the machine, gloves on. At the grinder: guards on, eye, hearing and dust protection, gloves only as the grinder's manual says.",
            ),
            Self::FaceGround => words(
                "Metal off front face",
                "Metal off the fitted knife's front face, square to it: the edge moves back. Left out, the knife's own.",
                "Reach before and after, knife off the machine, gloves on. At the grinder: guards on, eye, hearing and dust protection, gloves only as the grinder's manual says.",
            ),
            Self::FrontMove => words(
                "Front roller moved",
                "How far the front roller was moved in its bracket from where it was measured: positive up towards the reel, negative down. Left out, it follows from the height of cut.",
                "A 1/8 in spacer that lowers the roller is -1/8. Only spacers that the machine's manual allows.",
            ),
            Self::RearMove => words(
                "Rear roller moved",
                "How far the rear roller was moved in its bracket from where it was measured: positive up towards the reel, negative down. Left out, it follows from the height of cut.",
                "A 1/8 in spacer that lowers the roller is -1/8. Only spacers that the machine's manual allows.",
            ),
            Self::GroundShape => words(
                "Ground's shape",
                "Level, a crest or a hollow, by its radius along the direction of travel. Level says that somebody looked.",
                "A straightedge along it and the gap under its middle.",
            ),
            Self::StraightedgeLength => words(
                "Straightedge",
                "Length of the straightedge laid on the ground along the direction of travel.",
                "Longer shows the ground, shorter its bumps: about as long as the unit's rollers stand apart, or more.",
            ),
            Self::StraightedgeGap => words(
                "Gap under it",
                "The gap between straightedge and ground, square to the straightedge.",
                "A rule or a feeler gauge; press the grass down first.",
            ),
            Self::StraightedgeAt => words(
                "Gap read at",
                "Where the gap was read. Both ends resting is a hollow, the middle resting or one end held down flat a crest.",
                "",
            ),
            Self::FrontPitch => words(
                "Front adjuster, a turn",
                "How far one turn of the front adjuster moves the front roller in its bracket. Once entered, roller moves are shown in turns as well.",
                "Ten turns, and the roller's height before and after: engine off, key out, reel drive disconnected, unit and reel blocked, gloves on.",
            ),
            Self::RearPitch => words(
                "Rear adjuster, a turn",
                "How far one turn of the rear adjuster moves the rear roller in its bracket. Once entered, roller moves are shown in turns as well.",
                "Ten turns, and the roller's height before and after: engine off, key out, reel drive disconnected, unit and reel blocked, gloves on.",
            ),
            Self::Spacers => words(
                "Spacers in stock",
                "Sizes of the spacers in stock, with semicolons between them: 1/32 in; 1/16 in; 1/8 in. Once entered, roller moves are shown in spacers as well, with what is left over.",
                "A caliper; only spacers that the machine's manual allows.",
            ),
            Self::AGrind => words(
                "Off the top face, a grind",
                "What one grind takes off a knife's top face, square to it. With it the table of knives shows how many grinds are left.",
                "Lip thickness before and after a few grinds; knife off the machine, gloves on. At the grinder: guards on, eye, hearing and dust protection, gloves only as the grinder's manual says.",
            ),
            Self::LeastLip => words(
                "Lip thickness, least",
                "The least thickness of lip that a grind may leave; half of what the lip was made with when left out.",
                "From the machine's manual.",
            ),
            Self::SweepWatch => words(
                "Sweep, watch",
                "Sweep as % of height of cut above which it should be watched.",
                "From your own trials.",
            ),
            Self::SweepOver => words(
                "Sweep, over limit",
                "Sweep as % of height of cut above which it is too much.",
                "From your own trials.",
            ),
            Self::GapWatch => words(
                "Gap, watch",
                "Gap above which reel and knife should be adjusted.",
                "From your own trials.",
            ),
            Self::GapOver => words(
                "Gap, over limit",
                "Gap above which reel and knife no longer cut.",
                "From your own trials.",
            ),
            Self::LeastUnderside => words(
                "Underside, minimum",
                "Minimum clearance under knife and hardware.",
                "From your own trials.",
            ),
            Self::MostAheadOfCentre => words(
                "Ahead of centre, maximum",
                "How far the edge may run ahead of centre before it is too much.",
                "From your own trials.",
            ),
            Self::LeastBehindCentre => words(
                "Behind centre, minimum",
                "The least that the edge must stand behind centre. Left out, it may stand on centre.",
                "From a unit that cuts well, at the same reel diameter.",
            ),
            Self::ClipLeast => words(
                "Clip ÷ height of cut, minimum",
                "Clip length ÷ height of cut below which it should be watched: the reel turns faster than the cut needs, which takes power and wears edges for no benefit.",
                "From your own trials.",
            ),
            Self::ClipWatch => words(
                "Clip ÷ height of cut, watch",
                "Clip length ÷ height of cut above which it should be watched.",
                "From your own trials.",
            ),
            Self::ClipOver => words(
                "Clip ÷ height of cut, over limit",
                "Clip length ÷ height of cut above which it is too much.",
                "From your own trials.",
            ),
            Self::LeastAttitude => words(
                "Attitude, minimum",
                "The least attitude that the roller brackets allow.",
                "Rollers at the ends of their brackets: engine off, key out, unit and reel blocked.",
            ),
            Self::MostAttitude => words(
                "Attitude, maximum",
                "The most attitude that the roller brackets allow.",
                "Rollers at the ends of their brackets: engine off, key out, unit and reel blocked.",
            ),
            Self::LeastRoom => words(
                "Room, minimum",
                "The narrowest range of attitude that a knife must leave, set once for the whole life of the reel, to pass.",
                "How closely you can set the attitude, and hold it.",
            ),
        }
    }

    /// What it is called where it stands by itself.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.words().name
    }
}

#[expect(clippy::too_many_lines, reason = "one list, an entry a reading")]
impl Reading {
    const fn words(self) -> Words {
        match self {
            Self::ReelDiameter => words(
                "Reel diameter, as measured",
                "Diameter over the blade tips as it is now. Half of it is the reel radius, R.",
                "Engine off, key out, reel blocked, gloves on: two straight bars along the reel, a caliper over the tips, or a tape once round; caliper and tape read short on most reels, so take \"Reel from…\". Both ends and the middle.",
            ),
            Self::HeightOfCut => words(
                "Height of cut, H",
                "From the surface plate up to the knife's edge.",
                "Unit on the plate on its rollers, engine off, key out, reel blocked, gloves on: a height gauge under the edge, or a gauge bar across the rollers.",
            ),
            Self::Attitude => words(
                "Attitude, α",
                "The knife datum against the plate: positive with the knife's back higher than its edge. The datum runs through the edge, parallel to the face that seats the knife on its bar.",
                "Engine off, key out, reel blocked, gloves on: an angle gauge zeroed on the plate, then laid on the seat face or on a straightedge parallel to it.",
            ),
            Self::BehindCentre => words(
                "Behind centre, b",
                "How far the edge stands behind the vertical through the reel's centre. Negative when it stands ahead.",
                "Engine off, key out, reel blocked, gloves on: square up from the plate to the reel shaft's centre and scribe the plate; square up to the edge and scribe again; measure between the lines.",
            ),
            Self::Gap => words(
                "Gap, g",
                "Reel to edge along the line from reel centre to edge. Zero for light contact.",
                "A feeler gauge between a blade and the edge: engine off, key out, reel blocked, gloves on.",
            ),
            Self::FrontDiameter => words(
                "Front roller, diameter",
                "Outside diameter of the front roller where it stands on the plate.",
                "A caliper over the roller; over the lands of a grooved one. Engine off, key out, reel blocked, gloves on.",
            ),
            Self::FrontAhead => words(
                "Front roller, ahead",
                "How far the front roller's centre stands ahead of the edge, along the plate.",
                "Engine off, key out, reel blocked, gloves on: with a square, mark edge and front roller's centre on the plate, and measure between the marks.",
            ),
            Self::RearDiameter => words(
                "Rear roller, diameter",
                "Outside diameter of the rear roller where it stands on the plate.",
                "A caliper over the roller. Engine off, key out, reel blocked, gloves on.",
            ),
            Self::RearBehind => words(
                "Rear roller, behind",
                "How far the rear roller's centre stands behind the edge, along the plate.",
                "Engine off, key out, reel blocked, gloves on: with a square, mark edge and rear roller's centre on the plate, and measure between the marks.",
            ),
            Self::Lean => words(
                "Lean of the slide",
                "Angle of the line on which the reel slides, from the vertical with the unit on the plate; positive leaning ahead at the top. Left out, it is the line from edge to reel centre.",
                "An angle gauge on the slide's guides; or two places of the reel as its adjuster backs it off, under Reel-to-knife adjustment: engine off, key out, reel drive disconnected, reel blocked, gloves on.",
            ),
            Self::PivotAhead => words(
                "Pivot, ahead",
                "How far the pivot stands ahead of the edge's foot on the plate; negative behind it.",
                "Engine off, key out, reel blocked, gloves on: square the pivot's centre down to the plate and measure to the edge's line.",
            ),
            Self::PivotAbove => words(
                "Pivot, above",
                "How high the pivot's centre stands above the plate.",
                "A height gauge at the pivot's centre. Engine off, key out, reel blocked, gloves on.",
            ),
            Self::Knife(_, part) => part.words(),
            Self::HardwareBehind(_) => words(
                "Hardware, behind",
                "A screw head or lug under the knife: how far behind the edge, along the datum.",
                "With the same knife fitted as when you measured: engine off, key out, reel blocked, gloves on, unit tipped only when blocked and supported.",
            ),
            Self::HardwareBelow(_) => words(
                "Hardware, below",
                "How far the same point hangs below the datum; for a point on the knife, below the knife's body.",
                "A straightedge on the datum, or on the body's underside, and a depth rod: engine off, key out, reel blocked, gloves on, unit tipped only when blocked and supported.",
            ),
            Self::GroundSpeed => words(
                "Ground speed",
                "Forward speed while mowing.",
                "The machine's manual or display.",
            ),
            Self::ReelSpeed => words(
                "Reel speed",
                "Turns of the reel a minute while mowing.",
                "The machine's manual; or a non-contact tachometer, by a qualified technician, guards on.",
            ),
            Self::RollerSink => words(
                "Roller sink",
                "How deep the rollers sink into the turf. Every clearance is that much less.",
                "Effective height of cut against the height on the plate, with a prism or a gauge on the turf; engine off, key out, reel blocked.",
            ),
            Self::FrontSink => words(
                "Front roller sink",
                "How deep the front roller sinks into the turf; left out, as deep as both. A grooved roller's narrow lands sink deeper than a smooth one.",
                "Unit standing on the turf, engine off, key out, reel blocked: a straightedge from the turf ahead to the turf behind the roller, and the gap down to its lowest lands.",
            ),
            Self::RearSink => words(
                "Rear roller sink",
                "How deep the rear roller sinks into the turf; left out, as deep as both. More weight on it sinks it deeper.",
                "Unit standing on the turf, engine off, key out, reel blocked: a straightedge from the turf ahead to the turf behind the roller, and the gap down to its lowest line.",
            ),
            // It has no name but that of the shape that it belongs to.
            Self::GroundRadius => words(
                "Radius of crest or hollow",
                "Radius of the ground's rise or dip under the rollers, along the direction of travel.",
                "A straightedge along it and the gap under its middle.",
            ),
            Self::FrontRunout => words(
                "Front roller runout",
                "Full reading of a dial gauge on the front roller over one turn. Its centre runs out of true by half of it.",
                "Engine off, key out, unit and reel blocked, reel drive disconnected, gloves on: turn the roller by hand under a dial gauge, at both ends and the middle; enter the largest.",
            ),
            Self::RearRunout => words(
                "Rear roller runout",
                "Full reading of a dial gauge on the rear roller over one turn. Its centre runs out of true by half of it.",
                "Engine off, key out, unit and reel blocked, reel drive disconnected, gloves on: turn the roller by hand under a dial gauge, at both ends and the middle; enter the largest.",
            ),
            Self::EndDifference => words(
                "Difference side to side",
                "How much higher one end of the unit cuts than the other. The low side stands half of it below the middle.",
                "On the plate, engine off, key out, reel blocked, gloves on: the height of cut at both ends, the smaller taken from the larger.",
            ),
        }
    }
}

impl KnifePart {
    const fn words(self) -> Words {
        match self {
            Self::Reach => words(
                "Reach",
                "From the line of the mounting screws to the edge, along the datum. A longer reach brings the edge further ahead.",
                "From the supplier's drawing, checked on arrival with a caliper, gloves on.",
            ),
            Self::Width => words(
                "Width",
                "From the edge to the knife's back.",
                "Knife off the machine, gloves on: a caliper.",
            ),
            Self::LipThickness => words(
                "Lip thickness",
                "Thickness of the knife's front lip, datum to underside, unground.",
                "Knife off the machine, gloves on: a caliper or micrometer at the lip.",
            ),
            Self::LipLength => words(
                "Lip length",
                "From the edge back to where the lip meets the body.",
                "Knife off the machine, gloves on: a caliper's depth rod from the front face.",
            ),
            Self::BodyThickness => words(
                "Body thickness",
                "Thickness of the knife behind the lip, datum to underside.",
                "Knife off the machine, gloves on: a caliper.",
            ),
            Self::TopAngle => words(
                "Top angle",
                "How far the top face falls below the datum, going back from the edge: the relief that a grinder puts on it. With too little the face behind the edge stands inside the reel.",
                "Knife off the machine, gloves on: an angle gauge zeroed on the seat face, then laid on the top face; or as the grinder was set.",
            ),
            Self::FrontAngle => words(
                "Front angle",
                "How far the front face leans back, going down from the edge.",
                "Knife off the machine, gloves on: an angle gauge against a square to the seat face; or as the grinder was set.",
            ),
            Self::TopGround => words(
                "Metal off top face, own",
                "Metal off this knife's top face since its section was measured, square to the face.",
                "Lip thickness before and after, knife off the machine, gloves on; none for a new knife. At the grinder: guards on, eye, hearing and dust protection, gloves only as the grinder's manual says.",
            ),
            Self::FaceGround => words(
                "Metal off front face, own",
                "Metal off this knife's front face since its section was measured, square to the face.",
                "Reach before and after, knife off the machine, gloves on; none for a new knife. At the grinder: guards on, eye, hearing and dust protection, gloves only as the grinder's manual says.",
            ),
        }
    }
}

impl KnifeText {
    const fn words(self) -> Words {
        match self {
            Self::Name => words("Knife", "What the shop calls this knife.", ""),
            Self::Price => words(
                "Price",
                "Price for one, as written. The total is worked out with its first number.",
                "",
            ),
            Self::Quantity => words(
                "Quantity",
                "How many of this knife to order; 1 when left out.",
                "",
            ),
            Self::Notes => words(
                "Notes",
                "Whatever else is worth knowing about the knife, as written.",
                "",
            ),
        }
    }
}
