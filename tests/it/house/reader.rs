//! Reads from the source which file uses what is written in which other.
//!
//! Every path counts that begins with `crate`, `super`, `self`, one of the file's own submodules or a
//! module that it imports. What a file hands on from another counts as that other's, so that a
//! neighbour reached through its `mod.rs` is no circle.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

pub type Segments = Vec<String>;

/// A file of the source.
pub struct Source {
    /// Where its module stands in the crate.
    pub module: Segments,
    /// Its code without remarks, texts and tests.
    pub code: String,
    /// What it imports: the path, the name it then has here, and whether it hands it on.
    imports: Vec<Import>,
}

struct Import {
    path: Segments,
    name: String,
    is_handed_on: bool,
}

impl Source {
    /// Whether it only declares modules and hands on what they hold: it writes no item of its own.
    pub fn only_puts_together(&self) -> bool {
        let declares = |statement: &str| {
            let mut words = past_attributes(statement).split_whitespace();
            let first = words.find(|word| !word.starts_with("pub"));
            matches!(first, None | Some("mod" | "use"))
        };
        self.code.split(';').all(declares)
    }
}

/// A statement without the attributes before it.
fn past_attributes(statement: &str) -> &str {
    let mut rest = statement.trim_start();
    while rest.starts_with("#[") || rest.starts_with("#![") {
        rest = rest
            .split_once("]\n")
            .map_or("", |(_, rest)| rest.trim_start());
    }
    rest
}

pub struct House {
    pub sources: BTreeMap<PathBuf, Source>,
    by_module: BTreeMap<Segments, PathBuf>,
}

impl House {
    pub fn read() -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        let mut house = Self {
            sources: BTreeMap::new(),
            by_module: BTreeMap::new(),
        };
        let mut files = Vec::new();
        files_below(&folder, &mut files);
        for file in files {
            let within = file.strip_prefix(&folder).unwrap().to_owned();
            if within == Path::new("main.rs") || within.ends_with("tests.rs") {
                continue;
            }
            let module = module_of(&within);
            let text = fs::read_to_string(&file).unwrap();
            let code = without_tests(&bare(&text)).to_owned();
            house.by_module.insert(module.clone(), within.clone());
            let imports = imports_of(&code);
            house.sources.insert(
                within,
                Source {
                    module,
                    code,
                    imports,
                },
            );
        }
        house
    }

    /// A path as written in a module, from the top of the crate; none for one of another crate.
    fn path_from_the_top(&self, module: &Segments, path: &[String]) -> Option<Segments> {
        let first = path.first()?.as_str();
        match first {
            "crate" => Some(path[1..].to_vec()),
            "self" | "super" => {
                let mut top = module.clone();
                let mut rest = path;
                while let Some(word) = rest.first() {
                    match word.as_str() {
                        "self" => {}
                        "super" => {
                            top.pop();
                        }
                        _ => break,
                    }
                    rest = &rest[1..];
                }
                Some([top, rest.to_vec()].concat())
            }
            _ => {
                let child = [module.clone(), vec![first.to_owned()]].concat();
                self.by_module
                    .contains_key(&child)
                    .then(|| [module.clone(), path.to_vec()].concat())
            }
        }
    }

    /// The deepest module of a path from the top, and the name asked of it; none for the module
    /// itself.
    fn module_and_name<'a>(&self, path: &'a [String]) -> (Segments, Option<&'a String>) {
        let deepest = (0..=path.len())
            .rev()
            .find(|&count| self.by_module.contains_key(&path[..count]))
            .unwrap_or(0);
        (path[..deepest].to_vec(), path.get(deepest))
    }

    /// The file in which what a path names is written, past whatever hands it on.
    fn home(&self, path: &[String]) -> &PathBuf {
        let (module, name) = self.module_and_name(path);
        let file = &self.by_module[&module];
        let Some(name) = name else { return file };
        // What a module imports from a part of its own, its other parts reach through it.
        let is_of_own_part = |import: &Import| {
            let path = self.path_from_the_top(&module, &import.path);
            path.is_some_and(|path| path.len() > module.len() && path.starts_with(&module))
        };
        let handed_on = self.sources[file]
            .imports
            .iter()
            .find(|import| import.name == *name && (import.is_handed_on || is_of_own_part(import)));
        match handed_on.and_then(|import| self.path_from_the_top(&module, &import.path)) {
            Some(further) if further != path => self.home(&further),
            _ => file,
        }
    }

    /// Every file with each of those it uses.
    pub fn uses(&self) -> impl Iterator<Item = (&PathBuf, &PathBuf)> {
        let used = |file: &PathBuf| self.used_by(file).into_iter();
        self.sources
            .keys()
            .flat_map(move |file| used(file).map(move |used| (file, used)))
    }

    /// The files whose contents a file uses.
    pub fn used_by(&self, file: &Path) -> BTreeSet<&PathBuf> {
        let source = &self.sources[file];
        let mut paths: Vec<Segments> = Vec::new();
        let mut modules: BTreeMap<&str, Segments> = BTreeMap::new();
        for import in &source.imports {
            let Some(path) = self.path_from_the_top(&source.module, &import.path) else {
                continue;
            };
            let is_module = self.by_module.contains_key(&path);
            if is_module && !import.is_handed_on {
                modules.insert(&import.name, path);
            } else if !import.is_handed_on {
                paths.push(path);
            }
        }
        for written in paths_in(&source.code) {
            let path = match modules.get(written[0].as_str()) {
                Some(module) => Some([module.clone(), written[1..].to_vec()].concat()),
                None => self.path_from_the_top(&source.module, &written),
            };
            paths.extend(path);
        }
        let mut used: BTreeSet<_> = paths.iter().map(|path| self.home(path)).collect();
        used.remove(&file.to_owned());
        used
    }
}

