//! The side view of a unit: everything that stands on the plate, drawn where the solution puts it.

use self::side_plate::{middle_of_tangent, outline_over};

use kurbo::{Affine, BezPath, Circle, Line, Point, Rect, Shape as _, Vec2};

use super::hold::Hold;
use crate::drawing::scene::{EXACT_MM, Label, Role, Scene, Shape, ShownIn, polyline};

mod band;
mod bed_bar;
mod closing;
mod crest;
mod dimensions;
mod knife;
mod lip;
mod overlay;
mod reel;
mod side_plate;
mod subject;
mod sweep;
mod worst;

use crate::analysis::{Case, Findings, Level, NumberId, Solution, Solved, Uncertainty};
use crate::geometry::{RollerOnPlate, Terrain};
use crate::unit::ExampleCount;
use crate::units::{Length, System};
pub(super) use knife::knife_outline;
pub(in crate::drawing) use lip::AtLip;
pub(super) use reel::blade_section;

pub use overlay::Overlay;
pub use subject::Subject;
pub use worst::WorstPlace;

/// How thick plate and soil are drawn.
pub(in crate::drawing) const GROUND_DEPTH_MM: f64 = 9.0;
/// The same in each view: a lens shows ground as far down as it looks.
const DEEP: [(ShownIn, f64); 2] = [
    (ShownIn::Whole, GROUND_DEPTH_MM),
    (ShownIn::Lens, 20.0 * GROUND_DEPTH_MM),
];

/// What the unit is drawn standing on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Standing {
    /// The surface plate.
    #[default]
    Plate,
    /// Turf, with the ground's shape and the rollers' sink.
    Turf,
    /// A crest: the one entered, or else the tightest that the whole unit crosses.
    Crest,
}

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct SideView<'a> {
    /// The unit, its setting and its solution.
    pub case: Case<'a>,
    /// What was found about it.
    pub findings: &'a Findings,
    /// How many of its readings are still examples.
    pub examples: ExampleCount,
    /// How far its numbers can be off, for ± and bands; none are drawn where none is given.
    pub uncertainty: Option<&'a Uncertainty>,
    /// The bench pose for a ghost behind it.
    pub ghost: Option<Case<'a>>,
    /// Other knives drawn over it.
    pub overlays: &'a [Overlay<'a>],
    /// What stays where it is with other knives drawn over it.
    pub hold: Hold,
    /// What it stands on.
    pub standing: Standing,
    /// What it is about.
    pub subject: Subject,
    /// The units of the words.
    pub system: System,
}

/// Places to take hold of, on the plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Handles {
    /// On the reel's rim: its diameter.
    pub reel_rim: Point,
    /// At the knife's edge: the extension.
    pub knife_edge: Point,
    /// At the unit's back: the attitude.
    pub unit_back: Point,
}

impl Handles {
    /// Where they are on a solved unit.
    #[must_use]
    pub fn of(solution: &Solution) -> Self {
        let pose = &solution.pose;
        let rear = &pose.rear_roller;
        // On the frame, behind the rear roller's place on the bench: it turns with the unit, where
        // the roller itself is set to rest on the plate.
        let frame_turned = |way: Vec2| {
            pose.plate_from_frame * way.to_point() - pose.plate_from_frame * Point::ORIGIN
        };
        let bench_place = rear.centre - frame_turned(Vec2::new(0.0, rear.moved.mm()));
        let behind = frame_turned(Vec2::from_angle(2.4) * (rear.radius_mm * 1.25));
        Self {
            reel_rim: pose.centre_on_plate + Vec2::from_angle(0.7) * pose.reel_radius_mm,
            knife_edge: pose.edge_on_plate,
            unit_back: bench_place + behind,
        }
    }
}

impl<'a> SideView<'a> {
    /// A solved unit on the plate with its ± and the bench pose behind it, in the units that it was
    /// measured in.
    #[must_use]
    pub fn of(solved: &'a Solved) -> Self {
        Self {
            case: solved.case(),
            findings: &solved.findings,
            examples: solved.document.example_count(),
            uncertainty: Some(&solved.uncertainty),
            ghost: solved.ghost(),
            overlays: &[],
            hold: Hold::default(),
            standing: Standing::default(),
            subject: Subject::default(),
            system: solved.unit.system,
        }
    }
}

