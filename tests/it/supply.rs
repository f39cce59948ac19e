//! What the program is built from: crates of one registry, under licences that ask no more than to be
//! named or for files that are not changed to stay open, none of them for a network; and the list of them that the program shows.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Licences that ask no more than that they and their holders are named.
const FREE: [&str; 14] = [
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "OFL-1.1",
    "Ubuntu-font-1.0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// A licence that asks besides that its own files stay open where they are changed, which none is.
const OPEN_FILES: &str = "MPL-2.0";

/// Crates that speak to a network, or for one that does. What the desktop portal needs is none of
/// these: D-Bus over a socket of the same machine.
const NETWORKING: [&str; 28] = [
    "async-std",
    "attohttpc",
    "awc",
    "curl",
    "h2",
    "h3",
    "hickory-resolver",
    "http",
    "hyper",
    "isahc",
    "minreq",
    "native-tls",
    "openssl",
    "openssl-sys",
    "quinn",
    "reqwest",
    "ring",
    "rustls",
    "schannel",
    "security-framework",
    "sentry",
    "socket2",
    "surf",
    "tokio-rustls",
    "trust-dns-resolver",
    "tungstenite",
    "ureq",
    "zmq",
];

const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";

fn home() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A crate as the lock file has it.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Locked {
    name: String,
    version: String,
    /// None for our own.
    source: Option<String>,
}

/// Every crate that `Cargo.lock` holds, for whatever platform.
fn locked() -> Vec<Locked> {
    let text = fs::read_to_string(home().join("Cargo.lock")).expect("there is a lock file");
    let mut all = Vec::new();
    for part in text.split("[[package]]").skip(1) {
        let value = |key: &str| {
            let start = format!("{key} = \"");
            let line = part.lines().find_map(|line| line.strip_prefix(&start))?;
            Some(line.trim_end_matches('"').to_owned())
        };
        all.push(Locked {
            name: value("name").expect("a crate has a name"),
            version: value("version").expect("a crate has a version"),
            source: value("source"),
        });
    }
    all
}

/// The crates that the program names under About, "name version", each with its licence.
fn listed() -> BTreeMap<String, String> {
    let text = fs::read_to_string(home().join("assets/licences.txt")).expect("there is a list");
    let (list, _) = text.split_once("\n====").expect("texts follow the list");
    let lines = list.lines().filter_map(|line| line.split_once(": "));
    lines
        .map(|(of, licence)| (of.to_owned(), licence.to_owned()))
        .collect()
}

/// Whether a licence leaves a choice that is free: `OR` gives one, `AND` asks for both.
fn is_free(licence: &str) -> bool {
    let licence = licence.replace('/', " OR ");
    let words = licence.replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = words.split_whitespace().collect();
    let mut at = 0;
    let free = any_of(&words, &mut at);
    assert_eq!(at, words.len(), "\"{licence}\" was not read to its end");
    free
}

fn any_of(words: &[&str], at: &mut usize) -> bool {
    let mut free = all_of(words, at);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        free |= all_of(words, at);
    }
    free
}

fn all_of(words: &[&str], at: &mut usize) -> bool {
    let mut free = one(words, at);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        free &= one(words, at);
    }
    free
}

fn one(words: &[&str], at: &mut usize) -> bool {
    if words.get(*at) == Some(&"(") {
        *at += 1;
        let free = any_of(words, at);
        assert_eq!(words.get(*at), Some(&")"), "{words:?}");
        *at += 1;
        return free;
    }
    let mut name = (*words.get(*at).expect("a licence has a name")).to_owned();
    *at += 1;
    if words.get(*at) == Some(&"WITH") {
        name = format!("{name} WITH {}", words[*at + 1]);
        *at += 2;
    }
    FREE.contains(&name.as_str()) || name == OPEN_FILES
}

#[test]
fn every_crate_is_named_with_its_licence_and_no_other() {
    let locked = locked();
    assert!(locked.len() > 200, "only {} crates were read", locked.len());
    let built_from: BTreeSet<String> = locked
        .into_iter()
        .filter(|one| one.source.is_some())
        .map(|one| format!("{} {}", one.name, one.version))
        .collect();
    let named: BTreeSet<String> = listed().into_keys().collect();
    let missing: Vec<_> = built_from.difference(&named).collect();
    let left_over: Vec<_> = named.difference(&built_from).collect();
    assert!(
        missing.is_empty() && left_over.is_empty(),
        "assets/licences.txt lacks {missing:?} and names {left_over:?}; \
         `cargo test --test it -- --ignored write_the_licences_anew` writes it anew"
    );
}

#[test]
fn every_licence_asks_no_more_than_to_be_named_and_unchanged_files_to_stay_open() {
    assert!(is_free("MIT/Apache-2.0") && is_free("(MIT OR GPL-2.0-only) AND Unicode-3.0"));
    assert!(!is_free("GPL-2.0-only") && !is_free("MIT AND GPL-2.0-only"));
    let listed = listed();
    let bound: Vec<_> = listed
        .iter()
        .filter(|(_, licence)| !is_free(licence))
        .collect();
    assert!(bound.is_empty(), "{bound:#?}");
}

