//! The desktop's print dialog, by its portal: the D-Bus interface `org.freedesktop.portal.Print` of the
//! XDG desktop portal (the interface's own description, from memory).
//!
//! A call answers at once with a request; what a person chose comes as that request's `Response`. The
//! request's path is known before the call, so that its answer cannot be missed; a portal that takes another
//! path is heard there. A portal that ends while it is waited for is told of.

use std::collections::HashMap;
use std::io;
use std::os::fd::AsFd as _;
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use egui::Context;
use zbus::Message;
use zbus::blocking::fdo::DBusProxy;
use zbus::blocking::{Connection, Proxy};
use zbus::zvariant::{Fd, OwnedObjectPath, OwnedValue, Value};

use super::portal::{Bus, PLACE, PORTAL, Portal};
use crate::app::desk::{PrintJob, Printed, Printer, Printing};
use crate::drawing::Page;
use crate::store;
use crate::units::clipped;

const PRINT: &str = "org.freedesktop.portal.Print";
const REQUEST: &str = "org.freedesktop.portal.Request";
/// What a request answers with: done, given up by the person; anything else is a failure.
const DONE: u32 = 0;
const GIVEN_UP: u32 = 1;
/// How long a call may take until the portal has made its request: a desktop may have to start it first.
const PATIENCE: Duration = Duration::from_secs(40);
/// Letters of what a system says that are told.
const LONGEST: usize = 160;
/// How often it is asked whether the portal that is waited for is still there.
const LOOK_EVERY: Duration = Duration::from_millis(700);
/// How long what came before the portal ended may take to be heard.
const LAST_WORDS: Duration = Duration::from_millis(300);

/// Prints by the portal. Each job waits on a thread of its own, so that the window goes on.
#[derive(Clone, Debug)]
pub struct PortalPrinter(Portal);

impl PortalPrinter {
    /// A printer on the bus of the session, which has a window look again once it is known what came of
    /// a job.
    #[must_use]
    pub fn new(ctx: Context) -> Self {
        Self(Portal::new(ctx))
    }

    /// The same on another bus, by its address.
    #[must_use]
    pub fn on_bus(self, address: &str) -> Self {
        Self(self.0.on_bus(address))
    }
}

impl Printer for PortalPrinter {
    fn print(&self, job: &PrintJob) -> Printing {
        let job = job.clone();
        self.0.ask("printer", move |bus| {
            let printed = printed(bus, &job);
            Some(printed.unwrap_or_else(|failed| Printed::NoDialog(failed.told())))
        })
    }
}

/// Why there was no print dialog.
enum Failed {
    Bus,
    Copy(io::Error),
    /// The portal ended a request by itself.
    Refused,
    /// The portal is there no more.
    Gone,
}

impl From<zbus::Error> for Failed {
    fn from(_: zbus::Error) -> Self {
        Self::Bus
    }
}

impl From<io::Error> for Failed {
    fn from(error: io::Error) -> Self {
        Self::Copy(error)
    }
}

impl Failed {
    fn told(&self) -> String {
        let told = match self {
            // What the bus says of it is for programmers.
            Self::Bus => "no print portal answered".to_owned(),
            Self::Copy(error) => store::plain(error),
            Self::Refused => "its print portal ended the request".to_owned(),
            Self::Gone => "its print portal ended before it answered".to_owned(),
        };
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        clipped(told.trim_end_matches('.'), LONGEST).to_string()
    }
}

/// Options of a call and what it answers, by their names.
type Options<'a> = HashMap<&'a str, Value<'a>>;
type Results = HashMap<String, OwnedValue>;

/// Has a person choose how a job is printed, and hands it over.
fn printed(bus: &Bus, job: &PrintJob) -> Result<Printed, Failed> {
    bus.with_portal(PRINT, PATIENCE, |connection, portal| {
        printed_by(connection, portal, job)
    })
}