impl SideView<'_> {
    /// Builds the scene.
    #[must_use]
    pub fn scene(&self) -> Scene {
        let solution = self.case.solution;
        let mut scene = Scene {
            items: Vec::with_capacity(64),
            bounds: self.bounds(),
        };
        let reach = (
            scene.bounds.x0 - scene.bounds.width(),
            scene.bounds.x1 + scene.bounds.width(),
        );
        self.ground(&mut scene, reach);
        self.side_plate(&mut scene);
        if let Some(ghost) = &self.ghost {
            ghost_of(&mut scene, ghost);
        }
        for (roller, name) in [
            (&solution.pose.front_roller, "front roller"),
            (&solution.pose.rear_roller, "rear roller"),
        ] {
            draw_roller(&mut scene, roller, name);
            let diameter = Length::from_mm(2.0 * roller.radius_mm);
            self.diameter(&mut scene, roller.centre, diameter);
        }
        self.closing(&mut scene);
        self.reel(&mut scene);
        self.below_cut(&mut scene);
        self.band(&mut scene);
        self.bed_bar(&mut scene);
        self.knife(&mut scene);
        self.hardware(&mut scene);
        self.worst(&mut scene);
        self.lines(&mut scene, reach);
        self.overlays(&mut scene);
        self.dimensions_and_words(&mut scene);
        self.over_crest(&mut scene);
        scene
    }

    fn length(&self, length: Length) -> String {
        self.system.length(length)
    }

    /// A round part's diameter.
    fn diameter(&self, scene: &mut Scene, centre: Point, diameter: Length) {
        let shape = Shape::Diameter {
            centre,
            radius_mm: diameter.mm() / 2.0,
            text: format!("Ø {}", self.length(diameter)),
        };
        scene.add_in(ShownIn::Whole, Role::Dimension, shape);
    }

    /// ± so much, in the reader's units; none where the readings carry no ±.
    fn off(&self, output: NumberId) -> Option<Length> {
        let off_mm = self.uncertainty?.expanded(output);
        (off_mm > 0.0).then(|| Length::from_mm(off_mm))
    }

    /// What is told beside a number of how sure it is: empty where it is as set.
    pub(in crate::drawing) fn off_beside(&self, number: NumberId) -> String {
        let value = self.case.solution.numbers().value(number);
        value
            .zip(self.uncertainty)
            .map_or_else(String::new, |(value, uncertainty)| {
                uncertainty.told_beside(number, value, self.system)
            })
    }

    fn sweep_level(&self) -> Level {
        self.findings.drawn_sweep(self.examples)
    }

    /// What moves as the unit is set: reel, rollers and edge, each with the place it takes.
    #[must_use]
    pub fn parts(&self) -> [Rect; 4] {
        let pose = &self.case.solution.pose;
        let circle = |centre, radius| Circle::new(centre, radius).bounding_box();
        let roller = |roller: &RollerOnPlate| circle(roller.centre, roller.radius_mm);
        [
            circle(pose.centre_on_plate, pose.reel_radius_mm),
            roller(&pose.front_roller),
            roller(&pose.rear_roller),
            circle(pose.edge_on_plate, 0.0),
        ]
    }

    /// How high the ground stands under the edge, on the drawing.
    #[must_use]
    pub fn ground_under_edge_mm(&self) -> f64 {
        self.cut().ground.y
    }

    /// What the parts take, as set and as measured.
    pub(in crate::drawing) fn extent(&self) -> Rect {
        let of = |solution: &Solution| {
            let pose = &solution.pose;
            let circle = |centre, radius| Circle::new(centre, radius).bounding_box();
            circle(pose.centre_on_plate, pose.reel_radius_mm)
                .union(circle(
                    pose.front_roller.centre,
                    pose.front_roller.radius_mm,
                ))
                .union(circle(pose.rear_roller.centre, pose.rear_roller.radius_mm))
                .union_pt(pose.edge_on_plate)
        };
        let all = of(self.case.solution);
        let all = self.pivot().map_or(all, |pivot| all.union_pt(pivot));
        self.ghost
            .map_or(all, |ghost| all.union(of(ghost.solution)))
    }

    /// What a view of the whole must hold.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let all = self.extent();
        // Room for the dimensions: across below the plate, upwards ahead of the front roller.
        Rect::new(
            all.x0 - 0.025 * all.width(),
            all.y0.min(0.0) - 0.16 * all.height(),
            all.x1 + 0.06 * all.width(),
            all.y1 + 0.025 * all.height(),
        )
    }

    fn ground(&self, scene: &mut Scene, (from, to): (f64, f64)) {
        match self.standing {
            Standing::Plate => {
                for (shown_in, deep_mm) in DEEP {
                    let plate = Rect::new(from, -deep_mm, to, 0.0).to_path(EXACT_MM);
                    scene.add_in(shown_in, Role::Plate, Shape::Hatch(plate));
                }
                scene.add(Role::Plate, Shape::Line(line((from, 0.0), (to, 0.0))));
            }
            Standing::Turf | Standing::Crest => {
                let terrain = self.stand().terrain;
                let surface = surface(&terrain, from, to);
                if surface.len() > 1 {
                    self.turf(scene, &terrain, &surface);
                    // As thick everywhere: what is dimensioned below stands on plain paper.
                    for (shown_in, deep_mm) in DEEP {
                        let mut soil = polyline(surface.iter().copied());
                        let foot = surface.iter().rev();
                        foot.for_each(|place| soil.line_to((place.x, place.y - deep_mm)));
                        soil.close_path();
                        scene.add_in(shown_in, Role::Soil, Shape::Hatch(soil));
                    }
                    scene.add(Role::Soil, Shape::Line(polyline(surface)));
                }
            }
        }
    }

    /// Grass: as tall as the cut behind the edge, half as tall again ahead of it (drawn, not known).
    fn turf(&self, scene: &mut Scene, terrain: &Terrain, surface: &[Point]) {
        let cut_mm = terrain
            .clearance(self.case.solution.pose.edge_on_plate)
            .mm();
        if cut_mm <= 0.0 {
            return;
        }
        let height = |x: f64| if x <= 0.0 { cut_mm } else { 1.5 * cut_mm };
        let mut canopy = polyline(surface.iter().copied());
        let tops = surface
            .iter()
            .rev()
            .map(|p| Point::new(p.x, p.y + height(p.x)));
        tops.for_each(|top| canopy.line_to(top));
        canopy.close_path();
        scene.add(Role::Turf, Shape::Fill(canopy));
        let mut blades = BezPath::new();
        let wide = surface[surface.len() - 1].x - surface[0].x;
        // No more blades than can be seen, however long the unit.
        let spacing = (cut_mm / 4.0).clamp(0.8, 4.0).max(wide / 2000.0);
        let (first, last) = (surface[0], surface[surface.len() - 1]);
        let mut x = first.x;
        let mut number = 0.0_f64;
        while x < last.x {
            if let Some(y) = terrain.surface_mm(x) {
                // Uneven as grass is, and the same at every redraw.
                let lean = (12.9898 * number).sin();
                blades.move_to((x, y));
                blades.line_to((
                    x + 0.2 * lean * cut_mm,
                    y + height(x) * (1.0 - 0.12 * lean.abs()),
                ));
            }
            number += 1.0;
            x += spacing;
        }
        scene.add(Role::Turf, Shape::Line(blades));
    }

    fn lines(&self, scene: &mut Scene, (from, to): (f64, f64)) {
        let solution = self.case.solution;
        let pose = &solution.pose;
        // What the knife leaves: as level, tilted or curved as the ground.
        let cut = self.reel_below_cut().cut;
        let cut_line = if self.standing == Standing::Plate {
            line((from, pose.edge_on_plate.y), (to, pose.edge_on_plate.y))
        } else {
            polyline(surface(&cut, from, to))
        };
        scene.add(Role::CutLine, Shape::Line(cut_line));
        let centre = pose.centre_on_plate;
        self.vertical(scene, -GROUND_DEPTH_MM);
        // The line of centres: from the reel's centre through the clip point to the edge.
        scene.add(
            Role::Dimension,
            Shape::Line(line(centre, pose.edge_on_plate)),
        );
        let back = datum_back(solution);
        let width = self.case.setting.knife.width.mm();
        let datum = line(
            pose.edge_on_plate,
            pose.edge_on_plate + back * (1.5 * width),
        );
        scene.add_in(ShownIn::Whole, Role::Datum, Shape::Line(datum));
        let clip = pose.clip_point_on_plate();
        scene.add(Role::Clip, Shape::Ring(clip));
    }

    /// The side plate about reel, rollers, bar and pivot.
    fn side_plate(&self, scene: &mut Scene) {
        let pose = &self.case.solution.pose;
        let radius = pose.reel_radius_mm;
        let about_roller =
            |roller: &RollerOnPlate| Circle::new(roller.centre, 0.4 * roller.radius_mm);
        let hub = Circle::new(pose.centre_on_plate, 0.3 * radius);
        let front = about_roller(&pose.front_roller);
        let mut carried = vec![hub, front, about_roller(&pose.rear_roller)];
        carried.extend(self.pivot().map(|pivot| Circle::new(pivot, 0.12 * radius)));
        // It seats the bed bar, and ends above the knife.
        let knife = self.case.setting.knife;
        let seat = self.screw_on_bar().max(knife.width.mm());
        let seat = plate_from_bar(self.case.solution) * Point::new(seat, -0.02 * radius);
        let over_edge = pose.edge_on_plate + Vec2::new(0.0, 0.08 * radius);
        let outline = outline_over(&carried, [seat, over_edge]);
        scene.add_in(ShownIn::Whole, Role::Frame, Shape::Fill(outline.clone()));
        scene.add_in(ShownIn::Whole, Role::Hint, Shape::Line(outline));
        let on_edge = middle_of_tangent(front, hub);
        let word = label(on_edge, (30.0, -26.0), true, "side plate".to_owned());
        scene.add_in(ShownIn::Whole, Role::Hint, word);
    }
}

