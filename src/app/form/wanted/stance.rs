//! The ways of setting: attitude and height, the rollers, or one roller with the height kept.

use egui::{RichText, Sense, Ui, Vec2};

use crate::analysis::{Level, Solution};
use crate::app::desk::Change;
use crate::app::form::field::Fields;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::symbol::symbol;
use crate::geometry::{Pose, Stance};
use crate::unit::{Document, Field, Group, RollerMoves};
use crate::units::{Length, Quantity};

/// A way of setting a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Wanted,
    Rollers,
    FrontRoller,
    RearRoller,
}

impl Way {
    const ALL: [Self; 4] = [
        Self::Wanted,
        Self::Rollers,
        Self::FrontRoller,
        Self::RearRoller,
    ];

    /// The way that a document is set by.
    fn of(document: &Document) -> Self {
        let given = document.setting.rollers.as_ref();
        match given.map(|moves| (moves.front_move.is_some(), moves.rear_move.is_some())) {
            None => Self::Wanted,
            Some((true, false)) => Self::FrontRoller,
            Some((false, true)) => Self::RearRoller,
            Some((true, true) | (false, false)) => Self::Rollers,
        }
    }

    const fn name(self) -> &'static str {
        match self {
            Self::Wanted => "attitude and height",
            Self::Rollers => "the rollers",
            Self::FrontRoller => "front roller, height kept",
            Self::RearRoller => "rear roller, height kept",
        }
    }

    /// What choosing it is called among the steps that can be taken back.
    const fn edit(self) -> &'static str {
        match self {
            Self::Wanted => "Setting by attitude and height",
            Self::Rollers => "Setting by the rollers",
            Self::FrontRoller => "Setting by the front roller, height kept",
            Self::RearRoller => "Setting by the rear roller, height kept",
        }
    }

    const fn help(self) -> &'static str {
        match self {
            Self::Wanted => {
                "You give attitude and height of cut and get how far to move each roller."
            }
            Self::Rollers => {
                "You give the roller moves, a spacer or left alone, and get attitude and height of cut."
            }
            Self::FrontRoller => {
                "A spacer went in at the front bracket and the rear adjusters brought the height of cut back: you get the attitude and the rear roller's move."
            }
            Self::RearRoller => {
                "A spacer went in at the rear bracket and the front adjusters brought the height of cut back: you get the attitude and the front roller's move."
            }
        }
    }

    /// The setting in this way that leaves a pose as it is.
    fn keeping(self, pose: &Pose) -> Stance {
        match self {
            Self::Wanted => pose.as_wanted(),
            Self::Rollers => pose.as_rollers(),
            Self::FrontRoller => pose.as_front_roller(),
            Self::RearRoller => pose.as_rear_roller(),
        }
    }
}

/// The ways of setting, and what the rollers do.
pub fn stance_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    solution: Option<&Solution>,
) {
    let way = Way::of(document);
    let mut chosen = way;
    ui.horizontal_wrapped(|ui| {
        ui.label("Set by");
        for way in Way::ALL {
            ui.selectable_value(&mut chosen, way, way.name())
                .on_hover_text(way.help());
        }
    });
    if chosen != way
        && let Some(solution) = solution
    {
        document.set_stance(chosen.keeping(&solution.pose), fields.system);
        fields.set(Change::of(chosen.edit(), Group::Setting));
    }
    match Way::of(document) {
        Way::Wanted => {
            if let Some(solution) = solution {
                roller_moves_ui(ui, fields, document, solution);
            }
        }
        Way::Rollers => {
            fields.group_rows(ui, document, Group::RollerMoves);
            let help =
                "Nobody has touched the rollers since the unit was measured: both moves are zero.";
            let button = ui.button("Left alone, both 0").on_hover_text(help);
            if button.clicked() {
                let zero = Quantity::from_value(Length::ZERO, fields.system);
                document.setting.rollers = Some(RollerMoves::both(zero.clone(), zero));
                fields.set(Change::of("Rollers left alone", Group::RollerMoves));
            }
            sign_ui(ui);
        }
        one @ (Way::FrontRoller | Way::RearRoller) => {
            one_given_ui(ui, fields, document, solution, one == Way::FrontRoller);
            sign_ui(ui);
        }
    }
    ui.add_space(4.0);
}

fn sign_ui(ui: &mut Ui) {
    let hint =
        "Up, towards the reel, is +; down is -: a 1/8 in spacer that pushes a roller down is -1/8.";
    ui.label(Lettering::Note.of(hint).weak());
}

/// The roller that is given, and how far the other one moves to keep the height.
fn one_given_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    solution: Option<&Solution>,
    is_front: bool,
) {
    for (field, is_given) in [(Field::FrontMove, is_front), (Field::RearMove, !is_front)] {
        // A move that is just being cleared, to be typed anew, keeps its entry.
        if is_given || fields.drafts.get(field.into()).is_some() {
            fields.row(ui, field.name(), field, document);
        } else if let Some(solution) = solution {
            let pose = &solution.pose;
            let (name, roller) = if is_front {
                ("Rear roller", &pose.rear_roller)
            } else {
                ("Front roller", &pose.front_roller)
            };
            move_ui(ui, fields, name, roller.moved);
        }
    }
}

/// How far each roller has to move from where it was measured.
fn roller_moves_ui(ui: &mut Ui, fields: &Fields, document: &Document, solution: &Solution) {
    let pose = &solution.pose;
    for (name, roller) in [
        ("Front roller", &pose.front_roller),
        ("Rear roller", &pose.rear_roller),
    ] {
        move_ui(ui, fields, name, roller.moved);
    }
    let places = [Group::FrontRoller, Group::RearRoller];
    let mut marked = document.examples.iter().map(Field::group);
    if marked.any(|group| places.contains(&group)) {
        ui.horizontal(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(14.0), Sense::hover());
            symbol(ui, place, Level::Watch, fields.theme);
            ui.label(Lettering::Note.of("The rollers' places are still examples."));
        });
    }
}

/// How far a roller moves, where that comes out.
fn move_ui(ui: &mut Ui, fields: &Fields, name: &str, moved: Length) {
    ui.horizontal(|ui| {
        ui.label(RichText::new(format!("{name}:")).weak());
        ui.label(RichText::new(fields.system.roller_move(moved)).family(strong()));
        ui.label(RichText::new("from where it was measured").weak());
    });
}
