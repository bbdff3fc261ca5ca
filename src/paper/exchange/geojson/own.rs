//! What this program writes into a feature about its own.

use serde::{Deserialize, Serialize};

/// The foreign member `strandline` of a feature.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub(super) struct OwnMember {
    /// The number of the route's point, from one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) point: Option<usize>,
    /// Its stop and how the leg to it runs, in the form of the route file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) facts: Option<String>,
    /// The number of the leg whose line it is, from one: it ends at the point of the next number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) leg: Option<usize>,
}
