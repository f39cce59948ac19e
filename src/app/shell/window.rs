//! Opening the window.

use std::cell::OnceCell;
use std::path::PathBuf;
use std::rc::Rc;

use eframe::NativeOptions;
use egui::ViewportBuilder;

use super::app::App;
use super::beginning::Beginning;
use super::beside_file::unit_of;
use super::display;
use super::ending::{Open, Ready};
use super::placing::{LEAST_OFFERED, Placing, screens};
use super::shot::{Shot, watch_over};
use crate::app::areas::AREAS;
use crate::app::desk::{Change, NoDialogs, OtherUnit, Preferences, Session, WindowPlace, WorkKind};
use crate::app::files::{LESSON_AREA, NativeDialogs, PLATE_AREA, SystemOpener, kind_of_file};
#[cfg(all(unix, not(target_os = "macos")))]
use crate::app::files::{PortalMotion, PortalPrinter};
use crate::app::widgets::look::dress;
use crate::command::{OpenLesson, Problem, WhatIf, WindowArguments, open_lesson};
use crate::store::recovery::{APP_ID, is_open_in_a_window, recovery_folder};
use crate::store::{self, PreferencesProblem, preferences_file, read_preferences};

/// Opens the window and waits until it is closed.
///
/// # Errors
/// When a unit file or a what-if is wrong, when there is no display, or when a shot cannot be saved.
pub fn open_window(arguments: WindowArguments) -> Result<(), Problem> {
    let remembered = Remembered::for_window(&arguments);
    let lesson = arguments.lesson.as_deref().map(open_lesson).transpose()?;
    let beginning = begin(&arguments, lesson.as_ref(), &remembered.preferences)?;
    let mut tried = beginning.document().clone();
    if let Err(unsolved) = arguments.what_if.apply(&mut tried)? {
        return Err(Problem::unsolved(arguments.file.as_deref(), unsolved));
    }
    let area = area(&arguments)?;
    let beside = beside(&arguments)?;
    let folder = arguments
        .folder()
        .and_then(|folder| std::path::absolute(folder).ok());
    let place = opened_in(&arguments, &remembered.preferences);
    check_shot(&arguments)?;
    let (shot, told) = arguments
        .shot
        .clone()
        .map(|out| Shot::new(out, arguments.size))
        .unzip();
    let mut viewport = ViewportBuilder::default()
        .with_app_id(APP_ID)
        .with_inner_size(place.size)
        .with_min_inner_size(LEAST_OFFERED)
        .with_maximized(place.is_maximized)
        .with_drag_and_drop(true)
        .with_icon(icon());
    if let Some(at) = place.at {
        viewport = viewport.with_position(at);
    }
    let options = NativeOptions {
        viewport,
        event_loop_builder: display::choose(),
        multisampling: 4,
        ..NativeOptions::default()
    };
    if let Some(out) = arguments.shot.clone() {
        watch_over(out);
    }
    let out = arguments.shot.clone().unwrap_or_default();
    // Held until the window is closed, and told from here whether there was one.
    let opened = Rc::new(OnceCell::new());
    let ready = Rc::clone(&opened);
    let run = eframe::run_native(
        "Sweepgauge",
        options,
        Box::new(move |creation| {
            let mut app = create(creation, beginning, remembered, &arguments, shot);
            if let Some(folder) = &folder {
                app.show_folder(folder);
            }
            if arguments.shot.is_none() {
                app.place(Placing::of(place, &screens(creation)));
            }
            app.edit(Change::new("What to try"), |document| *document = tried);
            app.bring_to_front(area);
            match lesson {
                Some(lesson) => {
                    app.show_lesson(&creation.egui_ctx, lesson, arguments.step.saturating_sub(1));
                    if arguments.presenter {
                        app.open_presenter();
                    }
                }
                None => match beside {
                    Some(other) if arguments.show => app.show_beside(&creation.egui_ctx, other),
                    Some(other) => app.look_beside(other),
                    None if arguments.show => app.show_in_front(&creation.egui_ctx),
                    None => {}
                },
            }
            // It is created once.
            let _ = ready.set(Ready::with(match arguments.shot.clone() {
                Some(out) => Open::Shot(out),
                None => Open::Work(app.last_work()),
            }));
            Ok(Box::new(app))
        }),
    );
    run.map_err(|error| match opened.get() {
        Some(ready) => ready.open().display_lost(),
        None => Problem::NoDisplay(plain(&error.to_string())),
    })?;
    match told.map(|told| told.recv()) {
        Some(Ok(Err(what))) => Err(Problem::Picture { file: out, what }),
        _ => Ok(()),
    }
}

