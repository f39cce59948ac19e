//! Dimensions and words of the paths.

use kurbo::{Arc, Line, Point, Shape as _, Vec2};

use super::{PathDrawing, knife_outline, label, label_or};
use crate::drawing::scene::{Dimension, Direction, EXACT_MM, Role, Scene, Shape, ShownIn};

impl PathDrawing<'_> {
    pub(super) fn dimensions_and_words(&self, scene: &mut Scene) {
        self.clips(scene);
        self.way_below(scene);
        self.heights(scene);
        self.lines(scene);
        self.whole(scene);
    }

    /// What each line of the close-up is, on the line itself.
    fn lines(&self, scene: &mut Scene) {
        let path = self.path();
        let (centre, radius) = (path.centre_at_clip, path.reel_radius_mm);
        let tall = self
            .height_mm()
            .max(0.25 * self.kinematics.clip_length.mm());
        let height = self.cut_height() + 0.55 * tall;
        let at = Point::new(centre.x, self.cut_height() + 0.8 * tall);
        let words = ["vertical through the reel's centre", "vertical"];
        let word = label_or(at, (28.0, -24.0), words);
        scene.add_in(ShownIn::Lens, Role::Vertical, word);
        // On the way down, ahead of the knife.
        let after = |clips: i32| {
            let step = path.turn_s() / 400.0;
            let mut times = (0..100).map(|steps| path.lowest_at_s() - f64::from(steps) * step);
            let time = times.find(|time| path.tip_at(*time).y > height)?;
            Some(path.tip_at(time) + self.offset(clips))
        };
        if let Some(at) = after(0) {
            let word = label(at, (30.0, -30.0), true, "this blade");
            scene.add_in(ShownIn::Lens, Role::ReelRim, word);
        }
        if let Some(at) = after(-1) {
            let word = label(at, (30.0, -30.0), true, "other blades");
            scene.add_in(ShownIn::Lens, Role::Blade, word);
        }
        let down = centre.y - height;
        let across = (radius * radius - down * down).max(0.0).sqrt();
        let at = Point::new(centre.x - across, height);
        let word = label_or(at, (-30.0, -30.0), ["reel at the clip", "reel"]);
        scene.add_in(ShownIn::Lens, Role::TipCircle, word);
        let knife = knife_outline(&self.case).bounding_box();
        let view = self.close_bounds();
        let seen = knife.intersect(view);
        let at = Point::new(
            0.4 * seen.x0 + 0.6 * seen.x1,
            self.path().tip_at(0.0).y - 0.12 * knife.height(),
        );
        let word = label(at, (-24.0, 30.0), true, "knife");
        scene.add_in(ShownIn::Lens, Role::Knife, word);
    }

    /// The clips by name, and from one to the next.
    fn clips(&self, scene: &mut Scene) {
        let clip = self.path().tip_at(0.0);
        let next = clip + self.offset(1);
        let length = self.system.length(self.kinematics.clip_length);
        let back = self.kinematics.below_cut.map(|below| below.tip_back);
        // The shorter of two dimensions stands nearer.
        let is_first = back.is_some_and(|back| back > self.kinematics.clip_length);
        let text = format!("clip length {length}");
        self.across(scene, next, is_first, text);
        // Clips closer than their names are told by the dimension alone.
        let has_room = self.kinematics.clip_length.mm() > 0.12 * self.close_bounds().width();
        for (clips, text) in [
            (-2, "two before"),
            (-1, "one before"),
            (0, "clip"),
            (1, "one after"),
            (2, "two after"),
        ] {
            let is_drawn = clips >= -self.neighbours() && clips <= self.neighbours();
            if clips == 0 || is_drawn && has_room {
                let at = clip + self.offset(clips);
                let role = if clips == 0 { Role::Clip } else { Role::Note };
                scene.add_in(ShownIn::Lens, role, label(at, (0.0, -25.0), false, text));
            }
        }
    }

    /// Where the blade at the knife entered, how far back it came, and how deep it went.
    fn way_below(&self, scene: &mut Scene) {
        let (Some(below), Some(entry)) = (self.kinematics.below_cut, self.entry()) else {
            return;
        };
        let word = label(entry, (26.0, -64.0), true, "enters the cut line");
        scene.add_in(ShownIn::Lens, Role::Note, word);
        let back = below.tip_back;
        let (word, length) = if back.mm() < 0.0 {
            ("tip ahead", self.system.length(-back))
        } else {
            ("tip back", self.system.length(back))
        };
        let text = format!("{word} {length}");
        let is_first = back <= self.kinematics.clip_length;
        self.across(scene, entry, is_first, text);
    }

    /// A dimension across from the clip at the knife, hung below all that is drawn of the blades.
    fn across(&self, scene: &mut Scene, to: Point, is_first: bool, text: String) {
        let path = self.path();
        let lowest = path.tip_at(path.lowest_at_s());
        let dimension = Dimension {
            from: path.tip_at(0.0),
            to,
            direction: Direction::Across,
            through: Point::new(lowest.x, lowest.y.min(self.cut_height())),
            offset: if is_first { 44.0 } else { 74.0 },
            larger: 1.0,
            text,
            shorter: Vec::new(),
        };
        scene.add_in(ShownIn::Lens, Role::Dimension, Shape::Dimension(dimension));
    }

    fn heights(&self, scene: &mut Scene) {
        let view = self.close_bounds();
        let height = self.cut_height();
        let aside = view.x1 - 0.04 * view.width();
        let cut = self.case.solution.pose.height_of_cut;
        let dimension = Dimension {
            from: Point::new(aside, 0.0),
            to: Point::new(aside, height),
            direction: Direction::Up,
            through: Point::new(aside, 0.0),
            offset: 0.0,
            larger: 1.0,
            text: format!("height of cut {}", self.system.length(cut)),
            shorter: vec![format!("cut {}", self.system.length(cut))],
        };
        scene.add_in(ShownIn::Lens, Role::Dimension, Shape::Dimension(dimension));
        let depth = self.case.solution.sweep.below_cut;
        if depth.mm() > 0.0 && self.kinematics.below_cut.is_some() {
            let path = self.path();
            let lowest = path.tip_at(path.lowest_at_s());
            let text = format!("lowest {} below the cut", self.system.length(depth));
            let role = Role::BelowCut(self.level());
            scene.add_in(
                ShownIn::Lens,
                role,
                label(lowest, (14.0, -104.0), true, &text),
            );
        }
        let at = Point::new(1.5 * self.offset(1).x, height);
        let word = label(at, (0.0, 19.0), false, "cut line");
        scene.add_in(ShownIn::Lens, Role::CutLine, word);
        let at = Point::new(view.x0 + 0.02 * view.width(), 0.0);
        let word = label(at, (1.0, -10.0), false, "ground");
        scene.add_in(ShownIn::Lens, Role::Note, word);
    }

    /// The words of the two turns: travel, which way the reel turns, and how far a turn takes.
    fn whole(&self, scene: &mut Scene) {
        let path = self.path();
        let (lowest, turn) = (path.lowest_at_s(), path.turn_s());
        let dimension = Dimension {
            from: path.tip_at(lowest - turn),
            to: path.tip_at(lowest),
            direction: Direction::Across,
            through: Point::ORIGIN,
            offset: 30.0,
            larger: 1.0,
            text: format!(
                "travel per turn {}",
                self.system.length(path.travel_in_turn())
            ),
            shorter: vec![format!(
                "a turn {}",
                self.system.length(path.travel_in_turn())
            )],
        };
        scene.add_in(ShownIn::Whole, Role::Dimension, Shape::Dimension(dimension));
        let centre = path.centre_at_clip;
        let part = 0.32 * path.reel_radius_mm;
        // Over the top ahead, as in the side view.
        let turning = Arc::new(centre, (part, part), 2.6, -1.5, 0.0).to_path(EXACT_MM);
        scene.add_in(ShownIn::Whole, Role::Note, Shape::Arrow(turning));
        let view = self.whole_bounds();
        let start = Point::new(
            centre.x - 0.1 * view.width(),
            view.y1 - 0.05 * view.height(),
        );
        let arrow = Line::new(start, start + Vec2::new(0.2 * view.width(), 0.0));
        scene.add_in(
            ShownIn::Whole,
            Role::Note,
            Shape::Arrow(arrow.to_path(EXACT_MM)),
        );
        let word = label(start, (-1.0, 0.0), false, "travel");
        scene.add_in(ShownIn::Whole, Role::Note, word);
    }
}
