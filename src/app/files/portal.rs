//! The XDG desktop portal on the bus of the session: asked on a thread of its own, with a connection of its own
//! that is closed afterwards.

use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::Duration;

use egui::Context;
use zbus::blocking::connection::Builder;
use zbus::blocking::{Connection, Proxy};

/// Where the portal is on the bus.
pub(super) const PORTAL: &str = "org.freedesktop.portal.Desktop";
/// The object that has its interfaces, and under which its requests are.
pub(super) const PLACE: &str = "/org/freedesktop/portal/desktop";

/// The portal, as a window asks it.
#[derive(Clone, Debug)]
pub(super) struct Portal {
    ctx: Context,
    bus: Bus,
}

/// The bus that it is on: by its address, or that of the session.
#[derive(Clone, Debug)]
pub(super) struct Bus(Option<String>);

impl Portal {
    /// On the bus of the session; the window looks again once an answer is there.
    pub(super) fn new(ctx: Context) -> Self {
        let bus = Bus(None);
        Self { ctx, bus }
    }

    /// The same on another bus, by its address.
    pub(super) fn on_bus(self, address: &str) -> Self {
        let bus = Bus(Some(address.to_owned()));
        Self { bus, ..self }
    }

    /// Asks on a thread of its own, by this name. An answer that is none, like a thread that there is none for,
    /// ends the channel without one.
    pub(super) fn ask<T: Send + 'static>(
        &self,
        name: &str,
        ask: impl FnOnce(&Bus) -> Option<T> + Send + 'static,
    ) -> Receiver<T> {
        let (sender, answer) = channel();
        let Self { ctx, bus } = self.clone();
        let asking = thread::Builder::new().name(name.to_owned());
        // Without a thread the sender is dropped, which counts as no answer.
        let _ = asking.spawn(move || {
            if let Some(answer) = ask(&bus) {
                // The window may be closed by now.
                let _ = sender.send(answer);
            }
            // Before the window looks.
            drop(sender);
            ctx.request_repaint();
        });
        answer
    }
}

impl Bus {
    /// Lends one of the portal's interfaces. A call to it waits so long for its answer.
    ///
    /// # Errors
    /// When there is no such bus, or what is done with it fails.
    pub(super) fn with_portal<T, E: From<zbus::Error>>(
        &self,
        interface: &'static str,
        patience: Duration,
        done: impl FnOnce(&Connection, &Proxy<'_>) -> Result<T, E>,
    ) -> Result<T, E> {
        let builder = match &self.0 {
            None => Builder::session()?,
            Some(address) => Builder::address(address.as_str())?,
        };
        let connection = builder.method_timeout(patience).build()?;
        let portal = Proxy::new(&connection, PORTAL, PLACE, interface)?;
        let done = done(&connection, &portal);
        // Whoever still waits for an answer on it waits no more.
        let _ = connection.clone().close();
        done
    }
}