fn label(at: Point, offset: (f64, f64), has_leader: bool, text: String) -> Shape {
    Shape::Label(Label {
        at,
        offset: offset.into(),
        has_leader,
        larger: 1.0,
        text,
        shorter: Vec::new(),
    })
}

/// Words beside a place in the longest of several forms that has room.
fn label_or(
    at: Point,
    offset: (f64, f64),
    has_leader: bool,
    forms: impl IntoIterator<Item = String>,
) -> Shape {
    let mut forms = forms.into_iter();
    Shape::Label(Label {
        at,
        offset: offset.into(),
        has_leader,
        larger: 1.0,
        text: forms.next().unwrap_or_default(),
        shorter: forms.collect(),
    })
}

fn line(from: impl Into<Point>, to: impl Into<Point>) -> BezPath {
    Line::new(from, to).to_path(EXACT_MM)
}

/// The ground's surface in steps so short that a crest of a few metres reads as a curve; a place
/// under the edge is one of them, so that the canopy steps there.
fn surface(terrain: &Terrain, from: f64, to: f64) -> Vec<Point> {
    const STEPS: i32 = 160;
    let steps = (0..=STEPS).map(|step| from + (to - from) * f64::from(step) / f64::from(STEPS));
    let mut places: Vec<f64> = steps.chain([0.0, 1e-6]).collect();
    places.sort_by(f64::total_cmp);
    places
        .into_iter()
        .filter_map(|x| Some(Point::new(x, terrain.surface_mm(x)?)))
        .collect()
}

