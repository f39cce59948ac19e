//! A result that is kept until what it was made from changes.

/// A value and the key it was made for; made anew when it is asked for under another key.
#[derive(Clone, Debug)]
pub struct Kept<K, V>(Option<(K, V)>);

impl<K, V> Default for Kept<K, V> {
    fn default() -> Self {
        Self(None)
    }
}

impl<K: PartialEq, V> Kept<K, V> {
    /// The value for a key: the one that is kept, or one made now.
    pub fn get(&mut self, key: K, make: impl FnOnce(&K) -> V) -> &mut V {
        let kept = self.0.take().filter(|(had, _)| *had == key);
        let (_, value) = self.0.insert(kept.unwrap_or_else(|| {
            let value = make(&key);
            (key, value)
        }));
        value
    }

    /// What was made last, whatever it was made for.
    pub fn last(&self) -> Option<&V> {
        self.0.as_ref().map(|(_, value)| value)
    }

    /// Whether a value is kept for a key.
    #[cfg(test)]
    pub fn has(&self, key: &K) -> bool {
        self.0.as_ref().is_some_and(|(had, _)| had == key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_made_when_its_key_changes_and_at_no_other_time() {
        let mut kept = Kept::default();
        let mut made = 0;
        for key in [1, 1, 2, 2, 1] {
            let value = *kept.get(key, |key| {
                made += 1;
                key * 10
            });
            assert_eq!(value, key * 10);
            assert!(kept.has(&key) && !kept.has(&(key + 1)));
        }
        assert_eq!(made, 3);
    }
}