fn printed_by(
    connection: &Connection,
    portal: &Proxy<'_>,
    job: &PrintJob,
) -> Result<Printed, Failed> {
    // No parent: the dialog stands by itself.
    let parent = "";
    let prepared = answer(connection, |options| {
        let (settings, page) = (settings_of(job), page_of(job));
        portal.call_method(
            "PreparePrint",
            &(parent, &job.title, settings, page, options),
        )
    })?;
    let results = match prepared {
        (DONE, results) => results,
        (GIVEN_UP, _) => return Ok(Printed::GivenUp),
        _ => return Err(Failed::Refused),
    };
    let token = results
        .get("token")
        .and_then(|token| u32::try_from(token).ok());
    let token = token.ok_or(Failed::Refused)?;
    let file = store::copy_to_print(&job.pdf)?;
    let (code, _) = answer(connection, |mut options| {
        options.insert("token", token.into());
        let file = Fd::from(file.as_fd());
        portal.call_method("Print", &(parent, &job.title, file, options))
    })?;
    match code {
        DONE => Ok(Printed::Sent),
        GIVEN_UP => Ok(Printed::GivenUp),
        _ => Err(Failed::Refused),
    }
}

/// Makes a call with a request of its own and waits for what the request answers.
fn answer<'a>(
    connection: &Connection,
    call: impl FnOnce(Options<'a>) -> zbus::Result<Message>,
) -> Result<(u32, Results), Failed> {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    let token = format!("sweepgauge{}", NEXT.fetch_add(1, Ordering::Relaxed));
    let own = connection.unique_name().ok_or(Failed::Refused)?;
    let own = own.trim_start_matches(':').replace('.', "_");
    let path = format!("{PLACE}/request/{own}/{token}");
    let request = Proxy::new(connection, PORTAL, path.clone(), REQUEST)?;
    let mut responses = request.receive_signal("Response")?;
    let called = call(Options::from([("handle_token", Value::from(token))]))?;
    let given: OwnedObjectPath = called.body().deserialize()?;
    if given.as_str() != path {
        let request = Proxy::new(connection, PORTAL, given, REQUEST)?;
        responses = request.receive_signal("Response")?;
    }
    let header = called.header();
    let portal = header.sender().ok_or(Failed::Refused)?;
    let bus = DBusProxy::new(connection)?;
    let (sender, response) = channel();
    let listening = thread::Builder::new().name("print answer".to_owned());
    let listen = move || {
        // Nobody waits any more once the portal is gone.
        let _ = sender.send(responses.next());
    };
    listening.spawn(listen)?;
    let mut is_gone = false;
    loop {
        let patience = if is_gone { LAST_WORDS } else { LOOK_EVERY };
        match response.recv_timeout(patience) {
            Ok(Some(response)) => return Ok(response.body().deserialize()?),
            Ok(None) | Err(RecvTimeoutError::Disconnected) => return Err(Failed::Refused),
            Err(RecvTimeoutError::Timeout) if is_gone => return Err(Failed::Gone),
            Err(RecvTimeoutError::Timeout) => {
                is_gone = !bus
                    .name_has_owner(portal.clone().into())
                    .map_err(zbus::Error::from)?;
            }
        }
    }
}

/// The job's paper, not scaled: what is true to size on the sheet stays so.
fn settings_of(job: &PrintJob) -> Options<'static> {
    let orientation = if job.is_lying {
        "landscape"
    } else {
        "portrait"
    };
    Options::from([
        ("paper-format", name_of(job.page).into()),
        ("orientation", orientation.into()),
        ("scale", "100".into()),
    ])
}

fn page_of(job: &PrintJob) -> Options<'static> {
    let (short_mm, long_mm) = job.page.sides_mm();
    let orientation = if job.is_lying {
        "landscape"
    } else {
        "portrait"
    };
    Options::from([
        ("Name", name_of(job.page).into()),
        ("Width", short_mm.into()),
        ("Height", long_mm.into()),
        ("Orientation", orientation.into()),
    ])
}

/// The name of a size of paper among printers (PWG 5101.1).
const fn name_of(page: Page) -> &'static str {
    match page {
        Page::A4 => "iso_a4",
        Page::Letter => "na_letter",
    }
}