#[test]
fn every_crate_comes_from_one_registry_and_none_speaks_to_a_network() {
    for one in locked() {
        let is_ours = one.source.is_none() && one.name == env!("CARGO_PKG_NAME");
        assert!(
            is_ours || one.source.as_deref() == Some(REGISTRY),
            "{one:?}"
        );
        assert!(!NETWORKING.contains(&one.name.as_str()), "{one:?}");
    }
}

/// The files of a crate that hold its licences, those of fonts it brings among them.
fn licence_files(of: &Path) -> Vec<PathBuf> {
    const BEGINNINGS: [&str; 6] = ["LICEN", "COPYING", "COPYRIGHT", "NOTICE", "UNLICEN", "OFL"];
    let mut found = Vec::new();
    for folder in [
        of.to_owned(),
        of.join("fonts"),
        of.join("LICENSES"),
        of.join("licenses"),
    ] {
        let entries = fs::read_dir(folder).into_iter().flatten().flatten();
        let files = entries
            .map(|entry| entry.path())
            .filter(|path| path.is_file());
        found.extend(files.filter(|path| {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            let name = name.to_uppercase();
            let is_licence = BEGINNINGS.iter().any(|start| name.starts_with(start))
                || (name.contains(".TXT") && name.contains("LICEN"));
            is_licence && !name.contains("GPL") && !name.contains(".RS")
        }));
    }
    found.sort();
    let is_mit = |path: &&PathBuf| {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        name.to_uppercase().contains("MIT")
    };
    // Where a choice is given, this one is taken; what else must be named stands in files of its own.
    let also = |path: &&PathBuf| {
        let name = path.to_string_lossy().to_uppercase();
        ["UNICODE", "OFL", "UFL", "NOTICE", "COPYRIGHT", "FONTS"]
            .iter()
            .any(|word| name.contains(word))
    };
    if found.iter().any(|path| is_mit(&path)) {
        found.retain(|path| is_mit(&path) || also(&path));
    }
    found
}

/// Writes the list of crates and their licences' texts, from their sources as cargo has them.
#[test]
#[ignore = "writes assets/licences.txt; wants every crate fetched, `cargo fetch --locked`"]
fn write_the_licences_anew() {
    let out = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked"])
        .current_dir(home())
        .output()
        .expect("cargo runs");
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    let metadata: serde_json::Value = serde_json::from_slice(&out.stdout).expect("it is JSON");
    let crates = metadata["packages"].as_array().expect("packages");
    let mut list = BTreeSet::new();
    // By the text without its breaks, since the same words are set in many widths.
    let mut texts: BTreeMap<String, (String, BTreeSet<&str>)> = BTreeMap::new();
    let mut without = BTreeSet::new();
    for one in crates.iter().filter(|one| !one["source"].is_null()) {
        let told = |key: &str| one[key].as_str().unwrap_or_default();
        let (name, version) = (told("name"), told("version"));
        list.insert(format!("{name} {version}: {}", told("license")));
        let manifest = Path::new(told("manifest_path"));
        let files = licence_files(manifest.parent().expect("a manifest has a folder"));
        if files.is_empty() {
            let authors = one["authors"].as_array().into_iter().flatten();
            let mut by: Vec<&str> = authors.filter_map(serde_json::Value::as_str).collect();
            if by.is_empty() {
                by.push("its contributors");
            }
            without.insert(format!("{name}, {}, by {}", told("license"), by.join(", ")));
        }
        for file in files {
            let bytes = fs::read(&file).expect("it can be read");
            let text = String::from_utf8_lossy(&bytes).into_owned();
            let flowing = text.split_whitespace().collect::<Vec<_>>().join(" ");
            let (_, of) = texts.entry(flowing).or_insert((text, BTreeSet::new()));
            of.insert(name);
        }
    }
    let mut written =
        "Sweepgauge is built from these crates, for one platform or another, and for \
                       its tests:\n\n"
            .to_owned();
    for line in list {
        let _ = writeln!(written, "{line}");
    }
    let mut texts: Vec<_> = texts.into_values().collect();
    texts.sort_by(|(_, a), (_, b)| a.first().cmp(&b.first()));
    let rule = "=".repeat(72);
    let _ = writeln!(
        written,
        "\n{rule}\nThese bring no text of their licence; its words stand with others below:\n"
    );
    for line in without {
        let _ = writeln!(written, "{line}");
    }
    for (text, of) in texts {
        let of = of.into_iter().collect::<Vec<_>>().join(", ");
        let _ = writeln!(written, "\n{rule}\n{of}\n");
        for line in text.trim().lines() {
            let _ = writeln!(written, "{}", line.trim_end().replace('\t', "    "));
        }
    }
    fs::write(home().join("assets/licences.txt"), written).expect("it can be written");
}
