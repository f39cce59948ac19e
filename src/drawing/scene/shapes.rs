//! The scene: lines, fills, hatches, words and dimensions in world millimetres.

use kurbo::{BezPath, Point, Rect, Vec2};

use super::Role;

/// How far a curve of a scene may stray from the true one, in millimetres.
pub(in crate::drawing) const EXACT_MM: f64 = 1e-6;

/// Which views show an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShownIn {
    /// The whole unit and the lens.
    Both,
    /// Only the view of the whole unit.
    Whole,
    /// Only the lens.
    Lens,
}

/// The direction a dimension measures in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// Along the plate.
    Across,
    /// Up from the plate.
    Up,
    /// From the one place straight to the other.
    Along,
}

/// A length drawn with extension lines, arrowheads and its text.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// One of the two places measured.
    pub from: Point,
    /// The other.
    pub to: Point,
    /// The direction measured in.
    pub direction: Direction,
    /// A place the dimension line passes, before its offset.
    pub through: Point,
    /// How far past that place the line stands, in paper units: to the right or down when positive. A
    /// line along both places stands so far beside them.
    pub offset: f64,
    /// How many times as large as ordinary words its own are.
    pub larger: f64,
    /// What it measures, with the number.
    pub text: String,
    /// What may stand instead where there is little room, from the longest to the shortest.
    pub shorter: Vec<String>,
}

/// A height read off a rule stood on the ground.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruler {
    /// The place on the ground that it measures from.
    pub foot: Point,
    /// The place that it measures up to.
    pub top: Point,
    /// A place that the rule stands beside.
    pub beside: Point,
    /// How far past that place it stands, in paper units.
    pub offset: f64,
    /// How many times as large as ordinary words its own are.
    pub larger: f64,
    /// The marks it may have, the closest first: those that are not too close are drawn.
    pub steps: Vec<RulerStep>,
    /// What it measures, with the number.
    pub text: String,
    /// What may stand instead where there is little room, from the longest to the shortest.
    pub shorter: Vec<String>,
}

/// How far apart a ruler's marks are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RulerStep {
    /// From one mark to the next.
    pub small_mm: f64,
    /// Each so many marks one is larger.
    pub larges: f64,
}

/// Words beside a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The place.
    pub at: Point,
    /// From there to the words, in paper units, right and down positive.
    pub offset: Vec2,
    /// Whether a thin line leads from the words to the place.
    pub has_leader: bool,
    /// How many times as large as ordinary words they are.
    pub larger: f64,
    /// The words.
    pub text: String,
    /// What may stand instead where there is little room, from the longest to the shortest.
    pub shorter: Vec<String>,
}

/// One shape of a scene.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A line, by its role's pen.
    Line(BezPath),
    /// A filled outline.
    Fill(BezPath),
    /// An outline filled with its role's hatching.
    Hatch(BezPath),
    /// The same with hatching that moves along x with what it lies on.
    MovingHatch {
        /// What is filled.
        outline: BezPath,
        /// A place that one of its lines goes through.
        through: Point,
        /// So far along x it is alike again.
        alike_mm: f64,
    },
    /// A line with an arrowhead at its end.
    Arrow(BezPath),
    /// A length with its number.
    Dimension(Dimension),
    /// A height on a ruler.
    Ruler(Ruler),
    /// An angle about `apex` from one direction to another, drawn at a radius from there.
    Angle {
        /// Where both legs meet.
        apex: Point,
        /// The direction of the first leg, from the apex.
        from: Vec2,
        /// The direction of the second leg.
        to: Vec2,
        /// Radius of the arc in the world.
        radius_mm: f64,
        /// What it measures, with the number.
        text: String,
        /// What may stand instead where there is little room, from the longest to the shortest.
        shorter: Vec<String>,
    },
    /// A circle's diameter, on a line that points at its middle.
    Diameter {
        /// The circle's middle.
        centre: Point,
        /// Its radius in the world.
        radius_mm: f64,
        /// The number.
        text: String,
    },
    /// Words beside a place.
    Label(Label),
    /// A piece of the role's line with words, in the view's upper left corner, line under line.
    Key {
        /// Its line from the top.
        row: u8,
        /// The words.
        text: String,
    },
    /// A ring and a dot around a place.
    Ring(Point),
}

/// A shape with its role.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it means.
    pub role: Role,
    /// Which views show it.
    pub shown_in: ShownIn,
    /// The shape.
    pub shape: Shape,
}

/// Shapes from the back to the front, in world millimetres: x ahead, y up, the plate at 0.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// The shapes.
    pub items: Vec<Item>,
    /// What a view of the whole must hold.
    pub bounds: Rect,
}

impl Scene {
    /// Adds a shape for both views.
    pub(in crate::drawing) fn add(&mut self, role: Role, shape: Shape) {
        self.add_in(ShownIn::Both, role, shape);
    }

    /// Adds a shape for some views.
    pub(in crate::drawing) fn add_in(&mut self, shown_in: ShownIn, role: Role, shape: Shape) {
        self.items.push(Item {
            role,
            shown_in,
            shape,
        });
    }

    /// The shapes of a role.
    pub fn of_role(&self, role: Role) -> impl Iterator<Item = &Shape> {
        self.items
            .iter()
            .filter(move |item| item.role == role)
            .map(|item| &item.shape)
    }

    /// Every word of the scene.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.items.iter().filter_map(|item| match &item.shape {
            Shape::Label(Label { text, .. })
            | Shape::Dimension(Dimension { text, .. })
            | Shape::Ruler(Ruler { text, .. })
            | Shape::Angle { text, .. }
            | Shape::Diameter { text, .. }
            | Shape::Key { text, .. } => Some(text.as_str()),
            _ => None,
        })
    }
}
