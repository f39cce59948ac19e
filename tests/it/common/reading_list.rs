//! Readings of a unit on a list on paper.

/// What is asked for, in the order of the form, as somebody reads it off a list: where it is typed,
/// what is typed, and the field it is.
pub const READINGS: [(&str, &str, &str); 17] = [
    ("Reel, new", "5 in", "reel.new_diameter"),
    ("Reel, minimum (scrap)", "4.63 in", "reel.smallest_diameter"),
    ("Blades", "11", "reel.blades"),
    ("Reel diameter, as measured", "4.87", "bench.reel_diameter"),
    ("Height of cut, as measured", "0.14", "bench.height_of_cut"),
    ("Attitude, as measured", "2.5", "bench.attitude"),
    ("Behind centre, as measured", "0.16", "bench.behind_centre"),
    ("Gap, as measured", "1 thou", "bench.gap"),
    ("Front, diameter", "2.5", "bench.front_roller.diameter"),
    ("Front, ahead of edge", "3-3/8", "bench.front_roller.ahead"),
    ("Rear, diameter", "2", "bench.rear_roller.diameter"),
    ("Rear, behind edge", "2.75", "bench.rear_roller.behind"),
    ("Reach", "1.1", "knife.reach"),
    ("Lip thickness", "0.1", "knife.lip_thickness"),
    ("Lip length", "0.4", "knife.lip_length"),
    ("Body thickness", "0.2", "knife.body_thickness"),
    ("Width", "1.9", "knife.width"),
];
