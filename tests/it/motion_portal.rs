//! Whether the desktop asks for less motion, by its settings portal, against a stand-in for it on a message
//! bus of its own. Where there is no `dbus-daemon` to run that bus, these say so and try nothing.
#![cfg(all(unix, not(target_os = "macos")))]

use sweepgauge::app::{MotionWish as _, PortalMotion};
use zbus::blocking::Connection;
use zbus::blocking::connection::Builder;
use zbus::fdo;
use zbus::zvariant::{OwnedValue, Value};

use crate::common::bus::Bus;

/// A settings portal's stand-in: what it knows, and whether it is of the time before `ReadOne`.
#[derive(Clone, Copy, Debug)]
struct Portal {
    reduced_motion: Option<u32>,
    enable_animations: Option<bool>,
    is_old: bool,
}

impl Portal {
    fn known(self, space: &str, key: &str) -> fdo::Result<Value<'static>> {
        let known = match (space, key) {
            ("org.freedesktop.appearance", "reduced-motion") => {
                self.reduced_motion.map(Value::from)
            }
            ("org.gnome.desktop.interface", "enable-animations") => {
                self.enable_animations.map(Value::from)
            }
            _ => None,
        };
        known.ok_or_else(|| fdo::Error::Failed(format!("{space} has no {key}")))
    }
}

#[zbus::interface(name = "org.freedesktop.portal.Settings")]
impl Portal {
    #[zbus(name = "ReadOne")]
    fn read_one(&self, space: &str, key: &str) -> fdo::Result<OwnedValue> {
        if self.is_old {
            return Err(fdo::Error::UnknownMethod("ReadOne".to_owned()));
        }
        let known = self.known(space, key)?;
        OwnedValue::try_from(known).map_err(|error| fdo::Error::Failed(error.to_string()))
    }

    #[zbus(name = "Read")]
    fn read(&self, space: &str, key: &str) -> fdo::Result<OwnedValue> {
        // Wrapped once more than `ReadOne` has it.
        let known = Value::Value(Box::new(self.known(space, key)?));
        OwnedValue::try_from(known).map_err(|error| fdo::Error::Failed(error.to_string()))
    }
}

fn serving(bus: &Bus, portal: Portal) -> Connection {
    Builder::address(bus.address.as_str())
        .and_then(|builder| builder.name("org.freedesktop.portal.Desktop"))
        .and_then(|builder| builder.serve_at("/org/freedesktop/portal/desktop", portal))
        .and_then(Builder::build)
        .expect("the stand-in serves")
}

/// What the desktop on a bus says; none where it does not say.
fn asked(address: &str) -> Option<bool> {
    let wish = PortalMotion::new(egui::Context::default()).on_bus(address);
    wish.ask().recv().ok()
}

#[test]
fn a_desktop_is_heard_by_either_setting_in_a_new_portal_as_in_an_old_one() {
    for is_old in [false, true] {
        for (reduced_motion, enable_animations, is_less) in [
            (Some(1), None, Some(true)),
            (Some(0), None, Some(false)),
            // The first one decides where both are known.
            (Some(0), Some(false), Some(false)),
            (None, Some(false), Some(true)),
            (None, Some(true), Some(false)),
            (None, None, None),
        ] {
            let Some(bus) = Bus::start() else { return };
            let portal = Portal {
                reduced_motion,
                enable_animations,
                is_old,
            };
            let _serving = serving(&bus, portal);
            assert_eq!(asked(&bus.address), is_less, "{portal:?}");
        }
    }
}

#[test]
fn a_desktop_without_a_portal_and_no_bus_at_all_say_nothing() {
    let gone = {
        let Some(bus) = Bus::start() else { return };
        assert_eq!(asked(&bus.address), None);
        bus.address.clone()
    };
    assert_eq!(asked(&gone), None);
}