fn files_below(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files_below(&path, files);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            files.push(path);
        }
    }
}

fn module_of(file: &Path) -> Segments {
    let mut module: Segments = file
        .with_extension("")
        .iter()
        .map(|part| part.to_str().unwrap().to_owned())
        .collect();
    if matches!(module.last().map(String::as_str), Some("mod" | "lib")) {
        module.pop();
    }
    module
}

/// Code without remarks, and with every text and character empty.
fn bare(text: &str) -> String {
    let mut bare = String::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let length = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            panic!("a remark between /* and */ is not read here");
        } else if let Some(hashes) = raw_text(rest) {
            let closing = format!("\"{}", "#".repeat(hashes));
            let opening = hashes + 2;
            opening + rest[opening..].find(&closing).unwrap() + closing.len()
        } else if c == '"' {
            1 + text_length(&rest[1..])
        } else if let Some(length) = character_length(rest) {
            length
        } else {
            bare.push(c);
            rest = &rest[c.len_utf8()..];
            continue;
        };
        if c != '/' {
            bare.push_str("\"\"");
        }
        rest = &rest[length..];
    }
    bare
}

/// How many hashes stand before the quote of a raw text that begins here.
fn raw_text(rest: &str) -> Option<usize> {
    let after = rest.strip_prefix('r')?;
    let hashes = after.bytes().take_while(|&b| b == b'#').count();
    after[hashes..].starts_with('"').then_some(hashes)
}

/// The length of a text from past its opening quote to past its closing one.
fn text_length(rest: &str) -> usize {
    let mut is_escaped = false;
    for (at, c) in rest.char_indices() {
        match c {
            _ if is_escaped => is_escaped = false,
            '\\' => is_escaped = true,
            '"' => return at + 1,
            _ => {}
        }
    }
    panic!("a text without an end: {rest}");
}

/// The length of a character between quotes; none for a lifetime.
fn character_length(rest: &str) -> Option<usize> {
    let inner = rest.strip_prefix('\'')?;
    if inner.starts_with('\\') {
        return inner[2..].find('\'').map(|end| 1 + 2 + end + 1);
    }
    let c = inner.chars().next()?;
    inner[c.len_utf8()..]
        .starts_with('\'')
        .then_some(2 + c.len_utf8())
}

