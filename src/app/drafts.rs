//! Texts that are being typed, or that are wrong: they stay in their field until they are right.

use std::collections::BTreeMap;

/// A text that is not in the document, or not yet as it is written there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// The field's name as a person reads it.
    pub name: String,
    /// As it stands in the field.
    pub text: String,
    /// What the document held when typing began, as it was written there; nothing for what was left
    /// out. Escape brings it back.
    pub kept: String,
    /// The widget it is typed into: the same field may be shown twice.
    pub holder: egui::Id,
    /// Why it is wrong, if it is.
    pub problem: Option<String>,
}

impl Draft {
    /// Which field holds it, and why it is wrong.
    #[must_use]
    pub fn told(&self) -> String {
        let problem = self.problem.as_deref().unwrap_or_default();
        format!(
            "The field \"{}\" holds \"{}\": {problem}",
            self.name, self.text
        )
    }
}

/// The drafts of a window, by the field's name in the unit file.
#[derive(Clone, Debug, Default)]
pub struct Drafts(BTreeMap<String, Draft>);

impl Drafts {
    /// The draft of a field.
    #[must_use]
    pub fn get(&self, path: &str) -> Option<&Draft> {
        self.0.get(path)
    }

    /// Keeps a draft.
    pub fn put(&mut self, path: &str, draft: Draft) {
        self.0.insert(path.to_owned(), draft);
    }

    /// Drops the draft of a field.
    pub fn remove(&mut self, path: &str) {
        self.0.remove(path);
    }

    /// Drops the drafts of a list and all that stands in it.
    pub fn remove_below(&mut self, list: &str) {
        self.0.retain(|path, _| !path.starts_with(list));
    }

    /// The first wrong text.
    #[must_use]
    pub fn first_wrong(&self) -> Option<&Draft> {
        self.0.values().find(|draft| draft.problem.is_some())
    }
}
