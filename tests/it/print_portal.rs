//! Printing by the desktop's print portal, against a stand-in for it on a message bus of its own. Where
//! there is no `dbus-daemon` to run that bus, these say so and try nothing.
#![cfg(all(unix, not(target_os = "macos")))]

use std::collections::HashMap;
use std::io::Read as _;
use std::sync::{Arc, Mutex};

use sweepgauge::app::{PortalPrinter, PrintJob, Printed, Printer as _};
use sweepgauge::drawing::Page;
use zbus::blocking::Connection;
use zbus::blocking::connection::Builder;
use zbus::message::Header;
use zbus::zvariant::{OwnedFd, OwnedObjectPath, OwnedValue, Value};

use crate::common::bus::Bus;

const PLACE: &str = "/org/freedesktop/portal/desktop";

/// What a person does in the dialog, and what the portal was given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Does {
    Prints,
    Closes,
    /// The portal fails once the dialog was answered.
    Fails,
    /// The request is on a path of the portal's own, and answered there.
    OnItsPath,
    /// Nobody answers: the portal is to end first.
    Dies,
}

type Named = HashMap<String, OwnedValue>;

#[derive(Default)]
struct Given {
    title: String,
    settings: Named,
    page: Named,
    printed: Vec<u8>,
}

/// The portal's stand-in.
struct Portal {
    does: Does,
    given: Arc<Mutex<Given>>,
}

const TOKEN: u32 = 77;

