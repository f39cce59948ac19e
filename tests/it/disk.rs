//! The disk: what is no file is never opened, a save harms nobody's file, and what killed writers
//! left behind goes.

use std::ffi::OsString;
use std::fs::{self, File};
use std::path::Path;

use sweepgauge::store::{
    FileProblem, ReadProblem, WriteProblem, open_unit, read_text, save_unit, write_whole,
};
use sweepgauge::unit::{Document, most};
use tempfile::TempDir;

use crate::common::example::EXAMPLE;

fn example() -> Document {
    sweepgauge::unit::read_text(EXAMPLE).unwrap()
}

/// The names in a folder.
fn names_in(folder: &Path) -> Vec<OsString> {
    let mut names: Vec<OsString> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name())
        .collect();
    names.sort();
    names
}

#[test]
fn a_unit_that_would_make_too_large_a_file_is_not_saved() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    save_unit(&example(), &file).unwrap();
    let before = fs::read(&file).unwrap();
    let mut large = example();
    let knife = large.options[0].clone();
    large.options.clear();
    for number in 0..120 {
        let mut knife = knife.clone();
        knife.name = format!("knife {number}");
        knife.notes = Some("a".repeat(most::NOTES_LETTERS - 1));
        large.options.push(knife);
    }
    let problem = save_unit(&large, &file).unwrap_err();
    assert!(
        matches!(problem, FileProblem::Oversized { bytes, .. } if bytes > most::FILE_BYTES),
        "{problem}"
    );
    let said = problem.to_string();
    assert!(said.contains("a unit file has at most 1000000"), "{said}");
    assert_eq!(fs::read(&file).unwrap(), before);
    assert_eq!(names_in(folder.path()), ["unit.ron"]);
}

#[test]
fn a_unit_that_makes_no_sense_is_not_saved() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("unit.ron");
    save_unit(&example(), &file).unwrap();
    let before = fs::read(&file).unwrap();
    let mut flawed = example();
    flawed.reel.blades = 0;
    let problem = save_unit(&flawed, &file).unwrap_err();
    assert!(matches!(problem, FileProblem::Flawed { .. }), "{problem}");
    let said = problem.to_string();
    assert!(said.contains("reel.blades: a reel needs"), "{said}");
    assert_eq!(fs::read(&file).unwrap(), before);
}

#[test]
fn a_folder_is_neither_read_nor_replaced() {
    let folder = TempDir::new().unwrap();
    let problem = read_text(folder.path(), 1000).unwrap_err();
    assert!(matches!(problem, ReadProblem::NoFile(_)), "{problem}");
    let said = open_unit(folder.path()).unwrap_err().to_string();
    assert!(
        said.ends_with("cannot be read: this is a folder, not a file"),
        "{said}"
    );
    let problem = write_whole(folder.path(), b"text").unwrap_err();
    assert!(
        matches!(problem, WriteProblem::NoFile("a folder")),
        "{problem}"
    );
}

#[test]
fn where_no_folder_is_the_folder_is_told_and_no_temporary_copy() {
    let folder = TempDir::new().unwrap();
    let missing = folder.path().join("no such folder");
    let said = save_unit(&example(), &missing.join("unit.ron"))
        .unwrap_err()
        .to_string();
    let told = format!("there is no folder {}", missing.display());
    assert!(said.contains(&told), "{said}");
    assert!(!said.contains(".sweepgauge-"), "{said}");
}

/// Copies are named after the process that writes them; no system counts processes so far.
const DEAD: &str = ".sweepgauge-4294967294-AbCdEf";

#[test]
fn a_save_clears_what_dead_writers_left_and_no_more() {
    let folder = TempDir::new().unwrap();
    let path = |name: &str| folder.path().join(name);
    fs::write(path(DEAD), "half a un").unwrap();
    // Of a living writer, just made: this very process.
    let living = format!(".sweepgauge-{}-AbCdEf", std::process::id());
    fs::write(path(&living), "half").unwrap();
    // Young, and of who knows which machine.
    fs::write(path(".sweepgauge-AbCdEf"), "half").unwrap();
    // Still being written, whatever its name says.
    let locked = ".sweepgauge-4294967293-AbCdEf";
    fs::write(path(locked), "half").unwrap();
    let writer = File::open(path(locked)).unwrap();
    writer.lock().unwrap();
    fs::create_dir(path(".sweepgauge-4294967292-folder")).unwrap();
    fs::write(path(".sweepgauge.ron"), "somebody's own").unwrap();
    // Old, so dead whoever wrote it.
    let old = File::create(path(".sweepgauge-Old123")).unwrap();
    let long_ago = std::time::SystemTime::now() - std::time::Duration::from_hours(1);
    old.set_modified(long_ago).unwrap();
    drop(old);

    save_unit(&example(), &path("unit.ron")).unwrap();
    let mut kept: Vec<OsString> = [
        ".sweepgauge-4294967292-folder",
        locked,
        living.as_str(),
        ".sweepgauge-AbCdEf",
        ".sweepgauge.ron",
        "unit.ron",
    ]
    .map(OsString::from)
    .to_vec();
    if !Path::new("/proc/self").exists() {
        // Nobody can tell which processes there are.
        kept.push(DEAD.into());
    }
    kept.sort();
    assert_eq!(names_in(folder.path()), kept);
}

#[cfg(unix)]
mod unix {
    use std::os::unix::fs::{PermissionsExt as _, symlink};
    use std::process::Command;
    use std::sync::mpsc;
    use std::thread;
    use std::time::Duration;

    use super::*;