/// The unit that is to stand beside the one that is opened.
fn beside(arguments: &WindowArguments) -> Result<Option<OtherUnit>, Problem> {
    let (Some(file), Some(named)) = (&arguments.file, &arguments.beside) else {
        return Ok(None);
    };
    if arguments.folder().is_some() || kind_of_file(file).is_some() {
        let what = format!(
            "{} is no unit file: one unit goes beside another",
            file.display()
        );
        let option = "beside";
        return Err(Problem::Reading { option, what });
    }
    let other = unit_of(named)?;
    Ok(Some(if file == named {
        OtherUnit {
            name: "As set in the file".to_owned(),
            ..other
        }
    } else {
        other
    }))
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
        None if arguments.folder().is_some() => Ok("shop"),
        None if arguments.lesson.is_some() => Ok(LESSON_AREA),
        None => Ok(match arguments.file.as_deref().and_then(kind_of_file) {
            Some(WorkKind::Sheet) => PLATE_AREA,
            Some(WorkKind::Lesson) => LESSON_AREA,
            None => ids[0],
        }),
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

/// What earlier starts left, and its file.
struct Remembered {
    preferences: Preferences,
    /// Where it is kept; none for a shot, which neither reads nor writes what a person's own starts
    /// remember, and where the platform names no home.
    file: Option<PathBuf>,
    problem: Option<PreferencesProblem>,
}

impl Remembered {
    fn for_window(arguments: &WindowArguments) -> Self {
        let file = match arguments.shot {
            Some(_) => None,
            None => preferences_file(),
        };
        let (preferences, problem) = file
            .as_deref()
            .map_or_else(Default::default, read_preferences);
        Self {
            preferences,
            file,
            problem,
        }
    }
}

/// What the window begins with: what stands behind a lesson; the file asked for; the demo unit for a shot, or
/// to try something on; else what was open last.
fn begin(
    arguments: &WindowArguments,
    lesson: Option<&OpenLesson>,
    remembered: &Preferences,
) -> Result<Beginning, Problem> {
    if let (Some(lesson), Some(file)) = (lesson, &arguments.lesson) {
        return Ok(Beginning::behind_lesson(lesson, file)?);
    }
    let tries = arguments.what_if != WhatIf::default();
    let file = arguments.file.as_ref();
    Ok(match file.filter(|_| arguments.folder().is_none()) {
        Some(file) => match kind_of_file(file) {
            Some(WorkKind::Sheet) => Beginning::with_sheet(file)?,
            Some(WorkKind::Lesson) => Beginning::with_lesson(file)?,
            None => Session::open(file)?.into(),
        },
        None if tries => Session::demo()?.into(),
        None if arguments.shot.is_some() => match arguments.folder() {
            Some(folder) => Beginning::with_folder(folder)?,
            None => Session::demo()?.into(),
        },
        None => {
            let folder = recovery_folder();
            let last = Beginning::with_last(remembered, |file| {
                let folder = folder.as_deref();
                folder.is_some_and(|folder| is_open_in_a_window(folder, file))
            })?;
            // A folder was asked for: no card stands before it.
            match arguments.folder() {
                Some(folder) if last.is_asked => Beginning {
                    told: last.told,
                    ..Beginning::with_folder(folder)?
                },
                _ => last,
            }
        }
    })
}

/// Where the window is opened: of the size asked for, or where it stood last.
#[expect(clippy::cast_precision_loss, reason = "a size of some thousands")]
fn opened_in(arguments: &WindowArguments, remembered: &Preferences) -> WindowPlace {
    match arguments.size {
        Some((width, height)) => WindowPlace {
            size: (width as f32, height as f32),
            ..WindowPlace::default()
        },
        // Its numbers alone are looked at; the screens are not known yet.
        None => remembered.window.unwrap_or_default().fitted(&[]),
    }
}

fn create(
    creation: &eframe::CreationContext<'_>,
    beginning: Beginning,
    remembered: Remembered,
    arguments: &WindowArguments,
    shot: Option<Shot>,
) -> App {
    let ctx = &creation.egui_ctx;
    dress(ctx);
    let Remembered {
        preferences: read,
        file,
        problem,
    } = remembered;
    let mut preferences = read.clone();
    if arguments.dark || shot.is_some() {
        preferences.is_dark = Some(arguments.dark);
    }
    ctx.set_theme(match preferences.is_dark {
        None => egui::ThemePreference::System,
        Some(true) => egui::ThemePreference::Dark,
        Some(false) => egui::ThemePreference::Light,
    });
    if shot.is_some() {
        let mut app = App::new(beginning, preferences, Box::new(NoDialogs));
        app.take_shot(shot);
        return app;
    }
    let dialogs = NativeDialogs::new(ctx.clone());
    let mut app = App::new(beginning, preferences, Box::new(dialogs));
    app.open_files_with(Box::new(SystemOpener::new(ctx.clone())));
    #[cfg(all(unix, not(target_os = "macos")))]
    {
        app.print_with(Box::new(PortalPrinter::new(ctx.clone())));
        app.ask_for_motion_with(Box::new(PortalMotion::new(ctx.clone())));
    }
    let is_kept = if let Some(folder) = recovery_folder() {
        app.keep_work_in(&folder, ctx)
    } else {
        app.warn(
            "This system names no home folder: what is not saved is not kept for recovery."
                .to_owned(),
        );
        false
    };
    match problem {
        // Told already: it is the same folder.
        Some(PreferencesProblem::Unwritable { .. }) if !is_kept => {}
        Some(problem) => app.warn(problem.to_string()),
        None => {}
    }
    if let Some(file) = file {
        app.keep_preferences_in(&file, read);
        if arguments.size.is_some() {
            app.keep_no_place();
        }
        if arguments.dark {
            app.keep_no_darkness();
        }
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