async fn answer(
    connection: &zbus::Connection,
    header: &Header<'_>,
    options: &Named,
    (code, results): (u32, HashMap<&str, Value<'_>>),
) -> OwnedObjectPath {
    let caller = header.sender().expect("a bus names its callers");
    let token: &str = options["handle_token"].downcast_ref().expect("a text");
    let own = caller.trim_start_matches(':').replace('.', "_");
    let path = format!("{PLACE}/request/{own}/{token}");
    let request = "org.freedesktop.portal.Request";
    connection
        .emit_signal(
            Some(caller.clone()),
            &*path,
            request,
            "Response",
            &(code, results),
        )
        .await
        .expect("sent");
    OwnedObjectPath::try_from(path).expect("a path")
}

/// Has a request on a path of the portal's own closed by the person, again and again until it is heard.
fn closed_on_its_path(connection: zbus::Connection, header: &Header<'_>) -> OwnedObjectPath {
    let path = format!("{PLACE}/request/own/1");
    let given = OwnedObjectPath::try_from(path.clone()).expect("a path");
    let caller = header.sender().expect("a bus names its callers").to_owned();
    std::thread::spawn(move || {
        let connection = Connection::from(connection);
        let results: HashMap<&str, Value<'_>> = HashMap::new();
        let request = "org.freedesktop.portal.Request";
        for _ in 0..100 {
            std::thread::sleep(std::time::Duration::from_millis(20));
            // The bus may be gone by now.
            let _ = connection.emit_signal(
                Some(caller.clone()),
                &*path,
                request,
                "Response",
                &(1_u32, &results),
            );
        }
    });
    given
}

#[zbus::interface(name = "org.freedesktop.portal.Print")]
impl Portal {
    #[expect(clippy::too_many_arguments, reason = "the interface has as many")]
    #[zbus(name = "PreparePrint")]
    async fn prepare(
        &self,
        parent: String,
        title: String,
        settings: Named,
        page_setup: Named,
        options: Named,
        #[zbus(connection)] connection: &zbus::Connection,
        #[zbus(header)] header: Header<'_>,
    ) -> OwnedObjectPath {
        {
            let mut given = self.given.lock().expect("not poisoned");
            assert_eq!(parent, "", "the dialog stands by itself");
            given.title = title;
            given.settings = settings;
            given.page = page_setup;
        }
        let answered = match self.does {
            Does::Closes => (1, HashMap::new()),
            Does::OnItsPath => {
                return closed_on_its_path(connection.clone(), &header);
            }
            Does::Dies => return OwnedObjectPath::try_from("/none/answers").expect("a path"),
            Does::Prints | Does::Fails => (0, HashMap::from([("token", Value::from(TOKEN))])),
        };
        answer(connection, &header, &options, answered).await
    }

    #[zbus(name = "Print")]
    async fn print(
        &self,
        parent: String,
        title: String,
        file: OwnedFd,
        options: Named,
        #[zbus(connection)] connection: &zbus::Connection,
        #[zbus(header)] header: Header<'_>,
    ) -> OwnedObjectPath {
        let token: u32 = options["token"].downcast_ref().expect("a number");
        assert_eq!((token, &*parent), (TOKEN, ""));
        let mut bytes = Vec::new();
        let mut file = std::fs::File::from(std::os::fd::OwnedFd::from(file));
        file.read_to_end(&mut bytes).expect("it can be read");
        {
            let mut given = self.given.lock().expect("not poisoned");
            assert_eq!(title, given.title);
            given.printed = bytes;
        }
        let code = if self.does == Does::Fails { 2 } else { 0 };
        answer(connection, &header, &options, (code, HashMap::new())).await
    }
}

fn portal_on(bus: &Bus, does: Does) -> (Connection, Arc<Mutex<Given>>) {
    let given = Arc::new(Mutex::new(Given::default()));
    let portal = Portal {
        does,
        given: Arc::clone(&given),
    };
    let connection = Builder::address(bus.address.as_str())
        .and_then(|builder| builder.name("org.freedesktop.portal.Desktop"))
        .and_then(|builder| builder.serve_at(PLACE, portal))
        .and_then(Builder::build)
        .expect("the stand-in serves");
    (connection, given)
}

fn job() -> PrintJob {
    PrintJob {
        title: "Setting sheet: greens 3".to_owned(),
        page: Page::Letter,
        is_lying: false,
        pdf: Arc::new(b"%PDF-1.7 and so on".repeat(10_000)),
    }
}

fn printed_on(bus: &Bus) -> Printed {
    let printer = PortalPrinter::new(egui::Context::default()).on_bus(&bus.address);
    printer.print(&job()).recv().expect("an answer")
}

#[test]
fn the_portal_gets_the_pdf_its_paper_and_its_title() {
    let Some(bus) = Bus::start() else { return };
    let (_portal, given) = portal_on(&bus, Does::Prints);
    assert_eq!(printed_on(&bus), Printed::Sent);
    let given = given.lock().unwrap();
    assert_eq!(given.printed, *job().pdf);
    assert_eq!(given.title, job().title);
    let text = |named: &Named, key: &str| -> String {
        let text: &str = named[key].downcast_ref().expect("a text");
        text.to_owned()
    };
    assert_eq!(text(&given.settings, "paper-format"), "na_letter");
    assert_eq!(text(&given.settings, "scale"), "100");
    assert_eq!(text(&given.page, "Orientation"), "portrait");
    let width_mm: f64 = given.page["Width"].downcast_ref().unwrap();
    assert!((width_mm - 215.9).abs() < 1e-9, "{width_mm}");
}

#[test]
fn a_closed_dialog_and_a_failing_portal_are_told_apart() {
    for (does, told) in [(Does::Closes, true), (Does::Fails, false)] {
        let Some(bus) = Bus::start() else { return };
        let (_portal, given) = portal_on(&bus, does);
        match printed_on(&bus) {
            Printed::GivenUp => assert!(told, "{does:?}"),
            Printed::NoDialog(why) => assert!(!told && why.contains("portal"), "{why}"),
            Printed::Sent => panic!("{does:?}"),
        }
        let is_handed_over = !given.lock().unwrap().printed.is_empty();
        assert_eq!(is_handed_over, does == Does::Fails);
    }
}

#[test]
fn a_bus_without_a_portal_and_no_bus_at_all_give_no_dialog() {
    let gone = {
        let Some(bus) = Bus::start() else { return };
        let Printed::NoDialog(why) = printed_on(&bus) else {
            panic!("there is no portal");
        };
        assert!(why.contains("print portal"), "{why}");
        bus.address.clone()
    };
    let printer = PortalPrinter::new(egui::Context::default()).on_bus(&gone);
    let told = printer.print(&job()).recv().expect("an answer");
    assert!(matches!(told, Printed::NoDialog(_)), "{told:?}");
}

#[test]
fn a_portal_that_takes_another_path_is_heard_there() {
    let Some(bus) = Bus::start() else { return };
    let (_portal, _given) = portal_on(&bus, Does::OnItsPath);
    assert_eq!(printed_on(&bus), Printed::GivenUp);
}

#[test]
fn a_portal_that_ends_before_it_answers_is_told_of() {
    let Some(bus) = Bus::start() else { return };
    let (portal, given) = portal_on(&bus, Does::Dies);
    let printer = PortalPrinter::new(egui::Context::default()).on_bus(&bus.address);
    let printing = printer.print(&job());
    while given.lock().expect("not poisoned").title.is_empty() {
        std::thread::yield_now();
    }
    portal.close().expect("it ends");
    let Printed::NoDialog(why) = printing.recv().expect("an answer") else {
        panic!("there is no portal any more");
    };
    assert!(!why.is_empty());
}
