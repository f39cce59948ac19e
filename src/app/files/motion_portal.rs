//! Whether the desktop asks for less motion, by its settings portal: the D-Bus interface
//! `org.freedesktop.portal.Settings` of the XDG desktop portal (the interface's own description, from
//! memory).
//!
//! Two settings say it: `reduced-motion` of `org.freedesktop.appearance` (1 asks for less), and where a
//! portal does not know that one, `enable-animations` of `org.gnome.desktop.interface` (false asks for
//! less).

use std::time::Duration;

use egui::Context;
use zbus::blocking::Proxy;
use zbus::zvariant::{OwnedValue, Value};

use super::portal::{Bus, Portal};
use crate::app::desk::{LessMotion, MotionWish};

const SETTINGS: &str = "org.freedesktop.portal.Settings";
/// Each setting with its name space.
const REDUCED: (&str, &str) = ("org.freedesktop.appearance", "reduced-motion");
const ANIMATIONS: (&str, &str) = ("org.gnome.desktop.interface", "enable-animations");
/// What asks for less motion under the first.
const LESS: u32 = 1;
/// How long a call may take: longer than any desktop needs.
const PATIENCE: Duration = Duration::from_secs(5);

/// Asks the portal, each time on a thread of its own.
#[derive(Clone, Debug)]
pub struct PortalMotion(Portal);

impl PortalMotion {
    /// On the bus of the session; the window looks again once the answer is there.
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

impl MotionWish for PortalMotion {
    fn ask(&self) -> LessMotion {
        self.0.ask("less motion", |bus| is_less_wanted(bus).ok()?)
    }
}

/// What the desktop says; none where neither setting is known.
fn is_less_wanted(bus: &Bus) -> zbus::Result<Option<bool>> {
    bus.with_portal(SETTINGS, PATIENCE, |_, portal| {
        let reduced = setting(portal, REDUCED).and_then(|value| u32::try_from(value).ok());
        Ok(match reduced {
            Some(reduced) => Some(reduced == LESS),
            None => setting(portal, ANIMATIONS)
                .and_then(|value| bool::try_from(value).ok())
                .map(|are_on| !are_on),
        })
    })
}

/// A setting; none where the portal does not know it. Portals of before 2022 know the older call alone, which
/// wraps what it answers once more.
fn setting(portal: &Proxy<'_>, (space, key): (&str, &str)) -> Option<OwnedValue> {
    let read = portal.call::<_, _, OwnedValue>("ReadOne", &(space, key));
    let value = read
        .or_else(|_| portal.call::<_, _, OwnedValue>("Read", &(space, key)))
        .ok()?;
    match &*value {
        Value::Value(inner) => inner.try_to_owned().ok(),
        _ => Some(value),
    }
}
