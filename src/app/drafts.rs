//! Texts that are being typed, or that are wrong: they stay in their field until they are right.

use std::collections::BTreeMap;

/// A text that is not in the document, or not yet as it is written there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// As it stands in the field.
    pub text: String,
    /// Why it is wrong, if it is.
    pub problem: Option<String>,
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

    /// The first field with a wrong text.
    #[must_use]
    pub fn first_wrong(&self) -> Option<(&str, &Draft)> {
        let wrong = self.0.iter().find(|(_, draft)| draft.problem.is_some());
        wrong.map(|(path, draft)| (path.as_str(), draft))
    }
}