fn plate_from_bar(solution: &Solution) -> Affine {
    solution.pose.plate_from_bar()
}

/// The datum's direction to the back, on the plate.
fn datum_back(solution: &Solution) -> Vec2 {
    let plate_from_bar = plate_from_bar(solution);
    plate_from_bar * Point::new(1.0, 0.0) - plate_from_bar * Point::ORIGIN
}

fn draw_roller(scene: &mut Scene, roller: &RollerOnPlate, name: &str) {
    let circle = |part: f64| Circle::new(roller.centre, roller.radius_mm * part).to_path(EXACT_MM);
    scene.add(Role::Roller, Shape::Fill(circle(1.0)));
    scene.add(Role::Roller, Shape::Line(circle(1.0)));
    // What it turns on, no file says.
    scene.add(Role::Hint, Shape::Line(circle(0.22)));
    // Its centre's mark, square as centre marks are (ISO 128-2).
    let reach = 1.12 * roller.radius_mm;
    for reach in [Vec2::new(0.0, reach), Vec2::new(reach, 0.0)] {
        let axis = line(roller.centre - reach, roller.centre + reach);
        scene.add_in(ShownIn::Whole, Role::CentreLine, Shape::Line(axis));
    }
    let aside = Vec2::new(0.0, 0.55 * roller.radius_mm);
    scene.add_in(
        ShownIn::Whole,
        Role::Roller,
        label(roller.centre + aside, (0.0, 0.0), false, name.to_owned()),
    );
}

fn ghost_of(scene: &mut Scene, ghost: &Case) {
    let pose = &ghost.solution.pose;
    let circles = [
        Circle::new(pose.centre_on_plate, pose.reel_radius_mm),
        Circle::new(pose.front_roller.centre, pose.front_roller.radius_mm),
        Circle::new(pose.rear_roller.centre, pose.rear_roller.radius_mm),
    ];
    for circle in circles {
        scene.add(Role::Ghost, Shape::Line(circle.to_path(EXACT_MM)));
    }
    scene.add(Role::Ghost, Shape::Line(knife_outline(ghost)));
}
