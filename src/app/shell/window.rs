//! Opening the window.

use std::cell::OnceCell;
use std::rc::Rc;

use eframe::NativeOptions;
use egui::ViewportBuilder;

use super::app::App;
use super::display;
use super::ending::Ready;
use super::shot::Shot;
use crate::app::areas::AREAS;
use crate::app::desk::{Change, NoDialogs, Preferences, Session};
use crate::app::files::NativeDialogs;
use crate::app::widgets::look::dress;
use crate::command::{Problem, WindowArguments};
use crate::store::recovery::{APP_ID, recovery_folder};
use crate::store::{self, PreferencesProblem, look_over_preferences, preferences_file};

/// Opens the window and waits until it is closed.
///
/// # Errors
/// When a unit file or a what-if is wrong, when there is no display, or when a shot cannot be saved.
pub fn open_window(arguments: WindowArguments) -> Result<(), Problem> {
    let session = match &arguments.file {
        Some(file) => Session::open(file)?,
        None => Session::demo()?,
    };
    let mut tried = session.document().clone();
    if let Err(unsolved) = arguments.what_if.apply(&mut tried)? {
        return Err(Problem::unsolved(arguments.file.as_deref(), unsolved));
    }
    let area = area(&arguments)?;
    let (width, height) = arguments.size.unwrap_or((1440, 900));
    #[expect(clippy::cast_precision_loss, reason = "a size of some thousands")]
    let size = egui::vec2(width as f32, height as f32);
    let is_shot = arguments.shot.is_some();
    let preferences_problem = if is_shot {
        None
    } else {
        // Before the window's toolkit reads it, and would begin a new one over a damaged one.
        let is_right = |value: &str| ron::from_str::<Preferences>(value).is_ok();
        preferences_file()
            .and_then(|file| look_over_preferences(&file, eframe::APP_KEY, is_right).err())
    };
    check_shot(&arguments)?;
    let (shot, told) = arguments
        .shot
        .clone()
        .map(|out| Shot::new(out, arguments.size))
        .unzip();
    let options = NativeOptions {
        viewport: ViewportBuilder::default()
            .with_app_id(APP_ID)
            .with_inner_size(size)
            .with_min_inner_size([900.0, 600.0])
            .with_drag_and_drop(true)
            .with_icon(icon()),
        persist_window: !is_shot && arguments.size.is_none(),
        // A shot neither reads nor writes what a person's own starts remember.
        persistence_path: is_shot
            .then(|| std::env::temp_dir().join(format!("{APP_ID}-shot-{}", std::process::id()))),
        event_loop_builder: display::choose(),
        multisampling: 4,
        ..NativeOptions::default()
    };
    let out = arguments.shot.clone().unwrap_or_default();
    // Held until the window is closed, and told from here whether there was one.
    let opened = Rc::new(OnceCell::new());
    let ready = Rc::clone(&opened);
    let run = eframe::run_native(
        "Sweepgauge",
        options,
        Box::new(move |creation| {
            let mut app = create(creation, session, &arguments, shot, preferences_problem);
            app.edit(Change::new("What to try"), |document| *document = tried);
            app.bring_to_front(area);
            // It is created once.
            let _ = ready.set(app.flusher().map(Ready::with));
            Ok(Box::new(app))
        }),
    );
    run.map_err(|error| match opened.get() {
        Some(_) => Problem::DisplayLost,
        None => Problem::NoDisplay(plain(&error.to_string())),
    })?;
    match told.map(|told| told.recv()) {
        Some(Ok(Err(what))) => Err(Problem::Picture { file: out, what }),
        _ => Ok(()),
    }
}

/// Refuses a shot that could not be saved, before a window opens for it.
fn check_shot(arguments: &WindowArguments) -> Result<(), Problem> {
    let Some(out) = &arguments.shot else {
        return Ok(());
    };
    let refuse = |what: String| {
        Err(Problem::Picture {
            file: out.clone(),
            what,
        })
    };
    let is_png = |ending: &std::ffi::OsStr| ending.eq_ignore_ascii_case("png");
    if !out.extension().is_some_and(is_png) {
        return refuse("a shot is a PNG picture; give it a name ending in .png".to_owned());
    }
    match store::can_be_written(out) {
        Ok(()) => Ok(()),
        Err(problem) => refuse(format!("cannot be written: {problem}")),
    }
}

