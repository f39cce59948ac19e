//! What the keys of the window do.

use egui::Context;

use super::drawer;
use super::edit_menu::may_be_done;
use super::help_card::HelpCard;
use super::keys::{Deed, pressed, table};
use super::keys_card::KeysCard;
use super::picture_card::copy_picture;
use super::print_card::open_print_card;
use super::scale::{fit_scale, larger, smaller};
use crate::app::areas::Areas;
use crate::app::desk::{Desk, InHand};
use crate::app::files::{Asking, ask_first, quit_asked, save, save_as, save_work, save_work_as};
use crate::app::form::Keys;

/// Does what the keys ask for. A card that takes them leaves the scale alone.
pub fn do_as_pressed(ctx: &Context, desk: &mut Desk, areas: &mut Areas, form: &Keys) {
    let is_taken = desk.are_keys_taken();
    let deed = pressed(ctx, areas, |deed| {
        let is_of_scale = matches!(deed, Deed::Larger | Deed::Smaller | Deed::FittingScale);
        // Under a card nobody sees what is taken back.
        let is_unseen = matches!(deed, Deed::Undo | Deed::Redo) && desk.has_card();
        (is_of_scale || !is_taken) && !is_unseen && may_be_done(ctx, desk, deed)
    });
    match deed {
        None => {}
        Some(Deed::New) => {
            ask_first(desk, Asking::New);
        }
        Some(Deed::Open) => {
            ask_first(desk, Asking::Choose);
        }
        Some(Deed::SaveAs) => match desk.in_hand() {
            InHand::Unit => save_as(desk, |_, is_saved| is_saved),
            InHand::Work(kind) => save_work_as(desk, kind, |_, is_saved| is_saved),
        },
        Some(Deed::Save) => match desk.in_hand() {
            InHand::Unit => save(desk, |_, is_saved| is_saved),
            InHand::Work(kind) => save_work(desk, kind, |_, is_saved| is_saved),
        },
        Some(Deed::Quit) => quit_asked(desk),
        Some(Deed::Print) => open_print_card(desk, areas),
        Some(Deed::CopyPicture) => copy_picture(ctx, desk, areas.front_about()),
        Some(Deed::Redo) => {
            desk.redo();
        }
        Some(Deed::Undo) => {
            desk.undo();
        }
        Some(Deed::Menu(menu)) => menu.open(ctx),
        Some(Deed::Form) => drawer::set_out(ctx, !drawer::is_out(ctx)),
        Some(Deed::Show) => desk.ask_to_show(),
        Some(Deed::KeepStep) => desk.ask_to_keep_step(areas.shown_first()),
        Some(Deed::Help) => match form.in_hand {
            Some(field) => desk.open_card(HelpCard(field)),
            None => desk.open_card(KeysCard(table(areas.abouts()))),
        },
        Some(Deed::ListKeys) => desk.open_card(KeysCard(table(areas.abouts()))),
        Some(Deed::Larger) => larger(ctx, desk),
        Some(Deed::Smaller) => smaller(ctx, desk),
        Some(Deed::FittingScale) => fit_scale(desk),
        Some(Deed::Front(about)) => {
            areas.bring_to_front(about.id);
        }
    }
}