fn without_tests(code: &str) -> &str {
    code.split_once("#[cfg(test)]\nmod tests {")
        .map_or(code, |(code, _)| code)
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// The imports of a file's code.
fn imports_of(code: &str) -> Vec<Import> {
    let mut imports = Vec::new();
    let mut at = 0;
    while let Some(found) = code[at..].find("use ") {
        let start = at + found;
        at = start + "use ".len();
        let line = code[..start].rfind('\n').map_or(0, |line| line + 1);
        let before = code[line..start].trim();
        if !matches!(before, "" | "pub" | "pub(super)" | "pub(crate)") {
            continue;
        }
        let end = at + code[at..].find(';').unwrap();
        let tree: String = code[at..end]
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        spread(&tree, &[], !before.is_empty(), &mut imports);
        at = end;
    }
    imports
}

/// Spreads `a::{b, c::d}` into a path each.
fn spread(tree: &str, before: &[String], is_handed_on: bool, imports: &mut Vec<Import>) {
    let tree = tree.trim();
    if let Some((stem, inner)) = tree.split_once('{') {
        let inner = inner.trim().strip_suffix('}').unwrap();
        let stem = segments(stem.trim().trim_end_matches("::"));
        let before = [before, &stem].concat();
        let mut depth = 0;
        let mut start = 0;
        for (at, c) in inner.char_indices().chain([(inner.len(), ',')]) {
            match c {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 0 => {
                    if !inner[start..at].trim().is_empty() {
                        spread(&inner[start..at], &before, is_handed_on, imports);
                    }
                    start = at + 1;
                }
                _ => {}
            }
        }
        return;
    }
    let (path, name) = match tree.split_once(" as ") {
        Some((path, name)) => (path, Some(name.trim().to_owned())),
        None => (tree, None),
    };
    let mut path = [before, &segments(path)].concat();
    if path.len() > 1 && path.last().is_some_and(|last| last == "self") {
        path.pop();
    }
    let name = name.or_else(|| path.last().cloned()).unwrap_or_default();
    imports.push(Import {
        path,
        name,
        is_handed_on,
    });
}

fn segments(path: &str) -> Segments {
    path.split("::")
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .map(str::to_owned)
        .collect()
}

/// Every path of two words or more in a file's code, imports passed over.
fn paths_in(code: &str) -> Vec<Segments> {
    let mut paths = Vec::new();
    let mut path: Segments = Vec::new();
    let mut is_import = false;
    let mut rest = code;
    while !rest.is_empty() {
        let end = rest.find(|c| !is_word(c)).unwrap_or(rest.len());
        if end > 0 {
            let word = &rest[..end];
            is_import |= word == "use";
            path.push(word.to_owned());
            rest = &rest[end..];
            if let Some(further) = rest.strip_prefix("::")
                && further.starts_with(is_word)
            {
                rest = further;
                continue;
            }
        } else {
            let c = rest.chars().next().unwrap();
            is_import &= c != ';';
            rest = &rest[c.len_utf8()..];
        }
        if path.len() > 1 && !is_import {
            paths.push(std::mem::take(&mut path));
        }
        path.clear();
    }
    paths
}

#[test]
fn imports_are_read_as_the_language_reads_them() {
    let code = bare(
        "//! use crate::remark;\nuse a::{self, b::{C, D as E}, f};\npub(super) use g::H;\n\
        fn i<'a>(j: &'a str) -> char { let _ = \"use k::l; \\\" m::n\"; o::p::<q::R>(j, '\"'); '{' }",
    );
    let imports: Vec<_> = imports_of(&code)
        .into_iter()
        .map(|import| (import.path.join("::"), import.name, import.is_handed_on))
        .collect();
    let read =
        |path: &str, name: &str, is_handed_on| (path.to_owned(), name.to_owned(), is_handed_on);
    assert_eq!(
        imports,
        [
            read("a", "a", false),
            read("a::b::C", "C", false),
            read("a::b::D", "E", false),
            read("a::f", "f", false),
            read("g::H", "H", true),
        ]
    );
    assert_eq!(paths_in(&code), [["o", "p"], ["q", "R"]]);
}