/// The area to open in.
fn area(arguments: &WindowArguments) -> Result<&'static str, Problem> {
    let asked = arguments.asked_area();
    let ids = AREAS.map(|(about, _)| about.id);
    match asked {
        None => Ok(ids[0]),
        Some(asked) => {
            let found = ids.into_iter().find(|id| *id == asked);
            found.ok_or_else(|| Problem::Unknown {
                option: "area",
                what: asked.to_owned(),
                known: ids.join(", "),
            })
        }
    }
}

fn create(
    creation: &eframe::CreationContext<'_>,
    session: Session,
    arguments: &WindowArguments,
    shot: Option<Shot>,
    preferences_problem: Option<PreferencesProblem>,
) -> App {
    let ctx = &creation.egui_ctx;
    dress(ctx);
    let mut preferences = if shot.is_some() {
        Preferences {
            has_seen_start_card: true,
            is_dark: Some(arguments.dark),
            ..Preferences::default()
        }
    } else {
        creation
            .storage
            .and_then(|s| eframe::get_value(s, eframe::APP_KEY))
            .unwrap_or_default()
    };
    if arguments.dark {
        preferences.is_dark = Some(true);
    }
    ctx.set_theme(match preferences.is_dark {
        None => egui::ThemePreference::System,
        Some(true) => egui::ThemePreference::Dark,
        Some(false) => egui::ThemePreference::Light,
    });
    if let Some(file) = &arguments.file {
        preferences.remember(file);
    }
    let mut app = if shot.is_some() {
        App::new(session, preferences, Box::new(NoDialogs))
    } else {
        let dialogs = NativeDialogs::new(ctx.clone());
        let mut app = App::new(session, preferences, Box::new(dialogs));
        let is_kept = if let Some(folder) = recovery_folder() {
            app.keep_work_in(&folder, ctx)
        } else {
            app.warn(
                "This system names no home folder: what is not saved is not kept for recovery."
                    .to_owned(),
            );
            false
        };
        match preferences_problem {
            // Told already: it is the same folder.
            Some(PreferencesProblem::Unwritable { .. }) if !is_kept => {}
            Some(problem) => app.warn(problem.to_string()),
            None => {}
        }
        app
    };
    app.take_shot(shot);
    if let Some((width, height)) = arguments.size {
        // The size of an earlier start is restored first; the one asked for now goes before it.
        #[expect(clippy::cast_precision_loss, reason = "a size of some thousands")]
        let size = egui::vec2(width as f32, height as f32);
        ctx.send_viewport_cmd(egui::ViewportCommand::InnerSize(size));
    }
    app
}

/// What a windowing system says, in one line.
fn plain(text: &str) -> String {
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .trim_end_matches('.')
        .to_owned()
}

/// The window's icon, at its largest: a desktop makes it smaller where it must.
fn icon() -> egui::IconData {
    const PICTURE: &[u8] = include_bytes!("../../../assets/icons/sweepgauge-256.png");
    // Without it the window has the desktop's own.
    eframe::icon_data::from_png_bytes(PICTURE).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use clap::Parser as _;

    use super::*;
    use crate::command::{AREA_FLAGS, Arguments, Command};

    #[test]
    fn every_area_with_a_word_of_its_own_is_one_there_is() {
        for (_, id) in AREA_FLAGS {
            let line = ["sweepgauge", "window", &format!("--{id}")];
            let Ok(Arguments {
                command: Some(Command::Window(asked)),
                ..
            }) = Arguments::try_parse_from(line)
            else {
                panic!("--{id} is not read");
            };
            assert_eq!(asked.asked_area(), Some(id));
            assert_eq!(area(&asked).ok(), Some(id));
        }
    }
}
