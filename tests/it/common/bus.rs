//! A message bus for a stand-in of the desktop.

use std::io::{BufRead as _, BufReader};
use std::process::{Child, Command, Stdio};

/// A message bus of one test's own; ended with it.
pub struct Bus {
    daemon: Child,
    pub address: String,
}

impl Bus {
    /// Starts one; none where there is no `dbus-daemon`.
    pub fn start() -> Option<Self> {
        let started = Command::new("dbus-daemon")
            .args(["--session", "--nofork", "--nopidfile", "--print-address"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn();
        let Ok(mut daemon) = started else {
            eprintln!("not tried: there is no dbus-daemon here");
            return None;
        };
        let mut address = String::new();
        let out = daemon.stdout.take().expect("it is piped");
        BufReader::new(out)
            .read_line(&mut address)
            .expect("its address");
        Some(Self {
            daemon,
            address: address.trim().to_owned(),
        })
    }
}

impl Drop for Bus {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.daemon.kill();
        let _ = self.daemon.wait();
    }
}
