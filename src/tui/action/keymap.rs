//! Which key does what where.

use std::collections::BTreeMap;

use super::{Act, Action, Context, Key, KeyError, table};

/// The keys in force: the table's own, or a user's in their place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Keymap {
    keys: BTreeMap<Act, Vec<Key>>,
    acts: BTreeMap<(Context, Key), Act>,
}

impl Keymap {
    /// The keys of the table.
    ///
    /// # Errors
    /// [`KeyError`] for a row whose key is none; a test holds that there is no such row.
    pub fn standard() -> Result<Keymap, KeyError> {
        let mut map = Keymap { keys: BTreeMap::new(), acts: BTreeMap::new() };
        for row in table() {
            let keys = row.keys.iter().map(|key| key.parse()).collect::<Result<Vec<Key>, _>>()?;
            map.set(row, keys);
        }
        Ok(map)
    }

    /// Gives `row` these keys in place of those that it had.
    pub(super) fn set(&mut self, row: &Action, keys: Vec<Key>) {
        self.acts.retain(|_, act| *act != row.act);
        for context in row.contexts {
            for key in &keys {
                self.acts.insert((*context, *key), row.act);
            }
        }
        self.keys.insert(row.act, keys);
    }

    /// What `key` does in `context`.
    pub fn act(&self, context: Context, key: Key) -> Option<Act> {
        self.acts.get(&(context, key.normal())).copied()
    }

    /// The keys of an action, the one that is shown first.
    pub fn keys(&self, act: Act) -> &[Key] {
        self.keys.get(&act).map_or(&[], Vec::as_slice)
    }

    /// The key of an action that is shown, or nothing if it has none.
    pub fn shown(&self, act: Act) -> Option<String> {
        self.keys(act).first().map(Key::to_string)
    }
}
