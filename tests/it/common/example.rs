//! The unit files that more than one test begins with.

/// The example that the description of the unit file gives.
pub const EXAMPLE: &str = r#"(
    format: 1,
    name: "Example Ground, trailed gang, number 3",
    turf: Fairway,                       // Green, Tee, Fairway or Rough: picks the starting limits
    reel: (
        new_diameter: "7 in",
        smallest_diameter: "6.5 in",     // scrap size
        blades: 8,
    ),
    bench: (                             // measured with the unit standing on the plate
        reel_diameter: "6.9 in",
        height_of_cut: "0.5 in",
        attitude: "4 deg",
        behind_centre: "0.3 in",
        gap: "0 mm",
        front_roller: (diameter: "3 in", ahead: "5.5 in"),
        rear_roller: (diameter: "2.5 in", behind: "3.25 in"),
    ),
    closing: ReelSlides(lean: None),     // or ReelPivots(ahead: "-4 in", above: "6 in"), KnifePivots(ahead: "-1.5 in", above: "2 in")
    knife: (                             // the knife on the bench: others are measured against it
        name: "plain",
        reach: "1.5 in",                 // mounting-screw line to edge, along the datum
        width: "2.5 in",
        lip_thickness: "0.12 in",
        lip_length: "0.5 in",
        body_thickness: "0.25 in",
    ),
    hardware: [(behind: "1.5 in", below: "0.3 in")],
    options: [                           // knives to compare: same fields as `knife`, with an optional price text
        (name: "reaching", reach: "1.65 in", width: "2.65 in", lip_thickness: "0.12 in", lip_length: "0.5 in", body_thickness: "0.25 in"),
    ],
    setting: (                           // what is being tried; each left out means "as on the bench"
        reel_diameter: None, height_of_cut: None, attitude: None, gap: None,
        knife: None,                     // Some("name of an option")
        extension: None, top_ground: None, face_ground: None,
        rollers: None,                   // Some((front_move: "0 mm", rear_move: "-1/8 in")): attitude and height of cut then follow, and must not be given as well
    ),
    mowing: Some((ground_speed: "4 mph", reel_speed: "900 rpm")),
    ground: (roller_sink: "0 mm", shape: Level),   // or Crest("6 m"), Hollow("6 m")
    limits: None,                        // Some((sweep_watch: "5 %", sweep_over: "10 %", underside: "0.5 mm", ...)) overrides the turf's starting limits
)
"#;

/// The example with some of its text replaced; each must stand there once.
pub fn example(edits: &[(&str, &str)]) -> String {
    edits.iter().fold(EXAMPLE.to_owned(), |text, (from, to)| {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text.replace(from, to)
    })
}

/// The same with its rear roller further back: where it stands in the example, the knife does.
pub fn clear_example(edits: &[(&str, &str)]) -> String {
    let further = ("behind: \"3.25 in\"", "behind: \"4 in\"");
    example(&[&[further], edits].concat())
}
