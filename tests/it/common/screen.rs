//! A screen of a test's own, and hands that type into the window on it.

use std::io::{BufRead as _, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use sweepgauge::store::recovery::Work;
use tempfile::TempDir;

/// How long a machine may take over what is waited for.
const PATIENCE: Duration = Duration::from_mins(1);

/// Waits until there is something.
pub fn wait_for<T>(what: &str, mut look: impl FnMut() -> Option<T>) -> T {
    let begun = Instant::now();
    loop {
        if let Some(found) = look() {
            return found;
        }
        assert!(begun.elapsed() < PATIENCE, "no {what}");
        sleep(Duration::from_millis(20));
    }
}

/// An X server without a screen one can see.
pub struct Screen {
    server: Child,
    name: String,
}

impl Screen {
    /// Starts one.
    pub fn new() -> Self {
        let mut server = Command::new("Xvfb")
            .args([
                "-displayfd",
                "1",
                "-screen",
                "0",
                "1366x768x24",
                "-nolisten",
                "tcp",
            ])
            // Without the last it begins anew whenever the only hands on it let go.
            .args(["+extension", "GLX", "-noreset"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb is there");
        let mut line = String::new();
        let told = server.stdout.take().expect("what it tells");
        BufReader::new(told)
            .read_line(&mut line)
            .expect("the display's number");
        let name = format!(":{}", line.trim());
        Self { server, name }
    }

    /// Takes it away from whatever is on it.
    pub fn kill(&mut self) {
        self.server.kill().expect("it goes");
        self.server.wait().expect("it went");
    }

    /// Has hands do something, as `xdotool` names it.
    fn hands(&self, actions: &[&str]) -> Option<String> {
        let mut hands = Command::new("xdotool");
        let done = hands.args(actions).env("DISPLAY", &self.name).output();
        let done = done.expect("xdotool is there");
        let said = String::from_utf8_lossy(&done.stdout).trim().to_owned();
        done.status.success().then_some(said)
    }

    /// Shows a program's window here.
    pub fn show(&self, program: &mut Command) {
        program
            .env("DISPLAY", &self.name)
            .env("LIBGL_ALWAYS_SOFTWARE", "1")
            .env_remove("WAYLAND_DISPLAY")
            .env_remove("WAYLAND_SOCKET");
    }

    /// Gives a window the keyboard once it stands on the screen.
    pub fn focus(&self, process: u32) {
        let process = process.to_string();
        wait_for("window", || {
            let found = self.hands(&["search", "--onlyvisible", "--pid", &process])?;
            self.hands(&["windowfocus", found.lines().last()?])
        });
    }

    fn press(&self, key: &str) {
        self.hands(&["key", key]).expect("a key");
    }

    /// Replaces what stands in the field that has the keyboard.
    pub fn enter(&self, text: &str) {
        let typed = self.hands(&["key", "ctrl+a", "type", "--delay", "2", text]);
        typed.expect("a text");
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        // It may be gone already.
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

/// The program with a home of its own, a file open in it.
pub struct Home {
    folder: TempDir,
}

impl Home {
    /// One in which a unit file lies.
    pub fn new(text: &str) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("unit.ron"), text).expect("it is written");
        Self { folder }
    }

    /// The unit file.
    pub fn file(&self) -> PathBuf {
        self.folder.path().join("unit.ron")
    }

    /// Where the program keeps work.
    pub fn recovery(&self) -> PathBuf {
        self.folder.path().join("sweepgauge/recovery")
    }

    /// The program, to be run on a screen, with what it tells to be read.
    pub fn program(&self, screen: &Screen) -> Command {
        let mut program = Command::new(env!("CARGO_BIN_EXE_sweepgauge"));
        let home: &Path = self.folder.path();
        for name in ["HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME"] {
            program.env(name, home);
        }
        screen.show(&mut program);
        program.stderr(Stdio::piped());
        program
    }

    /// The program with a home that cannot be written.
    pub fn program_without_home(&self, screen: &Screen) -> Command {
        let mut program = self.program(screen);
        // A file where its folder would be, which stops whoever runs it.
        program.env("XDG_DATA_HOME", self.file());
        program
    }

    /// The window on the unit file, the keyboard in a field of it in which `text` stands.
    pub fn window(&self, screen: &Screen, text: &str) -> Child {
        let mut program = self.program(screen);
        program.arg("window").arg(self.file());
        let window = program.spawn().expect("the program runs");
        screen.focus(window.id());
        // Keys may come before the first card is away or the window is there at all; a second Tab goes on
        // to the next field.
        screen.press("Escape");
        wait_for("kept work", || {
            sleep(Duration::from_millis(300));
            screen.press("Tab");
            sleep(Duration::from_millis(100));
            screen.enter(text);
            let until = Instant::now() + Duration::from_secs(2);
            while Instant::now() < until {
                if self.kept().contains(text) {
                    return Some(());
                }
                sleep(Duration::from_millis(20));
            }
            None
        });
        window
    }

    /// The text of all files in which work is kept.
    pub fn kept(&self) -> String {
        self.kept_texts().collect()
    }

    /// The work that is kept.
    pub fn works(&self) -> Vec<Work> {
        self.kept_texts()
            .map(|text| ron::from_str(&text).expect("it is written whole or not at all"))
            .collect()
    }

    fn kept_texts(&self) -> impl Iterator<Item = String> {
        let entries = std::fs::read_dir(self.recovery()).into_iter().flatten();
        let files = entries.flatten().map(|entry| entry.path());
        let works =
            files.filter(|file| file.extension().is_some_and(|ending| ending == "recovery"));
        // One that is just being replaced is read at the next look.
        works.filter_map(|file| std::fs::read_to_string(file).ok())
    }
}
