//! What is in hand, what is chosen, what the pointer holds.

use chart::Point;

/// The one thing in hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// Nothing: move, zoom, read.
    Look,
    /// The pencil: waypoints are dropped and moved.
    Plot {
        /// The waypoint taken up, which follows the cursor until it is put down.
        carried: Option<usize>,
    },
    /// The thread: a line is laid along the shore from anchor to anchor.
    Trace {
        /// The anchor taken up, which follows the cursor until it is put down.
        carried: Option<usize>,
    },
    /// Bearings of marks, which give a fix.
    Fix,
    /// A question of practice: what is read off at the cursor is not shown.
    Drill,
}

impl Hand {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Hand::Look => "look",
            Hand::Plot { carried: None } => "plot",
            Hand::Plot { carried: Some(_) } => "move",
            Hand::Trace { carried: None } => "trace",
            Hand::Trace { carried: Some(_) } => "anchor",
            Hand::Fix => "fix",
            Hand::Drill => "drill",
        }
    }

    /// The waypoint taken up.
    pub fn carried(self) -> Option<usize> {
        match self {
            Hand::Plot { carried } => carried,
            Hand::Look | Hand::Trace { .. } | Hand::Fix | Hand::Drill => None,
        }
    }

    /// Whether the thread is in hand.
    pub fn traces(self) -> bool {
        matches!(self, Hand::Trace { .. })
    }

    /// Whether what is in hand keeps changes of its own, apart from the route's.
    pub fn has_history(self) -> bool {
        self.traces() || self == Hand::Fix
    }

    /// The anchor of the trace taken up.
    pub fn carried_anchor(self) -> Option<usize> {
        match self {
            Hand::Trace { carried } => carried,
            Hand::Look | Hand::Plot { .. } | Hand::Fix | Hand::Drill => None,
        }
    }
}

/// What of the route is chosen. Both count from zero; leg `i` runs from waypoint `i` to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Chosen {
    /// A waypoint.
    Point(usize),
    /// A leg.
    Leg(usize),
}

/// What the pointer holds while its button is down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Held {
    /// The moment, on the curve of the tide.
    Moment,
    /// The chart, which moves along with the pointer.
    Chart {
        /// The point of the chart that stays under the pointer.
        grip: Point,
        /// The cell in which the button went down; nothing once the pointer has left it.
        from: Option<(u16, u16)>,
    },
    /// A waypoint, which moves along with the pointer.
    Waypoint {
        /// Which.
        index: usize,
        /// From the point under the pointer to the waypoint.
        grip: Point,
        /// The cell in which the button went down; nothing once the pointer has left it.
        from: Option<(u16, u16)>,
    },
    /// An anchor of the trace, which moves along with the pointer.
    Anchor {
        /// Which.
        index: usize,
        /// From the point under the pointer to the anchor.
        grip: Point,
        /// The cell in which the button went down; nothing once the pointer has left it.
        from: Option<(u16, u16)>,
    },
}