    /// What a task gives; that it has not ended after some seconds is a failure.
    fn in_time<T: Send + 'static>(task: impl FnOnce() -> T + Send + 'static) -> T {
        let (sender, receiver) = mpsc::channel();
        thread::spawn(move || sender.send(task()));
        receiver
            .recv_timeout(Duration::from_secs(20))
            .expect("it waits for what never comes")
    }

    #[test]
    fn a_pipe_is_refused_before_it_is_opened() {
        let folder = TempDir::new().unwrap();
        let pipe = folder.path().join("pipe.ron");
        let made = Command::new("mkfifo").arg(&pipe).status().unwrap();
        assert!(made.success());
        let said = in_time({
            let pipe = pipe.clone();
            move || open_unit(&pipe).unwrap_err().to_string()
        });
        assert!(
            said.contains("this is a pipe or a device, not a file"),
            "{said}"
        );
        let said = in_time({
            let pipe = pipe.clone();
            move || save_unit(&example(), &pipe).unwrap_err().to_string()
        });
        assert!(
            said.contains("there is a pipe or a device of that name"),
            "{said}"
        );
        assert_eq!(names_in(folder.path()), ["pipe.ron"]);
        let said = in_time(|| open_unit(Path::new("/dev/zero")).unwrap_err().to_string());
        assert!(said.contains("this is a pipe or a device"), "{said}");
    }

    #[test]
    fn a_link_to_where_no_file_is_yet_leads_there() {
        let folder = TempDir::new().unwrap();
        let path = |name: &str| folder.path().join(name);
        fs::create_dir(path("store")).unwrap();
        symlink("second.ron", path("first.ron")).unwrap();
        symlink("store/unit.ron", path("second.ron")).unwrap();
        save_unit(&example(), &path("first.ron")).unwrap();
        assert_eq!(open_unit(&path("store/unit.ron")).unwrap(), example());
        assert_eq!(
            fs::read_link(path("first.ron")).unwrap(),
            Path::new("second.ron")
        );
        assert_eq!(
            names_in(folder.path()),
            ["first.ron", "second.ron", "store"]
        );

        symlink("round.ron", path("about.ron")).unwrap();
        symlink("about.ron", path("round.ron")).unwrap();
        let said = save_unit(&example(), &path("about.ron"))
            .unwrap_err()
            .to_string();
        assert!(said.contains("lead back to themselves"), "{said}");
    }

    #[test]
    fn a_stray_name_that_is_a_link_is_left_alone() {
        let folder = TempDir::new().unwrap();
        let path = |name: &str| folder.path().join(name);
        fs::write(path("kept.txt"), "mine").unwrap();
        symlink("kept.txt", path(DEAD)).unwrap();
        save_unit(&example(), &path("unit.ron")).unwrap();
        assert_eq!(fs::read_to_string(path("kept.txt")).unwrap(), "mine");
        assert!(path(DEAD).exists());
    }

    #[test]
    fn a_new_file_is_as_open_as_any_other_new_file() {
        let folder = TempDir::new().unwrap();
        let path = |name: &str| folder.path().join(name);
        let mode = |name: &str| fs::metadata(path(name)).unwrap().permissions().mode() & 0o777;
        fs::write(path("any.txt"), "").unwrap();
        save_unit(&example(), &path("unit.ron")).unwrap();
        assert_eq!(mode("unit.ron"), mode("any.txt"));
        fs::set_permissions(path("unit.ron"), fs::Permissions::from_mode(0o600)).unwrap();
        save_unit(&example(), &path("unit.ron")).unwrap();
        assert_eq!(mode("unit.ron"), 0o600);
    }
}

/// A small disk of its own, where the system lets one be made.
#[cfg(target_os = "linux")]
struct SmallDisk(TempDir);

#[cfg(target_os = "linux")]
impl SmallDisk {
    fn new() -> Option<Self> {
        let folder = TempDir::new().unwrap();
        let made = std::process::Command::new("mount")
            .args(["-t", "tmpfs", "-o", "size=64k", "tmpfs"])
            .arg(folder.path())
            .stderr(std::process::Stdio::null())
            .status();
        made.is_ok_and(|made| made.success())
            .then_some(Self(folder))
    }
}

#[cfg(target_os = "linux")]
impl Drop for SmallDisk {
    fn drop(&mut self) {
        let _ = std::process::Command::new("umount")
            .arg(self.0.path())
            .status();
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_leaves_what_was_there_and_is_told() {
    // Only the system's owner can make a small disk; a test in `files.rs` runs out of room for anybody.
    let Some(disk) = SmallDisk::new() else {
        eprintln!("not run: only the system's owner can make a small disk");
        return;
    };
    let path = |name: &str| disk.0.path().join(name);
    save_unit(&example(), &path("unit.ron")).unwrap();
    let before = fs::read(path("unit.ron")).unwrap();
    fs::write(path("picture.svg"), "an older picture").unwrap();
    // All that is left.
    let _ = fs::write(path("filler"), vec![0; 1 << 20]);
    let said = save_unit(&example(), &path("unit.ron"))
        .unwrap_err()
        .to_string();
    assert!(
        said.contains("there is no room left for it on the disk"),
        "{said}"
    );
    assert_eq!(fs::read(path("unit.ron")).unwrap(), before);
    let said = write_whole(&path("picture.svg"), &vec![b'a'; 40_000])
        .unwrap_err()
        .to_string();
    assert_eq!(said, "there is no room left for it on the disk");
    assert_eq!(
        fs::read_to_string(path("picture.svg")).unwrap(),
        "an older picture"
    );
    assert_eq!(
        names_in(disk.0.path()),
        ["filler", "picture.svg", "unit.ron"]
    );
}
