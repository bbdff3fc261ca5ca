//! A set that was left, and was changed since.

/// What was changed of a set since it was left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Changed {
    /// What it asks.
    Set,
    /// Its chart.
    Chart,
}

impl Changed {
    /// That the set of this title, left at this place, begins anew, and that nothing of it is lost.
    #[must_use]
    pub fn told(self, title: &str, place: &str) -> String {
        let what = match self {
            Changed::Set => format!("“{title}” was edited since it was left"),
            Changed::Chart => format!("the chart of “{title}” was changed since the set was left"),
        };
        format!("{what} at {place}; it begins anew, and the answers stay in the record.")
    }
}
